/* quantity.c - every unit and its size: the only file with unit factors.
 *
 * Defined values: the inch is 0.0254 m and the pound 0.45359237 kg exactly (International
 * Yard and Pound Agreement, 1959: MEMORY); standard gravity, which makes a pound-force of
 * a pound, is 9.80665 m/s2 exactly (3rd CGPM, 1901: MEMORY). All other customary units
 * are derived from these three. A year is the Julian year of 365.25 days.
 *
 * A unit is a product of named units with exponents; what it measures follows from the
 * powers of metre, kilogram, second and radian. Letter case is free, so mN is read as MN:
 * nobody weighs a deck in millinewtons. */
#include "quantity.h"

#include "number.h"

#include <math.h>
#include <string.h>

const double bw_inch = 0.0254;
const double bw_psf = 0.45359237 * 9.80665 / (0.3048 * 0.3048);

typedef bwi_dimension dimension;

static const struct {
    const char *name, *example;
    dimension powers;
} quantities[BW_QUANTITY_COUNT] = {
    [BW_NUMBER] = {"number", "\"0.35\"", {0, 0, 0, 0}},
    [BW_LENGTH] = {"length", "\"6 ft 6 in\" or \"2.29 m\"", {1, 0, 0, 0}},
    [BW_AREA] = {"area", "\"12 in2\" or \"0.4 m2\"", {2, 0, 0, 0}},
    [BW_SECOND_MOMENT] = {"second moment of area",
                          "\"320 in4\" or \"8400 cm4\"",
                          {4, 0, 0, 0}},
    [BW_SECTION_MODULUS] = {"section modulus", "\"52 in3\" or \"850 cm3\"", {3, 0, 0, 0}},
    [BW_FORCE] = {"force", "\"300 lb\" or \"1.3 kN\"", {1, 1, -2, 0}},
    [BW_MASS] = {"mass", "\"254 lb\" or \"115 kg\"", {0, 1, 0, 0}},
    [BW_PRESSURE] = {"pressure", "\"60 psf\" or \"2.9 kPa\"", {-1, 1, -2, 0}},
    [BW_STRESS] = {"stress", "\"1350 psi\" or \"9.3 MPa\"", {-1, 1, -2, 0}},
    [BW_LINE_LOAD] = {"load per length", "\"280 lb/ft\" or \"4 kN/m\"", {0, 1, -2, 0}},
    [BW_MOMENT] = {"moment", "\"1200 lb-ft\" or \"3 kN-m\"", {2, 1, -2, 0}},
    [BW_DENSITY] = {"density", "\"42 lb/ft3\" or \"640 kg/m3\"", {-3, 1, 0, 0}},
    [BW_ANGLE] = {"angle", "\"30 deg\" or \"0.5 rad\"", {0, 0, 0, 1}},
    [BW_SLOPE] = {"slope", "\"1 in 12\" or \"8 %\"", {0, 0, 0, 0}},
    [BW_SPEED] = {"speed", "\"15 mph\" or \"20 km/h\"", {1, 0, -1, 0}},
    [BW_STIFFNESS] = {"stiffness", "\"1000 lb/in\" or \"200 kN/m\"", {0, 1, -2, 0}},
    [BW_TURN_STIFFNESS] = {"turning stiffness",
                           "\"15000 lb-ft/rad\" or \"20 kN-m/rad\"",
                           {2, 1, -2, -1}},
    [BW_SUBGRADE] = {"subgrade modulus", "\"50 lb/in3\" or \"20 MN/m3\"", {-2, 1, -2, 0}},
    [BW_SUBGRADE_RATE] = {"lateral pressure per depth",
                          "\"150 psf/ft\" or \"23.6 kPa/m\"",
                          {-2, 1, -2, 0}},
    [BW_DURATION] = {"duration", "\"10 min\" or \"2 years\"", {0, 0, 1, 0}},
};

/* Powers of the named units; what a pound measures depends on the quantity. */
enum { METRE, KILOGRAM, NEWTON, PASCAL, SECOND, RADIAN, POUND, KIND_COUNT };
static const dimension kinds[KIND_COUNT] = {
    [METRE] = {1, 0, 0, 0},    [KILOGRAM] = {0, 1, 0, 0}, [NEWTON] = {1, 1, -2, 0},
    [PASCAL] = {-1, 1, -2, 0}, [SECOND] = {0, 0, 1, 0},   [RADIAN] = {0, 0, 0, 1},
    [POUND] = {0, 1, 0, 0},
};

