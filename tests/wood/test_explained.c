/* A species explained: whatever a reader needs to redo its reference values is on the
 * page. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "bolewright/report.h"
#include "read_tables.h"

static const char *explained(const tables *all, const char *id, bw_units units)
{
    bw_text out = bw_text_new(all->arena);
    bw_report_species(all->arena, species_of_id(all, id), units, &out);
    const char *text = bw_text_string(&out);
    assert_non_null(text);
    return text;
}

static void assert_has(const char *text, const char *piece)
{
    if (strstr(text, piece) == NULL) {
        fail_msg("%s is missing from:\n%s", piece, text);
    }
}

/* 5500 psi and 0.38: Wood Handbook Table 5-3, READ. */
static void every_number_stands_with_its_mark_and_source(void **state)
{
    const char *text = explained(*state, "pine_lodgepole", BW_IMPERIAL);
    assert_has(text, "5500 psi");
    assert_has(text, "read [1]");
    assert_has(text, "[1] Wood Handbook");
    assert_has(text, "memory [");
    assert_has(text, "judgement [");
    assert_has(text, "not allowable stresses");
}

static void metric_reader_sees_metric_first(void **state)
{
    const char *text = explained(*state, "eu_beech", BW_METRIC);
    const char *row = strstr(text, "modulus of rupture");
    assert_non_null(row);
    const char *metric = strstr(row, "65 MPa");
    const char *imperial = strstr(row, "psi");
    assert_non_null(metric);
    assert_true(metric < imperial);
}

/* Every numbered source is quoted, and no number is quoted that is not listed. */
static void numbers_of_sources_are_complete(void **state)
{
    const char *text = explained(*state, "redcedar_western", BW_IMPERIAL);
    const char *list = strstr(text, "\nSources\n");
    assert_non_null(list);
    for (int i = 1; i <= 40; i++) {
        char number[16];
        snprintf(number, sizeof number, "[%d]", i);
        const char *first = strstr(text, number);
        assert_true((first != NULL && first < list) == (strstr(list, number) != NULL));
    }
}

static void lines_fit_a_terminal(void **state)
{
    const tables *all = *state;
    for (size_t i = 0; i < all->table.count; i++) {
        const char *text = explained(all, all->table.items[i].id, BW_IMPERIAL);
        while (*text != '\0') {
            const size_t length = strcspn(text, "\n");
            assert_true(length <= 90);
            text += length + (text[length] == '\n' ? 1 : 0);
        }
    }
}

static void species_without_a_strength_says_so(void **state)
{
    const tables *all = *state;
    bw_species species = *species_of_id(all, "oak_white");
    species.shear.value = 0.0;
    bw_text out = bw_text_new(all->arena);
    bw_report_species(all->arena, &species, BW_IMPERIAL, &out);
    assert_has(bw_text_string(&out), "lacks a strength");
    assert_null(strstr(bw_text_string(&out), "F_b"));
}

static void list_names_every_species(void **state)
{
    const tables *all = *state;
    bw_text out = bw_text_new(all->arena);
    bw_report_species_list(&all->table, &out);
    const char *text = bw_text_string(&out);
    assert_non_null(text);
    for (size_t i = 0; i < all->table.count; i++) {
        assert_has(text, all->table.items[i].id);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_number_stands_with_its_mark_and_source),
        cmocka_unit_test(metric_reader_sees_metric_first),
        cmocka_unit_test(numbers_of_sources_are_complete),
        cmocka_unit_test(lines_fit_a_terminal),
        cmocka_unit_test(species_without_a_strength_says_so),
        cmocka_unit_test(list_names_every_species),
    };
    return cmocka_run_group_tests(tests, read_tables, free_tables);
}
