/* Stringers that come off their seats.
 *
 * The frame of a row holds a stringer down at every bent. Where one runs on over a bent,
 * a load in one bay would lift it elsewhere; if nothing keeps it down there, its moments
 * are larger than those of the frame (two equal bays, a wheel: 0.207 P L held down, 0.25
 * P L free). So it is looked at both ways. Free to lift: for the forces R on its seats
 * and the gaps g under it
 *
 *   R = R_held + A g >= 0,  g >= 0,  R' g = 0
 *
 * A_ij is the force on seat i when the stringer stands off seat j by a unit, read from
 * the influence lines like a wheel; A is symmetric and, with two seats left or one and a
 * knee, positive definite. Solved as a parametric linear complementarity problem (Cottle,
 * Pang & Stone, The Linear Complementarity Problem, 1992, 4.5, MEMORY): from the weight
 * at rest, on all its seats, to the forces asked for,
 *
 *   R_held = R_rest + t (R_asked - R_rest),  0 <= t <= 1,
 *
 * where the gaps run straight from one t at which a seat opens or closes to the next.
 * Where it would hang loose before t = 1 it flies off unless it is fastened: it has then
 * come up as far as it does by itself, and what is beyond pulls at its fasteners. So
 * nothing jumps where a stringer begins to fly off. Limits: the seat stays where it is
 * along the deck; butted neighbours keep their own seats. */
#include "internal.h"

#include <math.h>

/* ---- making ---- */

/* Gaps at one seat: the stringer's ends that meet there move up together. */
static bool make_gap(const bwi_plan *p, const bwi_row_frame *f, const bwi_lift *lift,
                     size_t seat, bwi_gap *out)
{
    const size_t bent = lift->first + seat;
    *out = (bwi_gap){.n = 0};
    for (size_t side = 0; side < 2; side++) {
        if (side == 0 ? seat == 0 : seat + 1 == lift->n) {
            continue;
        }
        const size_t bay = side == 0 ? bent - 1 : bent;
        if (bwi_plan_part(p, f->row, bay)->stringer != lift->stringer) {
            return false;
        }
        const int place = f->path_place[bay] + (side == 0 ? f->bay_pieces[bay] - 1 : 0);
        out->wheel[out->n++] =
            bw_influence_gap(f->influence, (size_t)place, side == 0, 0.0, 1.0);
    }
    return true;
}

double bwi_seat_force(const bwi_row_frame *f, const bwi_lift *lift, size_t seat,
                      const bw_state *s, const bwi_wheels *wheels)
{
    double before, after;
    bwi_row_end_forces(f, lift->first + seat, s, wheels, &before, &after);
    return (seat > 0 ? before : 0.0) + (seat + 1 < lift->n ? after : 0.0);
}

static void add_gap(bwi_wheels *wheels, const bwi_gap *gap, double by)
{
    for (size_t k = 0; k < gap->n; k++) {
        wheels->wheel[wheels->n++] = bw_wheel_scaled(&gap->wheel[k], by);
    }
}

/* Where it does not lie by itself on a seat, as if with a hundredth of its weight. */
static bw_status make_rest(const bwi_plan *p, const bwi_row_frame *f, bwi_lift *out)
{
    const bw_arena_mark mark = bw_arena_now(p->arena);
    const bw_state *dead =
        bw_frame_state(f->frame, &(bw_part){BWI_CASE_DEAD, 1.0}, 1, p->arena);
    double whole = 0.0;
    for (size_t i = 0; dead != NULL && i < out->n; i++) {
        out->rest[i] = bwi_seat_force(f, out, i, dead, NULL);
        whole += fabs(out->rest[i]);
    }
    for (size_t i = 0; i < out->n; i++) {
        out->rest[i] = fmax(out->rest[i], 0.01 * whole);
    }
    bw_arena_back(p->arena, mark);
    return dead != NULL ? BW_OK : BW_E_MEMORY;
}

