/* Loads as given -> pieces in the member's axes. */
#include "internal.h"
#include "quadrature.h"

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
    if (!is_point && !(load->b > load->a)) {
        return false; /* a line load on no length is a mistake, not nothing */
    }
    if (!(load->a >= -slack && b <= L + slack && isfinite(sum))) {
        return false;
    }
    *out = (bwi_piece){.member = load->member, .is_point = is_point};
    out->a = fmin(fmax(load->a, 0.0), L);
    out->b = fmin(fmax(b, 0.0), L);
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

/* ---- own weight: q(x) = -density g A(x) ---- */

/* A(t) = c0 + c1 t + c2 t^2 of a piece with ends at these places. Where all sizes run
 * alike (and where there is no taper) A ~ d^2 is that parabola. */
static void area_alike(const bwi_member *m, double area[3])
{
    area[0] = bw_section_area(&m->m.section_i);
    area[1] = area[2] = 0.0;
    if (m->m.section_i.kind == BW_SECTION_ROUND) {
        const double d = m->m.section_i.diameter;
        const double taper = (m->m.section_j.diameter - d) / (d * m->length);
        area[1] = area[0] * 2.0 * taper;
        area[2] = area[0] * taper * taper;
    }
}

/* Else the parabola with the same int A, int A t and int A t^2 over the piece: weight and
 * moments stay exact. Legendre: A = sum (2k + 1)/2 P_k(z) int A P_k dz, z = 2 t/h - 1. */
static void area_fitted(const bwi_member *m, double from, double to, double area[3])
{
    bwi_point points[BWI_GAUSS_POINTS * BWI_PANELS_MAX];
    const double h = to - from;
    double a[3] = {0.0, 0.0, 0.0};
    const int n = bwi_member_points(m, from, to, points);
    for (int k = 0; k < n; k++) {
        const bw_section s = bwi_member_section(m, points[k].x);
        const double z = 2.0 * (points[k].x - from) / h - 1.0;
        const double w = points[k].weight / h * bw_section_area(&s);
        a[0] += w;
        a[1] += 3.0 * w * z;
        a[2] += 2.5 * w * (3.0 * z * z - 1.0);
    }
    area[0] = a[0] - a[1] + a[2];
    area[1] = (2.0 * a[1] - 6.0 * a[2]) / h;
    area[2] = 6.0 * a[2] / (h * h);
}

size_t bwi_self_weight_count(const bw_frame *f, int member)
{
    return bwi_member_is_similar(&f->members[member]) ? 1 : BWI_WEIGHT_PIECES_MAX;
}

size_t bwi_self_weight_pieces(const bw_frame *f, int member, double factor,
                              bwi_piece *pieces)
{
    const bwi_member *m = &f->members[member];
    const double w = factor * m->m.density * bw_gravity;
    const size_t count = bwi_self_weight_count(f, member);
    for (size_t k = 0; k < count; k++) {
        const double a = m->length * (double)k / (double)count;
        const double b = m->length * (double)(k + 1) / (double)count;
        double area[3];
        if (count == 1) {
            area_alike(m, area);
        } else {
            area_fitted(m, a, b, area);
        }
        pieces[k] = (bwi_piece){.member = member, .a = a, .b = b};
        for (int j = 0; j < 3; j++) {
            pieces[k].qx[j] = -w * area[j] * m->sine;
            pieces[k].qy[j] = -w * area[j] * m->cosine;
        }
    }
    return count;
}

static bw_status case_of(bw_frame *f, int load_case, bwi_case **out)
{
    if (load_case < 0) {
        return BW_E_INTERNAL;
    }
    while (f->n_cases <= (size_t)load_case) {
        bwi_case *cases =
            bw_arena_grow(f->arena, f->cases, f->n_cases, &f->cap_cases, sizeof *cases);
        if (cases == NULL) {
            return BW_E_MEMORY;
        }
        f->cases = cases;
        f->cases[f->n_cases++] = (bwi_case){0};
    }
    *out = &f->cases[load_case];
    (*out)->solved = false;
    return BW_OK;
}

bw_status bw_frame_load_node(bw_frame *f, int load_case, int node, double fx, double fy,
                             double moment)
{
    bwi_case *c = NULL;
    BW_TRY(case_of(f, load_case, &c));
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
    bwi_case *c = NULL;
    BW_TRY(case_of(f, load_case, &c));
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
    bwi_case *c = NULL;
    BW_TRY(case_of(f, load_case, &c));
    c->self_weight += factor;
    return BW_OK;
}

void bw_frame_settle_case(bw_frame *f, int load_case)
{
    f->settle_case = load_case;
}
