/* What the result rests on besides the case itself: defaults and modelling choices, each
 * with where it comes from. */
#include "internal.h"

static bw_status append(const bwi_plan *p, bw_assessment *out, bw_assumption assumption)
{
    bw_assumption *items = bw_arena_grow(p->arena, out->assumptions, out->n_assumptions,
                                         &out->cap_assumptions, sizeof *items);
    if (items == NULL || assumption.text == NULL) {
        return BW_E_MEMORY;
    }
    out->assumptions = items;
    items[out->n_assumptions++] = assumption;
    return BW_OK;
}

static bw_status add(const bwi_plan *p, bw_assessment *out, bw_mark mark,
                     const char *source, const char *text)
{
    return append(p, out, (bw_assumption){text, mark, source, false});
}

bw_status bwi_add_to_do(const bwi_plan *p, bw_assessment *out, bw_mark mark,
                        const char *source, const char *text)
{
    return append(p, out, (bw_assumption){text, mark, source, true});
}

static const char *print(const bwi_plan *p, bw_quantity quantity, double value)
{
    const char *text = bw_quantity_print(p->arena, quantity, value, p->deck->units);
    return text != NULL ? text : "?";
}

static bw_status add_rider(const bwi_plan *p, bw_assessment *out)
{
    const bw_loads *l = &p->deck->loads;
    const bw_blow blow = bw_rider_blow(l, NULL);
    const char *mass = print(p, BW_MASS, l->mass), *unknown = bwi_rider_unknown(p->deck);
    if (unknown != NULL) {
        return add(p, out, BW_MARK_JUDGEMENT, "NOT CHECKED: out of range",
                   bw_arena_print(p->arena,
                                  "a rider of %s with bike: how hard that presses cannot "
                                  "be said: %s",
                                  mass, unknown));
    }
    return add(
        p, out, BW_MARK_JUDGEMENT,
        l->ride.kind == BW_RIDE_AS_GIVEN
            ? "rolling and small steps about 3 times the weight"
            : "worked out above; no measurement: change it if you know better",
        bw_arena_print(p->arena,
                       "a rider of %s with bike, pressing down with %.3g times that",
                       mass, blow.factor));
}

static bw_status add_machine(const bwi_plan *p, bw_assessment *out)
{
    const bw_machine *m = &p->deck->loads.machine;
    return add(p, out, BW_MARK_JUDGEMENT, "a crossing now and then",
               bw_arena_print(p->arena,
                              "the %s (%s in all) crosses at walking pace, alone, on a "
                              "line where both its tracks are on the deck; how it rides "
                              "is not limited",
                              m->name, print(p, BW_MASS, m->mass)));
}

/* The combinations of both bases have one of them at a time. */
static bw_status add_apart(const bwi_plan *p, bw_assessment *out)
{
    const bw_loads *l = &p->deck->loads;
    const bool rider = l->mass > 0.0, people = l->crowd > 0.0;
    const bool machine = l->machine.mass > 0.0;
    if ((rider ? 1 : 0) + (people ? 1 : 0) + (machine ? 1 : 0) < 2) {
        return BW_OK;
    }
    const char *const who = !machine  ? "riders and people"
                            : !people ? "riders and the machine"
                            : !rider  ? "people and the machine"
                                      : "riders, people and the machine";
    return add(p, out, BW_MARK_JUDGEMENT, "no combination has two of them",
               bw_arena_print(
                   p->arena, "%s are never on it together: the sign has to say so", who));
}

static bw_status add_loads(const bwi_plan *p, bw_assessment *out)
{
    const bw_loads *l = &p->deck->loads;
    bw_arena *a = p->arena;
    BW_TRY(add(
        p, out, BW_MARK_COMPUTED, "green density of the species, wetter wood",
        bw_arena_print(a, "logs weigh %s; boards %s per plan area",
                       l->soaked ? "more than green, see below" : "what they weigh green",
                       print(p, BW_PRESSURE, p->deck->boards.board_pressure))));
    if (l->mass > 0.0) {
        BW_TRY(add_rider(p, out));
    }
    if (l->machine.mass > 0.0) {
        BW_TRY(add_machine(p, out));
    }
    BW_TRY(add_apart(p, out));
    if (l->soaked) {
        BW_TRY(add(p, out, BW_MARK_COMPUTED,
                   "walls of 1.54 times the density of water (memory), water in all the "
                   "rest",
                   "logs are full of water, and so are boards whose weight is not given; "
                   "where something lifts, dry wood may be worse: check without it too"));
    }
    if (l->crowd > 0.0) {
        BW_TRY(add(
            p, out, BW_MARK_NONE, NULL,
            bw_arena_print(a, "people standing: %s on every bay, or on the worst bays",
                           print(p, BW_PRESSURE, l->crowd))));
    }
    if (l->snow > 0.0) {
        BW_TRY(add(p, out, BW_MARK_NONE, NULL,
                   bw_arena_print(a, "snow: %s", print(p, BW_PRESSURE, l->snow))));
    }
    return BW_OK;
}

