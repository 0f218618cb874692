/* main.c - the program: one arena, one command, one exit status. */
#include "commands.h"
#include "output.h"

#include <signal.h>
#include <stdio.h>

static int (*const commands[BWI_COMMAND_COUNT])(bw_arena *, const bwi_options *) = {
    [BWI_CHECK] = bwi_check_run,
    [BWI_REPORT] = bwi_report_run,
    [BWI_FRAME] = bwi_frame_run,
    [BWI_SPECIES] = bwi_species_run,
    [BWI_TREE] = bwi_tree_run,
    [BWI_INSPECT] = bwi_inspect_run,
    [BWI_SPAN] = bwi_span_run,
    [BWI_LOG] = bwi_log_run,
    [BWI_SPACING] = bwi_spacing_run,
    [BWI_CARD] = bwi_card_run,
    [BWI_PAGE] = bwi_page_run,
    [BWI_MATCH] = bwi_match_run,
    [BWI_NEW] = bwi_new_run,
    [BWI_SCHEMA] = bwi_schema_run,
    [BWI_COMPLETION] = bwi_completion_run,
    [BWI_MAN] = bwi_man_run,
};

static int print_help(bw_arena *arena, const bwi_options *options)
{
    bw_diags d = bw_diags_new(arena, NULL);
    bw_text text = bw_text_new(arena);
    if (options->value[BWI_OPT_HELP] != NULL) {
        bwi_help(options->command, &text);
    } else {
        bw_text_print(&text, "bolewright %s\n", bw_version);
    }
    const bw_diags *const all[] = {&d, NULL};
    const bw_status status = bwi_output_print(&text, &d);
    return bwi_output_finish(status, all);
}

static int run_bare(bw_arena *arena)
{
    bw_text text = bw_text_new(arena);
    bwi_help_short(&text);
    (void)fputs(text.failed ? bw_status_text(BW_E_MEMORY) : text.data, stderr);
    return bw_status_exit(BW_E_USAGE);
}

static int run(bw_arena *arena, int argc, char **argv)
{
    if (argc < 2) {
        return run_bare(arena);
    }
    bw_diags d = bw_diags_new(arena, NULL);
    bwi_options options;
    const bw_status status = bwi_options_read(argc, argv, &options, &d);
    if (status != BW_OK) {
        const bw_diags *const all[] = {&d, NULL};
        return bwi_output_finish(status, all);
    }
    if (options.value[BWI_OPT_HELP] != NULL || options.value[BWI_OPT_VERSION] != NULL) {
        return print_help(arena, &options);
    }
    return commands[options.command](arena, &options);
}

int main(int argc, char **argv)
{
    /* a closed pipe must come back as a failed write, with its own exit status */
    (void)signal(SIGPIPE, SIG_IGN);
    (void)signal(SIGXFSZ, SIG_IGN); /* and so must a file that may not grow */
    bw_arena *arena = bw_arena_new();
    if (arena == NULL) {
        (void)fprintf(stderr, "bolewright: %s\n", bw_status_text(BW_E_MEMORY));
        return bw_status_exit(BW_E_MEMORY);
    }
    const int exit_status = run(arena, argc, argv);
    bw_arena_free(arena);
    return exit_status;
}
