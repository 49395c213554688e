"""Is our build as cheap as MkDocs alone? Ours, plain, the limit, a second pack in turn, in one run; only ratios count.

Then what the radio of a house costs against its pages, how it grows, and what a block of flats takes. Run by `make bench`. Exit code 1 when
a figure is past a bound, 0 otherwise; aims that are not reached are named.
"""
import argparse
import json
import shutil
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median

from measured import JOB, LARGE, REFERENCE, SECOND, packs_of, shared_payloads, write_second
from plain import WORKERS, build_sites, differing, write_sources
from process import Failed, run

HERE = Path(__file__).resolve().parent
ROUNDS = 7
MANIFEST = "manifest-sha256.txt"


@dataclass(frozen=True)
class Aim:
    """A figure we aim at, and the bound past which the bench fails, if there is one."""

    says: str
    aim: float
    bound: float | None = None
    unit: str = "x"


AIMS = {
    "cold": Aim("cold build against plain MkDocs", 1.0, 1.5),
    "second": Aim("second pack in the same process against plain MkDocs", 0.4, 0.8),
    "limit": Aim("cold build against bare Jinja, both with start and imports", 10),
    "bare": Aim("first pack against bare Jinja, both without start and imports", 10),
    "memory": Aim("peak memory of the cold build", 150, unit="MiB"),
    "numbers": Aim("numbers of 500 units with pins, ranges and neighbours", 1, unit="s"),
    "links": Aim("links of the large demo and their rules against ten of its pages", 0.5, 1),
    "radio": Aim("the same with all that is searched against all pages of its installer", 0.5, 1),
    "block": Aim("peak memory of a block of 40 flats, from its files to the receivers of its 1,000 units", 250, 500, "MiB"),
    "product": Aim("links grow with devices x receivers x walls by the power of", 1, 1.2, ""),
    "devices": Aim("links grow with devices by the power of", 1.1, 1.3, ""),
    "receivers": Aim("links grow with receivers by the power of", 1.1, 1.3, ""),
    "walls": Aim("links grow with walls by the power of", 1, 1.2, ""),
    "searches": Aim("what is searched grows with devices x receivers x walls by the power of", 1, 1.3, ""),
    "plan": Aim("reading, checking and working out a plan grow with its rooms by the power of", 1.1, 1.4, ""),
    "assignment": Aim("finding receivers grows with units by the power of", 1.2, 1.6, ""),
}


@dataclass
class Times:
    """Seconds of every round, by what was measured; the round is the place in the list."""

    of: dict[str, list[float]] = field(default_factory=dict)
    stages: dict[str, float] = field(default_factory=dict)

    def add(self, name: str, seconds: float) -> None:
        """One more round's time."""
        self.of.setdefault(name, []).append(seconds)

    def ratios(self, one: str, other: str) -> list[float]:
        """One time against another of the same round, by round."""
        return [a / b for a, b in zip(self.of[one], self.of[other], strict=True)]

    def add_stages(self, seconds: dict[str, float]) -> None:
        """One more round's times by stage."""
        for stage, spent in seconds.items():
            self.stages[stage] = self.stages.get(stage, 0.0) + spent


def verdict(figures: dict[str, float]) -> tuple[list[str], int]:
    """A line for each figure, and the exit code: 1 if one is past its bound."""
    lines, code = [], 0
    for name, one in AIMS.items():
        figure = figures[name]
        if one.bound is not None and figure > one.bound:
            word, code = f"TOO MUCH, the bound is {one.bound:g} {one.unit}", 1
        else:
            word = "reached" if figure <= one.aim else "NOT REACHED"
        lines.append(f"{one.says}: {figure:.2f} {one.unit}, aim {one.aim:g} {one.unit}: {word}")
    return lines, code


def stage_table(stages: dict[str, float], rounds: int) -> list[str]:
    """The stages as lines, with milliseconds a round and percent."""
    whole = sum(stages.values())
    return [f"{stage:<45}{1000 * spent / rounds:8.0f} ms{100 * spent / whole:7.1f} %"
            for stage, spent in stages.items()]


