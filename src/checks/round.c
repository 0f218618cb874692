/* round.c - sections of logs, whole or cut, and the diameter that stands for a tapered
 * post.
 *
 * Ends held against sway (K <= 1): D = sqrt(D_small D_large), exact for a straight taper
 * with both ends free to turn and for one fixed and one free to turn, cautious for both
 * fixed. Sway (K > 1): ANSI/AWC NDS 2018, 3.7.2 (MEMORY) with a = 0.30, as if the foot
 * were the small end, and with no more taper counted than D_large = 4/3 D_small: within
 * that, the rule stays below the exact buckling load, beyond it it does not.
 * tests/checks/test_column.c compares all of them with integrated buckling loads. */
#include "round.h"

#include "record.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

double bwi_circle_area(double diameter)
{
    const double D = bwi_positive(diameter);

    return pi * D * D / 4.0;
}

double bwi_circle_modulus(double diameter)
{
    const double D = bwi_positive(diameter);

    return pi * D * D * D / 32.0;
}

double bwi_taper_rule(double small, double large, double a)
{
    const double d_min = bwi_positive(small);
    const double d_max = bwi_positive(large);

    return d_min + (d_max - d_min) * (a - 0.15 * (1.0 - d_min / d_max));
}

double bwi_column_diameter(double small, double large, double effective_factor)
{
    const double d_min = bwi_positive(bwi_smaller(small, large));
    const double d_max = bwi_positive(bwi_larger(small, large));

    if (bwi_positive(effective_factor) <= 1.0) {
        return sqrt(d_min * d_max);
    }
    return bwi_taper_rule(d_min, bwi_smaller(d_max, 4.0 / 3.0 * d_min), 0.30);
}

/* ---- the section of an input ---- */

bool bwi_is_circle(const bw_check_input *in)
{
    return in->section.area == 0.0;
}

double bwi_section_area(const bw_check_input *in)
{
    return bwi_is_circle(in) ? bwi_circle_area(in->diameter)
                             : bwi_positive(in->section.area);
}

double bwi_section_modulus(const bw_check_input *in)
{
    return bwi_is_circle(in) ? bwi_circle_modulus(in->diameter)
                             : bwi_positive(in->section.modulus);
}

double bwi_section_shear_factor(const bw_check_input *in)
{
    return bwi_is_circle(in) ? 4.0 / (3.0 * bwi_positive(bwi_circle_area(in->diameter)))
                             : bwi_positive(in->section.shear_factor);
}

void bwi_record_section(bw_working *working, const bw_check_input *in)
{
    if (working == NULL) {
        return;
    }
    if (in->section.sawn) {
        bwi_record(working, "b", "width of one board", in->section.width, BW_LENGTH);
    } else {
        bwi_record(working, "D", "diameter at the place", in->diameter, BW_LENGTH);
    }
    if (!bwi_is_circle(in)) {
        bwi_record(working, "h",
                   in->section.words != NULL ? in->section.words : "depth that is left",
                   in->section.depth, BW_LENGTH);
    }
}

double bwi_form_factor(const bw_check_input *in)
{
    static const double of_round_timber = 1.18;

    return bwi_is_circle(in) || in->section.round_form || in->section.sawn
               ? 1.0
               : 1.0 / of_round_timber;
}
