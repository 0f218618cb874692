/* The report for programs, read back by an independent reader (cJSON). */
#include "report/internal.h"
#include "sample.h"

#include <cjson/cJSON.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static int start(void **state)
{
    *state = bw_arena_new();
    return *state == NULL ? -1 : 0;
}

static int stop(void **state)
{
    bw_arena_free(*state);
    return 0;
}

static const char *json_of(const sample *s, bw_arena *arena)
{
    bw_text text = bw_text_new(arena);
    bw_report_json(&s->assessment, &text);
    return bw_text_string(&text);
}

static cJSON *parse(const char *text)
{
    const char *end = NULL;
    cJSON *json = cJSON_ParseWithOpts(text, &end, true);
    assert_non_null(json);
    return json;
}

static const cJSON *at(const cJSON *object, const char *key)
{
    const cJSON *item = cJSON_GetObjectItemCaseSensitive(object, key);
    if (item == NULL) {
        print_error("no key %s\n", key);
        fail();
    }
    return item;
}

/* Half a unit in the 15th digit is at most 5e-15 of the value (when it begins with a 1).
 */
static void assert_number(const cJSON *object, const char *key, double value)
{
    const cJSON *item = at(object, key);
    assert_true(cJSON_IsNumber(item));
    assert_true(fabs(item->valuedouble - value) <= 5e-15 * fabs(value));
}

static void assert_words(const cJSON *object, const char *key, const char *words)
{
    assert_true(cJSON_IsString(at(object, key)));
    assert_string_equal(at(object, key)->valuestring, words);
}

static void head_says_what_made_it(void **state)
{
    cJSON *json = parse(json_of(sample_new(*state, BW_METRIC), *state));
    assert_number(json, "format", 1.0);
    assert_words(json, "program", "bolewright");
    assert_words(json, "version", bw_version);
    assert_words(json, "tables", "2026-11");
    assert_words(json, "units", "metric");
    assert_words(json, "basis", "us_asd");
    assert_words(json, "verdict", "over");
    assert_true(cJSON_IsNull(at(json, "place")));
    cJSON_Delete(json);
}

static void keys_keep_their_order(void **state)
{
    static const char *const keys[] = {
        "format",  "program",   "version",       "tables",      "title",
        "place",   "builder",   "landowner",     "units",       "basis",
        "verdict", "governing", "to_do",         "members",     "logs",
        "loads",   "limits",    "load_workings", "assumptions", "people",
        "buckled", "flags",     "not_checked",   "cautions",    "numerical_health"};
    cJSON *json = parse(json_of(sample_new(*state, BW_IMPERIAL), *state));
    size_t i = 0;
    for (const cJSON *item = json->child; item != NULL; item = item->next) {
        assert_true(i < sizeof keys / sizeof keys[0]);
        assert_string_equal(item->string, keys[i++]);
    }
    assert_int_equal(i, sizeof keys / sizeof keys[0]);
    cJSON_Delete(json);
}

static void every_finding_of_every_member_is_there_with_15_digits(void **state)
{
    const sample *s = sample_new(*state, BW_IMPERIAL);
    cJSON *json = parse(json_of(s, *state));
    const cJSON *members = at(json, "members");
    assert_int_equal(cJSON_GetArraySize(members), SAMPLE_MEMBERS);
    const cJSON *second = cJSON_GetArrayItem(members, 1);
    assert_words(second, "name", "stringer S2");
    assert_words(second, "verdict", "over");
    const cJSON *findings = at(second, "findings");
    assert_int_equal(cJSON_GetArraySize(findings), 2);
    const cJSON *bending = cJSON_GetArrayItem(findings, 0);
    assert_words(bending, "check", "bending");
    assert_words(bending, "pointer", "/stringers/1");
    assert_words(bending, "mark", "read");
    assert_words(bending, "unit", "Pa");
    assert_number(bending, "station_m", 0.937);
    assert_number(bending, "demand", 11.964e6);
    assert_number(bending, "capacity", 11.27e6);
    assert_number(bending, "utilisation", 11.964 / 11.27);
    const cJSON *deflection = cJSON_GetArrayItem(findings, 1);
    assert_words(deflection, "unit", "m");
    assert_words(deflection, "verdict", "within limits");
    cJSON_Delete(json);
}

