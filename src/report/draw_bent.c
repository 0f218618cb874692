/* draw_bent.c - the bents seen along the deck; bents that look alike are drawn once. */
#include "html.h"

#include <math.h>
#include <string.h>

enum { PAGE = 356, LEFT = 84, RIGHT = 84, WIDEST = 188, TALLEST = 300 };

/* Two bents that differ by less are drawn as one [m]. */
static const double alike = 0.026;

typedef struct {
    const bwi_drawer *w;
    bwi_svg svg;
    size_t bent;
    const bool *same; /* per bent: drawn with this one */
} bent_drawing;

static const bw_case *deck_of(const bent_drawing *b)
{
    return b->w->assessment->deck;
}

/* ---- which look alike ---- */

static bool same_log(const bw_assessment *a, const bw_drawn_log *x, const bw_drawn_log *y)
{
    const bw_member_result *mx = &a->members[x->member], *my = &a->members[y->member];
    if (strcmp(mx->role, my->role) != 0 || x->n_places != y->n_places ||
        (mx->log != my->log && strcmp(mx->role, "stringer") != 0)) {
        return false;
    }
    for (size_t k = 0; k < x->n_places; k++) {
        if (fabs(x->places[k].x - y->places[k].x) > alike ||
            fabs(x->places[k].y - y->places[k].y) > alike ||
            fabs(x->places[k].thickness - y->places[k].thickness) > alike) {
            return false;
        }
    }
    return true;
}

static bool same_feet(const bw_bent *x, const bw_bent *y)
{
    for (size_t k = 0; k < x->n_posts && k < y->n_posts; k++) {
        const bw_post *p = &x->posts[k], *q = &y->posts[k];
        if (p->foot != q->foot || p->soil != q->soil || p->tip_down != q->tip_down ||
            fabs(p->pad_area - q->pad_area) > 0.01 ||
            fabs(p->hole_width - q->hole_width) > alike) {
            return false;
        }
    }
    return x->n_posts == y->n_posts;
}

static bool look_alike(const bwi_drawer *w, size_t x, size_t y)
{
    const bw_drawn_view *a = &w->drawing->bents[x], *b = &w->drawing->bents[y];
    const bw_bent *first = &w->assessment->deck->bents[x];
    const bw_bent *second = &w->assessment->deck->bents[y];
    if (a->n_logs != b->n_logs || first->is_sill != second->is_sill ||
        fabs(first->deck_height - second->deck_height) > 1e-3 ||
        !same_feet(first, second)) {
        return false;
    }
    for (size_t k = 0; k < a->n_logs; k++) {
        if (!same_log(w->assessment, &a->logs[k], &b->logs[k])) {
            return false;
        }
    }
    return true;
}

/* ---- drawing ---- */

/* The worst of the log and of its like in the other bents. */
static size_t worst_like(const bent_drawing *b, size_t log)
{
    const bw_drawing *d = b->w->drawing;
    size_t worst = d->bents[b->bent].logs[log].member;
    for (size_t k = 0; k < deck_of(b)->n_bents; k++) {
        const size_t member = b->same[k] ? d->bents[k].logs[log].member : worst;
        const double u = b->w->assessment->members[member].worst;
        if (!(u <= b->w->assessment->members[worst].worst)) {
            worst = member;
        }
    }
    return worst;
}

static void fit(bent_drawing *b)
{
    const bw_drawn_view *view = &b->w->drawing->bents[b->bent];
    const bw_case *deck = deck_of(b);
    double half = deck->boards.width / 2.0, low = 0.0;
    const double high = deck->bents[b->bent].deck_height;
    for (size_t k = 0; k < view->n_logs; k++) {
        const bw_drawn_log *log = &view->logs[k];
        for (size_t j = 0; j < log->n_places; j++) {
            half = fmax(half, fabs(log->places[j].x) + log->places[j].thickness / 2.0);
            low = fmin(low, log->places[j].y);
        }
    }
    b->svg.scale = fmin(fmin(WIDEST / (2.0 * half), TALLEST / (high - low)), 170.0);
    b->svg.width = PAGE;
    b->svg.x0 = PAGE / 2.0;
    b->svg.y0 = 44.0 + high * b->svg.scale;
    b->svg.height = b->svg.y0 - low * b->svg.scale + 48.0;
}

static const char *length(bent_drawing *b, double value)
{
    return bwi_or_fail(b->svg.out, bw_quantity_print(b->svg.out->arena, BW_LENGTH, value,
                                                     deck_of(b)->units));
}

