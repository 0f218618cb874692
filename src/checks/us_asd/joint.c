/* joint.c - fasteners pushed sideways.
 *
 *   R <= Z' = n Z C_D C_M C_g C_delta C_eg,   Z: the least of the yield modes
 *
 * ANSI/AWC NDS 2018, 11.3 and 12.3 (MEMORY; see dowel.c and group.c). Spikes and pins
 * count with 0.75, as driftpins did in older editions (MEMORY); driven aslant with 0.83.
 * A distance or a penetration below the least that is allowed makes it over, whatever the
 * force; one that is not given, or a screw whose root is not, and it cannot say. */
#include "dowel.h"

#include "us_asd.h"

#include <math.h>

static double spike_share(const bw_fasteners *f)
{
    return f->kind == BW_FASTENER_SPIKE ? 0.75 : 1.0;
}

/* C_tn of toe-nails, 12.5.4 (MEMORY); nothing else is set so. */
static double toe_share(const bw_fasteners *f)
{
    const bool driven = f->kind == BW_FASTENER_NAIL || f->kind == BW_FASTENER_SPIKE;

    return !f->toe ? 1.0 : driven ? 0.83 : (double)NAN;
}

static double group_share(const bw_check_input *in)
{
    const bw_joint *j = bwi_joint_of(in);
    const bw_fasteners *f = &j->fasteners;
    const double n = bwi_fasteners_in_row(f);
    const double stiffness[2] = {j->main_log.stiffness, j->side_log.stiffness};

    if (n <= 1.0 || f->diameter < 0.25 * bw_inch * (1.0 - 1e-9)) {
        return n >= 1.0 ? 1.0 : (double)NAN;
    }
    return bwi_group_factor(n, f->spacing, bwi_load_slip(f->diameter), stiffness);
}

static void record_dowel(bw_working *working, const bw_check_input *in)
{
    const bw_joint *j = bwi_joint_of(in);
    const bwi_dowel d = bwi_dowel_of(in, bwi_joint_penetration(j));

    bwi_record(working, "D_r", "diameter that resists, under the thread", d.diameter,
               BW_LENGTH);
    bwi_record(working, "l_s", "length in the fastened log", d.side_length, BW_LENGTH);
    bwi_record(working, "l_m", "length in the holding log, point left out", d.main_length,
               BW_LENGTH);
    bwi_record(working, "th_s", "force to the grain of the fastened log", in->side_angle,
               BW_ANGLE);
    bwi_record(working, "th_m", "force to the grain of the holding log", in->main_angle,
               BW_ANGLE);
    bwi_record_number(working, "G_s",
                      "specific gravity of the fastened log, green volume",
                      j->side_log.gravity, BW_MARK_READ, "species table");
    bwi_record_number(working, "G_m", "specific gravity of the holding log, green volume",
                      j->main_log.gravity, BW_MARK_READ, "species table");
    const char *const source = "ANSI/AWC NDS 2018, 12.3.3 and 12.3.6";
    bwi_record_from(working,
                    &(bw_term){"F_es", "bearing strength in the fastened log",
                               d.side_bearing, BW_STRESS, BW_MARK_MEMORY, source});
    bwi_record_from(working,
                    &(bw_term){"F_em",
                               j->end_grain
                                   ? "bearing strength in the holding log, end grain"
                                   : "bearing strength in the holding log",
                               d.main_bearing, BW_STRESS, BW_MARK_MEMORY, source});
    bwi_record_from(working, &(bw_term){"F_yb", "bending yield strength of the fastener",
                                        d.yield, BW_STRESS, BW_MARK_MEMORY, source});
}

static void record_modes(bw_working *working, const bw_check_input *in)
{
    const bw_joint *j = bwi_joint_of(in);
    const bwi_dowel d = bwi_dowel_of(in, bwi_joint_penetration(j));
    const char *const source = "ANSI/AWC NDS 2018, Table 12.3.1A";
    double mode[BWI_MODE_COUNT];

    bwi_dowel_modes(&d, j->fasteners.planes, mode);
    bwi_record_number(working, "R_d", "reduction, modes I", d.reduction.crush,
                      BW_MARK_READ, "ANSI/AWC NDS 2018, Table 12.3.1B");
    bwi_record_number(working, "R_d,II", "reduction, mode II", d.reduction.turn,
                      BW_MARK_READ, "ANSI/AWC NDS 2018, Table 12.3.1B");
    bwi_record_number(working, "R_d,III", "reduction, modes III and IV", d.reduction.bend,
                      BW_MARK_READ, "ANSI/AWC NDS 2018, Table 12.3.1B");
    for (int k = 0; k < BWI_MODE_COUNT; k++) {
        if (!isinf(mode[k])) {
            bwi_record_from(working,
                            &(bw_term){bwi_mode_symbol[k], bwi_mode_words[k], mode[k],
                                       BW_FORCE, BW_MARK_MEMORY, source});
        }
    }
    bwi_record(working, "Z", "the least; not more than its share of full penetration",
               bwi_dowel_value(in), BW_FORCE);
}

