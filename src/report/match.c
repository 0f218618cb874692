/* match.c - which log of a pile goes where, on paper for the pile. */
#include "internal.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

typedef struct {
    bw_arena *arena;
    bw_text *out;
    bw_units units;
} writer;

static const char *length(const writer *to, double value)
{
    return bwi_or_fail(to->out,
                       bw_quantity_print(to->arena, BW_LENGTH, value, to->units));
}

/* To a quarter of an inch or five millimetres, as a tape is read: to the nearest, or up
 * where a log is wanted. */
static const char *girth(const writer *to, double diameter, bool up)
{
    const double step = to->units == BW_IMPERIAL ? bw_inch / 4.0 : 0.005;
    const double steps = pi * diameter / step;
    const double whole = up ? ceil(steps - 1e-6) : round(steps);
    return bwi_or_fail(to->out,
                       bw_length_print_small(to->arena, whole * step, to->units));
}

static const char *percent(const writer *to, double utilisation)
{
    const char *number = bwi_percent(to->arena, utilisation, 0);
    return bwi_or_fail(to->out,
                       bw_arena_print(to->arena, "%s %%", bwi_or_fail(to->out, number)));
}

static const char *check_of(const writer *to, const bw_match_line *l, const char *none)
{
    return l->check != NULL ? bwi_or_fail(to->out, bwi_check_words(to->arena, l->check))
                            : none;
}

static void add_verdict(const writer *to, const bw_match_report *r)
{
    bw_text line = bw_text_new(to->arena);
    if (r->n_missing == 0) {
        bw_text_print(&line, "EVERY MEMBER HAS A LOG (%zu of the %zu in %s). ",
                      r->n_lines, r->n_pile, r->pile);
    } else {
        bw_text_print(&line,
                      "%zu OF %zu MEMBERS WANT%s A LOG that this pile (%s) has not. ",
                      r->n_missing, r->n_lines, r->n_missing == 1 ? "S" : "", r->pile);
    }
    bw_text_print(&line, "The whole deck was then checked %s: %s",
                  r->n_missing == 0 ? "with these logs in place"
                                    : "with these logs, and logs of the wanted size, in "
                                      "place",
                  bwi_or_fail(to->out, bw_report_verdict_text(to->arena, r->assessment)));
    bw_text_add(to->out, "\n");
    bwi_paragraph(to->out, "", bwi_or_fail(to->out, bw_text_string(&line)));
    bwi_text_to_do(r->assessment, to->out);
}

static void add_member(const writer *to, bwi_table *table, const bw_match_line *l)
{
    bwi_table_cell(table, l->member);
    bwi_table_cell(table, l->log != NULL ? l->log : "WANTED");
    bwi_table_cell(table, l->lies != NULL ? l->lies : "");
    bwi_table_cell(table, length(to, l->length));
    bwi_table_cell(table, girth(to, l->butt, false));
    bwi_table_cell(table, girth(to, l->tip, false));
    bwi_table_cell(table, percent(to, l->utilisation));
    bwi_table_cell(table, check_of(to, l, ""));
}

static void add_members(const writer *to, const bw_match_report *r)
{
    static const bwi_column columns[] = {
        {"Member", false}, {"Log", false},  {"Lies", false}, {"Length", true},
        {"Butt", true},    {"There", true}, {"Works", true}, {"at", false}};
    bwi_heading(to->out, "Which log goes where");
    bwi_table table = bwi_table_new(to->out, columns, sizeof columns / sizeof columns[0]);
    for (size_t k = 0; k < r->n_lines; k++) {
        add_member(to, &table, &r->lines[k]);
    }
    bwi_table_print(&table, 2);
    bwi_paragraph(
        to->out, "  ",
        "Every log is cut from its butt end. Length: what the place wants, with "
        "something to cut square. Butt, There: girth under bark at the butt and "
        "where that length ends. Works: the worst check in the whole deck.");
}

