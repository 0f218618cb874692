/* case_fit.c - whether the parts of a case can stand together at all. What needs forces
 * is not looked at here. */
#include "case.h"

#include <math.h>
#include <stdlib.h>

/* Bents nearer to each other than this stand at one place, and so do rows [m]: less than
 * the thinnest log. */
static const double same_place = 0.03;

/* ---- places ---- */

static void stations_check(const bwi_case_reader *r)
{
    for (size_t i = 1; i < r->out->n_bents; i++) {
        const double gap = r->bents[i].at - r->bents[i - 1].at;
        if (gap < same_place) {
            const bwi_at bent = bwi_nth(&r->bent_list, r->bent_item[i]);
            const bwi_at at = bwi_key(&bent, "at");
            const char *other = r->bents[i - 1].name;
            bwi_error(&at, "bent.same_place", NULL, "one of the two stations is wrong",
                      "%s is where the bent \"%s\" stands", bwi_as_written(&at),
                      other != NULL ? other : "without a name");
        }
    }
}

typedef struct {
    double across;
    size_t index;
} placed_row;

static int compare_across(const void *left, const void *right)
{
    const placed_row *a = left;
    const placed_row *b = right;
    if (a->across < b->across || a->across > b->across) {
        return a->across < b->across ? -1 : 1;
    }
    return (a->index > b->index) - (a->index < b->index);
}

static bwi_at row_across(const bwi_at *row)
{
    return bwi_key(row, "across");
}

static void row_places_check(const bwi_case_reader *r)
{
    placed_row *rows = bwi_new(r->doc, r->out->n_rows, sizeof *rows);
    size_t n = 0;
    for (size_t i = 0; rows != NULL && i < r->out->n_rows; i++) {
        if (!isnan(r->rows[i].across)) {
            rows[n++] = (placed_row){r->rows[i].across, i};
        }
    }
    if (n > 1) {
        qsort(rows, n, sizeof *rows, compare_across);
    }
    for (size_t i = 1; i < n; i++) {
        if (rows[i].across - rows[i - 1].across < same_place) {
            const bwi_at row = bwi_nth(&r->row_list, rows[i].index);
            const bwi_at at = row_across(&row);
            const char *other = r->rows[rows[i - 1].index].name;
            bwi_error(&at, "row.same_place", NULL, "one of the two places is wrong",
                      "%s is where the row \"%s\" stands", bwi_as_written(&at),
                      other != NULL ? other : "without a name");
        }
    }
}

/* A row beyond the edge of the deck carries no boards. */
static void rows_under_deck_check(const bwi_case_reader *r)
{
    const double half = r->out->boards.width / 2.0;
    bwi_at row = bwi_first(&r->row_list);
    for (size_t i = 0; half > 0.0 && i < r->out->n_rows; i++, bwi_next(&row)) {
        if (fabs(r->rows[i].across) > half) {
            const bwi_at at = row_across(&row);
            bwi_warn(
                &at, "row.outside",
                bwi_print(r->doc, "at most %s to either side", bwi_case_length(r, half)),
                "\"across\" counts from the centre line of the deck",
                "the row lies %s from the centre line, beyond the edge of the deck",
                bwi_case_length(r, fabs(r->rows[i].across)));
        }
    }
}

/* ---- what carries what ---- */

/* What was not fully read might use any part. */
static bool all_read(const bwi_case_reader *r)
{
    for (size_t i = 0; i < r->out->n_stringers; i++) {
        const bw_stringer *s = &r->stringers[i];
        if (s->row < 0 || s->log < 0 || s->from < 0 || s->to < 0) {
            return false;
        }
    }
    return r->out->n_stringers > 0;
}

static void idle_check(const bwi_case_reader *r)
{
    bool *row_used = bwi_new(r->doc, r->out->n_rows, sizeof *row_used);
    bool *bent_used = bwi_new(r->doc, r->out->n_bents, sizeof *bent_used);
    if (row_used == NULL || bent_used == NULL) {
        return;
    }
    for (size_t i = 0; i < r->out->n_stringers; i++) {
        const bw_stringer *s = &r->stringers[i];
        row_used[s->row] = true;
        for (int bent = s->from; bent <= s->to; bent++) {
            bent_used[bent] = true;
        }
    }
    for (size_t i = 0; i < r->out->n_bents; i++) {
        for (size_t k = 0; k < r->bents[i].n_posts; k++) {
            const int of = r->bents[i].posts[k].row; /* beside the stringers, maybe */
            if (of >= 0) {
                row_used[of] = true;
            }
        }
    }
    bwi_at row = bwi_first(&r->row_list);
    for (size_t i = 0; i < r->out->n_rows; i++, bwi_next(&row)) {
        if (!row_used[i]) {
            bwi_warn(&row, "row.empty", NULL, "add its stringers, or take the row out",
                     "neither stringer nor post is in this row");
        }
    }
    bwi_at bent = bwi_first(&r->bent_list);
    for (size_t i = 0; i < r->out->n_bents; i++, bwi_next(&bent)) {
        if (!bent_used[r->bent_rank[i]]) {
            bwi_warn(&bent, "bent.idle", NULL, "add its stringers, or take the bent out",
                     "no stringer reaches this bent");
        }
    }
}

/* ---- stringers of one row, one after the other ---- */

typedef struct {
    int row, from, to;
    size_t index;
} stretch;

