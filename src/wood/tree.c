/* From a standing tree to the log it would give.
 *
 * With taper coefficients: the national curve, drawn through the diameter measured at
 * breast height (by itself it passes 0.98 to 1.11 of it there: COMPUTED). Without: the
 * field rule of the trade, diameter under bark over that at breast height 0.90 at 5 ft,
 * 0.85 at 7 ft, 0.80 at 9 ft (0.75 open-grown), written as
 *
 *   d(h) / D = min(0.90, 0.90 - 1.3 (h - 5 ft) / H)
 *
 * which gives these with the heights that they were worked out for (50 ft, 35 ft).
 *
 * The spread is the sum of what may be wrong, all on the thin side at once. Covered by
 * tests/wood/test_tree.c. */
#include <math.h>

#include "taper.h"

static const double pi = 3.14159265358979323846;

/* 4 1/2 ft, that of the equations, and about 1 ft, usual practice. */
const double bw_breast_height = 1.3716;
const double bw_stump_usual = 0.305;

static const double thinnest = 0.03; /* [m] no log below this */

/* ---- height ---- */

/* A tree of 8 in at breast height is taken as 50 ft high in a forest and 35 ft in the
 * open, others in proportion, but no tree as higher than 25 m or 17 m: JUDGEMENT. A low
 * guess is a cautious one: a shorter stem tapers more. */
double bw_tree_height(const bw_tree *tree)
{
    static const double slenderness[] = {75.0, 52.5};
    static const double most[] = {25.0, 17.0}; /* [m] */
    if (tree->height > 0.0) {
        return tree->height;
    }
    return fmin(most[tree->grown], slenderness[tree->grown] * tree->breast_diameter);
}

/* ---- diameters ---- */

static bool has_taper(const bw_tree *tree)
{
    return tree->species->taper.wood.model > 0;
}

static const double rule_share = 0.90; /* under bark at breast height */

static double rule_under_bark(const bw_tree *tree, double above_ground)
{
    static const double slope = 1.3, start = 1.524; /* 5 ft */
    const double drop = slope * (above_ground - start) / bw_tree_height(tree);
    return tree->breast_diameter * fmin(rule_share, rule_share - drop);
}

/* What is the same all along a stem: volume over bark, and scales of the diameters. */
typedef struct {
    bw_tree tree;
    double height, volume;
    double over, under; /* over the curve: with bark, and without */
} stem;

static stem stem_of(const bw_tree *tree)
{
    const double D = tree->breast_diameter, H = bw_tree_height(tree);
    stem s = {.tree = *tree, .height = H, .over = 1.0 / rule_share, .under = 1.0};
    if (has_taper(tree)) {
        const double wood = bw_taper_wood(tree->species, D, H);
        s.volume = wood + bw_taper_bark(tree->species, D, H);
        s.over =
            D / bwi_taper_diameter(&tree->species->taper, s.volume, H, bw_breast_height);
        s.under = s.over * sqrt(wood / s.volume);
    }
    return s;
}

/* On the curve, not yet scaled. */
static double curve(const stem *s, double above_ground)
{
    return has_taper(&s->tree) ? bwi_taper_diameter(&s->tree.species->taper, s->volume,
                                                    s->height, above_ground)
                               : rule_under_bark(&s->tree, above_ground);
}

double bw_tree_over_bark(const bw_tree *tree, double above_ground)
{
    const stem s = stem_of(tree);
    return s.over * curve(&s, above_ground);
}

double bw_tree_under_bark(const bw_tree *tree, double above_ground)
{
    const stem s = stem_of(tree);
    return s.under * curve(&s, above_ground);
}

/* Volume of the wood over volume with bark: the square of the ratio of diameters. */
static double wood_share(const bw_tree *tree)
{
    const stem s = stem_of(tree);
    return (s.under / s.over) * (s.under / s.over);
}

/* ---- spread ---- */

typedef struct {
    stem whole, lower; /* the second as much lower as the height may be wrong */
    double rest;       /* all of the spread but that of the height */
} caution;

/* The table of bark weights may know of thicker bark than the equations. */
static double bark_part(const bw_tree *tree)
{
    const double share = tree->species->taper.bark_share.value;
    if (!has_taper(tree) || !(share > 0.0)) {
        return 0.0;
    }
    return fmax(0.0, 1.0 - sqrt(1.0 / ((1.0 + share) * wood_share(tree))));
}

static void note(bw_working *parts, const char *meaning, double value, bw_mark mark,
                 const char *source)
{
    const bw_term term = {"", meaning, value, BW_NUMBER, mark, source};
    bw_working_add(parts, term);
}

static caution caution_of(const bw_tree *tree, bw_tree_log *out)
{
    const double tape = 0.25 * bw_unit_size(BW_LENGTH, "in");
    const double girth = tape / (pi * tree->breast_diameter);
    const double form = has_taper(tree) ? 0.06 : 0.12;
    const double bark = bark_part(tree);
    const double lower = tree->height > 0.0 ? 0.9 : 0.8;
    bw_tree low = *tree;
    low.height = lower * bw_tree_height(tree);
    const caution c = {stem_of(tree), stem_of(&low), girth + form + bark};
    note(&out->parts, "girth read 1/4 in too large", girth, BW_MARK_PRACTICE,
         "trade: girths are good to 1/4 in");
    note(&out->parts,
         has_taper(tree) ? "a stem of poorer form" : "a stem of poorer form, by rule",
         form, BW_MARK_JUDGEMENT,
         has_taper(tree)
             ? "usual form classes of forests lie from 74 to 84 (national volume "
               "estimator library)"
             : "with it the rule stays below all 36 species whose taper is known");
    if (bark > 0.0) {
        note(&out->parts, "thicker bark", bark, tree->species->taper.bark_share.mark,
             tree->species->taper.bark_share.source);
    }
    return c;
}

