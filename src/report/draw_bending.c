/* draw_bending.c - bending moment, shear and movement along each row, one above the other
 * on the scale of the elevations. */
#include "html.h"

#include <math.h>

enum { PAGE = 700, LEFT = 62, RIGHT = 58, PANEL = 70, GAP = 30, PANELS = 3 };
enum { N = BW_DRAWN_PER_BAY };

/* More strips than this: only the one with the worst place is drawn. */
enum { STRIPS_MAX = 3 };

typedef enum { MOMENT, SHEAR, DROP } panel_kind;

typedef struct {
    const bwi_drawer *w;
    const bw_drawn_bending *b;
    bwi_svg svg;
    bwi_strip strip;
    double low[PANELS], high[PANELS]; /* of the whole row, so that strips compare */
    panel_kind panel;
    bool is_part; /* other strips are not drawn */
} bending_drawing;

static const bw_case *deck_of(const bending_drawing *d)
{
    return d->w->assessment->deck;
}

/* ---- what is drawn ---- */

typedef enum { RIDER_LEFT, RIDER_RIGHT, MOST, LEAST, PEOPLE } curve_kind;

static double value(panel_kind panel, curve_kind curve, const bw_drawn_station *s)
{
    switch (curve) {
    case RIDER_LEFT:
    case RIDER_RIGHT:
        return panel == MOMENT  ? s->moment
               : panel == SHEAR ? s->shear[curve == RIDER_RIGHT ? 1 : 0]
                                : s->drop;
    case MOST:
        return panel == MOMENT ? s->moment_most : s->shear_most;
    case LEAST:
        return panel == MOMENT ? s->moment_least : s->shear_least;
    default:
        return panel == MOMENT  ? s->people_moment
               : panel == SHEAR ? s->people_shear
                                : s->people_drop;
    }
}

static bool has(const bending_drawing *d, panel_kind panel, curve_kind curve)
{
    if (curve == PEOPLE) {
        return d->b->has_people;
    }
    return d->b->has_rider &&
           (panel != DROP || curve == RIDER_LEFT || curve == RIDER_RIGHT);
}

static void measure(bending_drawing *d)
{
    for (int panel = 0; panel < PANELS; panel++) {
        d->low[panel] = d->high[panel] = 0.0;
        for (size_t k = 0; k < d->w->drawing->n_bays * N; k++) {
            for (int curve = RIDER_LEFT; curve <= PEOPLE && d->b->has_bay[k / N];
                 curve++) {
                if (has(d, (panel_kind)panel, (curve_kind)curve)) {
                    const double v =
                        value((panel_kind)panel, (curve_kind)curve, &d->b->stations[k]);
                    d->low[panel] = fmin(d->low[panel], v);
                    d->high[panel] = fmax(d->high[panel], v);
                }
            }
        }
    }
}

static double panel_top(panel_kind panel)
{
    return 38.0 + (double)panel * (PANEL + GAP);
}

/* Sagging moments and movements run down the page, as the log bends; shear runs up. */
static double y_of(const bending_drawing *d, double v)
{
    const double low = d->low[d->panel], high = d->high[d->panel];
    const double t = high > low ? (v - low) / (high - low) : 0.0;
    return panel_top(d->panel) + PANEL * (d->panel == SHEAR ? 1.0 - t : t);
}

/* Points of a line; those on the straight way between their neighbours are left out. */
enum { POINTS = 4 * N };
typedef struct {
    double x[POINTS], y[POINTS];
    int n;
} point_list;

static void add_point(const bending_drawing *d, point_list *list, curve_kind curve,
                      const bw_drawn_station *s)
{
    if (list->n < POINTS) {
        list->x[list->n] = bwi_px(&d->svg, s->at);
        list->y[list->n++] = y_of(d, value(d->panel, curve, s));
    }
}

/* All points between two lie within a tenth of a pixel of the line that joins them. */
static bool is_straight(const point_list *l, int from, int to)
{
    const double dx = l->x[to] - l->x[from], dy = l->y[to] - l->y[from];
    const double length = fmax(hypot(dx, dy), 1e-9);
    for (int k = from + 1; k < to; k++) {
        if (fabs((l->x[k] - l->x[from]) * dy - (l->y[k] - l->y[from]) * dx) >
            0.1 * length) {
            return false;
        }
    }
    return true;
}

static void write_points(const bending_drawing *d, const point_list *l)
{
    for (int k = 0; k < l->n;) {
        bw_text_print(d->svg.out, "%s%.1f %.1f", k == 0 ? "M" : "L", l->x[k], l->y[k]);
        int next = k + 1;
        while (next + 1 < l->n && is_straight(l, k, next + 1)) {
            next++;
        }
        k = next;
    }
}

