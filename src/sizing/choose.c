/* The cheapest choice from a pile, over all targets of a level deck.
 *
 * For one target the cost of a pair of place and log is known, and the choice is an
 * assignment problem. For one choice the best target is a median of the depths of its
 * level logs, so one of those depths: the depths of all allowed pairs are all the targets
 * that need a look. Most of them are settled by a bound: the prices of one solution bound
 * every other (linear programming duality), and the target with the lowest bound is
 * solved next, until the lowest is one that was solved. The bounds stay true when pairs
 * are ruled out, since that only takes choices away. */
#include "assign.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* [m3] More than all the wood of any pile: first of all every place wants a log. */
static const double missing_cost = 1e5;
/* [m3] what rounding may do to a bound. */
static const double rounding = 1e-7;

/* Columns: the logs, then for every place a column of its own that means no log. */
static size_t n_columns(const bwi_pile *p)
{
    return p->n_logs + p->n_places;
}

static int compare(const void *left, const void *right)
{
    const double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

/* Depths of all allowed pairs of level places, sorted, each once; returns how many. */
static size_t collect_depths(const bwi_pile *p, double *depths)
{
    size_t n = 0;
    for (size_t i = 0; i < p->n_places; i++) {
        for (size_t j = 0; p->level[i] && j < p->n_logs; j++) {
            if (p->allowed[i * p->n_logs + j]) {
                depths[n++] = p->depth[i * p->n_logs + j];
            }
        }
    }
    if (n == 0) {
        depths[n++] = 0.0; /* nothing to level: one target is as good as another */
        return n;
    }
    qsort(depths, n, sizeof *depths, compare);
    size_t kept = 1;
    for (size_t k = 1; k < n; k++) {
        if (depths[k] > depths[kept - 1]) {
            depths[kept++] = depths[k];
        }
    }
    return kept;
}

bw_status bwi_chooser_make(bw_arena *arena, const bwi_pile *pile, bwi_chooser *out)
{
    const size_t columns = n_columns(pile);
    double *depths = BW_NEW(arena, double, pile->n_places * pile->n_logs + 1);
    *out = (bwi_chooser){.arena = arena,
                         .pile = pile,
                         .cost = BW_NEW(arena, double, pile->n_places *columns),
                         .price = BW_NEW(arena, double, columns)};
    if (depths == NULL || out->cost == NULL || out->price == NULL) {
        return BW_E_MEMORY;
    }
    out->n_targets = collect_depths(pile, depths);
    out->targets = BW_NEW(arena, bwi_target, out->n_targets);
    if (out->targets == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < out->n_targets; k++) {
        out->targets[k] = (bwi_target){.at = depths[k], .bound = -HUGE_VAL};
    }
    return BW_OK;
}

/* ---- costs ---- */

static double cost_of(const bwi_pile *p, size_t place, size_t log, double target)
{
    const size_t pair = place * p->n_logs + log;
    const double off = p->level[place] ? fabs(p->depth[pair] - target) : 0.0;
    return p->allowed[pair] ? p->wood[log] + p->weight * off : HUGE_VAL;
}

static void fill_costs(const bwi_chooser *c, double target)
{
    const bwi_pile *p = c->pile;
    for (size_t i = 0; i < p->n_places; i++) {
        double *row = &c->cost[i * n_columns(p)];
        for (size_t j = 0; j < p->n_logs; j++) {
            row[j] = cost_of(p, i, j, target);
        }
        for (size_t k = 0; k < p->n_places; k++) {
            row[p->n_logs + k] = k == i ? missing_cost : HUGE_VAL;
        }
    }
}

static bool still_allowed(const bwi_pile *p, const int *log)
{
    for (size_t i = 0; i < p->n_places; i++) {
        if (log[i] >= 0 && !p->allowed[i * p->n_logs + (size_t)log[i]]) {
            return false;
        }
    }
    return true;
}

/* ---- the search over targets ---- */

static bw_status solve(bwi_chooser *c, bwi_target *t)
{
    const bwi_pile *p = c->pile;
    if (t->log == NULL) {
        t->log = BW_NEW(c->arena, int, p->n_places);
    }
    if (t->log == NULL) {
        return BW_E_MEMORY;
    }
    fill_costs(c, t->at);
    const bwi_costs costs = {p->n_places, n_columns(p), c->cost};
    bwi_assignment found = {.column = t->log, .price = c->price};
    BW_TRY(bwi_assign(c->arena, &costs, &found));
    for (size_t i = 0; i < p->n_places; i++) {
        t->log[i] = t->log[i] < (int)p->n_logs ? t->log[i] : -1;
    }
    t->bound = found.total;
    c->solved++;
    return BW_OK;
}

/* Least cost of the place less the price of what it takes. */
static double least(const bwi_chooser *c, size_t place, double target)
{
    const bwi_pile *p = c->pile;
    double out = missing_cost - c->price[p->n_logs + place];
    for (size_t j = 0; j < p->n_logs; j++) {
        const double cost = cost_of(p, place, j, target) - c->price[j];
        out = cost < out ? cost : out;
    }
    return out;
}

/* What the prices of one solution say of all other targets. */
static void raise_bounds(bwi_chooser *c, const bwi_target *from)
{
    const bwi_pile *p = c->pile;
    double fixed = -rounding; /* of what does not depend on the target */
    for (size_t j = 0; j < n_columns(p); j++) {
        fixed += c->price[j];
    }
    for (size_t i = 0; i < p->n_places; i++) {
        fixed += p->level[i] ? 0.0 : least(c, i, 0.0);
    }
    for (size_t k = 0; k < c->n_targets; k++) {
        bwi_target *t = &c->targets[k];
        double bound = fixed;
        if (t == from || t->bound > from->bound) { /* known to be dearer anyway */
            continue;
        }
        for (size_t i = 0; i < p->n_places; i++) {
            bound += p->level[i] ? least(c, i, t->at) : 0.0;
        }
        t->bound = bound > t->bound ? bound : t->bound;
    }
}

static bwi_target *lowest(const bwi_chooser *c)
{
    bwi_target *best = &c->targets[0];
    for (size_t k = 1; k < c->n_targets; k++) {
        if (c->targets[k].bound < best->bound) {
            best = &c->targets[k];
        }
    }
    return best;
}

static void describe(const bwi_pile *p, const bwi_target *t, bwi_choice *out)
{
    memcpy(out->log, t->log, p->n_places * sizeof *out->log);
    out->target = t->at;
    out->wood = out->uneven = 0.0;
    out->n_missing = 0;
    for (size_t i = 0; i < p->n_places; i++) {
        if (t->log[i] < 0) {
            out->n_missing++;
            continue;
        }
        const size_t pair = i * p->n_logs + (size_t)t->log[i];
        out->wood += p->wood[t->log[i]];
        out->uneven += p->level[i] ? fabs(p->depth[pair] - t->at) : 0.0;
    }
    out->cost = out->wood + p->weight * out->uneven;
}

bw_status bwi_choose(bwi_chooser *c, bwi_choice *out)
{
    for (;;) {
        bwi_target *best = lowest(c);
        if (best->log != NULL && still_allowed(c->pile, best->log)) {
            describe(c->pile, best, out);
            return BW_OK;
        }
        BW_TRY(solve(c, best));
        raise_bounds(c, best);
    }
}
