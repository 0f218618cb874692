/* internal.h - what the files of the deck layer share.
 *
 * The deck falls apart into plane frames: one along the deck for every row (stringers and
 * the posts under them) and one across it for every bent (posts and cap). What the
 * stringers put on a bent is found in the row frames and carried over as forces on the
 * cap. */
#ifndef BWI_DECK_INTERNAL_H
#define BWI_DECK_INTERNAL_H

#include "bolewright/deck.h"

enum { BWI_ROWS_MAX = 64 };

/* Places in each bay at which a wheel is tried before the worst is searched for. */
enum { BWI_RIDER_POSITIONS = 20 };

/* Load cases of a row frame. */
enum {
    BWI_CASE_DEAD,
    BWI_CASE_SNOW,
    BWI_CASE_PUSH_DEAD, /* all dead load, along the deck instead of down */
    BWI_CASE_PUSH_AREA, /* 1 Pa along the deck on every bay */
    BWI_CASE_THRUST,    /* of a take-off ramp, forward */
    BWI_CASE_FIRST_BAY  /* people on each bay */
};

/* ---- the buried part of a post ---- */

enum { BWI_FOOT_PIECES = 24 };

typedef struct {
    double k_xx, k_xr, k_rr; /* springs of the ground line, as in bw_support */
    double depth;            /* [m] 0: not in a hole */
    /* bending moment at the depths k / BWI_FOOT_PIECES under a unit push along +x and
     * under a unit anticlockwise moment at the ground line */
    double push_moment[BWI_FOOT_PIECES + 1], turn_moment[BWI_FOOT_PIECES + 1];
    double per_modulus[BWI_FOOT_PIECES + 1]; /* [m-3] 1/S there, about any axis */
} bwi_foot;

/* Posts that are buried alike share one foot, in every frame: all are worked out with the
 * plan. */
typedef struct {
    bw_post post; /* what it is of: its log, its soil, its hole */
    double top, depth;
    bwi_foot foot;
} bwi_kept_foot;
typedef struct {
    size_t n;
    bwi_kept_foot *kept; /* as many as there are posts at most */
} bwi_feet;

/* ---- plan: where everything lies ---- */

/* Part of a stringer in one bay. */
typedef struct {
    int stringer;      /* -1: the row has no stringer in this bay */
    double from_first; /* [m] along the stringer from its first end to this part */
    double length;     /* [m] of this part */
} bwi_part_of_stringer;

/* How loads on the boards of a bay go to one of its rows, by the lever rule. */
typedef struct {
    double dead_width;    /* [m] of deck that weighs on the row */
    double crowd_width;   /* [m] the same, leaving out strips that would lift it */
    double rider_share;   /* largest share of a wheel anywhere across the deck */
    double machine_share; /* the same of the machine, both its tracks on the deck */
    double rider_push;    /* of what a rider pushes, as machine_push */
    double machine_push;  /* of its push, which rows that stand take for the others too */
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
    int lone_row;                   /* that all bays lie on alone, -1 */
    /* row-major, per bent: of bwi_row_post and bwi_row_stands */
    int *along_post;
    bool *stands;
    double *stringer_length; /* [m] between the outer supports */
    double *cap_top;         /* [m] above ground at each bent: underside of stringers */
    bwi_cap_place *caps;     /* per bent */
    const char **log_words;  /* per log: what flats and hollow leave of it */
    bw_joint *joints;        /* per joint of the case */
    int *end_joint;   /* of stringers: 2 (row * n_bents + bent), and 1 more for the one
                         after the bent: number of its joint, -1 */
    int *brace_joint; /* of braces: 2 brace, and 1 more for its second end */
    bwi_feet *feet;
} bwi_plan;

bw_status bwi_plan_make(bw_arena *arena, const bw_case *deck,
                        const bw_reference *references, bwi_plan *out, bw_diags *d);
/* The row that has the only stringer of a bay; -1 if it has none or more. */
int bwi_deck_lone_row(const bw_case *deck, size_t bay);
const bwi_part_of_stringer *bwi_plan_part(const bwi_plan *p, int row, size_t bay);
const bwi_share *bwi_plan_share(const bwi_plan *p, int row, size_t bay);
/* Share of a wheel at a place across the deck that the row takes in the bay; may be above
 * 1 or below 0 where boards overhang. 0 without a stringer there. */
double bwi_plan_wheel_share(const bwi_plan *p, int row, size_t bay, double across);
/* Its sum over the boards between two places across [m]. */
double bwi_plan_width_on_row(const bwi_plan *p, int row, size_t bay, double from,
                             double to);
/* Rows with a stringer in the bay, from left to right: numbers and places across; returns
 * how many. */
size_t bwi_plan_rows(const bwi_plan *p, size_t bay, int *rows, double *at);
/* Diameter of a stringer at a distance from its first end (at bent `from`). */
double bwi_stringer_diameter(const bwi_plan *p, int stringer, double from_first);
/* Height of the stringer's axis above the ground at a bent. */
double bwi_row_height(const bwi_plan *p, int row, size_t bent);
double bwi_cap_diameter(const bwi_plan *p, size_t bent, double across);
double bwi_cap_depth(const bwi_plan *p, size_t bent, double across);
/* How far the cap goes on past a place across, to its longer side. */
double bwi_cap_beyond(const bwi_plan *p, size_t bent, double across);
/* The row has a stringer on or over the bent. */
bool bwi_row_meets_bent(const bwi_plan *p, int row, size_t bent);
/* The post of that row at the bent, or -1. */
int bwi_post_of_row(const bw_bent *bent, int row);

