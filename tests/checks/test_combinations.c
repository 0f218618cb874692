/* Which loads act together, with which factors and for how long: ASCE 7-16, 2.4.1 and NDS
 * 2018, Table 2.3.2 (READ in part); EN 1990 (6.10) and EN 1995-1-1, Table 3.1 (MEMORY).
 * Written down here once more, from what is present. */
#include "ec_sample.h"

enum { SUBSETS = 16 };

static bw_actions_present subset(int k)
{
    return (bw_actions_present){.crowd = (k & 1) != 0,
                                .snow = (k & 2) != 0,
                                .rider = (k & 4) != 0,
                                .machine = (k & 8) != 0};
}

static const bw_combination *find(const bw_combination *all, size_t n, double crowd,
                                  double snow, double rider, double machine)
{
    for (size_t k = 0; k < n; k++) {
        if (all[k].crowd == crowd && all[k].snow == snow && all[k].rider == rider &&
            all[k].machine == machine && all[k].slow == 0.0) {
            return &all[k];
        }
    }
    return NULL;
}

/* There if it ought to be, with that duration, and for strength. */
static void assert_listed(const bw_combination *found, bool wanted, double duration)
{
    assert_true((found != NULL) == wanted);
    if (wanted) {
        assert_true(found->duration == duration && found->strength && found->dead == 1.0);
        assert_true(found->service == (found->machine == 0.0) && !found->factored);
    }
}

static void allowable_stress_takes_what_is_present(void **state)
{
    (void)state;
    for (int k = 0; k < SUBSETS; k++) {
        const bw_actions_present p = subset(k);
        bw_combination out[BW_COMBINATIONS_MAX];
        const size_t n = bw_us_asd.combinations(&p, out);
        assert_listed(find(out, n, 0.0, 0.0, 0.0, 0.0), true, 0.9);
        assert_listed(find(out, n, 1.0, 0.0, 0.0, 0.0), p.crowd, 1.0);
        assert_listed(find(out, n, 0.0, 1.0, 0.0, 0.0), p.snow, 1.15);
        assert_listed(find(out, n, 0.0, 0.0, 1.0, 0.0), p.rider, 1.6);
        assert_listed(find(out, n, 0.0, 0.0, 0.0, 1.0), p.machine, 1.25);
        assert_listed(find(out, n, 0.75, 0.75, 0.0, 0.0), p.crowd && p.snow, 1.15);
        assert_listed(find(out, n, 0.0, 0.75, 0.75, 0.0), p.rider && p.snow, 1.6);
        assert_listed(find(out, n, 0.0, 0.75, 0.0, 0.75), p.machine && p.snow, 1.25);
        assert_int_equal(n, 1 + p.crowd + p.snow + 2 * p.rider + p.machine +
                                (p.crowd && p.snow) + 2 * (p.rider && p.snow) +
                                (p.machine && p.snow));
    }
}

/* What is used of the logs by a rider alone who presses with the factor and pushes, and
 * by the weight of the deck: the largest over the combinations for strength. */
static double governing(const bw_basis *basis, double dead, double push, double factor)
{
    const bw_actions_present p = {.rider = true};
    bw_combination out[BW_COMBINATIONS_MAX];
    const size_t n = basis->combinations(&p, out);
    double most = 0.0;
    for (size_t i = 0; i < n; i++) {
        const bw_combination *c = &out[i];
        const double pressed = c->slow > 0.0 ? fmin(factor, c->slow) : factor;
        const double sum = c->dead * dead + c->rider * (pressed + push);
        most = c->strength ? fmax(most, fabs(sum) / c->duration) : most;
    }
    return most;
}

/* Whatever the deck weighs, and where its weight or the push relieves, too. Alone, the
 * rider comes to n / 1.6 or n 1.5 / 0.90 from twice the weight on (NDS Table 2.3.2, READ;
 * EN 1990 with EN 1995-1-1, Table 3.1, READ). */
static void harder_is_never_easier(void **state)
{
    (void)state;
    static const double dead[] = {0.0, 0.117, 1.93, 11.7, 230.0, -0.31, -1.77};
    static const double push[] = {0.0, 0.59, 3.7, -0.6};
    for (int k = 0; k < 2 * 7 * 4; k++) {
        const bw_basis *basis = k % 2 == 0 ? &bw_us_asd : &bw_eurocode;
        double before = 0.0;
        for (int j = 0; j <= 400; j++) {
            const double factor = 1.0 + j / 100.0;
            const double now = governing(basis, dead[k / 2 % 7], push[k / 14], factor);
            if (dead[k / 2 % 7] >= 0.0 && push[k / 14] >= 0.0) {
                assert_true(now >= before * (1.0 - 1e-12));
            }
            /* no jump: a step is 0.01 1.5 / 0.70 at most */
            assert_true(fabs(now - before) <= 0.0215 || j == 0);
            before = now;
        }
    }
    for (int j = 0; j < 8; j++) {
        const double n = 2.0 + 0.37 * j;
        assert_close(governing(&bw_us_asd, 0.0, 0.0, n), n / 1.6, 1e-12);
        assert_close(governing(&bw_eurocode, 0.0, 0.0, n), n * 1.5 / 0.90, 1e-12);
    }
}

