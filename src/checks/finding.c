/* finding.c - one check at one place, with its working. */
#include "bolewright/checks.h"

bw_status bw_finding_make(bw_arena *arena, const bw_check *check,
                          const bw_check_input *in, bw_finding *out)
{
    bw_working working = bw_working_new(arena);
    const bw_ratio ratio = check->ratio(in, &working);

    if (working.failed) {
        return BW_E_MEMORY;
    }
    out->check = check;
    out->ratio = ratio;
    out->verdict = bw_verdict_of(ratio.utilisation);
    out->working = working;
    return BW_OK;
}
