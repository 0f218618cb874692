/* match_data.c - which log of a pile goes where, as data for other programs, SI. */
#include "internal.h"

enum { FORMAT = 1 };

/* ---- JSON ---- */

static void write_members(bwi_json *json, const bw_match_report *r)
{
    bwi_json_begin(json, "members", '[');
    for (size_t k = 0; k < r->n_lines; k++) {
        const bw_match_line *l = &r->lines[k];
        bwi_json_begin(json, NULL, '{');
        bwi_json_text(json, "member", l->member);
        bwi_json_text(json, "role", l->role);
        bwi_json_text(json, "log", l->log);
        bwi_json_text(json, "species", l->species);
        bwi_json_text(json, "lies", l->lies);
        bwi_json_real(json, "length_m", l->length);
        bwi_json_real(json, "butt_diameter_m", l->butt);
        bwi_json_real(json, "end_diameter_m", l->tip);
        bwi_json_real(json, "utilisation", l->utilisation);
        bwi_json_text(json, "check", l->check);
        bwi_json_text(json, "wanted",
                      l->log != NULL ? NULL
                      : l->passes    ? "at least as thick as this"
                                     : "no girth passes");
        bwi_json_end(json, '}');
    }
    bwi_json_end(json, ']');
}

static void write_left(bwi_json *json, const bw_match_report *r)
{
    bwi_json_begin(json, "left_over", '[');
    for (size_t k = 0; k < r->n_left; k++) {
        const bw_match_left *l = &r->left[k];
        bwi_json_begin(json, NULL, '{');
        bwi_json_text(json, "log", l->log);
        bwi_json_text(json, "species", l->species);
        bwi_json_real(json, "length_m", l->length);
        bwi_json_real(json, "butt_diameter_m", l->butt);
        bwi_json_real(json, "tip_diameter_m", l->tip);
        bwi_json_text(json, "why", l->why);
        bwi_json_text(json, "note", l->note);
        bwi_json_end(json, '}');
    }
    bwi_json_end(json, ']');
}

void bw_report_match_json(const bw_match_report *r, bw_text *out)
{
    bwi_json json = bwi_json_new(out);
    bwi_json_begin(&json, NULL, '{');
    bwi_json_whole(&json, "format", FORMAT);
    bwi_json_text(&json, "program", "bolewright");
    bwi_json_text(&json, "version", bw_version);
    bwi_json_text(&json, "title", r->assessment->deck->title);
    bwi_json_text(&json, "verdict", bw_verdict_text(bw_report_verdict(r->assessment)));
    bwi_json_whole(&json, "members_that_want_a_log", (int)r->n_missing);
    write_members(&json, r);
    write_left(&json, r);
    bwi_json_begin(&json, "cost", '{');
    bwi_json_real(&json, "wood_m3", r->wood);
    bwi_json_real(&json, "level_depth_m", r->target);
    bwi_json_real(&json, "off_level_m", r->uneven);
    bwi_json_real(&json, "weight_m3_per_m", r->weight);
    bwi_json_real(&json, "total_m3", r->wood + r->weight * r->uneven);
    bwi_json_end(&json, '}');
    bwi_json_whole(&json, "pairs_ruled_out", (int)r->ruled_out);
    bwi_json_whole(&json, "full_checks", (int)r->assessments);
    bwi_json_assumptions(&json, "to_do", r->assessment, true);
    bwi_json_texts(&json, "not_checked", r->assessment->not_checked);
    bwi_json_texts(&json, "cautions", r->assessment->cautions);
    bwi_json_end(&json, '}');
    bw_text_add(out, "\n");
}

/* ---- comma-separated values ---- */

void bw_report_match_csv(const bw_match_report *r, bw_text *out)
{
    bw_text_add(out, "log,species,member,role,lies,length_m,butt_diameter_m,"
                     "end_diameter_m,utilisation,check,remark\r\n");
    for (size_t k = 0; k < r->n_lines; k++) {
        const bw_match_line *l = &r->lines[k];
        bwi_csv_text(out, l->log, ',');
        bwi_csv_text(out, l->species, ',');
        bwi_csv_text(out, l->member, ',');
        bwi_csv_text(out, l->role, ',');
        bwi_csv_text(out, l->lies, ',');
        bwi_csv_number(out, l->length);
        bwi_csv_number(out, l->butt);
        bwi_csv_number(out, l->tip);
        bwi_csv_number(out, l->utilisation);
        bwi_csv_text(out, l->check, ',');
        bwi_csv_text(out,
                     l->log != NULL ? ""
                     : l->passes    ? "wanted: at least as thick as this"
                                    : "wanted: no girth passes",
                     '\n');
    }
    for (size_t k = 0; k < r->n_left; k++) {
        const bw_match_left *l = &r->left[k];
        bwi_csv_text(out, l->log, ',');
        bwi_csv_text(out, l->species, ',');
        bw_text_add(out, ",,,");
        bwi_csv_number(out, l->length);
        bwi_csv_number(out, l->butt);
        bwi_csv_number(out, l->tip);
        bw_text_add(out, ",,");
        bwi_csv_text(out, l->why, '\n');
    }
}
