/* Knees along a row, from a post to the stringer over it: statics by hand, and a small
 * frame solver of its own. */
#include "../base/arena_fixture.h"
#include "planned.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

typedef struct {
    const bw_case *deck;
    bw_assessment result;
    bwi_plan plan;
    bwi_row_frame row;
} framed;

static const double span = 2.713;

/* Level, logs without taper; posts 0.93 m to the boards. */
static bwt_deck level(int bays)
{
    bwt_deck d = bwt_deck_plain();
    d.n_bents = bays + 1;
    for (int k = 0; k <= bays; k++) {
        d.at[k] = span * k;
        d.height[k] = 1.43;
    }
    d.stringer = (bwt_log){"lodgepole pine", 0.2, 0.2, 0.0};
    d.post = (bwt_log){"western redcedar", 0.214, 0.214, 0.0};
    d.brace = (bwt_log){"lodgepole pine", 0.091, 0.091, 0.0};
    return d;
}

static void make_row(const bwt_deck *d, bw_arena *arena, framed *out)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    assert_int_equal(bwt_deck_plan(d, arena, &out->deck, &out->result, &out->plan),
                     BW_OK);
    assert_int_equal(bwi_row_frame_make(&out->plan, 0, 1, &out->row, &diags), BW_OK);
}

/* ---- by hand ---- */

/* Two posts free to turn at foot and top, one knee: statically determinate. Pushed with F
 * at the height H of the stringer's axis, the far post, a strut, takes F H / L; the knee
 * takes the push of the near foot about that post's top, F H = K (H - h) sideways; the
 * stringer bends by F H / L times what lies beyond the knee, the post by F h. */
static bwt_deck one_knee(void)
{
    bwt_deck d = level(1);
    d.foot = "pad";
    d.hole_depth = 0.0;
    d.knee[0] = (bwt_knee){0, 0, 0.717, 0.613, true};
    d.knee[1] = (bwt_knee){0, 1, 0.717, 0.613, true};
    d.n_knees = 2;
    d.crowd = 2871.0;
    /* across the deck the knees do nothing: hold that by hand */
    return d;
}

static void make_one_knee(bw_arena *arena, framed *f)
{
    const bwt_deck d = one_knee();
    bw_diags diags = bw_diags_new(arena, NULL);
    *f = (framed){.deck = bwt_deck_read(&d, arena)};
    assert_non_null(f->deck);
    bw_reference *references = BW_NEW(arena, bw_reference, f->deck->n_logs);
    for (size_t k = 0; k < f->deck->n_logs; k++) {
        assert_int_equal(
            f->deck->basis->reference(arena, &f->deck->logs[k], &references[k]), BW_OK);
    }
    assert_int_equal(bwi_plan_make(arena, f->deck, references, &f->plan, &diags), BW_OK);
    assert_int_equal(bwi_row_frame_make(&f->plan, 0, 1, &f->row, &diags), BW_OK);
}

static void a_push_is_carried_by_the_knee_as_by_hand(void **state)
{
    framed f;
    make_one_knee(*state, &f);
    const bw_state *s =
        bw_frame_state(f.row.frame, &(bw_part){BWI_CASE_PUSH_AREA, 317.0}, 1, *state);
    const double F = 317.0 * bwi_plan_share(&f.plan, 0, 0)->dead_width * span;
    const double H = bwi_row_height(&f.plan, 0, 0), h = 0.717, a = 0.613;
    const double K = F * H / (H - h) * hypot(a, H - h) / a;
    double end[6];
    bw_state_ends(s, f.row.brace_member[0], end);
    assert_true(bwt_relative(fabs(end[0]), K) < 1e-9);
    assert_true(end[0] > 0.0); /* pushed ahead, the post leans away from the knee */
    bw_state_ends(s, f.row.bay_member[0], end);
    assert_true(bwt_relative(fabs(end[5]), F * H / span * (span - a)) < 1e-9);
    bw_state_ends(s, f.row.posts[0].first, end);
    assert_true(bwt_relative(fabs(end[5]), F * h) < 1e-9);
}

/* Weight on the stringer leaves the knee without force: the near post, which nothing
 * pushes at its foot, could not hold it. The log is a simple beam, w a (L - a) / 2. */
