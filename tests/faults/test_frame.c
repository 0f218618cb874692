/* test_frame.c - memory runs out at every place of the frame layer's calls: each says so,
 * or gives the numbers that it gives otherwise. The frames are random ones of fixed
 * seeds, with every kind of member, support and load. */
#include "sweep.h"

#include "sketch.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>

enum { ROOM = 64 };

/* ---- numbers of a run; NaN is what a reading says without memory ---- */

typedef struct {
    double at[4096];
    size_t n;
} numbers;

static numbers found, wanted; /* of this run, of the one with memory enough */

static void note(double value)
{
    assert_true(found.n < sizeof found.at / sizeof found.at[0]);
    found.at[found.n++] = value;
}

static void note_line(const bw_line *line)
{
    double stations[ROOM];
    const double L = bw_frame_length(line->frame, line->member);
    const size_t n = bw_line_stations(line, stations, ROOM);
    note(n > 0 ? stations[n / 2] : (double)NAN);
    for (int k = 0; k <= 5; k++) {
        const bw_action a = bw_line_action(line, L * k / 5.0, k % 2 == 0);
        note(a.axial);
        note(a.shear);
        note(a.moment);
    }
    bw_extreme max, min;
    bw_line_sag_extremes(line, &max, &min);
    note(bw_line_extremes(line).stress_max.value);
    note(max.value);
    note(min.value);
}

static void note_state(const bw_state *s, const bwt_sketch *sketch, bw_arena *arena)
{
    for (int k = 0; k < sketch->n_nodes; k++) {
        note(bw_state_displacement(s, k).x);
        note(bw_state_reaction(s, k).y);
    }
    for (int k = 0; k < sketch->n_members; k++) {
        const bw_line line = bw_state_line(s, k, arena);
        note_line(&line);
        note(bw_state_sag(s, k, 0.3));
        note(bw_state_local(s, k, 0.3).y);
    }
    note(bw_state_work(s));
    note(bw_state_energy(s));
}

/* ---- calls one after the other, up to the first that does not go ---- */

static bw_status move_loads(bw_frame *f, const bw_state *base, bw_arena *arena)
{
    static const int path[] = {0, 1};
    const bw_member_load wheel = {.kind = BW_LOAD_POINT, .a = 0.4, .y = {-2371.0, 0.0}};
    const bw_wheel w = {.at = 0, .a = 0.4, .fy = -2371.0};
    bw_influence *v = NULL;
    bw_state *one = NULL;
    BW_TRY(bw_frame_solve_loads(f, &wheel, 1, &one, arena));
    const bw_state *sum = bw_state_add(base, 1.3, one, arena);
    BW_TRY(bw_influence_new(f, path, 2, arena, &v));
    const bw_line line = bw_influence_line(v, base, 0, &w, 1, arena);
    note_line(&line);
    note(sum != NULL ? bw_state_residual(sum) : (double)NAN);
    return sum != NULL ? BW_OK : BW_E_MEMORY;
}

static bw_status buckle(bw_frame *f, const bw_state *s, const bwt_sketch *sketch,
                        bw_arena *arena, bw_diags *d)
{
    bw_buckling shape;
    double press[BWT_ROOM] = {0.0};
    bool stands = false, pressed_stands = false;
    bw_state *bent = NULL;
    BW_TRY(bw_frame_buckling(f, s, arena, &shape, d));
    BW_TRY(bw_frame_stands(f, s, 0.9 * shape.factor, arena, &stands, d));
    bw_state_press(s, press);
    BW_TRY(bw_frame_stands_pressed(f, press, 1.0, arena, &pressed_stands, d));
    BW_TRY(bw_state_second_order(s, arena, &bent, d));
    note(shape.factor);
    note(shape.mode[1].x);
    note(shape.bow[0]);
    note(stands ? 1.0 : 0.0);
    note(pressed_stands ? 1.0 : 0.0);
    note_state(bent, sketch, arena);
    return BW_OK;
}

