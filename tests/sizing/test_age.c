/* A deck as it was found, against the same deck written down as worn and read as a case
 * of its own. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "bolewright/input.h"
#include "bolewright/sizing.h"

static const double pi = 3.14159265358979323846;

typedef struct {
    bw_arena *arena;
    bw_species_table table;
} fixture;

static fixture shared;

static int start(void **state)
{
    shared.arena = bw_arena_new();
    bw_diags d = bw_diags_new(shared.arena, NULL);
    assert_int_equal(bw_input_species(shared.arena, NULL, &shared.table, &d), BW_OK);
    *state = &shared;
    return 0;
}

static int stop(void **state)
{
    (void)state;
    bw_arena_free(shared.arena);
    return 0;
}

/* Two posts a bent in holes, two bents; the log of the first post is its own. worn: what
 * is off it all round [m]. */
static bw_case deck_of(double worn)
{
    bw_case out;
    bw_diags d = bw_diags_new(shared.arena, NULL);
    const char *text = bw_arena_print(
        shared.arena,
        "{\"format\": 1, \"title\": \"T\", \"units\": \"metric\", \"deck\": {\"width\": "
        "\"1.1 m\"}, \"logs\": ["
        "{\"name\": \"beam\", \"species\": \"eu_larch_european\", \"butt_diameter\": "
        "\"0.231 "
        "m\", \"tip_diameter\": \"0.207 m\", \"bark\": \"off\"},"
        "{\"name\": \"post\", \"species\": \"eu_larch_european\", \"butt_diameter\": "
        "\"0.243 "
        "m\", \"tip_diameter\": \"0.219 m\", \"bark\": \"off\"},"
        "{\"name\": \"first\", \"species\": \"eu_larch_european\", \"butt_diameter\": "
        "\"0.243 m\", \"tip_diameter\": \"0.219 m\", \"bark\": \"off\"%s}],"
        "\"rows\": [{\"name\": \"a\", \"across\": \"-0.43 m\"}, {\"name\": \"b\", "
        "\"across\": \"0.43 m\"}],"
        "\"bents\": ["
        "{\"name\": \"N\", \"at\": \"0 m\", \"deck_height\": \"0.85 m\", \"cap\": "
        "\"beam\", \"posts\": [{\"row\": \"a\", \"log\": \"first\", \"hole_depth\": "
        "\"1.05 m\", \"soil\": \"gravel\"}, {\"row\": \"b\", \"log\": \"post\", "
        "\"hole_depth\": \"1.05 m\", \"soil\": \"gravel\"}]},"
        "{\"name\": \"S\", \"at\": \"2.3 m\", \"deck_height\": \"0.85 m\", \"cap\": "
        "\"beam\", \"posts\": [{\"row\": \"a\", \"log\": \"post\", \"hole_depth\": "
        "\"1.05 m\", \"soil\": \"gravel\"}, {\"row\": \"b\", \"log\": \"post\", "
        "\"hole_depth\": \"1.05 m\", \"soil\": \"gravel\"}]}],"
        "\"stringers\": ["
        "{\"name\": \"A\", \"row\": \"a\", \"log\": \"beam\", \"from\": \"N\", \"to\": "
        "\"S\"}, {\"name\": \"B\", \"row\": \"b\", \"log\": \"beam\", \"from\": \"N\", "
        "\"to\": \"S\"}],"
        "\"ground\": {\"half_inch_movement_ok\": true},"
        "\"loads\": {\"rider\": {\"mass\": \"93 kg\", \"factor\": 2.2}}}",
        worn > 0.0 ? bw_arena_print(shared.arena, ", \"outer_loss\": \"%.12f m\"", worn)
                   : "");
    const bw_status status = bw_input_case(shared.arena, text, &shared.table, &out, &d);
    if (status != BW_OK) {
        bw_text said = bw_text_new(shared.arena);
        bw_diags_print(&d, &said);
        fail_msg("%s", bw_text_string(&said));
    }
    return out;
}

