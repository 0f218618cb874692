/* new.c - the command new: plain questions in, a case file out. Nothing is written before
 * the last answer is in and the case was read back. */
#include "commands.h"
#include "output.h"

#include "bolewright/input.h"
#include "bolewright/report.h"

#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { LONGEST = 500, ROWS = 3, BENTS_MOST = 60 };

static const double pi = 3.14159265358979323846;

/* Braces reach from a hand above the ground to a little below the tops of the posts [m].
 */
static const double brace_foot = 0.1, below_top = 0.04, least_rise = 0.15;

/* A bolt that pulls sits seven thicknesses from the ends of brace and post: full strength
 * in softwood (NDS 2018, Table 12.5.1A: MEMORY; the check looks again). Its washers are
 * three wide. */
static const double bolt_ends = 7.0, bolt_washer = 3.0;

typedef enum {
    LENGTH, /* the units of its answer become those of the case */
    SPACING,
    WIDTH,
    USE,
    WOOD,
    GIRTH,
    POST_WOOD,
    POST,
    SEAT,
    HEIGHT,
    HOLE,
    PAD,
    SOIL,
    SNOW,
    BRACES, /* if the posts are long enough */
    BOLT,   /* if braces are bolted */
    QUESTIONS
} question;

typedef enum { AS_WORD, AS_SPECIES, AS_QUANTITY } kind;

typedef struct {
    const char *words;
    const char *usual[2]; /* imperial, metric */
    kind kind;
    bw_quantity quantity;
    double low, high;       /* SI */
    const char *choices[4]; /* of a word */
} question_row;

/* Bounds are those of the case reader or narrower. Usual answers that nobody measured are
 * on the cautious side: unknown wood, the poorest soil. */
static const question_row questions[QUESTIONS] = {
    [LENGTH] = {.words = "How long is the deck, along the way over it?",
                .usual = {"16 ft", "4.8 m"},
                .kind = AS_QUANTITY,
                .quantity = BW_LENGTH,
                .low = 1.0,
                .high = 100.0},
    [SPACING] = {.words = "How far apart may the posts stand, at most?",
                 .usual = {"6 ft", "1.8 m"},
                 .kind = AS_QUANTITY,
                 .quantity = BW_LENGTH,
                 .low = 0.5,
                 .high = 12.0},
    [WIDTH] = {.words = "How wide is the deck?",
               .usual = {"3 ft 6 in", "1.1 m"},
               .kind = AS_QUANTITY,
               .quantity = BW_LENGTH,
               .low = 0.4,
               .high = 4.0},
    [USE] = {.words = "Who will be on it: riders, people, or both?",
             .usual = {"both", "both"},
             .kind = AS_WORD,
             .choices = {"riders", "people", "both"}},
    [WOOD] = {.words = "Which species are the stringers, the logs along the deck?",
              .usual = {"unknown softwood", "unknown softwood"},
              .kind = AS_SPECIES},
    [GIRTH] = {.words = "Girth of the thinnest stringer at its thin end, bark off?",
               .usual = {"34 in", "860 mm"},
               .kind = AS_QUANTITY,
               .quantity = BW_LENGTH,
               .low = 0.2,
               .high = 2.5},
    [POST_WOOD] = {.words =
                       "Which species are posts and caps (caps lie across the posts)?",
                   .usual = {"unknown softwood", "unknown softwood"},
                   .kind = AS_SPECIES},
    [POST] = {.words = "Girth of the thinnest post or cap at its thin end, bark off?",
              .usual = {"34 in", "860 mm"},
              .kind = AS_QUANTITY,
              .quantity = BW_LENGTH,
              .low = 0.2,
              .high = 2.5},
    [SEAT] = {.words =
                  "How deep is the flat cut on each log where logs lie on each other?",
              .usual = {"1 1/2 in", "40 mm"},
              .kind = AS_QUANTITY,
              .quantity = BW_LENGTH,
              .low = 0.005,
              .high = 0.1},
    [HEIGHT] = {.words = "How high above the ground is the top of the boards?",
                .usual = {"3 ft", "0.9 m"},
                .kind = AS_QUANTITY,
                .quantity = BW_LENGTH,
                .low = 0.1,
                .high = 6.0},
    [HOLE] = {.words = "How deep are the holes of the posts?",
              .usual = {"4 ft", "1.2 m"},
              .kind = AS_QUANTITY,
              .quantity = BW_LENGTH,
              .low = 0.2,
              .high = 3.0},
    [PAD] = {.words = "How wide is the flat stone or pad at the bottom of each hole?",
             .usual = {"24 in", "600 mm"},
             .kind = AS_QUANTITY,
             .quantity = BW_LENGTH,
             .low = 0.1,
             .high = 1.5},
    [SOIL] = {.words = "What do the holes stand in: gravel, sand or clay?",
              .usual = {"clay", "clay"},
              .kind = AS_WORD,
              .choices = {"gravel", "sand", "clay"}},
    [SNOW] = {.words = "How heavy does snow lie there (ask the local code; 0 psf: none)?",
              .usual = {"25 psf", "1.2 kPa"},
              .kind = AS_QUANTITY,
              .quantity = BW_PRESSURE,
              .low = 0.0,
              .high = 20e3},
    [BRACES] = {.words =
                    "Crossed braces in every bent and bay: no, notched (let into the "
                    "posts,\n         they only push) or bolted (they pull too)?",
                .usual = {"no", "no"},
                .kind = AS_WORD,
                .choices = {"no", "notched", "bolted"}},
    [BOLT] = {.words = "How thick is the bolt through each end of a brace?",
              .usual = {"1 in", "24 mm"},
              .kind = AS_QUANTITY,
              .quantity = BW_LENGTH,
              .low = 0.006,
              .high = 0.03},
};

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags tables, output, deck;
    bw_species_table species;
    bw_units units;
    const char *answer[QUESTIONS]; /* as given, or the word or species it means */
    double value[QUESTIONS];       /* of quantities [SI] */
    bw_text text;                  /* the case */
    bw_assessment assessment;
    const char *path;
} new_run;

