"""The public symbols of the library are those of symbols.txt and those that the installed
headers declare, and nothing else of it is visible but bwi_ names:
symbols.py NM CC LIBRARY INCLUDE SYMBOLS"""
import os
import re
import subprocess
import sys

nm, cc, library, include, frozen_path = sys.argv[1:]


def defined():
    out = subprocess.run([nm, "-g", "--defined-only", "-P", library], check=True,
                         capture_output=True, text=True).stdout
    return {line.split()[0] for line in out.splitlines()
            if len(line.split()) >= 2 and not line.endswith(":")}


def declared():
    """Functions and extern objects at the outermost level of the preprocessed headers."""
    headers = sorted(os.listdir(os.path.join(include, "bolewright")))
    source = "".join(f'#include "bolewright/{name}"\n' for name in headers)
    text = subprocess.run([cc, "-E", "-P", "-I", include, "-x", "c", "-"], input=source,
                          check=True, capture_output=True, text=True).stdout
    while re.search(r"\{[^{}]*\}", text):
        text = re.sub(r"\{[^{}]*\}", " ", text)
    names = set()
    for statement in text.split(";"):
        words = " ".join(statement.split())
        if words.startswith("typedef"):
            continue
        function = re.search(r"\b(bwi?_\w+) ?\(", words)
        if function:
            names.add(function.group(1))
        elif words.startswith("extern"):
            for part in words.split(","):
                name = re.search(r"\b(bwi?_\w+)( ?\[[^]]*\])*$", part)
                names |= {name.group(1)} if name else set()
    return names


there, said = defined(), declared()
public = {name for name in there if name.startswith("bw_")}
with open(frozen_path, encoding="ascii") as file:
    lines = file.read().split()
frozen = set(lines)
faults = []
for heading, names in (
        (f"symbols that {frozen_path} does not list (a public name is a promise)", public - frozen),
        ("symbols that have gone: users need them (or a new version)", frozen - public),
        ("declared in a header, missing in the library", said - there),
        ("public names that no header declares (bwi_ is for inside)", public - said),
        ("names inside that a public header declares", {n for n in said if n.startswith("bwi_")}),
        ("names that are neither bw_ nor bwi_", {n for n in there if not re.match("bwi?_", n)
                                               and not n.startswith(("__asan", "__odr_asan",
                                                                     "__gcov", "__llvm", "__prof",
                                                                     "__covrec")) })):
    if names:
        faults.append(f"{heading}:\n  " + "\n  ".join(sorted(names)))
if lines != sorted(frozen):
    faults.append(f"{frozen_path} is not sorted, or names one twice")
print("\n".join(faults) if faults else f"{len(public)} public symbols")
sys.exit(1 if faults else 0)
