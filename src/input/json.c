/* json.c - the tree with places, its faults, and the cursor. */
#include "json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    most_faults = 200, /* shown for one file; more would not be read */
    longest_excerpt = 60
};

/* ---- memory ---- */

const char *bwi_keep(bwi_json *doc, const char *text)
{
    const char *copy = bw_arena_copy(doc->arena, text);
    doc->out_of_memory = doc->out_of_memory || copy == NULL;
    return copy != NULL ? copy : "";
}

void *bwi_new(bwi_json *doc, size_t count, size_t size)
{
    void *items = bw_arena_alloc_array(doc->arena, count, size);
    doc->out_of_memory = doc->out_of_memory || items == NULL;
    return items;
}

BW_PRINTF(2, 0)
static const char *print_list(bwi_json *doc, const char *format, va_list pieces)
{
    va_list again;
    va_copy(again, pieces);
    const int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    char *text = length < 0 ? NULL : bwi_new(doc, (size_t)length + 1, 1);
    if (text == NULL) {
        doc->out_of_memory = true;
        return "";
    }
    (void)vsnprintf(text, (size_t)length + 1, format, pieces);
    return text;
}

const char *bwi_print(bwi_json *doc, const char *format, ...)
{
    va_list pieces;
    va_start(pieces, format);
    const char *text = print_list(doc, format, pieces);
    va_end(pieces);
    return text;
}

const char *bwi_excerpt(bwi_json *doc, const char *text, size_t length)
{
    size_t end = length;
    if (length > longest_excerpt) {
        end = longest_excerpt;
        while (end > 0 && ((unsigned char)text[end] & 0xC0U) == 0x80U) {
            end--; /* not inside a character */
        }
    }
    return bwi_print(doc, "%.*s%s", (int)end, text, end < length ? "..." : "");
}

/* ---- faults ---- */

/* Columns count characters, not bytes. Faults mostly come in the order of the file, so
 * the line of the last one is where the search begins. */
void bwi_line_column(bwi_json *doc, size_t offset, int *line, int *column)
{
    const char *const end = doc->text + offset;
    if (doc->line_start == NULL || doc->line_start > end) {
        doc->line_start = doc->text;
        doc->line = 1;
    }
    for (;;) {
        const char *start = doc->line_start;
        const char *feed = memchr(start, '\n', (size_t)(end - start));
        if (feed == NULL) {
            break;
        }
        doc->line_start = feed + 1;
        doc->line++;
    }
    *line = doc->line;
    *column = 1;
    for (const char *at = doc->line_start; at < end; at++) {
        *column += ((unsigned char)*at & 0xC0U) == 0x80U ? 0 : 1;
    }
}

bool bwi_faults_full(const bwi_json *doc)
{
    return doc->shown >= most_faults;
}

static bool same_text(const char *a, const char *b)
{
    return a != NULL && b != NULL && strcmp(a, b) == 0;
}

/* Defaults for every bent are read once per bent, and may be wrong each time. */
static bool said_before(const bwi_json *doc, const bw_diag *diag)
{
    const bw_diags *diags = doc->diags;
    const size_t first = diags->count > doc->shown ? diags->count - doc->shown : 0;
    for (size_t i = first; i < diags->count; i++) {
        const bw_diag *old = &diags->items[i];
        if (old->line == diag->line && old->column == diag->column &&
            same_text(old->id, diag->id) && same_text(old->path, diag->path) &&
            same_text(old->message, diag->message)) {
            return true;
        }
    }
    return false;
}

void bwi_fault_add(bwi_json *doc, const bwi_fault *fault)
{
    if (bwi_faults_full(doc)) {
        doc->errors += fault->severity == BW_ERROR ? 1 : 0;
        doc->left_out++;
        return;
    }
    bw_diag diag = {.severity = fault->severity,
                    .id = fault->id,
                    .path = fault->path != NULL ? fault->path : "",
                    .message = fault->message,
                    .allowed = fault->allowed,
                    .hint = fault->hint};
    bwi_line_column(doc, fault->offset, &diag.line, &diag.column);
    if (!said_before(doc, &diag)) {
        bw_diags_add(doc->diags, &diag);
        doc->errors += fault->severity == BW_ERROR ? 1 : 0;
        doc->shown++;
    }
}

/* ---- opening and closing ---- */

static void report_duplicate(const bwi_at *object, const cJSON *node)
{
    bwi_at at = bwi_key(object, node->string);
    at.node = node; /* the later one */
    bwi_key_error(&at, "key.duplicate", NULL,
                  "keep one of the two: nobody can say which is meant",
                  "the key stands here for the second time");
}

typedef struct {
    const cJSON *node;
} member;

static int compare_keys(const void *left, const void *right)
{
    const cJSON *const a = ((const member *)left)->node;
    const cJSON *const b = ((const member *)right)->node;
    const int order = strcmp(a->string, b->string);
    return order != 0 ? order : a->valueint - b->valueint; /* numbers in document order */
}

