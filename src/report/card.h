/* card.h - what is on a card, for the files that write it as text and as a page. */
#ifndef BW_REPORT_CARD_H
#define BW_REPORT_CARD_H

#include "internal.h"

/* The three girths of a cell; "--": over for all sizes tried, "?": cannot say. */
typedef struct {
    const char *mid, *tip, *tree;
} bwi_card_words;

double bwi_card_unit(const bw_card *card); /* [m] of the numbers on it */
const char *bwi_card_girth(bw_arena *arena, const bw_card *card, double girth);
bwi_card_words bwi_card_cell(bw_arena *arena, const bw_card *card, size_t row,
                             size_t column);
const char *bwi_card_heading(const bw_duty *duty); /* of a column: its use */
const char *bwi_card_legend(bw_arena *arena, const bw_card *card);
const char *bwi_card_basis(bw_arena *arena, const bw_card *card);
extern const char bwi_card_caution[];

#endif
