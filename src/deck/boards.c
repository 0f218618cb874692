/* The boards: each lies across the rows like a beam, and carries alone what stands on it.
 *
 * A board is checked in one piece over all rows, held down at each, and cut over every
 * row, simply laid from one to the next; unless the case says which, the worse counts:
 * pieces that bear up like one while a screw holds act like the other once it does not.
 * Spans run from centre to centre of the rows. A wheel, or a person, stands at every
 * twentieth of a span and right beside every row; both at once never do. Uniform loads
 * lie on every span, or on every other one. */
#include "internal.h"

#include <math.h>

enum { POSITIONS = 20, ROOM = 64, CASES = 2 };

/* Bays in which the same rows carry the boards. */
typedef struct {
    size_t n;
    int row[BWI_ROWS_MAX];   /* from left to right */
    double at[BWI_ROWS_MAX]; /* [m] across */
    double
        flat[BWI_ROWS_MAX]; /* [m] narrowest seat on the row's stringers in these bays */
    const bw_reference *under[BWI_ROWS_MAX]; /* the softest of them */
    size_t flat_bay[BWI_ROWS_MAX];
    size_t bay; /* the first of them */
} bed;

typedef struct {
    bwi_tracker *t;
    const bed *bed;
    size_t first, last; /* rows under it */
    double left, right; /* [m] its ends */
    bw_frame *frame;
    size_t n_spans;                /* overhangs included */
    double from[BWI_ROWS_MAX + 2]; /* [m] across, where each span begins; and the end */
    int support[BWI_ROWS_MAX + 2]; /* row of the bed there; -1: a free end */
    bw_state *unit[BWI_ROWS_MAX + 1][POSITIONS + 1]; /* of 1 N down */
} piece;

/* What lies and stands on a piece. */
typedef struct {
    bwi_board_load what;
    double force;           /* [N] of a wheel or a person */
    double still;           /* [N] the same without its dynamic factor */
    double track;           /* [m] to another such wheel on the same board; 0: none */
    double dead, even, odd; /* [N/m] what stays, and what comes and goes on the spans */
    bool strength, service; /* which checks the combination is for */
    bool factored;          /* its forces are design forces */
    bwi_event event;
} loading;

/* ---- the section, and what it is made of ---- */

static bool is_sawn(const bw_decking *b)
{
    return b->kind == BW_BOARDS_SAWN;
}

static bw_section section_of(const bw_case *deck)
{
    const bw_decking *b = &deck->decking;
    const double w = b->width, h = deck->boards.board_thickness;
    if (is_sawn(b)) {
        return bw_section_given(w * h, w * h * h * h / 12.0, w * h * h / 6.0);
    }
    bw_section half = bw_section_round(b->width);
    *(b->flat_down ? &half.flat_bottom : &half.flat_top) = b->width / 2.0;
    return half;
}

static bw_check_section check_section_of(const bw_case *deck, const bw_section *s)
{
    const bw_decking *b = &deck->decking;
    const double w = b->width, h = deck->boards.board_thickness;
    bw_check_section out = {.area = bw_section_area(s),
                            .modulus = bw_section_modulus(s),
                            .second_moment = bw_section_second_moment(s)};
    if (is_sawn(b)) {
        out.second_moment = w * h * fmin(w * w, h * h) / 12.0;
        out.shear_factor = 1.5 / (w * h);
        out.depth = h;
        out.width = w;
        out.sawn = true;
        out.words = "thickness, laid flat";
        return out;
    }
    out.shear_factor = bw_section_shear_factor(s);
    out.depth = bw_section_depth(s);
    out.width = bw_section_width(s);
    out.words = b->flat_down ? "half of it, flat side down" : "half of it, flat side up";
    return out;
}

