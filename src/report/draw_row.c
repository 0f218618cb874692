/* draw_row.c - each row seen from its side, in strips that fit the page. */
#include "html.h"

#include <math.h>
#include <string.h>

enum { PAGE = 700, LEFT = 62, RIGHT = 58, TALLEST = 360 };

typedef struct {
    const bwi_drawer *w;
    bwi_svg svg;
    size_t row;
    bwi_strip strip;
    bwi_box range; /* [m] along and up */
    double names;  /* pixels: line of the bents' names */
    double chain;  /* pixels: line of the dimensions */
} row_drawing;

static const bw_case *deck_of(const row_drawing *r)
{
    return r->w->assessment->deck;
}

static const bw_drawn_view *view_of(const row_drawing *r)
{
    return &r->w->drawing->rows[r->row];
}

static bool is_in_strip(const row_drawing *r, const bw_drawn_log *log)
{
    size_t n = 0;
    for (size_t k = 0; k < log->n_places; k++) {
        const double x = log->places[k].x;
        n += x > r->range.left - 1e-6 && x < r->range.right + 1e-6 ? 1 : 0;
    }
    return n > 1 || (n == 1 && log->n_places == 1);
}

/* Highest board and deepest foot of the row: the same for all its strips. */
static void heights(row_drawing *r)
{
    r->range.top = 0.0;
    r->range.bottom = 0.0;
    for (size_t k = 0; k < deck_of(r)->n_bents; k++) {
        r->range.top = fmax(r->range.top, deck_of(r)->bents[k].deck_height);
    }
    const bw_drawn_view *view = view_of(r);
    for (size_t k = 0; k < view->n_logs; k++) {
        r->range.bottom = fmin(r->range.bottom, view->logs[k].places[0].y);
    }
}

static void fit(row_drawing *r, double longest)
{
    const double thickest = 0.5; /* [m] room for the outer logs' half thickness */
    const double high = r->range.top - r->range.bottom;
    const bw_bent *a = &deck_of(r)->bents[r->strip.first];
    const bw_bent *b = &deck_of(r)->bents[r->strip.last];
    r->range.left = a->at;
    r->range.right = b->at;
    r->svg.scale = fmin((PAGE - LEFT - RIGHT) / (longest + thickest), TALLEST / high);
    r->svg.x0 = LEFT + (thickest / 2.0 - a->at) * r->svg.scale;
    r->names = 10.0;
    r->svg.y0 = 44.0 + r->range.top * r->svg.scale;
    r->chain = r->svg.y0 - r->range.bottom * r->svg.scale + 40.0;
    r->svg.width = PAGE;
    r->svg.height = r->chain + 30.0;
}

/* ---- what is drawn ---- */

static void draw_boards(row_drawing *r)
{
    const bw_case *deck = deck_of(r);
    for (size_t bay = r->strip.first; bay < r->strip.last; bay++) {
        const bw_bent *a = &deck->bents[bay], *b = &deck->bents[bay + 1];
        const bwi_box top = {a->at, a->deck_height, b->at, b->deck_height};
        bwi_draw_boards(&r->svg, r->w, &top);
    }
}

static void draw_logs(row_drawing *r)
{
    const bw_drawn_view *view = view_of(r);
    for (size_t k = 0; k < view->n_logs; k++) {
        const bw_post *post = bwi_post_of(r->w->assessment, view->logs[k].member);
        if (post != NULL && is_in_strip(r, &view->logs[k])) {
            bwi_draw_hole(&r->svg, post, &view->logs[k]);
        }
    }
    for (size_t k = 0; k < view->n_logs; k++) {
        if (is_in_strip(r, &view->logs[k])) {
            bwi_draw_log(&r->svg, r->w, &view->logs[k], &r->range);
        }
    }
}

/* ---- labels ---- */

