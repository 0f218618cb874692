/* species.c - species tables: text into entries, every number with its mark and source.
 */
#include "bolewright/input.h"
#include "fields.h"
#include "file.h"
#include "tables.h"

#include <math.h>
#include <string.h>

enum { most_names = 50, most_species = 5000 };

/* What the values of a table need from it. */
typedef struct {
    bwi_at sources;
} table_reader;

/* Wide limits that no wood reaches; they catch a wrong unit or a slipped point. */
static const bwi_range gravity_range = {0.1, 1.3, false};
static const bwi_range rupture_range = {5e6, 300e6, false};
static const bwi_range modulus_range = {1e9, 40e9, false};
static const bwi_range crushing_range = {3e6, 150e6, false};
static const bwi_range bearing_range = {0.3e6, 60e6, false};
static const bwi_range shear_range = {1e6, 50e6, false};
static const bwi_range density_range = {200.0, 1600.0, false};
static const bwi_range bark_range = {0.5, 1.0, false};
static const bwi_range bark_share_range = {0.01, 0.6, false};
/* Of volume equations in inches, feet and cubic feet. */
static const bwi_range scale_range = {0.0, 1.0, true};
static const bwi_range power_range = {-1.0, 5.0, false};
static const bwi_range shape_range = {0.2, 5.0, false};
/* Design values lie below the strengths. */
static const bwi_range pole_stress_range = {0.2e6, 60e6, false};
static const bwi_range pole_modulus_range = {0.3e9, 40e9, false};

/* ---- a value with its mark and source ---- */

static bool source_read(const table_reader *t, const bwi_at *at, const char **out)
{
    const char *key = NULL;
    if (!bwi_text(at, &key)) {
        return false;
    }
    const bwi_at source = bwi_key(&t->sources, key);
    if (source.node == NULL) {
        bwi_error(at, "species.source", NULL,
                  "add it to \"sources\", with title, year, table",
                  "%s is not a key of \"sources\"", bwi_as_written(at));
        return false;
    }
    const char *text = cJSON_GetStringValue(source.node); /* checked with the sources */
    *out = text != NULL ? bwi_keep(at->doc, text) : "";
    return true;
}

_Static_assert(BW_MARK_COMPUTED == BW_MARK_READ + 1 &&
                   BW_MARK_MEMORY == BW_MARK_READ + 2 &&
                   BW_MARK_PRACTICE == BW_MARK_READ + 3 &&
                   BW_MARK_JUDGEMENT == BW_MARK_READ + 4,
               "READ, COMPUTED, MEMORY, PRACTICE, JUDGEMENT");

static void origin_read(const table_reader *t, const bwi_at *at, bw_mark *mark,
                        const char **source)
{
    int word = 0;
    const bwi_at mark_at = bwi_need(at, "mark");
    if (BWI_WORD(&mark_at, &word, "READ", "COMPUTED", "MEMORY", "PRACTICE",
                 "JUDGEMENT")) {
        *mark = (bw_mark)(BW_MARK_READ + word);
    }
    const bwi_at source_at = bwi_need(at, "source");
    source_read(t, &source_at, source);
}

/* BW_NUMBER: a plain number. */
static void sourced_read(const table_reader *t, const bwi_at *at, bw_quantity quantity,
                         bwi_range range, bw_sourced *out)
{
    if (!BWI_OBJECT(at, "value", "mark", "source")) {
        return;
    }
    const bwi_at value = bwi_need(at, "value");
    if (quantity == BW_NUMBER) {
        bwi_number(&value, range, &out->value);
    } else {
        bwi_measure(&value, quantity, range, &out->value);
    }
    origin_read(t, at, &out->mark, &out->source);
}

static void needed(const table_reader *t, const bwi_at *object, const char *key,
                   bw_quantity quantity, bwi_range range, bw_sourced *out)
{
    const bwi_at at = bwi_need(object, key);
    sourced_read(t, &at, quantity, range, out);
}

/* ---- a species ---- */

