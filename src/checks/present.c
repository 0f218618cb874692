/* present.c - which combinations a case calls for, whatever the basis. */
#include "present.h"

bool bwi_is_present(const bw_actions_present *present, const bw_combination *c)
{
    return (c->rider == 0.0 || present->rider) && (c->crowd == 0.0 || present->crowd) &&
           (c->snow == 0.0 || present->snow) && (c->machine == 0.0 || present->machine) &&
           (c->slow == 0.0 || !(present->rider_duration > 0.0));
}
