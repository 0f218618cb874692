/* record.h - what all checks share: ratios that cannot hide a fault, and lines of a
 * working.
 *
 * A value that is missing or makes no sense is NaN here, and NaN runs through every later
 * line to the utilisation, where the verdict says that it cannot say. All of it is asked
 * at every place of the loads, so the short ones are inline. */
#ifndef BW_CHECKS_RECORD_H
#define BW_CHECKS_RECORD_H

#include "bolewright/checks.h"

#include <math.h>

/* The value if it is finite and above 0, else NaN: every divisor passes through here. */
static inline double bwi_positive(double value)
{
    return isfinite(value) && value > 0.0 ? value : (double)NAN;
}

/* The value if it is finite and at least 0, else NaN. */
static inline double bwi_not_negative(double value)
{
    return isfinite(value) && value >= 0.0 ? value : (double)NAN;
}

/* The larger, or the smaller, of both; NaN if either is (fmax and fmin would drop it). */
static inline double bwi_larger(double a, double b)
{
    return isnan(a) || a >= b ? a : b;
}

static inline double bwi_smaller(double a, double b)
{
    return isnan(a) || a <= b ? a : b;
}

/* demand / capacity. The utilisation is NaN unless the demand is finite and at least 0
 * and the capacity is finite and above 0. */
static inline bw_ratio bwi_ratio_of(double demand, double capacity)
{
    const double utilisation = bwi_not_negative(demand) / bwi_positive(capacity);

    return (bw_ratio){demand, capacity, utilisation};
}

/* A reference value [Pa]; NaN when the reference is null or lacks it. */
static inline double bwi_reference_value(const bw_check_input *in, bw_property property)
{
    return in->reference != NULL ? bwi_positive(in->reference->value[property])
                                 : (double)NAN;
}

/* Lines of a working; nothing happens when the working is null. */
static inline void bwi_record_from(bw_working *working, const bw_term *term)
{
    if (working != NULL) {
        bw_working_add(working, *term);
    }
}

static inline void bwi_record_number(bw_working *working, const char *symbol,
                                     const char *meaning, double value, bw_mark mark,
                                     const char *source)
{
    bwi_record_from(working, &(bw_term){symbol, meaning, value, BW_NUMBER, mark, source});
}

static inline void bwi_record(bw_working *working, const char *symbol,
                              const char *meaning, double value, bw_quantity quantity)
{
    bwi_record_from(working,
                    &(bw_term){symbol, meaning, value, quantity, BW_MARK_NONE, NULL});
}

/* A reference value under a symbol, with the mark and source of the last line of its
 * ladder; and under the symbols of allowable stress. */
void bwi_record_reference_as(bw_working *working, const bw_check_input *in,
                             bw_property property, const char *symbol,
                             const char *meaning);
void bwi_record_reference(bw_working *working, const bw_check_input *in,
                          bw_property property);

#endif
