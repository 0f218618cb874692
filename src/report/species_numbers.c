/* species_numbers.c - every number of a species, in the order in which it is printed. */
#include "internal.h"

static void visit_pole(const bw_pole_values *pole, bw_species_visit visit, void *context)
{
    visit(context, "pole: bending", BW_STRESS, &pole->bending);
    visit(context, "pole: shear", BW_STRESS, &pole->shear);
    visit(context, "pole: across the grain", BW_STRESS, &pole->bearing);
    visit(context, "pole: compression", BW_STRESS, &pole->compression);
    visit(context, "pole: modulus of elasticity", BW_STRESS, &pole->modulus);
    visit(context, "pole: modulus for stability", BW_STRESS, &pole->modulus_min);
}

static void visit_coefficient(const bw_taper *taper, const char *label, double value,
                              bw_species_visit visit, void *context)
{
    const bw_sourced number = {value, taper->mark, taper->source};
    if (value != 0.0) {
        visit(context, label, BW_NUMBER, &number);
    }
}

static void visit_taper(const bw_taper *taper, bw_species_visit visit, void *context)
{
    const struct {
        const char *label;
        double value;
    } rows[] = {
        {"taper: volume of wood, model", (double)taper->wood.model},
        {"taper: volume of wood, a", taper->wood.a},
        {"taper: volume of wood, a1", taper->wood.a1},
        {"taper: volume of wood, b", taper->wood.b},
        {"taper: volume of wood, b1", taper->wood.b1},
        {"taper: volume of wood, c", taper->wood.c},
        {"taper: volume of wood, c1", taper->wood.c1},
        {"taper: volume of bark, model", (double)taper->bark.model},
        {"taper: volume of bark, a", taper->bark.a},
        {"taper: volume of bark, a1", taper->bark.a1},
        {"taper: volume of bark, b", taper->bark.b},
        {"taper: volume of bark, b1", taper->bark.b1},
        {"taper: volume of bark, c", taper->bark.c},
        {"taper: volume of bark, c1", taper->bark.c1},
        {"taper: alpha", taper->alpha},
        {"taper: beta", taper->beta},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        visit_coefficient(taper, rows[i].label, rows[i].value, visit, context);
    }
    visit(context, "green wood with bark, by volume of wood", BW_DENSITY,
          &taper->with_bark);
    visit(context, "green wood, peeled", BW_DENSITY, &taper->peeled);
    visit(context, "volume of bark over that of wood", BW_NUMBER, &taper->bark_share);
}

void bw_report_species_numbers(const bw_species *species, bw_species_visit visit,
                               void *context)
{
    visit(context, "specific gravity", BW_NUMBER, &species->specific_gravity);
    visit(context, "modulus of rupture", BW_STRESS, &species->rupture);
    visit(context, "modulus of elasticity", BW_STRESS, &species->modulus);
    visit(context, "crushing along the grain", BW_STRESS, &species->compression);
    visit(context, "across the grain, proportional limit", BW_STRESS, &species->bearing);
    visit(context, "shear along the grain", BW_STRESS, &species->shear);
    visit(context, "density as felled, heaviest", BW_DENSITY, &species->green_density);
    if (species->bark_ratio.value > 0.0) {
        visit(context, "diameter under over that over bark", BW_NUMBER,
              &species->bark_ratio);
    }
    if (species->taper.wood.model > 0) {
        visit_taper(&species->taper, visit, context);
    }
    if (species->has_pole_values) {
        visit_pole(&species->pole, visit, context);
    }
}
