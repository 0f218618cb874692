/* The same findings, to the last bit and word, on any number of threads: of random decks
 * and of every case. Faults that a run names are the same too. */
#include "../base/arena_fixture.h"
#include "bolewright/input.h"
#include "law_deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#ifdef __SANITIZE_ADDRESS__
enum { DECKS = 3 };
#else
enum { DECKS = 12 };
#endif
enum { FIRST = 410, MOST_THREADS = 4 };

static bool same_number(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static void assert_same_words(const char *a, const char *b)
{
    assert_int_equal(a == NULL, b == NULL);
    if (a != NULL) {
        assert_string_equal(a, b);
    }
}

static void compare_finding(const bw_finding *a, const bw_finding *b)
{
    assert_true(same_number(a->ratio.utilisation, b->ratio.utilisation));
    assert_true(same_number(a->ratio.demand, b->ratio.demand));
    assert_true(same_number(a->ratio.capacity, b->ratio.capacity));
    assert_true(same_number(a->station, b->station));
    assert_int_equal(a->verdict, b->verdict);
    assert_same_words(a->place, b->place);
    assert_same_words(a->combination, b->combination);
    assert_same_words(a->position, b->position);
    assert_same_words(a->note, b->note);
}

static void compare(const bw_assessment *a, const bw_assessment *b)
{
    assert_true(bwt_compare_findings(a, b, compare_finding));
    assert_true(a->dead_weight == b->dead_weight);
    assert_true(a->worst_residual == b->worst_residual);
    assert_true(a->worst_rcond == b->worst_rcond);
    for (size_t k = 0; k < a->deck->n_bents; k++) {
        assert_true(a->buckled_bents[k].factor == b->buckled_bents[k].factor);
    }
    for (size_t k = 0; k < a->deck->n_rows; k++) {
        assert_true(a->buckled_rows[k].factor == b->buckled_rows[k].factor);
    }
}

static void random_decks_come_out_alike(void **state)
{
    for (long number = FIRST; number < FIRST + DECKS; number++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        const bwt_deck d = bwt_law_deck(number);
        const bw_case *deck = bwt_deck_read(&d, *state);
        bw_diags faults = bw_diags_new(*state, NULL);
        bw_assessment one, more;
        assert_int_equal(bw_deck_assess_with(*state, deck, 1, &one, &faults), BW_OK);
        for (int threads = 2; threads <= MOST_THREADS; threads += 2) {
            assert_int_equal(bw_deck_assess_with(*state, deck, threads, &more, &faults),
                             BW_OK);
            compare(&one, &more);
        }
        bw_arena_back(*state, mark);
    }
}

/* Loose along the row and across the bents: named once, in the same order. */
static void what_is_loose_is_named_alike(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.foot = "pad";
    const bw_case *deck = bwt_deck_read(&d, *state);
    bw_diags one = bw_diags_new(*state, NULL), more = one;
    bw_assessment unused;
    assert_int_equal(bw_deck_assess_with(*state, deck, 1, &unused, &one), BW_E_MECHANISM);
    assert_int_equal(bw_deck_assess_with(*state, deck, 3, &unused, &more),
                     BW_E_MECHANISM);
    assert_true(one.count > 1);
    assert_int_equal(one.count, more.count);
    for (size_t k = 0; k < one.count; k++) {
        assert_string_equal(one.items[k].message, more.items[k].message);
    }
}

/* ---- jobs ---- */

enum { JOBS = 1000 };

static void count(void *context, size_t k)
{
    ((int *)context)[k]++; /* each job has a place of its own */
}

static void every_job_is_done_once(void **state)
{
    (void)state;
    for (int threads = 0; threads <= 40; threads += 8) {
        int done[JOBS] = {0};
        bw_run_jobs(JOBS, threads, count, done);
        for (int k = 0; k < JOBS; k++) {
            assert_int_equal(done[k], 1);
        }
        bw_run_jobs(0, threads, count, NULL);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(random_decks_come_out_alike),
        WITH_ARENA(what_is_loose_is_named_alike),
        cmocka_unit_test(every_job_is_done_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