/* ---- asking ---- */

static void tell(const char *lead, const char *words)
{
    (void)fprintf(stderr, "%s%s\n", lead, words != NULL ? words : "");
}

/* False at the end of input. A line too long is taken whole and reads as nothing useful.
 */
static bool line_read(char line[LONGEST])
{
    if (fgets(line, LONGEST, stdin) == NULL) {
        return false;
    }
    if (isatty(STDIN_FILENO) != 1) {
        tell("", ""); /* nobody ended the line of the question */
    }
    size_t length = strlen(line);
    if (length > 0 && line[length - 1] != '\n') {
        for (int c = getchar(); c != '\n' && c != EOF; c = getchar()) {
        }
    }
    while (length > 0 && strchr(" \t\r\n", line[length - 1]) != NULL) {
        line[--length] = '\0';
    }
    return true;
}

static bool word_take(new_run *run, question q, const char *text)
{
    for (size_t k = 0; k < 4 && questions[q].choices[k] != NULL; k++) {
        const char *choice = questions[q].choices[k];
        if (strncmp(choice, text, strlen(text)) == 0) { /* y, or met, will do */
            run->answer[q] = choice;
            return true;
        }
    }
    tell("  That is none of the answers: ", text);
    return false;
}

static bool species_take(new_run *run, question q, const char *text)
{
    const char *near[3] = {NULL, NULL, NULL};
    const bw_species *found = bw_species_find(&run->species, text, near, 3);
    if (found == NULL) {
        tell("  No species is called ", text);
        for (size_t k = 0; k < 3 && near[k] != NULL; k++) {
            tell("    near to it: ", near[k]);
        }
        tell(
            "  \"bolewright species\" lists them; unknown softwood and unknown hardwood ",
            "will do.");
        return false;
    }
    run->answer[q] = found->common;
    return true;
}

static const char *print(new_run *run, bw_quantity quantity, double value)
{
    const char *text = bw_quantity_print(run->arena, quantity, value, run->units);
    return text != NULL ? text : "?";
}

/* Height of the posts' tops above the ground, or a little less. */
static double posts_top(const new_run *run)
{
    return run->value[HEIGHT] - 0.05 - (run->value[GIRTH] + run->value[POST]) / pi;
}

static double thickest_bolt(const new_run *run)
{
    return (posts_top(run) - brace_foot - least_rise) / bolt_ends;
}

/* The same rounded down to a size that is sold. */
static const char *thickest_bolt_text(const new_run *run)
{
    const double step = run->units == BW_IMPERIAL ? bw_inch / 8.0 : 0.002;
    const double size = floor(thickest_bolt(run) / step) * step;
    const char *text = bw_length_print_small(run->arena, size, run->units);
    return text != NULL ? text : "?";
}

