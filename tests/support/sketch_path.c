/* Paths of published values:
 *   disp:n:ux|uy|rz   react:n:Fx|Fy|M
 *   mem:k:M_i|M_j|Nax|maxM[:x]|sag[:x]|hog[:x]|vmin|vmax|xvmin|xvmax|max_sigma_b[:x]
 *   mem:k:M@:x[:-]    likewise V@ N@ v@ v_chord@ uy@ theta@ sigma_b@; ':-' is just left
 */
#include "sketch.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    const bwt_sketch *sketch;
    const bw_frame *frame;
    const bw_state *state;
    int member;
} place;

static bool pick(bw_motion m, const char *name, const char *const names[3], double *value)
{
    const double parts[3] = {m.x, m.y, m.r};
    for (int c = 0; c < 3; c++) {
        if (strcmp(name, names[c]) == 0) {
            *value = parts[c];
            return true;
        }
    }
    return false;
}

static bw_extreme larger(bw_extreme a, bw_extreme b)
{
    return fabs(a.value) >= fabs(b.value) ? a : b;
}

/* name, or name followed by ":x" for the position. */
static bool extreme_named(const char *text, const char *name, bw_extreme e, double *value)
{
    const size_t length = strlen(name);
    if (strncmp(text, name, length) != 0) {
        return false;
    }
    if (text[length] == '\0') {
        *value = e.value;
        return true;
    }
    if (strcmp(text + length, ":x") == 0) {
        *value = e.x;
        return true;
    }
    return false;
}

static bool extreme_value(const place *p, const char *text, double *value)
{
    const bw_extremes e = bw_state_extremes(p->state, p->member);
    return extreme_named(text, "maxM", larger(e.moment_max, e.moment_min), value) ||
           extreme_named(text, "sag", e.moment_max, value) ||
           extreme_named(text, "hog", e.moment_min, value) ||
           extreme_named(text, "max_sigma_b", larger(e.stress_max, e.stress_min), value);
}

static bool sag_value(const place *p, const char *text, double *value)
{
    bw_extreme max = {0};
    bw_extreme min = {0};
    bw_state_sag_extremes(p->state, p->member, &max, &min);
    const struct {
        const char *name;
        double value;
    } rows[] = {
        {"vmax", max.value}, {"xvmax", max.x}, {"vmin", min.value}, {"xvmin", min.x}};
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        if (strcmp(text, rows[k].name) == 0) {
            *value = rows[k].value;
            return true;
        }
    }
    return false;
}

static bool end_value(const place *p, const char *text, double *value)
{
    const double length = bw_frame_length(p->frame, p->member);
    if (strcmp(text, "M_i") == 0) {
        *value = bw_state_action(p->state, p->member, 0.0, false).moment;
    } else if (strcmp(text, "M_j") == 0) {
        *value = bw_state_action(p->state, p->member, length, true).moment;
    } else if (strcmp(text, "Nax") == 0) {
        *value = bw_state_action(p->state, p->member, 0.0, false).axial;
    } else {
        return false;
    }
    return true;
}

static bool value_at(const place *p, const char *name, double x, bool before,
                     double *value)
{
    const bw_action action = bw_state_action(p->state, p->member, x, before);
    const bw_motion local = bw_state_local(p->state, p->member, x);
    const bw_section section = bw_frame_section(p->frame, p->member, x);
    const double modulus = bw_section_modulus(&section); /* 0: not known */
    const struct {
        const char *name;
        double value;
    } rows[] = {
        {"M", action.moment},
        {"V", action.shear},
        {"N", action.axial},
        {"v", local.y},
        {"theta", local.r},
        {"v_chord", bw_state_sag(p->state, p->member, x)},
        {"uy", bwt_member_to_global(p->sketch, p->member, local).y},
        {"sigma_b", modulus > 0.0 ? action.moment / modulus : (double)NAN},
    };
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        if (strcmp(name, rows[k].name) == 0) {
            *value = rows[k].value;
            return true;
        }
    }
    return false;
}

/* "M@:2.5" or "M@:2.5:-" */
static bool station_value(const place *p, const char *text, double *value)
{
    const char *at = strstr(text, "@:");
    char name[16] = "";
    if (at == NULL || (size_t)(at - text) >= sizeof name) {
        return false;
    }
    memcpy(name, text, (size_t)(at - text));
    char *rest = NULL;
    const double x = strtod(at + 2, &rest);
    const bool before = strcmp(rest, ":-") == 0;
    return rest != at + 2 && (before || *rest == '\0') &&
           value_at(p, name, x, before, value);
}

bool bwt_path_value(const bwt_sketch *s, const bw_frame *f, const bw_state *state,
                    const char *path, double *value)
{
    static const char *const displacement[3] = {"ux", "uy", "rz"};
    static const char *const reaction[3] = {"Fx", "Fy", "M"};
    char kind[8] = "";
    int number = -1;
    int used = 0;
    if (sscanf(path, "%7[a-z]:%d:%n", kind, &number, &used) != 2 || used == 0) {
        return false;
    }
    const char *rest = path + used;
    if (strcmp(kind, "disp") == 0 && number >= 0 && number < s->n_nodes) {
        return pick(bw_state_displacement(state, number), rest, displacement, value);
    }
    if (strcmp(kind, "react") == 0 && number >= 0 && number < s->n_nodes) {
        return pick(bw_state_reaction(state, number), rest, reaction, value);
    }
    const place p = {s, f, state, number};
    return strcmp(kind, "mem") == 0 && number >= 0 && number < s->n_members &&
           (end_value(&p, rest, value) || extreme_value(&p, rest, value) ||
            sag_value(&p, rest, value) || station_value(&p, rest, value));
}
