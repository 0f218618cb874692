/* sketch.c - each row seen from its side, in characters: to scale as far as characters
 * go, one line being as high as two columns are wide. Only the names of bents and logs
 * are those of the case; all else is ASCII, whatever the terminal. */
#include "internal.h"

#include <math.h>
#include <string.h>

enum {
    COLUMNS = 79,
    MARGIN = 10,   /* words before the lines of percentages */
    END = 4,       /* columns kept free at the right for a last label */
    HIGHEST = 24,  /* lines */
    TALL = 18,     /* lines that heights and holes may take */
    STRIPS_MAX = 3 /* more than these: only the strip with the worst place is drawn */
};

typedef struct {
    const bw_assessment *a;
    size_t row, first, last; /* bents drawn */
    double column, line;     /* [m] wide and high */
    int ground, n_lines;     /* number of the ground's line; lines in all */
    char cells[HIGHEST][COLUMNS + 1];
} sketch;

/* ---- places ---- */

static const bw_bent *bent_of(const sketch *s, size_t bent)
{
    return &s->a->deck->bents[bent];
}

static int column_of(const sketch *s, double at)
{
    return MARGIN + (int)lround((at - bent_of(s, s->first)->at) / s->column);
}

/* Lines above the ground's; what is above the ground is never drawn in it. */
static int lines_up(const sketch *s, double height)
{
    const int n = (int)lround(height / s->line);
    return height > 0.0 && n < 1 ? 1 : height < 0.0 && n > -1 ? -1 : n;
}

static void put(sketch *s, int column, int up, char sign)
{
    const int line = s->ground - up;
    if (line >= 0 && line < s->n_lines && column >= 0 && column < COLUMNS) {
        s->cells[line][column] = sign;
    }
}

static double deck_height(const sketch *s, size_t bay, double t)
{
    const bw_bent *a = bent_of(s, bay), *b = bent_of(s, bay + 1);
    return a->deck_height + t * (b->deck_height - a->deck_height);
}

static const bw_stringer *stringer_at(const sketch *s, size_t bay, size_t *number)
{
    const bw_case *deck = s->a->deck;
    for (size_t k = 0; k < deck->n_stringers; k++) {
        const bw_stringer *x = &deck->stringers[k];
        if ((size_t)x->row == s->row && (size_t)x->from <= bay && bay < (size_t)x->to) {
            *number = k;
            return x;
        }
    }
    return NULL;
}

static const bw_post *post_at(const sketch *s, size_t bent)
{
    const bw_bent *b = bent_of(s, bent);
    for (size_t k = 0; k < b->n_posts; k++) {
        if ((size_t)b->posts[k].row == s->row) {
            return &b->posts[k];
        }
    }
    return NULL;
}

static bool meets_bent(const sketch *s, size_t bent)
{
    size_t unused;
    return post_at(s, bent) != NULL ||
           (bent > 0 && stringer_at(s, bent - 1, &unused) != NULL) ||
           (bent + 1 < s->a->deck->n_bents && stringer_at(s, bent, &unused) != NULL);
}

/* ---- what is drawn ---- */

/* A piece so many metres wide around a column: at least one sign. */
static void put_across(sketch *s, double at, double width, int up, char sign)
{
    const int n = (int)fmax(1.0, round(width / s->column));
    const int from = column_of(s, at) - (n - 1) / 2;
    for (int k = 0; k < n; k++) {
        put(s, from + k, up, sign);
    }
}

static void draw_foot(sketch *s, size_t bent, const bw_post *post)
{
    const double at = bent_of(s, bent)->at;
    const double thick = s->a->deck->logs[post->log].butt_diameter;
    const double hole =
        post->hole_width > 0.0 ? post->hole_width : thick + 2.0 * s->column;
    const int foot = post->foot == BW_FOOT_HOLE ? lines_up(s, -post->hole_depth) : 0;
    for (int up = -1; up >= foot; up--) {
        put_across(s, at, fmax(hole, thick + 2.0 * s->column), up, ':');
        put_across(s, at, thick, up, '|');
    }
    if (post->pad_area > 0.0 || post->foot == BW_FOOT_FIXED) {
        put_across(s, at, fmax(sqrt(post->pad_area), thick), foot - 1, '#');
    }
}

static void draw_bent(sketch *s, size_t bent)
{
    const bw_case *deck = s->a->deck;
    const bw_bent *b = bent_of(s, bent);
    const bw_post *post = post_at(s, bent);
    const int top = lines_up(s, b->deck_height);
    if (post != NULL) {
        draw_foot(s, bent, post);
        for (int up = 0; up < top; up++) {
            put_across(s, b->at, deck->logs[post->log].tip_diameter, up, '|');
        }
    }
    if (b->cap >= 0 && meets_bent(s, bent)) {
        put_across(s, b->at, deck->logs[b->cap].butt_diameter,
                   b->is_sill || top < 2 ? (top < 2 ? 0 : 1) : top - 1, 'O');
    }
}

