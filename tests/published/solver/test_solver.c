/* Frames with published or independently computed answers,
 * tests/published/solver/?_*.json.
 *
 * Every frame is built twice, straight from its data and through the program's own
 * reader, and every figure is compared. A miss prints the source. The closing line counts
 * the figures by the mark of their case. */
#include "bolewright/input.h"
#include "sketch.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#define FOLDER BW_SOURCE_DIR "/tests/published/solver/"

/* A figure rounded in its source is also held to the exact value that the data carry
 * beside it, at most this loosely. Beside "buckA" stands what elements of finite length
 * gave (cubic shapes, finely cut), good to that figure's own tolerance. */
static const double exact_tolerance = 1e-8;

typedef enum { READ, COMPUTED, MEMORY, N_MARKS } mark;
static const char *const mark_words[N_MARKS] = {"READ", "COMPUTED", "MEMORY"};

typedef struct {
    int cases, figures[N_MARKS], misses;
} tally;

typedef struct {
    bw_arena *arena;
    const cJSON *data; /* of the case */
    bwt_sketch *sketch;
    bw_frame *frame;
    const char *route;
    tally *tally;
} trial;

static tally total;

static const char *text_of(const cJSON *object, const char *key)
{
    const char *text =
        cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(object, key));
    return text != NULL ? text : "";
}

static double number_of(const cJSON *object, const char *key)
{
    const cJSON *item = cJSON_GetObjectItemCaseSensitive(object, key);
    return cJSON_IsNumber(item) ? item->valuedouble : (double)NAN;
}

/* A case is counted under the first word of its mark ("MEMORY formula, COMPUTED"). */
static mark mark_of(const cJSON *data)
{
    for (int m = 0; m < N_MARKS; m++) {
        if (strncmp(text_of(data, "mark"), mark_words[m], strlen(mark_words[m])) == 0) {
            return (mark)m;
        }
    }
    fail_msg("%s has no known mark", text_of(data, "id"));
    return N_MARKS;
}

static void miss(const trial *t, const char *what)
{
    t->tally->misses++;
    print_error("%s (%s): %s\n  %s\n  source: %s [%s]\n", text_of(t->data, "id"),
                t->route, text_of(t->data, "title"), what, text_of(t->data, "source"),
                text_of(t->data, "mark"));
}

/* ---- figures ---- */

static void compare(const trial *t, const char *path, double found, double wanted,
                    double tolerance)
{
    if (!(fabs(found - wanted) <= tolerance)) {
        miss(t, bw_arena_print(t->arena, "%s: found %.15g, expected %.15g within %.2g",
                               path, found, wanted, tolerance));
    }
}

static void compare_figure(const trial *t, const cJSON *figure, double found)
{
    const char *path = text_of(figure, "path");
    const double value = number_of(figure, "value");
    const double reference = number_of(figure, "reference");
    const double relative = number_of(figure, "tol_rel");
    const bool sizes_only = strcmp(text_of(figure, "compare"), "absolute values") == 0;
    if (isnan(relative)) {
        compare(t, path, found, value, number_of(figure, "tol_abs"));
        return;
    }
    compare(t, path, sizes_only ? fabs(found) : found, sizes_only ? fabs(value) : value,
            relative * fabs(value));
    const double exactly =
        strcmp(path, "buckA") == 0 ? relative : fmin(relative, exact_tolerance);
    compare(t, path, found, reference, exactly * fabs(reference));
}

/* Figures of the second order are told by "so_" before their path. */
static const char *plain_path(const char *path)
{
    return strncmp(path, "so_", 3) == 0 ? path + 3 : path;
}

static void check_figures(const trial *t, const bw_state *state)
{
    const cJSON *figure = NULL;
    cJSON_ArrayForEach(figure, cJSON_GetObjectItemCaseSensitive(t->data, "expect"))
    {
        const char *path = text_of(figure, "path");
        double found = (double)NAN;
        if (!bwt_path_value(t->sketch, t->frame, state, plain_path(path), &found)) {
            miss(t, bw_arena_print(t->arena, "no such figure: %s", path));
        }
        compare_figure(t, figure, found);
        t->tally->figures[mark_of(t->data)]++;
    }
}

static void miss_said(const trial *t, const bw_diags *d, bw_status status)
{
    miss(t, d->count > 0 ? d->items[0].message : bw_status_text(status));
}

