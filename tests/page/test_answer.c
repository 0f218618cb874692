/* test_answer.c - who is answered, with what: compared with the calls of the command
 * line. */
#include "bolewright/input.h"
#include "bolewright/page.h"
#include "bolewright/report.h"

#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

#include <cjson/cJSON.h>
#include <string.h>

static bw_arena *arena;
static bw_species_table species;
static bw_page page;

static int set_up(void **unused)
{
    (void)unused;
    arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, NULL);
    page = (bw_page){.species = &species, .port = 8417};
    return bw_input_species(arena, NULL, &species, &d) == BW_OK ? 0 : -1;
}

static int tear_down(void **unused)
{
    (void)unused;
    bw_arena_free(arena);
    return 0;
}

static bw_page_request asked(const char *method, const char *path, const char *body)
{
    return (bw_page_request){.method = method,
                             .path = path,
                             .host = "127.0.0.1:8417",
                             .origin = "http://127.0.0.1:8417",
                             .fetch_site = "same-origin",
                             .content_type = "application/json",
                             .body = body,
                             .length = strlen(body)};
}

static bw_page_response answer(const bw_page_request *request)
{
    bw_page_response r;
    bw_page_answer(arena, &page, request, &r);
    assert_int_equal(strlen(r.body), r.length);
    return r;
}

static const char *case_text(const char *name)
{
    const char *text = NULL;
    bw_diags d = bw_diags_new(arena, NULL);
    assert_int_equal(bw_input_read_file(arena,
                                        bw_arena_print(arena, BW_SOURCE_DIR "/%s", name),
                                        &text, &d),
                     BW_OK);
    return text;
}

/* ---- strangers ---- */

static void test_strangers(void **unused)
{
    (void)unused;
    static const struct {
        const char *host, *origin, *fetch_site;
        int get, post;
    } rows[] = {
        {"127.0.0.1:8417", "http://127.0.0.1:8417", "same-origin", 200, 200},
        {"localhost:8417", "http://localhost:8417", NULL, 200, 200},
        {"127.0.0.1:8417", NULL, "none", 200, 403}, /* typed into the address bar */
        {NULL, "http://127.0.0.1:8417", NULL, 403, 403},
        {"rebound.example:8417", "http://127.0.0.1:8417", NULL, 403, 403},
        {"127.0.0.1", "http://127.0.0.1:8417", NULL, 403, 403},
        {"127.0.0.1:84170", "http://127.0.0.1:8417", NULL, 403, 403},
        {"127.0.0.1:8417.evil.example", "http://127.0.0.1:8417", NULL, 403, 403},
        {"127.0.0.1:8417", "http://evil.example", NULL, 403, 403},
        {"127.0.0.1:8417", "https://127.0.0.1:8417", NULL, 403, 403},
        {"127.0.0.1:8417", "http://127.0.0.1:8418", NULL, 403, 403},
        {"127.0.0.1:8417", "null", NULL, 403, 403}, /* from a sandboxed frame or a file */
        {"127.0.0.1:8417", "http://127.0.0.1:8417", "cross-site", 403, 403},
        {"127.0.0.1:8417", "http://127.0.0.1:8417", "same-site", 403, 403},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        bw_page_request get = asked("GET", "/", ""), post = asked("POST", "/try", "{}");
        get.host = post.host = rows[i].host;
        get.origin = post.origin = rows[i].origin;
        get.fetch_site = post.fetch_site = rows[i].fetch_site;
        assert_int_equal(answer(&get).status, rows[i].get);
        assert_int_equal(answer(&post).status, rows[i].post);
    }
}

