/* frame_loads.c - free frames: supports and loads, all of them in load case 0. */
#include "frame_reader.h"

#include <math.h>

enum { most_supports = 10000, most_loads = 20000, load_case = 0 };

/* ---- supports ---- */

static const char *const motions[] = {"x", "y", "r"};

static void fix_read(const bwi_at *list, bw_support *s)
{
    if (!bwi_list(list, 0, 3)) {
        return;
    }
    for (bwi_at item = bwi_first(list); item.node != NULL; bwi_next(&item)) {
        int motion = 0;
        if (bwi_word(&item, motions, BWI_COUNT(motions), &motion)) {
            s->fix[motion] = true;
        }
    }
}

static void springs_read(const bwi_at *at, bw_support *s)
{
    if (!bwi_object(at, motions, BWI_COUNT(motions))) {
        return;
    }
    for (size_t k = 0; k < BWI_COUNT(motions); k++) {
        const bwi_at spring = bwi_key(at, motions[k]);
        bwi_measure_or_si(&spring, k < 2 ? BW_STIFFNESS : BW_TURN_STIFFNESS,
                          bwi_above_zero, &s->spring[k]);
        if (spring.node != NULL && s->fix[k]) {
            bwi_key_error(&spring, "support.spring", NULL, "keep \"fix\" or the spring",
                          "the motion is fixed, so a spring cannot act on it");
        }
    }
}

static void settlements_read(const bwi_at *at, bw_support *s)
{
    if (!bwi_object(at, motions, BWI_COUNT(motions))) {
        return;
    }
    for (size_t k = 0; k < BWI_COUNT(motions); k++) {
        const bwi_at moved = bwi_key(at, motions[k]);
        bwi_measure_or_si(&moved, k < 2 ? BW_LENGTH : BW_ANGLE, bwi_any_number,
                          &s->settle[k]);
        if (moved.node != NULL && !s->fix[k]) {
            bwi_key_error(&moved, "support.settle", NULL, "add the motion to \"fix\"",
                          "only a fixed motion can be imposed");
        }
    }
}

static void support_read(const bwi_frame_reader *r, const bwi_at *at)
{
    bw_support s = {.node = -1, .case_path = bwi_pointer(at)};
    if (!BWI_OBJECT(at, "node", "fix", "angle_deg", "spring", "disp")) {
        return;
    }
    const bwi_at node = bwi_need(at, "node");
    bwi_reference_or_index(&node, &r->node_names, &s.node);
    const bwi_at fix = bwi_key(at, "fix");
    fix_read(&fix, &s);
    double degrees = 0.0;
    const bwi_at angle = bwi_key(at, "angle_deg");
    bwi_number(&angle, (bwi_range){-360.0, 360.0, false}, &degrees);
    s.angle = degrees * bw_unit_size(BW_ANGLE, "deg");
    const bwi_at spring = bwi_key(at, "spring");
    springs_read(&spring, &s);
    const bwi_at moved = bwi_key(at, "disp");
    settlements_read(&moved, &s);
    BWI_ANY_OF(at, "fix", "spring");
    if (fix.node == NULL && spring.node == NULL) {
        bwi_error(at, "support.empty", NULL,
                  "add \"fix\" with x, y or r, or a \"spring\"",
                  "the support holds nothing");
    }
    if (s.node >= 0) {
        bwi_frame_note(r, bw_frame_add_support(r->frame, &s));
    }
}

void bwi_frame_supports(bwi_frame_reader *r)
{
    const bwi_at list = bwi_need(&r->root, "supports");
    if (bwi_list(&list, 0, most_supports)) {
        for (bwi_at item = bwi_first(&list); item.node != NULL; bwi_next(&item)) {
            support_read(r, &item);
        }
    }
}

/* ---- loads ---- */

static void node_load_read(const bwi_frame_reader *r, const bwi_at *at)
{
    int node = -1;
    double fx = 0.0;
    double fy = 0.0;
    double moment = 0.0;
    if (!BWI_OBJECT(at, "type", "node", "Fx", "Fy", "M")) {
        return;
    }
    const bwi_at node_at = bwi_need(at, "node");
    bwi_reference_or_index(&node_at, &r->node_names, &node);
    bwi_frame_optional(at, "Fx", BW_FORCE, bwi_any_number, &fx);
    bwi_frame_optional(at, "Fy", BW_FORCE, bwi_any_number, &fy);
    bwi_frame_optional(at, "M", BW_MOMENT, bwi_any_number, &moment);
    if (node >= 0) {
        bwi_frame_note(r, bw_frame_load_node(r->frame, load_case, node, fx, fy, moment));
    }
}

/* A distance from end i; a little more than the length, from rounding, is the length. */
static bool place_read(const bwi_frame_reader *r, const bwi_at *at, int member,
                       double *out)
{
    static const double rounding = 1e-9;
    double place = 0.0;
    if (!bwi_measure_or_si(at, BW_LENGTH, (bwi_range){0.0, HUGE_VAL, false}, &place)) {
        return false;
    }
    const double length = member >= 0 ? r->lengths[member] : (double)NAN;
    if (place > length * (1.0 + rounding)) {
        const bwi_range along = {0.0, length, false};
        bwi_error(at, "load.place", bwi_range_print(r->doc, BW_LENGTH, along),
                  "distances count from end i",
                  "%s lies beyond the end of the member, which is %.9g m long",
                  bwi_as_written(at), length);
        return false;
    }
    *out = fmin(place, length);
    return true;
}

