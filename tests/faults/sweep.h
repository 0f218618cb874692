/* sweep.h - memory runs out at every place of a run, one run after the other: each says
 * so, or gives what it gives otherwise. Never a crash, a leak or another answer. */
#ifndef BW_SWEEP_H
#define BW_SWEEP_H

#include "failing.h"

#include "bolewright/base.h"

enum { SWEEP_WORDS = 12 };

/* What a run gives: its exit status and its words, if memory did not run out. */
typedef struct {
    int status;
    const char *words; /* null: memory ran out */
} outcome;

typedef struct task {
    const char *name;
    outcome (*run)(const struct task *t, bw_arena *arena, bw_arena *keeper);
    bool every;                    /* every place is tried unless there are very many */
    const char *line[SWEEP_WORDS]; /* a command line, */
    const char *path;              /* or a request of the page, */
    const char *file;              /* or a case, read before */
} task;

/* The words of the outcome, copied into the keeper; null: memory ran out. */
void sweep_keep(outcome *out, bw_arena *keeper, const char *words);

/* Tries the places of the task, as many as the time allows; BW_EVERY=1 in the
 * environment: every one. Fails the test of cmocka that runs. */
void sweep_task(const task *t, failing_kind kind, bool for_good);

#endif
