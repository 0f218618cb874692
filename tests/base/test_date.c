/* Dates against published day counts. */
#include "bolewright/base.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static bw_date date(const char *text)
{
    bw_date d = {0};
    assert_true(bw_date_read(text, &d));
    return d;
}

/* 1970-01-01 is day 25569 of the count in which 1899-12-30 is 0 (spreadsheets: MEMORY),
 * two more than here; 2000-03-01 is 11017 days after it (POSIX time 951868800 / 86400).
 */
static void days_agree_with_known_counts(void **state)
{
    (void)state;
    assert_int_equal(bw_date_day(date("1900-01-01")), 0);
    assert_int_equal(bw_date_day(date("1970-01-01")), 25569 - 2);
    assert_int_equal(bw_date_day(date("2000-03-01")) - bw_date_day(date("1970-01-01")),
                     951868800L / 86400L);
}

static void every_day_comes_back(void **state)
{
    (void)state;
    bw_date before = bw_date_of_day(0);
    for (long day = 1; day < 80000; day++) {
        const bw_date d = bw_date_of_day(day);
        assert_int_equal(bw_date_day(d), day);
        assert_true(d.day == before.day + 1 || d.day == 1);
        before = d;
    }
}

static void only_days_that_exist_are_read(void **state)
{
    (void)state;
    static const char *const wrong[] = {"",           "2026-11-31", "2023-02-29",
                                        "1900-02-29", "2026-13-01", "2026-00-10",
                                        "2026-1-10",  "26-11-10",   "2026/11/10",
                                        "2026-11-1O", "1899-12-31", "2026-11-100"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        bw_date d = {7, 7, 7};
        assert_false(bw_date_read(wrong[i], &d));
        assert_int_equal(d.year, 7);
    }
    assert_int_equal(date("2000-02-29").day, 29);
    assert_int_equal(date("2024-02-29").day, 29);
}

static void a_year_later_the_29th_of_february_is_the_28th(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    assert_string_equal(bw_date_print(arena, bw_date_year_later(date("2024-02-29"))),
                        "2025-02-28");
    assert_string_equal(bw_date_print(arena, bw_date_year_later(date("2023-11-05"))),
                        "2024-11-05");
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(days_agree_with_known_counts),
        cmocka_unit_test(every_day_comes_back),
        cmocka_unit_test(only_days_that_exist_are_read),
        cmocka_unit_test(a_year_later_the_29th_of_february_is_the_28th),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
