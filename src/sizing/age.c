/* How a deck ages: what was measured is taken off its logs, and the same assessment is
 * asked again; then once more for every year to come, with what the trend takes off. No
 * promise: rot does not keep to a line. */
#include "bolewright/sizing.h"

#include <math.h>
#include <string.h>

static const double days_in_year = 365.25;
static const double least_years = 0.5; /* between two points of a trend: JUDGEMENT */

typedef struct {
    double year;
    bw_loss loss;
} point;

/* What is known of one member over time. */
typedef struct {
    bool measured;
    point *points; /* in time; the last is the latest */
    size_t n;
    bw_eye_grade seen;
    bool is_done; /* not within limits any more: from then on it stays as it was */
    double
        done_later; /* [years] after the last inspection, the last time it was within */
} history;

typedef struct {
    bw_arena *arena;
    const bw_case *deck;
    bw_diags *of_inspections;
    size_t n; /* members that are logs */
    history *of;
    double now; /* [years] of the last inspection */
} run;

static double year_of(bw_date date)
{
    return (double)bw_date_day(date) / days_in_year;
}

/* ---- what was measured ---- */

/* A solid log that is found hollow was solid up to its middle before. */
static double shell_of(const bw_loss *loss)
{
    return loss->shell > 0.0 ? loss->shell : 0.5 * loss->diameter - loss->outer;
}

static const point *latest(const history *h)
{
    return &h->points[h->n - 1];
}

/* most: as many points as there may be. */
static bool history_begin(run *r, history *h, size_t most)
{
    h->points = h->points != NULL ? h->points : BW_NEW(r->arena, point, most);
    return h->points != NULL;
}

static bw_status take(run *r, const bw_assessment *built, const bw_inspections *in,
                      const bw_inspection *inspection, const bw_measurement *m)
{
    history *h = &r->of[m->member];
    const bw_member_result *member = &built->members[m->member];
    const bw_loss nothing = {0};
    const bw_loss loss =
        bw_loss_after(r->deck, member, m, h->measured ? latest(h)->loss : nothing);
    if (!history_begin(r, h, in->n_items + 1)) {
        return BW_E_MEMORY;
    }
    if (!h->measured && in->has_built) {
        const bw_loss new = {.from_butt = loss.from_butt, .diameter = loss.diameter};
        h->points[h->n++] = (point){year_of(in->built), new};
    }
    h->measured = true;
    h->points[h->n++] = (point){year_of(inspection->date), loss};
    bw_grade_update(&h->seen, &m->grade);
    if (m->girth > 1.02 * bw_log_girth(member->log, loss.diameter) ||
        m->across > 1.02 * loss.diameter) {
        bw_diags_warn(r->of_inspections, "inspection.thicker", m->path,
                      "the case counts; was it measured at another place? \"at\" is the "
                      "distance from the butt",
                      "%s %s is thicker than the case says", member->role, member->name);
    }
    return BW_OK;
}

static bw_status histories_make(run *r, const bw_assessment *built,
                                const bw_inspections *in)
{
    r->of = BW_NEW(r->arena, history, r->n);
    if (r->of == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < in->n_items; k++) {
        for (size_t j = 0; j < in->items[k].n_items; j++) {
            BW_TRY(take(r, built, in, &in->items[k], &in->items[k].items[j]));
        }
    }
    return BW_OK;
}

/* ---- trends ---- */

/* The most that was lost a year since any point before the last, so that one more look
 * between two never makes it less. What came in less than half a year counts as if it had
 * taken that. */
static double rate(const history *h, double (*lost)(const bw_loss *))
{
    double most = 0.0;
    for (size_t k = 0; k + 1 < h->n; k++) {
        const double years = fmax(latest(h)->year - h->points[k].year, least_years);
        const double now = (lost(&latest(h)->loss) - lost(&h->points[k].loss)) / years;
        most = now <= most ? most : now;
    }
    return most;
}

static double outer_lost(const bw_loss *loss)
{
    return loss->outer;
}

static double shell_lost(const bw_loss *loss)
{
    return -shell_of(loss);
}

static double outer_rate(const history *h)
{
    return rate(h, outer_lost);
}

/* Of a log that is hollow: what goes off its shell, from within and outside. */
static double shell_rate(const history *h)
{
    return h->n > 0 && latest(h)->loss.shell > 0.0 ? rate(h, shell_lost) : 0.0;
}