static void label_stringer(row_drawing *r, const bw_drawn_log *log, const char *share)
{
    const bw_member_result *m = &r->w->assessment->members[log->member];
    bw_arena *arena = r->svg.out->arena;
    const double from = fmax(log->places[0].x, r->range.left);
    const double to = fmin(log->places[log->n_places - 1].x, r->range.right);
    double y = 0.0;
    for (size_t k = 0; k < log->n_places; k++) {
        y += log->places[k].y / (double)log->n_places;
    }
    const bw_drawn_place *a = log->places, *b = &log->places[log->n_places - 1];
    if (log->n_places == 2) {
        y = a->y + (b->y - a->y) * ((from + to) / 2.0 - a->x) / (b->x - a->x);
    }
    const char *text = bw_arena_print(
        arena, "%s %s", bwi_or_fail(r->svg.out, bwi_short(arena, m->name, 14)), share);
    const double room = (to - from) * r->svg.scale - 8.0;
    const bool fits = text != NULL && bwi_label_width(text, BWI_BOLD) < room;
    const double x = bwi_px(&r->svg, (from + to) / 2.0), py = bwi_py(&r->svg, y);
    const bwi_spot spots[] = {{x, py, 'm'}, {x, py + 22.0, 'm'}};
    bwi_svg_label(&r->svg, BWI_BOLD, spots, 2, fits ? text : share);
}

static void label_post(row_drawing *r, const bw_drawn_log *log, const char *share)
{
    const bw_drawn_place *top = &log->places[log->n_places - 1];
    const double half = top->thickness / 2.0 * r->svg.scale + 4.0;
    const double x = bwi_px(&r->svg, top->x), y = bwi_py(&r->svg, top->y / 2.0);
    const bwi_spot spots[] = {{x + half, y, 's'}, {x - half, y, 'e'}};
    bwi_svg_label(&r->svg, BWI_BOLD, spots, 2, share);
}

static void label_cap(row_drawing *r, const bw_drawn_log *log, const char *share)
{
    const bw_member_result *m = &r->w->assessment->members[log->member];
    const double half = log->places->thickness / 2.0 * r->svg.scale + 3.0;
    const double x = bwi_px(&r->svg, log->places->x), y = bwi_py(&r->svg, log->places->y);
    const bwi_spot spots[] = {{x - half, y, 'e'},
                              {x + half, y, 's'},
                              {x - half, y + 8.0, 'e'},
                              {x + half, y + 8.0, 's'}};
    const char *text = bw_arena_print(r->svg.out->arena, "%s %s", m->role, share);
    bwi_svg_label(&r->svg, BWI_SMALL, spots, 4, text);
}

static void label_brace(row_drawing *r, const bw_drawn_log *log, const char *share)
{
    const bw_drawn_place *a = &log->places[0], *b = &log->places[1];
    bwi_spot spots[5];
    static const double at[] = {0.5, 0.3, 0.7, 0.2, 0.8};
    for (int k = 0; k < 5; k++) {
        spots[k] = (bwi_spot){bwi_px(&r->svg, a->x + at[k] * (b->x - a->x)),
                              bwi_py(&r->svg, a->y + at[k] * (b->y - a->y)), 'm'};
    }
    bwi_svg_label(&r->svg, BWI_SMALL, spots, 5, share);
}

/* Keeps further labels off the stringer, in steps along it. */
static void take_stringer(row_drawing *r, const bw_drawn_log *log)
{
    for (size_t k = 0; k + 1 < log->n_places; k++) {
        const bw_drawn_place *a = &log->places[k], *b = a + 1;
        const double half = fmax(a->thickness, b->thickness) / 2.0 * r->svg.scale;
        const double from = bwi_px(&r->svg, a->x), to = bwi_px(&r->svg, b->x);
        const double step = fabs(a->y - b->y) > 0.05 ? 16.0 : to - from;
        for (double x = from; x < to - 1e-6; x += step) {
            const double t = fmin((x + step / 2.0 - from) / (to - from), 1.0);
            const double y = bwi_py(&r->svg, a->y + t * (b->y - a->y));
            bwi_svg_take(&r->svg, (bwi_box){x, y - half, fmin(x + step, to), y + half});
        }
    }
}

