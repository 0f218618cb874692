#include "bolewright/base.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

static const char *const keys[] = {"butt_girth", "tip_girth", "bark",       "length",
                                   "species",    "tip",       "name",       "hole_depth",
                                   "hole_width", "at",        "deck_height"};
enum { n_keys = sizeof keys / sizeof keys[0] };

static void slips_find_the_word_meant(void **state)
{
    (void)state;
    assert_string_equal(bw_nearest_word("but_girth", keys, n_keys), "butt_girth");
    assert_string_equal(bw_nearest_word("Butt-Girth", keys, n_keys), "butt_girth");
    assert_string_equal(bw_nearest_word("lenght", keys, n_keys), "length"); /* swapped */
    assert_string_equal(bw_nearest_word("spieces", keys, n_keys), "species");
    assert_string_equal(bw_nearest_word("NAME", keys, n_keys), "name");
    assert_string_equal(bw_nearest_word("hole_dpth", keys, n_keys), "hole_depth");
    assert_string_equal(bw_nearest_word("att", keys, n_keys), "at");
}

static void words_too_far_away_are_not_offered(void **state)
{
    (void)state;
    assert_null(bw_nearest_word("colour", keys, n_keys));
    assert_null(bw_nearest_word("", keys, 0));
    assert_null(bw_nearest_word("species", NULL, 0));
    assert_null(bw_nearest_word("gnarl", keys, n_keys));
    /* five letters allow one edit, and this needs two */
    assert_null(bw_nearest_word("nnmee", keys, n_keys));
}

/* Edit distances: kitten-sitting 3 is the usual example of Levenshtein's distance
 * (MEMORY); seven letters allow only two edits, ten allow three. */
static void limit_grows_with_the_word_and_ends_at_three(void **state)
{
    (void)state;
    const char *const sitting[] = {"sitting"};
    assert_null(bw_nearest_word("kitten", sitting, 1));
    const char *const deck[] = {"deck_height_of_bent"};
    assert_string_equal(bw_nearest_word("deckheight_f_bnt", deck, 1), deck[0]); /* 3 */
    assert_null(bw_nearest_word("deckheight_f_bt", deck, 1));                   /* 4 */
}

static void first_of_equals_wins_and_the_nearest_before_all(void **state)
{
    (void)state;
    const char *const words[] = {"cart", "card", "care"};
    assert_string_equal(bw_nearest_word("carx", words, 3), "cart");
    assert_string_equal(bw_nearest_word("CARE", words, 3), "care");
}

static void very_long_words_are_left_alone(void **state)
{
    (void)state;
    char word[4096];
    memset(word, 'a', sizeof word - 1);
    word[sizeof word - 1] = '\0';
    const char *const words[] = {word, "bark"};
    assert_null(bw_nearest_word(word, words, 2));
    assert_string_equal(bw_nearest_word("bork", words, 2), "bark");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slips_find_the_word_meant),
        cmocka_unit_test(words_too_far_away_are_not_offered),
        cmocka_unit_test(limit_grows_with_the_word_and_ends_at_three),
        cmocka_unit_test(first_of_equals_wins_and_the_nearest_before_all),
        cmocka_unit_test(very_long_words_are_left_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
