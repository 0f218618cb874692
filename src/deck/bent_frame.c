/* A bent as a plane frame across the deck: its posts and the cap over them, the posts
 * hinged to the cap. Load cases: its own weight, a unit force down at every row, a unit
 * push at the deck, and a unit moment of a row that carries the deck alone. */
#include "internal.h"

#include <math.h>

static size_t insert_place(double *at, size_t n, double across)
{
    size_t k = n;
    while (k > 0 && at[k - 1] > across) {
        k--;
    }
    if ((k > 0 && across - at[k - 1] < 1e-3) || (k < n && at[k] - across < 1e-3)) {
        return n;
    }
    for (size_t j = n; j > k; j--) {
        at[j] = at[j - 1];
    }
    at[k] = across;
    return n + 1;
}

static size_t nearest(const double *at, size_t n, double across)
{
    size_t best = 0;
    for (size_t k = 1; k < n; k++) {
        if (fabs(at[k] - across) < fabs(at[best] - across)) {
            best = k;
        }
    }
    return best;
}

/* Height of the joint above ground: the cap's axis, or the stringer's where there is no
 * cap. */
static double joint_height(const bwi_plan *p, size_t bent, double across, int row)
{
    return p->deck->bents[bent].cap >= 0
               ? p->cap_top[bent] - bwi_cap_depth(p, bent, across) / 2.0
               : bwi_row_height(p, row, bent);
}

/* A row that stands on the node; 0 if none does. */
static int node_row(const bwi_plan *p, const bwi_bent_frame *f, size_t node)
{
    int row = 0;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        row = f->row_node[r] == (int)node ? (int)r : row;
    }
    return row;
}

/* Places on the cap where knees end. */
static void add_knee_places(const bwi_plan *p, bwi_bent_frame *f, const bool *slack)
{
    for (size_t k = 0; k < 2 * p->deck->n_braces; k++) {
        const bw_brace *b = &p->deck->braces[k / 2];
        const bw_brace_end *end = k % 2 == 0 ? &b->from : &b->to;
        if (end->on_cap && end->bent == (int)f->bent && !slack[k / 2]) {
            f->n_nodes = insert_place(f->node_across, f->n_nodes,
                                      p->deck->rows[end->row].across + end->beside);
        }
    }
}

static bw_status add_nodes(const bwi_plan *p, bwi_bent_frame *f, const bool *slack)
{
    const bw_bent *b = &p->deck->bents[f->bent];
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        if (bwi_row_meets_bent(p, (int)r, f->bent) || bwi_post_of_row(b, (int)r) >= 0) {
            f->n_nodes =
                insert_place(f->node_across, f->n_nodes, p->deck->rows[r].across);
        }
    }
    if (b->cap >= 0) {
        add_knee_places(p, f, slack);
    }
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        f->row_node[r] =
            bwi_row_meets_bent(p, (int)r, f->bent)
                ? (int)nearest(f->node_across, f->n_nodes, p->deck->rows[r].across)
                : -1;
    }
    for (size_t k = 0; k < f->n_nodes; k++) {
        const int row = node_row(p, f, k);
        const char *name = bw_arena_print(
            p->arena, "%s of bent %s", b->cap >= 0 ? "the cap" : "a post top", b->name);
        f->node[k] = bw_frame_add_node(f->frame, f->node_across[k],
                                       joint_height(p, f->bent, f->node_across[k], row),
                                       name, b->case_path);
        if (f->node[k] < 0 || name == NULL) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}

