/* sheets.c - every check so that it can be redone with a pocket calculator: one sheet per
 * kind of check, its symbols down, the members across. Members whose numbers read the
 * same share a column. */
#include "html.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* FITS: rows of a table that had better not be broken over pages. */
enum { ACROSS = 6, COLUMNS_MAX = 24, FITS = 14 };

/* ---- sources ---- */

const char *bwi_whence(bw_arena *arena, bwi_sources *list, bw_mark mark,
                       const char *source)
{
    const char *word = bw_mark_text(mark);
    if (source == NULL || source[0] == '\0') {
        return word;
    }
    size_t number = 0;
    while (number < list->count && strcmp(list->items[number], source) != 0) {
        number++;
    }
    if (number == BWI_SOURCES) {
        return bw_arena_print(arena, "%s: %s", word, source);
    }
    if (number == list->count) {
        list->items[list->count++] = source;
    }
    return bw_arena_print(arena, "%s%s[%zu]", word, word[0] == '\0' ? "" : " ",
                          number + 1);
}

void bwi_list_sources(const bwi_sources *list, bw_text *out)
{
    if (list->count == 0) {
        return;
    }
    bw_text_add(out, "<p class=\"small\">");
    for (size_t i = 0; i < list->count; i++) {
        bw_text_print(out, "[%zu] ", i + 1);
        bwi_html(out, "%s%s ", list->items[i], i + 1 < list->count ? ";" : ".");
    }
    bw_text_add(out, "</p>\n");
}

static void write_formula(const bw_check *check, bw_text *out)
{
    const char *mark = bw_mark_text(check->mark);
    bwi_html(out, "<p class=\"keep\">%s<br>From: %s%s%s%s.</p>\n", check->formula,
             check->source, mark[0] == '\0' ? "" : " (", mark,
             mark[0] == '\0' ? "" : ")");
}

/* Where, under what, and where the rider is. */
static const char *where_words(const bw_finding *f, bw_units units, bw_text *out)
{
    const char *words = bwi_or_fail(out, bwi_finding_where(out->arena, f, units));
    return strncmp(words, ", ", 2) == 0 ? words + 2 : words;
}

/* ---- the governing line ---- */

static void both_cells(bw_text *out, bw_quantity quantity, double value, bw_units units)
{
    const char *own = bwi_value(out->arena, quantity, value, units);
    const char *other = bwi_value(out->arena, quantity, value, bwi_other_units(units));
    const bool same = own != NULL && other != NULL && strcmp(own, other) == 0;
    bwi_number_cell(out, own);
    bwi_number_cell(out, same ? "" : other);
}

static void sum_row(bw_text *out, const char *what, const bw_finding *f, double value,
                    bw_units units)
{
    bwi_html(out, "<tr class=\"sum\"><th scope=\"row\" colspan=\"2\">%s</th>", what);
    both_cells(out, f->check->quantity, value, units);
    bw_text_add(out, "<td></td></tr>\n");
}

void bwi_finding_html(const bw_finding *f, bw_units units, bw_text *out)
{
    const char *const columns[] = {
        "Symbol", "What it is", units == BW_IMPERIAL ? ">Imperial" : ">Metric",
        units == BW_IMPERIAL ? ">Metric" : ">Imperial", "Where from"};
    bwi_sources sources = {.count = 0};
    bwi_html(out, "<h3>%s, %s</h3>\n<p class=\"keep\">%s</p>\n", f->member,
             f->check->title, where_words(f, units, out));
    write_formula(f->check, out);
    bwi_table_open(out, "Numbers put in and worked out", columns, 5);
    for (size_t i = 0; i < f->working.count; i++) {
        const bw_term *t = &f->working.items[i];
        bw_text_add(out, "<tr>");
        bwi_head_cell(out, t->symbol == NULL ? "" : t->symbol);
        bwi_cell(out, t->meaning == NULL ? "" : t->meaning);
        both_cells(out, t->quantity, t->value, units);
        bwi_cell(out, bwi_whence(out->arena, &sources, t->mark, t->source));
        bw_text_add(out, "</tr>\n");
    }
    out->failed = out->failed || f->working.failed;
    sum_row(out, "demand", f, f->ratio.demand, units);
    sum_row(out, "capacity", f, f->ratio.capacity, units);
    bwi_table_close(out);
    const char *percent = bwi_percent(out->arena, f->ratio.utilisation, 1);
    bwi_html(out, "<p>Demand / capacity = %s %%, rounded up: %s.</p>\n",
             bwi_or_fail(out, percent), bw_verdict_text(bwi_finding_verdict(f)));
    if (f->note != NULL) {
        bwi_html(out, "<p>Note: %s</p>\n", f->note);
    }
    bwi_list_sources(&sources, out);
}

