/* serve.c - the page behind a socket of this machine. Each connection has its thread and
 * each request its arena; a request that is too large, too slow or broken ends with its
 * connection. Connections may be many, as idle ones cost little; checks that run at once
 * are as many as there are processors, so that memory has a bound. */
#include "bolewright/page.h"

#include <arpa/inet.h>
#include <errno.h>
#include <microhttpd.h>
#include <netinet/in.h>
#include <pthread.h>
#include <signal.h>
#include <string.h>
#include <strings.h>
#include <sys/socket.h>
#include <time.h>
#include <unistd.h>

enum {
    MOST_CONNECTIONS = 256,
    IDLE_SECONDS = 20,
    BODY_SECONDS = 20, /* for the whole of a request's body */
    HEADER_BYTES = 64 << 10,
    LOOK_MILLISECONDS = 100, /* whether who waits is still there */
    STOP_SECONDS = 2,        /* for what still runs when the program is to end */
};

typedef struct waiter {
    struct waiter *next;
} waiter;

typedef struct {
    bw_page *page;
    pthread_mutex_t lock;
    pthread_cond_t freed;
    waiter *first; /* of those whose turn has not come */
    long free;     /* checks that may begin now */
    bool stopping;
} server;

typedef struct {
    bw_arena *arena;
    bw_text body;
    time_t since;
    bw_page_argument arguments[BW_PAGE_ARGUMENTS_MOST];
    size_t n_arguments;
} exchange;

bool bw_page_can_serve(void)
{
    return true;
}

/* ---- the answer ---- */

/* Scripts, styles and requests of the page itself and nothing else; shown in no frame,
 * kept in no cache. The record is a page of its own with its style inside, and saved. */
static void add_headers(struct MHD_Response *response, const bw_page_response *answer)
{
    static const char *const headers[][2] = {
        {"Content-Security-Policy",
         "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; "
         "img-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
        {"X-Content-Type-Options", "nosniff"},
        {"Cache-Control", "no-store"},
        {"Referrer-Policy", "no-referrer"},
        {"Cross-Origin-Resource-Policy", "same-origin"},
        {"Cross-Origin-Opener-Policy", "same-origin"},
        {"X-Frame-Options", "DENY"},
    };
    for (size_t i = 0; i < sizeof headers / sizeof headers[0]; i++) {
        (void)MHD_add_response_header(response, headers[i][0], headers[i][1]);
    }
    (void)MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_TYPE, answer->type);
    if (answer->status == MHD_HTTP_METHOD_NOT_ALLOWED) {
        (void)MHD_add_response_header(response, MHD_HTTP_HEADER_ALLOW, "GET, POST");
    }
}

static enum MHD_Result send_answer(struct MHD_Connection *connection,
                                   const bw_page_response *answer)
{
    /* MHD copies nothing and changes nothing: the arena lives until the request is over.
     * Its parameter is not const all the same. */
    union {
        const char *from;
        void *to;
    } body = {.from = answer->body};
    struct MHD_Response *response =
        MHD_create_response_from_buffer(answer->length, body.to, MHD_RESPMEM_PERSISTENT);
    if (response == NULL) {
        return MHD_NO;
    }
    add_headers(response, answer);
    const enum MHD_Result result =
        MHD_queue_response(connection, (unsigned)answer->status, response);
    MHD_destroy_response(response);
    return result;
}

/* ---- the request ---- */

static enum MHD_Result keep_argument(void *context, enum MHD_ValueKind kind,
                                     const char *name, const char *value)
{
    (void)kind;
    exchange *e = context;
    if (e->n_arguments == BW_PAGE_ARGUMENTS_MOST) {
        return MHD_NO;
    }
    e->arguments[e->n_arguments++] = (bw_page_argument){name, value != NULL ? value : ""};
    return MHD_YES;
}

static const char *header(struct MHD_Connection *connection, const char *name)
{
    return MHD_lookup_connection_value(connection, MHD_HEADER_KIND, name);
}

/* ---- checks that run at once ---- */

/* The browser drops a question when the case has changed meanwhile. */
static bool is_there(struct MHD_Connection *connection)
{
    char byte;
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    const ssize_t got =
        info == NULL ? 0 : recv(info->connect_fd, &byte, 1, MSG_PEEK | MSG_DONTWAIT);
    return got > 0 || (got < 0 && (errno == EAGAIN || errno == EINTR));
}

static void wait_a_little(server *s)
{
    const long second = 1000000000;
    struct timespec until = {0};
    (void)clock_gettime(CLOCK_REALTIME, &until);
    until.tv_nsec += LOOK_MILLISECONDS * (second / 1000);
    until.tv_sec += until.tv_nsec / second;
    until.tv_nsec %= second;
    (void)pthread_cond_timedwait(&s->freed, &s->lock, &until);
}

static waiter **place_of(server *s, const waiter *who)
{
    waiter **at = &s->first;
    while (*at != who) {
        at = &(*at)->next;
    }
    return at;
}

