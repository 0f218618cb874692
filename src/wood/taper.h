/* taper.h - the equations of stems, for the tree alone. */
#ifndef BW_WOOD_TAPER_H
#define BW_WOOD_TAPER_H

#include "bolewright/wood.h"

/* Share of the volume of the stem that lies below the height above the ground. */
double bwi_taper_share_below(const bw_taper *taper, double height, double above_ground);
/* Diameter at the height above the ground, of a stem of the volume [m3], [m]. */
double bwi_taper_diameter(const bw_taper *taper, double volume, double height,
                          double above_ground);

#endif
