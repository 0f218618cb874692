/* What is known of logs in places, and how it is found: trials of the whole deck, in
 * which many places are tried at once. */
#include "match.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static size_t pair(const bwi_matcher *m, size_t place, size_t log)
{
    return place * m->question->n_pile + log;
}

/* ---- what follows for other logs ---- */

/* No check of a member gains more from another log than this: the largest ratio of any
 * strength or stiffness, times the largest ratio of diameters along the place to the
 * fifth power (bending goes with the third, stiffness with the fourth: JUDGEMENT). */
static double most_gain(const bwi_matcher *m, size_t place, size_t from, size_t to)
{
    const bw_log *a = &m->question->pile[from], *b = &m->question->pile[to];
    double strength = 0.0, thickness = 0.0;
    for (int p = 0; p < BW_PROPERTY_COUNT; p++) {
        strength =
            fmax(strength, m->references[to].value[p] / m->references[from].value[p]);
    }
    for (int k = 0; k <= 4; k++) {
        const double at = m->out->places[place].length * k / 4.0;
        thickness = fmax(thickness, bw_log_diameter(b, b->length, at) /
                                        bw_log_diameter(a, a->length, at));
    }
    return strength * pow(thickness, 5.0);
}

/* A log that failed rules out those that cannot gain enough over it, in this place and in
 * those like it. How much is enough: the root of its utilisation, since the rest may be
 * due to what it was tried with. */
static void rule_out_weaker(bwi_matcher *m, size_t place, size_t log, double works)
{
    const double needed = works > 1.0 ? sqrt(works) : 1.0;
    for (size_t k = 0; k < m->out->n_places; k++) {
        for (size_t j = 0; m->group[k] == m->group[place] && j < m->question->n_pile;
             j++) {
            bool *allowed = &m->allowed[pair(m, k, j)];
            if (*allowed && (j == log || most_gain(m, k, log, j) <= needed)) {
                *allowed = false;
            }
        }
    }
}

/* A log too thick for its place, or too short for what was found to be its length: so are
 * those that are thicker or shorter. */
static void rule_out_blamed(bwi_matcher *m, size_t place, size_t log)
{
    const bw_log *bad = &m->question->pile[log];
    const bool is_post = place >= m->first_post;
    for (size_t j = 0; j < m->question->n_pile; j++) {
        const bw_log *other = &m->question->pile[j];
        const bool as_bad = is_post ? other->length <= bad->length
                                    : fmax(other->butt_diameter, other->tip_diameter) >=
                                          fmax(bad->butt_diameter, bad->tip_diameter);
        if (as_bad) {
            m->allowed[pair(m, place, j)] = false;
        }
    }
}

/* ---- whose fault it is ---- */

static bool hangs_on_others(const bw_check *check)
{
    return check != NULL &&
           (check->kind == BW_CHECK_BEARING || check->kind == BW_CHECK_END_BEARING ||
            check->kind == BW_CHECK_UPLIFT || check->kind == BW_CHECK_BUCKLING);
}

/* They lie on each other: of different kinds, and over or at the same bent. */
static bool touches(const bwi_matcher *m, size_t a, size_t b)
{
    const bw_match_place *p = &m->out->places[a], *q = &m->out->places[b];
    const int p_to = a < m->first_cap ? m->stringers[a].to : p->bent;
    const int q_to = b < m->first_cap ? m->stringers[b].to : q->bent;
    return a < m->first_brace && b < m->first_brace && strcmp(p->role, q->role) != 0 &&
           p->bent <= q_to && q->bent <= p_to;
}

/* Thickness over that of the drawn log. */
static double relative(const bwi_matcher *m, size_t place)
{
    const bw_match_place *p = &m->out->places[place];
    const bw_log *log = &m->question->pile[p->log];
    const double ends = bw_log_diameter(log, log->length, 0.0) +
                        bw_log_diameter(log, log->length, p->length);
    return ends / (p->drawn->butt_diameter + p->drawn->tip_diameter);
}

/* The place whose log a failure is laid to: its own, or, where the check hangs on other
 * logs, the one that is thinnest against what is drawn. A thin cap has no room for a
 * seat, and what is light does not hold a post down. */
static size_t culprit(const bwi_matcher *m, size_t place)
{
    const bool own = m->out->places[place].log >= 0;
    size_t worst = place;
    double least = own ? fmin(relative(m, place), 1.0) : 1.0;
    if (!hangs_on_others(m->governing[place])) {
        return place;
    }
    for (size_t k = 0; k < m->out->n_places; k++) {
        if (m->out->places[k].log >= 0 && touches(m, place, k) &&
            relative(m, k) < least) {
            least = relative(m, k);
            worst = k;
        }
    }
    return worst;
}

bool bwi_match_learn(bwi_matcher *m)
{
    bool all_pass = true;
    for (size_t k = 0; k < m->out->n_places; k++) {
        const bool bad = m->fits ? !bwi_match_passes(m, k) : m->blamed[k];
        const size_t who = bad && m->fits ? culprit(m, k) : k;
        const int log = m->out->places[who].log;
        if (!bad || log < 0) {
            continue;
        }
        all_pass = false;
        if (m->fits) {
            rule_out_weaker(m, who, (size_t)log, m->works[k]);
        } else {
            rule_out_blamed(m, who, (size_t)log);
        }
    }
    return all_pass;
}

/* ---- members that want a log ---- */

const char bwi_wanted[] = "wanted";

