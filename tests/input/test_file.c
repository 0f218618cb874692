/* test_file.c - files that can be read, and those that are refused, made in a folder of
 * their own under the build folder. */
#include "support.h"

#include "input/file.h"

#include <sys/stat.h>
#include <unistd.h>

enum { eight_mib = 8 << 20 };

typedef struct {
    bw_arena *arena;
    bw_diags d;
    char folder[64];
} place;

static int make_place(void **state)
{
    place *p = calloc(1, sizeof *p);
    assert_non_null(p);
    p->arena = bw_arena_new();
    p->d = bw_diags_new(p->arena, NULL);
    snprintf(p->folder, sizeof p->folder, "test_file_XXXXXX");
    assert_non_null(mkdtemp(p->folder));
    *state = p;
    return 0;
}

static int remove_place(void **state)
{
    place *p = *state;
    assert_int_equal(rmdir(p->folder), 0); /* every test removes what it made */
    bw_arena_free(p->arena);
    free(p);
    return 0;
}

/* The path of a name in the folder. */
static const char *inside(place *p, const char *name)
{
    return bw_arena_print(p->arena, "%s/%s", p->folder, name);
}

static const char *write_file(place *p, const char *name, const char *bytes,
                              size_t length)
{
    const char *path = inside(p, name);
    FILE *stream = fopen(path, "wb");
    assert_non_null(stream);
    assert_int_equal(fwrite(bytes, 1, length, stream), length);
    assert_int_equal(fclose(stream), 0);
    return path;
}

static void assert_refused(place *p, const char *path, bw_status status, const char *id)
{
    const char *text = "";
    assert_status(p->arena, bw_input_read_file(p->arena, path, &text, &p->d), status,
                  &p->d);
    assert_null(text);
    assert_int_equal(p->d.count, 1);
    assert_string_equal(p->d.items[0].id, id);
    assert_int_equal(p->d.items[0].severity, BW_ERROR);
}

static void a_file_is_read_whole(void **state)
{
    place *p = *state;
    const char *text = NULL;
    size_t length = 40000;
    char *bytes = malloc(length + 1);
    assert_non_null(bytes);
    for (size_t i = 0; i < length; i++) {
        bytes[i] = (char)('a' + i % 23);
    }
    bytes[length] = '\0';
    const char *path = write_file(p, "whole", bytes, length);
    assert_int_equal(bw_input_read_file(p->arena, path, &text, &p->d), BW_OK);
    assert_string_equal(text, bytes);
    assert_int_equal(p->d.count, 0);
    assert_int_equal(remove(path), 0);
    free(bytes);
}

static void an_empty_file_is_an_empty_text(void **state)
{
    place *p = *state;
    const char *text = NULL;
    const char *path = write_file(p, "empty", "", 0);
    assert_int_equal(bw_input_read_file(p->arena, path, &text, &p->d), BW_OK);
    assert_string_equal(text, "");
    assert_int_equal(remove(path), 0);
}

static void a_minus_is_the_standard_input(void **state)
{
    place *p = *state;
    const char *text = NULL;
    const char *path = write_file(p, "piped", "{\"a\": 2.385}", 12);
    assert_non_null(freopen(path, "rb", stdin));
    assert_int_equal(bw_input_read_file(p->arena, "-", &text, &p->d), BW_OK);
    assert_string_equal(text, "{\"a\": 2.385}");
    assert_int_equal(remove(path), 0);
}

static void a_missing_file_is_told(void **state)
{
    place *p = *state;
    assert_refused(p, inside(p, "nothing"), BW_E_IO, "file.missing");
    assert_non_null(strstr(p->d.items[0].message, "nothing"));
}

static void a_folder_is_told(void **state)
{
    place *p = *state;
    assert_refused(p, p->folder, BW_E_IO, "file.folder");
}

static void a_name_that_is_too_long_is_told(void **state)
{
    place *p = *state;
    char name[600];
    memset(name, 'n', sizeof name);
    name[sizeof name - 1] = '\0';
    assert_refused(p, name, BW_E_IO, "file.read");
}

static void a_file_without_permission_is_told(void **state)
{
    place *p = *state;
    if (geteuid() == 0) {
        skip(); /* root may read everything */
    }
    const char *path = write_file(p, "secret", "{}", 2);
    assert_int_equal(chmod(path, 0), 0);
    assert_refused(p, path, BW_E_IO, "file.denied");
    assert_int_equal(remove(path), 0);
}

/* 100 MB without a byte on the disk: the size alone must be enough to refuse it. */
static void a_huge_file_is_refused_unread(void **state)
{
    place *p = *state;
    const char *path = write_file(p, "huge", "{", 1);
    assert_int_equal(truncate(path, 100 * 1000 * 1000), 0);
    assert_refused(p, path, BW_E_INPUT, "file.large");
    assert_int_equal(remove(path), 0);
}

