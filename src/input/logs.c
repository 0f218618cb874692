/* logs.c - a pile of logs as a table. Every line becomes a log as a case describes one,
 * and is read by the same reader, so that a log is judged the same wherever it is written
 * down; the places of its cells go with it. */
#include "case.h"
#include "csv.h"
#include "shape.h"

#include <ctype.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/* Beyond the middle of a log whose tip nobody measured the diameter is taken to fall by
 * this, or as it fell before the middle if that is more. Median over bark of open-grown
 * stems of 36 species, 4 1/2 to 17 ft up, 0.21 in per ft, by the volume equations of
 * Westfall et al., GTR-WO-104 (2023): COMPUTED. */
static const double usual_taper = 0.21 / 12.0;

typedef enum {
    ID,
    SPECIES,
    BUTT_GIRTH,
    BUTT_DIAMETER,
    MID_GIRTH,
    MID_DIAMETER,
    TIP_GIRTH,
    TIP_DIAMETER,
    LENGTH,
    BARK,
    BARK_THICKNESS,
    STRENGTH_CLASS,
    LARGEST_KNOT,
    KNOTS_IN_FOOT,
    SPIRAL_GRAIN,
    DRYING_CHECK,
    SWEEP,
    SWEEP_OVER,
    INSECTS,
    DECAY,
    DEAD_WHEN_CUT,
    NOTE,
    COLUMNS
} column;

static const char *const headings[COLUMNS] = {"id",
                                              "species",
                                              "butt girth",
                                              "butt diameter",
                                              "mid girth",
                                              "mid diameter",
                                              "tip girth",
                                              "tip diameter",
                                              "length",
                                              "bark",
                                              "bark thickness",
                                              "strength class",
                                              "largest knot",
                                              "knots in foot",
                                              "spiral grain",
                                              "drying check",
                                              "sweep",
                                              "sweep over",
                                              "insects",
                                              "decay",
                                              "dead when cut",
                                              "note"};

typedef struct {
    bwi_json *table; /* of the file */
    bwi_csv csv;
    int where[COLUMNS]; /* index of the cell in a line; -1: no such column */
    /* the same as JSON, with the place and heading of every value in its order */
    bw_text json;
    bwi_place *places;
    const char **heads;
    size_t n_places, cap_places, cap_heads;
} writer;

/* ---- faults of the table ---- */

static void table_fault(const writer *w, size_t offset, const char *id, const char *hint,
                        const char *message)
{
    const bwi_fault fault = {.severity = BW_ERROR,
                             .id = id,
                             .message = message,
                             .hint = hint,
                             .offset = offset};
    bwi_fault_add(w->table, &fault);
}

/* ---- the header ---- */

/* Letter case, underscores and hyphens do not matter. */
static const char *plain_heading(bwi_json *doc, const char *text)
{
    char *copy = bw_arena_copy(doc->arena, text);
    doc->out_of_memory = doc->out_of_memory || copy == NULL;
    for (char *c = copy; c != NULL && *c != '\0'; c++) {
        *c = *c == '_' || *c == '-' ? ' ' : (char)tolower((unsigned char)*c);
    }
    return copy != NULL ? copy : "";
}

static void unknown_column(const writer *w, const bwi_cell *cell, const char *name)
{
    const bool semicolons = strchr(cell->text, ';') != NULL;
    const char *near = semicolons ? NULL : bw_nearest_word(name, headings, COLUMNS);
    const char *hint = "id, species, butt girth, mid girth, tip girth (or ... diameter), "
                       "length, bark, what \"grade\" of a case knows, note";
    if (near != NULL) {
        hint = bwi_print(w->table, "did you mean \"%s\"?", near);
    } else if (semicolons) {
        hint = "save the table with commas between its cells";
    }
    table_fault(w, cell->offset, "csv.column", hint,
                bwi_print(w->table, "there is no column \"%s\"",
                          bwi_excerpt(w->table, cell->text, strlen(cell->text))));
}

static void header_cell(writer *w, const bwi_cell *cell, int index)
{
    const char *name = plain_heading(w->table, cell->text);
    for (int c = 0; c < COLUMNS; c++) {
        if (strcmp(name, headings[c]) != 0) {
            continue;
        }
        if (w->where[c] >= 0) {
            table_fault(w, cell->offset, "csv.column_twice", "keep one of the two",
                        bwi_print(w->table, "a second column \"%s\"", headings[c]));
        }
        w->where[c] = index;
        return;
    }
    if (!cell->faulty) {
        unknown_column(w, cell, name);
    }
}

