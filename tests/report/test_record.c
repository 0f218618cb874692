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
    "mm\", \"tip_diameter\": \"223 mm\", \"bark\": \"off\", \"length\": \"2.59 m\"}],"
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

static void the_sign_says_how_many(void **state)
{
    whole w;
    const bw_record record = record_of(*state, &w);
    assert_int_equal(bw_report_verdict(&w.assessment), BW_WITHIN);
    assert_null(strstr(page(*state, &record), "At most ")); /* nobody counted */
    w.assessment.heads = (bw_head_count){.tried = true,
                                         .known = true,
                                         .crowd = 2400.0,
                                         .limit = 3100.0,
                                         .person = 87.3,
                                         .on_deck = 7,
                                         .in_bay = 4,
                                         .at_limit = 9};
    const char *text = page(*state, &record);
    assert_non_null(strstr(text, "At most 7 people on the deck, and at most 4 of them"));
    assert_non_null(strstr(text, "in one bay; nobody rides while people stand on it"));
    assert_non_null(strstr(text, "which is 9 people"));
    w.assessment.heads.rest_fails = true;
    assert_null(strstr(page(*state, &record), "At most "));
}

static void no_number_of_people_while_a_check_is_over(void **state)
{
    whole w;
    const bw_record record = record_of(*state, &w);
    bw_finding *f = &w.assessment.members[0].findings[BW_CHECK_BENDING];
    w.assessment.heads = (bw_head_count){.tried = true, .known = true, .on_deck = 7};
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

/* A member of a role and with checks that no file here knows by name, and of no log. */
static void add_stranger(bw_arena *arena, whole *w, bw_check checks[BW_CHECK_KIND_COUNT])
{
    bw_assessment *a = &w->assessment;
    bw_member_result *all = BW_NEW(arena, bw_member_result, a->n_members + 1);
    assert_non_null(all);
    memcpy(all, a->members, a->n_members * sizeof *all);
    bw_member_result *m = &all[a->n_members];
    *m = (bw_member_result){.name = "gangplank",
                            .role = "plank",
                            .case_path = "/deck",
                            .bent = -1,
                            .row = -1};
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        checks[kind] = (bw_check){.kind = (bw_check_kind)kind,
                                  .id = bw_arena_print(arena, "trial_%d", kind),
                                  .title = bw_arena_print(arena, "Trial %d", kind),
                                  .formula = "x <= y",
                                  .source = "this test",
                                  .quantity = BW_STRESS};
        const double demand = 1e6 * (0.1137 + 0.0521 * kind);
        m->findings[kind] =
            (bw_finding){.check = &checks[kind],
                         .member = "plank gangplank",
                         .role = "plank",
                         .case_path = "/deck",
                         .station = -1.0,
                         .combination = bw_arena_print(arena, "trial load %d", kind),
                         .ratio = {demand, 1e6, demand / 1e6},
                         .working = bw_working_new(arena)};
        m->has[kind] = true;
        m->worst = demand / 1e6;
    }
    a->members = all;
    a->governing = &all[0].findings[BW_CHECK_BENDING];
    a->n_members++;
}

static void assert_has(const char *text, const char *words)
{
    if (strstr(text, words) == NULL) {
        print_error("not found: %s\n", words);
        fail();
    }
}

/* Every finding of one check, whose id is of two words. */
static void rename_checks(const whole *w, bw_check *check)
{
    *check = *w->assessment.governing->check;
    check->id = "two_words";
    for (size_t i = 0; i < w->assessment.n_members; i++) {
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            w->assessment.members[i].findings[kind].check = check;
        }
    }
}

/* The id of a check is for programs: a person reads it without its underscore, as what a
 * pointer over the drawing shows too. */
static void ids_of_checks_are_words_in_the_record(void **state)
{
    whole w;
    bw_check check;
    const bw_record record = record_of(*state, &w);
    rename_checks(&w, &check);
    const char *text = page(*state, &record);
    assert_null(strstr(text, "two_words"));
    assert_non_null(strstr(text, "of its capacity, two words</title>"));
    assert_non_null(strstr(text, ", two words at "));
}

