/* contact.c - compression across the grain and at an angle to it. See eurocode.h. */
#include "eurocode.h"

#include <math.h>

static double spread(double length, double beyond)
{
    static const double most = 0.030; /* READ in a public summary sheet */

    return bwi_smaller(bwi_smaller(most, length), bwi_not_negative(beyond));
}

double bwi_ec_contact_length(double length, double before, double after)
{
    const double l = bwi_positive(length);

    return l + spread(l, before) + spread(l, after);
}

double bwi_ec_support_factor(bw_wood_group group, double clear_distance, double depth)
{
    const double l_1 = bwi_not_negative(clear_distance);

    if (isnan(l_1) || isnan(bwi_positive(depth))) {
        return (double)NAN;
    }
    return group == BW_SOFTWOOD && l_1 >= 2.0 * depth ? 1.5 : 1.0;
}

/* f_c,a,d = f_c,0,d / (f_c,0,d / (k_c,90 f_c,90,d) sin^2 + cos^2), 6.2.2 (MEMORY); across
 * is k_c,90 f_c,90,d. */
double bwi_ec_angle_strength(double along, double across, double angle)
{
    const double s = sin(angle), c = cos(angle);

    return bwi_positive(along) /
           (bwi_positive(along) / bwi_positive(across) * s * s + c * c);
}
