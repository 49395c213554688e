"""What was found on site beside what the plan says: where the two differ, and whether somebody wrote why."""
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.calc.found import Same, Thing, things
from generator.calc.results import Results
from generator.calc.serials import characters
from generator.model.found import COULD_NOT, COULD_NOT_TEST, DONE, FAIL, NOT_APPLICABLE, PASS, FoundEntry
from generator.model.papers import Papers
from generator.procedure.asked import CHECK, LINK_CHECK, PHOTO, SERIAL, SIGNAL, STEP, Asked, asked_of
from generator.procedure.check import DRIFT, RESULTS, own_scale
from generator.procedure.measured import amiss, not_compared, number_in, span
from generator.procedure.reason import Whys, legible
from generator.procedure.signing import OF
from generator.procedure.step import Step
from generator.terms.show import amount, sentence_list

ATTEMPTS = ("1", "2", "3")
WAYS = {"from-unit": "heard from the unit", "to-unit": "heard by the unit"}
RECEIVED, SENT, LEVEL, MOVED = "received", "sent", "level", "moved"
DECIBELS = "dB"
PARTS = {RECEIVED: "messages received", SENT: "messages sent", LEVEL: "level"}
# Lines of the same step whose notes say why a link is as it is, besides those of the attempt that counts.
OF_LINK = ("check/link-margin", "check/messages")
# A result that leaves open what the plan asks for: each needs its reason.
LEFT_OPEN = (COULD_NOT, COULD_NOT_TEST, NOT_APPLICABLE)


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
    whys = Whys(found)
    serials = _Serials(asked, whys)
    rows = tuple(row for one in asked for row in _rows(papers, one, whys, serials))
    told = {row.same for row in rows}
    return (*rows, *(Beside(same, same[2], None, thing) for same, thing in found.items() if same not in told))


def _rows(papers: Papers, one: Asked, whys: Whys, serials: "_Serials") -> Iterator[Beside]:
    if one.kind == SIGNAL:
        yield from _signal_rows(papers, one, whys)
        return
    same = (one.device, one.step, one.what)
    thing = whys.found.get(same)
    told = [_difference(one, entry, whys.of(same, entry), serials) or _fallen(papers, one, entry, whys) for entry in thing.counts] if thing else []
    yield Beside(same, one.title, one, thing, tuple(filter(None, told)))


def _difference(one: Asked, entry: FoundEntry, why: str, serials: "_Serials") -> Difference | None:
    if one.kind == SERIAL:
        return serials.difference(one, entry, why)
    # Photographs are the company's own: none of them ever holds anybody up.
    if one.kind == PHOTO:
        return None
    if entry.result in LEFT_OPEN:
        return Difference(entry, f"{_of(one)}: {entry.result}", DONE if one.kind == STEP else one.accept, why)
    if one.kind != CHECK:
        return None
    wrong = amiss(one, entry)
    if entry.result == FAIL or wrong:
        return Difference(entry, f"{_of(one)}: {wrong or FAIL}", span(one) or one.accept, why)
    return None


def _fallen(papers: Papers, one: Asked, entry: FoundEntry, whys: Whys) -> Difference | None:
    """What a link fell by since it was read before drilling, where that is more than it may; both readings in dB."""
    now, most = number_in(entry.value), papers.profile.limits.get("link_drift_db")
    if one.kind != CHECK or one.title != DRIFT or now is None or most is None or entry.unit not in ("", one.unit):
        return None
    step = f"{LINK_CHECK}{one.device}".lower()
    for attempt, way in ((attempt, way) for attempt in reversed(ATTEMPTS) for way in WAYS):
        read = [number_in(other.value) for other in _counts(whys.found, (one.device, step, f"{SIGNAL}/{attempt}/{way}/{LEVEL}")) if other.unit == DECIBELS]
        before = next((value for value in read if value is not None), None)
        if before is not None:
            fell = before - now
            says = f"{_of(one)}: fell by {amount(fell, DECIBELS, 3)}, from {amount(before, DECIBELS, 3)} to {amount(now, DECIBELS, 3)}"
            return Difference(entry, says, f"{most.shown()} at most", whys.of((one.device, one.step, one.what), entry)) if fell > most.value else None
    return None


