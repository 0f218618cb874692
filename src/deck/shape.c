/* Logs as they are: flats, hollows and notches turned into sections of frames, sections
 * of checks, and words. */
#include "internal.h"

#include <math.h>

bw_section bwi_log_section(const bw_log *log, double diameter)
{
    const bw_log_shape s = bw_log_shape_of(log, diameter);
    bw_section out = bw_section_round(s.diameter);
    out.flat_top = s.flat_top;
    out.flat_bottom = s.flat_bottom;
    out.bore = s.bore;
    return out;
}

/* ---- weight ---- */

/* Full of water: walls of 1.54 times the density of water (MEMORY), which take up G
 * / 1.54 of the volume, and water in all the rest: 1000 (1 + G (1 - 1 / 1.54)) kg/m3
 * (COMPUTED), G on the volume as felled. Without a G, as heavy as wood of 0.7. */
double bwi_log_density(const bw_case *deck, const bw_log *log)
{
    const double wall = 1.54, heavy = 0.7, water = 1000.0;
    const double own = log->species->specific_gravity.value;
    const double full = water * (1.0 + (own > 0.0 ? own : heavy) * (1.0 - 1.0 / wall));
    const double green = log->species->green_density.value;
    return deck->loads.soaked && !isnan(green) ? fmax(full, green) : green;
}

/* ---- sections of members ---- */

static void sections_between(const bw_log *log, double length, const double from_butt[2],
                             bw_section out[2])
{
    double d[2];
    bw_log_taper(log, length, from_butt[0], from_butt[1], d);
    for (int end = 0; end < 2; end++) {
        out[end] = bwi_log_section(log, d[end]);
    }
}

double bwi_stringer_from_butt(const bwi_plan *p, int stringer, double from_first)
{
    return p->deck->stringers[stringer].butt_at_to
               ? p->stringer_length[stringer] - from_first
               : from_first;
}

void bwi_stringer_sections(const bwi_plan *p, int stringer, double from_first,
                           double length, bw_section out[2])
{
    const bw_log *log = &p->deck->logs[p->deck->stringers[stringer].log];
    const double own = log->length > 0.0 ? log->length : p->stringer_length[stringer];
    const double from_butt[2] = {
        bwi_stringer_from_butt(p, stringer, from_first),
        bwi_stringer_from_butt(p, stringer, from_first + length)};
    sections_between(log, own, from_butt, out);
}

bw_section bwi_stringer_section(const bwi_plan *p, int stringer, double from_first)
{
    return bwi_log_section(&p->deck->logs[p->deck->stringers[stringer].log],
                           bwi_stringer_diameter(p, stringer, from_first));
}

void bwi_cap_sections(const bwi_plan *p, size_t bent, const double across[2],
                      bw_section out[2])
{
    const bw_log *log = &p->deck->logs[p->deck->bents[bent].cap];
    const double own = log->length > 0.0 ? log->length : p->caps[bent].length;
    const double left = p->caps[bent].across;
    const double from_butt[2] = {across[0] - left, across[1] - left};
    if (own > 0.0) {
        sections_between(log, own, from_butt, out);
    } else {
        out[0] = out[1] = bwi_log_section(log, bwi_cap_diameter(p, bent, across[0]));
    }
}

bw_section bwi_post_section(const bwi_plan *p, const bwi_post_place *place, double height)
{
    return bwi_log_section(&p->deck->logs[place->post->log],
                           bwi_post_diameter(p, place, height));
}

double bwi_post_notch_height(const bwi_post_place *place, const bw_notch *notch)
{
    const double built = place->top + place->foot_depth;
    const double up = place->post->tip_down ? built - notch->from_butt : notch->from_butt;
    return up - place->foot_depth;
}

void bwi_post_sections(const bwi_plan *p, const bwi_post_place *place, double low,
                       double high, bw_section out[2])
{
    const bw_log *log = &p->deck->logs[place->post->log];
    const double built = place->top + place->foot_depth;
    const double own = log->length > 0.0 ? log->length : built;
    const double up[2] = {low + place->foot_depth, high + place->foot_depth};
    const bool tip_down = place->post->tip_down;
    const double from_butt[2] = {tip_down ? built - up[0] : up[0],
                                 tip_down ? built - up[1] : up[1]};
    const double least = 0.5 * fmin(log->tip_diameter, log->butt_diameter);
    double d[2];
    bw_log_taper(log, own, from_butt[0], from_butt[1], d);
    for (int end = 0; end < 2; end++) {
        out[end] = bwi_log_section(log, fmax(d[end], least));
    }
}

