/* What every output says, whatever the numbers. */
#include "internal.h"

const char *const bw_cautions[] = {
    "This is a sanity check, not engineering. Local building rules come first, and a "
    "licensed "
    "engineer must review anything that people rely on.",
    "A result is only as good as the measurements and the species that went in. It knows "
    "nothing "
    "of hidden rot, splits, insects or damage: look, tap and probe every log.",
    "Strengths are for wet logs as graded by the answers given, cautiously where none "
    "was "
    "given. Leave out a log with large knots, steep spiral grain or any rot.",
    "No vehicles and no animals but a machine that was checked, and no more people than "
    "the checked load. Put up a sign.",
    "Look at the structure after storms and at least once a year, and check it again "
    "when a girth "
    "has shrunk or a post is soft.",
    NULL,
};

const char bwi_boards_not_checked[] =
    "boards across the stringers: the case does not say what they are";

const char *const bwi_not_checked[] = {
    "wind, earthquake, floods, falling trees",
    "frost heave, settlement, ground that is soft, wet, sloping or filled",
    "what keeps sills and pads where they lie: sliding, ground washed out under them",
    "fasteners that the case does not describe; what holds caps on their posts; wood "
    "that "
    "shears off beyond the notch of a brace; fasteners set in drying checks",
    bwi_boards_not_checked,
    "stringers bent sideways by who brakes, corners or sways; caps bent along the deck; "
    "logs twisted",
    "rails and guards; fall height; how the deck rides; slipping",
    "how the deck shakes: people who jump or run in step",
    "hidden rot, splits and insects, and what years do to wood",
    NULL,
};
