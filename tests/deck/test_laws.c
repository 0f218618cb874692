/* Decks in a mirror are used as much, and laws of decks that are made worse in one way:
 * no check of any member comes out lower, and what cannot say counts as worse than any
 * number. Where one may come out lower all the same, the table of exceptions says why,
 * for which checks, in which decks, and by how much at most.
 *
 * Every deck has a number. BW_LAWS_DECKS=2000 tries so many, BW_LAWS_FIRST=17 begins at
 * that one (the same number of mirrored ones: BW_LAWS_MIRRORED=2000), BW_LAWS_CHANGES=3
 * makes so many changes of each, another part of the table for every deck, and
 * BW_LAWS_TELL=1 prints how far every exception was used, and how far it has come. A deck
 * that fails is printed as a case file, as it was and as it became. */
#include "../base/arena_fixture.h"
#include "law_deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* Fewer where memory is watched, which takes several times as long. */
#ifdef __SANITIZE_ADDRESS__
enum { DECKS = 3, EACH = 4, MIRRORED = 2 };
#else
enum { DECKS = 10, EACH = 8, MIRRORED = 6 };
#endif
/* Decks that take no long time: one near to buckling may take as long as ten others. */
enum { FIRST = 28 };
static const double rounding = 1e-6; /* of the search for the worst place */
/* A check that is used less than this before may do as it likes. */
static const double matters = 0.05;

/* ---- what makes it worse; false: not this deck ---- */

static bool heavier_rider(bwt_deck *d, uint64_t *random)
{
    d->rider *= bwt_uniform(random, 1.0, 1.6);
    return true;
}

static bool harder_landing(bwt_deck *d, uint64_t *random)
{
    d->factor *= bwt_uniform(random, 1.0, 1.4);
    return true;
}

static bool landing_for_rolling(bwt_deck *d, uint64_t *random)
{
    const bool rolls = d->factor < 2.0;
    d->factor = rolls ? bwt_uniform(random, 1.0, d->factor) : d->factor;
    d->factor = bwt_uniform(random, 2.0, 3.0);
    return rolls;
}

static bool more_people(bwt_deck *d, uint64_t *random)
{
    d->crowd += bwt_uniform(random, 0.0, 1500.0);
    return true;
}

static bool snow_as_well(bwt_deck *d, uint64_t *random)
{
    d->snow += bwt_uniform(random, 0.0, 2500.0);
    return true;
}

static bool heavier_boards(bwt_deck *d, uint64_t *random)
{
    d->board_pressure += bwt_uniform(random, 0.0, 400.0);
    return true;
}

static bool a_weight_on_it(bwt_deck *d, uint64_t *random)
{
    d->extra += bwt_uniform(random, 0.0, 900.0);
    return true;
}

static bool thinner_stringers(bwt_deck *d, uint64_t *random)
{
    const double less = bwt_uniform(random, 0.8, 1.0);
    d->stringer.butt *= less;
    d->stringer.tip *= less;
    return true;
}

static bool thinner_caps(bwt_deck *d, uint64_t *random)
{
    const double less = bwt_uniform(random, 0.8, 1.0);
    d->cap.butt *= less;
    d->cap.tip *= less;
    return true;
}

static bool thinner_posts(bwt_deck *d, uint64_t *random)
{
    const double less = bwt_uniform(random, 0.8, 1.0);
    d->post.butt *= less;
    d->post.tip *= less;
    return true;
}

static bool thinner_logs(bwt_deck *d, uint64_t *random)
{
    return thinner_stringers(d, random) && thinner_caps(d, random) &&
           thinner_posts(d, random);
}

static bool thinner_tips(bwt_deck *d, uint64_t *random)
{
    d->stringer.tip *= bwt_uniform(random, 0.85, 1.0);
    return true;
}

static bool longer_spans(bwt_deck *d, uint64_t *random)
{
    const double more = bwt_uniform(random, 1.0, 1.35);
    double low = d->height[0];
    for (int b = 1; b < d->n_bents; b++) {
        low = fmin(low, d->height[b]);
    }
    for (int b = 0; b < d->n_bents; b++) { /* as steep: seats are shorter under slopes */
        d->at[b] *= more;
        d->height[b] = low + more * (d->height[b] - low);
    }
    return d->n_knees == 0; /* which would be at another place of the span */
}

static bool taller(bwt_deck *d, uint64_t *random)
{
    const double more = bwt_uniform(random, 0.0, 0.5);
    for (int b = 0; b < d->n_bents; b++) {
        d->height[b] += more;
    }
    for (int k = 0; k < d->n_knees; k++) {
        d->knee[k].height += more;
    }
    return true;
}

static bool worse_grade(bwt_deck *d, uint64_t *random)
{
    const bool first = d->stringer_keys == bwt_grades[0];
    if (d->stringer_keys == NULL) {
        return false; /* silence counts as bad already */
    }
    bwt_grade_logs(d, bwt_grades[first ? 1 + bwt_below(random, 2) : 2]);
    return true;
}

static bool no_grade(bwt_deck *d, uint64_t *random)
{
    (void)random;
    const bool graded = d->stringer_keys == bwt_grades[0];
    bwt_grade_logs(d, NULL);
    return graded;
}

static bool shallower_holes(bwt_deck *d, uint64_t *random)
{
    d->hole_depth *= bwt_uniform(random, 0.75, 1.0);
    return strcmp(d->foot, "hole") == 0;
}