/* As above / below; the products stay exact in a double. */
#define POUNDS          45359237.0, 1e8
#define GRAVITY         980665.0, 1e5
#define POUNDS_FORCE(n) ((n)*45359237.0 * 980665.0), 1e13

static const struct {
    const char *name;
    int kind;
    bwi_size size;
} units[] = {
    {"m", METRE, {1.0, 1.0}},
    {"mm", METRE, {1.0, 1e3}},
    {"cm", METRE, {1.0, 1e2}},
    {"km", METRE, {1e3, 1.0}},
    {"in", METRE, {254.0, 1e4}},
    {"ft", METRE, {12.0 * 254.0, 1e4}},
    {"yd", METRE, {36.0 * 254.0, 1e4}},
    {"mile", METRE, {5280.0 * 12.0 * 254.0, 1e4}},
    {"kg", KILOGRAM, {1.0, 1.0}},
    {"g", KILOGRAM, {1.0, 1e3}},
    {"tonne", KILOGRAM, {1e3, 1.0}},
    {"lbm", KILOGRAM, {POUNDS}},
    {"lb", POUND, {POUNDS}},
    {"n", NEWTON, {1.0, 1.0}},
    {"kn", NEWTON, {1e3, 1.0}},
    {"mn", NEWTON, {1e6, 1.0}},
    {"lbf", NEWTON, {POUNDS_FORCE(1.0)}},
    {"kip", NEWTON, {POUNDS_FORCE(1e3)}},
    {"kgf", NEWTON, {GRAVITY}},
    {"pa", PASCAL, {1.0, 1.0}},
    {"kpa", PASCAL, {1e3, 1.0}},
    {"mpa", PASCAL, {1e6, 1.0}},
    {"gpa", PASCAL, {1e9, 1.0}},
    {"s", SECOND, {1.0, 1.0}},
    {"min", SECOND, {60.0, 1.0}},
    {"h", SECOND, {3600.0, 1.0}},
    {"day", SECOND, {86400.0, 1.0}},
    {"week", SECOND, {7.0 * 86400.0, 1.0}},
    {"month", SECOND, {365.25 * 86400.0, 12.0}},
    {"year", SECOND, {365.25 * 86400.0, 1.0}},
    {"rad", RADIAN, {1.0, 1.0}},
    {"deg", RADIAN, {3.14159265358979323846, 180.0}},
};

/* Other spellings, and short names of whole expressions. */
static const struct {
    const char *name, *meaning;
} aliases[] = {
    {"'", "ft"},           {"foot", "ft"},        {"feet", "ft"},
    {"\"", "in"},          {"inch", "in"},        {"inches", "in"},
    {"yard", "yd"},        {"yards", "yd"},       {"mi", "mile"},
    {"miles", "mile"},     {"metre", "m"},        {"metres", "m"},
    {"meter", "m"},        {"meters", "m"},       {"millimetre", "mm"},
    {"millimetres", "mm"}, {"millimeter", "mm"},  {"millimeters", "mm"},
    {"centimetre", "cm"},  {"centimetres", "cm"}, {"centimeter", "cm"},
    {"centimeters", "cm"}, {"kilometre", "km"},   {"kilometres", "km"},
    {"kilometer", "km"},   {"kilometers", "km"},  {"lbs", "lb"},
    {"pound", "lb"},       {"pounds", "lb"},      {"kgs", "kg"},
    {"kilogram", "kg"},    {"kilograms", "kg"},   {"gram", "g"},
    {"grams", "g"},        {"tonnes", "tonne"},   {"newton", "n"},
    {"newtons", "n"},      {"kilonewton", "kn"},  {"kilonewtons", "kn"},
    {"kips", "kip"},       {"pascal", "pa"},      {"pascals", "pa"},
    {"psi", "lbf/in^2"},   {"ksi", "kip/in^2"},   {"psf", "lbf/ft^2"},
    {"ksf", "kip/ft^2"},   {"plf", "lbf/ft"},     {"klf", "kip/ft"},
    {"pcf", "lb/ft^3"},    {"pci", "lb/in^3"},    {"nm", "n-m"},
    {"knm", "kn-m"},       {"mnm", "mn-m"},       {"mph", "mile/h"},
    {"kph", "km/h"},       {"kmh", "km/h"},       {"fps", "ft/s"},
    {"sec", "s"},          {"second", "s"},       {"seconds", "s"},
    {"mins", "min"},       {"minute", "min"},     {"minutes", "min"},
    {"hr", "h"},           {"hrs", "h"},          {"hour", "h"},
    {"hours", "h"},        {"d", "day"},          {"days", "day"},
    {"weeks", "week"},     {"months", "month"},   {"yr", "year"},
    {"yrs", "year"},       {"years", "year"},     {"radian", "rad"},
    {"radians", "rad"},    {"degs", "deg"},       {"degree", "deg"},
    {"degrees", "deg"},
};

