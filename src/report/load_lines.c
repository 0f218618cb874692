/* load_lines.c - how the loads came about, as text, as data and in the record; what
 * others ask of a deck like this, as data. */
#include "html.h"

/* ---- text ---- */

static void print_from(bw_mark mark, const char *source, const char *lead, bw_text *out)
{
    const char *word = bw_mark_text(mark);
    const char *line =
        bw_arena_print(out->arena, "%s%s%s%s", source, word[0] == '\0' ? "" : " (", word,
                       word[0] == '\0' ? "" : ")");
    bwi_paragraph(out, lead, bwi_or_fail(out, line));
}

static void print_line(const bw_load_line *line, bw_units units, bw_text *out)
{
    bw_text_add(out, "\n");
    bwi_paragraph(out, "  ", line->title);
    bwi_paragraph(out, "  ", line->formula);
    print_from(line->mark, line->source, "  from: ", out);
    bw_text_add(out, "\n");
    bwi_text_terms(&line->working, units, out);
    if (line->cannot_say != NULL) {
        bwi_paragraph(out, "  CANNOT SAY: ", line->cannot_say);
    }
}

void bwi_text_load_lines(const bw_assessment *a, bw_text *out)
{
    if (a->n_load_lines > 0) {
        bw_text_add(out, "\n  How the loads came about:\n");
    }
    for (size_t i = 0; i < a->n_load_lines; i++) {
        print_line(&a->load_lines[i], a->deck->units, out);
    }
}

/* ---- data ---- */

static const char *mark_or_null(bw_mark mark)
{
    return mark == BW_MARK_NONE ? NULL : bw_mark_text(mark);
}

void bwi_json_load_lines(bwi_json *json, const bw_assessment *a)
{
    bwi_json_begin(json, "load_workings", '[');
    for (size_t i = 0; i < a->n_load_lines; i++) {
        const bw_load_line *line = &a->load_lines[i];
        bwi_json_begin(json, NULL, '{');
        bwi_json_text(json, "title", line->title);
        bwi_json_text(json, "formula", line->formula);
        bwi_json_text(json, "mark", mark_or_null(line->mark));
        bwi_json_text(json, "source", line->source);
        bwi_json_text(json, "cannot_say", line->cannot_say);
        bwi_json_working(json, "working", &line->working);
        bwi_json_end(json, '}');
    }
    bwi_json_end(json, ']');
}

void bwi_json_flags(bwi_json *json, const bw_assessment *a)
{
    bwi_json_begin(json, "flags", '[');
    for (size_t i = 0; i < a->n_flags; i++) {
        const bw_flag *f = &a->flags[i];
        bwi_json_begin(json, NULL, '{');
        bwi_json_text(json, "asks_for", f->words);
        bwi_json_text(json, "when", f->when);
        bwi_json_text(json, "this_deck", f->speaks ? "yes" : "no");
        bwi_json_text(json, "where", f->where[0] == '\0' ? NULL : f->where);
        bwi_json_text(json, "mark", mark_or_null(f->mark));
        bwi_json_text(json, "source", f->source);
        bwi_json_end(json, '}');
    }
    bwi_json_end(json, ']');
}

void bwi_json_heads(bwi_json *json, const bw_assessment *a)
{
    const bw_head_count *h = &a->heads;
    bwi_json_begin(json, "people", '{');
    bwi_json_known(json, "on_the_deck", h->on_deck, h->known);
    bwi_json_known(json, "in_one_bay", h->in_bay, h->known);
    bwi_json_known(json, "counted_from_Pa", h->crowd, h->known);
    bwi_json_known(json, "person_kg", h->person, h->tried);
    bwi_json_known(json, "limit_of_people_alone_Pa", h->limit, h->tried);
    bwi_json_end(json, '}');
}

/* ---- the record ---- */

static void write_terms(const bw_load_line *line, bw_units units, bw_text *out)
{
    const char *const columns[] = {
        "Symbol", "What it is", units == BW_IMPERIAL ? ">Imperial" : ">Metric",
        units == BW_IMPERIAL ? ">Metric" : ">Imperial", "Where from"};
    bwi_sources sources = {.count = 0};
    bwi_table_open(out, line->title, columns, 5);
    for (size_t i = 0; i < line->working.count; i++) {
        const bw_term *t = &line->working.items[i];
        const char *own = bwi_value(out->arena, t->quantity, t->value, units);
        const char *other =
            bwi_value(out->arena, t->quantity, t->value, bwi_other_units(units));
        bw_text_add(out, "<tr>");
        bwi_head_cell(out, t->symbol);
        bwi_cell(out, t->meaning);
        bwi_number_cell(out, own);
        bwi_number_cell(out, t->quantity == BW_NUMBER ? "" : other);
        bwi_cell(out, bwi_whence(out->arena, &sources, t->mark, t->source));
        bw_text_add(out, "</tr>\n");
    }
    out->failed = out->failed || line->working.failed;
    bwi_table_close(out);
    bwi_list_sources(&sources, out);
}

void bwi_record_load_lines(const bw_assessment *a, bw_text *out)
{
    for (size_t i = 0; i < a->n_load_lines; i++) {
        const bw_load_line *line = &a->load_lines[i];
        const char *mark = bw_mark_text(line->mark);
        bwi_html(out, "<h3>%s</h3>\n<p class=\"keep\">%s<br>From: %s%s%s%s.</p>\n",
                 line->title, line->formula, line->source, mark[0] == '\0' ? "" : " (",
                 mark, mark[0] == '\0' ? "" : ")");
        write_terms(line, a->deck->units, out);
        if (line->cannot_say != NULL) {
            bwi_html(out, "<p><strong>CANNOT SAY</strong>: %s.</p>\n", line->cannot_say);
        }
    }
}