void bwi_record_governing(const bw_record *record, bw_text *out)
{
    const bw_assessment *a = record->assessment;
    bwi_section(out, "by-hand");
    if (a->governing == NULL) {
        bw_text_add(out, "<p>Nothing could be checked.</p>\n");
    } else {
        bwi_finding_html(a->governing, a->deck->units, out);
    }
    bwi_section_end(out);
}

/* ---- columns of a sheet ---- */

typedef struct {
    const bw_finding *finding; /* the first of those that share the column */
    const char *name;          /* of the members */
    const char *key;           /* all its numbers as printed */
    size_t count;
} column;

typedef struct {
    column *items;
    size_t count;
} column_list;

static bool same_symbols(const bw_working *a, const bw_working *b)
{
    for (size_t i = 0; i < a->count && i < b->count; i++) {
        if (strcmp(a->items[i].symbol, b->items[i].symbol) != 0 ||
            strcmp(a->items[i].meaning, b->items[i].meaning) != 0) {
            return false;
        }
    }
    return a->count == b->count;
}

static const char *key_of(const bw_finding *f, bw_units units, bw_text *out)
{
    bw_text key = bw_text_new(out->arena);
    for (size_t i = 0; i < f->working.count; i++) {
        const bw_term *t = &f->working.items[i];
        bw_text_add(
            &key, bwi_or_fail(out, bwi_value(out->arena, t->quantity, t->value, units)));
        bw_text_add(&key, "|");
    }
    bw_text_add(&key, bwi_or_fail(out, bwi_percent(out->arena, f->ratio.utilisation, 1)));
    bw_text_add(&key, f->combination == NULL ? "" : f->combination);
    return bwi_or_fail(out, bw_text_string(&key));
}

static void add_column(column_list *list, const bw_member_result *m, const bw_finding *f,
                       bw_units units, bw_text *out)
{
    const char *key = key_of(f, units, out);
    for (size_t k = 0; k < list->count; k++) {
        if (same_symbols(&list->items[k].finding->working, &f->working) &&
            strcmp(list->items[k].key, key) == 0) {
            list->items[k].count++;
            if (list->items[k].count <= 4) {
                list->items[k].name =
                    bwi_or_fail(out, bw_arena_print(out->arena, "%s, %s",
                                                    list->items[k].name, m->name));
            }
            return;
        }
    }
    list->items[list->count++] = (column){f, m->name, key, 1};
}

static double urgency(const column *c)
{
    const double u = c->finding->ratio.utilisation;
    return isfinite(u) ? u : HUGE_VAL;
}

/* Worst first; equals in the order of the case (insertion keeps it). */
static void sort_columns(column_list *list)
{
    for (size_t k = 1; k < list->count; k++) {
        const column c = list->items[k];
        size_t at = k;
        for (; at > 0 && urgency(&list->items[at - 1]) < urgency(&c); at--) {
            list->items[at] = list->items[at - 1];
        }
        list->items[at] = c;
    }
}

/* ---- one table ---- */

typedef struct {
    const column *columns[ACROSS];
    size_t n;
    bw_units units;
    bw_text *out;
    bwi_sources *sources;
} sheet;

static const char *term_text(const sheet *s, size_t k, size_t row)
{
    const bw_term *t = &s->columns[k]->finding->working.items[row];
    return bwi_or_fail(s->out, bwi_value(s->out->arena, t->quantity, t->value, s->units));
}

