/* schema.c - a shape as JSON Schema, draft 2020-12. */
#include "shape.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    bw_text *out;
    bw_diags *d;
    int depth;
    bool first; /* of the members or items at this depth */
    bool table; /* values are the cells of a table: texts, and perhaps empty */
    bool used[BW_QUANTITY_COUNT];
} schema;

/* ---- JSON ---- */

static void add_string(bw_text *out, const char *text)
{
    bw_text_add(out, "\"");
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '"' || *c == '\\') {
            bw_text_add(out, "\\");
        }
        bw_text_add_bytes(out, c, 1);
    }
    bw_text_add(out, "\"");
}

/* Begins the next item or, with a key, member. */
static void next(schema *s, const char *key)
{
    bw_text_print(s->out, "%s\n%*s", s->first ? "" : ",", 2 * s->depth, "");
    s->first = false;
    if (key != NULL) {
        add_string(s->out, key);
        bw_text_add(s->out, ": ");
    }
}

static void begin(schema *s, const char *bracket)
{
    bw_text_add(s->out, bracket);
    s->depth++;
    s->first = true;
}

static void end(schema *s, const char *bracket)
{
    s->depth--;
    bw_text_print(s->out, "\n%*s%s", 2 * s->depth, "", bracket);
    s->first = false;
}

static void add_texts(schema *s, const char *key, const bwi_set *texts)
{
    next(s, key);
    bw_text_add(s->out, "[");
    for (size_t i = 0; i < texts->count; i++) {
        bw_text_add(s->out, i == 0 ? "" : ", ");
        add_string(s->out, texts->items[i]);
    }
    bw_text_add(s->out, "]");
}

/* The fewest digits that mean the same. */
static void add_number(schema *s, const char *key, double value)
{
    char text[40];
    for (int digits = value >= 10.0 && value - floor(value) == 0.0 ? 15 : 1; digits <= 17;
         digits++) {
        (void)snprintf(text, sizeof text, "%.*g", digits, value);
        if (strtod(text, NULL) - value == 0.0) {
            break;
        }
    }
    next(s, key);
    bw_text_add(s->out, text);
}

/* ---- what the examples left out ---- */

static void gap(const schema *s, const char *where, const char *what)
{
    bw_diags_error(s->d, "schema.gap", NULL,
                   "add it to the examples in src/input/examples",
                   "%s: %s is read, and no example has it", where, what);
}

/* ---- values ---- */

static const char no_controls[] = "[\\u0000-\\u001f\\u007f-\\u009f]";
enum { longest_name = 60 };

static void text_value(schema *s, bool is_name, const char *pattern)
{
    bw_text_add(s->out, "{ \"type\": \"string\", \"pattern\": ");
    add_string(s->out, pattern != NULL ? pattern : "[^ ]");
    if (is_name) {
        bw_text_print(s->out, ", \"maxLength\": %d", longest_name);
    }
    bw_text_add(s->out, ", \"not\": { \"pattern\": ");
    add_string(s->out, no_controls);
    bw_text_add(s->out, " } }");
}

static void number_value(schema *s, const bwi_shape *shape)
{
    const bwi_range *range = &shape->range;
    begin(s, "{");
    next(s, "type");
    add_string(s->out, (shape->kinds & BWI_IS_WHOLE) != 0 ? "integer" : "number");
    if (isfinite(range->low)) {
        add_number(s, range->above ? "exclusiveMinimum" : "minimum", range->low);
    }
    if (isfinite(range->high)) {
        add_number(s, "maximum", range->high);
    }
    end(s, "}");
}

/* Of its definition: a reference is a URI, in which no blank may stand. */
static void add_name(bw_text *out, bw_quantity quantity)
{
    for (const char *c = bw_quantity_name(quantity); *c != '\0'; c++) {
        bw_text_add_bytes(out, *c == ' ' ? "_" : c, 1);
    }
}

static void reference(schema *s, bw_quantity quantity)
{
    bw_text_add(s->out, "{ \"$ref\": \"#/$defs/");
    add_name(s->out, quantity);
    bw_text_add(s->out, "\" }");
    s->used[quantity] = true;
}

static void words_value(schema *s, const bwi_set *words)
{
    begin(s, "{");
    add_texts(s, "enum", words);
    end(s, "}");
}

static void shape_value(schema *s, const bwi_shape *shape, const char *where);

static void list_value(schema *s, const bwi_shape *shape, const char *where)
{
    begin(s, "{");
    next(s, "type");
    add_string(s->out, "array");
    add_number(s, "minItems", (double)shape->least);
    if (!shape->any_length) {
        add_number(s, "maxItems", (double)shape->most);
    }
    next(s, "items");
    if (shape->item == NULL) {
        gap(s, where, "an item of a list");
        bw_text_add(s->out, "false");
    } else {
        shape_value(s, shape->item, where);
    }
    end(s, "}");
}

