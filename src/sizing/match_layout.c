/* The deck of a case with a log of its own in every place, and trials of it. */
#include "match.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* [m] longer than the place, so that ends can be cut square and have a seat: JUDGEMENT.
 */
static const double beyond_stringer = 0.15, beyond_cap = 0.30, beyond_post = 0.10,
                    beyond_brace = 0.30;

/* ---- the case with a log per place ---- */

static const char *number(bwi_matcher *m, size_t place)
{
    return bw_arena_print(m->arena, "%zu", place);
}

static void place_add(bwi_matcher *m, const char *name, const char *role, int bent,
                      int row, int log)
{
    const size_t k = m->out->n_places++;
    const bw_log *drawn = &m->question->deck->logs[log];
    m->out->places[k] = (bw_match_place){
        .name = name, .role = role, .bent = bent, .row = row, .drawn = drawn, .log = -1};
    m->logs[k] = *drawn;
}

static bw_status add_stringers(bwi_matcher *m)
{
    for (size_t k = 0; k < m->deck.n_stringers; k++) {
        bw_stringer *s = &m->stringers[k];
        *s = m->question->deck->stringers[k];
        place_add(m, s->name, "stringer", s->from, s->row, s->log);
        s->log = (int)k;
        s->case_path = number(m, k);
        if (s->case_path == NULL) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}

static void add_caps(bwi_matcher *m, bw_bent *bents)
{
    m->first_cap = m->out->n_places;
    for (size_t k = 0; k < m->deck.n_bents; k++) {
        bw_bent *b = &bents[k];
        m->cap_of_bent[k] = b->cap >= 0 ? m->out->n_places : SIZE_MAX;
        if (b->cap >= 0) {
            place_add(m, b->name, b->is_sill ? "sill" : "cap", (int)k, -1, b->cap);
            b->cap = (int)m->out->n_places - 1;
        }
    }
}

static bw_status add_posts(bwi_matcher *m, bw_bent *bents)
{
    bw_post *next = m->posts;
    m->first_post = m->out->n_places;
    for (size_t k = 0; k < m->deck.n_bents; k++) {
        const bw_post *given = bents[k].posts;
        bents[k].posts = next;
        for (size_t j = 0; j < bents[k].n_posts; j++, next++) {
            *next = given[j];
            place_add(m, next->name, "post", (int)k, next->row, next->log);
            next->log = (int)m->out->n_places - 1;
            next->case_path = number(m, m->out->n_places - 1);
            if (next->case_path == NULL) {
                return BW_E_MEMORY;
            }
        }
    }
    return BW_OK;
}

static void add_braces(bwi_matcher *m, bw_brace *braces)
{
    m->first_brace = m->out->n_places;
    for (size_t k = 0; k < m->deck.n_braces; k++) {
        bw_brace *b = &braces[k];
        *b = m->question->deck->braces[k];
        place_add(m, b->name, "brace", b->from.bent, b->from.row, b->log);
        b->log = (int)m->out->n_places - 1;
    }
}

/* Butt and tip change about along every row, beginning everywhere as the first stringer
 * of the case lies, so that butts meet butts and rows side by side lie alike. */
static void alternate(bwi_matcher *m)
{
    const bool start = m->deck.n_stringers > 0 && m->stringers[0].butt_at_to;
    for (size_t k = 0; k < m->deck.n_stringers; k++) {
        size_t before = 0;
        for (size_t j = 0; j < m->deck.n_stringers; j++) {
            before += m->stringers[j].row == m->stringers[k].row &&
                      m->stringers[j].from < m->stringers[k].from;
        }
        m->stringers[k].butt_at_to = start != (before % 2 == 1);
        m->out->places[k].butt_at_to = m->stringers[k].butt_at_to;
    }
}

bw_status bwi_match_layout(bwi_matcher *m)
{
    const bw_case *given = m->question->deck;
    const size_t n = bw_deck_member_count(given);
    bw_bent *bents = BW_NEW(m->arena, bw_bent, given->n_bents);
    bw_brace *braces = BW_NEW(m->arena, bw_brace, given->n_braces);
    m->out->places = BW_NEW(m->arena, bw_match_place, n);
    m->logs = BW_NEW(m->arena, bw_log, n);
    m->stringers = BW_NEW(m->arena, bw_stringer, given->n_stringers);
    m->posts = BW_NEW(m->arena, bw_post, n);
    m->cap_of_bent = BW_NEW(m->arena, size_t, given->n_bents);
    m->works = BW_NEW(m->arena, double, n);
    m->governing = bw_arena_alloc_array(m->arena, n, sizeof *m->governing);
    m->blamed = BW_NEW(m->arena, bool, n);
    if (bents == NULL || braces == NULL || m->out->places == NULL || m->logs == NULL ||
        m->stringers == NULL || m->posts == NULL || m->cap_of_bent == NULL ||
        m->works == NULL || m->governing == NULL || m->blamed == NULL) {
        return BW_E_MEMORY;
    }
    memcpy(bents, given->bents, given->n_bents * sizeof *bents);
    m->deck = *given;
    BW_TRY(add_stringers(m));
    add_caps(m, bents);
    BW_TRY(add_posts(m, bents));
    add_braces(m, braces);
    m->deck.logs = m->logs;
    m->deck.n_logs = n;
    m->deck.stringers = m->stringers;
    m->deck.bents = bents;
    m->deck.braces = braces;
    alternate(m);
    return BW_OK;
}

/* ---- logs in places ---- */

bw_log bwi_match_piece(const bwi_matcher *m, size_t place, size_t log)
{
    const bw_match_place *p = &m->out->places[place];
    bw_log piece = m->question->pile[log];
    piece.flat_top = p->drawn->flat_top;
    piece.flat_bottom = p->drawn->flat_bottom;
    piece.half = p->drawn->half;
    piece.notches = p->drawn->notches;
    piece.n_notches = p->drawn->n_notches;
    if (place >=
        m->first_brace) { /* a brace is as long as its place: cut from the butt */
        piece.tip_diameter = bw_log_diameter(&piece, piece.length, p->length);
        piece.butt_diameter = bw_log_diameter(&piece, piece.length, 0.0);
        piece.stations = NULL;
        piece.n_stations = 0;
        piece.length = p->length;
    }
    return piece;
}

double bwi_match_depth(const bw_match_place *place, const bw_log *piece)
{
    const double d = bw_log_diameter(piece, piece->length, place->length / 2.0);
    return (piece->half ? d / 2.0 : d - piece->flat_top) - piece->flat_bottom;
}

/* The rules of the case reader for flats, notches and seats. */
static bool can_be_hewn(const bwi_matcher *m, size_t place, const bw_log *piece)
{
    const double thin = fmin(piece->tip_diameter, piece->butt_diameter);
    const double above = piece->half ? thin / 2.0 : piece->flat_top;
    bool sound = above + piece->flat_bottom <= 0.75 * thin;
    if (place < m->first_post) {
        sound = sound && m->deck.limits.seat_depth < thin / 2.0;
    }
    for (size_t k = 0; k < piece->n_notches; k++) {
        const bw_notch *n = &piece->notches[k];
        const double flat = n->side == BW_SIDE_TOP ? piece->flat_top : piece->flat_bottom;
        const double most = (piece->half ? 0.75 * thin : thin) / 2.0 - flat;
        sound = sound && n->depth <= most;
    }
    return sound;
}

/* What stands or lies in the ground must not rot sooner than what is drawn there: no
 * check sees that. */
static bool lasts_as_long(const bw_match_place *place, const bw_log *log)
{
    const bool in_ground =
        strcmp(place->role, "post") == 0 || strcmp(place->role, "sill") == 0;
    return !in_ground || bw_durability_of(log->species).heartwood >=
                             bw_durability_of(place->drawn->species).heartwood;
}

bool bwi_match_can_lie(const bwi_matcher *m, size_t place, size_t log)
{
    const bw_match_place *p = &m->out->places[place];
    const bw_log piece = bwi_match_piece(m, place, log);
    return m->question->pile[log].length >= p->length &&
           lasts_as_long(p, &m->question->pile[log]) && can_be_hewn(m, place, &piece);
}

/* ---- lengths ---- */

/* Lengths of members as the assessment knows them, to whole inches or centimetres. */
void bwi_match_lengths(bwi_matcher *m, const bw_assessment *a)
{
    const double unit = m->deck.units == BW_IMPERIAL ? bw_inch : 0.01;
    for (size_t k = 0; k < m->out->n_places; k++) {
        const double beyond = k < m->first_cap     ? beyond_stringer
                              : k < m->first_post  ? beyond_cap
                              : k < m->first_brace ? beyond_post
                                                   : beyond_brace;
        m->out->places[k].length =
            ceil((a->members[k].length + beyond) / unit - 1e-6) * unit;
    }
}

/* ---- trials ---- */

static double diameter_more(const bwi_matcher *m, size_t place)
{
    const bw_log *now = &m->logs[place], *drawn = m->out->places[place].drawn;
    return fmax(now->butt_diameter, now->tip_diameter) -
           fmax(drawn->butt_diameter, drawn->tip_diameter);
}

/* A log that only fills the place of one that is wanted is blamed before one of the pile,
 * and the drawn ones never: with them the deck could be put together. */
static int blame_order(const bwi_matcher *m, size_t place)
{
    const char *name = m->logs[place].name;
    return name == bwi_wanted ? 2 : name != m->out->places[place].drawn->name ? 1 : 0;
}

/* Boards, stringer and cap are thicker than the deck is high there: of the logs that lie
 * over the post, the one that is thicker than drawn by most. */
static bool blame_thickest(bwi_matcher *m, int bent)
{
    size_t worst = m->cap_of_bent[bent];
    for (size_t k = 0; k < m->deck.n_stringers; k++) {
        const bw_stringer *s = &m->stringers[k];
        if (s->from > bent || s->to < bent) {
            continue;
        }
        const int order =
            worst == SIZE_MAX ? 1 : blame_order(m, k) - blame_order(m, worst);
        if (order > 0 || (order == 0 && diameter_more(m, k) > diameter_more(m, worst))) {
            worst = k;
        }
    }
    if (worst == SIZE_MAX || blame_order(m, worst) == 0) {
        return false;
    }
    m->blamed[worst] = true;
    return true;
}

/* A brace ends above its post: what lies over one of its posts is too thick. */
static bool blame_over_brace(bwi_matcher *m, const char *path)
{
    for (size_t k = 0; k < m->deck.n_braces; k++) {
        const bw_brace *b = &m->deck.braces[k];
        if (b->case_path != NULL && strcmp(b->case_path, path) == 0) {
            const bool from = blame_thickest(m, b->from.bent);
            const bool to = b->to.bent != b->from.bent && blame_thickest(m, b->to.bent);
            return from || to;
        }
    }
    return false;
}

/* False: a fault that no other log mends. */
static bool blame(bwi_matcher *m, const bw_diag *diag)
{
    if (diag->severity != BW_ERROR) {
        return true;
    }
    char *end = NULL;
    const char *path = diag->path != NULL ? diag->path : "";
    if (strcmp(diag->id, "deck.high_brace") == 0) {
        return blame_over_brace(m, path);
    }
    const unsigned long place = strtoul(path, &end, 10);
    if (end == path || *end != '\0' || place >= m->out->n_places) {
        return false;
    }
    if (strcmp(diag->id, "deck.low") == 0) {
        return blame_thickest(m, m->out->places[place].bent);
    }
    if (strcmp(diag->id, "deck.short_log") == 0) {
        m->blamed[place] = true;
        return true;
    }
    return false;
}

static bw_status blame_all(bwi_matcher *m, bw_status status, const bw_diags *trial)
{
    bool known = status == BW_E_INPUT;
    m->fits = false;
    for (size_t k = 0; known && k < trial->count; k++) {
        known = blame(m, &trial->items[k]);
    }
    if (known) {
        return BW_OK;
    }
    for (size_t k = 0; k < trial->count; k++) {
        bw_diags_add(m->d, &trial->items[k]);
    }
    return status;
}

static void take_results(bwi_matcher *m, const bw_assessment *a)
{
    for (size_t k = 0; k < m->out->n_places; k++) {
        const bw_member_result *member = &a->members[k];
        m->works[k] = member->worst;
        const bw_finding *worst = bw_member_worst(member);
        m->governing[k] = worst != NULL ? worst->check : NULL;
    }
    if (m->out->places[0].length <= 0.0) { /* the first trial is the deck as drawn */
        bwi_match_lengths(m, a);
    }
}

bw_status bwi_match_try(bwi_matcher *m, bool keep)
{
    const bw_arena_mark mark = bw_arena_now(m->arena);
    bw_diags trial = bw_diags_new(m->arena, NULL);
    bw_assessment a;
    m->out->assessments++;
    m->fits = true;
    memset(m->blamed, 0, m->out->n_places * sizeof *m->blamed);
    const bw_status status = bw_deck_assess(m->arena, &m->deck, &a, &trial);
    if (status != BW_OK) {
        return blame_all(m, status, &trial);
    }
    if (a.n_members < m->out->n_places) { /* boards are a member without a place */
        return BW_E_INTERNAL;
    }
    take_results(m, &a);
    if (keep) {
        m->out->assessment = a;
    } else {
        bw_arena_back(m->arena, mark);
    }
    return BW_OK;
}

bool bwi_match_passes(const bwi_matcher *m, size_t place)
{
    return bw_verdict_of(m->works[place]) == BW_WITHIN;
}
