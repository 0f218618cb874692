/* Finding species by the names people write. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "read_tables.h"

static const bw_species *found(void **state, const char *name)
{
    const tables *all = *state;
    return bw_species_find(&all->table, name, NULL, 0);
}

static void assert_finds(void **state, const char *name, const char *id)
{
    const bw_species *species = found(state, name);
    if (species == NULL) {
        fail_msg("nothing answers to %s", name);
        return;
    }
    assert_string_equal(species->id, id);
}

static void every_species_answers_to_its_id(void **state)
{
    const tables *all = *state;
    for (size_t i = 0; i < all->table.count; i++) {
        assert_ptr_equal(found(state, all->table.items[i].id), &all->table.items[i]);
    }
}

static void every_name_leads_to_a_species_that_carries_it(void **state)
{
    const tables *all = *state;
    for (size_t i = 0; i < all->table.count; i++) {
        const bw_species *species = &all->table.items[i];
        assert_ptr_equal(found(state, species->common), species);
        for (size_t k = 0; k < species->n_also; k++) {
            const bw_species *other = found(state, species->also[k]);
            assert_non_null(other);
            assert_true(other->rupture.value <= species->rupture.value);
        }
    }
}

static void letter_case_hyphens_and_blanks_do_not_matter(void **state)
{
    assert_finds(state, "WESTERN RED-CEDAR", "redcedar_western");
    assert_finds(state, "  western   redcedar ", "redcedar_western");
    assert_finds(state, "Western_Red_Cedar", "redcedar_western");
    assert_finds(state, "thuja plicata", "redcedar_western");
    assert_finds(state, "Lodgepole", "pine_lodgepole");
    assert_finds(state, "unknown softwood", "unknown_softwood");
}

/* 6800 psi, the least of the four Douglas-fir rows: Wood Handbook, Table 5-3b, READ. */
static void name_of_several_species_means_the_weakest_in_bending(void **state)
{
    assert_finds(state, "Douglas fir", "douglasfir_interior_south");
    assert_finds(state, "southern pine", "pine_loblolly");
    assert_finds(state, "Scots pine", "eu_scots_pine_baltic");
}

static void unknown_name_finds_nothing(void **state)
{
    assert_null(found(state, "plywood"));
    assert_null(found(state, ""));
    assert_null(found(state, " - "));
    char endless[4001];
    memset(endless, 'x', sizeof endless - 1);
    endless[sizeof endless - 1] = '\0';
    const tables *all = *state;
    const char *near[2] = {"left", "over"};
    assert_null(bw_species_find(&all->table, endless, near, 2));
    assert_null(near[0]);
    assert_null(near[1]);
}

static void misspelt_name_has_the_nearest_ids_as_hint(void **state)
{
    const tables *all = *state;
    const char *near[3] = {NULL, NULL, NULL};
    assert_null(bw_species_find(&all->table, "lodgpole pine", near, 3));
    assert_string_equal(near[0], "pine_lodgepole");
    assert_null(bw_species_find(&all->table, "Norwey spruce", near, 1));
    assert_true(strncmp(near[0], "eu_norway_spruce", 16) == 0);
}

static void part_of_a_name_has_the_species_that_contain_it_as_hint(void **state)
{
    const tables *all = *state;
    const char *near[4] = {NULL, NULL, NULL, NULL};
    assert_null(bw_species_find(&all->table, "hickory", near, 4));
    for (size_t i = 0; i < 4; i++) {
        assert_non_null(near[i]);
        assert_non_null(strstr(near[i], "hickory"));
        for (size_t k = 0; k < i; k++) {
            assert_string_not_equal(near[i], near[k]);
        }
    }
}

/* Several trees are called white pine: the choice is the reader's. */
static void name_shared_too_widely_lists_its_species(void **state)
{
    const tables *all = *state;
    const char *near[2] = {NULL, NULL};
    assert_null(bw_species_find(&all->table, "white pine", near, 2));
    assert_string_equal(near[0], "pine_eastern_white");
    assert_string_equal(near[1], "pine_western_white");
}

static void hint_of_a_found_name_is_empty(void **state)
{
    const tables *all = *state;
    const char *near[2] = {"left", "over"};
    assert_non_null(bw_species_find(&all->table, "white oak", near, 2));
    assert_null(near[0]);
    assert_null(near[1]);
}

static void empty_table_finds_nothing(void **state)
{
    (void)state;
    const bw_species_table none = {NULL, 0, NULL};
    const char *near[1] = {"left"};
    assert_null(bw_species_find(&none, "white oak", near, 1));
    assert_null(near[0]);
}

/* Digits and letters beyond English count as letters do; a species without all its names
 * answers to those that it has, and one too long for a hint gives none. */
static void any_letter_and_digit_of_a_name_counts(void **state)
{
    (void)state;
    static char endless[200];
    memset(endless, 'k', sizeof endless - 1);
    static const char *const also[] = {"T\xc3\xa4nne", "Klon 7", endless};
    const bw_species items[] = {
        {.id = "one", .common = NULL, .scientific = NULL, .also = also, .n_also = 3},
        {.id = "klon8", .common = "Klon 8", .scientific = ""},
    };
    const bw_species_table table = {items, 2, NULL};
    assert_ptr_equal(bw_species_find(&table, "t\xc3\xa4nne", NULL, 0), &items[0]);
    assert_null(bw_species_find(&table, "tanne", NULL, 0));
    assert_ptr_equal(bw_species_find(&table, "KLON-7", NULL, 0), &items[0]);
    assert_ptr_equal(bw_species_find(&table, "klon {8}", NULL, 0), &items[1]);
    assert_ptr_equal(bw_species_find(&table, endless, NULL, 0), &items[0]);
    assert_null(bw_species_find(&table, NULL, NULL, 0));
    const char *near[2] = {NULL, NULL};
    assert_null(bw_species_find(&table, "klon 9", near, 2));
    assert_non_null(near[0]);
    assert_null(bw_species_find(&table, "kkkkkkkkkkkkkkkkkkkk", near, 2));
    assert_null(near[0]);
    assert_null(bw_species_find(&table, "klo", near, 2));
    assert_non_null(near[0]);
    assert_non_null(near[1]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_species_answers_to_its_id),
        cmocka_unit_test(every_name_leads_to_a_species_that_carries_it),
        cmocka_unit_test(letter_case_hyphens_and_blanks_do_not_matter),
        cmocka_unit_test(name_of_several_species_means_the_weakest_in_bending),
        cmocka_unit_test(unknown_name_finds_nothing),
        cmocka_unit_test(misspelt_name_has_the_nearest_ids_as_hint),
        cmocka_unit_test(part_of_a_name_has_the_species_that_contain_it_as_hint),
        cmocka_unit_test(name_shared_too_widely_lists_its_species),
        cmocka_unit_test(hint_of_a_found_name_is_empty),
        cmocka_unit_test(empty_table_finds_nothing),
        cmocka_unit_test(any_letter_and_digit_of_a_name_counts),
    };
    return cmocka_run_group_tests(tests, read_tables, free_tables);
}
