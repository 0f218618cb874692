/* frame.c - free frames: nodes and members. */
#include "frame_reader.h"
#include "shape.h"

#include <math.h>

const bwi_range bwi_any_number = {-HUGE_VAL, HUGE_VAL, false};
const bwi_range bwi_above_zero = {0.0, HUGE_VAL, true};
static const bwi_range not_negative = {0.0, HUGE_VAL, false};
static const bwi_range kappa_range = {0.0, 1.0, true};

/* More than a frame of logs can have; the equations would take minutes. */
enum { most_nodes = 10000, most_members = 20000 };

void bwi_frame_note(const bwi_frame_reader *r, bw_status status)
{
    r->doc->out_of_memory = r->doc->out_of_memory || status != BW_OK;
}

void bwi_frame_optional(const bwi_at *object, const char *key, bw_quantity quantity,
                        bwi_range range, double *out)
{
    const bwi_at at = bwi_key(object, key);
    bwi_measure_or_si(&at, quantity, range, out);
}

static void frame_needed(const bwi_at *object, const char *key, bw_quantity quantity,
                         bwi_range range, double *out)
{
    const bwi_at at = bwi_need(object, key);
    bwi_measure_or_si(&at, quantity, range, out);
}

/* null: no shear strain. */
static void kappa_read(const bwi_at *at, double *out)
{
    if (bwi_is_null(at)) {
        *out = 0.0;
    } else {
        bwi_number(at, kappa_range, out);
    }
}

/* ---- nodes ---- */

static void pair_read(const bwi_at *at, bwi_point *out)
{
    bwi_note_list(at, 2, 2);
    if (bwi_count(at) != 2) {
        bwi_error(at, "node.pair", "two coordinates", NULL, "%zu coordinates",
                  bwi_count(at));
        return;
    }
    const bwi_at x = bwi_nth(at, 0);
    bwi_measure_or_si(&x, BW_LENGTH, bwi_any_number, &out->x);
    const bwi_at y = bwi_nth(at, 1);
    bwi_measure_or_si(&y, BW_LENGTH, bwi_any_number, &out->y);
}

static const char *node_read(const bwi_at *at, bwi_point *out)
{
    const char *name = bwi_print(at->doc, "node %zu", at->index);
    *out = (bwi_point){(double)NAN, (double)NAN};
    if (cJSON_IsArray(at->node)) {
        pair_read(at, out);
    } else if (BWI_OBJECT(at, "name", "x", "y")) {
        const bwi_at name_at = bwi_key(at, "name");
        bwi_name(&name_at, &name);
        frame_needed(at, "x", BW_LENGTH, bwi_any_number, &out->x);
        frame_needed(at, "y", BW_LENGTH, bwi_any_number, &out->y);
    }
    return name;
}

static void nodes_read(bwi_frame_reader *r)
{
    r->node_list = bwi_need(&r->root, "nodes");
    const bwi_at *list = &r->node_list;
    const size_t count = bwi_list(list, 2, most_nodes) ? bwi_count(list) : 0;
    r->nodes = bwi_new(r->doc, count, sizeof *r->nodes);
    const char **names = bwi_new(r->doc, count, sizeof *names);
    if (r->nodes == NULL || names == NULL) {
        return;
    }
    bwi_at item = bwi_first(list);
    for (size_t i = 0; i < count; i++, bwi_next(&item)) {
        names[i] = node_read(&item, &r->nodes[i]);
        const int id = bw_frame_add_node(r->frame, r->nodes[i].x, r->nodes[i].y, names[i],
                                         bwi_pointer(&item));
        bwi_frame_note(r, id < 0 ? BW_E_MEMORY : BW_OK);
    }
    bwi_names_make(list, "node", "name", names, count, &r->node_names);
    r->out->node_names = names;
    r->out->n_nodes = count;
}

/* ---- members ---- */

