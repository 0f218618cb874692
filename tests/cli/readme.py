#!/usr/bin/env python3
"""Every command that the README shows of the program works as it is written, in the order in
which it is written, in a folder with nothing but the cases. A name in capitals stands for a
file of the reader's own: that command is asked for its help.

usage: readme.py BOLEWRIGHT SOURCE
"""
import os
import re
import shlex
import shutil
import signal
import subprocess
import sys
import tempfile

WORKS = {"inspect": (0, 1)}  # its example finds a post that must be replaced; all others: 0


def commands(text):
    """In blocks of commands a line each, comments taken off; within the text in backticks."""
    blocks = re.findall(r"^```\n(.*?)^```$", text, re.S | re.M)
    prose = re.sub(r"^```\n.*?^```$", "", text, flags=re.S | re.M)
    lines = [line for block in blocks for line in block.split("\n")]
    lines += re.findall(r"`((?:build/)?bolewright [^`]+)`", prose)
    return [["build/bolewright", *shlex.split(line, comments=True)[1:]] for line in lines
            if re.match("(build/)?bolewright ", line)]


def page(words, folder):
    """Serves until it is interrupted; says at once where. Port 0: any free one."""
    server = subprocess.Popen(words + ["--port", "0"], cwd=folder, stdout=subprocess.PIPE,
                              stderr=subprocess.PIPE, text=True)
    first = server.stdout.readline()
    server.send_signal(signal.SIGINT)
    faults = server.communicate(timeout=30)[1]
    return "http://127.0.0.1" in first or "libmicrohttpd" in faults


def works(words, folder):
    if any(re.fullmatch(r"[A-Z]+\.(json|csv)", word) for word in words):
        words = words[:2] + ["--help"]
    if words[1] == "page":
        return page(words, folder)
    run = subprocess.run(words, cwd=folder, capture_output=True, text=True, input="\n" * 300)
    if run.returncode not in WORKS.get(words[1], (0,)):
        print(run.stderr)
        return False
    return True


def main(program, source):
    with open(os.path.join(source, "README.md"), encoding="utf-8") as file:
        shown = commands(file.read())
    with tempfile.TemporaryDirectory() as folder:
        os.mkdir(os.path.join(folder, "build"))
        os.symlink(os.path.abspath(program), os.path.join(folder, "build", "bolewright"))
        shutil.copytree(os.path.join(source, "cases"), os.path.join(folder, "cases"))
        faulty = [words for words in shown if not works(words, folder)]
    for words in faulty:
        print("does not work as written:", shlex.join(words))
    print(f"{len(shown)} commands of the README, {len(faulty)} do not work")
    return 1 if faulty or len(shown) < 10 else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
