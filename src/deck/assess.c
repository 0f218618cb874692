/* The assessment: frames made, loads moved, the worst of every check turned into
 * findings. */
#include "internal.h"

#include <math.h>

/* ---- strengths ---- */

static bw_status make_references(bw_arena *arena, const bw_case *deck, bw_reference **out,
                                 bw_diags *d)
{
    *out = BW_NEW(arena, bw_reference, deck->n_logs);
    if (*out == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < deck->n_logs; k++) {
        const bw_log *log = &deck->logs[k];
        const bw_status status = deck->basis->reference(arena, log, &(*out)[k]);
        if (status == BW_E_INPUT) {
            bw_diags_error(
                d, "deck.species", log->case_path, "choose a species with full data",
                "the table of %s lacks a value that the strength of log %s needs",
                log->species->common, log->name);
        }
        BW_TRY(status);
    }
    return BW_OK;
}

/* ---- results ---- */

/* A word on joints: what is missing, or what it means that a load hangs. */
static const char *joint_advice(const bwi_plan *p, const bwi_worst *w, int kind)
{
    const bw_joint *joint = w->input.joint;
    if (kind == BW_CHECK_SPLIT) {
        return isnan(w->ratio.utilisation)
                   ? "cannot say without where its fasteners lie: edge, loaded_edge"
                   : NULL;
    }
    if (isnan(w->ratio.utilisation)) {
        return bwi_joint_missing(p, joint);
    }
    return joint->hung && kind == BW_CHECK_JOINT
               ? "this load hangs on its fasteners, the commonest cause of collapses: "
                 "let the log bear on a cap or a post, and let fasteners only hold it in "
                 "place"
               : NULL;
}

/* A crossed pair of which only one can hold sends all of the push into one post. */
static const char *brace_advice(const bw_case *deck)
{
    for (size_t i = 0; i < deck->n_braces; i++) {
        if (deck->braces[i].pulls) {
            return "";
        }
    }
    return deck->n_braces > 0
               ? "; braces that only push bring the whole of it to one post: fasten "
                 "them so that they pull"
               : "; crossed braces in every bent and bay take the bending off the posts";
}

/* What would make a post steady whose hole is too shallow: the depth that would do; why
 * there is no number. Null if there is nothing to say. */
static const char *advice(const bwi_plan *p, const bwi_worst *w, int kind)
{
    const char *unknown = bwi_rider_unknown(p->deck);
    if (isnan(w->ratio.utilisation) && unknown != NULL) {
        return bw_arena_print(p->arena, "the riders: %s", unknown);
    }
    if (kind == BW_CHECK_JOINT || kind == BW_CHECK_LIFT || kind == BW_CHECK_SPLIT) {
        return joint_advice(p, w, kind);
    }
    if (kind != BW_CHECK_SOIL_LATERAL || !(w->ratio.utilisation > 1.0)) {
        return NULL;
    }
    const bw_check_input *in = &w->input;
    const bw_hole hole =
        bw_hole_of(in->soil, in->embedded_width, in->half_inch_movement_ok);
    const double depth = bw_hole_depth_free(&hole, in->push, in->push_moment);
    const char *text = bw_quantity_print(p->arena, BW_LENGTH, depth, p->deck->units);
    return bw_arena_print(p->arena,
                          "not steady: as it stands it would need a hole %s deep%s",
                          text != NULL ? text : "?", brace_advice(p->deck));
}

static bw_status make_finding(const bwi_tracker *t, size_t member, int kind,
                              bw_member_result *out)
{
    const bwi_plan *p = t->plan;
    const bwi_worst *w = &t->worst[member][kind];
    bw_finding *f = &out->findings[kind];
    BW_TRY(bw_finding_make(p->arena, p->deck->basis->checks[kind], &w->input, f));
    f->member = member == t->boards
                    ? out->name
                    : bw_arena_print(p->arena, "%s %s", out->role, out->name);
    f->role = out->role;
    f->case_path = out->case_path;
    f->station = w->station;
    f->place = bwi_place_text(t, member, w->station);
    f->combination = w->event.combination;
    f->position = member == t->boards ? bwi_board_position(t, kind)
                                      : bwi_position_text(p, &w->event);
    f->note = advice(p, w, kind);
    out->has[kind] = true;
    const bool unknown = isnan(f->ratio.utilisation) || isnan(out->worst);
    out->worst = unknown ? (double)NAN : fmax(out->worst, f->ratio.utilisation);
    return f->member != NULL && f->place != NULL ? BW_OK : BW_E_MEMORY;
}

