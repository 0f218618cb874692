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

static bw_status explain(bw_arena *arena, const bwi_options *options, bw_text *text,
                         bw_diags *tables, bw_diags *output)
{
    bw_species_table table = {0};
    BW_TRY(bw_input_species(arena, options->value[BWI_OPT_SPECIES], &table, tables));
    if (options->operand == NULL) {
        bw_report_species_list(&table, text);
        return BW_OK;
    }
    const char *near[NEAR] = {0};
    const bw_species *species = bw_species_find(&table, options->operand, near, NEAR);
    if (species == NULL) {
        return unknown_species(options->operand, near, output);
    }
    const char *units = options->value[BWI_OPT_UNITS];
    const bool metric = units != NULL && strcmp(units, "metric") == 0;
    bw_report_species(arena, species, metric ? BW_METRIC : BW_IMPERIAL, text);
    return BW_OK;
}

int bwi_species_run(bw_arena *arena, const bwi_options *options)
{
    bw_diags tables = bw_diags_new(arena, options->value[BWI_OPT_SPECIES]);
    bw_diags output = bw_diags_new(arena, NULL);
    bw_text text = bw_text_new(arena);
    bw_status status = explain(arena, options, &text, &tables, &output);
    if (status == BW_OK) {
        status = bwi_output_print(&text, &output);
    }
    const bw_diags *const all[] = {&tables, &output, NULL};
    return bwi_output_finish(status, all);
}
