/* loads.c - loads, limits and assumptions as rows, for the text and for the record. */
#include "internal.h"

typedef struct {
    bw_text *out;
    bw_units units;
    bwi_load_row *rows;
    size_t n;
} row_list;

static void add(row_list *list, const char *what, const char *value, const char *other)
{
    if (list->n < BWI_LOAD_ROWS) {
        list->rows[list->n++] = (bwi_load_row){what, bwi_or_fail(list->out, value),
                                               bwi_or_fail(list->out, other)};
    }
}

static void add_quantity(row_list *list, const char *what, bw_quantity quantity,
                         double value)
{
    bw_arena *arena = list->out->arena;
    if (value == 0.0) {
        add(list, what, "none", "");
        return;
    }
    add(list, what, bwi_value(arena, quantity, value, list->units),
        bwi_value(arena, quantity, value, bwi_other_units(list->units)));
}

static void add_number(row_list *list, const char *what, const char *format, double value)
{
    bw_text text = bw_text_new(list->out->arena);
    bw_text_print(&text, "%s%.4g", format, value);
    add(list, what, bw_text_string(&text), "");
}

static void add_rider(row_list *list, const bw_case *deck)
{
    const bw_loads *l = &deck->loads;
    const bw_blow blow = bw_rider_blow(l, NULL);
    add_quantity(list, "rider with bike", BW_MASS, l->mass);
    if (!(l->mass > 0.0)) {
        return;
    }
    add_quantity(list, "the same, pressing down at one place", BW_FORCE,
                 l->mass * blow.factor * bw_gravity);
    add(list, "pressing down over standing",
        bwi_value(list->out->arena, BW_NUMBER, blow.factor, list->units), "");
    if (l->load_duration > 0.0) {
        add_number(list, deck->basis->duration_title, "", l->load_duration);
    } else {
        add(list, deck->basis->duration_title, "by rule", "");
    }
    if (l->riders > 1) {
        add_number(list, "riders at once, in a line", "", l->riders);
        add_quantity(list, "from one rider to the next", BW_LENGTH, l->rider_spacing);
    }
    if (l->wheelbase > 0.0) {
        add_quantity(list, "between the wheels", BW_LENGTH, l->wheelbase);
    }
    add(list, "braking, cornering over standing",
        bwi_value(list->out->arena, BW_NUMBER, blow.push, list->units), "");
}

size_t bwi_load_rows(const bw_assessment *a, bw_text *out,
                     bwi_load_row rows[BWI_LOAD_ROWS])
{
    const bw_case *deck = a->deck;
    const bw_loads *l = &deck->loads;
    row_list list = {out, deck->units, rows, 0};
    add_rider(&list, deck);
    add_quantity(&list, "crowd", BW_PRESSURE, l->crowd);
    if (l->crowd > 0.0) {
        add_quantity(&list, "crowd, swaying together", BW_PRESSURE, l->sway);
    }
    add_quantity(&list, "snow", BW_PRESSURE, l->snow);
    const double thrust = bw_ramp_thrust(l, NULL, NULL);
    if (thrust != 0.0) {
        add_quantity(&list, "thrust of a ramp along the deck", BW_FORCE, thrust);
    }
    if (l->machine.mass > 0.0) {
        add_quantity(&list, l->machine.name, BW_MASS, l->machine.mass);
    }
    add_number(&list, "posts out of plumb, over height", "", l->lean);
    add_quantity(&list, "boards, dead weight", BW_PRESSURE, deck->boards.board_pressure);
    add_quantity(&list, "further dead weight", BW_PRESSURE, l->extra_dead);
    add_quantity(&list, "dead weight, all", BW_FORCE, a->dead_weight);
    add_number(&list, "deflection limit, live", "span/", deck->limits.live);
    add_number(&list, "sag limit, long term", "span/", deck->limits.long_term);
    if (a->board_reference != NULL) {
        add_number(&list, "deflection limit, boards", "span/", deck->limits.boards);
    }
    add_quantity(&list, "flat cut on each log", BW_LENGTH, deck->limits.seat_depth);
    return list.n;
}

const char bwi_to_do_title[] = "To be done, or the verdict does not hold";

bool bwi_is_to_do(const bw_assessment *a)
{
    bool any = false;
    for (size_t i = 0; i < a->n_assumptions; i++) {
        any = any || a->assumptions[i].to_do;
    }
    return any;
}

const char *bwi_assumption_text(const bw_assumption *a, bw_text *out)
{
    const char *mark = bw_mark_text(a->mark);
    const bool marked = mark[0] != '\0', sourced = a->source != NULL && a->source[0];
    if (!marked && !sourced) {
        return bwi_or_fail(out, a->text);
    }
    return bwi_or_fail(out, bw_arena_print(out->arena, "%s [%s%s%s]", a->text, mark,
                                           marked && sourced ? ": " : "",
                                           sourced ? a->source : ""));
}
