/* frame.c - the command frame: a free plane frame in, its actions out. */
#include "commands.h"
#include "output.h"

#include "bolewright/input.h"
#include "bolewright/report.h"

typedef struct {
    bw_arena *arena;
    const bwi_options *options;
    bw_diags model, output; /* of two different files */
    bw_frame_input input;
    bw_state *state;
} frame_run;

/* A frame file has one load case, 0: all its loads act together. */
static bw_status read_and_solve(frame_run *run)
{
    static const bw_part all_loads = {.load_case = 0, .factor = 1.0};
    const char *text = NULL;
    BW_TRY(bwi_output_allowed(run->options, run->options->operand, &run->output));
    BW_TRY(bw_input_read_file(run->arena, run->options->operand, &text, &run->model));
    BW_TRY(bw_input_frame(run->arena, text, &run->input, &run->model));
    BW_TRY(bw_frame_factor(run->input.frame, &run->model));
    BW_TRY(bw_frame_solve(run->input.frame, &run->model));
    run->state = bw_frame_state(run->input.frame, &all_loads, 1, run->arena);
    return run->state == NULL ? BW_E_MEMORY : BW_OK;
}

static bw_status report(frame_run *run)
{
    const bw_frame_result result = {
        .title = run->input.title,
        .units = run->input.units,
        .frame = run->input.frame,
        .state = run->state,
        .node_names = run->input.node_names,
        .member_names = run->input.member_names,
        .n_nodes = run->input.n_nodes,
        .n_members = run->input.n_members,
    };
    bw_text text = bw_text_new(run->arena), json = bw_text_new(run->arena);
    bw_report_frame_text(&result, &text);
    if (run->options->value[BWI_OPT_JSON] != NULL) {
        bw_report_frame_json(&result, &json);
    }
    return bwi_output_report(run->options, &text, &json, &run->output);
}

int bwi_frame_run(bw_arena *arena, const bwi_options *options)
{
    frame_run run = {
        .arena = arena,
        .options = options,
        .model = bw_diags_new(arena, bwi_output_name(options->operand)),
        .output = bw_diags_new(arena, NULL),
    };
    bw_status status = read_and_solve(&run);
    if (status == BW_OK) {
        status = report(&run);
    }
    const bw_diags *const all[] = {&run.model, &run.output, NULL};
    return bwi_output_finish(status, all);
}
