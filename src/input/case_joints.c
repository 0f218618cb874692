/* case_joints.c - joints: how the ends of stringers and braces hand over their load. One
 * entry may speak of several ends; each end is described once. */
#include "case.h"

#include <string.h>

static const bwi_range notch_range = {0.005, 0.15, false}; /* [m] */

typedef struct {
    const bwi_case_reader *r;
    const bwi_at *at;
    bw_joint_place *items;
    size_t count, capacity;
} joint_list;

static bool same_end(const bw_joint_place *a, const bw_joint_place *b)
{
    return a->stringer == b->stringer && a->brace == b->brace &&
           (a->stringer >= 0 ? a->bent == b->bent : a->at_to == b->at_to);
}

static void add(joint_list *list, const bw_joint_place *joint)
{
    for (size_t k = 0; k < list->count; k++) {
        if (same_end(&list->items[k], joint)) {
            bwi_error(list->at, "joint.twice", NULL, "describe each end once",
                      "another joint speaks of the same end: %s",
                      list->items[k].case_path);
            return;
        }
    }
    bw_joint_place *items = bw_arena_grow(list->r->doc->arena, list->items, list->count,
                                          &list->capacity, sizeof *items);
    if (items == NULL) {
        list->r->doc->out_of_memory = true;
        return;
    }
    list->items = items;
    items[list->count++] = *joint;
}

/* ---- stringers ---- */

/* What a hung stringer is fastened to must be there. */
static void support_check(const joint_list *list, const bw_joint_place *joint)
{
    const bwi_case_reader *r = list->r;
    const bw_bent *bent = &r->bents[joint->bent];
    const int row = r->stringers[joint->stringer].row;
    bool has_post = false;
    for (size_t k = 0; k < bent->n_posts; k++) {
        has_post = has_post || bent->posts[k].row == row || bent->posts[k].row < 0;
    }
    if (joint->hung && (joint->into_cap ? bent->cap < 0 : !has_post)) {
        bwi_error(list->at, "joint.support", NULL,
                  joint->into_cap ? "hang it on the post: \"into\": \"post\""
                                  : "hang it on the cap: \"into\": \"cap\"",
                  "bent %s has no %s that the stringer could hang on",
                  bent->name != NULL ? bent->name : "without a name",
                  joint->into_cap ? "cap" : "post of its row");
    }
}

/* The stringer at one bent, or (bent -1) at all that it meets; true if there is one. */
static bool stringer_add(joint_list *list, bw_joint_place joint, int stringer, int bent)
{
    const bw_stringer *s = &list->r->stringers[stringer];
    bool any = false;
    if (s->from < 0 || s->to < 0 || s->row < 0) {
        return true; /* reported */
    }
    for (int k = s->from; k <= s->to; k++) {
        if (bent < 0 || bent == k) {
            joint.stringer = stringer;
            joint.bent = k;
            support_check(list, &joint);
            add(list, &joint);
            any = true;
        }
    }
    return any;
}

static void stringers_add(joint_list *list, const bw_joint_place *joint, const bwi_at *at)
{
    const bwi_case_reader *r = list->r;
    const bwi_at which = bwi_key(at, "stringer"), row_at = bwi_key(at, "row");
    const bwi_at bent_at = bwi_key(at, "at");
    int stringer = -1, row = -1, bent = -1;
    bool any = false;
    if (bent_at.node != NULL && !bwi_case_bent(r, &bent_at, &bent)) {
        return;
    }
    if (which.node != NULL) {
        if (!bwi_reference(&which, &r->stringer_names, &stringer)) {
            return;
        }
        any = stringer_add(list, *joint, stringer, bent);
    } else if (bwi_reference(&row_at, &r->row_names, &row)) {
        for (size_t k = 0; k < r->out->n_stringers; k++) {
            any = (r->stringers[k].row == row &&
                   stringer_add(list, *joint, (int)k, bent)) ||
                  any;
        }
    } else {
        return;
    }
    if (!any) {
        bwi_error(bent_at.node != NULL ? &bent_at : &row_at, "joint.place", NULL,
                  "name a bent that it lies on", "no such stringer meets that bent");
    }
}

/* ---- braces ---- */

/* The brace of that name, or one of the crossed pair of that name ("X": "X 1", "X 2"). */
static bool goes_by(const bw_brace *b, const char *name)
{
    const size_t n = strlen(name);
    return b->name != NULL && strncmp(b->name, name, n) == 0 &&
           (b->name[n] == '\0' || strcmp(b->name + n, " 1") == 0 ||
            strcmp(b->name + n, " 2") == 0);
}

