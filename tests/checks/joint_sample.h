/* joint_sample.h - a joint of four lag screws, and a second way to the yield modes. */
#ifndef BW_TESTS_CHECKS_JOINT_SAMPLE_H
#define BW_TESTS_CHECKS_JOINT_SAMPLE_H

#include "sample.h"

/* Four lags of 1/2 in, two rows of two: sample_input's joint. */
static inline bw_joint sample_joint(void)
{
    return *sample_input(NULL).joint;
}

static inline bw_check_input joint_input(const bw_reference *reference,
                                         const bw_joint *joint)
{
    bw_check_input in = sample_input(reference);

    in.joint = joint;
    in.force = pound(413.0);
    in.pull = pound(203.0);
    in.foot_dead = pound(71.0);
    in.notch_left = inch(4.9);
    in.notch_whole = inch(7.3);
    in.section.area = in_unit(BW_AREA, 29.3, "in2");
    return in;
}

/* ---- plastic equilibrium of a dowel across the joint of two pieces of wood ---- */

typedef struct {
    double q;   /* [N/m] the wood yields under the dowel */
    double t;   /* [m] length in it */
    double M_y; /* [N*m] of the dowel */
} piece;
typedef enum { stiff, hinged } how;

/* Moment at the joint on the part in one piece that hands over F. Stiff: it turns, the
 * wood yields one way from the joint to c and the other way beyond. Hinged: the dowel
 * yields where its shear is 0, at z = F / q from the joint. */
static inline double moment_at_joint(const piece *p, how yields, double F)
{
    const double z = F / p->q, c = (z + p->t) / 2.0;

    return yields == stiff ? p->q * (c * c - p->t * p->t / 2.0)
                           : p->q * z * z / 2.0 - p->M_y;
}

/* The F at which both parts balance, by bisection. */
static inline double equilibrium(const piece *a, how yields_a, const piece *b,
                                 how yields_b)
{
    double low = 0.0, high = 1e6;

    for (int k = 0; k < 200; k++) {
        const double F = (low + high) / 2.0;
        const double sum =
            moment_at_joint(a, yields_a, F) + moment_at_joint(b, yields_b, F);
        if (sum < 0.0) {
            low = F;
        } else {
            high = F;
        }
    }
    return low;
}

#endif
