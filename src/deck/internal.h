/* internal.h - what the files of the deck layer share.
 *
 * The deck falls apart into plane frames: one along the deck for every row (stringers and
 * the posts under them) and one across it for every bent (posts and cap). What the
 * stringers put on a bent is found in the row frames and carried over as forces on the
 * cap. */
#ifndef BWI_DECK_INTERNAL_H
#define BWI_DECK_INTERNAL_H

#include "bolewright/deck.h"

/* Places in each bay at which a wheel is tried before the worst is searched for. */
enum { BWI_RIDER_POSITIONS = 20 };

/* Load cases of a row frame. */
enum { BWI_CASE_DEAD = 0, BWI_CASE_SNOW = 1, BWI_CASE_FIRST_BAY = 2 };

/* ---- plan: where everything lies ---- */

/* Part of a stringer in one bay. */
typedef struct {
    int stringer;      /* -1: the row has no stringer in this bay */
    double from_first; /* [m] along the stringer from its first end to this part */
    double length;     /* [m] of this part */
} bwi_part_of_stringer;

/* How loads on the boards of a bay go to one of its rows, by the lever rule. */
typedef struct {
    double dead_width;  /* [m] of deck that weighs on the row */
    double crowd_width; /* [m] the same, leaving out strips that would lift it */
    double rider_share; /* largest share of a wheel anywhere across the deck */
} bwi_share;

typedef struct {
    double across; /* [m] left end of the modelled cap */
    double length; /* [m] 0: a block on one post, or no cap */
} bwi_cap_place;

typedef struct {
    const bw_case *deck;
    bw_arena *arena;
    const bw_reference *references; /* one per log */
    size_t n_bays;                  /* bents - 1 */
    bwi_part_of_stringer *parts;    /* row-major: row * n_bays + bay */
    bwi_share *shares;              /* likewise */
    double *stringer_length;        /* [m] between the outer supports */
    double *cap_top;     /* [m] above ground at each bent: underside of stringers */
    bwi_cap_place *caps; /* per bent */
} bwi_plan;

bw_status bwi_plan_make(bw_arena *arena, const bw_case *deck,
                        const bw_reference *references, bwi_plan *out, bw_diags *d);
const bwi_part_of_stringer *bwi_plan_part(const bwi_plan *p, int row, size_t bay);
const bwi_share *bwi_plan_share(const bwi_plan *p, int row, size_t bay);
/* Share of a wheel at a place across the deck that the row takes in the bay; may be above
 * 1 or below 0 where boards overhang. 0 without a stringer there. */
double bwi_plan_wheel_share(const bwi_plan *p, int row, size_t bay, double across);
/* Diameter of a stringer at a distance from its first end (at bent `from`). */
double bwi_stringer_diameter(const bwi_plan *p, int stringer, double from_first);
/* Height of the stringer's axis above the ground at a bent. */
double bwi_row_height(const bwi_plan *p, int row, size_t bent);
double bwi_cap_diameter(const bwi_plan *p, size_t bent, double across);
/* The row has a stringer on or over the bent. */
bool bwi_row_meets_bent(const bwi_plan *p, int row, size_t bent);
/* The post of that row at the bent, or -1. */
int bwi_post_of_row(const bw_bent *bent, int row);

/* A post as framed: from the ground to the joint it carries. */
typedef struct {
    const bw_post *post;
    double top;        /* [m] above ground: its real end, under the cap */
    double foot_depth; /* [m] in the ground */
} bwi_post_place;
bwi_post_place bwi_plan_post(const bwi_plan *p, size_t bent, const bw_post *post);
/* Diameter at a height above ground (below it for the buried part, above the top by the
 * same straight taper, never less than half the tip). */
double bwi_post_diameter(const bwi_plan *p, const bwi_post_place *place, double height);

/* ---- contact between round logs ---- */

/* Width of a flat cut to the depth into a round log: 2 sqrt(D h - h^2). */
double bwi_flat_width(double diameter, double depth);
/* Area that a strip of the width shares with a circle of the diameter, both centred. */
double bwi_strip_on_circle(double width, double diameter);

/* ---- the buried part of a post ---- */

enum { BWI_FOOT_PIECES = 24 };

typedef struct {
    double k_xx, k_xr, k_rr; /* springs of the ground line, as in bw_support */
    double depth;            /* [m] 0: not in a hole */
    /* bending moment at the depths k / BWI_FOOT_PIECES under a unit push along +x and
     * under a unit anticlockwise moment at the ground line */
    double push_moment[BWI_FOOT_PIECES + 1], turn_moment[BWI_FOOT_PIECES + 1];
} bwi_foot;

bw_status bwi_foot_make(const bwi_plan *p, size_t bent, const bw_post *post,
                        bwi_foot *out, bw_diags *d);
/* Bending moment at the depth number k for the actions V, M of the post at the ground:
 * its local y points along -x, so V there pushes the buried part along +x. */
double bwi_foot_moment(const bwi_foot *foot, double shear, double moment, int k);

/* A member to add for a post with its support; returns the node of its upper end or -1.
 */
typedef struct {
    bw_frame *frame;
    double x;      /* [m] in the frame's plane */
    double ground; /* [m] height of the ground line in the frame */
    double top;    /* [m] height of the joint it carries, above ground */
    int top_node;
    bool hinge_top;
} bwi_post_frame;
bw_status bwi_post_add(const bwi_plan *p, size_t bent, const bw_post *post,
                       const bwi_post_frame *where, const bwi_foot *foot, int *member);

