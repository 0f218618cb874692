/* wood.h - species, logs as measured, and the way from clear wood to a reference
 * strength.
 *
 * SI throughout. Species values are MEANS of small clear green specimens, never allowable
 * stresses; the chain in reference values turns them into something to design with.
 * The layer knows no frames, loads, files or JSON. */
#ifndef BW_WOOD_H
#define BW_WOOD_H

#include "bolewright/base.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef enum { BW_SOFTWOOD, BW_HARDWOOD } bw_wood_group;

/* A table value; known only if value > 0. */
typedef struct {
    double value;
    bw_mark mark;
    const char *source; /* title, year, table */
} bw_sourced;

typedef struct {
    const char *text;
    bw_mark mark;
    const char *source;
} bw_sourced_text;

/* Published reference design values for round timber poles of one species [Pa]. */
typedef struct {
    bw_sourced bending, shear, bearing, compression, modulus, modulus_min;
} bw_pole_values;

/* One volume equation of the national scale volume and biomass models: diameter over bark
 * at breast height D in inches, total height H in feet, volume in cubic feet (the form in
 * which they are printed).
 *   1: a D^b H^c
 *   2: a D^b H^c below D = k; a k^(b - b1) D^b1 H^c from there (k: 9 softwood, 11
 *      hardwood)
 *   3: a D^(a1 (1 - exp(-b D))^c1) H^c
 *   4: a D^b H^c exp(-b1 D) */
typedef struct {
    int model; /* 1..4; 0: none */
    double a, a1, b, b1, c, c1;
} bw_volume_equation;

/* How the stems of a species taper; known if wood.model > 0. */
typedef struct {
    bw_volume_equation wood, bark; /* volume inside bark, volume of the bark */
    double alpha, beta;            /* share of the volume below a height */
    bw_mark mark;
    const char *source;
    bw_sourced with_bark;  /* green wood and bark over the volume of the wood [kg/m3] */
    bw_sourced peeled;     /* green wood over its volume [kg/m3] */
    bw_sourced bark_share; /* volume of bark over volume of wood */
} bw_taper;

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
    bw_taper taper;           /* of standing trees */
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

/* ---- grade by eye: questions that a person answers by looking at the log ----
 *
 * A grade of zeros answers nothing: every question then counts with a cautious factor.
 */

/* A measured answer; nothing is known unless given. */
typedef struct {
    bool given;
    double value;
} bw_answer;

typedef enum { BW_INSECTS_NO_ANSWER, BW_INSECTS_NONE, BW_PINHOLES, BW_BORERS } bw_insects;
typedef enum { BW_NO_ANSWER, BW_NO, BW_YES } bw_yes_no;

typedef struct {
    bw_answer largest_knot;  /* its width over the girth of the log */
    bw_answer knots_in_foot; /* widths of all knots in the worst foot over the girth */
    bw_answer spiral_grain;  /* slope to the axis of the log, 1/n for 1 in n */
    bw_answer drying_check;  /* depth over diameter; two that face each other: the sum */
    bw_answer sweep;         /* bow over the length it was measured on */
    bw_insects insects;
    bw_yes_no decay;         /* any sign of it */
    bw_yes_no dead_when_cut; /* the tree was dead */
} bw_eye_grade;

/* ---- strength classes of graded timber (EN 338), chosen by name for one log ---- */

typedef struct {
    const char *name; /* "C18" */
    bw_wood_group group;
    double bending, compression, bearing, shear; /* [Pa] characteristic */
    double modulus, modulus_05;                  /* [Pa] mean, 5 % */
    double density, density_mean;                /* [kg/m3] characteristic, mean; dry */
    const char *source;
} bw_strength_class;

/* The class of that name, or null; the i-th of the table, or null at its end. */
const bw_strength_class *bw_strength_class_find(const char *name);
const bw_strength_class *bw_strength_class_at(size_t i);

/* ---- a log as measured: under bark, straight taper between measured places ---- */

typedef struct {
    double from_butt; /* [m] */
    double diameter;  /* [m] under bark */
} bw_station;

typedef enum { BW_SIDE_TOP, BW_SIDE_BOTTOM } bw_side;

typedef struct {
    double from_butt; /* [m] */
    double depth;     /* [m] */
    bw_side side;     /* as the log lies */
    const char *case_path;
} bw_notch;

