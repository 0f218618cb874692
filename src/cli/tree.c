/* tree.c - the command tree: a standing tree in, the log and its spans out. */
#include "commands.h"
#include "output.h"
#include "values.h"

#include "bolewright/input.h"
#include "bolewright/report.h"
#include "bolewright/sizing.h"

#include <math.h>

enum { SPANS = 2 };

static const double pi = 3.14159265358979323846;

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, output;
    bw_species_table species;
    bw_units units;
    bw_tree tree;
    double from, length;
    bw_tree_log log;
    bw_reference reference;
    bw_tree_span spans[SPANS];
} tree_run;

/* ---- the command line ---- */

/* Leaves *value alone if the option is not given. */
static void length_read(tree_run *run, bwi_option option, double low, double high,
                        double *value)
{
    const bwi_value rule = {option, BW_LENGTH, low, high};
    bwi_value_read(run->options, &rule, run->units, value, &run->output);
}

static void thickness_read(tree_run *run)
{
    static const double thin = 0.05, thick = 1.2; /* [m] */
    const bool has_girth = run->options->value[BWI_OPT_GIRTH] != NULL;
    const bool has_diameter = run->options->value[BWI_OPT_DIAMETER] != NULL;
    double value = 0.0;
    if (has_girth == has_diameter) {
        bw_diags_error(&run->output, "usage.girth", NULL,
                       "measure around the tree 4 1/2 ft above the ground: --girth "
                       "\"31 in\"",
                       has_girth ? "--girth and --diameter say the same"
                                 : "tree needs --girth (or --diameter)");
        return;
    }
    const double scale = has_girth ? pi : 1.0;
    length_read(run, has_girth ? BWI_OPT_GIRTH : BWI_OPT_DIAMETER, scale * thin,
                scale * thick, &value);
    run->tree.breast_diameter = has_girth ? bw_diameter_from_girth(value) : value;
}

static void class_read(tree_run *run)
{
    run->tree.grown = bwi_word_read(run->options, BWI_OPT_CLASS, 0, &run->output) == 1
                          ? BW_OPEN_GROWN
                          : BW_FOREST_GROWN;
}

/* A tree this stocky is more often a girth given as a diameter; one this slender the
 * other way round: JUDGEMENT. */
static void doubt(tree_run *run)
{
    static const double stocky = 30.0, slender = 160.0;
    if (!(run->tree.height > 0.0) || !(run->tree.breast_diameter > 0.0)) {
        return;
    }
    const double ratio = run->tree.height / run->tree.breast_diameter;
    if (ratio < stocky || ratio > slender) {
        bw_diags_warn(
            &run->output, "tree.proportion", NULL,
            ratio < stocky ? "is the diameter a girth? then give it as --girth"
                           : "is the girth a diameter? then give it as --diameter",
            "the tree would be %.0f times as high as thick, which is unusual", ratio);
    }
}

static bw_status options_read(tree_run *run)
{
    run->units = bwi_units_read(run->options);
    run->tree.stump = bw_stump_usual;
    run->length = 16.0 * bw_unit_size(BW_LENGTH, "ft");
    if (run->options->value[BWI_OPT_WOOD] == NULL) {
        bw_diags_error(&run->output, "usage.species", NULL,
                       "\"bolewright species\" lists them; \"unknown softwood\" and "
                       "\"unknown hardwood\" are deliberately poor",
                       "tree needs --species");
    }
    thickness_read(run);
    class_read(run);
    length_read(run, BWI_OPT_HEIGHT, 2.5, 120.0, &run->tree.height);
    length_read(run, BWI_OPT_STUMP, 0.05, 2.0, &run->tree.stump);
    length_read(run, BWI_OPT_FROM, 0.0, 60.0, &run->from);
    length_read(run, BWI_OPT_CUT, 0.5, 30.0, &run->length);
    doubt(run);
    return run->output.errors > 0 ? BW_E_USAGE : BW_OK;
}

/* ---- the spans ---- */

/* A seat is soon cut deeper; nothing else about the log is. */
static const char *limit_words(const bw_check *governing)
{
    if (governing == NULL) {
        return NULL;
    }
    return governing->kind == BW_CHECK_BEARING ? "Bearing: a deeper seat helps"
                                               : governing->title;
}

static bw_status span_of(tree_run *run, const bw_duty *duty, bw_tree_span *out)
{
    bw_log estimated = run->log.log;
    const double swell = 1.0 / (1.0 - run->log.spread);
    estimated.butt_diameter *= swell;
    estimated.tip_diameter *= swell;
    bw_span_answer cautious, estimate;
    bw_span_question question = {&run->log.log, *duty};
    BW_TRY(bw_span_longest(run->arena, &question, &cautious, &run->output));
    question.log = &estimated;
    BW_TRY(bw_span_longest(run->arena, &question, &estimate, &run->output));
    out->cautious = cautious.span;
    out->estimate = estimate.span;
    out->whole_log = cautious.to_end;
    out->verdict = cautious.at.verdict;
    out->governing = limit_words(cautious.at.governing);
    return BW_OK;
}

