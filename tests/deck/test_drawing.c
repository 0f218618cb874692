/* What pictures are drawn from, against simple beams and against the assessment. Formulas
 * of a simple span with a force P in the middle and a load w along it: M = P L / 4 + w
 * L^2 / 8, V = P / 2 + w L / 2, drop = P L^3 / (48 E I) + P L / (4 k G A) (handbooks of
 * strength of materials: MEMORY). */
#include "../base/arena_fixture.h"
#include "deck.h"
#include "deck/internal.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

enum { N = BW_DRAWN_PER_BAY, MIDDLE = (N - 1) / 2 };

typedef struct {
    bw_assessment result;
    bw_drawing drawing;
} drawn;

static void draw(const bwt_deck *deck, bw_arena *arena, drawn *out)
{
    assert_int_equal(bwt_deck_assess(deck, arena, &out->result, NULL), BW_OK);
    assert_int_equal(bw_deck_drawing(arena, &out->result, &out->drawing), BW_OK);
}

/* Logs without taper, so that handbook formulas hold. */
static bwt_deck prismatic(void)
{
    bwt_deck d = bwt_deck_plain();
    d.stringer.butt = d.stringer.tip = 0.2135;
    d.crowd = 2385.0;
    d.board_pressure = 413.7;
    return d;
}

static void near(double found, double wanted)
{
    if (!(fabs(found - wanted) <= 1e-6 * fabs(wanted))) {
        fail_msg("%.9g, expected %.9g", found, wanted);
    }
}

static void simple_spans_bend_as_in_the_handbook(void **state)
{
    bw_arena *arena = *state;
    const bwt_deck d = prismatic();
    drawn out;
    draw(&d, arena, &out);
    const bw_case *deck = out.result.deck;
    const bw_drawn_bending *b = &out.drawing.bending[0];
    const double L = d.at[1] - d.at[0], D = d.stringer.butt;
    const double A = bwt_pi * D * D / 4.0, I = bwt_pi * D * D * D * D / 64.0;
    const double E = out.result.references[deck->stringers[0].log].value[BW_MODULUS];
    const double G = bw_shear_modulus(E), half = d.width / 2.0, c = d.across[1];
    const double share =
        (half + c) / (2.0 * c); /* a wheel at the edge, by the lever rule */
    const double still = d.rider * bw_gravity * share, P = still * d.factor;
    const double green = deck->logs[deck->stringers[0].log].species->green_density.value;
    const double w = green * bw_gravity * A + d.board_pressure * half;
    const bw_drawn_station *s = &b->stations[MIDDLE];
    assert_true(b->has_rider && b->has_people);
    near(s->moment_most, P * L / 4.0 + w * L * L / 8.0);
    near(s->moment_least, w * L * L / 8.0);
    /* read 2e-6 of the span beside the bent, so that much less */
    assert_true(fabs(b->stations[0].shear_most / (P + w * L / 2.0) - 1.0) < 5e-6);
    if (b->rider_at < d.at[1]) { /* equal bays: the first may win, or a twin */
        const double wanted =
            still * (L * L * L / (48.0 * E * I) + L / (4.0 * 0.9 * G * A));
        assert_true(s->drop > wanted && s->drop < 1.01 * wanted); /* posts shorten too */
    }
}

static void the_envelope_holds_every_place(void **state)
{
    bw_arena *arena = *state;
    bwt_deck d = prismatic();
    d.n_bents = 4;
    d.at[3] = d.at[2] + 2.317;
    d.height[3] = 1.03;
    d.run[0] = 2;
    drawn out;
    draw(&d, arena, &out);
    for (size_t r = 0; r < 2; r++) {
        const bw_drawn_bending *b = &out.drawing.bending[r];
        double stress = 0.0;
        for (size_t k = 0; k < out.drawing.n_bays * N; k++) {
            const bw_drawn_station *s = &b->stations[k];
            const double slack =
                1e-9 * (fabs(s->moment_most) + fabs(s->moment_least) + 1.0);
            assert_true(b->has_bay[k / N]);
            assert_true(s->moment <= s->moment_most + slack);
            assert_true(s->moment >= s->moment_least - slack);
            for (int side = 0; side < 2; side++) {
                assert_true(s->shear[side] <= s->shear_most * (1.0 + 1e-6) + 1e-3);
                assert_true(s->shear[side] >=
                            s->shear_least - fabs(s->shear_least) * 1e-6 - 1e-3);
            }
            stress = fmax(stress,
                          fabs(s->moment) / (bwt_pi * pow(d.stringer.butt, 3.0) / 32.0));
        }
        assert_true(stress > 0.0);
    }
}