static void find_duplicates(const bwi_at *object)
{
    member *members = bwi_new(object->doc, bwi_count(object), sizeof *members);
    if (members == NULL) {
        return;
    }
    size_t n = 0;
    for (const cJSON *node = object->node->child; node != NULL; node = node->next) {
        members[n++].node = node;
    }
    qsort(members, n, sizeof *members, compare_keys);
    for (size_t i = 1; i < n; i++) {
        if (strcmp(members[i - 1].node->string, members[i].node->string) == 0) {
            report_duplicate(object, members[i].node);
        }
    }
}

/* Keys of small objects are compared in pairs: quicker than sorting, and nothing is
 * stored. */
static bool has_duplicates(const cJSON *object)
{
    static const size_t most_pairs = 400;
    size_t pairs = 0;
    for (const cJSON *a = object->child; a != NULL; a = a->next) {
        for (const cJSON *b = a->next; b != NULL; b = b->next) {
            if (strcmp(a->string, b->string) == 0 || ++pairs > most_pairs) {
                return true; /* or perhaps: sorting will tell */
            }
        }
    }
    return false;
}

/* Numbers the values in document order, as the scan did. Depth is limited by the scan. */
static void number_values(const bwi_at *at, cJSON *node, size_t *count)
{
    node->valueint = (int)(*count)++;
    bwi_at child = {.up = at, .doc = at->doc};
    for (cJSON *next = node->child; next != NULL; next = next->next) {
        child.node = next;
        child.key = next->string;
        number_values(&child, next, count);
        child.index++;
    }
    if (cJSON_IsObject(node) && has_duplicates(node)) {
        find_duplicates(at);
    }
}

bool bwi_json_open(bwi_json *doc, bw_arena *arena, const char *text, bw_diags *diags)
{
    *doc = (bwi_json){.arena = arena, .diags = diags, .text = text, .units = BW_IMPERIAL};
    if (!bwi_scan(doc)) {
        return false;
    }
    doc->tree = cJSON_ParseWithOpts(text, NULL, 1);
    if (doc->tree == NULL) { /* the scan found nothing that cJSON refuses */
        doc->out_of_memory = true;
        return false;
    }
    size_t count = 0;
    const bwi_at root = bwi_root(doc);
    number_values(&root, doc->tree, &count);
    if (count != doc->n_places) {
        cJSON_Delete(doc->tree);
        doc->tree = NULL;
        return false;
    }
    return true;
}

bw_status bwi_json_close(bwi_json *doc)
{
    const bool has_tree = doc->tree != NULL;
    cJSON_Delete(doc->tree);
    doc->tree = NULL;
    if (doc->left_out > 0) {
        const char *message =
            bwi_print(doc, "%zu more faults are not shown", doc->left_out);
        const bw_diag more = {
            .severity = BW_NOTE, .id = "json.more", .path = "", .message = message};
        bw_diags_add(doc->diags, &more);
    }
    if (doc->out_of_memory || doc->diags->failed) {
        return BW_E_MEMORY;
    }
    if (doc->errors > 0) {
        return BW_E_INPUT;
    }
    return has_tree ? BW_OK : BW_E_INTERNAL;
}

/* ---- cursor ---- */

bwi_at bwi_root(bwi_json *doc)
{
    return (bwi_at){.doc = doc, .node = doc->tree};
}

bwi_at bwi_key(const bwi_at *object, const char *key)
{
    const cJSON *node = cJSON_IsObject(object->node)
                            ? cJSON_GetObjectItemCaseSensitive(object->node, key)
                            : NULL;
    return (bwi_at){.up = object, .doc = object->doc, .node = node, .key = key};
}

bwi_at bwi_first(const bwi_at *list)
{
    const cJSON *node = list->node != NULL ? list->node->child : NULL;
    return (bwi_at){.up = list,
                    .doc = list->doc,
                    .node = node,
                    .key = node != NULL ? node->string : NULL};
}

void bwi_next(bwi_at *item)
{
    item->node = item->node->next;
    item->key = item->node != NULL ? item->node->string : NULL;
    item->index++;
}

bwi_at bwi_nth(const bwi_at *list, size_t index)
{
    bwi_at item = bwi_first(list);
    while (item.node != NULL && item.index < index) {
        bwi_next(&item);
    }
    return item;
}

size_t bwi_count(const bwi_at *list)
{
    size_t count = 0;
    for (bwi_at item = bwi_first(list); item.node != NULL; bwi_next(&item)) {
        count++;
    }
    return count;
}

void bwi_pointer_add(bw_text *pointer, const char *key)
{
    bw_text_add(pointer, "/");
    for (; *key != '\0'; key++) {
        if (*key == '~' || *key == '/') {
            bw_text_add(pointer, *key == '~' ? "~0" : "~1");
        } else {
            bw_text_add_bytes(pointer, key, 1);
        }
    }
}