class Bench:
    """The sources of a run in a folder of its own, and one method for each thing that is measured."""

    def __init__(self, work: Path) -> None:
        self.work = work
        self.second_job = write_second(work / "jobs")
        packs = packs_of(JOB)
        if shared := shared_payloads(packs, packs_of(self.second_job)):
            raise Failed(f"both jobs have QR codes of {sorted(shared)}; the second pack would be too cheap")
        self.packs = packs
        self.sources = write_sources(packs, work / "plain")

    def fresh(self, name: str) -> Path:
        """A folder that does not exist yet."""
        shutil.rmtree(self.work / name, ignore_errors=True)
        return self.work / name

    def build_command(self, out: Path) -> list[str]:
        """The command that builds the demo job."""
        return [sys.executable, "-m", "generator", "build", str(JOB), "--out", str(out)]

    def ours(self, times: Times) -> None:
        """A: our build of the demo job in a fresh process."""
        out = self.fresh("ours")
        took, _ = run(self.build_command(out), good=(0, 1))
        _must_be(out / REFERENCE / MANIFEST)
        times.add("ours", took)

    def plain(self, times: Times) -> None:
        """B: MkDocs alone, a fresh process a site."""
        out = self.fresh("sites")
        begun = time.perf_counter()
        build_sites(self.sources, out)
        times.add("plain", time.perf_counter() - begun)

    def limit(self, times: Times) -> None:
        """C: bare Jinja in a fresh process; making the views is in neither of its times."""
        took, printed = run([sys.executable, str(HERE / "limit.py"), str(self.fresh("limit"))])
        seconds = json.loads(printed)
        times.add("limit", took - seconds["views"])
        times.add("bare", seconds["render"])

    def second(self, times: Times) -> None:
        """D: two packs in one process."""
        out = self.fresh("two")
        _, printed = run([sys.executable, str(HERE / "second.py"), str(JOB), str(self.second_job), str(out)])
        _must_be(out / SECOND / MANIFEST)
        for name, seconds in json.loads(printed).items():
            times.add(name, seconds)

    def staged(self, times: Times) -> None:
        """F: our build again, with a clock round each stage."""
        # The system's clock of one start of the machine: both processes read the same.
        begun = time.perf_counter()
        took, printed = run([sys.executable, str(HERE / "stages.py"), str(begun), str(JOB), str(self.fresh("staged"))])
        inside = json.loads(printed)
        times.add("staged", took)
        times.add_stages(inside["stages"] | {"end of Python": begun + took - inside["until"]})

    def memory(self) -> float:
        """E: the peak of our build's memory in MiB."""
        command = self.build_command(self.fresh("ours"))
        _, printed = run([sys.executable, str(HERE / "memory.py"), *command], good=(0, 1))
        return float(printed)

    def numbers(self) -> float:
        """G: the numbers of 500 units in seconds, in a process of its own."""
        return float(run([sys.executable, str(HERE / "many_units.py")])[1])

    def radio(self) -> dict[str, float]:
        """H: links, rules and searches of the large demo against its pages, in a process of its own."""
        return json.loads(run([sys.executable, str(HERE / "radio.py"), "demo", str(LARGE)])[1])

    def block(self) -> dict[str, float]:
        """I: a block of 40 flats: what it holds, its seconds, and the peak of its memory in MiB."""
        folder = self.fresh("block")
        folder.mkdir()
        _, printed = run([sys.executable, str(HERE / "memory.py"), sys.executable, str(HERE / "radio.py"), "block", str(folder)])
        return json.loads((folder / "block.json").read_text(encoding="utf-8")) | {"block": float(printed)}

    def growth(self) -> dict[str, float]:
        """J: the exponents of growth."""
        return json.loads(run([sys.executable, str(HERE / "radio.py"), "growth", str(self.fresh("growth"))])[1])

    def compare(self) -> int:
        """How many pages plain and ours both hold; raises Failed if one is not the same."""
        compared, other = differing(self.packs, self.work / "ours" / REFERENCE, self.work / "sites")
        if other:
            raise Failed(f"plain does not hold the same as ours in {', '.join(other)}")
        return compared

    def measure(self, rounds: int) -> Times:
        """Everything in turn, round after round."""
        times = Times()
        for _ in range(rounds):
            for step in (self.ours, self.plain, self.limit, self.second, self.staged):
                step(times)
        return times


def _must_be(file: Path) -> None:
    if not file.is_file():
        raise Failed(f"{file.parent.name} was not built")


def figures_of(times: Times, apart: dict[str, float]) -> dict[str, float]:
    """The figures that have an aim; `apart` are those that were not measured in rounds."""
    return {
        "cold": median(times.ratios("ours", "plain")),
        "second": median(times.ratios("second", "plain")),
        "limit": median(times.ratios("ours", "limit")),
        "bare": median(times.ratios("first", "bare")),
        **{name: apart[name] for name in AIMS if name in apart},
    }


def block_lines(block: dict[str, float]) -> list[str]:
    """What the block holds and how long it took."""
    return [f"The block: {block['units']:g} units, {block['walls']:g} walls, {block['receivers']:g} receivers; read in {block['intake']:.2f} s, "
            f"links in {block['links']:.2f} s, receivers of all units in {block['assigned']:.2f} s."]


def report(times: Times, figures: dict[str, float], rounds: int, say: Callable[[str], None] = print, more: Sequence[str] = ()) -> int:
    """Prints what was measured, `more` lines among it; gives the exit code."""
    say(f"\nSeconds of {rounds} rounds in turn, {WORKERS} at a time (these tell nothing beyond this run):")
    for name, seconds in times.of.items():
        say(f"{name:<8}median {median(seconds):6.3f}   from {min(seconds):6.3f} to {max(seconds):6.3f}")
    for line in more:
        say(line)
    say("\nWhere the time of our build goes:")
    for line in stage_table(times.stages, rounds):
        say(line)
    say("\nRatios are medians of the rounds' own ratios:")
    lines, code = verdict(figures)
    for line in lines:
        say(line)
    if any(not line.endswith(": reached") for line in lines):
        most = sorted(times.stages, key=times.stages.__getitem__, reverse=True)[:5]
        say(f"Most of the time goes to: {', '.join(most)}.")
    return code


def main() -> int:
    """One whole run."""
    given = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    given.add_argument("--rounds", type=int, default=ROUNDS, help=f"how many rounds ({ROUNDS})")
    rounds = given.parse_args().rounds
    with tempfile.TemporaryDirectory() as work:
        try:
            bench = Bench(Path(work))
            # A round before the clock runs: compiled modules and the disk's cache are there for all alike.
            bench.measure(1)
            print(f"Plain and ours hold the same in all {bench.compare()} pages.")
            times = bench.measure(rounds)
            block = bench.block()
            apart = {"memory": bench.memory(), "numbers": bench.numbers()} | bench.radio() | bench.growth() | {"block": block["block"]}
        except Failed as failed:
            print(f"bench: {failed}", file=sys.stderr)
            return 1
    return report(times, figures_of(times, apart), rounds, more=block_lines(block))


if __name__ == "__main__":
    raise SystemExit(main())
