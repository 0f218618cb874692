/* Stringers that lift off their seats: two bays by hand, and what must hold of any. */
#include "../base/arena_fixture.h"
#include "law_deck.h"
#include "planned.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

typedef struct {
    const bw_case *deck;
    bw_assessment result;
    bwi_plan plan;
    bwi_row_frame row;
    bw_state *dead;
} framed;

static const double bay = 2.713;

/* Equal bays on sills, logs without taper. */
static bwt_deck level(int bays)
{
    bwt_deck d = bwt_deck_plain();
    d.n_bents = bays + 1;
    for (int k = 0; k <= bays; k++) {
        d.at[k] = bay * k;
        d.height[k] = 0.55;
        d.sill[k] = true;
    }
    d.run[0] = d.run[1] = bays;
    d.stringer.butt = d.stringer.tip = 0.2;
    return d;
}

static void make_row(const bwt_deck *d, bw_arena *arena, framed *out)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    assert_int_equal(bwt_deck_plan(d, arena, &out->deck, &out->result, &out->plan),
                     BW_OK);
    assert_int_equal(bwi_row_frame_make(&out->plan, 0, 1, &out->row, &diags), BW_OK);
    out->dead = bw_frame_state(out->row.frame, &(bw_part){BWI_CASE_DEAD, 1.0}, 1, arena);
    assert_non_null(out->dead);
}

/* Dead load of the row [N/m]: cylinder and half of the boards. */
static double dead_per_length(const framed *f)
{
    const double area = 3.14159265358979324 / 4.0 * 0.2 * 0.2;
    return area * f->deck->logs[0].species->green_density.value * 9.80665 +
           371.0 * 1.13 / 2.0;
}

/* A wheel at k of the first of two bays lifts the far end if M / L > w L / 2, M over the
 * middle: (k - k^3) / 4 P L + w L^2 / 8, both over 1 + phi for shear strain, phi = 3 E I
 * / (kappa G A L^2) = 3 (E / G) d^2 / (16 kappa L^2) (end turns of simple beams). */
static void two_bays_lift_where_the_wheel_outweighs_the_log(void **state)
{
    const bwt_deck d = level(2);
    framed f;
    make_row(&d, *state, &f);
    assert_int_equal(f.row.n_lifts, 1);
    for (double k = 0.13; k < 1.0; k += 0.24) {
        const double phi = 3.0 * 0.2 * 0.2 / (0.9 * bay * bay); /* E / G = 16 */
        const double wL = dead_per_length(&f) * bay;
        const double most = (2.0 * (1.0 + phi) - 0.5) * wL / (k - k * k * k);
        for (int over = 0; over < 2; over++) {
            const bwi_wheels w = {
                .n = 1,
                .wheel = {{.at = 0, .a = k * bay, .fy = -most * (over ? 1.002 : 0.998)}}};
            bwi_wheels off;
            assert_int_equal(bwi_lift_off(&f.row, &f.row.lifts[0], f.dead, &w, &off),
                             over);
        }
    }
}

/* Then it is a simple beam with an overhang: R = P (1 - k) at the first seat, since w L /
 * 2 there and the overhang's w L^2 / 2 over L cancel. */
static void a_lifted_end_leaves_a_simple_beam_with_an_overhang(void **state)
{
    const bwt_deck d = level(2);
    framed f;
    make_row(&d, *state, &f);
    const double P = 9137.0, w = dead_per_length(&f);
    for (double k = 0.27; k < 0.95; k += 0.19) {
        const bwi_wheels wheels = {.n = 1, .wheel = {{.at = 0, .a = k * bay, .fy = -P}}};
        bwi_wheels off;
        assert_true(bwi_lift_off(&f.row, &f.row.lifts[0], f.dead, &wheels, &off));
        const bwi_lift *lift = &f.row.lifts[0];
        const double R[] = {bwi_seat_force(&f.row, lift, 0, f.dead, &off),
                            bwi_seat_force(&f.row, lift, 1, f.dead, &off),
                            bwi_seat_force(&f.row, lift, 2, f.dead, &off)};
        assert_true(bwt_relative(R[0], P * (1.0 - k)) < 1e-9);
        assert_true(bwt_relative(R[1], P * k + 2.0 * w * bay) < 1e-9);
        assert_true(fabs(R[2]) < 1e-9 * P);
        const bw_line line = bw_influence_line(
            f.row.influence, f.dead, f.row.bay_member[0], off.wheel, off.n, *state);
        const double x = k * bay;
        assert_true(bwt_relative(bw_line_action(&line, x, true).moment,
                                 P * (1.0 - k) * x - w * x * x / 2.0) < 1e-9);
    }
}

