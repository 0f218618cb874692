/* Piles of logs as tables: every cell means what the same words mean in a case. */
#include "support.h"

#include <math.h>

static bw_status read_list(bw_arena *arena, const char *text, bw_log_list *out,
                           bw_diags *d)
{
    bw_species_table *woods = BW_NEW(arena, bw_species_table, 1);
    *woods = test_woods(arena);
    const bw_case deck = {.basis = &bw_us_asd, .species = woods, .units = BW_METRIC};
    *d = bw_diags_new(arena, "logs.csv");
    return bw_input_logs(arena, text, &deck, out, d);
}

static double inch(double count)
{
    return count * bw_unit_size(BW_LENGTH, "in");
}

static const double pi = 3.14159265358979323846;

/* RFC 4180: quotes, commas, line ends and doubled quotes inside a cell; a byte order mark
 * before, carriage returns or none, an empty line, no line end at the end. */
static void a_table_as_spreadsheets_write_it(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_log_list list;
    bw_diags d;
    const char *text =
        "\xEF\xBB\xBFNote,Tip_Girth,ID, species ,Butt-Girth,Length,Bark\r\n"
        "\"by the brook, \"\"the crooked one\"\"\",24 1/4 in,\"A,1\","
        "Proving Pine,0.71 m,9'6\",OFF\n"
        "\r\n,,,,,,\r\n"
        "\"two\nlines\", 607 mm ,B\xC3\xBC,test larch,27 in,\"9'6\"\"\",off";
    assert_status(arena, read_list(arena, text, &list, &d), BW_OK, &d);
    assert_int_equal(d.count, 0);
    assert_int_equal(list.count, 2);
    assert_string_equal(list.logs[0].name, "A,1");
    assert_string_equal(list.notes[0], "by the brook, \"the crooked one\"");
    assert_string_equal(list.logs[0].species->id, "test_pine");
    assert_near(list.logs[0].butt_diameter, 0.71 / pi, 1e-12);
    assert_near(list.logs[0].tip_diameter, inch(24.25) / pi, 1e-12);
    assert_near(list.logs[0].length, inch(114.0), 1e-12);
    assert_string_equal(list.logs[1].name, "B\xC3\xBC");
    assert_string_equal(list.notes[1], "two lines");
    assert_near(list.logs[1].tip_diameter, 0.607 / pi, 1e-12);
    assert_near(list.logs[1].length, inch(114.0), 1e-12);
    bw_arena_free(arena);
}

/* The same log, written down in a table and in a case. */
static void a_line_means_what_a_log_of_a_case_means(void **state)
{
    (void)state;
    static const char deck_text[] =
        "{\"format\": 1, \"title\": \"t\", \"units\": \"metric\", \"deck\": {\"width\": "
        "\"1 "
        "m\"}, \"logs\": [{\"name\": \"one\", \"species\": \"test larch\", "
        "\"butt_girth\": \"83 cm\", \"tip_diameter\": \"231 mm\", \"length\": \"4.3 m\", "
        "\"bark\": \"on\", \"bark_thickness\": \"9 mm\", \"grade\": {\"largest_knot\": "
        "\"71 "
        "mm\", \"knots_in_foot\": 0.37, \"spiral_grain\": \"1 in 14\", \"drying_check\": "
        "\"23 mm\", \"sweep\": {\"bow\": \"31 mm\", \"over\": \"4.3 m\"}, \"insects\": "
        "\"pinholes\", \"decay\": \"none\", \"dead_when_cut\": true}}], \"rows\": "
        "[{\"name\": \"r\", \"across\": \"0 m\"}], \"bents\": [{\"name\": \"A\", \"at\": "
        "\"0 "
        "m\", \"deck_height\": \"0.7 m\", \"sill\": \"one\"}, {\"name\": \"B\", \"at\": "
        "\"3 "
        "m\", \"deck_height\": \"0.7 m\", \"sill\": \"one\"}], \"stringers\": [{\"row\": "
        "\"r\", \"log\": \"one\", \"from\": \"A\", \"to\": \"B\"}]}";
    bw_arena *arena = bw_arena_new();
    const bw_species_table woods = test_woods(arena);
    bw_log_list list;
    bw_case deck;
    bw_diags d = bw_diags_new(arena, "case.json");
    assert_status(arena, bw_input_case(arena, deck_text, &woods, &deck, &d), BW_OK, &d);
    const char *text =
        "id,dead when cut,decay,insects,sweep,drying check,spiral grain,"
        "knots in foot,largest knot,bark thickness,bark,length,tip diameter,"
        "butt girth,species\n"
        "one,Yes,None,pinholes,31 mm,23 mm,1 in 14,0.37,71 mm,9 mm,on,4.3 m,"
        "231 mm,83 cm,test larch\n";
    assert_status(arena, read_list(arena, text, &list, &d), BW_OK, &d);
    const bw_log *a = &deck.logs[0], *b = &list.logs[0];
    assert_near(b->butt_diameter, a->butt_diameter, 1e-15);
    assert_near(b->tip_diameter, a->tip_diameter, 1e-15);
    assert_near(b->length, a->length, 1e-15);
    assert_memory_equal(&a->grade.insects, &b->grade.insects, sizeof a->grade.insects);
    assert_int_equal(b->grade.decay, BW_NO);
    assert_int_equal(b->grade.dead_when_cut, BW_YES);
    for (int p = 0; p < BW_PROPERTY_COUNT; p++) {
        const double factor = bw_grade_factor(&a->grade, (bw_property)p, NULL);
        assert_near(bw_grade_factor(&b->grade, (bw_property)p, NULL), factor, 1e-15);
        assert_true(factor < 1.0);
    }
    bw_arena_free(arena);
}

