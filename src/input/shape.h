/* shape.h - what the readers ask of a file, noted while they read examples of it: which
 * keys each object may have, which it needs, of what type, unit and range each value is.
 * Schemas are written from that (schema.c), so that no list of keys stands anywhere but
 * where the keys are read. Nothing is noted in a document without a shape. */
#ifndef BWI_SHAPE_H
#define BWI_SHAPE_H

#include "fields.h"

#include "bolewright/input.h"

/* Kinds of values, as a set. */
enum {
    BWI_IS_OBJECT = 1,
    BWI_IS_LIST = 2,
    BWI_IS_TEXT = 4,
    BWI_IS_NAME = 8, /* a text that is not long */
    BWI_IS_FLAG = 16,
    BWI_IS_WORD = 32,
    BWI_IS_NUMBER = 64,
    BWI_IS_MEASURE = 128,
    BWI_IS_NULL = 256,
    BWI_IS_INDEX = 512, /* a whole number from 0 */
    BWI_IS_WHOLE = 1024 /* a number without decimals */
};

/* Pointers that are kept, in the order in which they came. */
typedef struct {
    const void **items;
    size_t count, capacity;
} bwi_set;

/* Exactly one, or at least one, of the keys stands in the object. */
typedef struct bwi_choice {
    struct bwi_choice *next;
    bool exactly;
    bwi_set keys, asked; /* keys: texts; asked: objects of which it was said */
} bwi_choice;

struct bwi_shape;

/* Objects at one place that have the same keys: all of them, or those with the same word
 * under a key, or those with or without a key. */
typedef struct bwi_variant {
    struct bwi_variant *next;
    const char *by;   /* the key that tells; null: there is one variant */
    const char *word; /* its word, or null */
    bool there;       /* whether the key stands there */
    bwi_set keys, objects;
    struct bwi_shape *members;
    bwi_choice *choices;
} bwi_variant;

typedef struct bwi_shape {
    struct bwi_shape *next; /* of the members of one variant */
    const char *key;
    unsigned kinds;
    bwi_range range;     /* of numbers */
    bwi_set words;       /* texts */
    const char *pattern; /* of a text that is more than that, or null */
    bool measures[BW_QUANTITY_COUNT];
    size_t least, most; /* of a list */
    bool any_length;
    bool is_one;    /* the number 1 and no other */
    bwi_set needed; /* objects that need it */
    bwi_variant *variants;
    struct bwi_shape *item;
} bwi_shape;

/* What the typed readers note; see fields.h for what they are. */
void bwi_note_object(const bwi_at *at, const char *const *keys, size_t n_keys);
void bwi_note_list(const bwi_at *at, size_t least, size_t most);
void bwi_note_need(const bwi_at *member);
void bwi_note_kind(const bwi_at *at, unsigned kind);
void bwi_note_words(const bwi_at *at, const char *const *words, size_t n_words);
void bwi_note_number(const bwi_at *at, bwi_range range);
void bwi_note_measure(const bwi_at *at, bw_quantity quantity);
void bwi_note_one(const bwi_at *at);
/* A column of a table, whether or not a line is read that has it. */
void bwi_note_column(bwi_json *doc, const char *heading, bool is_needed);

/* The readers of whole files, with a shape to note in. */
bw_status bwi_input_case(bw_arena *arena, const char *text,
                         const bw_species_table *species, bw_case *out, bw_diags *d,
                         bwi_shape *shape);
bw_status bwi_input_inspections(bw_arena *arena, const char *text, const bw_case *deck,
                                bw_inspections *out, bw_diags *d, bwi_shape *shape);
bw_status bwi_input_logs(bw_arena *arena, const char *text, const bw_case *deck,
                         bw_log_list *out, bw_diags *d, bwi_shape *shape);
bw_status bwi_input_frame(bw_arena *arena, const char *text, bw_frame_input *out,
                          bw_diags *d, bwi_shape *shape);

/* The schema of a file of that shape. Reports what the
 * examples left out, as a fault of the program. */
bw_status bwi_schema_write(const bwi_shape *shape, const char *title, bw_text *out,
                           bw_diags *d);
/* Of a table: each line as an object. */
bw_status bwi_schema_write_table(const bwi_shape *line, const char *title, bw_text *out,
                                 bw_diags *d);

#endif
