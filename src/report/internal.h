/* internal.h - shared inside the report layer: laying out text in columns, writing JSON,
 * and ranking findings. Widths are terminal columns, one per code point. */
#ifndef BW_REPORT_INTERNAL_H
#define BW_REPORT_INTERNAL_H

#include "bolewright/report.h"

enum {
    BWI_PAGE_COLUMNS = 80,
    /* most columns that a table may have: a member, its result, every check between */
    BWI_TABLE_COLUMNS = BW_CHECK_KIND_COUNT + 2,
    /* checks beside each other in a table of members; more make a second table */
    BWI_KINDS_ACROSS = 8
};

/* ---- layout.c: text that fits the page, whatever the case calls its parts ---- */

/* Length in bytes of the UTF-8 sequence at text, 0 if it is malformed. */
size_t bwi_character_length(const char *text);
/* A copy fit for a terminal: blanks for line breaks, '?' for control characters and
 * malformed bytes (a name from a case must not steer the terminal); null without memory.
 */
const char *bwi_clean(bw_arena *arena, const char *text);
/* The next line of at most width columns, broken at a blank where there is one: returns
 * its start, its length in bytes in *length, and moves *text behind it. */
const char *bwi_take_line(const char **text, size_t width, size_t *length);
void bwi_blanks(bw_text *out, size_t count);
/* A wrapped paragraph: lead starts the first line, the other lines hang under its end. */
void bwi_paragraph(bw_text *out, const char *lead, const char *text);
/* An empty line and a heading, underlined for those who skim. */
void bwi_heading(bw_text *out, const char *text);

/* ---- table.c: cells wrap inside their columns, the widest column gives way first ----
 */

typedef struct {
    const char *heading;
    bool right; /* numbers stand to the right */
} bwi_column;

typedef struct {
    bw_text *out;
    const bwi_column *columns;
    size_t n_columns;
    const char **cells; /* row by row */
    size_t n_cells, capacity;
} bwi_table;

bwi_table bwi_table_new(bw_text *out, const bwi_column *columns, size_t n_columns);
/* The next cell; null counts as memory that ran out. Kept as a clean copy. */
void bwi_table_cell(bwi_table *table, const char *text);
void bwi_table_print(const bwi_table *table, size_t indent);

/* ---- value.c: numbers as words ---- */

/* As bw_quantity_print, but lengths in inches or millimetres and moments in lb-in, so
 * that a line can be redone without hidden factors; "not known" for what is not finite.
 */
const char *bwi_value(bw_arena *arena, bw_quantity quantity, double value,
                      bw_units units);
bw_units bwi_other_units(bw_units units);
/* Percent with the decimals, rounded up: a report must not make a line look better; above
 * ten times "over 999". */
const char *bwi_percent(bw_arena *arena, double utilisation, int decimals);
/* What a check is called in a sentence: "end bearing" of the id "end_bearing", which JSON
 * and CSV keep; null without memory. */
const char *bwi_check_words(bw_arena *arena, const char *id);
const char *bwi_si_unit(bw_quantity quantity); /* "N*m", "1" for a number */
/* The text, or memory running out noted in *out and "". */
const char *bwi_or_fail(bw_text *out, const char *text);

/* ---- rank.c: what a reader must see first ---- */

/* The worse of what the finding says and what its ratio says. */
bw_verdict bwi_finding_verdict(const bw_finding *finding);
bw_verdict bwi_member_verdict(const bw_member_result *member);
/* Up to room findings: those that cannot say, then by falling utilisation, ties in the
 * order of the case. Returns how many. */
size_t bwi_rank(const bw_assessment *assessment, const bw_finding **first, size_t room);
/* "3 ft 2 in from bent B1, under dead + rider, rider on ...": whatever is known of it. */
const char *bwi_finding_where(bw_arena *arena, const bw_finding *finding, bw_units units);

/* Which change helps most against the finding (remedy.c); null without memory. */
const char *bwi_remedy(bw_arena *arena, const bw_finding *finding);

/* ---- verdict.c: the verdict in words ---- */

const char *bwi_verdict_words(bw_verdict verdict);
/* What a person would take to be within limits with the rest, and is not checked at all;
 * null: nothing of the kind. */
const char *bwi_left_out(const bw_assessment *assessment, bw_text *out);
/* "stringer S2, bending at 85.6 % of its capacity, 3 ft 2 in from ..." */
void bwi_finding_line(const bw_finding *finding, bw_units units, bw_text *out);
/* The same, with "OVER: " before what is over. */
const char *bwi_first_look(const bw_finding *finding, bw_units units, bw_text *out);