const char *bw_quantity_name(bw_quantity quantity)
{
    return quantity < BW_QUANTITY_COUNT ? quantities[quantity].name : "quantity";
}

const char *bw_quantity_example(bw_quantity quantity)
{
    return quantity < BW_QUANTITY_COUNT ? quantities[quantity].example : "";
}

bool bwi_quantity_has_force(bw_quantity quantity)
{
    return quantity < BW_QUANTITY_COUNT && quantities[quantity].powers.s == -2;
}

bool bwi_quantity_has_mass(bw_quantity quantity)
{
    return quantity < BW_QUANTITY_COUNT && quantities[quantity].powers.kg == 1 &&
           quantities[quantity].powers.s == 0;
}

double bwi_size_apply(bwi_size size, double count)
{
    return count * size.above / size.below;
}

/* A unit expression while it is read. */
typedef struct {
    dimension powers;
    bwi_size size;
} measure;

/* Multiplies the product by the unit to the power; a negative power divides. */
static void multiply(measure *product, const measure *unit, int power)
{
    product->powers.m += power * unit->powers.m;
    product->powers.kg += power * unit->powers.kg;
    product->powers.s += power * unit->powers.s;
    product->powers.rad += power * unit->powers.rad;
    for (int i = 0; i < power; i++) {
        product->size.above *= unit->size.above;
        product->size.below *= unit->size.below;
    }
    for (int i = 0; i > power; i--) {
        product->size.above *= unit->size.below;
        product->size.below *= unit->size.above;
    }
}

static bool same_word(const char *name, const char *word, size_t length)
{
    return strlen(name) == length && memcmp(name, word, length) == 0;
}

static bool named_unit(const char *word, size_t length, bool pound_is_force,
                       measure *unit)
{
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (same_word(units[i].name, word, length)) {
            if (units[i].kind == POUND && pound_is_force) {
                return named_unit("lbf", 3, false, unit);
            }
            *unit = (measure){kinds[units[i].kind], units[i].size};
            return true;
        }
    }
    return false;
}

static size_t word_length(const char *at)
{
    if (*at == '\'' || *at == '"') {
        return 1;
    }
    size_t n = 0;
    while (bwi_is_letter(at[n])) {
        n++;
    }
    return n;
}

/* Reads the exponent after a unit: ^2 or 2, up to 4. 1 if there is none, 0 if it is
 * wrong. */
static int exponent_read(const char **at)
{
    const bool raised = **at == '^';
    const char *digit = *at + (raised ? 1 : 0);
    if (!raised && !bwi_is_digit(*digit)) {
        return 1;
    }
    if (*digit < '2' || *digit > '4' || bwi_is_digit(digit[1])) {
        return 0;
    }
    *at = digit + 1;
    return *digit - '0';
}

/* What joins the unit just read to the next one. */
typedef enum { END, TIMES, OVER } joint;

static bool take_word(const char **at, const char *word)
{
    const size_t length = word_length(*at);
    if (!same_word(word, *at, length)) {
        return false;
    }
    *at += length;
    *at += **at == '.' ? 1 : 0; /* sq. */
    bwi_skip_space(at);
    return true;
}

