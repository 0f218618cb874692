/* bearing.c - bearing across the grain.
 *
 *   sigma_c,90,d = F_d / A_ef <= k_c,90 f_c,90,d,   A_ef = A l_ef / l
 *
 * 6.1.5 (30 mm and k_c,90 = 1.5 READ in a public summary sheet). The contact length along
 * the grain spreads only to the sides where the input says that wood goes on, and k_c,90
 * stays 1: a wheel may stand right over the contact, so there is no distance to the next
 * one to count on. A negative force lifts; it is no bearing, and this check cannot say.
 */
#include "eurocode.h"

static double contact_length(const bw_check_input *in)
{
    /* inside means 3 in at least: more than the 30 mm that count */
    const double inside = in->bearing_inside ? 3.0 * bw_unit_size(BW_LENGTH, "in") : 0.0;

    return bwi_ec_contact_length(
        in->bearing_length, inside,
        bwi_larger(bwi_not_negative(in->bearing_beyond), inside));
}

static bool spreads(const bw_check_input *in)
{
    return in->bearing_inside || in->bearing_beyond != 0.0;
}

static double effective_area(const bw_check_input *in)
{
    const double area = bwi_positive(in->bearing_area);

    return spreads(in) ? area * contact_length(in) / bwi_positive(in->bearing_length)
                       : area;
}

static bw_ratio bearing_ratio(const bw_check_input *in, bw_working *working)
{
    static const double k_c90 = 1.0;
    const double area = effective_area(in);
    const double stress = in->force / bwi_positive(area);
    const double allowed = k_c90 * bwi_ec_design(in, BW_BEARING);

    bwi_record(working, "F_d", "design force across the grain", in->force, BW_FORCE);
    bwi_record(working, "A", "contact area", in->bearing_area, BW_AREA);
    if (spreads(in)) {
        bwi_record(working, "l", "contact length along the grain", in->bearing_length,
                   BW_LENGTH);
        bwi_record_from(working,
                        &(bw_term){"l_ef", "with up to 30 mm more where wood goes on",
                                   contact_length(in), BW_LENGTH, BW_MARK_READ,
                                   "EN 1995-1-1:2004+A1, 6.1.5 (1)"});
    }
    bwi_record(working, "A_ef",
               spreads(in) ? "effective contact area, A l_ef / l"
                           : "effective contact area: no spread, too little is known",
               area, BW_AREA);
    bwi_record(working, "sigma_c,90,d", "bearing stress, F_d / A_ef", stress, BW_STRESS);
    bwi_record_number(working, "k_c,90", "1: a wheel may stand right over the contact",
                      k_c90, BW_MARK_JUDGEMENT,
                      "the least of EN 1995-1-1:2004+A1, 6.1.5 (2)");
    bwi_ec_record_design(working, in, BW_BEARING);
    return bwi_ratio_of(stress, allowed);
}

const bw_check bwi_ec_bearing = {
    .kind = BW_CHECK_BEARING,
    .id = "bearing",
    .title = "Bearing across the grain",
    .formula = "sigma_c,90,d = F_d / A_ef <= k_c,90 f_c,90,d",
    .source = "EN 1995-1-1:2004+A1, 6.1.5",
    .mark = BW_MARK_READ,
    .quantity = BW_STRESS,
    .ratio = bearing_ratio,
};
