/* frame.h - linear elastic plane frames of straight, linearly tapered members.
 *
 * SI throughout: m, N, N*m, Pa, kg, rad. Global axes: x right, y up, rotation r
 * anticlockwise; gravity pulls along -y. Local axes of a member: x from end i to end j, y
 * a quarter turn anticlockwise from it.
 *
 * Internal actions at x along a member, in its local axes:
 *   N  axial force, tension positive
 *   V  shear = dM/dx: the sum of transverse forces (along +y) on the part before x
 *   M  bending moment, sagging positive (tension on the -y side)
 * Theory: small displacements, plane sections, shear strain V/(kappa G A); taper is taken
 * exactly (flexibility integrals of 1/EI(x) and 1/EA(x)), never by a mean diameter.
 *
 * The layer knows nothing of wood, codes, files or printing. Everything lives in the
 * arena given to bw_frame_new; nothing needs to be released. */
#ifndef BW_FRAME_H
#define BW_FRAME_H

#include "bolewright/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- sections: plain values ----
 *
 * A round section may have flats hewn off across its top (+y of the member) and its
 * bottom, parallel to the plane's normal, and a concentric hollow; all zero is a full
 * circle, flat_top = diameter / 2 a half log. Along a member every size runs straight.
 * The member's axis is the section's centroid. */

typedef enum { BW_SECTION_ROUND, BW_SECTION_GIVEN } bw_section_kind;

typedef struct {
    bw_section_kind kind;
    double diameter; /* [m]  > 0, for BW_SECTION_ROUND */
    double area;     /* [m2] > 0, for BW_SECTION_GIVEN */
    double
        second_moment; /* [m4] > 0, for BW_SECTION_GIVEN, bending in the frame's plane */
    double modulus; /* [m3] smaller section modulus for BW_SECTION_GIVEN; 0: not known */
    double flat_top, flat_bottom; /* [m] >= 0 depths cut off a round section */
    double bore; /* [m] >= 0 diameter of its hollow; must not reach a flat */
} bw_section;

/* A full circle of that diameter [m]; a section of which area [m2], second moment [m4]
 * and modulus [m3] are known and nothing else. Sizes are looked at by bw_frame_factor. */
bw_section bw_section_round(double diameter);
bw_section bw_section_given(double area, double second_moment, double modulus);
/* A full circle: no flats and no hollow. False for a given section. */
bool bw_section_is_plain(const bw_section *s);
double bw_section_area(const bw_section *s); /* [m2] */
/* About the horizontal neutral axis: bending in the frame's plane [m4]. */
double bw_section_second_moment(const bw_section *s);
double bw_section_modulus(const bw_section *s); /* smaller of top and bottom [m3] */

/* Round sections only (0 for a given one): */
double bw_section_depth(const bw_section *s); /* bottom to top [m] */
double bw_section_width(const bw_section *s); /* the widest chord [m] */
/* Neutral axis above the underside [m]. */
double bw_section_neutral_axis(const bw_section *s);
double bw_section_modulus_top(const bw_section *s);    /* I over the distance up [m3] */
double bw_section_modulus_bottom(const bw_section *s); /* and down [m3] */
/* About the vertical axis of symmetry [m4]; never less than the other one. */
double bw_section_second_moment_sideways(const bw_section *s);
/* Least section modulus under a moment about any axis [m3]. */
double bw_section_modulus_any(const bw_section *s);
/* Largest shear stress under a unit shear in the frame's plane: the largest Q / (I b)
 * [1/m2]; 4 / (3 A) for a full circle. */
double bw_section_shear_factor(const bw_section *s);

/* The section at the fraction t (0..1) of the way from a to b, both of one kind; a round
 * one has its sizes interpolated, a given one must be prismatic. */
bw_section bw_section_between(const bw_section *a, const bw_section *b, double t);

/* ---- model ---- */

typedef struct bw_frame bw_frame;

