/* quadrature.h - integrals along a tapered member, exact to rounding. */
#ifndef BWI_FRAME_QUADRATURE_H
#define BWI_FRAME_QUADRATURE_H

enum { BWI_GAUSS_POINTS = 12, BWI_PANELS_MAX = 24 };

typedef struct {
    double x, weight;
} bwi_point;

/* Gauss points on [lo, hi] where the diameter runs linearly from d_lo to d_hi (equal for
 * a prismatic part): returns how many (at most BWI_GAUSS_POINTS * BWI_PANELS_MAX). */
int bwi_gauss(double lo, double hi, double d_lo, double d_hi, bwi_point *points);

#endif
