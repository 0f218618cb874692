/* From the case to places: which part of which log lies where, and what the boards put on
 * it. */
#include "internal.h"

#include <math.h>

const bwi_part_of_stringer *bwi_plan_part(const bwi_plan *p, int row, size_t bay)
{
    return &p->parts[(size_t)row * p->n_bays + bay];
}

const bwi_share *bwi_plan_share(const bwi_plan *p, int row, size_t bay)
{
    return &p->shares[(size_t)row * p->n_bays + bay];
}

int bwi_post_of_row(const bw_bent *bent, int row)
{
    for (size_t k = 0; k < bent->n_posts; k++) {
        if (bent->posts[k].row == row) {
            return (int)k;
        }
    }
    return -1;
}

bool bwi_row_meets_bent(const bwi_plan *p, int row, size_t bent)
{
    return (bent > 0 && bwi_plan_part(p, row, bent - 1)->stringer >= 0) ||
           (bent < p->n_bays && bwi_plan_part(p, row, bent)->stringer >= 0);
}

double bwi_stringer_diameter(const bwi_plan *p, int stringer, double from_first)
{
    const bw_stringer *s = &p->deck->stringers[stringer];
    const bw_log *log = &p->deck->logs[s->log];
    const double length = log->length > 0.0 ? log->length : p->stringer_length[stringer];
    const double from_butt =
        s->butt_at_to ? p->stringer_length[stringer] - from_first : from_first;
    return bw_log_diameter(log, length, from_butt);
}

static double stringer_depth(const bwi_plan *p, int stringer, double from_first)
{
    return bwi_log_depth(&p->deck->logs[p->deck->stringers[stringer].log],
                         bwi_stringer_diameter(p, stringer, from_first));
}

/* Largest depth of the row's stringers at the bent: it sets the height of the deck. */
static double row_depth(const bwi_plan *p, int row, size_t bent)
{
    double largest = 0.0;
    if (bent > 0 && bwi_plan_part(p, row, bent - 1)->stringer >= 0) {
        const bwi_part_of_stringer *part = bwi_plan_part(p, row, bent - 1);
        largest = stringer_depth(p, part->stringer, part->from_first + part->length);
    }
    if (bent < p->n_bays && bwi_plan_part(p, row, bent)->stringer >= 0) {
        const bwi_part_of_stringer *part = bwi_plan_part(p, row, bent);
        largest = fmax(largest, stringer_depth(p, part->stringer, part->from_first));
    }
    return largest;
}

double bwi_row_height(const bwi_plan *p, int row, size_t bent)
{
    return p->deck->bents[bent].deck_height - p->deck->boards.board_thickness -
           row_depth(p, row, bent) / 2.0;
}

double bwi_cap_diameter(const bwi_plan *p, size_t bent, double across)
{
    const bw_bent *b = &p->deck->bents[bent];
    if (b->cap < 0) {
        return 0.0;
    }
    const bw_log *log = &p->deck->logs[b->cap];
    const double length = log->length > 0.0 ? log->length : p->caps[bent].length;
    /* the butt lies on the left; a block on one post shows its butt */
    return length > 0.0 ? bw_log_diameter(log, length, across - p->caps[bent].across)
                        : log->tip_diameter;
}

double bwi_cap_depth(const bwi_plan *p, size_t bent, double across)
{
    const int cap = p->deck->bents[bent].cap;
    return cap >= 0
               ? bwi_log_depth(&p->deck->logs[cap], bwi_cap_diameter(p, bent, across))
               : 0.0;
}

double bwi_cap_beyond(const bwi_plan *p, size_t bent, double across)
{
    const double from_left = across - p->caps[bent].across;
    return fmax(from_left, p->caps[bent].length - from_left);
}

bwi_post_place bwi_plan_post(const bwi_plan *p, size_t bent, const bw_post *post)
{
    const double across = p->deck->rows[post->row].across;
    return (bwi_post_place){.post = post,
                            .top = p->cap_top[bent] - bwi_cap_depth(p, bent, across),
                            .foot_depth =
                                post->foot == BW_FOOT_HOLE ? post->hole_depth : 0.0};
}

double bwi_post_diameter(const bwi_plan *p, const bwi_post_place *place, double height)
{
    const bw_log *log = &p->deck->logs[place->post->log];
    const double built = place->top + place->foot_depth;
    const double length = log->length > 0.0 ? log->length : built;
    const double up = height + place->foot_depth;
    const double d =
        bw_log_diameter(log, length, place->post->tip_down ? built - up : up);
    return fmax(d, 0.5 * fmin(log->tip_diameter, log->butt_diameter));
}

