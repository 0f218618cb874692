/* Wheels on the path of influence lines: what they do to the nodes of their member, the
 * unit answers of its six forces in a table for all members, and each reading a sum of
 * six products. A wheel is its two unit forces, factored, and searches come back to the
 * same places: so these are kept. */
#include "influence.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* ---- what a wheel does to its member ---- */

static bwi_extra wheel_piece(const bw_influence *v, const bw_wheel *wheel)
{
    const bw_member_load load = {.kind = BW_LOAD_POINT,
                                 .member = v->path[wheel->at],
                                 .a = wheel->a,
                                 .x = {wheel->fx, 0.0},
                                 .y = {wheel->fy, 0.0}};
    bwi_extra piece = {.factor = 1.0};
    if (!bwi_load_piece(v->frame, &load, &piece.piece)) {
        piece.factor = (double)NAN; /* a wheel off its member must not pass as harmless */
        piece.piece.member = load.member;
        piece.piece.is_point = true;
    }
    return piece;
}

/* NaN off the member. */
static void fill_unit_wheel(const bw_influence *v, size_t at, bwi_unit_wheel *u)
{
    const int loaded = v->path[at];
    const bwi_member *m = &v->frame->members[loaded];
    bwi_extra piece = wheel_piece(v, &(bw_wheel){.at = at, .a = u->a});
    bwi_element_fixed_unit(m, piece.piece.a, u->held);
    for (int way = 0; way < 2; way++) {
        double end[6];
        piece.piece.qx[0] = way == 0 ? 1.0 : 0.0;
        piece.piece.qy[0] = way == 1 ? 1.0 : 0.0;
        for (int k = 0; k < 3; k++) {
            u->held[way][k] *= piece.factor;
        }
        bwi_element_ends(m, u->held[way][0], u->held[way][1], u->held[way][2], &piece, 1,
                         end);
        bwi_element_push(v->frame, loaded, end, u->push[way]);
    }
}

/* Its place among those kept may hold another; then it is worked out again. */
static const bwi_unit_wheel *unit_wheel(const bw_influence *v, size_t at, double a)
{
    uint64_t bits;
    memcpy(&bits, &a, sizeof bits);
    const uint64_t place =
        (bits * UINT64_C(0x9e3779b97f4a7c15) >> 32) % (size_t)BWI_UNIT_WHEELS;
    bwi_unit_wheel *u = &v->unit_wheel[at * (size_t)BWI_UNIT_WHEELS + place];
    if (!u->filled || u->a != a) {
        *u = (bwi_unit_wheel){.filled = true, .a = a};
        fill_unit_wheel(v, at, u);
    }
    return u;
}

/* What was worked out is of this very wheel on this line. */
static bool is_set(const bw_influence *v, const bw_wheel *w)
{
    return w->set.line == v->shared && w->set.at == w->at && w->set.a == w->a &&
           w->set.fx == w->fx && w->set.fy == w->fy;
}

void bw_influence_set(const bw_influence *v, bw_wheel *wheel)
{
    const bwi_unit_wheel *u = unit_wheel(v, wheel->at, wheel->a);
    const bwi_member *m = &v->frame->members[v->path[wheel->at]];
    const double along = m->cosine * wheel->fx + m->sine * wheel->fy;
    const double across = m->cosine * wheel->fy - m->sine * wheel->fx;
    for (int k = 0; k < 3; k++) {
        wheel->set.held[k] = along * u->held[0][k] + across * u->held[1][k];
    }
    for (int k = 0; k < 6; k++) {
        wheel->set.push[k] = along * u->push[0][k] + across * u->push[1][k];
    }
    wheel->set.line = v->shared;
    wheel->set.at = wheel->at;
    wheel->set.a = wheel->a;
    wheel->set.fx = wheel->fx;
    wheel->set.fy = wheel->fy;
}

