/* Which bays carry people. For stringers that end at every bent all bays loaded is the
 * worst for everything; where stringers run on, every other bay is worst between
 * supports, and two neighbours with every other bay beyond them over a support. That rule
 * is for supports that do not give; that posts shorten and caps bend moves a result by a
 * few thousandths (tests/deck/test_patterns.c tries every arrangement). */
#include "internal.h"

static bool runs_on_over(const bwi_plan *p, size_t bent)
{
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        const bw_stringer *s = &p->deck->stringers[k];
        if ((size_t)s->from < bent && bent < (size_t)s->to) {
            return true;
        }
    }
    return false;
}

static bool *add_pattern(const bwi_plan *p, bwi_transfer *t, bool **flags,
                         const char *words)
{
    const size_t k = t->n_patterns++;
    flags[k] = BW_NEW(p->arena, bool, p->n_bays);
    t->pattern[k] = words;
    t->crowd[k] = BW_NEW(p->arena, double, p->deck->n_rows * p->deck->n_bents);
    return t->crowd[k] != NULL && words != NULL ? flags[k] : NULL;
}

static bool add_alternate(const bwi_plan *p, bwi_transfer *t, bool **flags, size_t parity)
{
    bool *on = add_pattern(p, t, flags, "people on every other bay");
    for (size_t bay = 0; on != NULL && bay < p->n_bays; bay++) {
        on[bay] = bay % 2 == parity;
    }
    return on != NULL;
}

/* Bays bent - 1 and bent, and every other one beyond. */
static bool add_pair(const bwi_plan *p, bwi_transfer *t, bool **flags, size_t bent)
{
    bool *on = add_pattern(p, t, flags,
                           bw_arena_print(p->arena, "people on both sides of bent %s",
                                          p->deck->bents[bent].name));
    for (size_t bay = 0; on != NULL && bay < p->n_bays; bay++) {
        on[bay] = bay >= bent ? (bay - bent) % 2 == 0 : (bent - 1 - bay) % 2 == 0;
    }
    return on != NULL;
}

bw_status bwi_patterns(const bwi_plan *p, bool ***flags, bwi_transfer *t)
{
    size_t n_run_on = 0;
    for (size_t bent = 1; bent < p->n_bays; bent++) {
        n_run_on += runs_on_over(p, bent) ? 1 : 0;
    }
    *flags = BW_NEW(p->arena, bool *, p->n_bays + 3);
    t->pattern = BW_NEW(p->arena, const char *, p->n_bays + 3);
    t->crowd = BW_NEW(p->arena, double *, p->n_bays + 3);
    if (*flags == NULL || t->pattern == NULL || t->crowd == NULL) {
        return BW_E_MEMORY;
    }
    bool *all = add_pattern(p, t, *flags, "people on all bays");
    if (all == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        all[bay] = true;
    }
    if (n_run_on > 0 &&
        (!add_alternate(p, t, *flags, 0) || !add_alternate(p, t, *flags, 1))) {
        return BW_E_MEMORY;
    }
    /* also where logs end on a bent, but run on over the next one */
    for (size_t bent = 1; n_run_on > 0 && bent < p->n_bays; bent++) {
        if (!add_pair(p, t, *flags, bent)) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}
