/* Which log of a pile goes where: the choice of least cost (choose.c) is laid into the
 * deck and the whole of it assessed; what fails is ruled out (match_learn.c), and with it
 * what cannot be enough better, and the choice made again, until all of it passes. So the
 * answer has passed a full assessment as a whole; that no cheaper one would, is known
 * only of the pairs that were not ruled out. */
#include "match.h"

#include <math.h>
#include <string.h>

/* A level deck is worth wood: an inch off level counts as 3.6 cubic feet, about a whole
 * stringer: JUDGEMENT. */
const double bw_match_level_weight = 4.0;

static size_t pair(const bwi_matcher *m, size_t place, size_t log)
{
    return place * m->question->n_pile + log;
}

/* ---- before the search ---- */

/* Reference values of every log of the pile; false where nothing can be counted on. */
static bw_status references_make(bwi_matcher *m, bool *sound)
{
    for (size_t j = 0; j < m->question->n_pile; j++) {
        const bw_log *log = &m->question->pile[j];
        bw_reference *r = &m->references[j];
        const bw_status status = m->deck.basis->reference(m->arena, log, r);
        if (status != BW_OK && status != BW_E_INPUT) {
            return status;
        }
        sound[j] = status == BW_OK;
        for (int p = 0; sound[j] && p < BW_PROPERTY_COUNT; p++) {
            sound[j] = r->value[p] > 0.0;
        }
    }
    return BW_OK;
}

/* Same role, drawn log and length, and working alike as drawn. */
static bool is_alike(const bwi_matcher *m, size_t a, size_t b)
{
    static const double near = 0.005;
    const bw_match_place *p = &m->out->places[a], *q = &m->out->places[b];
    return strcmp(p->role, q->role) == 0 && p->drawn == q->drawn &&
           fabs(p->length - q->length) <= 1e-6 && m->governing[a] == m->governing[b] &&
           fabs(m->works[a] - m->works[b]) <= near * fabs(m->works[a]);
}

static void groups_make(bwi_matcher *m)
{
    for (size_t k = 0; k < m->out->n_places; k++) {
        m->group[k] = k;
        for (size_t j = 0; j < k && m->group[k] == k; j++) {
            m->group[k] = m->group[j] == j && is_alike(m, j, k) ? j : k;
        }
    }
}

