/* column.h - a member under axial force, integrated exactly. */
#ifndef BWI_FRAME_COLUMN_H
#define BWI_FRAME_COLUMN_H

#include "internal.h"

enum { BWI_STAGES = 8, BWI_FEW_STAGES = 4 };

/* Coefficients of Gauss collocation with n stages on [0, 1]: stage values are sums over
 * A, end values over the weights. */
typedef struct {
    int n;
    double c[BWI_STAGES], b[BWI_STAGES], A[BWI_STAGES][BWI_STAGES];
} bwi_rule;
typedef struct {
    bwi_rule whole, few; /* few: for panels over which little changes */
} bwi_collocation;
void bwi_collocation_fill(bwi_collocation *g);

/* Deflection, slope, bending moment, and transverse force in the direction of the unbent
 * member. */
typedef struct {
    double v, turn, moment, force;
} bwi_beam_point;

/* A member with its loads and axial force: N = scale * N(line) + shift. */
typedef struct {
    const bwi_collocation *gauss;
    const bwi_member *m;
    bw_line line; /* of first order, for N, loads and their places; never empty */
    double scale, shift;
    bool loaded;     /* loads and initial shape act, not only N */
    double from, to; /* part of the member, 0 .. length for all of it */
    /* Force and moment that loads right at end i and at end j add to the member, inside
     * its joints; null: none. */
    const double (*jumps)[2];
} bwi_column;

/* End values from start values: y(to) = T y(from) + p. */
typedef struct {
    double T[4][4], p[4];
} bwi_transfer;
bwi_transfer bwi_column_transfer(const bwi_column *c);
/* Values at a place from those at the start of the part. */
bwi_beam_point bwi_column_point(const bwi_column *c, const bwi_beam_point *start,
                                double x);

/* Stiffness over v and turn of both ends (local axes, forces along +y, moments
 * anticlockwise), and the end forces of the member with held ends. */
typedef struct {
    double K[4][4], held[4];
} bwi_column_stiffness;
bwi_column_stiffness bwi_column_stiff(const bwi_column *c);
/* The same with the joints of the member: hinges and joint springs taken in. out->back
 * turns the displacements of the nodes into the turns of the member's own ends. */
bwi_column_stiffness bwi_column_joined(const bwi_column *c, bool hinge_i, bool hinge_j);
/* Own end turns of the member from the node displacements (v_i, r_i, v_j, r_j) and from
 * its stiffness without its joints. */
void bwi_column_own(const bwi_member *member, const bwi_column_stiffness *k,
                    const double node[4], double own[4]);

/* Largest N pressing (positive) along the member, at the given scale and shift. */
double bwi_column_press(const bwi_column *c);
/* Length of the member times the largest sqrt(|N| g/EI) on it; HUGE_VAL where N overcomes
 * the shear stiffness: nothing stands then. */
double bwi_column_waves(const bwi_column *c);

#endif
