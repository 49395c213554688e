"""What was found on site beside what the plan says: where the two differ, and whether somebody wrote why."""
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.calc.found import Same, Thing, things
from generator.calc.results import Results
from generator.calc.serials import characters
from generator.model.found import COULD_NOT, COULD_NOT_TEST, DONE, FAIL, NOT_APPLICABLE, PASS, FoundEntry
from generator.model.papers import Papers
from generator.procedure.asked import CHECK, LINK_CHECK, NOT_READ, SERIAL, SIGNAL, STEP, WITHOUT_REASON, Asked, asked_of
from generator.procedure.check import DRIFT, RESULTS, own_scale
from generator.procedure.signing import OF
from generator.procedure.step import Step
from generator.terms.show import amount, sentence_list

NUMBER = re.compile(r"[-+−]?[0-9]{1,9}(?:[.,][0-9]{1,6})?")
ATTEMPTS = ("1", "2", "3")
WAYS = {"from-unit": "heard from the unit", "to-unit": "heard by the unit"}
RECEIVED, SENT, LEVEL, MOVED = "received", "sent", "level", "moved"
DECIBELS = "dB"
PARTS = {RECEIVED: "messages received", SENT: "messages sent", LEVEL: "level"}
# Notes of the same step that say why a link is as it is.
OF_LINK = ("check/link-margin", "check/messages", STEP)


@dataclass(frozen=True)
class Difference:
    """An entry that is not as the plan says. `planned` is what it is held against, `reason` what was written of it, "" for nothing; `swapped` the
    unit whose serial it is."""

    entry: FoundEntry
    says: str
    planned: str
    reason: str
    swapped: str = ""


@dataclass(frozen=True)
class Beside:
    """One thing of the plan, or one that the plan does not ask for (`asked` is None), beside what was written of it (None: nothing)."""

    same: Same
    title: str
    asked: Asked | None
    thing: Thing | None
    differences: tuple[Difference, ...] = ()


def beside_plan(papers: Papers, results: Results, steps: tuple[Step, ...]) -> tuple[Beside, ...]:
    """Everything that is asked, in the order of the day, beside what was found; then what was found and is not asked."""
    found = things(entry for file in papers.site for entry in file.entries)
    asked = asked_of(papers, results, steps)
    serials = _Serials(asked, found)
    rows = tuple(row for one in asked for row in _rows(papers, one, found, serials))
    told = {row.same for row in rows}
    return (*rows, *(Beside(same, same[2], None, thing) for same, thing in found.items() if same not in told))


def _rows(papers: Papers, one: Asked, found: Mapping[Same, Thing], serials: "_Serials") -> Iterator[Beside]:
    if one.kind == SIGNAL:
        yield from _signal_rows(papers, one, found)
        return
    same = (one.device, one.step, one.what)
    thing = found.get(same)
    told = [_difference(one, entry, serials) or _fallen(papers, one, entry, found) for entry in thing.counts] if thing else []
    yield Beside(same, one.title, one, thing, tuple(filter(None, told)))


def _difference(one: Asked, entry: FoundEntry, serials: "_Serials") -> Difference | None:
    if one.kind == SERIAL:
        return serials.difference(one, entry)
    if entry.result in (COULD_NOT, COULD_NOT_TEST):
        return Difference(entry, f"{_of(one)}: {entry.result}", DONE if one.kind == STEP else one.accept, entry.note.strip())
    if one.kind != CHECK or entry.result == NOT_APPLICABLE:
        return None
    outside = _outside(one, entry)
    if entry.result == FAIL or outside:
        return Difference(entry, f"{_of(one)}: {outside or FAIL}", _span(one) or one.accept, entry.note.strip())
    return None