static void test_methods_and_types(void **unused)
{
    (void)unused;
    static const struct {
        const char *method, *path, *type;
        int status;
    } rows[] = {
        {"GET", "/check", "application/json", 405},
        {"POST", "/start", "application/json", 405},
        {"POST", "/", "application/json", 405},
        {"PUT", "/check", "application/json", 405},
        {"OPTIONS", "/check", NULL, 405},
        {"POST", "/check", "text/plain", 415},
        {"POST", "/check", "application/jsonx", 415},
        {"POST", "/check", NULL, 415},
        {"POST", "/check", "application/json; charset=utf-8", 200},
        {"GET", "/nothing", NULL, 404},
        {"GET", "", NULL, 404},
        {"GET", "//page.js", NULL, 404},
        {"GET", "/../page.js", NULL, 404},
        {"GET", "/etc/passwd", NULL, 404},
        {"GET", "/ask/nothing", NULL, 404},
        {"GET", "/ask/", NULL, 404},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        bw_page_request r = asked(rows[i].method, rows[i].path, "{}");
        r.content_type = rows[i].type;
        assert_int_equal(answer(&r).status, rows[i].status);
    }
}

static void test_bodies(void **unused)
{
    (void)unused;
    bw_page_request zero = asked("POST", "/check", "{}");
    zero.body = "{\"a\0b\": 1}";
    zero.length = 10;
    assert_int_equal(answer(&zero).status, 400);
    char *large = bw_arena_alloc(arena, BW_PAGE_BODY_MOST + 2);
    memset(large, ' ', BW_PAGE_BODY_MOST + 1);
    bw_page_request much = asked("POST", "/check", large);
    assert_int_equal(answer(&much).status, 413);
    bw_page_request nothing = asked("POST", "/check", "");
    assert_int_equal(answer(&nothing).status, 200); /* faults, as for an empty file */
}

/* ---- files ---- */

static void test_files(void **unused)
{
    (void)unused;
    static const char *const files[][2] = {
        {"/", "text/html; charset=utf-8"},
        {"/page.html", "text/html; charset=utf-8"},
        {"/page.css", "text/css; charset=utf-8"},
        {"/drawing.css", "text/css; charset=utf-8"},
        {"/page.js", "text/javascript; charset=utf-8"},
        {"/fields.js", "text/javascript; charset=utf-8"},
        {"/shapes.js", "text/javascript; charset=utf-8"},
        {"/icon.svg", "image/svg+xml"},
        {"/start-feet.json", "application/json; charset=utf-8"},
        {"/start-metres.json", "application/json; charset=utf-8"},
    };
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        const bw_page_request r = asked("GET", files[i][0], "");
        const bw_page_response file = answer(&r);
        assert_int_equal(file.status, 200);
        assert_string_equal(file.type, files[i][1]);
        /* nothing from outside: no address but that of a name space of XML */
        const char *at = file.body;
        while ((at = strstr(at, "://")) != NULL) {
            assert_int_equal(strncmp(at, "://www.w3.org/2000/svg", 22), 0);
            at += 3;
        }
    }
}

/* ---- the case ---- */

static cJSON *answered(const char *path, const char *text,
                       const bw_page_argument *arguments, size_t n)
{
    bw_page_request r = asked("POST", path, text);
    r.arguments = arguments;
    r.n_arguments = n;
    const bw_page_response got = answer(&r);
    assert_int_equal(got.status, 200);
    cJSON *json = cJSON_Parse(got.body);
    assert_non_null(json);
    return json;
}

static const char *string_of(const cJSON *object, const char *key)
{
    return cJSON_GetStringValue(cJSON_GetObjectItem(object, key));
}

/* The choices of the form are those of the program's tables, in their order. */
static void test_words(void **unused)
{
    (void)unused;
    const bw_page_request r = asked("GET", "/start", "");
    cJSON *json = cJSON_Parse(answer(&r).body);
    const cJSON *words = cJSON_GetObjectItem(json, "words");
    const cJSON *uses = cJSON_GetObjectItem(words, "use");
    const cJSON *classes = cJSON_GetObjectItem(words, "strength_class");
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(words, "basis")), 2);
    for (size_t b = 0; bw_basis_at(b) != NULL; b++) {
        const bw_people_use *table = bw_basis_at(b)->uses;
        int n = 0;
        for (; table[n].name != NULL; n++) {
            const cJSON *pair = cJSON_GetArrayItem(uses, n);
            assert_string_equal(cJSON_GetStringValue(cJSON_GetArrayItem(pair, 0)),
                                table[n].name);
        }
        assert_int_equal(cJSON_GetArraySize(uses), n);
    }
    int n = 0;
    for (; bw_strength_class_at((size_t)n) != NULL; n++) {
        const cJSON *pair = cJSON_GetArrayItem(classes, n);
        assert_string_equal(cJSON_GetStringValue(cJSON_GetArrayItem(pair, 0)),
                            bw_strength_class_at((size_t)n)->name);
    }
    assert_true(n > 5 && cJSON_GetArraySize(classes) == n);
    cJSON_Delete(json);
}

