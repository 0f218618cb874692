/* The longest span: within limits there, over a little beyond, and moved by everything
 * the way it should be. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "bolewright/input.h"
#include "bolewright/sizing.h"

typedef struct {
    bw_arena *arena;
    bw_species_table table;
} fixture;

static fixture shared;

static int start(void **state)
{
    shared.arena = bw_arena_new();
    bw_diags d = bw_diags_new(shared.arena, NULL);
    assert_int_equal(bw_input_species(shared.arena, NULL, &shared.table, &d), BW_OK);
    *state = &shared;
    return 0;
}

static int stop(void **state)
{
    (void)state;
    bw_arena_free(shared.arena);
    return 0;
}

static bw_log log_of(const char *species, double butt, double tip, double length)
{
    return (bw_log){.name = "proof",
                    .species = bw_species_find(&shared.table, species, NULL, 0),
                    .butt_diameter = butt,
                    .tip_diameter = tip,
                    .length = length,
                    .case_path = ""};
}

static bw_span_answer ask(const bw_span_question *question)
{
    bw_span_answer out;
    bw_diags d = bw_diags_new(shared.arena, NULL);
    assert_int_equal(bw_span_longest(shared.arena, question, &out, &d), BW_OK);
    assert_int_equal(d.errors, 0);
    return out;
}

static double span_under(const bw_log *log, double mass, double factor, double crowd)
{
    bw_span_question question = bw_span_question_default(log);
    question.duty.loads.mass = mass;
    question.duty.loads.factor = factor;
    question.duty.loads.crowd = crowd;
    return ask(&question).span;
}

/* A log cut to the length of the answer and 5 cm more, asked about itself: within at the
 * one, over at the other. The question is put as a case, through the reader. */
static double utilisation_at(const char *species, double butt, double tip, double length,
                             double span, double crowd)
{
    bw_diags d = bw_diags_new(shared.arena, NULL);
    const char *text = bw_arena_print(
        shared.arena,
        "{\"format\": 1, \"title\": \"T\", \"units\": \"metric\", \"deck\": {\"width\": "
        "\"4 "
        "ft\"}, \"logs\": [{\"name\": \"log\", \"species\": \"%s\", \"butt_diameter\": "
        "\"%.9f m\", \"tip_diameter\": \"%.9f m\", \"length\": \"%.9f m\", \"bark\": "
        "\"off\"}, {\"name\": \"sill\", \"species\": \"%s\", \"butt_diameter\": \"%.9f "
        "m\", \"tip_diameter\": \"%.9f m\", \"bark\": \"off\"}],"
        "\"rows\": [{\"name\": \"left\", \"across\": \"-18 in\"}, {\"name\": \"right\", "
        "\"across\": \"18 in\"}], \"bents\": [{\"name\": \"A\", \"at\": \"0 m\", "
        "\"deck_height\": \"0.8 m\", \"sill\": \"sill\"}, {\"name\": \"B\", \"at\": "
        "\"%.9f m\", \"deck_height\": \"0.8 m\", \"sill\": \"sill\"}], \"stringers\": ["
        "{\"row\": \"left\", \"log\": \"log\", \"from\": \"A\", \"to\": \"B\"}, "
        "{\"row\": "
        "\"right\", \"log\": \"log\", \"from\": \"A\", \"to\": \"B\"}], \"loads\": "
        "{\"rider\": null, \"crowd\": \"%.9f kPa\"}}",
        species, butt, tip, length, species, (butt + tip) / 2.0, (butt + tip) / 2.0, span,
        crowd / 1e3);
    bw_case deck;
    bw_assessment out;
    assert_int_equal(bw_input_case(shared.arena, text, &shared.table, &deck, &d), BW_OK);
    assert_int_equal(bw_deck_assess(shared.arena, &deck, &out, &d), BW_OK);
    return fmax(out.members[0].worst, out.members[1].worst);
}

static void the_answer_is_the_edge_of_the_assessment(void **state)
{
    (void)state;
    static const struct {
        const char *species;
        double butt, tip, length, crowd;
    } of[] = {{"lodgepole pine", 0.223, 0.187, 5.3, 2870.0},
              {"western redcedar", 0.187, 0.151, 6.1, 4310.0},
              {"red alder", 0.151, 0.133, 4.7, 1920.0}};
    for (int i = 0; i < 3; i++) {
        const bw_log log = log_of(of[i].species, of[i].butt, of[i].tip, of[i].length);
        bw_span_question question = bw_span_question_default(&log);
        question.duty.loads.mass = 0.0;
        question.duty.loads.crowd = of[i].crowd;
        question.duty.units = BW_METRIC;
        const bw_span_answer found = ask(&question);
        assert_false(found.to_end);
        assert_int_equal(found.at.verdict, BW_WITHIN);
        assert_non_null(found.at.governing);
        const double at = utilisation_at(of[i].species, of[i].butt, of[i].tip,
                                         of[i].length, found.span, of[i].crowd);
        const double beyond =
            utilisation_at(of[i].species, of[i].butt, of[i].tip, of[i].length,
                           found.span + 0.05, of[i].crowd);
        assert_true(fabs(at - found.at.utilisation) <= 1e-6);
        assert_true(at <= 1.0);
        assert_true(beyond > 1.0);
    }
}

