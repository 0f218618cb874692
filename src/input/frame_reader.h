/* frame_reader.h - the parts of the reader of free frames. */
#ifndef BWI_FRAME_READER_H
#define BWI_FRAME_READER_H

#include "bolewright/input.h"
#include "fields.h"

typedef struct {
    double x, y; /* [m] */
} bwi_point;

typedef struct {
    bwi_json *doc;
    bwi_at root;
    bw_frame_input *out;
    bw_frame *frame;
    bwi_at node_list, member_list;
    bwi_point *nodes;   /* not a number where not read */
    double *lengths;    /* of members [m]; not a number where not known */
    double kappa;       /* of members that give none; 0: no shear strain */
    bool lacks_density; /* some member */
    bwi_names node_names, member_names;
} bwi_frame_reader;

/* Limits of a free frame: whatever can be computed with. */
extern const bwi_range bwi_any_number; /* finite */
extern const bwi_range bwi_above_zero; /* more than 0 */

void bwi_frame_supports(bwi_frame_reader *r);
void bwi_frame_loads(bwi_frame_reader *r);

/* Notes what a bw_frame_... call returned: nothing but memory can fail there. */
void bwi_frame_note(const bwi_frame_reader *r, bw_status status);
/* The optional quantity, or bare number in SI, of that key; *out stays where it is
 * missing. */
void bwi_frame_optional(const bwi_at *object, const char *key, bw_quantity quantity,
                        bwi_range range, double *out);

#endif
