/* record.h - what all checks share: ratios that cannot hide a fault, and lines of a
 * working.
 *
 * A value that is missing or makes no sense is NaN here, and NaN runs through every later
 * line to the utilisation, where the verdict says that it cannot say. */
#ifndef BW_CHECKS_RECORD_H
#define BW_CHECKS_RECORD_H

#include "bolewright/checks.h"

/* The value if it is finite and above 0, else NaN: every divisor passes through here. */
double bwi_positive(double value);

/* The value if it is finite and at least 0, else NaN. */
double bwi_not_negative(double value);

/* The larger, or the smaller, of both; NaN if either is (fmax and fmin would drop it). */
double bwi_larger(double a, double b);
double bwi_smaller(double a, double b);

/* demand / capacity. The utilisation is NaN unless the demand is finite and at least 0
 * and the capacity is finite and above 0. */
bw_ratio bwi_ratio_of(double demand, double capacity);

/* A reference value [Pa]; NaN when the reference is null or lacks it. */
double bwi_reference_value(const bw_check_input *in, bw_property property);

/* Lines of a working; nothing happens when the working is null. */
void bwi_record(bw_working *working, const char *symbol, const char *meaning,
                double value, bw_quantity quantity);
void bwi_record_number(bw_working *working, const char *symbol, const char *meaning,
                       double value, bw_mark mark, const char *source);
void bwi_record_from(bw_working *working, const bw_term *term);
/* A reference value under a symbol, with the mark and source of the last line of its
 * ladder; and under the symbols of allowable stress. */
void bwi_record_reference_as(bw_working *working, const bw_check_input *in,
                             bw_property property, const char *symbol,
                             const char *meaning);
void bwi_record_reference(bw_working *working, const bw_check_input *in,
                          bw_property property);

#endif
