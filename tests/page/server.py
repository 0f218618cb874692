"""server.py BOLEWRIGHT CASES - the server as a stranger meets it: over a socket, with requests
that no browser sends. After each of them the page must still answer."""
import json
import os
import signal
import socket
import subprocess
import sys
import time
from http.client import HTTPConnection

sys.path.insert(0, os.path.dirname(__file__))
from webdriver import Program

binary, cases = sys.argv[1:3]
case = open(os.path.join(cases, "alder-loop.json"), "rb").read()


def own(port):
    return {"Host": f"127.0.0.1:{port}", "Origin": f"http://127.0.0.1:{port}", "Content-Type": "application/json"}


def ask(port, method, path, body=None, headers=None, timeout=120):
    connection = HTTPConnection("127.0.0.1", port, timeout=timeout)
    try:
        connection.request(method, path, body, own(port) if headers is None else headers)
        answer = connection.getresponse()
        return answer.status, answer.read(), dict(answer.getheaders())
    finally:
        connection.close()


def send(port, text, seconds=8):
    """What comes back before the connection ends, or as much as came in that time."""
    with socket.create_connection(("127.0.0.1", port), timeout=seconds) as s:
        got = b""
        try:
            s.sendall(text)
            s.shutdown(socket.SHUT_WR)
            while True:
                piece = s.recv(65536)
                if not piece:
                    return got
                got += piece
        except OSError:
            return got


def lives(program):
    assert program.process.poll() is None, "the program ended: " + program.process.stderr.read()
    status, body, _ = ask(program.port, "GET", "/start")
    assert status == 200 and json.loads(body)["version"], (status, body[:200])


def test_headers(program):
    for method, path, body in (("GET", "/", None), ("POST", "/check", case), ("GET", "/nothing", None)):
        _, _, headers = ask(program.port, method, path, body)
        policy = headers["Content-Security-Policy"]
        assert "default-src 'none'" in policy and "unsafe" not in policy and "script-src 'self'" in policy, policy
        assert headers["X-Content-Type-Options"] == "nosniff" and headers["Cache-Control"] == "no-store", headers
        assert "Access-Control-Allow-Origin" not in headers, headers


def test_loopback_only(program):
    # /proc/net/tcp: address in hexadecimal, 0100007F is 127.0.0.1; state 0A listens
    rows = [line.split() for line in open("/proc/net/tcp")] + [line.split() for line in open("/proc/net/tcp6")]
    listening = [r[1] for r in rows[1:] if len(r) > 3 and r[3] == "0A" and r[1].endswith(f":{program.port:04X}")]
    assert listening == [f"0100007F:{program.port:04X}"], listening


def test_strangers(program):
    at = f":{program.port}"
    hosts = ["rebound.example", "rebound.example" + at, "127.0.0.1.rebound.example" + at, "127.0.0.1" + at + ".rebound.example", "user@127.0.0.1" + at,
             "127.0.0.1", "127.1" + at, "0.0.0.0" + at, "2130706433" + at, "[::1]" + at, "localhost." + at, "127.0.0.1:0" + at[1:], "127.0.0.1:1", ""]
    origins = ["null", "http://evil.example", "https://127.0.0.1" + at, "http://127.0.0.1", "http://127.0.0.1" + at + "/", "http://127.0.0.1" + at + ".evil.example",
               "http://127.0.0.1" + at + " http://evil.example", "file://", ""]
    changes = [{"Host": h} for h in hosts] + [{"Origin": o} for o in origins] + [{"Sec-Fetch-Site": f} for f in ("cross-site", "same-site", "none", "")]
    for change in changes:
        status, body, _ = ask(program.port, "POST", "/check", case, {**own(program.port), **change})
        assert status == 403 and b"verdict" not in body, (change, status)
    for host in hosts:
        assert ask(program.port, "GET", "/start", None, {"Host": host})[0] == 403, host
    status, _, _ = ask(program.port, "POST", "/check", case, {**own(program.port), "Content-Type": "text/plain"})
    assert status == 415, status


