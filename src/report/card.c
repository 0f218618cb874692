/* card.c - cards as text and as comma-separated values. Set in 8 point type a card of
 * twelve spans and three uses fits 3 x 5 inches: 72 columns, 22 lines. */
#include "card.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

enum { CARD_COLUMNS = 72, SPAN_COLUMNS = 8 };

/* ---- what is on a card ---- */

double bwi_card_unit(const bw_card *card)
{
    return card->question.duties[0].units == BW_IMPERIAL ? bw_inch : 0.01;
}

const char *bwi_card_girth(bw_arena *arena, const bw_card *card, double girth)
{
    const double halves = round(2.0 * girth / bwi_card_unit(card));
    const bool odd = fmod(halves, 2.0) != 0.0;
    return bw_arena_print(arena, "%.0f%s", floor(halves / 2.0), odd ? "\xC2\xBD" : "");
}

/* An end of a log need not be a whole step: up to the next. */
static const char *girth_of(bw_arena *arena, const bw_card *card, double diameter,
                            double step)
{
    return bwi_card_girth(arena, card, bwi_up(pi * diameter, step));
}

bwi_card_words bwi_card_cell(bw_arena *arena, const bw_card *card, size_t row,
                             size_t column)
{
    const bw_log_answer *a = &card->cells[row * card->question.n_duties + column];
    const char *none = a->at.verdict == BW_OVER ? "--" : "?";
    if (!a->found) {
        return (bwi_card_words){none, none, none};
    }
    return (bwi_card_words){girth_of(arena, card, a->size.mid, a->step),
                            girth_of(arena, card, a->size.tip, a->step),
                            a->has_tree ? bwi_card_girth(arena, card, a->breast_girth)
                                        : "--"};
}

const char *bwi_card_heading(const bw_duty *duty)
{
    return duty->loads.mass > 0.0 && duty->loads.crowd > 0.0
               ? bw_use_name(BW_USE_BOTH)
               : bw_use_name(duty->loads.mass > 0.0 ? BW_USE_RIDERS : BW_USE_PEOPLE);
}

/* ---- the lines below the table ---- */

static void add_loads(const bw_card *card, bw_text *out)
{
    const bw_card_question *q = &card->question;
    const double unit =
        bw_unit_size(BW_MASS, q->duties[0].units == BW_IMPERIAL ? "lb" : "kg");
    bool snow = false;
    for (size_t k = 0; k < q->n_duties; k++) {
        const bw_loads *l = &q->duties[k].loads;
        const bw_units units = q->duties[k].units;
        snow = snow || l->snow != 0.0;
        bw_text_print(out, " %s: ", bwi_card_heading(&q->duties[k]));
        if (l->mass > 0.0 && l->crowd > 0.0) {
            bw_text_add(out, "the worse of riders or people, never at once;");
        } else if (l->mass > 0.0) {
            bw_text_print(
                out, "one, %s with bike x %.3g;",
                bwi_or_fail(out, bw_quantity_print(out->arena, BW_MASS,
                                                   bwi_up(l->mass, unit), units)),
                bw_rider_blow(l, NULL).factor);
        } else {
            bw_text_print(out, "%s;",
                          bwi_or_fail(out, bw_quantity_print(out->arena, BW_PRESSURE,
                                                             l->crowd, units)));
        }
    }
    bw_text_add(out, snow ? " with snow." : " no snow.");
}

/* Whether a cell is without a log for that reason. */
static bool has_empty(const bw_card *card, bool over)
{
    const size_t n = card->question.n_spans * card->question.n_duties;
    bool any = false;
    for (size_t k = 0; k < n; k++) {
        const bw_log_answer *a = &card->cells[k];
        any = any || (!a->found && (a->at.verdict == BW_OVER) == over);
    }
    return any;
}

const char *bwi_card_legend(bw_arena *arena, const bw_card *card)
{
    const bw_card_question *q = &card->question;
    const bool imperial = q->duties[0].units == BW_IMPERIAL;
    bw_text text = bw_text_new(arena);
    bw_text_print(
        &text,
        "Girths in %s, rounded up: mid and tip peeled, tree over bark at breast height "
        "(%s-grown). Cut %s longer than the span.%s%s",
        imperial ? "inches" : "cm", q->grown == BW_OPEN_GROWN ? "open" : "forest",
        imperial ? "8 in" : "20 cm",
        has_empty(card, true) ? " --: none tried is enough." : "",
        has_empty(card, false) ? " ?: cannot say." : "");
    add_loads(card, &text);
    return bw_text_string(&text);
}

const char *bwi_card_basis(bw_arena *arena, const bw_card *card)
{
    const bw_card_question *q = &card->question;
    const bw_duty *duty = &q->duties[0];
    return bw_arena_print(
        arena, "As %s, seats %s deep; %s; wood %s.", bwi_duty_place(arena, duty),
        bw_length_print_small(arena, duty->limits.seat_depth, duty->units),
        duty->basis->title,
        bw_grade_is_answered(&q->grade, 0) ? "looked over, sound" : "not looked at");
}

