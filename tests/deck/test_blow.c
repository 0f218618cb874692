/* How hard riders press: printed and computed values of the trade's facts, an independent
 * integration of the ride over a ramp, and what must hold whatever the numbers. */
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

static const double g = 9.80665, foot = 0.3048;

static void near(double got, double wanted, double tolerance)
{
    if (!(fabs(got - wanted) <= tolerance)) {
        print_error("%.10g, wanted %.10g\n", got, wanted);
    }
    assert_true(fabs(got - wanted) <= tolerance);
}

static bw_loads riding(bw_ride ride)
{
    bw_loads l = bw_loads_default;
    l.mass = 113.7;
    l.ride = ride;
    return l;
}

static double factor_of(bw_ride ride)
{
    const bw_loads l = riding(ride);
    return bw_rider_blow(&l, NULL).factor;
}

static bool is_silent(bw_ride ride)
{
    const bw_loads l = riding(ride);
    const bw_blow b = bw_rider_blow(&l, NULL);
    return b.cannot_say != NULL && isnan(b.factor) && isnan(b.push);
}

/* Formula: Akin, Impact load factors (READ; h = 0 gives 2). Numbers: 100 kg on the middle
 * of a log of 4 m, which it presses by 1.664828611 mm at rest (COMPUTED, facts of the
 * solver). */
static void a_mass_falls_on_a_spring(void **state)
{
    (void)state;
    const double rest = 1.664828611e-3;
    near(bw_impact_factor(0.0, rest), 2.0, 1e-12);
    near(bw_impact_factor(0.05, rest), 8.814489303, 1e-8);
    near(bw_impact_factor(0.3, rest), 20.01045655, 1e-8);
}

/* Both say the same of a spring that is just used up: its rest is the travel over n. */
static void a_used_up_spring_agrees(void **state)
{
    (void)state;
    for (double h = 0.013; h < 0.7; h += 0.0713) {
        for (double s = 0.0517; s < 0.6; s *= 1.317) {
            const double n = bw_travel_factor(h, s);
            near(bw_impact_factor(h, s / n), n, 1e-12 * n);
        }
    }
}

/* Peak force over the weight of a model with tyres, 150 mm of suspension or none and legs
 * of 0.40 or 0.15 m (COMPUTED, facts of the trade 2b, printed to two digits). The formula
 * lies at most 4 % below it up to the fall that is allowed. */
static void the_formula_bounds_the_model(void **state)
{
    (void)state;
    static const double fallen[] = {0.15, 0.29, 0.48, 0.67};
    static const struct {
        double travel, peak[4];
    } rider[] = {{0.55, {2.6, 2.7, 3.4, 4.0}},
                 {0.30, {3.1, 3.6, 3.6, 4.3}},
                 {0.40, {2.5, 3.3, 4.2, 5.0}},
                 {0.15, {3.8, 3.4, 5.2, 10.0}}};
    for (int k = 0; k < 4; k++) {
        for (int j = 0; j < 4; j++) {
            const double n = factor_of((bw_ride){
                .kind = BW_RIDE_LANDING, .height = fallen[j], .travel = rider[k].travel});
            assert_true(n > 0.96 * rider[k].peak[j]);
        }
    }
}

/* The numbers of the ramp: R = 8 ft, 5, 7 and 9 m/s (COMPUTED, facts of the trade 2b,
 * printed to two decimals; 337 lb from its own g). */
static void the_ramp_of_the_facts(void **state)
{
    (void)state;
    static const struct {
        double speed, foot, at_30, at_60;
    } row[] = {{5.0, 2.05, 0.82, 0.47}, {7.0, 3.05, 1.32, 1.34}, {9.0, 4.39, 1.99, 2.50}};
    const double R = 8.0 * foot, third = 3.14159265358979324 / 6.0;
    for (int k = 0; k < 3; k++) {
        near(bw_transition_factor(row[k].speed, R), row[k].foot, 0.005);
        near(bw_ramp_push(row[k].speed, R, third), row[k].at_30, 0.005);
        near(bw_ramp_push(row[k].speed, R, 2.0 * third), row[k].at_60, 0.005);
    }
    bw_loads l = bw_loads_default;
    l.mass = 115.0;
    l.ramp = (bw_ramp){R, 7.0, third};
    near(bw_ramp_thrust(&l, NULL, NULL), 337.0 * 4.4482216, 0.006 * 337.0 * 4.4482216);
    near(bw_rider_blow(&l, NULL).factor, 3.05, 0.005);
}