/* ---- objects ---- */

static const bwi_shape *member_find(const bwi_variant *variant, const char *key)
{
    const bwi_shape *member = variant->members;
    while (member != NULL && strcmp(member->key, key) != 0) {
        member = member->next;
    }
    return member;
}

/* Whether it was said of every object. */
static bool of_all(const bwi_variant *variant, const bwi_set *said)
{
    return variant->objects.count > 0 && said->count == variant->objects.count;
}

static bool is_discriminator(const bwi_variant *variant, const char *key)
{
    return variant->by != NULL && strcmp(variant->by, key) == 0;
}

/* A key that is read in another variant and not in this one has no place in this one. */
static bool is_foreign(const bwi_shape *shape, const bwi_variant *variant,
                       const char *key)
{
    bool elsewhere = false;
    for (const bwi_variant *v = shape->variants; v != NULL; v = v->next) {
        elsewhere = elsewhere || (v != variant && member_find(v, key) != NULL);
    }
    return elsewhere && member_find(variant, key) == NULL;
}

/* The key that tells variants apart stands there with its word, or does not. */
static void property(schema *s, const bwi_shape *shape, const bwi_variant *variant,
                     const char *key)
{
    const bwi_shape *member = member_find(variant, key);
    const bool tells = is_discriminator(variant, key);
    if ((tells && !variant->there) || (!tells && is_foreign(shape, variant, key))) {
        return;
    }
    next(s, key);
    if (tells && variant->word != NULL) {
        bw_text_add(s->out, "{ \"const\": ");
        add_string(s->out, variant->word);
        bw_text_add(s->out, " }");
    } else if (member == NULL) {
        gap(s, key, "a value");
        bw_text_add(s->out, "false");
    } else {
        shape_value(s, member, key);
    }
}

static void properties(schema *s, const bwi_shape *shape, const bwi_variant *variant)
{
    next(s, "properties");
    begin(s, "{");
    for (size_t i = 0; i < variant->keys.count; i++) {
        property(s, shape, variant, variant->keys.items[i]);
    }
    end(s, "}");
}

static void required(schema *s, const bwi_variant *variant)
{
    const char *before = "[";
    next(s, "required");
    for (size_t i = 0; i < variant->keys.count; i++) {
        const char *key = variant->keys.items[i];
        const bwi_shape *member = member_find(variant, key);
        if ((is_discriminator(variant, key) && variant->there) ||
            (member != NULL && of_all(variant, &member->needed))) {
            bw_text_add(s->out, before);
            add_string(s->out, key);
            before = ", ";
        }
    }
    bw_text_add(s->out, *before == '[' ? "[]" : "]");
}

static void choices(schema *s, const bwi_variant *variant)
{
    bool any = false;
    for (const bwi_choice *c = variant->choices; c != NULL; c = c->next) {
        if (!of_all(variant, &c->asked)) {
            continue;
        }
        if (!any) {
            next(s, "allOf");
            begin(s, "[");
            any = true;
        }
        next(s, NULL);
        bw_text_add(s->out, c->exactly ? "{ \"oneOf\": [" : "{ \"anyOf\": [");
        for (size_t i = 0; i < c->keys.count; i++) {
            bw_text_add(s->out, i == 0 ? "{ \"required\": [" : ", { \"required\": [");
            add_string(s->out, c->keys.items[i]);
            bw_text_add(s->out, "] }");
        }
        bw_text_add(s->out, "] }");
    }
    if (any) {
        end(s, "]");
    }
}

static void variant_value(schema *s, const bwi_shape *shape, const bwi_variant *variant)
{
    begin(s, "{");
    next(s, "type");
    add_string(s->out, "object");
    properties(s, shape, variant);
    required(s, variant);
    choices(s, variant);
    next(s, "additionalProperties");
    bw_text_add(s->out, "false");
    end(s, "}");
}

/* Every word that may stand under the key has a variant. */
static void words_check(const schema *s, const bwi_shape *shape)
{
    const bwi_variant *first = shape->variants;
    const bwi_shape *key = first->by == NULL ? NULL : member_find(first, first->by);
    for (size_t i = 0; key != NULL && i < key->words.count; i++) {
        const bwi_variant *v = first;
        while (v != NULL &&
               (v->word == NULL || strcmp(v->word, key->words.items[i]) != 0)) {
            v = v->next;
        }
        if (v == NULL && (key->kinds & BWI_IS_WORD) != 0) {
            gap(s, first->by, key->words.items[i]);
        }
    }
}

/* ---- what may stand at a place ---- */

