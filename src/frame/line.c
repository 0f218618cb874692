/* Actions and deflected shape along one member:
 *
 *   theta(x) = theta_i + int M/EI,  v' = theta - V/(kappa G A),  u(x) = u_i + int N/EA
 *
 * from end i to x. theta_i is the turn of the member's own end, not of a hinged joint:
 * psi - a_i, psi the turn of the chord. */
#include "internal.h"
#include "poly.h"
#include "quadrature.h"

#include <math.h>

bw_line bw_state_line(const bw_state *s, int member, bw_arena *arena)
{
    if (s->curved != NULL) {
        return bwi_curved_line(s, member, arena);
    }
    size_t n = 0;
    const bwi_extra *pieces = NULL;
    if (!bwi_state_pieces(s, member, arena, &pieces, &n)) {
        return (bw_line){.frame = s->frame, .member = member};
    }
    const bwi_diagram d = bwi_diagram_make(arena, s->frame->members[member].length,
                                           s->end[member], pieces, n);
    return (bw_line){s->frame, member, d.segments, d.n};
}

bw_action bwi_segment_action(const bwi_segment *s, double x)
{
    const double t = x - s->from;
    return (bw_action){bwi_poly_value(s->N, 3, t), bwi_poly_value(s->V, 3, t),
                       bwi_poly_value(s->M, 4, t)};
}

bw_action bw_line_action(const bw_line *line, double x, bool before)
{
    if (line->n == 0) {
        return (bw_action){(double)NAN, (double)NAN, (double)NAN};
    }
    const bwi_segment *s = line->segments;
    size_t k = 0;
    while (k + 1 < line->n && (before ? s[k].to < x : s[k].to <= x)) {
        k++;
    }
    return bwi_segment_action(&s[k], x);
}

static const bwi_member *member_of(const bw_line *line)
{
    return &line->frame->members[line->member];
}

double bwi_line_start_turn(const bw_line *line)
{
    const bwi_diagram d = {.segments = line->segments, .n = line->n};
    return -bwi_element_free_deformation(member_of(line), &d).turn_i;
}

bw_motion bwi_line_advance(const bw_line *line, const bwi_segment *s, double from,
                           double x, bw_motion at)
{
    bwi_point points[BWI_GAUSS_POINTS * BWI_PANELS_MAX];
    const bwi_member *m = member_of(line);
    const int n = x > from ? bwi_member_points(m, from, x, points) : 0;
    bw_motion out = at;
    out.y += at.r * (x - from);
    for (int k = 0; k < n; k++) {
        const bwi_compliance f = bwi_member_compliance(m, points[k].x);
        const bw_action a = bwi_segment_action(s, points[k].x);
        const double w = points[k].weight, bend = w * f.bending * a.moment;
        out.x += w * f.axial * a.axial;
        out.y += bend * (x - points[k].x) - w * f.shear * a.shear;
        out.r += bend;
    }
    return out;
}

bw_motion bwi_line_motion(const bw_line *line, double x, bw_motion at)
{
    for (size_t k = 0; k < line->n; k++) {
        const bwi_segment *s = &line->segments[k];
        if (x <= s->to || k + 1 == line->n) {
            return bwi_line_advance(line, s, s->from, x, at);
        }
        at = bwi_line_advance(line, s, s->from, s->to, at);
    }
    return (bw_motion){(double)NAN, (double)NAN, (double)NAN};
}

double bw_line_sag(const bw_line *line, double x)
{
    return bwi_line_motion(line, x, (bw_motion){0.0, 0.0, bwi_line_start_turn(line)}).y;
}

double bwi_lines_start_turn(const bw_line *lines, size_t n)
{
    if (n == 1) {
        return bwi_line_start_turn(lines);
    }
    bw_motion at = {0.0, 0.0, 0.0};
    double length = 0.0;
    for (size_t k = 0; k < n; k++) {
        at = bwi_line_motion(&lines[k], member_of(&lines[k])->length, at);
        length += member_of(&lines[k])->length;
    }
    return -at.y / length;
}

double bw_lines_sag(const bw_line *lines, size_t n, double x)
{
    bw_motion at = {0.0, 0.0, bwi_lines_start_turn(lines, n)};
    size_t k = 0;
    for (; k + 1 < n && x > member_of(&lines[k])->length; k++) {
        at = bwi_line_motion(&lines[k], member_of(&lines[k])->length, at);
        x -= member_of(&lines[k])->length;
    }
    return bwi_line_motion(&lines[k], x, at).y;
}

static bw_motion local_end(const bw_state *s, const bwi_member *m, int node)
{
    const bw_motion g = bw_state_displacement(s, node);
    return (bw_motion){m->cosine * g.x + m->sine * g.y, m->cosine * g.y - m->sine * g.x,
                       g.r};
}

bw_motion bwi_state_motion(const bw_state *s, const bw_line *line, double x)
{
    const bwi_member *m = member_of(line);
    bw_motion a = local_end(s, m, m->m.node_i);
    const bw_motion b = local_end(s, m, m->m.node_j);
    a.r = (b.y - a.y) / m->length + bwi_line_start_turn(line);
    return bwi_line_motion(line, x, a);
}

/* ---- single readings of a state ---- */

void bw_state_ends(const bw_state *s, int member, double end[6])
{
    for (int k = 0; k < 6; k++) {
        end[k] = s->end[member][k];
    }
}

bw_motion bw_state_local(const bw_state *s, int member, double x)
{
    const bw_arena_mark mark = bw_arena_now(s->arena);
    const bw_line line = bw_state_line(s, member, s->arena);
    const bw_motion m = bwi_state_motion(s, &line, x);
    bw_arena_back(s->arena, mark);
    return m;
}

bw_action bw_state_action(const bw_state *s, int member, double x, bool before)
{
    const bw_arena_mark mark = bw_arena_now(s->arena);
    const bw_line line = bw_state_line(s, member, s->arena);
    const bw_action a = bw_line_action(&line, x, before);
    bw_arena_back(s->arena, mark);
    return a;
}

bw_extremes bw_state_extremes(const bw_state *s, int member)
{
    const bw_arena_mark mark = bw_arena_now(s->arena);
    const bw_line line = bw_state_line(s, member, s->arena);
    const bw_extremes e = bw_line_extremes(&line);
    bw_arena_back(s->arena, mark);
    return e;
}

size_t bw_state_stations(const bw_state *s, int member, double *x, size_t room)
{
    const bw_arena_mark mark = bw_arena_now(s->arena);
    const bw_line line = bw_state_line(s, member, s->arena);
    const size_t n = bw_line_stations(&line, x, room);
    bw_arena_back(s->arena, mark);
    return n;
}

double bw_state_sag(const bw_state *s, int member, double x)
{
    const bw_arena_mark mark = bw_arena_now(s->arena);
    const bw_line line = bw_state_line(s, member, s->arena);
    const double sag = bw_line_sag(&line, x);
    bw_arena_back(s->arena, mark);
    return sag;
}

void bw_state_sag_extremes(const bw_state *s, int member, bw_extreme *max,
                           bw_extreme *min)
{
    const bw_arena_mark mark = bw_arena_now(s->arena);
    const bw_line line = bw_state_line(s, member, s->arena);
    bw_line_sag_extremes(&line, max, min);
    bw_arena_back(s->arena, mark);
}
