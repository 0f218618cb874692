/* case_run.c - from the options to an assessed case. See case_run.h. */
#include "case_run.h"
#include "output.h"

#include "bolewright/sizing.h"

bwi_case_run bwi_case_run_start(bw_arena *arena, const bwi_options *options)
{
    return (bwi_case_run){
        .arena = arena,
        .options = options,
        .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
        .deck = bw_diags_new(arena, bwi_output_name(options->operand)),
        .output = bw_diags_new(arena, NULL),
    };
}

bw_status bwi_case_run_read(bwi_case_run *run, const char **text)
{
    const char *own = NULL;
    const char **into = text != NULL ? text : &own;
    BW_TRY(bw_input_species(run->arena, run->options->value[BWI_OPT_TABLES],
                            &run->species, &run->tables));
    BW_TRY(bw_input_read_file(run->arena, run->options->operand, into, &run->deck));
    return bw_input_case(run->arena, *into, &run->species, &run->the_case, &run->deck);
}

bw_status bwi_case_run_assess(bwi_case_run *run, bw_assessment *out, const char **text)
{
    BW_TRY(bwi_case_run_read(run, text));
    BW_TRY(bw_deck_assess(run->arena, &run->the_case, out, &run->deck));
    BW_TRY(bw_people_count(run->arena, out, &run->deck));
    return bwi_case_run_sound(run);
}

bw_status bwi_case_run_sound(const bwi_case_run *run)
{
    return run->deck.errors + run->tables.errors > 0 ? BW_E_INPUT : BW_OK;
}

int bwi_case_run_end(const bwi_case_run *run, bw_status status, bool within)
{
    const bw_diags *const all[] = {&run->tables, &run->deck, &run->output, NULL};
    return bwi_output_answer(status, all, within);
}
