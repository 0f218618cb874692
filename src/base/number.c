/* number.c - plain text, and numbers with fractions as a carpenter writes them.
 *
 * strtod sees only what was found here to be a plain decimal: no hexadecimal, no words.
 */
#include "number.h"

#include "text.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    const char *utf8, *ascii;
} replacement;

static const replacement replacements[] = {
    {"\xE2\x80\xB2", "'"},    /* U+2032 prime */
    {"\xE2\x80\x98", "'"},    /* U+2018 left single quote */
    {"\xE2\x80\x99", "'"},    /* U+2019 right single quote */
    {"\xCA\xB9", "'"},        /* U+02B9 modifier prime */
    {"\xE2\x80\xB3", "\""},   /* U+2033 double prime */
    {"\xE2\x80\x9C", "\""},   /* U+201C left double quote */
    {"\xE2\x80\x9D", "\""},   /* U+201D right double quote */
    {"\xCA\xBA", "\""},       /* U+02BA modifier double prime */
    {"\xE2\x88\x92", "-"},    /* U+2212 minus */
    {"\xE2\x80\x90", "-"},    /* U+2010 hyphen */
    {"\xE2\x80\x91", "-"},    /* U+2011 non-breaking hyphen */
    {"\xE2\x80\x93", "-"},    /* U+2013 en dash */
    {"\xE2\x81\x84", "/"},    /* U+2044 fraction slash */
    {"\xC2\xA0", " "},        /* U+00A0 no-break space */
    {"\xE2\x80\x89", " "},    /* U+2009 thin space */
    {"\xE2\x80\xAF", " "},    /* U+202F narrow no-break space */
    {"\xC2\xB7", "*"},        /* U+00B7 middle dot */
    {"\xE2\x8B\x85", "*"},    /* U+22C5 dot operator */
    {"\xC3\x97", "*"},        /* U+00D7 multiplication sign */
    {"\xC2\xB2", "^2"},       /* U+00B2 superscript two */
    {"\xC2\xB3", "^3"},       /* U+00B3 superscript three */
    {"\xE2\x81\xB4", "^4"},   /* U+2074 superscript four */
    {"\xC2\xB0", " deg "},    /* U+00B0 degree sign */
    {"\xC2\xBC", "1/4 "},     /* U+00BC; the space keeps a following digit away */
    {"\xC2\xBD", "1/2 "},     /* U+00BD */
    {"\xC2\xBE", "3/4 "},     /* U+00BE */
    {"\xE2\x85\x93", "1/3 "}, /* U+2153 */
    {"\xE2\x85\x94", "2/3 "}, /* U+2154 */
    {"\xE2\x85\x9B", "1/8 "}, /* U+215B */
    {"\xE2\x85\x9C", "3/8 "}, /* U+215C */
    {"\xE2\x85\x9D", "5/8 "}, /* U+215D */
    {"\xE2\x85\x9E", "7/8 "}, /* U+215E */
};

bool bwi_is_digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

bool bwi_is_letter(char letter)
{
    return letter >= 'a' && letter <= 'z';
}

void bwi_skip_space(const char **at)
{
    while (**at == ' ') {
        (*at)++;
    }
}

typedef struct {
    char *data;
    size_t length;
    bool full;
} plain_text;

static void put(plain_text *plain, char letter)
{
    const char last = plain->length == 0 ? ' ' : plain->data[plain->length - 1];
    if (letter == ' ' && last == ' ') {
        return;
    }
    if (letter == '\'' && last == '\'') {
        plain->data[plain->length - 1] = '"'; /* two single marks stand for inches */
        return;
    }
    if (plain->length + 1 >= bwi_plain_size) {
        plain->full = true;
        return;
    }
    plain->data[plain->length++] = letter;
}

static char plain_letter(char letter)
{
    if (letter >= 'A' && letter <= 'Z') {
        return (char)(letter - 'A' + 'a');
    }
    if (letter == '\t') {
        return ' ';
    }
    return letter >= 0x20 && letter < 0x7F ? letter : '?';
}

/* Writes the replacement of the character at the start of the text; false if it has none.
 */
static bool put_replacement(plain_text *plain, const char *text, size_t length)
{
    for (size_t i = 0; i < sizeof replacements / sizeof replacements[0]; i++) {
        const replacement *entry = &replacements[i];
        if (strlen(entry->utf8) != length || memcmp(entry->utf8, text, length) != 0) {
            continue;
        }
        const bool after_digit =
            plain->length > 0 && bwi_is_digit(plain->data[plain->length - 1]);
        if (after_digit && bwi_is_digit(entry->ascii[0])) {
            put(plain, ' '); /* 7 and one half, not 71/2 */
        }
        for (const char *at = entry->ascii; *at != '\0'; at++) {
            put(plain, *at);
        }
        return true;
    }
    return false;
}

