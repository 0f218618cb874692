/* frame_text.c - a solved free frame as tables. */
#include "internal.h"

#include <math.h>

typedef struct {
    const bw_frame_result *result;
    bw_text *out;
} printer;

static const char *label(const printer *p, const char *const *names, size_t i)
{
    if (names != NULL && names[i] != NULL) {
        return names[i];
    }
    return bw_arena_print(p->out->arena, "%zu", i);
}

/* Displacements of a frame are small: thousandths of a millimetre, ten-thousandths of an
 * inch. */
static const char *fine_length(bw_arena *arena, double value, bw_units units)
{
    const char *unit = units == BW_IMPERIAL ? "in" : "mm";
    const int decimals = units == BW_IMPERIAL ? 4 : 3;
    const double count = value / bw_unit_size(BW_LENGTH, unit);
    const bool vanishes = fabs(count) < 0.5 * pow(10.0, -decimals);
    return bw_arena_print(arena, "%.*f %s", decimals, vanishes ? 0.0 : count, unit);
}

static void value_cell(bwi_table *table, bw_quantity quantity, double value,
                       bw_units units)
{
    bw_arena *arena = table->out->arena;
    bwi_table_cell(table, quantity == BW_LENGTH
                              ? fine_length(arena, value, units)
                              : bw_quantity_print(arena, quantity, value, units));
}

static void number_cell(bwi_table *table, double value)
{
    bwi_table_cell(table, bw_arena_print(table->out->arena, "%.6f",
                                         fabs(value) < 5e-7 ? 0.0 : value));
}

static void print_displacements(const printer *p)
{
    static const bwi_column columns[] = {
        {"node", false}, {"right", true}, {"up", true}, {"turn, rad", true}};
    const bw_frame_result *r = p->result;
    bwi_table table = bwi_table_new(p->out, columns, 4);
    for (size_t i = 0; i < r->n_nodes; i++) {
        const bw_motion u = bw_state_displacement(r->state, (int)i);
        bwi_table_cell(&table, label(p, r->node_names, i));
        value_cell(&table, BW_LENGTH, u.x, r->units);
        value_cell(&table, BW_LENGTH, u.y, r->units);
        number_cell(&table, u.r);
    }
    bwi_heading(p->out, "Displacements");
    bwi_table_print(&table, 2);
}

static void print_reactions(const printer *p)
{
    static const bwi_column columns[] = {
        {"node", false}, {"right", true}, {"up", true}, {"anticlockwise", true}};
    const bw_frame_result *r = p->result;
    bwi_table table = bwi_table_new(p->out, columns, 4);
    for (size_t i = 0; i < r->n_nodes; i++) {
        const bw_motion f = bw_state_reaction(r->state, (int)i);
        if (f.x == 0.0 && f.y == 0.0 && f.r == 0.0) {
            continue;
        }
        bwi_table_cell(&table, label(p, r->node_names, i));
        value_cell(&table, BW_FORCE, f.x, r->units);
        value_cell(&table, BW_FORCE, f.y, r->units);
        value_cell(&table, BW_MOMENT, f.r, r->units);
    }
    bwi_heading(p->out, "Reactions (nodes without one are left out)");
    bwi_table_print(&table, 2);
}

static void action_row(bwi_table *table, const char *name, const char *end, bw_action a,
                       bw_units units)
{
    bwi_table_cell(table, name);
    bwi_table_cell(table, end);
    value_cell(table, BW_FORCE, a.axial, units);
    value_cell(table, BW_FORCE, a.shear, units);
    value_cell(table, BW_MOMENT, a.moment, units);
}

static void print_actions(const printer *p)
{
    static const bwi_column columns[] = {{"member", false},
                                         {"end", false},
                                         {"axial", true},
                                         {"shear", true},
                                         {"moment", true}};
    const bw_frame_result *r = p->result;
    bwi_table table = bwi_table_new(p->out, columns, 5);
    for (size_t i = 0; i < r->n_members; i++) {
        const int member = (int)i;
        const double length = bw_frame_length(r->frame, member);
        action_row(&table, label(p, r->member_names, i), "i",
                   bw_state_action(r->state, member, 0.0, false), r->units);
        action_row(&table, "", "j", bw_state_action(r->state, member, length, true),
                   r->units);
    }
    bwi_heading(p->out, "Member ends (tension positive, sagging positive)");
    bwi_table_print(&table, 2);
}

static void extreme_row(bwi_table *table, const char *what, bw_quantity quantity,
                        const bw_extreme extreme[2], bw_units units)
{
    bwi_table_cell(table, what);
    for (int i = 0; i < 2; i++) {
        value_cell(table, quantity, extreme[i].value, units);
        bwi_table_cell(table,
                       bwi_value(table->out->arena, BW_LENGTH, extreme[i].x, units));
    }
}

static void extreme_rows(const printer *p, bwi_table *table, size_t i)
{
    const bw_frame_result *r = p->result;
    const bw_extremes e = bw_state_extremes(r->state, (int)i);
    bw_extreme sag_max = {0}, sag_min = {0};
    bw_state_sag_extremes(r->state, (int)i, &sag_max, &sag_min);
    const struct {
        const char *what;
        bw_quantity quantity;
        bw_extreme extreme[2];
    } rows[] = {
        {"moment", BW_MOMENT, {e.moment_max, e.moment_min}},
        {"shear", BW_FORCE, {e.shear_max, e.shear_min}},
        {"axial", BW_FORCE, {e.axial_max, e.axial_min}},
        {"stress", BW_STRESS, {e.stress_max, e.stress_min}},
        {"from chord", BW_LENGTH, {sag_max, sag_min}},
    };
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        bwi_table_cell(table, k == 0 ? label(p, r->member_names, i) : "");
        extreme_row(table, rows[k].what, rows[k].quantity, rows[k].extreme, r->units);
    }
}

static void print_extremes(const printer *p)
{
    static const bwi_column columns[] = {{"member", false}, {"", false},
                                         {"largest", true}, {"at", true},
                                         {"least", true},   {"at", true}};
    bwi_table table = bwi_table_new(p->out, columns, 6);
    for (size_t i = 0; i < p->result->n_members; i++) {
        extreme_rows(p, &table, i);
    }
    bwi_heading(p->out, "Extremes along the members (at: from end i)");
    bwi_table_print(&table, 2);
}

void bw_report_frame_text(const bw_frame_result *result, bw_text *out)
{
    const printer p = {result, out};
    const bw_frame_facts facts = bw_frame_describe(result->frame);
    bwi_paragraph(out, "", result->title == NULL ? "Untitled frame" : result->title);
    print_displacements(&p);
    print_reactions(&p);
    print_actions(&p);
    print_extremes(&p);
    bwi_heading(out, "Numerical health");
    bw_text_print(out, "  unknowns %d, out-of-balance force %.1e of the largest\n",
                  facts.unknowns, bw_state_residual(result->state));
    bw_text_print(out, "  reciprocal condition %.1e\n", facts.rcond);
}
