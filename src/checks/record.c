/* record.c - ratios that cannot hide a fault, and lines of a working. */
#include "record.h"

#include <math.h>

double bwi_positive(double value)
{
    return isfinite(value) && value > 0.0 ? value : (double)NAN;
}

double bwi_not_negative(double value)
{
    return isfinite(value) && value >= 0.0 ? value : (double)NAN;
}

double bwi_larger(double a, double b)
{
    return isnan(a) || a >= b ? a : b;
}

double bwi_smaller(double a, double b)
{
    return isnan(a) || a <= b ? a : b;
}

bw_ratio bwi_ratio_of(double demand, double capacity)
{
    const double utilisation = bwi_not_negative(demand) / bwi_positive(capacity);

    return (bw_ratio){demand, capacity, utilisation};
}

double bwi_reference_value(const bw_check_input *in, bw_property property)
{
    return in->reference != NULL ? bwi_positive(in->reference->value[property])
                                 : (double)NAN;
}

void bwi_record_from(bw_working *working, const bw_term *term)
{
    if (working != NULL) {
        bw_working_add(working, *term);
    }
}

void bwi_record(bw_working *working, const char *symbol, const char *meaning,
                double value, bw_quantity quantity)
{
    bwi_record_from(working,
                    &(bw_term){symbol, meaning, value, quantity, BW_MARK_NONE, NULL});
}

void bwi_record_number(bw_working *working, const char *symbol, const char *meaning,
                       double value, bw_mark mark, const char *source)
{
    bwi_record_from(working, &(bw_term){symbol, meaning, value, BW_NUMBER, mark, source});
}

void bwi_record_reference_as(bw_working *working, const bw_check_input *in,
                             bw_property property, const char *symbol,
                             const char *meaning)
{
    bw_term term = {symbol,
                    meaning,
                    bwi_reference_value(in, property),
                    BW_STRESS,
                    BW_MARK_COMPUTED,
                    "reference values of the species: the last line of their ladder"};
    const bw_working *ladder =
        in->reference != NULL ? &in->reference->ladder[property] : NULL;

    if (ladder != NULL && ladder->count > 0 &&
        ladder->items[ladder->count - 1].source != NULL) {
        term.mark = ladder->items[ladder->count - 1].mark;
        term.source = ladder->items[ladder->count - 1].source;
    }
    bwi_record_from(working, &term);
}

void bwi_record_reference(bw_working *working, const bw_check_input *in,
                          bw_property property)
{
    static const struct {
        const char *symbol, *meaning;
    } names[BW_PROPERTY_COUNT] = {
        [BW_BENDING_STRENGTH] = {"F_b", "reference bending stress"},
        [BW_SHEAR_STRENGTH] = {"F_v", "reference shear stress along the grain"},
        [BW_COMPRESSION] = {"F_c", "reference compression along the grain"},
        [BW_BEARING] = {"F_cperp", "reference compression across the grain"},
        [BW_MODULUS] = {"E", "mean modulus of elasticity"},
        [BW_MODULUS_MIN] = {"E_min", "modulus of elasticity for stability"},
    };

    bwi_record_reference_as(working, in, property, names[property].symbol,
                            names[property].meaning);
}
