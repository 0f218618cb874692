#include "law_deck.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

long bwt_law_number(const char *name, long usual)
{
    const char *text = getenv(name);
    return text != NULL ? strtol(text, NULL, 10) : usual;
}

/* ---- decks ---- */

const char *const bwt_grades[BWT_GRADES] = {
    "\"grade\": {\"largest_knot\": 0.05, \"knots_in_foot\": 0.1, \"spiral_grain\": "
    "\"1 in 30\", \"drying_check\": 0.05, \"insects\": \"none\", \"decay\": \"none\", "
    "\"dead_when_cut\": false}",
    "\"grade\": {\"largest_knot\": 0.12, \"knots_in_foot\": 0.2, \"spiral_grain\": "
    "\"1 in 19\", \"drying_check\": 0.2, \"insects\": \"none\", \"decay\": \"none\", "
    "\"dead_when_cut\": false}",
    "\"grade\": {\"largest_knot\": 0.14, \"knots_in_foot\": 0.28, \"spiral_grain\": "
    "\"1 in 11\", \"drying_check\": 0.3, \"insects\": \"pinholes\", \"decay\": \"none\", "
    "\"dead_when_cut\": true}",
};
static const char boards[] =
    "\"boards\": {\"species\": \"western larch\", \"grade\": \"No. 1\", \"width\": "
    "\"0.21 m\", \"thickness\": \"0.0431 m\", \"gap\": \"0.015 m\"}";

void bwt_grade_logs(bwt_deck *d, const char *grade)
{
    d->stringer_keys = d->cap_keys = d->post_keys = grade;
}

/* Where a post ends at the lowest: braces above it are refused. */
static double lowest_top(const bwt_deck *d, int bent)
{
    static const double boards_and_room = 0.07;
    return d->height[bent] - boards_and_room - fmax(d->stringer.butt, d->stringer.tip) -
           fmax(d->cap.butt, d->cap.tip);
}

/* Knees from the second bent on both ways, if it has posts there. */
static void add_knees(bwt_deck *d, uint64_t *random)
{
    const int bent = 1;
    const bool pulls = bwt_below(random, 2) == 0;
    const double height =
        fmin(d->height[bent] - bwt_uniform(random, 0.5, 0.6), lowest_top(d, bent));
    const double ahead = bwt_uniform(random, 0.35, 0.6);
    d->brace = d->post;
    d->brace.butt = d->brace.tip = bwt_uniform(random, 0.08, 0.13);
    for (int side = 0; side < (d->n_bents > 2 ? 2 : 1); side++) {
        for (int r = 0; r < 2; r++) {
            d->knee[d->n_knees++] = (bwt_knee){bent, r == 0 ? 0 : d->n_rows - 1, height,
                                               side == 0 ? -ahead : ahead, pulls};
        }
    }
}

/* Hollow or rotten logs, and a notch: in the top of a stringer, or under it near its
 * butt. */
static void add_flaws(bwt_deck *d, uint64_t *random)
{
    if (bwt_below(random, 6) == 0) {
        d->stringer_flaws.shell = d->stringer.tip * bwt_uniform(random, 0.3, 0.45);
    }
    if (bwt_below(random, 6) == 0) {
        d->post_flaws.shell = d->post.tip * bwt_uniform(random, 0.3, 0.45);
    }
    if (bwt_below(random, 6) == 0) {
        d->stringer_flaws.outer_loss = bwt_uniform(random, 0.002, 0.008);
        d->post_flaws.outer_loss = bwt_uniform(random, 0.002, 0.01);
    }
    bwt_flaws *s = &d->stringer_flaws;
    s->notch_below = bwt_below(random, 2) == 0;
    s->notch_at =
        s->notch_below ? bwt_uniform(random, 0.06, 0.1) : bwt_uniform(random, 0.15, 1.2);
    s->notch_depth = bwt_below(random, 5) == 0
                         ? d->stringer.tip * bwt_uniform(random, 0.05, 0.2)
                         : 0.0;
}

/* Seats that cut through half of a log are refused. */
static double seat_that_fits(const bwt_deck *d)
{
    const double s =
        fmin(d->stringer.butt, d->stringer.tip) - 2.0 * d->stringer_flaws.outer_loss;
    const double c = fmin(d->cap.butt, d->cap.tip);
    const double p = fmin(d->post.butt, d->post.tip) - 2.0 * d->post_flaws.outer_loss;
    return fmin(d->seat, 0.49 * fmin(s, fmin(c, p)));
}

bwt_deck bwt_law_deck(long number)
{
    uint64_t random = 77003u + 1000003u * (uint64_t)number;
    bwt_deck d = bwt_deck_random(&random);
    d.sill_least = 0.24; /* stiff enough to press as far as it reaches */
    d.basis = number % 2 == 0 ? "us_asd" : "eurocode";
    d.snow = bwt_below(&random, 3) == 0 ? bwt_uniform(&random, 300.0, 3000.0) : 0.0;
    d.tip_down = bwt_below(&random, 4) == 0;
    d.foot = bwt_below(&random, 8) == 0 ? "fixed" : "hole";
    d.seat = bwt_below(&random, 3) == 0 ? bwt_uniform(&random, 0.012, 0.045) : 0.0;
    if (bwt_below(&random, 2) == 0) {
        bwt_grade_logs(&d, bwt_grades[bwt_below(&random, BWT_GRADES - 1)]);
    }
    if (bwt_below(&random, 3) == 0) {
        d.boards = boards;
    }
    if (bwt_below(&random, 4) == 0) {
        add_knees(&d, &random);
    }
    add_flaws(&d, &random);
    d.seat = seat_that_fits(&d);
    return d;
}