static void draw_stringers(sketch *s)
{
    for (size_t bay = s->first; bay < s->last; bay++) {
        size_t number = 0, before = 0;
        const bw_stringer *x = stringer_at(s, bay, &number);
        const int from = column_of(s, bent_of(s, bay)->at);
        const int to = column_of(s, bent_of(s, bay + 1)->at);
        for (int c = from; x != NULL && c <= to; c++) {
            const double t = to > from ? (double)(c - from) / (to - from) : 0.0;
            const bool joint = c == from && bay > 0 && stringer_at(s, bay - 1, &before) &&
                               before != number;
            put(s, c, lines_up(s, deck_height(s, bay, t)), joint ? '+' : '=');
        }
    }
}

static double end_height(const sketch *s, const bw_brace_end *end)
{
    return end->on_cap || end->on_stringer ? bent_of(s, (size_t)end->bent)->deck_height
                                           : end->height;
}

static double end_at(const sketch *s, const bw_brace_end *end)
{
    return bent_of(s, (size_t)end->bent)->at + (end->on_stringer ? end->beside : 0.0);
}

/* It lies in the row, and in the bays that are drawn. */
static bool brace_is_here(const sketch *s, const bw_brace *b)
{
    const double from = end_at(s, &b->from), to = end_at(s, &b->to);
    return from != to && (size_t)b->from.row == s->row &&
           (b->to.on_stringer || b->from.bent != b->to.bent) &&
           fmin(from, to) >= bent_of(s, s->first)->at &&
           fmax(from, to) <= bent_of(s, s->last)->at;
}

static void draw_brace(sketch *s, const bw_brace *b)
{
    const int from = column_of(s, end_at(s, &b->from));
    const int to = column_of(s, end_at(s, &b->to));
    const double low = end_height(s, &b->from), high = end_height(s, &b->to);
    const char sign = (high > low) == (to > from) ? '/' : '\\';
    const int step = to > from ? 1 : -1;
    for (int c = from + step; c != to && from != to; c += step) {
        const double t = (double)(c - from) / (to - from);
        put(s, c, lines_up(s, low + t * (high - low)), sign);
    }
}

static void draw(sketch *s)
{
    memset(s->cells, ' ', sizeof s->cells);
    const int end = column_of(s, bent_of(s, s->last)->at) + 2;
    for (int c = MARGIN - 3; c <= end; c++) {
        put(s, c, 0, '~');
    }
    for (size_t k = 0; k < s->a->deck->n_braces; k++) {
        if (brace_is_here(s, &s->a->deck->braces[k])) {
            draw_brace(s, &s->a->deck->braces[k]);
        }
    }
    for (size_t bent = s->first; bent <= s->last; bent++) {
        draw_bent(s, bent);
    }
    draw_stringers(s);
}

static void print_cells(const sketch *s, bw_text *out)
{
    for (int k = 0; k < s->n_lines; k++) {
        size_t length = COLUMNS;
        while (length > 0 && s->cells[k][length - 1] == ' ') {
            length--;
        }
        if (length > 0) {
            bw_text_add_bytes(out, s->cells[k], length);
            bw_text_add(out, "\n");
        }
    }
}

/* ---- lines of labels: each at its column, or a line lower where there is no room ----
 */

typedef struct {
    const char *text;
    int from, to; /* columns, to exclusive; set when it has its place */
    int line;
} label;

enum { LABEL_LINES = 3 };

/* A name that leaves room for others; a point stands for the rest of it. */
static const char *clipped(bw_arena *arena, const char *name)
{
    enum { ROOM = 18 };
    const char *text = bwi_clean(arena, name);
    if (text == NULL || bw_text_columns(text) <= ROOM) {
        return text;
    }
    size_t length = 0;
    for (int k = 0; k < ROOM - 1; k++) {
        length += bwi_character_length(text + length);
    }
    return bw_arena_print(arena, "%.*s.", (int)length, text);
}

static void place_label(label *labels, size_t n, const char *text, int middle)
{
    const int width = (int)bw_text_columns(text);
    label *mine = &labels[n];
    mine->text = text;
    mine->from = middle - (width - 1) / 2;
    mine->from = mine->from < MARGIN - 2 ? MARGIN - 2 : mine->from;
    mine->from = mine->from + width > COLUMNS ? COLUMNS - width : mine->from;
    mine->to = mine->from + width;
    for (mine->line = 0; mine->line < LABEL_LINES; mine->line++) {
        bool free = true;
        for (size_t k = 0; k < n && free; k++) {
            free = labels[k].line != mine->line || labels[k].to < mine->from ||
                   labels[k].from > mine->to;
        }
        if (free) {
            return;
        }
    }
}

