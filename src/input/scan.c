/* scan.c - strict reading of JSON text (RFC 8259, READ) before cJSON sees it.
 *
 * cJSON takes duplicate keys, numbers such as 01, 1. and 1e999, raw control characters in
 * strings, a byte order mark and bytes that are not UTF-8, and it cuts strings at \u0000.
 * All of that is reported here, with what it refuses as well, because it does not say
 * where. The scan goes on after a fault wherever the rest can still be understood. */
#include "json.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum {
    most_levels = 64,   /* nesting that is read */
    longest_number = 63 /* cJSON cuts numbers beyond this */
};

typedef struct {
    const char *begin; /* the bracket */
    const char *key;   /* with its quotes; null before the first key and in a list */
    size_t key_length;
    size_t index;
} level;

typedef struct {
    bwi_json *doc;
    const char *at;
    level levels[most_levels];
    size_t depth;
    bool broken; /* cJSON would refuse this text */
} scanner;

static const char digits[] = "0123456789";

static bool is_word(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           c == '_';
}

/* ---- faults ---- */

/* The key as the file means it; escapes are rare enough to leave them to cJSON. */
static void add_key(bwi_json *doc, bw_text *pointer, const level *in)
{
    cJSON *decoded = cJSON_ParseWithLength(in->key, in->key_length);
    const char *word = cJSON_GetStringValue(decoded);
    bwi_pointer_add(pointer,
                    word != NULL ? word : bwi_excerpt(doc, in->key, in->key_length));
    cJSON_Delete(decoded);
}

static const char *pointer_here(const scanner *s)
{
    bw_text pointer = bw_text_new(s->doc->arena);
    for (size_t i = 0; i < s->depth; i++) {
        const level *in = &s->levels[i];
        if (*in->begin == '[') {
            bw_text_print(&pointer, "/%zu", in->index);
        } else if (in->key != NULL) {
            add_key(s->doc, &pointer, in);
        }
    }
    return bw_text_string(&pointer);
}

static void fault(const scanner *s, const char *where, const char *id, const char *hint,
                  const char *message)
{
    const char *pointer = bwi_faults_full(s->doc) ? "" : pointer_here(s);
    s->doc->out_of_memory = s->doc->out_of_memory || pointer == NULL;
    const bwi_fault found = {.severity = BW_ERROR,
                             .id = id,
                             .path = pointer,
                             .message = message,
                             .hint = hint,
                             .offset = (size_t)(where - s->doc->text)};
    bwi_fault_add(s->doc, &found);
}

/* A fault after which nothing more can be understood. */
static bool give_up(scanner *s, const char *id, const char *hint, const char *message)
{
    fault(s, s->at, id, hint, message);
    s->broken = true;
    return false;
}

static bool ends_early(scanner *s, const char *inside)
{
    const char *message = "the file ends too early";
    const char *hint =
        "the end of the file is missing: copy it again, or close what is open";
    if (s->depth > 0) {
        const level *in = &s->levels[s->depth - 1];
        int line = 0;
        int column = 0;
        bwi_line_column(s->doc, (size_t)(in->begin - s->doc->text), &line, &column);
        message = bwi_print(
            s->doc, "the file ends inside %s%sthe %s that begins at line %d", inside,
            *inside == '\0' ? "" : " in ", *in->begin == '{' ? "object" : "list", line);
    }
    return give_up(s, "json.end", hint, message);
}

/* What stands at the place, for "found ...". */
static const char *found_here(const scanner *s)
{
    size_t length = 0;
    while (is_word(s->at[length])) {
        length++;
    }
    if (length == 0 && *s->at != '\0') { /* one character, all its bytes */
        length = 1;
        while (((unsigned char)s->at[length] & 0xC0U) == 0x80U) {
            length++;
        }
    }
    return bwi_excerpt(s->doc, s->at, length);
}

static void skip_space(scanner *s)
{
    s->at += strspn(s->at, " \t\r\n");
}

/* ---- strings ---- */

/* RFC 3629 section 4, MEMORY: no overlong forms, no surrogates, nothing beyond U+10FFFF.
 */
