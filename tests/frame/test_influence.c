/* Influence lines: closed forms of beams, and states of single loads on rows. */
#include "../base/arena_fixture.h"
#include "row.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

static double relative(double found, double wanted)
{
    return fabs(found / wanted - 1.0);
}

/* ---- beams without taper and shear ---- */

enum { SPANS_MAX = 3 };
static const double span = 2.385, load = 1371.3;

typedef struct {
    bw_frame *frame;
    int path[SPANS_MAX];
    bw_influence *lines;
} beam;

static beam make_beam(bw_arena *arena, int spans)
{
    beam b = {.frame = bw_frame_new(arena)};
    bw_diags d = bw_diags_new(arena, NULL);
    for (int k = 0; k <= spans; k++) {
        bw_frame_add_node(b.frame, span * k, 0.0, NULL, NULL);
        const bw_support s = {.node = k, .fix = {k == 0, true, false}};
        assert_int_equal(bw_frame_add_support(b.frame, &s), BW_OK);
    }
    for (int k = 0; k < spans; k++) {
        const bw_member m = {.node_i = k,
                             .node_j = k + 1,
                             .section_i = bw_section_round(0.2),
                             .section_j = bw_section_round(0.2),
                             .modulus = 9e9};
        b.path[k] = bw_frame_add_member(b.frame, &m);
    }
    assert_int_equal(bw_frame_factor(b.frame, &d), BW_OK);
    return b;
}

static void add_lines(beam *b, int spans, bw_arena *arena)
{
    assert_int_equal(bw_influence_new(b->frame, b->path, (size_t)spans, arena, &b->lines),
                     BW_OK);
}

static double moment_under(const beam *b, double share, bw_arena *arena)
{
    const bw_wheel w = {.at = 0, .a = share * span, .fy = -load};
    const bw_line line = bw_influence_line(b->lines, NULL, b->path[0], &w, 1, arena);
    return bw_line_action(&line, share * span, false).moment;
}

static void a_simple_beam_has_the_triangle(void **state)
{
    beam b = make_beam(*state, 1);
    add_lines(&b, 1, *state);
    for (double share = 0.07; share < 1.0; share += 0.13) {
        assert_true(relative(moment_under(&b, share, *state),
                             load * span * share * (1.0 - share)) < 1e-12);
    }
}

/* Two spans, load at k of the first: M under it = (k - 5k^2/4 + k^4/4) P L, over the
 * middle support -(k - k^3)/4 P L; largest 0.207427228926 at k = 0.432320443348 and
 * 0.0962250448649 at 0.57735 (COMPUTED closed forms). */
static void two_spans_have_their_closed_forms(void **state)
{
    beam b = make_beam(*state, 2);
    add_lines(&b, 2, *state);
    for (double k = 0.11; k < 1.0; k += 0.17) {
        const double wanted = (k - 1.25 * k * k + 0.25 * k * k * k * k) * load * span;
        assert_true(relative(moment_under(&b, k, *state), wanted) < 1e-11);
        const bw_wheel w = {.at = 0, .a = k * span, .fy = -load};
        double end[6];
        bw_influence_ends(b.lines, b.path[1], &w, 1, end);
        assert_true(relative(end[2], -(k - k * k * k) / 4.0 * load * span) < 1e-11);
    }
    assert_true(relative(moment_under(&b, 0.432320443348, *state),
                         0.207427228926 * load * span) < 1e-11);
}

/* Three spans, first support: -8 P L / (45 sqrt 3) at 0.57735 (COMPUTED). */
static void three_spans_have_their_closed_forms(void **state)
{
    beam b = make_beam(*state, 3);
    add_lines(&b, 3, *state);
    const bw_wheel w = {.at = 0, .a = span / sqrt(3.0), .fy = -load};
    double end[6];
    bw_influence_ends(b.lines, b.path[0], &w, 1, end);
    assert_true(relative(end[5], -8.0 / (45.0 * sqrt(3.0)) * load * span) < 1e-11);
    assert_true(relative(moment_under(&b, 0.427672896379, *state),
                         0.204915404963 * load * span) < 1e-11);
}

