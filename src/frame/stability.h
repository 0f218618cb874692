/* stability.h - a frame made of columns: members under their own axial forces. */
#ifndef BWI_FRAME_STABILITY_H
#define BWI_FRAME_STABILITY_H

#include "column.h"

/* Parts of members with every node they run between. Nodes of the frame keep their
 * numbers. */
typedef struct {
    int member;         /* of the frame */
    int node_i, node_j; /* of the fine frame */
    double from, to;    /* [m] along the member */
    double elongation;  /* flexibility of the part for N [m/N]; 0 if the member slides */
} bwi_part_column;

typedef struct {
    bw_arena *arena;
    bw_frame *frame; /* as given */
    bw_frame *fine;  /* its nodes and those between the parts; members only number it */
    bwi_part_column *parts;
    size_t n_parts;
    bwi_collocation gauss;
    bw_line *lines;        /* per member of the frame, of the state */
    double *shift;         /* per member: axial force beyond that of the line */
    int *cuts;             /* per member: its number of parts */
    double (*jumps)[2][2]; /* per member: see bwi_column */
    int made;              /* how often it was cut anew: the unknowns are others then */
    bwi_system system;
} bwi_columns;

/* Every member pressed alike all along, uncut. */
bw_status bwi_columns_pressed(bw_frame *f, const double *press, bw_arena *arena,
                              bwi_columns *out);
/* Cuts every member into n_cuts parts. */
bw_status bwi_columns_make(bw_frame *f, const bw_state *s, int n_cuts, bw_arena *arena,
                           bwi_columns *out);
/* Whether the frame stands with the axial forces scaled: K is positive definite and no
 * part buckles between its nodes. Cuts members further where that needs it, and leaves K
 * factored. */
bw_status bwi_columns_stand(bwi_columns *c, double scale, bool *out);
bwi_column bwi_columns_part(const bwi_columns *c, size_t part, double scale, bool loaded);
/* K of the fine frame with the axial forces scaled, into band (lower, column-major). */
void bwi_columns_assemble(const bwi_columns *c, double scale, double *band);

#endif
