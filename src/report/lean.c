/* lean.c - the buckled shape in words: which posts lean which way. */
#include "internal.h"

#include <math.h>

/* Of the largest shift: less at the top is no lean, less between is no bow. */
static const double noticed = 0.25;
enum { NAMED = 6 };

static const bw_post *post_of(const bw_case *deck, const bw_buckled_post *p)
{
    return &deck->bents[p->bent].posts[p->post];
}

typedef enum { LEANS_ON, LEANS_BACK, BOWS_ON, BOWS_BACK, STAYS, WAYS } way;

/* Furthest from the straight line between the ends, with its sign. */
static double bow_of(const bw_buckled_post *p)
{
    const double *x = p->shift;
    double most = 0.0;
    for (int k = 0; k < BW_BUCKLED_PLACES; k++) {
        const double t = (double)k / (BW_BUCKLED_PLACES - 1);
        const double bow = x[k] - x[0] - t * (x[BW_BUCKLED_PLACES - 1] - x[0]);
        most = fabs(bow) > fabs(most) ? bow : most;
    }
    return most;
}

static way way_of(const bw_buckled_post *p)
{
    const double top = p->shift[BW_BUCKLED_PLACES - 1], bow = bow_of(p);
    if (fabs(top) >= noticed && fabs(top) >= fabs(bow)) {
        return top > 0.0 ? LEANS_ON : LEANS_BACK;
    }
    return fabs(bow) < noticed ? STAYS : bow > 0.0 ? BOWS_ON : BOWS_BACK;
}

static const char *way_words(way w, bool along)
{
    static const char *const words[][WAYS] = {
        {"lean to the right", "lean to the left", "bow to the right", "bow to the left",
         "stay nearly upright"},
        {"lean forward", "lean back", "bow forward", "bow back", "stay nearly upright"}};
    return words[along ? 1 : 0][w];
}

static void add_way(const bw_case *deck, const bw_buckled *b, way w, bool along,
                    bw_text *out)
{
    size_t n = 0;
    for (size_t k = 0; k < b->n_posts; k++) {
        if (way_of(&b->posts[k]) == w) {
            if (n < NAMED) {
                bw_text_print(out, "%s%s", n == 0 ? " " : ", ",
                              post_of(deck, &b->posts[k])->name);
            }
            n++;
        }
    }
    if (n > NAMED) {
        bw_text_print(out, " and %zu more", n - NAMED);
    }
    if (n > 0) {
        bw_text_print(out, " %s;", way_words(w, along));
    }
}

static void add_bowing(const bw_buckled *b, bw_text *out)
{
    const size_t named = b->n_bowing < BW_BUCKLED_NAMED ? b->n_bowing : BW_BUCKLED_NAMED;
    for (size_t k = 0; k < named; k++) {
        bw_text_print(out, "%s%s", k == 0 ? " " : ", ", b->bowing[k]);
    }
    if (b->n_bowing > named) {
        bw_text_print(out, " and %zu more", b->n_bowing - named);
    }
    if (named > 0) {
        bw_text_print(out, " %s between the joints;", b->n_bowing > 1 ? "bow" : "bows");
    }
}

static const char *push_words(int direction, bool along)
{
    return direction == 0  ? ""
           : along         ? direction > 0 ? ", pushed forward" : ", pushed back"
           : direction > 0 ? ", pushed to the right"
                           : ", pushed to the left";
}

const char *bwi_buckled_words(const bw_assessment *a, size_t number, bool along,
                              bw_text *out)
{
    const bw_case *deck = a->deck;
    const bw_buckled *b = along ? &a->buckled_rows[number] : &a->buckled_bents[number];
    bw_text text = bw_text_new(out->arena);
    const bool buckles = !(b->factor > 1.0);
    const char *name = along ? deck->rows[number].name : deck->bents[number].name;
    bw_text_print(&text, "%s %s %s %.3g times %s%s%s: posts", along ? "row" : "bent",
                  name, buckles ? "BUCKLES:" : "would buckle under", b->factor,
                  b->combination == NULL ? "its loads" : b->combination,
                  buckles ? " is enough" : "", push_words(b->direction, along));
    for (int w = 0; w < WAYS; w++) {
        add_way(deck, b, (way)w, along, &text);
    }
    add_bowing(b, &text);
    bw_text_add(&text, buckles ? " or all of it the other way. What buckles has no bent "
                                 "shape: the rest of its checks is worked out for "
                                 "straight logs, so that it comes out too low."
                               : " or all of it the other way. Below 10 times its loads "
                                 "a frame is checked in its bent shape.");
    return bwi_or_fail(out, bw_text_string(&text));
}

const bw_buckled *bwi_buckled_lowest(const bw_assessment *a, bool along, size_t *number)
{
    const bw_buckled *all = along ? a->buckled_rows : a->buckled_bents;
    const size_t n = along ? a->deck->n_rows : a->deck->n_bents;
    const bw_buckled *lowest = NULL;
    for (size_t k = 0; all != NULL && k < n; k++) {
        if (all[k].has && (lowest == NULL || all[k].factor < lowest->factor)) {
            lowest = &all[k];
            *number = k;
        }
    }
    return lowest;
}

void bwi_text_buckled(const bw_assessment *a, bw_text *out)
{
    size_t number = 0;
    for (int along = 1; along >= 0; along--) {
        if (bwi_buckled_lowest(a, along != 0, &number) != NULL) {
            bw_text_add(out, "\n");
            bwi_paragraph(out,
                          "Buckling: ", bwi_buckled_words(a, number, along != 0, out));
        }
    }
}
