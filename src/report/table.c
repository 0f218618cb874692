/* table.c - tables whose cells wrap inside their columns. */
#include "internal.h"

#include <assert.h>

enum { GAP = 2, NARROWEST = 4 };

bwi_table bwi_table_new(bw_text *out, const bwi_column *columns, size_t n_columns)
{
    assert(n_columns > 0 && n_columns <= BWI_TABLE_COLUMNS);
    return (bwi_table){.out = out, .columns = columns, .n_columns = n_columns};
}

void bwi_table_cell(bwi_table *table, const char *text)
{
    bw_arena *arena = table->out->arena;
    const char **cells = bw_arena_grow(arena, table->cells, table->n_cells,
                                       &table->capacity, sizeof *table->cells);
    if (cells == NULL) {
        table->out->failed = true;
        return;
    }
    table->cells = cells;
    table->cells[table->n_cells++] = bwi_or_fail(table->out, bwi_clean(arena, text));
}

static void natural_widths(const bwi_table *table, size_t *width)
{
    for (size_t i = 0; i < table->n_columns; i++) {
        width[i] = bw_text_columns(table->columns[i].heading);
    }
    size_t column = 0;
    for (size_t i = 0; i < table->n_cells; i++) {
        const size_t columns = bw_text_columns(table->cells[i]);
        width[column] = columns > width[column] ? columns : width[column];
        column = column + 1 < table->n_columns ? column + 1 : 0;
    }
}

/* The widest column gives way, column by column, until the table fits the page. */
static void fit_widths(size_t *width, size_t n_columns, size_t room)
{
    for (;;) {
        size_t total = GAP * (n_columns - 1), widest = 0;
        for (size_t i = 0; i < n_columns; i++) {
            total += width[i];
            widest = width[i] > width[widest] ? i : widest;
        }
        if (total <= room || width[widest] <= NARROWEST) {
            return;
        }
        width[widest]--;
    }
}

static size_t last_filled(const char *const *rest, size_t n_columns)
{
    size_t last = 0;
    for (size_t i = 0; i < n_columns; i++) {
        last = *rest[i] != '\0' ? i : last;
    }
    return last;
}

static void print_cell(bw_text *out, const char **rest, size_t width, bool right,
                       bool pad)
{
    size_t length = 0;
    const char *line = bwi_take_line(rest, width, &length);
    size_t columns = 0;
    for (size_t i = 0; i < length; i++) {
        columns += ((unsigned char)line[i] & 0xC0U) == 0x80U ? 0U : 1U;
    }
    if (right) {
        bwi_blanks(out, width - columns);
    }
    bw_text_add_bytes(out, line, length);
    if (!right && pad) {
        bwi_blanks(out, width - columns);
    }
}

/* One row, as many lines as its tallest cell needs; no blanks at line ends. */
static void print_row(const bwi_table *table, const char *const *cells,
                      const size_t *width, size_t indent)
{
    const char *rest[BWI_TABLE_COLUMNS] = {0};
    for (size_t i = 0; i < table->n_columns; i++) {
        rest[i] = cells[i];
    }
    bool more = true;
    while (more) {
        const size_t last = last_filled(rest, table->n_columns);
        bwi_blanks(table->out, indent);
        more = false;
        for (size_t i = 0; i <= last; i++) {
            bwi_blanks(table->out, i > 0 ? GAP : 0);
            print_cell(table->out, &rest[i], width[i], table->columns[i].right, i < last);
            more = more || *rest[i] != '\0';
        }
        bw_text_add(table->out, "\n");
    }
}

static bool has_headings(const bwi_table *table)
{
    for (size_t i = 0; i < table->n_columns; i++) {
        if (table->columns[i].heading[0] != '\0') {
            return true;
        }
    }
    return false;
}

void bwi_table_print(const bwi_table *table, size_t indent)
{
    size_t width[BWI_TABLE_COLUMNS] = {0};
    natural_widths(table, width);
    fit_widths(width, table->n_columns, BWI_PAGE_COLUMNS - indent);
    if (has_headings(table)) {
        const char *headings[BWI_TABLE_COLUMNS] = {0};
        for (size_t i = 0; i < table->n_columns; i++) {
            headings[i] = table->columns[i].heading;
        }
        print_row(table, headings, width, indent);
    }
    /* whole rows only: memory may have run out in the middle of one */
    for (size_t i = 0; i + table->n_columns <= table->n_cells; i += table->n_columns) {
        print_row(table, &table->cells[i], width, indent);
    }
}
