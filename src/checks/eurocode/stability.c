/* stability.c - stability of a round, tapered post.
 *
 *   lambda_rel = lambda / pi sqrt(f_c,0,k / E_0,05),   lambda = l_e / i,   i = D / 4
 *   k = 0.5 (1 + 0.2 (lambda_rel - 0.3) + lambda_rel^2)
 *   k_c = 1 / (k + sqrt(k^2 - lambda_rel^2)),   1 up to lambda_rel = 0.3
 *   sigma_c <= k_c f_c,0,d;   sigma_c at the small end <= f_c,0,d
 *
 * 6.3.2 (6.21) to (6.29), beta_c = 0.2 (READ in a public text). D stands for the taper:
 * see round.c. EN 1995-1-1 has no largest slenderness; the l_e/d = 50 of ANSI/AWC NDS
 * 2018 is kept as lambda = 50 sqrt(12) = 173, because beyond it nobody has tried the
 * formula on logs (JUDGEMENT). The effective length factor is that of the deck: the
 * recommended ones of NDS Appendix G, which are not below those of EN 1995. */
#include "eurocode.h"

#include <math.h>

static const double pi = 3.14159265358979323846;
static const double slenderness_limit = 173.2;

double bwi_ec_relative_slenderness(double slenderness, double compression,
                                   double modulus_05)
{
    return bwi_positive(slenderness) / pi *
           sqrt(bwi_positive(compression) / bwi_positive(modulus_05));
}

double bwi_ec_stability_factor(double relative_slenderness)
{
    static const double straightness = 0.2; /* beta_c */
    const double l = bwi_not_negative(relative_slenderness);
    const double k = 0.5 * (1.0 + straightness * (l - 0.3) + l * l);

    return l <= 0.3 ? 1.0 : 1.0 / (k + sqrt(k * k - l * l));
}

bool bwi_ec_too_slender(const bwi_ec_column *column)
{
    return column->slenderness > slenderness_limit * (1.0 + 1e-9);
}

static double column_utilisation(const bwi_ec_column *column)
{
    const double stable = bwi_ratio_of(column->stress, column->allowed).utilisation;
    const double end = bwi_ratio_of(column->stress_small, column->strength).utilisation;
    const double worst = bwi_larger(stable, end);

    if (bwi_ec_too_slender(column)) {
        return bwi_larger(worst, column->slenderness / slenderness_limit);
    }
    return worst;
}

/* The stocky part: what stands for the post, and the least area anywhere. */
static double shape(const bw_check_input *in, bwi_ec_column *col)
{
    if (in->weakest.area != 0.0) {
        col->area = bwi_positive(in->weakest.area);
        col->radius = sqrt(bwi_positive(in->weakest.second_moment) / col->area);
        return col->area;
    }
    col->small = bwi_smaller(in->diameter_small, in->diameter_large);
    col->large = bwi_larger(in->diameter_small, in->diameter_large);
    col->diameter = bwi_column_diameter(col->small, col->large, in->effective_factor);
    col->area = bwi_circle_area(col->diameter);
    col->radius = col->diameter / 4.0;
    return bwi_circle_area(col->small);
}

bwi_ec_column bwi_ec_column_of(const bw_check_input *in, double compression)
{
    bwi_ec_column col = {0};
    const double least_area = shape(in, &col);

    col.effective_length = bwi_positive(in->effective_factor) * bwi_positive(in->length);
    col.slenderness = col.effective_length / bwi_positive(col.radius);
    col.relative = bwi_ec_relative_slenderness(col.slenderness,
                                               bwi_reference_value(in, BW_COMPRESSION),
                                               bwi_reference_value(in, BW_MODULUS_MIN));
    col.factor = bwi_ec_stability_factor(col.relative);
    col.strength = bwi_ec_design(in, BW_COMPRESSION);
    col.allowed = col.factor * col.strength;
    col.stress = compression / bwi_positive(col.area);
    col.stress_small = compression / bwi_positive(least_area);
    col.utilisation = column_utilisation(&col);
    return col;
}

static void record_shape(bw_working *working, const bw_check_input *in,
                         const bwi_ec_column *col)
{
    if (in->weakest.area != 0.0) {
        bwi_record(working, "A",
                   in->weakest.words != NULL ? in->weakest.words
                                             : "area of the weakest section",
                   col->area, BW_AREA);
    } else {
        const bool sways = in->effective_factor > 1.0;
        bwi_record(working, "D_small", "diameter of the small end", col->small,
                   BW_LENGTH);
        bwi_record(working, "D_large", "diameter of the large end", col->large,
                   BW_LENGTH);
        bwi_record_from(
            working,
            &(bw_term){"D_c",
                       sways ? "diameter that stands for the taper, swaying post"
                             : "diameter that stands for the taper, sqrt(D_small "
                               "D_large)",
                       col->diameter, BW_LENGTH,
                       sways ? BW_MARK_MEMORY : BW_MARK_COMPUTED,
                       sways ? "ANSI/AWC NDS 2018, 3.7.2, the cautious end condition"
                             : "elastic buckling of a straight tapered round column"});
    }
    bwi_record(working, "i", "radius of gyration; D_c / 4 of a round post", col->radius,
               BW_LENGTH);
}

static void record_slenderness(bw_working *working, const bw_check_input *in,
                               const bwi_ec_column *col)
{
    if (working == NULL) {
        return;
    }
    bwi_record(working, "l", "unsupported length", in->length, BW_LENGTH);
    bwi_record_number(working, "K_e", "effective length factor", in->effective_factor,
                      BW_MARK_MEMORY, "ANSI/AWC NDS 2018, Appendix G");
    bwi_record(working, "l_e", "effective length, K_e l", col->effective_length,
               BW_LENGTH);
    bwi_record(working, "lambda", "slenderness, l_e / i", col->slenderness, BW_NUMBER);
    bwi_record_number(working, "lambda_max", "largest slenderness taken",
                      slenderness_limit, BW_MARK_JUDGEMENT,
                      "ANSI/AWC NDS 2018, 3.7.1.4; EN 1995-1-1 sets none");
}

void bwi_ec_record_column(bw_working *working, const bw_check_input *in,
                          const bwi_ec_column *col)
{
    record_shape(working, in, col);
    record_slenderness(working, in, col);
    bwi_ec_record_design(working, in, BW_COMPRESSION);
    bwi_record_reference_as(working, in, BW_MODULUS_MIN, "E_0,05",
                            "5 % modulus of elasticity");
    bwi_record_from(working,
                    &(bw_term){"lambda_rel",
                               "relative slenderness, lambda / pi sqrt(f_c,0,k / E_0,05)",
                               col->relative, BW_NUMBER, BW_MARK_READ,
                               "EN 1995-1-1:2004, (6.21)"});
    bwi_record_number(working, "k_c", "stability factor, beta_c = 0.2", col->factor,
                      BW_MARK_READ, "EN 1995-1-1:2004, (6.25) to (6.29)");
    bwi_record(working, "k_c f_c,0,d", "design compression of the post", col->allowed,
               BW_STRESS);
    bwi_record(working, "sigma_c,d", "compression on what stands for the post",
               col->stress, BW_STRESS);
    bwi_record(working, "sigma_c,small", "compression at the small end",
               col->stress_small, BW_STRESS);
}
