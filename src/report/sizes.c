/* sizes.c - answers about sizes, each on one screen: the answer first. */
#include "internal.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

static const char *along(bw_text *out, double value, bw_units units)
{
    return bwi_or_fail(out, bw_quantity_print(out->arena, BW_LENGTH, value, units));
}

static const char *across(bw_text *out, double value, bw_units units)
{
    return bwi_or_fail(out, bw_length_print_small(out->arena, value, units));
}

/* Thicknesses that must be reached: up to the next sixteenth or millimetre. */
static const char *at_least(bw_text *out, double value, bw_units units)
{
    const double step = units == BW_IMPERIAL ? bw_inch / 16.0 : 1e-3;
    return across(out, bwi_up(value, step), units);
}

static const char *percent(bw_text *out, double utilisation)
{
    return isfinite(utilisation)
               ? bwi_or_fail(
                     out, bw_arena_print(
                              out->arena, "%s %%",
                              bwi_or_fail(out, bwi_percent(out->arena, utilisation, 1))))
               : "cannot say";
}

/* "Long-term sag at 98.4 % (dead + crowd)" */
static const char *governing(bw_text *out, const bw_sized *at)
{
    if (at->governing == NULL) {
        return "nothing could be checked";
    }
    bw_text line = bw_text_new(out->arena);
    bw_text_print(&line, "%s at %s", at->governing->title, percent(out, at->utilisation));
    if (at->combination != NULL) {
        bw_text_print(&line, " (%s)", at->combination);
    }
    return bwi_or_fail(out, bw_text_string(&line));
}

static void add_next(bw_text *line, const bw_sized *at)
{
    if (at->next != NULL) {
        bw_text_print(line, "; next %s at %s", at->next->title,
                      percent(line, at->next_utilisation));
    }
}

/* A seat is soon cut deeper; nothing else about a log is. */
static void add_seat_hint(bw_text *out, const bw_sized *at)
{
    if (at->governing != NULL && at->governing->kind == BW_CHECK_BEARING) {
        bw_text_add(out, "  A deeper seat would help: --seat.\n");
    }
}

/* What governs at the answer, and one step beyond it. */
static void add_edge(bw_text *out, const bw_sized *at, const char *beyond_words,
                     const bw_sized *beyond)
{
    bw_text line = bw_text_new(out->arena);
    bw_text_print(&line, "%s", governing(out, at));
    add_next(&line, at);
    bw_text_add(&line, ".");
    bwi_paragraph(out,
                  "  Nearest to its limit: ", bwi_or_fail(out, bw_text_string(&line)));
    if (beyond_words != NULL) {
        bw_text step = bw_text_new(out->arena);
        bw_text_print(&step, "%s is %s: %s.", beyond_words,
                      beyond->verdict == BW_OVER ? "over" : "more than can be said",
                      governing(out, beyond));
        bwi_paragraph(out, "  ", bwi_or_fail(out, bw_text_string(&step)));
        add_seat_hint(out, beyond);
    }
}

/* What another size would do to the worst check. */
static void add_leverage(bw_text *out, const bw_leverage *l, bw_units units)
{
    const double of[] = {l->thinner, l->thicker, l->shorter, l->longer};
    const char *at[4];
    for (int i = 0; i < 4; i++) {
        at[i] = percent(out, of[i]);
    }
    bw_text line = bw_text_new(out->arena);
    bw_text_print(&line, "%s of diameter less %s, more %s; %s of span more %s, less %s.",
                  across(out, l->step_across, units), at[0], at[1],
                  across(out, l->step_along, units), at[3], at[2]);
    bwi_paragraph(out,
                  "  Then the worst is at: ", bwi_or_fail(out, bw_text_string(&line)));
}

static const char *step_words(bw_units units, bool girth)
{
    return units == BW_METRIC ? "whole centimetres"
           : girth            ? "half inches"
                              : "whole inches";
}

static const char *log_words(bw_text *out, const bw_log *log, bw_units units)
{
    bw_text line = bw_text_new(out->arena);
    bw_text_print(&line, "%s under bark, ", log->species->common);
    if (log->butt_diameter > log->tip_diameter) {
        bw_text_print(&line, "%s thick at the butt and ",
                      across(out, log->butt_diameter, units));
    }
    bw_text_print(&line, "%s thick at the tip (girth %s)",
                  across(out, log->tip_diameter, units),
                  across(out, pi * log->tip_diameter, units));
    if (log->length > 0.0) {
        bw_text_print(&line, ", %s long", along(out, log->length, units));
    }
    return bwi_or_fail(out, bw_text_string(&line));
}

/* ---- span ---- */

/* Without an answer: why. */
static void add_none(bw_text *out, const char *what, const char *least,
                     const bw_sized *at)
{
    bw_text line = bw_text_new(out->arena);
    bw_text_print(&line, "%s: %s, %s.", what, least, governing(out, at));
    bwi_paragraph(out, at->verdict == BW_CANNOT_SAY ? "CANNOT SAY, " : "OVER, ",
                  bwi_or_fail(out, bw_text_string(&line)));
    add_seat_hint(out, at);
}

static const char *span_words(bw_text *out, const bw_span_question *q,
                              const bw_span_answer *a)
{
    return bwi_or_fail(out, bw_arena_print(out->arena, "%s%s, rounded down to %s",
                                           along(out, a->span, q->duty.units),
                                           !a->to_end ? ""
                                           : q->log->length > 0.0
                                               ? ": there the log ends"
                                               : " at least, and nothing longer tried",
                                           step_words(q->duty.units, false)));
}

