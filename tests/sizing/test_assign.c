/* Assignments against trying every one, against SciPy's published method, and by the
 * prices that prove them; choices from a pile against trying all of them over every
 * target. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "sizing/assign.h"

static uint64_t seed = 20260711;

/* xorshift64*: S. Vigna 2016, constants from memory. */
static double random_unit(void)
{
    seed ^= seed >> 12;
    seed ^= seed << 25;
    seed ^= seed >> 27;
    return (double)((seed * 2685821657736338717ULL) >> 11) / 9007199254740992.0;
}

static size_t random_below(size_t n)
{
    return (size_t)(random_unit() * (double)n);
}

/* ---- assignments ---- */

/* Cheapest completion from the row on; infinite if there is none. */
static double try_all(const bwi_costs *costs, size_t row, unsigned taken)
{
    double best = HUGE_VAL;
    if (row == costs->n_rows) {
        return 0.0;
    }
    for (size_t j = 0; j < costs->n_columns; j++) {
        const double cost = costs->cost[row * costs->n_columns + j];
        if ((taken & (1U << j)) == 0 && isfinite(cost)) {
            best = fmin(best, cost + try_all(costs, row + 1, taken | (1U << j)));
        }
    }
    return best;
}

/* Columns all different, costs as said, and no assignment can be cheaper (duality). */
static void assert_proven(const bwi_costs *costs, const bwi_assignment *found)
{
    double total = 0.0, bound = 0.0;
    for (size_t j = 0; j < costs->n_columns; j++) {
        assert_true(found->price[j] <= 0.0);
        bound += found->price[j];
    }
    for (size_t i = 0; i < costs->n_rows; i++) {
        double least = HUGE_VAL;
        for (size_t k = 0; k < i; k++) {
            assert_int_not_equal(found->column[i], found->column[k]);
        }
        total += costs->cost[i * costs->n_columns + (size_t)found->column[i]];
        for (size_t j = 0; j < costs->n_columns; j++) {
            least = fmin(least, costs->cost[i * costs->n_columns + j] - found->price[j]);
        }
        bound += least;
    }
    assert_true(fabs(total - found->total) <= 1e-9);
    assert_true(fabs(total - bound) <= 1e-9 * (1.0 + fabs(total)));
}

static void assignments_are_the_cheapest_of_all(void **state)
{
    (void)state;
    size_t solvable = 0;
    for (int k = 0; k < 2000; k++) {
        double cost[6 * 7];
        int column[6];
        double price[7];
        bwi_costs costs = {1 + random_below(6), 0, cost};
        costs.n_columns = costs.n_rows + random_below(2);
        for (size_t i = 0; i < costs.n_rows * costs.n_columns; i++) {
            cost[i] = random_unit() < 0.3 ? HUGE_VAL : 20.0 * random_unit() - 7.0;
        }
        bw_arena *arena = bw_arena_new();
        bwi_assignment found = {column, price, 0.0};
        const bw_status status = bwi_assign(arena, &costs, &found);
        const double best = try_all(&costs, 0, 0);
        assert_int_equal(status, isfinite(best) ? BW_OK : BW_E_INPUT);
        if (status == BW_OK) {
            assert_true(fabs(found.total - best) <= 1e-9);
            assert_proven(&costs, &found);
            solvable++;
        }
        bw_arena_free(arena);
    }
    assert_true(solvable > 800);
}

/* scipy.optimize.linear_sum_assignment (SciPy 1.10.1, Debian 12) of
 * cost[i][j] = (37 i^2 + 11 j^3 + 5 i j) mod 101 / 7, 9 rows and 14 columns: COMPUTED. */
