/* inspections.c - what was measured on a deck that stands, season after season. */
#include "fields.h"

#include "bolewright/input.h"

#include "case.h"
#include "shape.h"

#include <math.h>

/* Lengths in [m]: the bounds of logs in case files. */
static const bwi_range girth_range = {0.09, 3.8, false};
static const bwi_range across_range = {0.03, 1.2, false};
static const bwi_range soft_range = {0.0, 0.3, false};
static const bwi_range shell_range = {0.0, 0.6, true};
static const bwi_range place_range = {0.0, 40.0, false};

enum { most_inspections = 200 };

typedef struct {
    bwi_json *doc;
    const bw_case *deck;
    bwi_names members; /* "post B left" */
    size_t n_members;
} reader;

static bool members_name(reader *r, const bwi_at *root)
{
    r->n_members = bw_deck_member_count(r->deck);
    const char **names = bwi_new(r->doc, r->n_members, sizeof *names);
    for (size_t i = 0; names != NULL && i < r->n_members; i++) {
        const bw_deck_member m = bw_deck_member_at(r->deck, i);
        names[i] = bwi_print(r->doc, "%s %s", m.role, m.name);
    }
    return names != NULL &&
           bwi_names_make(root, "member", "member", names, r->n_members, &r->members);
}

/* An answer is a share of the log as the case knows it. */
static void grade_read(const reader *r, const bwi_at *at, int member, bw_measurement *out)
{
    bw_log log = r->deck->logs[bw_deck_member_at(r->deck, (size_t)member).log];
    log.grade = (bw_eye_grade){0};
    bwi_case_grade(at, &log);
    out->grade = log.grade;
}

static void sizes_read(const bwi_at *at, bw_measurement *out)
{
    const bwi_at girth = bwi_key(at, "girth"), across = bwi_key(at, "diameter");
    const bwi_at soft = bwi_key(at, "soft"), shell = bwi_key(at, "shell");
    const bwi_at place = bwi_key(at, "at"), grade = bwi_key(at, "grade");
    bwi_measure(&girth, BW_LENGTH, girth_range, &out->girth);
    bwi_measure(&across, BW_LENGTH, across_range, &out->across);
    bwi_measure(&soft, BW_LENGTH, soft_range, &out->soft);
    bwi_measure(&shell, BW_LENGTH, shell_range, &out->shell);
    bwi_measure(&place, BW_LENGTH, place_range, &out->from_butt);
    if (girth.node != NULL && across.node != NULL) {
        bwi_error(&across, "key.both", NULL, "keep the one that was measured",
                  "stands beside \"girth\", which says the same");
    }
    BWI_ANY_OF(at, "girth", "diameter", "soft", "shell", "grade");
    if (girth.node == NULL && across.node == NULL && soft.node == NULL &&
        shell.node == NULL && grade.node == NULL) {
        bwi_error(at, "key.missing", NULL,
                  "\"girth\", \"diameter\", \"soft\" (how deep a probe goes in), "
                  "\"shell\" (sound wood round a hollow), or \"grade\"",
                  "nothing was measured on this member");
    }
}

/* The number of the member; -1 if it is not known. */
static int measurement_read(const reader *r, const bwi_at *at, bw_measurement *out)
{
    int member = -1;
    *out = (bw_measurement){.from_butt = -1.0, .path = bwi_pointer(at)};
    if (!BWI_OBJECT(at, "member", "girth", "diameter", "soft", "shell", "at", "grade",
                    "note")) {
        return -1;
    }
    const bwi_at name = bwi_need(at, "member"), note = bwi_key(at, "note");
    const char *unused = NULL;
    bwi_text(&note, &unused);
    sizes_read(at, out);
    if (bwi_reference(&name, &r->members, &member)) {
        out->member = (size_t)member;
        grade_read(r, at, member, out);
    }
    return member;
}

