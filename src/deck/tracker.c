/* Remembers the worst of every check of every member while the loads are moved about. */
#include "internal.h"

#include <math.h>
#include <string.h>

bw_status bwi_tracker_make(const bwi_plan *p, bwi_tracker *out)
{
    const bw_case *deck = p->deck;
    *out = (bwi_tracker){.plan = p, .first_cap = deck->n_stringers, .worst_rcond = 1.0};
    out->first_post = out->first_cap + deck->n_bents;
    out->post_first = BW_NEW(p->arena, size_t, deck->n_bents);
    if (out->post_first == NULL) {
        return BW_E_MEMORY;
    }
    size_t n = out->first_post;
    for (size_t k = 0; k < deck->n_bents; k++) {
        out->post_first[k] = n;
        n += deck->bents[k].n_posts;
    }
    out->first_brace = n;
    out->boards = n += deck->n_braces;
    out->n_members = n += deck->decking.kind != BW_BOARDS_UNKNOWN ? 1 : 0;
    out->stiffness_ratio = 1.0;
    for (size_t k = 0; k < deck->n_logs; k++) {
        const double *value = p->references[k].value;
        out->stiffness_ratio =
            fmin(out->stiffness_ratio, value[BW_MODULUS_MIN] / value[BW_MODULUS]);
    }
    BW_TRY(bwi_buckled_make(p, &out->buckled_rows, &out->buckled_bents));
    out->lift = BW_NEW(p->arena, double, n);
    out->record = BW_NEW(p->arena, bwi_member_record *, n);
    bwi_member_record *records = BW_NEW(p->arena, bwi_member_record, n);
    if (out->record == NULL || records == NULL || out->lift == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < n; k++) {
        out->record[k] = &records[k];
    }
    return BW_OK;
}

/* ---- what is remembered ---- */

/* Only forks lack records. */
static const bwi_member_record *seen(const bwi_tracker *t, size_t member)
{
    const bwi_member_record *own = t->record[member];
    return own != NULL ? own : seen(t->root, member);
}

const bwi_worst *bwi_tracked(const bwi_tracker *t, size_t member, int kind)
{
    return &seen(t, member)->worst[kind];
}

const bwi_peak *bwi_peaks(const bwi_tracker *t, size_t member, int kind, bool lifts)
{
    return t->record[member] != NULL ? t->record[member]->peaks[kind][lifts ? 1 : 0]
                                     : NULL;
}

bwi_member_record *bwi_record_of(bwi_tracker *t, size_t member)
{
    if (t->record[member] == NULL) {
        bwi_member_record *own = BW_NEW(t->kept, bwi_member_record, 1);
        if (own == NULL) {
            return NULL;
        }
        memcpy(own->worst, seen(t, member)->worst, sizeof own->worst);
        t->record[member] = own;
    }
    return t->record[member];
}

/* ---- side by side ---- */

/* Of two that differ only by rounding the first stays: the same words on every machine.
 */
static const double tie = 1e-12;

/* A ratio that is not a number stays the worst: nothing may hide it. */
static bool is_worse(double utilisation, const bwi_worst *worst)
{
    return !worst->has || (!isnan(worst->ratio.utilisation) &&
                           !(utilisation <= worst->ratio.utilisation * (1.0 + tie)));
}

bw_status bwi_tracker_fork(const bwi_tracker *root, const bwi_plan *plan, bw_arena *kept,
                           bwi_tracker *out)
{
    *out = *root;
    out->kept = kept;
    out->plan = plan;
    out->root = root;
    out->probe = NULL;
    out->record = BW_NEW(plan->arena, bwi_member_record *, root->n_members);
    out->lift = BW_NEW(plan->arena, double, root->n_members);
    memset(out->most, 0, sizeof out->most);
    BW_TRY(bwi_buckled_make(plan, &out->buckled_rows, &out->buckled_bents));
    return out->record != NULL && out->lift != NULL ? BW_OK : BW_E_MEMORY;
}

void bwi_note(bwi_tracker *t, bwi_most of, double value)
{
    t->most[of] = fmax(t->most[of], value);
}

