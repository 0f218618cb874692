/* dowel.h - one dowel in wood by the yield-limit equations, and what groups of them lose.
 *
 * ANSI/AWC NDS 2018, chapter 12 (formulas MEMORY; with these diameters and factors all
 * cells of the printed lag screw tables that were at hand are reproduced). SI. Every
 * function gives NaN for input that makes no sense. */
#ifndef BW_CHECKS_DOWEL_H
#define BW_CHECKS_DOWEL_H

#include "../fasteners.h"

/* F_e: bearing strength of wood under a dowel of the nominal diameter, the force at the
 * angle [rad] to the grain. */
double bwi_dowel_bearing(double gravity, double diameter, double angle);
/* F_yb: bending yield strength by kind and nominal diameter. */
double bwi_dowel_yield(bw_fastener_kind kind, double diameter);

/* R_d of the modes I, II, and III with IV. */
typedef struct {
    double crush, turn, bend;
} bwi_dowel_reduction;
bwi_dowel_reduction bwi_dowel_reduce(double nominal, double root, double angle);

typedef struct {
    double diameter;                   /* [m] that resists: the root */
    double side_length, main_length;   /* [m] l_s, l_m */
    double side_bearing, main_bearing; /* [Pa] F_es, F_em */
    double yield;                      /* [Pa] F_yb */
    bwi_dowel_reduction reduction;
} bwi_dowel;
typedef enum {
    BWI_MODE_I_M,
    BWI_MODE_I_S,
    BWI_MODE_II,
    BWI_MODE_III_M,
    BWI_MODE_III_S,
    BWI_MODE_IV,
    BWI_MODE_COUNT
} bwi_mode;
extern const char *const bwi_mode_symbol[BWI_MODE_COUNT]; /* "Z_IIIs" */
extern const char *const bwi_mode_words[BWI_MODE_COUNT];
/* Z of every mode [N]; with two planes of shear the modes II and III_m do not occur and
 * are infinite. */
void bwi_dowel_modes(const bwi_dowel *d, int planes, double mode[BWI_MODE_COUNT]);
double bwi_dowel_least(const double mode[BWI_MODE_COUNT]);

/* The dowel of a joint with the given penetration, forces at the angles of the input. */
bwi_dowel bwi_dowel_of(const bw_check_input *in, double penetration);
/* Z of one fastener [N]: not more than the equations give for its penetration, nor than
 * its share of what full penetration gives. */
double bwi_dowel_value(const bw_check_input *in);
double bwi_full_penetration(const bw_fasteners *f);  /* nothing is lost from there on */
double bwi_least_penetration(const bw_fasteners *f); /* below it nothing is allowed */

/* C_g of n fasteners in a row along the load, spaced s [m], between members of stiffness
 * E A [N], with the load-slip modulus of one [N/m]. */
double bwi_group_factor(double n, double spacing, double slip, const double stiffness[2]);
double bwi_load_slip(double diameter); /* of wood on wood: 180000 D^1.5 lb/in */

/* C_delta and the distances of a joint. */
bwi_placing bwi_us_placing(const bw_check_input *in);

/* C_M, sideways: wet in use; less where logs shrink between fasteners. */
double bwi_joint_wet(const bw_check_input *in);
/* C_D of connections: not beyond 1.6. */
double bwi_joint_duration(const bw_check_input *in);
double bwi_joint_end_grain(const bw_joint *j); /* C_eg, sideways */

/* W of one fastener over its thread [N], before C_M, C_D and C_eg. */
double bwi_withdrawal_per_length(const bw_fasteners *f, double gravity);
/* What the head holds before it is drawn through the side log [N]. */
double bwi_head_value(const bw_check_input *in);

#endif