static bw_status make_lift(const bwi_plan *p, const bwi_row_frame *f, bwi_lift *out)
{
    out->gap = BW_NEW(p->arena, bwi_gap, out->n);
    out->stiffness = BW_NEW(p->arena, double, out->n * out->n);
    out->rest = BW_NEW(p->arena, double, out->n);
    if (out->gap == NULL || out->stiffness == NULL || out->rest == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t bay = out->first; bay + 1 < out->first + out->n; bay++) {
        out->has_knee = out->has_knee || f->bay_pieces[bay] > 1; /* it cuts its bay */
    }
    BW_TRY(make_rest(p, f, out));
    for (size_t j = 0; j < out->n; j++) {
        if (!make_gap(p, f, out, j, &out->gap[j])) {
            return BW_E_INTERNAL;
        }
        bwi_wheels unit = {.n = 0};
        add_gap(&unit, &out->gap[j], 1.0);
        for (size_t i = 0; i < out->n; i++) {
            out->stiffness[i * out->n + j] = bwi_seat_force(f, out, i, NULL, &unit);
        }
    }
    return BW_OK;
}

bw_status bwi_lifts_make(const bwi_plan *p, bwi_row_frame *f)
{
    f->lifts = BW_NEW(p->arena, bwi_lift, p->deck->n_stringers);
    if (f->lifts == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        const bw_stringer *s = &p->deck->stringers[k];
        const size_t n = (size_t)(s->to - s->from) + 1;
        if (s->row == f->row && n > 2 && n <= BWI_SEATS_MAX) {
            bwi_lift *lift = &f->lifts[f->n_lifts++];
            *lift = (bwi_lift){.stringer = (int)k, .first = (size_t)s->from, .n = n};
            BW_TRY(make_lift(p, f, lift));
        }
    }
    return BW_OK;
}

/* ---- solving ---- */

/* Where a seat opens or closes, everything goes on straight: at + t slope. */
typedef struct {
    double at, slope;
} straight;

typedef struct {
    const bwi_lift *lift;
    straight held[BWI_SEATS_MAX]; /* [N] R_held */
    bool open[BWI_SEATS_MAX];     /* seats that it stands off */
    straight gap[BWI_SEATS_MAX];  /* [m] */
    double nothing;               /* [N] of rounding: lifts nothing */
} solver;

static double value(straight s, double t)
{
    return s.at + t * s.slope;
}

static straight force_at(const solver *s, size_t i)
{
    straight sum = s->held[i];
    for (size_t j = 0; j < s->lift->n; j++) {
        const double a = s->lift->stiffness[i * s->lift->n + j];
        sum.at += a * s->gap[j].at;
        sum.slope += a * s->gap[j].slope;
    }
    return sum;
}

/* Gauss elimination of the n open seats, both right sides at once; false if the stringer
 * then hangs loose: a pivot that is nothing beside what the seat takes by itself. */
static bool eliminate(double M[BWI_SEATS_MAX][BWI_SEATS_MAX + 2], size_t n)
{
    const double nothing = 1e-6;
    double by_itself[BWI_SEATS_MAX];
    for (size_t k = 0; k < n; k++) {
        by_itself[k] = M[k][k];
    }
    for (size_t k = 0; k < n; k++) { /* positive definite: no pivoting */
        if (!(M[k][k] > nothing * by_itself[k])) {
            return false;
        }
        for (size_t i = k + 1; i < n; i++) {
            const double part = M[i][k] / M[k][k];
            for (size_t j = k; j < n + 2; j++) {
                M[i][j] -= part * M[k][j];
            }
        }
    }
    for (size_t k = n; k-- > 0;) {
        for (size_t r = n; r < n + 2; r++) {
            for (size_t j = k + 1; j < n; j++) {
                M[k][r] -= M[k][j] * M[j][r];
            }
            M[k][r] /= M[k][k];
        }
    }
    return true;
}

/* Gaps that leave no force at the open seats; false, and as they were, if it then hangs
 * loose. Two seats hold it, or one and a knee. One alone does not, although it looks so:
 * a log that turns about it shifts the others along the deck, if its axis slopes, against
 * the posts that it has just left. */
