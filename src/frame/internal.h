/* internal.h - what the files of the frame layer share. */
#ifndef BWI_FRAME_INTERNAL_H
#define BWI_FRAME_INTERNAL_H

#include "bolewright/frame.h"
#include "quadrature.h"

#include <math.h>

#define BWI_PI 3.14159265358979323846

/* The larger one; NaN if either is, where fmax would drop it. */
static inline double bwi_larger(double a, double b)
{
    return isnan(a) || a >= b ? a : b;
}

/* ---- model ---- */

typedef struct {
    double x, y;
    const char *name, *case_path;
    double cosine, sine; /* of its support's axes; 1, 0 without an inclined support */
    bool fix[3];
    double spring[3], spring_xr, settle[3];
    bool supported;
    int n_support_axes; /* supports seen, to refuse unlike angles */
    int equation[3];    /* number of the unknown, -1 if fixed */
    bool idle; /* only hinges meet here: nothing turns with the joint, so it is held */
} bwi_node;

/* 1/EI, 1/EA and 1/(kappa G A) of a section. */
typedef struct {
    double bending, axial, shear;
} bwi_compliance;

/* Elongation under 1 N [m/N]; turns of the ends under moments of 1 N*m there, and of one
 * under a moment at the other [rad/(N*m)]: see element.c. */
typedef struct {
    double e, ii, ij, jj;
} bwi_flexibility;

typedef struct {
    bw_member m;
    double length, cosine, sine;
    double ka;            /* axial stiffness [N/m], 0 if it slides */
    double k11, k12, k22; /* moments from chord rotations [N*m/rad] */
    bwi_flexibility held; /* simply, without springs at the joints */
    bwi_compliance unit;  /* of a full circle with a diameter of 1 m */
    bool is_plain;        /* full circles all along */
} bwi_member;

/* A load on one member in its local axes: a point load and moment at a, or distributed
 * loads qx, qy = c0 + c1 t + c2 t^2 [N/m], t = x - a, from a to b. */
typedef struct {
    int member;
    double a, b;
    bool is_point;
    double qx[3], qy[3]; /* point: force in [0] */
    double moment;
} bwi_piece;

typedef struct {
    int node;
    double force[3]; /* global */
} bwi_node_load;

typedef struct {
    bwi_node_load *node_loads;
    size_t n_node_loads, cap_node_loads;
    bwi_piece *pieces;
    size_t n_pieces, cap_pieces;
    int *first, *next;   /* pieces of a member: first[member], next[piece], -1 ends */
    bw_member_load *raw; /* as given; turned into pieces when the frame is prepared */
    size_t n_raw, cap_raw;
    double self_weight;
    bool solved;
    bw_state *state;
} bwi_case;

typedef struct {
    double *band;  /* factor of D K D, lower, column-major, (half_band + 1) x n */
    double *scale; /* D */
    int n, half_band;
    double rcond;
    bool refine; /* condition so poor that every solution is refined */
} bwi_system;

struct bw_frame {
    bw_arena *arena;
    bwi_node *nodes;
    size_t n_nodes, cap_nodes;
    bwi_member *members;
    size_t n_members, cap_members;
    bw_support *supports;
    size_t n_supports, cap_supports;
    bwi_case *cases;
    size_t n_cases, cap_cases;
    int settle_case;
    int *incident_start, *incident; /* members at a node, compressed rows */
    int *order;                     /* nodes in the order of their unknowns */
    bool prepared, factored;
    int free_motions;
    const char *x_words, *y_words;
    bwi_system system;
};

/* A part of a state's loads. */
typedef struct {
    int load_case;
    double factor;
} bwi_part;

typedef struct {
    bwi_piece piece;
    double factor;
} bwi_extra;

struct bw_state {
    bw_frame *frame;
    bw_arena *arena;
    bwi_part *parts;
    size_t n_parts;
    bwi_extra *extras;
    size_t n_extras;
    double *u, *u_low; /* displacement in node axes: the sum of both, 3 per node */
    double (*end)[6];  /* N, V, M at end i and at end j of every member */
    double residual; /* largest out-of-balance force over the largest load or reaction */
    struct bwi_curved *curved; /* per member of a second-order state; else null */
};

/* ---- along one member: N, V, M as polynomials of t = x - from ---- */

typedef struct bw_segment {
    double from, to;
    double N[4], V[4], M[5];
    double qy[3];
} bwi_segment;

typedef struct {
    const bwi_segment *segments;
    size_t n;
} bwi_diagram;

/* Diagram of a member from its actions at end i and the pieces on it. Null segments
 * without memory. */
bwi_diagram bwi_diagram_make(bw_arena *arena, double length, const double start[3],
                             const bwi_extra *pieces, size_t n_pieces);

/* Pieces that act on the member in this state, in the arena, and their number (0: null);
 * false without memory. */
bool bwi_state_pieces(const bw_state *s, int member, bw_arena *arena,
                      const bwi_extra **pieces, size_t *n);

/* ---- element ---- */

/* Stiffness of the member from its flexibility. */
void bwi_element_prepare(bwi_member *m);
/* Elongation and end rotations of the simply held member under the pieces. */
typedef struct {
    double elongation, turn_i, turn_j; /* conjugate to N, M_i, M_j */
} bwi_deformation;
bwi_deformation bwi_element_free_deformation(const bwi_member *m,
                                             const bwi_diagram *simple);
