/* case_logs.c - logs as measured, brought under the bark. */
#include "case.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

static const bwi_range diameter_range = {0.03, 1.2, false}; /* [m] */
static const bwi_range bark_range = {0.0, 0.15, true};      /* [m] */
const double bwi_longest_log = 40.0;

/* A diameter above this is more often a girth written in the wrong place [m]: common
 * practice of the trade builds with logs of 0.15 to 0.4 m. */
static const double suspicious_diameter = 0.5;

/* Diameter under over diameter over bark where the species has none: the lowest of 36
 * species (black locust), from the volume equations of Westfall et al., GTR-WO-104
 * (2023): COMPUTED. */
static const double lowest_bark_ratio = 0.84;

/* A log is not quite round: of two diameters across each other the smaller counts. */
static bool across_read(const bwi_at *at, double *value)
{
    double second = 0.0;
    if (!cJSON_IsArray(at->node)) {
        return bwi_measure(at, BW_LENGTH, diameter_range, value);
    }
    if (!bwi_list(at, 2, 2)) {
        return false;
    }
    const bwi_at one = bwi_nth(at, 0), other = bwi_nth(at, 1);
    const bool has_one = bwi_measure(&one, BW_LENGTH, diameter_range, value);
    if (!bwi_measure(&other, BW_LENGTH, diameter_range, &second) || !has_one) {
        return false;
    }
    *value = fmin(*value, second);
    return true;
}

bwi_at bwi_case_size(const bwi_case_reader *r, const bwi_at *at, const char *girth_key,
                     const char *diameter_key, double *diameter)
{
    const bwi_range girth_range = {pi * diameter_range.low, pi * diameter_range.high,
                                   false};
    const bwi_at girth = bwi_key(at, girth_key);
    const bwi_at across = bwi_key(at, diameter_key);
    double value = 0.0;
    if (girth.node != NULL && across.node != NULL) {
        bwi_error(&across, "key.both", NULL, "keep the one that was measured",
                  "stands beside \"%s\", which says the same", girth_key);
    } else if (girth.node == NULL && across.node == NULL) {
        bwi_error(at, "key.missing", NULL,
                  bwi_print(r->doc, "add \"%s\", or \"%s\"", girth_key, diameter_key),
                  "neither \"%s\" nor \"%s\" is given", girth_key, diameter_key);
    } else if (girth.node != NULL) {
        if (bwi_measure(&girth, BW_LENGTH, girth_range, &value)) {
            *diameter = bw_diameter_from_girth(value);
        }
    } else if (across_read(&across, &value)) {
        *diameter = value;
        if (value > suspicious_diameter) {
            bwi_warn(
                &across, "log.thick", NULL,
                bwi_print(r->doc, "is this a girth? then write it as \"%s\"", girth_key),
                "a log of %s diameter is unusual",
                cJSON_IsArray(across.node) ? bwi_case_thickness(r, value)
                                           : bwi_as_written(&across));
        }
    }
    return girth.node != NULL ? girth : across;
}

static void bark_measured(const bwi_case_reader *r, const bwi_at *at, bw_log *log)
{
    double thickness = 0.0;
    if (!bwi_measure(at, BW_LENGTH, bark_range, &thickness)) {
        return;
    }
    const bw_log before = *log;
    if (!bwi_case_shrink(r, log, 1.0, 2.0 * thickness)) {
        *log = before;
        bwi_error(at, "log.bark",
                  bwi_print(r->doc, "what leaves at least %s of wood under the bark",
                            bwi_case_thickness(r, diameter_range.low)),
                  "the thickness is that of one side",
                  "%s of bark on both sides leaves no log", bwi_as_written(at));
    }
}

/* The cautious guess for bark that nobody measured. */
static void bark_guessed(const bwi_case_reader *r, const bwi_at *at, bw_log *log)
{
    const bool known = log->species != NULL && log->species->bark_ratio.value > 0.0;
    const double ratio = known ? log->species->bark_ratio.value : lowest_bark_ratio;
    bwi_case_shrink(r, log, ratio, 0.0);
    bwi_warn(at, "log.bark_guessed", NULL,
             "peel the log and measure again, or give \"bark_thickness\"",
             "the bark was not measured: the wood is taken as %.2f of the diameter over "
             "bark, %s",
             ratio, known ? "a mean of the species" : "the lowest ratio known here");
}

static void bark_read(const bwi_case_reader *r, const bwi_at *at, bw_log *log)
{
    int word = 0;
    const bwi_at bark = bwi_need(at, "bark");
    const bwi_at thickness = bwi_key(at, "bark_thickness");
    if (!BWI_WORD(&bark, &word, "off", "on")) {
        return;
    }
    const bool on = word == 1;
    if (on && thickness.node != NULL) {
        bark_measured(r, &thickness, log);
    } else if (on) {
        bark_guessed(r, &bark, log);
    } else if (thickness.node != NULL) {
        bwi_key_error(
            &thickness, "log.bark_off", NULL,
            "leave it out, or write \"bark\": \"on\" if the log was measured over "
            "its bark",
            "bark with a thickness on a log whose bark is off");
    }
}

