/* tree.c - one standing tree on one screen: the log it would give, how far that may span,
 * what it weighs, how long it may last. */
#include "internal.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

typedef struct {
    bw_arena *arena;
    bw_text *out;
    const bw_tree_report *report;
} writer;

static const char *thickness(const writer *to, double value)
{
    return bwi_or_fail(to->out,
                       bw_length_print_small(to->arena, value, to->report->units));
}

static const char *print(const writer *to, bw_quantity quantity, double value)
{
    return bwi_or_fail(to->out,
                       bw_quantity_print(to->arena, quantity, value, to->report->units));
}

/* Whole pounds or kilograms, whole feet or tenths of a metre: nobody knows a tree better.
 */
static const char *mass(const writer *to, double value)
{
    const double unit =
        bw_unit_size(BW_MASS, to->report->units == BW_IMPERIAL ? "lb" : "kg");
    return print(to, BW_MASS, round(value / unit) * unit);
}

static const char *tree_height(const writer *to, double value)
{
    const double unit =
        to->report->units == BW_IMPERIAL ? bw_unit_size(BW_LENGTH, "ft") : 0.1;
    return print(to, BW_LENGTH, floor(value / unit * (1.0 + 1e-9)) * unit);
}

static void add_head(const writer *to)
{
    const bw_tree *tree = to->report->tree;
    const bw_tree_log *log = to->report->log;
    bw_text line = bw_text_new(to->arena);
    bw_text_print(&line, "%s, %s thick over bark at breast height (girth %s), %s high%s",
                  tree->species->common, thickness(to, tree->breast_diameter),
                  thickness(to, pi * tree->breast_diameter), tree_height(to, log->height),
                  log->height_assumed
                      ? (tree->grown == BW_OPEN_GROWN ? " (assumed, open-grown)"
                                                      : " (assumed, forest-grown)")
                      : "");
    bwi_paragraph(to->out, "", bwi_or_fail(to->out, bw_text_string(&line)));
    bw_text_print(to->out, "Log of %s, from %s above the ground\n\n",
                  print(to, BW_LENGTH, log->length),
                  print(to, BW_LENGTH, tree->stump + log->from));
}

static void size_row(const writer *to, bwi_table *table, const char *place,
                     const bw_spread *diameter)
{
    bwi_table_cell(table, place);
    bwi_table_cell(table, thickness(to, diameter->cautious));
    bwi_table_cell(table, thickness(to, diameter->estimate));
}

static void add_sizes(const writer *to)
{
    static const bwi_column columns[] = {
        {"Under bark", false}, {"count on", true}, {"estimate", true}};
    const bw_tree_log *log = to->report->log;
    bwi_table table = bwi_table_new(to->out, columns, 3);
    size_row(to, &table, "butt", &log->butt);
    size_row(to, &table, "middle", &log->mid);
    size_row(to, &table, "tip", &log->tip);
    bwi_table_print(&table, 2);
    bw_text line = bw_text_new(to->arena);
    bw_text_print(&line, "Bark about %s thick. Spread %.0f %%, all on the thin side: ",
                  thickness(to, log->bark_thickness), ceil(100.0 * log->spread));
    const char *comma = "";
    for (size_t i = 0; i < log->parts.count; i++) {
        const double percent = 100.0 * log->parts.items[i].value;
        if (percent >= 0.05) {
            bw_text_print(&line, "%s%s %.1f", comma, log->parts.items[i].meaning,
                          percent);
            comma = ", ";
        }
    }
    bw_text_add(&line,
                log->by_rule ? " %. By field rule: no taper is known for it." : " %.");
    bwi_paragraph(to->out, "  ", bwi_or_fail(to->out, bw_text_string(&line)));
}

static const char *span_cell(const writer *to, double span)
{
    return span > 0.0 ? print(to, BW_LENGTH, span) : "none";
}

