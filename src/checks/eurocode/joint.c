/* joint.c - fasteners pushed sideways, the wood beside them, and fasteners drawn out.
 *
 *   F_v,Ed <= k_mod n_ef F_v,Rk / gamma_M, F_v,Rk of (8.6) or (8.7) per plane
 *   F_v,Ed <= F_90,Rd = k_mod 14 b sqrt(h_e / (1 - h_e / h)) / gamma_M   (8.4), w = 1
 *   F_ax,Ed <= k_mod n^0.9 F_ax,Rk / gamma_M                             (8.41)
 *
 * EN 1995-1-1:2004+A1, 8.1.4, 8.2, 8.5 and 8.7 (MEMORY); gamma_M = 1.3 for connections.
 * In end grain there is no rule: cannot say. (8.4) is for softwood and stands for
 * hardwood, which is denser; b of a round log is the mean width of the part that hangs.
 */
#include "johansen.h"

#include "eurocode.h"

#include <math.h>

static double design(const bw_check_input *in, double characteristic)
{
    return bwi_ec_modification(in) * characteristic / bwi_ec_gamma_m;
}

static void record_design(bw_working *working, const bw_check_input *in)
{
    bwi_record_number(working, "k_mod", "duration and wetness, service class 3",
                      bwi_ec_modification(in), BW_MARK_READ,
                      "EN 1995-1-1:2004, Table 3.1");
    bwi_record_number(working, "gamma_M", "partial factor of connections", bwi_ec_gamma_m,
                      BW_MARK_MEMORY, "EN 1995-1-1:2004, Table 2.3");
}

/* ---- sideways ---- */

static double effective_in_row(const bw_check_input *in)
{
    const bw_fasteners *f = &bwi_joint_of(in)->fasteners;
    const double n = bwi_fasteners_in_row(f);

    return bwi_smaller(
        bwi_ec_effective_number(n, f->spacing, f->diameter, in->side_angle),
        bwi_ec_effective_number(n, f->spacing, f->diameter, in->main_angle));
}

static void record_fastener(bw_working *working, const bw_check_input *in,
                            const bwi_johansen *d)
{
    const bw_joint *j = bwi_joint_of(in);
    const char *const source = "EN 1995-1-1:2004, 8.3 to 8.7";

    bwi_record(working, "d", "diameter that resists; 1.1 times the root of a thread",
               d->diameter, BW_LENGTH);
    bwi_record(working, "t_1", "length in the fastened log", d->side_length, BW_LENGTH);
    bwi_record(working, "t_2", "length in the holding log, point left out",
               d->main_length, BW_LENGTH);
    bwi_record_from(working,
                    &(bw_term){"rho_1", "density of the fastened log, 5 %",
                               bwi_ec_density(&j->side_log), BW_DENSITY, BW_MARK_COMPUTED,
                               "its class, or 936 G of the species table"});
    bwi_record_from(working,
                    &(bw_term){"rho_2", "density of the holding log, 5 %",
                               bwi_ec_density(&j->main_log), BW_DENSITY, BW_MARK_COMPUTED,
                               "its class, or 936 G of the species table"});
    bwi_record_from(working,
                    &(bw_term){"f_h,1,k", "bearing strength, fastened log",
                               d->side_bearing, BW_STRESS, BW_MARK_MEMORY, source});
    bwi_record_from(working,
                    &(bw_term){"f_h,2,k", "bearing strength, holding log",
                               d->main_bearing, BW_STRESS, BW_MARK_MEMORY, source});
    bwi_record_from(working,
                    &(bw_term){"M_y,Rk", "yield moment, 0.3 f_u d^2.6", d->yield_moment,
                               BW_MOMENT, BW_MARK_MEMORY, source});
    bwi_record_from(working,
                    &(bw_term){"F_ax,Rk", "what it holds along its length, if counted",
                               d->withdrawal, BW_FORCE, BW_MARK_MEMORY, source});
}

