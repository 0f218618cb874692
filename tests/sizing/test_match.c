/* Piles matched to whole decks: against trying every choice with the full assessment, and
 * by what a builder would look for in the answer. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "bolewright/input.h"
#include "bolewright/sizing.h"

static bw_arena *woods_arena;
static bw_species_table woods;
static uint64_t seed = 918273;

static int start(void **state)
{
    (void)state;
    woods_arena = bw_arena_new();
    bw_diags d = bw_diags_new(woods_arena, NULL);
    return bw_input_species(woods_arena, NULL, &woods, &d) == BW_OK ? 0 : 1;
}

static int stop(void **state)
{
    (void)state;
    bw_arena_free(woods_arena);
    return 0;
}

/* xorshift64*: S. Vigna 2016, constants from memory. */
static double random_unit(void)
{
    seed ^= seed >> 12;
    seed ^= seed << 25;
    seed ^= seed >> 27;
    return (double)((seed * 2685821657736338717ULL) >> 11) / 9007199254740992.0;
}

/* One bay between sills; %s: what else the file says. */
static const char one_bay[] =
    "{\"format\": 1, \"title\": \"T\", \"units\": \"metric\", \"deck\": {\"width\": "
    "\"1.1 "
    "m\"}, \"logs\": [{\"name\": \"log\", \"species\": \"tamarack\", \"butt_diameter\": "
    "\"230 mm\", \"tip_diameter\": \"210 mm\", \"bark\": \"off\"}], \"rows\": "
    "[{\"name\": \"left\", \"across\": \"-430 mm\"}, {\"name\": \"right\", \"across\": "
    "\"430 mm\"}], \"every_bent\": {\"deck_height\": \"0.8 m\", \"sill\": \"log\"}, "
    "\"bents\": [{\"name\": \"A\", \"at\": \"0 m\"}, {\"name\": \"B\", \"at\": \"2.7 "
    "m\"}], "
    "\"stringers\": [{\"row\": \"left\", \"log\": \"log\", \"from\": \"A\", \"to\": "
    "\"B\"}, "
    "{\"row\": \"right\", \"log\": \"log\", \"from\": \"A\", \"to\": \"B\"}], "
    "\"ground\": "
    "{\"soil\": \"gravel\"}, \"loads\": {\"rider\": null, \"crowd\": \"2.87 kPa\"}}";

static bw_case read_case(bw_arena *arena, const char *text)
{
    bw_case deck;
    bw_diags d = bw_diags_new(arena, NULL);
    const bw_status status = bw_input_case(arena, text, &woods, &deck, &d);
    if (status != BW_OK) {
        bw_text out = bw_text_new(arena);
        bw_diags_print(&d, &out);
        fail_msg("%s", bw_text_string(&out));
    }
    return deck;
}

static bw_log log_of(const char *name, const char *species, double butt, double tip,
                     double length)
{
    return (bw_log){.name = name,
                    .species = bw_species_find(&woods, species, NULL, 0),
                    .butt_diameter = butt,
                    .tip_diameter = tip,
                    .length = length,
                    .case_path = ""};
}

static bw_match match(bw_arena *arena, const bw_case *deck, const bw_log *pile, size_t n)
{
    bw_match out;
    bw_diags d = bw_diags_new(arena, NULL);
    const bw_match_question question = {.deck = deck, .pile = pile, .n_pile = n};
    assert_int_equal(bw_match_pile(arena, &question, &out, &d), BW_OK);
    assert_int_equal(d.errors, 0);
    return out;
}

static double wood_of(const bw_log *log)
{
    const double a = log->butt_diameter, b = log->tip_diameter;
    return acos(-1.0) / 12.0 * (a * a + a * b + b * b) * log->length;
}

/* ---- every choice tried ---- */

enum { PLACES = 4, PILE = 5 };

typedef struct {
    bw_case deck;
    bw_log logs[PLACES];
    bw_bent bents[2];
    bw_stringer stringers[2];
} own_logs;

