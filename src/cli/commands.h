/* commands.h - one function per command: does all of it and returns the exit status. */
#ifndef BW_CLI_COMMANDS_H
#define BW_CLI_COMMANDS_H

#include "options.h"

int bwi_check_run(bw_arena *arena, const bwi_options *options);
int bwi_frame_run(bw_arena *arena, const bwi_options *options);
int bwi_species_run(bw_arena *arena, const bwi_options *options);

#endif