/* The state of load case 0; a miss and null if there is none. */
static bw_state *first_order(const trial *t, bw_diags *d)
{
    bw_status status = bw_frame_factor(t->frame, d);
    if (status == BW_OK) {
        status = bw_frame_solve(t->frame, d);
    }
    const bw_part all = {0, 1.0};
    bw_state *state =
        status == BW_OK ? bw_frame_state(t->frame, &all, 1, t->arena) : NULL;
    if (state == NULL) {
        miss_said(t, d, status);
    }
    return state;
}

static void check_linear(const trial *t)
{
    bw_diags d = bw_diags_new(t->arena, NULL);
    const bw_state *state = first_order(t, &d);
    if (state != NULL) {
        check_figures(t, state);
    }
}

static void check_second_order(const trial *t)
{
    bw_diags d = bw_diags_new(t->arena, NULL);
    const bw_part all = {0, 1.0};
    bw_state *state = NULL;
    if (first_order(t, &d) == NULL) {
        return;
    }
    const bw_status status =
        bw_frame_second_order(t->frame, &all, 1, t->arena, &state, &d);
    if (status != BW_OK) {
        miss_said(t, &d, status);
        return;
    }
    check_figures(t, state);
}

static void check_buckling(const trial *t)
{
    bw_diags d = bw_diags_new(t->arena, NULL);
    bw_buckling buckling = {0};
    const bw_state *state = first_order(t, &d);
    if (state == NULL) {
        return;
    }
    const bw_status status = bw_frame_buckling(t->frame, state, t->arena, &buckling, &d);
    if (status != BW_OK) {
        miss_said(t, &d, status);
        return;
    }
    const cJSON *figure = NULL;
    cJSON_ArrayForEach(figure, cJSON_GetObjectItemCaseSensitive(t->data, "expect"))
    {
        const char *path = text_of(figure, "path");
        if (strcmp(path, "buck") != 0 && strcmp(path, "buckA") != 0) {
            miss(t, bw_arena_print(t->arena, "no such figure: %s", path));
        }
        compare_figure(t, figure, buckling.factor);
        t->tally->figures[mark_of(t->data)]++;
    }
}

/* ---- mechanisms ---- */

static bool names_a_part(const bw_diags *d)
{
    for (size_t k = 0; k < d->count; k++) {
        const char *message = d->items[k].message;
        if (d->items[k].severity == BW_ERROR &&
            (strstr(message, "node") != NULL || strstr(message, "member") != NULL)) {
            return true;
        }
    }
    return false;
}

static void check_mechanism(const trial *t)
{
    const cJSON *figure =
        cJSON_GetArrayItem(cJSON_GetObjectItemCaseSensitive(t->data, "expect"), 0);
    bw_diags d = bw_diags_new(t->arena, NULL);
    const bw_status status = bw_frame_factor(t->frame, &d);
    const double motions = number_of(figure, "value");
    const bw_status wanted = motions > 0.0 ? BW_E_MECHANISM : BW_OK;
    compare(t, "mechanism", bw_frame_count_free_motions(t->frame), motions, 0.0);
    if (status != wanted) {
        miss(t,
             bw_arena_print(t->arena, "factoring says \"%s\"", bw_status_text(status)));
    }
    if (motions > 0.0 && !names_a_part(&d)) {
        miss(t, "no diagnostic names the part that moves");
    }
    t->tally->figures[mark_of(t->data)]++;
}

/* ---- cases ---- */

static void check(const trial *t)
{
    static const struct {
        const char *kind;
        void (*check)(const trial *);
    } kinds[] = {{"linear", check_linear},
                 {"mechanism", check_mechanism},
                 {"buckling", check_buckling},
                 {"second-order", check_second_order}};
    for (size_t k = 0; k < sizeof kinds / sizeof kinds[0]; k++) {
        if (strcmp(text_of(t->data, "kind"), kinds[k].kind) == 0) {
            kinds[k].check(t);
            return;
        }
    }
    miss(t, "a kind of case that nothing here can check");
}

static void check_straight(trial t)
{
    t.route = "straight from the data";
    t.frame = bwt_sketch_build(t.sketch, t.arena);
    assert_non_null(t.frame);
    check(&t);
}

/* The frame file that the program's reader is given. */
static const char *frame_file(const cJSON *model, bw_arena *arena)
{
    cJSON *file = cJSON_Duplicate(model, true);
    assert_non_null(file);
    assert_non_null(cJSON_AddNumberToObject(file, "format", 1));
    char *text = cJSON_Print(file);
    assert_non_null(text);
    const char *copy = bw_arena_copy(arena, text);
    cJSON_free(text);
    cJSON_Delete(file);
    return copy;
}

