/* Laws of statics that every solved frame keeps, told by other routes than the solver's:
 * forces added up by hand, energy by integrals of the actions. */
#include "laws.h"

#include <math.h>

static const double pi = 3.14159265358979323846;
static const double balance = 1e-10; /* of the largest force or moment of the frame */

enum { PIECES = 96, ROOM = 64 };

/* ---- the loads of a sketch, added up by statics alone ---- */

/* Adds the force (fx, fy) at (x, y) to the resultant about the origin. */
static void add_force(bw_motion *sum, double fx, double fy, double x, double y)
{
    sum->x += fx;
    sum->y += fy;
    sum->r += x * fy - y * fx;
}

static bwt_point on_member(const bwt_sketch *s, int member, double x)
{
    const bwt_point e = bwt_member_direction(s, member);
    const bwt_point a = s->nodes[s->members[member].node_i];
    return (bwt_point){a.x + x * e.x, a.y + x * e.y};
}

static bw_motion global_force(const bwt_sketch *s, const bw_member_load *w, int end)
{
    const bw_motion f = {w->x[end], w->y[end], 0.0};
    if (w->local) {
        return bwt_member_to_global(s, w->member, f);
    }
    const double plan =
        w->per_plan_length ? fabs(bwt_member_direction(s, w->member).x) : 1.0;
    return (bw_motion){plan * f.x, plan * f.y, 0.0};
}

/* Line load as two triangles: w h/2 at a third of its length from its own end. */
static void add_member_load(const bwt_sketch *s, const bw_member_load *w, bw_motion *sum)
{
    const bool is_point = w->kind == BW_LOAD_POINT;
    const double h = w->b - w->a;
    for (int end = 0; end < (is_point ? 1 : 2); end++) {
        const bw_motion f = global_force(s, w, end);
        const double size = is_point ? 1.0 : h / 2.0;
        const double x = is_point ? w->a : w->a + h * (end == 0 ? 1.0 : 2.0) / 3.0;
        const bwt_point p = on_member(s, w->member, x);
        add_force(sum, size * f.x, size * f.y, p.x, p.y);
    }
    sum->r += is_point ? w->moment : 0.0;
}

/* Place k of a three-point Gauss rule on so many panels of u from 0 to 1, and its weight,
 * with x = u^2 (3 - 2u), which smooths what happens where a flat runs out at an end. */
static double place_of(int k, int panels, double *weight)
{
    static const double gauss_x[3] = {0.1127016653792583, 0.5, 0.8872983346207417};
    static const double gauss_w[3] = {5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};
    const double u = (k / 3 + gauss_x[k % 3]) / panels;
    *weight = gauss_w[k % 3] / panels * 6.0 * u * (1.0 - u);
    return u * u * (3.0 - 2.0 * u);
}

/* Volume and its first moment about end i of a member with flats or a hollow. */
static void add_up_volume(const bwt_sketch *s, int member, double sum[2])
{
    enum { PANELS = 400 };
    const double L = bwt_member_length(s, member);
    sum[0] = sum[1] = 0.0;
    for (int k = 0; k < 3 * PANELS; k++) {
        double w = 0.0;
        const double x = L * place_of(k, PANELS, &w);
        const bw_section section = bwt_member_section(s, member, x);
        w *= L;
        sum[0] += w * bw_section_area(&section);
        sum[1] += w * bw_section_area(&section) * x;
    }
}

/* Weight of a frustum, pi L (D2 + D d + d2) / 12, and its centre of gravity from D. */
double bwt_member_weight(const bwt_sketch *s, int member, double *centre)
{
    const bw_member *m = &s->members[member];
    const double L = bwt_member_length(s, member);
    const double g = m->density * 9.80665;
    if (m->section_i.kind == BW_SECTION_GIVEN) {
        *centre = L / 2.0;
        return g * m->section_i.area * L;
    }
    if (!bw_section_is_plain(&m->section_i) || !bw_section_is_plain(&m->section_j)) {
        double sum[2];
        add_up_volume(s, member, sum);
        *centre = sum[1] / sum[0];
        return g * sum[0];
    }
    const double D = m->section_i.diameter, d = m->section_j.diameter;
    const double volume = pi * L * (D * D + D * d + d * d) / 12.0;
    *centre = pi * L * L * (D * D + 2.0 * D * d + 3.0 * d * d) / 48.0 / volume;
    return g * volume;
}

