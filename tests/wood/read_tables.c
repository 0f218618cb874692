#include "read_tables.h"

#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <setjmp.h>

#include <cmocka.h>

static const char *const paths[N_TABLE_FILES] = {
    BW_SOURCE_DIR "/species/north_america.json",
    BW_SOURCE_DIR "/species/europe.json",
    BW_SOURCE_DIR "/species/unknown.json",
};

static cJSON *read_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    assert_int_equal(fseek(file, 0, SEEK_END), 0);
    const long size = ftell(file);
    assert_true(size > 0);
    rewind(file);
    char *text = malloc((size_t)size + 1);
    assert_non_null(text);
    assert_int_equal(fread(text, 1, (size_t)size, file), size);
    text[size] = '\0';
    fclose(file);
    cJSON *root = cJSON_Parse(text);
    free(text);
    assert_non_null(root);
    return root;
}

static bw_mark mark_of(const char *word)
{
    static const char *const words[] = {"",       "READ",     "COMPUTED",
                                        "MEMORY", "PRACTICE", "JUDGEMENT"};
    for (size_t i = 1; i < sizeof words / sizeof words[0]; i++) {
        if (strcmp(word, words[i]) == 0) {
            return (bw_mark)i;
        }
    }
    fail_msg("unknown mark %s", word);
    return BW_MARK_NONE;
}

static const char *text_at(const cJSON *object, const char *key)
{
    return cJSON_GetStringValue(cJSON_GetObjectItemCaseSensitive(object, key));
}

static bw_sourced sourced_at(const cJSON *object, const char *key, bw_quantity quantity,
                             const cJSON *sources)
{
    bw_sourced out = {0.0, BW_MARK_NONE, NULL};
    const cJSON *number = cJSON_GetObjectItemCaseSensitive(object, key);
    if (number == NULL) {
        return out;
    }
    const cJSON *value = cJSON_GetObjectItemCaseSensitive(number, "value");
    if (cJSON_IsNumber(value)) {
        out.value = value->valuedouble;
    } else {
        assert_int_equal(bw_quantity_parse(quantity, value->valuestring, &out.value),
                         BW_PARSE_OK);
    }
    out.mark = mark_of(text_at(number, "mark"));
    out.source = text_at(sources, text_at(number, "source"));
    return out;
}

static void read_also(bw_arena *arena, const cJSON *entry, bw_species *out)
{
    const cJSON *also = cJSON_GetObjectItemCaseSensitive(entry, "also");
    const char **names = BW_NEW(arena, const char *, cJSON_GetArraySize(also));
    assert_non_null(names);
    const cJSON *name = NULL;
    cJSON_ArrayForEach(name, also)
    {
        names[out->n_also++] = name->valuestring;
    }
    out->also = names;
}

static double real_at(const cJSON *object, const char *key)
{
    const cJSON *number = cJSON_GetObjectItemCaseSensitive(object, key);
    return cJSON_IsNumber(number) ? number->valuedouble : 0.0;
}

static bw_volume_equation equation_at(const cJSON *taper, const char *key)
{
    const cJSON *e = cJSON_GetObjectItemCaseSensitive(taper, key);
    return (bw_volume_equation){
        (int)real_at(e, "model"), real_at(e, "a"), real_at(e, "a1"), real_at(e, "b"),
        real_at(e, "b1"),         real_at(e, "c"), real_at(e, "c1")};
}

static void read_taper(const cJSON *taper, const cJSON *sources, bw_taper *out)
{
    if (taper == NULL) {
        return;
    }
    out->wood = equation_at(taper, "volume");
    out->bark = equation_at(taper, "bark");
    out->alpha = real_at(taper, "alpha");
    out->beta = real_at(taper, "beta");
    out->mark = mark_of(text_at(taper, "mark"));
    out->source = text_at(sources, text_at(taper, "source"));
    out->with_bark = sourced_at(taper, "with_bark", BW_DENSITY, sources);
    out->peeled = sourced_at(taper, "peeled", BW_DENSITY, sources);
    out->bark_share = sourced_at(taper, "bark_share", BW_NUMBER, sources);
}

