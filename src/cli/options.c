/* options.c - reads the command line and writes the help, both from the tables below. The
 * man page and the completions are written from them too. */
#include "options.h"

#include <string.h>

#define FOR(command) (1U << (unsigned)(command))
#define FOR_ALL      (FOR(BWI_COMMAND_COUNT) - 1U)
/* a log in hand; questions about sizes */
#define FOR_LOG      (FOR(BWI_SPAN) | FOR(BWI_SPACING))
#define FOR_SIZES    (FOR_LOG | FOR(BWI_LOG) | FOR(BWI_CARD))
/* they print what the program knows, and nothing else */
#define FOR_PRINTING (FOR(BWI_SCHEMA) | FOR(BWI_COMPLETION) | FOR(BWI_MAN))

static const bwi_command_row commands[BWI_COMMAND_COUNT] = {
    [BWI_CHECK] =
        {"check", "CASE.json", true,
         "check every log of a deck and name the one that governs",
         "Reads a deck as its builder describes it, places the rider everywhere on it,\n"
         "and compares every log with what its wood can carry. The file \"-\" is "
         "standard\n"
         "input. The report lists what was NOT checked: read that list too.\n",
         "  bolewright check porch.json\n"
         "  bolewright check porch.json --json porch-result.json\n",
         NULL},
    [BWI_REPORT] =
        {"report", "CASE.json", true, "write the record of a deck that a landowner keeps",
         "Checks a deck as \"check\" does and writes one HTML page that opens anywhere\n"
         "and prints on Letter and A4: drawings, materials, every check with its\n"
         "numbers, what was NOT checked, an inspection log and lines to sign. A date\n"
         "stands in it only if given (or set by SOURCE_DATE_EPOCH).\n",
         "  bolewright report porch.json -o porch.html --date 2026-11-25\n"
         "  bolewright report porch.json -o porch.html --csv porch.csv "
         "--force\n",
         NULL},
    [BWI_FRAME] =
        {"frame", "FRAME.json", true,
         "solve a plane frame: displacements, reactions, actions",
         "Solves a plane frame of straight tapered members under all loads of the file\n"
         "together. No strength is checked. The file \"-\" is standard input.\n",
         "  bolewright frame bent.json\n"
         "  bolewright frame bent.json --json - | less\n",
         NULL},
    [BWI_SPECIES] = {"species", "[NAME]", false,
                     "list the species, or explain every number of one",
                     "Without a name: every species of the tables, a line each. With "
                     "one: every number\n"
                     "with its source, and the way from it to what the checks use.\n"
                     "With a part of names, such as pine: the species that have it.\n",
                     "  bolewright species\n"
                     "  bolewright species cedar --durable\n"
                     "  bolewright species \"lodgepole pine\" --units metric\n",
                     NULL},
    [BWI_TREE] =
        {"tree", "", false, "a standing tree: the log in it, and how far that spans",
         "From the girth at breast height (4 1/2 ft up, uphill side, over the bark) and\n"
         "the height: diameters under bark along the log, what it weighs, how far it\n"
         "may span as a stringer, with the spread of all that. A felled log that was\n"
         "measured replaces it.\n",
         "  bolewright tree --species \"lodgepole pine\" --girth \"31 in\" "
         "--height \"55 ft\"\n"
         "  bolewright tree --species \"Norway spruce\" --girth \"780 mm\" --class "
         "open\n",
         NULL},
    [BWI_SPAN] =
        {"span", "", false, "the longest span of a log",
         "From the girth under the bark at the thin end, and at the butt: how far the\n"
         "log may span as one of two stringers. The answer is what \"check\" gives for\n"
         "that size; posts, caps and ground are not in question.\n",
         "  bolewright span --species \"red pine\" --tip \"22 in\" --butt \"24 in\"\n"
         "  bolewright span --species \"Scots pine\" --diameter \"180 mm\" --units "
         "metric\n",
         NULL},
    [BWI_LOG] =
        {"log", "", false, "the smallest log for a span, and the tree to look for",
         "How thick a stringer must be for a span, under the bark at butt, middle and\n"
         "tip, and the girth over bark at breast height (4 1/2 ft up) of the tree that\n"
         "gives it, by the taper of its species.\n",
         "  bolewright log --species \"red pine\" --span \"8 ft\"\n"
         "  bolewright log --species \"Scots pine\" --span \"2.4 m\" --use both --units "
         "metric\n",
         NULL},
    [BWI_SPACING] =
        {"spacing", "", false, "the widest spacing of posts under a log",
         "For a log as thick as that: how far apart the posts may stand, with stringers\n"
         "that end on every bent and with stringers that run on over two bays.\n",
         "  bolewright spacing --species \"red pine\" --diameter \"7 in\" --use both\n"
         "  bolewright spacing --species larch --tip \"21 in\" --width \"5 ft\"\n",
         NULL},
    [BWI_CARD] =
        {"card", "", false, "a card for the pocket: smallest logs by span and use",
         "For one species, twelve spans and three uses: the girth of the peeled log "
         "half\n"
         "way and at the tip, and that of the tree at breast height over bark. The text\n"
         "fits a card of 3 x 5 inches in 8 point type; -o writes a page for the "
         "printer.\n",
         "  bolewright card --species \"red pine\"\n"
         "  bolewright card --all -o cards.html --csv cards.csv\n",
         NULL},
    [BWI_INSPECT] = {"inspect", "CASE.json", true,
                     "re-check a standing deck from what is left of it",
                     "Takes what was measured since on its logs - girth or diameter, how "
                     "deep a probe\n"
                     "goes into soft wood, the shell round a hollow - off the logs of "
                     "the case, checks\n"
                     "the deck again, names what to replace, follows the loss from year "
                     "to year, and\n"
                     "says when to look again. It never promises.\n",
                     "  bolewright inspect porch.json porch-seasons.json\n",
                     "MEASURED.json"},
    [BWI_PAGE] = {"page", "[CASE.json]", false,
                  "a page in the browser: change a deck, see its verdict",
                  "Serves one page to this machine alone and prints its address: fields "
                  "for the\n"
                  "whole case, its drawing, the verdict after every change, the record. "
                  "Without\n"
                  "a case it offers one to begin with. Nothing leaves the machine and no "
                  "file is\n"
                  "written: the browser saves what you ask it to.\n",
                  "  bolewright page\n"
                  "  bolewright page porch.json --port 8500\n",
                  NULL},
    [BWI_MATCH] =
        {"match", "CASE.json", true, "which log of a measured pile goes where in a deck",
         "Gives every member of the deck CASE.json a log of the pile LOGS.csv so that\n"
         "each passes, with the least wood and stringers of one depth side by side, and\n"
         "checks the whole deck again with them. Says which logs are left, and what to\n"
         "look for where none will do. The first line of LOGS.csv names its columns, in\n"
         "any order: id, species, butt girth, tip girth (two of butt, mid, tip; or\n"
         "diameter), length, bark (on or off), bark thickness, note, and what you see:\n"
         "largest knot, knots in foot, spiral grain, drying check, sweep, sweep over,\n"
         "insects, decay, dead when cut.\n",
         "  bolewright match porch.json logs.csv\n"
         "  bolewright match porch.json logs.csv -o porch-logs.json\n",
         "LOGS.csv"},
    [BWI_NEW] =
        {"new", "[CASE.json]", false,
         "ask plain questions and write a case to begin with",
         "Asks how long, wide and high, of which logs, who will be on it, what holds\n"
         "braces; writes a case (deck.json if no name is given) and says what \"check\"\n"
         "says of it. Every question has an answer in brackets that an empty line\n"
         "takes. The units of the first answer are those of the case, unless --units\n"
         "says so; the name of the file gives the title. Nothing is written before the\n"
         "last answer, and nothing over a file that exists.\n",
         "  bolewright new porch.json\n"
         "  bolewright new porch.json --defaults --units metric\n",
         NULL},
    [BWI_SCHEMA] =
        {"schema", "case|frame|inspections|logs", true,
         "print what a file may hold, as JSON Schema",
         "Prints a JSON Schema (draft 2020-12) of the files that are read, for editors\n"
         "and other programs. It tells the shape of a file: keys, types, words, how\n"
         "quantities are written. What parts of a file mean to each other only the\n"
         "program itself can check. A line of a list of logs counts as an object with\n"
         "its headings as keys.\n",
         "  bolewright schema case > case.schema.json\n", NULL},
    [BWI_COMPLETION] =
        {"completion", "bash|zsh", true, "print what completes the words of a shell",
         "Prints the completion of commands, options and files for a shell. An\n"
         "installed program has brought it along.\n",
         "  source <(bolewright completion bash)\n"
         "  bolewright completion zsh > ~/.zfunc/_bolewright\n",
         NULL},
    [BWI_MAN] =
        {"man", "", false, "print the manual page",
         "Prints this help, of all commands, as a manual page in man(7) format.\n",
         "  bolewright man > bolewright.1\n", NULL},
};