static bw_status make_reference(bwi_tracker *t, bw_diags *d)
{
    const bw_case *deck = t->plan->deck;
    const bw_decking *b = &deck->decking;
    const bw_sawn sawn = {b->log.species, deck->boards.board_thickness, b->grade,
                          b->log.strength_class};
    t->board_reference = BW_NEW(t->plan->arena, bw_reference, 1);
    if (t->board_reference == NULL) {
        return BW_E_MEMORY;
    }
    const bw_status status =
        is_sawn(b)
            ? deck->basis->sawn_reference(t->plan->arena, &sawn, t->board_reference)
            : deck->basis->reference(t->plan->arena, &b->log, t->board_reference);
    if (status == BW_E_INPUT) {
        bw_diags_error(d, "deck.species", b->case_path, "choose a species with full data",
                       "the table of %s lacks a value that the strength of boards needs",
                       b->log.species->common);
    }
    return status;
}

/* ---- beds ---- */

static double narrowest_seat(const bwi_plan *p, int row, size_t bay)
{
    enum { STEPS = 8 };
    const bwi_part_of_stringer *part = bwi_plan_part(p, row, bay);
    const bw_log *log = &p->deck->logs[p->deck->stringers[part->stringer].log];
    double narrowest = (double)INFINITY;
    for (int k = 0; k <= STEPS; k++) {
        const double diameter = bwi_stringer_diameter(
            p, part->stringer, part->from_first + part->length * k / STEPS);
        const double seat = bwi_top_flat(log, diameter, p->deck->limits.seat_depth);
        narrowest = isnan(narrowest) || seat >= narrowest ? narrowest : seat;
    }
    return narrowest;
}

static void add_bay(const bwi_plan *p, bed *b, size_t bay)
{
    for (size_t k = 0; k < b->n; k++) {
        const int stringer = bwi_plan_part(p, b->row[k], bay)->stringer;
        const bw_reference *under = &p->references[p->deck->stringers[stringer].log];
        const double seat = narrowest_seat(p, b->row[k], bay);
        if (b->under[k] == NULL || (!isnan(b->flat[k]) && !(seat >= b->flat[k]))) {
            b->flat[k] = seat;
            b->flat_bay[k] = bay;
        }
        if (b->under[k] == NULL ||
            under->value[BW_BEARING] < b->under[k]->value[BW_BEARING]) {
            b->under[k] = under;
        }
    }
}

static bool same_rows(const bed *a, const bed *b)
{
    for (size_t k = 0; k < a->n && a->n == b->n; k++) {
        if (a->row[k] != b->row[k]) {
            return false;
        }
    }
    return a->n == b->n;
}

/* Returns how many there are. */
static size_t make_beds(const bwi_plan *p, bed *beds)
{
    size_t n = 0;
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        bed now = {.bay = bay};
        now.n = bwi_plan_rows(p, bay, now.row, now.at);
        size_t k = 0;
        while (k < n && !same_rows(&beds[k], &now)) {
            k++;
        }
        if (k == n) {
            beds[n++] = now;
        }
        add_bay(p, &beds[k], bay);
    }
    return n;
}

/* ---- the frame of a piece ---- */

static void find_spans(piece *s)
{
    const double least = 1e-3; /* [m] shorter overhangs are none */
    size_t n = 0;
    if (s->left < s->bed->at[s->first] - least) {
        s->support[n] = -1;
        s->from[n++] = s->left;
    }
    for (size_t k = s->first; k <= s->last; k++) {
        s->support[n] = (int)k;
        s->from[n++] = s->bed->at[k];
    }
    if (s->right > s->bed->at[s->last] + least) {
        s->support[n] = -1;
        s->from[n++] = s->right;
    }
    s->n_spans = n - 1;
}

static double span_length(const piece *s, size_t span)
{
    return s->from[span + 1] - s->from[span];
}

static bool is_overhang(const piece *s, size_t span)
{
    return s->support[span] < 0 || s->support[span + 1] < 0;
}

