/* ec_sample.h - a log of class C18 for the tests of limit-state design; all of it well
 * within. */
#ifndef BW_TESTS_CHECKS_EC_SAMPLE_H
#define BW_TESTS_CHECKS_EC_SAMPLE_H

#include "sample.h"

#include "checks/eurocode/eurocode.h"

/* EN 338:2016, C18 (READ): f_m 18, f_v 3.4, f_c,90 2.2, f_c,0 18, E 9000, E_0,05 6000. */
static inline bw_reference ec_reference(void)
{
    bw_reference reference = {0};

    reference.value[BW_BENDING_STRENGTH] = 18e6;
    reference.value[BW_SHEAR_STRENGTH] = 3.4e6;
    reference.value[BW_BEARING] = 2.2e6;
    reference.value[BW_COMPRESSION] = 18e6;
    reference.value[BW_MODULUS] = 9e9;
    reference.value[BW_MODULUS_MIN] = 6e9;
    return reference;
}

static inline bw_check_input ec_input(const bw_reference *reference)
{
    return (bw_check_input){.reference = reference,
                            .diameter = 0.163,
                            .axial = 21.7e3,
                            .shear = 3.19e3,
                            .moment = 0.83e3,
                            .load_duration = 0.70,
                            .diameter_small = 0.147,
                            .diameter_large = 0.173,
                            .length = 2.23,
                            .effective_factor = 1.0,
                            .force = 6.1e3,
                            .bearing_area = 0.0087,
                            .bearing_length = 0.079,
                            .deflection = 0.0031,
                            .deflection_dead = 0.0007,
                            .lasting_share = 0.6,
                            .span = 2.57,
                            .limit = 360.0};
}

#endif