static bool softer_ground(bwt_deck *d, uint64_t *random)
{
    if (strcmp(d->soil, "clay") == 0) {
        d->soil = "sand"; /* what is changed is the deck on the better ground */
        return false;
    }
    d->soil = bwt_below(random, 2) == 0 ? "sand" : "clay";
    return strcmp(d->foot, "hole") == 0;
}

static bool braking_harder(bwt_deck *d, uint64_t *random)
{
    d->push += bwt_uniform(random, 0.0, 0.3);
    return true;
}

static bool swaying_harder(bwt_deck *d, uint64_t *random)
{
    d->sway += bwt_uniform(random, 0.0, 300.0);
    return true;
}

static bool out_of_plumb(bwt_deck *d, uint64_t *random)
{
    d->lean += bwt_uniform(random, 0.0, 0.02);
    return true;
}

static bool soaked(bwt_deck *d, uint64_t *random)
{
    (void)random;
    d->loads = "\"soaked\": true";
    return true;
}

static bool deeper_seats(bwt_deck *d, uint64_t *random)
{
    d->seat = d->seat > 0.0 ? d->seat : 0.0254;
    d->seat *= bwt_uniform(random, 1.0, 1.5);
    return true;
}

static void hollow(bwt_flaws *f, const bwt_log *log, uint64_t *random)
{
    f->shell =
        (f->shell > 0.0 ? f->shell : 0.5 * log->tip) * bwt_uniform(random, 0.6, 1.0);
}

static bool hollow_stringers(bwt_deck *d, uint64_t *random)
{
    hollow(&d->stringer_flaws, &d->stringer, random);
    return true;
}

static bool hollow_caps(bwt_deck *d, uint64_t *random)
{
    hollow(&d->cap_flaws, &d->cap, random);
    return true;
}

static bool hollow_posts(bwt_deck *d, uint64_t *random)
{
    hollow(&d->post_flaws, &d->post, random);
    return true;
}

static bool rotten_stringers(bwt_deck *d, uint64_t *random)
{
    d->stringer_flaws.outer_loss += bwt_uniform(random, 0.001, 0.012);
    return true;
}

static bool rotten_posts(bwt_deck *d, uint64_t *random)
{
    d->post_flaws.outer_loss += bwt_uniform(random, 0.001, 0.012);
    return true;
}

static bool a_deeper_notch(bwt_deck *d, uint64_t *random)
{
    d->stringer_flaws.notch_depth += d->stringer.tip * bwt_uniform(random, 0.02, 0.2);
    return true;
}

/* The poorest of all softwoods, or of all hardwoods. */
static const char *poorest(const char *species)
{
    return strcmp(species, "red alder") == 0 ? "unknown hardwood" : "unknown softwood";
}

static bool stringers_of_poorer_wood(bwt_deck *d, uint64_t *random)
{
    (void)random;
    d->stringer.species = poorest(d->stringer.species);
    return true;
}

static bool caps_of_poorer_wood(bwt_deck *d, uint64_t *random)
{
    (void)random;
    d->cap.species = poorest(d->cap.species);
    return true;
}

static bool posts_of_poorer_wood(bwt_deck *d, uint64_t *random)
{
    (void)random;
    d->post.species = poorest(d->post.species);
    return true;
}

typedef struct {
    const char *words;
    const char *groups; /* of changes with exceptions in common, or null */
    bool (*make)(bwt_deck *, uint64_t *);
    bool governs; /* the largest utilisation of all has no exceptions */
    double least; /* of the largest but for braces and uplift, of what it was before */
} change;

/* How much of the worst the search may miss. */
#define SOUGHT  0.003
#define KEPT    (1.0 - SOUGHT)
/* Weight keeps a stringer that runs on down on its seats: where it lifts under people, it
 * gives less, in a straight line with the weight of the boards (0.992 in deck 200612), or
 * of wet logs (0.950 in deck 2940030, and more with its stringers cut in two over bents).
 */
#define HELD    0.94
/* By a knee one that lifts draws its post along (the holes of decks 2600966, 0.876, and
 * 2900070, 0.827; 1.012 and 1.025 with their stringers cut in two over the bent). Braced
 * decks only. */
#define DRAWN   0.8
/* Lighter logs and posts that give have exceptions that reach what governs. */
#define NEARLY  0.9
/* Stringers may be most of what a post presses the ground with (deck 500039: 0.881, and
 * 0.885 with their density alone). And what is lighter by enough counts as straight, at
 * ten times its loads, where the bent shape has a tenth more (EN 1993-1-1, 5.2.1 (3),
 * MEMORY; deck 600326: 0.873, in one step). */
#define LIGHTER 0.85
/* Of a poorer grade a post gives, and its knee thrusts it less (deck 800310: 0.988, 0.963
 * with its posts alone; 3200022: 0.922, 0.942; both more than before without their
 * knees). Braced decks only. */
#define GRADED  0.91
/* On a knee a softer stringer presses its seat less under a push (deck 800147: 0.939, and
 * 0.937 with its modulus alone). Braced decks only. */
#define POORER  0.93
/* The same where knees thrust a post aside, which they do less where it gives: the hole
 * of a post that is taller by 0.415 m was used to 0.875 of what it was before, and
 * without its knee hardly at all. */
#define THRUST  0.7