static size_t count_kinds(const bwi_shape *shape, unsigned kinds)
{
    size_t n = 0;
    for (const bwi_variant *v = shape->variants; v != NULL; v = v->next) {
        n += (kinds & BWI_IS_OBJECT) != 0 ? 1 : 0;
    }
    for (int q = 0; q < BW_QUANTITY_COUNT; q++) {
        n += (kinds & BWI_IS_MEASURE) != 0 && shape->measures[q] ? 1 : 0;
    }
    static const unsigned singles[] = {BWI_IS_LIST, BWI_IS_TEXT, BWI_IS_NAME,
                                       BWI_IS_FLAG, BWI_IS_WORD, BWI_IS_NUMBER,
                                       BWI_IS_NULL, BWI_IS_INDEX};
    for (size_t i = 0; i < BWI_COUNT(singles); i++) {
        n += (kinds & singles[i]) != 0 ? 1 : 0;
    }
    return n;
}

static void alternative(schema *s, bool one_of_several)
{
    if (one_of_several) {
        next(s, NULL);
    }
}

static void compound_values(schema *s, const bwi_shape *shape, const char *where,
                            unsigned kinds, bool several)
{
    for (const bwi_variant *v = shape->variants;
         (kinds & BWI_IS_OBJECT) != 0 && v != NULL; v = v->next) {
        alternative(s, several);
        variant_value(s, shape, v);
    }
    if ((kinds & BWI_IS_LIST) != 0) {
        alternative(s, several);
        list_value(s, shape, where);
    }
    for (int q = 0; (kinds & BWI_IS_MEASURE) != 0 && q < BW_QUANTITY_COUNT; q++) {
        if (shape->measures[q]) {
            alternative(s, several);
            reference(s, (bw_quantity)q);
        }
    }
}

static void simple_values(schema *s, const bwi_shape *shape, unsigned kinds, bool several)
{
    if ((kinds & (BWI_IS_TEXT | BWI_IS_NAME)) != 0) {
        alternative(s, several);
        text_value(s, (kinds & BWI_IS_NAME) != 0, shape->pattern);
    }
    if ((kinds & BWI_IS_WORD) != 0) {
        alternative(s, several);
        words_value(s, &shape->words);
    }
    if ((kinds & BWI_IS_NUMBER) != 0) {
        alternative(s, several);
        number_value(s, shape);
    }
    if ((kinds & BWI_IS_INDEX) != 0) {
        alternative(s, several);
        bw_text_add(s->out, "{ \"type\": \"integer\", \"minimum\": 0 }");
    }
    if ((kinds & BWI_IS_FLAG) != 0) {
        alternative(s, several);
        bw_text_add(s->out, "{ \"type\": \"boolean\" }");
    }
    if ((kinds & BWI_IS_NULL) != 0) {
        alternative(s, several);
        bw_text_add(s->out, "{ \"type\": \"null\" }");
    }
}

static void cell_value(schema *s, const bwi_shape *shape);

static void shape_value(schema *s, const bwi_shape *shape, const char *where)
{
    unsigned kinds = shape->kinds;
    if (s->table) {
        cell_value(s, shape);
        return;
    }
    if (shape->is_one) {
        bw_text_add(s->out, "{ \"const\": 1 }");
        return;
    }
    kinds &= (kinds & BWI_IS_TEXT) != 0 ? ~(unsigned)BWI_IS_NAME : ~0U;
    kinds &= (kinds & BWI_IS_INDEX) != 0 ? ~(unsigned)BWI_IS_NUMBER : ~0U;
    if ((kinds & BWI_IS_OBJECT) != 0) {
        words_check(s, shape);
    }
    const size_t n = count_kinds(shape, kinds);
    if (n == 0) {
        gap(s, where, "a value");
        bw_text_add(s->out, "false");
    }
    if (n > 1) {
        begin(s, "{");
        next(s, "anyOf");
        begin(s, "[");
    }
    compound_values(s, shape, where, kinds, n > 1);
    simple_values(s, shape, kinds, n > 1);
    if (n > 1) {
        end(s, "]");
        end(s, "}");
    }
}

/* ---- cells of a table ---- */

/* A word however it is capitalised, with "_" or "-" for a blank. */
static void word_pattern(bw_text *out, const char *word)
{
    for (const char *c = word; *c != '\0'; c++) {
        if (*c == ' ') {
            bw_text_add(out, "[ _-]");
        } else {
            bw_text_print(out, "[%c%c]", toupper((unsigned char)*c), *c);
        }
    }
}

static void cell_words(schema *s, const bwi_set *words)
{
    bw_text pattern = bw_text_new(s->out->arena);
    bw_text_add(&pattern, "^(?:");
    for (size_t i = 0; i < words->count; i++) {
        bw_text_add(&pattern, i == 0 ? "" : "|");
        word_pattern(&pattern, words->items[i]);
    }
    bw_text_add(&pattern, ")$");
    s->out->failed = s->out->failed || pattern.failed;
    text_value(s, false, pattern.failed ? NULL : pattern.data);
}

