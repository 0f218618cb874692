/* age_json.c - a deck as it was found, as data for other programs, SI. */
#include "internal.h"

enum { FORMAT = 1 };

static void write_member(bwi_json *json, const bw_aged_member *m)
{
    bwi_json_begin(json, NULL, '{');
    bwi_json_text(json, "member", m->name);
    bwi_json_real(json, "measured_from_butt_m", m->loss.from_butt);
    bwi_json_real(json, "diameter_as_built_m", m->loss.diameter);
    bwi_json_real(json, "lost_all_round_m", m->loss.outer);
    bwi_json_known(json, "shell_m", m->loss.shell, m->loss.shell > 0.0);
    bwi_json_real(json, "bending_strength_left", m->section_left);
    bwi_json_real(json, "utilisation_as_built", m->built);
    bwi_json_real(json, "utilisation", m->today);
    bwi_json_text(json, "check", m->worst == NULL ? NULL : m->worst->check->id);
    bwi_json_text(json, "verdict",
                  bw_verdict_text(m->gone ? BW_OVER : bw_verdict_of(m->today)));
    bwi_json_known(json, "lost_a_year_m", m->outer_rate, m->has_trend);
    bwi_json_known(json, "shell_lost_a_year_m", m->shell_rate, m->has_trend);
    bwi_json_known(json, "whole_years_within_limits", (double)m->years_left,
                   m->has_trend && m->years_left >= 0 && m->years_left < BW_AGE_HORIZON);
    bwi_json_end(json, '}');
}

void bw_report_age_json(const bw_aged_deck *aged, bw_text *out)
{
    bwi_json json = bwi_json_new(out);
    bwi_json_begin(&json, NULL, '{');
    bwi_json_whole(&json, "format", FORMAT);
    bwi_json_text(&json, "program", "bolewright");
    bwi_json_text(&json, "version", bw_version);
    bwi_json_text(&json, "title", aged->built.deck->title);
    bwi_json_text(&json, "found", bw_date_print(out->arena, aged->last));
    bwi_json_text(&json, "verdict", bw_verdict_text(aged->verdict));
    bwi_json_text(&json, "governing",
                  aged->today.governing == NULL ? NULL : aged->today.governing->member);
    bwi_json_whole(&json, "months_to_the_next_look", aged->months_to_look);
    bwi_json_begin(&json, "members", '[');
    for (size_t i = 0; i < aged->n_members; i++) {
        write_member(&json, &aged->members[i]);
    }
    bwi_json_end(&json, ']');
    bwi_json_assumptions(&json, "to_do", &aged->today, true);
    bwi_json_texts(&json, "not_checked", aged->built.not_checked);
    bwi_json_texts(&json, "cautions", aged->built.cautions);
    bwi_json_end(&json, '}');
}