/* A point pushed along the curve by small steps; the thrust is what changes its forward
 * speed. */
static void the_ramp_integrated(void **state)
{
    (void)state;
    const double R = 2.713, start = 6.91, m = 113.7, dt = 1e-6;
    bw_loads l = riding((bw_ride){.kind = BW_RIDE_ROLLING});
    l.ramp = (bw_ramp){R, start, 0.713};
    double a = 0.0, v = start, most = 0.0;
    while (a < l.ramp.lip) {
        const double middle = v - g * sin(a) * dt / 2.0;
        const double a_next = a + middle / R * dt;
        const double v_next = v - g * sin((a + a_next) / 2.0) * dt;
        most = fmax(most, m * (v * cos(a) - v_next * cos(a_next)) / dt);
        a = a_next;
        v = v_next;
    }
    near(bw_ramp_thrust(&l, NULL, NULL), most, 1e-4 * most);
}

/* The face turned by its angle, the velocity across it, and the fall that gives it. */
static void a_sloping_face(void **state)
{
    (void)state;
    const double h = 0.713, v = 2.385;
    for (double angle = -0.19; angle < 0.7; angle += 0.0871) {
        const double down = sqrt(2.0 * g * h);
        const double across = down * cos(angle) - v * sin(angle);
        near(bw_landing_height(h, v, tan(angle)), across * across / (2.0 * g), 1e-12);
    }
    near(bw_landing_height(h, 0.0, 0.0), h, 1e-12);
    near(bw_landing_height(h, 7.1, 0.0), h, 1e-12); /* speed along a level face is none */
    assert_true(bw_landing_height(h, 9.5, 0.6) < 0.0);
}

static void more_is_worse(void **state)
{
    (void)state;
    double before = 0.0;
    for (double h = 0.0; h < 0.67; h += 0.01) {
        const double n =
            factor_of((bw_ride){.kind = BW_RIDE_LANDING, .height = h, .travel = 0.31});
        assert_true(n >= before && n >= 3.0);
        assert_true(n <= factor_of((bw_ride){
                             .kind = BW_RIDE_LANDING, .height = h, .travel = 0.23}));
        before = n;
    }
    for (double v = 0.5; v < 8.0; v += 0.25) {
        const double n =
            factor_of((bw_ride){.kind = BW_RIDE_TRANSITION, .speed = v, .radius = 3.1});
        const double faster = factor_of(
            (bw_ride){.kind = BW_RIDE_TRANSITION, .speed = v + 0.2, .radius = 3.1});
        const double tighter =
            factor_of((bw_ride){.kind = BW_RIDE_TRANSITION, .speed = v, .radius = 2.7});
        assert_true(faster >= n && tighter >= n && n >= 3.0);
    }
    /* on a face that falls away a faster rider lands softer, on one that rises harder */
    for (double v = 0.5; v < 3.0; v += 0.25) {
        const bw_ride slow = {
            .kind = BW_RIDE_LANDING, .height = 0.6, .speed = v, .slope = 0.3};
        bw_ride fast = slow, up = slow, up_fast = slow;
        fast.speed = up_fast.speed = v + 0.2;
        up.slope = up_fast.slope = -0.02;
        assert_true(factor_of(fast) <= factor_of(slow));
        assert_true(factor_of(up_fast) >= factor_of(up) || is_silent(up_fast));
    }
}

static void the_force_grows_with_the_mass(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_loads l = riding((bw_ride){.kind = BW_RIDE_LANDING, .height = 0.41});
    bw_working one = bw_working_new(arena), two = bw_working_new(arena);
    l.bike_mass = 14.3;
    const bw_blow blow = bw_rider_blow(&l, &one);
    l.mass *= 1.31;
    (void)bw_rider_blow(&l, &two);
    const bw_term *P = &one.items[one.count - 1], *Q = &two.items[two.count - 1];
    assert_string_equal(P->symbol, "P");
    near(P->value, blow.factor * 113.7 * g, 1e-9);
    near(Q->value, 1.31 * P->value, 1e-9);
    assert_string_equal(one.items[0].symbol, "m_r");
    near(one.items[0].value, 113.7 - 14.3, 1e-12);
    bw_arena_free(arena);
}

