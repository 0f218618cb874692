/* json.c - the assessment for other programs: every finding with its working, SI
 * throughout. */
#include "internal.h"

enum { FORMAT = 1 };

static const char *mark_or_null(bw_mark mark)
{
    return mark == BW_MARK_NONE ? NULL : bw_mark_text(mark);
}

static void write_term(bwi_json *json, const bw_term *term)
{
    bwi_json_begin(json, NULL, '{');
    bwi_json_text(json, "symbol", term->symbol);
    bwi_json_text(json, "meaning", term->meaning);
    bwi_json_real(json, "value", term->value);
    bwi_json_text(json, "quantity", bw_quantity_name(term->quantity));
    bwi_json_text(json, "unit", bwi_si_unit(term->quantity));
    bwi_json_text(json, "mark", mark_or_null(term->mark));
    bwi_json_text(json, "source", term->source);
    bwi_json_end(json, '}');
}

void bwi_json_working(bwi_json *json, const char *key, const bw_working *working)
{
    bwi_json_begin(json, key, '[');
    for (size_t i = 0; i < working->count; i++) {
        write_term(json, &working->items[i]);
    }
    json->out->failed = json->out->failed || working->failed;
    bwi_json_end(json, ']');
}

static void write_check(bwi_json *json, const bw_check *check)
{
    bwi_json_text(json, "check", check->id);
    bwi_json_text(json, "formula", check->formula);
    bwi_json_text(json, "source", check->source);
    bwi_json_text(json, "mark", mark_or_null(check->mark));
}

static void write_finding(bwi_json *json, const char *key, const bw_finding *finding)
{
    bwi_json_begin(json, key, '{');
    bwi_json_text(json, "member", finding->member);
    bwi_json_text(json, "role", finding->role);
    bwi_json_text(json, "pointer", finding->case_path);
    write_check(json, finding->check);
    bwi_json_text(json, "verdict", bw_verdict_text(bwi_finding_verdict(finding)));
    bwi_json_text(json, "combination", finding->combination);
    bwi_json_text(json, "position", finding->position);
    bwi_json_text(json, "place", finding->place);
    bwi_json_known(json, "station_m", finding->station, finding->station >= 0.0);
    bwi_json_text(json, "quantity", bw_quantity_name(finding->check->quantity));
    bwi_json_text(json, "unit", bwi_si_unit(finding->check->quantity));
    bwi_json_real(json, "demand", finding->ratio.demand);
    bwi_json_real(json, "capacity", finding->ratio.capacity);
    bwi_json_real(json, "utilisation", finding->ratio.utilisation);
    bwi_json_text(json, "note", finding->note);
    bwi_json_working(json, "working", &finding->working);
    bwi_json_end(json, '}');
}

static void write_member(bwi_json *json, const bw_member_result *member)
{
    bwi_json_begin(json, NULL, '{');
    bwi_json_text(json, "name", member->name);
    bwi_json_text(json, "role", member->role);
    bwi_json_text(json, "pointer", member->case_path);
    bwi_json_text(json, "log", member->log == NULL ? NULL : member->log->name);
    bwi_json_real(json, "length_m", member->length);
    bwi_json_text(json, "verdict", bw_verdict_text(bwi_member_verdict(member)));
    bwi_json_real(json, "utilisation", member->worst);
    bwi_json_begin(json, "findings", '[');
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        if (member->has[kind]) {
            write_finding(json, NULL, &member->findings[kind]);
        }
    }
    bwi_json_end(json, ']');
    bwi_json_end(json, '}');
}

static const char *property_name(int property)
{
    static const char *const names[BW_PROPERTY_COUNT] = {
        [BW_BENDING_STRENGTH] = "bending",
        [BW_SHEAR_STRENGTH] = "shear",
        [BW_COMPRESSION] = "compression",
        [BW_BEARING] = "bearing",
        [BW_MODULUS] = "modulus_of_elasticity",
        [BW_MODULUS_MIN] = "modulus_for_stability",
    };
    return names[property];
}

