/* case_write.c - a case written anew with a log of its own for every member. What is not
 * about logs stays as it was written. */
#include "case.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

typedef struct {
    bwi_json *doc;
    const bw_case *with; /* one log per member */
    bw_text *out;
} writer;

/* ---- values ---- */

static void add_string(bw_text *out, const char *text)
{
    bw_text_add(out, "\"");
    for (const char *c = text; *c != '\0'; c++) {
        if ((unsigned char)*c < 0x20) {
            bw_text_print(out, "\\u%04x", (unsigned)(unsigned char)*c);
        } else {
            bw_text_add(out, *c == '"' || *c == '\\' ? "\\" : "");
            bw_text_add_bytes(out, c, 1);
        }
    }
    bw_text_add(out, "\"");
}

/* A member of an object that lies on one line; the text before it ends with "{ " if it is
 * the first. */
static void add_key(bw_text *out, const char *key)
{
    const char *end = out->failed ? NULL : out->data + out->length;
    bw_text_add(out, end == NULL || (end[-1] == ' ' && end[-2] == '{') ? "" : ", ");
    add_string(out, key);
    bw_text_add(out, ": ");
}

static void add_value(bw_text *out, const cJSON *node);

static void add_members(bw_text *out, const cJSON *object)
{
    for (const cJSON *child = object->child; child != NULL; child = child->next) {
        add_key(out, child->string);
        add_value(out, child);
    }
}

/* On one line; depth is limited by the scan. */
static void add_value(bw_text *out, const cJSON *node)
{
    if (cJSON_IsObject(node)) {
        bw_text_add(out, "{ ");
        add_members(out, node);
        bw_text_add(out, " }");
    } else if (cJSON_IsArray(node)) {
        bw_text_add(out, "[");
        for (const cJSON *child = node->child; child != NULL; child = child->next) {
            bw_text_add(out, child == node->child ? "" : ", ");
            add_value(out, child);
        }
        bw_text_add(out, "]");
    } else if (cJSON_IsString(node)) {
        add_string(out, cJSON_GetStringValue(node));
    } else if (cJSON_IsNumber(node)) {
        bw_text_print(out, "%.15g", node->valuedouble);
    } else {
        bw_text_add(out, cJSON_IsNull(node)   ? "null"
                         : cJSON_IsTrue(node) ? "true"
                                              : "false");
    }
}

static void add_text(bw_text *out, const char *key, const char *text)
{
    add_key(out, key);
    add_string(out, text);
}

/* A length in hundredths of an inch or tenths of a millimetre; rounded so that the log
 * does not come out better. */
static void add_small(const writer *w, const char *key, double length, bool up)
{
    const bool imperial = w->with->units == BW_IMPERIAL;
    const double unit = bw_unit_size(BW_LENGTH, imperial ? "in" : "mm");
    const double parts = imperial ? 100.0 : 10.0;
    const double count = length / unit * parts;
    const double whole = up ? ceil(count - 1e-6) : floor(count + 1e-6);
    add_key(w->out, key);
    bw_text_print(w->out, imperial ? "\"%.2f in\"" : "\"%.1f mm\"", whole / parts);
}

static void add_long(const writer *w, const char *key, double length)
{
    const bool imperial = w->with->units == BW_IMPERIAL;
    const double unit = bw_unit_size(BW_LENGTH, imperial ? "ft" : "m");
    add_key(w->out, key);
    bw_text_print(w->out, imperial ? "\"%.3f ft\"" : "\"%.3f m\"",
                  floor(length / unit * 1000.0 + 1e-6) / 1000.0);
}

/* ---- logs ---- */

static void add_answer(const writer *w, const char *key, const bw_answer *answer)
{
    if (answer->given) {
        add_key(w->out, key);
        bw_text_print(w->out, "%.6g", answer->value);
    }
}

static void add_grade(const writer *w, const bw_eye_grade *g)
{
    static const char *const insects[] = {
        [BW_INSECTS_NONE] = "none", [BW_PINHOLES] = "pinholes", [BW_BORERS] = "borers"};
    static const bw_eye_grade silent;
    if (memcmp(g, &silent, sizeof silent) == 0) {
        return;
    }
    add_key(w->out, "grade");
    bw_text_add(w->out, "{ ");
    add_answer(w, "largest_knot", &g->largest_knot);
    add_answer(w, "knots_in_foot", &g->knots_in_foot);
    add_answer(w, "drying_check", &g->drying_check);
    if (g->spiral_grain.given) {
        add_key(w->out, "spiral_grain");
        bw_text_print(w->out, "\"%.6g %%\"", 100.0 * g->spiral_grain.value);
    }
    if (g->sweep.given) {
        add_key(w->out, "sweep");
        bw_text_print(w->out, "{ \"bow\": \"%.6g mm\", \"over\": \"10 m\" }",
                      1e4 * g->sweep.value);
    }
    if (g->insects != BW_INSECTS_NO_ANSWER) {
        add_text(w->out, "insects", insects[g->insects]);
    }
    if (g->decay != BW_NO_ANSWER) {
        add_text(w->out, "decay", g->decay == BW_YES ? "signs" : "none");
    }
    if (g->dead_when_cut != BW_NO_ANSWER) {
        add_key(w->out, "dead_when_cut");
        bw_text_add(w->out, g->dead_when_cut == BW_YES ? "true" : "false");
    }
    bw_text_add(w->out, " }");
}