/* ---- ends that stand off their supports ---- */

/* Two spans, the far end free: a simple beam, M = k (1 - k) P L under the load, nothing
 * beyond; the far end rises by the turn P a b (L + a) / (6 L E I) of the simple beam's
 * end times the second span (handbook case, MEMORY). */
static void a_far_end_let_go_leaves_a_simple_beam(void **state)
{
    beam b = make_beam(*state, 2);
    add_lines(&b, 2, *state);
    const double EI = 9e9 * 3.14159265358979324 / 64.0 * 0.2 * 0.2 * 0.2 * 0.2;
    const bw_wheel unit = bw_influence_gap(b.lines, 1, true, 0.0, 1.0);
    for (double k = 0.11; k < 1.0; k += 0.17) {
        const double a = k * span;
        const double rise = load * a * (span - a) * (span + a) / (6.0 * span * EI) * span;
        const bw_wheel w[] = {{.at = 0, .a = a, .fy = -load},
                              bw_wheel_scaled(&unit, rise)};
        double end[6];
        bw_influence_ends(b.lines, b.path[1], w, 2, end);
        assert_true(fabs(end[4]) < 1e-9 * load && fabs(end[2]) < 1e-9 * load * span);
        const bw_line line = bw_influence_line(b.lines, NULL, b.path[0], w, 2, *state);
        assert_true(relative(bw_line_action(&line, a, false).moment,
                             k * (1.0 - k) * load * span) < 1e-9);
    }
}

/* Three tapered logs uphill, hinged nowhere; free_end: without the last support. */
static beam make_slope(bw_arena *arena, bool free_end)
{
    static const double x[] = {0.0, 2.13, 4.91, 7.03}, y[] = {0.0, 0.31, 0.57, 1.19};
    beam b = {.frame = bw_frame_new(arena)};
    bw_diags d = bw_diags_new(arena, NULL);
    for (int k = 0; k < 4; k++) {
        bw_frame_add_node(b.frame, x[k], y[k], NULL, NULL);
        const bw_support s = {.node = k, .fix = {k == 0, k < 3 || !free_end, false}};
        assert_int_equal(bw_frame_add_support(b.frame, &s), BW_OK);
    }
    for (int k = 0; k < 3; k++) {
        const bw_member m = {.node_i = k,
                             .node_j = k + 1,
                             .section_i = bw_section_round(0.237 - 0.021 * k),
                             .section_j = bw_section_round(0.216 - 0.021 * k),
                             .modulus = 8.7e9,
                             .shear_modulus = 5.3e8,
                             .kappa = 0.9};
        b.path[k] = bw_frame_add_member(b.frame, &m);
    }
    assert_int_equal(bw_frame_factor(b.frame, &d), BW_OK);
    return b;
}

/* Upward part of what the last end takes from its support. */
static double at_last_support(const beam *b, const bw_wheel *w, size_t n)
{
    double end[6], c, s;
    bw_influence_ends(b->lines, b->path[2], w, n, end);
    bw_frame_direction(b->frame, b->path[2], &c, &s);
    return s * end[3] - c * end[4];
}

static void a_gap_does_what_leaving_the_support_out_does(void **state)
{
    beam held = make_slope(*state, false), free = make_slope(*state, true);
    add_lines(&held, 3, *state);
    add_lines(&free, 3, *state);
    for (double share = 0.13; share < 1.0; share += 0.21) {
        const bw_wheel wheel = {.at = 1,
                                .a = share * bw_frame_length(held.frame, held.path[1]),
                                .fx = 0.21 * load,
                                .fy = -load};
        const bw_wheel unit = bw_influence_gap(held.lines, 2, true, 0.0, 1.0);
        const double gap =
            -at_last_support(&held, &wheel, 1) / at_last_support(&held, &unit, 1);
        const bw_wheel w[] = {wheel, bw_wheel_scaled(&unit, gap)};
        for (int k = 0; k < 3; k++) {
            double a[6], b[6];
            bw_influence_ends(held.lines, held.path[k], w, 2, a);
            bw_influence_ends(free.lines, free.path[k], &wheel, 1, b);
            for (int j = 0; j < 6; j++) {
                assert_true(fabs(a[j] - b[j]) < 1e-8 * load);
            }
        }
    }
}

