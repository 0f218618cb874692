/* Boards: against closed forms of beams, and by what must hold of every deck. */
#include "../base/arena_fixture.h"
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static const double g = 9.80665;

/* A deck whose boards can be changed after reading. */
typedef struct {
    bw_case deck;
    bw_assessment result;
} trial;

static trial *trial_of(bw_arena *arena, const bwt_deck *plain)
{
    trial *t = BW_NEW(arena, trial, 1);
    const bw_case *read = bwt_deck_read(plain, arena);
    assert_non_null(read);
    t->deck = *read;
    t->deck.boards.board_thickness = 0.0437;
    t->deck.decking = (bw_decking){.kind = BW_BOARDS_SAWN,
                                   .log = {.name = "boards",
                                           .species = read->logs[0].species,
                                           .case_path = "/deck/boards"},
                                   .width = 0.1417,
                                   .gap = 0.0193,
                                   .grade = BW_SAWN_NO_2,
                                   .case_path = "/deck/boards"};
    return t;
}

static void assess(trial *t, bw_arena *arena)
{
    bw_diags d = bw_diags_new(arena, "test");
    if (bw_deck_assess(arena, &t->deck, &t->result, &d) != BW_OK) {
        bw_text out = bw_text_new(arena);
        bw_diags_print(&d, &out);
        fail_msg("%s", bw_text_string(&out));
    }
}

static const bw_finding *found(const trial *t, bw_check_kind kind)
{
    const bw_finding *f = bwt_finding(&t->result, "boards", "boards", kind);
    assert_non_null(f);
    return f;
}

static double use(const trial *t, bw_check_kind kind)
{
    return found(t, kind)->ratio.utilisation;
}

static void assert_near(double got, double expected, double relative)
{
    if (!(fabs(got - expected) <= relative * fabs(expected))) {
        fail_msg("%.15g, expected %.15g", got, expected);
    }
}

static double wheel(const trial *t)
{
    return t->deck.loads.mass * g * t->deck.loads.factor;
}

/* Dead load of one board with its gap [N/m]. */
static double weight(const trial *t)
{
    const bw_decking *b = &t->deck.decking;
    return (b->width + b->gap) *
           (t->deck.boards.board_pressure + t->deck.loads.extra_dead);
}

/* ---- closed forms ---- */

/* Two rows, overhangs c, span L: M = P L / 4 + q (L^2 / 8 - c^2 / 2) in the middle. */
static void board_on_two_rows_is_a_simple_beam(void **state)
{
    bw_arena *arena = *state;
    const bwt_deck plain = bwt_deck_plain();
    trial *t = trial_of(arena, &plain);
    assess(t, arena);
    const double L = 0.874, c = (1.13 - L) / 2.0, P = wheel(t), q = weight(t);
    const double h = 0.0437, w = 0.1417;
    const bw_finding *bending = found(t, BW_CHECK_BENDING);
    assert_near(bwt_term(bending, "M"), P * L / 4.0 + q * (L * L / 8.0 - c * c / 2.0),
                1e-9);
    assert_near(bwt_term(bending, "S"), w * h * h / 6.0, 1e-12);
    assert_near(bwt_term(bending, "F_b'"),
                bwt_term(bending, "F_b") * bwt_term(bending, "C_D"), 1e-12);
    /* the wheel right beside a row, a millionth of the span away */
    const bw_finding *shear = found(t, BW_CHECK_SHEAR);
    assert_near(bwt_term(shear, "V"), P + q * L / 2.0, 1e-5);
    assert_near(bwt_term(shear, "f_v"), 1.5 * bwt_term(shear, "V") / (w * h), 1e-12);
}

