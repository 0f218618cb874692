"""webdriver.py - as much of the W3C WebDriver protocol as the page's tests need, over the
chromedriver of the distribution; standard library only."""
import base64
import http.client
import json
import os
import shutil
import signal
import socket
import subprocess
import tempfile
import time

ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # W3C WebDriver, 12.1
KEYS = {"enter": "\ue007", "tab": "\ue004", "right": "\ue014", "escape": "\ue00c",
        "control": "\ue009", "null": "\ue000", "left": "\ue012", "shift": "\ue008", "down": "\ue015",
        "home": "\ue011", "end": "\ue010", "delete": "\ue017"}


def free_port():
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return s.getsockname()[1]


def find(*names):
    return next((p for p in map(shutil.which, names) if p), None)


class Gone(Exception):
    """The driver answers with an error."""


class Browser:
    """A browser of its own with a fresh profile; close() ends all its processes."""

    def __init__(self, width=1280, height=900, dark=False):
        self.folder = tempfile.mkdtemp(prefix="bolewright-browser-")
        self.downloads = os.path.join(self.folder, "downloads")
        os.mkdir(self.downloads)
        self.port = free_port()
        self.driver = subprocess.Popen(
            [find("chromedriver"), f"--port={self.port}", "--allowed-ips=127.0.0.1"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True,
            env={**os.environ, "HOME": self.folder, "TMPDIR": self.folder})
        self.session = None
        try:
            self.wait_for_driver()
            self.open_session(width, height, dark)
        except BaseException:
            self.close()
            raise

    def wait_for_driver(self):
        for _ in range(300):
            try:
                if self.call("GET", "/status")["ready"]:
                    return
            except OSError:
                pass
            time.sleep(0.1)
        raise RuntimeError("chromedriver does not answer")

    def open_session(self, width, height, dark):
        arguments = ["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
                     "--disable-background-networking", "--disable-component-update", "--disable-sync",
                     "--disable-dev-shm-usage", "--disable-extensions", "--no-default-browser-check",
                     f"--user-data-dir={self.folder}/profile", f"--window-size={width},{height}"]
        if dark:
            arguments.append("--force-dark-mode")
            arguments.append("--blink-settings=preferredColorScheme=0")
        wanted = {"browserName": "chrome", "timeouts": {"pageLoad": 60000, "script": 60000}, "goog:chromeOptions": {
            "binary": find("chromium", "chromium-browser"), "args": arguments,
            "prefs": {"download.default_directory": self.downloads, "download.prompt_for_download": False}}}
        made = self.call("POST", "/session", {"capabilities": {"alwaysMatch": wanted}}, 120)
        self.session = "/session/" + made["sessionId"]

    def call(self, method, path, body=None, timeout=90):
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=timeout)
        try:
            text = None if method != "POST" else json.dumps(body or {})
            connection.request(method, path, text, {"Content-Type": "application/json"})
            answer = connection.getresponse()
            value = json.loads(answer.read())["value"]
        finally:
            connection.close()
        if answer.status != 200:
            raise Gone(f"{value.get('error')}: {value.get('message', '').splitlines()[0]}")
        return value

    def do(self, method, path, body=None):
        return self.call(method, self.session + path, body)

    def go(self, address):
        self.do("POST", "/url", {"url": address})

    def reload(self):
        self.do("POST", "/refresh")

    def run(self, script, *arguments):
        return self.do("POST", "/execute/sync", {"script": script, "args": list(arguments)})

    def element(self, css):
        return self.do("POST", "/element", {"using": "css selector", "value": css})[ELEMENT]

    def click(self, css):
        element = self.element(css)
        self.run("document.querySelector(arguments[0]).scrollIntoView({block: 'center'})", css)
        self.do("POST", f"/element/{element}/click")

    def type(self, css, text):
        """Adds to what stands in the field."""
        self.do("POST", f"/element/{self.element(css)}/value", {"text": text})

    def write(self, css, text):
        """In place of what stands in the field."""
        element = self.element(css)
        self.run("const e = document.querySelector(arguments[0]); e.scrollIntoView({block: 'center'}); e.focus(); e.select();", css)
        self.do("POST", f"/element/{element}/value", {"text": text})

    def keys(self, *names):
        actions = []
        for name in names:
            key = KEYS.get(name, name)
            actions += [{"type": "keyDown", "value": key}, {"type": "keyUp", "value": key}]
        self.do("POST", "/actions", {"actions": [{"type": "key", "id": "keys", "actions": actions}]})

    def held(self, modifier, name):
        """A key with another held down: "control" and "a"."""
        held, key = KEYS[modifier], KEYS.get(name, name)
        self.do("POST", "/actions", {"actions": [{"type": "key", "id": "keys", "actions": [
            {"type": "keyDown", "value": held}, {"type": "keyDown", "value": key},
            {"type": "keyUp", "value": key}, {"type": "keyUp", "value": held}]}]})

    def cdp(self, command, **parameters):
        """What WebDriver has no word for, of the browser's own protocol."""
        return self.do("POST", "/goog/cdp/execute", {"cmd": command, "params": parameters})

    def heard(self):
        """What a screen reader is given, in its order: (role, name, description, properties)."""
        nodes = self.cdp("Accessibility.getFullAXTree")["nodes"]
        by_id, out = {n["nodeId"]: n for n in nodes}, []

        def walk(node):
            if not node["ignored"]:
                out.append((node["role"]["value"], node.get("name", {}).get("value", ""), node.get("description", {}).get("value", ""),
                            {p["name"]: p["value"].get("value") for p in node.get("properties", [])}))
            for child in node.get("childIds", []):
                if child in by_id:
                    walk(by_id[child])
        walk(nodes[0])
        return out

    def text(self, css):
        return self.run("return document.querySelector(arguments[0])?.textContent ?? null", css)

    def until(self, what, script, *arguments, seconds=120):
        """The first value of the script that counts as true."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            value = self.run(script, *arguments)
            if value:
                return value
            time.sleep(0.05)
        raise AssertionError(f"waited {seconds} s in vain for: {what}")

    def picture(self, path):
        with open(path, "wb") as f:
            f.write(base64.b64decode(self.do("GET", "/screenshot")))

    def downloaded(self, ending, seconds=120):
        """The text of the newest finished download of that ending, which is then removed."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            for name in sorted(os.listdir(self.downloads)):
                if name.endswith(ending):
                    path = os.path.join(self.downloads, name)
                    with open(path, encoding="utf-8") as f:
                        text = f.read()
                    os.remove(path)
                    return name, text
            time.sleep(0.1)
        raise AssertionError(f"no download *{ending} after {seconds} s")

    def close(self):
        try:
            if self.session:
                self.call("DELETE", self.session, timeout=20)
        except (OSError, Gone, ValueError):
            pass
        try:
            os.killpg(self.driver.pid, signal.SIGKILL)  # the group that this browser began
        except ProcessLookupError:
            pass
        self.driver.wait()
        shutil.rmtree(self.folder, ignore_errors=True)


class Program:
    """bolewright page on a free port; stop() ends it as Ctrl-C does and returns its status."""

    def __init__(self, binary, *arguments, port=0):
        self.process = subprocess.Popen([binary, "page", *arguments, "--port", str(port)], stdout=subprocess.PIPE,
                                        stderr=subprocess.PIPE, text=True)
        line = self.process.stdout.readline()
        if "http://" not in line:
            raise RuntimeError("the page did not start: " + line + self.process.stderr.read())
        self.address = line[line.index("http://"):].split()[0]
        self.port = int(self.address.rsplit(":", 1)[1].strip("/"))

    def stop(self, how=signal.SIGINT):
        if self.process.poll() is None:
            self.process.send_signal(how)
        try:
            status = self.process.wait(timeout=60)
        except subprocess.TimeoutExpired:
            self.process.kill()
            status = self.process.wait()
        self.errors = self.process.stderr.read()
        self.process.stdout.close()
        self.process.stderr.close()
        return status
