/* checks.h - demand against capacity, with the whole working.
 *
 * A check takes plain action effects at one place (never a frame) and returns demand,
 * capacity and their ratio; asked for it, it also records every symbol, value, unit and
 * source, so that a person can redo the line by hand. Search and record run the same
 * function. A basis is one table of checks; nothing outside it knows which basis is in
 * use. SI. */
#ifndef BW_CHECKS_H
#define BW_CHECKS_H

#include "bolewright/wood.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef enum {
    BW_CHECK_BENDING,
    BW_CHECK_SHEAR,
    BW_CHECK_COMPRESSION,  /* post: column stability included */
    BW_CHECK_COMBINED,     /* bending with compression */
    BW_CHECK_BEARING,      /* across the grain */
    BW_CHECK_END_BEARING,  /* end grain of a post */
    BW_CHECK_DEFLECTION,   /* under the moving load alone */
    BW_CHECK_SAG,          /* long-term, with creep */
    BW_CHECK_SOIL_LATERAL, /* a post pushed sideways in its hole */
    BW_CHECK_SOIL_BEARING, /* the ground under a post, pad or sill */
    BW_CHECK_UPLIFT,       /* a post pulled out of the ground */
    BW_CHECK_BUCKLING,     /* the whole frame leaning over or bowing out */
    BW_CHECK_JOINT,        /* fasteners pushed sideways: a load hung, or a log located */
    BW_CHECK_SPLIT,        /* the wood of a log that hangs on fasteners */
    BW_CHECK_LIFT,         /* fasteners drawn out along their length */
    BW_CHECK_ANGLE,        /* bearing at an angle to the grain, as under a brace */
    BW_CHECK_KIND_COUNT
} bw_check_kind;

/* A cross-section that is not a full circle (flats, half, hollow, notched), in numbers;
 * area 0: a full circle of the diameter given beside it, and nothing here is read. */
typedef struct {
    double area;          /* [m2] */
    double modulus;       /* [m3] smaller section modulus for the moment given */
    double second_moment; /* [m4] about the weakest axis: radius of gyration of columns */
    double shear_factor;  /* [1/m2] largest shear stress over the shear, Q / (I b);
                             4 / (3 A) for a full circle */
    double depth, width;  /* [m] of wood: up and down, and across */
    bool round_form; /* still bends like a round log: solid, and its flats are shallow */
    bool sawn; /* a sawn board: its reference values are of sawn wood and know its size */
    const char *words; /* "flat 1 in on top, hollow", for the working; may be null */
} bw_check_section;

/* Ground by the classes that a spade tells apart. */
typedef enum {
    BW_SOIL_UNKNOWN, /* not given: every value of it is not known */
    BW_SOIL_GRAVEL,  /* sandy gravel, gravel */
    BW_SOIL_SAND,    /* sand, silty or clayey sand, silty or clayey gravel */
    BW_SOIL_CLAY,    /* clay, sandy or silty clay, silt */
    BW_SOIL_COUNT
} bw_soil;
const char *bw_soil_name(bw_soil soil); /* "gravel", "sand", "clay", "unknown soil" */

/* ---- fasteners ---- */

typedef enum {
    BW_FASTENER_NONE,
    BW_FASTENER_LAG,   /* lag screw, coach screw */
    BW_FASTENER_SCREW, /* long structural screw: no table knows it, its maker does */
    BW_FASTENER_BOLT,  /* through both logs, with washers */
    BW_FASTENER_SPIKE, /* spike, driftpin, reinforcing bar */
    BW_FASTENER_NAIL,
    BW_FASTENER_KIND_COUNT
} bw_fastener_kind;
const char *bw_fastener_name(bw_fastener_kind kind); /* "lag screw" */

/* Like fasteners of one joint as they are set; a length of 0 is not known, and a check
 * that needs it cannot say. */
typedef struct {
    bw_fastener_kind kind;
    int count;          /* all of them */
    int rows;           /* beside each other across the load, with count / rows in each */
    bool toe;           /* driven aslant through the end of the log: nails and spikes */
    int planes;         /* of shear: 1, or 2 for a bolt through three logs */
    double diameter;    /* [m] nominal */
    double root;        /* [m] under the thread; 0: of a lag by the table */
    double yield;       /* [Pa] bending yield strength; 0: by kind and diameter */
    double head;        /* [m] across head or washer; 0: 1.5 diameters */
    double length;      /* [m] below the head */
    double penetration; /* [m] into the holding log, no point; 0: from the length */
    double thread;      /* [m] thread in the holding log; 0: of a lag by rule */
    double side;        /* [m] wood under the head; 0: as thick as the log is */
    double end;         /* [m] along the grain to the nearest end of either log */
    double edge;        /* [m] across the grain to the nearest edge of either log */
    double loaded_edge; /* [m] the same towards the edge that they push against */
    double spacing;     /* [m] of those in one row */
    double row_spacing; /* [m] of the rows */
} bw_fasteners;