/* A landing on a sloping face also pushes the deck along. */
static void a_slope_pushes(void **state)
{
    (void)state;
    const bw_loads l =
        riding((bw_ride){.kind = BW_RIDE_LANDING, .height = 0.5, .slope = 0.45});
    const bw_blow blow = bw_rider_blow(&l, NULL);
    near(blow.push, blow.factor * sin(atan(0.45)), 1e-12);
    assert_true(blow.push > l.rider_push);
}

static void out_of_range_there_is_no_number(void **state)
{
    (void)state;
    const bw_ride land = {
        .kind = BW_RIDE_LANDING, .height = 0.5, .speed = 1.2, .slope = 0.2};
    const bw_ride turn = {.kind = BW_RIDE_TRANSITION, .speed = 5.2, .radius = 2.4};
    assert_false(is_silent(land) || is_silent(turn));
    bw_ride r = land;
    r.height = 0.93; /* counts for more than 0.67 m */
    assert_true(is_silent(r));
    r = land;
    r.height = 1.51;
    r.slope = 0.99;
    assert_true(is_silent(r));
    r = land;
    r.slope = 1.01;
    assert_true(is_silent(r));
    r = land;
    r.slope = -0.21;
    assert_true(is_silent(r));
    r = land;
    r.slope = -0.1;
    r.speed = 0.0; /* a face that rises needs it */
    assert_true(is_silent(r));
    r = land;
    r.speed = 12.1;
    assert_true(is_silent(r));
    r = land;
    r.speed = 11.0;
    r.slope = 0.6; /* flies past the face */
    assert_true(is_silent(r));
    r = land;
    r.travel = 0.20;
    r.sag = 0.06; /* 0.06 m at rest, four times and more under the blow */
    assert_true(is_silent(r));
    r.travel = 0.31;
    assert_false(is_silent(r));
    r = (bw_ride){.kind = BW_RIDE_SMALL_STEP, .height = 0.151};
    assert_true(is_silent(r));
    r.height = 0.149;
    near(factor_of(r), 3.0, 1e-12);
    r = turn;
    r.speed = 12.1;
    assert_true(is_silent(r));
    r = turn;
    r.radius = 1.49;
    assert_true(is_silent(r));
    r = turn;
    r.speed = 9.8; /* 5.1 weights */
    assert_true(is_silent(r));
}

static void a_ramp_out_of_range(void **state)
{
    (void)state;
    const char *why = NULL;
    bw_loads l = riding((bw_ride){.kind = BW_RIDE_ROLLING});
    l.ramp = (bw_ramp){2.4, 5.2, 0.6};
    assert_true(bw_ramp_thrust(&l, NULL, &why) > 0.0 && why == NULL);
    l.ramp.lip = 1.06;
    assert_true(isnan(bw_ramp_thrust(&l, NULL, &why)) && why != NULL);
    l.ramp = (bw_ramp){2.4, 2.1, 0.6}; /* too slow for the lip */
    assert_true(isnan(bw_ramp_thrust(&l, NULL, &why)) && why != NULL);
    l.ramp = (bw_ramp){2.4, 12.3, 0.6};
    assert_true(isnan(bw_ramp_thrust(&l, NULL, &why)) && why != NULL);
    assert_true(isnan(bw_rider_blow(&l, NULL).factor));
}

/* ---- in a deck ---- */

static void assess(const char *ride, double crowd, bw_arena *arena, bw_assessment *out)
{
    bwt_deck d = bwt_deck_plain();
    d.ride = ride;
    d.crowd = crowd;
    assert_int_equal(bwt_deck_assess(&d, arena, out, NULL), BW_OK);
}

static void a_described_ride_is_its_factor(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_assessment described, given;
    assess("\"action\": {\"kind\": \"landing\", \"height\": \"0.43 m\", \"travel\": "
           "\"0.25 m\"}",
           0.0, arena, &described);
    assess("\"factor\": 5.44", 0.0, arena, &given); /* 2 (1 + 0.43 / 0.25) */
    near(bwt_governing(&described), bwt_governing(&given), 1e-9);
    assert_int_equal(described.n_load_lines, 1);
    assert_string_equal(described.load_lines[0].title, "Rider, landing");
    bw_arena_free(arena);
}

