"""The as-fitted schedule: each unit as planned, and beside it room for what was fitted and why it is different."""
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.cable import Cable
from generator.model.equipment import Sheet
from generator.model.papers import Papers
from generator.pages.page import Page, Stamp
from generator.pages.paper import ON_THE_DAY, Cell, Entry, Line, Section, Table, given, table
from generator.pages.parts import place_of, units_of
from generator.pages.record.document import document, has_categories, signatures
from generator.pages.record.places import APPLIES_NOT, NO_PLACE, attributes, coverage, numbers_of, part_sets, sounders_run
from generator.pages.station.parts import PATHS, category
from generator.terms.show import amount, capital, count, day, metres, number, sentence_list

COLUMNS = ("Planned", "Fitted", "Reason for any difference, who agreed, when")
REASONS = "Reasons: radio, building, the customer's wish, stock, safety, a mistake in the plan. A line without a reason is no record."
AS_PLANNED = "As planned. Nothing here says that it was fitted: the second column is written on the day."
ON_PAPER = "A phone shows no room to write: write on the printed sheet."
WHO = ("Fitted by", "Day", "Photographs, by their names")
NOT_PLANNED = ("Batch or date code on the plate", "Firmware, if the unit shows it", "Radio reading at fitting, with the scale", "Date on the cell")


@dataclass(frozen=True)
class Planned:
    """One thing of a unit: what was planned, or why it is not known yet."""

    name: str
    value: str
    blank: str = ""


def schedule_page(papers: Papers, results: Results, stamp: Stamp) -> Page:
    """The schedule."""
    sections = (Section("how", "How to fill it in", f"{AS_PLANNED} {REASONS} {ON_PAPER}"),
                *(_unit(papers, results, name) for name in units_of(papers)),
                _system(papers, results), *_users(results), *_kept(results), *_cables(papers), *_note(papers), _drawing(),
                signatures("Fitted by", "Checked by"))
    return document("schedule.html", "As-fitted schedule", "What was planned, beside what was fitted.", papers, stamp, sections)


def in_schedule(short: str) -> str:
    """Where a unit stands in the schedule, by its short reference."""
    return f"schedule.html#unit-{short.lower()}"


def _unit(papers: Papers, results: Results, name: str) -> Section:
    rows = [*_rows(papers, results, name), *(Planned(one, "", ON_THE_DAY) for one in (*NOT_PLANNED, *WHO) if _asked(papers, name, one))]
    return Section(f"unit-{results.references[name].lower()}", f"{name} · {papers.sheet_of[name].name}",
                   table=_table(f"{name}: planned and fitted", rows))


def _asked(papers: Papers, name: str, what: str) -> bool:
    """Whether a thing can be read of a unit: one without radio has no reading, one without a cell no date on it."""
    sheet = papers.sheet_of[name]
    if what == NOT_PLANNED[2]:
        return bool(sheet.radio)
    return sheet.power.kind in ("cell", "mains") if what == NOT_PLANNED[3] else True


def _table(caption: str, rows: list[Planned]) -> Table:
    return Table(caption, "What", COLUMNS, tuple(Line(one.name, (Cell(COLUMNS[0], one.value, one.blank), Cell(COLUMNS[1], ""), Cell(COLUMNS[2], "")))
                                                 for one in rows), to_write=True)


def _plan(name: str, value: str | None, ask: str = "the company") -> Planned:
    one = given(name, value, ask)
    return Planned(one.name, one.value, one.blank)


def _read(name: str, value: str, how: str) -> Planned:
    """What nobody need be asked for: it is read or measured."""
    return Planned(name, value, "" if value else f"not known yet: {how}")


def _rows(papers: Papers, results: Results, name: str) -> Iterator[Planned]:
    own = name == papers.job.control_unit.id
    place = papers.job.control_unit if own else papers.job.devices[name]
    sheet = papers.sheet_of[name]
    carried = not own and not papers.room_of(place)
    yield Planned("Reference", results.references[name])
    yield Planned("Number and text", numbers_of(results, name) or (APPLIES_NOT if own else "none, see what was checked"))
    yield from (Planned(f"Why {row.list.removesuffix('s')} {row.zone or row.number}", row.why) for row in results.slots.of(name))
    yield Planned("Kind", sheet.kind.replace("-", " "))
    yield _read("Serial", place.serial or "", "read it on the plate")
    yield Planned("Place", place_of(papers, name) or NO_PLACE)
    if not carried:
        yield _plan("Position", place.position)
        yield _plan("Height", metres(place.height_m) if place.height_m is not None else "")
    if place.at_m:
        yield Planned("In the plan", f"{' by '.join(number(one, 2) for one in place.at_m)} m{_faces(place)}")
    yield _plan("Environmental class", _climate(sheet), "whoever keeps the equipment sheets")
    yield Planned("Takes in", coverage(papers, name)) if coverage(papers, name) else Planned("Takes in", "",
                                                                                             "not given yet: ask whoever keeps the equipment sheets")
    yield Planned("Lives on", _power(papers, name))
    if own:
        return
    partition = papers.partition_of(place)
    yield Planned("What its zone does", attributes(papers, name))
    yield Planned("Part sets", part_sets(papers, name))
    yield Planned("Partition", f"{partition} {papers.partitions()[partition]}")
    if place.via:
        yield Planned("Heard through", place.via)
    if place.replace_by:
        yield Planned("To be replaced by", day(place.replace_by))
    if place.called:
        yield Planned("Called by the people of the house", place.called)
    if place.note:
        yield Planned("Note", place.note)


