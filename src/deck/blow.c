/* How hard a rider presses, by what the rider does. The ranges are those that somebody
 * looked at: the one force-plate study of drops on mountain bikes goes to 0.67 m (READ,
 * abstract only), and a model of rider, bike, legs and suspension (COMPUTED, facts of the
 * trade) stays within 4 % of the landing formula or below it that far, and leaves it
 * where things bottom out, soon above. */
#include "bolewright/deck.h"

#include <math.h>

static const double least_factor = 3.0;    /* rolling over boards and small steps */
static const double usual_travel = 0.30;   /* [m] 150 mm of suspension, 150 mm of legs */
static const double highest_step = 0.15;   /* [m] */
static const double hardest_fall = 0.67;   /* [m] */
static const double highest_fall = 1.5;    /* [m] before any slope helps */
static const double least_counted = 0.5;   /* of the height fallen, whatever the slope */
static const double steepest_fall = 1.0;   /* 45 degrees down ahead */
static const double steepest_rise = -0.2;  /* up ahead */
static const double fastest = 12.0;        /* [m/s] */
static const double tightest = 1.5;        /* [m] radius: longer than a bike */
static const double widest = 30.0;         /* [m] */
static const double most_in_curve = 5.0;   /* weights that a rider holds up in a curve */
static const double steepest_lip = 1.0472; /* [rad] 60 degrees */

static const char ours[] = "rolling and small steps about 3 times the weight";
static const char model[] = "energy balance; model of rider, legs and suspension";

/* ---- formulas ---- */

/* n = 1 + sqrt(1 + 2 h / delta): energy of a mass that falls h on a linear spring that it
 * presses by delta at rest; Akin, Impact load factors (READ). h = 0 gives 2. */
double bw_impact_factor(double height, double deflection)
{
    return 1.0 + sqrt(1.0 + 2.0 * height / deflection);
}

/* The same spring, just used up: m g (h + s) = n m g s / 2, so n = 2 (1 + h / s)
 * (COMPUTED). A steady force over the travel would be half of it, 1 + h / s. */
double bw_travel_factor(double height, double travel)
{
    return 2.0 * (1.0 + height / travel);
}

/* h_e = v_n^2 / (2 g), v_n the speed across the face (MEMORY, of ski jumps): falling
 * gives sqrt(2 g h) down, of which the cosine counts; the forward speed takes its sine
 * off where the face falls away, and adds it where it rises. */
double bw_landing_height(double height, double speed, double slope)
{
    const double down = sqrt(2.0 * bw_gravity * height), long_side = hypot(1.0, slope);
    const double across = (down - speed * slope) / long_side;
    return across * fabs(across) / (2.0 * bw_gravity);
}

/* n = 1 + v^2 / (g R): a point that turns upwards in a circle, at its lowest place. */
double bw_transition_factor(double speed, double radius)
{
    return 1.0 + speed * speed / (bw_gravity * radius);
}

/* A point on the curve, without friction: v^2 = v_0^2 - 2 g R (1 - cos a), the face
 * pushes with m (v^2 / R + g cos a) across itself, of which the sine is level. */
double bw_ramp_push(double speed, double radius, double slope_angle)
{
    const double c = cos(slope_angle);
    const double left = speed * speed / (bw_gravity * radius) - 2.0 * (1.0 - c);
    return left < 0.0 ? -1.0 : (left + c) * sin(slope_angle);
}

/* ---- ranges ---- */

static const char *why_no_landing(const bw_ride *r)
{
    return !(r->height >= 0.0 && r->height <= highest_fall)
               ? "nobody measured a fall of more than 1.5 m (5 ft)"
           : !(r->slope <= steepest_fall && r->slope >= steepest_rise)
               ? "a face to land on may fall by 45 degrees and rise by 1 in 5"
           : r->slope < 0.0 && !(r->speed > 0.0)
               ? "a face that rises ahead needs the speed"
           : !(r->speed >= 0.0 && r->speed <= fastest)
               ? "speeds to 12 m/s (27 mph) were looked at"
           : !(bw_landing_height(r->height, r->speed, r->slope) > 0.0) && r->height > 0.0
               ? "at that speed the path does not come down on the face"
               : NULL;
}

static const char *why_no_curve(double speed, double radius)
{
    return !(radius >= tightest && radius <= widest)
               ? "curves of 1.5 m (5 ft) to 30 m (100 ft) radius were looked at"
           : !(speed > 0.0 && speed <= fastest)
               ? "speeds to 12 m/s (27 mph) were looked at"
           : !(bw_transition_factor(speed, radius) <= most_in_curve)
               ? "more than 5 times the weight in a curve: nobody rides that"
               : NULL;
}

/* ---- what is written down ---- */

static void put(bw_working *w, bw_term term)
{
    if (w != NULL) {
        bw_working_add(w, term);
    }
}

