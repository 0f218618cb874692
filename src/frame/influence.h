/* influence.h - what is kept of the influence lines of a path; made in influence.c, read
 * for wheels in wheels.c. */
#ifndef BWI_FRAME_INFLUENCE_H
#define BWI_FRAME_INFLUENCE_H

#include "inverse.h"

/* Members that a unit force reaches: at places first .. first + n - 1. */
typedef struct {
    int first, n;
} bwi_reached;

/* Actions of members under unit forces on the nodes of one path member, for places first
 * .. first + n - 1: N at j, M_i, M_j, each of the six forces, 0 where one does not reach.
 * All wheels on the member are read from them. */
typedef struct {
    int at; /* number in the path; -1: empty */
    int first, n;
    unsigned filled; /* bits: forces that some wheel has put on the nodes */
    double (*unit)[3][6];
} bwi_unit_table;

/* What 1 N along and 1 N across a path member at a place does to it, its ends held, and
 * to its nodes. */
typedef struct {
    bool filled;
    double a;
    double held[2][3], push[2][6];
} bwi_unit_wheel;

enum {
    BWI_ALL_FORCES = 0x3f, /* a bit for each of the six on a path member's nodes */
    BWI_TABLES = 40,       /* wheels in use at once lie on fewer path members in a row */
    BWI_UNIT_WHEELS = 32   /* kept per path member: more than a search tries again */
};

struct bw_influence {
    bw_frame *frame;
    const int *path;
    size_t n_path;
    int *node_place;    /* place of a node among the path's nodes, -1 elsewhere */
    bwi_reached *reach; /* 3 per path node */
    /* Members in the order of their lowest unknown, so that neighbours on the frame are
     * neighbours here, however they were numbered. */
    int *member_at, *member_place;
    int *block_start; /* per block of the inverse: place of its first member, and the end
                       */
    int (*unknowns)[6];     /* per member, negative for fixed motions */
    double (*action)[3][6]; /* per member: N at j, M_i, M_j from its unknowns */
    bwi_inverse inverse;
    /* Per place three rows of half_band: actions of the member over the state two blocks
     * after its own, for forces behind; under 1 at each entry of the state of its own
     * block, for forces before. */
    double *far_before, *far_behind;
    /* Per block and entry of the state: what these come to at most for the members of the
     * block and of all before it, or of all behind it. */
    double *before, *behind;
    double *room;               /* two states */
    bwi_unit_table *tables;     /* for path member at in number at % BWI_TABLES */
    bwi_unit_wheel *unit_wheel; /* BWI_UNIT_WHEELS per path member */
    bw_arena *arena;
    const bw_influence
        *shared; /* whose lines these are: itself, or the one shared from */
};

/* The answers to one unit force, block by block outward from its own: backward its own
 * block first, forward the next one. One walk at a time: they share the room. */
typedef struct {
    int source, own, block, step; /* -1: back, 1: forth */
    double *state, *next;
} bwi_walk;
bwi_walk bwi_walk_from(const bw_influence *v, int source, int step);
bool bwi_walk_is_on(const bw_influence *v, const bwi_walk *w); /* there is such a block */
void bwi_walk_on(const bw_influence *v, bwi_walk *w);
/* N at j, M_i, M_j of a member of the block. */
void bwi_walk_answer(const bw_influence *v, const bwi_walk *w, int place,
                     double basic[3]);

/* Node at an end of path member number at (k < 3: i), and what force k on it reaches. */
int bwi_path_node(const bw_influence *v, size_t at, int k);
const bwi_reached *bwi_path_reach(const bw_influence *v, size_t at, int k);
/* Places that any of the six forces reaches whose bit is set. */
bwi_reached bwi_reached_by(const bw_influence *v, size_t at, unsigned forces);
/* N at j, M_i, M_j of a member from its six unknowns. */
void bwi_influence_actions(const bw_influence *v, int member, const double u[6],
                           double out[3]);

#endif
