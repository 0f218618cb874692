/* Null spaces of matrices made to have one. */
#include "../base/arena_fixture.h"
#include "frame/internal.h"
#include "row.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

enum { ROWS = 7, COLUMNS = 6 };

/* rank random columns, and combinations of them: the rest of the columns. */
static void make_matrix(double *m, int rank, uint64_t seed)
{
    for (int j = 0; j < COLUMNS; j++) {
        for (int i = 0; i < ROWS; i++) {
            m[j * ROWS + i] = j < rank ? 2.0 * bwt_chance(&seed) - 1.0 : 0.0;
        }
        for (int k = 0; k < rank && j >= rank; k++) {
            const double part = 2.0 * bwt_chance(&seed) - 1.0;
            for (int i = 0; i < ROWS; i++) {
                m[j * ROWS + i] += part * m[k * ROWS + i];
            }
        }
    }
}

static void the_null_space_has_what_the_rank_leaves(void **state)
{
    for (int rank = 0; rank <= COLUMNS; rank++) {
        double m[ROWS * COLUMNS], copy[ROWS * COLUMNS];
        make_matrix(m, rank, 911u + (uint64_t)rank);
        for (int k = 0; k < ROWS * COLUMNS; k++) {
            copy[k] = m[k];
        }
        double *basis = NULL;
        const int n = bwi_null_space(*state, copy, ROWS, COLUMNS, &basis);
        assert_int_equal(n, COLUMNS - rank);
        for (int k = 0; k < n; k++) {
            double length = 0.0;
            for (int j = 0; j < COLUMNS; j++) {
                length += basis[k * COLUMNS + j] * basis[k * COLUMNS + j];
            }
            assert_true(fabs(length - 1.0) < 1e-12);
            for (int i = 0; i < ROWS; i++) {
                double sum = 0.0;
                for (int j = 0; j < COLUMNS; j++) {
                    sum += m[j * ROWS + i] * basis[k * COLUMNS + j];
                }
                assert_true(fabs(sum) < 1e-12);
            }
        }
    }
}

static void without_rows_everything_is_free(void **state)
{
    double none[1] = {0.0};
    double *basis = NULL;
    assert_int_equal(bwi_null_space(*state, none, 0, 3, &basis), 3);
    assert_true(basis[0] == 1.0 && basis[4] == 1.0 && basis[8] == 1.0);
}

/* What is no matrix has no null space that one may rely on. */
static void a_matrix_with_nan_is_refused(void **state)
{
    double m[ROWS * COLUMNS], *basis = NULL;
    make_matrix(m, 4, 911u);
    m[17] = (double)NAN;
    assert_int_equal(bwi_null_space(*state, m, ROWS, COLUMNS, &basis), -1);
    assert_false(bw_arena_failed(*state));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(the_null_space_has_what_the_rank_leaves),
        WITH_ARENA(without_rows_everything_is_free),
        WITH_ARENA(a_matrix_with_nan_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