static void draw_curve(const bending_drawing *d, curve_kind curve, const char *classes)
{
    bw_text_print(d->svg.out, "<path class=\"%s\" d=\"", classes);
    for (size_t bay = d->strip.first; bay < d->strip.last; bay++) {
        const bw_drawn_station *s = &d->b->stations[bay * N];
        const bool jumps = curve != PEOPLE && d->panel == SHEAR;
        point_list list = {.n = 0};
        for (int j = 0; d->b->has_bay[bay] && j < N; j++) {
            add_point(d, &list, jumps && j == 0 ? RIDER_RIGHT : curve, &s[j]);
            if (jumps && j > 0 && j + 1 < N) {
                add_point(d, &list, RIDER_RIGHT, &s[j]);
            }
        }
        write_points(d, &list);
    }
    bw_text_add(d->svg.out, "\"/>\n");
}

static void draw_envelope(const bending_drawing *d)
{
    bw_text_add(d->svg.out, "<path class=\"env\" d=\"");
    for (size_t bay = d->strip.first; bay < d->strip.last; bay++) {
        const bw_drawn_station *s = &d->b->stations[bay * N];
        point_list list = {.n = 0};
        for (int j = 0; d->b->has_bay[bay] && j < 2 * N; j++) {
            add_point(d, &list, j < N ? MOST : LEAST, &s[j < N ? j : 2 * N - 1 - j]);
        }
        write_points(d, &list);
        bw_text_add(d->svg.out, d->b->has_bay[bay] ? "Z" : "");
    }
    bw_text_add(d->svg.out, "\"/>\n");
}

/* ---- numbers ---- */

static const char *words(bending_drawing *d, double v)
{
    bw_arena *arena = d->svg.out->arena;
    const bw_units units = deck_of(d)->units;
    const char *text = d->panel == MOMENT  ? bw_quantity_print(arena, BW_MOMENT, v, units)
                       : d->panel == SHEAR ? bw_quantity_print(arena, BW_FORCE, v, units)
                                           : bw_length_print_decimal(arena, v, units);
    return bwi_or_fail(d->svg.out, text);
}

/* Writes the largest or least value of a curve beside the place where it is. */
static void label_extreme(bending_drawing *d, curve_kind curve, double sign)
{
    const bw_drawn_station *best = NULL;
    for (size_t k = d->strip.first * N; k < d->strip.last * N; k++) {
        const bw_drawn_station *s = &d->b->stations[k];
        if (d->b->has_bay[k / N] &&
            (best == NULL || sign * value(d->panel, curve, s) >
                                 sign * value(d->panel, curve, best) * (1.0 + 1e-9))) {
            best = s;
        }
    }
    const double span = d->high[d->panel] - d->low[d->panel];
    if (best == NULL || sign * value(d->panel, curve, best) < 0.03 * span) {
        return;
    }
    const double v = value(d->panel, curve, best);
    const double x = bwi_px(&d->svg, best->at), y = y_of(d, v);
    const double away = y > y_of(d, 0.0) ? 8.0 : -8.0;
    const bwi_spot spots[] = {{x, y + away, 'm'},
                              {x + 6.0, y, 's'},
                              {x - 6.0, y, 'e'},
                              {x + 4.0, y + away, 's'},
                              {x - 4.0, y + away, 'e'}};
    bw_text_print(d->svg.out, "<circle class=\"dot\" cx=\"%.1f\" cy=\"%.1f\" r=\"2\"/>\n",
                  x, y);
    bwi_svg_label(&d->svg, BWI_SMALL, spots, 5, words(d, v));
}

static void label_panel(bending_drawing *d)
{
    static const char *const titles[PANELS] = {"Bending moment", "Shear",
                                               "Movement down"};
    const bwi_spot spot = {2.0, panel_top(d->panel) - 14.0, 's'};
    bwi_svg_label(&d->svg, BWI_BOLD, &spot, 1, titles[d->panel]);
    if (d->b->has_rider && d->panel != DROP) {
        label_extreme(d, MOST, 1.0);
        label_extreme(d, LEAST, -1.0);
    } else if (d->b->has_rider) {
        label_extreme(d, RIDER_LEFT, 1.0);
    }
    if (d->b->has_people) {
        label_extreme(d, PEOPLE, 1.0);
        if (d->panel != DROP) {
            label_extreme(d, PEOPLE, -1.0);
        }
    }
}

/* ---- one strip ---- */

static void draw_panel(bending_drawing *d, panel_kind panel)
{
    d->panel = panel;
    const bwi_box zero = {LEFT - 8.0, y_of(d, 0.0), PAGE - 6.0, y_of(d, 0.0)};
    if (d->b->has_rider && panel != DROP) {
        draw_envelope(d);
    }
    bwi_svg_line(&d->svg, "d", &zero);
    if (d->b->has_people) {
        draw_curve(d, PEOPLE, "people");
    }
    if (d->b->has_rider) {
        draw_curve(d, RIDER_LEFT, "rider");
    }
    label_panel(d);
}