static void assess(const char *text, bw_case *deck, bw_assessment *a, bw_drawing *drawing)
{
    bw_diags d = bw_diags_new(arena, NULL);
    assert_int_equal(bw_input_case(arena, text, &species, deck, &d), BW_OK);
    assert_int_equal(bw_deck_assess(arena, deck, a, &d), BW_OK);
    assert_int_equal(bw_people_count(arena, a, &d), BW_OK);
    assert_int_equal(bw_deck_drawing(arena, a, drawing), BW_OK);
}

static void test_check_says_what_the_command_says(void **unused)
{
    (void)unused;
    static const char *const names[] = {
        "cases/alder-loop.json", "cases/alder-loop-thin-stringer.json",
        "cases/osier-stilts.json", "src/page/start-metres.json"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *text = case_text(names[i]);
        bw_case deck;
        bw_assessment a;
        bw_drawing drawing;
        assess(text, &deck, &a, &drawing);
        cJSON *check = answered("/check", text, NULL, 0),
              *try_ = answered("/try", text, NULL, 0);
        const cJSON *result = cJSON_GetObjectItem(check, "result");
        const cJSON *brief = cJSON_GetObjectItem(try_, "result");
        assert_string_equal(string_of(result, "words"),
                            bw_report_verdict_text(arena, &a));
        assert_string_equal(string_of(brief, "words"), string_of(result, "words"));
        assert_string_equal(string_of(result, "verdict"),
                            bw_verdict_text(bw_report_verdict(&a)));
        /* what the bents do is nothing to the boards */
        const bool of_boards = strcmp(a.governing->role, "boards") == 0;
        const char *remedy = string_of(result, "remedy");
        assert_true((strstr(remedy, "thicker or wider boards") != NULL) == of_boards);
        assert_true(!of_boards || strstr(remedy, "bents closer") == NULL);
        const cJSON *members = cJSON_GetObjectItem(result, "members");
        assert_int_equal((size_t)cJSON_GetArraySize(members), a.n_members);
        const int worst = cJSON_GetObjectItem(result, "member")->valueint;
        assert_string_equal(a.members[worst].name,
                            string_of(cJSON_GetArrayItem(members, worst), "name"));
        assert_true(a.governing >= a.members[worst].findings &&
                    a.governing < a.members[worst].findings + BW_CHECK_KIND_COUNT);
        /* every member can be pressed in some drawing; styles inside it are forbidden to
         * the page (Content-Security-Policy) */
        const char *markup = string_of(result, "drawing");
        assert_null(strstr(markup, " style="));
        for (size_t m = 0; m < a.n_members; m++) {
            assert_non_null(
                strstr(markup, bw_arena_print(arena, "data-member=\"%zu\"", m)));
        }
        size_t n = 0;
        while (bw_cautions[n] != NULL) {
            n++;
        }
        assert_true((size_t)cJSON_GetArraySize(cJSON_GetObjectItem(result, "cautions")) >=
                    n);
        assert_true(cJSON_GetArraySize(cJSON_GetObjectItem(result, "not_checked")) > 0);
        int told[2] = {0, 0};
        for (size_t k = 0; k < a.n_assumptions; k++) {
            const bool to_do = a.assumptions[k].to_do;
            const cJSON *list = cJSON_GetObjectItem(result, to_do ? "to_do" : "assumed");
            const cJSON *item = cJSON_GetArrayItem(list, told[to_do]++);
            assert_non_null(strstr(cJSON_GetStringValue(item), a.assumptions[k].text));
        }
        for (int to_do = 0; to_do < 2; to_do++) {
            assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(
                                 result, to_do != 0 ? "to_do" : "assumed")),
                             told[to_do]);
        }
        cJSON_Delete(check);
        cJSON_Delete(try_);
    }
}

