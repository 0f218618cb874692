/* test_memory.c - memory runs out at every place where it is asked for, through whole
 * runs of the program: each says so, or gives what it gives otherwise. Never a crash, a
 * leak or another answer.
 *
 * Every place is tried as far as the time allows; then every k-th. BW_EVERY=1 in the
 * environment: every place whatever it takes. */
#include "sweep.h"

#include "cli/commands.h"
#include "cli/output.h"

#include "bolewright/input.h"
#include "bolewright/report.h"
#include "bolewright/sizing.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#define DECK BW_SOURCE_DIR "/tests/fuzz/deck.json"

enum { MEMORY = 70 };

/* ---- runs ---- */

static int (*const commands[BWI_COMMAND_COUNT])(bw_arena *, const bwi_options *) = {
    [BWI_CHECK] = bwi_check_run,
    [BWI_REPORT] = bwi_report_run,
    [BWI_SPECIES] = bwi_species_run,
};

static outcome run_command(const task *t, bw_arena *arena, bw_arena *keeper)
{
    char *argv[SWEEP_WORDS + 1] = {(char *)(uintptr_t) "bolewright"};
    int argc = 1;
    for (; argc <= SWEEP_WORDS && t->line[argc - 1] != NULL; argc++) {
        argv[argc] = (char *)(uintptr_t)t->line[argc - 1];
    }
    bwi_options options;
    bw_text text = bw_text_new(arena);
    bw_diags d = bw_diags_new(arena, NULL);
    if (bwi_options_read(argc, argv, &options, &d) != BW_OK) {
        return (outcome){bw_status_exit(BW_E_MEMORY), NULL};
    }
    bwi_output_capture(&text, &d);
    outcome out = {commands[options.command](arena, &options), NULL};
    bwi_output_capture(NULL, NULL);
    bw_text faults = bw_text_new(arena);
    bw_diags_print(&d, &faults);
    const bool whole = bw_text_string(&text) != NULL && bw_text_string(&faults) != NULL &&
                       !d.failed && out.status != MEMORY;
    failing_end();
    sweep_keep(&out, keeper,
               whole ? bw_arena_print(keeper, "%s%s", bw_text_string(&text),
                                      bw_text_string(&faults))
                     : NULL);
    return out;
}

/* Read before memory runs out: most of what a command asks for is the tables'. */
static bw_arena *before;
static bw_species_table species;

static const char *text_of(const char *path)
{
    const char *text = NULL;
    bw_diags d = bw_diags_new(before, NULL);
    failing_end();
    assert_int_equal(bw_input_read_file(before, path, &text, &d), BW_OK);
    return text;
}

static outcome run_request(const task *t, bw_arena *arena, bw_arena *keeper)
{
    static const bw_page_argument arguments[] = {{"member", "0"}};
    outcome out = {bw_status_exit(BW_E_MEMORY), NULL};
    const bw_page page = {.species = &species, .port = 4711};
    const bw_page_request request = {.method = "POST",
                                     .path = t->path,
                                     .host = "127.0.0.1:4711",
                                     .origin = "http://127.0.0.1:4711",
                                     .content_type = "application/json",
                                     .arguments = arguments,
                                     .n_arguments = 1,
                                     .body = t->file,
                                     .length = strlen(t->file)};
    bw_page_response got;
    bw_page_answer(arena, &page, &request, &got);
    failing_end();
    assert_true(got.body != NULL && strlen(got.body) == got.length);
    const bool refused = strstr(got.body, bw_status_text(BW_E_MEMORY)) != NULL;
    assert_true(got.status != 500 || refused); /* it says why */
    assert_true(!refused || strstr(got.body, "\"verdict\"") == NULL);
    if (!refused) {
        out.status = got.status;
        sweep_keep(&out, keeper, got.body);
    }
    return out;
}

