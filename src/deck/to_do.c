/* What a builder has to see to because no check knows it: pads as thick as they have to
 * be, ends of logs beyond the deck, notches that braces sit in, hollow logs, and what
 * holds the deck down. */
#include "internal.h"

#include <math.h>

static const char *small(const bwi_plan *p, double value)
{
    const char *text = bw_length_print_small(p->arena, value, p->deck->units);
    return text != NULL ? text : "?";
}

/* ---- pads ---- */

/* How far the pad of a post goes beyond it all round, as a round one [m]. */
static double beyond_post(const bwi_plan *p, size_t bent, const bw_post *post)
{
    const bwi_post_place place = bwi_plan_post(p, bent, post);
    const double pi = 3.14159265358979323846;
    return (2.0 * sqrt(post->pad_area / pi) -
            bwi_post_diameter(p, &place, -place.foot_depth)) /
           2.0;
}

/* At 45 degrees. A strip as thick as it sticks out bends with 3 q: 0.43 MPa on the 144
 * kPa of gravel, which plain concrete and stone bear in tension, and wood by far; half as
 * thick, with four times that, which they do not. */
static bw_status add_pads(const bwi_plan *p, bw_assessment *out)
{
    static const double nothing = 0.02; /* [m] */
    const bw_case *deck = p->deck;
    const char *name = NULL;
    double most = nothing;
    for (size_t k = 0; k < deck->n_bents; k++) {
        for (size_t j = 0; j < deck->bents[k].n_posts; j++) {
            const double beyond = beyond_post(p, k, &deck->bents[k].posts[j]);
            if (beyond > most) {
                most = beyond;
                name = deck->bents[k].posts[j].name;
            }
        }
    }
    if (name == NULL) {
        return BW_OK;
    }
    return bwi_add_to_do(
        p, out, BW_MARK_JUDGEMENT,
        "NOT CHECKED: how pads bend; load spreads at 45 degrees",
        bw_arena_print(p->arena,
                       "make pads as thick as they stick out beyond their post: at "
                       "least %s under post %s; they count with all their area",
                       small(p, most), name));
}

/* ---- ends of logs ---- */

/* The log may lie so that all that it is longer than its place is beyond an end bent. */
static bw_status add_ends(const bwi_plan *p, bw_assessment *out)
{
    static const double usual = 0.6; /* [m] 0.3 at either end (JUDGEMENT) */
    const bw_case *deck = p->deck;
    const char *name = NULL;
    double most = usual;
    for (size_t k = 0; k < deck->n_stringers; k++) {
        const bw_stringer *s = &deck->stringers[k];
        const double more = deck->logs[s->log].length - p->stringer_length[k];
        const bool outer = s->from == 0 || s->to == (int)p->n_bays;
        if (outer && more > most) {
            most = more;
            name = s->name;
        }
    }
    if (name == NULL) {
        return BW_OK;
    }
    const char *beyond = bw_quantity_print(p->arena, BW_LENGTH, most, deck->units);
    return bwi_add_to_do(
        p, out, BW_MARK_COMPUTED, "NOT CHECKED: ends of logs beyond the deck",
        bw_arena_print(p->arena,
                       "lay no boards beyond the end bents, and let nobody ride or "
                       "stand there, or cut logs off: they stick out by up to %s "
                       "(stringer %s)",
                       beyond != NULL ? beyond : "?", name));
}

/* ---- notches of braces ---- */

/* Where a brace's end meets a log: how far a notch of that log is from there [m]. */
static double from_post(const bwi_plan *p, const bw_brace_end *e, const bw_notch *n)
{
    const bw_bent *b = &p->deck->bents[e->bent];
    const bwi_post_place place =
        bwi_plan_post(p, (size_t)e->bent, &b->posts[bwi_post_of_row(b, e->row)]);
    return fabs(bwi_post_notch_height(&place, n) - e->height);
}

static double from_cap(const bwi_plan *p, const bw_brace_end *e, const bw_notch *n)
{
    return fabs(p->caps[e->bent].across + n->from_butt - p->deck->rows[e->row].across -
                e->beside);
}

static double from_stringer(const bwi_plan *p, const bw_brace_end *e, const bw_notch *n)
{
    const bool ahead = e->beside > 0.0;
    const bwi_part_of_stringer *part =
        bwi_plan_part(p, e->row, (size_t)(ahead ? e->bent : e->bent - 1));
    const double at = part->from_first + (ahead ? 0.0 : part->length) + e->beside;
    return fabs(bwi_stringer_from_butt(p, part->stringer, n->from_butt) - at);
}

