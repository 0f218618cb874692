/* functions_wood.c - published rows about strengths, sections and outside standards. */
#include "bolewright/frame.h"
#include "bolewright/input.h"
#include "checks/us_asd/us_asd.h"
#include "deck/internal.h"
#include "functions.h"
#include "wood/ladder.h"

#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/* ---- shape and size ---- */

/* Section modulus of the square of the circle's area over that of the circle. */
static double form_of_square(const row_inputs *in)
{
    const double side = sqrt(bwi_circle_area(in->diameter));

    return side * side * side / 6.0 / bwi_circle_modulus(in->diameter);
}

/* What the checks take back from a section that is no longer round. */
static double form_factor_taken_back(const row_inputs *in)
{
    const bw_check_input cut = {.diameter = in->diameter,
                                .section = {.area = bwi_circle_area(in->diameter) / 2.0}};

    return 1.0 / bwi_form_factor(&cut);
}

static double form_and_size(const row_inputs *in)
{
    return form_factor_taken_back(in) * in->share;
}

static double form_and_size_of_route(const row_inputs *in)
{
    (void)in;
    return bwi_bending_route.factors[0].value;
}

/* Diameter of the circle that has the area of the square. */
static double diameter_of_square(const row_inputs *in)
{
    return in->depth / sqrt(bwi_circle_area(1.0));
}

/* ---- species of the tables ---- */

typedef double (*reading)(bw_arena *arena, const bw_species_table *table,
                          const row_inputs *in);

static double with_tables(const row_inputs *in, reading read)
{
    bw_arena *arena = bw_arena_new();
    double value = (double)NAN;
    if (arena != NULL) {
        bw_diags diags = bw_diags_new(arena, NULL);
        bw_species_table table;
        if (bw_input_species(arena, NULL, &table, &diags) == BW_OK) {
            value = read(arena, &table, in);
        }
    }
    bw_arena_free(arena);
    return value;
}

static double sawn_bending(bw_arena *arena, const bw_species_table *table,
                           double thickness)
{
    const bw_sawn board = {.species = bw_species_find(table, "pine_red", NULL, 0),
                           .thickness = thickness,
                           .grade = BW_SAWN_NO_1};
    bw_reference out = {0};

    return board.species != NULL && bw_us_sawn(arena, &board, &out) == BW_OK
               ? out.value[BW_BENDING_STRENGTH]
               : (double)NAN;
}

static double read_sawn_size(bw_arena *arena, const bw_species_table *table,
                             const row_inputs *in)
{
    const double two_inches = 2.0 * bw_unit_size(BW_LENGTH, "in");

    return sawn_bending(arena, table, in->depth) / sawn_bending(arena, table, two_inches);
}

static double sawn_size(const row_inputs *in)
{
    return with_tables(in, read_sawn_size);
}

/* The 5 % exclusion limit of a mean, by the step that the ladders take. */
static double exclusion_limit(bw_arena *arena, double mean, double scatter)
{
    bw_working working = bw_working_new(arena);
    const bw_sourced clear = {mean, BW_MARK_NONE, NULL};
    const bwi_factor cov = {"COV", "", scatter, BW_MARK_NONE, NULL};
    bwi_ladder steps = bwi_ladder_start(&working, "m", "", &clear);
    bwi_ladder_exclude(&steps, &cov);
    return working.failed ? (double)NAN : steps.value;
}

static double read_exclusion(bw_arena *arena, const bw_species_table *table,
                             const row_inputs *in)
{
    (void)table;
    return exclusion_limit(arena, in->bending, in->scatter);
}

static double exclusion(const row_inputs *in)
{
    return with_tables(in, read_exclusion);
}

/* Mean of nine printed pole values over the 5 % limit of their clear wood. */
static double read_pole_ratio(bw_arena *arena, const bw_species_table *table,
                              const row_inputs *in)
{
    static const char *const nine[] = {
        "douglasfir_coast",     "pine_jack",      "pine_lodgepole",
        "cedar_northern_white", "pine_ponderosa", "pine_red",
        "hemlock_western",      "larch_western",  "redcedar_western"};
    enum { N = sizeof nine / sizeof nine[0] };
    double sum = 0.0;
    (void)in;
    for (size_t i = 0; i < N; i++) {
        const bw_species *s = bw_species_find(table, nine[i], NULL, 0);
        if (s == NULL) {
            return (double)NAN;
        }
        sum += s->pole.bending.value /
               exclusion_limit(arena, s->rupture.value, bwi_bending_route.scatter.value);
    }
    return sum / N;
}

static double pole_ratio(const row_inputs *in)
{
    return with_tables(in, read_pole_ratio);
}