/* A load that the case leaves out is none, and is told as that. */
static void test_loads_are_told(void **unused)
{
    (void)unused;
    const char *text = case_text("src/page/start-feet.json");
    static const char *const told[][3] = {
        {"rider with bike: 254 lb", "people: 60 psf", "snow: none"},
        {"rider with bike: none", "people: none", "snow: 27 psf"}};
    for (int k = 0; k < 2; k++) {
        cJSON *deck = cJSON_Parse(text);
        if (k == 1) {
            cJSON_ReplaceItemInObject(
                deck, "loads", cJSON_Parse("{\"rider\": null, \"snow\": \"27 psf\"}"));
        }
        char *changed = cJSON_Print(deck);
        cJSON *check = answered("/check", changed, NULL, 0);
        const cJSON *loads =
            cJSON_GetObjectItem(cJSON_GetObjectItem(check, "result"), "loads");
        assert_int_equal(cJSON_GetArraySize(loads), 3);
        for (int i = 0; i < 3; i++) {
            assert_string_equal(cJSON_GetArrayItem(loads, i)->valuestring, told[k][i]);
        }
        cJSON_free(changed);
        cJSON_Delete(deck);
        cJSON_Delete(check);
    }
}

static void test_faults_are_those_of_the_command(void **unused)
{
    (void)unused;
    const char *text = case_text("tests/bad/case-many-faults.json");
    bw_diags d = bw_diags_new(arena, NULL);
    bw_case deck;
    assert_int_equal(bw_input_case(arena, text, &species, &deck, &d), BW_E_INPUT);
    cJSON *check = answered("/check", text, NULL, 0);
    const cJSON *faults = cJSON_GetObjectItem(check, "faults");
    assert_int_equal(cJSON_GetObjectItem(check, "status")->valueint, 3);
    assert_true(cJSON_IsNull(cJSON_GetObjectItem(check, "result")));
    assert_true(d.count > 5);
    assert_int_equal((size_t)cJSON_GetArraySize(faults), d.count);
    for (size_t i = 0; i < d.count; i++) {
        const cJSON *fault = cJSON_GetArrayItem(faults, (int)i);
        assert_string_equal(string_of(fault, "message"), d.items[i].message);
        assert_string_equal(string_of(fault, "id"), d.items[i].id);
        if (d.items[i].hint != NULL) {
            assert_string_equal(string_of(fault, "hint"), d.items[i].hint);
        }
        if (d.items[i].path != NULL) {
            assert_string_equal(string_of(fault, "path"), d.items[i].path);
        }
        assert_int_equal(cJSON_GetObjectItem(fault, "line")->valueint, d.items[i].line);
    }
    cJSON_Delete(check);
}

/* The check nearest to its limit is worked first. */
static void test_working_begins_with_the_worst(void **unused)
{
    (void)unused;
    bw_case deck;
    bw_assessment a;
    bw_drawing drawing;
    assess(case_text("cases/alder-loop.json"), &deck, &a, &drawing);
    size_t turned = 0;
    for (size_t m = 0; m < a.n_members; m++) {
        bw_text html = bw_text_new(arena);
        int first = -1, worst = -1;
        bw_report_member_html(&a, m, &html);
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            const bw_finding *f = a.members[m].findings;
            if (a.members[m].has[kind]) {
                first = first < 0 ? kind : first;
                worst =
                    worst < 0 || f[kind].ratio.utilisation > f[worst].ratio.utilisation
                        ? kind
                        : worst;
            }
        }
        const char *title = a.members[m].findings[worst].check->title;
        const char *head = strstr(bw_text_string(&html), "</h3>") - strlen(title);
        assert_int_equal(strncmp(head, title, strlen(title)), 0);
        turned += first != worst ? 1U : 0U;
    }
    assert_true(turned > 3); /* the order of the checks alone would not do */
}

