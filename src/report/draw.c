/* draw.c - logs, ground, holes and boards, as every view shows them. */
#include "html.h"

#include <math.h>
#include <string.h>

/* ---- members ---- */

const char *bwi_share_class(const bw_member_result *member)
{
    const bw_finding *f = bw_member_worst(member);
    if (f == NULL) {
        return "ux";
    }
    switch (bwi_member_verdict(member)) {
    case BW_OVER:
        return "u3";
    case BW_CANNOT_SAY:
        return "u9";
    default:
        return f->ratio.utilisation > 0.8   ? "u2"
               : f->ratio.utilisation > 0.5 ? "u1"
                                            : "u0";
    }
}

const char *bwi_share_text(bw_arena *arena, const bw_member_result *member)
{
    const bw_finding *f = bw_member_worst(member);
    if (f == NULL) {
        return "";
    }
    if (!isfinite(f->ratio.utilisation)) {
        return "?";
    }
    const char *percent = bwi_percent(arena, f->ratio.utilisation, 0);
    return percent == NULL ? NULL : bw_arena_print(arena, "%s %%", percent);
}

/* What a pointer resting on it reads. */
static void title_member(bw_text *out, const bw_member_result *m)
{
    const bw_finding *f = bw_member_worst(m);
    bwi_html(out, "<title>%s %s", m->role, m->name);
    if (f != NULL) {
        bwi_html(out, ": %s of its capacity, %s", bwi_share_text(out->arena, m),
                 bwi_or_fail(out, bwi_check_words(out->arena, f->check->id)));
    }
    bw_text_add(out, "</title>");
}

static void outline(bwi_svg *svg, const bw_drawn_log *log, const bwi_box *range)
{
    const bw_drawn_place *a = &log->places[0], *b = &log->places[log->n_places - 1];
    const double dx = b->x - a->x, dy = b->y - a->y, length = hypot(dx, dy);
    const double nx = length > 0.0 ? -dy / length : 0.0;
    const double ny = length > 0.0 ? dx / length : 1.0;
    bw_text_add(svg->out, "<path d=\"");
    const char *pen = "M";
    for (size_t k = 0; k < 2 * log->n_places; k++) {
        const bool back = k >= log->n_places;
        const bw_drawn_place *p = &log->places[back ? 2 * log->n_places - 1 - k : k];
        if (p->x < range->left - 1e-6 || p->x > range->right + 1e-6) {
            continue;
        }
        const double side = (back ? -0.5 : 0.5) * p->thickness;
        bw_text_print(svg->out, "%s%.1f %.1f", pen, bwi_px(svg, p->x + side * nx),
                      bwi_py(svg, p->y + side * ny));
        pen = "L";
    }
    bw_text_add(svg->out, "Z\"/>");
}

static void shape_of(bwi_svg *svg, const bw_drawn_log *log, const bwi_box *range)
{
    if (log->n_places == 1) {
        bw_text_print(svg->out, "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"%.1f\"/>",
                      bwi_px(svg, log->places->x), bwi_py(svg, log->places->y),
                      log->places->thickness / 2.0 * svg->scale);
    } else {
        outline(svg, log, range);
    }
    bw_text_add(svg->out, "</g>\n");
}

void bwi_draw_log(bwi_svg *svg, const bwi_drawer *w, const bw_drawn_log *log,
                  const bwi_box *range)
{
    const bw_member_result *m = &w->assessment->members[log->member];
    bw_text_print(svg->out, "<g class=\"log %s\"", bwi_share_class(m));
    if (w->live) {
        bw_text_print(svg->out, " data-member=\"%zu\"", log->member);
    }
    bw_text_add(svg->out, ">");
    title_member(svg->out, m);
    shape_of(svg, log, range);
}

void bwi_draw_outline(bwi_svg *svg, const bw_drawn_log *log, const bwi_box *range)
{
    bw_text_add(svg->out, "<g class=\"thin\">");
    shape_of(svg, log, range);
}

const bw_post *bwi_post_of(const bw_assessment *assessment, size_t member)
{
    const bw_member_result *m = &assessment->members[member];
    if (strcmp(m->role, "post") != 0) {
        return NULL;
    }
    const bw_bent *b = &assessment->deck->bents[m->bent];
    for (size_t k = 0; k < b->n_posts; k++) {
        if (b->posts[k].row == m->row) {
            return &b->posts[k];
        }
    }
    return NULL;
}

/* ---- surroundings ---- */