struct bwi_wish {
    int drawn, fails, passes, at; /* in steps of girth; passes < 0: not known */
    int stride; /* from what was wanted before: the steps to either side; 0: nothing was
                 */
    bool has_failed, settled;
};
typedef struct bwi_wish wish;

static const double pi = 3.14159265358979323846;

static double girth_step(const bwi_matcher *m)
{
    return m->deck.units == BW_IMPERIAL ? 0.5 * bw_inch : 0.01;
}

/* Of the drawn species, grade, flats and taper, with the girth at its butt. */
static bw_log wished(const bwi_matcher *m, size_t place, int steps)
{
    const bw_match_place *p = &m->out->places[place];
    bw_log log = *p->drawn;
    const double butt = steps * girth_step(m) / pi;
    const double fall = fmax(p->drawn->butt_diameter - p->drawn->tip_diameter, 0.0);
    log.name = bwi_wanted;
    log.butt_diameter = butt;
    log.tip_diameter = fmax(butt - fall, 0.7 * butt);
    log.stations = NULL;
    log.n_stations = 0;
    log.shell = 0.0;
    log.outer_loss = 0.0;
    log.length = place < m->first_post ? p->length : 0.0; /* posts: as thin logs need */
    return log;
}

static int larger(int a, int b)
{
    return a > b ? a : b;
}

/* Up until one passes, down until one fails, then between the two. */
static void next_wish(const bwi_matcher *m, wish *w)
{
    const int most = (int)(1.2 * pi / girth_step(m));
    if (w->passes < 0) {
        w->at += w->stride > 0 ? w->stride : larger(w->at / 4, 1);
        w->stride *= 2;
        w->settled = w->at > most;
        w->at = w->settled ? w->drawn : w->at;
    } else if (w->passes - w->fails <= 1) {
        w->at = w->passes;
        w->settled = true;
    } else if (w->stride > 0 && !w->has_failed) {
        w->at = larger(w->passes - w->stride, w->fails + 1);
        w->stride *= 2;
    } else {
        w->at = (w->passes + w->fails) / 2;
    }
}

static void lay_wishes(bwi_matcher *m, const wish *wishes)
{
    for (size_t k = 0; k < m->out->n_places; k++) {
        bw_match_place *p = &m->out->places[k];
        if (p->log < 0) {
            p->piece = wished(m, k, wishes[k].at);
            m->logs[k] = p->piece;
        }
    }
}

/* True as long as something is not settled. */
static bool hear(bwi_matcher *m, wish *wishes)
{
    bool open = false;
    for (size_t k = 0; k < m->out->n_places; k++) {
        wish *w = &wishes[k];
        if (w->settled) {
            continue;
        }
        if (!m->fits && m->blamed[k]) { /* none as thick fits under the deck */
            w->settled = true;
            w->at = w->drawn;
            continue;
        }
        if (m->fits) {
            const bool passes = bwi_match_passes(m, k);
            *(passes ? &w->passes : &w->fails) = w->at;
            w->has_failed = w->has_failed || !passes;
            next_wish(m, w);
        }
        open = open || !w->settled;
    }
    return open;
}

/* Wishes were found while others were still open: together they may want a step more. */
static bw_status settle(bwi_matcher *m, wish *wishes)
{
    enum { ROUNDS = 6 };
    bool more = true;
    for (int round = 0; more && round < ROUNDS; round++) {
        lay_wishes(m, wishes);
        const bw_arena_mark mark = bw_arena_now(m->arena);
        BW_TRY(bwi_match_try(m, true));
        more = false;
        for (size_t k = 0; k < m->out->n_places && round + 1 < ROUNDS; k++) {
            if (m->fits && wishes[k].passes > 0 && !bwi_match_passes(m, k)) {
                wishes[k].at++;
                more = true;
            } else if (!m->fits && m->blamed[k] && m->out->places[k].log < 0) {
                wishes[k] = (wish){.at = wishes[k].drawn, .passes = -1, .settled = true};
                more = true;
            }
        }
        if (more) {
            bw_arena_back(m->arena, mark);
        }
    }
    for (size_t k = 0; k < m->out->n_places; k++) {
        if (m->out->places[k].log < 0) {
            m->out->places[k].piece_passes =
                wishes[k].passes > 0 && m->fits && bwi_match_passes(m, k);
        }
    }
    return BW_OK;
}

/* From what the place wanted last time, else from what is drawn. */
static wish first_wish(const bwi_matcher *m, size_t place)
{
    const double girth = pi * m->out->places[place].drawn->butt_diameter;
    const int drawn = (int)ceil(girth / girth_step(m) - 1e-9);
    const wish *before = &m->wishes[place];
    const bool again = before->passes > 0;
    return (wish){.drawn = drawn,
                  .passes = -1,
                  .at = again ? before->at : drawn,
                  .stride = again ? 1 : 0,
                  .settled = m->out->places[place].log >= 0};
}

bw_status bwi_match_wanted(bwi_matcher *m)
{
    enum { ROUNDS = 40 };
    m->wishes = m->wishes != NULL ? m->wishes : BW_NEW(m->arena, wish, m->out->n_places);
    wish *const wishes = m->wishes;
    if (wishes == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < m->out->n_places; k++) {
        wishes[k] = first_wish(m, k);
    }
    bool open = true;
    for (int round = 0; open && round < ROUNDS; round++) {
        lay_wishes(m, wishes);
        BW_TRY(bwi_match_try(m, false));
        open = hear(m, wishes);
    }
    return settle(m, wishes);
}