/* On top of a bent shape a gap adds its own straight diagrams and nothing else. */
static void a_gap_adds_to_a_bent_shape(void **state)
{
    beam b = make_slope(*state, false);
    add_lines(&b, 3, *state);
    const bw_member_load push = {.kind = BW_LOAD_POINT,
                                 .member = b.path[2],
                                 .a = 1.1,
                                 .x = {-7e3, 0},
                                 .y = {-3e3, 0}};
    bw_diags d = bw_diags_new(*state, NULL);
    bw_state *first = NULL, *bent = NULL;
    assert_int_equal(bw_frame_solve_loads(b.frame, &push, 1, &first, *state), BW_OK);
    assert_int_equal(bw_state_second_order(first, *state, &bent, &d), BW_OK);
    const bw_wheel gap = bw_influence_gap(b.lines, 2, true, 0.0, 0.0137);
    for (int k = 0; k < 3; k++) {
        const bw_line both = bw_influence_line(b.lines, bent, b.path[k], &gap, 1, *state);
        const bw_line own = bw_influence_line(b.lines, NULL, b.path[k], &gap, 1, *state);
        for (double x = 0.0; x < 2.1; x += 0.29) {
            const bw_action sum = bw_line_action(&both, x, false),
                            part = bw_line_action(&own, x, false),
                            rest = bw_state_action(bent, b.path[k], x, false);
            assert_true(fabs(sum.moment - part.moment - rest.moment) < 1e-7);
            assert_true(fabs(sum.shear - part.shear - rest.shear) < 1e-7);
            assert_true(fabs(sum.axial - part.axial - rest.axial) < 1e-7);
        }
    }
}

/* ---- rows of tapered logs on posts ---- */

typedef struct {
    bwt_row row;
    bw_influence *lines;
    bw_state *base;
} standing;

enum { BENTS = 7 };

static void make_standing(bw_arena *arena, bool run_on, standing *out)
{
    bw_diags d = bw_diags_new(arena, NULL);
    out->row = bwt_row_make(arena, BENTS, BWT_FEET_FIXED, run_on, NULL);
    assert_int_equal(bw_frame_load_self_weight(out->row.frame, 0, 1.0), BW_OK);
    assert_int_equal(bw_frame_factor(out->row.frame, &d), BW_OK);
    assert_int_equal(bw_frame_solve(out->row.frame, &d), BW_OK);
    out->base = bw_frame_state(out->row.frame, &(bw_part){0, 1.0}, 1, arena);
    assert_non_null(out->base);
    assert_int_equal(bw_influence_new(out->row.frame, out->row.stringer, BENTS - 1, arena,
                                      &out->lines),
                     BW_OK);
}

static bw_state *solved(const standing *s, const bw_wheel *w, bw_arena *arena)
{
    const bw_member_load l = {.kind = BW_LOAD_POINT,
                              .member = s->row.stringer[w->at],
                              .a = w->a,
                              .b = w->a,
                              .x = {w->fx, 0.0},
                              .y = {w->fy, 0.0}};
    bw_state *out = NULL;
    assert_int_equal(bw_frame_solve_loads(s->row.frame, &l, 1, &out, arena), BW_OK);
    return out;
}