static void check_through_reader(trial t)
{
    const cJSON *model = cJSON_GetObjectItemCaseSensitive(t.data, "model");
    bw_diags d = bw_diags_new(t.arena, NULL);
    bw_frame_input in = {0};
    t.route = "through the reader";
    if (bw_input_frame(t.arena, frame_file(model, t.arena), &in, &d) != BW_OK) {
        miss(&t, d.count > 0 ? d.items[0].message : "not read");
        return;
    }
    t.frame = in.frame;
    check(&t);
}

/* Whether a frame moves freely is a matter of its lines, not of its stiffnesses. */
static void check_other_stiffness(trial t)
{
    for (int k = 0; k < t.sketch->n_members; k++) {
        t.sketch->members[k].modulus *= k % 2 == 0 ? 2.385e4 : 1.7e-3;
    }
    t.route = "with other moduli";
    t.frame = bwt_sketch_build(t.sketch, t.arena);
    assert_non_null(t.frame);
    check(&t);
}

static void check_case(const cJSON *data, tally *count)
{
    count->cases++;
    bw_arena *arena = bw_arena_new();
    assert_non_null(arena);
    bwt_sketch *sketch = BW_NEW(arena, bwt_sketch, 1);
    assert_non_null(sketch);
    const char *fault =
        bwt_sketch_read(cJSON_GetObjectItemCaseSensitive(data, "model"), sketch);
    if (fault != NULL) {
        fail_msg("%s: %s", text_of(data, "id"), fault);
    }
    const trial t = {
        .arena = arena, .data = data, .sketch = sketch, .route = "", .tally = count};
    check_straight(t);
    check_through_reader(t);
    if (strcmp(text_of(data, "kind"), "mechanism") == 0) {
        check_other_stiffness(t);
    }
    bw_arena_free(arena);
}

static void add_up(const tally *part)
{
    total.cases += part->cases;
    total.misses += part->misses;
    for (int m = 0; m < N_MARKS; m++) {
        total.figures[m] += part->figures[m];
    }
}

static void family_has_its_published_values(void **state)
{
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, NULL);
    const char *path = bw_arena_print(arena, FOLDER "%s.json", (const char *)*state);
    const char *text = NULL;
    assert_int_equal(bw_input_read_file(arena, path, &text, &d), BW_OK);
    cJSON *file = cJSON_Parse(text);
    assert_non_null(file);
    tally count = {0};
    const cJSON *data = NULL;
    cJSON_ArrayForEach(data, cJSON_GetObjectItemCaseSensitive(file, "cases"))
    {
        check_case(data, &count);
    }
    add_up(&count);
    cJSON_Delete(file);
    bw_arena_free(arena);
    assert_true(count.cases > 0);
    assert_int_equal(count.misses, 0);
}

/* Nothing was dropped on the way: 104 cases; 338 figures compared twice and the motions
 * of 9 mechanisms three times. */
static void all_families_were_tried(void **state)
{
    (void)state;
    assert_int_equal(total.cases, 104);
    assert_int_equal(total.figures[READ] + total.figures[COMPUTED] +
                         total.figures[MEMORY],
                     2 * 338 + 3 * 9);
}

static int report(void **state)
{
    (void)state;
    print_message(
        "%d cases; %d figures READ, %d COMPUTED, %d MEMORY compared (each frame "
        "twice); %d missed\n",
        total.cases, total.figures[READ], total.figures[COMPUTED], total.figures[MEMORY],
        total.misses);
    return 0;
}

int main(void)
{
    static char names[][24] = {
        "a_single_spans", "b_continuous_beams", "c_frames",     "d_shear_strain",
        "e_taper",        "f_mechanisms",       "g_buckling",   "h_second_order",
        "j_conditioning", "k_moving_loads",     "r_log_portals"};
    enum { N_FAMILIES = sizeof names / sizeof names[0] };
    struct CMUnitTest tests[N_FAMILIES + 1];
    for (size_t k = 0; k < N_FAMILIES; k++) {
        tests[k] = (struct CMUnitTest){.name = names[k],
                                       .test_func = family_has_its_published_values,
                                       .initial_state = names[k]};
    }
    tests[N_FAMILIES] = (struct CMUnitTest)cmocka_unit_test(all_families_were_tried);
    return cmocka_run_group_tests_name("published values of plane frames", tests, NULL,
                                       report);
}
