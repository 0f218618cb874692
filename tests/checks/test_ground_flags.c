/* Rules of the ground that are no checks, and what the checks of the ground rest on. */
#include "sample.h"

typedef struct {
    bw_arena *arena;
    bw_assumption flags[BW_GROUND_FLAGS_MAX];
    size_t n;
} result;

/* Deep, wide apart, in a roomy hole, below the frost. */
static bw_ground_post sound_post(const char *name, double at)
{
    return (bw_ground_post){.name = name,
                            .at = at,
                            .across = 0.53,
                            .length = 2.93,
                            .hole_depth = 1.22,
                            .hole_width = 0.51,
                            .width = 0.213,
                            .soil = BW_SOIL_SAND};
}

static const bw_ground_site cold_site = {.frost_depth = 0.81, .units = BW_METRIC};

static result flags_of(const bw_ground_post *posts, size_t n, const bw_ground_site *site)
{
    result r = {.arena = bw_arena_new()};
    assert_int_equal(bw_ground_flags(r.arena, posts, n, site, r.flags, &r.n), BW_OK);
    assert_true(r.n <= BW_GROUND_FLAGS_MAX);
    for (size_t i = 0; i < r.n; i++) {
        assert_true((r.flags[i].mark == BW_MARK_NONE) == (r.flags[i].source == NULL));
    }
    return r;
}

/* Whether the flag with the words is something to be done. */
static bool is_to_do(const result *r, const char *words)
{
    for (size_t i = 0; i < r->n; i++) {
        if (strstr(r->flags[i].text, words) != NULL) {
            return r->flags[i].to_do;
        }
    }
    fail_msg("no flag \"%s\"", words);
    return false;
}

/* The flag with the words, or null. */
static const char *find(const result *r, const char *words)
{
    for (size_t i = 0; i < r->n; i++) {
        if (strstr(r->flags[i].text, words) != NULL) {
            return r->flags[i].text;
        }
    }
    return NULL;
}

static void sound_posts_are_named_in_no_flag(void **state)
{
    (void)state;
    const bw_ground_post posts[] = {sound_post("B1 left", 0.0),
                                    sound_post("B2 left", 2.6)};
    result r = flags_of(posts, 2, &cold_site);

    assert_null(find(&r, "B1 left"));
    assert_null(find(&r, "B2 left"));
    assert_non_null(find(&r, "peat"));
    assert_non_null(find(&r, "once"));
    assert_null(find(&r, "not given"));
    bw_arena_free(r.arena);
}

/* Each fault alone: the flag that must tell it, and no other that names the post. */
static void assert_one_flag(bw_ground_post post, const char *words)
{
    const bw_ground_post posts[] = {post, sound_post("B2 left", 4.1)};
    result r = flags_of(posts, 2, &cold_site);
    const char *flag = find(&r, words);
    size_t naming = 0;

    if (flag == NULL || strstr(flag, post.name) == NULL) {
        fail_msg("no flag \"%s\" names %s", words, post.name);
    }
    for (size_t i = 0; i < r.n; i++) {
        naming += strstr(r.flags[i].text, post.name) != NULL;
    }
    assert_int_equal(naming, 1);
    bw_arena_free(r.arena);
}

static void every_rule_is_told_by_a_flag_of_its_own(void **state)
{
    (void)state;
    bw_ground_post post = sound_post("B1 left", 0.0);
    post.length = 3.0 * post.hole_depth + 0.02;
    assert_one_flag(post, "less than a third");
    post = sound_post("B1 left", 0.0);
    post.hole_width = 2.0 * post.width - 0.01;
    assert_one_flag(post, "no room to pack");
    post = sound_post("B1 left", 0.0);
    post.soil = BW_SOIL_UNKNOWN;
    assert_one_flag(post, "the soil is not given");
    post = sound_post("B1 left", 0.0);
    post.length = 2.1;
    post.hole_depth = cold_site.frost_depth - 0.01;
    assert_one_flag(post, "not below the frost");
    post.hole_depth = cold_site.frost_depth + inch(11.9);
    assert_one_flag(post, "less than 1 ft below the frost");
}

static void at_the_limit_no_rule_complains(void **state)
{
    (void)state;
    bw_ground_post post = sound_post("B1 left", 0.0);
    post.hole_depth = cold_site.frost_depth + inch(12.0);
    post.length = 3.0 * post.hole_depth;
    post.hole_width = 2.0 * post.width;
    result r = flags_of(&post, 1, &cold_site);

    assert_null(find(&r, "B1 left"));
    bw_arena_free(r.arena);
}