/* Who jumps over the deck from its end thrusts the ramp towards it. */
static bw_status add_ramp(const bwi_plan *p, bw_assessment *out)
{
    const bw_loads *l = &p->deck->loads;
    const bool there = l->mass > 0.0 && (l->thrust > 0.0 || l->ramp.radius > 0.0);
    if (!there || (bwi_thrust_way(p->deck, 1) != 0 && bwi_thrust_way(p->deck, -1) != 0)) {
        return BW_OK;
    }
    return bwi_add_to_do(
        p, out, BW_MARK_JUDGEMENT, "NOT CHECKED: a jump over the deck",
        bw_arena_print(p->arena,
                       "let riders take off at bent %s away from the deck "
                       "only: nothing here counts the thrust of one who "
                       "jumps over it",
                       p->deck->bents[l->thrust_bent].name));
}

static bw_status add_pushes(const bwi_plan *p, bw_assessment *out)
{
    const bw_loads *l = &p->deck->loads;
    if (l->crowd > 0.0) {
        BW_TRY(add(
            p, out, BW_MARK_READ, "sway tests on full-size decks, about 12 psf of plan",
            bw_arena_print(p->arena,
                           "people moving together push along or across with %s of plan",
                           print(p, BW_PRESSURE, l->sway))));
    }
    if (l->mass > 0.0) {
        BW_TRY(add(p, out, BW_MARK_MEMORY, "braking of a bicycle, 0.5 to 0.6 g",
                   bw_arena_print(p->arena,
                                  "a rider brakes or corners with %.3g of the weight",
                                  l->rider_push)));
    }
    BW_TRY(
        add(p, out, BW_MARK_JUDGEMENT, "posts set by eye",
            bw_arena_print(p->arena,
                           "posts stand out of plumb by %.3g of their height, and bow by "
                           "1/120 of it",
                           l->lean)));
    return add(
        p, out, BW_MARK_COMPUTED, "linear buckling of every frame",
        "where a frame would buckle below 10 times its loads, it is solved in its bent "
        "shape");
}

/* Smallest share of a wheel at either edge that a row of the bay gets: below 0 it lifts.
 */
static double least_share(const bwi_plan *p, size_t bay, size_t *n_rows)
{
    double least = 1.0;
    *n_rows = 0;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        if (bwi_plan_part(p, (int)r, bay)->stringer < 0) {
            continue;
        }
        (*n_rows)++;
        for (int side = -1; side <= 1; side += 2) {
            const double edge = side * p->deck->boards.width / 2.0;
            const double share = bwi_plan_wheel_share(p, (int)r, bay, edge);
            least = share < least ? share : least;
        }
    }
    return least;
}

/* What that comes to under the rider. */
static const char *rider_lifts(const bwi_plan *p, double share)
{
    const bw_loads *l = &p->deck->loads;
    const double force = share * bw_rider_blow(l, NULL).factor * l->mass * bw_gravity;
    const char *words = force > 0.0 ? bw_arena_print(p->arena, ", %s under the rider",
                                                     print(p, BW_FORCE, force))
                                    : "";
    return words != NULL ? words : "?";
}

