/* value.c - numbers as words, in either system. */
#include "internal.h"

#include <math.h>

const char *bwi_or_fail(bw_text *out, const char *text)
{
    if (text == NULL) {
        out->failed = true;
        return "";
    }
    return text;
}

bw_units bwi_other_units(bw_units units)
{
    return units == BW_IMPERIAL ? BW_METRIC : BW_IMPERIAL;
}

const char *bwi_value(bw_arena *arena, bw_quantity quantity, double value, bw_units units)
{
    if (!isfinite(value)) {
        return "not known";
    }
    if (quantity == BW_LENGTH) {
        return bw_length_print_decimal(arena, value, units);
    }
    if (quantity == BW_MOMENT && units == BW_IMPERIAL) {
        return bw_arena_print(arena, "%.0f lb-in",
                              value / bw_unit_size(BW_MOMENT, "lb-in"));
    }
    return bw_quantity_print(arena, quantity, value, units);
}

const char *bwi_percent(bw_arena *arena, double utilisation, int decimals)
{
    if (!isfinite(utilisation)) {
        return "cannot say";
    }
    /* the slack is that of bw_verdict_of: exactly at the limit reads 100, not 101 */
    const double step = pow(10.0, decimals), slack = 1e-9;
    const double percent = ceil((utilisation - slack) * 100.0 * step) / step;
    return bw_arena_print(arena, "%.*f", decimals, percent > 0.0 ? percent : 0.0);
}

const char *bwi_si_unit(bw_quantity quantity)
{
    static const char *const units[BW_QUANTITY_COUNT] = {
        [BW_NUMBER] = "1",
        [BW_LENGTH] = "m",
        [BW_AREA] = "m2",
        [BW_SECOND_MOMENT] = "m4",
        [BW_SECTION_MODULUS] = "m3",
        [BW_FORCE] = "N",
        [BW_MASS] = "kg",
        [BW_PRESSURE] = "Pa",
        [BW_STRESS] = "Pa",
        [BW_LINE_LOAD] = "N/m",
        [BW_MOMENT] = "N*m",
        [BW_DENSITY] = "kg/m3",
        [BW_ANGLE] = "rad",
        [BW_SLOPE] = "1",
        [BW_SPEED] = "m/s",
        [BW_STIFFNESS] = "N/m",
        [BW_TURN_STIFFNESS] = "N*m/rad",
        [BW_SUBGRADE] = "N/m3",
        [BW_SUBGRADE_RATE] = "Pa/m",
        [BW_DURATION] = "s",
    };
    return quantity < BW_QUANTITY_COUNT && units[quantity] != NULL ? units[quantity]
                                                                   : "1";
}
