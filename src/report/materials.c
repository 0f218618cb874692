/* materials.c - what to bring: logs with girths, boards, screws, pads. */
#include "internal.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/* Boards that nobody described: 3 1/2 in wide (a nominal 2x4), with a gap of 3/4 in so
 * that water drains: USFS Trail Construction and Maintenance Notebook (READ). */
static bw_decking boards_as_laid(const bw_case *deck)
{
    bw_decking boards = deck->decking;
    if (!(boards.width > 0.0)) {
        boards.width = 0.0889;
        boards.gap = 0.01905;
    }
    return boards;
}

double bwi_board_pitch(const bw_case *deck)
{
    const bw_decking boards = boards_as_laid(deck);
    return boards.width + boards.gap;
}

/* ---- logs ---- */

static bool same_use(const bw_member_result *a, const bw_member_result *b)
{
    return a->log == b->log && strcmp(a->role, b->role) == 0;
}

/* Boards are counted apart. */
static bool is_new(const bw_assessment *a, size_t member)
{
    if (strcmp(a->members[member].role, "boards") == 0) {
        return false;
    }
    for (size_t k = 0; k < member; k++) {
        if (same_use(&a->members[k], &a->members[member])) {
            return false;
        }
    }
    return a->members[member].log != NULL;
}

static bwi_use use_of(const bw_assessment *a, size_t first)
{
    bwi_use use = {.log = a->members[first].log, .role = a->members[first].role};
    for (size_t k = first; k < a->n_members; k++) {
        if (same_use(&a->members[first], &a->members[k])) {
            use.longest = fmax(use.longest, a->members[k].length);
            use.sum += a->members[k].length;
            use.pieces++;
        }
    }
    const double length = use.log->length > 0.0 ? use.log->length : use.longest;
    use.mass = bw_log_mass(use.log, length, 0.0, use.longest);
    return use;
}

size_t bwi_uses(const bw_assessment *a, bwi_use *room)
{
    size_t n = 0;
    for (size_t k = 0; k < a->n_members; k++) {
        if (is_new(a, k)) {
            room[n++] = use_of(a, k);
        }
    }
    return n;
}

const char *bwi_girth(bw_arena *arena, double diameter, bw_units units)
{
    return bw_length_print_small(arena, pi * diameter, units);
}

const char *bwi_mass_up(bw_arena *arena, double mass, bw_units units)
{
    const double step = bw_unit_size(BW_MASS, units == BW_IMPERIAL ? "lb" : "kg");
    return bw_quantity_print(arena, BW_MASS, ceil(mass / step - 1e-6) * step, units);
}

/* Up to whole inches or centimetres: what is cut too short cannot be used. */
const char *bwi_cut_length(bw_arena *arena, double length, bw_units units)
{
    const double step = units == BW_IMPERIAL ? bw_unit_size(BW_LENGTH, "in")
                                             : 10.0 * bw_unit_size(BW_LENGTH, "mm");
    return bw_quantity_print(arena, BW_LENGTH, ceil(length / step - 1e-6) * step, units);
}

/* ---- the rest ---- */

typedef struct {
    bw_text *out;
    const char **lines;
    size_t n;
} line_list;

static void add(line_list *list, const char *line)
{
    if (list->n < BWI_MATERIAL_LINES) {
        list->lines[list->n++] = bwi_or_fail(list->out, line);
    }
}

static const char *boards_in_words(bw_arena *arena, const bw_case *deck,
                                   const bw_decking *boards)
{
    const char *width = bw_length_print_small(arena, boards->width, deck->units);
    if (width == NULL) {
        return NULL;
    }
    if (boards->kind == BW_BOARDS_UNKNOWN) {
        return bw_arena_print(arena, "boards, %s wide (a nominal 2x4 laid flat)", width);
    }
    return bw_arena_print(
        arena,
        boards->kind == BW_BOARDS_SAWN ? "%s of %s, %s wide"
                                       : "%s of %s, halves of logs %s across",
        bw_boards_name(boards->kind), boards->log.species->common, width);
}