/* One log of a joint. */
typedef struct {
    double thickness; /* [m] along the fasteners */
    double gravity;   /* oven-dry mass over green volume, over water */
    double density;   /* [kg/m3] characteristic, if graded to a class; 0: not */
    double stiffness; /* [N] E A that shares the load among a row */
    bw_wood_group group;
    bool hollow; /* no rule knows what its shell holds: gravity and density are NaN */
} bw_joint_log;

/* Two logs and what joins them: the heads lie on the side log, and the main log holds the
 * points; of two planes it is the middle one. */
typedef struct {
    bw_fasteners fasteners;
    bw_joint_log side_log, main_log;
    bool end_grain; /* they run along the grain of the main log */
    bool hung;      /* a load hangs on them; else they hold something in place */
} bw_joint;

/* What a check may need; each reads its own part and ignores the rest. */
typedef struct {
    const bw_reference *reference;
    double diameter;          /* [m] of the round section at the place */
    bw_check_section section; /* at the place, where it is not a full circle */
    /* shear at an end notch on the tension side; 0: none. section holds what the notch
     * leaves */
    double notch_left;    /* [m] depth left over the notch, d_n */
    double notch_whole;   /* [m] depth beside the notch, d */
    double notch_most;    /* share of the depth that may be cut there; 0: no rule */
    double notch_reach;   /* [m] line of the reaction to the notch; 0: not known */
    double axial;         /* [N] compression positive here */
    double shear;         /* [N] */
    double moment;        /* [N*m] */
    double load_duration; /* C_D, the largest that a load of the combination allows;
                             k_mod of its shortest action */
    /* columns */
    double diameter_small, diameter_large; /* [m] ends of the post */
    bw_check_section weakest; /* of the post, where it is not a full circle: the post then
                                 counts as no thicker anywhere, and the diameters of the
                                 ends are not read */
    double length;            /* [m] unsupported */
    double effective_factor;  /* K_e; the effective length is K_e * length */
    /* bearing */
    double force;          /* [N] */
    double bearing_area;   /* [m2] */
    double bearing_length; /* [m] along the grain of the piece bearing across it */
    bool bearing_inside;   /* at least 3 in from the end of the piece */
    double bearing_beyond; /* [m] of the piece that goes on along the grain past the
                              contact at one side at least; 0: not known */
    /* deflection */
    double deflection; /* [m] under the moving load, or the immediate one of all loads */
    double deflection_dead; /* [m] part that lasts, for creep */
    double lasting_share;   /* psi_2: share of the moving load that counts for creep */
    double span;            /* [m] twice the length for a cantilever */
    double limit;           /* allowed span / deflection, such as 360 */
    /* ground; forces and moments of one post, pad or sill */
    bw_soil soil;
    double hole_depth;     /* [m] of the post in the ground */
    double embedded_width; /* [m] of what pushes on the soil: the post where it enters the
                              ground, or concrete cast round it; no loose packing */
    double push;           /* [N] sideways at the ground line, whichever way */
    double push_moment; /* [N*m] at the ground line: push times its height above ground */
    bool half_inch_movement_ok; /* the push is short and 1/2 in at the ground harms
                                   nothing: lateral values x 2 */
    double foot_force; /* [N] down on the ground, the weight of the post included */
    double foot_area;  /* [m2] of the post's end, of its pad, or of the sill's bearing */
    double foot_length, foot_off; /* [m] of a sill, and how far from its middle it is
                                     pressed; 0: in the middle */
    double pull;      /* [N] up at the ground line from what may come and go, >= 0 */
    double foot_dead; /* [N] down at the ground line from what stays; below 0: it lifts */
    double buried_weight; /* [N] of the post below the ground line, and of its footing */
    /* buckling of the frame */
    double buckling_factor;      /* on all loads, with mean stiffness */
    bool buckling_factor_beyond; /* it is larger than that: not worth finding */
    double stiffness_ratio;      /* smallest E_min / E of its logs */
    /* joints; the force on all fasteners together is force, that along them pull and
     * foot_dead. reference: of the side log, which the heads press on. A split takes
     * section, notch_left and notch_whole of what lies between the loaded edge and the
     * fastener farthest from it. */
    const bw_joint *joint;
    double side_angle, main_angle; /* [rad] of the force to the grain of either log, 0 to
                                      pi/2 */
    bool to_end;                   /* it pushes the fasteners towards the end of a log */
    double grain_angle; /* [rad] of the force to the grain of the log that bears */
} bw_check_input;

