/* csv.h - comma-separated values (RFC 4180) as lines of cells that know where they stand.
 */
#ifndef BWI_CSV_H
#define BWI_CSV_H

#include "json.h"

typedef struct {
    const char *text; /* without quotes, blanks around it taken off */
    size_t offset;    /* of its first byte in the file */
    bool faulty;      /* reported: readers keep silent */
} bwi_cell;

typedef struct {
    const bwi_cell *cells;
    size_t n_cells, offset;
} bwi_csv_line;

typedef struct {
    const bwi_csv_line *lines; /* empty ones left out */
    size_t n_lines;
} bwi_csv;

/* Reads doc->text and reports what is no RFC 4180 text in UTF-8 (a byte order mark, bare
 * line feeds and quotes inside a cell without quotes, as in 7'6", are taken). What could
 * be read is in *out all the same. */
void bwi_csv_read(bwi_json *doc, bwi_csv *out);

#endif
