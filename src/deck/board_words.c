/* What is said of the boards: where their loads are, what their checks rest on, and rules
 * of thumb that they do not meet. */
#include "internal.h"

#include <math.h>

const char *bw_boards_name(bw_boards_kind kind)
{
    static const char *const names[] = {
        [BW_BOARDS_UNKNOWN] = "boards",
        [BW_BOARDS_SAWN] = "sawn boards",
        [BW_BOARDS_SPLIT_RAIL] = "split rails",
        [BW_BOARDS_HALF_LOG] = "half logs",
    };
    return names[kind];
}

/* n boards and n - 1 gaps: n w + (n - 1) g >= L, common practice. */
double bw_decking_count(const bw_decking *decking, double length)
{
    const double tiny = 1e-9; /* a length that comes out even needs no further board */
    return ceil((length + decking->gap) / (decking->width + decking->gap) - tiny);
}

static const char *thickness(const bwi_plan *p, double value)
{
    const char *text = bw_length_print_small(p->arena, value, p->deck->units);
    return text != NULL ? text : "?";
}

static const char *force(const bwi_plan *p, double value)
{
    const char *text = bw_quantity_print(p->arena, BW_FORCE, value, p->deck->units);
    return text != NULL ? text : "?";
}

const char *bwi_board_position(const bwi_tracker *t, int kind)
{
    const bwi_plan *p = t->plan;
    const bwi_board_where *w = &t->board_where[kind];
    static const char *const what[] = {[BWI_ON_BOARD_NOTHING] = "on one board",
                                       [BWI_ON_BOARD_PEOPLE] = "people on the boards",
                                       [BWI_ON_BOARD_WHEEL] = "a wheel on one board",
                                       [BWI_ON_BOARD_MACHINE] =
                                           "the machine's axle on one board, left wheel",
                                       [BWI_ON_BOARD_PERSON] = "a person on one board"};
    const bool stands = w->what >= BWI_ON_BOARD_WHEEL;
    return bw_arena_print(p->arena, "%s%s%s, between bents %s and %s", what[w->what],
                          stands ? " " : "", stands ? bwi_across_text(p, w->at) : "",
                          p->deck->bents[w->bay].name, p->deck->bents[w->bay + 1].name);
}

/* ---- flags ---- */

typedef struct {
    const bwi_plan *plan;
    bw_assumption *out;
    size_t n;
    bool failed;
} flags;

static void add(flags *f, bw_mark mark, const char *source, const char *text)
{
    f->failed = f->failed || text == NULL;
    f->out[f->n++] = (bw_assumption){text, mark, source, false};
}

static void add_what(flags *f)
{
    const bwi_plan *p = f->plan;
    const bw_decking *b = &p->deck->decking;
    const double length = bw_deck_length(p->deck);
    const char *grade =
        b->kind != BW_BOARDS_SAWN ? ""
        : b->log.strength_class != NULL
            ? bw_arena_print(p->arena, ", class %s", b->log.strength_class->name)
            : bw_arena_print(p->arena, ", %s", bw_sawn_grade_name(b->grade));
    add(f, BW_MARK_NONE, NULL,
        bw_arena_print(p->arena, "%s: %s%s, %s wide, %s thick, gaps of %s: %.0f of them",
                       bw_boards_name(b->kind), b->log.species->common, grade,
                       thickness(p, b->width),
                       thickness(p, p->deck->boards.board_thickness),
                       thickness(p, b->gap), bw_decking_count(b, length)));
}

/* The way down from clear wood, so that F_b can be redone by hand. */
static void add_strength(flags *f, const bw_reference *reference)
{
    const bwi_plan *p = f->plan;
    const bw_working *ladder = &reference->ladder[BW_BENDING_STRENGTH];
    bw_text line = bw_text_new(p->arena);
    bw_text_add(&line, "bending strength of one board, step by step: ");
    for (size_t k = 0; k < ladder->count; k++) {
        const bw_term *term = &ladder->items[k];
        const char *value = term->quantity == BW_NUMBER
                                ? bw_arena_print(p->arena, "%.3g", term->value)
                                : bw_quantity_print(p->arena, term->quantity, term->value,
                                                    p->deck->units);
        bw_text_print(&line, "%s%s %s", k > 0 ? ", " : "", term->symbol,
                      value != NULL ? value : "?");
    }
    f->failed = f->failed || line.failed;
    add(f, BW_MARK_MEMORY, "clear wood and 5 % limit read; divisor and grades recalled",
        bw_text_string(&line));
}

/* Why so much of a rider stands on one board. */
static const char *wheel_source(const bw_loads *l)
{
    static const char *const one[] = {
        [BW_RIDE_AS_GIVEN] =
            "all the weight on one wheel: a factor without an action may be a landing",
        [BW_RIDE_SMALL_STEP] = "all the weight on one wheel, which comes down first",
        [BW_RIDE_LANDING] = "all the weight on one wheel, which comes down first",
        [BW_RIDE_ROLLING] = "all the weight on one wheel: give a wheelbase to share it",
        [BW_RIDE_TRANSITION] =
            "all the weight on one wheel: give a wheelbase to share it"};
    return l->wheelbase > 0.0 && bwi_blow_is_shared(l)
               ? "0.6 of the weight on one wheel, as for the rows"
               : one[l->ride.kind];
}

