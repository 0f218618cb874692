/* record.c - reference values in a working. */
#include "record.h"

void bwi_record_reference_as(bw_working *working, const bw_check_input *in,
                             bw_property property, const char *symbol,
                             const char *meaning)
{
    if (working == NULL) {
        return;
    }
    bw_term term = {symbol,
                    meaning,
                    bwi_reference_value(in, property),
                    BW_STRESS,
                    BW_MARK_COMPUTED,
                    "reference values of the species: the last line of their ladder"};
    const bw_working *ladder =
        in->reference != NULL ? &in->reference->ladder[property] : NULL;

    if (ladder != NULL && ladder->count > 0 &&
        ladder->items[ladder->count - 1].source != NULL) {
        term.mark = ladder->items[ladder->count - 1].mark;
        term.source = ladder->items[ladder->count - 1].source;
    }
    bwi_record_from(working, &term);
}

void bwi_record_reference(bw_working *working, const bw_check_input *in,
                          bw_property property)
{
    static const struct {
        const char *symbol, *meaning;
    } names[BW_PROPERTY_COUNT] = {
        [BW_BENDING_STRENGTH] = {"F_b", "reference bending stress"},
        [BW_SHEAR_STRENGTH] = {"F_v", "reference shear stress along the grain"},
        [BW_COMPRESSION] = {"F_c", "reference compression along the grain"},
        [BW_BEARING] = {"F_cperp", "reference compression across the grain"},
        [BW_MODULUS] = {"E", "mean modulus of elasticity"},
        [BW_MODULUS_MIN] = {"E_min", "modulus of elasticity for stability"},
    };

    bwi_record_reference_as(working, in, property, names[property].symbol,
                            names[property].meaning);
}
