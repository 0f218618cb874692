/* page.h - a page in the browser that edits a case and shows at once what comes of it,
 * served to this machine alone.
 *
 * bw_page_answer is a pure function from a request to its answer: no file, no socket, no
 * clock, nothing kept between calls. bw_page_serve puts it behind a socket. The page
 * holds no formula: all its numbers come from the calls that the command line makes. */
#ifndef BW_PAGE_H
#define BW_PAGE_H

#include "bolewright/deck.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A value of the part of an address behind '?', decoded. */
typedef struct {
    const char *name, *value;
} bw_page_argument;

/* Header fields are null when the request does not have them. */
typedef struct {
    const char *method, *path; /* path without '?' and what follows */
    const char *host, *origin, *fetch_site, *content_type;
    const bw_page_argument *arguments;
    size_t n_arguments;
    const char *body; /* terminated; length bytes before that */
    size_t length;
} bw_page_request;

/* A question besides that of the whole case (a standing tree, say): words and faults as
 * on the command line, where the arguments are options. */
typedef struct {
    const char *name; /* "tree": answered at /ask/tree */
    const void *context;
    bw_status (*answer)(bw_arena *arena, const void *context,
                        const bw_page_request *request, bw_text *out, bw_diags *d);
} bw_page_question;

typedef struct {
    const bw_species_table *species;
    const char *case_text, *case_name; /* to begin with; null: none */
    const bw_page_question *questions;
    size_t n_questions;
    int port;    /* that requests must name; set by bw_page_serve */
    int threads; /* for a check; 0 counts as 1 */
} bw_page;

enum {
    BW_PAGE_PORT = 8417,
    BW_PAGE_BODY_MOST = 1 << 20, /* bytes: a case is a few kilobytes */
    BW_PAGE_ARGUMENTS_MOST = 1100
};

typedef struct {
    int status;       /* of HTTP: 200, 403, ... */
    const char *type; /* "text/html; charset=utf-8" */
    const char *body;
    size_t length;
} bw_page_response;

/* Always answers, whatever the request holds; the answer lives in the arena, or as long
 * as the program. A case with faults is an answer, not an error. */
void bw_page_answer(bw_arena *arena, const bw_page *page, const bw_page_request *request,
                    bw_page_response *out);

/* Whether this program was built with a server. */
bool bw_page_can_serve(void);
/* Serves the page on 127.0.0.1 until the program is interrupted (SIGINT, SIGTERM,
 * SIGHUP); port 0 takes any free one. ready is called once with the address. BW_E_IO with
 * a diagnostic: the port is taken, or there is no server in this program. */
bw_status bw_page_serve(bw_page *page, int port,
                        void (*ready)(void *context, const char *address), void *context,
                        bw_diags *d);

#ifdef __cplusplus
}
#endif

#endif
