/* man.c - the manual page in man(7) format, from the tables of options.c. */
#include "commands.h"
#include "output.h"

#include "bolewright/deck.h"

#include <string.h>

/* Text as it stands: what roff would read as its own is made plain. */
static void add_plain(const char *text, bw_text *out)
{
    bool line_begins = true;
    for (const char *c = text; *c != '\0'; c++) {
        if (line_begins && (*c == '.' || *c == '\'')) {
            bw_text_add(out, "\\&");
        }
        if (*c == '\\') {
            bw_text_add(out, "\\e");
        } else if (*c == '-') {
            bw_text_add(out, "\\-");
        } else if (*c == '\'') {
            bw_text_add(out, "\\(aq");
        } else if (*c == '~') {
            bw_text_add(out, "\\(ti");
        } else if (*c == '^') {
            bw_text_add(out, "\\(ha");
        } else {
            bw_text_add_bytes(out, c, 1);
        }
        line_begins = *c == '\n';
    }
}

static void add_macro(const char *macro, const char *text, bw_text *out)
{
    bw_text_print(out, ".%s ", macro);
    add_plain(text, out);
    bw_text_add(out, "\n");
}

/* Lines that keep their breaks, in a fixed width; moved out so that 80 columns hold them.
 */
static void add_lines(const char *text, bw_text *out)
{
    bw_text_add(out, ".PP\n.in 0\n.nf\n.ft CW\n");
    add_plain(text, out);
    bw_text_add(out, ".ft\n.fi\n.in\n");
}

static void add_command(const bwi_command_row *row, bw_text *out)
{
    add_macro("SS", row->name, out);
    bw_text_add(out, ".B bolewright ");
    add_plain(row->name, out);
    bw_text_add(out, "\n.RI [ option ...]\n");
    if (row->operand[0] != '\0') {
        add_macro("I", row->operand, out);
    }
    if (row->second != NULL) {
        add_macro("I", row->second, out);
    }
    bw_text_add(out, ".PP\n");
    add_plain(row->about, out);
    add_lines(row->examples, out);
}

/* The commands that know the option, unless all do. */
static void add_owners(int option, bw_text *out)
{
    int knowing = 0;
    for (int i = 0; i < BWI_COMMAND_COUNT; i++) {
        knowing += bwi_option_of(option, i) ? 1 : 0;
    }
    const char *before = "Of ";
    for (int i = 0; knowing < BWI_COMMAND_COUNT && i < BWI_COMMAND_COUNT; i++) {
        if (bwi_option_of(option, i)) {
            bw_text_print(out, "%s%s", before, bwi_command_at(i)->name);
            before = ", ";
        }
    }
    bw_text_add(out, knowing < BWI_COMMAND_COUNT ? ".\n" : "Of every command.\n");
}

static void add_option(int option, bw_text *out)
{
    const bwi_option_row *row = bwi_option_at(option);
    bw_text_add(out, ".TP\n.BR ");
    if (row->letter != 0) {
        bw_text_print(out, "\\-%c \", \" ", row->letter);
    }
    bw_text_print(out, "\\-\\-%s", row->name);
    if (row->argument != NULL) {
        bw_text_print(out, " \" \\fI%s\\fR\"", row->argument);
    }
    bw_text_add(out, "\n");
    add_plain(row->help, out);
    bw_text_add(out, ".\n");
    add_owners(option, out);
}

static void add_head(bw_text *out)
{
    bw_text_print(out, ".TH BOLEWRIGHT 1 \"\" \"bolewright %s\" \"User Commands\"\n",
                  bw_version);
    bw_text_add(out, ".SH NAME\nbolewright \\- check decks framed from logs\n"
                     ".SH SYNOPSIS\n.B bolewright\n.I command\n.RI [ option ...]\n"
                     ".RI [ file ...]\n.SH DESCRIPTION\n");
    add_plain(bwi_purpose, out);
    bw_text_add(out, ".SH COMMANDS\n");
}

static void add_page(bw_text *out)
{
    add_head(out);
    for (int i = 0; i < BWI_COMMAND_COUNT; i++) {
        add_command(bwi_command_at(i), out);
    }
    bw_text_add(out, ".SH OPTIONS\n");
    for (int i = 0; i < BWI_OPTION_COUNT; i++) {
        add_option(i, out);
    }
    bw_text_add(out, ".TP\n.B \\-\\-\nWhat follows is no option.\n.SH \"EXIT STATUS\"\n");
    for (const bwi_exit_row *row = bwi_exits; row->meaning != NULL; row++) {
        bw_text_print(out, ".TP\n.B %d\n", row->status);
        add_plain(row->meaning, out);
        bw_text_add(out, "\n");
    }
    bw_text_add(out, ".SH CAUTIONS\n");
    for (size_t i = 0; bw_cautions[i] != NULL; i++) {
        bw_text_add(out, i == 0 ? "" : ".PP\n");
        add_plain(bw_cautions[i], out);
        bw_text_add(out, "\n");
    }
}

int bwi_man_run(bw_arena *arena, const bwi_options *options)
{
    (void)options;
    bw_diags d = bw_diags_new(arena, NULL);
    bw_text text = bw_text_new(arena);
    add_page(&text);
    const bw_status status = bwi_output_print(&text, &d);
    const bw_diags *const all[] = {&d, NULL};
    return bwi_output_finish(status, all);
}
