/* log.c - the smallest log for a span, in whole steps of girth at mid length.
 *
 * How much such a log tapers depends on the tree: for every girth the thinnest tree is
 * taken whose log, counted cautiously, is thick enough half way, and its taper with it.
 * Ends are rounded so that the log asked for lies inside the one that the tree gives. */
#include "internal.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

/* Girths half way, and of trees at breast height: 6 in to 75 in, to 120 in; or 15 cm to
 * 190 cm, to 300 cm. */
static const int thinnest[] = {12, 15}, thickest[] = {150, 190}, largest[] = {240, 300};

/* The log that a tree gives, from support to support. */
typedef struct {
    bool known; /* the tree is high and thick enough */
    bw_log_size size;
} cone;

typedef struct {
    bw_arena *arena;
    const bw_log_question *question;
    double step;   /* of girth */
    double length; /* of the log cut */
    int breast;    /* girth of the tree found last, in steps; 0: none */
} trial;

/* The same for every girth of the tree: a log from the stump up. */
static bw_tree tree_of(const trial *t, int breast)
{
    const bw_log_question *q = t->question;
    return (bw_tree){.species = q->species,
                     .breast_diameter = bw_diameter_from_girth(breast * t->step),
                     .height = q->height,
                     .grown = q->grown,
                     .stump = bw_stump_usual};
}

static bw_status cut(const trial *t, int breast, cone *out)
{
    const bw_tree tree = tree_of(t, breast);
    const bw_arena_mark mark = bw_arena_now(t->arena);
    bw_tree_log log;
    bw_diags refused = bw_diags_new(t->arena, NULL); /* too small: no fault */
    const bw_status status = bw_tree_cut(t->arena, &tree, 0.0, t->length, &log, &refused);
    bw_arena_back(t->arena, mark);
    *out = (cone){.known = status == BW_OK};
    if (out->known) {
        const double butt = bw_log_diameter(&log.log, t->length, bwi_seat);
        const double tip = bw_log_diameter(&log.log, t->length, t->length - bwi_seat);
        out->size = (bw_log_size){butt, (butt + tip) / 2.0, tip};
    }
    return status == BW_E_MEMORY ? BW_E_MEMORY : BW_OK;
}

/* Nowhere thinner; rounding aside. */
static bool holds(const cone *outer, const bw_log_size *inner)
{
    const double slack = 1.0 - 1e-12;
    return outer->known && outer->size.butt >= inner->butt * slack &&
           outer->size.mid >= inner->mid * slack && outer->size.tip >= inner->tip * slack;
}

/* The thinnest tree whose log holds the other one: from the tree found last up or down.
 */
static bw_status find_tree(trial *t, const bw_log_size *inner, int *breast, cone *out)
{
    const int most = largest[t->question->duty.units];
    int low = 0, high = most + 1; /* low does not hold it, high does */
    int next = t->breast > 0 ? t->breast : (int)(1.2 * pi * inner->mid / t->step);
    int stride = 1;
    *out = (cone){.known = false};
    while (high - low > 1) {
        cone at;
        next = next <= low ? low + 1 : next >= high ? high - 1 : next;
        BW_TRY(cut(t, next, &at));
        if (holds(&at, inner)) {
            high = next;
            *out = at;
        } else {
            low = next;
        }
        const bool both = low > 0 && high <= most;
        next = both ? (low + high) / 2 : low > 0 ? low + stride : high - stride;
        stride *= 2;
    }
    *breast = high <= most ? high : 0;
    return BW_OK;
}

/* The log of so many steps of girth half way; *known is false if there is no tree. */
static bw_status size_of(trial *t, int girth, bw_log_size *out, bool *known)
{
    const double mid = bw_diameter_from_girth(girth * t->step);
    const bw_log_size half_way = {.mid = mid};
    cone tree;
    int breast;
    *known = false;
    BW_TRY(find_tree(t, &half_way, &breast, &tree));
    if (breast == 0) {
        return BW_OK;
    }
    t->breast = breast;
    const double tip = floor(girth * tree.size.tip / tree.size.mid * (1.0 + 1e-12));
    const double d = bw_diameter_from_girth(tip * t->step);
    *out = (bw_log_size){2.0 * mid - d, mid, d};
    *known = tip > 0.0;
    return BW_OK;
}

