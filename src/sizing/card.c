/* card.c - cards: columns of smallest logs, found on one or more threads.
 *
 * A column is one species and one use. Its cells are found one after the other, each from
 * where the ones before it point to; no column knows of another, so that it does not
 * matter which thread finds it, or when. Each has an arena of its own. */
#include "internal.h"

#include <math.h>
#include <pthread.h>

/* What the threads share; all but the questions under the lock. */
typedef struct {
    const bw_card_question *questions;
    bw_card *out;
    const bw_watch *watch;
    pthread_mutex_t lock;
    size_t done, all; /* cells */
    bw_status status; /* the first that is not BW_OK stops all */
} work;

/* ---- one column ---- */

/* Where the last two edges point to on a straight line of the logarithms [m of girth];
 * 0: nowhere. */
static double guess_from(const double *spans, const double *edges, size_t row)
{
    const double usual = 0.9; /* power of the span, for want of a second edge */
    if (row == 0 || !(edges[row - 1] > 0.0)) {
        return 0.0;
    }
    const double last = edges[row - 1], way = log(spans[row] / spans[row - 1]);
    double power = usual;
    if (row > 1 && edges[row - 2] > 0.0) {
        power = log(last / edges[row - 2]) / log(spans[row - 1] / spans[row - 2]);
    }
    const double guess = last * exp(power * way);
    return isfinite(guess) ? guess : 0.0;
}

/* Counts a cell; false: stop. */
static bool count(work *w)
{
    bool go_on = false;
    (void)pthread_mutex_lock(&w->lock);
    w->done++;
    if (w->status == BW_OK && w->watch != NULL && w->watch->go_on != NULL &&
        !w->watch->go_on(w->watch->context, w->done, w->all)) {
        w->status = BW_E_STOPPED;
    }
    go_on = w->status == BW_OK;
    (void)pthread_mutex_unlock(&w->lock);
    return go_on;
}

static bw_status find_cell(bw_arena *arena, const bw_card_question *q, size_t row,
                           size_t column, double guess, double *edge, bw_log_answer *out)
{
    const bw_log_question one = {.species = q->species,
                                 .grade = q->grade,
                                 .grown = q->grown,
                                 .height = q->height,
                                 .span = q->spans[row],
                                 .duty = q->duties[column]};
    const bw_arena_mark mark = bw_arena_now(arena);
    bw_diags d = bw_diags_new(arena, NULL);
    const bw_status status = bwi_log_search(arena, &one, guess, out, edge, &d);
    bw_arena_back(arena, mark);
    if (status == BW_E_INPUT) { /* the table lacks a value: no cell */
        *out = (bw_log_answer){.at = {.verdict = BW_CANNOT_SAY}};
        *edge = 0.0;
        return BW_OK;
    }
    return status;
}

static bw_status find_column(work *w, bw_arena *arena, bw_card *card, size_t column)
{
    const bw_card_question *q = &card->question;
    double *edges = BW_NEW(arena, double, q->n_spans);
    if (edges == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t row = 0; row < q->n_spans; row++) {
        BW_TRY(find_cell(arena, q, row, column, guess_from(q->spans, edges, row),
                         &edges[row], &card->cells[row * q->n_duties + column]));
        if (!count(w)) {
            return BW_OK;
        }
    }
    return BW_OK;
}

/* ---- all columns ---- */

static bool is_stopped(work *w)
{
    (void)pthread_mutex_lock(&w->lock);
    const bool stopped = w->status != BW_OK;
    (void)pthread_mutex_unlock(&w->lock);
    return stopped;
}

static void fail(work *w, bw_status status)
{
    (void)pthread_mutex_lock(&w->lock);
    w->status = w->status == BW_OK ? status : w->status;
    (void)pthread_mutex_unlock(&w->lock);
}

/* Column k, counted through all cards. */
static void column_job(void *shared, size_t k)
{
    work *w = shared;
    size_t card = 0;
    if (is_stopped(w)) {
        return;
    }
    while (k >= w->questions[card].n_duties) {
        k -= w->questions[card++].n_duties;
    }
    bw_arena *arena = bw_arena_new();
    const bw_status status =
        arena != NULL ? find_column(w, arena, &w->out[card], k) : BW_E_MEMORY;
    bw_arena_free(arena);
    if (status != BW_OK) {
        fail(w, status);
    }
}

bw_status bw_cards_make(bw_arena *arena, const bw_card_question *questions, size_t n,
                        int threads, const bw_watch *watch, bw_card *out)
{
    work w = {.questions = questions, .out = out, .watch = watch};
    size_t n_columns = 0; /* over all cards */
    for (size_t k = 0; k < n; k++) {
        const size_t cells = questions[k].n_spans * questions[k].n_duties;
        out[k] = (bw_card){questions[k], BW_NEW(arena, bw_log_answer, cells)};
        if (out[k].cells == NULL) {
            return BW_E_MEMORY;
        }
        n_columns += questions[k].n_duties;
        w.all += cells;
    }
    if (pthread_mutex_init(&w.lock, NULL) != 0) {
        return BW_E_MEMORY;
    }
    bw_run_jobs(n_columns, threads, column_job, &w);
    (void)pthread_mutex_destroy(&w.lock);
    return w.status;
}
