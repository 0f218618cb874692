/* Grade by eye: each answer brings the reference values down, none lifts them.
 *
 * The grade factors of ASTM D2899 (C_g in the ladders) stand for round wood as ASTM D25
 * lets it pass as a pile, so an answer within that gives 1. Worse answers:
 *
 *   knots, bending      Z(k) / Z(1/6); Z: circle without a wedge to the pith of the width
 *                       k of the girth, own neutral axis. The idea of D2899 (wedge,
 *                       section-modulus ratio: READ), the formula COMPUTED. Of the knots
 *                       in a foot half lie on the worse side.
 *   knots, compression  what is left of the area, over that at the limit of D25
 *   spiral grain        Wood Handbook: 1 in 20 0.93, 15 0.89, 10 0.81, 5 0.55 (MEMORY), a
 *                       straight line from 1 at 1 in 20 to 0.89 at 1 in 15
 *   drying checks       shear: uncracked width over that at 1/3 of the diameter
 *   sweep               compression: 1 / (1 + 8 e / D), the bow e beyond the limit, in a
 *                       log 12 diameters long
 *   the rest            chosen
 *
 * Beyond the last limit, or with any sign of decay, no rule is known: every strength is
 * then not a number, and the checks say that they cannot say. Moduli stay finite, because
 * a frame must still be solved. Covered by tests/wood/test_grade.c. */
#include <math.h>

#include "bolewright/wood.h"

static const double pi = 3.14159265358979323846;

enum { KNOT, KNOTS, SPIRAL, CHECK, SWEEP, INSECTS, DECAY, DEAD };

const bw_grade_question bw_grade_questions[BW_GRADE_QUESTIONS] = {
    [KNOT] = {"largest_knot", "K_kn",
              "How wide is the largest knot, measured around the log?",
              "at most 1/6 of the girth", "more than 1/3 of the girth"},
    [KNOTS] = {"knots_in_foot", "K_kf",
               "How wide are all knots together in the worst foot of length?",
               "at most 1/3 of the girth", "more than 2/3 of the girth"},
    [SPIRAL] = {"spiral_grain", "K_sg",
                "How far does the grain wind around the log in how much length?",
                "at most 1 in 20", "more than 1 in 5"},
    [CHECK] = {"drying_check", "K_dc",
               "How deep is the deepest drying check (two that face each other: both)?",
               "at most 1/3 of the diameter", "more than 2/3 of the diameter"},
    [SWEEP] = {"sweep", "K_sw", "How far does the log bow away from a string along it?",
               "at most 1 in 120 (1 in per 10 ft)", "more than 1 in 30"},
    [INSECTS] = {"insects", "K_in", "Are there holes, galleries or dust of insects?",
                 "none, or pinholes", NULL},
    [DECAY] = {"decay", "K_de",
               "Any sign of decay: soft, crumbling or stained wood, fruiting bodies?",
               "none", "any sign"},
    [DEAD] = {"dead_when_cut", "K_dd", "Was the tree dead when it was cut?", "no", NULL},
};

/* What a question costs that nobody answered: JUDGEMENT. Together about a sixth of the
 * strength, so that a log that fails only for want of answers is soon found out. */
static const double unanswered[BW_GRADE_QUESTIONS][BW_PROPERTY_COUNT] = {
    /*         bending shear compression bearing E     E_min */
    [KNOT] = {0.97, 1.00, 0.98, 1.00, 0.98, 0.98},
    [KNOTS] = {0.98, 1.00, 0.98, 1.00, 0.99, 0.99},
    [SPIRAL] = {0.96, 1.00, 0.99, 1.00, 0.97, 0.97},
    [CHECK] = {1.00, 0.92, 1.00, 1.00, 1.00, 1.00},
    [SWEEP] = {0.99, 1.00, 0.95, 1.00, 1.00, 1.00},
    [INSECTS] = {0.98, 0.98, 0.98, 0.98, 0.99, 0.99},
    [DECAY] = {0.96, 0.96, 0.96, 0.96, 0.98, 0.98},
    [DEAD] = {0.98, 0.98, 0.98, 0.98, 0.99, 0.99},
};

static bool is_modulus(bw_property property)
{
    return property == BW_MODULUS || property == BW_MODULUS_MIN;
}

