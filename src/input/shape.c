/* shape.c - notes what the readers ask of a file. Out of memory is noted in the document.
 */
#include "shape.h"

#include <stdint.h>
#include <string.h>

static bool holds(const bwi_set *set, const void *item)
{
    for (size_t i = 0; i < set->count; i++) {
        if (set->items[i] == item) {
            return true;
        }
    }
    return false;
}

static void put(bwi_json *doc, bwi_set *set, const void *item)
{
    const void **items = bw_arena_grow(doc->arena, (void *)set->items, set->count,
                                       &set->capacity, sizeof *items);
    if (items == NULL) {
        doc->out_of_memory = true;
        return;
    }
    set->items = items;
    items[set->count++] = item;
}

static void put_text(bwi_json *doc, bwi_set *set, const char *text)
{
    for (size_t i = 0; i < set->count; i++) {
        if (strcmp(set->items[i], text) == 0) {
            return;
        }
    }
    put(doc, set, bwi_keep(doc, text));
}

/* ---- where in the shape a value stands ---- */

static bool same_text(const char *a, const char *b)
{
    return a == b || (a != NULL && b != NULL && strcmp(a, b) == 0);
}

static bwi_variant *variant_get(bwi_json *doc, bwi_shape *shape, const char *by,
                                const char *word, bool there)
{
    bwi_variant **last = &shape->variants;
    for (; *last != NULL; last = &(*last)->next) {
        if (same_text((*last)->by, by) && same_text((*last)->word, word) &&
            (*last)->there == there) {
            return *last;
        }
    }
    *last = bwi_new(doc, 1, sizeof **last);
    if (*last != NULL) {
        (*last)->by = by;
        (*last)->word = word == NULL ? NULL : bwi_keep(doc, word);
        (*last)->there = there;
    }
    return *last;
}

/* What stands for an object: its place, which outlives the tree. Null for a line of a
 * table.
 */
static const void *identity(const bwi_json *doc, const cJSON *node)
{
    return node == NULL ? NULL : (const void *)&doc->places[(size_t)node->valueint];
}

/* That of the object, which is the only one unless a reader has said otherwise. */
static bwi_variant *variant_of(bwi_json *doc, bwi_shape *shape, const cJSON *node)
{
    const void *object = identity(doc, node);
    for (bwi_variant *v = shape->variants; v != NULL; v = v->next) {
        if (holds(&v->objects, object)) {
            return v;
        }
    }
    bwi_variant *only = variant_get(doc, shape, NULL, NULL, false);
    if (only != NULL) {
        put(doc, &only->objects, object);
    }
    return only;
}

static bwi_shape *shape_new(bwi_json *doc, const char *key)
{
    bwi_shape *shape = bwi_new(doc, 1, sizeof *shape);
    if (shape != NULL) {
        shape->key = key == NULL ? NULL : bwi_keep(doc, key);
        shape->least = SIZE_MAX;
    }
    return shape;
}

static bwi_shape *member_get(bwi_json *doc, bwi_variant *variant, const char *key)
{
    bwi_shape **last = variant == NULL ? NULL : &variant->members;
    for (; last != NULL && *last != NULL; last = &(*last)->next) {
        if (strcmp((*last)->key, key) == 0) {
            return *last;
        }
    }
    if (last != NULL) {
        *last = shape_new(doc, key);
    }
    return last == NULL ? NULL : *last;
}

/* A cell of a table: by the heading over it, whatever it became as JSON. */
static bwi_shape *cell_get(const bwi_at *at)
{
    bwi_json *doc = at->doc;
    const char *heading =
        at->node == NULL ? NULL : doc->headings[(size_t)at->node->valueint];
    if (heading == NULL || cJSON_IsObject(at->node) || cJSON_IsArray(at->node)) {
        return NULL;
    }
    return member_get(doc, variant_of(doc, doc->shape, NULL), heading);
}

/* Null: nothing is noted, or what it would stand in is not there. */
static bwi_shape *shape_at(const bwi_at *at)
{
    bwi_json *doc = at->doc;
    if (doc->shape == NULL || doc->headings != NULL) {
        return doc->shape == NULL ? NULL : cell_get(at);
    }
    if (at->up == NULL) {
        return doc->shape;
    }
    bwi_shape *up = at->up->node == NULL ? NULL : shape_at(at->up);
    if (up == NULL) {
        return NULL;
    }
    if (at->key != NULL) {
        return member_get(doc, variant_of(doc, up, at->up->node), at->key);
    }
    up->item = up->item != NULL ? up->item : shape_new(doc, NULL);
    return up->item;
}

/* ---- notes of the typed readers ---- */

void bwi_note_kind(const bwi_at *at, unsigned kind)
{
    bwi_shape *shape = shape_at(at);
    if (shape != NULL) {
        shape->kinds |= kind;
    }
}

void bwi_note_object(const bwi_at *at, const char *const *keys, size_t n_keys)
{
    bwi_shape *shape = cJSON_IsObject(at->node) ? shape_at(at) : NULL;
    bwi_variant *variant = shape == NULL ? NULL : variant_of(at->doc, shape, at->node);
    if (variant != NULL) {
        shape->kinds |= BWI_IS_OBJECT;
        for (size_t i = 0; i < n_keys; i++) {
            put_text(at->doc, &variant->keys, keys[i]);
        }
    }
}

