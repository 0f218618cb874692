#!/bin/sh
# man.sh PROGRAM - the manual page formats without a warning and names every command and option
# that the help knows, and no other.
set -u
program=$1
scratch=$(mktemp -d) || exit 99
trap 'rm -rf "$scratch"' EXIT
LC_ALL=C.UTF-8 MANWIDTH=80
export LC_ALL MANWIDTH
unset MAN_KEEP_FORMATTING MANPL
"$program" man >"$scratch/bolewright.1" || exit 1
man --warnings -E UTF-8 -l "$scratch/bolewright.1" >"$scratch/page" 2>"$scratch/warnings" || exit 1
groff -man -ww -z "$scratch/bolewright.1" 2>>"$scratch/warnings" || exit 1
if [ -s "$scratch/warnings" ]; then
    cat "$scratch/warnings"
    exit 1
fi
awk 'length > 80 {print "too wide: " $0; wide = 1} END {exit wide}' "$scratch/page" || exit 1

faults=0
same() { # what, of the help, of the page
    if [ "$2" != "$3" ] || [ -z "$2" ]; then
        printf '%s: the help has\n%s\n--- the page\n%s\n' "$1" "$2" "$3"
        faults=1
    fi
}
"$program" --help >"$scratch/help"
same commands "$(sed -n '/^commands:/,/^$/s/^  \([a-z]*\) .*/\1/p' "$scratch/help")" \
    "$(sed -n '/^COMMANDS/,/^OPTIONS/s/^   \([a-z]*\)$/\1/p' "$scratch/page")"
same options "$(sed -n '/^options:/,/^exit/s/^ .*--\([a-z]\{2,\}\) .*/\1/p' "$scratch/help")" \
    "$(sed -n '/^OPTIONS/,/^EXIT/s/^ \{7\}\(-., \)\{0,1\}--\([a-z]\{1,\}\).*/\2/p' "$scratch/page")"
same "exit statuses" "$(sed -n '/^exit status/,$s/^ *\([0-9]\{1,\}\) .*/\1/p' "$scratch/help")" \
    "$(sed -n '/^EXIT/,/^CAUTIONS/s/^ *\([0-9]\{1,\}\)\( .*\)\{0,1\}$/\1/p' "$scratch/page")"
grep -q "sanity check" "$scratch/page" || faults=1
grep -q "bolewright check porch.json --json porch-result.json" "$scratch/page" || faults=1
exit $faults
