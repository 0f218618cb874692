/* fasteners.h - what both bases need to know of fasteners: sizes that follow from others,
 * and distances that are too short.
 *
 * SI. Every function gives NaN for input that makes no sense or is not known. */
#ifndef BW_CHECKS_FASTENERS_H
#define BW_CHECKS_FASTENERS_H

#include "record.h"

/* The joint of an input, or an empty one. */
const bw_joint *bwi_joint_of(const bw_check_input *in);

/* Those in one row along the load; NaN unless the rows share them evenly. */
double bwi_fasteners_in_row(const bw_fasteners *f);
/* Those beside each other across the grain of a log whose grain makes the angle with the
 * force: the log shrinks between them. */
double bwi_fasteners_across(const bw_fasteners *f, double angle);

/* Diameter under the thread: as given; of a lag by the table, else of its least share; of
 * bolts, spikes and nails the whole (threads stay out of the joint); of screws not known.
 */
double bwi_fastener_root(const bw_fasteners *f);
/* The point that holds nothing: one diameter of a lag, two of others, none of a bolt. */
double bwi_fastener_point(const bw_fasteners *f);
double bwi_fastener_head(const bw_fasteners *f); /* across head or washer */

/* Thickness of the side log at the fasteners; what the main log holds, not more than it
 * is thick; and the threaded part of that which withdrawal counts. */
double bwi_joint_side(const bw_joint *j);
double bwi_joint_penetration(const bw_joint *j);
double bwi_joint_thread(const bw_joint *j);

/* What draws a joint out: the lift of loads that come and go, less the share of the
 * lasting weight that may be counted on; a weight that lifts counts whole. Not negative.
 */
double bwi_joint_lift(const bw_check_input *in, double share);

/* How well fasteners are placed. */
typedef struct {
    double factor;    /* on the capacity, at most 1 */
    double shortfall; /* largest of (least allowed / there is); above 1 is too little */
} bwi_placing;
/* One distance: below the least nothing is allowed, from the full on nothing is lost. A
 * distance of 0 is not known. */
void bwi_place(bwi_placing *p, double there, double least, double full);

/* The worse of a ratio and a shortfall: too short a distance is over, whatever the force.
 */
bw_ratio bwi_ratio_placed(bw_ratio ratio, double shortfall);

/* Lines of a working that both bases open with. */
void bwi_record_fasteners(bw_working *working, const bw_check_input *in);
void bwi_record_shortfall(bw_working *working, double shortfall, const char *source);

/* 0 at the grain, 1 across it: whether distances along or across count (both between). */
bool bwi_is_along(double angle);
bool bwi_is_across(double angle);

#endif
