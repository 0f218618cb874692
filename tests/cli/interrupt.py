"""Ctrl-C: a long run ends at once, says so with status 130, and leaves no file, not even half
of one; progress is shown on a terminal only."""
import os
import pathlib
import pty
import signal
import subprocess
import sys
import tempfile
import time


def interrupted(program, folder):
    run = subprocess.Popen([program, "card", "--all", "-o", "cards.html", "--csv", "cards.csv"],
                           cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    time.sleep(1.5)
    begun = time.monotonic()
    run.send_signal(signal.SIGINT)
    out, err = run.communicate(timeout=60)
    return run.returncode, out, err, time.monotonic() - begun


def on_terminal(program, folder):
    leader, follower = pty.openpty()
    run = subprocess.Popen([program, "card", "--all", "-q"], cwd=folder,
                           stdout=subprocess.DEVNULL, stderr=follower)
    time.sleep(2.0)
    shown = os.read(leader, 4096) # all that a terminal holds while nobody reads it
    run.send_signal(signal.SIGINT)
    status = run.wait(timeout=60)
    os.close(follower)
    os.close(leader)
    return status, shown


def main():
    program, faults = sys.argv[1], []
    with tempfile.TemporaryDirectory() as folder:
        status, out, err, took = interrupted(program, folder)
        if status != 130:
            faults.append("status %s" % status)
        if out or b"stopped before it was done" not in err or b"\r" in err:
            faults.append("said %r, %r" % (out, err))
        if list(pathlib.Path(folder).iterdir()):
            faults.append("left %s" % list(pathlib.Path(folder).iterdir()))
        if took > 20.0:
            faults.append("took %.1f s" % took)
        status, shown = on_terminal(program, folder)
        if status != 130 or b" of " not in shown or b"\r" not in shown:
            faults.append("on a terminal: %s, %r" % (status, shown))
        if len(shown) > 1500: # more in two seconds would soon wait for the terminal
            faults.append("too much shown: %d bytes" % len(shown))
    for fault in faults:
        print(fault)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
