/* words.c - the nearest known word to a misspelt one. */
#include "bolewright/base.h"

#include <string.h>

/* Longer words get no hint; no key, species or unit name comes near. */
enum { longest_word = 96 };

static char lower(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* Edits that turn the first i letters of a into the first j of b, given the rows above:
 *   d(i,j) = min(d(i-1,j) + 1, d(i,j-1) + 1, d(i-1,j-1) + [a_i != b_j],
 *                d(i-2,j-2) + 1 where two neighbours are swapped)
 * "Optimal string alignment" distance: Levenshtein's with swapped neighbours as one edit,
 * because that is the commonest slip of the fingers. */
static size_t edit_distance(const char *a, size_t length_a, const char *b,
                            size_t length_b)
{
    size_t rows[3][longest_word + 1] = {{0}};
    for (size_t j = 0; j <= length_b; j++) {
        rows[0][j] = j;
    }
    for (size_t i = 1; i <= length_a; i++) {
        size_t *row = rows[i % 3];
        const size_t *above = rows[(i + 2) % 3];
        const size_t *above2 = rows[(i + 1) % 3];
        row[0] = i;
        for (size_t j = 1; j <= length_b; j++) {
            const char x = lower(a[i - 1]);
            const char y = lower(b[j - 1]);
            row[j] = least(least(above[j], row[j - 1]) + 1, above[j - 1] + (x != y));
            if (i > 1 && j > 1 && x == lower(b[j - 2]) && y == lower(a[i - 2])) {
                row[j] = least(row[j], above2[j - 2] + 1);
            }
        }
    }
    return rows[length_a % 3][length_b];
}

const char *bw_nearest_word(const char *word, const char *const *words, size_t count)
{
    const size_t length = strlen(word);
    if (length > longest_word) {
        return NULL;
    }
    const size_t limit = length < 3 ? 1 : least(length / 3, 3);
    size_t nearest_distance = limit + 1;
    const char *nearest = NULL;
    for (size_t i = 0; i < count; i++) {
        const size_t other = strlen(words[i]);
        if (other > longest_word || other > length + limit || length > other + limit) {
            continue;
        }
        const size_t distance = edit_distance(word, length, words[i], other);
        if (distance < nearest_distance) {
            nearest_distance = distance;
            nearest = words[i];
        }
    }
    return nearest;
}
