/* jobs.c - independent jobs on several threads (POSIX): each takes the next job
 * that nobody has taken yet. */
#include "bolewright/base.h"

#include <pthread.h>
#include <stdatomic.h>
#include <unistd.h>

enum { THREADS_MOST = 16 };

typedef struct {
    bw_job job;
    void *context;
    size_t n;
    atomic_size_t next;
} queue;

static void *work(void *context)
{
    queue *q = context;
    for (size_t k = atomic_fetch_add(&q->next, 1); k < q->n;
         k = atomic_fetch_add(&q->next, 1)) {
        q->job(q->context, k);
    }
    return NULL;
}

int bw_processors(void)
{
    const long n = sysconf(_SC_NPROCESSORS_ONLN);
    return n < 1 ? 1 : n > THREADS_MOST ? THREADS_MOST : (int)n;
}

/* A thread that cannot be had is done without: the caller works too. */
void bw_run_jobs(size_t n, int threads, bw_job job, void *context)
{
    queue q = {.job = job, .context = context, .n = n};
    pthread_t helpers[THREADS_MOST];
    int started = 0;
    while (started + 1 < threads && (size_t)started + 1 < n && started < THREADS_MOST &&
           pthread_create(&helpers[started], NULL, work, &q) == 0) {
        started++;
    }
    (void)work(&q);
    for (int k = 0; k < started; k++) {
        (void)pthread_join(helpers[k], NULL);
    }
}