static const column needed_columns[] = {ID, SPECIES, LENGTH, BARK};

static bool has_size(const writer *w, column girth)
{
    return w->where[girth] >= 0 || w->where[girth + 1] >= 0;
}

/* False: lines cannot be read without what is missing. */
static bool header_read(writer *w)
{
    for (int c = 0; c < COLUMNS; c++) {
        w->where[c] = -1;
    }
    if (w->csv.n_lines == 0) {
        table_fault(w, 0, "csv.empty_table", "begin with a line of headings",
                    "the table is empty");
        return false;
    }
    const bwi_csv_line *line = &w->csv.lines[0];
    for (size_t i = 0; i < line->n_cells; i++) {
        header_cell(w, &line->cells[i], (int)i);
    }
    bool whole = true;
    for (size_t k = 0; k < BWI_COUNT(needed_columns); k++) {
        if (w->where[needed_columns[k]] < 0) {
            table_fault(w, line->offset, "csv.no_column",
                        "the first line names the columns",
                        bwi_print(w->table, "the column \"%s\" is missing",
                                  headings[needed_columns[k]]));
            whole = false;
        }
    }
    if (has_size(w, BUTT_GIRTH) + has_size(w, MID_GIRTH) + has_size(w, TIP_GIRTH) < 2) {
        table_fault(w, line->offset, "csv.no_column",
                    "measure each log at its butt and at its tip, or at its middle",
                    "girths at two places are needed: \"butt girth\", \"tip girth\" or "
                    "\"mid girth\"");
        whole = false;
    }
    return whole;
}

/* ---- lines as logs ---- */

/* Notes where the next value of the JSON text stands in the table. */
static void place_add(writer *w, size_t offset, bool faulty, const char *heading)
{
    bwi_json *doc = w->table;
    bwi_place *places =
        bw_arena_grow(doc->arena, w->places, w->n_places, &w->cap_places, sizeof *places);
    const char **heads =
        bw_arena_grow(doc->arena, w->heads, w->n_places, &w->cap_heads, sizeof *heads);
    if (places == NULL || heads == NULL) {
        doc->out_of_memory = true;
        return;
    }
    w->places = places;
    w->heads = heads;
    places[w->n_places] = (bwi_place){offset, offset, faulty};
    heads[w->n_places++] = heading;
}

static void add_quoted(writer *w, const char *text)
{
    bw_text_add(&w->json, "\"");
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '"' || *c == '\\') {
            bw_text_add(&w->json, "\\");
        }
        bw_text_add_bytes(&w->json, *c == '\t' ? " " : c, 1);
    }
    bw_text_add(&w->json, "\"");
}

static void add_key(writer *w, const char *key)
{
    const char last = w->json.failed ? '{' : w->json.data[w->json.length - 1];
    bw_text_print(&w->json, "%s\"%s\": ", last == '{' ? "" : ", ", key);
}

typedef struct {
    const bwi_csv_line *line;
    double length, size[3]; /* [m]; 0: not known. Girths or diameters of butt, mid, tip */
    int from[3];            /* the column that gave it; -1: none */
} log_line;

static const bwi_cell *cell_of(const writer *w, const log_line *l, int c)
{
    static const bwi_cell none = {"", 0, false};
    return w->where[c] < 0 ? &none : &l->line->cells[w->where[c]];
}

static bool is_given(const writer *w, const log_line *l, int c)
{
    const bwi_cell *cell = cell_of(w, l, c);
    return cell->text[0] != '\0' || cell->faulty;
}

/* How faults call the log. */
static const char *called(const writer *w, const log_line *l)
{
    const char *id = cell_of(w, l, ID)->text;
    return id[0] != '\0' ? id : "a log without id";
}

