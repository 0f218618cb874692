/* members.c - members with the share of each capacity that they use. */
#include "internal.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

/* The word over a column; the checks' own titles are too long for a table. */
const char *bwi_kind_word(const bw_member_result *members, size_t count, int kind)
{
    static const char *const words[BW_CHECK_KIND_COUNT] = {
        [BW_CHECK_BENDING] = "bending",    [BW_CHECK_SHEAR] = "shear",
        [BW_CHECK_COMPRESSION] = "press",  [BW_CHECK_COMBINED] = "bend+press",
        [BW_CHECK_BEARING] = "bearing",    [BW_CHECK_END_BEARING] = "end",
        [BW_CHECK_DEFLECTION] = "deflect", [BW_CHECK_SAG] = "sag",
        [BW_CHECK_SOIL_LATERAL] = "hole",  [BW_CHECK_SOIL_BEARING] = "foot",
        [BW_CHECK_UPLIFT] = "pull",        [BW_CHECK_BUCKLING] = "buckle",
        [BW_CHECK_JOINT] = "joint",        [BW_CHECK_SPLIT] = "split",
        [BW_CHECK_LIFT] = "lift",          [BW_CHECK_ANGLE] = "angle",
    };
    for (size_t i = 0; i < count && words[kind] == NULL; i++) {
        if (members[i].has[kind]) {
            return members[i].findings[kind].check->id;
        }
    }
    return words[kind] == NULL ? "?" : words[kind];
}

static const char *share(bw_arena *arena, const bw_member_result *member, int kind)
{
    if (!member->has[kind]) {
        return "-";
    }
    const bw_finding *finding = &member->findings[kind];
    const char *mark = finding == bw_member_worst(member) ? "*" : " ";
    if (bwi_finding_verdict(finding) == BW_CANNOT_SAY) {
        return bw_arena_print(arena, "?%s", mark);
    }
    const char *percent = bwi_percent(arena, finding->ratio.utilisation, 0);
    return percent == NULL ? NULL : bw_arena_print(arena, "%s%s", percent, mark);
}

static const char *result_word(bw_verdict verdict)
{
    return verdict == BW_OVER ? "OVER" : verdict == BW_WITHIN ? "within" : "cannot say";
}

static bool same_role(const bw_member_result *a, const bw_member_result *b)
{
    return strcmp(a->role, b->role) == 0;
}

static bool any_has(const bw_member_result *members, size_t count, int kind)
{
    for (size_t i = 0; i < count; i++) {
        if (members[i].has[kind]) {
            return true;
        }
    }
    return false;
}

size_t bwi_used_kinds(const bw_member_result *members, size_t count, int *kinds)
{
    size_t n = 0;
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        if (any_has(members, count, kind)) {
            kinds[n++] = kind;
        }
    }
    return n;
}

size_t bwi_same_role(const bw_assessment *assessment, size_t first)
{
    size_t count = 1;
    while (first + count < assessment->n_members &&
           same_role(&assessment->members[first], &assessment->members[first + count])) {
        count++;
    }
    return count;
}

static const char *capital(bw_text *out, const char *word)
{
    char *copy = bw_arena_print(out->arena, "%s", word);
    if (copy != NULL && copy[0] != '\0') {
        copy[0] = (char)toupper((unsigned char)copy[0]);
    }
    return bwi_or_fail(out, copy);
}

/* One table of some of the kinds. */
static void print_kinds(const bw_member_result *members, size_t count, const int *kinds,
                        size_t n_kinds, bw_text *out)
{
    bwi_column columns[BWI_TABLE_COLUMNS] = {{capital(out, members[0].role), false}};
    for (size_t k = 0; k < n_kinds; k++) {
        columns[k + 1] = (bwi_column){bwi_kind_word(members, count, kinds[k]), true};
    }
    columns[n_kinds + 1] = (bwi_column){"result", false};
    bwi_table table = bwi_table_new(out, columns, n_kinds + 2);
    for (size_t i = 0; i < count; i++) {
        bwi_table_cell(&table, members[i].name);
        for (size_t k = 0; k < n_kinds; k++) {
            bwi_table_cell(&table, share(out->arena, &members[i], kinds[k]));
        }
        bwi_table_cell(&table, result_word(bwi_member_verdict(&members[i])));
    }
    bw_text_add(out, "\n");
    bwi_table_print(&table, 2);
}

/* How many of the kinds stand beside each other without a heading that wraps; one at
 * least. */
static size_t kinds_across(const bw_member_result *members, size_t count,
                           const int *kinds, size_t n)
{
    static const size_t edge = 2, gap = 2, percent = 4; /* "123*" */
    size_t name = strlen(members[0].role), result = strlen("result"), across = 0;
    for (size_t i = 0; i < count; i++) {
        const size_t columns = bw_text_columns(members[i].name);
        const size_t word = strlen(result_word(bwi_member_verdict(&members[i])));
        name = columns > name ? columns : name;
        result = word > result ? word : result;
    }
    for (size_t used = edge + name + gap + result; across < n; across++) {
        const size_t word = bw_text_columns(bwi_kind_word(members, count, kinds[across]));
        used += gap + (word > percent ? word : percent);
        if (used > BWI_PAGE_COLUMNS && across > 0) {
            break;
        }
    }
    return across;
}

/* More checks than fit beside each other make a second table. */
static void print_group(const bw_member_result *members, size_t count, bw_text *out)
{
    int kinds[BW_CHECK_KIND_COUNT] = {0};
    const size_t n = bwi_used_kinds(members, count, kinds);
    for (size_t first = 0; first == 0 || first < n;) {
        const size_t across = kinds_across(members, count, kinds + first, n - first);
        print_kinds(members, count, kinds + first, across, out);
        first += across > 0 ? across : 1;
    }
}

void bwi_text_members(const bw_assessment *assessment, bw_text *out)
{
    bwi_text_section(out, "members");
    bwi_paragraph(out, "", bwi_members_words);
    bwi_paragraph(out, "",
                  "* the worst of the member, - not a check of this member, ? cannot "
                  "say. Each with its formula and numbers: --json, or the record.");
    const bw_member_result *members = assessment->members;
    for (size_t i = 0, count = 0; i < assessment->n_members; i += count) {
        count = bwi_same_role(assessment, i);
        print_group(&members[i], count, out);
    }
}
