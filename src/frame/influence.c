/* Influence of a load anywhere on a path: with the loaded member's ends held, its nodes
 * get the forces p(a); every other action is then
 *
 *   action(a) = sum_k p_k(a) * answer_k,   answer_k: action under a unit force k at a
 * path node
 *
 * and in the loaded member the held state comes on top (Mueller-Breslau by
 * superposition). */
#include "internal.h"

#include <math.h>

/* Answers to one unit force: N at j, M_i, M_j of the members first .. first + n - 1. */
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
    bw_arena *arena;
};

static const double floor_share = 1e-12;

static void basic_actions(const bw_frame *f, const double *u, int member, double out[3])
{
    const bwi_member *m = &f->members[member];
    double B[3][6], a[3] = {0.0, 0.0, 0.0};
    bwi_element_rows(f, member, B);
    for (int k = 0; k < 6; k++) {
        const int eq = f->nodes[k < 3 ? m->m.node_i : m->m.node_j].equation[k % 3];
        const double v = eq >= 0 ? u[eq] : 0.0;
        for (int row = 0; row < 3; row++) {
            a[row] += B[row][k] * v;
        }
    }
    out[0] = m->ka * a[0];
    out[1] = m->k11 * a[1] + m->k12 * a[2];
    out[2] = m->k12 * a[1] + m->k22 * a[2];
}

/* Keeps the members from the first to the last that answers above the floor; moments
 * count as forces on the member's length. */
static bw_status keep_answer(bw_influence *v, const double *u, double (*all)[3],
                             answer *out)
{
    const bw_frame *f = v->frame;
    double most = 0.0;
    for (size_t k = 0; k < f->n_members; k++) {
        basic_actions(f, u, (int)k, all[k]);
        const double moments = fabs(all[k][1]) + fabs(all[k][2]);
        most = fmax(most, fabs(all[k][0]) + moments / f->members[k].length);
    }
    int first = -1, last = -1;
    for (size_t k = 0; k < f->n_members; k++) {
        const double moments = fabs(all[k][1]) + fabs(all[k][2]);
        if (fabs(all[k][0]) + moments / f->members[k].length > floor_share * most) {
            first = first < 0 ? (int)k : first;
            last = (int)k;
        }
    }
    out->first = first < 0 ? 0 : first;
    out->n = first < 0 ? 0 : last - first + 1;
    out->basic = bw_arena_alloc_array(v->arena, (size_t)out->n, sizeof *out->basic);
    if (out->basic == NULL) {
        return BW_E_MEMORY;
    }
    for (int k = 0; k < out->n; k++) {
        for (int j = 0; j < 3; j++) {
            out->basic[k][j] = all[out->first + k][j];
        }
    }
    return BW_OK;
}

static bw_status answer_node(bw_influence *v, int node, double *u, double (*all)[3])
{
    const bw_frame *f = v->frame;
    for (int k = 0; k < 3; k++) {
        const int eq = f->nodes[node].equation[k];
        answer *out = &v->answers[3 * v->node_place[node] + k];
        if (eq < 0) {
            continue; /* a fixed motion: the support takes the force */
        }
        for (int j = 0; j < f->system.n; j++) {
            u[j] = 0.0;
        }
        u[eq] = 1.0;
        bwi_band_solve(&f->system, u, 1);
        BW_TRY(keep_answer(v, u, all, out));
    }
    return BW_OK;
}

bw_status bw_influence_new(bw_frame *f, const int *path, size_t n_path, bw_arena *arena,
                           bw_influence **out)
{
    bw_influence *v = BW_NEW(arena, bw_influence, 1);
    double *u = BW_NEW(f->arena, double, f->system.n + 1);
    double(*all)[3] = bw_arena_alloc_array(f->arena, f->n_members, sizeof *all);
    int *place = BW_NEW(arena, int, f->n_nodes);
    if (v == NULL || u == NULL || all == NULL || place == NULL) {
        return BW_E_MEMORY;
    }
    *v = (bw_influence){
        .frame = f, .path = path, .n_path = n_path, .node_place = place, .arena = arena};
    v->answers = BW_NEW(arena, answer, 6 * n_path);
    if (v->answers == NULL) {
        return BW_E_MEMORY;
    }
    if (!f->factored) {
        return BW_E_INTERNAL;
    }
    for (size_t k = 0; k < f->n_nodes; k++) {
        place[k] = -1;
    }
    int n = 0;
    for (size_t k = 0; k < 2 * n_path; k++) {
        const bw_member *m = &f->members[path[k / 2]].m;
        const int node = k % 2 == 0 ? m->node_i : m->node_j;
        if (place[node] < 0) {
            place[node] = n++;
            BW_TRY(answer_node(v, node, u, all));
        }
    }
    *out = v;
    return BW_OK;
}

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
    for (int k = 0; k < 3; k++) {
        const answer *a = &v->answers[3 * v->node_place[node] + k];
        const int row = member - a->first;
        if (row >= 0 && row < a->n) {
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
        if (member >= a->first && member < a->first + a->n) {
            return true;
        }
    }
    return false;
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