static joint joint_read(const char **at)
{
    const char *next = *at;
    bwi_skip_space(&next);
    joint found = TIMES;
    if (*next == '/' || *next == '-' || *next == '*') {
        found = *next == '/' ? OVER : TIMES;
        next++;
        bwi_skip_space(&next);
    } else if (take_word(&next, "per")) {
        found = OVER;
    }
    if (word_length(next) == 0) {
        return END;
    }
    *at = next;
    return found;
}

/* The power that "sq" or "cubic" before a unit gives it; 1 without. */
static int prefix_read(const char **at)
{
    if (take_word(at, "sq") || take_word(at, "square")) {
        return 2;
    }
    return take_word(at, "cu") || take_word(at, "cubic") ? 3 : 1;
}

static bool expression_read(const char **at, bool pound_is_force, measure *product);

/* Reads one unit by its name or by that of an expression. */
static bool unit_read(const char **at, bool pound_is_force, measure *unit)
{
    const size_t length = word_length(*at);
    const char *const word = *at;
    *at += length;
    if (named_unit(word, length, pound_is_force, unit)) {
        return true;
    }
    for (size_t i = 0; i < sizeof aliases / sizeof aliases[0]; i++) {
        if (same_word(aliases[i].name, word, length)) {
            const char *meaning = aliases[i].meaning;
            return expression_read(&meaning, pound_is_force, unit);
        }
    }
    return false;
}

/* Reads units joined by /, - or spaces. Nothing may be multiplied after a division: in
 * N/m-s it would not be clear where the metre stands. */
static bool expression_read(const char **at, bool pound_is_force, measure *product)
{
    enum { most_units = 6 };
    *product = (measure){.size = {1.0, 1.0}};
    bool divided = false;
    joint found = TIMES;
    for (int n = 0; found != END; n++) {
        if (n == most_units || (divided && found == TIMES)) {
            return false;
        }
        divided = found == OVER;
        measure unit;
        const int prefix = prefix_read(at);
        if (!unit_read(at, pound_is_force, &unit)) {
            return false;
        }
        *at += **at == '.' && !bwi_is_digit((*at)[1]) ? 1 : 0; /* in. and ft. */
        const int exponent = exponent_read(at);
        if (exponent == 0 || (exponent > 1 && prefix > 1)) {
            return false;
        }
        multiply(product, &unit, (divided ? -1 : 1) * exponent * prefix);
        found = joint_read(at);
    }
    return true;
}

static bool same_dimension(dimension a, dimension b)
{
    return a.m == b.m && a.kg == b.kg && a.s == b.s && a.rad == b.rad;
}

bw_parse bwi_unit_read(bw_quantity quantity, const char **at, bwi_size *size)
{
    const char *next = *at;
    measure product;
    if (quantity >= BW_QUANTITY_COUNT ||
        !expression_read(&next, bwi_quantity_has_force(quantity), &product) ||
        !same_dimension(product.powers, quantities[quantity].powers) ||
        !isfinite(product.size.above) || !isfinite(product.size.below)) {
        return BW_PARSE_UNIT;
    }
    *size = product.size;
    *at = next;
    return BW_PARSE_OK;
}

bwi_dimension bwi_quantity_dimension(bw_quantity quantity)
{
    return quantities[quantity].powers;
}

const char *bwi_unit_word(bw_quantity quantity, size_t i, bwi_dimension *found)
{
    const size_t n_units = sizeof units / sizeof units[0];
    const size_t n_aliases = sizeof aliases / sizeof aliases[0];
    if (i >= n_units + n_aliases) {
        return NULL;
    }
    const char *word = i < n_units ? units[i].name : aliases[i - n_units].name;
    const char *at = word;
    measure unit = {.powers = {0, 0, 0, 0}};
    (void)unit_read(&at, bwi_quantity_has_force(quantity), &unit);
    *found = unit.powers;
    return word;
}

double bw_unit_size(bw_quantity quantity, const char *unit)
{
    char plain[bwi_plain_size];
    const char *at = plain;
    bwi_size size;
    if (!bwi_plain_write(unit, plain)) {
        return 0.0;
    }
    if (quantity == BW_SLOPE && strcmp(plain, "%") == 0) {
        return bwi_size_apply((bwi_size){1.0, 1e2}, 1.0);
    }
    if (bwi_unit_read(quantity, &at, &size) != BW_PARSE_OK || *at != '\0') {
        return 0.0;
    }
    return bwi_size_apply(size, 1.0);
}
