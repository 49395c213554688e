"""What the installer's pages are told so that they can take down what is found: steps, what is asked at each, units with their numbers.

It is handed to the pack's own script as data. Nothing stands in it that the installer's pages do not say too.
"""
from collections.abc import Iterator
from dataclasses import replace

from generator.calc.results import Results
from generator.calc.slots.slots import Row
from generator.model.papers import Papers
from generator.pages.free_numbers import free_numbers
from generator.pages.installer.hand_holds import holds_told
from generator.pages.installer.hand_kinds import kind_words
from generator.pages.installer.hand_told import HandAsked, HandData, HandFile, HandKeeping, HandScale, HandSerial, HandStep, HandUnit, HandWords
from generator.pages.installer.slots import number_of
from generator.pages.installer.steps import hold_told, step_address
from generator.pages.installer.written import PATH as RESULTS_PAGE
from generator.pages.page import Stamp, device_path
from generator.pages.parts import Stopped, place_of, place_of_row, units_of, unless_stopped
from generator.procedure.asked import CHECK, HOLD, NOT_READ, SIGNAL, WITHOUT_REASON, Asked, asked_of
from generator.procedure.check import RESULTS, own_scale
from generator.procedure.signing import in_words
from generator.procedure.step import Step
from generator.procedure.steps import PHASES
from generator.tables.lookalikes import LOOKALIKES
from generator.terms.show import number

FORMAT = 1
# What can be said with one tap besides a result; anything else is typed. Common practice, no source.
DONE = ("done", "could not")
REASONS = ("Nobody to let me in", "No way to get there", "Part missing or wrong", "Measured too low", "Not safe", "Asbestos not cleared", "No second person",
           "Weather", "No time left")
DECIBELS = "dB"
WAYS = ("from-unit", "to-unit")
MOVED = ("Unit turned", "Unit moved", "Control unit moved: check every earlier link again", "Repeater moved: check every link through it again")

ONWARD = ("The office agreed", "It is on paper", "Put right since", "Not touched here")
HOLDS = ("Something is open: go on?", "It holds: go on", "Written down: it does not hold.", "Written down: it holds.")
SORTS = {"fail": "failed", "not": "could not be done or tested", "serial": "serials other than planned", "blank": "not written"}
WHY = "You wrote pass: say why."
OURS = "is called good, the dB are not known"
BUSY, OTHER, NONE = "Not kept yet.", "Another phone wrote:", "Nothing written yet"
MORE, NO_NUMBER, THAN_SENT = "MORE THAN WERE SENT. ", "NO NUMBER. ", ", MORE THAN WERE SENT"

END = HandStep("", 0, "No step is left", RESULTS_PAGE, "Send off what was written down", "", "none is left", "", None, "")
PAPER = "Or write on the paper lines."
KEEPING = HandKeeping(
    "Kept on this phone, in this browser, until you send it home. The pack in one file, in a folder and at an address each keep by themselves and see "
    "nothing of one another: stay with one. A private window forgets all once it is shut, and not every browser tells.",
    "Kept on this phone.",
    f"This browser keeps nothing: storage is off, refused or does not answer. {PAPER}",
    f"This phone's storage is full: make room first. {PAPER}",
    f"This is a private window, which forgets everything: use an ordinary one. {PAPER}",
    f"This browser gives each file a store of its own: no page sees what another keeps. Use pocket.html, the pack in one file. {PAPER}",
    "Not kept: a value has at most 1000 characters, a note 4000. Write less.")
# So many signs tell one unit of a house from the others, and are read off a plate without a mistake. Common practice, no source.
TAIL = 4
CHANGE = ("Change the record if serials are mixed up, the places if units are; then test both again.")
SERIAL_SAYS = HandSerial(
    TAIL, "Only its last signs were read; the rest is from the plan.",
    "Read the plate: its last {tail} signs are enough.",
    "No serial is planned: write what the plate says.",
    "Same as planned.",
    "Ends as planned: the rest is filled in, {planned}.",
    "END ALIKE: {other} and {second}. Type more of it.",
    f"ANOTHER UNIT'S: {{device}} bears the serial of {{other}} ({{place}}). Is the pair swapped? Read {{other}} too. {CHANGE}",
    f"SWAPPED PAIR: {{device}} bears the serial of {{other}} ({{place}}), {{other}} that of {{device}}. {CHANGE}",
    "ALREADY WRITTEN for {other}: one was misread. Read both plates again.",
    "As planned so far.",
    "DIFFERS from the plan: {planned}. Read the plate again; if it is so, say why.",
    "In the plan of no other unit.")
