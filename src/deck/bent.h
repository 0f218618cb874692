/* bent.h - what the files share that move loads over a bent: bent_search.c, what it looks
 * at in bent_checks.c, people across the deck in bent_people.c, and sills in sill.c. */
#ifndef BWI_DECK_BENT_H
#define BWI_DECK_BENT_H

#include "internal.h"

/* Fewer places to try than along a row: what a bent feels has its hump at or near it. */
enum { BWI_BENT_POSITIONS = 12 };

/* Loads on a bent, and what is asked of them. */
typedef struct {
    bwi_tracker *t;
    const bwi_row_frame *rows;
    const bwi_transfer *transfer;
    bwi_bent_frame f;
    bool curved;          /* the bent shape matters */
    int push;             /* which way things are pushed: as the frame, or 0 */
    size_t combination;   /* number, for what the rows hand over */
    bool may_lift;        /* a stringer runs on in some row */
    double n_rows;        /* that lie on it */
    bool unheld;          /* an end lies on it that no described fastener holds */
    const bw_state *dead; /* of what stays */
    double own_weight;    /* [N] of the cap and the posts */
    bwi_presses presses;
    struct bwi_known_lines *lines;
    const bwi_seat *seats; /* of the cap */
    size_t n_seats;
    bool strength, service; /* which checks the combination is for */
    bwi_event event;
} bwi_arrangement;

/* What stands on it. */
typedef struct {
    const double *total; /* forces of the rows under the whole combination */
    const double
        *live;   /* of the part that comes and goes, or null: no deflection check */
    double own;  /* factor of the own weight */
    double push; /* at deck level, towards the right [N] */
    double turn; /* of it by loads beside a lone row, to the right [N*m] */
    const bw_combination *combination;
    size_t pattern, set; /* of the people */
} bwi_row_forces;

/* ---- what is checked: bent_checks.c ---- */

bw_status bwi_cap_seats_make(bwi_arrangement *a);
void bwi_check_cap(const bwi_arrangement *a, const bw_state *s);
void bwi_check_cap_deflection(const bwi_arrangement *a, const bw_state *live,
                              const bw_state *dead);
void bwi_check_bent_posts(const bwi_arrangement *a, const bw_state *s);
void bwi_check_bent_braces(const bwi_arrangement *a, const bw_state *s);
/* The post that bends most easily: buckling of the bent is filed under it. */
size_t bwi_softest_post(const bwi_arrangement *a);
/* Fasteners of the stringers that lie on the bent: all rows share its push [N] alike. */
void bwi_check_push_across(const bwi_arrangement *a, double push);
/* Rows and ends that lie on the bent. */
void bwi_count_rows(bwi_arrangement *a);
/* Notes what a row gets of the push, if no described fastener holds it, and so no check.
 */
void bwi_note_push(const bwi_arrangement *a, double push, bwi_most of);

/* ---- people across the deck: bent_people.c ---- */

/* How many sets of people are tried: of rows, and of strips of the width. */
size_t bwi_row_sets(const bwi_plan *p, const bwi_transfer *t);
/* Number of the strip in the transfer; 0 if it is a set of rows. */
size_t bwi_strip_in_set(const bwi_plan *p, size_t set);
/* Part of its people that a row has: of those on the strip, if it is a set of a strip. */
double bwi_part_in_set(const bwi_plan *p, size_t set, size_t row);
/* Where they are, with pattern k along the deck. */
const char *bwi_set_words(const bwi_arrangement *a, size_t k, size_t set);
/* How far right of a lone row a place across lies, and the weight of the people [m]; 0
 * without one. */
double bwi_beside_lone_row(const bwi_plan *p, double across);
double bwi_middle_of_set(const bwi_plan *p, size_t set);
/* Those who are there push; people further away may lift what those here press. people,
 * everybody: on the bent [N]. */
double bwi_part_that_pushes(const bwi_arrangement *a, size_t set, double people,
                            double everybody);

/* ---- forces of the rows: bent_search.c ---- */

/* Under the combination, people on the bays of pattern k and the rows of the set, no
 * rider. */
bwi_row_forces bwi_plain_forces(const bwi_arrangement *a, const bw_combination *c,
                                size_t k, size_t set, double *total, double *live);
/* What the row hands down of the standing rider; wheels (null: not wanted): of it on the
 * row. 0 without a row. */
double bwi_live_of_row(const bwi_arrangement *a, size_t r, const bwi_rider_place *rider,
                       bwi_wheels *wheels);
/* Sideways with what moves; weight: of it on all rows. */
double bwi_push_with(const bwi_arrangement *a, const bwi_row_forces *dead, double weight);
/* Bays in which a wheel does something to the bent: first to the one before end. */
void bwi_bays_that_matter(const bwi_plan *p, const bwi_mover *mover, size_t bent,
                          size_t *first, size_t *end);

/* ---- a sill on the ground: sill.c ---- */

bw_status bwi_check_sill(const bwi_arrangement *a);

#endif
