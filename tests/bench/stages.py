"""Where does the time of our build go? Run as `stages.py BEGUN JOB OUT`; BEGUN is the clock at the process's start."""
import time

running = time.perf_counter()

import contextlib
import io
import json
import sys
from collections import defaultdict
from collections.abc import Callable, Iterator
from functools import wraps
from typing import Any

from generator import cli, pipeline
from generator.cli import jobs
from generator.publish import pack, plugin, render, site

imported = time.perf_counter()

REST = "command line and what is not named here"
STAGES = ("start of Python", "imports", "read the files", "compute and judge", "what each reader sees, fingerprints",
          "words of leaks", "views", "render to HTML", "QR codes",
          "installer: MkDocs settings", "installer: MkDocs", "homeowner: MkDocs settings", "homeowner: MkDocs",
          "record: MkDocs settings", "record: MkDocs", "station: files", "search for leaks", "manifest and swap", REST)


class Clock:
    """Time by stage. What runs in a stage of its own is not counted in the stage around it."""

    def __init__(self, stage: str) -> None:
        self.spent: dict[str, float] = defaultdict(float)
        self.open = [stage]
        self.last = time.perf_counter()

    def turn(self) -> None:
        """Books the time since the last turn on the innermost stage."""
        now = time.perf_counter()
        self.spent[self.open[-1]] += now - self.last
        self.last = now

    @contextlib.contextmanager
    def stage(self, name: str) -> Iterator[None]:
        """A stretch of time that is booked on its own."""
        self.turn()
        self.open.append(name)
        try:
            yield
        finally:
            self.turn()
            self.open.pop()

    def watch(self, place: Any, name: str, label: str | Callable[..., str]) -> None:
        """Puts the clock round a function, under the name by which its caller knows it."""
        inner = getattr(place, name)

        @wraps(inner)
        def outer(*given: Any, **named: Any) -> Any:
            with self.stage(label if isinstance(label, str) else label(*given)):
                out = inner(*given, **named)
                return list(out) if isinstance(out, Iterator) else out

        setattr(place, name, outer)


def watch_all(clock: Clock) -> None:
    """Puts the clock round every stage of the build."""
    for place, name, label in (
        (jobs, "compile_job", "what each reader sees, fingerprints"),
        (pipeline, "read_job", "read the files"),
        (pipeline, "compute", "compute and judge"),
        (pipeline, "judge", "compute and judge"),
        (pack, "looked_for", "words of leaks"),
        (pack, "own_wording", "words of leaks"),
        (pack, "pack_of", "views"),
        (pack, "write_pack", "manifest and swap"),
        (pack, "write_site", _site),
        (pack, "search", "search for leaks"),
        (site, "load_config", lambda *_: f"{clock.open[-1]} settings"),
        (site, "render", "render to HTML"),
        (plugin, "render", "render to HTML"),
        (render, "qr_svg", "QR codes"),
    ):
        clock.watch(place, name, label)


def _site(pack: Any, *_: Any) -> str:
    return f"{pack.audience.value}: {'files' if pack.audience.value == 'station' else 'MkDocs'}"


def main(begun: float, job: str, out: str) -> dict[str, float]:
    """Builds a job; gives the seconds of each stage in the order of the build."""
    clock = Clock(REST)
    clock.spent |= {"start of Python": running - begun, "imports": imported - running}
    watch_all(clock)
    with contextlib.redirect_stdout(io.StringIO()):
        code = cli.main(["build", job, "--out", out])
    clock.turn()
    if code > cli.STOPPED:
        raise SystemExit(f"{job} could not be built, exit code {code}")
    return {stage: clock.spent[stage] for stage in STAGES}


if __name__ == "__main__":
    seconds = main(float(sys.argv[1]), *sys.argv[2:])
    print(json.dumps({"stages": seconds, "until": time.perf_counter()}))
