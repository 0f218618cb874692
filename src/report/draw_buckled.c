/* draw_buckled.c - the shape in which the row and the bent nearest to buckling would go,
 * over the shape in which they stand. */
#include "html.h"

#include <math.h>

enum { PAGE = 700, LEFT = 62, TALLEST = 220, N = BW_BUCKLED_PLACES };

typedef struct {
    const bwi_drawer *w;
    const bw_buckled *shape;
    const bw_drawn_view *view;
    bwi_svg svg;
    size_t number;
    bool along;
    size_t first, last; /* bents drawn, of a row */
    double amplitude;   /* [m] that a shift of 1 is drawn */
} buckled_drawing;

static const bw_case *deck_of(const buckled_drawing *d)
{
    return d->w->assessment->deck;
}

static double post_x(const buckled_drawing *d, const bw_buckled_post *p)
{
    const bw_bent *b = &deck_of(d)->bents[p->bent];
    return d->along ? b->at : deck_of(d)->rows[b->posts[p->post].row].across;
}

static bool is_drawn(const buckled_drawing *d, const bw_buckled_post *p)
{
    return !d->along || (p->bent >= d->first && p->bent <= d->last);
}

/* The strip with the post that goes furthest. */
static void choose_strip(buckled_drawing *d)
{
    size_t n = 0, worst = 0;
    double most = -1.0;
    for (size_t k = 0; k < d->shape->n_posts; k++) {
        for (int j = 0; j < N; j++) {
            if (fabs(d->shape->posts[k].shift[j]) > most * (1.0 + 1e-9)) {
                most = fabs(d->shape->posts[k].shift[j]);
                worst = d->shape->posts[k].bent;
            }
        }
    }
    const bwi_strip *strips = bwi_strips(d->svg.out->arena, deck_of(d), &n);
    d->svg.out->failed = d->svg.out->failed || strips == NULL;
    for (size_t k = 0; strips != NULL && k < n; k++) {
        if (strips[k].first <= worst && worst <= strips[k].last) {
            d->first = strips[k].first;
            d->last = strips[k].last;
        }
    }
}

/* Outermost places of what is drawn. */
static bwi_box extent(const buckled_drawing *d)
{
    bwi_box box = {HUGE_VAL, 0.0, -HUGE_VAL, 0.0};
    for (size_t k = 0; k < d->view->n_logs; k++) {
        for (size_t j = 0; j < d->view->logs[k].n_places; j++) {
            const bw_drawn_place *p = &d->view->logs[k].places[j];
            box.left = fmin(box.left, p->x);
            box.right = fmax(box.right, p->x);
            box.top = fmax(box.top, p->y + p->thickness / 2.0);
            box.bottom = fmin(box.bottom, p->y);
        }
    }
    if (d->along) {
        box.left = deck_of(d)->bents[d->first].at;
        box.right = deck_of(d)->bents[d->last].at;
    }
    return box;
}

static void fit(buckled_drawing *d)
{
    const double margin = 0.5; /* [m] at either side: for the shape and outer logs */
    const bwi_box box = extent(d);
    const double wide = box.right - box.left + 2.0 * margin, high = box.top - box.bottom;
    d->svg.scale = fmin((PAGE - 2.0 * LEFT) / wide, TALLEST / high);
    d->svg.width = PAGE;
    d->svg.x0 = d->svg.width / 2.0 - (box.left + box.right) / 2.0 * d->svg.scale;
    d->svg.y0 = 30.0 + box.top * d->svg.scale;
    d->svg.height = d->svg.y0 - box.bottom * d->svg.scale + 12.0;
    d->amplitude = fmin(0.8 * margin, 0.25 * box.top);
}

