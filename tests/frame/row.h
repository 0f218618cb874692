/* row.h - rows of posts and stringers for tests of the frame layer. */
#ifndef BWT_ROW_H
#define BWT_ROW_H

#include "bolewright/frame.h"

#include <stdint.h>
#include <stdio.h>

enum { BWT_ROW_BENTS = 402 };

typedef enum { BWT_FEET_FIXED, BWT_FEET_HINGED } bwt_feet;

typedef struct {
    bw_frame *frame;
    int n_bents;
    int stringer[BWT_ROW_BENTS]; /* from bent k to k + 1 */
    int foot[BWT_ROW_BENTS], top[BWT_ROW_BENTS];
} bwt_row;

static inline double bwt_chance(uint64_t *state)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u; /* Knuth, MMIX */
    return (double)(*state >> 11) / 9007199254740992.0;
}

/* Node k of the row is added at place order[k] (null: in order); stringers run on over
 * bents or are hinged at both ends. */
static inline bwt_row bwt_row_make(bw_arena *arena, int n_bents, bwt_feet feet,
                                   bool run_on, const int *order)
{
    bwt_row r = {.frame = bw_frame_new(arena), .n_bents = n_bents};
    for (int k = 0; k < 2 * n_bents; k++) {
        const int node = order != NULL ? order[k] : k, bent = node / 2;
        const bool is_top = node % 2 == 1;
        const char *name =
            bw_arena_print(arena, "%s %d", is_top ? "joint" : "foot", bent);
        const int added =
            bw_frame_add_node(r.frame, 2.385 * bent, is_top ? 1.13 : 0.0, name, "/bents");
        *(is_top ? &r.top[bent] : &r.foot[bent]) = added;
    }
    for (int k = 0; k < n_bents; k++) {
        const bw_support s = {.node = r.foot[k],
                              .fix = {true, true, feet == BWT_FEET_FIXED}};
        bw_frame_add_support(r.frame, &s);
        const bw_member post = {.node_i = r.foot[k],
                                .node_j = r.top[k],
                                .section_i = bw_section_round(0.217),
                                .section_j = bw_section_round(0.193),
                                .modulus = 8.1e9,
                                .shear_modulus = 5e8,
                                .kappa = 0.9,
                                .hinge_j = run_on,
                                .name = bw_arena_print(arena, "post %d", k)};
        bw_frame_add_member(r.frame, &post);
    }
    for (int k = 0; k + 1 < n_bents; k++) {
        const bw_member log = {.node_i = r.top[k],
                               .node_j = r.top[k + 1],
                               .section_i = bw_section_round(0.231),
                               .section_j = bw_section_round(0.187),
                               .modulus = 9.3e9,
                               .shear_modulus = 6e8,
                               .kappa = 0.9,
                               .density = 610.0,
                               .hinge_i = !run_on,
                               .hinge_j = !run_on,
                               .name = bw_arena_print(arena, "stringer %d", k)};
        r.stringer[k] = bw_frame_add_member(r.frame, &log);
    }
    return r;
}

#endif