static void braces_add(joint_list *list, bw_joint_place joint, const bwi_at *at)
{
    const bwi_case_reader *r = list->r;
    const bwi_at which = bwi_key(at, "brace"), end_at = bwi_key(at, "end");
    const char *name = NULL;
    int unused = -1, end = 2;
    bool any = false;
    if (!bwi_text(&which, &name) ||
        (end_at.node != NULL && !BWI_WORD(&end_at, &end, "from", "to", "both"))) {
        return;
    }
    for (size_t k = 0; k < r->n_braces; k++) {
        if (!goes_by(&r->braces[k], name)) {
            continue;
        }
        joint.brace = (int)k;
        any = true;
        for (int to = 0; to < 2; to++) {
            if (end == 2 || end == to) {
                joint.at_to = to == 1;
                add(list, &joint);
            }
        }
    }
    if (!any) {
        bwi_reference(&which, &r->brace_names, &unused); /* says what there is */
    }
}

/* ---- one entry ---- */

static void load_read(const bwi_at *at, bw_joint_place *joint)
{
    int load = 0, into = 0;
    const bwi_at load_at = bwi_key(at, "load"), into_at = bwi_key(at, "into");
    const bwi_at fasteners = bwi_key(at, "fasteners");
    BWI_WORD(&load_at, &load, "bears", "hung");
    joint->hung = load == 1;
    BWI_WORD(&into_at, &into, "post", "cap");
    joint->into_cap = into == 1;
    if (fasteners.node != NULL) {
        bwi_case_fasteners(&fasteners, &joint->fasteners);
    } else if (joint->hung) {
        bwi_error(&load_at, "joint.hung", NULL,
                  "add \"fasteners\", or better let the log bear on what is under it",
                  "a log that hangs on nothing");
    }
}

static void joint_read(joint_list *list, const bwi_at *at)
{
    bw_joint_place joint = {.stringer = -1,
                            .bent = -1,
                            .brace = -1,
                            .fasteners = {.count = 1, .rows = 1, .planes = 1},
                            .case_path = bwi_pointer(at)};
    list->at = at;
    bwi_by_key(at, "brace");
    BWI_ONE_OF(at, "stringer", "row", "brace");
    if (!BWI_OBJECT(at, "stringer", "row", "brace", "at", "end", "load", "into", "notch",
                    "fasteners")) {
        return;
    }
    const bool of_brace = bwi_key(at, "brace").node != NULL;
    const int named = (bwi_key(at, "stringer").node != NULL ? 1 : 0) +
                      (bwi_key(at, "row").node != NULL ? 1 : 0) + (of_brace ? 1 : 0);
    if (named != 1) {
        bwi_error(at, "joint.of", NULL,
                  "\"stringer\" for one log, \"row\" for all of a row, or \"brace\"",
                  "a joint needs to say whose end it is, once");
        return;
    }
    const char *const foreign = of_brace ? "at" : "end";
    const bwi_at other = bwi_key(at, foreign), notch = bwi_key(at, "notch");
    if (other.node != NULL || (!of_brace && notch.node != NULL)) {
        bwi_key_error(other.node != NULL ? &other : &notch, "joint.key", NULL,
                      "\"at\" a bent is for stringers, \"end\" and \"notch\" for braces",
                      "does not belong to this joint");
    }
    bwi_measure(&notch, BW_LENGTH, notch_range, &joint.notch);
    load_read(at, &joint);
    if (of_brace) {
        braces_add(list, joint, at);
    } else {
        stringers_add(list, &joint, at);
    }
}

void bwi_case_joints(bwi_case_reader *r)
{
    enum { MOST = 5000 };
    const bwi_at list_at = bwi_key(&r->root, "joints");
    if (r->braces == NULL) { /* a case without braces */
        r->brace_names = (bwi_names){.what = "brace", .key = "name"};
    }
    if (list_at.node == NULL || r->stringers == NULL || r->bents == NULL ||
        !bwi_list(&list_at, 0, MOST)) {
        return;
    }
    joint_list list = {.r = r};
    bwi_at item = bwi_first(&list_at);
    for (; item.node != NULL; bwi_next(&item)) {
        joint_read(&list, &item);
    }
    r->out->joints = list.items;
    r->out->n_joints = list.count;
}
