/* buckled.c - which way a row or a bent goes when it buckles: the shape at its lowest
 * factor, kept post by post.
 *
 * A post between two joints is drawn as the cubic through their shifts and turns, bent
 * to where its middle really goes; where its head is hinged, the cubic without a moment
 * there. The shape has no size of its own:
 * the largest shift counts as 1. */
#include "internal.h"

#include <math.h>
#include <string.h>

enum { N = BW_BUCKLED_PLACES };

static bw_buckled *new_shapes(bw_arena *arena, size_t n_shapes, const size_t *n_posts)
{
    bw_buckled *shapes = BW_NEW(arena, bw_buckled, n_shapes + 1);
    for (size_t k = 0; shapes != NULL && k < n_shapes; k++) {
        shapes[k].factor = HUGE_VAL;
        shapes[k].posts = BW_NEW(arena, bw_buckled_post, n_posts[k] + 1);
        if (shapes[k].posts == NULL) {
            return NULL;
        }
    }
    return shapes;
}

bw_status bwi_buckled_make(const bwi_plan *p, bw_buckled **rows, bw_buckled **bents)
{
    const bw_case *deck = p->deck;
    size_t *of_row = BW_NEW(p->arena, size_t, deck->n_rows + 1);
    size_t *of_bent = BW_NEW(p->arena, size_t, deck->n_bents + 1);
    if (of_row == NULL || of_bent == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < deck->n_bents; k++) {
        of_bent[k] = deck->bents[k].n_posts;
        for (size_t j = 0; j < deck->bents[k].n_posts; j++) {
            of_row[deck->bents[k].posts[j].row]++;
        }
    }
    *rows = new_shapes(p->arena, deck->n_rows, of_row);
    *bents = new_shapes(p->arena, deck->n_bents, of_bent);
    return *rows != NULL && *bents != NULL ? BW_OK : BW_E_MEMORY;
}

/* ---- the shape of one post ---- */

/* Cubic between two joints a length apart: shifts x, slopes s (per height), t from 0 to
 * 1. */
static double cubic(const double x[2], const double s[2], double length, double t)
{
    const double u = 1.0 - t;
    return x[0] * u * u * (1.0 + 2.0 * t) + x[1] * t * t * (3.0 - 2.0 * t) +
           length * t * u * (s[0] * u - s[1] * t);
}

static double shift_at(const bwi_chain *c, const bw_buckling *found, double height)
{
    const bw_motion *mode = found->mode;
    int k = 0;
    while (k + 1 < c->n && height > c->at[k + 1]) {
        k++;
    }
    const bw_motion *a = &mode[c->node[k]], *b = &mode[c->node[k + 1]];
    const double length = c->at[k + 1] - c->at[k], x[2] = {a->x, b->x};
    double slope[2] = {-a->r, -b->r}; /* turns count anticlockwise */
    if (k + 1 == c->n && c->hinge_top) {
        slope[1] = 1.5 * (x[1] - x[0]) / length - 0.5 * slope[0];
    }
    const double t = (height - c->at[k]) / length;
    /* local y of a post points back along x */
    const double middle = (x[0] + x[1]) / 2.0 - found->bow[c->first + k];
    const double more = middle - cubic(x, slope, length, 0.5);
    return cubic(x, slope, length, t) + more * 4.0 * t * (1.0 - t);
}

static void add_post(bw_buckled *out, const bwi_chain *c, const bw_buckling *found,
                     size_t bent, size_t post)
{
    bw_buckled_post *p = &out->posts[out->n_posts++];
    *p = (bw_buckled_post){.bent = bent, .post = post, .height = c->at[c->n]};
    for (int k = 0; k < N; k++) {
        p->shift[k] = shift_at(c, found, c->at[c->n] * k / (N - 1));
    }
}

/* The largest shift becomes 1, the way that things are pushed. */
static void to_size(bw_buckled *out, int direction)
{
    double most = 0.0;
    for (size_t k = 0; k < out->n_posts; k++) {
        for (int j = 0; j < N; j++) {
            const double x = out->posts[k].shift[j];
            most = fabs(x) > fabs(most) ? x : most;
        }
    }
    for (size_t k = 0; k < out->n_posts && most != 0.0; k++) {
        for (int j = 0; j < N; j++) {
            out->posts[k].shift[j] *= (direction < 0 ? -1.0 : 1.0) / most;
        }
    }
}

/* ---- other members ---- */

static bool is_of_post(const bwi_chain *chains, size_t n_chains, int member)
{
    for (size_t k = 0; k < n_chains; k++) {
        const bwi_chain *c = &chains[k];
        if (c->n > 0 && member >= c->first && member < c->first + c->n) {
            return true;
        }
    }
    return false;
}

/* Pieces of one log follow on each other, and count once. */
static void add_bowing(bw_buckled *out, const bw_frame *f, const bw_buckling *found,
                       const bwi_chain *chains, size_t n_chains)
{
    const double noticed = 0.25; /* of the largest shift of all */
    const char *last = "";
    for (int k = 0; k < bw_frame_describe(f).members; k++) {
        const char *name = bw_frame_member_name(f, k);
        if (name == NULL || fabs(found->bow[k]) < noticed || strcmp(last, name) == 0 ||
            is_of_post(chains, n_chains, k)) {
            continue;
        }
        if (out->n_bowing < BW_BUCKLED_NAMED) {
            out->bowing[out->n_bowing] = name;
        }
        out->n_bowing++;
        last = name;
    }
}

/* ---- rows and bents ---- */

static bool is_lower(const bw_buckled *kept, const bw_buckling *found)
{
    return found->mode != NULL && found->factor < kept->factor;
}

static void start(bw_buckled *out, const bw_buckling *found, const bwi_event *event)
{
    out->has = true;
    out->factor = found->factor;
    out->n_posts = out->n_bowing = 0;
    out->combination = event->combination;
    out->direction = event->direction;
}

void bwi_keep_buckled_row(const bwi_plan *p, const bwi_row_frame *f,
                          const bw_buckling *found, const bwi_event *event,
                          bw_buckled *out)
{
    if (!is_lower(out, found)) {
        return;
    }
    start(out, found, event);
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        const int post = bwi_row_post(p, f->row, bent);
        if (post >= 0 && f->posts[bent].n > 0) {
            add_post(out, &f->posts[bent], found, bent, (size_t)post);
        }
    }
    to_size(out, event->direction);
    add_bowing(out, f->frame, found, f->posts, p->deck->n_bents);
}

void bwi_keep_buckled_bent(const bwi_plan *p, const bwi_bent_frame *f,
                           const bw_buckling *found, const bwi_event *event,
                           bw_buckled *out)
{
    if (!is_lower(out, found)) {
        return;
    }
    start(out, found, event);
    for (size_t k = 0; k < p->deck->bents[f->bent].n_posts; k++) {
        if (f->posts[k].n > 0) {
            add_post(out, &f->posts[k], found, f->bent, k);
        }
    }
    to_size(out, event->direction);
    add_bowing(out, f->frame, found, f->posts, p->deck->bents[f->bent].n_posts);
}
