"""What is asked of each list of the control unit?"""
from collections.abc import Iterable, Iterator, Mapping

from generator.calc.slots.law import Demand, Kind, Task, Unit
from generator.calc.slots.order import units_of, user_order, zone_order
from generator.calc.slots.starts import starts_of, with_starts
from generator.model.job import Device
from generator.model.lists import length_of, list_of, takes
from generator.model.papers import Papers


def zone_task(papers: Papers) -> Task:
    """The zones, in the blocks of the profile. A block starts where the profile says, or goes on behind its frozen units."""
    blocks, unit = papers.profile.blocks, papers.sheet_of[papers.job.control_unit.id]
    rank = {one.name: index for index, one in enumerate(blocks)}
    units = [_unit(papers, one, "zones", rank[block]) for one, block in zone_order(papers).items()]
    length = length_of(unit, "zones")
    task = Task("zones", length, tuple(units), tuple(_demands(papers, "zones", units)), spare=tuple(one.spare for one in blocks))
    return with_starts(task, starts_of(blocks, length))


def slot_task(papers: Papers, zone: Mapping[str, int]) -> Task:
    """The slots where slot and zone are not one number: in the order of the zones, as far as these are known."""
    return _plain(papers, "slots", sorted(units_of(papers, "slots"), key=lambda one: zone.get(one, 0)))


def list_task(papers: Papers, kind: str) -> Task:
    """Keypads, sounders, fobs, tags or repeaters: in walking order, fobs and tags in the order of their users."""
    return _plain(papers, kind, user_order(papers, kind) if kind in ("fobs", "tags") else units_of(papers, kind))


def wired_task(papers: Papers) -> Task:
    """The control unit's own wired circuits: one for each zone of a unit that takes no slot. They are only counted."""
    devices = papers.job.devices
    wired = [one for one in zone_order(papers) if list_of(papers.sheet_of[one]) == "zones" and not papers.sheet_of[one].slots]
    units = [_unit(papers, one, "zones", 0) for one in wired]
    asked = [one for one in _demands(papers, "zones", units) if one.kind in (Kind.UNIT, Kind.SECOND) and one.unit in devices]
    return Task("wired inputs", papers.sheet_of[papers.job.control_unit.id].control_unit.lists.wired_inputs, tuple(units),
                tuple(asked))


def _plain(papers: Papers, kind: str, names: Iterable[str]) -> Task:
    units = [_unit(papers, one, kind, 0) for one in names]
    length = length_of(papers.sheet_of[papers.job.control_unit.id], kind)
    return Task(kind, length, tuple(units), tuple(_demands(papers, kind, units)))


def _unit(papers: Papers, name: str, kind: str, block: int) -> Unit:
    device = papers.job.devices[name]
    least = _count(papers, name, device.model_copy(update={"use_input_2": False}), kind)
    return Unit(name, least, _count(papers, name, device, kind) - least, block)


def _count(papers: Papers, name: str, device: Device, kind: str) -> int:
    unit = papers.sheet_of[papers.job.control_unit.id].control_unit
    return takes(device, papers.sheet_of[name], unit).get(kind, 0)


def _demands(papers: Papers, kind: str, units: list[Unit]) -> Iterator[Demand]:
    for unit in units:
        yield Demand(Kind.UNIT, unit.name, field=f"job.devices.{unit.name}")
        if unit.extra:
            yield Demand(Kind.SECOND, unit.name, field=f"job.devices.{unit.name}.use_input_2")
    own = [unit.name for unit in units if list_of(papers.sheet_of[unit.name]) == kind]
    yield from _given(papers, kind, own, [unit.name for unit in units])
    yield from _free(papers, kind)
    yield from _neighbours(papers, own)


def _given(papers: Papers, kind: str, own: list[str], every: list[str]) -> Iterator[Demand]:
    """Numbers of their own: pinned in the job file, or had before. `number` speaks of a unit's own list."""
    for name in own:
        device = papers.job.devices[name]
        if device.number is not None:
            yield Demand(Kind.PIN, name, first=device.number, why=device.number_why or "", field=f"job.devices.{name}.number")
    before = papers.frozen.numbers.get(kind, {})
    for name in every:
        if name in before:
            yield Demand(Kind.FROZEN, name, first=before[name], why=papers.frozen.since)


def _free(papers: Papers, kind: str) -> Iterator[Demand]:
    for index, one in enumerate(papers.job.reserved):
        if one.list == kind:
            yield Demand(Kind.KEPT, first=one.first, last=one.end, why=one.why, field=f"job.reserved.{index}.first")
    for resting in papers.frozen.resting:
        if resting.list == kind:
            yield Demand(Kind.RESTING, first=resting.number, last=resting.number, why=resting.why)


def _neighbours(papers: Papers, own: list[str]) -> Iterator[Demand]:
    """Each wish once, whichever of the two says it."""
    seen = set()
    for name in own:
        other = papers.job.devices[name].next_to
        if other in own and frozenset((name, other)) not in seen:
            seen.add(frozenset((name, other)))
            yield Demand(Kind.NEIGHBOURS, name, other, field=f"job.devices.{name}.next_to")
