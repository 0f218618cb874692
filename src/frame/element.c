/* Member by its flexibility in the simply held state (axial motion held at i, both ends
 * held across): forces N, M_i, M_j; conjugate deformations: elongation e, and the turns
 * of the ends against the chord psi, a_i = psi - theta_i, a_j = theta_j - psi (positive
 * with sagging).
 *
 *   e   = N int dx/EA
 *   a_i = M_i int (1-xi)^2/EI + M_j int xi(1-xi)/EI + (M_i - M_j)/L^2 int dx/(kappa G A)
 *   a_j = M_i int xi(1-xi)/EI + M_j int xi^2/EI     + (M_j - M_i)/L^2 int dx/(kappa G A)
 *
 * with xi = x/L. A joint spring adds 1/k to its diagonal; a hinge drops its row. The
 * inverse is the stiffness: exact for linear taper. Closed forms for a frustum: facts of
 * mechanics, tested in tests/frame/test_element.c. */
#include "internal.h"
#include "poly.h"
#include "quadrature.h"

#include <math.h>

bw_section bwi_member_section(const bwi_member *m, double x)
{
    return bw_section_between(&m->m.section_i, &m->m.section_j, x / m->length);
}

double bwi_member_diameter(const bwi_member *m, double x)
{
    const double a = m->m.section_i.diameter, b = m->m.section_j.diameter;
    return m->m.section_i.kind == BW_SECTION_ROUND ? a + (b - a) * (x / m->length) : 1.0;
}

static bwi_compliance compliance_of(const bwi_member *m, double area, double second)
{
    const double GA = m->m.kappa * m->m.shear_modulus * area;
    return (bwi_compliance){
        .bending = 1.0 / (m->m.modulus * second),
        .axial = 1.0 / (m->m.modulus * area),
        .shear = GA > 0.0 ? 1.0 / GA : 0.0,
    };
}

/* Full circles, as most members are, go by d^-2 and d^-4: this is asked for at every
 * point of integration. */
bwi_compliance bwi_member_compliance(const bwi_member *m, double x)
{
    if (m->is_plain) {
        const double d = bwi_member_diameter(m, x), by = 1.0 / (d * d);
        return (bwi_compliance){.bending = m->unit.bending * by * by,
                                .axial = m->unit.axial * by,
                                .shear = m->unit.shear * by};
    }
    double area, second;
    const bw_section s = bwi_member_section(m, x);
    bwi_section_stiffness(&s, &area, &second);
    return compliance_of(m, area, second);
}

bool bwi_member_is_similar(const bwi_member *m)
{
    const bw_section *a = &m->m.section_i, *b = &m->m.section_j;
    if (a->kind == BW_SECTION_GIVEN) {
        return true;
    }
    const double slack = 1e-13 * b->diameter, scale = b->diameter / a->diameter;
    return fabs(b->flat_top - scale * a->flat_top) <= slack &&
           fabs(b->flat_bottom - scale * a->flat_bottom) <= slack &&
           fabs(b->bore - scale * a->bore) <= slack;
}

/* The properties of a shaped section are not smooth where a flat runs out (the area cut
 * off grows as depth^1.5) or where no wood is left. */
int bwi_member_points(const bwi_member *m, double lo, double hi, bwi_point *points)
{
    if (bwi_member_is_similar(m)) {
        return bwi_gauss(lo, hi, bwi_member_diameter(m, lo), bwi_member_diameter(m, hi),
                         points);
    }
    const bw_section a = bwi_member_section(m, lo), b = bwi_member_section(m, hi);
    const bwi_size sizes[] = {
        {a.diameter, b.diameter, 1.6},
        {bw_section_depth(&a), bw_section_depth(&b), 1.6},
        {a.diameter - a.bore, b.diameter - b.bore, 1.6},
        {a.flat_top, b.flat_top, 3.0},
        {a.flat_bottom, b.flat_bottom, 3.0},
    };
    return bwi_gauss_sizes(lo, hi, sizes, (int)(sizeof sizes / sizeof sizes[0]), points);
}