static bw_status load_span(piece *s, size_t span)
{
    const bw_member_load load = {.kind = BW_LOAD_LINE,
                                 .member = (int)span,
                                 .b = span_length(s, span),
                                 .y = {-1.0, -1.0}};
    return bw_frame_load_member(s->frame, (int)(span % CASES), &load);
}

static bw_status build(piece *s)
{
    const bwi_plan *p = s->t->plan;
    const bw_section section = section_of(p->deck);
    const double E = s->t->board_reference->value[BW_MODULUS];
    const bool one_row = s->first == s->last;
    s->frame = bw_frame_new(p->arena);
    if (s->frame == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k <= s->n_spans; k++) {
        const int node = bw_frame_add_node(s->frame, s->from[k], 0.0, "board",
                                           p->deck->decking.case_path);
        /* on a single row it stays level by what holds it there (assumptions.c) */
        const bw_support row = {.node = node, .fix = {true, true, one_row}};
        const bw_member span = {.node_i = node - 1,
                                .node_j = node,
                                .section_i = section,
                                .section_j = section,
                                .modulus = E,
                                .name = "board",
                                .case_path = p->deck->decking.case_path};
        if (node < 0 || (k > 0 && bw_frame_add_member(s->frame, &span) < 0)) {
            return BW_E_MEMORY;
        }
        if (s->support[k] >= 0) {
            BW_TRY(bw_frame_add_support(s->frame, &row));
        }
    }
    for (int k = 0; k < CASES; k++) { /* a single span leaves one without loads */
        BW_TRY(bw_frame_load_self_weight(s->frame, k, 0.0));
    }
    for (size_t k = 0; k < s->n_spans; k++) {
        BW_TRY(load_span(s, k));
    }
    return BW_OK;
}

/* Right beside a row, not over it: there the shear is largest. */
static double place_on_span(const piece *s, size_t span, int position)
{
    const double beside = 1e-6;
    const double part = (double)position / POSITIONS;
    return span_length(s, span) * fmin(fmax(part, beside), 1.0 - beside);
}

static bw_status solve(piece *s, bw_diags *d)
{
    bw_arena *arena = s->t->plan->arena;
    BW_TRY(bw_frame_factor(s->frame, d));
    BW_TRY(bw_frame_solve(s->frame, d));
    for (size_t span = 0; span < s->n_spans; span++) {
        bw_member_load wheel[POSITIONS + 1];
        for (int k = 0; k <= POSITIONS; k++) {
            const double a = place_on_span(s, span, k);
            wheel[k] = (bw_member_load){.kind = BW_LOAD_POINT,
                                        .member = (int)span,
                                        .a = a,
                                        .b = a,
                                        .y = {-1.0, 0.0}};
        }
        BW_TRY(
            bw_frame_solve_loads(s->frame, wheel, POSITIONS + 1, s->unit[span], arena));
    }
    return BW_OK;
}

/* ---- checks ---- */

static void track(const piece *s, const loading *l, bw_check_kind kind,
                  bw_check_input *in, const double place[2])
{
    bwi_tracker *t = s->t;
    if (bwi_track(t, t->boards, kind, in, place[0], &l->event)) {
        t->board_where[kind] = (bwi_board_where){l->what, place[1], s->bed->bay};
    }
}

/* at: where the wheel stands [m] across. */
static void check_span(const piece *s, const loading *l, const bw_state *state,
                       size_t span, double at)
{
    const bw_case *deck = s->t->plan->deck;
    const bw_section section = section_of(deck);
    bw_check_input in = {.reference = s->t->board_reference,
                         .diameter = is_sawn(&deck->decking) ? 0.0 : section.diameter,
                         .section = check_section_of(deck, &section)};
    double x[ROOM];
    const bw_line line = bw_state_line(state, (int)span, s->t->plan->arena);
    const size_t n = bw_line_stations(&line, x, ROOM);
    for (size_t j = 0; j < 2 * n; j++) {
        const bw_action a = bw_line_action(&line, x[j / 2], j % 2 == 0);
        const double place[2] = {s->from[span] + x[j / 2], at};
        in.shear = fabs(a.shear);
        in.moment = fabs(a.moment);
        track(s, l, BW_CHECK_BENDING, &in, place);
        track(s, l, BW_CHECK_SHEAR, &in, place);
    }
}