static bw_log log_of(const bw_log_question *q, const bw_log_size *size)
{
    return (bw_log){.name = "the log",
                    .species = q->species,
                    .butt_diameter = size->butt,
                    .tip_diameter = size->tip,
                    .grade = q->grade,
                    .case_path = ""};
}

static bw_status try_girth(void *context, int girth, bw_sized *out, bw_diags *d)
{
    trial *t = context;
    bw_log_size size;
    bool known;
    *out = (bw_sized){.verdict = BW_CANNOT_SAY, .utilisation = (double)NAN};
    BW_TRY(size_of(t, girth, &size, &known));
    if (!known) {
        return BW_OK;
    }
    const bw_log log = log_of(t->question, &size);
    return bw_size_check(t->arena, &t->question->duty, &log, t->question->span, out, d);
}

bw_log_question bw_log_question_default(const bw_species *species, double span)
{
    return (bw_log_question){.species = species,
                             .grown = BW_FOREST_GROWN,
                             .span = span,
                             .duty = bw_duty_default(BW_USE_RIDERS, BW_IMPERIAL)};
}

/* The log of the answer, and the tree that gives it: ends rounded, the log may need one
 * that is a step thicker than the one whose taper it has. */
static bw_status describe(trial *t, const bwi_found *found, bw_log_answer *out)
{
    bool known;
    int breast;
    cone tree;
    BW_TRY(size_of(t, found->within, &out->size, &known));
    BW_TRY(find_tree(t, &out->size, &breast, &tree));
    out->has_tree = breast > 0;
    out->tree = tree_of(t, breast);
    out->breast_girth = breast * t->step;
    return out->to_end ? BW_OK : size_of(t, found->over, &out->thinner, &known);
}

/* A first guess: a log as thick as a 25th of the span. */
static int guess_of(const bw_log_question *q, double step)
{
    return (int)(pi * q->span / 25.0 / step);
}

/* The thickest girth half way that a tree of the range gives, in steps; 0: none. */
static bw_status thickest_of(const trial *t, int *out)
{
    const bw_units units = t->question->duty.units;
    cone tree;
    BW_TRY(cut(t, largest[units], &tree));
    const double steps = floor(pi * tree.size.mid / t->step * (1.0 - 1e-9));
    *out = !tree.known ? 0 : steps < thickest[units] ? (int)steps : thickest[units];
    return BW_OK;
}

bw_status bwi_log_search(bw_arena *arena, const bw_log_question *q, double guess,
                         bw_log_answer *out, double *edge, bw_diags *d)
{
    const bw_units units = q->duty.units;
    const double step = units == BW_IMPERIAL ? 0.5 * bw_inch : 0.01;
    trial t = {arena, q, step, q->span * q->duty.bays + 2.0 * bwi_seat, 0};
    int best = 0;
    BW_TRY(thickest_of(&t, &best));
    *out = (bw_log_answer){.no_taper = best < thinnest[units],
                           .step = step,
                           .thinnest = thinnest[units] * step,
                           .thickest = best * step,
                           .length = t.length,
                           .at = {.verdict = BW_CANNOT_SAY}};
    *edge = 0.0;
    if (out->no_taper) {
        return BW_OK;
    }
    const bwi_search search = {.try_step = try_girth,
                               .context = &t,
                               .best = best,
                               .worst = thinnest[units],
                               .guess = guess > 0.0 ? (int)ceil(guess / step)
                                                    : guess_of(q, step),
                               .power = -3.0};
    bwi_found found;
    BW_TRY(bwi_search_steps(&search, &found, d));
    *edge = found.edge * step;
    out->found = found.has_within;
    out->to_end = !found.has_over;
    out->at = found.has_within ? found.at_within : found.at_over;
    out->below = found.at_over;
    return out->found ? describe(&t, &found, out) : BW_OK;
}

bw_status bw_log_smallest(bw_arena *arena, const bw_log_question *q, bw_log_answer *out,
                          bw_diags *d)
{
    double edge;
    BW_TRY(bwi_log_search(arena, q, 0.0, out, &edge, d));
    if (!out->found) {
        return BW_OK;
    }
    const bw_log log = log_of(q, &out->size);
    return bwi_leverage(arena, &q->duty, &log, q->span, &out->leverage, d);
}
