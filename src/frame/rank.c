/* Null space of C by its singular values: C = U S V', the columns of V whose singular
 * values vanish are the motions that C does not see (dgesdd). */
#include "internal.h"

#include <lapacke.h>

int bwi_null_space(bw_arena *arena, double *matrix, int rows, int columns, double **basis)
{
    const int least = rows < columns ? rows : columns;
    double *s = BW_NEW(arena, double, least + 1);
    double *vt = BW_NEW(arena, double, (size_t)columns *(size_t)columns);
    double *u = BW_NEW(arena, double, (size_t)rows *(size_t)rows + 1);
    if (s == NULL || vt == NULL || u == NULL) {
        return -1;
    }
    const lapack_int info = least == 0
                                ? 0
                                : LAPACKE_dgesdd(LAPACK_COL_MAJOR, 'A', rows, columns,
                                                 matrix, rows, s, u, rows, vt, columns);
    if (info != 0) {
        if (info == LAPACK_WORK_MEMORY_ERROR) {
            bw_arena_spoil(arena);
        }
        return -1;
    }
    if (least == 0) {
        for (int k = 0; k < columns; k++) {
            vt[(size_t)k * (size_t)columns + (size_t)k] = 1.0;
        }
    }
    /* lengths are scaled to order one, so a true constraint is far above this */
    const double limit = 1e-9 * (least > 0 ? s[0] : 0.0);
    int rank = 0;
    while (rank < least && s[rank] > limit) {
        rank++;
    }
    const int free = columns - rank;
    *basis = BW_NEW(arena, double, (size_t)free *(size_t)columns + 1);
    if (*basis == NULL) {
        return -1;
    }
    for (int k = 0; k < free; k++) {
        for (int j = 0; j < columns; j++) {
            (*basis)[(size_t)k * (size_t)columns + (size_t)j] =
                vt[(size_t)j * (size_t)columns + (size_t)(rank + k)];
        }
    }
    return free;
}