/* What is a number or a yes in a case is written as a text here. */
static void cell_alternatives(schema *s, const bwi_shape *shape)
{
    static const char *const yes_no[] = {"yes", "no"};
    const bwi_set flag = {(const void *[]){yes_no[0], yes_no[1]}, 2, 2};
    const unsigned kinds = shape->kinds & ~(unsigned)(BWI_IS_NUMBER | BWI_IS_FLAG);
    compound_values(s, shape, shape->key, kinds & BWI_IS_MEASURE, true);
    if ((kinds & BWI_IS_WORD) != 0) {
        next(s, NULL);
        cell_words(s, &shape->words);
    }
    simple_values(s, shape, kinds & (BWI_IS_TEXT | BWI_IS_NAME), true);
    if ((shape->kinds & BWI_IS_NUMBER) != 0) {
        next(s, NULL);
        reference(s, BW_NUMBER);
    }
    if ((shape->kinds & BWI_IS_FLAG) != 0) {
        next(s, NULL);
        cell_words(s, &flag);
    }
}

static void cell_value(schema *s, const bwi_shape *shape)
{
    if (shape->kinds == 0) { /* a note: nobody looks at it */
        bw_text_add(s->out, "{ \"type\": \"string\" }");
        return;
    }
    begin(s, "{");
    next(s, "anyOf");
    begin(s, "[");
    cell_alternatives(s, shape);
    if (shape->needed.count == 0) {
        next(s, NULL);
        bw_text_add(s->out, "{ \"type\": \"string\", \"pattern\": \"^[ \\\\t]*$\" }");
    }
    end(s, "]");
    end(s, "}");
}

/* ---- the whole ---- */

static void definition(schema *s, bw_quantity quantity)
{
    bw_text pattern = bw_text_new(s->out->arena);
    bw_text about = bw_text_new(s->out->arena);
    bw_quantity_pattern(quantity, &pattern);
    bw_text_print(&about, "%s, such as %s", bw_quantity_name(quantity),
                  bw_quantity_example(quantity));
    s->out->failed = s->out->failed || pattern.failed || about.failed;
    if (s->out->failed) {
        return;
    }
    next(s, NULL);
    bw_text_add(s->out, "\"");
    add_name(s->out, quantity);
    bw_text_add(s->out, "\": ");
    begin(s, "{");
    next(s, "description");
    add_string(s->out, about.data);
    next(s, "type");
    add_string(s->out, "string");
    next(s, "pattern");
    add_string(s->out, pattern.data);
    next(s, "not");
    bw_text_add(s->out,
                "{ \"pattern\": \"[\\\\n\\\\r]\" }"); /* "$" of some lets one pass */
    end(s, "}");
}

static void definitions(schema *s)
{
    next(s, "$defs");
    begin(s, "{");
    for (int q = 0; q < BW_QUANTITY_COUNT; q++) {
        if (s->used[q]) {
            definition(s, (bw_quantity)q);
        }
    }
    end(s, "}");
}

static bw_status finish(const schema *s)
{
    bw_text_add(s->out, "\n");
    if (s->out->failed) {
        return BW_E_MEMORY;
    }
    return s->d->errors > 0 ? BW_E_INTERNAL : BW_OK;
}

static void head(schema *s, const char *title)
{
    begin(s, "{");
    next(s, "$schema");
    add_string(s->out, "https://json-schema.org/draft/2020-12/schema");
    next(s, "title");
    add_string(s->out, title);
    next(s, "$comment");
    bw_text_add(s->out, "\"bolewright ");
    bw_text_print(s->out, "%s\"", bw_version);
}

bw_status bwi_schema_write(const bwi_shape *shape, const char *title, bw_text *out,
                           bw_diags *d)
{
    schema s = {.out = out, .d = d};
    head(&s, title);
    next(&s, "allOf");
    begin(&s, "[");
    next(&s, NULL);
    shape_value(&s, shape, "the file");
    end(&s, "]");
    definitions(&s);
    end(&s, "}");
    return finish(&s);
}

bw_status bwi_schema_write_table(const bwi_shape *line, const char *title, bw_text *out,
                                 bw_diags *d)
{
    schema s = {.out = out, .d = d, .table = true};
    bwi_variant *variant = line->variants;
    if (variant == NULL) {
        return BW_E_INTERNAL;
    }
    head(&s, title);
    next(&s, "type");
    add_string(out, "array");
    next(&s, "items");
    variant_value(&s, line, variant);
    definitions(&s);
    end(&s, "}");
    return finish(&s);
}
