/* Corners of the smallest convex figure: what any straight measure is largest at. */
#include "../base/arena_fixture.h"
#include "deck/internal.h"
#include "planned.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

static size_t corners(const bwi_point *points, size_t n)
{
    size_t sum = 0;
    for (size_t k = 0; k < n; k++) {
        sum += points[k].is_corner ? 1 : 0;
    }
    return sum;
}

static void what_lies_inside_or_on_a_side_is_no_corner(void **state)
{
    bwi_point side[] = {
        {0.0, 0.0, false}, {0.5, 0.25, false}, {1.0, 0.5, false}, {1.0, -2.0, false}};
    assert_true(bwi_mark_corners(side, 4, *state));
    assert_int_equal(corners(side, 4), 3);
    assert_false(side[1].is_corner);
    bwi_point p[] = {{2.385, 0.5, false}, {1.0, 1.25, false},   {-0.615, 2.0, false},
                     {0.2, 0.3, false},   {-0.615, 1.1, false}, {2.385, 3.7, false}};
    assert_true(bwi_mark_corners(p, 6, *state));
    assert_false(p[1].is_corner);
    assert_int_equal(corners(p, 6), 5);
}

static void of_a_line_the_ends(void **state)
{
    bwi_point p[9];
    for (int k = 0; k < 9; k++) {
        p[k] = (bwi_point){0.25 * ((k * 4) % 9), 1.5 - 0.125 * ((k * 4) % 9), false};
    }
    assert_true(bwi_mark_corners(p, 9, *state));
    assert_int_equal(corners(p, 9), 2);
    assert_true(p[0].is_corner && p[2].is_corner); /* 0 and 8 of 9 */
}

static void one_place_many_times_is_looked_at(void **state)
{
    bwi_point p[3] = {{0.7, -1.3, false}, {0.7, -1.3, false}, {0.7, -1.3, false}};
    assert_true(bwi_mark_corners(p, 1, *state));
    assert_true(p[0].is_corner);
    p[0].is_corner = false;
    assert_true(bwi_mark_corners(p, 3, *state));
    assert_in_range(corners(p, 3), 1, 2);
    assert_true(bwi_mark_corners(p, 0, *state));
}

/* Nothing hides behind what is not a number. */
static void without_a_number_all_are_looked_at(void **state)
{
    bwi_point p[4] = {{0.0, 0.0, false},
                      {1.0, 0.0, false},
                      {0.5, (double)NAN, false},
                      {0.6, 0.0, false}};
    assert_true(bwi_mark_corners(p, 4, *state));
    assert_int_equal(corners(p, 4), 4);
}

static double most_along(const bwi_point *p, size_t n, double angle, bool corners_only)
{
    double most = -HUGE_VAL;
    for (size_t k = 0; k < n; k++) {
        const double along = cos(angle) * p[k].x + sin(angle) * p[k].y;
        most = p[k].is_corner || !corners_only ? fmax(most, along) : most;
    }
    return most;
}

static void any_straight_measure_is_largest_at_a_corner(void **state)
{
    enum { MOST = 40, TRIALS = 200, WAYS = 72 };
    uint64_t random = 5741;
    size_t inside = 0;
    for (int trial = 0; trial < TRIALS; trial++) {
        bwi_point p[MOST];
        const size_t n = 3 + (size_t)bwt_below(&random, MOST - 2);
        for (size_t k = 0; k < n; k++) {
            p[k] = (bwi_point){bwt_uniform(&random, -4.0, 7.0),
                               bwt_uniform(&random, -900.0, 2000.0), false};
        }
        assert_true(bwi_mark_corners(p, n, *state));
        inside += n - corners(p, n);
        for (int way = 0; way < WAYS; way++) {
            const double angle = 0.0872664625997 * way + 0.0123;
            assert_true(most_along(p, n, angle, true) >=
                        most_along(p, n, angle, false) - 1e-9);
        }
    }
    assert_true(inside > 1000); /* of some 4000: it leaves most of them out */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_lies_inside_or_on_a_side_is_no_corner,
                                        make_arena, free_arena),
        WITH_ARENA(of_a_line_the_ends),
        cmocka_unit_test_setup_teardown(one_place_many_times_is_looked_at, make_arena,
                                        free_arena),
        cmocka_unit_test_setup_teardown(without_a_number_all_are_looked_at, make_arena,
                                        free_arena),
        cmocka_unit_test_setup_teardown(any_straight_measure_is_largest_at_a_corner,
                                        make_arena, free_arena),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