static void add_span(bw_text *out, const char *lead, const bw_span_question *q,
                     const bw_span_answer *a)
{
    const bw_units units = q->duty.units;
    if (!(a->span > 0.0)) {
        add_none(out, lead,
                 bwi_or_fail(out, bw_arena_print(out->arena, "none, even at %s",
                                                 along(out, a->shortest, units))),
                 &a->at);
        return;
    }
    bw_text line = bw_text_new(out->arena);
    bw_text_print(&line, "%s: %s.", lead, span_words(out, q, a));
    bwi_paragraph(out, "", bwi_or_fail(out, bw_text_string(&line)));
    add_edge(out, &a->at, a->to_end ? NULL : along(out, a->span + a->step, units),
             &a->beyond);
    add_leverage(out, &a->leverage, units);
}

void bw_report_span_text(const bw_span_question *q, const bw_span_answer *a, bw_text *out)
{
    bwi_paragraph(out, "", log_words(out, q->log, q->duty.units));
    bw_text_add(out, "\n");
    add_span(out,
             q->duty.bays == 1
                 ? "LONGEST SPAN"
                 : bwi_or_fail(out, bw_arena_print(out->arena,
                                                   "LONGEST SPAN of each of %d bays",
                                                   q->duty.bays)),
             q, a);
    bw_text_add(out, "\n");
    bwi_duty_lines(&q->duty, &q->log->grade, out);
}

/* ---- spacing ---- */

void bw_report_spacing_text(const bw_span_question *q, const bw_spacing_answer *a,
                            bw_text *out)
{
    bw_log log = *q->log;
    log.length = 0.0;
    const bw_span_question each = {&log, q->duty};
    bwi_paragraph(out, "", log_words(out, &log, q->duty.units));
    bw_text_add(out, "\n");
    add_span(out, "WIDEST SPACING OF POSTS, stringers that end on every bent", &each,
             &a->single);
    bw_text_add(out, "\n");
    add_span(out, "WIDEST SPACING OF POSTS, stringers that run on over two bays", &each,
             &a->continuous);
    bw_text_add(out, "\n");
    bwi_duty_lines(&q->duty, &log.grade, out);
}

/* ---- log ---- */

static void size_row(bwi_table *table, const char *place, double diameter, bw_units units)
{
    bwi_table_cell(table, place);
    bwi_table_cell(table, at_least(table->out, pi * diameter, units));
    bwi_table_cell(table, at_least(table->out, diameter, units));
}

static void add_sizes(bw_text *out, const bw_log_answer *a, bw_units units)
{
    static const bwi_column columns[] = {
        {"Under bark at least", false}, {"girth", true}, {"diameter", true}};
    bwi_table table = bwi_table_new(out, columns, 3);
    size_row(&table, "over the first support", a->size.butt, units);
    size_row(&table, "half way", a->size.mid, units);
    size_row(&table, "over the last support", a->size.tip, units);
    bwi_table_print(&table, 2);
}

static void add_tree(bw_text *out, const bw_log_question *q, const bw_log_answer *a)
{
    const bw_units units = q->duty.units;
    const double unit = units == BW_IMPERIAL ? 12.0 * bw_inch : 0.1;
    if (!a->has_tree) {
        bwi_paragraph(out, "  ", "No tree tried here gives such a log.");
        return;
    }
    const double height = bw_tree_height(&a->tree);
    bw_text line = bw_text_new(out->arena);
    bw_text_print(
        &line,
        "girth %s over bark at breast height (4 1/2 ft or 1.37 m up), %s high%s, "
        "its log counted cautiously. Cut %s.",
        across(out, a->breast_girth, units),
        along(out, floor(height / unit * (1.0 + 1e-9)) * unit, units),
        q->height > 0.0             ? ""
        : q->grown == BW_OPEN_GROWN ? " (assumed, open-grown)"
                                    : " (assumed, forest-grown)",
        along(out, bwi_up(a->length, units == BW_IMPERIAL ? bw_inch : 0.01), units));
    bwi_paragraph(out, "  Tree to look for: ", bwi_or_fail(out, bw_text_string(&line)));
}

static void add_no_log(bw_text *out, const bw_log_question *q, const bw_log_answer *a)
{
    const bw_units units = q->duty.units;
    if (a->no_taper) {
        bwi_paragraph(out, "CANNOT SAY: ", "no tree tried here gives a log so long.");
        return;
    }
    add_none(out, "SMALLEST LOG",
             bwi_or_fail(out, bw_arena_print(out->arena,
                                             "none, even with a girth of %s half way",
                                             across(out, a->thickest, units))),
             &a->at);
}

void bw_report_log_text(const bw_log_question *q, const bw_log_answer *a, bw_text *out)
{
    const bw_units units = q->duty.units;
    bw_text head = bw_text_new(out->arena);
    bw_text_print(&head, "%s, a span of %s", q->species->common,
                  along(out, q->span, units));
    if (q->duty.bays > 1) {
        bw_text_print(&head, " in each of %d bays", q->duty.bays);
    }
    bwi_paragraph(out, "", bwi_or_fail(out, bw_text_string(&head)));
    bw_text_add(out, "\n");
    if (!a->found) {
        add_no_log(out, q, a);
    } else {
        bw_text_print(out, "SMALLEST LOG: girth %s half way, rounded up to %s.\n",
                      across(out, pi * a->size.mid, units), step_words(units, true));
        add_sizes(out, a, units);
        add_tree(out, q, a);
        add_edge(out, &a->at,
                 a->to_end
                     ? NULL
                     : bwi_or_fail(
                           out, bw_arena_print(out->arena, "A girth of %s half way",
                                               across(out, pi * a->thinner.mid, units))),
                 &a->below);
        add_leverage(out, &a->leverage, units);
    }
    bw_text_add(out, "\n");
    bwi_duty_lines(&q->duty, &q->grade, out);
}
