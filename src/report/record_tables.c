/* record_tables.c - members, materials, loads, strengths and grades. */
#include "html.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

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
    const bool worst = f == bw_member_worst(m);
    const bool known = bwi_finding_verdict(f) != BW_CANNOT_SAY;
    const char *percent = bwi_percent(out->arena, f->ratio.utilisation, 0);
    bwi_html(out, worst ? "<td class=\"n\"><b>%s</b></td>" : "<td class=\"n\">%s</td>",
             known ? bwi_or_fail(out, percent) : "?");
}

static const char *result_word(bw_verdict verdict)
{
    return verdict == BW_OVER ? "OVER" : verdict == BW_WITHIN ? "within" : "cannot say";
}

static void write_kinds(const bw_member_result *members, size_t count, const int *kinds,
                        size_t n, bw_text *out)
{
    const char *columns[BWI_KINDS_ACROSS + 3] = {capital(out, members[0].role), "Log"};
    for (size_t k = 0; k < n; k++) {
        const char *word = bwi_kind_word(members, count, kinds[k]);
        columns[k + 2] = bwi_or_fail(out, bw_arena_print(out->arena, ">%s", word));
    }
    columns[n + 2] = "Result";
    const char *name =
        bw_arena_print(out->arena, "%s%s: percent of capacity used", columns[0],
                       strcmp(members[0].role, "boards") == 0 ? "" : "s");
    bwi_table_open(out, bwi_or_fail(out, name), columns, n + 3);
    for (size_t i = 0; i < count; i++) {
        bw_text_add(out, "<tr>");
        bwi_head_cell(out, members[i].name);
        bwi_cell(out, members[i].log == NULL ? "-" : members[i].log->name);
        for (size_t k = 0; k < n; k++) {
            share_cell(&members[i], kinds[k], out);
        }
        bwi_cell(out, result_word(bwi_member_verdict(&members[i])));
        bw_text_add(out, "</tr>\n");
    }
    bwi_table_close(out);
}

/* More checks than fit beside each other make a second table. */
static void write_group(const bw_member_result *members, size_t count, bw_text *out)
{
    int kinds[BW_CHECK_KIND_COUNT] = {0};
    const size_t n = bwi_used_kinds(members, count, kinds);
    for (size_t first = 0; first == 0 || first < n; first += BWI_KINDS_ACROSS) {
        const size_t rest = n - first;
        write_kinds(members, count, kinds + first,
                    rest < BWI_KINDS_ACROSS ? rest : BWI_KINDS_ACROSS, out);
    }
}

void bwi_record_members(const bw_record *record, bw_text *out)
{
    const bw_assessment *a = record->assessment;
    bwi_section(out, "members");
    bwi_html(
        out,
        "<p class=\"keep\">%s Underlined: the worst of the member. -: not a check of "
        "this member. ?: cannot say.</p>\n",
        bwi_members_words);
    for (size_t i = 0; i < a->n_members; i += bwi_same_role(a, i)) {
        write_group(&a->members[i], bwi_same_role(a, i), out);
    }
    bwi_section_end(out);
}

/* ---- materials ---- */

static void girth_cell(double diameter, bw_units units, bw_text *out)
{
    const char *across = bw_length_print_small(out->arena, diameter, units);
    bwi_html(out, "<td class=\"n\">%s<br>(%s)</td>",
             bwi_girth(out->arena, diameter, units), across);
}

static void write_use(const bwi_use *use, bw_units units, bw_text *out)
{
    bw_arena *arena = out->arena;
    const bw_log *log = use->log;
    bw_text_add(out, "<tr>");
    bwi_html(out, "<th scope=\"row\">%s<br><span class=\"w\">%s</span></th>", log->name,
             log->species == NULL ? "" : log->species->common);
    bwi_cell(out, use->role);
    bwi_number_cell(out, bw_arena_print(arena, "%zu", use->pieces));
    girth_cell(log->butt_diameter, units, out);
    girth_cell(log->tip_diameter, units, out);
    bwi_number_cell(out, bwi_cut_length(arena, use->longest, units));
    bwi_number_cell(out, bwi_cut_length(arena, use->sum, units));
    bwi_number_cell(out, bwi_mass_up(arena, use->mass, units));
    bw_text_add(out, "</tr>\n");
}

