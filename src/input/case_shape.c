/* case_shape.c - what became of a log: diameters measured on the way, rot and wear,
 * flats, a hollow, notches. */
#include "case.h"

#include <math.h>

/* All lengths in [m]. Round bounds of judgement, far outside what people build with. */
static const bwi_range place_range = {0.0, 40.0, false};
static const bwi_range cut_range = {0.0, 0.6, true};
static const bwi_range loss_range = {0.0, 0.3, true};
static const bwi_range bow_range = {0.0, 2.0, false};
static const double thinnest_log = 0.03;

/* ---- stations ---- */

static bool station_read(const bwi_case_reader *r, const bwi_at *at, bw_station *out)
{
    *out = (bw_station){(double)NAN, (double)NAN};
    if (!BWI_OBJECT(at, "at", "girth", "diameter")) {
        return false;
    }
    const bwi_at place = bwi_need(at, "at");
    bwi_measure(&place, BW_LENGTH, place_range, &out->from_butt);
    BWI_ONE_OF(at, "girth", "diameter");
    bwi_case_size(r, at, "girth", "diameter", &out->diameter);
    return !isnan(out->from_butt) && !isnan(out->diameter);
}

static bool in_order(const bwi_at *at, const bw_station *before, const bw_station *now)
{
    const double least = 0.01; /* two girths taken nearer to each other are one */
    if (now->from_butt - before->from_butt >= least) {
        return true;
    }
    const bwi_at place = bwi_key(at, "at");
    bwi_error(&place, "log.station_order", NULL,
              "list them from the butt to the tip, each at its distance from the butt",
              "a station at %s does not lie beyond the one before it",
              bwi_as_written(&place));
    return false;
}

/* The stations must reach the tip, or nearly so: beyond the last one nobody has looked.
 */
static void ends_check(const bwi_case_reader *r, const bwi_at *log, const bw_log *out)
{
    const double gap = out->length - out->stations[out->n_stations - 1].from_butt;
    const double most = 0.6;
    const bwi_at at = bwi_key(log, "length");
    if (gap < 0.0) {
        bwi_error(&at, "log.station_beyond", NULL, NULL,
                  "the log is %s long, and its last station lies %s beyond",
                  bwi_as_written(&at), bwi_case_length(r, -gap));
    } else if (gap > most) {
        bwi_error(&at, "log.station_short",
                  bwi_print(r->doc, "at most %s from the last station to the tip",
                            bwi_case_length(r, most)),
                  "measure the log near its tip too",
                  "the log is %s long, and nothing was measured on its last %s",
                  bwi_as_written(&at), bwi_case_length(r, gap));
    }
}

static void stations_use(const bwi_case_reader *r, const bwi_at *log, bw_log *out,
                         const bw_station *stations, size_t count)
{
    out->stations = stations;
    out->n_stations = count;
    if (bwi_key(log, "length").node == NULL) {
        out->length = stations[count - 1].from_butt;
    } else if (out->length > 0.0) {
        ends_check(r, log, out);
    }
    out->butt_diameter = bw_log_diameter(out, out->length, 0.0);
    out->tip_diameter = bw_log_diameter(out, out->length, out->length);
}

bool bwi_case_stations(const bwi_case_reader *r, const bwi_at *log, bw_log *out)
{
    enum { MOST = 60 };
    const bwi_at list = bwi_key(log, "stations");
    if (list.node == NULL) {
        return false;
    }
    static const char *const ends[] = {"butt_girth", "butt_diameter", "tip_girth",
                                       "tip_diameter"};
    for (size_t k = 0; k < BWI_COUNT(ends); k++) {
        const bwi_at end = bwi_key(log, ends[k]);
        if (end.node != NULL) {
            bwi_key_error(&end, "key.both", NULL, "make it one of the stations",
                          "stands beside \"stations\", which say the same");
        }
    }
    if (!bwi_list(&list, 2, MOST)) {
        return true;
    }
    const size_t count = bwi_count(&list);
    bw_station *stations = bwi_new(r->doc, count, sizeof *stations);
    bool sound = stations != NULL;
    bwi_at item = bwi_first(&list);
    for (size_t k = 0; stations != NULL && k < count; k++, bwi_next(&item)) {
        sound = station_read(r, &item, &stations[k]) && sound;
        sound = sound && (k == 0 || in_order(&item, &stations[k - 1], &stations[k]));
    }
    if (sound) {
        stations_use(r, log, out, stations, count);
    }
    return true;
}