/* ASABE EP486 (2012), READ: 4.5 posts or 3 holes. */
static void neighbours_share_the_soil_along_and_across(void **state)
{
    (void)state;
    const double reach = fmax(4.5 * 0.213, 3.0 * 0.51);
    bw_ground_post posts[] = {sound_post("far", -9.0), sound_post("first", 0.0),
                              sound_post("second", 0.0), sound_post("third", 9.0)};
    posts[2].across = posts[1].across + reach + 0.01;
    result r = flags_of(posts, 4, &cold_site);
    assert_null(find(&r, "too close"));
    bw_arena_free(r.arena);

    posts[2].across = posts[1].across + reach - 0.01;
    r = flags_of(posts, 4, &cold_site);
    const char *flag = find(&r, "too close");
    assert_non_null(flag);
    assert_non_null(strstr(flag, "first"));
    assert_non_null(strstr(flag, "second"));
    assert_null(strstr(flag, "third"));
    assert_null(strstr(flag, "far"));
    bw_arena_free(r.arena);
}

static void without_a_known_hole_the_post_itself_sets_the_distance(void **state)
{
    (void)state;
    bw_ground_post posts[] = {sound_post("first", 0.0), sound_post("second", 0.0)};
    posts[0].hole_width = posts[1].hole_width = 0.0;
    posts[0].width = posts[1].width = 0.22;
    posts[1].at = 4.5 * posts[0].width + 0.01;
    result r = flags_of(posts, 2, &cold_site);
    assert_null(find(&r, "too close"));
    bw_arena_free(r.arena);

    posts[1].at -= 0.02;
    r = flags_of(posts, 2, &cold_site);
    assert_non_null(strstr(find(&r, "too close"),
                           ": first (980 mm of 990 mm), second (980 mm of 990 mm)"));
    bw_arena_free(r.arena);
}

/* The check of the soil takes each post as single: where two are not, it shows too
 * little; and frost lifts posts out of their places. The other rules are advice, and
 * change no check. */
static void only_what_a_check_counts_on_is_to_be_done(void **state)
{
    (void)state;
    bw_ground_post posts[] = {sound_post("first", 0.0), sound_post("second", 0.4)};
    posts[0].length = 9.3;
    posts[0].hole_width = 0.3;
    posts[1].hole_depth = 0.2;
    posts[1].soil = BW_SOIL_UNKNOWN;
    result r = flags_of(posts, 2, &cold_site);
    const char *flag = find(&r, "set posts further apart, or dig for more");
    size_t to_do = 0;
    for (size_t i = 0; i < r.n; i++) {
        to_do += r.flags[i].to_do ? 1 : 0;
    }
    assert_non_null(flag);
    assert_non_null(strstr(flag, "first (400 mm of "));
    assert_true(is_to_do(&r, "too close"));
    assert_false(is_to_do(&r, "less than a third"));
    assert_false(is_to_do(&r, "no room to pack"));
    assert_true(is_to_do(&r, "not below the frost"));
    assert_false(is_to_do(&r, "the soil is not given"));
    assert_int_equal(to_do, 2);
    bw_arena_free(r.arena);
}

static void post_on_a_pad_is_told_of_frost_and_surface_only(void **state)
{
    (void)state;
    bw_ground_post post = sound_post("B1 left", 0.0);
    post.hole_depth = post.hole_width = 0.0;
    result r = flags_of(&post, 1, &cold_site);

    assert_non_null(strstr(find(&r, "not below the frost"), "B1 left (0 mm of 810 mm)"));
    assert_non_null(find(&r, "1 ft below the surface"));
    assert_null(find(&r, "third"));
    assert_null(find(&r, "once"));
    bw_arena_free(r.arena);
}

static void what_is_not_known_of_the_place_is_said(void **state)
{
    (void)state;
    const bw_ground_post post = sound_post("B1 left", 0.0);
    const bw_ground_site site = {.half_inch_movement_ok = true, .units = BW_IMPERIAL};
    result r = flags_of(&post, 1, &site);

    assert_non_null(find(&r, "depth of frost is not given"));
    assert_non_null(find(&r, "twice its lateral value"));
    assert_null(find(&r, "B1 left"));
    bw_arena_free(r.arena);
    r = flags_of(NULL, 0, &site);
    assert_int_equal(r.n, 0);
    bw_arena_free(r.arena);
}

