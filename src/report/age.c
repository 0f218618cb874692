/* age.c - a deck as it was found: what its logs have lost, what must be replaced, and
 * when to look again. */
#include "internal.h"

#include <math.h>

typedef struct {
    bw_text *out;
    bw_arena *arena;
    const bw_aged_deck *aged;
    bw_units units;
} writer;

static const char *thickness(const writer *to, double value)
{
    return bwi_or_fail(to->out, bw_length_print_small(to->arena, value, to->units));
}

static void add_head(const writer *to)
{
    const bw_case *deck = to->aged->built.deck;
    bw_text line = bw_text_new(to->arena);
    bw_text_print(&line, "%s, as found on %s",
                  deck->title == NULL ? "Untitled deck" : deck->title,
                  bwi_or_fail(to->out, bw_date_print(to->arena, to->aged->last)));
    bwi_paragraph(to->out, "", bwi_or_fail(to->out, bw_text_string(&line)));
    bw_text_add(to->out, "\n");
}

static bool is_over(const bw_aged_member *m)
{
    return m->gone || bw_verdict_of(m->today) == BW_OVER;
}

static bool is_used_up(const bw_aged_member *m)
{
    return m->section_left < bw_reserve_least;
}

/* Those whose reserve is used up, with commas; null if there are none. */
static const char *used_up_names(const writer *to)
{
    bw_text names = bw_text_new(to->arena);
    for (size_t i = 0; i < to->aged->n_members; i++) {
        if (is_used_up(&to->aged->members[i])) {
            bw_text_print(&names, "%s%s", names.length > 0 ? ", " : "",
                          to->aged->members[i].name);
        }
    }
    return names.length > 0 ? bwi_or_fail(to->out, bw_text_string(&names)) : NULL;
}

static void add_verdict(const writer *to)
{
    const bw_aged_deck *aged = to->aged;
    if (aged->today.members == NULL) {
        bwi_paragraph(to->out, "",
                      "OVER: of a log hardly anything is left, so the frame cannot be "
                      "worked out any more. Keep off.");
        bwi_text_to_do(&aged->today, to->out);
        return;
    }
    const char *used = used_up_names(to);
    if (used != NULL) {
        bwi_paragraph(
            to->out, "REPLACE: ",
            bwi_or_fail(to->out, bw_arena_print(to->arena,
                                                "%s. Less than two thirds of the bending "
                                                "strength is left there.",
                                                used)));
        bw_text_add(to->out, "\n");
    }
    bwi_paragraph(to->out, used != NULL ? "The numbers alone: " : "",
                  bwi_or_fail(to->out, bw_report_verdict_text(to->arena, &aged->today)));
    bwi_text_to_do(&aged->today, to->out);
}

/* ---- what to do ---- */

static const char *replace_words(const writer *to, const bw_aged_member *m)
{
    bw_text line = bw_text_new(to->arena);
    bw_text_print(&line, "replace %s: ", m->name);
    if (m->gone) {
        bw_text_add(&line, "hardly anything of it is left");
    } else {
        bw_text_print(
            &line, "%s at %s %% of its capacity, %s %% as built",
            bwi_or_fail(to->out, bwi_check_words(to->arena, m->worst->check->id)),
            bwi_or_fail(to->out, bwi_percent(to->arena, m->today, 1)),
            bwi_or_fail(to->out, bwi_percent(to->arena, m->built, 1)));
    }
    return bwi_or_fail(to->out, bw_text_string(&line));
}

static const char *used_words(const writer *to, const bw_aged_member *m)
{
    return bwi_or_fail(
        to->out,
        bw_arena_print(
            to->arena,
            "replace %s: its reserve is used up. %.0f %% of its bending strength "
            "is left where it was measured, and poles are replaced at two "
            "thirds (memory: rule of utilities), whatever the checks say",
            m->name, floor(100.0 * m->section_left)));
}

static const char *short_words(const writer *to, const bw_aged_member *m)
{
    return bwi_or_fail(
        to->out,
        bw_arena_print(
            to->arena,
            "on its trend %s is within limits for %s from that day on, no more", m->name,
            m->years_left == 0   ? "less than a year"
            : m->years_left == 1 ? "1 year"
                                 : bw_arena_print(to->arena, "%d years", m->years_left)));
}

/* What to say of a member; null: nothing. */
static const char *advice(const writer *to, const bw_aged_member *m)
{
    static const int soon = 3; /* years */
    if (is_over(m)) {
        return replace_words(to, m);
    }
    if (bw_verdict_of(m->today) == BW_CANNOT_SAY) {
        return bwi_or_fail(to->out, bw_arena_print(to->arena, "%s: cannot say", m->name));
    }
    if (is_used_up(m)) {
        return used_words(to, m);
    }
    return m->has_trend && m->years_left < soon ? short_words(to, m) : NULL;
}

static void add_advice(const writer *to)
{
    int number = 0;
    bwi_heading(to->out, "What to do");
    for (int pass = 0; pass < 2; pass++) { /* what is to be replaced comes first */
        for (size_t i = 0; i < to->aged->n_members; i++) {
            const bw_aged_member *m = &to->aged->members[i];
            const bool first = is_over(m) || is_used_up(m);
            const char *words = first == (pass == 0) ? advice(to, m) : NULL;
            if (words != NULL) {
                const char *lead = bw_arena_print(to->arena, "  %d. ", ++number);
                bwi_paragraph(to->out, bwi_or_fail(to->out, lead), words);
            }
        }
    }
    if (number == 0) {
        bwi_paragraph(
            to->out, "  ",
            "Of what was measured nothing needs replacing today by these checks.");
    }
}

