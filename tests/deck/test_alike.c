/* Rows alike are found once: the deck with one of them moved by less than a micron, so
 * that every row is searched, comes out the same, finding by finding. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "deck.h"
#include "deck/internal.h"

static bwt_deck on_sills(int n_rows, int bays_run)
{
    bwt_deck deck = bwt_deck_plain();
    deck.n_rows = n_rows;
    deck.rider = 117.3;
    deck.factor = 2.31;
    deck.crowd = 2613.0;
    deck.snow = 1390.0;
    deck.cap.tip = deck.cap.butt;
    for (int r = 0; r < n_rows; r++) {
        deck.across[r] = 0.471 * (2 * r - (n_rows - 1));
        deck.run[r] = bays_run;
    }
    deck.width = 1.187 * n_rows;
    for (int k = 0; k < deck.n_bents; k++) {
        deck.sill[k] = true;
    }
    return deck;
}

static void assess(const bwt_deck *deck, bw_arena *arena, bw_assessment *out)
{
    assert_int_equal(bwt_deck_assess(deck, arena, out, NULL), BW_OK);
}

static void same_finding(const bw_finding *a, const bw_finding *b)
{
    if (!(fabs(a->ratio.utilisation - b->ratio.utilisation) <=
          1e-5 * b->ratio.utilisation)) {
        fail_msg("%s %s: %.12g found once, %.12g searched", a->member, a->check->id,
                 a->ratio.utilisation, b->ratio.utilisation);
    }
    assert_string_equal(a->combination, b->combination);
    assert_int_equal(a->position == NULL, b->position == NULL);
    assert_string_equal(a->member, b->member);
}

/* Everything that is there with the search is there without it, and the other way. */
static void same_assessment(const bw_assessment *a, const bw_assessment *b)
{
    assert_true(bwt_compare_findings(a, b, same_finding));
    assert_int_equal(a->verdict, b->verdict);
    assert_true(fabs(a->dead_weight - b->dead_weight) <= 1e-5 * b->dead_weight);
    assert_int_equal(a->n_assumptions, b->n_assumptions);
}

static void found_once_is_found_as_well(void **state)
{
    (void)state;
    for (int n_rows = 2; n_rows <= 3; n_rows++) {
        for (int run = 1; run <= 2; run++) {
            bw_arena *arena = bw_arena_new();
            bwt_deck deck = on_sills(n_rows, run);
            bw_assessment once, searched;
            assess(&deck, arena, &once);
            deck.across[n_rows - 1] += 3e-7;
            assess(&deck, arena, &searched);
            same_assessment(&once, &searched);
            bw_arena_free(arena);
        }
    }
}

static int like(const bwt_deck *deck, int row)
{
    bw_arena *arena = bw_arena_new();
    const bw_case *the_case = bwt_deck_read(deck, arena);
    assert_non_null(the_case);
    bw_reference *references = BW_NEW(arena, bw_reference, the_case->n_logs);
    for (size_t k = 0; k < the_case->n_logs; k++) {
        assert_int_equal(
            the_case->basis->reference(arena, &the_case->logs[k], &references[k]), BW_OK);
    }
    bwi_plan plan;
    bw_diags d = bw_diags_new(arena, NULL);
    assert_int_equal(bwi_plan_make(arena, the_case, references, &plan, &d), BW_OK);
    const int found = bwi_row_like(&plan, row);
    bw_arena_free(arena);
    return found;
}

static void only_rows_alike_in_everything_are_taken_for_alike(void **state)
{
    (void)state;
    bwt_deck deck = on_sills(3, 1);
    assert_int_equal(like(&deck, 0), -1);
    assert_int_equal(like(&deck, 1), -1); /* inner and outer */
    assert_int_equal(like(&deck, 2), 0);
    deck.cap.tip = 0.9 * deck.cap.butt; /* other seats */
    assert_int_equal(like(&deck, 2), -1);
    deck = on_sills(3, 1);
    deck.run[2] = 2; /* other stringers */
    assert_int_equal(like(&deck, 2), -1);
    deck = on_sills(3, 1);
    deck.across[2] += 0.01; /* other shares */
    assert_int_equal(like(&deck, 2), -1);
    deck = on_sills(3, 1);
    deck.sill[1] = false; /* posts */
    assert_int_equal(like(&deck, 2), -1);
}

/* Words name the row itself. */
static void the_copy_speaks_of_its_own_row(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bwt_deck deck = on_sills(2, 1);
    bw_assessment out;
    assess(&deck, arena, &out);
    const bw_case *the_case = out.deck;
    for (size_t k = 0; k < the_case->n_stringers; k++) {
        const char *row = the_case->rows[the_case->stringers[k].row].name;
        const bw_finding *f = &out.members[k].findings[BW_CHECK_SHEAR];
        assert_non_null(f->position);
        if (strstr(f->position, "rider") != NULL) {
            assert_non_null(strstr(f->position, row));
        }
    }
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(found_once_is_found_as_well),
        cmocka_unit_test(only_rows_alike_in_everything_are_taken_for_alike),
        cmocka_unit_test(the_copy_speaks_of_its_own_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
