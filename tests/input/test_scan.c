/* test_scan.c - strict JSON: what RFC 8259 allows is read, what it does not allow is
 * refused, and every value knows its place. */
#include "support.h"

#include "input/json.h"

#include <math.h>

typedef struct {
    bw_arena *arena;
    bw_diags d;
    bwi_json doc;
    bool open;
} reading;

static reading read_text(const char *text)
{
    reading r = {.arena = bw_arena_new()};
    assert_non_null(r.arena);
    r.d = bw_diags_new(r.arena, "text");
    r.open = bwi_json_open(&r.doc, r.arena, text, &r.d);
    return r;
}

/* The doc points into the reading that it was made with, so it is set again here. */
static bw_status done(reading *r)
{
    r->doc.diags = &r->d;
    const bw_status status = bwi_json_close(&r->doc);
    return status;
}

static bw_status status_of(const char *text)
{
    reading r = read_text(text);
    const bw_status status = done(&r);
    bw_arena_free(r.arena);
    return status;
}

/* RFC 8259 (2017) section 13, both objects and the three texts: MEMORY. */
static void examples_of_the_standard_are_read(void **state)
{
    (void)state;
    static const char image[] =
        "{\"Image\": {\"Width\":  800, \"Height\": 600, \"Title\":  \"View from 15th "
        "Floor\","
        "\"Thumbnail\": {\"Url\": \"http://www.example.com/image/481989943\","
        "\"Height\": 125, \"Width\":  100}, \"Animated\" : false,"
        "\"IDs\": [116, 943, 234, 38793]}}";
    static const char places[] =
        "[{\"precision\": \"zip\", \"Latitude\":  37.7668, \"Longitude\": -122.3959,"
        "\"Address\": \"\", \"City\": \"SAN FRANCISCO\"}]";
    static const char *const texts[] = {image, places, "\"Hello world!\"", "42", "true"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        assert_int_equal(status_of(texts[i]), BW_OK);
    }
}

/* Section 6 of the same: number = [ minus ] int [ frac ] [ exp ]: MEMORY. */
static void numbers_follow_the_grammar(void **state)
{
    (void)state;
    static const char *const sound[] = {"0",    "-0",      "0.5",   "-12.75",  "1e5",
                                        "1E+5", "2.5e-07", "1e308", "1e-9999", "10"};
    static const char *const faulty[] = {
        "01",   "-",   "+1",     ".5",    "1.",  "1.e5",  "1e",    "1e+",
        "0x1F", "1_0", "-01",    "1e999", "--1", "1e5.5", "1.2.3", "Infinity",
        "NaN",  "1a",  "-1e999", "0 1",   "1,",  "e5"};
    for (size_t i = 0; i < sizeof sound / sizeof sound[0]; i++) {
        assert_int_equal(status_of(sound[i]), BW_OK);
    }
    for (size_t i = 0; i < sizeof faulty / sizeof faulty[0]; i++) {
        if (status_of(faulty[i]) != BW_E_INPUT) {
            fail_msg("%s was taken", faulty[i]);
        }
    }
}

/* Section 7 of the same for escapes; RFC 3629 section 4 for UTF-8: MEMORY. */
static void strings_follow_the_grammar(void **state)
{
    (void)state;
    static const char *const sound[] = {
        "\"\"", "\"\\\"\\\\\\/\\b\\f\\n\\r\\t\"", "\"\\u00e9\\uD83D\\uDE00\"",
        "\"\xC3\xA9 \xE2\x80\xB2 \xF0\x9F\x98\x80\"", "\"\x7F\""};
    static const char *const faulty[] = {"\"",
                                         "\"\\\"",
                                         "\"\\x41\"",
                                         "\"\\u12g4\"",
                                         "\"\\ud800\"",
                                         "\"\\udc00\"",
                                         "\"\\ud800\\u0041\"",
                                         "\"\\u0000\"",
                                         "\"\x01\"",
                                         "\"\n\"",
                                         "\"\x80\"",
                                         "\"\xC0\xAF\"",
                                         "\"\xED\xA0\x80\"",
                                         "\"\xF5\x80\x80\x80\"",
                                         "\"\xE0\x9F\xBF\"",
                                         "\"\xF0\x8F\xBF\xBF\"",
                                         "\"\xC3\"",
                                         "\"\xE2\x80\"",
                                         "\"\\\n\"",
                                         "\"\\u12",
                                         "\"\\"};
    for (size_t i = 0; i < sizeof sound / sizeof sound[0]; i++) {
        assert_int_equal(status_of(sound[i]), BW_OK);
    }
    for (size_t i = 0; i < sizeof faulty / sizeof faulty[0]; i++) {
        if (status_of(faulty[i]) != BW_E_INPUT) {
            fail_msg("string %zu was taken", i);
        }
    }
}

