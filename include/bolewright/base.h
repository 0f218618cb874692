/* base.h - what every layer stands on: statuses, diagnostics, memory, text, quantities,
 * terms.
 *
 * SI inside (m, N, Pa, kg, s, rad). Unit names and factors live in src/base/quantity.c
 * only. This layer knows nothing of frames, wood, files or JSON. */
#ifndef BW_BASE_H
#define BW_BASE_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined(__GNUC__)
#define BW_PRINTF(format_index, first_index)                                             \
    __attribute__((format(printf, format_index, first_index)))
#else
#define BW_PRINTF(format_index, first_index)
#endif

/* ---- statuses: whether a call succeeded; what a person reads is in the diagnostics ----
 */

#define BW_STATUS_LIST(X)                                                                \
    X(BW_OK, "done")                                                                     \
    X(BW_E_MEMORY, "out of memory")                                                      \
    X(BW_E_USAGE, "the command line is wrong")                                           \
    X(BW_E_INPUT, "the case or a table is wrong")                                        \
    X(BW_E_MECHANISM, "a part of the frame moves without resistance")                    \
    X(BW_E_CONDITION, "the frame is too near to a mechanism to be trusted")              \
    X(BW_E_IO, "a file cannot be read or written")                                       \
    X(BW_E_STOPPED, "stopped before it was done")                                        \
    X(BW_E_INTERNAL, "a fault of this program")

typedef enum {
#define BW_STATUS_CODE(code, sentence) code,
    BW_STATUS_LIST(BW_STATUS_CODE)
#undef BW_STATUS_CODE
} bw_status;

/* The sentence of a status; never null, not owned by the caller. */
const char *bw_status_text(bw_status status);

/* Exit status of the program for a call's status (design: 0, 2, 3, 4, 5, 70; 130:
 * stopped). */
int bw_status_exit(bw_status status);

/* Returns from the calling function when the expression is not BW_OK. */
#define BW_TRY(expression)                                                               \
    do {                                                                                 \
        const bw_status bw_try_ = (expression);                                          \
        if (bw_try_ != BW_OK) {                                                          \
            return bw_try_;                                                              \
        }                                                                                \
    } while (0)

/* ---- arena: one per run; everything read, assembled or reported lives in it ---- */

typedef struct bw_arena bw_arena;

/* A new empty arena, or null without memory. Released with everything in it by
 * bw_arena_free (null is allowed). */
bw_arena *bw_arena_new(void);
void bw_arena_free(bw_arena *arena);

/* size bytes, zeroed, aligned for any type, living as long as the arena; null without
 * memory. size 0 gives a valid pointer. */
void *bw_arena_alloc(bw_arena *arena, size_t size);
void *bw_arena_alloc_array(bw_arena *arena, size_t count,
                           size_t size); /* checks overflow */
#define BW_NEW(arena, type, count)                                                       \
    ((type *)bw_arena_alloc_array((arena), (size_t)(count), sizeof(type)))

/* A growing array in the arena: returns items with room for at least count + 1 elements
 * of the size, moved if needed (*capacity is updated), or null without memory. */
void *bw_arena_grow(bw_arena *arena, void *items, size_t count, size_t *capacity,
                    size_t size);

char *bw_arena_copy(bw_arena *arena, const char *text); /* null without memory */
char *bw_arena_print(bw_arena *arena, const char *format, ...) BW_PRINTF(2, 3);

/* Scratch: remember where the arena stands, and give back all that came after. */
typedef struct {
    void *block;
    size_t used;
} bw_arena_mark;
bw_arena_mark bw_arena_now(bw_arena *arena);
void bw_arena_back(bw_arena *arena, bw_arena_mark mark);

/* Gives the other arena to this one: it lives as long as what would be allocated here
 * now, and must not be freed by itself. What could not be given there counts here too.
 * False without memory: the other is freed then, with all that is in it. */