/* In the order of coming. False: who had to wait for it has gone. */
static bool take_turn(server *s, struct MHD_Connection *connection)
{
    bool wanted = true;
    waiter me = {NULL};
    (void)pthread_mutex_lock(&s->lock);
    *place_of(s, NULL) = &me;
    while (wanted && (s->free == 0 || s->first != &me)) {
        wait_a_little(s);
        wanted = !s->stopping && is_there(connection);
    }
    *place_of(s, &me) = me.next;
    s->free -= wanted;
    (void)pthread_cond_broadcast(&s->freed); /* another one is the first now */
    (void)pthread_mutex_unlock(&s->lock);
    return wanted;
}

static void give_turn(server *s)
{
    (void)pthread_mutex_lock(&s->lock);
    s->free++;
    (void)pthread_cond_broadcast(&s->freed);
    (void)pthread_mutex_unlock(&s->lock);
}

/* What works out something, and not only a word or a file. */
static bool is_work(const bw_page_request *r)
{
    return strcmp(r->method, "POST") == 0 || strncmp(r->path, "/ask/", 5) == 0;
}

/* ---- the request as a whole ---- */

typedef struct {
    int hosts, origins, types, sites, lengths, encodings;
} header_count;

static enum MHD_Result count_header(void *context, enum MHD_ValueKind kind,
                                    const char *name, const char *value)
{
    (void)kind;
    (void)value;
    header_count *n = context;
    const struct {
        const char *name;
        int *count;
    } once[] = {{MHD_HTTP_HEADER_HOST, &n->hosts},
                {MHD_HTTP_HEADER_ORIGIN, &n->origins},
                {MHD_HTTP_HEADER_CONTENT_TYPE, &n->types},
                {"Sec-Fetch-Site", &n->sites},
                {MHD_HTTP_HEADER_CONTENT_LENGTH, &n->lengths},
                {MHD_HTTP_HEADER_TRANSFER_ENCODING, &n->encodings}};
    for (size_t i = 0; i < sizeof once / sizeof once[0]; i++) {
        *once[i].count += strcasecmp(name, once[i].name) == 0;
    }
    return MHD_YES;
}

/* No browser says twice who asks, or where its body ends (RFC 9112 3.2 and 6.3). */
static bool is_plain(struct MHD_Connection *connection)
{
    header_count n = {0};
    (void)MHD_get_connection_values(connection, MHD_HEADER_KIND, count_header, &n);
    return n.hosts <= 1 && n.origins <= 1 && n.types <= 1 && n.sites <= 1 &&
           n.lengths + n.encodings <= 1;
}

static void ask(server *s, struct MHD_Connection *connection, bw_arena *arena,
                const bw_page_request *request, bw_page_response *response)
{
    static const char twice[] = "its head says something twice\n";
    *response =
        (bw_page_response){400, "text/plain; charset=utf-8", twice, sizeof twice - 1};
    if (is_plain(connection)) {
        bw_page_answer(arena, s->page, request, response);
    }
}

static enum MHD_Result answer(server *s, struct MHD_Connection *connection, exchange *e,
                              const bw_page_request *head)
{
    bw_page_request request = *head;
    bw_page_response response;
    (void)MHD_get_connection_values(connection, MHD_GET_ARGUMENT_KIND, keep_argument, e);
    request.host = header(connection, MHD_HTTP_HEADER_HOST);
    request.origin = header(connection, MHD_HTTP_HEADER_ORIGIN);
    request.fetch_site = header(connection, "Sec-Fetch-Site");
    request.content_type = header(connection, MHD_HTTP_HEADER_CONTENT_TYPE);
    request.arguments = e->arguments;
    request.n_arguments = e->n_arguments;
    request.body = bw_text_string(&e->body);
    request.length = e->body.length;
    if (request.body == NULL) {
        return MHD_NO;
    }
    const bool work = is_work(&request);
    if (work && !take_turn(s, connection)) {
        return MHD_NO;
    }
    ask(s, connection, e->arena, &request, &response);
    if (work) {
        give_turn(s);
    }
    return send_answer(connection, &response);
}

static enum MHD_Result begin(void **context)
{
    bw_arena *arena = bw_arena_new();
    exchange *e = arena == NULL ? NULL : BW_NEW(arena, exchange, 1);
    if (e == NULL) {
        bw_arena_free(arena);
        return MHD_NO;
    }
    e->arena = arena;
    e->body = bw_text_new(arena);
    e->since = time(NULL);
    *context = e;
    return MHD_YES;
}

