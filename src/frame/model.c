/* Building a frame and making it ready to be solved: every value is checked once, here.
 */
#include "internal.h"

#include <math.h>
#include <string.h>

bw_frame *bw_frame_new(bw_arena *arena)
{
    bw_frame *f = BW_NEW(arena, bw_frame, 1);
    if (f != NULL) {
        f->arena = arena;
    }
    return f;
}

int bw_frame_add_node(bw_frame *f, double x, double y, const char *name,
                      const char *case_path)
{
    bwi_node *nodes =
        bw_arena_grow(f->arena, f->nodes, f->n_nodes, &f->cap_nodes, sizeof *nodes);
    if (nodes == NULL) {
        return -1;
    }
    f->nodes = nodes;
    f->nodes[f->n_nodes] =
        (bwi_node){.x = x, .y = y, .name = name, .case_path = case_path, .cosine = 1.0};
    f->prepared = f->factored = false;
    return (int)f->n_nodes++;
}

int bw_frame_add_member(bw_frame *f, const bw_member *m)
{
    bwi_member *members = bw_arena_grow(f->arena, f->members, f->n_members,
                                        &f->cap_members, sizeof *members);
    if (members == NULL) {
        return -1;
    }
    f->members = members;
    f->members[f->n_members] = (bwi_member){.m = *m};
    f->prepared = f->factored = false;
    return (int)f->n_members++;
}

bw_status bw_frame_add_support(bw_frame *f, const bw_support *s)
{
    bw_support *supports = bw_arena_grow(f->arena, f->supports, f->n_supports,
                                         &f->cap_supports, sizeof *supports);
    if (supports == NULL) {
        return BW_E_MEMORY;
    }
    f->supports = supports;
    f->supports[f->n_supports++] = *s;
    f->prepared = f->factored = false;
    return BW_OK;
}

static bool node_exists(const bw_frame *f, int node)
{
    return node >= 0 && (size_t)node < f->n_nodes;
}

/* A size whose powers, as far as they are needed, are numbers too. */
static bool has_powers(double size, int power)
{
    const double highest = pow(size, power);
    return size > 0.0 && highest > 0.0 && isfinite(highest);
}

static bool section_is_sound(const bw_section *s)
{
    if (s->kind == BW_SECTION_ROUND) {
        return has_powers(s->diameter, 4);
    }
    return s->area > 0.0 && isfinite(s->area) && s->second_moment > 0.0 &&
           isfinite(s->second_moment) && s->modulus >= 0.0 && isfinite(s->modulus);
}

/* Flats and a hollow leave at least a twentieth of the depth and a wall all round. */
static bool shape_is_sound(const bw_section *s)
{
    const double d = s->diameter, deepest = fmax(s->flat_top, s->flat_bottom);
    return s->kind == BW_SECTION_GIVEN || bw_section_is_plain(s) ||
           (s->flat_top >= 0.0 && s->flat_bottom >= 0.0 && s->bore >= 0.0 &&
            s->flat_top + s->flat_bottom <= 0.95 * d && s->bore <= 0.98 * d &&
            (s->bore == 0.0 || s->bore <= d - 2.0 * deepest));
}

/* What is wrong with the values of a member, or null. */
static const char *member_fault(const bw_member *m)
{
    if (!section_is_sound(&m->section_i) || !section_is_sound(&m->section_j) ||
        m->section_i.kind != m->section_j.kind) {
        return "needs a section with positive, finite size at both ends, of one kind";
    }
    if (!shape_is_sound(&m->section_i) || !shape_is_sound(&m->section_j)) {
        return "needs more wood: its flats or its hollow are negative, leave too little, "
               "or cut into each other";
    }
    if (m->section_i.kind == BW_SECTION_GIVEN &&
        (m->section_i.area != m->section_j.area ||
         m->section_i.second_moment != m->section_j.second_moment ||
         m->section_i.modulus != m->section_j.modulus)) {
        return "needs the same given section at both ends";
    }
    if (!(m->modulus > 0.0) || !isfinite(m->modulus)) {
        return "needs a positive modulus of elasticity";
    }
    if (!(m->shear_modulus >= 0.0) || !isfinite(m->shear_modulus) || !(m->kappa >= 0.0) ||
        !(m->kappa <= 1.0)) {
        return "needs a shear modulus of at least 0 and a kappa from 0 to 1";
    }
    if (!(m->density >= 0.0) || !isfinite(m->density)) {
        return "needs a density of at least 0";
    }
    return m->turn_spring_i >= 0.0 && m->turn_spring_j >= 0.0
               ? NULL
               : "needs joint springs of at least 0";
}

