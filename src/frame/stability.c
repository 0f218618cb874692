/* K(lambda) of a frame whose members carry lambda times the axial forces of a state.
 *
 * The number of critical factors below lambda is that of the negative pivots of K(lambda)
 * plus that of the critical factors of single parts with held nodes (Wittrick and
 * Williams, Q. J. Mech. Appl. Math. 24, 1971, MEMORY). Parts so short that even with
 * pinned ends and the worst of their forces and sections none of them buckles leave only
 * the pivots: then the frame stands exactly if Cholesky goes through. */
#include "stability.h"
#include "poly.h"
#include "quadrature.h"

#include <math.h>
#include <string.h>

/* A pinned part buckles at sqrt(N g/EI) h = pi; less, as the worst is looked for at a few
 * places only. A member that needs more parts than the most is taken not to stand. */
static const double waves_per_part = 0.75 * BWI_PI;
enum { CUTS_MAX = 64 };

/* ---- the fine frame: only its numbering is used ---- */

static int add_between(bwi_columns *c, const bwi_member *m, double t)
{
    const bwi_node *a = &c->frame->nodes[m->m.node_i], *b = &c->frame->nodes[m->m.node_j];
    return bw_frame_add_node(c->fine, a->x + t * (b->x - a->x), a->y + t * (b->y - a->y),
                             m->m.name, m->m.case_path);
}

static bw_status cut_member(bwi_columns *c, int member, int n_cuts)
{
    const bwi_member *m = &c->frame->members[member];
    int node = m->m.node_i;
    for (int k = 0; k < n_cuts; k++) {
        const double a = (double)k / n_cuts, b = (double)(k + 1) / n_cuts;
        const int next = k + 1 < n_cuts ? add_between(c, m, b) : m->m.node_j;
        bw_member piece = m->m;
        piece.node_i = node;
        piece.node_j = next;
        piece.section_i = bw_section_between(&m->m.section_i, &m->m.section_j, a);
        piece.section_j = bw_section_between(&m->m.section_i, &m->m.section_j, b);
        piece.hinge_i = m->m.hinge_i && k == 0;
        piece.hinge_j = m->m.hinge_j && k + 1 == n_cuts;
        piece.slides = m->m.slides && k + 1 == n_cuts;
        piece.turn_spring_i = k == 0 ? m->m.turn_spring_i : 0.0;
        piece.turn_spring_j = k + 1 == n_cuts ? m->m.turn_spring_j : 0.0;
        if (next < 0 || bw_frame_add_member(c->fine, &piece) < 0) {
            return BW_E_MEMORY;
        }
        c->parts[c->n_parts++] =
            (bwi_part_column){member, node, next, a * m->length, b * m->length, 0.0};
        node = next;
    }
    return BW_OK;
}

/* Cuts every member into its number of parts, anew. */
static bw_status make_fine(bwi_columns *c)
{
    const bw_frame *f = c->frame;
    size_t n_parts = 0;
    for (size_t k = 0; k < f->n_members; k++) {
        n_parts += (size_t)c->cuts[k];
    }
    c->fine = bw_frame_new(c->arena);
    c->parts = BW_NEW(c->arena, bwi_part_column, n_parts);
    c->n_parts = 0;
    c->made++;
    if (c->fine == NULL || c->parts == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < f->n_nodes; k++) {
        const bwi_node *n = &f->nodes[k];
        if (bw_frame_add_node(c->fine, n->x, n->y, n->name, n->case_path) < 0) {
            return BW_E_MEMORY;
        }
    }
    for (size_t k = 0; k < f->n_supports; k++) {
        BW_TRY(bw_frame_add_support(c->fine, &f->supports[k]));
    }
    for (size_t k = 0; k < f->n_members; k++) {
        BW_TRY(cut_member(c, (int)k, c->cuts[k]));
    }
    bw_diags unused = bw_diags_new(f->arena, NULL);
    BW_TRY(bwi_frame_prepare(c->fine, &unused));
    for (size_t k = 0; k < c->n_parts; k++) {
        const double ka = c->fine->members[k].ka;
        c->parts[k].elongation = ka > 0.0 ? 1.0 / ka : 0.0;
    }
    c->system = c->fine->system;
    const size_t n = (size_t)c->system.n, rows = (size_t)c->system.half_band + 1;
    c->system.band = BW_NEW(c->arena, double, n *rows + 1);
    c->system.scale = BW_NEW(c->arena, double, n + 1);
    return c->system.band != NULL && c->system.scale != NULL ? BW_OK : BW_E_MEMORY;
}

