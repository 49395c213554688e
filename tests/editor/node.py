"""Programs for node that judge our files and schemas: a YAML 1.2 parser and a language server, both from their own lock file."""
import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
SERVER = HERE / "node_modules" / "yaml-language-server" / "bin" / "yaml-language-server"
WITHOUT_NETWORK = HERE / "no_network.cjs"


def node() -> str:
    """The program node. Where it is missing a test fails; it is never skipped."""
    found = shutil.which("node")
    assert found and SERVER.is_file(), "node or its packages are not there; `make test` installs them"
    return found


def ask(question: dict[str, Any]) -> Any:
    """The answer of ask.mjs."""
    done = subprocess.run([node(), HERE / "ask.mjs"], input=json.dumps(question), capture_output=True, text=True, encoding="utf-8",
                          timeout=120)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)
