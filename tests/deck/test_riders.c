/* Several riders and two wheels, against the simple beam by hand: a log of even thickness
 * on two sills, everything moved over it in small steps. */
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

static const double g = 9.80665; /* m/s2 */

typedef struct {
    double span, dead;           /* [m, N/m] */
    double offset[6], weight[6]; /* [m, N] of the wheels from the first */
    int n;
} beam;

/* Moment at x of a simple beam: dead w x (L - x)/2, a force at a: P a (L - x)/L or P x (L
 * - a)/L (statics). */
static double moment(const beam *b, double first, double x)
{
    double M = b->dead * x * (b->span - x) / 2.0;
    for (int k = 0; k < b->n; k++) {
        const double a = first + b->offset[k];
        if (a >= 0.0 && a <= b->span) {
            M += b->weight[k] * fmin(a, x) * (b->span - fmax(a, x)) / b->span;
        }
    }
    return M;
}

static double largest_moment(const beam *b)
{
    double most = 0.0;
    for (double first = 0.0; first <= b->span; first += b->span / 4000.0) {
        for (int k = 0; k < b->n;
             k++) { /* largest under one of the wheels, or near mid-span */
            const double a = first + b->offset[k];
            if (a > 0.0 && a < b->span) {
                most = fmax(most, moment(b, first, a));
            }
        }
    }
    return most;
}

static void compare(int riders, double spacing, double wheelbase)
{
    bw_arena *arena = bw_arena_new();
    bwt_deck d = bwt_deck_plain();
    d.n_bents = 2;
    d.at[1] = 4.317;
    d.sill[0] = d.sill[1] = true;
    d.stringer.tip = d.stringer.butt = 0.2385;
    bw_case deck = *bwt_deck_read(&d, arena);
    deck.loads.riders = riders;
    deck.loads.rider_spacing = spacing;
    deck.loads.wheelbase = wheelbase;
    bw_assessment a;
    bw_diags faults = bw_diags_new(arena, NULL);
    assert_int_equal(bw_deck_assess(arena, &deck, &a, &faults), BW_OK);

    const double lever = (d.width / 2.0 - d.across[0]) / (d.across[1] - d.across[0]);
    const double P = d.rider * d.factor * g * lever;
    const double log = deck.logs[0].species->green_density.value * g *
                       3.14159265358979324 / 4.0 * d.stringer.butt * d.stringer.butt;
    beam b = {.span = d.at[1] - d.at[0], .dead = log + d.board_pressure * d.width / 2.0};
    for (int k = 0; k < riders; k++) {
        b.offset[b.n] = k * spacing;
        b.weight[b.n++] = wheelbase > 0.0 ? 0.6 * P : P;
        if (wheelbase > 0.0) {
            b.offset[b.n] = k * spacing + wheelbase;
            b.weight[b.n++] = 0.4 * P;
        }
    }
    double most = 0.0;
    for (int k = 0; k < (int)a.n_members; k++) {
        const bw_member_result *m = &a.members[k];
        if (strcmp(m->role, "stringer") == 0 && m->has[BW_CHECK_BENDING]) {
            most = fmax(most, bwt_term(&m->findings[BW_CHECK_BENDING], "M"));
        }
    }
    assert_true(fabs(most / largest_moment(&b) - 1.0) < 2e-6);
    bw_arena_free(arena);
}

static void one_rider_at_one_place(void **state)
{
    (void)state;
    compare(1, 3.0, 0.0);
}

static void one_rider_on_two_wheels(void **state)
{
    (void)state;
    compare(1, 3.0, 1.137);
}

static void three_riders_close_together(void **state)
{
    (void)state;
    compare(3, 1.283, 0.0);
}

static void two_riders_on_two_wheels_each(void **state)
{
    (void)state;
    compare(2, 1.871, 1.09);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_rider_at_one_place),
        cmocka_unit_test(one_rider_on_two_wheels),
        cmocka_unit_test(three_riders_close_together),
        cmocka_unit_test(two_riders_on_two_wheels_each),
    };
    return cmocka_run_group_tests_name("riders", tests, NULL, NULL);
}
