/* A value going down step by step. */
#include "ladder.h"

#include <math.h>

static const double exclusion = 1.645; /* standard deviations to the 5 % limit, normal */

void bwi_ladder_record(bwi_ladder *steps, const bwi_factor *step, bw_quantity quantity)
{
    const bw_term term = {step->symbol, step->meaning, step->value,
                          quantity,     step->mark,    step->source};
    bw_working_add(steps->working, term);
}

bwi_ladder bwi_ladder_start(bw_working *working, const char *symbol, const char *meaning,
                            const bw_sourced *clear)
{
    bwi_ladder steps = {working, clear->value};
    const bwi_factor first = {symbol, meaning, clear->value, clear->mark, clear->source};
    bwi_ladder_record(&steps, &first, BW_STRESS);
    return steps;
}

void bwi_ladder_multiply(bwi_ladder *steps, const bwi_factor *step)
{
    steps->value *= step->value;
    bwi_ladder_record(steps, step, BW_NUMBER);
}

void bwi_ladder_divide(bwi_ladder *steps, const bwi_factor *step)
{
    steps->value /= step->value;
    bwi_ladder_record(steps, step, BW_NUMBER);
}

void bwi_ladder_reach(bwi_ladder *steps, const char *symbol, const char *meaning)
{
    const bwi_factor step = {symbol, meaning, steps->value, BW_MARK_NONE, NULL};
    bwi_ladder_record(steps, &step, BW_STRESS);
}

void bwi_ladder_exclude(bwi_ladder *steps, const bwi_factor *scatter)
{
    bwi_ladder_record(steps, scatter, BW_NUMBER);
    const bwi_factor step = {
        "k_5", "5 % exclusion, 1 - 1.645 COV", 1.0 - exclusion * scatter->value,
        BW_MARK_COMPUTED,
        "ASTM D245: mean - 1.645 standard deviations, normal distribution"};
    bwi_ladder_multiply(steps, &step);
}

void bwi_ladder_end_with_lower(bwi_ladder *steps, const bw_sourced *printed,
                               const char *symbol, const char *meaning)
{
    if (printed->value > 0.0) {
        bwi_ladder_reach(steps, "route", "by this route");
        const bwi_factor step = {"printed", "pole value; the lower of the two counts",
                                 printed->value, printed->mark, printed->source};
        bwi_ladder_record(steps, &step, BW_STRESS);
        steps->value = fmin(steps->value, printed->value);
    }
    bwi_ladder_reach(steps, symbol, meaning);
}
