/* The corners of the smallest convex figure around points (COMPUTED: the cross product of
 * two sides that follow each other,
 *
 *   (b - a) x (c - b) = (b_x - a_x) (c_y - b_y) - (b_y - a_y) (c_x - b_x) > 0,
 *
 * tells that b sticks out between a and c on the way round). */
#include "internal.h"

#include <math.h>
#include <stdlib.h>

static int by_place(const void *a, const void *b)
{
    const bwi_point *p = *(bwi_point *const *)a, *q = *(bwi_point *const *)b;
    const int x = (p->x > q->x) - (p->x < q->x), y = (p->y > q->y) - (p->y < q->y);
    return x != 0 ? x : y != 0 ? y : (p > q) - (p < q);
}

static bool sticks_out(const bwi_point *a, const bwi_point *b, const bwi_point *c)
{
    return (b->x - a->x) * (c->y - b->y) - (b->y - a->y) * (c->x - b->x) > 0.0;
}

/* One side of the figure, from the first point to the last. */
static void mark_side(bwi_point **sorted, size_t n, long first, long step,
                      bwi_point **side)
{
    size_t on = 0;
    for (size_t k = 0; k < n; k++) {
        bwi_point *next = sorted[first + (long)k * step];
        while (on > 1 && !sticks_out(side[on - 2], side[on - 1], next)) {
            on--;
        }
        side[on++] = next;
    }
    for (size_t k = 0; k < on; k++) {
        side[k]->is_corner = true;
    }
}

bool bwi_mark_corners(bwi_point *points, size_t n, bw_arena *arena)
{
    bwi_point **sorted = BW_NEW(arena, bwi_point *, n);
    bwi_point **side = BW_NEW(arena, bwi_point *, n);
    if (sorted == NULL || side == NULL) {
        return false;
    }
    bool all = true;
    for (size_t k = 0; k < n; k++) {
        sorted[k] = &points[k];
        all = all && isfinite(points[k].x) && isfinite(points[k].y);
    }
    for (size_t k = 0; k < n && !all; k++) {
        points[k].is_corner = true;
    }
    if (!all) {
        return true;
    }
    qsort(sorted, n, sizeof(bwi_point *), by_place);
    mark_side(sorted, n, 0, 1, side);
    mark_side(sorted, n, (long)n - 1, -1, side);
    return true;
}