/* What one answer allows of another. */
static bool goes_together(new_run *run, question q, double value)
{
    const double thin = fmin(run->value[GIRTH], run->value[POST]) / pi;
    if (q == SEAT && value > 0.25 * thin) {
        tell("  That cuts too far into the thinnest log: at most ",
             bw_length_print_small(run->arena, 0.25 * thin, run->units));
        return false;
    }
    if (q == BOLT && value > thickest_bolt(run)) {
        tell(
            "  The posts are too short for it: a bolt needs seven times its thickness of "
            "wood\n  beyond it. At most ",
            thickest_bolt_text(run));
        return false;
    }
    const double least = (run->value[GIRTH] + run->value[POST]) / pi + 0.1;
    if (q == HEIGHT && value < least) {
        tell("  Boards, stringer and cap alone are thicker: on posts it is at least ",
             print(run, BW_LENGTH, least));
        return false;
    }
    if (q == SPACING && ceil(run->value[LENGTH] / value - 1e-9) >= BENTS_MOST) {
        tell("  That makes too many bents; set them further apart.", "");
        return false;
    }
    return true;
}

static bool quantity_take(new_run *run, question q, const char *text)
{
    const question_row *row = &questions[q];
    double value = 0.0;
    const char *hint = NULL;
    const bw_parse fault = bw_quantity_parse(row->quantity, text, &value);
    if (fault != BW_PARSE_OK) {
        tell("  ", bw_parse_explain(run->arena, fault, row->quantity, text, &hint));
        tell("  ", hint);
        return false;
    }
    if (!(value >= row->low && value <= row->high)) {
        (void)fprintf(stderr, "  Allowed: %s to %s\n",
                      print(run, row->quantity, row->low),
                      print(run, row->quantity, row->high));
        return false;
    }
    if (!goes_together(run, q, value)) {
        return false;
    }
    run->value[q] = value;
    run->answer[q] = bw_arena_copy(run->arena, text);
    return run->answer[q] != NULL;
}

static bool take(new_run *run, question q, const char *text)
{
    switch (questions[q].kind) {
    case AS_WORD:
        return word_take(run, q, text);
    case AS_SPECIES:
        return species_take(run, q, text);
    default:
        return quantity_take(run, q, text);
    }
}

static bool has_braces(const new_run *run)
{
    return run->answer[BRACES] != NULL && strcmp(run->answer[BRACES], "no") != 0;
}

static bool is_bolted(const new_run *run)
{
    return has_braces(run) && strcmp(run->answer[BRACES], "bolted") == 0;
}

/* Short posts have no room for braces: not even for a bolt of three quarters of an inch.
 */
static bool is_asked(const new_run *run, question q)
{
    return q == BRACES ? thickest_bolt(run) > 0.019 : q == BOLT ? is_bolted(run) : true;
}

/* As far as it is known at question q; the bolt, which most decks do not have, comes
 * last.
 */
static int how_many(const new_run *run, question q)
{
    int count = 0;
    for (int k = 0; k < QUESTIONS; k++) {
        const question other = (question)k;
        const bool open = other == BRACES && q <= HEIGHT;
        count += open || is_asked(run, other) ? 1 : 0;
    }
    return count;
}

/* The first letter or sign of a length that was read: metres, centimetres, or feet. */
static bool is_metric(const char *length)
{
    const char *unit = length + strcspn(length, "mMcCkKfFiIyY'\"");
    const bool mile = *unit != '\0' && (unit[1] == 'i' || unit[1] == 'I');
    return *unit != '\0' && strchr("mMcCkK", *unit) != NULL && !mile;
}

/* A usual height is raised if the logs are too thick for it. */
static const char *usual_answer(new_run *run, question q)
{
    const double least = (run->value[GIRTH] + run->value[POST]) / pi + 0.15;
    const char *usual = questions[q].usual[run->units];
    double value = 0.0;
    if (q == HEIGHT && bw_quantity_parse(BW_LENGTH, usual, &value) == BW_PARSE_OK &&
        value < least) {
        return print(run, BW_LENGTH, ceil(least / 0.1) * 0.1);
    }
    const double thin = fmin(run->value[GIRTH], run->value[POST]) / pi;
    if (q == SEAT && bw_quantity_parse(BW_LENGTH, usual, &value) == BW_PARSE_OK &&
        value > 0.25 * thin) {
        const double step = run->units == BW_IMPERIAL ? bw_inch / 4.0 : 0.005;
        const char *less = bw_length_print_small(
            run->arena, fmax(floor(0.25 * thin / step) * step, step), run->units);
        return less != NULL ? less : usual;
    }
    if (q == BOLT && bw_quantity_parse(BW_LENGTH, usual, &value) == BW_PARSE_OK &&
        value > thickest_bolt(run)) {
        return thickest_bolt_text(run);
    }
    return usual;
}

