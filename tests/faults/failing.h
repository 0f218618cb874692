/* failing.h - memory that runs out where a test wants it to.
 *
 * The linker puts these in place of malloc and its kin in our own code (-Wl,--wrap), of
 * what cJSON asks for (its hooks), of the LAPACKE calls that ask for memory themselves,
 * and of the calls that hand out memory of an arena. Nothing in the program knows of it.
 */
#ifndef BW_FAILING_H
#define BW_FAILING_H

#include <stdbool.h>

typedef enum {
    FAIL_NOTHING,
    FAIL_SYSTEM, /* the n-th time that the system is asked for memory */
    FAIL_ARENA   /* the n-th time that an arena is */
} failing_kind;

/* From now on; n counts from 1. for_good: and all after it, as when memory is used up;
 * else that one alone, which is harder to notice. */
void failing_begin(failing_kind kind, unsigned long n, bool for_good);
/* Ends it. How often memory was asked for since. */
unsigned long failing_end(void);
/* Pieces that the system gave and has not got back. */
long failing_alive(void);

#endif