def test_said_twice(program):
    """Which of two hosts, origins, types or lengths counts would be a matter of taste: none."""
    port, end = program.port, b"\r\n\r\n"
    for name, one, other in (("Host", f"127.0.0.1:{port}", "rebound.example"), ("Origin", f"http://127.0.0.1:{port}", "http://evil.example"),
                             ("Content-Type", "application/json", "text/plain"), ("Sec-Fetch-Site", "same-origin", "cross-site")):
        for first, second in ((one, other), (other, one), (one, one)):
            heads = {**own(port), "Content-Length": str(len(case)), "Connection": "close", name: f"{first}\r\n{name}: {second}"}
            got = send(port, b"POST /check HTTP/1.1\r\n" + "\r\n".join(f"{k}: {v}" for k, v in heads.items()).encode() + end + case)
            assert got.startswith(b"HTTP/1.1 400 ") and b"verdict" not in got, (name, first, second, got[:60])
    both = {**own(port), "Content-Length": "3", "Transfer-Encoding": "chunked", "Connection": "close"}
    got = send(port, b"POST /check HTTP/1.1\r\n" + "\r\n".join(f"{k}: {v}" for k, v in both.items()).encode() + end + b"2\r\n{}\r\n0\r\n\r\n")
    assert got == b"" or got.startswith(b"HTTP/1.1 400 "), got[:60]
    for plain in (b"GET / HTTP/1.0\r\n\r\n", b"GET http://evil.example/ HTTP/1.1\r\nConnection: close\r\n\r\n"):
        assert send(port, plain).startswith(b"HTTP/1.1 403 "), plain


def test_bad_requests(program):
    port = program.port
    host = f"Host: 127.0.0.1:{port}\r\n".encode()
    post = b"POST /check HTTP/1.1\r\n" + host + f"Origin: http://127.0.0.1:{port}\r\nContent-Type: application/json\r\n".encode()
    requests = [
        b"", b"\r\n\r\n", b"\x00" * 3000, b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03", b"GET\r\n\r\n",
        b"GET / HTTP/1.1\r\n\r\n", b"GET / HTTP/9.9\r\n" + host + b"\r\n", b"HELLO\n" * 500,
        b"GET /" + b"a" * 200000 + b" HTTP/1.1\r\n" + host + b"\r\n",
        b"GET /../../../etc/passwd HTTP/1.1\r\n" + host + b"\r\n",
        b"GET /%2e%2e/%2e%2e/etc/passwd HTTP/1.1\r\n" + host + b"\r\n",
        b"GET /page.js%00.html HTTP/1.1\r\n" + host + b"\r\n",
        b"GET / HTTP/1.1\r\n" + host + b"X: " + b"b" * 300000 + b"\r\n\r\n",
        b"GET /steps?" + b"text=1&" * 9000 + b" HTTP/1.1\r\n" + host + b"\r\n",
        post + b"Content-Length: -1\r\n\r\n{}", post + b"Content-Length: 99999999999999999999\r\n\r\n{}",
        post + b"Content-Length: 50\r\n\r\n{}", post + b"Content-Length: 2\r\nContent-Length: 7\r\n\r\n{}",
        post + b"Transfer-Encoding: chunked\r\n\r\nzz\r\n{}\r\n", post + b"Transfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n",
        post + b"Content-Length: 9\r\nExpect: 100-continue\r\n\r\n{\"a\x00b\":1}",
        post + b"Content-Length: 4\r\n\r\n\xff\xfe\xfd\xfc",
    ]
    for request in requests:
        got = send(port, request)
        assert b"root:" not in got, request[:80]
        lives(program)


def test_large(program):
    port = program.port
    status, _, _ = ask(port, "POST", "/check", b" " * ((1 << 20) + 1))
    assert status == 413, status
    try:  # larger still: cut off, whatever it announces
        status, _, _ = ask(port, "POST", "/check", b" " * (8 << 20))
        assert status == 413, status
    except OSError:
        pass
    lives(program)
    status, body, _ = ask(port, "POST", "/check", b"[" * 500000)
    assert status == 200 and json.loads(body)["result"] is None, status
    lives(program)


def test_many_connections(program):
    """A hundred that say nothing, half a head or half a body keep nobody waiting."""
    head = ("POST /check HTTP/1.1\r\n" + "".join(f"{k}: {v}\r\n" for k, v in own(program.port).items())).encode()
    parts = (b"", b"GE", head, head + b"Content-Length: 5000\r\n\r\n{")
    idle = [socket.create_connection(("127.0.0.1", program.port), timeout=20) for _ in range(100)]
    for k, s in enumerate(idle):
        s.sendall(parts[k % len(parts)])
    for _ in range(3):
        status, body, _ = ask(program.port, "POST", "/check", case, timeout=60)
        assert status == 200 and json.loads(body)["result"]["verdict"] == "within limits", status
        for s in idle[2::4]:
            s.sendall(b"X: y\r\n")  # slowly on
    for s in idle:
        s.close()
    lives(program)
    idle = [socket.create_connection(("127.0.0.1", program.port), timeout=20) for _ in range(400)]  # more than it takes
    time.sleep(0.3)
    for s in idle:
        s.close()
    for _ in range(100):
        try:
            lives(program)
            return
        except OSError:
            time.sleep(0.1)
    raise AssertionError("after many idle connections there is no answer")


