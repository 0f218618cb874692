/* trial.h - a property tried on many random frames.
 *
 * A miss prints the number of the frame (the same on every machine) and what missed; the
 * run fails if there was any. */
#ifndef BWT_TRIAL_H
#define BWT_TRIAL_H

#include "sketch.h"

typedef struct {
    bw_frame *frame;
    bw_state *state;
    /* Largest of each kind in this state; what deviations are measured against. */
    double force, moment, shift, turn;
} bwt_solved;

typedef struct {
    int number; /* of the frame */
    bwt_random random;
    bw_arena *arena; /* emptied after every frame */
    bwt_sketch *sketch;
    int misses;
    double worst; /* largest deviation over its allowance */
} bwt_trial;

/* Builds, factors and solves; misses and false if that fails. */
bool bwt_solve(bwt_trial *t, const bwt_sketch *s, const bw_part *parts, size_t n_parts,
               bwt_solved *out);
/* The same for load case 0 alone. */
bool bwt_solve_case(bwt_trial *t, const bwt_sketch *s, bwt_solved *out);
/* Sets the largest of each kind anew for the state that is there now. */
void bwt_measure(const bwt_sketch *s, bwt_solved *f);

/* Found within the allowance of wanted; where is a member or node number. */
void bwt_near(bwt_trial *t, const char *what, int where, double found, double wanted,
              double allowance);
void bwt_holds(bwt_trial *t, const char *what, int where, bool statement);

/* Tries the property on n random frames; returns the number of misses. */
int bwt_try(const char *name, int n, uint64_t seed, void (*property)(bwt_trial *));

#endif
