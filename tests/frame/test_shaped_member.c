/* Tapered members with flats and hollows: cantilevers against numerical integration of
 * their flexibility and weight. */
#include "bolewright/frame.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

typedef struct {
    double at_i[4], at_j[4];      /* diameter, flats above and below, hollow */
    double sag, turn, stretch;    /* at the tip, under P across, P across, P along */
    double weight, weight_moment; /* [N], [N*m] about end i */
} cantilever;

static const double length = 2.385, E = 9.13e9, G = 5.7e8, kappa = 0.9, P = 1731.0;
static const double density = 743.0;

/* int P (L - x)^2/EI + P/(kappa G A), int P (L - x)/EI, int P/EA, int rho g A and int
 * rho g A x, with A and I of the circle segments: mpmath quad, 30 digits, intervals
 * graded to both ends (COMPUTED). */
static const cantilever oracle[] = {
    {{0.2385, 0.0317, 0.0214, 0.1393},
     {0.1763, 0.0147, 0.0093, 0.0871},
     0.013279040205468504,
     0.0087224249620136326,
     2.2274714666356265e-5,
     356.21318620039254,
     400.82022770245471},
    {{0.2385, 0.0, 0.0214, 0.0}, /* the flat above runs out at the butt */
     {0.1763, 0.0317, 0.0093, 0.0},
     0.0093142669398867161,
     0.0065880623147872883,
     1.4924380517582461e-5,
     549.0458900724397,
     579.08489591850042},
    {{0.2385, 0.0254, 0.0, 0.0},
     {0.1763, 0.0254, 0.0, 0.0},
     0.0094664943847710393,
     0.0065407253451003113,
     1.4765195938514464e-5,
     550.42571283368176,
     587.72039835133078},
    {{0.2385, 0.0, 0.0, 0.1731}, /* a sound shell of one thickness */
     {0.1763, 0.0, 0.0, 0.1109},
     0.010114630186256152,
     0.0066818621516473168,
     2.546690271311245e-5,
     311.88063016185309,
     349.84812473522006},
    {{0.3127, 0.0293, 0.0, 0.2493}, /* everything runs out somewhere */
     {0.0887, 0.0, 0.0118, 0.0},
     0.010481442413603853,
     0.010353296697209818,
     3.0597819762039609e-5,
     297.10296913834308,
     289.66487348334487},
    {{0.2385, 0.11925, 0.0, 0.0}, /* a half log: all sizes alike */
     {0.1763, 0.08815, 0.0, 0.0},
     0.052743917715425955,
     0.036730843503961372,
     2.738508494167336e-5,
     295.7455640387268,
     317.68254960868482},
};

static bw_section section_of(const double size[4])
{
    bw_section s = bw_section_round(size[0]);
    s.flat_top = size[1];
    s.flat_bottom = size[2];
    s.bore = size[3];
    return s;
}

static void assert_close(double value, double expected, double relative)
{
    if (!(fabs(value - expected) <= relative * fabs(expected))) {
        fail_msg("%.17g, expected %.17g", value, expected);
    }
}

/* Load cases: P down at the tip, P along, own weight. Clamped at end i, or at end j with
 * the member laid the other way round. */
static bw_state *solve(const cantilever *c, bool turned, int load_case, bw_arena *arena,
                       bw_frame **frame)
{
    bw_diags d = bw_diags_new(arena, NULL);
    bw_frame *f = bw_frame_new(arena);
    bw_section i = section_of(c->at_i), j = section_of(c->at_j);
    if (turned) { /* the other end first turns the log upside down in its own axes */
        const bw_section swap = i;
        i = j;
        j = swap;
        const double tops[2] = {i.flat_top, j.flat_top};
        i.flat_top = i.flat_bottom;
        j.flat_top = j.flat_bottom;
        i.flat_bottom = tops[0];
        j.flat_bottom = tops[1];
    }
    const int clamp = bw_frame_add_node(f, 0.0, 0.0, "clamp", NULL);
    const int tip = bw_frame_add_node(f, length, 0.0, "tip", NULL);
    const bw_member m = {.node_i = turned ? tip : clamp,
                         .node_j = turned ? clamp : tip,
                         .section_i = i,
                         .section_j = j,
                         .modulus = E,
                         .shear_modulus = G,
                         .kappa = kappa,
                         .density = density};
    assert_int_equal(bw_frame_add_member(f, &m), 0);
    const bw_support s = {.node = clamp, .fix = {true, true, true}};
    assert_int_equal(bw_frame_add_support(f, &s), BW_OK);
    assert_int_equal(bw_frame_load_node(f, 0, tip, 0.0, -P, 0.0), BW_OK);
    assert_int_equal(bw_frame_load_node(f, 1, tip, P, 0.0, 0.0), BW_OK);
    assert_int_equal(bw_frame_load_self_weight(f, 2, 1.0), BW_OK);
    assert_int_equal(bw_frame_factor(f, &d), BW_OK);
    assert_int_equal(bw_frame_solve(f, &d), BW_OK);
    *frame = f;
    return bw_frame_state(f, &(bw_part){load_case, 1.0}, 1, arena);
}