/* ---- knots ---- */

/* Section modulus of a circle of radius 1 without a wedge from its extreme fibre to the
 * pith, of the width k of the girth (at most 1/2), about its own neutral axis:
 *   phi = pi k, A = pi - phi, e = 2 sin(phi) / (3 A)
 *   I = pi/4 - (phi + sin(phi) cos(phi)) / 4 - A e^2,  Z = I / max(cos(phi) + e, 1 - e)
 */
static double wedge_modulus(double k)
{
    const double phi = pi * k;
    const double area = pi - phi;
    const double e = 2.0 * sin(phi) / (3.0 * area);
    const double second = pi / 4.0 - (phi + sin(phi) * cos(phi)) / 4.0 - area * e * e;
    return second / fmax(cos(phi) + e, 1.0 - e);
}

static const double knot_limit = 1.0 / 6.0;  /* ASTM D25, MEMORY */
static const double knots_limit = 1.0 / 3.0; /* ASTM D25, MEMORY: twice the largest */

static double knot_factor(double share, bw_property property)
{
    const double bending = fmin(1.0, wedge_modulus(share) / wedge_modulus(knot_limit));
    switch (property) {
    case BW_BENDING_STRENGTH:
        return bending;
    case BW_COMPRESSION:
        return (1.0 - share) / (1.0 - knot_limit);
    case BW_MODULUS:
    case BW_MODULUS_MIN: /* stiffness loses half as much: JUDGEMENT */
        return (1.0 + bending) / 2.0;
    default:
        return 1.0;
    }
}

static double knots_factor(double share, bw_property property)
{
    if (property == BW_COMPRESSION) {
        return (1.0 - share) / (1.0 - knots_limit);
    }
    return knot_factor(share / 2.0, property);
}

/* ---- spiral grain, checks, sweep ---- */

static double spiral_factor(double slope, bw_property property)
{
    static const double at[] = {1.0 / 20.0, 1.0 / 15.0, 1.0 / 10.0, 1.0 / 5.0};
    static const double bending[] = {1.0, 0.89, 0.81, 0.55};
    static const double compression[] = {1.0, 1.0, 0.99, 0.93};
    if (property == BW_SHEAR_STRENGTH || property == BW_BEARING) {
        return 1.0;
    }
    const double *factor = property == BW_COMPRESSION ? compression : bending;
    size_t k = 0;
    while (k < 2 && slope > at[k + 1]) {
        k++;
    }
    const double t = (slope - at[k]) / (at[k + 1] - at[k]);
    return factor[k] + t * (factor[k + 1] - factor[k]);
}

static double check_factor(double depth, bw_property property)
{
    return property == BW_SHEAR_STRENGTH ? (1.0 - depth) / (1.0 - 1.0 / 3.0) : 1.0;
}

static const double sweep_limit = 1.0 / 120.0; /* 1 in in 10 ft, MEMORY */

static double sweep_factor(double bow, bw_property property)
{
    static const double slenderness = 12.0; /* length over diameter: JUDGEMENT */
    const double beyond = bow - sweep_limit;
    if (property == BW_COMPRESSION) {
        return 1.0 / (1.0 + 8.0 * slenderness * beyond);
    }
    /* a bowed log wants to roll over: JUDGEMENT */
    return property == BW_BENDING_STRENGTH ? 1.0 - 6.0 * beyond : 1.0;
}

/* A measured question: sound up to a limit, no rule beyond another. */
typedef struct {
    double sound, last;
    double (*factor)(double value, bw_property property);
} measured_rule;

static const measured_rule measured[] = {
    [KNOT] = {1.0 / 6.0, 1.0 / 3.0, knot_factor},
    [KNOTS] = {1.0 / 3.0, 2.0 / 3.0, knots_factor},
    [SPIRAL] = {1.0 / 20.0, 1.0 / 5.0, spiral_factor},
    [CHECK] = {1.0 / 3.0, 2.0 / 3.0, check_factor},
    [SWEEP] = {1.0 / 120.0, 1.0 / 30.0, sweep_factor},
};

