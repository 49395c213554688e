"""What must be done to a file of an earlier format? Steps declared as data; they are taken in the order in which they stand.

A way is the keys from the top of the file (of the sheet, if it stands inside a job) with points between; `*` is any name that
the writer chose, or any line of a list.
"""
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

Way = tuple[str | int, ...]


@dataclass(frozen=True)
class Rename:
    """A key gets another name and stays where it is."""

    way: str
    to: str


@dataclass(frozen=True)
class Move:
    """A key goes to the end of another group, with all that stands under it; the group is made if it is not there.

    Each `*` of the group is the name that stands for the `*` of the same turn in the way. A group left empty stays, as `{}`,
    for its name may be the writer's own; `Drop` takes it out.
    """

    way: str
    group: str

    def __post_init__(self) -> None:
        if f"{self.group}.".startswith(f"{self.way}."):
            raise ValueError(f"{self.way} cannot be moved into itself")


@dataclass(frozen=True)
class Convert:
    """A number, or each of a list, gets another unit: its key the name that ends in that unit, its value `times` as much."""

    way: str
    to: str
    times: Fraction


@dataclass(frozen=True)
class Drop:
    """A group that earlier steps have emptied goes; one that holds something is answered."""

    way: str


Step = Rename | Move | Convert | Drop
Table = Mapping[tuple[str, int], tuple[Step, ...]]

# By kind of file and by the format that it comes from: the steps that make it the next format.
MIGRATIONS: dict[tuple[str, int], tuple[Step, ...]] = {}


def parts(way: str) -> tuple[str, ...]:
    """The keys of a way; none for the top."""
    return tuple(way.split(".")) if way else ()


def places(data: Any, way: str) -> Iterator[Way]:
    """Every place of a file's data that a way means, in the order in which they stand."""
    yield from _places(data, parts(way), ())


def _places(data: Any, left: tuple[str, ...], here: Way) -> Iterator[Way]:
    if not left:
        yield here
    elif left[0] == "*":
        named = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
        for name, inner in named:
            yield from _places(inner, left[1:], (*here, name))
    elif isinstance(data, dict) and left[0] in data:
        yield from _places(data[left[0]], left[1:], (*here, left[0]))


def filled(group: str, way: str, place: Way) -> Way:
    """The group that a moved key goes to, each `*` filled with the name that stands in the place it comes from."""
    names = iter([name for name, part in zip(place, parts(way)) if part == "*"])
    return tuple(next(names) if part == "*" else part for part in parts(group))
