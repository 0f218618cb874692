/* case_bents.c - bents and their posts. A key that a bent does not give is taken from
 * "every_bent"; what is wrong there is said once, at its own place. */
#include "case.h"

#include <math.h>
#include <stdlib.h>

static const bwi_range station_range = {-500.0, 500.0, false}; /* [m] */
static const bwi_range height_range = {0.05, 10.0, false};     /* [m] */
static const bwi_range hole_depth_range = {0.1, 3.0, false};   /* [m] */
static const bwi_range hole_width_range = {0.1, 2.0, false};   /* [m] */

/* Words are read by their place in a list; the list follows the enumeration. */
_Static_assert(BW_FOOT_HOLE == 0 && BW_FOOT_PAD == 1 && BW_FOOT_FIXED == 2,
               "hole, pad, fixed");

static bwi_at own_or_every(const bwi_case_reader *r, const bwi_at *bent, const char *key)
{
    const bwi_at own = bwi_key(bent, key);
    return own.node != NULL ? own : bwi_key(&r->every_bent, key);
}

/* ---- posts ---- */

static void hole_read(const bwi_case_reader *r, const bwi_at *at, bw_post *post)
{
    const bwi_at depth = bwi_key(at, "hole_depth");
    const bwi_at ground = bwi_key(&r->root, "ground");
    const bool has_soil =
        bwi_key(at, "soil").node != NULL || bwi_key(&ground, "soil").node != NULL;
    if (depth.node == NULL || !has_soil) {
        bwi_error(
            at, "post.hole", NULL,
            "add \"hole_depth\" and \"soil\" (gravel, sand or clay), or write \"foot\": "
            "\"pad\" if the post stands on the ground",
            "a post in a hole without %s%s%s", depth.node == NULL ? "\"hole_depth\"" : "",
            depth.node == NULL && !has_soil ? " and " : "", !has_soil ? "\"soil\"" : "");
    }
    bwi_measure(&depth, BW_LENGTH, hole_depth_range, &post->hole_depth);
    const bwi_at width = bwi_key(at, "hole_width");
    bwi_measure(&width, BW_LENGTH, hole_width_range, &post->hole_width);
}

/* A hole that the foot does not stand in: one of the two is wrong. A pad stands on soil.
 */
static void hole_refuse(const bwi_at *at, bw_foot foot)
{
    static const char *const keys[] = {"hole_depth", "hole_width", "soil"};
    const size_t n_keys = BWI_COUNT(keys) - (foot == BW_FOOT_PAD ? 1 : 0);
    for (size_t i = 0; i < n_keys; i++) {
        const bwi_at key = bwi_key(at, keys[i]);
        if (key.node != NULL) {
            bwi_key_error(&key, "post.no_hole", NULL,
                          "leave it out, or write \"foot\": \"hole\"",
                          "a post with \"foot\": \"%s\" stands in no hole",
                          foot == BW_FOOT_PAD ? "pad" : "fixed");
        }
    }
}

static void post_read(const bwi_case_reader *r, const bwi_at *at, const char *bent,
                      bw_post *post)
{
    *post = (bw_post){.row = -1, .log = -1, .case_path = bwi_pointer(at)};
    if (!BWI_OBJECT(at, "row", "log", "foot", "hole_depth", "hole_width", "soil", "pad",
                    "tip_down")) {
        return;
    }
    const bwi_at row = bwi_need(at, "row");
    bwi_reference(&row, &r->row_names, &post->row);
    const bwi_at log = bwi_need(at, "log");
    bwi_reference(&log, &r->log_names, &post->log);
    if (bent != NULL && post->row >= 0) {
        post->name = bwi_print(r->doc, "%s %s", bent, r->rows[post->row].name);
    }
    const bwi_at tip_down = bwi_key(at, "tip_down");
    bwi_flag(&tip_down, &post->tip_down);
    int foot = BW_FOOT_HOLE;
    const bwi_at foot_at = bwi_key(at, "foot");
    if (foot_at.node != NULL && !BWI_WORD(&foot_at, &foot, "hole", "pad", "fixed")) {
        return;
    }
    post->foot = (bw_foot)foot;
    if (post->foot == BW_FOOT_HOLE) {
        hole_read(r, at, post);
    } else {
        hole_refuse(at, post->foot);
    }
    bwi_case_pad(at, post);
    post->soil = bwi_case_soil(r, at);
}