static int times(const char *text, const char *words)
{
    int n = 0;
    for (const char *at = text; (at = strstr(at, words)) != NULL; at++) {
        n++;
    }
    return n;
}

/* But for one key of each member, which the page itself reads. */
static void ids_of_checks_are_words_on_the_page(void **state)
{
    whole w;
    bw_check check;
    record_of(*state, &w);
    rename_checks(&w, &check);
    bw_text out = bw_text_new(*state);
    bw_report_live(&w.assessment, &w.drawing, &out);
    const char *text = bw_text_string(&out), *rider = strstr(text, "\"rider\": ");
    assert_non_null(rider);
    assert_non_null(strstr(rider, ": two words of "));
    assert_int_equal(times(text, "\"check\": \"two_words\""), w.assessment.n_members);
    assert_int_equal(times(text, "two_words"), w.assessment.n_members);
}

/* Every finding stands in the record (percentage and sheet), in the text, in the table
 * for spreadsheets and in the JSON, whatever its role and check. */
static void no_finding_is_dropped(void **state)
{
    whole w;
    bw_check checks[BW_CHECK_KIND_COUNT];
    const bw_record record = record_of(*state, &w);
    add_stranger(*state, &w, checks);
    bw_text text = bw_text_new(*state), csv = bw_text_new(*state);
    bw_text json = bw_text_new(*state);
    const char *html = page(*state, &record);
    bw_report_text(&w.assessment, &text);
    bw_report_csv(&w.assessment, &csv);
    bw_report_json(&w.assessment, &json);
    assert_non_null(html);
    assert_has(bw_text_string(&text), "gangplank");
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const double share = 11.37 + 5.21 * kind; /* percent */
        const char *load = bw_arena_print(*state, "trial load %d", kind);
        const char *percent = bw_arena_print(*state, "%.0f", ceil(share - 1e-7));
        const bool worst = kind + 1 == BW_CHECK_KIND_COUNT;
        assert_has(html, bw_arena_print(
                             *state, worst ? "<b>%s</b></td>" : "<td class=\"n\">%s</td>",
                             percent));
        assert_has(html, bw_arena_print(*state, "<h3>Trial %d</h3>", kind));
        assert_has(html, load);
        assert_has(bw_text_string(&text), percent);
        assert_has(bw_text_string(&csv), load);
        assert_has(bw_text_string(&json), load);
    }
}

/* Some allocation fails: the text says so, or nothing was lost. */
static void running_out_of_memory_is_told(void **state)
{
    whole w;
    const bw_record record = record_of(*state, &w);
    const char *wanted = page(*state, &record), *found = NULL;
    unsigned long n = 1;
    bool whole_page = false;
    for (; !whole_page && n < 10000000; n += 1 + n / 24) {
        bw_arena *own = bw_arena_new();
        assert_non_null(own);
        bw_text csv = bw_text_new(own);
        bw_arena_fail_after(n);
        found = page(own, &record);
        bw_report_csv(&w.assessment, &csv);
        bw_arena_fail_after(0);
        if (found != NULL) {
            assert_string_equal(found, wanted);
        }
        whole_page = found != NULL;
        bw_arena_free(own);
    }
    assert_true(whole_page);
    assert_true(n > 1000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(the_same_record_gives_the_same_bytes),
        WITH_ARENA(the_sign_says_how_many),
        WITH_ARENA(no_number_of_people_while_a_check_is_over),
        WITH_ARENA(what_cannot_be_said_is_said),
        WITH_ARENA(a_date_stands_only_where_given),
        WITH_ARENA(ids_of_checks_are_words_in_the_record),
        WITH_ARENA(ids_of_checks_are_words_on_the_page),
        WITH_ARENA(no_finding_is_dropped),
        WITH_ARENA(running_out_of_memory_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
