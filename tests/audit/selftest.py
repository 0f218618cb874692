#!/usr/bin/env python3
"""Every rule of audit.py can fail: a small sound tree has no fault, and each snippet put into
it is blamed by the rule that is meant, in the file that is meant, and by no other rule.
Snippets that only look like a fault are not blamed."""
import os
import sys
import tempfile

from audit import LINES, PARAMETERS, RULES, TOP_LEVEL, TWIN, faults_of

BODY = "{\n    return 1;\n}\n"
SOUND = {
    "CMakeLists.txt": "set(BW_MAY_base)\nset(BW_MAY_frame base)\nset(BW_MAY_wood base)\n"
                      "set(BW_MAY_input base frame\n    wood)\n",
    "DEVELOPERS.md": "LAPACKE is seen by `src/frame/band.c` and\n`rank.c` only (why).\n",
    "README.md": "", "LICENSE": "", ".gitignore": "/build*/\n", "build-any/x.c": "",
    "tests/t": "", "species/s": "", "cases/c": "",
    "include/bolewright/base.h": '/* base */\nextern "C" {\n/* One. */\nint bw_one(void);\n}\n',
    "include/bolewright/frame.h": '#include "bolewright/base.h"\n/* Two. */\nint bw_two(void);\n',
    "include/bolewright/wood.h": '#include "bolewright/base.h"\n',
    "include/bolewright/bolewright.h": '#include "bolewright/base.h"\n#include "bolewright/wood.h"\n',
    "src/base/arena.c": "#include <stdlib.h>\nvoid *bw_get(void)\n{\n    return malloc(1);\n}\n",
    "src/base/text.h": "int bwi_text(void);\n",
    "src/frame/band.c": '#include "bolewright/frame.h"\n#include <lapacke.h>\nint bw_two(void)\n'
                        "{\n    return LAPACKE_dpbtrf_work(1);\n}\n",
    "src/frame/rank.c": "int rank(void)\n" + BODY,
    "src/wood/log.c": '#include "bolewright/wood.h"\n#include "log.h"\n'
                      "int wood_log(void)\n" + BODY,
    "src/wood/log.h": "int wood_log(void);\n",
    "src/input/json.c": '#include "bolewright/frame.h"\n#include <cjson/cJSON.h>\nint json(void)\n'
                        "{\n    return cJSON_IsTrue(0);\n}\n",
}


def long_function(lines, name="long_one"):
    return f"static int {name}(int a)\n{{\n" + "    a++;\n" * (lines - 3) + "}\n"


def wide_function(n):
    return f"int wide({', '.join(f'int p{k}' for k in range(n))})\n{BODY}"


def worker(name, statements):
    return f"int {name}(int a)\n{{\n" + "".join(f"    a += {k};\n" for k in range(statements)) + "}\n"


MANY = "".join(long_function(16, f"f{k}").replace("a++", f"b{k}++") for k in range(9))
ENOUGH = TWIN // 5 + 1   # statements of five tokens

