"""What is written down of each rule, and the few changes that many cases make."""
import copy
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
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


@lru_cache(maxsize=1)
def _profiles() -> dict[str, Any]:
    """The European profile with the limits that only the others have, so that there is no rule that cannot be asked."""
    parts = [read_tree(path, path.name).data for path in (ROOT / "generator" / "profiles" / f"{name}.yaml" for name in PROFILES)]
    return parts[-1] | {key: {name: one for part in parts for name, one in part[key].items()} for key in ("documents", "limits")}


# Those that come first are overruled by those that follow.
PROFILES = ("na-practice", "uk-grade-2", "en-grade-2")


def whole_profile() -> dict[str, Any]:
    """A copy of the profile with every limit that there is, to be changed freely."""
    return copy.deepcopy(_profiles())


def whole(files: Files) -> None:
    """The job is held against every limit that there is."""
    files["profiles"]["own"] = whole_profile()
    files["job"]["profile"] = "own"


def without_limit(name: str) -> Change:
    """The profile without one of its limits."""

    def change(files: Files) -> None:
        if "own" not in files["profiles"]:
            whole(files)
        del files["profiles"]["own"]["limits"][name]

    return change


def with_limit(name: str, value: str) -> Change:
    """The profile with another number for one of its limits."""

    def change(files: Files) -> None:
        whole(files)
        files["profiles"]["own"]["limits"][name]["value"] = value

    return change


def lacking(*names: str) -> tuple[tuple[Change, str], ...]:
    """For each limit the case in which the profile lacks it."""
    return tuple((without_limit(name), f"the profile has no limit {name}") for name in names)


def clean(files: Files) -> None:
    """What the demo job lacks for every rule to be asked and to be content."""
    whole(files)
    job = files["job"]
    job["control_unit"]["serial"] = "00F10C"
    job["devices"]["D3"]["protects_2"] = "kitchen-window"
    job["times"]["report_delay_s"] = "30"
    # Signed on 17 August, it could be cancelled for 14 days.
    job["agreement"]["work_on"] = "2026-09-01"
    job["survey"] = {"on": "2026-08-10", "by": "surveyor", "assumptions": {"pets": {"assumed": "an old dog"}}}
    job["household"] = {"language": "en"}
    job["handover"] = {"authority_changed": "true", "changed_on": "2026-09-14", "changed_by": "installer"}
    job["monitoring"]["permits"] = {"police": {"covers": "intruder", "by": "police of the county", "since": "2026-09-07"}}
    if files["people"]:
        for one in files["people"]["keyholders"].values():
            one |= {"lives_here": "false", "arrives_min": "15"}