static void test_working(void **unused)
{
    (void)unused;
    const char *text = case_text("cases/alder-loop.json");
    const bw_page_argument third[] = {{"member", "3"}}, none[] = {{"member", "999"}};
    bw_case deck;
    bw_assessment a;
    bw_drawing drawing;
    assess(text, &deck, &a, &drawing);
    bw_text html = bw_text_new(arena);
    bw_report_member_html(&a, 3, &html);
    cJSON *working = answered("/working", text, third, 1);
    assert_string_equal(string_of(working, "html"), bw_text_string(&html));
    assert_non_null(strstr(string_of(working, "html"), a.members[3].name));
    cJSON_Delete(working);
    bw_page_request r = asked("POST", "/working", text);
    assert_int_equal(answer(&r).status, 400);
    r.arguments = none;
    r.n_arguments = 1;
    assert_int_equal(answer(&r).status, 400);
}

static void test_record_is_that_of_the_command(void **unused)
{
    (void)unused;
    const char *text = case_text("cases/alder-loop.json");
    const bw_page_argument named[] = {{"date", "2026-11-28"},
                                      {"name", "alder-loop.json"}};
    const bw_page_argument bad[] = {{"date", "2026-02-30"}};
    char hash[BW_SHA256_HEX];
    bw_case deck;
    bw_assessment a;
    bw_drawing drawing;
    assess(text, &deck, &a, &drawing);
    bw_sha256(text, strlen(text), hash);
    const bw_record record = {&a,           &drawing,          "2026-11-28",
                              "2027-11-28", "alder-loop.json", hash};
    bw_text html = bw_text_new(arena);
    bw_report_html(&record, &html);
    bw_page_request r = asked("POST", "/record", text);
    r.arguments = named;
    r.n_arguments = 2;
    const bw_page_response got = answer(&r);
    assert_string_equal(got.type, "text/html; charset=utf-8");
    assert_string_equal(got.body, bw_text_string(&html));
    r.arguments = bad;
    r.n_arguments = 1;
    assert_int_equal(answer(&r).status, 400);
    r = asked("POST", "/record", "{}");
    assert_int_equal(answer(&r).status, 422);
}

/* A deck far too large for an answer at once is refused before it is reckoned. */
static void test_size(void **unused)
{
    (void)unused;
    bw_text t = bw_text_new(arena);
    bw_text_add(&t, "{\"format\": 1, \"title\": \"long\", \"units\": \"metric\", "
                    "\"deck\": {\"width\": \"1 m\"}, "
                    "\"logs\": [{\"name\": \"l\", \"species\": \"unknown softwood\", "
                    "\"butt_girth\": \"700 mm\", "
                    "\"tip_girth\": \"600 mm\", \"bark\": \"off\"}], \"rows\": "
                    "[{\"name\": \"a\", \"across\": "
                    "\"-400 mm\"}, {\"name\": \"b\", \"across\": \"400 mm\"}], "
                    "\"every_bent\": {\"deck_height\": "
                    "\"700 mm\", \"sill\": \"l\"}, \"bents\": [");
    for (int i = 0; i < 600; i++) {
        bw_text_print(&t, "%s{\"name\": \"%d\", \"at\": \"%d mm\"}", i > 0 ? ", " : "", i,
                      800 * i);
    }
    bw_text_add(&t, "], \"stringers\": [");
    for (int i = 0; i < 1198; i++) {
        bw_text_print(
            &t, "%s{\"row\": \"%s\", \"log\": \"l\", \"from\": \"%d\", \"to\": \"%d\"}",
            i > 0 ? ", " : "", i % 2 == 0 ? "a" : "b", i / 2, i / 2 + 1);
    }
    bw_text_add(&t, "], \"loads\": {\"crowd\": \"3 kPa\"}}");
    cJSON *check = answered("/check", bw_text_string(&t), NULL, 0);
    const cJSON *faults = cJSON_GetObjectItem(check, "faults");
    const cJSON *last = cJSON_GetArrayItem(faults, cJSON_GetArraySize(faults) - 1);
    assert_string_equal(string_of(last, "id"), "page.size");
    cJSON_Delete(check);
}

/* ---- sliders ---- */

typedef struct {
    cJSON *json;
    const cJSON *places;
    int at;
} slider;

