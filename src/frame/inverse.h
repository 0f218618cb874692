/* inverse.h - the inverse of a factored band matrix: kept near the diagonal, and reached
 * by short steps far from it. */
#ifndef BWI_FRAME_INVERSE_H
#define BWI_FRAME_INVERSE_H

#include "internal.h"

typedef struct {
    int n, half_band;
    int block, n_blocks; /* unknowns of a block; block k begins at k * block */
    int width;           /* entries are kept up to this far from the diagonal */
    double *near;        /* (j + k, j) for k = 0 .. width, width + 1 per j */
    double *row;         /* half_band per unknown: see bwi_inverse_row */
} bwi_inverse;

bw_status bwi_inverse_make(const bwi_system *s, bw_arena *arena, bwi_inverse *out);

/* Entry (i, j), not further apart than the width. */
double bwi_inverse_near(const bwi_inverse *v, int i, int j);

/* The state of a column at block k: its half_band entries from the beginning of the block
 * on. If its force acts there or later, the state says all about the column before. */
void bwi_inverse_state(const bwi_inverse *v, int k, int source, double *state);
/* x_i = row' * state at the block after the one that i lies in. */
const double *bwi_inverse_row(const bwi_inverse *v, int i);
/* The state at block k from that at block k + 1. */
void bwi_inverse_back(const bwi_inverse *v, int k, const double *after, double *state);
/* Rows go the other way: row' * state at k becomes after' * state at k + 1. */
void bwi_inverse_forth(const bwi_inverse *v, int k, const double *row, double *after);

#endif
