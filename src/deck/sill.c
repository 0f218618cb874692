/* A sill on the ground: pressed beside its middle, drawn up at its ends, and pushed. */
#include "bent.h"

#include <math.h>

/* Weight of what moves on a sill, with the factor of the combination: the first of a line
 * over it, the others to both sides of it, each with what it has of the way to the next
 * bent [N]. */
static double moving_weight(const bwi_plan *p, size_t bent, const bwi_mover *mover,
                            double factor)
{
    const bw_bent *b = p->deck->bents;
    const double before = bent > 0 ? b[bent].at - b[bent - 1].at : 0.0;
    const double after = bent < p->n_bays ? b[bent + 1].at - b[bent].at : 0.0;
    double part = 0.0;
    for (int k = 0; k < mover->count; k++) {
        const int away = (k + 1) / 2;
        part += fmax(0.0, 1.0 - away * mover->spacing / fmax(before, after));
    }
    return factor == 0.0 ? 0.0 : factor * part * mover->mass * bw_gravity;
}

typedef struct {
    double middle, length; /* [m] across the deck */
    double area, own;      /* [m2] on the ground, [N] */
} sill;

/* It lies as far beyond either outer row; half the thickness of a round log is on the
 * ground (JUDGEMENT), and presses no further from a row than it is stiff enough for:
 * three thicknesses (JUDGEMENT). Its end bends there by q d / 2 (3 d)^2 / 2, 3.3 MPa on
 * the 144 kPa that gravel bears. */
static sill sill_of(const bwi_plan *p, size_t bent)
{
    static const double least = 0.3; /* a block under one row */
    const bwi_cap_place *place = &p->caps[bent];
    const bw_log *log = &p->deck->logs[p->deck->bents[bent].cap];
    const double d = log->tip_diameter, reach = 3.0 * d;
    const double built = fmax(place->length, log->length);
    const double length = fmax(fmin(built, place->length + 2.0 * reach), least);
    const double pressed = fmin(length, 2.0 * reach * (double)p->deck->n_rows);
    const bw_section round = bw_section_round(d);
    return (sill){.middle = place->across + place->length / 2.0,
                  .length = length,
                  .area = fmax(pressed, least) * d / 2.0,
                  .own = bw_section_area(&round) * length * bw_gravity *
                         bwi_log_density(p->deck, log)};
}

/* Forces on it, and their moments about an end, turning it over that one. */
typedef struct {
    double down, live_turn, dead_turn;
} sill_actions;

static sill_actions on_sill(const bwi_arrangement *a, const bwi_row_forces *rows,
                            const sill *s, double moving, double push)
{
    const bw_case *deck = a->t->plan->deck;
    const int way = a->event.direction;
    const double end = s->middle + way * s->length / 2.0;
    const double height = deck->bents[a->f.bent].deck_height;
    sill_actions out = {.down = s->own + moving, .dead_turn = -s->own * s->length / 2.0};
    out.live_turn = moving * way * (a->event.rider.across - end) + fabs(push) * height;
    out.live_turn += way * rows->turn;
    for (size_t r = 0; r < deck->n_rows; r++) {
        const double beyond = way * (deck->rows[r].across - end);
        const double dead = rows->total[r] - rows->live[r];
        const double turn = way * dead * bwi_beside_lone_row(a->t->plan, 0.0);
        out.down += rows->total[r];
        out.live_turn += rows->live[r] * beyond - turn;
        out.dead_turn += dead * beyond + turn;
    }
    return out;
}

/* What is not a number must reach the checks. */
static double not_below_0(double value)
{
    return value < 0.0 ? 0.0 : value;
}

/* A sill pressed beside its middle, and drawn up at its other end, as a post would be. */
static void check_on_sill(const bwi_arrangement *a, const bwi_row_forces *rows,
                          const sill *s, double moving, double push)
{
    const bwi_plan *p = a->t->plan;
    const size_t member = a->t->first_cap + a->f.bent;
    const sill_actions on = on_sill(a, rows, s, moving, push);
    const double off = (on.live_turn + on.dead_turn) / on.down + s->length / 2.0;
    const double pull = on.live_turn / s->length;
    bw_check_input in = {.soil = p->deck->ground.soil,
                         .foot_force = not_below_0(on.down),
                         .foot_area = s->area,
                         .foot_length = s->length,
                         .foot_off = not_below_0(off),
                         .pull = not_below_0(pull),
                         .foot_dead = -on.dead_turn / s->length};
    bwi_track(a->t, member, BW_CHECK_SOIL_BEARING, &in, 0.0, &a->event);
    if (!(pull <= 0.0)) {
        bwi_track(a->t, member, BW_CHECK_UPLIFT, &in, 0.0, &a->event);
    }
}