typedef void (*labeller)(row_drawing *, const bw_drawn_log *, const char *);

static labeller labeller_of(const bw_member_result *m)
{
    return strcmp(m->role, "stringer") == 0 ? label_stringer
           : strcmp(m->role, "post") == 0   ? label_post
           : strcmp(m->role, "brace") == 0  ? label_brace
                                            : label_cap;
}

/* Role by role, from those that have one place only to those that can give way. */
static void label_logs(row_drawing *r)
{
    static const labeller order[] = {label_stringer, label_cap, label_post, label_brace};
    const bw_drawn_view *view = view_of(r);
    for (size_t pass = 0; pass < sizeof order / sizeof order[0]; pass++) {
        for (size_t k = 0; k < view->n_logs; k++) {
            const bw_drawn_log *log = &view->logs[k];
            const bw_member_result *m = &r->w->assessment->members[log->member];
            if (is_in_strip(r, log) && labeller_of(m) == order[pass]) {
                const char *share = bwi_share_text(r->svg.out->arena, m);
                order[pass](r, log, bwi_or_fail(r->svg.out, share));
            }
        }
        for (size_t k = 0; pass == 0 && k < view->n_logs; k++) {
            const bw_member_result *m = &r->w->assessment->members[view->logs[k].member];
            if (labeller_of(m) == label_stringer && is_in_strip(r, &view->logs[k])) {
                take_stringer(r, &view->logs[k]);
            }
        }
    }
}

/* ---- names and dimensions ---- */

static const char *length(row_drawing *r, double value)
{
    bw_arena *arena = r->svg.out->arena;
    return bwi_or_fail(r->svg.out,
                       bw_quantity_print(arena, BW_LENGTH, value, deck_of(r)->units));
}

static void name_bents(row_drawing *r)
{
    for (size_t k = r->strip.first; k <= r->strip.last; k++) {
        const bw_bent *b = &deck_of(r)->bents[k];
        const double x = bwi_px(&r->svg, b->at);
        const bwi_spot name[] = {{x, r->names, 'm'}, {x + 12.0, r->names, 'm'}};
        const bwi_spot height = {x, r->names + 16.0, 'm'};
        bwi_svg_label(&r->svg, BWI_BOLD, name, 2,
                      bwi_short(r->svg.out->arena, b->name, 12));
        if (k != r->strip.first) { /* that one has a dimension of its own */
            bwi_svg_label(&r->svg, BWI_SMALL, &height, 1, length(r, b->deck_height));
        }
    }
}

static void dimension_bays(row_drawing *r)
{
    const bw_case *deck = deck_of(r);
    for (size_t bay = r->strip.first; bay < r->strip.last; bay++) {
        const double from = deck->bents[bay].at, to = deck->bents[bay + 1].at;
        const bwi_box line = {bwi_px(&r->svg, from), r->chain, bwi_px(&r->svg, to),
                              r->chain};
        bwi_svg_dimension(&r->svg, &line, length(r, to - from));
    }
}

static void dimension_height(row_drawing *r)
{
    const bw_bent *b = &deck_of(r)->bents[r->strip.first];
    const double x = LEFT - 8.0;
    const bwi_box line = {x, bwi_py(&r->svg, b->deck_height), x, bwi_py(&r->svg, 0.0)};
    const bwi_spot spots[] = {{2.0, (line.top + line.bottom) / 2.0, 's'},
                              {2.0, r->names + 16.0, 's'}};
    bw_text_print(
        r->svg.out,
        "<path class=\"d\" d=\"M%.1f %.1fV%.1fM%.1f %.1fl8 -8M%.1f %.1fl8 -8\"/>\n", x,
        line.top, line.bottom, x - 4.0, line.top + 4.0, x - 4.0, line.bottom + 4.0);
    bwi_svg_label(&r->svg, BWI_SMALL, spots, 2, length(r, b->deck_height));
    bwi_svg_take(&r->svg, (bwi_box){x - 4.0, line.top, x + 4.0, line.bottom});
}

