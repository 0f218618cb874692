/* values.h - quantities and words behind options: read, bounded, faults told. */
#ifndef BW_CLI_VALUES_H
#define BW_CLI_VALUES_H

#include "options.h"

typedef struct {
    bwi_option option;
    bw_quantity quantity;
    double low, high; /* allowed, SI */
} bwi_value;

/* Leaves *out alone if the option is not given, or is at fault. units: for the bounds in
 * words. */
void bwi_value_read(const bwi_options *options, const bwi_value *value, bw_units units,
                    double *out, bw_diags *d);
/* Number of the word behind the option among bwi_option_words; otherwise if it is not
 * given, -1 with a fault if it is none of them. */
int bwi_word_read(const bwi_options *options, bwi_option option, int otherwise,
                  bw_diags *d);
bw_units bwi_units_read(const bwi_options *options); /* imperial if not given */

#endif