static bw_status ask(new_run *run, question q)
{
    char line[LONGEST];
    const char *usual = usual_answer(run, q);
    const int total = how_many(run, q);
    if (run->options->value[BWI_OPT_DEFAULTS] != NULL) {
        return take(run, q, usual) ? BW_OK : BW_E_MEMORY;
    }
    do {
        (void)fprintf(stderr, "%2d of %d  %s\n         [%s] ", (int)q + 1, total,
                      questions[q].words, usual);
        (void)fflush(stderr);
        if (!line_read(line)) {
            tell("", "");
            bw_diags_error(&run->output, "new.ended", NULL,
                           "an empty line takes the answer in brackets; --defaults takes "
                           "them all",
                           "the answers ended at question %d of %d: nothing is written",
                           (int)q + 1, total);
            return BW_E_IO;
        }
    } while (!take(run, q, line[strspn(line, " \t")] == '\0' ? usual : line));
    if (q == LENGTH && run->options->value[BWI_OPT_UNITS] == NULL) {
        run->units = is_metric(run->answer[LENGTH]) ? BW_METRIC : BW_IMPERIAL;
    }
    return BW_OK;
}

/* ---- the case ---- */

static const char *const row_names[ROWS] = {"left", "right", "middle"};

/* A middle row where two would stand more than about 1.2 m apart. */
static size_t n_rows(const new_run *run)
{
    return run->value[WIDTH] > 1.6 ? 3 : 2;
}

static size_t n_bays(const new_run *run)
{
    const double bays = ceil(run->value[LENGTH] / run->value[SPACING] - 1e-9);
    return bays > 1.0 ? (size_t)bays : 1;
}

static const char *bent_name(new_run *run, size_t k)
{
    const char *name = k < 26 ? bw_arena_print(run->arena, "%c", (int)('A' + k))
                              : bw_arena_print(run->arena, "A%zu", k);
    return name != NULL ? name : "?";
}

static void add_pair(new_run *run, const char *key, const char *text, const char *end)
{
    bw_text_print(&run->text, "\"%s\": ", key);
    bw_json_string(&run->text, text);
    bw_text_add(&run->text, end);
}

static void add_log(new_run *run, const char *name, const char *species,
                    const char *const girth[2], bool last)
{
    bw_text_add(&run->text, "    { ");
    add_pair(run, "name", name, ", ");
    add_pair(run, "species", species, ", ");
    add_pair(run, "butt_girth", girth[0], ", ");
    add_pair(run, "tip_girth", girth[1], ", ");
    add_pair(run, "bark", "off", last ? " }\n" : " },\n");
}

/* Butt and tip of the poles that braces are; nobody is asked. */
static const char *const brace_girth[2][2] = {{"13 in", "12 in"}, {"330 mm", "300 mm"}};

static void add_logs(new_run *run)
{
    const char *const stringer[2] = {run->answer[GIRTH], run->answer[GIRTH]};
    const char *const post[2] = {run->answer[POST], run->answer[POST]};
    const char *const brace[2] = {brace_girth[run->units][0], brace_girth[run->units][1]};
    bw_text_add(&run->text, "  \"logs\": [\n");
    add_log(run, "stringer, the thinnest", run->answer[WOOD], stringer, false);
    add_log(run, "cap, the thinnest", run->answer[POST_WOOD], post, false);
    add_log(run, "post, the thinnest", run->answer[POST_WOOD], post, !has_braces(run));
    if (has_braces(run)) {
        add_log(run, "brace, a thin pole", run->answer[POST_WOOD], brace, true);
    }
    bw_text_add(&run->text, "  ],\n");
}

static double across(const new_run *run, size_t row)
{
    static const double side[ROWS] = {-1.0, 1.0, 0.0};
    return side[row] * 0.46 * run->value[WIDTH];
}