static void structure_follows_the_grammar(void **state)
{
    (void)state;
    static const char *const sound[] = {"{}", "[]", " [ ] ", "[[],{}]", "{\"\":{}}\r\n"};
    static const char *const faulty[] = {"",
                                         "[",
                                         "]",
                                         "{",
                                         "}",
                                         "[1,]",
                                         "[,1]",
                                         "[1 2]",
                                         "{\"a\"}",
                                         "{\"a\":}",
                                         "{\"a\":1,}",
                                         "{,}",
                                         "{1:2}",
                                         "{\"a\":1 \"b\":2}",
                                         "[1}",
                                         "{\"a\":1]",
                                         "[1]]",
                                         "nul",
                                         "tru e",
                                         "{\"a\" 1}",
                                         "[1]//",
                                         "/**/[1]",
                                         "\xEF\xBB\xBF[]",
                                         "[\"a\" \"b\"]"};
    for (size_t i = 0; i < sizeof sound / sizeof sound[0]; i++) {
        assert_int_equal(status_of(sound[i]), BW_OK);
    }
    for (size_t i = 0; i < sizeof faulty / sizeof faulty[0]; i++) {
        if (status_of(faulty[i]) != BW_E_INPUT) {
            fail_msg("%s was taken", faulty[i]);
        }
    }
}

static void sixty_four_levels_are_read_and_one_more_is_not(void **state)
{
    (void)state;
    char text[131];
    memset(text, '[', 64);
    memset(text + 64, ']', 64);
    text[128] = '\0';
    assert_int_equal(status_of(text), BW_OK);
    memset(text, '[', 65);
    memset(text + 65, ']', 65);
    text[130] = '\0';
    assert_int_equal(status_of(text), BW_E_INPUT);
}

static void duplicates_are_found_in_small_and_large_objects(void **state)
{
    (void)state;
    assert_int_equal(status_of("{\"a\":1,\"b\":{\"a\":2}}"), BW_OK);
    assert_int_equal(status_of("{\"a\":1,\"A\":2}"), BW_OK);
    assert_int_equal(status_of("{\"a\":1,\"\\u0061\":2}"), BW_E_INPUT);
    bw_arena *arena = bw_arena_new();
    for (int twice = 0; twice < 2; twice++) {
        bw_text text = bw_text_new(arena);
        bw_text_add(&text, "{");
        for (int i = 0; i < 5000; i++) {
            bw_text_print(&text, "\"key %d\": %d,", (i * 7919) % 5000, i);
        }
        bw_text_print(&text, "\"key %d\": 0}", twice == 1 ? 2385 : 5000);
        assert_int_equal(status_of(bw_text_string(&text)),
                         twice == 1 ? BW_E_INPUT : BW_OK);
    }
    bw_arena_free(arena);
}

static void assert_place(const bwi_at *at, const char *pointer, int line, int column,
                         const char *written)
{
    const size_t before = at->doc->diags->count;
    assert_non_null(at->node);
    assert_string_equal(bwi_pointer(at), pointer);
    assert_string_equal(bwi_as_written(at), written);
    bwi_warn(at, "test.place", NULL, NULL, "here");
    assert_int_equal(at->doc->diags->count, before + 1);
    const bw_diag *diag = &at->doc->diags->items[before];
    assert_int_equal(diag->line, line);
    assert_int_equal(diag->column, column);
    assert_string_equal(diag->path, pointer);
}