static void record_modes(bw_working *working, const bwi_johansen *d, int planes)
{
    static const char *const one[BWI_JOHANSEN_MODES] = {"F_a", "F_b", "F_c",
                                                        "F_d", "F_e", "F_f"};
    static const char *const two[BWI_JOHANSEN_MODES] = {"F_g", "F_h", "",
                                                        "F_j", "",    "F_k"};
    static const char *const words[BWI_JOHANSEN_MODES] = {
        "the fastened log crushed",     "the holding log crushed",
        "both crushed, it turns",       "it bends in the holding log",
        "it bends in the fastened log", "it bends in both"};
    double mode[BWI_JOHANSEN_MODES];

    bwi_johansen_modes(d, planes, mode);
    for (int k = 0; k < BWI_JOHANSEN_MODES; k++) {
        if (!isinf(mode[k])) {
            bwi_record_from(working, &(bw_term){planes == 2 ? two[k] : one[k], words[k],
                                                mode[k], BW_FORCE, BW_MARK_MEMORY,
                                                planes == 2 ? "EN 1995-1-1:2004, (8.7)"
                                                            : "EN 1995-1-1:2004, (8.6)"});
        }
    }
    bwi_record(working, "F_v,Rk", "the least, per plane of shear",
               bwi_johansen_least(mode), BW_FORCE);
}

static bw_ratio joint_ratio(const bw_check_input *in, bw_working *working)
{
    const bw_joint *j = bwi_joint_of(in);
    const bw_fasteners *f = &j->fasteners;
    const bwi_johansen d = bwi_johansen_of(in);
    const bwi_placing placing = bwi_ec_placing(in);
    const double n_ef = effective_in_row(in) * f->rows;
    double mode[BWI_JOHANSEN_MODES];

    bwi_johansen_modes(&d, f->planes, mode);
    const double all = n_ef * f->planes * bwi_johansen_least(mode);
    const bool no_rule = j->end_grain || f->toe; /* 8.3.2 asks more of slant nails */
    const double allowed = no_rule ? (double)NAN : design(in, all);
    bwi_record_fasteners(working, in);
    bwi_record(working, "F_v,Ed", "design force on all of them, sideways", in->force,
               BW_FORCE);
    if (working != NULL) {
        record_fastener(working, in, &d);
        record_modes(working, &d, f->planes);
    }
    bwi_record_number(working, "n_ef", "those that count; all across the grain", n_ef,
                      BW_MARK_MEMORY, "EN 1995-1-1:2004, (8.34)");
    record_design(working, in);
    bwi_record(working, "F_v,Rd",
               no_rule ? "no rule in end grain or aslant" : "design value of all of them",
               allowed, BW_FORCE);
    bwi_record_shortfall(working, placing.shortfall,
                         "EN 1995-1-1:2004, Tables 8.2 and 8.4");
    return bwi_ratio_placed(bwi_ratio_of(in->force, allowed), placing.shortfall);
}

const bw_check bwi_ec_joint = {
    .kind = BW_CHECK_JOINT,
    .id = "joint",
    .title = "Fasteners pushed sideways",
    .formula = "F_v,Ed <= k_mod n_ef F_v,Rk / gamma_M, F_v,Rk the least of the modes",
    .source = "EN 1995-1-1:2004+A1, 8.2 and 8.5 to 8.7",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_FORCE,
    .ratio = joint_ratio,
};

/* ---- the wood beside them ---- */

double bwi_ec_splitting(double width, double depth, double edge)
{
    const double mm = bw_unit_size(BW_LENGTH, "mm");
    const double b = bwi_positive(width) / mm, h = bwi_positive(depth) / mm,
                 h_e = bwi_positive(edge) / mm;

    return h_e <= h ? 14.0 * b * sqrt(h_e / (1.0 - h_e / h)) : (double)NAN;
}