void bwi_note_list(const bwi_at *at, size_t least, size_t most)
{
    bwi_shape *shape = shape_at(at);
    if (shape != NULL) {
        shape->kinds |= BWI_IS_LIST;
        shape->least = least < shape->least ? least : shape->least;
        shape->most = most > shape->most ? most : shape->most;
    }
}

void bwi_note_need(const bwi_at *member)
{
    /* columns say for themselves whether they are needed */
    bwi_shape *shape = member->doc->headings == NULL ? shape_at(member) : NULL;
    const void *object = identity(member->doc, member->up->node);
    if (shape != NULL && !holds(&shape->needed, object)) {
        put(member->doc, &shape->needed, object);
    }
}

void bwi_note_words(const bwi_at *at, const char *const *words, size_t n_words)
{
    bwi_shape *shape = shape_at(at);
    for (size_t i = 0; shape != NULL && i < n_words; i++) {
        shape->kinds |= BWI_IS_WORD;
        put_text(at->doc, &shape->words, words[i]);
    }
}

/* The widest of what was asked for. */
void bwi_note_number(const bwi_at *at, bwi_range range)
{
    bwi_shape *shape = shape_at(at);
    if (shape == NULL) {
        return;
    }
    bwi_range *old = &shape->range;
    if ((shape->kinds & BWI_IS_NUMBER) == 0) {
        *old = range;
    }
    old->above = old->above && (range.above || range.low > old->low);
    old->low = range.low < old->low ? range.low : old->low;
    old->high = range.high > old->high ? range.high : old->high;
    shape->kinds |= BWI_IS_NUMBER;
}

void bwi_note_measure(const bwi_at *at, bw_quantity quantity)
{
    bwi_shape *shape = shape_at(at);
    if (shape != NULL) {
        shape->kinds |= BWI_IS_MEASURE;
        shape->measures[quantity] = true;
    }
}

void bwi_note_one(const bwi_at *at)
{
    bwi_shape *shape = shape_at(at);
    if (shape != NULL) {
        shape->is_one = true;
    }
}

void bwi_note_column(bwi_json *doc, const char *heading, bool is_needed)
{
    bwi_variant *line = variant_of(doc, doc->shape, NULL);
    bwi_shape *column = member_get(doc, line, heading);
    if (column != NULL) {
        put_text(doc, &line->keys, heading);
    }
    if (column != NULL && is_needed) {
        put(doc, &column->needed, NULL);
    }
}

/* ---- notes of the readers of files ---- */

static void variant_set(const bwi_at *object, const char *key, bool by_word)
{
    bwi_shape *shape = cJSON_IsObject(object->node) ? shape_at(object) : NULL;
    if (shape == NULL) {
        return;
    }
    const bwi_at at = bwi_key(object, key);
    bwi_variant *variant =
        variant_get(object->doc, shape, key,
                    by_word ? cJSON_GetStringValue(at.node) : NULL, at.node != NULL);
    const void *one = identity(object->doc, object->node);
    if (variant != NULL && !holds(&variant->objects, one)) {
        put(object->doc, &variant->objects, one);
    }
}

void bwi_by_word(const bwi_at *object, const char *key)
{
    variant_set(object, key, true);
}

void bwi_by_key(const bwi_at *object, const char *key)
{
    variant_set(object, key, false);
}

static bool same_choice(const bwi_choice *choice, bool exactly, const char *const *keys,
                        size_t n_keys)
{
    bool same = choice->exactly == exactly && choice->keys.count == n_keys;
    for (size_t i = 0; same && i < n_keys; i++) {
        same = strcmp(choice->keys.items[i], keys[i]) == 0;
    }
    return same;
}

static void choice_note(const bwi_at *object, bool exactly, const char *const *keys,
                        size_t n_keys)
{
    bwi_json *doc = object->doc;
    bwi_shape *shape =
        cJSON_IsObject(object->node) && doc->headings == NULL ? shape_at(object) : NULL;
    bwi_variant *variant = shape == NULL ? NULL : variant_of(doc, shape, object->node);
    bwi_choice **last = variant == NULL ? NULL : &variant->choices;
    while (last != NULL && *last != NULL && !same_choice(*last, exactly, keys, n_keys)) {
        last = &(*last)->next;
    }
    if (last != NULL && *last == NULL) {
        *last = bwi_new(doc, 1, sizeof **last);
        for (size_t i = 0; *last != NULL && i < n_keys; i++) {
            (*last)->exactly = exactly;
            put_text(doc, &(*last)->keys, keys[i]);
        }
    }
    const void *one = identity(doc, object->node);
    if (last != NULL && *last != NULL && !holds(&(*last)->asked, one)) {
        put(doc, &(*last)->asked, one);
    }
}

void bwi_one_of(const bwi_at *object, const char *const *keys, size_t n_keys)
{
    choice_note(object, true, keys, n_keys);
}

void bwi_any_of(const bwi_at *object, const char *const *keys, size_t n_keys)
{
    choice_note(object, false, keys, n_keys);
}

void bwi_is_written(const bwi_at *at, const char *pattern)
{
    bwi_shape *shape = shape_at(at);
    if (shape != NULL) {
        shape->pattern = pattern;
    }
}

void bwi_any_length(const bwi_at *list)
{
    bwi_shape *shape = shape_at(list);
    if (shape != NULL) {
        shape->any_length = true;
    }
}

void bwi_is_whole(const bwi_at *at)
{
    bwi_note_kind(at, BWI_IS_WHOLE);
}
