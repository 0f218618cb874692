/* site.c - guards and falls, how many people a sign may allow, inspections, sign-off. */
#include "html.h"

#include <math.h>

/* ---- guards and falls: flags, each with its source, no design rules ---- */

typedef struct {
    const char *words;
    double height; /* [m] of the deck above which it speaks */
    double length; /* [m] of the deck, likewise; 0: any */
    bw_mark mark;
    const char *source;
} fall_rule;

static const fall_rule fall_rules[] = {
    {"a side rail", 0.680, 0.0, BW_MARK_READ,
     "European leaflet on bike trails (imba-europe.org)"},
    {"a guard 42 in high whose lower part lets no 4 in sphere through", 0.762, 0.0,
     BW_MARK_READ, "IBC 2006, 1013, as quoted by the USFS (2007)"},
    {"a standard railing beside what is walked on at work", 1.2192, 0.0, BW_MARK_READ,
     "OSHA 1910.23, older edition"},
    {"a complex structure: an inspector of a higher grade", 1.524, 6.096, BW_MARK_READ,
     "USFS, Trail Bridge Inspection 101"},
};
static const char rail_heights[] = "Rails beside a trail: 42 in for people on foot, 54 "
                                   "in for bicycles and horses; openings that "
                                   "a 6 in sphere does not pass below 27 in, 8 in above "
                                   "(AASHTO; read, FHWA 01232833). On remote "
                                   "trail bridges curbs may do where an analysis shows "
                                   "that rails are not needed (read, USFS rail "
                                   "tip 2007).";

static double highest(const bw_case *deck)
{
    double height = 0.0;
    for (size_t k = 0; k < deck->n_bents; k++) {
        height = fmax(height, deck->bents[k].deck_height);
    }
    return height;
}

static double deck_length(const bw_case *deck)
{
    return deck->bents[deck->n_bents - 1].at - deck->bents[0].at;
}

static const char *bents_above(const bw_case *deck, double height, bw_text *out)
{
    enum { NAMED = 6 };
    bw_text names = bw_text_new(out->arena);
    size_t count = 0;
    for (size_t k = 0; k < deck->n_bents; k++) {
        if (deck->bents[k].deck_height > height) {
            if (count < NAMED) {
                bw_text_print(&names, "%s%s", count == 0 ? "at bent " : ", ",
                              deck->bents[k].name);
            }
            count++;
        }
    }
    if (count > NAMED) {
        bw_text_print(&names, " and %zu more", count - NAMED);
    }
    return bwi_or_fail(out, bw_text_string(&names));
}

static void fall_row(const bw_case *deck, const fall_rule *rule, bw_text *out)
{
    const bool speaks = highest(deck) > rule->height && deck_length(deck) > rule->length;
    const char *height =
        bw_quantity_print(out->arena, BW_LENGTH, rule->height, deck->units);
    bw_text_add(out, speaks ? "<tr class=\"sum\">" : "<tr>");
    bwi_html(out, "<th scope=\"row\">%s</th><td>deck above %s", rule->words, height);
    if (rule->length > 0.0) {
        bwi_html(out, ", and longer than %s",
                 bw_quantity_print(out->arena, BW_LENGTH, rule->length, deck->units));
    }
    bwi_html(out, "</td><td>%s%s</td><td>%s: %s</td></tr>\n", speaks ? "YES " : "no",
             speaks ? bents_above(deck, rule->height, out) : "", bw_mark_text(rule->mark),
             rule->source);
}

static void write_falls(const bw_case *deck, bw_text *out)
{
    static const char *const columns[] = {"Asks for", "When", "This deck", "Source"};
    bwi_html(out,
             "<p class=\"keep\">The deck is up to %s above the ground and %s long. These "
             "are flags and no "
             "design rules; local rules come first. No guard is checked here.</p>\n",
             bw_quantity_print(out->arena, BW_LENGTH, highest(deck), deck->units),
             bw_quantity_print(out->arena, BW_LENGTH, deck_length(deck), deck->units));
    bwi_table_open(out, "Guards and fall height", columns, 4);
    for (size_t i = 0; i < sizeof fall_rules / sizeof fall_rules[0]; i++) {
        fall_row(deck, &fall_rules[i], out);
    }
    bwi_table_close(out);
    bwi_html(out, "<p>%s</p>\n", rail_heights);
}

/* ---- how many people ---- */

/* A grown person, as the tables of crowds reckon (COMPUTED there): 80 kg. */
static const double person = 80.0;

static void write_people(const bw_assessment *a, bw_text *out)
{
    const bw_case *deck = a->deck;
    const double area = deck->boards.width * deck_length(deck);
    const double count = floor(deck->loads.crowd * area / (person * bw_gravity) + 1e-9);
    bw_text_add(out, "<h3>For a sign</h3>\n");
    if (bw_report_verdict(a) != BW_WITHIN) {
        bw_text_add(out,
                    "<p>No number of people can be given while a check is over or cannot "
                    "say.</p>\n");
    } else if (deck->loads.crowd > 0.0) {
        bwi_html(out, "<p class=\"sign\">At most %s people on the deck</p>\n",
                 bw_arena_print(out->arena, "%.0f", count));
        bwi_html(
            out,
            "<p>%s on %s by %s of deck, at %s a person, rounded down [computed]. Within "
            "limits for that load, wherever they stand; not for jumping in step.</p>\n",
            bw_quantity_print(out->arena, BW_PRESSURE, deck->loads.crowd, deck->units),
            bw_quantity_print(out->arena, BW_LENGTH, deck->boards.width, deck->units),
            bw_quantity_print(out->arena, BW_LENGTH, deck_length(deck), deck->units),
            bw_quantity_print(out->arena, BW_MASS, person, BW_METRIC));
    } else {
        bw_text_add(out,
                    "<p>The case has no crowd, so no number of people was checked: one "
                    "rider at a time, and nobody standing about.</p>\n");
    }
}

void bwi_record_site(const bw_record *record, bw_text *out)
{
    bwi_section(out, "site");
    write_falls(record->assessment->deck, out);
    write_people(record->assessment, out);
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