static void number(bw_working *w, const char *symbol, const char *meaning, double value)
{
    put(w, (bw_term){symbol, meaning, value, BW_NUMBER, BW_MARK_NONE, NULL});
}

static void put_masses(const bw_loads *l, bw_working *w)
{
    if (l->bike_mass > 0.0 && l->bike_mass < l->mass) {
        put(w, (bw_term){"m_r", "rider with kit", l->mass - l->bike_mass, BW_MASS,
                         BW_MARK_NONE, NULL});
        put(w, (bw_term){"m_b", "bike", l->bike_mass, BW_MASS, BW_MARK_NONE, NULL});
    }
    put(w, (bw_term){"m", "rider with bike", l->mass, BW_MASS, BW_MARK_NONE, NULL});
}

static double put_least(bw_working *w)
{
    put(w, (bw_term){"n_0", "least, of wheels that roll over boards", least_factor,
                     BW_NUMBER, BW_MARK_JUDGEMENT, ours});
    return least_factor;
}

/* ---- rides ---- */

static void put_fall(const bw_ride *r, bw_working *w)
{
    put(w, (bw_term){"h", "fallen, from the highest point of the path", r->height,
                     BW_LENGTH, BW_MARK_NONE, NULL});
    if (r->kind == BW_RIDE_LANDING) {
        put(w, (bw_term){"v", r->speed > 0.0 ? "speed forward" : "speed, not counted",
                         r->speed, BW_SPEED, BW_MARK_NONE, NULL});
        number(w, "t", "fall of the face landed on, over its run", r->slope);
    }
}

/* Fall that counts. */
static double fall(const bw_ride *r, bw_working *w)
{
    if (r->kind == BW_RIDE_SMALL_STEP) {
        put(w, (bw_term){"h_e", "fall that counts, h", r->height, BW_LENGTH, BW_MARK_NONE,
                         NULL});
        return r->height;
    }
    const double normal = bw_landing_height(r->height, r->speed, r->slope);
    put(w, (bw_term){"h_n", "(sqrt(2 g h) - v t)^2 / (2 g (1 + t^2))", normal, BW_LENGTH,
                     BW_MARK_MEMORY, "equivalent fall height of ski jumps"});
    const double counted = fmax(normal, least_counted * r->height);
    put(w, (bw_term){"h_e", "fall that counts: h_n, at least h / 2", counted, BW_LENGTH,
                     BW_MARK_JUDGEMENT, "riders come slower than they say"});
    return counted;
}

/* Factor of a fall on what gives; not a number if that bottoms out. */
static double landing_factor(const bw_ride *r, double height, bw_working *w,
                             const char **why)
{
    const bool usual = !(r->travel > 0.0);
    const double travel = usual ? usual_travel : r->travel;
    put(w, (bw_term){"s", "travel of legs, suspension and tyres", travel, BW_LENGTH,
                     usual ? BW_MARK_JUDGEMENT : BW_MARK_NONE,
                     usual ? "150 mm of suspension, 150 mm of legs; half of it for a "
                             "stiff rider on a bike without suspension"
                           : NULL});
    if (!(r->sag > 0.0)) {
        const double n = bw_travel_factor(height, travel);
        put(w,
            (bw_term){"n_s", "2 (1 + h_e / s)", n, BW_NUMBER, BW_MARK_COMPUTED, model});
        return n;
    }
    put(w, (bw_term){"d", "sag of them under the standing weight", r->sag, BW_LENGTH,
                     BW_MARK_NONE, NULL});
    const double n = bw_impact_factor(height, r->sag);
    put(w, (bw_term){"n_s", "1 + sqrt(1 + 2 h_e / d)", n, BW_NUMBER, BW_MARK_READ,
                     "Akin, Impact load factors"});
    put(w, (bw_term){"n_s d", "travel used, to be at most s", n * r->sag, BW_LENGTH,
                     BW_MARK_NONE, NULL});
    *why = n * r->sag > travel ? "legs and suspension bottom out" : *why;
    return n;
}

static double land(const bw_loads *l, bw_working *w, bw_blow *out)
{
    const bw_ride *r = &l->ride;
    const bool step = r->kind == BW_RIDE_SMALL_STEP;
    put_fall(r, w);
    out->cannot_say = step && !(r->height >= 0.0 && r->height <= highest_step)
                          ? "a small step is at most 150 mm (6 in): describe it as a "
                            "landing"
                          : why_no_landing(r);
    if (out->cannot_say != NULL) {
        return (double)NAN;
    }
    const double height = fall(r, w);
    if (height > hardest_fall) {
        out->cannot_say = "a fall that counts for more than 0.67 m (2 ft 2 in) bottoms "
                          "out, and nobody measured it";
    }
    const double n = landing_factor(r, height, w, &out->cannot_say);
    const double used = fmax(n, put_least(w)), t = fabs(r->slope);
    if (t > 0.0) {
        const double level = used * t / hypot(1.0, t);
        number(w, "n_t", "of the landing along the deck, n t / sqrt(1 + t^2)", level);
        out->push = fmax(out->push, level);
    }
    return used;
}

