/* sections.c - headings and words that stand in the text and in the record alike, so that
 * who has read the one finds his way in the other. */
#include "internal.h"

#include <string.h>

static const struct {
    const char *id, *heading;
} contents[] = {
    {"verdict", "Verdict"},
    {"by-hand", "The governing line by hand"},
    {"drawings", "Drawings"},
    {"bending", "How the rows bend"},
    {"members", "Every member"},
    {"materials", "Materials"},
    {"loads", "Loads and assumptions"},
    {"strengths", "Species and strengths"},
    {"grades", "Graded by eye"},
    {"checks", "Every check"},
    {"site", "Guards, falls and people"},
    {"not-checked", "NOT CHECKED"},
    {"cautions", "Cautions"},
    {"inspections", "Inspections"},
    {"sign-off", "Sign-off"},
};

const char *bwi_section_id(size_t number)
{
    return number < sizeof contents / sizeof contents[0] ? contents[number].id : NULL;
}

const char *bwi_section_heading(const char *id)
{
    for (size_t i = 0; i < sizeof contents / sizeof contents[0]; i++) {
        if (strcmp(contents[i].id, id) == 0) {
            return contents[i].heading;
        }
    }
    return id;
}

void bwi_text_section(bw_text *out, const char *id)
{
    bwi_heading(out, bwi_section_heading(id));
}

const char bwi_members_words[] =
    "Percent of the capacity used by the worst place, load and rider position, rounded "
    "up; over 100 is over.";

const char bwi_grades_words[] =
    "What is left of each reference value. none: no rule reaches that far, so the checks "
    "cannot say. Open questions count on the cautious side.";

const char *bwi_title(const bw_case *deck)
{
    return deck->title == NULL ? "Untitled deck" : deck->title;
}

size_t bwi_title_lines(const bw_case *deck, bw_text *out,
                       bwi_title_line lines[BWI_TITLE_LINES])
{
    const char *tables = deck->species == NULL ? NULL : deck->species->version;
    const char *program = bw_arena_print(out->arena, "bolewright %s", bw_version);
    size_t n = 0;
    lines[n++] = (bwi_title_line){"Place", deck->place};
    lines[n++] = (bwi_title_line){"Builder", deck->builder};
    lines[n++] = (bwi_title_line){"Landowner", deck->landowner};
    lines[n++] = (bwi_title_line){"Checked by", deck->basis->title};
    lines[n++] = (bwi_title_line){"Program", bwi_or_fail(out, program)};
    lines[n++] = (bwi_title_line){"Species tables", tables == NULL ? "?" : tables};
    return n;
}

const char *bwi_health_text(const bw_assessment *a, bw_text *out)
{
    const char *text = bw_arena_print(
        out->arena, "out-of-balance force %.1e of the largest, reciprocal condition %.1e",
        a->worst_residual, a->worst_rcond);
    return bwi_or_fail(out, text);
}
