/* present.h - which combinations a case calls for. Internal. */
#ifndef BWI_CHECKS_PRESENT_H
#define BWI_CHECKS_PRESENT_H

#include "bolewright/checks.h"

/* Whether all that acts in it is there. A slow rider is asked of unless the case itself
 * says how long the rider's load lasts. */
bool bwi_is_present(const bw_actions_present *present, const bw_combination *c);

#endif
