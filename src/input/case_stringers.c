/* case_stringers.c - stringers between bents. */
#include "case.h"

#include <math.h>
#include <stdlib.h>

/* Lengths that differ by less are the same [m]; what is written in sixteenths of an inch
 * is coarser by far. */
static const double same_length = 1e-6;

bool bwi_case_bent(const bwi_case_reader *r, const bwi_at *at, int *out)
{
    int item = -1;
    if (!bwi_reference(at, &r->bent_names, &item)) {
        return false;
    }
    *out = (int)r->bent_rank[item];
    return true;
}

/* A bent without cap or sill carries stringers only on its posts. */
static void bearing_check(const bwi_case_reader *r, const bwi_at *at, int row, int bent)
{
    if (row < 0 || bent < 0 || r->bents[bent].cap >= 0 || r->bents[bent].n_posts == 0) {
        return;
    }
    for (size_t i = 0; i < r->bents[bent].n_posts; i++) {
        if (r->bents[bent].posts[i].row == row || r->bents[bent].posts[i].row < 0) {
            return;
        }
    }
    bwi_error(at, "stringer.bearing", NULL,
              "add a cap to the bent, or a post in this row",
              "the bent %s has neither a cap nor a post in the row \"%s\"",
              bwi_as_written(at), r->rows[row].name);
}

static void length_check(const bwi_case_reader *r, const bwi_at *log_at,
                         const bw_stringer *s)
{
    if (s->log < 0 || s->from < 0 || s->to < 0) {
        return;
    }
    const double span = fabs(r->bents[s->to].at - r->bents[s->from].at);
    const double length = r->logs[s->log].length;
    if (length > 0.0 && length < span - same_length) {
        bwi_error(log_at, "stringer.short",
                  bwi_print(r->doc, "at least %s", bwi_case_length(r, span)),
                  "set the bents closer, or use a longer log",
                  "the log %s is %s long and the bents are %s apart",
                  bwi_as_written(log_at), bwi_case_length(r, length),
                  bwi_case_length(r, span));
    }
}

/* A log of no stated length is as long as its place, which no tree may reach. */
static void reach_check(const bwi_case_reader *r, const bwi_at *to, const bw_stringer *s)
{
    if (s->from < 0 || s->to < 0) {
        return;
    }
    const double span = fabs(r->bents[s->to].at - r->bents[s->from].at);
    const int bays = abs(s->to - s->from);
    if (span > bwi_longest_log + same_length) {
        bwi_error(to, "stringer.long",
                  bwi_print(r->doc, "at most %s", bwi_case_length(r, bwi_longest_log)),
                  "end it at a nearer bent, and begin the next log there",
                  "no log reaches over %s", bwi_case_length(r, span));
    } else if (bays > bwi_most_run) {
        bwi_error(to, "stringer.bays",
                  bwi_print(r->doc, "at most %d bays, because the work grows fast",
                            (int)bwi_most_run),
                  "end it at a nearer bent, and begin the next log there",
                  "the stringer runs over %d bays", bays);
    }
}

static void butt_read(const bwi_case_reader *r, const bwi_at *at, bw_stringer *s)
{
    int butt = -1;
    const bwi_at butt_at = bwi_key(at, "butt_at");
    if (!bwi_case_bent(r, &butt_at, &butt) || s->from < 0 || s->to < 0) {
        return;
    }
    s->butt_at_to = butt == s->to;
    if (butt != s->from && butt != s->to) {
        bwi_error(
            &butt_at, "stringer.butt",
            bwi_print(r->doc, "%s, %s", r->bents[s->from].name, r->bents[s->to].name),
            NULL, "the stringer does not end at %s", bwi_as_written(&butt_at));
    }
}

/* The file may name the bents in either order; from here on they ascend. */
static void turn_along_deck(bw_stringer *s)
{
    if (s->from > s->to && s->to >= 0) {
        const int from = s->from;
        s->from = s->to;
        s->to = from;
        s->butt_at_to = !s->butt_at_to;
    }
}

static void name_read(const bwi_case_reader *r, const bwi_at *at, bw_stringer *s)
{
    const bwi_at name = bwi_key(at, "name");
    if (name.node != NULL) {
        bwi_name(&name, &s->name);
    } else if (s->row >= 0 && s->from >= 0 && s->to >= 0) {
        s->name = bwi_print(r->doc, "%s %s-%s", r->rows[s->row].name,
                            r->bents[s->from].name, r->bents[s->to].name);
    }
}

static void stringer_read(const bwi_case_reader *r, const bwi_at *at, bw_stringer *s)
{
    *s = (bw_stringer){
        .row = -1, .log = -1, .from = -1, .to = -1, .case_path = bwi_pointer(at)};
    if (!BWI_OBJECT(at, "name", "row", "log", "from", "to", "butt_at")) {
        return;
    }
    const bwi_at row = bwi_need(at, "row");
    bwi_reference(&row, &r->row_names, &s->row);
    const bwi_at log = bwi_need(at, "log");
    bwi_reference(&log, &r->log_names, &s->log);
    const bwi_at from = bwi_need(at, "from");
    bwi_case_bent(r, &from, &s->from);
    const bwi_at to = bwi_need(at, "to");
    bwi_case_bent(r, &to, &s->to);
    name_read(r, at, s);
    if (s->from >= 0 && s->from == s->to) {
        bwi_error(&to, "stringer.span", NULL, "name the bent at its other end",
                  "the stringer begins and ends at %s", bwi_as_written(&to));
        return;
    }
    bearing_check(r, &from, s->row, s->from);
    bearing_check(r, &to, s->row, s->to);
    length_check(r, &log, s);
    reach_check(r, &to, s);
    butt_read(r, at, s);
    turn_along_deck(s);
}

void bwi_case_stringers(bwi_case_reader *r)
{
    r->stringer_list = bwi_need(&r->root, "stringers");
    const bwi_at *list = &r->stringer_list;
    const size_t count = bwi_list(list, 1, bwi_most_stringers) ? bwi_count(list) : 0;
    r->stringers = bwi_new(r->doc, count, sizeof *r->stringers);
    const char **names = bwi_new(r->doc, count, sizeof *names);
    if (r->stringers == NULL || names == NULL || r->doc->out_of_memory) {
        return;
    }
    bwi_at item = bwi_first(list);
    for (size_t i = 0; i < count; i++, bwi_next(&item)) {
        stringer_read(r, &item, &r->stringers[i]);
        names[i] = r->stringers[i].name;
    }
    bwi_names_make(list, "stringer", "name", names, count, &r->stringer_names);
    r->out->stringers = r->stringers;
    r->out->n_stringers = count;
}