static void measurements_read(const reader *r, const bwi_at *list, bw_inspection *out)
{
    bwi_any_length(list);
    const size_t count = bwi_list(list, 1, r->n_members) ? bwi_count(list) : 0;
    bw_measurement *items = bwi_new(r->doc, count, sizeof *items);
    bool *seen = bwi_new(r->doc, r->n_members, sizeof *seen);
    bwi_at item = bwi_first(list);
    for (size_t i = 0; items != NULL && seen != NULL && i < count; i++, bwi_next(&item)) {
        const int member = measurement_read(r, &item, &items[i]);
        if (member >= 0 && seen[member]) {
            bwi_error(&item, "inspection.twice", NULL,
                      "keep the worse one; its place goes into \"at\"",
                      "the member was measured before on the same day");
        } else if (member >= 0) {
            seen[member] = true;
        }
    }
    out->items = items;
    out->n_items = items != NULL ? count : 0;
}

static bool date_read(const bwi_at *at, bw_date *out)
{
    const char *text = NULL;
    bwi_is_written(at, "^[0-9]{4}-[0-9]{2}-[0-9]{2}$");
    if (!bwi_text(at, &text)) {
        return false;
    }
    if (!bw_date_read(text, out)) {
        bwi_error(at, "value.date", "a day such as 2026-05-17", NULL, "found %s",
                  bwi_as_written(at));
        return false;
    }
    return true;
}

static bool inspection_read(const reader *r, const bwi_at *at, bw_inspection *out)
{
    *out = (bw_inspection){0};
    if (!BWI_OBJECT(at, "date", "by", "members")) {
        return false;
    }
    const bwi_at date = bwi_need(at, "date"), by = bwi_key(at, "by");
    const bwi_at members = bwi_need(at, "members");
    const char *unused = NULL;
    bwi_text(&by, &unused);
    measurements_read(r, &members, out);
    return date_read(&date, &out->date);
}

/* before: the day before which nothing may lie; -1: any. */
static long order_check(const bwi_at *at, bw_date date, long before)
{
    const long day = bw_date_day(date);
    if (day <= before) {
        const bwi_at place = bwi_key(at, "date");
        bwi_error(&place, "inspection.order", NULL,
                  "list the inspections from the first to the last, after the day on "
                  "which the deck was built",
                  "%s does not lie after the day before it", bwi_as_written(&place));
    }
    return day;
}

static void all_read(reader *r, const bwi_at *root, bw_inspections *out)
{
    if (!BWI_OBJECT(root, "format", "kind", "built", "inspections") ||
        !bwi_format(root, "inspections") || !members_name(r, root)) {
        return;
    }
    const bwi_at built = bwi_key(root, "built"), list = bwi_need(root, "inspections");
    out->has_built = date_read(&built, &out->built);
    const size_t count = bwi_list(&list, 1, most_inspections) ? bwi_count(&list) : 0;
    bw_inspection *items = bwi_new(r->doc, count, sizeof *items);
    long day = out->has_built ? bw_date_day(out->built) : -1;
    bwi_at item = bwi_first(&list);
    for (size_t i = 0; items != NULL && i < count; i++, bwi_next(&item)) {
        if (inspection_read(r, &item, &items[i])) {
            day = order_check(&item, items[i].date, day);
        }
    }
    out->items = items;
    out->n_items = items != NULL ? count : 0;
}

bw_status bwi_input_inspections(bw_arena *arena, const char *text, const bw_case *deck,
                                bw_inspections *out, bw_diags *d, bwi_shape *shape)
{
    bwi_json doc;
    *out = (bw_inspections){0};
    if (bwi_json_open(&doc, arena, text, d)) {
        doc.units = deck->units;
        doc.shape = shape;
        reader r = {.doc = &doc, .deck = deck};
        const bwi_at root = bwi_root(&doc);
        all_read(&r, &root, out);
    }
    return bwi_json_close(&doc);
}

bw_status bw_input_inspections(bw_arena *arena, const char *text, const bw_case *deck,
                               bw_inspections *out, bw_diags *d)
{
    return bwi_input_inspections(arena, text, deck, out, d, NULL);
}