/* The cell as a text of the key; one that must be there and is empty is reported. */
static void add_cell(writer *w, const log_line *l, int c, const char *key, bool needed)
{
    const bwi_cell *cell = cell_of(w, l, c);
    const bool given = is_given(w, l, c);
    if (!given && !needed) {
        return;
    }
    if (!given) {
        table_fault(w, cell->offset, "csv.empty", NULL,
                    bwi_print(w->table, "%s, %s: nothing stands there", called(w, l),
                              headings[c]));
    }
    add_key(w, key);
    place_add(w, cell->offset, cell->faulty || !given, headings[c]);
    add_quoted(w, cell->faulty ? "" : cell->text);
}

/* A word of a case file, however it is capitalised. */
static void add_word(writer *w, const log_line *l, int c, const char *key, bool needed)
{
    const bwi_cell *cell = cell_of(w, l, c);
    if (!is_given(w, l, c) || cell->faulty) {
        add_cell(w, l, c, key, needed);
        return;
    }
    add_key(w, key);
    place_add(w, cell->offset, false, headings[c]);
    add_quoted(w, plain_heading(w->table, cell->text));
}

/* A length, or a share without a unit. */
static void add_share(writer *w, const log_line *l, int c, const char *key)
{
    const bwi_cell *cell = cell_of(w, l, c);
    double share = 0.0;
    if (cell->faulty || bw_quantity_parse(BW_NUMBER, cell->text, &share) != BW_PARSE_OK) {
        add_cell(w, l, c, key, false);
        return;
    }
    add_key(w, key);
    place_add(w, cell->offset, false, headings[c]);
    bw_text_print(&w->json, "%.15g", share);
}

static void add_text(writer *w, size_t offset, const char *heading, const char *text)
{
    place_add(w, offset, false, heading);
    add_quoted(w, text);
}

/* ---- girths ---- */

static double parsed(const bwi_cell *cell)
{
    double value = 0.0;
    return !cell->faulty &&
                   bw_quantity_parse(BW_LENGTH, cell->text, &value) == BW_PARSE_OK
               ? value
               : 0.0;
}

static void measures_find(const writer *w, log_line *l)
{
    l->length = parsed(cell_of(w, l, LENGTH));
    for (int k = 0; k < 3; k++) {
        const int girth = BUTT_GIRTH + 2 * k;
        l->from[k] = is_given(w, l, girth)       ? girth
                     : is_given(w, l, girth + 1) ? girth + 1
                                                 : -1;
        l->size[k] = l->from[k] < 0 ? 0.0 : parsed(cell_of(w, l, l->from[k]));
    }
}

static bool is_girth(int c)
{
    return c == BUTT_GIRTH || c == MID_GIRTH || c == TIP_GIRTH;
}

static double diameter(const log_line *l, int k)
{
    return is_girth(l->from[k]) ? l->size[k] / pi : l->size[k];
}

static void add_station(writer *w, const log_line *l, int k, double from_butt)
{
    const bwi_cell *cell = cell_of(w, l, l->from[k]);
    const char *heading = headings[l->from[k]];
    bw_text_add(&w->json, k == 0 ? "{" : ", {");
    place_add(w, cell->offset, false, heading);
    add_key(w, "at");
    add_text(w, cell->offset, heading, bwi_print(w->table, "%.12g m", from_butt));
    add_key(w, is_girth(l->from[k]) ? "girth" : "diameter");
    add_text(w, cell->offset, heading, cell->text);
    bw_text_add(&w->json, "}");
}

static void add_assumed(writer *w, const log_line *l, int from, double from_butt,
                        double thickness)
{
    const bwi_cell *cell = cell_of(w, l, l->from[from]);
    const char *heading = headings[l->from[from]];
    bw_text_add(&w->json, from_butt > 0.0 ? ", {" : "{");
    place_add(w, cell->offset, false, heading);
    add_key(w, "at");
    add_text(w, cell->offset, heading, bwi_print(w->table, "%.12g m", from_butt));
    add_key(w, "diameter");
    add_text(w, cell->offset, heading, bwi_print(w->table, "%.12g m", thickness));
    bw_text_add(&w->json, "}");
}

static void tell_assumed(const writer *w, const log_line *l, const char *end,
                         double thickness, const char *how)
{
    const char *size = bw_length_print_small(w->table->arena, thickness, w->table->units);
    const bwi_fault fault = {
        .severity = BW_WARNING,
        .id = "csv.end_guessed",
        .message =
            bwi_print(w->table, "%s: the %s was not measured: taken as %s thick, %s",
                      called(w, l), end, size != NULL ? size : "?", how),
        .hint = "measure it, if the log can be turned",
        .offset = cell_of(w, l, l->from[1])->offset};
    bwi_fault_add(w->table, &fault);
}