/* The next one to the right; they were not placed in that order. */
static const label *label_from(const label *labels, size_t n, int line, int at)
{
    const label *next = NULL;
    for (size_t k = 0; k < n; k++) {
        const label *l = &labels[k];
        if (l->line == line && l->from >= at && (next == NULL || l->from < next->from)) {
            next = l;
        }
    }
    return next;
}

static void print_labels(const char *lead, const label *labels, size_t n, bw_text *out)
{
    for (int line = 0; line < LABEL_LINES; line++) {
        int at = 0;
        const label *next = label_from(labels, n, line, 0);
        if (next != NULL && line == 0) {
            bw_text_add(out, lead);
            at = (int)strlen(lead);
        }
        while (next != NULL) {
            bwi_blanks(out, (size_t)(next->from - at));
            bw_text_add(out, next->text);
            at = next->to;
            next = label_from(labels, n, line, at + 1); /* there is a gap: place_label */
        }
        bw_text_add(out, at > 0 ? "\n" : "");
    }
}

/* ---- percentages ---- */

static const bw_member_result *member_at(const sketch *s, const char *role, size_t bent,
                                         int row)
{
    for (size_t k = 0; k < s->a->n_members; k++) {
        const bw_member_result *m = &s->a->members[k];
        if (strcmp(m->role, role) == 0 && m->bent == (int)bent &&
            (row < 0 || m->row == row)) {
            return m;
        }
    }
    return NULL;
}

static const char *share_of(const bw_member_result *m, bw_arena *arena)
{
    if (bwi_member_verdict(m) == BW_CANNOT_SAY) {
        return "?";
    }
    const char *percent = bwi_percent(arena, m->worst, 0);
    return percent == NULL                    ? NULL
           : bwi_member_verdict(m) == BW_OVER ? bw_arena_print(arena, "OVER %s", percent)
                                              : percent;
}

static void name_bents(const sketch *s, label *labels, bw_text *out)
{
    size_t n = 0;
    for (size_t bent = s->first; bent <= s->last; bent++) {
        const char *name = clipped(out->arena, bent_of(s, bent)->name);
        place_label(labels, n++, bwi_or_fail(out, name),
                    column_of(s, bent_of(s, bent)->at));
    }
    print_labels("", labels, n, out);
}

static void share_stringers(const sketch *s, label *labels, bw_text *out)
{
    size_t n = 0, seen = s->a->deck->n_stringers;
    for (size_t bay = s->first; bay < s->last; bay++) {
        size_t number = 0;
        const bw_stringer *x = stringer_at(s, bay, &number);
        if (x == NULL || number == seen || number >= s->a->n_members) {
            continue;
        }
        seen = number;
        const bw_member_result *m = &s->a->members[number];
        const size_t last = (size_t)x->to < s->last ? (size_t)x->to : s->last;
        const int middle =
            (column_of(s, bent_of(s, bay)->at) + column_of(s, bent_of(s, last)->at)) / 2;
        const char *name = clipped(out->arena, m->name);
        const char *share = share_of(m, out->arena);
        const char *text = bw_arena_print(out->arena, "%s %s", bwi_or_fail(out, name),
                                          bwi_or_fail(out, share));
        place_label(labels, n++, bwi_or_fail(out, text), middle);
    }
    print_labels("stringer", labels, n, out);
}

static void share_at_bents(const sketch *s, const char *role, label *labels, bw_text *out)
{
    size_t n = 0;
    for (size_t bent = s->first; bent <= s->last; bent++) {
        const bool post = strcmp(role, "post") == 0;
        const bw_member_result *m = member_at(s, role, bent, post ? (int)s->row : -1);
        if (m != NULL && meets_bent(s, bent)) {
            const char *share = share_of(m, out->arena);
            place_label(labels, n++, bwi_or_fail(out, share),
                        column_of(s, bent_of(s, bent)->at));
        }
    }
    print_labels(role, labels, n, out);
}