/* ---- frames ---- */

typedef struct {
    bw_frame *frame;
    int row;
    int *deck_node;   /* per bent; -1: the row does not meet it */
    int *bay_member;  /* per bay; -1: no stringer */
    int *post_member; /* per bent; -1: no post of this row */
    bwi_foot *feet;   /* per bent */
    int *path;        /* members that the rider runs along */
    size_t *path_bay; /* bay of each path member */
    int *path_place;  /* per bay: number in the path, -1 */
    size_t n_path;
    bw_influence *influence;
} bwi_row_frame;

bw_status bwi_row_frame_make(const bwi_plan *p, int row, bwi_row_frame *out, bw_diags *d);

/* Vertical force that the row puts on the bent (down positive) in a state, or under a
 * wheel. */
double bwi_row_reaction(const bwi_row_frame *f, const bw_state *s, size_t bent);
double bwi_row_wheel_reaction(const bwi_row_frame *f, const bw_wheel *wheel, size_t bent);

/* The same apart: from the stringer before the bent and from the one after it; wheel
 * null: of the state; else of the wheel on top of the state (which may be null). */
void bwi_row_end_forces(const bwi_row_frame *f, size_t bent, const bw_state *s,
                        const bw_wheel *wheel, double *before, double *after);

typedef struct {
    bw_frame *frame;
    size_t bent;
    double *node_across; /* ascending */
    int *node; /* node numbers of the cap's axis (or of post tops without a cap) */
    size_t n_nodes;
    int *cap_member;  /* n_nodes - 1; -1 without a cap */
    int *post_member; /* per post */
    bwi_foot *feet;
    int *row_node; /* per row: index into node, -1 */
} bwi_bent_frame;

bw_status bwi_bent_frame_make(const bwi_plan *p, size_t bent, bwi_bent_frame *out,
                              bw_diags *d);

/* ---- combinations and the search for the worst ---- */

/* Combinations that this case calls for; returns how many. */
size_t bwi_combinations(const bw_case *deck, bw_combination out[BW_COMBINATIONS_MAX]);

/* Where a rider stands. */
typedef struct {
    bool present;
    size_t bay;
    double along;  /* [m] from the bay's first bent, along the deck */
    int row;       /* row that carries it; -1: at a place across the deck */
    double across; /* [m] when row is -1 */
} bwi_rider_place;

typedef struct {
    const char *combination;
    bwi_rider_place rider;
    const char *pattern; /* which bays carry people, or null */
    double load_duration;
} bwi_event;

/* The worst seen so far of one check of one member. */
typedef struct {
    bool has;
    bw_ratio ratio;
    bw_check_input input;
    double station;
    bwi_event event;
} bwi_worst;

typedef struct {
    const bwi_plan *plan;
    bwi_worst (*worst)[BW_CHECK_KIND_COUNT]; /* per member of the assessment */
    size_t n_members;
    size_t first_cap, first_post; /* numbering: stringers, caps per bent, posts */
    size_t *post_first;           /* per bent: number of its first post */
    double worst_residual, worst_rcond;
} bwi_tracker;

bw_status bwi_tracker_make(const bwi_plan *p, bwi_tracker *out);
/* Keeps the ratio of the check if it is the worst yet; true if so. */
bool bwi_track(bwi_tracker *t, size_t member, bw_check_kind kind,
               const bw_check_input *in, double station, const bwi_event *event);
void bwi_track_frame(bwi_tracker *t, const bw_frame *f, const bw_state *s);

/* Checks of a post from its actions in one plane (and the moment from the other plane).
 */
typedef struct {
    size_t member; /* number in the tracker */
    bwi_post_place place;
    const bwi_foot *foot;
    double joint;        /* [m] height of the joint above ground */
    double other_moment; /* [N*m] largest moment of the other plane, added as a vector */
} bwi_post_check;
void bwi_check_post(bwi_tracker *t, const bwi_post_check *post, const bw_line *line,
                    const bwi_event *event, double *largest_moment);

/* Forces of every row on every bent, for the bent frames. */
typedef struct {
    double *dead, *snow;  /* row * n_bents + bent */
    double **crowd;       /* per pattern */
    const char **pattern; /* words */
    size_t n_patterns;
    double (
        *post_moment)[8]; /* per post: largest moment along the deck, per combination */
} bwi_transfer;

/* Which bays carry people: n_patterns rows of n_bays flags, with their words and room for
 * the forces in the transfer. */
bw_status bwi_patterns(const bwi_plan *p, bool ***flags, bwi_transfer *transfer);

bw_status bwi_search_row(bwi_tracker *t, bwi_row_frame *f, bwi_transfer *transfer,
                         bool **patterns);
/* rows: one per row of the case; those without stringers have no frame. */
bw_status bwi_search_bent(bwi_tracker *t, const bwi_row_frame *rows,
                          const bwi_transfer *transfer, size_t bent, bw_diags *d);

/* ---- words ---- */

extern const char *const bwi_not_checked[];
bw_status bwi_assumptions(const bwi_plan *p, bw_assessment *out);

const char *bwi_place_text(const bwi_tracker *t, size_t member, double station);
const char *bwi_rider_text(const bwi_plan *p, const bwi_event *event);

#endif
