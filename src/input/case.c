/* case.c - case files: the head of the file and the order of reading. */
#include "case.h"
#include "shape.h"

#include <math.h>

static const bwi_range any_place = {-500.0, 500.0, false}; /* [m] from the origin */

static const char *printed(const bwi_case_reader *r, const char *text)
{
    r->doc->out_of_memory = r->doc->out_of_memory || text == NULL;
    return text != NULL ? text : "";
}

const char *bwi_case_length(const bwi_case_reader *r, double length)
{
    return printed(r, bw_quantity_print(r->doc->arena, BW_LENGTH, length, r->doc->units));
}

const char *bwi_case_thickness(const bwi_case_reader *r, double length)
{
    return printed(r, bw_length_print_small(r->doc->arena, length, r->doc->units));
}

_Static_assert(BW_IMPERIAL == 0 && BW_METRIC == 1, "imperial, metric");

/* Units come first: all later faults are told in them. */
static void units_read(bwi_case_reader *r)
{
    int units = BW_IMPERIAL;
    const bwi_at at = bwi_need(&r->root, "units");
    BWI_WORD(&at, &units, "imperial", "metric");
    r->doc->units = (bw_units)units;
    r->out->units = (bw_units)units;
}

static void basis_read(bwi_case_reader *r)
{
    const char *ids[4];
    size_t count = 0;
    int chosen = 0;
    for (; count < BWI_COUNT(ids) && bw_basis_at(count) != NULL; count++) {
        ids[count] = bw_basis_at(count)->id;
    }
    const bwi_at at = bwi_key(&r->root, "basis");
    bwi_word(&at, ids, count, &chosen);
    r->out->basis = bw_basis_at((size_t)chosen);
}

static void head_read(bwi_case_reader *r)
{
    const bwi_at title = bwi_need(&r->root, "title");
    bwi_text(&title, &r->out->title);
    const bwi_at place = bwi_key(&r->root, "place");
    bwi_text(&place, &r->out->place);
    const bwi_at builder = bwi_key(&r->root, "builder");
    bwi_text(&builder, &r->out->builder);
    const bwi_at landowner = bwi_key(&r->root, "landowner");
    bwi_text(&landowner, &r->out->landowner);
    units_read(r);
    basis_read(r);
}

static void row_read(const bwi_at *at, bw_row *row)
{
    *row = (bw_row){.across = (double)NAN, .case_path = bwi_pointer(at)};
    if (BWI_OBJECT(at, "name", "across")) {
        const bwi_at name = bwi_need(at, "name");
        bwi_name(&name, &row->name);
        const bwi_at across = bwi_need(at, "across");
        bwi_measure(&across, BW_LENGTH, any_place, &row->across);
    }
}

void bwi_case_rows(bwi_case_reader *r)
{
    r->row_list = bwi_need(&r->root, "rows");
    const size_t count =
        bwi_list(&r->row_list, 1, bwi_most_rows) ? bwi_count(&r->row_list) : 0;
    r->rows = bwi_new(r->doc, count, sizeof *r->rows);
    const char **names = bwi_new(r->doc, count, sizeof *names);
    if (r->rows == NULL || names == NULL) {
        return;
    }
    for (size_t i = 0; i < count; i++) {
        names[i] = NULL;
    }
    bwi_at item = bwi_first(&r->row_list);
    for (size_t i = 0; i < count; i++, bwi_next(&item)) {
        row_read(&item, &r->rows[i]);
        names[i] = r->rows[i].name;
    }
    bwi_names_make(&r->row_list, "row", "name", names, count, &r->row_names);
    r->out->rows = r->rows;
    r->out->n_rows = count;
}

static void case_read(bwi_case_reader *r)
{
    if (!BWI_OBJECT(&r->root, "format", "title", "place", "builder", "landowner", "units",
                    "basis", "deck", "logs", "rows", "every_bent", "bents", "stringers",
                    "braces", "joints", "loads", "limits", "ground") ||
        !bwi_format(&r->root, NULL)) {
        return;
    }
    head_read(r);
    bwi_case_boards(r);
    bwi_case_logs(r);
    bwi_case_rows(r);
    bwi_case_ground(r);
    bwi_case_bents(r);
    bwi_case_stringers(r);
    bwi_case_braces(r);
    bwi_case_joints(r);
    bwi_case_loads(r);
    bwi_case_limits(r);
    if (!r->doc->out_of_memory) {
        bwi_case_fit(r);
    }
}

bw_status bwi_input_case(bw_arena *arena, const char *text,
                         const bw_species_table *species, bw_case *out, bw_diags *d,
                         bwi_shape *shape)
{
    bwi_json doc;
    *out = (bw_case){.species = species, .basis = &bw_us_asd};
    if (bwi_json_open(&doc, arena, text, d)) {
        doc.shape = shape;
        bwi_case_reader r = {
            .doc = &doc, .root = bwi_root(&doc), .species = species, .out = out};
        case_read(&r);
    }
    return bwi_json_close(&doc);
}

bw_status bw_input_case(bw_arena *arena, const char *text,
                        const bw_species_table *species, bw_case *out, bw_diags *d)
{
    return bwi_input_case(arena, text, species, out, d, NULL);
}