static void member_error(bw_diags *d, const bwi_member *m, const char *fault)
{
    bw_diags_error(d, "frame.member", m->m.case_path, NULL, "%s %s",
                   m->m.name != NULL ? m->m.name : "a member", fault);
}

static void prepare_member(bw_frame *f, bwi_member *m, bw_diags *d)
{
    if (!node_exists(f, m->m.node_i) || !node_exists(f, m->m.node_j) ||
        m->m.node_i == m->m.node_j) {
        member_error(d, m, "must join two different nodes of the frame");
        return;
    }
    const bwi_node *a = &f->nodes[m->m.node_i], *b = &f->nodes[m->m.node_j];
    m->length = hypot(b->x - a->x, b->y - a->y);
    if (!has_powers(m->length, 3)) {
        member_error(d, m, "has no length, or its ends are not finite");
        return;
    }
    m->cosine = (b->x - a->x) / m->length;
    m->sine = (b->y - a->y) / m->length;
    const char *fault = member_fault(&m->m);
    if (fault != NULL) {
        member_error(d, m, fault);
        return;
    }
    bwi_element_prepare(m);
}

static const char *support_fault(const bw_frame *f, const bw_support *s)
{
    if (!node_exists(f, s->node)) {
        return "a support must stand at a node of the frame";
    }
    for (int k = 0; k < 3; k++) {
        if (!(s->spring[k] >= 0.0) || !isfinite(s->spring[k]) ||
            !isfinite(s->settle[k])) {
            return "a support needs springs of at least 0 and finite settlements";
        }
    }
    if (!isfinite(s->angle)) {
        return "a support needs a finite angle";
    }
    const double coupling = s->spring_xr * s->spring_xr;
    if (!(coupling == 0.0 || coupling < s->spring[0] * s->spring[2])) {
        return "the coupled springs of a support must resist every motion";
    }
    const bwi_node *n = &f->nodes[s->node];
    if (n->supported && (fabs(n->cosine - cos(s->angle)) > 1e-12 ||
                         fabs(n->sine - sin(s->angle)) > 1e-12)) {
        return "two supports of one node need the same angle";
    }
    return NULL;
}

static void prepare_support(bw_frame *f, const bw_support *s, bw_diags *d)
{
    const char *fault = support_fault(f, s);
    if (fault != NULL) {
        bw_diags_error(d, "frame.support", s->case_path, NULL, "%s", fault);
        return;
    }
    bwi_node *n = &f->nodes[s->node];
    n->supported = true;
    n->cosine = cos(s->angle);
    n->sine = sin(s->angle);
    for (int k = 0; k < 3; k++) {
        n->fix[k] = n->fix[k] || s->fix[k];
        n->spring[k] += s->spring[k];
        n->settle[k] += s->settle[k];
    }
    n->spring_xr += s->spring_xr;
}

static void reset_nodes(bw_frame *f)
{
    for (size_t k = 0; k < f->n_nodes; k++) {
        bwi_node *n = &f->nodes[k];
        n->cosine = 1.0;
        n->sine = 0.0;
        n->supported = false;
        n->spring_xr = 0.0;
        memset(n->fix, 0, sizeof n->fix);
        memset(n->spring, 0, sizeof n->spring);
        memset(n->settle, 0, sizeof n->settle);
    }
    for (size_t k = 0; k < f->n_cases; k++) {
        f->cases[k].solved = false;
    }
}

bw_status bwi_frame_prepare(bw_frame *f, bw_diags *d)
{
    if (f->prepared) {
        return BW_OK;
    }
    const size_t errors_before = d->errors;
    if (f->n_members == 0) {
        bw_diags_error(d, "frame.empty", NULL, NULL, "the frame has no members");
    }
    reset_nodes(f);
    for (size_t k = 0; k < f->n_members; k++) {
        prepare_member(f, &f->members[k], d);
    }
    for (size_t k = 0; k < f->n_supports; k++) {
        prepare_support(f, &f->supports[k], d);
    }
    if (d->errors != errors_before) {
        return BW_E_INPUT;
    }
    BW_TRY(bwi_number_nodes(f));
    f->prepared = true;
    return BW_OK;
}
