/* All frames and the searches in them: every row pushed either way, then the bents in a
 * few parts. Every part tracks by itself, in an arena of its own, and what the parts have
 * found is joined in their order: so it is the same on any number of threads. */
#include "internal.h"

#include <math.h>

/* ---- a part of the searches ---- */

typedef struct {
    bw_arena *arena, *kept; /* kept: what no search gives back */
    bwi_plan plan;          /* the one of all, with this arena */
    bwi_tracker tracker;
    bw_diags diags;
    bw_status status;
} part;

static bw_status start(part *out, const bwi_tracker *root)
{
    out->arena = bw_arena_new();
    out->kept = out->arena != NULL ? bw_arena_new() : NULL;
    if (out->kept == NULL || !bw_arena_attach(out->arena, out->kept)) {
        return BW_E_MEMORY;
    }
    out->plan = *root->plan;
    out->plan.arena = out->arena;
    out->diags = bw_diags_new(out->arena, NULL);
    return bwi_tracker_fork(root, &out->plan, out->kept, &out->tracker);
}

static bool has_failed(const part *done)
{
    return bw_arena_failed(done->arena) || bw_arena_failed(done->kept);
}

static void add_diags(const bw_diags *from, bw_diags *to)
{
    for (size_t k = 0; k < from->count; k++) {
        bw_diags_add(to, &from->items[k]);
    }
    to->failed = to->failed || from->failed;
}

/* wanted: else what it found is dropped. The arena goes to the root in any case. */
static bw_status end(part *done, bool wanted, bwi_tracker *root, bw_diags *d)
{
    if (done->arena == NULL) {
        return BW_E_MEMORY;
    }
    if (!bw_arena_attach(root->plan->arena, done->arena)) {
        return BW_E_MEMORY; /* and nothing of it is left */
    }
    if (!wanted) {
        return BW_OK;
    }
    add_diags(&done->diags, d);
    if (done->status == BW_OK || done->status == BW_E_MECHANISM) {
        bwi_tracker_join(root, &done->tracker);
    }
    return done->status;
}

/* A loose part does not stop the others, so that all are named: what does is kept. */
static bw_status worse(bw_status worst, bw_status status)
{
    const bool stopped = worst != BW_OK && worst != BW_E_MECHANISM;
    return status != BW_OK && !stopped ? status : worst;
}

/* ---- rows, and what they hand to the bents ---- */

static bw_status make_transfer(const bwi_plan *p, size_t n_posts, bwi_transfer *out,
                               bool ***patterns)
{
    const size_t n = p->deck->n_rows * p->deck->n_bents;
    out->dead = BW_NEW(p->arena, double, n);
    out->snow = BW_NEW(p->arena, double, n);
    out->post_moment = bw_arena_alloc_array(p->arena, n_posts, sizeof *out->post_moment);
    out->post_turned = bw_arena_alloc_array(p->arena, n_posts, sizeof *out->post_turned);
    if (out->dead == NULL || out->snow == NULL || out->post_moment == NULL ||
        out->post_turned == NULL) {
        return BW_E_MEMORY;
    }
    return bwi_patterns(p, patterns, out);
}

/* The rows pushed one way, and what they hand to the bents. */
typedef struct {
    bwi_row_frame *rows;
    bwi_transfer transfer;
} way;

enum { FORWARD, BACK, WAYS };

typedef struct {
    bwi_tracker *root;
    int threads;
    way ways[WAYS];
    bool **patterns;
    part *rows; /* WAYS per row */
    part *bents;
    size_t n_bent_parts;
    bool rows_stand;
} searches;

static bw_status make_ways(searches *s)
{
    const bwi_plan *p = s->root->plan;
    const size_t n_posts = s->root->first_brace - s->root->first_post;
    for (int k = 0; k < WAYS; k++) {
        s->ways[k].rows = BW_NEW(p->arena, bwi_row_frame, p->deck->n_rows);
        if (s->ways[k].rows == NULL) {
            return BW_E_MEMORY;
        }
        BW_TRY(make_transfer(p, n_posts, &s->ways[k].transfer, &s->patterns));
    }
    return BW_OK;
}

static bw_status search_forward(searches *s, part *own, int r)
{
    way *forward = &s->ways[FORWARD];
    bwi_row_frame *f = &forward->rows[r];
    BW_TRY(bwi_row_frame_make(&own->plan, r, 1, f, &own->diags));
    if (f->frame == NULL) {
        return BW_OK;
    }
    return bwi_row_like(&own->plan, r) >= 0
               ? bwi_hand_over(&own->tracker, f, &forward->transfer, s->patterns)
               : bwi_search_row(&own->tracker, f, &forward->transfer, s->patterns,
                                &own->diags);
}

/* A thread that is alone takes over the frame where it is the same both ways. Else it is
 * made twice, and what was said of it once is not said again. */
