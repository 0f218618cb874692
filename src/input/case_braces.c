/* case_braces.c - braces: a diagonal, a crossed pair, or a knee under a cap or stringer.
 */
#include "case.h"

#include <math.h>
#include <string.h>

static const bwi_range height_range = {0.02, 10.0, false}; /* [m] above ground */
static const bwi_range beside_range = {-3.0, 3.0, false}; /* [m] on the cap or stringer */

enum { diagonal, crossed, knee };

/* A post of the row must stand at the bent. */
static void post_check(const bwi_case_reader *r, const bwi_at *at,
                       const bw_brace_end *end)
{
    if (end->bent < 0 || end->row < 0) {
        return;
    }
    const bw_bent *bent = &r->bents[end->bent];
    for (size_t i = 0; i < bent->n_posts; i++) {
        if (bent->posts[i].row == end->row || bent->posts[i].row < 0) {
            return;
        }
    }
    bwi_error(at, "brace.post", NULL, "end the brace on a post",
              "no post of row \"%s\" stands at bent %s", r->rows[end->row].name,
              bent->name);
}

/* One end of a diagonal: the row is named (the bent is that of the brace), or the bent
 * (the row is). */
static void end_read(const bwi_case_reader *r, const bwi_at *at,
                     const bw_brace_end *shared, bw_brace_end *out)
{
    const bool sideways = shared->bent >= 0;
    *out = *shared;
    bwi_by_key(at, "row");
    if (sideways ? !BWI_OBJECT(at, "row", "height") : !BWI_OBJECT(at, "bent", "height")) {
        return;
    }
    const bwi_at which = bwi_need(at, sideways ? "row" : "bent");
    if (sideways) {
        bwi_reference(&which, &r->row_names, &out->row);
    } else {
        bwi_case_bent(r, &which, &out->bent);
    }
    const bwi_at height = bwi_need(at, "height");
    bwi_measure(&height, BW_LENGTH, height_range, &out->height);
    post_check(r, &which, out);
}

static void diagonal_read(const bwi_case_reader *r, const bwi_at *at, bw_brace *b)
{
    bw_brace_end shared = {.bent = -1, .row = -1, .height = (double)NAN};
    BWI_ONE_OF(at, "bent", "row");
    const bwi_at bent = bwi_key(at, "bent"), row = bwi_key(at, "row");
    if ((bent.node != NULL) == (row.node != NULL)) {
        bwi_error(at, "brace.plane", NULL,
                  "\"bent\" for a brace across the deck, \"row\" for one along it",
                  "a brace needs either the bent or the row that it lies in");
        return;
    }
    if (bent.node != NULL) {
        bwi_case_bent(r, &bent, &shared.bent);
    } else {
        bwi_reference(&row, &r->row_names, &shared.row);
    }
    if (shared.bent < 0 && shared.row < 0) {
        return;
    }
    const bwi_at from = bwi_need(at, "from"), to = bwi_need(at, "to");
    end_read(r, &from, &shared, &b->from);
    end_read(r, &to, &shared, &b->to);
    if (b->from.row == b->to.row && b->from.bent == b->to.bent && b->from.row >= 0) {
        bwi_error(&to, "brace.same", NULL, "end it on another post",
                  "the brace begins and ends on the same post");
    }
}

/* A knee under a stringer ends in the bay next to its post, and a stringer lies there. */
static void stringer_check(const bwi_case_reader *r, const bwi_at *at,
                           const bw_brace_end *end)
{
    if (end->bent < 0 || end->row < 0) {
        return;
    }
    const int bay = end->beside > 0.0 ? end->bent : end->bent - 1;
    const int next = end->beside > 0.0 ? end->bent + 1 : end->bent - 1;
    const bool inside = next >= 0 && (size_t)next < r->out->n_bents;
    bool found = false;
    for (size_t i = 0; i < r->out->n_stringers; i++) {
        const bw_stringer *s = &r->stringers[i];
        if (s->row < 0 || s->from < 0 || s->to < 0) {
            return; /* reported */
        }
        found = found || (s->row == end->row && s->from <= bay && bay < s->to);
    }
    const double room =
        inside ? fabs(r->bents[next].at - r->bents[end->bent].at) - 0.02 : 0.0;
    if (found && inside && !(fabs(end->beside) >= room)) {
        return;
    }
    bwi_error(at, "brace.stringer",
              found && inside
                  ? bwi_print(r->doc, "less than %s", bwi_case_length(r, room))
                  : NULL,
              "end it under a stringer, before the next bent",
              "the knee meets no stringer of row \"%s\" %s %s bent %s",
              r->rows[end->row].name, bwi_case_length(r, fabs(end->beside)),
              end->beside > 0.0 ? "past" : "before", r->bents[end->bent].name);
}

