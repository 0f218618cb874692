/* case_boards.c - the deck: its width, and what lies across the stringers. */
#include "case.h"

#include <math.h>

static const bwi_range width_range = {0.2, 6.0, false};         /* [m] of the deck */
static const bwi_range thickness_range = {0.01, 0.3, false};    /* [m] */
static const bwi_range board_weight_range = {20.0, 5e3, false}; /* [Pa] */
static const bwi_range board_range = {0.03, 0.6, false};        /* [m] width of one */
static const bwi_range gap_range = {0.0, 0.3, false};           /* [m] */
static const bwi_range share_range = {0.0, 0.5, false};
static const bwi_range person_range = {200.0, 20e3, false}; /* [N] */

/* Boards that the case does not describe are not checked, and the verdict says so. A
 * guess would say nothing: the poorest 2x4 is over under every rider whatever the deck,
 * and any better one might be wrong on the side that hurts.
 *
 * Boards where nothing is said: 1 1/2 in of wet wood with its screws, 3 1/2 in wide (a
 * nominal 2x4 laid flat), with gaps that drain (USFS Trail Construction and Maintenance
 * Notebook, READ). The density is chosen on the heavy side: JUDGEMENT. */
static const double usual_thickness_inches = 1.5, usual_width_inches = 3.5;
static const double usual_gap_inches = 0.75;
static const double wet_board_density = 900.0; /* [kg/m3] */

static double inches(double count)
{
    return count * bw_unit_size(BW_LENGTH, "in");
}

static void sawn_grade_read(const bwi_at *at, bw_decking *out)
{
    int grade = 0;
    const bwi_at word = bwi_key(at, "grade");
    if (BWI_WORD(&word, &grade, "ungraded", "select structural", "No. 1", "No. 2",
                 "No. 3")) {
        out->grade = (bw_sawn_grade)(BW_SAWN_UNGRADED + grade);
    }
}

/* What belongs to the other kind. */
static void refuse(const bwi_at *at, const char *key, const char *hint)
{
    const bwi_at found = bwi_key(at, key);
    if (found.node != NULL) {
        bwi_key_error(&found, "boards.kind", NULL, hint,
                      "does not go with this kind of boards");
    }
}

static void sawn_read(const bwi_at *at, bw_boards *boards, bw_decking *out)
{
    static const char hint[] = "sawn boards have a width and a thickness";
    const bwi_at width = bwi_key(at, "width");
    const bwi_at thickness = bwi_key(at, "thickness");
    bwi_measure(&width, BW_LENGTH, board_range, &out->width);
    bwi_measure(&thickness, BW_LENGTH, thickness_range, &boards->board_thickness);
    sawn_grade_read(at, out);
    refuse(at, "girth", hint);
    refuse(at, "diameter", hint);
    refuse(at, "flat", hint);
}

/* Half of a pole or log: its size is that of the whole one under its bark. */
static void half_round_read(const bwi_case_reader *r, const bwi_at *at, bw_boards *boards,
                            bw_decking *out)
{
    static const char hint[] =
        "half-rounds have the girth, or the diameter, of the log before it was split";
    int flat = 0;
    double diameter = (double)NAN;
    const bwi_at side = bwi_key(at, "flat");
    BWI_ONE_OF(at, "girth", "diameter");
    bwi_case_size(r, at, "girth", "diameter", &diameter);
    if (BWI_WORD(&side, &flat, "up", "down")) {
        out->flat_down = flat == 1;
    }
    refuse(at, "width", hint);
    refuse(at, "thickness", hint);
    out->log.half = true;
    out->log.butt_diameter = out->log.tip_diameter = out->width = diameter;
    boards->board_thickness = diameter / 2.0;
    bwi_case_grade(at, &out->log);
}

static void laid_read(const bwi_at *at, bw_decking *out)
{
    int laid = 0;
    const bwi_at word = bwi_key(at, "laid"), gap = bwi_key(at, "gap");
    const bwi_at share = bwi_key(at, "share"), person = bwi_key(at, "person");
    if (BWI_WORD(&word, &laid, "in one piece", "cut over every row")) {
        out->laid = laid == 0 ? BW_BOARDS_THROUGH : BW_BOARDS_CUT;
    }
    bwi_measure(&gap, BW_LENGTH, gap_range, &out->gap);
    bwi_number(&share, share_range, &out->share);
    bwi_measure(&person, BW_FORCE, person_range, &out->person);
}

static void decking_read(const bwi_case_reader *r, const bwi_at *at, bw_boards *boards,
                         bw_decking *out)
{
    int kind = 0;
    bwi_by_word(at, "kind");
    if (at->node == NULL || !BWI_OBJECT(at, "kind", "species", "strength_class", "grade",
                                        "width", "thickness", "girth", "diameter", "flat",
                                        "gap", "laid", "share", "person")) {
        return;
    }
    out->case_path = out->log.case_path = bwi_pointer(at);
    const bwi_at word = bwi_key(at, "kind");
    BWI_WORD(&word, &kind, "sawn", "split rail", "half log");
    bwi_case_species(r, at, &out->log);
    bwi_case_class(r, at, &out->log);
    laid_read(at, out);
    if (kind == 0) {
        sawn_read(at, boards, out);
    } else {
        half_round_read(r, at, boards, out);
    }
    if (out->log.species != NULL) {
        out->kind = (bw_boards_kind)(BW_BOARDS_SAWN + kind);
    }
}

/* The thickness of the boards stands in one place. */
static void thickness_once(const bwi_at *deck, const bwi_at *boards)
{
    const bwi_at here = bwi_key(deck, "board_thickness");
    static const char *const keys[] = {"thickness", "girth", "diameter"};
    for (size_t k = 0; boards->node != NULL && k < BWI_COUNT(keys); k++) {
        const bwi_at other = bwi_key(boards, keys[k]);
        if (here.node != NULL && other.node != NULL) {
            bwi_key_error(&here, "key.both", NULL, "keep what stands under \"boards\"",
                          "stands beside \"%s\" of the boards, which says the same",
                          keys[k]);
            return;
        }
    }
}

void bwi_case_boards(bwi_case_reader *r)
{
    bw_boards *boards = &r->out->boards;
    bw_decking *decking = &r->out->decking;
    boards->board_thickness = inches(usual_thickness_inches);
    decking->width = inches(usual_width_inches);
    decking->gap = inches(usual_gap_inches);
    decking->log.name = "boards";
    const bwi_at deck = bwi_need(&r->root, "deck");
    if (BWI_OBJECT(&deck, "width", "board_thickness", "board_weight", "boards")) {
        const bwi_at width = bwi_need(&deck, "width");
        bwi_measure(&width, BW_LENGTH, width_range, &boards->width);
        const bwi_at thickness = bwi_key(&deck, "board_thickness");
        bwi_measure(&thickness, BW_LENGTH, thickness_range, &boards->board_thickness);
        const bwi_at across = bwi_key(&deck, "boards");
        thickness_once(&deck, &across);
        decking->case_path = bwi_pointer(&deck);
        decking_read(r, &across, boards, decking);
        boards->board_pressure = boards->board_thickness * wet_board_density * bw_gravity;
        const bwi_at weight = bwi_key(&deck, "board_weight");
        bwi_measure(&weight, BW_PRESSURE, board_weight_range, &boards->board_pressure);
    }
}