static void compare_member(const standing *s, const bw_wheel *w, const bw_state *both,
                           int member, bw_arena *arena)
{
    const bw_line line = bw_influence_line(s->lines, s->base, member, w, 1, arena);
    const double L = bw_frame_length(s->row.frame, member);
    const double force = fabs(w->fx) + fabs(w->fy) + 500.0; /* and the logs' weight */
    for (double share = 0.0; share <= 1.0; share += 0.1) {
        const double x = share * L;
        const bw_action a = bw_line_action(&line, x, share > 0.5);
        const bw_action b = bw_state_action(both, member, x, share > 0.5);
        assert_true(fabs(a.axial - b.axial) < 1e-10 * force);
        assert_true(fabs(a.shear - b.shear) < 1e-10 * force);
        assert_true(fabs(a.moment - b.moment) < 1e-10 * force * L);
        const double sag = bw_line_sag(&line, x), wanted = bw_state_sag(both, member, x);
        assert_true(fabs(sag - wanted) < 1e-12);
    }
    bw_extreme up, down, up_wanted, down_wanted;
    bw_line_sag_extremes(&line, &up, &down);
    bw_state_sag_extremes(both, member, &up_wanted, &down_wanted);
    assert_true(fabs(up.value - up_wanted.value) < 1e-12);
    assert_true(fabs(down.value - down_wanted.value) < 1e-12);
    const bw_extremes e = bw_line_extremes(&line);
    const bw_extremes wanted = bw_state_extremes(both, member);
    assert_true(fabs(e.stress_max.value - wanted.stress_max.value) < 1e-3);
    assert_true(fabs(e.stress_min.value - wanted.stress_min.value) < 1e-3);
}

static void wheels_anywhere_agree_with_solved_loads(void **state)
{
    uint64_t random = 5113;
    for (int run_on = 0; run_on <= 1; run_on++) {
        standing s;
        make_standing(*state, run_on == 1, &s);
        for (int k = 0; k < 60; k++) {
            const bw_arena_mark mark = bw_arena_now(*state);
            bw_wheel w = {.at = (size_t)(bwt_chance(&random) * (BENTS - 1))};
            w.a = bwt_chance(&random) * 2.385;
            w.fx = 700.0 * (bwt_chance(&random) - 0.5);
            w.fy = -3000.0 * bwt_chance(&random);
            const bw_state *both =
                bw_state_add(s.base, 1.0, solved(&s, &w, *state), *state);
            for (int member = 0; member < 2 * BENTS - 1; member++) {
                compare_member(&s, &w, both, member, *state);
            }
            bw_arena_back(*state, mark);
        }
    }
}

/* At the ends of a bay too, where the wheel belongs to a post. */
static void a_wheel_on_a_joint_agrees_with_the_load_on_it(void **state)
{
    standing s;
    make_standing(*state, true, &s);
    for (int end = 0; end <= 1; end++) {
        const bw_wheel w = {.at = 2, .a = end * 2.385, .fy = -2137.0};
        const bw_state *both = bw_state_add(s.base, 1.0, solved(&s, &w, *state), *state);
        for (int member = 0; member < 2 * BENTS - 1; member++) {
            compare_member(&s, &w, both, member, *state);
        }
    }
}

static void several_wheels_add_up(void **state)
{
    standing s;
    make_standing(*state, true, &s);
    const bw_wheel w[] = {{.at = 1, .a = 0.713, .fy = -913.0},
                          {.at = 1, .a = 1.793, .fx = 117.0, .fy = -1217.0},
                          {.at = 4, .a = 0.317, .fy = -611.0}};
    double all[6], sum[6] = {0.0}, one[6];
    bw_influence_ends(s.lines, s.row.stringer[2], w, 3, all);
    for (int k = 0; k < 3; k++) {
        bw_influence_ends(s.lines, s.row.stringer[2], &w[k], 1, one);
        for (int j = 0; j < 6; j++) {
            sum[j] += one[j];
        }
    }
    for (int j = 0; j < 6; j++) {
        assert_true(fabs(all[j] - sum[j]) < 1e-9);
    }
}

/* What is said to be out of reach is out of reach: in a butted row the level bays far
 * away feel nothing but what the posts pass on along the deck. */