static bw_spread diameter_at(const caution *c, double above_ground)
{
    const double estimate = c->whole.under * curve(&c->whole, above_ground);
    const double low = above_ground < c->lower.height
                           ? c->lower.under * curve(&c->lower, above_ground)
                           : 0.0;
    return (bw_spread){estimate, fmin(estimate, low) * (1.0 - c->rest)};
}

/* ---- the log ---- */

/* The thickest cone through the tip that stays under the cautious stem: a swollen butt
 * must not be drawn out along the log. */
static void lay_cone(const caution *c, double foot, bw_tree_log *out)
{
    enum { SAMPLES = 200 };
    const double tip = out->tip.cautious;
    double slope = (double)INFINITY;
    for (int k = 0; k < SAMPLES; k++) {
        const double x = out->length * k / SAMPLES;
        const double d = diameter_at(c, foot + x).cautious;
        slope = fmin(slope, (d - tip) / (out->length - x));
    }
    out->log = (bw_log){.name = "the log",
                        .species = c->whole.tree.species,
                        .butt_diameter = tip + slope * out->length,
                        .tip_diameter = tip,
                        .length = out->length,
                        .case_path = ""};
}

static double rule_volume(const bw_tree *tree, double foot, double length)
{
    enum { PIECES = 64 };
    double sum = 0.0;
    for (int k = 0; k < PIECES; k++) { /* frusta are exact but for the bend of the rule */
        const double a = bw_tree_under_bark(tree, foot + length * k / PIECES);
        const double b = bw_tree_under_bark(tree, foot + length * (k + 1) / PIECES);
        sum += pi / 12.0 * length / PIECES * (a * a + a * b + b * b);
    }
    return sum;
}

/* Wood between two heights: a share of the volume, scaled as the diameters are. */
static double taper_volume(const bw_tree *tree, double foot, double length)
{
    const bw_taper *taper = &tree->species->taper;
    const double D = tree->breast_diameter, H = bw_tree_height(tree);
    const double scale = D / bw_taper_over_bark(tree->species, D, H, bw_breast_height);
    const double share = bwi_taper_share_below(taper, H, foot + length) -
                         bwi_taper_share_below(taper, H, foot);
    return bw_taper_wood(tree->species, D, H) * scale * scale * share;
}

static void weigh(const bw_tree *tree, double foot, bw_tree_log *out)
{
    static const double rule_bark = 0.20; /* volume of bark over wood: JUDGEMENT */
    const bw_species *s = tree->species;
    const double wet = s->green_density.value;
    if (!has_taper(tree)) {
        out->volume = rule_volume(tree, foot, out->length);
        out->mass_peeled = out->volume * wet;
        out->mass_with_bark = out->mass_peeled * (1.0 + rule_bark);
        out->mass_most = out->mass_with_bark;
        return;
    }
    const double bark = s->taper.with_bark.value - s->taper.peeled.value;
    out->volume = taper_volume(tree, foot, out->length);
    out->mass_peeled = out->volume * s->taper.peeled.value;
    out->mass_with_bark = out->volume * s->taper.with_bark.value;
    out->mass_most = fmax(out->mass_with_bark, out->volume * (wet + bark));
}

static bw_status refuse(const bw_tree *tree, double top, const bw_tree_log *out,
                        bw_diags *d)
{
    if (!(top < 0.95 * out->height)) {
        bw_diags_error(d, "tree.height", NULL, "cut a shorter log, or from lower down",
                       "the log would end %.3g m above the ground; the tree is %.3g m "
                       "high%s",
                       top, out->height, out->height_assumed ? " (assumed)" : "");
    } else {
        bw_diags_error(d, "tree.thin", NULL, "cut a shorter log, or choose another tree",
                       "the log would end only %.2g m thick under its bark; less than "
                       "%.2g m is no log; diameter at breast height %.3g m",
                       out->tip.cautious, thinnest, tree->breast_diameter);
    }
    return BW_E_INPUT;
}

bw_status bw_tree_cut(bw_arena *arena, const bw_tree *tree, double from, double length,
                      bw_tree_log *out, bw_diags *d)
{
    *out = (bw_tree_log){.height = bw_tree_height(tree),
                         .height_assumed = !(tree->height > 0.0),
                         .by_rule = !has_taper(tree),
                         .from = from,
                         .length = length,
                         .parts = bw_working_new(arena)};
    const double foot = tree->stump + from, top = foot + length;
    if (!(foot > 0.0) || !(length > 0.0) || !(top < 0.95 * out->height) ||
        !(bw_breast_height < 0.95 * out->height)) {
        return refuse(tree, fmax(top, bw_breast_height), out, d);
    }
    const caution c = caution_of(tree, out);
    out->butt = diameter_at(&c, foot);
    out->mid = diameter_at(&c, foot + length / 2.0);
    out->tip = diameter_at(&c, top);
    if (!(out->tip.cautious >= thinnest)) {
        return refuse(tree, top, out, d);
    }
    const double lower = c.lower.height / out->height;
    note(&out->parts, lower > 0.85 ? "the tree 10 % lower" : "the tree 20 % lower",
         fmax(0.0, 1.0 - out->mid.cautious / (out->mid.estimate * (1.0 - c.rest))),
         BW_MARK_COMPUTED, "the same curve with that height, at mid length");
    out->spread = 1.0 - out->mid.cautious / out->mid.estimate;
    out->bark_thickness =
        (bw_tree_over_bark(tree, foot + length / 2.0) - out->mid.estimate) / 2.0;
    lay_cone(&c, foot, out);
    weigh(tree, foot, out);
    return out->parts.failed ? BW_E_MEMORY : BW_OK;
}
