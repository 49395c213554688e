"""Is whoever comes in at the keypad in time, and out again, and does nothing alarm before?"""
from collections.abc import Iterator

from generator.calc.house.route_met import Met
from generator.calc.house.route_times import LIMITS, SPEEDS
from generator.calc.house.routes import LONGEST_ENTRY, LONGEST_EXIT, Blocked, DoorWays, WayIn
from generator.calc.house.ways_in import MEANS, timed_doors
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import Where, rule
from generator.terms.show import amount, capital, number, rough, sentence_list, told_apart



def _drawn(papers: Papers) -> bool:
    rooms = [room for _, room in papers.rooms().values()]
    return any(room.corner_m or room.outline_m for room in rooms) and any(timed_doors(papers))


DRAWN = Where("the job gives a plan and a door with a timed entry", _drawn)
# Where setting is completed from outside, the exit time decides nothing.
BY_TIME = Where("the job gives a plan and a door with a timed entry, and the exit time or the final door completes setting",
                lambda papers: _drawn(papers) and papers.job.times.completes_by in (None, "exit-time", "final-door"))
KEYPADS = Where("the job has a keypad", lambda papers: any(sheet.kind == "keypad" for sheet in papers.sheet_of.values()))
PLAN = "the job's plan: the shortest way that a person can walk"
ENTRY, EXIT = "job.times.entry_s", "job.times.exit_s"
ALSO = tuple(one for one in SPEEDS.values() if one not in LIMITS)


@rule("entry-route-short", Severity.STOP, limits=LIMITS, also=(LONGEST_ENTRY, *ALSO), source=PLAN, where=DRAWN,
      compares="the time that the slowest user needs from each timed door to the nearest keypad or reader with the programmed entry time",
      mends="Set the time that is needed, or put a keypad or reader nearer to the door.")