/* ---- sections.c: headings and words that text and record share ---- */

const char *bwi_section_id(size_t number); /* in their order; null after the last */
const char *bwi_section_heading(const char *id);
void bwi_text_section(bw_text *out, const char *id);
extern const char bwi_members_words[], bwi_grades_words[];

enum { BWI_TITLE_LINES = 8 };
typedef struct {
    const char *term, *text; /* text: null if the case does not say */
} bwi_title_line;
const char *bwi_title(const bw_case *deck);
size_t bwi_title_lines(const bw_case *deck, bw_text *out,
                       bwi_title_line lines[BWI_TITLE_LINES]);
/* How well the numbers came out. */
const char *bwi_health_text(const bw_assessment *a, bw_text *out);

/* ---- loads.c: loads and limits as rows ---- */

enum { BWI_LOAD_ROWS = 40 };
typedef struct {
    const char *what, *value, *other; /* other: in the other system, or "" */
} bwi_load_row;
size_t bwi_load_rows(const bw_assessment *a, bw_text *out,
                     bwi_load_row rows[BWI_LOAD_ROWS]);
const char *bwi_assumption_text(const bw_assumption *a, bw_text *out);
extern const char bwi_to_do_title[];
bool bwi_is_to_do(const bw_assessment *assessment); /* anything at all */

/* ---- materials.c: what to bring ---- */

/* All members that one log is used for in one role. */
typedef struct {
    const bw_log *log;
    const char *role;
    size_t pieces;
    double longest, sum; /* [m] as framed */
    double mass;         /* [kg] of the heaviest piece, green */
} bwi_use;
/* room: one per member of the assessment. Members without a log are left to the lines. */
size_t bwi_uses(const bw_assessment *a, bwi_use *room);
const char *bwi_girth(bw_arena *arena, double diameter, bw_units units);
/* Rounded up: pounds or kilograms, inches or centimetres. */
const char *bwi_mass_up(bw_arena *arena, double mass, bw_units units);
const char *bwi_cut_length(bw_arena *arena, double length, bw_units units);
/* Boards, screws, pads: a sentence each. */
enum { BWI_MATERIAL_LINES = 16 };
size_t bwi_material_lines(const bw_assessment *a, bw_text *out,
                          const char *lines[BWI_MATERIAL_LINES]);
extern const char bwi_materials_title[], bwi_materials_words[];
double bwi_board_pitch(const bw_case *deck); /* [m] width of a board and its gap */
void bwi_text_materials(const bw_assessment *a, bw_text *out);

/* ---- site.c: guards, falls, and how many people a sign may allow ---- */

/* "YES at bent B, C", or "no". */
const char *bwi_flag_here(const bw_flag *flag, bw_text *out);
const char *bwi_falls_words(const bw_case *deck, bw_text *out);
extern const char bwi_rail_words[];
/* What a sign may say, or null where no number can be given; *words explains either. */
const char *bwi_people_sign(const bw_assessment *a, bw_text *out, const char **words);
void bwi_text_site(const bw_assessment *a, bw_text *out);

/* ---- lean.c: the buckled shape in words ---- */

/* The row (along) or the bent that is nearest to buckling, and its number; null if none
 * is near. */
const bw_buckled *bwi_buckled_lowest(const bw_assessment *a, bool along, size_t *number);
/* "row left would buckle under 4.2 times dead + crowd, pushed forward: posts ... lean
 * forward; ..." */
const char *bwi_buckled_words(const bw_assessment *a, size_t number, bool along,
                              bw_text *out);
void bwi_text_buckled(const bw_assessment *a, bw_text *out);

/* ---- strips.c: long decks are drawn in parts ---- */

/* Part of a deck that is drawn at once: bents first to last. */
typedef struct {
    size_t first, last;
} bwi_strip;
/* Strips of about the same length that fit the page; null without memory. */
const bwi_strip *bwi_strips(bw_arena *arena, const bw_case *deck, size_t *count);
double bwi_longest_strip(const bw_case *deck, const bwi_strip *strips,
                         size_t count); /* [m] */

/* ---- sketch.c: each row in characters ---- */

void bwi_text_sketch(const bw_assessment *a, bw_text *out);

/* A section, every item (null-terminated) behind a dash (in text.c). */
void bwi_text_list(const char *id, const char *const *items, bw_text *out);

/* ---- csv.c: cells of RFC 4180; end is ',' or the last of a line ---- */

void bwi_csv_text(bw_text *out, const char *text, char end);
void bwi_csv_number(bw_text *out, double value); /* empty if not finite */