/* The middle was measured, and one end at least. */
static void add_stations(writer *w, const log_line *l)
{
    const double mid = diameter(l, 1), half = l->length / 2.0;
    add_key(w, "stations");
    place_add(w, cell_of(w, l, l->from[1])->offset, false, headings[l->from[1]]);
    bw_text_add(&w->json, "[");
    if (l->from[0] >= 0) {
        add_station(w, l, 0, 0.0);
    } else {
        add_assumed(w, l, 1, 0.0, mid);
        tell_assumed(w, l, "butt", mid, "as at its middle");
    }
    add_station(w, l, 1, half);
    if (l->from[2] >= 0) {
        add_station(w, l, 2, l->length);
    } else {
        const double before = diameter(l, 0) - mid, usual = usual_taper * half;
        const double tip = mid - (before > usual ? before : usual);
        add_assumed(w, l, 1, l->length, tip);
        tell_assumed(w, l, "tip", tip, "a cautious taper from its middle on");
    }
    bw_text_add(&w->json, "]");
}

/* A length that nothing else of the line will look at. */
static void length_check(const writer *w, const log_line *l, int c)
{
    const bwi_cell *cell = cell_of(w, l, c);
    bwi_json *doc = w->table;
    const char *hint = NULL;
    double value = 0.0;
    if (!is_given(w, l, c) || cell->faulty) {
        return;
    }
    const bw_parse fault = bw_quantity_parse(BW_LENGTH, cell->text, &value);
    const char *why =
        fault != BW_PARSE_OK
            ? bw_parse_explain(doc->arena, fault, BW_LENGTH, cell->text, &hint)
            : "it must be more than 0";
    if (fault != BW_PARSE_OK || !(value > 0.0)) {
        table_fault(w, cell->offset, "csv.length", hint,
                    bwi_print(doc, "%s, %s: %s", called(w, l), headings[c],
                              why != NULL ? why : cell->text));
    }
}

/* A girth and a diameter of the same place, of which one would be left out. */
static void both_check(const writer *w, const log_line *l, int girth)
{
    if (is_given(w, l, girth) && is_given(w, l, girth + 1)) {
        table_fault(w, cell_of(w, l, girth + 1)->offset, "csv.both",
                    "keep the one that was measured",
                    bwi_print(w->table, "%s: \"%s\" and \"%s\" say the same",
                              called(w, l), headings[girth], headings[girth + 1]));
    }
}

/* Values that cannot be read are passed on as they are, to be reported as such. */
static void add_sizes(writer *w, const log_line *l)
{
    const bool has_mid = l->from[1] >= 0;
    const int given = (l->from[0] >= 0) + has_mid + (l->from[2] >= 0);
    bool known = l->length > 0.0;
    for (int k = 0; k < 3; k++) {
        known = known && (l->from[k] < 0 || l->size[k] > 0.0);
    }
    both_check(w, l, MID_GIRTH);
    if (has_mid && given >= 2 && known) {
        both_check(w, l, BUTT_GIRTH);
        both_check(w, l, TIP_GIRTH);
        add_stations(w, l);
        return;
    }
    if (has_mid && given != 2) { /* nor does it stand in for an end */
        length_check(w, l, l->from[1]);
    }
    if (given < 2) {
        table_fault(w, l->line->offset, "csv.one_girth",
                    "measure it at its butt and at its tip, or at its middle",
                    bwi_print(w->table, "%s: its girth is given at %s", called(w, l),
                              given == 0 ? "no place" : "one place only"));
    }
    for (int k = 0; k < 3; k += 2) {
        const char *key = k == 0 ? "butt" : "tip";
        const int girth = BUTT_GIRTH + 2 * k;
        const bool other = has_mid && l->from[k] < 0; /* the middle stands in for it */
        for (int c = girth; c < girth + 2 && l->from[k] >= 0; c++) {
            add_cell(
                w, l, c,
                bwi_print(w->table, "%s_%s", key, is_girth(c) ? "girth" : "diameter"),
                false);
        }
        if (l->from[k] < 0) { /* reported, or to be reported as the middle */
            const bwi_cell *cell = cell_of(w, l, other ? l->from[1] : girth);
            add_key(w, bwi_print(w->table, "%s_%s", key,
                                 other && !is_girth(l->from[1]) ? "diameter" : "girth"));
            place_add(w, cell->offset, cell->faulty || !other || given < 2,
                      headings[other ? l->from[1] : girth]);
            add_quoted(w, cell->faulty ? "" : cell->text);
        }
    }
}

