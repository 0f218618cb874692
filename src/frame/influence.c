/* Influence of a load anywhere on a path: with the loaded member's ends held, its nodes
 * get the forces p(a); every other action is then
 *
 *   action(a) = sum_k p_k(a) * answer_k,   answer_k: action under a unit force k at a
 * path node
 *
 * and in the loaded member the held state comes on top (Mueller-Breslau by
 * superposition).
 *
 * Answers fade along a row. Only unknowns and members near the force are looked at, as
 * far as bwi_band_solve_unit goes, and of those only the members are kept that answer
 * with more than floor_share of the largest answer: the work grows with the length of the
 * row, not with its square. */
#include "internal.h"

#include <math.h>

/* Answers to one unit force: N at j, M_i, M_j of the members at places first ..
 * first + n - 1. */
typedef struct {
    int first, n;
    double (*basic)[3];
} answer;

struct bw_influence {
    bw_frame *frame;
    const int *path;
    size_t n_path;
    int *node_place; /* place of a node among the path's nodes, -1 elsewhere */
    answer *answers; /* 3 per path node */
    /* Members in the order of their lowest unknown, so that neighbours on the frame are
     * neighbours here, however they were numbered. */
    int *member_at, *member_place;
    bw_arena *arena;
};

static const double floor_share = 1e-12;

/* ---- members in the order of the unknowns ---- */

static int equation_of(const bw_frame *f, int member, int k)
{
    const bw_member *m = &f->members[member].m;
    return f->nodes[k < 3 ? m->node_i : m->node_j].equation[k % 3];
}

/* The number of unknowns for a member without any. */
static int lowest_equation(const bw_frame *f, int member)
{
    int least = f->system.n;
    for (int k = 0; k < 6; k++) {
        const int eq = equation_of(f, member, k);
        least = eq >= 0 && eq < least ? eq : least;
    }
    return least;
}

/* Counting sort. start[e]: place of the first member whose lowest unknown is e or more.
 */
static void sort_members(bw_influence *v, int *start)
{
    const bw_frame *f = v->frame;
    const int n = f->system.n;
    for (size_t k = 0; k < f->n_members; k++) {
        start[lowest_equation(f, (int)k) + 1]++;
    }
    for (int e = 1; e <= n + 1; e++) {
        start[e] += start[e - 1];
    }
    for (size_t k = 0; k < f->n_members; k++) {
        const int place = start[lowest_equation(f, (int)k)]++;
        v->member_at[place] = (int)k;
        v->member_place[k] = place;
    }
    for (int e = n + 1; e > 0; e--) { /* filling moved every start to the next one's */
        start[e] = start[e - 1];
    }
    start[0] = 0;
}

/* ---- answers to unit forces ---- */

/* Room for one answer while it is worked out. */
typedef struct {
    double *u;        /* per unknown, zero between answers */
    double (*all)[3]; /* per member */
    int *start;       /* per unknown: see sort_members */
} workspace;

static void basic_actions(const bw_frame *f, const double *u, int member, double out[3])
{
    const bwi_member *m = &f->members[member];
    double B[3][6], a[3] = {0.0, 0.0, 0.0};
    bwi_element_rows(f, member, B);
    for (int k = 0; k < 6; k++) {
        const int eq = equation_of(f, member, k);
        const double v = eq >= 0 ? u[eq] : 0.0;
        for (int row = 0; row < 3; row++) {
            a[row] += B[row][k] * v;
        }
    }
    out[0] = m->ka * a[0];
    out[1] = m->k11 * a[1] + m->k12 * a[2];
    out[2] = m->k12 * a[1] + m->k22 * a[2];
}

/* Moments count as forces on the member's length. */
static double size_of(const bwi_member *m, const double basic[3])
{
    return fabs(basic[0]) + (fabs(basic[1]) + fabs(basic[2])) / m->length;
}

/* Keeps the members from the first to the last that answers above the floor, of those at
 * places from .. to - 1. */