/* The deck with a log of its own for each stringer, then for each sill. */
static void lay(const bw_case *given, const bw_log *pile, const int *log, own_logs *out)
{
    out->deck = *given;
    for (int k = 0; k < 2; k++) {
        out->stringers[k] = given->stringers[k];
        out->stringers[k].log = k;
        out->bents[k] = given->bents[k];
        out->bents[k].cap = 2 + k;
    }
    for (int k = 0; k < PLACES; k++) {
        out->logs[k] = pile[log[k]];
    }
    out->deck.logs = out->logs;
    out->deck.n_logs = PLACES;
    out->deck.bents = out->bents;
    out->deck.stringers = out->stringers;
}

static bool stands(bw_arena *arena, const bw_case *given, const bw_log *pile,
                   const int *log)
{
    own_logs own;
    bw_assessment result;
    bw_diags d = bw_diags_new(arena, NULL);
    const bw_arena_mark mark = bw_arena_now(arena);
    lay(given, pile, log, &own);
    const bw_status status = bw_deck_assess(arena, &own.deck, &result, &d);
    const bool within = status == BW_OK && result.verdict == BW_WITHIN;
    bw_arena_back(arena, mark);
    return within;
}

static double depth_of(const bw_match *found, const bw_log *log)
{
    return bw_log_diameter(log, log->length, found->places[0].length / 2.0);
}

static double cost_of(const bw_match *found, const bw_log *pile, const int *log)
{
    double cost = bw_match_level_weight *
                  fabs(depth_of(found, &pile[log[0]]) - depth_of(found, &pile[log[1]]));
    for (int k = 0; k < PLACES; k++) {
        cost += wood_of(&pile[log[k]]);
    }
    return cost;
}

static double best_of_all(bw_arena *arena, const bw_match *found, const bw_case *deck,
                          const bw_log *pile)
{
    double best = HUGE_VAL;
    for (int code = 0; code < PILE * PILE * PILE * PILE; code++) {
        const int log[PLACES] = {code % PILE, code / PILE % PILE,
                                 code / (PILE * PILE) % PILE,
                                 code / (PILE * PILE * PILE)};
        bool fits = true;
        for (int k = 0; k < PLACES; k++) {
            fits = fits && pile[log[k]].length >= found->places[k].length;
            for (int j = 0; j < k; j++) {
                fits = fits && log[j] != log[k];
            }
        }
        if (fits && cost_of(found, pile, log) < best && stands(arena, deck, pile, log)) {
            best = cost_of(found, pile, log);
        }
    }
    return best;
}

/* Lengths for either kind of place, girths from too thin to plenty; one species. */
static void make_pile(bw_log *pile)
{
    static const char *const names[PILE] = {"a", "b", "c", "d", "e"};
    for (int j = 0; j < PILE; j++) {
        const double butt = 0.07 + 0.17 * random_unit();
        const double tip = butt * (0.86 + 0.12 * random_unit());
        const double length = random_unit() < 0.6 ? 3.1 + random_unit() : 1.3;
        pile[j] = log_of(names[j], "tamarack", butt, tip, length);
    }
}

/* An answer with all logs always stands, and never costs less than the best of all
 * choices. It costs just that much unless a log was ruled out that would have passed in
 * other company: seldom. */
static void small_piles_against_every_choice(void **state)
{
    (void)state;
    int solved = 0, best = 0, none = 0;
    for (int k = 0; k < 500; k++) {
        bw_arena *arena = bw_arena_new();
        bw_log pile[PILE];
        const bw_case deck = read_case(arena, one_bay);
        make_pile(pile);
        const bw_match found = match(arena, &deck, pile, PILE);
        const double least = best_of_all(arena, &found, &deck, pile);
        if (found.n_missing == 0) {
            int log[PLACES];
            for (int i = 0; i < PLACES; i++) {
                log[i] = found.places[i].log;
            }
            const double cost = found.wood + bw_match_level_weight * found.uneven;
            assert_true(stands(arena, &deck, pile, log));
            assert_int_equal(found.assessment.verdict, BW_WITHIN);
            assert_true(fabs(cost - cost_of(&found, pile, log)) <= 1e-6);
            assert_true(cost >= least - 1e-6);
            solved++;
            best += cost <= least + 1e-6;
        }
        none += found.n_missing > 0 && !isfinite(least);
        bw_arena_free(arena);
    }
    print_message("500 piles: %d solved, %d of them the best of all choices; %d that no "
                  "choice solves\n",
                  solved, best, none);
    assert_true(solved >= 150 && none >= 50);
    assert_true(best >= solved - solved / 10);
    assert_true(solved + none >= 485);
}

