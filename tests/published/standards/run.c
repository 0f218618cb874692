/* run.c - runs rows of published values: published_standards FILE...
 *
 * A file: { "format": 1, "title", "sources": { key: { "title", "year", "clause", "mark" }
 * }, "rows": [ { "id", "what", "function", "inputs": { name: "18.5 in" or a number },
 *                       "expected", "unit" ("1" for a number), "tolerance" in that unit,
 *                       "source": key, "mark" } ] }
 * Exit status 0 if every row agrees and there is at least one, else 1. */
#include "functions.h"

#include <cjson/cJSON.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { most_marks = 8 };

typedef struct {
    int rows, agree;
    struct {
        const char *name;
        int rows;
    } marks[most_marks];
} tally;

static const char *string_of(const cJSON *object, const char *key)
{
    const cJSON *item = cJSON_GetObjectItemCaseSensitive(object, key);

    return cJSON_IsString(item) ? item->valuestring : NULL;
}

static double number_of(const cJSON *object, const char *key)
{
    const cJSON *item = cJSON_GetObjectItemCaseSensitive(object, key);

    return cJSON_IsNumber(item) ? item->valuedouble : (double)NAN;
}

/* The known marks, so that a misspelt one is not counted as a kind of its own. */
static const char *known_mark(const char *mark)
{
    static const char *const known[] = {"READ", "COMPUTED", "READ + COMPUTED", "MEMORY",
                                        "COMPUTED from MEMORY"};

    for (size_t i = 0; mark != NULL && i < sizeof known / sizeof known[0]; i++) {
        if (strcmp(known[i], mark) == 0) {
            return known[i];
        }
    }
    return NULL;
}

static void count_mark(tally *t, const char *mark)
{
    int i = 0;

    while (i < most_marks - 1 && t->marks[i].name != NULL && t->marks[i].name != mark) {
        i++;
    }
    t->marks[i].name = mark;
    t->marks[i].rows++;
}

static bool read_input(const cJSON *item, row_inputs *in)
{
    for (size_t i = 0; i < row_input_count; i++) {
        const row_input *input = &row_input_list[i];
        double value = (double)NAN;
        if (strcmp(input->name, item->string) != 0) {
            continue;
        }
        if (input->quantity == BW_NUMBER) {
            value = cJSON_IsNumber(item) ? item->valuedouble : (double)NAN;
        } else if (!cJSON_IsString(item) ||
                   bw_quantity_parse(input->quantity, item->valuestring, &value) !=
                       BW_PARSE_OK) {
            value = (double)NAN;
        }
        memcpy((char *)in + input->offset, &value, sizeof value);
        return isfinite(value);
    }
    return false;
}

static bool read_inputs(const cJSON *row, row_inputs *in)
{
    const cJSON *item = NULL;

    *in = row_inputs_unknown();
    cJSON_ArrayForEach(item, cJSON_GetObjectItemCaseSensitive(row, "inputs"))
    {
        if (!read_input(item, in)) {
            printf("  input %s is unknown or cannot be read\n", item->string);
            return false;
        }
    }
    return true;
}

static bool row_agrees(const cJSON *row)
{
    const char *name = string_of(row, "function");
    const char *unit = string_of(row, "unit");
    const row_function *function = name != NULL ? row_function_find(name) : NULL;
    const double expected = number_of(row, "expected");
    const double tolerance = number_of(row, "tolerance");
    row_inputs in;

    if (function == NULL || unit == NULL || !read_inputs(row, &in)) {
        printf("  no such function, no unit, or wrong inputs\n");
        return false;
    }
    const double size = strcmp(unit, "1") == 0 && function->quantity == BW_NUMBER
                            ? 1.0
                            : bw_unit_size(function->quantity, unit);
    const double value = function->value(&in) / (size > 0.0 ? size : (double)NAN);
    if (tolerance > 0.0 && fabs(value - expected) <= tolerance) {
        return true;
    }
    printf("  %s gives %.8g %s; expected %.8g within %g\n", name, value, unit, expected,
           tolerance);
    return false;
}

static bool source_is_complete(const cJSON *source)
{
    return string_of(source, "title") != NULL && string_of(source, "clause") != NULL &&
           known_mark(string_of(source, "mark")) != NULL &&
           isfinite(number_of(source, "year"));
}

static void run_row(const cJSON *row, const cJSON *sources, tally *t)
{
    const char *id = string_of(row, "id");
    const char *what = string_of(row, "what");
    const char *key = string_of(row, "source");
    const char *mark = known_mark(string_of(row, "mark"));
    const cJSON *source =
        key != NULL ? cJSON_GetObjectItemCaseSensitive(sources, key) : NULL;

    t->rows++;
    if (id == NULL || what == NULL || mark == NULL || !source_is_complete(source)) {
        printf("row %s: needs id, what, a known mark and a complete source\n",
               id != NULL ? id : "without id");
        return;
    }
    count_mark(t, mark);
    if (row_agrees(row)) {
        t->agree++;
        return;
    }
    printf("row %s (%s), mark %s, disagrees; source: %s, %.0f, %s (%s)\n", id, what, mark,
           string_of(source, "title"), number_of(source, "year"),
           string_of(source, "clause"), string_of(source, "mark"));
}

/* The whole file as terminated text; null if it cannot be read. */
static char *read_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    char *text = NULL;
    long size = -1;

    if (file == NULL) {
        return NULL;
    }
    if (fseek(file, 0, SEEK_END) == 0) {
        size = ftell(file);
    }
    if (size >= 0 && fseek(file, 0, SEEK_SET) == 0) {
        text = calloc((size_t)size + 1, 1);
    }
    if (text != NULL && fread(text, 1, (size_t)size, file) != (size_t)size) {
        free(text);
        text = NULL;
    }
    fclose(file);
    return text;
}

static bool run_file(const char *path, tally *t)
{
    char *text = read_file(path);
    cJSON *root = text != NULL ? cJSON_ParseWithOpts(text, NULL, 1) : NULL;
    const cJSON *rows = cJSON_GetObjectItemCaseSensitive(root, "rows");
    const bool readable = cJSON_GetArraySize(rows) > 0;
    const cJSON *row = NULL;

    if (!readable) {
        printf("%s: no rows can be read\n", path);
    }
    cJSON_ArrayForEach(row, rows)
    {
        run_row(row, cJSON_GetObjectItemCaseSensitive(root, "sources"), t);
    }
    cJSON_Delete(root);
    free(text);
    return readable;
}

int main(int argc, char **argv)
{
    tally t = {0};
    bool readable = true;

    for (int i = 1; i < argc; i++) {
        readable = run_file(argv[i], &t) && readable;
    }
    printf("%d of %d rows agree with their source; by mark:", t.agree, t.rows);
    for (int i = 0; i < most_marks && t.marks[i].name != NULL; i++) {
        printf("%s %s %d", i > 0 ? "," : "", t.marks[i].name, t.marks[i].rows);
    }
    printf("\n");
    return readable && t.rows > 0 && t.agree == t.rows ? EXIT_SUCCESS : EXIT_FAILURE;
}