bw_section bwi_member_section(const bwi_member *m, double x);
bwi_compliance bwi_member_compliance(const bwi_member *m, double x);
/* section.c: both in one go [m2, m4]. */
void bwi_section_stiffness(const bw_section *s, double *area, double *second_moment);
double bwi_member_diameter(const bwi_member *m, double x); /* 1 for a given section */
/* Every size of the section grows alike along the member: A ~ d^2, I ~ d^4, S ~ d^3. */
bool bwi_member_is_similar(const bwi_member *m);
/* Gauss points for integrals of the compliance over part of the member (room for
 * BWI_GAUSS_POINTS * BWI_PANELS_MAX); returns how many. */
int bwi_member_points(const bwi_member *m, double lo, double hi, bwi_point *points);

/* ---- reading ---- */

bw_action bwi_segment_action(const bwi_segment *s, double x);
/* Motion relative to the chord at x >= from, starting from the motion at from inside one
 * segment; r is the turn against the chord. */
bw_motion bwi_line_advance(const bw_line *line, const bwi_segment *s, double from,
                           double x, bw_motion at);
/* Motion at x in the member's axes, starting from the motion of end i. */
bw_motion bwi_line_motion(const bw_line *line, double x, bw_motion at);
bw_motion bwi_state_motion(const bw_state *s, const bw_line *line, double x);
/* Turn of the member's own end i against the chord: -a_i. */
double bwi_line_start_turn(const bw_line *line);
/* Of the first of n lines that follow on each other, against the chord of all. */
double bwi_lines_start_turn(const bw_line *lines, size_t n);

/* Rows of the deformations e, a_i, a_j over the six displacements of the member's ends in
 * the axes of their nodes. */
void bwi_element_rows(const bw_frame *f, int member, double B[3][6]);

/* ---- steps of solving ---- */

bw_status bwi_frame_prepare(bw_frame *f, bw_diags *d); /* model.c: check and number */
bw_status bwi_number_nodes(bw_frame *f);               /* number.c */
/* False if the load does not lie on the member or is not finite. */
bool bwi_load_piece(const bw_frame *f, const bw_member_load *load, bwi_piece *out);
/* Pieces of the weight of the member: at most BWI_WEIGHT_PIECES_MAX; returns how many. */
enum { BWI_WEIGHT_PIECES_MAX = 4 };
size_t bwi_self_weight_count(const bw_frame *f, int member);
size_t bwi_self_weight_pieces(const bw_frame *f, int member, double factor,
                              bwi_piece *pieces);

/* band.c, the only file that factors: BW_E_MECHANISM if K is not positive definite. */
bw_status bwi_band_factor(bwi_system *s);
/* Solves in place for n_rhs right-hand sides of length n, column after column. */
void bwi_band_solve(const bwi_system *s, double *rhs, int n_rhs);

/* eigen.c: largest mu of A x = mu B x, both symmetric in band storage (lower,
 * column-major; destroyed), B positive definite, and its x (length n). BW_E_MEMORY. */
bw_status bwi_largest_eigenvalue(int n, int half_band, double *A, double *B,
                                 bw_arena *arena, double *mu, double *x);

/* rank.c: null space of the rows x columns matrix (column-major, destroyed): its
 * dimension, and orthonormal columns in basis (columns x dimension, arena). -1 without
 * memory. */
int bwi_null_space(bw_arena *arena, double *matrix, int rows, int columns,
                   double **basis);

/* mechanism.c: names what moves; always returns BW_E_MECHANISM (or BW_E_MEMORY). */
bw_status bwi_mechanism_report(bw_frame *f, bw_diags *d);

/* The forces of the six end actions on the nodes of the member, in node axes: x, y, r at
 * the node of end i and of end j. */
void bwi_element_push(const bw_frame *f, int member, const double end[6], double out[6]);
/* End actions (N, V, M at both ends) from N at j, M_i, M_j and the pieces. */
void bwi_element_ends(const bwi_member *m, double axial_j, double moment_i,
                      double moment_j, const bwi_extra *pieces, size_t n_pieces,
                      double end[6]);
/* N at j, M_i, M_j of the member with both ends held under the pieces (n_pieces > 0);
 * false without memory. Scratch in the arena. */
bool bwi_element_fixed(const bwi_member *m, const bwi_extra *pieces, size_t n_pieces,
                       bw_arena *arena, double basic[3]);
/* The same under 1 N at a (0 .. length) along the member, and under 1 N across it. */
void bwi_element_fixed_unit(const bwi_member *m, double a, double basic[2][3]);

/* state.c: an empty state with room for n_extras; null without memory. */
bw_state *bwi_state_new(bw_frame *f, size_t n_parts, size_t n_extras, bw_arena *arena);
/* Adds factor times the nodal loads of the state at the node, in node axes. */
void bwi_state_nodal(const bw_state *s, int node, double factor, double *out);
/* Out-of-balance force of every motion in node axes (3 per node) from the end actions. */
void bwi_state_balance(const bw_state *s, double *balance);
/* line of a member of a second-order state. */
bw_line bwi_curved_line(const bw_state *s, int member, bw_arena *arena);
/* From the displacements of a state: end actions of all members, and the out-of-balance
 * force of every motion in node axes (3 per node). BW_E_MEMORY. */
bw_status bwi_state_update(bw_state *s, double *balance);

#endif