def _fallen(papers: Papers, one: Asked, entry: FoundEntry, found: Mapping[Same, Thing]) -> Difference | None:
    """What a link fell by since it was read before drilling, where that is more than it may; both readings in dB."""
    now, most = number_in(entry.value), papers.profile.limits.get("link_drift_db")
    if one.kind != CHECK or one.title != DRIFT or now is None or most is None or entry.unit not in ("", one.unit):
        return None
    step = f"{LINK_CHECK}{one.device}".lower()
    for attempt, way in ((attempt, way) for attempt in reversed(ATTEMPTS) for way in WAYS):
        read = [number_in(other.value) for other in _counts(found, (one.device, step, f"{SIGNAL}/{attempt}/{way}/{LEVEL}")) if other.unit == DECIBELS]
        before = next((value for value in read if value is not None), None)
        if before is not None:
            fell = before - now
            says = f"{_of(one)}: fell by {amount(fell, DECIBELS, 3)}, from {amount(before, DECIBELS, 3)} to {amount(now, DECIBELS, 3)}"
            return Difference(entry, says, f"{most.shown()} at most", entry.note.strip()) if fell > most.value else None
    return None


def _of(one: Asked) -> str:
    """A thing with the unit that it is of: "Function of D2"."""
    return f"{one.title}{OF}{one.device}" if one.kind == CHECK and one.device else one.title


def _outside(one: Asked, entry: FoundEntry) -> str:
    """How a measured value lies outside its span; "" if it lies within, or if there is no number to hold against one."""
    value = number_in(entry.value)
    if value is None or entry.unit and entry.unit != one.unit:
        return ""
    if one.least is not None and value < one.least or one.most is not None and value > one.most:
        return f"{entry.value.strip()} {one.unit}, and {_span(one)} is asked for"
    return ""


def number_in(text: str) -> float | None:
    """The number that a text is; None for any other text."""
    return float(text.strip().replace(",", ".").replace("−", "-")) if NUMBER.fullmatch(text.strip()) else None


def _span(one: Asked) -> str:
    """What a value may be, in words: "10 dB or more"."""
    least, most = (None if end is None else amount(end, one.unit, 3) for end in (one.least, one.most))
    if least and most:
        return f"{least} to {most}"
    return f"{least} or more" if least else f"{most} at most" if most else ""


def _signal_rows(papers: Papers, one: Asked, found: Mapping[Same, Thing]) -> Iterator[Beside]:
    """The attempts of a link that were written down; the last of them is what counts."""
    tried = [attempt for attempt in ATTEMPTS if any(_named(one, attempt, way, part) in found for way in WAYS for part in PARTS)]
    why = _why_of_link(one, found)
    written = False
    for attempt in ATTEMPTS:
        names = [(_named(one, attempt, way, part), f"Attempt {attempt}, {WAYS[way]}: {PARTS[part]}") for way in WAYS for part in PARTS]
        for same, title in (*names, ((one.device, one.step, f"{SIGNAL}/{attempt}/{MOVED}"), f"Attempt {attempt}: what was moved before it")):
            if same in found:
                written = True
                told = _link_differences(papers, one, same, found, why) if tried and attempt == tried[-1] else ()
                yield Beside(same, title, one, found[same], told)
    if not written:
        yield Beside((one.device, one.step, SIGNAL), one.title, one, None)


def _named(one: Asked, attempt: str, way: str, part: str) -> Same:
    return one.device, one.step, f"{SIGNAL}/{attempt}/{way}/{part}"


def _why_of_link(one: Asked, found: Mapping[Same, Thing]) -> str:
    """What was written of a link in its step, at whichever of its lines; that somebody went on is no reason."""
    own = [thing for (device, step, what), thing in found.items()
           if (device, step) == (one.device, one.step) and (what.startswith(f"{SIGNAL}/") or what in OF_LINK)]
    return "; ".join(dict.fromkeys(entry.note.strip() for thing in own for entry in thing.counts if entry.note.strip() and not gone_on(entry)))


def gone_on(entry: FoundEntry) -> bool:
    """Whether a note says no more than that somebody went on from the step, and from what."""
    return entry.what == STEP and entry.note.strip().startswith((WITHOUT_REASON, NOT_READ))


