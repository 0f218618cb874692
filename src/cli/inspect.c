/* inspect.c - the command inspect: a case and what was measured since, and what that
 * leaves of the deck. */
#include "commands.h"
#include "output.h"
#include "watch.h"

#include "bolewright/input.h"
#include "bolewright/report.h"
#include "bolewright/sizing.h"

enum { EXIT_NOT_WITHIN = 1 };

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, deck, found, output; /* of four different files */
    bw_species_table species;
    bw_case the_case;
    bw_inspections inspections;
    bw_aged_deck aged;
} inspect_run;

static bw_status read_and_age(inspect_run *run)
{
    const bwi_options *options = run->options;
    const char *text = NULL, *measured = NULL;
    BW_TRY(bwi_output_allowed(options, options->operand, &run->output));
    BW_TRY(bwi_output_path_allowed(options->value[BWI_OPT_JSON],
                                   options->value[BWI_OPT_FORCE] != NULL, options->second,
                                   &run->output));
    BW_TRY(bw_input_species(run->arena, options->value[BWI_OPT_TABLES], &run->species,
                            &run->tables));
    BW_TRY(bw_input_read_file(run->arena, options->operand, &text, &run->deck));
    BW_TRY(bw_input_case(run->arena, text, &run->species, &run->the_case, &run->deck));
    BW_TRY(bw_input_read_file(run->arena, options->second, &measured, &run->found));
    BW_TRY(bw_input_inspections(run->arena, measured, &run->the_case, &run->inspections,
                                &run->found));
    BW_TRY(bw_deck_age(run->arena, &run->the_case, &run->inspections, &run->aged,
                       &run->found));
    return run->deck.errors + run->tables.errors + run->found.errors > 0 ? BW_E_INPUT
                                                                         : BW_OK;
}

static bw_status report(inspect_run *run)
{
    bw_text text = bw_text_new(run->arena), json = bw_text_new(run->arena);
    bw_report_age_text(&run->aged, &text);
    if (run->options->value[BWI_OPT_JSON] != NULL) {
        bw_report_age_json(&run->aged, &json);
    }
    return bwi_output_report(run->options, &text, &json, &run->output);
}

int bwi_inspect_run(bw_arena *arena, const bwi_options *options)
{
    inspect_run run = {
        .arena = arena,
        .options = options,
        .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
        .deck = bw_diags_new(arena, bwi_output_name(options->operand)),
        .found = bw_diags_new(arena, bwi_output_name(options->second)),
        .output = bw_diags_new(arena, NULL),
    };
    bwi_wait_begin("checking");
    bw_status status = read_and_age(&run);
    bwi_wait_end();
    if (status == BW_OK) {
        status = report(&run);
    }
    const bw_diags *const all[] = {&run.tables, &run.deck, &run.found, &run.output, NULL};
    const int exit_status = bwi_output_finish(status, all);
    return status == BW_OK && run.aged.verdict != BW_WITHIN ? EXIT_NOT_WITHIN
                                                            : exit_status;
}
