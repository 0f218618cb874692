/* quantity_print.c - SI values in the unit a person expects. */
#include "quantity.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The unit of a quantity from some size on; the rows of one quantity and system run from
 * the smallest unit to the largest. */
static const struct {
    bw_quantity quantity;
    bw_units units;
    const char *unit;
    double least; /* in that unit; 0 for the smallest */
} choices[] = {
    {BW_AREA, BW_IMPERIAL, "in2", 0.0},
    {BW_AREA, BW_IMPERIAL, "ft2", 4.0},
    {BW_AREA, BW_METRIC, "cm2", 0.0},
    {BW_AREA, BW_METRIC, "m2", 0.1},
    {BW_SECOND_MOMENT, BW_IMPERIAL, "in4", 0.0},
    {BW_SECOND_MOMENT, BW_METRIC, "cm4", 0.0},
    {BW_SECTION_MODULUS, BW_IMPERIAL, "in3", 0.0},
    {BW_SECTION_MODULUS, BW_METRIC, "cm3", 0.0},
    {BW_FORCE, BW_IMPERIAL, "lb", 0.0},
    {BW_FORCE, BW_METRIC, "N", 0.0},
    {BW_FORCE, BW_METRIC, "kN", 1.0},
    {BW_MASS, BW_IMPERIAL, "lb", 0.0},
    {BW_MASS, BW_METRIC, "kg", 0.0},
    {BW_PRESSURE, BW_IMPERIAL, "psf", 0.0},
    {BW_PRESSURE, BW_METRIC, "kPa", 0.0},
    {BW_STRESS, BW_IMPERIAL, "psi", 0.0},
    {BW_STRESS, BW_METRIC, "MPa", 0.0},
    {BW_LINE_LOAD, BW_IMPERIAL, "lb/ft", 0.0},
    {BW_LINE_LOAD, BW_METRIC, "kN/m", 0.0},
    {BW_MOMENT, BW_IMPERIAL, "lb-ft", 0.0},
    {BW_MOMENT, BW_METRIC, "kN-m", 0.0},
    {BW_DENSITY, BW_IMPERIAL, "lb/ft3", 0.0},
    {BW_DENSITY, BW_METRIC, "kg/m3", 0.0},
    {BW_ANGLE, BW_IMPERIAL, "deg", 0.0},
    {BW_ANGLE, BW_METRIC, "deg", 0.0},
    {BW_SLOPE, BW_IMPERIAL, "%", 0.0},
    {BW_SLOPE, BW_METRIC, "%", 0.0},
    {BW_SPEED, BW_IMPERIAL, "mph", 0.0},
    {BW_SPEED, BW_METRIC, "km/h", 0.0},
    {BW_STIFFNESS, BW_IMPERIAL, "lb/in", 0.0},
    {BW_STIFFNESS, BW_METRIC, "kN/m", 0.0},
    {BW_TURN_STIFFNESS, BW_IMPERIAL, "lb-ft/rad", 0.0},
    {BW_TURN_STIFFNESS, BW_METRIC, "kN-m/rad", 0.0},
    {BW_SUBGRADE, BW_IMPERIAL, "lb/in3", 0.0},
    {BW_SUBGRADE, BW_METRIC, "MN/m3", 0.0},
    {BW_SUBGRADE_RATE, BW_IMPERIAL, "psf/ft", 0.0},
    {BW_SUBGRADE_RATE, BW_METRIC, "kPa/m", 0.0},
    {BW_DURATION, BW_IMPERIAL, "s", 0.0},
    {BW_DURATION, BW_IMPERIAL, "min", 1.0},
    {BW_DURATION, BW_IMPERIAL, "h", 1.0},
    {BW_DURATION, BW_IMPERIAL, "day", 1.0},
    {BW_DURATION, BW_IMPERIAL, "year", 1.0},
    {BW_DURATION, BW_METRIC, "s", 0.0},
    {BW_DURATION, BW_METRIC, "min", 1.0},
    {BW_DURATION, BW_METRIC, "h", 1.0},
    {BW_DURATION, BW_METRIC, "day", 1.0},
    {BW_DURATION, BW_METRIC, "year", 1.0},
};

enum { significant_digits = 4, number_length = 32 };

static void strip_zeros(char *digits)
{
    size_t length = strlen(digits);
    if (strchr(digits, '.') == NULL) {
        return;
    }
    while (digits[length - 1] == '0') {
        length--;
    }
    length -= digits[length - 1] == '.' ? 1 : 0;
    digits[length] = '\0';
}

/* Four significant digits without trailing zeros or thousands marks; a power of ten only
 * for the very large and the very small. */
static const char *print_number(bw_arena *arena, double value)
{
    enum { largest_power = 8, smallest_power = -4 };
    char digits[number_length];
    if (!isfinite(value)) {
        return "not a finite number";
    }
    snprintf(digits, sizeof digits, "%.*e", significant_digits - 1, value);
    char *mark = strchr(digits, 'e');
    const double rounded = strtod(digits, NULL);
    const int power = mark == NULL ? 0 : (int)strtol(mark + 1, NULL, 10);
    if (rounded == 0.0) {
        return "0";
    }
    if (power > largest_power || power < smallest_power) {
        if (mark != NULL) {
            *mark = '\0';
        }
        strip_zeros(digits);
        return bw_arena_print(arena, "%se%d", digits, power);
    }
    const int decimals = power < significant_digits ? significant_digits - 1 - power : 0;
    snprintf(digits, sizeof digits, "%.*f", decimals, rounded);
    strip_zeros(digits);
    return bw_arena_copy(arena, digits);
}