static void green_read(const table_reader *t, const bwi_at *at, bw_species *s)
{
    if (BWI_OBJECT(at, "specific_gravity", "rupture", "modulus", "compression", "bearing",
                   "shear", "density")) {
        needed(t, at, "specific_gravity", BW_NUMBER, gravity_range, &s->specific_gravity);
        needed(t, at, "rupture", BW_STRESS, rupture_range, &s->rupture);
        needed(t, at, "modulus", BW_STRESS, modulus_range, &s->modulus);
        needed(t, at, "compression", BW_STRESS, crushing_range, &s->compression);
        needed(t, at, "bearing", BW_STRESS, bearing_range, &s->bearing);
        needed(t, at, "shear", BW_STRESS, shear_range, &s->shear);
        needed(t, at, "density", BW_DENSITY, density_range, &s->green_density);
    }
}

static void pole_read(const table_reader *t, const bwi_at *at, bw_species *s)
{
    if (!BWI_OBJECT(at, "bending", "shear", "bearing", "compression", "modulus",
                    "modulus_min")) {
        return;
    }
    bw_pole_values *pole = &s->pole;
    needed(t, at, "bending", BW_STRESS, pole_stress_range, &pole->bending);
    needed(t, at, "shear", BW_STRESS, pole_stress_range, &pole->shear);
    needed(t, at, "bearing", BW_STRESS, pole_stress_range, &pole->bearing);
    needed(t, at, "compression", BW_STRESS, pole_stress_range, &pole->compression);
    needed(t, at, "modulus", BW_STRESS, pole_modulus_range, &pole->modulus);
    needed(t, at, "modulus_min", BW_STRESS, pole_modulus_range, &pole->modulus_min);
    s->has_pole_values = true;
}

static void durability_read(const table_reader *t, const bwi_at *at, bw_species *s)
{
    if (BWI_OBJECT(at, "value", "mark", "source")) {
        const bwi_at value = bwi_need(at, "value");
        bwi_text(&value, &s->durability);
        origin_read(t, at, &s->durability_mark, &s->durability_source);
    }
}

/* Each model has coefficients of its own; a further one would go unused without a word.
 */
static void volume_read(const bwi_at *at, bw_volume_equation *out)
{
    static const bwi_range models = {1.0, 4.0, false};
    static const char *const keys[][6] = {{"model", "a", "b", "c", NULL, NULL},
                                          {"model", "a", "b", "b1", "c", NULL},
                                          {"model", "a", "a1", "b", "c", "c1"},
                                          {"model", "a", "b", "b1", "c", NULL}};
    double model = 0.0;
    const bwi_at model_at = bwi_key(at, "model");
    if (!bwi_number(&model_at, models, &model)) {
        if (BWI_OBJECT(at, "model", "a", "a1", "b", "b1", "c", "c1")) {
            (void)bwi_need(at, "model");
        }
        return;
    }
    if (model != floor(model)) {
        bwi_error(&model_at, "value.range", "1, 2, 3 or 4", NULL,
                  "%s is no model of a volume equation", bwi_as_written(&model_at));
        return;
    }
    const size_t kind = (size_t)model - 1;
    const size_t n_keys = kind == 0 ? 4 : kind == 2 ? 6 : 5;
    bwi_object(at, keys[kind], n_keys);
    const struct {
        const char *key;
        double *to;
    } coefficients[] = {{"a", &out->a},   {"a1", &out->a1}, {"b", &out->b},
                        {"b1", &out->b1}, {"c", &out->c},   {"c1", &out->c1}};
    for (size_t i = 0; i < BWI_COUNT(coefficients); i++) {
        for (size_t k = 1; k < n_keys; k++) {
            if (strcmp(keys[kind][k], coefficients[i].key) == 0) {
                const bwi_at value = bwi_need(at, coefficients[i].key);
                bwi_number(&value, i == 0 ? scale_range : power_range,
                           coefficients[i].to);
            }
        }
    }
    out->model = (int)kind + 1;
}

