/* Cost of the influence lines of one boardwalk row, on one core.
 *
 * The job: a rider at 20 places of every bay; the largest and smallest axial force and
 * end moments of every member under him. Ours: the frame numbered, assembled and
 * factored, the influence lines made, and every member read that the rider reaches.
 * Beside it the bare LAPACK calls (dpbtrf, dpbtrs) on the same matrix: with the
 * right-hand sides of the influence lines, and with one for every place of the rider.
 *
 * usage: bench_row VARIANT BAYS FILE    prints one line of numbers; FILE gets the matrix,
 * the members and the loads for a second answer. influence.py reads both. */
#include "bolewright/frame.h"
#include "frame/internal.h"

#include <lapacke.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { PLACES = 20, RUN = 3, AT_ONCE = 1000 };
static const double bay = 2.385, weight = 254.0 * 0.45359237 * 9.80665;
static const double least_time = 0.3; /* [s] of repeated runs, the best of which counts */

typedef struct {
    const char *name;
    bool soil;    /* feet on springs, else fixed */
    bool runs_on; /* stringers over three bays, else from bent to bent */
    bool slopes;  /* the deck rises and falls from bent to bent */
} variant;

static const variant variants[] = {
    {"fixed-butted", false, false, false},
    {"soil-butted", true, false, false},
    {"fixed-run-on", false, true, false},
    {"soil-run-on-sloping", true, true, true},
};

typedef struct {
    const variant *kind;
    int bays;
    bw_arena *arena;
    bw_frame *frame;
    int *path;
    bw_influence *lines;
    bw_wheel *wheels;
    bw_range *ranges; /* of every member; no rider: 0 */
} job;

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t); /* others may use the machine */
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void must(bool well)
{
    if (!well) {
        fputs("bench_row: no memory, or the row does not stand\n", stderr);
        exit(EXIT_FAILURE);
    }
}

/* ---- the row ---- */

static bool joint_runs_on(const job *j, int bent)
{
    return j->kind->runs_on && bent % RUN != 0 && bent != j->bays;
}

static void add_post(const job *j, int bent)
{
    const double rise = j->kind->slopes ? 0.17 * sin(1.3 * bent) : 0.0;
    const int foot = bw_frame_add_node(j->frame, bay * bent, 0.0, NULL, NULL);
    const int top = bw_frame_add_node(j->frame, bay * bent, 1.13 + rise, NULL, NULL);
    bw_support s = {.node = foot, .fix = {true, true, true}};
    if (j->kind->soil) { /* a foot two feet down in gravel */
        s = (bw_support){.node = foot,
                         .fix = {false, true, false},
                         .spring = {3.1e6, 0.0, 4.7e5},
                         .spring_xr = -8.3e5};
    }
    const bw_member post = {.node_i = foot,
                            .node_j = top,
                            .section_i = bw_section_round(0.217),
                            .section_j = bw_section_round(0.193),
                            .modulus = 8.1e9,
                            .shear_modulus = 5e8,
                            .kappa = 0.9,
                            .hinge_j = joint_runs_on(j, bent)};
    must(bw_frame_add_support(j->frame, &s) == BW_OK);
    must(bw_frame_add_member(j->frame, &post) >= 0);
}

static void add_stringer(const job *j, int k)
{
    const double taper = j->kind->runs_on ? 0.044 / RUN : 0.044;
    const double butt = 0.231 - (j->kind->runs_on ? taper * (k % RUN) : 0.0);
    const bw_member log = {.node_i = 2 * k + 1,
                           .node_j = 2 * k + 3,
                           .section_i = bw_section_round(butt),
                           .section_j = bw_section_round(butt - taper),
                           .modulus = 9.3e9,
                           .shear_modulus = 6e8,
                           .kappa = 0.9,
                           .hinge_i = !joint_runs_on(j, k),
                           .hinge_j = !joint_runs_on(j, k + 1)};
    j->path[k] = bw_frame_add_member(j->frame, &log);
    must(j->path[k] >= 0);
}

static job make_job(const variant *kind, int bays)
{
    job j = {.kind = kind, .bays = bays, .arena = bw_arena_new()};
    must(j.arena != NULL);
    const size_t members = 2 * (size_t)bays + 1;
    j.frame = bw_frame_new(j.arena);
    j.path = BW_NEW(j.arena, int, bays);
    j.wheels = BW_NEW(j.arena, bw_wheel, (size_t)(bays * PLACES));
    j.ranges = BW_NEW(j.arena, bw_range, members);
    must(j.frame != NULL && j.path != NULL && j.wheels != NULL && j.ranges != NULL);
    for (int k = 0; k <= bays; k++) {
        add_post(&j, k);
    }
    for (int k = 0; k < bays; k++) {
        add_stringer(&j, k);
    }
    return j;
}

