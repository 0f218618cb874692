/* values.c - quantities and words behind options. */
#include "values.h"

#include <string.h>

void bwi_value_read(const bwi_options *options, const bwi_value *value, bw_units units,
                    double *out, bw_diags *d)
{
    const char *text = options->value[value->option];
    const char *name = bwi_option_name(value->option);
    const char *hint = NULL;
    double found = 0.0;
    if (text == NULL) {
        return;
    }
    const bw_parse fault = bw_quantity_parse(value->quantity, text, &found);
    if (fault != BW_PARSE_OK) {
        const char *why = bw_parse_explain(d->arena, fault, value->quantity, text, &hint);
        bw_diags_error(d, "usage.quantity", NULL, hint, "--%s: %s", name,
                       why != NULL ? why : text);
        return;
    }
    if (!(found >= value->low && found <= value->high)) {
        bw_diags_error(
            d, "usage.range", NULL,
            bw_arena_print(
                d->arena, "allowed: %s to %s",
                bw_quantity_print(d->arena, value->quantity, value->low, units),
                bw_quantity_print(d->arena, value->quantity, value->high, units)),
            "--%s is %s", name, text);
        return;
    }
    *out = found;
}

static const char *listed(bw_arena *arena, const char *const *words, size_t n)
{
    bw_text text = bw_text_new(arena);
    for (size_t i = 0; i < n; i++) {
        bw_text_print(&text, "%s%s", i == 0 ? "" : i + 1 < n ? ", " : " or ", words[i]);
    }
    return bw_text_string(&text);
}

int bwi_word_read(const bwi_options *options, bwi_option option, int otherwise,
                  bw_diags *d)
{
    const char *text = options->value[option];
    const char *const *words = bwi_option_words(option);
    size_t n = 0;
    for (; words[n] != NULL; n++) {
        if (text != NULL && strcmp(text, words[n]) == 0) {
            return (int)n;
        }
    }
    if (text == NULL) {
        return otherwise;
    }
    bw_diags_error(d, "usage.word", NULL, listed(d->arena, words, n), "--%s is %s",
                   bwi_option_name(option), text);
    return -1;
}

bw_units bwi_units_read(const bwi_options *options)
{
    const char *units = options->value[BWI_OPT_UNITS];
    return units != NULL && strcmp(units, "metric") == 0 ? BW_METRIC : BW_IMPERIAL;
}