/* ---- making it ---- */

static void lay_stringer(bwi_plan *p, int index, bw_diags *d)
{
    const bw_stringer *s = &p->deck->stringers[index];
    double from_first = 0.0;
    for (int bay = s->from; bay < s->to; bay++) {
        bwi_part_of_stringer *part = &p->parts[(size_t)s->row * p->n_bays + (size_t)bay];
        const bw_bent *a = &p->deck->bents[bay], *b = &p->deck->bents[bay + 1];
        if (part->stringer >= 0) {
            bw_diags_error(d, "deck.overlap", s->case_path,
                           "give each bay of a row one stringer, or add another row",
                           "stringer %s lies where %s already lies, between %s and %s",
                           s->name, p->deck->stringers[part->stringer].name, a->name,
                           b->name);
            continue;
        }
        const double length = hypot(b->at - a->at, b->deck_height - a->deck_height);
        *part = (bwi_part_of_stringer){index, from_first, length};
        from_first += length;
    }
    p->stringer_length[index] = from_first;
    const double own = p->deck->logs[s->log].length;
    if (own > 0.0 && own < from_first * (1.0 - 1e-9)) {
        bw_diags_error(d, "deck.short_log", s->case_path,
                       "use a longer log or a shorter span",
                       "the log of stringer %s is %.3g m long, its place %.3g m", s->name,
                       own, from_first);
    }
}

/* Share of row k among the rows with stringers in the bay, listed from left to right. */
static double lever_share(const double *at, size_t n, size_t k, double across)
{
    if (n == 1) {
        return 1.0;
    }
    size_t left = 0; /* the pair of rows whose boards carry the place */
    while (left + 2 < n && across > at[left + 1]) {
        left++;
    }
    const double t = (across - at[left]) / (at[left + 1] - at[left]);
    return k == left ? 1.0 - t : k == left + 1 ? t : 0.0;
}

size_t bwi_plan_rows(const bwi_plan *p, size_t bay, int *rows, double *at)
{
    size_t n = 0;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        if (bwi_plan_part(p, (int)r, bay)->stringer < 0) {
            continue;
        }
        const double across = p->deck->rows[r].across;
        size_t k = n++;
        for (; k > 0 && at[k - 1] > across; k--) {
            at[k] = at[k - 1];
            rows[k] = rows[k - 1];
        }
        at[k] = across;
        rows[k] = (int)r;
    }
    return n;
}

double bwi_plan_wheel_share(const bwi_plan *p, int row, size_t bay, double across)
{
    int rows[BWI_ROWS_MAX];
    double at[BWI_ROWS_MAX];
    const size_t n = bwi_plan_rows(p, bay, rows, at);
    for (size_t k = 0; k < n; k++) {
        if (rows[k] == row) {
            return lever_share(at, n, k, across);
        }
    }
    return 0.0;
}

static double bay_length(const bwi_plan *p, size_t bay)
{
    return p->deck->bents[bay + 1].at - p->deck->bents[bay].at;
}

static bool can_ride(const bwi_plan *p, int row, size_t bay)
{
    return bay < p->n_bays && (row < 0 || bwi_plan_part(p, row, bay)->stringer >= 0);
}

bwi_rider_place bwi_rider_moved(const bwi_plan *p, bwi_rider_place rider, double by)
{
    rider.along += by;
    if (rider.along < 0.0 && rider.bay > 0 && can_ride(p, rider.row, rider.bay - 1)) {
        rider.bay--;
        rider.along += bay_length(p, rider.bay);
    } else if (rider.along > bay_length(p, rider.bay) &&
               can_ride(p, rider.row, rider.bay + 1)) {
        rider.along -= bay_length(p, rider.bay);
        rider.bay++;
    }
    rider.along = fmin(fmax(rider.along, 0.0), bay_length(p, rider.bay));
    return rider;
}

/* Largest share of two wheels side by side, both on the deck: straight between the places
 * where either is over a row. */
static double track_share(const double *at, size_t n, size_t k, double width,
                          double track)
{
    const double reach = fmax(width - track, 0.0) / 2.0;
    double most = 0.0;
    for (size_t j = 0; j < 2 * n + 2; j++) {
        const double side = j % 2 == 0 ? -1.0 : 1.0;
        const double there = j < 2 * n ? at[j / 2] + side * track / 2.0 : side * reach;
        const double across = fmin(fmax(there, -reach), reach);
        const double left = lever_share(at, n, k, across - track / 2.0);
        const double right = lever_share(at, n, k, across + track / 2.0);
        most = fmax(most, (left + right) / 2.0);
    }
    return most;
}