static bw_status prepare(bwi_matcher *m)
{
    const size_t n = m->out->n_places, n_pile = m->question->n_pile;
    bool *sound = BW_NEW(m->arena, bool, n_pile);
    m->references = BW_NEW(m->arena, bw_reference, n_pile);
    m->group = BW_NEW(m->arena, size_t, n);
    m->allowed = BW_NEW(m->arena, bool, n *n_pile);
    m->out->fates = BW_NEW(m->arena, bw_log_fate, n_pile);
    if (sound == NULL || m->references == NULL || m->group == NULL ||
        m->allowed == NULL || m->out->fates == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(references_make(m, sound));
    groups_make(m);
    for (size_t j = 0; j < n_pile; j++) {
        m->out->fates[j] = sound[j] ? BW_LOG_SHORT : BW_LOG_UNSOUND;
        for (size_t k = 0; k < n; k++) {
            m->allowed[pair(m, k, j)] = sound[j] && bwi_match_can_lie(m, k, j);
            if (sound[j] && m->question->pile[j].length >= m->out->places[k].length) {
                m->out->fates[j] = BW_LOG_WEAK;
            }
        }
    }
    return BW_OK;
}

/* ---- the pile as costs ---- */

typedef struct {
    bwi_pile pile;
    bwi_chooser chooser;
    bwi_choice choice;
} market;

static bw_status market_make(bwi_matcher *m, market *out)
{
    const size_t n = m->out->n_places, n_pile = m->question->n_pile;
    double *wood = BW_NEW(m->arena, double, n_pile);
    double *depth = BW_NEW(m->arena, double, n *n_pile);
    bool *level = BW_NEW(m->arena, bool, n);
    out->choice = (bwi_choice){.log = BW_NEW(m->arena, int, n)};
    if (wood == NULL || depth == NULL || level == NULL || out->choice.log == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t j = 0; j < n_pile; j++) {
        const bw_log *log = &m->question->pile[j];
        const double density = log->species->green_density.value;
        wood[j] = bw_log_mass(log, log->length, 0.0, log->length) / density;
        for (size_t k = 0; k < n; k++) {
            const bw_log piece = bwi_match_piece(m, k, j);
            level[k] = k < m->first_cap;
            depth[pair(m, k, j)] = bwi_match_depth(&m->out->places[k], &piece);
        }
    }
    out->pile =
        (bwi_pile){n, n_pile, wood, depth, level, m->allowed, bw_match_level_weight};
    return bwi_chooser_make(m->arena, &out->pile, &out->chooser);
}

/* ---- side by side ---- */

/* Whether two stringers may change logs without a change of cost. */
static bool can_swap(const bwi_matcher *m, const market *k, size_t a, size_t b)
{
    const int *log = k->choice.log;
    const bw_match_place *p = &m->out->places[a], *q = &m->out->places[b];
    return log[a] >= 0 && log[b] >= 0 && fabs(p->length - q->length) <= 1e-6 &&
           p->drawn->half == q->drawn->half &&
           fabs(p->drawn->flat_top - q->drawn->flat_top) <= 1e-9 &&
           fabs(p->drawn->flat_bottom - q->drawn->flat_bottom) <= 1e-9 &&
           m->allowed[pair(m, a, (size_t)log[b])] &&
           m->allowed[pair(m, b, (size_t)log[a])];
}

/* a lies before b along the deck, or beside it to the left. */
static bool is_before(const bwi_matcher *m, size_t a, size_t b)
{
    const bw_match_place *p = &m->out->places[a], *q = &m->out->places[b];
    return p->bent != q->bent ? p->bent < q->bent
                              : m->deck.rows[p->row].across < m->deck.rows[q->row].across;
}

/* The cost does not say which of the chosen logs lie side by side: the deeper ones go
 * before, so that each lies beside those that are most like it. */
static void arrange(const bwi_matcher *m, market *k)
{
    int *log = k->choice.log;
    for (size_t a = 0; a < m->first_cap; a++) {
        for (size_t b = 0; b < m->first_cap; b++) {
            if (is_before(m, a, b) && can_swap(m, k, a, b) &&
                k->pile.depth[pair(m, a, (size_t)log[a])] <
                    k->pile.depth[pair(m, b, (size_t)log[b])]) {
                const int taken = log[a];
                log[a] = log[b];
                log[b] = taken;
            }
        }
    }
}

/* ---- the search ---- */

static void lay_choice(bwi_matcher *m, const market *k)
{
    for (size_t i = 0; i < m->out->n_places; i++) {
        bw_match_place *p = &m->out->places[i];
        p->log = k->choice.log[i];
        p->piece = p->log >= 0 ? bwi_match_piece(m, i, (size_t)p->log) : *p->drawn;
        p->piece_passes = p->log >= 0;
        m->logs[i] = p->piece;
    }
}

/* Chooses until every chosen log passes in the whole deck. Ends, because every round that
 * does not pass rules out a pair. */
static bw_status choose(bwi_matcher *m, market *k)
{
    for (;;) {
        BW_TRY(bwi_choose(&k->chooser, &k->choice));
        arrange(m, k);
        lay_choice(m, k);
        const bw_arena_mark mark = bw_arena_now(m->arena);
        BW_TRY(bwi_match_try(m, true));
        if (bwi_match_learn(m)) {
            return m->fits ? BW_OK : BW_E_INTERNAL;
        }
        bw_arena_back(m->arena, mark);
    }
}

/* Ends with the whole deck assessed as it is answered, wanted logs included. */
static bw_status search(bwi_matcher *m, market *k)
{
    bool all_pass = false;
    BW_TRY(market_make(m, k));
    while (!all_pass) {
        BW_TRY(choose(m, k));
        all_pass = true;
        if (k->choice.n_missing > 0) {
            BW_TRY(bwi_match_wanted(m));
            all_pass = bwi_match_learn(m);
        }
    }
    return m->fits ? BW_OK : BW_E_INTERNAL;
}

/* ---- the answer ---- */

/* Places carried their numbers as paths: what leaves has those of the case. */
static void paths_restore(bwi_matcher *m)
{
    const bw_case *given = m->question->deck;
    bw_post *post = m->posts;
    for (size_t k = 0; k < given->n_stringers; k++) {
        m->stringers[k].case_path = given->stringers[k].case_path;
    }
    for (size_t k = 0; k < given->n_bents; k++) {
        for (size_t j = 0; j < given->bents[k].n_posts; j++, post++) {
            post->case_path = given->bents[k].posts[j].case_path;
        }
    }
    for (size_t k = 0; k < m->out->assessment.n_members; k++) {
        bw_member_result *member = &m->out->assessment.members[k];
        const size_t j = k - m->first_post;
        if (k < m->first_cap) {
            member->case_path = m->stringers[k].case_path;
        } else if (k >= m->first_post && k < m->first_brace) {
            member->case_path = m->posts[j].case_path;
        }
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            member->findings[kind].case_path = member->case_path;
        }
    }
}

