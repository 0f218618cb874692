/* questions.c - commands that the page may ask: they run as on the command line, and what
 * they print is caught. Only those that need no file, with options that name none. */
#include "commands.h"
#include "output.h"

#include <string.h>

typedef struct {
    bwi_command command;
    int (*run)(bw_arena *arena, const bwi_options *options);
    const char *tables; /* folder given to the page's own command line, or null */
} question;

static const question known[] = {
    {BWI_TREE, bwi_tree_run, NULL},       {BWI_SPAN, bwi_span_run, NULL},
    {BWI_SPACING, bwi_spacing_run, NULL}, {BWI_LOG, bwi_log_run, NULL},
    {BWI_CARD, bwi_card_run, NULL},
};
enum { KNOWN = sizeof known / sizeof known[0] };

/* These name files, steer what is printed where, or take minutes. */
static bool is_closed(bwi_option option)
{
    static const bwi_option closed[] = {BWI_OPT_OUTPUT, BWI_OPT_CSV,     BWI_OPT_JSON,
                                        BWI_OPT_TABLES, BWI_OPT_FORCE,   BWI_OPT_QUIET,
                                        BWI_OPT_HELP,   BWI_OPT_VERSION, BWI_OPT_ALL};
    for (size_t i = 0; i < sizeof closed / sizeof closed[0]; i++) {
        if (closed[i] == option) {
            return true;
        }
    }
    return false;
}

static bool is_open(const bw_page_argument *argument)
{
    for (int o = 0; argument->value[0] != '\0' && o < BWI_OPTION_COUNT; o++) {
        if (strcmp(argument->name, bwi_option_name((bwi_option)o)) == 0) {
            return !is_closed((bwi_option)o);
        }
    }
    return false;
}

/* Arguments as a command line, so that they are read and refused as one; how many words,
 * 0 without memory. */
static int line_of(bw_arena *arena, const question *q, const bw_page_argument *arguments,
                   size_t n_arguments, char **line)
{
    int n = 0;
    line[n++] = bw_arena_copy(arena, "bolewright");
    line[n++] = bw_arena_copy(arena, bwi_command_name((int)q->command));
    for (size_t i = 0; i < n_arguments; i++) {
        if (is_open(&arguments[i])) {
            line[n++] =
                bw_arena_print(arena, "--%s=%s", arguments[i].name, arguments[i].value);
        }
    }
    for (int i = 0; i < n; i++) {
        if (line[i] == NULL) {
            return 0;
        }
    }
    return n;
}

/* The card as a page to print, in place of its text. */
static bool wants_page(const bw_page_argument *arguments, size_t n_arguments)
{
    for (size_t i = 0; i < n_arguments; i++) {
        if (strcmp(arguments[i].name, "as") == 0 &&
            strcmp(arguments[i].value, "page") == 0) {
            return true;
        }
    }
    return false;
}

static bw_status answer(bw_arena *arena, const void *context,
                        const bw_page_argument *arguments, size_t n_arguments,
                        bw_text *out, bw_diags *d)
{
    const question *q = context;
    bwi_options options;
    char **line = BW_NEW(arena, char *, n_arguments + 2);
    const int n = line == NULL ? 0 : line_of(arena, q, arguments, n_arguments, line);
    if (n == 0) {
        return BW_E_MEMORY;
    }
    BW_TRY(bwi_options_read(n, line, &options, d));
    options.value[BWI_OPT_TABLES] = q->tables;
    if (q->command == BWI_CARD && wants_page(arguments, n_arguments)) {
        options.value[BWI_OPT_OUTPUT] = "-"; /* printed, and caught */
    }
    bwi_output_capture(out, d);
    (void)q->run(arena, &options); /* its exit status repeats what it said */
    bwi_output_capture(NULL, NULL);
    return d->errors > 0 ? BW_E_INPUT : out->failed || d->failed ? BW_E_MEMORY : BW_OK;
}

const bw_page_question *bwi_page_questions(bw_arena *arena, const char *tables,
                                           size_t *count)
{
    bw_page_question *questions = BW_NEW(arena, bw_page_question, KNOWN);
    question *own = BW_NEW(arena, question, KNOWN);
    if (questions == NULL || own == NULL) {
        return NULL;
    }
    for (size_t i = 0; i < KNOWN; i++) {
        own[i] = known[i];
        own[i].tables = tables;
        questions[i] =
            (bw_page_question){bwi_command_name((int)known[i].command), &own[i], answer};
    }
    *count = KNOWN;
    return questions;
}
