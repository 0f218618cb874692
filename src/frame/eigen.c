/* A x = mu B x by LAPACK's dsbgvx: B is factored, the problem brought to tridiagonal
 * form, and only the largest eigenvalue and its vector are taken. */
#include "internal.h"

#include <lapacke.h>

bw_status bwi_largest_eigenvalue(int n, int half_band, double *A, double *B,
                                 bw_arena *arena, double *mu, double *x)
{
    double *Q = BW_NEW(arena, double, (size_t)n *(size_t)n);
    double *w = BW_NEW(arena, double, n);
    lapack_int *failed = BW_NEW(arena, lapack_int, n), found = 0;
    if (Q == NULL || w == NULL || failed == NULL) {
        return BW_E_MEMORY;
    }
    const lapack_int info = LAPACKE_dsbgvx(
        LAPACK_COL_MAJOR, 'V', 'I', 'L', n, half_band, half_band, A, half_band + 1, B,
        half_band + 1, Q, n, 0.0, 0.0, n, n, 0.0, &found, w, x, n, failed);
    if (info == LAPACK_WORK_MEMORY_ERROR) {
        bw_arena_spoil(arena);
        return BW_E_MEMORY;
    }
    *mu = info == 0 ? w[0] : 0.0; /* no estimate is no fault: Cholesky decides */
    return BW_OK;
}
