/* The buried part of a post as a beam on lateral springs.
 *
 * Winkler soil: p = k(z) y per unit length, k = n_h z in gravel and sand, k constant in
 * clay. Terzaghi, Evaluation of coefficients of subgrade reaction, Geotechnique 5 (1955),
 * MEMORY: n_h 2.2 (loose) and 6.6 MN/m3 (medium dense) for dry sand; about 4.8 MN/m2 for
 * stiff clay, of which a third is taken for the firm clay round a hand-dug hole. Low
 * values are the cautious ones: a softer foot sways more and buckles sooner. The post
 * stands on the bottom of its hole. For the frame above, the buried part is a coupled
 * spring at the ground line: the inverse of its flexibility under a unit push and a unit
 * moment there. */
#include "internal.h"

#include <math.h>

/* Spring stiffness per unit length at the depth [N/m2]. */
static double lateral_modulus(bw_soil soil, double depth)
{
    static const double growth[BW_SOIL_COUNT] = {
        [BW_SOIL_GRAVEL] = 6.6e6, [BW_SOIL_SAND] = 2.2e6};
    return soil == BW_SOIL_CLAY ? 1.6e6 : growth[soil] * depth;
}

static bw_member post_piece(const bwi_plan *p, const bwi_post_place *place, double from,
                            double to)
{
    const bw_reference *r = &p->references[place->post->log];
    return (bw_member){.section_i = bw_section_round(bwi_post_diameter(p, place, from)),
                       .section_j = bw_section_round(bwi_post_diameter(p, place, to)),
                       .modulus = r->value[BW_MODULUS],
                       .shear_modulus = bw_shear_modulus(r->value[BW_MODULUS]),
                       .kappa = 0.9,
                       .name = place->post->name,
                       .case_path = place->post->case_path};
}

/* Spring of the stretch of soil that belongs to a node: k(z) over half a piece on each
 * side. */
static double node_spring(const bw_post *post, double depth, double piece)
{
    const double top = fmax(depth - piece / 2.0, 0.0);
    const double bottom = fmin(depth + piece / 2.0, post->hole_depth);
    return (bottom - top) * lateral_modulus(post->soil, (top + bottom) / 2.0);
}

static bw_status build(const bwi_plan *p, const bwi_post_place *place, bw_frame *f)
{
    const double piece = place->foot_depth / BWI_FOOT_PIECES;
    for (int k = 0; k <= BWI_FOOT_PIECES; k++) {
        const double depth = place->foot_depth - k * piece;
        const int node =
            bw_frame_add_node(f, 0.0, -depth, place->post->name, place->post->case_path);
        const bw_support soil = {
            .node = node,
            .fix = {false, k == 0, false},
            .spring = {node_spring(place->post, depth, piece), 0.0, 0.0},
            .case_path = place->post->case_path};
        if (node < 0 || bw_frame_add_support(f, &soil) != BW_OK) {
            return BW_E_MEMORY;
        }
        if (k > 0) {
            bw_member m = post_piece(p, place, -depth - piece, -depth);
            m.node_i = node - 1;
            m.node_j = node;
            if (bw_frame_add_member(f, &m) < 0) {
                return BW_E_MEMORY;
            }
        }
    }
    BW_TRY(bw_frame_load_node(f, 0, BWI_FOOT_PIECES, 1.0, 0.0, 0.0));
    return bw_frame_load_node(f, 1, BWI_FOOT_PIECES, 0.0, 0.0, 1.0);
}

/* Moments at the nodes, from the ground line down; members run from the bottom up. */
static void read_moments(const bw_state *s, double out[BWI_FOOT_PIECES + 1])
{
    double end[6] = {0.0};
    for (int k = 0; k < BWI_FOOT_PIECES; k++) {
        bw_state_ends(s, BWI_FOOT_PIECES - 1 - k, end);
        out[k] = end[5];
    }
    out[BWI_FOOT_PIECES] = end[2];
}

bw_status bwi_foot_make(const bwi_plan *p, size_t bent, const bw_post *post,
                        bwi_foot *out, bw_diags *d)
{
    *out = (bwi_foot){0};
    if (post->foot != BW_FOOT_HOLE) {
        return BW_OK;
    }
    const bwi_post_place place = bwi_plan_post(p, bent, post);
    out->depth = place.foot_depth;
    bw_frame *f = bw_frame_new(p->arena);
    if (f == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(build(p, &place, f));
    BW_TRY(bw_frame_factor(f, d));
    BW_TRY(bw_frame_solve(f, d));
    const bw_state *push = bw_frame_state(f, &(bw_part){0, 1.0}, 1, p->arena);
    const bw_state *turn = bw_frame_state(f, &(bw_part){1, 1.0}, 1, p->arena);
    if (push == NULL || turn == NULL) {
        return BW_E_MEMORY;
    }
    read_moments(push, out->push_moment);
    read_moments(turn, out->turn_moment);
    const bw_motion a = bw_state_displacement(push, BWI_FOOT_PIECES);
    const bw_motion b = bw_state_displacement(turn, BWI_FOOT_PIECES);
    const double mixed = (a.r + b.x) / 2.0; /* equal by reciprocity */
    const double det = a.x * b.r - mixed * mixed;
    out->k_xx = b.r / det;
    out->k_xr = -mixed / det;
    out->k_rr = a.x / det;
    return BW_OK;
}

double bwi_foot_moment(const bwi_foot *foot, double shear, double moment, int k)
{
    return shear * foot->push_moment[k] + moment * foot->turn_moment[k];
}

bw_status bwi_post_add(const bwi_plan *p, size_t bent, const bw_post *post,
                       const bwi_post_frame *where, const bwi_foot *foot, int *member)
{
    const bwi_post_place place = bwi_plan_post(p, bent, post);
    const char *name = bw_arena_print(p->arena, "the foot of post %s", post->name);
    const int node =
        bw_frame_add_node(where->frame, where->x, where->ground, name, post->case_path);
    if (node < 0 || name == NULL) {
        return BW_E_MEMORY;
    }
    const bool in_hole = post->foot == BW_FOOT_HOLE;
    const bw_support support = {.node = node,
                                .fix = {!in_hole, true, post->foot == BW_FOOT_FIXED},
                                .spring = {foot->k_xx, 0.0, foot->k_rr},
                                .spring_xr = foot->k_xr,
                                .case_path = post->case_path};
    BW_TRY(bw_frame_add_support(where->frame, &support));
    bw_member m = post_piece(p, &place, 0.0, where->top);
    m.node_i = node;
    m.node_j = where->top_node;
    m.hinge_j = where->hinge_top;
    m.density = p->deck->logs[post->log].species->green_density.value;
    m.name = bw_arena_print(p->arena, "post %s", post->name);
    *member = bw_frame_add_member(where->frame, &m);
    return *member >= 0 && m.name != NULL ? BW_OK : BW_E_MEMORY;
}
