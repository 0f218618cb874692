/* How many people may stand on a deck: the crowd at which its checks reach their limit,
 * by halving, each trial an assessment of the deck with nothing on it but people, who
 * sway. Heads are then counted from a crowd that was found within limits. */
#include "bolewright/sizing.h"

#include <math.h>

enum { HALVINGS = 9 };
static const double densest = 5570.2; /* [Pa] 7.1 people of 80 kg on a square metre: the
                                         most that stand there (Fruin, READ) */

/* Sway of so many people, if those of the case sway as it says. */
static double sway_of(const bw_loads *l, double crowd)
{
    const double usual =
        l->crowd > 0.0 ? bw_people_sway(l->crowd) : bw_loads_default.sway;
    return l->sway / usual * bw_people_sway(crowd);
}

static bw_status assess_trial(bw_arena *arena, const bw_case *trial, bool *within,
                              bw_diags *d)
{
    bw_assessment assessment;
    const size_t before = d->count;
    const bw_arena_mark mark = bw_arena_now(arena);
    const bw_status status = bw_deck_assess(arena, trial, &assessment, d);
    *within = status == BW_OK && assessment.verdict == BW_WITHIN;
    if (d->count == before) { /* what was said lives in the arena */
        bw_arena_back(arena, mark);
    }
    return status;
}

/* The deck with people, and without what moves. */
static bw_status people_within(bw_arena *arena, const bw_case *deck, double crowd,
                               bool *within, bw_diags *d)
{
    bw_case trial = *deck;
    trial.loads.mass = trial.loads.machine.mass = 0.0;
    trial.loads.crowd = crowd;
    trial.loads.sway = sway_of(&deck->loads, crowd);
    return assess_trial(arena, &trial, within, d);
}

/* Largest crowd found within limits [Pa]; low: known to be, or 0. */
static bw_status find_limit(bw_arena *arena, const bw_case *deck, double low,
                            bw_head_count *out, bw_diags *d)
{
    bool within = false;
    double high = fmax(densest, deck->loads.crowd);
    BW_TRY(people_within(arena, deck, high, &within, d));
    out->beyond = within;
    for (int k = 0; k < HALVINGS && !out->beyond; k++) {
        const double middle = (low + high) / 2.0;
        BW_TRY(people_within(arena, deck, middle, &within, d));
        *(within ? &low : &high) = middle;
    }
    out->limit = out->beyond ? high : low;
    return BW_OK;
}

/* Riders and machine alone: what people have no part in. */
static bw_status rest_within(bw_arena *arena, const bw_case *deck, bool *within,
                             bw_diags *d)
{
    bw_case trial = *deck;
    trial.loads.crowd = 0.0;
    *within = true;
    if (!(deck->loads.mass > 0.0) && !(deck->loads.machine.mass > 0.0)) {
        return BW_OK;
    }
    return assess_trial(arena, &trial, within, d);
}

static double shortest_bay(const bw_case *deck)
{
    double length = HUGE_VAL;
    for (size_t k = 1; k < deck->n_bents; k++) {
        length = fmin(length, deck->bents[k].at - deck->bents[k - 1].at);
    }
    return length;
}

static int heads(double weight, double person)
{
    return (int)floor(weight / (person * bw_gravity) * (1.0 + 1e-9));
}

/* People of a bay who stand as close as they can bend and shear a log that ends at both
 * bents of the bay no more than the even crowd q, if their weight W = r q A has r (2 - r
 * q / q_max) <= 1: W / 8 (2 L - c) of a heap of length c = r q L / q_max at mid-span
 * against q A L / 8, and W (1 - c / 2 L) at its end against q A / 2 (COMPUTED). */
static double heaped_part(double crowd)
{
    const double dense = fmin(crowd / densest, 1.0);
    return dense > 0.0 ? (1.0 - sqrt(1.0 - dense)) / dense : 0.5;
}

/* ---- across ---- */

/* The next row of the bay, seen from one side (-1: from the left): how far it lies beyond
 * the middle of the boards; HUGE_VAL: none. */
static double next_row(const bw_case *deck, int bay, double side, double beyond)
{
    double next = HUGE_VAL;
    for (size_t k = 0; k < deck->n_stringers; k++) {
        const bw_stringer *s = &deck->stringers[k];
        const double at = -side * deck->rows[s->row].across;
        if (s->from <= bay && bay < s->to && at > beyond) {
            next = fmin(next, at);
        }
    }
    return next;
}

