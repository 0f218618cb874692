/* dowel.c - one dowel by the yield-limit equations.
 *
 *   I_m    D l_m F_em / R_d              I_s    D l_s F_es / R_d (twice in double shear)
 *   II     k1 D l_s F_es / R_d
 *   III_m  k2 D l_m F_em / ((1 + 2 R_e) R_d)
 *   III_s  k3 D l_s F_em / ((2 + R_e) R_d)              (twice in double shear)
 *   IV     D^2 / R_d sqrt(2 F_em F_yb / (3 (1 + R_e)))  (twice in double shear)
 *   R_e = F_em / F_es,  R_t = l_m / l_s,  D the root diameter
 *   F_e: 11200 G along, 6100 G^1.45 / sqrt(D) across (nominal D), Hankinson between;
 *        16600 G^1.84 below 1/4 in  [psi, in]
 *   R_d: I 4 K_th, II 3.6 K_th, III and IV 3.2 K_th, K_th = 1 + th / 360 deg; a root
 *        below 1/4 in: K_D, and K_D K_th if the nominal diameter is not
 *
 * ANSI/AWC NDS 2018, 12.3.1 to 12.3.9 (MEMORY, confirmed by printed cells). */
#include "dowel.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

static double psi(double count)
{
    return count * bw_unit_size(BW_STRESS, "psi");
}

static double inches(double length)
{
    return bwi_positive(length) / bw_inch;
}

static const double small = 0.25; /* [in] below it other rules hold */

static bool is_small(double diameter)
{
    return inches(diameter) < small - 1e-9;
}

double bwi_dowel_bearing(double gravity, double diameter, double angle)
{
    const double G = bwi_positive(gravity), D = inches(diameter);
    const double s = sin(angle), c = cos(angle);

    if (is_small(diameter)) {
        return psi(16600.0 * pow(G, 1.84));
    }
    const double along = psi(11200.0 * G), across = psi(6100.0 * pow(G, 1.45) / sqrt(D));
    return along * across / (along * s * s + across * c * c);
}

/* Lags 70, 60 and 45 ksi (MEMORY, confirmed by printed cells); bolts 45 ksi; nails, pins
 * and screws by the steps of NDS Appendix I (MEMORY), which hardened screws exceed. */
double bwi_dowel_yield(bw_fastener_kind kind, double diameter)
{
    static const double steps[][2] = {
        {0.142, 100e3}, {0.177, 90e3}, {0.236, 80e3}, {0.273, 70e3}, {0.344, 60e3}};
    const double D = inches(diameter) - 1e-9;
    const size_t first = kind == BW_FASTENER_LAG    ? 3
                         : kind == BW_FASTENER_BOLT ? 5
                                                    : 0; /* of the steps */

    if (isnan(D) || kind == BW_FASTENER_NONE) {
        return (double)NAN;
    }
    for (size_t k = first; k < sizeof steps / sizeof steps[0]; k++) {
        if (D <= steps[k][0]) {
            return psi(steps[k][1]);
        }
    }
    return psi(45e3);
}

bwi_dowel_reduction bwi_dowel_reduce(double nominal, double root, double angle)
{
    const double D = inches(root), th = bwi_not_negative(angle) / (pi / 2.0);
    const double K_th = 1.0 + 0.25 * th;
    const double K_D = D <= 0.17 ? 2.2 : 10.0 * D + 0.5;

    if (is_small(root)) {
        const double R_d = is_small(nominal) ? K_D : K_D * K_th;
        return (bwi_dowel_reduction){R_d, R_d, R_d};
    }
    return (bwi_dowel_reduction){4.0 * K_th, 3.6 * K_th, 3.2 * K_th};
}

const char *const bwi_mode_symbol[BWI_MODE_COUNT] = {"Z_Im",   "Z_Is",   "Z_II",
                                                     "Z_IIIm", "Z_IIIs", "Z_IV"};
const char *const bwi_mode_words[BWI_MODE_COUNT] = {
    "mode I_m: the holding log crushed",       "mode I_s: the fastened log crushed",
    "mode II: both crushed, it turns",         "mode III_m: it bends in the fastened log",
    "mode III_s: it bends in the holding log", "mode IV: it bends in both"};

/* k1, k2 and k3 */
static double turn_factor(double R_e, double R_t)
{
    return (sqrt(R_e + 2.0 * R_e * R_e * (1.0 + R_t + R_t * R_t) +
                 R_t * R_t * R_e * R_e * R_e) -
            R_e * (1.0 + R_t)) /
           (1.0 + R_e);
}

