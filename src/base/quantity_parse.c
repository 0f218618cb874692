/* quantity_parse.c - quantities as people write them, and what to say when they are
 * wrong.
 *
 * Decisions where a text could be read in two ways; where a slip is likelier than a
 * meaning, the text is refused (BW_PARSE_MIXED):
 * - the sign belongs to the whole: -2 ft 6 in is minus two and a half feet;
 * - inches after feet stay under 12 and the feet are whole: 2 ft 14 in, 2.5 ft 3 in
 * refused;
 * - 7-6 is 7 ft 6 in, 7-1/2 is seven and a half of nothing, 7-6 in is refused;
 * - a number after feet needs no unit (6 ft 6), unless it could be an exponent (6 ft2);
 * - no other units are added up: 2 m 30 cm is refused;
 * - a comma is refused: it is a decimal point to some and a thousands mark to others;
 * - pounds are mass or force as the quantity asks; kg never is a force, N never a mass.
 */
#include "number.h"
#include "quantity.h"
#include "text.h"

#include <math.h>
#include <string.h>

static bool begins_number(char letter)
{
    return bwi_is_digit(letter) || letter == '.' || letter == '-' || letter == '+';
}

/* The text must be at its end after the unit. */
static bw_parse end_read(const char *at)
{
    bwi_skip_space(&at);
    if (*at == '\0') {
        return BW_PARSE_OK;
    }
    return begins_number(*at) ? BW_PARSE_MIXED : BW_PARSE_UNIT;
}

/* The unit of a number already read, and nothing after it. */
static bw_parse with_unit(bw_quantity quantity, const char *at, double count,
                          double *value)
{
    bwi_skip_space(&at);
    if (*at == '\0') {
        *value = count;
        return quantity == BW_NUMBER ? BW_PARSE_OK : BW_PARSE_NO_UNIT;
    }
    if (begins_number(*at)) {
        return BW_PARSE_NUMBER;
    }
    bwi_size size;
    if (quantity == BW_NUMBER || bwi_unit_read(quantity, &at, &size) != BW_PARSE_OK) {
        return BW_PARSE_UNIT;
    }
    *value = bwi_size_apply(size, count);
    return end_read(at);
}

static bw_parse parse_plain(bw_quantity quantity, const char *at, double *value)
{
    double count = 0.0;
    bool is_whole = false;
    const bw_parse fault = bwi_number_read(&at, &count, &is_whole);
    return fault != BW_PARSE_OK ? fault : with_unit(quantity, at, count, value);
}

/* Moves past one of the names and a full stop after it. */
static bool take_unit(const char **at, const char *const names[], size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const size_t length = strlen(names[i]);
        const char *const next = *at + length;
        if (strncmp(*at, names[i], length) == 0 && !bwi_is_letter(*next)) {
            *at = next + (*next == '.' && !bwi_is_digit(next[1]) ? 1 : 0);
            return true;
        }
    }
    return false;
}

static bool take_feet(const char **at)
{
    static const char *const names[] = {"'", "ft", "feet", "foot"};
    return take_unit(at, names, sizeof names / sizeof names[0]);
}

static bool take_inches(const char **at)
{
    static const char *const names[] = {"\"", "in", "inches", "inch"};
    return take_unit(at, names, sizeof names / sizeof names[0]);
}

/* Reads the inches after whole feet, to the end of the text. */
static bw_parse parse_inches(const char *at, double feet, bool unit_needed, double *value)
{
    double inches = 0.0;
    bool is_whole = false;
    const bw_parse fault = bwi_number_read(&at, &inches, &is_whole);
    if (fault != BW_PARSE_OK) {
        return fault;
    }
    bwi_skip_space(&at);
    if (!take_inches(&at) && unit_needed) {
        return BW_PARSE_UNIT;
    }
    bwi_skip_space(&at);
    bwi_size inch;
    const char *name = "in";
    if (*at != '\0' || !(inches < 12.0) ||
        bwi_unit_read(BW_LENGTH, &name, &inch) != BW_PARSE_OK) {
        return BW_PARSE_MIXED;
    }
    *value = bwi_size_apply(inch, 12.0 * feet + inches);
    return BW_PARSE_OK;
}

