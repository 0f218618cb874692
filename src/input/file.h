/* file.h - private to the input layer. */
#ifndef BWI_FILE_H
#define BWI_FILE_H

#include "bolewright/input.h"

typedef struct {
    const char **items;
    size_t count;
} bwi_paths;

/* Paths of the *.json files in the folder, sorted. BW_E_IO with a diagnostic: no folder,
 * not readable, no such files. */
bw_status bwi_folder_list(bw_arena *arena, const char *folder, bwi_paths *out,
                          bw_diags *d);

#endif
