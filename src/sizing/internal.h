/* internal.h - what the files of the sizing layer share: the search over whole steps. */
#ifndef BWI_SIZING_INTERNAL_H
#define BWI_SIZING_INTERNAL_H

#include "bolewright/sizing.h"

/* [m] of a log beyond the middle of each support at its ends. */
extern const double bwi_seat;

/* A size in whole steps, and what the full check says of it. */
typedef bw_status (*bwi_try)(void *context, int step, bw_sized *out, bw_diags *d);

typedef struct {
    bwi_try try_step;
    void *context;
    int best, worst; /* ends of the range: nearest to being within, and the other */
    int guess;       /* where to begin; any step */
    double power;    /* utilisation goes about with this power of the step */
} bwi_search;

typedef struct {
    bool has_within;  /* false: not even the best step is */
    bool has_over;    /* false: even the worst step is within */
    int within, over; /* neighbours where there are both */
    bw_sized at_within, at_over;
    double edge; /* about where the utilisation would be 1, between steps */
} bwi_found;

/* Both neighbours have been tried, so that the answer does not depend on how the
 * utilisation goes between the steps. Where it is not monotone, one of several edges is
 * found, the same for the same guess. */
bw_status bwi_search_steps(const bwi_search *search, bwi_found *out, bw_diags *d);

bw_status bwi_leverage(bw_arena *arena, const bw_duty *duty, const bw_log *log,
                       double span, bw_leverage *out, bw_diags *d);

/* As bw_log_smallest, without the leverage. guess: [m] of girth where the search begins;
 * 0: none. *edge: about where the utilisation would be 1. */
bw_status bwi_log_search(bw_arena *arena, const bw_log_question *question, double guess,
                         bw_log_answer *out, double *edge, bw_diags *d);

#endif