static void out_of_reach_means_no_action(void **state)
{
    standing s;
    make_standing(*state, false, &s);
    const bw_wheel w = {.at = 0, .a = 0.913, .fy = -2371.0};
    for (int member = 0; member < 2 * BENTS - 1; member++) {
        double end[6];
        bw_influence_ends(s.lines, member, &w, 1, end);
        for (int j = 0; j < 6 && !bw_influence_reaches(s.lines, member, 0); j++) {
            assert_true(fabs(end[j]) < 1e-8);
        }
    }
    assert_true(bw_influence_reaches(s.lines, s.row.stringer[0], 0));
}

/* A wheel beside its log must not pass as harmless. */
static void a_wheel_off_its_member_is_not_a_number(void **state)
{
    standing s;
    make_standing(*state, true, &s);
    const double places[] = {-0.1, 2.5, (double)NAN};
    for (int k = 0; k < 3; k++) {
        const bw_wheel w = {.at = 1, .a = places[k], .fy = -913.0};
        double end[6];
        bw_influence_ends(s.lines, s.row.stringer[1], &w, 1, end);
        assert_true(isnan(end[2]) || isnan(end[5]) || isnan(end[1]));
    }
}

/* The largest and smallest of single readings: of more wheels on one member than are read
 * at once, and of wheels on others, one of them slanting. */
enum { MANY = 61 };
static void ranges_hold_what_each_wheel_does(void **state)
{
    standing s;
    make_standing(*state, true, &s);
    const size_t members = 2 * BENTS - 1;
    bw_wheel w[MANY];
    bw_range *found = BW_NEW(*state, bw_range, members);
    assert_non_null(found);
    for (int k = 0; k < MANY; k++) {
        w[k] = (bw_wheel){.at = k < 41 ? 2 : (size_t)(k % (BENTS - 1)),
                          .a = 2.385 * (k + 0.5) / MANY,
                          .fx = k % 3 == 0 ? 211.0 : 0.0,
                          .fy = -1711.0 - 3.0 * k};
    }
    bw_influence_widen(s.lines, w, MANY, found);
    for (size_t m = 0; m < members; m++) {
        bw_range wanted = {{0.0}, {0.0}};
        for (int k = 0; k < MANY; k++) {
            double end[6];
            bw_influence_ends(s.lines, (int)m, &w[k], 1, end);
            const double value[3] = {end[3], end[2], end[5]};
            for (int i = 0; i < 3; i++) {
                wanted.most[i] = fmax(wanted.most[i], value[i]);
                wanted.least[i] = fmin(wanted.least[i], value[i]);
            }
        }
        for (int i = 0; i < 3; i++) {
            assert_true(fabs(found[m].most[i] - wanted.most[i]) <= 1e-9);
            assert_true(fabs(found[m].least[i] - wanted.least[i]) <= 1e-9);
        }
    }
}

static void a_range_never_lets_go_of_a_wheel_off_its_member(void **state)
{
    standing s;
    make_standing(*state, true, &s);
    bw_range *found = BW_NEW(*state, bw_range, 2 * BENTS - 1);
    assert_non_null(found);
    const bw_wheel w[] = {{.at = 1, .a = 1.217, .fy = -913.0},
                          {.at = 1, .a = 2.5, .fy = -913.0},
                          {.at = 1, .a = 0.317, .fy = -913.0},
                          {.at = 2, .a = 0.317, .fy = -913.0}};
    bw_influence_widen(s.lines, w, 4, found);
    assert_true(isnan(found[s.row.stringer[1]].most[1]));
    assert_true(isnan(found[s.row.stringer[1]].least[2]));
}

static void a_frame_not_factored_is_refused(void **state)
{
    const bwt_row r = bwt_row_make(*state, 3, BWT_FEET_FIXED, true, NULL);
    bw_influence *v = NULL;
    assert_int_equal(bw_influence_new(r.frame, r.stringer, 2, *state, &v), BW_E_INTERNAL);
    assert_null(v);
}

/* ---- odd joints ---- */

