/* check.c - the command check: a case file in, a report and a verdict out. */
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
    bw_diags tables, deck, output; /* of three different files */
    bw_species_table species;
    bw_case the_case;
    bw_assessment assessment;
    bw_verdict verdict;
} check_run;

static bw_status read_and_assess(check_run *run)
{
    const bwi_options *options = run->options;
    const char *text = NULL;
    BW_TRY(bwi_output_allowed(options, options->operand, &run->output));
    BW_TRY(bw_input_species(run->arena, options->value[BWI_OPT_TABLES], &run->species,
                            &run->tables));
    BW_TRY(bw_input_read_file(run->arena, options->operand, &text, &run->deck));
    BW_TRY(bw_input_case(run->arena, text, &run->species, &run->the_case, &run->deck));
    BW_TRY(bw_deck_assess(run->arena, &run->the_case, &run->assessment, &run->deck));
    BW_TRY(bw_people_count(run->arena, &run->assessment, &run->deck));
    /* nothing recorded as an error may end in a verdict, whatever the layer below
     * returned */
    return run->deck.errors + run->tables.errors > 0 ? BW_E_INPUT : BW_OK;
}

static bw_status report(check_run *run)
{
    bw_text text = bw_text_new(run->arena), json = bw_text_new(run->arena);
    bw_report_text(&run->assessment, &text);
    if (run->options->value[BWI_OPT_JSON] != NULL) {
        bw_report_json(&run->assessment, &json);
    }
    run->verdict = bw_report_verdict(&run->assessment);
    return bwi_output_report(run->options, &text, &json, &run->output);
}

int bwi_check_run(bw_arena *arena, const bwi_options *options)
{
    check_run run = {
        .arena = arena,
        .options = options,
        .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
        .deck = bw_diags_new(arena, bwi_output_name(options->operand)),
        .output = bw_diags_new(arena, NULL),
        .verdict = BW_CANNOT_SAY,
    };
    bwi_wait_begin("checking");
    bw_status status = read_and_assess(&run);
    bwi_wait_end();
    if (status == BW_OK) {
        status = report(&run);
    }
    const bw_diags *const all[] = {&run.tables, &run.deck, &run.output, NULL};
    const int exit_status = bwi_output_finish(status, all);
    return status == BW_OK && run.verdict != BW_WITHIN ? EXIT_NOT_WITHIN : exit_status;
}