/* ---- what holds rows along the deck ---- */

bw_status bwi_along_make(bwi_plan *p);
/* The post that holds the row at the bent, its own or one beside it, or -1. */
int bwi_row_post(const bwi_plan *p, int row, size_t bent);
/* The row that the post of this one holds at the bent, another if it has no stringer
 * there. */
int bwi_row_of_post(const bwi_plan *p, int row, size_t bent);
/* The row has a stringer on the bent, in a run that a post holds somewhere. */
bool bwi_row_stands(const bwi_plan *p, int row, size_t bent);
/* Part that another row takes of what a row has at a bent, and at which bent: the same if
 * it can. 0 for a row that stands. */
double bwi_handed(const bwi_plan *p, int from, size_t bent, int to, size_t *at);
/* Whether any row does. */
bool bwi_hands_over(const bwi_plan *p);
/* As bwi_plan_rows, those that stand. */
size_t bwi_rows_that_stand(const bwi_plan *p, size_t bay, int *rows, double *at);

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

/* ---- logs as they are: shape.c ---- */

/* [kg/m3] as felled, or full of water. */
double bwi_log_density(const bw_case *deck, const bw_log *log);
/* Distance from the butt of a place on a stringer (and back: it is the same). */
double bwi_stringer_from_butt(const bwi_plan *p, int stringer, double from_first);
/* Sections at both ends of part of a log, straight between and nowhere too thick. */
void bwi_stringer_sections(const bwi_plan *p, int stringer, double from_first,
                           double length, bw_section out[2]);
void bwi_cap_sections(const bwi_plan *p, size_t bent, const double across[2],
                      bw_section out[2]);
void bwi_post_sections(const bwi_plan *p, const bwi_post_place *place, double low,
                       double high, bw_section out[2]);
/* From butt to tip. */
void bwi_log_sections(const bw_log *log, bw_section out[2]);
/* Of a log where it has the diameter. */
bw_section bwi_log_section(const bw_log *log, double diameter);
/* At one place, as measured there. */
bw_section bwi_post_section(const bwi_plan *p, const bwi_post_place *place,
                            double height);
bw_section bwi_stringer_section(const bwi_plan *p, int stringer, double from_first);
/* Height above the ground of a notch of the post's log. */
double bwi_post_notch_height(const bwi_post_place *place, const bw_notch *notch);
/* Density that makes a hollow member weigh as if solid. */
double bwi_full_density(const bw_section section[2], double density);
/* Depth of the log, flats taken off, where it has the diameter. */
double bwi_log_depth(const bw_log *log, double diameter);

/* A hollow all along, as thick as it may be told. */
bool bwi_is_hollow(const bw_log *log);
/* A cut so deep into the round of the log goes through its shell where it has the
 * diameter. */
bool bwi_opens(const bw_log *log, double diameter, double depth);
/* Widths on which a log carries or is carried: of its own flat, else of a seat cut; NaN:
 * that goes through its shell, which bears then as nobody knows. */
double bwi_top_flat(const bw_log *log, double diameter, double seat_depth);
double bwi_bottom_flat(const bw_log *log, double diameter, double seat_depth);
/* How wide that is on top, whatever it bears. */
double bwi_top_width(const bw_log *log, double diameter, double seat_depth);
/* Area that a flat of the width shares with the end of a post. */
double bwi_strip_on_post(const bwi_plan *p, const bwi_post_place *place, double width);

/* The section of a log for a check; all zero for a full circle. any: a moment about any
 * axis, as posts have. */
bw_check_section bwi_check_section(const bwi_plan *p, int log, const bw_section *s);
bw_check_section bwi_check_section_any(const bwi_plan *p, int log, const bw_section *s);
/* Least area and second moment between two sections; all zero if both are full circles.
 */
bw_check_section bwi_weakest_between(const bwi_plan *p, int log, const bw_section end[2]);

typedef struct {
    const bw_notch *notch;
    bw_section whole; /* beside the notch */
    double moment;    /* [N*m] sagging positive */
    bool at_end;      /* within a depth of an end of the log's span */
    bool any_axis;    /* a post */
} bwi_notch_place;
/* Turns the input of a whole section into that of a notched one. A notch on the side in
 * tension goes by the shear rule of notches at an end, and has no rule elsewhere. */
void bwi_notch_input(const bwi_plan *p, int log, const bwi_notch_place *at,
                     bw_check_input *in);
/* Warns of notches in the middle thirds of stringers. */
void bwi_warn_notches(const bwi_plan *p, bw_diags *d);
bw_status bwi_name_shapes(bwi_plan *p);

/* ---- contact between round logs ---- */

/* Width of a flat cut to the depth into a round log: 2 sqrt(D h - h^2). */
double bwi_flat_width(double diameter, double depth);
/* Area that a strip of the width shares with a circle of the diameter, both centred. */
double bwi_strip_on_circle(double width, double diameter);

bw_status bwi_feet_start(bwi_plan *p);
bw_status bwi_foot_make(const bwi_plan *p, size_t bent, const bw_post *post,
                        bwi_foot *out, bw_diags *d);
/* Bending moment at the depth number k for the actions V, M of the post at the ground:
 * its local y points along -x, so V there pushes the buried part along +x. */
double bwi_foot_moment(const bwi_foot *foot, double shear, double moment, int k);

/* A post in a frame: members from the ground up, cut where braces meet it. */
enum { BWI_CHAIN_MAX = 10 };
typedef struct {
    int n;                        /* members; 0: no post */
    int first;                    /* they follow on each other */
    double at[BWI_CHAIN_MAX + 1]; /* [m] heights of their ends above ground */
    int node[BWI_CHAIN_MAX + 1];
    bool hinge_top;
} bwi_chain;