/* A gap at the first end of a log is one at the last end of the same log turned round. */
static void a_gap_is_alike_at_either_end(void **state)
{
    beam both[2] = {make_slope(*state, false), make_slope(*state, false)};
    const double size[2] = {0.195, 0.216};
    bw_diags d = bw_diags_new(*state, NULL);
    for (int k = 0; k < 2;
         k++) { /* a second log beside the middle one, this way or that */
        const bw_member more = {.node_i = 2 - k,
                                .node_j = 1 + k,
                                .section_i = bw_section_round(size[k]),
                                .section_j = bw_section_round(size[1 - k]),
                                .modulus = 8.7e9,
                                .shear_modulus = 5.3e8,
                                .kappa = 0.9};
        both[k].path[1] = bw_frame_add_member(both[k].frame, &more);
        assert_int_equal(bw_frame_factor(both[k].frame, &d), BW_OK);
    }
    beam one = both[0], two = both[1];
    add_lines(&one, 3, *state);
    add_lines(&two, 3, *state);
    const bw_wheel a = bw_influence_gap(one.lines, 1, true, 0.0031, 0.0137);
    const bw_wheel b = bw_influence_gap(two.lines, 1, false, 0.0031, 0.0137);
    double most = 0.0;
    for (int member = 0; member < 3; member++) {
        double end_a[6], end_b[6];
        bw_influence_ends(one.lines, member, &a, 1, end_a);
        bw_influence_ends(two.lines, member, &b, 1, end_b);
        for (int j = 0; j < 6; j++) {
            assert_true(fabs(end_a[j] - end_b[j]) < 1e-6);
            most = fmax(most, fabs(end_a[j]));
        }
    }
    assert_true(most > 1e4); /* or nothing is compared */
}

/* Wheels and gaps that one of them made, read from the other; alone and together. */
static void shared_lines_read_the_same(void **state)
{
    standing s;
    make_standing(*state, true, &s);
    bw_influence *other = bw_influence_share(s.lines, *state);
    bw_influence *third = bw_influence_share(other, *state);
    assert_true(other != NULL && third != NULL);
    for (int round = 0; round < 7; round++) {
        bw_wheel w[2] = {{.at = 2, .a = 0.113 * (round + 1), .fx = 117.0, .fy = -2371.0}};
        bw_influence_set(round % 2 == 0 ? s.lines : other, &w[0]);
        w[1] = bw_influence_gap(round % 2 == 0 ? third : s.lines, 3, true, 0.0, 0.0137);
        for (int member = 0; member < 9; member++) {
            double a[6], b[6], c[6];
            bw_influence_ends(s.lines, member, w, 2, a);
            bw_influence_ends(other, member, w, 2, b);
            bw_influence_ends(third, member, w, 2, c);
            assert_memory_equal(a, b, sizeof a);
            assert_memory_equal(a, c, sizeof a);
        }
    }
    double gap_too[6], without[6];
    bw_wheel w[2] = {{.at = 2, .a = 0.7, .fy = -2371.0},
                     bw_influence_gap(s.lines, 2, true, 0.0, 0.0137)};
    bw_influence_ends(third, s.row.stringer[2], w, 2, gap_too);
    bw_influence_ends(third, s.row.stringer[2], w, 1, without);
    assert_true(fabs(gap_too[5] - without[5]) > 1.0); /* the gap is not lost */
}

/* A wheel that was moved after it was set counts as what it is now. */
static void a_wheel_changed_since_it_was_set_is_worked_out_anew(void **state)
{
    standing s, other;
    make_standing(*state, true, &s);
    make_standing(*state, true, &other);
    for (int change = 0; change < 5; change++) {
        bw_wheel w = {.at = 2, .a = 0.913, .fx = 117.0, .fy = -2371.0};
        bw_influence_set(change == 4 ? other.lines : s.lines, &w);
        w.at += change == 0 ? 1 : 0;
        w.a += change == 1 ? 0.31 : 0.0;
        w.fx += change == 2 ? 31.0 : 0.0;
        w.fy += change == 3 ? 31.0 : 0.0;
        const bw_wheel fresh = {.at = w.at, .a = w.a, .fx = w.fx, .fy = w.fy};
        double a[6], b[6];
        const int *reached_a = NULL, *reached_b = NULL;
        bw_influence_ends(s.lines, s.row.stringer[3], &w, 1, a);
        bw_influence_ends(s.lines, s.row.stringer[3], &fresh, 1, b);
        for (int j = 0; j < 6; j++) {
            assert_true(a[j] == b[j]);
        }
        assert_int_equal(bw_influence_reached(s.lines, &w, &reached_a),
                         bw_influence_reached(s.lines, &fresh, &reached_b));
        assert_ptr_equal(reached_a, reached_b);
        bw_wheel set = fresh;
        bw_influence_set(s.lines, &set);
        assert_int_equal(bw_influence_reached(s.lines, &set, &reached_a),
                         bw_influence_reached(s.lines, &fresh, &reached_b));
        assert_ptr_equal(reached_a, reached_b);
    }
}