static bw_status add_cap(const bwi_plan *p, bwi_bent_frame *f)
{
    const bw_bent *b = &p->deck->bents[f->bent];
    for (size_t k = 0; k + 1 < f->n_nodes; k++) {
        f->cap_member[k] = -1;
        if (b->cap < 0) {
            continue;
        }
        const bw_reference *r = &p->references[b->cap];
        const double green = bwi_log_density(p->deck, &p->deck->logs[b->cap]);
        bw_section section[2];
        bwi_cap_sections(p, f->bent, &f->node_across[k], section);
        const bw_member m = {.node_i = f->node[k],
                             .node_j = f->node[k + 1],
                             .section_i = section[0],
                             .section_j = section[1],
                             .modulus = r->value[BW_MODULUS],
                             .shear_modulus = bw_shear_modulus(r->value[BW_MODULUS]),
                             .kappa = 0.9,
                             .density = bwi_full_density(section, green),
                             .name = bw_arena_print(p->arena, "cap of bent %s", b->name),
                             .case_path = b->case_path};
        f->cap_member[k] = bw_frame_add_member(f->frame, &m);
        if (f->cap_member[k] < 0 || m.name == NULL) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}

static bw_status add_posts(const bwi_plan *p, bwi_bent_frame *f, const bool *slack,
                           bw_diags *d)
{
    const bw_bent *b = &p->deck->bents[f->bent];
    for (size_t k = 0; k < b->n_posts; k++) {
        const bw_post *post = &b->posts[k];
        const double across = p->deck->rows[post->row].across;
        const size_t place = nearest(f->node_across, f->n_nodes, across);
        BW_TRY(bwi_foot_make(p, f->bent, post, &f->feet[k], d));
        const bwi_post_frame where = {
            .frame = f->frame,
            .x = across,
            .top = joint_height(p, f->bent, f->node_across[place], post->row),
            .top_node = f->node[place],
            .hinge_top = b->cap >= 0 && f->n_nodes > 1,
            .slack = slack};
        BW_TRY(bwi_post_add(p, f->bent, post, &where, &f->feet[k], &f->posts[k], d));
    }
    return BW_OK;
}

/* Node at which a brace ends; -1 if nothing is there. */
static int brace_node(const bwi_plan *p, const bwi_bent_frame *f, const bw_brace_end *end)
{
    if (end->on_cap) {
        const double across = p->deck->rows[end->row].across + end->beside;
        const size_t k = nearest(f->node_across, f->n_nodes, across);
        return fabs(f->node_across[k] - across) < 2e-3 ? f->node[k] : -1;
    }
    const int post = bwi_post_of_row(&p->deck->bents[f->bent], end->row);
    return post >= 0 ? bwi_chain_node(&f->posts[post], end->height) : -1;
}

static bw_status add_braces(const bwi_plan *p, bwi_bent_frame *f, const bool *slack,
                            bw_diags *d)
{
    for (size_t k = 0; k < p->deck->n_braces; k++) {
        const bw_brace *brace = &p->deck->braces[k];
        f->brace_member[k] = -1;
        if (bwi_brace_is_along(brace) || brace->from.bent != (int)f->bent || slack[k]) {
            continue;
        }
        const int from = brace_node(p, f, &brace->from),
                  to = brace_node(p, f, &brace->to);
        if (from < 0 || to < 0 || from == to) {
            bw_diags_error(
                d, "deck.brace", brace->case_path,
                "its ends need a post, or a place on the cap, clear of other joints",
                "brace %s does not reach from one part of the bent to another",
                brace->name);
            return BW_E_INPUT;
        }
        BW_TRY(bwi_brace_add(p, f->frame, (int)k, from, to, &f->brace_member[k]));
    }
    return BW_OK;
}

/* The push acts at the boards, the frame ends at the cap's axis: the rest of the height
 * turns it into more on one outer row and less on the other. */
static bw_status add_push(const bwi_plan *p, bwi_bent_frame *f, int load_case)
{
    const size_t last = f->n_nodes - 1;
    const double share = 1.0 / (double)f->n_nodes;
    const double width = f->node_across[last] - f->node_across[0];
    for (size_t k = 0; k < f->n_nodes; k++) {
        const double height =
            joint_height(p, f->bent, f->node_across[k], node_row(p, f, k));
        const double arm = p->deck->bents[f->bent].deck_height - height;
        const double couple = width > 0.0 ? arm * share / width : 0.0;
        BW_TRY(bw_frame_load_node(f->frame, load_case, f->node[k], share, 0.0,
                                  width > 0.0 ? 0.0 : -arm * share));
        BW_TRY(bw_frame_load_node(f->frame, load_case, f->node[0], 0.0, couple, 0.0));
        BW_TRY(bw_frame_load_node(f->frame, load_case, f->node[last], 0.0, -couple, 0.0));
    }
    return BW_OK;
}

/* How far right of its post a row hangs: outwards, the way that is pushed as well as the
 * other one (JUDGEMENT: the case does not say on which side). */
static double hung_beside(const bwi_plan *p, size_t bent, int row)
{
    const double arm = fmax(bwi_hung_arm(p, row, bent, BWI_BEFORE),
                            bwi_hung_arm(p, row, bent, BWI_AFTER));
    return p->deck->rows[row].across < 0.0 ? -arm : arm;
}

static bw_status add_loads(const bwi_plan *p, bwi_bent_frame *f)
{
    BW_TRY(bw_frame_load_self_weight(f->frame, 0, 1.0));
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        const int node = f->row_node[r] >= 0 ? f->node[f->row_node[r]] : f->node[0];
        const double force = f->row_node[r] >= 0 ? -1.0 : 0.0;
        BW_TRY(bw_frame_load_node(f->frame, 1 + (int)r, node, 0.0, force,
                                  force * hung_beside(p, f->bent, (int)r)));
    }
    BW_TRY(add_push(p, f, 1 + (int)p->deck->n_rows));
    const int lone = p->lone_row >= 0 ? f->row_node[p->lone_row] : -1;
    return lone < 0 ? BW_OK
                    : bw_frame_load_node(f->frame, 2 + (int)p->deck->n_rows,
                                         f->node[lone], 0.0, 0.0, -1.0);
}

