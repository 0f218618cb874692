/* sizing.h - how large, how far: asks the assessment of a deck again and again with
 * another size. No formulas of its own. SI. */
#ifndef BW_SIZING_H
#define BW_SIZING_H

#include "bolewright/deck.h"

/* A single bay between two sills, with the log as the stringer of each of two rows. */
typedef struct {
    const bw_log *log; /* with its own length: the span is taken from its butt */
    const bw_basis *basis;
    double deck_width;  /* [m] */
    double row_spacing; /* [m] between the two rows; the boards overhang them evenly */
    bw_loads loads;
    bw_limits limits;
    bw_units units; /* the span comes in whole inches or centimetres */
} bw_span_question;

typedef struct {
    double span;    /* [m] between the middles of the sills, rounded down; 0: none */
    bool whole_log; /* the log is too short to find its limit */
    const bw_check
        *governing;     /* at that span, or at the shortest one tried; may be null */
    double utilisation; /* of that check */
    bw_verdict verdict; /* within limits, or why not even the shortest span is */
} bw_span_answer;

/* Deck 4 ft wide on rows 3 ft apart, usual rider and limits. Loads are best changed from
 * there: a bw_loads of zeros has no rider whatever its mass. */
bw_span_question bw_span_question_default(const bw_log *log);
/* The longest span at which every check of the stringers is within limits. BW_E_MEMORY,
 * or BW_E_INPUT with diagnostics. */
bw_status bw_span_longest(bw_arena *arena, const bw_span_question *question,
                          bw_span_answer *out, bw_diags *d);

#endif
