/* match.c - the command match: a case and a pile of logs in, who takes which log out. */
#include "commands.h"
#include "output.h"
#include "watch.h"

#include "bolewright/input.h"
#include "bolewright/report.h"
#include "bolewright/sizing.h"

#include <stdio.h>
#include <string.h>

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, deck, pile, output;
    bw_species_table species;
    const char *case_text;
    bw_case the_case;
    bw_log_list logs;
    bw_match match;
    bw_match_report report;
} match_run;

/* ---- the files ---- */

static bw_status path_allowed(match_run *run, bwi_option option)
{
    const bwi_options *o = run->options;
    const char *path = o->value[option];
    const bool force = o->value[BWI_OPT_FORCE] != NULL;
    BW_TRY(bwi_output_path_allowed(path, force, o->operand, &run->output));
    return bwi_output_path_allowed(path, force, o->second, &run->output);
}

static bw_status outputs_allowed(match_run *run)
{
    static const bwi_option all[] = {BWI_OPT_OUTPUT, BWI_OPT_JSON, BWI_OPT_CSV};
    const bwi_options *o = run->options;
    if (strcmp(o->operand, "-") == 0 && strcmp(o->second, "-") == 0) {
        bw_diags_error(&run->output, "usage.operand", NULL, "name a file for one of them",
                       "the case and the pile cannot both come from standard input");
        return BW_E_USAGE;
    }
    for (size_t k = 0; k < 3; k++) {
        const char *path = o->value[all[k]];
        for (size_t j = 0; path != NULL && j < k; j++) {
            if (o->value[all[j]] != NULL && strcmp(path, o->value[all[j]]) == 0) {
                bw_diags_error(&run->output, "usage.output", NULL, "name two files",
                               "two results cannot both go to %s", path);
                return BW_E_USAGE;
            }
        }
        BW_TRY(path_allowed(run, all[k]));
    }
    return BW_OK;
}

static bw_status read_all(match_run *run)
{
    const bwi_options *o = run->options;
    const char *pile = NULL;
    BW_TRY(outputs_allowed(run));
    BW_TRY(bw_input_species(run->arena, o->value[BWI_OPT_TABLES], &run->species,
                            &run->tables));
    BW_TRY(bwi_output_read(run->arena, o->operand, &run->case_text, &run->deck));
    BW_TRY(bwi_output_read(run->arena, o->second, &pile, &run->pile));
    const bw_status status = bw_input_case(run->arena, run->case_text, &run->species,
                                           &run->the_case, &run->deck);
    if (run->the_case.basis == NULL || status == BW_E_MEMORY) {
        return status;
    }
    /* both files are read, so that all faults come out in one run */
    const bw_status logs =
        bw_input_logs(run->arena, pile, &run->the_case, &run->logs, &run->pile);
    return status != BW_OK ? status : logs;
}

/* ---- the report ---- */

static const char *lies(const match_run *run, size_t k)
{
    const bw_match_place *p = &run->match.places[k];
    const bw_case *deck = &run->match.deck;
    if (strcmp(p->role, "stringer") == 0) {
        const bw_stringer *s = &deck->stringers[k];
        return bw_arena_print(run->arena, "butt at %s",
                              deck->bents[p->butt_at_to ? s->to : s->from].name);
    }
    if (strcmp(p->role, "cap") == 0 || strcmp(p->role, "sill") == 0) {
        return "butt left";
    }
    if (strcmp(p->role, "post") != 0) {
        return "";
    }
    const bw_bent *bent = &deck->bents[p->bent];
    for (size_t j = 0; j < bent->n_posts; j++) {
        if (bent->posts[j].row == p->row) {
            return bent->posts[j].tip_down ? "butt up" : "butt down";
        }
    }
    return "";
}

