/* Work of the loads and strain energy: equal, without settlements (Clapeyron). */
#include "internal.h"
#include "poly.h"
#include "quadrature.h"

#include <math.h>

/* Work density pairs over the member: half of what the loads do on the way (loads), and
 * what is stored (strain). */
static void member_energy(const bw_state *s, int member, double *loads, double *strain)
{
    const bw_arena_mark mark = bw_arena_now(s->arena);
    const bw_line line = bw_state_line(s, member, s->arena);
    const bwi_member *m = &s->frame->members[member];
    bwi_point points[BWI_GAUSS_POINTS * BWI_PANELS_MAX];
    for (size_t k = 0; k < line.n; k++) {
        const bwi_segment *g = &line.segments[k];
        const int n = bwi_member_points(m, g->from, g->to, points);
        for (int p = 0; p < n; p++) {
            const double x = points[p].x, t = x - g->from, w = points[p].weight / 2.0;
            const bwi_compliance f = bwi_member_compliance(m, x);
            const bw_action a = bwi_segment_action(g, x);
            const bw_motion u = bwi_state_motion(s, &line, x);
            const double qx = -(g->N[1] + t * (2.0 * g->N[2] + t * 3.0 * g->N[3]));
            *strain += w * (f.bending * a.moment * a.moment +
                            f.shear * a.shear * a.shear + f.axial * a.axial * a.axial);
            *loads += w * (qx * u.x + bwi_poly_value(g->qy, 2, t) * u.y);
        }
    }
    size_t n = 0;
    const bwi_extra *pieces = NULL;
    if (!bwi_state_pieces(s, member, s->arena, &pieces, &n) || line.n == 0) {
        *loads = *strain = (double)NAN;
    }
    for (size_t k = 0; k < n; k++) {
        const bwi_piece *p = &pieces[k].piece;
        if (p->is_point) {
            const bw_motion u = bwi_state_motion(s, &line, p->a);
            *loads += pieces[k].factor / 2.0 *
                      (p->qx[0] * u.x + p->qy[0] * u.y + p->moment * u.r);
        }
    }
    const double *e = s->end[member];
    *strain += m->m.turn_spring_i > 0.0 ? e[2] * e[2] / m->m.turn_spring_i / 2.0 : 0.0;
    *strain += m->m.turn_spring_j > 0.0 ? e[5] * e[5] / m->m.turn_spring_j / 2.0 : 0.0;
    bw_arena_back(s->arena, mark);
}

double bw_state_work(const bw_state *s)
{
    double loads = 0.0, strain = 0.0;
    for (size_t k = 0; k < s->frame->n_members; k++) {
        member_energy(s, (int)k, &loads, &strain);
    }
    for (size_t k = 0; k < s->n_parts; k++) {
        const bwi_case *c = &s->frame->cases[s->parts[k].load_case];
        for (size_t j = 0; j < c->n_node_loads; j++) {
            const bw_motion u = bw_state_displacement(s, c->node_loads[j].node);
            const double *force = c->node_loads[j].force;
            loads += s->parts[k].factor / 2.0 *
                     (force[0] * u.x + force[1] * u.y + force[2] * u.r);
        }
    }
    return loads;
}

double bw_state_energy(const bw_state *s)
{
    double loads = 0.0, strain = 0.0;
    for (size_t k = 0; k < s->frame->n_members; k++) {
        member_energy(s, (int)k, &loads, &strain);
    }
    for (size_t k = 0; k < 3 * s->frame->n_nodes; k++) {
        const bwi_node *n = &s->frame->nodes[k / 3];
        strain += n->spring[k % 3] * s->u[k] * s->u[k] / 2.0;
        strain += k % 3 == 2 ? n->spring_xr * s->u[k] * s->u[k - 2] : 0.0;
    }
    return strain;
}
