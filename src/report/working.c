/* working.c - one finding with every symbol, so that a person can redo the line by hand.
 */
#include "internal.h"

#include <string.h>

enum {
    SOURCES = 24
}; /* more different sources than any one line has; the rest go unnumbered */

typedef struct {
    const char *items[SOURCES];
    size_t count;
} source_list;

/* Number of the source from 1, 0 for none. */
static size_t source_number(source_list *list, const char *source)
{
    if (source == NULL || source[0] == '\0') {
        return 0;
    }
    for (size_t i = 0; i < list->count; i++) {
        if (strcmp(list->items[i], source) == 0) {
            return i + 1;
        }
    }
    if (list->count == SOURCES) {
        return 0;
    }
    list->items[list->count++] = source;
    return list->count;
}

static const char *where_from(bw_arena *arena, const bw_term *term, size_t number)
{
    const char *mark = bw_mark_text(term->mark);
    if (number == 0) {
        return mark;
    }
    return bw_arena_print(arena, "%s%s[%zu]", mark, mark[0] == '\0' ? "" : " ", number);
}

static void add_term(bwi_table *table, const bw_term *term, bw_units units,
                     source_list *sources)
{
    bw_arena *arena = table->out->arena;
    const char *own = bwi_value(arena, term->quantity, term->value, units);
    const char *other =
        bwi_value(arena, term->quantity, term->value, bwi_other_units(units));
    const bool same = own != NULL && other != NULL && strcmp(own, other) == 0;
    bwi_table_cell(table, term->symbol == NULL ? "" : term->symbol);
    bwi_table_cell(table, term->meaning == NULL ? "" : term->meaning);
    bwi_table_cell(table, own);
    bwi_table_cell(table, same ? "" : other);
    bwi_table_cell(table, where_from(arena, term, source_number(sources, term->source)));
}

static void print_sources(const source_list *sources, bw_text *out)
{
    for (size_t i = 0; i < sources->count; i++) {
        const char *lead = bw_arena_print(out->arena, "  [%zu] ", i + 1);
        bwi_paragraph(out, bwi_or_fail(out, lead), sources->items[i]);
    }
}

static const char *both_systems(bw_text *out, bw_quantity quantity, double value,
                                bw_units units)
{
    const char *own = bwi_value(out->arena, quantity, value, units);
    const char *other = bwi_value(out->arena, quantity, value, bwi_other_units(units));
    if (own == NULL || other == NULL || strcmp(own, other) == 0) {
        return bwi_or_fail(out, own);
    }
    return bwi_or_fail(out, bw_arena_print(out->arena, "%s (%s)", own, other));
}

static void print_ratio(const bw_finding *finding, bw_units units, bw_text *out)
{
    const bw_quantity quantity = finding->check->quantity;
    const char *demand = both_systems(out, quantity, finding->ratio.demand, units);
    const char *capacity = both_systems(out, quantity, finding->ratio.capacity, units);
    const char *percent = bwi_percent(out->arena, finding->ratio.utilisation, 1);
    bw_text_print(out, "  demand    %s\n  capacity  %s\n", demand, capacity);
    bw_text_print(out, "  ratio     demand / capacity = %s %%, rounded up: %s\n",
                  bwi_or_fail(out, percent),
                  bw_verdict_text(bwi_finding_verdict(finding)));
}

static void print_formula(const bw_check *check, bw_text *out)
{
    bwi_paragraph(out, "  ", check->formula);
    const char *mark = bw_mark_text(check->mark);
    const char *source =
        bw_arena_print(out->arena, "%s%s%s%s", check->source, mark[0] == '\0' ? "" : " (",
                       mark, mark[0] == '\0' ? "" : ")");
    bwi_paragraph(out, "  from: ", bwi_or_fail(out, source));
}

void bwi_text_terms(const bw_working *working, bw_units units, bw_text *out)
{
    const bwi_column columns[] = {
        {"symbol", false},
        {"what it is", false},
        {units == BW_IMPERIAL ? "imperial" : "metric", true},
        {units == BW_IMPERIAL ? "metric" : "imperial", true},
        {"where from", false},
    };
    bwi_table table = bwi_table_new(out, columns, sizeof columns / sizeof columns[0]);
    source_list sources = {.count = 0};
    for (size_t i = 0; i < working->count; i++) {
        add_term(&table, &working->items[i], units, &sources);
    }
    out->failed = out->failed || working->failed;
    bwi_table_print(&table, 2);
    print_sources(&sources, out);
}

void bwi_text_working(const bw_finding *finding, bw_units units, bw_text *out)
{
    const char *title =
        bw_arena_print(out->arena, "%s, %s", finding->member, finding->check->title);
    bwi_paragraph(out, "", bwi_or_fail(out, title));
    print_formula(finding->check, out);
    bw_text_add(out, "\n");
    bwi_text_terms(&finding->working, units, out);
    bw_text_add(out, "\n");
    print_ratio(finding, units, out);
    if (finding->note != NULL) {
        bwi_paragraph(out, "  note: ", finding->note);
    }
}