static void answer(bwi_matcher *m, const market *k)
{
    bw_match *out = m->out;
    size_t wanted = 0;
    for (size_t j = 0; j < m->question->n_pile; j++) {
        for (size_t i = 0; i < out->n_places; i++) {
            if (m->allowed[pair(m, i, j)] && out->fates[j] == BW_LOG_WEAK) {
                out->fates[j] = BW_LOG_SPARE;
            }
            out->ruled_out += !m->allowed[pair(m, i, j)];
        }
    }
    for (size_t i = 0; i < out->n_places; i++) {
        bw_match_place *p = &out->places[i];
        p->utilisation = m->works[i];
        p->governing = m->governing[i];
        if (p->log >= 0) {
            out->fates[p->log] = BW_LOG_USED;
        } else {
            p->piece.name = bw_arena_print(m->arena, "%s %zu", bwi_wanted, ++wanted);
            m->logs[i].name = p->piece.name;
        }
    }
    bwi_match_lengths(m, &out->assessment);
    out->n_missing = k->choice.n_missing;
    out->target = k->choice.target;
    out->wood = k->choice.wood;
    out->uneven = k->choice.uneven;
    paths_restore(m);
    out->deck = m->deck;
    out->assessment.deck = &out->deck;
}

/* The deck as drawn, with butts and tips alternated. What cannot be put together is told
 * in the words of the case as it was given. */
static bw_status try_drawn(bwi_matcher *m)
{
    BW_TRY(bwi_match_try(m, false));
    if (!m->fits) {
        bw_assessment unused;
        BW_TRY(bw_deck_assess(m->arena, m->question->deck, &unused, m->d));
        bw_diags_error(m->d, "match.turned", NULL,
                       "let butts and tips change about along every row of the case",
                       "the deck cannot be put together with butts and tips alternating "
                       "along its rows");
        return BW_E_INPUT;
    }
    return BW_OK;
}

bw_status bw_match_pile(bw_arena *arena, const bw_match_question *question, bw_match *out,
                        bw_diags *d)
{
    market k;
    bwi_matcher m = {.arena = arena, .question = question, .d = d, .out = out};
    *out = (bw_match){0};
    BW_TRY(bwi_match_layout(&m));
    BW_TRY(try_drawn(&m));
    BW_TRY(prepare(&m));
    BW_TRY(search(&m, &k));
    answer(&m, &k);
    return BW_OK;
}