/* ---- the rest of a log ---- */

static void add_sweep(writer *w, const log_line *l)
{
    const bwi_cell *cell = cell_of(w, l, SWEEP);
    if (!is_given(w, l, SWEEP)) {
        length_check(w, l, SWEEP_OVER);
        return;
    }
    add_key(w, "sweep");
    place_add(w, cell->offset, false, headings[SWEEP]);
    bw_text_add(&w->json, "{");
    add_cell(w, l, SWEEP, "bow", true);
    add_cell(w, l, is_given(w, l, SWEEP_OVER) ? SWEEP_OVER : LENGTH, "over", true);
    bw_text_add(&w->json, "}");
}

static void add_dead(writer *w, const log_line *l)
{
    const bwi_cell *cell = cell_of(w, l, DEAD_WHEN_CUT);
    const char *word = plain_heading(w->table, cell->text);
    const bool yes = strcmp(word, "yes") == 0, no = strcmp(word, "no") == 0;
    if (cell->faulty || word[0] == '\0') {
        return;
    }
    if (!yes && !no) {
        table_fault(w, cell->offset, "csv.yes_no",
                    "yes or no; leave it empty if not known",
                    bwi_print(w->table, "%s, dead when cut: found \"%s\"", called(w, l),
                              bwi_excerpt(w->table, word, strlen(word))));
        return;
    }
    add_key(w, "dead_when_cut");
    place_add(w, cell->offset, false, headings[DEAD_WHEN_CUT]);
    bw_text_add(&w->json, yes ? "true" : "false");
}

static void add_grade(writer *w, const log_line *l)
{
    add_key(w, "grade");
    place_add(w, l->line->offset, false, NULL);
    bw_text_add(&w->json, "{");
    add_share(w, l, LARGEST_KNOT, "largest_knot");
    add_share(w, l, KNOTS_IN_FOOT, "knots_in_foot");
    add_share(w, l, DRYING_CHECK, "drying_check");
    add_cell(w, l, SPIRAL_GRAIN, "spiral_grain", false);
    add_sweep(w, l);
    add_word(w, l, INSECTS, "insects", false);
    add_word(w, l, DECAY, "decay", false);
    add_dead(w, l);
    bw_text_add(&w->json, "}");
}

static void add_log(writer *w, const bwi_csv_line *line)
{
    log_line l = {.line = line};
    place_add(w, line->offset, false, NULL);
    bw_text_add(&w->json, "{");
    measures_find(w, &l);
    add_cell(w, &l, ID, "name", true);
    add_cell(w, &l, SPECIES, "species", true);
    add_cell(w, &l, LENGTH, "length", true);
    add_sizes(w, &l);
    add_word(w, &l, BARK, "bark", true);
    add_cell(w, &l, BARK_THICKNESS, "bark_thickness", false);
    add_cell(w, &l, STRENGTH_CLASS, "strength_class", false);
    add_grade(w, &l);
    bw_text_add(&w->json, "}");
}

/* A comma too many or too few shifts what stands behind it: such a line is not read. */
static bool has_all_cells(const writer *w, const bwi_csv_line *line)
{
    const size_t columns = w->csv.lines[0].n_cells;
    if (line->n_cells == columns) {
        return true;
    }
    table_fault(
        w, line->offset, "csv.cells",
        "as many commas in every line; a cell that has one inside goes in quotes",
        bwi_print(w->table, "%zu cells under %zu headings", line->n_cells, columns));
    return false;
}

/* ---- reading them ---- */

static void logs_write(writer *w)
{
    w->json = bw_text_new(w->table->arena);
    place_add(w, 0, false, NULL);
    bw_text_add(&w->json, "[");
    bool first = true;
    for (size_t i = 1; i < w->csv.n_lines && !w->table->out_of_memory; i++) {
        if (has_all_cells(w, &w->csv.lines[i])) {
            bw_text_add(&w->json, first ? "\n" : ",\n");
            add_log(w, &w->csv.lines[i]);
            first = false;
        }
    }
    bw_text_add(&w->json, "]");
    w->table->out_of_memory = w->table->out_of_memory || w->json.failed;
}

