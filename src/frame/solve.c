/* K u = f by band Cholesky, K assembled from B' k B of every member.
 *
 * Right-hand sides and residuals come from one routine (bwi_state_update): what is out of
 * balance with u = 0 is the load vector, what is out of balance afterwards is the error.
 * Where stiffnesses are so unlike that K has lost digits in its sum, the factor still
 * serves as a preconditioner: u is carried as a sum of two doubles and corrected until
 * the members' own forces balance (Wilkinson's iterative refinement, MEMORY). */
#include "internal.h"

#include <math.h>
#include <string.h>

static const double rcond_sound = 1e-8; /* below it every solution is refined */
static const double rcond_doubt =
    1e-12; /* below it the geometry decides: see test_band.c */
static const double balance_target = 1e-14, balance_limit = 1e-9;

void bwi_element_rows(const bw_frame *f, int member, double B[3][6])
{
    const bwi_member *m = &f->members[member];
    memset(B, 0, 3 * sizeof *B);
    for (int end = 0; end < 2; end++) {
        const bwi_node *n = &f->nodes[end == 0 ? m->m.node_i : m->m.node_j];
        /* node axes -> member axes: x = c a + s b, y = c b - s a */
        const double c = m->cosine * n->cosine + m->sine * n->sine;
        const double s = m->sine * n->cosine - m->cosine * n->sine;
        const double sign = end == 0 ? -1.0 : 1.0;
        double(*const column)[6] = B;
        column[0][3 * end] = sign * c;
        column[0][3 * end + 1] = sign * s;
        column[1][3 * end] = -sign * s / m->length;
        column[1][3 * end + 1] = sign * c / m->length;
        column[2][3 * end] = sign * s / m->length;
        column[2][3 * end + 1] = -sign * c / m->length;
    }
    B[1][2] = -1.0;
    B[2][5] = 1.0;
}

static void add_to_band(bwi_system *s, int p, int q, double value)
{
    if (p >= 0 && q >= 0 && p >= q) {
        s->band[(size_t)q * ((size_t)s->half_band + 1) + (size_t)(p - q)] += value;
    }
}

static void assemble_member(bw_frame *f, int member)
{
    const bwi_member *m = &f->members[member];
    const int *ei = f->nodes[m->m.node_i].equation, *ej = f->nodes[m->m.node_j].equation;
    const int eq[6] = {ei[0], ei[1], ei[2], ej[0], ej[1], ej[2]};
    double B[3][6];
    bwi_element_rows(f, member, B);
    for (int p = 0; p < 6; p++) {
        const double n = m->ka * B[0][p];
        const double a = m->k11 * B[1][p] + m->k12 * B[2][p];
        const double b = m->k12 * B[1][p] + m->k22 * B[2][p];
        for (int q = 0; q < 6; q++) {
            add_to_band(&f->system, eq[p], eq[q],
                        n * B[0][q] + a * B[1][q] + b * B[2][q]);
        }
    }
}

/* shift: relative addition to the diagonal, so that rounding cannot make K indefinite. */
static void assemble(bw_frame *f, double shift)
{
    bwi_system *s = &f->system;
    const size_t rows = (size_t)s->half_band + 1;
    memset(s->band, 0, rows * (size_t)s->n * sizeof *s->band);
    for (size_t k = 0; k < f->n_members; k++) {
        assemble_member(f, (int)k);
    }
    for (size_t k = 0; k < f->n_nodes; k++) {
        const bwi_node *n = &f->nodes[k];
        for (int j = 0; j < 3; j++) {
            add_to_band(s, n->equation[j], n->equation[j], n->spring[j]);
        }
        add_to_band(s, n->equation[2], n->equation[0], n->spring_xr);
    }
    for (int k = 0; k < s->n; k++) {
        s->band[(size_t)k * rows] *= 1.0 + shift;
    }
}

/* K is sound by its geometry but rounding made it indefinite: factor it slightly shifted.
 */
static bw_status factor_shifted(bw_frame *f)
{
    bw_status status = BW_E_CONDITION;
    for (double shift = 1e-15; shift < 1e-11 && status != BW_OK; shift *= 10.0) {
        assemble(f, shift);
        status = bwi_band_factor(&f->system);
    }
    return status == BW_E_MECHANISM ? BW_E_CONDITION : status;
}

