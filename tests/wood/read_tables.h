/* read_tables.h - the species tables as these tests see them: read with cJSON alone, so
 * that nothing of the input layer stands between the files and the checks. */
#ifndef BW_TESTS_WOOD_READ_TABLES_H
#define BW_TESTS_WOOD_READ_TABLES_H

#include <cjson/cJSON.h>

#include "bolewright/wood.h"

#define N_TABLE_FILES 3

typedef struct {
    bw_arena *arena;
    cJSON *files[N_TABLE_FILES]; /* north_america, europe, unknown */
    bw_species_table table;      /* all species of all files */
} tables;

/* Group fixtures for cmocka: *state is a tables. */
int read_tables(void **state);
int free_tables(void **state);

const bw_species *species_of_id(const tables *all, const char *id);

#endif
