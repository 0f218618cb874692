/* sample.h - what the tests of the checks share: values in the units of their sources. */
#ifndef BW_TESTS_CHECKS_SAMPLE_H
#define BW_TESTS_CHECKS_SAMPLE_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "checks/ground/ground.h"
#include "checks/us_asd/us_asd.h"

static inline double in_unit(bw_quantity quantity, double count, const char *unit)
{
    return count * bw_unit_size(quantity, unit);
}

static inline double inch(double count)
{
    return in_unit(BW_LENGTH, count, "in");
}

static inline double psi(double count)
{
    return in_unit(BW_STRESS, count, "psi");
}

static inline double pound(double count)
{
    return in_unit(BW_FORCE, count, "lb");
}

static inline double pound_inch(double count)
{
    return in_unit(BW_MOMENT, count, "lb-in");
}

/* Close to the relative tolerance; NaN is close to nothing. */
static inline bool is_close(double a, double b, double tolerance)
{
    return fabs(a - b) <= tolerance * fmax(fabs(a), fabs(b));
}
#define assert_close(a, b, tolerance)                                                    \
    do {                                                                                 \
        if (!is_close((a), (b), (tolerance))) {                                          \
            fail_msg("%s = %.12g, %s = %.12g", #a, (double)(a), #b, (double)(b));        \
        }                                                                                \
    } while (0)

/* A reference with F_b 1350, F_v 85, F_cperp 240, F_c 700, E 1.08e6, E_min 430000 psi. */
static inline bw_reference sample_reference(void)
{
    bw_reference reference = {0};

    reference.value[BW_BENDING_STRENGTH] = psi(1350.0);
    reference.value[BW_SHEAR_STRENGTH] = psi(85.0);
    reference.value[BW_BEARING] = psi(240.0);
    reference.value[BW_COMPRESSION] = psi(700.0);
    reference.value[BW_MODULUS] = psi(1.08e6);
    reference.value[BW_MODULUS_MIN] = psi(430000.0);
    return reference;
}

/* Four lag screws of 1/2 in in two rows, the side log pressed across its grain. */
static const bw_joint lag_joint = {
    .fasteners = {.kind = BW_FASTENER_LAG,
                  .count = 4,
                  .rows = 2,
                  .planes = 1,
                  .diameter = 0.5 * 0.0254,
                  .penetration = 5.4 * 0.0254,
                  .thread = 4.6 * 0.0254,
                  .length = 9.0 * 0.0254,
                  .head = 1.3 * 0.0254,
                  .end = 1.7 * 0.0254,
                  .edge = 2.1 * 0.0254,
                  .loaded_edge = 2.4 * 0.0254,
                  .spacing = 2.3 * 0.0254,
                  .row_spacing = 2.7 * 0.0254},
    .side_log = {.thickness = 3.1 * 0.0254, .gravity = 0.38, .stiffness = 8.585068e7},
    .main_log = {.thickness = 7.7 * 0.0254, .gravity = 0.43, .stiffness = 1.2054681e8}};

/* A post and beam at once, so that every check has what it needs; all of it well within.
 */
static inline bw_check_input sample_input(const bw_reference *reference)
{
    return (bw_check_input){.reference = reference,
                            .diameter = inch(6.3),
                            .axial = pound(3170.0),
                            .shear = pound(433.0),
                            .moment = pound_inch(4270.0),
                            .load_duration = 1.15,
                            .diameter_small = inch(5.7),
                            .diameter_large = inch(6.9),
                            .length = inch(87.0),
                            .effective_factor = 1.0,
                            .force = pound(1130.0),
                            .bearing_area = in_unit(BW_AREA, 17.9, "in2"),
                            .bearing_length = inch(3.3),
                            .bearing_inside = true,
                            .deflection = inch(0.137),
                            .deflection_dead = inch(0.031),
                            .span = inch(101.0),
                            .limit = 360.0,
                            .soil = BW_SOIL_SAND,
                            .hole_depth = inch(34.0),
                            .embedded_width = inch(7.1),
                            .push = pound(37.0),
                            .push_moment = pound_inch(913.0),
                            .foot_force = pound(530.0),
                            .foot_area = in_unit(BW_AREA, 51.3, "in2"),
                            .pull = pound(61.0),
                            .foot_dead = pound(389.0),
                            .buried_weight = pound(43.0),
                            .buckling_factor = 3.7,
                            .stiffness_ratio = 0.41,
                            .joint = &lag_joint,
                            .side_angle = 1.5707963267948966,
                            .grain_angle = 0.73};
}

/* The same with what one kind would take for something else: a smaller force on the
 * joint, and what is left beside it, which others would read as a notch. */
static inline bw_check_input sample_input_of(const bw_reference *reference, int kind)
{
    bw_check_input in = sample_input(reference);

    if (kind == BW_CHECK_JOINT || kind == BW_CHECK_SPLIT) {
        in.force = pound(213.0);
    }
    if (kind == BW_CHECK_SPLIT) {
        in.notch_left = inch(5.0);
        in.notch_whole = inch(6.3);
        in.section.area = in_unit(BW_AREA, 25.0, "in2");
    }
    return in;
}

static inline double utilisation_of(const bw_check *check, const bw_check_input *in)
{
    return check->ratio(in, NULL).utilisation;
}

/* The utilisation never falls while *field (inside in) grows from low to high, or never
 * rises if grows is false; and it does change from end to end. */
static inline void assert_monotonic(const bw_check *check, bw_check_input *in,
                                    double *field, double low, double high, bool grows)
{
    double first = 0.0, before = 0.0;

    for (int i = 0; i <= 400; i++) {
        *field = low + (high - low) * i / 400.0;
        const double now = utilisation_of(check, in);
        assert_true(isfinite(now));
        if (i == 0) {
            first = now;
        } else if (grows ? now < before * (1.0 - 1e-12) : now > before * (1.0 + 1e-12)) {
            fail_msg("%s: %.12g after %.12g at %.6g", check->id, now, before, *field);
        }
        before = now;
    }
    assert_true(grows ? before > first : before < first);
}

/* Not a number, nothing, below nothing and beyond all numbers never give "within". */
static inline void assert_never_within(const bw_check *check, bw_check_input *in,
                                       double *field, const double *values, size_t count)
{
    const double kept = *field;

    for (size_t i = 0; i < count; i++) {
        *field = values[i];
        const bw_verdict verdict = bw_verdict_of(utilisation_of(check, in));
        if (verdict == BW_WITHIN) {
            fail_msg("%s is within limits with %g", check->id, values[i]);
        }
        *field = kept;
    }
    assert_true(bw_verdict_of(utilisation_of(check, in)) == BW_WITHIN);
}

/* For sizes and strengths: 0 is as senseless as below 0. For loads: only what is no
 * number. */
static const double bad_sizes[] = {0.0, -0.37, (double)NAN, (double)INFINITY,
                                   -(double)INFINITY};
static const double bad_loads[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
#define BAD_SIZES bad_sizes, sizeof bad_sizes / sizeof bad_sizes[0]
#define BAD_LOADS bad_loads, sizeof bad_loads / sizeof bad_loads[0]

/* The value recorded under the symbol (the last if there are several); NaN if there is
 * none. */
static inline double recorded(const bw_working *working, const char *symbol)
{
    double value = (double)NAN;

    for (size_t i = 0; i < working->count; i++) {
        if (strcmp(working->items[i].symbol, symbol) == 0) {
            value = working->items[i].value;
        }
    }
    return value;
}

#endif