/* One post of a bent stands in each row at most. */
static void rows_compare(const bwi_case_reader *r, const bwi_at *list,
                         const bw_post *posts, size_t count)
{
    bool *taken = bwi_new(r->doc, r->out->n_rows, sizeof *taken);
    for (size_t i = 0; taken != NULL && i < count; i++) {
        if (posts[i].row >= 0 && taken[posts[i].row]) {
            const bwi_at post = bwi_nth(list, i);
            const bwi_at row = bwi_key(&post, "row");
            bwi_error(&row, "post.row", NULL, "give each post of a bent a row of its own",
                      "another post of this bent stands in the row %s",
                      bwi_as_written(&row));
        } else if (posts[i].row >= 0) {
            taken[posts[i].row] = true;
        }
    }
}

static void posts_read(const bwi_case_reader *r, const bwi_at *list, bw_bent *bent)
{
    const size_t count = bwi_list(list, 1, bwi_most_rows) ? bwi_count(list) : 0;
    bw_post *posts = bwi_new(r->doc, count, sizeof *posts);
    if (posts == NULL || count == 0) {
        return;
    }
    bwi_at item = bwi_first(list);
    for (size_t i = 0; i < count; i++, bwi_next(&item)) {
        post_read(r, &item, bent->name, &posts[i]);
    }
    rows_compare(r, list, posts, count);
    bent->posts = posts;
    bent->n_posts = count;
}

/* ---- bents ---- */

static bool has(const bwi_at *at, const char *key)
{
    return bwi_key(at, key).node != NULL;
}

/* Whether the one object describes posts, a sill, or (-1, reported) both; 0 for neither.
 */
enum { no_support, on_posts, on_sill, on_both = -1 };

static int support_kind(const bwi_at *at)
{
    const bool sill = has(at, "sill");
    const bool posts = has(at, "posts") || has(at, "cap");
    if (sill && posts) {
        const bwi_at sill_at = bwi_key(at, "sill");
        bwi_key_error(&sill_at, "bent.both", NULL,
                      "a sill lies on the ground: keep it, or the cap and the posts",
                      "a bent with a sill has no cap and no posts");
        return on_both;
    }
    return sill ? on_sill : posts ? on_posts : no_support;
}

static void support_read(const bwi_case_reader *r, const bwi_at *at, bw_bent *bent)
{
    int kind = support_kind(at);
    if (kind == no_support) {
        kind = support_kind(&r->every_bent);
    }
    if (kind == on_sill) {
        const bwi_at sill = own_or_every(r, at, "sill");
        bent->is_sill = true;
        bwi_reference(&sill, &r->log_names, &bent->cap);
    }
    if (kind == on_posts) {
        const bwi_at cap = own_or_every(r, at, "cap");
        bwi_reference(&cap, &r->log_names, &bent->cap);
    }
    const bwi_at posts = own_or_every(r, at, "posts");
    if (kind == on_posts && posts.node != NULL) {
        posts_read(r, &posts, bent);
    } else if (kind == no_support || kind == on_posts) {
        bwi_error(at, "bent.support", NULL,
                  "add \"posts\", or \"sill\" with the log that lies on the ground",
                  "a bent with neither posts nor a sill");
    }
}

static void bent_read(const bwi_case_reader *r, const bwi_at *at, bw_bent *bent)
{
    *bent = (bw_bent){.at = (double)NAN,
                      .deck_height = (double)NAN,
                      .cap = -1,
                      .case_path = bwi_pointer(at)};
    if (!BWI_OBJECT(at, "name", "at", "deck_height", "cap", "posts", "sill")) {
        return;
    }
    const bwi_at name = bwi_need(at, "name");
    bwi_name(&name, &bent->name);
    const bwi_at station = bwi_need(at, "at");
    bwi_measure(&station, BW_LENGTH, station_range, &bent->at);
    const bwi_at every = bwi_key(&r->every_bent, "deck_height");
    const bwi_at height = every.node != NULL ? own_or_every(r, at, "deck_height")
                                             : bwi_need(at, "deck_height");
    bwi_measure(&height, BW_LENGTH, height_range, &bent->deck_height);
    support_read(r, at, bent);
}

