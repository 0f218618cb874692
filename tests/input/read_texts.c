/* read_texts.c - for schema.py. Without an argument: a line of standard input holds the
 * name of a quantity, a tab and a text; the answer is the number of the fault in reading
 * it. With "patterns": the patterns of all quantities. */
#include "bolewright/base.h"

#include <stdio.h>
#include <string.h>

static bw_quantity named(const char *name)
{
    int q = 0;
    while (q < BW_QUANTITY_COUNT && strcmp(bw_quantity_name((bw_quantity)q), name) != 0) {
        q++;
    }
    return (bw_quantity)q;
}

static int patterns(void)
{
    bw_arena *arena = bw_arena_new();
    for (int q = 0; arena != NULL && q < BW_QUANTITY_COUNT; q++) {
        bw_text text = bw_text_new(arena);
        bw_quantity_pattern((bw_quantity)q, &text);
        (void)printf("%s\t%s\n", bw_quantity_name((bw_quantity)q), bw_text_string(&text));
    }
    bw_arena_free(arena);
    return 0;
}

int main(int argc, char **argv)
{
    enum { LONGEST = 4096 };
    static char line[LONGEST];
    if (argc > 1 && strcmp(argv[1], "patterns") == 0) {
        return patterns();
    }
    while (fgets(line, LONGEST, stdin) != NULL) {
        line[strcspn(line, "\n")] = '\0';
        char *tab = strchr(line, '\t');
        if (tab == NULL) {
            return 1;
        }
        *tab = '\0';
        const bw_quantity quantity = named(line);
        double value = 0.0;
        if (quantity == BW_QUANTITY_COUNT) {
            return 1;
        }
        (void)printf("%d\n", (int)bw_quantity_parse(quantity, tab + 1, &value));
    }
    return 0;
}
