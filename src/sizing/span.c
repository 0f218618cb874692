/* The longest span of a log, by halving: spans are tried on a deck of one bay until the
 * one that is within limits and the one that is not lie a few millimetres apart. That a
 * longer span is never better is a property that tests/sizing/test_span.c tries. */
#include "bolewright/sizing.h"

#include <math.h>

static const double shortest = 0.3;  /* [m] the shortest span worth asking about */
static const double seats = 0.2;     /* [m] of the log beyond the middles of the sills */
static const double nearness = 2e-3; /* [m] where halving ends */

bw_span_question bw_span_question_default(const bw_log *log)
{
    const double foot = bw_unit_size(BW_LENGTH, "ft");
    return (bw_span_question){.log = log,
                              .basis = &bw_us_asd,
                              .deck_width = 4.0 * foot,
                              .row_spacing = 3.0 * foot,
                              .loads = bw_loads_default,
                              .limits = bw_limits_default,
                              .units = BW_IMPERIAL};
}

/* ---- the deck of one bay ---- */

typedef struct {
    bw_log logs[2]; /* stringer, sill */
    bw_row rows[2];
    bw_bent bents[2];
    bw_stringer stringers[2];
    bw_case deck;
} one_bay;

static void build_bents(const bw_span_question *q, double span, one_bay *bay)
{
    for (int k = 0; k < 2; k++) {
        bay->bents[k] =
            (bw_bent){.name = k == 0 ? "near sill" : "far sill",
                      .at = k == 0 ? 0.0 : span,
                      .deck_height = bay->deck.boards.board_thickness +
                                     q->log->butt_diameter + bay->logs[1].butt_diameter,
                      .cap = 1,
                      .is_sill = true,
                      .case_path = ""};
        bay->rows[k] = (bw_row){.name = k == 0 ? "left" : "right",
                                .across = (k == 0 ? -0.5 : 0.5) * q->row_spacing,
                                .case_path = ""};
        bay->stringers[k] = (bw_stringer){.name = bay->rows[k].name,
                                          .row = k,
                                          .log = 0,
                                          .from = 0,
                                          .to = 1,
                                          .case_path = ""};
    }
}

/* Boards as the case reader takes them where a case says nothing: 1 1/2 in, 900 kg/m3. */
static void build(const bw_span_question *q, double span, one_bay *bay)
{
    const double thickness = 1.5 * bw_unit_size(BW_LENGTH, "in");
    static const double wet_board = 900.0; /* [kg/m3] */
    *bay = (one_bay){.logs = {*q->log, *q->log}};
    bay->logs[1].length = 0.0;
    bay->logs[1].tip_diameter = q->log->butt_diameter;
    bay->deck = (bw_case){
        .title = "one bay",
        .units = q->units,
        .basis = q->basis,
        .logs = bay->logs,
        .n_logs = 2,
        .rows = bay->rows,
        .n_rows = 2,
        .bents = bay->bents,
        .n_bents = 2,
        .stringers = bay->stringers,
        .n_stringers = 2,
        .boards = {q->deck_width, thickness, thickness * wet_board * bw_gravity},
        .loads = q->loads,
        .limits = q->limits};
    build_bents(q, span, bay);
}

/* ---- trials ---- */

typedef struct {
    bw_verdict verdict;
    const bw_check *governing;
    double utilisation;
} trial;

/* Whether the finding is worse than what was found; not a number is the worst. */
static bool is_worse(const bw_finding *f, const trial *before)
{
    return before->governing == NULL || (!isnan(before->utilisation) &&
                                         !(f->ratio.utilisation <= before->utilisation));
}

/* The worst of the stringers, which come first among the members: what lies under them
 * is not what is asked. */
static trial judge(const bw_assessment *assessment)
{
    trial out = {BW_CANNOT_SAY, NULL, 0.0};
    for (size_t i = 0; i < assessment->deck->n_stringers; i++) {
        const bw_member_result *member = &assessment->members[i];
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            const bw_finding *f = &member->findings[kind];
            if (member->has[kind] && is_worse(f, &out)) {
                out = (trial){bw_verdict_of(f->ratio.utilisation), f->check,
                              f->ratio.utilisation};
            }
        }
    }
    return out;
}

static bw_status try_span(bw_arena *arena, const bw_span_question *q, double span,
                          trial *out, bw_diags *d)
{
    one_bay bay;
    bw_assessment assessment;
    build(q, span, &bay);
    const size_t before = d->count;
    const bw_arena_mark mark = bw_arena_now(arena);
    const bw_status status = bw_deck_assess(arena, &bay.deck, &assessment, d);
    if (status == BW_OK) {
        *out = judge(&assessment);
    }
    if (d->count == before) { /* what was said lives in the arena */
        bw_arena_back(arena, mark);
    }
    return status;
}

static double round_down(double span, bw_units units)
{
    const double step = bw_unit_size(BW_LENGTH, units == BW_IMPERIAL ? "in" : "cm");
    return floor(span / step * (1.0 + 1e-9)) * step;
}

static bw_status answer(bw_arena *arena, const bw_span_question *q, double span,
                        bw_span_answer *out, bw_diags *d)
{
    trial at;
    out->span = round_down(span, q->units);
    BW_TRY(try_span(arena, q, out->span, &at, d));
    out->governing = at.governing;
    out->utilisation = at.utilisation;
    out->verdict = at.verdict;
    return BW_OK;
}

bw_status bw_span_longest(bw_arena *arena, const bw_span_question *q, bw_span_answer *out,
                          bw_diags *d)
{
    trial at;
    double within = shortest;
    double over = q->log->length - seats;
    *out = (bw_span_answer){.verdict = BW_CANNOT_SAY};
    if (!(over > within)) {
        return BW_OK;
    }
    BW_TRY(try_span(arena, q, over, &at, d));
    if (at.verdict == BW_WITHIN) {
        out->whole_log = true;
        return answer(arena, q, over, out, d);
    }
    BW_TRY(try_span(arena, q, within, &at, d));
    if (at.verdict != BW_WITHIN) {
        out->governing = at.governing;
        out->utilisation = at.utilisation;
        out->verdict = at.verdict;
        return BW_OK;
    }
    while (over - within > nearness) {
        const double middle = 0.5 * (within + over);
        BW_TRY(try_span(arena, q, middle, &at, d));
        *(at.verdict == BW_WITHIN ? &within : &over) = middle;
    }
    return answer(arena, q, within, out, d);
}
