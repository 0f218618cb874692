#include "deck.h"

#include "bolewright/input.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const double bwt_pi = 3.14159265358979323846;

double bwt_relative(double found, double wanted)
{
    return fabs(found / wanted - 1.0);
}

bwt_deck bwt_deck_plain(void)
{
    return (bwt_deck){.n_rows = 2,
                      .n_bents = 3,
                      .across = {-0.437, 0.437},
                      .at = {0.0, 2.713, 5.189},
                      .height = {0.93, 0.93, 0.93},
                      .foot = "hole",
                      .soil = "sand",
                      .hole_depth = 0.87,
                      .width = 1.13,
                      .board_pressure = 371.0,
                      .rider = 113.7,
                      .factor = 2.9,
                      .stringer = {"lodgepole pine", 0.217, 0.181, 0.0},
                      .cap = {"western larch", 0.221, 0.221, 0.0},
                      .post = {"western redcedar", 0.236, 0.214, 0.0}};
}

/* splitmix64 (Steele, Lea & Flood, 2014; MEMORY): the same numbers on every machine. */
static uint64_t next(uint64_t *random)
{
    uint64_t z = (*random += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

double bwt_uniform(uint64_t *random, double low, double high)
{
    return low + (high - low) * (double)(next(random) >> 11) / 9007199254740992.0;
}

int bwt_below(uint64_t *random, int n)
{
    return (int)(next(random) % (uint64_t)n);
}

static bwt_log random_log(uint64_t *random, double low, double high)
{
    static const char *const species[] = {"lodgepole pine", "douglas-fir", "red alder",
                                          "western redcedar", "unknown softwood"};
    const double butt = bwt_uniform(random, low, high);
    return (bwt_log){species[bwt_below(random, 5)], butt,
                     butt * bwt_uniform(random, 0.72, 1.0), 0.0};
}

bwt_deck bwt_deck_random(uint64_t *random)
{
    bwt_deck d = bwt_deck_plain();
    d.n_rows = 2 + bwt_below(random, 3);
    d.n_bents = 2 + bwt_below(random, 3);
    const double gap = bwt_uniform(random, 0.31, 0.62);
    const bool level = bwt_below(random, 2) == 0;
    for (int r = 0; r < d.n_rows; r++) {
        d.across[r] = gap * (r - (d.n_rows - 1) / 2.0);
        d.run[r] = 1 + bwt_below(random, 3);
    }
    d.width = gap * (d.n_rows - 1) + bwt_uniform(random, 0.05, 0.5);
    for (int b = 0; b < d.n_bents; b++) {
        d.at[b] = b == 0 ? -1.7 : d.at[b - 1] + bwt_uniform(random, 1.3, 3.4);
        d.height[b] = level && b > 0 ? d.height[0] : bwt_uniform(random, 0.95, 1.6);
    }
    for (int b = 0; b < d.n_bents; b++) { /* caps that span, with posts at their ends */
        for (int r = 1; r + 1 < d.n_rows; r++) {
            d.no_post[b][r] = bwt_below(random, 3) == 0;
        }
    }
    d.sill[0] = bwt_below(random, 2) == 0;
    d.butt_last = bwt_below(random, 2) == 0;
    d.hole_depth = bwt_uniform(random, 0.6, 1.2);
    d.soil = bwt_below(random, 2) == 0 ? "clay" : "gravel";
    d.rider = bwt_uniform(random, 60.0, 140.0);
    d.factor = bwt_uniform(random, 1.2, 3.8);
    d.crowd = bwt_below(random, 2) == 0 ? 0.0 : bwt_uniform(random, 800.0, 4000.0);
    if (bwt_below(random, 2) == 0) {
        d.push = bwt_uniform(random, 0.1, 0.7);
        d.sway = bwt_uniform(random, 100.0, 700.0);
        d.lean = 0.02;
    }
    d.stringer = random_log(random, 0.11, 0.26);
    d.cap = random_log(random, 0.14, 0.26);
    d.post = random_log(random, 0.16, 0.27);
    return d;
}

/* ---- writing ---- */

static void write_flaws(bw_text *t, const bwt_flaws *f)
{
    if (f->shell > 0.0) {
        bw_text_print(t, ", \"shell\": \"%.17g m\"", f->shell);
    }
    if (f->outer_loss > 0.0) {
        bw_text_print(t, ", \"outer_loss\": \"%.17g m\"", f->outer_loss);
    }
    if (f->notch_depth > 0.0) {
        bw_text_print(t,
                      ", \"notches\": [{\"at\": \"%.17g m\", \"depth\": \"%.17g m\", "
                      "\"side\": \"%s\"}]",
                      f->notch_at, f->notch_depth, f->notch_below ? "bottom" : "top");
    }
}

static void write_log(bw_text *t, const char *name, const bwt_log *log,
                      const bwt_flaws *flaws, const char *keys)
{
    bw_text_print(t,
                  "{\"name\": \"%s\", \"species\": \"%s\", \"bark\": \"off\", "
                  "\"butt_diameter\": \"%.17g m\", \"tip_diameter\": \"%.17g m\"",
                  name, log->species, log->butt, log->tip);
    if (log->length > 0.0) {
        bw_text_print(t, ", \"length\": \"%.17g m\"", log->length);
    }
    write_flaws(t, flaws);
    bw_text_print(t, "%s%s}", keys != NULL ? ", " : "", keys != NULL ? keys : "");
}

static bool lies_on_sills(const bwt_deck *d)
{
    bool any = false;
    for (int b = 0; b < d->n_bents; b++) {
        any = any || d->sill[b];
    }
    return any;
}

/* A cap that goes on beyond its rows, or the deck would turn over on it. */
static void write_sill(bw_text *t, const bwt_deck *d)
{
    bwt_log sill = d->cap;
    sill.butt = fmax(sill.butt, d->sill_least);
    sill.tip = fmax(sill.tip, d->sill_least);
    sill.length = d->across[d->n_rows - 1] - d->across[0] + 1.37;
    write_log(t, "sill", &sill, &d->cap_flaws, d->cap_keys);
}

static void write_posts(bw_text *t, const bwt_deck *d, int bent)
{
    const char *comma = "";
    bw_text_print(t, "%s\"posts\": [", d->no_cap ? "" : "\"cap\": \"cap\", ");
    for (int r = 0; r < d->n_rows; r++) {
        if (d->no_post[bent][r]) {
            continue;
        }
        bw_text_print(t, "%s{\"row\": \"r%d\", \"log\": \"post\", \"foot\": \"%s\"",
                      comma, r, d->foot);
        if (d->tip_down) {
            bw_text_add(t, ", \"tip_down\": true");
        }
        if (strcmp(d->foot, "hole") == 0) {
            bw_text_print(t, ", \"hole_depth\": \"%.17g m\", \"soil\": \"%s\"",
                          d->hole_depth, d->soil);
        }
        bw_text_add(t, "}");
        comma = ", ";
    }
    bw_text_add(t, "]");
}

static void write_bents(bw_text *t, const bwt_deck *d)
{
    bw_text_add(t, "\"bents\": [");
    for (int b = 0; b < d->n_bents; b++) {
        bw_text_print(t,
                      "%s{\"name\": \"b%d\", \"at\": \"%.17g m\", \"deck_height\": "
                      "\"%.17g m\", ",
                      b > 0 ? ", " : "", b, d->at[b], d->height[b]);
        if (d->sill[b]) {
            bw_text_add(t, "\"sill\": \"sill\"");
        } else {
            write_posts(t, d, b);
        }
        bw_text_add(t, "}");
    }
    bw_text_add(t, "], ");
}

static void write_stringers(bw_text *t, const bwt_deck *d)
{
    const char *comma = "";
    bw_text_add(t, "\"stringers\": [");
    for (int r = 0; r < d->n_rows; r++) {
        const int run = d->run[r] > 0 ? d->run[r] : 1;
        for (int from = 0; from < d->n_bents - 1; from += run) {
            const int to = from + run < d->n_bents ? from + run : d->n_bents - 1;
            bw_text_print(t,
                          "%s{\"name\": \"r%d-%d\", \"row\": \"r%d\", \"log\": "
                          "\"stringer\", \"from\": \"b%d\", \"to\": \"b%d\", "
                          "\"butt_at\": \"b%d\"}",
                          comma, r, from, r, from, to, d->butt_last ? to : from);
            comma = ", ";
        }
    }
    bw_text_add(t, "], ");
}

static void write_knees(bw_text *t, const bwt_deck *d)
{
    bw_text_add(t, "\"braces\": [");
    for (int k = 0; k < d->n_knees; k++) {
        const bwt_knee *b = &d->knee[k];
        bw_text_print(t,
                      "%s{\"name\": \"k%d\", \"kind\": \"knee\", \"log\": \"brace\", "
                      "\"bent\": \"b%d\", \"row\": \"r%d\", \"height\": \"%.17g m\", "
                      "\"ahead\": \"%.17g m\", \"pulls\": %s}",
                      k > 0 ? ", " : "", k, b->bent, b->row, b->height, b->ahead,
                      b->pulls ? "true" : "false");
    }
    bw_text_add(t, "], ");
}

static void write_loads(bw_text *t, const bwt_deck *d)
{
    bw_text_add(t, "\"loads\": {");
    if (d->rider > 0.0 && d->ride != NULL) {
        bw_text_print(t, "\"rider\": {\"mass\": \"%.17g kg\", %s}", d->rider, d->ride);
    } else if (d->rider > 0.0) {
        bw_text_print(t,
                      "\"rider\": {\"mass\": \"%.17g kg\", \"factor\": %.17g, "
                      "\"push\": %.17g}",
                      d->rider, d->factor, d->push);
    } else {
        bw_text_add(t, "\"rider\": null");
    }
    const double value[] = {d->crowd, d->snow, d->extra};
    static const char *const key[] = {"crowd", "snow", "extra_dead"};
    for (int k = 0; k < 3; k++) {
        if (value[k] > 0.0) {
            bw_text_print(t, ", \"%s\": \"%.17g Pa\"", key[k], value[k]);
        }
    }
    bw_text_print(t, "%s%s", d->loads != NULL ? ", " : "",
                  d->loads != NULL ? d->loads : "");
    bw_text_print(t, ", \"people_sway\": \"%.17g Pa\", \"lean\": \"%.17g %%\"}}\n",
                  d->sway, 100.0 * d->lean);
}

static void write_head(bw_text *t, const bwt_deck *d)
{
    bw_text_add(t, "{\"format\": 1, \"title\": \"test\", \"units\": \"metric\", ");
    if (d->basis != NULL) {
        bw_text_print(t, "\"basis\": \"%s\", ", d->basis);
    }
    if (d->seat > 0.0) {
        bw_text_print(t, "\"limits\": {\"seat_depth\": \"%.17g m\"}, ", d->seat);
    }
    bw_text_print(
        t,
        "\"deck\": {\"width\": \"%.17g m\", %s, \"board_weight\": \"%.17g Pa\"}, "
        "\"logs\": [",
        d->width, d->boards != NULL ? d->boards : "\"board_thickness\": \"0.0381 m\"",
        d->board_pressure);
}

const char *bwt_deck_text(const bwt_deck *d, bw_arena *arena)
{
    bw_text t = bw_text_new(arena);
    write_head(&t, d);
    write_log(&t, "stringer", &d->stringer, &d->stringer_flaws, d->stringer_keys);
    bw_text_add(&t, ", ");
    write_log(&t, "cap", &d->cap, &d->cap_flaws, d->cap_keys);
    bw_text_add(&t, ", ");
    write_log(&t, "post", &d->post, &d->post_flaws, d->post_keys);
    if (d->n_knees > 0) {
        bw_text_add(&t, ", ");
        write_log(&t, "brace", &d->brace, &(bwt_flaws){.shell = 0.0}, NULL);
    }
    if (lies_on_sills(d)) {
        bw_text_add(&t, ", ");
        write_sill(&t, d);
    }
    bw_text_add(&t, "], \"rows\": [");
    for (int r = 0; r < d->n_rows; r++) {
        bw_text_print(&t, "%s{\"name\": \"r%d\", \"across\": \"%.17g m\"}",
                      r > 0 ? ", " : "", r, d->across[r]);
    }
    bw_text_add(&t, "], ");
    write_bents(&t, d);
    write_stringers(&t, d);
    if (d->n_knees > 0) {
        write_knees(&t, d);
    }
    if (d->soil != NULL) {
        bw_text_print(&t, "\"ground\": {\"soil\": \"%s\"}, ", d->soil);
    }
    write_loads(&t, d);
    return bw_text_string(&t);
}

/* ---- reading and assessing ---- */

static const char *faults_text(const bw_diags *d, bw_arena *arena)
{
    bw_text t = bw_text_new(arena);
    bw_diags_print(d, &t);
    return bw_text_string(&t);
}

static bw_case *read_case(const char *text, bw_arena *arena, bw_diags *d)
{
    bw_species_table *table = BW_NEW(arena, bw_species_table, 1);
    bw_case *out = BW_NEW(arena, bw_case, 1);
    if (table == NULL || out == NULL || text == NULL ||
        bw_input_species(arena, NULL, table, d) != BW_OK ||
        bw_input_case(arena, text, table, out, d) != BW_OK) {
        return NULL;
    }
    return out;
}

bw_status bwt_case_read(const char *name, bw_arena *arena, bw_case *out)
{
    bw_diags d = bw_diags_new(arena, name);
    const char *path = bw_arena_print(arena, "%s/cases/%s", BW_SOURCE_DIR, name);
    const char *text = NULL;
    if (path == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(bw_input_read_file(arena, path, &text, &d));
    const bw_case *read = read_case(text, arena, &d);
    if (read == NULL) {
        return BW_E_INPUT;
    }
    *out = *read;
    return BW_OK;
}

const bw_case *bwt_deck_read(const bwt_deck *deck, bw_arena *arena)
{
    bw_diags d = bw_diags_new(arena, "test");
    const bw_case *out = read_case(bwt_deck_text(deck, arena), arena, &d);
    if (out == NULL) {
        const char *faults = faults_text(&d, arena);
        fprintf(stderr, "%s", faults != NULL ? faults : "no memory\n");
    }
    return out;
}

bw_case *bwt_deck_joined(const bwt_deck *deck, bw_arena *arena,
                         const bw_joint_place *joints, size_t n)
{
    bw_case *out = BW_NEW(arena, bw_case, 1);
    const bw_case *read = bwt_deck_read(deck, arena);
    if (out == NULL || read == NULL) {
        return NULL;
    }
    *out = *read;
    out->joints = joints;
    out->n_joints = n;
    return out;
}

bw_fasteners bwt_lags(double end)
{
    return (bw_fasteners){.kind = BW_FASTENER_LAG,
                          .count = 2,
                          .rows = 1,
                          .planes = 1,
                          .diameter = 0.0127,
                          .length = 0.33,
                          .head = 0.047,
                          .end = end,
                          .edge = 0.069,
                          .loaded_edge = 0.071,
                          .spacing = 0.061};
}

bw_status bwt_deck_assess(const bwt_deck *deck, bw_arena *arena, bw_assessment *out,
                          const char **faults)
{
    return bwt_text_assess(bwt_deck_text(deck, arena), arena, out, faults);
}

bw_status bwt_text_assess(const char *deck, bw_arena *arena, bw_assessment *out,
                          const char **faults)
{
    bw_diags d = bw_diags_new(arena, "test");
    const bw_case *the_case = read_case(deck, arena, &d);
    const bw_status status =
        the_case != NULL ? bw_deck_assess(arena, the_case, out, &d) : BW_E_INPUT;
    const char *text = faults_text(&d, arena);
    if (faults != NULL) {
        *faults = text;
    } else if (status != BW_OK) {
        fprintf(stderr, "%s", text != NULL ? text : "no memory\n");
    }
    return status;
}

const bw_finding *bwt_finding(const bw_assessment *a, const char *role, const char *name,
                              bw_check_kind kind)
{
    for (size_t k = 0; k < a->n_members; k++) {
        const bw_member_result *m = &a->members[k];
        if (strcmp(m->role, role) == 0 && strcmp(m->name, name) == 0) {
            return m->has[kind] ? &m->findings[kind] : NULL;
        }
    }
    return NULL;
}

bool bwt_compare_findings(const bw_assessment *a, const bw_assessment *b,
                          void (*compare)(const bw_finding *, const bw_finding *))
{
    bool same = a->n_members == b->n_members;
    for (size_t k = 0; same && k < a->n_members; k++) {
        const bw_member_result *m = &a->members[k], *n = &b->members[k];
        for (int kind = 0; same && kind < BW_CHECK_KIND_COUNT; kind++) {
            same = m->has[kind] == n->has[kind];
            if (same && m->has[kind]) {
                compare(&m->findings[kind], &n->findings[kind]);
            }
        }
    }
    return same;
}

const char *bwt_to_do(const bw_assessment *a, const char *words)
{
    for (size_t k = 0; k < a->n_assumptions; k++) {
        const bw_assumption *line = &a->assumptions[k];
        if (line->to_do && strncmp(line->text, words, strlen(words)) == 0) {
            return line->text;
        }
    }
    return NULL;
}

double bwt_governing(const bw_assessment *a)
{
    return a->governing != NULL ? a->governing->ratio.utilisation : (double)NAN;
}

double bwt_term(const bw_finding *f, const char *symbol)
{
    for (size_t k = 0; f != NULL && k < f->working.count; k++) {
        if (strcmp(f->working.items[k].symbol, symbol) == 0) {
            return f->working.items[k].value;
        }
    }
    return (double)NAN;
}
