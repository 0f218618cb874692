/* deck.h - a deck as a builder describes it, and its assessment.
 *
 * Axes: "at" runs along the deck, "across" to the right of its centre line, heights up
 * from the ground at each bent. SI. The layer makes the plane frames, places the loads,
 * asks the checks and collects findings; it knows no JSON and prints nothing. */
#ifndef BW_DECK_H
#define BW_DECK_H

#include "bolewright/checks.h"
#include "bolewright/frame.h"

#ifdef __cplusplus
extern "C" {
#endif

/* How a post meets the ground. */
typedef enum {
    BW_FOOT_HOLE, /* in a packed hole: lateral springs of the soil along its depth */
    BW_FOOT_PAD,  /* stands on a pad, stone or sill: free to turn */
    BW_FOOT_FIXED /* the user vouches for a foot that cannot turn */
} bw_foot;

typedef struct {
    const char *name;
    double across; /* [m] right of the centre line */
    const char *case_path;
} bw_row;

typedef struct {
    const char *name; /* "B2 left" */
    int row;          /* index into rows */
    int log;          /* index into logs */
    bool tip_down;
    bw_foot foot;
    double hole_depth; /* [m] for BW_FOOT_HOLE */
    double hole_width; /* [m] packed hole diameter; 0: twice the post */
    double pad_area;   /* [m2] for BW_FOOT_PAD; 0: no wider than the post's own end */
    bw_soil soil;      /* that it stands in or on */
    const char *case_path;
} bw_post;

typedef struct {
    const char *name;
    double at;          /* [m] along the deck */
    double deck_height; /* [m] top of boards above the ground here */
    int cap;            /* log index; -1 for none (stringers straight on posts) */
    bool is_sill;       /* the cap lies on the ground: no posts */
    const bw_post *posts;
    size_t n_posts;
    const char *case_path;
} bw_bent;

typedef struct {
    const char *name;
    int row, log;
    int from, to;    /* bent indices, from before to along the deck */
    bool butt_at_to; /* butt end at the far bent */
    const char *case_path;
} bw_stringer;

typedef struct {
    double width;           /* [m] of the deck */
    double board_thickness; /* [m] */
    double board_pressure;  /* [Pa] dead weight of boards per plan area */
} bw_boards;

typedef enum {
    BW_BOARDS_UNKNOWN, /* not looked at */
    BW_BOARDS_SAWN,
    BW_BOARDS_SPLIT_RAIL, /* half of a round pole, split or sawn */
    BW_BOARDS_HALF_LOG    /* the same, thicker */
} bw_boards_kind;
const char *bw_boards_name(bw_boards_kind kind); /* "sawn boards" */

typedef enum {
    BW_BOARDS_EITHER,  /* not said: the worse counts */
    BW_BOARDS_THROUGH, /* one piece over all rows, held down at each */
    BW_BOARDS_CUT      /* over every row */
} bw_boards_laid;

/* What lies across the stringers, side by side; the thickness is board_thickness. */
typedef struct {
    bw_boards_kind kind;
    bool assumed;   /* nobody said what they are */
    bw_log log;     /* species and grade; of a half-round the size, as a whole log */
    double width;   /* [m] of one along the deck; of a half-round its diameter */
    double gap;     /* [m] */
    bool flat_down; /* half-rounds: the flat lies on the stringers */
    bw_boards_laid laid;
    bw_sawn_grade grade;
    double share;          /* of a wheel that the neighbours take */
    double person;         /* [N] of a person on one board; 0: what the basis says */
    const char *case_path; /* of the deck where they are not described; null: no file */
} bw_decking;
/* Pieces side by side that cover the length, one narrower than the rest at most. */
double bw_decking_count(const bw_decking *decking, double length);

/* What a rider does on the deck, which says how hard one presses down. */
typedef enum {
    BW_RIDE_AS_GIVEN,   /* by the factor of the loads */
    BW_RIDE_ROLLING,    /* wheels stay on the boards */
    BW_RIDE_SMALL_STEP, /* off a step, wheels leave the ground for a moment */
    BW_RIDE_LANDING,    /* out of the air */
    BW_RIDE_TRANSITION  /* through a curve that turns the path upwards */
} bw_ride_kind;

typedef struct {
    bw_ride_kind kind;
    double height; /* [m] of the step, or fallen from the highest point of the path */
    double speed;  /* [m/s] forward when landing, the slowest of all riders; in the curve,
                      the fastest. 0: not given */
    double slope;  /* of the face landed on, fall over run; below 0 it rises ahead */
    double travel; /* [m] that legs, suspension and tyres give until they are hard; 0: the
                      usual */
    double sag;    /* [m] of it that the standing weight takes; 0: not known */
    double radius; /* [m] of the curve */
} bw_ride;

/* A take-off ramp: a curve from level to its lip. radius 0: none, or its thrust is given.
 */
typedef struct {
    double radius; /* [m] */
    double speed;  /* [m/s] at its foot */
    double lip;    /* [rad] its slope at the lip */
} bw_ramp;

/* A machine that crosses now and then at walking pace, alone on the deck: a ride-on mower
 * or a quad bike, on two axles of two wheels. */
typedef struct {
    const char *name;     /* "quad bike" */
    double mass;          /* [kg] with driver, fuel and load; 0: none */
    double wheelbase;     /* [m] between the axles */
    double track;         /* [m] between the wheels of an axle */
    double heavy_share;   /* of its mass on the heavier axle */
    double factor;        /* pressing down over the weight */
    double push;          /* braking along and turning across, over the weight */
    double load_duration; /* as for the rider; 0: by rule */
} bw_machine;

typedef struct {
    double mass;      /* [kg] rider with kit and bike; 0: no rider */
    double bike_mass; /* [kg] of it the bike; 0: not told apart */
    bw_ride ride;
    int riders;           /* on the deck at once, in a line; at least 1 */
    double rider_spacing; /* [m] from one to the next */
    double wheelbase;     /* [m] between the wheels of one; 0: all weight at one place */
    double factor;        /* pressing down over the weight, >= 1, of a ride as given */
    double load_duration; /* C_D for combinations whose shortest load is the rider; 0: by
                             rule */
    double crowd;         /* [Pa] over the whole deck; 0: none */
    double snow;          /* [Pa]; 0: none */
    double extra_dead;    /* [Pa] per plan area */
    const bw_people_use *use; /* that the crowd was taken from, or null */
    double person;            /* [kg] one of the crowd, for counting heads */
    bool soaked;              /* logs weigh what they weigh full of water */
    bw_machine machine;
    /* sideways or along the deck, whichever is worse */
    double sway; /* [Pa] per plan area, of the people of the crowd moving together */
    double
        rider_push; /* of the rider's weight: braking along the deck, cornering across */
    double lean;    /* of every vertical load: posts out of plumb */
    double thrust; /* [N] of a take-off ramp standing on the deck, the way riders go: away
                      from the deck at its ends, either way between them; 0: none */
    bw_ramp ramp;  /* gives the thrust where the radius is not 0 */
    int thrust_bent; /* where it stands */
} bw_loads;

/* Push of people who move together [Pa of plan], for so many of them. */
double bw_people_sway(double crowd);

/* How hard a rider presses. Nothing is carried beyond the heights, speeds, slopes and
 * radii that a formula was looked at for: then factor and push are not numbers, and
 * cannot_say is why. */
typedef struct {
    double factor; /* down, over the weight */
    double push;   /* along and across, over the weight */
    const char *cannot_say;
} bw_blow;
/* Of the ride, of a ramp's curve if there is one, never less than rolling. The working
 * may be null. */
bw_blow bw_rider_blow(const bw_loads *loads, bw_working *working);
/* Thrust of a rider on the ramp, the way riders go [N]: given, or the largest anywhere on
 * its curve; 0 without a ramp, not a number out of range (*cannot_say, which may be
 * null). */
double bw_ramp_thrust(const bw_loads *loads, bw_working *working,
                      const char **cannot_say);

/* The formulas alone, without their ranges; each says its source where it stands. */
/* Weight over weight at rest: a mass that falls on a spring with the deflection at rest
 * (both [m]). */
double bw_impact_factor(double height, double deflection);
/* The same for a spring that gives as far as the travel and no farther. */
double bw_travel_factor(double height, double travel);
/* Fall that hits a level face as hard as this one hits a sloping face [m]; below 0: the
 * path does not meet it. */
double bw_landing_height(double height, double speed, double slope);
double bw_transition_factor(double speed, double radius);
/* Forward push on a ramp over the weight; below 0: the rider does not come that far. */
double bw_ramp_push(double speed, double radius, double slope_angle);

typedef struct {
    double live;       /* span over deflection under the moving load, such as 360 */
    double long_term;  /* span over long-term deflection, such as 240 */
    double seat_depth; /* [m] flat cut on each log where it bears */
    double boards;     /* span over deflection of one board under what moves */
} bw_limits;

/* The ground of the whole place. */
typedef struct {
    bw_soil soil;               /* for posts and sills that do not say theirs */
    double frost_depth;         /* [m]; 0: not given */
    bool half_inch_movement_ok; /* see bw_check_input */
} bw_ground;

/* A place where a brace ends: on the post of a row at a bent, on the cap beside that post
 * (across the deck), or under the stringer before or after it (along the deck). */
typedef struct {
    int bent, row;
    double height; /* [m] above ground, on the post */
    bool on_cap, on_stringer;
    double beside; /* [m] right of the post, on the cap; past it, on the stringer */
} bw_brace_end;

/* A straight brace. Its ends lie at one bent (it braces sideways) or in one row (along
 * the deck), which a knee under a stringer does too. Wedged or notched in it can only
 * push; it pulls only if its ends are fastened for that. */
typedef struct {
    const char *name;
    int log;
    bw_brace_end from, to;
    bool pulls;
    const char *case_path;
} bw_brace;

/* How one end of a stringer or of a brace hands over its load. What is not described
 * bears on what lies under it, and a brace's end sits in a notch and can only push. */
typedef struct {
    int stringer;  /* -1: a brace's end */
    int bent;      /* of a stringer */
    int brace;     /* -1: a stringer's end */
    bool at_to;    /* of a brace */
    bool hung;     /* on its fasteners; else it bears, and they only hold it in place */
    bool into_cap; /* hung on the cap, not on the post of its row */
    double notch;  /* [m] depth of the notch that a brace sits in; 0: as deep as seats */
    bw_fasteners fasteners; /* of the kind BW_FASTENER_NONE if none are described */
    const char *case_path;
} bw_joint_place;

typedef struct {
    const char *title, *place, *builder, *landowner; /* null when not given */
    bw_units units;
    const bw_basis *basis;
    const bw_log *logs;
    size_t n_logs;
    const bw_row *rows;
    size_t n_rows;
    const bw_bent *bents; /* ascending along the deck */
    size_t n_bents;
    const bw_stringer *stringers;
    size_t n_stringers;
    const bw_brace *braces;
    size_t n_braces;
    const bw_joint_place *joints;
    size_t n_joints;
    bw_boards boards;
    bw_decking decking;
    bw_loads loads;
    bw_limits limits;
    bw_ground ground;
    const bw_species_table *species;
} bw_case;

/* Defaults that the reader starts from (rider 115 kg, factor 3, limits); each is printed
 * as an assumption with its mark. */
extern const bw_loads bw_loads_default;
extern const bw_limits bw_limits_default;

/* How a load came about, so that a person can redo it. */
typedef struct {
    const char *title;   /* "Rider, landing" */
    const char *formula; /* "P = n m g, n = 2 (1 + h_e / s)" */
    const char *source;
    bw_mark mark;
    const char *cannot_say; /* why there is no number, or null */
    bw_working working;     /* its last term is the result */
} bw_load_line;

/* How many people may stand on a deck; filled in by bw_people_count (sizing.h). */
typedef struct {
    bool tried;
    bool known;      /* a number may be said */
    bool rest_fails; /* not: riders or machine are over by themselves, or cannot say */
    bool beyond;     /* the limit is not reached by the densest crowd there is */
    double crowd;    /* [Pa] that the heads are counted from: within limits */
    double limit;    /* [Pa] largest found within limits, people and snow alone */
    double person;   /* [kg] */
    int on_deck, in_bay; /* heads; close together in the shortest bay */
    int at_limit;
} bw_head_count;

/* What others ask of a deck as high, long or narrow as this: no design rule of ours. */
typedef struct {
    const char *words; /* "a side rail" */
    const char *when;  /* "deck above 2 ft 3 in" */
    bool speaks;       /* of this deck */
    const char *where; /* "at bent B, C", or "" */
    bw_mark mark;
    const char *source;
} bw_flag;

/* The worst finding of each check for one member. */
typedef struct {
    const char *name, *role, *case_path;
    const bw_log *log;
    double length; /* [m] of the member as framed */
    int bent, row; /* where it stands; -1 when it does not apply */
    bw_finding findings[BW_CHECK_KIND_COUNT];
    bool has[BW_CHECK_KIND_COUNT];
    double worst; /* largest utilisation */
} bw_member_result;

/* How a row or a bent goes when it buckles, at its lowest factor on the loads: along the
 * deck, or across it to the right. Of places evenly from the ground line to the top of
 * each post; the largest shift of all is 1. Only frames that buckle below ten times their
 * loads have a shape. */
enum { BW_BUCKLED_PLACES = 9, BW_BUCKLED_NAMED = 4 };
typedef struct {
    size_t bent, post;               /* numbers in the case */
    double height;                   /* [m] of the top above the ground */
    double shift[BW_BUCKLED_PLACES]; /* from the ground up */
} bw_buckled_post;
typedef struct {
    bool has;
    double factor; /* on all loads, with mean stiffness */
    const char *combination;
    int direction; /* of the push: +1 forward or to the right, -1; 0 without */
    bw_buckled_post *posts;
    size_t n_posts;
    /* other members that bow between their joints, "brace K1": the first of all n_bowing
     */
    const char *bowing[BW_BUCKLED_NAMED];
    size_t n_bowing;
} bw_buckled;

typedef struct {
    const bw_case *deck;
    bw_verdict verdict;
    bw_member_result *members; /* in the order of the case: stringers, caps, posts */
    size_t n_members;
    const bw_finding *governing; /* largest utilisation; null if nothing was checked */
    bw_assumption *assumptions;
    size_t n_assumptions, cap_assumptions;
    bw_load_line *load_lines;
    size_t n_load_lines;
    bw_head_count heads;
    bw_flag *flags;
    size_t n_flags;
    const char *const *cautions;         /* null-terminated; in every output */
    const char *const *not_checked;      /* null-terminated */
    const bw_reference *references;      /* one per log of the case */
    const bw_reference *board_reference; /* null: boards were not checked */
    double dead_weight;                  /* [N] of everything above ground */
    double worst_residual, worst_rcond;  /* numerical health over all frames */
    const bw_buckled *buckled_rows;      /* per row; may be null */
    const bw_buckled *buckled_bents;     /* per bent; may be null */
} bw_assessment;

/* Makes the frames, finds the worst of every check for every member. BW_E_INPUT: the
 * parts do not fit together (d says which); BW_E_MECHANISM: a part is loose (d names it).
 */
bw_status bw_deck_assess(bw_arena *arena, const bw_case *deck, bw_assessment *out,
                         bw_diags *d);
/* The same on so many threads; the result does not depend on their number. */
bw_status bw_deck_assess_with(bw_arena *arena, const bw_case *deck, int threads,
                              bw_assessment *out, bw_diags *d);

/* The finding nearest to its limit, or over it by most; one that cannot say comes before
 * all others; null: nothing was checked. */
const bw_finding *bw_member_worst(const bw_member_result *member);

extern const char *const bw_cautions[];

/* From the first bent to the last [m], and the deck's highest point above the ground. */
double bw_deck_length(const bw_case *deck);
double bw_deck_highest(const bw_case *deck);

/* ---- members by number, and decks with other logs in them ---- */

typedef struct {
    const char *role, *name; /* "post", "B left" */
    int log;                 /* index into logs; -1 beyond the last member */
    const char *case_path;
} bw_deck_member;

/* How many posts stand on such a foot. */
size_t bw_deck_feet(const bw_case *deck, bw_foot foot);
/* Whether any bay lies on one row alone. */
bool bw_deck_tips(const bw_case *deck);
/* The members that are logs: stringers, caps and sills, posts, braces, in the order of
 * the assessment. */
size_t bw_deck_member_count(const bw_case *deck);
bw_deck_member bw_deck_member_at(const bw_case *deck, size_t i);
/* The same deck with logs[i] for member number i (null: it keeps its own), each appended
 * to the logs. Copies lie in the arena. BW_E_MEMORY. */
bw_status bw_deck_with_logs(bw_arena *arena, const bw_case *deck,
                            const bw_log *const *logs, bw_case *out);

/* ---- what was measured on a deck that stands ---- */

typedef struct {
    size_t member;      /* number of the member */
    double from_butt;   /* [m] of the place; below 0: a post at the ground line, any other
                           half way along */
    double girth;       /* [m] round the log as found; 0: not measured */
    double across;      /* [m] or its diameter; 0: not measured */
    double soft;        /* [m] soft wood all round, as deep as a probe goes in */
    double shell;       /* [m] sound wood round a hollow, under the soft wood; 0: solid */
    bw_eye_grade grade; /* what is seen today; unanswered: as in the case */
    const char *path;   /* JSON Pointer in the file of measurements */
} bw_measurement;

typedef struct {
    bw_date date;
    const bw_measurement *items; /* at most one for each member */
    size_t n_items;
} bw_inspection;

typedef struct {
    bool has_built;
    bw_date built;              /* then nothing was lost yet */
    const bw_inspection *items; /* by rising dates, all after built; at least one */
    size_t n_items;
} bw_inspections;

/* What a log has lost at the place where it was measured. */
typedef struct {
    double from_butt, diameter; /* [m] the place, and the log there as it was built */
    double worn;                /* [m] all round, by girth or diameter */
    double outer;               /* [m] the same, soft wood included */
    double shell;               /* [m] sound wood round a hollow; 0: solid */
} bw_loss;

/* Girth of a log where its diameter is that: less than pi D where it has flats [m]. */
double bw_log_girth(const bw_log *log, double diameter);
/* Distance from the butt of the place of the measurement, in a member of an assessment of
 * the deck [m]. */
double bw_measured_place(const bw_case *deck, const bw_member_result *member,
                         const bw_measurement *m);
/* What is lost by the measurement, never less than before. */
bw_loss bw_loss_after(const bw_case *deck, const bw_member_result *member,
                      const bw_measurement *m, bw_loss before);
/* The log with the loss all along, and with what is seen of it today. False: hardly
 * anything is left, which nothing can be worked out of. */
bool bw_log_aged(bw_arena *arena, const bw_log *log, const bw_loss *loss,
                 const bw_eye_grade *seen, bw_log *out);
/* Section modulus at the place of the loss, now over new: the bending strength that is
 * left there if what is left is sound. */
double bw_section_left(const bw_log *log, const bw_loss *loss);

/* ---- age: a deck as it was found, and how long it may go on ---- */

enum { BW_AGE_HORIZON = 10 }; /* years that a trend is followed */

typedef struct {
    const char *name;        /* "post B left" */
    const bw_log *log;       /* as built */
    bw_loss loss;            /* at the last inspection that measured it */
    double section_left;     /* section modulus, now over new */
    double built, today;     /* worst utilisation */
    const bw_finding *worst; /* today; null if nothing of it was checked */
    bool gone;               /* hardly anything is left: it counts as over */
    bool has_trend; /* two points in time, half a year apart at least, or with a loss
                       between them */
    double outer_rate, shell_rate; /* [m] a year, >= 0 */
    int years_left; /* whole years from the last inspection for which every check of it
                       stays within limits and its reserve is not used up, on the trend;
                       -1: not even today; the horizon: at least so long */
} bw_aged_member;

typedef struct {
    bw_assessment built, today; /* today: null members if a log is gone */
    bw_aged_member *members;    /* those that were measured, in the order of the case */
    size_t n_members;
    bw_date last;       /* inspection */
    bool has_trend;     /* of any member */
    int years_left;     /* of the whole deck; -1: not even today */
    int months_to_look; /* from the last inspection to the next; 0: now */
    bw_verdict verdict; /* today; over too if a member has used up its reserve */
} bw_aged_deck;

/* Poles of power lines are replaced when less than two thirds of the strength that they
 * need is left (MEMORY: rule of utilities). Here: of the bending strength when new. */
extern const double bw_reserve_least;

/* ---- for pictures: where everything lies, and how the rows bend ---- */

/* A place on a log's axis and how thick the log looks there. */
typedef struct {
    double x, y;      /* [m] in the plane of the view */
    double thickness; /* [m] */
} bw_drawn_place;

/* A log as seen: along its axis, or from its end (one place). */
typedef struct {
    size_t member; /* index into the members of the assessment */
    const bw_drawn_place *places;
    size_t n_places;
} bw_drawn_log;

typedef struct {
    bw_drawn_log *logs;
    size_t n_logs;
} bw_drawn_view;

enum { BW_DRAWN_PER_BAY = 25 }; /* stations in each bay, both ends included */

/* Actions of one place of a row under vertical loads alone. Shear just left and just
 * right of the place. */
typedef struct {
    double at;                        /* [m] along the deck */
    double moment, shear[2];          /* dead + rider at the worst place */
    double moment_most, moment_least; /* of the rider anywhere on the row */
    double shear_most, shear_least;
    double drop; /* [m] down, under the rider standing there */
    double people_moment, people_shear, people_drop; /* dead + people on all bays; the
                                                        drop of people alone */
} bw_drawn_station;

typedef struct {
    bool has_rider, has_people;
    const char *rider_title, *people_title; /* combinations */
    double rider_at;            /* [m] worst place: largest M / S of the row */
    bool *has_bay;              /* per bay: the row has a stringer there */
    bw_drawn_station *stations; /* bay * BW_DRAWN_PER_BAY + number */
} bw_drawn_bending;

typedef struct {
    size_t n_bays;
    bw_drawn_view *rows;       /* along the deck: x along, y up from the ground */
    bw_drawn_view *bents;      /* seen along the deck: x across, y up from the ground */
    bw_drawn_view plan;        /* x along, y across to the right */
    bw_drawn_bending *bending; /* per row */
} bw_drawing;

/* For an assessment that bw_deck_assess has made. BW_E_MEMORY, or what the frames give.
 */
/* The views alone, which take no solving; bending is null. */
bw_status bw_deck_views(bw_arena *arena, const bw_assessment *assessment,
                        bw_drawing *out);
bw_status bw_deck_drawing(bw_arena *arena, const bw_assessment *assessment,
                          bw_drawing *out);

#ifdef __cplusplus
}
#endif

#endif
