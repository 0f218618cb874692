/* Where every log lies, for pictures, from the plan that the frames come from. */
#include "internal.h"

#include "drawing.h"

#include <math.h>

enum { PLACES = 9 }; /* along a log that was measured on the way */

static bool is_straight(const bw_log *log)
{
    return log->stations == NULL;
}

/* ---- numbering of the members, as in the assessment ---- */

static size_t cap_member(const bw_case *deck, size_t bent)
{
    size_t member = deck->n_stringers;
    for (size_t k = 0; k < bent; k++) {
        member += deck->bents[k].cap >= 0 ? 1 : 0;
    }
    return member;
}

static size_t first_post(const bw_case *deck, size_t bent)
{
    size_t member = cap_member(deck, deck->n_bents);
    for (size_t k = 0; k < bent; k++) {
        member += deck->bents[k].n_posts;
    }
    return member;
}

static size_t first_brace(const bw_case *deck)
{
    return first_post(deck, deck->n_bents);
}

/* ---- one log ---- */

/* Room for a log more; null without memory. */
static bw_drawn_log *new_log(const bwi_plan *p, bw_drawn_view *view, size_t *room,
                             size_t member, size_t n_places)
{
    bw_drawn_log *logs =
        bw_arena_grow(p->arena, view->logs, view->n_logs, room, sizeof *logs);
    bw_drawn_place *places = BW_NEW(p->arena, bw_drawn_place, n_places);
    if (logs == NULL || places == NULL) {
        return NULL;
    }
    view->logs = logs;
    logs[view->n_logs] = (bw_drawn_log){member, places, n_places};
    return &logs[view->n_logs++];
}

static double stringer_depth(const bwi_plan *p, int stringer, double from_first)
{
    return bwi_log_depth(&p->deck->logs[p->deck->stringers[stringer].log],
                         bwi_stringer_diameter(p, stringer, from_first));
}

typedef struct {
    const bwi_plan *p;
    bw_drawn_view *view;
    size_t room;
    bool plan; /* seen from above */
} drawer;

static size_t places_of_bay(const bwi_plan *p, const bw_stringer *s)
{
    return is_straight(&p->deck->logs[s->log]) ? 2 : PLACES;
}

static bw_status draw_stringer(drawer *w, int k)
{
    const bwi_plan *p = w->p;
    const bw_stringer *s = &p->deck->stringers[k];
    const size_t per_bay = places_of_bay(p, s), n_bays = (size_t)(s->to - s->from);
    bw_drawn_log *log =
        new_log(p, w->view, &w->room, (size_t)k, n_bays * (per_bay - 1) + 1);
    if (log == NULL) {
        return BW_E_MEMORY;
    }
    bw_drawn_place *place = BW_NEW(p->arena, bw_drawn_place, log->n_places);
    if (place == NULL) {
        return BW_E_MEMORY;
    }
    log->places = place;
    for (size_t j = 0; j < log->n_places; j++) {
        const size_t bay =
            (size_t)s->from + (j + 1 == log->n_places ? n_bays - 1 : j / (per_bay - 1));
        const double t =
            (double)(j - (bay - (size_t)s->from) * (per_bay - 1)) / (double)(per_bay - 1);
        const bwi_part_of_stringer *part = bwi_plan_part(p, s->row, bay);
        const bw_bent *a = &p->deck->bents[bay], *b = &p->deck->bents[bay + 1];
        const double from_first = part->from_first + t * part->length;
        const double at = a->at + t * (b->at - a->at);
        const double depth = stringer_depth(p, k, from_first);
        /* it lies on the caps: between two bents their tops run straight */
        const double top = p->cap_top[bay] + t * (p->cap_top[bay + 1] - p->cap_top[bay]);
        place[j] = w->plan ? (bw_drawn_place){at, p->deck->rows[s->row].across,
                                              bwi_stringer_diameter(p, k, from_first)}
                           : (bw_drawn_place){at, top + depth / 2.0, depth};
    }
    return BW_OK;
}

