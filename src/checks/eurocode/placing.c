/* placing.c - least spacings and distances of fasteners.
 *
 *   bolts, and all above 6 mm (Table 8.4): a1 (4 + cos) d, a2 4 d, loaded end max(7 d, 80
 *   mm), other end max((1 + 6 sin) d, 4 d), loaded edge max((2 + 2 sin) d, 3 d), edge 3 d
 *   up to 6 mm, not bored, rho_k <= 420 (Table 8.2, d >= 5 mm): a1 (5 + 7 cos) d, a2 5 d,
 *   loaded end (10 + 5 cos) d, other end 10 d, loaded edge (5 + 5 sin) d, edge 5 d
 *   penetration: 8 d of nails and spikes, 4 d of screws (8.3.1.2, 8.7.2: 6 d along)
 *
 * EN 1995-1-1:2004+A1 (MEMORY). Below them nothing is allowed; above them nothing is lost
 * but what n_ef takes. */
#include "johansen.h"

#include <math.h>

typedef struct {
    double spacing, rows, loaded_end, end, loaded_edge, edge; /* [m] */
} distances;

static distances thick(double d, double angle)
{
    const double s = fabs(sin(angle)), c = fabs(cos(angle));

    return (distances){.spacing = (4.0 + c) * d,
                       .rows = 4.0 * d,
                       .loaded_end = bwi_larger(7.0 * d, 0.080),
                       .end = bwi_larger((1.0 + 6.0 * s) * d, 4.0 * d),
                       .loaded_edge = bwi_larger((2.0 + 2.0 * s) * d, 3.0 * d),
                       .edge = 3.0 * d};
}

static distances thin(double d, double angle)
{
    const double s = fabs(sin(angle)), c = fabs(cos(angle));

    return (distances){.spacing = (5.0 + 7.0 * c) * d,
                       .rows = 5.0 * d,
                       .loaded_end = (10.0 + 5.0 * c) * d,
                       .end = 10.0 * d,
                       .loaded_edge = (5.0 + 5.0 * s) * d,
                       .edge = 5.0 * d};
}

static void need(bwi_placing *p, double there, double least)
{
    bwi_place(p, there, least, least);
}

/* A row along the force lies at the angle to the grain: across it, a2 separates those of
 * a row and a1 the rows. */
static void place_log(const bw_check_input *in, double angle, bwi_placing *p)
{
    const bw_fasteners *f = &bwi_joint_of(in)->fasteners;
    const double d = bwi_positive(f->diameter);
    const distances least = d > 0.006 * (1.0 + 1e-9) ? thick(d, angle) : thin(d, angle);
    const bool along = bwi_is_along(angle), across = bwi_is_across(angle);
    const double wider = bwi_larger(least.spacing, least.rows);

    need(p, f->end, along && in->to_end ? least.loaded_end : least.end);
    need(p, f->edge, least.edge);
    if (across) {
        need(p, f->loaded_edge, least.loaded_edge);
    }
    if (!(bwi_fasteners_in_row(f) <= 1.0)) {
        need(p, f->spacing, across && !along ? least.rows : least.spacing);
    }
    if (f->rows > 1) {
        need(p, f->row_spacing, across ? wider : least.rows);
    }
}

bwi_placing bwi_ec_placing(const bw_check_input *in)
{
    const bw_joint *j = bwi_joint_of(in);
    const bw_fasteners *f = &j->fasteners;
    const bool driven = f->kind == BW_FASTENER_NAIL || f->kind == BW_FASTENER_SPIKE;
    bwi_placing p = {1.0, 0.0};

    if (f->kind != BW_FASTENER_BOLT) {
        need(&p, bwi_joint_penetration(j), (driven ? 8.0 : 4.0) * f->diameter);
    }
    place_log(in, in->side_angle, &p);
    place_log(in, in->main_angle, &p);
    return p;
}
