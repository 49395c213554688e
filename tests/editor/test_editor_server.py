"""Does a language server, given our printed schema, offer the right keys and find fault at the right line?

Independent of us: the npm package yaml-language-server, spoken to by its protocol (LSP 3.17) as an editor does. Its way to any
network is closed and watched.
"""
import json
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from generator.record.schemas import write_schemas
from tests.conftest import DEMO
from tests.editor.client import Server
from tests.editor.node import SERVER, WITHOUT_NETWORK, node
from tests.schema_fields import SCHEMAS

JOB = (DEMO / "job.yaml").read_text(encoding="utf-8")
# The first line that the README names: it tells a server where the schema stands, seen from the file.
FIRST = "# yaml-language-server: $schema=schemas/job.schema.json\n"
SETTINGS = {"yaml": {"schemaStore": {"enable": False}, "validate": True, "hover": True, "completion": True}}


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """A language server with our schemas beside its files; ended at the latest when the test ends."""
    write_schemas(tmp_path / "schemas", SCHEMAS)
    with Server([node(), "--require", str(WITHOUT_NETWORK), str(SERVER), "--stdio"], SETTINGS, tmp_path) as running:
        yield running


@pytest.fixture
def opened(server: Server, tmp_path: Path) -> Callable[[str], Path]:
    """Opens the demo job with a change in the server, as an editor does; gives its path."""

    def write(text: str) -> Path:
        path = tmp_path / "job.yaml"
        path.write_text(FIRST + text, encoding="utf-8")
        server.open(path)
        return path

    return write


def line_of(path: Path, wanted: str) -> int:
    """The line that holds a text, counted from 0."""
    return next(number for number, line in enumerate(path.read_text(encoding="utf-8").splitlines()) if wanted in line)


def test_the_demo_has_no_fault_and_the_server_ends_when_asked(server, opened) -> None:
    assert server.diagnostics(opened(JOB)) == []
    assert server.close() == (0, "")


@pytest.mark.parametrize("old, new, says", [
    ("height_m: 2.2", "heigth_m: 2.2", "heigth_m"),
    ("entry_s: 30,", "entry_s: 700,", "600"),
    ('test_at: "03:30"', 'test_at: "3.30"', "Write hours and minutes, for example 03:30."),
    ("use_input_2: true", "use_input_2: yes", "boolean"),
])
def test_a_mistake_is_marked_in_its_line(server, opened, old: str, new: str, says: str) -> None:
    assert JOB.count(old) == 1
    path = opened(JOB.replace(old, new))
    found = server.diagnostics(path)
    assert [one["range"]["start"]["line"] for one in found] == [line_of(path, new)]
    assert says in found[0]["message"]
    assert server.close() == (0, "")


def test_the_keys_of_a_unit_are_offered_with_their_meaning(server, opened) -> None:
    path = opened(JOB.replace("users:\n", "  D9:\n    h\nusers:\n", 1))
    offered = {one["label"]: one for one in server.completions(path, line_of(path, "  D9:") + 1, 5)}
    assert set(SCHEMAS["job"]["$defs"]["Device"]["properties"]) <= set(offered)
    assert offered["height_m"]["insertText"] == "height_m: ${1:2.2}"
    assert offered["height_m"]["documentation"] == "Height above the floor. Unit: m."
    assert server.close() == (0, "")


def test_the_words_of_a_fixed_list_are_offered(server, opened) -> None:
    path = opened(JOB)
    offered = {one["label"] for one in server.completions(path, line_of(path, "role: entry-route"), 10)}
    assert set(filter(None, SCHEMAS["job"]["$defs"]["Device"]["properties"]["role"]["enum"])) <= offered
    assert server.close() == (0, "")


def test_a_key_is_explained_where_the_pointer_rests(server, opened) -> None:
    path = opened(JOB)
    assert "Height of the ceiling above its floor. Unit: m." in server.hover(path, line_of(path, "ceiling_m"), 8)
    assert server.close() == (0, "")


@pytest.mark.parametrize("host", ["packs.company.example", "127.0.0.1:9"])
def test_a_way_out_to_a_network_is_seen(server, tmp_path, host: str) -> None:
    """The watch itself: a schema that stands elsewhere is asked for, and the closed way is told."""
    path = tmp_path / "other.yaml"
    path.write_text(f"# yaml-language-server: $schema=https://{host}/x.json\na: 1\n", encoding="utf-8")
    server.open(path)
    assert "network" in json.dumps(server.diagnostics(path))
    assert "network: " in server.close()[1]
