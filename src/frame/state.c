/* States: displacements, the actions at the ends of every member, and what is out of
 * balance. */
#include "internal.h"
#include "poly.h"

#include <math.h>

bw_state *bwi_state_new(bw_frame *f, size_t n_parts, size_t n_extras, bw_arena *arena)
{
    bw_state *s = BW_NEW(arena, bw_state, 1);
    if (s == NULL) {
        return NULL;
    }
    *s = (bw_state){.frame = f, .arena = arena, .n_parts = n_parts, .n_extras = n_extras};
    s->parts = BW_NEW(arena, bwi_part, n_parts);
    s->extras = BW_NEW(arena, bwi_extra, n_extras);
    s->u = BW_NEW(arena, double, 3 * f->n_nodes);
    s->u_low = BW_NEW(arena, double, 3 * f->n_nodes);
    s->end = bw_arena_alloc_array(arena, f->n_members, sizeof *s->end);
    return s->parts == NULL || s->extras == NULL || s->u == NULL || s->u_low == NULL ||
                   s->end == NULL
               ? NULL
               : s;
}

/* ---- loads of a state ---- */

static size_t count_pieces(const bw_state *s, int member)
{
    size_t n = 0;
    for (size_t k = 0; k < s->n_parts; k++) {
        const bwi_case *c = &s->frame->cases[s->parts[k].load_case];
        n += c->self_weight != 0.0 ? bwi_self_weight_count(s->frame, member) : 0;
        for (int p = c->first[member]; p >= 0; p = c->next[p]) {
            n++;
        }
    }
    for (size_t k = 0; k < s->n_extras; k++) {
        n += s->extras[k].piece.member == member ? 1 : 0;
    }
    return n;
}

bool bwi_state_pieces(const bw_state *s, int member, bw_arena *arena,
                      const bwi_extra **pieces, size_t *n)
{
    *n = 0;
    *pieces = NULL;
    const size_t room = count_pieces(s, member);
    bwi_extra *out = room > 0 ? BW_NEW(arena, bwi_extra, room) : NULL;
    if (out == NULL) {
        return room == 0;
    }
    for (size_t k = 0; k < s->n_parts; k++) {
        const bwi_case *c = &s->frame->cases[s->parts[k].load_case];
        const double factor = s->parts[k].factor;
        if (c->self_weight != 0.0) {
            bwi_piece own[BWI_WEIGHT_PIECES_MAX];
            const size_t count =
                bwi_self_weight_pieces(s->frame, member, c->self_weight, own);
            for (size_t j = 0; j < count; j++) {
                out[(*n)++] = (bwi_extra){own[j], factor};
            }
        }
        for (int p = c->first[member]; p >= 0; p = c->next[p]) {
            out[(*n)++] = (bwi_extra){c->pieces[p], factor};
        }
    }
    for (size_t k = 0; k < s->n_extras; k++) {
        if (s->extras[k].piece.member == member) {
            out[(*n)++] = s->extras[k];
        }
    }
    *pieces = out;
    return true;
}

/* ---- deformations with twice the digits ---- */

typedef struct {
    double high, low;
} pair;

/* sum + a * b without the rounding of either (Dekker, Numer. Math. 18, 1971; MEMORY). */
static pair add_product(pair sum, double a, double b)
{
    const double product = a * b, lost = fma(a, b, -product);
    const double total = sum.high + product, part = total - sum.high;
    const double slip = (sum.high - (total - part)) + (product - part);
    return (pair){total, sum.low + lost + slip};
}

static void deformation(const bw_state *s, int member, double out[3])
{
    const bw_member *m = &s->frame->members[member].m;
    double B[3][6];
    bwi_element_rows(s->frame, member, B);
    for (int row = 0; row < 3; row++) {
        pair sum = {0.0, 0.0};
        for (int k = 0; k < 6; k++) {
            const int node = k < 3 ? m->node_i : m->node_j;
            const size_t at = 3 * (size_t)node + (size_t)(k % 3);
            sum = add_product(sum, B[row][k], s->u[at]);
            sum.low += B[row][k] * s->u_low[at];
        }
        out[row] = sum.high + sum.low;
    }
}

/* ---- balance ---- */