static bool trend_known(const history *h)
{
    return h->n > 0 && (latest(h)->year - h->points[0].year >= least_years ||
                        outer_rate(h) > 0.0 || shell_rate(h) > 0.0);
}

/* The loss so many years after the last inspection of the deck. */
static bw_loss loss_at(const run *r, const history *h, double later)
{
    const double until = h->is_done ? fmin(later, h->done_later) : later;
    const double years = r->now + until - latest(h)->year;
    bw_loss out = latest(h)->loss;
    out.outer += outer_rate(h) * years;
    if (out.shell > 0.0) {
        const double a_year = fmax(shell_rate(h), outer_rate(h));
        out.shell = fmax(out.shell - a_year * years, 1e-6);
    }
    return out;
}

/* ---- the deck at a time ---- */

/* gone: per member, hardly anything is left of it; then nothing is assessed. */
static bw_status assess_at(const run *r, double later, bw_assessment *out, bool *gone,
                           bw_diags *d)
{
    bw_log *aged = BW_NEW(r->arena, bw_log, r->n);
    const bw_log **logs = BW_NEW(r->arena, const bw_log *, r->n);
    bw_case *deck = BW_NEW(r->arena, bw_case, 1);
    bool any_gone = false;
    if (aged == NULL || logs == NULL || deck == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t i = 0; i < r->n; i++) {
        const history *h = &r->of[i];
        gone[i] = false;
        if (h->measured) {
            const bw_log *log = &r->deck->logs[bw_deck_member_at(r->deck, i).log];
            const bw_loss loss = loss_at(r, h, later);
            gone[i] = !bw_log_aged(r->arena, log, &loss, &h->seen, &aged[i]);
            logs[i] = &aged[i];
        }
        any_gone = any_gone || gone[i];
    }
    *out = (bw_assessment){.deck = deck, .verdict = BW_OVER};
    BW_TRY(bw_deck_with_logs(r->arena, r->deck, logs, deck));
    return any_gone ? BW_OK : bw_deck_assess(r->arena, deck, out, d);
}

static bool is_within(const bw_member_result *m)
{
    return bw_verdict_of(m->worst) == BW_WITHIN;
}

/* ---- the answer ---- */

static bw_aged_member member_now(const run *r, size_t i, const bw_aged_deck *deck,
                                 bool gone)
{
    const history *h = &r->of[i];
    const bw_deck_member m = bw_deck_member_at(r->deck, i);
    const bw_loss loss = loss_at(r, h, 0.0);
    const bool assessed = deck->today.members != NULL;
    return (bw_aged_member){
        .name = bw_arena_print(r->arena, "%s %s", m.role, m.name),
        .log = &r->deck->logs[m.log],
        .loss = loss,
        .section_left = gone ? 0.0 : bw_section_left(&r->deck->logs[m.log], &loss),
        .built = deck->built.members[i].worst,
        .today = assessed ? deck->today.members[i].worst : (double)NAN,
        .worst = assessed ? bw_member_worst(&deck->today.members[i]) : NULL,
        .gone = gone,
        .has_trend = trend_known(h),
        .outer_rate = outer_rate(h),
        .shell_rate = shell_rate(h),
        .years_left = -1};
}

static bw_status members_now(const run *r, const bool *gone, bw_aged_deck *out)
{
    out->members = BW_NEW(r->arena, bw_aged_member, r->n);
    if (out->members == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t i = 0; i < r->n; i++) {
        if (r->of[i].measured) {
            bw_aged_member *m = &out->members[out->n_members++];
            *m = member_now(r, i, out, gone[i]);
            out->has_trend = out->has_trend || m->has_trend;
            if (m->name == NULL) {
                return BW_E_MEMORY;
            }
        }
    }
    return BW_OK;
}

static bool reserve_left(const run *r, size_t i, double later)
{
    const bw_loss loss = loss_at(r, &r->of[i], later);
    const bw_log *log = &r->deck->logs[bw_deck_member_at(r->deck, i).log];
    return bw_section_left(log, &loss) >= bw_reserve_least;
}

/* Who got through the year before and is within limits in this one gets it counted; who
 * is not, or has used up its reserve, will have been replaced, and stays as it was; true
 * if the whole deck is within.
 */