/* Where the log is too short to find its limit: longer logs of the same tree, step by
 * step, until one finds it or the tree ends. */
static bw_status longer_find(tree_run *run, const bw_duty *duty, bw_tree_span *out)
{
    const double step =
        run->units == BW_IMPERIAL ? 2.0 * bw_unit_size(BW_LENGTH, "ft") : 0.5; /* [m] */
    bool ends = out->whole_log;
    for (double cut = run->length + step; ends; cut += step) {
        bw_tree_log longer;
        bw_diags refused = bw_diags_new(run->arena, NULL); /* the tree ends: no fault */
        if (bw_tree_cut(run->arena, &run->tree, run->from, cut, &longer, &refused) !=
            BW_OK) {
            return refused.errors > 0 ? BW_OK : BW_E_MEMORY;
        }
        bw_span_answer answer;
        const bw_span_question question = {&longer.log, *duty};
        BW_TRY(bw_span_longest(run->arena, &question, &answer, &run->output));
        if (answer.span > out->longer && answer.span > out->cautious) {
            out->longer = answer.span;
            out->longer_cut = cut;
        }
        ends = answer.to_end;
    }
    return BW_OK;
}

static bw_status spans_find(tree_run *run)
{
    const bool imperial = run->units == BW_IMPERIAL;
    const bw_duty rider = bw_duty_default(BW_USE_RIDERS, run->units);
    const bw_duty people = bw_duty_default(BW_USE_PEOPLE, run->units);
    const double unit = bw_unit_size(BW_MASS, imperial ? "lb" : "kg");
    run->spans[0].load = bw_arena_print(
        run->arena, "rider of %s, times %.3g",
        bw_quantity_print(run->arena, BW_MASS, ceil(rider.loads.mass / unit) * unit,
                          run->units),
        rider.loads.factor);
    run->spans[1].load = bw_arena_print(
        run->arena, "people, %s",
        bw_quantity_print(run->arena, BW_PRESSURE, people.loads.crowd, run->units));
    if (run->spans[0].load == NULL || run->spans[1].load == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(span_of(run, &rider, &run->spans[0]));
    BW_TRY(longer_find(run, &rider, &run->spans[0]));
    BW_TRY(span_of(run, &people, &run->spans[1]));
    return longer_find(run, &people, &run->spans[1]);
}

/* ---- the run ---- */

static bw_status find(tree_run *run)
{
    BW_TRY(options_read(run));
    BW_TRY(bwi_output_allowed(run->options, "-", &run->output));
    BW_TRY(bw_input_species(run->arena, run->options->value[BWI_OPT_TABLES],
                            &run->species, &run->tables));
    BW_TRY(bwi_species_named(&run->species, run->options->value[BWI_OPT_WOOD],
                             &run->tree.species, &run->output));
    if (bw_tree_cut(run->arena, &run->tree, run->from, run->length, &run->log,
                    &run->output) != BW_OK) {
        return run->output.errors > 0 ? BW_E_USAGE : BW_E_MEMORY;
    }
    BW_TRY(bw_us_asd.reference(run->arena, &run->log.log, &run->reference));
    return spans_find(run);
}

static bw_status report(const tree_run *run, bw_diags *d)
{
    const bw_duty usual = bw_duty_default(BW_USE_RIDERS, run->units);
    const bw_tree_report report = {
        .tree = &run->tree,
        .log = &run->log,
        .units = run->units,
        .under = bw_arena_print(
            run->arena, "two rows %s apart under a deck %s wide",
            bw_quantity_print(run->arena, BW_LENGTH, usual.row_spacing, run->units),
            bw_quantity_print(run->arena, BW_LENGTH, usual.deck_width, run->units)),
        .spans = run->spans,
        .n_spans = SPANS,
        .reference = &run->reference,
        .tables = run->species.version};
    if (report.under == NULL) {
        return BW_E_MEMORY;
    }
    bw_text text = bw_text_new(run->arena), json = bw_text_new(run->arena);
    bw_report_tree_text(&report, &text);
    if (run->options->value[BWI_OPT_JSON] != NULL) {
        bw_report_tree_json(&report, &json);
    }
    return bwi_output_report(run->options, &text, &json, d);
}

/* Not one span within limits is a result, but not one to build on. */
static bool has_no_span(const tree_run *run)
{
    for (int i = 0; i < SPANS; i++) {
        if (!(run->spans[i].cautious > 0.0)) {
            return true;
        }
    }
    return false;
}

int bwi_tree_run(bw_arena *arena, const bwi_options *options)
{
    tree_run run = {.arena = arena,
                    .options = options,
                    .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
                    .output = bw_diags_new(arena, NULL)};
    bw_status status = find(&run);
    if (status == BW_OK) {
        status = report(&run, &run.output);
    }
    const bw_diags *const all[] = {&run.tables, &run.output, NULL};
    return bwi_output_answer(status, all, status == BW_OK && !has_no_span(&run));
}