static void section_read(const bwi_at *at, bw_member *m)
{
    const bool given = bwi_key(at, "A").node != NULL || bwi_key(at, "I").node != NULL ||
                       bwi_key(at, "S").node != NULL;
    double start = 0.0;
    double end = 0.0;
    if (!given) {
        frame_needed(at, "d_i", BW_LENGTH, bwi_above_zero, &start);
        frame_needed(at, "d_j", BW_LENGTH, bwi_above_zero, &end);
        m->section_i = bw_section_round(start);
        m->section_j = bw_section_round(end);
        return;
    }
    double area = 0.0;
    double second_moment = 0.0;
    double modulus = 0.0;
    bwi_frame_optional(at, "d_i", BW_LENGTH, bwi_above_zero, &start);
    bwi_frame_optional(at, "d_j", BW_LENGTH, bwi_above_zero, &end);
    frame_needed(at, "A", BW_AREA, bwi_above_zero, &area);
    frame_needed(at, "I", BW_SECOND_MOMENT, bwi_above_zero, &second_moment);
    bwi_frame_optional(at, "S", BW_SECTION_MODULUS, bwi_above_zero, &modulus);
    m->section_i = bw_section_given(area, second_moment, modulus);
    m->section_j = m->section_i;
}

static void stiffness_read(const bwi_frame_reader *r, const bwi_at *at, bw_member *m)
{
    frame_needed(at, "E", BW_STRESS, bwi_above_zero, &m->modulus);
    bwi_frame_optional(at, "G", BW_STRESS, not_negative, &m->shear_modulus);
    m->kappa = r->kappa;
    const bwi_at kappa = bwi_key(at, "kappa");
    kappa_read(&kappa, &m->kappa);
    const bwi_at shear = bwi_key(at, "G");
    if (m->kappa > 0.0 && !(m->shear_modulus > 0.0)) {
        bwi_error(shear.node != NULL ? &shear : at, "member.shear", NULL,
                  "add \"G\", or write \"kappa\": null to leave shear strain out",
                  "shear strain (\"kappa\") needs a shear modulus \"G\" above 0");
    }
    bwi_frame_optional(at, "density", BW_DENSITY, not_negative, &m->density);
}

/* One end of a member: sets what is let go there. */
static void release_read(const bwi_at *list, bool *hinge, bool *slides)
{
    if (!bwi_list(list, 0, 2)) {
        return;
    }
    for (bwi_at item = bwi_first(list); item.node != NULL; bwi_next(&item)) {
        int what = 0;
        if (BWI_WORD(&item, &what, "M", "N")) {
            *(what == 0 ? hinge : slides) = true;
        }
    }
}

static void joints_read(const bwi_at *at, bw_member *m)
{
    bool slides_i = false;
    bool slides_j = false;
    const bwi_at releases = bwi_key(at, "releases");
    if (BWI_OBJECT(&releases, "i", "j")) {
        const bwi_at i = bwi_key(&releases, "i");
        release_read(&i, &m->hinge_i, &slides_i);
        const bwi_at j = bwi_key(&releases, "j");
        release_read(&j, &m->hinge_j, &slides_j);
    }
    m->slides = slides_i || slides_j;
    if (slides_i) {
        bwi_error(&releases, "member.loose", NULL, "release N at end j: swap i and j",
                  "a release of N at end i");
    }
    bwi_frame_optional(at, "spring_i", BW_TURN_STIFFNESS, bwi_above_zero,
                       &m->turn_spring_i);
    bwi_frame_optional(at, "spring_j", BW_TURN_STIFFNESS, bwi_above_zero,
                       &m->turn_spring_j);
    if ((m->hinge_i && m->turn_spring_i > 0.0) ||
        (m->hinge_j && m->turn_spring_j > 0.0)) {
        const bool first = m->hinge_i && m->turn_spring_i > 0.0;
        const bwi_at spring = bwi_key(at, first ? "spring_i" : "spring_j");
        bwi_error(&spring, "member.hinge", NULL, "keep the hinge or the spring",
                  "the end is released in \"releases\", so a spring cannot act there");
    }
}

static double length_read(const bwi_frame_reader *r, const bwi_at *at, const bw_member *m)
{
    if (m->node_i < 0 || m->node_j < 0) {
        return (double)NAN;
    }
    if (m->node_i == m->node_j) {
        const bwi_at j = bwi_key(at, "j");
        bwi_error(&j, "member.ends", NULL, "name two different nodes",
                  "the member begins and ends at node %s", bwi_as_written(&j));
        return (double)NAN;
    }
    const bwi_point a = r->nodes[m->node_i];
    const bwi_point b = r->nodes[m->node_j];
    const double length = hypot(b.x - a.x, b.y - a.y);
    if (length <= 0.0 || isinf(length)) {
        bwi_error(at, "member.length", NULL, "check the coordinates of its nodes",
                  "the length of the member is %s",
                  length <= 0.0 ? "0" : "too large for a number");
        return (double)NAN;
    }
    return length;
}

