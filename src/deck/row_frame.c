/* A row as a plane frame along the deck: its stringers and the posts under them. Heights
 * are above the ground, which is taken as level. Where a stringer ends it is hinged; a
 * stringer running over a bent keeps the joint, and the post is hinged to it. */
#include "internal.h"

#include <math.h>

/* Pieces of a stringer in one bay. */
typedef struct {
    int n;                         /* pieces */
    double at[BWI_PIECES_MAX + 1]; /* 0 .. 1 of the bay */
    int node[BWI_PIECES_MAX + 1];
} cuts;

typedef struct {
    const bwi_plan *p;
    bwi_row_frame *f;
    const bool *slack; /* braces left out */
    cuts *cut;         /* per bay */
} builder;

static bool continuous_at(const bwi_plan *p, int row, size_t bent)
{
    return bent > 0 && bent < p->n_bays &&
           bwi_plan_part(p, row, bent - 1)->stringer >= 0 &&
           bwi_plan_part(p, row, bent - 1)->stringer ==
               bwi_plan_part(p, row, bent)->stringer;
}

static bw_status add_deck_node(const builder *b, size_t bent)
{
    const bw_bent *at = &b->p->deck->bents[bent];
    const char *name = bw_arena_print(b->p->arena, "row %s at bent %s",
                                      b->p->deck->rows[b->f->row].name, at->name);
    b->f->deck_node[bent] = bw_frame_add_node(
        b->f->frame, at->at, bwi_row_height(b->p, b->f->row, bent), name, at->case_path);
    return name != NULL && b->f->deck_node[bent] >= 0 ? BW_OK : BW_E_MEMORY;
}

/* A post of the row, or the cap (or sill) as a support. A run of stringers that no post
 * holds is held along the deck by its first bent, through the cap and the rows that it
 * hands its pushes to. */
static bw_status hold_node(const builder *b, size_t bent, bool run_has_posts, bool first,
                           bw_diags *d)
{
    const bw_bent *at = &b->p->deck->bents[bent];
    const int post = bwi_row_post(b->p, b->f->row, bent);
    if (post < 0) {
        const bw_support cap = {.node = b->f->deck_node[bent],
                                .fix = {first && !run_has_posts, true, false},
                                .case_path = at->case_path};
        return bw_frame_add_support(b->f->frame, &cap);
    }
    BW_TRY(bwi_foot_make(b->p, bent, &at->posts[post], &b->f->feet[bent], d));
    const bwi_post_frame where = {.frame = b->f->frame,
                                  .x = at->at,
                                  .top = bwi_row_height(b->p, b->f->row, bent),
                                  .top_node = b->f->deck_node[bent],
                                  .hinge_top = continuous_at(b->p, b->f->row, bent),
                                  .along = true,
                                  .slack = b->slack};
    return bwi_post_add(b->p, bent, &at->posts[post], &where, &b->f->feet[bent],
                        &b->f->posts[bent], d);
}

/* One stringer end must keep the joint's turn where nothing else does. */
static bool hinged_at_first(const bwi_plan *p, int row, size_t bay)
{
    const bool post = bwi_row_post(p, row, bay) >= 0;
    return !continuous_at(p, row, bay) && post;
}

static bool hinged_at_last(const bwi_plan *p, int row, size_t bay)
{
    const size_t bent = bay + 1;
    const bool post = bwi_row_post(p, row, bent) >= 0;
    const bool next = bent < p->n_bays && bwi_plan_part(p, row, bent)->stringer >= 0;
    return !continuous_at(p, row, bent) && (post || next);
}

/* ---- stringers, cut where knees meet them ---- */

/* Where a knee under a stringer ends, as a part of the bay; below 0 if elsewhere. */
static double knee_part(const builder *b, size_t brace, size_t bay)
{
    const bw_brace *k = &b->p->deck->braces[brace];
    const bw_bent *bents = b->p->deck->bents;
    if (!k->to.on_stringer || k->to.row != b->f->row || b->slack[brace]) {
        return -1.0;
    }
    const double at = bents[k->to.bent].at + k->to.beside;
    const double part = (at - bents[bay].at) / (bents[bay + 1].at - bents[bay].at);
    return part > 0.0 && part < 1.0 ? part : -1.0;
}

