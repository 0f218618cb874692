/* Entries of the inverse Z of A = L L' (L with half_band b below the diagonal).
 *
 * Near the diagonal, column by column from the last (Takahashi, Fagan and Chen, PICA
 * Conference, 1973, MEMORY; from L' Z = L^-1, which is lower triangular):
 *
 *   Z_ij = - sum_k L_kj Z_ik / L_jj  (i > j),   Z_jj = (1/L_jj - sum_k L_kj Z_kj) / L_jj
 *
 * with k = j + 1 .. j + b: each entry needs only entries at most as far from the
 * diagonal.
 *
 * Far from it: before its force a column of Z satisfies (L' x)_i = 0,
 *
 *   x_i = - sum_k L_ki x_k / L_ii,   k = i + 1 .. i + b
 *
 * so b entries say all about those before them. The unknowns are cut into blocks; the
 * entries of a block depend linearly on the state, the first b entries of the next block.
 * Those rows are kept, so any entry is reached block by block, and by symmetry in the
 * other direction too. Everything is proportional to the number of unknowns; nothing is
 * left out. */
#include "inverse.h"

static const double *column_of(const bwi_system *s, int j)
{
    return s->band + (size_t)j * ((size_t)s->half_band + 1);
}

static int below(const bwi_system *s, int j)
{
    return j + s->half_band < s->n ? s->half_band : s->n - 1 - j;
}

double bwi_inverse_near(const bwi_inverse *v, int i, int j)
{
    const int low = i < j ? i : j, apart = i < j ? j - i : i - j;
    return v->near[(size_t)low * ((size_t)v->width + 1) + (size_t)apart];
}

static void fill_near(const bwi_system *s, bwi_inverse *v)
{
    for (int j = s->n - 1; j >= 0; j--) {
        const double *L = column_of(s, j);
        double *out = v->near + (size_t)j * ((size_t)v->width + 1);
        const int n = below(s, j), last = j + v->width < s->n ? v->width : s->n - 1 - j;
        for (int i = 1; i <= last; i++) {
            double sum = 0.0;
            for (int k = 1; k <= n; k++) {
                sum += L[k] * bwi_inverse_near(v, j + i, j + k);
            }
            out[i] = -sum / L[0];
        }
        double sum = 1.0 / L[0];
        for (int k = 1; k <= n; k++) {
            sum -= L[k] * out[k];
        }
        out[0] = sum / L[0];
    }
}

/* Rows of block k over the state at the beginning of the next one. */
static void fill_rows(const bwi_system *s, int k, bwi_inverse *v)
{
    const int b = s->half_band, from = k * v->block, next = from + v->block;
    for (int i = next - 1; i >= from; i--) {
        const double *L = column_of(s, i);
        double *row = v->row + (size_t)i * (size_t)b;
        for (int m = 1; m <= below(s, i); m++) {
            if (i + m >= next) {
                row[i + m - next] -= L[m] / L[0];
                continue;
            }
            const double *other = row + (size_t)m * (size_t)b;
            for (int j = 0; j < b; j++) {
                row[j] -= L[m] / L[0] * other[j];
            }
        }
    }
}

/* From the scaled matrix D K D to K: K^-1 = D Z D. */
static void unscale(const bwi_system *s, bwi_inverse *v)
{
    const double *d = s->scale;
    for (int j = 0; j < s->n; j++) {
        double *near = v->near + (size_t)j * ((size_t)v->width + 1);
        for (int k = 0; k <= v->width && j + k < s->n; k++) {
            near[k] *= d[j] * d[j + k];
        }
        double *row = v->row + (size_t)j * (size_t)v->half_band;
        const int next = (j / v->block + 1) * v->block;
        for (int k = 0; k < v->half_band && next + k < s->n; k++) {
            row[k] *= d[j] / d[next + k];
        }
    }
}

bw_status bwi_inverse_make(const bwi_system *s, bw_arena *arena, bwi_inverse *out)
{
    const size_t n = (size_t)s->n, b = (size_t)s->half_band;
    const int block = s->half_band > 0 ? 4 * s->half_band : 1;
    const int reach = 2 * block + s->half_band; /* two blocks apart and more is far */
    *out = (bwi_inverse){.n = s->n,
                         .half_band = s->half_band,
                         .block = block,
                         .n_blocks = (s->n + block - 1) / block,
                         .width = reach < s->n ? reach
                                  : s->n > 0   ? s->n - 1
                                               : 0};
    out->near = BW_NEW(arena, double, n *((size_t)out->width + 1) + 1);
    out->row = BW_NEW(arena, double, n *b + 1);
    if (out->near == NULL || out->row == NULL) {
        return BW_E_MEMORY;
    }
    fill_near(s, out);
    for (int k = 0; k + 1 < out->n_blocks; k++) {
        fill_rows(s, k, out);
    }
    unscale(s, out);
    return BW_OK;
}

/* ---- steps ---- */

void bwi_inverse_state(const bwi_inverse *v, int k, int source, double *state)
{
    const int from = k * v->block;
    for (int j = 0; j < v->half_band; j++) {
        state[j] = from + j < v->n ? bwi_inverse_near(v, source, from + j) : 0.0;
    }
}

const double *bwi_inverse_row(const bwi_inverse *v, int i)
{
    return v->row + (size_t)i * (size_t)v->half_band;
}

static double dot(const bwi_inverse *v, const double *a, const double *b)
{
    double sum = 0.0;
    for (int j = 0; j < v->half_band; j++) {
        sum += a[j] * b[j];
    }
    return sum;
}

void bwi_inverse_back(const bwi_inverse *v, int k, const double *after, double *state)
{
    for (int j = 0; j < v->half_band; j++) {
        state[j] = dot(v, bwi_inverse_row(v, k * v->block + j), after);
    }
}

void bwi_inverse_forth(const bwi_inverse *v, int k, const double *row, double *after)
{
    for (int i = 0; i < v->half_band; i++) {
        after[i] = 0.0;
    }
    for (int j = 0; j < v->half_band; j++) {
        const double *step = bwi_inverse_row(v, k * v->block + j);
        for (int i = 0; i < v->half_band; i++) {
            after[i] += row[j] * step[i];
        }
    }
}
