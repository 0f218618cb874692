#!/bin/sh
# regenerate.sh BOLEWRIGHT - writes the expected reports of all demo cases anew. Then read the
# difference, line by line: a changed number needs a reason.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
mkdir -p "$here/expected"
python3 "$here/golden.py" --write "$1" "$here/../../cases" "$here/expected"