static size_t count_in(const bw_drawn_view *view, size_t member)
{
    size_t n = 0;
    for (size_t k = 0; k < view->n_logs; k++) {
        n += view->logs[k].member == member ? 1 : 0;
    }
    return n;
}

/* In any deck: stringers and posts in the elevation of their row and nowhere else among
 * the rows; caps and posts in their own bent; stringers and caps in the plan. */
static void every_member_is_drawn_in_its_views(void **state)
{
    bw_arena *arena = *state;
    uint64_t random = 20261125;
    for (int trial = 0; trial < 25; trial++) {
        const bwt_deck d = bwt_deck_random(&random);
        drawn out;
        draw(&d, arena, &out);
        for (size_t m = 0; m < out.result.n_members; m++) {
            const bw_member_result *member = &out.result.members[m];
            const bool is_cap = member->row < 0;
            const bool is_post = strcmp(member->role, "post") == 0;
            for (size_t r = 0; r < out.result.deck->n_rows; r++) {
                const size_t times = count_in(&out.drawing.rows[r], m);
                assert_true(is_cap ? times <= 1
                                   : times == (member->row == (int)r ? 1 : 0));
            }
            if (is_cap || is_post) {
                assert_int_equal(count_in(&out.drawing.bents[member->bent], m), 1);
            }
            assert_int_equal(count_in(&out.drawing.plan, m), is_post ? 0 : 1);
        }
    }
}

/* Places against what the builder wrote: boards on stringers on caps on posts, and feet
 * as deep as the holes. */
static void logs_lie_on_each_other(void **state)
{
    bw_arena *arena = *state;
    const bwt_deck d = bwt_deck_plain();
    drawn out;
    draw(&d, arena, &out);
    const bw_drawn_view *view = &out.drawing.bents[1];
    const bw_case *deck = out.result.deck;
    double under_boards = 0.0, cap_top = 0.0, cap_low = 0.0, post_top = 0.0, foot = 0.0;
    for (size_t k = 0; k < view->n_logs; k++) {
        const bw_drawn_log *log = &view->logs[k];
        const char *role = out.result.members[log->member].role;
        const bw_drawn_place *p = &log->places[0],
                             *last = &log->places[log->n_places - 1];
        if (strcmp(role, "stringer") == 0) {
            under_boards = fmax(under_boards, p->y + p->thickness / 2.0);
        } else if (strcmp(role, "cap") == 0) {
            cap_top = p->y + p->thickness / 2.0;
            cap_low = p->y - p->thickness / 2.0;
        } else {
            post_top = last->y;
            foot = p->y;
        }
    }
    near(under_boards, d.height[1] - deck->boards.board_thickness);
    assert_true(cap_top < under_boards);
    assert_true(fabs(post_top - cap_low) < 0.02); /* the cap tapers between its ends */
    near(foot, -d.hole_depth);
}

static void running_out_of_memory_is_told(void **state)
{
    bw_arena *arena = *state;
    const bwt_deck d = prismatic();
    drawn out;
    draw(&d, arena, &out);
    bw_status status = BW_E_MEMORY;
    unsigned long n = 1;
    for (; status != BW_OK && n < 1000000; n += 1 + n / 8) {
        bw_drawing again;
        bw_arena *own = bw_arena_new();
        assert_non_null(own);
        bw_arena_fail_after(n);
        status = bw_deck_drawing(own, &out.result, &again);
        bw_arena_fail_after(0);
        bw_arena_free(own);
        assert_true(status == BW_OK || status == BW_E_MEMORY);
    }
    assert_int_equal(status, BW_OK);
    assert_true(n > 100);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(simple_spans_bend_as_in_the_handbook),
        WITH_ARENA(the_envelope_holds_every_place),
        WITH_ARENA(every_member_is_drawn_in_its_views),
        WITH_ARENA(logs_lie_on_each_other),
        WITH_ARENA(running_out_of_memory_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
