/* remedy.c - which change helps most against a finding: words, by kind of check. How much
 * of it is needed, the same assessment with the change says. */
#include "html.h"

#include <math.h>
#include <string.h>

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
    [BW_CHECK_UPLIFT] = {"a deeper hole", "a deeper hole"},
    [BW_CHECK_BUCKLING] = {"braces, thicker posts or deeper holes",
                           "braces, thicker posts or deeper holes"},
};

const char *bwi_remedy(bw_arena *arena, const bw_finding *finding)
{
    const bool post = finding->role != NULL && strcmp(finding->role, "post") == 0;
    const char *words =
        post ? remedies[finding->check->kind].post : remedies[finding->check->kind].other;
    if (bwi_finding_verdict(finding) == BW_CANNOT_SAY) {
        return bw_arena_print(arena, "%s, %s: %s", finding->member, finding->check->id,
                              finding->note != NULL ? finding->note
                                                    : "give what is missing; its working "
                                                      "shows which value is not known");
    }
    if (words == NULL) {
        words = "its working shows what counts most";
    }
    return bw_arena_print(arena, "%s, %s: %s", finding->member, finding->check->id,
                          words);
}
