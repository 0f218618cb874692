/* watch.h - long work: progress on a terminal, and Ctrl-C that leaves nothing half done.
 */
#ifndef BW_CLI_WATCH_H
#define BW_CLI_WATCH_H

#include <stdbool.h>
#include <stddef.h>
#include <time.h>

typedef struct {
    const char *what;      /* "cards" */
    bool on_terminal;      /* standard error is one */
    bool shown;            /* something stands there */
    double shown_at;       /* [s] after it began, the last time */
    struct timespec begun; /* monotonic */
    void (*before)(int);   /* what Ctrl-C did */
} bwi_watch;

/* From now on Ctrl-C only asks to stop. what is kept, not copied. */
bwi_watch bwi_watch_begin(const char *what);
/* From now on, until bwi_wait_end: whoever waits at a terminal for longer than a second
 * sees for how long. Ctrl-C ends the program as it always does. what is kept. */
void bwi_wait_begin(const char *what);
void bwi_wait_end(void);
/* For bw_watch: shows how much is done after half a second; false once Ctrl-C came. */
bool bwi_watch_go_on(void *watch, size_t done, size_t all);
void bwi_watch_wipe(bwi_watch *watch); /* what is shown */
/* Ctrl-C does again what it did: after the last file is written. */
void bwi_watch_end(const bwi_watch *watch);

#endif
