# completion.bash PROGRAM - the bash completion, driven as bash drives it: the words and the
# cursor behind the last of them are set, the function is called, COMPREPLY is compared.
set -u
program=$1
scratch=$(mktemp -d) || exit 99
trap 'rm -rf "$scratch"' EXIT
"$program" completion bash >"$scratch/completion" || exit 1
cd "$scratch" && mkdir files && cd files || exit 99
touch deck.json 'the old deck.json' pile.csv notes.txt
mkdir decks
bash -n "$scratch/completion" || exit 1
source "$scratch/completion"
faults=0

# complete_ WORD... EXPECTED: what stands for the last word, sorted, one a line
complete_() {
    local expected=${*: -1} found
    COMP_WORDS=(bolewright "${@:1:$#-1}")
    COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
    COMPREPLY=()
    _bolewright
    found=$(printf '%s\n' "${COMPREPLY[@]+"${COMPREPLY[@]}"}" | LC_ALL=C sort -u)
    if [ "$found" != "$expected" ]; then
        faults=$((faults + 1))
        printf 'bolewright %s: found\n%s\n--- expected\n%s\n' "${*:1:$#-1}" "$found" "$expected"
    fi
}

# the help is made from the same table, by other code
long_options() {
    "$program" "$@" --help | sed -n '/^options:/,/^exit/s/^ .*--\([a-z]\{2,\}\) .*/--\1/p' | LC_ALL=C sort -u
}
commands=$("$program" --help | sed -n '/^commands:/,/^$/s/^  \([a-z]*\) .*/\1/p')
[ "$(printf '%s\n' "$commands" | wc -l)" -ge 16 ] || { echo "commands: $commands"; exit 1; }
complete_ "" "$(printf '%s\n' "$commands" | LC_ALL=C sort)"
for command in $commands; do
    complete_ "$command" -- "$(long_options "$command")"
done
complete_ --h "$(printf -- '--height\n--help')"
complete_ sp "$(printf 'spacing\nspan\nspecies')"
complete_ check --js "--json"
complete_ check --uni ""
complete_ --quiet --json out.json rep "report"

# files by their ending, folders always; a blank does not split a name
complete_ check "" "$(printf 'deck.json\ndecks\nthe old deck.json')"
complete_ check the "the old deck.json"
complete_ match deck.json "" "$(printf 'deck.json\ndecks\npile.csv\nthe old deck.json')"
complete_ frame n ""
complete_ tree "" ""
complete_ report deck.json -o n "notes.txt"
complete_ check --json = n "notes.txt"
complete_ check --json = "$(printf 'deck.json\ndecks\nnotes.txt\npile.csv\nthe old deck.json')"
complete_ check --tables "" "decks"
complete_ check -- -- ""
complete_ check -- d "$(printf 'deck.json\ndecks')"

# words
complete_ tree --units "" "$(printf 'imperial\nmetric')"
complete_ span --use = p "people"
complete_ schema "" "$(printf 'case\nframe\ninspections\nlogs')"
complete_ completion z "zsh"
complete_ tree --species l ""

[ "$(complete -p bolewright)" = "complete -F _bolewright bolewright" ] || faults=$((faults + 1))
echo "$faults faults"
[ "$faults" -eq 0 ]
