/* Guards, falls and width: each rule speaks just above (or below) its limit and not at
 * it. Limits: facts of the trade, 1a and 1c (READ). */
#include "deck.h"

#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

/* Whether a flag whose words hold the phrase speaks of a deck. */
static bool speaks(const char *phrase, double height, double width)
{
    bw_arena *arena = bw_arena_new();
    bwt_deck d = bwt_deck_plain();
    d.width = width;
    for (int b = 0; b < d.n_bents; b++) {
        d.height[b] = height;
    }
    bw_assessment a;
    bool found = false, spoke = false;
    assert_int_equal(bwt_deck_assess(&d, arena, &a, NULL), BW_OK);
    for (size_t k = 0; k < a.n_flags; k++) {
        if (strstr(a.flags[k].words, phrase) != NULL) {
            found = true;
            spoke = a.flags[k].speaks;
            assert_true(a.flags[k].mark != BW_MARK_NONE);
            assert_true(strlen(a.flags[k].source) > 5);
            assert_true(!spoke || a.flags[k].where[0] == '\0' ||
                        strstr(a.flags[k].where, "b0, b1, b2") != NULL);
        }
    }
    assert_true(found);
    bw_arena_free(arena);
    return spoke;
}

static void heights(void **state)
{
    (void)state;
    static const struct {
        const char *words;
        double limit; /* [m] */
    } rule[] = {{"a side rail", 0.680},   {"second handrail", 0.700},
                {"42 in", 30.0 * 0.0254}, {"at work", 4.0 * 0.3048},
                {"harder ones", 0.6},     {"extremely difficult trails only", 1.2}};
    for (size_t k = 0; k + 1 < sizeof rule / sizeof rule[0]; k++) {
        assert_true(speaks(rule[k].words, rule[k].limit + 1e-4, 1.3));
        assert_false(speaks(rule[k].words, rule[k].limit - 1e-4, 1.3));
    }
}

static void widths(void **state)
{
    (void)state;
    assert_true(speaks("footbridge", 0.9, 0.999));
    assert_false(speaks("footbridge", 0.9, 1.001));
    assert_true(speaks("not for easy trails", 0.9, 0.8999));
    assert_false(speaks("not for easy trails", 0.9, 0.9001));
    assert_true(speaks("half its height", 2.2, 1.099));
    assert_false(speaks("half its height", 2.2, 1.101));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(heights),
        cmocka_unit_test(widths),
    };
    return cmocka_run_group_tests_name("flags", tests, NULL, NULL);
}
