/* record_tables.c - members, materials, loads, strengths and grades. */
#include "html.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/* ---- every member ---- */

static const char *capital(bw_text *out, const char *word)
{
    char *copy = bw_arena_copy(out->arena, word);
    if (copy != NULL && copy[0] != '\0') {
        copy[0] = (char)toupper((unsigned char)copy[0]);
    }
    return bwi_or_fail(out, copy);
}

static void share_cell(const bw_member_result *m, int kind, bw_text *out)
{
    const bw_finding *f = &m->findings[kind];
    if (!m->has[kind]) {
        bw_text_add(out, "<td class=\"n\">-</td>");
        return;
    }
    const bool worst = f == bwi_worst_finding(m);
    const bool known = bwi_finding_verdict(f) != BW_CANNOT_SAY;
    const char *percent = bwi_percent(out->arena, f->ratio.utilisation, 0);
    bwi_html(out, "<td class=\"n\"><span class=\"%s\">%s</span></td>",
             worst ? "worst" : "w", known ? bwi_or_fail(out, percent) : "?");
}

static const char *result_word(bw_verdict verdict)
{
    return verdict == BW_OVER ? "OVER" : verdict == BW_WITHIN ? "within" : "cannot say";
}

static void write_group(const bw_member_result *members, size_t count, bw_text *out)
{
    int kinds[BW_CHECK_KIND_COUNT] = {0};
    const char *columns[BWI_TABLE_COLUMNS + 1] = {capital(out, members[0].role), "Log"};
    const size_t n = bwi_used_kinds(members, count, kinds);
    for (size_t k = 0; k < n; k++) {
        columns[k + 2] = bw_arena_print(out->arena, ">%s", bwi_kind_word(kinds[k]));
        if (columns[k + 2] == NULL) {
            out->failed = true;
            return;
        }
    }
    columns[n + 2] = "Result";
    bwi_table_open(
        out,
        bwi_or_fail(
            out, bw_arena_print(out->arena, "%ss: percent of capacity used", columns[0])),
        columns, n + 3);
    for (size_t i = 0; i < count; i++) {
        bw_text_add(out, "<tr>");
        bwi_head_cell(out, members[i].name);
        bwi_cell(out, members[i].log->name);
        for (size_t k = 0; k < n; k++) {
            share_cell(&members[i], kinds[k], out);
        }
        bwi_cell(out, result_word(bwi_member_verdict(&members[i])));
        bw_text_add(out, "</tr>\n");
    }
    bwi_table_close(out);
}

void bwi_record_members(const bw_record *record, bw_text *out)
{
    const bw_assessment *a = record->assessment;
    bwi_section(out, "members");
    bw_text_add(out,
                "<p class=\"keep\">Percent of the capacity used by the worst place, load "
                "and rider "
                "position, rounded up; over 100 is over. Underlined: the worst of the "
                "member. -: not a check of this member. ?: cannot say.</p>\n");
    for (size_t i = 0; i < a->n_members; i += bwi_same_role(a, i)) {
        write_group(&a->members[i], bwi_same_role(a, i), out);
    }
    bwi_section_end(out);
}

/* ---- materials ---- */

/* Length to cut: of a brace, from its drawing. */
static double cut_length(const bw_record *record, size_t member)
{
    const bw_member_result *m = &record->assessment->members[member];
    if (strcmp(m->role, "brace") != 0) {
        return m->length;
    }
    const bw_drawing *d = record->drawing;
    const bw_drawn_view *views[] = {&d->rows[m->row], &d->bents[m->bent]};
    for (size_t v = 0; v < 2; v++) {
        for (size_t k = 0; k < views[v]->n_logs; k++) {
            const bw_drawn_log *log = &views[v]->logs[k];
            if (log->member == member && log->n_places == 2) {
                return hypot(log->places[1].x - log->places[0].x,
                             log->places[1].y - log->places[0].y);
            }
        }
    }
    return 0.0;
}

static bool same_use(const bw_member_result *a, const bw_member_result *b)
{
    return a->log == b->log && strcmp(a->role, b->role) == 0;
}