static bw_status make_back(const searches *s, part *own, int r, bwi_row_frame *out)
{
    const bwi_plan *p = &own->plan;
    const bwi_row_frame *forward = &s->ways[FORWARD].rows[r];
    if (s->threads == 1 &&
        bwi_same_both_ways(p, forward->brace_member, forward->slackened)) {
        *out = *forward;
        out->direction = -1;
        return BW_OK;
    }
    bw_diags told = bw_diags_new(own->arena, NULL);
    const bw_status status = bwi_row_frame_make(p, r, -1, out, &told);
    if (status != BW_OK || out->frame == NULL ||
        !bwi_same_both_ways(p, out->brace_member, out->slackened)) {
        add_diags(&told, &own->diags);
    }
    return status;
}

static bw_status search_back(searches *s, part *own, int r)
{
    way *back = &s->ways[BACK];
    bwi_row_frame *f = &back->rows[r];
    const part *forward = &s->rows[WAYS * r + FORWARD];
    const bool in_vain = s->threads == 1 && (forward->status != BW_OK ||
                                             s->ways[FORWARD].rows[r].frame == NULL);
    if (in_vain || bwi_row_like(&own->plan, r) >= 0) {
        return BW_OK;
    }
    BW_TRY(make_back(s, own, r, f));
    return f->frame == NULL ? BW_OK
                            : bwi_search_row(&own->tracker, f, &back->transfer,
                                             s->patterns, &own->diags);
}

static void row_job(void *context, size_t k)
{
    searches *s = context;
    part *own = &s->rows[k];
    const int r = (int)(k / WAYS);
    own->status = start(own, s->root);
    if (own->status == BW_OK) {
        own->status =
            k % WAYS == FORWARD ? search_forward(s, own, r) : search_back(s, own, r);
        own->status = has_failed(own) ? BW_E_MEMORY : own->status;
    }
}

static void keep_worse(double *a, const double *b)
{
    for (int c = 0; c < BW_COMBINATIONS_MAX; c++) {
        a[c] = !(b[c] <= a[c]) ? b[c] : a[c];
    }
}

/* Posts are bent by the worse of both ways; what is not a number stays. */
static void join_moments(searches *s)
{
    const size_t n = s->root->first_brace - s->root->first_post;
    bwi_transfer *a = &s->ways[FORWARD].transfer, *b = &s->ways[BACK].transfer;
    for (size_t k = 0; k < n; k++) {
        keep_worse(a->post_moment[k], b->post_moment[k]);
        keep_worse(a->post_turned[k], b->post_turned[k]);
    }
    b->post_moment = a->post_moment;
    b->post_turned = a->post_turned;
}

/* All arenas are taken over, whatever came first. A row that is loose one way says so
 * once. */
static bw_status end_rows(searches *s, bw_diags *d)
{
    bw_status worst = BW_OK;
    for (size_t k = 0; k < WAYS * s->root->plan->deck->n_rows; k++) {
        const bool stands = k % WAYS == FORWARD || s->rows[k - 1].status == BW_OK;
        worst = worse(worst, end(&s->rows[k], stands, s->root, d));
    }
    return worst;
}

static void copy_alike(searches *s)
{
    const bwi_plan *p = s->root->plan;
    for (int r = 0; r < (int)p->deck->n_rows; r++) {
        const int like = bwi_row_like(p, r);
        if (s->ways[FORWARD].rows[r].frame != NULL && like >= 0) {
            bwi_row_copy(s->root, like, r);
        }
    }
}

static bw_status run_rows(searches *s, bw_diags *d)
{
    const bwi_plan *p = s->root->plan;
    const size_t n = WAYS * p->deck->n_rows;
    s->rows = BW_NEW(p->arena, part, n);
    if (s->rows == NULL) {
        return BW_E_MEMORY;
    }
    bw_run_jobs(n, s->threads, row_job, s);
    BW_TRY(end_rows(s, d));
    join_moments(s);
    copy_alike(s);
    return BW_OK;
}

/* ---- bents ---- */

static bool is_slackened(const searches *s)
{
    bool any = false;
    for (size_t r = 0; r < s->root->plan->deck->n_rows; r++) {
        any =
            any || s->ways[FORWARD].rows[r].slackened || s->ways[BACK].rows[r].slackened;
    }
    return any;
}

/* The rows to read from, with influence lines that nobody else reads. */
static bw_status own_rows(const part *own, const bwi_row_frame *rows, bwi_row_frame **out)
{
    const size_t n = own->plan.deck->n_rows;
    *out = BW_NEW(own->arena, bwi_row_frame, n);
    for (size_t r = 0; *out != NULL && r < n; r++) {
        (*out)[r] = rows[r];
        if (rows[r].influence != NULL) {
            (*out)[r].influence = bw_influence_share(rows[r].influence, own->arena);
            if ((*out)[r].influence == NULL) {
                return BW_E_MEMORY;
            }
        }
    }
    return *out != NULL ? BW_OK : BW_E_MEMORY;
}

