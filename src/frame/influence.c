/* Influence of a load anywhere on a path: with the loaded member's ends held, its nodes
 * get the forces p(a); every other action is then
 *
 *   action(a) = sum_k p_k(a) * answer_k,   answer_k: action under a unit force k at a
 * path node
 *
 * and in the loaded member the held state comes on top (Mueller-Breslau by
 * superposition). The answers are entries of the inverse of K, see inverse.c.
 *
 * Answers fade along a row. For every unit force the members are found, from a first to a
 * last one, beyond which none answers with more than floor_share of the largest answer
 * near it. The state of the answer at a block bounds what it does to a member before it:
 * |action| <= sum_j reach_j |state_j|, and for all members still further away the bounds
 * are carried on by the sizes of the steps: reach_j of a block is the larger of its own
 * and sum_i |step_ij| reach_i of the block beyond. So what is left out is bounded, not
 * guessed. */
#include "influence.h"

#include <math.h>

static const double floor_share = 1e-12;

/* ---- members in the order of the unknowns ---- */

/* The number of unknowns for a member without any. */
static int lowest_unknown(const bw_influence *v, int member)
{
    const int *at = v->unknowns[member];
    int least = v->frame->system.n;
    for (int k = 0; k < 6; k++) {
        least = at[k] >= 0 && at[k] < least ? at[k] : least;
    }
    return least;
}

/* Counting sort; members without unknowns come last, in no block. start: room for two
 * more than there are unknowns, zero. */
static void sort_members(bw_influence *v, int *start)
{
    const int n = v->frame->system.n, n_members = (int)v->frame->n_members;
    for (int k = 0; k < n_members; k++) {
        start[lowest_unknown(v, k) + 1]++;
    }
    for (int low = 1; low <= n + 1; low++) {
        start[low] += start[low - 1];
    }
    for (int b = 0; b <= v->inverse.n_blocks; b++) {
        const int from = b * v->inverse.block;
        v->block_start[b] = start[from < n ? from : n];
    }
    for (int k = 0; k < n_members; k++) {
        v->member_place[k] = start[lowest_unknown(v, k)]++;
        v->member_at[v->member_place[k]] = k;
    }
}

static void fill_member(bw_influence *v, int member)
{
    const bwi_member *m = &v->frame->members[member];
    for (int k = 0; k < 6; k++) {
        const int node = k < 3 ? m->m.node_i : m->m.node_j;
        v->unknowns[member][k] = v->frame->nodes[node].equation[k % 3];
    }
    double B[3][6];
    bwi_element_rows(v->frame, member, B);
    for (int k = 0; k < 6; k++) {
        v->action[member][0][k] = m->ka * B[0][k];
        v->action[member][1][k] = m->k11 * B[1][k] + m->k12 * B[2][k];
        v->action[member][2][k] = m->k12 * B[1][k] + m->k22 * B[2][k];
    }
}

void bwi_influence_actions(const bw_influence *v, int member, const double u[6],
                           double out[3])
{
    for (int row = 0; row < 3; row++) {
        const double *a = v->action[member][row];
        out[row] = a[0] * u[0] + a[1] * u[1] + a[2] * u[2] + a[3] * u[3] + a[4] * u[4] +
                   a[5] * u[5];
    }
}

/* Moments count as forces on the member's length. */
static double size_of(const bw_influence *v, int member, const double basic[3])
{
    return fabs(basic[0]) +
           (fabs(basic[1]) + fabs(basic[2])) / v->frame->members[member].length;
}

/* ---- far answers ---- */

/* Rows of the member's unknowns over the state two blocks after its own, entry by entry:
 * six for each. */
static void unknowns_before(const bw_influence *v, const int at[6], int block,
                            double (*entry)[6])
{
    const int b = v->inverse.half_band;
    double *further = v->room;
    for (int k = 0; k < 6; k++) {
        const double *own = at[k] >= 0 ? bwi_inverse_row(&v->inverse, at[k]) : NULL;
        if (own != NULL && at[k] / v->inverse.block == block) {
            bwi_inverse_forth(&v->inverse, block + 1, own, further);
            own = further;
        }
        for (int j = 0; j < b; j++) {
            entry[j][k] = own != NULL ? own[j] : 0.0;
        }
    }
}

/* Unknowns of the member as sources, seen at the entries of the state at its own block.
 */
static void unknowns_behind(const bw_influence *v, const int at[6], int block,
                            double (*entry)[6])
{
    for (int j = 0; j < v->inverse.half_band; j++) {
        const int to = block * v->inverse.block + j;
        for (int k = 0; k < 6; k++) {
            entry[j][k] = at[k] >= 0 && to < v->inverse.n
                              ? bwi_inverse_near(&v->inverse, at[k], to)
                              : 0.0;
        }
    }
}

