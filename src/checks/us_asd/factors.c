/* factors.c - sections of round timber and the adjustment factors of ANSI/AWC NDS 2018.
 *
 *   C_D  Table 2.3.2 (values READ in public listings): at most 2.0
 *   C_F  6.3.7 (MEMORY; the 13.5 in basis is READ in ASTM D2899-03, which makes it the
 * circle of the area of a 12 in square): (12 in / side)^(1/9), side of the square of
 * equal area
 *   C_b  3.10.4 (formula READ): (l_b + 0.375 in) / l_b for l_b < 6 in, not near an end;
 *        here no more than 6 in / l_b besides, else a contact of 5.9 in would carry more
 *        than one of 6 in (JUDGEMENT; the lengths of Table 3.10.4 are not touched)
 *
 *   C_f  shape of the section: F_b of round timber holds a form factor of 1.18 (ASTM
 *        D2899-03: C_fs = 1.18 x 0.82, COMPUTED), which only a section that is still
 *        round has; ASTM D3957 keeps a round timber beam with one flat round up to a
 *        depth of 0.3 R (MEMORY)
 *
 * The wet service factor is 1 because reference values of poles are for wet use (6.3.3),
 * and no form factor of round sections is applied: the values come from round timber. */
#include "us_asd.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

/* Lengths that the standard gives in inches. */
static double inches(double count)
{
    return count * bw_inch;
}

double bwi_load_duration(const bw_check_input *in)
{
    static const double largest = 2.0; /* impact, NDS Table 2.3.2 */

    return in->load_duration <= largest ? bwi_positive(in->load_duration) : (double)NAN;
}

void bwi_record_load_duration(bw_working *working, const bw_check_input *in)
{
    if (working == NULL) {
        return;
    }
    bwi_record_number(working, "C_D", "load duration factor", bwi_load_duration(in),
                      BW_MARK_READ, "ANSI/AWC NDS 2018, Table 2.3.2");
}

double bwi_size_factor(double diameter)
{
    const double D = bwi_positive(diameter);
    const double side = sqrt(pi) / 2.0 * D; /* of the square of equal area */

    if (D <= inches(13.5)) {
        return 1.0;
    }
    /* 13.5 in is rounded down, so just above it the power would exceed 1 */
    return bwi_smaller(1.0, pow(inches(12.0) / side, 1.0 / 9.0));
}

double bwi_bending_stress(const bw_check_input *in)
{
    return fabs(in->moment) / bwi_positive(bwi_section_modulus(in));
}

/* The reference value of a sawn board knows its size. */
static double size_factor_of(const bw_check_input *in)
{
    return in->section.sawn ? 1.0 : bwi_size_factor(in->diameter);
}

double bwi_bending_allowed(const bw_check_input *in)
{
    return bwi_reference_value(in, BW_BENDING_STRENGTH) * bwi_load_duration(in) *
           size_factor_of(in) * bwi_form_factor(in);
}

/* Size and form; neither for a sawn board. */
static void record_shape(bw_working *working, const bw_check_input *in)
{
    if (in->section.sawn) {
        return;
    }
    bwi_record_number(working, "C_F",
                      "size factor, (12 in / side)^(1/9) above 13.5 in, else 1",
                      size_factor_of(in), BW_MARK_MEMORY,
                      "ANSI/AWC NDS 2018, 6.3.7; basis in ASTM D2899-03");
    if (!bwi_is_circle(in)) {
        bwi_record_number(working, "C_f",
                          in->section.round_form
                              ? "form factor: shallow flats, bends like a round log"
                              : "form factor of round timber taken back, 1 / 1.18",
                          bwi_form_factor(in), BW_MARK_MEMORY,
                          "ASTM D2899-03 and D3957: 1.18 within F_b, flats to 0.3 R");
    }
}

void bwi_record_bending(bw_working *working, const bw_check_input *in)
{
    if (working == NULL) {
        return;
    }
    bwi_record_section(working, in);
    bwi_record(working, "M", "bending moment", fabs(in->moment), BW_MOMENT);
    bwi_record(working, "S",
               bwi_is_circle(in) ? "section modulus, pi D^3 / 32"
                                 : "smaller section modulus of what is left",
               bwi_section_modulus(in), BW_SECTION_MODULUS);
    bwi_record(working, "f_b", "bending stress, M / S", bwi_bending_stress(in),
               BW_STRESS);
    bwi_record_reference(working, in, BW_BENDING_STRENGTH);
    bwi_record_load_duration(working, in);
    record_shape(working, in);
    bwi_record(working, "F_b'",
               bwi_is_circle(in)  ? "allowed bending stress, F_b C_D C_F"
               : in->section.sawn ? "allowed bending stress, F_b C_D"
                                  : "allowed bending stress, F_b C_D C_F C_f",
               bwi_bending_allowed(in), BW_STRESS);
}

double bwi_bearing_factor(double length)
{
    static const double most = 1.75; /* last row of Table 3.10.4, l_b = 1/2 in (MEMORY) */
    const double l_b = bwi_positive(length);

    if (l_b >= inches(6.0)) {
        return 1.0;
    }
    const double counted = bwi_smaller(l_b + inches(0.375), inches(6.0));
    return bwi_smaller(most, counted / l_b);
}
