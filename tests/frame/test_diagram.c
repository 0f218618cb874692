/* N, V, M along a member against sums of the forces before the place. */
#include "../base/arena_fixture.h"
#include "frame/internal.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

static const double L = 3.117;

enum { PIECES = 5 };
static const bwi_extra pieces[PIECES] = {
    {.piece = {.a = 0.713,
               .b = 0.713,
               .is_point = true,
               .qx = {217.0},
               .qy = {-1371.3},
               .moment = 91.7},
     .factor = 1.3},
    {.piece = {.a = 0.4, .b = 2.9, .qx = {31.0, 4.0}, .qy = {-210.0, -37.0, 11.0}},
     .factor = 0.7},
    {.piece = {.a = 0.0, .b = 3.117, .qy = {-93.0, 8.1, -0.4}}, .factor = 1.0},
    {.piece = {.a = 2.113, .b = 2.113, .is_point = true, .moment = -213.0},
     .factor = 1.0},
    {.piece = {.a = 1.7, .b = 2.4, .qy = {-510.0}}, .factor = -1.1},
};
static const double start[3] = {-83.0, 2371.0, -317.0};

/* What lies before x, in thin slices: forces along and across, and moment about x. */
static void by_slices(double x, double out[3])
{
    enum { SLICES = 20000 };
    out[0] = start[0];
    out[1] = start[1];
    out[2] = start[2] + start[1] * x;
    for (int k = 0; k < PIECES; k++) {
        const bwi_piece *p = &pieces[k].piece;
        const double f = pieces[k].factor;
        if (p->is_point && p->a < x) {
            out[0] -= f * p->qx[0];
            out[1] += f * p->qy[0];
            out[2] += f * (p->qy[0] * (x - p->a) - p->moment);
        }
        const double end = fmin(p->b, x);
        for (int j = 0; j < SLICES && !p->is_point && end > p->a; j++) {
            const double h = (end - p->a) / SLICES, t = (j + 0.5) * h;
            const double qx = p->qx[0] + t * (p->qx[1] + t * p->qx[2]);
            const double qy = p->qy[0] + t * (p->qy[1] + t * p->qy[2]);
            out[0] -= f * qx * h;
            out[1] += f * qy * h;
            out[2] += f * qy * h * (x - p->a - t);
        }
    }
}

static void actions_are_sums_of_what_lies_before(void **state)
{
    const bwi_diagram d = bwi_diagram_make(*state, L, start, pieces, PIECES);
    assert_true(d.n > 0);
    for (size_t k = 0; k < d.n; k++) {
        for (double share = 0.13; share < 1.0; share += 0.29) {
            const bwi_segment *s = &d.segments[k];
            const double x = s->from + share * (s->to - s->from);
            double wanted[3];
            by_slices(x, wanted);
            const bw_action a = bwi_segment_action(s, x);
            assert_true(fabs(a.axial - wanted[0]) < 1e-5);
            assert_true(fabs(a.shear - wanted[1]) < 1e-5);
            assert_true(fabs(a.moment - wanted[2]) < 1e-5);
        }
    }
}

static void segments_cover_the_member_and_end_at_the_loads(void **state)
{
    const bwi_diagram d = bwi_diagram_make(*state, L, start, pieces, PIECES);
    const double ends[] = {0.0, 0.4, 0.713, 1.7, 2.113, 2.4, 2.9, 3.117};
    assert_int_equal(d.n, 7);
    for (size_t k = 0; k < d.n; k++) {
        assert_true(d.segments[k].from == ends[k] && d.segments[k].to == ends[k + 1]);
    }
}

static void actions_jump_only_at_point_loads(void **state)
{
    const bwi_diagram d = bwi_diagram_make(*state, L, start, pieces, PIECES);
    for (size_t k = 0; k + 1 < d.n; k++) {
        const double x = d.segments[k].to;
        const bw_action a = bwi_segment_action(&d.segments[k], x);
        const bw_action b = bwi_segment_action(&d.segments[k + 1], x);
        const bool force = x == 0.713, turn = x == 0.713 || x == 2.113;
        assert_true(fabs(b.axial - a.axial + (force ? 1.3 * 217.0 : 0.0)) < 1e-9);
        assert_true(fabs(b.shear - a.shear + (force ? 1.3 * 1371.3 : 0.0)) < 1e-9);
        const double moment = !turn ? 0.0 : force ? 1.3 * 91.7 : -213.0;
        assert_true(fabs(b.moment - a.moment + moment) < 1e-9);
    }
}

static void no_loads_leave_one_straight_segment(void **state)
{
    const bwi_diagram d = bwi_diagram_make(*state, L, start, NULL, 0);
    assert_int_equal(d.n, 1);
    const bw_action a = bwi_segment_action(&d.segments[0], L);
    assert_true(a.axial == start[0] && a.shear == start[1]);
    assert_true(fabs(a.moment - (start[2] + start[1] * L)) < 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(actions_are_sums_of_what_lies_before),
        WITH_ARENA(segments_cover_the_member_and_end_at_the_loads),
        WITH_ARENA(actions_jump_only_at_point_loads),
        WITH_ARENA(no_loads_leave_one_straight_segment),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