/* Counts go on from those of the table, so that the most that is shown holds for both. */
static void take_over(const writer *w, bwi_json *doc)
{
    const size_t n = doc->n_places < w->n_places ? doc->n_places : w->n_places;
    doc->text = w->table->text;
    doc->units = w->table->units;
    doc->errors = w->table->errors;
    doc->shown = w->table->shown;
    doc->left_out = w->table->left_out;
    doc->headings = w->heads;
    doc->line_start = NULL;
    for (size_t k = 0; k < n; k++) {
        doc->places[k] = w->places[k];
    }
}

static void logs_read(const writer *w, const bwi_case_reader *r, bw_log_list *out)
{
    const size_t count = bwi_count(&r->root);
    bw_log *logs = bwi_new(r->doc, count, sizeof *logs);
    const char **names = bwi_new(r->doc, count, sizeof *names);
    const char **notes = bwi_new(r->doc, count, sizeof *notes);
    if (logs == NULL || names == NULL || notes == NULL) {
        return;
    }
    bwi_at item = bwi_first(&r->root);
    for (size_t i = 0; i < count; i++, bwi_next(&item)) {
        bwi_case_log(r, &item, &logs[i]);
        names[i] = logs[i].name;
    }
    size_t k = 0;
    for (size_t i = 1; i < w->csv.n_lines && w->where[NOTE] >= 0; i++) {
        const bwi_csv_line *line = &w->csv.lines[i];
        if (line->n_cells == w->csv.lines[0].n_cells && k < count) {
            notes[k++] = line->cells[w->where[NOTE]].text;
        }
    }
    bwi_names unused;
    bwi_names_make(&r->root, "log", "name", names, count, &unused);
    *out = (bw_log_list){logs, notes, count};
}

/* For the schema: all columns, and those that no line can be without. */
static void columns_note(bwi_json *doc)
{
    for (int c = 0; doc->shape != NULL && c < COLUMNS; c++) {
        bool is_needed = false;
        for (size_t k = 0; k < BWI_COUNT(needed_columns); k++) {
            is_needed = is_needed || (int)needed_columns[k] == c;
        }
        bwi_note_column(doc, headings[c], is_needed);
    }
}

static bw_status table_close(writer *w)
{
    if (w->table->out_of_memory || w->table->diags->failed) {
        return BW_E_MEMORY;
    }
    return BW_E_INPUT;
}

bw_status bwi_input_logs(bw_arena *arena, const char *text, const bw_case *deck,
                         bw_log_list *out, bw_diags *d, bwi_shape *shape)
{
    bwi_json table = {.arena = arena, .diags = d, .text = text, .units = deck->units};
    writer w = {.table = &table};
    bw_case basis = {.basis = deck->basis};
    bwi_json doc;
    *out = (bw_log_list){NULL, NULL, 0};
    bwi_csv_read(&table, &w.csv);
    if (table.out_of_memory || !header_read(&w)) {
        return table_close(&w);
    }
    if (w.csv.n_lines - 1 > bwi_most_logs) {
        table_fault(&w, 0, "csv.long",
                    bwi_print(&table, "at most %d logs", bwi_most_logs),
                    bwi_print(&table, "the pile has %zu logs", w.csv.n_lines - 1));
        return table_close(&w);
    }
    logs_write(&w);
    if (table.out_of_memory) {
        return BW_E_MEMORY;
    }
    if (bwi_json_open(&doc, arena, bw_text_string(&w.json), d)) {
        take_over(&w, &doc);
        doc.shape = shape;
        columns_note(&doc);
        bwi_case_reader r = {
            .doc = &doc, .root = bwi_root(&doc), .species = deck->species, .out = &basis};
        logs_read(&w, &r, out);
    }
    return bwi_json_close(&doc);
}

bw_status bw_input_logs(bw_arena *arena, const char *text, const bw_case *deck,
                        bw_log_list *out, bw_diags *d)
{
    return bwi_input_logs(arena, text, deck, out, d, NULL);
}