static void add_rows(new_run *run)
{
    bw_text_add(&run->text, "  \"rows\": [\n");
    for (size_t r = 0; r < n_rows(run); r++) {
        bw_text_add(&run->text, "    { ");
        add_pair(run, "name", row_names[r], ", ");
        add_pair(run, "across", print(run, BW_LENGTH, across(run, r)),
                 r + 1 < n_rows(run) ? " },\n" : " }\n");
    }
    bw_text_add(&run->text, "  ],\n");
}

static void add_bents(new_run *run)
{
    bw_text_add(&run->text, "  \"every_bent\": {\n    ");
    add_pair(run, "deck_height", run->answer[HEIGHT], ",\n    ");
    add_pair(run, "cap", "cap, the thinnest", ",\n    \"posts\": [\n");
    for (size_t r = 0; r < n_rows(run); r++) {
        bw_text_add(&run->text, "      { ");
        add_pair(run, "row", row_names[r], ", ");
        add_pair(run, "log", "post, the thinnest", ", ");
        add_pair(run, "hole_depth", run->answer[HOLE], ", \"pad\": { ");
        add_pair(run, "width", run->answer[PAD],
                 r + 1 < n_rows(run) ? " } },\n" : " } }\n");
    }
    bw_text_add(&run->text, "    ]\n  },\n  \"bents\": [\n");
    for (size_t k = 0; k <= n_bays(run); k++) {
        const double at = run->value[LENGTH] * (double)k / (double)n_bays(run);
        bw_text_add(&run->text, "    { ");
        add_pair(run, "name", bent_name(run, k), ", ");
        add_pair(run, "at", print(run, BW_LENGTH, at),
                 k < n_bays(run) ? " },\n" : " }\n");
    }
    bw_text_add(&run->text, "  ],\n");
}

/* Butts and tips change about along a row. */
static void add_stringers(new_run *run)
{
    bw_text_add(&run->text, "  \"stringers\": [\n");
    for (size_t r = 0; r < n_rows(run); r++) {
        for (size_t k = 0; k < n_bays(run); k++) {
            const bool last = r + 1 == n_rows(run) && k + 1 == n_bays(run);
            bw_text_add(&run->text, "    { ");
            add_pair(run, "name",
                     bw_arena_print(run->arena, "%s %zu", row_names[r], k + 1), ", ");
            add_pair(run, "row", row_names[r], ", ");
            add_pair(run, "log", "stringer, the thinnest", ", ");
            add_pair(run, "from", bent_name(run, k), ", ");
            add_pair(run, "to", bent_name(run, k + 1), ", ");
            add_pair(run, "butt_at", bent_name(run, k % 2 == 0 ? k : k + 1),
                     last ? " }\n" : " },\n");
        }
    }
    bw_text_add(&run->text, "  ],\n");
}

static const char *brace_name(new_run *run, bool across_deck, const char *where,
                              const char *const ends[2])
{
    return bw_arena_print(run->arena, "%s %s, %s to %s", across_deck ? "across" : "along",
                          where, ends[0], ends[1]);
}

/* Ends a hand above the ground and a little below the caps. */
static void add_brace(new_run *run, const char *plane, const char *where,
                      const char *const ends[2], bool *first)
{
    const bool across_deck = strcmp(plane, "bent") == 0;
    const char *key = across_deck ? "row" : "bent";
    const double top = posts_top(run);
    const char *low = print(run, BW_LENGTH, brace_foot);
    const double less = is_bolted(run) ? bolt_ends * run->value[BOLT] : below_top;
    const char *high = print(run, BW_LENGTH, top - less);
    bw_text_add(&run->text, *first ? "    { " : ",\n    { ");
    *first = false;
    add_pair(run, "name", brace_name(run, across_deck, where, ends), ", ");
    add_pair(run, "kind", "crossed", ", ");
    add_pair(run, "log", "brace, a thin pole", ", ");
    bw_text_add(&run->text, is_bolted(run) ? "\"pulls\": true, " : "");
    add_pair(run, plane, where, ", \"from\": { ");
    add_pair(run, key, ends[0], ", ");
    add_pair(run, "height", low, " }, \"to\": { ");
    add_pair(run, key, ends[1], ", ");
    add_pair(run, "height", high, " } }");
}

typedef void (*add_one)(new_run *run, const char *plane, const char *where,
                        const char *const ends[2], bool *first);

