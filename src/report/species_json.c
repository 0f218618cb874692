/* species_json.c - species as data for other programs: SI, every number with its origin,
 * marks counted. */
#include "internal.h"

#include <string.h>

enum { FORMAT = 1, MARKS = BW_MARK_JUDGEMENT + 1 };

typedef struct {
    bwi_json *json;
    size_t *counts;      /* by mark */
    const char *species; /* id */
    bool memory_only;    /* writes the names of what was recalled, nothing else */
} writer;

static void write_number(void *context, const char *label, bw_quantity quantity,
                         const bw_sourced *number)
{
    const writer *to = context;
    if (to->memory_only) {
        if (number->mark == BW_MARK_MEMORY) {
            const char *name =
                bw_arena_print(to->json->out->arena, "%s: %s", to->species, label);
            bwi_json_text(to->json, NULL, bwi_or_fail(to->json->out, name));
        }
        return;
    }
    to->counts[number->mark]++;
    bwi_json_begin(to->json, NULL, '{');
    bwi_json_text(to->json, "what", label);
    bwi_json_real(to->json, "value", number->value);
    bwi_json_text(to->json, "unit", bwi_si_unit(quantity));
    bwi_json_text(to->json, "mark", bw_mark_text(number->mark));
    bwi_json_text(to->json, "source", number->source);
    bwi_json_end(to->json, '}');
}

static void write_durability(bwi_json *json, const bw_species *species, size_t *counts)
{
    const bw_durability years = bw_durability_of(species);
    bwi_json_begin(json, "durability", '{');
    bwi_json_text(json, "heartwood", species->durability);
    if (species->durability != NULL) {
        counts[species->durability_mark]++;
        bwi_json_text(json, "mark", bw_mark_text(species->durability_mark));
        bwi_json_text(json, "source", species->durability_source);
    }
    bwi_json_whole(json, "years_in_the_ground_low", years.years_low);
    bwi_json_whole(json, "years_in_the_ground_high", years.years_high);
    bwi_json_text(json, "years_mark", bw_mark_text(years.mark));
    bwi_json_text(json, "years_source", years.source);
    bwi_json_end(json, '}');
}

static void write_species(bwi_json *json, const bw_species *species, size_t *counts)
{
    writer to = {.json = json, .counts = counts, .species = species->id};
    bwi_json_begin(json, NULL, '{');
    bwi_json_text(json, "id", species->id);
    bwi_json_text(json, "common", species->common);
    bwi_json_text(json, "scientific", species->scientific);
    bwi_json_text(json, "region", species->region);
    bwi_json_text(json, "group", species->group == BW_HARDWOOD ? "hardwood" : "softwood");
    bwi_json_begin(json, "numbers", '[');
    bw_report_species_numbers(species, write_number, &to);
    bwi_json_end(json, ']');
    write_durability(json, species, counts);
    bwi_json_text(json, "note", species->note);
    bwi_json_end(json, '}');
}

static void write_marks(bwi_json *json, const size_t *counts)
{
    bwi_json_begin(json, "marks", '{');
    for (int mark = BW_MARK_READ; mark < MARKS; mark++) {
        bwi_json_whole(json, bw_mark_text((bw_mark)mark), (int)counts[mark]);
    }
    bwi_json_whole(json, "without_mark", (int)counts[BW_MARK_NONE]);
    bwi_json_end(json, '}');
}

static void write_memory(bwi_json *json, const bw_species_table *table)
{
    bwi_json_begin(json, "from_memory", '[');
    for (size_t i = 0; i < table->count; i++) {
        writer to = {.json = json, .species = table->items[i].id, .memory_only = true};
        bw_report_species_numbers(&table->items[i], write_number, &to);
        const bw_sourced words = {1.0, table->items[i].durability_mark, NULL};
        if (table->items[i].durability != NULL) {
            write_number(&to, "durability", BW_NUMBER, &words);
        }
    }
    bwi_json_end(json, ']');
}

void bw_report_species_json(const bw_species_table *table, bw_text *out)
{
    size_t counts[MARKS] = {0};
    bwi_json json = bwi_json_new(out);
    bwi_json_begin(&json, NULL, '{');
    bwi_json_whole(&json, "format", FORMAT);
    bwi_json_text(&json, "program", "bolewright");
    bwi_json_text(&json, "version", bw_version);
    bwi_json_text(&json, "tables", table->version);
    bwi_json_begin(&json, "species", '[');
    for (size_t i = 0; i < table->count; i++) {
        write_species(&json, &table->items[i], counts);
    }
    bwi_json_end(&json, ']');
    write_marks(&json, counts);
    write_memory(&json, table);
    bwi_json_end(&json, '}');
    bw_text_add(out, "\n");
}