static void term_cells(const sheet *s, size_t row)
{
    bool same = s->n > 1;
    for (size_t k = 1; k < s->n && same; k++) {
        same = strcmp(term_text(s, 0, row), term_text(s, k, row)) == 0;
    }
    if (same) {
        bw_text_print(s->out, "<td class=\"c\" colspan=\"%zu\">", s->n);
        bwi_html(s->out, "%s</td>", term_text(s, 0, row));
        return;
    }
    for (size_t k = 0; k < s->n; k++) {
        bwi_cell(s->out, term_text(s, k, row));
    }
}

static const char *share_text(const bw_finding *f, bw_text *out)
{
    const char *percent = bwi_percent(out->arena, f->ratio.utilisation, 1);
    const bw_verdict verdict = bwi_finding_verdict(f);
    return verdict == BW_CANNOT_SAY
               ? "cannot say"
               : bw_arena_print(out->arena, "%s%s %%", verdict == BW_OVER ? "OVER " : "",
                                bwi_or_fail(out, percent));
}

static void result_row(const sheet *s, const char *what)
{
    bwi_html(s->out, "<tr class=\"sum\"><th scope=\"row\" colspan=\"2\">%s</th><td></td>",
             what);
    for (size_t k = 0; k < s->n; k++) {
        const bw_finding *f = s->columns[k]->finding;
        bw_arena *arena = s->out->arena;
        const bw_quantity quantity = f->check->quantity;
        const char *text =
            what[0] == 'd'   ? bwi_value(arena, quantity, f->ratio.demand, s->units)
            : what[0] == 'c' ? bwi_value(arena, quantity, f->ratio.capacity, s->units)
                             : share_text(f, s->out);
        bwi_cell(s->out, text);
    }
    bw_text_add(s->out, "</tr>\n");
}

/* Under the table, a line for each column: in its cell it would be a tower of words. */
static void write_where(const sheet *s)
{
    bw_text_add(s->out, "<ul class=\"where\">\n");
    for (size_t k = 0; k < s->n; k++) {
        const column *c = s->columns[k];
        bwi_html(s->out, "<li><b>%s</b>: %s</li>\n", c->name,
                 where_words(c->finding, s->units, s->out));
    }
    bw_text_add(s->out, "</ul>\n");
}

static void write_sheet(const sheet *s, const char *caption)
{
    bw_text *out = s->out;
    const bw_working *w = &s->columns[0]->finding->working;
    bwi_html(out,
             "<div class=\"%s\">\n<div class=\"wide\" role=\"region\" tabindex=\"0\" "
             "aria-label=\"%s\"><table class=\"sheet %s\" "
             "style=\"width:%s%%;min-width:%srem\">\n<caption>%s</caption>\n"
             "<colgroup><col class=\"c1\"><col class=\"c2\"><col class=\"c3\"><col "
             "span=\"%s\">"
             "</colgroup>\n<thead><tr><th scope=\"col\">Symbol</th>"
             "<th scope=\"col\">What it is</th><th scope=\"col\">From</th>",
             w->count <= FITS ? "together" : "long", caption,
             w->count <= FITS ? "t" : "long",
             bw_arena_print(out->arena, "%zu", 40 + 10 * s->n),
             bw_arena_print(out->arena, "%zu", 19 + 5 * s->n), caption,
             bw_arena_print(out->arena, "%zu", s->n));
    for (size_t k = 0; k < s->n; k++) {
        const column *c = s->columns[k];
        bwi_html(out, "<th scope=\"col\" class=\"m\">%s", c->name);
        if (c->count > 4) {
            bw_text_print(out, " and %zu more", c->count - 4);
        }
        bw_text_add(out, "</th>");
    }
    bw_text_add(out, "</tr></thead>\n<tbody>\n");
    for (size_t row = 0; row < w->count; row++) {
        const bw_term *t = &w->items[row];
        bw_text_add(out, "<tr>");
        bwi_head_cell(out, t->symbol);
        bwi_cell(out, t->meaning);
        bwi_cell(out, bwi_whence(out->arena, s->sources, t->mark, t->source));
        term_cells(s, row);
        bw_text_add(out, "</tr>\n");
    }
    result_row(s, "demand");
    result_row(s, "capacity");
    result_row(s, "share");
    bwi_table_close(out);
    write_where(s);
    bw_text_add(out, "</div>\n");
}