static void knee_read(const bwi_case_reader *r, const bwi_at *at, bw_brace *b)
{
    bw_brace_end end = {.bent = -1, .row = -1, .height = (double)NAN};
    const bwi_at bent = bwi_need(at, "bent"), row = bwi_need(at, "row");
    bwi_case_bent(r, &bent, &end.bent);
    bwi_reference(&row, &r->row_names, &end.row);
    const bwi_at height = bwi_need(at, "height");
    bwi_measure(&height, BW_LENGTH, height_range, &end.height);
    post_check(r, &row, &end);
    b->from = b->to = end;
    BWI_ONE_OF(at, "beside", "ahead");
    const bwi_at beside = bwi_key(at, "beside"), ahead = bwi_key(at, "ahead");
    if ((beside.node == NULL) == (ahead.node == NULL)) {
        bwi_error(at, "brace.plane", NULL,
                  "\"beside\" under the cap (to the right), \"ahead\" under the stringer "
                  "(forward along the deck)",
                  "a knee needs either how far beside or how far ahead of its post it "
                  "ends");
        return;
    }
    const bwi_at *reach = beside.node != NULL ? &beside : &ahead;
    b->to.on_cap = beside.node != NULL;
    b->to.on_stringer = !b->to.on_cap;
    if (b->to.on_cap && end.bent >= 0 &&
        (r->bents[end.bent].cap < 0 || r->bents[end.bent].is_sill)) {
        bwi_error(&bent, "brace.cap", NULL, "brace it with a diagonal",
                  "the bent %s has no cap for a knee to end under",
                  bwi_as_written(&bent));
    }
    if (bwi_measure(reach, BW_LENGTH, beside_range, &b->to.beside) &&
        fabs(b->to.beside) < 0.02) {
        bwi_error(reach, "brace.same", NULL, "end it further from the post",
                  "a knee that ends %s from its post", bwi_as_written(reach));
    } else if (b->to.on_stringer && b->to.beside != 0.0) {
        stringer_check(r, reach, &b->to);
    }
}

/* What has no meaning for a kind is refused: somebody meant something by it. */
static bool keys_check(const bwi_at *at)
{
    const bwi_at kind_at = bwi_key(at, "kind");
    const char *kind = cJSON_GetStringValue(kind_at.node);
    if (kind != NULL && strcmp(kind, "knee") == 0) {
        return BWI_OBJECT(at, "name", "kind", "log", "pulls", "bent", "row", "height",
                          "beside", "ahead");
    }
    if (kind != NULL && (strcmp(kind, "diagonal") == 0 || strcmp(kind, "crossed") == 0)) {
        return BWI_OBJECT(at, "name", "kind", "log", "pulls", "bent", "row", "from",
                          "to");
    }
    return BWI_OBJECT(at, "name", "kind", "log", "pulls", "bent", "row", "from", "to",
                      "height", "beside", "ahead");
}

/* Reads one entry; returns how many braces it makes: two for a crossed pair. */
static size_t brace_read(const bwi_case_reader *r, const bwi_at *at, bw_brace out[2])
{
    const bw_brace_end nowhere = {.bent = -1, .row = -1, .height = (double)NAN};
    bw_brace b = {
        .log = -1, .from = nowhere, .to = nowhere, .case_path = bwi_pointer(at)};
    int kind = diagonal;
    out[0] = b;
    bwi_by_word(at, "kind");
    if (!keys_check(at)) {
        return 1;
    }
    const bwi_at name = bwi_need(at, "name");
    bwi_name(&name, &b.name);
    const bwi_at kind_at = bwi_need(at, "kind");
    const bool known = BWI_WORD(&kind_at, &kind, "diagonal", "crossed", "knee");
    const bwi_at log = bwi_need(at, "log");
    bwi_reference(&log, &r->log_names, &b.log);
    const bwi_at pulls = bwi_key(at, "pulls");
    bwi_flag(&pulls, &b.pulls);
    if (known && kind == knee) {
        knee_read(r, at, &b);
    } else if (known) {
        diagonal_read(r, at, &b);
    }
    out[0] = b;
    if (kind != crossed || b.name == NULL) {
        return 1;
    }
    out[0].name = bwi_print(r->doc, "%s 1", b.name);
    out[1] = b;
    out[1].name = bwi_print(r->doc, "%s 2", b.name);
    out[1].from.height = b.to.height;
    out[1].to.height = b.from.height;
    return 2;
}

void bwi_case_braces(bwi_case_reader *r)
{
    const bwi_at list = bwi_key(&r->root, "braces");
    if (list.node == NULL) {
        return;
    }
    const size_t count = bwi_list(&list, 0, bwi_most_braces) ? bwi_count(&list) : 0;
    bw_brace *braces = bwi_new(r->doc, 2 * count, sizeof *braces);
    const char **names = bwi_new(r->doc, count, sizeof *names);
    if (braces == NULL || names == NULL || r->doc->out_of_memory) {
        return;
    }
    size_t n = 0;
    bwi_at item = bwi_first(&list);
    for (size_t i = 0; i < count; i++, bwi_next(&item)) {
        n += brace_read(r, &item, &braces[n]);
        const bwi_at name = bwi_key(&item, "name");
        names[i] = NULL;
        bwi_name(&name, &names[i]);
    }
    bwi_names_make(&list, "brace", "name", names, count, &r->brace_names);
    r->braces = braces;
    r->n_braces = n;
    r->out->braces = braces;
    r->out->n_braces = n;
}