static bwi_flexibility element_flexibility(const bwi_member *m)
{
    bwi_point points[BWI_GAUSS_POINTS * BWI_PANELS_MAX];
    const double L = m->length;
    bwi_flexibility f = {0};
    const int n = bwi_member_points(m, 0.0, L, points);
    for (int k = 0; k < n; k++) {
        const bwi_compliance c = bwi_member_compliance(m, points[k].x);
        const double w = points[k].weight, xi = points[k].x / L;
        const double shear = c.shear / (L * L);
        f.e += w * c.axial;
        f.ii += w * (c.bending * (1.0 - xi) * (1.0 - xi) + shear);
        f.ij += w * (c.bending * xi * (1.0 - xi) - shear);
        f.jj += w * (c.bending * xi * xi + shear);
    }
    return f;
}

void bwi_element_prepare(bwi_member *m)
{
    m->is_plain =
        bw_section_is_plain(&m->m.section_i) && bw_section_is_plain(&m->m.section_j);
    m->unit = compliance_of(m, BWI_PI / 4.0, BWI_PI / 64.0);
    m->held = element_flexibility(m);
    bwi_flexibility f = m->held;
    f.ii += m->m.turn_spring_i > 0.0 ? 1.0 / m->m.turn_spring_i : 0.0;
    f.jj += m->m.turn_spring_j > 0.0 ? 1.0 / m->m.turn_spring_j : 0.0;
    const bool hinge_i = m->m.hinge_i, hinge_j = m->m.hinge_j;
    m->ka = m->m.slides ? 0.0 : 1.0 / f.e;
    m->k11 = m->k12 = m->k22 = 0.0;
    if (!hinge_i && !hinge_j) {
        const double det = f.ii * f.jj - f.ij * f.ij;
        m->k11 = f.jj / det;
        m->k12 = -f.ij / det;
        m->k22 = f.ii / det;
    } else if (!hinge_i) {
        m->k11 = 1.0 / f.ii;
    } else if (!hinge_j) {
        m->k22 = 1.0 / f.jj;
    }
}

bwi_deformation bwi_element_free_deformation(const bwi_member *m,
                                             const bwi_diagram *simple)
{
    bwi_point points[BWI_GAUSS_POINTS * BWI_PANELS_MAX];
    bwi_deformation a = {0};
    const double L = m->length;
    for (size_t k = 0; k < simple->n; k++) {
        const bwi_segment *s = &simple->segments[k];
        const int n = bwi_member_points(m, s->from, s->to, points);
        for (int p = 0; p < n; p++) {
            const double x = points[p].x, w = points[p].weight, t = x - s->from;
            const bwi_compliance c = bwi_member_compliance(m, x);
            const double M = bwi_poly_value(s->M, 4, t), V = bwi_poly_value(s->V, 3, t);
            a.elongation += w * c.axial * bwi_poly_value(s->N, 3, t);
            a.turn_i += w * (c.bending * M * (1.0 - x / L) - c.shear * V / L);
            a.turn_j += w * (c.bending * M * (x / L) + c.shear * V / L);
        }
    }
    return a;
}

/* Deformations under a force at a, the member simply held: 1 N along it, N = 1 before the
 * force; 1 N across, V = -(L - a)/L before it and a/L behind it, M = V x and -V (L - x).
 * Each is that of a moment at one end, M = -a (1 - xi) or -(L - a) xi, and what is left
 * of it, |x - a|, on the shorter side of the force, where it has to be integrated.
 */
static void unit_deformations(const bwi_member *m, double a, bwi_deformation out[2])
{
    bwi_point points[BWI_GAUSS_POINTS * BWI_PANELS_MAX];
    const double L = m->length;
    const bool before = a <= L / 2.0;
    const int n = bwi_member_points(m, before ? 0.0 : a, before ? a : L, points);
    double axial = 0.0, turn_i = 0.0, turn_j = 0.0;
    for (int p = 0; p < n; p++) {
        const double x = points[p].x, w = points[p].weight, xi = x / L;
        const bwi_compliance c = bwi_member_compliance(m, x);
        const double M = fabs(x - a), V = before ? -1.0 : 1.0;
        axial += w * c.axial;
        turn_i += w * (c.bending * M * (1.0 - xi) - c.shear * V / L);
        turn_j += w * (c.bending * M * xi + c.shear * V / L);
    }
    const bwi_flexibility *f = &m->held;
    const double end = before ? a : L - a; /* times the moment at the end */
    out[0] = (bwi_deformation){.elongation = before ? axial : f->e - axial};
    out[1] = (bwi_deformation){.turn_i = turn_i - end * (before ? f->ii : f->ij),
                               .turn_j = turn_j - end * (before ? f->ij : f->jj)};
}