typedef struct {
    const char *name; /* as the case calls it */
    const bw_species *species;
    double butt_diameter; /* [m] under bark */
    double tip_diameter;  /* [m] under bark */
    double length; /* [m] from the butt to the tip measurement; 0: as long as its place */
    const bw_station *stations; /* ascending from the butt, at least two, if the log was
                                   measured on the way; then length is not 0, and butt
                                   and tip hold the diameters at both ends; or null */
    size_t n_stations;
    double flat_top, flat_bottom; /* [m] hewn off along the whole log, as it lies */
    bool half;                    /* split lengthwise, lying flat side up */
    double shell;                 /* [m] sound wood round a hollow or rotten heart; 0:
                                     solid */
    double outer_loss; /* [m] of rot or wear all round, off the diameters already */
    double sweep;      /* [m] bow from end to end */
    const bw_notch *notches;
    size_t n_notches;
    bw_eye_grade grade;
    const bw_strength_class *strength_class; /* null: not graded */
    const char *case_path;
} bw_log;

double bw_diameter_from_girth(double girth); /* C / pi */
/* Diameter at the distance from the butt, on the straight line through both measurements,
 * for a log of the length (the log's own, or that of its place); or between the stations,
 * before the first as thick as there, beyond the last on with their taper. */
double bw_log_diameter(const bw_log *log, double length, double from_butt);
/* The straight taper between two places that is thickest in the middle without being
 * thicker than the log anywhere: diameters at both. Exact where no station lies between.
 */
void bw_log_taper(const bw_log *log, double length, double from, double to,
                  double diameter[2]);

/* A cross-section: depths cut off above and below, and the diameter of the hollow [m]. */
typedef struct {
    double diameter, flat_top, flat_bottom, bore;
} bw_log_shape;
/* As the log is at a place; and of a log of that diameter there. */
bw_log_shape bw_log_shape_at(const bw_log *log, double length, double from_butt);
bw_log_shape bw_log_shape_of(const bw_log *log, double diameter);

/* Every diameter times the scale, less the rest; *thinnest: what is left at the thinnest
 * place known [m]. False without memory: the log is as it was. */
bool bw_log_shrink(bw_arena *arena, bw_log *log, double scale, double less,
                   double *thinnest);

/* Mass of the piece between two distances from the butt [kg]; a half log weighs half, but
 * flats, a hollow and what rot has taken off count as full of wet wood. */
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

/* The question behind an answer, in the order of bw_eye_grade. */
typedef struct {
    const char *key;      /* "largest_knot", as a case file calls it */
    const char *symbol;   /* "K_kn", of its factor */
    const char *question; /* in plain words */
    const char *sound;    /* the answer that costs nothing: "at most 1/6 of the girth" */
    const char *unsound;  /* beyond this no rule is known, and no strength is left */
} bw_grade_question;
enum { BW_GRADE_QUESTIONS = 8 };
extern const bw_grade_question bw_grade_questions[BW_GRADE_QUESTIONS];

/* Answers that are given in seen replace those of the grade. */
void bw_grade_update(bw_eye_grade *grade, const bw_eye_grade *seen);
bool bw_grade_is_answered(const bw_eye_grade *grade, size_t question);
/* Factor of one question on a property: at most 1; NaN where no rule reaches, so that
 * the check says that it cannot say. */
double bw_grade_part(const bw_eye_grade *grade, size_t question, bw_property property);
/* The product of all, each recorded as a line of the ladder (working may be null). */
double bw_grade_factor(const bw_eye_grade *grade, bw_property property,
                       bw_working *working);
/* Brings the reference values of a log down to its grade: each ladder goes on with the
 * factors and ends with the graded value. silence_counts: questions without an answer
 * lower it too; false for a log that somebody has graded into a strength class, where
 * answers count alone. BW_E_MEMORY. */
bw_status bw_reference_grade(bw_reference *reference, const bw_eye_grade *grade,
                             bool silence_counts);

/* Characteristic values of a round log for limit-state design, from the same clear wood
 * and steps without the divisor; or those of the strength class, if it is not null. The
 * same statuses. */
bw_status bw_characteristic_reference(bw_arena *arena, const bw_species *species,
                                      const bw_strength_class *strength,
                                      bw_reference *out);

/* ---- sawn boards ---- */

typedef enum {
    BW_SAWN_UNGRADED, /* counts as the poorest */
    BW_SAWN_SELECT,   /* select structural */
    BW_SAWN_NO_1,
    BW_SAWN_NO_2,
    BW_SAWN_NO_3,
    BW_SAWN_GRADE_COUNT
} bw_sawn_grade;
const char *bw_sawn_grade_name(bw_sawn_grade grade); /* "select structural" */