static void weight_on_a_hinged_row_leaves_the_knee_idle(void **state)
{
    framed f;
    make_one_knee(*state, &f);
    const bw_state *s =
        bw_frame_state(f.row.frame, &(bw_part){BWI_CASE_FIRST_BAY, 1.0}, 1, *state);
    const double w = 2871.0 * bwi_plan_share(&f.plan, 0, 0)->crowd_width;
    double end[6];
    bw_state_ends(s, f.row.brace_member[0], end);
    assert_true(fabs(end[0]) < 1e-9 * w);
    bw_state_ends(s, f.row.bay_member[0], end);
    assert_true(bwt_relative(end[5], w * 0.613 * (span - 0.613) / 2.0) < 1e-9);
    assert_true(bwt_relative(bwi_row_reaction(&f.row, s, 0), w * span / 2.0) < 1e-9);
}

/* ---- a small frame solver: prismatic Timoshenko elements, dense elimination ---- */

enum { FREE_MAX = 48 };
typedef struct {
    int n;
    double K[FREE_MAX][FREE_MAX + 1];
} dense;

typedef struct {
    double x[2], y[2], E, d;
    int at[6]; /* numbers of x, y, r at both ends; -1: held */
    double k[6][6];
} element;

/* d long: kappa 0.9, E / G 16 as the deck has them. */
static void add_element(dense *s, element *e)
{
    const double dx = e->x[1] - e->x[0], dy = e->y[1] - e->y[0], L = hypot(dx, dy);
    const double c = dx / L, n = dy / L, pi = 3.14159265358979324;
    const double A = pi / 4.0 * e->d * e->d, I = A * e->d * e->d / 16.0;
    const double phi = 12.0 * e->E * I / (0.9 * e->E / 16.0 * A * L * L);
    const double q = e->E * I / (L * L * L * (1.0 + phi)), p = e->E * A / L;
    const double local[6][6] = {
        {p, 0, 0, -p, 0, 0},
        {0, 12 * q, 6 * q * L, 0, -12 * q, 6 * q * L},
        {0, 6 * q * L, (4 + phi) * q * L * L, 0, -6 * q * L, (2 - phi) * q * L * L},
        {-p, 0, 0, p, 0, 0},
        {0, -12 * q, -6 * q * L, 0, 12 * q, -6 * q * L},
        {0, 6 * q * L, (2 - phi) * q * L * L, 0, -6 * q * L, (4 + phi) * q * L * L}};
    double T[6][6] = {{0}};
    for (int k = 0; k < 6; k += 3) {
        T[k][k] = T[k + 1][k + 1] = c;
        T[k][k + 1] = n;
        T[k + 1][k] = -n;
        T[k + 2][k + 2] = 1.0;
    }
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            double sum = 0.0;
            e->k[i][j] = 0.0;
            for (int a = 0; a < 6; a++) {
                e->k[i][j] += local[i][a] * T[a][j]; /* actions from global motions */
                for (int b = 0; b < 6; b++) {
                    sum += T[a][i] * local[a][b] * T[b][j];
                }
            }
            if (e->at[i] >= 0 && e->at[j] >= 0) {
                s->K[e->at[i]][e->at[j]] += sum;
            }
        }
    }
}

static void eliminate(dense *s, double u[FREE_MAX])
{
    for (int k = 0; k < s->n; k++) {
        for (int i = k + 1; i < s->n; i++) {
            const double part = s->K[i][k] / s->K[k][k];
            for (int j = k; j <= s->n; j++) {
                s->K[i][j] -= part * s->K[k][j];
            }
        }
    }
    for (int k = s->n - 1; k >= 0; k--) {
        double sum = s->K[k][s->n];
        for (int j = k + 1; j < s->n; j++) {
            sum -= s->K[k][j] * u[j];
        }
        u[k] = sum / s->K[k][k];
    }
}

/* Local forces of the element on its ends. */
static void forces(const element *e, const double *u, double out[6])
{
    for (int i = 0; i < 6; i++) {
        out[i] = 0.0;
        for (int j = 0; j < 6; j++) {
            out[i] += e->k[i][j] * (e->at[j] >= 0 ? u[e->at[j]] : 0.0);
        }
    }
}

/* Two bays, the stringer running on, feet held, knees on both sides of the middle post;
 * a load at x = load_at. Numbers: tops 0-2 (x, y), cuts 3-4 (x, y, r), load (x, y, r),
 * knee joint of the post (x, y, r); turns of the tops. */
static const double h = 0.717, back = 0.573, ahead = 0.813;

typedef struct {
    element part[16];
    int n;
    double u[FREE_MAX];
} small_frame;