def _faces(place) -> str:
    turned = getattr(place, "faces_deg", None)
    return "" if turned is None else f", looking {amount(turned, '°')} clockwise from straight away from the front"


def _climate(sheet: Sheet) -> str:
    """The class a unit is made for, and its temperatures."""
    climate = sheet.environment
    if climate is None or not climate.environmental_class:
        return ""
    ends = [amount(one, "°C") for one in (climate.least_c, climate.most_c) if one is not None]
    return f"{climate.environmental_class}{', ' + ' to '.join(ends) if ends else ''}"


def _power(papers: Papers, name: str) -> str:
    power = papers.sheet_of[name].power
    if power.kind == "none":
        return "the reader's field"
    cells = f"{count(power.cells, 'cell')} {power.cell}" if power.cells and power.cell else power.cell or ""
    return {"cell": cells or "a cell", "mains": f"house power, standby battery {power.cell}" if power.cell else "house power with a standby battery",
            "wired": "a supply from elsewhere"}[power.kind]


def _system(papers: Papers, results: Results) -> Section:
    job, own = papers.job, papers.job.control_unit
    times, agreed = job.times, job.monitoring
    users = sum(row.list == "users" for row in results.slots.rows)
    fobs = sum(papers.sheet_of[name].kind in ("fob", "tag") for name in job.devices)
    rows = [
        _plan("Standby battery", amount(own.battery_ah, "Ah") if own.battery_ah is not None else ""),
        _read("Date on the standby battery", day(own.battery_on) if own.battery_on else "", "read it on the battery"),
        *(_read(f"Current {when}", "", "measure it") for when in ("at rest", "in alarm")),
        Planned("Entry time", amount(times.entry_s, "s")), Planned("Exit time", amount(times.exit_s, "s")),
        Planned("Outside sounders run", sounders_run(papers)),
        Planned("Users, fobs and tags", f"{count(users, 'user')}, {count(fobs, 'fob or tag', 'fobs and tags')}"),
        *_monitored(papers),
    ]
    return Section("system", "The system as a whole", "The account stands on the monitoring sheet; here it is known by the job's reference.",
                   table=_table("System: planned and fitted", rows))


def _users(results: Results) -> tuple[Section, ...]:
    rows = [Planned(f"User {row.number}", row.text) for row in results.slots.rows if row.list == "users"]
    return (Section("users", "Users", "Roles, no names and no codes.", table=_table("Users: planned and fitted", rows)),) if rows else ()


def _kept(results: Results) -> tuple[Section, ...]:
    rows = [(f"{capital(one.list)} {one.first}{f' to {one.last}' if one.last > one.first else ''}", one.why) for one in results.slots.kept]
    return (Section("kept", "Numbers that stay free", table=table("Numbers that stay free", "Numbers", ("Why",), rows)),) if rows else ()


def _cables(papers: Papers) -> tuple[Section, ...]:
    rows = [Planned(name, _cable(one)) for name, one in papers.job.cables.items()]
    return (Section("cables", "Cables", "", table=_table("Cables: planned and fitted", rows)),) if rows else ()


def _cable(one: Cable) -> str:
    size = amount(one.size_mm2, "mm²", 2) if one.size_mm2 is not None else f"AWG {one.awg}" if one.awg is not None else ""
    loads = sentence_list([f"{load.unit} at {amount(load.at_m, 'm')}" for load in one.loads])
    return ", ".join(filter(None, (size, one.build, f"up to {amount(one.warmest_c, '°C')}" if one.warmest_c is not None else "", loads)))


def _note(papers: Papers) -> tuple[Section, ...]:
    return (Section("note", "Note", papers.job.note),) if papers.job.note else ()


def _monitored(papers: Papers) -> Iterator[Planned]:
    agreed = papers.job.monitoring
    if agreed is None:
        yield Planned("Paths to the station", "none: this system only sounds")
        return
    yield _plan("Paths to the station", sentence_list([PATHS[one.kind] for one in agreed.paths.values()]))
    if has_categories(papers):
        one = category("Category", agreed.category_given, "the company")
        yield Planned(one.name, one.value, one.blank)


def _drawing() -> Section:
    return Section("drawing", "Drawing", "", (Entry("Drawing of positions and cable ways as fitted", "", ON_THE_DAY),
                                               Entry("What went out anew after a difference: station, homeowner, labels, risk assessment", "",
                                                     ON_THE_DAY)))