/* One entry for every crossed pair: each bent, and each bay of each row. */
static void add_for_braces(new_run *run, const char *key, add_one one)
{
    bool first = true;
    bw_text_print(&run->text, "  \"%s\": [\n", key);
    for (size_t k = 0; k <= n_bays(run); k++) {
        const char *const ends[2] = {"left", "right"};
        one(run, "bent", bent_name(run, k), ends, &first);
    }
    for (size_t r = 0; r < n_rows(run); r++) {
        for (size_t k = 0; k < n_bays(run); k++) {
            const char *const ends[2] = {bent_name(run, k), bent_name(run, k + 1)};
            one(run, "row", row_names[r], ends, &first);
        }
    }
    bw_text_add(&run->text, "\n  ],\n");
}

static double bolt_edge(const new_run *run)
{
    double tip = 0.0;
    (void)bw_quantity_parse(BW_LENGTH, brace_girth[run->units][1], &tip);
    return tip / pi / 2.0;
}

static void add_joint(new_run *run, const char *plane, const char *where,
                      const char *const ends[2], bool *first)
{
    const bool across_deck = strcmp(plane, "bent") == 0;
    const double bolt = run->value[BOLT];
    bw_text_add(&run->text, *first ? "    { " : ",\n    { ");
    *first = false;
    add_pair(run, "brace", brace_name(run, across_deck, where, ends),
             ", \"fasteners\": { ");
    add_pair(run, "kind", "bolt", ", \"count\": 1, ");
    add_pair(run, "diameter", run->answer[BOLT], ", ");
    add_pair(run, "head", print(run, BW_LENGTH, bolt_washer * bolt), ", ");
    add_pair(run, "end", print(run, BW_LENGTH, bolt_ends * bolt), ", ");
    add_pair(run, "edge", print(run, BW_LENGTH, bolt_edge(run)), ", ");
    add_pair(run, "loaded_edge", print(run, BW_LENGTH, run->value[POST] / pi / 2.0),
             " } }");
}

static void add_braces(new_run *run)
{
    if (has_braces(run)) {
        add_for_braces(run, "braces", add_brace);
    }
    if (is_bolted(run)) {
        add_for_braces(run, "joints", add_joint);
    }
}

static void add_loads(new_run *run)
{
    const bool imperial = run->units == BW_IMPERIAL;
    const char *use = run->answer[USE];
    const char *rider = strcmp(use, "people") == 0 ? "null"
                        : imperial ? "{ \"mass\": \"254 lb\", \"factor\": 3.0 }"
                                   : "{ \"mass\": \"115 kg\", \"factor\": 3.0 }";
    bw_text_add(&run->text, "  \"ground\": { ");
    add_pair(run, "soil", run->answer[SOIL], " },\n");
    bw_text_print(&run->text, "  \"loads\": {\n    \"rider\": %s", rider);
    if (strcmp(use, "riders") != 0) {
        bw_text_print(&run->text, ",\n    \"crowd\": \"%s\"",
                      imperial ? "60 psf" : "3 kPa");
    }
    if (run->value[SNOW] > 0.0) {
        bw_text_add(&run->text, ",\n    ");
        add_pair(run, "snow", run->answer[SNOW], "");
    }
    bw_text_add(&run->text, "\n  },\n  \"limits\": { ");
    add_pair(run, "seat_depth", run->answer[SEAT], " }\n}\n");
}

/* "porch-steps.json" is the case of "Porch steps". */
static const char *title(new_run *run)
{
    const char *path = run->options->operand;
    const char *slash = path == NULL ? NULL : strrchr(path, '/');
    char *name = path == NULL || bwi_output_is_stream(path)
                     ? NULL
                     : bw_arena_copy(run->arena, slash != NULL ? slash + 1 : path);
    char *dot = name == NULL ? NULL : strrchr(name, '.');
    if (dot != NULL) {
        *dot = '\0';
    }
    bool plain = name != NULL && name[0] != '\0';
    for (char *c = name; plain && *c != '\0'; c++) {
        plain = *c >= 0x20 && *c < 0x7F;
        *c = (char)(*c == '-' || *c == '_' ? ' ' : *c);
    }
    if (!plain) {
        return "Our deck";
    }
    name[0] = (char)(name[0] >= 'a' && name[0] <= 'z' ? name[0] - 'a' + 'A' : name[0]);
    return name;
}