static void species_unknown(const bwi_case_reader *r, const bwi_at *at,
                            const char *const *near)
{
    const char *hint =
        near[0] == NULL
            ? "the species tables list what is known; \"unknown softwood\" and "
              "\"unknown hardwood\" are deliberately poor"
            : bwi_print(r->doc, "did you mean \"%s\"%s%s%s%s%s%s?", near[0],
                        near[1] != NULL ? ", \"" : "", near[1] != NULL ? near[1] : "",
                        near[1] != NULL ? "\"" : "",
                        near[1] != NULL && near[2] != NULL ? ", \"" : "",
                        near[1] != NULL && near[2] != NULL ? near[2] : "",
                        near[1] != NULL && near[2] != NULL ? "\"" : "");
    bwi_error(at, "species.unknown", NULL, hint, "no species is called %s",
              bwi_as_written(at));
}

void bwi_case_species(const bwi_case_reader *r, const bwi_at *log, bw_log *out)
{
    const char *name = NULL;
    const char *near[3] = {NULL, NULL, NULL};
    const bwi_at at = bwi_need(log, "species");
    if (bwi_text(&at, &name)) {
        const size_t hints = bwi_faults_full(r->doc) ? 0 : BWI_COUNT(near);
        out->species = bw_species_find(r->species, name, near, hints);
        if (out->species == NULL) {
            species_unknown(r, &at, near);
        }
    }
}

/* A class of graded timber, for the basis that knows them; the log then takes its values
 * in place of those of the species. */
void bwi_case_class(const bwi_case_reader *r, const bwi_at *log, bw_log *out)
{
    enum { ROOM = 32 };
    const char *names[ROOM];
    size_t count = 0;
    int chosen = -1;
    const bwi_at at = bwi_key(log, "strength_class");
    for (; count < ROOM && bw_strength_class_at(count) != NULL; count++) {
        names[count] = bw_strength_class_at(count)->name;
    }
    if (!bwi_word(&at, names, count, &chosen)) {
        return;
    }
    const bw_strength_class *found = bw_strength_class_at((size_t)chosen);
    if (!r->out->basis->knows_classes) {
        bwi_warn(&at, "log.class_unused", NULL,
                 "leave it out, or choose a basis that knows strength classes",
                 "strength class %s means nothing to %s: the species counts",
                 bwi_as_written(&at), r->out->basis->title);
    } else if (out->species != NULL && found->group == BW_HARDWOOD &&
               out->species->group == BW_SOFTWOOD) {
        bwi_error(&at, "log.class_group", "C14 to C50 for a softwood", NULL,
                  "%s is a class of hardwood, and %s is a softwood", bwi_as_written(&at),
                  out->species->common);
    } else {
        out->strength_class = found;
    }
}

static void ends_read(const bwi_case_reader *r, const bwi_at *at, bw_log *log)
{
    bwi_case_size(r, at, "butt_girth", "butt_diameter", &log->butt_diameter);
    const bwi_at tip =
        bwi_case_size(r, at, "tip_girth", "tip_diameter", &log->tip_diameter);
    if (log->tip_diameter > log->butt_diameter) {
        bwi_warn(&tip, "log.tip", NULL, "are the two ends the wrong way round?",
                 "the tip, %s, is thicker than the butt: %s against %s in diameter",
                 bwi_as_written(&tip), bwi_case_thickness(r, log->tip_diameter),
                 bwi_case_thickness(r, log->butt_diameter));
    }
}

void bwi_case_log(const bwi_case_reader *r, const bwi_at *at, bw_log *log)
{
    *log = (bw_log){.butt_diameter = (double)NAN,
                    .tip_diameter = (double)NAN,
                    .case_path = bwi_pointer(at)};
    if (!BWI_OBJECT(at, "name", "species", "butt_girth", "butt_diameter", "tip_girth",
                    "tip_diameter", "stations", "bark", "bark_thickness", "length",
                    "outer_loss", "flat_top", "flat_bottom", "half", "shell", "sweep",
                    "notches", "strength_class", "grade")) {
        return;
    }
    const bwi_at name = bwi_need(at, "name");
    bwi_name(&name, &log->name);
    bwi_case_species(r, at, log);
    const bwi_at length = bwi_key(at, "length");
    bwi_measure(&length, BW_LENGTH, (bwi_range){0.2, bwi_longest_log, false},
                &log->length);
    BWI_ONE_OF(at, "stations", "butt_girth", "butt_diameter");
    BWI_ONE_OF(at, "stations", "tip_girth", "tip_diameter");
    if (!bwi_case_stations(r, at, log)) {
        ends_read(r, at, log);
    }
    bark_read(r, at, log);
    bwi_case_class(r, at, log);
    bwi_case_shape(r, at, log);
    bwi_case_grade(at, log);
}

void bwi_case_logs(bwi_case_reader *r)
{
    r->log_list = bwi_need(&r->root, "logs");
    const size_t count =
        bwi_list(&r->log_list, 1, bwi_most_logs) ? bwi_count(&r->log_list) : 0;
    r->logs = bwi_new(r->doc, count, sizeof *r->logs);
    const char **names = bwi_new(r->doc, count, sizeof *names);
    if (r->logs == NULL || names == NULL) {
        return;
    }
    bwi_at item = bwi_first(&r->log_list);
    for (size_t i = 0; i < count; i++, bwi_next(&item)) {
        bwi_case_log(r, &item, &r->logs[i]);
        names[i] = r->logs[i].name;
    }
    bwi_names_make(&r->log_list, "log", "name", names, count, &r->log_names);
    r->out->logs = r->logs;
    r->out->n_logs = count;
}
