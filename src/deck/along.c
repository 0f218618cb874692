/* What holds the rows along the deck: their own posts, those beside them under the same
 * cap in a row without stringers there, and for a run of stringers that has neither, the
 * rows beside it that have some. Caps hand over what such a run weighs and pushes with,
 * by the lever rule, and boards keep the rows abreast (JUDGEMENT). */
#include "internal.h"

#include <math.h>

int bwi_row_post(const bwi_plan *p, int row, size_t bent)
{
    return p->along_post[(size_t)row * p->deck->n_bents + bent];
}

int bwi_row_of_post(const bwi_plan *p, int row, size_t bent)
{
    const int post = bwi_post_of_row(&p->deck->bents[bent], row);
    for (size_t r = 0; post >= 0 && r < p->deck->n_rows; r++) {
        if (bwi_row_post(p, (int)r, bent) == post) {
            return (int)r;
        }
    }
    return row;
}

/* The nearest row on the bent that no post stands under; -1 if there is none. */
static int nearest_without(const bwi_plan *p, size_t bent, double across)
{
    int best = -1;
    double least = (double)INFINITY;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        const double away = fabs(p->deck->rows[r].across - across);
        if (bwi_row_meets_bent(p, (int)r, bent) && bwi_row_post(p, (int)r, bent) < 0 &&
            away < least) {
            least = away;
            best = (int)r;
        }
    }
    return best;
}

static void give_posts(bwi_plan *p, size_t bent)
{
    const bw_bent *b = &p->deck->bents[bent];
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        p->along_post[r * p->deck->n_bents + bent] =
            bwi_row_meets_bent(p, (int)r, bent) ? bwi_post_of_row(b, (int)r) : -1;
    }
    for (size_t k = 0; k < b->n_posts; k++) {
        const int own = b->posts[k].row;
        const int row = bwi_row_meets_bent(p, own, bent)
                            ? -1
                            : nearest_without(p, bent, p->deck->rows[own].across);
        if (row >= 0) {
            p->along_post[(size_t)row * p->deck->n_bents + bent] = (int)k;
        }
    }
}

/* One run of stringers after the other, as one whole. */
static void mark_runs(bwi_plan *p, int row)
{
    bool *stands = &p->stands[(size_t)row * p->deck->n_bents];
    for (size_t first = 0; first < p->n_bays; first++) {
        bool any = bwi_row_post(p, row, first) >= 0;
        size_t last = first;
        while (last < p->n_bays && bwi_plan_part(p, row, last)->stringer >= 0) {
            any = bwi_row_post(p, row, ++last) >= 0 || any;
        }
        for (size_t k = first; last > first && k <= last; k++) {
            stands[k] = any;
        }
        first = last > first ? last - 1 : first;
    }
}

bw_status bwi_along_make(bwi_plan *p)
{
    const size_t n = p->deck->n_rows * p->deck->n_bents;
    p->along_post = BW_NEW(p->arena, int, n);
    p->stands = BW_NEW(p->arena, bool, n);
    if (p->along_post == NULL || p->stands == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        give_posts(p, bent);
    }
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        mark_runs(p, (int)r);
    }
    return BW_OK;
}

bool bwi_row_stands(const bwi_plan *p, int row, size_t bent)
{
    return p->stands[(size_t)row * p->deck->n_bents + bent];
}

/* The nearest rows that stand, on either side of a row at the bent; -1 where none does.
 */
static void standing_beside(const bwi_plan *p, int row, size_t bent, int *left,
                            int *right)
{
    const bw_row *rows = p->deck->rows;
    *left = *right = -1;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        if (!bwi_row_stands(p, (int)r, bent)) {
            continue;
        }
        if (rows[r].across < rows[row].across &&
            (*left < 0 || rows[r].across > rows[*left].across)) {
            *left = (int)r;
        }
        if (rows[r].across > rows[row].across &&
            (*right < 0 || rows[r].across < rows[*right].across)) {
            *right = (int)r;
        }
    }
}

static double lever(const bwi_plan *p, int from, int to, size_t bent)
{
    const bw_row *rows = p->deck->rows;
    int left, right;
    standing_beside(p, from, bent, &left, &right);
    if (to != left && to != right) {
        return 0.0;
    }
    if (left < 0 || right < 0) {
        return 1.0;
    }
    const int other = to == left ? right : left;
    return fabs(rows[from].across - rows[other].across) /
           (rows[right].across - rows[left].across);
}

static bool can_hand_over(const bwi_plan *p, int row, size_t bent)
{
    int left, right;
    standing_beside(p, row, bent, &left, &right);
    return left >= 0 || right >= 0;
}

/* The next bent of the run, back (-1) or forward, where it can hand over; out of it:
 * none, n_bents. */
static size_t next_that_can(const bwi_plan *p, int row, size_t bent, int way)
{
    while (!can_hand_over(p, row, bent)) {
        const bool ends =
            way < 0 ? bent == 0 || bwi_plan_part(p, row, bent - 1)->stringer < 0
                    : bent == p->n_bays || bwi_plan_part(p, row, bent)->stringer < 0;
        if (ends) {
            return p->deck->n_bents;
        }
        bent = way < 0 ? bent - 1 : bent + 1;
    }
    return bent;
}

double bwi_handed(const bwi_plan *p, int from, size_t bent, int to, size_t *at)
{
    if (from == to || bwi_row_stands(p, from, bent)) {
        return 0.0;
    }
    const size_t none = p->deck->n_bents;
    const size_t back = next_that_can(p, from, bent, -1);
    const size_t ahead = next_that_can(p, from, bent, 1);
    const bool is_back = back != none && (ahead == none || bent - back <= ahead - bent);
    *at = is_back ? back : ahead;
    return *at != none ? lever(p, from, to, *at) : 0.0;
}

bool bwi_hands_over(const bwi_plan *p)
{
    bool any = false;
    for (size_t k = 0; k < p->deck->n_rows * p->deck->n_bents; k++) {
        const int row = (int)(k / p->deck->n_bents);
        const size_t bent = k % p->deck->n_bents;
        any = any || (bwi_row_meets_bent(p, row, bent) && !bwi_row_stands(p, row, bent) &&
                      can_hand_over(p, row, bent));
    }
    return any;
}

size_t bwi_rows_that_stand(const bwi_plan *p, size_t bay, int *rows, double *at)
{
    const size_t n = bwi_plan_rows(p, bay, rows, at);
    size_t kept = 0;
    for (size_t k = 0; k < n; k++) {
        if (bwi_row_stands(p, rows[k], bay)) {
            rows[kept] = rows[k];
            at[kept++] = at[k];
        }
    }
    return kept;
}