/* Moves to the inches after feet: 7'6, 7' 6, 7'-6 and 7' - 6, but not 7' -6. */
static void skip_dash(const char **at)
{
    const char *next = *at;
    const bool space_before = *next == ' ';
    bwi_skip_space(&next);
    if (*next == '-') {
        const bool space_after = next[1] == ' ';
        next += space_before == space_after ? 1 : 0;
        bwi_skip_space(&next);
    }
    *at = next;
}

static bw_parse parse_length(const char *at, double *value)
{
    const char *const start = at;
    double feet = 0.0;
    bool is_whole = false;
    const bw_parse fault = bwi_number_read(&at, &feet, &is_whole);
    if (fault != BW_PARSE_OK) {
        return fault;
    }
    if (is_whole && at[0] == '-' && bwi_is_digit(at[1])) {
        at++; /* 7-6: nothing may follow the inches */
        const size_t inches_length = strspn(at, "0123456789./ ");
        return at[inches_length] == '\0' ? parse_inches(at, feet, false, value)
                                         : BW_PARSE_MIXED;
    }
    bwi_skip_space(&at);
    const bool is_word = bwi_is_letter(*at);
    if (!take_feet(&at)) {
        return parse_plain(BW_LENGTH, start, value);
    }
    const bool is_attached = is_word && bwi_is_digit(*at);
    skip_dash(&at);
    if (!bwi_is_digit(*at)) { /* no .5 here: 6 ft.5 in is a slip for 6 ft. 5 in */
        return parse_plain(BW_LENGTH, start, value);
    }
    return is_whole ? parse_inches(at, feet, is_attached, value) : BW_PARSE_MIXED;
}

/* The run of "1 in 12" or "1:12", to the end of the text. */
static bw_parse parse_run(const char *at, double rise, double *value)
{
    double run = 0.0;
    bool is_whole = false;
    bwi_skip_space(&at);
    const bw_parse fault = bwi_number_read(&at, &run, &is_whole);
    if (fault != BW_PARSE_OK) {
        return fault;
    }
    if (*at != '\0') {
        return BW_PARSE_UNIT;
    }
    if (!(run > 0.0)) {
        return BW_PARSE_RANGE;
    }
    *value = rise / run;
    return BW_PARSE_OK;
}

static bw_parse parse_incline(const char *at, double count, double *value)
{
    const double right_angle = acos(0.0);
    double angle = 0.0;
    const bw_parse fault = with_unit(BW_ANGLE, at, count, &angle);
    if (fault != BW_PARSE_OK) {
        return fault;
    }
    if (!(angle < right_angle)) {
        return BW_PARSE_RANGE;
    }
    *value = tan(angle);
    return BW_PARSE_OK;
}

static bw_parse parse_slope(const char *at, double *value)
{
    double count = 0.0;
    bool is_whole = false;
    const bw_parse fault = bwi_number_read(&at, &count, &is_whole);
    if (fault != BW_PARSE_OK) {
        return fault;
    }
    bwi_skip_space(&at);
    if (*at == ':') {
        return parse_run(at + 1, count, value);
    }
    if (strncmp(at, "in ", 3) == 0) {
        return parse_run(at + 3, count, value);
    }
    if (strcmp(at, "%") == 0 || strcmp(at, "percent") == 0) {
        *value = count * bw_unit_size(BW_SLOPE, "%");
        return BW_PARSE_OK;
    }
    return parse_incline(at, count, value);
}

static bw_parse parse_unsigned(bw_quantity quantity, const char *at, double *value)
{
    switch (quantity) {
    case BW_LENGTH:
        return parse_length(at, value);
    case BW_SLOPE:
        return parse_slope(at, value);
    default:
        return parse_plain(quantity, at, value);
    }
}