bool bw_arena_attach(bw_arena *arena, bw_arena *other);

/* Whether anything that was asked of the arena could not be given, even if memory was
 * there again later: then nothing made in it is a result. */
bool bw_arena_failed(const bw_arena *arena);
/* The same is so because a library had no memory for its part of the work. */
void bw_arena_spoil(bw_arena *arena);

/* For tests: the n-th allocation from now on fails, and all after it (0 switches this
 * off). */
void bw_arena_fail_after(unsigned long n);

/* ---- jobs that do not depend on each other ---- */

/* Processors at hand: 1 where that is not known, and no more than are put to use. */
int bw_processors(void);

typedef void (*bw_job)(void *context, size_t k);
/* Does jobs 0 .. n - 1, each once, on so many threads (the caller is
 * one; 1: in order). Returns when all are done. */
void bw_run_jobs(size_t n, int threads, bw_job job, void *context);

/* ---- text: a growing UTF-8 buffer in an arena; out of memory is remembered, not
 * reported at every call ---- */

typedef struct {
    bw_arena *arena;
    char *data; /* always terminated once anything was added */
    size_t length, capacity;
    bool failed;
} bw_text;

/* An empty text that grows in the arena. Adding never fails loudly: see bw_text_string.
 */
bw_text bw_text_new(bw_arena *arena);
void bw_text_add(bw_text *text, const char *piece);
void bw_text_add_bytes(bw_text *text, const char *piece, size_t length);
void bw_text_print(bw_text *text, const char *format, ...) BW_PRINTF(2, 3);
/* The terminated string ("" if nothing was added), or null if memory ran out on the way,
 * here or anywhere else in the arena. */
const char *bw_text_string(const bw_text *text);
/* Columns that UTF-8 text takes on a terminal, one per code point (no wide characters are
 * used by this program). */
size_t bw_text_columns(const char *text);

/* ---- diagnostics: what a person reads about faults, all of them in one run ---- */

typedef enum { BW_NOTE, BW_WARNING, BW_ERROR } bw_severity;

typedef struct {
    bw_severity severity;
    const char *id;      /* stable, such as "quantity.unit" */
    const char *path;    /* JSON Pointer (RFC 6901), or null */
    int line, column;    /* from 1; 0 when not known */
    const char *message; /* what is wrong and what was found; lower case, no full stop */
    const char *allowed; /* what is allowed, or null */
    const char *hint;    /* what to do, or null */
} bw_diag;

typedef struct {
    bw_arena *arena;
    const char *file; /* name printed before every line, or null */
    bw_diag *items;   /* sorted by line and column on printing */
    size_t count, capacity;
    size_t errors; /* how many items are errors */
    bool failed;   /* memory ran out while recording */
} bw_diags;

/* An empty list that grows in the arena; the name of the file is kept, not copied. */
bw_diags bw_diags_new(bw_arena *arena, const char *file);
/* Copies every string of *diag into the arena. A warning that stands there already, of
 * the same place and in the same words, is not added again. */
void bw_diags_add(bw_diags *diags, const bw_diag *diag);
/* Shorthand for an error or a warning without a place in a file. path and hint may be
 * null. */
void bw_diags_error(bw_diags *diags, const char *id, const char *path, const char *hint,
                    const char *format, ...) BW_PRINTF(5, 6);
void bw_diags_warn(bw_diags *diags, const char *id, const char *path, const char *hint,
                   const char *format, ...) BW_PRINTF(5, 6);
/* Prints all in the order of the file: "bolewright: file:line:column: message", then
 * "  allowed: ..." and "  hint: ..." lines where given. */
void bw_diags_print(const bw_diags *diags, bw_text *out);

/* The nearest of the words to the given one (edit distance at most a third of its length,
 * at least 1, at most 3; letter case ignored), or null. For hints. */
const char *bw_nearest_word(const char *word, const char *const *words, size_t count);

/* ---- quantities: text with a unit <-> SI ---- */