static void assignments_agree_with_scipy(void **state)
{
    (void)state;
    double cost[9 * 14];
    int column[9];
    double price[14];
    for (int i = 0; i < 9; i++) {
        for (int j = 0; j < 14; j++) {
            cost[i * 14 + j] = (double)((37 * i * i + 11 * j * j * j + 5 * i * j) % 101);
            cost[i * 14 + j] /= 7.0;
        }
    }
    bw_arena *arena = bw_arena_new();
    const bwi_costs costs = {9, 14, cost};
    bwi_assignment found = {column, price, 0.0};
    assert_int_equal(bwi_assign(arena, &costs, &found), BW_OK);
    assert_true(fabs(found.total - 46.0 / 7.0) <= 1e-9);
    assert_proven(&costs, &found);
    bw_arena_free(arena);
}

/* ---- choices ---- */

enum { PLACES_MOST = 4, LOGS_MOST = 6 };

typedef struct {
    bwi_pile pile;
    double wood[LOGS_MOST], depth[PLACES_MOST * LOGS_MOST];
    bool level[PLACES_MOST], allowed[PLACES_MOST * LOGS_MOST];
} small_pile;

static void make_pile(small_pile *s)
{
    const size_t places = 1 + random_below(PLACES_MOST),
                 logs = 1 + random_below(LOGS_MOST);
    s->pile = (bwi_pile){
        places, logs, s->wood, s->depth, s->level, s->allowed, 0.3 + 2.0 * random_unit()};
    for (size_t j = 0; j < logs; j++) {
        s->wood[j] = 0.03 + 0.4 * random_unit();
    }
    for (size_t i = 0; i < places; i++) {
        s->level[i] = random_unit() < 0.75;
        for (size_t j = 0; j < logs; j++) {
            s->depth[i * logs + j] = 0.11 + 0.19 * random_unit();
            s->allowed[i * logs + j] = random_unit() < 0.8;
        }
    }
}

typedef struct {
    size_t missing;
    double cost;
} judged;

static bool is_better(judged a, judged b)
{
    return a.missing != b.missing ? a.missing < b.missing : a.cost < b.cost;
}

/* The choice with its best target: the least sum of distances is at one of the depths. */
static judged judge(const bwi_pile *p, const int *log)
{
    judged out = {0, 0.0};
    double least = HUGE_VAL;
    for (size_t i = 0; i < p->n_places; i++) {
        out.missing += log[i] < 0;
        out.cost += log[i] < 0 ? 0.0 : p->wood[log[i]];
    }
    for (size_t i = 0; i < p->n_places; i++) {
        double sum = 0.0;
        if (log[i] < 0 || !p->level[i]) {
            continue;
        }
        const double target = p->depth[i * p->n_logs + (size_t)log[i]];
        for (size_t k = 0; k < p->n_places; k++) {
            if (log[k] >= 0 && p->level[k]) {
                sum += fabs(p->depth[k * p->n_logs + (size_t)log[k]] - target);
            }
        }
        least = fmin(least, sum);
    }
    out.cost += isfinite(least) ? p->weight * least : 0.0;
    return out;
}

static judged try_choices(const bwi_pile *p, size_t place, unsigned taken, int *log)
{
    if (place == p->n_places) {
        return judge(p, log);
    }
    log[place] = -1;
    judged best = try_choices(p, place + 1, taken, log);
    for (size_t j = 0; j < p->n_logs; j++) {
        if ((taken & (1U << j)) != 0 || !p->allowed[place * p->n_logs + j]) {
            continue;
        }
        log[place] = (int)j;
        const judged one = try_choices(p, place + 1, taken | (1U << j), log);
        best = is_better(one, best) ? one : best;
    }
    return best;
}

static void assert_best(const bwi_pile *p, const bwi_choice *found)
{
    int log[PLACES_MOST];
    const judged best = try_choices(p, 0, 0, log);
    const judged as_found = judge(p, found->log);
    assert_int_equal(found->n_missing, best.missing);
    assert_true(fabs(found->cost - best.cost) <= 1e-6);
    assert_int_equal(as_found.missing, best.missing);
    assert_true(fabs(as_found.cost - found->cost) <= 1e-6);
    for (size_t i = 0; i < p->n_places; i++) {
        const int j = found->log[i];
        assert_true(j < 0 || p->allowed[i * p->n_logs + (size_t)j]);
        for (size_t k = 0; j >= 0 && k < i; k++) {
            assert_int_not_equal(found->log[k], j);
        }
    }
}