bw_parse bw_quantity_parse(bw_quantity quantity, const char *text, double *value)
{
    char plain[bwi_plain_size];
    if (text == NULL || text[strspn(text, " \t")] == '\0') {
        return BW_PARSE_EMPTY;
    }
    if (!bwi_plain_write(text, plain)) {
        return BW_PARSE_NUMBER;
    }
    const char *at = plain;
    const double sign = *at == '-' ? -1.0 : 1.0;
    at += *at == '-' || *at == '+' ? 1 : 0;
    bwi_skip_space(&at);
    double found = 0.0;
    const bw_parse fault = parse_unsigned(quantity, at, &found);
    if (fault != BW_PARSE_OK) {
        return fault;
    }
    if (!isfinite(found)) {
        return BW_PARSE_RANGE;
    }
    *value = found == 0.0 ? 0.0 : sign * found;
    return BW_PARSE_OK;
}

/* ---- what to say ---- */

/* The text as quoted in a message, cut short at a character's end. */
static const char *quote(bw_arena *arena, const char *text)
{
    enum { most_columns = 48 };
    bw_text quoted = bw_text_new(arena);
    bw_text_add(&quoted, "\"");
    for (size_t n = 0; *text != '\0'; n++) {
        if (n == most_columns) {
            bw_text_add(&quoted, "...");
            break;
        }
        const size_t length = bwi_utf8_length(text);
        bw_text_add_bytes(&quoted, text, length == 0 ? 1 : length);
        text += length == 0 ? 1 : length;
    }
    bw_text_add(&quoted, "\"");
    return bw_text_string(&quoted);
}

static const char *message(bw_arena *arena, bw_parse fault, bw_quantity quantity,
                           const char *quoted)
{
    const char *name = bw_quantity_name(quantity);
    const char *article = quantity == BW_AREA || quantity == BW_ANGLE ? "an" : "a";
    switch (fault) {
    case BW_PARSE_OK:
        return bw_arena_print(arena, "%s is %s %s", quoted, article, name);
    case BW_PARSE_EMPTY:
        return bw_arena_print(arena, "an empty text where %s %s must stand", article,
                              name);
    case BW_PARSE_NUMBER:
        return bw_arena_print(arena, "%s has no number that can be read", quoted);
    case BW_PARSE_NO_UNIT:
        return bw_arena_print(arena, "%s has no unit; %s %s needs one", quoted, article,
                              name);
    case BW_PARSE_UNIT:
        return quantity == BW_NUMBER
                   ? bw_arena_print(arena, "%s has a unit where a bare number must stand",
                                    quoted)
                   : bw_arena_print(arena, "%s has no unit of %s", quoted, name);
    case BW_PARSE_MIXED:
        return bw_arena_print(arena, "%s has parts that do not go together", quoted);
    case BW_PARSE_RANGE:
        return bw_arena_print(arena, "%s is not a number of a usable size", quoted);
    }
    return bw_arena_print(arena, "%s is wrong", quoted);
}

static bool has_unit(bw_quantity quantity, const char *text)
{
    double value = 0.0;
    return bw_quantity_parse(quantity, text, &value) == BW_PARSE_OK;
}

/* A sentence before the example, for the slips that can be recognised; "" for others. */
static const char *slip(bw_parse fault, bw_quantity quantity, const char *text)
{
    if (fault == BW_PARSE_NUMBER && strchr(text, ',') != NULL) {
        return "write a point before decimals and nothing between thousands; ";
    }
    if (fault == BW_PARSE_MIXED && quantity == BW_LENGTH) {
        return "only whole feet and less than 12 inches go together; ";
    }
    if (fault == BW_PARSE_UNIT && bwi_quantity_has_force(quantity) &&
        strpbrk(text, "kK") != NULL && has_unit(BW_MASS, text)) {
        return "a kilogram is a mass, and a force is needed; ";
    }
    if (fault == BW_PARSE_UNIT && bwi_quantity_has_mass(quantity) &&
        has_unit(BW_FORCE, text)) {
        return "a newton is a force, and a mass is needed; ";
    }
    return "";
}

const char *bw_parse_explain(bw_arena *arena, bw_parse fault, bw_quantity quantity,
                             const char *text, const char **hint)
{
    const char *known = text == NULL ? "" : text;
    if (hint != NULL) {
        *hint = bw_arena_print(arena, "%swrite it as %s", slip(fault, quantity, known),
                               bw_quantity_example(quantity));
    }
    const char *quoted = quote(arena, known);
    return quoted == NULL ? NULL : message(arena, fault, quantity, quoted);
}
