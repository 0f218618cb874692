/* quantity_pattern.c - how quantities are written, as a regular expression for schemas:
 * the grammar of number.c and quantity_parse.c with the words of the table in quantity.c.
 * The test runs both over the same texts. */
#include "quantity.h"

#include <ctype.h>
#include <string.h>

/* What bwi_plain_write takes for a blank, a dash, feet, inches and a stroke. */
#define BLANK    "[ \\t\\u00a0\\u2009\\u202f]"
#define DASH     "[-\\u2212\\u2010\\u2011\\u2013]"
#define MARK     "['\\u2032\\u2018\\u2019\\u02b9]"
#define MARKS    "(?:[\"\\u2033\\u201c\\u201d\\u02ba]|" MARK MARK ")"
#define ONE_MARK MARK "(?!" MARK ")"
#define STROKE   "[/\\u2044]"
#define VULGAR   "[\\u00bc-\\u00be\\u2153\\u2154\\u215b-\\u215e]"
#define DEGREE   "\\u00b0"

#define DIGITS   "[0-9]+"
#define FRACTION DIGITS STROKE DIGITS
#define MIXED    "(?:(?:" BLANK "+|" DASH ")" FRACTION "|(?:" BLANK "+|" DASH ")?" VULGAR ")"
#define DECIMAL  "(?:[0-9]+\\.?[0-9]*|\\.[0-9]+)(?:[eE](?:\\+|" DASH ")?[0-9]+)?"
#define NUMBER   "(?:" FRACTION "|" VULGAR "|" DIGITS MIXED "|" DECIMAL ")"

#define NO_LETTER "(?![A-Za-z])"
#define TIMES     BLANK "*(?:[*\\u00b7\\u22c5\\u00d7]" BLANK "*|" DASH BLANK "*)?"
#define OVER      BLANK "*(?:" STROKE "|[Pp][Ee][Rr]" NO_LETTER "\\.?)" BLANK "*"
#define SQUARE    "(?:[Ss][Qq](?:[Uu][Aa][Rr][Ee])?)" NO_LETTER "\\.?" BLANK "*"
#define CUBIC     "(?:[Cc][Uu](?:[Bb][Ii][Cc])?)" NO_LETTER "\\.?" BLANK "*"

enum { most_power = 4, most_classes = 40 };

/* All words that measure the same. */
typedef struct {
    bwi_dimension measures;
} unit_class;

static bool same(bwi_dimension a, bwi_dimension b)
{
    return a.m == b.m && a.kg == b.kg && a.s == b.s && a.rad == b.rad;
}

static bwi_dimension product(bwi_dimension a, int power_a, bwi_dimension b, int power_b)
{
    return (bwi_dimension){power_a * a.m + power_b * b.m, power_a * a.kg + power_b * b.kg,
                           power_a * a.s + power_b * b.s,
                           power_a * a.rad + power_b * b.rad};
}

static size_t classes_find(bw_quantity quantity, unit_class classes[most_classes])
{
    size_t n = 0;
    bwi_dimension measures;
    for (size_t i = 0; bwi_unit_word(quantity, i, &measures) != NULL; i++) {
        bool known = false;
        for (size_t k = 0; k < n; k++) {
            known = known || same(classes[k].measures, measures);
        }
        if (!known && n < most_classes) {
            classes[n++].measures = measures;
        }
    }
    return n;
}

/* One word in any case. */
static void add_word(const char *word, bw_text *out)
{
    for (const char *c = word; *c != '\0'; c++) {
        bw_text_print(out, "[%c%c]", toupper((unsigned char)*c), *c);
    }
}

/* Whether the class has the first length letters of the word, and with_s, as a word. */
static bool has_word(bw_quantity quantity, bwi_dimension measures, const char *word,
                     size_t length, bool with_s)
{
    bwi_dimension found;
    const char *other = NULL;
    for (size_t i = 0; (other = bwi_unit_word(quantity, i, &found)) != NULL; i++) {
        if (same(found, measures) && strncmp(other, word, length) == 0 &&
            strcmp(other + length, with_s ? "s" : "") == 0) {
            return true;
        }
    }
    return false;
}

