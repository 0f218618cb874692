# completion.zsh PROGRAM - the zsh completion in a zsh of its own on a pseudo-terminal: a line is
# typed, tab pressed, and what stands in the line then is written to a file and compared.
program=$1
scratch=$(mktemp -d) || exit 99
trap 'rm -rf $scratch' EXIT
mkdir $scratch/functions $scratch/files $scratch/files/tables
$program completion zsh > $scratch/functions/_bolewright || exit 1
zsh -n $scratch/functions/_bolewright || exit 1
cd $scratch/files || exit 99
touch deck.json pile.csv notes.txt

zmodload zsh/zpty || exit 77
zpty child "TERM=dumb ZDOTDIR=$scratch zsh -f -i"
zpty -w child "PS1=; fpath=($scratch/functions \$fpath); autoload -Uz compinit; compinit -u -D"
zpty -w child "unsetopt beep; LISTMAX=0; setopt no_list_ambiguous no_auto_list"
zpty -w child "tell() { print -r -- \"\$BUFFER\" > $scratch/line.new; command mv $scratch/line.new $scratch/line; BUFFER=''; }"
zpty -w child "zle -N tell; bindkey '^I' complete-word; bindkey '^X' tell"
zpty -w child "cd $scratch/files; print ready > $scratch/line"

# waits for the file, at most 20 s
arrived() {
    for (( n = 0; n < 400; n++ )); do
        [[ -e $scratch/line ]] && return 0
        zpty -r -t child > /dev/null
        sleep 0.05
    done
    echo "the shell does not answer: $1"
    exit 1
}
arrived "at the start"

faults=0
typed() {
    rm -f $scratch/line
    zpty -n -w child "$1"$'\t\x18'
    arrived $1
    found=$(<$scratch/line)
    if [[ "${found% }" != "$2" ]]; then
        faults=$((faults + 1))
        echo "$1: found \"$found\", expected \"$2\""
    fi
}
typed "bolewright chec" "bolewright check"
typed "bolewright check --js" "bolewright check --json="
typed "bolewright check --uni" "bolewright check --uni"
typed "bolewright check de" "bolewright check deck.json"
typed "bolewright check deck.json --json n" "bolewright check deck.json --json notes.txt"
typed "bolewright check deck.json --tables=t" "bolewright check deck.json --tables=tables/"
typed "bolewright match deck.json p" "bolewright match deck.json pile.csv"
typed "bolewright report deck.json -o n" "bolewright report deck.json -o notes.txt"
typed "bolewright report deck.json --fo" "bolewright report deck.json --force"
typed "bolewright tree --units=m" "bolewright tree --units=metric"
typed "bolewright span --grade s" "bolewright span --grade sound"
typed "bolewright schema i" "bolewright schema inspections"
typed "bolewright completion z" "bolewright completion zsh"
typed "bolewright --vers" "bolewright --version"
zpty -d child
echo "$faults faults"
(( faults == 0 ))
