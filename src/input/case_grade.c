/* case_grade.c - the answers of a person who looked at a log. What is measured across or
 * around it is read as a length and taken as a share of its thinner end, which makes it
 * large; a bare number is the share itself. */
#include "case.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

static const bwi_range share_range = {0.0, 1.0, false};
static const bwi_range slope_range = {0.0, 1.0, false};
static const bwi_range bow_range = {0.0, 2.0, false};    /* [m] */
static const bwi_range along_range = {0.5, 40.0, false}; /* [m] */

/* whole: what the length is a share of [m]; not a number if that could not be read. */
static void share_read(const bwi_at *grade, const char *key, double whole, bw_answer *out)
{
    const bwi_range length_range = {0.0, whole, false};
    const bwi_at at = bwi_key(grade, key);
    double value = 0.0;
    if (at.node == NULL || isnan(whole)) {
        return;
    }
    if (cJSON_IsNumber(at.node)) {
        out->given = bwi_number(&at, share_range, &out->value);
    } else if (bwi_measure(&at, BW_LENGTH, length_range, &value)) {
        *out = (bw_answer){true, value / whole};
    }
}

static void spiral_read(const bwi_at *grade, bw_answer *out)
{
    const bwi_at at = bwi_key(grade, "spiral_grain");
    out->given = bwi_measure(&at, BW_SLOPE, slope_range, &out->value);
}

static void sweep_read(const bwi_at *grade, bw_answer *out)
{
    const bwi_at at = bwi_key(grade, "sweep");
    double bow = 0.0, along = 0.0;
    if (at.node == NULL || !BWI_OBJECT(&at, "bow", "over")) {
        return;
    }
    const bwi_at bow_at = bwi_need(&at, "bow"), along_at = bwi_need(&at, "over");
    const bool has_bow = bwi_measure(&bow_at, BW_LENGTH, bow_range, &bow);
    if (bwi_measure(&along_at, BW_LENGTH, along_range, &along) && has_bow) {
        *out = (bw_answer){true, bow / along};
    }
}

static void words_read(const bwi_at *grade, bw_eye_grade *out)
{
    int word = 0;
    bool dead = false;
    const bwi_at insects = bwi_key(grade, "insects");
    if (BWI_WORD(&insects, &word, "none", "pinholes", "borers")) {
        out->insects = (bw_insects)(BW_INSECTS_NONE + word);
    }
    const bwi_at decay = bwi_key(grade, "decay");
    if (BWI_WORD(&decay, &word, "none", "signs")) {
        out->decay = word == 1 ? BW_YES : BW_NO;
    }
    const bwi_at dead_at = bwi_key(grade, "dead_when_cut");
    if (bwi_flag(&dead_at, &dead)) {
        out->dead_when_cut = dead ? BW_YES : BW_NO;
    }
}

void bwi_case_grade(const bwi_at *log_at, bw_log *log)
{
    const bwi_at at = bwi_key(log_at, "grade");
    const double thin =
        log->tip_diameter < log->butt_diameter ? log->tip_diameter : log->butt_diameter;
    if (at.node == NULL ||
        !BWI_OBJECT(&at, "largest_knot", "knots_in_foot", "spiral_grain", "drying_check",
                    "sweep", "insects", "decay", "dead_when_cut")) {
        return;
    }
    bw_eye_grade *grade = &log->grade;
    share_read(&at, "largest_knot", pi * thin, &grade->largest_knot);
    share_read(&at, "knots_in_foot", pi * thin, &grade->knots_in_foot);
    share_read(&at, "drying_check", thin, &grade->drying_check);
    spiral_read(&at, &grade->spiral_grain);
    sweep_read(&at, &grade->sweep);
    words_read(&at, grade);
}