static void add_sizes(const writer *w, const bw_log *log)
{
    if (log->n_stations == 0) {
        add_small(w, "butt_girth", pi * log->butt_diameter, false);
        add_small(w, "tip_girth", pi * log->tip_diameter, false);
        return;
    }
    add_key(w->out, "stations");
    bw_text_add(w->out, "[");
    for (size_t k = 0; k < log->n_stations; k++) {
        bw_text_add(w->out, k == 0 ? "{ " : ", { ");
        add_long(w, "at", log->stations[k].from_butt);
        add_small(w, "girth", pi * log->stations[k].diameter, false);
        bw_text_add(w->out, " }");
    }
    bw_text_add(w->out, "]");
}

static void add_notches(const writer *w, const bw_log *log)
{
    if (log->n_notches == 0) {
        return;
    }
    add_key(w->out, "notches");
    bw_text_add(w->out, "[");
    for (size_t k = 0; k < log->n_notches; k++) {
        const bw_notch *n = &log->notches[k];
        bw_text_add(w->out, k == 0 ? "{ " : ", { ");
        add_small(w, "at", n->from_butt, false);
        add_small(w, "depth", n->depth, true);
        add_text(w->out, "side", n->side == BW_SIDE_TOP ? "top" : "bottom");
        bw_text_add(w->out, " }");
    }
    bw_text_add(w->out, "]");
}

static void add_log(const writer *w, const bw_log *log)
{
    bw_text_add(w->out, "{ ");
    add_text(w->out, "name", log->name);
    add_text(w->out, "species", log->species->id);
    add_sizes(w, log);
    add_text(w->out, "bark", "off"); /* diameters are those under it */
    if (log->length > 0.0) {
        add_long(w, "length", log->length);
    }
    if (log->flat_top > 0.0) {
        add_small(w, "flat_top", log->flat_top, true);
    }
    if (log->flat_bottom > 0.0) {
        add_small(w, "flat_bottom", log->flat_bottom, true);
    }
    if (log->half) {
        add_key(w->out, "half");
        bw_text_add(w->out, "true");
    }
    add_notches(w, log);
    if (log->strength_class != NULL) {
        add_text(w->out, "strength_class", log->strength_class->name);
    }
    add_grade(w, &log->grade);
    bw_text_add(w->out, " }");
}

static const char *log_name(const writer *w, int log)
{
    return w->with->logs[log].name;
}

/* ---- what refers to logs ---- */

static bool is_one_of(const char *key, const char *const *keys, size_t n)
{
    for (size_t k = 0; k < n; k++) {
        if (strcmp(key, keys[k]) == 0) {
            return true;
        }
    }
    return false;
}

/* The members of an object, those of the keys left out. */
#define ADD_OTHERS(w, object, ...)                                                       \
    add_others((w), (object), (const char *const[]){__VA_ARGS__},                        \
               sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))
static void add_others(const writer *w, const cJSON *object, const char *const *keys,
                       size_t n)
{
    for (const cJSON *child = object->child; child != NULL; child = child->next) {
        if (!is_one_of(child->string, keys, n)) {
            add_key(w->out, child->string);
            add_value(w->out, child);
        }
    }
}

static const cJSON *child_of(const cJSON *object, const char *key)
{
    return cJSON_GetObjectItemCaseSensitive(object, key);
}

static const bw_bent *bent_named(const writer *w, const cJSON *bent)
{
    const char *name = cJSON_GetStringValue(child_of(bent, "name"));
    for (size_t k = 0; k < w->with->n_bents; k++) {
        if (strcmp(w->with->bents[k].name, name) == 0) {
            return &w->with->bents[k];
        }
    }
    return NULL; /* cannot be: the case was read from this text */
}

static void add_bent(const writer *w, const cJSON *node)
{
    const bw_bent *bent = bent_named(w, node);
    const cJSON *own = child_of(node, "posts");
    const cJSON *every = child_of(child_of(w->doc->tree, "every_bent"), "posts");
    const cJSON *post = own != NULL ? own->child : every != NULL ? every->child : NULL;
    bw_text_add(w->out, "{ ");
    ADD_OTHERS(w, node, "cap", "sill", "posts");
    if (bent != NULL && bent->cap >= 0) {
        add_text(w->out, bent->is_sill ? "sill" : "cap", log_name(w, bent->cap));
    }
    if (bent != NULL && bent->n_posts > 0) {
        add_key(w->out, "posts");
        bw_text_add(w->out, "[");
        for (size_t j = 0; j < bent->n_posts && post != NULL; j++, post = post->next) {
            bw_text_add(w->out, j == 0 ? "\n      { " : ",\n      { ");
            ADD_OTHERS(w, post, "log");
            add_text(w->out, "log", log_name(w, bent->posts[j].log));
            bw_text_add(w->out, " }");
        }
        bw_text_add(w->out, "]");
    }
    bw_text_add(w->out, " }");
}

