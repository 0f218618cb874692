/* span.c - the longest span of a log. That a longer span is never better, so that every
 * shorter one is within limits too, is a property that tests/sizing tries. */
#include "internal.h"

#include <math.h>

typedef struct {
    bw_arena *arena;
    const bw_span_question *question;
    double step;
} trial;

/* The shortest span worth asking about, and the longest: 1 ft to 40 ft, 30 cm to 12 m. */
static const int shortest_inches = 12, longest_inches = 480;
static const int shortest_centimetres = 30, longest_centimetres = 1200;

bw_span_question bw_span_question_default(const bw_log *log)
{
    return (bw_span_question){log, bw_duty_default(BW_USE_RIDERS, BW_IMPERIAL)};
}

static bw_status try_span(void *context, int step, bw_sized *out, bw_diags *d)
{
    const trial *t = context;
    return bw_size_check(t->arena, &t->question->duty, t->question->log, step * t->step,
                         out, d);
}

/* Steps up to the end of the log, seats taken off; or of the range. */
static int longest_of(const bw_span_question *q, double step, int range)
{
    const double own = (q->log->length - 2.0 * bwi_seat) / q->duty.bays;
    const double steps = floor(own / step * (1.0 + 1e-9));
    return q->log->length > 0.0 && steps < range ? (int)steps : range;
}

/* A first guess: 20 times as long as thick. */
static int guess_of(const bw_span_question *q, double step)
{
    return (int)(10.0 * (q->log->butt_diameter + q->log->tip_diameter) / step);
}

bw_status bw_span_longest(bw_arena *arena, const bw_span_question *q, bw_span_answer *out,
                          bw_diags *d)
{
    const bool imperial = q->duty.units == BW_IMPERIAL;
    trial t = {arena, q, imperial ? bw_inch : 0.01};
    const int least = imperial ? shortest_inches : shortest_centimetres;
    const bwi_search search = {
        .try_step = try_span,
        .context = &t,
        .best = least,
        .worst = longest_of(q, t.step, imperial ? longest_inches : longest_centimetres),
        .guess = guess_of(q, t.step),
        .power = 2.0};
    *out = (bw_span_answer){
        .at = {.verdict = BW_CANNOT_SAY}, .step = t.step, .shortest = least * t.step};
    if (search.worst < search.best) {
        return BW_OK;
    }
    bwi_found found;
    BW_TRY(bwi_search_steps(&search, &found, d));
    if (!found.has_within) {
        out->at = found.at_over;
        return BW_OK;
    }
    out->span = found.within * t.step;
    out->to_end = !found.has_over;
    out->at = found.at_within;
    out->beyond = found.at_over;
    return bwi_leverage(arena, &q->duty, q->log, out->span, &out->leverage, d);
}

bw_status bw_spacing_widest(bw_arena *arena, const bw_span_question *q,
                            bw_spacing_answer *out, bw_diags *d)
{
    bw_log log = *q->log;
    bw_span_question one = {&log, q->duty}, two = {&log, q->duty};
    log.length = 0.0;
    one.duty.bays = 1;
    two.duty.bays = 2;
    BW_TRY(bw_span_longest(arena, &one, &out->single, d));
    return bw_span_longest(arena, &two, &out->continuous, d);
}
