/* quadrature.h - integrals along a tapered member, exact to rounding. */
#ifndef BWI_FRAME_QUADRATURE_H
#define BWI_FRAME_QUADRATURE_H

enum { BWI_GAUSS_POINTS = 12, BWI_PANELS_MAX = 32 };

typedef struct {
    double x, weight;
} bwi_point;

/* Gauss points on [lo, hi] where the diameter runs linearly from d_lo to d_hi (equal for
 * a prismatic part): returns how many (at most BWI_GAUSS_POINTS * BWI_PANELS_MAX). */
int bwi_gauss(double lo, double hi, double d_lo, double d_hi, bwi_point *points);

/* A size that runs linearly from at_lo to at_hi, both >= 0, where the integrand is not
 * smooth at 0; no panel may see it change by more than the factor. */
typedef struct {
    double at_lo, at_hi, factor;
} bwi_size;
/* Gauss points on [lo, hi] on panels that end where one of the sizes has changed by its
 * factor. */
int bwi_gauss_sizes(double lo, double hi, const bwi_size *sizes, int n_sizes,
                    bwi_point *points);

#endif
