/* json.h - a JSON text as a tree whose values know where they stand.
 *
 * cJSON builds the tree but is lenient and keeps no positions. So scan.c reads the text
 * first: it reports everything that RFC 8259 does not allow, and notes the place of each
 * value in document order. The tree is then numbered in the same order (in the field
 * valueint, which nothing else reads), so that a fault finds its line and column at once.
 */
#ifndef BWI_JSON_H
#define BWI_JSON_H

#include "bolewright/base.h"

#include <cjson/cJSON.h>

/* Where a value stands in the text. */
typedef struct {
    size_t value; /* byte offset */
    size_t key;   /* of the key before it; that of the value where there is none */
    bool faulty;  /* reported by the scan: readers of this value keep silent */
} bwi_place;

typedef struct {
    bw_arena *arena;
    bw_diags *diags;
    const char *text;
    cJSON *tree;
    bwi_place *places; /* by the number of the value */
    size_t n_places, cap_places;
    bw_units units;  /* for what is found and allowed; imperial until the file says */
    size_t errors;   /* found in this text, shown or not */
    size_t shown;    /* faults and warnings */
    size_t left_out; /* beyond the most that are shown */
    const char *line_start; /* of the line looked at last; null at first */
    int line;
    bool out_of_memory;
    struct bwi_shape *shape;     /* where readers note what they ask for; null: nowhere */
    const char *const *headings; /* of a table, for each value the heading over its cell,
                                    or null; null for JSON */
} bwi_json;

/* Reads the text. False: nothing to walk through; bwi_json_close says why. */
bool bwi_json_open(bwi_json *doc, bw_arena *arena, const char *text, bw_diags *diags);
/* Releases the tree; what was read stays in the arena. BW_OK, BW_E_INPUT if the text had
 * a fault, BW_E_MEMORY, or BW_E_INTERNAL if scan and tree disagree. */
bw_status bwi_json_close(bwi_json *doc);

/* ---- memory: failure is noted in the document, the result is usable all the same ----
 */

const char *bwi_keep(bwi_json *doc, const char *text); /* copy, or "" */
const char *bwi_print(bwi_json *doc, const char *format, ...) BW_PRINTF(2, 3);
void *bwi_new(bwi_json *doc, size_t count, size_t size); /* zeroed, or null */

/* ---- faults in the text ---- */

typedef struct {
    bw_severity severity;
    const char *id, *path, *message, *allowed, *hint;
    size_t offset; /* byte in the text */
} bwi_fault;
/* Adds it with line and column, unless the same was said before or enough has been said.
 */
void bwi_fault_add(bwi_json *doc, const bwi_fault *fault);
/* Enough has been said: no need to search for hints. */
bool bwi_faults_full(const bwi_json *doc);
void bwi_line_column(bwi_json *doc, size_t offset, int *line, int *column);
/* The text up to length bytes, at most 60 of them, in the arena. */
const char *bwi_excerpt(bwi_json *doc, const char *text, size_t length);

/* ---- cursor: a value and the way to it; up must outlive it ---- */

typedef struct bwi_at {
    const struct bwi_at *up; /* null at the root */
    bwi_json *doc;
    const cJSON *node; /* null: not there */
    const char *key;   /* of a member; null for an item of a list */
    size_t index;      /* of an item */
} bwi_at;

bwi_at bwi_root(bwi_json *doc);
bwi_at bwi_key(const bwi_at *object, const char *key);
/* for (bwi_at item = bwi_first(&list); item.node != NULL; bwi_next(&item)) */
bwi_at bwi_first(const bwi_at *list);
void bwi_next(bwi_at *item);
bwi_at bwi_nth(const bwi_at *list, size_t index);
size_t bwi_count(const bwi_at *list); /* 0 unless a list or an object */

/* JSON Pointer in the arena; "" for the root. In a table: the name that the line gives,
 * and the heading. */
const char *bwi_pointer(const bwi_at *at);
const char *bwi_as_written(const bwi_at *at); /* the text of a scalar, or "an object" */

/* An error or a warning at the value; the pointer is put before the message. allowed and
 * hint may be null. */
void bwi_error(const bwi_at *at, const char *id, const char *allowed, const char *hint,
               const char *format, ...) BW_PRINTF(5, 6);
void bwi_warn(const bwi_at *at, const char *id, const char *allowed, const char *hint,
              const char *format, ...) BW_PRINTF(5, 6);
/* An error at the key of the value. */
void bwi_key_error(const bwi_at *at, const char *id, const char *allowed,
                   const char *hint, const char *format, ...) BW_PRINTF(5, 6);

/* ---- private to scan.c, json.c and the tables ---- */

/* Bytes of the character at the text that is not ASCII, or 0 if it is no UTF-8. */
size_t bwi_utf8_bytes(const char *text);

/* Fills doc->places and reports what is not strict JSON. False: cJSON cannot read it. */
bool bwi_scan(bwi_json *doc);
/* One more token of a JSON Pointer: "/" and the key with ~ and / escaped. */
void bwi_pointer_add(bw_text *pointer, const char *key);

#endif
