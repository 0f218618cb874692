/* Influence of a load anywhere on a path: with the loaded member's ends held, its nodes
 * get the forces p(a); every other action is then
 *
 *   action(a) = sum_k p_k(a) * answer_k,   answer_k: action under a unit force k at a
 * path node
 *
 * and in the loaded member the held state comes on top (Mueller-Breslau by
 * superposition). The answers are entries of the inverse of K, see inverse.c.
 *
 * Wheels come many at a time to one member of the path, so the actions under the six unit
 * forces on its nodes are kept in a table for all members, and each wheel costs a sum of
 * six products.
 *
 * Answers fade along a row. For every unit force the members are found, from a first to a
 * last one, beyond which none answers with more than floor_share of the largest answer
 * near it. The state of the answer at a block bounds what it does to a member before it:
 * |action| <= sum_j reach_j |state_j|, and for all members still further away the bounds
 * are carried on by the sizes of the steps: reach_j of a block is the larger of its own
 * and sum_i |step_ij| reach_i of the block beyond. So what is left out is bounded, not
 * guessed. */
#include "inverse.h"

#include <math.h>

/* Members that a unit force reaches: at places first .. first + n - 1. */
typedef struct {
    int first, n;
} reached;

/* Actions of members under unit forces on the nodes of one path member, for places first
 * .. first + n - 1: N at j, M_i, M_j, each of the six forces. All wheels on the member
 * are read from them. */
typedef struct {
    int at; /* number in the path; -1: empty */
    int first, n;
    unsigned filled; /* bits: forces that some wheel has put on the nodes */
    int low, high;   /* places low .. high - 1 are reached by all of these */
    double (*unit)[3][6];
} unit_table;

/* Wheels in use at once lie on fewer path members in a row than this. */
enum { TABLES = 40 };

struct bw_influence {
    bw_frame *frame;
    const int *path;
    size_t n_path;
    int *node_place; /* place of a node among the path's nodes, -1 elsewhere */
    reached *reach;  /* 3 per path node */
    /* Members in the order of their lowest unknown, so that neighbours on the frame are
     * neighbours here, however they were numbered. */
    int *member_at, *member_place;
    int *block_start; /* per block of the inverse: place of its first member, and the end
                       */
    int (*unknowns)[6];     /* per member, negative for fixed motions */
    double (*action)[3][6]; /* per member: N at j, M_i, M_j from its unknowns */
    bwi_inverse inverse;
    /* Per block and entry of the state: what it can do to the members of the block and of
     * all before it (from the state two blocks on), or of all behind it. */
    double *before, *behind;
    unit_table *tables; /* TABLES of them, for path member at in number at % TABLES */
    bw_arena *arena;
};

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

static void actions(const bw_influence *v, int member, const double u[6], double out[3])
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

/* ---- bounds of what a state does far away ---- */

/* Rows of the member's unknowns over the state two blocks after its own. */
static void rows_before(const bw_influence *v, const int at[6], int block, double *rows)
{
    const int b = v->inverse.half_band;
    for (int k = 0; k < 6; k++) {
        double *out = rows + (size_t)k * (size_t)b;
        const double *own = at[k] >= 0 ? bwi_inverse_row(&v->inverse, at[k]) : NULL;
        if (own != NULL && at[k] / v->inverse.block == block) {
            bwi_inverse_forth(&v->inverse, block + 1, own, out);
            continue;
        }
        for (int j = 0; j < b; j++) {
            out[j] = own != NULL ? own[j] : 0.0;
        }
    }
}

/* Unknowns of the member as sources, seen at entry j of the state at its own block. */
static void unknowns_behind(const bw_influence *v, const int at[6], int block, int j,
                            double u[6])
{
    const int entry = block * v->inverse.block + j;
    for (int k = 0; k < 6; k++) {
        u[k] = at[k] >= 0 && entry < v->inverse.n
                   ? bwi_inverse_near(&v->inverse, at[k], entry)
                   : 0.0;
    }
}

static double *bound_of(double *bounds, const bw_influence *v, int block)
{
    return bounds + (size_t)block * (size_t)v->inverse.half_band;
}