/* P L^3 / (48 E I) in the middle; P c^2 (L + c) / (3 E I) at a tip, whose span is 2 c. */
static void board_sags_like_a_simple_beam(void **state)
{
    bw_arena *arena = *state;
    for (int wide = 0; wide < 2; wide++) {
        bwt_deck plain = bwt_deck_plain();
        plain.width = wide == 1 ? 1.13 : 0.95;
        trial *t = trial_of(arena, &plain);
        assess(t, arena);
        const double L = 0.874, c = (plain.width - L) / 2.0, h = 0.0437, w = 0.1417;
        const double EI =
            t->result.board_reference->value[BW_MODULUS] * w * h * h * h / 12.0;
        const double standing = t->deck.loads.mass * g; /* without the dynamic factor */
        const bw_finding *f = found(t, BW_CHECK_DEFLECTION);
        assert_near(bwt_term(f, "Delta"),
                    wide == 1 ? standing * c * c * (L + c) / (3.0 * EI)
                              : standing * L * L * L / (48.0 * EI),
                    5e-6);
        assert_near(bwt_term(f, "Delta'"), (wide == 1 ? 2.0 * c : L) / 120.0, 1e-12);
    }
}

/* What is told of holding boards down, as something to be done; or null. */
static const char *told_to_hold(const trial *t)
{
    for (size_t k = 0; k < t->result.n_assumptions; k++) {
        const bw_assumption *line = &t->result.assumptions[k];
        if (strstr(line->text, "hold every board down") != NULL) {
            assert_true(line->to_do);
            return line->text;
        }
    }
    return NULL;
}

static void assert_held_for(const trial *t, bw_arena *arena, double lift,
                            const char *kind)
{
    const char *text = told_to_hold(t);
    const char *force = bw_quantity_print(arena, BW_FORCE, lift, t->deck.units);
    const char *words = bw_arena_print(arena, "at least %s%s (two", force, kind);
    assert_non_null(text);
    if (strstr(text, words) == NULL) {
        fail_msg("no \"%s\" in \"%s\"", words, text);
    }
}

/* A wheel at the tip of a long overhang: M = P c + q c^2 / 2, and the other end lifts
 * with P c / L less 0.6 of half of what lies on the board, q (L + 2 c) / 2: of dead load
 * that holds something down, ASCE 7-16, 2.4.1, counts no more (MEMORY). */
static void overhang_bends_and_tips(void **state)
{
    bw_arena *arena = *state;
    bwt_deck plain = bwt_deck_plain();
    plain.width = 1.713;
    trial *t = trial_of(arena, &plain);
    assess(t, arena);
    const double L = 0.874, c = (1.713 - L) / 2.0, P = wheel(t), q = weight(t);
    assert_true(P * c > P * L / 4.0);
    const bw_finding *f = found(t, BW_CHECK_BENDING);
    assert_near(bwt_term(f, "M"), P * c + q * c * c / 2.0, 2e-6);
    assert_held_for(t, arena, P * c / L - 0.6 * q * (L + 2.0 * c) / 2.0, "");
}

/* EN 1990:2002, Table A1.2(A): 1.5 of what lifts, 0.9 of what holds (MEMORY). */
static void boards_are_held_for_a_design_force_by_eurocode(void **state)
{
    bw_arena *arena = *state;
    bwt_deck plain = bwt_deck_plain();
    plain.width = 1.713;
    plain.basis = "eurocode";
    trial *t = trial_of(arena, &plain);
    assess(t, arena);
    const double L = 0.874, c = (1.713 - L) / 2.0, P = wheel(t), q = weight(t);
    assert_held_for(t, arena, 1.5 * P * c / L - 0.9 * q * (L + 2.0 * c) / 2.0,
                    " as a design force");
}

/* Flat side up on its round side, it rocks on its seat s = 2 sqrt(w h - h^2): the screw
 * holds P (w/2 - s/2) / (s/2) by moments about the edge of the seat, besides what the
 * lever rule lifts. Flat side down it lies on all of its width. */