bw_wheel bw_influence_gap(const bw_influence *v, size_t at, bool at_last, double x,
                          double y)
{
    const int member = v->path[at];
    const bwi_member *m = &v->frame->members[member];
    const bwi_node *node = &v->frame->nodes[at_last ? m->m.node_j : m->m.node_i];
    bw_wheel out = {.at = at, .set = {.line = v->shared, .at = at}};
    double u[6] = {0.0}, end[6];
    u[at_last ? 3 : 0] = node->cosine * x + node->sine * y;
    u[at_last ? 4 : 1] = node->cosine * y - node->sine * x;
    const double *held = out.set.held;
    bwi_influence_actions(v, member, u, out.set.held);
    bwi_element_ends(m, held[0], held[1], held[2], NULL, 0, end);
    bwi_element_push(v->frame, member, end, out.set.push);
    return out;
}

bw_wheel bw_wheel_scaled(const bw_wheel *wheel, double factor)
{
    bw_wheel out = *wheel;
    out.fx *= factor;
    out.fy *= factor;
    out.set.fx *= factor;
    out.set.fy *= factor;
    for (int k = 0; k < 6; k++) {
        out.set.push[k] *= factor;
        out.set.held[k % 3] *= k < 3 ? factor : 1.0;
    }
    return out;
}

/* ---- what its pushes do to every member ---- */

/* Answers of the members of one block to force k, of those that it reaches. */
static void fill_block(const bw_influence *v, const bwi_walk *w, const bwi_reached *r,
                       int k, bwi_unit_table *t)
{
    const int from = v->block_start[w->block], to = v->block_start[w->block + 1];
    const int end = r->first + r->n < to ? r->first + r->n : to;
    for (int p = from > r->first ? from : r->first; p < end; p++) {
        double basic[3];
        bwi_walk_answer(v, w, p, basic);
        for (int i = 0; i < 3; i++) {
            t->unit[p - t->first][i][k] = basic[i];
        }
    }
}

static void fill_column(const bw_influence *v, size_t at, int k, bwi_unit_table *t)
{
    const bwi_reached *r = bwi_path_reach(v, at, k);
    const int source = v->frame->nodes[bwi_path_node(v, at, k)].equation[k % 3];
    bwi_walk w = bwi_walk_from(v, source, -1);
    for (; bwi_walk_is_on(v, &w) && v->block_start[w.block + 1] > r->first;
         bwi_walk_on(v, &w)) {
        fill_block(v, &w, r, k, t);
    }
    w = bwi_walk_from(v, source, 1);
    for (; bwi_walk_is_on(v, &w) && v->block_start[w.block] < r->first + r->n;
         bwi_walk_on(v, &w)) {
        fill_block(v, &w, r, k, t);
    }
    t->filled |= 1u << k;
}

/* The table of a path member, with the forces in it whose bits are set. */
static const bwi_unit_table *table_of(const bw_influence *v, size_t at, unsigned forces)
{
    bwi_unit_table *t = &v->tables[at % BWI_TABLES];
    if (t->at != (int)at) {
        const bwi_reached all = bwi_reached_by(v, at, BWI_ALL_FORCES);
        *t = (bwi_unit_table){
            .at = (int)at, .first = all.first, .n = all.n, .unit = t->unit};
        memset(t->unit, 0, (size_t)all.n * sizeof *t->unit);
    }
    for (int k = 0; k < 6 && (forces & ~t->filled) != 0; k++) {
        if ((forces & ~t->filled & 1u << k) != 0 && bwi_path_reach(v, at, k)->n > 0) {
            fill_column(v, at, k, t);
        }
    }
    return t;
}

static unsigned forces_of(const double push[6])
{
    unsigned out = 0;
    for (unsigned k = 0; k < 6; k++) {
        out |= (push[k] != 0.0 ? 1u : 0u) << k;
    }
    return out;
}

/* N at j, M_i, M_j of the member under forces on the nodes of a path member. */
static void answer(const bw_influence *v, size_t at, const double push[6], int member,
                   double basic[3])
{
    const bwi_unit_table *t = table_of(v, at, forces_of(push));
    const int row = v->member_place[member] - t->first;
    for (int i = 0; i < 3; i++) {
        basic[i] = 0.0;
        for (int k = 0; k < 6 && row >= 0 && row < t->n; k++) {
            basic[i] += t->unit[row][i][k] * push[k];
        }
    }
}