static int member_of(const bwi_frame_reader *r, const bwi_at *load)
{
    int member = -1;
    const bwi_at at = bwi_need(load, "member");
    bwi_reference_or_index(&at, &r->member_names, &member);
    return member;
}

static void member_load_add(const bwi_frame_reader *r, const bw_member_load *load)
{
    if (load->member >= 0) {
        bwi_frame_note(r, bw_frame_load_member(r->frame, load_case, load));
    }
}

static void point_load_read(const bwi_frame_reader *r, const bwi_at *at)
{
    if (!BWI_OBJECT(at, "type", "member", "a", "Fx", "Fy", "M")) {
        return;
    }
    bw_member_load load = {.kind = BW_LOAD_POINT, .member = member_of(r, at)};
    const bwi_at a = bwi_need(at, "a");
    place_read(r, &a, load.member, &load.a);
    load.b = load.a;
    bwi_frame_optional(at, "Fx", BW_FORCE, bwi_any_number, &load.x[0]);
    bwi_frame_optional(at, "Fy", BW_FORCE, bwi_any_number, &load.y[0]);
    bwi_frame_optional(at, "M", BW_MOMENT, bwi_any_number, &load.moment);
    member_load_add(r, &load);
}

/* Intensities at a and at b. */
static void line_read(const bwi_at *at, double out[2])
{
    if (bwi_list(at, 2, 2)) {
        for (bwi_at item = bwi_first(at); item.node != NULL; bwi_next(&item)) {
            bwi_measure_or_si(&item, BW_LINE_LOAD, bwi_any_number, &out[item.index]);
        }
    }
}

static void stretch_read(const bwi_frame_reader *r, const bwi_at *at,
                         bw_member_load *load)
{
    const bwi_at a = bwi_key(at, "a");
    const bwi_at b = bwi_key(at, "b");
    bool known = a.node == NULL || place_read(r, &a, load->member, &load->a);
    load->b = load->member >= 0 ? r->lengths[load->member] : 0.0;
    if (b.node != NULL && !bwi_is_null(&b)) {
        known = place_read(r, &b, load->member, &load->b) && known;
    }
    if (known && load->b <= load->a) {
        bwi_error(
            b.node != NULL ? &b : at, "load.stretch", NULL,
            "\"a\" is where the load begins and \"b\" where it ends, both from end i",
            "the load ends at %.9g m, where it has not begun: \"a\" is %.9g m", load->b,
            load->a);
    }
}

static void line_load_read(const bwi_frame_reader *r, const bwi_at *at)
{
    if (!BWI_OBJECT(at, "type", "member", "a", "b", "wx", "wy", "per")) {
        return;
    }
    bw_member_load load = {.kind = BW_LOAD_LINE, .member = member_of(r, at)};
    stretch_read(r, at, &load);
    const bwi_at wx = bwi_key(at, "wx");
    line_read(&wx, load.x);
    const bwi_at wy = bwi_key(at, "wy");
    line_read(&wy, load.y);
    BWI_ANY_OF(at, "wx", "wy");
    if (wx.node == NULL && wy.node == NULL) {
        bwi_error(at, "key.missing", NULL, "add \"wy\": [at a, at b]",
                  "neither \"wx\" nor \"wy\" is given");
    }
    int per = 0;
    const bwi_at per_at = bwi_key(at, "per");
    BWI_WORD(&per_at, &per, "length", "horizontal");
    load.per_plan_length = per == 1;
    member_load_add(r, &load);
}

static void self_weight_read(const bwi_frame_reader *r, const bwi_at *at)
{
    if (!BWI_OBJECT(at, "type")) {
        return;
    }
    bwi_frame_note(r, bw_frame_load_self_weight(r->frame, load_case, 1.0));
    if (r->lacks_density) {
        bwi_warn(at, "load.weightless", NULL, "add \"density\" to every member",
                 "a member gives no \"density\", so it weighs nothing here");
    }
}

static void load_read(const bwi_frame_reader *r, const bwi_at *at)
{
    static void (*const readers[])(const bwi_frame_reader *, const bwi_at *) = {
        node_load_read, point_load_read, line_load_read, self_weight_read};
    bwi_by_word(at, "type");
    if (!cJSON_IsObject(at->node)) {
        BWI_OBJECT(at, "type");
        return;
    }
    int type = 0;
    const bwi_at type_at = bwi_need(at, "type");
    if (BWI_WORD(&type_at, &type, "node", "point", "dist", "self")) {
        readers[type](r, at);
    }
}

void bwi_frame_loads(bwi_frame_reader *r)
{
    const bwi_at list = bwi_key(&r->root, "loads");
    if (bwi_list(&list, 0, most_loads)) {
        for (bwi_at item = bwi_first(&list); item.node != NULL; bwi_next(&item)) {
            load_read(r, &item);
        }
    }
}