static const change changes[] = {
    {"a heavier rider", NULL, heavier_rider, true, KEPT},
    {"a harder landing", NULL, harder_landing, true, KEPT},
    {"landing for rolling", NULL, landing_for_rolling, true, KEPT},
    {"more people", "may press", more_people, true, KEPT},
    {"snow as well", "more weight", snow_as_well, true, KEPT},
    {"heavier boards", "more weight", heavier_boards, false, HELD},
    {"a weight on it", "more weight", a_weight_on_it, false, HELD},
    {"thinner stringers", "less weight", thinner_stringers, false, LIGHTER},
    {"thinner caps", "less weight", thinner_caps, false, NEARLY},
    {"thinner posts", "softer, lighter posts, narrower posts", thinner_posts, false,
     NEARLY},
    {"thinner tips", "less weight", thinner_tips, false, NEARLY},
    {"thinner logs", "less weight, softer", thinner_logs, false, NEARLY},
    {"hollow stringers", "less weight", hollow_stringers, false, NEARLY},
    {"hollow caps", "less weight", hollow_caps, false, NEARLY},
    {"hollow posts", "softer, lighter posts", hollow_posts, false, NEARLY},
    {"rotten stringers", "less weight", rotten_stringers, false, NEARLY},
    {"rotten posts", "softer, lighter posts, narrower posts", rotten_posts, false,
     NEARLY},
    {"a deeper notch", "less weight", a_deeper_notch, false, NEARLY},
    {"stringers of poorer wood", "more weight, softer stringers",
     stringers_of_poorer_wood, false, POORER},
    {"caps of poorer wood", "more weight, softer", caps_of_poorer_wood, false, KEPT},
    {"posts of poorer wood", "softer", posts_of_poorer_wood, false, NEARLY},
    {"longer spans", "more weight", longer_spans, false, KEPT},
    {"taller", "softer", taller, false, NEARLY},
    {"worse grade", "softer", worse_grade, false, GRADED},
    {"no grade", "softer", no_grade, false, GRADED},
    {"shallower holes", "softer", shallower_holes, false, NEARLY},
    {"softer ground", "softer", softer_ground, false, NEARLY},
    {"braking harder", "harder push, may press", braking_harder, true, KEPT},
    {"swaying harder", "harder push, may press", swaying_harder, true, KEPT},
    {"out of plumb", "harder push, may press", out_of_plumb, true, KEPT},
    {"soaked", "more weight", soaked, false, HELD},
    {"deeper seats", NULL, deeper_seats, false, 0.0},
};
enum { CHANGES = sizeof changes / sizeof changes[0] };

/* ---- exceptions ---- */

enum { STRINGER = 1, CAP = 2, SILL = 4, POST = 8, BRACE = 16, BOARDS = 32, ANY = 63 };
enum { ROLES = 6 };
static const char *const roles[ROLES] = {"stringer", "cap",   "sill",
                                         "post",     "brace", "boards"};

#define OF(kind) (1u << BW_CHECK_##kind)
/* Only where it could not be said before. */
#define UNKNOWN  (-1.0)
/* Kinds that go together. */
#define EVERY    ((1u << BW_CHECK_KIND_COUNT) - 1u)
#define STRENGTH (OF(BENDING) | OF(SHEAR) | OF(COMPRESSION) | OF(COMBINED))
#define GIVES    (OF(DEFLECTION) | OF(SAG))
#define SEATED   (OF(BEARING) | OF(END_BEARING) | OF(ANGLE))

/* Which decks an exception is for. */
typedef enum {
    ALL,
    RUN_ON, /* a stringer goes on over a bent */
    BRACED,
    US,
    TURNS, /* a sill is used for more than nine tenths by uplift, before and after */
    BENT   /* a frame is near to buckling and solved in its bent shape */
} which;

typedef struct {
    const char *change; /* or a group of them; null: every one */
    unsigned roles, kinds;
    which decks;
    double least; /* of what it was before */
    const char *why;
} exception;

