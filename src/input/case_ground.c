/* case_ground.c - the ground of the place, and the pads that posts stand on. */
#include "case.h"

static const double pi = 3.14159265358979323846;

static const bwi_range frost_range = {0.05, 3.0, false}; /* [m] */
static const bwi_range pad_range = {0.05, 2.0, false};   /* [m] across */

_Static_assert(BW_SOIL_SAND == BW_SOIL_GRAVEL + 1 && BW_SOIL_CLAY == BW_SOIL_GRAVEL + 2,
               "gravel, sand, clay");

bw_soil bwi_case_soil(const bwi_case_reader *r, const bwi_at *object)
{
    const bwi_at at = bwi_key(object, "soil");
    int soil = 0;
    if (at.node == NULL) {
        return r->out->ground.soil;
    }
    return BWI_WORD(&at, &soil, "gravel", "sand", "clay")
               ? (bw_soil)(BW_SOIL_GRAVEL + soil)
               : BW_SOIL_UNKNOWN;
}

void bwi_case_ground(bwi_case_reader *r)
{
    bw_ground *ground = &r->out->ground;
    const bwi_at at = bwi_key(&r->root, "ground");
    if (BWI_OBJECT(&at, "soil", "frost_depth", "half_inch_movement_ok")) {
        ground->soil = bwi_case_soil(r, &at);
        const bwi_at frost = bwi_key(&at, "frost_depth");
        bwi_measure(&frost, BW_LENGTH, frost_range, &ground->frost_depth);
        const bwi_at movement = bwi_key(&at, "half_inch_movement_ok");
        bwi_flag(&movement, &ground->half_inch_movement_ok);
    }
}

void bwi_case_pad(const bwi_at *post_at, bw_post *post)
{
    const bwi_at at = bwi_key(post_at, "pad");
    if (at.node != NULL && post->foot == BW_FOOT_FIXED) {
        bwi_key_error(&at, "post.no_pad", NULL,
                      "leave it out, or write \"foot\": \"pad\"",
                      "a post with \"foot\": \"fixed\" stands on no pad");
        return;
    }
    if (!BWI_OBJECT(&at, "diameter", "width")) {
        return;
    }
    BWI_ONE_OF(&at, "diameter", "width");
    const bwi_at diameter = bwi_key(&at, "diameter");
    const bwi_at width = bwi_key(&at, "width");
    if ((diameter.node != NULL) == (width.node != NULL)) {
        bwi_error(
            &at, "pad.size", NULL,
            "give the \"diameter\" of a round pad or the smaller \"width\" of another",
            "a pad with %s", width.node != NULL ? "two sizes" : "no size");
        return;
    }
    double across = 0.0;
    if (bwi_measure(&diameter, BW_LENGTH, pad_range, &across)) {
        post->pad_area = pi * across * across / 4.0;
    }
    if (bwi_measure(&width, BW_LENGTH, pad_range, &across)) {
        post->pad_area = across * across;
    }
}
