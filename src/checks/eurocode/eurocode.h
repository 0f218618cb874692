/* eurocode.h - limit-state design of round timber: checks and the formulas they share.
 *
 * Values are SI. Every function gives NaN for input that makes no sense. Clauses without
 * a name are those of EN 1995-1-1:2004 with A1:2008; a line says what of them was READ,
 * the rest is recalled (MEMORY). Service class 3 throughout: logs in the open. */
#ifndef BW_CHECKS_EUROCODE_H
#define BW_CHECKS_EUROCODE_H

#include "../record.h"
#include "../round.h"

extern const bw_check bwi_ec_bending, bwi_ec_shear, bwi_ec_compression, bwi_ec_combined;
extern const bw_check bwi_ec_bearing, bwi_ec_end_bearing, bwi_ec_deflection, bwi_ec_sag;
extern const bw_check bwi_ec_buckling, bwi_ec_joint, bwi_ec_split, bwi_ec_lift;
extern const bw_check bwi_ec_angle;

/* ---- combinations.c ---- */

size_t bwi_ec_combinations(const bw_actions_present *present,
                           bw_combination out[BW_COMBINATIONS_MAX]);

/* ---- factors.c ---- */

/* k_mod as given; NaN unless 0 < k_mod <= 0.90, the largest of service class 3. */
double bwi_ec_modification(const bw_check_input *in);
extern const double bwi_ec_gamma_m; /* 1.3 */
/* k_mod f_k / gamma_M */
double bwi_ec_design(const bw_check_input *in, bw_property property);
/* The characteristic value, k_mod, gamma_M and the design value under its symbol. */
void bwi_ec_record_design(bw_working *working, const bw_check_input *in,
                          bw_property property);

/* k_h of 3.2 (3) for the depth of a sawn rectangle in bending; logs go without it. */
double bwi_ec_size_factor(double depth);

double bwi_ec_bending_stress(const bw_check_input *in); /* M / W */
/* f_m,d with the form factor of a section that is no longer round. */
double bwi_ec_bending_strength(const bw_check_input *in);
void bwi_ec_record_bending(bw_working *working, const bw_check_input *in);

/* ---- stability.c ---- */

/* lambda_rel of (6.21) from the slenderness l_e / i. */
double bwi_ec_relative_slenderness(double slenderness, double compression,
                                   double modulus_05);
/* k_c of (6.25) to (6.29), beta_c = 0.2 for solid timber. */
double bwi_ec_stability_factor(double relative_slenderness);

/* A post under compression, every intermediate of its check. */
typedef struct {
    double small, large;     /* [m] diameters of the ends; 0 where a section is given */
    double diameter;         /* [m] that stands for the tapered post; likewise */
    double area;             /* [m2] of it */
    double radius;           /* [m] radius of gyration, D / 4 */
    double effective_length; /* [m] */
    double slenderness;      /* lambda */
    double relative;         /* lambda_rel */
    double factor;           /* k_c */
    double strength;         /* f_c,0,d [Pa] */
    double allowed;          /* k_c f_c,0,d [Pa] */
    double stress;           /* sigma_c on what stands for the post [Pa] */
    double stress_small;     /* sigma_c at the small end [Pa] */
    double utilisation;      /* the worst of stability, small end and slenderness */
} bwi_ec_column;

/* The column of the input under the axial force (compression positive, 0 for none). */
bwi_ec_column bwi_ec_column_of(const bw_check_input *in, double compression);
bool bwi_ec_too_slender(const bwi_ec_column *column);
void bwi_ec_record_column(bw_working *working, const bw_check_input *in,
                          const bwi_ec_column *column);

/* ---- contact.c: bearing across the grain and at an angle ---- */

/* Contact length along the grain with its spread: up to 30 mm each side, not more than
 * the length itself nor than the wood that goes on beyond it (6.1.5 (1)). */
double bwi_ec_contact_length(double length, double before, double after);
/* k_c,90 of a piece on discrete supports: 1.5 for solid softwood with a clear distance of
 * at least twice its depth to the next contact, else 1 (6.1.5 (4)). */
double bwi_ec_support_factor(bw_wood_group group, double clear_distance, double depth);
/* Design strength for compression at the angle [rad] to the grain, (6.16). */
double bwi_ec_angle_strength(double along, double across, double angle);

/* ---- notch.c ---- */

/* A beam notched at its support on the tension side. */
typedef struct {
    double depth;       /* [m] h of the beam */
    double left;        /* [m] h_ef over the notch */
    double reach;       /* [m] x from the line of the reaction to the corner */
    double inclination; /* i of the notch's slope, 0 for a square cut */
} bwi_ec_notch;
double bwi_ec_notch_factor(const bwi_ec_notch *notch); /* k_v, (6.60) to (6.63) */

extern const bw_people_use bwi_ec_uses[];

/* ---- deflection.c ---- */

/* w_G (1 + k_def) + w_Q (1 + psi_2 k_def) */
double bwi_ec_final_deflection(double dead, double live, double creep, double share);

#endif