static bw_status draw_post(drawer *w, size_t bent, size_t k, bool along)
{
    const bwi_plan *p = w->p;
    const bw_post *post = &p->deck->bents[bent].posts[k];
    const bwi_post_place place = bwi_plan_post(p, bent, post);
    bw_drawn_log *log = new_log(p, w->view, &w->room, first_post(p->deck, bent) + k, 0);
    bw_drawn_place *places = BW_NEW(p->arena, bw_drawn_place, PLACES);
    if (log == NULL || places == NULL) {
        return BW_E_MEMORY;
    }
    log->n_places = is_straight(&p->deck->logs[post->log]) ? 2 : PLACES;
    log->places = places;
    const double x = along ? p->deck->bents[bent].at : p->deck->rows[post->row].across;
    for (size_t j = 0; j < log->n_places; j++) {
        const double t = (double)j / (double)(log->n_places - 1);
        const double height = t * place.top - (1.0 - t) * place.foot_depth;
        places[j] = (bw_drawn_place){x, height, bwi_post_diameter(p, &place, height)};
    }
    return BW_OK;
}

static bw_status draw_end(drawer *w, size_t member, double x, double y, double thickness)
{
    bw_drawn_log *log = new_log(w->p, w->view, &w->room, member, 0);
    bw_drawn_place *place = BW_NEW(w->p->arena, bw_drawn_place, 1);
    if (log == NULL || place == NULL) {
        return BW_E_MEMORY;
    }
    *place = (bw_drawn_place){x, y, thickness};
    log->places = place;
    log->n_places = 1;
    return BW_OK;
}

static bw_status draw_brace(drawer *w, size_t k, bool along)
{
    const bwi_plan *p = w->p;
    const bw_brace *b = &p->deck->braces[k];
    bw_drawn_log *log = new_log(p, w->view, &w->room, first_brace(p->deck) + k, 0);
    bw_drawn_place *places = BW_NEW(p->arena, bw_drawn_place, 2);
    if (log == NULL || places == NULL) {
        return BW_E_MEMORY;
    }
    bwi_brace_end(p, &b->from, along, &places[0].x, &places[0].y);
    bwi_brace_end(p, &b->to, along, &places[1].x, &places[1].y);
    places[0].thickness = p->deck->logs[b->log].butt_diameter;
    places[1].thickness = p->deck->logs[b->log].tip_diameter;
    log->places = places;
    log->n_places = 2;
    return BW_OK;
}

/* Seen from the side or from above. The cap reaches past the outer rows by as much as a
 * seat needs; how much longer it really is, the case does not say. */
static bw_status draw_cap(drawer *w, size_t bent)
{
    const bwi_plan *p = w->p;
    const bwi_cap_place *cap = &p->caps[bent];
    const double beyond = 0.6 * bwi_cap_diameter(p, bent, cap->across);
    bw_drawn_log *log = new_log(p, w->view, &w->room, cap_member(p->deck, bent), 0);
    bw_drawn_place *places = BW_NEW(p->arena, bw_drawn_place, PLACES);
    if (log == NULL || places == NULL) {
        return BW_E_MEMORY;
    }
    log->n_places = is_straight(&p->deck->logs[p->deck->bents[bent].cap]) ? 2 : PLACES;
    log->places = places;
    for (size_t j = 0; j < log->n_places; j++) {
        const double t = (double)j / (double)(log->n_places - 1);
        const double across = cap->across - beyond + t * (cap->length + 2.0 * beyond);
        const double on = fmin(fmax(across, cap->across), cap->across + cap->length);
        const double depth = bwi_cap_depth(p, bent, on);
        places[j] = w->plan
                        ? (bw_drawn_place){p->deck->bents[bent].at, across,
                                           bwi_cap_diameter(p, bent, on)}
                        : (bw_drawn_place){across, p->cap_top[bent] - depth / 2.0, depth};
    }
    return BW_OK;
}

/* ---- views ---- */

static bw_status draw_row(const bwi_plan *p, int row, bw_drawn_view *view)
{
    drawer w = {.p = p, .view = view};
    const double across = p->deck->rows[row].across;
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        const int post = bwi_post_of_row(&p->deck->bents[bent], row);
        if (post >= 0) {
            BW_TRY(draw_post(&w, bent, (size_t)post, true));
        }
        if (p->deck->bents[bent].cap >= 0 &&
            (post >= 0 || bwi_row_meets_bent(p, row, bent))) {
            const double depth = bwi_cap_depth(p, bent, across);
            BW_TRY(draw_end(&w, cap_member(p->deck, bent), p->deck->bents[bent].at,
                            p->cap_top[bent] - depth / 2.0, depth));
        }
    }
    for (size_t k = 0; k < p->deck->n_braces; k++) {
        const bw_brace *b = &p->deck->braces[k];
        if (bwi_brace_is_along(b) && b->from.row == row) {
            BW_TRY(draw_brace(&w, k, true));
        }
    }
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        if (p->deck->stringers[k].row == row) {
            BW_TRY(draw_stringer(&w, (int)k));
        }
    }
    return BW_OK;
}