static int log_at(const bwi_plan *p, const bw_brace_end *e)
{
    const bw_bent *b = &p->deck->bents[e->bent];
    if (e->on_stringer) {
        const size_t bay = (size_t)(e->beside > 0.0 ? e->bent : e->bent - 1);
        const int stringer =
            bay < p->n_bays ? bwi_plan_part(p, e->row, bay)->stringer : -1;
        return stringer >= 0 ? p->deck->stringers[stringer].log : -1;
    }
    return e->on_cap ? b->cap : b->posts[bwi_post_of_row(b, e->row)].log;
}

/* The log has a notch there that is as deep; braces come from below. */
static bool is_told(const bwi_plan *p, const bw_brace_end *e, double depth)
{
    static const double near = 0.1; /* [m] */
    const int log = log_at(p, e);
    for (size_t k = 0; log >= 0 && k < p->deck->logs[log].n_notches; k++) {
        const bw_notch *n = &p->deck->logs[log].notches[k];
        const double away = e->on_stringer ? from_stringer(p, e, n)
                            : e->on_cap    ? from_cap(p, e, n)
                                           : from_post(p, e, n);
        const bool faces = n->side == BW_SIDE_BOTTOM || !(e->on_stringer || e->on_cap);
        if (away < near && faces && n->depth >= depth * (1.0 - 1e-9)) {
            return true;
        }
    }
    return false;
}

static bw_status add_notches(const bwi_plan *p, bw_assessment *out)
{
    const bw_case *deck = p->deck;
    double most = 0.0;
    const char *name = NULL;
    for (size_t k = 0; k < 2 * deck->n_braces; k++) {
        const bw_brace *b = &deck->braces[k / 2];
        const int joint = p->brace_joint[k];
        const double notch = joint >= 0 ? deck->joints[joint].notch : 0.0;
        if (notch > deck->limits.seat_depth * (1.0 + 1e-9) && notch > most &&
            !is_told(p, k % 2 == 0 ? &b->from : &b->to, notch)) {
            most = notch;
            name = b->name;
        }
    }
    if (name == NULL) {
        return BW_OK;
    }
    return bwi_add_to_do(
        p, out, BW_MARK_COMPUTED, "NOT CHECKED: what notches of braces leave of a log",
        bw_arena_print(p->arena,
                       "describe every notch that a brace sits in deeper than seats "
                       "(up to %s, brace %s) as one of the log that it is cut into "
                       "(\"notches\" of the post, cap or stringer), and check again",
                       small(p, most), name));
}

/* ---- hollow logs ---- */

static bool is_used(const bw_case *deck, size_t log)
{
    const size_t n = bw_deck_member_count(deck);
    bool used = false;
    for (size_t k = 0; k < n && !used; k++) {
        used = bw_deck_member_at(deck, k).log == (int)log;
    }
    return used;
}

/* What the sections of members take off, seats and joints do not. */
static bw_status add_hollow(const bwi_plan *p, bw_assessment *out)
{
    enum { NAMED = 4 };
    const bw_case *deck = p->deck;
    bw_text names = bw_text_new(p->arena);
    size_t count = 0;
    for (size_t k = 0; k < deck->n_logs; k++) {
        if (bwi_is_hollow(&deck->logs[k]) && is_used(deck, k) && count++ < NAMED) {
            bw_text_print(&names, "%s%s", count > 1 ? ", " : "", deck->logs[k].name);
        }
    }
    if (count > NAMED) {
        bw_text_print(&names, " and %zu more", count - NAMED);
    }
    if (count == 0) {
        return BW_OK;
    }
    return bwi_add_to_do(
        p, out, BW_MARK_JUDGEMENT, "NOT CHECKED: shells crushed by what bears on them",
        bw_arena_print(p->arena,
                       "tap hollow logs (%s) where they bear and where logs bear on "
                       "them: they must be solid there, as the checks of seats count "
                       "them",
                       bw_text_string(&names)));
}

/* ---- what lies on the deck for good ---- */

/* Uplift and what lifts off its seats are checked with it alone. */
static bw_status add_extra(const bwi_plan *p, bw_assessment *out)
{
    const double extra = p->deck->loads.extra_dead;
    if (!(extra > 0.0)) {
        return BW_OK;
    }
    const char *text = bw_quantity_print(p->arena, BW_PRESSURE, extra, p->deck->units);
    return bwi_add_to_do(
        p, out, BW_MARK_COMPUTED, "NOT CHECKED: the deck without it",
        bw_arena_print(p->arena,
                       "what lies on the deck for good (%s) is counted as holding it "
                       "down too: it must lie there before anybody is on it; check "
                       "again without it before it is taken off",
                       text != NULL ? text : "?"));
}

bw_status bwi_to_do(const bwi_plan *p, bw_assessment *out)
{
    BW_TRY(add_pads(p, out));
    BW_TRY(add_ends(p, out));
    BW_TRY(add_notches(p, out));
    BW_TRY(add_hollow(p, out));
    return add_extra(p, out);
}
