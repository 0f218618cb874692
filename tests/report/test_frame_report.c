/* A solved free frame in words and as JSON: a prismatic cantilever, whose end values are
 * in every handbook: deflection P L^3 / 3 E I, slope P L^2 / 2 E I, moment P L (MEMORY).
 */
#include "bolewright/report.h"

#include <cjson/cJSON.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static const double L = 2.385, P = 1317.0, E = 9.73e9, I = 7.31e-5, S = 6.137e-4;

typedef struct {
    bw_arena *arena;
    bw_frame_result result;
} cantilever;

static const char *const node_names[] = {"root", "tip"};
static const char *const member_names[] = {"arm"};

static bw_frame *build(bw_arena *arena)
{
    bw_frame *f = bw_frame_new(arena);
    const int root = bw_frame_add_node(f, 0.0, 0.0, NULL, NULL);
    const int tip = bw_frame_add_node(f, L, 0.0, NULL, NULL);
    const bw_section section = bw_section_given(0.0271, I, S);
    const bw_member member = {.node_i = root,
                              .node_j = tip,
                              .section_i = section,
                              .section_j = section,
                              .modulus = E};
    assert_int_equal(bw_frame_add_member(f, &member), 0);
    const bw_support support = {.node = root, .fix = {true, true, true}};
    assert_int_equal(bw_frame_add_support(f, &support), BW_OK);
    assert_int_equal(bw_frame_load_node(f, 0, tip, 0.0, -P, 0.0), BW_OK);
    return f;
}

static int start(void **state)
{
    bw_arena *arena = bw_arena_new();
    cantilever *c = BW_NEW(arena, cantilever, 1);
    bw_diags d = bw_diags_new(arena, NULL);
    const bw_part all = {0, 1.0};
    bw_frame *f = build(arena);
    if (bw_frame_factor(f, &d) != BW_OK || bw_frame_solve(f, &d) != BW_OK) {
        return -1;
    }
    c->arena = arena;
    c->result = (bw_frame_result){.title = "Cantilever of this test",
                                  .units = BW_METRIC,
                                  .frame = f,
                                  .state = bw_frame_state(f, &all, 1, arena),
                                  .node_names = node_names,
                                  .member_names = member_names,
                                  .n_nodes = 2,
                                  .n_members = 1};
    *state = c;
    return c->result.state == NULL ? -1 : 0;
}

static int stop(void **state)
{
    bw_arena_free(((cantilever *)*state)->arena);
    return 0;
}

static cJSON *json_of(const cantilever *c)
{
    bw_text text = bw_text_new(c->arena);
    bw_report_frame_json(&c->result, &text);
    cJSON *json = cJSON_ParseWithOpts(bw_text_string(&text), NULL, true);
    assert_non_null(json);
    return json;
}

/* Follows keys (or "#k" for the k-th item) separated by blanks. */
static double number_at(const cJSON *item, const char *path)
{
    char words[128] = {0}, *rest = NULL;
    memcpy(words, path, strlen(path));
    for (char *word = strtok_r(words, " ", &rest); word != NULL;
         word = strtok_r(NULL, " ", &rest)) {
        item = word[0] == '#' ? cJSON_GetArrayItem(item, word[1] - '0')
                              : cJSON_GetObjectItemCaseSensitive(item, word);
        if (item == NULL) {
            print_error("nothing at %s of %s\n", word, path);
            fail();
        }
    }
    assert_true(cJSON_IsNumber(item));
    return item->valuedouble;
}

static void assert_close(double found, double expected)
{
    if (!(fabs(found - expected) <= 1e-11 * fabs(expected))) {
        print_error("found %.15g, expected %.15g\n", found, expected);
        fail();
    }
}

static void json_holds_the_handbook_values(void **state)
{
    cJSON *json = json_of(*state);
    assert_close(number_at(json, "nodes #1 displacement y_m"),
                 -P * L * L * L / (3.0 * E * I));
    assert_close(number_at(json, "nodes #1 displacement r_rad"),
                 -P * L * L / (2.0 * E * I));
    assert_close(number_at(json, "nodes #0 reaction y_N"), P);
    assert_close(number_at(json, "nodes #0 reaction r_Nm"), P * L);
    assert_close(number_at(json, "members #0 length_m"), L);
    assert_close(number_at(json, "members #0 end_i moment_Nm"), -P * L);
    assert_close(number_at(json, "members #0 end_j shear_N"), P);
    assert_close(number_at(json, "members #0 extremes moment_min_Nm value"), -P * L);
    assert_close(number_at(json, "members #0 extremes stress_min_Pa value"), -P * L / S);
    assert_true(number_at(json, "numerical_health residual") < 1e-12);
    assert_true(number_at(json, "numerical_health rcond") > 0.0);
    cJSON_Delete(json);
}

/* Chord of the bent cantilever: the sag y - x/L y(L) with y = -P x^2 (3L - x) / 6EI is
 * largest where its slope vanishes, at x = L (1 - 1/sqrt(3)): COMPUTED from the elastic
 * curve. */
static void sag_is_given_with_its_place(void **state)
{
    cJSON *json = json_of(*state);
    const double x = L * (1.0 - 1.0 / sqrt(3.0));
    const double y = -P * x * x * (3.0 * L - x) / (6.0 * E * I);
    const double chord = -P * L * L * x / (3.0 * E * I);
    assert_close(number_at(json, "members #0 extremes sag_max_m value"), y - chord);
    assert_true(fabs(number_at(json, "members #0 extremes sag_max_m x_m") - x) <
                1e-6 * L);
    cJSON_Delete(json);
}

static void text_names_nodes_members_and_values(void **state)
{
    const cantilever *c = *state;
    bw_text out = bw_text_new(c->arena);
    bw_report_frame_text(&c->result, &out);
    const char *text = bw_text_string(&out);
    assert_non_null(text);
    assert_memory_equal(text, "Cantilever of this test\n", 24);
    assert_non_null(strstr(text, "  root"));
    assert_non_null(strstr(text, "3.141 kN-m")); /* 1317 N * 2.385 m = 3141.045 N*m */
    assert_non_null(strstr(text, "-8.373 mm"));  /* P L^3 / 3 E I = 8.3734 mm */
    assert_non_null(strstr(text, "Numerical health"));
}

static void a_nameless_part_goes_by_its_number(void **state)
{
    cantilever *c = *state;
    c->result.node_names = NULL;
    c->result.member_names = NULL;
    bw_text out = bw_text_new(c->arena);
    bw_report_frame_text(&c->result, &out);
    assert_non_null(strstr(bw_text_string(&out), "\n  0 "));
    cJSON *json = json_of(c);
    const cJSON *node =
        cJSON_GetArrayItem(cJSON_GetObjectItemCaseSensitive(json, "nodes"), 1);
    assert_true(cJSON_IsNull(cJSON_GetObjectItemCaseSensitive(node, "name")));
    assert_close(number_at(node, "node"), 1.0);
    cJSON_Delete(json);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(json_holds_the_handbook_values, start, stop),
        cmocka_unit_test_setup_teardown(sag_is_given_with_its_place, start, stop),
        cmocka_unit_test_setup_teardown(text_names_nodes_members_and_values, start, stop),
        cmocka_unit_test_setup_teardown(a_nameless_part_goes_by_its_number, start, stop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