static void record_factors(bw_working *working, const bw_check_input *in, double C_delta)
{
    const bw_joint *j = bwi_joint_of(in);
    const double C_M = bwi_joint_wet(in);

    bwi_record_number(working, "C_D", "load duration factor, at most 1.6 of joints",
                      bwi_joint_duration(in), BW_MARK_READ,
                      "ANSI/AWC NDS 2018, 2.3.2 and 11.3.2");
    bwi_record_number(working, "C_M",
                      C_M < 0.5 ? "wet: the log shrinks between the fasteners"
                                : "wet in use",
                      C_M, BW_MARK_MEMORY, "ANSI/AWC NDS 2018, Table 11.3.3");
    bwi_record_number(working, "C_g", "several in a row share unevenly", group_share(in),
                      BW_MARK_MEMORY, "ANSI/AWC NDS 2018, 11.3.6");
    bwi_record_number(working, "C_delta", "end distance and spacing", C_delta,
                      BW_MARK_MEMORY, "ANSI/AWC NDS 2018, 12.5.1");
    if (j->end_grain) {
        bwi_record_number(working, "C_eg", "in end grain", bwi_joint_end_grain(j),
                          BW_MARK_MEMORY, "ANSI/AWC NDS 2018, 12.5.2");
    }
    if (j->fasteners.kind == BW_FASTENER_SPIKE) {
        bwi_record_number(working, "C_sp", "spikes and pins", spike_share(&j->fasteners),
                          BW_MARK_MEMORY, "older editions of the NDS, driftpins");
    }
    if (j->fasteners.toe) {
        bwi_record_number(working, "C_tn", "driven aslant", toe_share(&j->fasteners),
                          BW_MARK_MEMORY, "ANSI/AWC NDS 2018, 12.5.4");
    }
}

static bw_ratio joint_ratio(const bw_check_input *in, bw_working *working)
{
    const bw_joint *j = bwi_joint_of(in);
    const bwi_placing placing = bwi_us_placing(in);
    const double n = j->fasteners.count >= 1 ? j->fasteners.count : (double)NAN;
    const double allowed = n * bwi_dowel_value(in) * bwi_joint_duration(in) *
                           bwi_joint_wet(in) * group_share(in) * placing.factor *
                           bwi_joint_end_grain(j) * spike_share(&j->fasteners) *
                           toe_share(&j->fasteners);

    bwi_record_fasteners(working, in);
    bwi_record(working, "R", "force on all of them, sideways", in->force, BW_FORCE);
    if (working != NULL) {
        record_dowel(working, in);
        record_modes(working, in);
        record_factors(working, in, placing.factor);
    }
    bwi_record(working, "Z'", "allowed on all, n Z and all factors", allowed, BW_FORCE);
    bwi_record_shortfall(working, placing.shortfall, "ANSI/AWC NDS 2018, 12.1 and 12.5");
    return bwi_ratio_placed(bwi_ratio_of(in->force, allowed), placing.shortfall);
}

const bw_check bwi_us_joint = {
    .kind = BW_CHECK_JOINT,
    .id = "joint",
    .title = "Fasteners pushed sideways",
    .formula = "R <= Z' = n Z C_D C_M C_g C_delta C_eg, Z the least of the yield modes",
    .source = "ANSI/AWC NDS 2018, 11.3 and 12.3",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_FORCE,
    .ratio = joint_ratio,
};

/* ---- the wood beside them ---- */

/* V_r' = 2/3 F_v' A_e (d_e / d)^2 within 5 d of the end (3.4.3.3 (a), MEMORY): like a
 * notch that leaves only what lies between the loaded edge and the farthest fastener. The
 * clause speaks of rectangles, b d_e; for round logs A_e stands for it, as in 3.4.3.2. */
static bw_ratio split_ratio(const bw_check_input *in, bw_working *working)
{
    const double share = bwi_positive(in->notch_left) / bwi_positive(in->notch_whole);
    const double area = 2.0 / 3.0 * bwi_positive(in->section.area) *
                        (share <= 1.0 ? share * share : (double)NAN);
    const double stress = in->force / bwi_positive(area);
    const double allowed =
        bwi_reference_value(in, BW_SHEAR_STRENGTH) * bwi_joint_duration(in);

    bwi_record(working, "V", "force that the joint hands over", in->force, BW_FORCE);
    bwi_record(working, "d", "depth of the log", in->notch_whole, BW_LENGTH);
    bwi_record(working, "d_e", "loaded edge to the farthest fastener", in->notch_left,
               BW_LENGTH);
    bwi_record(working, "A_e", "area of that part", in->section.area, BW_AREA);
    bwi_record_from(working,
                    &(bw_term){"f_v,e", "V / (2/3 A_e (d_e / d)^2)", stress, BW_STRESS,
                               BW_MARK_MEMORY, "ANSI/AWC NDS 2018, 3.4.3.3"});
    bwi_record_reference(working, in, BW_SHEAR_STRENGTH);
    bwi_record_number(working, "C_D", "load duration factor, at most 1.6 of joints",
                      bwi_joint_duration(in), BW_MARK_READ,
                      "ANSI/AWC NDS 2018, 2.3.2 and 11.3.2");
    bwi_record(working, "F_v'", "allowed shear stress, F_v C_D", allowed, BW_STRESS);
    return bwi_ratio_of(stress, allowed);
}

const bw_check bwi_us_split = {
    .kind = BW_CHECK_SPLIT,
    .id = "split",
    .title = "Splitting where the log hangs",
    .formula = "f_v,e = V / (2/3 A_e (d_e / d)^2) <= F_v C_D",
    .source = "ANSI/AWC NDS 2018, 3.4.3.3",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_STRESS,
    .ratio = split_ratio,
};
