"""What is written down of each rule, and the few changes that many cases make."""
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from tests.conftest import ROOT, Files, read_tree

Change = Callable[[Files], Any]


@dataclass(frozen=True)
class Said:
    """A change of the clean job and everything the rule then says: places, words, and the values compared.

    `do` are words that its advice must hold.
    """

    change: Change
    at: tuple[str, ...]
    says: tuple[str, ...]
    values: tuple[str, ...]
    do: str = ""


@dataclass(frozen=True)
class Cases:
    """A rule's cases: where it speaks, where it stays silent though nearly touched, where it cannot tell and why."""

    speaks: tuple[Said, ...]
    clear: tuple[Change, ...]
    unchecked: tuple[tuple[Change, str], ...] = ()


def put(*way: str, value: Any) -> Change:
    """The change that writes a value at a place; None takes the key out."""

    def change(files: Files) -> None:
        here = files
        for part in way[:-1]:
            here = here[part]
        if value is None:
            here.pop(way[-1], None)
        else:
            here[way[-1]] = value

    return change


def both(*changes: Change) -> Change:
    """Several changes as one."""

    def change(files: Files) -> None:
        for one in changes:
            one(files)

    return change


def text(device: str, value: str) -> Change:
    """Another text for a unit's first zone."""
    return put("job", "devices", device, "text", value=value)


def without_limit(name: str) -> Change:
    """The profile without one of its limits."""

    def change(files: Files) -> None:
        path = ROOT / "generator" / "profiles" / "en-grade-2.yaml"
        files["profiles"]["own"] = read_tree(path, path.name).data
        del files["profiles"]["own"]["limits"][name]
        files["job"]["profile"] = "own"

    return change


def clean(files: Files) -> None:
    """What the demo job lacks for every rule to be content."""
    files["job"]["control_unit"]["serial"] = "00F10C"
