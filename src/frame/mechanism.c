/* Motions without resistance, from the geometry alone: every member lets its ends move
 * only so that it neither stretches (row e) nor bends (rows a_i, a_j, unless hinged). The
 * null space of all rows over the unknowns is what is free to move, whatever the
 * stiffnesses are. Lengths and turns are scaled by the mean member length, so that the
 * rank does not depend on units. */
#include "internal.h"

#include <math.h>

enum { COUNT_NODES_MAX = 400, NAMED_MAX = 4, NAMES_IN_A_LIST = 4 };

void bw_frame_name_directions(bw_frame *f, const char *x, const char *y)
{
    f->x_words = x;
    f->y_words = y;
}

static double mean_length(const bw_frame *f)
{
    double sum = 0.0;
    for (size_t k = 0; k < f->n_members; k++) {
        sum += f->members[k].length;
    }
    return sum / (double)f->n_members;
}

static size_t count_rows(const bw_frame *f)
{
    size_t rows = 3 * f->n_members;
    for (size_t k = 0; k < 3 * f->n_nodes; k++) {
        rows += f->nodes[k / 3].spring[k % 3] > 0.0 ? 1 : 0;
    }
    return rows;
}

static void member_rows(const bw_frame *f, int member, double scale, double *C,
                        size_t rows)
{
    const bwi_member *m = &f->members[member];
    double B[3][6];
    bwi_element_rows(f, member, B);
    const bool held[3] = {!m->m.slides, !m->m.hinge_i, !m->m.hinge_j};
    /* with one hinge the other end still bends; with two neither row holds */
    for (int row = 0; row < 3; row++) {
        for (int k = 0; k < 6 && held[row]; k++) {
            const int equation =
                f->nodes[k < 3 ? m->m.node_i : m->m.node_j].equation[k % 3];
            if (equation >= 0) {
                const double length = row == 0 ? 1.0 : m->length;
                const double unknown = k % 3 == 2 ? 1.0 / scale : 1.0;
                C[(size_t)equation * rows + 3 * (size_t)member + (size_t)row] =
                    B[row][k] * length * unknown;
            }
        }
    }
}

/* Null space of the compatibility rows: its dimension and basis; -1 without memory or if
 * the frame is too large for a dense decomposition. */
static int free_motions(const bw_frame *f, double **basis)
{
    if (f->n_nodes > COUNT_NODES_MAX) {
        return -1;
    }
    const size_t rows = count_rows(f), columns = (size_t)f->system.n;
    double *C = BW_NEW(f->arena, double, rows *columns + 1);
    if (C == NULL) {
        return -1;
    }
    const double scale = mean_length(f);
    for (size_t k = 0; k < f->n_members; k++) {
        member_rows(f, (int)k, scale, C, rows);
    }
    size_t row = 3 * f->n_members;
    for (size_t k = 0; k < 3 * f->n_nodes; k++) {
        if (f->nodes[k / 3].spring[k % 3] > 0.0) {
            const int equation = f->nodes[k / 3].equation[k % 3];
            if (equation >= 0) {
                C[(size_t)equation * rows + row] = 1.0;
            }
            row++;
        }
    }
    return bwi_null_space(f->arena, C, (int)rows, (int)columns, basis);
}

int bw_frame_count_free_motions(bw_frame *f)
{
    bw_diags d = bw_diags_new(f->arena, NULL);
    if (bwi_frame_prepare(f, &d) != BW_OK) {
        return -1;
    }
    const bw_arena_mark mark = bw_arena_now(f->arena);
    double *basis = NULL;
    const int n = free_motions(f, &basis);
    bw_arena_back(f->arena, mark);
    return n;
}

/* ---- naming ---- */

/* The free motion that moves the unknown with the largest share most purely: the
 * projection of that unknown on the null space. Takes it out of the basis, whose largest
 * share is never below 1 / n while one is left. */
static void take_motion(double *basis, int n_free, int n, double *motion)
{
    int most = 0;
    double share = 0.0;
    for (int j = 0; j < n; j++) {
        double sum = 0.0;
        for (int k = 0; k < n_free; k++) {
            const double part = basis[(size_t)k * (size_t)n + (size_t)j];
            sum += part * part;
        }
        if (sum > share) {
            share = sum;
            most = j;
        }
    }
    for (int j = 0; j < n; j++) {
        motion[j] = 0.0;
        for (int k = 0; k < n_free; k++) {
            motion[j] += basis[(size_t)k * (size_t)n + (size_t)most] *
                         basis[(size_t)k * (size_t)n + (size_t)j] / sqrt(share);
        }
    }
    for (int k = 0; k < n_free; k++) {
        const double along = basis[(size_t)k * (size_t)n + (size_t)most] / sqrt(share);
        for (int j = 0; j < n; j++) {
            basis[(size_t)k * (size_t)n + (size_t)j] -= along * motion[j];
        }
    }
}