static void girth_cell(const bw_record *record, double diameter, bw_text *out)
{
    const bw_units units = record->assessment->deck->units;
    const char *girth = bw_length_print_small(out->arena, pi * diameter, units);
    const char *across = bw_length_print_small(out->arena, diameter, units);
    bwi_html(out, "<td class=\"n\">%s<br>(%s)</td>", girth, across);
}

/* All members of one use of one log, the first of which this is. */
static void write_use(const bw_record *record, size_t first, bw_text *out)
{
    const bw_assessment *a = record->assessment;
    const bw_member_result *m = &a->members[first];
    const bw_units units = a->deck->units;
    double longest = 0.0, sum = 0.0;
    int pieces = 0;
    for (size_t k = first; k < a->n_members; k++) {
        if (same_use(m, &a->members[k])) {
            longest = fmax(longest, cut_length(record, k));
            sum += cut_length(record, k);
            pieces++;
        }
    }
    const double length = m->log->length > 0.0 ? m->log->length : longest;
    const double mass = bw_log_mass(m->log, length, 0.0, longest);
    bw_text_add(out, "<tr>");
    bwi_html(out, "<th scope=\"row\">%s<br><span class=\"w\">%s</span></th>",
             m->log->name, m->log->species == NULL ? "" : m->log->species->common);
    bwi_cell(out, m->role);
    bwi_number_cell(out, bw_arena_print(out->arena, "%d", pieces));
    girth_cell(record, m->log->butt_diameter, out);
    girth_cell(record, m->log->tip_diameter, out);
    bwi_number_cell(out, bw_quantity_print(out->arena, BW_LENGTH, longest, units));
    bwi_number_cell(out, bw_quantity_print(out->arena, BW_LENGTH, sum, units));
    bwi_number_cell(out, bw_quantity_print(out->arena, BW_MASS, ceil(mass), units));
    bw_text_add(out, "</tr>\n");
}

static void write_boards(const bw_record *record, bw_text *out)
{
    const bw_case *deck = record->assessment->deck;
    bw_arena *arena = out->arena;
    const double length = deck->bents[deck->n_bents - 1].at - deck->bents[0].at;
    const double pitch = bwi_board_pitch(), width = 0.0889, gap = pitch - width;
    const double boards = ceil((length + gap) / pitch - 1e-9);
    bwi_html(
        out,
        "<li>%s boards, %s wide (a nominal 2x4 laid flat), %s thick, %s long, with gaps "
        "of %s so that water drains: (%s of deck + gap) / (width + gap), rounded up "
        "[common practice; gap: read, USFS Trail Construction and Maintenance "
        "Notebook].</li>\n",
        bw_arena_print(arena, "%.0f", boards),
        bw_length_print_small(arena, width, deck->units),
        bw_length_print_small(arena, deck->boards.board_thickness, deck->units),
        bw_quantity_print(arena, BW_LENGTH, deck->boards.width, deck->units),
        bw_length_print_small(arena, gap, deck->units),
        bw_quantity_print(arena, BW_LENGTH, length, deck->units));
    bwi_html(out,
             "<li>%s screws for the boards: two where a board crosses a row [common "
             "practice]. They keep boards in place and are not checked.</li>\n",
             bw_arena_print(arena, "%.0f", 2.0 * boards * (double)deck->n_rows));
    bw_text_add(
        out, "<li>What holds stringers, caps and braces in place: not checked, and not "
             "counted here.</li>\n");
}

void bwi_record_materials(const bw_record *record, bw_text *out)
{
    static const char *const columns[] = {"Log",
                                          "Used as",
                                          ">Pieces",
                                          ">Butt girth (across)",
                                          ">Tip girth (across)",
                                          ">Longest",
                                          ">All together",
                                          ">Heaviest"};
    const bw_assessment *a = record->assessment;
    bwi_section(out, "materials");
    bwi_table_open(
        out, "Logs: girths under bark, lengths as framed, heaviest piece as green wood",
        columns, 8);
    for (size_t k = 0; k < a->n_members; k++) {
        bool seen = false;
        for (size_t j = 0; j < k && !seen; j++) {
            seen = same_use(&a->members[j], &a->members[k]);
        }
        if (!seen) {
            write_use(record, k, out);
        }
    }
    bwi_table_close(out);
    bw_text_add(out,
                "<p>Add what sticks out over the ends and what joints need. Lengths of "
                "caps run from outer row to outer row; posts include what is in the "
                "ground.</p>\n<ul>\n");
    write_boards(record, out);
    bw_text_add(out, "</ul>\n");
    bwi_section_end(out);
}