/* Reads the defaults as they stand, so that faults in unused ones are found as well. */
static void every_bent_read(bwi_case_reader *r)
{
    r->every_bent = bwi_key(&r->root, "every_bent");
    if (!BWI_OBJECT(&r->every_bent, "deck_height", "cap", "posts", "sill")) {
        return;
    }
    bw_bent unused = {.cap = -1};
    const bwi_at height = bwi_key(&r->every_bent, "deck_height");
    bwi_measure(&height, BW_LENGTH, height_range, &unused.deck_height);
    const bwi_at cap = bwi_key(&r->every_bent, "cap");
    bwi_reference(&cap, &r->log_names, &unused.cap);
    const bwi_at sill = bwi_key(&r->every_bent, "sill");
    bwi_reference(&sill, &r->log_names, &unused.cap);
    const bwi_at posts = bwi_key(&r->every_bent, "posts");
    posts_read(r, &posts, &unused);
}

/* ---- order along the deck ---- */

typedef struct {
    bw_bent bent;
    size_t item;
} placed;

/* Those without a known station come last, in the order of the file. */
static int compare_stations(const void *left, const void *right)
{
    const placed *a = left;
    const placed *b = right;
    if (isnan(a->bent.at) || isnan(b->bent.at)) {
        const int lost = (isnan(a->bent.at) ? 1 : 0) - (isnan(b->bent.at) ? 1 : 0);
        return lost != 0 ? lost : (a->item > b->item) - (a->item < b->item);
    }
    if (a->bent.at < b->bent.at || a->bent.at > b->bent.at) {
        return a->bent.at < b->bent.at ? -1 : 1;
    }
    return (a->item > b->item) - (a->item < b->item);
}

static void bents_order(bwi_case_reader *r, placed *all, size_t count)
{
    r->bents = bwi_new(r->doc, count, sizeof *r->bents);
    r->bent_item = bwi_new(r->doc, count, sizeof *r->bent_item);
    r->bent_rank = bwi_new(r->doc, count, sizeof *r->bent_rank);
    if (r->bents == NULL || r->bent_item == NULL || r->bent_rank == NULL) {
        return;
    }
    qsort(all, count, sizeof *all, compare_stations);
    for (size_t i = 0; i < count; i++) {
        r->bents[i] = all[i].bent;
        r->bent_item[i] = all[i].item;
        r->bent_rank[all[i].item] = i;
    }
    r->out->bents = r->bents;
    r->out->n_bents = count;
}

static void places_check(const bwi_case_reader *r, size_t n_bents)
{
    const size_t n_rows = r->out->n_rows;
    if (n_rows * n_bents > (size_t)bwi_most_places) {
        bwi_error(&r->bent_list, "deck.places",
                  bwi_print(r->doc, "rows times bents at most %d, because of the memory",
                            (int)bwi_most_places),
                  "check the deck in parts that share a bent",
                  "%zu bents with %zu rows are %zu places of posts", n_bents, n_rows,
                  n_rows * n_bents);
    }
}

void bwi_case_bents(bwi_case_reader *r)
{
    every_bent_read(r);
    r->bent_list = bwi_need(&r->root, "bents");
    const size_t count =
        bwi_list(&r->bent_list, 2, bwi_most_bents) ? bwi_count(&r->bent_list) : 0;
    placed *all = bwi_new(r->doc, count, sizeof *all);
    const char **names = bwi_new(r->doc, count, sizeof *names);
    if (all == NULL || names == NULL) {
        return;
    }
    bwi_at item = bwi_first(&r->bent_list);
    for (size_t i = 0; i < count; i++, bwi_next(&item)) {
        bent_read(r, &item, &all[i].bent);
        all[i].item = i;
        names[i] = all[i].bent.name;
    }
    bwi_names_make(&r->bent_list, "bent", "name", names, count, &r->bent_names);
    bents_order(r, all, count);
    places_check(r, count);
}
