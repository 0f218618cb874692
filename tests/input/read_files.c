/* read_files.c - for schema.py: reads files from standard input, each as a line "KIND
 * BYTES" and so many bytes, and answers with a line each: "read", or the ids of its
 * errors. Measurements are those of the demo deck in the first argument; the second is a
 * further species table. */
#include "bolewright/input.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    bw_species_table species;
    bw_case deck;
} world;

static bw_status read_one(const world *w, bw_arena *arena, const char *kind,
                          const char *text, bw_diags *d)
{
    bw_case deck;
    bw_frame_input frame;
    bw_inspections inspections;
    bw_log_list logs;
    if (strcmp(kind, "case") == 0) {
        return bw_input_case(arena, text, &w->species, &deck, d);
    }
    if (strcmp(kind, "frame") == 0) {
        return bw_input_frame(arena, text, &frame, d);
    }
    if (strcmp(kind, "inspections") == 0) {
        return bw_input_inspections(arena, text, &w->deck, &inspections, d);
    }
    return strcmp(kind, "logs") == 0 ? bw_input_logs(arena, text, &w->deck, &logs, d)
                                     : BW_E_INTERNAL;
}

/* The key that is missing, in brackets. */
static void tell_key(const bw_diag *diag)
{
    const char *key =
        strcmp(diag->id, "key.missing") == 0 ? strchr(diag->message, '"') : NULL;
    if (key != NULL) {
        (void)printf("(%.*s)", (int)strcspn(key + 1, "\""), key + 1);
    }
}

static int answer(const world *w, const char *kind, const char *text)
{
    bw_arena *arena = bw_arena_new();
    if (arena == NULL) {
        return 1;
    }
    bw_diags d = bw_diags_new(arena, NULL);
    const bw_status status = read_one(w, arena, kind, text, &d);
    (void)printf("%s", status == BW_OK ? "read" : "");
    for (size_t i = 0; i < d.count; i++) {
        if (d.items[i].severity == BW_ERROR) {
            (void)printf(" %s", d.items[i].id);
            tell_key(&d.items[i]);
        }
    }
    (void)printf("\n");
    bw_arena_free(arena);
    return status == BW_OK || status == BW_E_INPUT ? 0 : 1;
}

static int answer_all(const world *w)
{
    char kind[16];
    unsigned long bytes = 0;
    while (scanf("%15s %lu", kind, &bytes) == 2) {
        char *text = calloc(bytes + 1, 1);
        if (text == NULL || getchar() != '\n' || fread(text, 1, bytes, stdin) != bytes) {
            free(text);
            return 1;
        }
        const int failed = answer(w, kind, text);
        free(text);
        if (failed != 0) {
            return 1;
        }
    }
    return 0;
}

int main(int argc, char **argv)
{
    bw_arena *arena = bw_arena_new();
    if (arena == NULL || argc != 3) {
        return 1;
    }
    world w = {.species = {NULL, 0, NULL}};
    const char *text = NULL;
    bw_diags d = bw_diags_new(arena, NULL);
    int failed = 1;
    if (bw_input_species(arena, NULL, &w.species, &d) == BW_OK &&
        bw_input_read_file(arena, argv[1], &text, &d) == BW_OK &&
        bw_input_case(arena, text, &w.species, &w.deck, &d) == BW_OK &&
        bw_input_read_file(arena, argv[2], &text, &d) == BW_OK &&
        bw_input_species_text(arena, text, &w.species, &d) == BW_OK) {
        failed = answer_all(&w);
    }
    bw_arena_free(arena);
    return failed;
}