static void join_shapes(bw_buckled *kept, const bw_buckled *found, size_t n)
{
    for (size_t k = 0; k < n; k++) {
        if (found[k].has && found[k].factor < kept[k].factor) {
            kept[k] = found[k];
        }
    }
}

static void join_member(bwi_member_record *root, const bwi_member_record *found)
{
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const bwi_worst *w = &found->worst[kind];
        if (w->has && is_worse(w->ratio.utilisation, &root->worst[kind])) {
            root->worst[kind] = *w;
        }
    }
}

void bwi_tracker_join(bwi_tracker *root, const bwi_tracker *fork)
{
    const bw_case *deck = root->plan->deck;
    for (size_t k = 0; k < root->n_members; k++) {
        if (fork->record[k] != NULL) {
            join_member(root->record[k], fork->record[k]);
        }
        root->lift[k] = fmax(root->lift[k], fork->lift[k]);
    }
    for (int k = 0; k < BWI_MOST; k++) {
        bwi_note(root, (bwi_most)k, fork->most[k]);
    }
    join_shapes(root->buckled_rows, fork->buckled_rows, deck->n_rows);
    join_shapes(root->buckled_bents, fork->buckled_bents, deck->n_bents);
    root->worst_residual = fmax(root->worst_residual, fork->worst_residual);
    root->worst_rcond = fmin(root->worst_rcond, fork->worst_rcond);
    root->failed = root->failed != BW_OK ? root->failed : fork->failed;
}

/* ---- tracking ---- */

/* What a kind of check is asked of: where one part hands a force over to another, what
 * holds a post in the ground, or the logs themselves. */
typedef enum { OF_LOGS, OF_SEATS, OF_SOIL } asked_of;

/* Every kind by name and no default: the compiler tells of one that is not here, which
 * the search for the worst place would pass by. */
static asked_of asked_of_kind(bw_check_kind kind)
{
    switch (kind) {
    case BW_CHECK_BENDING:
    case BW_CHECK_SHEAR:
    case BW_CHECK_COMPRESSION:
    case BW_CHECK_COMBINED:
    case BW_CHECK_DEFLECTION:
    case BW_CHECK_SAG:
    case BW_CHECK_BUCKLING:
        return OF_LOGS;
    case BW_CHECK_BEARING:
    case BW_CHECK_END_BEARING:
    case BW_CHECK_ANGLE:
    case BW_CHECK_JOINT:
    case BW_CHECK_SPLIT:
    case BW_CHECK_LIFT:
        return OF_SEATS;
    case BW_CHECK_SOIL_LATERAL:
    case BW_CHECK_SOIL_BEARING:
    case BW_CHECK_UPLIFT:
        return OF_SOIL;
    case BW_CHECK_KIND_COUNT:
        break;
    }
    return OF_LOGS;
}

/* Whether the event is for checks of that kind; how far things give is asked apart. */
static bool is_for(const bwi_event *event, bw_check_kind kind)
{
    const bool gives = kind == BW_CHECK_DEFLECTION || kind == BW_CHECK_SAG;
    return gives ||
           (asked_of_kind(kind) == OF_SOIL ? !event->not_ground : !event->only_ground);
}

void bwi_peaks_clear(bwi_tracker *t, size_t member)
{
    for (int kind = 0; t->record[member] != NULL && kind < BW_CHECK_KIND_COUNT; kind++) {
        for (int k = 0; k < 2 * BWI_PEAKS; k++) {
            t->record[member]->peaks[kind][k / BWI_PEAKS][k % BWI_PEAKS].value = 0.0;
        }
    }
}

bool bwi_has_peak(const bwi_tracker *t, size_t member, bw_check_kind kind)
{
    const bwi_peak *held = bwi_peaks(t, member, (int)kind, false);
    const bwi_peak *lifted = bwi_peaks(t, member, (int)kind, true);
    bool has = false;
    for (int k = 0; held != NULL && k < BWI_PEAKS; k++) {
        has = has || held[k].value > 0.0 || lifted[k].value > 0.0;
    }
    return has;
}