size_t bwi_utf8_bytes(const char *text)
{
    const unsigned char *b = (const unsigned char *)text;
    const size_t length = b[0] >= 0xF0U ? 4 : b[0] >= 0xE0U ? 3 : 2;
    if (b[0] < 0xC2U || b[0] > 0xF4U) {
        return 0;
    }
    if ((b[0] == 0xE0U && b[1] < 0xA0U) || (b[0] == 0xEDU && b[1] > 0x9FU) ||
        (b[0] == 0xF0U && b[1] < 0x90U) || (b[0] == 0xF4U && b[1] > 0x8FU)) {
        return 0;
    }
    for (size_t i = 1; i < length; i++) {
        if ((b[i] & 0xC0U) != 0x80U) {
            return 0;
        }
    }
    return length;
}

/* The four hexadecimal digits after \u, or -1. */
static long hex4(const char *text)
{
    long value = 0;
    for (int i = 0; i < 4; i++) {
        const char c = text[i];
        const char *digit = c == '\0' ? NULL : strchr("0123456789abcdefABCDEF", c);
        if (digit == NULL) {
            return -1;
        }
        value = value * 16 + (c <= '9' ? c - '0' : (c | 0x20) - 'a' + 10);
    }
    return value;
}

/* Length of the sound escape at the backslash, or 0. */
static size_t escape_length(const char *text)
{
    if (text[1] != 'u') {
        return text[1] != '\0' && strchr("\"\\/bfnrt", text[1]) != NULL ? 2 : 0;
    }
    const long first = hex4(text + 2);
    if (first < 0xD800 || first > 0xDFFF) {
        return first < 0 ? 0 : 6;
    }
    const long second = text[6] == '\\' && text[7] == 'u' ? hex4(text + 8) : -1;
    return first < 0xDC00 && second >= 0xDC00 && second <= 0xDFFF ? 12 : 0;
}

static bool scan_escape(scanner *s, bool *faulty)
{
    const size_t length = escape_length(s->at);
    if (length == 0) {
        s->broken = true;
        *faulty = true;
        fault(s, s->at, "json.escape",
              "write \\\" for a quote and \\\\ for a backslash; feet and inches may be "
              "written 7 ft 6 in",
              bwi_print(s->doc, "unknown escape \"%s\" in a string",
                        bwi_excerpt(s->doc, s->at, s->at[1] == '\0' ? 1 : 2)));
        s->at += s->at[1] == '\0' || s->at[1] == '\n' ? 1 : 2;
        return true;
    }
    if (strncmp(s->at, "\\u0000", 6) == 0) {
        *faulty = true;
        fault(s, s->at, "json.control", NULL, "a string contains the character \\u0000");
    }
    s->at += length;
    return true;
}

/* What is neither plain nor the end of a string. */
static bool scan_odd(scanner *s, bool *faulty)
{
    const unsigned char c = (unsigned char)*s->at;
    if (c == '\\') {
        return scan_escape(s, faulty);
    }
    if (c == '\0') {
        return ends_early(s, "a string");
    }
    if (c == '\n' || c == '\r') {
        return give_up(s, "json.control", "is the closing quote missing on this line?",
                       "a line ends inside a string");
    }
    const size_t length = c < 0x20 ? 0 : bwi_utf8_bytes(s->at);
    if (length == 0 && !*faulty) { /* said once for a string */
        *faulty = true;
        fault(s, s->at, c < 0x20 ? "json.control" : "json.utf8",
              c < 0x20 ? "write \\t for a tab" : "save the file as UTF-8",
              bwi_print(s->doc,
                        c < 0x20 ? "control character 0x%02X in a string"
                                 : "byte 0x%02X is not UTF-8",
                        (unsigned)c));
    }
    s->at += length == 0 ? 1 : length;
    return true;
}

static bool scan_string(scanner *s, bool *faulty)
{
    s->at++;
    for (;;) {
        const unsigned char c = (unsigned char)*s->at;
        if (c == '"') {
            s->at++;
            return true;
        }
        if (c >= 0x20 && c < 0x80 && c != '\\') {
            s->at++;
        } else if (!scan_odd(s, faulty)) {
            return false;
        }
    }
}

/* ---- numbers and words ---- */

