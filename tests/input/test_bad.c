/* test_bad.c - every file of tests/bad is read, and its faults are exactly those that its
 * twin .expect lists, in the order of the file:
 *
 *   exit STATUS
 *   SEVERITY ID POINTER LINE:COLUMN words that the message contains
 *     allowed words that "allowed" contains
 *     hint words that the hint contains
 *
 * The pointer of the whole file is "". The kind of a file is the first word of its name.
 * In tables (.csv) the name of a cell stands for the pointer, "_" for its blanks. */
#include "support.h"

#include <dirent.h>

enum { longest_path = 512 };

static const char bad_folder[] = BW_SOURCE_DIR "/tests/bad";
static const char input_folder[] = BW_SOURCE_DIR "/src/input";

typedef struct {
    bw_arena *arena;
    const char *file; /* name of the .json */
    bw_diags *d;
    const bw_diag **order;
    size_t next; /* the diagnostic to come */
} reading;

static int compare_places(const void *left, const void *right)
{
    const bw_diag *const a = *(const bw_diag *const *)left;
    const bw_diag *const b = *(const bw_diag *const *)right;
    const int line_a = a->line > 0 ? a->line : 1 << 30;
    const int line_b = b->line > 0 ? b->line : 1 << 30;
    if (line_a != line_b) {
        return line_a - line_b;
    }
    return a->column != b->column ? a->column - b->column : (a > b) - (a < b);
}

static void sort_diags(reading *r)
{
    r->order = BW_NEW(r->arena, const bw_diag *, r->d->count + 1);
    assert_non_null(r->order);
    for (size_t i = 0; i < r->d->count; i++) {
        r->order[i] = &r->d->items[i];
    }
    qsort(r->order, r->d->count, sizeof *r->order, compare_places);
}

/* Of a demo deck, whose members they name. */
static bw_status read_inspections(reading *r, const char *text)
{
    const char *deck_text = NULL;
    bw_diags none = bw_diags_new(r->arena, NULL);
    bw_species_table woods = {NULL, 0, NULL};
    bw_case deck;
    bw_inspections found;
    assert_int_equal(bw_input_species(r->arena, NULL, &woods, &none), BW_OK);
    assert_int_equal(bw_input_read_file(r->arena, BW_SOURCE_DIR "/cases/alder-loop.json",
                                        &deck_text, &none),
                     BW_OK);
    assert_int_equal(bw_input_case(r->arena, deck_text, &woods, &deck, &none), BW_OK);
    return bw_input_inspections(r->arena, text, &deck, &found, r->d);
}

static bw_status read_one(reading *r, const bw_species_table *woods)
{
    const char *text = NULL;
    const char *path = bw_arena_print(r->arena, "%s/%s", bad_folder, r->file);
    const bw_status status = bw_input_read_file(r->arena, path, &text, r->d);
    assert_int_equal(status, BW_OK);
    if (strncmp(r->file, "case-", 5) == 0) {
        bw_case deck;
        return bw_input_case(r->arena, text, woods, &deck, r->d);
    }
    if (strncmp(r->file, "frame-", 6) == 0) {
        bw_frame_input frame;
        return bw_input_frame(r->arena, text, &frame, r->d);
    }
    if (strncmp(r->file, "inspections-", 12) == 0) {
        return read_inspections(r, text);
    }
    if (strncmp(r->file, "logs-", 5) == 0) {
        const bw_case deck = {.basis = &bw_us_asd, .species = woods};
        bw_log_list logs;
        return bw_input_logs(r->arena, text, &deck, &logs, r->d);
    }
    assert_true(strncmp(r->file, "species-", 8) == 0);
    bw_species_table table = {NULL, 0, NULL};
    const bw_status found = bw_input_species_text(r->arena, text, &table, r->d);
    assert_int_equal(table.count, 0); /* nothing of a faulty table is used */
    return found;
}

static void fail_with(const reading *r, const char *what, const char *expected)
{
    bw_text out = bw_text_new(r->arena);
    bw_diags_print(r->d, &out);
    fail_msg("%s: %s; expected: %s\nfound:\n%s", r->file, what, expected,
             bw_text_string(&out));
}

static void check_words(const reading *r, const char *found, const char *expected)
{
    if (found == NULL || strstr(found, expected) == NULL) {
        fail_with(r, "words are missing", expected);
    }
}

static const char *severity_name(bw_severity severity)
{
    return severity == BW_ERROR ? "error" : severity == BW_WARNING ? "warning" : "note";
}

static bool is_path(const char *path, const char *expected)
{
    expected = strcmp(expected, "\"\"") == 0 ? "" : expected;
    size_t i = 0;
    while (path[i] != '\0' &&
           (path[i] == expected[i] || (path[i] == ' ' && expected[i] == '_'))) {
        i++;
    }
    return path[i] == '\0' && expected[i] == '\0';
}

