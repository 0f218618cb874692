/* input.h - files into models: the only layer that sees JSON.
 *
 * Every reader reports all faults of a file in one run, each with line, column, JSON
 * Pointer, what was found, what is allowed and a hint, and returns BW_E_INPUT if any is
 * an error. What it returns lives in the arena. */
#ifndef BW_INPUT_H
#define BW_INPUT_H

#include "bolewright/deck.h"

#ifdef __cplusplus
extern "C" {
#endif

/* The whole file as terminated text. BW_E_IO with a diagnostic: missing, a folder, not
 * readable; BW_E_INPUT: larger than 8 MiB or with a NUL byte inside. "-" is standard
 * input. */
bw_status bw_input_read_file(bw_arena *arena, const char *path, const char **text,
                             bw_diags *d);

/* The tables compiled into the program, and optionally a folder of *.json that adds to
 * them or replaces entries of the same id (null: none). */
bw_status bw_input_species(bw_arena *arena, const char *folder, bw_species_table *out,
                           bw_diags *d);
/* One species table from text, appended to what *out holds (same id replaces). */
bw_status bw_input_species_text(bw_arena *arena, const char *text, bw_species_table *out,
                                bw_diags *d);

/* A case from its text; strings and lists of *out live in the arena, species in the
 * table. BW_E_INPUT with all its faults as diagnostics, *out then not to be used. */
bw_status bw_input_case(bw_arena *arena, const char *text,
                        const bw_species_table *species, bw_case *out, bw_diags *d);

/* What was measured on the deck of the case. Diagnostics name the file of measurements.
 */
bw_status bw_input_inspections(bw_arena *arena, const char *text, const bw_case *deck,
                               bw_inspections *out, bw_diags *d);

/* The case of the text written anew with the logs of another, which was made from it and
 * has one log for every member; their sizes are rounded to the thin side. BW_E_MEMORY, or
 * BW_E_INPUT if the text is no JSON. */
bw_status bw_input_case_put(bw_arena *arena, const char *text, const bw_case *with,
                            bw_text *out, bw_diags *d);

/* A pile of measured logs: a table (RFC 4180, UTF-8) whose first line names its columns
 * in any order: id, species, butt girth, tip girth, mid girth (or diameter instead of
 * girth), length, bark, bark thickness, the questions of a log's "grade", note. Two
 * girths of a log are enough; an end that was not measured is taken cautiously, with a
 * warning. Units, basis and species tables are those of the case. */
typedef struct {
    const bw_log *logs;       /* named by their id */
    const char *const *notes; /* null or "": none */
    size_t count;
} bw_log_list;
bw_status bw_input_logs(bw_arena *arena, const char *text, const bw_case *deck,
                        bw_log_list *out, bw_diags *d);

/* A free frame: the frame itself, the names of its nodes and members, and its load cases.
 */
typedef struct {
    bw_frame *frame;
    const char *title;
    bw_units units; /* for printing */
    const char *const *node_names;
    const char *const *member_names;
    size_t n_nodes, n_members;
} bw_frame_input;
bw_status bw_input_frame(bw_arena *arena, const char *text, bw_frame_input *out,
                         bw_diags *d);

/* The shape of a file as JSON Schema (draft 2020-12): of "case", "frame", "inspections"
 * or "logs" (each line of the table as an object, its headings in lower case as keys). It
 * has no quarrel with a file that is read; what parts of a file mean to each other it
 * does not see. BW_E_USAGE for another word. */
bw_status bw_input_schema(bw_arena *arena, const char *kind, bw_text *out, bw_diags *d);

#ifdef __cplusplus
}
#endif

#endif
