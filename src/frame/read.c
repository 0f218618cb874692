/* Reading a state at its nodes. */
#include "internal.h"

static bw_motion turn(const bwi_node *n, double a, double b, double r)
{
    return (bw_motion){n->cosine * a - n->sine * b, n->sine * a + n->cosine * b, r};
}

bw_motion bw_state_displacement(const bw_state *s, int node)
{
    const double *u = s->u + 3 * (size_t)node, *low = s->u_low + 3 * (size_t)node;
    return turn(&s->frame->nodes[node], u[0] + low[0], u[1] + low[1], u[2] + low[2]);
}

/* What the supports give: on fixed motions all that the members and loads leave over, on
 * springs their force. */
bw_motion bw_state_reaction(const bw_state *s, int node)
{
    const bw_frame *f = s->frame;
    const bwi_node *n = &f->nodes[node];
    double rest[3] = {0.0, 0.0, 0.0};
    for (int k = f->incident_start[node]; k < f->incident_start[node + 1]; k++) {
        const int member = f->incident[k];
        double push[6];
        bwi_element_push(f, member, s->end[member], push);
        for (int j = 0; j < 3; j++) {
            rest[j] -= push[j + (f->members[member].m.node_j == node ? 3 : 0)];
        }
    }
    bwi_state_nodal(s, node, -1.0, rest);
    const double *u = s->u + 3 * (size_t)node;
    for (int k = 0; k < 3; k++) {
        const double other = k == 0 ? u[2] : k == 2 ? u[0] : 0.0;
        rest[k] = n->fix[k] ? rest[k] : -n->spring[k] * u[k] - n->spring_xr * other;
    }
    return turn(n, rest[0], rest[1], rest[2]);
}

double bw_state_residual(const bw_state *s)
{
    return s->residual;
}

const char *bw_frame_member_name(const bw_frame *f, int member)
{
    return f->members[member].m.name;
}

double bw_frame_length(const bw_frame *f, int member)
{
    return f->members[member].length;
}

void bw_frame_direction(const bw_frame *f, int member, double *cosine, double *sine)
{
    *cosine = f->members[member].cosine;
    *sine = f->members[member].sine;
}

bw_section bw_frame_section(const bw_frame *f, int member, double x)
{
    return bwi_member_section(&f->members[member], x);
}