static void draw_supports(bending_drawing *d)
{
    for (size_t k = d->strip.first; k <= d->strip.last; k++) {
        const double x = bwi_px(&d->svg, deck_of(d)->bents[k].at);
        const bwi_box line = {x, panel_top(MOMENT) - 8.0, x,
                              panel_top(DROP) + PANEL + 8.0};
        const bwi_spot spot = {x, 10.0, 'm'};
        bwi_svg_line(&d->svg, "support", &line);
        bwi_svg_label(&d->svg, BWI_BOLD, &spot, 1,
                      bwi_short(d->svg.out->arena, deck_of(d)->bents[k].name, 12));
    }
    const bw_bent *first = &deck_of(d)->bents[d->strip.first];
    const bw_bent *last = &deck_of(d)->bents[d->strip.last];
    if (d->b->has_rider && d->b->rider_at >= first->at && d->b->rider_at <= last->at) {
        const double x = bwi_px(&d->svg, d->b->rider_at);
        const bwi_spot spots[] = {{x + 8.0, 22.0, 's'}, {x - 8.0, 22.0, 'e'}};
        bw_text_print(d->svg.out,
                      "<path class=\"arrow\" d=\"M%.1f 17l-5 0l5 12l5 -12z\"/>\n", x);
        bwi_svg_label(&d->svg, BWI_SMALL, spots, 2, "rider");
    }
}

static const char *explain(bending_drawing *d)
{
    bw_arena *arena = d->svg.out->arena;
    const bw_case *deck = deck_of(d);
    bw_text text = bw_text_new(arena);
    if (d->b->has_rider) {
        const char *at = bw_quantity_print(
            arena, BW_LENGTH, d->b->rider_at - deck->bents[0].at, deck->units);
        bw_text_print(&text,
                      "Solid: %s, the rider %s past bent %s, where the bending stress is "
                      "largest; shaded: the rider anywhere. ",
                      d->b->rider_title, bwi_or_fail(&text, at), deck->bents[0].name);
    }
    if (d->b->has_people) {
        bw_text_print(&text, "Dashed: %s, people on all bays. ", d->b->people_title);
    }
    bw_text_print(
        &text,
        "Movement: under what comes and goes alone%s; drawn many times too large. "
        "Vertical loads only: the checks count pushes too.",
        d->b->has_rider ? ", the rider standing still" : "");
    return bwi_or_fail(d->svg.out, bw_text_string(&text));
}

static void draw_strip(bending_drawing *d, size_t row, size_t number, double longest)
{
    bw_text *out = d->svg.out;
    const bw_case *deck = deck_of(d);
    const double margin = 0.5; /* [m] as in the elevations, so that they line up */
    d->svg.width = PAGE;
    d->svg.height = panel_top(DROP) + PANEL + 22.0;
    d->svg.scale = (PAGE - LEFT - RIGHT) / (longest + margin);
    d->svg.x0 = LEFT + (margin / 2.0 - deck->bents[d->strip.first].at) * d->svg.scale;
    d->svg.id = bw_arena_print(out->arena, "bending%zu-%zu", row + 1, number + 1);
    d->svg.n_boxes = 0;
    const char *title = bw_arena_print(
        out->arena, "How row %s bends, bents %s to %s", deck->rows[row].name,
        deck->bents[d->strip.first].name, deck->bents[d->strip.last].name);
    bw_text_add(out, "<figure>\n");
    bwi_svg_open(
        &d->svg, bwi_or_fail(out, title),
        "Bending moment, shear and movement one above the other; the words below "
        "say what each line is.");
    draw_supports(d);
    for (int panel = 0; panel < PANELS; panel++) {
        draw_panel(d, (panel_kind)panel);
    }
    bwi_svg_close(&d->svg);
    bwi_html(out, "<figcaption>%s. %s%s</figcaption>\n</figure>\n",
             bwi_or_fail(out, title),
             number == 0 || d->is_part ? explain(d) : "Lines as above.",
             d->is_part ? " The deck is long: of the row only this part, with its worst "
                          "place, is drawn."
                        : "");
}

static bool holds_worst(const bending_drawing *d)
{
    const bw_case *deck = deck_of(d);
    return !d->b->has_rider || (d->b->rider_at >= deck->bents[d->strip.first].at &&
                                d->b->rider_at <= deck->bents[d->strip.last].at);
}

static void draw_row(bending_drawing *d, size_t row, const bwi_strip *strips,
                     size_t n_strips)
{
    const double longest = bwi_longest_strip(deck_of(d), strips, n_strips);
    bool drawn = false;
    d->is_part = n_strips > STRIPS_MAX;
    for (size_t k = 0; k < n_strips; k++) {
        d->strip = strips[k];
        if (n_strips <= STRIPS_MAX || (!drawn && holds_worst(d))) {
            draw_strip(d, row, k, longest);
            drawn = true;
        }
    }
}

void bwi_draw_bending(const bwi_drawer *w)
{
    size_t n_strips = 0;
    const bw_case *deck = w->assessment->deck;
    const bwi_strip *strips = bwi_strips(w->out->arena, deck, &n_strips);
    if (strips == NULL) {
        w->out->failed = true;
        return;
    }
    for (size_t row = 0; row < deck->n_rows; row++) {
        const bw_drawn_bending *b = &w->drawing->bending[row];
        bending_drawing d = {.w = w, .b = b, .svg = {.out = w->out}};
        if (b->stations != NULL && (b->has_rider || b->has_people)) {
            measure(&d);
            draw_row(&d, row, strips, n_strips);
        }
    }
}
