/* drawing.h - between the files that make the data for pictures. */
#ifndef BWI_DECK_DRAWING_H
#define BWI_DECK_DRAWING_H

#include "internal.h"

/* How the row bends under the moving rider and under people, vertical loads alone. */
bw_status bwi_drawn_bending(const bwi_plan *p, int row, bw_drawn_bending *out);

#endif