static bw_ratio split_ratio(const bw_check_input *in, bw_working *working)
{
    const double width = bwi_positive(in->section.area) / bwi_positive(in->notch_left);
    const double F = bwi_ec_splitting(width, in->notch_whole, in->notch_left);
    const double allowed = design(in, F);

    bwi_record(working, "F_v,Ed", "design force that the joint hands over", in->force,
               BW_FORCE);
    bwi_record(working, "h", "depth of the log", in->notch_whole, BW_LENGTH);
    bwi_record(working, "h_e", "loaded edge to the farthest fastener", in->notch_left,
               BW_LENGTH);
    bwi_record(working, "b", "mean width of that part", width, BW_LENGTH);
    bwi_record_from(working,
                    &(bw_term){"F_90,Rk", "14 b sqrt(h_e / (1 - h_e / h)), in N and mm",
                               F, BW_FORCE, BW_MARK_MEMORY, "EN 1995-1-1:2004, (8.4)"});
    record_design(working, in);
    bwi_record(working, "F_90,Rd", "design splitting force", allowed, BW_FORCE);
    return bwi_ratio_of(in->force, allowed);
}

const bw_check bwi_ec_split = {
    .kind = BW_CHECK_SPLIT,
    .id = "split",
    .title = "Splitting where the log hangs",
    .formula = "F_v,Ed <= F_90,Rd = k_mod 14 b sqrt(h_e / (1 - h_e/h)) / gamma_M",
    .source = "EN 1995-1-1:2004, 8.1.4",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_FORCE,
    .ratio = split_ratio,
};

/* ---- drawn out ---- */

static const double helps = 0.9; /* EN 1990, Table A1.2(A), MEMORY */

static bw_ratio lift_ratio(const bw_check_input *in, bw_working *working)
{
    const bw_fasteners *f = &bwi_joint_of(in)->fasteners;
    const double n = f->count >= 1 ? pow(f->count, 0.9) : (double)NAN;
    const double U = bwi_joint_lift(in, helps), one = bwi_ec_axial(in);
    const double allowed = design(in, n * one);
    const bwi_placing placing = bwi_ec_placing(in);

    bwi_record_fasteners(working, in);
    bwi_record(working, "T_d", "lift of the loads that come and go", in->pull, BW_FORCE);
    bwi_record(working, "G", "weight that stays on the joint, down positive",
               in->foot_dead, BW_FORCE);
    bwi_record_number(working, "0.9", "share of the weight that counts", helps,
                      BW_MARK_MEMORY, "EN 1990:2002, Table A1.2(A)");
    bwi_record(working, "F_ax,Ed", "drawn out, T_d - 0.9 G", U, BW_FORCE);
    bwi_record_from(working,
                    &(bw_term){"F_ax,Rk", "one of them: thread, or head on the wood", one,
                               BW_FORCE, BW_MARK_MEMORY,
                               "EN 1995-1-1:2004, (8.25), (8.39) and 8.5.2"});
    bwi_record_number(working, "n_ef", "those that count, n^0.9", n, BW_MARK_MEMORY,
                      "EN 1995-1-1:2004, (8.41)");
    record_design(working, in);
    bwi_record(working, "F_ax,Rd", "design value of all of them", allowed, BW_FORCE);
    bwi_record_shortfall(working, placing.shortfall,
                         "EN 1995-1-1:2004, Tables 8.2 and 8.4");
    return bwi_ratio_placed(bwi_ratio_of(U, allowed), placing.shortfall);
}

const bw_check bwi_ec_lift = {
    .kind = BW_CHECK_LIFT,
    .id = "lift",
    .title = "Fasteners drawn out",
    .formula = "T_d - 0.9 G <= k_mod n^0.9 F_ax,Rk / gamma_M",
    .source = "EN 1995-1-1:2004+A1, 8.3.2, 8.5.2 and 8.7.2",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_FORCE,
    .ratio = lift_ratio,
};
