/* Grade by eye: every answer moves the ladder and the utilisation the way it should. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "bolewright/checks.h"
#include "read_tables.h"

enum { KNOT, KNOTS, SPIRAL, CHECK, SWEEP, INSECTS, DECAY, DEAD, LEVELS = 6 };

static void assert_near(double got, double wanted, double tolerance)
{
    if (!(fabs(got - wanted) <= tolerance)) {
        fail_msg("%.10g, not %.10g", got, wanted);
    }
}

/* Answers of one question, from sound to unsound; the last of a measured question lies
 * beyond every rule. Questions in words have fewer. */
static const double values[][LEVELS] = {
    [KNOT] = {0.03, 0.1667, 0.19, 0.25, 0.33, 0.41},
    [KNOTS] = {0.05, 0.3333, 0.39, 0.50, 0.66, 0.81},
    [SPIRAL] = {0.01, 0.05, 0.0588, 0.10, 0.19, 0.23},
    [CHECK] = {0.02, 0.3333, 0.41, 0.53, 0.66, 0.71},
    [SWEEP] = {0.0, 0.0083, 0.0125, 0.021, 0.033, 0.052},
};

static size_t levels_of(size_t question)
{
    return question == INSECTS ? 3 : question > INSECTS ? 2 : LEVELS;
}

static void answer(bw_eye_grade *grade, size_t question, size_t level)
{
    bw_answer *const measured[] = {&grade->largest_knot, &grade->knots_in_foot,
                                   &grade->spiral_grain, &grade->drying_check,
                                   &grade->sweep};
    if (question < INSECTS) {
        *measured[question] = (bw_answer){true, values[question][level]};
    } else if (question == INSECTS) {
        grade->insects = (bw_insects)(BW_INSECTS_NONE + (int)level);
    } else {
        *(question == DECAY ? &grade->decay : &grade->dead_when_cut) =
            level == 0 ? BW_NO : BW_YES;
    }
}

/* All questions with their best answers. */
static bw_eye_grade best_grade(void)
{
    bw_eye_grade grade = {0};
    for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
        answer(&grade, q, 0);
    }
    return grade;
}

static double factor(const bw_eye_grade *grade, bw_property property)
{
    return bw_grade_factor(grade, property, NULL);
}

static void a_sound_log_keeps_its_values(void **state)
{
    (void)state;
    const bw_eye_grade best = best_grade();
    for (int p = 0; p < BW_PROPERTY_COUNT; p++) {
        assert_true(factor(&best, (bw_property)p) == 1.0);
    }
}

/* ASTM D25, MEMORY: knots to 1/6 of the girth, in a foot twice that; trade, READ: checks
 * to 1/3 of the diameter are usual. */
static void what_the_standard_lets_pass_costs_nothing(void **state)
{
    (void)state;
    bw_eye_grade grade = best_grade();
    grade.largest_knot.value = 1.0 / 6.0;
    grade.knots_in_foot.value = 1.0 / 3.0;
    grade.spiral_grain.value = 1.0 / 20.0;
    grade.drying_check.value = 1.0 / 3.0;
    grade.sweep.value = 1.0 / 120.0;
    grade.insects = BW_PINHOLES;
    for (int p = 0; p < BW_PROPERTY_COUNT; p++) {
        assert_true(factor(&grade, (bw_property)p) == 1.0);
    }
}

/* Wood Handbook, slope of grain, modulus of rupture: 1 in 15 89 %, 1 in 10 81 %, 1 in 5
 * 55 %; crushing 100, 99, 93 %: MEMORY. */
static void spiral_grain_is_that_of_the_handbook(void **state)
{
    (void)state;
    static const double at[] = {15.0, 10.0, 5.0};
    static const double rupture[] = {0.89, 0.81, 0.55};
    static const double crushing[] = {1.00, 0.99, 0.93};
    for (int i = 0; i < 3; i++) {
        bw_eye_grade grade = best_grade();
        grade.spiral_grain.value = 1.0 / at[i];
        assert_near(factor(&grade, BW_BENDING_STRENGTH), rupture[i], 1e-12);
        assert_near(factor(&grade, BW_COMPRESSION), crushing[i], 1e-12);
    }
}

/* Section modulus of a circle without a wedge, by adding up strips across the depth: no
 * formula in common with the program. */
static double wedge_by_strips(double k)
{
    const double pi = 3.14159265358979323846;
    enum { N = 40000 };
    double area = 0.0, first = 0.0, second = 0.0, top = -1.0;
    for (int i = 0; i < N; i++) {
        const double y = -1.0 + 2.0 * (i + 0.5) / N;
        const double half = sqrt(1.0 - y * y);
        const double gap = y > 0.0 ? fmin(half, y * tan(pi * k)) : 0.0;
        const double width = 2.0 * (half - gap) * 2.0 / N;
        area += width;
        first += width * y;
        second += width * y * y;
        top = width > 1e-12 ? y : top;
    }
    const double e = -first / area;
    return (second - area * e * e) / fmax(top + e, 1.0 - e);
}