enum { LOGS = 4 };

/* Logs in a line between nodes that are held still (all motions), but for one that is
 * held along and across, whose turn a spring alone feels: the logs are hinged there. */
static bw_frame *stiff_line(bw_arena *arena, int path[LOGS])
{
    bw_frame *f = bw_frame_new(arena);
    for (int k = 0; k <= LOGS; k++) {
        const bw_support held = {.node = k,
                                 .fix = {k != 3, true, k != 1 && k != 3},
                                 .spring = {0.0, 0.0, k == 1 ? 3.1e5 : 0.0}};
        bw_frame_add_node(f, 1.37 * k, 0.0, NULL, NULL);
        assert_int_equal(bw_frame_add_support(f, &held), BW_OK);
    }
    for (int k = 0; k < LOGS; k++) {
        const bw_member log = {.node_i = k,
                               .node_j = k + 1,
                               .section_i = bw_section_round(0.217),
                               .section_j = bw_section_round(0.193),
                               .modulus = 9.1e9,
                               .hinge_i = k == 1,
                               .hinge_j = k == 0};
        path[k] = bw_frame_add_member(f, &log);
    }
    return f;
}

/* Ranges under one wheel, worked out before or not, are its own actions. */
static void check_range(const bw_influence *v, const bw_wheel *w, const int *members,
                        int n)
{
    for (int set = 0; set < 2; set++) {
        bw_wheel wheel = *w;
        bw_range ranges[LOGS + 1];
        for (int k = 0; k < n; k++) {
            for (int i = 0; i < 3; i++) {
                ranges[k].most[i] = ranges[k].least[i] = 0.0;
            }
        }
        if (set == 1) {
            bw_influence_set(v, &wheel);
        }
        bw_influence_widen(v, &wheel, 1, ranges);
        for (int k = 0; k < n; k++) {
            double end[6];
            bw_influence_ends(v, members[k], &wheel, 1, end);
            const double value[3] = {end[3], end[2], end[5]};
            for (int i = 0; i < 3; i++) {
                const bw_range *r = &ranges[members[k]];
                assert_true(fabs(r->most[i] - fmax(value[i], 0.0)) < 1e-9);
                assert_true(fabs(r->least[i] - fmin(value[i], 0.0)) < 1e-9);
            }
        }
    }
}

