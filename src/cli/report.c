/* report.c - the command report: a case file in, the record as a page out. */
#include "commands.h"
#include "output.h"

#include "bolewright/input.h"
#include "bolewright/report.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

enum { EXIT_NOT_WITHIN = 1 };

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, deck, output; /* of three different files */
    bw_species_table species;
    bw_case the_case;
    bw_assessment assessment;
    bw_drawing drawing;
    bw_record record;
    char hash[BW_SHA256_HEX];
    bw_verdict verdict;
} report_run;

/* ---- dates ---- */

typedef struct {
    long year;
    int month, day;
} calendar_date;

static bool is_leap(long year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int days_of(long year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return month == 2 && is_leap(year) ? 29 : days[month - 1];
}

/* Exactly YYYY-MM-DD, a day that exists. */
static bool read_date(const char *text, calendar_date *out)
{
    static const char shape[] = "dddd-dd-dd";
    if (strlen(text) != sizeof shape - 1) {
        return false;
    }
    for (size_t i = 0; i < sizeof shape - 1; i++) {
        const bool digit = text[i] >= '0' && text[i] <= '9';
        if (shape[i] == 'd' ? !digit : text[i] != shape[i]) {
            return false;
        }
    }
    out->year = strtol(text, NULL, 10);
    out->month = (int)strtol(text + 5, NULL, 10);
    out->day = (int)strtol(text + 8, NULL, 10);
    return out->year >= 1900 && out->month >= 1 && out->month <= 12 && out->day >= 1 &&
           out->day <= days_of(out->year, out->month);
}

/* Days since 1970-01-01 into a date: the Gregorian calendar counted off. */
static calendar_date date_of_day(long day)
{
    calendar_date d = {1970, 1, 1};
    for (; day >= (is_leap(d.year) ? 366 : 365); d.year++) {
        day -= is_leap(d.year) ? 366 : 365;
    }
    for (; day >= days_of(d.year, d.month); d.month++) {
        day -= days_of(d.year, d.month);
    }
    d.day = (int)day + 1;
    return d;
}

/* SOURCE_DATE_EPOCH: seconds since 1970, UTC; for builds that must repeat. */
static bool read_epoch(const char *text, calendar_date *out)
{
    static const long most = 253402300799; /* the last second of the year 9999 */
    char *end = NULL;
    errno = 0;
    const long seconds = strtol(text, &end, 10);
    if (text[0] < '0' || text[0] > '9' || *end != '\0' || errno != 0 || seconds > most) {
        return false;
    }
    *out = date_of_day(seconds / 86400);
    return true;
}

static const char *print_date(bw_arena *arena, calendar_date d)
{
    return bw_arena_print(arena, "%04ld-%02d-%02d", d.year, d.month, d.day);
}

/* A year later; 29 February becomes the 28th. */
static calendar_date year_later(calendar_date d)
{
    d.year++;
    d.day = d.day > days_of(d.year, d.month) ? days_of(d.year, d.month) : d.day;
    return d;
}

static bw_status date_read(report_run *run)
{
    const char *given = run->options->value[BWI_OPT_DATE];
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    calendar_date date;
    if (given == NULL && (epoch == NULL || epoch[0] == '\0')) {
        return BW_OK;
    }
    if (given != NULL ? !read_date(given, &date) : !read_epoch(epoch, &date)) {
        bw_diags_error(&run->output, "usage.date", NULL,
                       given != NULL ? "write it as 2026-11-25"
                                     : "it counts the seconds since 1970, as a number",
                       "%s is %s", given != NULL ? "--date" : "SOURCE_DATE_EPOCH",
                       given != NULL ? given : epoch);
        return BW_E_USAGE;
    }
    run->record.date = print_date(run->arena, date);
    run->record.next_date = print_date(run->arena, year_later(date));
    return run->record.date != NULL && run->record.next_date != NULL ? BW_OK
                                                                     : BW_E_MEMORY;
}

/* ---- the run ---- */

static bw_status outputs_allowed(report_run *run)
{
    const bwi_options *o = run->options;
    const char *page = o->value[BWI_OPT_OUTPUT], *csv = o->value[BWI_OPT_CSV];
    const bool force = o->value[BWI_OPT_FORCE] != NULL;
    if (page == NULL) {
        bw_diags_error(&run->output, "usage.output", NULL,
                       "-o porch.html, or -o - for standard output",
                       "report needs the file to write: -o FILE");
        return BW_E_USAGE;
    }
    if (csv != NULL && strcmp(csv, page) == 0) {
        bw_diags_error(&run->output, "usage.output", NULL, "name two files",
                       "--output and --csv are the same: %s", csv);
        return BW_E_USAGE;
    }
    BW_TRY(bwi_output_path_allowed(page, force, o->operand, &run->output));
    return bwi_output_path_allowed(csv, force, o->operand, &run->output);
}

static bw_status read_and_assess(report_run *run)
{
    const bwi_options *options = run->options;
    const char *text = NULL;
    BW_TRY(outputs_allowed(run));
    BW_TRY(date_read(run));
    BW_TRY(bw_input_species(run->arena, options->value[BWI_OPT_TABLES], &run->species,
                            &run->tables));
    BW_TRY(bw_input_read_file(run->arena, options->operand, &text, &run->deck));
    bw_sha256(text, strlen(text), run->hash);
    BW_TRY(bw_input_case(run->arena, text, &run->species, &run->the_case, &run->deck));
    BW_TRY(bw_deck_assess(run->arena, &run->the_case, &run->assessment, &run->deck));
    BW_TRY(bw_deck_drawing(run->arena, &run->assessment, &run->drawing));
    /* nothing recorded as an error may end in a verdict, whatever the layer below
     * returned */
    return run->deck.errors + run->tables.errors > 0 ? BW_E_INPUT : BW_OK;
}

static const char *name_of(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash == NULL ? bwi_output_name(path) : slash + 1;
}

static bw_status write_to(report_run *run, const char *path, const bw_text *text)
{
    return strcmp(path, "-") == 0
               ? bwi_output_print(text, &run->output)
               : bwi_output_file(path, text, run->options->value[BWI_OPT_FORCE] != NULL,
                                 &run->output);
}

static bw_status say(report_run *run)
{
    const char *page = run->options->value[BWI_OPT_OUTPUT];
    const char *csv = run->options->value[BWI_OPT_CSV];
    const bool taken = strcmp(page, "-") == 0 || (csv != NULL && strcmp(csv, "-") == 0);
    const char *verdict = bw_report_verdict_text(run->arena, &run->assessment);
    bw_text line = bw_text_new(run->arena);
    if (verdict == NULL) {
        return BW_E_MEMORY;
    }
    bw_text_print(&line, "%s\nwritten: %s\n", verdict, page);
    return taken || run->options->value[BWI_OPT_QUIET] != NULL
               ? BW_OK
               : bwi_output_print(&line, &run->output);
}

static bw_status write_record(report_run *run)
{
    const char *csv = run->options->value[BWI_OPT_CSV];
    bw_text page = bw_text_new(run->arena), table = bw_text_new(run->arena);
    run->record.assessment = &run->assessment;
    run->record.drawing = &run->drawing;
    run->record.case_name = name_of(run->options->operand);
    run->record.case_hash = run->hash;
    bw_report_html(&run->record, &page);
    bw_report_csv(&run->assessment, &table);
    run->verdict = bw_report_verdict(&run->assessment);
    BW_TRY(write_to(run, run->options->value[BWI_OPT_OUTPUT], &page));
    if (csv != NULL) {
        BW_TRY(write_to(run, csv, &table));
    }
    return say(run);
}

int bwi_report_run(bw_arena *arena, const bwi_options *options)
{
    report_run run = {
        .arena = arena,
        .options = options,
        .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
        .deck = bw_diags_new(arena, bwi_output_name(options->operand)),
        .output = bw_diags_new(arena, NULL),
        .verdict = BW_CANNOT_SAY,
    };
    bw_status status = read_and_assess(&run);
    if (status == BW_OK) {
        status = write_record(&run);
    }
    const bw_diags *const all[] = {&run.tables, &run.deck, &run.output, NULL};
    const int exit_status = bwi_output_finish(status, all);
    return status == BW_OK && run.verdict != BW_WITHIN ? EXIT_NOT_WITHIN : exit_status;
}
