/* html.h - shared by the files that write the record: markup, drawings, sections.
 *
 * Every text that comes from a case, a table or a check goes through bwi_html, the one
 * place that escapes. bw_text_add and bw_text_print are for our own markup and numbers.
 */
#ifndef BW_REPORT_HTML_H
#define BW_REPORT_HTML_H

#include "internal.h"

/* ---- html.c ---- */

/* Markup in which %s is text, escaped for content and quoted attributes alike; %% is a
 * percent sign; nothing else may follow a percent sign. Null text counts as memory that
 * ran out. Malformed UTF-8 and control characters come out as U+FFFD. */
void bwi_html(bw_text *out, const char *format, ...) BW_PRINTF(2, 3);
/* The first characters of a text, with an ellipsis if it is longer than that. */
const char *bwi_short(bw_arena *arena, const char *text, size_t columns);
/* A table that scrolls by itself where the page is too narrow: columns are headings, a
 * leading '>' sets numbers to the right. name: what it is, for those who cannot see it.
 */
void bwi_table_open(bw_text *out, const char *name, const char *const *columns,
                    size_t n_columns);
void bwi_table_close(bw_text *out);
/* The same without a body: the caller writes bodies, and closes all. */
void bwi_grouped_table_open(bw_text *out, const char *name, const char *const *columns,
                            size_t n_columns);
void bwi_cell(bw_text *out, const char *text);
void bwi_number_cell(bw_text *out, const char *text);
void bwi_head_cell(bw_text *out, const char *text); /* heads its row */

/* ---- style.c ---- */

extern const char *const bwi_style[];   /* in pieces, null-terminated */
extern const char bwi_style_patterns[]; /* of the drawings, by share of the capacity */

/* ---- svg.c: a drawing in pixels, and labels that do not lie on each other ---- */

typedef struct {
    double left, top, right, bottom;
} bwi_box;

typedef struct {
    bw_text *out;
    double width, height;
    double scale;   /* pixels per metre */
    double x0, y0;  /* pixels of the origin of the view */
    bool down;      /* y runs down the page: a plan */
    bwi_box *boxes; /* taken by labels */
    size_t n_boxes, room;
    const char *id;
} bwi_svg;

double bwi_px(const bwi_svg *svg, double x);
double bwi_py(const bwi_svg *svg, double y);
/* Needs width, height and id (unique on the page). Both texts are for those who cannot
 * see it. */
void bwi_svg_open(bwi_svg *svg, const char *title, const char *description);
void bwi_svg_close(bwi_svg *svg);
void bwi_svg_line(const bwi_svg *svg, const char *classes, const bwi_box *from_to);

typedef enum { BWI_SMALL, BWI_PLAIN, BWI_BOLD } bwi_letters;
typedef struct {
    double x, y; /* pixels: middle of the line's height */
    char anchor; /* 's' start, 'm' middle, 'e' end */
} bwi_spot;
double bwi_label_width(const char *text, bwi_letters letters);
/* At the first spot where it is inside the drawing and lies on no other label; if there
 * is none, moved up or down from them until there is. False: there is no place at
 * all, and nothing is written. */
bool bwi_svg_label(bwi_svg *svg, bwi_letters letters, const bwi_spot *spots,
                   size_t n_spots, const char *text);
/* Keeps labels off an area. */
void bwi_svg_take(bwi_svg *svg, bwi_box box);
/* A dimension between two points on one horizontal or vertical line, with its text. */
void bwi_svg_dimension(bwi_svg *svg, const bwi_box *from_to, const char *text);

/* ---- draw.c: what all views of logs share ---- */

typedef struct {
    const bw_assessment *assessment;
    const bw_drawing *drawing;
    bw_text *out;
    bool live; /* logs say which member they are: data-member, an index */
} bwi_drawer;

/* Class of a share: "u0" to "u3", "u9" if it cannot be said, "ux" if nothing was checked.
 */
const char *bwi_share_class(const bw_member_result *member);
/* "35 %", "?", or "" if nothing was checked. */
const char *bwi_share_text(bw_arena *arena, const bw_member_result *member);
/* Draws the log (of the places from to to along x only) with a title for its pointer. */
void bwi_draw_log(bwi_svg *svg, const bwi_drawer *w, const bw_drawn_log *log,
                  const bwi_box *range);
/* The same without its pattern, thin. */
void bwi_draw_outline(bwi_svg *svg, const bw_drawn_log *log, const bwi_box *range);
/* Ground line, and what is dug for a post standing at x. */
void bwi_draw_ground(bwi_svg *svg, double from, double to);
void bwi_draw_hole(bwi_svg *svg, const bw_post *post, const bw_drawn_log *log);
/* The post of a member; null if it is none. */
const bw_post *bwi_post_of(const bw_assessment *assessment, size_t member);
/* Gaps between boards along a line through their middles, the first of them at a share of
 * its length; width: of the boards across it [m]. */
void bwi_draw_gaps(bwi_svg *svg, const bw_case *deck, const bwi_box *line, double first,
                   double width);
/* Board ends between two places, edge on. */
void bwi_draw_boards(bwi_svg *svg, const bwi_drawer *w, const bwi_box *top);

/* ---- draw_row.c, draw_bent.c, draw_plan.c, draw_bending.c, draw_buckled.c ---- */

/* What the patterns and the percentages of the drawings mean (record.c). */
void bwi_draw_key(bw_text *out);
void bwi_draw_rows(const bwi_drawer *w);
void bwi_draw_bents(const bwi_drawer *w);
void bwi_draw_plan(const bwi_drawer *w);
void bwi_draw_bending(const bwi_drawer *w);
/* Nothing if no frame is near to buckling. */
void bwi_draw_buckled(const bwi_drawer *w);

/* ---- sections ---- */

/* Opens the section of that id (record.c lists them) with its heading. */
void bwi_section(bw_text *out, const char *id);
void bwi_section_end(bw_text *out);

/* One finding with its whole working, as in "The governing line by hand". */
void bwi_finding_html(const bw_finding *finding, bw_units units, bw_text *out);

void bwi_record_title(const bw_record *record, bw_text *out);
void bwi_record_verdict(const bw_record *record, bw_text *out);
void bwi_record_members(const bw_record *record, bw_text *out);
void bwi_record_materials(const bw_record *record, bw_text *out);
void bwi_record_load_lines(const bw_assessment *assessment, bw_text *out);
void bwi_record_to_do(const bw_assessment *assessment, bw_text *out);
void bwi_record_loads(const bw_record *record, bw_text *out);
void bwi_record_strengths(const bw_record *record, bw_text *out);
void bwi_record_grades(const bw_record *record, bw_text *out);
void bwi_record_governing(const bw_record *record, bw_text *out);
void bwi_record_sheets(const bw_record *record, bw_text *out);
void bwi_record_site(const bw_record *record, bw_text *out);
void bwi_record_forms(const bw_record *record, bw_text *out);

/* Numbers of the sources of a table, listed below it. */
enum { BWI_SOURCES = 40 };
typedef struct {
    const char *items[BWI_SOURCES];
    size_t count;
} bwi_sources;
/* "read [2]"; where a term comes from. */
const char *bwi_whence(bw_arena *arena, bwi_sources *list, bw_mark mark,
                       const char *source);
void bwi_list_sources(const bwi_sources *list, bw_text *out);

#endif