static bw_assessment assessed(const bw_case *deck)
{
    bw_assessment out;
    bw_diags d = bw_diags_new(shared.arena, NULL);
    assert_int_equal(bw_deck_assess(shared.arena, deck, &out, &d), BW_OK);
    return out;
}

static bw_date date(const char *text)
{
    bw_date d = {0};
    assert_true(bw_date_read(text, &d));
    return d;
}

/* number of "post N a" */
static size_t first_post(const bw_case *deck)
{
    for (size_t i = 0; i < bw_deck_member_count(deck); i++) {
        if (strcmp(bw_deck_member_at(deck, i).name, "N a") == 0) {
            return i;
        }
    }
    fail();
    return 0;
}

static bw_aged_deck aged(const bw_case *deck, const bw_inspections *in)
{
    bw_aged_deck out;
    bw_diags d = bw_diags_new(shared.arena, NULL);
    assert_int_equal(bw_deck_age(shared.arena, deck, in, &out, &d, &d), BW_OK);
    assert_int_equal(d.errors, 0);
    return out;
}

static bool tells_only(const bw_diags *d, const char *id, const char *path)
{
    bool all = d->count > 0;
    for (size_t k = 0; k < d->count; k++) {
        all =
            all && strcmp(d->items[k].id, id) == 0 && strcmp(d->items[k].path, path) == 0;
    }
    return all;
}

/* A notch of the case and a girth that was measured are told of a file each. */
static void each_file_is_told_its_own(void **state)
{
    (void)state;
    bw_case deck = deck_of(0.0);
    const bw_notch notch = {
        .from_butt = 1.21, .depth = 0.013, .case_path = "/logs/0/notches/0"};
    bw_log *logs = BW_NEW(shared.arena, bw_log, deck.n_logs);
    memcpy(logs, deck.logs, deck.n_logs * sizeof *logs);
    logs[0].notches = &notch;
    logs[0].n_notches = 1;
    deck.logs = logs;
    const bw_measurement m = {
        .member = first_post(&deck), .from_butt = -1.0, .girth = 1.07, .path = "/here"};
    const bw_inspection look = {date("2026-06-01"), &m, 1};
    const bw_inspections in = {true, date("2023-06-01"), &look, 1};
    bw_aged_deck out;
    bw_diags of_deck = bw_diags_new(shared.arena, NULL), of_looks = of_deck;
    assert_int_equal(bw_deck_age(shared.arena, &deck, &in, &out, &of_deck, &of_looks),
                     BW_OK);
    assert_true(tells_only(&of_deck, "deck.notch_middle", "/logs/0/notches/0"));
    assert_true(tells_only(&of_looks, "inspection.thicker", "/here"));
}

/* Two looks at the post, two years and three after it was built. */
static bw_aged_deck after(const bw_case *deck, double soft_then, double soft_now)
{
    bw_measurement *m = BW_NEW(shared.arena, bw_measurement, 2);
    bw_inspection *looks = BW_NEW(shared.arena, bw_inspection, 2);
    m[0] = (bw_measurement){
        .member = first_post(deck), .from_butt = -1.0, .soft = soft_then};
    m[1] =
        (bw_measurement){.member = first_post(deck), .from_butt = -1.0, .soft = soft_now};
    looks[0] = (bw_inspection){date("2025-06-01"), &m[0], 1};
    looks[1] = (bw_inspection){date("2026-06-01"), &m[1], 1};
    const bw_inspections in = {true, date("2023-06-01"), looks, 2};
    return aged(deck, &in);
}

/* ---- today ---- */

static void a_worn_post_is_the_post_of_a_case_that_says_so(void **state)
{
    (void)state;
    const double lost = 0.0173;
    const bw_case deck = deck_of(0.0), worn = deck_of(lost);
    const bw_aged_deck found = after(&deck, 0.0111, lost);
    const bw_assessment wanted = assessed(&worn);
    assert_int_equal(found.today.n_members, wanted.n_members);
    for (size_t i = 0; i < wanted.n_members; i++) {
        assert_true(fabs(found.today.members[i].worst - wanted.members[i].worst) <=
                    1e-12 * wanted.members[i].worst);
    }
    assert_int_equal(found.n_members, 1);
    assert_string_equal(found.members[0].name, "post N a");
    assert_true(found.members[0].today > found.members[0].built);
}

