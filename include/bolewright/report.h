/* report.h - results as text and JSON: pure functions of a result, no solving, no files.
 */
#ifndef BW_REPORT_H
#define BW_REPORT_H

#include "bolewright/sizing.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What the reports say: the assessment's verdict, or worse if a member, a finding or the
 * numerical health contradicts it. The exit status must follow this one. */
bw_verdict bw_report_verdict(const bw_assessment *assessment);

/* Text for a terminal: verdict and governing member first, members with utilisation per
 * check, assumptions, what was not checked, cautions last. */
void bw_report_text(const bw_assessment *assessment, bw_text *out);
/* Every finding with its working; stable key order, no NaN or infinity, SI with unit
 * names. */
void bw_report_json(const bw_assessment *assessment, bw_text *out);

/* ---- the record: one HTML page that a landowner or insurer keeps ---- */

typedef struct {
    const bw_assessment *assessment;
    const bw_drawing *drawing; /* of bw_deck_drawing */
    const char *date;          /* "2026-11-25" as the user gives it, or null */
    const char *next_date;     /* a year later, or null */
    const char *case_name;     /* of the file */
    const char *case_hash;     /* SHA-256 of its bytes, in hexadecimal */
} bw_record;

/* Self-contained, no script, no outside request; the same record gives the same bytes. */
void bw_report_html(const bw_record *record, bw_text *out);
/* Every finding as comma-separated values (RFC 4180), SI with unit names. A text that a
 * spreadsheet would take for a formula begins with an apostrophe. */
void bw_report_csv(const bw_assessment *assessment, bw_text *out);
/* The first sentence of all reports: the verdict and what governs. */
const char *bw_report_verdict_text(bw_arena *arena, const bw_assessment *assessment);

/* ---- for a page that answers while a case is being changed ---- */

/* The result as a JSON object: verdict, what to look at and to change first, worst place
 * of the rider, members, the drawings as markup (their logs say which member they are),
 * what was not checked, cautions. drawing may be null. */
void bw_report_live(const bw_assessment *assessment, const bw_drawing *drawing,
                    bw_text *out);
/* Every check of one member with its working, as markup, the worst first. */
void bw_report_member_html(const bw_assessment *assessment, size_t member, bw_text *out);
/* Style of the drawings; the page defines the same colours as the record. */
void bw_report_drawing_style(bw_text *out);

/* One species explained: every number with source and mark, and the ladders. */
void bw_report_species(bw_arena *arena, const bw_species *species, bw_units units,
                       bw_text *out);
/* The species of the table, a line each, and how many numbers stand on what. */
void bw_report_species_list(const bw_species_table *table, bw_text *out);
/* The same as data: every number with mark and source, and the counts of marks. */
void bw_report_species_json(const bw_species_table *table, bw_text *out);
/* Calls for every number of a species with its label; a label says what it is. */
typedef void (*bw_species_visit)(void *context, const char *label, bw_quantity quantity,
                                 const bw_sourced *number);
void bw_report_species_numbers(const bw_species *species, bw_species_visit visit,
                               void *context);

/* A standing tree, the log it would give, and how far that log may span. */
typedef struct {
    const char *load;          /* "a rider of 254 lb, landing with 3 times that" */
    double cautious, estimate; /* [m] span with the cautious log and the estimated one */
    bool whole_log;            /* the cautious log is too short to find its limit */
    double longer, longer_cut; /* [m] then: span of a longer log of the tree, and the
                                  length of that log; 0: the tree has none */
    const char *governing;     /* title of the check, or null */
    bw_verdict verdict;        /* why there is no span */
} bw_tree_span;
typedef struct {
    const bw_tree *tree;
    const bw_tree_log *log;
    bw_units units;
    const char *under; /* "two rows 3 ft apart under a deck 4 ft wide" */
    const bw_tree_span *spans;
    size_t n_spans;
    const bw_reference *reference; /* of the log, unanswered questions included */
    const char *tables;            /* version of the species tables */
} bw_tree_report;
void bw_report_tree_text(const bw_tree_report *report, bw_text *out);
void bw_report_tree_json(const bw_tree_report *report, bw_text *out);

