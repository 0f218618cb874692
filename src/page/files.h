/* files.h - the files of the page, compiled into the program by embed.cmake. */
#ifndef BWI_PAGE_FILES_H
#define BWI_PAGE_FILES_H

#include <stddef.h>

typedef struct {
    const char *name;          /* "page.html" */
    const unsigned char *text; /* terminated */
} bwi_page_file;

extern const bwi_page_file bwi_page_files[]; /* by name; the last one has no name */

#endif