bw_frame *bw_frame_new(bw_arena *arena); /* null without memory */

/* name is what a fault calls the node ("foot of post P3"); case_path its JSON Pointer;
 * both may be null and are kept, not copied. Returns the node's number from 0, or -1
 * without memory. */
int bw_frame_add_node(bw_frame *f, double x, double y, const char *name,
                      const char *case_path);

typedef struct {
    int node_i, node_j; /* must differ */
    bw_section section_i, section_j;
    double modulus;       /* E [Pa] > 0 */
    double shear_modulus; /* G [Pa]; 0: shear strain left out */
    double kappa;   /* shear coefficient, 0 < kappa <= 1; 0: shear strain left out */
    double density; /* [kg/m3] >= 0, for bw_frame_load_self_weight */
    bool hinge_i, hinge_j;               /* end moment released */
    double turn_spring_i, turn_spring_j; /* [N*m/rad] > 0: elastic end joint; 0: rigid */
    bool slides; /* axial force released at end j: all of it comes to end i */
    double lean; /* [rad] out of its line as built: initial slope along local y, second
                    order */
    double bow;  /* [m] initial bow at mid-length along local y (sweep), second order */
    const char *name, *case_path; /* as for nodes */
} bw_member;

/* Returns the member's number, or -1 without memory. Values are checked by
 * bw_frame_factor. */
int bw_frame_add_member(bw_frame *f, const bw_member *m);

typedef struct {
    int node;
    double angle;     /* [rad] axes of this support, anticlockwise from global */
    bool fix[3];      /* x, y, r in the support's axes */
    double spring[3]; /* [N/m, N/m, N*m/rad] >= 0 on motions not fixed */
    double spring_xr; /* [N] coupling of x and r: force in x per turn, moment per shift */
    double settle[3]; /* [m, m, rad] imposed motion of the fixed ones, in the load case
                         that bw_frame_settle_case names */
    const char *case_path;
} bw_support;

/* Several supports of one node add up if they have the same angle. BW_E_MEMORY. */
bw_status bw_frame_add_support(bw_frame *f, const bw_support *s);

/* What the axes are called when a fault names a direction, such as "along the deck" and
 * "up and down"; null words restore "along x" and "along y". Kept, not copied. */
void bw_frame_name_directions(bw_frame *f, const char *x, const char *y);

/* ---- loads: any number of load cases, numbered from 0 by first use ---- */

typedef enum {
    BW_LOAD_POINT, /* Fx, Fy, moment at distance a */
    BW_LOAD_LINE   /* wx, wy at a and at b, straight between */
} bw_load_kind;

typedef struct {
    bw_load_kind kind;
    int member;
    double a, b;          /* [m] from end i, 0 <= a <= b <= length */
    bool local;           /* components in the member's axes, else global */
    bool per_plan_length; /* line loads per metre of horizontal projection (global axes
                             only) */
    double x[2], y[2];    /* point: [N] in x[0], y[0]; line: [N/m] at a and b */
    double moment;        /* [N*m] point only, anticlockwise */
} bw_member_load;

/* Loads of one case, added to what it has: forces [N] along the global axes and a moment
 * [N*m], anticlockwise, at a node; a load on a member, copied. BW_E_MEMORY; whether node,
 * member, place and values make sense is looked at by bw_frame_solve. */
bw_status bw_frame_load_node(bw_frame *f, int load_case, int node, double fx, double fy,
                             double moment);
bw_status bw_frame_load_member(bw_frame *f, int load_case, const bw_member_load *load);
/* Exact weight of every member: density * g * area(x) along -y; factor scales it. */
bw_status bw_frame_load_self_weight(bw_frame *f, int load_case, double factor);
/* The load case in which the supports' imposed motions act (default 0). */
void bw_frame_settle_case(bw_frame *f, int load_case);

extern const double bw_gravity; /* 9.80665 m/s2, ISO 80000-3 standard acceleration */