static void eight_mib_are_read_and_one_byte_more_is_not(void **state)
{
    place *p = *state;
    const char *text = NULL;
    char *bytes = malloc(eight_mib + 1);
    assert_non_null(bytes);
    memset(bytes, ' ', eight_mib + 1);
    const char *path = write_file(p, "full", bytes, eight_mib);
    assert_int_equal(bw_input_read_file(p->arena, path, &text, &p->d), BW_OK);
    assert_int_equal(strlen(text), eight_mib);
    write_file(p, "full", bytes, eight_mib + 1);
    assert_refused(p, path, BW_E_INPUT, "file.large");
    assert_int_equal(remove(path), 0);
    free(bytes);
}

/* A stream has no size to look at: it is refused on the way. */
static void an_endless_stream_is_refused(void **state)
{
    place *p = *state;
    const char *path = write_file(p, "endless", "", 0);
    char *bytes = malloc(eight_mib + 1);
    assert_non_null(bytes);
    memset(bytes, ' ', eight_mib + 1);
    write_file(p, "endless", bytes, eight_mib + 1);
    assert_non_null(freopen(path, "rb", stdin));
    assert_refused(p, "-", BW_E_INPUT, "file.large");
    assert_int_equal(remove(path), 0);
    free(bytes);
}

static void a_zero_byte_is_told(void **state)
{
    place *p = *state;
    const char *path = write_file(p, "binary", "{\"a\":\0 1}", 9);
    assert_refused(p, path, BW_E_INPUT, "file.nul");
    assert_int_equal(remove(path), 0);
}

static void running_out_of_memory_is_reported(void **state)
{
    place *p = *state;
    const char *path = write_file(p, "small", "{}", 2);
    unsigned long n = 1;
    for (;; n++) {
        bw_arena *arena = bw_arena_new();
        bw_diags d = bw_diags_new(arena, NULL);
        const char *text = NULL;
        bw_arena_fail_after(n);
        const bw_status status = bw_input_read_file(arena, path, &text, &d);
        bw_arena_fail_after(0);
        bw_arena_free(arena);
        if (status == BW_OK) {
            break;
        }
        assert_int_equal(status, BW_E_MEMORY);
    }
    assert_true(n > 1);
    assert_int_equal(remove(path), 0);
}

/* ---- folders ---- */

static void a_folder_gives_its_tables_in_order(void **state)
{
    place *p = *state;
    bwi_paths paths;
    const char *made[] = {write_file(p, "b.json", "", 0), write_file(p, "a.json", "", 0),
                          write_file(p, "notes.txt", "", 0),
                          write_file(p, ".json", "", 0)};
    assert_int_equal(bwi_folder_list(p->arena, p->folder, &paths, &p->d), BW_OK);
    assert_int_equal(paths.count, 2);
    assert_string_equal(paths.items[0], made[1]);
    assert_string_equal(paths.items[1], made[0]);
    for (size_t i = 0; i < sizeof made / sizeof made[0]; i++) {
        assert_int_equal(remove(made[i]), 0);
    }
}

static void assert_folder_refused(place *p, const char *folder, const char *id)
{
    bwi_paths paths;
    const size_t before = p->d.count;
    assert_int_equal(bwi_folder_list(p->arena, folder, &paths, &p->d), BW_E_IO);
    assert_int_equal(p->d.count, before + 1);
    assert_string_equal(p->d.items[before].id, id);
}

static void a_folder_that_is_none_is_told(void **state)
{
    place *p = *state;
    assert_folder_refused(p, inside(p, "nothing"), "file.missing");
    assert_folder_refused(p, p->folder, "file.no_tables");
    const char *path = write_file(p, "file", "", 0);
    assert_folder_refused(p, path, "file.not_folder");
    assert_int_equal(remove(path), 0);
}

#define AT_PLACE(test) cmocka_unit_test_setup_teardown(test, make_place, remove_place)

int main(void)
{
    const struct CMUnitTest tests[] = {
        AT_PLACE(a_file_is_read_whole),
        AT_PLACE(an_empty_file_is_an_empty_text),
        AT_PLACE(a_minus_is_the_standard_input),
        AT_PLACE(a_missing_file_is_told),
        AT_PLACE(a_folder_is_told),
        AT_PLACE(a_name_that_is_too_long_is_told),
        AT_PLACE(a_file_without_permission_is_told),
        AT_PLACE(a_huge_file_is_refused_unread),
        AT_PLACE(eight_mib_are_read_and_one_byte_more_is_not),
        AT_PLACE(an_endless_stream_is_refused),
        AT_PLACE(a_zero_byte_is_told),
        AT_PLACE(running_out_of_memory_is_reported),
        AT_PLACE(a_folder_gives_its_tables_in_order),
        AT_PLACE(a_folder_that_is_none_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