/* ---- what a builder looks for ---- */

static bw_match match_case(bw_arena *arena, const char *name, const char *pile_name,
                           bw_case *deck, bw_log_list *list)
{
    const char *text = NULL;
    bw_diags d = bw_diags_new(arena, NULL);
    const char *path = bw_arena_print(arena, "%s/cases/%s", BW_SOURCE_DIR, name);
    assert_int_equal(bw_input_read_file(arena, path, &text, &d), BW_OK);
    *deck = read_case(arena, text);
    path = bw_arena_print(arena, "%s/cases/%s", BW_SOURCE_DIR, pile_name);
    assert_int_equal(bw_input_read_file(arena, path, &text, &d), BW_OK);
    assert_int_equal(bw_input_logs(arena, text, deck, list, &d), BW_OK);
    return match(arena, deck, list->logs, list->count);
}

static void the_demo_pile_serves_the_demo_deck(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_case deck;
    bw_log_list list;
    const bw_match found =
        match_case(arena, "alder-loop.json", "alder-loop-pile.csv", &deck, &list);
    bool taken[64] = {false};
    assert_int_equal(found.n_missing, 0);
    assert_int_equal(found.assessment.verdict, BW_WITHIN);
    assert_int_equal(found.n_places, 16);
    for (size_t k = 0; k < found.n_places; k++) {
        const bw_match_place *p = &found.places[k];
        const bw_log *log = &list.logs[p->log];
        assert_false(taken[p->log]);
        taken[p->log] = true;
        assert_int_equal(found.fates[p->log], BW_LOG_USED);
        assert_true(log->length >= p->length);
        assert_true(p->utilisation <= 1.0 + 1e-9);
        assert_ptr_equal(found.assessment.members[k].log, &found.deck.logs[k]);
        if (strcmp(p->role, "post") == 0) { /* pine would rot in the ground */
            assert_string_equal(log->species->common, "Western redcedar");
        }
    }
    /* butts meet butts: U1 lies with its butt at G0, so U2 has it at B, U3 at B */
    assert_false(found.places[0].butt_at_to);
    assert_true(found.places[1].butt_at_to);
    assert_false(found.places[2].butt_at_to);
    assert_false(found.places[3].butt_at_to);
    /* the pile's soft log counts on nothing */
    for (size_t j = 0; j < list.count; j++) {
        assert_true((strcmp(list.logs[j].name, "L10") == 0) ==
                    (found.fates[j] == BW_LOG_UNSOUND));
    }
    /* paths are those of the case again */
    assert_string_equal(found.assessment.members[0].case_path, "/stringers/0");
    bw_arena_free(arena);
}

/* What is written is read as the same deck and works alike, to what the rounding of
 * girths can do: 0.01 in of 13 in and more, in the fourth power 0.3 %. */
static void a_written_case_works_as_the_answer_does(void **state)
{
    (void)state;
    static const char *const cases[] = {"alder-loop.json", "birch-hop-braced.json"};
    for (int c = 0; c < 2; c++) {
        bw_arena *arena = bw_arena_new();
        bw_diags d = bw_diags_new(arena, NULL);
        const char *text = NULL;
        const char *path = bw_arena_print(arena, "%s/cases/%s", BW_SOURCE_DIR, cases[c]);
        assert_int_equal(bw_input_read_file(arena, path, &text, &d), BW_OK);
        const bw_case deck = read_case(arena, text);
        bw_log pile[60];
        size_t n = 0;
        for (int k = 0; k < 12; k++) { /* the drawn logs and their like, long enough */
            for (size_t j = 0; j < deck.n_logs && n < 60; j++) {
                pile[n] = deck.logs[j];
                pile[n].name = bw_arena_print(arena, "P%zu", n);
                pile[n].butt_diameter *= 1.0 + 0.004 * k;
                pile[n].length = 4.0;
                pile[n++].grade.decay = BW_NO;
            }
        }
        const bw_match found = match(arena, &deck, pile, n);
        bw_text out = bw_text_new(arena);
        bw_assessment again;
        assert_int_equal(bw_input_case_put(arena, text, &found.deck, &out, &d), BW_OK);
        const bw_case written = read_case(arena, bw_text_string(&out));
        assert_int_equal(bw_deck_assess(arena, &written, &again, &d), BW_OK);
        assert_int_equal(again.n_members, /* boards are a member without a place */
                         found.n_places + (written.decking.kind != BW_BOARDS_UNKNOWN));
        for (size_t k = 0; k < found.n_places; k++) {
            assert_string_equal(again.members[k].name, found.places[k].name);
            assert_true(fabs(again.members[k].worst / found.places[k].utilisation -
                             1.0) <= 0.004);
        }
        bw_arena_free(arena);
    }
}

