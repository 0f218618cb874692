/* inspect.c - the command inspect: a case and what was measured since, and what that
 * leaves of the deck. */
#include "case_run.h"
#include "commands.h"
#include "output.h"
#include "watch.h"

#include "bolewright/report.h"

typedef struct {
    bwi_case_run of;
    bw_diags found; /* in the file of measurements */
    bw_inspections inspections;
    bw_aged_deck aged;
} inspect_run;

static bw_status read_and_age(inspect_run *run)
{
    const bwi_options *options = run->of.options;
    const char *measured = NULL;
    BW_TRY(bwi_output_allowed(options, options->operand, &run->of.output));
    BW_TRY(bwi_output_path_allowed(options->value[BWI_OPT_JSON],
                                   options->value[BWI_OPT_FORCE] != NULL, options->second,
                                   &run->of.output));
    BW_TRY(bwi_case_run_read(&run->of, NULL));
    BW_TRY(bw_input_read_file(run->of.arena, options->second, &measured, &run->found));
    BW_TRY(bw_input_inspections(run->of.arena, measured, &run->of.the_case,
                                &run->inspections, &run->found));
    BW_TRY(bw_deck_age(run->of.arena, &run->of.the_case, &run->inspections, &run->aged,
                       &run->of.deck, &run->found));
    return run->found.errors > 0 ? BW_E_INPUT : bwi_case_run_sound(&run->of);
}

static bw_status report(inspect_run *run)
{
    bw_text text = bw_text_new(run->of.arena), json = bw_text_new(run->of.arena);
    bw_report_age_text(&run->aged, &text);
    if (run->of.options->value[BWI_OPT_JSON] != NULL) {
        bw_report_age_json(&run->aged, &json);
    }
    return bwi_output_report(run->of.options, &text, &json, &run->of.output);
}

int bwi_inspect_run(bw_arena *arena, const bwi_options *options)
{
    inspect_run run = {
        .of = bwi_case_run_start(arena, options),
        .found = bw_diags_new(arena, bwi_output_name(options->second)),
    };
    bwi_wait_begin("checking");
    bw_status status = read_and_age(&run);
    bwi_wait_end();
    if (status == BW_OK) {
        status = report(&run);
    }
    const bw_diags *const all[] = {&run.of.tables, &run.of.deck, &run.found,
                                   &run.of.output, NULL};
    return bwi_output_answer(status, all,
                             status == BW_OK && run.aged.verdict == BW_WITHIN);
}
