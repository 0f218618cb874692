/* tables.h - files compiled into the program, written by embed.cmake: the species tables,
 * and examples. */
#ifndef BWI_TABLES_H
#define BWI_TABLES_H

#include <stddef.h>

typedef struct {
    const char *name;          /* "north_america.json" */
    const unsigned char *text; /* terminated */
} bwi_table;

extern const bwi_table bwi_tables[]; /* by name; the last one has no name */
/* Files that hold every key and every kind of value, from which schemas are made: the
 * readers read them. By name, which begins with the kind of the file. */
extern const bwi_table bwi_examples[];

#endif