typedef struct {
    bw_frame *frame;
    double x;   /* [m] in the frame's plane */
    double top; /* [m] height of the joint it carries, above ground */
    int top_node;
    bool hinge_top;
    bool along;        /* the frame lies along the deck: its braces count */
    const bool *slack; /* braces left out */
} bwi_post_frame;
bw_status bwi_post_add(const bwi_plan *p, size_t bent, const bw_post *post,
                       const bwi_post_frame *where, const bwi_foot *foot, bwi_chain *out,
                       bw_diags *d);

/* ---- braces ---- */

/* It lies along the deck (else across). */
bool bwi_brace_is_along(const bw_brace *b);
/* Where it ends in the plane that it lies in: along or across the deck, and above the
 * ground [m]. */
void bwi_brace_end(const bwi_plan *p, const bw_brace_end *end, bool along, double *x,
                   double *y);
double bwi_brace_length(const bwi_plan *p, const bw_brace *b); /* [m] */
/* Adds a brace between two nodes, hinged; *member is its number. */
bw_status bwi_brace_add(const bwi_plan *p, bw_frame *f, int brace, int from, int to,
                        int *member);
/* Node of a chain at a height; -1 if there is none. */
int bwi_chain_node(const bwi_chain *c, double height);
/* Whether a frame with these braces is the same whichever way things are pushed: none is
 * left out, and none could be. */
bool bwi_same_both_ways(const bwi_plan *p, const int *brace_member, bool slackened);
/* Marks braces that this state would pull although they can only push; true if any is
 * new. */
bool bwi_mark_slack(const bwi_plan *p, const bw_state *s, const int *brace_member,
                    bool *slack);

/* ---- joints and seats ---- */

/* Which joint is at which end: numbers in end_joint and brace_joint. */
bw_status bwi_joints_number(bwi_plan *p);
/* Turns the joints of the case into those of the checks. */
void bwi_joints_make(bwi_plan *p);
/* One log of a joint: how thick along the fasteners, and its area. */
bw_joint_log bwi_joint_log(const bwi_plan *p, int log, double thickness, double area,
                           const bw_fasteners *f);
/* What is not known of a joint and a check of it needs, in words. */
const char *bwi_joint_missing(const bwi_plan *p, const bw_joint *joint);

/* The stringer before a bent, or after it. */
typedef enum { BWI_BEFORE, BWI_AFTER } bwi_side;
int bwi_end_joint(const bwi_plan *p, int row, size_t bent, bwi_side side);
/* The stringer there, or -1. */
int bwi_stringer_at(const bwi_plan *p, int row, size_t bent, bwi_side side);
bool bwi_is_hung(const bwi_plan *p, int joint);
bool bwi_is_fastened(const bwi_plan *p, int joint); /* its fasteners are described */

/* What the end of a stringer does at a bent. */
typedef struct {
    int stringer, joint;
    double station; /* [m] along it */
    double down;    /* [N] on the bent */
    double dead;    /* [N] of that, what stays, with the factor 1 */
    double along;   /* [N] along the deck, on the bent */
} bwi_end;
/* Width of the holes that a joint bores upright through a log side by side [m]. */
double bwi_joint_holes(const bwi_plan *p, int joint);
/* From the middle of a post to that of a stringer hung on its side [m]; 0: it does not.
 */
double bwi_hung_arm(const bwi_plan *p, int row, size_t bent, bwi_side side);
/* Moment that such stringers put on their post [N*m]. */
double bwi_hung_moment(const bwi_plan *p, int row, size_t bent, const double down[2]);

/* Joints and braces that end where no wood is: hung on a post, or braced against one,
 * above its top. To be asked before anything is made of the joints. */
void bwi_ends_fit(const bwi_plan *p, bw_diags *d);
/* An end distance that would put the fasteners beside what they go into is no distance:
 * it is taken off the joint, which then cannot be judged, and a warning says so. */
void bwi_fit_end_distances(bwi_plan *p, bw_diags *d);
/* How far a log goes on past the middle of its last seat [m]: half of what it is longer
 * than its place. */
double bwi_log_beyond(const bwi_plan *p, int stringer);

/* Length of the seat along a stringer at a bent [m], on a support that is so wide: all of
 * it under a log that runs on, half where two ends meet or where a log ends that nobody
 * has measured to be longer. */
double bwi_seat_length(const bwi_plan *p, int row, size_t bent, bwi_side side,
                       double width);

/* The same of a level seat under a stringer that may slope. */
double bwi_level_seat(const bwi_plan *p, int row, size_t bent, bwi_side side,
                      double width);

/* How far forward of the middle of what it lies on the end of a stringer presses, the
 * middle of its seat [m]; one hung on a cap at its face, one hung on a post not at all.
 */
double bwi_seat_beside(const bwi_plan *p, int row, size_t bent, bwi_side side);
/* Width along the deck of what a stringer of the row bears on [m]. */
double bwi_support_width(const bwi_plan *p, int row, size_t bent);

