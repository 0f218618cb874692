/* The same deck by both bases, side by side, and why they differ.
 *
 * For one action with factor gamma, a check with the demand in proportion to the load and
 * the capacity F C_D (allowable stress) or n F k_mod / 1.3 (limit state, n the divisor of
 * the allowable stress) gives
 *
 *   u_EC / u_US = gamma C_D 1.3 / (n k_mod)
 *
 * with gamma 1.35 to 1.5; C_D / k_mod = 0.9 / 0.5 dead alone, 1.0 / 0.65 people, 1.15 /
 * 0.65 snow and 1.6 / 0.9 a rider. People with snow: 1.5 C + 1.05 S with k_mod 0.65
 * against the worse of C with 1.0 and 0.75 C + 0.75 S with 1.15: at most 2.06 where one
 * action gives 1.5 (at S = 0.53 C). So the reasons for what differs by over 30 %:
 *
 *   bending, shear   n = 2.1 (softwood) or 2.3: 1.23 to 1.66, with snow to 1.97. Wet wood
 *                    counts twice in the limit state: values are green, and k_mod of
 *                    service class 3 is 0.81 of that of dry wood. Shear the same, since
 *                    k_cr f_v,k = n F_v.
 *   shear, seats     over a seat 25 mm deep in 280 mm: 1 / k_v = 1.34 against (d / d_n)^2
 * = 1.21, so 1.1 to 1.15 times that compression      n = 1.9 or 2.1: 1.35 to 1.82, with
 * snow to 2.18; and the curves k_c and C_P differ, by a fifth at most combined shares of
 * compression add as they are (6.23) where the other basis squares them (3.9-3): u_EC
 * <= 2.6 sqrt(u_US) + 1.97 u_US bearing          the 5 % limit (0.539 of the mean)
 * against 1 / 1.67, and k_mod against no C_D: 2.4 (rider) to 3.3 (people), with snow
 * to 4.6; less the spread of the contact, half as much again at most at one side end
 * grain        the whole f_c,0,d against 0.75 F_c* for want of a plate: 1.0 to 1.37, with
 * snow to 1.63 deflection the lasting loads count too: from 1 to what they add sag 1 +
 * k_def = 4 against K_cr = 2 for what lasts, 1 + psi_2 k_def = 2.8 against 1 for what
 * passes; with snow 1.24 times that hole, footing,   unfactored actions against the same
 * allowable values on both: 1; with uplift           snow 1.13, D + C + 0.7 S against D +
 * 0.75 C + 0.75 S; the frame is solved in its bent shape from different factors of
 * buckling boards           as above; one person is 2 kN (EN 1991-1-1) against 300 lb
 * unless the case says: 1.5 times that buckling         factors on the actions over
 * stiffnesses: 1.35 to 1.85 times E_min (0.396 E) over E_0,05 / gamma_M (0.491 E), 1.09
 * to 1.49; 0.81 where both stop looking at the same factor
 *
 * Marks: COMPUTED from the two chains. */
#include "deck.h"

#include "bolewright/input.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

typedef struct {
    double low,
        high; /* of the utilisation in limit states over that in allowable stress */
    const char *why;
} difference;

