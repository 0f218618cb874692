/* schema.c - the command schema: what a file may hold. */
#include "commands.h"
#include "output.h"

#include "bolewright/input.h"

int bwi_schema_run(bw_arena *arena, const bwi_options *options)
{
    bw_diags d = bw_diags_new(arena, NULL);
    bw_text text = bw_text_new(arena);
    bw_status status = bw_input_schema(arena, options->operand, &text, &d);
    if (status == BW_OK) {
        status = bwi_output_print(&text, &d);
    }
    const bw_diags *const all[] = {&d, NULL};
    return bwi_output_finish(status, all);
}
