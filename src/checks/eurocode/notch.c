/* notch.c - a beam notched at its support on the tension side.
 *
 *   k_v = min(1, k_n (1 + 1.1 i^1.5 / sqrt(h)) /
 *                (sqrt(h) (sqrt(alpha (1 - alpha)) + 0.8 x/h sqrt(1/alpha - alpha^2))))
 *   alpha = h_ef / h,   k_n = 5.0 for solid timber,   h in millimetres
 *
 * 6.5.2 (6.60) to (6.63); values of a public summary sheet reproduced (tests/published).
 * A notch on the compression side, or none, has k_v = 1. */
#include "eurocode.h"

#include <math.h>

double bwi_ec_notch_factor(const bwi_ec_notch *notch)
{
    static const double k_n = 5.0;
    const double h = bwi_positive(notch->depth);
    const double x = bwi_not_negative(notch->reach);
    const double i = bwi_not_negative(notch->inclination);
    const double alpha = bwi_positive(notch->left) / h;
    const double root = sqrt(h / bw_unit_size(BW_LENGTH, "mm"));

    if (!(alpha <= 1.0)) {
        return (double)NAN;
    }
    const double split =
        sqrt(alpha * (1.0 - alpha)) + 0.8 * x / h * sqrt(1.0 / alpha - alpha * alpha);
    const double slope = 1.0 + 1.1 * pow(i, 1.5) / root;

    /* multiplied out: a notch of no depth has split = 0 */
    return k_n * slope >= root * split ? 1.0 : k_n * slope / (root * split);
}
