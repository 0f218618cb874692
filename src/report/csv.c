/* csv.c - every finding as a line of comma-separated values (RFC 4180). */
#include "internal.h"

#include <math.h>
#include <string.h>

/* A spreadsheet runs what begins with one of these; an apostrophe keeps it text. */
static bool looks_like_formula(const char *text)
{
    return text[0] != '\0' && strchr("=+-@\t\r", text[0]) != NULL;
}

void bwi_csv_text(bw_text *out, const char *text, char end)
{
    const char *clean = bwi_or_fail(out, bwi_clean(out->arena, text == NULL ? "" : text));
    bw_text_add(out, looks_like_formula(clean) ? "\"'" : "\"");
    for (const char *c = clean; *c != '\0'; c++) {
        bw_text_add_bytes(out, c, 1);
        if (*c == '"') {
            bw_text_add(out, "\"");
        }
    }
    bw_text_print(out, "\"%s", end == ',' ? "," : "\r\n");
}

/* Empty if it is not known. */
void bwi_csv_number(bw_text *out, double value)
{
    if (isfinite(value)) {
        bw_text_print(out, "%.9g", value);
    }
    bw_text_add(out, ",");
}

static void add_finding(const bw_finding *f, const bw_member_result *m, bw_text *out)
{
    bwi_csv_text(out, m->name, ',');
    bwi_csv_text(out, m->role, ',');
    bwi_csv_text(out, m->log == NULL ? "" : m->log->name, ',');
    bwi_csv_text(out, f->check->id, ',');
    bwi_csv_text(out, bw_verdict_text(bwi_finding_verdict(f)), ',');
    bwi_csv_number(out, f->ratio.utilisation);
    bwi_csv_number(out, f->ratio.demand);
    bwi_csv_number(out, f->ratio.capacity);
    bwi_csv_text(out, bwi_si_unit(f->check->quantity), ',');
    bwi_csv_text(out, f->combination, ',');
    bwi_csv_text(out, f->position, ',');
    bwi_csv_text(out, f->place, ',');
    bwi_csv_text(out, f->check->source, ',');
    bwi_csv_text(out, bw_mark_text(f->check->mark), ',');
    bwi_csv_text(out, f->case_path, ',');
    bwi_csv_text(out, f->note, '\n');
}

void bw_report_csv(const bw_assessment *assessment, bw_text *out)
{
    bw_text_add(out, "member,role,log,check,verdict,utilisation,demand,capacity,unit,"
                     "combination,position,place,source,mark,pointer,note\r\n");
    for (size_t i = 0; i < assessment->n_members; i++) {
        const bw_member_result *m = &assessment->members[i];
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            if (m->has[kind]) {
                add_finding(&m->findings[kind], m, out);
            }
        }
    }
}
