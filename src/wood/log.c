/* A log as measured: a truncated cone between the girths at butt and tip. */
#include "bolewright/wood.h"

static const double pi = 3.14159265358979323846;

double bw_diameter_from_girth(double girth)
{
    return girth / pi;
}

/* d(x) = d_butt + (d_tip - d_butt) x / L */
double bw_log_diameter(const bw_log *log, double length, double from_butt)
{
    if (!(length > 0.0)) { /* no place yet: the thinner end is the cautious answer */
        return log->tip_diameter < log->butt_diameter ? log->tip_diameter
                                                      : log->butt_diameter;
    }
    const double share = from_butt / length;
    return log->butt_diameter + (log->tip_diameter - log->butt_diameter) * share;
}

/* m = rho pi/12 (x2 - x1) (d1^2 + d1 d2 + d2^2), the volume of a frustum of a cone */
double bw_log_mass(const bw_log *log, double length, double from, double to)
{
    const double d1 = bw_log_diameter(log, length, from);
    const double d2 = bw_log_diameter(log, length, to);
    const double squares = d1 * d1 + d1 * d2 + d2 * d2;
    return log->species->green_density.value * pi / 12.0 * (to - from) * squares;
}

double bw_shear_modulus(double modulus)
{
    static const double e_over_g = 16.0; /* EN 338:2016, all classes; softwoods */
    return modulus / e_over_g;
}