static void tip_of_a_shaped_cantilever_moves_as_its_integrals_say(void **state)
{
    (void)state;
    for (size_t k = 0; k < 2 * sizeof oracle / sizeof oracle[0]; k++) {
        const cantilever *c = &oracle[k / 2];
        bw_arena *arena = bw_arena_new();
        bw_frame *f = NULL;
        const bw_state *across = solve(c, k % 2 == 1, 0, arena, &f);
        assert_close(-bw_state_displacement(across, 1).y, c->sag, 2e-12);
        assert_close(-bw_state_displacement(across, 1).r, c->turn, 2e-12);
        const bw_state *along = solve(c, k % 2 == 1, 1, arena, &f);
        assert_close(bw_state_displacement(along, 1).x, c->stretch, 2e-12);
        bw_arena_free(arena);
    }
}

static void shaped_cantilever_weighs_what_its_volume_weighs(void **state)
{
    (void)state;
    for (size_t k = 0; k < 2 * sizeof oracle / sizeof oracle[0]; k++) {
        const cantilever *c = &oracle[k / 2];
        bw_arena *arena = bw_arena_new();
        bw_frame *f = NULL;
        const bw_state *own = solve(c, k % 2 == 1, 2, arena, &f);
        const bw_motion r = bw_state_reaction(own, 0);
        assert_close(r.y, c->weight, 1e-12);
        assert_close(r.r, c->weight_moment, 1e-12);
        bw_arena_free(arena);
    }
}

/* Own weight stands as parabolas on parts of the member: whatever lies beyond a place
 * weighs what it should to within 2e-5 of the whole, even where flats run out. */
static void weight_beyond_any_place_is_near_the_integral(void **state)
{
    (void)state;
    for (size_t k = 0; k < sizeof oracle / sizeof oracle[0]; k++) {
        const cantilever *c = &oracle[k];
        bw_arena *arena = bw_arena_new();
        bw_frame *f = NULL;
        const bw_state *own = solve(c, false, 2, arena, &f);
        double beyond = 0.0;
        enum { STEPS = 20000 };
        for (int j = STEPS - 1; j >= 0; j--) {
            const double x = length * (j + 0.5) / STEPS;
            const bw_section s = bw_frame_section(f, 0, x);
            beyond += density * 9.80665 * bw_section_area(&s) * length / STEPS;
            if (j % 371 == 0) {
                const double V = bw_state_action(own, 0, length * j / STEPS, false).shear;
                assert_true(fabs(V - beyond) <= 2e-5 * c->weight);
            }
        }
        bw_arena_free(arena);
    }
}

/* Half the work of the load is the energy in the member (Clapeyron). */
static void energy_of_a_shaped_cantilever_is_half_the_work(void **state)
{
    (void)state;
    for (size_t k = 0; k < sizeof oracle / sizeof oracle[0]; k++) {
        const cantilever *c = &oracle[k];
        bw_arena *arena = bw_arena_new();
        bw_frame *f = NULL;
        const bw_state *s = solve(c, false, 0, arena, &f);
        assert_close(bw_state_energy(s), P * c->sag / 2.0, 4e-12);
        assert_close(bw_state_work(s), P * c->sag / 2.0, 4e-12);
        bw_arena_free(arena);
    }
}

static void assert_refused(bw_section at_i, bw_section at_j)
{
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, NULL);
    bw_frame *f = bw_frame_new(arena);
    bw_frame_add_node(f, 0.0, 0.0, "clamp", NULL);
    bw_frame_add_node(f, length, 0.0, "tip", NULL);
    const bw_member m = {.node_i = 0,
                         .node_j = 1,
                         .section_i = at_i,
                         .section_j = at_j,
                         .modulus = E,
                         .name = "log"};
    bw_frame_add_member(f, &m);
    const bw_support s = {.node = 0, .fix = {true, true, true}};
    assert_int_equal(bw_frame_add_support(f, &s), BW_OK);
    assert_int_equal(bw_frame_factor(f, &d), BW_E_INPUT);
    assert_int_equal(d.errors, 1);
    assert_string_equal(d.items[0].id, "frame.member");
    bw_arena_free(arena);
}

static void section_cut_away_is_refused(void **state)
{
    (void)state;
    const double sound[4] = {0.2385, 0.0317, 0.0, 0.1};
    const double bad[][4] = {
        {0.2385, -0.01, 0.0, 0.0},     {0.2385, 0.0, -0.01, 0.0},
        {0.2385, 0.0, 0.0, -0.1},      {0.2385, 0.13, 0.11, 0.0},
        {0.2385, 0.0, 0.0, 0.237},     {0.2385, 0.0317, 0.0, 0.18},
        {0.2385, 0.0, 0.0317, 0.18},   {0.2385, (double)NAN, 0.0, 0.0},
        {0.2385, 0.0, (double)NAN, 0}, {0.2385, 0.0, 0.0, (double)NAN},
    };
    for (size_t k = 0; k < sizeof bad / sizeof bad[0]; k++) {
        assert_refused(section_of(bad[k]), section_of(sound));
        assert_refused(section_of(sound), section_of(bad[k]));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tip_of_a_shaped_cantilever_moves_as_its_integrals_say),
        cmocka_unit_test(shaped_cantilever_weighs_what_its_volume_weighs),
        cmocka_unit_test(weight_beyond_any_place_is_near_the_integral),
        cmocka_unit_test(energy_of_a_shaped_cantilever_is_half_the_work),
        cmocka_unit_test(section_cut_away_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