static void read_species(bw_arena *arena, const cJSON *entry, const cJSON *sources,
                         bw_species *out)
{
    const cJSON *green = cJSON_GetObjectItemCaseSensitive(entry, "green");
    const cJSON *pole = cJSON_GetObjectItemCaseSensitive(entry, "pole");
    out->id = text_at(entry, "id");
    out->common = text_at(entry, "common");
    out->scientific = text_at(entry, "scientific");
    out->region = text_at(entry, "region");
    const char *group = text_at(entry, "group");
    out->group = strcmp(group, "hardwood") == 0 ? BW_HARDWOOD : BW_SOFTWOOD;
    out->is_fallback = cJSON_IsTrue(cJSON_GetObjectItemCaseSensitive(entry, "fallback"));
    read_also(arena, entry, out);
    out->specific_gravity = sourced_at(green, "specific_gravity", BW_NUMBER, sources);
    out->rupture = sourced_at(green, "rupture", BW_STRESS, sources);
    out->modulus = sourced_at(green, "modulus", BW_STRESS, sources);
    out->compression = sourced_at(green, "compression", BW_STRESS, sources);
    out->bearing = sourced_at(green, "bearing", BW_STRESS, sources);
    out->shear = sourced_at(green, "shear", BW_STRESS, sources);
    out->green_density = sourced_at(green, "density", BW_DENSITY, sources);
    out->bark_ratio = sourced_at(entry, "bark_ratio", BW_NUMBER, sources);
    read_taper(cJSON_GetObjectItemCaseSensitive(entry, "taper"), sources, &out->taper);
    const cJSON *words = cJSON_GetObjectItemCaseSensitive(entry, "durability");
    out->durability = words != NULL ? text_at(words, "value") : NULL;
    out->durability_mark = words != NULL ? mark_of(text_at(words, "mark")) : BW_MARK_NONE;
    out->durability_source =
        words != NULL ? text_at(sources, text_at(words, "source")) : NULL;
    out->has_pole_values = pole != NULL;
    out->pole.bending = sourced_at(pole, "bending", BW_STRESS, sources);
    out->pole.shear = sourced_at(pole, "shear", BW_STRESS, sources);
    out->pole.bearing = sourced_at(pole, "bearing", BW_STRESS, sources);
    out->pole.compression = sourced_at(pole, "compression", BW_STRESS, sources);
    out->pole.modulus = sourced_at(pole, "modulus", BW_STRESS, sources);
    out->pole.modulus_min = sourced_at(pole, "modulus_min", BW_STRESS, sources);
}

int read_tables(void **state)
{
    bw_arena *arena = bw_arena_new();
    tables *all = BW_NEW(arena, tables, 1);
    bw_species *items = BW_NEW(arena, bw_species, 1000);
    assert_non_null(all);
    assert_non_null(items);
    all->arena = arena;
    size_t count = 0;
    for (int i = 0; i < N_TABLE_FILES; i++) {
        cJSON *root = read_file(paths[i]);
        const cJSON *sources = cJSON_GetObjectItemCaseSensitive(root, "sources");
        const cJSON *entry = NULL;
        cJSON_ArrayForEach(entry, cJSON_GetObjectItemCaseSensitive(root, "species"))
        {
            read_species(arena, entry, sources, &items[count++]);
        }
        all->files[i] = root;
    }
    const bw_species_table table = {items, count, "of these tests"};
    all->table = table;
    *state = all;
    return 0;
}

int free_tables(void **state)
{
    tables *all = *state;
    for (int i = 0; i < N_TABLE_FILES; i++) {
        cJSON_Delete(all->files[i]);
    }
    bw_arena_free(all->arena);
    return 0;
}

const bw_species *species_of_id(const tables *all, const char *id)
{
    for (size_t i = 0; i < all->table.count; i++) {
        if (strcmp(all->table.items[i].id, id) == 0) {
            return &all->table.items[i];
        }
    }
    fail_msg("no species %s", id);
    return NULL;
}
