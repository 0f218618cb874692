/* site.c - guards and falls, and how many people a sign may allow: flags and words, each
 * with its source; no design rules. */
#include "internal.h"

#include <math.h>

/* ---- guards and falls ---- */

const char bwi_rail_words[] =
    "Rails beside a trail: 42 in for people on foot, 54 in for bicycles and horses; "
    "openings that a 6 in sphere does not pass below 27 in, 8 in above (AASHTO; read, "
    "FHWA 01232833). On remote trail bridges curbs may do where an analysis shows that "
    "rails are not needed (read, USFS rail tip 2007).";

static const char *length_text(double value, const bw_case *deck, bw_text *out)
{
    return bwi_or_fail(out, bw_quantity_print(out->arena, BW_LENGTH, value, deck->units));
}

const char *bwi_flag_here(const bw_flag *flag, bw_text *out)
{
    return !flag->speaks
               ? "no"
               : bwi_or_fail(out, bw_arena_print(out->arena, "YES%s%s",
                                                 flag->where[0] == '\0' ? "" : " ",
                                                 flag->where));
}

const char *bwi_falls_words(const bw_case *deck, bw_text *out)
{
    return bwi_or_fail(
        out,
        bw_arena_print(out->arena,
                       "The deck is up to %s above the ground and %s long. These are "
                       "flags and no design rules; local rules come first. No guard "
                       "is checked here.",
                       length_text(bw_deck_highest(deck), deck, out),
                       length_text(bw_deck_length(deck), deck, out)));
}

/* ---- how many people ---- */

static const char *limit_words(const bw_head_count *h, const bw_case *deck, bw_text *out)
{
    const char *limit = bw_quantity_print(out->arena, BW_PRESSURE, h->limit, deck->units);
    return bwi_or_fail(
        out,
        h->beyond ? "People and snow alone reach no limit, however close they stand."
        : h->limit > 0.0
            ? bw_arena_print(out->arena,
                             "People and snow alone reach the limit of a check at about "
                             "%s, which is %d people.",
                             bwi_or_fail(out, limit), h->at_limit)
            : "Not even a few people are within limits.");
}

/* Nothing was checked with people and what moves on the deck at once. */
static const char *apart_words(const bw_loads *l)
{
    const bool rider = l->mass > 0.0, machine = l->machine.mass > 0.0;
    return rider && machine ? "; nobody rides or drives while people stand on it"
           : rider          ? "; nobody rides while people stand on it"
           : machine        ? "; nobody drives while people stand on it"
                            : "";
}

/* Null where no number can be given; *words then says why. */
const char *bwi_people_sign(const bw_assessment *a, bw_text *out, const char **words)
{
    const bw_case *deck = a->deck;
    const bw_head_count *h = &a->heads;
    if (!h->tried || h->rest_fails || bw_report_verdict(a) != a->verdict) {
        *words = "No number of people can be given while a check is over or cannot say.";
        return NULL;
    }
    if (!(deck->loads.crowd > 0.0)) {
        *words = bwi_or_fail(
            out, bw_arena_print(out->arena,
                                "The case has no people on it, so a sign must say: one "
                                "rider at a time, and nobody standing about. %s",
                                limit_words(h, deck, out)));
        return NULL;
    }
    if (!h->known) {
        *words = bwi_or_fail(
            out, bw_arena_print(out->arena, "No number of people can be given%s. %s",
                                h->crowd > 0.0 ? ": not even one may stand in each bay, "
                                                 "wherever he likes"
                                               : "",
                                limit_words(h, deck, out)));
        return NULL;
    }
    const char *load = bw_quantity_print(out->arena, BW_PRESSURE, h->crowd, deck->units);
    const char *each = bw_quantity_print(out->arena, BW_MASS, h->person, deck->units);
    *words = bwi_or_fail(
        out, bw_arena_print(
                 out->arena,
                 "%s on %s by %s of deck, at %s a person, rounded down [computed]; "
                 "swaying together counted, jumping in step not. In one bay they may "
                 "stand close together anywhere, in single file along an edge too "
                 "[computed: heaps and files on single spans]. %s",
                 bwi_or_fail(out, load), length_text(deck->boards.width, deck, out),
                 length_text(bw_deck_length(deck), deck, out), bwi_or_fail(out, each),
                 limit_words(h, deck, out)));
    return bwi_or_fail(
        out, bw_arena_print(out->arena,
                            "At most %d people on the deck, and at most %d of them in "
                            "one bay%s",
                            h->on_deck, h->in_bay, apart_words(&deck->loads)));
}

/* ---- as text ---- */

void bwi_text_site(const bw_assessment *a, bw_text *out)
{
    const char *words = NULL;
    bwi_text_section(out, "site");
    bwi_paragraph(out, "  ", bwi_falls_words(a->deck, out));
    size_t silent = 0;
    for (size_t i = 0; i < a->n_flags; i++) {
        const bw_flag *f = &a->flags[i];
        if (!f->speaks) {
            silent++;
            continue;
        }
        const char *line = bw_arena_print(out->arena, "%s: %s; %s [%s: %s]", f->when,
                                          bwi_flag_here(f, out), f->words,
                                          bw_mark_text(f->mark), f->source);
        bwi_paragraph(out, "  - ", bwi_or_fail(out, line));
    }
    if (silent > 0) {
        bw_text_print(out, "  - %zu further rules do not speak of this deck\n", silent);
    }
    bwi_paragraph(out, "  ", bwi_rail_words);
    const char *sign = bwi_people_sign(a, out, &words);
    bw_text_add(out, "\n");
    if (sign != NULL) {
        bwi_paragraph(out, "  For a sign: ", sign);
    }
    bwi_paragraph(out, "  ", words);
}
