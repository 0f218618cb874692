/* Decks as a whole, their members that are logs, by number, and decks that are the same
 * but for their logs. */
#include "internal.h"

#include <math.h>
#include <string.h>

double bw_deck_length(const bw_case *deck)
{
    return deck->n_bents > 1 ? deck->bents[deck->n_bents - 1].at - deck->bents[0].at
                             : 0.0;
}

double bw_deck_highest(const bw_case *deck)
{
    double height = 0.0;
    for (size_t k = 0; k < deck->n_bents; k++) {
        height = fmax(height, deck->bents[k].deck_height);
    }
    return height;
}

/* ---- members ---- */

typedef enum { NOWHERE, STRINGER, CAP, POST, BRACE } list;

/* Where the number of a member's log stands in the case; nowhere beyond the last. */
typedef struct {
    list list;
    size_t item, post; /* number in the list; of a cap or a post that of its bent */
    bw_deck_member member;
} place;

static bool cap_at(const bw_case *deck, size_t *i, place *out)
{
    for (size_t k = 0; k < deck->n_bents; k++) {
        const bw_bent *b = &deck->bents[k];
        if (b->cap >= 0 && (*i)-- == 0) {
            const char *role = b->is_sill ? "sill" : "cap";
            *out = (place){CAP, k, 0, {role, b->name, b->cap, b->case_path}};
            return true;
        }
    }
    return false;
}

static bool post_at(const bw_case *deck, size_t *i, place *out)
{
    for (size_t k = 0; k < deck->n_bents; k++) {
        const bw_bent *b = &deck->bents[k];
        if (*i < b->n_posts) {
            const bw_post *post = &b->posts[*i];
            *out = (place){POST, k, *i, {"post", post->name, post->log, post->case_path}};
            return true;
        }
        *i -= b->n_posts;
    }
    return false;
}

/* i becomes what is left of it behind the list that did not hold it. */
static place place_at(const bw_case *deck, size_t i)
{
    place out = {.member = {.log = -1}};
    if (i < deck->n_stringers) {
        const bw_stringer *s = &deck->stringers[i];
        return (place){STRINGER, i, 0, {"stringer", s->name, s->log, s->case_path}};
    }
    i -= deck->n_stringers;
    if (cap_at(deck, &i, &out) || post_at(deck, &i, &out)) {
        return out;
    }
    if (i < deck->n_braces) {
        const bw_brace *b = &deck->braces[i];
        out = (place){BRACE, i, 0, {"brace", b->name, b->log, b->case_path}};
    }
    return out;
}

size_t bw_deck_feet(const bw_case *deck, bw_foot foot)
{
    size_t n = 0;
    for (size_t k = 0; k < deck->n_bents; k++) {
        for (size_t j = 0; j < deck->bents[k].n_posts; j++) {
            n += deck->bents[k].posts[j].foot == foot ? 1 : 0;
        }
    }
    return n;
}

int bwi_deck_lone_row(const bw_case *deck, size_t bay)
{
    int row = -1, n = 0;
    for (size_t k = 0; k < deck->n_stringers; k++) {
        const bw_stringer *s = &deck->stringers[k];
        if (s->from <= (int)bay && (int)bay < s->to) {
            row = s->row;
            n++;
        }
    }
    return n == 1 ? row : -1;
}

bool bw_deck_tips(const bw_case *deck)
{
    bool any = false;
    for (size_t bay = 0; bay + 1 < deck->n_bents; bay++) {
        any = any || bwi_deck_lone_row(deck, bay) >= 0;
    }
    return any;
}

size_t bw_deck_member_count(const bw_case *deck)
{
    size_t n = deck->n_stringers + deck->n_braces;
    for (size_t k = 0; k < deck->n_bents; k++) {
        n += deck->bents[k].n_posts + (deck->bents[k].cap >= 0 ? 1 : 0);
    }
    return n;
}

bw_deck_member bw_deck_member_at(const bw_case *deck, size_t i)
{
    return place_at(deck, i).member;
}

/* ---- other logs ---- */

static void *copy_of(bw_arena *arena, const void *items, size_t count, size_t size)
{
    void *copy = bw_arena_alloc_array(arena, count, size);
    if (copy != NULL && count > 0) {
        memcpy(copy, items, count * size);
    }
    return copy;
}

/* What may change, all of it writable. */
typedef struct {
    bw_log *logs;
    bw_stringer *stringers;
    bw_bent *bents;
    bw_post **posts; /* per bent */
    bw_brace *braces;
} parts;

static bw_status parts_copy(bw_arena *arena, const bw_case *deck, size_t n_more,
                            parts *out)
{
    out->logs = BW_NEW(arena, bw_log, deck->n_logs + n_more);
    out->stringers =
        copy_of(arena, deck->stringers, deck->n_stringers, sizeof *out->stringers);
    out->bents = copy_of(arena, deck->bents, deck->n_bents, sizeof *out->bents);
    out->posts = BW_NEW(arena, bw_post *, deck->n_bents);
    out->braces = copy_of(arena, deck->braces, deck->n_braces, sizeof *out->braces);
    if (out->logs == NULL || out->stringers == NULL || out->bents == NULL ||
        out->posts == NULL || out->braces == NULL) {
        return BW_E_MEMORY;
    }
    memcpy(out->logs, deck->logs, deck->n_logs * sizeof *out->logs);
    for (size_t k = 0; k < deck->n_bents; k++) {
        out->posts[k] = copy_of(arena, deck->bents[k].posts, deck->bents[k].n_posts,
                                sizeof **out->posts);
        if (out->posts[k] == NULL) {
            return BW_E_MEMORY;
        }
        out->bents[k].posts = out->posts[k];
    }
    return BW_OK;
}

static int *log_of(const parts *in, const place *p)
{
    switch (p->list) {
    case STRINGER:
        return &in->stringers[p->item].log;
    case CAP:
        return &in->bents[p->item].cap;
    case POST:
        return &in->posts[p->item][p->post].log;
    default:
        return &in->braces[p->item].log;
    }
}

bw_status bw_deck_with_logs(bw_arena *arena, const bw_case *deck,
                            const bw_log *const *logs, bw_case *out)
{
    const size_t n = bw_deck_member_count(deck);
    parts copy = {0};
    BW_TRY(parts_copy(arena, deck, n, &copy));
    size_t n_logs = deck->n_logs;
    for (size_t i = 0; i < n; i++) {
        if (logs[i] != NULL) {
            const place p = place_at(deck, i);
            copy.logs[n_logs] = *logs[i];
            *log_of(&copy, &p) = (int)n_logs++;
        }
    }
    *out = *deck;
    out->logs = copy.logs;
    out->n_logs = n_logs;
    out->stringers = copy.stringers;
    out->bents = copy.bents;
    out->braces = copy.braces;
    return BW_OK;
}
