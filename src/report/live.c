/* live.c - the assessment for a page that answers while a case is being changed: the same
 * words and drawings as in the text and the record, handed over as JSON. */
#include "html.h"

#include <math.h>
#include <string.h>

enum { LOOK_AT_FIRST = 5 };

static size_t member_of(const bw_assessment *a, const bw_finding *finding)
{
    for (size_t i = 0; i < a->n_members; i++) {
        if (finding >= a->members[i].findings &&
            finding < a->members[i].findings + BW_CHECK_KIND_COUNT) {
            return i;
        }
    }
    return 0;
}

/* ---- what to look at ---- */

static void write_looks(bwi_json *json, const bw_assessment *a)
{
    const bw_finding *first[LOOK_AT_FIRST] = {0};
    const size_t count = bwi_rank(a, first, LOOK_AT_FIRST);
    bwi_json_begin(json, "looks", '[');
    for (size_t i = 0; i < count; i++) {
        bw_text line = bw_text_new(json->out->arena);
        bwi_finding_line(first[i], a->deck->units, &line);
        bwi_json_begin(json, NULL, '{');
        bwi_json_whole(json, "member", (int)member_of(a, first[i]));
        bwi_json_text(json, "line", bwi_or_fail(json->out, bw_text_string(&line)));
        bwi_json_text(json, "verdict", bw_verdict_text(bwi_finding_verdict(first[i])));
        bwi_json_text(json, "note", first[i]->note);
        bwi_json_end(json, '}');
    }
    bwi_json_end(json, ']');
}

/* Where the rider does the most harm: of all findings that depend on his place, the one
 * nearest to its limit. */
static const bw_finding *worst_of_rider(const bw_assessment *a)
{
    const bw_finding *worst = NULL;
    for (size_t i = 0; i < a->n_members; i++) {
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            const bw_finding *f = &a->members[i].findings[kind];
            if (a->members[i].has[kind] && f->position != NULL &&
                strncmp(f->position, "rider", 5) == 0 &&
                (worst == NULL || f->ratio.utilisation > worst->ratio.utilisation)) {
                worst = f;
            }
        }
    }
    return worst;
}

static void write_rider(bwi_json *json, const bw_assessment *a)
{
    const bw_finding *f = worst_of_rider(a);
    if (f == NULL) {
        bwi_json_text(json, "rider", NULL);
        return;
    }
    const char *percent = bwi_percent(json->out->arena, f->ratio.utilisation, 1);
    const char *check = bwi_check_words(json->out->arena, f->check->id);
    const char *words = bw_arena_print(json->out->arena, "%s: %s of %s then at %s %%",
                                       f->position, bwi_or_fail(json->out, check),
                                       f->member, bwi_or_fail(json->out, percent));
    bwi_json_text(json, "rider", bwi_or_fail(json->out, words));
}

static void write_verdict(bwi_json *json, const bw_assessment *a)
{
    bw_arena *arena = json->out->arena;
    const bw_finding *g = a->governing;
    bwi_json_text(json, "verdict", bw_verdict_text(bw_report_verdict(a)));
    bwi_json_text(json, "words",
                  bwi_or_fail(json->out, bw_report_verdict_text(arena, a)));
    bwi_json_text(json, "remedy",
                  g == NULL ? NULL : bwi_or_fail(json->out, bwi_remedy(arena, g)));
    bwi_json_known(json, "member", g == NULL ? 0.0 : (double)member_of(a, g), g != NULL);
    bwi_json_known(json, "utilisation", g == NULL ? 0.0 : g->ratio.utilisation,
                   g != NULL);
    bwi_json_text(
        json, "share",
        g == NULL || !isfinite(g->ratio.utilisation)
            ? NULL
            : bwi_or_fail(json->out,
                          bw_arena_print(
                              arena, "%s %%",
                              bwi_or_fail(json->out,
                                          bwi_percent(arena, g->ratio.utilisation, 1)))));
}

/* ---- lists ---- */

static void write_load(bwi_json *json, const char *what, const char *value)
{
    bw_text *out = json->out;
    const char *words = bw_arena_print(out->arena, "%s: %s", bwi_or_fail(out, what),
                                       bwi_or_fail(out, value));
    bwi_json_text(json, NULL, bwi_or_fail(out, words));
}

/* What the verdict stands for: a load that the case leaves out is told as such, as
 * nothing else in a verdict would say that it is not there. */
static void write_loads(bwi_json *json, const bw_assessment *a)
{
    const bw_loads *l = &a->deck->loads;
    const struct {
        const char *what;
        double value;
        bw_quantity quantity;
    } usual[] = {{"rider with bike", l->mass, BW_MASS},
                 {"people", l->crowd, BW_PRESSURE},
                 {"snow", l->snow, BW_PRESSURE}};
    bw_arena *arena = json->out->arena;
    const bw_units units = a->deck->units;
    bwi_json_begin(json, "loads", '[');
    for (size_t i = 0; i < sizeof usual / sizeof usual[0]; i++) {
        write_load(json, usual[i].what,
                   usual[i].value == 0.0
                       ? "none"
                       : bwi_value(arena, usual[i].quantity, usual[i].value, units));
    }
    if (l->machine.mass > 0.0) {
        write_load(json, l->machine.name,
                   bwi_value(arena, BW_MASS, l->machine.mass, units));
    }
    bwi_json_end(json, ']');
}