/* Without braces, and with those that also pull, rows hand down the same either way. */
static bw_status search_bents(const searches *s, part *own, size_t first, size_t end)
{
    bwi_row_frame *rows[WAYS];
    const int ways = is_slackened(s) ? WAYS : 1;
    bw_status worst = BW_OK;
    for (int w = 0; w < ways; w++) {
        BW_TRY(own_rows(own, s->ways[w].rows, &rows[w]));
    }
    for (size_t k = first; k < end; k++) {
        bw_status status = BW_OK;
        for (int w = 0; w < ways && status == BW_OK; w++) {
            status = bwi_search_bent(&own->tracker, rows[w], &s->ways[w].transfer, k,
                                     &own->diags);
        }
        if (status != BW_OK && status != BW_E_MECHANISM) {
            return status;
        }
        worst = status != BW_OK ? status : worst;
    }
    return worst;
}

/* Where a row is loose already: only to name what is loose here. */
static bw_status try_bents(part *own, size_t first, size_t end)
{
    bw_status worst = BW_OK;
    for (size_t k = first; k < end; k++) {
        bwi_bent_frame trial;
        const bw_status status =
            own->plan.deck->bents[k].n_posts > 0
                ? bwi_bent_frame_make(&own->plan, k, 1, &trial, &own->diags)
                : BW_OK;
        if (status != BW_OK && status != BW_E_MECHANISM) {
            return status;
        }
        worst = status != BW_OK ? status : worst;
    }
    return worst;
}

static void bent_job(void *context, size_t k)
{
    searches *s = context;
    part *own = &s->bents[k];
    const size_t n = s->root->plan->deck->n_bents;
    const size_t first = k * n / s->n_bent_parts, end = (k + 1) * n / s->n_bent_parts;
    own->status = start(own, s->root);
    if (own->status == BW_OK) {
        own->status =
            s->rows_stand ? search_bents(s, own, first, end) : try_bents(own, first, end);
        own->status = has_failed(own) ? BW_E_MEMORY : own->status;
    }
}

/* So many parts whoever does them. */
enum { BENT_PARTS = 4, BENTS_LEAST = 4 };

static bw_status run_bents(searches *s, bw_diags *d)
{
    const bwi_plan *p = s->root->plan;
    const size_t parts = p->deck->n_bents / BENTS_LEAST;
    s->n_bent_parts = parts < 1 ? 1 : parts > BENT_PARTS ? BENT_PARTS : parts;
    s->bents = BW_NEW(p->arena, part, s->n_bent_parts);
    if (s->bents == NULL) {
        return BW_E_MEMORY;
    }
    bw_run_jobs(s->n_bent_parts, s->threads, bent_job, s);
    bw_status worst = BW_OK;
    for (size_t k = 0; k < s->n_bent_parts; k++) {
        worst = worse(worst, end(&s->bents[k], true, s->root, d));
    }
    return worst;
}

/* ---- weight ---- */

static double frustum_weight(double density, double d_i, double d_j, double length)
{
    return 0.78539816339744830962 * (d_i * d_i + d_i * d_j + d_j * d_j) / 3.0 * length *
           density * bw_gravity;
}

/* Cap (or sill) and posts above ground, as long as they are built. */
static double bent_weight(const bwi_plan *p, size_t bent)
{
    const bw_bent *b = &p->deck->bents[bent];
    const bwi_cap_place *cap = &p->caps[bent];
    double sum = 0.0;
    if (b->cap >= 0) {
        sum += frustum_weight(bwi_log_density(p->deck, &p->deck->logs[b->cap]),
                              bwi_cap_diameter(p, bent, cap->across),
                              bwi_cap_diameter(p, bent, cap->across + cap->length),
                              cap->length);
    }
    for (size_t k = 0; k < b->n_posts; k++) {
        const bwi_post_place place = bwi_plan_post(p, bent, &b->posts[k]);
        sum += frustum_weight(bwi_log_density(p->deck, &p->deck->logs[b->posts[k].log]),
                              bwi_post_diameter(p, &place, 0.0),
                              bwi_post_diameter(p, &place, place.top), place.top);
    }
    return sum;
}

static double dead_weight(const bwi_plan *p, const bwi_transfer *transfer)
{
    double sum = 0.0;
    for (size_t k = 0; k < p->deck->n_rows * p->deck->n_bents; k++) {
        sum += transfer->dead[k];
    }
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        sum += bent_weight(p, bent);
    }
    return sum;
}

bw_status bwi_search_frames(bwi_tracker *t, int threads, double *weight, bw_diags *d)
{
    searches s = {.root = t, .threads = threads < 1 ? 1 : threads};
    BW_TRY(make_ways(&s));
    const bw_status rows = run_rows(&s, d);
    if (rows != BW_OK && rows != BW_E_MECHANISM) {
        return rows;
    }
    s.rows_stand = rows == BW_OK;
    const bw_status bents = run_bents(&s, d);
    *weight = dead_weight(t->plan, &s.ways[FORWARD].transfer);
    return bents != BW_OK ? bents : rows;
}
