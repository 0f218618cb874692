/* Flats and contact areas of round logs (geometry of the circle segment, COMPUTED). */
#include "internal.h"

#include <math.h>

double bwi_flat_width(double diameter, double depth)
{
    const double h = fmin(depth, diameter / 2.0);
    return 2.0 * sqrt(diameter * h - h * h);
}

/* int over -a..a of the chord 2 sqrt(r^2 - x^2): 2 [a sqrt(r^2 - a^2) + r^2 asin(a/r)], a
 * half the width. */
double bwi_strip_on_circle(double width, double diameter)
{
    const double r = diameter / 2.0, a = width / 2.0 > r ? r : width / 2.0;
    return 2.0 * (a * sqrt(r * r - a * a) + r * r * asin(a / r));
}