static void many_posts_are_counted_not_listed(void **state)
{
    (void)state;
    bw_ground_post posts[11];
    for (int i = 0; i < 11; i++) {
        posts[i] = sound_post(i == 3 ? "fourth" : i == 4 ? "fifth" : "other", 4.0 * i);
        posts[i].length = 9.3;
    }
    result r = flags_of(posts, 11, &cold_site);
    const char *flag = find(&r, "less than a third");

    assert_non_null(flag);
    assert_non_null(strstr(flag, "fourth (1.22 m of 3.10 m) and 7 more"));
    assert_null(strstr(flag, "fifth"));
    bw_arena_free(r.arena);
}

static void lost_memory_is_reported_at_every_allocation(void **state)
{
    (void)state;
    bw_ground_post post = sound_post("B1 left", 0.0);
    post.length = 9.3;
    bw_status status = BW_E_MEMORY;
    unsigned long n = 0;
    while (status != BW_OK && n < 100) {
        bw_arena *arena = bw_arena_new();
        bw_assumption flags[BW_GROUND_FLAGS_MAX];
        size_t count = 0;
        bw_arena_fail_after(++n);
        status = bw_ground_flags(arena, &post, 1, &cold_site, flags, &count);
        bw_arena_fail_after(0);
        bw_arena_free(arena);
    }
    assert_true(n > 2 && status == BW_OK);
}

/* A post on a pad pushes on no soil beside it: no neighbour of the one in a hole. */
static void a_pad_is_no_neighbour(void **state)
{
    (void)state;
    for (int pad = 0; pad < 2; pad++) { /* before and behind it */
        bw_ground_post posts[] = {sound_post("B1 left", 0.0), sound_post("B2 left", 0.4)};
        result near = flags_of(posts, 2, &cold_site);
        assert_non_null(find(&near, "too close"));
        bw_arena_free(near.arena);
        posts[pad].hole_depth = posts[pad].hole_width = 0.0;
        result r = flags_of(posts, 2, &cold_site);
        assert_null(find(&r, "too close"));
        bw_arena_free(r.arena);
    }
}

static void a_post_without_a_name_is_told_too(void **state)
{
    (void)state;
    bw_ground_post post = sound_post(NULL, 0.0);
    post.soil = BW_SOIL_UNKNOWN;
    result r = flags_of(&post, 1, &cold_site);
    const char *flag = find(&r, "the soil is not given");
    assert_non_null(flag);
    assert_non_null(strstr(flag, ": ?"));
    assert_null(strstr(flag, "inf"));
    bw_arena_free(r.arena);
}

/* A depth of frost without end, or none that is a number, is a rule that is broken. */
static void frost_that_is_no_length_is_told(void **state)
{
    (void)state;
    const bw_ground_post post = sound_post("B1 left", 0.0);
    const bw_ground_site site = {.frost_depth = HUGE_VAL, .units = BW_METRIC};
    result r = flags_of(&post, 1, &site);
    assert_non_null(find(&r, "B1 left"));
    bw_arena_free(r.arena);
}

static void a_depth_that_is_no_number_is_told_without_it(void **state)
{
    (void)state;
    bw_ground_post post = sound_post("B1 left", 0.0);
    post.hole_depth = (double)NAN;
    result r = flags_of(&post, 1, &cold_site);
    const char *flag = find(&r, "not below the frost");
    assert_non_null(flag);
    assert_non_null(strstr(flag, "B1 left"));
    assert_null(strstr(flag, "nan"));
    bw_arena_free(r.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sound_posts_are_named_in_no_flag),
        cmocka_unit_test(every_rule_is_told_by_a_flag_of_its_own),
        cmocka_unit_test(at_the_limit_no_rule_complains),
        cmocka_unit_test(neighbours_share_the_soil_along_and_across),
        cmocka_unit_test(without_a_known_hole_the_post_itself_sets_the_distance),
        cmocka_unit_test(only_what_a_check_counts_on_is_to_be_done),
        cmocka_unit_test(post_on_a_pad_is_told_of_frost_and_surface_only),
        cmocka_unit_test(what_is_not_known_of_the_place_is_said),
        cmocka_unit_test(many_posts_are_counted_not_listed),
        cmocka_unit_test(lost_memory_is_reported_at_every_allocation),
        cmocka_unit_test(a_pad_is_no_neighbour),
        cmocka_unit_test(a_post_without_a_name_is_told_too),
        cmocka_unit_test(frost_that_is_no_length_is_told),
        cmocka_unit_test(a_depth_that_is_no_number_is_told_without_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