typedef struct {
    const bw_species *species;
    double thickness; /* [m] of the board, laid flat */
    bw_sawn_grade grade;
    const bw_strength_class *strength_class; /* null: the grade counts */
} bw_sawn;

/* Reference values of a sawn board in wet use: clear green wood, 5 % exclusion, strength
 * ratio of the grade, ASTM D245 divisor; and characteristic ones, or those of the class.
 * Statuses as for logs. */
bw_status bw_us_sawn(bw_arena *arena, const bw_sawn *board, bw_reference *out);
bw_status bw_characteristic_sawn(bw_arena *arena, const bw_sawn *board,
                                 bw_reference *out);

/* Shear modulus along the grain from E (facts of the trade: E/G about 16 for softwoods).
 */
double bw_shear_modulus(double modulus);

/* ---- a standing tree, and the log that it would give ---- */

typedef enum { BW_FOREST_GROWN, BW_OPEN_GROWN } bw_tree_class;

typedef struct {
    const bw_species *species;
    double breast_diameter; /* [m] over bark, 4 1/2 ft above the ground */
    double height;          /* [m] total; 0: assumed from the class */
    bw_tree_class grown;
    double stump; /* [m] height of the stump */
} bw_tree;

/* A diameter under bark: as estimated, and what to count on until the log lies there to
 * be measured. */
typedef struct {
    double estimate, cautious; /* [m] */
} bw_spread;

typedef struct {
    double height;            /* [m] used: given or assumed */
    bool height_assumed;      /* from the class */
    bool by_rule;             /* no taper coefficients: the field rule */
    double from, length;      /* [m] cut above the stump, length of the log */
    bw_spread butt, mid, tip; /* [m] under bark */
    double bark_thickness;    /* [m] at mid length, one side */
    double spread;            /* share by which the cautious diameters are smaller */
    bw_working parts;         /* of the spread, each with its mark */
    double volume;            /* [m3] of the wood */
    double mass_with_bark, mass_peeled; /* [kg] usual green weight */
    double mass_most;                   /* [kg] with bark and the wettest wood */
    bw_log log; /* a cone that lies inside the cautious stem everywhere */
} bw_tree_log;

extern const double bw_breast_height; /* [m] */
extern const double bw_stump_usual;   /* [m] */

/* Volumes of wood and of bark of the whole stem [m3] by the equations of the species
 * (needs its taper). */
double bw_taper_wood(const bw_species *species, double breast_diameter, double height);
double bw_taper_bark(const bw_species *species, double breast_diameter, double height);
/* Diameter over bark at the height above the ground by the equations alone [m], not yet
 * drawn through the measured one; its square integrates to the volume over bark. */
double bw_taper_over_bark(const bw_species *species, double breast_diameter,
                          double height, double above_ground);

double bw_tree_height(const bw_tree *tree); /* given, or assumed from the class [m] */
/* Best estimates at a height above the ground [m]: the curve drawn through the measured
 * diameter, or the field rule. */
double bw_tree_over_bark(const bw_tree *tree, double above_ground);
double bw_tree_under_bark(const bw_tree *tree, double above_ground);
/* The log cut from "from" above the stump, length long. BW_E_INPUT with a diagnostic: it
 * reaches beyond the stem, or ends thinner than 3 cm. */
bw_status bw_tree_cut(bw_arena *arena, const bw_tree *tree, double from, double length,
                      bw_tree_log *out, bw_diags *d);

/* ---- decay ---- */

typedef enum {
    BW_DURABILITY_UNKNOWN,
    BW_DURABILITY_SLIGHT, /* slightly or not resistant */
    BW_DURABILITY_MODERATE,
    BW_DURABILITY_RESISTANT
} bw_durability_class;

/* What to expect of a log of the species with its foot in the ground, untreated. */
typedef struct {
    bw_durability_class heartwood;
    int years_low, years_high; /* heartwood */
    bw_mark mark;
    const char *source;
} bw_durability;

/* Cautious: of several classes in the words of a table the poorest counts. */
bw_durability bw_durability_of(const bw_species *species);
extern const bw_durability bw_durability_sapwood;   /* of every species */
extern const char bw_durability_warning[];          /* about sapwood in small logs */
extern const bw_sourced_text bw_durability_helps[]; /* ended by a null text */
extern const bw_sourced_text bw_durability_claims[];

#ifdef __cplusplus
}
#endif

#endif