/* The older pile route, 0.9 S5 / n, for the 5 % limit that the row gives. */
static double older_pile_route(const row_inputs *in)
{
    const double limit = isnan(in->bending) ? in->compression : in->bending;

    return in->share * limit / in->limit;
}

/* The 5 % limit of red pine in the tables here. */
static double read_red_pine(bw_arena *arena, const bw_species_table *table,
                            const row_inputs *in)
{
    const bw_species *s = bw_species_find(table, "pine_red", NULL, 0);
    (void)in;
    return s != NULL
               ? exclusion_limit(arena, s->rupture.value, bwi_bending_route.scatter.value)
               : (double)NAN;
}

static double red_pine_limit(const row_inputs *in)
{
    return with_tables(in, read_red_pine);
}

/* ---- duration and safety ---- */

static double duration_and_safety(const row_inputs *in)
{
    return in->share * in->limit;
}

static double divisor_of_route(const row_inputs *in)
{
    (void)in;
    return bwi_bending_route.divisor[0].value;
}

static double allowable_of_limit(const row_inputs *in)
{
    return in->bending / duration_and_safety(in);
}

/* ---- logs with flats and poles ---- */

static double flatted_area(const row_inputs *in)
{
    bw_section s = bw_section_round(in->diameter);
    s.flat_top = in->depth;
    return bw_section_area(&s);
}

static double seat_width(const row_inputs *in)
{
    return bwi_flat_width(in->diameter, in->depth);
}

/* The girth at which the bending check of a pole is just full, by bisection. */
static double girth_for_load(const row_inputs *in)
{
    const bw_reference reference = {.value = {[BW_BENDING_STRENGTH] = in->bending}};
    double low = 0.1, high = 1.0; /* [m], below the size at which C_F counts */
    for (int k = 0; k < 100; k++) {
        const double girth = 0.5 * (low + high);
        const bw_check_input check = {.reference = &reference,
                                      .diameter = bw_diameter_from_girth(girth),
                                      .moment = in->force * in->height,
                                      .load_duration = 1.0};
        *(bwi_us_bending.ratio(&check, NULL).utilisation > 1.0 ? &low : &high) = girth;
    }
    return high;
}

/* ---- standards that the program does not use: their formulas, as they were read ---- */

/* BS 5268-2, Annex B: N = 1.5, eta = 0.005 lambda. */
static double british_column_factor(const row_inputs *in)
{
    const double r = pi * pi * in->limit / (1.5 * in->slenderness * in->slenderness);
    const double half = 0.5 + (1.0 + 0.005 * in->slenderness) * r / 2.0;

    return half - sqrt(half * half - r);
}

/* EN 1176-1, Annex A: g (n m + 1.64 sigma sqrt n) C_dyn, C_dyn = 1 + 1 / n, m = 53.8 kg,
 * sigma = 9.6 kg, g = 10 m/s2. */
static double play_load(const row_inputs *in)
{
    const double n = in->people;

    return 10.0 * (n * 53.8 + 1.64 * 9.6 * sqrt(n)) * (1.0 + 1.0 / n);
}

const row_function *row_function_wood(const char *name)
{
    static const row_function functions[] = {
        {"form_of_square", BW_NUMBER, form_of_square},
        {"form_factor_taken_back", BW_NUMBER, form_factor_taken_back},
        {"form_and_size", BW_NUMBER, form_and_size},
        {"form_and_size_of_route", BW_NUMBER, form_and_size_of_route},
        {"diameter_of_square", BW_LENGTH, diameter_of_square},
        {"sawn_size", BW_NUMBER, sawn_size},
        {"exclusion", BW_STRESS, exclusion},
        {"pole_ratio", BW_NUMBER, pole_ratio},
        {"older_pile_route", BW_STRESS, older_pile_route},
        {"red_pine_limit", BW_STRESS, red_pine_limit},
        {"duration_and_safety", BW_NUMBER, duration_and_safety},
        {"divisor_of_route", BW_NUMBER, divisor_of_route},
        {"allowable_of_limit", BW_STRESS, allowable_of_limit},
        {"flatted_area", BW_AREA, flatted_area},
        {"seat_width", BW_LENGTH, seat_width},
        {"girth_for_load", BW_LENGTH, girth_for_load},
        {"british_column_factor", BW_NUMBER, british_column_factor},
        {"play_load", BW_FORCE, play_load},
    };

    for (size_t i = 0; i < sizeof functions / sizeof functions[0]; i++) {
        if (strcmp(functions[i].name, name) == 0) {
            return &functions[i];
        }
    }
    return NULL;
}
