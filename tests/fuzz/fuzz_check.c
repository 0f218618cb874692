/* A case: read, assessed, reported in every form. */
#include "target.h"

#include "bolewright/report.h"
#include "bolewright/sizing.h"

static void check_reports(bw_arena *arena, const bw_assessment *assessment,
                          const bw_drawing *drawing)
{
    bw_text text = bw_text_new(arena), json = bw_text_new(arena);
    bw_text page = bw_text_new(arena), table = bw_text_new(arena);
    const bw_record record = {.assessment = assessment,
                              .drawing = drawing,
                              .case_name = "case.json",
                              .case_hash = "00"};
    bw_report_text(assessment, &text);
    bw_report_json(assessment, &json);
    bw_report_html(&record, &page);
    bw_report_csv(assessment, &table);
    fuzz_check_report(&text);
    fuzz_check_report(&json);
    fuzz_check_report(&page);
    fuzz_check_report(&table);
}

/* Within limits means that every finding is, and that there are some. */
static void check_verdict(const bw_assessment *assessment)
{
    size_t found = 0;
    if (bw_report_verdict(assessment) != BW_WITHIN) {
        return;
    }
    for (size_t k = 0; k < assessment->n_members; k++) {
        const bw_member_result *member = &assessment->members[k];
        for (int c = 0; c < BW_CHECK_KIND_COUNT; c++) {
            INSIST(!member->has[c] ||
                   bw_verdict_of(member->findings[c].ratio.utilisation) == BW_WITHIN);
            found += member->has[c] ? 1 : 0;
        }
    }
    INSIST(found > 0);
}

static void assess(bw_arena *arena, const bw_case *deck)
{
    bw_diags d = bw_diags_new(arena, "case.json");
    bw_assessment assessment;
    bw_drawing drawing;
    bw_status status = bw_deck_assess(arena, deck, &assessment, &d);
    if (status == BW_OK) {
        status = bw_people_count(arena, &assessment, &d);
    }
    fuzz_check_result(status, &d);
    if (status == BW_OK) {
        INSIST(bw_deck_drawing(arena, &assessment, &drawing) == BW_OK);
        check_verdict(&assessment);
        check_reports(arena, &assessment, &drawing);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_arena *arena = fuzz_arena();
    bw_diags d = bw_diags_new(arena, "case.json");
    const char *text = fuzz_text(arena, data, size);
    bw_case deck;
    const bw_status status = bw_input_case(arena, text, fuzz_species(), &deck, &d);
    fuzz_check_reading(text, status, &d);
    if (status == BW_OK) {
        assess(arena, &deck);
    }
    bw_arena_free(arena);
    return 0;
}
