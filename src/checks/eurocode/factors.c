/* factors.c - design values and sections.
 *
 *   f_d = k_mod f_k / gamma_M                                     (2.14)
 *
 * gamma_M = 1.3 for solid timber (READ in a public summary); k_mod of service class 3:
 * 0.50 permanent to 0.90 instantaneous (Table 3.1, READ in the ICE manual). k_h of 3.2
 * (3) is for sawn rectangles below 150 mm: tests of round timber showed no such gain
 * (MEMORY), so logs go without. */
#include "eurocode.h"

#include <math.h>

const double bwi_ec_gamma_m = 1.3;

double bwi_ec_modification(const bw_check_input *in)
{
    static const double largest = 0.90; /* instantaneous, service class 3 */

    return in->load_duration <= largest ? bwi_positive(in->load_duration) : (double)NAN;
}

double bwi_ec_design(const bw_check_input *in, bw_property property)
{
    return bwi_ec_modification(in) * bwi_reference_value(in, property) / bwi_ec_gamma_m;
}

void bwi_ec_record_design(bw_working *working, const bw_check_input *in,
                          bw_property property)
{
    static const struct {
        const char *symbol, *meaning, *design, *design_meaning;
    } names[BW_PROPERTY_COUNT] = {
        [BW_BENDING_STRENGTH] = {"f_m,k", "characteristic bending strength", "f_m,d",
                                 "design bending strength, k_mod f_m,k / gamma_M"},
        [BW_SHEAR_STRENGTH] = {"f_v,k", "characteristic shear strength along the grain",
                               "f_v,d", "design shear strength, k_mod f_v,k / gamma_M"},
        [BW_COMPRESSION] = {"f_c,0,k", "characteristic compression along the grain",
                            "f_c,0,d", "design compression, k_mod f_c,0,k / gamma_M"},
        [BW_BEARING] = {"f_c,90,k", "characteristic compression across the grain",
                        "f_c,90,d", "design compression, k_mod f_c,90,k / gamma_M"},
    };

    bwi_record_reference_as(working, in, property, names[property].symbol,
                            names[property].meaning);
    bwi_record_number(
        working, "k_mod", "duration of the shortest action and wetness, service class 3",
        bwi_ec_modification(in), BW_MARK_READ, "EN 1995-1-1:2004, Table 3.1");
    bwi_record_number(working, "gamma_M", "partial factor of solid timber",
                      bwi_ec_gamma_m, BW_MARK_READ, "EN 1995-1-1:2004, Table 2.3");
    bwi_record(working, names[property].design, names[property].design_meaning,
               bwi_ec_design(in, property), BW_STRESS);
}

/* k_h = min((150 mm / h)^0.2, 1.3) for h < 150 mm, rho_k <= 700 kg/m3 */
double bwi_ec_size_factor(double depth)
{
    static const double basis = 0.150, most = 1.3;
    const double h = bwi_positive(depth);

    return h >= basis ? 1.0 : bwi_smaller(most, pow(basis / h, 0.2));
}

/* ---- bending ---- */

double bwi_ec_bending_stress(const bw_check_input *in)
{
    return fabs(in->moment) / bwi_positive(bwi_section_modulus(in));
}

double bwi_ec_bending_strength(const bw_check_input *in)
{
    return bwi_ec_design(in, BW_BENDING_STRENGTH) * bwi_form_factor(in);
}

void bwi_ec_record_bending(bw_working *working, const bw_check_input *in)
{
    bwi_record_section(working, in);
    bwi_record(working, "M_d", "design bending moment", fabs(in->moment), BW_MOMENT);
    bwi_record(working, "W",
               bwi_is_circle(in) ? "section modulus, pi D^3 / 32"
                                 : "smaller section modulus of what is left",
               bwi_section_modulus(in), BW_SECTION_MODULUS);
    bwi_record(working, "sigma_m,d", "bending stress, M_d / W", bwi_ec_bending_stress(in),
               BW_STRESS);
    bwi_ec_record_design(working, in, BW_BENDING_STRENGTH);
    if (!bwi_is_circle(in) && !in->section.sawn) {
        bwi_record_number(working, "C_f",
                          in->section.round_form
                              ? "form factor: shallow flats, bends like a round log"
                              : "form factor of round timber taken back, 1 / 1.18",
                          bwi_form_factor(in), BW_MARK_MEMORY,
                          "ASTM D2899-03 and D3957: 1.18 within C_fs, flats to 0.3 R");
        bwi_record(working, "C_f f_m,d", "design bending strength of what is left",
                   bwi_ec_bending_strength(in), BW_STRESS);
    }
}
