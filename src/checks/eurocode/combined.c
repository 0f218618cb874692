/* combined.c - bending with axial force in a log.
 *
 *   lambda_rel > 0.3:  u_c + sigma_m,d / f_m,d <= 1                     (6.23)
 *   lambda_rel <= 0.3: u_c^2 + sigma_m,d / f_m,d <= 1                   (6.19)
 *   tension:           sigma_t,d / f_t,0,d + sigma_m,d / f_m,d <= 1     (6.17)
 *
 * READ in a public text; k_m = 1, one bending moment in a round log. u_c is the
 * utilisation of the compression check, never less than sigma_c,d / (k_c f_c,0,d): it
 * holds the small end and the slenderness limit too. Bending that grows with the axial
 * force is in k_c (6.3.2); the deck adds none. f_t,0,k = 0.5 f_m,k: below every class of
 * EN 338:2016, where it is 0.51 to 0.67 (COMPUTED). */
#include "eurocode.h"

#include <math.h>

static double bending_share(const bw_check_input *in)
{
    return bwi_ratio_of(bwi_ec_bending_stress(in), bwi_ec_bending_strength(in))
        .utilisation;
}

static double with_compression(const bw_check_input *in, bw_working *working)
{
    const bwi_ec_column col = bwi_ec_column_of(in, in->axial);
    const bool is_slender = !(col.relative <= 0.3);
    const double u_c = col.utilisation;

    bwi_ec_record_column(working, in, &col);
    bwi_record(working, "u_c",
               "the worst of sigma_c,d / (k_c f_c,0,d), of the small end and too slender",
               u_c, BW_NUMBER);
    return (is_slender ? u_c : u_c * u_c) + bending_share(in);
}

static double with_tension(const bw_check_input *in, bw_working *working)
{
    static const double tension_share = 0.5;
    const double stress = -in->axial / bwi_positive(bwi_section_area(in));
    const double allowed = tension_share * bwi_ec_bending_strength(in);

    bwi_record(working, "A", "area", bwi_section_area(in), BW_AREA);
    bwi_record(working, "sigma_t,d", "tension, -N_d / A", stress, BW_STRESS);
    bwi_record_number(working, "f_t/f_m", "tension strength as a share of bending",
                      tension_share, BW_MARK_JUDGEMENT,
                      "below every class of EN 338:2016");
    bwi_record(working, "f_t,0,d", "design tension strength, 0.5 f_m,d", allowed,
               BW_STRESS);
    return bwi_ratio_of(stress, allowed).utilisation + bending_share(in);
}

static bw_ratio combined_ratio(const bw_check_input *in, bw_working *working)
{
    double unity = (double)NAN;

    bwi_record(working, "N_d", "design axial force, compression positive", in->axial,
               BW_FORCE);
    bwi_ec_record_bending(working, in);
    if (in->axial > 0.0) {
        unity = with_compression(in, working);
    } else if (in->axial <= 0.0) {
        unity = with_tension(in, working);
    }
    bwi_record(working, "u", "sum of both shares", unity, BW_NUMBER);
    return bwi_ratio_of(unity, 1.0);
}

const bw_check bwi_ec_combined = {
    .kind = BW_CHECK_COMBINED,
    .id = "combined",
    .title = "Bending with axial force",
    .formula = "compression: u_c + sigma_m,d / f_m,d <= 1 (u_c^2 if lambda_rel <= 0.3); "
               "tension: sigma_t,d / f_t,0,d + sigma_m,d / f_m,d <= 1",
    .source = "EN 1995-1-1:2004, (6.17), (6.19) and (6.23)",
    .mark = BW_MARK_READ,
    .quantity = BW_NUMBER,
    .ratio = combined_ratio,
};