static const bwi_option_row options[BWI_OPTION_COUNT] = {
    [BWI_OPT_OUTPUT] = {"output", "FILE",
                        "the page to write (match: the case with the logs in it)",
                        FOR(BWI_REPORT) | FOR(BWI_CARD) | FOR(BWI_MATCH), 'o'},
    [BWI_OPT_CSV] = {"csv", "FILE", "write a table for spreadsheets",
                     FOR(BWI_REPORT) | FOR(BWI_CARD) | FOR(BWI_MATCH), 0},
    [BWI_OPT_DATE] = {"date", "DATE", "the date in the record, such as 2026-11-25",
                      FOR(BWI_REPORT), 0},
    [BWI_OPT_JSON] = {"json", "FILE",
                      "write the result as JSON; \"-\": print it, not the text",
                      FOR_ALL & ~FOR(BWI_REPORT) & ~FOR(BWI_CARD) & ~FOR(BWI_NEW) &
                          ~FOR(BWI_PAGE) & ~FOR_PRINTING,
                      0},
    [BWI_OPT_TABLES] = {"tables", "DIR",
                        "also read the species tables (*.json) of this folder",
                        FOR(BWI_CHECK) | FOR(BWI_REPORT) | FOR(BWI_SPECIES) |
                            FOR(BWI_TREE) | FOR(BWI_INSPECT) | FOR(BWI_PAGE) |
                            FOR(BWI_MATCH) | FOR_SIZES,
                        0},
    [BWI_OPT_UNITS] = {"units", "SYSTEM", "imperial (if not given) or metric",
                       FOR(BWI_SPECIES) | FOR(BWI_TREE) | FOR(BWI_NEW) | FOR_SIZES, 0},
    [BWI_OPT_FORCE] = {"force", NULL, "let it replace an existing file",
                       FOR_ALL & ~FOR(BWI_PAGE) & ~FOR_PRINTING, 0},
    [BWI_OPT_QUIET] = {"quiet", NULL, "print no report: faults and the exit status only",
                       FOR_ALL & ~FOR(BWI_PAGE) & ~FOR_PRINTING, 'q'},
    [BWI_OPT_DURABLE] = {"durable", NULL,
                         "only species with heartwood that resists decay",
                         FOR(BWI_SPECIES), 0},
    [BWI_OPT_DEFAULTS] = {"defaults", NULL, "ask nothing: take every answer in brackets",
                          FOR(BWI_NEW), 0},
    [BWI_OPT_WOOD] = {"species", "NAME", "species of the tree or log",
                      FOR(BWI_TREE) | FOR_SIZES, 0},
    [BWI_OPT_GIRTH] = {"girth", "LENGTH", "girth at breast height over bark, \"31 in\"",
                       FOR(BWI_TREE), 0},
    [BWI_OPT_DIAMETER] = {"diameter", "LENGTH",
                          "the diameter, where that was measured instead",
                          FOR(BWI_TREE) | FOR_LOG, 0},
    [BWI_OPT_HEIGHT] = {"height", "LENGTH", "height of the tree, about",
                        FOR(BWI_TREE) | FOR(BWI_LOG) | FOR(BWI_CARD), 0},
    [BWI_OPT_CLASS] = {"class", "WORD",
                       "how it grew, for want of a height: forest or open",
                       FOR(BWI_TREE) | FOR(BWI_LOG) | FOR(BWI_CARD), 0},
    [BWI_OPT_STUMP] = {"stump", "LENGTH", "height of the stump (about 1 ft)",
                       FOR(BWI_TREE), 0},
    [BWI_OPT_FROM] = {"from", "LENGTH", "where the log begins above the stump (0 in)",
                      FOR(BWI_TREE), 0},
    [BWI_OPT_CUT] = {"cut", "LENGTH",
                     "length of the log (tree: 16 ft; span: long enough)",
                     FOR(BWI_TREE) | FOR(BWI_SPAN), 0},
    [BWI_OPT_TIP] = {"tip", "LENGTH", "girth at the thin end, under bark, \"22 in\"",
                     FOR_LOG, 0},
    [BWI_OPT_BUTT] = {"butt", "LENGTH", "girth at the butt, under bark (as at the tip)",
                      FOR_LOG, 0},
    [BWI_OPT_SPAN] = {"span", "LENGTH",
                      "between middles of supports, \"8 ft\" (card: the first)",
                      FOR(BWI_LOG) | FOR(BWI_CARD), 0},
    [BWI_OPT_BAYS] = {"bays", "NUMBER",
                      "bays that each log runs over: 1 (if not given), 2, 3",
                      FOR(BWI_CARD) | FOR(BWI_LOG) | FOR(BWI_SPAN), 0},
    [BWI_OPT_USE] = {"use", "WORD", "riders (if not given), people or both",
                     FOR_SIZES & ~FOR(BWI_CARD), 0},
    [BWI_OPT_WIDTH] = {"width", "LENGTH", "of the deck (4 ft)", FOR_SIZES, 0},
    [BWI_OPT_ROWS] = {"rows", "LENGTH",
                      "from one row of stringers to the other (3/4 of it)", FOR_SIZES, 0},
    [BWI_OPT_SHARE] = {"share", "LENGTH",
                       "instead: deck width that it carries, no wheel beyond it",
                       FOR_SIZES, 0},
    [BWI_OPT_BASIS] = {"basis", "WORD", "us_asd (if not given) or eurocode", FOR_SIZES,
                       0},
    [BWI_OPT_GRADE] = {"grade", "WORD",
                       "unseen (if not given), or sound: not a flaw seen", FOR_SIZES, 0},
    [BWI_OPT_MASS] = {"mass", "MASS", "of a rider with bike (115 kg)", FOR_SIZES, 0},
    [BWI_OPT_FACTOR] = {"factor", "NUMBER",
                        "how many times that the rider presses down (3)", FOR_SIZES, 0},
    [BWI_OPT_PEOPLE] = {"people", "LOAD", "people standing (60 psf, or 3 kPa)", FOR_SIZES,
                        0},
    [BWI_OPT_SEAT] = {"seat", "LENGTH",
                      "depth of the flat cut where the log bears (1/2 in)", FOR_SIZES, 0},
    [BWI_OPT_STEP] = {"step", "LENGTH", "from one span to the next (1 ft, or 0.3 m)",
                      FOR(BWI_CARD), 0},
    [BWI_OPT_ALL] = {"all", NULL, "a card for every species", FOR(BWI_CARD), 0},
    [BWI_OPT_PORT] = {"port", "N", "the port of its address, if not 8417", FOR(BWI_PAGE),
                      0},
    [BWI_OPT_HELP] = {"help", NULL, "print this help", FOR_ALL, 'h'},
    [BWI_OPT_VERSION] = {"version", NULL, "print the version", FOR_ALL, 0},
};