static bw_status make_result(const bwi_tracker *t, size_t member, bw_member_result *out)
{
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        if (t->worst[member][kind].has) {
            BW_TRY(make_finding(t, member, kind, out));
        }
    }
    return BW_OK;
}

static bw_member_result stringer_result(const bwi_plan *p, size_t k)
{
    const bw_stringer *s = &p->deck->stringers[k];
    return (bw_member_result){.name = s->name,
                              .role = "stringer",
                              .case_path = s->case_path,
                              .log = &p->deck->logs[s->log],
                              .length = p->stringer_length[k],
                              .bent = s->from,
                              .row = s->row};
}

static bw_member_result cap_result(const bwi_plan *p, size_t bent)
{
    const bw_bent *b = &p->deck->bents[bent];
    return (bw_member_result){.name = b->name,
                              .role = b->is_sill ? "sill" : "cap",
                              .case_path = b->case_path,
                              .log = &p->deck->logs[b->cap],
                              .length = p->caps[bent].length,
                              .bent = (int)bent,
                              .row = -1};
}

static bw_member_result post_result(const bwi_plan *p, size_t bent, const bw_post *post)
{
    const bwi_post_place place = bwi_plan_post(p, bent, post);
    return (bw_member_result){.name = post->name,
                              .role = "post",
                              .case_path = post->case_path,
                              .log = &p->deck->logs[post->log],
                              .length = place.top + place.foot_depth,
                              .bent = (int)bent,
                              .row = post->row};
}

static bw_member_result brace_result(const bwi_plan *p, size_t k)
{
    const bw_brace *b = &p->deck->braces[k];
    return (bw_member_result){.name = b->name,
                              .role = "brace",
                              .case_path = b->case_path,
                              .log = &p->deck->logs[b->log],
                              .length = bwi_brace_length(p, b),
                              .bent = b->from.bent,
                              .row = b->from.row};
}

static bw_member_result boards_result(const bwi_plan *p)
{
    return (bw_member_result){.name = "boards",
                              .role = "boards",
                              .case_path = p->deck->decking.case_path,
                              .log = &p->deck->decking.log,
                              .length = p->deck->boards.width,
                              .bent = -1,
                              .row = -1};
}

static bw_status add_result(const bwi_tracker *t, size_t member, bw_member_result start,
                            bw_assessment *out)
{
    out->members[out->n_members] = start;
    return make_result(t, member, &out->members[out->n_members++]);
}

static bw_status collect(const bwi_tracker *t, bw_assessment *out)
{
    const bwi_plan *p = t->plan;
    out->members = BW_NEW(p->arena, bw_member_result, t->n_members);
    if (out->members == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        BW_TRY(add_result(t, k, stringer_result(p, k), out));
    }
    for (size_t k = 0; k < p->deck->n_bents; k++) {
        if (p->deck->bents[k].cap >= 0) {
            BW_TRY(add_result(t, t->first_cap + k, cap_result(p, k), out));
        }
    }
    for (size_t k = 0; k < p->deck->n_bents; k++) {
        const bw_bent *b = &p->deck->bents[k];
        for (size_t j = 0; j < b->n_posts; j++) {
            BW_TRY(add_result(t, t->post_first[k] + j, post_result(p, k, &b->posts[j]),
                              out));
        }
    }
    for (size_t k = 0; k < p->deck->n_braces; k++) {
        BW_TRY(add_result(t, t->first_brace + k, brace_result(p, k), out));
    }
    return t->boards < t->n_members ? add_result(t, t->boards, boards_result(p), out)
                                    : BW_OK;
}

const bw_finding *bw_member_worst(const bw_member_result *member)
{
    const bw_finding *worst = NULL;
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const bw_finding *f = &member->findings[kind];
        if (!member->has[kind]) {
            continue;
        }
        if (!isfinite(f->ratio.utilisation)) {
            return f;
        }
        if (worst == NULL || f->ratio.utilisation > worst->ratio.utilisation) {
            worst = f;
        }
    }
    return worst;
}