/* The words of letters: metres beside metre is that with an s. */
static void add_words(bw_quantity quantity, bwi_dimension measures, bw_text *out)
{
    const char *before = "(?:(?:";
    const char *word = NULL;
    bwi_dimension found;
    for (size_t i = 0; (word = bwi_unit_word(quantity, i, &found)) != NULL; i++) {
        const size_t n = strlen(word);
        if (!same(found, measures) || !isalpha((unsigned char)*word) ||
            (n > 1 && word[n - 1] == 's' &&
             has_word(quantity, measures, word, n - 1, false))) {
            continue;
        }
        bw_text_add(out, before);
        add_word(word, out);
        bw_text_add(out, has_word(quantity, measures, word, n, true) ? "[Ss]?" : "");
        before = "|";
    }
}

static void add_class(bw_quantity quantity, bwi_dimension measures, bw_text *out)
{
    add_words(quantity, measures, out);
    bw_text_add(out, ")" NO_LETTER);
    if (has_word(quantity, measures, "'", 1, false)) {
        bw_text_add(out, "|" MARKS "|" ONE_MARK);
    }
    if (has_word(quantity, measures, "deg", 3, false)) {
        bw_text_add(out, "|" DEGREE "(?![.2-4^\\u00b2\\u00b3\\u2074])");
    }
    bw_text_add(out, ")");
}

/* A unit of the class, raised to the power. */
static void add_power(bw_quantity quantity, bwi_dimension measures, int power,
                      bw_text *out)
{
    static const char *const raised[] = {"\\u00b2", "\\u00b3", "\\u2074"};
    static const char *const before[] = {SQUARE, CUBIC};
    bw_text_add(out, "(?:");
    if (power == 2 || power == 3) {
        bw_text_add(out, before[power - 2]);
        add_class(quantity, measures, out);
        bw_text_add(out, "\\.?|");
    }
    add_class(quantity, measures, out);
    if (power == 1) {
        bw_text_add(out, "\\.?)");
    } else {
        bw_text_print(out, "(?:%d|\\.?(?:\\^%d|%s)))", power, power, raised[power - 2]);
    }
}

/* What may stand behind the first unit so that the two measure the quantity. */
static bool add_second(bw_quantity quantity, const unit_class *classes, size_t n,
                       bwi_dimension first, bw_text *out)
{
    const char *before = "(?:";
    for (size_t k = 0; k < n; k++) {
        for (int power = -most_power; power <= most_power; power++) {
            if (power == 0 || !same(product(first, 1, classes[k].measures, power),
                                    bwi_quantity_dimension(quantity))) {
                continue;
            }
            bw_text_add(out, before);
            bw_text_add(out, power > 0 ? TIMES : OVER);
            add_power(quantity, classes[k].measures, power > 0 ? power : -power, out);
            before = "|";
        }
    }
    bw_text_add(out, *before == '|' ? ")" : "");
    return *before == '|';
}

static void add_alternative(const char **before, bw_text *out)
{
    bw_text_add(out, *before);
    *before = "|";
}

/* Three units or more: their words are not looked at. */
static void add_long(bw_text *out)
{
#define ANY_WORD                                                                         \
    "(?!(?:[Pp][Ee][Rr]|[Ss][Qq](?:[Uu][Aa][Rr][Ee])?|[Cc][Uu](?:[Bb][Ii][Cc])?)"        \
    "" NO_LETTER ")[A-Za-z]+" NO_LETTER
#define ANY_UNIT                                                                         \
    "(?:" SQUARE "|" CUBIC ")?(?:" ANY_WORD "|" ONE_MARK "|" MARKS "|" DEGREE            \
    ")(?:[234]|\\.?(?:\\^[234]|[\\u00b2\\u00b3\\u2074])|\\.)?"
    bw_text_add(out, ANY_UNIT "(?:(?:" TIMES "|" OVER ")" ANY_UNIT "){2,5}");
}

