/* case_fasteners.c - what joins two logs: a kind, how many, and their sizes. */
#include "case.h"

#include <math.h>

/* All lengths in [m]; round bounds of judgement. */
static const bwi_range diameter_range = {0.002, 0.04, false};
static const bwi_range length_range = {0.02, 1.0, false};
static const bwi_range place_range = {0.003, 3.0, false};
static const bwi_range yield_range = {150e6, 2000e6, false}; /* [Pa] */
static const bwi_range count_range = {1.0, 60.0, false};

_Static_assert(BW_FASTENER_LAG == 1 && BW_FASTENER_SCREW == 2 && BW_FASTENER_BOLT == 3 &&
                   BW_FASTENER_SPIKE == 4 && BW_FASTENER_NAIL == 5,
               "lag screw, screw, bolt, spike, nail");

static void count_read(const bwi_at *at, int *out)
{
    double count = *out;
    bwi_is_whole(at);
    if (bwi_number(at, count_range, &count) && count != floor(count)) {
        bwi_error(at, "fasteners.count", "1 to 60", NULL, "%s is not a whole number",
                  bwi_as_written(at));
    }
    *out = (int)count;
}

static void sizes_read(const bwi_at *at, bw_fasteners *out)
{
    const struct {
        const char *key;
        bwi_range range;
        double *to;
    } lengths[] = {{"diameter", diameter_range, &out->diameter},
                   {"root", diameter_range, &out->root},
                   {"head", place_range, &out->head},
                   {"length", length_range, &out->length},
                   {"penetration", length_range, &out->penetration},
                   {"thread", length_range, &out->thread},
                   {"side", length_range, &out->side},
                   {"end", place_range, &out->end},
                   {"edge", place_range, &out->edge},
                   {"loaded_edge", place_range, &out->loaded_edge},
                   {"spacing", place_range, &out->spacing},
                   {"row_spacing", place_range, &out->row_spacing}};
    for (size_t k = 0; k < BWI_COUNT(lengths); k++) {
        const bwi_at value = bwi_key(at, lengths[k].key);
        bwi_measure(&value, BW_LENGTH, lengths[k].range, lengths[k].to);
    }
    const bwi_at yield = bwi_key(at, "yield");
    bwi_measure(&yield, BW_STRESS, yield_range, &out->yield);
}

/* What cannot be true of any fastener. */
static void sizes_check(const bwi_at *at, const bw_fasteners *f)
{
    const bwi_at root = bwi_key(at, "root"), head = bwi_key(at, "head");
    const bwi_at rows = bwi_key(at, "rows"), planes = bwi_key(at, "planes");
    if (f->root > f->diameter && f->diameter > 0.0) {
        bwi_error(&root, "fasteners.root", NULL,
                  "\"root\" is the diameter under the thread, without it",
                  "a root of %s is thicker than the fastener", bwi_as_written(&root));
    }
    if (f->head > 0.0 && f->head <= f->diameter) {
        bwi_error(&head, "fasteners.head", NULL,
                  "give the width across the head, or the diameter of the washer",
                  "a head of %s is no wider than the fastener", bwi_as_written(&head));
    }
    if (f->count % f->rows != 0) {
        bwi_error(&rows, "fasteners.rows", NULL,
                  "rows lie side by side across the load and share the fasteners evenly",
                  "%s rows cannot share %d fasteners evenly", bwi_as_written(&rows),
                  f->count);
    }
    if (f->planes == 2 && f->kind != BW_FASTENER_BOLT) {
        bwi_error(&planes, "fasteners.planes", NULL,
                  "only a bolt goes through three logs; leave it out",
                  "a %s in two planes of shear", bw_fastener_name(f->kind));
    }
}

void bwi_case_fasteners(const bwi_at *at, bw_fasteners *out)
{
    static const bwi_range planes_range = {1.0, 2.0, false};
    *out = (bw_fasteners){.kind = BW_FASTENER_NONE, .count = 1, .rows = 1, .planes = 1};
    if (!BWI_OBJECT(at, "kind", "count", "rows", "planes", "toe", "diameter", "root",
                    "yield", "head", "length", "penetration", "thread", "side", "end",
                    "edge", "loaded_edge", "spacing", "row_spacing")) {
        return;
    }
    int kind = 0;
    double planes = 1.0;
    const bwi_at kind_at = bwi_need(at, "kind"), count = bwi_need(at, "count");
    const bwi_at rows = bwi_key(at, "rows"), planes_at = bwi_key(at, "planes");
    bwi_need(at, "diameter");
    if (BWI_WORD(&kind_at, &kind, "lag screw", "screw", "bolt", "spike", "nail")) {
        out->kind = (bw_fastener_kind)(BW_FASTENER_LAG + kind);
    }
    const bwi_at toe = bwi_key(at, "toe");
    bwi_flag(&toe, &out->toe);
    count_read(&count, &out->count);
    count_read(&rows, &out->rows);
    bwi_number(&planes_at, planes_range, &planes);
    out->planes = planes > 1.0 ? 2 : 1;
    sizes_read(at, out);
    sizes_check(at, out);
}