static bw_status keep_answer(bw_influence *v, const workspace *w, int from, int to,
                             answer *out)
{
    const bw_frame *f = v->frame;
    double most = 0.0;
    for (int k = from; k < to; k++) {
        basic_actions(f, w->u, v->member_at[k], w->all[k]);
        most = fmax(most, size_of(&f->members[v->member_at[k]], w->all[k]));
    }
    const double floor = floor_share * most;
    int first = from, end = to;
    while (first < end &&
           !(size_of(&f->members[v->member_at[first]], w->all[first]) > floor)) {
        first++;
    }
    while (end > first &&
           !(size_of(&f->members[v->member_at[end - 1]], w->all[end - 1]) > floor)) {
        end--;
    }
    *out = (answer){.first = first, .n = end - first};
    out->basic = bw_arena_alloc_array(v->arena, (size_t)out->n, sizeof *out->basic);
    if (out->basic == NULL) {
        return BW_E_MEMORY;
    }
    for (int k = 0; k < out->n; k++) {
        for (int j = 0; j < 3; j++) {
            out->basic[k][j] = w->all[first + k][j];
        }
    }
    return BW_OK;
}

static bw_status answer_equation(bw_influence *v, int eq, const workspace *w, answer *out)
{
    const bwi_system *s = &v->frame->system;
    int first, last;
    bwi_band_solve_unit(s, eq, w->u, &first, &last);
    /* a member's unknowns lie within half_band of its lowest */
    const int from = first > s->half_band ? first - s->half_band : 0;
    const bw_status status = keep_answer(v, w, w->start[from], w->start[last + 1], out);
    for (int k = first; k <= last; k++) {
        w->u[k] = 0.0;
    }
    return status;
}

static bw_status answer_path(bw_influence *v, const workspace *w)
{
    const bw_frame *f = v->frame;
    int n = 0;
    for (size_t k = 0; k < 2 * v->n_path; k++) {
        const bw_member *m = &f->members[v->path[k / 2]].m;
        const int node = k % 2 == 0 ? m->node_i : m->node_j;
        if (v->node_place[node] >= 0) {
            continue;
        }
        v->node_place[node] = n++;
        for (int j = 0; j < 3; j++) {
            const int eq = f->nodes[node].equation[j];
            if (eq >= 0) { /* else a fixed motion: the support takes the force */
                BW_TRY(
                    answer_equation(v, eq, w, &v->answers[3 * v->node_place[node] + j]));
            }
        }
    }
    return BW_OK;
}

static bw_influence *allocate(bw_frame *f, size_t n_path, bw_arena *arena, workspace *w)
{
    bw_influence *v = BW_NEW(arena, bw_influence, 1);
    if (v == NULL) {
        return NULL;
    }
    v->node_place = BW_NEW(arena, int, f->n_nodes);
    v->member_at = BW_NEW(arena, int, f->n_members);
    v->member_place = BW_NEW(arena, int, f->n_members);
    v->answers = BW_NEW(arena, answer, 6 * n_path);
    w->u = BW_NEW(f->arena, double, f->system.n + 1);
    w->start = BW_NEW(f->arena, int, f->system.n + 2);
    w->all = bw_arena_alloc_array(f->arena, f->n_members, sizeof *w->all);
    return v->node_place == NULL || v->member_at == NULL || v->member_place == NULL ||
                   v->answers == NULL || w->u == NULL || w->start == NULL ||
                   w->all == NULL
               ? NULL
               : v;
}

bw_status bw_influence_new(bw_frame *f, const int *path, size_t n_path, bw_arena *arena,
                           bw_influence **out)
{
    if (!f->factored) {
        return BW_E_INTERNAL;
    }
    workspace w;
    bw_influence *v = allocate(f, n_path, arena, &w);
    if (v == NULL) {
        return BW_E_MEMORY;
    }
    v->frame = f;
    v->path = path;
    v->n_path = n_path;
    v->arena = arena;
    for (size_t k = 0; k < f->n_nodes; k++) {
        v->node_place[k] = -1;
    }
    sort_members(v, w.start);
    BW_TRY(answer_path(v, &w));
    *out = v;
    return BW_OK;
}

/* ---- wheels ---- */

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