bool bwi_case_shrink(const bwi_case_reader *r, bw_log *log, double scale, double less)
{
    double thinnest = thinnest_log;
    if (!bw_log_shrink(r->doc->arena, log, scale, less, &thinnest)) {
        r->doc->out_of_memory = true;
    }
    return !(thinnest < thinnest_log);
}

/* ---- thickest and thinnest ---- */

typedef struct {
    double low, high; /* diameters; not a number if one is not known */
} span;

static span diameters(const bw_log *log)
{
    const double a = log->butt_diameter, b = log->tip_diameter;
    span s = {a < b ? a : b, a < b ? b : a};
    for (size_t k = 0; k < log->n_stations; k++) {
        s.low = fmin(s.low, log->stations[k].diameter);
        s.high = fmax(s.high, log->stations[k].diameter);
    }
    return isnan(a) || isnan(b) ? (span){(double)NAN, (double)NAN} : s;
}

/* ---- rot, flats, hollow ---- */

static void loss_read(const bwi_case_reader *r, const bwi_at *log, bw_log *out)
{
    const bwi_at at = bwi_key(log, "outer_loss");
    const bw_log before = *out;
    if (bwi_measure(&at, BW_LENGTH, loss_range, &out->outer_loss) &&
        !bwi_case_shrink(r, out, 1.0, 2.0 * out->outer_loss)) {
        *out = before;
        bwi_error(&at, "log.loss",
                  bwi_print(r->doc, "what leaves at least %s of sound wood",
                            bwi_case_thickness(r, thinnest_log)),
                  "the loss is that of one side", "%s lost on both sides leaves no log",
                  bwi_as_written(&at));
    }
}

static void flats_read(const bwi_case_reader *r, const bwi_at *log, bw_log *out)
{
    const bwi_at top = bwi_key(log, "flat_top"), bottom = bwi_key(log, "flat_bottom");
    const bwi_at half = bwi_key(log, "half");
    const double thinnest = diameters(out).low;
    bwi_measure(&top, BW_LENGTH, cut_range, &out->flat_top);
    bwi_measure(&bottom, BW_LENGTH, cut_range, &out->flat_bottom);
    bwi_flag(&half, &out->half);
    if (out->half && top.node != NULL) {
        bwi_key_error(&top, "log.half_flat", NULL,
                      "a half log lies flat side up: leave the flat out",
                      "a flat on top of half a log");
    }
    const double above = out->half ? thinnest / 2.0 : out->flat_top;
    if (above + out->flat_bottom > 0.75 * thinnest) {
        const bwi_at *at = bottom.node != NULL ? &bottom : &top;
        bwi_error(at, "log.flats",
                  bwi_print(r->doc, "what leaves at least %s, a quarter",
                            bwi_case_thickness(r, thinnest / 4.0)),
                  "measure the flat's depth from where the round log was",
                  "flats leave %s of a log of %s",
                  bwi_case_thickness(r, fmax(thinnest - above - out->flat_bottom, 0.0)),
                  bwi_case_thickness(r, thinnest));
    }
}

