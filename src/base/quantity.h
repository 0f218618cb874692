/* quantity.h - private to the base layer: units and their sizes. */
#ifndef BWI_QUANTITY_H
#define BWI_QUANTITY_H

#include "bolewright/base.h"

/* The size of a unit in SI as above / below, so that 150 mm is 150/1000 and not
 * 150 * 0.001: one rounding, and the same double that "0.15 m" gives. */
typedef struct {
    double above, below;
} bwi_size;

double bwi_size_apply(bwi_size size, double count);

/* Reads a unit expression of the quantity in plain text: kN-m/rad, lb/ft^3, sq in. Moves
 * *at past it on BW_PARSE_OK; otherwise BW_PARSE_UNIT. */
bw_parse bwi_unit_read(bw_quantity quantity, const char **at, bwi_size *size);

/* Powers of metre, kilogram, second and radian. */
typedef struct {
    int m, kg, s, rad;
} bwi_dimension;
bwi_dimension bwi_quantity_dimension(bw_quantity quantity);
/* The i-th word for a unit, in lower case, and what it measures where a pound is what it
 * is in the quantity; null at the end of the words. */
const char *bwi_unit_word(bw_quantity quantity, size_t i, bwi_dimension *dimension);

/* Whether the quantity is made of force (so that a pound is a pound-force) or of mass. */
bool bwi_quantity_has_force(bw_quantity quantity);
bool bwi_quantity_has_mass(bw_quantity quantity);

#endif