static void member_read(bwi_frame_reader *r, const bwi_at *at, bw_member *m)
{
    *m = (bw_member){.node_i = -1,
                     .node_j = -1,
                     .name = bwi_print(r->doc, "member %zu", at->index),
                     .case_path = bwi_pointer(at)};
    r->lengths[at->index] = (double)NAN;
    bwi_by_key(at, "A");
    if (!BWI_OBJECT(at, "name", "i", "j", "d_i", "d_j", "E", "G", "density", "kappa", "A",
                    "I", "S", "releases", "spring_i", "spring_j")) {
        return;
    }
    const bwi_at name = bwi_key(at, "name");
    bwi_name(&name, &m->name);
    const bwi_at i = bwi_need(at, "i");
    bwi_reference_or_index(&i, &r->node_names, &m->node_i);
    const bwi_at j = bwi_need(at, "j");
    bwi_reference_or_index(&j, &r->node_names, &m->node_j);
    r->lengths[at->index] = length_read(r, at, m);
    section_read(at, m);
    stiffness_read(r, at, m);
    joints_read(at, m);
    r->lacks_density = r->lacks_density || bwi_key(at, "density").node == NULL;
}

static void members_read(bwi_frame_reader *r)
{
    r->member_list = bwi_need(&r->root, "members");
    const bwi_at *list = &r->member_list;
    const size_t count = bwi_list(list, 1, most_members) ? bwi_count(list) : 0;
    r->lengths = bwi_new(r->doc, count, sizeof *r->lengths);
    const char **names = bwi_new(r->doc, count, sizeof *names);
    if (r->lengths == NULL || names == NULL) {
        return;
    }
    bwi_at item = bwi_first(list);
    for (size_t i = 0; i < count; i++, bwi_next(&item)) {
        bw_member member;
        member_read(r, &item, &member);
        names[i] = member.name;
        const int id = bw_frame_add_member(r->frame, &member);
        bwi_frame_note(r, id < 0 ? BW_E_MEMORY : BW_OK);
    }
    bwi_names_make(list, "member", "name", names, count, &r->member_names);
    r->out->member_names = names;
    r->out->n_members = count;
}

/* ---- the whole ---- */

static void frame_read(bwi_frame_reader *r)
{
    if (!BWI_OBJECT(&r->root, "format", "title", "units", "kappa", "nodes", "members",
                    "supports", "loads") ||
        !bwi_format(&r->root, NULL)) {
        return;
    }
    const bwi_at title = bwi_key(&r->root, "title");
    bwi_text(&title, &r->out->title);
    int units = BW_METRIC;
    const bwi_at units_at = bwi_key(&r->root, "units");
    BWI_WORD(&units_at, &units, "imperial", "metric");
    r->out->units = (bw_units)units;
    r->doc->units = (bw_units)units;
    const bwi_at kappa = bwi_key(&r->root, "kappa");
    kappa_read(&kappa, &r->kappa);
    nodes_read(r);
    members_read(r);
    bwi_frame_supports(r);
    if (r->lengths != NULL) {
        bwi_frame_loads(r);
    }
}

bw_status bwi_input_frame(bw_arena *arena, const char *text, bw_frame_input *out,
                          bw_diags *d, bwi_shape *shape)
{
    bwi_json doc;
    *out = (bw_frame_input){.frame = bw_frame_new(arena), .units = BW_METRIC};
    if (out->frame == NULL) {
        return BW_E_MEMORY;
    }
    if (bwi_json_open(&doc, arena, text, d)) {
        doc.shape = shape;
        bwi_frame_reader r = {
            .doc = &doc, .root = bwi_root(&doc), .out = out, .frame = out->frame};
        frame_read(&r);
    }
    return bwi_json_close(&doc);
}

bw_status bw_input_frame(bw_arena *arena, const char *text, bw_frame_input *out,
                         bw_diags *d)
{
    return bwi_input_frame(arena, text, out, d, NULL);
}