static bw_status call_all(uint64_t seed, bw_arena *arena, bw_diags *d)
{
    bwt_random random = {.state = seed};
    bwt_sketch *sketch = BW_NEW(arena, bwt_sketch, 1);
    if (sketch == NULL) {
        return BW_E_MEMORY;
    }
    bwt_sketch_random(&random, sketch);
    bwt_sketch_load_random(&random, sketch, 0, true);
    bwt_sketch_settle_random(&random, sketch);
    bwt_sketch_lean_random(&random, sketch);
    bw_frame *f = bwt_sketch_build(sketch, arena);
    if (f == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(bw_frame_factor(f, d));
    BW_TRY(bw_frame_solve(f, d));
    bw_state *s = bw_frame_state(f, &(bw_part){0, 0.7}, 1, arena);
    if (s == NULL) {
        return BW_E_MEMORY;
    }
    note_state(s, sketch, arena);
    BW_TRY(move_loads(f, s, arena));
    return buckle(f, s, sketch, arena, d);
}

/* A row without a foot that holds it along: what moves is named. */
static bw_status call_loose(bw_arena *arena, bw_diags *d)
{
    bw_frame *f = bw_frame_new(arena);
    for (int k = 0; f != NULL && k < 12; k++) {
        const bw_support foot = {.node = k, .fix = {true, true, false}};
        const bw_member post = {.node_i = k - 1,
                                .node_j = k,
                                .section_i = bw_section_round(0.217),
                                .section_j = bw_section_round(0.193),
                                .modulus = 9.1e9,
                                .name = "post"};
        if (bw_frame_add_node(f, 1.37 * k, k % 2, "joint", NULL) < 0 ||
            (k % 2 == 0 && bw_frame_add_support(f, &foot) != BW_OK) ||
            (k % 2 == 1 && bw_frame_add_member(f, &post) < 0)) {
            return BW_E_MEMORY;
        }
    }
    return f != NULL ? bw_frame_factor(f, d) : BW_E_MEMORY;
}

/* ---- what comes of them ---- */

/* A number that is NaN says that it is not known, and a run may end early; any other is
 * the one that it is with memory enough. */
static void compare(const char *name)
{
    assert_true(found.n <= wanted.n);
    for (size_t k = 0; k < found.n; k++) {
        if (!isnan(found.at[k]) && found.at[k] != wanted.at[k]) {
            fail_msg("%s, number %zu: %.17g instead of %.17g", name, k, found.at[k],
                     wanted.at[k]);
        }
    }
}

/* Tasks with a path, the seed of their frame, stand; the other one is loose. */
static outcome run_calls(const task *t, bw_arena *arena, bw_arena *keeper)
{
    const bool stands = t->path != NULL;
    bw_diags d = bw_diags_new(arena, NULL);
    bw_text faults = bw_text_new(arena);
    found.n = 0;
    const bw_status status =
        stands ? call_all(strtoul(t->path, NULL, 10), arena, &d) : call_loose(arena, &d);
    bw_diags_print(&d, &faults);
    failing_end();
    outcome out = {bw_status_exit(status), NULL};
    assert_true(status == (stands ? BW_OK : BW_E_MECHANISM) || status == BW_E_MEMORY);
    if (status != BW_E_MEMORY && !bw_arena_failed(arena)) {
        wanted = wanted.n == 0 ? found : wanted;
        assert_true(found.n == wanted.n);
        sweep_keep(&out, keeper, bw_text_string(&faults));
    }
    compare(t->name);
    return out;
}

static void sweep_all(failing_kind kind, bool for_good)
{
    static const task tasks[] = {
        {.name = "frame 10", .run = run_calls, .path = "10"},
        {.name = "frame 42", .run = run_calls, .path = "42"},
        {.name = "frame 222", .run = run_calls, .path = "222"},
        {.name = "loose frame", .run = run_calls, .every = true},
    };
    for (size_t k = 0; k < sizeof tasks / sizeof tasks[0]; k++) {
        wanted.n = 0;
        sweep_task(&tasks[k], kind, for_good);
    }
}

static void the_system_gives_none_once(void **state)
{
    (void)state;
    sweep_all(FAIL_SYSTEM, false);
}

static void an_arena_gives_none_once(void **state)
{
    (void)state;
    sweep_all(FAIL_ARENA, false);
}

static void an_arena_gives_no_more(void **state)
{
    (void)state;
    sweep_all(FAIL_ARENA, true);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_system_gives_none_once),
        cmocka_unit_test(an_arena_gives_none_once),
        cmocka_unit_test(an_arena_gives_no_more),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
