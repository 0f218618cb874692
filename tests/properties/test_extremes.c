/* Extremes are where they are said to be: nothing along the member goes beyond them, and
 * each is really reached at its place. */
#include "trial.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

enum { FRAMES = 250, SCAN = 400, ROOM = 64 };
static const double slack = 1e-9;

typedef enum { MOMENT, SHEAR, AXIAL, STRESS, N_KINDS } kind;
static const char *const kind_words[N_KINDS] = {"moment", "shear", "axial force",
                                                "stress"};

static double value_of(const bwt_solved *f, int member, kind what, double x, bool before)
{
    const bw_action a = bw_state_action(f->state, member, x, before);
    const bw_section s = bw_frame_section(f->frame, member, x);
    const double values[N_KINDS] = {a.moment, a.shear, a.axial,
                                    a.moment / bw_section_modulus(&s)};
    return values[what];
}

typedef struct {
    bw_extreme max, min;
} range;

static range range_of(const bwt_solved *f, int member, kind what)
{
    const bw_extremes e = bw_state_extremes(f->state, member);
    const range ranges[N_KINDS] = {{e.moment_max, e.moment_min},
                                   {e.shear_max, e.shear_min},
                                   {e.axial_max, e.axial_min},
                                   {e.stress_max, e.stress_min}};
    return ranges[what];
}

/* The value is reached on one of the two sides of its place. */
static double distance_to(const bwt_solved *f, int member, kind what, bw_extreme e)
{
    const double left = value_of(f, member, what, e.x, true);
    const double right = value_of(f, member, what, e.x, false);
    return fmin(fabs(left - e.value), fabs(right - e.value));
}

static void check_range(bwt_trial *t, const bwt_solved *f, int member, kind what)
{
    const double L = bw_frame_length(f->frame, member);
    const range r = range_of(f, member, what);
    const double size = slack * fmax(fabs(r.max.value), fabs(r.min.value)) +
                        1e-13 * (what == MOMENT ? f->moment : 0.0) +
                        1e-13 * (what == SHEAR || what == AXIAL ? f->force : 0.0);
    bwt_near(t, kind_words[what], member, distance_to(f, member, what, r.max), 0.0, size);
    bwt_near(t, kind_words[what], member, distance_to(f, member, what, r.min), 0.0, size);
    double most = -HUGE_VAL;
    double least = HUGE_VAL;
    for (int k = 0; k <= SCAN; k++) {
        const double value = value_of(f, member, what, L * k / SCAN, k % 2 == 0);
        most = fmax(most, value);
        least = fmin(least, value);
    }
    for (int k = 0; k < t->sketch->n_loads; k++) { /* both sides of every jump */
        const bw_member_load *w = &t->sketch->loads[k].on_member;
        if (t->sketch->loads[k].kind == BWT_LOAD_MEMBER && w->member == member &&
            w->a > 0.0 && w->a < L) {
            most = fmax(most, fmax(value_of(f, member, what, w->a, true),
                                   value_of(f, member, what, w->a, false)));
            least = fmin(least, fmin(value_of(f, member, what, w->a, true),
                                     value_of(f, member, what, w->a, false)));
        }
    }
    bwt_holds(t, kind_words[what], member, most <= r.max.value + size);
    bwt_holds(t, kind_words[what], member, least >= r.min.value - size);
}

static bool solve_loaded(bwt_trial *t, bwt_solved *f)
{
    bwt_sketch_load_random(&t->random, t->sketch, 0, bwt_random_chance(&t->random, 0.6));
    bwt_sketch_load_random(&t->random, t->sketch, 0, false);
    return bwt_solve_case(t, t->sketch, f);
}

static void nothing_goes_beyond(bwt_trial *t)
{
    bwt_solved f;
    if (!solve_loaded(t, &f)) {
        return;
    }
    for (int k = 0; k < t->sketch->n_members; k++) {
        for (kind what = MOMENT; what < N_KINDS; what++) {
            check_range(t, &f, k, what);
        }
    }
}

