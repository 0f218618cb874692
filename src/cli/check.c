/* check.c - the command check: a case file in, a report and a verdict out. */
#include "case_run.h"
#include "commands.h"
#include "output.h"
#include "watch.h"

#include "bolewright/report.h"

static bw_status read_and_assess(bwi_case_run *run, bw_assessment *out)
{
    BW_TRY(bwi_output_allowed(run->options, run->options->operand, &run->output));
    return bwi_case_run_assess(run, out, NULL);
}

static bw_status report(bwi_case_run *run, const bw_assessment *assessment)
{
    bw_text text = bw_text_new(run->arena), json = bw_text_new(run->arena);
    bw_report_text(assessment, &text);
    if (run->options->value[BWI_OPT_JSON] != NULL) {
        bw_report_json(assessment, &json);
    }
    return bwi_output_report(run->options, &text, &json, &run->output);
}

int bwi_check_run(bw_arena *arena, const bwi_options *options)
{
    bwi_case_run run = bwi_case_run_start(arena, options);
    bw_assessment assessment;
    bw_verdict verdict = BW_CANNOT_SAY;
    bwi_wait_begin("checking");
    bw_status status = read_and_assess(&run, &assessment);
    bwi_wait_end();
    if (status == BW_OK) {
        status = report(&run, &assessment);
        verdict = bw_report_verdict(&assessment);
    }
    return bwi_case_run_end(&run, status, verdict == BW_WITHIN);
}