/* Largest moment of the same beam over all places of the wheel: at k = P / (2 P + w L)
 * M = P k (1 - k) L - w k^2 L^2 / 2; held down it would be 17 % less. */
static void the_finding_has_the_moment_of_the_lifted_beam(void **state)
{
    bwt_deck d = level(2);
    d.width = 2.0 * 0.437; /* no overhang: the whole wheel goes to one row at most */
    d.board_pressure = 57.0;
    d.rider = 187.0;
    d.factor = 3.9;
    framed f;
    make_row(&d, *state, &f);
    const double w = dead_per_length(&f) - 371.0 * 1.13 / 2.0 + 57.0 * d.width / 2.0;
    const double P = d.rider * d.factor * 9.80665;
    const double k = P / (2.0 * P + w * bay);
    const double wanted = P * k * (1.0 - k) * bay - w * k * k * bay * bay / 2.0;
    const bw_finding *b = bwt_finding(&f.result, "stringer", "r0-0", BW_CHECK_BENDING);
    assert_non_null(b);
    assert_true(bwt_relative(bwt_term(b, "M"), wanted) < 1e-9);
    assert_non_null(b->position);
}

/* People on one bay: 1/8 w L^2 and half on each seat, not 7/16 and 9/16. */
static void people_on_one_bay_lift_the_other_end(void **state)
{
    bwt_deck d = level(2);
    d.crowd = 9871.0; /* far more than people weigh, so that the log does not hold it */
    d.rider = 0.0;
    framed f;
    make_row(&d, *state, &f);
    const bw_part parts[] = {{BWI_CASE_FIRST_BAY, 1.0}};
    const bw_state *s = bw_frame_state(f.row.frame, parts, 1, *state);
    bwi_wheels off;
    assert_true(bwi_lift_off(&f.row, &f.row.lifts[0], s, NULL, &off));
    const double half = bwi_plan_share(&f.plan, 0, 0)->crowd_width * 9871.0 * bay / 2.0;
    assert_true(bwt_relative(bwi_seat_force(&f.row, &f.row.lifts[0], 0, s, &off), half) <
                1e-9);
    assert_true(bwt_relative(bwi_seat_force(&f.row, &f.row.lifts[0], 1, s, &off), half) <
                1e-9);
}

/* Whether all is as it is of a thing that lies on its seats or stands off them. */
static bool lies(const bwi_lift *lift, const double *held, const double *gap)
{
    bool all = true;
    for (size_t i = 0; i < lift->n; i++) {
        double force = held[i];
        for (size_t j = 0; j < lift->n; j++) {
            force += lift->stiffness[i * lift->n + j] * gap[j];
        }
        all = all && force > -1e-5 && gap[i] >= 0.0;
        all = all && (gap[i] == 0.0 || fabs(force) < 1e-5);
    }
    return all;
}

/* From its rest to the forces, a part of the way. */
static void on_the_way(const bwi_lift *lift, const double *held, double part,
                       double out[BWI_SEATS_MAX])
{
    for (size_t i = 0; i < lift->n; i++) {
        out[i] = lift->rest[i] + part * (held[i] - lift->rest[i]);
    }
}

/* R >= 0, gap >= 0, and one of both is 0: what says that a thing lies on its seats. One
 * that would fly off has the gaps of the largest part of the way on which that holds,
 * found here by halving. */
static void check_gaps(const bwi_lift *lift, const double *held, int *lifted, int *flown)
{
    double gap[BWI_SEATS_MAX] = {0.0}, way[BWI_SEATS_MAX], there[BWI_SEATS_MAX] = {0.0};
    if (!bwi_lift_solve(lift, held, gap)) {
        return;
    }
    (*lifted)++;
    if (lies(lift, held, gap)) {
        return;
    }
    (*flown)++;
    double low = 0.0, high = 1.0;
    for (int turn = 0; turn < 50; turn++) {
        const double part = (low + high) / 2.0;
        on_the_way(lift, held, part, way);
        memset(there, 0, sizeof there);
        bwi_lift_solve(lift, way, there);
        *(lies(lift, way, there) ? &low : &high) = part;
    }
    for (size_t i = 0; i < lift->n; i++) {
        assert_true(fabs(gap[i] - there[i]) < 1e-9);
    }
}

