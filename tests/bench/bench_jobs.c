/* Cost of what people ask for, in one process: a case read and checked, drawn, written as
 * a record, and answered to the page.
 *
 * usage: bench_jobs CASE.json...   per case a line: milliseconds of one core for reading
 * and checking, counting people, drawing, writing the record, one answer of the page;
 * bytes of record and answer; members. bench.py reads it. */
#include "bolewright/input.h"
#include "bolewright/page.h"
#include "bolewright/report.h"
#include "bolewright/sizing.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const double least_time = 0.3; /* [s] of repeated runs, the best of which counts */

enum { CHECKED, COUNTED, DRAWN, RECORDED, ANSWERED, STEPS };

typedef struct {
    double seconds[STEPS];
    size_t record, answer, members;
} costs;

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t); /* others may use the machine */
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* What `bolewright check` and `report` do, without the files. */
static bw_status check(bw_arena *arena, const bw_species_table *species, const char *text,
                       costs *c)
{
    bw_case deck;
    bw_assessment a;
    bw_drawing drawing;
    bw_diags d = bw_diags_new(arena, "the case");
    bw_text page = bw_text_new(arena);
    const double begin = now();
    BW_TRY(bw_input_case(arena, text, species, &deck, &d));
    BW_TRY(bw_deck_assess(arena, &deck, &a, &d));
    const double checked = now();
    BW_TRY(bw_people_count(arena, &a, &d));
    const double counted = now();
    BW_TRY(bw_deck_drawing(arena, &a, &drawing));
    const double drawn = now();
    const bw_record record = {.assessment = &a, .drawing = &drawing, .case_name = "it"};
    bw_report_html(&record, &page);
    const double written = now();
    c->seconds[CHECKED] = fmin(c->seconds[CHECKED], checked - begin);
    c->seconds[COUNTED] = fmin(c->seconds[COUNTED], counted - checked);
    c->seconds[DRAWN] = fmin(c->seconds[DRAWN], drawn - counted);
    c->seconds[RECORDED] = fmin(c->seconds[RECORDED], written - drawn);
    c->record = page.length;
    c->members = a.n_members;
    return bw_text_string(&page) != NULL ? BW_OK : BW_E_MEMORY;
}

static bw_status ask(bw_arena *arena, const bw_species_table *species, const char *text,
                     costs *c)
{
    const bw_page page = {.species = species, .port = BW_PAGE_PORT};
    const bw_page_request request = {
        .method = "POST",
        .path = "/check",
        .host = bw_arena_print(arena, "127.0.0.1:%d", BW_PAGE_PORT),
        .origin = bw_arena_print(arena, "http://127.0.0.1:%d", BW_PAGE_PORT),
        .fetch_site = "same-origin",
        .content_type = "application/json",
        .body = text,
        .length = strlen(text)};
    bw_page_response response;
    const double begin = now();
    bw_page_answer(arena, &page, &request, &response);
    c->seconds[ANSWERED] = fmin(c->seconds[ANSWERED], now() - begin);
    c->answer = response.length;
    return response.status == 200 ? BW_OK : BW_E_INTERNAL;
}

static bw_status measure(bw_arena *arena, const char *path)
{
    bw_species_table species;
    const char *text = NULL;
    bw_diags d = bw_diags_new(arena, path);
    costs c = {.seconds = {HUGE_VAL, HUGE_VAL, HUGE_VAL, HUGE_VAL, HUGE_VAL}};
    BW_TRY(bw_input_species(arena, NULL, &species, &d));
    BW_TRY(bw_input_read_file(arena, path, &text, &d));
    const double begin = now();
    for (int run = 0; run < 3 || now() < begin + least_time; run++) {
        const bw_arena_mark mark = bw_arena_now(arena);
        BW_TRY(check(arena, &species, text, &c));
        BW_TRY(ask(arena, &species, text, &c));
        bw_arena_back(arena, mark);
    }
    for (int k = 0; k < STEPS; k++) {
        printf("%.6g ", 1e3 * c.seconds[k]);
    }
    printf("%zu %zu %zu\n", c.record, c.answer, c.members);
    return BW_OK;
}

int main(int n, char **paths)
{
    bool failed = false;
    for (int k = 1; k < n && !failed; k++) {
        bw_arena *arena = bw_arena_new();
        failed = arena == NULL || measure(arena, paths[k]) != BW_OK;
        bw_arena_free(arena);
    }
    if (failed) {
        fputs("bench_jobs: no memory, or a case has faults\n", stderr);
    }
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