/* And under people where they lift it, on half of the bays beside a bent. */
static const char *people_lift(const bwi_plan *p)
{
    double most = 0.0;
    for (size_t k = 0; k < p->deck->n_rows * p->deck->n_bents; k++) {
        const int row = (int)(k / p->deck->n_bents);
        const size_t bent = k % p->deck->n_bents;
        double area = 0.0;
        for (size_t bay = bent > 0 ? bent - 1 : 0; bay <= bent && bay < p->n_bays;
             bay++) {
            const bwi_share *s = bwi_plan_share(p, row, bay);
            const double length = p->deck->bents[bay + 1].at - p->deck->bents[bay].at;
            area += (s->crowd_width - s->dead_width) * length / 2.0;
        }
        const double force = p->deck->loads.crowd * area;
        most = !(force <= most) ? force : most;
    }
    const char *words = most == 0.0 ? ""
                                    : bw_arena_print(p->arena, ", %s a bent under people",
                                                     print(p, BW_FORCE, most));
    return words != NULL ? words : "?";
}

/* What tips boards and logs on a single row; posts and ground know it where the row is
 * alone all along. */
static bw_status add_lone_row(const bwi_tracker *t, bw_assessment *out)
{
    const bwi_plan *p = t->plan;
    if (!bw_deck_tips(p->deck)) {
        return BW_OK;
    }
    if (p->lone_row < 0) {
        return bwi_add_to_do(
            p, out, BW_MARK_JUDGEMENT, "NOT CHECKED: one row",
            "keep boards and logs from tipping and rolling sideways where a bay "
            "stands on one row only: what a load beside it does to posts and ground "
            "is not counted");
    }
    const char *most = t->most[BWI_LONE_TURN] > 0.0
                           ? bw_arena_print(p->arena, ", with %s at a bent",
                                            print(p, BW_MOMENT, t->most[BWI_LONE_TURN]))
                           : "";
    return bwi_add_to_do(
        p, out, BW_MARK_JUDGEMENT, "NOT CHECKED: one row, and torsion of its logs",
        bw_arena_print(p->arena,
                       "hold boards on the stringer, and the stringer on what it lies "
                       "on, against tipping and rolling sideways%s: what stands on the "
                       "ground counts as if they were",
                       most != NULL ? most : "?"));
}

/* Boards that tip over the outer row. */
static bw_status add_tipping(const bwi_plan *p, bw_assessment *out)
{
    double least = 0.0;
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        size_t n_rows = 0;
        const double share = least_share(p, bay, &n_rows);
        least = n_rows > 1 && share < least ? share : least;
    }
    if (least < -0.05) {
        BW_TRY(bwi_add_to_do(
            p, out, BW_MARK_JUDGEMENT, "NOT CHECKED: lever rule",
            bw_arena_print(
                p->arena,
                "hold boards and stringers down on the far row: a load at the edge "
                "lifts it with %.0f %% of what it presses%s%s",
                -100.0 * least, rider_lifts(p, -least), people_lift(p))));
    }
    return BW_OK;
}

/* Rules of thumb about the ground that a post does not meet. */
static bw_status add_ground_flags(const bwi_plan *p, bw_assessment *out)
{
    size_t n_posts = 0, n = 0;
    for (size_t k = 0; k < p->deck->n_bents; k++) {
        n_posts += p->deck->bents[k].n_posts + 1;
    }
    bw_ground_post *posts = BW_NEW(p->arena, bw_ground_post, n_posts);
    if (posts == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < p->deck->n_bents; k++) {
        const bw_bent *b = &p->deck->bents[k];
        for (size_t j = 0; j < b->n_posts; j++) {
            if (b->posts[j].foot == BW_FOOT_FIXED) {
                continue;
            }
            const bwi_post_place place = bwi_plan_post(p, k, &b->posts[j]);
            posts[n++] = (bw_ground_post){.name = b->posts[j].name,
                                          .at = b->at,
                                          .across = p->deck->rows[b->posts[j].row].across,
                                          .length = place.top + place.foot_depth,
                                          .hole_depth = place.foot_depth,
                                          .hole_width = b->posts[j].hole_width,
                                          .width = bwi_post_diameter(p, &place, 0.0),
                                          .soil = b->posts[j].soil};
        }
    }
    const bw_ground *g = &p->deck->ground;
    const bw_ground_site site = {g->frost_depth, g->half_inch_movement_ok,
                                 p->deck->units};
    bw_assumption flags[BW_GROUND_FLAGS_MAX];
    size_t n_flags = 0;
    BW_TRY(bw_ground_flags(p->arena, posts, n, &site, flags, &n_flags));
    for (size_t k = 0; k < n_flags; k++) {
        BW_TRY(append(p, out, flags[k]));
    }
    return BW_OK;
}