/* ---- working.c: one finding, so that a person can redo it ---- */

void bwi_text_working(const bw_finding *finding, bw_units units, bw_text *out);
/* Its table alone, with the sources below. */
void bwi_text_terms(const bw_working *working, bw_units units, bw_text *out);

/* ---- load_lines.c: how loads came about ---- */

void bwi_text_load_lines(const bw_assessment *assessment, bw_text *out);

/* ---- members.c: members with their percentages ---- */

void bwi_text_members(const bw_assessment *assessment, bw_text *out);
/* Kinds of checks that at least one of the members has; returns how many. */
size_t bwi_used_kinds(const bw_member_result *members, size_t count, int *kinds);
/* Short, over a column: the check's own id where there is no shorter word. */
const char *bwi_kind_word(const bw_member_result *members, size_t count, int kind);
/* How many members from the first on have its role. */
size_t bwi_same_role(const bw_assessment *assessment, size_t first);

/* ---- basis.c: loads, limits, assumptions and strengths, as text ---- */

void bwi_text_loads(const bw_assessment *assessment, bw_text *out);
/* What is to be done for the verdict to hold, below it; nothing if there is nothing. */
void bwi_text_to_do(const bw_assessment *assessment, bw_text *out);
void bwi_text_strengths(const bw_assessment *assessment, bw_text *out);

/* ---- grade.c: what looking at the logs cost, and what a further look would win ---- */

void bwi_text_grades(const bw_assessment *assessment, bw_text *out);
/* What a question leaves of a property of the log; silence does not count where somebody
 * graded the log into a class. */
double bwi_grade_left(const bw_log *log, size_t question, bw_property property);
bool bwi_same_grade(const bw_log *a, const bw_log *b);
/* Logs of one grade share the rows of the first of them. */
bool bwi_grade_was_shown(const bw_case *deck, size_t log);

/* ---- duty.c: what the answers about sizes rest on ---- */

/* "a rider of 254 lb with bike, pressing down with 3 times that" and the like. */
const char *bwi_duty_loads(bw_arena *arena, const bw_duty *duty);
/* "one of two rows 3 ft apart under a deck 4 ft wide". */
const char *bwi_duty_place(bw_arena *arena, const bw_duty *duty);
/* Loads, place, basis, grade, what was not checked, and the caution; paragraphs. */
void bwi_duty_lines(const bw_duty *duty, const bw_eye_grade *grade, bw_text *out);
/* The same as a member of a JSON object. */
struct bwi_json;
void bwi_duty_json(struct bwi_json *json, const bw_duty *duty, const bw_species *species,
                   const bw_eye_grade *grade);
/* The value, rounded up to whole steps. */
double bwi_up(double value, double step);
/* What an answer about one log does not tell: ends with a null text. */
extern const char *const bwi_sizes_not_checked[];
extern const char bwi_sizes_caution[];

/* ---- csv.c ---- */

/* A quoted cell; end: ',' or the end of the line. */
void bwi_csv_text(bw_text *out, const char *text, char end);
void bwi_csv_number(bw_text *out, double value); /* with a comma; empty if not finite */

/* ---- json_write.c: objects, arrays and commas ---- */

typedef struct bwi_json {
    bw_text *out;
    int depth;
    bool has_before; /* something stands before in the open object or array */
} bwi_json;

bwi_json bwi_json_new(bw_text *out);
/* key is null inside an array. open is '{' or '['; close with the matching sign. */
void bwi_json_begin(bwi_json *json, const char *key, char open);
void bwi_json_end(bwi_json *json, char close);
void bwi_json_text(bwi_json *json, const char *key, const char *text); /* null: null */
void bwi_json_real(bwi_json *json, const char *key, double value);
void bwi_json_known(bwi_json *json, const char *key, double value, bool known);
void bwi_json_whole(bwi_json *json, const char *key, int value);
/* What is to be done, or the other assumptions, as texts. */
void bwi_json_assumptions(bwi_json *json, const char *key, const bw_assessment *a,
                          bool to_do);
/* A list of texts that ends with a null; null itself: an empty one. */
void bwi_json_texts(bwi_json *json, const char *key, const char *const *items);
void bwi_json_working(bwi_json *json, const char *key, const bw_working *working);

/* load_lines.c */
void bwi_json_load_lines(bwi_json *json, const bw_assessment *assessment);
void bwi_json_heads(bwi_json *json, const bw_assessment *assessment);
void bwi_json_flags(bwi_json *json, const bw_assessment *assessment);

#endif