/* A log where seats are cut off it. */
typedef struct {
    bw_section whole;
    bool top, bottom; /* where */
    bool at_end;      /* the log ends there: the notch rule of shear */
    double reach;     /* [m] line of the reaction to the inner end of the seat */
    double holes;     /* [m] bored upright through it, side by side */
} bwi_seat_place;
/* What the seats leave of it, worked out once for all loads. */
typedef struct {
    bool is_cut, at_end;
    bool no_rule[2];     /* hogging, sagging: a seat in tension away from the ends that
                            takes more than a sixth of the depth */
    bw_check_input left; /* without actions */
} bwi_seat;
bwi_seat bwi_seat_cut(const bwi_plan *p, int log, const bwi_seat_place *at);
/* The input of a cut seat under a moment (sagging positive) [N*m] and a shear [N]. */
bw_check_input bwi_seat_input(const bwi_seat *seat, double moment, double shear);

/* Where a rider stands. */
typedef struct {
    bool present;
    size_t bay;
    double along;  /* [m] from the bay's first bent, along the deck */
    int row;       /* row that carries it; -1: at a place across the deck */
    double across; /* [m] when row is -1 */
    bool machine;  /* it is no rider but the machine, its middle there */
    bool alone;    /* of several riders that may come in a line only one is there */
} bwi_rider_place;

/* What moves over the deck in a combination: riders, or the machine. */
typedef struct {
    double mass;                  /* [kg] of one; 0: there is none */
    int count;                    /* in a line */
    double spacing;               /* [m] from one to the next */
    double wheelbase, rear_share; /* [m], 0: one contact; of the weight on the wheels that
                                     come first */
    double track;                 /* [m] between wheels side by side */
    double factor, push;          /* over the weight: down; along or across */
} bwi_mover;
bwi_mover bwi_mover_of(const bw_case *deck, bool machine);
/* The same as it is in a combination: a slow rider presses less hard. */
bwi_mover bwi_mover_in(const bw_case *deck, const bw_combination *c);
/* How many ways it comes: the riders in a line, and one of them alone. */
int bwi_mover_ways(const bwi_mover *mover);
/* The factor on it; 0: nothing moves in this combination. */
double bwi_moving(const bw_combination *c);
/* Whether deflections are asked under a push that way: it does not sag a frame, so once
 * is enough, but a brace that is slack one way props the other way round. */
bool bwi_gives(const bwi_plan *p, int push);
/* How far its middle can be from the centre line [m]. */
double bwi_mover_reach(const bw_case *deck, const bwi_mover *mover);

/* ---- frames ---- */

/* Seats of a stringer that are looked at for lifting: longer ones count as held down. */
enum { BWI_SEATS_MAX = 16 };

/* A stringer stands off one of its seats by a unit: the ends of its parts there. */
typedef struct {
    size_t n;
    bw_wheel wheel[2];
} bwi_gap;

/* A stringer over more than one bay: it may come off its seats. See lift.c. */
typedef struct {
    int stringer;
    size_t first, n;   /* its seats are the bents first .. first + n - 1 */
    bool has_knee;     /* that holds it up too */
    bwi_gap *gap;      /* per seat */
    double *stiffness; /* [N/m] n x n: force on seat i at a unit gap of seat j */
    double *rest;      /* [N] n: on the seats, held down, under what always weighs */
    double *load;      /* [N] n per load: on the seats, held down; for the bents */
} bwi_lift;
enum { BWI_LIFT_DEAD, BWI_LIFT_SNOW, BWI_LIFT_FIRST_PATTERN };

typedef struct {
    bw_frame *frame;
    int row;
    int *deck_node;    /* per bent; -1: the row does not meet it */
    int *bay_member;   /* per bay: first piece of its stringer; -1: no stringer */
    int *bay_pieces;   /* per bay: how many, knees cut it; they follow on each other */
    bwi_chain *posts;  /* per bent; n = 0: no post of this row */
    int *brace_member; /* per brace of the case; -1: not in this frame, or slack */
    const bw_brace *braces;
    size_t n_braces;
    int *knee_node;   /* per brace: where it meets a stringer; -1 */
    int direction;    /* +1, -1: which way the pushes go for which braces are slack */
    bool slackened;   /* a brace is left out because it would have to pull */
    bwi_foot *feet;   /* per bent */
    int *path;        /* members that the rider runs along */
    size_t *path_bay; /* bay of each path member */
    int *path_place;  /* per bay: number of its first piece in the path, -1 */
    size_t n_path;
    bw_influence *influence;
    /* per bent: of rows that hand over, what comes to a post under all loads [N], and
     * its moment about the post [N*m] */
    double *handed_load, *handed_turn;
    double *seat_beside[2]; /* per bent, of the ends before and after it [m] */
    bwi_lift *lifts;        /* of the row's stringers that run on */
    size_t n_lifts;
} bwi_row_frame;

/* The frame for pushes one way along the deck: braces that would have to pull are left
 * out. */
bw_status bwi_row_frame_make(const bwi_plan *p, int row, int direction,
                             bwi_row_frame *out, bw_diags *d);

/* Which way a take-off ramp is pushed where all is pushed that way: riders leave the deck
 * at its ends, and go either way over a bent between them. 0: not. */
int bwi_thrust_way(const bw_case *deck, int direction);

/* The stringer in a bay as one straight line of pieces; x [m] from the bay's first bent
 * along its axis. */
enum { BWI_PIECES_MAX = 6 };
typedef struct {
    size_t n; /* 0: no stringer */
    bw_line line[BWI_PIECES_MAX];
    double from[BWI_PIECES_MAX + 1]; /* where the pieces begin, and the end */
} bwi_bay;

double bwi_bay_length(const bwi_row_frame *f, size_t bay);
/* The piece at x (which becomes the distance along it); at a cut the one before or after.
 */
int bwi_bay_piece(const bwi_row_frame *f, size_t bay, double *x, bool before);
/* Under the wheels on top of a state (null: none). */
bwi_bay bwi_bay_read(const bwi_row_frame *f, size_t bay, const bw_state *s,
                     const bw_wheel *wheels, size_t n_wheels, bw_arena *arena);