/* The words that an option may have as its value. */
static const char *const *const option_words[BWI_OPTION_COUNT] = {
    [BWI_OPT_UNITS] = (const char *const[]){"imperial", "metric", NULL},
    [BWI_OPT_CLASS] = (const char *const[]){"forest", "open", NULL},
    [BWI_OPT_BAYS] = (const char *const[]){"1", "2", "3", NULL},
    [BWI_OPT_USE] = (const char *const[]){"riders", "people", "both", NULL},
    [BWI_OPT_BASIS] = (const char *const[]){"us_asd", "eurocode", NULL},
    [BWI_OPT_GRADE] = (const char *const[]){"unseen", "sound", NULL},
};

const bwi_command_row *bwi_command_at(int command)
{
    return &commands[command];
}

const bwi_option_row *bwi_option_at(int option)
{
    return &options[option];
}

bool bwi_option_of(int option, int command)
{
    return command < 0 || (options[option].commands & FOR(command)) != 0U;
}

const char *const *bwi_option_words(bwi_option option)
{
    return option_words[option];
}

const char *bwi_option_name(bwi_option option)
{
    return options[option].name;
}

const char *bwi_command_name(int command)
{
    return commands[command].name;
}

/* ---- reading ---- */

typedef struct {
    int argc, at;
    char *const *argv;
    bool only_operands; /* "--" was seen */
    bwi_options *out;
    bw_diags *d;
} reader;

