/* completion.c - what completes the words of a shell, from the tables of options.c. */
#include "commands.h"
#include "output.h"

#include <string.h>

/* ---- what both shells ask of the tables ---- */

static bool takes_value(int option)
{
    return bwi_option_at(option)->argument != NULL;
}

static bool names_file(int option)
{
    return takes_value(option) && strcmp(bwi_option_at(option)->argument, "FILE") == 0;
}

static bool names_folder(int option)
{
    return takes_value(option) && strcmp(bwi_option_at(option)->argument, "DIR") == 0;
}

static bool names_text(int option)
{
    return takes_value(option) && !names_file(option) && !names_folder(option) &&
           bwi_option_words((bwi_option)option) == NULL;
}

/* "json" of "[CASE.json]"; length 0: it names no file. */
static const char *ending(const char *operand, size_t *length)
{
    const char *dot = operand == NULL ? NULL : strchr(operand, '.');
    *length = dot == NULL ? 0 : strcspn(dot + 1, "]");
    return dot == NULL ? "" : dot + 1;
}

/* The operand's words with blanks between them; nothing unless it is one of words. */
static void add_operand_words(const char *operand, bw_text *out)
{
    for (const char *c = operand; strchr(operand, '|') != NULL && *c != '\0'; c++) {
        bw_text_add_bytes(out, *c == '|' ? " " : c, 1);
    }
}

static void add_commands(bw_text *out)
{
    for (int i = 0; i < BWI_COMMAND_COUNT; i++) {
        bw_text_print(out, "%s%s", i == 0 ? "" : " ", bwi_command_at(i)->name);
    }
}

/* ---- bash ---- */

/* A pattern of the options that are so, as they are written: --json|--output|-o. False:
 * there is none. */
static bool add_pattern(bool (*is_so)(int option), bw_text *out)
{
    bool any = false;
    for (int i = 0; i < BWI_OPTION_COUNT; i++) {
        const bwi_option_row *row = bwi_option_at(i);
        if (is_so(i)) {
            bw_text_print(out, "%s--%s", any ? "|" : "", row->name);
            any = true;
            if (row->letter != 0) {
                bw_text_print(out, "|-%c", row->letter);
            }
        }
    }
    return any;
}

static void bash_values(bw_text *out)
{
    bw_text_add(out, "    case $prev in\n    ");
    if (add_pattern(names_file, out)) {
        bw_text_add(out, ") _bolewright_files; return ;;\n    ");
    }
    if (add_pattern(names_folder, out)) {
        bw_text_add(out, ") _bolewright_folders; return ;;\n    ");
    }
    if (add_pattern(names_text, out)) {
        bw_text_add(out, ") return ;; # a length, a name...\n");
    }
    for (int i = 0; i < BWI_OPTION_COUNT; i++) {
        const char *const *words = bwi_option_words((bwi_option)i);
        if (words != NULL) {
            bw_text_print(out, "    --%s) _bolewright_words \"",
                          bwi_option_name((bwi_option)i));
            for (size_t k = 0; words[k] != NULL; k++) {
                bw_text_print(out, "%s%s", k == 0 ? "" : " ", words[k]);
            }
            bw_text_add(out, "\"; return ;;\n");
        }
    }
    bw_text_add(out, "    esac\n");
}

static void bash_options(int command, bw_text *out)
{
    bw_text_print(out, "        %s) _bolewright_words \"",
                  command < 0 ? "''" : bwi_command_at(command)->name);
    const char *blank = "";
    for (int i = 0; i < BWI_OPTION_COUNT; i++) {
        if (bwi_option_of(i, command)) {
            bw_text_print(out, "%s--%s", blank, bwi_option_name((bwi_option)i));
            blank = " ";
        }
    }
    bw_text_add(out, "\" ;;\n");
}

static void bash_operand(int command, bw_text *out)
{
    const bwi_command_row *row = bwi_command_at(command);
    size_t first = 0, second = 0;
    const char *one = ending(row->operand, &first);
    const char *other = ending(row->second, &second);
    if (strchr(row->operand, '|') != NULL) {
        bw_text_print(out, "        %s) _bolewright_words \"", row->name);
        add_operand_words(row->operand, out);
        bw_text_add(out, "\" ;;\n");
    } else if (first > 0) {
        bw_text_print(out, "        %s) _bolewright_files %.*s", row->name, (int)first,
                      one);
        if (second > 0 && strncmp(one, other, first) != 0) {
            bw_text_print(out, " %.*s", (int)second, other);
        }
        bw_text_add(out, " ;;\n");
    }
}

