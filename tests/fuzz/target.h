/* target.h - what every target is, and what its inputs must not do. */
#ifndef BW_FUZZ_TARGET_H
#define BW_FUZZ_TARGET_H

#include "bolewright/input.h"

#include <stddef.h>
#include <stdint.h>

/* Tries the bytes as an input; aborts if a promise is broken. As libFuzzer calls it: 0.
 */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Aborts, saying which promise, unless it holds. */
void fuzz_insist(int promise, const char *words);
#define INSIST(promise) fuzz_insist((promise), #promise)

/* The bytes up to the first zero byte, which no reader lets through, terminated. */
const char *fuzz_text(bw_arena *arena, const uint8_t *data, size_t size);
bw_arena *fuzz_arena(void); /* never null */

/* What a reader promises: BW_OK without errors or BW_E_INPUT with some, each told
 * completely and with a place in the text. */
void fuzz_check_reading(const char *text, bw_status status, const bw_diags *d);
/* What a calculation with a sound input promises: a result, or a refusal that says why,
 * never for want of memory or by a fault of the program. */
void fuzz_check_result(bw_status status, const bw_diags *d);
/* The text that a report wrote is there and holds no number that is none. */
void fuzz_check_report(const bw_text *report);

/* The tables compiled into the program, read once. */
const bw_species_table *fuzz_species(void);
/* A small deck with two bays and every kind of support, read once. */
const bw_case *fuzz_deck(void);

#endif