static void write_reference(bwi_json *json, const bw_reference *reference)
{
    bwi_json_begin(json, "reference", '[');
    for (int p = 0; reference != NULL && p < BW_PROPERTY_COUNT; p++) {
        bwi_json_begin(json, NULL, '{');
        bwi_json_text(json, "property", property_name(p));
        bwi_json_real(json, "value", reference->value[p]);
        bwi_json_text(json, "unit", bwi_si_unit(BW_STRESS));
        bwi_json_working(json, "ladder", &reference->ladder[p]);
        bwi_json_end(json, '}');
    }
    bwi_json_end(json, ']');
}

static void write_log(bwi_json *json, const bw_log *log, const bw_reference *reference)
{
    bwi_json_begin(json, NULL, '{');
    bwi_json_text(json, "name", log->name);
    bwi_json_text(json, "species", log->species == NULL ? NULL : log->species->id);
    bwi_json_text(json, "pointer", log->case_path);
    bwi_json_real(json, "butt_diameter_m", log->butt_diameter);
    bwi_json_real(json, "tip_diameter_m", log->tip_diameter);
    bwi_json_known(json, "length_m", log->length, log->length > 0.0);
    write_reference(json, reference);
    bwi_json_end(json, '}');
}

static void write_boards(bwi_json *json, const bw_assessment *assessment)
{
    const bw_case *deck = assessment->deck;
    const bw_decking *boards = &deck->decking;
    if (assessment->board_reference == NULL) {
        return;
    }
    const double length = bw_deck_length(deck);
    bwi_json_begin(json, "boards", '{');
    bwi_json_text(json, "kind", bw_boards_name(boards->kind));
    bwi_json_text(json, "species", boards->log.species->id);
    bwi_json_text(json, "pointer", boards->case_path);
    bwi_json_real(json, "width_m", boards->width);
    bwi_json_real(json, "thickness_m", deck->boards.board_thickness);
    bwi_json_real(json, "gap_m", boards->gap);
    bwi_json_real(json, "wheel_share_of_neighbours", boards->share);
    bwi_json_real(json, "count", bw_decking_count(boards, length));
    bwi_json_real(json, "span_over_deflection", deck->limits.boards);
    write_reference(json, assessment->board_reference);
    bwi_json_end(json, '}');
}

static void write_loads(bwi_json *json, const bw_assessment *assessment)
{
    const bw_case *deck = assessment->deck;
    bwi_json_begin(json, "loads", '{');
    bwi_json_real(json, "rider_mass_kg", deck->loads.mass);
    const bw_blow blow = bw_rider_blow(&deck->loads, NULL);
    const bw_machine *m = &deck->loads.machine;
    bwi_json_real(json, "rider_factor", blow.factor);
    bwi_json_real(json, "rider_push", blow.push);
    bwi_json_known(json, "bike_mass_kg", deck->loads.bike_mass,
                   deck->loads.bike_mass > 0.0);
    bwi_json_known(json, "rider_load_duration", deck->loads.load_duration,
                   deck->loads.load_duration > 0.0);
    bwi_json_real(json, "crowd_Pa", deck->loads.crowd);
    bwi_json_real(json, "snow_Pa", deck->loads.snow);
    bwi_json_text(json, "machine", m->mass > 0.0 ? m->name : NULL);
    bwi_json_real(json, "machine_mass_kg", m->mass);
    bwi_json_text(json, "wood", deck->loads.soaked ? "soaked" : "green");
    bwi_json_real(json, "boards_Pa", deck->boards.board_pressure);
    bwi_json_real(json, "extra_dead_Pa", deck->loads.extra_dead);
    bwi_json_real(json, "dead_weight_N", assessment->dead_weight);
    bwi_json_end(json, '}');
    bwi_json_begin(json, "limits", '{');
    bwi_json_real(json, "span_over_deflection_live", deck->limits.live);
    bwi_json_real(json, "span_over_deflection_long_term", deck->limits.long_term);
    bwi_json_real(json, "seat_depth_m", deck->limits.seat_depth);
    bwi_json_end(json, '}');
}