static bool given(const bwi_options *o, bwi_option id)
{
    return o->value[id] != NULL;
}

static void fault(reader *r, const char *id, const char *hint, const char *message)
{
    const bw_diag diag = {.severity = BW_ERROR,
                          .id = id,
                          .message =
                              message == NULL ? "the command line is wrong" : message,
                          .hint = hint};
    bw_diags_add(r->d, &diag);
}

static void unknown_option(reader *r, const char *word, const char *name)
{
    const char *names[BWI_OPTION_COUNT];
    for (int i = 0; i < BWI_OPTION_COUNT; i++) {
        names[i] = options[i].name;
    }
    const char *near =
        name[0] == '\0' ? NULL : bw_nearest_word(name, names, BWI_OPTION_COUNT);
    const char *hint = near == NULL
                           ? "\"bolewright --help\" lists the options"
                           : bw_arena_print(r->d->arena, "did you mean --%s?", near);
    fault(r, "usage.option", hint,
          bw_arena_print(r->d->arena, "unknown option %s", word));
}

static void unknown_command(reader *r, const char *word)
{
    const char *names[BWI_COMMAND_COUNT];
    for (int i = 0; i < BWI_COMMAND_COUNT; i++) {
        names[i] = commands[i].name;
    }
    const char *near = bw_nearest_word(word, names, BWI_COMMAND_COUNT);
    const char *hint = "\"bolewright --help\" lists the commands";
    if (near != NULL) {
        hint = bw_arena_print(r->d->arena, "did you mean \"%s\"?", near);
    } else if (strstr(word, ".json") != NULL) {
        hint = bw_arena_print(r->d->arena, "to check a deck: bolewright check %s", word);
    }
    fault(r, "usage.command", hint,
          bw_arena_print(r->d->arena, "unknown command %s", word));
}

