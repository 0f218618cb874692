/* sizes.c - the commands span, spacing and log: a log in, how far it reaches or how far
 * apart posts may stand under it out; or a span in, and the smallest log out. */
#include "commands.h"
#include "duty.h"
#include "output.h"
#include "values.h"

#include "bolewright/report.h"

typedef struct size_run size_run;

/* What the commands do not share. */
typedef struct {
    void (*read)(size_run *run);
    const bw_species **(*wood)(size_run *run); /* where the species belongs */
    bw_status (*find)(size_run *run);
    void (*report)(const size_run *run, bw_text *text, bw_text *json);
    bool (*found)(const size_run *run);
} size_command;

struct size_run {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, output;
    bw_species_table species;
    bw_log log;
    bw_span_question reach; /* of span and spacing */
    bw_span_answer span;
    bw_spacing_answer spacing;
    bw_log_question thickness; /* of log */
    bw_log_answer smallest;
};

/* ---- a log in ---- */

static void reach_read(size_run *run)
{
    bw_use use;
    run->log = bwi_log_read(run->options, &run->output);
    run->log.grade = bwi_grade_read(run->options, &run->output);
    run->reach.log = &run->log;
    bwi_duty_read(run->options, BW_USE_RIDERS, &use, &run->reach.duty, &run->output);
}

static const bw_species **reach_wood(size_run *run)
{
    return &run->log.species;
}

static bw_status span_find(size_run *run)
{
    return bw_span_longest(run->arena, &run->reach, &run->span, &run->output);
}

static void span_report(const size_run *run, bw_text *text, bw_text *json)
{
    bw_report_span_text(&run->reach, &run->span, text);
    bw_report_span_json(&run->reach, &run->span, run->species.version, json);
}

static bool span_found(const size_run *run)
{
    return run->span.span > 0.0;
}

static bw_status spacing_find(size_run *run)
{
    return bw_spacing_widest(run->arena, &run->reach, &run->spacing, &run->output);
}

static void spacing_report(const size_run *run, bw_text *text, bw_text *json)
{
    bw_report_spacing_text(&run->reach, &run->spacing, text);
    bw_report_spacing_json(&run->reach, &run->spacing, run->species.version, json);
}

static bool spacing_found(const size_run *run)
{
    return run->spacing.single.span > 0.0;
}

/* ---- a span in ---- */

static void log_read(size_run *run)
{
    const bwi_value span = {BWI_OPT_SPAN, BW_LENGTH, 0.3, 12.0};
    const bwi_value height = {BWI_OPT_HEIGHT, BW_LENGTH, 2.5, 120.0};
    const bwi_options *o = run->options;
    const bw_units units = bwi_units_read(o);
    bw_log_question *q = &run->thickness;
    bw_use use;
    if (o->value[BWI_OPT_SPAN] == NULL) {
        bw_diags_error(&run->output, "usage.span", NULL, "--span \"8 ft\"",
                       "log needs --span");
    }
    bwi_value_read(o, &span, units, &q->span, &run->output);
    bwi_value_read(o, &height, units, &q->height, &run->output);
    const int grown = bwi_word_read(o, BWI_OPT_CLASS, 0, &run->output);
    q->grown = grown == 1 ? BW_OPEN_GROWN : BW_FOREST_GROWN;
    q->grade = bwi_grade_read(o, &run->output);
    bwi_duty_read(o, BW_USE_RIDERS, &use, &q->duty, &run->output);
}

static const bw_species **log_wood(size_run *run)
{
    return &run->thickness.species;
}

static bw_status log_find(size_run *run)
{
    return bw_log_smallest(run->arena, &run->thickness, &run->smallest, &run->output);
}

static void log_report(const size_run *run, bw_text *text, bw_text *json)
{
    bw_report_log_text(&run->thickness, &run->smallest, text);
    bw_report_log_json(&run->thickness, &run->smallest, run->species.version, json);
}

static bool log_found(const size_run *run)
{
    return run->smallest.found;
}

/* ---- the run ---- */

static bw_status find(const size_command *command, size_run *run)
{
    bwi_need_species(run->options, &run->output);
    command->read(run);
    BW_TRY(run->output.errors > 0 ? BW_E_USAGE : BW_OK);
    BW_TRY(bwi_output_allowed(run->options, "-", &run->output));
    BW_TRY(bwi_wood_read(run->arena, run->options, &run->species, command->wood(run),
                         &run->tables, &run->output));
    return command->find(run);
}

static bw_status report(const size_command *command, size_run *run)
{
    bw_text text = bw_text_new(run->arena), json = bw_text_new(run->arena);
    command->report(run, &text, &json);
    return bwi_output_report(run->options, &text, &json, &run->output);
}

static int size_run_do(const size_command *command, bw_arena *arena,
                       const bwi_options *options)
{
    size_run run = {.arena = arena,
                    .options = options,
                    .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
                    .output = bw_diags_new(arena, NULL)};
    bw_status status = find(command, &run);
    if (status == BW_OK) {
        status = report(command, &run);
    }
    const bw_diags *const all[] = {&run.tables, &run.output, NULL};
    return bwi_output_answer(status, all, status == BW_OK && command->found(&run));
}

int bwi_span_run(bw_arena *arena, const bwi_options *options)
{
    static const size_command span = {reach_read, reach_wood, span_find, span_report,
                                      span_found};
    return size_run_do(&span, arena, options);
}

int bwi_spacing_run(bw_arena *arena, const bwi_options *options)
{
    static const size_command spacing = {reach_read, reach_wood, spacing_find,
                                         spacing_report, spacing_found};
    return size_run_do(&spacing, arena, options);
}

int bwi_log_run(bw_arena *arena, const bwi_options *options)
{
    static const size_command log = {log_read, log_wood, log_find, log_report, log_found};
    return size_run_do(&log, arena, options);
}
