/* soil.c - the table of soils: the only place with numbers of the ground.
 *
 * Allowable values: IBC Table 1806.2, READ (all rows). They hold for natural ground; for
 * peat, organic soil and unprepared fill the table gives none.
 *
 * Springs of a buried post, per unit of its length: k(z) = n_h z in gravel and sand, k in
 * clay. Terzaghi, Geotechnique 5 (1955), MEMORY: n_h 2.2 (loose) and 6.6 MN/m3 (medium
 * dense) for dry sand, about 4.8 MN/m2 for stiff clay, of which a third is taken for the
 * firm clay round a hand-dug hole. Low values are the cautious ones: a softer foot sways
 * more and buckles sooner. */
#include "ground.h"

static const char table[] = "IBC, 2009 and later, Table 1806.2";
static const char dense[] = "Terzaghi, Geotechnique 5 (1955): medium dense dry sand";
static const char loose[] = "Terzaghi, Geotechnique 5 (1955): loose dry sand";
static const char stiff[] =
    "a third of what Terzaghi, Geotechnique 5 (1955), gives for stiff clay";

static const struct {
    const char *name;
    double bearing;  /* psf */
    double lateral;  /* psf per ft */
    double friction; /* number */
    double cohesion; /* psf */
    bw_sourced modulus_growth, modulus;
} soils[BW_SOIL_COUNT] = {
    [BW_SOIL_UNKNOWN] = {.name = "unknown soil"},
    [BW_SOIL_GRAVEL] = {"gravel", 3000.0, 200.0, 0.35, 0.0,
                        .modulus_growth = {6.6e6, BW_MARK_MEMORY, dense}},
    [BW_SOIL_SAND] = {"sand", 2000.0, 150.0, 0.25, 0.0,
                      .modulus_growth = {2.2e6, BW_MARK_MEMORY, loose}},
    [BW_SOIL_CLAY] = {"clay", 1500.0, 100.0, 0.0, 130.0,
                      .modulus = {1.6e6, BW_MARK_JUDGEMENT, stiff}},
};

static size_t row_of(bw_soil soil)
{
    return soil < BW_SOIL_COUNT ? (size_t)soil : BW_SOIL_UNKNOWN;
}

const char *bw_soil_name(bw_soil soil)
{
    return soils[row_of(soil)].name;
}

bw_soil_values bw_soil_find(bw_soil soil)
{
    const double psf = bw_psf, psf_per_ft = bw_psf / (12.0 * bw_inch);
    const size_t k = row_of(soil);

    return (bw_soil_values){
        .bearing = {soils[k].bearing * psf, BW_MARK_READ, table},
        .lateral = {soils[k].lateral * psf_per_ft, BW_MARK_READ, table},
        .friction = {soils[k].friction, BW_MARK_READ, table},
        .cohesion = {soils[k].cohesion * psf, BW_MARK_READ, table},
        .modulus_growth = soils[k].modulus_growth,
        .modulus = soils[k].modulus,
    };
}

void bwi_record_soil(bw_working *working, const char *symbol, const char *meaning,
                     const bw_sourced *value, bw_quantity quantity)
{
    bwi_record_from(working, &(bw_term){symbol, meaning, bwi_positive(value->value),
                                        quantity, value->mark, value->source});
}
