/* A deck as it was found: what each log has lost since it was built.
 *
 * Rot and wear take a depth off all round, the same along the whole log (so the place
 * that was measured should be the worst); a hollow leaves a shell of sound wood under it.
 * Wood does not heal: what was lost at one inspection stays lost at the next, whatever
 * the tape says then, and what goes off outside goes off the shell that was measured
 * before. */
#include "internal.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

/* ---- the girth of a log that is not a full circle ---- */

/* What a flat of the depth takes off the girth: the arc less its chord,
 *   D a - D sin a,  cos a = 1 - 2 h / D    (COMPUTED) */
static double flat_saves(double diameter, double depth)
{
    const double angle = acos(fmax(-1.0, fmin(1.0, 1.0 - 2.0 * depth / diameter)));
    return diameter * (angle - sin(angle));
}

double bw_log_girth(const bw_log *log, double diameter)
{
    const bw_log_shape s = bw_log_shape_of(log, diameter);
    return pi * diameter - flat_saves(diameter, s.flat_top) -
           flat_saves(diameter, s.flat_bottom);
}

/* The depth that is gone all round if the girth is that much: girth(D - 2 loss) = girth,
 * by halving, for the girth grows with the diameter. */
static double loss_by_girth(const bw_log *log, double diameter, double girth)
{
    double gone = diameter / 2.0, there = 0.0;
    if (!(bw_log_girth(log, diameter) > girth)) {
        return 0.0;
    }
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (there + gone);
        *(bw_log_girth(log, diameter - 2.0 * middle) > girth ? &there : &gone) = middle;
    }
    return gone;
}

/* ---- losses ---- */

const double bw_reserve_least = 2.0 / 3.0;

double bw_measured_place(const bw_case *deck, const bw_member_result *member,
                         const bw_measurement *m)
{
    const double length =
        member->log->length > 0.0 ? member->log->length : member->length;
    if (m->from_butt >= 0.0) {
        return fmin(m->from_butt, length);
    }
    if (member->role[0] != 'p') {
        return 0.5 * length;
    }
    const bw_bent *bent = &deck->bents[member->bent];
    for (size_t k = 0; k < bent->n_posts; k++) {
        const bw_post *post = &bent->posts[k];
        if (post->name == member->name) {
            return post->tip_down ? length - post->hole_depth : post->hole_depth;
        }
    }
    return 0.0;
}

/* Of two shells; 0: solid. */
static double thinner_shell(double a, double b)
{
    return !(a > 0.0) ? b : b > 0.0 ? fmin(a, b) : a;
}

/* What is left of a shell when so much more is gone outside; 0 stays solid, and a shell
 * that is used up is next to nothing, not solid. */
static double shell_worn(double shell, double more)
{
    static const double nothing = 1e-6; /* [m] */
    const double left = shell - more;
    return !(shell > 0.0) ? shell : left <= nothing ? nothing : left;
}

bw_loss bw_loss_after(const bw_case *deck, const bw_member_result *member,
                      const bw_measurement *m, bw_loss before)
{
    const bw_log *log = member->log;
    const double length = log->length > 0.0 ? log->length : member->length;
    const double at = bw_measured_place(deck, member, m);
    const double diameter = bw_log_diameter(log, length, at);
    bw_loss out = before;
    double worn = 0.0;
    if (m->girth > 0.0) {
        worn = loss_by_girth(log, diameter, m->girth);
    } else if (m->across > 0.0) {
        worn = fmax(0.0, (diameter - m->across) / 2.0);
    } else {
        worn = before.worn;
    }
    out.from_butt = at;
    out.diameter = diameter;
    out.worn = fmax(worn, before.worn);
    out.outer = fmax(out.worn + m->soft, before.outer);
    out.shell =
        thinner_shell(shell_worn(before.shell, out.outer - before.outer), m->shell);
    return out;
}

bool bw_log_aged(bw_arena *arena, const bw_log *log, const bw_loss *loss,
                 const bw_eye_grade *seen, bw_log *out)
{
    static const double thinnest = 0.03, least_shell = 0.01; /* [m] */
    *out = *log;
    double least = 0.0;
    if (!bw_log_shrink(arena, out, 1.0, 2.0 * loss->outer, &least)) {
        return false;
    }
    out->outer_loss += loss->outer;
    out->shell = thinner_shell(shell_worn(log->shell, loss->outer), loss->shell);
    bw_grade_update(&out->grade, seen);
    return least >= thinnest && (out->shell <= 0.0 || out->shell >= least_shell);
}

double bw_section_left(const bw_log *log, const bw_loss *loss)
{
    bw_log now = *log;
    now.shell = thinner_shell(shell_worn(log->shell, loss->outer), loss->shell);
    const bw_section was = bwi_log_section(log, loss->diameter);
    const bw_section is = bwi_log_section(&now, loss->diameter - 2.0 * loss->outer);
    return is.diameter > 0.0 ? bw_section_modulus(&is) / bw_section_modulus(&was) : 0.0;
}
