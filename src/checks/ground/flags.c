/* flags.c - rules of the ground that are no checks: each compares a length that a post
 * has with the one that it should have, and names the posts that fall short. */
#include "ground.h"

#include <math.h>

enum { NAMED_POSTS = 4 }; /* in one flag; the others are counted */

/* What the rules look at. */
typedef struct {
    const bw_ground_post *posts; /* along the deck */
    size_t n_posts;
    const bw_ground_site *site;
} ground;

/* Keeps to the rule if has >= wants; a post that the rule is not for wants 0. */
typedef struct {
    double has, wants; /* [m] */
} lengths;

typedef struct {
    const char *heading;
    bw_mark mark;
    const char *source;
    lengths (*look)(const ground *g, size_t post);
    bool to_do; /* a check counts on it: without it, it shows less than is asked, or what
                   it found no longer lies where it did */
} rule;

static const double foot_in_inches = 12.0;

/* ---- the rules ---- */

static lengths third_of_length(const ground *g, size_t post)
{
    const bw_ground_post *p = &g->posts[post];

    return (lengths){p->hole_depth, p->hole_depth > 0.0 ? p->length / 3.0 : 0.0};
}

static lengths below_frost(const ground *g, size_t post)
{
    return (lengths){g->posts[post].hole_depth, g->site->frost_depth};
}

/* Silent about those that are not below the frost at all: they are told there. */
static lengths foot_below_frost(const ground *g, size_t post)
{
    const double has = g->posts[post].hole_depth, frost = g->site->frost_depth;
    const bool asked = frost > 0.0 && has >= frost;

    return (lengths){has, asked ? frost + foot_in_inches * bw_inch : 0.0};
}

static lengths foot_below_surface(const ground *g, size_t post)
{
    return (lengths){g->posts[post].hole_depth, foot_in_inches * bw_inch};
}

static lengths room_to_pack(const ground *g, size_t post)
{
    const bw_ground_post *p = &g->posts[post];
    const bool asked = p->hole_depth > 0.0 && p->hole_width > 0.0;

    return (lengths){p->hole_width, asked ? 2.0 * p->width : 0.0};
}

/* Distance to the nearest other post in a hole, as far as the reach. */
static double nearest(const ground *g, size_t post, double reach)
{
    const bw_ground_post *p = &g->posts[post];
    double least = HUGE_VAL;

    for (size_t k = post; k-- > 0 && p->at - g->posts[k].at < reach;) {
        if (g->posts[k].hole_depth > 0.0) {
            least = fmin(least,
                         hypot(p->at - g->posts[k].at, p->across - g->posts[k].across));
        }
    }
    for (size_t k = post + 1; k < g->n_posts && g->posts[k].at - p->at < reach; k++) {
        if (g->posts[k].hole_depth > 0.0) {
            least = fmin(least,
                         hypot(p->at - g->posts[k].at, p->across - g->posts[k].across));
        }
    }
    return least;
}

static lengths stands_alone(const ground *g, size_t post)
{
    const bw_ground_post *p = &g->posts[post];
    const double reach = fmax(4.5 * p->width, 3.0 * p->hole_width);

    if (!(p->hole_depth > 0.0)) {
        return (lengths){0.0, 0.0};
    }
    return (lengths){nearest(g, post, reach), reach};
}

static lengths known_soil(const ground *g, size_t post)
{
    const bool known = bw_soil_find(g->posts[post].soil).bearing.value > 0.0;

    return (lengths){g->posts[post].hole_depth, known ? 0.0 : HUGE_VAL};
}

static const rule rules[] = {
    {"less than a third of the post in the ground", BW_MARK_PRACTICE,
     "rule of thumb of fence and pole builders", third_of_length, false},
    {"dig deeper, or the frost lifts the post: the foot is not below the frost",
     BW_MARK_MEMORY, "IBC 1809.5", below_frost, true},
    {"the foot is less than 1 ft below the frost", BW_MARK_PRACTICE,
     "rule of thumb of fence builders", foot_below_frost, false},
    {"the foot is less than 1 ft below the surface", BW_MARK_MEMORY, "IBC 1809.4",
     foot_below_surface, false},
    {"the hole is narrower than two posts: no room to pack it", BW_MARK_PRACTICE,
     "rule of thumb of fence builders", room_to_pack, false},
    {"set posts further apart, or dig for more: too close to count as single, they push "
     "on the same soil, which then bears less than the check says",
     BW_MARK_READ, "ASABE EP486 (2012): 4.5 posts or 3 holes apart", stands_alone, true},
    {"the soil is not given: its checks cannot say", BW_MARK_NONE, NULL, known_soil,
     false},
};

