/* names.c - names that other parts of a file refer to, sorted once so that a large file
 * is read as quickly per part as a small one. */
#include "fields.h"

#include "shape.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static int compare_names(const void *left, const void *right)
{
    const bwi_named *a = left;
    const bwi_named *b = right;
    const int order = strcmp(a->name, b->name);
    return order != 0 ? order : (a->index > b->index) - (a->index < b->index);
}

static void report_duplicate(const bwi_at *list, const bwi_names *names,
                             const bwi_named *later, const bwi_named *first)
{
    if (bwi_faults_full(list->doc)) {
        list->doc->errors++;
        list->doc->left_out++;
        return;
    }
    const bwi_at item = bwi_nth(list, later->index);
    const bwi_at name = bwi_key(&item, names->key);
    bwi_error(name.node != NULL ? &name : &item, "name.duplicate", NULL,
              "give it a name of its own",
              "a second %s is called \"%s\", as number %zu is", names->what, later->name,
              first->index + 1);
}

bool bwi_names_make(const bwi_at *list, const char *what, const char *key,
                    const char *const *names, size_t count, bwi_names *out)
{
    const char **words = bwi_new(list->doc, count, sizeof *words);
    bwi_named *sorted = bwi_new(list->doc, count, sizeof *sorted);
    *out = (bwi_names){.what = what, .key = key, .words = words, .sorted = sorted};
    out->refused = count == 0 && list->node != NULL &&
                   (!cJSON_IsArray(list->node) || bwi_count(list) > 0);
    if (words == NULL || sorted == NULL) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        if (names[i] != NULL) {
            words[out->count] = names[i];
            sorted[out->count++] = (bwi_named){names[i], i};
        }
    }
    qsort(sorted, out->count, sizeof *sorted, compare_names);
    size_t first = 0; /* of those with the same name */
    for (size_t i = 1; i < out->count; i++) {
        if (strcmp(sorted[first].name, sorted[i].name) != 0) {
            first = i;
        } else {
            report_duplicate(list, out, &sorted[i], &sorted[first]);
        }
    }
    return true;
}

int bwi_names_find(const bwi_names *names, const char *name)
{
    size_t low = 0;
    size_t high = names->count;
    while (low < high) { /* first that is not before the name */
        const size_t middle = low + (high - low) / 2;
        if (strcmp(names->sorted[middle].name, name) < 0) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    if (low == names->count || strcmp(names->sorted[low].name, name) != 0) {
        return -1;
    }
    return (int)names->sorted[low].index;
}

static void report_unknown(const bwi_at *at, const bwi_names *names, const char *name)
{
    enum { most_listed = 12 };
    bwi_json *doc = at->doc;
    if (bwi_faults_full(doc)) {
        bwi_error(at, "name.unknown", NULL, NULL, "unknown");
        return;
    }
    const char *near = bw_nearest_word(name, names->words, names->count);
    bw_text known = bw_text_new(doc->arena);
    for (size_t i = 0; i < names->count && i < most_listed; i++) {
        bw_text_print(&known, "%s%s", i == 0 ? "" : ", ", names->words[i]);
    }
    bw_text_add(&known, names->count > most_listed ? ", ..." : "");
    bwi_error(at, "name.unknown", names->count > 0 ? bw_text_string(&known) : NULL,
              near != NULL ? bwi_print(doc, "did you mean \"%s\"?", near) : NULL,
              "no %s is called %s", names->what, bwi_as_written(at));
}

bool bwi_reference(const bwi_at *at, const bwi_names *names, int *out)
{
    const char *name = NULL;
    if (!bwi_text(at, &name)) {
        return false;
    }
    const int index = bwi_names_find(names, name);
    if (index < 0 && !names->refused) {
        report_unknown(at, names, name);
    }
    *out = index < 0 ? *out : index;
    return index >= 0;
}

bool bwi_reference_or_index(const bwi_at *at, const bwi_names *names, int *out)
{
    bwi_note_kind(at, BWI_IS_INDEX | BWI_IS_TEXT);
    if (!cJSON_IsNumber(at->node)) {
        return bwi_reference(at, names, out);
    }
    double number = 0.0;
    if (!bwi_number(at, (bwi_range){.low = -HUGE_VAL, .high = HUGE_VAL}, &number)) {
        return false;
    }
    if (names->refused) {
        return false;
    }
    if (number < 0.0 || number >= (double)names->count || number > (double)(int)number ||
        number < (double)(int)number) {
        bwi_error(at, "name.index",
                  names->count > 0
                      ? bwi_print(at->doc, "0 to %zu, or a name", names->count - 1)
                      : NULL,
                  NULL, "there is no %s %s", names->what, bwi_as_written(at));
        return false;
    }
    *out = (int)number;
    return true;
}
