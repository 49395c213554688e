"""What is different between two revisions of a job, and what must be sent again because of it?

Two revisions are compared by their rows and hashes; nothing else of the earlier one is known any more.
"""
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.model.issued import HeldNumber, Revision
from generator.terms.audience import Audience

ADDED, CHANGED, REMOVED = "added", "changed", "removed"
# What is compared of a number that both revisions hold.
COMPARED = ("text", "serial", "sheet", "input", "device")


@dataclass(frozen=True)
class Difference:
    """One thing that is another: its name, what it was and what it is now; "" where there is or was none."""

    name: str
    before: str
    now: str


@dataclass(frozen=True)
class NumberChange:
    """What became of one number: `state` is added, changed or removed; `device` is "" where no unit has the number."""

    state: str
    list: str
    number: int
    device: str
    text: str
    differences: tuple[Difference, ...] = ()


@dataclass(frozen=True)
class Sent:
    """Pages, labels or lines by their keys: those that are new, those that say something else, those that are gone."""

    added: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()

    @property
    def again(self) -> tuple[str, ...]:
        """Those to be sent: new or changed."""
        return (*self.added, *self.changed)


@dataclass(frozen=True)
class Changes:
    """Every difference from an earlier revision. `links` are the readers whose codes lead elsewhere: all their labels are old."""

    numbers: tuple[NumberChange, ...]
    pages: Mapping[Audience, Sent]
    labels: Mapping[Audience, Sent]
    links: tuple[Audience, ...]
    zones: Sent
    partitions: Sent
    users: Sent


def changes(before: Revision, now: Revision) -> Changes:
    """Every difference between two revisions."""
    with_labels = (Audience.INSTALLER, Audience.HOMEOWNER)
    return Changes(
        tuple(_numbers(before, now)),
        {one: _sent(getattr(before.pages, one), getattr(now.pages, one)) for one in Audience},
        {one: _sent(getattr(before.labels, one), getattr(now.labels, one)) for one in with_labels},
        tuple(one for one in with_labels if getattr(before.links, one) != getattr(now.links, one)),
        _sent(before.station_lines.zones, now.station_lines.zones),
        _sent(before.station_lines.partitions, now.station_lines.partitions),
        _sent(before.station_lines.users, now.station_lines.users))


def _sent(before: Mapping[str | int, str], now: Mapping[str | int, str]) -> Sent:
    """Two groups of hashes compared, in the order of the later one."""
    return Sent(tuple(str(key) for key in now if key not in before),
                tuple(str(key) for key in now if key in before and before[key] != now[key]),
                tuple(str(key) for key in before if key not in now))


def _numbers(before: Revision, now: Revision) -> Iterator[NumberChange]:
    was = {(row.list, row.number): row for row in before.map}
    for row in now.map:
        earlier = was.pop((row.list, row.number), None)
        if earlier is None:
            yield _change(ADDED, row)
        elif earlier.hash != row.hash:
            yield _change(CHANGED, row, tuple(_differences(earlier, row)))
    yield from (_change(REMOVED, row) for row in was.values())


def _change(state: str, row: HeldNumber, differences: tuple[Difference, ...] = ()) -> NumberChange:
    return NumberChange(state, row.list, row.number, row.device or "", row.text or "", differences)


def _differences(before: HeldNumber, now: HeldNumber) -> Iterator[Difference]:
    for name in COMPARED:
        was, stands = getattr(before, name) or "", getattr(now, name) or ""
        if was != stands:
            yield Difference(name, was, stands)