static bw_status factor(bw_frame *f, bw_diags *d)
{
    BW_TRY(bwi_frame_prepare(f, d));
    if (f->factored) {
        return BW_OK;
    }
    bwi_system *s = &f->system;
    s->band = BW_NEW(f->arena, double, ((size_t)s->half_band + 1) * (size_t)s->n + 1);
    s->scale = BW_NEW(f->arena, double, (size_t)s->n + 1);
    if (s->band == NULL || s->scale == NULL) {
        return BW_E_MEMORY;
    }
    f->free_motions = 0;
    assemble(f, 0.0);
    bw_status status = s->n == 0 ? BW_OK : bwi_band_factor(s);
    if (s->n == 0) {
        s->rcond = 1.0;
    }
    if (status == BW_E_MECHANISM || (status == BW_OK && s->rcond < rcond_doubt)) {
        f->free_motions = bw_frame_count_free_motions(f);
        if (f->free_motions != 0) {
            return bwi_mechanism_report(f, d);
        }
        status = status == BW_E_MECHANISM ? factor_shifted(f) : BW_OK;
    }
    s->refine = s->rcond < rcond_sound;
    if (status == BW_E_CONDITION) {
        bw_diags_error(d, "frame.condition", NULL,
                       "check the sizes and moduli of its members",
                       "stiffnesses differ so much that no digits are left");
    }
    f->factored = status == BW_OK;
    return status;
}

/* A count of motions that failed for want of memory looks like a loose part: the arena
 * knows better. */
bw_status bw_frame_factor(bw_frame *f, bw_diags *d)
{
    const bw_status status = factor(f, d);
    if (status == BW_E_MEMORY) {
        bw_arena_spoil(f->arena);
    }
    return bw_arena_failed(f->arena) ? BW_E_MEMORY : status;
}

bw_frame_facts bw_frame_describe(const bw_frame *f)
{
    return (bw_frame_facts){.nodes = (int)f->n_nodes,
                            .members = (int)f->n_members,
                            .unknowns = f->system.n,
                            .half_band = f->system.half_band,
                            .rcond = f->system.rcond,
                            .free_motions = f->free_motions};
}

/* ---- right-hand sides ---- */

static void gather(const bw_frame *f, const double *balance, double *rhs)
{
    for (size_t k = 0; k < f->n_nodes; k++) {
        for (int j = 0; j < 3; j++) {
            if (f->nodes[k].equation[j] >= 0) {
                rhs[f->nodes[k].equation[j]] = balance[3 * k + (size_t)j];
            }
        }
    }
}

/* u += correction, keeping what the sum of two doubles would lose. */
static void correct(bw_state *s, const double *correction)
{
    const bw_frame *f = s->frame;
    for (size_t k = 0; k < 3 * f->n_nodes; k++) {
        const int equation = f->nodes[k / 3].equation[k % 3];
        if (equation >= 0) {
            const double a = s->u[k], b = correction[equation] + s->u_low[k];
            const double sum = a + b, part = sum - a;
            s->u_low[k] = (a - (sum - part)) + (b - part);
            s->u[k] = sum;
        }
    }
}

typedef struct {
    double force, moment;
} size_of_loads;

static size_of_loads largest(const bw_frame *f, const double *balance, bool free_only)
{
    size_of_loads size = {0};
    for (size_t k = 0; k < 3 * f->n_nodes; k++) {
        if (free_only && f->nodes[k / 3].equation[k % 3] < 0) {
            continue;
        }
        double *const part = k % 3 == 2 ? &size.moment : &size.force;
        *part = bwi_larger(*part, fabs(balance[k]));
    }
    return size;
}

static double unbalance(const bw_frame *f, const double *balance, size_of_loads loads)
{
    const double arm = f->members[0].length;
    const size_of_loads rest = largest(f, balance, true);
    const double force = fmax(loads.force, loads.moment / arm);
    const double moment = fmax(loads.moment, loads.force * arm);
    return force > 0.0 ? bwi_larger(rest.force / force, rest.moment / moment) : 0.0;
}

static bw_status refine(bw_state *s, double *balance, double *rhs, size_of_loads loads)
{
    const bw_frame *f = s->frame;
    const int steps =
        300; /* a shifted factor can need many; a sound one needs none or one */
    int idle = 0;
    for (int k = 0; k < steps && idle < 5 && s->residual > balance_target; k++) {
        gather(f, balance, rhs);
        bwi_band_solve(&f->system, rhs, 1);
        correct(s, rhs);
        BW_TRY(bwi_state_update(s, balance));
        const double now = unbalance(f, balance, loads);
        idle = now < 0.95 * s->residual ? 0 : idle + 1;
        s->residual = now;
    }
    return BW_OK;
}

/* First solution of one state, its column of the right-hand sides being solved already.
 */
static bw_status finish(bw_state *s, double *column, double *balance, size_of_loads loads)
{
    correct(s, column);
    BW_TRY(bwi_state_update(s, balance));
    s->residual = unbalance(s->frame, balance, loads);
    if (s->frame->system.refine || s->residual > 1e-12) {
        BW_TRY(refine(s, balance, column, loads));
    }
    return BW_OK;
}