static element *element_of(small_frame *f, const double from[2], const double to[2],
                           const int a[3], const int b[3])
{
    element *e = &f->part[f->n++];
    *e = (element){.x = {from[0], to[0]}, .y = {from[1], to[1]}};
    memcpy(e->at, a, 3 * sizeof *a);
    memcpy(e->at + 3, b, 3 * sizeof *b);
    return e;
}

static void solve_small(double H, double load_at, double P, const double E[3],
                        small_frame *f)
{
    dense s = {.n = 0};
    *f = (small_frame){.n = 0};
    int next = 0;
    /* along the stringer: top 0, cut, middle top, cut, last top, and the load between */
    double at[6] = {0.0, span - back, span, span + ahead, 2.0 * span, load_at};
    int place[6], number[6][3];
    for (int k = 0; k < 6; k++) {
        place[k] = k;
        for (int j = 0; j < 3; j++) {
            number[k][j] = next++;
        }
    }
    for (int k = 5; k > 0 && at[place[k]] < at[place[k - 1]]; k--) {
        const int kept = place[k];
        place[k] = place[k - 1];
        place[k - 1] = kept;
    }
    /* turns of the outer posts' tops are their own: the stringer is hinged there */
    const int outer[2] = {next, next + 1};
    next += 2;
    int joint[3], middle_turn = next++, knee_turn[4];
    for (int j = 0; j < 3; j++) {
        joint[j] = next++;
    }
    for (int j = 0; j < 4; j++) {
        knee_turn[j] = next++;
    }
    s.n = next;
    const int held[3] = {-1, -1, -1};
    for (int k = 0; k < 5; k++) { /* stringer */
        const int a = place[k], b = place[k + 1];
        element *e = element_of(f, (double[]){at[a], H}, (double[]){at[b], H}, number[a],
                                number[b]);
        e->E = E[0];
        e->d = 0.2;
    }
    for (int k = 0; k < 2; k++) { /* outer posts */
        const int top = k == 0 ? 0 : 4;
        element *e = element_of(f, (double[]){at[top], 0.0}, (double[]){at[top], H}, held,
                                (int[]){number[top][0], number[top][1], outer[k]});
        e->E = E[1];
        e->d = 0.214;
    }
    element *low = element_of(f, (double[]){span, 0.0}, (double[]){span, h}, held, joint);
    low->E = E[1];
    low->d = 0.214;
    element *up = element_of(f, (double[]){span, h}, (double[]){span, H}, joint,
                             (int[]){number[2][0], number[2][1], middle_turn});
    up->E = E[1];
    up->d = 0.214;
    for (int k = 0; k < 2; k++) { /* knees, hinged: turns of their own */
        const int cut = k == 0 ? 1 : 3;
        element *e =
            element_of(f, (double[]){span, h}, (double[]){at[cut], H},
                       (int[]){joint[0], joint[1], knee_turn[2 * k]},
                       (int[]){number[cut][0], number[cut][1], knee_turn[2 * k + 1]});
        e->E = E[2];
        e->d = 0.091;
    }
    for (int k = 0; k < f->n; k++) {
        add_element(&s, &f->part[k]);
    }
    s.K[number[5][1]][s.n] = -P;
    eliminate(&s, f->u);
}

static bwt_deck two_knees(void)
{
    bwt_deck d = level(2);
    d.run[0] = d.run[1] = 2;
    d.foot = "fixed";
    d.hole_depth = 0.0;
    for (int r = 0; r < 2; r++) {
        d.knee[2 * r] = (bwt_knee){1, r, h, -back, true};
        d.knee[2 * r + 1] = (bwt_knee){1, r, h, ahead, true};
    }
    d.n_knees = 4;
    return d;
}