static bw_motion node_motion(const bw_frame *f, size_t node, const double *motion)
{
    const bwi_node *n = &f->nodes[node];
    double own[3];
    for (int k = 0; k < 3; k++) {
        own[k] = n->equation[k] >= 0 ? motion[n->equation[k]] : 0.0;
    }
    return (bw_motion){n->cosine * own[0] - n->sine * own[1],
                       n->sine * own[0] + n->cosine * own[1], own[2]};
}

static double motion_size(bw_motion m)
{
    return sqrt(m.x * m.x + m.y * m.y + m.r * m.r); /* turns are scaled to lengths */
}

/* "post P1, stringer S2 and 3 more": the members that take part. */
static const char *moving_members(const bw_frame *f, const double *motion, double largest)
{
    bw_text text = bw_text_new(f->arena);
    int named = 0, more = 0;
    for (size_t k = 0; k < f->n_members; k++) {
        const bw_member *m = &f->members[k].m;
        const bw_motion a = node_motion(f, (size_t)m->node_i, motion);
        const bw_motion b = node_motion(f, (size_t)m->node_j, motion);
        if (fmax(motion_size(a), motion_size(b)) < 1e-3 * largest) {
            continue;
        }
        if (named == NAMES_IN_A_LIST) {
            more++;
            continue;
        }
        bw_text_print(&text, "%s%s", named > 0 ? ", " : "",
                      m->name != NULL ? m->name : "a member");
        named++;
    }
    if (more > 0) {
        bw_text_print(&text, " and %d more", more);
    }
    return bw_text_string(&text);
}

typedef struct {
    const char *words, *hint;
} direction;

static direction name_direction(const bw_frame *f, bw_motion m)
{
    const double x = fabs(m.x), y = fabs(m.y), r = fabs(m.r);
    if (x >= y && x > 1e-3 * r) {
        return (direction){
            f->x_words != NULL ? f->x_words : "along x",
            "a brace, a foot that cannot turn, or a support in that direction "
            "would hold it"};
    }
    if (y > 1e-3 * r) {
        return (direction){f->y_words != NULL ? f->y_words : "along y",
                           "a post or another support under it would hold it"};
    }
    return (direction){"round",
                       "a joint that cannot turn, or a second support, would hold it"};
}

static void report_motion(bw_frame *f, const double *motion, bw_diags *d)
{
    size_t most = 0;
    double largest = -1.0;
    for (size_t k = 0; k < f->n_nodes; k++) {
        const bw_motion m = node_motion(f, k, motion);
        const double size =
            hypot(m.x, m.y) + 0.1 * fabs(m.r); /* prefer a shift to a turn */
        if (size > largest) {
            largest = size;
            most = k;
        }
    }
    const bwi_node *n = &f->nodes[most];
    const direction way = name_direction(f, node_motion(f, most, motion));
    const char *members = moving_members(f, motion, largest);
    bw_diags_error(d, "frame.mechanism", n->case_path, way.hint,
                   "%s can move %s without resistance%s%s",
                   n->name != NULL ? n->name : "a node", way.words,
                   members != NULL && members[0] != '\0' ? "; moving with it: " : "",
                   members != NULL ? members : "");
}

/* A frame too large for a dense decomposition: the loose part stays unnamed. */
static bw_status report_large(bw_frame *f, bw_diags *d)
{
    bw_diags_error(
        d, "frame.mechanism", NULL,
        "check one part of it at a time: every part needs its own support and, "
        "along its length, a brace or a foot that cannot turn",
        "a part of this frame of %zu joints can move without resistance", f->n_nodes);
    return BW_E_MECHANISM;
}

bw_status bwi_mechanism_report(bw_frame *f, bw_diags *d)
{
    double *basis = NULL;
    const int n_free = free_motions(f, &basis);
    if (n_free <= 0) {
        return report_large(f, d);
    }
    double *motion = BW_NEW(f->arena, double, (size_t)f->system.n + 1);
    if (motion == NULL) {
        return BW_E_MEMORY;
    }
    for (int k = 0; k < n_free && k < NAMED_MAX; k++) {
        take_motion(basis, n_free, f->system.n, motion);
        report_motion(f, motion, d);
    }
    if (n_free > NAMED_MAX) {
        bw_diags_error(d, "frame.mechanism", NULL, NULL, "and %d more loose motions",
                       n_free - NAMED_MAX);
    }
    return BW_E_MECHANISM;
}