/* Seen from the other end nothing is another, whichever seat opens first. */
static void check_from_other_end(const bwi_lift *lift, const double *held)
{
    double stiffness[BWI_SEATS_MAX * BWI_SEATS_MAX], rest[BWI_SEATS_MAX];
    double gap[BWI_SEATS_MAX] = {0.0}, back[BWI_SEATS_MAX], other[BWI_SEATS_MAX] = {0.0};
    const size_t n = lift->n;
    for (size_t i = 0; i < n; i++) {
        rest[i] = lift->rest[n - 1 - i];
        back[i] = held[n - 1 - i];
        for (size_t j = 0; j < n; j++) {
            stiffness[i * n + j] = lift->stiffness[(n - 1 - i) * n + n - 1 - j];
        }
    }
    const bwi_lift turned = {.n = n, .stiffness = stiffness, .rest = rest};
    assert_int_equal(bwi_lift_solve(lift, held, gap),
                     bwi_lift_solve(&turned, back, other));
    for (size_t i = 0; i < n; i++) {
        assert_true(fabs(gap[i] - other[n - 1 - i]) < 1e-12);
    }
}

static void any_stringer_lies_on_or_stands_off_each_seat(void **state)
{
    uint64_t random = 4211;
    int lifted = 0, flown = 0;
    for (int turn = 0; turn < 40; turn++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        bwt_deck d = level(3 + bwt_below(&random, 4));
        d.rider = 113.0;
        for (int b = 1; b < d.n_bents; b++) {
            d.at[b] = d.at[b - 1] + bwt_uniform(&random, 0.9, 3.3);
            d.height[b] = bwt_uniform(&random, 0.5, 1.2);
        }
        d.stringer.tip = bwt_uniform(&random, 0.14, 0.2);
        framed f;
        make_row(&d, *state, &f);
        const bwi_lift *lift = &f.row.lifts[0];
        for (int k = 0; k < 40; k++) {
            double held[BWI_SEATS_MAX];
            const double up = k % 2 == 0 ? -1.0 : 0.3; /* boards lift with less */
            const bw_wheel w = {.at = (size_t)bwt_below(&random, d.n_bents - 1),
                                .a = 0.4,
                                .fy = up * bwt_uniform(&random, 1e3, 2e4)};
            const bwi_wheels wheels = {.n = 1, .wheel = {w}};
            for (size_t i = 0; i < lift->n; i++) {
                held[i] = bwi_seat_force(&f.row, lift, i, f.dead, &wheels);
            }
            check_gaps(lift, held, &lifted, &flown);
            check_from_other_end(lift, held);
        }
        bw_arena_back(*state, mark);
    }
    assert_true(lifted > 600);
    assert_true(flown > 200);
}

/* Drawn up at its last seat by as much as a bay weighs, a log over two lies on its first
 * seat alone: its end is then up by twice the sag of a beam of the length of both, 5 w
 * l^4 / 384 E I + w l^2 / 8 kappa G A = 5 w l^4 / 384 E I (1 + 9.6 d^2 / (kappa l^2)).
 * Drawn up harder it comes no further: it would fly off, unless what draws is held. */
static void what_would_fly_off_comes_up_as_far_as_by_itself(void **state)
{
    const bwt_deck d = level(2);
    framed f;
    make_row(&d, *state, &f);
    const bwi_lift *lift = &f.row.lifts[0];
    const double w = dead_per_length(&f), l = 2.0 * bay, diameter = 0.2;
    const double E = f.result.references[0].value[BW_MODULUS];
    const double I = 3.14159265358979324 / 64.0 * pow(diameter, 4.0);
    const double shear = 1.0 + 9.6 * diameter * diameter / (0.9 * l * l);
    const double up = 2.0 * 5.0 * w * pow(l, 4.0) / (384.0 * E * I) * shear;
    for (double part = 1.0001; part < 9.0; part *= 2.3) {
        double gap[BWI_SEATS_MAX];
        const double held[] = {lift->rest[0], lift->rest[1],
                               lift->rest[2] - part * w * bay};
        assert_true(bwi_lift_solve(lift, held, gap));
        assert_true(gap[0] == 0.0 && gap[1] == 0.0);
        assert_true(bwt_relative(gap[2], up) < 1e-7);
    }
}

/* The axis of a tapered log slopes, so that turning about one seat it would push posts
 * along by a hair: that held it once, 37 km up. */
