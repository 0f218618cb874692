/* functions.h - what a published row may ask for: named inputs in, one value out. SI. */
#ifndef BW_TESTS_STANDARDS_FUNCTIONS_H
#define BW_TESTS_STANDARDS_FUNCTIONS_H

#include "checks/ground/ground.h"
#include "checks/us_asd/us_asd.h"

/* Every input that a row may name; NaN when it does not. */
typedef struct {
    double bending, shear_strength, compression, bearing, modulus_min; /* [Pa] */
    double euler, crushing;                                            /* [Pa] */
    double girth, diameter, small, large, depth;                       /* [m] */
    double length, span, deflection;                                   /* [m] */
    double force, shear, axial;                                        /* [N] */
    double moment;                                                     /* [N*m] */
    double load_duration, effective_factor, share, limit, taper;       /* numbers */
    double height, width;                                              /* [m] */
    double lateral;                                                    /* [Pa/m] */
    double lateral_factor;                                             /* number */
    double modulus, modulus_05;                                        /* [Pa] */
    double left, reach, deflection_dead;                               /* [m] */
    double dead_load, crowd_load;                                      /* [N/m] */
    double slenderness, creep;                                         /* numbers */
    double angle;                                                      /* [rad] */
    double gravity;                                                    /* number */
    double side;                                                       /* [m] */
    double side_bearing;                                               /* [Pa] */
    double side_angle, main_angle;                                     /* [rad] */
    double scatter, people;                                            /* numbers */
} row_inputs;

typedef struct {
    const char *name;
    bw_quantity quantity;
    size_t offset; /* into row_inputs */
} row_input;
extern const row_input row_input_list[];
extern const size_t row_input_count;

row_inputs row_inputs_unknown(void);

typedef struct {
    const char *name;
    bw_quantity quantity; /* of the value */
    double (*value)(const row_inputs *in);
} row_function;
/* The function of that name, or null. */
const row_function *row_function_find(const char *name);
/* The same among those of limit-state design. */
const row_function *row_function_eurocode(const char *name);
/* The same among those of fasteners. */
const row_function *row_function_joints(const char *name);
/* And among those of strengths, sections and outside standards. */
const row_function *row_function_wood(const char *name);

#endif