/* ---- solving ---- */

/* Numbers the unknowns for a small profile, assembles and factors K, and estimates its
 * condition. BW_E_INPUT: a value out of range (d says which). BW_E_MECHANISM: some part
 * moves without resistance; d names the part, its direction and what would hold it.
 * BW_E_CONDITION: stiffnesses so unlike that no digits are left. */
bw_status bw_frame_factor(bw_frame *f, bw_diags *d);

typedef struct {
    int nodes, members, unknowns, half_band;
    double rcond;     /* reciprocal condition of the scaled stiffness matrix */
    int free_motions; /* independent motions without resistance; -1: too large to count */
} bw_frame_facts;
bw_frame_facts bw_frame_describe(const bw_frame *f);

/* Motions of the frame that nothing resists, counted by the rank of the compatibility
 * conditions (independent of every stiffness). -1 without memory or above 400 nodes. */
int bw_frame_count_free_motions(bw_frame *f);

/* A state: a factored combination of load cases plus, at will, one more single load, with
 * displacements and member actions. Linear: states of one frame may be added. */
typedef struct bw_state bw_state;

typedef struct {
    int load_case;
    double factor;
} bw_part;

/* Solves every load case that has not been solved (all right-hand sides at once). Needs
 * bw_frame_factor. */
bw_status bw_frame_solve(bw_frame *f, bw_diags *d);
/* The state of sum(factor * load case); null without memory, or if a load case has not
 * been solved. Cheap: nothing is factored. */
bw_state *bw_frame_state(bw_frame *f, const bw_part *parts, size_t n_parts,
                         bw_arena *arena);
/* States of single member loads (a moving wheel), all solved as right-hand sides of the
 * one factorisation; states[k] belongs to loads[k]. */
bw_status bw_frame_solve_loads(bw_frame *f, const bw_member_load *loads, size_t n_loads,
                               bw_state **states, bw_arena *arena);
/* sum = a + factor * b, both of one frame; null without memory. */
bw_state *bw_state_add(const bw_state *a, double factor, const bw_state *b,
                       bw_arena *arena);

/* ---- reading a state ---- */

typedef struct {
    double x, y, r;
} bw_motion; /* [m, m, rad] or [N, N, N*m] */

bw_motion bw_state_displacement(const bw_state *s, int node); /* global axes */
bw_motion bw_state_reaction(const bw_state *s, int node);     /* global axes; 0 if free */
/* Largest out-of-balance force at a free motion, over the largest load or reaction. */
double bw_state_residual(const bw_state *s);
/* Half the work of the loads, and the strain energy with springs [J]; equal without
 * settlements (Clapeyron). */
double bw_state_work(const bw_state *s);
double bw_state_energy(const bw_state *s);

typedef struct {
    double axial, shear, moment;
} bw_action; /* N, V, M as above */

/* An extreme found where it really is: ends, jumps and stationary points. */
typedef struct {
    double value, x;
} bw_extreme;

typedef struct {
    bw_extreme moment_max, moment_min; /* of M */
    bw_extreme shear_max, shear_min;   /* of V */
    bw_extreme axial_max, axial_min;   /* of N */
    bw_extreme stress_max, stress_min; /* of M/S [Pa]; both 0 if S is not known */
} bw_extremes;

/* ---- actions along one member: a value whose segments live in the arena given ---- */

typedef struct {
    const bw_frame *frame;
    int member;
    const struct bw_segment *segments; /* not to be looked into */
    size_t n; /* 0: there was no memory; every reading is then NaN */
} bw_line;

/* Of a solved state; reads it and its frame as long as the line is used. */
bw_line bw_state_line(const bw_state *s, int member, bw_arena *arena);
/* Just right (before = false) or just left of x on the member, 0 <= x <= length. */
bw_action bw_line_action(const bw_line *line, double x, bool before);
bw_extremes bw_line_extremes(const bw_line *line);
/* Where action effects can be extreme: ends, loads, stationary points of N, V, M and M/S,
 * ascending; for checks that combine them. Returns how many (at most room; a full room
 * may have left some out). */
