/* species.c - the command species: what the tables know. */
#include "commands.h"
#include "output.h"

#include "bolewright/input.h"
#include "bolewright/report.h"

#include <string.h>

enum { NEAR = 3 };

static bw_status unknown_species(const char *name, const char *const *near, bw_diags *d)
{
    bw_text hint = bw_text_new(d->arena);
    for (size_t i = 0; i < NEAR && near[i] != NULL; i++) {
        bw_text_print(&hint, "%s%s", i == 0 ? "the nearest: " : ", ", near[i]);
    }
    if (hint.length == 0) {
        bw_text_add(&hint, "\"bolewright species\" lists them");
    }
    bw_diags_error(d, "usage.species", NULL, bw_text_string(&hint),
                   "no species is called %s", name);
    return BW_E_USAGE;
}

bw_status bwi_species_named(const bw_species_table *table, const char *name,
                            const bw_species **out, bw_diags *d)
{
    const char *near[NEAR] = {0};
    *out = bw_species_find(table, name, near, NEAR);
    return *out != NULL ? BW_OK : unknown_species(name, near, d);
}

/* ---- filtering ---- */

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, output;
    bw_species_table all, chosen;
    const bw_species *explained; /* null: a list */
    bw_text text, json;
} species_run;

static char lower(char byte)
{
    return byte >= 'A' && byte <= 'Z' ? (char)(byte - 'A' + 'a') : byte;
}

/* The word stands in the text, letter case aside. */
static bool has_word(const char *text, const char *word)
{
    for (; *text != '\0'; text++) {
        size_t k = 0;
        while (word[k] != '\0' && lower(text[k]) == lower(word[k])) {
            k++;
        }
        if (word[k] == '\0') {
            return true;
        }
    }
    return false;
}

static bool is_called(const bw_species *species, const char *word)
{
    bool called = has_word(species->id, word) || has_word(species->common, word) ||
                  has_word(species->scientific, word) || has_word(species->region, word);
    for (size_t i = 0; i < species->n_also; i++) {
        called = called || has_word(species->also[i], word);
    }
    return called;
}

static bool resists(const bw_species *species)
{
    return bw_durability_of(species).heartwood == BW_DURABILITY_RESISTANT;
}

/* Keeps what the word and --durable let pass. */
static bw_status choose(species_run *run, const char *word)
{
    bw_species *kept = BW_NEW(run->arena, bw_species, run->all.count);
    const bool durable = run->options->value[BWI_OPT_DURABLE] != NULL;
    if (kept == NULL) {
        return BW_E_MEMORY;
    }
    run->chosen = (bw_species_table){kept, 0, run->all.version};
    for (size_t i = 0; i < run->all.count; i++) {
        const bw_species *species = &run->all.items[i];
        if ((word == NULL || is_called(species, word)) &&
            (!durable || resists(species))) {
            kept[run->chosen.count++] = *species;
        }
    }
    return BW_OK;
}

/* A name that means one species explains it; a part of names lists those that have it. */
static bw_status find(species_run *run)
{
    const char *name = run->options->operand;
    const char *near[NEAR] = {0};
    const bool listing = name == NULL || run->options->value[BWI_OPT_DURABLE] != NULL;
    const bw_species *one = NULL;
    if (name != NULL) {
        one = bw_species_find(&run->all, name, near, NEAR);
    }
    if (one != NULL && !listing) {
        run->explained = one;
        run->chosen = (bw_species_table){one, 1, run->all.version};
        return BW_OK;
    }
    BW_TRY(choose(run, name));
    if (name != NULL && one == NULL && run->chosen.count == 0) {
        bool known = false; /* the word fits, but nothing durable is called so */
        for (size_t i = 0; i < run->all.count; i++) {
            known = known || is_called(&run->all.items[i], name);
        }
        return known ? BW_OK : unknown_species(name, near, &run->output);
    }
    return BW_OK;
}

static bw_status write_all(species_run *run)
{
    const char *units = run->options->value[BWI_OPT_UNITS];
    const bool metric = units != NULL && strcmp(units, "metric") == 0;
    if (run->explained != NULL) {
        bw_report_species(run->arena, run->explained, metric ? BW_METRIC : BW_IMPERIAL,
                          &run->text);
    } else {
        bw_report_species_list(&run->chosen, &run->text);
    }
    if (run->options->value[BWI_OPT_JSON] != NULL) {
        bw_report_species_json(&run->chosen, &run->json);
    }
    return bwi_output_report(run->options, &run->text, &run->json, &run->output);
}

static bw_status run_species(species_run *run)
{
    BW_TRY(bwi_output_allowed(run->options, "-", &run->output));
    BW_TRY(bw_input_species(run->arena, run->options->value[BWI_OPT_TABLES], &run->all,
                            &run->tables));
    BW_TRY(find(run));
    return write_all(run);
}

int bwi_species_run(bw_arena *arena, const bwi_options *options)
{
    species_run run = {.arena = arena,
                       .options = options,
                       .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
                       .output = bw_diags_new(arena, NULL),
                       .text = bw_text_new(arena),
                       .json = bw_text_new(arena)};
    const bw_status status = run_species(&run);
    const bw_diags *const all[] = {&run.tables, &run.output, NULL};
    return bwi_output_finish(status, all);
}