/* N, V, M at both ends of the member under one wheel. */
static void wheel_ends(const bw_influence *v, int member, const bw_wheel *wheel,
                       double end[6])
{
    bw_wheel copy;
    if (!is_set(v, wheel)) {
        copy = *wheel;
        bw_influence_set(v, &copy);
        wheel = &copy;
    }
    const int loaded = v->path[wheel->at];
    double basic[3];
    answer(v, wheel->at, wheel->set.push, member, basic);
    const bwi_member *own = &v->frame->members[member];
    if (loaded != member) {
        bwi_element_ends(own, basic[0], basic[1], basic[2], NULL, 0, end);
        return;
    }
    const bwi_extra piece = wheel_piece(v, wheel);
    for (int j = 0; j < 3; j++) {
        basic[j] += wheel->set.held[j];
    }
    bwi_element_ends(own, basic[0], basic[1], basic[2], &piece, 1, end);
}

void bw_influence_ends(const bw_influence *v, int member, const bw_wheel *wheels,
                       size_t n_wheels, double end[6])
{
    for (int k = 0; k < 6; k++) {
        end[k] = 0.0;
    }
    for (size_t k = 0; k < n_wheels; k++) {
        double own[6];
        wheel_ends(v, member, &wheels[k], own);
        for (int j = 0; j < 6; j++) {
            end[j] += own[j];
        }
    }
}

static bool is_reached(const bwi_reached *r, int place)
{
    return place >= r->first && place < r->first + r->n;
}

bool bw_influence_reaches(const bw_influence *v, int member, size_t at)
{
    if (v->path[at] == member) {
        return true;
    }
    for (int k = 0; k < 6; k++) {
        if (is_reached(bwi_path_reach(v, at, k), v->member_place[member])) {
            return true;
        }
    }
    return false;
}

/* Places of the members that the forces reach, the loaded one among them. */
static bwi_reached reached_with_own(const bw_influence *v, size_t at, unsigned forces)
{
    const bwi_reached r = bwi_reached_by(v, at, forces);
    const int own = v->member_place[v->path[at]];
    if (r.n == 0) {
        return (bwi_reached){own, 1};
    }
    const int first = r.first < own ? r.first : own;
    const int end = r.first + r.n > own + 1 ? r.first + r.n : own + 1;
    return (bwi_reached){first, end - first};
}

size_t bw_influence_reached(const bw_influence *v, const bw_wheel *wheel,
                            const int **members)
{
    bw_wheel set = *wheel;
    if (!is_set(v, &set)) {
        bw_influence_set(v, &set);
    }
    const bwi_reached r = reached_with_own(v, set.at, forces_of(set.set.push));
    *members = v->member_at + r.first;
    return (size_t)r.n;
}

/* ---- many wheels, one at a time ---- */

/* Wheels on one path member, so that a member is read under all of them at once. */
enum { ABREAST = 32 };
typedef struct {
    size_t at, n;
    unsigned forces;
    double held[3][ABREAST], push[6][ABREAST];
} wheel_group;

/* The first of the wheels that are on the same path member; returns how many. */
static size_t take_group(const bw_influence *v, const bw_wheel *wheels, size_t n_wheels,
                         wheel_group *out)
{
    size_t n = 0;
    out->at = wheels[0].at;
    out->forces = 0;
    for (; n < n_wheels && n < ABREAST && wheels[n].at == out->at; n++) {
        bw_wheel w = wheels[n];
        if (!is_set(v, &w)) {
            bw_influence_set(v, &w);
        }
        out->forces |= forces_of(w.set.push);
        for (int k = 0; k < 3; k++) {
            out->held[k][n] = w.set.held[k];
        }
        for (int k = 0; k < 6; k++) {
            out->push[k][n] = w.set.push[k];
        }
    }
    return out->n = n;
}

/* NaN among the values stays: no comparison lets go of it. */
static void widen(const double *values, size_t n, double *most, double *least)
{
    double high = *most, low = *least, sum = high - low;
    for (size_t k = 0; k < n; k++) {
        high = values[k] > high ? values[k] : high;
        low = values[k] < low ? values[k] : low;
        sum += values[k];
    }
    *most = isnan(sum) ? (double)NAN : high;
    *least = isnan(sum) ? (double)NAN : low;
}