static const exception exceptions[] = {
    {NULL, ANY, EVERY, ALL, 1.0 - SOUGHT,
     "the worst place is sought round the worst of 20 in a bay, under the combination "
     "and "
     "the push that are worst there: another's may lie between two places"},
    {NULL, SILL, OF(SOIL_BEARING), TURNS, 0.0,
     "a sill that turns over presses with a hundredth of it, as hard as what little "
     "weighs on it: its uplift says so (2930279, 2930513, 2950002, 3000290, 3100352)"},
    {NULL, STRINGER, OF(BENDING) | OF(COMBINED), BRACED, UNKNOWN,
     "a deep seat in the side that is in tension has no rule, however little bends it "
     "there; a knee that a push draws on bends its stringer up, and what else changes "
     "bends it down again"},
    {NULL, CAP, OF(BENDING), ALL, UNKNOWN,
     "the same of a cap that a rider beyond its last post bends up"},
    {NULL, STRINGER, OF(COMBINED), ALL, 0.99,
     "an axial stress below a two-hundredth of what the log bears counts as none"},
    {"caps of poorer wood", CAP, OF(SHEAR), ALL, 0.6,
     "a softer cap takes less of the push (a modulus less by 0.4 alone: 0.63)"},
    {"a heavier rider", POST | SILL, OF(UPLIFT), RUN_ON, 0.97,
     "what would fly off comes up no further under a heavier one, whose weight presses "
     "the "
     "posts that it draws on"},
    {"more people", POST | SILL, OF(UPLIFT), ALL, 0.3,
     "they push no harder here than fewer did, and hold posts down"},
    {"more people", BRACE, OF(JOINT), BRACED, 0.0,
     "they push no harder here than fewer did, and press a brace that was drawn on"},

    {"more people", POST, OF(SHEAR) | OF(COMBINED) | OF(SOIL_LATERAL), RUN_ON, 0.95,
     "they push no harder here than fewer did, and keep down a sloping stringer that "
     "pushes its posts where it lifts"},

    {"more weight", POST | SILL, OF(UPLIFT), ALL, 0.0, "weight holds posts down"},
    {"more weight", STRINGER, OF(BENDING) | OF(COMBINED), RUN_ON, UNKNOWN,
     "a deep seat in the side that is in tension over a bent has no rule; weight on both "
     "sides of the bent puts the other side in tension"},
    {"more weight", STRINGER | CAP | SILL, STRENGTH | GIVES | SEATED, RUN_ON, 0.75,
     "weight keeps a stringer that runs on down on its seats, and in one bay it bends "
     "the "
     "next one up"},
    {"more weight", POST, OF(BENDING) | OF(COMPRESSION), RUN_ON, 0.6,
     "a stringer that lifts less turns its posts less"},
    {"more weight", CAP, STRENGTH, ALL, 0.98,
     "it presses some posts of a cap further down than others; a rider over the others "
     "bends the cap the other way"},
    {"more weight", POST, OF(END_BEARING) | OF(SOIL_BEARING), RUN_ON, 0.95,
     "a stringer kept down on one seat presses less on the next"},
    {"more weight", POST, OF(END_BEARING) | OF(SOIL_BEARING), BRACED, 0.75,
     "the same, by a long lever where a rider beyond the far row lifts it over its knees "
     "(2950246: 0.776, in a straight line, and more with its stringer cut in two)"},
    {"more weight", POST, OF(SHEAR) | OF(COMBINED) | OF(SOIL_LATERAL), RUN_ON, 0.0,
     "a sloping stringer that lifts pushes its posts; weight keeps it down"},
    {"more weight", STRINGER | POST | CAP,
     STRENGTH | SEATED | OF(SOIL_LATERAL) | OF(SOIL_BEARING), BRACED, 0.8,
     "weight on one side of a pair of knees evens out that on the other"},
    {"more people", SILL, OF(SOIL_BEARING), ALL, 0.3,
     "they push no harder here than fewer did, and press a sill in its middle"},
    {"more weight", SILL, OF(SOIL_BEARING), ALL, 0.8,
     "weight in the middle of a sill that is pressed at one end leaves more of it to "
     "press"},
    {"more weight", BRACE, EVERY, BRACED, 0.75,
     "weight on one side of a pair of knees evens out that on the other, and keeps down "
     "a "
     "stringer that turns its knee"},
    {"more weight", BRACE, OF(JOINT), BRACED, 0.0,
     "a brace that weight presses draws on no fasteners"},
    {"more weight", BRACE, OF(COMBINED), RUN_ON, 0.5,
     "a stringer that lifts pulls its knee up with it; weight keeps it down"},

    {"less weight", CAP | SILL | POST | BRACE, EVERY & ~OF(UPLIFT), ALL, 0.8,
     "lighter logs weigh less on what carries them"},
    {"less weight", CAP | SILL, OF(SAG), ALL, 0.7,
     "the same, and what weighs for good sags several times as far"},
    {"less weight", POST | SILL, OF(UPLIFT), ALL, 0.45,
     "softer stringers and caps that run on lift their far posts less"},
    {"less weight", STRINGER, SEATED, ALL, 0.97,
     "a lighter log weighs less on its seats"},
    {"less weight", STRINGER, STRENGTH | GIVES | SEATED, RUN_ON, 0.97,
     "caps that give share the load of a stringer that runs on"},
    {"less weight", STRINGER, OF(SHEAR), ALL, 0.65,
     "a notch further from the end than the log is thick is one of the span: its bending "
     "cannot say then"},
    {"less weight", STRINGER, SEATED, BRACED, 0.8,
     "a knee that can only push, and that a thinner log at rest draws on, counts as "
     "slack"},
    {"less weight", BRACE, STRENGTH, BRACED, 0.4,
     "a knee that can only push, and that a thinner log at rest draws on, counts as "
     "slack"},
    {"less weight", STRINGER, STRENGTH, BRACED, UNKNOWN,
     "a deep seat in the side that is in tension over a bent has no rule; pushed on its "
     "knee, one that gives more has the other side in tension"},
    {"less weight", STRINGER, STRENGTH, BRACED, 0.98,
     "a stringer on a knee bends with its post under a push: one that gives leaves more "
     "of it to the post"},
    {"less weight", BRACE, OF(JOINT), BRACED, 0.0,
     "a stringer that gives more, or weighs less, presses the knee that it drew on"},
    {"less weight", STRINGER, OF(BENDING) | OF(COMBINED), RUN_ON, UNKNOWN,
     "a notch in the side that is in tension has no rule, however little bends it there; "
     "lighter logs hold down less what hogs over it (3200556: 2 N m)"},
    {"longer spans", POST, OF(SHEAR) | OF(COMBINED) | OF(SOIL_LATERAL), ALL, 0.97,
     "the slope stays, so one end is higher: taller posts leave the push to others "
     "(3300820: 0.992)"},
    {"hollow stringers", STRINGER, OF(COMBINED), US, 0.8,
     "the limit of slenderness (NDS 3.7.1.4) is one of the radius of gyration, which a "
     "hollow log has more of than a whole one"},
    {"thinner caps", STRINGER, OF(SHEAR), ALL, 0.92,
     "on a narrower seat the notch is nearer to the force (EN 1995-1-1, 6.5.2)"},
    {"thinner caps", STRINGER, GIVES, BRACED, 0.98,
     "a post reaches further up under a thinner cap, so that its knee has another lever "
     "(deck 2600937: 0.993, and more than half of it with the deck higher alone)"},
    {"narrower posts", CAP, OF(SHEAR), ALL, 0.88,
     "on a narrower seat the notch is nearer to the force (EN 1995-1-1, 6.5.2)"},

    {"softer", STRINGER | CAP | SILL, STRENGTH | GIVES | SEATED, RUN_ON, 0.94,
     "posts that give share the load of a stringer that runs on"},
    {"softer", POST, OF(SHEAR) | OF(COMBINED) | OF(SOIL_LATERAL), ALL, 0.4,
     "posts that give leave the push to stiffer ones, to braces and to sills, and their "
     "knees thrust them less"},
    {"softer", POST | SILL, OF(END_BEARING) | OF(SOIL_BEARING), ALL, 0.9,
     "posts that give share what the push brings down; thinner ones weigh less, and of a "
     "longer log a thinner part reaches the cap"},
    {"softer", CAP, STRENGTH | GIVES | SEATED, ALL, 0.88,
     "a cap runs on over its posts: those that give share its load"},
    {"softer", STRINGER | CAP | SILL, STRENGTH | SEATED, BRACED, 0.85,
     "a post that gives shares the load under a stringer with its knee in another way"},
    {"softer", STRINGER, STRENGTH, ALL, 0.99,
     "a sloping stringer is pressed by the push that softer posts leave to others "
     "(3100826: 0.9968, and more on a level deck)"},
    {"softer", STRINGER, GIVES, BRACED, 0.95,
     "a post between two knees leans away from the one that is pressed harder, and lifts "
     "the stringer over the other"},
    {"softer", POST | SILL, OF(UPLIFT), ALL, 0.0,
     "under a rider beyond the last post of a bent the next one lifts the less, down to "
     "nothing, the more the last one gives; longer ones weigh more"},
    {"lighter posts", POST, OF(BUCKLING), ALL, 0.95,
     "where the earth gives more than its posts do, a row leans nearly as little on "
     "thinner ones, and has their weight to carry"},
    {"shallower holes", POST, OF(COMPRESSION), ALL, 0.7,
     "the earth counts as holding a post half way down its hole, so that in a shallower "
     "one it counts as shorter; what it gives is in the checks of hole and buckling"},
    {"softer", POST, OF(COMPRESSION), ALL, 0.85,
     "posts that give share what the push brings down"},
    {"softer ground", POST, OF(BUCKLING), ALL, 0.8,
     "clay may be weaker than gravel and yet stiffer close under the ground"},
    {"softer", BRACE, EVERY & ~OF(JOINT), BRACED, 0.25,
     "a post that gives leaves less to its knee, down to the share of its earth"},
    {"softer", BRACE, OF(JOINT), BRACED, 0.0,
     "a brace that weight presses draws on no fasteners"},

    {"harder push", ANY & ~BOARDS,
     STRENGTH | SEATED | OF(SOIL_LATERAL) | OF(SOIL_BEARING) | OF(UPLIFT), BRACED, 0.85,
     "what is pulled at rest counts as slack, and a larger push may relieve what a "
     "smaller "
     "one pressed"},
    {"harder push", BRACE, OF(JOINT), BRACED, 0.0,
     "a push that presses a brace keeps it in its notch"},
    {"out of plumb", SILL, OF(UPLIFT), RUN_ON, 0.98,
     "a sill that a rider lifts from afar leans the less (3000093: 0.9935)"},
    {"out of plumb", POST, OF(COMPRESSION), ALL, 0.99,
     "posts lean the way of the push; what a sloping stringer makes of either may press "
     "one post up and the other down"},
    {"may press", BRACE, OF(COMBINED), BRACED, 0.5,
     "the same of a brace that would be pulled out of its notch, where its joint cannot "
     "say: what presses it leaves it less to pull"},

    {"deeper seats", POST, STRENGTH | OF(SOIL_LATERAL), ALL, 0.0,
     "under a slope a deeper seat is longer: what it bears lies nearer to the middle of "
     "the post"},
    {"deeper seats", ANY, SEATED, ALL, 0.2,
     "a deeper seat is wider: it bears better, and leaves less of the log"},
};
enum { EXCEPTIONS = sizeof exceptions / sizeof exceptions[0] };

