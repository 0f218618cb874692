/* text.c - the assessment for a person in the woods, in the order and the words of the
 * record: the verdict first, the cautions last. */
#include "internal.h"

enum { LOOK_AT_FIRST = 5 };

static void print_head(const bw_case *deck, bw_text *out)
{
    bwi_title_line lines[BWI_TITLE_LINES];
    const size_t n = bwi_title_lines(deck, out, lines);
    bwi_paragraph(out, "", bwi_title(deck));
    for (size_t i = 0; i < n; i++) {
        if (lines[i].text != NULL) {
            const char *lead = bw_arena_print(out->arena, "%s: ", lines[i].term);
            bwi_paragraph(out, bwi_or_fail(out, lead), lines[i].text);
        }
    }
}

static void print_first_looks(const bw_assessment *assessment, bw_text *out)
{
    const bw_finding *first[LOOK_AT_FIRST] = {0};
    const size_t count = bwi_rank(assessment, first, LOOK_AT_FIRST);
    bw_text_add(out, "\nLook at these first:\n");
    for (size_t i = 0; i < count; i++) {
        const char *lead = bw_arena_print(out->arena, "  %zu. ", i + 1);
        bwi_paragraph(out, bwi_or_fail(out, lead),
                      bwi_first_look(first[i], assessment->deck->units, out));
        if (first[i]->note != NULL) {
            bwi_paragraph(out, "     note: ", first[i]->note);
        }
    }
    if (count == 0) {
        bw_text_add(out, "  Nothing could be checked.\n");
    }
}

static void print_verdict(const bw_assessment *assessment, bw_text *out)
{
    const char *verdict = bw_report_verdict_text(out->arena, assessment);
    bwi_text_section(out, "verdict");
    bwi_paragraph(out, "", bwi_or_fail(out, verdict));
    bwi_text_to_do(assessment, out);
    print_first_looks(assessment, out);
    bwi_text_buckled(assessment, out);
}

void bwi_text_list(const char *id, const char *const *items, bw_text *out)
{
    bwi_text_section(out, id);
    for (; items != NULL && *items != NULL; items++) {
        bwi_paragraph(out, "  - ", *items);
    }
}

void bw_report_text(const bw_assessment *assessment, bw_text *out)
{
    print_head(assessment->deck, out);
    print_verdict(assessment, out);
    if (assessment->governing != NULL) {
        bwi_text_section(out, "by-hand");
        bwi_text_working(assessment->governing, assessment->deck->units, out);
    }
    bwi_text_sketch(assessment, out);
    bwi_text_members(assessment, out);
    bwi_text_materials(assessment, out);
    bwi_text_loads(assessment, out);
    bwi_text_strengths(assessment, out);
    bwi_text_grades(assessment, out);
    bwi_text_site(assessment, out);
    bwi_text_list("not-checked", assessment->not_checked, out);
    bwi_text_list("cautions", assessment->cautions, out);
}
