/* svg.c - lines, labels and dimensions of a drawing. Labels keep off each other by the
 * boxes that their letters take, reckoned wide enough for common typefaces. */
#include "html.h"

#include <math.h>

static double letter_height(bwi_letters letters)
{
    return letters == BWI_SMALL ? 10.5 : 12.0; /* as in the style sheet */
}

double bwi_px(const bwi_svg *svg, double x)
{
    return svg->x0 + x * svg->scale;
}

double bwi_py(const bwi_svg *svg, double y)
{
    return svg->down ? svg->y0 + y * svg->scale : svg->y0 - y * svg->scale;
}

void bwi_svg_open(bwi_svg *svg, const char *title, const char *description)
{
    bwi_html(svg->out,
             "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"%s\">",
             title);
    bw_text_print(svg->out,
                  "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" id=\"%s\" "
                  "aria-labelledby=\"%s-t %s-d\" viewBox=\"0 0 %.0f %.0f\" "
                  "width=\"%.0f\" height=\"%.0f\">\n",
                  svg->id, svg->id, svg->id, svg->width, svg->height, svg->width,
                  svg->height);
    bw_text_print(svg->out, "<title id=\"%s-t\">", svg->id);
    bwi_html(svg->out, "%s</title>\n", title);
    bw_text_print(svg->out, "<desc id=\"%s-d\">", svg->id);
    bwi_html(svg->out, "%s</desc>\n", description);
}

void bwi_svg_close(bwi_svg *svg)
{
    bw_text_add(svg->out, "</svg></div>\n");
}

void bwi_svg_line(const bwi_svg *svg, const char *classes, const bwi_box *l)
{
    bw_text_print(svg->out, "<path class=\"%s\" d=\"M%.1f %.1fL%.1f %.1f\"/>\n", classes,
                  l->left, l->top, l->right, l->bottom);
}

/* ---- labels ---- */

double bwi_label_width(const char *text, bwi_letters letters)
{
    const double per_letter = letters == BWI_BOLD ? 0.66 : 0.6;
    return (double)bw_text_columns(text) * per_letter * letter_height(letters);
}

static bwi_box box_of(const bwi_spot *spot, const char *text, bwi_letters letters)
{
    const double width = bwi_label_width(text, letters);
    const double half = 0.6 * letter_height(letters);
    const double left = spot->anchor == 's'   ? spot->x
                        : spot->anchor == 'm' ? spot->x - width / 2.0
                                              : spot->x - width;
    return (bwi_box){left, spot->y - half, left + width, spot->y + half};
}

static bool is_free(const bwi_svg *svg, const bwi_box *b)
{
    if (b->left < 0.0 || b->top < 0.0 || b->right > svg->width ||
        b->bottom > svg->height) {
        return false;
    }
    for (size_t k = 0; k < svg->n_boxes; k++) {
        const bwi_box *o = &svg->boxes[k];
        if (b->left < o->right && o->left < b->right && b->top < o->bottom &&
            o->top < b->bottom) {
            return false;
        }
    }
    return true;
}

void bwi_svg_take(bwi_svg *svg, bwi_box box)
{
    bwi_box *boxes = bw_arena_grow(svg->out->arena, svg->boxes, svg->n_boxes, &svg->room,
                                   sizeof *boxes);
    if (boxes == NULL) {
        svg->out->failed = true;
        return;
    }
    svg->boxes = boxes;
    boxes[svg->n_boxes++] = box;
}

static void write_label(bwi_svg *svg, const bwi_spot *spot, bwi_letters letters,
                        const char *text)
{
    static const char *const classes[] = {"s", "p", "b"};
    const char *anchor = spot->anchor == 's'   ? "start"
                         : spot->anchor == 'm' ? "middle"
                                               : "end";
    /* the base line lies about 0.35 of the letters' height below their middle */
    bw_text_print(
        svg->out, "<text class=\"%s\" x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\">",
        classes[letters], spot->x, spot->y + 0.35 * letter_height(letters), anchor);
    bwi_html(svg->out, "%s</text>\n", text);
    bwi_svg_take(svg, box_of(spot, text, letters));
}

bool bwi_svg_label(bwi_svg *svg, bwi_letters letters, const bwi_spot *spots,
                   size_t n_spots, const char *text)
{
    enum { STEPS = 60 };
    if (bwi_or_fail(svg->out, text)[0] == '\0') {
        return false;
    }
    for (size_t k = 0; k < n_spots * (1 + STEPS); k++) {
        bwi_spot spot = spots[k % n_spots];
        const size_t moves = k / n_spots;
        const double away = 5.0 * (double)((moves + 1) / 2);
        spot.y += moves % 2 == 1 ? away : -away;
        const bwi_box box = box_of(&spot, text, letters);
        if (is_free(svg, &box)) {
            write_label(svg, &spot, letters, text);
            return true;
        }
    }
    return false;
}

/* ---- dimensions ---- */

void bwi_svg_dimension(bwi_svg *svg, const bwi_box *d, const char *text)
{
    const double tick = 4.0;
    const bool level = fabs(d->right - d->left) >= fabs(d->bottom - d->top);
    bw_text_print(svg->out,
                  "<path class=\"d\" d=\"M%.1f %.1fL%.1f %.1fM%.1f %.1fl8 -8M%.1f "
                  "%.1fl8 -8\"/>\n",
                  d->left, d->top, d->right, d->bottom, d->left - tick, d->top + tick,
                  d->right - tick, d->bottom + tick);
    const double x = (d->left + d->right) / 2.0, y = (d->top + d->bottom) / 2.0;
    const bwi_spot level_spots[] = {
        {x, y - 9.0, 'm'}, {x, y + 9.0, 'm'}, {x, y + 21.0, 'm'}};
    const bwi_spot upright_spots[] = {{x - 6.0, y, 'e'}, {x + 6.0, y, 's'}};
    if (level) {
        bwi_svg_label(svg, BWI_SMALL, level_spots, 3, text);
    } else {
        bwi_svg_label(svg, BWI_SMALL, upright_spots, 2, text);
        bwi_svg_take(svg, (bwi_box){x - tick, fmin(d->top, d->bottom), x + tick,
                                    fmax(d->top, d->bottom)});
    }
}
