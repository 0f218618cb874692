/* sizing.h - how large, how far: asks the assessment of a deck again and again with
 * another size. No formulas of its own: every answer is a size at which the full check is
 * within limits, with the next step at which it is not. SI. */
#ifndef BW_SIZING_H
#define BW_SIZING_H

#include "bolewright/deck.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- what a stringer has to do ---- */

typedef enum { BW_USE_RIDERS, BW_USE_PEOPLE, BW_USE_BOTH, BW_USE_COUNT } bw_use;
const char *bw_use_name(bw_use use); /* "riders", "people", "both" */

enum { BW_DUTY_BAYS = 3 };

/* A deck on two rows alike, each of one log over all bays, laid on sills as thick as it
 * is half way: what lies under the stringers is not in question, and not checked. */
typedef struct {
    const bw_basis *basis;
    double deck_width;  /* [m] */
    double row_spacing; /* [m] between the two rows; the boards overhang them evenly */
    int bays;           /* alike, that each log runs over: 1 to BW_DUTY_BAYS */
    bw_loads loads;
    bw_limits limits;
    bw_units units; /* whose steps the answers come in */
} bw_duty;

/* Deck 4 ft wide on rows 3 ft apart, one bay, allowable stress, usual limits. Riders: the
 * usual one. People: 60 psf, or 3 kPa in metric units. */
bw_duty bw_duty_default(bw_use use, bw_units units);
/* Other people [Pa], who sway as a deck full of such a crowd does. */
void bw_duty_people(bw_duty *duty, double crowd);
/* Each row carries that width of deck, and at most the whole of a wheel: for a stringer
 * among others. */
void bw_duty_share(bw_duty *duty, double width);

/* ---- one size ---- */

/* The full check of the stringers at one size: the check nearest to its limit, and the
 * next one of another kind. */
typedef struct {
    bw_verdict verdict;
    const bw_check *governing, *next; /* null: none */
    double utilisation, next_utilisation;
    const char *combination; /* of loads, for the governing check */
} bw_sized;

/* span: of each bay, between the middles of the supports. log: where its length is 0,
 * butt and tip are over the outer supports, and it goes on 10 cm beyond both; else it
 * starts with its butt at the first support. BW_E_MEMORY, or what the assessment gives,
 * with diagnostics (a log too short, a species without a value). */
bw_status bw_size_check(bw_arena *arena, const bw_duty *duty, const bw_log *log,
                        double span, bw_sized *out, bw_diags *d);

/* What another size would do to the worst check: its utilisation, NaN where it cannot be
 * said. */
typedef struct {
    double step_across, step_along; /* [m] 1/2 in of diameter and 6 in of span; or 1 cm,
                                       15 cm */
    double thinner, thicker, shorter, longer;
} bw_leverage;

/* ---- the longest span of a log; the widest spacing of posts under it ---- */

typedef struct {
    const bw_log *log; /* length 0: long enough */
    bw_duty duty;
} bw_span_question;

typedef struct {
    double span;     /* [m] of each bay, in whole inches or centimetres; 0: none */
    double step;     /* [m] between spans tried */
    bool to_end;     /* the log, or the range, ends before its limit is found */
    bw_sized at;     /* at that span; without one, at the shortest tried */
    bw_sized beyond; /* one step longer, unless to_end or without a span */
    double shortest; /* [m] that was tried */
    bw_leverage leverage;
} bw_span_answer;

/* The question with every answer that was not given on its usual value; the log, which is
 * kept and not copied, in two rows. */
bw_span_question bw_span_question_default(const bw_log *log);
/* The longest span at which every check of the stringers is within limits. */
bw_status bw_span_longest(bw_arena *arena, const bw_span_question *question,
                          bw_span_answer *out, bw_diags *d);

/* The widest spacing of posts under such a log: with stringers that end on every bent,
 * and with stringers that run on over two bays. */
typedef struct {
    bw_span_answer single, continuous;
} bw_spacing_answer;
/* question: its bays and the length of its log count for nothing. */
bw_status bw_spacing_widest(bw_arena *arena, const bw_span_question *question,
                            bw_spacing_answer *out, bw_diags *d);

/* ---- the smallest log for a span, and the tree to look for ---- */

typedef struct {
    const bw_species *species;
    bw_eye_grade grade;
    bw_tree_class grown; /* how the trees at hand grew */
    double height;       /* [m] of them; 0: assumed from that, tree by tree */
    double span;         /* [m] of each bay, between the middles of the supports */
    bw_duty duty;
} bw_log_question;

/* Diameters under bark over the first support, half way and over the last [m]. A log does
 * that is nowhere thinner; so does one that is as thick half way and at the tip, and
 * tapers less. */
typedef struct {
    double butt, mid, tip;
} bw_log_size;

typedef struct {
    bool found;  /* false: not even the thickest tried is enough, or there is no taper */
    bool to_end; /* the thinnest tried is enough already */
    bool no_taper; /* no tree tried gives a log so long: nothing could be checked */
    double step;   /* [m] between girths */
    double thinnest, thickest; /* [m] girth half way: the range, up to that of the
                                  largest tree tried */
    bw_log_size size;          /* its girths are whole steps */
    bw_log_size thinner;       /* one step less half way, unless to_end */
    double length; /* [m] to cut: the bays, and 10 cm beyond each outer support */
    bool has_tree; /* its log, counted cautiously, is nowhere thinner than the size */
    bw_tree tree;  /* the thinnest such, its girth in whole steps */
    double breast_girth; /* [m] of it, over bark */
    bw_sized at;         /* without a log, of the thickest tried */
    bw_sized below;      /* of the thinner one */
    bw_leverage leverage;
} bw_log_answer;