static slider slid(const bw_page_argument *arguments, size_t n)
{
    bw_page_request r = asked("GET", "/steps", "");
    r.arguments = arguments;
    r.n_arguments = n;
    slider s = {.json = cJSON_Parse(answer(&r).body)};
    assert_non_null(s.json);
    s.places = cJSON_GetObjectItem(s.json, "places");
    s.at = cJSON_GetObjectItem(s.json, "at")->valueint;
    return s;
}

static const char *text_at(const slider *s, int place, int k)
{
    return cJSON_GetStringValue(cJSON_GetArrayItem(
        cJSON_GetObjectItem(cJSON_GetArrayItem(s->places, place), "texts"), k));
}

static void test_steps(void **unused)
{
    (void)unused;
    const bw_page_argument girth[] = {
        {"by", "girth"}, {"units", "imperial"}, {"text", "25 1/2 in"}, {"text", "23in"}};
    slider s = slid(girth, 4);
    assert_string_equal(text_at(&s, s.at, 0), "25 1/2 in");
    assert_string_equal(text_at(&s, s.at, 1), "23in"); /* as written */
    assert_string_equal(text_at(&s, s.at + 3, 0), "27 in");
    assert_string_equal(text_at(&s, s.at - 1, 1), "22 1/2 in");
    cJSON_Delete(s.json);
    /* all bays grow alike: the n-th bent moves n times as far; the first stays */
    const bw_page_argument spacing[] = {{"by", "spacing"},
                                        {"units", "metric"},
                                        {"text", "-1.5 m"},
                                        {"text", "0 m"},
                                        {"text", "2.385 m"}};
    s = slid(spacing, 5);
    assert_string_equal(text_at(&s, s.at + 2, 0), "-1.5 m");
    assert_string_equal(text_at(&s, s.at + 2, 1), "100 mm");
    double there = 0.0;
    assert_int_equal(bw_quantity_parse(BW_LENGTH, text_at(&s, s.at + 2, 2), &there),
                     BW_PARSE_OK);
    assert_true(there > 2.5799 && there < 2.5901); /* 2.585 m, to 1 cm */
    assert_string_equal(string_of(cJSON_GetArrayItem(s.places, s.at), "label"),
                        "1.50 m to 2.38 m");
    cJSON_Delete(s.json);
    /* no hole gets shallower than nothing */
    const bw_page_argument depth[] = {
        {"by", "depth"}, {"units", "imperial"}, {"text", "6 in"}};
    s = slid(depth, 3);
    assert_int_equal(s.at, 2);
    assert_string_equal(text_at(&s, 0, 0), "2 in");
    cJSON_Delete(s.json);
    const bw_page_argument boards[] = {
        {"by", "thickness"}, {"units", "imperial"}, {"text", "1 1/2 in"}};
    s = slid(boards, 3);
    assert_string_equal(text_at(&s, s.at + 2, 0), "2 in");
    cJSON_Delete(s.json);
}

static void test_steps_of_no_length(void **unused)
{
    (void)unused;
    const bw_page_argument bad[] = {
        {"by", "girth"}, {"units", "imperial"}, {"text", "27 pounds"}};
    slider s = slid(bad, 3);
    assert_int_equal(cJSON_GetArraySize(s.places), 0);
    cJSON_Delete(s.json);
    const bw_page_argument which[] = {{"by", "moon"}};
    bw_page_request r = asked("GET", "/steps", "");
    r.arguments = which;
    r.n_arguments = 1;
    assert_int_equal(answer(&r).status, 400);
}

/* ---- bents along the deck ---- */

static void expect_along(const bw_page_argument *arguments, size_t n, const char *body)
{
    bw_page_request r = asked("GET", "/along", "");
    r.arguments = arguments;
    r.n_arguments = n;
    assert_string_equal(answer(&r).body, body);
}