/* ---- one kind of check ---- */

/* So many columns that the tables of one set of symbols come out alike. */
static size_t balanced(const column_list *list, size_t shown, const bool *done,
                       size_t first)
{
    size_t left = 0;
    for (size_t j = first; j < shown; j++) {
        left += !done[j] && same_symbols(&list->items[first].finding->working,
                                         &list->items[j].finding->working)
                    ? 1
                    : 0;
    }
    const size_t tables = (left + ACROSS - 1) / ACROSS;
    return tables > 0 ? (left + tables - 1) / tables : 0;
}

static void write_columns(const column_list *list, bw_units units, bw_text *out)
{
    bwi_sources sources = {.count = 0};
    const size_t shown = list->count < COLUMNS_MAX ? list->count : COLUMNS_MAX;
    bool *done = BW_NEW(out->arena, bool, shown + 1);
    if (done == NULL) {
        out->failed = true;
        return;
    }
    const char *title = list->items[0].finding->check->title;
    for (size_t k = 0; k < shown; k++) {
        sheet s = {.units = units, .out = out, .sources = &sources};
        const size_t across = balanced(list, shown, done, k);
        for (size_t j = k; j < shown && !done[k] && s.n < across; j++) {
            if (!done[j] && same_symbols(&list->items[k].finding->working,
                                         &list->items[j].finding->working)) {
                s.columns[s.n++] = &list->items[j];
                done[j] = j != k;
            }
        }
        done[k] = true;
        if (s.n > 0) {
            write_sheet(&s,
                        bwi_or_fail(out, bw_arena_print(out->arena, "%s: %s%s", title,
                                                        s.columns[0]->name,
                                                        s.n > 1 ? " and others" : "")));
        }
    }
    bwi_list_sources(&sources, out);
    if (list->count > shown) {
        bw_text_print(
            out,
            "<p>%zu more columns, all less used than these, are left out here: their "
            "percentages stand under Every member, their numbers come out of "
            "<code>bolewright check --json</code>.</p>\n",
            list->count - shown);
    }
}

/* All findings of one check. */
static void write_check(const bw_assessment *a, int kind, const bw_check *check,
                        bw_text *out)
{
    column_list list = {BW_NEW(out->arena, column, a->n_members), 0};
    if (list.items == NULL) {
        out->failed = true;
        return;
    }
    for (size_t i = 0; i < a->n_members; i++) {
        const bw_finding *f = &a->members[i].findings[kind];
        if (a->members[i].has[kind] && f->check == check) {
            add_column(&list, &a->members[i], f, a->deck->units, out);
            out->failed = out->failed || f->working.failed;
        }
    }
    bwi_html(out, "<h3>%s</h3>\n", check->title);
    write_formula(check, out);
    sort_columns(&list);
    write_columns(&list, a->deck->units, out);
}

/* Boards may go by another formula than logs. */
static bool is_new_check(const bw_assessment *a, int kind, size_t member)
{
    for (size_t i = 0; i < member; i++) {
        if (a->members[i].has[kind] && a->members[i].findings[kind].check ==
                                           a->members[member].findings[kind].check) {
            return false;
        }
    }
    return a->members[member].has[kind];
}

static void write_kind(const bw_assessment *a, int kind, bw_text *out)
{
    for (size_t i = 0; i < a->n_members; i++) {
        if (is_new_check(a, kind, i)) {
            write_check(a, kind, a->members[i].findings[kind].check, out);
        }
    }
}

void bwi_record_sheets(const bw_record *record, bw_text *out)
{
    bwi_section(out, "checks");
    bw_text_add(
        out, "<p>Each check at its worst place, load and rider position, the most used "
             "members first. A value that stands once for several members holds for all "
             "of them; members whose numbers all read the same share a column, and the "
             "place is that of the first.</p>\n");
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        write_kind(record->assessment, kind, out);
    }
    bwi_section_end(out);
}
