/* column.c - stability of a round, tapered post.
 *
 *   F_c' = F_c* C_P,   F_c* = F_c C_D
 *   C_P  = (1 + r) / (2 c) - sqrt(((1 + r) / (2 c))^2 - r / c),   r = F_cE / F_c*,  c =
 * 0.85 F_cE = 0.822 E_min / (l_e / d)^2,   l_e = K_e l,   l_e / d <= 50
 *
 * ANSI/AWC NDS 2018, 3.7.1 (equations and c READ in public texts). d = D sqrt(3) / 2 is
 * the square of the same radius of gyration; the square of the same area (3.7.3, 0.886 D)
 * would overrate the buckling load of a circle by pi / 3. D stands for the taper: see
 * round.c. The small end carries F_c* at most, without C_P (3.7.2, MEMORY). A post that
 * is not a full circle counts as thin as its weakest section from end to end, with d =
 * sqrt(12 I / A) about the weakest axis (3.7.1 for other shapes, READ), and with c = 0.8
 * of sawn timber if it is round no more. */
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
double bwi_column_factor_of(double euler, double crushing, double c)
{
    const double r = bwi_positive(euler) / bwi_positive(crushing);
    const double half = (1.0 + r) / (2.0 * c);

    return (r / c) / (half + sqrt(half * half - r / c));
}

/* Round timber poles, NDS 3.7.1.5; and sawn timber. */
static const double round_pole = 0.85, sawn = 0.80;

double bwi_column_factor(double euler, double crushing)
{
    return bwi_column_factor_of(euler, crushing, round_pole);
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

/* Sizes of a tapered full circle, or of the weakest section of any other post. */
static bwi_column column_sizes(const bw_check_input *in, double K_e)
{
    const bw_check_section *s = &in->weakest;
    bwi_column col = {.shaped = s->area != 0.0, .shape = round_pole};

    if (col.shaped) {
        col.area = col.area_small = bwi_positive(s->area);
        col.depth = sqrt(12.0 * bwi_positive(s->second_moment) / col.area);
        col.shape = s->round_form ? round_pole : sawn;
        return col;
    }
    col.small = bwi_smaller(in->diameter_small, in->diameter_large);
    col.large = bwi_larger(in->diameter_small, in->diameter_large);
    col.diameter = bwi_column_diameter(col.small, col.large, K_e);
    col.depth = sqrt(3.0) / 2.0 * col.diameter;
    col.area = bwi_circle_area(col.diameter);
    col.area_small = bwi_circle_area(col.small);
    return col;
}

bwi_column bwi_column_of(const bw_check_input *in, double compression)
{
    const double K_e = bwi_positive(in->effective_factor);
    bwi_column col = column_sizes(in, K_e);

    col.effective_length = K_e * bwi_positive(in->length);
    col.slenderness = col.effective_length / bwi_positive(col.depth);
    col.crushing = bwi_reference_value(in, BW_COMPRESSION) * bwi_load_duration(in);
    col.euler = bwi_column_euler(bwi_reference_value(in, BW_MODULUS_MIN),
                                 col.effective_length, col.depth);
    col.factor = bwi_column_factor_of(col.euler, col.crushing, col.shape);
    col.allowed = col.crushing * col.factor;
    col.stress = compression / bwi_positive(col.area);
    col.stress_small = compression / bwi_positive(col.area_small);
    col.utilisation = column_utilisation(&col);
    return col;
}

static void record_taper(bw_working *working, const bw_check_input *in,
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
}

static void record_weakest(bw_working *working, const bw_check_input *in,
                           const bwi_column *col)
{
    const bw_check_section *s = &in->weakest;

    bwi_record(working, "A", s->words != NULL ? s->words : "area of the weakest section",
               s->area, BW_AREA);
    bwi_record(working, "I", "second moment of the weakest section, weakest axis",
               s->second_moment, BW_SECOND_MOMENT);
    bwi_record_from(working, &(bw_term){"d", "depth for slenderness, sqrt(12 I / A)",
                                        col->depth, BW_LENGTH, BW_MARK_READ,
                                        "ANSI/AWC NDS 2018, 3.7.1: r sqrt(12)"});
}

static void record_slenderness(bw_working *working, const bw_check_input *in,
                               const bwi_column *col)
{
    if (working == NULL) {
        return;
    }
    if (col->shaped) {
        record_weakest(working, in, col);
    } else {
        record_taper(working, in, col);
    }
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
    bwi_record_number(working, "c",
                      col->shape < round_pole ? "shape constant of sawn timber"
                                              : "shape constant of round poles",
                      col->shape, BW_MARK_READ, "ANSI/AWC NDS 2018, 3.7.1.5");
    bwi_record_number(working, "C_P", "column stability factor, from F_cE / F_c* and c",
                      col->factor, BW_MARK_READ, "ANSI/AWC NDS 2018, Eq. 3.7-1");
    bwi_record(working, "F_c'", "allowed compression, F_c* C_P", col->allowed, BW_STRESS);
}

void bwi_record_column(bw_working *working, const bw_check_input *in,
                       const bwi_column *col)
{
    if (working == NULL) {
        return;
    }
    record_slenderness(working, in, col);
    record_stability(working, in, col);
    if (col->shaped) {
        bwi_record(working, "f_c", "compression on the weakest section, N / A",
                   col->stress, BW_STRESS);
        return;
    }
    bwi_record(working, "f_c", "compression on D_c, 4 N / (pi D_c^2)", col->stress,
               BW_STRESS);
    bwi_record(working, "f_c,small", "compression at the small end, 4 N / (pi D_small^2)",
               col->stress_small, BW_STRESS);
}
