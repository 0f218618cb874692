/* duty.h - options that the questions about sizes share: what stands on a stringer, its
 * wood, and the log at hand. */
#ifndef BW_CLI_DUTY_H
#define BW_CLI_DUTY_H

#include "options.h"

#include "bolewright/sizing.h"

/* Faults are told; *use is that of --use, or otherwise. */
void bwi_duty_read(const bwi_options *options, bw_use otherwise, bw_use *use,
                   bw_duty *out, bw_diags *d);
/* Changes to the loads of a use that are given; loads that the use has not are left. */
void bwi_duty_loads_read(const bwi_options *options, bw_duty *duty, bw_diags *d);
/* --grade: nobody looked, or somebody did and found nothing. */
bw_eye_grade bwi_grade_read(const bwi_options *options, bw_diags *d);
/* Faults if --species is missing. */
void bwi_need_species(const bwi_options *options, bw_diags *d);
/* Species table (its faults into tables) and the species that is named. */
bw_status bwi_wood_read(bw_arena *arena, const bwi_options *options,
                        bw_species_table *table, const bw_species **species,
                        bw_diags *tables, bw_diags *d);
/* The log as measured, under bark: --tip and --butt, or --diameter, and --cut; its
 * species is left to the caller. */
bw_log bwi_log_read(const bwi_options *options, bw_diags *d);

#endif