static double *bound_of(double *bounds, const bw_influence *v, int block)
{
    return bounds + (size_t)block * (size_t)v->inverse.half_band;
}

/* Actions of the member at the place from its unknowns, and the largest of the block. */
static void fill_far(const bw_influence *v, int place, double (*entry)[6], double *rows,
                     double *bound)
{
    const int b = v->inverse.half_band, member = v->member_at[place];
    double *out = rows + 3 * (size_t)place * (size_t)b;
    for (int j = 0; j < b; j++) {
        double basic[3];
        bwi_influence_actions(v, member, entry[j], basic);
        bound[j] = fmax(bound[j], size_of(v, member, basic));
        for (int i = 0; i < 3; i++) {
            out[i * b + j] = basic[i];
        }
    }
}

static void far_of_block(bw_influence *v, int block, double (*entry)[6])
{
    const bool has_after = block + 2 < v->inverse.n_blocks;
    for (int p = v->block_start[block]; p < v->block_start[block + 1]; p++) {
        const int *at = v->unknowns[v->member_at[p]];
        unknowns_behind(v, at, block, entry);
        fill_far(v, p, entry, v->far_behind, bound_of(v->behind, v, block));
        if (has_after) {
            unknowns_before(v, at, block, entry);
            fill_far(v, p, entry, v->far_before, bound_of(v->before, v, block));
        }
    }
}

/* Carries the bounds on, from the first block up and from the last one down. */
static void bound_all(bw_influence *v)
{
    const bwi_inverse *z = &v->inverse;
    const int b = z->half_band;
    for (int block = 1; block + 2 < z->n_blocks; block++) {
        const double *further = bound_of(v->before, v, block - 1);
        double *own = bound_of(v->before, v, block);
        for (int j = 0; j < b; j++) { /* state at block + 1 from that at block + 2 */
            double sum = 0.0;
            for (int i = 0; i < b; i++) {
                sum +=
                    further[i] * fabs(bwi_inverse_row(z, (block + 1) * z->block + i)[j]);
            }
            own[j] = fmax(own[j], sum);
        }
    }
    for (int block = z->n_blocks - 2; block >= 0; block--) {
        const double *further = bound_of(v->behind, v, block + 1);
        double *own = bound_of(v->behind, v, block);
        for (int i = 0; i < b; i++) { /* row at block + 1 from that at block */
            const double *step = bwi_inverse_row(z, block * z->block + i);
            double sum = 0.0;
            for (int j = 0; j < b; j++) {
                sum += further[j] * fabs(step[j]);
            }
            own[i] = fmax(own[i], sum);
        }
    }
}

/* ---- from a source outward ---- */

/* From its two neighbours on: over entries kept near the diagonal. */
static void near_answer(const bw_influence *v, int source, int place, double basic[3])
{
    const int member = v->member_at[place], *at = v->unknowns[member];
    double u[6];
    for (int k = 0; k < 6; k++) {
        u[k] = at[k] >= 0 ? bwi_inverse_near(&v->inverse, at[k], source) : 0.0;
    }
    bwi_influence_actions(v, member, u, basic);
}

static void far_answer(const bw_influence *v, const double *rows, int place,
                       const double *state, double basic[3])
{
    const int b = v->inverse.half_band;
    const double *row = rows + 3 * (size_t)place * (size_t)b;
    for (int i = 0; i < 3; i++) {
        basic[i] = 0.0;
        for (int j = 0; j < b; j++) {
            basic[i] += row[i * b + j] * state[j];
        }
    }
}

bwi_walk bwi_walk_from(const bw_influence *v, int source, int step)
{
    const int own = source / v->inverse.block;
    return (bwi_walk){.source = source,
                      .own = own,
                      .step = step,
                      .block = step < 0 ? own : own + 1,
                      .state = v->room,
                      .next = v->room + v->inverse.half_band};
}

bool bwi_walk_is_on(const bw_influence *v, const bwi_walk *w)
{
    return w->block >= 0 && w->block < v->inverse.n_blocks;
}

static bool is_far(const bwi_walk *w)
{
    return w->block < w->own - 1 || w->block > w->own + 1;
}

/* Before the source: the state two blocks after this one. Behind it: the row over the
 * state of this one. */
void bwi_walk_on(const bw_influence *v, bwi_walk *w)
{
    const bwi_inverse *z = &v->inverse;
    w->block += w->step;
    if (!bwi_walk_is_on(v, w) || !is_far(w)) {
        return;
    }
    if (w->block == w->own - 2) {
        bwi_inverse_state(z, w->own, w->source, w->state);
        return;
    }
    double *const last = w->state;
    if (w->step < 0) {
        bwi_inverse_back(z, w->block + 2, last, w->next);
    } else {
        const bool first = w->block == w->own + 2;
        const double *row = first ? bwi_inverse_row(z, w->source) : last;
        bwi_inverse_forth(z, w->block - 1, row, w->next);
    }
    w->state = w->next;
    w->next = last;
}

