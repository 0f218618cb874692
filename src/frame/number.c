/* Numbering for a small profile: reverse Cuthill-McKee (Cuthill & McKee, Proc. 24th ACM
 * National Conference, 1969; George & Liu, 1981; MEMORY). Each part of the frame starts
 * from a node far out on it; neighbours follow in the order of their degree. */
#include "internal.h"

static int degree(const bw_frame *f, int node)
{
    return f->incident_start[node + 1] - f->incident_start[node];
}

static int other_end(const bw_frame *f, int member, int node)
{
    const bw_member *m = &f->members[member].m;
    return m->node_i == node ? m->node_j : m->node_i;
}

/* Members at each node, as compressed rows. */
static bw_status index_members(bw_frame *f)
{
    int *start = BW_NEW(f->arena, int, f->n_nodes + 2);
    int *list = BW_NEW(f->arena, int, 2 * f->n_members + 1);
    if (start == NULL || list == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < f->n_members; k++) {
        start[f->members[k].m.node_i + 2]++;
        start[f->members[k].m.node_j + 2]++;
    }
    for (size_t k = 2; k < f->n_nodes + 2; k++) {
        start[k] += start[k - 1];
    }
    for (size_t k = 0; k < f->n_members;
         k++) { /* start[n + 1] runs on to the row's end */
        list[start[f->members[k].m.node_i + 1]++] = (int)k;
        list[start[f->members[k].m.node_j + 1]++] = (int)k;
    }
    f->incident_start = start;
    f->incident = list;
    return BW_OK;
}

/* Breadth-first order from a node into out; seen[n] == stamp marks those reached. Returns
 * how many nodes the part has. */
static int walk(const bw_frame *f, int from, int stamp, int *seen, int *out)
{
    int n = 0;
    out[n++] = from;
    seen[from] = stamp;
    for (int head = 0; head < n; head++) {
        const int first = n;
        for (int k = f->incident_start[out[head]]; k < f->incident_start[out[head] + 1];
             k++) {
            const int next = other_end(f, f->incident[k], out[head]);
            if (seen[next] == stamp) {
                continue;
            }
            seen[next] = stamp;
            int place = n++;
            for (; place > first && degree(f, out[place - 1]) > degree(f, next);
                 place--) {
                out[place] = out[place - 1];
            }
            out[place] = next;
        }
    }
    return n;
}

/* No member, spring or support feels the turn of the joint. */
static bool turns_idly(const bw_frame *f, int node)
{
    const bwi_node *n = &f->nodes[node];
    if (degree(f, node) == 0 || n->fix[2] || n->spring[2] > 0.0) {
        return false;
    }
    for (int k = f->incident_start[node]; k < f->incident_start[node + 1]; k++) {
        const bw_member *m = &f->members[f->incident[k]].m;
        if (!(m->node_i == node ? m->hinge_i : m->hinge_j)) {
            return false;
        }
    }
    return true;
}

static void number_unknowns(bw_frame *f)
{
    int n = 0;
    for (size_t k = 0; k < f->n_nodes; k++) {
        bwi_node *node = &f->nodes[f->order[k]];
        node->idle = turns_idly(f, f->order[k]);
        for (int j = 0; j < 3; j++) {
            node->equation[j] = node->fix[j] || (j == 2 && node->idle) ? -1 : n++;
        }
    }
    f->system.n = n;
    int half_band = 0;
    for (size_t k = 0; k < f->n_members; k++) {
        const bwi_node *a = &f->nodes[f->members[k].m.node_i];
        const bwi_node *b = &f->nodes[f->members[k].m.node_j];
        for (int j = 0; j < 9; j++) {
            const int p = a->equation[j / 3], q = b->equation[j % 3];
            const int reach = p < 0 || q < 0 ? 0 : (p > q ? p - q : q - p);
            half_band = reach > half_band ? reach : half_band;
        }
    }
    f->system.half_band = half_band < 2 ? 2 : half_band; /* the node's own block */
    if (n > 0 && f->system.half_band >= n) {
        f->system.half_band = n - 1;
    }
}

bw_status bwi_number_nodes(bw_frame *f)
{
    BW_TRY(index_members(f));
    const size_t n = f->n_nodes;
    int *seen = BW_NEW(f->arena, int, n), *part = BW_NEW(f->arena, int, n);
    f->order = BW_NEW(f->arena, int, n);
    if (seen == NULL || part == NULL || f->order == NULL) {
        return BW_E_MEMORY;
    }
    size_t placed = 0;
    for (size_t k = 0; k < n; k++) {
        if (seen[k] != 0) {
            continue;
        }
        int size =
            walk(f, (int)k, 1, seen, part); /* the last node reached lies far out */
        size = walk(f, part[size - 1], 2, seen, part);
        size = walk(f, part[size - 1], 3, seen, part);
        for (int j = size - 1; j >= 0; j--) {
            f->order[placed++] = part[j];
        }
    }
    number_unknowns(f);
    return BW_OK;
}