void bwi_record_materials(const bw_record *record, bw_text *out)
{
    static const char *const columns[] = {"Log",
                                          "Used as",
                                          ">Pieces",
                                          ">Butt girth (diameter)",
                                          ">Tip girth (diameter)",
                                          ">Longest",
                                          ">All together",
                                          ">Heaviest"};
    const bw_assessment *a = record->assessment;
    const char *lines[BWI_MATERIAL_LINES] = {0};
    bwi_use *uses = BW_NEW(out->arena, bwi_use, a->n_members + 1);
    const size_t n_lines = bwi_material_lines(a, out, lines);
    if (uses == NULL) {
        out->failed = true;
        return;
    }
    const size_t n = bwi_uses(a, uses);
    bwi_section(out, "materials");
    bwi_table_open(out, bwi_materials_title, columns, 8);
    for (size_t k = 0; k < n; k++) {
        write_use(&uses[k], a->deck->units, out);
    }
    bwi_table_close(out);
    bwi_html(out, "<p>%s</p>\n<ul>\n", bwi_materials_words);
    for (size_t k = 0; k < n_lines; k++) {
        bwi_html(out, "<li>%s</li>\n", lines[k]);
    }
    bw_text_add(out, "</ul>\n");
    bwi_section_end(out);
}

/* ---- loads and assumptions ---- */

static void write_loads(const bw_assessment *a, bw_text *out)
{
    const bw_units units = a->deck->units;
    const char *const columns[] = {"Load or limit",
                                   units == BW_IMPERIAL ? ">Imperial" : ">Metric",
                                   units == BW_IMPERIAL ? ">Metric" : ">Imperial"};
    bwi_load_row rows[BWI_LOAD_ROWS];
    const size_t n = bwi_load_rows(a, out, rows);
    bwi_table_open(out, "Loads and limits", columns, 3);
    for (size_t i = 0; i < n; i++) {
        bw_text_add(out, "<tr>");
        bwi_head_cell(out, rows[i].what);
        bwi_number_cell(out, rows[i].value);
        bwi_number_cell(out, rows[i].other);
        bw_text_add(out, "</tr>\n");
    }
    bwi_table_close(out);
}

/* Those to do, or the others. */
static void write_assumptions(const bw_assessment *a, bool to_do, bw_text *out)
{
    bw_text_add(out, "<ul>\n");
    for (size_t i = 0; i < a->n_assumptions; i++) {
        if (a->assumptions[i].to_do == to_do) {
            bwi_html(out, "<li>%s</li>\n", bwi_assumption_text(&a->assumptions[i], out));
        }
    }
    bw_text_add(out, "</ul>\n");
}

void bwi_record_to_do(const bw_assessment *assessment, bw_text *out)
{
    if (bwi_is_to_do(assessment)) {
        bwi_html(out, "<h3>%s</h3>\n", bwi_to_do_title);
        write_assumptions(assessment, true, out);
    }
}

void bwi_record_loads(const bw_record *record, bw_text *out)
{
    const bw_assessment *a = record->assessment;
    bwi_section(out, "loads");
    bwi_html(out, "<p class=\"keep\">Checked by %s.</p>\n", a->deck->basis->title);
    write_loads(a, out);
    bwi_record_load_lines(a, out);
    if (a->n_assumptions > 0) {
        bw_text_add(out,
                    "<h3>Assumed</h3>\n<p class=\"keep\">In brackets: how far it can be "
                    "relied on, and whence.</p>\n");
        write_assumptions(a, false, out);
    }
    bwi_html(out, "<p class=\"small\">Numbers: %s.</p>\n", bwi_health_text(a, out));
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
    bwi_html(out, "<p class=\"keep\">%s</p>\n", bwi_grades_words);
    for (size_t k = 0; k < deck->n_logs; k++) {
        if (!bwi_grade_was_shown(deck, k)) {
            write_grade(deck, k, out);
        }
    }
    bwi_section_end(out);
}