static void draw_logs(bent_drawing *b)
{
    const bw_drawn_view *view = &b->w->drawing->bents[b->bent];
    const bwi_box all = {-1e9, 1e9, 1e9, -1e9};
    for (size_t k = 0; k < view->n_logs; k++) {
        const bw_post *post = bwi_post_of(b->w->assessment, view->logs[k].member);
        if (post != NULL) {
            bwi_draw_hole(&b->svg, post, &view->logs[k]);
        }
    }
    for (size_t k = 0; k < view->n_logs; k++) {
        bw_drawn_log log = view->logs[k];
        log.member = worst_like(b, k);
        bwi_draw_log(&b->svg, b->w, &log, &all);
    }
}

static void label_log(bent_drawing *b, size_t k)
{
    const bw_drawn_log *log = &b->w->drawing->bents[b->bent].logs[k];
    const bw_member_result *m = &b->w->assessment->members[worst_like(b, k)];
    const bw_drawn_place *first = &log->places[0],
                         *last = &log->places[log->n_places - 1];
    const double x = bwi_px(&b->svg, (first->x + last->x) / 2.0);
    const double y = bwi_py(&b->svg, (first->y + last->y) / 2.0);
    const char *share = bwi_or_fail(b->svg.out, bwi_share_text(b->svg.out->arena, m));
    if (bwi_post_of(b->w->assessment, log->member) != NULL) {
        const double half = last->thickness / 2.0 * b->svg.scale + 4.0;
        const double up = bwi_py(&b->svg, last->y / 2.0);
        const bool left = last->x < 0.0;
        const bwi_spot spots[] = {{left ? x + half : x - half, up, left ? 's' : 'e'},
                                  {left ? x - half : x + half, up, left ? 'e' : 's'}};
        bwi_svg_label(&b->svg, BWI_BOLD, spots, 2, share);
    } else if (strcmp(m->role, "brace") == 0) {
        const double dx = (last->x - first->x) * b->svg.scale;
        const double dy = (first->y - last->y) * b->svg.scale;
        const bwi_spot spots[] = {{x - 0.2 * dx, y - 0.2 * dy, 'm'},
                                  {x + 0.2 * dx, y + 0.2 * dy, 'm'},
                                  {x, y, 'm'}};
        bwi_svg_label(&b->svg, BWI_SMALL, spots, 3, share);
    } else if (log->n_places > 1) {
        const bwi_spot spot = {x, y, 'm'};
        bwi_svg_label(&b->svg, BWI_BOLD, &spot, 1, share);
    }
}

/* ---- dimensions ---- */

static void dimension_rows(bent_drawing *b)
{
    const bw_drawn_view *view = &b->w->drawing->bents[b->bent];
    double at[64];
    size_t n = 0;
    for (size_t k = 0; k < view->n_logs && n < 64; k++) {
        const bw_drawn_log *log = &view->logs[k];
        const char *role = b->w->assessment->members[log->member].role;
        if (strcmp(role, "stringer") == 0) {
            size_t j = n++;
            for (; j > 0 && at[j - 1] > log->places->x; j--) {
                at[j] = at[j - 1];
            }
            at[j] = log->places->x;
        }
    }
    const double y = b->svg.height - 22.0;
    for (size_t k = 0; k + 1 < n; k++) {
        const bwi_box line = {bwi_px(&b->svg, at[k]), y, bwi_px(&b->svg, at[k + 1]), y};
        bwi_svg_dimension(&b->svg, &line, length(b, at[k + 1] - at[k]));
    }
}

