/* tree_json.c - a standing tree as data for other programs, SI. */
#include "internal.h"

enum { FORMAT = 1 };

static void write_diameter(bwi_json *json, const char *key, const bw_spread *diameter)
{
    bwi_json_begin(json, key, '{');
    bwi_json_real(json, "count_on_m", diameter->cautious);
    bwi_json_real(json, "estimate_m", diameter->estimate);
    bwi_json_end(json, '}');
}

static void write_tree(bwi_json *json, const bw_tree_report *report)
{
    const bw_tree *tree = report->tree;
    bwi_json_begin(json, "tree", '{');
    bwi_json_text(json, "species", tree->species->id);
    bwi_json_real(json, "breast_diameter_over_bark_m", tree->breast_diameter);
    bwi_json_real(json, "height_m", report->log->height);
    bwi_json_text(json, "height_from",
                  !report->log->height_assumed   ? "given"
                  : tree->grown == BW_OPEN_GROWN ? "assumed, open-grown"
                                                 : "assumed, forest-grown");
    bwi_json_real(json, "stump_m", tree->stump);
    bwi_json_end(json, '}');
}

static void write_spread(bwi_json *json, const bw_working *parts)
{
    bwi_json_begin(json, "spread_parts", '[');
    for (size_t i = 0; i < parts->count; i++) {
        const bw_term *part = &parts->items[i];
        bwi_json_begin(json, NULL, '{');
        bwi_json_text(json, "what", part->meaning);
        bwi_json_real(json, "share", part->value);
        bwi_json_text(json, "mark", bw_mark_text(part->mark));
        bwi_json_text(json, "source", part->source);
        bwi_json_end(json, '}');
    }
    bwi_json_end(json, ']');
}

static void write_log(bwi_json *json, const bw_tree_report *report)
{
    const bw_tree_log *log = report->log;
    bwi_json_begin(json, "log", '{');
    bwi_json_text(json, "method", log->by_rule ? "field rule" : "taper equations");
    bwi_json_text(json, "source",
                  log->by_rule ? "rule of the trade, below every stem known here"
                               : report->tree->species->taper.source);
    bwi_json_real(json, "from_above_stump_m", log->from);
    bwi_json_real(json, "length_m", log->length);
    write_diameter(json, "butt_under_bark", &log->butt);
    write_diameter(json, "middle_under_bark", &log->mid);
    write_diameter(json, "tip_under_bark", &log->tip);
    bwi_json_real(json, "bark_thickness_m", log->bark_thickness);
    bwi_json_real(json, "spread", log->spread);
    write_spread(json, &log->parts);
    bwi_json_real(json, "wood_m3", log->volume);
    bwi_json_real(json, "mass_with_bark_kg", log->mass_with_bark);
    bwi_json_real(json, "mass_peeled_kg", log->mass_peeled);
    bwi_json_real(json, "mass_most_kg", log->mass_most);
    bwi_json_end(json, '}');
}

/* What may be counted on, as an entry of the logs of a case wants it. */
static void write_case_log(bwi_json *json, const bw_tree_report *report, bw_text *out)
{
    const bw_tree_log *log = report->log;
    bw_arena *arena = out->arena;
    const bw_units units = report->units;
    const struct {
        const char *key, *value;
    } entry[] = {
        {"species", report->tree->species->common},
        {"butt_diameter", bw_length_print_small(arena, log->butt.cautious, units)},
        {"tip_diameter", bw_length_print_small(arena, log->tip.cautious, units)},
        {"bark", "off"},
        {"length", bw_quantity_print(arena, BW_LENGTH, log->length, units)},
    };
    bwi_json_begin(json, "log_of_a_case", '{');
    for (size_t k = 0; k < sizeof entry / sizeof entry[0]; k++) {
        bwi_json_text(json, entry[k].key, bwi_or_fail(out, entry[k].value));
    }
    bwi_json_end(json, '}');
}

static void write_spans(bwi_json *json, const bw_tree_report *report)
{
    bwi_json_begin(json, "spans", '[');
    for (size_t i = 0; i < report->n_spans; i++) {
        const bw_tree_span *span = &report->spans[i];
        bwi_json_begin(json, NULL, '{');
        bwi_json_text(json, "load", span->load);
        bwi_json_text(json, "as_one_of", report->under);
        bwi_json_known(json, "count_on_m", span->cautious, span->cautious > 0.0);
        bwi_json_known(json, "if_as_estimated_m", span->estimate, span->estimate > 0.0);
        bwi_json_known(json, "of_a_longer_log_m", span->longer, span->longer > 0.0);
        bwi_json_known(json, "longer_log_m", span->longer_cut, span->longer > 0.0);
        bwi_json_text(json, "verdict", bw_verdict_text(span->verdict));
        bwi_json_text(json, "limit",
                      span->whole_log ? "the length of the log" : span->governing);
        bwi_json_end(json, '}');
    }
    bwi_json_end(json, ']');
}

static void write_durability(bwi_json *json, const bw_species *species)
{
    const bw_durability years = bw_durability_of(species);
    bwi_json_begin(json, "durability", '{');
    bwi_json_text(json, "heartwood", species->durability);
    bwi_json_whole(json, "years_low", years.years_low);
    bwi_json_whole(json, "years_high", years.years_high);
    bwi_json_whole(json, "sapwood_years_low", bw_durability_sapwood.years_low);
    bwi_json_whole(json, "sapwood_years_high", bw_durability_sapwood.years_high);
    bwi_json_text(json, "mark", bw_mark_text(years.mark));
    bwi_json_text(json, "source", years.source);
    bwi_json_end(json, '}');
}

void bw_report_tree_json(const bw_tree_report *report, bw_text *out)
{
    bwi_json json = bwi_json_new(out);
    bwi_json_begin(&json, NULL, '{');
    bwi_json_whole(&json, "format", FORMAT);
    bwi_json_text(&json, "program", "bolewright");
    bwi_json_text(&json, "version", bw_version);
    bwi_json_text(&json, "tables", report->tables);
    write_tree(&json, report);
    write_log(&json, report);
    write_case_log(&json, report, out);
    write_spans(&json, report);
    write_durability(&json, report->tree->species);
    bwi_json_end(&json, '}');
    bw_text_add(out, "\n");
}
