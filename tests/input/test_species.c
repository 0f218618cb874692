/* test_species.c - species tables: the built-in ones, and those that a person adds. */
#include "support.h"

#include <sys/stat.h>
#include <unistd.h>

static const bw_species *by_id(const bw_species_table *table, const char *id)
{
    for (size_t i = 0; i < table->count; i++) {
        if (strcmp(table->items[i].id, id) == 0) {
            return &table->items[i];
        }
    }
    fail_msg("no species %s", id);
    return NULL;
}

static void assert_known(const bw_sourced *value)
{
    assert_true(value->value > 0.0);
    assert_true(value->mark != BW_MARK_NONE);
    assert_non_null(value->source);
    assert_true(strlen(value->source) > 3);
}

static void every_built_in_species_is_complete(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, NULL);
    bw_species_table table;
    assert_status(arena, bw_input_species(arena, NULL, &table, &d), BW_OK, &d);
    assert_int_equal(d.count, 0);
    assert_true(table.count > 100);
    assert_non_null(table.version);
    for (size_t i = 0; i < table.count; i++) {
        const bw_species *s = &table.items[i];
        assert_non_null(s->id);
        assert_non_null(s->common);
        assert_non_null(s->scientific);
        assert_non_null(s->region);
        assert_known(&s->specific_gravity);
        assert_known(&s->rupture);
        assert_known(&s->modulus);
        assert_known(&s->compression);
        assert_known(&s->bearing);
        assert_known(&s->shear);
        assert_known(&s->green_density);
    }
    bw_arena_free(arena);
}

/* Lodgepole pine, green, in the metric print: Wood Handbook FPL-GTR-282 (2021), Table
 * 5-3a: READ. The table in this program is written in psi, so the units are tested on the
 * way; tolerance: half of the last printed digit. */
static void a_handbook_row_is_read_in_its_other_units(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, NULL);
    bw_species_table table;
    assert_int_equal(bw_input_species(arena, NULL, &table, &d), BW_OK);
    const bw_species *s = by_id(&table, "pine_lodgepole");
    assert_float_equal((float)s->specific_gravity.value, 0.38F, 0.005F);
    assert_near(s->rupture.value, 38e6, 0.5 / 38.0);
    assert_near(s->modulus.value, 7400e6, 50.0 / 7400.0);
    assert_near(s->compression.value, 18.0e6, 0.05 / 18.0);
    assert_near(s->bearing.value, 1.7e6, 0.05 / 1.7);
    assert_near(s->shear.value, 4.7e6, 0.05 / 4.7);
    assert_int_equal(s->rupture.mark, BW_MARK_READ);
    assert_non_null(strstr(s->rupture.source, "Wood Handbook"));
    assert_int_equal(s->group, BW_SOFTWOOD);
    assert_false(s->is_fallback);
    bw_arena_free(arena);
}

static void every_field_of_an_entry_is_read(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_species_table table = test_woods(arena);
    assert_int_equal(table.count, 2);
    assert_string_equal(table.version, "test-1");
    const bw_species *pine = by_id(&table, "test_pine");
    assert_string_equal(pine->common, "Test pine");
    assert_string_equal(pine->scientific, "Pinus probata");
    assert_int_equal(pine->n_also, 1);
    assert_string_equal(pine->also[0], "proving pine");
    assert_string_equal(pine->region, "nowhere");
    /* psi of the exact inch, pound and standard gravity: COMPUTED with Python */
    assert_near(pine->rupture.value, 37438532.1019042, 1e-12);
    assert_near(pine->modulus.value, 7377390303.690146, 1e-12);
    assert_int_equal(pine->green_density.mark, BW_MARK_PRACTICE);
    assert_string_equal(pine->green_density.source, "Invented for tests, roughly");
    assert_false(pine->bark_ratio.value > 0.0);
    assert_false(pine->has_pole_values);
    assert_null(pine->note);
    const bw_species *larch = by_id(&table, "test_larch");
    assert_near(larch->bark_ratio.value, 0.873, 1e-15);
    assert_int_equal(larch->bark_ratio.mark, BW_MARK_COMPUTED);
    assert_near(larch->bearing.value, 2.83e6, 1e-12);
    assert_near(larch->green_density.value, 913.0, 1e-15);
    assert_string_equal(larch->durability, "moderately durable");
    assert_int_equal(larch->durability_mark, BW_MARK_MEMORY);
    assert_string_equal(larch->note, "bark varies");
    bw_arena_free(arena);
}

static void an_entry_of_the_same_id_takes_the_place_of_the_old_one(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, NULL);
    bw_species_table table = test_woods(arena);
    char *text = slurp(arena, BW_SOURCE_DIR "/tests/input/species.json", NULL);
    text = replaced(arena, text, "\"5430 psi\"", "\"41.3 MPa\"");
    text = replaced(arena, text, "\"test_larch\"", "\"test_larch_2\"");
    text = replaced(arena, text, "\"test-1\"", "\"test-2\"");
    assert_int_equal(bw_input_species_text(arena, text, &table, &d), BW_OK);
    assert_int_equal(table.count, 3);
    assert_string_equal(table.items[0].id, "test_pine");
    assert_near(table.items[0].rupture.value, 41.3e6, 1e-12);
    assert_string_equal(table.items[1].id, "test_larch");
    assert_string_equal(table.items[2].id, "test_larch_2");
    assert_string_equal(table.version, "test-1, test-2");
    bw_arena_free(arena);
}

