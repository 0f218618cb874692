/* check.c - answers about a whole case: what check and report of the command line say. */
#include "internal.h"

#include <stdlib.h>
#include <string.h>

/* Rows times bents; the page answers while somebody types, and a deck of this size takes
 * seconds. */
enum { most_places = 1000 };

typedef struct {
    bwi_exchange *x;
    bw_diags diags;
    bw_case deck;
    bw_assessment assessment;
    bw_status status;
} case_run;

void bwi_write_faults(bw_text *out, bw_status status, const bw_diags *d)
{
    static const char *const severities[] = {"note", "warning", "error"};
    bw_text_print(out, "\"status\": %d, \"sentence\": ", bw_status_exit(status));
    bw_json_string(out, bw_status_text(status));
    bw_text_add(out, ", \"faults\": [");
    for (size_t i = 0; i < d->count; i++) {
        const bw_diag *f = &d->items[i];
        const struct {
            const char *key, *text;
        } parts[] = {{"severity", severities[f->severity]},
                     {"id", f->id},
                     {"path", f->path},
                     {"message", f->message != NULL ? f->message : "(no memory)"},
                     {"allowed", f->allowed},
                     {"hint", f->hint}};
        bw_text_add(out, i > 0 ? ",\n{" : "\n{");
        for (size_t k = 0; k < sizeof parts / sizeof parts[0]; k++) {
            if (parts[k].text != NULL) {
                bw_text_print(out, "\"%s\": ", parts[k].key);
                bw_json_string(out, parts[k].text);
                bw_text_add(out, ", ");
            }
        }
        bw_text_print(out, "\"line\": %d, \"column\": %d}", f->line, f->column);
    }
    bw_text_add(out, "],\n");
}

static bw_status size_allowed(case_run *run)
{
    if (run->deck.n_rows * run->deck.n_bents <= (size_t)most_places) {
        return BW_OK;
    }
    bw_diags_error(&run->diags, "page.size", "/bents",
                   "check it with \"bolewright check\", which takes its time",
                   "%zu rows on %zu bents are too much for a page that answers at once",
                   run->deck.n_rows, run->deck.n_bents);
    return BW_E_INPUT;
}

static bw_status read_and_assess(case_run *run)
{
    const bwi_exchange *x = run->x;
    BW_TRY(bw_input_case(x->arena, x->request->body, x->page->species, &run->deck,
                         &run->diags));
    BW_TRY(size_allowed(run));
    BW_TRY(bw_deck_assess_with(x->arena, &run->deck, x->page->threads, &run->assessment,
                               &run->diags));
    /* nothing recorded as an error may end in a verdict, whatever the layer below
     * returned */
    return run->diags.errors > 0 ? BW_E_INPUT : BW_OK;
}

/* In place: the assessment points to the deck in *run. */
static void run_case(bwi_exchange *x, case_run *run)
{
    *run = (case_run){.x = x, .diags = bw_diags_new(x->arena, NULL)};
    run->status = read_and_assess(run);
}

/* {"status": ..., "faults": [...], "result": ...}: result is null without a verdict. */
static void write_result(const case_run *run, const bw_drawing *drawing)
{
    bw_text *out = &run->x->out;
    bw_text_add(out, "{");
    bwi_write_faults(out, run->status, &run->diags);
    bw_text_add(out, "\"result\": ");
    if (run->status == BW_OK) {
        bw_report_live(&run->assessment, drawing, out);
    } else {
        bw_text_add(out, "null");
    }
    bw_text_add(out, "}\n");
}

void bwi_answer_check(bwi_exchange *x, bw_page_response *out)
{
    (void)out;
    case_run run;
    bw_drawing drawing;
    run_case(x, &run);
    if (run.status == BW_OK) {
        run.status = bw_deck_views(x->arena, &run.assessment, &drawing);
    }
    write_result(&run, &drawing);
}

void bwi_answer_try(bwi_exchange *x, bw_page_response *out)
{
    (void)out;
    case_run run;
    run_case(x, &run);
    write_result(&run, NULL);
}

long bwi_index(const char *text, size_t limit)
{
    char *end = NULL;
    if (text == NULL || text[0] < '0' || text[0] > '9' || strlen(text) > 9) {
        return -1;
    }
    const long value = strtol(text, &end, 10);
    return *end == '\0' && (size_t)value < limit ? value : -1;
}

void bwi_answer_working(bwi_exchange *x, bw_page_response *out)
{
    case_run run;
    run_case(x, &run);
    bw_text html = bw_text_new(x->arena);
    if (run.status == BW_OK) {
        const long member =
            bwi_index(bwi_argument(x->request, "member"), run.assessment.n_members);
        if (member < 0) {
            bwi_refuse(x, 400, "the deck has no such member", out);
            return;
        }
        bw_report_member_html(&run.assessment, (size_t)member, &html);
    }
    const char *markup = bw_text_string(&html);
    bw_text_add(&x->out, "{");
    bwi_write_faults(&x->out, run.status, &run.diags);
    bw_text_add(&x->out, "\"html\": ");
    bw_json_string(&x->out, markup != NULL ? markup : "");
    x->out.failed = x->out.failed || markup == NULL;
    bw_text_add(&x->out, "}\n");
}

/* ---- the record ---- */

static bw_status date_read(bwi_exchange *x, bw_record *record)
{
    const char *text = bwi_argument(x->request, "date");
    bw_date date;
    if (text == NULL || text[0] == '\0') {
        return BW_OK;
    }
    if (!bw_date_read(text, &date)) {
        return BW_E_INPUT;
    }
    record->date = bw_date_print(x->arena, date);
    record->next_date = bw_date_print(x->arena, bw_date_year_later(date));
    return record->date != NULL && record->next_date != NULL ? BW_OK : BW_E_MEMORY;
}

void bwi_answer_record(bwi_exchange *x, bw_page_response *out)
{
    case_run run;
    const char *name = bwi_argument(x->request, "name");
    char hash[BW_SHA256_HEX];
    bw_drawing drawing;
    bw_record record = {.assessment = &run.assessment,
                        .drawing = &drawing,
                        .case_name = name != NULL && name[0] != '\0' ? name : "not saved",
                        .case_hash = hash};
    run_case(x, &run);
    if (run.status == BW_OK) { /* heads stand in the record alone, and take many checks */
        run.status = bw_people_count(x->arena, &run.assessment, &run.diags);
    }
    if (run.status == BW_OK) {
        run.status = bw_deck_drawing(x->arena, &run.assessment, &drawing);
    }
    if (run.status != BW_OK) {
        write_result(&run, NULL);
        out->status = 422;
        return;
    }
    if (date_read(x, &record) != BW_OK) {
        bwi_refuse(x, 400, "write the date as 2026-11-25", out);
        return;
    }
    bw_sha256(x->request->body, x->request->length, hash);
    bw_report_html(&record, &x->out);
    out->type = "text/html; charset=utf-8";
}
