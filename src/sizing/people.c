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

static void count_heads(const bw_case *deck, bw_head_count *out)
{
    const double width = deck->boards.width;
    const double length = bw_deck_length(deck);
    const double bay = out->crowd * width * shortest_bay(deck);
    out->person = deck->loads.person;
    out->on_deck = heads(out->crowd * width * length, out->person);
    out->in_bay = heads(heaped_part(out->crowd) * bay, out->person);
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
    out->known = rest && out->crowd > 0.0;
    out->rest_fails = !rest;
    count_heads(deck, out);
    return BW_OK;
}