static void add_wanted(const writer *to, const bw_match_report *r)
{
    bwi_heading(to->out, "Wanted");
    for (size_t k = 0; k < r->n_lines; k++) {
        const bw_match_line *l = &r->lines[k];
        bw_text line = bw_text_new(to->arena);
        if (l->log != NULL) {
            continue;
        }
        if (l->passes) {
            bw_text_print(&line,
                          "%s: %s, %s long, girth under bark at least %s at the butt and "
                          "%s at the other end (as grown as the one drawn)",
                          l->member, l->species, length(to, l->length),
                          girth(to, l->butt, true), girth(to, l->tip, true));
            if (strcmp(l->role, "stringer") == 0 && r->n_missing < r->n_lines) {
                bw_text_print(&line,
                              "; to lie level with the others about %s in its middle",
                              girth(to, r->target, true));
            }
        } else {
            bw_text_print(
                &line,
                "%s: no girth of %s was found that passes here and fits under "
                "the deck; with the log that is drawn it works at %s (%s). More "
                "than the log must change",
                l->member, l->species, percent(to, l->utilisation),
                check_of(to, l, "not known"));
        }
        bwi_paragraph(to->out, "  - ", bwi_or_fail(to->out, bw_text_string(&line)));
    }
}

static void add_left(const writer *to, const bw_match_report *r)
{
    static const bwi_column columns[] = {{"Log", false},   {"Species", false},
                                         {"Length", true}, {"Butt", true},
                                         {"Tip", true},    {"Why it is left", false}};
    bwi_heading(to->out, "Left over");
    if (r->n_left == 0) {
        bw_text_add(to->out, "  Nothing.\n");
        return;
    }
    bwi_table table = bwi_table_new(to->out, columns, sizeof columns / sizeof columns[0]);
    for (size_t k = 0; k < r->n_left; k++) {
        const bw_match_left *l = &r->left[k];
        bwi_table_cell(&table, l->log);
        bwi_table_cell(&table, l->species);
        bwi_table_cell(&table, length(to, l->length));
        bwi_table_cell(&table, girth(to, l->butt, false));
        bwi_table_cell(&table, girth(to, l->tip, false));
        bwi_table_cell(&table,
                       l->note == NULL || l->note[0] == '\0'
                           ? l->why
                           : bwi_or_fail(to->out, bw_arena_print(to->arena, "%s (%s)",
                                                                 l->why, l->note)));
    }
    bwi_table_print(&table, 2);
}

/* Cubic feet or cubic metres, from the unit of length. */
static const char *volume(const writer *to, double value)
{
    const double foot = bw_unit_size(BW_LENGTH, "ft");
    const char *text =
        to->units == BW_IMPERIAL
            ? bw_arena_print(to->arena, "%.1f cubic ft", value / (foot * foot * foot))
            : bw_arena_print(to->arena, "%.3f m3", value);
    return bwi_or_fail(to->out, text);
}

static void add_choice(const writer *to, const bw_match_report *r)
{
    const double part =
        to->units == BW_IMPERIAL ? bw_inch : bw_unit_size(BW_LENGTH, "cm");
    size_t level = 0;
    for (size_t k = 0; k < r->n_lines; k++) {
        level += r->lines[k].log != NULL && strcmp(r->lines[k].role, "stringer") == 0;
    }
    bw_text line = bw_text_new(to->arena);
    bw_text_print(
        &line,
        "The logs taken hold %s of wood; the %zu stringers lie off one depth of "
        "%s by %s altogether, and %s off counts as %s of wood (judgement). "
        "Nothing that the checks did not rule out costs less. %zu pairs of log "
        "and member were ruled out: too short, or failing in one of %zu full "
        "checks of the deck, or weaker than what failed there in such a place.",
        volume(to, r->wood), level,
        bwi_or_fail(to->out, bw_length_print_small(to->arena, r->target, to->units)),
        bwi_or_fail(to->out, bw_length_print_small(to->arena, r->uneven, to->units)),
        to->units == BW_IMPERIAL ? "an inch" : "a centimetre",
        volume(to, r->weight * part), r->ruled_out, r->assessments);
    bwi_heading(to->out, "How it was chosen");
    bwi_paragraph(to->out, "  ", bwi_or_fail(to->out, bw_text_string(&line)));
    bwi_paragraph(
        to->out, "  ",
        "Not needed: others do with less wood, or lie more level. One long log is "
        "not cut into two members. Look every log over before it goes up.");
}

void bw_report_match_text(const bw_match_report *r, bw_text *out)
{
    const bw_case *deck = r->assessment->deck;
    const writer to = {out->arena, out, deck->units};
    bwi_paragraph(out, "", bwi_title(deck));
    add_verdict(&to, r);
    if (r->n_missing > 0) {
        add_wanted(&to, r);
    }
    add_members(&to, r);
    add_left(&to, r);
    add_choice(&to, r);
    bwi_text_list("not-checked", r->assessment->not_checked, out);
    bwi_text_list("cautions", r->assessment->cautions, out);
}
