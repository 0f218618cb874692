#include "planned.h"

bw_status bwt_deck_plan(const bwt_deck *d, bw_arena *arena, const bw_case **deck,
                        bw_assessment *result, bwi_plan *plan)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    *deck = bwt_deck_read(d, arena);
    if (*deck == NULL) {
        return BW_E_INPUT;
    }
    BW_TRY(bw_deck_assess(arena, *deck, result, &diags));
    return bwi_plan_make(arena, *deck, result->references, plan, &diags);
}