typedef struct {
    double demand, capacity; /* in the check's quantity */
    double utilisation;      /* demand / capacity; above 1 is over */
} bw_ratio;

typedef struct {
    bw_check_kind kind;
    const char *id;      /* "bending" */
    const char *title;   /* "Bending" */
    const char *formula; /* "f_b = M / S <= F_b C_D C_F" */
    const char *source;  /* title, year, clause */
    bw_mark mark;
    bw_quantity quantity; /* of demand and capacity */
    /* working may be null (searching); otherwise every symbol is added to it */
    bw_ratio (*ratio)(const bw_check_input *in, bw_working *working);
} bw_check;

/* ---- combinations of actions ---- */

/* What acts at all in a case. */
typedef struct {
    bool crowd, snow, rider, machine;
    /* C_D or k_mod that the user gives for the rider and the machine; 0: by rule */
    double rider_duration, machine_duration;
} bw_actions_present;

typedef struct {
    const char *title;               /* "dead + rider" */
    double dead, crowd, snow, rider; /* factors on the actions */
    double machine;                  /* likewise; never together with the rider */
    double slow; /* the rider presses with no more times the weight, and only brakes; 0:
                    as hard as told, with all that pushes */
    double duration;        /* C_D or k_mod of the shortest action in it */
    double lasting_share;   /* psi_2 of its moving loads, for creep */
    bool strength, service; /* which checks it is for */
    bool factored; /* its actions hold a part of the safety: not for the ground, whose
                      allowable values hold all of it */
    const char *source;
    bw_mark mark;
} bw_combination;

/* People on a deck by its use. */
typedef struct {
    const char *name; /* "walkway" */
    double pressure;  /* [Pa] */
    bw_mark mark;
    const char *source;
    bw_sourced person; /* [N] on one board; less than what the basis says: that */
} bw_people_use;

enum { BW_COMBINATIONS_MAX = 24 };

typedef struct {
    const char *id;    /* "us_asd" */
    const char *title; /* "allowable stress (NDS 2018 / ASCE 7)" */
    const bw_check *checks[BW_CHECK_KIND_COUNT];
    /* Reference values of one log, with its ladder of factors. BW_E_INPUT: its species
     * lacks a value (no diagnostics). */
    bw_status (*reference)(bw_arena *arena, const bw_log *log, bw_reference *out);
    /* The same of a sawn board. */
    bw_status (*sawn_reference)(bw_arena *arena, const bw_sawn *board, bw_reference *out);
    bw_sourced least_frequency; /* [Hz] up and down, below which people can shake it */
    bw_sourced person;          /* [N] of one person, or a foot, on one board */
    bw_sourced holding;         /* share of dead load that counts where it holds down */
    /* Combinations for what is present; returns how many. */
    size_t (*combinations)(const bw_actions_present *present,
                           bw_combination out[BW_COMBINATIONS_MAX]);
    /* The duration that a user may set for the rider: "load duration factor", its bounds.
     */
    const char *duration_title;
    double duration_least, duration_most;
    bool knows_classes; /* takes the values of a log's strength class, if it has one */
    const bw_people_use *uses; /* ended by a null name; the same names in every basis */
    const bw_sourced_text *notes; /* what it takes for granted; ended by a null text */
} bw_basis;

extern const bw_basis bw_us_asd, bw_eurocode;
/* The basis of that id, or null; the i-th of all, or null at the end. */
const bw_basis *bw_basis_find(const char *id);
const bw_basis *bw_basis_at(size_t i);

typedef enum { BW_WITHIN, BW_OVER, BW_CANNOT_SAY } bw_verdict;
/* "within limits", "over" or "cannot say". */
const char *bw_verdict_text(bw_verdict verdict);
/* Utilisation at most 1 (to within 1e-9) is within; a value that is not finite cannot
 * say. */
bw_verdict bw_verdict_of(double utilisation);

