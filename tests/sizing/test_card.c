/* Cards: every cell is the smallest log of its own question, however many threads there
 * are; stopped and failing runs say so. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "bolewright/input.h"
#include "bolewright/sizing.h"

enum { SPANS = 4 };
static const double spans[SPANS] = {1.37, 2.09, 3.31, 5.77};

typedef struct {
    bw_arena *arena;
    bw_species_table table;
    bw_duty duties[BW_USE_COUNT];
} fixture;

static int start(void **state)
{
    static fixture f;
    f.arena = bw_arena_new();
    bw_diags d = bw_diags_new(f.arena, NULL);
    assert_int_equal(bw_input_species(f.arena, NULL, &f.table, &d), BW_OK);
    for (int use = 0; use < BW_USE_COUNT; use++) {
        f.duties[use] = bw_duty_default((bw_use)use, BW_METRIC);
    }
    *state = &f;
    return 0;
}

static int stop(void **state)
{
    bw_arena_free(((fixture *)*state)->arena);
    return 0;
}

static bw_card_question question_of(const fixture *f, const char *species)
{
    return (bw_card_question){.species = bw_species_find(&f->table, species, NULL, 0),
                              .spans = spans,
                              .n_spans = SPANS,
                              .duties = f->duties,
                              .n_duties = BW_USE_COUNT};
}

static bool same_size(const bw_log_size *a, const bw_log_size *b)
{
    return a->butt == b->butt && a->mid == b->mid && a->tip == b->tip;
}

static bool same_sized(const bw_sized *a, const bw_sized *b)
{
    return a->verdict == b->verdict && a->governing == b->governing &&
           (a->utilisation == b->utilisation ||
            (isnan(a->utilisation) && isnan(b->utilisation)));
}

static bool same_cell(const bw_log_answer *a, const bw_log_answer *b)
{
    return a->found == b->found && a->to_end == b->to_end && same_sized(&a->at, &b->at) &&
           (!a->found ||
            (same_size(&a->size, &b->size) && a->has_tree == b->has_tree &&
             a->breast_girth == b->breast_girth && same_sized(&a->below, &b->below)));
}

static void every_cell_is_the_smallest_log_of_its_question(void **state)
{
    fixture *f = *state;
    const bw_card_question q = question_of(f, "western hemlock");
    bw_card card;
    assert_int_equal(bw_cards_make(f->arena, &q, 1, 1, NULL, &card), BW_OK);
    for (size_t row = 0; row < SPANS; row++) {
        for (size_t use = 0; use < BW_USE_COUNT; use++) {
            bw_log_question one = bw_log_question_default(q.species, spans[row]);
            bw_log_answer alone;
            bw_diags d = bw_diags_new(f->arena, NULL);
            one.duty = f->duties[use];
            assert_int_equal(bw_log_smallest(f->arena, &one, &alone, &d), BW_OK);
            assert_true(alone.found);
            assert_true(same_cell(&alone, &card.cells[row * BW_USE_COUNT + use]));
        }
    }
}

static void threads_do_not_change_a_cell(void **state)
{
    fixture *f = *state;
    const bw_card_question q[] = {question_of(f, "unknown hardwood"),
                                  question_of(f, "tamarack")};
    bw_card one[2], many[2];
    assert_int_equal(bw_cards_make(f->arena, q, 2, 1, NULL, one), BW_OK);
    for (int threads = 2; threads <= 40; threads += 19) {
        assert_int_equal(bw_cards_make(f->arena, q, 2, threads, NULL, many), BW_OK);
        for (size_t k = 0; k < 2 * SPANS * BW_USE_COUNT; k++) {
            const size_t card = k % 2, cell = k / 2;
            assert_true(same_cell(&one[card].cells[cell], &many[card].cells[cell]));
        }
    }
}

typedef struct {
    size_t seen, all, stop_at;
} watched;

static bool go_on(void *context, size_t done, size_t all)
{
    watched *w = context;
    w->seen++;
    assert_int_equal(done, w->seen);
    w->all = all;
    return done < w->stop_at;
}

static void the_watch_sees_every_cell_and_may_stop(void **state)
{
    fixture *f = *state;
    const bw_card_question q = question_of(f, "red pine");
    watched all = {0, 0, SIZE_MAX}, some = {0, 0, 5};
    bw_card card;
    const bw_watch to_the_end = {go_on, &all}, to_the_fifth = {go_on, &some};
    assert_int_equal(bw_cards_make(f->arena, &q, 1, 2, &to_the_end, &card), BW_OK);
    assert_int_equal(all.seen, SPANS * BW_USE_COUNT);
    assert_int_equal(all.all, all.seen);
    assert_int_equal(bw_cards_make(f->arena, &q, 1, 1, &to_the_fifth, &card),
                     BW_E_STOPPED);
    assert_int_equal(some.seen, 5);
}

/* No strength, no cell: never a number. */
static void a_species_without_a_value_cannot_say(void **state)
{
    fixture *f = *state;
    bw_card_question q = question_of(f, "red alder");
    bw_species poor = *q.species;
    poor.rupture.value = 0.0;
    q.species = &poor;
    bw_card card;
    assert_int_equal(bw_cards_make(f->arena, &q, 1, 2, NULL, &card), BW_OK);
    for (size_t k = 0; k < SPANS * BW_USE_COUNT; k++) {
        assert_false(card.cells[k].found);
        assert_int_equal(card.cells[k].at.verdict, BW_CANNOT_SAY);
    }
}

static void running_out_of_memory_is_reported(void **state)
{
    fixture *f = *state;
    bw_card_question q = question_of(f, "red pine");
    q.n_spans = 1;
    q.duties = &f->duties[BW_USE_PEOPLE];
    q.n_duties = 1;
    bw_status status = BW_E_MEMORY;
    int failed = 0;
    for (unsigned long n = 1; status == BW_E_MEMORY && n < 200000; n += 1 + n / 8) {
        bw_arena *arena = bw_arena_new();
        bw_card card;
        bw_arena_fail_after(n);
        status = bw_cards_make(arena, &q, 1, 1, NULL, &card);
        bw_arena_fail_after(0);
        bw_arena_free(arena);
        failed += status == BW_E_MEMORY ? 1 : 0;
    }
    assert_int_equal(status, BW_OK);
    assert_true(failed > 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_cell_is_the_smallest_log_of_its_question),
        cmocka_unit_test(threads_do_not_change_a_cell),
        cmocka_unit_test(the_watch_sees_every_cell_and_may_stop),
        cmocka_unit_test(a_species_without_a_value_cannot_say),
        cmocka_unit_test(running_out_of_memory_is_reported),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
