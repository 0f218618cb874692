/* steps.c - the places of a slider as written quantities: what stands in the case, and so
 * many steps more or less of it, in the units of the case. */
#include "internal.h"

#include <math.h>
#include <string.h>

enum { EACH_WAY = 16, PLACES = 2 * EACH_WAY + 1 };

typedef struct {
    const char *name;
    const char *imperial, *metric; /* one step */
    double least;                  /* [m] no value goes below */
    bool grows; /* the k-th value moves k steps: stations that follow on each other */
    bool small; /* printed without feet, as girths are */
} step_rule;

static const step_rule rules[] = {
    {"spacing", "2 in", "50 mm", -500.0, true, false},
    {"girth", "1/2 in", "10 mm", 0.1, false, true},
    {"depth", "2 in", "50 mm", 0.05, false, false},
    {"thickness", "1/4 in", "5 mm", 0.01, false, true},
};

static const step_rule *rule_of(const char *name)
{
    for (size_t i = 0; name != NULL && i < sizeof rules / sizeof rules[0]; i++) {
        if (strcmp(rules[i].name, name) == 0) {
            return &rules[i];
        }
    }
    return NULL;
}

typedef struct {
    bwi_exchange *x;
    const step_rule *rule;
    bw_units units;
    double step; /* [m] */
    bwi_lengths at;
} step_run;

static const char *print(const step_run *run, double value)
{
    return run->rule->small
               ? bw_length_print_small(run->x->arena, value, run->units)
               : bw_quantity_print(run->x->arena, BW_LENGTH, value, run->units);
}

static double moved(const step_run *run, size_t k, int place)
{
    const double times = run->rule->grows ? (double)k : 1.0;
    return run->at.values[k] + times * (place - EACH_WAY) * run->step;
}

/* Whether the slider may stand there at all: nothing too small, stations in order. */
static bool allowed(const step_run *run, int place)
{
    for (size_t k = 0; k < run->at.count; k++) {
        const double value = moved(run, k, place);
        if (!(value >= run->rule->least) ||
            (run->rule->grows && k > 0 &&
             !(value - moved(run, k - 1, place) >= 2.0 * run->step))) {
            return place == EACH_WAY;
        }
    }
    return true;
}

/* What the slider says of itself: the value, or the shortest and the longest bay. */
static const char *label(const step_run *run, int place)
{
    double least = HUGE_VAL, most = -HUGE_VAL;
    const size_t first = run->rule->grows ? 1 : 0;
    for (size_t k = first; k < run->at.count; k++) {
        const double value =
            moved(run, k, place) - (run->rule->grows ? moved(run, k - 1, place) : 0.0);
        least = fmin(least, value);
        most = fmax(most, value);
    }
    const char *from = print(run, least), *to = print(run, most);
    if (from == NULL || to == NULL || strcmp(from, to) == 0) {
        return from;
    }
    return bw_arena_print(run->x->arena, "%s to %s", from, to);
}

static void write_string(step_run *run, const char *text)
{
    run->x->out.failed = run->x->out.failed || text == NULL;
    bw_json_string(&run->x->out, text == NULL ? "" : text);
}

static void write_places(step_run *run)
{
    bw_text *out = &run->x->out;
    int first = PLACES;
    bw_text_add(out, "{\"places\": [");
    for (int place = 0; place < PLACES; place++) {
        if (!allowed(run, place)) {
            continue;
        }
        bw_text_add(out, first == PLACES ? "\n{\"label\": " : ",\n{\"label\": ");
        first = place < first ? place : first;
        write_string(run, label(run, place));
        bw_text_add(out, ", \"texts\": [");
        for (size_t k = 0; k < run->at.count; k++) {
            bw_text_add(out, k > 0 ? ", " : "");
            const bool still = place == EACH_WAY || (run->rule->grows && k == 0);
            write_string(run,
                         still ? run->at.texts[k] : print(run, moved(run, k, place)));
        }
        bw_text_add(out, "]}");
    }
    bw_text_print(out, "],\n\"at\": %d}\n", EACH_WAY - first);
}

bool bwi_lengths_read(bwi_exchange *x, bwi_lengths *out)
{
    const bw_page_request *r = x->request;
    *out = (bwi_lengths){.values = BW_NEW(x->arena, double, r->n_arguments),
                         .texts = BW_NEW(x->arena, const char *, r->n_arguments)};
    if (out->values == NULL || out->texts == NULL) {
        x->out.failed = true;
        return false;
    }
    for (size_t i = 0; i < r->n_arguments; i++) {
        const bw_page_argument *a = &r->arguments[i];
        if (strcmp(a->name, "text") != 0) {
            continue;
        }
        if (bw_quantity_parse(BW_LENGTH, a->value, &out->values[out->count]) !=
            BW_PARSE_OK) {
            return false;
        }
        out->texts[out->count++] = a->value;
    }
    return out->count > 0;
}

bw_units bwi_units(const bw_page_request *request)
{
    const char *units = bwi_argument(request, "units");
    return units != NULL && strcmp(units, "metric") == 0 ? BW_METRIC : BW_IMPERIAL;
}

void bwi_answer_steps(bwi_exchange *x, bw_page_response *out)
{
    step_run run = {.x = x,
                    .rule = rule_of(bwi_argument(x->request, "by")),
                    .units = bwi_units(x->request)};
    if (run.rule == NULL) {
        bwi_refuse(x, 400, "there is no such slider", out);
        return;
    }
    (void)bw_quantity_parse(
        BW_LENGTH, run.units == BW_METRIC ? run.rule->metric : run.rule->imperial,
        &run.step);
    if (!bwi_lengths_read(x, &run.at) || (run.rule->grows && run.at.count < 2)) {
        bw_text_add(&x->out, "{\"places\": [], \"at\": 0}\n");
        return;
    }
    write_places(&run);
}
