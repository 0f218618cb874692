/* internal.h - shared by the answers of the page. */
#ifndef BWI_PAGE_INTERNAL_H
#define BWI_PAGE_INTERNAL_H

#include "bolewright/page.h"

#include "bolewright/input.h"
#include "bolewright/report.h"

typedef struct {
    bw_arena *arena;
    const bw_page *page;
    const bw_page_request *request;
    bw_text out; /* the body */
} bwi_exchange;

/* The first value of that name, or null. */
const char *bwi_argument(const bw_page_request *request, const char *name);
/* Refuses with a sentence: sets the answer's status and body. */
void bwi_refuse(bwi_exchange *x, int status, const char *sentence, bw_page_response *out);
/* "status", "sentence" and "faults" of an answer, with a comma behind. */
void bwi_write_faults(bw_text *out, bw_status status, const bw_diags *d);

/* A whole number below the limit, or -1. */
long bwi_index(const char *text, size_t limit);

/* The arguments "text" of a request, as lengths. */
typedef struct {
    double *values; /* [m] */
    const char **texts;
    size_t count;
} bwi_lengths;

/* False: there is none, or one is no length. */
bool bwi_lengths_read(bwi_exchange *x, bwi_lengths *out);
/* That the request asks its answer in; imperial if it does not say. */
bw_units bwi_units(const bw_page_request *request);

/* Each writes the body of one address into x->out; out holds 200 and JSON and is changed
 * where that is not so. */
typedef void (*bwi_answer)(bwi_exchange *x, bw_page_response *out);
void bwi_answer_start(bwi_exchange *x, bw_page_response *out);
void bwi_answer_check(bwi_exchange *x, bw_page_response *out);
void bwi_answer_try(bwi_exchange *x, bw_page_response *out);
void bwi_answer_working(bwi_exchange *x, bw_page_response *out);
void bwi_answer_record(bwi_exchange *x, bw_page_response *out);
void bwi_answer_steps(bwi_exchange *x, bw_page_response *out);
void bwi_answer_along(bwi_exchange *x, bw_page_response *out);
/* path behind /ask/ */
void bwi_answer_question(bwi_exchange *x, const char *name, bw_page_response *out);

#endif