static void add_way(const bwi_at *at, bw_text *pointer)
{
    if (at->up == NULL) {
        return;
    }
    add_way(at->up, pointer);
    if (at->key != NULL) {
        bwi_pointer_add(pointer, at->key);
    } else {
        bw_text_print(pointer, "/%zu", at->index);
    }
}

static const bwi_at *item_of(const bwi_at *at)
{
    while (at->up != NULL && at->up->up != NULL) {
        at = at->up;
    }
    return at;
}

/* A value of a table: "L07, butt girth". */
static const char *cell_name(const bwi_at *at)
{
    const bwi_at *item = item_of(at);
    const bwi_at name = bwi_key(item, "name");
    const char *words = cJSON_GetStringValue(name.node);
    const char *line = words != NULL && words[0] != '\0' ? words : "a log without id";
    while (at != item && at->node == NULL) {
        at = at->up;
    }
    const char *heading =
        at == item ? NULL : at->doc->headings[(size_t)at->node->valueint];
    return heading == NULL ? bwi_keep(at->doc, line)
                           : bwi_print(at->doc, "%s, %s", line, heading);
}

const char *bwi_pointer(const bwi_at *at)
{
    if (at->doc->headings != NULL && at->up != NULL) {
        return cell_name(at);
    }
    bw_text pointer = bw_text_new(at->doc->arena);
    add_way(at, &pointer);
    const char *text = bw_text_string(&pointer);
    at->doc->out_of_memory = at->doc->out_of_memory || text == NULL;
    return text != NULL ? text : "";
}

static const bwi_place *place_of(const bwi_at *at)
{
    static const bwi_place unknown = {0, 0, false};
    const bwi_json *doc = at->doc;
    for (; at != NULL; at = at->up) { /* what is not there stands where its parent does */
        if (at->node != NULL && (size_t)at->node->valueint < doc->n_places) {
            return &doc->places[at->node->valueint];
        }
    }
    return &unknown;
}

const char *bwi_as_written(const bwi_at *at)
{
    if (cJSON_IsObject(at->node)) {
        return "an object";
    }
    if (cJSON_IsArray(at->node)) {
        return "a list";
    }
    if (at->doc->headings != NULL) { /* the text is no JSON */
        const char *cell = cJSON_GetStringValue(at->node);
        return cell == NULL ? bwi_print(at->doc, "%.6g", at->node->valuedouble)
                            : bwi_print(at->doc, "\"%s\"",
                                        bwi_excerpt(at->doc, cell, strlen(cell)));
    }
    const char *begin = at->doc->text + place_of(at)->value;
    const char *end = begin + 1;
    if (*begin == '"') {
        while (*end != '"') {
            end += *end == '\\' ? 2 : 1;
        }
        end++;
    } else {
        end = begin + strcspn(begin, " \t\r\n,]}");
    }
    return bwi_excerpt(at->doc, begin, (size_t)(end - begin));
}

/* Severity, place and id of a fault; its words follow. */
BW_PRINTF(3, 0)
static void say(const bwi_at *at, bwi_fault fault, const char *format, va_list pieces)
{
    if (bwi_faults_full(at->doc)) { /* only counted: its words would not be read */
        bwi_fault_add(at->doc, &fault);
        return;
    }
    fault.path = bwi_pointer(at);
    const char *words = print_list(at->doc, format, pieces);
    fault.message = bwi_print(at->doc, "%s: %s",
                              *fault.path == '\0' ? "the file" : fault.path, words);
    bwi_fault_add(at->doc, &fault);
}

void bwi_error(const bwi_at *at, const char *id, const char *allowed, const char *hint,
               const char *format, ...)
{
    va_list pieces;
    va_start(pieces, format);
    say(at,
        (bwi_fault){.severity = BW_ERROR,
                    .id = id,
                    .allowed = allowed,
                    .hint = hint,
                    .offset = place_of(at)->value},
        format, pieces);
    va_end(pieces);
}

void bwi_warn(const bwi_at *at, const char *id, const char *allowed, const char *hint,
              const char *format, ...)
{
    va_list pieces;
    va_start(pieces, format);
    say(at,
        (bwi_fault){.severity = BW_WARNING,
                    .id = id,
                    .allowed = allowed,
                    .hint = hint,
                    .offset = place_of(at)->value},
        format, pieces);
    va_end(pieces);
}

void bwi_key_error(const bwi_at *at, const char *id, const char *allowed,
                   const char *hint, const char *format, ...)
{
    va_list pieces;
    va_start(pieces, format);
    say(at,
        (bwi_fault){.severity = BW_ERROR,
                    .id = id,
                    .allowed = allowed,
                    .hint = hint,
                    .offset = place_of(at)->key},
        format, pieces);
    va_end(pieces);
}