typedef struct {
    long used;
    double least;
    long deck;
} use;
static use uses[EXCEPTIONS];
static use largest_uses[CHANGES]; /* of the largest but for braces and uplift */

/* ---- looking ---- */

typedef struct {
    long number;
    int change;
    const bwt_deck *deck, *changed;
    const bw_assessment *before, *after;
    bw_arena *arena;
} trial;

static bool is_near_buckling(const bw_assessment *a)
{
    bool near = false;
    for (size_t k = 0; a->buckled_rows != NULL && k < a->deck->n_rows; k++) {
        near = near || a->buckled_rows[k].has;
    }
    for (size_t k = 0; a->buckled_bents != NULL && k < a->deck->n_bents; k++) {
        near = near || a->buckled_bents[k].has;
    }
    return near;
}

static bool runs_on(const bw_case *deck)
{
    bool any = false;
    for (size_t k = 0; k < deck->n_stringers; k++) {
        any = any || deck->stringers[k].to > deck->stringers[k].from + 1;
    }
    return any;
}

static bool turns(const bw_assessment *a)
{
    bool any = false;
    for (size_t k = 0; k < a->n_members; k++) {
        const bw_member_result *m = &a->members[k];
        any = any || (strcmp(m->role, "sill") == 0 && m->has[BW_CHECK_UPLIFT] &&
                      !(m->findings[BW_CHECK_UPLIFT].ratio.utilisation <= 0.9));
    }
    return any;
}