/* Resultants of a piece: along x, along y, and the bending moment that it gives at end j
 * of a cantilever reaching from it: int qy(t) (L - x) dx, less the moment. */
typedef struct {
    double x, y, moment_j;
} resultant;

static resultant piece_resultant(const bwi_piece *p, double L)
{
    if (p->is_point) {
        return (resultant){p->qx[0], p->qy[0], p->qy[0] * (L - p->a) - p->moment};
    }
    const double h = p->b - p->a, arm = L - p->a;
    const double *x = p->qx, *y = p->qy;
    return (resultant){
        .x = h * (x[0] + h * (x[1] / 2.0 + h * x[2] / 3.0)),
        .y = h * (y[0] + h * (y[1] / 2.0 + h * y[2] / 3.0)),
        .moment_j = h * (y[0] * (arm - h / 2.0) + h * (y[1] * (arm / 2.0 - h / 3.0) +
                                                       h * y[2] * (arm / 3.0 - h / 4.0))),
    };
}

void bwi_element_ends(const bwi_member *m, double axial_j, double moment_i,
                      double moment_j, const bwi_extra *pieces, size_t n_pieces,
                      double end[6])
{
    resultant sum = {0.0, 0.0, 0.0};
    for (size_t k = 0; k < n_pieces; k++) {
        const resultant r = piece_resultant(&pieces[k].piece, m->length);
        sum.x += pieces[k].factor * r.x;
        sum.y += pieces[k].factor * r.y;
        sum.moment_j += pieces[k].factor * r.moment_j;
    }
    end[0] = axial_j + sum.x;
    end[1] = (moment_j - moment_i - sum.moment_j) / m->length;
    end[2] = moment_i;
    end[3] = axial_j;
    end[4] = end[1] + sum.y;
    end[5] = moment_j;
}

static void hold(const bwi_member *m, const bwi_deformation *free, double basic[3])
{
    basic[0] = -m->ka * free->elongation;
    basic[1] = -(m->k11 * free->turn_i + m->k12 * free->turn_j);
    basic[2] = -(m->k12 * free->turn_i + m->k22 * free->turn_j);
}

bool bwi_element_fixed(const bwi_member *m, const bwi_extra *pieces, size_t n_pieces,
                       bw_arena *arena, double basic[3])
{
    double end[6];
    bwi_element_ends(m, 0.0, 0.0, 0.0, pieces, n_pieces, end);
    const bwi_diagram d = bwi_diagram_make(arena, m->length, end, pieces, n_pieces);
    const bwi_deformation a = bwi_element_free_deformation(m, &d);
    hold(m, &a, basic);
    return d.n > 0;
}

void bwi_element_fixed_unit(const bwi_member *m, double a, double basic[2][3])
{
    bwi_deformation free[2];
    unit_deformations(m, a, free);
    hold(m, &free[0], basic[0]);
    hold(m, &free[1], basic[1]);
}

void bwi_element_push(const bw_frame *f, int member, const double end[6], double out[6])
{
    const bwi_member *m = &f->members[member];
    const double local[2][3] = {{end[0], -end[1], end[2]}, {-end[3], end[4], -end[5]}};
    for (int e = 0; e < 2; e++) {
        const bwi_node *n = &f->nodes[e == 0 ? m->m.node_i : m->m.node_j];
        const double c = m->cosine * n->cosine + m->sine * n->sine;
        const double s = m->sine * n->cosine - m->cosine * n->sine;
        out[3 * e] = c * local[e][0] - s * local[e][1];
        out[3 * e + 1] = s * local[e][0] + c * local[e][1];
        out[3 * e + 2] = local[e][2];
    }
}