static void dimension_all(bent_drawing *b)
{
    const bw_bent *bent = &deck_of(b)->bents[b->bent];
    const double half = deck_of(b)->boards.width / 2.0;
    const bwi_box width = {bwi_px(&b->svg, -half), 24.0, bwi_px(&b->svg, half), 24.0};
    bwi_svg_dimension(&b->svg, &width, length(b, 2.0 * half));
    const double left = LEFT - 8.0, ground = bwi_py(&b->svg, 0.0);
    const bwi_box high = {left, bwi_py(&b->svg, bent->deck_height), left, ground};
    bwi_svg_dimension(&b->svg, &high, length(b, bent->deck_height));
    double deepest = 0.0;
    for (size_t k = 0; k < bent->n_posts; k++) {
        deepest =
            fmax(deepest,
                 bent->posts[k].foot == BW_FOOT_HOLE ? bent->posts[k].hole_depth : 0.0);
    }
    if (deepest > 0.0) {
        const double right = PAGE - RIGHT + 8.0;
        const double x = right, foot = bwi_py(&b->svg, -deepest);
        const bwi_box deep = {x, ground, x, foot};
        const bwi_spot spots[] = {{x + 6.0, (ground + foot) / 2.0, 's'},
                                  {x - 6.0, (ground + foot) / 2.0, 'e'}};
        bw_text_print(b->svg.out,
                      "<path class=\"d\" d=\"M%.1f %.1fV%.1fM%.1f %.1fl8 -8M%.1f %.1fl8 "
                      "-8\"/>\n",
                      x, deep.top, deep.bottom, x - 4.0, deep.top + 4.0, x - 4.0,
                      deep.bottom + 4.0);
        bwi_svg_label(&b->svg, BWI_SMALL, spots, 2, length(b, deepest));
        bwi_svg_take(&b->svg, (bwi_box){x - 4.0, ground, x + 4.0, foot});
    }
    dimension_rows(b);
}

/* ---- one figure ---- */

static const char *names(bent_drawing *b)
{
    bw_text list = bw_text_new(b->svg.out->arena);
    size_t count = 0, shown = 0;
    const size_t most = 8;
    for (size_t k = 0; k < deck_of(b)->n_bents; k++) {
        count += b->same[k] ? 1 : 0;
    }
    for (size_t k = 0; k < deck_of(b)->n_bents && shown < most; k++) {
        if (b->same[k]) {
            bw_text_print(&list, "%s%s",
                          shown == 0 ? (count > 1 ? "Bents " : "Bent ") : ", ",
                          deck_of(b)->bents[k].name);
            shown++;
        }
    }
    if (count > shown) {
        bw_text_print(&list, " and %zu more", count - shown);
    }
    return bwi_or_fail(b->svg.out, bw_text_string(&list));
}

static void draw(bent_drawing *b)
{
    bw_text *out = b->svg.out;
    const bw_bent *bent = &deck_of(b)->bents[b->bent];
    const double half = deck_of(b)->boards.width / 2.0;
    const bwi_box top = {-half, bent->deck_height, half, bent->deck_height};
    const char *title = bw_arena_print(out->arena, "%s seen along the deck", names(b));
    b->svg.id = bw_arena_print(out->arena, "bent%zu", b->bent + 1);
    bw_text_add(out, "<figure>\n");
    bwi_svg_open(
        &b->svg, bwi_or_fail(out, title),
        "To scale, with the width of the deck, its height, the places of the rows "
        "and the depth of the holes. Percent of the capacity in use.");
    bw_text_print(out,
                  "<rect class=\"deck\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" "
                  "height=\"%.1f\"/>\n",
                  bwi_px(&b->svg, top.left), bwi_py(&b->svg, top.top),
                  2.0 * half * b->svg.scale,
                  deck_of(b)->boards.board_thickness * b->svg.scale);
    draw_logs(b);
    bwi_draw_ground(&b->svg, LEFT - 16.0, PAGE - RIGHT + 16.0);
    dimension_all(b);
    for (size_t k = 0; k < b->w->drawing->bents[b->bent].n_logs; k++) {
        label_log(b, k);
    }
    bwi_svg_close(&b->svg);
    bwi_html(out, "<figcaption>%s%s</figcaption>\n</figure>\n", names(b),
             bent->is_sill       ? ": a sill on the ground."
             : bent->n_posts > 0 ? "."
                                 : ", without posts.");
}

void bwi_draw_bents(const bwi_drawer *w)
{
    const size_t n = w->assessment->deck->n_bents;
    bool *done = BW_NEW(w->out->arena, bool, n), *same = BW_NEW(w->out->arena, bool, n);
    if (done == NULL || same == NULL) {
        w->out->failed = true;
        return;
    }
    bw_text_add(w->out, "<div class=\"pair\">\n");
    for (size_t k = 0; k < n; k++) {
        bent_drawing b = {.w = w, .svg = {.out = w->out}, .bent = k, .same = same};
        for (size_t j = 0; j < n; j++) {
            same[j] = !done[j] && !done[k] && look_alike(w, k, j);
        }
        for (size_t j = 0; j < n; j++) {
            done[j] = done[j] || same[j];
        }
        if (same[k]) {
            fit(&b);
            draw(&b);
        }
    }
    bw_text_add(w->out, "</div>\n");
}