static void half_logs_rock_on_their_seats(void **state)
{
    bw_arena *arena = *state;
    for (int k = 0; k < 4; k++) {
        bwt_deck plain = bwt_deck_plain();
        plain.width = k / 2 == 0 ? 0.874 : 1.713;
        trial *t = trial_of(arena, &plain);
        const double w = 0.1531, h = t->deck.limits.seat_depth;
        t->deck.decking.kind = BW_BOARDS_HALF_LOG;
        t->deck.decking.width = w;
        t->deck.decking.flat_down = k % 2 == 1;
        t->deck.boards.board_thickness = w / 2.0;
        assess(t, arena);
        const double L = 0.874, c = (plain.width - L) / 2.0, P = wheel(t), q = weight(t);
        const double lever = k / 2 == 0 ? 0.0 : P * c / L - 0.6 * q * (L + 2.0 * c) / 2.0;
        const double s = 2.0 * sqrt(w * h - h * h);
        const double rocks = k % 2 == 1 ? 0.0 : P * (w / 2.0 - s / 2.0) / (s / 2.0);
        if (k == 1) {
            assert_null(told_to_hold(t));
            continue;
        }
        assert_held_for(t, arena, lever + rocks, "");
        assert_int_equal(strstr(told_to_hold(t), "rocks it on its seat") != NULL,
                         rocks > 0.0);
    }
}

/* All of the dead load would hold the far end down; 0.6 of it does not: then it is told.
 * With 0.6 of it as much as what lifts, it is not. */
static void boards_that_just_stay_down_are_to_be_held(void **state)
{
    bw_arena *arena = *state;
    bwt_deck plain = bwt_deck_plain();
    plain.width = 1.713;
    const double L = 0.874, c = (1.713 - L) / 2.0, share[] = {0.97, 0.61, 0.59};
    for (size_t k = 0; k < 3; k++) {
        trial *t = trial_of(arena, &plain);
        const double lift = wheel(t) * c / L;
        const double q = lift / share[k] / ((L + 2.0 * c) / 2.0);
        t->deck.loads.extra_dead +=
            (q - weight(t)) / (t->deck.decking.width + t->deck.decking.gap);
        assess(t, arena);
        if (k < 2) {
            assert_held_for(t, arena, lift * (1.0 - 0.6 / share[k]), "");
        } else {
            assert_null(told_to_hold(t));
        }
    }
}

/* Two equal spans in one piece: 0.2074 P L under the load at 0.432 L, -0.0962 P L over
 * the row (AISC beam diagrams, MEMORY); cut over the row it is P L / 4. */
static void three_rows_carry_in_one_piece_or_cut(void **state)
{
    bw_arena *arena = *state;
    bwt_deck plain = bwt_deck_plain();
    plain.n_rows = 3;
    plain.across[0] = -0.612;
    plain.across[1] = 0.0;
    plain.across[2] = 0.612;
    plain.width = 2.0 * 0.612;
    plain.board_pressure = 20.0; /* next to nothing */
    trial *t = trial_of(arena, &plain);
    const double L = 0.612;
    t->deck.decking.laid = BW_BOARDS_THROUGH;
    assess(t, arena);
    const double through = bwt_term(found(t, BW_CHECK_BENDING), "M");
    assert_near(through, 0.2074 * wheel(t) * L, 2e-3);
    t->deck.decking.laid = BW_BOARDS_CUT;
    assess(t, arena);
    const double cut = bwt_term(found(t, BW_CHECK_BENDING), "M");
    assert_near(cut, wheel(t) * L / 4.0 + weight(t) * L * L / 8.0, 1e-9);
    /* half of the flat each where two pieces end on it */
    assert_near(bwt_term(found(t, BW_CHECK_BEARING), "A_b"),
                0.5 * 0.1417 * 2.0 * sqrt(0.181 * 0.0127 - 0.0127 * 0.0127), 1e-9);
    t->deck.decking.laid = BW_BOARDS_EITHER;
    assess(t, arena);
    assert_near(bwt_term(found(t, BW_CHECK_BENDING), "M"), fmax(through, cut), 1e-12);
}

