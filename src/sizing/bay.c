/* bay.c - the small deck whose stringers are in question, and its full check. */
#include "internal.h"

#include <math.h>

const double bwi_seat = 0.1;

enum { ROWS = 2, BENTS = BW_DUTY_BAYS + 1 };

const char *bw_use_name(bw_use use)
{
    static const char *const names[BW_USE_COUNT] = {"riders", "people", "both"};
    return names[use];
}

bw_duty bw_duty_default(bw_use use, bw_units units)
{
    const double foot = bw_unit_size(BW_LENGTH, "ft");
    bw_duty duty = {.basis = &bw_us_asd,
                    .deck_width = 4.0 * foot,
                    .row_spacing = 3.0 * foot,
                    .bays = 1,
                    .loads = bw_loads_default,
                    .limits = bw_limits_default,
                    .units = units};
    if (use == BW_USE_PEOPLE) {
        duty.loads.mass = 0.0;
    }
    if (use != BW_USE_RIDERS) {
        bw_duty_people(&duty, units == BW_IMPERIAL ? 60.0 * bw_psf : 3000.0);
    }
    return duty;
}

void bw_duty_people(bw_duty *duty, double crowd)
{
    duty->loads.crowd = crowd;
    duty->loads.sway = bw_people_sway(crowd);
}

void bw_duty_share(bw_duty *duty, double width)
{
    duty->deck_width = 2.0 * width;
    duty->row_spacing = 2.0 * width; /* no overhang: a wheel is never levered */
}

/* ---- the deck ---- */

typedef struct {
    bw_log logs[2]; /* stringer, sill */
    bw_row rows[ROWS];
    bw_bent bents[BENTS];
    bw_stringer stringers[ROWS];
    bw_case deck;
} small_deck;

static void build_rows(const bw_duty *duty, small_deck *out)
{
    static const char *const names[ROWS] = {"left", "right"};
    for (int k = 0; k < ROWS; k++) {
        out->rows[k] = (bw_row){.name = names[k],
                                .across = (k == 0 ? -0.5 : 0.5) * duty->row_spacing,
                                .case_path = ""};
        out->stringers[k] = (bw_stringer){.name = names[k],
                                          .row = k,
                                          .log = 0,
                                          .from = 0,
                                          .to = duty->bays,
                                          .case_path = ""};
    }
}

static void build_bents(const bw_duty *duty, double span, small_deck *out)
{
    static const char *const names[BENTS] = {"A", "B", "C", "D"};
    for (int k = 0; k <= duty->bays; k++) {
        out->bents[k] = (bw_bent){.name = names[k],
                                  .at = k * span,
                                  .deck_height = out->deck.boards.board_thickness +
                                                 out->logs[0].butt_diameter +
                                                 out->logs[1].butt_diameter,
                                  .cap = 1,
                                  .is_sill = true,
                                  .case_path = ""};
    }
}

/* A log without a length is cut longer than its place, so that it lies on the whole of
 * its outer seats: its taper goes on, to half of the tip at most, and over both outer
 * supports it is as thick as asked. */
static void cut_longer(const bw_duty *duty, double span, bw_log *log)
{
    const double place = span * duty->bays;
    const double taper = (log->butt_diameter - log->tip_diameter) / place;
    if (!(log->length > 0.0)) {
        const double most = taper > 0.0 ? 0.5 * log->tip_diameter / taper : 1.0;
        const double more = fmin(2.0 * bwi_seat, most);
        log->length = place + more;
        log->tip_diameter -= taper * more;
    }
}

/* Boards as the case reader takes them where a case says nothing: 1 1/2 in, 900 kg/m3. */
static void build(const bw_duty *duty, const bw_log *log, double span, small_deck *out)
{
    const double thickness = 1.5 * bw_inch;
    static const double wet_board = 900.0; /* [kg/m3] */
    *out = (small_deck){.logs = {*log, *log}};
    cut_longer(duty, span, &out->logs[0]);
    out->logs[1].length = 0.0;
    out->logs[1].n_stations = 0;
    out->logs[1].butt_diameter = out->logs[1].tip_diameter =
        (log->butt_diameter + log->tip_diameter) / 2.0;
    out->deck = (bw_case){
        .title = "one log",
        .units = duty->units,
        .basis = duty->basis,
        .logs = out->logs,
        .n_logs = 2,
        .rows = out->rows,
        .n_rows = ROWS,
        .bents = out->bents,
        .n_bents = (size_t)duty->bays + 1,
        .stringers = out->stringers,
        .n_stringers = ROWS,
        .boards = {duty->deck_width, thickness, thickness * wet_board * bw_gravity},
        .loads = duty->loads,
        .limits = duty->limits};
    build_rows(duty, out);
    build_bents(duty, span, out);
}