static void check_sag(bwt_trial *t, const bwt_solved *f, int member)
{
    bw_extreme max = {0};
    bw_extreme min = {0};
    const double L = bw_frame_length(f->frame, member);
    bw_state_sag_extremes(f->state, member, &max, &min);
    const double size = slack * fmax(fabs(max.value), fabs(min.value)) + 1e-12 * f->shift;
    bwt_near(t, "sag maximum", member, bw_state_sag(f->state, member, max.x), max.value,
             size);
    bwt_near(t, "sag minimum", member, bw_state_sag(f->state, member, min.x), min.value,
             size);
    for (int k = 0; k <= 200; k++) {
        const double sag = bw_state_sag(f->state, member, L * k / 200.0);
        bwt_holds(t, "the sag stays below its maximum", member, sag <= max.value + size);
        bwt_holds(t, "the sag stays above its minimum", member, sag >= min.value - size);
    }
}

/* sag = deflection less the straight line between the ends. */
static void check_chord(bwt_trial *t, const bwt_solved *f, int member)
{
    const double L = bw_frame_length(f->frame, member);
    const double x = L * bwt_random_between(&t->random, 0.0, 1.0);
    const double start = bw_state_local(f->state, member, 0.0).y;
    const double end = bw_state_local(f->state, member, L).y;
    const double here = bw_state_local(f->state, member, x).y;
    bwt_near(t, "sag against the chord", member, bw_state_sag(f->state, member, x),
             here - start - (end - start) * (x / L), 1e-9 * f->shift);
}

static void sag_is_within_its_extremes(bwt_trial *t)
{
    bwt_solved f;
    if (!solve_loaded(t, &f)) {
        return;
    }
    for (int k = 0; k < t->sketch->n_members; k++) {
        check_sag(t, &f, k);
        check_chord(t, &f, k);
    }
}

static bool contains(const double *x, size_t n, double wanted, double within)
{
    for (size_t k = 0; k < n; k++) {
        if (fabs(x[k] - wanted) <= within) {
            return true;
        }
    }
    return false;
}

static void check_stations(bwt_trial *t, const bwt_solved *f, int member)
{
    double x[ROOM];
    const double L = bw_frame_length(f->frame, member);
    const size_t n = bw_state_stations(f->state, member, x, ROOM);
    const bw_extremes e = bw_state_extremes(f->state, member);
    bwt_holds(t, "there are two to ROOM stations", member, n >= 2 && n <= ROOM);
    for (size_t k = 0; k < n; k++) {
        bwt_holds(t, "stations lie on the member", member, x[k] >= 0.0 && x[k] <= L);
        bwt_holds(t, "stations ascend", member, k == 0 || x[k] >= x[k - 1]);
    }
    const double wanted[] = {
        0.0, L, e.moment_max.x, e.moment_min.x, e.stress_max.x, e.stress_min.x};
    static const char *const names[] = {"start", "end",     "M max",
                                        "M min", "M/S max", "M/S min"};
    for (size_t k = 0; k < sizeof wanted / sizeof wanted[0]; k++) {
        bwt_holds(t, names[k], member, contains(x, n, wanted[k], 1e-7 * L));
    }
    double few[3];
    bwt_holds(t, "no more stations than room", member,
              bw_state_stations(f->state, member, few, 3) <= 3);
}

static void stations_hold_the_extremes(bwt_trial *t)
{
    bwt_solved f;
    if (!solve_loaded(t, &f)) {
        return;
    }
    for (int k = 0; k < t->sketch->n_members; k++) {
        check_stations(t, &f, k);
    }
}

/* ---- run ---- */

static void extremes_are_extreme(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("extremes", FRAMES, 5281, nothing_goes_beyond), 0);
}

static void sag_extremes_are_extreme(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("sag", FRAMES, 8837, sag_is_within_its_extremes), 0);
}

static void stations_are_complete(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("stations", FRAMES, 1259, stations_hold_the_extremes), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(extremes_are_extreme),
        cmocka_unit_test(sag_extremes_are_extreme),
        cmocka_unit_test(stations_are_complete),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