static void one_seat_does_not_hold_it(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.n_bents = 4;
    d.at[3] = 7.913;
    d.height[3] = d.height[0];
    d.run[0] = d.run[1] = 3;
    d.stringer = (bwt_log){"lodgepole pine", 0.124, 0.112, 0.0};
    framed f;
    make_row(&d, *state, &f);
    const bwi_lift *lift = &f.row.lifts[0];
    for (double part = 1.1; part < 9.0; part *= 1.7) {
        double gap[BWI_SEATS_MAX];
        const double held[] = {lift->rest[0], lift->rest[1], lift->rest[2],
                               -part * (lift->rest[2] + lift->rest[3])};
        assert_int_equal(lift->n, 4);
        assert_true(bwi_lift_solve(lift, held, gap));
        for (size_t i = 0; i < lift->n; i++) {
            assert_true(gap[i] < 1.0);
        }
    }
}

/* Four rows; one of them runs on over a bent where it has no post. */
static bwt_deck levered(void)
{
    bwt_deck d = bwt_deck_plain();
    d.n_rows = 4;
    d.across[0] = -0.713;
    d.across[1] = -0.238;
    d.across[2] = 0.238;
    d.across[3] = 0.713;
    d.width = 1.568;
    d.at[1] = 2.455;
    d.at[2] = 4.395;
    d.sill[0] = d.sill[2] = true;
    d.no_post[1][2] = true;
    d.run[2] = 2;
    d.stringer = (bwt_log){"lodgepole pine", 0.146, 0.125, 0.0};
    d.factor = 3.59;
    return d;
}

/* A rider beyond the outer row levers up a stringer of the next one, which runs on over
 * the bent: it lifted up to 108 kg, and counted as held down at 126 kg, so that the post
 * beside it was drawn five times less (0.29 and 0.06). */
static void a_heavier_rider_draws_no_post_less(void **state)
{
    double before = 0.0;
    for (double mass = 49.3; mass < 245.0; mass *= 1.17) {
        const bw_arena_mark mark = bw_arena_now(*state);
        bwt_deck d = levered();
        d.rider = mass;
        bw_assessment a;
        assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
        const bw_finding *up = bwt_finding(&a, "post", "b1 r3", BW_CHECK_UPLIFT);
        assert_non_null(up);
        assert_true(up->ratio.utilisation >= before * (1.0 - 1e-9));
        before = up->ratio.utilisation;
        bw_arena_back(*state, mark);
    }
}

/* Most that the sections of the first stringer are used in bending with the rider at a
 * place of the first row, free to lift; -1: it does not lift. */
static double bends_lifted(const framed *f, size_t in_bay, double along, bw_arena *arena)
{
    enum { STATIONS = 64 };
    const bwi_rider_place rider = {.present = true, .bay = in_bay, .along = along};
    const bwi_blow blow = {f->deck->loads.factor, 0.0};
    const bwi_lift *lift = &f->row.lifts[0];
    bwi_wheels wheels, off;
    double x[STATIONS], most = -1.0;
    bwi_riders(&f->plan, &f->row, &rider, 1, blow, &wheels);
    if (!bwi_lift_off(&f->row, lift, f->dead, &wheels, &off)) {
        return most;
    }
    for (size_t b = lift->first; b + 1 < lift->first + lift->n; b++) {
        const bwi_bay read = bwi_bay_read(&f->row, b, f->dead, off.wheel, off.n, arena);
        for (size_t piece = 0; piece < read.n; piece++) {
            const bw_line *line = &read.line[piece];
            const size_t n = bw_line_stations(line, x, STATIONS);
            for (size_t k = 0; k < n; k++) {
                const bw_section s = bw_frame_section(f->row.frame, line->member, x[k]);
                const bw_check_input in = {
                    .reference = &f->result.references[0],
                    .diameter = s.diameter,
                    .section = bwi_check_section(&f->plan, 0, &s),
                    .moment = fabs(bw_line_action(line, x[k], k > 0).moment),
                    .load_duration = 1.6};
                most = fmax(
                    most,
                    bw_us_asd.checks[BW_CHECK_BENDING]->ratio(&in, NULL).utilisation);
            }
        }
    }
    return most;
}

/* On one seat and its knees it counted as flying off once, and as held down from there
 * on: 0.697 of what the log bears by a grid that passed the edge by, 0.709 at the edge.
 */