/* 1.25 times the weight as long as people stay, 1.56 for the short term: what a blow of
 * twice the weight comes to. And what the user gives, counts alone. */
static void durations_of_riders_and_machines(void **state)
{
    (void)state;
    static const struct {
        const bw_basis *basis;
        double blow, slow, machine;
    } of[] = {{&bw_us_asd, 1.6, 1.0, 1.25}, {&bw_eurocode, 0.90, 0.70, 0.70}};

    for (size_t k = 0; k < 4; k++) {
        const size_t b = k % 2;
        const bool own = k >= 2;
        const bw_actions_present p = {.rider = true,
                                      .snow = true,
                                      .machine = true,
                                      .rider_duration = own ? 0.617 : 0.0,
                                      .machine_duration = own ? 0.583 : 0.0};
        bw_combination out[BW_COMBINATIONS_MAX];
        const size_t n = of[b].basis->combinations(&p, out);
        size_t slow = 0;
        for (size_t i = 0; i < n; i++) {
            if (out[i].slow > 0.0) {
                assert_true(!own && out[i].rider > 0.0 && !out[i].service);
                assert_true(out[i].strength && out[i].duration == of[b].slow);
                assert_close(out[i].slow, 2.0 * of[b].slow / of[b].blow, 1e-12);
                slow++;
            } else if (out[i].rider > 0.0) {
                assert_true(out[i].duration == (own ? 0.617 : of[b].blow));
            } else if (out[i].machine > 0.0) {
                assert_true(out[i].duration == (own ? 0.583 : of[b].machine));
            }
        }
        assert_int_equal(slow, own ? 0 : b == 0 ? 2 : 3);
    }
}

/* Strength rows of (6.10) with the leading action at 1.5 and the other at 1.05; the ones
 * with the weight at 1.0, where it helps; the same unfactored for service. */
static void limit_states_take_what_is_present(void **state)
{
    (void)state;
    for (int k = 0; k < SUBSETS; k++) {
        const bw_actions_present p = subset(k);
        bw_combination out[BW_COMBINATIONS_MAX];
        const size_t n = bw_eurocode.combinations(&p, out);
        const double led = 1.5 * 0.7;
        assert_true((find(out, n, 1.5, 0.0, 0.0, 0.0) != NULL) == p.crowd);
        assert_true((find(out, n, 0.0, 1.5, 0.0, 0.0) != NULL) == p.snow);
        assert_true((find(out, n, 0.0, 0.0, 1.5, 0.0) != NULL) == p.rider);
        assert_true((find(out, n, 0.0, 0.0, 0.0, 1.5) != NULL) == p.machine);
        assert_true((find(out, n, 1.5, led, 0.0, 0.0) != NULL) == (p.crowd && p.snow));
        assert_true((find(out, n, led, 1.5, 0.0, 0.0) != NULL) == (p.crowd && p.snow));
        assert_true((find(out, n, 0.0, led, 1.5, 0.0) != NULL) == (p.rider && p.snow));
        assert_true((find(out, n, 0.0, led, 0.0, 1.5) != NULL) == (p.machine && p.snow));
        assert_true((find(out, n, 1.0, 0.7, 0.0, 0.0) != NULL) == (p.crowd && p.snow));
        assert_true((find(out, n, 0.0, 0.7, 0.0, 1.0) != NULL) == (p.machine && p.snow));
    }
}

/* Nothing that is not there, never rider, crowd and machine together, never both kinds of
 * check or none, and always a duration between those of the table. */
static void no_combination_is_out_of_place(void **state)
{
    (void)state;
    for (int k = 0; k < 2 * SUBSETS; k++) {
        const bw_actions_present p = subset(k / 2);
        const bw_basis *basis = k % 2 == 0 ? &bw_us_asd : &bw_eurocode;
        bw_combination out[BW_COMBINATIONS_MAX];
        const size_t n = basis->combinations(&p, out);
        assert_true(n >= 1 && n <= BW_COMBINATIONS_MAX);
        for (size_t i = 0; i < n; i++) {
            const bw_combination *c = &out[i];
            assert_true(p.crowd || c->crowd == 0.0);
            assert_true(p.snow || c->snow == 0.0);
            assert_true(p.rider || c->rider == 0.0);
            assert_true(p.machine || c->machine == 0.0);
            assert_true((c->crowd > 0.0) + (c->rider > 0.0) + (c->machine > 0.0) <= 1);
            assert_true(c->dead >= 1.0 && c->source != NULL && c->title != NULL);
            assert_true(c->strength || c->service || c->machine > 0.0);
            assert_true(c->duration >= (k % 2 == 0 ? 0.9 : 0.5));
            assert_true(c->duration <= (k % 2 == 0 ? 1.6 : 0.9));
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(allowable_stress_takes_what_is_present),
        cmocka_unit_test(harder_is_never_easier),
        cmocka_unit_test(durations_of_riders_and_machines),
        cmocka_unit_test(limit_states_take_what_is_present),
        cmocka_unit_test(no_combination_is_out_of_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