bw_action bwi_bay_action(const bwi_bay *b, double x, bool before);

/* Wheels of all riders, or of the machine, on a row when the first of them stands at the
 * place: static weights with the row's share (the largest anywhere if the place names the
 * row). Riders follow forward at their spacing; those beyond the deck's end are left out.
 */
enum { BWI_WHEELS_MAX = 32 };
typedef struct {
    size_t n;
    bw_wheel wheel[BWI_WHEELS_MAX + 2 * BWI_SEATS_MAX]; /* gaps come last */
    size_t last_bay;                                    /* of the wheels */
} bwi_wheels;
/* Factors on what moves: down, and of its weight along the deck. */
typedef struct {
    double down, along;
} bwi_blow;
/* Places of the rider along its bay that are worth a look [m]: a grid over the bay, and
 * those that put another wheel right before or right after a bent, or any over a notch of
 * the row. Returns how many. */
enum { BWI_STOPS_MAX = 2048 }; /* 32 wheels at 31 bents within one bay's length */
size_t bwi_rider_stops(const bwi_plan *p, const bwi_rider_place *rider, int direction,
                       int grid, double stops[BWI_STOPS_MAX]);
/* Share of what moves that the row has of it where it stands; below 0: it lifts the row.
 */
double bwi_mover_share(const bwi_plan *p, int row, const bwi_rider_place *rider);
/* The wheels that stand on the row; *out need not be cleared. */
void bwi_riders(const bwi_plan *p, const bwi_row_frame *f, const bwi_rider_place *rider,
                int direction, bwi_blow blow, bwi_wheels *out);

/* Vertical force that the row puts on the bent (down positive) in a state, or under a
 * wheel: through the seat, and through knees on the post. */
double bwi_row_reaction(const bwi_row_frame *f, const bw_state *s, size_t bent);
double bwi_row_wheel_reaction(const bwi_row_frame *f, const bwi_wheels *wheels,
                              size_t bent);

/* Along the deck, what the stringer before the bent and the one after it push it forward
 * with. */
void bwi_row_end_pushes(const bwi_row_frame *f, size_t bent, const bw_state *s,
                        const bwi_wheels *wheels, double *before, double *after);

/* The same apart: from the stringer before the bent and from the one after it; wheel
 * null: of the state; else of the wheel on top of the state (which may be null). */
void bwi_row_end_forces(const bwi_row_frame *f, size_t bent, const bw_state *s,
                        const bwi_wheels *wheels, double *before, double *after);

/* ---- lifting ---- */

/* Every stringer of the row that runs on; the influence lines must be there. */
bw_status bwi_lifts_make(const bwi_plan *p, bwi_row_frame *f);
/* Force down on a seat of the stringer, held down, from its own parts alone. */
double bwi_seat_force(const bwi_row_frame *f, const bwi_lift *lift, size_t seat,
                      const bw_state *s, const bwi_wheels *wheels);
/* Gaps of the stringer when it is free to lift, from the forces on its held seats: if it
 * would fly off, as far as it comes by itself. False if it does not lift. */
bool bwi_lift_solve(const bwi_lift *lift, const double *held, double gap[BWI_SEATS_MAX]);
/* The gaps as wheels without weight. */
void bwi_gaps(const bwi_lift *lift, const double *gap, bwi_wheels *out);
/* The wheels (null: none) with the gaps of the stringer free to lift under them on top of
 * the state. False as above. */
bool bwi_lift_off(const bwi_row_frame *f, const bwi_lift *lift, const bw_state *s,
                  const bwi_wheels *wheels, bwi_wheels *out);

typedef struct {
    bw_frame *frame;
    size_t bent;
    double *node_across; /* ascending */
    int *node; /* node numbers of the cap's axis (or of post tops without a cap) */
    size_t n_nodes;
    int *cap_member;   /* n_nodes - 1; -1 without a cap */
    bwi_chain *posts;  /* per post */
    int *brace_member; /* per brace of the case; -1: not in this frame, or slack */
    int direction;
    bool slackened; /* as for a row */
    bwi_foot *feet;
    int *row_node; /* per row: index into node, -1 */
} bwi_bent_frame;

/* Load cases: own weight; 1 N down at each row; 1 N sideways at deck level; 1 N*m that
 * tips the lone row to the right. */
bw_status bwi_bent_frame_make(const bwi_plan *p, size_t bent, int direction,
                              bwi_bent_frame *out, bw_diags *d);

/* ---- combinations and the search for the worst ---- */

/* Combinations that this case calls for; returns how many. */
size_t bwi_combinations(const bw_case *deck, bw_combination out[BW_COMBINATIONS_MAX]);

typedef struct {
    const char *combination;
    bwi_rider_place rider;
    const char *pattern; /* which bays carry people, or null */
    const char *push;    /* which way things are pushed, in words, or null */
    int direction;       /* of the push: +1, -1; 0 without */
    bool lifts;          /* a stringer is off a seat; else all are held down */
    double dead;         /* factor on what stays */
    double load_duration, lasting_share;
    bool not_ground, only_ground; /* which checks it is for, else all */
} bwi_event;

/* The place moved along the deck, over bents too, as far as its row (any row: -1) has
 * stringers. */
bwi_rider_place bwi_rider_moved(const bwi_plan *p, bwi_rider_place rider, double by);

/* The worst seen so far of one check of one member. */
typedef struct {
    bool has;
    bw_ratio ratio;
    bw_check_input input;
    double station;
    bwi_event event;
} bwi_worst;