static void nothing_lost_is_nothing_changed(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    const bw_aged_deck found = after(&deck, 0.0, 0.0);
    assert_true(found.members[0].today == found.members[0].built);
    assert_true(found.members[0].section_left == 1.0);
    assert_true(found.members[0].outer_rate == 0.0);
    assert_int_equal(found.members[0].years_left, BW_AGE_HORIZON);
    assert_int_equal(found.months_to_look, 12);
}

/* ---- the trend ---- */

/* 3 mm in two years, then 5 mm in one: the last year is the worse. Then the other way. */
static void the_larger_of_both_rates_counts(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    const double days = 365.25;
    const bw_aged_deck faster = after(&deck, 0.003, 0.008);
    assert_true(fabs(faster.members[0].outer_rate - 0.005 * days / 365.0) < 1e-12);
    const bw_aged_deck slower = after(&deck, 0.008, 0.009);
    assert_true(fabs(slower.members[0].outer_rate - 0.009 * days / 1096.0) < 1e-12);
}

/* Looks at the first post on these days, with soft wood that deep. */
static bw_aged_deck looked_at(const bw_case *deck, const char *const *days,
                              const double *soft, size_t n)
{
    bw_measurement *m = BW_NEW(shared.arena, bw_measurement, n);
    bw_inspection *looks = BW_NEW(shared.arena, bw_inspection, n);
    for (size_t k = 0; k < n; k++) {
        m[k] = (bw_measurement){
            .member = first_post(deck), .from_butt = -1.0, .soft = soft[k]};
        looks[k] = (bw_inspection){date(days[k]), &m[k], 1};
    }
    const bw_inspections in = {false, date(days[0]), looks, n};
    return aged(deck, &in);
}

/* By hand: 6.4 mm in the 495 days of the two looks; with one between them that found
 * nothing new, 130 days before the last, they came in half a year. */
static void a_look_between_never_slows_the_trend(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    static const char *const two[] = {"2025-01-10", "2026-05-20"};
    static const char *const three[] = {"2025-01-10", "2026-01-10", "2026-05-20"};
    const bw_aged_deck plain = looked_at(&deck, two, (const double[]){0.0016, 0.008}, 2);
    const bw_aged_deck more =
        looked_at(&deck, three, (const double[]){0.0016, 0.0016, 0.008}, 3);
    assert_true(fabs(plain.members[0].outer_rate - 0.0064 * 365.25 / 495.0) < 1e-12);
    assert_true(fabs(more.members[0].outer_rate - 0.0064 / 0.5) < 1e-12);
    assert_true(more.members[0].years_left <= plain.members[0].years_left);
    assert_true(plain.members[0].years_left < BW_AGE_HORIZON);
}

/* Two looks alone within half a year: a jump counts, none says nothing. */
static void a_jump_within_half_a_year_is_a_trend(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    static const char *const days[] = {"2026-01-10", "2026-05-20"};
    const bw_aged_deck jump = looked_at(&deck, days, (const double[]){0.001, 0.004}, 2);
    const bw_aged_deck none = looked_at(&deck, days, (const double[]){0.004, 0.004}, 2);
    assert_true(jump.members[0].has_trend && !none.members[0].has_trend);
    assert_true(fabs(jump.members[0].outer_rate - 0.003 / 0.5) < 1e-12);
}

/* The last year within limits and the first that is not, each asked for as a case of its
 * own. */
