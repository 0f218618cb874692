/* fields.c - typed reading of values. */
#include "fields.h"

#include "shape.h"

#include <math.h>
#include <string.h>

enum { longest_name = 60 };

/* There, and not reported by the scan. */
static bool readable(const bwi_at *at)
{
    return at->node != NULL && !at->doc->places[at->node->valueint].faulty;
}

static bool wrong_type(const bwi_at *at, const char *needed)
{
    bwi_error(at, "value.type", needed, NULL, "found %s where %s must stand",
              bwi_as_written(at), needed);
    return false;
}

/* ---- objects and lists ---- */

static bool is_known(const char *key, const char *const *keys, size_t n_keys)
{
    for (size_t i = 0; i < n_keys; i++) {
        if (strcmp(key, keys[i]) == 0) {
            return true;
        }
    }
    return false;
}

static const char *join(bwi_json *doc, const char *const *words, size_t n_words)
{
    bw_text list = bw_text_new(doc->arena);
    for (size_t i = 0; i < n_words; i++) {
        bw_text_print(&list, "%s%s", i == 0 ? "" : ", ", words[i]);
    }
    const char *text = bw_text_string(&list);
    doc->out_of_memory = doc->out_of_memory || text == NULL;
    return text;
}

static const char *nearest_hint(bwi_json *doc, const char *word, const char *const *words,
                                size_t n_words)
{
    if (bwi_faults_full(doc)) {
        return NULL;
    }
    const char *near = bw_nearest_word(word, words, n_words);
    return near != NULL ? bwi_print(doc, "did you mean \"%s\"?", near) : NULL;
}

bool bwi_object(const bwi_at *at, const char *const *keys, size_t n_keys)
{
    bwi_note_object(at, keys, n_keys);
    if (!readable(at)) {
        return false;
    }
    if (!cJSON_IsObject(at->node)) {
        return wrong_type(at, "an object");
    }
    for (bwi_at member = bwi_first(at); member.node != NULL; bwi_next(&member)) {
        if (!is_known(member.key, keys, n_keys)) {
            bwi_key_error(&member, "key.unknown", join(at->doc, keys, n_keys),
                          nearest_hint(at->doc, member.key, keys, n_keys), "unknown key");
        }
    }
    return true;
}

bool bwi_list(const bwi_at *at, size_t least, size_t most)
{
    bwi_note_list(at, least, most);
    if (!readable(at)) {
        return false;
    }
    if (!cJSON_IsArray(at->node)) {
        return wrong_type(at, "a list");
    }
    const size_t count = bwi_count(at);
    if (count < least || count > most) {
        bwi_error(at, "list.size",
                  bwi_print(at->doc, least == most ? "%zu" : "%zu to %zu", least, most),
                  NULL, "found %zu item%s", count, count == 1 ? "" : "s");
        return false;
    }
    return true;
}

bwi_at bwi_need(const bwi_at *object, const char *key)
{
    const bwi_at at = bwi_key(object, key);
    bwi_note_need(&at);
    if (at.node == NULL && cJSON_IsObject(object->node)) {
        bwi_error(object, "key.missing", NULL, bwi_print(object->doc, "add \"%s\"", key),
                  "the key \"%s\" is missing", key);
    }
    return at;
}

bool bwi_is_null(const bwi_at *at)
{
    bwi_note_kind(at, BWI_IS_NULL);
    return cJSON_IsNull(at->node);
}

bool bwi_format(const bwi_at *root, const char *kind)
{
    double format = 0.0;
    const bwi_at at = bwi_need(root, "format");
    bwi_note_one(&at);
    if (!bwi_number(&at, (bwi_range){-HUGE_VAL, HUGE_VAL, false}, &format)) {
        return false;
    }
    if (format < 1.0 || format > 1.0) {
        bwi_error(&at, "format.version", "1", NULL,
                  "this program does not read format %s", bwi_as_written(&at));
        return false;
    }
    int found = 0;
    const bwi_at word = kind != NULL ? bwi_need(root, "kind") : at;
    return kind == NULL || bwi_word(&word, &kind, 1, &found);
}