static void a_wheel_agrees_with_a_small_frame_of_its_own(void **state)
{
    const bwt_deck d = two_knees();
    framed f;
    make_row(&d, *state, &f);
    const double H = bwi_row_height(&f.plan, 0, 0);
    const double E[3] = {f.result.references[0].value[BW_MODULUS],
                         f.result.references[2].value[BW_MODULUS],
                         f.result.references[3].value[BW_MODULUS]};
    for (double x = 0.119; x < 2.0 * span; x += 0.371) {
        const size_t bay = x < span ? 0 : 1;
        const bwi_rider_place rider = {true,  bay,  x - span * (double)bay, 0, 0.0,
                                       false, false};
        bwi_wheels w;
        bwi_riders(&f.plan, &f.row, &rider, 1, (bwi_blow){1.0, 0.0}, &w);
        assert_int_equal(w.n, 1);
        small_frame own;
        solve_small(H, x, -w.wheel[0].fy, E, &own);
        const double P = -w.wheel[0].fy;
        double end[6], other[6];
        for (int k = 0; k < 2; k++) { /* knees: tension positive */
            bw_influence_ends(f.row.influence, f.row.brace_member[k], w.wheel, 1, end);
            forces(&own.part[9 + k], own.u, other);
            assert_true(fabs(end[3] - other[3]) < 1e-8 * P);
        }
        /* foot of the middle post: N, M */
        bw_influence_ends(f.row.influence, f.row.posts[1].first, w.wheel, 1, end);
        forces(&own.part[7], own.u, other);
        assert_true(fabs(end[0] + other[0]) < 1e-8 * P);
        assert_true(fabs(end[2] + other[2]) < 1e-8 * P);
        /* under the wheel: the element that begins there */
        for (int k = 0; k < 5; k++) {
            if (own.part[k].x[0] == x) {
                const bwi_bay read =
                    bwi_bay_read(&f.row, bay, NULL, w.wheel, w.n, *state);
                forces(&own.part[k], own.u, other);
                const double M =
                    bwi_bay_action(&read, x - span * (double)bay, false).moment;
                assert_true(fabs(M + other[2]) < 1e-8 * P);
            }
        }
        /* what comes to the bent comes through the seat and the knees */
        forces(&own.part[7], own.u, other);
        assert_true(fabs(bwi_row_wheel_reaction(&f.row, &w, 1) - other[0]) < 1e-8 * P);
    }
}

static void a_wheel_is_carried_whole(void **state)
{
    const bwt_deck d = two_knees();
    framed f;
    make_row(&d, *state, &f);
    uint64_t random = 3313;
    for (int k = 0; k < 100; k++) {
        const size_t bay = (size_t)bwt_below(&random, 2);
        const bwi_rider_place rider = {
            true, bay, bwt_uniform(&random, 0.0, span), 0, 0.0, false, false};
        bwi_wheels w;
        bwi_riders(&f.plan, &f.row, &rider, 1, (bwi_blow){1.0, 0.0}, &w);
        double sum = 0.0;
        for (size_t b = 0; b < 3; b++) {
            sum += bwi_row_wheel_reaction(&f.row, &w, b);
        }
        assert_true(bwt_relative(sum, -w.wheel[0].fy) < 1e-9);
    }
}

/* No place of the rider bends or shears the log more than the finding says. */
static void findings_hold_at_random_places(void **state)
{
    bwt_deck d = two_knees();
    framed f;
    make_row(&d, *state, &f);
    const bw_state *dead =
        bw_frame_state(f.row.frame, &(bw_part){BWI_CASE_DEAD, 1.0}, 1, *state);
    const bw_finding *bending =
        bwt_finding(&f.result, "stringer", "r0-0", BW_CHECK_BENDING);
    const bw_finding *shear = bwt_finding(&f.result, "stringer", "r0-0", BW_CHECK_SHEAR);
    assert_non_null(bending);
    assert_non_null(shear);
    const double S = 3.14159265358979324 / 32.0 * 0.2 * 0.2 * 0.2;
    const double most_M = bwt_term(bending, "M"), most_V = bwt_term(shear, "V");
    assert_true(S > 0.0 && most_M > 0.0 && most_V > 0.0);
    double nearest = 0.0;
    uint64_t random = 9203;
    for (int k = 0; k < 400; k++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        const size_t bay = (size_t)bwt_below(&random, 2);
        const bwi_rider_place rider = {
            true, bay, bwt_uniform(&random, 0.0, span), 0, 0.0, false, false};
        bwi_wheels w;
        bwi_riders(&f.plan, &f.row, &rider, 1, (bwi_blow){d.factor, 0.0}, &w);
        for (size_t b = 0; b < 2; b++) {
            const bwi_bay read = bwi_bay_read(&f.row, b, dead, w.wheel, 1, *state);
            for (int j = 0; j <= 40; j++) {
                const bw_action a = bwi_bay_action(&read, span * j / 40.0, j == 40);
                assert_true(fabs(a.moment) <= most_M * (1.0 + 1e-9));
                assert_true(fabs(a.shear) <= most_V * (1.0 + 1e-9));
                nearest = fmax(nearest, fabs(a.moment) / most_M);
            }
        }
        bw_arena_back(*state, mark);
    }
    assert_true(nearest > 0.95);
}

/* Knees stiffen a row, and stand in the member table. One that only pushes is left out
 * of the frame for the push that would pull it: the way the other one is pressed. */
