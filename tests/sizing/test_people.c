/* Heads for a sign: the limit is where the assessment says, heads are volumes of people
 * by hand, and people in a heap do no more than the even crowd they were counted from. */
#include "bolewright/sizing.h"
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

static const double g = 9.80665, psf = 47.88025898;

/* Crowded enough that people govern; no rider. */
static bwt_deck people_only(void)
{
    bwt_deck d = bwt_deck_plain();
    d.n_bents = 2;
    d.at[1] = 3.713;
    d.sill[0] = d.sill[1] = true;
    d.rider = 0.0;
    d.crowd = 2385.0;
    d.sway = 313.0;
    return d;
}

static bw_head_count count(const bwt_deck *d, double person, bw_arena *arena,
                           bw_case *deck)
{
    bw_assessment a;
    bw_diags faults = bw_diags_new(arena, NULL);
    *deck = *bwt_deck_read(d, arena);
    deck->loads.person = person;
    assert_int_equal(bw_deck_assess(arena, deck, &a, &faults), BW_OK);
    const size_t said = faults.count;
    assert_int_equal(bw_people_count(arena, &a, &faults), BW_OK);
    assert_int_equal(faults.count, said); /* of the deck, and not of every trial again */
    return a.heads;
}

static bw_verdict verdict_at(const bw_case *deck, double crowd, bw_arena *arena)
{
    bw_case trial = *deck;
    bw_assessment a;
    bw_diags faults = bw_diags_new(arena, NULL);
    trial.loads.crowd = crowd;
    trial.loads.sway =
        deck->loads.sway * bw_people_sway(crowd) / bw_people_sway(deck->loads.crowd);
    assert_int_equal(bw_deck_assess(arena, &trial, &a, &faults), BW_OK);
    return a.verdict;
}

static void the_limit_is_where_a_check_fails(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bwt_deck d = people_only();
    bw_case deck;
    d.stringer.butt = d.stringer.tip = 0.1713; /* thin: the limit lies below a crowd */
    const bw_head_count h = count(&d, 90.0, arena, &deck);
    assert_false(h.beyond);
    assert_true(h.limit > 300.0 && h.limit < 5500.0);
    assert_int_equal(verdict_at(&deck, h.limit, arena), BW_WITHIN);
    assert_int_equal(verdict_at(&deck, h.limit + 12.0, arena), BW_OVER);
    bw_arena_free(arena);
}

static void trials_warn_of_nothing_again(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bwt_deck d = people_only();
    bw_case deck;
    d.rider = 97.3;
    d.stringer_flaws = (bwt_flaws){.notch_at = 1.8, .notch_depth = 0.021};
    bw_diags faults = bw_diags_new(arena, NULL);
    bw_assessment a;
    assert_int_equal(bw_deck_assess(arena, bwt_deck_read(&d, arena), &a, &faults), BW_OK);
    assert_true(faults.count > 0); /* a notch in the middle of a span */
    count(&d, 90.0, arena, &deck);
    bw_arena_free(arena);
}

static void heads_by_hand(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bwt_deck d = people_only();
    bw_case deck;
    const bw_head_count h = count(&d, 87.3, arena, &deck);
    assert_true(h.known);
    const double area = 1.13 * 3.713;
    const double part = h.limit / 5570.2; /* of the densest crowd */
    const double heap = (1.0 - sqrt(1.0 - part)) / part;
    /* rows at 0.437 either side of 1.13 m; the next test sums up what stands there */
    const double file = 0.874 * pow(1.0 + 0.128 / 0.874, 2.0) / 2.0 / 1.13 /
                        (1.0 + (0.128 - 0.1) / 0.874);
    const double close = heap * file * h.limit; /* the even crowd that is within */
    assert_int_equal(h.in_bay, (int)(fmin(close, 2385.0) * area / (87.3 * g)));
    assert_true(close < 2385.0);
    assert_int_equal(h.on_deck, h.in_bay); /* there is one bay */
    assert_true(h.in_bay <= h.on_deck && h.in_bay > 0);
    bw_case unused;
    const bw_head_count heavy = count(&d, 140.0, arena, &unused);
    assert_true(heavy.on_deck < h.on_deck && heavy.in_bay <= h.in_bay);
    bw_arena_free(arena);
}

/* A heap of W = r q L at the densest, anywhere on a single span: statics by summing 400
 * small loads. */
static void heaped(double q, double r, double *moment, double *shear)
{
    const double L = 3.713, dense = 5570.2, W = r * q * L, c = W / dense;
    *moment = *shear = 0.0;
    for (double from = 0.0; from <= L - c + 1e-9; from += (L - c) / 200.0) {
        double R = 0.0;
        for (int k = 0; k < 400; k++) {
            R += W / 400.0 * (L - from - c * (k + 0.5) / 400.0) / L;
        }
        *shear = fmax(*shear, fmax(R, W - R));
        for (double x = 0.0; x <= L; x += L / 400.0) {
            const double over = fmin(fmax(x - from, 0.0), c);
            *moment = fmax(*moment, R * x - dense * over * (x - from - over / 2.0));
        }
    }
}