/* With e of boards beyond the outer row, the next one d from it, and a file whose middle
 * is c in from the edge, of W for q w an even crowd, by the signed lever rule (COMPUTED):
 *   outer row     W (1 + (e - c) / d)  against  q d (1 + e / d)^2 / 2
 *   row lifted    W (e - c) / d        against  q e^2 / 2 d      (of a lone row: turned)
 * The weight of the deck, which is left out, holds down what is lifted, and nothing what
 * is turned: so for lifting they stand further in (JUDGEMENT). */
static double part_at_edge(const bw_case *deck, int bay, double side)
{
    static const double in = 0.1, in_that_lift = 0.3; /* [m] JUDGEMENT: c */
    const double width = deck->boards.width;
    const double first = next_row(deck, bay, side, -HUGE_VAL);
    const double apart = next_row(deck, bay, side, first) - first;
    const bool lone = !(apart < HUGE_VAL);
    const double e = first + width / 2.0, lifting = e - (lone ? in : in_that_lift);
    const double even = 1.0 + e / apart;
    const double file = 1.0 + (e - fmin(in, width / 2.0)) / apart;
    double part = 1.0;
    if (lifting > 0.0) {
        part = fmin(part, e * e / 2.0 / (width * lifting));
    }
    if (!lone && file > 0.0) {
        part = fmin(part, apart * even * even / 2.0 / (width * file));
    }
    return part;
}

/* A file over a row between others: all of it, against half of the boards either side. */
static double part_within(const bw_case *deck, int bay)
{
    double before = next_row(deck, bay, -1.0, -HUGE_VAL), part = 1.0;
    double row = next_row(deck, bay, -1.0, before);
    double after = next_row(deck, bay, -1.0, row);
    while (after < HUGE_VAL) {
        part = fmin(part, (after - before) / 2.0 / deck->boards.width);
        before = row;
        row = after;
        after = next_row(deck, bay, -1.0, row);
    }
    return part;
}

/* People of a bay who stand in single file along any line of it press on no row, and lift
 * none, more than the even crowd, if they weigh that part of it. */
static double filed_part(const bw_case *deck)
{
    double part = 1.0;
    for (int bay = 0; bay + 1 < (int)deck->n_bents; bay++) {
        part = fmin(part, part_at_edge(deck, bay, -1.0));
        part = fmin(part, part_at_edge(deck, bay, 1.0));
        part = fmin(part, part_within(deck, bay));
    }
    return part;
}

/* ---- heads ---- */

static void count_heads(const bw_case *deck, bw_head_count *out)
{
    const double width = deck->boards.width;
    const double length = bw_deck_length(deck);
    const double bay = width * shortest_bay(deck);
    /* close together they may do what the even crowd does that is within limits still */
    const double close = heaped_part(out->limit) * filed_part(deck) * out->limit * bay;
    const int n_bays = (int)deck->n_bents - 1;
    out->person = deck->loads.person;
    out->on_deck = heads(out->crowd * width * length, out->person);
    out->in_bay = heads(fmin(close, out->crowd * bay), out->person);
    if (out->on_deck / n_bays >= out->in_bay) { /* each bay takes no more than that */
        out->on_deck = n_bays * out->in_bay;
    }
    out->at_limit = heads(out->limit * width * length, out->person);
}

bw_status bw_people_count(bw_arena *arena, bw_assessment *assessment, bw_diags *d)
{
    const bw_case *deck = assessment->deck;
    bw_head_count *out = &assessment->heads;
    bool rest = assessment->verdict == BW_WITHIN;
    *out = (bw_head_count){.tried = true};
    BW_TRY(find_limit(arena, deck, rest ? deck->loads.crowd : 0.0, out, d));
    if (!rest && deck->loads.crowd > 0.0) {
        BW_TRY(rest_within(arena, deck, &rest, d));
    }
    out->crowd = fmin(deck->loads.crowd, out->limit);
    out->rest_fails = !rest;
    count_heads(deck, out);
    out->known = rest && out->crowd > 0.0 && out->in_bay > 0;
    return BW_OK;
}
