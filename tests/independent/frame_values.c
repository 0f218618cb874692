/* Prints what the frame layer makes of a frame file, for independent_frames.py to
 * compare, or with --bent of its second order, for independent_stability.py:
 *
 *   node <n> <ux> <uy> <rz> <Fx> <Fy> <M>
 *   at <member> <x> <N> <V> <M> <u> <v> <theta>
 *   extremes <member> <M max> <M min> <V max> <V min> <N max> <N min> <M/S max> <M/S min>
 *            <sag max> <sag min>
 *   buckling <factor>              with --bent
 */
#include "sketch.h"

#include <stdio.h>
#include <string.h>

enum { FILE_MAX = 1 << 16, PARTS = 8 };

static bool read_file(const char *path, char *text)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return false;
    }
    const size_t n = fread(text, 1, FILE_MAX - 1, file);
    text[n] = '\0';
    return fclose(file) == 0 && n < FILE_MAX - 1;
}

static void print_nodes(const bwt_sketch *s, const bw_state *state)
{
    for (int n = 0; n < s->n_nodes; n++) {
        const bw_motion u = bw_state_displacement(state, n);
        const bw_motion r = bw_state_reaction(state, n);
        printf("node %d %.17g %.17g %.17g %.17g %.17g %.17g\n", n, u.x, u.y, u.r, r.x,
               r.y, r.r);
    }
}

static void print_member(const bw_state *state, int member, double length)
{
    for (int part = 0; part <= PARTS; part++) {
        const double x = part == PARTS ? length : length * part / PARTS;
        const bw_action a = bw_state_action(state, member, x, part == PARTS);
        const bw_motion m = bw_state_local(state, member, x);
        printf("at %d %.17g %.17g %.17g %.17g %.17g %.17g %.17g\n", member, x, a.axial,
               a.shear, a.moment, m.x, m.y, m.r);
    }
    const bw_extremes e = bw_state_extremes(state, member);
    bw_extreme max = {0};
    bw_extreme min = {0};
    bw_state_sag_extremes(state, member, &max, &min);
    printf("extremes %d %.17g %.17g %.17g %.17g %.17g %.17g %.17g %.17g %.17g %.17g\n",
           member, e.moment_max.value, e.moment_min.value, e.shear_max.value,
           e.shear_min.value, e.axial_max.value, e.axial_min.value, e.stress_max.value,
           e.stress_min.value, max.value, min.value);
}

/* The factor of the state, and its second order in its place; null without it. */
static const bw_state *bend(bw_frame *f, const bw_state *first, bw_arena *arena,
                            bw_diags *d)
{
    bw_buckling buckling;
    bw_state *out = NULL;
    if (bw_frame_buckling(f, first, arena, &buckling, d) != BW_OK ||
        bw_state_second_order(first, arena, &out, d) != BW_OK) {
        return NULL;
    }
    printf("buckling %.17g\n", buckling.factor);
    return out;
}

static int print_values(const bwt_sketch *s, bool bent, bw_arena *arena)
{
    const bw_part all = {0, 1.0};
    bw_diags d = bw_diags_new(arena, NULL);
    bw_frame *f = bwt_sketch_build(s, arena);
    const bool solved =
        f != NULL && bw_frame_factor(f, &d) == BW_OK && bw_frame_solve(f, &d) == BW_OK;
    const bw_state *state = solved ? bw_frame_state(f, &all, 1, arena) : NULL;
    if (state != NULL && bent) {
        state = bend(f, state, arena, &d);
    }
    if (state == NULL) {
        fprintf(stderr, "not solved: %s\n",
                d.count > 0 ? d.items[0].message : "no memory");
        return 1;
    }
    print_nodes(s, state);
    for (int k = 0; k < s->n_members; k++) {
        print_member(state, k, bwt_member_length(s, k));
    }
    return 0;
}

int main(int argc, char **argv)
{
    static char text[FILE_MAX];
    static bwt_sketch sketch;
    const bool bent = argc == 3 && strcmp(argv[1], "--bent") == 0;
    if ((argc != 2 && !bent) || !read_file(argv[argc - 1], text)) {
        fprintf(stderr, "usage: frame_values [--bent] FILE\n");
        return 2;
    }
    cJSON *model = cJSON_Parse(text);
    const char *fault = model != NULL ? bwt_sketch_read(model, &sketch) : "not JSON";
    cJSON_Delete(model);
    bw_arena *arena = bw_arena_new();
    int status = 1;
    if (fault != NULL || arena == NULL) {
        fprintf(stderr, "%s: %s\n", argv[argc - 1], fault != NULL ? fault : "no memory");
    } else {
        status = print_values(&sketch, bent, arena);
    }
    bw_arena_free(arena);
    return status;
}