/* Solves all states, whose loads are set, as right-hand sides of the one factor. */
static bw_status solve_states(bw_frame *f, bw_state **states, size_t n_states)
{
    const size_t n = (size_t)f->system.n;
    double *rhs = BW_NEW(f->arena, double, n *n_states + 1);
    double *balance = BW_NEW(f->arena, double, 3 * f->n_nodes);
    size_of_loads *loads = BW_NEW(f->arena, size_of_loads, n_states);
    if (rhs == NULL || balance == NULL || loads == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < n_states; k++) {
        BW_TRY(bwi_state_update(states[k], balance));
        loads[k] = largest(f, balance, false);
        gather(f, balance, rhs + k * n);
    }
    if (n > 0) {
        bwi_band_solve(&f->system, rhs, (int)n_states);
    }
    for (size_t k = 0; k < n_states; k++) {
        BW_TRY(finish(states[k], rhs + k * n, balance, loads[k]));
    }
    return BW_OK;
}

/* ---- load cases ---- */

/* Loads as given -> pieces, threaded by member. */
static bw_status prepare_case(bw_frame *f, bwi_case *c, bw_diags *d)
{
    c->pieces = BW_NEW(f->arena, bwi_piece, c->n_raw);
    c->first = BW_NEW(f->arena, int, f->n_members);
    c->next = BW_NEW(f->arena, int, c->n_raw);
    if (c->pieces == NULL || c->first == NULL || c->next == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < f->n_members; k++) {
        c->first[k] = -1;
    }
    c->n_pieces = 0;
    for (size_t k = 0; k < c->n_raw; k++) {
        const bw_member_load *load = &c->raw[k];
        if (load->member < 0 || (size_t)load->member >= f->n_members ||
            !bwi_load_piece(f, load, &c->pieces[c->n_pieces])) {
            bw_diags_error(d, "frame.load", NULL, NULL,
                           "a load lies on no part of a member");
            continue;
        }
        c->next[c->n_pieces] = c->first[load->member];
        c->first[load->member] = (int)c->n_pieces++;
    }
    for (size_t k = 0; k < c->n_node_loads; k++) {
        const bwi_node_load *load = &c->node_loads[k];
        const double sum = load->force[0] + load->force[1] + load->force[2];
        if (load->node < 0 || (size_t)load->node >= f->n_nodes || !isfinite(sum)) {
            bw_diags_error(d, "frame.load", NULL, NULL,
                           "a load acts at no node of the frame, or is not finite");
        }
    }
    return BW_OK;
}

static bw_state *case_state(bw_frame *f, int load_case)
{
    bw_state *s = bwi_state_new(f, 1, 0, f->arena);
    if (s == NULL) {
        return NULL;
    }
    s->parts[0] = (bwi_part){load_case, 1.0};
    for (size_t k = 0; k < 3 * f->n_nodes && load_case == f->settle_case; k++) {
        const bwi_node *n = &f->nodes[k / 3];
        s->u[k] = n->fix[k % 3] ? n->settle[k % 3] : 0.0;
    }
    return s;
}

bw_status bw_frame_solve(bw_frame *f, bw_diags *d)
{
    if (!f->factored) {
        return BW_E_INTERNAL;
    }
    if (f->n_cases == 0) { /* settlements alone are a load case too */
        BW_TRY(bw_frame_load_self_weight(f, 0, 0.0));
    }
    bw_state **states = BW_NEW(f->arena, bw_state *, f->n_cases);
    if (states == NULL) {
        return BW_E_MEMORY;
    }
    const size_t errors_before = d->errors;
    size_t n = 0;
    for (size_t k = 0; k < f->n_cases; k++) {
        if (!f->cases[k].solved) {
            BW_TRY(prepare_case(f, &f->cases[k], d));
            f->cases[k].state = states[n++] = case_state(f, (int)k);
            if (f->cases[k].state == NULL) {
                return BW_E_MEMORY;
            }
        }
    }
    if (d->errors != errors_before) {
        return BW_E_INPUT;
    }
    BW_TRY(solve_states(f, states, n));
    for (size_t k = 0; k < n; k++) {
        if (!(states[k]->residual <= balance_limit)) {
            bw_diags_error(d, "frame.condition", NULL,
                           "check the sizes and moduli of its members",
                           "the solution does not balance its loads (to %.1e of them)",
                           states[k]->residual);
            return BW_E_CONDITION;
        }
        f->cases[states[k]->parts[0].load_case].solved = true;
    }
    return BW_OK;
}

bw_status bw_frame_solve_loads(bw_frame *f, const bw_member_load *loads, size_t n_loads,
                               bw_state **states, bw_arena *arena)
{
    if (!f->factored) {
        return BW_E_INTERNAL;
    }
    for (size_t k = 0; k < n_loads; k++) {
        states[k] = bwi_state_new(f, 0, 1, arena);
        if (states[k] == NULL) {
            return BW_E_MEMORY;
        }
        states[k]->extras[0].factor = 1.0;
        if (loads[k].member < 0 || (size_t)loads[k].member >= f->n_members ||
            !bwi_load_piece(f, &loads[k], &states[k]->extras[0].piece)) {
            return BW_E_INTERNAL;
        }
    }
    return solve_states(f, states, n_loads);
}
