/* The record of a whole deck, from its case file: the same bytes every time, honest words
 * when nothing can be said, and no crash when memory runs out. */
#include "../base/arena_fixture.h"

#include "bolewright/input.h"
#include "bolewright/report.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

static const char deck_text[] =
    "{\"format\": 1, \"title\": \"Reed step\", \"units\": \"metric\","
    "\"deck\": {\"width\": \"1.13 m\"},"
    "\"logs\": [{\"name\": \"log\", \"species\": \"Douglas-fir\", \"butt_diameter\": "
    "\"237 "
    "mm\", \"tip_diameter\": \"223 mm\", \"bark\": \"off\"}],"
    "\"rows\": [{\"name\": \"near\", \"across\": \"-0.41 m\"}, {\"name\": \"far\", "
    "\"across\": "
    "\"0.41 m\"}],"
    "\"bents\": [{\"name\": \"W\", \"at\": \"0 m\", \"deck_height\": \"0.55 m\", "
    "\"sill\": "
    "\"log\"}, {\"name\": \"E\", \"at\": \"2.37 m\", \"deck_height\": \"0.55 m\", "
    "\"sill\": "
    "\"log\"}],"
    "\"stringers\": [{\"row\": \"near\", \"log\": \"log\", \"from\": \"W\", \"to\": "
    "\"E\"}, "
    "{\"row\": \"far\", \"log\": \"log\", \"from\": \"W\", \"to\": \"E\"}],"
    "\"ground\": {\"soil\": \"gravel\"},"
    "\"loads\": {\"rider\": {\"mass\": \"97 kg\", \"factor\": 2.3}, \"crowd\": \"2.4 "
    "kPa\"}}";

typedef struct {
    bw_species_table species;
    bw_case deck;
    bw_assessment assessment;
    bw_drawing drawing;
} whole;

static bw_record record_of(bw_arena *arena, whole *w)
{
    bw_diags d = bw_diags_new(arena, "deck.json");
    assert_int_equal(bw_input_species(arena, NULL, &w->species, &d), BW_OK);
    assert_int_equal(bw_input_case(arena, deck_text, &w->species, &w->deck, &d), BW_OK);
    assert_int_equal(bw_deck_assess(arena, &w->deck, &w->assessment, &d), BW_OK);
    assert_int_equal(bw_deck_drawing(arena, &w->assessment, &w->drawing), BW_OK);
    return (bw_record){.assessment = &w->assessment,
                       .drawing = &w->drawing,
                       .case_name = "deck.json",
                       .case_hash = "0123"};
}

static const char *page(bw_arena *arena, const bw_record *record)
{
    bw_text out = bw_text_new(arena);
    bw_report_html(record, &out);
    return bw_text_string(&out);
}

static void the_same_record_gives_the_same_bytes(void **state)
{
    whole w;
    const bw_record record = record_of(*state, &w);
    const char *first = page(*state, &record);
    assert_non_null(first);
    assert_string_equal(first, page(*state, &record));
}

/* 2.4 kPa on 1.13 m by 2.37 m is 6427 N: 8.19 people of 80 kg. */
static void the_sign_rounds_people_down(void **state)
{
    whole w;
    const bw_record record = record_of(*state, &w);
    assert_int_equal(bw_report_verdict(&w.assessment), BW_WITHIN);
    assert_non_null(strstr(page(*state, &record), "At most 8 people on the deck"));
}

static void no_number_of_people_while_a_check_is_over(void **state)
{
    whole w;
    const bw_record record = record_of(*state, &w);
    bw_finding *f = &w.assessment.members[0].findings[BW_CHECK_BENDING];
    f->ratio.utilisation = 1.0001;
    assert_null(strstr(page(*state, &record), "At most "));
    f->ratio.utilisation = (double)NAN;
    assert_null(strstr(page(*state, &record), "At most "));
}

static void what_cannot_be_said_is_said(void **state)
{
    whole w;
    const bw_record record = record_of(*state, &w);
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        w.assessment.members[0].findings[kind].ratio.utilisation = (double)NAN;
    }
    const char *text = page(*state, &record);
    assert_non_null(strstr(text, "<strong>CANNOT SAY</strong>"));
    assert_non_null(strstr(text, "class=\"log u9\""));
    assert_null(strstr(text, "<strong>WITHIN"));
    assert_null(strstr(text, ">nan"));
    assert_null(strstr(text, "nan %"));
}

static void a_date_stands_only_where_given(void **state)
{
    whole w;
    bw_record record = record_of(*state, &w);
    assert_non_null(
        strstr(page(*state, &record), "<dt>Date of this record</dt><dd></dd>"));
    record.date = "2026-03-01";
    record.next_date = "2027-03-01";
    const char *text = page(*state, &record);
    assert_non_null(strstr(text, "<dd>2026-03-01</dd>"));
    assert_non_null(strstr(text, "<strong>2027-03-01</strong>"));
}

/* Some allocation fails: the text says so, or nothing was lost. */
static void running_out_of_memory_is_told(void **state)
{
    whole w;
    const bw_record record = record_of(*state, &w);
    const char *wanted = page(*state, &record), *found = NULL;
    unsigned long n = 1;
    for (; found == NULL && n < 10000000; n += 1 + n / 24) {
        const bw_arena_mark mark = bw_arena_now(*state);
        bw_text csv = bw_text_new(*state);
        bw_arena_fail_after(n);
        found = page(*state, &record);
        bw_report_csv(&w.assessment, &csv);
        bw_arena_fail_after(0);
        if (found != NULL) {
            assert_string_equal(found, wanted);
        }
        bw_arena_back(*state, mark);
    }
    assert_non_null(found);
    assert_true(n > 1000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(the_same_record_gives_the_same_bytes),
        WITH_ARENA(the_sign_rounds_people_down),
        WITH_ARENA(no_number_of_people_while_a_check_is_over),
        WITH_ARENA(what_cannot_be_said_is_said),
        WITH_ARENA(a_date_stands_only_where_given),
        WITH_ARENA(running_out_of_memory_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