static int compare_stretches(const void *left, const void *right)
{
    const stretch *a = left;
    const stretch *b = right;
    if (a->row != b->row) {
        return a->row < b->row ? -1 : 1;
    }
    if (a->from != b->from) {
        return a->from < b->from ? -1 : 1;
    }
    return (a->index > b->index) - (a->index < b->index);
}

static void overlap_report(const bwi_case_reader *r, size_t index, size_t other)
{
    const bwi_at at = bwi_nth(&r->stringer_list, index);
    const char *name = r->stringers[other].name;
    bwi_error(&at, "stringer.overlap", NULL,
              "two logs side by side need two rows, each with its own \"across\"",
              "the stringer lies where \"%s\" lies", name != NULL ? name : "another");
}

static void overlap_check(const bwi_case_reader *r)
{
    const size_t count = r->out->n_stringers;
    stretch *all = bwi_new(r->doc, count, sizeof *all);
    if (all == NULL || count == 0) {
        return;
    }
    for (size_t i = 0; i < count; i++) {
        const bw_stringer *s = &r->stringers[i];
        all[i] = (stretch){s->row, s->from, s->to, i};
    }
    qsort(all, count, sizeof *all, compare_stretches);
    size_t farthest = 0; /* of the row so far */
    for (size_t i = 1; i < count; i++) {
        if (all[i].row != all[farthest].row) {
            farthest = i;
            continue;
        }
        if (all[i].from < all[farthest].to) {
            overlap_report(r, all[i].index, all[farthest].index);
        }
        farthest = all[i].to > all[farthest].to ? i : farthest;
    }
}

/* ---- caps and sills reach what they carry ---- */

typedef struct {
    double low, high; /* [m] across the deck */
} reach;

static void reach_add(const bwi_case_reader *r, reach *cap, int row)
{
    if (row >= 0 && !isnan(r->rows[row].across)) {
        cap->low = fmin(cap->low, r->rows[row].across);
        cap->high = fmax(cap->high, r->rows[row].across);
    }
}

static void cap_report(const bwi_case_reader *r, size_t i, double needed)
{
    const bwi_at bent = bwi_nth(&r->bent_list, r->bent_item[i]);
    const char *key = r->bents[i].is_sill ? "sill" : "cap";
    bwi_at at = bwi_key(&bent, key);
    if (at.node == NULL) {
        at = bwi_key(&r->every_bent, key);
    }
    bwi_error(
        &at, "cap.short", bwi_print(r->doc, "at least %s", bwi_case_length(r, needed)),
        "use a longer log, or set the rows closer",
        "the log %s is %s long, and what it joins lies %s apart", bwi_as_written(&at),
        bwi_case_length(r, r->logs[r->bents[i].cap].length), bwi_case_length(r, needed));
}

static void caps_check(const bwi_case_reader *r)
{
    reach *caps = bwi_new(r->doc, r->out->n_bents, sizeof *caps);
    for (size_t i = 0; caps != NULL && i < r->out->n_bents; i++) {
        caps[i] = (reach){HUGE_VAL, -HUGE_VAL};
        for (size_t p = 0; p < r->bents[i].n_posts; p++) {
            reach_add(r, &caps[i], r->bents[i].posts[p].row);
        }
    }
    for (size_t i = 0; caps != NULL && i < r->out->n_stringers; i++) {
        reach_add(r, &caps[r->stringers[i].from], r->stringers[i].row);
        reach_add(r, &caps[r->stringers[i].to], r->stringers[i].row);
    }
    for (size_t i = 0; caps != NULL && i < r->out->n_bents; i++) {
        const int log = r->bents[i].cap;
        const double length = log >= 0 ? r->logs[log].length : 0.0;
        if (length > 0.0 && caps[i].high - caps[i].low > length) {
            cap_report(r, i, caps[i].high - caps[i].low);
        }
    }
}

/* ---- seats ---- */

/* The thinner end of the thinnest log that lies on others or has others on it. */
static double thinnest_seated(const bwi_case_reader *r)
{
    double thinnest = HUGE_VAL;
    for (size_t i = 0; i < r->out->n_stringers; i++) {
        const bw_log *log = &r->logs[r->stringers[i].log];
        thinnest = fmin(thinnest, fmin(log->butt_diameter, log->tip_diameter));
    }
    for (size_t i = 0; i < r->out->n_bents; i++) {
        if (r->bents[i].cap >= 0) {
            const bw_log *log = &r->logs[r->bents[i].cap];
            thinnest = fmin(thinnest, fmin(log->butt_diameter, log->tip_diameter));
        }
    }
    return thinnest;
}

static void seats_check(const bwi_case_reader *r)
{
    const double thinnest = thinnest_seated(r);
    const double seat = r->out->limits.seat_depth;
    if (seat < thinnest / 2.0) {
        return;
    }
    const bwi_at limits = bwi_key(&r->root, "limits");
    const bwi_at at = bwi_key(&limits, "seat_depth");
    bwi_error(&at, "limit.seat",
              bwi_print(r->doc, "less than %s", bwi_case_thickness(r, thinnest / 2.0)),
              "cut shallower seats, or use thicker logs",
              "seats %s deep cut through half of the thinnest log, %s in diameter",
              bwi_case_thickness(r, seat), bwi_case_thickness(r, thinnest));
}

void bwi_case_fit(const bwi_case_reader *r)
{
    stations_check(r);
    row_places_check(r);
    rows_under_deck_check(r);
    if (all_read(r)) {
        idle_check(r);
        overlap_check(r);
        caps_check(r);
        seats_check(r);
    }
}
