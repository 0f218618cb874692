/* us_asd.h - allowable stress design of round timber: checks and the formulas they share.
 *
 * Values are SI. Every function gives NaN for input that makes no sense. Clause numbers
 * are those of ANSI/AWC NDS 2018; they are recalled (MEMORY) unless a line says READ. */
#ifndef BW_CHECKS_US_ASD_H
#define BW_CHECKS_US_ASD_H

#include "../record.h"
#include "../round.h"

extern const bw_check bwi_us_bending, bwi_us_shear, bwi_us_compression, bwi_us_combined;
extern const bw_check bwi_us_bearing, bwi_us_end_bearing, bwi_us_deflection, bwi_us_sag;
extern const bw_check bwi_us_joint, bwi_us_split, bwi_us_lift, bwi_us_angle;

/* F_th' from both allowed stresses, the angle [rad] to the grain (angle.c). */
double bwi_angle_stress(double along, double across, double angle);

/* ---- combinations.c ---- */

size_t bwi_us_combinations(const bw_actions_present *present,
                           bw_combination out[BW_COMBINATIONS_MAX]);

extern const bw_people_use bwi_us_uses[];

/* ---- factors.c ---- */

/* C_D as given; NaN unless 0 < C_D <= 2, the largest of NDS Table 2.3.2. */
double bwi_load_duration(const bw_check_input *in);
void bwi_record_load_duration(bw_working *working, const bw_check_input *in);

/* C_F of a round section, at most 1. */
double bwi_size_factor(double diameter);

/* F_b' = F_b C_D C_F C_f at the diameter of the input; M / S there. */
double bwi_bending_stress(const bw_check_input *in);
double bwi_bending_allowed(const bw_check_input *in);
void bwi_record_bending(bw_working *working, const bw_check_input *in);

/* C_b for bearing of the length along the grain, away from the ends of the piece. */
double bwi_bearing_factor(double length);

/* ---- column.c ---- */

/* F_cE = 0.822 E_min / (l_e / d)^2 */
double bwi_column_euler(double modulus_min, double effective_length, double depth);
/* C_P of a round pole (c = 0.85) from F_cE and F_c*; and of another shape, with its own
 * c. */
double bwi_column_factor(double euler, double crushing);
double bwi_column_factor_of(double euler, double crushing, double c);
/* A post under compression, every intermediate of its check. */
typedef struct {
    bool shaped;         /* not a full circle: the weakest section counts throughout */
    double small, large; /* [m] diameters of the ends */
    double diameter;     /* [m] that stands for the tapered post */
    double area, area_small; /* [m2] that f_c and f_c at the small end are taken on */
    double shape;            /* c of C_P */
    double depth;            /* [m] of the square with the same radius of gyration */
    double effective_length; /* [m] */
    double slenderness;      /* l_e / d */
    double crushing;         /* F_c* [Pa] */
    double euler;            /* F_cE [Pa] */
    double factor;           /* C_P */
    double allowed;          /* F_c' [Pa] */
    double stress;           /* f_c on the diameter that stands for the post [Pa] */
    double stress_small;     /* f_c at the small end [Pa] */
    double utilisation;      /* the worst of stability, small end and slenderness */
} bwi_column;

/* The column of the input under the axial force (compression positive, 0 for none). */
bwi_column bwi_column_of(const bw_check_input *in, double compression);
bool bwi_column_too_slender(const bwi_column *column);
void bwi_record_column(bw_working *working, const bw_check_input *in,
                       const bwi_column *column);

/* ---- combined.c ---- */

/* (f_c / F_c')^2 + f_b / (F_b' (1 - f_c / F_cE)), given f_c / F_c', f_b / F_b', f_c /
 * F_cE. */
double bwi_interaction(double compression, double bending, double euler);

#endif
