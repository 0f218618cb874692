/* The assessment: the worst of every check turned into findings. */
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
        return isnan(w->ratio.utilisation) ? "cannot say without where its fasteners lie "
                                             "(edge, loaded_edge), nor "
                                             "of a hollow log"
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

/* What a seat or a notch through a shell leaves cannot be said; null: no log has one so
 * thin. */
static const char *shell_advice(const bwi_plan *p, const bwi_worst *w)
{
    bool opens = false;
    double depth = p->deck->limits.seat_depth;
    for (size_t k = 0; k < p->deck->n_joints; k++) {
        depth = fmax(depth, p->deck->joints[k].notch);
    }
    for (size_t k = 0; k < p->deck->n_logs; k++) {
        const bw_log *log = &p->deck->logs[k];
        const double thick = fmax(log->butt_diameter, log->tip_diameter);
        opens = opens || bwi_opens(log, thick, depth);
    }
    return opens && isnan(w->ratio.utilisation)
               ? "a seat or a notch as deep as the shell of a hollow log goes through "
                 "it: "
                 "cut it shallower (\"seat_depth\", \"notch\"), or take a solid log"
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
    if (bw_deck_tips(deck)) {
        return "; a second row of posts, and braces between, take the bending off them";
    }
    return deck->n_braces > 0
               ? "; braces that only push bring the whole of it to one post: fasten "
                 "them so that they pull"
               : "; crossed braces in every bent and bay take the bending off the posts";
}

/* What is not known of the ground, or of a sill that turns over. */
static const char *ground_advice(const bwi_worst *w)
{
    if (isnan(w->ratio.utilisation) && w->input.soil == BW_SOIL_UNKNOWN) {
        return "the case does not say what the ground is: give \"soil\" under "
               "\"ground\", "
               "or with the post";
    }
    return w->input.foot_length > 0.0 && w->ratio.utilisation > 1.0
               ? "a sill counts as long as its log says, but three thicknesses beyond "
                 "the "
                 "outer rows at most, and without a length as far as those"
               : NULL;
}

/* What stands beside the only row of a bay is not counted then. */
static bool lies_on_one_row_here_and_there(const bwi_plan *p)
{
    return p->lone_row < 0 && bw_deck_tips(p->deck);
}

/* What would make a post steady whose hole is too shallow: the depth that would do; why
 * there is no number. Null if there is nothing to say. */
static const char *advice(const bwi_plan *p, const bwi_worst *w, int kind)
{
    const char *unknown = bwi_rider_unknown(p->deck);
    if (isnan(w->ratio.utilisation) && unknown != NULL) {
        return bw_arena_print(p->arena, "the riders: %s", unknown);
    }
    if (isnan(w->ratio.utilisation) && lies_on_one_row_here_and_there(p)) {
        return "a bay on one row tips on it, which is counted only where the whole deck "
               "lies on that row: lay a second row there, or check that part by itself";
    }
    if (kind == BW_CHECK_JOINT || kind == BW_CHECK_LIFT || kind == BW_CHECK_SPLIT) {
        return joint_advice(p, w, kind);
    }
    if (kind != BW_CHECK_SOIL_LATERAL && kind != BW_CHECK_SOIL_BEARING &&
        kind != BW_CHECK_UPLIFT) {
        return shell_advice(p, w);
    }
    if (kind != BW_CHECK_SOIL_LATERAL || !(w->ratio.utilisation > 1.0)) {
        return ground_advice(w);
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
    const bwi_worst *w = bwi_tracked(t, member, kind);
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
        if (bwi_tracked(t, member, kind)->has) {
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

/* Of two that differ only by rounding the first one governs. */
static const double tie = 1e-9;

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
                f->ratio.utilisation > out->governing->ratio.utilisation * (1.0 + tie) ||
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

static bw_status assess(bw_arena *arena, const bw_case *deck, int threads,
                        bw_assessment *out, bw_diags *d)
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
    BW_TRY(bwi_tracker_make(plan, &t));
    BW_TRY(bwi_search_frames(&t, threads, &out->dead_weight, d));
    BW_TRY(bwi_search_boards(&t, d));
    if (deck->loads.mass > 0.0 && bwi_rider_unknown(deck) != NULL) {
        bwi_track_unknown(&t, "dead + rider");
    }
    if (lies_on_one_row_here_and_there(plan)) {
        bwi_track_unknown(&t, "all loads");
    }
    BW_TRY(collect(&t, out));
    judge(out);
    out->references = references;
    out->board_reference = t.board_reference;
    BW_TRY(not_checked(&t, out));
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
bw_status bw_deck_assess_with(bw_arena *arena, const bw_case *deck, int threads,
                              bw_assessment *out, bw_diags *d)
{
    const bw_status status = assess(arena, deck, threads, out, d);
    return bw_arena_failed(arena) ? BW_E_MEMORY : status;
}

bw_status bw_deck_assess(bw_arena *arena, const bw_case *deck, bw_assessment *out,
                         bw_diags *d)
{
    return bw_deck_assess_with(arena, deck, 1, out, d);
}