static bool year_count(const run *r, const bw_assessment *then, int year,
                       bw_aged_deck *out)
{
    size_t k = 0;
    bool all = then->members != NULL;
    for (size_t i = 0; i < r->n; i++) {
        history *h = &r->of[i];
        if (!h->measured) {
            continue;
        }
        bw_aged_member *m = &out->members[k++];
        if (then->members == NULL || !is_within(&then->members[i]) ||
            !reserve_left(r, i, (double)year)) {
            h->done_later = h->is_done ? h->done_later : fmax(0.0, (double)year - 1.0);
            h->is_done = true;
            all = false;
        } else if (!h->is_done && m->years_left == year - 1) {
            m->years_left = year;
        }
    }
    return all && then->verdict == BW_WITHIN;
}

/* Those of which hardly anything is left in the year are done before it. */
static bool gone_count(const run *r, int year, const bool *gone)
{
    bool any = false;
    for (size_t i = 0; i < r->n; i++) {
        history *h = &r->of[i];
        if (gone[i] && !h->is_done) {
            h->is_done = any = true;
            h->done_later = (double)year - 1.0;
        }
    }
    return any;
}

static bool any_goes_on(const bw_aged_deck *out, int year)
{
    for (size_t k = 0; k < out->n_members; k++) {
        const bw_aged_member *m = &out->members[k];
        if (m->years_left == year && (m->outer_rate > 0.0 || m->shell_rate > 0.0)) {
            return true;
        }
    }
    return false;
}

/* What no longer fits together in a year to come is not within limits, and no fault. */
static bw_status year_try(const run *r, int year, bool *gone, bw_aged_deck *out)
{
    bw_assessment then;
    bw_diags unheard = bw_diags_new(r->arena, NULL);
    bw_status status = assess_at(r, (double)year, &then, gone, &unheard);
    if (status == BW_OK && gone_count(r, year, gone)) {
        out->years_left = out->years_left < year ? out->years_left : year - 1;
        status = assess_at(r, (double)year, &then, gone, &unheard);
        then.verdict = BW_OVER;
    }
    if (status == BW_E_MEMORY || status == BW_E_INTERNAL) {
        return status;
    }
    if (status != BW_OK) {
        then.members = NULL;
    }
    const bool within = year_count(r, &then, year, out);
    out->years_left = within && out->years_left == year - 1 ? year : out->years_left;
    return BW_OK;
}

static bw_status years_follow(const run *r, bool *gone, bw_aged_deck *out)
{
    out->years_left = year_count(r, &out->today, 0, out) ? 0 : -1;
    for (int year = 1; year <= BW_AGE_HORIZON && any_goes_on(out, year - 1); year++) {
        const bw_arena_mark mark = bw_arena_now(r->arena);
        BW_TRY(year_try(r, year, gone, out));
        bw_arena_back(r->arena, mark);
    }
    return BW_OK;
}

/* A member without loss goes on as long as it is asked about. */
static void still_ones_go_on(bw_aged_deck *out)
{
    bool all = out->years_left >= 0;
    for (size_t k = 0; k < out->n_members; k++) {
        bw_aged_member *m = &out->members[k];
        if (m->years_left >= 0 && !(m->outer_rate > 0.0) && !(m->shell_rate > 0.0)) {
            m->years_left = BW_AGE_HORIZON;
        }
        all = all && m->years_left == BW_AGE_HORIZON;
    }
    out->years_left = all ? BW_AGE_HORIZON : out->years_left;
}

static void reserve_judge(bw_aged_deck *out)
{
    for (size_t k = 0; k < out->n_members; k++) {
        if (out->members[k].section_left < bw_reserve_least) {
            out->verdict = BW_OVER;
        }
    }
}

/* ---- who was not looked at ---- */

static bool in_the_ground(const bw_case *deck, const bw_deck_member *m)
{
    bool found = strcmp(m->role, "sill") == 0;
    for (size_t k = 0; k < deck->n_bents; k++) {
        for (size_t j = 0; j < deck->bents[k].n_posts; j++) {
            const bw_post *post = &deck->bents[k].posts[j];
            found = found || (strcmp(m->role, "post") == 0 && post->name == m->name &&
                              post->foot == BW_FOOT_HOLE);
        }
    }
    return found;
}