/* Over beats cannot say: what is over stays over, whatever else is not known. */
static void judge(bw_assessment *out)
{
    out->verdict = BW_WITHIN;
    for (size_t k = 0; k < out->n_members; k++) {
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            const bw_finding *f = &out->members[k].findings[kind];
            if (!out->members[k].has[kind]) {
                continue;
            }
            if (f->verdict == BW_OVER ||
                (f->verdict == BW_CANNOT_SAY && out->verdict == BW_WITHIN)) {
                out->verdict = f->verdict;
            }
            if (out->governing == NULL ||
                f->ratio.utilisation > out->governing->ratio.utilisation ||
                isnan(out->governing->ratio.utilisation)) {
                out->governing = f;
            }
        }
    }
    const bw_loads *l = &out->deck->loads;
    const bool carries_nobody =
        !(l->mass > 0.0) && !(l->crowd > 0.0) && !(l->machine.mass > 0.0);
    if (out->governing == NULL || (carries_nobody && out->verdict == BW_WITHIN)) {
        out->verdict = BW_CANNOT_SAY;
    }
}

/* Boards leave the list once they are checked. */
static bw_status not_checked(const bwi_tracker *t, bw_assessment *out)
{
    size_t n = 0, kept = 0;
    while (bwi_not_checked[n] != NULL) {
        n++;
    }
    const char **list = BW_NEW(t->plan->arena, const char *, n + 1);
    for (size_t k = 0; list != NULL && k < n; k++) {
        if (bwi_not_checked[k] != bwi_boards_not_checked || t->boards == t->n_members) {
            list[kept++] = bwi_not_checked[k];
        }
    }
    out->not_checked = list;
    return list != NULL ? BW_OK : BW_E_MEMORY;
}

/* ---- the run ---- */

