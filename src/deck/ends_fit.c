/* Whether joints and braces end where there is wood: in heights and along the deck, as
 * the plan lays the logs. What they could hold there is left to the checks. */
#include "internal.h"

#include <math.h>

static const char *words(const bwi_plan *p, double length)
{
    const char *text = bw_length_print_small(p->arena, length, p->deck->units);
    return text != NULL ? text : "?";
}

/* The stringer on the row that lies on its cap or post at the bent, or -1. */
static int bearing_stringer(const bwi_plan *p, int row, size_t bent)
{
    for (int side = BWI_BEFORE; side <= BWI_AFTER; side++) {
        const int stringer = bwi_stringer_at(p, row, bent, (bwi_side)side);
        const int joint = bwi_end_joint(p, row, bent, (bwi_side)side);
        if (stringer >= 0 && (joint < 0 || !p->deck->joints[joint].hung)) {
            return stringer;
        }
    }
    return -1;
}

/* Height that a post really reaches: what lies on it, cap or stringer, ends it; only one
 * on which all hangs stands up beside the stringers. */
static double post_reach(const bwi_plan *p, size_t bent, const bw_post *post)
{
    const bool beside =
        p->deck->bents[bent].cap < 0 && bearing_stringer(p, post->row, bent) < 0;
    return beside ? bwi_row_height(p, post->row, bent) : bwi_plan_post(p, bent, post).top;
}

/* ---- stringers hung on posts ---- */

/* A measured post on which all hangs is longer by half a stringer than one under it. */
static void fit_post_log(const bwi_plan *p, size_t bent, const bw_post *post, bw_diags *d)
{
    const double own = p->deck->logs[post->log].length;
    const bwi_post_place place = bwi_plan_post(p, bent, post);
    const double built = bwi_row_height(p, post->row, bent) + place.foot_depth;
    const bool told = own < (place.top + place.foot_depth) * (1.0 - 1e-9);
    if (own > 0.0 && own < built * (1.0 - 1e-9) && !told) {
        bw_diags_error(d, "deck.short_log", post->case_path,
                       "use a longer log, or let the stringers bear on it",
                       "the log of post %s is %.3g m long; for stringers to hang on its "
                       "side it needs %.3g m",
                       post->name, own, built);
    }
}

/* True if it is told. */
static bool fit_hung(const bwi_plan *p, const bw_joint_place *j, bw_diags *d)
{
    const bw_stringer *s = &p->deck->stringers[j->stringer];
    const bw_bent *b = &p->deck->bents[j->bent];
    const int k = bwi_post_of_row(b, s->row);
    if (!j->hung || j->into_cap || k < 0) {
        return false; /* no post: told elsewhere */
    }
    const size_t bent = (size_t)j->bent;
    const int bears = bearing_stringer(p, s->row, bent);
    if (b->cap < 0 && bears < 0) {
        fit_post_log(p, bent, &b->posts[k], d);
        return false;
    }
    const char *over =
        b->cap >= 0 ? "under the cap"
                    : bw_arena_print(p->arena, "under stringer %s that bears on it",
                                     p->deck->stringers[bears].name);
    bw_diags_error(
        d, "deck.hung", j->case_path,
        b->cap >= 0
            ? "let the stringer bear on the cap, or give the bent no cap, so that "
              "its posts stand up beside what hangs on them"
            : "let both ends bear on the post, or hang both on its side",
        "stringer %s cannot hang on post %s: the axis of the stringer is %s above the "
        "ground at bent %s, and the post ends %s up, %s",
        s->name, b->posts[k].name, words(p, bwi_row_height(p, s->row, bent)), b->name,
        words(p, bwi_plan_post(p, bent, &b->posts[k]).top), over != NULL ? over : "");
    return true;
}

/* ---- braces on posts ---- */

static void fit_brace_end(const bwi_plan *p, const bw_brace *brace,
                          const bw_brace_end *end, bw_diags *d)
{
    const bw_bent *b = &p->deck->bents[end->bent];
    const int k = end->on_cap || end->on_stringer ? -1 : bwi_post_of_row(b, end->row);
    if (k < 0) {
        return;
    }
    const double reach = post_reach(p, (size_t)end->bent, &b->posts[k]);
    if (end->height > reach + 1e-6) {
        bw_diags_error(d, "deck.high_brace", brace->case_path,
                       "end it lower on the post, with wood above it",
                       "brace %s would end %s above the ground on post %s of bent %s, "
                       "which reaches up to %s only",
                       brace->name, words(p, end->height), b->posts[k].name, b->name,
                       words(p, reach));
    }
}

void bwi_ends_fit(const bwi_plan *p, bw_diags *d)
{
    const char *told = NULL; /* one entry may speak of many ends: told once */
    for (size_t k = 0; k < p->deck->n_joints; k++) {
        const bw_joint_place *j = &p->deck->joints[k];
        if (j->stringer >= 0 && (told == NULL || j->case_path != told) &&
            fit_hung(p, j, d)) {
            told = j->case_path;
        }
    }
    for (size_t k = 0; k < p->deck->n_braces; k++) {
        fit_brace_end(p, &p->deck->braces[k], &p->deck->braces[k].from, d);
        fit_brace_end(p, &p->deck->braces[k], &p->deck->braces[k].to, d);
    }
}

/* ---- along the deck ---- */

static double support_diameter(const bwi_plan *p, int row, size_t bent)
{
    const bw_bent *b = &p->deck->bents[bent];
    if (b->cap >= 0) {
        return bwi_cap_diameter(p, bent, p->deck->rows[row].across);
    }
    const bwi_post_place post =
        bwi_plan_post(p, bent, &b->posts[bwi_post_of_row(b, row)]);
    return bwi_post_diameter(p, &post, post.top);
}

/* From the end of the stringer to the far side of what it is fastened to [m]: half of
 * that, and what the log goes on past its middle. Infinite where there is no end, where
 * the fasteners run into it or aslant, and where a log that nobody measured has no
 * neighbour: it may stick out as far as it likes. */
static double room(const bwi_plan *p, const bw_joint_place *j)
{
    const bw_stringer *s = &p->deck->stringers[j->stringer];
    const size_t bent = (size_t)j->bent;
    const bool measured = p->deck->logs[s->log].length > 0.0;
    const bool neighbour = bwi_stringer_at(p, s->row, bent, BWI_BEFORE) >= 0 &&
                           bwi_stringer_at(p, s->row, bent, BWI_AFTER) >= 0;
    const bool ends = j->bent == s->from || j->bent == s->to;
    if (!ends || j->into_cap || j->fasteners.toe || !(measured || neighbour)) {
        return (double)INFINITY;
    }
    return support_diameter(p, s->row, bent) / 2.0 + bwi_log_beyond(p, j->stringer);
}

void bwi_fit_end_distances(bwi_plan *p, bw_diags *d)
{
    for (size_t k = 0; k < p->deck->n_joints; k++) {
        const bw_joint_place *j = &p->deck->joints[k];
        const double most = j->stringer >= 0 ? room(p, j) : (double)INFINITY;
        if (!(j->fasteners.end > most)) {
            continue;
        }
        p->joints[k].fasteners.end = 0.0;
        bw_diags_warn(
            d, "deck.end_distance", j->case_path,
            "measure it again, and the log's \"length\": one that is not longer "
            "than its place ends over the middle of its support",
            "fasteners %s from the end of stringer %s would miss what it lies or "
            "hangs on at bent %s: that is at most %s away. The distance is not "
            "counted",
            words(p, j->fasteners.end), p->deck->stringers[j->stringer].name,
            p->deck->bents[j->bent].name, words(p, most));
    }
}
