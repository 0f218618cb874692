/* duty.c - what every answer about sizes rests on, in words. */
#include "internal.h"

#include <math.h>

const char *const bwi_sizes_not_checked[] = {
    "caps, posts, holes, ground, boards, braces, joints, sway, wind, decay", NULL};

const char bwi_sizes_caution[] =
    "a sanity check, not engineering. Check the whole frame with \"bolewright check\"; "
    "local rules and a licensed engineer come first.";

double bwi_up(double value, double step)
{
    return ceil(value / step * (1.0 - 1e-9)) * step;
}

static const char *print(bw_text *out, bw_quantity quantity, double value, bw_units units)
{
    return bwi_or_fail(out, bw_quantity_print(out->arena, quantity, value, units));
}

const char *bwi_duty_loads(bw_arena *arena, const bw_duty *duty)
{
    const bw_loads *l = &duty->loads;
    const double unit = bw_unit_size(BW_MASS, duty->units == BW_IMPERIAL ? "lb" : "kg");
    bw_text text = bw_text_new(arena);
    if (l->mass > 0.0) {
        bw_text_print(
            &text, "a rider of %s with bike, pressing down with %.3g times that",
            print(&text, BW_MASS, bwi_up(l->mass, unit), duty->units), l->factor);
    }
    if (l->crowd > 0.0) {
        bw_text_print(&text, "%speople standing, %s%s", l->mass > 0.0 ? ", or " : "",
                      print(&text, BW_PRESSURE, l->crowd, duty->units),
                      l->mass > 0.0 ? ": the worse of them, never at once" : "");
    }
    if (l->snow != 0.0) {
        bw_text_print(&text, "; snow, %s",
                      print(&text, BW_PRESSURE, l->snow, duty->units));
    } else {
        bw_text_add(&text, "; no snow");
    }
    return bw_text_string(&text);
}

const char *bwi_duty_place(bw_arena *arena, const bw_duty *duty)
{
    bw_text text = bw_text_new(arena);
    const double rest = fabs(duty->deck_width - duty->row_spacing);
    if (rest < 1e-9 * duty->deck_width) {
        bw_text_print(&text,
                      "a stringer that carries %s of the width of a deck, no wheel "
                      "further out than its row",
                      print(&text, BW_LENGTH, duty->deck_width / 2.0, duty->units));
    } else {
        bw_text_print(&text, "one of two rows %s apart under a deck %s wide",
                      print(&text, BW_LENGTH, duty->row_spacing, duty->units),
                      print(&text, BW_LENGTH, duty->deck_width, duty->units));
    }
    return bw_text_string(&text);
}

static const char *grade_words(bw_arena *arena, const bw_eye_grade *grade)
{
    const double left = bw_grade_factor(grade, BW_BENDING_STRENGTH, NULL);
    size_t open = 0;
    for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
        open += bw_grade_is_answered(grade, q) ? 0 : 1;
    }
    if (open == 0) {
        return "graded by eye, with the answers given.";
    }
    return bw_arena_print(
        arena,
        "nobody has looked at its knots, grain, checks and decay, which "
        "costs %.0f %% of the bending strength.",
        ceil(100.0 * (1.0 - left)));
}

void bwi_duty_lines(const bw_duty *duty, const bw_eye_grade *grade, bw_text *out)
{
    bw_text line = bw_text_new(out->arena);
    bw_text_print(&line, "%s. As %s; %s.",
                  bwi_or_fail(out, bwi_duty_loads(out->arena, duty)),
                  bwi_or_fail(out, bwi_duty_place(out->arena, duty)), duty->basis->title);
    bwi_paragraph(out, "For: ", bwi_or_fail(out, bw_text_string(&line)));
    bwi_paragraph(out, "Wood: ", bwi_or_fail(out, grade_words(out->arena, grade)));
    bw_text ample = bw_text_new(out->arena);
    bw_text_print(&ample,
                  "supports as thick as it is half way, seats %s deep. NOT CHECKED: %s.",
                  bwi_or_fail(out, bw_length_print_small(
                                       out->arena, duty->limits.seat_depth, duty->units)),
                  bwi_sizes_not_checked[0]);
    bwi_paragraph(out, "Taken: ", bwi_or_fail(out, bw_text_string(&ample)));
    bwi_paragraph(out, "Caution: ", bwi_sizes_caution);
}

void bwi_duty_json(bwi_json *json, const bw_duty *duty, const bw_species *species,
                   const bw_eye_grade *grade)
{
    bwi_json_begin(json, "for", '{');
    bwi_json_text(json, "species", species->id);
    bwi_json_text(json, "basis", duty->basis->id);
    bwi_json_real(json, "deck_width_m", duty->deck_width);
    bwi_json_real(json, "row_spacing_m", duty->row_spacing);
    bwi_json_known(json, "rider_kg", duty->loads.mass, duty->loads.mass > 0.0);
    bwi_json_known(json, "rider_factor", duty->loads.factor, duty->loads.mass > 0.0);
    bwi_json_known(json, "people_pa", duty->loads.crowd, duty->loads.crowd > 0.0);
    bwi_json_known(json, "snow_pa", duty->loads.snow, duty->loads.snow > 0.0);
    bwi_json_real(json, "seat_depth_m", duty->limits.seat_depth);
    bwi_json_real(json, "grade_on_bending",
                  bw_grade_factor(grade, BW_BENDING_STRENGTH, NULL));
    bwi_json_end(json, '}');
}
