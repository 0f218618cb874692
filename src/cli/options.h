/* options.h - the command line: one table of commands and one of options, from which both
 * the reading, the help, the man page and the completions are made, so that they cannot
 * drift apart. */
#ifndef BW_CLI_OPTIONS_H
#define BW_CLI_OPTIONS_H

#include "bolewright/base.h"

typedef enum {
    BWI_CHECK,
    BWI_REPORT,
    BWI_FRAME,
    BWI_SPECIES,
    BWI_TREE,
    BWI_SPAN,
    BWI_LOG,
    BWI_SPACING,
    BWI_CARD,
    BWI_INSPECT,
    BWI_PAGE,
    BWI_MATCH,
    BWI_NEW,
    BWI_SCHEMA,
    BWI_COMPLETION,
    BWI_MAN,
    BWI_COMMAND_COUNT
} bwi_command;

typedef enum {
    BWI_OPT_OUTPUT,
    BWI_OPT_CSV,
    BWI_OPT_DATE,
    BWI_OPT_JSON,
    BWI_OPT_TABLES,
    BWI_OPT_UNITS,
    BWI_OPT_FORCE,
    BWI_OPT_QUIET,
    BWI_OPT_DURABLE,
    BWI_OPT_DEFAULTS,
    BWI_OPT_WOOD,
    BWI_OPT_GIRTH,
    BWI_OPT_DIAMETER,
    BWI_OPT_HEIGHT,
    BWI_OPT_CLASS,
    BWI_OPT_STUMP,
    BWI_OPT_FROM,
    BWI_OPT_CUT,
    BWI_OPT_TIP,
    BWI_OPT_BUTT,
    BWI_OPT_SPAN,
    BWI_OPT_BAYS,
    BWI_OPT_USE,
    BWI_OPT_WIDTH,
    BWI_OPT_ROWS,
    BWI_OPT_SHARE,
    BWI_OPT_BASIS,
    BWI_OPT_GRADE,
    BWI_OPT_MASS,
    BWI_OPT_FACTOR,
    BWI_OPT_PEOPLE,
    BWI_OPT_SEAT,
    BWI_OPT_STEP,
    BWI_OPT_ALL,
    BWI_OPT_PORT,
    BWI_OPT_HELP,
    BWI_OPT_VERSION,
    BWI_OPTION_COUNT
} bwi_option;

typedef struct {
    int command;                         /* a bwi_command, -1: none was given */
    const char *value[BWI_OPTION_COUNT]; /* null: not given; "" for one without a value */
    const char *operand; /* the file or name behind the command, or null */
    const char *second;  /* the file behind that, of a command that takes two, or null */
} bwi_options;

/* Reads the whole line and reports every fault of it. BW_E_USAGE with diagnostics;
 * nothing is a fault if help or version is asked for. */
bw_status bwi_options_read(int argc, char *const *argv, bwi_options *out, bw_diags *d);

/* ---- the tables ---- */

typedef struct {
    const char *name;
    const char
        *operand; /* how help names it: "CASE.json", "[NAME]", "bash|zsh"; "": none */
    bool needs_operand;
    const char *summary;
    const char *about;
    const char *examples;
    const char *second; /* another file, needed too; null: none */
} bwi_command_row;

typedef struct {
    const char *name;
    const char *argument; /* "FILE", "DIR", "LENGTH"...; null: takes no value */
    const char *help;
    unsigned commands;
    char letter; /* 0: none */
} bwi_option_row;

typedef struct {
    int status;
    const char *meaning; /* null: the end */
} bwi_exit_row;

const bwi_command_row *bwi_command_at(int command);
const bwi_option_row *bwi_option_at(int option);
bool bwi_option_of(int option, int command); /* command -1: of any */
/* The words that its value is one of, ended by null; null: it is no such option. */
const char *const *bwi_option_words(bwi_option option);
/* The word is one of an operand such as "bash|zsh". */
bool bwi_is_word(const char *operand, const char *word);
extern const bwi_exit_row bwi_exits[];
extern const char bwi_purpose[]; /* two lines */

const char *bwi_option_name(bwi_option option); /* "json" */
const char *bwi_command_name(int command);      /* "check" */

/* A few lines, for the program run bare. */
void bwi_help_short(bw_text *out);
/* Everything about the command, or about the program for -1. */
void bwi_help(int command, bw_text *out);

#endif