/* ---- its check ---- */

/* Whether the finding is worse than a utilisation; not a number is the worst. */
static bool is_worse(const bw_finding *f, const bw_check *than, double utilisation)
{
    return than == NULL ||
           (!isnan(utilisation) && !(f->ratio.utilisation <= utilisation));
}

static void take(const bw_finding *f, bw_sized *out)
{
    const bool same = f->check == out->governing;
    if (is_worse(f, out->governing, out->utilisation)) {
        if (!same) {
            out->next = out->governing;
            out->next_utilisation = out->utilisation;
        }
        out->governing = f->check;
        out->utilisation = f->ratio.utilisation;
        out->combination = f->combination;
    } else if (!same && is_worse(f, out->next, out->next_utilisation)) {
        out->next = f->check;
        out->next_utilisation = f->ratio.utilisation;
    }
}

/* Of the stringers alone, which come first among the members. */
static bw_sized judge(const bw_assessment *assessment)
{
    bw_sized out = {.verdict = BW_CANNOT_SAY};
    for (size_t i = 0; i < assessment->deck->n_stringers; i++) {
        const bw_member_result *member = &assessment->members[i];
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            if (member->has[kind]) {
                take(&member->findings[kind], &out);
            }
        }
    }
    const bw_loads *l = &assessment->deck->loads;
    if (out.governing != NULL && (l->mass > 0.0 || l->crowd > 0.0)) {
        out.verdict = bw_verdict_of(out.utilisation);
    }
    return out;
}

bw_status bw_size_check(bw_arena *arena, const bw_duty *duty, const bw_log *log,
                        double span, bw_sized *out, bw_diags *d)
{
    small_deck small;
    bw_assessment assessment;
    *out = (bw_sized){.verdict = BW_CANNOT_SAY};
    build(duty, log, span, &small);
    const size_t before = d->count;
    const bw_arena_mark mark = bw_arena_now(arena);
    const bw_status status = bw_deck_assess(arena, &small.deck, &assessment, d);
    if (status == BW_OK) {
        *out = judge(&assessment);
    }
    if (d->count == before) { /* what was said lives in the arena */
        bw_arena_back(arena, mark);
    }
    return status;
}

/* ---- what another size would do ---- */

/* Not a number where there is no such size. */
static bw_status changed(bw_arena *arena, const bw_duty *duty, const bw_log *log,
                         double span, double *out, bw_diags *d)
{
    bw_sized at;
    *out = (double)NAN;
    const double needed = span * duty->bays;
    if (!(log->tip_diameter > 0.0) || !(span > 0.0) ||
        (log->length > 0.0 && log->length < needed)) {
        return BW_OK;
    }
    BW_TRY(bw_size_check(arena, duty, log, span, &at, d));
    *out = at.utilisation;
    return BW_OK;
}

bw_status bwi_leverage(bw_arena *arena, const bw_duty *duty, const bw_log *log,
                       double span, bw_leverage *out, bw_diags *d)
{
    const bool imperial = duty->units == BW_IMPERIAL;
    *out = (bw_leverage){.step_across = imperial ? 0.5 * bw_inch : 0.01,
                         .step_along = imperial ? 6.0 * bw_inch : 0.15};
    bw_log thinner = *log, thicker = *log;
    thinner.butt_diameter -= out->step_across;
    thinner.tip_diameter -= out->step_across;
    thicker.butt_diameter += out->step_across;
    thicker.tip_diameter += out->step_across;
    BW_TRY(changed(arena, duty, &thinner, span, &out->thinner, d));
    BW_TRY(changed(arena, duty, &thicker, span, &out->thicker, d));
    BW_TRY(changed(arena, duty, log, span - out->step_along, &out->shorter, d));
    return changed(arena, duty, log, span + out->step_along, &out->longer, d);
}
