/* Files appear whole or not at all. */
#include "cli/output.h"

#include <dirent.h>
#include <fcntl.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

typedef struct {
    bw_arena *arena;
    bw_diags d;
    bw_text text;
    char folder[64];
    const char *path; /* a file of the folder, not made yet */
} fixture;

static const char words[] = "{\n  \"value\": 2.385\n}\n";

static int start(void **state)
{
    bw_arena *arena = bw_arena_new();
    fixture *f = arena == NULL ? NULL : BW_NEW(arena, fixture, 1);
    if (f == NULL) {
        return -1;
    }
    f->arena = arena;
    f->d = bw_diags_new(arena, NULL);
    f->text = bw_text_new(arena);
    bw_text_add(&f->text, words);
    strcpy(f->folder, "/tmp/bolewright-test-XXXXXX");
    if (mkdtemp(f->folder) == NULL) {
        return -1;
    }
    f->path = bw_arena_print(arena, "%s/result.json", f->folder);
    *state = f;
    return f->path == NULL ? -1 : 0;
}

static size_t count_entries(const char *folder)
{
    size_t count = 0;
    DIR *open_folder = opendir(folder);
    assert_non_null(open_folder);
    for (struct dirent *e = readdir(open_folder); e != NULL; e = readdir(open_folder)) {
        count += strcmp(e->d_name, ".") != 0 && strcmp(e->d_name, "..") != 0 ? 1U : 0U;
    }
    closedir(open_folder);
    return count;
}

static int stop(void **state)
{
    fixture *f = *state;
    (void)unlink(f->path);
    const int gone = rmdir(f->folder); /* fails if anything was left over */
    bw_arena_free(f->arena);
    return gone;
}

static void write_file(const char *path, const char *content)
{
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_true(fputs(content, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

static void assert_content(const char *path, const char *content)
{
    char found[256] = {0};
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    const size_t length = fread(found, 1, sizeof found - 1, file);
    assert_int_equal(fclose(file), 0);
    assert_int_equal(length, strlen(content));
    assert_string_equal(found, content);
}

static void a_new_file_holds_the_whole_text(void **state)
{
    fixture *f = *state;
    assert_int_equal(bwi_output_file(f->path, &f->text, false, &f->d), BW_OK);
    assert_content(f->path, words);
    assert_int_equal(count_entries(f->folder), 1);
}

/* Asked for at the very end too: the file may have appeared while the frame was solved.
 */
static void an_existing_file_stays_as_it_is(void **state)
{
    fixture *f = *state;
    write_file(f->path, "old words");
    assert_int_equal(bwi_output_file(f->path, &f->text, false, &f->d), BW_E_IO);
    assert_int_equal(f->d.errors, 1);
    assert_content(f->path, "old words");
    assert_int_equal(count_entries(f->folder), 1);
}

static void a_dangling_link_counts_as_existing(void **state)
{
    fixture *f = *state;
    assert_int_equal(symlink("nowhere", f->path), 0);
    assert_int_equal(bwi_output_file(f->path, &f->text, false, &f->d), BW_E_IO);
    bwi_options options = {.value = {[BWI_OPT_JSON] = f->path, [BWI_OPT_FORCE] = ""}};
    assert_int_equal(bwi_output_allowed(&options, "deck.json", &f->d), BW_E_IO);
    assert_int_equal(count_entries(f->folder), 1);
}

static void replacing_keeps_the_access_rights(void **state)
{
    fixture *f = *state;
    write_file(f->path, "old words");
    assert_int_equal(chmod(f->path, 0640), 0);
    assert_int_equal(bwi_output_file(f->path, &f->text, true, &f->d), BW_OK);
    assert_content(f->path, words);
    struct stat now;
    assert_int_equal(stat(f->path, &now), 0);
    assert_int_equal(now.st_mode & 0777U, 0640);
}

static void a_missing_folder_is_told(void **state)
{
    fixture *f = *state;
    const char *path = bw_arena_print(f->arena, "%s/none/result.json", f->folder);
    assert_int_equal(bwi_output_file(path, &f->text, false, &f->d), BW_E_IO);
    assert_non_null(strstr(f->d.items[0].message, "No such file or directory"));
}

/* A file size limit stands for a full disk: write fails in the middle. */
static void a_write_that_fails_leaves_the_old_file_and_no_part(void **state)
{
    fixture *f = *state;
    write_file(f->path, "old words");
    struct rlimit before, small;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    small = before;
    small.rlim_cur = 7;
    (void)signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    const bw_status status = bwi_output_file(f->path, &f->text, true, &f->d);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    assert_int_equal(status, BW_E_IO);
    assert_non_null(strstr(f->d.items[0].message, "File too large"));
    assert_content(f->path, "old words");
    assert_int_equal(count_entries(f->folder), 1);
}

static void a_text_that_ran_out_of_memory_is_not_written(void **state)
{
    fixture *f = *state;
    f->text.failed = true;
    assert_int_equal(bwi_output_file(f->path, &f->text, false, &f->d), BW_E_MEMORY);
    assert_int_equal(count_entries(f->folder), 0);
    assert_int_equal(bwi_output_print(&f->text, &f->d), BW_E_MEMORY);
}

static void a_status_without_words_still_sets_the_exit_status(void **state)
{
    fixture *f = *state;
    const bw_diags *const all[] = {&f->d, NULL};
    assert_int_equal(bwi_output_finish(BW_OK, all), 0);
    assert_int_equal(bwi_output_finish(BW_E_MECHANISM, all), 4);
    assert_int_equal(bwi_output_finish(BW_E_MEMORY, all), 70);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, start, stop)
    const struct CMUnitTest tests[] = {
        TEST(a_new_file_holds_the_whole_text),
        TEST(an_existing_file_stays_as_it_is),
        TEST(a_dangling_link_counts_as_existing),
        TEST(replacing_keeps_the_access_rights),
        TEST(a_missing_folder_is_told),
        TEST(a_write_that_fails_leaves_the_old_file_and_no_part),
        TEST(a_text_that_ran_out_of_memory_is_not_written),
        TEST(a_status_without_words_still_sets_the_exit_status),
    };
#undef TEST
    return cmocka_run_group_tests(tests, NULL, NULL);
}
