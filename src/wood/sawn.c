/* Reference values of sawn boards in wet use.
 *
 *   F_b   = MOR (1 - 1.645 COV) C_s K_g / n x C_M x K_t allowable stress
 *   f_m,k = MOR (1 - 1.645 COV) C_s K_g     x C_M x K_t limit state
 *   F_v   = tau (1 - 1.645 COV) C_g / n     x C_M       f_v,k: C_g / k_cr in place of C_g
 * / n
 *
 * Sources: ASTM D245 (exclusion, divisors, size rule: recalled), strength ratios of the
 * national grading rule (recalled). C_s = (2 in / h)^(1/9) for boards thicker than 2 in;
 * what thinner ones gain by it is left out. Bearing and moduli are those of round logs.
 *
 * No C_M below 1: the 0.85 and 0.97 of the NDS tables take back what their values gained
 * by drying, and green clear wood has gained nothing. K_t brings the route down to the
 * remembered table of dimension lumber, laid flat and wet, in its widest size: without it
 * Douglas-fir No. 1 lies a quarter above. In shear the route lies below the
 * table (tests/wood/test_sawn.c). No repetitive-member factor: a wheel asks one board.
 * Boards that nobody graded count as the poorest grade: JUDGEMENT. */
#include "ladder.h"

#include <math.h>

static const char *const names[BW_SAWN_GRADE_COUNT] = {
    [BW_SAWN_UNGRADED] = "ungraded", [BW_SAWN_SELECT] = "select structural",
    [BW_SAWN_NO_1] = "No. 1",        [BW_SAWN_NO_2] = "No. 2",
    [BW_SAWN_NO_3] = "No. 3",
};

const char *bw_sawn_grade_name(bw_sawn_grade grade)
{
    return names[grade];
}

#define RATIO_SOURCE "ASTM D245 and the national grading rule, recalled"
static const bwi_factor ratios[BW_SAWN_GRADE_COUNT] = {
    [BW_SAWN_UNGRADED] = {"K_g", "strength ratio: nobody graded it, as No. 3", 0.26,
                          BW_MARK_JUDGEMENT, "chosen: the poorest structural grade"},
    [BW_SAWN_SELECT] = {"K_g", "strength ratio of select structural", 0.65,
                        BW_MARK_MEMORY, RATIO_SOURCE},
    [BW_SAWN_NO_1] = {"K_g", "strength ratio of No. 1", 0.55, BW_MARK_MEMORY,
                      RATIO_SOURCE},
    [BW_SAWN_NO_2] = {"K_g", "strength ratio of No. 2", 0.45, BW_MARK_MEMORY,
                      RATIO_SOURCE},
    [BW_SAWN_NO_3] = {"K_g", "strength ratio of No. 3", 0.26, BW_MARK_MEMORY,
                      RATIO_SOURCE},
};

static const bwi_factor to_table = {
    "K_t", "brings the route down to the table of dimension lumber", 0.80,
    BW_MARK_JUDGEMENT,
    "chosen: lowest of NDS Supplement Table 4A, flat and wet (recalled), over this "
    "route"};

static bwi_factor size_factor(double thickness)
{
    const double basis = 2.0 * bw_unit_size(BW_LENGTH, "in");
    const double size = thickness > basis ? pow(basis / thickness, 1.0 / 9.0) : 1.0;
    return (bwi_factor){"C_s", "size: (2 in / h)^(1/9) above 2 in, else 1", size,
                        BW_MARK_MEMORY, "ASTM D245, size rule, recalled"};
}

static void divide_by(bwi_ladder *steps, const bwi_route *way, const bw_species *species)
{
    bwi_ladder_divide(steps, &way->divisor[species->group == BW_HARDWOOD ? 1 : 0]);
}

static bwi_ladder excluded(bw_working *working, const bwi_route *way,
                           const bw_species *species, const bw_sourced *clear)
{
    bwi_ladder steps =
        bwi_ladder_start(working, way->clear_symbol, way->clear_meaning, clear);
    bwi_ladder_exclude(&steps, &way->scatter);
    bwi_ladder_small_pieces(&steps, way, species);
    return steps;
}

static void bending(bw_reference *out, const bw_sawn *board, bool allowable)
{
    bw_working *working = &out->ladder[BW_BENDING_STRENGTH];
    const bwi_factor size = size_factor(board->thickness);
    bwi_ladder steps =
        excluded(working, &bwi_bending_route, board->species, &board->species->rupture);
    bwi_ladder_multiply(&steps, &size);
    bwi_ladder_multiply(&steps, &ratios[board->grade]);
    if (allowable) {
        divide_by(&steps, &bwi_bending_route, board->species);
    }
    bwi_ladder_multiply(&steps, &bwi_wet_use);
    bwi_ladder_multiply(&steps, &to_table);
    bwi_ladder_reach(&steps, allowable ? "F_b" : "f_m,k",
                     "bending strength of a sawn board");
    out->value[BW_BENDING_STRENGTH] = steps.value;
}

static void shear(bw_reference *out, const bw_sawn *board, bool allowable)
{
    bw_working *working = &out->ladder[BW_SHEAR_STRENGTH];
    bwi_ladder steps =
        excluded(working, &bwi_shear_route, board->species, &board->species->shear);
    bwi_ladder_multiply(&steps, &bwi_shear_route.factors[0]);
    if (allowable) {
        divide_by(&steps, &bwi_shear_route, board->species);
    } else {
        bwi_ladder_divide(&steps, &bwi_cracks);
    }
    bwi_ladder_multiply(&steps, &bwi_wet_use);
    bwi_ladder_reach(&steps, allowable ? "F_v" : "f_v,k",
                     "shear strength of a sawn board");
    out->value[BW_SHEAR_STRENGTH] = steps.value;
}

/* In place of the values of a round log. */
static bw_status saw(bw_arena *arena, const bw_sawn *board, bool allowable,
                     bw_reference *out)
{
    out->ladder[BW_BENDING_STRENGTH] = bw_working_new(arena);
    out->ladder[BW_SHEAR_STRENGTH] = bw_working_new(arena);
    bending(out, board, allowable);
    shear(out, board, allowable);
    return out->ladder[BW_BENDING_STRENGTH].failed ||
                   out->ladder[BW_SHEAR_STRENGTH].failed
               ? BW_E_MEMORY
               : BW_OK;
}

bw_status bw_us_sawn(bw_arena *arena, const bw_sawn *board, bw_reference *out)
{
    BW_TRY(bw_us_reference(arena, board->species, out));
    return saw(arena, board, true, out);
}

bw_status bw_characteristic_sawn(bw_arena *arena, const bw_sawn *board, bw_reference *out)
{
    BW_TRY(
        bw_characteristic_reference(arena, board->species, board->strength_class, out));
    return board->strength_class != NULL ? BW_OK : saw(arena, board, false, out);
}