static void write_assumptions(bwi_json *json, const bw_assessment *assessment)
{
    bwi_json_begin(json, "assumptions", '[');
    for (size_t i = 0; i < assessment->n_assumptions; i++) {
        const bw_assumption *a = &assessment->assumptions[i];
        bwi_json_begin(json, NULL, '{');
        bwi_json_text(json, "text", a->text);
        bwi_json_text(json, "mark", mark_or_null(a->mark));
        bwi_json_text(json, "source", a->source);
        bwi_json_end(json, '}');
    }
    bwi_json_end(json, ']');
}

/* Every row and bent that buckles below ten times its loads, and how it would go. */
static void write_buckled(bwi_json *json, const bw_assessment *a, bw_text *out)
{
    bwi_json_begin(json, "buckled", '[');
    for (int along = 1; along >= 0; along--) {
        const bw_buckled *all = along ? a->buckled_rows : a->buckled_bents;
        const size_t n = along ? a->deck->n_rows : a->deck->n_bents;
        for (size_t k = 0; all != NULL && k < n; k++) {
            if (!all[k].has) {
                continue;
            }
            bwi_json_begin(json, NULL, '{');
            bwi_json_text(json, along ? "row" : "bent",
                          along ? a->deck->rows[k].name : a->deck->bents[k].name);
            bwi_json_real(json, "factor", all[k].factor);
            bwi_json_text(json, "combination", all[k].combination);
            bwi_json_text(json, "shape", bwi_buckled_words(a, k, along != 0, out));
            bwi_json_end(json, '}');
        }
    }
    bwi_json_end(json, ']');
}

static void write_head(bwi_json *json, const bw_case *deck)
{
    bwi_json_whole(json, "format", FORMAT);
    bwi_json_text(json, "program", "bolewright");
    bwi_json_text(json, "version", bw_version);
    bwi_json_text(json, "tables", deck->species == NULL ? NULL : deck->species->version);
    bwi_json_text(json, "title", deck->title);
    bwi_json_text(json, "place", deck->place);
    bwi_json_text(json, "builder", deck->builder);
    bwi_json_text(json, "landowner", deck->landowner);
    bwi_json_text(json, "units", deck->units == BW_IMPERIAL ? "imperial" : "metric");
    bwi_json_text(json, "basis", deck->basis->id);
}

static void write_governing(bwi_json *json, const bw_assessment *assessment)
{
    bwi_json_text(json, "verdict", bw_verdict_text(bw_report_verdict(assessment)));
    if (assessment->governing == NULL) {
        bwi_json_text(json, "governing", NULL);
    } else {
        write_finding(json, "governing", assessment->governing);
    }
    bwi_json_assumptions(json, "to_do", assessment, true);
}

static void write_bodies(bwi_json *json, const bw_assessment *assessment)
{
    const bw_case *deck = assessment->deck;
    bwi_json_begin(json, "members", '[');
    for (size_t i = 0; i < assessment->n_members; i++) {
        write_member(json, &assessment->members[i]);
    }
    bwi_json_end(json, ']');
    bwi_json_begin(json, "logs", '[');
    for (size_t i = 0; i < deck->n_logs; i++) {
        const bw_reference *all = assessment->references;
        write_log(json, &deck->logs[i], all == NULL ? NULL : &all[i]);
    }
    bwi_json_end(json, ']');
}

void bw_report_json(const bw_assessment *assessment, bw_text *out)
{
    bwi_json json = bwi_json_new(out);
    bwi_json_begin(&json, NULL, '{');
    write_head(&json, assessment->deck);
    write_governing(&json, assessment);
    write_bodies(&json, assessment);
    write_boards(&json, assessment);
    write_loads(&json, assessment);
    bwi_json_load_lines(&json, assessment);
    write_assumptions(&json, assessment);
    bwi_json_heads(&json, assessment);
    write_buckled(&json, assessment, out);
    bwi_json_flags(&json, assessment);
    bwi_json_texts(&json, "not_checked", assessment->not_checked);
    bwi_json_texts(&json, "cautions", assessment->cautions);
    bwi_json_begin(&json, "numerical_health", '{');
    bwi_json_real(&json, "worst_residual", assessment->worst_residual);
    bwi_json_real(&json, "worst_rcond", assessment->worst_rcond);
    bwi_json_end(&json, '}');
    bwi_json_end(&json, '}');
}
