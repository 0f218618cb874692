/* A free frame: read, solved, reported. */
#include "target.h"

#include "bolewright/report.h"

static void check_report(bw_arena *arena, const bw_frame_input *input,
                         const bw_state *state)
{
    const bw_frame_result result = {
        .title = input->title,
        .units = input->units,
        .frame = input->frame,
        .state = state,
        .node_names = input->node_names,
        .member_names = input->member_names,
        .n_nodes = input->n_nodes,
        .n_members = input->n_members,
    };
    bw_text text = bw_text_new(arena), json = bw_text_new(arena);
    bw_report_frame_text(&result, &text);
    bw_report_frame_json(&result, &json);
    fuzz_check_report(&text);
    fuzz_check_report(&json);
}

static void solve(bw_arena *arena, const bw_frame_input *input)
{
    static const bw_part all_loads = {.load_case = 0, .factor = 1.0};
    bw_diags d = bw_diags_new(arena, "frame.json");
    bw_status status = bw_frame_factor(input->frame, &d);
    if (status == BW_OK) {
        status = bw_frame_solve(input->frame, &d);
    }
    fuzz_check_result(status, &d);
    if (status == BW_OK) {
        bw_state *state = bw_frame_state(input->frame, &all_loads, 1, arena);
        INSIST(state != NULL);
        check_report(arena, input, state);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_arena *arena = fuzz_arena();
    bw_diags d = bw_diags_new(arena, "frame.json");
    const char *text = fuzz_text(arena, data, size);
    bw_frame_input input;
    const bw_status status = bw_input_frame(arena, text, &input, &d);
    fuzz_check_reading(text, status, &d);
    if (status == BW_OK) {
        solve(arena, &input);
    }
    bw_arena_free(arena);
    return 0;
}