/* ---- loads and assumptions ---- */

static void load_row(bw_text *out, const char *what, const char *value,
                     const char *remark)
{
    bw_text_add(out, "<tr>");
    bwi_head_cell(out, what);
    bwi_number_cell(out, value);
    bwi_cell(out, remark);
    bw_text_add(out, "</tr>\n");
}

static void quantity_row(bw_text *out, const char *what, bw_quantity quantity,
                         double value, bw_units units)
{
    const bool none = value == 0.0;
    load_row(out, what, none ? "none" : bwi_value(out->arena, quantity, value, units),
             none ? "" : bwi_value(out->arena, quantity, value, bwi_other_units(units)));
}

static void write_loads(const bw_assessment *a, bw_text *out)
{
    static const char *const columns[] = {"Load or limit", ">Value", "Besides"};
    const bw_case *deck = a->deck;
    const bw_loads *l = &deck->loads;
    const bw_units units = deck->units;
    bw_arena *arena = out->arena;
    bwi_table_open(out, "Loads and limits", columns, 3);
    quantity_row(out, "rider with bike", BW_MASS, l->mass, units);
    if (l->mass > 0.0) {
        quantity_row(out, "the same, landing, at one place", BW_FORCE,
                     l->mass * l->factor * bw_gravity, units);
        load_row(out, "landing over standing", bw_arena_print(arena, "%.4g", l->factor),
                 "");
        load_row(out, deck->basis->duration_title,
                 l->load_duration > 0.0 ? bw_arena_print(arena, "%.4g", l->load_duration)
                                        : "by rule",
                 "");
    }
    quantity_row(out, "crowd", BW_PRESSURE, l->crowd, units);
    quantity_row(out, "snow", BW_PRESSURE, l->snow, units);
    quantity_row(out, "boards, dead weight", BW_PRESSURE, deck->boards.board_pressure,
                 units);
    quantity_row(out, "further dead weight", BW_PRESSURE, l->extra_dead, units);
    quantity_row(out, "dead weight, all", BW_FORCE, a->dead_weight, units);
    load_row(out, "deflection limit, live",
             bw_arena_print(arena, "span/%.4g", deck->limits.live), "");
    load_row(out, "sag limit, long term",
             bw_arena_print(arena, "span/%.4g", deck->limits.long_term), "");
    quantity_row(out, "flat cut on each log", BW_LENGTH, deck->limits.seat_depth, units);
    bwi_table_close(out);
}

static void write_assumption(const bw_assumption *a, bw_text *out)
{
    const char *mark = bw_mark_text(a->mark);
    const bool sourced = a->source != NULL && a->source[0] != '\0';
    bwi_html(out, "<li>%s", a->text);
    if (mark[0] != '\0' || sourced) {
        bwi_html(out, " [%s%s%s]", mark, mark[0] != '\0' && sourced ? ": " : "",
                 sourced ? a->source : "");
    }
    bw_text_add(out, "</li>\n");
}

void bwi_record_loads(const bw_record *record, bw_text *out)
{
    const bw_assessment *a = record->assessment;
    bwi_section(out, "loads");
    bwi_html(out, "<p class=\"keep\">Checked by %s.</p>\n", a->deck->basis->title);
    write_loads(a, out);
    if (a->n_assumptions > 0) {
        bw_text_add(out,
                    "<h3>Assumed</h3>\n<p>In brackets: how far it can be relied on, and "
                    "whence.</p>\n<ul>\n");
        for (size_t i = 0; i < a->n_assumptions; i++) {
            write_assumption(&a->assumptions[i], out);
        }
        bw_text_add(out, "</ul>\n");
    }
    bwi_section_end(out);
}