/* With what moves at a place along an edge. */
static void check_from_afar(const bwi_arrangement *a, const bwi_row_forces *plain,
                            const sill *s, double *total, double *live)
{
    const bwi_plan *p = a->t->plan;
    const bwi_mover mover = bwi_mover_in(p->deck, plain->combination);
    const double moving = bwi_moving(plain->combination), factor = moving * mover.factor;
    bwi_row_forces rows = *plain;
    double weight = 0.0;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        const double more = bwi_live_of_row(a, r, &a->event.rider, NULL);
        live[r] = plain->live[r] + factor * more;
        total[r] = plain->total[r] + factor * more;
        weight += more;
    }
    rows.total = total;
    rows.live = live;
    rows.turn += factor * weight * bwi_beside_lone_row(p, a->event.rider.across);
    check_on_sill(a, &rows, s, 0.0, bwi_push_with(a, plain, weight));
}

/* On stringers that run on, what moves in another bay may lift what holds a sill down: at
 * the edge that it turns it away from. */
static bw_status try_from_afar(const bwi_arrangement *base, const bwi_row_forces *plain,
                               const sill *s)
{
    const bwi_plan *p = base->t->plan;
    const bwi_mover mover = bwi_mover_in(p->deck, plain->combination);
    double *total = BW_NEW(p->arena, double, p->deck->n_rows);
    double *live = BW_NEW(p->arena, double, p->deck->n_rows);
    double stops[BWI_STOPS_MAX];
    size_t first, end;
    if (total == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    bwi_arrangement a = *base;
    a.f.direction = a.push; /* which way wheels follow */
    bwi_bays_that_matter(p, &mover, a.f.bent, &first, &end);
    bwi_rider_place *const rider = &a.event.rider;
    const size_t ways = 2 * (size_t)bwi_mover_ways(&mover);
    for (size_t k = ways * first; k < ways * end; k++) {
        rider->bay = k / ways;
        rider->across *= -1.0;
        rider->alone = k % ways >= 2;
        const size_t n =
            bwi_rider_stops(p, rider, a.f.direction, BWI_BENT_POSITIONS, stops);
        for (size_t j = 0; j < n; j++) {
            rider->along = stops[j];
            check_from_afar(&a, plain, s, total, live);
        }
    }
    return BW_OK;
}

/* One combination with people on the bays of a pattern and the rows of a set, pushed over
 * an end; what moves stands at the edge there. */
static bw_status try_on_sill(const bwi_arrangement *base, const bw_combination *c,
                             size_t k, size_t set, int way, double *total, double *live)
{
    const bwi_plan *p = base->t->plan;
    const size_t bent = base->f.bent;
    const bwi_mover mover = bwi_mover_in(p->deck, c);
    const double weight = moving_weight(p, bent, &mover, bwi_moving(c));
    const bool before = bent == p->n_bays; /* of the last bay's end */
    const size_t bay = before ? bent - 1 : bent;
    bwi_arrangement a = *base;
    a.push = way;
    a.event = (bwi_event){
        .combination = c->title,
        .rider = {.present = weight > 0.0,
                  .bay = bay,
                  .along =
                      before ? p->deck->bents[bent].at - p->deck->bents[bay].at : 0.0,
                  .row = -1,
                  .across = way * bwi_mover_reach(p->deck, &mover),
                  .machine = c->machine != 0.0},
        .pattern = c->crowd != 0.0 ? bwi_set_words(base, k, set) : NULL,
        .push = bwi_push_across(way),
        .direction = way,
        .dead = c->dead,
        .load_duration = c->duration,
        .lasting_share = c->lasting_share,
        .not_ground = c->factored,
        .only_ground = !c->strength};
    const sill s = sill_of(p, bent);
    const bwi_row_forces rows = bwi_plain_forces(&a, c, k, set, total, live);
    const double lean = p->deck->loads.lean * mover.factor;
    const double push = rows.push + way * weight * (mover.push + lean);
    bwi_check_push_across(&a, push);
    bwi_note_push(&a, push, BWI_SILL_PUSH);
    check_on_sill(&a, &rows, &s, weight * mover.factor, push);
    if (weight == 0.0) {
        return BW_OK;
    }
    /* it may press no harder than it weighs while it pushes */
    check_on_sill(&a, &rows, &s, weight, push);
    return a.may_lift ? try_from_afar(&a, &rows, &s) : BW_OK;
}

bw_status bwi_check_sill(const bwi_arrangement *a)
{
    const bwi_plan *p = a->t->plan;
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = bwi_combinations(p->deck, list);
    double *total = BW_NEW(p->arena, double, p->deck->n_rows);
    double *live = BW_NEW(p->arena, double, p->deck->n_rows);
    if (total == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < n; k++) {
        const bool crowd = list[k].crowd != 0.0;
        const size_t sets = crowd ? bwi_row_sets(p, a->transfer) : 1;
        const size_t all = sets * (crowd ? a->transfer->n_patterns : 1);
        for (size_t j = 0; j < 2 * all; j++) {
            BW_TRY(try_on_sill(a, &list[k], j / 2 / sets, j / 2 % sets,
                               j % 2 == 0 ? 1 : -1, total, live));
        }
    }
    return BW_OK;
}
