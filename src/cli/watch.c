/* watch.c - progress on a terminal, and Ctrl-C. */
#include "watch.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static volatile sig_atomic_t asked_to_stop;

static void on_interrupt(int number)
{
    (void)number;
    asked_to_stop = 1;
}

bwi_watch bwi_watch_begin(const char *what)
{
    bwi_watch watch = {.what = what, .on_terminal = isatty(STDERR_FILENO) == 1};
    (void)clock_gettime(CLOCK_MONOTONIC, &watch.begun);
    asked_to_stop = 0;
    watch.before = signal(SIGINT, on_interrupt);
    if (watch.before == SIG_IGN) { /* begun in the background: not asked */
        (void)signal(SIGINT, SIG_IGN);
    }
    return watch;
}

static double seconds_since(const struct timespec *begun)
{
    struct timespec now;
    (void)clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - begun->tv_sec) +
           1e-9 * (double)(now.tv_nsec - begun->tv_nsec);
}

bool bwi_watch_go_on(void *context, size_t done, size_t all)
{
    bwi_watch *watch = context;
    /* No more often than one can read: a terminal that takes nothing for a while must not
     * hold up the work, and Ctrl-C with it. */
    const double patience = 0.5, pause = 0.2; /* [s] */
    const double now = watch->on_terminal ? seconds_since(&watch->begun) : 0.0;
    if (now > patience && now > watch->shown_at + pause) {
        watch->shown = true;
        watch->shown_at = now;
        (void)fprintf(stderr, "\r%s: %zu of %zu, Ctrl-C stops ", watch->what, done, all);
    }
    return asked_to_stop == 0;
}

void bwi_watch_wipe(bwi_watch *watch)
{
    if (watch->shown) {
        (void)fputs("\r\033[K", stderr);
        watch->shown = false;
    }
}

void bwi_watch_end(const bwi_watch *watch)
{
    if (watch->before != SIG_ERR) {
        (void)signal(SIGINT, watch->before);
    }
}

/* ---- waiting ---- */

static const char *volatile waiting_for;
static volatile sig_atomic_t seconds_waited;

/* Into the buffer, from the right; nothing here but what a signal may do. */
static char *digits_of(int number, char *end)
{
    do {
        *--end = (char)('0' + number % 10);
        number /= 10;
    } while (number > 0);
    return end;
}

static void on_second(int number)
{
    (void)number;
    char digits[12];
    char *const end = digits + sizeof digits;
    const char *first = digits_of(++seconds_waited, end);
    static const char tail[] = " s, Ctrl-C stops ";
    const char *const parts[] = {"\r", waiting_for, ", ", first, tail};
    const size_t lengths[] = {1, strlen(waiting_for), 2, (size_t)(end - first),
                              sizeof tail - 1};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        if (write(STDERR_FILENO, parts[i], lengths[i]) < 0) {
            break; /* nobody to show it to */
        }
    }
    (void)alarm(1);
}

void bwi_wait_begin(const char *what)
{
    struct sigaction action = {.sa_handler = on_second, .sa_flags = SA_RESTART};
    if (isatty(STDERR_FILENO) != 1 || sigemptyset(&action.sa_mask) != 0 ||
        sigaction(SIGALRM, &action, NULL) != 0) {
        return;
    }
    waiting_for = what;
    seconds_waited = 0;
    (void)alarm(1);
}

void bwi_wait_end(void)
{
    (void)alarm(0);
    if (waiting_for != NULL && seconds_waited > 0) {
        (void)fputs("\r\033[K", stderr);
    }
    waiting_for = NULL;
}
