#include "bolewright/base.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

/* The numbers of the exit statuses are promised in the manual. */
static void every_status_has_its_exit(void **state)
{
    (void)state;
    assert_int_equal(bw_status_exit(BW_OK), 0);
    assert_int_equal(bw_status_exit(BW_E_USAGE), 2);
    assert_int_equal(bw_status_exit(BW_E_INPUT), 3);
    assert_int_equal(bw_status_exit(BW_E_MECHANISM), 4);
    assert_int_equal(bw_status_exit(BW_E_CONDITION), 4);
    assert_int_equal(bw_status_exit(BW_E_IO), 5);
    assert_int_equal(bw_status_exit(BW_E_STOPPED), 130);
    assert_int_equal(bw_status_exit(BW_E_MEMORY), 70);
    assert_int_equal(bw_status_exit(BW_E_INTERNAL), 70);
}

static void every_status_has_its_own_sentence(void **state)
{
    (void)state;
    for (int a = BW_OK; a <= BW_E_INTERNAL; a++) {
        assert_true(strlen(bw_status_text((bw_status)a)) > 3);
        for (int b = a + 1; b <= BW_E_INTERNAL; b++) {
            assert_string_not_equal(bw_status_text((bw_status)a),
                                    bw_status_text((bw_status)b));
        }
    }
}

static void unknown_status_is_our_own_fault(void **state)
{
    (void)state;
    const bw_status beyond = (bw_status)(BW_E_INTERNAL + 1);
    assert_int_equal(bw_status_exit(beyond), 70);
    assert_string_equal(bw_status_text(beyond), "an unknown status");
}

static bw_status try_it(bw_status status, int *reached)
{
    BW_TRY(status);
    *reached = 1;
    return BW_OK;
}

static void try_returns_early_on_a_fault_only(void **state)
{
    (void)state;
    int reached = 0;
    assert_int_equal(try_it(BW_E_IO, &reached), BW_E_IO);
    assert_int_equal(reached, 0);
    assert_int_equal(try_it(BW_OK, &reached), BW_OK);
    assert_int_equal(reached, 1);
}

static void version_is_three_numbers(void **state)
{
    (void)state;
    size_t points = 0;
    for (const char *at = bw_version; *at != '\0'; at++) {
        points += *at == '.' ? 1 : 0;
        assert_true(*at == '.' || (*at >= '0' && *at <= '9'));
    }
    assert_int_equal(points, 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_status_has_its_exit),
        cmocka_unit_test(every_status_has_its_own_sentence),
        cmocka_unit_test(unknown_status_is_our_own_fault),
        cmocka_unit_test(try_returns_early_on_a_fault_only),
        cmocka_unit_test(version_is_three_numbers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
