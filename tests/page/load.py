"""load.py BOLEWRIGHT CASES - 1,000 checks by 8 clients at once: none lost, every answer that of its
case, memory flat."""
import json
import os
import sys
import threading
import time
from http.client import HTTPConnection

sys.path.insert(0, os.path.dirname(__file__))
from webdriver import Program

CHECKS, CLIENTS = 1000, 8
binary, cases = sys.argv[1:3]
sanitized = b"__asan_init" in open(binary, "rb").read()
checks = CHECKS // 10 if sanitized else CHECKS  # its bookkeeping grows, and it is slow
# seven of eight checks are of a small deck, so that a slow machine is done in a minute
names = ["alder-loop.json"] + 3 * ["osier-stilts.json"] + ["alder-loop-thin-stringer.json"] + 11 * ["osier-stilts.json"]
texts = [open(os.path.join(cases, n), "rb").read() for n in names]


def resident(pid):
    """KiB of memory in use (/proc/PID/status)."""
    for line in open(f"/proc/{pid}/status"):
        if line.startswith("VmRSS"):
            return int(line.split()[1])
    raise AssertionError("no VmRSS")


def check(connection, port, text):
    connection.request("POST", "/check", text, {"Host": f"127.0.0.1:{port}", "Origin": f"http://127.0.0.1:{port}",
                                                "Content-Type": "application/json"})
    answer = connection.getresponse()
    body = answer.read()
    assert answer.status == 200, (answer.status, body[:200])
    return body


class Client(threading.Thread):
    def __init__(self, number, count, wanted, port):
        super().__init__()
        self.number, self.count, self.wanted, self.port = number, count, wanted, port
        self.times, self.fault = [], None

    def run(self):
        try:
            connection = HTTPConnection("127.0.0.1", self.port, timeout=300)
            for k in range(self.count):
                which = (self.number + k) % len(texts)
                began = time.monotonic()
                body = check(connection, self.port, texts[which])
                self.times.append(time.monotonic() - began)
                assert body == self.wanted[which], f"another answer for {names[which]}"
            connection.close()
        except Exception as fault:  # told by the main thread
            self.fault = fault


program = Program(binary)
try:
    connection = HTTPConnection("127.0.0.1", program.port, timeout=300)
    wanted = [check(connection, program.port, text) for text in texts]
    assert {json.loads(w)["result"]["verdict"] for w in wanted} >= {"within limits", "over"}
    rounds, marks, times = 4, [], []
    began = time.monotonic()
    for _ in range(rounds):
        clients = [Client(n, checks // rounds // CLIENTS + (1 if n < checks // rounds % CLIENTS else 0), wanted,
                          program.port) for n in range(CLIENTS)]
        for c in clients:
            c.start()
        for c in clients:
            c.join()
        faults = [repr(c.fault) for c in clients if c.fault]
        assert not faults, faults
        times += [t for c in clients for t in c.times]
        marks.append(resident(program.process.pid))
    took = time.monotonic() - began
    assert len(times) == checks // rounds * rounds, len(times)
    times.sort()
    print(f"{len(times)} checks by {CLIENTS} clients in {took:.1f} s, none lost; median {1000 * times[len(times) // 2]:.0f} ms, "
          f"slowest {1000 * times[-1]:.0f} ms; memory after each quarter {marks} KiB")
    # the first quarter fills the pools of the allocator, one per thread; then nothing may grow
    assert sanitized or marks[-1] < marks[0] + 8 * 1024, marks
finally:
    status = program.stop()
assert status == 0 and program.errors == "", (status, program.errors)