/* The units of the quantity: one, or two, exactly; more of them loosely. */
static void add_units(bw_quantity quantity, bw_text *out)
{
    unit_class classes[most_classes];
    const size_t n = classes_find(quantity, classes);
    const bwi_dimension wanted = bwi_quantity_dimension(quantity);
    const bwi_dimension none = {0, 0, 0, 0};
    const char *before = "(?:";
    for (size_t k = 0; k < n; k++) {
        for (int power = 1; power <= most_power; power++) {
            const bwi_dimension first = product(classes[k].measures, power, none, 0);
            bw_text second = bw_text_new(out->arena);
            if (same(first, wanted)) {
                add_alternative(&before, out);
                add_power(quantity, classes[k].measures, power, out);
            }
            if (add_second(quantity, classes, n, first, &second) && !second.failed) {
                add_alternative(&before, out);
                add_power(quantity, classes[k].measures, power, out);
                bw_text_add(out, second.data);
            }
            out->failed = out->failed || second.failed;
        }
    }
    add_alternative(&before, out);
    add_long(out);
    bw_text_add(out, ")");
}

/* 6 ft 6 in, 7'6", 7-6: whole feet, and less than 12 inches. */
static void add_feet(bw_text *out)
{
#define FEET     "(?:[Ff][Tt]|[Ff][Ee][Ee][Tt]|[Ff][Oo][Oo][Tt])"
#define INCH     "(?:(?:" MARKS "|[Ii][Nn](?:[Cc][Hh](?:[Ee][Ss])?)?" NO_LETTER ")\\.?)"
#define STOP     "(?:\\.(?![0-9]|" VULGAR "))?"
#define UNDER_12 "0*(?:1[01]|[0-9])(?![0-9])"
#define INCHES                                                                           \
    "(?:" FRACTION "|" VULGAR "|" UNDER_12 "(?:" MIXED "|\\.[0-9]*)?"                    \
    "|(?:[0-9]+\\.?[0-9]*)[eE](?:\\+|" DASH ")?[0-9]+)"
#define TO_INCHES "(?:" BLANK "*|" DASH "|" BLANK "+" DASH BLANK "+)"
    bw_text_add(out, DIGITS DASH UNDER_12);
    bw_text_add(out, "(?:\\.[0-9]*|" BLANK "+" FRACTION "|" BLANK "*" VULGAR ")?");
    bw_text_add(out, "|" DIGITS BLANK "*(?:" FEET "(?![0-9]|" VULGAR ")|" MARK ")");
    bw_text_add(out, STOP TO_INCHES INCHES BLANK "*" INCH "?");
    bw_text_add(out, "|" DIGITS BLANK "*" FEET INCHES BLANK "*" INCH);
}

void bw_quantity_pattern(bw_quantity quantity, bw_text *out)
{
    bw_text_add(out, "^" BLANK "*(?:\\+|" DASH ")?" BLANK "*(?:");
    if (quantity == BW_LENGTH) {
        add_feet(out);
        bw_text_add(out, "|");
    }
    if (quantity == BW_SLOPE) {
        bw_text_add(out, NUMBER BLANK "*(?:(?::|[Ii][Nn]" BLANK ")" BLANK "*" NUMBER
                                      "|%|[Pp][Ee][Rr][Cc][Ee][Nn][Tt])|");
    }
    bw_text_add(out, NUMBER);
    if (quantity != BW_NUMBER) {
        bw_text_add(out, BLANK "*");
        add_units(quantity == BW_SLOPE ? BW_ANGLE : quantity, out);
    }
    bw_text_add(out, ")" BLANK "*$");
}