/* Braces end just under the caps as drawn: thicker logs over the posts would let them end
 * above their posts. Such a choice is ruled out, and the match goes on. */
static void logs_that_leave_a_brace_in_the_air_are_ruled_out(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, NULL);
    const char *text = NULL;
    const char *path = BW_SOURCE_DIR "/cases/birch-hop-braced.json";
    assert_int_equal(bw_input_read_file(arena, path, &text, &d), BW_OK);
    bw_case deck = read_case(arena, text);
    bw_brace *braces = BW_NEW(arena, bw_brace, deck.n_braces);
    memcpy(braces, deck.braces, deck.n_braces * sizeof *braces);
    for (size_t k = 0; k < deck.n_braces; k++) {
        double *const high = braces[k].to.height > braces[k].from.height
                                 ? &braces[k].to.height
                                 : &braces[k].from.height;
        *high = 0.515; /* the lowest post ends 0.522 m up */
    }
    deck.braces = braces;
    bw_log pile[40];
    size_t n = 0;
    for (; n < 40; n++) { /* caps and posts, half of them a fifth thicker than drawn */
        pile[n] = deck.logs[1 + n % 2];
        pile[n].name = bw_arena_print(arena, "P%zu", n);
        pile[n].butt_diameter *= n < 20 ? 1.2 : 1.0;
        pile[n].tip_diameter *= n < 20 ? 1.2 : 1.0;
        pile[n].length = 4.0;
        pile[n].grade.decay = BW_NO;
    }
    const bw_match found = match(arena, &deck, pile, n);
    bw_assessment whole;
    assert_int_equal(bw_deck_assess(arena, &found.deck, &whole, &d), BW_OK);
    bw_arena_free(arena);
}

/* The stringer that is wanted passes, and one that is a step thinner does not. */
static void a_wanted_log_is_the_thinnest_that_passes(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_case deck = read_case(arena, one_bay);
    const bw_log pile[PLACES - 1] = {log_of("s", "tamarack", 0.223, 0.207, 3.4),
                                     log_of("m", "tamarack", 0.231, 0.219, 1.7),
                                     log_of("n", "tamarack", 0.229, 0.217, 1.7)};
    const bw_match found = match(arena, &deck, pile, PLACES - 1);
    assert_int_equal(found.n_missing, 1);
    const size_t k = found.places[0].log < 0 ? 0 : 1;
    const bw_match_place *p = &found.places[k];
    assert_true(p->log < 0 && p->piece_passes);
    assert_true(p->utilisation <= 1.0);
    bw_log all[PLACES] = {pile[0], pile[1], pile[2], p->piece};
    int log[PLACES] = {0, 0, found.places[2].log, found.places[3].log};
    log[k] = 3;
    assert_true(stands(arena, &deck, all, log));
    const double fall = all[3].butt_diameter - all[3].tip_diameter;
    all[3].butt_diameter -=
        0.01 / acos(-1.0); /* metric: steps of a centimetre of girth */
    all[3].tip_diameter = fmax(all[3].butt_diameter - fall, 0.7 * all[3].butt_diameter);
    assert_false(stands(arena, &deck, all, log));
    bw_arena_free(arena);
}