static bool solve_open(solver *s)
{
    double M[BWI_SEATS_MAX][BWI_SEATS_MAX + 2];
    size_t at[BWI_SEATS_MAX], n = 0;
    for (size_t i = 0; i < s->lift->n; i++) {
        if (s->open[i]) {
            at[n++] = i;
        }
    }
    if (n + (s->lift->has_knee ? 1 : 2) > s->lift->n) {
        return false;
    }
    for (size_t i = 0; i < n; i++) {
        for (size_t j = 0; j < n; j++) {
            M[i][j] = s->lift->stiffness[at[i] * s->lift->n + at[j]];
        }
        M[i][n] = -s->held[at[i]].at;
        M[i][n + 1] = -s->held[at[i]].slope;
    }
    if (!eliminate(M, n)) {
        return false;
    }
    for (size_t i = 0; i < s->lift->n; i++) {
        s->gap[i] = (straight){0};
    }
    for (size_t i = 0; i < n; i++) {
        s->gap[at[i]] = (straight){M[i][n], M[i][n + 1]};
    }
    return true;
}

/* The seat that opens or closes next, *t on the way; no seat (n) if none does before 1.
 */
static size_t next_seat(const solver *s, double *t)
{
    const double now = *t;
    size_t next = s->lift->n;
    *t = 1.0;
    for (size_t i = 0; i < s->lift->n; i++) {
        const straight x = s->open[i] ? s->gap[i] : force_at(s, i);
        const double least = s->open[i] ? 0.0 : -s->nothing;
        if (x.slope < 0.0 && value(x, 1.0) < least) {
            const double there = fmax(now, -x.at / x.slope);
            next = there < *t ? i : next;
            *t = fmin(*t, there);
        }
    }
    return next;
}

static void start(solver *s, const double *held)
{
    double size = 0.0;
    for (size_t i = 0; i < s->lift->n; i++) {
        const double rest = s->lift->rest[i];
        s->held[i] = (straight){rest, held[i] - rest};
        size = fmax(size, fabs(held[i]));
    }
    s->nothing = 1e-9 * size;
}

bool bwi_lift_solve(const bwi_lift *lift, const double *held, double gap[BWI_SEATS_MAX])
{
    solver s = {.lift = lift};
    double t = 0.0;
    bool lifts = false;
    start(&s, held);
    for (size_t turn = 0; turn < 4 * lift->n; turn++) {
        const size_t seat = next_seat(&s, &t);
        if (seat == lift->n) {
            break;
        }
        s.open[seat] = !s.open[seat];
        if (!solve_open(&s)) {
            break; /* it would fly off from here on */
        }
    }
    for (size_t i = 0; i < lift->n; i++) {
        gap[i] = fmax(value(s.gap[i], t), 0.0);
        lifts = lifts || gap[i] > 0.0;
    }
    return lifts;
}

static void add_gaps(const bwi_lift *lift, const double *gap, bwi_wheels *out)
{
    for (size_t i = 0; i < lift->n; i++) {
        if (gap[i] > 0.0) {
            add_gap(out, &lift->gap[i], gap[i]);
        }
    }
}

void bwi_gaps(const bwi_lift *lift, const double *gap, bwi_wheels *out)
{
    out->n = 0;
    out->last_bay = 0;
    add_gaps(lift, gap, out);
}

bool bwi_lift_off(const bwi_row_frame *f, const bwi_lift *lift, const bw_state *s,
                  const bwi_wheels *wheels, bwi_wheels *out)
{
    double held[BWI_SEATS_MAX], gap[BWI_SEATS_MAX];
    for (size_t i = 0; i < lift->n; i++) {
        held[i] = bwi_seat_force(f, lift, i, s, wheels);
    }
    if (!bwi_lift_solve(lift, held, gap)) {
        return false;
    }
    out->n = wheels != NULL ? wheels->n : 0;
    out->last_bay = wheels != NULL ? wheels->last_bay : 0;
    for (size_t k = 0; k < out->n; k++) {
        out->wheel[k] = wheels->wheel[k];
    }
    add_gaps(lift, gap, out);
    return true;
}
