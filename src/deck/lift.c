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
 * the influence lines like a wheel. Solved by the active set method of least squares with
 * non-negative unknowns (Lawson & Hanson, Solving Least Squares Problems, 1974, ch. 23,
 * MEMORY; A is symmetric and, with two seats left or one and a knee, positive definite).
 * Limits: the seat stays where it is along the deck; butted neighbours keep their own
 * seats. */
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

static bw_status make_lift(const bwi_plan *p, const bwi_row_frame *f, bwi_lift *out)
{
    out->gap = BW_NEW(p->arena, bwi_gap, out->n);
    out->stiffness = BW_NEW(p->arena, double, out->n * out->n);
    if (out->gap == NULL || out->stiffness == NULL) {
        return BW_E_MEMORY;
    }
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

typedef struct {
    const bwi_lift *lift;
    const double *held;        /* R_held */
    bool open[BWI_SEATS_MAX];  /* seats that it stands off */
    double gap[BWI_SEATS_MAX]; /* [m] */
} solver;

static double force_at(const solver *s, size_t i)
{
    double sum = s->held[i];
    for (size_t j = 0; j < s->lift->n; j++) {
        sum += s->lift->stiffness[i * s->lift->n + j] * s->gap[j];
    }
    return sum;
}

/* Gaps that leave no force at the open seats, by elimination; false if the stringer then
 * hangs loose: a pivot that is nothing beside what the seat takes by itself. Two seats
 * hold it, or one and a knee, which tells by its pivots alone. */
static bool solve_open(const solver *s, double gap[BWI_SEATS_MAX])
{
    double M[BWI_SEATS_MAX][BWI_SEATS_MAX + 1];
    size_t at[BWI_SEATS_MAX], n = 0;
    for (size_t i = 0; i < s->lift->n; i++) {
        gap[i] = 0.0;
        if (s->open[i]) {
            at[n++] = i;
        }
    }
    if (n + 1 > s->lift->n) {
        return false;
    }
    const double nothing = n + 2 > s->lift->n ? 1e-6 : 1e-9;
    for (size_t i = 0; i < n; i++) {
        for (size_t j = 0; j < n; j++) {
            M[i][j] = s->lift->stiffness[at[i] * s->lift->n + at[j]];
        }
        M[i][n] = -s->held[at[i]];
    }
    for (size_t k = 0; k < n; k++) { /* positive definite: no pivoting */
        if (!(M[k][k] > nothing * s->lift->stiffness[at[k] * s->lift->n + at[k]])) {
            return false;
        }
        for (size_t i = k + 1; i < n; i++) {
            const double part = M[i][k] / M[k][k];
            for (size_t j = k; j <= n; j++) {
                M[i][j] -= part * M[k][j];
            }
        }
    }
    for (size_t k = n; k-- > 0;) {
        double sum = M[k][n];
        for (size_t j = k + 1; j < n; j++) {
            sum -= M[k][j] * gap[at[j]];
        }
        gap[at[k]] = sum / M[k][k];
    }
    return true;
}

/* Goes from the gaps so far towards the new ones until the first closes; true if none
 * does before. */
static bool step_towards(solver *s, const double wanted[BWI_SEATS_MAX])
{
    double part = 1.0;
    for (size_t i = 0; i < s->lift->n; i++) {
        if (s->open[i] && !(wanted[i] > 0.0)) {
            part = fmin(part, s->gap[i] / (s->gap[i] - wanted[i]));
        }
    }
    const bool whole = !(part < 1.0);
    for (size_t i = 0; i < s->lift->n; i++) {
        s->gap[i] += part * (wanted[i] - s->gap[i]);
        if (s->open[i] && !whole && !(s->gap[i] > 0.0)) {
            s->open[i] = false;
            s->gap[i] = 0.0;
        }
    }
    return whole;
}

static const double rounding = 1e-9; /* lifts nothing */

bool bwi_lift_solve(const bwi_lift *lift, const double *held, double gap[BWI_SEATS_MAX])
{
    solver s = {.lift = lift, .held = held};
    double size = 0.0;
    for (size_t i = 0; i < lift->n; i++) {
        size = fmax(size, fabs(held[i]));
    }
    bool lifts = false;
    for (size_t turn = 0; turn < 4 * lift->n; turn++) {
        size_t worst = 0;
        double least = -rounding * size;
        bool found = false;
        for (size_t i = 0; i < lift->n; i++) {
            const double force = s.open[i] ? 0.0 : force_at(&s, i);
            if (force < least) {
                least = force;
                worst = i;
                found = true;
            }
        }
        if (!found) {
            for (size_t i = 0; i < lift->n; i++) {
                gap[i] = s.gap[i];
            }
            return lifts;
        }
        s.open[worst] = lifts = true;
        double wanted[BWI_SEATS_MAX];
        do {
            if (!solve_open(&s, wanted)) {
                return false; /* it would fly off: only what holds it down helps */
            }
        } while (!step_towards(&s, wanted));
    }
    return false;
}

bool bwi_flies_off(const bwi_row_frame *f, const bwi_lift *lift, const bw_state *s,
                   const bwi_wheels *wheels)
{
    double held[BWI_SEATS_MAX], gap[BWI_SEATS_MAX], least = 0.0, most = 0.0;
    for (size_t i = 0; i < lift->n; i++) {
        held[i] = bwi_seat_force(f, lift, i, s, wheels);
        least = fmin(least, held[i]);
        most = fmax(most, fabs(held[i]));
    }
    return least < -rounding * most && !bwi_lift_solve(lift, held, gap);
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
