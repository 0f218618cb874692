/* column.c - stability of a round, tapered post.
 *
 *   F_c' = F_c* C_P,   F_c* = F_c C_D
 *   C_P  = (1 + r) / (2 c) - sqrt(((1 + r) / (2 c))^2 - r / c),   r = F_cE / F_c*,  c =
 * 0.85 F_cE = 0.822 E_min / (l_e / d)^2,   l_e = K_e l,   l_e / d <= 50
 *
 * ANSI/AWC NDS 2018, 3.7.1 (equations and c READ in public texts). d = D sqrt(3) / 2 is
 * the square of the same radius of gyration; the square of the same area (3.7.3, 0.886 D)
 * would overrate the buckling load of a circle by pi / 3. D stands for the taper: ends
 * held against sway (K_e <= 1):  D = sqrt(D_small D_large), exact for a straight taper
 *     with both ends free to turn and for one fixed and one free to turn, cautious for
 * both fixed; sway (K_e > 1):  3.7.2 (MEMORY) with a = 0.30, as if the foot were the
 * small end, and with no more taper counted than D_large = 4/3 D_small: within that, the
 * rule stays below the exact buckling load, beyond it it does not.
 * tests/checks/test_column.c compares all of them with integrated buckling loads. The
 * small end carries F_c* at most, without C_P (3.7.2, MEMORY). */
#include "us_asd.h"

#include <math.h>

static const double slenderness_limit = 50.0; /* NDS 3.7.1.4 */

double bwi_column_euler(double modulus_min, double effective_length, double depth)
{
    const double slenderness = bwi_positive(effective_length) / bwi_positive(depth);

    return 0.822 * bwi_positive(modulus_min) / bwi_positive(slenderness * slenderness);
}

/* The smaller root of c C_P^2 - (1 + r) C_P + r = 0, written so that a stocky post (large
 * r) loses no digits. */
double bwi_column_factor(double euler, double crushing)
{
    static const double c = 0.85; /* round timber poles, NDS 3.7.1.5 */
    const double r = bwi_positive(euler) / bwi_positive(crushing);
    const double half = (1.0 + r) / (2.0 * c);

    return (r / c) / (half + sqrt(half * half - r / c));
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

bool bwi_column_too_slender(const bwi_column *column)
{
    return column->slenderness > slenderness_limit * (1.0 + 1e-9);
}

static double column_utilisation(const bwi_column *column)
{
    const double stable = bwi_ratio_of(column->stress, column->allowed).utilisation;
    const double end = bwi_ratio_of(column->stress_small, column->crushing).utilisation;
    const double worst = bwi_larger(stable, end);

    if (bwi_column_too_slender(column)) {
        return bwi_larger(worst, column->slenderness / slenderness_limit);
    }
    return worst;
}

bwi_column bwi_column_of(const bw_check_input *in, double compression)
{
    const double K_e = bwi_positive(in->effective_factor);
    bwi_column col = {.small = bwi_smaller(in->diameter_small, in->diameter_large),
                      .large = bwi_larger(in->diameter_small, in->diameter_large)};

    col.diameter = bwi_column_diameter(col.small, col.large, K_e);
    col.depth = sqrt(3.0) / 2.0 * col.diameter;
    col.effective_length = K_e * bwi_positive(in->length);
    col.slenderness = col.effective_length / bwi_positive(col.depth);
    col.crushing = bwi_reference_value(in, BW_COMPRESSION) * bwi_load_duration(in);
    col.euler = bwi_column_euler(bwi_reference_value(in, BW_MODULUS_MIN),
                                 col.effective_length, col.depth);
    col.factor = bwi_column_factor(col.euler, col.crushing);
    col.allowed = col.crushing * col.factor;
    col.stress = compression / bwi_positive(bwi_circle_area(col.diameter));
    col.stress_small = compression / bwi_positive(bwi_circle_area(col.small));
    col.utilisation = column_utilisation(&col);
    return col;
}

static void record_slenderness(bw_working *working, const bw_check_input *in,
                               const bwi_column *col)
{
    const bool sways = in->effective_factor > 1.0;

    bwi_record(working, "D_small", "diameter of the small end", col->small, BW_LENGTH);
    bwi_record(working, "D_large", "diameter of the large end", col->large, BW_LENGTH);
    bwi_record_from(
        working,
        &(bw_term){
            "D_c",
            sways ? "diameter that stands for the taper: 3.7.2 with a = 0.30, at most "
                    "D_large = 4/3 D_small counted"
                  : "diameter that stands for the taper, sqrt(D_small D_large)",
            col->diameter, BW_LENGTH, sways ? BW_MARK_MEMORY : BW_MARK_COMPUTED,
            sways ? "ANSI/AWC NDS 2018, 3.7.2, the cautious end condition"
                  : "elastic buckling of a straight tapered round column"});
    bwi_record_from(working, &(bw_term){"d", "depth for slenderness, 0.866 D_c",
                                        col->depth, BW_LENGTH, BW_MARK_COMPUTED,
                                        "ANSI/AWC NDS 2018, 3.7.1: r sqrt(12)"});
    bwi_record(working, "l", "unsupported length", in->length, BW_LENGTH);
    bwi_record_number(working, "K_e", "effective length factor", in->effective_factor,
                      BW_MARK_MEMORY, "ANSI/AWC NDS 2018, Appendix G");
    bwi_record(working, "l_e", "effective length, K_e l", col->effective_length,
               BW_LENGTH);
    bwi_record(working, "l_e/d", "slenderness", col->slenderness, BW_NUMBER);
    bwi_record_number(working, "(l_e/d)_max", "largest slenderness allowed",
                      slenderness_limit, BW_MARK_READ, "ANSI/AWC NDS 2018, 3.7.1.4");
}

static void record_stability(bw_working *working, const bw_check_input *in,
                             const bwi_column *col)
{
    bwi_record_reference(working, in, BW_COMPRESSION);
    bwi_record_load_duration(working, in);
    bwi_record(working, "F_c*", "compression along the grain before stability, F_c C_D",
               col->crushing, BW_STRESS);
    bwi_record_reference(working, in, BW_MODULUS_MIN);
    bwi_record_from(working,
                    &(bw_term){"F_cE", "buckling stress, 0.822 E_min / (l_e/d)^2",
                               col->euler, BW_STRESS, BW_MARK_READ,
                               "ANSI/AWC NDS 2018, 3.7.1.5"});
    bwi_record_number(working, "c", "shape constant of round poles", 0.85, BW_MARK_READ,
                      "ANSI/AWC NDS 2018, 3.7.1.5");
    bwi_record_number(working, "C_P", "column stability factor, from F_cE / F_c* and c",
                      col->factor, BW_MARK_READ, "ANSI/AWC NDS 2018, Eq. 3.7-1");
    bwi_record(working, "F_c'", "allowed compression, F_c* C_P", col->allowed, BW_STRESS);
}

void bwi_record_column(bw_working *working, const bw_check_input *in,
                       const bwi_column *col)
{
    record_slenderness(working, in, col);
    record_stability(working, in, col);
    bwi_record(working, "f_c", "compression on D_c, 4 N / (pi D_c^2)", col->stress,
               BW_STRESS);
    bwi_record(working, "f_c,small", "compression at the small end, 4 N / (pi D_small^2)",
               col->stress_small, BW_STRESS);
}