/* Width of the board where it meets a flat: a round belly has a seat cut. */
static double seat_width(const bw_case *deck)
{
    const bw_decking *b = &deck->decking;
    return is_sawn(b) || b->flat_down ? b->width
                                      : bwi_flat_width(b->width, deck->limits.seat_depth);
}

/* The board on the stringer's flat: both are pressed across the grain. A piece that ends
 * over a row has half of the flat. */
static void check_seat(const piece *s, const loading *l, const bw_state *state,
                       size_t support, double at)
{
    const double inches_from_end = 3.0 * bw_unit_size(BW_LENGTH, "in");
    const bwi_plan *p = s->t->plan;
    const size_t k = (size_t)s->support[support];
    const double force = bw_state_reaction(state, (int)support).y;
    if (force < 0.0) {
        return; /* see note_lift */
    }
    const bool ends = s->bed->n > 1 && (s->from[support] <= s->left + 1e-3 ||
                                        s->from[support] >= s->right - 1e-3);
    const double flat = s->bed->flat[k] * (ends ? 0.5 : 1.0);
    const double beyond = fmin(s->from[support] - s->left, s->right - s->from[support]);
    bw_check_input in = {.reference = s->t->board_reference,
                         .force = force,
                         .bearing_area = flat * seat_width(p->deck),
                         .bearing_length = flat,
                         .bearing_inside = beyond - flat / 2.0 >= inches_from_end};
    const double place[2] = {s->from[support], at};
    track(s, l, BW_CHECK_BEARING, &in, place);
    in.reference = s->bed->under[k];
    in.bearing_length = seat_width(p->deck);
    in.bearing_inside = false; /* the board may be the last one of the log */
    track(s, l, BW_CHECK_BEARING, &in, place);
}

/* Down of an overhang's tip, or of a span under the straight line between its rows. */
static double drop(const piece *s, const bw_state *state, size_t span)
{
    if (is_overhang(s, span)) {
        const size_t tip = s->support[span] < 0 ? span : span + 1;
        return fabs(bw_state_displacement(state, (int)tip).y);
    }
    bw_extreme up, down;
    bw_state_sag_extremes(state, (int)span, &up, &down);
    return fmax(fabs(up.value), fabs(down.value));
}

static void check_drop(const piece *s, const loading *l, const bw_state *live,
                       const bw_state *dead, size_t span, double at)
{
    const double length = span_length(s, span);
    const bool over = is_overhang(s, span);
    bw_check_input in = {.deflection = drop(s, live, span),
                         .deflection_dead = drop(s, dead, span),
                         .span = over ? 2.0 * length : length,
                         .limit = s->t->plan->deck->limits.boards};
    const bool tip_first = over && s->support[span] < 0;
    const double place[2] = {
        over ? s->from[tip_first ? span : span + 1] : s->from[span] + length / 2.0, at};
    track(s, l, BW_CHECK_DEFLECTION, &in, place);
}

static bw_state *uniform(const piece *s, double even, double odd)
{
    const bw_part parts[CASES] = {{0, even}, {1, odd}};
    return bw_frame_state(s->frame, parts, CASES, s->t->plan->arena);
}

static void check_ends_of(const piece *s, const loading *l, const bw_state *state,
                          size_t span, double at)
{
    for (size_t k = span; k <= span + 1; k++) {
        if (s->support[k] >= 0) {
            check_seat(s, l, state, k, at);
        }
    }
}

/* ---- loads ---- */