static bw_status report_all(bw_arena *arena, const bw_assessment *a, bw_text *out)
{
    bw_drawing drawing;
    bw_text parts[5];
    for (int k = 0; k < 5; k++) {
        parts[k] = bw_text_new(arena);
    }
    BW_TRY(bw_deck_drawing(arena, a, &drawing));
    const bw_record record = {
        .assessment = a, .drawing = &drawing, .case_name = "deck.json", .case_hash = "0"};
    bw_report_text(a, &parts[0]);
    bw_report_json(a, &parts[1]);
    bw_report_html(&record, &parts[2]);
    bw_report_csv(a, &parts[3]);
    bw_report_live(a, &drawing, &parts[4]);
    for (int k = 0; k < 5; k++) {
        const char *words = bw_text_string(&parts[k]);
        if (words == NULL) {
            return BW_E_MEMORY;
        }
        bw_text_add(out, words);
    }
    return BW_OK;
}

static bw_status assess_all(const task *t, bw_arena *arena, bw_text *out, bw_diags *d)
{
    bw_case deck;
    bw_assessment a;
    BW_TRY(bw_input_case(arena, t->file, &species, &deck, d));
    BW_TRY(bw_deck_assess(arena, &deck, &a, d));
    BW_TRY(bw_people_count(arena, &a, d));
    return report_all(arena, &a, out);
}

/* The calls themselves, one after the other, and all forms of what comes of them. */
static outcome run_calls(const task *t, bw_arena *arena, bw_arena *keeper)
{
    bw_text text = bw_text_new(arena);
    bw_diags d = bw_diags_new(arena, NULL);
    const bw_status status = assess_all(t, arena, &text, &d);
    const bool whole = status != BW_E_MEMORY && bw_text_string(&text) != NULL;
    failing_end();
    outcome out = {bw_status_exit(status), NULL};
    assert_true(status == BW_OK || status == BW_E_MEMORY);
    sweep_keep(&out, keeper, whole ? bw_text_string(&text) : NULL);
    return out;
}

static void sweep_all(failing_kind kind, bool for_good)
{
    const char *deck = text_of(DECK);
    const task tasks[] = {
        {.name = "calls", .run = run_calls, .every = true, .file = deck},
        {.name = "page: check",
         .run = run_request,
         .every = true,
         .path = "/check",
         .file = deck},
        {.name = "page: record", .run = run_request, .path = "/record", .file = deck},
        {.name = "page: working", .run = run_request, .path = "/working", .file = deck},
        {.name = "check", .run = run_command, .line = {"check", DECK}},
        {.name = "findings", .run = run_command, .line = {"check", DECK, "--json", "-"}},
        {.name = "record",
         .run = run_command,
         .line = {"report", DECK, "-o", "-", "--date", "2026-11-28"}},
        {.name = "loose deck",
         .run = run_command,
         .line = {"check", BW_SOURCE_DIR "/cases/loose-row.json"}},
        {.name = "bad case",
         .run = run_command,
         .line = {"check", BW_SOURCE_DIR "/tests/bad/case-ranges.json"}},
        {.name = "species", .run = run_command, .line = {"species", "red pine"}},
    };
    for (size_t k = 0; k < sizeof tasks / sizeof tasks[0]; k++) {
        sweep_task(&tasks[k], kind, for_good);
    }
}

static void the_system_gives_none_once(void **state)
{
    (void)state;
    sweep_all(FAIL_SYSTEM, false);
}

static void the_system_gives_no_more(void **state)
{
    (void)state;
    sweep_all(FAIL_SYSTEM, true);
}

static void an_arena_gives_none_once(void **state)
{
    (void)state;
    sweep_all(FAIL_ARENA, false);
}

static void an_arena_gives_no_more(void **state)
{
    (void)state;
    sweep_all(FAIL_ARENA, true);
}

static int set_up(void **state)
{
    (void)state;
    before = bw_arena_new();
    bw_diags d = bw_diags_new(before, NULL);
    return bw_input_species(before, NULL, &species, &d) == BW_OK ? 0 : -1;
}

static int tear_down(void **state)
{
    (void)state;
    bw_arena_free(before);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_system_gives_none_once),
        cmocka_unit_test(the_system_gives_no_more),
        cmocka_unit_test(an_arena_gives_none_once),
        cmocka_unit_test(an_arena_gives_no_more),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
