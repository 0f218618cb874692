/* K = L L' for the band matrix (dpbtrf: lower triangle, column-major), scaled first: with
 * D = diag(K)^(-1/2) the matrix D K D has a unit diagonal, so that the condition estimate
 * (dpbcon) speaks of the frame and not of its units. Rounding often lets a mechanism
 * through dpbtrf, so the estimate decides. */
#include "internal.h"

#include <lapacke.h>
#include <math.h>
#include <stdlib.h>

static void scale_band(bwi_system *s)
{
    const size_t rows = (size_t)s->half_band + 1;
    for (int j = 0; j < s->n; j++) {
        for (int i = 0; i <= s->half_band && i + j < s->n; i++) {
            s->band[(size_t)j * rows + (size_t)i] *= s->scale[j] * s->scale[i + j];
        }
    }
}

/* Sum of the magnitudes of a column of the whole symmetric matrix. */
static double column_sum(const bwi_system *s, int column)
{
    const size_t rows = (size_t)s->half_band + 1;
    double sum = 0.0;
    for (int i = column - s->half_band; i <= column + s->half_band; i++) {
        if (i >= 0 && i < s->n) {
            const int low = i < column ? i : column, apart = abs(i - column);
            sum += fabs(s->band[(size_t)low * rows + (size_t)apart]);
        }
    }
    return sum;
}

bw_status bwi_band_factor(bwi_system *s)
{
    const size_t rows = (size_t)s->half_band + 1;
    for (int j = 0; j < s->n; j++) {
        const double diagonal = s->band[(size_t)j * rows];
        if (!(diagonal > 0.0)) {
            return BW_E_MECHANISM;
        }
        s->scale[j] = 1.0 / sqrt(diagonal);
    }
    scale_band(s);
    const lapack_int n = s->n, kd = s->half_band, ld = kd + 1;
    double norm = 0.0;
    for (int j = 0; j < n; j++) {
        norm = fmax(norm, column_sum(s, j));
    }
    lapack_int info = LAPACKE_dpbtrf(LAPACK_COL_MAJOR, 'L', n, kd, s->band, ld);
    s->rcond = 0.0;
    if (info == 0) {
        info = LAPACKE_dpbcon(LAPACK_COL_MAJOR, 'L', n, kd, s->band, ld, norm, &s->rcond);
    }
    if (info == LAPACK_WORK_MEMORY_ERROR) {
        return BW_E_MEMORY;
    }
    return info == 0 ? BW_OK : info > 0 ? BW_E_MECHANISM : BW_E_INTERNAL;
}

void bwi_band_solve(const bwi_system *s, double *rhs, int n_rhs)
{
    const size_t n = (size_t)s->n;
    if (n == 0) {
        return;
    }
    for (int k = 0; k < n_rhs; k++) {
        for (size_t j = 0; j < n; j++) {
            rhs[(size_t)k * n + j] *= s->scale[j];
        }
    }
    /* the work call does not scan for NaN: a NaN comes out as NaN, and no check passes it
     */
    LAPACKE_dpbtrs_work(LAPACK_COL_MAJOR, 'L', s->n, s->half_band, n_rhs, s->band,
                        s->half_band + 1, rhs, s->n);
    for (int k = 0; k < n_rhs; k++) {
        for (size_t j = 0; j < n; j++) {
            rhs[(size_t)k * n + j] *= s->scale[j];
        }
    }
}