/* Called at the head of a request, for every piece of its body, and at its end. */
static enum MHD_Result handle(void *context_of_all, struct MHD_Connection *connection,
                              const char *url, const char *method, const char *version,
                              const char *piece, size_t *length, void **context)
{
    (void)version;
    if (*context == NULL) {
        return begin(context);
    }
    exchange *e = *context;
    if (*length > 0) {
        if (e->body.length + *length > BW_PAGE_BODY_MOST + 1 ||
            time(NULL) - e->since > BODY_SECONDS) {
            return MHD_NO; /* cut off: nobody who uses the page does that */
        }
        bw_text_add_bytes(&e->body, piece, *length);
        *length = 0;
        return e->body.failed ? MHD_NO : MHD_YES;
    }
    const bw_page_request head = {.method = method, .path = url};
    return answer(context_of_all, connection, e, &head);
}

static void end(void *context_of_all, struct MHD_Connection *connection, void **context,
                enum MHD_RequestTerminationCode code)
{
    (void)context_of_all;
    (void)connection;
    (void)code;
    exchange *e = *context;
    *context = NULL;
    if (e != NULL) {
        bw_arena_free(e->arena);
    }
}

/* ---- the socket ---- */

static int listen_here(int *port)
{
    struct sockaddr_in address = {.sin_family = AF_INET,
                                  .sin_port = htons((unsigned short)*port),
                                  .sin_addr = {htonl(INADDR_LOOPBACK)}};
    socklen_t length = sizeof address;
    const int on = 1;
    const int fd = socket(AF_INET, SOCK_STREAM, 0);
    /* so that the program can be started again at once */
    if (fd >= 0 && setsockopt(fd, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on) == 0 &&
        bind(fd, (struct sockaddr *)&address, length) == 0 &&
        listen(fd, MOST_CONNECTIONS) == 0 &&
        getsockname(fd, (struct sockaddr *)&address, &length) == 0) {
        *port = ntohs(address.sin_port);
        return fd;
    }
    const int error = errno;
    if (fd >= 0) {
        (void)close(fd);
    }
    errno = error;
    return -1;
}

static bw_status refuse(bw_diags *d, int port, int error)
{
    if (error == EADDRINUSE) {
        bw_diags_error(d, "page.port", NULL,
                       "is the page open already? else take another: --port 8418",
                       "another program uses the port %d", port);
    } else {
        bw_diags_error(d, "page.port", NULL, "take another: --port 8418",
                       "cannot listen on the port %d: %s", port, strerror(error));
    }
    return BW_E_IO;
}

static struct MHD_Daemon *start(server *s, int fd)
{
    return MHD_start_daemon(
        MHD_USE_THREAD_PER_CONNECTION | MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_AUTO |
            MHD_USE_ITC,
        0, NULL, NULL, &handle, s, MHD_OPTION_LISTEN_SOCKET, fd,
        MHD_OPTION_NOTIFY_COMPLETED, &end, NULL, MHD_OPTION_CONNECTION_LIMIT,
        (unsigned)MOST_CONNECTIONS, MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)IDLE_SECONDS,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)HEADER_BYTES, MHD_OPTION_END);
}

/* Nothing is written by this program: whatever still runs then is of no use to anybody.
 */
static void leave(int signal)
{
    (void)signal;
    _exit(0);
}

static void stop(server *s, struct MHD_Daemon *daemon)
{
    (void)pthread_mutex_lock(&s->lock);
    s->stopping = true;
    (void)pthread_cond_broadcast(&s->freed);
    (void)pthread_mutex_unlock(&s->lock);
    (void)signal(SIGALRM, leave);
    (void)alarm(STOP_SECONDS);
    MHD_stop_daemon(daemon);
    (void)alarm(0);
}

bw_status bw_page_serve(bw_page *page, int port,
                        void (*ready)(void *context, const char *address), void *context,
                        bw_diags *d)
{
    server s = {.page = page,
                .lock = PTHREAD_MUTEX_INITIALIZER,
                .freed = PTHREAD_COND_INITIALIZER,
                .free = bw_processors() < 2 ? 2 : bw_processors()};
    sigset_t stops, before;
    int stopped = 0;
    page->port = port;
    const int fd = listen_here(&page->port);
    if (fd < 0) {
        return refuse(d, port, errno);
    }
    (void)sigemptyset(&stops);
    (void)sigaddset(&stops, SIGINT);
    (void)sigaddset(&stops, SIGTERM);
    (void)sigaddset(&stops, SIGHUP);
    /* blocked here and in the threads that begin now: this one waits for them */
    (void)pthread_sigmask(SIG_BLOCK, &stops, &before);
    struct MHD_Daemon *daemon = start(&s, fd);
    if (daemon == NULL) {
        (void)pthread_sigmask(SIG_SETMASK, &before, NULL);
        (void)close(fd);
        return refuse(d, port, ENOMEM);
    }
    ready(context, bw_arena_print(d->arena, "http://127.0.0.1:%d/", page->port));
    while (sigwait(&stops, &stopped) != 0) {
    }
    (void)pthread_sigmask(SIG_SETMASK, &before, NULL); /* a second one ends it hard */
    stop(&s, daemon);
    return BW_OK;
}
