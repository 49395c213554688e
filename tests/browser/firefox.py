"""Debian's Firefox, told what to do over its own remote protocol: a socket, lengths and JSON. It is run as people run it: what the protocol
would change of its settings (among them that local files share nothing less than they do for people) is switched off."""
import json
import os
import shutil
import signal
import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

SETTINGS: dict[str, Any] = {
    "remote.prefs.recommended": False, "browser.shell.checkDefaultBrowser": False, "datareporting.policy.dataSubmissionEnabled": False,
    "app.update.enabled": False, "browser.startup.homepage_override.mstone": "ignore", "browser.startup.page": 0,
}
PATIENCE = 60


class Firefox:
    """One running Firefox with one window."""

    def __init__(self, port: int) -> None:
        self.socket = _connected(port)
        self.read, self.asked = b"", 0
        self._answer()
        self._call("WebDriver:NewSession", {"capabilities": {"alwaysMatch": {}}})

    def open(self, address: str) -> None:
        self._call("WebDriver:Navigate", {"url": address})

    def private(self) -> None:
        """Goes on in a private window."""
        handle = self._call("WebDriver:NewWindow", {"type": "window", "private": True})["handle"]
        self._call("WebDriver:SwitchToWindow", {"handle": handle})

    def ask(self, block: str) -> Any:
        """What a block of script gives back in the page. A promise is waited for."""
        script = ("const done = arguments[0];"
                  f"(async () => {block})().then(one => done([one]), error => done(['failed: ' + error]));")
        return self._call("WebDriver:ExecuteAsyncScript", {"script": script, "args": []})["value"][0]

    def _call(self, name: str, parameters: dict[str, Any]) -> Any:
        self.asked += 1
        message = json.dumps([0, self.asked, name, parameters]).encode()
        self.socket.sendall(str(len(message)).encode() + b":" + message)
        _, _, error, result = self._answer()
        assert error is None, f"{name}: {error['message']}"
        return result

    def _answer(self) -> Any:
        while b":" not in self.read:
            self._more()
        length, _, self.read = self.read.partition(b":")
        while len(self.read) < int(length):
            self._more()
        answer, self.read = self.read[:int(length)], self.read[int(length):]
        return json.loads(answer)

    def _more(self) -> None:
        part = self.socket.recv(65536)
        assert part, "Firefox ended"
        self.read += part


def _connected(port: int) -> socket.socket:
    until = time.monotonic() + PATIENCE
    while True:
        try:
            return socket.create_connection(("127.0.0.1", port), timeout=PATIENCE)
        except OSError:
            assert time.monotonic() < until, "Firefox does not listen"
            time.sleep(0.05)


@contextmanager
def firefox(folder: Path, **settings: Any) -> Iterator[Firefox]:
    """A Firefox with a new profile in a folder; dots in names of settings are written as two underscores."""
    program = shutil.which("firefox-esr")
    assert program, "the program firefox-esr is not there; tests/browser/install.sh installs it"
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    every = {**SETTINGS, "marionette.port": port, **{name.replace("__", "."): value for name, value in settings.items()}}
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "user.js").write_text("".join(f"user_pref({json.dumps(name)}, {json.dumps(value)});\n" for name, value in every.items()))
    process = subprocess.Popen([program, "--headless", "--no-remote", "--marionette", "--profile", str(folder)],
                               stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
    try:
        yield Firefox(port)
    finally:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()
