/* report.c - the command report: a case file in, the record as a page out. */
#include "case_run.h"
#include "commands.h"
#include "output.h"
#include "watch.h"

#include "bolewright/report.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    bwi_case_run of;
    bw_assessment assessment;
    bw_drawing drawing;
    bw_record record;
    char hash[BW_SHA256_HEX];
    bw_verdict verdict;
} report_run;

/* ---- dates ---- */

/* SOURCE_DATE_EPOCH: seconds since 1970, UTC; for builds that must repeat. */
static bool read_epoch(const char *text, bw_date *out)
{
    static const long most = 253402300799; /* the last second of the year 9999 */
    char *end = NULL;
    errno = 0;
    const long seconds = strtol(text, &end, 10);
    if (text[0] < '0' || text[0] > '9' || *end != '\0' || errno != 0 || seconds > most) {
        return false;
    }
    static const bw_date epoch = {1970, 1, 1};
    *out = bw_date_of_day(bw_date_day(epoch) + seconds / 86400);
    return true;
}

static bw_status date_read(report_run *run)
{
    const char *given = run->of.options->value[BWI_OPT_DATE];
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    bw_date date;
    if (given == NULL && (epoch == NULL || epoch[0] == '\0')) {
        return BW_OK;
    }
    if (given != NULL ? !bw_date_read(given, &date) : !read_epoch(epoch, &date)) {
        bw_diags_error(&run->of.output, "usage.date", NULL,
                       given != NULL ? "write it as 2026-11-25"
                                     : "it counts the seconds since 1970, as a number",
                       "%s is %s", given != NULL ? "--date" : "SOURCE_DATE_EPOCH",
                       given != NULL ? given : epoch);
        return BW_E_USAGE;
    }
    run->record.date = bw_date_print(run->of.arena, date);
    run->record.next_date = bw_date_print(run->of.arena, bw_date_year_later(date));
    return run->record.date != NULL && run->record.next_date != NULL ? BW_OK
                                                                     : BW_E_MEMORY;
}

/* ---- the run ---- */

static bw_status outputs_allowed(report_run *run)
{
    const bwi_options *o = run->of.options;
    const char *page = o->value[BWI_OPT_OUTPUT], *csv = o->value[BWI_OPT_CSV];
    const bool force = o->value[BWI_OPT_FORCE] != NULL;
    if (page == NULL) {
        bw_diags_error(&run->of.output, "usage.output", NULL,
                       "-o porch.html, or -o - for standard output",
                       "report needs the file to write: -o FILE");
        return BW_E_USAGE;
    }
    if (csv != NULL && strcmp(csv, page) == 0) {
        bw_diags_error(&run->of.output, "usage.output", NULL, "name two files",
                       "--output and --csv are the same: %s", csv);
        return BW_E_USAGE;
    }
    BW_TRY(bwi_output_path_allowed(page, force, o->operand, &run->of.output));
    return bwi_output_path_allowed(csv, force, o->operand, &run->of.output);
}

static bw_status read_and_assess(report_run *run)
{
    const char *text = NULL;
    BW_TRY(outputs_allowed(run));
    BW_TRY(date_read(run));
    BW_TRY(bwi_case_run_assess(&run->of, &run->assessment, &text));
    bw_sha256(text, strlen(text), run->hash);
    return bw_deck_drawing(run->of.arena, &run->assessment, &run->drawing);
}

static bw_status say(report_run *run)
{
    const char *page = run->of.options->value[BWI_OPT_OUTPUT];
    const char *csv = run->of.options->value[BWI_OPT_CSV];
    const bool taken = bwi_output_is_stream(page) || bwi_output_is_stream(csv);
    const char *verdict = bw_report_verdict_text(run->of.arena, &run->assessment);
    bw_text line = bw_text_new(run->of.arena);
    if (verdict == NULL) {
        return BW_E_MEMORY;
    }
    bw_text_print(&line, "%s\nwritten: %s\n", verdict, page);
    return taken || run->of.options->value[BWI_OPT_QUIET] != NULL
               ? BW_OK
               : bwi_output_print(&line, &run->of.output);
}

static bw_status write_record(report_run *run)
{
    const bwi_options *o = run->of.options;
    const bool force = o->value[BWI_OPT_FORCE] != NULL;
    bw_text page = bw_text_new(run->of.arena), table = bw_text_new(run->of.arena);
    run->record.assessment = &run->assessment;
    run->record.drawing = &run->drawing;
    run->record.case_name = bwi_output_short_name(o->operand);
    run->record.case_hash = run->hash;
    bw_report_html(&run->record, &page);
    bw_report_csv(&run->assessment, &table);
    run->verdict = bw_report_verdict(&run->assessment);
    BW_TRY(bwi_output_to(o->value[BWI_OPT_OUTPUT], &page, force, &run->of.output));
    BW_TRY(bwi_output_to(o->value[BWI_OPT_CSV], &table, force, &run->of.output));
    return say(run);
}

int bwi_report_run(bw_arena *arena, const bwi_options *options)
{
    report_run run = {.of = bwi_case_run_start(arena, options), .verdict = BW_CANNOT_SAY};
    bwi_wait_begin("checking");
    bw_status status = read_and_assess(&run);
    bwi_wait_end();
    if (status == BW_OK) {
        status = write_record(&run);
    }
    return bwi_case_run_end(&run.of, status, run.verdict == BW_WITHIN);
}
