/* lift.c - fasteners drawn out along their length.
 *
 *   U = T + max(-G, 0) - 0.6 max(G, 0) <= n min(W p C_eg C_M, W_H C_M) C_D
 *   W [lb per in of thread]: lag 1800 G^1.5 D^0.75 (printed), wood screw 2850 G^2 D, nail
 *   1380 G^2.5 D (all READ); W_H = 1725 pi D_H^2 G^2, the head drawn through (MEMORY)
 *
 * ANSI/AWC NDS 2018, 12.2. C_M: 0.7; 0.25 of nails and spikes, which loosen as green wood
 * dries (Table 11.3.3, MEMORY). C_eg: 0.75 of lags; no rule for others in end grain. A
 * structural screw counts as the weaker of lag and wood screw; a bolt by what its washers
 * press on across the grain, F_cperp without C_D. 0.6 of the weight helps (ASCE 7-16,
 * 2.4.1). */
#include "dowel.h"

#include "us_asd.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

double bwi_withdrawal_per_length(const bw_fasteners *f, double gravity)
{
    const double G = bwi_positive(gravity), D = bwi_positive(f->diameter) / bw_inch;
    const double unit = bw_unit_size(BW_LINE_LOAD, "lb/in");
    const double lag = 1800.0 * pow(G, 1.5) * pow(D, 0.75) * unit;
    const double screw = 2850.0 * G * G * D * unit;

    switch (f->kind) {
    case BW_FASTENER_LAG:
        return lag;
    case BW_FASTENER_SCREW:
        return bwi_smaller(lag, screw);
    case BW_FASTENER_SPIKE:
    case BW_FASTENER_NAIL:
        return 1380.0 * pow(G, 2.5) * D * unit;
    default:
        return (double)NAN;
    }
}

double bwi_head_value(const bw_check_input *in)
{
    const bw_joint *j = bwi_joint_of(in);
    const double G = bwi_positive(j->side_log.gravity);
    const double D_H = bwi_fastener_head(&j->fasteners) / bw_inch;

    return 1725.0 * pi * D_H * D_H * G * G * bw_unit_size(BW_FORCE, "lb");
}

static bool is_driven(const bw_fasteners *f)
{
    return f->kind == BW_FASTENER_NAIL || f->kind == BW_FASTENER_SPIKE;
}

static double end_grain(const bw_joint *j)
{
    return !j->end_grain                          ? 1.0
           : j->fasteners.kind == BW_FASTENER_LAG ? 0.75
                                                  : (double)NAN;
}

/* C_tn of toe-nails drawn out, 12.5.4 (MEMORY). */
static double toe_share(const bw_fasteners *f)
{
    return !f->toe ? 1.0 : is_driven(f) ? 0.67 : (double)NAN;
}

static const double helps = 0.6; /* ASCE 7-16, 2.4.1, MEMORY */

/* One bolt: the washer on the wood. */
static double washer(const bw_check_input *in, bw_working *working)
{
    const bw_fasteners *f = &bwi_joint_of(in)->fasteners;
    const double D_H = bwi_fastener_head(f);
    const double area = pi / 4.0 * (D_H * D_H - f->diameter * f->diameter);

    bwi_record(working, "D_H", "diameter of the washer", D_H, BW_LENGTH);
    bwi_record(working, "A_w", "wood under the washer", area, BW_AREA);
    bwi_record_reference(working, in, BW_BEARING);
    return area * bwi_reference_value(in, BW_BEARING);
}

static double driven_or_screwed(const bw_check_input *in, bw_working *working)
{
    const bw_joint *j = bwi_joint_of(in);
    const double W = bwi_withdrawal_per_length(&j->fasteners, j->main_log.gravity);
    const double C_M = is_driven(&j->fasteners) ? 0.25 : 0.7, C_eg = end_grain(j);
    const double p_t = bwi_joint_thread(j), head = bwi_head_value(in);
    const double C_D = bwi_joint_duration(in);

    bwi_record_number(working, "G_m", "specific gravity of the holding log, green volume",
                      j->main_log.gravity, BW_MARK_READ, "species table");
    bwi_record_from(working,
                    &(bw_term){"W", "withdrawal per length of thread", W, BW_LINE_LOAD,
                               BW_MARK_READ, "ANSI/AWC NDS 2018, 12.2"});
    bwi_record(working, "p_t", "thread in the holding log, point left out", p_t,
               BW_LENGTH);
    bwi_record_from(working,
                    &(bw_term){"W_H", "the head drawn through the wood", head, BW_FORCE,
                               BW_MARK_MEMORY, "ANSI/AWC NDS 2018, 12.2.5"});
    bwi_record_number(working, "C_M",
                      C_M < 0.5 ? "nails and spikes in green wood that dries"
                                : "wet in use",
                      C_M, BW_MARK_MEMORY, "ANSI/AWC NDS 2018, Table 11.3.3");
    bwi_record_number(working, "C_eg", "in end grain; no rule but for lag screws", C_eg,
                      BW_MARK_READ, "ANSI/AWC NDS 2018, 12.2.1 and 12.5.2");
    bwi_record_number(working, "C_D", "load duration factor, at most 1.6 of joints", C_D,
                      BW_MARK_READ, "ANSI/AWC NDS 2018, 2.3.2 and 11.3.2");
    if (j->fasteners.toe) {
        bwi_record_number(working, "C_tn", "driven aslant", toe_share(&j->fasteners),
                          BW_MARK_MEMORY, "ANSI/AWC NDS 2018, 12.5.4");
    }
    return bwi_smaller(W * p_t * C_eg * toe_share(&j->fasteners), head) * C_M * C_D;
}

static bw_ratio lift_ratio(const bw_check_input *in, bw_working *working)
{
    const bw_joint *j = bwi_joint_of(in);
    const double n = j->fasteners.count >= 1 ? j->fasteners.count : (double)NAN;
    const double U = bwi_joint_lift(in, helps);
    const bwi_placing placing = bwi_us_placing(in);

    bwi_record_fasteners(working, in);
    bwi_record(working, "T", "lift of the loads that come and go", in->pull, BW_FORCE);
    bwi_record(working, "G", "weight that stays on the joint, down positive",
               in->foot_dead, BW_FORCE);
    bwi_record_number(working, "0.6", "share of the weight that counts", helps,
                      BW_MARK_MEMORY, "ASCE 7-16, 2.4.1");
    bwi_record(working, "U", "drawn out, T - 0.6 G", U, BW_FORCE);
    const double one = j->fasteners.kind == BW_FASTENER_BOLT
                           ? washer(in, working)
                           : driven_or_screwed(in, working);
    bwi_record(working, "n W'", "allowed on all of them", n * one, BW_FORCE);
    bwi_record_shortfall(working, placing.shortfall, "ANSI/AWC NDS 2018, 12.1 and 12.5");
    return bwi_ratio_placed(bwi_ratio_of(U, n * one), placing.shortfall);
}

const bw_check bwi_us_lift = {
    .kind = BW_CHECK_LIFT,
    .id = "lift",
    .title = "Fasteners drawn out",
    .formula = "T - 0.6 G <= n min(W p_t C_eg, W_H) C_M C_D; bolts by their washers",
    .source = "ANSI/AWC NDS 2018, 12.2; ASCE 7-16, 2.4.1",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_FORCE,
    .ratio = lift_ratio,
};