static void every_value_knows_its_place(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, "text");
    bwi_json doc;
    assert_true(bwi_json_open(&doc, arena,
                              "{\"\xC3\xA9\": [1.50, \"q\\\"\"],\r\n"
                              "\t\"a/b~\" : {\"x\": true},\n"
                              "  \"list\": [[], {\"y\": -2e3}]}",
                              &d));
    const bwi_at root = bwi_root(&doc);
    const bwi_at accent = bwi_key(&root, "\xC3\xA9");
    const bwi_at first = bwi_nth(&accent, 0);
    const bwi_at second = bwi_nth(&accent, 1);
    assert_place(&first, "/\xC3\xA9/0", 1, 8, "1.50");
    assert_place(&second, "/\xC3\xA9/1", 1, 14, "\"q\\\"\"");
    const bwi_at slash = bwi_key(&root, "a/b~");
    const bwi_at x = bwi_key(&slash, "x");
    assert_place(&slash, "/a~1b~0", 2, 11, "an object");
    assert_place(&x, "/a~1b~0/x", 2, 17, "true");
    const bwi_at list = bwi_key(&root, "list");
    const bwi_at object = bwi_nth(&list, 1);
    const bwi_at y = bwi_key(&object, "y");
    assert_place(&list, "/list", 3, 11, "a list");
    assert_place(&y, "/list/1/y", 3, 22, "-2e3");
    assert_int_equal(bwi_count(&list), 2);
    assert_null(bwi_key(&root, "missing").node);
    assert_null(bwi_nth(&list, 2).node);
    assert_int_equal(bwi_json_close(&doc), BW_OK);
    bw_arena_free(arena);
}

static void the_same_fault_is_told_once(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, "text");
    bwi_json doc;
    assert_true(bwi_json_open(&doc, arena, "[7, 8]", &d));
    const bwi_at root = bwi_root(&doc);
    const bwi_at item = bwi_nth(&root, 1);
    bwi_error(&item, "test.id", NULL, NULL, "found %d", 8);
    bwi_error(&item, "test.id", NULL, NULL, "found %d", 8);
    assert_int_equal(d.count, 1);
    bwi_error(&item, "test.id", NULL, NULL, "found %d", 9);
    assert_int_equal(d.count, 2);
    assert_int_equal(bwi_json_close(&doc), BW_E_INPUT);
    bw_arena_free(arena);
}

/* ---- texts broken on purpose: never a crash, never silence ---- */

static char *good_text(bw_arena *arena)
{
    return slurp(arena, BW_SOURCE_DIR "/tests/input/species.json", NULL);
}

static void a_file_cut_anywhere_is_refused(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    char *text = good_text(arena);
    size_t length = strlen(text);
    while (length > 0 && text[length - 1] != '}') {
        length--; /* blank lines at the end may be lost */
    }
    for (size_t cut = 0; cut < length; cut++) {
        const char kept = text[cut];
        text[cut] = '\0';
        reading r = read_text(text);
        assert_false(r.open);
        assert_true(r.d.errors > 0);
        assert_int_equal(done(&r), BW_E_INPUT);
        bw_arena_free(r.arena);
        text[cut] = kept;
    }
    bw_arena_free(arena);
}

/* The scan must be at least as strict as cJSON: what it passes, cJSON must read. If it
 * were not, opening would fail for want of memory. */
static void changed_bytes_never_pass_the_scan_and_fail_in_the_tree(void **state)
{
    (void)state;
    static const char bytes[] = "\"\\{}[]:,0-+.eE \n\t/u\x01\x80\xC3\xF0xn";
    bw_arena *arena = bw_arena_new();
    char *text = good_text(arena);
    const size_t length = strlen(text);
    uint32_t random = 2385;
    for (int i = 0; i < 20000; i++) {
        random = random * 1664525U + 1013904223U;
        const size_t at = (size_t)(random >> 8) % length;
        random = random * 1664525U + 1013904223U;
        const char kept = text[at];
        text[at] = bytes[(size_t)(random >> 8) % (sizeof bytes - 1)];
        const bw_status status = status_of(text);
        assert_true(status == BW_OK || status == BW_E_INPUT);
        text[at] = kept;
    }
    assert_int_equal(status_of(text), BW_OK);
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(examples_of_the_standard_are_read),
        cmocka_unit_test(numbers_follow_the_grammar),
        cmocka_unit_test(strings_follow_the_grammar),
        cmocka_unit_test(structure_follows_the_grammar),
        cmocka_unit_test(sixty_four_levels_are_read_and_one_more_is_not),
        cmocka_unit_test(duplicates_are_found_in_small_and_large_objects),
        cmocka_unit_test(every_value_knows_its_place),
        cmocka_unit_test(the_same_fault_is_told_once),
        cmocka_unit_test(a_file_cut_anywhere_is_refused),
        cmocka_unit_test(changed_bytes_never_pass_the_scan_and_fail_in_the_tree),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