static bool is_of(const trial *t, which decks)
{
    switch (decks) {
    case RUN_ON:
        return runs_on(t->before->deck);
    case BRACED:
        return t->before->deck->n_braces > 0;
    case US:
        return t->before->deck->basis == &bw_us_asd;
    case TURNS:
        return turns(t->before) && turns(t->after);
    case BENT:
        return is_near_buckling(t->before) || is_near_buckling(t->after);
    case ALL:
        break;
    }
    return true;
}

static int role_of(const bw_member_result *m)
{
    int role = 0;
    while (strcmp(roles[role], m->role) != 0) {
        role++;
    }
    return role;
}

static bool is_about(const exception *e, const change *c)
{
    return e->change == NULL || strcmp(e->change, c->words) == 0 ||
           (c->groups != NULL && strstr(c->groups, e->change) != NULL);
}

/* The first exception that lets it fall so far; -1: none. */
static int exception_for(const trial *t, int role, int kind, double share)
{
    for (int k = 0; k < EXCEPTIONS; k++) {
        const exception *e = &exceptions[k];
        if (is_about(e, &changes[t->change]) && (e->roles >> role & 1u) != 0 &&
            (e->kinds >> kind & 1u) != 0 && share >= e->least &&
            (e->least != UNKNOWN || share == 0.0) && is_of(t, e->decks)) {
            return k;
        }
    }
    return -1;
}

static double of_kind(const bw_member_result *m, int kind)
{
    const double u = m->has[kind] ? m->findings[kind].ratio.utilisation : 0.0;
    return isnan(u) ? (double)INFINITY : u;
}

/* Bending with axial force is asked of a stringer only where that force matters: bending
 * alone is asked always. */
static double of_finding(const bw_member_result *m, int kind)
{
    return kind == BW_CHECK_COMBINED
               ? fmax(of_kind(m, kind), of_kind(m, BW_CHECK_BENDING))
               : of_kind(m, kind);
}

static void show(const bwt_deck *before, const bwt_deck *after, bw_arena *arena)
{
    if (getenv("BW_LAWS_TELL") == NULL) {
        fprintf(stderr, "as it was:\n%sas it became:\n%s", bwt_deck_text(before, arena),
                bwt_deck_text(after, arena));
    }
}

static long broken;

static void report(const trial *t, const char *what, double before, double after)
{
    broken++;
    print_error("deck %ld, %s: %s: %.9g became %.9g\n", t->number,
                changes[t->change].words, what, before, after);
    if (broken == 1) {
        show(t->deck, t->changed, t->arena);
    }
}

static void note_use(use *u, long number, double share)
{
    if (u->used == 0 || share < u->least) {
        u->least = share;
        u->deck = number;
    }
    u->used++;
}

static void look_at(const trial *t, const bw_member_result *m, int kind, double after)
{
    const double before = m->has[kind] ? of_finding(m, kind) : 0.0;
    if (before < matters || after >= before * (1.0 - rounding)) {
        return;
    }
    const double share = isinf(before) ? 0.0 : after / before;
    const int k = exception_for(t, role_of(m), kind, share);
    if (k < 0) {
        report(t,
               bw_arena_print(t->arena, "%s %s, %s", m->role, m->name,
                              bw_us_asd.checks[kind]->id),
               before, after);
        return;
    }
    note_use(&uses[k], t->number, share);
}

/* Of all but fasteners of braces, which may be asked for no more; or, but for braces,
 * uplift and sills that turn over as well, of which a softer or a heavier frame may ask
 * less. */
static double largest(const bw_assessment *a, bool of_all)
{
    double most = 0.0;
    for (size_t k = 0; k < a->n_members; k++) {
        const bool counts = of_all || strcmp(a->members[k].role, "brace") != 0;
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT && counts; kind++) {
            const bool turned =
                kind == BW_CHECK_UPLIFT || (kind == BW_CHECK_SOIL_BEARING &&
                                            strcmp(a->members[k].role, "sill") == 0);
            const bool leaves = kind == BW_CHECK_JOINT || (turned && !of_all);
            const double u = of_finding(&a->members[k], kind);
            most = leaves ? most : fmax(most, u);
        }
    }
    return most;
}

static double least_of(const change *c, bool braced)
{
    const bool gives = c->least == NEARLY || c->least == LIGHTER;
    if (braced) {
        return gives ? THRUST : c->least == HELD ? DRAWN : c->least;
    }
    return c->least == GRADED || c->least == POORER ? KEPT : c->least;
}