static bw_status allocate(const bwi_plan *p, size_t bent, bwi_bent_frame *out)
{
    const bw_bent *b = &p->deck->bents[bent];
    const size_t n = p->deck->n_rows, places = n + 2 * p->deck->n_braces + 1;
    *out = (bwi_bent_frame){.frame = bw_frame_new(p->arena), .bent = bent};
    out->node_across = BW_NEW(p->arena, double, places);
    out->node = BW_NEW(p->arena, int, places);
    out->cap_member = BW_NEW(p->arena, int, places);
    out->posts = BW_NEW(p->arena, bwi_chain, b->n_posts);
    out->feet = BW_NEW(p->arena, bwi_foot, b->n_posts);
    out->row_node = BW_NEW(p->arena, int, n);
    out->brace_member = BW_NEW(p->arena, int, p->deck->n_braces);
    return out->frame == NULL || out->node_across == NULL || out->node == NULL ||
                   out->cap_member == NULL || out->posts == NULL || out->feet == NULL ||
                   out->row_node == NULL || out->brace_member == NULL
               ? BW_E_MEMORY
               : BW_OK;
}

static bw_status build(const bwi_plan *p, size_t bent, const bool *slack,
                       bwi_bent_frame *out, bw_diags *d)
{
    BW_TRY(allocate(p, bent, out));
    bw_frame_name_directions(out->frame, "sideways", "up and down");
    BW_TRY(add_nodes(p, out, slack));
    BW_TRY(add_cap(p, out));
    BW_TRY(add_posts(p, out, slack, d));
    BW_TRY(add_braces(p, out, slack, d));
    BW_TRY(add_loads(p, out));
    BW_TRY(bw_frame_factor(out->frame, d));
    return bw_frame_solve(out->frame, d);
}

bw_status bwi_bent_frame_make(const bwi_plan *p, size_t bent, int direction,
                              bwi_bent_frame *out, bw_diags *d)
{
    bool *slack = BW_NEW(p->arena, bool, p->deck->n_braces);
    if (slack == NULL) {
        return BW_E_MEMORY;
    }
    bool slackened = false;
    const bw_part push = {1 + (int)p->deck->n_rows, direction};
    BW_TRY(build(p, bent, slack, out, d));
    for (size_t k = 0; k < p->deck->n_braces; k++) {
        const bw_state *s = bw_frame_state(out->frame, &push, 1, p->arena);
        if (s == NULL) {
            return BW_E_MEMORY;
        }
        if (!bwi_mark_slack(p, s, out->brace_member, slack)) {
            break;
        }
        slackened = true;
        BW_TRY(build(p, bent, slack, out, d));
    }
    out->direction = direction;
    out->slackened = slackened;
    return BW_OK;
}
