/* output.h - what leaves the program: results to standard output, faults to standard
 * error, files whole or not at all. */
#ifndef BW_CLI_OUTPUT_H
#define BW_CLI_OUTPUT_H

#include "options.h"

/* What this thread would print from now on is added to *text, and its faults to *d,
 * instead of going to the streams; null for both ends that. So that the page can ask what
 * the command line answers. */
void bwi_output_capture(bw_text *text, bw_diags *d);

/* The text of a file, or, while this thread is captured, the one given in place of it:
 * then no file is opened at all. */
bw_status bwi_output_read(bw_arena *arena, const char *path, const char **text,
                          bw_diags *d);
typedef struct {
    const char *path, *text;
} bwi_given;
/* While captured; ended by a null path. */
void bwi_output_give(const bwi_given *given);

/* To standard output. BW_E_IO (closed pipe, full disk) or BW_E_MEMORY. */
bw_status bwi_output_print(const bw_text *text, bw_diags *d);
/* To standard error; what cannot be written there is lost. */
void bwi_output_complain(const bw_diags *d);

/* Whether --json may write where it is told to; asked before the work is done. input is
 * the file that the result comes from and is never written over. BW_E_IO with a hint. */
bw_status bwi_output_allowed(const bwi_options *options, const char *input, bw_diags *d);
/* The same for any file that --force may let it replace; path null: none is written. */
bw_status bwi_output_path_allowed(const char *path, bool force, const char *input,
                                  bw_diags *d);
/* The file appears with all of the text or does not change. BW_E_IO, BW_E_MEMORY. */
bw_status bwi_output_file(const char *path, const bw_text *text, bool replace,
                          bw_diags *d);
/* The same, to standard output for "-"; path null: nothing. */
bw_status bwi_output_to(const char *path, const bw_text *text, bool replace, bw_diags *d);
/* The path asks for standard output, which then holds nothing else. */
bool bwi_output_is_stream(const char *path);
/* Text and JSON to where the options want them; json is not looked at without --json. */
bw_status bwi_output_report(const bwi_options *options, const bw_text *text,
                            const bw_text *json, bw_diags *d);
/* Prints the faults of all (null-terminated) and, if none tells why the status is not
 * BW_OK, its sentence. Returns the exit status. */
int bwi_output_finish(bw_status status, const bw_diags *const *all);
/* The same for a run that ends in an answer: 1 if it went well and the answer is no. */
int bwi_output_answer(bw_status status, const bw_diags *const *all, bool yes);
/* The name of an input file in faults, and in reports, whose words do not depend on the
 * folder. */
const char *bwi_output_name(const char *path);
const char *bwi_output_short_name(const char *path);

#endif
