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

/* What rounding leaves of a zero: far below all that a check could feel. */
static bool is_nothing(bw_quantity quantity, double value)
{
    switch (quantity) {
    case BW_FORCE:
        return fabs(value) < 1e-6;
    case BW_MOMENT:
        return fabs(value) < 1e-6;
    case BW_STRESS:
    case BW_PRESSURE:
        return fabs(value) < 1e-2;
    case BW_LENGTH:
        return fabs(value) < 1e-10;
    default:
        return false;
    }
}

/* Four digits like all other numbers, so that a line can be redone: in inches or
 * millimetres, whatever the length. */
static const char *length_text(bw_arena *arena, double value, bw_units units)
{
    const char *unit = units == BW_IMPERIAL ? "in" : "mm";
    const double count = value / bw_unit_size(BW_LENGTH, unit);
    return fabs(count) < 1e3 ? bw_arena_print(arena, "%.4g %s", count, unit)
                             : bw_arena_print(arena, "%.0f %s", count, unit);
}

const char *bwi_value(bw_arena *arena, bw_quantity quantity, double value, bw_units units)
{
    if (!isfinite(value)) {
        return "not known";
    }
    value = is_nothing(quantity, value) ? 0.0 : value;
    if (quantity == BW_LENGTH) {
        return length_text(arena, value, units);
    }
    if (quantity == BW_MOMENT && units == BW_IMPERIAL) {
        const double count = value / bw_unit_size(BW_MOMENT, "lb-in");
        return fabs(count) < 1e3 ? bw_arena_print(arena, "%.4g lb-in", count)
                                 : bw_arena_print(arena, "%.0f lb-in", count);
    }
    return bw_quantity_print(arena, quantity, value, units);
}

const char *bwi_percent(bw_arena *arena, double utilisation, int decimals)
{
    if (!isfinite(utilisation)) {
        return "cannot say";
    }
    if (utilisation > 10.0) { /* its digits say no more, least of all next to buckling */
        return "over 999";
    }
    /* the slack is that of bw_verdict_of: exactly at the limit reads 100, not 101 */
    const double step = pow(10.0, decimals), slack = 1e-9;
    const double percent = ceil((utilisation - slack) * 100.0 * step) / step;
    return bw_arena_print(arena, "%.*f", decimals, percent > 0.0 ? percent : 0.0);
}

const char *bwi_check_words(bw_arena *arena, const char *id)
{
    bw_text words = bw_text_new(arena);
    for (; *id != '\0'; id++) {
        bw_text_print(&words, "%c", *id == '_' ? ' ' : *id);
    }
    return bw_text_string(&words);
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
