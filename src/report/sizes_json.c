/* sizes_json.c - answers about sizes as data, SI. */
#include "internal.h"

enum { FORMAT = 1 };

static bwi_json begin(const char *tables, bw_text *out)
{
    bwi_json json = bwi_json_new(out);
    bwi_json_begin(&json, NULL, '{');
    bwi_json_whole(&json, "format", FORMAT);
    bwi_json_text(&json, "program", "bolewright");
    bwi_json_text(&json, "version", bw_version);
    bwi_json_text(&json, "tables", tables);
    return json;
}

static void end(bwi_json *json)
{
    bwi_json_texts(json, "not_checked", bwi_sizes_not_checked);
    bwi_json_text(json, "caution", bwi_sizes_caution);
    bwi_json_end(json, '}');
    bw_text_add(json->out, "\n");
}

static void write_sized(bwi_json *json, const char *key, const bw_sized *at)
{
    bwi_json_begin(json, key, '{');
    bwi_json_text(json, "verdict", bw_verdict_text(at->verdict));
    bwi_json_text(json, "governing", at->governing == NULL ? NULL : at->governing->id);
    bwi_json_real(json, "utilisation", at->utilisation);
    bwi_json_text(json, "combination", at->combination);
    bwi_json_text(json, "next", at->next == NULL ? NULL : at->next->id);
    bwi_json_known(json, "next_utilisation", at->next_utilisation, at->next != NULL);
    bwi_json_end(json, '}');
}

static void write_leverage(bwi_json *json, const bw_leverage *l)
{
    bwi_json_begin(json, "worst_with", '{');
    bwi_json_real(json, "diameter_step_m", l->step_across);
    bwi_json_real(json, "span_step_m", l->step_along);
    bwi_json_real(json, "less_diameter", l->thinner);
    bwi_json_real(json, "more_diameter", l->thicker);
    bwi_json_real(json, "less_span", l->shorter);
    bwi_json_real(json, "more_span", l->longer);
    bwi_json_end(json, '}');
}

static void write_span(bwi_json *json, const char *key, const bw_span_answer *a, int bays)
{
    const bool found = a->span > 0.0;
    bwi_json_begin(json, key, '{');
    bwi_json_whole(json, "bays", bays);
    bwi_json_known(json, "span_m", a->span, found);
    bwi_json_real(json, "step_m", a->step);
    bwi_json_text(json, "ends_with",
                  !found      ? "no span"
                  : a->to_end ? "the log or the range tried"
                              : "its limit");
    write_sized(json, "at", &a->at);
    if (found && !a->to_end) {
        write_sized(json, "one_step_longer", &a->beyond);
    }
    if (found) {
        write_leverage(json, &a->leverage);
    }
    bwi_json_end(json, '}');
}

static void write_log(bwi_json *json, const bw_log *log)
{
    bwi_json_begin(json, "log", '{');
    bwi_json_real(json, "butt_diameter_m", log->butt_diameter);
    bwi_json_real(json, "tip_diameter_m", log->tip_diameter);
    bwi_json_known(json, "length_m", log->length, log->length > 0.0);
    bwi_json_end(json, '}');
}

void bw_report_span_json(const bw_span_question *q, const bw_span_answer *a,
                         const char *tables, bw_text *out)
{
    bwi_json json = begin(tables, out);
    bwi_duty_json(&json, &q->duty, q->log->species, &q->log->grade);
    write_log(&json, q->log);
    write_span(&json, "longest_span", a, q->duty.bays);
    end(&json);
}

void bw_report_spacing_json(const bw_span_question *q, const bw_spacing_answer *a,
                            const char *tables, bw_text *out)
{
    bwi_json json = begin(tables, out);
    bwi_duty_json(&json, &q->duty, q->log->species, &q->log->grade);
    write_log(&json, q->log);
    write_span(&json, "single", &a->single, 1);
    write_span(&json, "continuous", &a->continuous, 2);
    end(&json);
}

static void write_size(bwi_json *json, const char *key, const bw_log_size *size)
{
    bwi_json_begin(json, key, '{');
    bwi_json_real(json, "butt_diameter_m", size->butt);
    bwi_json_real(json, "middle_diameter_m", size->mid);
    bwi_json_real(json, "tip_diameter_m", size->tip);
    bwi_json_end(json, '}');
}

static void write_tree(bwi_json *json, const bw_log_answer *a)
{
    bwi_json_begin(json, "tree", '{');
    bwi_json_known(json, "breast_girth_over_bark_m", a->breast_girth, a->has_tree);
    bwi_json_known(json, "height_m", a->has_tree ? bw_tree_height(&a->tree) : 0.0,
                   a->has_tree);
    bwi_json_end(json, '}');
}

void bw_report_log_json(const bw_log_question *q, const bw_log_answer *a,
                        const char *tables, bw_text *out)
{
    bwi_json json = begin(tables, out);
    bwi_duty_json(&json, &q->duty, q->species, &q->grade);
    bwi_json_real(&json, "span_m", q->span);
    bwi_json_whole(&json, "bays", q->duty.bays);
    bwi_json_real(&json, "girth_step_m", a->step);
    bwi_json_text(&json, "ends_with",
                  !a->found   ? "no log"
                  : a->to_end ? "the thinnest tried"
                              : "its limit");
    if (a->found) {
        write_size(&json, "smallest_log_under_bark", &a->size);
        bwi_json_real(&json, "cut_m", a->length);
        write_tree(&json, a);
    }
    write_sized(&json, "at", &a->at);
    if (a->found && !a->to_end) {
        write_size(&json, "one_step_thinner", &a->thinner);
        write_sized(&json, "at_one_step_thinner", &a->below);
    }
    if (a->found) {
        write_leverage(&json, &a->leverage);
    }
    end(&json);
}