static void the_working_is_written_term_by_term(void **state)
{
    cJSON *json = parse(json_of(sample_new(*state, BW_IMPERIAL), *state));
    const cJSON *working = at(at(json, "governing"), "working");
    assert_int_equal(cJSON_GetArraySize(working), 4);
    const cJSON *moment = cJSON_GetArrayItem(working, 0);
    assert_words(moment, "symbol", "M");
    assert_number(moment, "value", 3245.7);
    assert_words(moment, "unit", "N*m");
    assert_true(cJSON_IsNull(at(moment, "mark")));
    assert_words(cJSON_GetArrayItem(working, 2), "mark", "computed");
    assert_words(cJSON_GetArrayItem(working, 3), "source",
                 "a standard of this sample, table 2.3.2");
    cJSON_Delete(json);
}

static void every_log_carries_its_ladders(void **state)
{
    const sample *s = sample_new(*state, BW_IMPERIAL);
    cJSON *json = parse(json_of(s, *state));
    const cJSON *log = cJSON_GetArrayItem(at(json, "logs"), 1);
    assert_words(log, "species", "pine_sample");
    assert_number(log, "tip_diameter_m", 0.1524);
    assert_number(log, "length_m", 3.048);
    const cJSON *reference = at(log, "reference");
    assert_int_equal(cJSON_GetArraySize(reference), BW_PROPERTY_COUNT);
    const cJSON *shear = cJSON_GetArrayItem(reference, BW_SHEAR_STRENGTH);
    assert_words(shear, "property", "shear");
    assert_number(shear, "value", s->references[1].value[BW_SHEAR_STRENGTH]);
    assert_int_equal(cJSON_GetArraySize(at(shear, "ladder")), 1);
    cJSON_Delete(json);
}

static void what_is_not_finite_is_null(void **state)
{
    sample *s = sample_new(*state, BW_IMPERIAL);
    bw_finding *f = &s->members[0].findings[BW_CHECK_BENDING];
    f->ratio = (bw_ratio){(double)NAN, -HUGE_VAL, HUGE_VAL};
    f->station = -1.0;
    s->assessment.worst_rcond = (double)NAN;
    const char *text = json_of(s, *state);
    cJSON *json = parse(text);
    const cJSON *finding =
        cJSON_GetArrayItem(at(cJSON_GetArrayItem(at(json, "members"), 0), "findings"), 0);
    assert_true(cJSON_IsNull(at(finding, "demand")));
    assert_true(cJSON_IsNull(at(finding, "capacity")));
    assert_true(cJSON_IsNull(at(finding, "utilisation")));
    assert_true(cJSON_IsNull(at(finding, "station_m")));
    assert_words(finding, "verdict", "cannot say");
    assert_true(cJSON_IsNull(at(at(json, "numerical_health"), "worst_rcond")));
    cJSON_Delete(json);
}

static void text_and_json_give_one_verdict(void **state)
{
    sample *s = sample_new(*state, BW_IMPERIAL);
    s->assessment.verdict = BW_WITHIN; /* contradicted by a finding */
    cJSON *json = parse(json_of(s, *state));
    assert_words(json, "verdict", "over");
    assert_non_null(strstr(sample_text(s, *state), "\nOVER: "));
    cJSON_Delete(json);
}

static void assumptions_and_lists_are_complete(void **state)
{
    cJSON *json = parse(json_of(sample_new(*state, BW_IMPERIAL), *state));
    const cJSON *assumptions = at(json, "assumptions");
    assert_int_equal(cJSON_GetArraySize(assumptions), 3);
    assert_int_equal(cJSON_GetArraySize(at(json, "to_do")), 1);
    assert_string_equal(
        cJSON_GetArrayItem(at(json, "to_do"), 0)->valuestring,
        "hold the far ends down for 389 N [computed: NOT CHECKED: spikes]");
    assert_words(cJSON_GetArrayItem(assumptions, 0), "mark", "judgement");
    assert_true(cJSON_IsNull(at(cJSON_GetArrayItem(assumptions, 0), "source")));
    assert_int_equal(cJSON_GetArraySize(at(json, "not_checked")), 2);
    assert_string_equal(cJSON_GetArrayItem(at(json, "cautions"), 1)->valuestring,
                        "Last caution of the sample.");
    assert_number(at(json, "loads"), "rider_mass_kg", 115.2);
    assert_number(at(json, "loads"), "dead_weight_N", 3417.2);
    cJSON_Delete(json);
}

