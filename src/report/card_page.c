/* card_page.c - cards as a page for the printer: each 5 inches wide and 3 high, three on
 * a sheet of Letter or A4, with lines to cut along. */
#include "card.h"
#include "html.h"

/* On top of the style of the record. A card with more to say grows: nothing is cut off.
 */
static const char style[] =
    ".card{width:5in;min-height:3in;padding:.09in .12in;margin:0 0 .12in;"
    "border:1px dashed var(--soft);break-inside:avoid;"
    "background:var(--paper);font-size:6.8pt;line-height:1.12}\n"
    ".card h2{font-size:9.5pt;line-height:1.1;margin:0 0 .02in;padding:0;border:0;"
    "white-space:nowrap;overflow:hidden}\n"
    ".card table{font-size:8pt;line-height:1.11;margin:0 0 .03in;width:100%;"
    "table-layout:fixed}\n"
    ".card th,.card td{padding:0 .06in 0 0;border-bottom:.4pt solid var(--line);"
    "text-align:right;white-space:nowrap}\n"
    ".card thead th,.card thead td{border-bottom:0;font-weight:600}"
    ".card thead tr+tr th{border-bottom:.8pt solid var(--ink);font-weight:400}\n"
    ".card th:first-child{text-align:left;width:.62in}"
    ".card .use{text-align:center;border-left:.6pt solid var(--line)}"
    ".card tbody tr:first-child>*{padding-top:.02in}"
    ".card .mid{border-left:.6pt solid var(--line)}.card .tree{font-weight:700}\n"
    ".card caption{position:absolute;left:-99em}.card p{margin:0 0 .015in}\n"
    "@media(max-width:5.4in){.card{width:auto}}\n"
    "@media print{@page{margin:11mm 12mm}h1,.screen{display:none}"
    ".card{margin-bottom:.1in}.card table{font-size:8pt}body{padding:0}}\n";

static void write_headings(const bw_card *card, bw_text *out)
{
    const bw_card_question *q = &card->question;
    bwi_html(out, "<thead><tr><td></td>");
    for (size_t k = 0; k < q->n_duties; k++) {
        bwi_html(out, "<th scope=\"colgroup\" colspan=\"3\" class=\"use\">%s</th>",
                 bwi_card_heading(&q->duties[k]));
    }
    bw_text_add(out, "</tr>\n<tr><th scope=\"col\">span</th>");
    for (size_t k = 0; k < q->n_duties; k++) {
        bw_text_add(out, "<th scope=\"col\" class=\"mid\">mid</th><th "
                         "scope=\"col\">tip</th><th scope=\"col\">tree</th>");
    }
    bw_text_add(out, "</tr></thead>\n");
}

static void write_row(const bw_card *card, size_t row, bw_text *out)
{
    const bw_card_question *q = &card->question;
    bwi_html(out, "<tr><th scope=\"row\">%s</th>",
             bwi_or_fail(out, bw_quantity_print(out->arena, BW_LENGTH, q->spans[row],
                                                q->duties[0].units)));
    for (size_t k = 0; k < q->n_duties; k++) {
        const bwi_card_words words = bwi_card_cell(out->arena, card, row, k);
        bwi_html(out, "<td class=\"mid\">%s</td><td>%s</td><td class=\"tree\">%s</td>",
                 bwi_or_fail(out, words.mid), bwi_or_fail(out, words.tip),
                 bwi_or_fail(out, words.tree));
    }
    bw_text_add(out, "</tr>\n");
}

static void write_card(const bw_card *card, bw_text *out)
{
    const char *name = card->question.species->common;
    bwi_html(out,
             "<section class=\"card\">\n<h2>%s</h2>\n<table>"
             "<caption>%s: girths by span and use</caption>\n",
             name, name);
    write_headings(card, out);
    bw_text_add(out, "<tbody>\n");
    for (size_t row = 0; row < card->question.n_spans; row++) {
        write_row(card, row, out);
    }
    bwi_html(out, "</tbody></table>\n<p>Smallest stringer logs. %s %s</p>\n",
             bwi_or_fail(out, bwi_card_legend(out->arena, card)),
             bwi_or_fail(out, bwi_card_basis(out->arena, card)));
    bwi_html(out, "<p><strong>NOT CHECKED: %s. %s</strong></p>\n</section>\n",
             bwi_sizes_not_checked[0], bwi_card_caution);
}

void bw_report_cards_html(const bw_card *cards, size_t n, const char *tables,
                          bw_text *out)
{
    bw_text_add(
        out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
             "<meta name=\"viewport\" content=\"width=device-width, "
             "initial-scale=1\">\n<meta name=\"color-scheme\" content=\"light dark\">\n"
             "<title>Cards: smallest stringer logs</title>\n<style>\n");
    for (size_t i = 0; bwi_style[i] != NULL; i++) {
        bw_text_add(out, bwi_style[i]);
    }
    bw_text_add(out, style);
    bw_text_add(out,
                "</style>\n</head>\n<body>\n<h1>Cards: smallest stringer logs</h1>\n"
                "<p class=\"screen\">Print at full size and cut along the lines: each "
                "card is 3 by 5 inches.</p>\n<main>\n");
    for (size_t k = 0; k < n; k++) {
        write_card(&cards[k], out);
    }
    bwi_html(out,
             "</main>\n<footer class=\"screen\"><p>bolewright %s, species tables %s.</p>"
             "</footer>\n</body>\n</html>\n",
             bw_version, tables == NULL ? "?" : tables);
}