static void set_option(reader *r, int id, const char *value)
{
    bw_arena *arena = r->d->arena;
    if (options[id].argument != NULL && r->out->value[id] != NULL) {
        fault(r, "usage.twice", NULL,
              bw_arena_print(arena, "--%s is given twice", options[id].name));
    }
    if (options[id].argument != NULL && value[0] == '\0') {
        fault(r, "usage.value", NULL,
              bw_arena_print(arena, "--%s needs a value: --%s %s", options[id].name,
                             options[id].name, options[id].argument));
    }
    r->out->value[id] = value;
}

static int find_long(const char *name, size_t length)
{
    for (int i = 0; i < BWI_OPTION_COUNT; i++) {
        if (strlen(options[i].name) == length &&
            strncmp(options[i].name, name, length) == 0) {
            return i;
        }
    }
    return -1;
}

static void read_long(reader *r, const char *word)
{
    const char *name = word + 2;
    const char *equals = strchr(name, '=');
    const size_t length = equals == NULL ? strlen(name) : (size_t)(equals - name);
    const int id = find_long(name, length);
    if (id < 0) {
        unknown_option(r, word, name);
    } else if (options[id].argument == NULL) {
        if (equals != NULL) {
            fault(r, "usage.no_value", NULL,
                  bw_arena_print(r->d->arena, "--%s takes no value", options[id].name));
        }
        set_option(r, id, "");
    } else if (equals != NULL) {
        set_option(r, id, equals + 1);
    } else {
        set_option(r, id, r->at < r->argc ? r->argv[r->at++] : "");
    }
}

static int find_letter(char letter)
{
    for (int i = 0; i < BWI_OPTION_COUNT; i++) {
        if (options[i].letter == letter) {
            return i;
        }
    }
    return -1;
}

/* One letter or several behind one dash; the value of the last stands behind it or is the
 * next word. */
static void read_letters(reader *r, const char *word)
{
    for (const char *letter = word + 1; *letter != '\0'; letter++) {
        const int id = find_letter(*letter);
        if (id < 0) {
            unknown_option(r, word, word + 1);
            return;
        }
        if (options[id].argument != NULL) {
            const bool behind = letter[1] != '\0';
            set_option(r, id,
                       behind            ? letter + 1
                       : r->at < r->argc ? r->argv[r->at++]
                                         : "");
            return;
        }
        set_option(r, id, "");
    }
}

static bool takes_second(const reader *r)
{
    return r->out->command >= 0 && commands[r->out->command].second != NULL;
}