/* ---- our way ---- */

static void read_riders(const job *j)
{
    for (int k = 0; k < j->bays * PLACES; k++) {
        bw_wheel *w = &j->wheels[k];
        *w = (bw_wheel){.at = (size_t)(k / PLACES), .fy = -weight};
        const double length = bw_frame_length(j->frame, j->path[w->at]);
        w->a = (k % PLACES + 0.5) / PLACES * length;
        bw_influence_set(j->lines, w);
    }
    bw_influence_widen(j->lines, j->wheels, (size_t)(j->bays * PLACES), j->ranges);
}

typedef struct {
    double factor, lines, riders; /* [s] */
} times;

/* The last job is kept in *out, its time the best of all. */
static times our_way(const variant *kind, int bays, job *out)
{
    times best = {HUGE_VAL, HUGE_VAL, HUGE_VAL};
    double whole = HUGE_VAL;
    const double begin = now();
    for (int run = 0; run < 3 || now() < begin + least_time; run++) {
        if (run > 0) {
            bw_arena_free(out->arena);
        }
        *out = make_job(kind, bays);
        bw_diags d = bw_diags_new(out->arena, NULL);
        const double a = now();
        must(bw_frame_factor(out->frame, &d) == BW_OK);
        const double b = now();
        must(bw_influence_new(out->frame, out->path, (size_t)bays, out->arena,
                              &out->lines) == BW_OK);
        const double c = now();
        read_riders(out);
        const double e = now();
        if (e - a < whole) {
            whole = e - a;
            best = (times){b - a, c - b, e - c};
        }
    }
    return best;
}

/* ---- bare LAPACK ---- */

/* The matrix as it was before it was factored: A = L L'. */
static double *unfactored(const bwi_system *s, bw_arena *arena)
{
    const int rows = s->half_band + 1;
    double *A = BW_NEW(arena, double, (size_t)rows *(size_t)s->n);
    must(A != NULL);
    for (int j = 0; j < s->n; j++) {
        for (int i = j; i < s->n && i - j < rows; i++) {
            double sum = 0.0;
            for (int k = i - rows + 1 > 0 ? i - rows + 1 : 0; k <= j; k++) {
                sum += s->band[(size_t)k * (size_t)rows + (size_t)(i - k)] *
                       s->band[(size_t)k * (size_t)rows + (size_t)(j - k)];
            }
            A[(size_t)j * (size_t)rows + (size_t)(i - j)] = sum;
        }
    }
    return A;
}

static void add_push(const job *j, const bw_wheel *w, double *column)
{
    const bw_member *m = &j->frame->members[j->path[w->at]].m;
    for (int k = 0; k < 6; k++) {
        const int node = k < 3 ? m->node_i : m->node_j;
        const int eq = j->frame->nodes[node].equation[k % 3];
        if (eq >= 0) {
            column[eq] += w->set.push[k];
        }
    }
}

/* Right-hand sides first .. first + n - 1: units at the tops of the posts, or riders. */
static void fill(const job *j, bool units, int first, int n, double *rhs)
{
    const size_t size = (size_t)j->frame->system.n;
    memset(rhs, 0, size * (size_t)n * sizeof *rhs);
    for (int k = 0; k < n; k++) {
        double *column = rhs + (size_t)k * size;
        const int at = first + k;
        if (!units) {
            add_push(j, &j->wheels[at], column);
            continue;
        }
        const int eq = j->frame->nodes[2 * (at / 3) + 1].equation[at % 3];
        if (eq >= 0) {
            column[eq] = 1.0;
        }
    }
}

/* Best time of factoring and of solving all right-hand sides; filling them is not
 * counted. */
