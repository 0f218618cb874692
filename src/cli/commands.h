/* commands.h - one function per command: does all of it and returns the exit status. */
#ifndef BW_CLI_COMMANDS_H
#define BW_CLI_COMMANDS_H

#include "options.h"

#include "bolewright/page.h"
#include "bolewright/wood.h"

int bwi_check_run(bw_arena *arena, const bwi_options *options);
int bwi_report_run(bw_arena *arena, const bwi_options *options);
int bwi_frame_run(bw_arena *arena, const bwi_options *options);
int bwi_species_run(bw_arena *arena, const bwi_options *options);
int bwi_inspect_run(bw_arena *arena, const bwi_options *options);
int bwi_tree_run(bw_arena *arena, const bwi_options *options);
int bwi_span_run(bw_arena *arena, const bwi_options *options);
int bwi_log_run(bw_arena *arena, const bwi_options *options);
int bwi_spacing_run(bw_arena *arena, const bwi_options *options);
int bwi_card_run(bw_arena *arena, const bwi_options *options);
int bwi_page_run(bw_arena *arena, const bwi_options *options);

/* What the page may ask besides the case: commands that need no file, with the words of
 * the command line. tables: folder of further species tables, or null. */
const bw_page_question *bwi_page_questions(bw_arena *arena, const char *tables,
                                           size_t *count);

int bwi_match_run(bw_arena *arena, const bwi_options *options);
int bwi_new_run(bw_arena *arena, const bwi_options *options);
int bwi_schema_run(bw_arena *arena, const bwi_options *options);
int bwi_completion_run(bw_arena *arena, const bwi_options *options);
int bwi_man_run(bw_arena *arena, const bwi_options *options);

/* The species of that name; else BW_E_USAGE with the nearest names as the hint. */
bw_status bwi_species_named(const bw_species_table *table, const char *name,
                            const bw_species **out, bw_diags *d);

#endif
