/* A bent as a plane frame across the deck: its posts and the cap over them, the posts
 * hinged to the cap. Load cases: its own weight, and a unit force down at every row. */
#include "internal.h"

#include <math.h>

static size_t insert_place(double *at, size_t n, double across)
{
    size_t k = n;
    while (k > 0 && at[k - 1] > across) {
        k--;
    }
    if ((k > 0 && across - at[k - 1] < 1e-3) || (k < n && at[k] - across < 1e-3)) {
        return n;
    }
    for (size_t j = n; j > k; j--) {
        at[j] = at[j - 1];
    }
    at[k] = across;
    return n + 1;
}

static size_t nearest(const double *at, size_t n, double across)
{
    size_t best = 0;
    for (size_t k = 1; k < n; k++) {
        if (fabs(at[k] - across) < fabs(at[best] - across)) {
            best = k;
        }
    }
    return best;
}

/* Height of the joint above ground: the cap's axis, or the stringer's where there is no
 * cap. */
static double joint_height(const bwi_plan *p, size_t bent, double across, int row)
{
    return p->deck->bents[bent].cap >= 0
               ? p->cap_top[bent] - bwi_cap_diameter(p, bent, across) / 2.0
               : bwi_row_height(p, row, bent);
}

static bw_status add_nodes(const bwi_plan *p, bwi_bent_frame *f)
{
    const bw_bent *b = &p->deck->bents[f->bent];
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        if (bwi_row_meets_bent(p, (int)r, f->bent) || bwi_post_of_row(b, (int)r) >= 0) {
            f->n_nodes =
                insert_place(f->node_across, f->n_nodes, p->deck->rows[r].across);
        }
    }
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        f->row_node[r] =
            bwi_row_meets_bent(p, (int)r, f->bent)
                ? (int)nearest(f->node_across, f->n_nodes, p->deck->rows[r].across)
                : -1;
    }
    for (size_t k = 0; k < f->n_nodes; k++) {
        int row = 0;
        for (size_t r = 0; r < p->deck->n_rows; r++) {
            row = f->row_node[r] == (int)k ? (int)r : row;
        }
        const char *name = bw_arena_print(
            p->arena, "%s of bent %s", b->cap >= 0 ? "the cap" : "a post top", b->name);
        f->node[k] = bw_frame_add_node(f->frame, f->node_across[k],
                                       joint_height(p, f->bent, f->node_across[k], row),
                                       name, b->case_path);
        if (f->node[k] < 0 || name == NULL) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}

static bw_status add_cap(const bwi_plan *p, bwi_bent_frame *f)
{
    const bw_bent *b = &p->deck->bents[f->bent];
    for (size_t k = 0; k + 1 < f->n_nodes; k++) {
        f->cap_member[k] = -1;
        if (b->cap < 0) {
            continue;
        }
        const bw_reference *r = &p->references[b->cap];
        const double d_i = bwi_cap_diameter(p, f->bent, f->node_across[k]);
        const double d_j = bwi_cap_diameter(p, f->bent, f->node_across[k + 1]);
        const bw_member m = {.node_i = f->node[k],
                             .node_j = f->node[k + 1],
                             .section_i = bw_section_round(d_i),
                             .section_j = bw_section_round(d_j),
                             .modulus = r->value[BW_MODULUS],
                             .shear_modulus = bw_shear_modulus(r->value[BW_MODULUS]),
                             .kappa = 0.9,
                             .density =
                                 p->deck->logs[b->cap].species->green_density.value,
                             .name = bw_arena_print(p->arena, "cap of bent %s", b->name),
                             .case_path = b->case_path};
        f->cap_member[k] = bw_frame_add_member(f->frame, &m);
        if (f->cap_member[k] < 0 || m.name == NULL) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}

static bw_status add_posts(const bwi_plan *p, bwi_bent_frame *f, bw_diags *d)
{
    const bw_bent *b = &p->deck->bents[f->bent];
    for (size_t k = 0; k < b->n_posts; k++) {
        const bw_post *post = &b->posts[k];
        const double across = p->deck->rows[post->row].across;
        const size_t place = nearest(f->node_across, f->n_nodes, across);
        BW_TRY(bwi_foot_make(p, f->bent, post, &f->feet[k], d));
        const bwi_post_frame where = {
            .frame = f->frame,
            .x = across,
            .top = joint_height(p, f->bent, f->node_across[place], post->row),
            .top_node = f->node[place],
            .hinge_top = b->cap >= 0 && f->n_nodes > 1};
        BW_TRY(bwi_post_add(p, f->bent, post, &where, &f->feet[k], &f->post_member[k]));
    }
    return BW_OK;
}

static bw_status add_loads(const bwi_plan *p, bwi_bent_frame *f)
{
    BW_TRY(bw_frame_load_self_weight(f->frame, 0, 1.0));
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        const int node = f->row_node[r] >= 0 ? f->node[f->row_node[r]] : f->node[0];
        const double force = f->row_node[r] >= 0 ? -1.0 : 0.0;
        BW_TRY(bw_frame_load_node(f->frame, 1 + (int)r, node, 0.0, force, 0.0));
    }
    return BW_OK;
}

bw_status bwi_bent_frame_make(const bwi_plan *p, size_t bent, bwi_bent_frame *out,
                              bw_diags *d)
{
    const bw_bent *b = &p->deck->bents[bent];
    const size_t n = p->deck->n_rows;
    *out = (bwi_bent_frame){.frame = bw_frame_new(p->arena), .bent = bent};
    out->node_across = BW_NEW(p->arena, double, n + 1);
    out->node = BW_NEW(p->arena, int, n + 1);
    out->cap_member = BW_NEW(p->arena, int, n + 1);
    out->post_member = BW_NEW(p->arena, int, b->n_posts);
    out->feet = BW_NEW(p->arena, bwi_foot, b->n_posts);
    out->row_node = BW_NEW(p->arena, int, n);
    if (out->frame == NULL || out->node_across == NULL || out->node == NULL ||
        out->cap_member == NULL || out->post_member == NULL || out->feet == NULL ||
        out->row_node == NULL) {
        return BW_E_MEMORY;
    }
    bw_frame_name_directions(out->frame, "sideways", "up and down");
    BW_TRY(add_nodes(p, out));
    BW_TRY(add_cap(p, out));
    BW_TRY(add_posts(p, out, d));
    BW_TRY(add_loads(p, out));
    BW_TRY(bw_frame_factor(out->frame, d));
    return bw_frame_solve(out->frame, d);
}