static void insert_cut(cuts *c, double part)
{
    int place = 1;
    while (c->at[place] < part) {
        place++;
    }
    const double least = 1e-3; /* of a bay: the same place */
    if (part - c->at[place - 1] < least || c->at[place] - part < least) {
        return;
    }
    c->n++;
    for (int j = c->n; j > place; j--) {
        c->at[j] = c->at[j - 1];
    }
    c->at[place] = part;
}

static bw_status cut_bay(const builder *b, size_t bay, cuts *c, bw_diags *d)
{
    *c = (cuts){.n = 1, .at = {0.0, 1.0}};
    for (size_t k = 0; k < b->p->deck->n_braces; k++) {
        const double part = knee_part(b, k, bay);
        if (part >= 0.0 && c->n == BWI_PIECES_MAX) {
            bw_diags_error(d, "deck.braces", b->p->deck->braces[k].case_path,
                           "let some of them meet",
                           "more than %d knees end under one bay of a stringer",
                           BWI_PIECES_MAX - 1);
            return BW_E_INPUT;
        }
        if (part >= 0.0) {
            insert_cut(c, part);
        }
    }
    return BW_OK;
}

/* Nodes of the cuts; each knee gets the one that it meets. */
static bw_status add_cut_nodes(const builder *b, size_t bay, cuts *c)
{
    const bw_bent *bents = b->p->deck->bents;
    const double low = bwi_row_height(b->p, b->f->row, bay),
                 high = bwi_row_height(b->p, b->f->row, bay + 1);
    c->node[0] = b->f->deck_node[bay];
    c->node[c->n] = b->f->deck_node[bay + 1];
    for (int j = 1; j < c->n; j++) {
        const double t = c->at[j];
        c->node[j] = bw_frame_add_node(
            b->f->frame, bents[bay].at + t * (bents[bay + 1].at - bents[bay].at),
            low + t * (high - low), "a knee under a stringer", bents[bay].case_path);
        if (c->node[j] < 0) {
            return BW_E_MEMORY;
        }
    }
    for (size_t k = 0; k < b->p->deck->n_braces; k++) {
        const double part = knee_part(b, k, bay);
        for (int j = 0; j <= c->n && part >= 0.0; j++) {
            if (fabs(c->at[j] - part) < 1e-3) {
                b->f->knee_node[k] = c->node[j];
            }
        }
    }
    return BW_OK;
}

static bw_status add_piece(const builder *b, size_t bay, const cuts *c, int j)
{
    const bwi_plan *p = b->p;
    const int row = b->f->row;
    const bwi_part_of_stringer *part = bwi_plan_part(p, row, bay);
    const bw_stringer *s = &p->deck->stringers[part->stringer];
    const bw_reference *r = &p->references[s->log];
    const double green = bwi_log_density(p->deck, &p->deck->logs[s->log]);
    bw_section section[2];
    bwi_stringer_sections(p, part->stringer, part->from_first + c->at[j] * part->length,
                          (c->at[j + 1] - c->at[j]) * part->length, section);
    const bw_member m = {.node_i = c->node[j],
                         .node_j = c->node[j + 1],
                         .section_i = section[0],
                         .section_j = section[1],
                         .modulus = r->value[BW_MODULUS],
                         .shear_modulus = bw_shear_modulus(r->value[BW_MODULUS]),
                         .kappa = 0.9,
                         .density = bwi_full_density(section, green),
                         .hinge_i = j == 0 && hinged_at_first(p, row, bay),
                         .hinge_j = j + 1 == c->n && hinged_at_last(p, row, bay),
                         .name = bw_arena_print(p->arena, "stringer %s", s->name),
                         .case_path = s->case_path};
    const int member = bw_frame_add_member(b->f->frame, &m);
    if (member < 0 || m.name == NULL) {
        return BW_E_MEMORY;
    }
    if (j == 0) {
        b->f->bay_member[bay] = member;
        b->f->path_place[bay] = (int)b->f->n_path;
    }
    b->f->bay_pieces[bay] = j + 1;
    b->f->path_bay[b->f->n_path] = bay;
    b->f->path[b->f->n_path++] = member;
    return BW_OK;
}

