/* Reference values for an ungraded round log in wet use, allowable stress.
 *
 *   F_b = MOR  (1 - 1.645 COV) C_fs C_g / n  x C_M x K_p
 *   F_v = tau  (1 - 1.645 COV)      C_g / n  x C_M x K_p
 *   F_c = f_c  (1 - 1.645 COV)      C_g / n  x C_M x K_p
 *   F_cp = (1.589 f_pl + 37.859 psi)    / n  x C_M x K_p     tested f_pl
 *   F_cp = f_pl                         / n  x C_M           f_pl that was not tested
 *   E = green mean,   E_min = 1.03 E (1 - 1.645 COV) / 1.66
 *
 * and each of them at most the printed pole value where the species has one.
 * Sources: ASTM D245 (exclusion, divisors: Table 8 recalled), ASTM D2899-03 (C_fs, C_g,
 * read), Wood Handbook Table 5-6 (COV, read), NDS App. D (E_min, recalled).
 *
 * K_p, why: the route alone is not cautious. Against the nine single species of the pole
 * table of 2001/2005 it gives up to 1.06 in bending, 1.31 in compression, 1.49 in shear
 * and 1.18 in bearing. Round logs of known species tested in full size were also weaker
 * in compression than the small-clear route says, and a log checks as it dries, which is
 * what shear works on. So every species, tabulated or not, hardwood too, is brought down
 * to the lowest table-to-route ratio of those nine; the printed value may then lower it
 * further.
 *
 * Not used, because each would raise a value: the 0.94 of D245 on E, density factors,
 * load sharing, drying in use, the larger values of later pole tables. */
#include <math.h>

#include "ladder.h"

#define SCATTER_SOURCE  "Wood Handbook (FPL), Table 5-6"
#define DIVISOR_SOURCE  "ASTM D245, Table 8, recalled"
#define DIVISOR_MEANING "divides: duration of load and safety"
#define TABLE_SOURCE                                                                     \
    "chosen: lowest of nine species, NDS 2001/2005 Table 6B (recalled) over this route"
#define TABLE_MEANING "brings the route down to the pole table"
#define WET_SOURCE    "ASTM D2899-03, 13.1: green values, for continuously wet wood"

const bwi_factor bwi_wet_use = {"C_M", "wet use: the values are of green wood", 1.0,
                                BW_MARK_READ, WET_SOURCE};
const bwi_factor bwi_modulus_scatter = {"COV", "coefficient of variation, for k_5", 0.22,
                                        BW_MARK_READ, SCATTER_SOURCE};

const bwi_route bwi_bending_route = {
    "F_b",
    "reference bending stress",
    "MOR",
    "modulus of rupture, mean, green clear wood",
    {"COV", "coefficient of variation, for k_5", 0.16, BW_MARK_READ, SCATTER_SOURCE},
    {{"C_fs", "form and size of a round log", 0.97, BW_MARK_READ, "ASTM D2899-03, C_fs"},
     {"C_g", "knots and grain", 0.75, BW_MARK_READ, "ASTM D2899-03, C_g in bending"}},
    {{"n", DIVISOR_MEANING, 2.1, BW_MARK_MEMORY, DIVISOR_SOURCE},
     {"n", DIVISOR_MEANING, 2.3, BW_MARK_MEMORY, DIVISOR_SOURCE}},
    0.941};

const bwi_route bwi_shear_route = {
    "F_v",
    "reference shear stress",
    "tau",
    "shear strength along the grain, mean, green clear wood",
    {"COV", "coefficient of variation, for k_5", 0.14, BW_MARK_READ, SCATTER_SOURCE},
    {{"C_g", "drying checks", 0.50, BW_MARK_READ, "ASTM D2899-03, C_g in shear"},
     {NULL, NULL, 1.0, BW_MARK_NONE, NULL}},
    {{"n", DIVISOR_MEANING, 2.1, BW_MARK_MEMORY, DIVISOR_SOURCE},
     {"n", DIVISOR_MEANING, 2.3, BW_MARK_MEMORY, DIVISOR_SOURCE}},
    0.667};

const bwi_route bwi_compression_route = {
    "F_c",
    "reference compression stress along the grain",
    "f_c",
    "crushing strength, mean, green clear wood",
    {"COV", "coefficient of variation, for k_5", 0.18, BW_MARK_READ, SCATTER_SOURCE},
    {{"C_g", "knots and grain", 0.93, BW_MARK_READ, "ASTM D2899-03, C_g in compression"},
     {NULL, NULL, 1.0, BW_MARK_NONE, NULL}},
    {{"n", DIVISOR_MEANING, 1.9, BW_MARK_MEMORY, DIVISOR_SOURCE},
     {"n", DIVISOR_MEANING, 2.1, BW_MARK_MEMORY, DIVISOR_SOURCE}},
    0.765};

const double bwi_bearing_to_table = 0.847; /* K_p */
const bwi_factor bwi_bearing_divisor = {
    "n", "divides: from the mean to an allowable stress", 1.67, BW_MARK_READ,
    "ASTM D2899-03, C_cp = 1/1.67"};

/* ---- the four strengths and two moduli ---- */

bwi_factor bwi_route_to_table(double to_table)
{
    return (bwi_factor){"K_p", TABLE_MEANING, to_table, BW_MARK_JUDGEMENT, TABLE_SOURCE};
}

