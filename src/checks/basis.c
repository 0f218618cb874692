/* basis.c - the bases that the program knows. */
#include "bolewright/checks.h"

#include <string.h>

const bw_basis *bw_basis_find(const char *id)
{
    static const bw_basis *const bases[] = {&bw_us_asd};

    for (size_t i = 0; id != NULL && i < sizeof bases / sizeof bases[0]; i++) {
        if (strcmp(id, bases[i]->id) == 0) {
            return bases[i];
        }
    }
    return NULL;
}