static double curve(double speed, double radius, bw_working *w, bw_blow *out)
{
    put(w, (bw_term){"v_0", "speed at the foot of the curve", speed, BW_SPEED,
                     BW_MARK_NONE, NULL});
    put(w, (bw_term){"R", "radius of the curve", radius, BW_LENGTH, BW_MARK_NONE, NULL});
    const char *why = why_no_curve(speed, radius);
    if (why != NULL) {
        out->cannot_say = why;
        return (double)NAN;
    }
    const double n = bw_transition_factor(speed, radius);
    put(w, (bw_term){"n_R", "1 + v_0^2 / (g R)", n, BW_NUMBER, BW_MARK_COMPUTED,
                     "a point on a circle"});
    return n;
}

static double ride_factor(const bw_loads *l, bw_working *w, bw_blow *out)
{
    switch (l->ride.kind) {
    case BW_RIDE_ROLLING:
        return put_least(w);
    case BW_RIDE_SMALL_STEP:
    case BW_RIDE_LANDING:
        return land(l, w, out);
    case BW_RIDE_TRANSITION: {
        const double n = curve(l->ride.speed, l->ride.radius, w, out);
        return isnan(n) ? n : fmax(n, put_least(w));
    }
    default:
        return l->factor;
    }
}

bw_blow bw_rider_blow(const bw_loads *l, bw_working *w)
{
    bw_blow out = {.push = l->rider_push};
    put_masses(l, w);
    out.factor = ride_factor(l, w, &out);
    if (l->ramp.radius > 0.0 && out.cannot_say == NULL) {
        const double foot = curve(l->ramp.speed, l->ramp.radius, w, &out);
        out.factor = isnan(foot) ? foot : fmax(out.factor, foot);
    }
    const bool usual = l->ride.kind == BW_RIDE_AS_GIVEN && l->factor == least_factor;
    out.factor = out.cannot_say != NULL ? (double)NAN : out.factor;
    out.push = out.cannot_say != NULL ? (double)NAN : out.push;
    put(w, (bw_term){"n", "pressing down over the weight", out.factor, BW_NUMBER,
                     usual ? BW_MARK_JUDGEMENT : BW_MARK_NONE, usual ? ours : NULL});
    number(w, "n_h", "pushing along or across over the weight", out.push);
    put(w, (bw_term){"P", "n m g, down at one place", out.factor * l->mass * bw_gravity,
                     BW_FORCE, BW_MARK_NONE, NULL});
    return out;
}

/* ---- ramps ---- */

/* Largest push on the way up: tried in a hundred steps, and at the lip. */
static double largest_push(const bw_ramp *ramp)
{
    enum { STEPS = 100 };
    double most = 0.0;
    for (int k = 1; k <= STEPS; k++) {
        const double push =
            bw_ramp_push(ramp->speed, ramp->radius, ramp->lip * k / STEPS);
        most = push < 0.0 ? (double)NAN : fmax(push, most);
    }
    return most;
}

double bw_ramp_thrust(const bw_loads *l, bw_working *w, const char **cannot_say)
{
    const bw_ramp *ramp = &l->ramp;
    const char *why = NULL;
    double thrust = l->thrust;
    if (ramp->radius > 0.0) {
        const double push = largest_push(ramp);
        why = !(ramp->lip > 0.0 && ramp->lip <= steepest_lip)
                  ? "a lip may be as steep as 60 degrees"
              : isnan(push) ? "at that speed a rider does not reach the lip"
                            : why_no_curve(ramp->speed, ramp->radius);
        put(w, (bw_term){"v_0", "speed at the foot of the ramp", ramp->speed, BW_SPEED,
                         BW_MARK_NONE, NULL});
        put(w, (bw_term){"R", "radius of its curve", ramp->radius, BW_LENGTH,
                         BW_MARK_NONE, NULL});
        put(w, (bw_term){"a", "its slope at the lip", ramp->lip, BW_ANGLE, BW_MARK_NONE,
                         NULL});
        thrust = why != NULL ? (double)NAN : push * l->mass * bw_gravity;
        number(w, "n_h", "largest (v_0^2 / (g R) - 2 + 3 cos a) sin a up to the lip",
               why != NULL ? (double)NAN : push);
    }
    put(w, (bw_term){"H", ramp->radius > 0.0 ? "n_h m g, the way riders go" : "as given",
                     thrust, BW_FORCE, BW_MARK_NONE, NULL});
    if (cannot_say != NULL) {
        *cannot_say = why;
    }
    return thrust;
}