void bwi_log_sections(const bw_log *log, bw_section out[2])
{
    double d[2] = {log->butt_diameter, log->tip_diameter};
    if (log->n_stations > 0) {
        bw_log_taper(log, log->length, 0.0, log->length, d);
    }
    out[0] = bwi_log_section(log, d[0]);
    out[1] = bwi_log_section(log, d[1]);
}

/* A hollow is full of wet rot, or of water: the member weighs as if it were solid. */
double bwi_full_density(const bw_section section[2], double density)
{
    double most = 1.0;
    for (int end = 0; end < 2; end++) {
        bw_section full = section[end];
        full.bore = 0.0;
        most = fmax(most, bw_section_area(&full) / bw_section_area(&section[end]));
    }
    return density * most;
}

double bwi_log_depth(const bw_log *log, double diameter)
{
    const bw_section s = bwi_log_section(log, diameter);
    return bw_section_depth(&s);
}

/* ---- seats ---- */

bool bwi_is_hollow(const bw_log *log)
{
    return bw_log_shape_of(log, fmax(log->butt_diameter, log->tip_diameter)).bore > 0.0;
}

bool bwi_opens(const bw_log *log, double diameter, double depth)
{
    const bw_log_shape s = bw_log_shape_of(log, diameter);
    return s.bore > 0.0 && depth >= log->shell * (1.0 - 1e-9);
}

double bwi_top_width(const bw_log *log, double diameter, double seat_depth)
{
    const double hewn = bw_log_shape_of(log, diameter).flat_top;
    return bwi_flat_width(diameter, hewn > 0.0 ? hewn : seat_depth);
}

double bwi_top_flat(const bw_log *log, double diameter, double seat_depth)
{
    const double hewn = bw_log_shape_of(log, diameter).flat_top;
    const bool opens = !(hewn > 0.0) && bwi_opens(log, diameter, seat_depth);
    return opens ? (double)NAN : bwi_top_width(log, diameter, seat_depth);
}

double bwi_bottom_flat(const bw_log *log, double diameter, double seat_depth)
{
    const bool hewn = log->flat_bottom > 0.0;
    return !hewn && bwi_opens(log, diameter, seat_depth)
               ? (double)NAN
               : bwi_flat_width(diameter, hewn ? log->flat_bottom : seat_depth);
}

double bwi_strip_on_post(const bwi_plan *p, const bwi_post_place *place, double width)
{
    const bw_section end = bwi_post_section(p, place, place->top);
    const double hollow = end.bore > 0.0 ? bwi_strip_on_circle(width, end.bore) : 0.0;
    const double depth = bw_section_depth(&end);
    return bwi_strip_on_circle(width > depth ? depth : width, end.diameter) - hollow;
}

/* ---- sections of checks ---- */

/* ASTM D3957 (MEMORY): a round timber beam with one flat no deeper than 0.3 of the radius
 * is graded as round. */
static bool bends_like_a_round_log(const bw_section *s)
{
    const double deepest = fmax(s->flat_top, s->flat_bottom);
    const bool one = s->flat_top == 0.0 || s->flat_bottom == 0.0;
    return one && s->bore == 0.0 && deepest <= 0.15 * s->diameter * (1.0 + 1e-9);
}

bw_check_section bwi_check_section(const bwi_plan *p, int log, const bw_section *s)
{
    if (bw_section_is_plain(s)) {
        return (bw_check_section){0};
    }
    return (bw_check_section){.area = bw_section_area(s),
                              .modulus = bw_section_modulus(s),
                              .second_moment = bw_section_second_moment(s),
                              .shear_factor = bw_section_shear_factor(s),
                              .depth = bw_section_depth(s),
                              .width = bw_section_width(s),
                              .round_form = bends_like_a_round_log(s),
                              .words = p->log_words[log]};
}

bw_check_section bwi_check_section_any(const bwi_plan *p, int log, const bw_section *s)
{
    bw_check_section out = bwi_check_section(p, log, s);
    if (out.area != 0.0) {
        out.modulus = bw_section_modulus_any(s);
    }
    return out;
}

/* Least area and least second moment, wherever each of them is. */
bw_check_section bwi_weakest_between(const bwi_plan *p, int log, const bw_section end[2])
{
    enum { STEPS = 8 };
    if (bw_section_is_plain(&end[0]) && bw_section_is_plain(&end[1])) {
        return (bw_check_section){0};
    }
    bw_check_section out = {.area = (double)INFINITY,
                            .second_moment = (double)INFINITY,
                            .round_form = true,
                            .words = p->log_words[log]};
    for (int k = 0; k <= STEPS; k++) {
        const bw_section s = bw_section_between(&end[0], &end[1], (double)k / STEPS);
        out.area = fmin(out.area, bw_section_area(&s));
        out.second_moment = fmin(out.second_moment, bw_section_second_moment(&s));
        out.depth = bw_section_depth(&s);
        out.width = bw_section_width(&s);
        out.round_form = out.round_form && bends_like_a_round_log(&s);
    }
    return out;
}