static void a_heap_does_no_more_than_the_even_crowd(void **state)
{
    (void)state;
    const double L = 3.713;
    for (double q = 711.0; q < 5500.0; q *= 1.37) {
        const double part = q / 5570.2, r = (1.0 - sqrt(1.0 - part)) / part;
        double moment, shear;
        heaped(q, r, &moment, &shear);
        assert_true(moment <= q * L * L / 8.0 * 1.001);
        assert_true(shear <= q * L / 2.0 * 1.001);
        heaped(q, 1.03 * r, &moment, &shear);
        assert_true(moment > q * L * L / 8.0 || shear > q * L / 2.0);
    }
}

/* ---- across ---- */

/* Of a weight across the deck on row k: boards run from row to row, and on beyond. */
static double on_row(const bwt_deck *d, int k, double across)
{
    int left = 0;
    while (left + 2 < d->n_rows && across > d->across[left + 1]) {
        left++;
    }
    const double t = (across - d->across[left]) / (d->across[left + 1] - d->across[left]);
    return k == left ? 1.0 - t : k == left + 1 ? t : 0.0;
}

/* The most that a file of part of the even crowd does to a row over what that does, both
 * on the strips that press on it (way 1) or lift it (-1): sums of many small ones. */
static double filed(const bwt_deck *d, int k, double way, double part)
{
    const double edge = d->width / 2.0;
    double even = 0.0, most = 0.0;
    for (int i = 0; i < 20000; i++) {
        const double x = d->width * ((i + 0.5) / 20000.0 - 0.5);
        const double share = way * on_row(d, k, x);
        even += share > 0.0 ? share / 20000.0 : 0.0;
        most = fabs(x) <= edge - (way > 0.0 ? 0.1 : 0.3) ? fmax(most, share) : most;
    }
    return most > 0.0 ? part * most / even : 0.0;
}

/* Rows near the edges, well within, and three of them. */
static void a_file_does_no_more_than_the_even_crowd(void **state)
{
    (void)state;
    static const struct {
        int n;
        double across[3];
    } decks[] = {{2, {-0.437, 0.437}}, {2, {-0.171, 0.193}}, {3, {-0.437, 0.061, 0.437}}};
    double closest = 0.0;
    for (size_t i = 0; i < sizeof decks / sizeof decks[0]; i++) {
        bw_arena *arena = bw_arena_new();
        bwt_deck d = people_only();
        bw_case deck;
        d.crowd = 2131.0;
        d.n_rows = decks[i].n;
        double worst = 0.0;
        for (int k = 0; k < d.n_rows; k++) {
            d.across[k] = decks[i].across[k];
        }
        const bw_head_count h = count(&d, 1e-4, arena, &deck);
        const double dense = h.limit / 5570.2, even = h.crowd * d.width * d.at[1];
        const double heap = (1.0 - sqrt(1.0 - dense)) / dense, W = h.in_bay * 1e-4 * g;
        const double part = W / (heap * h.limit * d.width * d.at[1]);
        for (int k = 0; k < 2 * d.n_rows; k++) {
            worst = fmax(worst, filed(&d, k / 2, k % 2 == 0 ? 1.0 : -1.0, part));
        }
        assert_true(worst <= 1.002 && (worst > 0.99 || W > 0.999 * even));
        closest = fmax(closest, worst);
        bw_arena_free(arena);
    }
    assert_true(closest > 0.99);
}

/* So many heads as slow riders behind each other on a deck whose edges lie where their
 * middle does, and as many as a heap on the whole width alone would leave. */
static void a_file_at_the_edge_is_within_limits(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bwt_deck d = people_only();
    bw_case deck;
    d.stringer.butt = d.stringer.tip = 0.1713;
    d.crowd = 5100.0;
    const bw_head_count h = count(&d, 31.7, arena, &deck);
    const double dense = h.crowd / 5570.2;
    const double heap = (1.0 - sqrt(1.0 - dense)) / dense;
    const int before = (int)(heap * h.crowd * d.width * d.at[1] / (31.7 * g));
    d.board_pressure *= d.width / (d.width - 0.2);
    d.width -= 0.2;
    d.crowd = 0.0;
    d.rider = 31.7;
    d.factor = 1.0;
    for (int k = 0; k < 2; k++) {
        bw_assessment a;
        bw_diags faults = bw_diags_new(arena, NULL);
        bw_case trial = *bwt_deck_read(&d, arena);
        trial.loads.load_duration = 1.0;
        trial.loads.riders = k == 0 ? h.in_bay : before;
        trial.loads.rider_spacing = 0.11;
        assert_int_equal(bw_deck_assess(arena, &trial, &a, &faults), BW_OK);
        assert_int_equal(a.verdict, k == 0 ? BW_WITHIN : BW_OVER);
    }
    bw_arena_free(arena);
}

