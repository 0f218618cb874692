/* How the loads came about: the riders', a ramp's and the machine's, each with its
 * formula and every number that went in. */
#include "internal.h"

enum { LINES_MAX = 5 };

static const char *ride_title(bw_ride_kind kind)
{
    static const char *const titles[] = {[BW_RIDE_AS_GIVEN] = "Rider, factor as given",
                                         [BW_RIDE_ROLLING] = "Rider, rolling",
                                         [BW_RIDE_SMALL_STEP] = "Rider, off a small step",
                                         [BW_RIDE_LANDING] = "Rider, landing",
                                         [BW_RIDE_TRANSITION] = "Rider, in a curve"};
    return titles[kind];
}

static const char *ride_formula(const bw_ride *ride)
{
    switch (ride->kind) {
    case BW_RIDE_SMALL_STEP:
    case BW_RIDE_LANDING:
        return ride->sag > 0.0 ? "P = n m g, n = 1 + sqrt(1 + 2 h_e / d), at least n_0"
                               : "P = n m g, n = 2 (1 + h_e / s), at least n_0";
    case BW_RIDE_TRANSITION:
        return "P = n m g, n = 1 + v_0^2 / (g R), at least n_0";
    default:
        return "P = n m g";
    }
}

static const char *ride_source(const bw_ride *ride)
{
    switch (ride->kind) {
    case BW_RIDE_SMALL_STEP:
    case BW_RIDE_LANDING:
        return "energy of the fall on a linear spring (Akin, Impact load factors, read); "
               "compared with a model of rider, bike, legs and suspension, not with "
               "measurements; the springing of the deck itself is not in it";
    case BW_RIDE_TRANSITION:
        return "mechanics of a point on a circle; what a rider pumps is not in it";
    default:
        return "the case, or the usual factor";
    }
}

static void add_group(const bw_loads *l, bw_working *w)
{
    if (l->riders > 1) {
        bw_working_add(
            w, (bw_term){
                   "N", "riders in a line, all of them so at once; and one of them alone",
                   l->riders, BW_NUMBER, BW_MARK_NONE, NULL});
        bw_working_add(w, (bw_term){"a", "from one to the next", l->rider_spacing,
                                    BW_LENGTH, BW_MARK_NONE, NULL});
    }
}

static bw_load_line rider_line(const bwi_plan *p)
{
    const bw_loads *l = &p->deck->loads;
    bw_load_line line = {.title = ride_title(l->ride.kind),
                         .formula = ride_formula(&l->ride),
                         .source = ride_source(&l->ride),
                         .mark = BW_MARK_JUDGEMENT,
                         .working = bw_working_new(p->arena)};
    add_group(l, &line.working);
    line.cannot_say = bw_rider_blow(l, &line.working).cannot_say;
    return line;
}

static bw_load_line ramp_line(const bwi_plan *p)
{
    const bw_loads *l = &p->deck->loads;
    const bool given = !(l->ramp.radius > 0.0);
    const bool at_end =
        bwi_thrust_way(p->deck, 1) == 0 || bwi_thrust_way(p->deck, -1) == 0;
    bw_load_line line = {
        .title = bw_arena_print(p->arena, "Take-off ramp at bent %s, thrust %s",
                                p->deck->bents[l->thrust_bent].name,
                                at_end ? "away from the deck" : "along it, either way"),
        .formula = given ? "H as given" : "H = m g (v_0^2 / (g R) - 2 + 3 cos a) sin a",
        .source = given ? "the case"
                        : "mechanics of a point on a circle, without friction; the rider "
                          "presses on its foot with 1 + v_0^2 / (g R) times the weight, "
                          "which is in the factor of the rider",
        .mark = given ? BW_MARK_NONE : BW_MARK_COMPUTED,
        .working = bw_working_new(p->arena)};
    (void)bw_ramp_thrust(l, &line.working, &line.cannot_say);
    return line;
}