static void knees_steady_a_row_and_slacken(void **state)
{
    bwt_deck d = two_knees();
    d.foot = "hole";
    d.hole_depth = 0.61;
    d.lean = 0.02;
    d.push = 0.5;
    double sway[3];
    for (int turn = 0; turn < 3; turn++) { /* pulling, pushing only, none */
        for (int k = 0; k < 4; k++) {
            d.knee[k].pulls = turn == 0;
        }
        d.n_knees = turn < 2 ? 4 : 0;
        framed f;
        make_row(&d, *state, &f);
        const bw_state *s =
            bw_frame_state(f.row.frame, &(bw_part){BWI_CASE_PUSH_AREA, 317.0}, 1, *state);
        sway[turn] = bw_state_displacement(s, f.row.deck_node[1]).x;
        if (turn == 1) {
            assert_true(f.row.brace_member[0] >= 0 && f.row.brace_member[1] < 0);
            bwi_row_frame other;
            bw_diags diags = bw_diags_new(*state, NULL);
            assert_int_equal(bwi_row_frame_make(&f.plan, 0, -1, &other, &diags), BW_OK);
            assert_true(other.brace_member[0] < 0 && other.brace_member[1] >= 0);
            assert_non_null(bwt_finding(&f.result, "brace", "k0", BW_CHECK_COMPRESSION));
        }
    }
    assert_true(sway[0] < sway[1] && sway[1] < sway[2]);
}

/* A rider beyond the next post lifts a stringer that runs on, and with it the knee under
 * it: let into its notch alone it would fall out, and the frame counts on it. */
static void a_pull_that_nothing_holds_is_never_within_limits(void **state)
{
    bwt_deck d = level(2);
    d.run[0] = d.run[1] = 2;
    d.foot = "hole";
    d.hole_depth = 1.1;
    d.knee[0] = (bwt_knee){.bent = 1, .height = 0.4, .ahead = 0.71};
    d.n_knees = 1;
    framed f;
    f.deck = bwt_deck_read(&d, *state);
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
    const bw_finding *joint =
        bwt_finding(&a, "brace", f.deck->braces[0].name, BW_CHECK_JOINT);
    assert_non_null(joint);
    assert_int_equal(joint->verdict, BW_CANNOT_SAY);
}

/* A knee that the weight presses pushes its post, and the others through the stringer.
 * Braking the other way relieves them, but nobody has to brake: what the holes need at
 * rest stays needed. */
static size_t brake(bwt_deck d, bw_arena *arena)
{
    bw_assessment still, braking;
    assert_int_equal(bwt_deck_assess(&d, arena, &still, NULL), BW_OK);
    size_t n = 0;
    for (double push = 0.01; push < 0.5; push *= 2.0) {
        d.push = push;
        assert_int_equal(bwt_deck_assess(&d, arena, &braking, NULL), BW_OK);
        for (size_t k = 0; k < still.n_members; k++) {
            const bw_finding *before = &still.members[k].findings[BW_CHECK_SOIL_LATERAL];
            const bw_finding *after = &braking.members[k].findings[BW_CHECK_SOIL_LATERAL];
            if (still.members[k].has[BW_CHECK_SOIL_LATERAL]) {
                assert_true(after->ratio.utilisation >=
                            before->ratio.utilisation * (1.0 - 1e-6));
                n += before->ratio.utilisation > 0.05;
            }
        }
    }
    return n;
}

/* One knee is held one way and slack the other, two are half and half. */
static void braking_takes_nothing_off_the_holes(void **state)
{
    bwt_deck d = level(3);
    d.foot = "hole";
    d.hole_depth = 0.97;
    d.knee[0] = (bwt_knee){.bent = 1, .height = 0.61, .ahead = 0.53};
    d.knee[1] = (bwt_knee){.bent = 1, .height = 0.61, .ahead = -0.53};
    for (d.n_knees = 1; d.n_knees <= 2; d.n_knees++) {
        assert_true(brake(d, *state) > 10);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_push_is_carried_by_the_knee_as_by_hand),
        WITH_ARENA(weight_on_a_hinged_row_leaves_the_knee_idle),
        WITH_ARENA(a_wheel_agrees_with_a_small_frame_of_its_own),
        WITH_ARENA(a_wheel_is_carried_whole),
        WITH_ARENA(findings_hold_at_random_places),
        WITH_ARENA(knees_steady_a_row_and_slacken),
        WITH_ARENA(a_pull_that_nothing_holds_is_never_within_limits),
        WITH_ARENA(braking_takes_nothing_off_the_holes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
