/* questions.c - commands that the page may ask: they run as on the command line, and what
 * they print is caught. No option that names a file is passed on; the two texts of a
 * match come with the request. */
#include "commands.h"
#include "output.h"

#include <string.h>

typedef struct {
    int command; /* a bwi_command */
    int (*run)(bw_arena *arena, const bwi_options *options);
    bwi_option whole;   /* given "-", prints more than the text; COUNT: nothing does */
    const char *tables; /* folder given to the page's own command line, or null */
} question;

static const question known[] = {
    {BWI_TREE, bwi_tree_run, BWI_OPT_JSON, NULL},
    {BWI_SPAN, bwi_span_run, BWI_OPTION_COUNT, NULL},
    {BWI_SPACING, bwi_spacing_run, BWI_OPTION_COUNT, NULL},
    {BWI_LOG, bwi_log_run, BWI_OPTION_COUNT, NULL},
    {BWI_CARD, bwi_card_run, BWI_OPT_OUTPUT, NULL},
    {BWI_MATCH, bwi_match_run, BWI_OPT_OUTPUT, NULL},
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
static int line_of(bw_arena *arena, const question *q, const bw_page_request *request,
                   char **line)
{
    int n = 0;
    line[n++] = bw_arena_copy(arena, "bolewright");
    line[n++] = bw_arena_copy(arena, bwi_command_name((int)q->command));
    for (size_t i = 0; i < request->n_arguments; i++) {
        const bw_page_argument *a = &request->arguments[i];
        if (is_open(a)) {
            line[n++] = bw_arena_print(arena, "--%s=%s", a->name, a->value);
        }
    }
    for (int i = 0; i < n; i++) {
        if (line[i] == NULL) {
            return 0;
        }
    }
    return n;
}

/* In place of the text: the card as a page, the case with its logs, the tree as data. */
static bool wants_whole(const bw_page_request *request)
{
    for (size_t i = 0; i < request->n_arguments; i++) {
        if (strcmp(request->arguments[i].name, "as") == 0 &&
            strcmp(request->arguments[i].value, "file") == 0) {
            return true;
        }
    }
    return false;
}

/* The body of the request as the two files of a match. */
static bw_status pair_take(bw_arena *arena, const bw_page_request *request,
                           bwi_options *options, bwi_given given[3], bw_diags *d)
{
    char *deck = bw_arena_copy(arena, request->body);
    char *cut = deck == NULL ? NULL : strchr(deck, '\x1E');
    if (cut == NULL) {
        bw_diags_error(d, "page.pair", NULL, NULL, "the pile of logs is missing");
        return deck == NULL ? BW_E_MEMORY : BW_E_INPUT;
    }
    *cut = '\0';
    options->operand = "the case";
    options->second = "the pile";
    given[0] = (bwi_given){options->operand, deck};
    given[1] = (bwi_given){options->second, cut + 1};
    given[2] = (bwi_given){NULL, NULL};
    return BW_OK;
}

static bw_status answer(bw_arena *arena, const void *context,
                        const bw_page_request *request, bw_text *out, bw_diags *d)
{
    const question *q = context;
    const bool is_match = q->command == BWI_MATCH;
    bwi_given given[3] = {{NULL, NULL}};
    bwi_options options = {.command = q->command};
    char **line = BW_NEW(arena, char *, request->n_arguments + 2);
    const int n = line == NULL ? 0 : line_of(arena, q, request, line);
    if (n == 0) {
        return BW_E_MEMORY;
    }
    BW_TRY(is_match ? pair_take(arena, request, &options, given, d)
                    : bwi_options_read(n, line, &options, d));
    options.value[BWI_OPT_TABLES] = q->tables;
    if (q->whole != BWI_OPTION_COUNT && wants_whole(request)) {
        options.value[q->whole] = "-"; /* printed, and caught */
    }
    bwi_output_capture(out, d);
    bwi_output_give(given);
    (void)q->run(arena, &options); /* its exit status repeats what it said */
    bwi_output_give(NULL);
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
