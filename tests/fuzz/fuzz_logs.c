/* A list of logs: read. */
#include "target.h"

#include <math.h>

static void check_log(const bw_log *log)
{
    INSIST(log->name != NULL && log->species != NULL);
    INSIST(isfinite(log->length) && log->length > 0.0);
    INSIST(isfinite(log->butt_diameter) && log->butt_diameter > 0.0);
    INSIST(isfinite(log->tip_diameter) && log->tip_diameter > 0.0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_arena *arena = fuzz_arena();
    bw_diags d = bw_diags_new(arena, "logs.csv");
    const char *text = fuzz_text(arena, data, size);
    bw_log_list logs = {NULL, NULL, 0};
    const bw_status status = bw_input_logs(arena, text, fuzz_deck(), &logs, &d);
    fuzz_check_reading(text, status, &d);
    for (size_t i = 0; status == BW_OK && i < logs.count; i++) {
        check_log(&logs.logs[i]);
    }
    bw_arena_free(arena);
    return 0;
}
