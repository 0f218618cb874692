/* sample.h - an assessment made by hand, so that reports are tested without any solver.
 * The numbers have no meaning but hang together: demand / capacity is the utilisation. */
#ifndef BW_TESTS_REPORT_SAMPLE_H
#define BW_TESTS_REPORT_SAMPLE_H

#include "bolewright/report.h"

#include <string.h>

enum { SAMPLE_MEMBERS = 4, SAMPLE_LOGS = 2 };

typedef struct {
    bw_case deck;
    bw_log logs[SAMPLE_LOGS];
    bw_species species;
    bw_species_table table;
    bw_reference references[SAMPLE_LOGS];
    bw_member_result members[SAMPLE_MEMBERS];
    bw_assumption assumptions[3];
    bw_assessment assessment;
} sample;

static const bw_check sample_bending = {
    .kind = BW_CHECK_BENDING,
    .id = "bending",
    .title = "Bending",
    .formula = "f_b = M / S <= F_b C_D C_F",
    .source = "a standard of this sample, 3.3.1",
    .mark = BW_MARK_READ,
    .quantity = BW_STRESS,
};
static const bw_check sample_deflection = {
    .kind = BW_CHECK_DEFLECTION,
    .id = "deflection",
    .title = "Deflection",
    .formula = "d <= span / limit",
    .source = "a habit of this sample",
    .mark = BW_MARK_PRACTICE,
    .quantity = BW_LENGTH,
};
static const bw_check sample_compression = {
    .kind = BW_CHECK_COMPRESSION,
    .id = "compression",
    .title = "Compression",
    .formula = "f_c = P / A <= F_c C_D C_P",
    .source = "a standard of this sample, 3.7.1",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_STRESS,
};

static const char *const sample_cautions[] = {
    "A sanity check only: local codes and licensed practice come first.",
    "Last caution of the sample.", NULL};
static const char *const sample_not_checked[] = {"fasteners and their spacing",
                                                 "sway across the deck", NULL};

static inline void sample_find(sample *s, int member, const bw_check *check,
                               double demand, double capacity)
{
    bw_member_result *m = &s->members[member];
    m->findings[check->kind] = (bw_finding){
        .check = check,
        .member = m->name,
        .role = m->role,
        .case_path = m->case_path,
        .station = 0.937,
        .place = "3 ft 1 in from bent B1",
        .combination = "dead + rider",
        .position = "rider 2 ft 4 in past bent B1 on row left",
        .ratio = {demand, capacity, demand / capacity},
        .verdict = demand > capacity ? BW_OVER : BW_WITHIN,
    };
    m->has[check->kind] = true;
    m->worst = demand / capacity > m->worst ? demand / capacity : m->worst;
}

static inline void sample_work(bw_arena *arena, bw_finding *finding)
{
    const bw_term terms[] = {
        {"M", "bending moment at the place", 3245.7, BW_MOMENT, BW_MARK_NONE, NULL},
        {"S", "section modulus of the round section", 2.713e-4, BW_SECTION_MODULUS,
         BW_MARK_NONE, NULL},
        {"F_b", "reference bending stress", 9.137e6, BW_STRESS, BW_MARK_COMPUTED,
         "ladder of the species, sample tables"},
        {"C_D", "load duration factor", 1.6, BW_NUMBER, BW_MARK_READ,
         "a standard of this sample, table 2.3.2"},
    };
    finding->working = bw_working_new(arena);
    for (size_t i = 0; i < sizeof terms / sizeof terms[0]; i++) {
        bw_working_add(&finding->working, terms[i]);
    }
}

static inline void sample_logs(bw_arena *arena, sample *s)
{
    s->species = (bw_species){.id = "pine_sample", .common = "Sample pine"};
    s->table = (bw_species_table){.items = &s->species, .count = 1, .version = "2026-11"};
    s->logs[0] = (bw_log){.name = "long log",
                          .species = &s->species,
                          .butt_diameter = 0.2286,
                          .tip_diameter = 0.1905,
                          .case_path = "/logs/0"};
    s->logs[1] = (bw_log){.name = "post log",
                          .species = &s->species,
                          .butt_diameter = 0.1778,
                          .tip_diameter = 0.1524,
                          .length = 3.048,
                          .case_path = "/logs/1"};
    for (int i = 0; i < SAMPLE_LOGS; i++) {
        s->references[i].species = &s->species;
        for (int p = 0; p < BW_PROPERTY_COUNT; p++) {
            const double value = 1.234567890123e6 * (p + 1) + i;
            s->references[i].value[p] = value;
            s->references[i].ladder[p] = bw_working_new(arena);
            bw_working_add(&s->references[i].ladder[p],
                           (bw_term){"F", "the value itself", value, BW_STRESS,
                                     BW_MARK_COMPUTED, "sample tables"});
        }
    }
}