static void test_along(void **unused)
{
    (void)unused;
    const bw_page_argument places[] = {{"text", "-2 ft"}, {"text", "7' 6\""},
                                       {"text", "1 m"},   {"after", "2"},
                                       {"after", "1"},    {"units", "metric"}};
    /* behind 1 m, half way to 7 ft 6 in = 2.286 m: 1.643 m */
    expect_along(places, 4, "{\"order\": [0, 2, 1], \"place\": \"5 ft 4 11/16 in\"}\n");
    /* behind the last, as far again: 2.286 + 1.286 = 3.572 m */
    expect_along(places, 3, "{\"order\": [0, 2, 1], \"place\": \"11 ft 8 5/8 in\"}\n");
    const bw_page_argument last[] = {places[0], places[1], places[2], places[4],
                                     places[5]};
    expect_along(last, 5, "{\"order\": [0, 2, 1], \"place\": \"3.57 m\"}\n");
    /* one bent makes no bay; bents at one place follow the file; what is no length has no
     * order */
    expect_along(places, 1, "{\"order\": [0], \"place\": \"\"}\n");
    const bw_page_argument same[] = {{"text", "7 ft"}, {"text", "84 in"}};
    expect_along(same, 2, "{\"order\": [0, 1], \"place\": \"7 ft\"}\n");
    const bw_page_argument far[] = {{"text", "1e308 m"}, {"text", "-1e308 m"}};
    expect_along(far, 2, "{\"order\": [1, 0], \"place\": \"\"}\n");
    const bw_page_argument bad[] = {{"text", "7 ft"}, {"text", "7"}};
    expect_along(bad, 2, "{\"order\": [], \"place\": \"\"}\n");
    expect_along(NULL, 0, "{\"order\": [], \"place\": \"\"}\n");
}

/* ---- text of users ---- */

static void test_escaping(void **unused)
{
    (void)unused;
    const char *text = case_text("src/page/start-feet.json");
    bw_text evil = bw_text_new(arena);
    for (const char *at = text; *at != '\0';) {
        if (strncmp(at, "\"L1\"", 4) == 0) {
            bw_text_add(&evil, "\"<img src=x onerror=alert(1)>&\\\"'\"");
            at += 4;
        } else {
            bw_text_add_bytes(&evil, at++, 1);
        }
    }
    const bw_page_argument first[] = {{"member", "0"}};
    cJSON *check = answered("/check", bw_text_string(&evil), NULL, 0);
    cJSON *working = answered("/working", bw_text_string(&evil), first, 1);
    const char *markup = string_of(cJSON_GetObjectItem(check, "result"), "drawing");
    const char *html = string_of(working, "html");
    assert_null(strstr(markup, "<img"));
    assert_null(strstr(html, "<img"));
    assert_non_null(strstr(html, "&lt;img src=x onerror=alert(1)&gt;&amp;&quot;&#39;"));
    cJSON_Delete(check);
    cJSON_Delete(working);
}

/* ---- memory ---- */

static void test_memory_runs_out(void **unused)
{
    (void)unused;
    const char *text = case_text("src/page/start-feet.json");
    const bw_page_request r = asked("POST", "/check", text);
    size_t sorry = 0;
    for (unsigned long n = 1; n < 40; n++) {
        bw_arena *own = bw_arena_new();
        bw_page_response got;
        bw_arena_fail_after(n);
        bw_page_answer(own, &page, &r, &got);
        bw_arena_fail_after(0);
        assert_true(got.body != NULL && strlen(got.body) == got.length);
        assert_true(got.status == 200 || got.status == 500);
        /* a verdict is never given on half of the memory */
        sorry +=
            got.status == 500 || strstr(got.body, "\"result\": null") != NULL ? 1U : 0U;
        bw_arena_free(own);
    }
    assert_true(sorry > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_strangers),
        cmocka_unit_test(test_methods_and_types),
        cmocka_unit_test(test_bodies),
        cmocka_unit_test(test_files),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_check_says_what_the_command_says),
        cmocka_unit_test(test_loads_are_told),
        cmocka_unit_test(test_faults_are_those_of_the_command),
        cmocka_unit_test(test_working),
        cmocka_unit_test(test_working_begins_with_the_worst),
        cmocka_unit_test(test_record_is_that_of_the_command),
        cmocka_unit_test(test_size),
        cmocka_unit_test(test_steps),
        cmocka_unit_test(test_steps_of_no_length),
        cmocka_unit_test(test_along),
        cmocka_unit_test(test_escaping),
        cmocka_unit_test(test_memory_runs_out),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
