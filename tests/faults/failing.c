#include "failing.h"

#include "bolewright/base.h"

#include <cjson/cJSON.h>
#include <lapacke.h>
#include <stdio.h>
#include <stdlib.h>

static failing_kind kind;
static unsigned long asked, failing_at;
static bool goes_on;
static long alive;

static void *hook_malloc(size_t size)
{
    return malloc(size); /* the one below */
}

static void hook_free(void *piece)
{
    free(piece);
}

void failing_begin(failing_kind what, unsigned long n, bool for_good)
{
    static cJSON_Hooks hooks = {hook_malloc, hook_free};
    cJSON_InitHooks(&hooks);
    kind = what;
    failing_at = n;
    goes_on = for_good;
    asked = 0;
}

unsigned long failing_end(void)
{
    kind = FAIL_NOTHING;
    return asked;
}

long failing_alive(void)
{
    return alive;
}

static bool is_due(failing_kind here)
{
    if (kind != here) {
        return false;
    }
    asked++;
    return asked == failing_at || (goes_on && asked > failing_at);
}

static void *counted(void *piece)
{
    alive += piece != NULL ? 1 : 0;
    return piece;
}

/* ---- the system ---- */

void *__real_malloc(size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_malloc(size_t size)
{
    return is_due(FAIL_SYSTEM) ? NULL : counted(__real_malloc(size));
}

void *__real_calloc(size_t count, size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_calloc(size_t count, size_t size)
{
    return is_due(FAIL_SYSTEM) ? NULL : counted(__real_calloc(count, size));
}

void __real_free(void *piece);
void __wrap_free(void *piece);
void __wrap_free(void *piece)
{
    alive -= piece != NULL ? 1 : 0;
    __real_free(piece);
}

/* These ask the system inside LAPACKE, which says so with a number of its own. */
lapack_int __real_LAPACKE_dpbcon(int layout, char part, lapack_int n, lapack_int kd,
                                 const double *band, lapack_int ld, double norm,
                                 double *rcond);
lapack_int __wrap_LAPACKE_dpbcon(int layout, char part, lapack_int n, lapack_int kd,
                                 const double *band, lapack_int ld, double norm,
                                 double *rcond);
lapack_int __wrap_LAPACKE_dpbcon(int layout, char part, lapack_int n, lapack_int kd,
                                 const double *band, lapack_int ld, double norm,
                                 double *rcond)
{
    return is_due(FAIL_SYSTEM)
               ? LAPACK_WORK_MEMORY_ERROR
               : __real_LAPACKE_dpbcon(layout, part, n, kd, band, ld, norm, rcond);
}

lapack_int __real_LAPACKE_dsbgvx(int layout, char job, char range, char part,
                                 lapack_int n, lapack_int ka, lapack_int kb, double *a,
                                 lapack_int lda, double *b, lapack_int ldb, double *q,
                                 lapack_int ldq, double low, double high,
                                 lapack_int first, lapack_int last, double tolerance,
                                 lapack_int *found, double *w, double *z, lapack_int ldz,
                                 lapack_int *failed);
lapack_int __wrap_LAPACKE_dsbgvx(int layout, char job, char range, char part,
                                 lapack_int n, lapack_int ka, lapack_int kb, double *a,
                                 lapack_int lda, double *b, lapack_int ldb, double *q,
                                 lapack_int ldq, double low, double high,
                                 lapack_int first, lapack_int last, double tolerance,
                                 lapack_int *found, double *w, double *z, lapack_int ldz,
                                 lapack_int *failed);
lapack_int __wrap_LAPACKE_dsbgvx(int layout, char job, char range, char part,
                                 lapack_int n, lapack_int ka, lapack_int kb, double *a,
                                 lapack_int lda, double *b, lapack_int ldb, double *q,
                                 lapack_int ldq, double low, double high,
                                 lapack_int first, lapack_int last, double tolerance,
                                 lapack_int *found, double *w, double *z, lapack_int ldz,
                                 lapack_int *failed)
{
    return is_due(FAIL_SYSTEM)
               ? LAPACK_WORK_MEMORY_ERROR
               : __real_LAPACKE_dsbgvx(layout, job, range, part, n, ka, kb, a, lda, b,
                                       ldb, q, ldq, low, high, first, last, tolerance,
                                       found, w, z, ldz, failed);
}

lapack_int __real_LAPACKE_dgesdd(int layout, char job, lapack_int m, lapack_int n,
                                 double *a, lapack_int lda, double *s, double *u,
                                 lapack_int ldu, double *vt, lapack_int ldvt);
lapack_int __wrap_LAPACKE_dgesdd(int layout, char job, lapack_int m, lapack_int n,
                                 double *a, lapack_int lda, double *s, double *u,
                                 lapack_int ldu, double *vt, lapack_int ldvt);
lapack_int __wrap_LAPACKE_dgesdd(int layout, char job, lapack_int m, lapack_int n,
                                 double *a, lapack_int lda, double *s, double *u,
                                 lapack_int ldu, double *vt, lapack_int ldvt)
{
    return is_due(FAIL_SYSTEM)
               ? LAPACK_WORK_MEMORY_ERROR
               : __real_LAPACKE_dgesdd(layout, job, m, n, a, lda, s, u, ldu, vt, ldvt);
}

/* ---- arenas: calls from other files than arena.c; the arena itself is made to fail, so
 * that it knows ---- */

/* Before a call that may fail, and after it. */
static void let_fail(bool due)
{
    bw_arena_fail_after(due ? 1 : 0);
}

void *__real_bw_arena_alloc(bw_arena *arena, size_t size);
void *__wrap_bw_arena_alloc(bw_arena *arena, size_t size);
void *__wrap_bw_arena_alloc(bw_arena *arena, size_t size)
{
    let_fail(is_due(FAIL_ARENA));
    void *got = __real_bw_arena_alloc(arena, size);
    let_fail(false);
    return got;
}

void *__real_bw_arena_alloc_array(bw_arena *arena, size_t count, size_t size);
void *__wrap_bw_arena_alloc_array(bw_arena *arena, size_t count, size_t size);
void *__wrap_bw_arena_alloc_array(bw_arena *arena, size_t count, size_t size)
{
    let_fail(is_due(FAIL_ARENA));
    void *got = __real_bw_arena_alloc_array(arena, count, size);
    let_fail(false);
    return got;
}

void *__real_bw_arena_grow(bw_arena *arena, void *items, size_t count, size_t *capacity,
                           size_t size);
void *__wrap_bw_arena_grow(bw_arena *arena, void *items, size_t count, size_t *capacity,
                           size_t size);
/* Only where there is something to grow. */
void *__wrap_bw_arena_grow(bw_arena *arena, void *items, size_t count, size_t *capacity,
                           size_t size)
{
    let_fail(count >= *capacity && is_due(FAIL_ARENA));
    void *got = __real_bw_arena_grow(arena, items, count, capacity, size);
    let_fail(false);
    return got;
}

char *__real_bw_arena_copy(bw_arena *arena, const char *text);
char *__wrap_bw_arena_copy(bw_arena *arena, const char *text);
char *__wrap_bw_arena_copy(bw_arena *arena, const char *text)
{
    let_fail(is_due(FAIL_ARENA));
    char *got = __real_bw_arena_copy(arena, text);
    let_fail(false);
    return got;
}

/* bw_arena_print takes any number of arguments, which cannot be handed on: it is made
 * here anew, of the same two steps. */
char *__wrap_bw_arena_print(bw_arena *arena, const char *format, ...) BW_PRINTF(2, 3);
char *__wrap_bw_arena_print(bw_arena *arena, const char *format, ...)
{
    va_list pieces;
    va_start(pieces, format);
    const int length = vsnprintf(NULL, 0, format, pieces);
    va_end(pieces);
    char *text = length < 0 ? NULL : __wrap_bw_arena_alloc(arena, (size_t)length + 1);
    if (text != NULL) {
        va_start(pieces, format);
        (void)vsnprintf(text, (size_t)length + 1, format, pieces);
        va_end(pieces);
    }
    return text;
}