static void years_left_are_those_of_the_full_check(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    const bw_aged_deck found = after(&deck, 0.0035, 0.0052);
    const bw_aged_member *m = &found.members[0];
    assert_true(m->years_left > 0 && m->years_left < BW_AGE_HORIZON);
    assert_int_equal(found.years_left, m->years_left);
    for (int more = 0; more < 2; more++) {
        bw_loss then = m->loss;
        then.outer += m->outer_rate * (m->years_left + more);
        const bw_case worn = deck_of(then.outer);
        const double u = assessed(&worn).members[first_post(&deck)].worst;
        const bool good = u <= 1.0 && bw_section_left(m->log, &then) >= bw_reserve_least;
        assert_true(good == (more == 0));
    }
}

static void more_rot_never_leaves_more_years(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    int before = BW_AGE_HORIZON;
    double worst = 0.0;
    for (double soft = 0.001; soft < 0.05; soft += 0.0037) {
        const bw_aged_deck found = after(&deck, 0.6 * soft, soft);
        assert_true(found.members[0].years_left <= before);
        assert_true(found.members[0].today >= worst);
        before = found.members[0].years_left;
        worst = found.members[0].today;
    }
    assert_int_equal(before, -1);
}

static void a_reserve_that_is_used_up_is_not_within_limits(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    const bw_aged_deck found = after(&deck, 0.011, 0.0231);
    assert_true(found.members[0].section_left < bw_reserve_least);
    assert_int_equal(found.verdict, BW_OVER);
    assert_int_equal(found.months_to_look, 0);
    assert_int_equal(found.members[0].years_left, -1);
}

static void a_post_that_is_gone_is_not_worked_out(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    const bw_aged_deck found = after(&deck, 0.05, 0.111);
    assert_true(found.members[0].gone);
    assert_null(found.today.members);
    assert_int_equal(found.verdict, BW_OVER);
    assert_true(found.members[0].section_left == 0.0);
}

/* A hollow found today in a log that was solid a year ago: it reached from the middle. */
static void a_new_hollow_grew_since_the_look_before(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    const size_t post = first_post(&deck);
    const bw_measurement then = {.member = post, .from_butt = 0.41, .girth = pi * 0.24};
    const bw_measurement now = {.member = post, .from_butt = 0.41, .shell = 0.0713};
    const bw_inspection looks[] = {{date("2025-06-01"), &then, 1},
                                   {date("2026-06-01"), &now, 1}};
    const bw_inspections in = {.items = looks, .n_items = 2};
    const bw_aged_deck found = aged(&deck, &in);
    const double radius =
        0.5 * found.members[0].loss.diameter - found.members[0].loss.outer;
    assert_true(found.members[0].has_trend);
    assert_true(fabs(found.members[0].shell_rate - (radius - 0.0713) * 365.25 / 365.0) <
                1e-12);
}

/* Its shell, measured once, wears off with the outside: today, and in years to come. */
static void a_shell_wears_off_from_outside(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    const size_t post = first_post(&deck);
    const bw_measurement then = {.member = post, .from_butt = 0.41, .shell = 0.0913};
    const bw_measurement now = {.member = post, .from_butt = 0.41, .soft = 0.0027};
    const bw_measurement both = {
        .member = post, .from_butt = 0.41, .soft = 0.0027, .shell = 0.0886};
    int left[2];
    for (int k = 0; k < 2; k++) {
        const bw_inspection looks[] = {{date("2025-06-01"), &then, 1},
                                       {date("2026-06-01"), k == 0 ? &now : &both, 1}};
        const bw_inspections in = {.items = looks, .n_items = 2};
        const bw_aged_deck found = aged(&deck, &in);
        const bw_aged_member *m = &found.members[0];
        assert_true(fabs(m->loss.shell - 0.0886) < 1e-12);
        assert_true(fabs(m->shell_rate - 0.0027 * 365.25 / 365.0) < 1e-12);
        left[k] = m->years_left;
    }
    assert_int_equal(left[0], left[1]);
    assert_true(left[0] > 0 && left[0] < BW_AGE_HORIZON);
}

