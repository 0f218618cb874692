/* sketch.h - a plane frame as plain data, for tests.
 *
 * A sketch can be read from JSON, made at random, or changed (turned, mirrored, cut ...)
 * before it becomes a bw_frame. SI and axes as in bolewright/frame.h. */
#ifndef BWT_SKETCH_H
#define BWT_SKETCH_H

#include "bolewright/frame.h"
#include <cjson/cJSON.h>
#include <stdint.h>

enum { BWT_ROOM = 96 };

typedef enum { BWT_LOAD_NODE, BWT_LOAD_MEMBER, BWT_LOAD_SELF } bwt_load_kind;

typedef struct {
    bwt_load_kind kind;
    int load_case;
    int node;                 /* BWT_LOAD_NODE */
    double fx, fy, moment;    /* BWT_LOAD_NODE */
    double factor;            /* BWT_LOAD_SELF */
    bw_member_load on_member; /* BWT_LOAD_MEMBER */
} bwt_load;

typedef struct {
    double x, y;
} bwt_point;

typedef struct {
    int n_nodes, n_members, n_supports, n_loads;
    bwt_point nodes[BWT_ROOM];
    bw_member members[BWT_ROOM];
    bw_support supports[BWT_ROOM];
    bwt_load loads[BWT_ROOM];
} bwt_sketch;

double bwt_member_length(const bwt_sketch *s, int member);
/* Unit vector from end i to end j. */
bwt_point bwt_member_direction(const bwt_sketch *s, int member);
/* A vector in the member's axes seen in the global axes. */
bw_motion bwt_member_to_global(const bwt_sketch *s, int member, bw_motion local);
bw_section bwt_member_section(const bwt_sketch *s, int member, double x);
/* All sizes of the member's section run alike, so that its weight per length is a
 * parabola; else it is one only piece by piece, and nearly. */
bool bwt_member_is_alike(const bwt_sketch *s, int member);
bool bwt_sketch_is_alike(const bwt_sketch *s);

/* The frame of the sketch, nodes and members named "node 3", "member 2"; settlements in
 * load case 0. Null without memory. */
bw_frame *bwt_sketch_build(const bwt_sketch *s, bw_arena *arena);

/* Reads the numbers-only model format of tests/published/solver. Null, or what is wrong.
 */
const char *bwt_sketch_read(const cJSON *model, bwt_sketch *out);

/* The value a path such as "mem:0:maxM:x" names; false for a path not understood. */
bool bwt_path_value(const bwt_sketch *s, const bw_frame *f, const bw_state *state,
                    const char *path, double *value);

/* ---- random frames, the same on every machine ---- */

/* Numbers from the bytes first, two bytes each, and from the state when these are used
 * up: so a fuzzer can choose the frame. */
typedef struct {
    uint64_t state;
    const uint8_t *bytes; /* null: none */
    size_t n_bytes;
} bwt_random;

double bwt_random_between(bwt_random *r, double low, double high);
int bwt_random_below(bwt_random *r, int n); /* 0 .. n-1 */
bool bwt_random_chance(bwt_random *r, double probability);

/* A frame of log-like members that holds together by construction: a rigid tree of
 * members on a sufficient set of supports, with extra members that may be hinged or
 * slide. */
void bwt_sketch_random(bwt_random *r, bwt_sketch *out);
/* Adds random loads of every kind to the load case; also own weight where wanted. */
void bwt_sketch_load_random(bwt_random *r, bwt_sketch *s, int load_case, bool own_weight);
/* Gives every member a random lean and bow, as logs are built in. */
void bwt_sketch_lean_random(bwt_random *r, bwt_sketch *s);
/* Gives random imposed motions to fixed motions of supports. */
void bwt_sketch_settle_random(bwt_random *r, bwt_sketch *s);

/* ---- the same frame, described differently ---- */

/* Every line load per metre of plan becomes the equal load per metre of member. */
void bwt_sketch_plan_to_length(bwt_sketch *s);
void bwt_sketch_turn(bwt_sketch *s, double angle); /* own weight is left as it is */
void bwt_sketch_mirror(bwt_sketch *s);             /* x -> -x */
void bwt_sketch_reverse(bwt_sketch *s, int member);
/* Lengths times k, forces times m, the structure otherwise the same. */
void bwt_sketch_scale(bwt_sketch *s, double k, double m);
/* Moves node n to place order[n], and the same for the members. */
void bwt_sketch_renumber(bwt_sketch *s, const int *node_order, const int *member_order);
/* Cuts the member at x: it keeps the part up to x, the new last member takes the rest. */
void bwt_sketch_cut(bwt_sketch *s, int member, double x);

#endif