static void shell_read(const bwi_case_reader *r, const bwi_at *log, bw_log *out)
{
    const bwi_at at = bwi_key(log, "shell");
    const span d = diameters(out);
    const double flat = fmax(out->flat_top, out->flat_bottom);
    const double least = fmax(0.05 * d.high, flat);
    if (!bwi_measure(&at, BW_LENGTH, cut_range, &out->shell)) {
        return;
    }
    if (out->half) {
        bwi_error(&at, "log.half_hollow", NULL,
                  "a half log shows its heart: give what is sound of it as a thinner log",
                  "half a log with a shell round its heart");
    } else if (out->shell < least) {
        bwi_error(&at, "log.shell",
                  bwi_print(r->doc, "at least %s, %s", bwi_case_thickness(r, least),
                            least > flat ? "a twentieth of the diameter"
                                         : "as deep as the flat"),
                  "measure the thinnest sound wood from the bark side to the hollow",
                  "a shell of %s is no log any more", bwi_as_written(&at));
    } else if (2.0 * out->shell >= d.high) {
        bwi_warn(&at, "log.shell_solid", NULL,
                 "leave it out for a sound log, or measure the shell again",
                 "a shell of %s leaves no hollow in this log", bwi_as_written(&at));
    }
}

/* ---- notches ---- */

/* How deep a notch may go on its side at its place. */
static double deepest_notch(const bw_log *log, const bw_notch *n)
{
    const double d = log->length > 0.0 ? bw_log_diameter(log, log->length, n->from_butt)
                                       : diameters(log).low;
    const double half = log->half ? 0.75 * d / 2.0 : d / 2.0;
    const bool top = n->side == BW_SIDE_TOP;
    const double flat = top ? (log->half ? 0.0 : log->flat_top) : log->flat_bottom;
    const double most = half - flat;
    return log->shell > 0.0 ? fmin(most, log->shell - flat) : most;
}

static void notch_read(const bwi_case_reader *r, const bwi_at *at, const bw_log *log,
                       bw_notch *out)
{
    int side = 0;
    *out = (bw_notch){.from_butt = (double)NAN, .case_path = bwi_pointer(at)};
    if (!BWI_OBJECT(at, "at", "depth", "side")) {
        return;
    }
    const bwi_at place = bwi_need(at, "at"), depth = bwi_need(at, "depth");
    const bwi_at side_at = bwi_need(at, "side");
    const bool has_place = bwi_measure(&place, BW_LENGTH, place_range, &out->from_butt);
    const bool has_depth = bwi_measure(&depth, BW_LENGTH, cut_range, &out->depth);
    const bool has_side = BWI_WORD(&side_at, &side, "top", "bottom");
    out->side = side == 0 ? BW_SIDE_TOP : BW_SIDE_BOTTOM;
    if (has_place && log->length > 0.0 && out->from_butt > log->length) {
        bwi_error(&place, "log.notch_beyond",
                  bwi_print(r->doc, "at most %s", bwi_case_length(r, log->length)), NULL,
                  "a notch %s from the butt lies beyond the tip", bwi_as_written(&place));
    } else if (has_place && has_depth && has_side &&
               out->depth > deepest_notch(log, out)) {
        bwi_error(&depth, "log.notch_deep",
                  bwi_print(r->doc, "at most %s here",
                            bwi_case_thickness(r, fmax(deepest_notch(log, out), 0.0))),
                  "use a thicker log, or a shallower notch",
                  "a notch %s deep goes through the middle, or into the hollow, of the "
                  "log",
                  bwi_as_written(&depth));
    }
}

static void notches_read(const bwi_case_reader *r, const bwi_at *log, bw_log *out)
{
    enum { MOST = 40 };
    const bwi_at list = bwi_key(log, "notches");
    if (list.node == NULL || !bwi_list(&list, 1, MOST)) {
        return;
    }
    const size_t count = bwi_count(&list);
    bw_notch *notches = bwi_new(r->doc, count, sizeof *notches);
    bwi_at item = bwi_first(&list);
    for (size_t k = 0; notches != NULL && k < count; k++, bwi_next(&item)) {
        notch_read(r, &item, out, &notches[k]);
    }
    out->notches = notches;
    out->n_notches = notches != NULL ? count : 0;
}

void bwi_case_shape(const bwi_case_reader *r, const bwi_at *log, bw_log *out)
{
    const bwi_at sweep = bwi_key(log, "sweep");
    loss_read(r, log, out);
    flats_read(r, log, out);
    shell_read(r, log, out);
    bwi_measure(&sweep, BW_LENGTH, bow_range, &out->sweep);
    notches_read(r, log, out);
}