/* Half circle: S = r^3 (pi/8 - 8/(9 pi)) / (1 - 4/(3 pi)); largest shear stress V Q / (I
 * b) at the centroid's height, worked out here with Simpson's rule. */
static void half_log_is_a_half_circle_either_way_up(void **state)
{
    bw_arena *arena = *state;
    const bwt_deck plain = bwt_deck_plain();
    const double pi = acos(-1.0), D = 0.1873, r = D / 2.0;
    for (int down = 0; down < 2; down++) {
        trial *t = trial_of(arena, &plain);
        t->deck.decking.kind = BW_BOARDS_HALF_LOG;
        t->deck.decking.width = D;
        t->deck.decking.flat_down = down == 1;
        t->deck.decking.log.half = true;
        t->deck.decking.log.butt_diameter = t->deck.decking.log.tip_diameter = D;
        t->deck.boards.board_thickness = r;
        assess(t, arena);
        const bw_finding *f = found(t, BW_CHECK_BENDING);
        assert_near(bwt_term(f, "S"),
                    r * r * r * (pi / 8.0 - 8.0 / (9.0 * pi)) / (1.0 - 4.0 / (3.0 * pi)),
                    1e-9);
        assert_near(bwt_term(f, "C_f"), 1.0 / 1.18, 1e-12);
        const double centre = 4.0 * r / (3.0 * pi);
        const double I = r * r * r * r * (pi / 8.0 - 8.0 / (9.0 * pi));
        double largest = 0.0; /* of Q / (I b) over all heights y above the flat */
        for (double y = 0.0; y < r; y += r / 5000.0) {
            /* Q = int_y^r 2 sqrt(r^2 - z^2) (z - centre) dz, about the centroid */
            const double half = sqrt(r * r - y * y);
            const double Q = 2.0 / 3.0 * half * half * half -
                             centre * (r * r * (pi / 2.0 - asin(y / r)) - y * half);
            largest = fmax(largest, Q / (I * 2.0 * half));
        }
        const bw_finding *shear = found(t, BW_CHECK_SHEAR);
        assert_near(bwt_term(shear, "f_v"), bwt_term(shear, "V") * largest, 1e-6);
    }
}

/* ---- what must hold ---- */

static void neighbours_take_their_share_of_a_wheel(void **state)
{
    bw_arena *arena = *state;
    bwt_deck plain = bwt_deck_plain();
    plain.board_pressure = 20.0;
    plain.ride = "\"action\": {\"kind\": \"rolling\"}";
    trial *t = trial_of(arena, &plain);
    assess(t, arena);
    const double alone = use(t, BW_CHECK_BENDING);
    t->deck.decking.share = 0.237;
    assess(t, arena);
    assert_near(use(t, BW_CHECK_BENDING) / alone, 1.0 - 0.237, 1e-3);
    t->deck.decking.share = 0.0;
    t->deck.loads.wheelbase = 1.13;
    assess(t, arena);
    assert_near(use(t, BW_CHECK_BENDING) / alone, 0.6, 1e-3);
}

/* Who lands comes down on one wheel first, however long the bike; whoever gives a factor
 * alone may have had that in mind. P L / 4 by hand, all of P = n m g; what sags under who
 * stands still has both wheels: 0.6. */
static void a_landing_comes_down_on_one_wheel(void **state)
{
    static const char *const ride[] = {
        ("\"action\": {\"kind\": \"landing\", \"height\": \"0.43 m\", \"travel\": "
         "\"0.25 m\"}"),
        "\"action\": {\"kind\": \"small step\", \"height\": \"0.13 m\"}",
        "\"factor\": 2.9"};
    for (int k = 0; k < 3; k++) {
        bwt_deck plain = bwt_deck_plain();
        plain.board_pressure = 20.0;
        plain.ride = ride[k];
        trial *t = trial_of(*state, &plain);
        assess(t, *state);
        const double one = use(t, BW_CHECK_BENDING), still = use(t, BW_CHECK_DEFLECTION);
        const double P = bw_rider_blow(&t->deck.loads, NULL).factor * 113.7 * bw_gravity;
        assert_near(bwt_term(found(t, BW_CHECK_BENDING), "M"), P * 0.874 / 4.0, 1e-3);
        t->deck.loads.wheelbase = 1.13;
        assess(t, *state);
        assert_near(use(t, BW_CHECK_BENDING), one, 1e-12);
        assert_near(use(t, BW_CHECK_DEFLECTION) / still, 0.6, 1e-3);
    }
}