static void add_stringer(const writer *w, const cJSON *node, const bw_stringer *s)
{
    bw_text_add(w->out, "{ ");
    ADD_OTHERS(w, node, "log", "butt_at");
    add_text(w->out, "log", log_name(w, s->log));
    add_text(w->out, "butt_at", w->with->bents[s->butt_at_to ? s->to : s->from].name);
    bw_text_add(w->out, " }");
}

static void add_brace_end(const writer *w, const char *key, const cJSON *end,
                          const cJSON *height)
{
    add_key(w->out, key);
    bw_text_add(w->out, "{ ");
    ADD_OTHERS(w, end, "height");
    add_key(w->out, "height");
    add_value(w->out, height);
    bw_text_add(w->out, " }");
}

/* A crossed pair becomes two diagonals, each with its own log. Returns how many. */
static size_t add_brace(const writer *w, const cJSON *node, const bw_brace *b)
{
    const cJSON *from = child_of(node, "from"), *to = child_of(node, "to");
    const char *kind = cJSON_GetStringValue(child_of(node, "kind"));
    const bool crossed = kind != NULL && strcmp(kind, "crossed") == 0;
    const cJSON *low = child_of(from, "height"), *high = child_of(to, "height");
    for (int k = 0; k < (crossed ? 2 : 1); k++) {
        bw_text_add(w->out, k == 0 ? "{ " : ",\n    { ");
        add_text(w->out, "name", b[k].name);
        add_text(w->out, "kind", crossed ? "diagonal" : kind);
        add_text(w->out, "log", log_name(w, b[k].log));
        if (crossed) {
            ADD_OTHERS(w, node, "name", "kind", "log", "from", "to");
            add_brace_end(w, "from", from, k == 0 ? low : high);
            add_brace_end(w, "to", to, k == 0 ? high : low);
        } else {
            ADD_OTHERS(w, node, "name", "kind", "log");
        }
        bw_text_add(w->out, " }");
    }
    return crossed ? 2 : 1;
}

/* ---- the file ---- */

static void add_logs(const writer *w)
{
    for (size_t k = 0; k < w->with->n_logs; k++) {
        bw_text_add(w->out, k == 0 ? "\n    " : ",\n    ");
        add_log(w, &w->with->logs[k]);
    }
}

static void add_items(const writer *w, const cJSON *list)
{
    const char *key = list->string;
    size_t k = 0;
    for (const cJSON *item = list->child; item != NULL; item = item->next) {
        bw_text_add(w->out, item == list->child ? "\n    " : ",\n    ");
        if (strcmp(key, "bents") == 0) {
            add_bent(w, item);
        } else if (strcmp(key, "stringers") == 0) {
            add_stringer(w, item, &w->with->stringers[k++]);
        } else if (strcmp(key, "braces") == 0) {
            k += add_brace(w, item, &w->with->braces[k]);
        } else {
            add_value(w->out, item);
        }
    }
}

static void add_entry(const writer *w, const cJSON *node)
{
    bw_text_add(w->out, node == w->doc->tree->child ? "\n  " : ",\n  ");
    add_string(w->out, node->string);
    bw_text_add(w->out, ": ");
    if (strcmp(node->string, "logs") == 0) {
        bw_text_add(w->out, "[");
        add_logs(w);
        bw_text_add(w->out, "\n  ]");
    } else if (strcmp(node->string, "every_bent") == 0) { /* logs lie in one place now */
        bw_text_add(w->out, "{ ");
        ADD_OTHERS(w, node, "cap", "sill", "posts");
        bw_text_add(w->out, " }");
    } else if (cJSON_IsArray(node)) {
        bw_text_add(w->out, "[");
        add_items(w, node);
        bw_text_add(w->out, "\n  ]");
    } else {
        add_value(w->out, node);
    }
}

bw_status bw_input_case_put(bw_arena *arena, const char *text, const bw_case *with,
                            bw_text *out, bw_diags *d)
{
    bwi_json doc;
    if (bwi_json_open(&doc, arena, text, d)) {
        const writer w = {&doc, with, out};
        bw_text_add(out, "{");
        for (const cJSON *node = doc.tree->child; node != NULL; node = node->next) {
            add_entry(&w, node);
        }
        bw_text_add(out, "\n}\n");
    }
    const bw_status status = bwi_json_close(&doc);
    return status == BW_OK && out->failed ? BW_E_MEMORY : status;
}