static bw_status add_stringer(const builder *b, size_t bay, bw_diags *d)
{
    cuts *c = &b->cut[bay];
    BW_TRY(cut_bay(b, bay, c, d));
    BW_TRY(add_cut_nodes(b, bay, c));
    for (int j = 0; j < c->n; j++) {
        BW_TRY(add_piece(b, bay, c, j));
    }
    return BW_OK;
}

/* From the places of its ends: a frame does not know lengths before it is factored. */
static double axis_length(const builder *b, size_t bay)
{
    const bw_bent *bents = b->p->deck->bents;
    const int row = b->f->row;
    return hypot(bents[bay + 1].at - bents[bay].at,
                 bwi_row_height(b->p, row, bay + 1) - bwi_row_height(b->p, row, bay));
}

static bw_status add_area_load(const builder *b, int load_case, size_t bay, double along,
                               double down)
{
    const cuts *c = &b->cut[bay];
    for (int j = 0; j < c->n; j++) {
        const bw_member_load load = {.kind = BW_LOAD_LINE,
                                     .member = b->f->bay_member[bay] + j,
                                     .b = (c->at[j + 1] - c->at[j]) * axis_length(b, bay),
                                     .per_plan_length = true,
                                     .x = {along, along},
                                     .y = {-down, -down}};
        BW_TRY(bw_frame_load_member(b->f->frame, load_case, &load));
    }
    return BW_OK;
}

/* Own weight of the stringer in a bay, laid along the deck: only its sum matters. */
static double weight_per_length(const bwi_plan *p, int row, size_t bay)
{
    const bwi_part_of_stringer *part = bwi_plan_part(p, row, bay);
    const bw_stringer *s = &p->deck->stringers[part->stringer];
    const bw_section thickest = bw_section_round(
        fmax(bwi_stringer_diameter(p, part->stringer, part->from_first),
             bwi_stringer_diameter(p, part->stringer, part->from_first + part->length)));
    return bw_section_area(&thickest) * bw_gravity *
           bwi_log_density(p->deck, &p->deck->logs[s->log]);
}

/* Of a row in a bay, per length [N/m]. */
typedef struct {
    double boards, stringer, snow, crowd;
    double width; /* [m] */
} bay_loads;

static bay_loads loads_of(const bwi_plan *p, int row, size_t bay)
{
    const bw_loads *l = &p->deck->loads;
    const bwi_share *s = bwi_plan_share(p, row, bay);
    return (bay_loads){.boards = (p->deck->boards.board_pressure + l->extra_dead) *
                                 s->dead_width,
                       .stringer = weight_per_length(p, row, bay),
                       .snow = l->snow * s->crowd_width,
                       .crowd = l->crowd * s->crowd_width,
                       .width = s->dead_width};
}

static bw_status add_bay_loads(const builder *b, size_t bay)
{
    const bay_loads of = loads_of(b->p, b->f->row, bay);
    BW_TRY(add_area_load(b, BWI_CASE_DEAD, bay, 0.0, of.boards));
    BW_TRY(add_area_load(b, BWI_CASE_SNOW, bay, 0.0, of.snow));
    BW_TRY(add_area_load(b, BWI_CASE_PUSH_DEAD, bay, of.boards + of.stringer, 0.0));
    BW_TRY(add_area_load(b, BWI_CASE_PUSH_AREA, bay, of.width, 0.0));
    return add_area_load(b, BWI_CASE_FIRST_BAY + (int)bay, bay, 0.0, of.crowd);
}

/* ---- what rows hand over that no post holds ---- */