/* What RFC 8259 section 6 has against the number, or null. */
static const char *number_flaw(const char *text, size_t length)
{
    const char *p = text + (*text == '-' ? 1 : 0);
    const size_t whole = strspn(p, digits);
    if (*text == '+' || *text == '.' || whole == 0) {
        return "a number begins with a digit or a minus sign";
    }
    if (*p == '0' && whole > 1) {
        return "a number has no zeros in front";
    }
    p += whole;
    if (*p == '.') {
        const size_t part = strspn(p + 1, digits);
        if (part == 0) {
            return "digits must follow the decimal point";
        }
        p += 1 + part;
    }
    if (*p == 'e' || *p == 'E') {
        p += p[1] == '+' || p[1] == '-' ? 2 : 1;
        const size_t part = strspn(p, digits);
        if (part == 0) {
            return "digits must follow the e";
        }
        p += part;
    }
    return p == text + length
               ? NULL
               : "a number with a unit is written in quotes, as \"6 ft 6 in\"";
}

static void scan_number(scanner *s, bool *faulty)
{
    const char *begin = s->at;
    size_t length = strspn(begin, "0123456789+-.eE");
    const size_t plain = length;
    while (is_word(begin[length]) ||
           (begin[length] != '\0' && strchr("+-.'/", begin[length]) != NULL)) {
        length++;
    }
    s->at += length;
    const char *flaw = number_flaw(begin, length);
    if (length > longest_number) {
        flaw = "at most 63 characters are read";
        s->broken = true;
    }
    if (flaw != NULL) {
        *faulty = true;
        char *end = NULL;
        (void)strtod(begin, &end);
        s->broken = s->broken || plain != length || end != begin + length ||
                    *begin == '+' || *begin == '.';
        fault(s, begin, "json.number", flaw,
              bwi_print(s->doc, "%s is not a JSON number",
                        bwi_excerpt(s->doc, begin, length)));
    } else if (!isfinite(strtod(begin, NULL))) {
        *faulty = true;
        fault(s, begin, "json.finite", NULL,
              bwi_print(s->doc, "%s is too large for a number",
                        bwi_excerpt(s->doc, begin, length)));
    }
}

static const char *word_hint(const char *word, size_t length)
{
    static const struct {
        const char *word, *hint;
    } known[] = {
        {"NaN", "a value that is not a number cannot be used: leave the key out"},
        {"nan", "a value that is not a number cannot be used: leave the key out"},
        {"Infinity", "an infinite value cannot be used: leave the key out"},
        {"inf", "an infinite value cannot be used: leave the key out"},
        {"True", "write true"},
        {"False", "write false"},
        {"None", "write null"},
    };
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (strlen(known[i].word) == length && memcmp(known[i].word, word, length) == 0) {
            return known[i].hint;
        }
    }
    return "text is written in double quotes";
}

static bool scan_word(scanner *s, bool *faulty)
{
    const char *begin = s->at;
    size_t length = 0;
    while (is_word(begin[length])) {
        length++;
    }
    static const char *const words[] = {"true", "false", "null"};
    for (size_t i = 0; i < 3; i++) {
        if (strlen(words[i]) == length && memcmp(words[i], begin, length) == 0) {
            s->at += length;
            return true;
        }
    }
    const char *message = bwi_print(s->doc, "%s is not a JSON value", found_here(s));
    if (length == 0) {
        const char *hint = *begin == '\''  ? "text is written in double quotes, not in '"
                           : *begin == '/' ? "JSON has no comments"
                                           : "a value may be missing here";
        return give_up(s, "json.value", hint, message);
    }
    fault(s, begin, "json.value", word_hint(begin, length), message);
    s->at += length;
    *faulty = true;
    s->broken = true;
    return true;
}

/* ---- objects and lists ---- */

static bool scan_value(scanner *s, const char *key);

static bool scan_key(scanner *s)
{
    level *in = &s->levels[s->depth - 1];
    in->key = NULL; /* a fault here belongs to the object, not to the key before */
    if (*s->at == '\0') {
        return ends_early(s, "");
    }
    if (*s->at != '"') {
        return give_up(
            s, "json.key",
            *s->at == '/' ? "JSON has no comments"
                          : "a key is written in double quotes, as \"length\"",
            bwi_print(s->doc, "a key must stand here, found %s", found_here(s)));
    }
    const char *begin = s->at;
    bool faulty = false;
    if (!scan_string(s, &faulty)) {
        return false;
    }
    in->key = begin;
    in->key_length = (size_t)(s->at - begin);
    skip_space(s);
    if (*s->at == '\0') {
        return ends_early(s, "");
    }
    if (*s->at != ':') {
        return give_up(
            s, "json.colon", NULL,
            bwi_print(s->doc, "a colon must follow the key, found %s", found_here(s)));
    }
    s->at++;
    return true;
}

