/* grade.c - the logs as graded by eye: what is left of each strength, every factor that
 * took some away, and the questions that would win it back. */
#include "internal.h"

#include <math.h>

static const bw_property shown[] = {BW_BENDING_STRENGTH, BW_SHEAR_STRENGTH,
                                    BW_COMPRESSION, BW_BEARING, BW_MODULUS};
enum { SHOWN = sizeof shown / sizeof shown[0] };

static const char *share(bw_arena *arena, double factor)
{
    return isfinite(factor) ? bw_arena_print(arena, "%.3f", factor) : "none";
}

double bwi_grade_left(const bw_log *log, size_t question, bw_property property)
{
    return log->strength_class != NULL && !bw_grade_is_answered(&log->grade, question)
               ? 1.0
               : bw_grade_part(&log->grade, question, property);
}

static void product_row(bwi_table *table, const bw_log *log)
{
    bwi_table_cell(table, "all");
    bwi_table_cell(table, "");
    bwi_table_cell(table, "");
    for (int i = 0; i < SHOWN; i++) {
        double product = 1.0;
        for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
            product *= bwi_grade_left(log, q, shown[i]);
        }
        bwi_table_cell(table, share(table->out->arena, product));
    }
}

/* Nothing for a question that costs nothing. */
static void question_row(bwi_table *table, const bw_log *log, size_t question)
{
    bool felt = false;
    for (int i = 0; i < SHOWN; i++) {
        felt = felt || !(bwi_grade_left(log, question, shown[i]) >= 1.0);
    }
    if (!felt) {
        return;
    }
    bwi_table_cell(table, bw_grade_questions[question].symbol);
    bwi_table_cell(table, bw_grade_questions[question].key);
    bwi_table_cell(table, bw_grade_is_answered(&log->grade, question) ? "given" : "open");
    for (int i = 0; i < SHOWN; i++) {
        bwi_table_cell(table,
                       share(table->out->arena, bwi_grade_left(log, question, shown[i])));
    }
}

bool bwi_same_grade(const bw_log *a, const bw_log *b)
{
    bool same = (a->strength_class != NULL) == (b->strength_class != NULL);
    for (size_t q = 0; same && q < BW_GRADE_QUESTIONS; q++) {
        same = bw_grade_is_answered(&a->grade, q) == bw_grade_is_answered(&b->grade, q);
        for (int i = 0; same && i < SHOWN; i++) {
            const double x = bwi_grade_left(a, q, shown[i]),
                         y = bwi_grade_left(b, q, shown[i]);
            same = x == y || (isnan(x) && isnan(y));
        }
    }
    return same;
}

bool bwi_grade_was_shown(const bw_case *deck, size_t log)
{
    for (size_t k = 0; k < log; k++) {
        if (bwi_same_grade(&deck->logs[k], &deck->logs[log])) {
            return true;
        }
    }
    return false;
}

static void add_group(const bw_case *deck, size_t first, bw_text *out)
{
    static const bwi_column columns[] = {
        {"factor", false}, {"question", false},   {"answer", false}, {"bending", true},
        {"shear", true},   {"compression", true}, {"across", true},  {"E", true}};
    const bw_log *log = &deck->logs[first];
    bw_text names = bw_text_new(out->arena);
    for (size_t k = first; k < deck->n_logs; k++) {
        if (bwi_same_grade(log, &deck->logs[k])) {
            bw_text_print(&names, "%s%s", k == first ? "" : ", ", deck->logs[k].name);
        }
    }
    bwi_paragraph(out, "  Logs: ", bwi_or_fail(out, bw_text_string(&names)));
    bwi_table table = bwi_table_new(out, columns, 3 + SHOWN);
    for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
        question_row(&table, log, q);
    }
    product_row(&table, log);
    bwi_table_print(&table, 2);
    bw_text_add(out, "\n");
}

static bool is_open(const bw_case *deck, size_t question)
{
    for (size_t k = 0; k < deck->n_logs; k++) {
        if (deck->logs[k].strength_class == NULL &&
            !bw_grade_is_answered(&deck->logs[k].grade, question)) {
            return true;
        }
    }
    return false;
}

static void add_question(const bw_grade_question *question, bw_text *out)
{
    bw_text line = bw_text_new(out->arena);
    bw_text_print(&line, "%s: %s %s", question->key, question->question, question->sound);
    if (question->unsound != NULL) {
        bw_text_print(&line, "; cannot say for %s", question->unsound);
    }
    bwi_paragraph(out, "  - ", bwi_or_fail(out, bw_text_string(&line)));
}

static void add_open_questions(const bw_case *deck, bw_text *out)
{
    const char *lead = "Open questions, and the answer that makes their factor 1 (in a "
                       "case: \"grade\" of a log):";
    for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
        if (is_open(deck, q)) {
            if (lead != NULL) {
                bwi_paragraph(out, "  ", lead);
                lead = NULL;
            }
            add_question(&bw_grade_questions[q], out);
        }
    }
}

void bwi_text_grades(const bw_assessment *assessment, bw_text *out)
{
    const bw_case *deck = assessment->deck;
    bwi_text_section(out, "grades");
    bwi_paragraph(out, "  ", bwi_grades_words);
    for (size_t k = 0; k < deck->n_logs; k++) {
        if (!bwi_grade_was_shown(deck, k)) {
            add_group(deck, k, out);
        }
    }
    add_open_questions(deck, out);
}