static bw_status lines_make(match_run *run, bw_match_line *lines)
{
    for (size_t k = 0; k < run->match.n_places; k++) {
        const bw_match_place *p = &run->match.places[k];
        const bw_log *piece = &p->piece;
        const double own = piece->length > 0.0 ? piece->length : p->length;
        lines[k] = (bw_match_line){
            .member = bw_arena_print(run->arena, "%s %s", p->role, p->name),
            .role = p->role,
            .log = p->log >= 0 ? piece->name : NULL,
            .species = piece->species->common,
            .lies = lies(run, k),
            .length = p->length,
            .butt = bw_log_diameter(piece, own, 0.0),
            .tip = bw_log_diameter(piece, own, p->length),
            .utilisation = p->utilisation,
            .check = p->governing != NULL ? p->governing->id : NULL,
            .passes = p->piece_passes};
        if (lines[k].member == NULL || lines[k].lies == NULL) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}

static size_t left_make(const match_run *run, bw_match_left *left)
{
    static const char *const why[] = {
        [BW_LOG_SPARE] = "not needed",
        [BW_LOG_SHORT] = "too short for every member",
        [BW_LOG_WEAK] = "no place: too weak, or it would rot in the ground",
        [BW_LOG_UNSOUND] = "its answers or its species leave no strength to count on"};
    size_t n = 0;
    for (size_t j = 0; j < run->logs.count; j++) {
        const bw_log *log = &run->logs.logs[j];
        if (run->match.fates[j] != BW_LOG_USED) {
            left[n++] = (bw_match_left){log->name,         log->species->common,
                                        log->length,       log->butt_diameter,
                                        log->tip_diameter, why[run->match.fates[j]],
                                        run->logs.notes[j]};
        }
    }
    return n;
}

static bw_status report_make(match_run *run)
{
    const bw_match *m = &run->match;
    bw_match_line *lines = BW_NEW(run->arena, bw_match_line, m->n_places);
    bw_match_left *left = BW_NEW(run->arena, bw_match_left, run->logs.count);
    if (lines == NULL || left == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(lines_make(run, lines));
    run->report = (bw_match_report){.assessment = &m->assessment,
                                    .pile = bwi_output_short_name(run->options->second),
                                    .n_pile = run->logs.count,
                                    .lines = lines,
                                    .n_lines = m->n_places,
                                    .n_missing = m->n_missing,
                                    .left = left,
                                    .n_left = left_make(run, left),
                                    .target = m->target,
                                    .wood = m->wood,
                                    .uneven = m->uneven,
                                    .weight = bw_match_level_weight,
                                    .assessments = m->assessments,
                                    .ruled_out = m->ruled_out};
    return BW_OK;
}

/* ---- the case with the logs in it ---- */

/* What is written is read and checked again: its girths are rounded. */
static bw_status written_checked(match_run *run, const bw_text *text)
{
    bw_case again;
    bw_assessment result;
    bw_diags d = bw_diags_new(run->arena, "the case with the logs");
    BW_TRY(bw_text_string(text) == NULL ? BW_E_MEMORY : BW_OK);
    bw_status status =
        bw_input_case(run->arena, bw_text_string(text), &run->species, &again, &d);
    status = status == BW_OK ? bw_deck_assess(run->arena, &again, &result, &d) : status;
    if (status == BW_E_MEMORY) {
        return status;
    }
    const bw_verdict wanted = bw_report_verdict(&run->match.assessment);
    if (status != BW_OK || bw_report_verdict(&result) != wanted) {
        bw_diags_error(&run->output, "match.written", NULL,
                       "leave out -o, and put the logs into the case by hand",
                       "%s is not written: read again, its verdict differs",
                       run->options->value[BWI_OPT_OUTPUT]);
        return BW_E_INTERNAL;
    }
    return BW_OK;
}

static bw_status write_case(match_run *run)
{
    const char *path = run->options->value[BWI_OPT_OUTPUT];
    bw_text deck = bw_text_new(run->arena);
    if (path == NULL) {
        return BW_OK;
    }
    BW_TRY(bw_input_case_put(run->arena, run->case_text, &run->match.deck, &deck,
                             &run->deck));
    BW_TRY(written_checked(run, &deck));
    return bwi_output_to(path, &deck, run->options->value[BWI_OPT_FORCE] != NULL,
                         &run->output);
}

static bw_status write_all(match_run *run)
{
    const bwi_options *o = run->options;
    const char *path = o->value[BWI_OPT_CSV];
    bw_text text = bw_text_new(run->arena), json = bw_text_new(run->arena),
            csv = bw_text_new(run->arena);
    bw_report_match_text(&run->report, &text);
    bw_report_match_json(&run->report, &json);
    bw_report_match_csv(&run->report, &csv);
    BW_TRY(write_case(run));
    BW_TRY(bwi_output_to(path, &csv, o->value[BWI_OPT_FORCE] != NULL, &run->output));
    if (bwi_output_is_stream(o->value[BWI_OPT_OUTPUT]) || bwi_output_is_stream(path)) {
        return bwi_output_to(o->value[BWI_OPT_JSON], &json,
                             o->value[BWI_OPT_FORCE] != NULL, &run->output);
    }
    return bwi_output_report(o, &text, &json, &run->output);
}

/* ---- the run ---- */

static bw_status find(match_run *run)
{
    BW_TRY(read_all(run));
    if (run->logs.count == 0) {
        bw_diags_error(&run->pile, "match.empty", NULL, "give every log a line",
                       "there is no log in the pile");
        return BW_E_INPUT;
    }
    const bw_match_question question = {
        .deck = &run->the_case, .pile = run->logs.logs, .n_pile = run->logs.count};
    bwi_wait_begin("matching");
    const bw_status status =
        bw_match_pile(run->arena, &question, &run->match, &run->deck);
    bwi_wait_end();
    BW_TRY(status);
    return report_make(run);
}

int bwi_match_run(bw_arena *arena, const bwi_options *options)
{
    match_run run = {.arena = arena,
                     .options = options,
                     .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
                     .deck = bw_diags_new(arena, bwi_output_name(options->operand)),
                     .pile = bw_diags_new(arena, bwi_output_name(options->second)),
                     .output = bw_diags_new(arena, NULL)};
    bw_status status = find(&run);
    if (status == BW_OK) {
        status = write_all(&run);
    }
    const bw_diags *const all[] = {&run.tables, &run.deck, &run.pile, &run.output, NULL};
    const bool whole = status == BW_OK && run.match.n_missing == 0 &&
                       bw_report_verdict(&run.match.assessment) == BW_WITHIN;
    return bwi_output_answer(status, all, whole);
}
