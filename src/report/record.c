/* record.c - the record of a deck: its sections in order, the title block and the
 * verdict. */
#include "html.h"

#include <string.h>

enum { LOOK_AT_FIRST = 5 };

void bwi_section(bw_text *out, const char *id)
{
    bwi_html(out, "<section aria-labelledby=\"%s\">\n<h2 id=\"%s\">%s</h2>\n", id, id,
             bwi_section_heading(id));
}

void bwi_section_end(bw_text *out)
{
    bw_text_add(out, "</section>\n");
}

static void write_contents(bw_text *out)
{
    bw_text_add(out, "<nav aria-label=\"Contents\"><ul>\n");
    for (size_t i = 0; bwi_section_id(i) != NULL; i++) {
        bwi_html(out, "<li><a href=\"#%s\">%s</a></li>\n", bwi_section_id(i),
                 bwi_section_heading(bwi_section_id(i)));
    }
    bw_text_add(out, "</ul></nav>\n");
}

/* ---- title block ---- */

static void block_cell(bw_text *out, const char *term, const char *text)
{
    bwi_html(out, "<dt>%s</dt><dd>%s</dd>\n", term, text == NULL ? "" : text);
}

void bwi_record_title(const bw_record *record, bw_text *out)
{
    const bw_case *deck = record->assessment->deck;
    bwi_title_line lines[BWI_TITLE_LINES];
    const size_t n = bwi_title_lines(deck, out, lines);
    bwi_html(out, "<header>\n<h1>%s</h1>\n<dl class=\"block\">\n", bwi_title(deck));
    for (size_t i = 0; i < n; i++) {
        block_cell(out, lines[i].term, lines[i].text);
    }
    block_cell(out, "Case file", record->case_name);
    block_cell(out, "Date of this record", record->date);
    bwi_html(out, "<dt>SHA-256 of the case file</dt><dd class=\"all\">%s</dd>\n",
             record->case_hash == NULL ? "not known" : record->case_hash);
    bw_text_add(out, "</dl>\n</header>\n");
}

/* ---- verdict ---- */

static const char *verdict_class(bw_verdict verdict)
{
    return verdict == BW_WITHIN ? "verdict"
           : verdict == BW_OVER ? "verdict over"
                                : "verdict unsure";
}

static void write_first_looks(const bw_assessment *a, bw_text *out)
{
    const bw_finding *first[LOOK_AT_FIRST] = {0};
    const size_t count = bwi_rank(a, first, LOOK_AT_FIRST);
    bw_text_add(out, "<h3>Look at these first</h3>\n<ol>\n");
    for (size_t i = 0; i < count; i++) {
        bwi_html(out, "<li>%s", bwi_first_look(first[i], a->deck->units, out));
        if (first[i]->note != NULL) {
            bwi_html(out, "<br>note: %s", first[i]->note);
        }
        bw_text_add(out, "</li>\n");
    }
    bw_text_add(out, count > 0 ? "</ol>\n" : "<li>Nothing could be checked.</li></ol>\n");
}

static void write_buckling(const bw_assessment *a, bw_text *out)
{
    size_t number = 0;
    for (int along = 1; along >= 0; along--) {
        if (bwi_buckled_lowest(a, along != 0, &number) != NULL) {
            bwi_html(out, "<p>Buckling: %s</p>\n",
                     bwi_buckled_words(a, number, along != 0, out));
        }
    }
}

static const char *verdict_lead(bw_verdict verdict)
{
    return verdict == BW_WITHIN ? "Nearest to its limit: "
           : verdict == BW_OVER
               ? "Most of all: "
               : "Something needed is missing or out of range; nearest to its "
                 "limit: ";
}

void bwi_record_verdict(const bw_record *record, bw_text *out)
{
    const bw_assessment *a = record->assessment;
    const bw_verdict verdict = bw_report_verdict(a);
    bw_text line = bw_text_new(out->arena);
    if (a->governing == NULL) {
        bw_text_add(&line, "nothing could be checked");
    } else {
        bw_text_add(&line, verdict_lead(verdict));
        bwi_finding_line(a->governing, a->deck->units, &line);
    }
    const char *left = bwi_left_out(a, out);
    if (left != NULL) {
        bw_text_print(&line, ". Left out: %s", left);
    }
    bwi_section(out, "verdict");
    bwi_html(out, "<div class=\"%s\">\n<strong>%s</strong>\n<p>%s.</p>\n</div>\n",
             verdict_class(verdict), bwi_verdict_words(verdict),
             bwi_or_fail(out, bw_text_string(&line)));
    if (a->cautions != NULL && a->cautions[0] != NULL) {
        bwi_html(out, "<p>%s</p>\n", a->cautions[0]);
    }
    bwi_record_to_do(a, out);
    write_first_looks(a, out);
    write_buckling(a, out);
    bwi_section_end(out);
}

