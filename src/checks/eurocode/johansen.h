/* johansen.h - dowel-type fasteners in timber, EN 1995-1-1 section 8 (MEMORY throughout).
 *
 * SI. Every function gives NaN for input that makes no sense. */
#ifndef BW_CHECKS_JOHANSEN_H
#define BW_CHECKS_JOHANSEN_H

#include "../fasteners.h"

/* One fastener in two planes or one. */
typedef struct {
    double diameter;                   /* [m] effective d */
    double side_length, main_length;   /* [m] t_1, t_2 */
    double side_bearing, main_bearing; /* [Pa] f_h,1,k, f_h,2,k */
    double yield_moment;               /* [N*m] M_y,Rk */
    double withdrawal;                 /* [N] F_ax,Rk; 0: not counted */
    double rope_share;                 /* most that a quarter of it may add */
} bwi_johansen;
enum { BWI_JOHANSEN_MODES = 6 };
/* F_v,Rk per plane of shear of every mode [N]: (a) to (f) of (8.6); with two planes (g),
 * (h), (j) and (k) of (8.7), the other two infinite. */
void bwi_johansen_modes(const bwi_johansen *d, int planes,
                        double mode[BWI_JOHANSEN_MODES]);
double bwi_johansen_least(const double mode[BWI_JOHANSEN_MODES]);

/* rho_k [kg/m3] of a log: of its class, or from its specific gravity. */
double bwi_ec_density(const bw_joint_log *log);
/* f_h,k [Pa] of bolts and of all that is thicker than 6 mm, at the angle to the grain;
 * thinner ones as nails, whatever the angle. */
double bwi_ec_bearing_strength(double density, double diameter, double angle,
                               bw_wood_group group);
double bwi_ec_yield_moment(double strength, double diameter); /* 0.3 f_u d^2.6 */
/* Those of n in a row that count, the force at the angle to the grain. */
double bwi_ec_effective_number(double n, double spacing, double diameter, double angle);

/* f_ax,k d of a screw per length [N/m], and the least strength of the head [N]. */
double bwi_ec_screw_withdrawal(double density, double diameter, double length);

/* The fastener of an input. */
bwi_johansen bwi_johansen_of(const bw_check_input *in);
/* What one holds along its length [N], characteristic; NaN where there is no rule. */
double bwi_ec_axial(const bw_check_input *in);
bwi_placing bwi_ec_placing(const bw_check_input *in);

/* F_90,Rk = 14 b sqrt(h_e / (1 - h_e / h)), (8.4) [N]; infinite for h_e = h. */
double bwi_ec_splitting(double width, double depth, double edge);

#endif