static void share_braces(const sketch *s, label *labels, bw_text *out)
{
    const bw_case *deck = s->a->deck;
    size_t n = 0;
    for (size_t k = 0; k < s->a->n_members; k++) {
        const bw_member_result *m = &s->a->members[k];
        for (size_t j = 0; j < deck->n_braces && strcmp(m->role, "brace") == 0; j++) {
            const bw_brace *b = &deck->braces[j];
            if (strcmp(b->case_path, m->case_path) == 0 &&
                strcmp(b->name, m->name) == 0 && brace_is_here(s, b)) {
                const char *share = share_of(m, out->arena);
                place_label(labels, n++, bwi_or_fail(out, share),
                            (column_of(s, end_at(s, &b->from)) +
                             column_of(s, end_at(s, &b->to))) /
                                2);
            }
        }
    }
    print_labels("brace", labels, n, out);
}

/* ---- one strip, one row ---- */

/* One scale for all strips of the row. */
static void fit(sketch *s, double longest)
{
    const bw_case *deck = s->a->deck;
    double high = 0.0, low = 0.0;
    for (size_t bent = 0; bent < deck->n_bents; bent++) {
        const bw_post *post = post_at(s, bent);
        high = fmax(high, deck->bents[bent].deck_height);
        low = fmin(low, post != NULL ? -post->hole_depth : 0.0);
    }
    s->column = fmax(longest / (COLUMNS - MARGIN - END), (high - low) / TALL / 2.0);
    s->line = 2.0 * s->column;
    s->ground = lines_up(s, high);
    s->n_lines = s->ground + 2 - (low < 0.0 ? lines_up(s, low) : 0);
}

static void print_strip(sketch *s, label *labels, bw_text *out)
{
    const bw_case *deck = s->a->deck;
    const char *column = bw_length_print_small(out->arena, s->column, deck->units);
    const char *line = bw_length_print_small(out->arena, s->line, deck->units);
    const char *title = bw_arena_print(
        out->arena, "Row %s seen from the side, bents %s to %s (a column %s, a line %s)",
        deck->rows[s->row].name, bent_of(s, s->first)->name, bent_of(s, s->last)->name,
        bwi_or_fail(out, column), bwi_or_fail(out, line));
    bw_text_add(out, "\n");
    bwi_paragraph(out, "  ", bwi_or_fail(out, title));
    draw(s);
    name_bents(s, labels, out);
    print_cells(s, out);
    share_stringers(s, labels, out);
    share_at_bents(s, "sill", labels, out);
    share_at_bents(s, "cap", labels, out);
    share_at_bents(s, "post", labels, out);
    share_braces(s, labels, out);
}

/* The bent of the row's member that is used most. */
static size_t worst_bent(const bw_assessment *a, size_t row)
{
    size_t bent = 0;
    double worst = -1.0;
    for (size_t k = 0; k < a->n_members; k++) {
        const bw_member_result *m = &a->members[k];
        if (m->row == (int)row && m->bent >= 0 && !(m->worst <= worst)) {
            worst = isnan(m->worst) ? HUGE_VAL : m->worst;
            bent = (size_t)m->bent;
        }
    }
    return bent;
}

static void print_row(sketch *s, const bwi_strip *strips, size_t n_strips, label *labels,
                      bw_text *out)
{
    const size_t worst = worst_bent(s->a, s->row);
    fit(s, bwi_longest_strip(s->a->deck, strips, n_strips));
    for (size_t k = 0; k < n_strips; k++) {
        const bool holds_worst =
            worst >= strips[k].first && (worst < strips[k].last || k + 1 == n_strips);
        if (n_strips <= STRIPS_MAX || holds_worst) {
            s->first = strips[k].first;
            s->last = strips[k].last;
            print_strip(s, labels, out);
        }
    }
}

void bwi_text_sketch(const bw_assessment *a, bw_text *out)
{
    const bw_case *deck = a->deck;
    if (deck->n_bents < 2) {
        return;
    }
    label *labels = BW_NEW(out->arena, label, deck->n_bents + deck->n_braces + 1);
    size_t n_strips = 0;
    const bwi_strip *strips = bwi_strips(out->arena, deck, &n_strips);
    if (labels == NULL || strips == NULL) {
        out->failed = true;
        return;
    }
    bwi_text_section(out, "drawings");
    bwi_paragraph(out, "",
                  "= stringer, + where the next one begins, O cap or sill, | post, : its "
                  "hole, # pad, / \\ brace, ~ ground. Below: percent of the capacity "
                  "used by the worst check. The record (bolewright report) has drawings "
                  "of rows, bents and plan.");
    for (size_t row = 0; row < deck->n_rows; row++) {
        sketch s = {.a = a, .row = row};
        print_row(&s, strips, n_strips, labels, out);
    }
    if (n_strips > STRIPS_MAX) {
        bw_text_add(out, "\n");
        bwi_paragraph(out, "  ",
                      "The deck is long: of each row only the part with its most used "
                      "log is drawn.");
    }
}
