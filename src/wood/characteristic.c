/* Characteristic values of a round log for limit-state design (EN 1990, EN 1995-1-1).
 *
 *   f_m,k    = MOR  (1 - 1.645 COV) C_fs C_g       x C_M x K_p
 *   f_v,k    = tau  (1 - 1.645 COV)      C_g / k_cr x C_M x K_p
 *   f_c,0,k  = f_c  (1 - 1.645 COV)      C_g       x C_M x K_p
 *   f_c,90,k = f_04 (1 - 1.645 COV)                x C_M x K_p   (f_pl, no K_p: not
 * tested) E        = green mean,   E_0,05 = E (1 - 1.645 COV)
 *
 * and each strength at most the printed pole value with its divisor taken back. The steps
 * and their reasons are those of reference.c, without the divisor for duration and
 * safety: k_mod, gamma_M and the factors on the actions stand for it. So f_m,k = n F_b
 * and f_c,0,k = n F_c exactly, and both bases start from the same wood.
 *
 * C_g = 0.50 in shear is for drying checks, and so is k_cr = 0.67 of EN 1995-1-1, 6.1.7,
 * which the shear check puts on the width: C_g / k_cr makes checks count once, and
 * k_cr f_v,k = n F_v. Across the grain the ASTM divisor 1.67 goes from a mean to an
 * allowable stress; here the 5 % limit with the published COV 0.28 takes its place.
 *
 * Cautious, and kept so: values are of green wood, so k_mod of service class 3 counts wet
 * wood a second time (0.81 of class 1, for most durations); EN 384 would take f_c,90,k =
 * 0.007 rho_k, about twice as much, from dry wood; E_0,05 is 0.638 E against 0.67 E
 * there. A printed E_min is not used: taken back it is never below 0.638 E. */
#include <math.h>

#include "ladder.h"

const bwi_factor bwi_cracks = {
    "k_cr", "divides: the shear check takes drying checks on the width by it", 0.67,
    BW_MARK_READ, "EN 1995-1-1:2004+A1, 6.1.7"};
static const bwi_factor bearing_scatter = {"COV", "coefficient of variation, for k_5",
                                           0.28, BW_MARK_READ,
                                           "Wood Handbook (FPL), Table 5-6"};

typedef struct {
    const char *symbol, *meaning;
} name;

/* The printed pole value without the factor that made it an allowable stress, if that is
 * the lower value. */
static void end_with_lower(bwi_ladder *steps, const bw_sourced *printed,
                           const bwi_factor *back, const name *end)
{
    if (printed->value > 0.0) {
        bwi_ladder_reach(steps, "route", "by this route");
        const bwi_factor pole = {"printed", "allowable stress of poles", printed->value,
                                 printed->mark, printed->source};
        const bwi_factor raised = {"n printed", "pole value; the lower of the two counts",
                                   printed->value * back->value, BW_MARK_COMPUTED,
                                   printed->source};
        bwi_ladder_record(steps, &pole, BW_STRESS);
        bwi_ladder_record(steps, back, BW_NUMBER);
        bwi_ladder_record(steps, &raised, BW_STRESS);
        steps->value = fmin(steps->value, raised.value);
    }
    bwi_ladder_reach(steps, end->symbol, end->meaning);
}

static double strength(bw_working *working, const bwi_route *way,
                       const bw_species *species, const bw_sourced *clear,
                       const bw_sourced *printed, const name *end)
{
    const bool in_shear = way == &bwi_shear_route;
    bwi_ladder steps = bwi_ladder_round_log(working, way, species, clear);
    if (in_shear) {
        bwi_ladder_divide(&steps, &bwi_cracks);
    }
    bwi_ladder_multiply(&steps, &bwi_wet_use);
    const bwi_factor to_table = bwi_route_to_table(way->to_table);
    bwi_ladder_multiply(&steps, &to_table);
    bwi_factor back = way->divisor[species->group == BW_HARDWOOD ? 1 : 0];
    back.meaning = in_shear ? "multiplies it: duration and safety, over k_cr"
                            : "multiplies it: duration and safety taken back";
    back.value = in_shear ? back.value / bwi_cracks.value : back.value;
    end_with_lower(&steps, printed, &back, end);
    return steps.value;
}