static bw_status make_transfer(const bwi_plan *p, size_t n_posts, bwi_transfer *out,
                               bool ***patterns)
{
    const size_t n = p->deck->n_rows * p->deck->n_bents;
    out->dead = BW_NEW(p->arena, double, n);
    out->snow = BW_NEW(p->arena, double, n);
    out->post_moment = bw_arena_alloc_array(p->arena, n_posts, sizeof *out->post_moment);
    if (out->dead == NULL || out->snow == NULL || out->post_moment == NULL) {
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

static bw_status make_ways(const bwi_tracker *t, way ways[WAYS], bool ***patterns)
{
    const bwi_plan *p = t->plan;
    for (int k = 0; k < WAYS; k++) {
        ways[k].rows = BW_NEW(p->arena, bwi_row_frame, p->deck->n_rows);
        if (ways[k].rows == NULL) {
            return BW_E_MEMORY;
        }
        BW_TRY(
            make_transfer(p, t->n_members - t->first_post, &ways[k].transfer, patterns));
    }
    /* posts are bent by the worse of both */
    ways[BACK].transfer.post_moment = ways[FORWARD].transfer.post_moment;
    return BW_OK;
}

static bw_status run_row(bwi_tracker *t, size_t r, way ways[WAYS], bool **patterns,
                         bw_diags *d)
{
    bwi_row_frame *forward = &ways[FORWARD].rows[r], *back = &ways[BACK].rows[r];
    BW_TRY(bwi_row_frame_make(t->plan, (int)r, 1, forward, d));
    const int like = bwi_row_like(t->plan, (int)r);
    if (forward->frame == NULL) {
        return BW_OK;
    }
    if (like >= 0) {
        bwi_row_copy(t, &ways[FORWARD].transfer, like, (int)r);
        return BW_OK;
    }
    *back = *forward;
    back->direction = -1;
    if (!bwi_same_both_ways(t->plan, back->brace_member, back->slackened)) {
        BW_TRY(bwi_row_frame_make(t->plan, (int)r, -1, back, d));
    }
    BW_TRY(bwi_search_row(t, forward, &ways[FORWARD].transfer, patterns, d));
    return bwi_search_row(t, back, &ways[BACK].transfer, patterns, d);
}

/* Keeps going after a loose row, so that all loose parts are named in one run. */
static bw_status run_rows(bwi_tracker *t, way ways[WAYS], bool **patterns, bw_diags *d)
{
    bw_status worst = BW_OK;
    for (size_t r = 0; r < t->plan->deck->n_rows; r++) {
        const bw_status status = run_row(t, r, ways, patterns, d);
        if (status != BW_OK && status != BW_E_MECHANISM) {
            return status;
        }
        worst = status != BW_OK ? status : worst;
    }
    return worst;
}

static bool is_slackened(const bwi_plan *p, const way ways[WAYS])
{
    bool any = false;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        any = any || ways[FORWARD].rows[r].slackened || ways[BACK].rows[r].slackened;
    }
    return any;
}

/* Without braces, and with those that also pull, rows hand down the same either way. */
static bw_status search_bent(bwi_tracker *t, const way ways[WAYS], size_t k, bw_diags *d)
{
    BW_TRY(bwi_search_bent(t, ways[FORWARD].rows, &ways[FORWARD].transfer, k, d));
    return is_slackened(t->plan, ways)
               ? bwi_search_bent(t, ways[BACK].rows, &ways[BACK].transfer, k, d)
               : BW_OK;
}

static bw_status run_bents(bwi_tracker *t, const way ways[WAYS], bool rows_stand,
                           bw_diags *d)
{
    bw_status worst = BW_OK;
    for (size_t k = 0; k < t->plan->deck->n_bents; k++) {
        bwi_bent_frame trial;
        const bool has_posts = t->plan->deck->bents[k].n_posts > 0;
        const bw_status status = rows_stand ? search_bent(t, ways, k, d)
                                 : has_posts
                                     ? bwi_bent_frame_make(t->plan, k, 1, &trial, d)
                                     : BW_OK;
        if (status != BW_OK && status != BW_E_MECHANISM) {
            return status;
        }
        worst = status != BW_OK ? status : worst;
    }
    return worst;
}

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

static bw_status assess(bw_arena *arena, const bw_case *deck, bw_assessment *out,
                        bw_diags *d)
{
    *out = (bw_assessment){
        .deck = deck, .cautions = bw_cautions, .not_checked = bwi_not_checked};
    bw_reference *references = NULL;
    bwi_plan *plan = BW_NEW(arena, bwi_plan, 1);
    if (plan == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(make_references(arena, deck, &references, d));
    BW_TRY(bwi_plan_make(arena, deck, references, plan, d));
    bwi_tracker t;
    way ways[WAYS] = {{.rows = NULL}};
    bool **patterns = NULL;
    BW_TRY(bwi_tracker_make(plan, &t));
    BW_TRY(make_ways(&t, ways, &patterns));
    const bw_status rows_status = run_rows(&t, ways, patterns, d);
    if (rows_status != BW_OK && rows_status != BW_E_MECHANISM) {
        return rows_status;
    }
    BW_TRY(run_bents(&t, ways, rows_status == BW_OK, d));
    BW_TRY(rows_status);
    BW_TRY(bwi_search_boards(&t, d));
    if (deck->loads.mass > 0.0 && bwi_rider_unknown(deck) != NULL) {
        bwi_track_unknown(&t, "dead + rider");
    }
    BW_TRY(collect(&t, out));
    judge(out);
    out->references = references;
    out->board_reference = t.board_reference;
    BW_TRY(not_checked(&t, out));
    out->dead_weight = dead_weight(plan, &ways[FORWARD].transfer);
    out->buckled_rows = t.buckled_rows;
    out->buckled_bents = t.buckled_bents;
    out->worst_residual = t.worst_residual;
    out->worst_rcond = t.worst_rcond;
    BW_TRY(bwi_load_lines(plan, out));
    BW_TRY(bwi_flags(plan, out));
    return bwi_assumptions(&t, out);
}

/* A line of actions without memory reads as not a number, which looks like something that
 * cannot be said: the arena knows better. */
bw_status bw_deck_assess(bw_arena *arena, const bw_case *deck, bw_assessment *out,
                         bw_diags *d)
{
    const bw_status status = assess(arena, deck, out, d);
    return bw_arena_failed(arena) ? BW_E_MEMORY : status;
}