/* One check of one member, with stringers held down or free to lift, and the most that it
 * has come to since most was cleared; the others are not looked at meanwhile. */
typedef struct {
    size_t member;
    bw_check_kind kind;
    bool lifts;
    double most;
} bwi_probe;

/* Places of the riders that a search has found bad for one check of one member, well
 * apart; value 0: none. Stringers held down and free to lift are two curves, each with
 * humps of its own: they are climbed one by one. */
enum { BWI_PEAKS = 3 };
typedef struct {
    double value;
    bwi_rider_place place;
} bwi_peak;

/* What stands on a board, for the words. */
typedef enum {
    BWI_ON_BOARD_NOTHING, /* but what stays, and snow */
    BWI_ON_BOARD_PEOPLE,  /* on every span, or on every other one */
    BWI_ON_BOARD_WHEEL,
    BWI_ON_BOARD_MACHINE, /* the left wheel of its heavier axle */
    BWI_ON_BOARD_PERSON
} bwi_board_load;
typedef struct {
    bwi_board_load what;
    double at; /* [m] across, of the wheel or the person */
    size_t bay;
} bwi_board_where;

/* What is remembered of a member. */
typedef struct {
    bwi_worst worst[BW_CHECK_KIND_COUNT];
    bwi_peak peaks[BW_CHECK_KIND_COUNT][2][BWI_PEAKS]; /* held, free to lift */
} bwi_member_record;

/* Largest values of all searches that words tell and no check knows. */
typedef enum {
    BWI_TOP_PUSH,    /* [N] of what lies on a post, to either side */
    BWI_TOP_TURN,    /* [N*m] on it, along the deck, by ends beside its middle */
    BWI_CAP_PUSH,    /* [N] of a stringer on a cap that nothing described holds */
    BWI_SILL_PUSH,   /* [N] the same on a sill */
    BWI_PAD_PUSH,    /* [N] on the foot of a post on a pad */
    BWI_LONE_TURN,   /* [N*m] on a bent under the lone row */
    BWI_BASE_MOMENT, /* [N*m] on the base of a fixed post */
    BWI_BASE_PUSH,   /* [N] */
    BWI_BASE_LIFT,   /* [N] */
    BWI_MOST
} bwi_most;

typedef struct bwi_tracker bwi_tracker;
struct bwi_tracker {
    const bwi_plan *plan;
    const bwi_tracker *root; /* that this one was forked from, or null */
    bwi_member_record *
        *record;    /* per member of the assessment; null in a fork: nothing yet */
    bw_arena *kept; /* of a fork: where records are made */
    size_t n_members;
    size_t first_cap, first_post; /* numbering: stringers, caps per bent, posts */
    size_t *post_first;           /* per bent: number of its first post */
    size_t first_brace;
    size_t boards; /* numbered last; n_members if they are not looked at */
    bw_reference *board_reference;
    bwi_board_where board_where[BW_CHECK_KIND_COUNT];
    double board_lift; /* [N] largest force that lifts a board off a row, less the dead
                          load that counts against it */
    bool board_lift_factored; /* it is a design force */
    bool board_rocks;         /* it holds against rocking on a narrow seat too */
    double *lift; /* [N] per member: largest force that lifts a stringer's end, or what
                     lies on a post */
    double most[BWI_MOST];
    double worst_residual, worst_rcond;
    double stiffness_ratio; /* least E_min / E of the logs */
    bw_buckled *buckled_rows, *buckled_bents;
    bwi_probe *probe; /* null: no place is compared with another */
    bw_status failed; /* of a second-order solution, out of memory */
};

/* Keeps the value if it is the largest of its kind yet. */
void bwi_note(bwi_tracker *t, bwi_most of, double value);

bw_status bwi_tracker_make(const bwi_plan *p, bwi_tracker *out);
/* One for a part of the searches that runs beside others: begins with what the root
 * knows, which must not change meanwhile. plan: the root's with another arena; kept: one
 * that searches do not rewind. */
bw_status bwi_tracker_fork(const bwi_tracker *root, const bwi_plan *plan, bw_arena *kept,
                           bwi_tracker *out);
/* The root learns what the fork has found, whose arenas must live on. */
void bwi_tracker_join(bwi_tracker *root, const bwi_tracker *fork);
/* The worst of a check so far; it has nothing if it was never asked. */
const bwi_worst *bwi_tracked(const bwi_tracker *t, size_t member, int kind);
/* The places kept of it, BWI_PEAKS; null: none yet. */
const bwi_peak *bwi_peaks(const bwi_tracker *t, size_t member, int kind, bool lifts);
/* To write to; null without memory. */
bwi_member_record *bwi_record_of(bwi_tracker *t, size_t member);
/* Whether checks of the member are looked at. */
bool bwi_wants(const bwi_tracker *t, size_t member);
/* Whether those of the soil, or those of the wood, are. */
bool bwi_wants_soil(const bwi_tracker *t, bool soil);
/* Whether those of seats and joints, or those of the parts themselves, are. */
bool bwi_wants_seats(const bwi_tracker *t, bool seats);
/* Whether those with stringers free to lift are, or those with all of them held. */
bool bwi_wants_lifts(const bwi_tracker *t, bool lifts);
/* Whether those of a brace are, or of what it bears on. */
bool bwi_wants_brace(const bwi_tracker *t, size_t brace);
void bwi_peaks_clear(bwi_tracker *t, size_t member); /* before a search begins */
bool bwi_has_peak(const bwi_tracker *t, size_t member, bw_check_kind kind);
/* Keeps the ratio of the check if it is the worst yet; true if so. The duration of the
 * loads is put into the input. */