/* A half-round with its flat side up lies on a seat s narrower than the tread w: a wheel
 * at the edge of the tread tips it over the edge of the seat, and a screw in the middle
 * holds against that with (COMPUTED)
 *
 *   P (w/2 - s/2) / (s/2)
 *
 * Of what the board weighs nothing counts against it. Both wheels of an axle may be
 * nearest to one row. */
static double rocking(const bw_case *deck, const loading *l)
{
    const double w = deck->decking.width, s = seat_width(deck);
    const double wheels = l->track > 0.0 ? 2.0 : 1.0;
    return s >= w ? 0.0 : wheels * l->force * (w - s) / s;
}

/* U = T - s max(G, 0) + max(-G, 0) at every row, for what lifts may be far from the load:
 * of dead load only a share counts where it holds the board down, as in the check of a
 * post pulled up; what of it lifts counts as the combination has it. What rocks the board
 * comes on top. */
static void note_lift(const piece *s, const loading *l, const bw_state *moving,
                      const bw_state *dead)
{
    bwi_tracker *t = s->t;
    const double holding = t->plan->deck->basis->holding.value / l->event.dead;
    const double rocks = rocking(t->plan->deck, l);
    t->board_rocks = t->board_rocks || rocks > 0.0;
    for (size_t k = 0; k <= s->n_spans; k++) {
        if (s->support[k] < 0) {
            continue;
        }
        const double stays = bw_state_reaction(dead, (int)k).y;
        const double up =
            -bw_state_reaction(moving, (int)k).y - stays * (stays > 0.0 ? holding : 1.0);
        const double most = rocks > 0.0 && up < 0.0 ? rocks : up + rocks;
        if (most > t->board_lift) {
            t->board_lift = most;
            t->board_lift_factored = l->factored;
        }
    }
}

static bw_status check_uniform(const piece *s, const loading *l)
{
    const bw_state *all = uniform(s, l->dead + l->even, l->dead + l->odd);
    const bw_state *live = uniform(s, l->even, l->odd);
    const bw_state *dead = uniform(s, l->dead, l->dead);
    if (all == NULL || live == NULL || dead == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t span = 0; span < s->n_spans; span++) {
        if (l->strength) {
            check_span(s, l, all, span, 0.0);
            check_ends_of(s, l, all, span, 0.0);
        }
        if (l->service) {
            check_drop(s, l, live, dead, span, 0.0);
        }
    }
    if (l->strength) {
        note_lift(s, l, live, dead);
    }
    bwi_track_frame(s->t, s->frame, all);
    return BW_OK;
}

/* 1 N down at a place of a span, and another to the right of it if a pair of wheels
 * stands on the piece. */
static bw_status unit_state(const piece *s, const loading *l, size_t span, int k,
                            const bw_state **out)
{
    bw_arena *arena = s->t->plan->arena;
    const double other = s->from[span] + place_on_span(s, span, k) + l->track;
    *out = s->unit[span][k];
    if (!(l->track > 0.0) || other > s->from[s->n_spans]) {
        return BW_OK;
    }
    size_t there = span;
    while (there + 1 < s->n_spans && other > s->from[there + 1]) {
        there++;
    }
    const double a = fmin(other - s->from[there], span_length(s, there));
    const bw_member_load wheel = {
        .kind = BW_LOAD_POINT, .member = (int)there, .a = a, .b = a, .y = {-1.0, 0.0}};
    bw_state *second = NULL;
    BW_TRY(bw_frame_solve_loads(s->frame, &wheel, 1, &second, arena));
    *out = bw_state_add(s->unit[span][k], 1.0, second, arena);
    return *out != NULL ? BW_OK : BW_E_MEMORY;
}

/* What a state asks of the span where a wheel stands; of all spans under a pair. */
static void check_strength(const piece *s, const loading *l, const bw_state *state,
                           size_t span, double at)
{
    for (size_t k = 0; k < s->n_spans; k++) {
        if (k == span || l->track > 0.0) {
            check_span(s, l, state, k, at);
            check_ends_of(s, l, state, k, at);
        }
    }
}