/* Tip not measured: 2.6 cm of fall before the middle, and beyond it the taper of 0.21 in
 * per ft where that is more. Butt not measured: as thick as the middle. */
static void ends_that_were_not_measured_are_taken_cautiously(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_log_list list;
    bw_diags d;
    const char *text = "id,species,butt diameter,mid diameter,tip diameter,length,bark\n"
                       "steep,test pine,271 mm,227 mm,,4.4 m,off\n"
                       "even,test pine,233 mm,227 mm,,4.4 m,off\n"
                       "hidden,test pine,,227 mm,211 mm,4.4 m,off\n"
                       "whole,test pine,271 mm,227 mm,211 mm,4.4 m,off\n";
    assert_status(arena, read_list(arena, text, &list, &d), BW_OK, &d);
    assert_int_equal(d.count, 3);
    assert_near(list.logs[0].tip_diameter, 0.183, 1e-9);
    assert_near(list.logs[0].butt_diameter, 0.271, 1e-9);
    assert_near(list.logs[1].tip_diameter, 0.227 - 2.2 * 0.21 / 12.0, 1e-9);
    assert_near(list.logs[2].butt_diameter, 0.227, 1e-9);
    assert_near(list.logs[2].tip_diameter, 0.211, 1e-9);
    assert_near(bw_log_diameter(&list.logs[3], 4.4, 1.1), 0.249, 1e-9);
    assert_near(bw_log_diameter(&list.logs[3], 4.4, 3.3), 0.219, 1e-9);
    bw_arena_free(arena);
}

/* Any cut of a table ends in a list or in faults, never in a crash. */
static void every_beginning_of_a_table_is_survived(void **state)
{
    (void)state;
    static const char whole[] =
        "id,species,butt girth,mid girth,tip girth,length,bark,note\r\n"
        "A\\,test pine,\"26 in\",25 in,,\"9'6\"\"\",off,\"a \"\"b\"\", c\"\r\n"
        "\xC3\xA9,\"test\tlarch\",,25 in,24 in,9 ft,on,\\\"\n";
    for (size_t cut = 0; cut < sizeof whole; cut++) {
        bw_arena *arena = bw_arena_new();
        bw_log_list list;
        bw_diags d;
        char *text = bw_arena_copy(arena, whole);
        text[cut] = '\0';
        const bw_status status = read_list(arena, text, &list, &d);
        assert_true(status == BW_OK || (status == BW_E_INPUT && d.errors > 0));
        bw_arena_free(arena);
    }
}

static void running_out_of_memory_is_reported(void **state)
{
    (void)state;
    bw_status status = BW_E_MEMORY;
    bw_arena *woods_arena = bw_arena_new();
    const bw_species_table woods = test_woods(woods_arena);
    const bw_case deck = {.basis = &bw_us_asd, .species = &woods};
    for (unsigned long n = 1; status == BW_E_MEMORY && n < 5000; n++) {
        bw_arena *arena = bw_arena_new();
        bw_log_list list;
        bw_diags d = bw_diags_new(arena, NULL);
        bw_arena_fail_after(n);
        status = bw_input_logs(arena,
                               "id,species,butt girth,tip girth,length,bark\n"
                               "A,test pine,26 in,25 in,9 ft,off\n",
                               &deck, &list, &d);
        bw_arena_fail_after(0);
        bw_arena_free(arena);
    }
    assert_int_equal(status, BW_OK);
    bw_arena_free(woods_arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_table_as_spreadsheets_write_it),
        cmocka_unit_test(a_line_means_what_a_log_of_a_case_means),
        cmocka_unit_test(ends_that_were_not_measured_are_taken_cautiously),
        cmocka_unit_test(every_beginning_of_a_table_is_survived),
        cmocka_unit_test(running_out_of_memory_is_reported),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