static const char bash_helpers[] =
    "# Completion of bolewright for bash, printed by \"bolewright completion bash\".\n\n"
    "_bolewright_words()\n{\n"
    "    mapfile -t COMPREPLY < <(compgen -W \"$1\" -- \"$cur\")\n}\n\n"
    "# all files, or folders and those with these endings\n"
    "_bolewright_files()\n{\n"
    "    local ending\n"
    "    compopt -o filenames 2>/dev/null\n"
    "    if [[ $# -eq 0 ]]; then\n"
    "        mapfile -t COMPREPLY < <(compgen -f -- \"$cur\")\n"
    "        return\n"
    "    fi\n"
    "    mapfile -t COMPREPLY < <(compgen -d -- \"$cur\"\n"
    "        for ending; do compgen -f -X \"!*.$ending\" -- \"$cur\"; done)\n}\n\n"
    "_bolewright_folders()\n{\n"
    "    compopt -o filenames 2>/dev/null\n"
    "    mapfile -t COMPREPLY < <(compgen -d -- \"$cur\")\n}\n\n";

/* The command is the first word that is neither an option nor the value of one. A value
 * behind "=" comes in words of its own. */
static void bash_command(bw_text *out)
{
    bw_text_add(out, "# sets command, and operands to \"yes\" behind --\n"
                     "_bolewright_command()\n{\n"
                     "    local i word\n"
                     "    for ((i = 1; i < COMP_CWORD; i++)); do\n"
                     "        word=${COMP_WORDS[i]}\n"
                     "        if [[ $operands == no && $word == -- ]]; then\n"
                     "            operands=yes\n"
                     "            continue\n"
                     "        fi\n"
                     "        if [[ $operands == no && $word == -?* ]]; then\n"
                     "            case $word in\n            ");
    (void)add_pattern(takes_value, out);
    bw_text_add(out, ")\n"
                     "                [[ ${COMP_WORDS[i + 1]} == = ]] && i=$((i + 1))\n"
                     "                i=$((i + 1)) ;;\n"
                     "            esac\n"
                     "            continue\n"
                     "        fi\n"
                     "        command=${command:-$word}\n"
                     "    done\n}\n\n");
}

static void bash_main(bw_text *out)
{
    bw_text_add(out, "_bolewright()\n{\n"
                     "    local cur prev command='' operands=no\n"
                     "    COMPREPLY=()\n"
                     "    cur=${COMP_WORDS[COMP_CWORD]}\n"
                     "    prev=${COMP_WORDS[COMP_CWORD - 1]}\n"
                     "    _bolewright_command\n"
                     "    if [[ $cur == = ]]; then\n"
                     "        cur=''\n"
                     "    elif [[ $prev == = ]]; then\n"
                     "        prev=${COMP_WORDS[COMP_CWORD - 2]}\n"
                     "    fi\n"
                     "    [[ $operands == yes ]] && prev=''\n");
    bash_values(out);
    bw_text_add(out, "    if [[ $cur == -* && $operands == no ]]; then\n"
                     "        case $command in\n");
    for (int i = -1; i < BWI_COMMAND_COUNT; i++) {
        bash_options(i, out);
    }
    bw_text_add(out, "        esac\n    else\n        case $command in\n"
                     "        '') _bolewright_words \"");
    add_commands(out);
    bw_text_add(out, "\" ;;\n");
    for (int i = 0; i < BWI_COMMAND_COUNT; i++) {
        bash_operand(i, out);
    }
    bw_text_add(out, "        esac\n    fi\n}\ncomplete -F _bolewright bolewright\n");
}

/* ---- zsh ---- */

/* Text between single quotes, with what _arguments and _describe read as theirs made
 * plain. */
static void add_plain(const char *text, bw_text *out)
{
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '\'') {
            bw_text_add(out, "'\\''");
            continue;
        }
        if (strchr("[]:\\", *c) != NULL) {
            bw_text_add(out, "\\");
        }
        bw_text_add_bytes(out, c, 1);
    }
}