static void read_operand(reader *r, const char *word, bool *has_command)
{
    if (!*has_command) {
        *has_command = true;
        for (int i = 0; i < BWI_COMMAND_COUNT; i++) {
            if (strcmp(commands[i].name, word) == 0) {
                r->out->command = i;
                return;
            }
        }
        unknown_command(r, word);
    } else if (r->out->operand == NULL) {
        r->out->operand = word;
    } else if (takes_second(r) && r->out->second == NULL) {
        r->out->second = word;
    } else if (r->out->command >= 0) {
        fault(r, "usage.operand", "a name with blanks goes in quotes",
              bw_arena_print(
                  r->d->arena, "%s takes one %s%s%s, so %s is too much",
                  commands[r->out->command].name, commands[r->out->command].operand,
                  takes_second(r) ? " and one " : "",
                  takes_second(r) ? commands[r->out->command].second : "", word));
    }
}

static void read_word(reader *r, bool *has_command)
{
    const char *word = r->argv[r->at++];
    if (r->only_operands || word[0] != '-' || word[1] == '\0') {
        read_operand(r, word, has_command);
    } else if (strcmp(word, "--") == 0) {
        r->only_operands = true;
    } else if (word[1] == '-') {
        read_long(r, word);
    } else {
        read_letters(r, word);
    }
}

bool bwi_is_word(const char *operand, const char *word)
{
    const size_t length = strlen(word);
    for (const char *at = operand; at != NULL; at = strchr(at, '|')) {
        at += *at == '|' ? 1 : 0;
        if (strncmp(at, word, length) == 0 && (at[length] == '\0' || at[length] == '|')) {
            return true;
        }
    }
    return false;
}

static bool is_given(const char *operand)
{
    return operand != NULL && operand[0] != '\0';
}

/* Of an operand that is one of some words. */
static void check_word(reader *r, const bwi_command_row *command)
{
    if (!bwi_is_word(command->operand, r->out->operand)) {
        fault(r, "usage.operand",
              bw_arena_print(r->d->arena, "bolewright %s %s", command->name,
                             command->operand),
              bw_arena_print(r->d->arena, "%s knows no %s", command->name,
                             r->out->operand));
    }
}

static void check_operands(reader *r, const bwi_command_row *command, const char *hint)
{
    const bool two = command->second != NULL;
    const bool is_word = strchr(command->operand, '|') != NULL;
    if (is_word && is_given(r->out->operand)) {
        check_word(r, command);
    } else if (command->needs_operand &&
               (!is_given(r->out->operand) || (two && !is_given(r->out->second)))) {
        fault(r, "usage.operand", hint,
              bw_arena_print(r->d->arena, "%s needs %s: bolewright %s %s%s%s",
                             command->name,
                             two       ? "two files"
                             : is_word ? "a word"
                                       : "a file",
                             command->name, command->operand, two ? " " : "",
                             two ? command->second : ""));
    }
}

/* What only shows once the command is known. */
static void check_together(reader *r)
{
    bw_arena *arena = r->d->arena;
    const bwi_command_row *command = &commands[r->out->command];
    const char *hint = bw_arena_print(
        arena, "\"bolewright %s --help\" shows how it is used", command->name);
    for (int i = 0; i < BWI_OPTION_COUNT; i++) {
        if (r->out->value[i] != NULL &&
            (options[i].commands & FOR(r->out->command)) == 0U) {
            fault(r, "usage.foreign", hint,
                  bw_arena_print(arena, "--%s is no option of %s", options[i].name,
                                 command->name));
        }
    }
    if (command->operand[0] == '\0' && r->out->operand != NULL) {
        fault(r, "usage.operand", hint,
              bw_arena_print(arena, "%s takes options only, so %s is too much",
                             command->name, r->out->operand));
    }
    check_operands(r, command, hint);
}

static void check_units(reader *r)
{
    const char *units = r->out->value[BWI_OPT_UNITS];
    const char *const *systems = option_words[BWI_OPT_UNITS];
    if (units == NULL || units[0] == '\0' || strcmp(units, systems[0]) == 0 ||
        strcmp(units, systems[1]) == 0) {
        return;
    }
    const char *near = bw_nearest_word(units, systems, 2);
    const bw_diag diag = {
        .severity = BW_ERROR,
        .id = "usage.units",
        .message = bw_arena_print(r->d->arena, "--units is %s", units),
        .allowed = "imperial or metric",
        .hint =
            near == NULL ? NULL : bw_arena_print(r->d->arena, "did you mean %s?", near),
    };
    bw_diags_add(r->d, &diag);
}