/* The same for a log that is looked for; span of each bay [m]. */
bw_log_question bw_log_question_default(const bw_species *species, double span);
/* The taper of the log is that of the tree. BW_E_MEMORY, or BW_E_INPUT with diagnostics.
 */
bw_status bw_log_smallest(bw_arena *arena, const bw_log_question *question,
                          bw_log_answer *out, bw_diags *d);

/* ---- age: a deck as it was found, and how long it may go on ---- */

/* Assesses the deck as built and as found at the last inspection, and follows the trend
 * of each measured member: the larger of its mean loss a year and that since the
 * inspection before. What is told of the deck and of the measurements goes into a list
 * each: they are two files. BW_E_MEMORY, or what bw_deck_assess gives for the deck. */
bw_status bw_deck_age(bw_arena *arena, const bw_case *deck,
                      const bw_inspections *inspections, bw_aged_deck *out,
                      bw_diags *of_deck, bw_diags *of_inspections);

/* ---- cards: the smallest log for every span and use, on one species ---- */

typedef struct {
    const bw_species *species;
    bw_eye_grade grade;
    bw_tree_class grown;
    double height;       /* [m] of the trees; 0: assumed */
    const double *spans; /* rows [m], ascending */
    size_t n_spans;
    const bw_duty *duties; /* columns; all of one system of units */
    size_t n_duties;
} bw_card_question;

typedef struct {
    bw_card_question question;
    bw_log_answer *cells; /* row by row; without leverage */
} bw_card;

/* Called after every cell of a card, by one thread at a time; false stops all. */
typedef struct {
    bool (*go_on)(void *context, size_t done, size_t all);
    void *context;
} bw_watch;

/* Every cell is that of bw_log_smallest; a species whose table lacks a value has cells
 * that cannot say. The result does not depend on the number of threads (at least 1).
 * watch may be null. BW_E_MEMORY; BW_E_STOPPED if the watch said so. */
bw_status bw_cards_make(bw_arena *arena, const bw_card_question *questions, size_t n,
                        int threads, const bw_watch *watch, bw_card *out);

/* ---- a pile of measured logs to the members of a deck ---- */

typedef struct {
    const bw_case *deck;
    const bw_log *pile; /* each named by its id, with its length */
    size_t n_pile;
} bw_match_question;

/* One member of the deck: every one wants a log of its own. */
typedef struct {
    const char *name, *role; /* as in the assessment */
    int bent, row;           /* where it stands; -1 when it does not apply */
    double length;           /* [m] that its log must have, ends still to be cut */
    const bw_log *drawn;     /* the log that the case has there */
    int log;                 /* of the pile; -1: it wants one */
    bw_log piece;       /* what was checked there: of the pile, with the flats and notches
                           of the drawn one; or the thinnest that passes, of its species */
    bool piece_passes;  /* false: no log of the drawn species passes, however thick */
    bool butt_at_to;    /* a stringer's butt lies at its far bent */
    double utilisation; /* worst of its checks in the whole deck */
    const bw_check *governing; /* may be null */
} bw_match_place;

typedef enum {
    BW_LOG_USED,
    BW_LOG_SPARE,   /* another does better */
    BW_LOG_SHORT,   /* for every member */
    BW_LOG_WEAK,    /* long enough for some, but ruled out there */
    BW_LOG_UNSOUND, /* its grade or species leaves no strength to count on */
} bw_log_fate;

/* Cost: the wood of the logs taken, and besides, for every stringer, how far its depth in
 * the middle lies from one target, times bw_match_level_weight. The choice costs least
 * among all choices and all targets that the checks did not rule out. */
typedef struct {
    bw_match_place *places; /* stringers, caps, posts, braces: as in the assessment */
    size_t n_places, n_missing;
    bw_log_fate *fates;            /* per log of the pile */
    double target;                 /* [m] depth of stringers that lie level */
    double wood;                   /* [m3] taken from the pile */
    double uneven;                 /* [m] summed over the stringers */
    size_t assessments, ruled_out; /* full checks made; pairs of log and member */
    bw_case deck;                  /* with these logs in place */
    bw_assessment assessment;      /* of that whole deck */
} bw_match;

extern const double bw_match_level_weight; /* [m3/m] */

/* The cheapest choice is laid into the deck and the whole of it assessed; a log that
 * fails is ruled out there, and with it, in that place and in those that work alike, the
 * logs that cannot do better; then the choice is made again, until every log of it
 * passes. BW_E_INPUT and what bw_deck_assess gives: the deck as drawn cannot be assessed.
 */
bw_status bw_match_pile(bw_arena *arena, const bw_match_question *question, bw_match *out,
                        bw_diags *d);

/* ---- how many people ---- */

/* Heads for a sign, into assessment->heads: counted from the crowd of the case, or from
 * less where people alone are over; and the crowd at which the checks reach their limit.
 * Assesses the deck some ten times more. BW_E_MEMORY, or what the assessment gives. */
bw_status bw_people_count(bw_arena *arena, bw_assessment *assessment, bw_diags *d);

#ifdef __cplusplus
}
#endif

#endif
