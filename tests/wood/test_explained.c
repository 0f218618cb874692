/* A species explained: whatever a reader needs to redo its reference values is on the
 * page. */
#include <math.h>
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

static const cJSON *at(const cJSON *object, const char *key)
{
    const cJSON *found = cJSON_GetObjectItemCaseSensitive(object, key);
    assert_non_null(found);
    return found;
}

/* Every number of every species leaves the program with a mark and a source, and the
 * marks are counted as they stand there. */
static void data_have_marks_and_sources_and_their_counts(void **state)
{
    static const char *const marks[] = {"read", "computed", "memory", "practice",
                                        "judgement"};
    const tables *all = *state;
    int counts[5] = {0};
    bw_text out = bw_text_new(all->arena);
    bw_report_species_json(&all->table, &out);
    cJSON *root = cJSON_Parse(bw_text_string(&out));
    assert_non_null(root);
    const cJSON *entry = NULL, *number = NULL;
    cJSON_ArrayForEach(entry, at(root, "species"))
    {
        cJSON_ArrayForEach(number, at(entry, "numbers"))
        {
            const char *source = cJSON_GetStringValue(at(number, "source"));
            const char *mark = cJSON_GetStringValue(at(number, "mark"));
            assert_true(source != NULL && strlen(source) >= 10);
            for (int i = 0; i < 5; i++) {
                counts[i] += strcmp(mark, marks[i]) == 0 ? 1 : 0;
            }
        }
        const cJSON *durability = at(entry, "durability");
        const cJSON *mark = cJSON_GetObjectItemCaseSensitive(durability, "mark");
        for (int i = 0; mark != NULL && i < 5; i++) {
            counts[i] += strcmp(mark->valuestring, marks[i]) == 0 ? 1 : 0;
        }
    }
    for (int i = 0; i < 5; i++) {
        assert_int_equal(at(at(root, "marks"), marks[i])->valueint, counts[i]);
    }
    assert_int_equal(at(at(root, "marks"), "without_mark")->valueint, 0);
    assert_int_equal(cJSON_GetArraySize(at(root, "from_memory")), counts[2]);
    assert_true(counts[0] > 1000 && counts[2] > 300);
    cJSON_Delete(root);
}

/* SI in the data, psi in the table: 5500 psi, Wood Handbook, READ. */
static void data_are_si(void **state)
{
    const tables *all = *state;
    const bw_species_table one = {species_of_id(all, "pine_lodgepole"), 1, "test"};
    bw_text out = bw_text_new(all->arena);
    bw_report_species_json(&one, &out);
    cJSON *root = cJSON_Parse(bw_text_string(&out));
    const cJSON *number = NULL;
    int found = 0;
    cJSON_ArrayForEach(number, at(cJSON_GetArrayItem(at(root, "species"), 0), "numbers"))
    {
        if (strcmp(at(number, "what")->valuestring, "modulus of rupture") == 0) {
            found++;
            assert_true(fabs(at(number, "value")->valuedouble - 5500.0 * 6894.757293168) <
                        0.01);
            assert_string_equal(at(number, "unit")->valuestring, "Pa");
        }
    }
    assert_int_equal(found, 1);
    cJSON_Delete(root);
}

static void what_is_from_memory_is_named(void **state)
{
    const char *text = explained(*state, "cedar_incense", BW_IMPERIAL);
    assert_has(text, "From memory, verify: specific gravity; modulus of rupture");
    assert_has(text, "Sapwood: 2 to 4 years");
    assert_has(text, "falls back on a field rule");
    assert_has(explained(*state, "pine_lodgepole", BW_IMPERIAL), "taper: alpha");
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
        cmocka_unit_test(data_have_marks_and_sources_and_their_counts),
        cmocka_unit_test(data_are_si),
        cmocka_unit_test(what_is_from_memory_is_named),
    };
    return cmocka_run_group_tests(tests, read_tables, free_tables);
}
