"""A small client of the Language Server Protocol 3.17 (base protocol, section "Header part"): JSON-RPC 2.0 over a program's pipes.

It answers what a server asks of an editor, keeps what the server tells, and ends the program in the end, whatever happened.
"""
import json
import queue
import subprocess
import threading
from pathlib import Path
from typing import Any

PATIENCE_S = 60


class Server:
    """A running language server. `settings`: what an editor answers when the server asks for its configuration."""

    def __init__(self, command: list[str], settings: dict[str, Any], folder: Path):
        self.settings = settings
        self.asked: list[str] = []
        self._number = 0
        self._heard: queue.Queue[dict[str, Any]] = queue.Queue()
        self._told: list[dict[str, Any]] = []
        self._errors = (folder / "errors.txt").open("w+", encoding="utf-8")
        self._program = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=self._errors, cwd=folder)
        threading.Thread(target=self._listen, daemon=True).start()
        self.request("initialize", {"processId": None, "rootUri": folder.as_uri(), "capabilities": {
            "workspace": {"configuration": True}, "textDocument": {"completion": {}, "publishDiagnostics": {}}}})
        self.notify("initialized", {})

    def __enter__(self) -> "Server":
        return self

    def __exit__(self, *_: object) -> None:
        if self._program.poll() is None:
            self._program.kill()
        self._program.wait(PATIENCE_S)

    def open(self, path: Path) -> None:
        """Opens a file as an editor does."""
        self.notify("textDocument/didOpen", {"textDocument": {
            "uri": path.as_uri(), "languageId": "yaml", "version": 1, "text": path.read_text(encoding="utf-8")}})

    def diagnostics(self, path: Path) -> list[dict[str, Any]]:
        """What the server says against an open file."""
        told = self._wait(lambda one: one.get("method") == "textDocument/publishDiagnostics"
                          and one["params"]["uri"] == path.as_uri())
        return told["params"]["diagnostics"]

    def completions(self, path: Path, line: int, character: int) -> list[dict[str, Any]]:
        """What the server offers at a place; line and character count from 0, as in the protocol."""
        found = self.request("textDocument/completion", {"textDocument": {"uri": path.as_uri()},
                                                         "position": {"line": line, "character": character}})
        return found["items"] if isinstance(found, dict) else found

    def hover(self, path: Path, line: int, character: int) -> str:
        """What the server tells of the word at a place."""
        found = self.request("textDocument/hover", {"textDocument": {"uri": path.as_uri()},
                                                    "position": {"line": line, "character": character}})
        return found["contents"]["value"]

    def close(self) -> tuple[int, str]:
        """Ends the server as the protocol asks; gives its exit code and what it wrote to its error output."""
        self.request("shutdown", None)
        self.notify("exit", None)
        code = self._program.wait(PATIENCE_S)
        self._errors.seek(0)
        return code, self._errors.read()

    def request(self, method: str, params: Any) -> Any:
        """Asks, and waits for the answer."""
        self._number += 1
        number = self._number
        self._send({"id": number, "method": method, "params": params})
        answer = self._wait(lambda one: one.get("id") == number and "method" not in one)
        assert "error" not in answer, answer
        return answer["result"]

    def notify(self, method: str, params: Any) -> None:
        """Tells, without an answer."""
        self._send({"method": method, "params": params})

    def _wait(self, wanted: Any) -> dict[str, Any]:
        """The first message that is wanted, an earlier one too."""
        while not (found := next((one for one in self._told if wanted(one)), None)):
            self._take(self._heard.get(timeout=PATIENCE_S))
        self._told.remove(found)
        return found

    def _take(self, message: dict[str, Any]) -> None:
        """Keeps a message; what the server asks is answered at once, configuration from the settings, the rest with nothing."""
        if "id" in message and "method" in message:
            self.asked.append(message["method"])
            items = message["params"].get("items", ()) if message["method"] == "workspace/configuration" else None
            result = None if items is None else [self.settings.get(one.get("section")) for one in items]
            self._send({"id": message["id"], "result": result})
        else:
            self._told.append(message)

    def _send(self, message: dict[str, Any]) -> None:
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        assert self._program.stdin
        self._program.stdin.write(b"Content-Length: %d\r\n\r\n" % len(body) + body)
        self._program.stdin.flush()

    def _listen(self) -> None:
        out = self._program.stdout
        assert out
        while header := out.readline():
            size = int(header.removeprefix(b"Content-Length:"))
            while out.readline().strip():
                pass
            self._heard.put(json.loads(out.read(size)))
