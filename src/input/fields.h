/* fields.h - typed reading of values: each call reports what is wrong and returns whether
 * the result was set. A value that is not there gives false without a word (bwi_need
 * reports what must be there), as does one that was reported before. */
#ifndef BWI_FIELDS_H
#define BWI_FIELDS_H

#include "json.h"

#define BWI_COUNT(array) (sizeof(array) / sizeof(array)[0])

/* ---- objects and lists ---- */

/* The value is an object; every key that is not in the list is reported, with the
 * nearest. */
bool bwi_object(const bwi_at *at, const char *const *keys, size_t n_keys);
#define BWI_OBJECT(at, ...)                                                              \
    bwi_object((at), (const char *const[]){__VA_ARGS__},                                 \
               sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))
/* The value is a list of so many items; the most is there because work grows with it. */
bool bwi_list(const bwi_at *at, size_t least, size_t most);
/* The member of that key; reported at the object if it is missing. */
bwi_at bwi_need(const bwi_at *object, const char *key);
bool bwi_is_null(const bwi_at *at); /* the word null stands there */
/* "format" is 1 and, unless null, "kind" is the word. */
bool bwi_format(const bwi_at *root, const char *kind);

/* ---- values ---- */

bool bwi_text(const bwi_at *at, const char **out); /* not empty, no control characters */
bool bwi_name(const bwi_at *at, const char **out); /* the same, at most 60 columns */
bool bwi_flag(const bwi_at *at, bool *out);
bool bwi_word(const bwi_at *at, const char *const *words, size_t n_words, int *out);
#define BWI_WORD(at, out, ...)                                                           \
    bwi_word((at), (const char *const[]){__VA_ARGS__},                                   \
             sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *), (out))

/* Inclusive limits; infinite ones are not said. above: low itself is not allowed. */
typedef struct {
    double low, high;
    bool above;
} bwi_range;
bool bwi_number(const bwi_at *at, bwi_range range, double *out);
/* Text with a unit. The limits are round numbers of judgement, so what differs from one
 * by less than its printed form can show (2 %) passes. */
bool bwi_measure(const bwi_at *at, bw_quantity quantity, bwi_range range, double *out);
/* The same, or a bare number in SI; the limits hold exactly. */
bool bwi_measure_or_si(const bwi_at *at, bw_quantity quantity, bwi_range range,
                       double *out);
const char *bwi_range_print(bwi_json *doc, bw_quantity quantity, bwi_range range);

/* ---- what schemas say of an object beside its keys (shape.h); reading goes on as it was
 * ----
 */

/* Its keys depend on the word under the key, or on whether the key is there; said before
 * any other call about the object. */
void bwi_by_word(const bwi_at *object, const char *key);
void bwi_by_key(const bwi_at *object, const char *key);
/* Exactly one of the keys stands there; at least one. */
void bwi_one_of(const bwi_at *object, const char *const *keys, size_t n_keys);
void bwi_any_of(const bwi_at *object, const char *const *keys, size_t n_keys);
#define BWI_ANY_OF(at, ...)                                                              \
    bwi_any_of((at), (const char *const[]){__VA_ARGS__},                                 \
               sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))
#define BWI_ONE_OF(at, ...)                                                              \
    bwi_one_of((at), (const char *const[]){__VA_ARGS__},                                 \
               sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))
/* A text that is written so (a regular expression), a list whose length depends on
 * another file, and a number without decimals. */
void bwi_is_written(const bwi_at *at, const char *pattern);
void bwi_any_length(const bwi_at *list);
void bwi_is_whole(const bwi_at *at);

/* ---- names that others refer to ---- */

typedef struct {
    const char *name;
    size_t index;
} bwi_named;

typedef struct {
    const char *what;         /* "log" */
    const char *key;          /* of an item, where its name stands */
    const char *const *words; /* in their order, for hints */
    bwi_named *sorted;
    size_t count;
    bool refused; /* the list was, and told: that a name is not in it says nothing */
} bwi_names;

/* Of the list, whose items have the names (null: unknown, skipped); reports duplicates at
 * the key of the later one. */
bool bwi_names_make(const bwi_at *list, const char *what, const char *key,
                    const char *const *names, size_t count, bwi_names *out);
/* The index, or -1. */
int bwi_names_find(const bwi_names *names, const char *name);
/* The value is one of the names. */
bool bwi_reference(const bwi_at *at, const bwi_names *names, int *out);
/* The value is one of the names or an index from 0. */
bool bwi_reference_or_index(const bwi_at *at, const bwi_names *names, int *out);

#endif
