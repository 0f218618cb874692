/* assign.h - private to sizing: which log goes where at least cost. */
#ifndef BW_SIZING_ASSIGN_H
#define BW_SIZING_ASSIGN_H

#include "bolewright/base.h"

/* ---- one assignment ---- */

typedef struct {
    size_t n_rows, n_columns;
    const double *cost; /* row * n_columns + column; infinite: not allowed */
} bwi_costs;

typedef struct {
    int *column;   /* of each row */
    double *price; /* of each column, at most 0: no assignment is cheaper than the sum of
                      all prices and, for each row, its least cost less the price */
    double total;
} bwi_assignment;

/* Every row gets a column of its own so that the sum of costs is least. column and price
 * have room for all rows and columns. BW_E_INPUT: some row cannot get one;
 * BW_E_MEMORY. */
bw_status bwi_assign(bw_arena *arena, const bwi_costs *costs, bwi_assignment *out);

/* ---- a pile of logs ---- */

/* A log taken from the pile costs its wood. A place that wants to be level costs,
 * besides, how far the depth of its log lies from one target, times the weight; the
 * target is free. A place without a log costs more than anything else. */
typedef struct {
    size_t n_places, n_logs;
    const double *wood;  /* [m3] per log */
    const double *depth; /* [m] place * n_logs + log, of the log as it lies there */
    const bool *level;   /* per place */
    bool *allowed;       /* place * n_logs + log; may only turn false between solutions */
    double weight;       /* [m3/m] */
} bwi_pile;

typedef struct {
    int *log;         /* per place; -1: none */
    double target;    /* [m] */
    double wood;      /* [m3] taken from the pile */
    double uneven;    /* [m] sum over the level places */
    double cost;      /* [m3] wood + weight * uneven */
    size_t n_missing; /* places without a log */
} bwi_choice;

typedef struct {
    double at;    /* [m] */
    double bound; /* no choice with this target costs less */
    int *log;     /* the choice that costs just that, if it is still allowed; or null */
} bwi_target;

/* Between solutions: what is known of every target stays true when pairs are ruled out.
 */
typedef struct {
    bw_arena *arena;
    const bwi_pile *pile;
    bwi_target *targets;
    size_t n_targets;
    double *cost, *price; /* scratch */
    size_t solved;        /* assignments worked out so far */
} bwi_chooser;

bw_status bwi_chooser_make(bw_arena *arena, const bwi_pile *pile, bwi_chooser *out);
/* The cheapest choice of all, over all targets. out->log has room for all places. */
bw_status bwi_choose(bwi_chooser *chooser, bwi_choice *out);

#endif
