/* Reading the command line. Conventions: POSIX XBD 12.2 (guideline list MEMORY) and GNU
 * Coding Standards 4.7 (READ). */
#include "cli/options.h"

#include "bolewright/sizing.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

typedef struct {
    bw_arena *arena;
    bwi_options options;
    bw_diags d;
} fixture;

static int start(void **state)
{
    bw_arena *arena = bw_arena_new();
    fixture *f = arena == NULL ? NULL : BW_NEW(arena, fixture, 1);
    if (f == NULL) {
        return -1;
    }
    f->arena = arena;
    *state = f;
    return 0;
}

static int stop(void **state)
{
    bw_arena_free(((fixture *)*state)->arena);
    return 0;
}

/* The line is split at blanks; "%" stands for an empty word. */
static bw_status read_line(fixture *f, const char *line)
{
    enum { WORDS = 16 };
    char *argv[WORDS] = {bw_arena_copy(f->arena, "bolewright")};
    char *words = bw_arena_copy(f->arena, line), *rest = NULL;
    int argc = 1;
    for (char *word = strtok_r(words, " ", &rest); word != NULL;
         word = strtok_r(NULL, " ", &rest)) {
        assert_true(argc < WORDS);
        word[0] = (char)(word[0] == '%' ? '\0' : word[0]);
        argv[argc++] = word;
    }
    f->d = bw_diags_new(f->arena, NULL);
    return bwi_options_read(argc, argv, &f->options, &f->d);
}

static void a_value_comes_behind_a_blank_or_an_equals_sign(void **state)
{
    fixture *f = *state;
    assert_int_equal(read_line(f, "check a.json --json b.json"), BW_OK);
    assert_string_equal(f->options.value[BWI_OPT_JSON], "b.json");
    assert_int_equal(read_line(f, "check --json=c=d.json a.json"), BW_OK);
    assert_string_equal(f->options.value[BWI_OPT_JSON], "c=d.json");
    assert_string_equal(f->options.operand, "a.json");
    assert_int_equal(f->options.command, BWI_CHECK);
}

static void options_may_stand_before_the_command(void **state)
{
    fixture *f = *state;
    assert_int_equal(read_line(f, "--force -q check a.json"), BW_OK);
    assert_int_equal(f->options.command, BWI_CHECK);
    assert_non_null(f->options.value[BWI_OPT_FORCE]);
    assert_non_null(f->options.value[BWI_OPT_QUIET]);
    assert_null(f->options.value[BWI_OPT_JSON]);
}

static void a_dash_alone_is_an_operand(void **state)
{
    fixture *f = *state;
    assert_int_equal(read_line(f, "frame - --json -"), BW_OK);
    assert_string_equal(f->options.operand, "-");
    assert_string_equal(f->options.value[BWI_OPT_JSON], "-");
}

static void two_dashes_end_the_options(void **state)
{
    fixture *f = *state;
    assert_int_equal(read_line(f, "check -- -q"), BW_OK);
    assert_string_equal(f->options.operand, "-q");
    assert_null(f->options.value[BWI_OPT_QUIET]);
}

static void letters_may_share_a_dash(void **state)
{
    fixture *f = *state;
    assert_int_equal(read_line(f, "check -qh"), BW_OK);
    assert_non_null(f->options.value[BWI_OPT_QUIET]);
    assert_non_null(f->options.value[BWI_OPT_HELP]);
    assert_int_equal(read_line(f, "check a.json -qz"), BW_E_USAGE);
}

static void a_beginning_of_an_option_is_not_that_option(void **state)
{
    fixture *f = *state;
    assert_int_equal(read_line(f, "check a.json --forc"), BW_E_USAGE);
    assert_string_equal(f->d.items[0].hint, "did you mean --force?");
    assert_null(f->options.value[BWI_OPT_FORCE]);
}