size_t bw_line_stations(const bw_line *line, double *x, size_t room);
/* Deflection along local y relative to the straight chord between the member's ends, and
 * its extremes (dearer than those of the actions: they need integrals). */
double bw_line_sag(const bw_line *line, double x);
void bw_line_sag_extremes(const bw_line *line, bw_extreme *max, bw_extreme *min);

/* The same for members that follow on each other in one straight line without hinges (a
 * log cut by nodes), relative to the chord of all; x from the beginning of the first. */
double bw_lines_sag(const bw_line *lines, size_t n, double x);
void bw_lines_sag_extremes(const bw_line *lines, size_t n, bw_extreme *max,
                           bw_extreme *min);

/* The same for a member of a state, when only one reading is wanted. */
bw_action bw_state_action(const bw_state *s, int member, double x, bool before);
bw_extremes bw_state_extremes(const bw_state *s, int member);
size_t bw_state_stations(const bw_state *s, int member, double *x, size_t room);
double bw_state_sag(const bw_state *s, int member, double x);
void bw_state_sag_extremes(const bw_state *s, int member, bw_extreme *max,
                           bw_extreme *min);
/* Local displacement along member x and y and rotation of the cross-section at x. */
bw_motion bw_state_local(const bw_state *s, int member, double x);

/* N, V, M at end i and at end j of a member of the state. */
void bw_state_ends(const bw_state *s, int member, double end[6]);

/* ---- second order and buckling ----
 *
 * Axial force N bends a member that is not straight: N works on the slope v' (Engesser:
 * the shear force carries over into the shear strain), with small rotations and no
 * shortening by bowing. Members are integrated exactly, with taper and varying N.
 * Buckling scales all loads of the state together, with the axial forces of first order.
 */

typedef struct {
    double factor;   /* on all loads; HUGE_VAL if nothing is pressed together */
    double estimate; /* the same by a generalised eigenvalue (0: frame too large) */
    const bw_motion
        *mode;         /* per node, largest shift 1, global axes; null without a factor */
    const double *bow; /* per member, on the scale of the mode: its middle off the
                          straight line between its ends, along local y; null likewise */
} bw_buckling;

/* The lowest factor on the loads of the (first-order) state at which the frame buckles.
 * BW_E_MEMORY, or what bw_frame_factor gives. */
bw_status bw_frame_buckling(bw_frame *f, const bw_state *s, bw_arena *arena,
                            bw_buckling *out, bw_diags *d);

/* Whether the frame stands under the factor times the loads of the state: one
 * factorisation, where the lowest factor itself takes many. */
bw_status bw_frame_stands(bw_frame *f, const bw_state *s, double factor, bw_arena *arena,
                          bool *out, bw_diags *d);

/* Raises press[k] [N] to the largest compression anywhere along member k in the state. */
void bw_state_press(const bw_state *s, double *press);
/* Whether the frame stands while every member k is pressed by the factor times press[k]
 * all along. Then it also stands under the factor times any loads that press no part of
 * it more: what is pressed less is stiffer. */
bw_status bw_frame_stands_pressed(bw_frame *f, const double *press, double factor,
                                  bw_arena *arena, bool *out, bw_diags *d);

/* The second-order state of the combination, initial lean and bow included. Not to be
 * added to other states. BW_E_MECHANISM: no equilibrium, the frame buckles under less.
 * BW_E_INTERNAL: a load case that has not been solved. */
bw_status bw_frame_second_order(bw_frame *f, const bw_part *parts, size_t n_parts,
                                bw_arena *arena, bw_state **out, bw_diags *d);
/* The same for the loads of any first-order state, single loads included. */
bw_status bw_state_second_order(const bw_state *first, bw_arena *arena, bw_state **out,
                                bw_diags *d);