/* After a value: *more if another one follows, else the closing bracket has been read. */
static bool scan_separator(scanner *s, char closing, bool *more)
{
    skip_space(s);
    const char *before = s->at;
    *more = *s->at != closing;
    if (*s->at == '\0') {
        return ends_early(s, "");
    }
    if (*s->at == closing) {
        s->at++;
        return true;
    }
    if (*s->at == ',') {
        s->at++;
        skip_space(s);
        if (*s->at == closing) {
            fault(s, before, "json.comma", "take the last comma out",
                  bwi_print(s->doc, "a comma stands before the closing %c", closing));
            s->broken = true;
            *more = false;
            s->at++;
        }
        return true;
    }
    const char *message =
        bwi_print(s->doc, "a comma or %c must follow, found %s", closing, found_here(s));
    if (*s->at == '"' || (closing == ']' && strchr("{[-0123456789", *s->at) != NULL)) {
        fault(s, before, "json.comma", "is a comma missing before it?", message);
        s->broken = true;
        return true;
    }
    return give_up(s, "json.comma", *s->at == '/' ? "JSON has no comments" : NULL,
                   message);
}

static bool scan_members(scanner *s, char closing)
{
    level *in = &s->levels[s->depth - 1];
    skip_space(s);
    bool more = *s->at != closing;
    if (!more) {
        s->at++;
    }
    for (; more; in->index++) {
        skip_space(s);
        const char *key = closing == '}' ? s->at : NULL;
        if ((closing == '}' && !scan_key(s)) || !scan_value(s, key) ||
            !scan_separator(s, closing, &more)) {
            return false;
        }
    }
    return true;
}

static bool scan_container(scanner *s)
{
    if (s->depth == most_levels) {
        return give_up(s, "json.depth", NULL, "nested deeper than 64 levels");
    }
    s->levels[s->depth++] = (level){.begin = s->at};
    const char closing = *s->at == '{' ? '}' : ']';
    s->at++;
    const bool sound = scan_members(s, closing);
    s->depth--;
    return sound;
}

static bool scan_value(scanner *s, const char *key)
{
    bwi_json *doc = s->doc;
    skip_space(s);
    bwi_place *places = bw_arena_grow(doc->arena, doc->places, doc->n_places,
                                      &doc->cap_places, sizeof *places);
    if (places == NULL) {
        doc->out_of_memory = true;
        return false;
    }
    doc->places = places;
    const size_t number = doc->n_places++;
    const size_t offset = (size_t)(s->at - doc->text);
    places[number] =
        (bwi_place){offset, key != NULL ? (size_t)(key - doc->text) : offset, false};
    bool faulty = false;
    bool sound = true;
    if (*s->at == '{' || *s->at == '[') {
        return scan_container(s);
    }
    if (*s->at == '\0') {
        return ends_early(s, "");
    }
    if (*s->at == '"') {
        sound = scan_string(s, &faulty);
    } else if (strchr("+-.0123456789", *s->at) != NULL) {
        scan_number(s, &faulty);
    } else {
        sound = scan_word(s, &faulty);
    }
    doc->places[number].faulty = faulty;
    return sound;
}

bool bwi_scan(bwi_json *doc)
{
    scanner s = {.doc = doc, .at = doc->text};
    if (strncmp(s.at, "\xEF\xBB\xBF", 3) == 0) {
        fault(&s, s.at, "json.bom", "save the file as UTF-8 without a byte order mark",
              "the file begins with a byte order mark");
        s.at += 3;
    }
    skip_space(&s);
    if (*s.at == '\0') {
        return give_up(&s, "json.empty", NULL, "the file is empty");
    }
    if (!scan_value(&s, NULL)) {
        return false;
    }
    skip_space(&s);
    if (*s.at != '\0') {
        return give_up(&s, "json.trailing", "a file holds one object",
                       bwi_print(doc, "text after the end, found %s", found_here(&s)));
    }
    return !s.broken && !doc->out_of_memory;
}