static void a_knee_holds_up_what_lies_on_one_seat_more(void **state)
{
    enum { PLACES = 997 };
    const bwt_deck d = bwt_law_deck(700036); /* nothing pushes */
    framed f;
    make_row(&d, *state, &f);
    double most = 0.0;
    for (size_t k = 0; k < 2 * PLACES; k++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        const size_t b = k / PLACES;
        const double length = f.deck->bents[b + 1].at - f.deck->bents[b].at;
        const double along = length * ((double)(k % PLACES) + 0.5) / PLACES;
        most = fmax(most, bends_lifted(&f, b, along, *state));
        bw_arena_back(*state, mark);
    }
    const bw_finding *b = bwt_finding(&f.result, "stringer", "r0-0", BW_CHECK_BENDING);
    assert_non_null(b);
    assert_true(most > 0.73 && b->ratio.utilisation >= most);
    assert_true(b->ratio.utilisation < 1.001 * most);
}

/* ---- what holds caps on their posts ---- */

/* A wheel at the edge, at a bent: the lever rule draws the far post up by P c / s. Logs
 * without taper: a post weighs above the ground as much for its length as below, counted
 * to the axis of the cap as in the frame. */
static void a_cap_is_to_be_held_on_its_post(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.width = 1.917;
    d.post.butt = d.post.tip = 0.2231;
    framed f;
    make_row(&d, *state, &f);
    const double P = d.factor * d.rider * bw_gravity, s = 0.874;
    double most = 0.0;
    for (size_t k = 0; k < 3; k++) {
        const bw_post *post = &f.deck->bents[k].posts[0];
        const bw_finding *up =
            bwt_finding(&f.result, "post", post->name, BW_CHECK_UPLIFT);
        const double T = bwt_term(up, "T");
        const double axis = bwi_plan_post(&f.plan, k, post).top + d.cap.butt / 2.0;
        const double G = bwt_term(up, "W") * axis / d.hole_depth;
        assert_true(bwt_relative(T, P * (d.width - s) / 2.0 / s) < 1e-6);
        most = fmax(most, T - 0.6 * (bwt_term(up, "D") - G));
    }
    assert_true(most > 300.0);
    const char *said = bw_quantity_print(*state, BW_FORCE, most, f.deck->units);
    const char *told = bwt_to_do(&f.result, "fasten what lies on the posts to them");
    assert_non_null(told);
    assert_non_null(strstr(told, said));
}

/* Nothing lies or pushes on a post between its top and its foot: what it carries of the
 * rider's push it has from what lies on it. */
static void what_nothing_draws_up_is_only_pushed(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.width = 0.9;
    framed still;
    make_row(&d, *state, &still);
    assert_null(bwt_to_do(&still.result, "fasten what lies on the posts"));
    d.push = 0.613;
    d.foot = "fixed";
    framed f;
    make_row(&d, *state, &f);
    double most = 0.0;
    for (size_t k = 0; k < f.result.n_members; k++) {
        const bw_member_result *m = &f.result.members[k];
        if (strcmp(m->role, "post") == 0) {
            most = fmax(most, bwt_term(&m->findings[BW_CHECK_SHEAR], "V"));
        }
    }
    assert_true(most > 20.0 && most < d.push * d.rider * bw_gravity);
    const char *said = bw_quantity_print(*state, BW_FORCE, most, f.deck->units);
    const char *told =
        bwt_to_do(&f.result, "fasten what lies on the posts to them for a push");
    assert_non_null(told);
    assert_non_null(strstr(told, said));
    assert_null(strstr(told, "lift"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(two_bays_lift_where_the_wheel_outweighs_the_log),
        WITH_ARENA(a_lifted_end_leaves_a_simple_beam_with_an_overhang),
        WITH_ARENA(the_finding_has_the_moment_of_the_lifted_beam),
        WITH_ARENA(people_on_one_bay_lift_the_other_end),
        WITH_ARENA(any_stringer_lies_on_or_stands_off_each_seat),
        WITH_ARENA(what_would_fly_off_comes_up_as_far_as_by_itself),
        WITH_ARENA(one_seat_does_not_hold_it),
        WITH_ARENA(a_heavier_rider_draws_no_post_less),
        WITH_ARENA(a_knee_holds_up_what_lies_on_one_seat_more),
        WITH_ARENA(a_cap_is_to_be_held_on_its_post),
        WITH_ARENA(what_nothing_draws_up_is_only_pushed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
