/* tables.h - the species tables compiled into the program, written by embed.cmake. */
#ifndef BWI_TABLES_H
#define BWI_TABLES_H

#include <stddef.h>

typedef struct {
    const char *name;          /* "north_america.json" */
    const unsigned char *text; /* terminated */
} bwi_table;

extern const bwi_table bwi_tables[]; /* by name; the last one has no name */

#endif