static bw_answer measured_answer(const bw_eye_grade *grade, size_t question)
{
    const bw_answer *const answers[] = {&grade->largest_knot, &grade->knots_in_foot,
                                        &grade->spiral_grain, &grade->drying_check,
                                        &grade->sweep};
    return *answers[question];
}

/* A value may be a limit written in decimals, or one of a rounded measurement. */
static bool is_up_to(double value, double limit)
{
    return value >= 0.0 && value <= limit * (1.0 + 1e-9);
}

static double measured_part(double value, const measured_rule *rule, bw_property property)
{
    if (is_up_to(value, rule->sound)) {
        return 1.0;
    }
    if (is_up_to(value, rule->last)) {
        return fmin(1.0, rule->factor(value, property));
    }
    return is_modulus(property) ? fmin(1.0, rule->factor(rule->last, property))
                                : (double)NAN;
}

/* ---- answers in words ---- */

static double word_part(const bw_eye_grade *grade, size_t question, bw_property property)
{
    switch (question) {
    case INSECTS: /* galleries take wood away that nobody can measure from outside */
        return grade->insects != BW_BORERS ? 1.0 : is_modulus(property) ? 0.85 : 0.70;
    case DECAY: /* toughness is gone before weight is: no strength can be named */
        return grade->decay != BW_YES ? 1.0 : is_modulus(property) ? 0.50 : (double)NAN;
    default: /* it stood drying and decaying for a time nobody knows */
        return grade->dead_when_cut != BW_YES ? 1.0 : is_modulus(property) ? 0.95 : 0.90;
    }
}

void bw_grade_update(bw_eye_grade *grade, const bw_eye_grade *seen)
{
    bw_answer *const to[] = {&grade->largest_knot, &grade->knots_in_foot,
                             &grade->spiral_grain, &grade->drying_check, &grade->sweep};
    const bw_answer *const from[] = {&seen->largest_knot, &seen->knots_in_foot,
                                     &seen->spiral_grain, &seen->drying_check,
                                     &seen->sweep};
    for (size_t k = 0; k < sizeof to / sizeof to[0]; k++) {
        *to[k] = from[k]->given ? *from[k] : *to[k];
    }
    grade->insects =
        seen->insects != BW_INSECTS_NO_ANSWER ? seen->insects : grade->insects;
    grade->decay = seen->decay != BW_NO_ANSWER ? seen->decay : grade->decay;
    grade->dead_when_cut =
        seen->dead_when_cut != BW_NO_ANSWER ? seen->dead_when_cut : grade->dead_when_cut;
}

bool bw_grade_is_answered(const bw_eye_grade *grade, size_t question)
{
    switch (question) {
    case INSECTS:
        return grade->insects != BW_INSECTS_NO_ANSWER;
    case DECAY:
        return grade->decay != BW_NO_ANSWER;
    case DEAD:
        return grade->dead_when_cut != BW_NO_ANSWER;
    default:
        return measured_answer(grade, question).given;
    }
}

static double own_part(const bw_eye_grade *grade, size_t question, bw_property property)
{
    if (!bw_grade_is_answered(grade, question)) {
        return unanswered[question][property];
    }
    return question < INSECTS ? measured_part(measured_answer(grade, question).value,
                                              &measured[question], property)
                              : word_part(grade, question, property);
}

/* The largest knot is one of those in the worst foot: answered both, the worse of the two
 * counts, not their product. */
double bw_grade_part(const bw_eye_grade *grade, size_t question, bw_property property)
{
    const double own = own_part(grade, question, property);
    if (question != KNOTS || !bw_grade_is_answered(grade, KNOTS)) {
        return own;
    }
    if (isnan(own)) {
        return own; /* fmin would hide it */
    }
    return fmin(1.0, own / own_part(grade, KNOT, property));
}

/* ---- the ladder ---- */

