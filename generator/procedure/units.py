"""The units of a job as the steps need them: in which order, with which facts, how long the work on one takes."""
from collections.abc import Iterator, Mapping

from generator.calc.results import Results
from generator.model.lists import list_of
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.handling import room_name
from generator.procedure.safety import CARRIED, is_outside, met
from generator.procedure.step import Fact
from generator.tables import minutes
from generator.terms.show import sentence_list

# What sees and silences must exist before what alarms; within the zones, what is life-safety stands last by its numbers.
HYPHENATED = ("hold-up", "all-hours")
# What sees or hears somebody who comes to the control unit, or the way in to its room.
WATCHES = ("movement", "contact", "glass-break", "shock")
ENROL_ORDER = ("repeaters", "keypads", "sounders", "zones", "fobs", "tags")


def fitted(papers: Papers) -> list[str]:
    """The units that are fixed somewhere: repeaters first, since others are heard through them, then in the order of the job file."""
    names = [name for name in papers.job.devices if papers.sheet_of[name].kind not in CARRIED]
    return sorted(names, key=lambda name: papers.sheet_of[name].kind != "repeater")


def numbered(papers: Papers, results: Results) -> list[str]:
    """Every unit in the order in which it is enrolled: by its numbers in its own list."""
    rows = [row for row in sorted(results.slots.rows, key=lambda row: row.number) if row.device]
    return list(dict.fromkeys(row.device for kind in ENROL_ORDER for row in rows
                              if row.list == kind == list_of(papers.sheet_of[row.device])))


def without_number(papers: Papers, results: Results) -> list[str]:
    """The units that got no number in their list."""
    found = numbered(papers, results)
    return [name for name in papers.job.devices if name not in found]


def of_kind(papers: Papers, names: list[str], *kinds: str) -> list[str]:
    """Those of the named units that are of these kinds."""
    return [name for name in names if papers.sheet_of[name].kind in kinds]


def high_sounders(papers: Papers) -> list[str]:
    """The sounders that are reached by a ladder only."""
    return [name for name in of_kind(papers, fitted(papers), "sounder") if met(papers, [name], messages.LADDER)]


def unwatched(papers: Papers) -> bool:
    """Whether no detector of the plan is in the control unit's room."""
    room = papers.job.control_unit.room
    return not any(papers.sheet_of[name].kind in WATCHES and papers.room_of(device) == room for name, device in papers.job.devices.items())


def unit_facts(papers: Papers, results: Results, name: str) -> tuple[Fact, ...]:
    """The numbers that a step about a unit needs, so that nobody leafs back."""
    device = papers.job.devices[name]
    facts = [Fact(f"{row.list.removesuffix('s').capitalize()} {row.number}", row.text or papers.sheet_of[name].name,
                  row.text_field) for row in results.slots.of(name)]
    facts.append(Fact("Serial", device.serial or "not known yet: read it and write it here", f"job.devices.{name}.serial"))
    if papers.room_of(device):
        facts.append(Fact("Room", room_name(papers, papers.room_of(device))))
    return tuple(facts)


def row_fact(papers: Papers, results: Results, name: str) -> Fact:
    """A unit in one line: its name, and its numbers with their texts; for a step that goes through many units."""
    rows = results.slots.of(name)
    shown = sentence_list([f"{row.list.removesuffix('s')} {row.number} {row.text}".strip() for row in rows])
    return Fact(name, shown or papers.sheet_of[name].name, rows[0].text_field if rows else "")


def attributes(papers: Papers, name: str) -> Iterator[Fact]:
    """What a unit's number is programmed as: the zone's role and what it may do; the user of a fob or tag."""
    device = papers.job.devices[name]
    if device.role:
        yield Fact("Zone acts as", device.role if device.role in HYPHENATED else device.role.replace("-", " "))
    if papers.job.partitions:
        number = papers.partition_of(device)
        yield Fact("Partition", f"{number}, {papers.partitions()[number]}")
    if device.left_out_in:
        yield Fact("Left out in",
                   sentence_list([papers.job.part_sets[key].name for key in device.left_out_in if key in papers.job.part_sets]))
    allowed = [words for words, yes in (("a user may omit it", device.omit), ("chime on", device.chime),
                                        ("may confirm another zone's alarm", device.confirms)) if yes]
    if device.signal:
        allowed.append(f"{device.signal} in the house")
    if allowed:
        yield Fact("Also", sentence_list(allowed))
    for number, user in papers.job.users.items():
        if name in (user.fob, user.tag):
            yield Fact("Belongs to", f"user {number}, {user.who}")


def limit_text(papers: Papers, name: str) -> str | None:
    """A limit of the profile as text with its unit; None where the profile has none of that name."""
    entry = papers.profile.limits.get(name)
    return entry.shown() if entry else None


def limit_fact(papers: Papers, name: str, title: str) -> tuple[Fact, ...]:
    """A limit as a fact of a step, with how it is known; whose it is stands in the checklist. Nothing where the profile has none."""
    entry = papers.profile.limits.get(name)
    return (Fact(title, f"{entry.shown()} ({entry.known})"),) if entry else ()


def minutes_of(papers: Papers, name: str, key: str, usual: Mapping[str, float]) -> float:
    """How long work on a unit takes, in min: as its sheet says under `key`, else the usual time of its kind and place."""
    sheet = papers.sheet_of[name]
    own = getattr(sheet.minutes, key, None) if sheet.minutes else None
    outside = f"{sheet.kind} outside" if is_outside(papers, name) else sheet.kind
    return own if own is not None else usual.get(outside, usual.get(sheet.kind, usual["other"]))


def check_minutes(papers: Papers, name: str) -> float:
    """Minutes for the signal check of a unit."""
    return minutes_of(papers, name, "check_min", minutes.CHECK)


def fix_minutes(papers: Papers, name: str) -> float:
    """Minutes for fixing a unit."""
    return minutes_of(papers, name, "fix_min", minutes.FIX)


def enrol_minutes(papers: Papers, name: str) -> float:
    """Minutes for enrolling a unit."""
    return minutes_of(papers, name, "enrol_min", minutes.ENROL)


def test_minutes(papers: Papers, name: str) -> float:
    """Minutes for the tests of a unit."""
    return minutes_of(papers, name, "test_min", minutes.TEST)