static void knots_cost_what_the_missing_wedge_costs(void **state)
{
    (void)state;
    for (int i = 0; i < 5; i++) {
        const double k = 0.175 + 0.035 * i;
        bw_eye_grade grade = best_grade();
        grade.largest_knot.value = k;
        const double wanted = wedge_by_strips(k) / wedge_by_strips(1.0 / 6.0);
        assert_near(factor(&grade, BW_BENDING_STRENGTH), wanted, 2e-4);
        grade = best_grade();
        grade.knots_in_foot.value = 2.0 * k;
        assert_near(factor(&grade, BW_BENDING_STRENGTH), wanted, 2e-4);
    }
}

static void both_knot_questions_count_once(void **state)
{
    (void)state;
    bw_eye_grade grade = best_grade();
    grade.largest_knot.value = 0.27;
    const double one = factor(&grade, BW_BENDING_STRENGTH);
    grade.knots_in_foot.value = 2.0 * 0.24; /* less bad than the largest knot */
    assert_near(factor(&grade, BW_BENDING_STRENGTH), one, 1e-12);
    grade.knots_in_foot.value = 2.0 * 0.31;
    assert_true(factor(&grade, BW_BENDING_STRENGTH) < one);
}

/* Nothing answered: moderate, and between a sound and an unsound answer. */
static void silence_is_cautious_and_moderate(void **state)
{
    (void)state;
    const bw_eye_grade silent = {0};
    assert_true(factor(&silent, BW_BENDING_STRENGTH) > 0.80);
    for (int p = 0; p < BW_PROPERTY_COUNT; p++) {
        assert_true(factor(&silent, (bw_property)p) > 0.80);
        assert_true(factor(&silent, (bw_property)p) < 1.0);
    }
}

/* NaN, no strength at all, is the worst. */
static bool is_not_better(double worse, double better)
{
    return isnan(worse) || (!isnan(better) && worse <= better * (1.0 + 1e-12));
}

static bool is_worse(double worse, double better)
{
    return !isnan(better) && (isnan(worse) || worse < better);
}

/* ---- the property test: all answers, on top of silence, of a sound and of a poor log
 * ---- */

static bw_eye_grade background(int kind)
{
    bw_eye_grade grade = {0};
    if (kind == 1) {
        grade = best_grade();
    } else if (kind == 2) {
        for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
            answer(&grade, q, q == DECAY ? 0 : levels_of(q) < LEVELS ? 1 : 3);
        }
    }
    return grade;
}

static void a_worse_answer_never_helps(void **state)
{
    (void)state;
    for (int kind = 0; kind < 3; kind++) {
        for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
            for (size_t level = 1; level < levels_of(q); level++) {
                bw_eye_grade better = background(kind), worse = better;
                answer(&better, q, level - 1);
                answer(&worse, q, level);
                for (int p = 0; p < BW_PROPERTY_COUNT; p++) {
                    assert_true(is_not_better(factor(&worse, (bw_property)p),
                                              factor(&better, (bw_property)p)));
                }
            }
        }
    }
}

static void an_answer_beats_silence_if_it_is_sound_and_loses_if_not(void **state)
{
    (void)state;
    for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
        const bw_eye_grade silent = {0};
        bw_eye_grade sound = silent, unsound = silent;
        answer(&sound, q, 0);
        answer(&unsound, q, levels_of(q) - 1);
        bool gains = false, loses = false;
        for (int p = 0; p < BW_PROPERTY_COUNT; p++) {
            const double none = factor(&silent, (bw_property)p);
            assert_true(is_not_better(none, factor(&sound, (bw_property)p)));
            assert_true(is_not_better(factor(&unsound, (bw_property)p), none));
            gains = gains || is_worse(none, factor(&sound, (bw_property)p));
            loses = loses || is_worse(factor(&unsound, (bw_property)p), none);
        }
        assert_true(gains);
        assert_true(loses);
    }
}

/* ---- from the answer to the utilisation, through the basis ---- */

static bw_reference graded(const tables *all, const bw_eye_grade *grade)
{
    const bw_log log = {.name = "proof",
                        .species = species_of_id(all, "pine_lodgepole"),
                        .butt_diameter = 0.213,
                        .tip_diameter = 0.187,
                        .grade = *grade};
    bw_reference out;
    assert_int_equal(bw_us_asd.reference(all->arena, &log, &out), BW_OK);
    return out;
}