/* Half a bay of another row, on one of its bents, as far as it comes to this one. */
static bw_status add_handed_half(const builder *b, int row, size_t bay, bwi_side side)
{
    const bw_bent *bents = b->p->deck->bents;
    const size_t bent = side == BWI_AFTER ? bay : bay + 1;
    size_t at;
    const double part = bwi_handed(b->p, row, bent, b->f->row, &at) *
                        (bents[bay + 1].at - bents[bay].at) / 2.0;
    if (part == 0.0) {
        return BW_OK;
    }
    const bay_loads from = loads_of(b->p, row, bay);
    const double dead = from.boards + from.stringer;
    const double all = part * (dead + from.snow + from.crowd);
    b->f->handed_load[at] += all;
    b->f->handed_turn[at] += all * bwi_seat_beside(b->p, row, bent, side);
    const struct {
        int load_case;
        double along, down;
    } load[] = {{BWI_CASE_DEAD, 0.0, dead},
                {BWI_CASE_SNOW, 0.0, from.snow},
                {BWI_CASE_PUSH_DEAD, dead, 0.0},
                {BWI_CASE_PUSH_AREA, from.width, 0.0},
                {BWI_CASE_FIRST_BAY + (int)bay, 0.0, from.crowd}};
    for (size_t k = 0; k < sizeof load / sizeof load[0]; k++) {
        BW_TRY(bw_frame_load_node(b->f->frame, load[k].load_case, b->f->deck_node[at],
                                  part * load[k].along, -part * load[k].down, 0.0));
    }
    return BW_OK;
}

static bw_status add_handed(const builder *b, size_t bay)
{
    for (int row = 0; row < (int)b->p->deck->n_rows; row++) {
        if (bwi_plan_part(b->p, row, bay)->stringer >= 0) {
            BW_TRY(add_handed_half(b, row, bay, BWI_AFTER));
            BW_TRY(add_handed_half(b, row, bay, BWI_BEFORE));
        }
    }
    return BW_OK;
}

/* Rows that a ramp's thrust goes to: those that stand, if any does, each with what it has
 * of a rider at the worst place for it. */
static bool takes_thrust(const bwi_plan *p, int row, size_t bent)
{
    bool any = false;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        any = any || bwi_row_stands(p, (int)r, bent);
    }
    return any ? bwi_row_stands(p, row, bent) : bwi_row_meets_bent(p, row, bent);
}

static bw_status add_thrust(const builder *b)
{
    const bw_loads *l = &b->p->deck->loads;
    const double thrust = bw_ramp_thrust(l, NULL, NULL);
    const int node = thrust > 0.0 ? b->f->deck_node[l->thrust_bent] : -1;
    if (node < 0 || !takes_thrust(b->p, b->f->row, (size_t)l->thrust_bent)) {
        return BW_OK;
    }
    const size_t bent = (size_t)l->thrust_bent;
    double share = 0.0; /* a row may begin or end there */
    for (size_t bay = bent > 0 ? bent - 1 : 0; bay <= bent && bay < b->p->n_bays; bay++) {
        share = fmax(share, bwi_plan_share(b->p, b->f->row, bay)->rider_push);
    }
    return bw_frame_load_node(b->f->frame, BWI_CASE_THRUST, node, share * thrust, 0.0,
                              0.0);
}

static bw_status add_loads(const builder *b)
{
    for (int k = 0; k < BWI_CASE_FIRST_BAY + (int)b->p->n_bays; k++) {
        BW_TRY(bw_frame_load_self_weight(b->f->frame, k, k == BWI_CASE_DEAD ? 1.0 : 0.0));
    }
    for (size_t bay = 0; bay < b->p->n_bays; bay++) {
        if (b->f->bay_member[bay] >= 0) {
            BW_TRY(add_bay_loads(b, bay));
        }
        BW_TRY(add_handed(b, bay));
    }
    return add_thrust(b);
}

