/* basis.c - what the result rests on, as text: loads, limits, assumptions, strengths. */
#include "internal.h"

static void print_loads(const bw_assessment *assessment, bw_text *out)
{
    static const bwi_column columns[] = {{"", false}, {"", true}, {"", true}};
    bwi_load_row rows[BWI_LOAD_ROWS];
    const size_t n = bwi_load_rows(assessment, out, rows);
    bwi_table table = bwi_table_new(out, columns, 3);
    for (size_t i = 0; i < n; i++) {
        bwi_table_cell(&table, rows[i].what);
        bwi_table_cell(&table, rows[i].value);
        bwi_table_cell(&table, rows[i].other);
    }
    bwi_table_print(&table, 2);
}

static const char *log_wood(bw_arena *arena, const bw_log *log)
{
    const char *species = log->species == NULL ? "-" : log->species->common;
    return log->strength_class == NULL ? species
                                       : bw_arena_print(arena, "%s, class %s", species,
                                                        log->strength_class->name);
}

static void wood_row(bwi_table *table, const bw_log *log, const bw_reference *strength,
                     const char *const sizes[2], bw_units units)
{
    static const bw_property shown[] = {BW_BENDING_STRENGTH, BW_SHEAR_STRENGTH,
                                        BW_MODULUS};
    bw_text *out = table->out;
    bwi_table_cell(table, log->name);
    bwi_table_cell(table, bwi_or_fail(out, log_wood(out->arena, log)));
    bwi_table_cell(table, sizes[0]);
    bwi_table_cell(table, sizes[1]);
    for (size_t k = 0; k < sizeof shown / sizeof shown[0]; k++) {
        bwi_table_cell(table, strength == NULL
                                  ? "-"
                                  : bw_quantity_print(out->arena, BW_STRESS,
                                                      strength->value[shown[k]], units));
    }
}

static void print_logs(const bw_assessment *assessment, bw_text *out)
{
    static const bwi_column columns[] = {
        {"log", false},    {"species", false}, {"butt", true}, {"tip", true},
        {"bending", true}, {"shear", true},    {"E", true},
    };
    const bw_case *deck = assessment->deck;
    const bw_reference *all = assessment->references;
    bwi_table table = bwi_table_new(out, columns, 7);
    for (size_t i = 0; i < deck->n_logs; i++) {
        const bw_log *log = &deck->logs[i];
        const char *const sizes[2] = {
            bw_length_print_small(out->arena, log->butt_diameter, deck->units),
            bw_length_print_small(out->arena, log->tip_diameter, deck->units)};
        wood_row(&table, log, all == NULL ? NULL : &all[i], sizes, deck->units);
    }
    if (assessment->board_reference != NULL) {
        const char *const sizes[2] = {"-", "-"};
        wood_row(&table, &deck->decking.log, assessment->board_reference, sizes,
                 deck->units);
    }
    bw_text_add(out,
                "  Diameters under bark; strengths before the factors of each check\n"
                "  (\"bolewright species NAME\" shows how they come about):\n\n");
    bwi_table_print(&table, 2);
}

/* Those to do, or the others. */
static void print_assumptions(const bw_assessment *a, bool to_do, bw_text *out)
{
    for (size_t i = 0; i < a->n_assumptions; i++) {
        if (a->assumptions[i].to_do == to_do) {
            bwi_paragraph(out, "  - ", bwi_assumption_text(&a->assumptions[i], out));
        }
    }
}

void bwi_text_to_do(const bw_assessment *assessment, bw_text *out)
{
    if (bwi_is_to_do(assessment)) {
        bw_text_print(out, "\n%s:\n", bwi_to_do_title);
        print_assumptions(assessment, true, out);
    }
}

void bwi_text_loads(const bw_assessment *assessment, bw_text *out)
{
    bwi_text_section(out, "loads");
    bwi_paragraph(out, "Checked by ", assessment->deck->basis->title);
    bw_text_add(out, "\n");
    print_loads(assessment, out);
    bwi_text_load_lines(assessment, out);
    if (assessment->n_assumptions > 0) {
        bw_text_add(
            out, "\n  Assumed (in brackets: how far it can be relied on, and whence):\n");
        print_assumptions(assessment, false, out);
    }
    bw_text_print(out, "\n  %s\n", bwi_health_text(assessment, out));
}

void bwi_text_strengths(const bw_assessment *assessment, bw_text *out)
{
    bwi_text_section(out, "strengths");
    print_logs(assessment, out);
}