/* ---- influence lines: what a load anywhere on a path does to every member ----
 *
 * A load at a on a path member acts on the rest of the frame through the forces that the
 * member, its ends held, puts on its two nodes. So the answers to unit forces and moments
 * at the nodes of the path (right-hand sides of the one factorisation), weighted by those
 * forces, are the influence line of every action of every member, exact for every a. */

typedef struct bw_influence bw_influence;

/* path: members in the order the load meets them. Needs a factored frame. BW_E_MEMORY,
 * BW_E_INTERNAL (not factored). */
bw_status bw_influence_new(bw_frame *f, const int *path, size_t n_path, bw_arena *arena,
                           bw_influence **out);

/* The same lines for another thread: readings of either do not touch the other, wheels
 * that are set and gaps of one hold for both. Lives no longer than v and its frame, which
 * must not change. Null without memory. */
bw_influence *bw_influence_share(const bw_influence *v, bw_arena *arena);

/* A force at the distance a from end i of path member number at, global axes [N]. */
typedef struct {
    size_t at;
    double a;
    double fx, fy;
    /* what bw_influence_set works out, and for which wheel; left alone otherwise */
    struct {
        const bw_influence *line;
        size_t at;
        double a, fx, fy;
        double held[3], push[6];
    } set;
} bw_wheel;

/* Works out once what the wheel does to the nodes of its member, for readings of many
 * members; without it, or for a wheel that was changed since, each reading works it out
 * anew. */
void bw_influence_set(const bw_influence *v, bw_wheel *wheel);

/* One end of path member number at stands off its node by the shift [m], global axes: a
 * wheel without weight, for readings together with others. Several add up; scale it by
 * bw_wheel_scaled. What is imposed is the gap; the force across it is read from the ends.
 */
bw_wheel bw_influence_gap(const bw_influence *v, size_t at, bool at_last, double x,
                          double y);
/* The same with everything the wheel does multiplied. Only for wheels that are set. */
bw_wheel bw_wheel_scaled(const bw_wheel *wheel, double factor);

/* N, V, M at end i and at end j of the member under the wheels alone. */
void bw_influence_ends(const bw_influence *v, int member, const bw_wheel *wheels,
                       size_t n_wheels, double end[6]);
/* False if no load on path member number at can change the member by more than the part
 * that is left out (1e-12 of what it does where it does most). */
bool bw_influence_reaches(const bw_influence *v, int member, size_t at);
/* The members that this very wheel can change by more than that: how many, and their
 * numbers in *members, neighbours beside each other. Fewer than a load in any direction
 * reaches. */
size_t bw_influence_reached(const bw_influence *v, const bw_wheel *wheel,
                            const int **members);
/* The largest and the smallest N at j, M_i and M_j of a member; empty: least above most.
 */
typedef struct {
    double most[3], least[3];
} bw_range;
/* Widens the ranges of all members of the frame to what each of the wheels does by
 * itself; a member that none reaches keeps its range. NaN for good where a wheel is off
 * its member. Cheapest with the wheels of one path member after each other. */
void bw_influence_widen(const bw_influence *v, const bw_wheel *wheels, size_t n_wheels,
                        bw_range *ranges);
/* Actions along the member under the wheels on top of a base state (null: none). On top
 * of a second-order state only gaps, whose own effect is of first order. */
bw_line bw_influence_line(const bw_influence *v, const bw_state *base, int member,
                          const bw_wheel *wheels, size_t n_wheels, bw_arena *arena);

double bw_frame_length(const bw_frame *f, int member);           /* [m] */
const char *bw_frame_member_name(const bw_frame *f, int member); /* may be null */
/* Cosine and sine of the member's direction from end i to end j. */
void bw_frame_direction(const bw_frame *f, int member, double *cosine, double *sine);
bw_section bw_frame_section(const bw_frame *f, int member, double x);

#ifdef __cplusplus
}
#endif

#endif