/* The checks that feel a property of the log. */
static double utilisation(const bw_reference *reference, bw_check_kind kind)
{
    const bw_check_input in = {.reference = reference,
                               .diameter = 0.197,
                               .axial = 21.7e3,
                               .shear = 2.83e3,
                               .moment = 2.17e3,
                               .load_duration = 1.15,
                               .diameter_small = 0.187,
                               .diameter_large = 0.213,
                               .length = 1.93,
                               .effective_factor = 1.0,
                               .force = 9.1e3,
                               .bearing_area = 0.0137,
                               .bearing_length = 0.11,
                               .bearing_inside = true};
    return bw_us_asd.checks[kind]->ratio(&in, NULL).utilisation;
}

static const bw_check_kind kinds[] = {BW_CHECK_BENDING,     BW_CHECK_SHEAR,
                                      BW_CHECK_COMPRESSION, BW_CHECK_COMBINED,
                                      BW_CHECK_BEARING,     BW_CHECK_END_BEARING};
#define N_KINDS (sizeof kinds / sizeof kinds[0])

static bool same_ladders(const bw_reference *a, const bw_reference *b)
{
    for (int p = 0; p < BW_PROPERTY_COUNT; p++) {
        if (a->ladder[p].count != b->ladder[p].count) {
            return false;
        }
        for (size_t i = 0; i < a->ladder[p].count; i++) {
            const bw_term *x = &a->ladder[p].items[i], *y = &b->ladder[p].items[i];
            if (strcmp(x->meaning, y->meaning) != 0 ||
                !(x->value == y->value || (isnan(x->value) && isnan(y->value)))) {
                return false;
            }
        }
    }
    return true;
}

static void every_answer_moves_ladder_and_utilisation(void **state)
{
    const tables *all = *state;
    for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
        const bw_eye_grade silent = {0};
        const bw_reference before = graded(all, &silent);
        bw_reference last = before;
        bool felt = false;
        for (size_t level = 0; level < levels_of(q); level++) {
            bw_eye_grade grade = silent;
            answer(&grade, q, level);
            const bw_reference now = graded(all, &grade);
            assert_false(same_ladders(&before, &now));
            for (size_t k = 0; k < N_KINDS; k++) {
                const double u = utilisation(&now, kinds[k]);
                const double u_last = utilisation(&last, kinds[k]);
                /* from silence to the sound answer it falls, from there on it rises */
                assert_true(level == 0 ? u <= u_last * (1.0 + 1e-12)
                                       : isnan(u) || u >= u_last * (1.0 - 1e-12));
                felt = felt || !(fabs(u - u_last) <= 1e-9 * u_last);
            }
            last = now;
        }
        assert_true(felt);
    }
}

static void decay_is_never_within_limits(void **state)
{
    bw_eye_grade grade = best_grade();
    grade.decay = BW_YES;
    const bw_reference reference = graded(*state, &grade);
    for (size_t k = 0; k < N_KINDS; k++) {
        assert_int_equal(bw_verdict_of(utilisation(&reference, kinds[k])), BW_CANNOT_SAY);
    }
    assert_true(reference.value[BW_MODULUS] > 0.0); /* a frame must still be solved */
}

static void beyond_every_rule_is_never_within_limits(void **state)
{
    for (size_t q = 0; q < INSECTS; q++) {
        bw_eye_grade grade = best_grade();
        answer(&grade, q, LEVELS - 1);
        const bw_reference reference = graded(*state, &grade);
        assert_int_equal(bw_verdict_of(utilisation(&reference, BW_CHECK_BENDING)),
                         BW_CANNOT_SAY);
        assert_true(isfinite(reference.value[BW_MODULUS]));
        grade = best_grade();
        bw_answer *const measured[] = {&grade.largest_knot, &grade.knots_in_foot,
                                       &grade.spiral_grain, &grade.drying_check,
                                       &grade.sweep};
        measured[q]->value = (double)NAN; /* an answer that makes no sense */
        assert_true(isnan(factor(&grade, BW_BENDING_STRENGTH)));
        measured[q]->value = -0.031;
        assert_true(isnan(factor(&grade, BW_BENDING_STRENGTH)));
    }
}

static void the_ladder_ends_with_its_value_and_every_line_has_a_source(void **state)
{
    const bw_eye_grade silent = {0};
    const bw_reference r = graded(*state, &silent);
    for (int p = 0; p < BW_PROPERTY_COUNT; p++) {
        const bw_working *ladder = &r.ladder[p];
        assert_true(ladder->items[ladder->count - 1].value == r.value[p]);
        double product = 1.0;
        for (size_t i = 0; i < ladder->count; i++) {
            const bw_term *term = &ladder->items[i];
            if (strncmp(term->symbol, "K_", 2) == 0 && strcmp(term->symbol, "K_p") != 0) {
                product *= term->value;
                assert_non_null(term->source);
                assert_true(term->mark != BW_MARK_NONE);
                assert_non_null(strstr(term->meaning, "not answered"));
            }
        }
        assert_near(product, factor(&silent, (bw_property)p), 1e-12);
    }
}