void bwi_draw_ground(bwi_svg *svg, double from, double to)
{
    const double step = 14.0, y = bwi_py(svg, 0.0);
    bw_text_print(svg->out, "<path class=\"g\" d=\"M%.1f %.1fH%.1f\"/>\n", from, y, to);
    bw_text_add(svg->out, "<path class=\"d\" d=\"");
    for (double x = from + step / 2.0; x < to; x += step) {
        bw_text_print(svg->out, "M%.1f %.1fl-5 5", x, y);
    }
    bw_text_add(svg->out, "\"/>\n");
}

static void rectangle(bwi_svg *svg, const char *classes, const bwi_box *b)
{
    bw_text_print(
        svg->out,
        "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/>\n",
        classes, bwi_px(svg, b->left), bwi_py(svg, b->top),
        (b->right - b->left) * svg->scale, (b->top - b->bottom) * svg->scale);
}

void bwi_draw_hole(bwi_svg *svg, const bw_post *post, const bw_drawn_log *log)
{
    const bw_drawn_place *foot = &log->places[0];
    const double pad = 0.1; /* [m] drawn thickness: the case gives its area only */
    const double width =
        post->hole_width > 0.0 ? post->hole_width : 2.0 * foot->thickness;
    if (post->foot == BW_FOOT_HOLE) {
        const bwi_box hole = {foot->x - width / 2.0, 0.0, foot->x + width / 2.0, foot->y};
        rectangle(svg, "hole", &hole);
    }
    if (post->pad_area > 0.0) {
        const double across = 2.0 * sqrt(post->pad_area / 3.14159265358979323846);
        const bwi_box under = {foot->x - across / 2.0, foot->y, foot->x + across / 2.0,
                               foot->y - pad};
        rectangle(svg, "pad", &under);
    } else if (post->foot == BW_FOOT_FIXED) {
        const bwi_box under = {foot->x - width / 2.0, foot->y, foot->x + width / 2.0,
                               foot->y - pad};
        rectangle(svg, "pad", &under);
    }
}

/* One dashed line, as wide as the boards are long: a dash for each gap. */
void bwi_draw_gaps(bwi_svg *svg, const bw_case *deck, const bwi_box *l, double first,
                   double width)
{
    const double x = l->left + first * (l->right - l->left);
    const double y = l->top + first * (l->bottom - l->top);
    bw_text_print(svg->out,
                  "<path class=\"gap\" stroke-width=\"%.1f\" stroke-dasharray=\"0.7 "
                  "%.3f\" d=\"M%.1f %.1fL%.1f %.1f\"/>\n",
                  width * svg->scale, bwi_board_pitch(deck) * svg->scale - 0.7,
                  bwi_px(svg, x), bwi_py(svg, y), bwi_px(svg, l->right) - 0.7,
                  bwi_py(svg, l->bottom));
}

/* On a live page boards that were checked can be pressed, like logs. */
static bool open_boards(bwi_svg *svg, const bwi_drawer *w)
{
    const bw_assessment *a = w->assessment;
    const size_t last = a->n_members - 1;
    if (!w->live || a->n_members == 0 || strcmp(a->members[last].role, "boards") != 0) {
        return false;
    }
    bw_text_print(svg->out, "<g data-member=\"%zu\">", last);
    title_member(svg->out, &a->members[last]);
    return true;
}

void bwi_draw_boards(bwi_svg *svg, const bwi_drawer *w, const bwi_box *top)
{
    const bw_case *deck = w->assessment->deck;
    const bool opened = open_boards(svg, w);
    const double thickness = deck->boards.board_thickness;
    const double length = hypot(top->right - top->left, top->bottom - top->top);
    const double pitch = bwi_board_pitch(deck);
    bw_text_print(svg->out,
                  "<path class=\"deck\" d=\"M%.1f %.1fL%.1f %.1fV%.1fL%.1f %.1fZ\"/>\n",
                  bwi_px(svg, top->left), bwi_py(svg, top->top), bwi_px(svg, top->right),
                  bwi_py(svg, top->bottom), bwi_py(svg, top->bottom - thickness),
                  bwi_px(svg, top->left), bwi_py(svg, top->top - thickness));
    const bwi_box middle = {top->left, top->top - thickness / 2.0, top->right,
                            top->bottom - thickness / 2.0};
    bwi_draw_gaps(svg, deck, &middle, pitch / length, thickness);
    bw_text_add(svg->out, opened ? "</g>\n" : "");
}
