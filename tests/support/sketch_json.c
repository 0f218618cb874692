#include "sketch.h"
#include <string.h>

static const double degree = 3.14159265358979323846 / 180.0;

static double number(const cJSON *object, const char *key, double otherwise)
{
    const cJSON *item = cJSON_GetObjectItemCaseSensitive(object, key);
    return cJSON_IsNumber(item) ? item->valuedouble : otherwise;
}

static int whole(const cJSON *object, const char *key, int otherwise)
{
    const cJSON *item = cJSON_GetObjectItemCaseSensitive(object, key);
    return cJSON_IsNumber(item) ? item->valueint : otherwise;
}

static bool says(const cJSON *object, const char *key, const char *word)
{
    const char *text =
        cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(object, key));
    return text != NULL && strcmp(text, word) == 0;
}

static bool lists(const cJSON *array, const char *word)
{
    const cJSON *item = NULL;
    cJSON_ArrayForEach(item, array)
    {
        if (cJSON_IsString(item) && strcmp(item->valuestring, word) == 0) {
            return true;
        }
    }
    return false;
}

static const char *read_nodes(const cJSON *nodes, bwt_sketch *out)
{
    const cJSON *node = NULL;
    cJSON_ArrayForEach(node, nodes)
    {
        const cJSON *x = cJSON_GetArrayItem(node, 0);
        const cJSON *y = cJSON_GetArrayItem(node, 1);
        if (!cJSON_IsNumber(x) || !cJSON_IsNumber(y) || out->n_nodes >= BWT_ROOM) {
            return "a node is not [x, y], or there are too many";
        }
        out->nodes[out->n_nodes++] = (bwt_point){x->valuedouble, y->valuedouble};
    }
    return NULL;
}

/* "flat_top": [at i, at j], likewise flat_bottom and bore: only in tests' own frames. */
static double at_end(const cJSON *member, const char *key, int end)
{
    const cJSON *pair = cJSON_GetObjectItemCaseSensitive(member, key);
    const cJSON *item = cJSON_GetArrayItem(pair, end);
    return cJSON_IsNumber(item) ? item->valuedouble : 0.0;
}

static void read_shape(const cJSON *member, bw_section *section, int end)
{
    section->flat_top = at_end(member, "flat_top", end);
    section->flat_bottom = at_end(member, "flat_bottom", end);
    section->bore = at_end(member, "bore", end);
}

static void read_sections(const cJSON *member, bw_member *m)
{
    const double area = number(member, "A", 0.0);
    if (area > 0.0) {
        m->section_i =
            bw_section_given(area, number(member, "I", 0.0), number(member, "S", 0.0));
        m->section_j = m->section_i;
    } else {
        m->section_i = bw_section_round(number(member, "d_i", 0.0));
        m->section_j = bw_section_round(number(member, "d_j", 0.0));
        read_shape(member, &m->section_i, 0);
        read_shape(member, &m->section_j, 1);
    }
}

static const char *read_members(const cJSON *model, bwt_sketch *out)
{
    const double kappa = number(model, "kappa", 0.0);
    const cJSON *member = NULL;
    cJSON_ArrayForEach(member, cJSON_GetObjectItemCaseSensitive(model, "members"))
    {
        const cJSON *releases = cJSON_GetObjectItemCaseSensitive(member, "releases");
        const cJSON *at_i = cJSON_GetObjectItemCaseSensitive(releases, "i");
        const cJSON *at_j = cJSON_GetObjectItemCaseSensitive(releases, "j");
        bw_member m = {0};
        m.node_i = whole(member, "i", -1);
        m.node_j = whole(member, "j", -1);
        read_sections(member, &m);
        m.modulus = number(member, "E", 0.0);
        m.shear_modulus = number(member, "G", 0.0);
        m.kappa =
            cJSON_HasObjectItem(member, "kappa") ? number(member, "kappa", 0.0) : kappa;
        m.density = number(member, "density", 0.0);
        m.hinge_i = lists(at_i, "M");
        m.hinge_j = lists(at_j, "M");
        m.slides = lists(at_j, "N");
        m.turn_spring_i = number(member, "spring_i", 0.0);
        m.turn_spring_j = number(member, "spring_j", 0.0);
        m.lean = number(member, "lean", 0.0);
        m.bow = number(member, "bow", 0.0);
        if (lists(at_i, "N")) {
            return "a member can slide at its end j only";
        }
        if (m.node_i < 0 || m.node_i >= out->n_nodes || m.node_j < 0 ||
            m.node_j >= out->n_nodes || out->n_members >= BWT_ROOM) {
            return "a member ends at no node, or there are too many";
        }
        out->members[out->n_members++] = m;
    }
    return NULL;
}