bool bwi_track(bwi_tracker *t, size_t member, bw_check_kind kind, bw_check_input *in,
               double station, const bwi_event *event);
void bwi_track_frame(bwi_tracker *t, const bw_frame *f, const bw_state *s);
/* Where a load cannot be put into numbers: whatever is not over anyway cannot be said. */
void bwi_track_unknown(bwi_tracker *t, const char *combination);

/* A place in a plane, and whether it is a corner of the smallest convex figure around
 * all. */
typedef struct {
    double x, y;
    bool is_corner;
} bwi_point;
/* False without memory. All are corners if one is not a number. */
bool bwi_mark_corners(bwi_point *points, size_t n, bw_arena *arena);

/* Looks for worse places of the riders around the peaks of the search. */
typedef struct {
    size_t member;
    bw_check_kind kind;
    double first_step; /* of the bay: half of what the grid left open */
    double open[2];    /* part of a hump's height that the grid may have missed: of
                          stringers held, and free to lift */
    bool curved;       /* every place costs a second-order solution */
    bw_status (*try_place)(void *search, const bwi_rider_place *to);
    void *search;
} bwi_refinement;
bw_status bwi_refine(bwi_tracker *t, const bwi_refinement *r);

/* A brace that only pushes, and would have to pull at an end. */
bool bwi_brace_would_pull(const bw_brace *brace, const bw_line *line, double length);

/* Checks of a post from its actions in one plane (and the moment from the other plane).
 */
typedef struct {
    size_t member; /* number in the tracker */
    bwi_post_place place;
    const bwi_foot *foot;
    const bwi_chain *chain;
    double other_moment; /* [N*m] largest moment of the other plane, added as a vector */
    double turned; /* [N*m] by what lies beside its axis, added from top to ground */
    double other_turned; /* [N*m] the same in the other plane, of other_moment */
    double dead_down;    /* [N] down at the ground line from what stays */
} bwi_post_check;
/* lines: of the chain's members, from the ground up. */
void bwi_check_post(bwi_tracker *t, const bwi_post_check *post, const bw_line *lines,
                    const bwi_event *event, double *largest_moment);
/* A brace: pressed, pulled, and bent by its own weight. */
void bwi_check_brace(bwi_tracker *t, int brace, const bw_line *line, double length,
                     const bwi_event *event);

/* How its ends hand over what it pushes and pulls. */
void bwi_check_brace_ends(bwi_tracker *t, int brace, const bw_line *line, double length,
                          const bwi_event *event);
/* A stringer's end on its joint, if one is described. */
void bwi_check_end_joint(bwi_tracker *t, const bwi_end *end, const bwi_event *event);
/* The joints of a row at a bent under a push across the deck [N]. */
void bwi_check_sideways(bwi_tracker *t, int row, size_t bent, double push,
                        const bwi_event *event);

/* ---- stability ---- */

/* Largest compressions of a frame's members over all states of a search: if it stands
 * under all of them at once, no state needs to be looked at by itself. */
typedef struct {
    double *press;   /* per member [N] */
    bool collecting; /* the states are gone through for these alone */
    bool stands;
} bwi_presses;
bw_status bwi_presses_start(const bw_frame *f, bw_arena *arena, bwi_presses *out);
bw_status bwi_presses_end(bw_frame *f, bw_arena *arena, bwi_presses *presses,
                          bw_diags *d);

/* Checks the frame under the loads of a state against buckling and files it under the
 * member. True if the frame is so near to buckling that it must be solved in its bent
 * shape; found then says how near, and which way it goes. */
typedef struct {
    size_t member;
    const bwi_event *event;
    const bwi_presses *presses;
    const bw_buckled *lowest; /* of the frame so far: what stands that is not lower */
} bwi_buckling_of;
bool bwi_check_buckling(bwi_tracker *t, bw_frame *f, const bw_state *s,
                        const bwi_buckling_of *of, bw_buckling *found, bw_diags *d);

/* Room for the shapes, empty. */
bw_status bwi_buckled_make(const bwi_plan *p, bw_buckled **rows, bw_buckled **bents);
/* Keeps what was found if it is the lowest yet. */
void bwi_keep_buckled_row(const bwi_plan *p, const bwi_row_frame *f,
                          const bw_buckling *found, const bwi_event *event,
                          bw_buckled *out);
void bwi_keep_buckled_bent(const bwi_plan *p, const bwi_bent_frame *f,
                           const bw_buckling *found, const bwi_event *event,
                           bw_buckled *out);
/* The state in the bent shape. If it buckles there is none: the member is marked as
 * buckled, and the first comes back, so that what else is wrong is told too. Null without
 * memory. */
const bw_state *bwi_bend(bwi_tracker *t, const bw_state *first, size_t member,
                         const bwi_event *event);

/* Strips of the width that people stand on while nobody is on the rest. */
typedef enum {
    BWI_WHOLE_WIDTH, /* of every row the people who press on it */
    BWI_LEFT_OVERHANG,
    BWI_RIGHT_OVERHANG,
    BWI_BOTH_OVERHANGS,
    BWI_LEFT_PART, /* half way from the outer row to the middle */
    BWI_RIGHT_PART,
    BWI_LEFT_SIDE,
    BWI_RIGHT_SIDE,
    BWI_NOT_LEFT_PART,
    BWI_NOT_RIGHT_PART,
    BWI_NOT_LEFT_OVERHANG,
    BWI_NOT_RIGHT_OVERHANG,
    BWI_STRIPS
} bwi_strip;
/* [m] of the strip that weighs on the row in the bay; below 0: it lifts the row. */
double bwi_strip_on_row(const bwi_plan *p, bwi_strip strip, int row, size_t bay);
/* Part of the deck's width that it has in the bays beside a bent, the larger one. */
double bwi_strip_part(const bwi_plan *p, bwi_strip strip, size_t bent);
const char *bwi_strip_words(bwi_strip strip);