static double strength(bw_working *working, const bwi_route *way,
                       const bw_species *species, const bw_sourced *clear,
                       const bw_sourced *printed)
{
    bwi_ladder steps = bwi_ladder_round_log(working, way, species, clear);
    bwi_ladder_divide(&steps, &way->divisor[species->group == BW_HARDWOOD ? 1 : 0]);
    bwi_ladder_multiply(&steps, &bwi_wet_use);
    const bwi_factor to_table = bwi_route_to_table(way->to_table);
    bwi_ladder_multiply(&steps, &to_table);
    bwi_ladder_end_with_lower(&steps, printed, way->symbol, way->meaning);
    return steps.value;
}

/* Stress at 0.04 in indentation from the proportional limit: f = a f_pl + b. */
static void allow_indentation(bwi_ladder *steps)
{
    static const char source[] =
        "Wood Handbook and ASTM D2555, 0.04 in relation, recalled";
    const bwi_factor slope = {"a", "multiplies f_pl", 1.589, BW_MARK_MEMORY, source};
    const bwi_factor shift = {"b", "added to a f_pl",
                              37.859 * bw_unit_size(BW_STRESS, "psi"), BW_MARK_MEMORY,
                              source};
    bwi_ladder_multiply(steps, &slope);
    bwi_ladder_record(steps, &shift, BW_STRESS);
    steps->value += shift.value;
    bwi_ladder_reach(steps, "f_04", "mean stress at 0.04 in indentation, a f_pl + b");
}

/* A limit that was estimated, or is the lowest of a group, gets no allowance above it:
 * single species lie at 0.6 to 0.7 of such an estimate. */
bool bwi_bearing_was_tested(const bw_sourced *limit)
{
    return limit->mark == BW_MARK_READ || limit->mark == BW_MARK_MEMORY;
}

bwi_ladder bwi_bearing_mean(bw_working *working, const bw_species *species)
{
    bwi_ladder steps = bwi_ladder_start(
        working, "f_pl", "across the grain at the proportional limit, mean",
        &species->bearing);
    if (bwi_bearing_was_tested(&species->bearing)) {
        allow_indentation(&steps);
    }
    return steps;
}

static double bearing(bw_working *working, const bw_species *species)
{
    const bwi_factor to_table = bwi_route_to_table(bwi_bearing_to_table);
    bwi_ladder steps = bwi_bearing_mean(working, species);
    bwi_ladder_divide(&steps, &bwi_bearing_divisor);
    bwi_ladder_multiply(&steps, &bwi_wet_use);
    if (bwi_bearing_was_tested(&species->bearing)) {
        bwi_ladder_multiply(&steps, &to_table);
    }
    bwi_ladder_end_with_lower(&steps, &species->pole.bearing, "F_cp",
                              "reference bearing stress across the grain");
    return steps.value;
}

double bwi_modulus(bw_working *working, const bw_species *species)
{
    bwi_ladder steps =
        bwi_ladder_start(working, "MOE", "modulus of elasticity in bending, mean, green",
                         &species->modulus);
    bwi_ladder_multiply(&steps, &bwi_wet_use);
    bwi_ladder_end_with_lower(&steps, &species->pole.modulus, "E",
                              "modulus of elasticity");
    return steps.value;
}

/* From the printed modulus too, where that is the lower one. */
static double modulus_min(bw_working *working, const bw_species *species, double e)
{
    static const bwi_factor shear_free = {"k_s", "adjustment to pure bending", 1.03,
                                          BW_MARK_MEMORY, "NDS, Appendix D, recalled"};
    static const bwi_factor divisor = {"n", "divides: safety against buckling", 1.66,
                                       BW_MARK_MEMORY, "NDS, Appendix D, recalled"};
    const bw_sourced mean = {e, BW_MARK_NONE, NULL};
    bwi_ladder steps = bwi_ladder_start(
        working, "E", "modulus of elasticity, from its own ladder", &mean);
    bwi_ladder_multiply(&steps, &shear_free);
    bwi_ladder_exclude(&steps, &bwi_modulus_scatter);
    bwi_ladder_divide(&steps, &divisor);
    bwi_ladder_end_with_lower(&steps, &species->pole.modulus_min, "E_min",
                              "modulus for stability");
    return steps.value;
}

static bool is_known(const bw_sourced *value)
{
    return isfinite(value->value) && value->value > 0.0;
}

bool bwi_species_is_complete(const bw_species *species)
{
    return is_known(&species->rupture) && is_known(&species->shear) &&
           is_known(&species->compression) && is_known(&species->bearing) &&
           is_known(&species->modulus);
}

bw_status bw_us_reference(bw_arena *arena, const bw_species *species, bw_reference *out)
{
    if (!bwi_species_is_complete(species)) {
        return BW_E_INPUT;
    }
    out->species = species;
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        out->ladder[i] = bw_working_new(arena);
    }
    double *const value = out->value;
    bw_working *const to = out->ladder;
    const bw_pole_values *const pole = &species->pole; /* zeros where there is none */
    value[BW_BENDING_STRENGTH] = strength(&to[BW_BENDING_STRENGTH], &bwi_bending_route,
                                          species, &species->rupture, &pole->bending);
    value[BW_SHEAR_STRENGTH] = strength(&to[BW_SHEAR_STRENGTH], &bwi_shear_route, species,
                                        &species->shear, &pole->shear);
    value[BW_COMPRESSION] = strength(&to[BW_COMPRESSION], &bwi_compression_route, species,
                                     &species->compression, &pole->compression);
    value[BW_BEARING] = bearing(&to[BW_BEARING], species);
    value[BW_MODULUS] = bwi_modulus(&to[BW_MODULUS], species);
    value[BW_MODULUS_MIN] = modulus_min(&to[BW_MODULUS_MIN], species, value[BW_MODULUS]);
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        if (to[i].failed) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}
