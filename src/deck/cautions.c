/* What every output says, whatever the numbers. */
#include "internal.h"

const char *const bw_cautions[] = {
    "This is a sanity check, not engineering. Local building rules come first, and a "
    "licensed "
    "engineer must review anything that people rely on.",
    "A result is only as good as the measurements and the species that went in. It knows "
    "nothing "
    "of hidden rot, splits, insects or damage: look, tap and probe every log.",
    "Strengths are for wet, ungraded logs; a log with large knots, steep spiral grain, "
    "or rot is "
    "weaker. Leave it out.",
    "No vehicles, no animals, and no more people than the checked load. Put up a sign.",
    "Look at the structure after storms and at least once a year, and check it again "
    "when a girth "
    "has shrunk or a post is soft.",
    NULL,
};

const char *const bwi_not_checked[] = {
    "sideways and lengthwise sway: people moving together, braking, cornering, wind, "
    "earthquake",
    "second-order effects and buckling of the whole frame (posts are checked one by one)",
    "the soil: bearing under posts and sills, depth of holes against pushing, frost, "
    "floods",
    "joints, screws, bolts and notches; uplift where boards overhang",
    "boards, rails and guards; fall height; how the deck rides",
    "knots, spiral grain, drying checks, hollow or rotten wood, insects, age",
    NULL,
};