/* Places from and to, and the rows between: the share is straight from one to the next,
 * so that integrals piece by piece are exact. */
static size_t knots_between(const double *at, size_t n, double from, double to,
                            double knots[BWI_ROWS_MAX + 2])
{
    size_t m = 0;
    knots[m++] = from;
    for (size_t j = 0; j < n; j++) {
        if (at[j] > from && at[j] < to) {
            knots[m++] = at[j];
        }
    }
    knots[m++] = to;
    return m;
}

double bwi_plan_width_on_row(const bwi_plan *p, int row, size_t bay, double from,
                             double to)
{
    int rows[BWI_ROWS_MAX];
    double at[BWI_ROWS_MAX], knots[BWI_ROWS_MAX + 2], sum = 0.0;
    const size_t n = bwi_plan_rows(p, bay, rows, at);
    const size_t m = from < to ? knots_between(at, n, from, to, knots) : 0;
    for (size_t j = 0; j + 1 < m; j++) {
        const double middle = (knots[j] + knots[j + 1]) / 2.0;
        sum += (knots[j + 1] - knots[j]) * bwi_plan_wheel_share(p, row, bay, middle);
    }
    return sum;
}

static bwi_share share_of(const double *at, size_t n, size_t k, double width)
{
    double knots[BWI_ROWS_MAX + 2];
    const size_t m = knots_between(at, n, -width / 2.0, width / 2.0, knots);
    bwi_share s = {0};
    for (size_t j = 0; j + 1 < m; j++) {
        const double h = knots[j + 1] - knots[j];
        const double a = lever_share(at, n, k, knots[j]);
        const double b = lever_share(at, n, k, knots[j + 1]);
        s.dead_width += h * (a + b) / 2.0;
        if (a >= 0.0 && b >= 0.0) {
            s.crowd_width += h * (a + b) / 2.0;
        } else if (a > 0.0 || b > 0.0) {
            const double high = fmax(a, b), low = fmin(a, b);
            s.crowd_width += h * high * high / (high - low) / 2.0;
        }
        s.rider_share = fmax(s.rider_share, fmax(a, b));
    }
    return s;
}

static void share_boards(bwi_plan *p)
{
    int rows[BWI_ROWS_MAX];
    double at[BWI_ROWS_MAX];
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        const size_t n = bwi_plan_rows(p, bay, rows, at);
        for (size_t k = 0; k < n; k++) {
            bwi_share *share = &p->shares[(size_t)rows[k] * p->n_bays + bay];
            *share = share_of(at, n, k, p->deck->boards.width);
            share->machine_share = share->machine_push = track_share(
                at, n, k, p->deck->boards.width, p->deck->loads.machine.track);
            share->rider_push = share->rider_share;
        }
        const size_t n_stand = bwi_rows_that_stand(p, bay, rows, at);
        for (size_t k = 0; k < n_stand; k++) {
            bwi_share *share = &p->shares[(size_t)rows[k] * p->n_bays + bay];
            share->machine_push = track_share(at, n_stand, k, p->deck->boards.width,
                                              p->deck->loads.machine.track);
            share->rider_push = track_share(at, n_stand, k, p->deck->boards.width, 0.0);
        }
    }
}

/* Height of the caps' upper side, and how far the cap reaches across. */
static void place_cap(bwi_plan *p, size_t bent, bw_diags *d)
{
    const bw_bent *b = &p->deck->bents[bent];
    double left = (double)INFINITY, right = -(double)INFINITY, thickest = 0.0;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        if (bwi_row_meets_bent(p, (int)r, bent) || bwi_post_of_row(b, (int)r) >= 0) {
            left = fmin(left, p->deck->rows[r].across);
            right = fmax(right, p->deck->rows[r].across);
        }
        thickest = fmax(thickest, row_depth(p, (int)r, bent));
    }
    p->caps[bent] = (bwi_cap_place){left, right > left ? right - left : 0.0};
    p->cap_top[bent] = b->deck_height - p->deck->boards.board_thickness - thickest;
    const double least = 0.03; /* a post that short is a block: not a frame any more */
    for (size_t k = 0; k < b->n_posts; k++) {
        const bwi_post_place place = bwi_plan_post(p, bent, &b->posts[k]);
        if (!(place.top >= least)) {
            bw_diags_error(
                d, "deck.low", b->posts[k].case_path,
                "raise the deck, use thinner logs, or lay the bent on a sill",
                "boards, stringer and cap at bent %s are thicker than the deck is "
                "high: post %s would end %.0f mm above the ground",
                b->name, b->posts[k].name, place.top * 1000.0);
        }
        const double own = p->deck->logs[b->posts[k].log].length;
        const double built = place.top + place.foot_depth;
        if (own > 0.0 && own < built * (1.0 - 1e-9)) {
            bw_diags_error(d, "deck.short_log", b->posts[k].case_path,
                           "use a longer log or a lower deck",
                           "the log of post %s is %.3g m long, it needs %.3g m",
                           b->posts[k].name, own, built);
        }
    }
}