/* A deck too low for the thickest logs: they are left, and no fault is told. */
static void a_log_too_thick_for_the_height_is_left(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const char *low =
        "{\"format\": 1, \"title\": \"T\", \"units\": \"metric\", \"deck\": {\"width\": "
        "\"1.1 "
        "m\"}, \"logs\": [{\"name\": \"log\", \"species\": \"tamarack\", "
        "\"butt_diameter\": "
        "\"190 mm\", \"tip_diameter\": \"180 mm\", \"bark\": \"off\"}], \"rows\": "
        "[{\"name\": \"left\", \"across\": \"-430 mm\"}, {\"name\": \"right\", "
        "\"across\": "
        "\"430 mm\"}], \"every_bent\": {\"deck_height\": \"0.52 m\", \"cap\": \"log\", "
        "\"posts\": [{\"row\": \"left\", \"log\": \"log\", \"hole_depth\": \"1.2 m\", "
        "\"pad\": {\"diameter\": \"400 mm\"}}, {\"row\": \"right\", \"log\": \"log\", "
        "\"hole_depth\": \"1.2 m\", \"pad\": {\"diameter\": \"400 mm\"}}]}, \"bents\": "
        "[{\"name\": \"A\", \"at\": \"0 m\"}, {\"name\": \"B\", \"at\": \"1.9 m\"}], "
        "\"stringers\": [{\"row\": \"left\", \"log\": \"log\", \"from\": \"A\", \"to\": "
        "\"B\"}, {\"row\": \"right\", \"log\": \"log\", \"from\": \"A\", \"to\": "
        "\"B\"}], "
        "\"ground\": {\"soil\": \"gravel\", \"half_inch_movement_ok\": true}, \"loads\": "
        "{\"rider\": null, \"crowd\": \"1.9 kPa\"}}";
    const bw_case deck = read_case(arena, low);
    bw_log pile[10];
    static const char *const names[10] = {"a", "b", "c", "d", "e",
                                          "f", "g", "h", "i", "j"};
    for (int j = 0; j < 8; j++) {
        pile[j] =
            log_of(names[j], "tamarack", 0.187 + 0.0007 * j, 0.181, j < 2 ? 2.2 : 1.9);
    }
    /* as stringers these would not fit under the boards, and no caps are left but them */
    pile[8] = log_of(names[8], "tamarack", 0.411, 0.397, 2.9);
    pile[9] = log_of(names[9], "tamarack", 0.417, 0.399, 2.9);
    const bw_match found = match(arena, &deck, pile, 10);
    assert_true(found.fates[8] != BW_LOG_USED);
    assert_true(found.fates[9] != BW_LOG_USED);
    assert_int_equal(found.n_missing, 0);
    bw_arena_free(arena);
}

/* Knees under a stringer too, which no two posts span. */
static void every_place_wants_a_log_as_long_as_its_member(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_case deck;
    bw_log_list pile;
    bw_diags d = bw_diags_new(arena, NULL);
    const bw_match found =
        match_case(arena, "quarry-balcony.json", "alder-loop-pile.csv", &deck, &pile);
    bw_assessment a;
    assert_int_equal(bw_deck_assess(arena, &deck, &a, &d), BW_OK);
    for (size_t k = 0; k < found.n_places; k++) {
        assert_string_equal(found.places[k].name, a.members[k].name);
        assert_true(a.members[k].length > 0.5);
        assert_true(found.places[k].length >= a.members[k].length);
    }
    bw_arena_free(arena);
}

static void running_out_of_memory_is_reported(void **state)
{
    (void)state;
    bw_arena *case_arena = bw_arena_new();
    const bw_case deck = read_case(case_arena, one_bay);
    bw_log pile[PILE];
    make_pile(pile);
    bw_status status = BW_E_MEMORY;
    for (unsigned long n = 1; status == BW_E_MEMORY && n < 400000; n += 1 + n / 8) {
        bw_arena *arena = bw_arena_new();
        bw_diags d = bw_diags_new(arena, NULL);
        bw_match out;
        const bw_match_question question = {.deck = &deck, .pile = pile, .n_pile = PILE};
        bw_arena_fail_after(n);
        status = bw_match_pile(arena, &question, &out, &d);
        bw_arena_fail_after(0);
        bw_arena_free(arena);
    }
    assert_int_equal(status, BW_OK);
    bw_arena_free(case_arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(small_piles_against_every_choice),
        cmocka_unit_test(the_demo_pile_serves_the_demo_deck),
        cmocka_unit_test(a_written_case_works_as_the_answer_does),
        cmocka_unit_test(logs_that_leave_a_brace_in_the_air_are_ruled_out),
        cmocka_unit_test(a_wanted_log_is_the_thinnest_that_passes),
        cmocka_unit_test(a_log_too_thick_for_the_height_is_left),
        cmocka_unit_test(every_place_wants_a_log_as_long_as_its_member),
        cmocka_unit_test(running_out_of_memory_is_reported),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