/* A force at a place of a span: elsewhere it does less than where it stands. */
static bw_status check_force_at(const piece *s, const loading *l, size_t span, int k)
{
    bw_arena *arena = s->t->plan->arena;
    const bw_state *unit = NULL;
    BW_TRY(unit_state(s, l, span, k, &unit));
    const double at = s->from[span] + place_on_span(s, span, k);
    const bw_state *dead = uniform(s, l->dead, l->dead);
    const bw_state *moving = uniform(s, l->even, l->odd);
    if (dead == NULL || moving == NULL) {
        return BW_E_MEMORY;
    }
    const bw_state *with = bw_state_add(moving, l->force, unit, arena);
    const bw_state *live = bw_state_add(moving, l->still, unit, arena);
    const bw_state *all = with != NULL ? bw_state_add(with, 1.0, dead, arena) : NULL;
    if (all == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    if (l->strength) {
        check_strength(s, l, all, span, at);
        note_lift(s, l, with, dead);
    }
    if (l->service) {
        check_drop(s, l, live, dead, span, at);
    }
    bwi_track_frame(s->t, s->frame, all);
    return BW_OK;
}

static bw_status check_force(const piece *s, const loading *l)
{
    for (size_t span = 0; span < s->n_spans; span++) {
        for (int k = 0; k <= POSITIONS; k++) {
            const bw_arena_mark mark = bw_arena_now(s->t->plan->arena);
            BW_TRY(check_force_at(s, l, span, k));
            bw_arena_back(s->t->plan->arena, mark);
        }
    }
    return BW_OK;
}

/* The heavier wheel of a rider, or one of the pair on the heavier axle of a machine. */
double bwi_board_wheel(const bw_case *deck, const bwi_mover *mover)
{
    const double axle = mover->wheelbase > 0.0 ? mover->rear_share : 1.0;
    return mover->mass * bw_gravity * axle / (mover->track > 0.0 ? 2.0 : 1.0) *
           (1.0 - deck->decking.share);
}

bool bwi_blow_is_shared(const bw_loads *l)
{
    const bw_ride_kind kind = l->ride.kind;
    return kind == BW_RIDE_ROLLING || kind == BW_RIDE_TRANSITION;
}

/* The weight that comes down on one board with the factor. */
static double blow_on_board(const bw_case *deck, const bw_combination *c,
                            const bwi_mover *mover)
{
    bwi_mover landed = *mover;
    const bool both =
        c->machine != 0.0 || c->slow > 0.0 || bwi_blow_is_shared(&deck->loads);
    landed.wheelbase = both ? mover->wheelbase : 0.0;
    return bwi_board_wheel(deck, &landed);
}

/* A person stands on one board, whatever the neighbours may take. */
bw_sourced bwi_board_person(const bw_case *deck)
{
    if (deck->decking.person > 0.0) {
        return (bw_sourced){deck->decking.person, BW_MARK_NONE, NULL};
    }
    const bw_people_use *use = deck->loads.use;
    const bool more = use != NULL && use->person.value > deck->basis->person.value;
    return more ? use->person : deck->basis->person;
}

static bw_status check_patterns(const piece *s, loading l, double crowd)
{
    const double snow = l.even;
    l.what = crowd > 0.0 ? BWI_ON_BOARD_PEOPLE : BWI_ON_BOARD_NOTHING;
    for (int pattern = 0; pattern < (crowd > 0.0 ? 3 : 1); pattern++) {
        const bw_arena_mark mark = bw_arena_now(s->t->plan->arena);
        l.even = snow + (pattern != 1 ? crowd : 0.0);
        l.odd = snow + (pattern != 2 ? crowd : 0.0);
        BW_TRY(check_uniform(s, &l));
        bw_arena_back(s->t->plan->arena, mark);
    }
    return BW_OK;
}

static bw_status check_combination(const piece *s, const bw_combination *c)
{
    const bw_case *deck = s->t->plan->deck;
    const bw_loads *on = &deck->loads;
    const double pitch = deck->decking.width + deck->decking.gap;
    const double snow = pitch * c->snow * on->snow;
    loading l = {.dead = pitch * c->dead * (deck->boards.board_pressure + on->extra_dead),
                 .even = snow,
                 .odd = snow,
                 .strength = c->strength,
                 .service = c->service,
                 .factored = c->factored,
                 .event = {.combination = c->title,
                           .dead = c->dead,
                           .load_duration = c->duration,
                           .lasting_share = c->lasting_share}};
    BW_TRY(check_patterns(s, l, pitch * c->crowd * on->crowd));
    if (bwi_moving(c) > 0.0) {
        const bwi_mover mover = bwi_mover_in(deck, c);
        l.what = c->machine > 0.0 ? BWI_ON_BOARD_MACHINE : BWI_ON_BOARD_WHEEL;
        l.still = bwi_moving(c) * bwi_board_wheel(deck, &mover);
        l.force = bwi_moving(c) * mover.factor * blow_on_board(deck, c, &mover);
        l.track = mover.track;
        BW_TRY(check_force(s, &l));
        l.track = 0.0;
    }
    if (c->crowd > 0.0) {
        l.what = BWI_ON_BOARD_PERSON;
        l.force = l.still = c->crowd * bwi_board_person(deck).value;
        BW_TRY(check_force(s, &l));
    }
    return BW_OK;
}

/* ---- the run ---- */

static bw_status check_piece(piece *s, bw_diags *d)
{
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = bwi_combinations(s->t->plan->deck, list);
    find_spans(s);
    BW_TRY(build(s));
    BW_TRY(solve(s, d));
    for (size_t k = 0; k < n; k++) {
        BW_TRY(check_combination(s, &list[k]));
    }
    return BW_OK;
}

static bw_status check_bed(bwi_tracker *t, const bed *b, bw_diags *d)
{
    const bw_decking *boards = &t->plan->deck->decking;
    const double half = t->plan->deck->boards.width / 2.0;
    const double left = fmin(-half, b->at[0]), right = fmax(half, b->at[b->n - 1]);
    piece *s = BW_NEW(t->plan->arena, piece, 1);
    if (s == NULL) {
        return BW_E_MEMORY;
    }
    if (boards->laid != BW_BOARDS_CUT || b->n < 3) {
        *s = (piece){.t = t, .bed = b, .last = b->n - 1, .left = left, .right = right};
        BW_TRY(check_piece(s, d));
    }
    for (size_t k = 0; k + 1 < b->n && b->n > 2 && boards->laid != BW_BOARDS_THROUGH;
         k++) {
        *s = (piece){.t = t,
                     .bed = b,
                     .first = k,
                     .last = k + 1,
                     .left = k == 0 ? left : b->at[k],
                     .right = k + 2 == b->n ? right : b->at[k + 1]};
        BW_TRY(check_piece(s, d));
    }
    return BW_OK;
}

bw_status bwi_search_boards(bwi_tracker *t, bw_diags *d)
{
    const bwi_plan *p = t->plan;
    bed *beds = BW_NEW(p->arena, bed, p->n_bays);
    if (p->deck->decking.kind == BW_BOARDS_UNKNOWN) {
        return BW_OK;
    }
    if (beds == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(make_reference(t, d));
    const size_t n = make_beds(p, beds);
    for (size_t k = 0; k < n; k++) {
        const bw_arena_mark mark = bw_arena_now(p->arena);
        BW_TRY(check_bed(t, &beds[k], d));
        bw_arena_back(p->arena, mark);
    }
    return BW_OK;
}