/* unit: of the six forces; held: of each wheel besides, or null */
static void widen_by(const wheel_group *g, const double unit[6], const double *held,
                     double *most, double *least)
{
    double values[ABREAST];
    for (size_t w = 0; w < g->n; w++) {
        values[w] = unit[0] * g->push[0][w] + unit[1] * g->push[1][w] +
                    unit[2] * g->push[2][w] + unit[3] * g->push[3][w] +
                    unit[4] * g->push[4][w] + unit[5] * g->push[5][w];
    }
    for (size_t w = 0; held != NULL && w < g->n; w++) {
        values[w] += held[w];
    }
    widen(values, g->n, most, least);
}

static void widen_group(const bw_influence *v, const wheel_group *g, bw_range *ranges)
{
    static double none[3][6]; /* never written */
    const bwi_unit_table *t = table_of(v, g->at, g->forces);
    const bwi_reached r = reached_with_own(v, g->at, g->forces);
    for (int p = r.first; p < r.first + r.n; p++) {
        const int member = v->member_at[p];
        const bool in_table = p >= t->first && p < t->first + t->n;
        double(*unit)[6] = in_table ? t->unit[p - t->first] : none;
        for (int i = 0; i < 3; i++) {
            widen_by(g, unit[i], member == v->path[g->at] ? g->held[i] : NULL,
                     &ranges[member].most[i], &ranges[member].least[i]);
        }
    }
}

void bw_influence_widen(const bw_influence *v, const bw_wheel *wheels, size_t n_wheels,
                        bw_range *ranges)
{
    wheel_group g;
    for (size_t k = 0; k < n_wheels; k += g.n) {
        take_group(v, wheels + k, n_wheels - k, &g);
        widen_group(v, &g, ranges);
    }
}

/* ---- actions along a member ---- */

/* A second-order line, and the straight diagrams of end actions without loads on it. */
static bw_line curved_line(const bw_state *base, int member, const double end[6],
                           bw_arena *arena)
{
    const bw_line from = bwi_curved_line(base, member, arena);
    bwi_segment *segments = BW_NEW(arena, bwi_segment, from.n);
    if (segments == NULL) {
        return (bw_line){.frame = base->frame, .member = member};
    }
    for (size_t k = 0; k < from.n; k++) {
        segments[k] = from.segments[k];
        segments[k].N[0] += end[0];
        segments[k].V[0] += end[1];
        segments[k].M[0] += end[2] + end[1] * segments[k].from;
        segments[k].M[1] += end[1];
    }
    return (bw_line){base->frame, member, segments, from.n};
}

bw_line bw_influence_line(const bw_influence *v, const bw_state *base, int member,
                          const bw_wheel *wheels, size_t n_wheels, bw_arena *arena)
{
    const bwi_member *m = &v->frame->members[member];
    bw_line line = {.frame = v->frame, .member = member};
    double end[6];
    bw_influence_ends(v, member, wheels, n_wheels, end);
    if (base != NULL && base->curved != NULL) {
        return curved_line(base, member, end, arena);
    }
    size_t n = 0;
    const bwi_extra *own = NULL;
    if (base != NULL && !bwi_state_pieces(base, member, arena, &own, &n)) {
        return line;
    }
    bwi_extra *pieces = BW_NEW(arena, bwi_extra, n + n_wheels);
    if (pieces == NULL) {
        return line;
    }
    for (size_t k = 0; k < n; k++) {
        pieces[k] = own[k];
    }
    for (size_t k = 0; k < n_wheels; k++) {
        if (v->path[wheels[k].at] == member) {
            pieces[n++] = wheel_piece(v, &wheels[k]);
        }
    }
    for (int k = 0; k < 6 && base != NULL; k++) {
        end[k] += base->end[member][k];
    }
    const bwi_diagram d = bwi_diagram_make(arena, m->length, end, pieces, n);
    line.segments = d.segments;
    line.n = d.n;
    return line;
}
