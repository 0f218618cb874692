/* basis.c - the bases that the program knows. */
#include "bolewright/checks.h"

#include <string.h>

const bw_basis *bw_basis_at(size_t i)
{
    static const bw_basis *const bases[] = {&bw_us_asd, &bw_eurocode};

    return i < sizeof bases / sizeof bases[0] ? bases[i] : NULL;
}

const bw_basis *bw_basis_find(const char *id)
{
    for (size_t i = 0; id != NULL && bw_basis_at(i) != NULL; i++) {
        if (strcmp(id, bw_basis_at(i)->id) == 0) {
            return bw_basis_at(i);
        }
    }
    return NULL;
}