def _link_differences(papers: Papers, one: Asked, same: Same, found: Mapping[Same, Thing], why: str) -> tuple[Difference, ...]:
    part, scale = same[2].rpartition("/")[2], own_scale(papers)
    out = []
    for entry in found[same].counts:
        value = number_in(entry.value)
        if part == LEVEL and value is not None:
            bars = scale is not None and entry.unit == scale.unit
            least, unit = (float(scale.passes), scale.unit) if bars else (one.least, one.unit)
            if least is not None and value < least and (bars or entry.unit in ("", one.unit)):
                out.append(Difference(entry, f"Link of {one.device}: {entry.value.strip()} {unit} read", f"{amount(least, unit)} or more", why))
        if part == RECEIVED and value is not None:
            sent = [number_in(other.value) for other in _counts(found, (*same[:2], same[2].removesuffix(RECEIVED) + SENT))]
            if any(most is not None and value < most for most in sent):
                most = max(one for one in sent if one is not None)
                out.append(Difference(entry, f"Link of {one.device}: {entry.value.strip()} messages arrived", f"{most:g} of {most:g}", why))
    return tuple(out)


def _counts(found: Mapping[Same, Thing], same: Same) -> tuple[FoundEntry, ...]:
    return found[same].counts if same in found else ()


class _Serials:
    """Which unit has which serial: by the plan, and as they were read."""

    def __init__(self, asked: tuple[Asked, ...], found: Mapping[Same, Thing]):
        own = [one for one in asked if one.kind == SERIAL]
        self.planned = {one.device: plain(one.planned) for one in own if one.planned}
        self.read = {one.device: {plain(entry.value) for entry in _counts(found, (one.device, one.step, one.what)) if entry.value.strip()} for one in own}

    def difference(self, one: Asked, entry: FoundEntry) -> Difference | None:
        """How a serial that was read is not the one of the plan, or not this unit's alone; None if all is as planned, or nothing was planned."""
        value = plain(entry.value)
        if not value or value == self.planned.get(one.device):
            return None
        planned, reason = one.planned or "no serial", entry.note.strip()
        owner = next((name for name, serial in self.planned.items() if serial == value), "")
        if owner:
            both = self.planned.get(one.device) in self.read.get(owner, ())
            says = f"{one.device} and {owner} are swapped" if both else f"at {one.device} the serial of {owner} was read"
            return Difference(entry, f"{says}: {entry.value.strip()}", planned, reason, owner)
        again = [name for name, read in self.read.items() if name != one.device and value in read]
        if again:
            return Difference(entry, f"at {one.device} the same serial was read as at {sentence_list(again)}: {entry.value.strip()}", planned, reason, again[0])
        return Difference(entry, f"Serial of {one.device}: {entry.value.strip()} read", planned, reason) if one.planned else None


def plain(serial: str) -> str:
    """A serial as it is compared: blanks, hyphens and the size of letters do not count."""
    return characters(serial.strip()).upper()


NOT_TESTED, IN_CONFLICT = "not tested", "two phones differ"


def came_to(row: Beside) -> str:
    """What a line of the checklist came to: a result, that it was not tested, or that two phones differ. A value without a result is no result,
    nor is a pass without the value that it rests on."""
    if row.thing is None or not any(_is_result(row, entry) for entry in row.thing.counts):
        return NOT_TESTED
    return IN_CONFLICT if row.thing.others else row.thing.now.result


def _is_result(row: Beside, entry: FoundEntry) -> bool:
    return bool(entry.result) and not unread(row, entry)


def unread(row: Beside, entry: FoundEntry) -> bool:
    """Whether an entry is a pass of something measured whose value nobody read."""
    return entry.result == PASS and row.asked is not None and row.asked.rests_on_value and not entry.value.strip()


def tally(rows: tuple[Beside, ...]) -> Mapping[str, int]:
    """How many lines of the checklist came to what, in the order in which it is told; what none came to is not in it, but what was not tested always is."""
    found = Counter(came_to(row) for row in rows if row.asked and row.asked.kind == CHECK)
    return {name: found[name] for name in (*RESULTS, IN_CONFLICT, NOT_TESTED) if found[name] or name == NOT_TESTED}