static const char *answer_text(bw_arena *arena, const bw_eye_grade *grade,
                               size_t question)
{
    static const char *const names[] = {"largest knot", "knots in a foot", "spiral grain",
                                        "drying check", "sweep"};
    static const char *const insects[] = {"", "insects: none", "insects: pinholes",
                                          "insects: borers"};
    if (question == INSECTS) {
        return insects[grade->insects];
    }
    if (question == DECAY) {
        return grade->decay == BW_YES ? "decay: signs of it" : "decay: none seen";
    }
    if (question == DEAD) {
        return grade->dead_when_cut == BW_YES ? "dead when cut" : "alive when cut";
    }
    const double value = measured_answer(grade, question).value;
    if (question == SPIRAL || question == SWEEP) {
        return value > 0.0
                   ? bw_arena_print(arena, "%s: 1 in %.4g", names[question], 1.0 / value)
                   : bw_arena_print(arena, "%s: none", names[question]);
    }
    return bw_arena_print(arena, "%s: %.3g of the %s", names[question], value,
                          question == CHECK ? "diameter" : "girth");
}

static const char *question_name(size_t question)
{
    static const char *const names[BW_GRADE_QUESTIONS] = {
        "largest knot", "knots in a foot", "spiral grain", "drying check",
        "sweep",        "insects",         "decay",        "dead when cut"};
    return names[question];
}

static const char *const sound_sources[BW_GRADE_QUESTIONS] = {
    "ASTM D25, recalled: up to 1/6 of the girth; beyond: section without a wedge",
    "ASTM D25, recalled: twice the largest knot; beyond: half of them as a wedge",
    "ASTM D25 and Wood Handbook, slope of grain, recalled",
    "trade: checks to 1/3 of the diameter are usual; beyond: uncracked width",
    "pole and pile straightness, recalled; beyond: compression off the axis",
    "chosen; ASTM D25 lets pinholes pass",
    "early decay takes toughness before weight (Wilcox 1978): no strength is named",
    "chosen; dead trees decay unseen"};

static const bw_mark sound_marks[BW_GRADE_QUESTIONS] = {
    BW_MARK_MEMORY, BW_MARK_MEMORY,    BW_MARK_MEMORY,    BW_MARK_READ,
    BW_MARK_MEMORY, BW_MARK_JUDGEMENT, BW_MARK_JUDGEMENT, BW_MARK_JUDGEMENT};

/* Whether any answer, or none, may lower the property. */
static bool touches(size_t question, bw_property property)
{
    return unanswered[question][property] < 1.0;
}

static void record(bw_working *working, const bw_eye_grade *grade, size_t question,
                   double factor)
{
    const bw_grade_question *q = &bw_grade_questions[question];
    bw_term term = {q->symbol,
                    NULL,
                    factor,
                    BW_NUMBER,
                    BW_MARK_JUDGEMENT,
                    "chosen, for a question that was not answered"};
    if (bw_grade_is_answered(grade, question)) {
        term.meaning = answer_text(working->arena, grade, question);
        term.mark = sound_marks[question];
        term.source = sound_sources[question];
    } else {
        term.meaning = bw_arena_print(working->arena, "%s: not answered; %s gives 1",
                                      question_name(question), q->sound);
    }
    if (term.meaning == NULL) {
        working->failed = true;
        return;
    }
    bw_working_add(working, term);
}

/* The product of the questions that count; a line for what can matter, and for what does.
 */
static double descend(const bw_eye_grade *grade, bool silence_counts,
                      bw_property property, bw_working *working)
{
    double product = 1.0;
    for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
        if (!silence_counts && !bw_grade_is_answered(grade, q)) {
            continue;
        }
        const double factor = bw_grade_part(grade, q, property);
        product *= factor;
        if (working != NULL && (touches(q, property) || !(factor >= 1.0))) {
            record(working, grade, q, factor);
        }
    }
    return product;
}

double bw_grade_factor(const bw_eye_grade *grade, bw_property property,
                       bw_working *working)
{
    return descend(grade, true, property, working);
}

bw_status bw_reference_grade(bw_reference *reference, const bw_eye_grade *grade,
                             bool silence_counts)
{
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        bw_working *ladder = &reference->ladder[i];
        const char *symbol =
            ladder->count > 0 ? ladder->items[ladder->count - 1].symbol : "";
        const size_t before = ladder->count;
        reference->value[i] *= descend(grade, silence_counts, (bw_property)i, ladder);
        if (ladder->count > before) {
            const bw_term graded = {symbol,    "graded by eye", reference->value[i],
                                    BW_STRESS, BW_MARK_NONE,    NULL};
            bw_working_add(ladder, graded);
        }
        if (ladder->failed) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}
