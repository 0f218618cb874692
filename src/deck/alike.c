/* Rows that are the same but for their place across the deck: what was found for one
 * holds for the other, and is not looked for again. Only rows that stand on caps and
 * sills, with no post of their own, in a deck without braces and joints: nothing else is
 * filed under such a row than its stringers. Results are those of a search
 * (tests/deck/test_alike.c).
 */
#include "internal.h"

#include <math.h>

/* Shares of mirrored rows differ by rounding. */
static bool near(double a, double b)
{
    return fabs(a - b) <= 1e-12 * fmax(fabs(a), fabs(b));
}

static bool same_stringer(const bw_stringer *a, const bw_stringer *b)
{
    return a->log == b->log && a->from == b->from && a->to == b->to &&
           a->butt_at_to == b->butt_at_to;
}

static bool same_bay(const bwi_plan *p, int a, int b, size_t bay)
{
    const bwi_part_of_stringer *pa = bwi_plan_part(p, a, bay);
    const bwi_part_of_stringer *pb = bwi_plan_part(p, b, bay);
    if (pa->stringer < 0 || pb->stringer < 0) {
        return pa->stringer < 0 && pb->stringer < 0;
    }
    const bwi_share *sa = bwi_plan_share(p, a, bay), *sb = bwi_plan_share(p, b, bay);
    return same_stringer(&p->deck->stringers[pa->stringer],
                         &p->deck->stringers[pb->stringer]) &&
           near(sa->dead_width, sb->dead_width) &&
           near(sa->crowd_width, sb->crowd_width) &&
           near(sa->rider_share, sb->rider_share);
}

static bool same_seat(const bwi_plan *p, int a, int b, size_t bent)
{
    const double xa = p->deck->rows[a].across, xb = p->deck->rows[b].across;
    return p->deck->bents[bent].n_posts == 0 &&
           near(bwi_cap_diameter(p, bent, xa), bwi_cap_diameter(p, bent, xb)) &&
           near(bwi_cap_beyond(p, bent, xa), bwi_cap_beyond(p, bent, xb));
}

int bwi_row_like(const bwi_plan *p, int row)
{
    const bool plain = p->deck->n_braces == 0 && p->deck->n_joints == 0;
    for (int before = 0; before < row && plain; before++) {
        bool alike = true;
        for (size_t k = 0; alike && k < p->deck->n_bents; k++) {
            alike = same_seat(p, before, row, k) &&
                    (k == p->n_bays || same_bay(p, before, row, k));
        }
        if (alike) {
            return before;
        }
    }
    return -1;
}

static void copy_stringer(bwi_tracker *t, int row, int from, int to)
{
    bwi_member_record *record = bwi_record_of(t, (size_t)to);
    for (int kind = 0; record != NULL && kind < BW_CHECK_KIND_COUNT; kind++) {
        bwi_worst *worst = &record->worst[kind];
        *worst = *bwi_tracked(t, (size_t)from, kind);
        if (worst->event.rider.present && worst->event.rider.row >= 0) {
            worst->event.rider.row = row;
        }
    }
    t->lift[to] = t->lift[from];
}

void bwi_row_copy(bwi_tracker *t, int from, int to)
{
    const bwi_plan *p = t->plan;
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        const int stringer = bwi_plan_part(p, from, bay)->stringer;
        if (stringer >= 0) {
            copy_stringer(t, to, stringer, bwi_plan_part(p, to, bay)->stringer);
        }
    }
}
