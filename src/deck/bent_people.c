/* Where people stand across the deck, for a bent. */
#include "bent.h"

#include <math.h>

/* How far right of a lone row a place across lies; 0 without one. */
double bwi_beside_lone_row(const bwi_plan *p, double across)
{
    return p->lone_row >= 0 ? across - p->deck->rows[p->lone_row].across : 0.0;
}

/* Which rows carry people: every set of them where they are few, else all, each alone,
 * and either half. Loads beyond a post relieve the other side, so all at once is not
 * always worst. On a lone row: the whole width, and either side of it. */
enum { FEW_ROWS = 4, ALL = 0, LEFT_SIDE, RIGHT_SIDE, SIDES };

static size_t sets_of_rows(const bwi_plan *p)
{
    const size_t n = p->deck->n_rows;
    if (p->lone_row >= 0) {
        return SIDES;
    }
    return n <= FEW_ROWS ? ((size_t)1 << n) - 1 : n + 3;
}

/* And those of strips of the width, all but the whole of it. */
size_t bwi_row_sets(const bwi_plan *p, const bwi_transfer *t)
{
    return sets_of_rows(p) + t->n_strips - 1;
}

/* Number of the strip in the transfer; 0 if it is a set of rows. */
size_t bwi_strip_in_set(const bwi_plan *p, size_t set)
{
    const size_t n = sets_of_rows(p);
    return set < n ? 0 : set - n + 1;
}

/* [m] right of a lone row, the edge on that side of it. */
static double beside_edge(const bwi_plan *p, size_t set)
{
    const double edge = p->deck->boards.width / 2.0;
    return bwi_beside_lone_row(p, set == LEFT_SIDE ? -edge : edge);
}

/* Part of its people that a row has: of those on the strip, if it is a set of a strip. */
double bwi_part_in_set(const bwi_plan *p, size_t set, size_t row)
{
    const size_t n = p->deck->n_rows;
    const double across = p->deck->rows[row].across;
    if (bwi_strip_in_set(p, set) > 0) {
        return 1.0;
    }
    if (p->lone_row >= 0) {
        return set == ALL ? 1.0 : fabs(beside_edge(p, set)) / p->deck->boards.width;
    }
    if (n <= FEW_ROWS) {
        return (((((size_t)1 << n) - 1) - set) >> row & 1) != 0 ? 1.0 : 0.0;
    }
    return set == ALL || (set <= n       ? row + 1 == set
                          : set == n + 1 ? across <= 0.0
                                         : across >= 0.0)
               ? 1.0
               : 0.0;
}

/* [m] right of a lone row, where the weight of the people is. */
double bwi_middle_of_set(const bwi_plan *p, size_t set)
{
    return set == ALL ? bwi_beside_lone_row(p, 0.0) : beside_edge(p, set) / 2.0;
}

const char *bwi_set_words(const bwi_arrangement *a, size_t k, size_t set)
{
    const bwi_plan *p = a->t->plan;
    const char *pattern = a->transfer->pattern[k];
    const size_t strip = bwi_strip_in_set(p, set);
    const char *const where = strip > 0 ? bwi_strip_words(a->transfer->strip[strip])
                              : p->lone_row < 0  ? "not over every row"
                              : set == LEFT_SIDE ? "left of the row"
                                                 : "right of the row";
    const char *words =
        set == ALL ? pattern : bw_arena_print(p->arena, "%s, %s", pattern, where);
    return words != NULL ? words : pattern;
}

/* Those who are there push; people further away may lift what those here press. */
double bwi_part_that_pushes(const bwi_arrangement *a, size_t set, double people,
                            double everybody)
{
    const bwi_plan *p = a->t->plan;
    const size_t strip = bwi_strip_in_set(p, set);
    if (!(everybody > 0.0)) {
        return 0.0;
    }
    return strip > 0 ? bwi_strip_part(p, a->transfer->strip[strip], a->f.bent)
                     : fmin(fmax(people / everybody, 0.0), 1.0);
}