static void a_longer_span_is_never_better(void **state)
{
    (void)state;
    double before = 0.0;
    for (int k = 0; k < 24; k++) {
        const double u =
            utilisation_at("tamarack", 0.211, 0.173, 6.3, 0.61 + 0.23 * k, 2870.0);
        assert_true(u >= before * (1.0 - 1e-9));
        before = u;
    }
}

static void everything_moves_the_span_as_it_should(void **state)
{
    (void)state;
    const bw_log log = log_of("eastern white pine", 0.181, 0.139, 6.7);
    const bw_log thick = log_of("eastern white pine", 0.199, 0.153, 6.7);
    const bw_log poor = log_of("unknown softwood", 0.181, 0.139, 6.7);
    const double plain = span_under(&log, 0.0, 0.0, 2870.0);
    assert_true(plain > 1.0 && plain < 6.5);
    assert_true(span_under(&thick, 0.0, 0.0, 2870.0) > plain);
    assert_true(span_under(&poor, 0.0, 0.0, 2870.0) < plain);
    assert_true(span_under(&log, 0.0, 0.0, 4310.0) < plain);
    assert_true(span_under(&log, 131.0, 2.7, 2870.0) <= plain);
    const bw_log thin = log_of("eastern white pine", 0.131, 0.109, 5.0);
    assert_true(span_under(&thin, 95.0, 2.4, 0.0) < span_under(&thin, 80.0, 2.0, 0.0));
}

static void a_better_look_at_the_log_lengthens_the_span(void **state)
{
    (void)state;
    bw_log log = log_of("balsam fir", 0.121, 0.113, 5.9);
    const double silent = span_under(&log, 90.0, 2.3, 0.0);
    const bw_answer nothing = {true, 0.0};
    log.grade = (bw_eye_grade){nothing, nothing,         nothing, nothing,
                               nothing, BW_INSECTS_NONE, BW_NO,   BW_NO};
    const double sound = span_under(&log, 90.0, 2.3, 0.0);
    assert_true(sound > silent);
    log.grade.decay = BW_YES;
    bw_span_question question = bw_span_question_default(&log);
    question.duty.loads.mass = 90.0;
    question.duty.loads.factor = 2.3;
    const bw_span_answer rotten = ask(&question);
    assert_true(rotten.span == 0.0);
    assert_int_equal(rotten.at.verdict, BW_CANNOT_SAY);
}

static void a_log_too_thin_has_no_span_and_says_why(void **state)
{
    (void)state;
    const bw_log log = log_of("unknown softwood", 0.041, 0.037, 2.3);
    bw_span_question question = bw_span_question_default(&log);
    question.duty.loads.mass = 180.0;
    question.duty.loads.factor = 9.0;
    question.duty.loads.crowd = 20e3;
    const bw_span_answer found = ask(&question);
    assert_true(found.span == 0.0);
    assert_int_equal(found.at.verdict, BW_OVER);
    assert_true(found.at.utilisation > 1.0);
    assert_non_null(found.at.governing);
}

static void a_short_thick_log_is_limited_by_its_length(void **state)
{
    (void)state;
    const bw_log log = log_of("Douglas-fir", 0.387, 0.371, 2.9);
    bw_span_question question = bw_span_question_default(&log);
    question.duty.loads.mass = 115.0;
    question.duty.loads.factor = 3.0;
    const bw_span_answer found = ask(&question);
    assert_true(found.to_end);
    assert_true(found.span > 2.6 && found.span < 2.9);
}

/* Whole inches or centimetres, rounded down. */
static void spans_come_in_whole_units(void **state)
{
    (void)state;
    const bw_log log = log_of("red pine", 0.171, 0.149, 6.9);
    bw_span_question question = bw_span_question_default(&log);
    question.duty.loads.mass = 0.0;
    question.duty.loads.crowd = 2870.0;
    const double inch = bw_unit_size(BW_LENGTH, "in");
    const double imperial = ask(&question).span;
    question.duty.units = BW_METRIC;
    const double metric = ask(&question).span;
    assert_true(fabs(imperial / inch - round(imperial / inch)) < 1e-6);
    assert_true(fabs(metric * 100.0 - round(metric * 100.0)) < 1e-6);
    assert_true(fabs(imperial - metric) <= inch);
}

static void running_out_of_memory_is_reported(void **state)
{
    (void)state;
    const bw_log log = log_of("red pine", 0.171, 0.149, 2.9);
    bw_span_question question = bw_span_question_default(&log);
    question.duty.loads.mass = 0.0;
    question.duty.loads.crowd = 2870.0;
    bw_status status = BW_E_MEMORY;
    for (unsigned long n = 1; status == BW_E_MEMORY && n < 200000; n += 1 + n / 16) {
        bw_arena *arena = bw_arena_new();
        bw_diags d = bw_diags_new(arena, NULL);
        bw_span_answer out;
        bw_arena_fail_after(n);
        status = bw_span_longest(arena, &question, &out, &d);
        bw_arena_fail_after(0);
        bw_arena_free(arena);
    }
    assert_int_equal(status, BW_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_answer_is_the_edge_of_the_assessment),
        cmocka_unit_test(a_longer_span_is_never_better),
        cmocka_unit_test(everything_moves_the_span_as_it_should),
        cmocka_unit_test(a_better_look_at_the_log_lengthens_the_span),
        cmocka_unit_test(a_log_too_thin_has_no_span_and_says_why),
        cmocka_unit_test(a_short_thick_log_is_limited_by_its_length),
        cmocka_unit_test(spans_come_in_whole_units),
        cmocka_unit_test(running_out_of_memory_is_reported),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
