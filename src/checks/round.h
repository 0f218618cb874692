/* round.h - sections of logs and tapered round posts, whatever the basis.
 *
 * SI. Every function gives NaN for input that makes no sense. */
#ifndef BW_CHECKS_ROUND_H
#define BW_CHECKS_ROUND_H

#include "bolewright/checks.h"

double bwi_circle_area(double diameter);    /* [m2] */
double bwi_circle_modulus(double diameter); /* section modulus [m3] */

/* d_small + (d_large - d_small) (a - 0.15 (1 - d_small / d_large)) */
double bwi_taper_rule(double small, double large, double a);
/* The diameter that stands for a tapered post, for an effective length factor. */
double bwi_column_diameter(double small, double large, double effective_factor);

/* The section of the input: a full circle, or the numbers of another shape. */
bool bwi_is_circle(const bw_check_input *in);
double bwi_section_area(const bw_check_input *in);
double bwi_section_modulus(const bw_check_input *in);
double bwi_section_shear_factor(const bw_check_input *in); /* Q / (I b) [1/m2] */
/* Its diameter, and what became of it. */
void bwi_record_section(bw_working *working, const bw_check_input *in);

/* C_f: 1 for a section that bends like a round log and for a sawn board, whose values
 * hold no form factor; 1/1.18 for any other. */
double bwi_form_factor(const bw_check_input *in);

#endif