static void add_boards(line_list *list, const bw_case *deck)
{
    bw_arena *arena = list->out->arena;
    const bw_decking laid = boards_as_laid(deck);
    const double length = bw_deck_length(deck);
    const double boards = bw_decking_count(&laid, length);
    const char *what = boards_in_words(arena, deck, &laid);
    const char *gap = bw_length_print_small(arena, laid.gap, deck->units);
    const char *thick =
        bw_length_print_small(arena, deck->boards.board_thickness, deck->units);
    const char *across =
        bw_quantity_print(arena, BW_LENGTH, deck->boards.width, deck->units);
    const char *along = bw_quantity_print(arena, BW_LENGTH, length, deck->units);
    if (!(boards > 0.0) || !what || !gap || !thick || !across || !along) {
        list->out->failed = list->out->failed || !what || !gap || !thick || !across;
        return;
    }
    add(list,
        bw_arena_print(arena,
                       "%.0f %s, %s thick, %s "
                       "long, with gaps of %s so that water drains: (%s of deck + gap) / "
                       "(width + gap), rounded up [common practice; gap: read, USFS "
                       "Trail Construction and Maintenance Notebook].",
                       boards, what, thick, across, gap, along));
    add(list, bw_arena_print(arena,
                             "%.0f screws for the boards: two where a board crosses a "
                             "row [common practice]. They keep boards in place.",
                             2.0 * boards * (double)deck->n_rows));
}

/* Pads of one size are counted together. */
static void add_pads(line_list *list, const bw_case *deck)
{
    double area = 0.0;
    size_t n = 0, others = 0;
    for (size_t k = 0; k < deck->n_bents; k++) {
        for (size_t j = 0; j < deck->bents[k].n_posts; j++) {
            const double pad = deck->bents[k].posts[j].pad_area;
            area = area == 0.0 ? pad : area;
            n += pad > 0.0 && fabs(pad - area) < 1e-6 ? 1 : 0;
            others += pad > 0.0 && fabs(pad - area) >= 1e-6 ? 1 : 0;
        }
    }
    if (n > 0) {
        const char *size =
            bw_quantity_print(list->out->arena, BW_AREA, area, deck->units);
        add(list, bw_arena_print(list->out->arena, "%zu pads of %s under posts%s.", n,
                                 bwi_or_fail(list->out, size),
                                 others > 0 ? ", and others of other sizes" : ""));
    }
}

size_t bwi_material_lines(const bw_assessment *a, bw_text *out,
                          const char *lines[BWI_MATERIAL_LINES])
{
    line_list list = {out, lines, 0};
    add_boards(&list, a->deck);
    add_pads(&list, a->deck);
    add(&list,
        a->deck->n_joints > 0
            ? "Fasteners of stringers and braces: checked where the case describes "
              "them, and not counted here."
            : "What holds stringers, caps and braces in place: not checked, and not "
              "counted here.");
    return list.n;
}

/* ---- as text ---- */

static void print_use(bwi_table *table, const bwi_use *use, bw_units units)
{
    bw_arena *arena = table->out->arena;
    bwi_table_cell(table, use->log->name);
    bwi_table_cell(table, use->role);
    bwi_table_cell(table, bw_arena_print(arena, "%zu", use->pieces));
    bwi_table_cell(table, bwi_girth(arena, use->log->butt_diameter, units));
    bwi_table_cell(table, bwi_girth(arena, use->log->tip_diameter, units));
    bwi_table_cell(table, bwi_cut_length(arena, use->longest, units));
    bwi_table_cell(table, bwi_cut_length(arena, use->sum, units));
    bwi_table_cell(table, bwi_mass_up(arena, use->mass, units));
}

const char bwi_materials_title[] =
    "Logs: girths of butt and tip under bark, lengths as framed, weight of the heaviest "
    "piece as green wood";
const char bwi_materials_words[] =
    "Add what sticks out over the ends and what joints need. Lengths of caps run from "
    "outer row to outer row; posts include what is in the ground.";

void bwi_text_materials(const bw_assessment *a, bw_text *out)
{
    static const bwi_column columns[] = {
        {"log", false}, {"used as", false}, {"pcs", true},    {"butt", true},
        {"tip", true},  {"longest", true},  {"in all", true}, {"weight", true}};
    bwi_use *uses = BW_NEW(out->arena, bwi_use, a->n_members + 1);
    const char *lines[BWI_MATERIAL_LINES] = {0};
    if (uses == NULL) {
        out->failed = true;
        return;
    }
    const size_t n = bwi_uses(a, uses);
    const size_t n_lines = bwi_material_lines(a, out, lines);
    bwi_table table = bwi_table_new(out, columns, 8);
    bwi_text_section(out, "materials");
    bwi_paragraph(out, "  ", bwi_materials_title);
    bw_text_add(out, "\n");
    for (size_t k = 0; k < n; k++) {
        print_use(&table, &uses[k], a->deck->units);
    }
    bwi_table_print(&table, 2);
    bw_text_add(out, "\n");
    bwi_paragraph(out, "  ", bwi_materials_words);
    for (size_t k = 0; k < n_lines; k++) {
        bwi_paragraph(out, "  - ", lines[k]);
    }
}