/* Who is on a row. */
typedef struct {
    const bool *on;     /* per bay; null: nobody */
    const double *part; /* per bay: of those who press on it, may be below 0; null: all */
    double pushing;     /* part of all who push along the deck */
} bwi_people;
/* On a strip, on the bays that are on. part: null without memory. */
bwi_people bwi_people_on_strip(const bwi_plan *p, bwi_strip strip, int row,
                               const bool *on);
/* Where they lift the row, which they do in some bay; else part is null. */
bwi_people bwi_people_lifting(const bwi_plan *p, int row, const bool *on);

/* Forces of every row on every bent, for the bent frames. */
typedef struct {
    double *dead, *snow;  /* row * n_bents + bent */
    double **crowd;       /* n_patterns per strip */
    const char **pattern; /* words */
    size_t n_patterns;
    bwi_strip strip[BWI_STRIPS]; /* those that differ, the whole width first */
    size_t n_strips;
    double (*post_turned)[BW_COMBINATIONS_MAX]; /* per post, per combination: largest
                                                   moment of what lies beside its axis
                                                   along the deck */
    double (*post_moment)[BW_COMBINATIONS_MAX]; /* per post: largest moment along the
                                                   deck, per combination */
} bwi_transfer;

/* Which bays carry people: n_patterns rows of n_bays flags, with their words and room for
 * the forces in the transfer. */
bw_status bwi_patterns(const bwi_plan *p, bool ***flags, bwi_transfer *transfer);

/* All searches in rows and bents, on so many threads; the results do
 * not depend on their number. A loose part does not stop it, so that all are named in one
 * run. dead_weight: of all rows [N]. */
bw_status bwi_search_frames(bwi_tracker *t, int threads, double *dead_weight,
                            bw_diags *d);

bw_status bwi_search_row(bwi_tracker *t, bwi_row_frame *f, bwi_transfer *transfer,
                         bool **patterns, bw_diags *d);
/* Of a row that is not searched what it hands to the bents: people on one side press on
 * it otherwise than on the one that it is like. */
bw_status bwi_hand_over(bwi_tracker *t, bwi_row_frame *f, bwi_transfer *transfer,
                        bool **patterns);
/* rows: one per row of the case; those without stringers have no frame. */
bw_status bwi_search_bent(bwi_tracker *t, const bwi_row_frame *rows,
                          const bwi_transfer *transfer, size_t bent, bw_diags *d);

/* ---- rows alike ---- */

/* An earlier row for which all that is found holds for this one too; -1: none. */
int bwi_row_like(const bwi_plan *p, int row);
/* What was found for one row, to the other. */
void bwi_row_copy(bwi_tracker *t, int from, int to);

/* ---- vibration ---- */

/* First vertical frequency of a bay of a row as a simple beam [Hz]; NaN without memory.
 */
double bwi_bay_frequency(const bwi_plan *p, int row, size_t bay, bool people);
bw_assumption bwi_vibration_flag(const bwi_plan *p);

/* ---- boards ---- */

/* The last of all searches: boards know no frames but their own. */
bw_status bwi_search_boards(bwi_tracker *t, bw_diags *d);
/* [N] of one wheel on one board, standing still */
double bwi_board_wheel(const bw_case *deck, const bwi_mover *mover);
/* Whether both wheels of a rider press when the blow comes: who lands does on one,
 * and a factor alone may be of a landing. */
bool bwi_blow_is_shared(const bw_loads *l);
bw_sourced bwi_board_person(const bw_case *deck); /* [N] */
/* Where the loads of the worst finding of a check are. */
const char *bwi_board_position(const bwi_tracker *t, int kind);
enum { BWI_BOARD_FLAGS_MAX = 10 };
/* What the checks of boards rest on, and rules of thumb that they do not meet. */
bw_status bwi_board_flags(const bwi_tracker *t, bw_assumption out[BWI_BOARD_FLAGS_MAX],
                          size_t *n_out);

/* ---- words ---- */

extern const char bwi_boards_not_checked[]; /* one of them */
extern const char *const bwi_not_checked[];
/* An assumption that is to be done. */
bw_status bwi_add_to_do(const bwi_plan *p, bw_assessment *out, bw_mark mark,
                        const char *source, const char *text);
/* What to see to because no check knows it, whatever the loads. */
bw_status bwi_to_do(const bwi_plan *p, bw_assessment *out);
bw_status bwi_assumptions(const bwi_tracker *t, bw_assessment *out);
/* Why the riders cannot be put into numbers, or null. */
const char *bwi_rider_unknown(const bw_case *deck);
bw_status bwi_load_lines(const bwi_plan *p, bw_assessment *out);
bw_status bwi_flags(const bwi_plan *p, bw_assessment *out);

const char *bwi_across_text(const bwi_plan *p, double across);
const char *bwi_place_text(const bwi_tracker *t, size_t member, double station);
const char *bwi_rider_text(const bwi_plan *p, const bwi_event *event);
const char *bwi_position_text(const bwi_plan *p, const bwi_event *event);
const char *bwi_push_along(int direction);
const char *bwi_push_across(int direction);

#endif