static const difference expected[BW_CHECK_KIND_COUNT] = {
    [BW_CHECK_BENDING] = {1.23, 1.97, "gamma C_D 1.3 / (n k_mod), wet wood twice"},
    [BW_CHECK_SHEAR] = {1.23, 2.3, "the same; over a seat k_v against (d_n / d)^2"},
    [BW_CHECK_COMPRESSION] = {1.2, 2.6, "the same with n = 1.9; k_c against C_P"},
    [BW_CHECK_COMBINED] = {1.23, 1.97, "compression adds as it is, not squared"},
    [BW_CHECK_BEARING] = {1.4, 4.6, "5 % limit and k_mod against 1/1.67; spread"},
    [BW_CHECK_END_BEARING] = {0.9, 1.63, "the whole strength, without a plate too"},
    [BW_CHECK_DEFLECTION] = {1.0, 3.0, "lasting loads count too"},
    [BW_CHECK_SAG] = {1.0, 3.5, "k_def = 3 and psi_2 against K_cr = 2"},
    [BW_CHECK_SOIL_LATERAL] = {0.95, 1.2,
                               "snow with people: 0.7 S against 0.75 C + 0.75 S"},
    [BW_CHECK_SOIL_BEARING] = {0.95, 1.2,
                               "snow with people: 0.7 S against 0.75 C + 0.75 S"},
    [BW_CHECK_UPLIFT] = {0.95, 1.2, "snow with people: 0.7 S against 0.75 C + 0.75 S"},
    [BW_CHECK_BUCKLING] = {0.8, 1.5, "factored actions, E_0,05 / gamma_M against E_min"},
};

/* Squared shares of compression lie below their own square root. */
static double most(int kind, double us)
{
    return expected[kind].high + (kind == BW_CHECK_COMBINED ? 2.6 / sqrt(us) : 0.0);
}

static bw_arena *arena;

static int start(void **state)
{
    (void)state;
    arena = bw_arena_new();
    return arena != NULL ? 0 : -1;
}

static int finish(void **state)
{
    (void)state;
    bw_arena_free(arena);
    return 0;
}

static bw_assessment assess(bw_case *deck, const bw_basis *basis)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    bw_assessment out;

    deck->basis = basis;
    assert_int_equal(bw_deck_assess(arena, deck, &out, &diags), BW_OK);
    return out;
}

typedef struct {
    double us, ec; /* worst utilisation over all members */
    double low, high;
    size_t members, unexplained;
} both;

static void compare_member(const bw_member_result *us, const bw_member_result *ec,
                           both *kinds)
{
    assert_string_equal(us->name, ec->name);
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        if (!us->has[kind] || !ec->has[kind]) {
            continue;
        }
        both *b = &kinds[kind];
        const double u = us->findings[kind].ratio.utilisation;
        const double e = ec->findings[kind].ratio.utilisation;
        assert_true(isfinite(u) && isfinite(e));
        b->us = fmax(b->us, u);
        b->ec = fmax(b->ec, e);
        if (u > 1e-3) { /* below, what only one basis counts decides */
            b->unexplained += e / u < expected[kind].low || e / u > most(kind, u);
            b->low = b->members == 0 ? e / u : fmin(b->low, e / u);
            b->high = b->members == 0 ? e / u : fmax(b->high, e / u);
            b->members++;
        }
    }
}

static void print_table(const char *name, const both *kinds)
{
    printf("%s: worst utilisation by both bases\n", name);
    printf("  %-14s %7s %7s  %-13s %s\n", "check", "us_asd", "euroc.", "ratio", "why");
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const both *b = &kinds[kind];
        if (b->members > 0) {
            const bool matters = b->high > 1.3 || b->low < 1.0 / 1.3;
            printf("  %-14s %7.3f %7.3f  %5.2f to %-5.2f %s\n",
                   bw_us_asd.checks[kind]->id, b->us, b->ec, b->low, b->high,
                   matters ? expected[kind].why : "");
        }
    }
}

static void compare(const char *name)
{
    bw_case deck;
    assert_int_equal(bwt_case_read(name, arena, &deck), BW_OK);
    const bw_assessment us = assess(&deck, &bw_us_asd);
    const bw_assessment ec = assess(&deck, &bw_eurocode);
    both kinds[BW_CHECK_KIND_COUNT] = {0};

    assert_int_equal(us.n_members, ec.n_members);
    for (size_t i = 0; i < us.n_members; i++) {
        compare_member(&us.members[i], &ec.members[i], kinds);
    }
    print_table(name, kinds);
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        if (kinds[kind].unexplained > 0) {
            fail_msg("%s differs in a way that is not explained",
                     bw_us_asd.checks[kind]->id);
        }
    }
}