void bwi_walk_answer(const bw_influence *v, const bwi_walk *w, int place, double basic[3])
{
    if (is_far(w)) {
        const double *rows = w->step < 0 ? v->far_before : v->far_behind;
        far_answer(v, rows, place, w->state, basic);
    } else {
        near_answer(v, w->source, place, basic);
    }
}

/* ---- how far each unit force reaches ---- */

/* False once no member of the block, nor any further on, is answered above the floor. */
static bool goes_on(const bw_influence *v, const bwi_walk *w, double floor)
{
    if (!bwi_walk_is_on(v, w) || !is_far(w)) {
        return bwi_walk_is_on(v, w);
    }
    const double *bound = bound_of(w->step < 0 ? v->before : v->behind, v, w->block);
    double sum = 0.0;
    for (int j = 0; j < v->inverse.half_band; j++) {
        sum += bound[j] * fabs(w->state[j]);
    }
    return sum > floor;
}

static double answer_size(const bw_influence *v, const bwi_walk *w, int place)
{
    double basic[3];
    bwi_walk_answer(v, w, place, basic);
    return size_of(v, v->member_at[place], basic);
}

/* Of the members of its own block and those beside it. */
static double largest_answer(const bw_influence *v, int source)
{
    const int own = source / v->inverse.block, n = v->inverse.n_blocks;
    const bwi_walk near = bwi_walk_from(v, source, -1);
    double most = 0.0;
    for (int p = v->block_start[own > 0 ? own - 1 : 0];
         p < v->block_start[own + 2 < n ? own + 2 : n]; p++) {
        most = fmax(most, answer_size(v, &near, p));
    }
    return most;
}

/* How many blocks a walk goes before nothing further on is above the floor. */
static int blocks_reached(const bw_influence *v, int source, int step, double floor)
{
    int n = 0;
    bwi_walk w = bwi_walk_from(v, source, step);
    for (; goes_on(v, &w, floor); bwi_walk_on(v, &w)) {
        n++;
    }
    return n;
}

/* Single members are asked in the outermost blocks only: further in there is nothing to
 * leave out. */
enum { OUTERMOST = 3 };

static void widen_reach(const bw_influence *v, int source, int step, double floor,
                        int *first, int *end)
{
    const int n = blocks_reached(v, source, step, floor);
    bwi_walk w = bwi_walk_from(v, source, step);
    for (int k = 0; k < n; k++, bwi_walk_on(v, &w)) {
        const bool whole = k + OUTERMOST < n;
        for (int p = v->block_start[w.block]; p < v->block_start[w.block + 1]; p++) {
            if (whole || answer_size(v, &w, p) > floor) {
                *first = p < *first ? p : *first;
                *end = p + 1 > *end ? p + 1 : *end;
            }
        }
    }
}

static bwi_reached find_reach(const bw_influence *v, int source)
{
    const double floor = floor_share * largest_answer(v, source);
    int first = (int)v->frame->n_members, end = 0;
    widen_reach(v, source, -1, floor, &first, &end);
    widen_reach(v, source, 1, floor, &first, &end);
    return (bwi_reached){first, end > first ? end - first : 0};
}

static bw_status reach_path(bw_influence *v)
{
    const bw_frame *f = v->frame;
    double(*entry)[6] =
        bw_arena_alloc_array(v->arena, (size_t)v->inverse.half_band + 1, sizeof *entry);
    if (entry == NULL) {
        return BW_E_MEMORY;
    }
    for (int block = 0; block < v->inverse.n_blocks; block++) {
        far_of_block(v, block, entry);
    }
    bound_all(v);
    int n = 0;
    for (size_t k = 0; k < 2 * v->n_path; k++) {
        const bw_member *m = &f->members[v->path[k / 2]].m;
        const int node = k % 2 == 0 ? m->node_i : m->node_j;
        if (v->node_place[node] >= 0) {
            continue;
        }
        v->node_place[node] = n;
        for (int j = 0; j < 3; j++) {
            const int at = f->nodes[node].equation[j];
            if (at >= 0) { /* else a fixed motion: the support takes the force */
                v->reach[3 * n + j] = find_reach(v, at);
            }
        }
        n++;
    }
    return BW_OK;
}

/* ---- making ---- */