static inline void sample_members(sample *s)
{
    static const char *const names[][3] = {{"stringer S1", "stringer", "/stringers/0"},
                                           {"stringer S2", "stringer", "/stringers/1"},
                                           {"cap of B1", "cap", "/bents/0/cap"},
                                           {"post B1 left", "post", "/bents/0/posts/0"}};
    for (int i = 0; i < SAMPLE_MEMBERS; i++) {
        s->members[i] = (bw_member_result){.name = names[i][0],
                                           .role = names[i][1],
                                           .case_path = names[i][2],
                                           .log = &s->logs[i == 3 ? 1 : 0],
                                           .length = 2.385 + i};
    }
    sample_find(s, 0, &sample_bending, 7.31e6, 11.27e6);
    sample_find(s, 0, &sample_deflection, 0.00417, 0.00623);
    sample_find(s, 1, &sample_bending, 11.964e6, 11.27e6);
    sample_find(s, 1, &sample_deflection, 0.00523, 0.00623);
    sample_find(s, 2, &sample_bending, 4.117e6, 11.27e6);
    sample_find(s, 3, &sample_compression, 1.713e6, 5.291e6);
}

static inline sample *sample_new(bw_arena *arena, bw_units units)
{
    sample *s = BW_NEW(arena, sample, 1);
    if (s == NULL) {
        return NULL;
    }
    sample_logs(arena, s);
    sample_members(s);
    sample_work(arena, &s->members[1].findings[BW_CHECK_BENDING]);
    s->deck =
        (bw_case){.title = "Sample deck",
                  .builder = "A. Builder",
                  .units = units,
                  .basis = &bw_us_asd,
                  .logs = s->logs,
                  .n_logs = SAMPLE_LOGS,
                  .boards = {.width = 1.2192, .board_pressure = 335.1},
                  .loads = {.mass = 115.2, .factor = 3.0},
                  .limits = {.live = 360.0, .long_term = 240.0, .seat_depth = 0.0127},
                  .species = &s->table};
    s->assumptions[0] =
        (bw_assumption){"the wood is wet", BW_MARK_JUDGEMENT, NULL, false};
    s->assumptions[1] = (bw_assumption){"boards weigh 7 psf", BW_MARK_PRACTICE,
                                        "sample of the trade", false};
    s->assumptions[2] = (bw_assumption){"hold the far ends down for 389 N",
                                        BW_MARK_COMPUTED, "NOT CHECKED: spikes", true};
    s->assessment =
        (bw_assessment){.deck = &s->deck,
                        .verdict = BW_OVER,
                        .members = s->members,
                        .n_members = SAMPLE_MEMBERS,
                        .governing = &s->members[1].findings[BW_CHECK_BENDING],
                        .assumptions = s->assumptions,
                        .n_assumptions = 3,
                        .cautions = sample_cautions,
                        .not_checked = sample_not_checked,
                        .references = s->references,
                        .dead_weight = 3417.2,
                        .worst_residual = 3.1e-14,
                        .worst_rcond = 2.7e-7};
    return s;
}

/* The sample with everything within limits. */
static inline sample *sample_within(bw_arena *arena, bw_units units)
{
    sample *s = sample_new(arena, units);
    if (s == NULL) {
        return NULL;
    }
    bw_finding *f = &s->members[1].findings[BW_CHECK_BENDING];
    f->ratio = (bw_ratio){9.5123e6, 11.27e6, 9.5123e6 / 11.27e6};
    f->verdict = BW_WITHIN;
    s->members[1].worst = f->ratio.utilisation;
    s->assessment.verdict = BW_WITHIN;
    return s;
}

static inline const char *sample_text(const sample *s, bw_arena *arena)
{
    bw_text text = bw_text_new(arena);
    bw_report_text(&s->assessment, &text);
    return bw_text_string(&text);
}

#endif
