/* forms.c - the last pages of the record: guards and people, inspections, sign-off. */
#include "html.h"

/* ---- guards, falls and people ---- */

static void fall_row(const bw_flag *flag, bw_text *out)
{
    bw_text_add(out, flag->speaks ? "<tr class=\"sum\">" : "<tr>");
    bwi_head_cell(out, flag->words);
    bwi_cell(out, flag->when);
    bwi_cell(out, bwi_flag_here(flag, out));
    bwi_html(out, "<td>%s: %s</td></tr>\n", bw_mark_text(flag->mark), flag->source);
}

static void write_falls(const bw_assessment *a, bw_text *out)
{
    static const char *const columns[] = {"Asks for", "When", "This deck", "Source"};
    bwi_html(out, "<p class=\"keep\">%s</p>\n", bwi_falls_words(a->deck, out));
    bwi_table_open(out, "Guards, fall height and width", columns, 4);
    for (size_t i = 0; i < a->n_flags; i++) {
        fall_row(&a->flags[i], out);
    }
    bwi_table_close(out);
    bwi_html(out, "<p>%s</p>\n", bwi_rail_words);
}

void bwi_record_site(const bw_record *record, bw_text *out)
{
    const char *words = NULL;
    const char *sign = bwi_people_sign(record->assessment, out, &words);
    bwi_section(out, "site");
    write_falls(record->assessment, out);
    bw_text_add(out, "<div class=\"together\">\n<h3>For a sign</h3>\n");
    if (sign != NULL) {
        bwi_html(out, "<p class=\"sign\">%s</p>\n", sign);
    }
    bwi_html(out, "<p>%s</p>\n</div>\n", words);
    bwi_section_end(out);
}

/* ---- forms ---- */

static void blank_rows(bw_text *out, int rows, int columns)
{
    for (int i = 0; i < rows; i++) {
        bw_text_add(out, "<tr class=\"blank\">");
        for (int j = 0; j < columns; j++) {
            bw_text_add(out, "<td></td>");
        }
        bw_text_add(out, "</tr>\n");
    }
}

static void write_inspections(const bw_record *record, bw_text *out)
{
    static const char *const columns[] = {"Date", "By whom",
                                          "Looked at, tapped, probed; girths",
                                          "Found and done", "Next date"};
    bwi_section(out, "inspections");
    bw_text_add(
        out,
        "<p class=\"keep\">At least once a year, and after storms [read: guides of trail "
        "keepers]. "
        "Look first at the ground line of the posts, under the boards, at post tops, "
        "seats and log ends; measure girths at the ground line and check the case "
        "again where they have shrunk.</p>\n");
    if (record->next_date != NULL) {
        bwi_html(out, "<p class=\"keep\">Next inspection by: <strong>%s</strong></p>\n",
                 record->next_date);
    } else {
        bw_text_add(out, "<p class=\"keep\">Next inspection by: <span "
                         "class=\"fill\">&#160;</span></p>\n");
    }
    bwi_table_open(out, "Inspection log", columns, 5);
    blank_rows(out, 8, 5);
    bwi_table_close(out);
    bwi_section_end(out);
}

void bwi_record_forms(const bw_record *record, bw_text *out)
{
    static const char *const columns[] = {"Role", "Name", "License (number, state)",
                                          "Date", "Signature"};
    static const char *const roles[] = {"Builder", "Landowner", "Reviewing engineer"};
    write_inspections(record, out);
    bwi_section(out, "sign-off");
    bw_text_add(
        out, "<div class=\"together\">\n<p>By signing, the builder says that the deck is "
             "built as described here; the landowner, that this record, its list of what "
             "was not checked included, was read. Only a licensed engineer can approve "
             "a structure.</p>\n");
    bwi_table_open(out, "Signatures", columns, 5);
    for (size_t i = 0; i < sizeof roles / sizeof roles[0]; i++) {
        const bool engineer = i == 2;
        bwi_html(
            out,
            "<tr class=\"blank\"><th scope=\"row\">%s</th><td></td><td>%s</td><td></td>"
            "<td></td></tr>\n",
            roles[i], engineer ? "" : "-");
    }
    bwi_table_close(out);
    bw_text_add(out, "</div>\n");
    bwi_section_end(out);
}