static bw_status allocate(bw_influence *v)
{
    const bw_frame *f = v->frame;
    const size_t blocks = (size_t)v->inverse.n_blocks;
    v->node_place = BW_NEW(v->arena, int, f->n_nodes);
    v->member_at = BW_NEW(v->arena, int, f->n_members);
    v->member_place = BW_NEW(v->arena, int, f->n_members);
    v->block_start = BW_NEW(v->arena, int, blocks + 1);
    v->reach = BW_NEW(v->arena, bwi_reached, 6 * v->n_path);
    v->unknowns = bw_arena_alloc_array(v->arena, f->n_members, sizeof *v->unknowns);
    v->action = bw_arena_alloc_array(v->arena, f->n_members, sizeof *v->action);
    const size_t states = blocks * (size_t)v->inverse.half_band + 1;
    const size_t rows = 3 * f->n_members * (size_t)v->inverse.half_band + 1;
    v->before = BW_NEW(v->arena, double, states);
    v->behind = BW_NEW(v->arena, double, states);
    v->far_before = BW_NEW(v->arena, double, rows);
    v->far_behind = BW_NEW(v->arena, double, rows);
    v->room = BW_NEW(v->arena, double, 2 * v->inverse.half_band + 1);
    return v->node_place == NULL || v->member_at == NULL || v->member_place == NULL ||
                   v->block_start == NULL || v->reach == NULL || v->unknowns == NULL ||
                   v->action == NULL || v->before == NULL || v->behind == NULL ||
                   v->far_before == NULL || v->far_behind == NULL || v->room == NULL
               ? BW_E_MEMORY
               : BW_OK;
}

int bwi_path_node(const bw_influence *v, size_t at, int k)
{
    const bw_member *m = &v->frame->members[v->path[at]].m;
    return k < 3 ? m->node_i : m->node_j;
}

const bwi_reached *bwi_path_reach(const bw_influence *v, size_t at, int k)
{
    return &v->reach[3 * v->node_place[bwi_path_node(v, at, k)] + k % 3];
}

bwi_reached bwi_reached_by(const bw_influence *v, size_t at, unsigned forces)
{
    int first = (int)v->frame->n_members, end = 0;
    for (int k = 0; k < 6; k++) {
        const bwi_reached *r = bwi_path_reach(v, at, k);
        if (r->n > 0 && (forces >> k & 1u) != 0) {
            first = r->first < first ? r->first : first;
            end = r->first + r->n > end ? r->first + r->n : end;
        }
    }
    return (bwi_reached){first, end > first ? end - first : 0};
}

/* Room for the widest; nothing is allocated when wheels are read. */
static bw_status make_tables(bw_influence *v)
{
    int widest = 0;
    for (size_t k = 0; k < v->n_path; k++) {
        const bwi_reached r = bwi_reached_by(v, k, BWI_ALL_FORCES);
        widest = r.n > widest ? r.n : widest;
    }
    const size_t n = v->n_path < BWI_TABLES ? v->n_path : BWI_TABLES;
    v->tables = BW_NEW(v->arena, bwi_unit_table, BWI_TABLES);
    for (size_t k = 0; v->tables != NULL && k < n; k++) {
        v->tables[k].at = -1;
        v->tables[k].unit =
            bw_arena_alloc_array(v->arena, (size_t)widest + 1, sizeof *v->tables[k].unit);
        if (v->tables[k].unit == NULL) {
            return BW_E_MEMORY;
        }
    }
    v->unit_wheel = BW_NEW(v->arena, bwi_unit_wheel, v->n_path * BWI_UNIT_WHEELS);
    return v->tables != NULL && v->unit_wheel != NULL ? BW_OK : BW_E_MEMORY;
}

bw_status bw_influence_new(bw_frame *f, const int *path, size_t n_path, bw_arena *arena,
                           bw_influence **out)
{
    if (!f->factored) {
        return BW_E_INTERNAL;
    }
    bw_influence *v = BW_NEW(arena, bw_influence, 1);
    if (v == NULL) {
        return BW_E_MEMORY;
    }
    *v = (bw_influence){
        .frame = f, .path = path, .n_path = n_path, .arena = arena, .shared = v};
    BW_TRY(bwi_inverse_make(&f->system, arena, &v->inverse));
    BW_TRY(allocate(v));
    for (size_t k = 0; k < f->n_nodes; k++) {
        v->node_place[k] = -1;
    }
    for (size_t k = 0; k < f->n_members; k++) {
        fill_member(v, (int)k);
    }
    int *start = BW_NEW(f->arena, int, f->system.n + 2);
    if (start == NULL) {
        return BW_E_MEMORY;
    }
    sort_members(v, start);
    BW_TRY(reach_path(v));
    BW_TRY(make_tables(v));
    *out = v;
    return BW_OK;
}

bw_influence *bw_influence_share(const bw_influence *v, bw_arena *arena)
{
    bw_influence *out = BW_NEW(arena, bw_influence, 1);
    if (out == NULL) {
        return NULL;
    }
    *out = *v;
    out->arena = arena;
    out->room = BW_NEW(arena, double, 2 * v->inverse.half_band + 1);
    return out->room != NULL && make_tables(out) == BW_OK ? out : NULL;
}
