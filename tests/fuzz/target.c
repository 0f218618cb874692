#include "target.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void fuzz_insist(int promise, const char *words)
{
    if (!promise) {
        (void)fprintf(stderr, "a promise is broken: %s\n", words);
        abort();
    }
}

bw_arena *fuzz_arena(void)
{
    bw_arena *arena = bw_arena_new();
    INSIST(arena != NULL);
    return arena;
}

const char *fuzz_text(bw_arena *arena, const uint8_t *data, size_t size)
{
    char *text = bw_arena_alloc(arena, size + 1);
    INSIST(text != NULL);
    if (size > 0) {
        memcpy(text, data, size);
    }
    /* exactly as long as its block, so that the sanitizer sees a step beyond */
    return bw_arena_copy(arena, text);
}

static int count_lines(const char *text)
{
    int lines = 1;
    for (; *text != '\0'; text++) {
        lines += *text == '\n' ? 1 : 0;
    }
    return lines;
}

static void check_told(const bw_diags *d)
{
    size_t errors = 0;
    bw_text printed = bw_text_new(d->arena);
    for (size_t i = 0; i < d->count; i++) {
        INSIST(d->items[i].id != NULL && d->items[i].id[0] != '\0');
        INSIST(d->items[i].message != NULL && d->items[i].message[0] != '\0');
        errors += d->items[i].severity == BW_ERROR ? 1 : 0;
    }
    INSIST(errors == d->errors);
    INSIST(!d->failed);
    bw_diags_print(d, &printed);
    INSIST(bw_text_string(&printed) != NULL);
}

void fuzz_check_reading(const char *text, bw_status status, const bw_diags *d)
{
    const int lines = count_lines(text);
    INSIST(status == BW_OK || status == BW_E_INPUT);
    INSIST((status == BW_OK) == (d->errors == 0));
    for (size_t i = 0; i < d->count; i++) {
        INSIST(d->items[i].path != NULL);
        INSIST(d->items[i].line <= lines);
        INSIST(d->items[i].severity == BW_NOTE || d->items[i].line > 0);
        INSIST(d->items[i].severity == BW_NOTE || d->items[i].column > 0);
    }
    check_told(d);
}

void fuzz_check_result(bw_status status, const bw_diags *d)
{
    INSIST(status == BW_OK || status == BW_E_INPUT || status == BW_E_MECHANISM ||
           status == BW_E_CONDITION);
    INSIST((status == BW_OK) == (d->errors == 0));
    check_told(d);
}

static bool holds_word(const char *text, const char *word)
{
    const size_t length = strlen(word);
    for (const char *at = strstr(text, word); at != NULL; at = strstr(at + 1, word)) {
        const char before = at == text ? ' ' : at[-1];
        const char after = at[length];
        if (strchr(" \n-(,:", before) != NULL && strchr(" \n),;", after) != NULL) {
            return true;
        }
    }
    return false;
}

void fuzz_check_report(const bw_text *report)
{
    const char *text = bw_text_string(report);
    INSIST(text != NULL && text[0] != '\0');
    INSIST(!holds_word(text, "nan"));
    INSIST(!holds_word(text, "inf"));
}

const bw_species_table *fuzz_species(void)
{
    static bw_species_table table;
    static bw_arena *arena;
    if (arena == NULL) {
        arena = fuzz_arena();
        bw_diags d = bw_diags_new(arena, NULL);
        INSIST(bw_input_species(arena, NULL, &table, &d) == BW_OK);
    }
    return &table;
}

const bw_case *fuzz_deck(void)
{
    static bw_case deck;
    static bw_arena *arena;
    if (arena == NULL) {
        const char *text = NULL;
        arena = fuzz_arena();
        bw_diags d = bw_diags_new(arena, NULL);
        INSIST(bw_input_read_file(arena, BW_SOURCE_DIR "/tests/fuzz/deck.json", &text,
                                  &d) == BW_OK);
        INSIST(bw_input_case(arena, text, fuzz_species(), &deck, &d) == BW_OK);
    }
    return &deck;
}