/* Bent that the member stands at, or begins at if it is a stringer. */
static int bent_of(const bw_case *deck, const bw_member_result *m)
{
    for (size_t k = 0; m->bent < 0 && k < deck->n_stringers; k++) {
        if (strcmp(deck->stringers[k].case_path, m->case_path) == 0) {
            return deck->stringers[k].from;
        }
    }
    return m->bent < 0 ? 0 : m->bent;
}

static void write_members(bwi_json *json, const bw_assessment *a)
{
    bwi_json_begin(json, "members", '[');
    for (size_t i = 0; i < a->n_members; i++) {
        const bw_member_result *m = &a->members[i];
        const bw_finding *f = bw_member_worst(m);
        bwi_json_begin(json, NULL, '{');
        bwi_json_text(json, "name", m->name);
        bwi_json_text(json, "role", m->role);
        bwi_json_text(json, "pointer", m->case_path);
        bwi_json_whole(json, "bent", bent_of(a->deck, m));
        bwi_json_text(json, "log", m->log == NULL ? NULL : m->log->case_path);
        bwi_json_text(json, "share",
                      bwi_or_fail(json->out, bwi_share_text(json->out->arena, m)));
        bwi_json_text(json, "check", f == NULL ? NULL : f->check->id);
        bwi_json_known(json, "used", f == NULL ? 0.0 : f->ratio.utilisation,
                       f != NULL && isfinite(f->ratio.utilisation));
        bwi_json_text(json, "verdict", bw_verdict_text(bwi_member_verdict(m)));
        bwi_json_end(json, '}');
    }
    bwi_json_end(json, ']');
}

/* The bents as they follow on each other along the deck. */
static void write_bents(bwi_json *json, const bw_case *deck)
{
    bwi_json_begin(json, "bents", '[');
    for (size_t k = 0; k < deck->n_bents; k++) {
        bwi_json_text(json, NULL, deck->bents[k].case_path);
    }
    bwi_json_end(json, ']');
}

static void write_drawing(bwi_json *json, const bw_assessment *a,
                          const bw_drawing *drawing)
{
    bw_text markup = bw_text_new(json->out->arena);
    const bwi_drawer w = {a, drawing, &markup, true};
    /* its opening has a style of its own, which a page that forbids those complains of */
    bw_text_add(&markup, "<svg class=\"none\" width=\"0\" height=\"0\" "
                         "aria-hidden=\"true\">");
    bw_text_add(&markup, strstr(bwi_style_patterns, "<defs>"));
    bwi_draw_rows(&w);
    bwi_draw_bents(&w);
    bwi_draw_key(&markup);
    bwi_json_text(json, "drawing", bwi_or_fail(json->out, bw_text_string(&markup)));
}

void bw_report_live(const bw_assessment *assessment, const bw_drawing *drawing,
                    bw_text *out)
{
    bwi_json json = bwi_json_new(out);
    bwi_json_begin(&json, NULL, '{');
    write_verdict(&json, assessment);
    if (drawing != NULL) {
        write_looks(&json, assessment);
        write_rider(&json, assessment);
        write_loads(&json, assessment);
        write_members(&json, assessment);
        write_bents(&json, assessment->deck);
        bwi_json_assumptions(&json, "to_do", assessment, true);
        bwi_json_assumptions(&json, "assumed", assessment, false);
        bwi_json_texts(&json, "not_checked", assessment->not_checked);
        bwi_json_texts(&json, "cautions", assessment->cautions);
        write_drawing(&json, assessment, drawing);
    }
    bwi_json_end(&json, '}');
}

/* The one nearest to its limit of those not written yet, one that cannot be said before
 * all; -1: none is left. */
static int next_worst(const bw_member_result *m, const bool written[BW_CHECK_KIND_COUNT])
{
    int worst = -1;
    double most = -1.0;
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        if (m->has[kind] && !written[kind]) {
            const double share = m->findings[kind].ratio.utilisation;
            if (worst < 0 || !(share <= most)) {
                worst = kind;
                most = isnan(share) ? (double)INFINITY : share;
            }
        }
    }
    return worst;
}

void bw_report_member_html(const bw_assessment *assessment, size_t member, bw_text *out)
{
    const bw_member_result *m = &assessment->members[member];
    bool written[BW_CHECK_KIND_COUNT] = {false};
    int kind = next_worst(m, written);
    const bool any = kind >= 0;
    for (; kind >= 0; kind = next_worst(m, written)) {
        bwi_finding_html(&m->findings[kind], assessment->deck->units, out);
        written[kind] = true;
    }
    if (!any) {
        bwi_html(out, "<p>%s %s: nothing could be checked.</p>\n", m->role, m->name);
    }
}
