/* The search over whole steps, on utilisations of any shape: what it ends with has been
 * tried on both sides, in few trials where the utilisation goes with a power. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "sizing/internal.h"
#include "sketch.h"

typedef double (*shape)(double step, const double *with);

typedef struct {
    shape u;
    double with[3];
    int trials;
    bool tried[1001];
} course;

static bw_status run(void *context, int step, bw_sized *out, bw_diags *d)
{
    (void)d;
    course *c = context;
    assert_in_range(step, 0, 1000);
    assert_false(c->tried[step]); /* nothing is asked twice */
    c->tried[step] = true;
    c->trials++;
    const double u = c->u(step, c->with);
    *out = (bw_sized){.verdict = bw_verdict_of(u), .utilisation = u};
    return BW_OK;
}

static bwi_found find(course *c, int best, int worst, int guess, double power)
{
    const bwi_search s = {run, c, best, worst, guess, power};
    bwi_found out;
    assert_int_equal(bwi_search_steps(&s, &out, NULL), BW_OK);
    return out;
}

static double power_law(double n, const double *with)
{
    return pow(n / with[0], with[1]) + with[2];
}

static void the_edge_of_a_power_law_is_found_in_few_trials(void **state)
{
    (void)state;
    bwt_random r = {.state = 7741};
    int most = 0, sum = 0;
    const int rounds = 2000;
    for (int k = 0; k < rounds; k++) {
        const bool rising = bwt_random_chance(&r, 0.5);
        const double power = bwt_random_between(&r, 0.6, 4.2) * (rising ? 1.0 : -1.0);
        course c = {.u = power_law,
                    .with = {bwt_random_between(&r, 21.3, 407.0), power,
                             bwt_random_between(&r, 0.0, 0.31)}};
        const int guess = 1 + bwt_random_below(&r, 500);
        const bwi_found f =
            find(&c, rising ? 1 : 1000, rising ? 1000 : 1, guess, rising ? 2.0 : -3.0);
        const int step = rising ? 1 : -1;
        assert_true(f.has_within && f.has_over);
        assert_int_equal(f.over, f.within + step);
        assert_true(c.tried[f.within] && c.tried[f.over]);
        assert_true(c.u(f.within, c.with) <= 1.0 && c.u(f.over, c.with) > 1.0);
        assert_true(fabs(f.edge - f.within) <= 1.0 && fabs(f.edge - f.over) <= 1.0);
        most = c.trials > most ? c.trials : most;
        sum += c.trials;
    }
    /* after six trials every other one halves what is left of 1000 steps */
    assert_true(most <= 6 + 2 * 10);
    assert_true((double)sum / rounds < 8.0);
}

static double kinked(double n, const double *with)
{
    return n < with[0] ? 0.2 + 0.01 * n / with[0] : n < with[1] ? 0.97 : 1.4;
}

static double unsayable(double n, const double *with)
{
    return n < with[0] ? 0.3 : (double)NAN;
}

static double wavy(double n, const double *with)
{
    return n / with[0] + 0.2 * sin(n / 7.3);
}

static void jumps_gaps_and_waves_end_with_neighbours(void **state)
{
    (void)state;
    static const shape shapes[] = {kinked, unsayable, wavy};
    for (int s = 0; s < 3; s++) {
        for (int guess = 0; guess <= 1000; guess += 37) {
            course c = {.u = shapes[s], .with = {311.0, 507.0, 0.0}};
            const bwi_found f = find(&c, 0, 1000, guess, 2.0);
            assert_true(f.has_within && f.has_over);
            assert_int_equal(f.over, f.within + 1);
            assert_true(bw_verdict_of(c.u(f.within, c.with)) == BW_WITHIN);
            assert_true(bw_verdict_of(c.u(f.over, c.with)) != BW_WITHIN);
            assert_true(c.trials < 60);
        }
    }
}

static double flat(double n, const double *with)
{
    return with[0] + 0.0 * n;
}

static void the_ends_of_the_range_are_told(void **state)
{
    (void)state;
    course low = {.u = flat, .with = {0.83, 0.0, 0.0}};
    const bwi_found within = find(&low, 3, 977, 41, 2.0);
    assert_true(within.has_within && !within.has_over);
    assert_int_equal(within.within, 977);
    course high = {.u = flat, .with = {1.27, 0.0, 0.0}};
    const bwi_found over = find(&high, 977, 3, 41, -3.0);
    assert_true(!over.has_within && over.has_over);
    assert_int_equal(over.over, 977);
    course none = {.u = flat, .with = {(double)NAN, 0.0, 0.0}};
    const bwi_found unsaid = find(&none, 977, 3, 41, -3.0);
    assert_false(unsaid.has_within);
    assert_int_equal(none.trials, 2); /* the guess, and the best there is */
    course one = {.u = flat, .with = {0.4, 0.0, 0.0}};
    assert_int_equal(find(&one, 5, 5, 900, 2.0).within, 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_edge_of_a_power_law_is_found_in_few_trials),
        cmocka_unit_test(jumps_gaps_and_waves_end_with_neighbours),
        cmocka_unit_test(the_ends_of_the_range_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
