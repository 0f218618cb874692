/* The assignment problem by shortest augmenting paths with potentials (the "Hungarian"
 * method: H. W. Kuhn 1955; in this form J. Edmonds and R. M. Karp 1972, N. Tomizawa 1971:
 * MEMORY). Rows enter one by one; each time the shortest way from the new row to a free
 * column is found under reduced costs c - u - v, which stay at least 0 everywhere and 0
 * on the assignment, and that proves it cheapest. Work: rows^2 * columns. */
#include "assign.h"

#include <math.h>

typedef struct {
    const bwi_costs *costs;
    double *u, *v;    /* potentials of rows and columns; column 0 is not a real one */
    int *row;         /* of each column, from 1; 0: free */
    int *way;         /* the column before on the shortest way */
    double *distance; /* to each column */
    bool *done;
} search;

static bool search_new(bw_arena *arena, const bwi_costs *costs, search *s)
{
    const size_t columns = costs->n_columns + 1;
    *s = (search){.costs = costs,
                  .u = BW_NEW(arena, double, costs->n_rows + 1),
                  .v = BW_NEW(arena, double, columns),
                  .row = BW_NEW(arena, int, columns),
                  .way = BW_NEW(arena, int, columns),
                  .distance = BW_NEW(arena, double, columns),
                  .done = BW_NEW(arena, bool, columns)};
    return s->u != NULL && s->v != NULL && s->row != NULL && s->way != NULL &&
           s->distance != NULL && s->done != NULL;
}

/* Looks from the row of the column at all others; returns the nearest that is not done,
 * or -1 if none can be reached. */
static int nearest(const search *s, int from, double *step)
{
    const int row = s->row[from];
    const double *cost = &s->costs->cost[(size_t)(row - 1) * s->costs->n_columns];
    int best = -1;
    *step = HUGE_VAL;
    for (size_t j = 1; j <= s->costs->n_columns; j++) {
        if (s->done[j]) {
            continue;
        }
        const double reduced = cost[j - 1] - s->u[row] - s->v[j];
        if (reduced < s->distance[j]) {
            s->distance[j] = reduced;
            s->way[j] = from;
        }
        if (s->distance[j] < *step) {
            *step = s->distance[j];
            best = (int)j;
        }
    }
    return best;
}

/* Moves the potentials so that the columns reached so far stay at reduced cost 0. */
static void shift(search *s, double step)
{
    for (size_t j = 0; j <= s->costs->n_columns; j++) {
        if (s->done[j]) {
            s->u[s->row[j]] += step;
            s->v[j] -= step;
        } else {
            s->distance[j] -= step;
        }
    }
}

static bool add_row(search *s, int row)
{
    int at = 0;
    s->row[0] = row;
    for (size_t j = 0; j <= s->costs->n_columns; j++) {
        s->distance[j] = HUGE_VAL;
        s->done[j] = false;
    }
    do {
        double step = 0.0;
        s->done[at] = true;
        const int next = nearest(s, at, &step);
        if (next < 0) {
            return false;
        }
        shift(s, step);
        at = next;
    } while (s->row[at] != 0);
    while (at != 0) { /* back along the way: every row on it takes the next column */
        const int before = s->way[at];
        s->row[at] = s->row[before];
        at = before;
    }
    return true;
}

static void read_off(const search *s, bwi_assignment *out)
{
    out->total = 0.0;
    for (size_t j = 1; j <= s->costs->n_columns; j++) {
        out->price[j - 1] = fmin(s->v[j], 0.0);
        if (s->row[j] != 0) {
            const size_t row = (size_t)s->row[j] - 1;
            out->column[row] = (int)j - 1;
            out->total += s->costs->cost[row * s->costs->n_columns + j - 1];
        }
    }
}

bw_status bwi_assign(bw_arena *arena, const bwi_costs *costs, bwi_assignment *out)
{
    search s;
    bw_status status = BW_OK;
    const bw_arena_mark mark = bw_arena_now(arena);
    if (!search_new(arena, costs, &s)) {
        return BW_E_MEMORY;
    }
    for (size_t row = 1; status == BW_OK && row <= costs->n_rows; row++) {
        status = add_row(&s, (int)row) ? BW_OK : BW_E_INPUT;
    }
    if (status == BW_OK) {
        read_off(&s, out);
    }
    bw_arena_back(arena, mark);
    return status;
}