static void add_own_weight(const bwt_sketch *s, double factor, bw_motion *sum)
{
    for (int k = 0; k < s->n_members; k++) {
        double centre = 0.0;
        const double weight = factor * bwt_member_weight(s, k, &centre);
        const bwt_point p = on_member(s, k, centre);
        add_force(sum, 0.0, -weight, p.x, p.y);
    }
}

static bw_motion all_loads(const bwt_sketch *s)
{
    bw_motion sum = {0};
    for (int k = 0; k < s->n_loads; k++) {
        const bwt_load *l = &s->loads[k];
        if (l->kind == BWT_LOAD_NODE) {
            add_force(&sum, l->fx, l->fy, s->nodes[l->node].x, s->nodes[l->node].y);
            sum.r += l->moment;
        } else if (l->kind == BWT_LOAD_MEMBER) {
            add_member_load(s, &l->on_member, &sum);
        } else {
            add_own_weight(s, l->factor, &sum);
        }
    }
    return sum;
}

/* ---- balance ---- */

double bwt_moment_size(const bwt_sketch *s, const bwt_solved *f)
{
    double reach = 1.0;
    for (int n = 0; n < s->n_nodes; n++) {
        reach = fmax(reach, hypot(s->nodes[n].x, s->nodes[n].y));
    }
    return f->moment + f->force * reach;
}

bool bwt_solve_loaded(bwt_trial *t, bwt_solved *f)
{
    bwt_sketch_load_random(&t->random, t->sketch, 0, bwt_random_chance(&t->random, 0.6));
    if (bwt_random_chance(&t->random, 0.3)) {
        bwt_sketch_settle_random(&t->random, t->sketch);
    }
    return bwt_solve_case(t, t->sketch, f);
}

void bwt_reactions_carry_the_loads(bwt_trial *t)
{
    bwt_solved f;
    if (!bwt_solve_loaded(t, &f)) {
        return;
    }
    bw_motion sum = all_loads(t->sketch);
    for (int n = 0; n < t->sketch->n_nodes; n++) {
        const bw_motion r = bw_state_reaction(f.state, n);
        add_force(&sum, r.x, r.y, t->sketch->nodes[n].x, t->sketch->nodes[n].y);
        sum.r += r.r;
    }
    bwt_near(t, "sum of forces along x", 0, sum.x, 0.0, balance * f.force);
    bwt_near(t, "sum of forces along y", 0, sum.y, 0.0, balance * f.force);
    bwt_near(t, "sum of moments", 0, sum.r, 0.0,
             balance * bwt_moment_size(t->sketch, &f));
    bwt_holds(t, "the residual is below 1e-10", 0, bw_state_residual(f.state) < 1e-10);
}

/* Force of a member on the node at one of its ends, from the actions just inside. */
static bw_motion push(const bwt_sketch *s, const bwt_solved *f, int member, bool at_j)
{
    const double L = bw_frame_length(f->frame, member);
    const bw_action a = bw_state_action(f->state, member, at_j ? L : 0.0, at_j);
    const double sign = at_j ? -1.0 : 1.0;
    return bwt_member_to_global(
        s, member, (bw_motion){sign * a.axial, -sign * a.shear, sign * a.moment});
}