static const char *read_supports(const cJSON *supports, bwt_sketch *out)
{
    static const char *const motion[3] = {"x", "y", "r"};
    const cJSON *support = NULL;
    cJSON_ArrayForEach(support, supports)
    {
        bw_support s = {0};
        s.node = whole(support, "node", -1);
        s.angle = number(support, "angle_deg", 0.0) * degree;
        for (int c = 0; c < 3; c++) {
            s.fix[c] = lists(cJSON_GetObjectItemCaseSensitive(support, "fix"), motion[c]);
            s.spring[c] = number(cJSON_GetObjectItemCaseSensitive(support, "spring"),
                                 motion[c], 0.0);
            s.settle[c] =
                number(cJSON_GetObjectItemCaseSensitive(support, "disp"), motion[c], 0.0);
        }
        if (s.node < 0 || s.node >= out->n_nodes || out->n_supports >= BWT_ROOM) {
            return "a support is at no node, or there are too many";
        }
        out->supports[out->n_supports++] = s;
    }
    return NULL;
}

static void read_pair(const cJSON *load, const char *key, double pair[2])
{
    const cJSON *array = cJSON_GetObjectItemCaseSensitive(load, key);
    for (int k = 0; k < 2; k++) {
        const cJSON *item = cJSON_GetArrayItem(array, k);
        pair[k] = cJSON_IsNumber(item) ? item->valuedouble : 0.0;
    }
}

static bw_member_load read_member_load(const cJSON *load, const bwt_sketch *s)
{
    bw_member_load w = {.member = whole(load, "member", -1), .a = number(load, "a", 0.0)};
    if (says(load, "type", "point")) {
        w.kind = BW_LOAD_POINT;
        w.b = w.a;
        w.x[0] = number(load, "Fx", 0.0);
        w.y[0] = number(load, "Fy", 0.0);
        w.moment = number(load, "M", 0.0);
    } else if (w.member >= 0 && w.member < s->n_members) {
        w.kind = BW_LOAD_LINE;
        w.b = number(load, "b", bwt_member_length(s, w.member));
        read_pair(load, "wx", w.x);
        read_pair(load, "wy", w.y);
        w.per_plan_length = says(load, "per", "horizontal");
    }
    return w;
}

static const char *read_load(const cJSON *load, bwt_sketch *out)
{
    bwt_load l = {.factor = 1.0};
    if (says(load, "type", "node")) {
        l.kind = BWT_LOAD_NODE;
        l.node = whole(load, "node", -1);
        l.fx = number(load, "Fx", 0.0);
        l.fy = number(load, "Fy", 0.0);
        l.moment = number(load, "M", 0.0);
    } else if (says(load, "type", "self")) {
        l.kind = BWT_LOAD_SELF;
    } else if (says(load, "type", "point") || says(load, "type", "dist")) {
        l.kind = BWT_LOAD_MEMBER;
        l.on_member = read_member_load(load, out);
    } else {
        return "a load of unknown type";
    }
    if (l.node < 0 || l.node >= out->n_nodes || l.on_member.member < 0 ||
        l.on_member.member >= out->n_members || out->n_loads >= BWT_ROOM) {
        return "a load is on nothing, or there are too many";
    }
    out->loads[out->n_loads++] = l;
    return NULL;
}

const char *bwt_sketch_read(const cJSON *model, bwt_sketch *out)
{
    *out = (bwt_sketch){0};
    const char *fault = read_nodes(cJSON_GetObjectItemCaseSensitive(model, "nodes"), out);
    if (fault == NULL) {
        fault = read_members(model, out);
    }
    if (fault == NULL) {
        fault = read_supports(cJSON_GetObjectItemCaseSensitive(model, "supports"), out);
    }
    const cJSON *load = NULL;
    cJSON_ArrayForEach(load, cJSON_GetObjectItemCaseSensitive(model, "loads"))
    {
        if (fault == NULL) {
            fault = read_load(load, out);
        }
    }
    return fault;
}