/* Where it could not be said before, the exceptions of single checks have their say. */
static void compare_largest(const trial *t)
{
    const change *c = &changes[t->change];
    const double all[] = {largest(t->before, true), largest(t->after, true)};
    const double most[] = {largest(t->before, false), largest(t->after, false)};
    if (most[1] < most[0] * (1.0 - rounding) && !isinf(most[0])) {
        note_use(&largest_uses[t->change], t->number, most[1] / most[0]);
    }
    if (c->governs && !(all[1] >= all[0] * KEPT)) {
        report(t, "the largest of all", all[0], all[1]);
    }
    const double least = least_of(c, is_of(t, BRACED));
    if (!isinf(most[0]) && !(most[1] >= most[0] * least)) {
        report(t, "the largest but for braces and uplift", most[0], most[1]);
    }
}

/* Buckling of a frame is filed under its softest post, which may be another then. */
static double buckles(const bw_assessment *a)
{
    double most = 0.0;
    for (size_t k = 0; k < a->n_members; k++) {
        most = fmax(most, of_finding(&a->members[k], BW_CHECK_BUCKLING));
    }
    return most;
}

static void compare(const trial *t)
{
    for (size_t k = 0; k < t->before->n_members; k++) {
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            const bool leans = kind == BW_CHECK_BUCKLING;
            const double after =
                leans ? buckles(t->after) : of_finding(&t->after->members[k], kind);
            look_at(t, &t->before->members[k], kind, after);
        }
    }
    compare_largest(t);
}

/* A deck that cannot be built any more is worse: it is refused. */
static void try_change(trial *t, uint64_t *random)
{
    bwt_deck changed = *t->deck;
    bw_assessment after;
    const char *faults = NULL;
    if (changes[t->change].make(&changed, random) &&
        bwt_deck_assess(&changed, t->arena, &after, &faults) == BW_OK) {
        t->changed = &changed;
        t->after = &after;
        compare(t);
    }
}

/* Two decks that follow each other, of either basis, get the same part of the table. */
static void try_deck(long number, bw_arena *arena)
{
    const bwt_deck d = bwt_law_deck(number);
    uint64_t random = 5003u + (uint64_t)number;
    const long each = bwt_law_number("BW_LAWS_CHANGES", EACH);
    bw_assessment before;
    assert_int_equal(bwt_deck_assess(&d, arena, &before, NULL), BW_OK);
    for (long i = 0; i < each; i++) {
        const bw_arena_mark mark = bw_arena_now(arena);
        trial t = {.number = number,
                   .change = (int)((number / 2 * each + i) % CHANGES),
                   .deck = &d,
                   .before = &before,
                   .arena = arena};
        try_change(&t, &random);
        bw_arena_back(arena, mark);
    }
}

static void tell(void)
{
    for (int k = 0; k < EXCEPTIONS; k++) {
        print_message("%-20s %6ld times, to %.6f of at least %.3f in deck %ld: %s\n",
                      exceptions[k].change != NULL ? exceptions[k].change : "any change",
                      uses[k].used, uses[k].least, exceptions[k].least, uses[k].deck,
                      exceptions[k].why);
    }
    for (int c = 0; c < CHANGES; c++) {
        print_message("%-24s the largest fell %ld times, to %.6f of at least %.3f in "
                      "deck %ld\n",
                      changes[c].words, largest_uses[c].used, largest_uses[c].least,
                      changes[c].least, largest_uses[c].deck);
    }
}

static void nothing_that_makes_it_worse_helps(void **state)
{
    const long first = bwt_law_number("BW_LAWS_FIRST", FIRST);
    const long n = bwt_law_number("BW_LAWS_DECKS", DECKS);
    for (long k = first; k < first + n; k++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        try_deck(k, *state);
        bw_arena_back(*state, mark);
        if (getenv("BW_LAWS_TELL") != NULL && (k - first) % 50 == 49) {
            print_message("decks %ld to %ld done\n", first, k);
        }
    }
    if (getenv("BW_LAWS_TELL") != NULL) {
        tell();
    }
    assert_int_equal(broken, 0);
}

/* ---- mirrors ---- */

static bwt_deck mirrored_along(const bwt_deck *d)
{
    bwt_deck m = *d;
    for (int b = 0; b < d->n_bents; b++) {
        const int from = d->n_bents - 1 - b;
        m.at[b] = -d->at[from];
        m.height[b] = d->height[from];
        m.sill[b] = d->sill[from];
        memcpy(m.no_post[b], d->no_post[from], sizeof m.no_post[b]);
    }
    m.butt_last = !d->butt_last;
    for (int k = 0; k < d->n_knees; k++) {
        m.knee[k].bent = d->n_bents - 1 - d->knee[k].bent;
        m.knee[k].ahead = -d->knee[k].ahead;
    }
    return m;
}

static bwt_deck mirrored_across(const bwt_deck *d)
{
    bwt_deck m = *d;
    for (int r = 0; r < d->n_rows; r++) {
        const int from = d->n_rows - 1 - r;
        m.across[r] = -d->across[from];
        m.run[r] = d->run[from];
        for (int b = 0; b < d->n_bents; b++) {
            m.no_post[b][r] = d->no_post[b][from];
        }
    }
    for (int k = 0; k < d->n_knees; k++) {
        m.knee[k].row = d->n_rows - 1 - d->knee[k].row;
    }
    return m;
}