static void an_empty_assessment_is_still_json(void **state)
{
    sample *s = sample_new(*state, BW_IMPERIAL);
    s->deck.species = NULL;
    s->deck.n_logs = 0;
    s->assessment = (bw_assessment){.deck = &s->deck};
    cJSON *json = parse(json_of(s, *state));
    assert_words(json, "verdict", "cannot say");
    assert_true(cJSON_IsNull(at(json, "governing")));
    assert_true(cJSON_IsNull(at(json, "tables")));
    assert_int_equal(cJSON_GetArraySize(at(json, "members")), 0);
    cJSON_Delete(json);
}

/* RFC 8259, section 7: quotation mark, reverse solidus and U+0000 to U+001F must be
 * escaped. */
static void strings_are_escaped_and_valid_utf8(void **state)
{
    static const struct {
        const char *text, *json;
    } rows[] = {
        {"6' 6\"", "\"6' 6\\\"\""},
        {"a\\b", "\"a\\\\b\""},
        {"line\nnext\ttab\r", "\"line\\nnext\\ttab\\u000d\""},
        {"\x01\x1f", "\"\\u0001\\u001f\""},
        {"m\xC3\xA9l\xC3\xA8ze", "\"m\xC3\xA9l\xC3\xA8ze\""},
        {"cut \xE2\x80", "\"cut \\ufffd\\ufffd\""},
        {"", "\"\""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        bw_text out = bw_text_new(*state);
        bw_json_string(&out, rows[i].text);
        assert_string_equal(bw_text_string(&out), rows[i].json);
    }
}

static void numbers_have_15_digits_and_no_minus_zero(void **state)
{
    static const struct {
        double value;
        const char *json;
    } rows[] = {{2.385, "2.385"},
                {-0.0, "0"},
                {1.0 / 3.0, "0.333333333333333"},
                {-1.23456789012345e-200, "-1.23456789012345e-200"},
                {6.02e23, "6.02e+23"},
                {(double)NAN, "null"},
                {HUGE_VAL, "null"},
                {-HUGE_VAL, "null"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        bw_text out = bw_text_new(*state);
        bw_json_number(&out, rows[i].value);
        assert_string_equal(bw_text_string(&out), rows[i].json);
    }
}

static void without_memory_there_is_no_half_json(void **state)
{
    const sample *s = sample_new(*state, BW_IMPERIAL);
    bool done = false;
    unsigned long n = 1;
    for (; !done; n++) {
        bw_arena *arena = bw_arena_new();
        assert_non_null(arena);
        bw_arena_fail_after(n);
        const char *text = json_of(s, arena);
        bw_arena_fail_after(0);
        done = text != NULL;
        if (done) {
            assert_string_equal(text, json_of(s, *state));
        }
        bw_arena_free(arena);
    }
    assert_true(n > 3);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, start, stop)
    const struct CMUnitTest tests[] = {
        TEST(head_says_what_made_it),
        TEST(keys_keep_their_order),
        TEST(every_finding_of_every_member_is_there_with_15_digits),
        TEST(the_working_is_written_term_by_term),
        TEST(every_log_carries_its_ladders),
        TEST(what_is_not_finite_is_null),
        TEST(text_and_json_give_one_verdict),
        TEST(assumptions_and_lists_are_complete),
        TEST(an_empty_assessment_is_still_json),
        TEST(strings_are_escaped_and_valid_utf8),
        TEST(numbers_have_15_digits_and_no_minus_zero),
        TEST(without_memory_there_is_no_half_json),
    };
#undef TEST
    return cmocka_run_group_tests(tests, NULL, NULL);
}
