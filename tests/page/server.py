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
    for change in ({"Host": "rebound.example"}, {"Origin": "http://evil.example"}, {"Sec-Fetch-Site": "cross-site"}):
        status, body, _ = ask(program.port, "POST", "/check", case, {**own(program.port), **change})
        assert status == 403 and b"verdict" not in body, (change, status)
    status, _, _ = ask(program.port, "POST", "/check", case, {**own(program.port), "Content-Type": "text/plain"})
    assert status == 415, status


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
    idle = [socket.create_connection(("127.0.0.1", program.port), timeout=20) for _ in range(60)]
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
    for test in (test_headers, test_loopback_only, test_strangers, test_bad_requests, test_large,
                 test_many_connections, test_gone_in_the_middle, test_port_taken):
        test(program)
        print("ok", test.__name__)
finally:
    status = program.stop()
assert status == 0 and program.errors == "", (status, program.errors)
for how in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
    test_stops(how)
print("ok test_stops")
