/* csv.c - comma-separated values: RFC 4180 (2005), section 2: MEMORY. */
#include "csv.h"

#include <string.h>

typedef struct {
    bwi_json *doc;
    const char *at;
    bwi_csv_line *lines;
    size_t n_lines, cap_lines;
    bwi_cell *cells; /* of the line being read */
    size_t n_cells, cap_cells;
} reader;

static void fault(const reader *r, const char *where, const char *id, const char *hint,
                  const char *message)
{
    const bwi_fault fault = {.severity = BW_ERROR,
                             .id = id,
                             .message = message,
                             .hint = hint,
                             .offset = (size_t)(where - r->doc->text)};
    bwi_fault_add(r->doc, &fault);
}

/* Bytes of the character here; what must not stand in a cell is reported. */
static size_t character(const reader *r, bool *faulty)
{
    const unsigned char c = (unsigned char)*r->at;
    const size_t length = c < 0x80 ? 1 : bwi_utf8_bytes(r->at);
    const bool steers = (c < 0x20 && c != '\t' && c != '\n' && c != '\r') || c == 0x7F ||
                        (c == 0xC2 && length == 2 && (unsigned char)r->at[1] < 0xA0);
    if (length > 0 && !steers) {
        return length;
    }
    if (!*faulty) {
        fault(r, r->at, length == 0 ? "csv.utf8" : "csv.control",
              length == 0 ? "save the file as UTF-8" : "take it out",
              bwi_print(r->doc,
                        length == 0 ? "byte 0x%02X is not UTF-8"
                                    : "control character 0x%02X in a cell",
                        c));
    }
    *faulty = true;
    return length == 0 ? 1 : length;
}

static bool at_end(const reader *r)
{
    return *r->at == '\0' || *r->at == '\n' || (*r->at == '\r' && r->at[1] == '\n');
}

/* A cell in quotes: two quotes inside stand for one; commas and line ends are text. */
static void quoted(reader *r, bw_text *out, bool *faulty)
{
    const char *open = r->at++;
    while (*r->at != '\0' && (*r->at != '"' || r->at[1] == '"')) {
        const size_t length = *r->at == '"' ? 1 : character(r, faulty);
        bw_text_add_bytes(out, *r->at == '\n' || *r->at == '\r' ? " " : r->at, length);
        r->at += *r->at == '"' ? 2 : length;
    }
    if (*r->at == '\0') {
        fault(r, open, "csv.quote",
              "close it with another \"; inside a cell write it twice",
              "the quotation mark that opens here is never closed");
        *faulty = true;
        return;
    }
    r->at++;
    r->at += strspn(r->at, " \t");
    if (*r->at != ',' && !at_end(r)) {
        fault(r, r->at, "csv.after_quote", "inside a cell in quotes write every \" twice",
              "text behind the quotation mark that closes a cell");
        *faulty = true;
    }
}

static void plain(reader *r, bw_text *out, bool *faulty)
{
    while (*r->at != ',' && !at_end(r)) {
        const size_t length = character(r, faulty);
        bw_text_add_bytes(out, r->at, length);
        r->at += length;
    }
}

static const char *trimmed(bwi_json *doc, const bw_text *text)
{
    const char *all = bw_text_string(text);
    doc->out_of_memory = doc->out_of_memory || all == NULL;
    all = all != NULL ? all : "";
    all += strspn(all, " \t");
    size_t length = strlen(all);
    while (length > 0 && strchr(" \t", all[length - 1]) != NULL) {
        length--;
    }
    return bwi_print(doc, "%.*s", (int)length, all);
}

static void read_cell(reader *r)
{
    bw_text text = bw_text_new(r->doc->arena);
    bwi_cell cell = {.faulty = false};
    r->at += strspn(r->at, " \t");
    cell.offset = (size_t)(r->at - r->doc->text);
    if (*r->at == '"') {
        quoted(r, &text, &cell.faulty);
    }
    if (*r->at != ',' &&
        !at_end(r)) { /* not in quotes, or what follows them by mistake */
        plain(r, &text, &cell.faulty);
    }
    cell.text = trimmed(r->doc, &text);
    bwi_cell *grown = bw_arena_grow(r->doc->arena, r->cells, r->n_cells, &r->cap_cells,
                                    sizeof *r->cells);
    r->doc->out_of_memory = r->doc->out_of_memory || grown == NULL;
    if (grown != NULL) {
        r->cells = grown;
        r->cells[r->n_cells++] = cell;
    }
}

static bool is_empty(const reader *r)
{
    for (size_t i = 0; i < r->n_cells; i++) {
        if (r->cells[i].text[0] != '\0' || r->cells[i].faulty) {
            return false;
        }
    }
    return true;
}

static void read_line(reader *r)
{
    const size_t offset = (size_t)(r->at - r->doc->text);
    r->cells = NULL;
    r->n_cells = r->cap_cells = 0;
    read_cell(r);
    while (*r->at == ',') {
        r->at++;
        read_cell(r);
    }
    r->at += *r->at == '\r' ? 1 : 0;
    r->at += *r->at == '\n' ? 1 : 0;
    if (is_empty(r)) {
        return;
    }
    bwi_csv_line *grown = bw_arena_grow(r->doc->arena, r->lines, r->n_lines,
                                        &r->cap_lines, sizeof *r->lines);
    r->doc->out_of_memory = r->doc->out_of_memory || grown == NULL;
    if (grown != NULL) {
        r->lines = grown;
        r->lines[r->n_lines++] = (bwi_csv_line){r->cells, r->n_cells, offset};
    }
}

void bwi_csv_read(bwi_json *doc, bwi_csv *out)
{
    static const char mark[] = "\xEF\xBB\xBF"; /* spreadsheets put it there */
    reader r = {.doc = doc, .at = doc->text};
    r.at += strncmp(r.at, mark, sizeof mark - 1) == 0 ? sizeof mark - 1 : 0;
    while (*r.at != '\0' && !doc->out_of_memory) {
        read_line(&r);
    }
    *out = (bwi_csv){r.lines, r.n_lines};
}
