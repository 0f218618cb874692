/* laws.h - laws of statics as properties of random frames, for bwt_try and for other
 * sources of frames. Each adds loads of its own to the sketch of the trial. */
#ifndef BWT_LAWS_H
#define BWT_LAWS_H

#include "trial.h"

/* Loads and reactions balance as a whole, and the residual is small. */
void bwt_reactions_carry_the_loads(bwt_trial *t);
/* Loads, reactions and what the members push balance at every node. */
void bwt_every_node_is_in_balance(bwt_trial *t);
/* Clapeyron: half the work of the loads is the strain energy, integrated here. */
void bwt_work_is_stored(bwt_trial *t);
/* Maxwell and Betti: a load does as much work on the way of another as that on its. */
void bwt_works_are_mutual(bwt_trial *t);

/* ---- what these and other properties are made of ---- */

/* Random loads and now and then settlements, solved. */
bool bwt_solve_loaded(bwt_trial *t, bwt_solved *f);
/* What moments are measured against: the largest, and the largest force at the reach. */
double bwt_moment_size(const bwt_sketch *s, const bwt_solved *f);
/* [N] of a member's own weight, and its centre of gravity from end i [m]. */
double bwt_member_weight(const bwt_sketch *s, int member, double *centre);
/* A force and a moment somewhere on a random member. */
bw_member_load bwt_single_load(bwt_trial *t);

#endif