/* ---- lists and drawings ---- */

static void write_list(const char *id, const char *const *items, bw_text *out)
{
    bwi_section(out, id);
    bw_text_add(out, "<ul>\n");
    for (; items != NULL && *items != NULL; items++) {
        bwi_html(out, "<li>%s</li>\n", *items);
    }
    bw_text_add(out, "</ul>\n");
    bwi_section_end(out);
}

void bwi_draw_key(bw_text *out)
{
    static const struct {
        const char *classes, *words;
    } key[] = {{"u0", "up to 50 %"},
               {"u1", "over 50 to 80 %"},
               {"u2", "over 80 to 100 %"},
               {"u3", "over 100 %: OVER"},
               {"u9", "cannot say"}};
    bw_text_add(out, "<figure><div class=\"wide\" role=\"region\" tabindex=\"0\" "
                     "aria-label=\"Patterns of the logs\">"
                     "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" id=\"key\" "
                     "aria-labelledby=\"key-t\" viewBox=\"0 0 420 48\" width=\"420\" "
                     "height=\"48\"><title id=\"key-t\">Patterns of the logs by share of "
                     "their capacity</title>\n");
    for (size_t i = 0; i < sizeof key / sizeof key[0]; i++) {
        /* two lines, which a phone shows whole */
        const double x = 2.0 + 140.0 * (double)(i % 3), y = 22.0 * (double)(i / 3);
        bw_text_print(out,
                      "<g class=\"key %s\"><rect x=\"%.0f\" y=\"%.0f\" width=\"24\" "
                      "height=\"16\"/></g><text class=\"s\" x=\"%.0f\" y=\"%.0f\">",
                      key[i].classes, x, y + 5.0, x + 30.0, y + 17.0);
        bwi_html(out, "%s</text>\n", key[i].words);
    }
    bw_text_add(out,
                "</svg></div><figcaption>Percentages: the most that any check of the log "
                "uses of its capacity, at the worst place, load and rider position. "
                "Below the names of the bents: height of the deck above the "
                "ground.</figcaption></figure>\n");
}

static void write_drawings(const bw_record *record, bw_text *out)
{
    const bwi_drawer w = {record->assessment, record->drawing, out, false};
    bwi_section(out, "drawings");
    bwi_draw_key(out);
    bwi_draw_rows(&w);
    bwi_draw_bents(&w);
    bwi_draw_plan(&w);
    bw_text_add(
        out, "<p>Caps are drawn as far as their seats need; how far they reach out, the "
             "case does not say. A hole of unknown width is drawn twice as wide as its "
             "post.</p>\n");
    bwi_section_end(out);
    bwi_section(out, "bending");
    bwi_draw_bending(&w);
    bwi_draw_buckled(&w);
    bwi_section_end(out);
}

static void write_footer(const bw_record *record, bw_text *out)
{
    const bw_assessment *a = record->assessment;
    bwi_html(out, "<footer>\n<p>%s: %s.</p>\n", bwi_title(record->assessment->deck),
             bwi_verdict_words(bw_report_verdict(a)));
    bw_text_print(out, "<p>bolewright %s.</p>\n</footer>\n", bw_version);
}

void bw_report_html(const bw_record *record, bw_text *out)
{
    const bw_assessment *a = record->assessment;
    bw_text_add(
        out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
             "<meta name=\"viewport\" content=\"width=device-width, "
             "initial-scale=1\">\n<meta name=\"color-scheme\" content=\"light dark\">\n");
    bwi_html(out, "<title>%s: record of a log deck</title>\n<style>\n",
             bwi_title(record->assessment->deck));
    for (size_t i = 0; bwi_style[i] != NULL; i++) {
        bw_text_add(out, bwi_style[i]);
    }
    bw_text_add(out,
                "</style>\n</head>\n<body>\n<a class=\"skip\" href=\"#verdict\">To the "
                "verdict</a>\n");
    bw_text_add(out, bwi_style_patterns);
    bwi_record_title(record, out);
    write_contents(out);
    bw_text_add(out, "<main>\n");
    bwi_record_verdict(record, out);
    bwi_record_governing(record, out);
    write_drawings(record, out);
    bwi_record_members(record, out);
    bwi_record_materials(record, out);
    bwi_record_loads(record, out);
    bwi_record_strengths(record, out);
    bwi_record_grades(record, out);
    bwi_record_sheets(record, out);
    bwi_record_site(record, out);
    write_list("not-checked", a->not_checked, out);
    write_list("cautions", a->cautions, out);
    bwi_record_forms(record, out);
    bw_text_add(out, "</main>\n");
    write_footer(record, out);
    bw_text_add(out, "</body>\n</html>\n");
}