/* ---- text and words ---- */

/* Bytes below space, delete, and the C1 controls U+0080..U+009F. */
static bool has_control(const char *text)
{
    for (const unsigned char *c = (const unsigned char *)text; *c != '\0'; c++) {
        if (*c < 0x20 || *c == 0x7F || (*c == 0xC2 && c[1] < 0xA0)) {
            return true;
        }
    }
    return false;
}

static bool text_read(const bwi_at *at, const char **out)
{
    if (!readable(at)) {
        return false;
    }
    const char *text = cJSON_GetStringValue(at->node);
    if (text == NULL) {
        return wrong_type(at, "a text");
    }
    if (text[strspn(text, " \t")] == '\0') {
        bwi_error(at, "value.empty", NULL, "leave the key out if there is nothing to say",
                  "an empty text");
        return false;
    }
    if (has_control(text)) {
        bwi_error(at, "value.control", NULL, "keep it on one line, without tabs",
                  "%s contains a control character", bwi_as_written(at));
        return false;
    }
    *out = bwi_keep(at->doc, text);
    return true;
}

bool bwi_text(const bwi_at *at, const char **out)
{
    bwi_note_kind(at, BWI_IS_TEXT);
    return text_read(at, out);
}

bool bwi_name(const bwi_at *at, const char **out)
{
    const char *name = NULL;
    bwi_note_kind(at, BWI_IS_NAME);
    if (!text_read(at, &name)) {
        return false;
    }
    const size_t columns = bw_text_columns(name);
    if (columns > longest_name) {
        bwi_error(at, "value.long",
                  bwi_print(at->doc, "at most %d letters", longest_name), NULL,
                  "%zu letters", columns);
        return false;
    }
    *out = name;
    return true;
}

bool bwi_flag(const bwi_at *at, bool *out)
{
    bwi_note_kind(at, BWI_IS_FLAG);
    if (!readable(at)) {
        return false;
    }
    if (!cJSON_IsBool(at->node)) {
        return wrong_type(at, "true or false");
    }
    *out = cJSON_IsTrue(at->node) != 0;
    return true;
}

bool bwi_word(const bwi_at *at, const char *const *words, size_t n_words, int *out)
{
    bwi_note_words(at, words, n_words);
    if (!readable(at)) {
        return false;
    }
    const char *word = cJSON_GetStringValue(at->node);
    for (size_t i = 0; word != NULL && i < n_words; i++) {
        if (strcmp(words[i], word) == 0) {
            *out = (int)i;
            return true;
        }
    }
    const char *hint = word != NULL ? nearest_hint(at->doc, word, words, n_words) : NULL;
    bwi_error(at, "value.word", join(at->doc, words, n_words), hint, "found %s",
              bwi_as_written(at));
    return false;
}

/* ---- numbers and quantities ---- */

static const char *limit_print(bwi_json *doc, bw_quantity quantity, double limit)
{
    if (quantity == BW_NUMBER) {
        return bwi_print(doc, "%.6g", limit);
    }
    const char *text = bw_quantity_print(doc->arena, quantity, limit, doc->units);
    doc->out_of_memory = doc->out_of_memory || text == NULL;
    return text != NULL ? text : "";
}

const char *bwi_range_print(bwi_json *doc, bw_quantity quantity, bwi_range range)
{
    if (bwi_faults_full(doc)) {
        return NULL;
    }
    const bool has_low = isfinite(range.low) != 0;
    const bool has_high = isfinite(range.high) != 0;
    const char *low = has_low ? limit_print(doc, quantity, range.low) : "";
    const char *high = has_high ? limit_print(doc, quantity, range.high) : "";
    if (!has_low) {
        return has_high ? bwi_print(doc, "at most %s", high) : NULL;
    }
    if (!has_high) {
        return bwi_print(doc, "%s %s", range.above ? "more than" : "at least", low);
    }
    return bwi_print(doc, "%s %s %s %s", range.above ? "above" : "from", low,
                     range.above ? "up to" : "to", high);
}