static void person_stands_on_one_board(void **state)
{
    bw_arena *arena = *state;
    bwt_deck plain = bwt_deck_plain();
    plain.rider = 0.0;
    plain.crowd = 1437.0;
    trial *t = trial_of(arena, &plain);
    t->deck.loads.mass = 0.0;
    assess(t, arena);
    const double L = 0.874, c = (1.13 - L) / 2.0, q = weight(t);
    const double pound = 4.4482216152605; /* 300 lb, READ in WAC 51-51-0301 */
    assert_near(bwt_term(found(t, BW_CHECK_BENDING), "M"),
                300.0 * pound * L / 4.0 + q * (L * L / 8.0 - c * c / 2.0), 1e-6);
    const bw_people_use *use = bw_eurocode.uses; /* C3, EN 1991-1-1, Table 6.2, MEMORY */
    while (strcmp(use->name, "terrace") != 0) {
        use++;
    }
    t->deck.loads.use = use;
    assess(t, arena);
    assert_near(bwt_term(found(t, BW_CHECK_BENDING), "M"),
                4000.0 * L / 4.0 + q * (L * L / 8.0 - c * c / 2.0), 1e-9);
    t->deck.decking.person = 2713.0;
    assess(t, arena);
    assert_near(bwt_term(found(t, BW_CHECK_BENDING), "M"),
                2713.0 * L / 4.0 + q * (L * L / 8.0 - c * c / 2.0), 1e-9);
}

static void thicker_boards_and_nearer_rows_never_cost_more(void **state)
{
    bw_arena *arena = *state;
    uint64_t random = 20261128;
    for (int k = 0; k < 12; k++) {
        const bwt_deck plain = bwt_deck_random(&random);
        trial *t = trial_of(arena, &plain);
        assess(t, arena);
        const double bending = use(t, BW_CHECK_BENDING), shear = use(t, BW_CHECK_SHEAR);
        const double deflection = use(t, BW_CHECK_DEFLECTION);
        t->deck.boards.board_thickness *= 1.217;
        assess(t, arena);
        assert_true(use(t, BW_CHECK_BENDING) < bending);
        assert_true(use(t, BW_CHECK_SHEAR) < shear);
        assert_true(use(t, BW_CHECK_DEFLECTION) < deflection);
    }
}

static void mirrored_deck_uses_its_boards_alike(void **state)
{
    bw_arena *arena = *state;
    bwt_deck plain = bwt_deck_plain();
    plain.crowd = 2311.0;
    plain.n_rows = 3;
    const double across[3] = {-0.613, -0.117, 0.489};
    memcpy(plain.across, across, sizeof across);
    plain.width = 1.437;
    trial *t = trial_of(arena, &plain);
    assess(t, arena);
    for (int r = 0; r < 3; r++) {
        plain.across[r] = -across[r];
    }
    trial *mirrored = trial_of(arena, &plain);
    assess(mirrored, arena);
    static const bw_check_kind kinds[] = {BW_CHECK_BENDING, BW_CHECK_SHEAR,
                                          BW_CHECK_BEARING, BW_CHECK_DEFLECTION};
    for (size_t k = 0; k < 4; k++) {
        assert_near(use(mirrored, kinds[k]), use(t, kinds[k]), 1e-9);
    }
}