/* Answers about sizes, each on one screen and as data: the size, what governs it and what
 * comes next, what another size would do, and what all that rests on. tables: version of
 * the species tables. */
void bw_report_span_text(const bw_span_question *question, const bw_span_answer *answer,
                         bw_text *out);
void bw_report_span_json(const bw_span_question *question, const bw_span_answer *answer,
                         const char *tables, bw_text *out);
void bw_report_spacing_text(const bw_span_question *question,
                            const bw_spacing_answer *answer, bw_text *out);
void bw_report_spacing_json(const bw_span_question *question,
                            const bw_spacing_answer *answer, const char *tables,
                            bw_text *out);
void bw_report_log_text(const bw_log_question *question, const bw_log_answer *answer,
                        bw_text *out);
void bw_report_log_json(const bw_log_question *question, const bw_log_answer *answer,
                        const char *tables, bw_text *out);

/* Cards: as text that fits a 3 x 5 in card in 8 point type (72 columns, 22 lines for
 * twelve spans and three uses), as a page for the printer, and as one table of
 * comma-separated values (RFC 4180) for all. Girths half way and at the tip of the peeled
 * log, and of the tree over bark at breast height. */
void bw_report_card_text(const bw_card *card, bw_text *out);
void bw_report_cards_html(const bw_card *cards, size_t n, const char *tables,
                          bw_text *out);
void bw_report_cards_csv(const bw_card *cards, size_t n, bw_text *out);
/* A deck as it was found, and how long it may go on. */
void bw_report_age_text(const bw_aged_deck *aged, bw_text *out);
void bw_report_age_json(const bw_aged_deck *aged, bw_text *out);

/* A pile of logs and the members of a deck. */
typedef struct {
    const char *member;  /* "stringer U1" */
    const char *role;    /* "stringer" */
    const char *log;     /* its id, or null: the member wants one */
    const char *species; /* common name; of the wanted one the drawn species */
    const char *lies;    /* "butt at A", "butt down", or null */
    double length;       /* [m] of the log before its ends are cut */
    double butt, tip;    /* [m] diameters under bark at both ends of that length */
    double utilisation;  /* worst in the whole deck */
    const char *check;   /* which */
    bool passes;         /* false for a wanted log: none does, however thick */
} bw_match_line;
typedef struct {
    const char *log, *species;
    double length, butt, tip; /* [m] */
    const char *why, *note;   /* note may be null */
} bw_match_left;
typedef struct {
    const bw_assessment *assessment; /* of the whole deck with these logs */
    const char *pile;                /* name of the file */
    size_t n_pile;
    const bw_match_line *lines;
    size_t n_lines, n_missing;
    const bw_match_left *left;
    size_t n_left;
    double target;               /* [m] depth of level stringers */
    double wood, uneven, weight; /* [m3], [m], [m3/m] */
    size_t assessments, ruled_out;
} bw_match_report;
void bw_report_match_text(const bw_match_report *report, bw_text *out);
void bw_report_match_json(const bw_match_report *report, bw_text *out);
/* A line per member, then per log that is left; SI with unit names. */
void bw_report_match_csv(const bw_match_report *report, bw_text *out);

/* A free frame: displacements, reactions, member actions and extremes of the state. */
typedef struct {
    const char *title;
    bw_units units;
    const bw_frame *frame;
    const bw_state *state;
    const char *const *node_names;
    const char *const *member_names;
    size_t n_nodes, n_members;
} bw_frame_result;
void bw_report_frame_text(const bw_frame_result *result, bw_text *out);
void bw_report_frame_json(const bw_frame_result *result, bw_text *out); /* 15 digits */

/* JSON writing shared by all JSON reports. */
void bw_json_string(bw_text *out, const char *text); /* quoted and escaped */
void bw_json_number(bw_text *out, double value);     /* 15 digits; null if not finite */

#ifdef __cplusplus
}
#endif

#endif
