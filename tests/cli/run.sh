#!/bin/sh
# run.sh PROGRAM TRANSCRIPT SOURCE_DIR - plays a transcript in an empty folder of its own.
#
# A transcript is a list of lines, each a verb and the rest:
#   # words            comment
#   write NAME TEXT    makes a file with the text
#   folder NAME        makes a folder
#   $ ARGUMENTS        runs the program; the shell reads the line, so quotes and redirections
#                      work, and $SRC is the source folder
#   to-closed-pipe ARGUMENTS   the same into a pipe that nobody reads any more
#   exit N             the run ended with this status
#   out TEXT           standard output contains the text; not-out: does not
#   err TEXT           standard error contains the text; not-err: does not
#   no-out, no-err     the stream is empty
#   file NAME TEXT     the file contains the text
#   left NAMES         the folder holds these entries and no other (sorted; nothing: empty)
# Every run must be followed by its exit line. Locale: C, so that the same bytes come out.
set -u
LC_ALL=C
export LC_ALL
program=$1
transcript=$2
SRC=$3
scratch=$(mktemp -d) || exit 99
streams=$(mktemp -d) || exit 99
trap 'rm -rf "$scratch" "$streams"' EXIT
cd "$scratch" || exit 99
: >"$streams/out"
: >"$streams/err"
line_number=0
faults=0
runs=0
status=none
pending=no

complain() {
    faults=$((faults + 1))
    echo "$transcript:$line_number: $1"
    echo "--- exit $status, stdout:"
    cat "$streams/out"
    echo "--- stderr:"
    cat "$streams/err"
}

contains() {
    grep -F -q -e "$2" "$1"
}

run_program() {
    [ "$pending" = no ] || complain "the run before has no exit line"
    pending=yes
    runs=$((runs + 1))
    eval "\"\$program\" $1" >"$streams/out" 2>"$streams/err" </dev/null
    status=$?
}

run_into_closed_pipe() {
    [ "$pending" = no ] || complain "the run before has no exit line"
    pending=yes
    runs=$((runs + 1))
    : >"$streams/out"
    mkfifo "$streams/pipe"
    exec 3<>"$streams/pipe"
    exec 4>"$streams/pipe"
    exec 3>&-
    eval "\"\$program\" $1" >&4 2>"$streams/err" </dev/null 4>&-
    status=$?
    exec 4>&-
    rm "$streams/pipe"
}

play() {
    verb=$1
    rest=$2
    case $verb in
    '' | '#'*) ;;
    write) printf '%s\n' "${rest#* }" >"${rest%% *}" ;;
    folder) mkdir "$rest" ;;
    '$') run_program "$rest" ;;
    to-closed-pipe) run_into_closed_pipe "$rest" ;;
    exit)
        pending=no
        [ "$status" = "$rest" ] || complain "exit status $status, expected $rest"
        ;;
    out) contains "$streams/out" "$rest" || complain "stdout lacks: $rest" ;;
    err) contains "$streams/err" "$rest" || complain "stderr lacks: $rest" ;;
    not-out) ! contains "$streams/out" "$rest" || complain "stdout has: $rest" ;;
    not-err) ! contains "$streams/err" "$rest" || complain "stderr has: $rest" ;;
    no-out) [ ! -s "$streams/out" ] || complain "stdout is not empty" ;;
    no-err) [ ! -s "$streams/err" ] || complain "stderr is not empty" ;;
    file) contains "${rest%% *}" "${rest#* }" || complain "${rest%% *} lacks: ${rest#* }" ;;
    left)
        found=$(ls -A | tr '\n' ' ')
        [ "${found% }" = "$rest" ] || complain "left in the folder: $found"
        ;;
    *) complain "unknown verb $verb" ;;
    esac
}

while IFS= read -r line || [ -n "$line" ]; do
    line_number=$((line_number + 1))
    verb=${line%% *}
    rest=${line#"$verb"}
    play "$verb" "${rest# }"
done <"$transcript"

[ "$pending" = no ] || complain "the last run has no exit line"
[ "$runs" -gt 0 ] || complain "nothing was run"
[ "$faults" -eq 0 ]