/* Somewhere a stringer slopes so much that its seat is shorter than what is under it. */
static bool has_wedges(const bwi_plan *p)
{
    for (size_t k = 0; k < 2 * p->deck->n_rows * p->deck->n_bents; k++) {
        const int row = (int)(k / 2 / p->deck->n_bents);
        const size_t bent = k / 2 % p->deck->n_bents;
        const bwi_side side = k % 2 == 0 ? BWI_BEFORE : BWI_AFTER;
        if (bwi_stringer_at(p, row, bent, side) < 0) {
            continue;
        }
        const double width = bwi_support_width(p, row, bent);
        if (bwi_level_seat(p, row, bent, side, width) <
            bwi_seat_length(p, row, bent, side, width)) {
            return true;
        }
    }
    return false;
}

static bw_status add_limits(const bwi_plan *p, bw_assessment *out)
{
    const bw_limits *l = &p->deck->limits;
    BW_TRY(add(
        p, out, BW_MARK_MEMORY, "IBC Table 1604.3, floors",
        bw_arena_print(p->arena,
                       "deflection at most span/%.0f under the rider standing still or "
                       "people, span/%.0f in the long run",
                       l->live, l->long_term)));
    if (has_wedges(p)) {
        BW_TRY(add(p, out, BW_MARK_COMPUTED, "its depth over the sine of the slope",
                   "a seat under a stringer that slopes is cut level: it is no longer "
                   "than its depth allows, and then bears that much less"));
    }
    const char *depth = bw_length_print_small(p->arena, l->seat_depth, p->deck->units);
    return add(p, out, BW_MARK_JUDGEMENT, "a flat cut on each log where it bears",
               bw_arena_print(p->arena,
                              "seats are flat, %s deep on each log, and are taken off "
                              "it where it bears: keep them that shallow; two stringers "
                              "that end on one seat have half of it each, and so has a "
                              "log at its end if nobody measured that it goes on",
                              depth != NULL ? depth : "?"));
}

/* How logs are taken that are not round and sound all along. */
static bw_status add_shapes(const bwi_plan *p, bw_assessment *out)
{
    bool measured = false, hollow = false, flat = false, notched = false;
    for (size_t k = 0; k < p->deck->n_logs; k++) {
        const bw_log *log = &p->deck->logs[k];
        measured = measured || log->n_stations > 2;
        hollow = hollow || log->shell > 0.0;
        flat = flat || log->half || log->flat_top > 0.0 || log->flat_bottom > 0.0;
        notched = notched || log->n_notches > 0;
    }
    if (measured) {
        BW_TRY(add(p, out, BW_MARK_COMPUTED, "a straight line under the measurements",
                   "a log measured at several places counts, in each bay, as a straight "
                   "taper that is nowhere thicker than measured"));
    }
    if (hollow) {
        BW_TRY(add(p, out, BW_MARK_JUDGEMENT, "cautious either way",
                   "a hollow lies in the middle of its log, all along, and weighs as if "
                   "full of wet wood"));
    }
    if (hollow || flat) {
        BW_TRY(add(p, out, BW_MARK_MEMORY, "ASTM D2899-03 and D3957",
                   "a post with flats or a hollow counts as its weakest section from end "
                   "to end, about its weakest axis; logs with flats deeper than 0.3 of "
                   "the radius, or hollow, lose the form factor of round timber"));
    }
    if (notched) {
        BW_TRY(add(p, out, BW_MARK_MEMORY, "ANSI/AWC NDS 2018, 3.2.3, 3.4.3.2 and 4.4.3",
                   "notches are square cuts; on the side in tension away from the ends "
                   "of a span there is no rule, and no verdict"));
    }
    return BW_OK;
}

/* What the basis takes for granted, and the logs that somebody graded. */
static bw_status add_basis(const bwi_plan *p, bw_assessment *out)
{
    const bw_sourced_text *note = p->deck->basis->notes;
    for (; note != NULL && note->text != NULL; note++) {
        BW_TRY(add(p, out, note->mark, note->source, note->text));
    }
    for (size_t k = 0; k < p->deck->n_logs; k++) {
        const bw_log *log = &p->deck->logs[k];
        if (log->strength_class != NULL) {
            BW_TRY(
                add(p, out, BW_MARK_NONE, log->strength_class->source,
                    bw_arena_print(p->arena,
                                   "log %s was graded to class %s by somebody who may; "
                                   "its species does not count for strength",
                                   log->name, log->strength_class->name)));
        }
    }
    return BW_OK;
}

