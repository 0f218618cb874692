/* Braces: straight logs hinged at both ends. One that is only wedged or notched in can
 * push but not pull, so for pushes the other way it is as if it were not there. */
#include "internal.h"

#include <math.h>

bool bwi_brace_is_along(const bw_brace *b)
{
    return b->from.bent != b->to.bent || b->to.on_stringer;
}

/* Height of a row's axis: straight from bent to bent, as in its frame. */
static double axis_along(const bwi_plan *p, int row, double at)
{
    size_t bay = 0;
    while (bay + 1 < p->n_bays && at > p->deck->bents[bay + 1].at) {
        bay++;
    }
    const bw_bent *a = &p->deck->bents[bay], *b = &p->deck->bents[bay + 1];
    const double t = (at - a->at) / (b->at - a->at);
    return (1.0 - t) * bwi_row_height(p, row, bay) + t * bwi_row_height(p, row, bay + 1);
}

void bwi_brace_end(const bwi_plan *p, const bw_brace_end *end, bool along, double *x,
                   double *y)
{
    if (end->on_stringer) {
        *x = p->deck->bents[end->bent].at + end->beside;
        *y = axis_along(p, end->row, *x);
        return;
    }
    const double across = p->deck->rows[end->row].across + end->beside;
    const size_t bent = (size_t)end->bent;
    *x = along ? p->deck->bents[bent].at : across;
    *y = end->on_cap ? p->cap_top[bent] - bwi_cap_depth(p, bent, across) / 2.0
                     : end->height;
}

double bwi_brace_length(const bwi_plan *p, const bw_brace *b)
{
    double x[2], y[2];
    bwi_brace_end(p, &b->from, bwi_brace_is_along(b), &x[0], &y[0]);
    bwi_brace_end(p, &b->to, bwi_brace_is_along(b), &x[1], &y[1]);
    return hypot(x[1] - x[0], y[1] - y[0]);
}

int bwi_chain_node(const bwi_chain *c, double height)
{
    for (int k = 0; k <= c->n && c->n > 0; k++) {
        const bool beyond =
            k == c->n && height > c->at[k]; /* above the joint: to the joint */
        if (beyond || fabs(c->at[k] - height) < 0.005) {
            return c->node[k];
        }
    }
    return -1;
}

bw_status bwi_brace_add(const bwi_plan *p, bw_frame *f, int brace, int from, int to,
                        int *member)
{
    const bw_brace *b = &p->deck->braces[brace];
    const bw_log *log = &p->deck->logs[b->log];
    const bw_reference *r = &p->references[b->log];
    bw_section section[2];
    bwi_log_sections(log, section);
    const bw_member m = {.node_i = from,
                         .node_j = to,
                         .section_i = section[0],
                         .section_j = section[1],
                         .modulus = r->value[BW_MODULUS],
                         .shear_modulus = bw_shear_modulus(r->value[BW_MODULUS]),
                         .kappa = 0.9,
                         .density =
                             bwi_full_density(section, bwi_log_density(p->deck, log)),
                         .hinge_i = true,
                         .hinge_j = true,
                         .name = bw_arena_print(p->arena, "brace %s", b->name),
                         .case_path = b->case_path};
    *member = bw_frame_add_member(f, &m);
    return *member >= 0 && m.name != NULL ? BW_OK : BW_E_MEMORY;
}

bool bwi_same_both_ways(const bwi_plan *p, const int *brace_member, bool slackened)
{
    bool same = !slackened;
    for (size_t k = 0; k < p->deck->n_braces; k++) {
        same = same && (brace_member[k] < 0 || p->deck->braces[k].pulls);
    }
    return same;
}

bool bwi_mark_slack(const bwi_plan *p, const bw_state *s, const int *brace_member,
                    bool *slack)
{
    bool any = false;
    for (size_t k = 0; k < p->deck->n_braces; k++) {
        if (brace_member[k] < 0 || p->deck->braces[k].pulls) {
            continue;
        }
        double end[6];
        bw_state_ends(s, brace_member[k], end);
        if (end[0] + end[3] > 0.0) {
            slack[k] = true;
            any = true;
        }
    }
    return any;
}

bool bwi_brace_would_pull(const bw_brace *brace, const bw_line *line, double length)
{
    return !brace->pulls && (bw_line_action(line, 0.0, false).axial > 0.0 ||
                             bw_line_action(line, length, true).axial > 0.0);
}

void bwi_check_brace(bwi_tracker *t, int brace, const bw_line *line, double length,
                     const bwi_event *event)
{
    enum { STATIONS = 32 };
    const bw_brace *b = &t->plan->deck->braces[brace];
    const bw_log *log = &t->plan->deck->logs[b->log];
    bw_section ends[2];
    bwi_log_sections(log, ends);
    double x[STATIONS];
    const size_t n = bw_line_stations(line, x, STATIONS);
    for (size_t k = 0; k < n; k++) {
        const bw_action a = bw_line_action(line, x[k], false);
        const bw_section s = bw_section_between(&ends[0], &ends[1], x[k] / length);
        bw_check_input in = {.reference = &t->plan->references[b->log],
                             .diameter = s.diameter,
                             .section = bwi_check_section_any(t->plan, b->log, &s),
                             .weakest = bwi_weakest_between(t->plan, b->log, ends),
                             .axial = -a.axial,
                             .shear = fabs(a.shear),
                             .moment = fabs(a.moment),
                             .diameter_small = fmin(ends[0].diameter, ends[1].diameter),
                             .diameter_large = fmax(ends[0].diameter, ends[1].diameter),
                             .length = length,
                             .effective_factor = 1.0};
        const size_t member = t->first_brace + (size_t)brace;
        bwi_track(t, member, BW_CHECK_COMBINED, &in, x[k], event);
        if (in.axial > 0.0) {
            bwi_track(t, member, BW_CHECK_COMPRESSION, &in, x[k], event);
        }
    }
    bwi_check_brace_ends(t, brace, line, length, event);
}
