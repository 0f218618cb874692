/* deck.h - decks for tests: a plain description, written out as a case file and read back
 * by the program's own reader, so that a test starts where a builder does. SI. */
#ifndef BWT_DECK_H
#define BWT_DECK_H

#include "bolewright/deck.h"

#include <stdint.h>

enum { BWT_ROWS = 5, BWT_BENTS = 8 };

typedef struct {
    const char *species;
    double butt, tip; /* [m] diameters */
    double length;    /* [m] 0: as long as its place */
} bwt_log;

/* What is missing of a log; 0: nothing. */
typedef struct {
    double shell;                 /* [m] sound wood round a hollow */
    double outer_loss;            /* [m] rotten all round */
    double notch_at, notch_depth; /* [m] from the butt; 0: no notch */
    bool notch_below;             /* else in its top */
} bwt_flaws;

/* A knee from a post to the stringer ahead of it (or behind: negative). */
typedef struct {
    int bent, row;
    double height, ahead; /* [m] */
    bool pulls;
} bwt_knee;

typedef struct {
    int n_rows, n_bents;
    double across[BWT_ROWS];
    double at[BWT_BENTS], height[BWT_BENTS];
    bool sill[BWT_BENTS];
    double sill_least; /* [m] thickness of sills that else are like caps */
    bool no_post[BWT_BENTS][BWT_ROWS];
    bool no_cap;
    bool tip_down;     /* posts */
    int run[BWT_ROWS]; /* bays that one stringer of the row spans; 0 counts as 1 */
    bool butt_last;    /* butts of the stringers at their far bent */
    const char *foot;  /* "hole", "pad" or "fixed" */
    const char *soil;
    double hole_depth, width, board_pressure, rider, factor, crowd, snow, extra;
    double push, sway, lean; /* of the rider's weight; [Pa]; of all weights */
    bwt_log stringer, cap, post, brace;
    bwt_knee knee[4];
    int n_knees;
    const char *ride;  /* further keys of the rider instead of its factor, or null */
    const char *loads; /* further keys of the loads, or null */
    const char *basis; /* or null: the usual one */
    double seat;       /* [m] depth of seats; 0: the usual one */
    /* further keys of stringers, caps and posts, or null */
    const char *stringer_keys, *cap_keys, *post_keys;
    bwt_flaws stringer_flaws, cap_flaws, post_flaws;
    const char *boards; /* keys that describe them instead of their thickness, or null */
} bwt_deck;

/* Two rows, three bents, level, butted, in sand; a rider and nothing else. */
bwt_deck bwt_deck_plain(void);
/* A deck of one to three bays, two to four rows, butted or running on, level or sloping.
 */
bwt_deck bwt_deck_random(uint64_t *random);
extern const double bwt_pi;
/* How far the found value is from the wanted one, as a part of it. */
double bwt_relative(double found, double wanted);
double bwt_uniform(uint64_t *random, double low, double high);
int bwt_below(uint64_t *random, int n);

/* The case file; null without memory. */
const char *bwt_deck_text(const bwt_deck *deck, bw_arena *arena);
/* A case of cases/, by the name of its file. */
bw_status bwt_case_read(const char *name, bw_arena *arena, bw_case *out);
/* Reads it; what is wrong goes to stderr, and null comes back. */
const bw_case *bwt_deck_read(const bwt_deck *deck, bw_arena *arena);

/* The same with these joints in place of its own. */
bw_case *bwt_deck_joined(const bwt_deck *deck, bw_arena *arena,
                         const bw_joint_place *joints, size_t n);
/* Two lags, at that distance from the end [m], that hold far more than such decks ask. */
bw_fasteners bwt_lags(double end);

/* Assesses it; faults go to *faults if given (as text), else to stderr. */
bw_status bwt_deck_assess(const bwt_deck *deck, bw_arena *arena, bw_assessment *out,
                          const char **faults);
/* The same of a deck that is written already. */
bw_status bwt_text_assess(const char *text, bw_arena *arena, bw_assessment *out,
                          const char **faults);

/* The finding of a member such as "stringer r0-0", or null if there is none. */
const bw_finding *bwt_finding(const bw_assessment *a, const char *role, const char *name,
                              bw_check_kind kind);
/* Compares what both found of each check of each member; false: not the same checks of as
 * many members. */
bool bwt_compare_findings(const bw_assessment *a, const bw_assessment *b,
                          void (*compare)(const bw_finding *, const bw_finding *));
/* What is to be done and begins with these words, or null. */
const char *bwt_to_do(const bw_assessment *a, const char *words);
double bwt_governing(const bw_assessment *a);
/* The value of a symbol of the working; NaN if it is not there. */
double bwt_term(const bw_finding *f, const char *symbol);

#endif
