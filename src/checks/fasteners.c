/* fasteners.c - sizes of fasteners, and distances that are too short. See fasteners.h. */
#include "fasteners.h"

#include <math.h>

const char *bw_fastener_name(bw_fastener_kind kind)
{
    static const char *const names[BW_FASTENER_KIND_COUNT] = {
        [BW_FASTENER_NONE] = "nothing", [BW_FASTENER_LAG] = "lag screw",
        [BW_FASTENER_SCREW] = "screw",  [BW_FASTENER_BOLT] = "bolt",
        [BW_FASTENER_SPIKE] = "spike",  [BW_FASTENER_NAIL] = "nail",
    };
    return names[kind];
}

const bw_joint *bwi_joint_of(const bw_check_input *in)
{
    static const bw_joint nothing = {.fasteners = {.kind = BW_FASTENER_NONE}};
    return in->joint != NULL ? in->joint : &nothing;
}

double bwi_joint_lift(const bw_check_input *in, double share)
{
    const double G = isfinite(in->foot_dead) ? in->foot_dead : (double)NAN;
    const double up =
        bwi_not_negative(in->pull) + bwi_larger(-G, 0.0) - share * bwi_larger(G, 0.0);

    return bwi_larger(up, 0.0);
}

double bwi_fasteners_in_row(const bw_fasteners *f)
{
    if (f->count < 1 || f->rows < 1 || f->count % f->rows != 0) {
        return (double)NAN;
    }
    return (double)(f->count / f->rows);
}

/* Within half a degree of the grain, or of right across it, only one set counts. */
static const double little = 0.01;

bool bwi_is_along(double angle)
{
    return !(cos(angle) < little);
}

bool bwi_is_across(double angle)
{
    return !(sin(angle) < little);
}

double bwi_fasteners_across(const bw_fasteners *f, double angle)
{
    const double in_row = bwi_is_across(angle) ? bwi_fasteners_in_row(f) : 1.0;
    const double rows = bwi_is_along(angle) ? f->rows : 1.0;

    return bwi_larger(in_row, rows);
}

/* Lag screws, inches: nominal and root (MEMORY, confirmed by 116 printed cells of the
 * tables). Between and beyond them the least share of all, 0.692, is taken. */
static double lag_root(double diameter)
{
    static const double table[][2] = {{0.25, 0.173},   {0.3125, 0.227}, {0.375, 0.265},
                                      {0.4375, 0.328}, {0.5, 0.371},    {0.625, 0.471},
                                      {0.75, 0.579}};
    const double D = bwi_positive(diameter) / bw_inch;

    for (size_t k = 0; k < sizeof table / sizeof table[0]; k++) {
        if (fabs(D - table[k][0]) < 1e-3) {
            return table[k][1] * bw_inch;
        }
    }
    return 0.692 * D * bw_inch;
}

double bwi_fastener_root(const bw_fasteners *f)
{
    if (f->root != 0.0) {
        return f->root <= f->diameter ? bwi_positive(f->root) : (double)NAN;
    }
    switch (f->kind) {
    case BW_FASTENER_LAG:
        return lag_root(f->diameter);
    case BW_FASTENER_BOLT:
    case BW_FASTENER_SPIKE:
    case BW_FASTENER_NAIL:
        return bwi_positive(f->diameter);
    default:
        return (double)NAN;
    }
}

double bwi_fastener_point(const bw_fasteners *f)
{
    const double D = bwi_positive(f->diameter);

    return f->kind == BW_FASTENER_BOLT ? 0.0 : f->kind == BW_FASTENER_LAG ? D : 2.0 * D;
}

double bwi_fastener_head(const bw_fasteners *f)
{
    if (f->head != 0.0) {
        return f->head > f->diameter ? f->head : (double)NAN;
    }
    return 1.5 * bwi_positive(f->diameter);
}

double bwi_joint_side(const bw_joint *j)
{
    const double there = bwi_positive(j->side_log.thickness);

    return j->fasteners.side != 0.0 ? bwi_smaller(j->fasteners.side, there) : there;
}

double bwi_joint_penetration(const bw_joint *j)
{
    const bw_fasteners *f = &j->fasteners;
    const double there = bwi_positive(j->main_log.thickness);

    if (f->kind == BW_FASTENER_BOLT) {
        return there; /* right through */
    }
    if (f->penetration != 0.0) {
        return bwi_smaller(bwi_positive(f->penetration), there);
    }
    return bwi_smaller(
        bwi_positive(bwi_positive(f->length) - bwi_joint_side(j) - bwi_fastener_point(f)),
        there);
}

/* Lags: half the length and half an inch, at most 6 in, is thread, the point included
 * (MEMORY). Spikes and nails hold along all of it. */
double bwi_joint_thread(const bw_joint *j)
{
    const bw_fasteners *f = &j->fasteners;
    const double p = bwi_joint_penetration(j);

    if (f->thread != 0.0) {
        return bwi_smaller(bwi_positive(f->thread), p);
    }
    if (f->kind == BW_FASTENER_LAG) {
        const double T =
            bwi_smaller(bwi_positive(f->length) / 2.0 + 0.5 * bw_inch, 6.0 * bw_inch);
        return bwi_smaller(bwi_positive(T - bwi_fastener_point(f)), p);
    }
    return f->kind == BW_FASTENER_SCREW ? (double)NAN : p;
}

/* ---- placing ---- */

void bwi_place(bwi_placing *p, double there, double least, double full)
{
    const double a = (1.0 + 1e-9) * bwi_positive(there); /* rounding of units */

    p->shortfall = bwi_larger(p->shortfall, bwi_positive(least) / a);
    p->factor = bwi_smaller(p->factor, bwi_smaller(1.0, a / bwi_positive(full)));
}

bw_ratio bwi_ratio_placed(bw_ratio ratio, double shortfall)
{
    const double too_short = bwi_not_negative(shortfall) > 1.0 ? shortfall : 0.0;

    ratio.utilisation =
        isnan(shortfall) ? (double)NAN : bwi_larger(ratio.utilisation, too_short);
    ratio.capacity = too_short > 0.0 ? 0.0 : ratio.capacity; /* nothing is allowed */
    return ratio;
}

/* ---- words ---- */

static const char *count_words(const bw_fasteners *f)
{
    static const char *const words[BW_FASTENER_KIND_COUNT] = {
        [BW_FASTENER_NONE] = "fasteners: none are described",
        [BW_FASTENER_LAG] = "lag screws",
        [BW_FASTENER_SCREW] = "structural screws, by the sizes given",
        [BW_FASTENER_BOLT] = "bolts, threads kept out of the joint",
        [BW_FASTENER_SPIKE] = "spikes or pins",
        [BW_FASTENER_NAIL] = "nails",
    };
    return words[f->kind];
}

void bwi_record_fasteners(bw_working *working, const bw_check_input *in)
{
    if (working == NULL) {
        return;
    }
    const bw_joint *j = bwi_joint_of(in);

    bwi_record(working, "n", count_words(&j->fasteners), j->fasteners.count, BW_NUMBER);
    bwi_record(working, "D", "their diameter", j->fasteners.diameter, BW_LENGTH);
}

void bwi_record_shortfall(bw_working *working, double shortfall, const char *source)
{
    bwi_record_number(working, "q",
                      "least distance or penetration over what there is: above 1 is over",
                      shortfall, BW_MARK_MEMORY, source);
}