static void taper_read(const table_reader *t, const bwi_at *at, bw_taper *out)
{
    if (!BWI_OBJECT(at, "mark", "source", "volume", "bark", "alpha", "beta", "with_bark",
                    "peeled", "bark_share")) {
        return;
    }
    origin_read(t, at, &out->mark, &out->source);
    const bwi_at volume = bwi_need(at, "volume");
    volume_read(&volume, &out->wood);
    const bwi_at bark = bwi_need(at, "bark");
    volume_read(&bark, &out->bark);
    const bwi_at alpha = bwi_need(at, "alpha");
    bwi_number(&alpha, shape_range, &out->alpha);
    const bwi_at beta = bwi_need(at, "beta");
    bwi_number(&beta, shape_range, &out->beta);
    needed(t, at, "with_bark", BW_DENSITY, density_range, &out->with_bark);
    needed(t, at, "peeled", BW_DENSITY, density_range, &out->peeled);
    needed(t, at, "bark_share", BW_NUMBER, bark_share_range, &out->bark_share);
}

static void further_names_read(const bwi_at *at, bw_species *s)
{
    if (!bwi_list(at, 0, most_names)) {
        return;
    }
    const char **names = bwi_new(at->doc, bwi_count(at), sizeof *names);
    s->also = names;
    for (bwi_at item = bwi_first(at); names != NULL && item.node != NULL;
         bwi_next(&item)) {
        s->n_also += bwi_name(&item, &names[s->n_also]) ? 1 : 0;
    }
}

static void identity_read(const bwi_at *at, bw_species *s)
{
    const bwi_at id = bwi_need(at, "id");
    bwi_name(&id, &s->id);
    const bwi_at common = bwi_need(at, "common");
    bwi_name(&common, &s->common);
    const bwi_at scientific = bwi_need(at, "scientific");
    bwi_name(&scientific, &s->scientific);
    const bwi_at region = bwi_need(at, "region");
    bwi_name(&region, &s->region);
    int group = BW_SOFTWOOD;
    const bwi_at group_at = bwi_need(at, "group");
    BWI_WORD(&group_at, &group, "softwood", "hardwood");
    s->group = (bw_wood_group)group;
    const bwi_at also = bwi_key(at, "also");
    further_names_read(&also, s);
}

static void species_read(const table_reader *t, const bwi_at *at, bw_species *s)
{
    if (!BWI_OBJECT(at, "id", "common", "scientific", "also", "region", "group",
                    "fallback", "green", "bark_ratio", "taper", "durability", "pole",
                    "note")) {
        return;
    }
    identity_read(at, s);
    const bwi_at fallback = bwi_key(at, "fallback");
    bwi_flag(&fallback, &s->is_fallback);
    const bwi_at green = bwi_need(at, "green");
    green_read(t, &green, s);
    const bwi_at bark = bwi_key(at, "bark_ratio");
    sourced_read(t, &bark, BW_NUMBER, bark_range, &s->bark_ratio);
    const bwi_at taper = bwi_key(at, "taper");
    taper_read(t, &taper, &s->taper);
    const bwi_at durability = bwi_key(at, "durability");
    durability_read(t, &durability, s);
    const bwi_at pole = bwi_key(at, "pole");
    pole_read(t, &pole, s);
    const bwi_at note = bwi_key(at, "note");
    bwi_text(&note, &s->note);
}

/* ---- a table ---- */

static void sources_check(const bwi_at *sources)
{
    if (sources->node != NULL && !cJSON_IsObject(sources->node)) {
        bwi_error(sources, "value.type", "an object", NULL,
                  "found %s where an object must stand", bwi_as_written(sources));
        return;
    }
    for (bwi_at source = bwi_first(sources); source.node != NULL; bwi_next(&source)) {
        const char *text = NULL;
        bwi_text(&source, &text);
    }
}

static size_t list_read(const table_reader *t, const bwi_at *list, bw_species **out)
{
    if (!bwi_list(list, 1, most_species)) {
        return 0;
    }
    const size_t count = bwi_count(list);
    bw_species *items = bwi_new(list->doc, count, sizeof *items);
    const char **ids = bwi_new(list->doc, count, sizeof *ids);
    if (items == NULL || ids == NULL) {
        return 0;
    }
    for (bwi_at item = bwi_first(list); item.node != NULL; bwi_next(&item)) {
        species_read(t, &item, &items[item.index]);
        ids[item.index] = items[item.index].id;
    }
    bwi_names names;
    bwi_names_make(list, "species", "id", ids, count, &names);
    *out = items;
    return count;
}