#define BW_QUANTITY_LIST(X)                                                              \
    X(BW_NUMBER, "number")                                                               \
    X(BW_LENGTH, "length") /* m: 6 ft 6 in, 7'6", 25 1/2 in, 2.29 m */                   \
    X(BW_AREA, "area")     /* m2: 12 in2, 0.4 m2 */                                      \
    X(BW_SECOND_MOMENT, "second moment of area") /* m4 */                                \
    X(BW_SECTION_MODULUS, "section modulus")     /* m3 */                                \
    X(BW_FORCE, "force")               /* N: 300 lb (pound-force), 1.3 kN, 2 kip */      \
    X(BW_MASS, "mass")                 /* kg: 254 lb, 115 kg */                          \
    X(BW_PRESSURE, "pressure")         /* Pa: 60 psf, 2.9 kPa, 5 kN/m2, 1350 psi */      \
    X(BW_STRESS, "stress")             /* Pa: same units, printed in psi or MPa */       \
    X(BW_LINE_LOAD, "load per length") /* N/m: 280 lb/ft, 4 kN/m */                      \
    X(BW_MOMENT, "moment")             /* N*m: 1200 lb-ft, 26880 lb-in, 3 kN-m */        \
    X(BW_DENSITY, "density")           /* kg/m3: 42 lb/ft3, 640 kg/m3 */                 \
    X(BW_ANGLE, "angle")               /* rad: 30 deg, 0.5 rad */                        \
    X(BW_SLOPE, "slope")               /* rise over run: 1 in 12, 1:12, 8 %, 5 deg */    \
    X(BW_SPEED, "speed")               /* m/s: 15 mph, 20 km/h, 7 m/s */                 \
    X(BW_STIFFNESS, "stiffness")       /* N/m: 200 kN/m, 1000 lb/in */                   \
    X(BW_TURN_STIFFNESS, "turning stiffness")         /* N*m/rad: 20 kN-m/rad */         \
    X(BW_SUBGRADE, "subgrade modulus")                /* N/m3: 20 MN/m3, 50 lb/in3 */    \
    X(BW_SUBGRADE_RATE, "lateral pressure per depth") /* Pa/m: 150 psf/ft, 23.6 kPa/m */ \
    X(BW_DURATION, "duration")                        /* s: 10 min, 2 years */

typedef enum {
#define BW_QUANTITY_CODE(code, name) code,
    BW_QUANTITY_LIST(BW_QUANTITY_CODE)
#undef BW_QUANTITY_CODE
        BW_QUANTITY_COUNT
} bw_quantity;

const char *bw_quantity_name(bw_quantity quantity);    /* "length", ... */
const char *bw_quantity_example(bw_quantity quantity); /* "\"6 ft 6 in\" or \"2.29 m\"" */

typedef enum {
    BW_PARSE_OK,
    BW_PARSE_EMPTY,   /* nothing there */
    BW_PARSE_NUMBER,  /* no number where one must stand, or a malformed one */
    BW_PARSE_NO_UNIT, /* a bare number where a unit is needed */
    BW_PARSE_UNIT,    /* an unknown unit, or one of another quantity */
    BW_PARSE_MIXED,   /* parts that do not go together: "6 in 2 ft", "3 m 2 in" */
    BW_PARSE_RANGE    /* not a finite number */
} bw_parse;

/* Reads a quantity as people write it; letter case of units, spaces and a leading sign
 * are free; a decimal point is a point; U+2032/U+2033 primes and typographic quotes count
 * as ' and ". 7-6 and 7'6 read as feet and inches for BW_LENGTH. On anything but
 * BW_PARSE_OK *value is left alone. BW_NUMBER takes a bare number only. */
bw_parse bw_quantity_parse(bw_quantity quantity, const char *text, double *value);
/* One line saying what is wrong with the text and, for *hint, what to write instead; both
 * in the arena (null without memory). */
