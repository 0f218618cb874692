/* verdict.c - from a utilisation to the words. */
#include "bolewright/checks.h"

#include <math.h>

const char *bw_verdict_text(bw_verdict verdict)
{
    switch (verdict) {
    case BW_WITHIN:
        return "within limits";
    case BW_OVER:
        return "over";
    case BW_CANNOT_SAY:
        break;
    }
    return "cannot say";
}

bw_verdict bw_verdict_of(double utilisation)
{
    static const double rounding =
        1e-9; /* lets 1 + a few roundings count as 1, no more */

    if (!isfinite(utilisation) || utilisation < 0.0) {
        return BW_CANNOT_SAY; /* below 0 no check may come, so something is wrong */
    }
    return utilisation <= 1.0 + rounding ? BW_WITHIN : BW_OVER;
}