static void zsh_value(int option, bw_text *out)
{
    const char *const *words = bwi_option_words((bwi_option)option);
    bw_text_print(out, ":%s:", bwi_option_at(option)->argument);
    if (names_file(option)) {
        bw_text_add(out, "_files");
    } else if (names_folder(option)) {
        bw_text_add(out, "_files -/");
    } else if (words == NULL) {
        bw_text_add(out, " ");
    } else {
        for (size_t k = 0; words[k] != NULL; k++) {
            bw_text_print(out, "%s%s", k == 0 ? "(" : " ", words[k]);
        }
        bw_text_add(out, ")");
    }
}

static void zsh_option(int option, bw_text *out)
{
    const bwi_option_row *row = bwi_option_at(option);
    const char *equals = row->argument != NULL ? "=" : "";
    bw_text_add(out, " \\\n            ");
    if (row->letter != 0) {
        bw_text_print(out, "'(-%c --%s)'{-%c%s,--%s%s}'[", row->letter, row->name,
                      row->letter, row->argument != NULL ? "+" : "", row->name, equals);
    } else {
        bw_text_print(out, "'--%s%s[", row->name, equals);
    }
    add_plain(row->help, out);
    bw_text_add(out, "]");
    if (row->argument != NULL) {
        zsh_value(option, out);
    }
    bw_text_add(out, "'");
}

static void zsh_operand(const char *operand, int place, bw_text *out)
{
    size_t length = 0;
    const char *file = ending(operand, &length);
    if (operand == NULL || operand[0] == '\0') {
        return;
    }
    const bool optional = operand[0] == '[';
    const char *name = optional ? operand + 1 : operand;
    bw_text_print(out, " \\\n            '%d:%s%.*s:", place, optional ? ":" : "",
                  (int)strcspn(name, "]"), name);
    if (strchr(operand, '|') != NULL) {
        bw_text_add(out, "(");
        add_operand_words(operand, out);
        bw_text_add(out, ")'");
    } else if (length > 0) {
        bw_text_print(out, "_files -g \"*.%.*s\"'", (int)length, file);
    } else {
        bw_text_add(out, " '");
    }
}

static void zsh_command(int command, bw_text *out)
{
    const bwi_command_row *row = bwi_command_at(command);
    bw_text_print(out, "        %s) _arguments -s", row->name);
    for (int i = 0; i < BWI_OPTION_COUNT; i++) {
        if (bwi_option_of(i, command)) {
            zsh_option(i, out);
        }
    }
    zsh_operand(row->operand, 1, out);
    zsh_operand(row->second, 2, out);
    bw_text_add(out, " ;;\n");
}

static void zsh(bw_text *out)
{
    bw_text_add(out,
                "#compdef bolewright\n"
                "# Completion of bolewright for zsh, printed by \"bolewright completion "
                "zsh\".\n\n"
                "_bolewright()\n{\n"
                "    local context state state_descr line\n"
                "    typeset -A opt_args\n"
                "    local -a commands\n"
                "    commands=(\n");
    for (int i = 0; i < BWI_COMMAND_COUNT; i++) {
        bw_text_print(out, "        '%s:", bwi_command_at(i)->name);
        add_plain(bwi_command_at(i)->summary, out);
        bw_text_add(out, "'\n");
    }
    bw_text_add(out, "    )\n    _arguments -C");
    zsh_option(BWI_OPT_HELP, out);
    zsh_option(BWI_OPT_VERSION, out);
    bw_text_add(out, " \\\n            '1:command:->command' '*::argument:->argument'\n"
                     "    case $state in\n"
                     "    command) _describe command commands ;;\n"
                     "    argument)\n        case $words[1] in\n");
    for (int i = 0; i < BWI_COMMAND_COUNT; i++) {
        zsh_command(i, out);
    }
    bw_text_add(out, "        esac ;;\n    esac\n}\n\n_bolewright \"$@\"\n");
}

/* ---- the command ---- */

int bwi_completion_run(bw_arena *arena, const bwi_options *options)
{
    bw_diags d = bw_diags_new(arena, NULL);
    bw_text text = bw_text_new(arena);
    if (strcmp(options->operand, "bash") == 0) {
        bw_text_add(&text, bash_helpers);
        bash_command(&text);
        bash_main(&text);
    } else {
        zsh(&text);
    }
    const bw_status status = bwi_output_print(&text, &d);
    const bw_diags *const all[] = {&d, NULL};
    return bwi_output_finish(status, all);
}
