/* A quantity as people write it: the first byte says which, the rest is the text. */
#include "target.h"

#include <math.h>

/* What is printed can be read again, and is nearly what was printed. Beyond 1e300 the
 * count of a small unit may be no finite number any more; that is said in its place. */
static const double most_printed = 1e300;

static void check_printed(bw_arena *arena, bw_quantity quantity, double value,
                          bw_units units)
{
    const char *printed = bw_quantity_print(arena, quantity, value, units);
    double again = (double)NAN;
    INSIST(printed != NULL && printed[0] != '\0');
    const bw_parse parse = bw_quantity_parse(quantity, printed, &again);
    INSIST(parse == BW_PARSE_OK || parse == BW_PARSE_RANGE);
    INSIST(parse == BW_PARSE_RANGE || isfinite(again));
    const double step = quantity == BW_LENGTH ? 0.006 : 0.0; /* [m] of what is printed */
    INSIST(parse == BW_PARSE_RANGE ||
           fabs(again - value) <= 1e-3 * fabs(value) + step + 1e-300);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const double untouched = 2.385;
    if (size == 0) {
        return 0;
    }
    bw_arena *arena = fuzz_arena();
    const bw_quantity quantity = (bw_quantity)(data[0] % BW_QUANTITY_COUNT);
    const char *text = fuzz_text(arena, data + 1, size - 1);
    double value = untouched;
    const bw_parse parse = bw_quantity_parse(quantity, text, &value);
    if (parse == BW_PARSE_OK) {
        INSIST(isfinite(value));
        if (fabs(value) < most_printed) {
            check_printed(arena, quantity, value, BW_IMPERIAL);
            check_printed(arena, quantity, value, BW_METRIC);
        }
    } else {
        const char *hint = NULL;
        const char *words = bw_parse_explain(arena, parse, quantity, text, &hint);
        INSIST(value == untouched);
        INSIST(words != NULL && words[0] != '\0');
    }
    bw_arena_free(arena);
    return 0;
}
