/* verdict.c - the verdict in words, for the text and for the record. */
#include "internal.h"

#include <math.h>
#include <string.h>

const char *bwi_verdict_words(bw_verdict verdict)
{
    return verdict == BW_WITHIN ? "WITHIN LIMITS of the checks made here"
           : verdict == BW_OVER ? "OVER"
                                : "CANNOT SAY";
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
    bw_text_print(out, "%s, %s", finding->member,
                  bwi_or_fail(out, bwi_check_words(out->arena, finding->check->id)));
    if (bwi_finding_verdict(finding) == BW_CANNOT_SAY) {
        bw_text_add(out, ", which cannot be worked out");
    } else {
        bw_text_print(out, " at %s %% of its capacity", bwi_or_fail(out, percent));
    }
    bw_text_add(out, bwi_or_fail(out, bwi_finding_where(out->arena, finding, units)));
}

/* A case that was read, and says nothing of what lies across its stringers. */
static bool leaves_out_boards(const bw_case *deck)
{
    return deck->decking.kind == BW_BOARDS_UNKNOWN && deck->decking.case_path != NULL;
}

const char *bwi_left_out(const bw_assessment *assessment, bw_text *out)
{
    const bw_case *deck = assessment->deck;
    bw_text all = bw_text_new(out->arena);
    const struct {
        bool is;
        const char *what;
    } left[] = {
        {leaves_out_boards(deck), "the boards: the case does not say what they are"},
        {bw_deck_feet(deck, BW_FOOT_FIXED) > 0, "what the feet of posts are fixed in"},
        {bw_deck_tips(deck), "what keeps a single row from tipping"},
    };
    for (size_t k = 0; k < sizeof left / sizeof left[0]; k++) {
        if (left[k].is) {
            bw_text_print(&all, "%s%s", all.length > 0 ? "; and " : "", left[k].what);
        }
    }
    return all.length > 0 ? bwi_or_fail(out, bw_text_string(&all)) : NULL;
}

const char *bw_report_verdict_text(bw_arena *arena, const bw_assessment *assessment)
{
    const bw_verdict verdict = bw_report_verdict(assessment);
    bw_text line = bw_text_new(arena);
    bw_text_add(&line, bwi_verdict_words(verdict));
    const char *left = verdict == BW_WITHIN ? bwi_left_out(assessment, &line) : NULL;
    if (left != NULL) {
        bw_text_print(&line, ", which leave out %s", left);
    }
    if (assessment->governing == NULL) {
        bw_text_add(&line, ": nothing could be checked");
    } else {
        bw_text_add(&line, verdict_link(verdict));
        bwi_finding_line(assessment->governing, assessment->deck->units, &line);
    }
    return bw_text_string(&line);
}

const char *bwi_first_look(const bw_finding *finding, bw_units units, bw_text *out)
{
    bw_text line = bw_text_new(out->arena);
    bw_text_add(&line, bwi_finding_verdict(finding) == BW_OVER ? "OVER: " : "");
    bwi_finding_line(finding, units, &line);
    return bwi_or_fail(out, bw_text_string(&line));
}
