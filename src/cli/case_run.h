/* case_run.h - what commands that begin with a case file have in common. */
#ifndef BW_CLI_CASE_RUN_H
#define BW_CLI_CASE_RUN_H

#include "options.h"

#include "bolewright/input.h"

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, deck, output; /* of three different files */
    bw_species_table species;
    bw_case the_case;
} bwi_case_run;

bwi_case_run bwi_case_run_start(bw_arena *arena, const bwi_options *options);
/* Reads the tables and the case that the options name; text: of the case, or null. */
bw_status bwi_case_run_read(bwi_case_run *run, const char **text);
/* Reads and assesses, people counted. BW_E_INPUT if any fault was recorded on the way. */
bw_status bwi_case_run_assess(bwi_case_run *run, bw_assessment *out, const char **text);
/* BW_E_INPUT if a fault is recorded: nothing recorded as an error may end in a verdict,
 * whatever the layer below returned. */
bw_status bwi_case_run_sound(const bwi_case_run *run);
/* Faults to standard error; the exit status. */
int bwi_case_run_end(const bwi_case_run *run, bw_status status, bool within);

#endif
