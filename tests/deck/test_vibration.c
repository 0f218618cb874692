/* The frequency of a span against the closed form, and what it rests on. */
#include "../base/arena_fixture.h"
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
} planned;

static void prepare(bw_arena *arena, const bwt_deck *d, planned *out)
{
    assert_int_equal(bwt_deck_plan(d, arena, &out->deck, &out->result, &out->plan),
                     BW_OK);
}

/* (pi / 2) sqrt(E I / (m L^4)) of an even beam on two supports (mechanics); shear strain
 * lowers it by about 1.2 (E / G) (d / L)^2, below 2 % here. */
static void even_log_shakes_like_a_simple_beam(void **state)
{
    bw_arena *arena = *state;
    const double pi = acos(-1.0), d = 0.2, L = 2.713;
    bwt_deck plain = bwt_deck_plain();
    plain.stringer.butt = plain.stringer.tip = d;
    plain.crowd = 2137.0;
    planned t;
    prepare(arena, &plain, &t);
    const double E = t.result.references[0].value[BW_MODULUS];
    const double log = t.deck->logs[0].species->green_density.value * pi * d * d / 4.0;
    const double boards = 371.0 * 1.13 / 2.0 / 9.80665;
    const double people = 2137.0 * 1.13 / 2.0 / 9.80665;
    const double I = pi * d * d * d * d / 64.0;
    for (int with = 0; with < 2; with++) {
        const double m = log + boards + (with == 1 ? people : 0.0);
        const double exact = pi / 2.0 * sqrt(E * I / (m * L * L * L * L));
        const double found = bwi_bay_frequency(&t.plan, 0, 0, with == 1);
        assert_true(found < exact * 1.001 && found > exact * 0.95);
    }
}

static void thicker_shorter_and_lighter_shake_faster(void **state)
{
    bw_arena *arena = *state;
    bwt_deck plain = bwt_deck_plain();
    planned t;
    prepare(arena, &plain, &t);
    const double first = bwi_bay_frequency(&t.plan, 0, 0, false);
    /* the second bay is shorter */
    assert_true(bwi_bay_frequency(&t.plan, 0, 1, false) > first);
    plain.stringer.butt *= 1.1;
    plain.stringer.tip *= 1.1;
    prepare(arena, &plain, &t);
    assert_true(bwi_bay_frequency(&t.plan, 0, 0, false) > first);
    plain = bwt_deck_plain();
    plain.board_pressure *= 2.0;
    prepare(arena, &plain, &t);
    assert_true(bwi_bay_frequency(&t.plan, 0, 0, false) < first);
}

static bool is_called_slow(const bw_assessment *a)
{
    for (size_t k = 0; k < a->n_assumptions; k++) {
        if (strstr(a->assumptions[k].text, "shakes up and down") != NULL) {
            return strncmp(a->assumptions[k].text, "SLOW", 4) == 0;
        }
    }
    fail_msg("nothing is said");
    return false;
}

static void slow_spans_are_called_slow(void **state)
{
    bw_arena *arena = *state;
    bwt_deck plain = bwt_deck_plain();
    plain.crowd = 4700.0;
    planned t;
    prepare(arena, &plain, &t);
    assert_false(is_called_slow(&t.result));
    plain.stringer.butt = 0.093;
    plain.stringer.tip = 0.081;
    prepare(arena, &plain, &t);
    assert_true(is_called_slow(&t.result));
    assert_true(bwi_bay_frequency(&t.plan, 0, 0, true) <
                t.deck->basis->least_frequency.value);
}

/* However fast the spans after it are. */
static void a_span_that_is_not_known_is_not_passed_by(void **state)
{
    bwt_deck plain = bwt_deck_plain();
    plain.crowd = 4700.0;
    planned t;
    prepare(*state, &plain, &t);
    assert_non_null(strstr(bwi_vibration_flag(&t.plan).text, "a second"));
    t.plan.parts[0].length = (double)NAN;
    assert_non_null(strstr(bwi_vibration_flag(&t.plan).text, "cannot be worked out"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(even_log_shakes_like_a_simple_beam),
        WITH_ARENA(thicker_shorter_and_lighter_shake_faster),
        WITH_ARENA(slow_spans_are_called_slow),
        WITH_ARENA(a_span_that_is_not_known_is_not_passed_by),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