/* ---- strengths ---- */

static const char *property_title(int property)
{
    static const char *const titles[BW_PROPERTY_COUNT] = {
        [BW_BENDING_STRENGTH] = "Bending",
        [BW_SHEAR_STRENGTH] = "Shear",
        [BW_COMPRESSION] = "Compression along the grain",
        [BW_BEARING] = "Bearing across the grain",
        [BW_MODULUS] = "Modulus of elasticity, deflection",
        [BW_MODULUS_MIN] = "Modulus of elasticity, stability",
    };
    return titles[property];
}

static bool same_strength(const bw_assessment *a, size_t x, size_t y)
{
    const bw_log *p = &a->deck->logs[x], *q = &a->deck->logs[y];
    return p->species == q->species && p->strength_class == q->strength_class &&
           bwi_same_grade(p, q);
}

static bool is_grade_factor(const bw_term *t)
{
    for (size_t q = 0; t->symbol != NULL && q < BW_GRADE_QUESTIONS; q++) {
        if (strcmp(t->symbol, bw_grade_questions[q].symbol) == 0) {
            return true;
        }
    }
    return false;
}

static void ladder_row(const bw_term *t, bool last, bw_units units, bwi_sources *sources,
                       bw_text *out)
{
    const char *own = bwi_value(out->arena, t->quantity, t->value, units);
    const char *other =
        bwi_value(out->arena, t->quantity, t->value, bwi_other_units(units));
    const bool same = own != NULL && other != NULL && strcmp(own, other) == 0;
    bw_text_add(out, last ? "<tr class=\"sum\">" : "<tr>");
    bwi_head_cell(out, t->symbol == NULL ? "" : t->symbol);
    bwi_cell(out, t->meaning == NULL ? "" : t->meaning);
    bwi_number_cell(out, own);
    bwi_number_cell(out, same ? "" : other);
    bwi_cell(out, bwi_whence(out->arena, sources, t->mark, t->source));
    bw_text_add(out, "</tr>\n");
}

/* The factors of the grade are one line here: each has a section of its own. */
static void ladder_rows(const bw_working *ladder, const char *title, bw_units units,
                        bwi_sources *sources, bw_text *out)
{
    bw_term grade = {"K",
                     "product of the factors under Graded by eye",
                     1.0,
                     BW_NUMBER,
                     BW_MARK_JUDGEMENT,
                     NULL};
    bwi_html(
        out,
        "<tbody><tr class=\"rg\"><th scope=\"rowgroup\" colspan=\"5\">%s</th></tr>\n",
        title);
    for (size_t i = 0; i < ladder->count; i++) {
        const bw_term *t = &ladder->items[i];
        const bool grades = is_grade_factor(t);
        grade.value *= grades ? t->value : 1.0;
        if (grades && (i + 1 == ladder->count || !is_grade_factor(t + 1))) {
            ladder_row(&grade, false, units, sources, out);
        } else if (!grades) {
            ladder_row(t, i + 1 == ladder->count, units, sources, out);
        }
    }
    bw_text_add(out, "</tbody>\n");
    out->failed = out->failed || ladder->failed;
}

static void write_strength(const bw_assessment *a, size_t log, bw_text *out)
{
    const bw_units units = a->deck->units;
    const char *const columns[] = {
        "Symbol", "What it is", units == BW_IMPERIAL ? ">Imperial" : ">Metric",
        units == BW_IMPERIAL ? ">Metric" : ">Imperial", "Where from"};
    bwi_sources sources = {.count = 0};
    bw_text names = bw_text_new(out->arena);
    const bw_log *l = &a->deck->logs[log];
    for (size_t k = log; k < a->deck->n_logs; k++) {
        if (same_strength(a, log, k)) {
            bw_text_print(&names, "%s%s", k == log ? "" : ", ", a->deck->logs[k].name);
        }
    }
    bwi_html(out, "<h3>%s%s%s (%s)</h3>\n", l->species == NULL ? "-" : l->species->common,
             l->strength_class == NULL ? "" : ", class ",
             l->strength_class == NULL ? "" : l->strength_class->name,
             bwi_or_fail(out, bw_text_string(&names)));
    bwi_grouped_table_open(out, "From the table of species to what the checks use",
                           columns, 5);
    for (int p = 0; p < BW_PROPERTY_COUNT; p++) {
        ladder_rows(&a->references[log].ladder[p], property_title(p), units, &sources,
                    out);
    }
    bw_text_add(out, "</table></div>\n");
    bwi_list_sources(&sources, out);
}