# rule, path, what is put there (None: the file is taken away)
FAULTY = [
    ("function_size", "src/wood/a.c", long_function(LINES + 1)),
    ("function_size", "include/bolewright/wood.h",
     "static inline " + long_function(LINES + 1)[7:]),
    ("parameters", "src/wood/a.c", wide_function(PARAMETERS + 1)),
    ("parameters", "src/wood/a.c", wide_function(PARAMETERS + 1).replace("int p2", "int (*p2)(int, int)")),
    ("median", "src/wood/a.c", MANY),
    ("layers", "src/wood/a.c", '#include "bolewright/frame.h"\n'),
    ("layers", "src/wood/a.c", '#  include  "bolewright/bolewright.h"\n'),
    ("layers", "include/bolewright/base.h", '#include "bolewright/wood.h"\n'),
    ("layers", "src/wood/a.c", '#include "../frame/private.h"\n'),
    ("layers", "src/wood/a.c", '#include "base/text.h"\n'),
    ("layers", "src/wood/deep/a.c", '#include "../../base/text.h"\n'),
    ("layers", "src/cellar/a.c", "int a(void)\n" + BODY),
    ("lapacke", "src/wood/a.c", "#include <lapacke.h>\n"),
    ("lapacke", "src/frame/solve.c", "int s(void)\n{\n    return LAPACKE_dpbtrs(1);\n}\n"),
    ("lapacke", "src/frame/solve.c", "int s(void)\n{\n    return dpbtrs_(1);\n}\n"),
    ("lapacke", "DEVELOPERS.md", "Nothing is said.\n"),
    ("cjson", "src/wood/a.c", "#include <cjson/cJSON.h>\n"),
    ("cjson", "src/wood/a.c", "int a(cJSON *x)\n" + BODY),
    ("allocation", "src/wood/a.c", "void *a(void)\n{\n    return calloc(1, 1);\n}\n"),
    ("allocation", "src/wood/a.c", "static void *(*get)(size_t) = malloc;\n"),
    ("allocation", "src/base/text.c", "void a(char *x)\n{\n    free(x);\n}\n"),
    ("comments", "include/bolewright/wood.h", "int bw_untold(void);\n"),
    ("comments", "include/bolewright/wood.h", "/* The last. */\nint bw_a(void);\n\nint bw_untold(\n    int a);\n"),
    ("comments", "include/bolewright/wood.h", "void bw_untold(const char *f, ...) BW_PRINTF(1, 2);\n"),
    ("columns", "src/wood/a.c", "/* " + "x" * 98 + " */\n"),
    ("top_level", "notes.txt", "hello\n"),
    ("top_level", "docs/index.md", "hello\n"),
    ("top_level", "LICENSE", None),
    ("twins", "src/wood/a.c", worker("a", ENOUGH) + worker("b", ENOUGH)),
]
NOT_FAULTY = [
    ("src/wood/a.c", long_function(LINES) + wide_function(PARAMETERS)),
    ("src/wood/a.c", "/* malloc(1); cJSON; LAPACKE_dgesv; #include \"bolewright/frame.h\" in words */\n"),
    ("src/wood/a.c", 'static const char a[] = "malloc(1) { LAPACKE cJSON \\" }";\n'
                     "int b(char c)\n{\n    return c == '{' || c == '\"';\n}\n"),
    ("src/wood/a.c", "#define OPEN {\nint b(void)\n" + BODY),
    ("src/input/json.h", '#include "bolewright/wood.h"\n'),
    ("include/bolewright/wood.h", "int bw_a(void); /* [m] */\n\n/* Two of a kind. */\n"
                                  "int bw_b(void);\nint bw_c(void);\n"),
    ("src/wood/a.c", "x" * 99 + ";\n"),
    ("build-gcc/notes.txt", "built\n"),
    ("src/wood/a.c", worker("a", ENOUGH - 3) + worker("b", ENOUGH - 3)),
]


def write(root, path, text):
    full = os.path.join(root, path)
    os.makedirs(os.path.dirname(full), exist_ok=True)
    if text is None:
        os.remove(full)
    else:
        with open(full, "w", encoding="utf-8") as file:
            file.write(text)


def blamed(path, text):
    """The rules that blame the sound tree with the snippet in it; path None: without."""
    with tempfile.TemporaryDirectory() as root:
        for name, sound in SOUND.items():
            write(root, name, sound)
        write(root, "src/frame/private.h", "")
        if path is not None:
            write(root, path, text)
        return {rule: faults for rule, faults in faults_of(root)[1].items() if faults}


def main():
    wrong = [f"the sound tree: {blamed(None, '')}"] if blamed(None, "") else []
    for rule, path, text in FAULTY:
        found = blamed(path, text)
        if set(found) != {rule} or not any(path.split("/")[0] in fault or rule == "median" or
                                           path == "DEVELOPERS.md" for fault in found[rule]):
            wrong.append(f"{rule} by {path}: {text!r} gives {found}")
    wrong += [f"no fault in {path}: {text!r} gives {blamed(path, text)}"
              for path, text in NOT_FAULTY if blamed(path, text)]
    untested = {rule.__name__ for rule in RULES} - {rule for rule, _, _ in FAULTY}
    wrong += [f"no snippet for the rule {rule}" for rule in sorted(untested)]
    print(f"{len(RULES)} rules, {len(FAULTY)} faulty snippets, {len(NOT_FAULTY)} sound ones, "
          f"{len(TOP_LEVEL)} entries at the top level")
    print("\n".join(wrong) if wrong else "every rule can fail")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
