/* case_logs.c - logs as measured, brought under the bark. */
#include "case.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

static const bwi_range diameter_range = {0.03, 1.2, false}; /* [m] */
static const bwi_range bark_range = {0.0, 0.15, true};      /* [m] */
static const bwi_range length_range = {0.2, 40.0, false};   /* [m] */

/* A diameter above this is more often a girth written in the wrong place [m]: common
 * practice of the trade builds with logs of 0.15 to 0.4 m. */
static const double suspicious_diameter = 0.5;

/* Diameter under over diameter over bark where the species has none: the lowest of 36
 * species (black locust), from the volume equations of Westfall et al., GTR-WO-104
 * (2023): COMPUTED. */
static const double lowest_bark_ratio = 0.84;

/* One end of a log: the keys that may describe it. */
typedef struct {
    const char *girth, *diameter;
} end_keys;

static bwi_at end_read(const bwi_at *log, const end_keys *keys, double *diameter)
{
    const bwi_range girth_range = {pi * diameter_range.low, pi * diameter_range.high,
                                   false};
    const bwi_at girth = bwi_key(log, keys->girth);
    const bwi_at across = bwi_key(log, keys->diameter);
    double value = 0.0;
    if (girth.node != NULL && across.node != NULL) {
        bwi_error(&across, "key.both", NULL, "keep the one that was measured",
                  "stands beside \"%s\", which says the same", keys->girth);
    } else if (girth.node == NULL && across.node == NULL) {
        bwi_error(
            log, "key.missing", NULL,
            bwi_print(log->doc, "add \"%s\", or \"%s\"", keys->girth, keys->diameter),
            "neither \"%s\" nor \"%s\" is given", keys->girth, keys->diameter);
    } else if (girth.node != NULL) {
        if (bwi_measure(&girth, BW_LENGTH, girth_range, &value)) {
            *diameter = bw_diameter_from_girth(value);
        }
    } else if (bwi_measure(&across, BW_LENGTH, diameter_range, &value)) {
        *diameter = value;
        if (value > suspicious_diameter) {
            bwi_warn(&across, "log.thick", NULL,
                     bwi_print(log->doc, "is this a girth? then write it as \"%s\"",
                               keys->girth),
                     "a log of %s diameter is unusual", bwi_as_written(&across));
        }
    }
    return girth.node != NULL ? girth : across;
}

/* Takes the bark off one end; false if nothing sound remains. */
static bool bark_take(double *diameter, double thickness)
{
    const double under = *diameter - 2.0 * thickness;
    if (isnan(*diameter) || under >= diameter_range.low) {
        *diameter = under;
        return true;
    }
    return false;
}

static void bark_measured(const bwi_case_reader *r, const bwi_at *at, bw_log *log)
{
    double thickness = 0.0;
    if (!bwi_measure(at, BW_LENGTH, bark_range, &thickness)) {
        return;
    }
    if (!bark_take(&log->butt_diameter, thickness) ||
        !bark_take(&log->tip_diameter, thickness)) {
        bwi_error(at, "log.bark",
                  bwi_print(r->doc, "what leaves at least %s of wood under the bark",
                            bwi_case_thickness(r, diameter_range.low)),
                  "the thickness is that of one side",
                  "%s of bark on both sides leaves no log", bwi_as_written(at));
    }
}

/* The cautious guess for bark that nobody measured. */
static void bark_guessed(const bwi_at *at, bw_log *log)
{
    const bool known = log->species != NULL && log->species->bark_ratio.value > 0.0;
    const double ratio = known ? log->species->bark_ratio.value : lowest_bark_ratio;
    log->butt_diameter *= ratio;
    log->tip_diameter *= ratio;
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
        bark_guessed(&bark, log);
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

static void species_read(const bwi_case_reader *r, const bwi_at *log, bw_log *out)
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

static void log_read(const bwi_case_reader *r, const bwi_at *at, bw_log *log)
{
    static const end_keys butt = {"butt_girth", "butt_diameter"};
    static const end_keys tip = {"tip_girth", "tip_diameter"};
    *log = (bw_log){.butt_diameter = (double)NAN,
                    .tip_diameter = (double)NAN,
                    .case_path = bwi_pointer(at)};
    if (!BWI_OBJECT(at, "name", "species", butt.girth, butt.diameter, tip.girth,
                    tip.diameter, "bark", "bark_thickness", "length")) {
        return;
    }
    const bwi_at name = bwi_need(at, "name");
    bwi_name(&name, &log->name);
    species_read(r, at, log);
    end_read(at, &butt, &log->butt_diameter);
    const bwi_at tip_at = end_read(at, &tip, &log->tip_diameter);
    if (log->tip_diameter > log->butt_diameter) {
        bwi_warn(&tip_at, "log.tip", NULL, "are the two ends the wrong way round?",
                 "the tip, %s, is thicker than the butt: %s against %s in diameter",
                 bwi_as_written(&tip_at), bwi_case_thickness(r, log->tip_diameter),
                 bwi_case_thickness(r, log->butt_diameter));
    }
    bark_read(r, at, log);
    const bwi_at length = bwi_key(at, "length");
    bwi_measure(&length, BW_LENGTH, length_range, &log->length);
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
        log_read(r, &item, &r->logs[i]);
        names[i] = r->logs[i].name;
    }
    bwi_names_make(&r->log_list, "log", "name", names, count, &r->log_names);
    r->out->logs = r->logs;
    r->out->n_logs = count;
}