void bwi_record_strengths(const bw_record *record, bw_text *out)
{
    const bw_assessment *a = record->assessment;
    bwi_section(out, "strengths");
    bw_text_add(
        out, "<p class=\"keep\">Step by step from clear wood to reference values, before "
             "the factors "
             "of each check. Marks: read - seen in the source named; computed - worked "
             "out; memory - recalled, verify it; practice - of the trade; judgement - "
             "chosen here on the cautious side.</p>\n");
    for (size_t k = 0; k < a->deck->n_logs && a->references != NULL; k++) {
        bool seen = false;
        for (size_t j = 0; j < k && !seen; j++) {
            seen = same_strength(a, j, k);
        }
        if (!seen) {
            write_strength(a, k, out);
        }
    }
    bwi_section_end(out);
}

/* ---- grades ---- */

static const bw_property graded[] = {BW_BENDING_STRENGTH, BW_SHEAR_STRENGTH,
                                     BW_COMPRESSION, BW_BEARING, BW_MODULUS};
enum { GRADED = sizeof graded / sizeof graded[0] };

static void grade_cell(double factor, bw_text *out)
{
    bwi_number_cell(out, isfinite(factor) ? bw_arena_print(out->arena, "%.3f", factor)
                                          : "none");
}

static void grade_row(const bw_log *log, size_t q, bw_text *out)
{
    const bw_grade_question *question = &bw_grade_questions[q];
    const bool answered = bw_grade_is_answered(&log->grade, q);
    bw_text_add(out, "<tr>");
    bwi_head_cell(out, question->symbol);
    bwi_html(out, "<td>%s Best: %s.</td>", question->question, question->sound);
    bwi_cell(out, answered ? "given" : "open");
    for (size_t i = 0; i < GRADED; i++) {
        grade_cell(bwi_grade_left(log, q, graded[i]), out);
    }
    bw_text_add(out, "</tr>\n");
}

static void write_grade(const bw_case *deck, size_t first, bw_text *out)
{
    static const char *const columns[] = {"Factor", "Question",     "Answer",  ">Bending",
                                          ">Shear", ">Compression", ">Across", ">E"};
    const bw_log *log = &deck->logs[first];
    bw_text names = bw_text_new(out->arena);
    bw_text_add(&names, "Logs: ");
    for (size_t k = first; k < deck->n_logs; k++) {
        if (bwi_same_grade(log, &deck->logs[k])) {
            bw_text_print(&names, "%s%s", k == first ? "" : ", ", deck->logs[k].name);
        }
    }
    bwi_table_open(out, bwi_or_fail(out, bw_text_string(&names)), columns, 8);
    for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
        grade_row(log, q, out);
    }
    bw_text_add(out, "<tr class=\"sum\"><th scope=\"row\" colspan=\"3\">all</th>");
    for (size_t i = 0; i < GRADED; i++) {
        double all = 1.0;
        for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
            all *= bwi_grade_left(log, q, graded[i]);
        }
        grade_cell(all, out);
    }
    bw_text_add(out, "</tr>\n");
    bwi_table_close(out);
}

void bwi_record_grades(const bw_record *record, bw_text *out)
{
    const bw_case *deck = record->assessment->deck;
    bwi_section(out, "grades");
    bw_text_add(out, "<p class=\"keep\">What is left of each reference value. none: no "
                     "rule reaches that far, "
                     "so the checks cannot say. Open questions count on the cautious "
                     "side.</p>\n");
    for (size_t k = 0; k < deck->n_logs; k++) {
        if (!bwi_grade_was_shown(deck, k)) {
            write_grade(deck, k, out);
        }
    }
    bwi_section_end(out);
}