static bool lists_boards(const bw_assessment *a)
{
    for (size_t k = 0; a->not_checked[k] != NULL; k++) {
        if (strstr(a->not_checked[k], "boards across the stringers") != NULL) {
            return true;
        }
    }
    return false;
}

static void boards_leave_the_list_only_when_checked(void **state)
{
    bw_arena *arena = *state;
    const bwt_deck plain = bwt_deck_plain();
    trial *t = trial_of(arena, &plain);
    assess(t, arena);
    assert_false(lists_boards(&t->result));
    const size_t members = t->result.n_members;
    t->deck.decking.kind = BW_BOARDS_UNKNOWN;
    assess(t, arena);
    assert_true(lists_boards(&t->result));
    assert_int_equal(t->result.n_members, members - 1);
}

static void poor_board_governs_and_turns_the_verdict(void **state)
{
    bw_arena *arena = *state;
    const bwt_deck plain = bwt_deck_plain();
    trial *t = trial_of(arena, &plain);
    t->deck.boards.board_thickness = 0.013;
    assess(t, arena);
    assert_string_equal(t->result.governing->member, "boards");
    assert_int_equal(t->result.verdict, BW_OVER);
}

static void gaps_that_a_foot_goes_through_are_to_be_closed(void **state)
{
    const double gap[] = {0.0997, 0.1003};
    for (int k = 0; k < 2; k++) {
        const bwt_deck plain = bwt_deck_plain();
        trial *t = trial_of(*state, &plain);
        t->deck.decking.gap = gap[k];
        assess(t, *state);
        const char *line = bwt_to_do(&t->result, "lay boards closer");
        assert_int_equal(line != NULL, k == 1);
        assert_true(k == 0 || strstr(line, "gaps of 100 mm") != NULL);
    }
}

/* Counted one by one: boards are added until they and their gaps reach the end. */
static void boards_are_counted(void **state)
{
    (void)state;
    uint64_t random = 7;
    for (int k = 0; k < 500; k++) {
        const bw_decking b = {.width = bwt_uniform(&random, 0.05, 0.3),
                              .gap = bwt_uniform(&random, 0.0, 0.04)};
        const double length = bwt_uniform(&random, 0.4, 20.0);
        int n = 1;
        double reach = b.width;
        while (reach < length) {
            reach += b.gap + b.width;
            n++;
        }
        assert_near(bw_decking_count(&b, length), n, 1e-12);
    }
    /* 30 ft of nominal 2x4 with gaps of 3/4 in: (360 + 0.75) / 4.25 = 84.9 */
    const bw_decking common = {.width = 3.5, .gap = 0.75};
    assert_near(bw_decking_count(&common, 360.0), 85.0, 1e-12);
    assert_near(bw_decking_count(&common, 85.0 * 4.25 - 0.75), 85.0, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(board_on_two_rows_is_a_simple_beam),
        WITH_ARENA(board_sags_like_a_simple_beam),
        WITH_ARENA(overhang_bends_and_tips),
        WITH_ARENA(boards_are_held_for_a_design_force_by_eurocode),
        WITH_ARENA(boards_that_just_stay_down_are_to_be_held),
        WITH_ARENA(three_rows_carry_in_one_piece_or_cut),
        WITH_ARENA(half_log_is_a_half_circle_either_way_up),
        WITH_ARENA(half_logs_rock_on_their_seats),
        WITH_ARENA(gaps_that_a_foot_goes_through_are_to_be_closed),
        WITH_ARENA(neighbours_take_their_share_of_a_wheel),
        WITH_ARENA(a_landing_comes_down_on_one_wheel),
        WITH_ARENA(person_stands_on_one_board),
        WITH_ARENA(thicker_boards_and_nearer_rows_never_cost_more),
        WITH_ARENA(mirrored_deck_uses_its_boards_alike),
        WITH_ARENA(boards_leave_the_list_only_when_checked),
        WITH_ARENA(poor_board_governs_and_turns_the_verdict),
        WITH_ARENA(boards_are_counted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