const char *bw_parse_explain(bw_arena *arena, bw_parse fault, bw_quantity quantity,
                             const char *text, const char **hint);

/* A regular expression (ECMA-262; Python reads it alike) that every text matches which
 * bw_quantity_parse reads. What it does not see: the size of a number (a fraction of 1 or
 * more behind a whole number, a slope of 90 degrees, no finite number, more letters than
 * are read) and what products of three or more units measure. */
void bw_quantity_pattern(bw_quantity quantity, bw_text *out);

typedef enum { BW_IMPERIAL, BW_METRIC } bw_units;

/* The value in the system's usual unit: lengths as 6 ft 6 1/2 in (nearest sixteenth)
 * or 2.29 m / 640 mm; forces lb / kN; stress psi / MPa; pressure psf / kPa; moment lb-ft
 * / kN-m. In the arena; null without memory. */
const char *bw_quantity_print(bw_arena *arena, bw_quantity quantity, double value,
                              bw_units units);
/* Short lengths for sections and deflections: 8 1/4 in / 210 mm; 0.12 in / 3.0 mm. */
const char *bw_length_print_small(bw_arena *arena, double value, bw_units units);
const char *bw_length_print_decimal(bw_arena *arena, double value, bw_units units);

/* Exact or defined conversions for code that must speak another unit (table readers,
 * tests): SI value of one of the named unit, or 0 if the unit is not one of that
 * quantity. */
double bw_unit_size(bw_quantity quantity, const char *unit);
extern const double bw_inch; /* 0.0254 m exactly, for rules that speak in inches */
extern const double bw_psf;  /* pound-force per square foot [Pa], likewise */

/* ---- terms: one line of a working, or one number of a table with its source ---- */

typedef enum {
    BW_MARK_NONE,     /* an input of the case or a result of this run */
    BW_MARK_READ,     /* seen in the named text by the people who made the table */
    BW_MARK_COMPUTED, /* worked out, the route is named */
    BW_MARK_MEMORY,   /* recalled, not seen: verify before relying on it */
    BW_MARK_PRACTICE, /* common practice of the trade, no source */
    BW_MARK_JUDGEMENT /* chosen here on the cautious side, and said so */
} bw_mark;
const char *bw_mark_text(bw_mark mark); /* "read", "computed", ...; "" for none */

typedef struct {
    const char *symbol;   /* "F_b" */
    const char *meaning;  /* "reference bending stress" */
    double value;         /* SI */
    bw_quantity quantity; /* how to print it */
    bw_mark mark;
    const char *source; /* title, year, clause or table; null for inputs and results */
} bw_term;

typedef struct {
    bw_arena *arena;
    bw_term *items;
    size_t count, capacity;
    bool failed; /* memory ran out while recording */
} bw_working;

/* An empty working that grows in the arena. */
bw_working bw_working_new(bw_arena *arena);
void bw_working_add(bw_working *working, bw_term term); /* strings are kept, not copied */

/* ---- dates: given by people, never taken from a clock ---- */

typedef struct {
    long year;
    int month, day;
} bw_date;

/* Exactly YYYY-MM-DD, a day that exists, from 1900 on; else false and *out as before. */
bool bw_date_read(const char *text, bw_date *out);
/* Days since 1900-01-01, and back (day >= 0). */
long bw_date_day(bw_date date);
bw_date bw_date_of_day(long day);
bw_date bw_date_year_later(bw_date date); /* 29 February becomes the 28th */
const char *bw_date_print(bw_arena *arena, bw_date date); /* null without memory */

/* ---- which bytes a result belongs to ---- */

enum { BW_SHA256_HEX = 65 };
/* SHA-256 of the bytes as 64 hexadecimal digits and a terminator. */
void bw_sha256(const void *data, size_t length, char hex[BW_SHA256_HEX]);

extern const char bw_version[]; /* the one place is CMakeLists.txt */

#ifdef __cplusplus
}
#endif

#endif
