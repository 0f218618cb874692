/* examples.c - schemas from what the readers ask of examples. */
#include "shape.h"
#include "tables.h"

#include "bolewright/input.h"

#include <string.h>

typedef struct {
    bw_arena *arena;
    bw_diags *d;
    bw_species_table species;
    bw_case deck; /* the first example of a case; measurements and logs belong to it */
    bwi_shape shape;
} schema_run;

static bool is_of(const bwi_table *example, const char *kind)
{
    const size_t n = strlen(kind);
    return strncmp(example->name, kind, n) == 0 &&
           (example->name[n] == '-' || example->name[n] == '.');
}

/* Reads one example of the kind; what is wrong with it is a fault of the program. */
static bw_status example_read(schema_run *run, const bwi_table *example, const char *kind)
{
    const char *text = (const char *)example->text;
    bw_inspections inspections;
    bw_log_list logs;
    bw_frame_input frame;
    bw_case deck;
    if (strcmp(kind, "case") == 0) {
        return bwi_input_case(run->arena, text, &run->species, &deck, run->d,
                              &run->shape);
    }
    if (strcmp(kind, "frame") == 0) {
        return bwi_input_frame(run->arena, text, &frame, run->d, &run->shape);
    }
    if (strcmp(kind, "inspections") == 0) {
        return bwi_input_inspections(run->arena, text, &run->deck, &inspections, run->d,
                                     &run->shape);
    }
    return bwi_input_logs(run->arena, text, &run->deck, &logs, run->d, &run->shape);
}

static bw_status examples_read(schema_run *run, const char *kind)
{
    for (const bwi_table *example = bwi_examples; example->name != NULL; example++) {
        if (is_of(example, kind)) {
            run->d->file = example->name;
            const bw_status status = example_read(run, example, kind);
            if (status != BW_OK) {
                return status == BW_E_INPUT ? BW_E_INTERNAL : status;
            }
        }
    }
    run->d->file = NULL;
    return BW_OK;
}

/* The deck of measurements and of piles. */
static bw_status deck_read(schema_run *run)
{
    const bwi_table *example = bwi_examples;
    while (example->name != NULL && !is_of(example, "case")) {
        example++;
    }
    return example->name == NULL
               ? BW_E_INTERNAL
               : bwi_input_case(run->arena, (const char *)example->text, &run->species,
                                &run->deck, run->d, NULL);
}

static const struct {
    const char *kind, *title;
} titles[] = {{"case", "A deck framed from logs, as bolewright reads it"},
              {"frame", "A plane frame, as bolewright reads it"},
              {"inspections", "What was measured on a deck, as bolewright reads it"},
              {"logs", "The lines of a table of logs, as bolewright reads it, each as an "
                       "object with the headings as keys"}};

bw_status bw_input_schema(bw_arena *arena, const char *kind, bw_text *out, bw_diags *d)
{
    schema_run run = {.arena = arena, .shape = {.least = (size_t)-1}};
    bw_diags warnings = bw_diags_new(arena, NULL); /* examples may be unusual */
    run.d = &warnings;
    const char *title = NULL;
    for (size_t i = 0; i < BWI_COUNT(titles); i++) {
        title = strcmp(titles[i].kind, kind) == 0 ? titles[i].title : title;
    }
    if (title == NULL) {
        return BW_E_USAGE;
    }
    bw_status status = bw_input_species(arena, NULL, &run.species, &warnings);
    status = status == BW_OK ? deck_read(&run) : status;
    status = status == BW_OK ? examples_read(&run, kind) : status;
    if (status == BW_OK) {
        status = strcmp(kind, "logs") == 0
                     ? bwi_schema_write_table(&run.shape, title, out, d)
                     : bwi_schema_write(&run.shape, title, out, d);
    }
    for (size_t i = 0; status != BW_OK && i < warnings.count; i++) {
        bw_diags_add(d, &warnings.items[i]);
    }
    return status;
}
