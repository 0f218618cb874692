/* test_joints.c - joints of a case: whose end, and what holds it. Faults are in
 * test_bad.c. */
#include "support.h"

#include <math.h>

static bw_case read_with(bw_arena *arena, const char *joints)
{
    bw_diags d = bw_diags_new(arena, "case.json");
    bw_species_table *woods = BW_NEW(arena, bw_species_table, 1);
    bw_case deck;
    assert_non_null(woods);
    *woods = test_woods(arena);
    const char *text = bw_arena_print(
        arena,
        "{\"format\": 1, \"title\": \"Ford\", \"units\": \"imperial\",\n"
        "\"deck\": {\"width\": \"4 ft\"},\n"
        "\"logs\": [{\"name\": \"beam\", \"species\": \"test pine\", \"bark\": \"off\","
        " \"butt_girth\": \"29 in\", \"tip_girth\": \"25 in\"}],\n"
        "\"rows\": [{\"name\": \"left\", \"across\": \"-18 in\"},"
        " {\"name\": \"right\", \"across\": \"18 in\"}],\n"
        "\"every_bent\": {\"deck_height\": \"4 ft\", \"cap\": \"beam\", \"posts\": [\n"
        " {\"row\": \"left\", \"log\": \"beam\", \"hole_depth\": \"27 in\", \"soil\": "
        "\"clay\"},\n"
        " {\"row\": \"right\", \"log\": \"beam\", \"foot\": \"pad\"}]},\n"
        "\"bents\": [{\"name\": \"B1\", \"at\": \"0 ft\"},"
        " {\"name\": \"B2\", \"at\": \"8 ft\"}, {\"name\": \"B3\", \"at\": \"15 ft\"}],\n"
        "\"stringers\": [\n"
        " {\"name\": \"L1\", \"row\": \"left\", \"log\": \"beam\", \"from\": \"B1\", "
        "\"to\": \"B2\"},\n"
        " {\"name\": \"L2\", \"row\": \"left\", \"log\": \"beam\", \"from\": \"B2\", "
        "\"to\": \"B3\"},\n"
        " {\"name\": \"R\", \"row\": \"right\", \"log\": \"beam\", \"from\": \"B1\", "
        "\"to\": \"B3\"}],\n"
        "\"braces\": [{\"name\": \"X\", \"kind\": \"crossed\", \"log\": \"beam\", "
        "\"bent\": \"B1\", \"from\": {\"row\": \"left\", \"height\": \"4 in\"}, "
        "\"to\": {\"row\": \"right\", \"height\": \"20 in\"}}],\n"
        "\"joints\": [%s]}\n",
        joints);
    assert_non_null(text);
    assert_status(arena, bw_input_case(arena, text, woods, &deck, &d), BW_OK, &d);
    assert_int_equal(d.count, 0);
    return deck;
}

static const char a_lag[] =
    "\"fasteners\": {\"kind\": \"lag screw\", \"count\": 4, "
    "\"rows\": 2, \"diameter\": \"1/2 in\", \"length\": \"9 in\", "
    "\"end\": \"4 in\", \"spacing\": \"3 1/2 in\"}";

static void a_row_speaks_of_every_bent_it_meets(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_case deck = read_with(
        arena,
        bw_arena_print(arena, "{\"row\": \"left\", \"load\": \"bears\", %s}", a_lag));
    const int stringer[] = {0, 0, 1, 1}, bent[] = {0, 1, 1, 2};

    assert_int_equal(deck.n_joints, 4);
    for (size_t k = 0; k < 4; k++) {
        const bw_joint_place *j = &deck.joints[k];
        assert_true(j->stringer == stringer[k] && j->bent == bent[k] && j->brace == -1);
        assert_false(j->hung);
        assert_int_equal(j->fasteners.kind, BW_FASTENER_LAG);
        assert_true(j->fasteners.count == 4 && j->fasteners.rows == 2 &&
                    j->fasteners.planes == 1);
        assert_true(fabs(j->fasteners.diameter - 0.0127) < 1e-12);
        assert_true(fabs(j->fasteners.spacing - 0.0889) < 1e-12);
        assert_true(j->fasteners.edge == 0.0 && j->fasteners.root == 0.0);
    }
    bw_arena_free(arena);
}

static void one_end_and_how_it_hangs(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_case deck = read_with(
        arena, "{\"stringer\": \"R\", \"at\": \"B2\", \"load\": \"hung\", \"into\": "
               "\"cap\", \"fasteners\": {\"kind\": \"bolt\", \"count\": 1, \"diameter\": "
               "\"5/8 in\", \"yield\": \"45000 psi\"}}");

    assert_int_equal(deck.n_joints, 1);
    assert_true(deck.joints[0].stringer == 2 && deck.joints[0].bent == 1);
    assert_true(deck.joints[0].hung && deck.joints[0].into_cap);
    assert_int_equal(deck.joints[0].fasteners.kind, BW_FASTENER_BOLT);
    assert_true(fabs(deck.joints[0].fasteners.yield / 310.264e6 - 1.0) < 1e-5);
    bw_arena_free(arena);
}

/* Both braces of a crossed pair, both ends of each; or one end. */
static void a_brace_has_two_ends(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_case both = read_with(arena, "{\"brace\": \"X\", \"notch\": \"1 1/4 in\"}");
    const bw_case one = read_with(arena, "{\"brace\": \"X\", \"end\": \"to\"}");

    assert_int_equal(both.n_joints, 4);
    for (size_t k = 0; k < 4; k++) {
        assert_true(both.joints[k].brace == (int)k / 2);
        assert_true(both.joints[k].at_to == (k % 2 == 1));
        assert_true(both.joints[k].stringer == -1);
        assert_true(fabs(both.joints[k].notch - 0.03175) < 1e-12);
        assert_int_equal(both.joints[k].fasteners.kind, BW_FASTENER_NONE);
    }
    assert_int_equal(one.n_joints, 2);
    assert_true(one.joints[0].at_to && one.joints[1].at_to);
    bw_arena_free(arena);
}

static void no_joints_are_no_fault(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_case deck = read_with(arena, "");

    assert_int_equal(deck.n_joints, 0);
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_row_speaks_of_every_bent_it_meets),
        cmocka_unit_test(one_end_and_how_it_hangs),
        cmocka_unit_test(a_brace_has_two_ends),
        cmocka_unit_test(no_joints_are_no_fault),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
