/* A value going down step by step. */
#include "ladder.h"
#include <string.h>

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

/* The ninth-root rule of D2899's size factor starts from 2 in; the European means are of
 * pieces of 20 mm (BS 373), which break at higher stresses: (20/50.8)^(1/9) = 0.902. */
void bwi_ladder_small_pieces(bwi_ladder *steps, const bwi_route *way,
                             const bw_species *species)
{
    const bwi_factor size = {
        "K_d", "from 20 mm test pieces to 2 in ones, (20/50.8)^(1/9)",
        pow(20.0 / 50.8, 1.0 / 9.0), BW_MARK_COMPUTED,
        "size rule of ASTM D2899-03, C_fs, carried to BS 373 pieces"};
    if (way == &bwi_bending_route && strcmp(species->region, "Europe") == 0) {
        bwi_ladder_multiply(steps, &size);
    }
}

bwi_ladder bwi_ladder_round_log(bw_working *working, const bwi_route *way,
                                const bw_species *species, const bw_sourced *clear)
{
    bwi_ladder steps =
        bwi_ladder_start(working, way->clear_symbol, way->clear_meaning, clear);
    bwi_ladder_exclude(&steps, &way->scatter);
    bwi_ladder_small_pieces(&steps, way, species);
    bwi_ladder_multiply(&steps, &way->factors[0]);
    if (way->factors[1].symbol != NULL) {
        bwi_ladder_multiply(&steps, &way->factors[1]);
    }
    return steps;
}