/* On the same hump, as far as that can be known. */
static bool is_near(const bwi_tracker *t, const bwi_rider_place *a,
                    const bwi_rider_place *b)
{
    const bw_bent *bents = t->plan->deck->bents;
    const double quarter = 0.25 * (bents[b->bay + 1].at - bents[b->bay].at);
    return fabs(bents[a->bay].at + a->along - bents[b->bay].at - b->along) < quarter;
}

/* Takes the place of the peak that it is near, else of the lowest. */
static void keep_peak(bwi_tracker *t, bwi_peak peaks[BWI_PEAKS], double value,
                      const bwi_rider_place *place)
{
    int at = 0;
    for (int k = 0; k < BWI_PEAKS; k++) {
        at = peaks[k].value < peaks[at].value ? k : at;
    }
    if (!(value > peaks[at].value)) {
        return;
    }
    for (int k = 0; k < BWI_PEAKS; k++) {
        at = peaks[k].value > 0.0 && is_near(t, &peaks[k].place, place) ? k : at;
    }
    if (value > peaks[at].value) {
        peaks[at] = (bwi_peak){value, *place};
    }
}

bool bwi_wants(const bwi_tracker *t, size_t member)
{
    return t->probe == NULL || t->probe->member == member;
}

bool bwi_wants_soil(const bwi_tracker *t, bool soil)
{
    return t->probe == NULL || (asked_of_kind(t->probe->kind) == OF_SOIL) == soil;
}

bool bwi_wants_seats(const bwi_tracker *t, bool seats)
{
    return t->probe == NULL || (asked_of_kind(t->probe->kind) == OF_SEATS) == seats;
}

bool bwi_wants_lifts(const bwi_tracker *t, bool lifts)
{
    return t->probe == NULL || t->probe->lifts == lifts;
}

bool bwi_wants_brace(const bwi_tracker *t, size_t brace)
{
    return bwi_wants(t, t->first_brace + brace) || bwi_wants_seats(t, true);
}

bool bwi_track(bwi_tracker *t, size_t member, bw_check_kind kind, bw_check_input *in,
               double station, const bwi_event *event)
{
    const bw_check *check = t->plan->deck->basis->checks[kind];
    bwi_probe *probe = t->probe;
    if (check == NULL || !is_for(event, kind) ||
        (probe != NULL && (probe->member != member || probe->kind != kind ||
                           probe->lifts != event->lifts))) {
        return false;
    }
    in->load_duration = event->load_duration;
    in->lasting_share = event->lasting_share;
    const bw_ratio ratio = check->ratio(in, NULL);
    if (probe != NULL && !(ratio.utilisation <= probe->most)) {
        probe->most = ratio.utilisation;
    }
    bwi_member_record *record = bwi_record_of(t, member);
    if (record == NULL) {
        return false; /* the arena remembers that it failed */
    }
    if (probe == NULL && event->rider.present) {
        keep_peak(t, record->peaks[kind][event->lifts ? 1 : 0], ratio.utilisation,
                  &event->rider);
    }
    bwi_worst *worst = &record->worst[kind];
    if (!is_worse(ratio.utilisation, worst)) {
        return false;
    }
    *worst = (bwi_worst){true, ratio, *in, station, *event};
    return true;
}

void bwi_track_unknown(bwi_tracker *t, const char *combination)
{
    const bwi_event event = {.combination = combination};
    for (size_t member = 0; member < t->n_members; member++) {
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            bwi_worst *w = &t->record[member]->worst[kind];
            if (!w->has || w->ratio.utilisation > 1.0 || kind == BW_CHECK_SAG) {
                continue; /* a rider leaves nothing to creep */
            }
            bw_check_input *in = &w->input;
            in->axial = in->shear = in->moment = in->force = in->deflection = (double)NAN;
            in->push = in->push_moment = in->foot_force = in->pull = (double)NAN;
            in->buckling_factor = (double)NAN;
            in->buckling_factor_beyond = false;
            w->ratio = t->plan->deck->basis->checks[kind]->ratio(in, NULL);
            w->event = event;
        }
    }
}

void bwi_track_frame(bwi_tracker *t, const bw_frame *f, const bw_state *s)
{
    t->worst_residual = fmax(t->worst_residual, bw_state_residual(s));
    t->worst_rcond = fmin(t->worst_rcond, bw_frame_describe(f).rcond);
}