static void add_loads(flags *f)
{
    const bwi_plan *p = f->plan;
    const bw_case *deck = p->deck;
    bwi_mover rider = bwi_mover_of(deck, false);
    rider.wheelbase = bwi_blow_is_shared(&deck->loads) ? rider.wheelbase : 0.0;
    const double wheel = bwi_board_wheel(deck, &rider) / (1.0 - deck->decking.share);
    const char *share = deck->decking.share > 0.0
                            ? bw_arena_print(p->arena, "its neighbours take %.3g of it",
                                             deck->decking.share)
                            : "its neighbours take nothing";
    if (deck->loads.mass > 0.0) {
        add(f, BW_MARK_JUDGEMENT, wheel_source(&deck->loads),
            bw_arena_print(p->arena,
                           "a wheel of %s stands on one board, times the rider's factor; "
                           "%s",
                           force(p, wheel), share));
    }
    if (deck->loads.machine.mass > 0.0) {
        add(f, BW_MARK_JUDGEMENT, "boards lie across: both wheels of an axle on one",
            "the heavier axle of the machine stands on one board");
    }
    if (deck->loads.crowd > 0.0) {
        const bw_sourced person = bwi_board_person(deck);
        add(f, person.mark, person.source,
            bw_arena_print(p->arena, "a person of %s stands on one board",
                           force(p, person.value)));
    }
}

static void add_spans(flags *f)
{
    static const char *const laid[] = {
        [BW_BOARDS_EITHER] = "in one piece or cut over every row, whichever is worse",
        [BW_BOARDS_THROUGH] = "in one piece over all rows, held down at each",
        [BW_BOARDS_CUT] = "cut over every row"};
    add(f, BW_MARK_JUDGEMENT, "spans from centre to centre; 1/120: a quarter inch or so",
        bw_arena_print(
            f->plan->arena,
            "boards lie %s; one gives at most span/%.0f under a wheel standing "
            "still or a person",
            laid[f->plan->deck->decking.laid], f->plan->deck->limits.boards));
}

/* 3/4 in so that leaves and water go through; from about 1 in a foot or a small wheel
 * feels it; from about 4 in (a sphere that guards keep back) they go through. */
static void add_gap(flags *f)
{
    const double drains = 0.019, trips = 0.0255, open = 0.1; /* [m] */
    const double gap = f->plan->deck->decking.gap;
    if (gap < drains) {
        add(f, BW_MARK_READ,
            "USFS Trail Construction and Maintenance Notebook: at least 3/4 in",
            bw_arena_print(f->plan->arena,
                           "gaps of %s drain badly: boards and the logs under them rot "
                           "sooner",
                           thickness(f->plan, gap)));
    } else if (gap > open) {
        add(f, BW_MARK_JUDGEMENT, "more than 4 in, or 100 mm",
            bw_arena_print(f->plan->arena,
                           "lay boards closer: a foot or a wheel goes through gaps of %s",
                           thickness(f->plan, gap)));
        f->out[f->n - 1].to_do = true;
    } else if (gap > trips) {
        add(f, BW_MARK_JUDGEMENT, "more than 1 in",
            bw_arena_print(f->plan->arena,
                           "gaps of %s can catch a foot, or a wheel that crosses them at "
                           "a slant",
                           thickness(f->plan, gap)));
    }
}

/* The longest overhang over the span beside it. */
static void add_overhang(flags *f)
{
    const bwi_plan *p = f->plan;
    const double half = p->deck->boards.width / 2.0, much = 0.25;
    double longest = 0.0, worst = 0.0;
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        int rows[BWI_ROWS_MAX];
        double at[BWI_ROWS_MAX];
        const size_t n = bwi_plan_rows(p, bay, rows, at);
        const double out[2] = {at[0] + half, half - at[n - 1]};
        for (int side = 0; side < 2 && n > 1; side++) {
            const double span = side == 0 ? at[1] - at[0] : at[n - 1] - at[n - 2];
            longest = fmax(longest, out[side]);
            worst = fmax(worst, out[side] / span);
        }
    }
    if (worst > much) {
        add(f, BW_MARK_JUDGEMENT, "more than a quarter of the span beside it",
            bw_arena_print(p->arena,
                           "boards stand out %s beyond the outer row: a wheel there tips "
                           "them",
                           thickness(p, longest)));
    }
}

static void add_lift(flags *f, const bwi_tracker *t)
{
    const bw_sourced *holding = &t->plan->deck->basis->holding;
    if (t->board_lift > 0.0) {
        add(f, BW_MARK_COMPUTED, "NOT CHECKED: the screws",
            bw_arena_print(
                f->plan->arena,
                "hold every board down at every row for at least %s%s (two screws that "
                "reach well into the log, not nails): a load at its end lifts it "
                "elsewhere, %sand %.3g of the dead load is counted against that (%s)",
                force(f->plan, t->board_lift),
                t->board_lift_factored ? " as a design force" : "",
                t->board_rocks ? "one at its edge rocks it on its seat, " : "",
                holding->value, holding->source));
        f->out[f->n - 1].to_do = true;
    }
}

bw_status bwi_board_flags(const bwi_tracker *t, bw_assumption out[BWI_BOARD_FLAGS_MAX],
                          size_t *n_out)
{
    flags f = {.plan = t->plan, .out = out};
    if (t->boards < t->n_members) {
        add_what(&f);
        add_strength(&f, t->board_reference);
        add_loads(&f);
        add_spans(&f);
        add_gap(&f);
        add_overhang(&f);
        add_lift(&f, t);
    }
    *n_out = f.n;
    return f.failed ? BW_E_MEMORY : BW_OK;
}