def long_case():
    """A deck of 300 bays: its check takes seconds."""
    deck, bays = json.loads(case), 300
    deck["bents"] = [{"name": f"B{k}", "at": f"{5 * k} ft"} for k in range(bays + 1)]
    deck["stringers"] = [{"name": f"{row[0]}{k}", "row": row, "log": "long log", "from": f"B{k}", "to": f"B{k + 1}"}
                         for row in ("uphill", "downhill") for k in range(bays)]
    return json.dumps(deck).encode()


def begin_checks(program, count):
    """Connections on which a long check has been asked for."""
    body = long_case()
    head = "POST /check HTTP/1.1\r\n" + "".join(f"{k}: {v}\r\n" for k, v in own(program.port).items()) + f"Content-Length: {len(body)}\r\n\r\n"
    out = []
    for _ in range(count):
        s = socket.create_connection(("127.0.0.1", program.port), timeout=60)
        s.sendall(head.encode() + body)
        out.append(s)
    time.sleep(0.5)
    for s in out:
        s.setblocking(False)
        try:
            raise AssertionError(f"the check was no long one: {s.recv(300)}")
        except BlockingIOError:
            pass
    return out


def test_abandoned(program):
    """Long checks that nobody waits for any more do not hold up those behind them: what has not begun is not done."""
    processors = max(2, os.cpu_count() or 2)
    checks = begin_checks(program, processors + 30)
    assert ask(program.port, "GET", "/start", timeout=10)[0] == 200  # words and files do not wait
    for s in checks:
        s.close()
    began = time.monotonic()
    status, _, _ = ask(program.port, "POST", "/check", case, timeout=300)
    waited = time.monotonic() - began
    began = time.monotonic()
    one = begin_checks(program, 1)[0]
    one.setblocking(True)
    one.settimeout(300)
    assert one.recv(12) == b"HTTP/1.1 200"
    alone = time.monotonic() - began
    one.close()
    # those that had begun, two of them on each processor at worst; thirty more would take much longer
    assert status == 200 and waited < 6 * alone, (waited, alone)


def test_stops_in_a_check():
    program = Program(binary)
    checks = begin_checks(program, 5)
    began = time.monotonic()
    assert program.stop() == 0 and program.errors == "", program.errors
    assert time.monotonic() - began < 8, time.monotonic() - began
    for s in checks:
        s.close()


def test_gone_in_the_middle(program):
    head = ("POST /check HTTP/1.1\r\n" + "".join(f"{k}: {v}\r\n" for k, v in own(program.port).items())
            + f"Content-Length: {len(case)}\r\n\r\n").encode()
    for length in (0, 10, len(case)):
        with socket.create_connection(("127.0.0.1", program.port), timeout=20) as s:
            s.sendall(head + case[:length])
    lives(program)


def test_port_taken(program):
    second = subprocess.run([binary, "page", "--port", str(program.port)], capture_output=True, text=True, timeout=60)
    assert second.returncode == 5 and "another program uses the port" in second.stderr, second
    lives(program)


def test_stops(how):
    program = Program(binary, os.path.join(cases, "alder-loop.json"))
    lives(program)
    open_one = socket.create_connection(("127.0.0.1", program.port), timeout=20)
    began = time.monotonic()
    status = program.stop(how)
    open_one.close()
    assert status == 0 and program.errors == "", (how, status, program.errors)
    assert time.monotonic() - began < 30
    again = Program(binary, port=program.port)  # the port is free at once
    lives(again)
    assert again.stop() == 0


program = Program(binary)
try:
    lives(program)
    for test in (test_headers, test_loopback_only, test_strangers, test_said_twice, test_bad_requests, test_large,
                 test_many_connections, test_gone_in_the_middle, test_abandoned, test_port_taken):
        test(program)
        print("ok", test.__name__)
finally:
    status = program.stop()
assert status == 0 and program.errors == "", (status, program.errors)
for how in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
    test_stops(how)
test_stops_in_a_check()
print("ok test_stops")