/* Logs that nobody looked at lose strength by questions left open: one line for all. */
static bw_status add_grades(const bwi_plan *p, bw_assessment *out)
{
    bw_text names = bw_text_new(p->arena);
    for (size_t k = 0; k < p->deck->n_logs; k++) {
        const bw_log *log = &p->deck->logs[k];
        size_t open = 0;
        for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
            open += bw_grade_is_answered(&log->grade, q) ? 0 : 1;
        }
        if (open > 0 && log->strength_class == NULL) {
            bw_text_print(&names, "%s%s (%zu of %d)", names.length > 0 ? ", " : "",
                          log->name, open, (int)BW_GRADE_QUESTIONS);
        }
    }
    if (names.failed) {
        return BW_E_MEMORY;
    }
    if (names.length == 0) {
        return BW_OK;
    }
    return add(
        p, out, BW_MARK_JUDGEMENT, "moderate factors for open questions",
        bw_arena_print(p->arena,
                       "questions of the grade by eye not answered, each counted "
                       "on the cautious side: %s; all open cost bending %.0f %%",
                       bw_text_string(&names),
                       100.0 * (1.0 - bw_grade_factor(&(bw_eye_grade){0},
                                                      BW_BENDING_STRENGTH, NULL))));
}

/* Ends that hang, and ends that stop on their seats. */
static bw_status add_joints(const bwi_plan *p, bw_assessment *out)
{
    size_t hung = 0, into_caps = 0;
    for (size_t k = 0; k < p->deck->n_joints; k++) {
        const bw_joint_place *j = &p->deck->joints[k];
        hung += j->stringer >= 0 && j->hung ? 1 : 0;
        into_caps += j->stringer >= 0 && j->hung && j->into_cap ? 1 : 0;
    }
    if (into_caps > 0) {
        BW_TRY(bwi_add_to_do(
            p, out, BW_MARK_JUDGEMENT, "heights as if stringers lay on their caps",
            "add the thickness of the stringers to \"deck_height\" where they hang on "
            "caps: there posts are that much longer than counted here"));
    }
    if (hung > 0) {
        BW_TRY(bwi_add_to_do(
            p, out, BW_MARK_READ, "inspectors' and trade articles on collapses of decks",
            bw_arena_print(
                p->arena,
                "WARNING: ends of stringers hang on fasteners (%zu): hung loads are the "
                "commonest cause of collapses. Let logs bear, post on ground, cap "
                "on post, stringer on cap; what pushes hung ends across the deck "
                "is not counted",
                hung)));
    }
    if (p->deck->n_joints > 0) {
        BW_TRY(add(p, out, BW_MARK_JUDGEMENT, "logs put up green",
                   "fasteners are set square to the logs, in bored holes where they are "
                   "not driven, in sound wood and not in a drying check; several across "
                   "the grain hold a log apart that shrinks"));
    }
    if (p->deck->n_braces > 0) {
        BW_TRY(add(p, out, BW_MARK_JUDGEMENT, "see \"notches\" of a log",
                   "a brace's end sits square in a notch as deep as seats, if no joint "
                   "says otherwise; that notch is not taken off the post, cap or "
                   "stringer"));
    }
    return BW_OK;
}

/* A log that ends where its seat ends. */
static bw_status add_split_ends(const bwi_plan *p, bw_assessment *out)
{
    size_t short_ends = 0;
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        const bw_log *log = &p->deck->logs[p->deck->stringers[k].log];
        const double on = (log->length - p->stringer_length[k]) / 2.0;
        short_ends += on < 0.15 ? 1 : 0;
    }
    if (short_ends == 0) {
        return BW_OK;
    }
    return add(
        p, out, BW_MARK_JUDGEMENT, "drying splits begin at the end of a log",
        bw_arena_print(p->arena,
                       "%zu stringers are not known to go on 6 in past the middle of "
                       "their end seats: a split at the end then lies in the seat, and "
                       "fasteners there hold little",
                       short_ends));
}

/* Of forces that are the largest over all combinations: those of a basis with partial
 * factors are design forces. */