static void check_fault(reading *r, const char *row)
{
    char severity[16];
    char id[64];
    char path[longest_path];
    int line = 0;
    int column = 0;
    int length = 0;
    if (sscanf(row, "%15s %63s %511s %d:%d %n", severity, id, path, &line, &column,
               &length) < 5) {
        fail_with(r, "a row of .expect cannot be read", row);
    }
    if (r->next >= r->d->count) {
        fail_with(r, "a fault was not found", row);
    }
    const bw_diag *diag = r->order[r->next++];
    if (strcmp(severity_name(diag->severity), severity) != 0 ||
        strcmp(diag->id, id) != 0 || !is_path(diag->path, path) || diag->line != line ||
        diag->column != column) {
        fail_with(r, "a fault is told otherwise", row);
    }
    assert_true(row[length] != '\0'); /* every row says what the message must name */
    check_words(r, diag->message, row + length);
}

static void check_row(reading *r, const char *row, bw_status status)
{
    if (strncmp(row, "exit ", 5) == 0) {
        if (atoi(row + 5) != bw_status_exit(status)) {
            fail_with(r, "another exit status", row);
        }
    } else if (strncmp(row, "  allowed ", 10) == 0) {
        check_words(r, r->order[r->next - 1]->allowed, row + 10);
    } else if (strncmp(row, "  hint ", 7) == 0) {
        check_words(r, r->order[r->next - 1]->hint, row + 7);
    } else {
        check_fault(r, row);
    }
}

static void check_file(bw_arena *arena, const char *file, const bw_species_table *woods)
{
    bw_diags d = bw_diags_new(arena, file);
    reading r = {.arena = arena, .file = file, .d = &d};
    const bw_status status = read_one(&r, woods);
    sort_diags(&r);
    const size_t stem = strlen(file) - strlen(strrchr(file, '.'));
    char *rows =
        slurp(arena, bw_arena_print(arena, "%s/%.*s.expect", bad_folder, (int)stem, file),
              NULL);
    assert_true(strncmp(rows, "exit ", 5) == 0);
    for (char *row = strtok(rows, "\n"); row != NULL; row = strtok(NULL, "\n")) {
        check_row(&r, row, status);
    }
    if (r.next != d.count) {
        fail_with(&r, "more faults than listed", "no more");
    }
}

static bool ends_with(const char *name, const char *ending)
{
    const size_t length = strlen(name);
    const size_t tail = strlen(ending);
    return length > tail && strcmp(name + length - tail, ending) == 0;
}

static void every_bad_file_is_told_as_expected(void **state)
{
    (void)state;
    size_t count = 0;
    DIR *stream = opendir(bad_folder);
    assert_non_null(stream);
    const struct dirent *entry = NULL;
    while ((entry = readdir(stream)) != NULL) {
        if (ends_with(entry->d_name, ".json") || ends_with(entry->d_name, ".csv")) {
            bw_arena *arena = bw_arena_new();
            assert_non_null(arena);
            const bw_species_table woods = test_woods(arena);
            check_file(arena, entry->d_name, &woods);
            bw_arena_free(arena);
            count++;
        }
    }
    assert_int_equal(closedir(stream), 0);
    assert_true(count >= 100);
}

/* ---- every id has its file ---- */

static void append_files(bw_arena *arena, const char *folder, const char *ending,
                         bw_text *all)
{
    DIR *stream = opendir(folder);
    assert_non_null(stream);
    const struct dirent *entry = NULL;
    while ((entry = readdir(stream)) != NULL) {
        if (ends_with(entry->d_name, ending)) {
            bw_text_add(all, slurp(arena,
                                   bw_arena_print(arena, "%s/%s", folder, entry->d_name),
                                   NULL));
        }
    }
    assert_int_equal(closedir(stream), 0);
}

/* Bytes of an id such as "post.hole" in quotes at the text, without the quotes; or 0. */
static size_t id_length(const char *text)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyz0123456789_";
    const size_t family = strspn(text, letters);
    if (family == 0 || text[family] != '.') {
        return 0;
    }
    const size_t rest = strspn(text + family + 1, letters);
    const size_t length = family + 1 + rest;
    const bool header = rest == 1 && text[length - 1] == 'h';
    return rest == 0 || header || text[length] != '"' ? 0 : length;
}

/* Faults of reading files need files that cannot be kept here: see test_file.c. What a
 * schema lacks is a fault of the program: see schema.py. */
static void every_id_has_a_bad_file(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_text code = bw_text_new(arena);
    bw_text expected = bw_text_new(arena);
    append_files(arena, input_folder, ".c", &code);
    append_files(arena, bad_folder, ".expect", &expected);
    size_t count = 0;
    for (const char *at = strchr(bw_text_string(&code), '"'); at != NULL;
         at = strchr(at + 1, '"')) {
        const size_t length = id_length(at + 1);
        if (length == 0 || strncmp(at + 1, "file.", 5) == 0 ||
            strncmp(at + 1, "schema.", 7) == 0) {
            continue;
        }
        const char *id = bw_arena_print(arena, " %.*s ", (int)length, at + 1);
        if (strstr(bw_text_string(&expected), id) == NULL) {
            fail_msg("no file of tests/bad leads to%s", id);
        }
        count++;
    }
    assert_true(count >= 60);
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_bad_file_is_told_as_expected),
        cmocka_unit_test(every_id_has_a_bad_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