/* Logs without taper, and a push-only knee at one bent of either row. */
static const bw_finding *thrust_on(const char *bent, int knee_at, bw_arena *arena)
{
    static const char *const post[] = {"b0 r0", "b1 r0", "b2 r0"};
    bwt_deck d = bwt_deck_plain();
    const char *other = NULL;
    d.at[1] = (d.at[0] + d.at[2]) / 2.0;
    d.stringer.tip = d.stringer.butt;
    d.post.tip = d.post.butt;
    d.brace = (bwt_log){"western larch", 0.091, 0.091, 0.0};
    d.loads = bw_arena_print(
        arena, "\"take_off\": {\"bent\": \"%s\", \"thrust\": \"2.385 kN\"}", bent);
    for (int r = 0; r < 2 && knee_at >= 0; r++) {
        d.knee[d.n_knees++] = (bwt_knee){.bent = knee_at,
                                         .row = r,
                                         .height = 0.31,
                                         .ahead = knee_at == 0 ? 0.5 : -0.5};
    }
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, arena, &a, &other), BW_OK);
    assert_true((bwt_to_do(&a, "let riders take off") != NULL) ==
                (strcmp(bent, "b1") != 0));
    const bw_finding *worst = NULL;
    for (int k = 0; k < 3; k++) {
        const bw_finding *f = bwt_finding(&a, "post", post[k], BW_CHECK_SOIL_LATERAL);
        worst =
            worst == NULL || f->ratio.utilisation > worst->ratio.utilisation ? f : worst;
    }
    return worst;
}

/* Thrust goes with the riders: off the deck at its ends, either way between them. */
static void a_mirror_turns_the_thrust_of_a_ramp(void **state)
{
    (void)state;
    static const char *const at[] = {"b0", "b1", "b2"};
    bw_arena *arena = bw_arena_new();
    for (int k = 0; k < 3; k++) {
        const bw_finding *here = thrust_on(at[k], 0, arena);
        const bw_finding *there = thrust_on(at[2 - k], 2, arena);
        near(here->ratio.utilisation, there->ratio.utilisation, 1e-6);
        assert_true(k == 2 || strstr(here->position, "pushed back") != NULL);
        assert_true(k == 2 || strstr(there->position, "pushed forward") != NULL);
    }
    /* by hand: three posts alike take a third each of what a row has, with the rider at
     * the edge beyond it; the stiff logs between them hand it on */
    const bw_finding *f = thrust_on("b0", -1, arena);
    const double share = (1.13 / 2.0 + 0.437) / 0.874;
    near(bwt_term(f, "V"), share * 2385.0 / 3.0, 0.02 * 2385.0 / 3.0);
    assert_non_null(strstr(f->position, "pushed back"));
    bw_arena_free(arena);
}

static void what_cannot_be_said_hides_nothing(void **state)
{
    (void)state;
    static const char too_high[] =
        "\"action\": {\"kind\": \"landing\", \"height\": \"1.7 m\"}";
    bw_arena *arena = bw_arena_new();
    bw_assessment a, crowded;
    assess(too_high, 0.0, arena, &a);
    assert_int_equal(a.verdict, BW_CANNOT_SAY);
    const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_BENDING);
    assert_int_equal(f->verdict, BW_CANNOT_SAY);
    assert_non_null(strstr(f->note, "fall"));
    assert_non_null(a.load_lines[0].cannot_say);
    assess(too_high, 24e3, arena, &crowded);
    assert_int_equal(crowded.verdict, BW_OVER);
    f = bwt_finding(&crowded, "stringer", "r0-0", BW_CHECK_BENDING);
    assert_int_equal(f->verdict, BW_OVER);
    bw_arena_free(arena);
}

/* ---- the slow rider ---- */

