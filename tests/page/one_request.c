/* one_request.c - what libFuzzer calls, and the test of requests too. */
#include "one_request.h"

#include "bolewright/input.h"
#include "bolewright/page.h"

#include <stdlib.h>
#include <string.h>

static unsigned long counts[600];

unsigned long one_request_count(int status)
{
    return counts[status];
}

static void insist(int promise)
{
    if (!promise) {
        abort();
    }
}

/* Cuts the text at the sign; what comes behind it, or the end. */
static char *cut(char *text, char sign)
{
    char *at = strchr(text, sign);
    if (at == NULL) {
        return text + strlen(text);
    }
    *at = '\0';
    return at + 1;
}

static size_t arguments_of(char *text, bw_page_argument *out, size_t room)
{
    size_t n = 0;
    while (*text != '\0' && n < room) {
        char *next = cut(text, '&');
        char *value = cut(text, '=');
        out[n++] = (bw_page_argument){text, value};
        text = next;
    }
    return n;
}

static const bw_species_table *species(void)
{
    static bw_species_table table;
    static bw_arena *arena;
    if (arena == NULL) {
        arena = bw_arena_new();
        insist(arena != NULL);
        bw_diags d = bw_diags_new(arena, NULL);
        insist(bw_input_species(arena, NULL, &table, &d) == BW_OK);
    }
    return &table;
}

static void check_answer(const bw_page_response *r)
{
    insist(r->status >= 200 && r->status < 600);
    insist(r->type != NULL && r->body != NULL && strlen(r->body) == r->length);
    insist(r->status != 500);
    counts[r->status]++;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    enum { ARGUMENTS = 32 };
    bw_page_argument arguments[ARGUMENTS];
    const bw_page page = {.species = species(), .port = 4711};
    bw_arena *arena = bw_arena_new();
    char *text = arena == NULL ? NULL : bw_arena_alloc(arena, size + 1);
    insist(text != NULL);
    if (size > 0) {
        memcpy(text, data, size);
    }
    const char *end = size == 0 ? NULL : memchr(data, '\n', size);
    const size_t head = end == NULL ? size : (size_t)(end - (const char *)data) + 1;
    char *method = text;
    if (end != NULL) {
        text[head - 1] = '\0';
    }
    char *path = cut(method, ' ');
    char *rest = cut(path, ' ');
    const bw_page_request request = {
        .method = method,
        .path = path,
        .host = "127.0.0.1:4711",
        .origin = "http://127.0.0.1:4711",
        .content_type = "application/json",
        .arguments = arguments,
        .n_arguments = arguments_of(rest, arguments, ARGUMENTS),
        .body = text + head,
        .length = size - head,
    };
    bw_page_response response;
    bw_page_answer(arena, &page, &request, &response);
    check_answer(&response);
    bw_arena_free(arena);
    return 0;
}
