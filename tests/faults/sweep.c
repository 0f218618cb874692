#include "sweep.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { LEAST = 20, MANY = 1000 };
static const double most_seconds = 0.7; /* for one way of failing of one run */

void sweep_keep(outcome *out, bw_arena *keeper, const char *words)
{
    out->words = words == NULL ? NULL : bw_arena_copy(keeper, words);
}

static outcome run_task(const task *t, bw_arena *keeper)
{
    bw_arena *arena = bw_arena_new();
    outcome out = {bw_status_exit(BW_E_MEMORY), NULL};
    if (arena != NULL) {
        out = t->run(t, arena, keeper);
    }
    failing_end();
    bw_arena_free(arena);
    return out;
}

typedef struct {
    const task *task;
    failing_kind kind;
    bool for_good;
    outcome whole; /* with memory enough */
} sweep;

/* From the first difference on, a little. */
static void fail_differing(const sweep *s, unsigned long n, const outcome *got)
{
    size_t at = 0;
    while (got->words[at] != '\0' && got->words[at] == s->whole.words[at]) {
        at++;
    }
    fail_msg("%s, place %lu: another answer, status %d instead of %d:\n%.300s\n"
             "instead of:\n%.300s",
             s->task->name, n, got->status, s->whole.status, got->words + at,
             s->whole.words + at);
}

/* True if memory ran out. */
static bool fails_at(const sweep *s, unsigned long n)
{
    const long alive = failing_alive();
    bw_arena *keeper = bw_arena_new();
    assert_non_null(keeper);
    failing_begin(s->kind, n, s->for_good);
    const outcome got = run_task(s->task, keeper);
    if (got.words != NULL &&
        (got.status != s->whole.status || strcmp(got.words, s->whole.words) != 0)) {
        fail_differing(s, n, &got);
    }
    const bool failed = got.words == NULL;
    bw_arena_free(keeper);
    if (failing_alive() != alive) {
        fail_msg("%s, place %lu: %ld pieces of memory left", s->task->name, n,
                 failing_alive() - alive);
    }
    return failed;
}

static double seconds_now(void)
{
    struct timespec now;
    assert_int_equal(clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now), 0);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* Steps that use up the time if every place takes as long as the whole run. */
static unsigned long step_of(unsigned long places, double seconds)
{
    const char *every = getenv("BW_EVERY");
    const bool all = every != NULL && every[0] != '\0';
    return all ? 1 : 1 + (unsigned long)(seconds * (double)places / most_seconds);
}

void sweep_task(const task *t, failing_kind kind, bool for_good)
{
    bw_arena *keeper = bw_arena_new();
    assert_non_null(keeper);
    sweep s = {.task = t, .kind = kind, .for_good = for_good};
    const double begun = seconds_now();
    failing_begin(kind, 0, false);
    s.whole = run_task(t, keeper);
    const unsigned long places = failing_end();
    const double took = seconds_now() - begun;
    assert_non_null(s.whole.words);
    assert_true(places > 0);
    /* under the sanitizer every piece of an arena is asked of the system: too many */
    const bool every = t->every && places <= MANY;
    const unsigned long step = every ? 1 : step_of(places, took);
    unsigned long tried = 0, failed = 0;
    for (unsigned long n = 1; n <= places; n += n < LEAST ? 1 : step, tried++) {
        failed += fails_at(&s, n) ? 1 : 0;
    }
    assert_false(fails_at(&s, places + 1));
    assert_true(failed > 0);
    print_message("%s: %lu places, %lu tried, %lu of them fatal\n", t->name, places,
                  tried, failed);
    bw_arena_free(keeper);
}