/* Point loads at the very end of a member act outside "just inside". */
static void add_end_loads(const bwt_sketch *s, bw_motion *sums)
{
    for (int k = 0; k < s->n_loads; k++) {
        const bwt_load *l = &s->loads[k];
        const bw_member_load *w = &l->on_member;
        if (l->kind == BWT_LOAD_NODE) {
            add_force(&sums[l->node], l->fx, l->fy, 0.0, 0.0);
            sums[l->node].r += l->moment;
        } else if (l->kind == BWT_LOAD_MEMBER && w->kind == BW_LOAD_POINT) {
            const bw_member *m = &s->members[w->member];
            const bool at_i = w->a <= 0.0;
            const bool at_j = w->a >= bwt_member_length(s, w->member);
            if (at_i || at_j) {
                const bw_motion force = global_force(s, w, 0);
                const int node = at_i ? m->node_i : m->node_j;
                add_force(&sums[node], force.x, force.y, 0.0, 0.0);
                sums[node].r += w->moment;
            }
        }
    }
}

void bwt_every_node_is_in_balance(bwt_trial *t)
{
    bwt_solved f;
    bw_motion sums[BWT_ROOM] = {{0}};
    if (!bwt_solve_loaded(t, &f)) {
        return;
    }
    add_end_loads(t->sketch, sums);
    for (int end = 0; end < 2 * t->sketch->n_members; end++) {
        const bw_member *m = &t->sketch->members[end / 2];
        const bw_motion p = push(t->sketch, &f, end / 2, end % 2 == 1);
        bw_motion *sum = &sums[end % 2 == 1 ? m->node_j : m->node_i];
        *sum = (bw_motion){sum->x + p.x, sum->y + p.y, sum->r + p.r};
    }
    for (int n = 0; n < t->sketch->n_nodes; n++) {
        const bw_motion r = bw_state_reaction(f.state, n);
        bwt_near(t, "forces along x on node", n, sums[n].x + r.x, 0.0, balance * f.force);
        bwt_near(t, "forces along y on node", n, sums[n].y + r.y, 0.0, balance * f.force);
        bwt_near(t, "moments on node", n, sums[n].r + r.r, 0.0,
                 balance * bwt_moment_size(t->sketch, &f));
    }
}

/* ---- Clapeyron ---- */

static double energy_density(const bwt_sketch *s, const bwt_solved *f, int member,
                             double x)
{
    const bw_member *m = &s->members[member];
    const bw_section section = bwt_member_section(s, member, x);
    const double area = bw_section_area(&section);
    const double GA = m->kappa * m->shear_modulus * area;
    const bw_action a = bw_state_action(f->state, member, x, false);
    return a.moment * a.moment / (2.0 * m->modulus * bw_section_second_moment(&section)) +
           a.axial * a.axial / (2.0 * m->modulus * area) +
           (GA > 0.0 ? a.shear * a.shear / (2.0 * GA) : 0.0);
}

static double member_energy(const bwt_sketch *s, const bwt_solved *f, int member)
{
    double x[ROOM];
    double sum = 0.0;
    const size_t n = bw_state_stations(f->state, member, x, ROOM);
    for (size_t k = 0; k + 1 < n; k++) {
        const double h = x[k + 1] - x[k];
        for (int p = 0; p < 3 * PIECES; p++) {
            double w = 0.0;
            const double at = x[k] + h * place_of(p, PIECES, &w);
            sum += w * h * energy_density(s, f, member, at);
        }
    }
    return sum;
}

static double joint_energy(double moment, double spring)
{
    return spring > 0.0 ? moment * moment / (2.0 * spring) : 0.0;
}

/* Node moments at member ends, whatever loads stand at the very end, are those just
 * inside: this property drops loads at member ends first. */