static void a_faulty_table_changes_nothing(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, NULL);
    bw_species_table table = test_woods(arena);
    const bw_species_table before = table;
    char *text = slurp(arena, BW_SOURCE_DIR "/tests/input/species.json", NULL);
    text = replaced(arena, text, "\"5430 psi\"", "\"5430 psf\"");
    assert_int_equal(bw_input_species_text(arena, text, &table, &d), BW_E_INPUT);
    assert_int_equal(table.count, before.count);
    assert_ptr_equal(table.items, before.items);
    bw_arena_free(arena);
}

/* ---- a folder of tables ---- */

static const char *table_file(bw_arena *arena, const char *folder, const char *text)
{
    const char *path = bw_arena_print(arena, "%s/mine.json", folder);
    FILE *stream = fopen(path, "wb");
    assert_non_null(stream);
    assert_true(fputs(text, stream) >= 0);
    assert_int_equal(fclose(stream), 0);
    return path;
}

static void a_folder_adds_to_the_built_in_tables(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, "deck.json");
    char folder[] = "test_species_XXXXXX";
    bw_species_table built_in;
    bw_species_table table;
    assert_non_null(mkdtemp(folder));
    char *text = slurp(arena, BW_SOURCE_DIR "/tests/input/species.json", NULL);
    text = replaced(arena, text, "\"test_larch\"", "\"pine_lodgepole\"");
    const char *path = table_file(arena, folder, text);
    assert_int_equal(bw_input_species(arena, NULL, &built_in, &d), BW_OK);
    assert_int_equal(bw_input_species(arena, folder, &table, &d), BW_OK);
    assert_string_equal(d.file, "deck.json");
    assert_int_equal(table.count, built_in.count + 1);
    assert_string_equal(by_id(&table, "pine_lodgepole")->common, "Test larch");
    assert_non_null(by_id(&table, "test_pine"));
    assert_int_equal(remove(path), 0);
    assert_int_equal(rmdir(folder), 0);
    bw_arena_free(arena);
}

static void a_fault_in_a_folder_names_its_file(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, "deck.json");
    char folder[] = "test_species_XXXXXX";
    bw_species_table table;
    bw_text out = bw_text_new(arena);
    assert_non_null(mkdtemp(folder));
    const char *path = table_file(arena, folder, "{\n\"format\": 3}");
    assert_int_equal(bw_input_species(arena, folder, &table, &d), BW_E_INPUT);
    bw_diags_print(&d, &out);
    assert_non_null(
        strstr(bw_text_string(&out), bw_arena_print(arena, "%s:2:11: /format", path)));
    assert_int_equal(remove(path), 0);
    assert_int_equal(rmdir(folder), 0);
    bw_arena_free(arena);
}

static void a_missing_folder_cannot_be_read(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_diags d = bw_diags_new(arena, NULL);
    bw_species_table table;
    assert_int_equal(bw_input_species(arena, "no_such_folder", &table, &d), BW_E_IO);
    assert_int_equal(d.errors, 1);
    bw_arena_free(arena);
}

static void running_out_of_memory_is_reported(void **state)
{
    (void)state;
    bw_arena *keep = bw_arena_new();
    const char *text = slurp(keep, BW_SOURCE_DIR "/tests/input/species.json", NULL);
    unsigned long n = 1;
    for (;; n++) {
        bw_arena *arena = bw_arena_new();
        bw_diags d = bw_diags_new(arena, NULL);
        bw_species_table table = {NULL, 0, NULL};
        bw_arena_fail_after(n);
        const bw_status status = bw_input_species_text(arena, text, &table, &d);
        bw_arena_fail_after(0);
        bw_arena_free(arena);
        if (status == BW_OK) {
            break;
        }
        assert_int_equal(status, BW_E_MEMORY);
        assert_int_equal(table.count, 0);
    }
    assert_true(n > 50);
    bw_arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_built_in_species_is_complete),
        cmocka_unit_test(a_handbook_row_is_read_in_its_other_units),
        cmocka_unit_test(every_field_of_an_entry_is_read),
        cmocka_unit_test(an_entry_of_the_same_id_takes_the_place_of_the_old_one),
        cmocka_unit_test(a_faulty_table_changes_nothing),
        cmocka_unit_test(a_folder_adds_to_the_built_in_tables),
        cmocka_unit_test(a_fault_in_a_folder_names_its_file),
        cmocka_unit_test(a_missing_folder_cannot_be_read),
        cmocka_unit_test(running_out_of_memory_is_reported),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
