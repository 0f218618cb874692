/* ladder.h - a value going down step by step, each step recorded; and the routes from
 * clear wood to round logs that more than one basis goes. SI. */
#ifndef BW_WOOD_LADDER_H
#define BW_WOOD_LADDER_H

#include "bolewright/wood.h"

typedef struct {
    const char *symbol, *meaning;
    double value;
    bw_mark mark;
    const char *source;
} bwi_factor;

typedef struct {
    bw_working *working;
    double value; /* [Pa] */
} bwi_ladder;

typedef struct bwi_route bwi_route;

bwi_ladder bwi_ladder_start(bw_working *working, const char *symbol, const char *meaning,
                            const bw_sourced *clear);
void bwi_ladder_record(bwi_ladder *steps, const bwi_factor *step, bw_quantity quantity);
void bwi_ladder_multiply(bwi_ladder *steps, const bwi_factor *step);
void bwi_ladder_divide(bwi_ladder *steps, const bwi_factor *step);
/* The value reached so far, as a line of its own. */
void bwi_ladder_reach(bwi_ladder *steps, const char *symbol, const char *meaning);
/* For bending values that come from smaller pieces than the 2 in of D2899's size factor.
 */
void bwi_ladder_small_pieces(bwi_ladder *steps, const bwi_route *way,
                             const bw_species *species);
/* The coefficient of variation, then the 5 % exclusion limit that it makes. */
void bwi_ladder_exclude(bwi_ladder *steps, const bwi_factor *scatter);
/* The printed pole value, if there is one and it is lower; both lines are recorded. */
void bwi_ladder_end_with_lower(bwi_ladder *steps, const bw_sourced *printed,
                               const char *symbol, const char *meaning);

/* The steps that every basis takes first: clear wood, its 5 % exclusion limit, form and
 * size, grade. */
bwi_ladder bwi_ladder_round_log(bw_working *working, const bwi_route *way,
                                const bw_species *species, const bw_sourced *clear);

enum { BWI_GROUPS = 2 }; /* softwood, hardwood */

/* Route of a strength that is taken at the 5 % exclusion limit. */
struct bwi_route {
    const char *symbol, *meaning;             /* of the allowable stress */
    const char *clear_symbol, *clear_meaning; /* of the clear wood */
    bwi_factor scatter;                       /* coefficient of variation */
    bwi_factor factors[2];          /* form and size, grade; symbol null: none */
    bwi_factor divisor[BWI_GROUPS]; /* duration and safety */
    double to_table;                /* K_p */
};

extern const bwi_route bwi_bending_route, bwi_shear_route, bwi_compression_route;
extern const bwi_factor bwi_wet_use;         /* C_M */
extern const bwi_factor bwi_cracks;          /* k_cr */
extern const bwi_factor bwi_modulus_scatter; /* coefficient of variation of E */

extern const double bwi_bearing_to_table;    /* K_p */
extern const bwi_factor bwi_bearing_divisor; /* mean to allowable bearing stress */

bwi_factor bwi_route_to_table(double to_table); /* K_p as a step */
/* The proportional limit across the grain was tested, not estimated: only then K_p. */
bool bwi_bearing_was_tested(const bw_sourced *limit);
/* The mean stress across the grain to design with: at 0.04 in indentation where the
 * proportional limit was tested. */
bwi_ladder bwi_bearing_mean(bw_working *working, const bw_species *species);
/* E, mean and green, at most the printed one. */
double bwi_modulus(bw_working *working, const bw_species *species);
bool bwi_species_is_complete(const bw_species *species);

#endif
