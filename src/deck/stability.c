/* Is a frame near to buckling, and what then. */
#include "internal.h"

#include <math.h>

/* Below ten times the loads the bent shape matters. */
static const double factor_that_matters = 10.0;

bw_status bwi_presses_start(const bw_frame *f, bw_arena *arena, bwi_presses *out)
{
    const size_t n = (size_t)bw_frame_describe(f).members;
    *out = (bwi_presses){.press = BW_NEW(arena, double, n), .collecting = true};
    for (size_t k = 0; out->press != NULL && k < n; k++) {
        out->press[k] = -(double)INFINITY;
    }
    return out->press != NULL ? BW_OK : BW_E_MEMORY;
}

bw_status bwi_presses_end(bw_frame *f, bw_arena *arena, bwi_presses *presses, bw_diags *d)
{
    presses->collecting = false;
    return bw_frame_stands_pressed(f, presses->press, factor_that_matters, arena,
                                   &presses->stands, d);
}

/* Whether it buckles under a higher factor than is known already: to find out takes one
 * elimination, to find the factor some thirty. */
static bw_status stands_the_lowest(bw_frame *f, const bw_state *s,
                                   const bw_buckled *lowest, bw_arena *arena, bool *out,
                                   bw_diags *d)
{
    const double as_low = 1.0 - 1e-9; /* what is as low by rounding stands it */
    return lowest->has ? bw_frame_stands(f, s, lowest->factor * as_low, arena, out, d)
                       : BW_OK;
}

bool bwi_check_buckling(bwi_tracker *t, bw_frame *f, const bw_state *s,
                        const bwi_buckling_of *of, bw_buckling *found, bw_diags *d)
{
    bw_arena *arena = t->plan->arena;
    bool stands = of->presses->stands;
    *found = (bw_buckling){.factor = HUGE_VAL};
    if (of->presses->collecting) {
        bw_state_press(s, of->presses->press);
        return false;
    }
    bw_check_input in = {.stiffness_ratio = t->stiffness_ratio,
                         .buckling_factor = factor_that_matters,
                         .buckling_factor_beyond = true};
    if (!stands &&
        bw_frame_stands(f, s, factor_that_matters, arena, &stands, d) != BW_OK) {
        t->failed = BW_E_MEMORY;
        return false;
    }
    if (!stands) {
        bool higher = false;
        if (stands_the_lowest(f, s, of->lowest, arena, &higher, d) != BW_OK ||
            (!higher && bw_frame_buckling(f, s, arena, found, d) != BW_OK)) {
            t->failed = BW_E_MEMORY;
            return false;
        }
        if (higher) {
            return true;
        }
        in.buckling_factor = found->factor;
        in.buckling_factor_beyond = false;
    }
    bwi_track(t, of->member, BW_CHECK_BUCKLING, &in, -1.0, of->event);
    return !stands;
}

const bw_state *bwi_bend(bwi_tracker *t, const bw_state *first, size_t member,
                         const bwi_event *event)
{
    bw_diags unused = bw_diags_new(t->plan->arena, NULL);
    bw_state *bent = NULL;
    const bw_status status = bw_state_second_order(first, t->plan->arena, &bent, &unused);
    if (status == BW_E_MECHANISM) { /* at most: the lowest is found with the loads */
        bw_check_input in = {.stiffness_ratio = t->stiffness_ratio,
                             .buckling_factor = 1.0};
        bwi_track(t, member, BW_CHECK_BUCKLING, &in, -1.0, event);
        return first;
    }
    t->failed = status != BW_OK ? status : t->failed;
    return bent;
}
