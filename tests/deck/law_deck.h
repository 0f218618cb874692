/* law_deck.h - random decks by number, of every kind that the laws are tried on. */
#ifndef BWT_LAW_DECK_H
#define BWT_LAW_DECK_H

#include "deck.h"

/* Even numbers on one basis, odd ones on the other. */
bwt_deck bwt_law_deck(long number);

/* Answers of those who looked at a log, each worse in all of them than the one before. */
enum { BWT_GRADES = 3 };
extern const char *const bwt_grades[BWT_GRADES];
void bwt_grade_logs(bwt_deck *deck, const char *grade);

/* From the environment, for a person who wants more of it. */
long bwt_law_number(const char *name, long usual);

#endif