static double bearing(bw_working *working, const bw_species *species)
{
    static const name end = {"f_c,90,k", "characteristic compression across the grain"};
    bwi_ladder steps = bwi_bearing_mean(working, species);
    bwi_ladder_exclude(&steps, &bearing_scatter);
    if (working->count == 0) { /* without memory, which the working remembers */
        return (double)NAN;
    }
    const double at_limit = working->items[working->count - 1].value;
    bwi_ladder_multiply(&steps, &bwi_wet_use);
    if (bwi_bearing_was_tested(&species->bearing)) {
        const bwi_factor to_table = bwi_route_to_table(bwi_bearing_to_table);
        bwi_ladder_multiply(&steps, &to_table);
    }
    bwi_factor back = bwi_bearing_divisor;
    back.meaning = "multiplies it: back to the mean, then the 5 % limit";
    back.value *= at_limit;
    end_with_lower(&steps, &species->pole.bearing, &back, &end);
    return steps.value;
}

static double modulus_05(bw_working *working, double mean)
{
    const bw_sourced e = {mean, BW_MARK_NONE, NULL};
    bwi_ladder steps =
        bwi_ladder_start(working, "E", "modulus of elasticity, from its own ladder", &e);
    bwi_ladder_exclude(&steps, &bwi_modulus_scatter);
    bwi_ladder_reach(&steps, "E_0,05", "5 % modulus of elasticity, for stability");
    return steps.value;
}

static void from_species(const bw_species *species, double *value, bw_working *to)
{
    static const name bending = {"f_m,k", "characteristic bending strength"};
    static const name shear = {"f_v,k", "characteristic shear strength"};
    static const name along = {"f_c,0,k", "characteristic compression along the grain"};
    const bw_pole_values *pole = &species->pole; /* zeros where there is none */
    value[BW_BENDING_STRENGTH] =
        strength(&to[BW_BENDING_STRENGTH], &bwi_bending_route, species, &species->rupture,
                 &pole->bending, &bending);
    value[BW_SHEAR_STRENGTH] = strength(&to[BW_SHEAR_STRENGTH], &bwi_shear_route, species,
                                        &species->shear, &pole->shear, &shear);
    value[BW_COMPRESSION] = strength(&to[BW_COMPRESSION], &bwi_compression_route, species,
                                     &species->compression, &pole->compression, &along);
    value[BW_BEARING] = bearing(&to[BW_BEARING], species);
    value[BW_MODULUS] = bwi_modulus(&to[BW_MODULUS], species);
    value[BW_MODULUS_MIN] = modulus_05(&to[BW_MODULUS_MIN], value[BW_MODULUS]);
}

static void from_class(const bw_strength_class *strength, double *value, bw_working *to)
{
    const struct {
        bw_property property;
        const char *symbol, *meaning;
        double value;
    } rows[] = {
        {BW_BENDING_STRENGTH, "f_m,k", "characteristic bending strength of the class",
         strength->bending},
        {BW_SHEAR_STRENGTH, "f_v,k", "characteristic shear strength of the class",
         strength->shear},
        {BW_COMPRESSION, "f_c,0,k", "characteristic compression of the class",
         strength->compression},
        {BW_BEARING, "f_c,90,k", "characteristic compression across the grain",
         strength->bearing},
        {BW_MODULUS, "E", "mean modulus of elasticity of the class", strength->modulus},
        {BW_MODULUS_MIN, "E_0,05", "5 % modulus of elasticity of the class",
         strength->modulus_05},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const bw_property property = rows[i].property;
        value[property] = rows[i].value;
        bw_working_add(&to[property],
                       (bw_term){rows[i].symbol, rows[i].meaning, rows[i].value,
                                 BW_STRESS, BW_MARK_READ, strength->source});
    }
}

bw_status bw_characteristic_reference(bw_arena *arena, const bw_species *species,
                                      const bw_strength_class *strength,
                                      bw_reference *out)
{
    if (strength == NULL && !bwi_species_is_complete(species)) {
        return BW_E_INPUT;
    }
    out->species = species;
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        out->ladder[i] = bw_working_new(arena);
    }
    if (strength != NULL) {
        from_class(strength, out->value, out->ladder);
    } else {
        from_species(species, out->value, out->ladder);
    }
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        if (out->ladder[i].failed) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}
