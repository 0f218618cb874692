/* poly.h - real roots of short polynomials c[0] + c[1] t + ... inside an interval. */
#ifndef BWI_FRAME_POLY_H
#define BWI_FRAME_POLY_H

enum { BWI_POLY_DEGREE_MAX = 6 };

double bwi_poly_value(const double *c, int degree, double t);
/* out[0..degree-1] = derivative; out may be c. */
void bwi_poly_derive(const double *c, int degree, double *out);
/* out = polynomial of t + shift. */
void bwi_poly_shift(const double *c, int degree, double shift, double *out);
/* Simple and touching roots strictly inside (lo, hi), ascending, in roots[0..degree-1];
 * returns how many. A polynomial that is zero throughout has none. */
int bwi_poly_roots(const double *c, int degree, double lo, double hi, double *roots);

/* Root of a continuous function with values of different sign at lo and hi, known to
 * close, or (0) to the last digits that doubles can tell. */
typedef double (*bwi_function)(double x, const void *context);
double bwi_bracketed_root(bwi_function f, const void *context, double lo, double hi,
                          double close);

#endif
