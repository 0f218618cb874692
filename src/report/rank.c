/* rank.c - the verdict, and which findings a reader must see first. */
#include "internal.h"

#include <math.h>

/* One over outweighs the ones that cannot say: it will not come right by knowing more. */
static bw_verdict worse(bw_verdict a, bw_verdict b)
{
    if (a == BW_OVER || b == BW_OVER) {
        return BW_OVER;
    }
    return a == BW_WITHIN && b == BW_WITHIN ? BW_WITHIN : BW_CANNOT_SAY;
}

bw_verdict bwi_finding_verdict(const bw_finding *finding)
{
    return worse(finding->verdict, bw_verdict_of(finding->ratio.utilisation));
}

/* A member of which nothing was checked cannot be called within limits. */
bw_verdict bwi_member_verdict(const bw_member_result *member)
{
    bw_verdict verdict = BW_WITHIN;
    bool checked = false;
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        if (member->has[kind]) {
            verdict = worse(verdict, bwi_finding_verdict(&member->findings[kind]));
            checked = true;
        }
    }
    return checked ? verdict : BW_CANNOT_SAY;
}

bw_verdict bw_report_verdict(const bw_assessment *assessment)
{
    bw_verdict verdict = assessment->verdict;
    if (assessment->governing == NULL || !isfinite(assessment->worst_residual) ||
        !isfinite(assessment->worst_rcond)) {
        verdict = worse(verdict, BW_CANNOT_SAY);
    } else {
        verdict = worse(verdict, bwi_finding_verdict(assessment->governing));
    }
    for (size_t i = 0; i < assessment->n_members; i++) {
        verdict = worse(verdict, bwi_member_verdict(&assessment->members[i]));
    }
    return verdict;
}

static double urgency(const bw_finding *finding)
{
    const bool unknown = bwi_finding_verdict(finding) == BW_CANNOT_SAY;
    return unknown || !isfinite(finding->ratio.utilisation) ? HUGE_VAL
                                                            : finding->ratio.utilisation;
}

/* Of two that differ only by rounding the first stays first. */
static const double tie = 1e-9;

static size_t insert(const bw_finding **first, size_t count, size_t room,
                     const bw_finding *f)
{
    size_t at = count;
    while (at > 0 && urgency(first[at - 1]) * (1.0 + tie) < urgency(f)) {
        at--;
    }
    if (at >= room) {
        return count;
    }
    const size_t after = count < room ? count + 1 : room;
    for (size_t i = after - 1; i > at; i--) {
        first[i] = first[i - 1];
    }
    first[at] = f;
    return after;
}

size_t bwi_rank(const bw_assessment *assessment, const bw_finding **first, size_t room)
{
    size_t count = 0;
    for (size_t i = 0; i < assessment->n_members; i++) {
        const bw_member_result *member = &assessment->members[i];
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            if (member->has[kind]) {
                count = insert(first, count, room, &member->findings[kind]);
            }
        }
    }
    return count;
}

const char *bwi_finding_where(bw_arena *arena, const bw_finding *finding, bw_units units)
{
    bw_text text = bw_text_new(arena);
    if (finding->place != NULL) {
        bw_text_print(&text, ", %s", finding->place);
    } else if (finding->station >= 0.0) {
        const char *station =
            bw_quantity_print(arena, BW_LENGTH, finding->station, units);
        bw_text_print(&text, ", %s from its first end", bwi_or_fail(&text, station));
    }
    if (finding->combination != NULL) {
        bw_text_print(&text, ", under %s", finding->combination);
    }
    if (finding->position != NULL) {
        bw_text_print(&text, ", %s", finding->position);
    }
    return bw_text_string(&text);
}