static void add_answers(const bw_influence *v, int node, const double force[3],
                        int member, double basic[3])
{
    const int place = v->member_place[member];
    for (int k = 0; k < 3; k++) {
        const answer *a = &v->answers[3 * v->node_place[node] + k];
        const int row = place - a->first;
        if (row >= 0 && row < a->n && force[k] != 0.0) {
            for (int j = 0; j < 3; j++) {
                basic[j] += force[k] * a->basic[row][j];
            }
        }
    }
}

void bw_influence_set(const bw_influence *v, bw_wheel *wheel)
{
    const bwi_extra piece = wheel_piece(v, wheel);
    const int loaded = piece.piece.member;
    const bwi_member *m = &v->frame->members[loaded];
    const bw_arena_mark mark = bw_arena_now(v->arena);
    double *held = wheel->held, end[6];
    if (!bwi_element_fixed(m, &piece, 1, v->arena, held)) {
        held[0] = held[1] = held[2] = (double)NAN;
    }
    bw_arena_back(v->arena, mark);
    bwi_element_ends(m, held[0], held[1], held[2], &piece, 1, end);
    bwi_element_push(v->frame, loaded, end, wheel->push);
    wheel->is_set = true;
}

/* N, V, M at both ends of the member under one wheel. */
static void wheel_ends(const bw_influence *v, int member, const bw_wheel *given,
                       double end[6])
{
    bw_wheel wheel = *given;
    if (!wheel.is_set) {
        bw_influence_set(v, &wheel);
    }
    const int loaded = v->path[wheel.at];
    const bw_member *m = &v->frame->members[loaded].m;
    double basic[3] = {0.0, 0.0, 0.0};
    add_answers(v, m->node_i, wheel.push, member, basic);
    add_answers(v, m->node_j, wheel.push + 3, member, basic);
    const bwi_member *own = &v->frame->members[member];
    if (loaded != member) {
        bwi_element_ends(own, basic[0], basic[1], basic[2], NULL, 0, end);
        return;
    }
    const bwi_extra piece = wheel_piece(v, &wheel);
    for (int j = 0; j < 3; j++) {
        basic[j] += wheel.held[j];
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

bool bw_influence_reaches(const bw_influence *v, int member, size_t at)
{
    const bw_member *m = &v->frame->members[v->path[at]].m;
    if (v->path[at] == member) {
        return true;
    }
    for (int k = 0; k < 6; k++) {
        const int node = k < 3 ? m->node_i : m->node_j;
        const answer *a = &v->answers[3 * v->node_place[node] + k % 3];
        const int row = v->member_place[member] - a->first;
        if (row >= 0 && row < a->n) {
            return true;
        }
    }
    return false;
}

size_t bw_influence_reached(const bw_influence *v, const bw_wheel *wheel,
                            const int **members)
{
    bw_wheel set = *wheel;
    if (!set.is_set) {
        bw_influence_set(v, &set);
    }
    const int own = v->path[set.at];
    const bw_member *m = &v->frame->members[own].m;
    int first = v->member_place[own], end = first + 1;
    for (int k = 0; k < 6; k++) {
        const int node = k < 3 ? m->node_i : m->node_j;
        const answer *a = &v->answers[3 * v->node_place[node] + k % 3];
        if (a->n > 0 && set.push[k] != 0.0) {
            first = a->first < first ? a->first : first;
            end = a->first + a->n > end ? a->first + a->n : end;
        }
    }
    *members = v->member_at + first;
    return (size_t)(end - first);
}

bw_line bw_influence_line(const bw_influence *v, const bw_state *base, int member,
                          const bw_wheel *wheels, size_t n_wheels, bw_arena *arena)
{
    const bwi_member *m = &v->frame->members[member];
    bw_line line = {.frame = v->frame, .member = member};
    size_t n = 0;
    const bwi_extra *own =
        base != NULL ? bwi_state_pieces(base, member, arena, &n) : NULL;
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
    double end[6];
    bw_influence_ends(v, member, wheels, n_wheels, end);
    for (int k = 0; k < 6 && base != NULL; k++) {
        end[k] += base->end[member][k];
    }
    const bwi_diagram d = bwi_diagram_make(arena, m->length, end, pieces, n);
    line.segments = d.segments;
    line.n = d.n;
    return line;
}