static const char *reason(const writer *to, const bw_tree_span *span)
{
    if (span->verdict == BW_CANNOT_SAY) {
        return "cannot say";
    }
    if (span->whole_log && span->longer > 0.0) {
        return bwi_or_fail(to->out,
                           bw_arena_print(to->arena, "the log ends; %s from a log of %s",
                                          print(to, BW_LENGTH, span->longer),
                                          print(to, BW_LENGTH, span->longer_cut)));
    }
    if (span->whole_log) {
        return "the log ends";
    }
    return span->governing != NULL ? span->governing : "";
}

static void add_spans(const writer *to)
{
    static const bwi_column columns[] = {{"Longest span", false},
                                         {"count on", true},
                                         {"if as estimated", true},
                                         {"limit", false}};
    const bw_tree_report *r = to->report;
    bw_text_add(to->out, "\n");
    bwi_table table = bwi_table_new(to->out, columns, 4);
    for (size_t i = 0; i < r->n_spans; i++) {
        bwi_table_cell(&table, r->spans[i].load);
        bwi_table_cell(&table, span_cell(to, r->spans[i].cautious));
        bwi_table_cell(&table, span_cell(to, r->spans[i].estimate));
        bwi_table_cell(&table, reason(to, &r->spans[i]));
    }
    bwi_table_print(&table, 2);
    bw_text line = bw_text_new(to->arena);
    bw_text_print(&line, "As one of %s, between two sills; allowable stress. ", r->under);
    if (r->reference != NULL) {
        const bw_eye_grade silent = {0};
        bw_text_print(
            &line,
            "Nobody has looked at its knots, grain, checks and decay yet: that "
            "costs %.0f %% of the bending strength here.",
            ceil(100.0 * (1.0 - bw_grade_factor(&silent, BW_BENDING_STRENGTH, NULL))));
    }
    bwi_paragraph(to->out, "  ", bwi_or_fail(to->out, bw_text_string(&line)));
}

/* 25 kg a person: the usual guideline for lifting at work (MEMORY). */
static void add_weight(const writer *to)
{
    static const double lift = 25.0; /* [kg] */
    const bw_tree_log *log = to->report->log;
    const double hands = ceil(log->mass_most / lift);
    bw_text line = bw_text_new(to->arena);
    bw_text_print(&line, "about %s with bark, %s peeled, up to %s full of sap. ",
                  mass(to, log->mass_with_bark), mass(to, log->mass_peeled),
                  mass(to, log->mass_most));
    if (hands <= 2.0) {
        bw_text_add(&line, "Two people can carry it");
    } else {
        bw_text_print(&line,
                      "Two people cannot carry it: it takes %.0f, or roll or drag it",
                      hands);
    }
    bw_text_print(&line, " (%s each; memory: lifting guideline).", mass(to, lift));
    bwi_paragraph(to->out, "Weight: ", bwi_or_fail(to->out, bw_text_string(&line)));
}

static void add_decay(const writer *to)
{
    const bw_species *species = to->report->tree->species;
    const bw_durability years = bw_durability_of(species);
    bw_text line = bw_text_new(to->arena);
    bw_text_print(
        &line,
        "heartwood %s; untreated in the ground %d to %d years, sapwood %d to %d "
        "(judgement). %s",
        species->durability != NULL ? species->durability : "not known", years.years_low,
        years.years_high, bw_durability_sapwood.years_low,
        bw_durability_sapwood.years_high, bw_durability_warning);
    bwi_paragraph(to->out, "Decay: ", bwi_or_fail(to->out, bw_text_string(&line)));
}

void bw_report_tree_text(const bw_tree_report *report, bw_text *out)
{
    const writer to = {out->arena, out, report};
    add_head(&to);
    add_sizes(&to);
    add_spans(&to);
    bw_text_add(out, "\n");
    add_weight(&to);
    add_decay(&to);
    bwi_paragraph(out, "Measure: ",
                  "the girth of the felled and peeled log, at both ends, replaces all of "
                  "this; so does what you see of its knots, grain and heart.");
    bwi_paragraph(out, "Caution: ",
                  "a sanity check, not engineering. One log is not a deck: check the "
                  "whole frame with \"bolewright check\".");
}
