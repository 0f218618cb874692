/* remedy.c - which change helps most against a finding: words, by kind of check. How much
 * of it is needed, the same assessment with the change says. */
#include "html.h"

#include <math.h>
#include <string.h>

static const char hung[] = "let the log bear on a cap or a post; else more, thicker and "
                           "longer fasteners, further from edges and ends";

static const struct {
    const char *post, *other; /* for a post; for everything that spans */
} remedies[BW_CHECK_KIND_COUNT] = {
    [BW_CHECK_BENDING] = {"braces, or a thicker post",
                          "a thicker log, or a shorter span: bents closer together"},
    [BW_CHECK_SHEAR] = {"braces, or a thicker post",
                        "a thicker log, or a shallower notch at its end"},
    [BW_CHECK_COMPRESSION] = {"a thicker post", "a thicker log"},
    [BW_CHECK_COMBINED] = {"braces, or a thicker post",
                           "a thicker log, or a shorter span: bents closer together"},
    [BW_CHECK_BEARING] = {"a wider seat: a deeper flat, or a thicker log",
                          "a wider seat: a deeper flat, or a thicker log"},
    [BW_CHECK_END_BEARING] = {"a thicker post", "a thicker log"},
    [BW_CHECK_DEFLECTION] = {"a thicker post, or braces",
                             "a thicker log, or a shorter span: bents closer together"},
    [BW_CHECK_SAG] = {"a thicker post, or braces",
                      "a thicker log, or a shorter span: bents closer together"},
    [BW_CHECK_SOIL_LATERAL] = {"deeper holes, or braces", "deeper holes, or braces"},
    [BW_CHECK_SOIL_BEARING] = {"a larger pad under the post",
                               "more sill on the ground: a thicker or longer one"},
    [BW_CHECK_UPLIFT] = {"a deeper hole",
                         "a narrower deck, rows further apart, or a longer sill"},
    [BW_CHECK_BUCKLING] = {"braces, thicker posts or deeper holes",
                           "braces, thicker posts or deeper holes"},
    [BW_CHECK_JOINT] = {"more or thicker fasteners", hung},
    [BW_CHECK_SPLIT] = {NULL, hung},
    [BW_CHECK_LIFT] = {"longer fasteners, or more of them",
                       "longer fasteners, or more of them"},
    [BW_CHECK_ANGLE] = {"a deeper notch, or a thicker brace",
                        "a deeper notch, or a thicker brace"},
};

/* Boards lie across: what the bents do is nothing to them. */
static const char boards[] =
    "thicker or wider boards, a better grade of them, or rows of "
    "stringers closer together";

const char *bwi_remedy(bw_arena *arena, const bw_finding *finding)
{
    const char *role = finding->role != NULL ? finding->role : "";
    const char *words = strcmp(role, "post") == 0 ? remedies[finding->check->kind].post
                        : strcmp(role, "boards") == 0
                            ? boards
                            : remedies[finding->check->kind].other;
    const char *check = bwi_check_words(arena, finding->check->id);
    if (check == NULL) {
        return NULL;
    }
    if (bwi_finding_verdict(finding) == BW_CANNOT_SAY) {
        return bw_arena_print(arena, "%s, %s: %s", finding->member, check,
                              finding->note != NULL ? finding->note
                                                    : "give what is missing; its working "
                                                      "shows which value is not known");
    }
    if (words == NULL) {
        words = "its working shows what counts most";
    }
    return bw_arena_print(arena, "%s, %s: %s", finding->member, check, words);
}