static void imperial_deck_differs_only_as_explained(void **state)
{
    (void)state;
    compare("alder-loop.json");
}

static void metric_deck_differs_only_as_explained(void **state)
{
    (void)state;
    compare("fellside-walk.json");
}

/* ---- twins: one frame in two files, each with its own units and basis ---- */

static void print_pair(const bw_member_result *us, const bw_member_result *ec, int kind)
{
    const double u = us->findings[kind].ratio.utilisation;
    const double e = ec->findings[kind].ratio.utilisation;
    const bool matters = u > 1e-3 && (e / u > 1.3 || e / u < 1.0 / 1.3);
    printf("  %-9s %-8s %-12s %6.3f %6.3f  %5.2f  %s\n", us->role, us->name,
           bw_us_asd.checks[kind]->id, u, e, e / u, matters ? expected[kind].why : "");
}

static bw_assessment assess_twin(bw_case *deck, const bw_basis *basis)
{
    assert_ptr_equal(deck->basis, basis);
    return assess(deck, basis);
}

/* Units are converted to six digits and more, so lengths agree to 1e-5. */
static void twins_differ_only_as_explained(void **state)
{
    (void)state;
    bw_case metric;
    assert_int_equal(bwt_case_read("skerry-crossing.json", arena, &metric), BW_OK);
    bw_case imperial;
    assert_int_equal(bwt_case_read("skerry-crossing-us.json", arena, &imperial), BW_OK);
    const bw_assessment ec = assess_twin(&metric, &bw_eurocode);
    const bw_assessment us = assess_twin(&imperial, &bw_us_asd);
    both kinds[BW_CHECK_KIND_COUNT] = {0};
    size_t pairs = 0;

    assert_int_equal(us.n_members, ec.n_members);
    printf("skerry-crossing: every member and check by both bases\n");
    for (size_t i = 0; i < us.n_members; i++) {
        assert_true(fabs(us.members[i].length / ec.members[i].length - 1.0) < 1e-5);
        compare_member(&us.members[i], &ec.members[i], kinds);
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            assert_true(us.members[i].has[kind] == ec.members[i].has[kind]);
            if (us.members[i].has[kind]) {
                print_pair(&us.members[i], &ec.members[i], kind);
                pairs++;
            }
        }
    }
    assert_true(pairs > 50);
    assert_true(fabs(us.dead_weight / ec.dead_weight - 1.0) < 1e-5);
    print_table("skerry-crossing", kinds);
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        assert_int_equal(kinds[kind].unexplained, 0);
    }
}

/* Every strength check costs more on the limit-state basis: nobody gains by changing it.
 */
static void changing_the_basis_never_turns_over_into_within(void **state)
{
    (void)state;
    static const char *const names[] = {"alder-loop.json", "fellside-walk.json"};
    for (size_t k = 0; k < 2; k++) {
        bw_case deck;
        assert_int_equal(bwt_case_read(names[k], arena, &deck), BW_OK);
        const bw_assessment us = assess(&deck, &bw_us_asd);
        const bw_assessment ec = assess(&deck, &bw_eurocode);
        for (size_t i = 0; i < us.n_members; i++) {
            for (int kind = 0; kind <= BW_CHECK_BEARING; kind++) {
                assert_true(!us.members[i].has[kind] ||
                            us.members[i].findings[kind].verdict == BW_WITHIN ||
                            ec.members[i].findings[kind].verdict != BW_WITHIN);
            }
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(imperial_deck_differs_only_as_explained),
        cmocka_unit_test(metric_deck_differs_only_as_explained),
        cmocka_unit_test(twins_differ_only_as_explained),
        cmocka_unit_test(changing_the_basis_never_turns_over_into_within),
    };
    return cmocka_run_group_tests(tests, start, finish);
}