bw_status bwi_options_read(int argc, char *const *argv, bwi_options *out, bw_diags *d)
{
    *out = (bwi_options){.command = -1};
    reader r = {.argc = argc, .at = 1, .argv = argv, .out = out, .d = d};
    bool has_command = false;
    while (r.at < argc) {
        read_word(&r, &has_command);
    }
    if (given(out, BWI_OPT_HELP) || given(out, BWI_OPT_VERSION)) {
        return BW_OK; /* the rest of the line does not matter then */
    }
    if (out->command >= 0) {
        check_together(&r);
    } else if (!has_command) {
        fault(&r, "usage.command", "\"bolewright --help\" lists the commands",
              "no command is given");
    }
    check_units(&r);
    return d->errors > 0 ? BW_E_USAGE : BW_OK;
}

/* ---- help ---- */

static void add_commands(bw_text *out)
{
    bw_text_add(out, "\ncommands:\n");
    for (int i = 0; i < BWI_COMMAND_COUNT; i++) {
        const bool long_operand = strchr(commands[i].operand, '|') != NULL;
        bw_text_print(out, "  %-10s %-11s %s\n", commands[i].name,
                      long_operand ? "WORD" : commands[i].operand, commands[i].summary);
    }
}

static void add_options(unsigned mask, bw_text *out)
{
    bw_text_add(out, "\noptions:\n");
    for (int i = 0; i < BWI_OPTION_COUNT; i++) {
        if ((options[i].commands & mask) == 0U) {
            continue;
        }
        const char *argument = options[i].argument == NULL ? "" : options[i].argument;
        if (options[i].letter != 0) {
            bw_text_print(out, "  -%c, ", options[i].letter);
        } else {
            bw_text_add(out, "      ");
        }
        bw_text_print(out, "--%-8s %-6s %s\n", options[i].name, argument,
                      options[i].help);
    }
    bw_text_add(out, "      --                what follows is no option\n");
}

const bwi_exit_row bwi_exits[] = {
    {0, "every check made is within limits, or nothing was to be checked"},
    {1, "a check is over, or cannot say"},
    {2, "the command line is wrong"},
    {3, "the case or a species table is wrong"},
    {4, "the frame cannot be analysed: a part of it is loose"},
    {5, "a file cannot be read or written"},
    {70, "memory ran out, or a fault of this program"},
    {130, "stopped by Ctrl-C; nothing was written"},
    {0, NULL},
};

static void add_statuses(bw_text *out)
{
    bw_text_add(out, "\nexit status:\n");
    for (const bwi_exit_row *row = bwi_exits; row->meaning != NULL; row++) {
        bw_text_print(out, "%4d  %s\n", row->status, row->meaning);
    }
}

const char bwi_purpose[] =
    "bolewright checks decks framed from logs against the strength of their wood.\n"
    "It is a sanity check, and no substitute for codes or a licensed engineer.\n";

void bwi_help_short(bw_text *out)
{
    bw_text_add(out, bwi_purpose);
    bw_text_add(out, "\nusage: bolewright COMMAND [OPTION...] [FILE]\n\n"
                     "  bolewright check porch.json\n"
                     "  bolewright --help\n");
}

static void add_examples(int command, bw_text *out)
{
    bw_text_add(out, "\nexamples:\n");
    for (int i = 0; i < BWI_COMMAND_COUNT; i++) {
        if (command < 0 || i == command) {
            bw_text_add(out, commands[i].examples);
        }
    }
}

void bwi_help(int command, bw_text *out)
{
    if (command < 0) {
        bw_text_add(out, "usage: bolewright COMMAND [OPTION...] [FILE]\n\n");
        bw_text_add(out, bwi_purpose);
        add_examples(command, out);
        add_commands(out);
        bw_text_add(out, "\n\"bolewright COMMAND --help\" says more about each.\n");
        add_options(FOR_ALL, out);
    } else {
        const char *operand = commands[command].operand;
        const char *second = commands[command].second;
        bw_text_print(out, "usage: bolewright %s [OPTION...]%s%s%s%s\n\n",
                      commands[command].name, operand[0] == '\0' ? "" : " ", operand,
                      second == NULL ? "" : " ", second == NULL ? "" : second);
        bw_text_add(out, commands[command].about);
        add_examples(command, out);
        add_options(FOR(command), out);
    }
    add_statuses(out);
}