/* Entries of the same id give way to the new ones and keep their places. */
static void table_merge(bwi_json *doc, const bw_species *added, size_t n_added,
                        bw_species_table *table)
{
    bw_species *items = bwi_new(doc, table->count + n_added, sizeof *items);
    const char **ids = bwi_new(doc, table->count, sizeof *ids);
    if (items == NULL || ids == NULL) {
        return;
    }
    for (size_t i = 0; i < table->count; i++) {
        items[i] = table->items[i];
        ids[i] = table->items[i].id;
    }
    bwi_names names;
    const bwi_at root = bwi_root(doc);
    if (!bwi_names_make(&root, "species", "id", ids, table->count, &names)) {
        return;
    }
    size_t count = table->count;
    for (size_t i = 0; i < n_added; i++) {
        const int same = bwi_names_find(&names, added[i].id);
        items[same >= 0 ? (size_t)same : count++] = added[i];
    }
    table->items = items;
    table->count = count;
}

/* The version that reports print: of all tables in use. */
static void version_merge(bwi_json *doc, const char *version, bw_species_table *table)
{
    if (table->version == NULL) {
        table->version = version;
    } else if (strcmp(table->version, version) != 0) {
        table->version = bwi_print(doc, "%s, %s", table->version, version);
    }
}

static void table_read(bwi_json *doc, bw_species_table *out)
{
    const bwi_at root = bwi_root(doc);
    if (!BWI_OBJECT(&root, "format", "kind", "title", "version", "sources", "species") ||
        !bwi_format(&root, "species")) {
        return;
    }
    const char *title = NULL;
    const char *version = NULL;
    const bwi_at title_at = bwi_need(&root, "title");
    bwi_text(&title_at, &title);
    const bwi_at version_at = bwi_need(&root, "version");
    bwi_name(&version_at, &version);
    const table_reader t = {bwi_need(&root, "sources")};
    sources_check(&t.sources);
    const bwi_at list = bwi_need(&root, "species");
    bw_species *items = NULL;
    const size_t count = list_read(&t, &list, &items);
    if (doc->errors == 0 && !doc->out_of_memory) {
        table_merge(doc, items, count, out);
        version_merge(doc, version, out);
    }
}

bw_status bw_input_species_text(bw_arena *arena, const char *text, bw_species_table *out,
                                bw_diags *d)
{
    bwi_json doc;
    if (bwi_json_open(&doc, arena, text, d)) {
        table_read(&doc, out);
    }
    return bwi_json_close(&doc);
}

/* ---- all tables ---- */

/* On a fault d->file stays at the table, so that the fault is printed with its name. */
static bw_status named_table_read(bw_arena *arena, const char *name, const char *text,
                                  bw_species_table *out, bw_diags *d)
{
    const char *before = d->file;
    d->file = name;
    BW_TRY(bw_input_species_text(arena, text, out, d));
    d->file = before;
    return BW_OK;
}

static bw_status built_in_read(bw_arena *arena, bw_species_table *out, bw_diags *d)
{
    for (const bwi_table *table = bwi_tables; table->name != NULL; table++) {
        const char *name = bw_arena_print(arena, "built-in %s", table->name);
        if (name == NULL) {
            return BW_E_MEMORY;
        }
        BW_TRY(named_table_read(arena, name, (const char *)table->text, out, d));
    }
    return BW_OK;
}

static bw_status folder_read(bw_arena *arena, const char *folder, bw_species_table *out,
                             bw_diags *d)
{
    const char *before = d->file;
    bwi_paths paths;
    d->file = folder;
    BW_TRY(bwi_folder_list(arena, folder, &paths, d));
    for (size_t i = 0; i < paths.count; i++) {
        const char *text = NULL;
        d->file = paths.items[i];
        BW_TRY(bw_input_read_file(arena, paths.items[i], &text, d));
        BW_TRY(named_table_read(arena, paths.items[i], text, out, d));
    }
    d->file = before;
    return BW_OK;
}

bw_status bw_input_species(bw_arena *arena, const char *folder, bw_species_table *out,
                           bw_diags *d)
{
    *out = (bw_species_table){NULL, 0, NULL};
    BW_TRY(built_in_read(arena, out, d));
    return folder != NULL ? folder_read(arena, folder, out, d) : BW_OK;
}