static bw_status add_braces(const builder *b, bw_diags *d)
{
    for (size_t k = 0; k < b->p->deck->n_braces; k++) {
        const bw_brace *brace = &b->p->deck->braces[k];
        const int row = bwi_row_of_post(b->p, brace->from.row, (size_t)brace->from.bent);
        if (!bwi_brace_is_along(brace) || row != b->f->row || b->slack[k]) {
            continue;
        }
        const bw_brace_end *end = &brace->to;
        const int from =
            bwi_chain_node(&b->f->posts[brace->from.bent], brace->from.height);
        const int to = end->on_stringer
                           ? b->f->knee_node[k]
                           : bwi_chain_node(&b->f->posts[end->bent], end->height);
        if (from < 0 || to < 0 || from == to) {
            bw_diags_error(
                d, "deck.brace", brace->case_path,
                "its ends need a post of the row, or a place under a stringer, "
                "clear of other joints",
                "brace %s does not reach from one part of the row to another",
                brace->name);
            return BW_E_INPUT;
        }
        BW_TRY(
            bwi_brace_add(b->p, b->f->frame, (int)k, from, to, &b->f->brace_member[k]));
    }
    return BW_OK;
}

/* Nodes, posts and stringers of one run of bays, first .. last bent. */
static bw_status add_run(const builder *b, size_t first, size_t last, bw_diags *d)
{
    const bool has_posts = bwi_row_stands(b->p, b->f->row, first);
    for (size_t bent = first; bent <= last; bent++) {
        BW_TRY(add_deck_node(b, bent));
        BW_TRY(hold_node(b, bent, has_posts, bent == first, d));
        if (bent > first) {
            BW_TRY(add_stringer(b, bent - 1, d));
        }
    }
    return BW_OK;
}

static bw_status allocate(const bwi_plan *p, int row, bwi_row_frame *out)
{
    const size_t n = p->deck->n_bents;
    *out = (bwi_row_frame){.frame = bw_frame_new(p->arena),
                           .row = row,
                           .braces = p->deck->braces,
                           .n_braces = p->deck->n_braces};
    out->deck_node = BW_NEW(p->arena, int, n);
    out->posts = BW_NEW(p->arena, bwi_chain, n);
    out->brace_member = BW_NEW(p->arena, int, p->deck->n_braces);
    const size_t n_pieces = n + p->deck->n_braces; /* a knee makes one more */
    out->knee_node = BW_NEW(p->arena, int, p->deck->n_braces);
    out->bay_member = BW_NEW(p->arena, int, n);
    out->bay_pieces = BW_NEW(p->arena, int, n);
    out->path_place = BW_NEW(p->arena, int, n);
    out->feet = BW_NEW(p->arena, bwi_foot, n);
    out->handed_load = BW_NEW(p->arena, double, n);
    out->handed_turn = BW_NEW(p->arena, double, n);
    out->seat_beside[BWI_BEFORE] = BW_NEW(p->arena, double, n);
    out->seat_beside[BWI_AFTER] = BW_NEW(p->arena, double, n);
    out->path = BW_NEW(p->arena, int, n_pieces);
    out->path_bay = BW_NEW(p->arena, size_t, n_pieces);
    if (out->frame == NULL || out->deck_node == NULL || out->posts == NULL ||
        out->brace_member == NULL || out->knee_node == NULL || out->bay_pieces == NULL ||
        out->bay_member == NULL || out->path_place == NULL || out->feet == NULL ||
        out->path == NULL || out->path_bay == NULL || out->handed_load == NULL ||
        out->handed_turn == NULL || out->seat_beside[BWI_BEFORE] == NULL ||
        out->seat_beside[BWI_AFTER] == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < n; k++) {
        out->seat_beside[BWI_BEFORE][k] = bwi_seat_beside(p, row, k, BWI_BEFORE);
        out->seat_beside[BWI_AFTER][k] = bwi_seat_beside(p, row, k, BWI_AFTER);
        out->deck_node[k] = -1;
        out->bay_member[k] = out->path_place[k] = -1;
    }
    for (size_t k = 0; k < p->deck->n_braces; k++) {
        out->brace_member[k] = out->knee_node[k] = -1;
    }
    return BW_OK;
}

