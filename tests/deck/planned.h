/* planned.h - a deck of a test, read, assessed and planned as the program does it. */
#ifndef BWT_PLANNED_H
#define BWT_PLANNED_H

#include "deck.h"
#include "deck/internal.h"

/* What bwt_deck_read, bw_deck_assess and bwi_plan_make give, one after the other; the
 * first status that is not BW_OK (BW_E_INPUT: it cannot be read, stderr says why). */
bw_status bwt_deck_plan(const bwt_deck *d, bw_arena *arena, const bw_case **deck,
                        bw_assessment *result, bwi_plan *plan);

#endif
