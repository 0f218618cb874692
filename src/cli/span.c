/* span.c - the command span: a log in, its longest span out. */
#include "commands.h"
#include "duty.h"
#include "output.h"

#include "bolewright/report.h"

enum { EXIT_NOT_WITHIN = 1 };

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, output;
    bw_species_table species;
    bw_log log;
    bw_span_question question;
    bw_span_answer answer;
} span_run;

static bw_status read_question(span_run *run)
{
    bw_use use;
    bwi_need_species(run->options, &run->output);
    run->log = bwi_log_read(run->options, &run->output);
    run->log.grade = bwi_grade_read(run->options, &run->output);
    run->question.log = &run->log;
    bwi_duty_read(run->options, BW_USE_RIDERS, &use, &run->question.duty, &run->output);
    return run->output.errors > 0 ? BW_E_USAGE : BW_OK;
}

static bw_status find(span_run *run)
{
    BW_TRY(read_question(run));
    BW_TRY(bwi_output_allowed(run->options, "-", &run->output));
    BW_TRY(bwi_wood_read(run->arena, run->options, &run->species, &run->log.species,
                         &run->tables, &run->output));
    return bw_span_longest(run->arena, &run->question, &run->answer, &run->output);
}

static bw_status report(span_run *run)
{
    bw_text text = bw_text_new(run->arena), json = bw_text_new(run->arena);
    bw_report_span_text(&run->question, &run->answer, &text);
    bw_report_span_json(&run->question, &run->answer, run->species.version, &json);
    return bwi_output_report(run->options, &text, &json, &run->output);
}

int bwi_span_run(bw_arena *arena, const bwi_options *options)
{
    span_run run = {.arena = arena,
                    .options = options,
                    .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
                    .output = bw_diags_new(arena, NULL)};
    bw_status status = find(&run);
    if (status == BW_OK) {
        status = report(&run);
    }
    const bw_diags *const all[] = {&run.tables, &run.output, NULL};
    const int exit_status = bwi_output_finish(status, all);
    return status == BW_OK && !(run.answer.span > 0.0) ? EXIT_NOT_WITHIN : exit_status;
}