static void check_rows(const bwi_plan *p, bw_diags *d)
{
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        const bw_bent *b = &p->deck->bents[bent];
        for (size_t r = 0; r < p->deck->n_rows && b->cap < 0; r++) {
            if (bwi_row_meets_bent(p, (int)r, bent) && bwi_post_of_row(b, (int)r) < 0) {
                bw_diags_error(d, "deck.no_seat", b->case_path,
                               "give the bent a cap log, or a post under that row",
                               "row %s has nothing to rest on at bent %s",
                               p->deck->rows[r].name, b->name);
            }
        }
        for (size_t k = 0; k < b->n_posts; k++) {
            if (b->cap < 0 && !bwi_row_meets_bent(p, b->posts[k].row, bent)) {
                bw_diags_error(d, "deck.idle_post", b->posts[k].case_path,
                               "give its row a stringer there, or leave the post out",
                               "post %s carries nothing", b->posts[k].name);
            }
        }
    }
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        int rows[BWI_ROWS_MAX];
        double at[BWI_ROWS_MAX];
        if (bwi_plan_rows(p, bay, rows, at) == 0) {
            bw_diags_error(d, "deck.gap", NULL,
                           "lay a stringer there, or split the case in two",
                           "no stringer spans from bent %s to bent %s",
                           p->deck->bents[bay].name, p->deck->bents[bay + 1].name);
        }
    }
}

/* The row that all bays lie on, and no other. */
static int lone_row(const bw_case *deck)
{
    const int row = bwi_deck_lone_row(deck, 0);
    for (size_t bay = 1; bay + 1 < deck->n_bents; bay++) {
        if (bwi_deck_lone_row(deck, bay) != row) {
            return -1;
        }
    }
    return row;
}

bw_status bwi_plan_make(bw_arena *arena, const bw_case *deck,
                        const bw_reference *references, bwi_plan *out, bw_diags *d)
{
    *out = (bwi_plan){.deck = deck, .arena = arena, .references = references};
    if (deck->n_bents < 2 || deck->n_rows < 1 || deck->n_rows > BWI_ROWS_MAX) {
        bw_diags_error(d, "deck.size", NULL, NULL,
                       "a deck needs at least two bents and one row, and at most %d rows",
                       BWI_ROWS_MAX);
        return BW_E_INPUT;
    }
    out->n_bays = deck->n_bents - 1;
    out->parts = BW_NEW(arena, bwi_part_of_stringer, deck->n_rows * out->n_bays);
    out->shares = BW_NEW(arena, bwi_share, deck->n_rows * out->n_bays);
    out->stringer_length = BW_NEW(arena, double, deck->n_stringers);
    out->cap_top = BW_NEW(arena, double, deck->n_bents);
    out->caps = BW_NEW(arena, bwi_cap_place, deck->n_bents);
    if (out->parts == NULL || out->shares == NULL || out->stringer_length == NULL ||
        out->cap_top == NULL || out->caps == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(bwi_name_shapes(out));
    const size_t errors_before = d->errors;
    for (size_t k = 0; k < deck->n_rows * out->n_bays; k++) {
        out->parts[k].stringer = -1;
    }
    for (size_t k = 0; k < deck->n_stringers; k++) {
        lay_stringer(out, (int)k, d);
    }
    for (size_t k = 0; k < deck->n_bents; k++) {
        place_cap(out, k, d);
    }
    check_rows(out, d);
    bwi_warn_notches(out, d);
    BW_TRY(bwi_along_make(out));
    share_boards(out);
    out->lone_row = lone_row(deck);
    BW_TRY(bwi_joints_number(out));
    bwi_ends_fit(out, d);
    if (d->errors != errors_before) {
        return BW_E_INPUT;
    }
    bwi_joints_make(out);
    bwi_fit_end_distances(out, d);
    return bwi_feet_start(out);
}