/* 500 piles; each is asked again after pairs have been ruled out, when what was learnt of
 * the targets before must still hold. */
static void choices_are_the_best_over_all_targets(void **state)
{
    (void)state;
    for (int k = 0; k < 500; k++) {
        small_pile s;
        int log[PLACES_MOST];
        bwi_chooser chooser;
        bwi_choice found = {.log = log};
        bw_arena *arena = bw_arena_new();
        make_pile(&s);
        assert_int_equal(bwi_chooser_make(arena, &s.pile, &chooser), BW_OK);
        for (int again = 0; again < 4; again++) {
            assert_int_equal(bwi_choose(&chooser, &found), BW_OK);
            assert_best(&s.pile, &found);
            for (size_t i = 0; i < s.pile.n_places; i++) {
                if (log[i] >= 0 && random_unit() < 0.5) {
                    s.allowed[i * s.pile.n_logs + (size_t)log[i]] = false;
                }
            }
        }
        bw_arena_free(arena);
    }
}

static double seconds(void)
{
    struct timespec now;
    assert_int_equal(clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now), 0);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* 200 logs, 80 places of which 32 are level and of three lengths: under a second of the
 * processor, and a fraction of the targets solved. */
static void a_large_pile_takes_less_than_a_second(void **state)
{
    (void)state;
    enum { PLACES = 80, LOGS = 200 };
    static double wood[LOGS], depth[PLACES * LOGS];
    static bool level[PLACES], allowed[PLACES * LOGS];
    int log[PLACES];
    for (int j = 0; j < LOGS; j++) {
        const double butt = 0.14 + 0.18 * random_unit(),
                     length = 2.4 + 4.0 * random_unit();
        wood[j] = 0.7 * butt * butt * length;
        for (int i = 0; i < PLACES; i++) {
            level[i] = i < 32;
            depth[i * LOGS + j] = butt - 0.004 * (double)(i % 3);
            allowed[i * LOGS + j] = length > 2.0 + (double)(i % 3) && butt > 0.17;
        }
    }
    const bwi_pile pile = {PLACES, LOGS, wood, depth, level, allowed, 1.0};
    bw_arena *arena = bw_arena_new();
    bwi_chooser chooser;
    bwi_choice found = {.log = log};
    const double start = seconds();
    assert_int_equal(bwi_chooser_make(arena, &pile, &chooser), BW_OK);
    assert_int_equal(bwi_choose(&chooser, &found), BW_OK);
    const double took = seconds() - start;
    print_message("80 places, 200 logs, %zu targets: %zu solved, %.3f s, %zu missing\n",
                  chooser.n_targets, chooser.solved, took, found.n_missing);
    assert_true(took < 1.0);
    assert_true(chooser.solved < chooser.n_targets);
    bw_arena_free(arena);
}

static void running_out_of_memory_is_reported(void **state)
{
    (void)state;
    bw_status status = BW_E_MEMORY;
    for (unsigned long n = 1; status == BW_E_MEMORY && n < 2000; n++) {
        small_pile s;
        int log[PLACES_MOST];
        bwi_chooser chooser;
        bwi_choice found = {.log = log};
        bw_arena *arena = bw_arena_new();
        seed = 77;
        make_pile(&s);
        bw_arena_fail_after(n);
        status = bwi_chooser_make(arena, &s.pile, &chooser);
        status = status == BW_OK ? bwi_choose(&chooser, &found) : status;
        bw_arena_fail_after(0);
        bw_arena_free(arena);
    }
    assert_int_equal(status, BW_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(assignments_are_the_cheapest_of_all),
        cmocka_unit_test(assignments_agree_with_scipy),
        cmocka_unit_test(choices_are_the_best_over_all_targets),
        cmocka_unit_test(a_large_pile_takes_less_than_a_second),
        cmocka_unit_test(running_out_of_memory_is_reported),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
