#include "commands.h"
#include "output.h"
int bwi_schema_run(bw_arena *arena, const bwi_options *options)
{
    (void)arena;
    (void)options;
    return 0;
}