def _of(one: Asked) -> str:
    """A thing with the unit that it is of: "Function of D2"."""
    return f"{one.title}{OF}{one.device}" if one.kind == CHECK and one.device else one.title


def _signal_rows(papers: Papers, one: Asked, whys: Whys) -> Iterator[Beside]:
    """The attempts of a link that were written down; the last of them is what counts."""
    found = whys.found
    tried = [attempt for attempt in ATTEMPTS if any(_named(one, attempt, way, part) in found for way in WAYS for part in PARTS)]
    why = whys.of_all(one.device, one.step, (f"{SIGNAL}/{tried[-1]}/", *OF_LINK)) if tried else ""
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


def _link_differences(papers: Papers, one: Asked, same: Same, found: Mapping[Same, Thing], why: str) -> tuple[Difference, ...]:
    part = same[2].rpartition("/")[2]
    sent = [other for other in _counts(found, (*same[:2], same[2].removesuffix(RECEIVED) + SENT)) if other.value.strip()]
    out = []
    for entry in found[same].counts:
        says, asked = "", ""
        if part == LEVEL and entry.value.strip():
            says, asked = _level(papers, one, entry)
        elif part == RECEIVED and entry.value.strip():
            says, asked = _messages(papers, entry, sent)
        if says:
            out.append(Difference(entry, f"Link of {one.device}: {says}", asked, why))
    return tuple(out)


def _level(papers: Papers, one: Asked, entry: FoundEntry) -> tuple[str, str]:
    """What is wrong with a level that was read, in dB or on the control unit's own scale, and what is asked for; "" if nothing is."""
    scale = own_scale(papers)
    own = scale if scale is not None and entry.unit == scale.unit else None
    least, unit = (float(own.passes), own.unit) if own else (one.least, one.unit)
    if least is None:
        return "", ""
    asked, value = f"{amount(least, unit)} or more", number_in(entry.value)
    if value is None or (value > own.most if own else entry.unit not in ("", unit)):
        return not_compared(entry, asked), asked
    return f"{entry.value.strip()} {unit} read" if value < least else "", asked


def _messages(papers: Papers, entry: FoundEntry, sent: list[FoundEntry]) -> tuple[str, str]:
    """What is wrong with the number of messages that arrived, of as many as were sent; of as many as the profile asks for where that was not written."""
    limit = papers.profile.limits["link_messages"].value
    of, value = [number_in(one.value) for one in sent] or [limit], number_in(entry.value)
    most = max((one for one in of if one is not None), default=limit)
    asked = f"{most:g} of {most:g}"
    if value is None or None in of:
        written = entry if value is None else next(one for one in sent if number_in(one.value) is None)
        return not_compared(written, asked), asked
    return f"{entry.value.strip()} messages arrived" if value < most else "", asked


def _counts(found: Mapping[Same, Thing], same: Same) -> tuple[FoundEntry, ...]:
    return found[same].counts if same in found else ()


class _Serials:
    """Which unit has which serial: by the plan, and as they were read."""

    def __init__(self, asked: tuple[Asked, ...], whys: Whys):
        own = [one for one in asked if one.kind == SERIAL]
        self.planned = {one.device: plain(one.planned) for one in own if one.planned}
        self.read = {one.device: {plain(entry.value) for entry in _counts(whys.found, (one.device, one.step, one.what)) if entry.value.strip()} for one in own}

    def difference(self, one: Asked, entry: FoundEntry, reason: str) -> Difference | None:
        """How a serial that was read is not the one of the plan, or not this unit's alone; None if all is as planned, or nothing was planned."""
        value = plain(entry.value)
        if not value or value == self.planned.get(one.device):
            return None
        planned = one.planned or "no serial"
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
    return entry.result == PASS and row.asked is not None and row.asked.rests_on_value and not legible(entry.value)


def tally(rows: tuple[Beside, ...]) -> Mapping[str, int]:
    """How many lines of the checklist came to what, in the order in which it is told; what none came to is not in it, but what was not tested always is."""
    found = Counter(came_to(row) for row in rows if row.asked and row.asked.kind == CHECK)
    return {name: found[name] for name in (*RESULTS, IN_CONFLICT, NOT_TESTED) if found[name] or name == NOT_TESTED}