/* No more on the deck than its bays may bear one by one. */
static void bays_add_up_to_no_less_than_the_deck(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bwt_deck d = people_only();
    bw_case deck;
    d.n_bents = 3;
    d.at[2] = 5.689;
    d.sill[2] = true;
    const bw_head_count h = count(&d, 87.3, arena, &deck);
    assert_true(h.known && h.in_bay > 0);
    assert_int_equal(h.on_deck, 2 * h.in_bay);
    /* not even one in a bay: no number */
    assert_false(count(&d, 1500.0, arena, &deck).known);
    bw_arena_free(arena);
}

static void a_rider_who_is_over_leaves_no_number(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bwt_deck d = people_only();
    bw_case deck;
    d.rider = 150.0;
    d.factor = 9.7;
    d.stringer.butt = d.stringer.tip = 0.151;
    const bw_head_count h = count(&d, 90.0, arena, &deck);
    assert_true(h.rest_fails && !h.known);
    bw_arena_free(arena);
}

/* Where only the people are too many, fewer of them are counted. */
static void fewer_people_where_people_are_over(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bwt_deck d = people_only();
    bw_case deck;
    d.stringer.butt = d.stringer.tip = 0.1713;
    d.crowd = 5100.0;
    const bw_head_count h = count(&d, 90.0, arena, &deck);
    assert_true(h.known && h.crowd < 5100.0);
    assert_true(fabs(h.crowd - h.limit) < 1e-9);
    assert_true(h.on_deck < h.at_limit); /* that stand evenly */
    bw_arena_free(arena);
}

/* 12 psf to 100 psf (READ in part), denser in proportion, at most 45 % (READ). */
static void the_sway_goes_with_the_people(void **state)
{
    (void)state;
    assert_true(fabs(bw_people_sway(60.0 * psf) / (12.0 * psf) - 1.0) < 1e-4);
    assert_true(fabs(bw_people_sway(150.0 * psf) / (18.0 * psf) - 1.0) < 1e-3);
    assert_true(fabs(bw_people_sway(10.0 * psf) / (4.5 * psf) - 1.0) < 1e-9);
    double before = 0.0;
    for (double q = 0.0; q < 9e3; q += 71.3) {
        assert_true(bw_people_sway(q) >= before);
        before = bw_people_sway(q);
    }
}

static void every_basis_knows_the_same_uses(void **state)
{
    (void)state;
    for (size_t k = 0; bw_us_asd.uses[k].name != NULL; k++) {
        const bw_people_use *us = &bw_us_asd.uses[k], *ec = &bw_eurocode.uses[k];
        assert_string_equal(us->name, ec->name);
        assert_true(us->mark != BW_MARK_NONE && ec->mark != BW_MARK_NONE);
        assert_non_null(us->source);
        assert_true(k == 0 || (us->pressure > 0.0 && ec->pressure >= us->pressure));
    }
    /* 60, 90, 100 and 100 psf; 7.1 people of 80 kg */
    assert_true(fabs(bw_us_asd.uses[1].pressure / (60.0 * psf) - 1.0) < 1e-6);
    assert_true(fabs(bw_us_asd.uses[2].pressure / (90.0 * psf) - 1.0) < 1e-6);
    assert_true(fabs(bw_us_asd.uses[3].pressure / (100.0 * psf) - 1.0) < 1e-6);
    assert_true(fabs(bw_us_asd.uses[5].pressure / (7.1 * 80.0 * g) - 1.0) < 1e-4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_limit_is_where_a_check_fails),
        cmocka_unit_test(trials_warn_of_nothing_again),
        cmocka_unit_test(heads_by_hand),
        cmocka_unit_test(a_heap_does_no_more_than_the_even_crowd),
        cmocka_unit_test(a_file_does_no_more_than_the_even_crowd),
        cmocka_unit_test(a_file_at_the_edge_is_within_limits),
        cmocka_unit_test(bays_add_up_to_no_less_than_the_deck),
        cmocka_unit_test(a_rider_who_is_over_leaves_no_number),
        cmocka_unit_test(fewer_people_where_people_are_over),
        cmocka_unit_test(the_sway_goes_with_the_people),
        cmocka_unit_test(every_basis_knows_the_same_uses),
    };
    return cmocka_run_group_tests_name("people", tests, NULL, NULL);
}
