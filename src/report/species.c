/* Species as text: every number with its mark and the number of its source, the ladders
 * to the reference values, the sources at the end. */
#include "internal.h"

#include <string.h>

/* Sources are numbered from 1 in the order of their first use. */
typedef struct {
    bw_arena *arena;
    bw_text *out;
    bw_units units;
    const char **sources;
    size_t n_sources, capacity;
} writer;

/* Number of the source, 0 for none. */
static size_t source_number(writer *to, const char *title)
{
    if (title == NULL) {
        return 0;
    }
    for (size_t i = 0; i < to->n_sources; i++) {
        if (strcmp(to->sources[i], title) == 0) {
            return i + 1;
        }
    }
    const char **sources = bw_arena_grow(to->arena, to->sources, to->n_sources,
                                         &to->capacity, sizeof *sources);
    if (sources == NULL) {
        to->out->failed = true;
        return 0;
    }
    to->sources = sources;
    sources[to->n_sources++] = title;
    return to->n_sources;
}

/* "memory [3]" */
static const char *origin(writer *to, bw_mark mark, const char *title)
{
    const size_t number = source_number(to, title);
    if (number == 0) {
        return bw_mark_text(mark);
    }
    return bw_arena_print(to->arena, "%s [%zu]", bw_mark_text(mark), number);
}

/* Both systems, and where the number comes from. */
static void add_value_cells(writer *to, bwi_table *table, const bw_term *term)
{
    const char *own = bwi_value(to->arena, term->quantity, term->value, to->units);
    const char *other =
        bwi_value(to->arena, term->quantity, term->value, bwi_other_units(to->units));
    const bool same = own != NULL && other != NULL && strcmp(own, other) == 0;
    bwi_table_cell(table, own);
    bwi_table_cell(table, same ? "" : other);
    bwi_table_cell(table, origin(to, term->mark, term->source));
}

static void add_names(const writer *to, const bw_species *species)
{
    bw_text_print(to->out, "%s (%s)\n", species->common, species->id);
    bw_text_print(to->out, "  %s, %s, %s\n", species->scientific, species->region,
                  species->group == BW_HARDWOOD ? "hardwood" : "softwood");
    bw_text also = bw_text_new(to->arena);
    for (size_t i = 0; i < species->n_also; i++) {
        bw_text_print(&also, "%s%s", i == 0 ? "" : ", ", species->also[i]);
    }
    if (species->n_also > 0) {
        bwi_paragraph(to->out,
                      "  Also called: ", bwi_or_fail(to->out, bw_text_string(&also)));
    }
    if (species->note != NULL) {
        bwi_paragraph(to->out, "  Note: ", species->note);
    }
}

static void add_row(writer *to, bwi_table *table, const char *label, bw_quantity quantity,
                    const bw_sourced *number)
{
    if (!(number->value > 0.0)) {
        return;
    }
    const bw_term term = {NULL,     label,        number->value,
                          quantity, number->mark, number->source};
    bwi_table_cell(table, label);
    add_value_cells(to, table, &term);
}

static void add_green_wood(writer *to, const bw_species *species)
{
    static const bwi_column columns[] = {
        {"Property", false}, {"Mean", true}, {"", true}, {"From", false}};
    bwi_heading(to->out,
                "Green wood: means of small clear pieces, not allowable stresses");
    bwi_table table = bwi_table_new(to->out, columns, 4);
    add_row(to, &table, "specific gravity", BW_NUMBER, &species->specific_gravity);
    add_row(to, &table, "modulus of rupture", BW_STRESS, &species->rupture);
    add_row(to, &table, "modulus of elasticity", BW_STRESS, &species->modulus);
    add_row(to, &table, "crushing along the grain", BW_STRESS, &species->compression);
    add_row(to, &table, "across the grain, proportional limit", BW_STRESS,
            &species->bearing);
    add_row(to, &table, "shear along the grain", BW_STRESS, &species->shear);
    add_row(to, &table, "density as felled, heaviest", BW_DENSITY,
            &species->green_density);
    add_row(to, &table, "diameter under over that over bark", BW_NUMBER,
            &species->bark_ratio);
    bwi_table_print(&table, 2);
}

/* ---- standing stem: what "bolewright tree" reckons with ---- */

typedef struct {
    writer *to;
    bwi_table *table;
} stem_rows;

static void add_stem_row(void *context, const char *label, bw_quantity quantity,
                         const bw_sourced *number)
{
    static const char *const leads[] = {"taper: ", "green wood", "volume of bark"};
    const stem_rows *rows = context;
    for (size_t i = 0; i < sizeof leads / sizeof leads[0]; i++) {
        if (strncmp(label, leads[i], strlen(leads[i])) == 0) {
            const bool number_of_form = quantity == BW_NUMBER;
            bwi_table_cell(rows->table, label);
            bwi_table_cell(rows->table,
                           number_of_form
                               ? bw_arena_print(rows->to->arena, "%.10g", number->value)
                               : bwi_value(rows->to->arena, quantity, number->value,
                                           rows->to->units));
            bwi_table_cell(rows->table, origin(rows->to, number->mark, number->source));
            return;
        }
    }
}

