/* Every answer put back: a case with the size of the answer is within limits, the next
 * step is not. Random questions; BW_INVERSE_REQUESTS sets how many (120). */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "inverse.h"

static const double slack = 1e-9; /* of a verdict: checks.h */

typedef struct {
    bw_arena *arena;
    bw_species_table table;
    bwt_random random;
    int spans, logs, at_end, none; /* what was asked */
    double tightest;               /* largest utilisation of an answer */
} fixture;

static int start(void **state)
{
    static fixture f;
    f.arena = bw_arena_new();
    f.random.state = 20261128;
    bw_diags d = bw_diags_new(f.arena, NULL);
    assert_int_equal(bw_input_species(f.arena, NULL, &f.table, &d), BW_OK);
    *state = &f;
    return 0;
}

static int stop(void **state)
{
    bw_arena_free(((fixture *)*state)->arena);
    return 0;
}

static double put_back(fixture *f, const bwt_request *r, const bw_log *log, double span)
{
    return bwt_case_utilisation(f->arena, &f->table, r, log, span);
}

static bw_log log_of(const bwt_request *r, double butt, double tip, double length)
{
    return (bw_log){.name = "log",
                    .species = r->species,
                    .butt_diameter = butt,
                    .tip_diameter = tip,
                    .length = length,
                    .grade = bwt_grade_of(r),
                    .case_path = ""};
}

static void within(fixture *f, const char *what, double u)
{
    if (!(u <= 1.0 + slack)) {
        fail_msg("%s: the answer is at %.9f", what, u);
    }
    f->tightest = fmax(f->tightest, u);
}

static void over(const char *what, double u)
{
    if (!(u > 1.0 + slack)) {
        fail_msg("%s: the next step is at %.9f", what, u);
    }
}

static void ask_span(fixture *f)
{
    const bwt_request r = bwt_random_request(&f->random, &f->table);
    const double tip = bwt_random_between(&f->random, 0.083, 0.317);
    const double butt = tip * bwt_random_between(&f->random, 1.0, 1.31);
    const double length = bwt_random_chance(&f->random, 0.5)
                              ? 0.0
                              : bwt_random_between(&f->random, 2.1, 17.0);
    const bw_log log = log_of(&r, butt, tip, length);
    const bw_span_question question = {&log, r.duty};
    bw_span_answer out;
    bw_diags d = bw_diags_new(f->arena, NULL);
    assert_int_equal(bw_span_longest(f->arena, &question, &out, &d), BW_OK);
    const double tried = out.span > 0.0 ? out.span : out.shortest;
    if (out.to_end) {
        f->at_end++;
    } else if (out.span > 0.0) {
        over("span", put_back(f, &r, &log, out.span + out.step));
    } else if (length == 0.0 || out.shortest * r.duty.bays < length) {
        f->none++;
        over("no span", put_back(f, &r, &log, tried));
    }
    if (out.span > 0.0) {
        within(f, "span", put_back(f, &r, &log, out.span));
        assert_true(fabs(out.at.utilisation - put_back(f, &r, &log, out.span)) < 1e-9);
    }
    f->spans++;
}

static void ask_log(fixture *f)
{
    const bwt_request r = bwt_random_request(&f->random, &f->table);
    const bw_log_question question = {
        .species = r.species,
        .grade = bwt_grade_of(&r),
        .grown = bwt_random_chance(&f->random, 0.3) ? BW_OPEN_GROWN : BW_FOREST_GROWN,
        .span = bwt_random_between(&f->random, 0.9, 7.3),
        .duty = r.duty};
    bw_log_answer out;
    bw_diags d = bw_diags_new(f->arena, NULL);
    assert_int_equal(bw_log_smallest(f->arena, &question, &out, &d), BW_OK);
    f->logs++;
    if (!out.found) {
        f->none++;
        return;
    }
    const bw_log log = log_of(&r, out.size.butt, out.size.tip, 0.0);
    const bw_log less = log_of(&r, out.thinner.butt, out.thinner.tip, 0.0);
    within(f, "log", put_back(f, &r, &log, question.span));
    if (out.to_end) {
        f->at_end++;
    } else {
        assert_true(fabs(out.size.mid - out.thinner.mid - out.step / 3.14159265358979) <
                    1e-9);
        over("log", put_back(f, &r, &less, question.span));
    }
    /* measured half way and at the tip alone, it may also be as thick all along */
    const bw_log even = log_of(&r, out.size.mid, out.size.mid, 0.0);
    within(f, "a log without taper", put_back(f, &r, &even, question.span));
    if (out.has_tree) { /* the log of that tree, counted cautiously, will do too */
        bw_tree_log cut;
        assert_int_equal(bw_tree_cut(f->arena, &out.tree, 0.0, out.length, &cut, &d),
                         BW_OK);
        const double seat = (out.length - question.span * r.duty.bays) / 2.0;
        const bw_log its =
            log_of(&r, bw_log_diameter(&cut.log, out.length, seat),
                   bw_log_diameter(&cut.log, out.length, out.length - seat), 0.0);
        assert_true(its.butt_diameter >= out.size.butt * (1.0 - 1e-9));
        assert_true(its.tip_diameter >= out.size.tip * (1.0 - 1e-9));
        within(f, "tree", put_back(f, &r, &its, question.span));
    }
}

static int requests(void)
{
    const char *text = getenv("BW_INVERSE_REQUESTS");
    const long n = text == NULL ? 120 : strtol(text, NULL, 10);
    return n > 0 && n <= 1000000 ? (int)n : 120;
}

static void every_answer_is_an_edge_of_the_full_check(void **state)
{
    fixture *f = *state;
    const int n = requests();
    for (int k = 0; k < n; k++) {
        const bw_arena_mark mark = bw_arena_now(f->arena);
        if (k % 2 == 0) {
            ask_span(f);
        } else {
            ask_log(f);
        }
        bw_arena_back(f->arena, mark);
    }
    print_message("%d spans and %d logs asked for; %d ended with their range, %d have no "
                  "answer; the tightest answer is at %.9f\n",
                  f->spans, f->logs, f->at_end, f->none, f->tightest);
    assert_true(f->at_end + f->none < n / 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_answer_is_an_edge_of_the_full_check),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
