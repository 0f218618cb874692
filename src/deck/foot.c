/* The buried part of a post as a beam on lateral springs.
 *
 * Winkler soil: p = k(z) y per unit length, k = n_h z in gravel and sand, k constant in
 * clay; the values and their sources are those of the table of soils. The post stands on
 * the bottom of its hole. For the frame above, the buried part is a coupled spring at the
 * ground line: the inverse of its flexibility under a unit push and a unit moment there.
 */
#include "internal.h"

#include <math.h>

/* Spring stiffness per unit length at the depth [N/m2]. */
static double lateral_modulus(const bw_soil_values *soil, double depth)
{
    return soil->modulus.value + soil->modulus_growth.value * depth;
}

static bw_member post_piece(const bwi_plan *p, const bwi_post_place *place, double from,
                            double to)
{
    const bw_reference *r = &p->references[place->post->log];
    bw_section section[2];
    bwi_post_sections(p, place, from, to, section);
    return (bw_member){.section_i = section[0],
                       .section_j = section[1],
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
    const bw_soil_values soil = bw_soil_find(post->soil);
    return (bottom - top) * lateral_modulus(&soil, (top + bottom) / 2.0);
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

static bw_status work_out(const bwi_plan *p, const bwi_post_place *place, bwi_foot *out,
                          bw_diags *d)
{
    const bw_post *post = place->post;
    const bw_soil_values soil = bw_soil_find(post->soil);
    if (!(lateral_modulus(&soil, 1.0) > 0.0)) {
        bw_diags_error(d, "deck.soil", post->case_path, "say which soil it stands in",
                       "post %s stands in a hole in %s", post->name,
                       bw_soil_name(post->soil));
        return BW_E_INPUT;
    }
    out->depth = place->foot_depth;
    bw_frame *f = bw_frame_new(p->arena);
    if (f == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(build(p, place, f));
    BW_TRY(bw_frame_factor(f, d));
    BW_TRY(bw_frame_solve(f, d));
    const bw_state *push = bw_frame_state(f, &(bw_part){0, 1.0}, 1, p->arena);
    const bw_state *turn = bw_frame_state(f, &(bw_part){1, 1.0}, 1, p->arena);
    if (push == NULL || turn == NULL) {
        return BW_E_MEMORY;
    }
    read_moments(push, out->push_moment);
    read_moments(turn, out->turn_moment);
    for (int k = 0; k <= BWI_FOOT_PIECES; k++) {
        const double depth = out->depth * k / BWI_FOOT_PIECES;
        const bw_section s = bwi_post_section(p, place, -depth);
        out->per_modulus[k] = 1.0 / bw_section_modulus_any(&s);
    }
    const bw_motion a = bw_state_displacement(push, BWI_FOOT_PIECES);
    const bw_motion b = bw_state_displacement(turn, BWI_FOOT_PIECES);
    const double mixed = (a.r + b.x) / 2.0; /* equal by reciprocity */
    const double det = a.x * b.r - mixed * mixed;
    out->k_xx = b.r / det;
    out->k_xr = -mixed / det;
    out->k_rr = a.x / det;
    return BW_OK;
}

static bool is_buried_alike(const bwi_kept_foot *kept, const bwi_post_place *place)
{
    const bw_post *a = &kept->post, *b = place->post;
    return a->log == b->log && a->tip_down == b->tip_down && a->soil == b->soil &&
           a->hole_depth == b->hole_depth && kept->top == place->top &&
           kept->depth == place->foot_depth;
}

static const bwi_kept_foot *find_kept(const bwi_plan *p, const bwi_post_place *place)
{
    for (size_t k = 0; k < p->feet->n; k++) {
        if (is_buried_alike(&p->feet->kept[k], place)) {
            return &p->feet->kept[k];
        }
    }
    return NULL;
}

bw_status bwi_foot_make(const bwi_plan *p, size_t bent, const bw_post *post,
                        bwi_foot *out, bw_diags *d)
{
    *out = (bwi_foot){0};
    if (post->foot != BW_FOOT_HOLE) {
        return BW_OK;
    }
    const bwi_post_place place = bwi_plan_post(p, bent, post);
    const bwi_kept_foot *kept = find_kept(p, &place);
    if (kept != NULL) {
        *out = kept->foot;
        return BW_OK;
    }
    return work_out(p, &place, out, d);
}

/* A foot that cannot be worked out is told with its frame, and not kept. */
static bw_status keep_foot(const bwi_plan *p, size_t bent, const bw_post *post)
{
    const bwi_post_place place = bwi_plan_post(p, bent, post);
    if (post->foot != BW_FOOT_HOLE || find_kept(p, &place) != NULL) {
        return BW_OK;
    }
    bwi_kept_foot *kept = &p->feet->kept[p->feet->n];
    bw_diags unused = bw_diags_new(p->arena, NULL);
    *kept = (bwi_kept_foot){.post = *post, .top = place.top, .depth = place.foot_depth};
    const bw_status status = work_out(p, &place, &kept->foot, &unused);
    p->feet->n += status == BW_OK ? 1 : 0;
    return status == BW_E_MEMORY ? status : BW_OK;
}

bw_status bwi_feet_start(bwi_plan *p)
{
    size_t n_posts = 0;
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        n_posts += p->deck->bents[bent].n_posts;
    }
    bwi_kept_foot *kept = BW_NEW(p->arena, bwi_kept_foot, n_posts);
    p->feet = BW_NEW(p->arena, bwi_feet, 1);
    if (kept == NULL || p->feet == NULL) {
        return BW_E_MEMORY;
    }
    *p->feet = (bwi_feet){.kept = kept};
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        for (size_t k = 0; k < p->deck->bents[bent].n_posts; k++) {
            BW_TRY(keep_foot(p, bent, &p->deck->bents[bent].posts[k]));
        }
    }
    return BW_OK;
}

double bwi_foot_moment(const bwi_foot *foot, double shear, double moment, int k)
{
    return shear * foot->push_moment[k] + moment * foot->turn_moment[k];
}

/* ---- the post above ground ---- */

/* Heights at which braces of the frame's plane meet the post, with the ground and the
 * joint, ascending and unlike. False if there are too many. */
static bool cut_heights(const bwi_plan *p, size_t bent, const bw_post *post,
                        const bwi_post_frame *where, bwi_chain *c)
{
    c->n = 1;
    c->at[0] = 0.0;
    c->at[1] = where->top;
    const double least = 0.005; /* nearer than that to another cut it is the same place */
    for (size_t k = 0; k < 2 * p->deck->n_braces; k++) {
        const bw_brace *b = &p->deck->braces[k / 2];
        const bw_brace_end *end = k % 2 == 0 ? &b->from : &b->to;
        if (end->on_cap || end->on_stringer || end->bent != (int)bent ||
            end->row != post->row || bwi_brace_is_along(b) != where->along ||
            where->slack[k / 2] || bwi_chain_node(c, end->height) >= 0) {
            continue;
        }
        int place = 1;
        while (c->at[place] < end->height) {
            place++;
            if (place > c->n) {
                break;
            }
        }
        if (place > c->n || c->at[place] - end->height < least ||
            end->height - c->at[place - 1] < least) {
            continue; /* at the joint, or above it: the brace goes to the joint */
        }
        if (c->n == BWI_CHAIN_MAX) {
            return false;
        }
        c->n++;
        for (int j = c->n; j > place; j--) {
            c->at[j] = c->at[j - 1];
        }
        c->at[place] = end->height;
    }
    return true;
}

static bw_status add_foot_node(const bwi_plan *p, const bw_post *post,
                               const bwi_post_frame *where, const bwi_foot *foot,
                               int *node)
{
    const char *name = bw_arena_print(p->arena, "the foot of post %s", post->name);
    *node = bw_frame_add_node(where->frame, where->x, 0.0, name, post->case_path);
    const bool in_hole = post->foot == BW_FOOT_HOLE;
    const bw_support support = {.node = *node,
                                .fix = {!in_hole, true, post->foot == BW_FOOT_FIXED},
                                .spring = {foot->k_xx, 0.0, foot->k_rr},
                                .spring_xr = foot->k_xr,
                                .case_path = post->case_path};
    if (*node < 0 || name == NULL) {
        return BW_E_MEMORY;
    }
    return bw_frame_add_support(where->frame, &support);
}

bw_status bwi_post_add(const bwi_plan *p, size_t bent, const bw_post *post,
                       const bwi_post_frame *where, const bwi_foot *foot, bwi_chain *out,
                       bw_diags *d)
{
    const bwi_post_place place = bwi_plan_post(p, bent, post);
    if (!cut_heights(p, bent, post, where, out)) {
        bw_diags_error(d, "deck.braces", post->case_path, "let some of them meet",
                       "more than %d braces end on post %s", BWI_CHAIN_MAX - 1,
                       post->name);
        return BW_E_INPUT;
    }
    BW_TRY(add_foot_node(p, post, where, foot, &out->node[0]));
    out->hinge_top = where->hinge_top;
    const char *name = bw_arena_print(p->arena, "post %s", post->name);
    for (int k = 0; k < out->n; k++) {
        const bool last = k + 1 == out->n;
        out->node[k + 1] = last
                               ? where->top_node
                               : bw_frame_add_node(where->frame, where->x, out->at[k + 1],
                                                   name, post->case_path);
        bw_member m = post_piece(p, &place, out->at[k], out->at[k + 1]);
        m.node_i = out->node[k];
        m.node_j = out->node[k + 1];
        m.hinge_j = last && where->hinge_top;
        const bw_section section[2] = {m.section_i, m.section_j};
        const double green = bwi_log_density(p->deck, &p->deck->logs[post->log]);
        m.density = bwi_full_density(section, green);
        m.name = name;
        const int member =
            out->node[k + 1] >= 0 ? bw_frame_add_member(where->frame, &m) : -1;
        if (member < 0 || name == NULL) {
            return BW_E_MEMORY;
        }
        out->first = k == 0 ? member : out->first;
    }
    return BW_OK;
}
