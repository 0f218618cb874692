/* test_requests.c - every case and every bad file of this folder as requests, and random
 * changes of them: each is answered, none breaks a promise (one_request.c). The seed is
 * fixed, so that a failure comes again. */
#include "one_request.h"

#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST = 32768, HEAD = 64, CHANGES = 1500 };

static const char *const heads[] = {"POST /check\n",
                                    "POST /try\n",
                                    "POST /working member=0\n",
                                    "POST /working member=7x\n",
                                    "POST /record date=2026-02-29&name=a%2e\n",
                                    "POST /record date=2026-03-01&name=<b>\n",
                                    "GET /steps by=girth&text=2 ft&text=25 in\n",
                                    "GET /along after=1&text=2 ft&text=25 in\n",
                                    "POST /../../etc/passwd\n",
                                    "GET /species/../page.js\n"};
enum { HEADS = sizeof heads / sizeof heads[0] };

typedef struct {
    uint8_t bytes[HEAD + MOST];
    size_t length;
} request;

static unsigned long long state = 0x9E3779B97F4A7C15ULL;
/* xorshift64 (Marsaglia 2003), from memory: good enough to change bytes. */
static size_t below(size_t n)
{
    state ^= state << 13;
    state ^= state >> 7;
    state ^= state << 17;
    return (size_t)(state % n);
}

static bool read_request(const char *head, const char *path, request *out)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return false;
    }
    out->length = strlen(head);
    memcpy(out->bytes, head, out->length);
    out->length += fread(out->bytes + out->length, 1, MOST, file);
    return fclose(file) == 0;
}

typedef void (*visitor)(const char *path);

static size_t each_file(const char *folder, visitor visit)
{
    char path[4096];
    size_t count = 0;
    DIR *stream = opendir(folder);
    assert_non_null(stream);
    const struct dirent *entry = NULL;
    while ((entry = readdir(stream)) != NULL) {
        if (strstr(entry->d_name, ".json") != NULL) {
            (void)snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
            visit(path);
            count++;
        }
    }
    (void)closedir(stream);
    return count;
}

static request now;

static void replay(const char *path)
{
    for (size_t h = 0; h < 3; h++) {
        assert_true(read_request(heads[h], path, &now));
        (void)LLVMFuzzerTestOneInput(now.bytes, now.length);
    }
}

static void test_replay(void **unused)
{
    (void)unused;
    const size_t bad = each_file(BW_SOURCE_DIR "/tests/bad", replay);
    assert_true(bad > 100);
    assert_true(each_file(BW_SOURCE_DIR "/src/page", replay) == 2);
    assert_true(one_request_count(200) + one_request_count(400) == 3 * (bad + 2));
}

/* ---- random changes ---- */

static char seeds[64][4096];
static size_t n_seeds;

static void remember(const char *path)
{
    if (n_seeds < 64) {
        (void)snprintf(seeds[n_seeds++], sizeof seeds[0], "%s", path);
    }
}

static const char *const pieces[] = {"null",
                                     "-1",
                                     "1e308",
                                     "\"\"",
                                     "{}",
                                     "[]",
                                     "\"9999 ft\"",
                                     "\"0 in\"",
                                     "\"-3 ft\"",
                                     "true",
                                     "\xFF",
                                     "\"\\u0000\"",
                                     "\"<svg onload=1>\"",
                                     ",",
                                     "}",
                                     "\""};

static void put_piece(request *r, size_t at)
{
    const char *piece = pieces[below(sizeof pieces / sizeof pieces[0])];
    const size_t length = strlen(piece);
    if (r->length + length <= sizeof r->bytes) {
        memmove(r->bytes + at + length, r->bytes + at, r->length - at);
        memcpy(r->bytes + at, piece, length);
        r->length += length;
    }
}

/* In place of a value: from a colon to the next comma or bracket. */
static void change_value(request *r, size_t at)
{
    while (at < r->length && r->bytes[at] != ':') {
        at++;
    }
    size_t end = at + 1;
    while (end < r->length && strchr(",}]\n", r->bytes[end]) == NULL) {
        end++;
    }
    if (end < r->length) {
        memmove(r->bytes + at + 1, r->bytes + end, r->length - end);
        r->length -= end - at - 1;
        put_piece(r, at + 1);
    }
}

static void change(request *r)
{
    const size_t at = below(r->length);
    switch (below(5)) {
    case 0:
        r->bytes[at] = (uint8_t)below(256);
        break;
    case 1:
        r->bytes[at] = (uint8_t)(r->bytes[at] ^ (1U << below(8)));
        break;
    case 2:
        r->length = at + 1;
        break;
    case 3:
        put_piece(r, at);
        break;
    default:
        change_value(r, at);
    }
}

static void test_changes(void **unused)
{
    (void)unused;
    n_seeds = 0;
    (void)each_file(BW_SOURCE_DIR "/src/page", remember);
    (void)each_file(BW_SOURCE_DIR "/tests/bad", remember);
    for (size_t n = 0; n < CHANGES; n++) {
        /* half of them from the two sound cases, which go farthest */
        const char *seed = seeds[n % 2 == 0 ? below(2) : below(n_seeds)];
        assert_true(read_request(heads[below(HEADS)], seed, &now));
        for (size_t k = 1 + below(3); k > 0; k--) {
            change(&now);
        }
        (void)LLVMFuzzerTestOneInput(now.bytes, now.length);
    }
    /* the changes reached past the first look at them, and were refused there as well */
    assert_true(one_request_count(200) > CHANGES / 4);
    assert_true(one_request_count(400) > 0);
    assert_true(one_request_count(404) + one_request_count(405) > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_replay),
        cmocka_unit_test(test_changes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