static double lapack(const job *j, bool units)
{
    const bwi_system *s = &j->frame->system;
    const lapack_int n = s->n, kd = s->half_band, ld = kd + 1;
    const size_t size = (size_t)ld * (size_t)n;
    const int all = units ? 3 * (j->bays + 1) : j->bays * PLACES;
    const bw_arena_mark mark = bw_arena_now(j->arena);
    const double *A = unfactored(s, j->arena);
    double *band = BW_NEW(j->arena, double, size);
    double *rhs = BW_NEW(j->arena, double, (size_t)n *AT_ONCE);
    must(band != NULL && rhs != NULL);
    double best = HUGE_VAL;
    const double begin = now();
    for (int run = 0; run < 3 || now() < begin + least_time; run++) {
        memcpy(band, A, size * sizeof *band);
        const double a = now();
        must(LAPACKE_dpbtrf_work(LAPACK_COL_MAJOR, 'L', n, kd, band, ld) == 0);
        double spent = now() - a;
        for (int first = 0; first < all; first += AT_ONCE) {
            const int some = all - first < AT_ONCE ? all - first : AT_ONCE;
            fill(j, units, first, some, rhs);
            const double b = now();
            LAPACKE_dpbtrs_work(LAPACK_COL_MAJOR, 'L', n, kd, some, band, ld, rhs, n);
            spent += now() - b;
        }
        best = fmin(best, spent);
    }
    bw_arena_back(j->arena, mark);
    return best;
}

/* ---- for the second answer ---- */

/* Text: sizes; the band by columns with its scaling; per member six unknowns and the
 * three rows of its actions; per rider the member, six unknowns and pushes, three held
 * actions; per member the extremes found. */
static void write_member(const job *j, int member, FILE *file)
{
    const bwi_member *m = &j->frame->members[member];
    double B[3][6];
    bwi_element_rows(j->frame, member, B);
    for (int k = 0; k < 6; k++) {
        const int node = k < 3 ? m->m.node_i : m->m.node_j;
        fprintf(file, "%d ", j->frame->nodes[node].equation[k % 3]);
    }
    for (int k = 0; k < 6; k++) {
        fprintf(file, "%.17g %.17g %.17g ", m->ka * B[0][k],
                m->k11 * B[1][k] + m->k12 * B[2][k], m->k12 * B[1][k] + m->k22 * B[2][k]);
    }
    for (int k = 0; k < 3; k++) {
        fprintf(file, "%.17g %.17g ", j->ranges[member].most[k],
                j->ranges[member].least[k]);
    }
    fputc('\n', file);
}

static void write_model(const job *j, const char *path)
{
    FILE *file = fopen(path, "w");
    must(file != NULL);
    const bwi_system *s = &j->frame->system;
    const double *A = unfactored(s, j->arena);
    fprintf(file, "%d %d %zu %d\n", s->n, s->half_band, j->frame->n_members,
            j->bays * PLACES);
    for (int k = 0; k < s->n; k++) {
        fprintf(file, "%.17g ", s->scale[k]);
        for (int i = 0; i <= s->half_band; i++) {
            fprintf(file, "%.17g ",
                    A[(size_t)k * ((size_t)s->half_band + 1) + (size_t)i]);
        }
        fputc('\n', file);
    }
    for (int k = 0; k < (int)j->frame->n_members; k++) {
        write_member(j, k, file);
    }
    for (int k = 0; k < j->bays * PLACES; k++) {
        const bw_wheel *w = &j->wheels[k];
        fprintf(file, "%d ", j->path[w->at]);
        for (int i = 0; i < 9; i++) {
            fprintf(file, "%.17g ", i < 6 ? w->set.push[i] : w->set.held[i - 6]);
        }
        fputc('\n', file);
    }
    must(fclose(file) == 0);
}

/* The most memory so far; 0 where the system does not say. */
static long kilobytes(void)
{
    FILE *file = fopen("/proc/self/status", "r");
    char line[128];
    long most = 0;
    while (file != NULL && fgets(line, sizeof line, file) != NULL) {
        if (sscanf(line, "VmHWM: %ld", &most) == 1) {
            break;
        }
    }
    if (file != NULL) {
        fclose(file);
    }
    return most;
}

int main(int argc, char **argv)
{
    const int bays = argc == 4 ? atoi(argv[2]) : 0;
    const variant *kind = NULL;
    for (size_t k = 0; k < sizeof variants / sizeof variants[0] && argc == 4; k++) {
        kind = strcmp(argv[1], variants[k].name) == 0 ? &variants[k] : kind;
    }
    if (kind == NULL || bays < 1) {
        fputs("usage: bench_row VARIANT BAYS FILE\n", stderr);
        return 2;
    }
    const long before = kilobytes();
    job j;
    const times t = our_way(kind, bays, &j);
    const long memory = kilobytes() - before;
    printf("%d %d %.6g %.6g %.6g %.6g %.6g %ld\n", j.frame->system.n,
           j.frame->system.half_band, t.factor, t.lines, t.riders, lapack(&j, true),
           lapack(&j, false), memory);
    write_model(&j, argv[3]);
    bw_arena_free(j.arena);
    return 0;
}
