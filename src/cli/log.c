/* log.c - the command log: a span in, the smallest log and the tree to look for out. */
#include "commands.h"
#include "duty.h"
#include "output.h"
#include "values.h"

#include "bolewright/report.h"

enum { EXIT_NOT_WITHIN = 1 };

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, output;
    bw_species_table species;
    bw_log_question question;
    bw_log_answer answer;
} log_run;

static bw_status read_question(log_run *run)
{
    static const char *const classes[] = {"forest", "open"};
    const bwi_value span = {BWI_OPT_SPAN, BW_LENGTH, 0.3, 12.0};
    const bwi_value height = {BWI_OPT_HEIGHT, BW_LENGTH, 2.5, 120.0};
    const bw_units units = bwi_units_read(run->options);
    bw_use use;
    bwi_need_species(run->options, &run->output);
    if (run->options->value[BWI_OPT_SPAN] == NULL) {
        bw_diags_error(&run->output, "usage.span", NULL, "--span \"8 ft\"",
                       "log needs --span");
    }
    bwi_value_read(run->options, &span, units, &run->question.span, &run->output);
    bwi_value_read(run->options, &height, units, &run->question.height, &run->output);
    const int grown =
        bwi_word_read(run->options, BWI_OPT_CLASS, classes, 2, 0, &run->output);
    run->question.grown = grown == 1 ? BW_OPEN_GROWN : BW_FOREST_GROWN;
    run->question.grade = bwi_grade_read(run->options, &run->output);
    bwi_duty_read(run->options, BW_USE_RIDERS, &use, &run->question.duty, &run->output);
    return run->output.errors > 0 ? BW_E_USAGE : BW_OK;
}

static bw_status find(log_run *run)
{
    BW_TRY(read_question(run));
    BW_TRY(bwi_output_allowed(run->options, "-", &run->output));
    BW_TRY(bwi_wood_read(run->arena, run->options, &run->species, &run->question.species,
                         &run->tables, &run->output));
    return bw_log_smallest(run->arena, &run->question, &run->answer, &run->output);
}

static bw_status report(log_run *run)
{
    bw_text text = bw_text_new(run->arena), json = bw_text_new(run->arena);
    bw_report_log_text(&run->question, &run->answer, &text);
    bw_report_log_json(&run->question, &run->answer, run->species.version, &json);
    return bwi_output_report(run->options, &text, &json, &run->output);
}

int bwi_log_run(bw_arena *arena, const bwi_options *options)
{
    log_run run = {.arena = arena,
                   .options = options,
                   .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
                   .output = bw_diags_new(arena, NULL)};
    bw_status status = find(&run);
    if (status == BW_OK) {
        status = report(&run);
    }
    const bw_diags *const all[] = {&run.tables, &run.output, NULL};
    const int exit_status = bwi_output_finish(status, all);
    return status == BW_OK && !run.answer.found ? EXIT_NOT_WITHIN : exit_status;
}