/* Stringers must start at the first bent whichever way they are counted, and caps have
 * their butts on the left: logs of one run, and caps without taper. A row without any
 * post is held along the deck by its first bent, the last one in a mirror: up to 10 % in
 * the bearing of sloping stringers that are pushed, so every row has its posts where
 * things push. Notches lie along the bark of a log whose axis falls with its taper: mm.
 */
static bwt_deck symmetrical_kind(long number)
{
    bwt_deck d = bwt_law_deck(number);
    const int run = d.run[0] == 1 ? 1 : d.n_bents - 1;
    for (int r = 0; r < d.n_rows; r++) {
        d.run[r] = run;
    }
    d.cap.tip = d.cap.butt;
    d.stringer_flaws.notch_depth = 0.0;
    if (d.push > 0.0) {
        memset(d.no_post, 0, sizeof d.no_post);
    }
    return d;
}

/* What a member is called there; braces and boards keep their names. */
static const char *name_in(const bwt_deck *d, const bw_member_result *m, bool along,
                           bw_arena *arena)
{
    int row = 0, bent = 0;
    const int last = d->n_bents - 1, last_row = d->n_rows - 1;
    if (sscanf(m->name, "r%d-%d", &row, &bent) == 2) {
        return along ? bw_arena_print(arena, "r%d-%d", row, last - bent - d->run[0])
                     : bw_arena_print(arena, "r%d-%d", last_row - row, bent);
    }
    if (sscanf(m->name, "b%d r%d", &bent, &row) == 2) {
        return along ? bw_arena_print(arena, "b%d r%d", last - bent, row)
                     : bw_arena_print(arena, "b%d r%d", bent, last_row - row);
    }
    return along && sscanf(m->name, "b%d", &bent) == 1
               ? bw_arena_print(arena, "b%d", last - bent)
               : m->name;
}

static const bw_member_result *called(const bw_assessment *a, const char *role,
                                      const char *name)
{
    for (size_t k = 0; k < a->n_members; k++) {
        if (strcmp(a->members[k].role, role) == 0 &&
            strcmp(a->members[k].name, name) == 0) {
            return &a->members[k];
        }
    }
    fail_msg("no %s is called %s", role, name);
    return NULL;
}

static long unlike;

/* near: to buckling, where a place that is worst is sought less finely. */
static void compare_members(long number, const bw_member_result *a,
                            const bw_member_result *b, bool near)
{
    const double tolerance = near ? SOUGHT : rounding;
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const double x = of_finding(a, kind), y = of_finding(b, kind);
        if (kind != BW_CHECK_BUCKLING &&
            !(x == y || fabs(x - y) <= tolerance * x + 1e-9)) {
            print_error("deck %ld, %s %s, %s: %.12g, in the mirror %.12g\n", number,
                        a->role, a->name, bw_us_asd.checks[kind]->id, x, y);
            unlike++;
        }
    }
}

static void compare_decks(long number, const bwt_deck *d, const bwt_deck mirrored[2],
                          bw_arena *arena)
{
    bw_assessment a, b;
    assert_int_equal(bwt_deck_assess(d, arena, &a, NULL), BW_OK);
    for (int way = 0; way < 2; way++) {
        const long before = unlike;
        assert_int_equal(bwt_deck_assess(&mirrored[way], arena, &b, NULL), BW_OK);
        assert_int_equal(a.n_members, b.n_members);
        for (size_t k = 0; k < a.n_members; k++) {
            const bw_member_result *m = &a.members[k];
            compare_members(number, m,
                            called(&b, m->role, name_in(d, m, way == 0, arena)),
                            is_near_buckling(&a));
        }
        const double beside =
            2e-6; /* of the bay after the bent: there the rider stands */
        if (!(fabs(buckles(&a) - buckles(&b)) <= beside * buckles(&a))) {
            print_error("deck %ld, buckling: %.12g, in the mirror %.12g\n", number,
                        buckles(&a), buckles(&b));
            unlike++;
        }
        if (before == 0 && unlike > 0) {
            show(d, &mirrored[way], arena);
        }
    }
}

/* The usual ones: knees that only push, where deflection and what goes down to the bents
 * was once that of one way alone (22, 27), posts alike of which the rider once stood over
 * the first alone (300201), a slope near to buckling (23), posts that bow, once asked at
 * random places (500227), and a stringer that lifts, whose edge was passed by (600101).
 */
static void a_deck_in_a_mirror_gives_the_same(void **state)
{
    static const long usual[] = {22, 300201, 27, 23, 500227, 600101};
    const long n_usual = sizeof usual / sizeof usual[0];
    const long first = bwt_law_number("BW_LAWS_FIRST", -1);
    const long n = bwt_law_number("BW_LAWS_MIRRORED", MIRRORED);
    for (long k = 0; k < n; k++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        const long number = first < 0 && k < n_usual ? usual[k] : first + k;
        const bwt_deck d = symmetrical_kind(number);
        const bwt_deck m[2] = {mirrored_along(&d), mirrored_across(&d)};
        compare_decks(number, &d, m, *state);
        bw_arena_back(*state, mark);
    }
    assert_int_equal(unlike, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(nothing_that_makes_it_worse_helps),
        WITH_ARENA(a_deck_in_a_mirror_gives_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