static bw_load_line machine_line(const bwi_plan *p)
{
    const bw_machine *m = &p->deck->loads.machine;
    const bw_machine *usual = &bw_loads_default.machine;
    const bool own_share = m->heavy_share != usual->heavy_share;
    const bool own_factor = m->factor != usual->factor, own_push = m->push != usual->push;
    const double weight = m->mass * bw_gravity;
    const bw_term terms[] = {
        {"m", "with driver, fuel and load", m->mass, BW_MASS, BW_MARK_NONE, NULL},
        {"a", "between the axles", m->wheelbase, BW_LENGTH, BW_MARK_NONE, NULL},
        {"b", "between the wheels of an axle", m->track, BW_LENGTH, BW_MARK_NONE, NULL},
        {"k", "of the mass on the heavier axle", m->heavy_share, BW_NUMBER,
         own_share ? BW_MARK_NONE : BW_MARK_JUDGEMENT,
         own_share ? NULL : "a quad bike with a load behind"},
        {"n", "pressing down over the weight", m->factor, BW_NUMBER,
         own_factor ? BW_MARK_NONE : BW_MARK_JUDGEMENT,
         own_factor ? NULL : "walking pace over gaps between boards"},
        {"n_h", "braking or turning over the weight", m->push, BW_NUMBER,
         own_push ? BW_MARK_NONE : BW_MARK_MEMORY,
         own_push ? NULL : "braking on road bridges, a quarter of the axle loads"},
        {"H", "n_h m g, along or across", m->push * weight, BW_FORCE, BW_MARK_NONE, NULL},
        {"P", "n k m g / 2, of each wheel of the heavier axle",
         m->factor * m->heavy_share * weight / 2.0, BW_FORCE, BW_MARK_NONE, NULL}};
    bw_load_line line = {.title = bw_arena_print(p->arena, "Machine: %s", m->name),
                         .formula = "P = n k m g / 2 at each of two wheels, "
                                    "n (1 - k) m g / 2 at each of the others",
                         .source = "four wheels, moved over the deck either way round",
                         .mark = BW_MARK_JUDGEMENT,
                         .working = bw_working_new(p->arena)};
    for (size_t k = 0; k < sizeof terms / sizeof terms[0]; k++) {
        bw_working_add(&line.working, terms[k]);
    }
    return line;
}

static bw_load_line people_line(const bwi_plan *p)
{
    const bw_loads *l = &p->deck->loads;
    const bw_people_use *use = l->use;
    const bool own = l->sway != bw_people_sway(l->crowd);
    const double weight = l->person * bw_gravity;
    const bw_term terms[] = {
        {"q", "people standing", l->crowd, BW_PRESSURE,
         use != NULL ? use->mark : BW_MARK_NONE, use != NULL ? use->source : NULL},
        {"m_p", "one of them, with clothes and kit", l->person, BW_MASS,
         l->person == bw_loads_default.person ? BW_MARK_JUDGEMENT : BW_MARK_NONE,
         l->person == bw_loads_default.person
             ? "mean of grown men 84.3 kg (zedler.de, 2017, read), and what they carry"
             : NULL},
        {"q / (m_p g)", "people on a square metre", l->crowd / weight, BW_NUMBER,
         BW_MARK_NONE, NULL},
        {"q_h", "swaying together, along or across", l->sway, BW_PRESSURE,
         own ? BW_MARK_NONE : BW_MARK_READ,
         own ? NULL
             : "sway tests on full-size decks, about 12 psf of plan; more in proportion "
               "beyond 100 psf, at most 45 % of the weight"}};
    bw_load_line line = {
        .title =
            use != NULL ? bw_arena_print(p->arena, "People: %s", use->name) : "People",
        .formula = "q on every bay, or on the worst bays and rows; q_h with it",
        .source = use != NULL ? use->source : "the case",
        .mark = use != NULL ? use->mark : BW_MARK_NONE,
        .working = bw_working_new(p->arena)};
    for (size_t k = 0; k < sizeof terms / sizeof terms[0]; k++) {
        bw_working_add(&line.working, terms[k]);
    }
    return line;
}

bw_status bwi_load_lines(const bwi_plan *p, bw_assessment *out)
{
    const bw_loads *l = &p->deck->loads;
    out->load_lines = BW_NEW(p->arena, bw_load_line, LINES_MAX);
    if (out->load_lines == NULL) {
        return BW_E_MEMORY;
    }
    size_t n = 0;
    if (l->mass > 0.0) {
        out->load_lines[n++] = rider_line(p);
    }
    if (l->mass > 0.0 && (l->thrust > 0.0 || l->ramp.radius > 0.0)) {
        out->load_lines[n++] = ramp_line(p);
    }
    if (l->machine.mass > 0.0) {
        out->load_lines[n++] = machine_line(p);
    }
    if (l->crowd > 0.0) {
        out->load_lines[n++] = people_line(p);
    }
    out->n_load_lines = n;
    for (size_t k = 0; k < n; k++) {
        if (out->load_lines[k].title == NULL || out->load_lines[k].working.failed) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}