/* Ends of the stringers on a bent: where two meet, the one after it is nearer. */
static bw_status draw_stringer_ends(drawer *w, size_t bent)
{
    const bwi_plan *p = w->p;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        if (!bwi_row_meets_bent(p, (int)r, bent)) {
            continue;
        }
        const bool after =
            bent < p->n_bays && bwi_plan_part(p, (int)r, bent)->stringer >= 0;
        const bwi_part_of_stringer *part =
            bwi_plan_part(p, (int)r, after ? bent : bent - 1);
        const double depth = stringer_depth(
            p, part->stringer, part->from_first + (after ? 0.0 : part->length));
        BW_TRY(draw_end(w, (size_t)part->stringer, p->deck->rows[r].across,
                        p->cap_top[bent] + depth / 2.0, depth));
    }
    return BW_OK;
}

static bw_status draw_bent(const bwi_plan *p, size_t bent, bw_drawn_view *view)
{
    drawer w = {.p = p, .view = view};
    const bw_bent *b = &p->deck->bents[bent];
    for (size_t k = 0; k < b->n_posts; k++) {
        BW_TRY(draw_post(&w, bent, k, false));
    }
    for (size_t k = 0; k < p->deck->n_braces; k++) {
        const bw_brace *brace = &p->deck->braces[k];
        if (!bwi_brace_is_along(brace) && brace->from.bent == (int)bent) {
            BW_TRY(draw_brace(&w, k, false));
        }
    }
    if (b->cap >= 0) {
        BW_TRY(draw_cap(&w, bent));
    }
    return draw_stringer_ends(&w, bent);
}

static bw_status draw_plan(const bwi_plan *p, bw_drawn_view *view)
{
    drawer w = {.p = p, .view = view, .plan = true};
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        if (p->deck->bents[bent].cap >= 0) {
            BW_TRY(draw_cap(&w, bent));
        }
    }
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        BW_TRY(draw_stringer(&w, (int)k));
    }
    return BW_OK;
}

static bw_status draw_views(const bwi_plan *p, bw_drawing *out)
{
    const bw_case *deck = p->deck;
    for (size_t r = 0; r < deck->n_rows; r++) {
        BW_TRY(draw_row(p, (int)r, &out->rows[r]));
    }
    for (size_t k = 0; k < deck->n_bents; k++) {
        BW_TRY(draw_bent(p, k, &out->bents[k]));
    }
    return draw_plan(p, &out->plan);
}

static bw_status plan_of(bw_arena *arena, const bw_assessment *assessment, bwi_plan **out)
{
    bw_diags unused = bw_diags_new(arena, NULL); /* the assessment has said it all */
    *out = BW_NEW(arena, bwi_plan, 1);
    return *out == NULL ? BW_E_MEMORY
                        : bwi_plan_make(arena, assessment->deck, assessment->references,
                                        *out, &unused);
}

static bw_status views_of(bw_arena *arena, const bwi_plan *plan, bw_drawing *out)
{
    const bw_case *deck = plan->deck;
    *out = (bw_drawing){.n_bays = plan->n_bays};
    out->rows = BW_NEW(arena, bw_drawn_view, deck->n_rows);
    out->bents = BW_NEW(arena, bw_drawn_view, deck->n_bents);
    return out->rows == NULL || out->bents == NULL ? BW_E_MEMORY : draw_views(plan, out);
}

bw_status bw_deck_views(bw_arena *arena, const bw_assessment *assessment, bw_drawing *out)
{
    bwi_plan *plan = NULL;
    BW_TRY(plan_of(arena, assessment, &plan));
    return views_of(arena, plan, out);
}

bw_status bw_deck_drawing(bw_arena *arena, const bw_assessment *assessment,
                          bw_drawing *out)
{
    bwi_plan *plan = NULL;
    BW_TRY(plan_of(arena, assessment, &plan));
    BW_TRY(views_of(arena, plan, out));
    out->bending = BW_NEW(arena, bw_drawn_bending, plan->deck->n_rows);
    if (out->bending == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t r = 0; r < plan->deck->n_rows; r++) {
        BW_TRY(bwi_drawn_bending(plan, (int)r, &out->bending[r]));
    }
    return BW_OK;
}