/* ---- notches ---- */

/* What a notch leaves; nothing to rely on where it cuts into the hollow or takes nearly
 * all. */
static bw_section notched(const bw_section *whole, const bw_notch *n)
{
    bw_section s = *whole;
    double *const flat = n->side == BW_SIDE_TOP ? &s.flat_top : &s.flat_bottom;
    *flat += n->depth;
    const bool opened = s.bore > 0.0 && s.bore > s.diameter - 2.0 * *flat;
    if (opened || s.flat_top + s.flat_bottom > 0.95 * s.diameter) {
        s.diameter = (double)NAN;
    }
    return s;
}

void bwi_notch_input(const bwi_plan *p, int log, const bwi_notch_place *at,
                     bw_check_input *in)
{
    const bw_section left = notched(&at->whole, at->notch);
    const bool below = at->notch->side == BW_SIDE_BOTTOM;
    const bool in_tension = below ? at->moment >= 0.0 : at->moment <= 0.0;
    in->section = bwi_check_section_any(p, log, &left);
    in->section.words = "what the notch leaves";
    in->section.round_form = false;
    if (!at->any_axis) {
        in->section.modulus = bw_section_modulus(&left);
    }
    if (at->any_axis || (in_tension && at->at_end)) {
        in->notch_left = bw_section_depth(&left);
        in->notch_whole = bw_section_depth(&at->whole);
        in->notch_most = at->any_axis ? 0.0 : 0.25; /* NDS 4.4.3 for ends */
    } else if (in_tension) {
        in->section.modulus = (double)NAN; /* NDS 4.4.3 allows none: no rule, no number */
    }
}

static void warn_notch(const bwi_plan *p, int stringer, const bw_notch *n,
                       double from_first, bw_diags *d)
{
    const bw_stringer *s = &p->deck->stringers[stringer];
    for (int bay = s->from; bay < s->to; bay++) {
        const bwi_part_of_stringer *part = bwi_plan_part(p, s->row, (size_t)bay);
        const double t = (from_first - part->from_first) / part->length;
        if (part->stringer == stringer && t > 1.0 / 3.0 && t < 2.0 / 3.0) {
            bw_diags_warn(
                d, "deck.notch_middle", n->case_path,
                "turn the log round, move what sits in the notch, or use "
                "another log: NDS 4.4.3 allows no notch there",
                "a notch lies in the middle third of stringer %s, between bents "
                "%s and %s",
                s->name, p->deck->bents[bay].name, p->deck->bents[bay + 1].name);
        }
    }
}

void bwi_warn_notches(const bwi_plan *p, bw_diags *d)
{
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        const bw_log *log = &p->deck->logs[p->deck->stringers[k].log];
        for (size_t j = 0; j < log->n_notches; j++) {
            /* from either end alike */
            warn_notch(p, (int)k, &log->notches[j],
                       bwi_stringer_from_butt(p, (int)k, log->notches[j].from_butt), d);
        }
    }
}

/* ---- words ---- */

static const char *thickness(const bwi_plan *p, double value)
{
    const char *text = bw_length_print_small(p->arena, value, p->deck->units);
    return text != NULL ? text : "?";
}

static const char *words_of(const bwi_plan *p, const bw_log *log)
{
    bw_text text = bw_text_new(p->arena);
    bw_text_add(&text, "what is left:");
    const char *comma = "";
    if (log->half) {
        bw_text_add(&text, " half the log");
        comma = ",";
    }
    if (log->flat_top > 0.0) {
        bw_text_print(&text, "%s a flat %s deep on top", comma,
                      thickness(p, log->flat_top));
        comma = ",";
    }
    if (log->flat_bottom > 0.0) {
        bw_text_print(&text, "%s a flat %s deep below", comma,
                      thickness(p, log->flat_bottom));
        comma = ",";
    }
    if (log->shell > 0.0) {
        bw_text_print(&text, "%s a sound shell of %s", comma, thickness(p, log->shell));
    }
    return bw_text_string(&text);
}

bw_status bwi_name_shapes(bwi_plan *p)
{
    p->log_words = BW_NEW(p->arena, const char *, p->deck->n_logs);
    if (p->log_words == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < p->deck->n_logs; k++) {
        p->log_words[k] = words_of(p, &p->deck->logs[k]);
        if (p->log_words[k] == NULL) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}
