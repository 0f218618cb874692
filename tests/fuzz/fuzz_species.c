/* A table of species: read, and every entry of it explained. */
#include "target.h"

#include "bolewright/report.h"

static void explain(bw_arena *arena, const bw_species_table *table)
{
    bw_text list = bw_text_new(arena), json = bw_text_new(arena);
    bw_report_species_list(table, &list);
    bw_report_species_json(table, &json);
    fuzz_check_report(&list);
    fuzz_check_report(&json);
    for (size_t i = 0; i < table->count; i++) {
        bw_text text = bw_text_new(arena);
        bw_report_species(arena, &table->items[i], BW_IMPERIAL, &text);
        fuzz_check_report(&text);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_arena *arena = fuzz_arena();
    bw_diags d = bw_diags_new(arena, "species.json");
    const char *text = fuzz_text(arena, data, size);
    bw_species_table table = {NULL, 0, NULL};
    const bw_status status = bw_input_species_text(arena, text, &table, &d);
    fuzz_check_reading(text, status, &d);
    INSIST(status == BW_OK || table.count == 0); /* nothing of a faulty table is used */
    if (status == BW_OK) {
        explain(arena, &table);
    }
    bw_arena_free(arena);
    return 0;
}