/* A class was given by somebody who graded the log: silence costs nothing then, but a bad
 * answer still does. */
static void a_graded_log_is_not_lowered_by_silence(void **state)
{
    const tables *all = *state;
    bw_reference r;
    bw_eye_grade grade = {0};
    const bw_species *pine = species_of_id(all, "pine_red");
    assert_int_equal(bw_us_reference(all->arena, pine, &r), BW_OK);
    const double before = r.value[BW_BENDING_STRENGTH];
    assert_int_equal(bw_reference_grade(&r, &grade, false), BW_OK);
    assert_true(r.value[BW_BENDING_STRENGTH] == before);
    grade.spiral_grain = (bw_answer){true, 0.1};
    assert_int_equal(bw_reference_grade(&r, &grade, false), BW_OK);
    assert_near(r.value[BW_BENDING_STRENGTH] / before, 0.81, 1e-12);
}

/* What was seen later replaces what was seen before; what was not looked at stays. */
static void a_later_look_replaces_only_what_it_answers(void **state)
{
    (void)state;
    for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
        bw_eye_grade kept = {0}, seen = {0};
        for (size_t k = 0; k < BW_GRADE_QUESTIONS; k++) {
            answer(&kept, k, 0);
        }
        answer(&seen, q, 1);
        bw_eye_grade grade = kept;
        bw_grade_update(&grade, &(bw_eye_grade){0});
        assert_memory_equal(&grade, &kept, sizeof grade);
        bw_grade_update(&grade, &seen);
        answer(&kept, q, 1);
        for (size_t k = 0; k < BW_GRADE_QUESTIONS; k++) {
            assert_true(bw_grade_is_answered(&grade, k));
            for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
                const double got = bw_grade_part(&grade, k, (bw_property)i);
                const double wanted = bw_grade_part(&kept, k, (bw_property)i);
                assert_true(got == wanted || (isnan(got) && isnan(wanted)));
            }
        }
    }
}

static void questions_are_plain_and_have_a_sound_answer(void **state)
{
    (void)state;
    for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
        const bw_grade_question *question = &bw_grade_questions[q];
        assert_int_equal(question->question[strlen(question->question) - 1], '?');
        assert_true(strlen(question->key) > 3 && strlen(question->sound) > 1);
    }
}

/* Values that come without a ladder are graded all the same. */
static void values_without_a_ladder_are_graded_too(void **state)
{
    const tables *all = *state;
    bw_reference bare = {0};
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        bare.value[i] = 7.3e6;
        bare.ladder[i] = bw_working_new(all->arena);
    }
    bw_eye_grade grade = {0};
    answer(&grade, 0, 1);
    assert_int_equal(bw_reference_grade(&bare, &grade, true), BW_OK);
    const double part = bw_grade_factor(&grade, BW_BENDING_STRENGTH, NULL);
    const bw_working *ladder = &bare.ladder[BW_BENDING_STRENGTH];
    assert_true(part < 1.0);
    assert_near(bare.value[BW_BENDING_STRENGTH], 7.3e6 * part, 1e-3);
    assert_near(ladder->items[ladder->count - 1].value, 7.3e6 * part, 1e-3);
    assert_string_equal(ladder->items[ladder->count - 1].symbol, "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sound_log_keeps_its_values),
        cmocka_unit_test(what_the_standard_lets_pass_costs_nothing),
        cmocka_unit_test(spiral_grain_is_that_of_the_handbook),
        cmocka_unit_test(knots_cost_what_the_missing_wedge_costs),
        cmocka_unit_test(both_knot_questions_count_once),
        cmocka_unit_test(silence_is_cautious_and_moderate),
        cmocka_unit_test(a_worse_answer_never_helps),
        cmocka_unit_test(an_answer_beats_silence_if_it_is_sound_and_loses_if_not),
        cmocka_unit_test(every_answer_moves_ladder_and_utilisation),
        cmocka_unit_test(decay_is_never_within_limits),
        cmocka_unit_test(beyond_every_rule_is_never_within_limits),
        cmocka_unit_test(the_ladder_ends_with_its_value_and_every_line_has_a_source),
        cmocka_unit_test(a_graded_log_is_not_lowered_by_silence),
        cmocka_unit_test(a_later_look_replaces_only_what_it_answers),
        cmocka_unit_test(questions_are_plain_and_have_a_sound_answer),
        cmocka_unit_test(values_without_a_ladder_are_graded_too),
    };
    return cmocka_run_group_tests(tests, read_tables, free_tables);
}