static void add_next_look(const writer *to)
{
    const bw_aged_deck *aged = to->aged;
    bw_text line = bw_text_new(to->arena);
    if (aged->months_to_look == 0) {
        bw_text_add(&line, "Keep off until that is done, and look again then.");
    } else {
        const long day = bw_date_day(aged->last) + 30L * aged->months_to_look;
        const bw_date next = aged->months_to_look == 12 ? bw_date_year_later(aged->last)
                                                        : bw_date_of_day(day);
        bw_text_print(&line,
                      "Look again by %s, and after every storm: half of the time that is "
                      "left on the trend at most (judgement), and never more than a year "
                      "(read: decks and trail bridges are inspected yearly).",
                      bwi_or_fail(to->out, bw_date_print(to->arena, next)));
    }
    bw_text_add(to->out, "\n");
    bwi_paragraph(to->out, "  ", bwi_or_fail(to->out, bw_text_string(&line)));
}

/* ---- the table ---- */

static const char *left_words(const writer *to, const bw_aged_member *m)
{
    if (is_over(m) || is_used_up(m)) {
        return "replace";
    }
    if (m->years_left < 0) {
        return "cannot say";
    }
    if (!m->has_trend) {
        return "no trend known";
    }
    if (m->years_left >= BW_AGE_HORIZON) {
        return bwi_or_fail(to->out,
                           bw_arena_print(to->arena, "%d or more", BW_AGE_HORIZON));
    }
    return m->years_left == 0
               ? "not one year"
               : bwi_or_fail(to->out,
                             bw_arena_print(to->arena, "%d year%s", m->years_left,
                                            m->years_left == 1 ? "" : "s"));
}

static const char *rate_words(const writer *to, const bw_aged_member *m)
{
    return m->has_trend ? thickness(to, fmax(m->outer_rate, m->shell_rate)) : "-";
}

static void add_row(const writer *to, bwi_table *table, const bw_aged_member *m)
{
    bwi_table_cell(table, m->name);
    bwi_table_cell(table, thickness(to, m->loss.outer));
    bwi_table_cell(table, m->loss.shell > 0.0 ? thickness(to, m->loss.shell) : "solid");
    bwi_table_cell(table,
                   bw_arena_print(to->arena, "%.0f", floor(100.0 * m->section_left)));
    bwi_table_cell(table, bwi_percent(to->arena, m->built, 0));
    bwi_table_cell(table, m->gone ? "none left" : bwi_percent(to->arena, m->today, 0));
    bwi_table_cell(table, rate_words(to, m));
    bwi_table_cell(table, left_words(to, m));
}

static void add_table(const writer *to)
{
    static const bwi_column columns[] = {
        {"Measured", false}, {"lost", true},  {"shell", true},  {"left %", true},
        {"built %", true},   {"now %", true}, {"a year", true}, {"within for", false}};
    bwi_heading(to->out, "Every member that was measured");
    bwi_paragraph(
        to->out, "",
        "Lost: depth gone all round, soft wood included. Shell: sound wood round a "
        "hollow. Left: bending strength at the place measured, of that when new. Built, "
        "now: percent of the capacity used by its worst check. A year: depth lost in a "
        "year, the most since any look before, which counts as half a year ago at least. "
        "Within for: whole years from the "
        "day it "
        "was found, if that goes on in a straight line, until a check is over or two "
        "thirds "
        "of the bending strength are left; no promise.");
    bw_text_add(to->out, "\n");
    bwi_table table = bwi_table_new(to->out, columns, sizeof columns / sizeof columns[0]);
    for (size_t i = 0; i < to->aged->n_members; i++) {
        add_row(to, &table, &to->aged->members[i]);
    }
    bwi_table_print(&table, 2);
}

static const char *const limits_of_this[] = {
    "A trend is no promise: rot speeds up, and begins where nobody probed. It is "
    "followed "
    "in a straight line because so few looks allow no more.",
    "The loss that was measured at one place counts along the whole log, and what is "
    "left "
    "counts as sound. Early decay takes strength before it can be seen or probed: wood "
    "near "
    "soft wood is weaker than this.",
    "Members that nobody measured count as they were built.",
    "Joints, screws and boards rot too, and were not measured here.", NULL};

static void add_list(const char *heading, const char *const *items, bw_text *out)
{
    bwi_heading(out, heading);
    for (; items != NULL && *items != NULL; items++) {
        bwi_paragraph(out, "  - ", *items);
    }
}

void bw_report_age_text(const bw_aged_deck *aged, bw_text *out)
{
    const writer to = {out, out->arena, aged, aged->built.deck->units};
    add_head(&to);
    add_verdict(&to);
    add_advice(&to);
    add_next_look(&to);
    add_table(&to);
    if (aged->today.governing != NULL) {
        bwi_heading(out, "The governing line by hand, today");
        bwi_text_working(aged->today.governing, to.units, out);
    }
    add_list("What this rests on", limits_of_this, out);
    add_list("NOT CHECKED", aged->built.not_checked, out);
    add_list("Cautions", aged->built.cautions, out);
}
