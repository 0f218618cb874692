/* inverse.h - random questions about sizes, and the same log put as a case through the
 * reader, so that the answer is checked by the way a person would check it. */
#ifndef BW_TESTS_SIZING_INVERSE_H
#define BW_TESTS_SIZING_INVERSE_H

#include "bolewright/input.h"
#include "bolewright/sizing.h"

#include "sketch.h"

typedef struct {
    const bw_species *species;
    bw_duty duty;
    bool sound; /* all questions of the grade by eye answered at best */
} bwt_request;

bwt_request bwt_random_request(bwt_random *r, const bw_species_table *table);
bw_eye_grade bwt_grade_of(const bwt_request *request);
/* Largest utilisation of the stringers of a case with such a log, lengths in metres; a
 * length of 0 is that of its place. */
double bwt_case_utilisation(bw_arena *arena, const bw_species_table *table,
                            const bwt_request *request, const bw_log *log, double span);

#endif