static const char *design(const bwi_plan *p)
{
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = bwi_combinations(p->deck, list);
    bool factored = false;
    for (size_t k = 0; k < n; k++) {
        factored = factored || (list[k].strength && list[k].factored);
    }
    return factored ? " (design)" : "";
}

/* The stringer that is lifted most: what it must be held down with. */
static bw_status add_lift(const bwi_tracker *t, bw_assessment *out)
{
    const bwi_plan *p = t->plan;
    size_t most = 0, lifted = 0;
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        lifted += t->lift[k] > 0.0 ? 1 : 0;
        most = t->lift[k] > t->lift[most] ? k : most;
    }
    if (lifted == 0) {
        return BW_OK;
    }
    return bwi_add_to_do(
        p, out, BW_MARK_COMPUTED, "NOT CHECKED: what holds it down",
        bw_arena_print(
            p->arena,
            "fasten every end of a stringer for a lift of at least %s%s (stringer "
            "%s): %zu lift off a seat under some loads; only those that run "
            "on over a bent are checked free to lift as well",
            print(p, BW_FORCE, t->lift[most]), design(p), p->deck->stringers[most].name,
            lifted));
}

/* [N], [N*m] Less than a cap's own friction holds (JUDGEMENT). */
static const double nothing = 10.0;

/* Ends on half of their seats roll a cap on its posts. */
static const char *rolling(const bwi_tracker *t)
{
    const bwi_plan *p = t->plan;
    bool caps = false;
    for (size_t k = 0; k < p->deck->n_bents; k++) {
        const bw_bent *b = &p->deck->bents[k];
        caps = caps || (b->cap >= 0 && b->n_posts > 0);
    }
    return caps && t->most[BWI_TOP_TURN] > nothing
               ? bw_arena_print(p->arena, ", and caps against rolling with %s%s a post",
                                print(p, BW_MOMENT, t->most[BWI_TOP_TURN]), design(p))
               : "";
}

/* What keeps caps, or stringers, on their posts. */
static bw_status add_tops(const bwi_tracker *t, bw_assessment *out)
{
    const bwi_plan *p = t->plan;
    double most = nothing;
    const bw_post *post = NULL;
    for (size_t k = 0; k < p->deck->n_bents; k++) {
        for (size_t j = 0; j < p->deck->bents[k].n_posts; j++) {
            const double force = t->lift[t->post_first[k] + j];
            if (force > most) {
                most = force;
                post = &p->deck->bents[k].posts[j];
            }
        }
    }
    const char *lift =
        post == NULL ? ""
                     : bw_arena_print(p->arena, " and a lift of %s%s (post %s)",
                                      print(p, BW_FORCE, most), design(p), post->name);
    if (t->most[BWI_TOP_PUSH] < nothing && post == NULL) {
        return BW_OK;
    }
    const char *rolls = rolling(t);
    return bwi_add_to_do(
        p, out, BW_MARK_COMPUTED, "NOT CHECKED: what holds caps on their posts",
        bw_arena_print(p->arena,
                       "fasten what lies on the posts to them for a push of "
                       "at least %s%s to a side%s%s",
                       print(p, BW_FORCE, t->most[BWI_TOP_PUSH]), design(p),
                       lift != NULL ? lift : "?", rolls != NULL ? rolls : "?"));
}

static bw_status add_held(const bwi_plan *p, const char *on, double push,
                          bw_assessment *out)
{
    if (push < nothing) {
        return BW_OK;
    }
    return bwi_add_to_do(
        p, out, BW_MARK_COMPUTED, "NOT CHECKED: what holds stringers on caps and sills",
        bw_arena_print(p->arena,
                       "fasten every stringer that lies on a %s to it for a push of "
                       "at least %s%s to any side",
                       on, print(p, BW_FORCE, push), design(p)));
}

/* Both ends of a stringer hold it along the deck: on a sill it needs no more there. A cap
 * gets what its posts are stiff enough for, one of them perhaps the whole. */
static bw_status add_stringers(const bwi_tracker *t, bw_assessment *out)
{
    BW_TRY(add_held(t->plan, "cap", t->most[BWI_CAP_PUSH], out));
    return add_held(t->plan, "sill", t->most[BWI_SILL_PUSH], out);
}

