#include "sketch.h"
#include <math.h>

double bwt_member_length(const bwt_sketch *s, int member)
{
    const bw_member *m = &s->members[member];
    return hypot(s->nodes[m->node_j].x - s->nodes[m->node_i].x,
                 s->nodes[m->node_j].y - s->nodes[m->node_i].y);
}

bwt_point bwt_member_direction(const bwt_sketch *s, int member)
{
    const bw_member *m = &s->members[member];
    const double length = bwt_member_length(s, member);
    return (bwt_point){(s->nodes[m->node_j].x - s->nodes[m->node_i].x) / length,
                       (s->nodes[m->node_j].y - s->nodes[m->node_i].y) / length};
}

bw_motion bwt_member_to_global(const bwt_sketch *s, int member, bw_motion local)
{
    const bwt_point e = bwt_member_direction(s, member);
    return (bw_motion){e.x * local.x - e.y * local.y, e.y * local.x + e.x * local.y,
                       local.r};
}

bw_section bwt_member_section(const bwt_sketch *s, int member, double x)
{
    const bw_member *m = &s->members[member];
    return bw_section_between(&m->section_i, &m->section_j,
                              x / bwt_member_length(s, member));
}

bool bwt_member_is_alike(const bwt_sketch *s, int member)
{
    const bw_section *a = &s->members[member].section_i;
    const bw_section *b = &s->members[member].section_j;
    const double slack = 1e-14 * a->diameter * b->diameter;
    return a->kind == BW_SECTION_GIVEN ||
           (fabs(a->flat_top * b->diameter - b->flat_top * a->diameter) <= slack &&
            fabs(a->flat_bottom * b->diameter - b->flat_bottom * a->diameter) <= slack &&
            fabs(a->bore * b->diameter - b->bore * a->diameter) <= slack);
}

bool bwt_sketch_is_alike(const bwt_sketch *s)
{
    bool alike = true;
    for (int k = 0; k < s->n_members; k++) {
        alike = alike && bwt_member_is_alike(s, k);
    }
    return alike;
}

static bool build_members(const bwt_sketch *s, bw_frame *f, bw_arena *arena)
{
    for (int k = 0; k < s->n_members; k++) {
        bw_member m = s->members[k];
        m.name = bw_arena_print(arena, "member %d", k);
        m.case_path = bw_arena_print(arena, "/members/%d", k);
        if (bw_frame_add_member(f, &m) != k) {
            return false;
        }
    }
    return true;
}

static bool build_nodes(const bwt_sketch *s, bw_frame *f, bw_arena *arena)
{
    for (int n = 0; n < s->n_nodes; n++) {
        const char *name = bw_arena_print(arena, "node %d", n);
        const char *path = bw_arena_print(arena, "/nodes/%d", n);
        if (bw_frame_add_node(f, s->nodes[n].x, s->nodes[n].y, name, path) != n) {
            return false;
        }
    }
    return true;
}

static bw_status build_load(const bwt_load *load, bw_frame *f)
{
    switch (load->kind) {
    case BWT_LOAD_NODE:
        return bw_frame_load_node(f, load->load_case, load->node, load->fx, load->fy,
                                  load->moment);
    case BWT_LOAD_MEMBER:
        return bw_frame_load_member(f, load->load_case, &load->on_member);
    case BWT_LOAD_SELF:
        return bw_frame_load_self_weight(f, load->load_case, load->factor);
    default:
        return BW_E_INTERNAL;
    }
}

bw_frame *bwt_sketch_build(const bwt_sketch *s, bw_arena *arena)
{
    bw_frame *f = bw_frame_new(arena);
    if (f == NULL || !build_nodes(s, f, arena) || !build_members(s, f, arena)) {
        return NULL;
    }
    for (int k = 0; k < s->n_supports; k++) {
        if (bw_frame_add_support(f, &s->supports[k]) != BW_OK) {
            return NULL;
        }
    }
    for (int k = 0; k < s->n_loads; k++) {
        if (build_load(&s->loads[k], f) != BW_OK) {
            return NULL;
        }
    }
    return f;
}
