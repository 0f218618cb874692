/* answer.c - from a request to its answer: who may ask, what there is. No path of a
 * request is ever opened: it is compared with the names of a table. */
#include "files.h"
#include "internal.h"

#include <string.h>

static const char json_type[] = "application/json; charset=utf-8";

static const struct {
    const char *path, *method;
    bwi_answer answer;
} routes[] = {
    {"/start", "GET", bwi_answer_start},    {"/steps", "GET", bwi_answer_steps},
    {"/along", "GET", bwi_answer_along},    {"/check", "POST", bwi_answer_check},
    {"/try", "POST", bwi_answer_try},       {"/working", "POST", bwi_answer_working},
    {"/record", "POST", bwi_answer_record},
};

const char *bwi_argument(const bw_page_request *request, const char *name)
{
    for (size_t i = 0; i < request->n_arguments; i++) {
        if (strcmp(request->arguments[i].name, name) == 0) {
            return request->arguments[i].value;
        }
    }
    return NULL;
}

void bwi_refuse(bwi_exchange *x, int status, const char *sentence, bw_page_response *out)
{
    x->out = bw_text_new(x->arena);
    bw_text_print(&x->out, "%s\n", sentence);
    out->status = status;
    out->type = "text/plain; charset=utf-8";
}

/* ---- who may ask ---- */

static bool is_here(const char *text, const char *scheme, int port)
{
    static const char *const hosts[] = {"127.0.0.1", "localhost"};
    const size_t lead = strlen(scheme);
    if (strncmp(text, scheme, lead) != 0) {
        return false;
    }
    for (size_t i = 0; i < sizeof hosts / sizeof hosts[0]; i++) {
        const size_t length = strlen(hosts[i]);
        char number[16] = {0};
        int rest = port;
        size_t at = sizeof number - 1;
        do {
            number[--at] = (char)('0' + rest % 10);
            rest /= 10;
        } while (rest > 0);
        number[--at] = ':';
        if (strncmp(text + lead, hosts[i], length) == 0 &&
            strcmp(text + lead + length, number + at) == 0) {
            return true;
        }
    }
    return false;
}

/* Another site that a browser has open may send requests to this machine, under its own
 * name or (DNS rebinding) under one that it lets point here: Host, Origin and
 * Sec-Fetch-Site tell it (RFC 9110 7.2, Fetch Standard 3.2, W3C Fetch Metadata). */
static const char *stranger(const bw_page *page, const bw_page_request *r)
{
    const bool post = strcmp(r->method, "POST") == 0;
    if (r->host == NULL || !is_here(r->host, "", page->port)) {
        return "this page answers under its own address only";
    }
    if (r->origin == NULL ? post : !is_here(r->origin, "http://", page->port)) {
        return "requests from other sites are refused";
    }
    if (r->fetch_site != NULL && strcmp(r->fetch_site, "same-origin") != 0 &&
        (post || strcmp(r->fetch_site, "none") != 0)) {
        return "requests from other sites are refused";
    }
    return NULL;
}

/* A type that no form of another site can send: the browser would ask first, and be
 * refused. A pair is a case and another text, with a record separator (U+001E) between.
 */
static bool is_known_type(const char *type)
{
    static const char *const known[] = {"application/json",
                                        "application/x-bolewright-pair"};
    for (size_t i = 0; type != NULL && i < sizeof known / sizeof known[0]; i++) {
        const size_t length = strlen(known[i]);
        if (strncmp(type, known[i], length) == 0 &&
            (type[length] == '\0' || type[length] == ';')) {
            return true;
        }
    }
    return false;
}

/* ---- files ---- */

static const char *type_of(const char *name)
{
    static const struct {
        const char *ending, *type;
    } types[] = {{".html", "text/html; charset=utf-8"},
                 {".css", "text/css; charset=utf-8"},
                 {".js", "text/javascript; charset=utf-8"},
                 {".json", "application/json; charset=utf-8"},
                 {".svg", "image/svg+xml"}};
    const char *dot = strrchr(name, '.');
    for (size_t i = 0; dot != NULL && i < sizeof types / sizeof types[0]; i++) {
        if (strcmp(dot, types[i].ending) == 0) {
            return types[i].type;
        }
    }
    return "application/octet-stream";
}

static bool answer_file(bwi_exchange *x, const char *path, bw_page_response *out)
{
    const char *name = strcmp(path, "/") == 0 ? "page.html" : path + 1;
    for (const bwi_page_file *f = bwi_page_files; path[0] == '/' && f->name != NULL;
         f++) {
        if (strcmp(f->name, name) == 0) {
            bw_text_add(&x->out, (const char *)f->text);
            out->type = type_of(name);
            return true;
        }
    }
    if (strcmp(path, "/drawing.css") == 0) {
        bw_report_drawing_style(&x->out);
        out->type = type_of(path);
        return true;
    }
    return false;
}

/* ---- the way to the answer ---- */

static void route(bwi_exchange *x, bw_page_response *out)
{
    static const char ask[] = "/ask/";
    const bw_page_request *r = x->request;
    const bool get = strcmp(r->method, "GET") == 0;
    for (size_t i = 0; i < sizeof routes / sizeof routes[0]; i++) {
        if (strcmp(r->path, routes[i].path) != 0) {
            continue;
        }
        if (strcmp(r->method, routes[i].method) != 0) {
            bwi_refuse(x, 405, "not with this method", out);
        } else {
            routes[i].answer(x, out);
        }
        return;
    }
    if (strncmp(r->path, ask, sizeof ask - 1) == 0) {
        bwi_answer_question(x, r->path + sizeof ask - 1, out);
    } else if (!get) {
        bwi_refuse(x, 405, "not with this method", out);
    } else if (!answer_file(x, r->path, out)) {
        bwi_refuse(x, 404, "there is no such page", out);
    }
}

static void consider(bwi_exchange *x, bw_page_response *out)
{
    const bw_page_request *r = x->request;
    const bool post = strcmp(r->method, "POST") == 0;
    const char *why = stranger(x->page, r);
    if (!post && strcmp(r->method, "GET") != 0) {
        bwi_refuse(x, 405, "GET and POST only", out);
    } else if (why != NULL) {
        bwi_refuse(x, 403, why, out);
    } else if (r->length > BW_PAGE_BODY_MOST) {
        bwi_refuse(x, 413, "larger than any case", out);
    } else if (post && !is_known_type(r->content_type)) {
        bwi_refuse(x, 415, "a case is application/json", out);
    } else if (r->length > 0 && memchr(r->body, '\0', r->length) != NULL) {
        bwi_refuse(x, 400, "there is a zero byte in it, so it is not text", out);
    } else {
        route(x, out);
    }
}

void bw_page_answer(bw_arena *arena, const bw_page *page, const bw_page_request *request,
                    bw_page_response *out)
{
    static const char sorry[] = "out of memory\n";
    bwi_exchange x = {arena, page, request, bw_text_new(arena)};
    *out = (bw_page_response){.status = 200, .type = json_type};
    consider(&x, out);
    out->body = bw_text_string(&x.out);
    out->length = x.out.length;
    if (out->body == NULL) {
        *out =
            (bw_page_response){500, "text/plain; charset=utf-8", sorry, sizeof sorry - 1};
    }
}