static void held_logs_feel_only_what_stands_on_them(void **state)
{
    int path[LOGS + 1];
    bw_frame *f = stiff_line(*state, path);
    /* and one between two nodes held still, apart from the rest */
    const bw_support still = {.node = LOGS + 1, .fix = {true, true, true}};
    bw_frame_add_node(f, 0.0, 2.1, NULL, NULL);
    assert_int_equal(bw_frame_add_support(f, &still), BW_OK);
    const bw_member post = {.node_i = 0,
                            .node_j = LOGS + 1,
                            .section_i = bw_section_round(0.217),
                            .section_j = bw_section_round(0.193),
                            .modulus = 9.1e9};
    path[LOGS] = bw_frame_add_member(f, &post);
    bw_diags d = bw_diags_new(*state, NULL);
    bw_influence *v = NULL;
    assert_int_equal(bw_frame_factor(f, &d), BW_OK);
    assert_int_equal(bw_influence_new(f, path, LOGS + 1, *state, &v), BW_OK);
    for (size_t at = 0; at <= LOGS; at++) {
        const bw_wheel w = {.at = at, .a = 0.51, .fx = 317.0, .fy = -2371.0};
        const bw_member_load l = {.kind = BW_LOAD_POINT,
                                  .member = path[at],
                                  .a = 0.51,
                                  .x = {317.0, 0.0},
                                  .y = {-2371.0, 0.0}};
        bw_state *s = NULL;
        const int *members = NULL;
        assert_int_equal(bw_frame_solve_loads(f, &l, 1, &s, *state), BW_OK);
        for (int member = 0; member <= LOGS; member++) {
            double a[6], b[6];
            bw_influence_ends(v, member, &w, 1, a);
            bw_state_ends(s, member, b);
            for (int j = 0; j < 6; j++) {
                assert_true(fabs(a[j] - b[j]) < 1e-9 * 2371.0);
            }
        }
        check_range(v, &w, path, LOGS + 1);
        const size_t n = bw_influence_reached(v, &w, &members);
        assert_true(n >= 1 && n <= 2); /* the log itself, or those at the free joint */
    }
}

/* One unknown alone, the turn over the far support: M at the fixed end is
 * P a b (L + b) / (2 L^2) with b from the load to the far end (handbook case, MEMORY). */
static void a_propped_beam_has_one_unknown(void **state)
{
    beam b = {.frame = bw_frame_new(*state)};
    bw_diags d = bw_diags_new(*state, NULL);
    for (int k = 0; k < 2; k++) {
        const bw_support s = {.node = k, .fix = {true, true, k == 0}};
        bw_frame_add_node(b.frame, span * k, 0.0, NULL, NULL);
        assert_int_equal(bw_frame_add_support(b.frame, &s), BW_OK);
    }
    const bw_member m = {.node_i = 0,
                         .node_j = 1,
                         .section_i = bw_section_round(0.2),
                         .section_j = bw_section_round(0.2),
                         .modulus = 9e9};
    b.path[0] = bw_frame_add_member(b.frame, &m);
    assert_int_equal(bw_frame_factor(b.frame, &d), BW_OK);
    assert_int_equal(bw_frame_describe(b.frame).unknowns, 1);
    add_lines(&b, 1, *state);
    for (double share = 0.07; share < 1.0; share += 0.13) {
        const bw_wheel w = {.at = 0, .a = share * span, .fy = -load};
        const double rest = (1.0 - share) * span;
        double end[6];
        bw_influence_ends(b.lines, b.path[0], &w, 1, end);
        assert_true(relative(end[2], -load * share * span * rest * (span + rest) /
                                         (2.0 * span * span)) < 1e-11);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_simple_beam_has_the_triangle),
        WITH_ARENA(two_spans_have_their_closed_forms),
        WITH_ARENA(three_spans_have_their_closed_forms),
        WITH_ARENA(a_far_end_let_go_leaves_a_simple_beam),
        WITH_ARENA(a_gap_does_what_leaving_the_support_out_does),
        WITH_ARENA(a_gap_adds_to_a_bent_shape),
        WITH_ARENA(wheels_anywhere_agree_with_solved_loads),
        WITH_ARENA(a_wheel_on_a_joint_agrees_with_the_load_on_it),
        WITH_ARENA(several_wheels_add_up),
        WITH_ARENA(out_of_reach_means_no_action),
        WITH_ARENA(a_wheel_off_its_member_is_not_a_number),
        WITH_ARENA(ranges_hold_what_each_wheel_does),
        WITH_ARENA(a_range_never_lets_go_of_a_wheel_off_its_member),
        WITH_ARENA(a_frame_not_factored_is_refused),
        WITH_ARENA(a_gap_is_alike_at_either_end),
        WITH_ARENA(shared_lines_read_the_same),
        WITH_ARENA(a_wheel_changed_since_it_was_set_is_worked_out_anew),
        WITH_ARENA(held_logs_feel_only_what_stands_on_them),
        WITH_ARENA(a_propped_beam_has_one_unknown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