static void add_stem(writer *to, const bw_species *species)
{
    static const bwi_column columns[] = {{"", false}, {"", true}, {"From", false}};
    bwi_heading(to->out, "Standing tree: volume and taper");
    if (species->taper.wood.model == 0) {
        bwi_paragraph(to->out, "  ",
                      "No coefficients: \"bolewright tree\" falls back on a field rule, "
                      "0.90 of the diameter at breast height 5 ft up, 0.80 9 ft up.");
        return;
    }
    bwi_paragraph(to->out, "  ",
                  "Diameter at breast height in inches, height in feet, volume in cubic "
                  "feet, as printed in the source.");
    bwi_table table = bwi_table_new(to->out, columns, 3);
    stem_rows rows = {to, &table};
    bw_report_species_numbers(species, add_stem_row, &rows);
    bwi_table_print(&table, 2);
}

/* ---- decay ---- */

static void add_years(writer *to, const char *lead, const bw_durability *years)
{
    const char *words = bw_arena_print(
        to->arena, "%d to %d years untreated with the foot in the ground, %s",
        years->years_low, years->years_high,
        bwi_or_fail(to->out, origin(to, years->mark, years->source)));
    bwi_paragraph(to->out, lead, bwi_or_fail(to->out, words));
}

static void add_pieces(writer *to, const char *lead, const bw_sourced_text *pieces)
{
    for (; pieces->text != NULL; pieces++) {
        const char *words = bw_arena_print(
            to->arena, "%s, %s", pieces->text,
            bwi_or_fail(to->out, origin(to, pieces->mark, pieces->source)));
        bwi_paragraph(to->out, lead, bwi_or_fail(to->out, words));
    }
}

static void add_durability(writer *to, const bw_species *species)
{
    const bw_durability years = bw_durability_of(species);
    bwi_heading(to->out, "Decay");
    if (species->durability != NULL) {
        const char *from = bwi_or_fail(
            to->out, origin(to, species->durability_mark, species->durability_source));
        const char *words =
            bw_arena_print(to->arena, "%s, %s", species->durability, from);
        bwi_paragraph(to->out,
                      "  Heartwood against decay: ", bwi_or_fail(to->out, words));
    }
    add_years(to, "  Heartwood: ", &years);
    add_years(to, "  Sapwood: ", &bw_durability_sapwood);
    bwi_paragraph(to->out, "  ", bw_durability_warning);
    add_pieces(to, "  Helps: ", bw_durability_helps);
    add_pieces(to, "  Only claimed: ", bw_durability_claims);
}

/* ---- how far the numbers can be relied on ---- */

enum { MARKS = BW_MARK_JUDGEMENT + 1 };

typedef struct {
    size_t counts[MARKS];
    bw_text recalled; /* the labels of what is from memory */
} tally;

static void count_number(void *context, const char *label, bw_quantity quantity,
                         const bw_sourced *number)
{
    tally *all = context;
    (void)quantity;
    all->counts[number->mark]++;
    if (number->mark == BW_MARK_MEMORY) {
        bw_text_print(&all->recalled, "%s%s", all->recalled.length > 0 ? "; " : "",
                      label);
    }
}

static void count_species(const bw_species *species, tally *all)
{
    bw_report_species_numbers(species, count_number, all);
    if (species->durability != NULL) {
        const bw_sourced words = {1.0, species->durability_mark, NULL};
        count_number(all, "durability", BW_NUMBER, &words);
    }
}

static void add_counts(const tally *all, const char *lead, bw_text *out)
{
    bw_text line = bw_text_new(out->arena);
    for (int mark = BW_MARK_READ; mark < MARKS; mark++) {
        if (all->counts[mark] > 0) {
            bw_text_print(&line, "%s%zu %s", line.length > 0 ? ", " : "",
                          all->counts[mark], bw_mark_text((bw_mark)mark));
        }
    }
    bwi_paragraph(out, lead, bwi_or_fail(out, bw_text_string(&line)));
}

static void add_marks(const writer *to, const bw_species *species)
{
    tally all = {.recalled = bw_text_new(to->arena)};
    count_species(species, &all);
    bwi_heading(to->out, "How far the numbers can be relied on");
    add_counts(&all, "  Numbers of this species: ", to->out);
    if (all.counts[BW_MARK_MEMORY] > 0) {
        bwi_paragraph(to->out, "  From memory, verify: ",
                      bwi_or_fail(to->out, bw_text_string(&all.recalled)));
    }
}

