/* Finding the species a person means. Letter case and everything that is no letter or
 * digit is ignored: "Western red-cedar" is "western redcedar". */
#include <string.h>

#include "bolewright/wood.h"

/* Room for a name without its blanks and hyphens; longer ones are compared, but get no
 * hint. */
#define NAME_ROOM 96

static bool is_name_byte(unsigned char byte)
{
    return (byte >= '0' && byte <= '9') || (byte >= 'a' && byte <= 'z') ||
           (byte >= 'A' && byte <= 'Z') || byte >= 0x80;
}

static unsigned char lower_byte(unsigned char byte)
{
    return (byte >= 'A' && byte <= 'Z') ? (unsigned char)(byte - 'A' + 'a') : byte;
}

/* The next byte of the name that counts, in lower case; 0 at its end. */
static unsigned char next_byte(const char **name)
{
    while (**name != '\0') {
        const unsigned char byte = (unsigned char)*(*name)++;
        if (is_name_byte(byte)) {
            return lower_byte(byte);
        }
    }
    return 0;
}

static bool same_name(const char *a, const char *b)
{
    unsigned char from_a = next_byte(&a);
    const bool has_bytes = from_a != 0;
    while (from_a == next_byte(&b)) {
        if (from_a == 0) {
            return has_bytes;
        }
        from_a = next_byte(&a);
    }
    return false;
}

/* Name i of a species: id, common, scientific, then the further names; null after the
 * last. */
static const char *name_at(const bw_species *species, size_t i)
{
    const char *const first[] = {species->id, species->common, species->scientific};
    const size_t n_first = sizeof first / sizeof first[0];
    if (i < n_first) {
        return first[i] != NULL ? first[i] : "";
    }
    return i - n_first < species->n_also ? species->also[i - n_first] : NULL;
}

static bool answers_to(const bw_species *species, const char *name)
{
    const char *known = NULL;
    for (size_t i = 0; (known = name_at(species, i)) != NULL; i++) {
        if (same_name(known, name)) {
            return true;
        }
    }
    return false;
}

/* A name that fits several species ("Douglas-fir") means the weakest of them in bending.
 */
static const bw_species *weakest_of_name(const bw_species_table *table, const char *name)
{
    const bw_species *found = NULL;
    for (size_t i = 0; i < table->count; i++) {
        const bw_species *species = &table->items[i];
        if (same_name(name_at(species, 0), name)) {
            return species;
        }
        if (answers_to(species, name) &&
            (found == NULL || species->rupture.value < found->rupture.value)) {
            found = species;
        }
    }
    return found;
}

/* The bytes of the name that count; false if they do not fit. */
static bool squeeze(const char *name, char room[NAME_ROOM])
{
    size_t length = 0;
    for (unsigned char byte = next_byte(&name); byte != 0; byte = next_byte(&name)) {
        if (length + 1 == NAME_ROOM) {
            return false;
        }
        room[length++] = (char)byte;
    }
    room[length] = '\0';
    return length > 0;
}

static bool is_taken(const char *id, const char *const *near, size_t n_taken)
{
    for (size_t i = 0; i < n_taken; i++) {
        if (near[i] == id) {
            return true;
        }
    }
    return false;
}

/* Whether the species has a name near the wanted one and nearer than best; best becomes
 * it. */
static bool is_nearer(const bw_species *species, const char *wanted, char best[NAME_ROOM])
{
    bool nearer = false;
    const char *known = NULL;
    char squeezed[NAME_ROOM];
    for (size_t i = 0; (known = name_at(species, i)) != NULL; i++) {
        if (!squeeze(known, squeezed)) {
            continue;
        }
        const char *const rivals[] = {best, squeezed};
        if (bw_nearest_word(wanted, rivals, 2) == squeezed) {
            memcpy(best, squeezed, NAME_ROOM);
            nearer = true;
        }
    }
    return nearer;
}

static const char *nearest_id(const bw_species_table *table, const char *wanted,
                              const char *const *near, size_t n_taken)
{
    char best[NAME_ROOM] = "";
    const char *id = NULL;
    for (size_t i = 0; i < table->count; i++) {
        const bw_species *species = &table->items[i];
        if (!is_taken(species->id, near, n_taken) && is_nearer(species, wanted, best)) {
            id = species->id;
        }
    }
    return id;
}

/* The next species with a name that the wanted one is a part of, such as "oak". */
static const char *containing_id(const bw_species_table *table, const char *wanted,
                                 const char *const *near, size_t n_taken)
{
    char squeezed[NAME_ROOM];
    for (size_t i = 0; i < table->count; i++) {
        const bw_species *species = &table->items[i];
        const char *known = NULL;
        for (size_t k = 0; (known = name_at(species, k)) != NULL; k++) {
            if (squeeze(known, squeezed) && strstr(squeezed, wanted) != NULL &&
                !is_taken(species->id, near, n_taken)) {
                return species->id;
            }
        }
    }
    return NULL;
}

const bw_species *bw_species_find(const bw_species_table *table, const char *name,
                                  const char **near, size_t n_near)
{
    for (size_t i = 0; near != NULL && i < n_near; i++) {
        near[i] = NULL;
    }
    if (name == NULL) {
        return NULL;
    }
    char wanted[NAME_ROOM];
    const bool fits = squeeze(name, wanted);
    const bw_species *found = weakest_of_name(table, name);
    if (found != NULL || near == NULL || !fits) {
        return found;
    }
    for (size_t i = 0; i < n_near; i++) {
        near[i] = containing_id(table, wanted, near, i);
        if (near[i] == NULL) {
            near[i] = nearest_id(table, wanted, near, i);
        }
        if (near[i] == NULL) {
            break;
        }
    }
    return NULL;
}
