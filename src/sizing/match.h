/* match.h - private to sizing: the deck with a log of its own in every place, and what is
 * known of logs in places. */
#ifndef BW_SIZING_MATCH_H
#define BW_SIZING_MATCH_H

#include "assign.h"
#include "bolewright/sizing.h"

typedef struct {
    bw_arena *arena;
    const bw_match_question *question;
    bw_diags *d;
    bw_match *out;
    /* the case with a log per place; a path in it is the number of its place */
    bw_case deck;
    bw_log *logs;
    bw_stringer *stringers;
    bw_post *posts;
    size_t first_cap, first_post, first_brace;
    size_t *cap_of_bent; /* place of its cap or sill; n_places: none */
    size_t *group;       /* per place: the first place that is in the same situation */
    bw_reference *references; /* per log of the pile */
    bool *allowed;            /* place * n_pile + log: not ruled out */
    struct bwi_wish *wishes;  /* per place; null: nothing was wanted yet */
    /* of the trial made last */
    double *works; /* per place: utilisation, NaN: cannot say */
    const bw_check **governing;
    bool *blamed; /* per place: the deck could not even be put together because of it */
    bool fits;    /* no place is blamed */
} bwi_matcher;

extern const char bwi_wanted[]; /* name of a log that stands for one that is wanted */

bw_status bwi_match_layout(bwi_matcher *m);
/* The log of the pile as it would lie in the place. */
bw_log bwi_match_piece(const bwi_matcher *m, size_t place, size_t log);
double bwi_match_depth(const bw_match_place *place, const bw_log *piece);
/* It may be hewn and seated like the drawn one, and is long enough. */
bool bwi_match_can_lie(const bwi_matcher *m, size_t place, size_t log);

/* What every place wants its log to have; thinner logs over a post make it longer. */
void bwi_match_lengths(bwi_matcher *m, const bw_assessment *a);

/* Assesses the deck with the logs that lie in it now; keep: into out->assessment. A deck
 * that cannot be put together is BW_OK with places blamed. */
bw_status bwi_match_try(bwi_matcher *m, bool keep);
bool bwi_match_passes(const bwi_matcher *m, size_t place);

/* Rules out what failed in the last trial, and what cannot do better; true if no log of
 * the pile failed. */
bool bwi_match_learn(bwi_matcher *m);
/* The thinnest logs for places without one; ends with the whole deck assessed and kept.
 */
bw_status bwi_match_wanted(bwi_matcher *m);

#endif