FILE = HandFile("This is no results file that this pack reads, or it was cut off. Nothing was taken in; ask for it again.",
                "Nothing was taken in: this pack is another one. The file is of",
                "This file is damaged, and nothing was taken in; ask for it again. What cannot be read:")


def hand_data(papers: Papers, results: Results, steps: tuple[Step, ...], stopped: Stopped, mark: Stamp, revision: int) -> HandData:
    """What the script of one pack needs, from what the installer may see."""
    scale = own_scale(papers)
    sent = papers.profile.limits.get("link_messages")
    asked = tuple(one for one in asked_of(papers, results, steps) if one.kind != HOLD)
    wanted = {one.step: float(number(one.wanted)) for one in asked if one.kind == SIGNAL and one.wanted is not None}
    return HandData(FORMAT, mark.reference, revision, mark.fingerprint, mark.title,
                    HandScale(scale.unit, scale.most, scale.passes) if scale else None, sent.value if sent else None,
                    HandWords(RESULTS, DONE, REASONS, MOVED, (*([scale.unit] if scale else []), DECIBELS), WITHOUT_REASON, NOT_READ, ONWARD, HOLDS, SORTS, kind_words(papers), dict(LOOKALIKES), WHY, MORE, NO_NUMBER, THAN_SENT,
                              OURS, BUSY, OTHER, NONE, KEEPING, SERIAL_SAYS, FILE), free_numbers(results.slots), holds_told(steps, asked), END,
                    tuple(_step(number, one, wanted.get(one.anchor)) for number, one in enumerate(steps, 1)),
                    tuple(_asked(papers, one, stopped) for one in asked), tuple(_units(papers, results, stopped)))


def _step(place: int, step: Step, wanted: float | None) -> HandStep:
    wish = "" if wanted is None else f"ASK THE OFFICE before drilling: for a bad day {number(wanted)} dB or more is wanted here."
    return HandStep(step.anchor, place, PHASES[step.phase], step_address(step), step.title, step.unit, hold_told(step), in_words(step.unsigned), wanted, wish)


def _asked(papers: Papers, one: Asked, stopped: Stopped) -> HandAsked:
    """What is asked, as it may be shown: where it quotes a value that a finding stops, that finding, and nothing to compare with."""
    says = next((stopped[field] for field in one.fields if field in stopped), None)
    least, most, planned, accept = (None, None, "", f"STOP: {says}") if says else (one.least, one.most, one.planned, one.accept)
    limit = ", ".join(f"{number(end, 3)} {one.unit} or {word}" for end, word in ((least, "more"), (most, "less")) if end is not None)
    # The serial behind a line of the checklist is a thing of its own.
    unit = one.unit if one.rests_on_value or one.kind != CHECK else ""
    if one.kind == SIGNAL:
        planned = " ".join(WAYS if papers.sheet_of[one.device].two_way else WAYS[:1])
    return HandAsked(one.device, one.step, one.what, one.kind, one.title, accept, unit, least, most, planned, limit)


def _units(papers: Papers, results: Results, stopped: Stopped) -> Iterator[HandUnit]:
    """A row for each number of each unit, and one for a unit that has none."""
    for name in units_of(papers):
        own = name == papers.job.control_unit.id
        serial = (papers.job.control_unit if own else papers.job.devices[name]).serial or ""
        says = stopped.get("job.control_unit.serial" if own else f"job.devices.{name}.serial", "")
        short = results.references[name]
        plain = HandUnit(name, "", "", "", papers.sheet_of[name].name, place_of(papers, name), "" if says else serial, says, short, device_path(short),
                         papers.sheet_of[name].kind)
        rows = results.slots.of(name)
        yield from (_numbered(papers, plain, row, stopped) for row in rows)
        if not rows:
            yield plain


def _numbered(papers: Papers, plain: HandUnit, row: Row, stopped: Stopped) -> HandUnit:
    text = unless_stopped(row.text, row.text_field, stopped) if row.text else plain.text
    return replace(plain, list=row.list.removesuffix("s"), number=number_of(row), input=row.input, text=text, room=place_of_row(papers, row))
