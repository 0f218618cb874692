/* basis.c - what the result rests on: loads, limits, logs, assumptions. */
#include "internal.h"

static void load_row(bwi_table *table, const char *what, const char *value,
                     const char *remark)
{
    bwi_table_cell(table, what);
    bwi_table_cell(table, value);
    bwi_table_cell(table, remark);
}

static void quantity_row(bwi_table *table, const char *what, bw_quantity quantity,
                         double value, bw_units units)
{
    const bool none = value == 0.0;
    load_row(table, what,
             none ? "none" : bwi_value(table->out->arena, quantity, value, units), "");
}

static void rider_rows(bwi_table *table, const bw_loads *loads, const bw_case *deck)
{
    const char *duration = deck->basis->duration_title;
    const bw_units units = deck->units;
    bw_arena *arena = table->out->arena;
    if (loads->mass == 0.0) {
        load_row(table, "rider", "none", "");
        return;
    }
    const char *force = bw_quantity_print(
        arena, BW_FORCE, loads->mass * loads->factor * bw_gravity, units);
    load_row(table, "rider with bike",
             bw_quantity_print(arena, BW_MASS, loads->mass, units),
             bw_arena_print(arena, "times %.4g for landing: %s at one place",
                            loads->factor, bwi_or_fail(table->out, force)));
    if (loads->load_duration > 0.0) {
        load_row(table, duration, bw_arena_print(arena, "%.4g", loads->load_duration),
                 "");
    } else {
        load_row(table, duration, "by rule", "");
    }
}

static void print_loads(const bw_assessment *assessment, bw_text *out)
{
    static const bwi_column columns[] = {{"", false}, {"", true}, {"", false}};
    const bw_case *deck = assessment->deck;
    const bw_units units = deck->units;
    bwi_table table = bwi_table_new(out, columns, 3);
    rider_rows(&table, &deck->loads, deck);
    quantity_row(&table, "crowd", BW_PRESSURE, deck->loads.crowd, units);
    quantity_row(&table, "snow", BW_PRESSURE, deck->loads.snow, units);
    quantity_row(&table, "boards, dead weight", BW_PRESSURE, deck->boards.board_pressure,
                 units);
    quantity_row(&table, "further dead weight", BW_PRESSURE, deck->loads.extra_dead,
                 units);
    quantity_row(&table, "dead weight, all", BW_FORCE, assessment->dead_weight, units);
    load_row(&table, "deflection limit, live",
             bw_arena_print(out->arena, "span/%.4g", deck->limits.live), "");
    load_row(&table, "sag limit, long term",
             bw_arena_print(out->arena, "span/%.4g", deck->limits.long_term), "");
    quantity_row(&table, "flat cut on each log", BW_LENGTH, deck->limits.seat_depth,
                 units);
    bwi_table_print(&table, 2);
}

static const char *reference(const bw_assessment *assessment, size_t log,
                             bw_property property, bw_arena *arena)
{
    if (assessment->references == NULL) {
        return "-";
    }
    return bw_quantity_print(arena, BW_STRESS,
                             assessment->references[log].value[property],
                             assessment->deck->units);
}

static const char *log_wood(bw_arena *arena, const bw_log *log)
{
    const char *species = log->species == NULL ? "-" : log->species->common;
    return log->strength_class == NULL ? species
                                       : bw_arena_print(arena, "%s, class %s", species,
                                                        log->strength_class->name);
}

static void print_logs(const bw_assessment *assessment, bw_text *out)
{
    static const bwi_column columns[] = {
        {"log", false},    {"species", false}, {"butt", true}, {"tip", true},
        {"bending", true}, {"shear", true},    {"E", true},
    };
    const bw_case *deck = assessment->deck;
    bwi_table table = bwi_table_new(out, columns, 7);
    for (size_t i = 0; i < deck->n_logs; i++) {
        const bw_log *log = &deck->logs[i];
        bwi_table_cell(&table, log->name);
        bwi_table_cell(&table, bwi_or_fail(out, log_wood(out->arena, log)));
        bwi_table_cell(
            &table, bw_length_print_small(out->arena, log->butt_diameter, deck->units));
        bwi_table_cell(&table,
                       bw_length_print_small(out->arena, log->tip_diameter, deck->units));
        bwi_table_cell(&table, reference(assessment, i, BW_BENDING_STRENGTH, out->arena));
        bwi_table_cell(&table, reference(assessment, i, BW_SHEAR_STRENGTH, out->arena));
        bwi_table_cell(&table, reference(assessment, i, BW_MODULUS, out->arena));
    }
    bw_text_add(out,
                "\n  Diameters under bark; strengths before the factors of each check\n"
                "  (\"bolewright species NAME\" shows how they come about):\n\n");
    bwi_table_print(&table, 2);
}

static void print_assumptions(const bw_assessment *assessment, bw_text *out)
{
    for (size_t i = 0; i < assessment->n_assumptions; i++) {
        const bw_assumption *a = &assessment->assumptions[i];
        const char *mark = bw_mark_text(a->mark);
        const bool sourced = a->source != NULL && a->source[0] != '\0';
        const char *line = bw_arena_print(
            out->arena, "%s%s%s%s%s%s", a->text, mark[0] == '\0' && !sourced ? "" : " [",
            mark, mark[0] != '\0' && sourced ? ": " : "", sourced ? a->source : "",
            mark[0] == '\0' && !sourced ? "" : "]");
        bwi_paragraph(out, "  - ", bwi_or_fail(out, line));
    }
}

void bwi_text_basis(const bw_assessment *assessment, bw_text *out)
{
    bwi_heading(out, "Loads and assumptions");
    bwi_paragraph(out, "Checked by ", assessment->deck->basis->title);
    bw_text_add(out, "\n");
    print_loads(assessment, out);
    print_logs(assessment, out);
    if (assessment->n_assumptions > 0) {
        bw_text_add(
            out, "\n  Assumed (in brackets: how far it can be relied on, and whence):\n");
        print_assumptions(assessment, out);
    }
}