/* Actions from the deformations, on top of those of the held member under its loads. */
static bw_status end_actions(bw_state *s, int member)
{
    const bwi_member *m = &s->frame->members[member];
    const bw_arena_mark mark = bw_arena_now(s->frame->arena);
    size_t n = 0;
    const bwi_extra *pieces = NULL;
    double a[3], fixed[3] = {0.0, 0.0, 0.0};
    deformation(s, member, a);
    const bool known = bwi_state_pieces(s, member, s->frame->arena, &pieces, &n);
    const bool sound =
        known && (n == 0 || bwi_element_fixed(m, pieces, n, s->frame->arena, fixed));
    bwi_element_ends(m, fixed[0] + m->ka * a[0], fixed[1] + m->k11 * a[1] + m->k12 * a[2],
                     fixed[2] + m->k12 * a[1] + m->k22 * a[2], pieces, n, s->end[member]);
    bw_arena_back(s->frame->arena, mark);
    return sound ? BW_OK : BW_E_MEMORY;
}

void bwi_state_nodal(const bw_state *s, int node, double factor, double *out)
{
    const bwi_node *n = &s->frame->nodes[node];
    for (size_t k = 0; k < s->n_parts; k++) {
        const bwi_case *c = &s->frame->cases[s->parts[k].load_case];
        for (size_t j = 0; j < c->n_node_loads; j++) {
            if (c->node_loads[j].node == node) {
                const double *force = c->node_loads[j].force,
                             p = factor * s->parts[k].factor;
                out[0] += p * (n->cosine * force[0] + n->sine * force[1]);
                out[1] += p * (n->cosine * force[1] - n->sine * force[0]);
                out[2] += p * force[2];
            }
        }
    }
}

bw_status bwi_state_update(bw_state *s, double *balance)
{
    const bw_frame *f = s->frame;
    for (size_t k = 0; k < f->n_members; k++) {
        BW_TRY(end_actions(s, (int)k));
    }
    bwi_state_balance(s, balance);
    return BW_OK;
}

void bwi_state_balance(const bw_state *s, double *balance)
{
    const bw_frame *f = s->frame;
    for (size_t k = 0; k < 3 * f->n_nodes; k++) {
        const bwi_node *n = &f->nodes[k / 3];
        const double other = k % 3 == 0 ? s->u[k + 2] : k % 3 == 2 ? s->u[k - 2] : 0.0;
        balance[k] = -n->spring[k % 3] * s->u[k] - n->spring_xr * other;
    }
    for (size_t k = 0; k < f->n_members; k++) {
        double push[6];
        bwi_element_push(f, (int)k, s->end[k], push);
        for (size_t j = 0; j < 6; j++) {
            const int node = j < 3 ? f->members[k].m.node_i : f->members[k].m.node_j;
            balance[3 * (size_t)node + j % 3] += push[j];
        }
    }
    for (size_t k = 0; k < f->n_nodes; k++) {
        bwi_state_nodal(s, (int)k, 1.0, balance + 3 * k);
    }
}

/* ---- sums of states ---- */

static void add_scaled(bw_state *sum, double factor, const bw_state *s)
{
    const bw_frame *f = sum->frame;
    for (size_t k = 0; k < 3 * f->n_nodes; k++) {
        sum->u[k] += factor * s->u[k];
        sum->u_low[k] += factor * s->u_low[k];
    }
    for (size_t k = 0; k < f->n_members; k++) {
        for (int j = 0; j < 6; j++) {
            sum->end[k][j] += factor * s->end[k][j];
        }
    }
    sum->residual = bwi_larger(sum->residual, s->residual);
}

bw_state *bw_frame_state(bw_frame *f, const bw_part *parts, size_t n_parts,
                         bw_arena *arena)
{
    bw_state *s = bwi_state_new(f, n_parts, 0, arena);
    for (size_t k = 0; s != NULL && k < n_parts; k++) {
        const int load_case = parts[k].load_case;
        if (load_case < 0 || (size_t)load_case >= f->n_cases ||
            !f->cases[load_case].solved) {
            return NULL;
        }
        s->parts[k] = (bwi_part){load_case, parts[k].factor};
        add_scaled(s, parts[k].factor, f->cases[load_case].state);
    }
    return s;
}

bw_state *bw_state_add(const bw_state *a, double factor, const bw_state *b,
                       bw_arena *arena)
{
    bw_state *s = bwi_state_new(a->frame, a->n_parts + b->n_parts,
                                a->n_extras + b->n_extras, arena);
    if (s == NULL) {
        return NULL;
    }
    for (size_t k = 0; k < s->n_parts; k++) {
        s->parts[k] = k < a->n_parts ? a->parts[k] : b->parts[k - a->n_parts];
        s->parts[k].factor *= k < a->n_parts ? 1.0 : factor;
    }
    for (size_t k = 0; k < s->n_extras; k++) {
        s->extras[k] = k < a->n_extras ? a->extras[k] : b->extras[k - a->n_extras];
        s->extras[k].factor *= k < a->n_extras ? 1.0 : factor;
    }
    add_scaled(s, 1.0, a);
    add_scaled(s, factor, b);
    return s;
}
