/* K = L L' for the band matrix (dpbtrf: lower triangle, column-major), scaled first: with
 * D = diag(K)^(-1/2) the matrix D K D has a unit diagonal, so that the condition estimate
 * (dpbcon) speaks of the frame and not of its units. Rounding often lets a mechanism
 * through dpbtrf, so the estimate decides.
 *
 * The answer to one unit force fades along a long frame, so bwi_band_solve_unit stops
 * where half_band values in a row are below share = 1e-16 of the largest. With A = D K D
 * = L L':
 *
 *   L y = e   cut off behind p leaves what y(<= p) still owes the next equations, w;
 *             |w| <= half_band * share * max|y|, as no entry of L exceeds 1
 *   L' x = y  cut off before q leaves v in the same way, |v| <= half_band * share *
 * max|x|
 *
 * and then A x = e - w - L v. So what is left out is the answer to out-of-balance forces
 * of at most share * half_band (max|y| + (half_band + 1) max|x|): that of the rounding in
 * a full solution. */
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

/* ---- one unit force, nearby ---- */

static const double faded = 1e-16;

/* L y = x from equation at on; returns the last one worth keeping. */
static int forward_from(const bwi_system *s, int at, double *x)
{
    const int rows = s->half_band + 1;
    double most = 0.0;
    int small = 0;
    for (int j = at; j < s->n; j++) {
        const double *column = s->band + (size_t)j * (size_t)rows;
        const int below = j + s->half_band < s->n ? s->half_band : s->n - 1 - j;
        const double y = x[j] / column[0];
        x[j] = y;
        for (int i = 1; i <= below; i++) {
            x[j + i] -= column[i] * y;
        }
        most = fmax(most, fabs(y));
        small = fabs(y) <= faded * most ? small + 1 : 0;
        if (small >= s->half_band) {
            for (int i = 1; i <= below; i++) {
                x[j + i] = 0.0;
            }
            return j;
        }
    }
    return s->n - 1;
}

/* L' x = y from equation last down to the first one worth keeping, which it returns. */
static int backward_from(const bwi_system *s, int last, int at, double *x)
{
    const int rows = s->half_band + 1;
    double most = 0.0;
    int small = 0;
    for (int j = last; j >= 0; j--) {
        const double *column = s->band + (size_t)j * (size_t)rows;
        const int below = j + s->half_band < s->n ? s->half_band : s->n - 1 - j;
        double sum = x[j];
        for (int i = 1; i <= below; i++) {
            sum -= column[i] * x[j + i];
        }
        x[j] = sum / column[0];
        most = fmax(most, fabs(x[j]));
        small = fabs(x[j]) <= faded * most ? small + 1 : 0;
        if (j < at && small >= s->half_band) {
            return j;
        }
    }
    return 0;
}

void bwi_band_solve_unit(const bwi_system *s, int at, double *x, int *first, int *last)
{
    x[at] = s->scale[at];
    *last = forward_from(s, at, x);
    *first = backward_from(s, *last, at, x);
    for (int j = *first; j <= *last; j++) {
        x[j] *= s->scale[j];
    }
}
