#include "trial.h"

#include <math.h>
#include <stdio.h>

enum { PRINTED_MISSES = 12 };

/* Where loads stand on supports alone nothing moves: 0 is then measured against these. */
static const double least_force = 1e-3;  /* [N, N*m] */
static const double least_motion = 1e-5; /* [m, rad] */

static void miss(bwt_trial *t, const char *text)
{
    if (t->misses++ < PRINTED_MISSES) {
        fprintf(stderr, "frame %d: %s\n", t->number, text);
    }
}

void bwt_near(bwt_trial *t, const char *what, int where, double found, double wanted,
              double allowance)
{
    const double deviation = fabs(found - wanted);
    if (allowance > 0.0) {
        t->worst = fmax(t->worst, deviation / allowance);
    }
    if (!(deviation <= allowance)) {
        miss(t,
             bw_arena_print(t->arena, "%s at %d: found %.15g, expected %.15g within %.2g",
                            what, where, found, wanted, allowance));
    }
}

void bwt_holds(bwt_trial *t, const char *what, int where, bool statement)
{
    if (!statement) {
        miss(t, bw_arena_print(t->arena, "not so at %d: %s", where, what));
    }
}

static void keep_largest(double *largest, double value)
{
    *largest = fmax(*largest, fabs(value));
}

static void measure_motions(const bwt_sketch *s, bwt_solved *out)
{
    for (int n = 0; n < s->n_nodes; n++) {
        const bw_motion u = bw_state_displacement(out->state, n);
        keep_largest(&out->shift, hypot(u.x, u.y));
        keep_largest(&out->turn, u.r);
    }
    for (int k = 0; k < s->n_members; k++) {
        const double L = bwt_member_length(s, k);
        for (int place = 0; place <= 8; place++) {
            const bw_motion u = bw_state_local(out->state, k, L * place / 8.0);
            keep_largest(&out->shift, hypot(u.x, u.y));
            keep_largest(&out->turn, u.r);
        }
    }
}

static void measure_forces(const bwt_sketch *s, bwt_solved *out)
{
    for (int n = 0; n < s->n_nodes; n++) {
        const bw_motion r = bw_state_reaction(out->state, n);
        keep_largest(&out->force, hypot(r.x, r.y));
        keep_largest(&out->moment, r.r);
    }
    for (int k = 0; k < s->n_members; k++) {
        const bw_extremes e = bw_state_extremes(out->state, k);
        keep_largest(&out->force, e.axial_max.value);
        keep_largest(&out->force, e.axial_min.value);
        keep_largest(&out->force, e.shear_max.value);
        keep_largest(&out->force, e.shear_min.value);
        keep_largest(&out->moment, e.moment_max.value);
        keep_largest(&out->moment, e.moment_min.value);
    }
}

void bwt_measure(const bwt_sketch *s, bwt_solved *f)
{
    f->force = f->moment = least_force;
    f->shift = f->turn = least_motion;
    measure_motions(s, f);
    measure_forces(s, f);
}

bool bwt_solve(bwt_trial *t, const bwt_sketch *s, const bw_part *parts, size_t n_parts,
               bwt_solved *out)
{
    bw_diags d = bw_diags_new(t->arena, NULL);
    *out = (bwt_solved){.frame = bwt_sketch_build(s, t->arena)};
    if (out->frame != NULL && bw_frame_factor(out->frame, &d) == BW_OK &&
        bw_frame_solve(out->frame, &d) == BW_OK) {
        out->state = bw_frame_state(out->frame, parts, n_parts, t->arena);
    }
    if (out->state == NULL) {
        miss(t, d.count > 0 ? d.items[0].message : "not solved");
        return false;
    }
    bwt_measure(s, out);
    return true;
}

bool bwt_solve_case(bwt_trial *t, const bwt_sketch *s, bwt_solved *out)
{
    const bw_part part = {0, 1.0};
    return bwt_solve(t, s, &part, 1, out);
}

int bwt_try(const char *name, int n, uint64_t seed, void (*property)(bwt_trial *))
{
    bw_arena *arena = bw_arena_new();
    if (arena == NULL) {
        return 1;
    }
    bwt_trial t = {.random = {.state = seed}, .arena = arena};
    for (t.number = 0; t.number < n; t.number++) {
        const bw_arena_mark mark = bw_arena_now(arena);
        t.sketch = BW_NEW(arena, bwt_sketch, 1);
        if (t.sketch == NULL) {
            t.misses++;
            break;
        }
        bwt_sketch_random(&t.random, t.sketch);
        property(&t);
        bw_arena_back(arena, mark);
    }
    printf("%s: %d frames, largest deviation %.2g of what is allowed, %d misses\n", name,
           n, t.worst, t.misses);
    bw_arena_free(arena);
    return t.misses;
}