static const bw_finding *bent_by(double factor, double push, const char *ride,
                                 const char *basis, bw_arena *arena, const char *role,
                                 const char *name)
{
    bwt_deck d = bwt_deck_plain();
    bw_assessment *a = BW_NEW(arena, bw_assessment, 1);
    d.factor = factor;
    d.push = push;
    d.ride = ride;
    d.basis = basis;
    assert_int_equal(bwt_deck_assess(&d, arena, a, NULL), BW_OK);
    const bw_finding *f = bwt_finding(a, role, name, BW_CHECK_BENDING);
    return f != NULL ? f : bwt_finding(a, role, name, BW_CHECK_COMBINED);
}

/* Durations: NDS 2018, Table 2.3.2 and EN 1995-1-1, Table 3.1 (READ). A rider of less
 * than twice the weight is asked as one of 1.25 or 1.56 times it that stays; a harder one
 * as a blow, unless the deck is heavy: nothing falls on the way. */
static void between_staying_and_a_blow(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    static const struct {
        const char *basis, *symbol, *slow, *hard;
        double most, stays, blow;
    } of[] = {{"us_asd", "C_D", "dead + slow rider", "dead + rider", 1.25, 1.0, 1.6},
              {"eurocode", "k_mod", "1.35 dead + 1.5 slow rider", "1.35 dead + 1.5 rider",
               1.4 / 0.9, 0.70, 0.90}};
    for (int b = 0; b < 2; b++) {
        double before = 0.0, slow = 0.0;
        for (double n = 1.0; n < 3.0; n += 0.071) {
            const bw_finding *f =
                bent_by(n, 0.0, NULL, of[b].basis, arena, "stringer", "r0-0");
            const bool blow = strcmp(f->combination, of[b].hard) == 0;
            assert_true(blow || strcmp(f->combination, of[b].slow) == 0);
            assert_true(blow ? n > 2.0 : n < 2.6);
            near(bwt_term(f, of[b].symbol), blow ? of[b].blow : of[b].stays, 1e-12);
            assert_true(f->ratio.utilisation >= before * (1.0 - 1e-12));
            slow = n > of[b].most && slow == 0.0 ? f->ratio.utilisation : slow;
            assert_true(blow || n <= of[b].most ||
                        fabs(f->ratio.utilisation - slow) <= 1e-12);
            before = f->ratio.utilisation;
        }
        near(slow,
             bent_by(of[b].most, 0.0, NULL, of[b].basis, arena, "stringer", "r0-0")
                 ->ratio.utilisation,
             1e-12);
    }
    bw_arena_free(arena);
}

/* What the case says of the duration counts alone; braking is the slow rider's too. */
static void a_duration_given_and_braking(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_finding *f = bent_by(0.0, 0.0, "\"factor\": 1.7, \"load_duration\": 1.15",
                                  NULL, arena, "stringer", "r0-0");
    assert_string_equal(f->combination, "dead + rider");
    near(bwt_term(f, "C_D"), 1.15, 1e-12);
    f = bent_by(3.1, 0.7, NULL, NULL, arena, "post", "b1 r0");
    assert_string_equal(f->combination, "dead + slow rider");
    near(f->ratio.utilisation,
         bent_by(1.9, 0.7, NULL, NULL, arena, "post", "b1 r0")->ratio.utilisation, 1e-12);
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_mass_falls_on_a_spring),
        cmocka_unit_test(a_used_up_spring_agrees),
        cmocka_unit_test(the_formula_bounds_the_model),
        cmocka_unit_test(the_ramp_of_the_facts),
        cmocka_unit_test(the_ramp_integrated),
        cmocka_unit_test(a_sloping_face),
        cmocka_unit_test(more_is_worse),
        cmocka_unit_test(the_force_grows_with_the_mass),
        cmocka_unit_test(a_slope_pushes),
        cmocka_unit_test(out_of_range_there_is_no_number),
        cmocka_unit_test(a_ramp_out_of_range),
        cmocka_unit_test(a_described_ride_is_its_factor),
        cmocka_unit_test(a_mirror_turns_the_thrust_of_a_ramp),
        cmocka_unit_test(what_cannot_be_said_hides_nothing),
        cmocka_unit_test(between_staying_and_a_blow),
        cmocka_unit_test(a_duration_given_and_braking),
    };
    return cmocka_run_group_tests_name("blow", tests, NULL, NULL);
}
