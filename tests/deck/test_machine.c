/* The machine on four wheels, and wood full of water: against the simple beam, statics
 * and volumes by hand. */
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static const double g = 9.80665, pi = 3.14159265358979324; /* m/s2 */

static const char quad[] =
    "\"machine\": {\"name\": \"quad\", \"mass\": \"417.3 kg\", \"wheelbase\": \"1.217 "
    "m\", \"track\": \"0.871 m\", \"heavy_axle_share\": 0.57, \"factor\": 1.37, "
    "\"push\": 0.31}";

/* A log of even thickness on two sills, two rows, and nothing but the machine. */
static bwt_deck plain(void)
{
    bwt_deck d = bwt_deck_plain();
    d.n_bents = 2;
    d.at[1] = 4.317;
    d.sill[0] = d.sill[1] = true;
    d.stringer.tip = d.stringer.butt = 0.2385;
    d.rider = 0.0;
    d.loads = quad;
    return d;
}

static double moment_at(double dead, double L, const double *P, const double *at,
                        double x)
{
    double M = dead * x * (L - x) / 2.0;
    for (int k = 0; k < 2; k++) {
        if (at[k] >= 0.0 && at[k] <= L) {
            M += P[k] * fmin(at[k], x) * (L - fmax(at[k], x)) / L;
        }
    }
    return M;
}

/* Largest under one of the axles, whichever way round the machine goes. */
static double largest_moment(double dead, double L, double heavy, double light, double a)
{
    double most = 0.0;
    for (int way = -1; way <= 1; way += 2) {
        for (double first = 0.0; first <= L; first += L / 20000.0) {
            const double P[2] = {heavy, light}, at[2] = {first, first + way * a};
            for (int k = 0; k < 2; k++) {
                if (at[k] > 0.0 && at[k] < L) {
                    most = fmax(most, moment_at(dead, L, P, at, at[k]));
                }
            }
        }
    }
    return most;
}

static double worst_term(const bw_assessment *a, const char *role, bw_check_kind kind,
                         const char *symbol)
{
    double most = 0.0;
    for (size_t k = 0; k < a->n_members; k++) {
        const bw_member_result *m = &a->members[k];
        if (strcmp(m->role, role) == 0 && m->has[kind]) {
            most = fmax(most, bwt_term(&m->findings[kind], symbol));
        }
    }
    return most;
}

static void the_worst_row_by_hand(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bwt_deck d = plain();
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, arena, &a, NULL), BW_OK);
    /* as far over to one side as the deck lets it: its middle at half the width less half
     * the track; the row's share is the lever of that middle */
    const double middle = (d.width - 0.871) / 2.0;
    const double share = (middle - d.across[0]) / (d.across[1] - d.across[0]);
    const double all = 1.37 * 417.3 * g * share;
    const double dead = a.deck->logs[0].species->green_density.value * g * pi / 4.0 *
                            d.stringer.butt * d.stringer.butt +
                        d.board_pressure * d.width / 2.0;
    const double wanted =
        largest_moment(dead, d.at[1] - d.at[0], 0.57 * all, 0.43 * all, 1.217);
    const double got = worst_term(&a, "stringer", BW_CHECK_BENDING, "M");
    assert_true(fabs(got / wanted - 1.0) < 2e-6);
    const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_BENDING);
    assert_string_equal(f->combination, "dead + machine");
    assert_non_null(strstr(f->position, "quad"));
    bw_arena_free(arena);
}

/* Three rows, and the middle one takes most with the machine off its middle. */
static void a_middle_row_by_trying(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bwt_deck d = plain();
    d.n_rows = 3;
    d.across[0] = -0.713;
    d.across[1] = 0.117;
    d.across[2] = 0.697;
    d.width = 1.71;
    d.stringer.butt = d.stringer.tip = 0.2385;
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, arena, &a, NULL), BW_OK);
    double share = 0.0;
    for (double c = -(d.width - 0.871) / 2.0; c <= (d.width - 0.871) / 2.0; c += 1e-5) {
        double sum = 0.0;
        for (int side = -1; side <= 1; side += 2) {
            const double x = c + side * 0.871 / 2.0;
            const double reach =
                x < d.across[1] ? d.across[1] - d.across[0] : d.across[2] - d.across[1];
            sum += 1.0 - fabs(x - d.across[1]) / reach;
        }
        share = fmax(share, sum / 2.0);
    }
    const double all = 1.37 * 417.3 * g * share, L = d.at[1] - d.at[0];
    /* a row between two, less what the boards over the edges lift it */
    double boards = 0.0;
    for (int side = -1; side <= 1; side += 2) {
        const double reach = fabs(d.across[1 + side] - d.across[1]);
        const double edge = fabs(side * d.width / 2.0 - d.across[1]);
        boards += edge * (1.0 + 1.0 - edge / reach) / 2.0;
    }
    const double dead = a.deck->logs[0].species->green_density.value * g * pi / 4.0 *
                            d.stringer.butt * d.stringer.butt +
                        d.board_pressure * boards;
    const double left = largest_moment(dead, L, 0.57 * all, 0.43 * all, 1.217);
    const double got =
        bwt_term(bwt_finding(&a, "stringer", "r1-0", BW_CHECK_BENDING), "M");
    assert_true(fabs(got / left - 1.0) < 1e-4);
    bw_arena_free(arena);
}