static void add_ladder(writer *to, const bw_working *ladder)
{
    static const bwi_column columns[] = {
        {"Step", false}, {"", false}, {"", true}, {"", true}, {"From", false}};
    if (ladder->count == 0) { /* there was no memory for it */
        to->out->failed = true;
        return;
    }
    const bw_term *last = &ladder->items[ladder->count - 1];
    bw_text_print(to->out, "\n  %s, %s\n", last->symbol, last->meaning);
    bwi_table table = bwi_table_new(to->out, columns, 5);
    for (size_t i = 0; i < ladder->count; i++) {
        const bw_term *term = &ladder->items[i];
        bwi_table_cell(&table, term->symbol);
        bwi_table_cell(&table, term == last ? "the value used" : term->meaning);
        add_value_cells(to, &table, term);
    }
    bwi_table_print(&table, 4);
}

static void add_ladders(writer *to, bw_status status, const bw_reference *reference,
                        const char *meaning)
{
    if (status == BW_E_MEMORY) {
        to->out->failed = true;
        return;
    }
    if (status != BW_OK) {
        bwi_paragraph(to->out, "  ", "none: the table lacks a strength of this species");
        return;
    }
    bwi_paragraph(to->out, "  ", meaning);
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        add_ladder(to, &reference->ladder[i]);
    }
}

static void add_reference_values(writer *to, const bw_species *species)
{
    bw_reference reference;
    bwi_heading(to->out, "Reference values of an ungraded log in wet use");
    add_ladders(to, bw_us_reference(to->arena, species, &reference), &reference,
                "Allowable stresses before load duration, size and stability; each line "
                "multiplies the one before unless it says otherwise.");
    bwi_heading(to->out, "Characteristic values of an ungraded log");
    add_ladders(
        to, bw_characteristic_reference(to->arena, species, NULL, &reference), &reference,
        "For limit-state design, before k_mod and gamma_M: the same steps without "
        "the divisor for duration and safety.");
}

static void add_sources(const writer *to)
{
    bwi_heading(to->out, "Sources");
    bwi_paragraph(
        to->out, "  ",
        "read: seen in the text named. computed: worked out. memory: recalled, "
        "verify before relying on it. judgement: chosen here on the cautious side.");
    for (size_t i = 0; i < to->n_sources; i++) {
        const char *lead = bw_arena_print(to->arena, "  [%zu] ", i + 1);
        bwi_paragraph(to->out, bwi_or_fail(to->out, lead), to->sources[i]);
    }
}

void bw_report_species(bw_arena *arena, const bw_species *species, bw_units units,
                       bw_text *out)
{
    writer to = {.arena = arena, .out = out, .units = units};
    add_names(&to, species);
    add_green_wood(&to, species);
    add_stem(&to, species);
    add_durability(&to, species);
    add_reference_values(&to, species);
    add_marks(&to, species);
    add_sources(&to);
}

/* The least trustworthy mark among the numbers that strength rests on. */
static bw_mark weakest_mark(const bw_species *species)
{
    const bw_sourced *const numbers[] = {&species->rupture, &species->modulus,
                                         &species->compression, &species->bearing,
                                         &species->shear};
    bw_mark weakest = BW_MARK_READ;
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        if (numbers[i]->mark > weakest) {
            weakest = numbers[i]->mark;
        }
    }
    return weakest;
}

static const char *heartwood_word(const bw_species *species)
{
    switch (bw_durability_of(species).heartwood) {
    case BW_DURABILITY_RESISTANT:
        return "resistant";
    case BW_DURABILITY_MODERATE:
        return "moderate";
    case BW_DURABILITY_SLIGHT:
        return "poor";
    default:
        return "?";
    }
}

void bw_report_species_list(const bw_species_table *table, bw_text *out)
{
    static const bwi_column columns[] = {{"Name", false},
                                         {"Common name", false},
                                         {"Strength", false},
                                         {"Heartwood", false}};
    bw_text_print(out, "%zu species, tables of %s\n\n", table->count,
                  table->version != NULL ? table->version : "no stated version");
    bwi_table lines = bwi_table_new(out, columns, 4);
    for (size_t i = 0; i < table->count; i++) {
        const bw_species *species = &table->items[i];
        bwi_table_cell(&lines, species->id);
        bwi_table_cell(&lines, species->common);
        bwi_table_cell(&lines, bw_mark_text(weakest_mark(species)));
        bwi_table_cell(&lines, heartwood_word(species));
    }
    bwi_table_print(&lines, 0);
    tally all = {.recalled = bw_text_new(out->arena)};
    for (size_t i = 0; i < table->count; i++) {
        count_species(&table->items[i], &all);
    }
    bw_text_add(out, "\n");
    add_counts(&all, "All numbers: ", out);
    bw_text_add(out,
                "\"bolewright species NAME\" explains one; --json lists every number "
                "with its source.\n");
}