/* First of what is to be done: it stands right below the verdict. */
static bw_status to_do_first(bw_arena *arena, bw_assessment *out, bw_assumption line)
{
    bw_assumption *items = bw_arena_grow(arena, out->assumptions, out->n_assumptions,
                                         &out->cap_assumptions, sizeof *items);
    if (items == NULL || line.text == NULL) {
        return BW_E_MEMORY;
    }
    line.to_do = true;
    memmove(items + 1, items, out->n_assumptions++ * sizeof *items);
    out->assumptions = items;
    items[0] = line;
    return BW_OK;
}

static bw_status tell_unseen(const run *r, bw_aged_deck *out)
{
    bw_text names = bw_text_new(r->arena);
    size_t unseen = 0;
    for (size_t i = 0; i < r->n; i++) {
        if (!r->of[i].measured) {
            const bw_deck_member m = bw_deck_member_at(r->deck, i);
            bw_text_print(&names, "%s%s %s", unseen++ > 0 ? ", " : "", m.role, m.name);
        }
    }
    if (unseen == 0) {
        return BW_OK;
    }
    const char *all = bw_text_string(&names);
    const bw_assumption line = {
        .text = all == NULL
                    ? NULL
                    : bw_arena_print(r->arena,
                                     "NOT LOOKED AT: %zu of %zu members, which count as "
                                     "when they were built: %s",
                                     unseen, r->n, all)};
    return to_do_first(r->arena, &out->today, line);
}

/* Who stands or lies in the ground for longer than heartwood of the species may last. */
static bw_status tell_old(const run *r, double built, bw_aged_deck *out)
{
    bw_text names = bw_text_new(r->arena);
    bool any = false;
    for (size_t i = 0; i < r->n; i++) {
        const bw_deck_member m = bw_deck_member_at(r->deck, i);
        const bw_durability lasts = bw_durability_of(r->deck->logs[m.log].species);
        if (!r->of[i].measured && in_the_ground(r->deck, &m) &&
            !(r->now - built <= lasts.years_low)) {
            bw_text_print(&names, "%s%s %s (%d to %d)", any ? ", " : "", m.role, m.name,
                          lasts.years_low, lasts.years_high);
            any = true;
        }
    }
    if (!any) {
        return BW_OK;
    }
    const char *all = bw_text_string(&names);
    const bw_assumption line = {
        .text = all == NULL ? NULL
                            : bw_arena_print(
                                  r->arena,
                                  "look first at what has been in or on the ground for "
                                  "%.1f years (in brackets: how many untreated heartwood "
                                  "may last there; sapwood %d to %d): %s",
                                  r->now - built, bw_durability_sapwood.years_low,
                                  bw_durability_sapwood.years_high, all),
        .mark = BW_MARK_JUDGEMENT,
        .source = "years on the short side of field trials"};
    return to_do_first(r->arena, &out->today, line);
}

/* Half of the time that is left, and a year at most (decks and trail bridges are looked
 * at yearly: facts of the trade, READ; the half is JUDGEMENT). */
static int months_to_look(int years_left)
{
    return years_left < 0 ? 0 : years_left == 0 ? 3 : years_left == 1 ? 6 : 12;
}

bw_status bw_deck_age(bw_arena *arena, const bw_case *deck, const bw_inspections *in,
                      bw_aged_deck *out, bw_diags *of_deck, bw_diags *of_inspections)
{
    const bw_date last = in->items[in->n_items - 1].date;
    run r = {.arena = arena,
             .deck = deck,
             .of_inspections = of_inspections,
             .n = bw_deck_member_count(deck),
             .now = year_of(last)};
    bool *gone = BW_NEW(arena, bool, r.n);
    *out = (bw_aged_deck){.last = last};
    if (gone == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(bw_deck_assess(arena, deck, &out->built, of_deck));
    BW_TRY(histories_make(&r, &out->built, in));
    BW_TRY(assess_at(&r, 0.0, &out->today, gone, of_deck));
    out->verdict = out->today.members == NULL ? BW_OVER : out->today.verdict;
    BW_TRY(members_now(&r, gone, out));
    if (in->has_built) {
        BW_TRY(tell_old(&r, year_of(in->built), out));
    }
    BW_TRY(tell_unseen(&r, out));
    reserve_judge(out);
    BW_TRY(years_follow(&r, gone, out));
    still_ones_go_on(out);
    out->months_to_look =
        months_to_look(out->verdict == BW_WITHIN ? out->years_left : -1);
    return BW_OK;
}
