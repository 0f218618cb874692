/* What was measured on a deck: read, and taken off the logs. */
#include "target.h"

#include "bolewright/report.h"
#include "bolewright/sizing.h"

static void age(bw_arena *arena, const bw_inspections *inspections)
{
    bw_diags d = bw_diags_new(arena, "seasons.json"), of_deck = bw_diags_new(arena, NULL);
    bw_aged_deck aged;
    const bw_status status =
        bw_deck_age(arena, fuzz_deck(), inspections, &aged, &of_deck, &d);
    fuzz_check_result(status, &of_deck);
    if (status == BW_OK) {
        bw_text text = bw_text_new(arena), json = bw_text_new(arena);
        bw_report_age_text(&aged, &text);
        bw_report_age_json(&aged, &json);
        fuzz_check_report(&text);
        fuzz_check_report(&json);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_arena *arena = fuzz_arena();
    bw_diags d = bw_diags_new(arena, "seasons.json");
    const char *text = fuzz_text(arena, data, size);
    bw_inspections found;
    const bw_status status = bw_input_inspections(arena, text, fuzz_deck(), &found, &d);
    fuzz_check_reading(text, status, &d);
    if (status == BW_OK) {
        age(arena, &found);
    }
    bw_arena_free(arena);
    return 0;
}