/* End actions are those beyond loads right at the ends, the line is between them. */
static void fill_jumps(const bw_line *line, const double end[6], double jumps[2][2])
{
    const bwi_segment *a = &line->segments[0], *b = &line->segments[line->n - 1];
    const double h = b->to - b->from;
    jumps[0][0] = a->V[0] - end[1];
    jumps[0][1] = a->M[0] - end[2];
    jumps[1][0] = end[4] - bwi_poly_value(b->V, 3, h);
    jumps[1][1] = end[5] - bwi_poly_value(b->M, 4, h);
}

static bw_status start(bw_frame *f, int n_cuts, bw_arena *arena, bwi_columns *out)
{
    *out = (bwi_columns){.arena = arena, .frame = f};
    out->lines = BW_NEW(arena, bw_line, f->n_members);
    out->shift = BW_NEW(arena, double, f->n_members);
    out->cuts = BW_NEW(arena, int, f->n_members);
    out->jumps = bw_arena_alloc_array(arena, f->n_members, sizeof *out->jumps);
    if (out->lines == NULL || out->shift == NULL || out->cuts == NULL ||
        out->jumps == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < f->n_members; k++) {
        out->cuts[k] = n_cuts;
    }
    bwi_collocation_fill(&out->gauss);
    return make_fine(out);
}

bw_status bwi_columns_make(bw_frame *f, const bw_state *s, int n_cuts, bw_arena *arena,
                           bwi_columns *out)
{
    BW_TRY(start(f, n_cuts, arena, out));
    for (size_t k = 0; k < f->n_members; k++) {
        out->lines[k] = bw_state_line(s, (int)k, arena);
        if (out->lines[k].n == 0) {
            return BW_E_MEMORY;
        }
        fill_jumps(&out->lines[k], s->end[k], out->jumps[k]);
    }
    return BW_OK;
}

bw_status bwi_columns_pressed(bw_frame *f, const double *press, bw_arena *arena,
                              bwi_columns *out)
{
    BW_TRY(start(f, 1, arena, out));
    for (size_t k = 0; k < f->n_members; k++) {
        bwi_segment *all = BW_NEW(arena, bwi_segment, 1);
        if (all == NULL) {
            return BW_E_MEMORY;
        }
        all->to = f->members[k].length;
        all->N[0] = -press[k];
        out->lines[k] = (bw_line){f, (int)k, all, 1};
    }
    return BW_OK;
}

/* ---- does it stand? ---- */

/* Parts that the member needs at the scale; 0: more than it may have. */
static int cuts_needed(const bwi_columns *c, size_t member, double scale)
{
    const bwi_column column = {.gauss = &c->gauss,
                               .m = &c->frame->members[member],
                               .line = c->lines[member],
                               .scale = scale,
                               .shift = scale * c->shift[member]};
    const double n = 1.0 + bwi_column_waves(&column) / waves_per_part;
    return n <= CUTS_MAX ? (int)n : 0;
}

/* Cuts members further where they need it; false if one would need too many parts. */
static bw_status cut_enough(bwi_columns *c, double scale, bool *possible)
{
    bool enough = true;
    *possible = true;
    for (size_t k = 0; k < c->frame->n_members && *possible; k++) {
        const int needed = cuts_needed(c, k, scale);
        enough = enough && needed <= c->cuts[k];
        *possible = needed > 0;
    }
    if (enough || !*possible) {
        return BW_OK;
    }
    for (size_t k = 0; k < c->frame->n_members; k++) {
        const int needed = cuts_needed(c, k, scale);
        c->cuts[k] = needed > c->cuts[k] ? needed : c->cuts[k];
    }
    return make_fine(c);
}

bw_status bwi_columns_stand(bwi_columns *c, double scale, bool *out)
{
    bool possible;
    *out = false;
    BW_TRY(cut_enough(c, scale, &possible));
    if (!possible) {
        return BW_OK;
    }
    bwi_columns_assemble(c, scale, c->system.band);
    const bw_status status = c->system.n > 0 ? bwi_band_factor(&c->system) : BW_OK;
    *out = status == BW_OK;
    return status == BW_E_MECHANISM ? BW_OK : status;
}

