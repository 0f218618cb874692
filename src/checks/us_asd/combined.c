/* combined.c - bending with axial force in a round section.
 *
 *   compression: (f_c / F_c')^2 + f_b / (F_b' (1 - f_c / F_cE)) <= 1
 *   tension:     f_t / F_t' + f_b / F_b' <= 1,   F_t' = F_t C_D,   F_t = 0.55 F_b
 *
 * ANSI/AWC NDS 2018, Eq. 3.9-3 and 3.9-1 (MEMORY); moments about both axes are one vector
 * in a round post, so there is one bending term. NDS chapter 6 has no F_t: 0.55 is the
 * ratio of ASTM D245 (MEMORY). In place of f_c / F_c' stands the utilisation of the
 * compression check, which is never less: it holds the small end and the slenderness
 * limit. */
#include "us_asd.h"

#include <math.h>

/* The amplification 1 / (1 - f_c / F_cE) ends at 1000, so that a post loaded beyond F_cE
 * still gives a finite number, which never falls as the load grows. It hides nothing: so
 * near F_cE the first term is above 1 by itself, since F_c' < F_cE. */
double bwi_interaction(double compression, double bending, double euler)
{
    static const double least_reserve = 1e-3;
    const double reserve = bwi_larger(least_reserve, 1.0 - bwi_not_negative(euler));

    return compression * compression + bending / reserve;
}

static double with_compression(const bw_check_input *in, bw_working *working)
{
    const bwi_column col = bwi_column_of(in, in->axial);
    const double bending = bwi_bending_stress(in) / bwi_positive(bwi_bending_allowed(in));
    const double euler = col.stress / bwi_positive(col.euler);

    bwi_record_column(working, in, &col);
    bwi_record(working, "u_c",
               "the worst of f_c / F_c', f_c,small / F_c* and too slender",
               col.utilisation, BW_NUMBER);
    bwi_record(working, "f_c/F_cE", "part of the buckling stress in use", euler,
               BW_NUMBER);
    return bwi_interaction(col.utilisation, bending, euler);
}

static double with_tension(const bw_check_input *in, bw_working *working)
{
    static const double tension_share = 0.55;
    const double A = bwi_section_area(in);
    const double f_t = -in->axial / bwi_positive(A);
    const double allowed = tension_share * bwi_reference_value(in, BW_BENDING_STRENGTH) *
                           bwi_load_duration(in);

    bwi_record(working, "A", bwi_is_circle(in) ? "area, pi D^2 / 4" : "area that is left",
               A, BW_AREA);
    bwi_record(working, "f_t", "tension, -N / A", f_t, BW_STRESS);
    bwi_record_number(working, "F_t/F_b",
                      "tension strength as a share of bending strength", tension_share,
                      BW_MARK_MEMORY, "ASTM D245; NDS chapter 6 gives no F_t");
    bwi_record(working, "F_t'", "allowed tension, 0.55 F_b C_D", allowed, BW_STRESS);
    return f_t / bwi_positive(allowed) +
           bwi_bending_stress(in) / bwi_positive(bwi_bending_allowed(in));
}

static bw_ratio combined_ratio(const bw_check_input *in, bw_working *working)
{
    double unity = (double)NAN;

    bwi_record(working, "N", "axial force, compression positive", in->axial, BW_FORCE);
    bwi_record_bending(working, in);
    if (in->axial > 0.0) {
        unity = with_compression(in, working);
    } else if (in->axial <= 0.0) {
        unity = with_tension(in, working);
    }
    bwi_record(working, "u", "sum of both shares", unity, BW_NUMBER);
    return bwi_ratio_of(unity, 1.0);
}

const bw_check bwi_us_combined = {
    .kind = BW_CHECK_COMBINED,
    .id = "combined",
    .title = "Bending with axial force",
    .formula = "compression: u_c^2 + f_b / (F_b' (1 - f_c / F_cE)) <= 1; "
               "tension: f_t / F_t' + f_b / F_b' <= 1",
    .source = "ANSI/AWC NDS 2018, Eq. 3.9-3 and 3.9-1",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_NUMBER,
    .ratio = combined_ratio,
};