typedef struct {
    const bw_check *check;
    const char *member;      /* "stringer S2" */
    const char *role;        /* "stringer", "post", "cap" */
    const char *case_path;   /* JSON Pointer */
    double station;          /* [m] from the member's first end; < 0: the whole member */
    const char *place;       /* "3 ft 2 in from bent B1" */
    const char *combination; /* "dead + rider" */
    const char *position;    /* "rider 2 ft 4 in past bent B2 on row left", or null */
    bw_ratio ratio;
    bw_verdict verdict;
    bw_working working;
    const char *note; /* an assumption that this line rests on, or null */
} bw_finding;

/* The finding of a check for an input, with its working; place fields are left to the
 * caller. */
bw_status bw_finding_make(bw_arena *arena, const bw_check *check,
                          const bw_check_input *in, bw_finding *out);

/* An assumption, a default in use or a rule of thumb not met: printed with its mark. What
 * somebody has to do for the verdict to hold stands beside it, the others further down.
 */
typedef struct {
    const char *text;
    bw_mark mark;
    const char *source;
    bool to_do;
} bw_assumption;

/* ---- ground: the same checks whichever basis is in use ---- */

/* Share of the dead load that counts against what lifts a post or a sill. */
extern const bw_sourced bw_uplift_share;

/* One row of the table of soils; a value is known only if it is above 0. */
typedef struct {
    bw_sourced bearing;        /* [Pa] allowable, under a footing */
    bw_sourced lateral;        /* [Pa/m] allowable sideways, per depth */
    bw_sourced friction;       /* number, under a footing; 0 where cohesion counts */
    bw_sourced cohesion;       /* [Pa] */
    bw_sourced modulus_growth; /* [N/m3] lateral spring per length, per depth (n_h) */
    bw_sourced modulus;        /* [N/m2] lateral spring per length that has no growth */
} bw_soil_values;
bw_soil_values bw_soil_find(bw_soil soil);

/* The side of a hole, for the rules of IBC 1807.3 about posts pushed sideways. Pushes and
 * moments act at the ground line; both are taken without sign and as working together. */
typedef struct {
    double lateral; /* [Pa/m] allowable pressure per depth */
    double width;   /* [m] b: diameter of the post, or of a footing cast round it */
} bw_hole;
/* lateral value of the soil, twice it if a movement of 1/2 in is harmless. */
bw_hole bw_hole_of(bw_soil soil, double width, bool half_inch_movement_ok);
/* Depth that a post needs with nothing to hold it at the ground line (1807.3.2.1), or
 * held there by a rigid floor or pavement (1807.3.2.2); 0 without a load, NaN for input
 * that makes no sense [m]. */
double bw_hole_depth_free(const bw_hole *hole, double push, double moment);
double bw_hole_depth_held(const bw_hole *hole, double moment);
/* Largest push at a height above ground that a post of the depth may take, not held at
 * the ground line [N]; and the largest moment without any push [N*m]. */
double bw_hole_push_allowed(const bw_hole *hole, double depth, double height);
double bw_hole_moment_allowed(const bw_hole *hole, double depth);

/* A post as it meets the ground. */
typedef struct {
    const char *name;
    double at, across; /* [m] along and across the deck */
    double length;     /* [m] of the whole post, its buried part included */
    double hole_depth; /* [m]; 0: it stands on the ground or on a pad */
    double hole_width; /* [m] diameter of the hole as dug; 0: not known */
    double width;      /* [m] of the post at the ground line */
    bw_soil soil;
} bw_ground_post;

typedef struct {
    double frost_depth; /* [m]; 0: not given */
    bool half_inch_movement_ok;
    bw_units units; /* for the words */
} bw_ground_site;

enum { BW_GROUND_FLAGS_MAX = 10 };
/* Rules that are no checks (third of the length in the ground, frost, room to pack the
 * hole, posts too close to count as single) where a post does not meet them, and what the
 * ground checks rest on. Posts in their order along the deck; a sill counts as a post
 * without a hole, and feet that the user vouches for are left out. Returns BW_E_MEMORY or
 * BW_OK; how many flags in *n_out. */
bw_status bw_ground_flags(bw_arena *arena, const bw_ground_post *posts, size_t n_posts,
                          const bw_ground_site *site,
                          bw_assumption out[BW_GROUND_FLAGS_MAX], size_t *n_out);

#ifdef __cplusplus
}
#endif

#endif