static bw_status build(const bwi_plan *p, int row, const bool *slack, bwi_row_frame *out,
                       bw_diags *d)
{
    BW_TRY(allocate(p, row, out));
    bw_frame_name_directions(out->frame, "along the deck", "up and down");
    const builder b = {p, out, slack, BW_NEW(p->arena, cuts, p->n_bays)};
    if (b.cut == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        if (bwi_plan_part(p, row, bay)->stringer < 0) {
            continue;
        }
        size_t last = bay;
        while (last + 1 < p->n_bays && bwi_plan_part(p, row, last + 1)->stringer >= 0) {
            last++;
        }
        BW_TRY(add_run(&b, bay, last + 1, d));
        bay = last;
    }
    if (out->n_path == 0) {
        out->frame = NULL; /* a row of posts only: it lives in the bent frames */
        return BW_OK;
    }
    BW_TRY(add_braces(&b, d));
    BW_TRY(add_loads(&b));
    BW_TRY(bw_frame_factor(out->frame, d));
    return bw_frame_solve(out->frame, d);
}

int bwi_thrust_way(const bw_case *deck, int direction)
{
    const int bent = deck->loads.thrust_bent, last = (int)deck->n_bents - 1;
    const bool inwards = (bent == 0 && direction > 0) || (bent == last && direction < 0);
    return inwards ? 0 : direction;
}

/* All pushes at once, one way: what they would pull on is slack. */
static bw_state *pushed(const bwi_plan *p, const bwi_row_frame *f, int direction)
{
    const bw_loads *l = &p->deck->loads;
    const double area = l->sway + l->lean * (l->crowd + l->snow);
    const bw_part parts[] = {{BWI_CASE_PUSH_DEAD, direction * fmax(l->lean, 1e-6)},
                             {BWI_CASE_PUSH_AREA, direction * area},
                             {BWI_CASE_THRUST, bwi_thrust_way(p->deck, direction)}};
    return bw_frame_state(f->frame, parts, 3, p->arena);
}

bw_status bwi_row_frame_make(const bwi_plan *p, int row, int direction,
                             bwi_row_frame *out, bw_diags *d)
{
    bool *slack = BW_NEW(p->arena, bool, p->deck->n_braces);
    if (slack == NULL) {
        return BW_E_MEMORY;
    }
    bool slackened = false;
    BW_TRY(build(p, row, slack, out, d));
    for (size_t k = 0; out->frame != NULL && k < p->deck->n_braces; k++) {
        const bw_state *s = pushed(p, out, direction);
        if (s == NULL) {
            return BW_E_MEMORY;
        }
        if (!bwi_mark_slack(p, s, out->brace_member, slack)) {
            break;
        }
        slackened = true;
        BW_TRY(build(p, row, slack, out, d));
    }
    out->direction = direction;
    out->slackened = slackened;
    if (out->frame == NULL) {
        return BW_OK;
    }
    BW_TRY(
        bw_influence_new(out->frame, out->path, out->n_path, p->arena, &out->influence));
    return bwi_lifts_make(p, out);
}

/* ---- a bay as one line of pieces ---- */

double bwi_bay_length(const bwi_row_frame *f, size_t bay)
{
    double sum = 0.0;
    for (int j = 0; j < f->bay_pieces[bay]; j++) {
        sum += bw_frame_length(f->frame, f->bay_member[bay] + j);
    }
    return sum;
}

int bwi_bay_piece(const bwi_row_frame *f, size_t bay, double *x, bool before)
{
    int member = f->bay_member[bay];
    const int last = member + f->bay_pieces[bay] - 1;
    double length = bw_frame_length(f->frame, member);
    while (member < last && (before ? *x > length : *x >= length)) {
        *x -= length;
        length = bw_frame_length(f->frame, ++member);
    }
    return member;
}

bwi_bay bwi_bay_read(const bwi_row_frame *f, size_t bay, const bw_state *s,
                     const bw_wheel *wheels, size_t n_wheels, bw_arena *arena)
{
    bwi_bay out;
    out.n = f->bay_member[bay] >= 0 ? (size_t)f->bay_pieces[bay] : 0;
    out.from[0] = 0.0;
    for (size_t j = 0; j < out.n; j++) {
        const int member = f->bay_member[bay] + (int)j;
        out.line[j] = wheels != NULL ? bw_influence_line(f->influence, s, member, wheels,
                                                         n_wheels, arena)
                                     : bw_state_line(s, member, arena);
        out.from[j + 1] = out.from[j] + bw_frame_length(f->frame, member);
    }
    return out;
}

