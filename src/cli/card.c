/* card.c - the command card: a table of smallest logs for one species, or for all. */
#include "commands.h"
#include "duty.h"
#include "output.h"
#include "values.h"
#include "watch.h"

#include "bolewright/input.h"
#include "bolewright/report.h"

#include <string.h>

enum { SPANS = 12 };

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, output;
    bw_species_table species;
    bw_duty duties[BW_USE_COUNT];
    double spans[SPANS];
    bw_card_question common; /* all but the species */
    bw_card *cards;
    size_t n;
    bwi_watch watch;
} card_run;

/* ---- the command line ---- */

/* 5 ft to 16 ft, or 1.5 m to 4.8 m. */
static void spans_read(card_run *run, bw_units units)
{
    const double foot = 12.0 * bw_inch;
    double first = units == BW_IMPERIAL ? 5.0 * foot : 1.5;
    double step = units == BW_IMPERIAL ? foot : 0.3;
    const bwi_value from = {BWI_OPT_SPAN, BW_LENGTH, 0.3, 6.0};
    const bwi_value by = {BWI_OPT_STEP, BW_LENGTH, 0.05, 0.5};
    bwi_value_read(run->options, &from, units, &first, &run->output);
    bwi_value_read(run->options, &by, units, &step, &run->output);
    for (int k = 0; k < SPANS; k++) {
        run->spans[k] = first + k * step;
    }
}

static void duties_read(card_run *run, bw_units units)
{
    bw_use both;
    bw_duty common;
    bwi_duty_read(run->options, BW_USE_BOTH, &both, &common, &run->output);
    for (int use = 0; use < BW_USE_COUNT; use++) {
        bw_duty *duty = &run->duties[use];
        const bw_loads loads = bw_duty_default((bw_use)use, units).loads;
        *duty = common;
        duty->loads.mass = loads.mass > 0.0 ? common.loads.mass : 0.0;
        duty->loads.crowd = loads.crowd > 0.0 ? common.loads.crowd : 0.0;
    }
}

static bw_status read_question(card_run *run)
{
    const bwi_options *o = run->options;
    const bw_units units = bwi_units_read(o);
    const bool all = o->value[BWI_OPT_ALL] != NULL;
    if (all == (o->value[BWI_OPT_WOOD] != NULL)) {
        bw_diags_error(&run->output, "usage.species", NULL,
                       "\"bolewright species\" lists the species",
                       all ? "--all and --species say two things"
                           : "card needs --species (or --all)");
    }
    const bwi_value height = {BWI_OPT_HEIGHT, BW_LENGTH, 2.5, 120.0};
    bwi_value_read(o, &height, units, &run->common.height, &run->output);
    const int grown = bwi_word_read(o, BWI_OPT_CLASS, 0, &run->output);
    run->common.grown = grown == 1 ? BW_OPEN_GROWN : BW_FOREST_GROWN;
    run->common.grade = bwi_grade_read(o, &run->output);
    spans_read(run, units);
    duties_read(run, units);
    run->common.spans = run->spans;
    run->common.n_spans = SPANS;
    run->common.duties = run->duties;
    run->common.n_duties = BW_USE_COUNT;
    return run->output.errors > 0 ? BW_E_USAGE : BW_OK;
}

static bw_status outputs_allowed(card_run *run)
{
    const bwi_options *o = run->options;
    const char *page = o->value[BWI_OPT_OUTPUT], *csv = o->value[BWI_OPT_CSV];
    const bool force = o->value[BWI_OPT_FORCE] != NULL;
    if (page != NULL && csv != NULL && strcmp(csv, page) == 0) {
        bw_diags_error(&run->output, "usage.output", NULL, "name two files",
                       "--output and --csv are the same: %s", csv);
        return BW_E_USAGE;
    }
    BW_TRY(bwi_output_path_allowed(page, force, "-", &run->output));
    return bwi_output_path_allowed(csv, force, "-", &run->output);
}

/* ---- the run ---- */

static bw_status read_species(card_run *run, bw_card_question **questions)
{
    const bw_species *one = NULL;
    BW_TRY(bw_input_species(run->arena, run->options->value[BWI_OPT_TABLES],
                            &run->species, &run->tables));
    if (run->options->value[BWI_OPT_WOOD] != NULL) {
        BW_TRY(bwi_species_named(&run->species, run->options->value[BWI_OPT_WOOD], &one,
                                 &run->output));
    }
    run->n = one != NULL ? 1 : run->species.count;
    *questions = BW_NEW(run->arena, bw_card_question, run->n);
    run->cards = BW_NEW(run->arena, bw_card, run->n);
    if (*questions == NULL || run->cards == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < run->n; k++) {
        (*questions)[k] = run->common;
        (*questions)[k].species = one != NULL ? one : &run->species.items[k];
    }
    return BW_OK;
}

static bw_status find(card_run *run)
{
    bw_card_question *questions = NULL;
    BW_TRY(read_question(run));
    BW_TRY(outputs_allowed(run));
    BW_TRY(read_species(run, &questions));
    const bw_watch asked = {bwi_watch_go_on, &run->watch};
    const bw_status status =
        bw_cards_make(run->arena, questions, run->n, bw_processors(), &asked, run->cards);
    bwi_watch_wipe(&run->watch);
    return status;
}

static bw_status write_text(card_run *run)
{
    bw_text text = bw_text_new(run->arena);
    for (size_t k = 0; k < run->n; k++) {
        bw_text_add(&text, k == 0 ? "" : "\n");
        bw_report_card_text(&run->cards[k], &text);
    }
    return run->options->value[BWI_OPT_QUIET] != NULL
               ? BW_OK
               : bwi_output_print(&text, &run->output);
}

static bw_status write_all(card_run *run)
{
    const bwi_options *o = run->options;
    const char *page = o->value[BWI_OPT_OUTPUT], *csv = o->value[BWI_OPT_CSV];
    const bool force = o->value[BWI_OPT_FORCE] != NULL;
    bw_text cards = bw_text_new(run->arena), table = bw_text_new(run->arena);
    if (page != NULL) {
        bw_report_cards_html(run->cards, run->n, run->species.version, &cards);
        BW_TRY(bwi_output_to(page, &cards, force, &run->output));
    }
    if (csv != NULL) {
        bw_report_cards_csv(run->cards, run->n, &table);
        BW_TRY(bwi_output_to(csv, &table, force, &run->output));
    }
    return page == NULL && csv == NULL ? write_text(run) : BW_OK;
}

/* A card without one log on it is no card to build by. */
static bool is_empty(const bw_card *card)
{
    const size_t cells = card->question.n_spans * card->question.n_duties;
    for (size_t k = 0; k < cells; k++) {
        if (card->cells[k].found) {
            return false;
        }
    }
    return true;
}

int bwi_card_run(bw_arena *arena, const bwi_options *options)
{
    card_run run = {.arena = arena,
                    .options = options,
                    .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
                    .output = bw_diags_new(arena, NULL),
                    .watch = bwi_watch_begin("cells")};
    bw_status status = find(&run);
    if (status == BW_OK) {
        status = write_all(&run);
    }
    bwi_watch_end(&run.watch);
    const bw_diags *const all[] = {&run.tables, &run.output, NULL};
    const bool empty = status == BW_OK && run.n == 1 && is_empty(&run.cards[0]);
    return bwi_output_answer(status, all, !empty);
}
