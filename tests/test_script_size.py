"""Is what runs on the phone small and our own? 30 KB of script in all, before any compression, is what a cheap phone reads in no time."""
from pathlib import Path

import pytest

from generator.publish.hand import DATA, PARTS, SCRIPT, script
from generator.publish.phone import WORKER, worker_script

# Kilobytes as a phone counts them, of 1,024 bytes.
MOST_BYTES = 30 * 1024
# Scripts of the theme lie in a folder of their own; the one beside ours stands in for a worker where files are opened from a disk.
THEMES = ("assets/", "search/", "iframe-worker.js")


def size(*scripts: str) -> int:
    return sum(len(one.encode()) for one in scripts)


def test_what_runs_on_the_phone_is_thirty_kilobytes_at_most() -> None:
    parts = {path.name: size(path.read_text(encoding="utf-8")) for path in sorted(PARTS.rglob("*.js"))}
    assert size(script(), worker_script()) <= MOST_BYTES, f"hand.js {size(script())}, the worker {size(worker_script())}; with comments: {parts}"


def test_a_pack_holds_no_script_but_that_its_data_and_the_themes(every_demo: Path) -> None:
    folder = every_demo / "K-2050" / "installer"
    scripts = {path.relative_to(folder).as_posix() for path in folder.rglob("*.js")}
    assert {one for one in scripts if not one.startswith(THEMES)} == {SCRIPT, DATA, WORKER}
    assert (folder / SCRIPT).read_text(encoding="utf-8") == script()
    assert (folder / WORKER).read_text(encoding="utf-8").endswith("};\n" + worker_script())


@pytest.mark.parametrize("trace", ["import ", "require(", "eval(", "innerHTML", "XMLHttpRequest", "http://", "https://"])
def test_our_script_fetches_no_other_and_runs_no_text(trace: str) -> None:
    assert trace not in script() + worker_script()