static double stored(const bwt_sketch *s, const bwt_solved *f)
{
    double sum = 0.0;
    for (int k = 0; k < s->n_members; k++) {
        const double L = bw_frame_length(f->frame, k);
        sum += member_energy(s, f, k);
        sum += joint_energy(bw_state_action(f->state, k, 0.0, false).moment,
                            s->members[k].turn_spring_i);
        sum += joint_energy(bw_state_action(f->state, k, L, true).moment,
                            s->members[k].turn_spring_j);
    }
    for (int k = 0; k < s->n_supports; k++) {
        const bw_support *p = &s->supports[k];
        const bw_motion u = bw_state_displacement(f->state, p->node);
        const double c = cos(p->angle), e = sin(p->angle);
        const double motion[3] = {c * u.x + e * u.y, c * u.y - e * u.x, u.r};
        for (int j = 0; j < 3; j++) {
            sum += p->fix[j] ? 0.0 : p->spring[j] * motion[j] * motion[j] / 2.0;
        }
    }
    return sum;
}

static void drop_end_moments(bwt_sketch *s)
{
    for (int k = 0; k < s->n_loads; k++) {
        bw_member_load *w = &s->loads[k].on_member;
        if (s->loads[k].kind == BWT_LOAD_MEMBER && w->kind == BW_LOAD_POINT &&
            (w->a <= 0.0 || w->a >= bwt_member_length(s, w->member))) {
            w->moment = 0.0;
        }
    }
}

void bwt_work_is_stored(bwt_trial *t)
{
    bwt_solved f;
    bwt_sketch_load_random(&t->random, t->sketch, 0, bwt_random_chance(&t->random, 0.5));
    drop_end_moments(t->sketch);
    if (!bwt_solve_case(t, t->sketch, &f)) {
        return;
    }
    const double energy = stored(t->sketch, &f);
    bwt_near(t, "strain energy", 0, bw_state_energy(f.state), energy,
             1e-9 * energy + 1e-20);
    bwt_near(t, "work of the loads", 0, bw_state_work(f.state), energy,
             1e-9 * energy + 1e-20);
}

/* ---- Maxwell and Betti ---- */

bw_member_load bwt_single_load(bwt_trial *t)
{
    const int member = bwt_random_below(&t->random, t->sketch->n_members);
    bw_member_load w = {.kind = BW_LOAD_POINT, .member = member};
    w.a =
        bwt_member_length(t->sketch, member) * bwt_random_between(&t->random, 0.02, 0.98);
    w.b = w.a;
    w.x[0] = bwt_random_between(&t->random, -1000.0, 1000.0);
    w.y[0] = bwt_random_between(&t->random, -1000.0, 1000.0);
    w.moment = bwt_random_between(&t->random, -1000.0, 1000.0);
    return w;
}

/* What the load would do on the way of another state. */
static double work_on(const bwt_sketch *s, const bw_member_load *w, const bw_state *other)
{
    const bw_motion u =
        bwt_member_to_global(s, w->member, bw_state_local(other, w->member, w->a));
    return w->x[0] * u.x + w->y[0] * u.y + w->moment * u.r;
}

void bwt_works_are_mutual(bwt_trial *t)
{
    enum { N = 4 };
    bw_member_load loads[N];
    bw_state *states[N] = {0};
    bw_diags d = bw_diags_new(t->arena, NULL);
    bw_frame *f = bwt_sketch_build(t->sketch, t->arena);
    for (int k = 0; k < N; k++) {
        loads[k] = bwt_single_load(t);
    }
    const bool solved = f != NULL && bw_frame_factor(f, &d) == BW_OK &&
                        bw_frame_solve(f, &d) == BW_OK &&
                        bw_frame_solve_loads(f, loads, N, states, t->arena) == BW_OK;
    bwt_holds(t, "single loads are solved", 0, solved);
    for (int a = 0; a < N && solved; a++) {
        for (int b = 0; b < a; b++) {
            const double ab = work_on(t->sketch, &loads[a], states[b]);
            const double ba = work_on(t->sketch, &loads[b], states[a]);
            const double size = work_on(t->sketch, &loads[a], states[a]) +
                                work_on(t->sketch, &loads[b], states[b]);
            bwt_near(t, "mutual work", loads[a].member, ab, ba, 1e-10 * size);
        }
    }
}