bw_action bwi_bay_action(const bwi_bay *b, double x, bool before)
{
    size_t j = 0;
    while (j + 1 < b->n && (before ? x > b->from[j + 1] : x >= b->from[j + 1])) {
        j++;
    }
    return bw_line_action(&b->line[j], x - b->from[j], before);
}

/* ---- what the row puts on a bent ---- */

/* Downward part of what a member's end puts on its node. */
static double down(const bw_frame *f, int member, const double end[6], bool at_last)
{
    double c, s;
    bw_frame_direction(f, member, &c, &s);
    return at_last ? s * end[3] - c * end[4] : c * end[1] - s * end[0];
}

/* Part of it along the deck. */
static double forward(const bw_frame *f, int member, const double end[6], bool at_last)
{
    double c, s;
    bw_frame_direction(f, member, &c, &s);
    return at_last ? -(c * end[3] + s * end[4]) : c * end[0] + s * end[1];
}

typedef double (*end_part)(const bw_frame *, int, const double[6], bool);

static double member_part(const bwi_row_frame *f, int member, bool at_last,
                          const bw_state *state, const bwi_wheels *wheels, end_part part)
{
    double end[6] = {0.0}, force = 0.0;
    if (state != NULL) {
        bw_state_ends(state, member, end);
        force += part(f->frame, member, end, at_last);
    }
    if (wheels != NULL) {
        bw_influence_ends(f->influence, member, wheels->wheel, wheels->n, end);
        force += part(f->frame, member, end, at_last);
    }
    return force;
}

static double end_force(const bwi_row_frame *f, size_t bay, bool at_last,
                        const bw_state *state, const bwi_wheels *wheels, end_part part)
{
    const int first = f->bay_member[bay];
    const int member = at_last ? first + f->bay_pieces[bay] - 1 : first;
    return first >= 0 ? member_part(f, member, at_last, state, wheels, part) : 0.0;
}

/* What the knees under stringers put on their posts at the bent. */
static double knee_force(const bwi_row_frame *f, size_t bent, const bw_state *state,
                         const bwi_wheels *wheels)
{
    double sum = 0.0;
    for (size_t k = 0; k < f->n_braces; k++) {
        if (f->brace_member[k] >= 0 && f->knee_node[k] >= 0 &&
            f->braces[k].from.bent == (int)bent) {
            sum += member_part(f, f->brace_member[k], false, state, wheels, down);
        }
    }
    return sum;
}

void bwi_row_end_forces(const bwi_row_frame *f, size_t bent, const bw_state *s,
                        const bwi_wheels *wheels, double *before, double *after)
{
    *before = bent > 0 && f->deck_node[bent] >= 0
                  ? end_force(f, bent - 1, true, s, wheels, down)
                  : 0.0;
    *after = f->deck_node[bent] >= 0 ? end_force(f, bent, false, s, wheels, down) : 0.0;
}

void bwi_row_end_pushes(const bwi_row_frame *f, size_t bent, const bw_state *s,
                        const bwi_wheels *wheels, double *before, double *after)
{
    *before = bent > 0 && f->deck_node[bent] >= 0
                  ? end_force(f, bent - 1, true, s, wheels, forward)
                  : 0.0;
    *after =
        f->deck_node[bent] >= 0 ? end_force(f, bent, false, s, wheels, forward) : 0.0;
}

double bwi_row_reaction(const bwi_row_frame *f, const bw_state *s, size_t bent)
{
    double before, after;
    bwi_row_end_forces(f, bent, s, NULL, &before, &after);
    return before + after + knee_force(f, bent, s, NULL);
}

double bwi_row_wheel_reaction(const bwi_row_frame *f, const bwi_wheels *wheels,
                              size_t bent)
{
    double before, after;
    bwi_row_end_forces(f, bent, NULL, wheels, &before, &after);
    return before + after + knee_force(f, bent, NULL, wheels);
}