/* ---- words ---- */

/* "B1 left (2 ft of 2 ft 5 in)"; a length that has no end is not printed. */
static void add_post(bw_text *out, const ground *g, size_t post, lengths l)
{
    const bw_units units = g->site->units;

    bw_text_print(out, "%s", g->posts[post].name != NULL ? g->posts[post].name : "?");
    if (isfinite(l.has) && isfinite(l.wants)) {
        const char *has = bw_quantity_print(out->arena, BW_LENGTH, l.has, units);
        const char *wants = bw_quantity_print(out->arena, BW_LENGTH, l.wants, units);
        out->failed = out->failed || has == NULL || wants == NULL;
        bw_text_print(out, " (%s of %s)", has != NULL ? has : "",
                      wants != NULL ? wants : "");
    }
}

/* The posts that break the rule; null if none does or memory ran out (noted). */
static const char *apply(bw_arena *arena, const rule *r, const ground *g, bool *failed)
{
    const double rounding = 1e-9;
    bw_text out = bw_text_new(arena);
    size_t count = 0;

    for (size_t k = 0; k < g->n_posts; k++) {
        const lengths l = r->look(g, k);
        if (l.has >= l.wants * (1.0 - rounding)) {
            continue;
        }
        if (count++ < NAMED_POSTS) {
            bw_text_add(&out, count > 1 ? ", " : "");
            add_post(&out, g, k, l);
        }
    }
    if (count > NAMED_POSTS) {
        bw_text_print(&out, " and %zu more", count - NAMED_POSTS);
    }
    const char *names = count > 0 ? bw_text_string(&out) : NULL;
    const char *text =
        names != NULL ? bw_arena_print(arena, "%s: %s", r->heading, names) : NULL;
    *failed = *failed || out.failed || (count > 0 && text == NULL);
    return text;
}

/* ---- what the checks rest on ---- */

static bool any_hole(const ground *g)
{
    for (size_t k = 0; k < g->n_posts; k++) {
        if (g->posts[k].hole_depth > 0.0) {
            return true;
        }
    }
    return false;
}

static size_t add_basis(const ground *g, bw_assumption *out)
{
    size_t n = 0;

    if (g->n_posts == 0) {
        return 0;
    }
    out[n++] = (bw_assumption){"the ground is natural and firm: the values of the table "
                               "hold for no peat, organic "
                               "soil, mud or loose fill",
                               BW_MARK_READ, "IBC, 2009 and later, 1806.2", false};
    if (any_hole(g)) {
        out[n++] = (bw_assumption){
            "what pushes on the soil is the post: stones packed round "
            "it do not widen it",
            BW_MARK_JUDGEMENT, "IBC 1807.3.2.1 counts a post or its footing", false};
        out[n++] = (bw_assumption){g->site->half_inch_movement_ok
                                       ? "the case accepts that a post moves 1/2 in at "
                                         "the ground: the soil may take "
                                         "twice its lateral value under short pushes"
                                       : "the soil takes its lateral value once; twice "
                                         "is allowed only where a post "
                                         "may move 1/2 in at the ground without harm",
                                   BW_MARK_READ, "IBC, 2009 and later, 1806.3.4", false};
    }
    if (!(g->site->frost_depth > 0.0)) {
        out[n++] = (bw_assumption){"the depth of frost is not given: no foot is compared "
                                   "with it",
                                   BW_MARK_NONE, NULL, false};
    }
    return n;
}

bw_status bw_ground_flags(bw_arena *arena, const bw_ground_post *posts, size_t n_posts,
                          const bw_ground_site *site,
                          bw_assumption out[BW_GROUND_FLAGS_MAX], size_t *n_out)
{
    enum { RULES = sizeof rules / sizeof rules[0] };
    /* the fourth line of add_basis and the two rules about frost exclude each other */
    _Static_assert(RULES + 3 <= BW_GROUND_FLAGS_MAX, "room for every flag");
    const ground g = {posts, n_posts, site};
    bool failed = false;
    size_t n = add_basis(&g, out);

    for (size_t k = 0; k < RULES && !failed; k++) {
        const char *text = apply(arena, &rules[k], &g, &failed);
        if (text != NULL) {
            out[n++] =
                (bw_assumption){text, rules[k].mark, rules[k].source, rules[k].to_do};
        }
    }
    *n_out = n;
    return failed ? BW_E_MEMORY : BW_OK;
}
