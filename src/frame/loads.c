/* Loads as given -> pieces in the member's axes. */
#include "internal.h"

#include <math.h>

const double bw_gravity = 9.80665;

/* Turns the components into the member's axes unless they are local already. */
static void to_local(const bwi_member *m, const bw_member_load *load, int k,
                     double out[2])
{
    const double x = load->x[k], y = load->y[k];
    if (load->local) {
        out[0] = x;
        out[1] = y;
        return;
    }
    const double plan = load->per_plan_length ? fabs(m->cosine) : 1.0;
    out[0] = plan * (m->cosine * x + m->sine * y);
    out[1] = plan * (m->cosine * y - m->sine * x);
}

/* False if the load does not lie on the member or is not finite. */
bool bwi_load_piece(const bw_frame *f, const bw_member_load *load, bwi_piece *out)
{
    const bwi_member *m = &f->members[load->member];
    const double L = m->length, slack = 1e-9 * L;
    const bool is_point = load->kind == BW_LOAD_POINT;
    const double b = is_point ? load->a : load->b;
    const double sum = load->x[0] + load->y[0] + load->x[1] + load->y[1] + load->moment;
    if (!(load->a >= -slack && b <= L + slack && load->a <= b && isfinite(sum))) {
        return false;
    }
    *out = (bwi_piece){.member = load->member, .is_point = is_point};
    out->a = fmin(fmax(load->a, 0.0), L);
    out->b = fmin(b, L);
    double start[2], end[2];
    to_local(m, load, 0, start);
    out->qx[0] = start[0];
    out->qy[0] = start[1];
    if (is_point) {
        out->moment = load->moment;
    } else if (out->b > out->a) {
        to_local(m, load, 1, end);
        out->qx[1] = (end[0] - start[0]) / (out->b - out->a);
        out->qy[1] = (end[1] - start[1]) / (out->b - out->a);
    }
    return true;
}

/* q(x) = -density g A(x); for a round taper A(x) = pi/4 (d_i + t x)^2, a parabola. */
bwi_piece bwi_self_weight_piece(const bw_frame *f, int member, double factor)
{
    const bwi_member *m = &f->members[member];
    const double w = factor * m->m.density * bw_gravity;
    double area[3] = {bw_section_area(&m->m.section_i), 0.0, 0.0};
    if (m->m.section_i.kind == BW_SECTION_ROUND) {
        const double d = m->m.section_i.diameter;
        const double taper = (m->m.section_j.diameter - d) / m->length;
        area[1] = BWI_PI / 4.0 * 2.0 * d * taper;
        area[2] = BWI_PI / 4.0 * taper * taper;
    }
    bwi_piece p = {.member = member, .b = m->length};
    for (int k = 0; k < 3; k++) {
        p.qx[k] = -w * area[k] * m->sine;
        p.qy[k] = -w * area[k] * m->cosine;
    }
    return p;
}

static bwi_case *case_of(bw_frame *f, int load_case)
{
    if (load_case < 0) {
        return NULL;
    }
    while (f->n_cases <= (size_t)load_case) {
        bwi_case *cases =
            bw_arena_grow(f->arena, f->cases, f->n_cases, &f->cap_cases, sizeof *cases);
        if (cases == NULL) {
            return NULL;
        }
        f->cases = cases;
        f->cases[f->n_cases++] = (bwi_case){0};
    }
    bwi_case *c = &f->cases[load_case];
    c->solved = false;
    return c;
}

bw_status bw_frame_load_node(bw_frame *f, int load_case, int node, double fx, double fy,
                             double moment)
{
    bwi_case *c = case_of(f, load_case);
    if (c == NULL) {
        return BW_E_MEMORY;
    }
    bwi_node_load *items = bw_arena_grow(f->arena, c->node_loads, c->n_node_loads,
                                         &c->cap_node_loads, sizeof *items);
    if (items == NULL) {
        return BW_E_MEMORY;
    }
    c->node_loads = items;
    items[c->n_node_loads++] = (bwi_node_load){node, {fx, fy, moment}};
    return BW_OK;
}

bw_status bw_frame_load_member(bw_frame *f, int load_case, const bw_member_load *load)
{
    bwi_case *c = case_of(f, load_case);
    if (c == NULL) {
        return BW_E_MEMORY;
    }
    bw_member_load *items =
        bw_arena_grow(f->arena, c->raw, c->n_raw, &c->cap_raw, sizeof *items);
    if (items == NULL) {
        return BW_E_MEMORY;
    }
    c->raw = items;
    items[c->n_raw++] = *load;
    return BW_OK;
}

bw_status bw_frame_load_self_weight(bw_frame *f, int load_case, double factor)
{
    bwi_case *c = case_of(f, load_case);
    if (c == NULL) {
        return BW_E_MEMORY;
    }
    c->self_weight += factor;
    return BW_OK;
}

void bw_frame_settle_case(bw_frame *f, int load_case)
{
    f->settle_case = load_case;
}
