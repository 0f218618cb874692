/* Cost of writing the record: time for the page and for what is drawn on it, beside the
 * assessment that it tells of, and the size of the page. Goals: a demo under 300 KB and
 * written in under 50 ms of one core.
 *
 * usage: bench_record CASE.json... [BAYS]   a number: a boardwalk of that many bays */
#include "bolewright/input.h"
#include "bolewright/report.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Two rows of butted logs, a bent every 2.438 m. */
static const char *boardwalk(bw_arena *arena, int bays)
{
    bw_text t = bw_text_new(arena);
    bw_text_add(&t,
                "{\"format\": 1, \"title\": \"Boardwalk\", \"units\": \"imperial\", "
                "\"deck\": {\"width\": \"4 ft\"}, \"logs\": [{\"name\": \"log\", "
                "\"species\": \"western larch\", \"butt_girth\": \"30 in\", "
                "\"tip_girth\": \"28 in\", \"bark\": \"off\"}], \"rows\": [{\"name\": "
                "\"left\", \"across\": \"-19 in\"}, {\"name\": \"right\", \"across\": "
                "\"19 in\"}], \"every_bent\": {\"deck_height\": \"2 ft 6 in\", \"cap\": "
                "\"log\", \"posts\": [{\"row\": \"left\", \"log\": \"log\", "
                "\"hole_depth\": \"4 ft\"}, {\"row\": \"right\", \"log\": \"log\", "
                "\"hole_depth\": \"4 ft\"}]}, \"bents\": [");
    for (int k = 0; k <= bays; k++) {
        bw_text_print(&t, "%s{\"name\": \"B%d\", \"at\": \"%d ft\"}", k > 0 ? ", " : "",
                      k, 8 * k);
    }
    bw_text_add(&t, "], \"stringers\": [");
    for (int k = 0; k < 2 * bays; k++) {
        bw_text_print(&t,
                      "%s{\"row\": \"%s\", \"log\": \"log\", \"from\": \"B%d\", \"to\": "
                      "\"B%d\"}",
                      k > 0 ? ", " : "", k % 2 == 0 ? "left" : "right", k / 2, k / 2 + 1);
    }
    bw_text_add(&t, "], \"ground\": {\"soil\": \"gravel\"}, \"loads\": {\"rider\": "
                    "{\"mass\": \"254 lb\", \"factor\": 2.0}, \"crowd\": \"60 psf\"}}");
    return bw_text_string(&t);
}

static bw_status measure(bw_arena *arena, const char *name)
{
    bw_species_table species;
    bw_case deck;
    bw_assessment a;
    bw_drawing drawing;
    bw_diags d = bw_diags_new(arena, name);
    char *end = NULL;
    const int bays = (int)strtol(name, &end, 10);
    const char *text = NULL;
    BW_TRY(bw_input_species(arena, NULL, &species, &d));
    if (*end == '\0') {
        text = boardwalk(arena, bays);
    } else {
        BW_TRY(bw_input_read_file(arena, name, &text, &d));
    }
    BW_TRY(bw_input_case(arena, text, &species, &deck, &d));
    const double begin = now();
    BW_TRY(bw_deck_assess(arena, &deck, &a, &d));
    const double assessed = now();
    BW_TRY(bw_deck_drawing(arena, &a, &drawing));
    const double drawn = now();
    const bw_record record = {.assessment = &a, .drawing = &drawing, .case_name = name};
    bw_text page = bw_text_new(arena);
    bw_report_html(&record, &page);
    const double written = now();
    if (bw_text_string(&page) == NULL) {
        return BW_E_MEMORY;
    }
    printf("%-44s %6.0f KB  page %6.1f ms  drawings %7.1f ms  assessment %8.1f ms\n",
           name, (double)page.length / 1e3, 1e3 * (written - drawn),
           1e3 * (drawn - assessed), 1e3 * (assessed - begin));
    return BW_OK;
}

int main(int n, char **names)
{
    bool failed = false;
    for (int k = 1; k < n; k++) {
        bw_arena *arena = bw_arena_new();
        failed = arena == NULL || measure(arena, names[k]) != BW_OK || failed;
        bw_arena_free(arena);
    }
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
