/* case.h - the parts of the case reader. Parts are read in the order in which they refer
 * to each other: logs, rows, bents, stringers; then the whole is looked at. What could
 * not be read is marked (names null, indices -1, measures not a number), and checks of it
 * keep silent: it has been reported. */
#ifndef BWI_CASE_H
#define BWI_CASE_H

#include "bolewright/input.h"
#include "fields.h"

/* More than any deck has; kept in bounds because the work grows with their products. */
enum {
    bwi_most_logs = 1000,
    bwi_most_rows = 40,
    bwi_most_bents = 1000,
    bwi_most_stringers = 10000,
    bwi_most_braces = 2000,
    bwi_most_places = 2500, /* rows times bents: some 4 GB and two minutes */
    bwi_most_run = 40       /* bays that one stringer runs over */
};

typedef struct {
    bwi_json *doc;
    bwi_at root;
    bwi_at log_list, row_list, bent_list, every_bent, stringer_list;
    const bw_species_table *species;
    bw_case *out;
    bw_log *logs;
    bwi_names log_names;
    bw_row *rows;
    bwi_names row_names;
    bw_bent *bents;       /* along the deck */
    size_t *bent_item;    /* for each: its index in the file */
    size_t *bent_rank;    /* for each in the file: its index along the deck */
    bwi_names bent_names; /* indices in the file */
    bw_stringer *stringers;
    bwi_names stringer_names;
    bw_brace *braces;
    size_t n_braces;
    bwi_names brace_names; /* entries of the file */
} bwi_case_reader;

extern const double bwi_longest_log; /* [m] */
void bwi_case_logs(bwi_case_reader *r);
/* One log; needs doc, species and out->basis only. */
void bwi_case_log(const bwi_case_reader *r, const bwi_at *at, bw_log *log);
/* A diameter given as such (two across each other: the smaller counts) or as a girth; the
 * value that gave it. */
bwi_at bwi_case_size(const bwi_case_reader *r, const bwi_at *at, const char *girth_key,
                     const char *diameter_key, double *diameter);
/* "species" and "strength_class" of the object. */
void bwi_case_species(const bwi_case_reader *r, const bwi_at *object, bw_log *out);
void bwi_case_class(const bwi_case_reader *r, const bwi_at *object, bw_log *out);
/* Diameters measured on the way; false if there are none. Needs the length. */
bool bwi_case_stations(const bwi_case_reader *r, const bwi_at *log, bw_log *out);
/* Every diameter of the log times the scale, less the rest; false if no log is left. */
bool bwi_case_shrink(const bwi_case_reader *r, bw_log *log, double scale, double less);
/* Rot, flats, hollow and notches; needs diameters under bark. */
void bwi_case_shape(const bwi_case_reader *r, const bwi_at *log, bw_log *out);
/* "grade" of one log whose diameters are read: the questions answered by eye. */
void bwi_case_grade(const bwi_at *log_at, bw_log *log);
void bwi_case_rows(bwi_case_reader *r);
void bwi_case_ground(bwi_case_reader *r); /* before the bents, which fall back on it */
/* The soil that the object names, else that of the place. */
bw_soil bwi_case_soil(const bwi_case_reader *r, const bwi_at *object);
/* The pad of a post whose foot has been read. */
void bwi_case_pad(const bwi_at *post_at, bw_post *post);
void bwi_case_bents(bwi_case_reader *r);
void bwi_case_stringers(bwi_case_reader *r);
/* The named bent's index along the deck. */
bool bwi_case_bent(const bwi_case_reader *r, const bwi_at *at, int *out);
void bwi_case_braces(bwi_case_reader *r);
void bwi_case_joints(bwi_case_reader *r);
/* "fasteners" of a joint; what is not given stays 0. */
void bwi_case_fasteners(const bwi_at *at, bw_fasteners *out);
void bwi_case_boards(bwi_case_reader *r);
void bwi_case_loads(bwi_case_reader *r);
void bwi_case_limits(bwi_case_reader *r);
/* Whether the parts can stand together at all. */
void bwi_case_fit(const bwi_case_reader *r);

/* A length in the case's units, for messages. */
const char *bwi_case_length(const bwi_case_reader *r, double length);
/* A short one, such as a diameter. */
const char *bwi_case_thickness(const bwi_case_reader *r, double length);

#endif