static void bound_own(bw_influence *v, int block, double *rows)
{
    const int b = v->inverse.half_band;
    double *before = bound_of(v->before, v, block);
    double *behind = bound_of(v->behind, v, block);
    const bool has_before = block + 2 < v->inverse.n_blocks;
    for (int p = v->block_start[block]; p < v->block_start[block + 1]; p++) {
        const int member = v->member_at[p];
        const int *at = v->unknowns[member];
        if (has_before) {
            rows_before(v, at, block, rows);
        }
        for (int j = 0; j < b; j++) {
            double u[6], basic[3];
            unknowns_behind(v, at, block, j, u);
            actions(v, member, u, basic);
            behind[j] = fmax(behind[j], size_of(v, member, basic));
            for (int k = 0; k < 6; k++) {
                u[k] = rows[(size_t)k * (size_t)b + (size_t)j];
            }
            if (has_before) {
                actions(v, member, u, basic);
                before[j] = fmax(before[j], size_of(v, member, basic));
            }
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

/* ---- how far each unit force reaches ---- */

static double bounded_by(const bw_influence *v, const double *bound, const double *state)
{
    double sum = 0.0;
    for (int j = 0; j < v->inverse.half_band; j++) {
        sum += bound[j] * fabs(state[j]);
    }
    return sum;
}

static double answer_size(const bw_influence *v, int source, int place)
{
    const bwi_sources unit = {.n = 1, .at = {source}, .force = {1.0}};
    const int member = v->member_at[place];
    double u[6], basic[3];
    bwi_inverse_answer(&v->inverse, &unit, v->unknowns[member], u);
    actions(v, member, u, basic);
    return size_of(v, member, basic);
}

/* The first block that the force reaches; at most the one before its own. */
static int first_block(const bw_influence *v, int source, double floor, double *room)
{
    const bwi_inverse *z = &v->inverse;
    const int own = source / z->block;
    double *state = room, *next = room + z->half_band;
    bwi_inverse_state(z, own, source, state);
    for (int block = own - 2; block >= 0; block--) { /* state: at block + 2 */
        if (!(bounded_by(v, bound_of(v->before, v, block), state) > floor)) {
            return block + 1;
        }
        bwi_inverse_back(z, block + 1, state, next);
        double *const kept = state;
        state = next;
        next = kept;
    }
    return 0;
}

static int last_block(const bw_influence *v, int source, double floor, double *room)
{
    const bwi_inverse *z = &v->inverse;
    const int own = source / z->block;
    double *row = room, *next = room + z->half_band;
    for (int j = 0; j < z->half_band; j++) {
        row[j] = bwi_inverse_row(z, source)[j]; /* over the state at own + 1 */
    }
    for (int block = own + 2; block < z->n_blocks; block++) {
        bwi_inverse_forth(z, block - 1, row, next);
        double *const kept = row;
        row = next;
        next = kept;
        if (!(bounded_by(v, bound_of(v->behind, v, block), row) > floor)) {
            return block - 1;
        }
    }
    return z->n_blocks - 1;
}

/* At both ends, members of the last block that stay below the floor are left out too. */
static reached find_reach(const bw_influence *v, int source, double *room)
{
    const int own = source / v->inverse.block, n = v->inverse.n_blocks;
    const int from = v->block_start[own > 0 ? own - 1 : 0];
    const int to = v->block_start[own + 2 < n ? own + 2 : n];
    double most = 0.0;
    for (int p = from; p < to; p++) {
        most = fmax(most, answer_size(v, source, p));
    }
    const double floor = floor_share * most;
    int first = v->block_start[first_block(v, source, floor, room)];
    int end = v->block_start[last_block(v, source, floor, room) + 1];
    while (first < end && !(answer_size(v, source, first) > floor)) {
        first++;
    }
    while (end > first && !(answer_size(v, source, end - 1) > floor)) {
        end--;
    }
    return (reached){first, end - first};
}

static bw_status reach_path(bw_influence *v)
{
    const bw_frame *f = v->frame;
    double *room = BW_NEW(v->arena, double, 6 * v->inverse.half_band + 1);
    if (room == NULL) {
        return BW_E_MEMORY;
    }
    for (int block = 0; block < v->inverse.n_blocks; block++) {
        bound_own(v, block, room);
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
                v->reach[3 * n + j] = find_reach(v, at, room);
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
    v->reach = BW_NEW(v->arena, reached, 6 * v->n_path);
    v->unknowns = bw_arena_alloc_array(v->arena, f->n_members, sizeof *v->unknowns);
    v->action = bw_arena_alloc_array(v->arena, f->n_members, sizeof *v->action);
    const size_t states = blocks * (size_t)v->inverse.half_band + 1;
    v->before = BW_NEW(v->arena, double, states);
    v->behind = BW_NEW(v->arena, double, states);
    return v->node_place == NULL || v->member_at == NULL || v->member_place == NULL ||
                   v->block_start == NULL || v->reach == NULL || v->unknowns == NULL ||
                   v->action == NULL || v->before == NULL || v->behind == NULL
               ? BW_E_MEMORY
               : BW_OK;
}

/* Places that any force on the path member reaches. */
static reached reach_of(const bw_influence *v, size_t at)
{
    const bw_member *m = &v->frame->members[v->path[at]].m;
    int first = (int)v->frame->n_members, end = 0;
    for (int k = 0; k < 6; k++) {
        const int node = k < 3 ? m->node_i : m->node_j;
        const reached *r = &v->reach[3 * v->node_place[node] + k % 3];
        if (r->n > 0) {
            first = r->first < first ? r->first : first;
            end = r->first + r->n > end ? r->first + r->n : end;
        }
    }
    return (reached){first, end > first ? end - first : 0};
}

/* Room for the widest; nothing is allocated when wheels are read. */
static bw_status make_tables(bw_influence *v)
{
    int widest = 0;
    for (size_t k = 0; k < v->n_path; k++) {
        const reached r = reach_of(v, k);
        widest = r.n > widest ? r.n : widest;
    }
    const size_t n = v->n_path < TABLES ? v->n_path : TABLES;
    v->tables = BW_NEW(v->arena, unit_table, TABLES);
    for (size_t k = 0; v->tables != NULL && k < n; k++) {
        v->tables[k].at = -1;
        v->tables[k].unit =
            bw_arena_alloc_array(v->arena, (size_t)widest + 1, sizeof *v->tables[k].unit);
        if (v->tables[k].unit == NULL) {
            return BW_E_MEMORY;
        }
    }
    return v->tables != NULL ? BW_OK : BW_E_MEMORY;
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
    *v = (bw_influence){.frame = f, .path = path, .n_path = n_path, .arena = arena};
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

static bool is_reached(const bw_influence *v, int node, int k, int member)
{
    const reached *r = &v->reach[3 * v->node_place[node] + k];
    const int row = v->member_place[member] - r->first;
    return row >= 0 && row < r->n;
}

/* Answers to the force k, for the members that it reaches; nothing else is read. */
static void fill_column(const bw_influence *v, const reached *r, int equation, int k,
                        unit_table *t)
{
    const bwi_sources source = {.n = 1, .at = {equation}, .force = {1.0}};
    for (int p = r->first; p < r->first + r->n; p++) {
        const int member = v->member_at[p];
        double u[6], basic[3];
        bwi_inverse_answer(&v->inverse, &source, v->unknowns[member], u);
        actions(v, member, u, basic);
        for (int i = 0; i < 3; i++) {
            t->unit[p - t->first][i][k] = basic[i];
        }
    }
    t->filled |= 1u << k;
    t->low = r->first > t->low ? r->first : t->low;
    t->high = r->first + r->n < t->high ? r->first + r->n : t->high;
}

static unit_table *table_of(const bw_influence *v, size_t at)
{
    unit_table *t = &v->tables[at % TABLES];
    if (t->at != (int)at) {
        const reached all = reach_of(v, at);
        *t = (unit_table){.at = (int)at,
                          .first = all.first,
                          .n = all.n,
                          .low = all.first,
                          .high = all.first + all.n,
                          .unit = t->unit};
    }
    return t;
}

/* N at j, M_i, M_j of the member under forces on the nodes of a path member. */
static void answer(const bw_influence *v, size_t at, const double push[6], int member,
                   double basic[3])
{
    unit_table *t = table_of(v, at);
    const bw_member *m = &v->frame->members[v->path[at]].m;
    const int place = v->member_place[member];
    unsigned wanted = 0;
    for (unsigned k = 0; k < 6; k++) {
        wanted |= (push[k] != 0.0 ? 1u : 0u) << k;
    }
    if ((wanted & ~t->filled) == 0 && place >= t->low && place < t->high) {
        for (int i = 0; i < 3; i++) { /* no force, no matter what stands in its column */
            const double *a = t->unit[place - t->first][i];
            basic[i] = a[0] * push[0] + a[1] * push[1] + a[2] * push[2] + a[3] * push[3] +
                       a[4] * push[4] + a[5] * push[5];
        }
        return;
    }
    basic[0] = basic[1] = basic[2] = 0.0;
    for (int k = 0; k < 6; k++) {
        const int node = k < 3 ? m->node_i : m->node_j;
        const reached *r = &v->reach[3 * v->node_place[node] + k % 3];
        if (push[k] == 0.0 || place < r->first || place >= r->first + r->n) {
            continue;
        }
        if ((t->filled >> k & 1u) == 0) {
            fill_column(v, r, v->frame->nodes[node].equation[k % 3], k, t);
        }
        for (int i = 0; i < 3; i++) {
            basic[i] += t->unit[place - t->first][i][k] * push[k];
        }
    }
}

/* What was worked out is of this very wheel on this line. */
static bool is_set(const bw_influence *v, const bw_wheel *w)
{
    return w->set.line == v && w->set.at == w->at && w->set.a == w->a &&
           w->set.fx == w->fx && w->set.fy == w->fy;
}

void bw_influence_set(const bw_influence *v, bw_wheel *wheel)
{
    const bwi_extra piece = wheel_piece(v, wheel);
    const int loaded = piece.piece.member;
    const bwi_member *m = &v->frame->members[loaded];
    const bw_arena_mark mark = bw_arena_now(v->arena);
    double *held = wheel->set.held, end[6];
    if (!bwi_element_fixed(m, &piece, 1, v->arena, held)) {
        held[0] = held[1] = held[2] = (double)NAN;
    }
    bw_arena_back(v->arena, mark);
    bwi_element_ends(m, held[0], held[1], held[2], &piece, 1, end);
    bwi_element_push(v->frame, loaded, end, wheel->set.push);
    wheel->set.line = v;
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
    bw_wheel out = {.at = at, .set = {.line = v, .at = at}};
    double u[6] = {0.0}, end[6];
    u[at_last ? 3 : 0] = node->cosine * x + node->sine * y;
    u[at_last ? 4 : 1] = node->cosine * y - node->sine * x;
    const double *held = out.set.held;
    actions(v, member, u, out.set.held);
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

bool bw_influence_reaches(const bw_influence *v, int member, size_t at)
{
    const bw_member *m = &v->frame->members[v->path[at]].m;
    if (v->path[at] == member) {
        return true;
    }
    for (int k = 0; k < 6; k++) {
        const int node = k < 3 ? m->node_i : m->node_j;
        if (is_reached(v, node, k % 3, member)) {
            return true;
        }
    }
    return false;
}

size_t bw_influence_reached(const bw_influence *v, const bw_wheel *wheel,
                            const int **members)
{
    bw_wheel set = *wheel;
    if (!is_set(v, &set)) {
        bw_influence_set(v, &set);
    }
    const int own = v->path[set.at];
    const bw_member *m = &v->frame->members[own].m;
    int first = v->member_place[own], end = first + 1;
    for (int k = 0; k < 6; k++) {
        const int node = k < 3 ? m->node_i : m->node_j;
        const reached *r = &v->reach[3 * v->node_place[node] + k % 3];
        if (r->n > 0 && set.set.push[k] != 0.0) {
            first = r->first < first ? r->first : first;
            end = r->first + r->n > end ? r->first + r->n : end;
        }
    }
    *members = v->member_at + first;
    return (size_t)(end - first);
}

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
    for (int k = 0; k < 6 && base != NULL; k++) {
        end[k] += base->end[member][k];
    }
    const bwi_diagram d = bwi_diagram_make(arena, m->length, end, pieces, n);
    line.segments = d.segments;
    line.n = d.n;
    return line;
}
