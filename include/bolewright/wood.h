/* wood.h - species, logs as measured, and the way from clear wood to a reference
 * strength.
 *
 * SI throughout. Species values are MEANS of small clear green specimens, never allowable
 * stresses; the chain in reference values turns them into something to design with.
 * The layer knows no frames, loads, files or JSON. */
#ifndef BW_WOOD_H
#define BW_WOOD_H

#include "bolewright/base.h"

typedef enum { BW_SOFTWOOD, BW_HARDWOOD } bw_wood_group;

/* A table value; known only if value > 0. */
typedef struct {
    double value;
    bw_mark mark;
    const char *source; /* title, year, table */
} bw_sourced;

/* Published reference design values for round timber poles of one species [Pa]. */
typedef struct {
    bw_sourced bending, shear, bearing, compression, modulus, modulus_min;
} bw_pole_values;

typedef struct {
    const char *id;          /* "pine_lodgepole" */
    const char *common;      /* "Lodgepole pine" */
    const char *scientific;  /* "Pinus contorta" */
    const char *region;      /* "North America", "Europe", "any" */
    const char *const *also; /* further names a person may write */
    size_t n_also;
    bw_wood_group group;
    bool is_fallback;            /* "unknown softwood": deliberately poor */
    bw_sourced specific_gravity; /* oven-dry mass over green volume, over water */
    bw_sourced rupture;          /* modulus of rupture, green [Pa] */
    bw_sourced modulus;          /* modulus of elasticity in bending, green [Pa] */
    bw_sourced compression; /* maximum crushing strength along the grain, green [Pa] */
    bw_sourced bearing; /* compression across the grain at the proportional limit [Pa] */
    bw_sourced shear;   /* along the grain, green [Pa] */
    bw_sourced green_density; /* heaviest as felled, for dead load [kg/m3] */
    bw_sourced bark_ratio;    /* diameter under bark over diameter over bark */
    const char *durability;   /* heartwood class in words, or null */
    bw_mark durability_mark;
    const char *durability_source;
    bool has_pole_values;
    bw_pole_values pole;
    const char *note; /* what the table makers flagged, or null */
} bw_species;

typedef struct {
    const bw_species *items;
    size_t count;
    const char *version; /* of the tables, printed in reports */
} bw_species_table;

/* The species a person means by id, common, scientific or further name (letter case,
 * hyphens, underscores and double blanks ignored), or null. near gets up to n_near
 * nearest ids for a hint (the rest null); it may be null. */
const bw_species *bw_species_find(const bw_species_table *table, const char *name,
                                  const char **near, size_t n_near);

/* ---- a log as measured: under bark, straight taper between the measured ends ---- */

typedef struct {
    const char *name; /* as the case calls it */
    const bw_species *species;
    double butt_diameter; /* [m] under bark */
    double tip_diameter;  /* [m] under bark */
    double length; /* [m] from the butt to the tip measurement; 0: as long as its place */
    const char *case_path;
} bw_log;

double bw_diameter_from_girth(double girth); /* C / pi */
/* Diameter at the distance from the butt, on the straight line through both measurements,
 * for a log of the length (the log's own, or that of its place). */
double bw_log_diameter(const bw_log *log, double length, double from_butt);
/* Mass of the piece between two distances from the butt [kg]. */
double bw_log_mass(const bw_log *log, double length, double from, double to);

/* ---- reference values: allowable stresses before load duration, size and stability ----
 */

typedef enum {
    BW_BENDING_STRENGTH, /* F_b */
    BW_SHEAR_STRENGTH,   /* F_v */
    BW_COMPRESSION,      /* F_c, along the grain */
    BW_BEARING,          /* F_c-perp */
    BW_MODULUS,          /* E, mean: deflection */
    BW_MODULUS_MIN,      /* E_min: stability */
    BW_PROPERTY_COUNT
} bw_property;

/* Each property with its ladder: every factor from the clear wood down, in order; the
 * last term of a ladder is the value itself. */
typedef struct {
    const bw_species *species;
    double value[BW_PROPERTY_COUNT]; /* [Pa] */
    bw_working ladder[BW_PROPERTY_COUNT];
} bw_reference;

/* Allowable-stress reference values of an ungraded round log in wet use: 5 % exclusion
 * with the published coefficient of variation, ASTM D2899 form-and-size and grade
 * factors, ASTM D245 duration-and-safety divisor; the lower of that and the printed pole
 * value where there is one. BW_E_MEMORY, or BW_E_INPUT if the species lacks a property
 * (no diagnostics). */
bw_status bw_us_reference(bw_arena *arena, const bw_species *species, bw_reference *out);

/* Shear modulus along the grain from E (facts of the trade: E/G about 16 for softwoods).
 */
double bw_shear_modulus(double modulus);

#endif
