/* How fast the softest span shakes up and down: a flag, not a check.
 *
 *   f = 1/(2 pi) sqrt(g int q w dx / int q w^2 dx)
 *
 * Rayleigh's quotient with the sag w under the span's own weight q, people's weight with
 * it if they are there; for an even beam on two supports 0.04 % above (pi/2) sqrt(EI / (m
 * L^4)). Every bay counts as a simple beam: a log that runs on over a bent is held by its
 * neighbours and shakes no slower. Caps and posts count as stiff, which is not cautious:
 * "about". */
#include "internal.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

typedef struct {
    const bwi_plan *plan;
    const bwi_part_of_stringer *part;
    bw_section end[2];
    double boards; /* [N/m] and all else that lies on the log */
    double density;
} span;

static span span_of(const bwi_plan *p, int row, size_t bay, bool people)
{
    const bw_case *deck = p->deck;
    const bwi_share *share = bwi_plan_share(p, row, bay);
    span s = {.plan = p, .part = bwi_plan_part(p, row, bay)};
    const int log = deck->stringers[s.part->stringer].log;
    bwi_stringer_sections(p, s.part->stringer, s.part->from_first, s.part->length, s.end);
    s.density = bwi_full_density(s.end, deck->logs[log].species->green_density.value);
    s.boards =
        share->dead_width * (deck->boards.board_pressure + deck->loads.extra_dead) +
        (people ? share->crowd_width * deck->loads.crowd : 0.0);
    return s;
}

static bw_status build(const span *s, bw_frame *f)
{
    const bwi_plan *p = s->plan;
    const int log = p->deck->stringers[s->part->stringer].log;
    const double L = s->part->length, E = p->references[log].value[BW_MODULUS];
    const bw_member beam = {.node_i = bw_frame_add_node(f, 0.0, 0.0, "span", NULL),
                            .node_j = bw_frame_add_node(f, L, 0.0, "span", NULL),
                            .section_i = s->end[0],
                            .section_j = s->end[1],
                            .modulus = E,
                            .shear_modulus = bw_shear_modulus(E),
                            .kappa = 0.9,
                            .density = s->density};
    const bw_support first = {.node = 0, .fix = {true, true, false}};
    const bw_support last = {.node = 1, .fix = {false, true, false}};
    const bw_member_load boards = {
        .kind = BW_LOAD_LINE, .b = L, .y = {-s->boards, -s->boards}};
    BW_TRY(bw_frame_add_member(f, &beam) < 0 ? BW_E_MEMORY : BW_OK);
    BW_TRY(bw_frame_add_support(f, &first));
    BW_TRY(bw_frame_add_support(f, &last));
    BW_TRY(bw_frame_load_self_weight(f, 0, 1.0));
    return bw_frame_load_member(f, 0, &boards);
}

/* Simpson's rule over the span. */
static double quotient(const span *s, const bw_line *line)
{
    enum { STEPS = 16 };
    double work = 0.0, motion = 0.0;
    for (int k = 0; k <= STEPS; k++) {
        const double t = (double)k / STEPS;
        const double part = k == 0 || k == STEPS ? 1.0 : k % 2 == 1 ? 4.0 : 2.0;
        const bw_section here = bw_section_between(&s->end[0], &s->end[1], t);
        const double q = s->boards + bw_section_area(&here) * s->density * bw_gravity;
        const double w = bw_line_sag(line, t * s->part->length);
        work += part * q * fabs(w);
        motion += part * q * w * w;
    }
    return bw_gravity * work / motion;
}

double bwi_bay_frequency(const bwi_plan *p, int row, size_t bay, bool people)
{
    const bw_arena_mark mark = bw_arena_now(p->arena);
    const span s = span_of(p, row, bay, people);
    bw_diags unheard = bw_diags_new(p->arena, NULL);
    bw_frame *f = bw_frame_new(p->arena);
    double hertz = (double)NAN;
    if (f != NULL && build(&s, f) == BW_OK && bw_frame_factor(f, &unheard) == BW_OK &&
        bw_frame_solve(f, &unheard) == BW_OK) {
        const bw_state *state = bw_frame_state(f, &(bw_part){0, 1.0}, 1, p->arena);
        const bw_line line =
            state != NULL ? bw_state_line(state, 0, p->arena) : (bw_line){0};
        hertz = line.n > 0 ? sqrt(quotient(&s, &line)) / (2.0 * pi) : hertz;
    }
    bw_arena_back(p->arena, mark);
    return hertz;
}

/* The slowest of all spans; where it is: of spans alike the first, however rounding falls
 * out. NaN if it is not known of one. */
static double slowest(const bwi_plan *p, int *row, size_t *bay)
{
    double least = HUGE_VAL;
    for (int r = 0; r < (int)p->deck->n_rows; r++) {
        for (size_t k = 0; k < p->n_bays; k++) {
            const double f = bwi_plan_part(p, r, k)->stringer >= 0
                                 ? bwi_bay_frequency(p, r, k, true)
                                 : HUGE_VAL;
            if (isnan(f)) {
                return f;
            }
            if (f < least * (1.0 - 1e-9)) {
                least = f;
                *row = r;
                *bay = k;
            }
        }
    }
    return least;
}

static bw_assumption cannot_say(const bw_sourced *wanted)
{
    return (bw_assumption){"how fast the softest span shakes cannot be worked out",
                           wanted->mark, wanted->source, false};
}

bw_assumption bwi_vibration_flag(const bwi_plan *p)
{
    int row = 0;
    size_t bay = 0;
    const bw_sourced *wanted = &p->deck->basis->least_frequency;
    const double least = slowest(p, &row, &bay);
    const double empty = bwi_bay_frequency(p, row, bay, false);
    if (isnan(least) || isnan(empty)) {
        return cannot_say(wanted);
    }
    const char *with = p->deck->loads.crowd > 0.0
                           ? bw_arena_print(p->arena, ", %.1f with people on it", least)
                           : "";
    return (bw_assumption){
        bw_arena_print(
            p->arena,
            "%sthe softest span, row %s from bent %s to %s, shakes up and down "
            "about %.1f times a second%s; below %.3g people walking in step can "
            "shake it. Sideways is not worked out",
            least < wanted->value ? "SLOW: " : "", p->deck->rows[row].name,
            p->deck->bents[bay].name, p->deck->bents[bay + 1].name, empty, with,
            wanted->value),
        wanted->mark, wanted->source, false};
}