static void case_write(new_run *run)
{
    run->text = bw_text_new(run->arena);
    bw_text_add(&run->text, "{\n  \"format\": 1,\n  ");
    add_pair(run, "title", title(run), ",\n  ");
    add_pair(run, "units", run->units == BW_METRIC ? "metric" : "imperial",
             ",\n  \"deck\": { ");
    add_pair(run, "width", run->answer[WIDTH], " },\n");
    add_logs(run);
    add_rows(run);
    add_bents(run);
    add_stringers(run);
    add_braces(run);
    add_loads(run);
}

/* ---- the run ---- */

/* The case as check reads and judges it. */
static bw_status read_back(new_run *run)
{
    bw_case *deck = BW_NEW(run->arena, bw_case, 1);
    if (deck == NULL || bw_text_string(&run->text) == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(bw_input_case(run->arena, run->text.data, &run->species, deck, &run->deck));
    return bw_deck_assess(run->arena, deck, &run->assessment, &run->deck);
}

/* What the case holds that nobody was asked. */
static void say_not_asked(new_run *run, bw_text *line)
{
    bw_text_add(line,
                "Not asked, so change it in the file: the girths stand for the "
                "thinnest log of each kind;\nboards across the deck are not described "
                "and not checked");
    if (has_braces(run)) {
        bw_text_print(line, ";\nbraces are poles of %s girth at the thin end",
                      brace_girth[run->units][1]);
    }
    if (is_bolted(run)) {
        bw_text_print(line, ", the bolt through the middle, %s from the end",
                      print(run, BW_LENGTH, bolt_ends * run->value[BOLT]));
    }
    bw_text_add(line, ".\n");
}

static bw_status say(new_run *run)
{
    bw_text line = bw_text_new(run->arena);
    const char *verdict = bw_report_verdict_text(run->arena, &run->assessment);
    const bool printed = bwi_output_is_stream(run->path);
    if (verdict == NULL) {
        return BW_E_MEMORY;
    }
    bw_text_print(&line, "%s\nwritten: %s\n", verdict, run->path);
    say_not_asked(run, &line);
    bw_text_print(
        &line,
        "next: bolewright check %s, or change it in the browser: bolewright page "
        "%s\n"
        "A sanity check, not engineering: local building rules come first, and a "
        "licensed\nengineer must review anything that people rely on.\n",
        run->path, run->path);
    return printed || run->options->value[BWI_OPT_QUIET] != NULL
               ? BW_OK
               : bwi_output_print(&line, &run->output);
}

static bw_status make(new_run *run)
{
    const bwi_options *o = run->options;
    const bool force = o->value[BWI_OPT_FORCE] != NULL;
    const char *units = o->value[BWI_OPT_UNITS];
    run->units = units != NULL && strcmp(units, "metric") == 0 ? BW_METRIC : BW_IMPERIAL;
    BW_TRY(bwi_output_path_allowed(run->path, force, "-", &run->output));
    BW_TRY(bw_input_species(run->arena, o->value[BWI_OPT_TABLES], &run->species,
                            &run->tables));
    if (o->value[BWI_OPT_DEFAULTS] == NULL) {
        tell(
            "",
            "An empty line takes the answer in brackets. Lengths as you write them, with "
            "their\nunit: 6 ft 6 in, 7'6\", 25 1/2 in, 2.29 m, 150 mm. Ctrl-C leaves "
            "nothing behind.\n");
    }
    for (int q = 0; q < QUESTIONS; q++) {
        if (is_asked(run, (question)q)) {
            BW_TRY(ask(run, (question)q));
        }
    }
    case_write(run);
    BW_TRY(read_back(run));
    if (!bwi_output_is_stream(run->path)) {
        (void)signal(SIGINT, SIG_IGN); /* from here the file is written whole */
    }
    return bwi_output_to(run->path, &run->text, force, &run->output);
}

int bwi_new_run(bw_arena *arena, const bwi_options *options)
{
    new_run run = {.arena = arena,
                   .options = options,
                   .path = options->operand != NULL ? options->operand : "deck.json",
                   .tables = bw_diags_new(arena, options->value[BWI_OPT_TABLES]),
                   .deck = bw_diags_new(arena, "the case"),
                   .output = bw_diags_new(arena, NULL)};
    bw_status status = make(&run);
    if (status == BW_OK) {
        status = say(&run);
    }
    const bw_diags *const all[] = {&run.tables, &run.deck, &run.output, NULL};
    const bool within =
        status == BW_OK && bw_report_verdict(&run.assessment) == BW_WITHIN;
    return bwi_output_answer(status, all, within);
}