static const char *print_with_unit(bw_arena *arena, double count, const char *unit)
{
    const char *number = print_number(arena, count);
    if (number == NULL) {
        return NULL;
    }
    const bool is_word = strcmp(unit, "day") == 0 || strcmp(unit, "year") == 0;
    const char *plural = is_word && strcmp(number, "1") != 0 ? "s" : "";
    return bw_arena_print(arena, "%s %s%s", number, unit, plural);
}

/* The value as it will be read when printed in units of the size. */
static double shown(double value, double size)
{
    char digits[number_length];
    snprintf(digits, sizeof digits, "%.*e", significant_digits - 1, value / size);
    return strtod(digits, NULL) * size;
}

/* Beyond this many sixteenths or millimetres a length is no length of timber, and its
 * parts would not be exact any more. */
static const double most_parts = 1e12;

static const char *minus(double value, double rounded)
{
    return value < 0.0 && rounded > 0.0 ? "-" : "";
}

/* Inches to the nearest sixteenth, with feet from 12 inches on if asked for. */
static const char *print_inches(bw_arena *arena, double value, bool with_feet)
{
    const double inches = fabs(value) / bw_unit_size(BW_LENGTH, "in");
    if (!(inches < most_parts)) {
        return print_with_unit(arena, value / bw_unit_size(BW_LENGTH, "ft"), "ft");
    }
    const long long sixteenths = llround(inches * 16.0);
    const long long feet = with_feet ? sixteenths / 16 / 12 : 0;
    const long long whole = sixteenths / 16 - 12 * feet;
    long long above = sixteenths % 16;
    long long below = 16;
    while (above > 0 && above % 2 == 0) {
        above /= 2;
        below /= 2;
    }
    bw_text text = bw_text_new(arena);
    bw_text_add(&text, minus(value, (double)sixteenths));
    if (feet > 0) {
        bw_text_print(&text, "%lld ft", feet);
    }
    if (whole > 0 || (feet == 0 && above == 0)) {
        bw_text_print(&text, "%s%lld", feet > 0 ? " " : "", whole);
    }
    if (above > 0) {
        bw_text_print(&text, "%s%lld/%lld", feet > 0 || whole > 0 ? " " : "", above,
                      below);
    }
    if (whole > 0 || above > 0 || feet == 0) {
        bw_text_add(&text, " in");
    }
    return bw_text_string(&text);
}

static const char *print_millimetres(bw_arena *arena, double value)
{
    const double millimetres = fabs(value) / bw_unit_size(BW_LENGTH, "mm");
    if (!(millimetres < most_parts)) {
        return print_with_unit(arena, value, "m");
    }
    const long long whole = llround(millimetres);
    return bw_arena_print(arena, "%s%lld mm", minus(value, (double)whole), whole);
}

static const char *print_length(bw_arena *arena, double value, bw_units units)
{
    if (units == BW_IMPERIAL) {
        return print_inches(arena, value, true);
    }
    const double least_metres = 0.9995; /* what would round to 1000 mm is 1.00 m */
    if (fabs(value) < least_metres) {
        return print_millimetres(arena, value);
    }
    if (!(fabs(value) < most_parts)) {
        return print_with_unit(arena, value, "m");
    }
    return bw_arena_print(arena, "%.2f m", value);
}

const char *bw_quantity_print(bw_arena *arena, bw_quantity quantity, double value,
                              bw_units units)
{
    if (quantity == BW_LENGTH) {
        return print_length(arena, value, units);
    }
    const char *unit = NULL;
    double size = 1.0;
    for (size_t i = 0; i < sizeof choices / sizeof choices[0]; i++) {
        if (choices[i].quantity != quantity || choices[i].units != units) {
            continue;
        }
        const double next = bw_unit_size(quantity, choices[i].unit);
        const double nearly =
            1.0 - 1e-9; /* 1 kN of 1000 N, whatever the last digit says */
        if (unit == NULL ||
            fabs(shown(value, size)) >= nearly * choices[i].least * next) {
            unit = choices[i].unit;
            size = next;
        }
    }
    return unit == NULL ? print_number(arena, value)
                        : print_with_unit(arena, value / size, unit);
}

const char *bw_length_print_small(bw_arena *arena, double value, bw_units units)
{
    return units == BW_IMPERIAL ? print_inches(arena, value, false)
                                : print_millimetres(arena, value);
}

const char *bw_length_print_decimal(bw_arena *arena, double value, bw_units units)
{
    const char *unit = units == BW_IMPERIAL ? "in" : "mm";
    const int decimals = units == BW_IMPERIAL ? 2 : 1;
    const double count = value / bw_unit_size(BW_LENGTH, unit);
    if (!(fabs(count) < most_parts)) {
        return print_with_unit(arena, count, unit);
    }
    const double half_step = 0.5 * pow(10.0, -decimals);
    return bw_arena_print(arena, "%.*f %s", decimals,
                          fabs(count) < half_step ? 0.0 : count, unit);
}
