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

typedef enum {
    BW_CHECK_BENDING,
    BW_CHECK_SHEAR,
    BW_CHECK_COMPRESSION, /* post: column stability included */
    BW_CHECK_COMBINED,    /* bending with compression */
    BW_CHECK_BEARING,     /* across the grain */
    BW_CHECK_END_BEARING, /* end grain of a post */
    BW_CHECK_DEFLECTION,  /* under the moving load alone */
    BW_CHECK_SAG,         /* long-term, with creep */
    BW_CHECK_KIND_COUNT
} bw_check_kind;

/* What a check may need; each reads its own part and ignores the rest. */
typedef struct {
    const bw_reference *reference;
    double diameter;      /* [m] of the round section at the place */
    double axial;         /* [N] compression positive here */
    double shear;         /* [N] */
    double moment;        /* [N*m] */
    double load_duration; /* C_D, the largest that a load of the combination allows */
    /* columns */
    double diameter_small, diameter_large; /* [m] ends of the post */
    double length;                         /* [m] unsupported */
    double effective_factor;               /* K_e; the effective length is K_e * length */
    /* bearing */
    double force;          /* [N] */
    double bearing_area;   /* [m2] */
    double bearing_length; /* [m] along the grain of the piece bearing across it */
    bool bearing_inside;   /* at least 3 in from the end of the piece */
    /* deflection */
    double deflection; /* [m] under the moving load, or the immediate one of all loads */
    double deflection_dead; /* [m] part that lasts, for creep */
    double span;            /* [m] twice the length for a cantilever */
    double limit;           /* allowed span / deflection, such as 360 */
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
    bool crowd, snow, rider;
    double rider_factor; /* dynamic factor of the rider */
    double
        rider_duration; /* C_D or k_mod that the user gives for the rider; 0: by rule */
} bw_actions_present;

typedef struct {
    const char *title;               /* "dead + rider" */
    double dead, crowd, snow, rider; /* factors on the actions */
    double duration;                 /* C_D or k_mod of the shortest action in it */
    bool strength, service;          /* which checks it is for */
    const char *source;
    bw_mark mark;
} bw_combination;

enum { BW_COMBINATIONS_MAX = 8 };

typedef struct {
    const char *id;    /* "us_asd" */
    const char *title; /* "allowable stress (NDS 2018 / ASCE 7)" */
    const bw_check *checks[BW_CHECK_KIND_COUNT];
    /* Reference values of one log, with its ladder of factors. BW_E_INPUT: its species lacks a
     * value (no diagnostics). */
    bw_status (*reference)(bw_arena *arena, const bw_log *log, bw_reference *out);
    /* Combinations for what is present; returns how many. */
    size_t (*combinations)(const bw_actions_present *present,
                           bw_combination out[BW_COMBINATIONS_MAX]);
} bw_basis;

extern const bw_basis bw_us_asd;
/* The basis of that id, or null. */
const bw_basis *bw_basis_find(const char *id);

typedef enum { BW_WITHIN, BW_OVER, BW_CANNOT_SAY } bw_verdict;
const char *
bw_verdict_text(bw_verdict verdict); /* "within limits", "over", "cannot say" */
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

#endif
