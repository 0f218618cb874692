/* A bent across the deck against statics of a beam on its posts. */
#include "../base/arena_fixture.h"
#include "planned.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

typedef struct {
    const bw_case *deck;
    bw_assessment result;
    bwi_plan plan;
    bwi_bent_frame bent;
} framed;

/* Four rows, posts under the second and the last: the cap overhangs and spans. */
static bwt_deck overhanging(void)
{
    bwt_deck d = bwt_deck_plain();
    d.n_rows = 4;
    const double across[] = {-0.83, -0.41, 0.17, 0.79};
    for (int k = 0; k < 4; k++) {
        d.across[k] = across[k];
    }
    for (int b = 0; b < d.n_bents; b++) {
        d.no_post[b][0] = d.no_post[b][2] = true;
    }
    d.width = 1.9;
    return d;
}

static void make_bent(const bwt_deck *d, size_t bent, bw_arena *arena, framed *out)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    assert_int_equal(bwt_deck_plan(d, arena, &out->deck, &out->result, &out->plan),
                     BW_OK);
    assert_int_equal(bwi_bent_frame_make(&out->plan, bent, 1, &out->bent, &diags), BW_OK);
}

static double post_force(const framed *f, const bw_state *s, size_t post)
{
    const int member = f->bent.posts[post].first;
    const double top = bw_frame_length(f->bent.frame, member);
    return -bw_state_action(s, member, top, true).axial;
}

static bw_state *unit_on_row(framed *f, int row, bw_arena *arena)
{
    bw_state *s = bw_frame_state(f->bent.frame, &(bw_part){1 + row, 1000.0}, 1, arena);
    assert_non_null(s);
    return s;
}

/* Two posts: statics gives their forces whatever bends. */
static void two_posts_share_by_the_lever(void **state)
{
    const bwt_deck d = overhanging();
    framed f;
    make_bent(&d, 1, *state, &f);
    for (int row = 0; row < 4; row++) {
        const bw_state *s = unit_on_row(&f, row, *state);
        const double right = 1000.0 * (d.across[row] + 0.41) / (0.79 + 0.41);
        assert_true(fabs(post_force(&f, s, 1) - right) < 1e-7);
        assert_true(fabs(post_force(&f, s, 0) - (1000.0 - right)) < 1e-7);
    }
}

/* P a b / L between the posts, P times the overhang over the left one. */
static void the_cap_bends_as_a_beam_on_two_posts(void **state)
{
    const bwt_deck d = overhanging();
    framed f;
    make_bent(&d, 1, *state, &f);
    /* nodes from left to right: rows 0 .. 3; the cap between them */
    const double a = 0.17 + 0.41, b = 0.79 - 0.17;
    const bw_state *inside = unit_on_row(&f, 2, *state);
    double end[6];
    bw_state_ends(inside, f.bent.cap_member[1], end);
    assert_true(fabs(end[5] - 1000.0 * a * b / (a + b)) < 1e-6);
    const bw_state *outside = unit_on_row(&f, 0, *state);
    bw_state_ends(outside, f.bent.cap_member[0], end);
    assert_true(fabs(end[5] + 1000.0 * (0.83 - 0.41)) < 1e-6);
}

/* Volume times density times g of the cap and of the posts up to its axis. */
static void own_weight_is_volume_times_density(void **state)
{
    const bwt_deck d = overhanging();
    framed f;
    make_bent(&d, 1, *state, &f);
    const double pi = 3.14159265358979324;
    double weight = f.deck->logs[1].species->green_density.value * pi / 4.0 * 0.221 *
                    0.221 * (0.79 + 0.83);
    for (int k = 0; k < 2; k++) {
        const bwi_post_place p = bwi_plan_post(&f.plan, 1, &f.deck->bents[1].posts[k]);
        const double length = p.top + 0.221 / 2.0;
        const double D = bwi_post_diameter(&f.plan, &p, 0.0);
        const double t = bwi_post_diameter(&f.plan, &p, length);
        weight += f.deck->logs[2].species->green_density.value * pi / 12.0 * length *
                  (D * D + D * t + t * t);
    }
    const bw_state *s = bw_frame_state(f.bent.frame, &(bw_part){0, 1.0}, 1, *state);
    double sum = 0.0;
    for (size_t k = 0; k < 2; k++) {
        sum -= bw_state_action(s, f.bent.posts[k].first, 0.0, false).axial;
    }
    assert_true(fabs(sum / (weight * 9.80665) - 1.0) < 1e-12);
}

static void posts_are_hinged_to_the_cap(void **state)
{
    const bwt_deck d = overhanging();
    framed f;
    make_bent(&d, 1, *state, &f);
    const bw_state *s = unit_on_row(&f, 2, *state);
    for (size_t k = 0; k < 2; k++) {
        double end[6];
        bw_state_ends(s, f.bent.posts[k].first, end);
        assert_true(fabs(end[5]) < 1e-9);
    }
}

/* Without a cap each post stands alone under its row. */
static void without_a_cap_each_post_has_its_own_row(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.no_cap = true;
    framed f;
    make_bent(&d, 1, *state, &f);
    const bw_state *s = unit_on_row(&f, 1, *state);
    assert_true(fabs(post_force(&f, s, 1) - 1000.0) < 1e-7);
    assert_true(fabs(post_force(&f, s, 0)) < 1e-7);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(two_posts_share_by_the_lever),
        WITH_ARENA(the_cap_bends_as_a_beam_on_two_posts),
        WITH_ARENA(own_weight_is_volume_times_density),
        WITH_ARENA(posts_are_hinged_to_the_cap),
        WITH_ARENA(without_a_cap_each_post_has_its_own_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