const char bwi_card_caution[] = "Not engineering: check the whole frame; local rules and "
                                "a licensed engineer come first.";

/* ---- text ---- */

static void add_line(bw_text *out, const char *text)
{
    const char *rest = bwi_or_fail(out, bwi_clean(out->arena, text));
    while (*rest != '\0') {
        size_t length = 0;
        const char *line = bwi_take_line(&rest, CARD_COLUMNS, &length);
        bw_text_add_bytes(out, line, length);
        bw_text_add(out, "\n");
    }
}

static void add_right(bw_text *out, const char *text, size_t width)
{
    const size_t columns = bw_text_columns(text);
    bwi_blanks(out, columns < width ? width - columns : 0);
    bw_text_add(out, text);
}

static void add_headings(const bw_card *card, bw_text *out)
{
    const bw_card_question *q = &card->question;
    bwi_blanks(out, SPAN_COLUMNS);
    for (size_t k = 0; k < q->n_duties; k++) {
        add_right(out, bwi_card_heading(&q->duties[k]), 20);
    }
    bw_text_add(out, "\nspan    ");
    for (size_t k = 0; k < q->n_duties; k++) {
        bw_text_add(out, "     mid   tip  tree");
    }
    bw_text_add(out, "\n");
}

static void add_row(const bw_card *card, size_t row, bw_text *out)
{
    const bw_card_question *q = &card->question;
    const char *span = bwi_or_fail(
        out, bw_quantity_print(out->arena, BW_LENGTH, q->spans[row], q->duties[0].units));
    bw_text_add(out, span);
    const size_t taken = bw_text_columns(span);
    bwi_blanks(out, taken < SPAN_COLUMNS ? SPAN_COLUMNS - taken : 0);
    for (size_t k = 0; k < q->n_duties; k++) {
        const bwi_card_words words = bwi_card_cell(out->arena, card, row, k);
        add_right(out, bwi_or_fail(out, words.mid), 8);
        add_right(out, bwi_or_fail(out, words.tip), 6);
        add_right(out, bwi_or_fail(out, words.tree), 6);
    }
    bw_text_add(out, "\n");
}

void bw_report_card_text(const bw_card *card, bw_text *out)
{
    bw_text title = bw_text_new(out->arena);
    bw_text_print(&title, "Smallest stringer logs: %s", card->question.species->common);
    add_line(out, bwi_or_fail(out, bw_text_string(&title)));
    add_headings(card, out);
    for (size_t row = 0; row < card->question.n_spans; row++) {
        add_row(card, row, out);
    }
    bw_text below = bw_text_new(out->arena);
    bw_text_print(&below, "%s %s NOT CHECKED: %s. %s",
                  bwi_or_fail(out, bwi_card_legend(out->arena, card)),
                  bwi_or_fail(out, bwi_card_basis(out->arena, card)),
                  bwi_sizes_not_checked[0], bwi_card_caution);
    add_line(out, bwi_or_fail(out, bw_text_string(&below)));
}

/* ---- comma-separated values ---- */

static void csv_headings(const bw_card *card, bw_text *out)
{
    bw_text_add(out, "species,span_m");
    for (size_t k = 0; k < card->question.n_duties; k++) {
        const char *use = bwi_card_heading(&card->question.duties[k]);
        bw_text_print(out,
                      ",%s_verdict,%s_mid_girth_m,%s_tip_girth_m,%s_tree_girth_m,"
                      "%s_governing",
                      use, use, use, use, use);
    }
    bw_text_add(out, "\r\n");
}

static void csv_cell(const bw_log_answer *a, bw_text *out)
{
    const double nothing = (double)NAN;
    bw_text_add(out, ",");
    bwi_csv_text(out, bw_verdict_text(a->at.verdict), ',');
    bwi_csv_number(out, a->found ? pi * a->size.mid : nothing);
    bwi_csv_number(out, a->found ? bwi_up(pi * a->size.tip, a->step) : nothing);
    bwi_csv_number(out, a->found && a->has_tree ? a->breast_girth : nothing);
    bw_text_print(out, "\"%s\"", a->at.governing == NULL ? "" : a->at.governing->id);
}

void bw_report_cards_csv(const bw_card *cards, size_t n, bw_text *out)
{
    for (size_t k = 0; k < n; k++) {
        const bw_card_question *q = &cards[k].question;
        if (k == 0) {
            csv_headings(&cards[k], out);
        }
        for (size_t row = 0; row < q->n_spans; row++) {
            bwi_csv_text(out, q->species->id, ',');
            bw_text_print(out, "%.9g", q->spans[row]);
            for (size_t c = 0; c < q->n_duties; c++) {
                csv_cell(&cards[k].cells[row * q->n_duties + c], out);
            }
            bw_text_add(out, "\r\n");
        }
    }
}
