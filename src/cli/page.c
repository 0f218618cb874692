/* page.c - the command page: serves the page until it is interrupted. */
#include "commands.h"
#include "output.h"

#include "bolewright/input.h"
#include "bolewright/page.h"

#include <stdlib.h>
#include <string.h>

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, deck, output;
    bw_species_table species;
    bw_page page;
} page_run;

static bw_status port_read(page_run *run, int *port)
{
    enum { highest = 65535 };
    const char *text = run->options->value[BWI_OPT_PORT];
    *port = BW_PAGE_PORT;
    if (text == NULL) {
        return BW_OK;
    }
    const size_t digits = strspn(text, "0123456789");
    const long number = digits > 0 && digits <= 5 ? strtol(text, NULL, 10) : -1;
    if (text[digits] != '\0' || number < 0 || number > highest) {
        bw_diags_error(&run->output, "usage.port", NULL,
                       "a number from 1 to 65535; 0 takes any free one", "--port is %s",
                       text);
        return BW_E_USAGE;
    }
    *port = (int)number;
    return BW_OK;
}

/* Faults of the case are shown on the page, beside what caused them. */
static bw_status case_read(page_run *run)
{
    const char *path = run->options->operand;
    if (path == NULL) {
        return BW_OK;
    }
    BW_TRY(bw_input_read_file(run->arena, path, &run->page.case_text, &run->deck));
    run->page.case_name =
        bwi_output_is_stream(path) ? "case.json" : bwi_output_short_name(path);
    return BW_OK;
}

static void say(void *context, const char *address)
{
    page_run *run = context;
    bw_text line = bw_text_new(run->arena);
    bw_text_print(&line, "the page is at %s - open it in a browser; Ctrl-C ends it\n",
                  address != NULL ? address : "?");
    (void)bwi_output_print(&line, &run->output);
}

static bw_status serve(page_run *run)
{
    int port = 0;
    BW_TRY(port_read(run, &port));
    BW_TRY(bw_input_species(run->arena, run->options->value[BWI_OPT_TABLES],
                            &run->species, &run->tables));
    BW_TRY(case_read(run));
    run->page.species = &run->species;
    run->page.threads = bw_processors();
    run->page.questions = bwi_page_questions(
        run->arena, run->options->value[BWI_OPT_TABLES], &run->page.n_questions);
    return run->page.questions == NULL
               ? BW_E_MEMORY
               : bw_page_serve(&run->page, port, say, run, &run->output);
}

int bwi_page_run(bw_arena *arena, const bwi_options *options)
{
    page_run run = {
        .arena = arena,
        .options = options,
        .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
        .deck = bw_diags_new(
            arena, options->operand == NULL ? NULL : bwi_output_name(options->operand)),
        .output = bw_diags_new(arena, NULL),
    };
    const bw_status status = serve(&run);
    const bw_diags *const all[] = {&run.tables, &run.deck, &run.output, NULL};
    return bwi_output_finish(status, all);
}