static void draw_post(const buckled_drawing *d, const bw_buckled_post *p)
{
    bw_text *out = d->svg.out;
    bw_text_add(out, "<path class=\"gone\" d=\"");
    for (int k = 0; k < N; k++) {
        bw_text_print(out, "%s%.1f %.1f", k == 0 ? "M" : "L",
                      bwi_px(&d->svg, post_x(d, p) + d->amplitude * p->shift[k]),
                      bwi_py(&d->svg, p->height * k / (N - 1)));
    }
    bw_text_add(out, "\"/>\n");
}

/* What lies on the posts goes with their tops. */
static void draw_tops(const buckled_drawing *d)
{
    const char *pen = "M";
    bw_text_add(d->svg.out, "<path class=\"gone\" d=\"");
    for (size_t k = 0; k < d->shape->n_posts; k++) {
        const bw_buckled_post *p = &d->shape->posts[k];
        if (is_drawn(d, p)) {
            const double x = post_x(d, p) + d->amplitude * p->shift[N - 1];
            bw_text_print(d->svg.out, "%s%.1f %.1f", pen, bwi_px(&d->svg, x),
                          bwi_py(&d->svg, p->height));
            pen = "L";
        }
    }
    bw_text_add(d->svg.out, "\"/>\n");
}

static void draw_logs(buckled_drawing *d)
{
    const bwi_box all = {-1e9, 1e9, 1e9, -1e9};
    const bwi_box box = extent(d);
    const bwi_box range = d->along ? box : all;
    for (size_t k = 0; k < d->view->n_logs; k++) {
        const bw_drawn_log *log = &d->view->logs[k];
        const double from = log->places[0].x, to = log->places[log->n_places - 1].x;
        if (fmax(from, to) >= range.left - 1e-6 && fmin(from, to) <= range.right + 1e-6) {
            bwi_draw_outline(&d->svg, log, &range);
        }
    }
}

static void name_bents(buckled_drawing *d)
{
    for (size_t k = d->first; d->along && k <= d->last; k++) {
        const bw_bent *b = &deck_of(d)->bents[k];
        const bwi_spot spot = {bwi_px(&d->svg, b->at), 10.0, 'm'};
        bwi_svg_label(&d->svg, BWI_BOLD, &spot, 1,
                      bwi_short(d->svg.out->arena, b->name, 12));
    }
}

static void draw(buckled_drawing *d)
{
    bw_text *out = d->svg.out;
    const char *name =
        d->along ? deck_of(d)->rows[d->number].name : deck_of(d)->bents[d->number].name;
    const char *title = bw_arena_print(out->arena, "How %s %s would buckle",
                                       d->along ? "row" : "bent", name);
    const char *words = bwi_buckled_words(d->w->assessment, d->number, d->along, out);
    d->svg.id = d->along ? "buckled-row" : "buckled-bent";
    bw_text_add(out, "<figure>\n");
    bwi_svg_open(&d->svg, bwi_or_fail(out, title), words);
    draw_logs(d);
    bwi_draw_ground(&d->svg, 10.0, d->svg.width - 10.0);
    draw_tops(d);
    for (size_t k = 0; k < d->shape->n_posts; k++) {
        if (is_drawn(d, &d->shape->posts[k])) {
            draw_post(d, &d->shape->posts[k]);
        }
    }
    name_bents(d);
    bwi_svg_close(&d->svg);
    bwi_html(out,
             "<figcaption>%s, thick and dashed, over how it stands; drawn many times too "
             "large. As it is loaded, %s</figcaption>\n</figure>\n",
             bwi_or_fail(out, title), words);
}

void bwi_draw_buckled(const bwi_drawer *w)
{
    for (int along = 1; along >= 0; along--) {
        buckled_drawing d = {.w = w, .svg = {.out = w->out}, .along = along != 0};
        d.shape = bwi_buckled_lowest(w->assessment, d.along, &d.number);
        if (d.shape == NULL || d.shape->n_posts == 0) {
            continue;
        }
        d.view = d.along ? &w->drawing->rows[d.number] : &w->drawing->bents[d.number];
        if (d.along) {
            choose_strip(&d);
        }
        fit(&d);
        draw(&d);
    }
}