static void one_look_alone_has_no_trend(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    const bw_measurement now = {
        .member = first_post(&deck), .from_butt = -1.0, .soft = 0.0061};
    const bw_inspection look = {date("2026-06-01"), &now, 1};
    const bw_inspections in = {.items = &look, .n_items = 1};
    const bw_aged_deck found = aged(&deck, &in);
    assert_false(found.members[0].has_trend);
    assert_false(found.has_trend);
    assert_int_equal(found.months_to_look, 12);
}

/* ---- who was not looked at ---- */

/* What is to be done and begins so; null: nothing. */
static const char *to_do(const bw_assessment *a, const char *words)
{
    for (size_t k = 0; k < a->n_assumptions; k++) {
        const bw_assumption *line = &a->assumptions[k];
        if (line->to_do && strncmp(line->text, words, strlen(words)) == 0) {
            return line->text;
        }
    }
    return NULL;
}

/* This larch counts as class 4 of EN 350 at worst: 2 to 5 years (durability.c). */
static void who_was_not_looked_at_is_named(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    const bw_measurement now = {
        .member = first_post(&deck), .from_butt = -1.0, .soft = 0.0011};
    const bw_inspection look = {date("2026-06-01"), &now, 1};
    bw_inspections in = {.items = &look, .n_items = 1};
    const bw_aged_deck one = aged(&deck, &in);
    assert_string_equal(to_do(&one.today, "NOT LOOKED AT"),
                        "NOT LOOKED AT: 7 of 8 members, which count as when they were "
                        "built: stringer A, stringer B, cap N, cap S, post N b, post S "
                        "a, post S b");
    assert_null(to_do(&one.built, "NOT LOOKED AT"));
    assert_ptr_equal(one.today.assumptions[0].text, to_do(&one.today, "NOT LOOKED AT"));
    assert_null(to_do(&one.today, "look first"));
    in.has_built = true;
    in.built = date("2024-07-01"); /* 1.9 years */
    const bw_aged_deck young = aged(&deck, &in);
    assert_null(to_do(&young.today, "look first"));
    in.built = date("2012-06-01");
    const bw_aged_deck old = aged(&deck, &in);
    const char *first = to_do(
        &old.today, "look first at what has been in or on the ground for 14.0 years");
    assert_non_null(first);
    assert_non_null(
        strstr(first, ": post N b (2 to 5), post S a (2 to 5), post S b (2 to 5)"));
}

static void where_all_were_looked_at_nothing_is_told(void **state)
{
    (void)state;
    const bw_case deck = deck_of(0.0);
    bw_measurement m[8];
    for (size_t i = 0; i < 8; i++) {
        m[i] = (bw_measurement){.member = i, .from_butt = -1.0, .soft = 0.0011};
    }
    const bw_inspection look = {date("2026-06-01"), m, 8};
    const bw_inspections in = {true, date("2012-06-01"), &look, 1};
    const bw_aged_deck found = aged(&deck, &in);
    assert_null(to_do(&found.today, "NOT LOOKED AT"));
    assert_null(to_do(&found.today, "look first"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_worn_post_is_the_post_of_a_case_that_says_so),
        cmocka_unit_test(nothing_lost_is_nothing_changed),
        cmocka_unit_test(each_file_is_told_its_own),
        cmocka_unit_test(the_larger_of_both_rates_counts),
        cmocka_unit_test(a_look_between_never_slows_the_trend),
        cmocka_unit_test(a_jump_within_half_a_year_is_a_trend),
        cmocka_unit_test(years_left_are_those_of_the_full_check),
        cmocka_unit_test(more_rot_never_leaves_more_years),
        cmocka_unit_test(a_reserve_that_is_used_up_is_not_within_limits),
        cmocka_unit_test(a_post_that_is_gone_is_not_worked_out),
        cmocka_unit_test(a_new_hollow_grew_since_the_look_before),
        cmocka_unit_test(a_shell_wears_off_from_outside),
        cmocka_unit_test(one_look_alone_has_no_trend),
        cmocka_unit_test(who_was_not_looked_at_is_named),
        cmocka_unit_test(where_all_were_looked_at_nothing_is_told),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
