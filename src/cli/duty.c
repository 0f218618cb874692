/* duty.c - options that the questions about sizes share. */
#include "duty.h"
#include "commands.h"
#include "values.h"

#include "bolewright/input.h"

#include <stddef.h>

static const double pi = 3.14159265358979323846;

static void number_read(const bwi_options *options, bwi_option option,
                        bw_quantity quantity, const double range[2], double *out,
                        bw_diags *d)
{
    const bwi_value value = {option, quantity, range[0], range[1]};
    bwi_value_read(options, &value, bwi_units_read(options), out, d);
}

static bool given(const bwi_options *options, bwi_option option)
{
    return options->value[option] != NULL;
}

static void basis_read(const bwi_options *options, bw_duty *out, bw_diags *d)
{
    const char *word = options->value[BWI_OPT_BASIS];
    const bw_basis *basis = word == NULL ? out->basis : bw_basis_find(word);
    if (basis == NULL) {
        bw_diags_error(d, "usage.word", NULL, "us_asd or eurocode", "--basis is %s",
                       word);
        return;
    }
    out->basis = basis;
}

/* Rows as far apart as three quarters of the width, unless told. */
static void deck_read(const bwi_options *options, bw_duty *out, bw_diags *d)
{
    const double width[] = {0.2, 6.0}, share[] = {0.1, 3.0};
    double part = 0.0;
    number_read(options, BWI_OPT_WIDTH, BW_LENGTH, width, &out->deck_width, d);
    out->row_spacing = 0.75 * out->deck_width;
    const double rows[] = {0.25 * out->deck_width, 1.5 * out->deck_width};
    number_read(options, BWI_OPT_ROWS, BW_LENGTH, rows, &out->row_spacing, d);
    number_read(options, BWI_OPT_SHARE, BW_LENGTH, share, &part, d);
    if (given(options, BWI_OPT_SHARE) &&
        (given(options, BWI_OPT_WIDTH) || given(options, BWI_OPT_ROWS))) {
        bw_diags_error(d, "usage.share", NULL,
                       "give the share alone, or the width of the deck and its rows",
                       "--share says what --width and --rows say");
    } else if (part > 0.0) {
        bw_duty_share(out, part);
    }
}

void bwi_duty_loads_read(const bwi_options *options, bw_duty *duty, bw_diags *d)
{
    const double mass[] = {20.0, 500.0}, factor[] = {1.0, 10.0}, people[] = {500.0, 1e4};
    if (duty->loads.mass > 0.0) {
        number_read(options, BWI_OPT_MASS, BW_MASS, mass, &duty->loads.mass, d);
        number_read(options, BWI_OPT_FACTOR, BW_NUMBER, factor, &duty->loads.factor, d);
    }
    if (duty->loads.crowd > 0.0) {
        double crowd = duty->loads.crowd;
        number_read(options, BWI_OPT_PEOPLE, BW_PRESSURE, people, &crowd, d);
        bw_duty_people(duty, crowd);
    }
}

static void foreign_loads(const bwi_options *options, const bw_duty *duty, bw_use use,
                          bw_diags *d)
{
    static const bwi_option of[] = {BWI_OPT_MASS, BWI_OPT_FACTOR, BWI_OPT_PEOPLE};
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        const double load =
            of[i] == BWI_OPT_PEOPLE ? duty->loads.crowd : duty->loads.mass;
        if (given(options, of[i]) && !(load > 0.0)) {
            bw_diags_error(d, "usage.use", NULL, "--use both has riders and people",
                           "--%s does not go with --use %s", bwi_option_name(of[i]),
                           bw_use_name(use));
        }
    }
}

void bwi_duty_read(const bwi_options *options, bw_use otherwise, bw_use *use,
                   bw_duty *out, bw_diags *d)
{
    const double seat[] = {0.003, 0.08};
    const int word = bwi_word_read(options, BWI_OPT_USE, (int)otherwise, d);
    *use = word < 0 ? otherwise : (bw_use)word;
    *out = bw_duty_default(*use, bwi_units_read(options));
    basis_read(options, out, d);
    deck_read(options, out, d);
    bwi_duty_loads_read(options, out, d);
    foreign_loads(options, out, *use, d);
    out->bays = 1 + bwi_word_read(options, BWI_OPT_BAYS, 0, d);
    number_read(options, BWI_OPT_SEAT, BW_LENGTH, seat, &out->limits.seat_depth, d);
}

bw_eye_grade bwi_grade_read(const bwi_options *options, bw_diags *d)
{
    const bw_answer best = {true, 0.0};
    const bw_eye_grade sound = {best,  best, best, best, best, BW_INSECTS_NONE,
                                BW_NO, BW_NO};
    return bwi_word_read(options, BWI_OPT_GRADE, 0, d) == 1 ? sound : (bw_eye_grade){0};
}

void bwi_need_species(const bwi_options *options, bw_diags *d)
{
    if (!given(options, BWI_OPT_WOOD)) {
        bw_diags_error(d, "usage.species", NULL,
                       "\"bolewright species\" lists them; \"unknown softwood\" and "
                       "\"unknown hardwood\" are deliberately poor",
                       "%s needs --species", bwi_command_name(options->command));
    }
}

bw_status bwi_wood_read(bw_arena *arena, const bwi_options *options,
                        bw_species_table *table, const bw_species **species,
                        bw_diags *tables, bw_diags *d)
{
    BW_TRY(bw_input_species(arena, options->value[BWI_OPT_TABLES], table, tables));
    return bwi_species_named(table, options->value[BWI_OPT_WOOD], species, d);
}

bw_log bwi_log_read(const bwi_options *options, bw_diags *d)
{
    const double across[] = {0.04, 1.2}, around[] = {0.04 * pi, 1.2 * pi},
                 along[] = {0.6, 30.0};
    bw_log log = {.name = "the log", .case_path = ""};
    double tip = 0.0, butt = 0.0;
    if (given(options, BWI_OPT_TIP) == given(options, BWI_OPT_DIAMETER)) {
        bw_diags_error(d, "usage.girth", NULL,
                       "measure around the thin end, under the bark: --tip \"22 in\"",
                       given(options, BWI_OPT_TIP) ? "--tip and --diameter say the same"
                                                   : "%s needs --tip (or --diameter)",
                       bwi_command_name(options->command));
    }
    number_read(options, BWI_OPT_TIP, BW_LENGTH, around, &tip, d);
    number_read(options, BWI_OPT_BUTT, BW_LENGTH, around, &butt, d);
    log.tip_diameter = bw_diameter_from_girth(tip);
    number_read(options, BWI_OPT_DIAMETER, BW_LENGTH, across, &log.tip_diameter, d);
    log.butt_diameter =
        given(options, BWI_OPT_BUTT) ? bw_diameter_from_girth(butt) : log.tip_diameter;
    if (butt > 0.0 && log.butt_diameter < log.tip_diameter) {
        bw_diags_error(d, "usage.girth", NULL, "the butt is the thick end",
                       "--butt is less than the tip");
    }
    number_read(options, BWI_OPT_CUT, BW_LENGTH, along, &log.length, d);
    return log;
}