/* Nothing but friction, which is not counted, holds a foot on its pad. */
static bw_status add_pad_feet(const bwi_tracker *t, bw_assessment *out)
{
    const bwi_plan *p = t->plan;
    if (t->most[BWI_PAD_PUSH] < nothing) {
        return BW_OK;
    }
    return bwi_add_to_do(
        p, out, BW_MARK_COMPUTED, "NOT CHECKED: what keeps feet on pads",
        bw_arena_print(p->arena,
                       "hold the feet of posts on their pads, and the pads "
                       "in the ground, for a push of %s%s to any side",
                       print(p, BW_FORCE, t->most[BWI_PAD_PUSH]), design(p)));
}

/* Nothing here knows what a foot is fixed in. */
static bw_status add_fixed(const bwi_tracker *t, bw_assessment *out)
{
    const bwi_plan *p = t->plan;
    const size_t fixed = bw_deck_feet(p->deck, BW_FOOT_FIXED);
    if (fixed == 0) {
        return BW_OK;
    }
    return bwi_add_to_do(
        p, out, BW_MARK_COMPUTED, "NOT CHECKED: what fixed feet stand in, and the ground",
        bw_arena_print(
            p->arena,
            "hold each of the %zu fixed feet against turning with %s, a push of "
            "%s and a lift of %s%s: what they are fixed in has to be designed "
            "for that",
            fixed, print(p, BW_MOMENT, t->most[BWI_BASE_MOMENT]),
            print(p, BW_FORCE, t->most[BWI_BASE_PUSH]),
            print(p, BW_FORCE, t->most[BWI_BASE_LIFT]), design(p)));
}

static bw_status add_boards(const bwi_tracker *t, bw_assessment *out)
{
    bw_assumption flags[BWI_BOARD_FLAGS_MAX];
    size_t n = 0;
    BW_TRY(bwi_board_flags(t, flags, &n));
    for (size_t k = 0; k < n; k++) {
        BW_TRY(append(t->plan, out, flags[k]));
    }
    return BW_OK;
}

bw_status bwi_assumptions(const bwi_tracker *t, bw_assessment *out)
{
    const bwi_plan *p = t->plan;
    BW_TRY(add_basis(p, out));
    BW_TRY(add_shapes(p, out));
    BW_TRY(add_loads(p, out));
    BW_TRY(add_pushes(p, out));
    BW_TRY(add_ramp(p, out));
    BW_TRY(add_grades(p, out));
    BW_TRY(add_limits(p, out));
    BW_TRY(add_joints(p, out));
    BW_TRY(add_split_ends(p, out));
    BW_TRY(
        add(p, out, BW_MARK_JUDGEMENT, "lever rule",
            "boards are simply laid over the rows; a wheel at an overhanging edge levers "
            "more than its weight onto the outer row"));
    BW_TRY(add(
        p, out, BW_MARK_JUDGEMENT, "modelling",
        "the ground is level; logs taper straight between their measurements; joints "
        "are hinges except where one log runs through; the end of a stringer presses "
        "the middle of its seat, and turns the post below by what that is beside it"));
    if (bwi_hands_over(p)) {
        BW_TRY(add(p, out, BW_MARK_JUDGEMENT, "lever rule; boards keep rows abreast",
                   "rows that no post holds along the deck weigh on the rows beside "
                   "them that posts hold, and push them along; the caps between are not "
                   "checked for bending along the deck"));
    }
    if (bw_deck_feet(p->deck, BW_FOOT_HOLE) > 0) {
        BW_TRY(add(
            p, out, BW_MARK_MEMORY,
            "Terzaghi, Evaluation of coefficients of subgrade reaction, 1955",
            "posts in holes lean on soil springs: 6.6 (gravel) or 2.2 (sand) MN/m3 times "
            "depth, 1.6 MN/m2 in clay"));
    }
    const bw_assumption shakes = bwi_vibration_flag(p);
    BW_TRY(add(p, out, shakes.mark, shakes.source, shakes.text));
    BW_TRY(add_boards(t, out));
    BW_TRY(add_lift(t, out));
    BW_TRY(bwi_to_do(p, out));
    BW_TRY(add_tops(t, out));
    BW_TRY(add_stringers(t, out));
    BW_TRY(add_fixed(t, out));
    BW_TRY(add_pad_feet(t, out));
    BW_TRY(add_lone_row(t, out));
    BW_TRY(add_tipping(p, out));
    return add_ground_flags(p, out);
}
