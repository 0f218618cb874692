/* text.c - the assessment for a person in the woods: the verdict first, the cautions
 * last. */
#include "internal.h"

enum { LOOK_AT_FIRST = 5 };

static const char *verdict_words(bw_verdict verdict)
{
    switch (verdict) {
    case BW_WITHIN:
        return "WITHIN LIMITS of the checks made here";
    case BW_OVER:
        return "OVER";
    default:
        return "CANNOT SAY";
    }
}

static const char *verdict_link(bw_verdict verdict)
{
    switch (verdict) {
    case BW_WITHIN:
        return "; nearest to its limit: ";
    case BW_OVER:
        return ": ";
    default:
        return ", something needed is missing or out of range; nearest to its limit: ";
    }
}

void bwi_finding_line(const bw_finding *finding, bw_units units, bw_text *out)
{
    const char *percent = bwi_percent(out->arena, finding->ratio.utilisation, 1);
    bw_text_print(out, "%s, %s", finding->member, finding->check->id);
    if (bwi_finding_verdict(finding) == BW_CANNOT_SAY) {
        bw_text_add(out, ", which cannot be worked out");
    } else {
        bw_text_print(out, " at %s %% of its capacity", bwi_or_fail(out, percent));
    }
    bw_text_add(out, bwi_or_fail(out, bwi_finding_where(out->arena, finding, units)));
}

const char *bw_report_verdict_text(bw_arena *arena, const bw_assessment *assessment)
{
    const bw_verdict verdict = bw_report_verdict(assessment);
    bw_text line = bw_text_new(arena);
    bw_text_add(&line, verdict_words(verdict));
    if (assessment->governing == NULL) {
        bw_text_add(&line, ": nothing could be checked");
    } else {
        bw_text_add(&line, verdict_link(verdict));
        bwi_finding_line(assessment->governing, assessment->deck->units, &line);
    }
    return bw_text_string(&line);
}

static void print_verdict(const bw_assessment *assessment, bw_text *out)
{
    bw_text_add(out, "\n");
    bwi_paragraph(out, "",
                  bwi_or_fail(out, bw_report_verdict_text(out->arena, assessment)));
}

static void print_head(const bw_case *deck, bw_text *out)
{
    const struct {
        const char *lead, *text;
    } lines[] = {{"place: ", deck->place},
                 {"builder: ", deck->builder},
                 {"landowner: ", deck->landowner}};
    bwi_paragraph(out, "", deck->title == NULL ? "Untitled deck" : deck->title);
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        if (lines[i].text != NULL) {
            bwi_paragraph(out, lines[i].lead, lines[i].text);
        }
    }
}

static void print_first_looks(const bw_assessment *assessment, bw_text *out)
{
    const bw_finding *first[LOOK_AT_FIRST] = {0};
    const size_t count = bwi_rank(assessment, first, LOOK_AT_FIRST);
    bwi_heading(out, "Look at these first");
    for (size_t i = 0; i < count; i++) {
        bw_text line = bw_text_new(out->arena);
        if (bwi_finding_verdict(first[i]) == BW_OVER) {
            bw_text_add(&line, "OVER: ");
        }
        bwi_finding_line(first[i], assessment->deck->units, &line);
        const char *lead = bw_arena_print(out->arena, "  %zu. ", i + 1);
        bwi_paragraph(out, bwi_or_fail(out, lead),
                      bwi_or_fail(out, bw_text_string(&line)));
        if (first[i]->note != NULL) {
            bwi_paragraph(out, "     note: ", first[i]->note);
        }
    }
    if (count == 0) {
        bw_text_add(out, "  Nothing could be checked.\n");
    }
}

static void print_list(const char *heading, const char *const *items, bw_text *out)
{
    bwi_heading(out, heading);
    for (; items != NULL && *items != NULL; items++) {
        bwi_paragraph(out, "  - ", *items);
    }
}

static void print_origin(const bw_assessment *assessment, bw_text *out)
{
    const bw_species_table *tables = assessment->deck->species;
    const char *version =
        tables == NULL || tables->version == NULL ? "?" : tables->version;
    bwi_heading(out, "Origin");
    bw_text_print(out, "  bolewright %s, species tables %s\n", bw_version, version);
    bw_text_print(
        out, "  out-of-balance force %.1e of the largest, reciprocal condition %.1e\n",
        assessment->worst_residual, assessment->worst_rcond);
}

void bw_report_text(const bw_assessment *assessment, bw_text *out)
{
    print_head(assessment->deck, out);
    print_verdict(assessment, out);
    if (assessment->governing != NULL) {
        bwi_heading(out, "The governing line by hand");
        bwi_text_working(assessment->governing, assessment->deck->units, out);
    }
    bwi_text_members(assessment, out);
    print_first_looks(assessment, out);
    bwi_text_basis(assessment, out);
    bwi_text_grades(assessment, out);
    print_origin(assessment, out);
    print_list("NOT CHECKED", assessment->not_checked, out);
    print_list("Cautions", assessment->cautions, out);
}