/* slack: the part of a limit by which it may be passed. */
static bool in_range(const bwi_at *at, bw_quantity quantity, bwi_range range,
                     double slack, double value)
{
    const double low = range.low - slack * fabs(range.low);
    const double high = range.high + slack * fabs(range.high);
    const bool sound =
        (range.above ? value > range.low : !isfinite(range.low) || value >= low) &&
        (!isfinite(range.high) || value <= high);
    if (!sound) {
        bwi_error(at, "value.range", bwi_range_print(at->doc, quantity, range), NULL,
                  "%s is out of range", bwi_as_written(at));
    }
    return sound;
}

bool bwi_number(const bwi_at *at, bwi_range range, double *out)
{
    bwi_note_number(at, range);
    if (!readable(at)) {
        return false;
    }
    if (!cJSON_IsNumber(at->node)) {
        return wrong_type(at, "a number without quotes");
    }
    if (!in_range(at, BW_NUMBER, range, 0.0, at->node->valuedouble)) {
        return false;
    }
    *out = at->node->valuedouble;
    return true;
}

static bool explain(const bwi_at *at, bw_parse fault, bw_quantity quantity,
                    const char *text)
{
    static const char *const ids[] = {
        [BW_PARSE_OK] = "",
        [BW_PARSE_EMPTY] = "quantity.empty",
        [BW_PARSE_NUMBER] = "quantity.number",
        [BW_PARSE_NO_UNIT] = "quantity.no_unit",
        [BW_PARSE_UNIT] = "quantity.unit",
        [BW_PARSE_MIXED] = "quantity.mixed",
        [BW_PARSE_RANGE] = "quantity.finite",
    };
    const char *hint = NULL;
    const char *message = bw_parse_explain(at->doc->arena, fault, quantity, text, &hint);
    if (message == NULL) {
        at->doc->out_of_memory = true;
        return false;
    }
    bwi_error(at, ids[fault], NULL, hint, "%s", message);
    return false;
}

static bool measure_text(const bwi_at *at, bw_quantity quantity, double *value)
{
    const char *text = cJSON_GetStringValue(at->node);
    if (text == NULL && cJSON_IsNumber(at->node)) {
        return explain(at, BW_PARSE_NO_UNIT, quantity, bwi_as_written(at));
    }
    if (text == NULL) {
        return wrong_type(
            at, bwi_print(at->doc, "a text such as %s", bw_quantity_example(quantity)));
    }
    const bw_parse fault = bw_quantity_parse(quantity, text, value);
    return fault == BW_PARSE_OK || explain(at, fault, quantity, text);
}

bool bwi_measure(const bwi_at *at, bw_quantity quantity, bwi_range range, double *out)
{
    static const double slack = 0.02;
    double value = 0.0;
    bwi_note_measure(at, quantity);
    if (!readable(at) || !measure_text(at, quantity, &value) ||
        !in_range(at, quantity, range, slack, value)) {
        return false;
    }
    *out = value;
    return true;
}

bool bwi_measure_or_si(const bwi_at *at, bw_quantity quantity, bwi_range range,
                       double *out)
{
    bwi_note_measure(at, quantity);
    bwi_note_number(at, range);
    if (!readable(at)) {
        return false;
    }
    double value = 0.0;
    if (cJSON_IsNumber(at->node)) {
        value = at->node->valuedouble;
    } else if (!measure_text(at, quantity, &value)) {
        return false;
    }
    if (!in_range(at, quantity, range, 0.0, value)) {
        return false;
    }
    *out = value;
    return true;
}