bwi_column bwi_columns_part(const bwi_columns *c, size_t part, double scale, bool loaded)
{
    const bwi_part_column *p = &c->parts[part];
    return (bwi_column){.gauss = &c->gauss,
                        .m = &c->frame->members[p->member],
                        .line = c->lines[p->member],
                        .scale = scale,
                        .shift = scale * c->shift[p->member],
                        .loaded = loaded,
                        .jumps = (const double(*)[2])c->jumps[p->member],
                        .from = p->from,
                        .to = p->to};
}

/* ---- assembly ---- */

/* Local stiffness over u, v, r of both ends. */
static void local_stiffness(const bwi_columns *c, size_t part, double scale,
                            double K[6][6])
{
    static const int place[4] = {1, 2, 4, 5};
    const bwi_part_column *p = &c->parts[part];
    const bwi_column column = bwi_columns_part(c, part, scale, false);
    const double L = c->frame->members[p->member].length;
    const bwi_column_stiffness k = bwi_column_joined(&column, p->from == 0.0, p->to == L);
    memset(K, 0, 6 * sizeof *K);
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 4; j++) {
            K[place[i]][place[j]] = k.K[i][j];
        }
    }
    const double ka = p->elongation > 0.0 ? 1.0 / p->elongation : 0.0;
    K[0][0] = K[3][3] = ka;
    K[0][3] = K[3][0] = -ka;
}

/* Local axes -> axes of a node: rows of the turn for one end. */
static void end_turn(const bwi_member *m, const bwi_node *n, double R[2][2])
{
    const double c = m->cosine * n->cosine + m->sine * n->sine;
    const double s = m->sine * n->cosine - m->cosine * n->sine;
    R[0][0] = c;
    R[0][1] = s;
    R[1][0] = -s;
    R[1][1] = c;
}

/* K <- Q' K Q with Q turning both ends. */
static void turn_stiffness(const bwi_columns *c, const bwi_part_column *p, double K[6][6])
{
    const bwi_member *m = &c->frame->members[p->member];
    for (int end = 0; end < 2; end++) {
        double R[2][2];
        const int o = 3 * end;
        end_turn(m, &c->fine->nodes[end == 0 ? p->node_i : p->node_j], R);
        for (int k = 0; k < 6; k++) {
            const double a = K[k][o], b = K[k][o + 1];
            K[k][o] = a * R[0][0] + b * R[1][0];
            K[k][o + 1] = a * R[0][1] + b * R[1][1];
        }
        for (int k = 0; k < 6; k++) {
            const double a = K[o][k], b = K[o + 1][k];
            K[o][k] = a * R[0][0] + b * R[1][0];
            K[o + 1][k] = a * R[0][1] + b * R[1][1];
        }
    }
}

static void add(const bwi_system *s, double *band, int p, int q, double value)
{
    if (p >= 0 && q >= 0 && p >= q) {
        band[(size_t)q * ((size_t)s->half_band + 1) + (size_t)(p - q)] += value;
    }
}

void bwi_columns_assemble(const bwi_columns *c, double scale, double *band)
{
    const bwi_system *s = &c->system;
    memset(band, 0, ((size_t)s->half_band + 1) * (size_t)s->n * sizeof *band);
    for (size_t part = 0; part < c->n_parts; part++) {
        double K[6][6];
        local_stiffness(c, part, scale, K);
        turn_stiffness(c, &c->parts[part], K);
        const int *a = c->fine->nodes[c->parts[part].node_i].equation;
        const int *b = c->fine->nodes[c->parts[part].node_j].equation;
        for (int i = 0; i < 36; i++) {
            const int p = i / 6, q = i % 6;
            add(s, band, p < 3 ? a[p] : b[p - 3], q < 3 ? a[q] : b[q - 3], K[p][q]);
        }
    }
    for (size_t k = 0; k < c->fine->n_nodes; k++) {
        const bwi_node *n = &c->fine->nodes[k];
        for (int j = 0; j < 3; j++) {
            add(s, band, n->equation[j], n->equation[j], n->spring[j]);
        }
        add(s, band, n->equation[2], n->equation[0], n->spring_xr);
    }
}