/* On one bent after the other: what the heavier axle puts on a post cannot be more than
 * the machine over that post with both axles there, nor less than the heavier alone. */
static void a_post_gets_its_part(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bwt_deck d = bwt_deck_plain();
    d.rider = 0.0;
    d.loads = quad;
    bw_assessment with, without;
    assert_int_equal(bwt_deck_assess(&d, arena, &with, NULL), BW_OK);
    d.loads = NULL;
    d.rider = 20.0; /* next to nothing, so that there is a verdict */
    d.factor = 1.0;
    assert_int_equal(bwt_deck_assess(&d, arena, &without, NULL), BW_OK);
    const double share = ((d.width - 0.871) / 2.0 - d.across[0]) / 0.874;
    const double all = 1.37 * 417.3 * g * share;
    const double added = worst_term(&with, "post", BW_CHECK_COMPRESSION, "N") -
                         worst_term(&without, "post", BW_CHECK_COMPRESSION, "N");
    assert_true(added > 0.57 * all - 2.0 * 20.0 * g && added < 1.1 * all);
    bw_arena_free(arena);
}

static double governing_with(const char *loads, const char *basis)
{
    bw_arena *arena = bw_arena_new();
    bwt_deck d = bwt_deck_plain();
    d.n_bents = 2;
    d.loads = loads;
    bw_assessment a;
    bw_diags faults = bw_diags_new(arena, NULL);
    bw_case deck = *bwt_deck_read(&d, arena);
    deck.basis = bw_basis_find(basis);
    assert_int_equal(bw_deck_assess(arena, &deck, &a, &faults), BW_OK);
    const double worst = bwt_governing(&a);
    bw_arena_free(arena);
    return worst;
}

static void a_heavier_machine_is_worse(void **state)
{
    (void)state;
    static const char *const basis[] = {"us_asd", "eurocode"};
    for (int b = 0; b < 2; b++) {
        double before = governing_with(NULL, basis[b]);
        for (double mass = 300.0; mass < 1500.0; mass *= 1.93) {
            char loads[200];
            snprintf(loads, sizeof loads,
                     "\"machine\": {\"mass\": \"%.6g kg\", \"wheelbase\": \"1.2 m\", "
                     "\"track\": \"0.8 m\"}",
                     mass);
            const double worst = governing_with(loads, basis[b]);
            assert_true(worst >= before * (1.0 - 1e-9));
            before = worst;
        }
    }
}

/* Combinations of both bases: the machine alone with the dead weight and with snow, never
 * with riders or people, with strength only. */
static void its_own_combinations(void **state)
{
    (void)state;
    const bw_actions_present all = {true, true, true, true, 0.0, 0.0};
    const bw_basis *const bases[] = {&bw_us_asd, &bw_eurocode};
    const double duration[] = {1.25, 0.70}; /* NDS Table 2.3.2 seven days (READ); EN
                                               1995-1-1 Table 3.1 short term (READ) */
    for (int b = 0; b < 2; b++) {
        bw_combination list[BW_COMBINATIONS_MAX];
        const size_t n = bases[b]->combinations(&all, list);
        int found = 0;
        for (size_t k = 0; k < n; k++) {
            if (list[k].machine > 0.0) {
                found++;
                assert_true(list[k].rider == 0.0 && list[k].crowd == 0.0);
                /* strength, or unfactored for the ground alone; never how it rides */
                assert_true(list[k].strength || !list[k].factored);
                assert_false(list[k].service);
                assert_true(fabs(list[k].duration - duration[b]) < 1e-12);
            }
        }
        assert_int_equal(found, b == 0 ? 2 : 5);
    }
}

/* Walls of 1.54 times the density of water, and water in what they leave. */
static void full_of_water(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bwt_deck d = bwt_deck_plain();
    d.stringer.tip = d.stringer.butt;
    d.post.tip = d.post.butt;
    bw_assessment dry, wet;
    assert_int_equal(bwt_deck_assess(&d, arena, &dry, NULL), BW_OK);
    d.loads = "\"soaked\": true";
    assert_int_equal(bwt_deck_assess(&d, arena, &wet, NULL), BW_OK);
    assert_true(wet.dead_weight > 1.05 * dry.dead_weight);
    double more = 0.0;
    for (size_t k = 0; k < wet.n_members; k++) {
        const bw_member_result *m = &wet.members[k];
        const bw_species *s = m->log->species;
        const double G = s->specific_gravity.value;
        const double full = 1000.0 * G + 1000.0 * (1.0 - G / 1.54);
        const double D = m->log->butt_diameter;
        const double length = /* above the ground */
            m->length - (strcmp(m->role, "post") == 0 ? d.hole_depth : 0.0);
        more += (full - s->green_density.value) * g * pi / 4.0 * D * D * length;
    }
    const double added = wet.dead_weight - dry.dead_weight;
    assert_true(fabs(added / more - 1.0) < 1e-9);
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_worst_row_by_hand),
        cmocka_unit_test(a_middle_row_by_trying),
        cmocka_unit_test(a_post_gets_its_part),
        cmocka_unit_test(a_heavier_machine_is_worse),
        cmocka_unit_test(its_own_combinations),
        cmocka_unit_test(full_of_water),
    };
    return cmocka_run_group_tests_name("machine", tests, NULL, NULL);
}