def entry_route_short(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """The entry time is too short for the way to the keypad.

    Whoever comes home is still on the way when the sounder starts. Most false calls are made so, and each one counts against the response.
    """
    yield from _unknown(results)
    for way in results.routes.ways:
        if not way.entry.holds() and way.permitted:
            nearer = _nearer(way)
            keep = f"; or keep {amount(way.mends.allowed_s, 's')} and {nearer}" if nearer else ""
            yield Hit(ENTRY, f"{_needs(way)} {amount(papers.job.times.entry_s, 's')} are programmed.", f"{_longer(way)}{keep}.", _entry_values(way))


@rule("entry-route-beyond", Severity.STOP, limits=(LONGEST_ENTRY, *LIMITS), also=ALSO, source=PLAN, where=DRAWN,
      compares="the time that the slowest user needs from each timed door to the nearest keypad or reader with the profile's longest entry time",
      mends="Put a keypad or reader nearer to the door, let people come in by another door, or let them unset with a fob in front of it.")
def entry_route_beyond(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """No permitted entry time covers the way to the keypad.

    A longer time would give an intruder as long; a permitted one makes a false alarm of every homecoming.
    """
    yield from _unknown(results)
    for way in results.routes.ways:
        if not way.permitted:
            needed, longest = told_apart(way.entry.value, way.longest_entry.value)
            others = [f"come in by {name}, which needs {amount(seconds, 's')}" for name, seconds in way.mends.doors]
            do = list(filter(None, (_nearer(way), sentence_list(others, "or"))))
            yield Hit(f"job.devices.{way.unit}.at_m", f"{_needs(way)} {longest} s is the {way.longest_entry.name}: no permitted time is enough.",
                      f"{capital('; or '.join([*do, 'let everybody unset with a fob before this door is opened']))}.",
                      (Value("needed", needed, "s", PLAN), Value("limit", longest, "s", way.longest_entry.origin)))


@rule("exit-route-short", Severity.FIX, limits=LIMITS, also=(LONGEST_EXIT, *ALSO), source=PLAN, where=BY_TIME,
      compares="the time that the slowest user needs from the keypad or reader until the timed door is shut with the programmed exit time",
      mends="Set the time that is needed, or put the keypad or reader nearer to the door.")
def exit_route_short(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """The exit time is too short for the way out.

    The alarm is on while somebody is still in the house, and the door that they open then starts an alarm.
    """
    yield from _unknown(results)
    for way in results.routes.ways:
        if way.exit.holds():
            continue
        needed, programmed = told_apart(way.exit.value, way.exit.limit.value)
        longest = way.longest_exit
        if longest and way.exit.value > longest.value:
            do = f"No permitted time is enough, {longest.shown()} is the {longest.name}: put the keypad or reader nearer to the door."
        else:
            do = f"Set exit_s to {number(min(way.mends.set_exit_s, longest.value) if longest else way.mends.set_exit_s)}."
        yield Hit(EXIT, f"{_who(way)} leaves by {way.door.key} needs {needed} s from {way.unit} until it is shut: {_parts(way, out=True)}, "
                  f"times {way.reserve.shown()}. {amount(papers.job.times.exit_s, 's')} are programmed.", do,
                  (Value("needed", needed, "s", PLAN), Value("programmed", programmed, "s", EXIT)))


@rule("entry-route-blocked", Severity.FIX, limits=LIMITS, also=ALSO, source=PLAN, where=DRAWN,
      compares="the ways from each timed door with the keypads and readers inside",
      mends="Move what stands in the way, write the doors and stairs that are missing, or plan a keypad or reader where the door leads.")
def entry_route_blocked(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """No way leads from a timed door to a keypad or reader.

    Either the plan lacks a door, or nobody can turn the alarm off who comes in here.
    """
    yield from _unknown(results)
    for one in results.routes.doors:
        if isinstance(one.found, Blocked):
            there = [name for name, device in papers.job.devices.items() if papers.sheet_of[name].kind in MEANS and device.room != OUTSIDE]
            yield Hit(one.door.field, one.found.says, one.found.do,
                      (Value("reached", "none", "", PLAN), Value("there", sentence_list(there) or "none", "", "job.devices")))


@rule("immediate-on-way-in", Severity.FIX, limits=LIMITS, also=ALSO, source=PLAN, where=DRAWN,
      compares="the units in the rooms and at the doors of each way in that alarm at once with the time until the alarm is off",
      mends="Give the unit the role entry-route, move it off the way, or put the timed contact on the first door of the way.")
def immediate_on_way_in(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A unit that does not wait meets a person on the way in.

    It alarms at once, whatever the entry time: before the timed door moved, or while the time still runs.
    """
    yield from _unknown(results)
    for one in results.routes.doors:
        yield from (_met(papers, one, met) for met in one.met)


@rule("keypad-outside", Severity.FIX, source="common practice of the trade: keypads hang inside", where=KEYPADS,
      compares="the place of each keypad with the rooms of the house", mends="Plan the keypad inside, or a tag reader outside.")
def keypad_outside(papers: Papers, results: Results) -> Iterator[Hit]:
    """A keypad is planned outside.

    Anybody can watch a code there, try others, or break the unit; and on the way in it is behind whoever comes.
    """
    rooms = list(papers.rooms())
    for name, device in papers.job.devices.items():
        if papers.sheet_of[name].kind == "keypad" and device.room == OUTSIDE:
            yield Hit(f"job.devices.{name}.room", f"{name} is a keypad, and it is planned outside.",
                      "Plan it in the room that the entry door leads to; outside, a reader for tags can complete setting.",
                      (Value("place", OUTSIDE, "", f"job.devices.{name}.room"), Value("rooms inside", str(len(rooms)), "", "job.premises.storeys")))


def _unknown(results: Results) -> Iterator[Unchecked]:
    """What could not be worked out: everything, or the way of a door."""
    if results.routes.lacks:
        yield Unchecked(results.routes.lacks)
    for one in results.routes.doors:
        if isinstance(one.found, Unknown):
            yield Unchecked(f"the way in by {one.door.key} is not known: {one.found.reason}")


def _who(way: WayIn) -> str:
    return f"With a code ({sentence_list(list(way.users))}), whoever" if way.users else "Whoever"


def _needs(way: WayIn) -> str:
    needed, _ = told_apart(way.entry.value, way.entry.limit.value)
    return f"{_who(way)} comes in by {way.door.key} needs {needed} s to {way.unit}: {_parts(way)}, times {way.reserve.shown()}."


def _parts(way: WayIn, out: bool = False) -> str:
    parts, door = way.parts, f"{amount(way.parts.door_s, 's')} for the door"
    rows = [] if out else [door]
    rows.append(f"{amount(parts.flat_s, 's')} for {rough(way.route.flat_m, 'm')} on the flat")
    rows += [f"{amount(parts.stairs_s, 's')} for {rough(way.route.slope_m, 'm')} of stairs"] if way.route.stairs else []
    rows.append(door if out else f"{amount(parts.unset_s, 's')} to unset by {way.means}")
    return sentence_list(rows)


def _longer(way: WayIn) -> str:
    """The time to set: the next step that covers the need, or the longest permitted one where that step would lie beyond it."""
    longest = way.longest_entry
    if longest is None:
        return f"Set entry_s to {way.mends.set_s}"
    return f"Set entry_s to {number(min(way.mends.set_s, longest.value))} ({longest.shown()} is the longest)"


def _nearer(way: WayIn) -> str:
    """How near a keypad or reader must hang, and the nearest place where the present one would do."""
    said = []
    for kind, metres in way.mends.metres.items():
        # The same kind that is there, and what is quicker.
        if metres > 0 and (MEANS[kind] == way.means or kind == "reader"):
            said.append(f"a {kind} within {amount(metres, 'm')} of the door")
    near, spot = way.mends.place, ""
    if near:
        x, y = near.at
        spot = f" ({way.unit} would do at [{number(x)}, {number(y)}] in {near.room}, {amount(near.metres, 'm')} along the way)"
    return f"put {sentence_list(said, 'or')} along the way{spot}" if said else ""


def _entry_values(way: WayIn) -> tuple[Value, ...]:
    needed, programmed = told_apart(way.entry.value, way.entry.limit.value)
    longest = (Value("longest", number(way.longest_entry.value), "s", way.longest_entry.origin),) if way.longest_entry else ()
    return Value("needed", needed, "s", PLAN), Value("programmed", programmed, "s", ENTRY), *longest


def _met(papers: Papers, one: DoorWays, met: Met) -> Hit:
    device, entry = papers.job.devices[met.unit], papers.job.times.entry_s
    field, programmed = f"job.devices.{met.unit}.role", Value("entry time", str(entry), "s", ENTRY)
    stands = {"view": "sees people in", "room": "stands in", "door": "watches"}[met.kind]
    if met.at_s is None:
        return Hit(field, f"{met.unit} ({device.role}) {stands} {met.where}, where people pass before {one.door.key} moves and the entry time begins.",
                   f"Put the timed contact on the door before {met.where}, or move {met.unit} behind {one.door.key}.",
                   (Value("entry time run when it is met", "0", "s", PLAN), programmed))
    return Hit(field, f"{met.unit} ({device.role}) {stands} {met.where}, on the way of whoever comes in by {one.door.key}: they are there after "
               f"{amount(met.at_s, 's')}, with the alarm still on.",
               "Give it role: entry-route, so that it waits while the entry time runs; or move it off the way.",
               (Value("met", number(met.at_s), "s", PLAN), programmed))