static void every_fault_of_the_line_is_told(void **state)
{
    static const struct {
        const char *line, *id;
        size_t faults;
    } rows[] = {
        {"", "usage.command", 1},
        {"-q", "usage.command", 1},
        {"wreck a.json", "usage.command", 1},
        {"check", "usage.operand", 1},
        {"check %", "usage.operand", 1},
        {"check a b", "usage.operand", 1},
        {"check a b c", "usage.operand", 2},
        {"check a --wrong --json", "usage.option", 2},
        {"check a --json %", "usage.value", 1},
        {"check a --json=", "usage.value", 1},
        {"check a --force=1", "usage.no_value", 1},
        {"check a --json b --json c", "usage.twice", 1},
        {"frame a --durable", "usage.foreign", 1},
        {"check a --girth 3", "usage.foreign", 1},
        {"tree oak", "usage.operand", 1},
        {"frame a --units metric", "usage.foreign", 1},
        {"species --units feet", "usage.units", 1},
        {"species pine oak", "usage.operand", 1},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        fixture *f = *state;
        assert_int_equal(read_line(f, rows[i].line), BW_E_USAGE);
        assert_int_equal(f->d.errors, rows[i].faults);
        assert_string_equal(f->d.items[0].id, rows[i].id);
    }
}

static void help_excuses_the_rest_of_the_line(void **state)
{
    fixture *f = *state;
    assert_int_equal(read_line(f, "--help"), BW_OK);
    assert_int_equal(f->options.command, -1);
    assert_int_equal(read_line(f, "frame --wrong --help"), BW_OK);
    assert_int_equal(f->options.command, BWI_FRAME);
}

static void every_line_of_help_fits_80_columns(void **state)
{
    fixture *f = *state;
    for (int command = -1; command < BWI_COMMAND_COUNT; command++) {
        bw_text out = bw_text_new(f->arena);
        bwi_help(command, &out);
        bwi_help_short(&out);
        const char *text = bw_text_string(&out);
        assert_non_null(text);
        while (*text != '\0') {
            const size_t length = strcspn(text, "\n");
            if (length > 80) {
                print_error("too wide: %.*s\n", (int)length, text);
                fail();
            }
            text += length + 1;
        }
    }
}

static size_t count_words(bwi_option option)
{
    size_t n = 0;
    while (bwi_option_words(option)[n] != NULL) {
        n++;
    }
    return n;
}

/* The words of the table stand for enumerations and for the bases, in their order. */
static void words_of_options_are_those_of_the_library(void **state)
{
    (void)state;
    const char *const *bases = bwi_option_words(BWI_OPT_BASIS);
    size_t n = 0;
    for (; bw_basis_at(n) != NULL; n++) {
        assert_string_equal(bases[n], bw_basis_at(n)->id);
    }
    assert_null(bases[n]);
    assert_int_equal(count_words(BWI_OPT_USE), BW_USE_COUNT);
    assert_int_equal(count_words(BWI_OPT_BAYS), BW_DUTY_BAYS);
    assert_int_equal(count_words(BWI_OPT_CLASS), BW_OPEN_GROWN + 1);
    assert_int_equal(count_words(BWI_OPT_UNITS), BW_METRIC + 1);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, start, stop)
    const struct CMUnitTest tests[] = {
        TEST(a_value_comes_behind_a_blank_or_an_equals_sign),
        TEST(options_may_stand_before_the_command),
        TEST(a_dash_alone_is_an_operand),
        TEST(two_dashes_end_the_options),
        TEST(letters_may_share_a_dash),
        TEST(a_beginning_of_an_option_is_not_that_option),
        TEST(every_fault_of_the_line_is_told),
        TEST(help_excuses_the_rest_of_the_line),
        TEST(every_line_of_help_fits_80_columns),
        TEST(words_of_options_are_those_of_the_library),
    };
#undef TEST
    return cmocka_run_group_tests(tests, NULL, NULL);
}
