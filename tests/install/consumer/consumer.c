/* consumer.c - what somebody else would write: a case file in, the report and the verdict
 * out. The test compares both with those of the program. */
#include <bolewright/bolewright.h>

#include <stdio.h>

enum { OVER_OR_UNKNOWN = 1 };

static bw_status check(bw_arena *arena, const char *path, bw_text *out, bw_diags *d,
                       bw_verdict *verdict)
{
    const char *text = NULL;
    bw_species_table species;
    bw_case deck;
    bw_assessment assessment;
    BW_TRY(bw_input_species(arena, NULL, &species, d));
    BW_TRY(bw_input_read_file(arena, path, &text, d));
    BW_TRY(bw_input_case(arena, text, &species, &deck, d));
    BW_TRY(bw_deck_assess(arena, &deck, &assessment, d));
    BW_TRY(bw_people_count(arena, &assessment, d));
    bw_report_text(&assessment, out);
    *verdict = bw_report_verdict(&assessment);
    return BW_OK;
}

int main(int argc, char **argv)
{
    bw_arena *arena = bw_arena_new();
    if (arena == NULL || argc != 2) {
        return bw_status_exit(BW_E_USAGE);
    }
    bw_diags d = bw_diags_new(arena, argv[1]);
    bw_text report = bw_text_new(arena), faults = bw_text_new(arena);
    bw_verdict verdict = BW_CANNOT_SAY;
    const bw_status status = check(arena, argv[1], &report, &d, &verdict);
    bw_diags_print(&d, &faults);
    if (bw_text_string(&report) != NULL && bw_text_string(&faults) != NULL) {
        (void)fputs(bw_text_string(&report), stdout);
        (void)fputs(bw_text_string(&faults), stderr);
    }
    bw_arena_free(arena);
    if (status != BW_OK) {
        return bw_status_exit(status);
    }
    return verdict == BW_WITHIN ? 0 : OVER_OR_UNKNOWN;
}
