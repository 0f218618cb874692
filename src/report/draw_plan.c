/* draw_plan.c - the deck from above: boards, and the logs under them. */
#include "html.h"

#include <math.h>

enum { PAGE = 700, LEFT = 62, RIGHT = 58 };

typedef struct {
    const bwi_drawer *w;
    bwi_svg svg;
    bwi_strip strip;
    bwi_box range; /* [m] along, across */
} plan_drawing;

static const bw_case *deck_of(const plan_drawing *p)
{
    return p->w->assessment->deck;
}

static void fit(plan_drawing *p, double longest)
{
    const bw_case *deck = deck_of(p);
    const double margin = 0.5; /* [m] as in the elevations, so that they line up */
    double half = deck->boards.width / 2.0;
    const bw_drawn_view *view = &p->w->drawing->plan;
    for (size_t k = 0; k < view->n_logs; k++) {
        const bw_drawn_log *log = &view->logs[k];
        for (size_t j = 0; j < log->n_places; j++) {
            half = fmax(half, fabs(log->places[j].y));
        }
    }
    p->range = (bwi_box){deck->bents[p->strip.first].at, -half,
                         deck->bents[p->strip.last].at, half};
    p->svg.down = true;
    p->svg.scale = (PAGE - LEFT - RIGHT) / (longest + margin);
    p->svg.x0 = LEFT + (margin / 2.0 - p->range.left) * p->svg.scale;
    p->svg.y0 = 34.0 + half * p->svg.scale;
    p->svg.width = PAGE;
    p->svg.height = p->svg.y0 + half * p->svg.scale + 14.0;
}

static void draw_boards(plan_drawing *p)
{
    const double half = deck_of(p)->boards.width / 2.0;
    const double pitch = bwi_board_pitch(deck_of(p));
    const double start = deck_of(p)->bents[0].at, length = p->range.right - p->range.left;
    const double before = fmod(p->range.left - start, pitch); /* of a board cut off */
    const bwi_box middle = {p->range.left, 0.0, p->range.right, 0.0};
    bw_text_print(p->svg.out,
                  "<rect class=\"deck\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" "
                  "height=\"%.1f\"/>\n",
                  bwi_px(&p->svg, p->range.left), bwi_py(&p->svg, -half),
                  length * p->svg.scale, 2.0 * half * p->svg.scale);
    bwi_draw_gaps(&p->svg, deck_of(p), &middle, (pitch - before) / length, 2.0 * half);
}

static void draw_logs(plan_drawing *p)
{
    const bw_drawn_view *view = &p->w->drawing->plan;
    bw_text_add(p->svg.out, "<g class=\"under\">\n");
    for (size_t k = 0; k < view->n_logs; k++) {
        const bw_drawn_log *log = &view->logs[k];
        const double from = log->places[0].x, to = log->places[log->n_places - 1].x;
        const bool across = fabs(to - from) < 1e-6;
        if (across ? from > p->range.left - 1e-6 && to < p->range.right + 1e-6
                   : to > p->range.left + 1e-6 && from < p->range.right - 1e-6) {
            bwi_draw_log(&p->svg, p->w, log, &p->range);
        }
    }
    bw_text_add(p->svg.out, "</g>\n");
}

static void label(plan_drawing *p)
{
    bw_text *out = p->svg.out;
    const bw_case *deck = deck_of(p);
    for (size_t k = p->strip.first; k <= p->strip.last; k++) {
        const bwi_spot spot = {bwi_px(&p->svg, deck->bents[k].at), 10.0, 'm'};
        bwi_svg_label(&p->svg, BWI_BOLD, &spot, 1,
                      bwi_short(out->arena, deck->bents[k].name, 12));
    }
    const double half = deck->boards.width / 2.0, x = LEFT - 8.0;
    const bwi_box line = {x, bwi_py(&p->svg, -half), x, bwi_py(&p->svg, half)};
    const bwi_spot spot = {2.0, (line.top + line.bottom) / 2.0, 's'};
    bw_text_print(
        out, "<path class=\"d\" d=\"M%.1f %.1fV%.1fM%.1f %.1fl8 -8M%.1f %.1fl8 -8\"/>\n",
        x, line.top, line.bottom, x - 4.0, line.top + 4.0, x - 4.0, line.bottom + 4.0);
    bwi_svg_label(&p->svg, BWI_SMALL, &spot, 1,
                  bw_quantity_print(out->arena, BW_LENGTH, 2.0 * half, deck->units));
    for (size_t r = 0; r < deck->n_rows; r++) {
        const double at = bwi_px(
            &p->svg,
            (deck->bents[p->strip.first].at + deck->bents[p->strip.first + 1].at) / 2.0);
        const bwi_spot name = {at, bwi_py(&p->svg, deck->rows[r].across), 'm'};
        bwi_svg_label(&p->svg, BWI_SMALL, &name, 1,
                      bwi_short(out->arena, deck->rows[r].name, 16));
    }
}

static void draw_strip(plan_drawing *p, size_t number, size_t count)
{
    bw_text *out = p->svg.out;
    const bw_case *deck = deck_of(p);
    const char *title =
        count == 1 ? "The deck from above"
                   : bw_arena_print(out->arena, "The deck from above, bents %s to %s",
                                    deck->bents[p->strip.first].name,
                                    deck->bents[p->strip.last].name);
    p->svg.id = bw_arena_print(out->arena, "plan-%zu", number + 1);
    p->svg.n_boxes = 0;
    bw_text_add(out, "<figure>\n");
    bwi_svg_open(
        &p->svg, bwi_or_fail(out, title),
        "To scale: boards across the deck, the stringers and caps under them drawn "
        "through. The left of the deck is at the top.");
    draw_boards(p);
    draw_logs(p);
    label(p);
    bwi_svg_close(&p->svg);
    bwi_html(out, "<figcaption>%s.</figcaption>\n</figure>\n", bwi_or_fail(out, title));
}

void bwi_draw_plan(const bwi_drawer *w)
{
    const bw_case *deck = w->assessment->deck;
    size_t n_strips = 0;
    const bwi_strip *strips = bwi_strips(w->out->arena, deck, &n_strips);
    if (strips == NULL) {
        w->out->failed = true;
        return;
    }
    const double longest = bwi_longest_strip(deck, strips, n_strips);
    for (size_t k = 0; k < n_strips; k++) {
        plan_drawing p = {.w = w, .svg = {.out = w->out}, .strip = strips[k]};
        fit(&p, longest);
        draw_strip(&p, k, n_strips);
    }
}