static void dimension_holes(row_drawing *r)
{
    const bw_drawn_view *view = view_of(r);
    for (size_t k = 0; k < view->n_logs; k++) {
        const bw_drawn_log *log = &view->logs[k];
        const bw_post *post = bwi_post_of(r->w->assessment, log->member);
        if (post == NULL || !is_in_strip(r, log)) {
            continue;
        }
        const char *text = post->foot == BW_FOOT_HOLE
                               ? bw_arena_print(r->svg.out->arena, "%s deep",
                                                length(r, post->hole_depth))
                           : post->foot == BW_FOOT_PAD ? "on a pad"
                                                       : "fixed foot";
        const double x = bwi_px(&r->svg, log->places[0].x);
        const double y =
            bwi_py(&r->svg, log->places[0].y) +
            (post->pad_area > 0.0 || post->foot == BW_FOOT_FIXED ? 0.1 * r->svg.scale
                                                                 : 0.0) +
            10.0;
        const bwi_spot spots[] = {{x, y, 'm'}, {x, y + 12.0, 'm'}};
        bwi_svg_label(&r->svg, BWI_SMALL, spots, 2, text);
    }
}

/* ---- one strip ---- */

static void draw_strip(row_drawing *r, size_t number, size_t count)
{
    bw_arena *arena = r->svg.out->arena;
    const bw_case *deck = deck_of(r);
    const bw_bent *a = &deck->bents[r->strip.first], *b = &deck->bents[r->strip.last];
    const char *title =
        count == 1
            ? bw_arena_print(arena, "Row %s seen from the side", deck->rows[r->row].name)
            : bw_arena_print(arena, "Row %s seen from the side, bents %s to %s",
                             deck->rows[r->row].name, a->name, b->name);
    const char *words = bw_arena_print(arena,
                                       "To scale. Stringers, caps, posts and braces with "
                                       "the percentage of their capacity in "
                                       "use; the same numbers stand in the table of "
                                       "members. From bent %s to bent %s: %s.",
                                       a->name, b->name, length(r, b->at - a->at));
    r->svg.id = bw_arena_print(arena, "row%zu-%zu", r->row + 1, number + 1);
    r->svg.n_boxes = 0;
    bw_text_add(r->svg.out, "<figure>\n");
    bwi_svg_open(&r->svg, bwi_or_fail(r->svg.out, title), bwi_or_fail(r->svg.out, words));
    draw_boards(r);
    draw_logs(r);
    bwi_draw_ground(&r->svg, LEFT - 8.0, PAGE - 6.0);
    name_bents(r);
    dimension_height(r);
    label_logs(r);
    dimension_holes(r);
    dimension_bays(r);
    bwi_svg_close(&r->svg);
    bwi_html(r->svg.out, "<figcaption>%s.</figcaption>\n</figure>\n",
             bwi_or_fail(r->svg.out, title));
}

void bwi_draw_rows(const bwi_drawer *w)
{
    const bw_case *deck = w->assessment->deck;
    size_t n_strips = 0;
    const bwi_strip *strips = bwi_strips(w->out->arena, deck, &n_strips);
    if (strips == NULL) {
        w->out->failed = true;
        return;
    }
    const double longest = bwi_longest_strip(deck, strips, n_strips);
    for (size_t row = 0; row < deck->n_rows; row++) {
        row_drawing r = {.w = w, .svg = {.out = w->out}, .row = row};
        if (w->drawing->rows[row].n_logs == 0) {
            continue;
        }
        heights(&r);
        for (size_t k = 0; k < n_strips; k++) {
            r.strip = strips[k];
            fit(&r, longest);
            draw_strip(&r, k, n_strips);
        }
    }
}