static double bend_in_side(const bwi_dowel *d, double R_e)
{
    const double slender = d->diameter / d->main_length;

    return -1.0 + sqrt(2.0 * (1.0 + R_e) + 2.0 * d->yield * (1.0 + 2.0 * R_e) * slender *
                                               slender / (3.0 * d->main_bearing));
}

static double bend_in_main(const bwi_dowel *d, double R_e)
{
    const double slender = d->diameter / d->side_length;

    return -1.0 + sqrt(2.0 * (1.0 + R_e) / R_e + 2.0 * d->yield * (2.0 + R_e) * slender *
                                                     slender / (3.0 * d->main_bearing));
}

void bwi_dowel_modes(const bwi_dowel *d, int planes, double mode[BWI_MODE_COUNT])
{
    const double D = bwi_positive(d->diameter);
    const double l_m = bwi_positive(d->main_length), l_s = bwi_positive(d->side_length);
    const double F_em = bwi_positive(d->main_bearing),
                 F_es = bwi_positive(d->side_bearing), F_yb = bwi_positive(d->yield);
    const double R_e = F_em / F_es, twice = planes == 2 ? 2.0 : 1.0;
    const bwi_dowel_reduction *R = &d->reduction;

    mode[BWI_MODE_I_M] = D * l_m * F_em / R->crush;
    mode[BWI_MODE_I_S] = twice * D * l_s * F_es / R->crush;
    mode[BWI_MODE_II] = turn_factor(R_e, l_m / l_s) * D * l_s * F_es / R->turn;
    mode[BWI_MODE_III_M] =
        bend_in_side(d, R_e) * D * l_m * F_em / ((1.0 + 2.0 * R_e) * R->bend);
    mode[BWI_MODE_III_S] =
        twice * bend_in_main(d, R_e) * D * l_s * F_em / ((2.0 + R_e) * R->bend);
    mode[BWI_MODE_IV] =
        twice * D * D / R->bend * sqrt(2.0 * F_em * F_yb / (3.0 * (1.0 + R_e)));
    if (planes == 2) {
        mode[BWI_MODE_II] = mode[BWI_MODE_III_M] = (double)INFINITY;
    }
}

double bwi_dowel_least(const double mode[BWI_MODE_COUNT])
{
    double least = mode[0];

    for (int k = 1; k < BWI_MODE_COUNT; k++) {
        least = bwi_smaller(least, mode[k]);
    }
    return least;
}

/* ---- of a joint ---- */

/* In end grain the bearing strength is that across the grain, whatever the force
 * (12.3.3.4 MEMORY). */
bwi_dowel bwi_dowel_of(const bw_check_input *in, double penetration)
{
    const bw_joint *j = bwi_joint_of(in);
    const bw_fasteners *f = &j->fasteners;
    const double across = pi / 2.0;
    const double main_angle = j->end_grain ? across : in->main_angle;
    const double root = bwi_fastener_root(f);

    return (bwi_dowel){
        .diameter = root,
        .side_length = bwi_joint_side(j),
        .main_length = bwi_positive(penetration),
        .side_bearing =
            bwi_dowel_bearing(j->side_log.gravity, f->diameter, in->side_angle),
        .main_bearing = bwi_dowel_bearing(j->main_log.gravity, f->diameter, main_angle),
        .yield = f->yield != 0.0 ? bwi_positive(f->yield)
                                 : bwi_dowel_yield(f->kind, f->diameter),
        .reduction =
            bwi_dowel_reduce(f->diameter, root, bwi_larger(in->side_angle, main_angle))};
}

/* Full: 8 D of lags, 10 D of others; least: 4 D of lags, 6 D of others (12.1, MEMORY). */
double bwi_full_penetration(const bw_fasteners *f)
{
    return (f->kind == BW_FASTENER_LAG ? 8.0 : 10.0) * bwi_positive(f->diameter);
}

double bwi_least_penetration(const bw_fasteners *f)
{
    return (f->kind == BW_FASTENER_LAG ? 4.0 : 6.0) * bwi_positive(f->diameter);
}

double bwi_dowel_value(const bw_check_input *in)
{
    const bw_joint *j = bwi_joint_of(in);
    const bw_fasteners *f = &j->fasteners;
    const double p = bwi_joint_penetration(j), full = bwi_full_penetration(f);
    double here[BWI_MODE_COUNT], whole[BWI_MODE_COUNT];
    const bwi_dowel at_p = bwi_dowel_of(in, p), at_full = bwi_dowel_of(in, full);

    bwi_dowel_modes(&at_p, f->planes, here);
    if (f->kind == BW_FASTENER_BOLT || !(p < full)) {
        return bwi_dowel_least(here);
    }
    bwi_dowel_modes(&at_full, f->planes, whole);
    return bwi_smaller(bwi_dowel_least(here), bwi_dowel_least(whole) * p / full);
}