bool bwi_plain_write(const char *text, char plain[bwi_plain_size])
{
    plain_text out = {.data = plain};
    while (*text != '\0' && !out.full) {
        const size_t length = bwi_utf8_length(text);
        if (length < 2) {
            put(&out, length == 1 ? plain_letter(*text) : '?');
            text++;
            continue;
        }
        if (!put_replacement(&out, text, length)) {
            put(&out, '?');
        }
        text += length;
    }
    if (out.length > 0 && plain[out.length - 1] == ' ') {
        out.length--;
    }
    plain[out.length] = '\0';
    return !out.full;
}

static size_t count_digits(const char *at)
{
    size_t n = 0;
    while (bwi_is_digit(at[n])) {
        n++;
    }
    return n;
}

/* Reads digits/digits. False, and *at stays, if there is no such thing; a zero below the
 * line gives NaN. */
static bool fraction_read(const char **at, double *value)
{
    const size_t above = count_digits(*at);
    if (above == 0 || (*at)[above] != '/') {
        return false;
    }
    const char *const denominator = *at + above + 1;
    const size_t below = count_digits(denominator);
    if (below == 0) {
        return false;
    }
    const double d = strtod(denominator, NULL);
    *value = d > 0.0 ? strtod(*at, NULL) / d : (double)NAN;
    *at = denominator + below;
    return true;
}

/* Length of digits[.digits][e[+-]digits] with a digit before the exponent; 0 if none. */
static size_t decimal_length(const char *at)
{
    size_t n = count_digits(at);
    size_t digits = n;
    if (at[n] == '.') {
        const size_t after = count_digits(at + n + 1);
        digits += after;
        n += 1 + after;
    }
    if (digits == 0) {
        return 0;
    }
    if (at[n] == 'e') {
        const size_t sign = at[n + 1] == '+' || at[n + 1] == '-' ? 1 : 0;
        const size_t exponent = count_digits(at + n + 1 + sign);
        n += exponent > 0 ? 1 + sign + exponent : 0;
    }
    return n;
}

static bool begins_with(const char *at, const char *word)
{
    return strncmp(at, word, strlen(word)) == 0;
}

static bw_parse decimal_read(const char **at, double *value)
{
    const size_t length = decimal_length(*at);
    if (length == 0) {
        return begins_with(*at, "inf") || begins_with(*at, "nan") ? BW_PARSE_RANGE
                                                                  : BW_PARSE_NUMBER;
    }
    char digits[bwi_plain_size] = {0};
    memcpy(digits, *at, length); /* a copy ends where the decimal ends: 0x10 is a 0 */
    errno = 0;
    *value = strtod(digits, NULL);
    *at += length;
    return errno == ERANGE ? BW_PARSE_RANGE : BW_PARSE_OK;
}

/* Adds the fraction of "25 1/2" or "25-1/2" to the whole number, if there is one. */
static bw_parse add_fraction(const char **at, double *value, bool *is_whole)
{
    const char *next = *at + 1;
    double fraction = 0.0;
    if ((**at != ' ' && **at != '-') || !fraction_read(&next, &fraction)) {
        return BW_PARSE_OK;
    }
    if (!(fraction < 1.0)) {
        return BW_PARSE_NUMBER; /* 25 3/2: a slip; or a zero below the line */
    }
    *value += fraction;
    *is_whole = false;
    *at = next;
    return BW_PARSE_OK;
}

bw_parse bwi_number_read(const char **at, double *value, bool *is_whole)
{
    const char *next = *at;
    double number = 0.0;
    bw_parse fault = BW_PARSE_OK;
    *is_whole = false;
    if (fraction_read(&next, &number)) {
        fault = isnan(number) ? BW_PARSE_NUMBER : BW_PARSE_OK;
    } else {
        const size_t digits = count_digits(next);
        fault = decimal_read(&next, &number);
        *is_whole = digits > 0 && next == *at + digits;
        if (fault == BW_PARSE_OK && *is_whole) {
            fault = add_fraction(&next, &number, is_whole);
        }
    }
    if (fault == BW_PARSE_OK && strchr(",./0123456789", *next) != NULL && *next != '\0') {
        fault = BW_PARSE_NUMBER; /* 1,5 or 1.2.3 or 1/2/3 */
    }
    if (fault == BW_PARSE_OK && !isfinite(number)) {
        fault = BW_PARSE_RANGE;
    }
    if (fault == BW_PARSE_OK) {
        *value = number;
        *at = next;
    }
    return fault;
}
