"""What a hold point rests on: what was written before it, which its screen shows before anybody goes on.

A hold point after its step rests on what is written there, which the phone knows; the last of the day on all of it. One before its step rests on
what earlier steps brought: those are named here. Which results hold what up: common practice, no source.
"""
from collections.abc import Iterator

from generator.pages.installer.hand_told import HandHolds
from generator.procedure.asked import CHECK, HOLD, LINK_CHECK, SIGNAL, STEP, Asked
from generator.procedure.cleared import line_of
from generator.procedure.step import Step

# What is not done while something is open, by hold point; any other sends one to the office.
STOPS = {f"{HOLD}/{name}": says for name, says in (
    ("H3", "Do not drill there."), ("H6", "Do not drill for it."), ("H7", "Touch no wire."), ("H8", "Do not drill."), ("H9", "Join no battery."))} | {
    "else": "Stop here, or ask the office."}
# What is read before a battery is joined; how a link came to be good enough to drill for.
BEFORE_BATTERY = ("Charging voltage", "Polarity")
DEAD, BATTERY, HOLES = "H7", "H9", "H8"
ISOLATE = "isolate"


def holds_told(steps: tuple[Step, ...], asked: tuple[Asked, ...]) -> HandHolds:
    """What the hold points of a day rest on; `asked` are the things to write down, whose places stand for them."""
    place = {step.anchor: index for index, step in enumerate(steps)}
    rests = {step.anchor: tuple(_rests(step, tuple((at, one) for at, one in enumerate(asked) if place[one.step] < place[step.anchor])))
             for step in steps if step.hold and step.hold.before}
    cleared = {one.title: f"{_room(one.title).upper()}: NOT CLEARED" for one in asked if one.title.startswith(line_of(""))}
    return HandHolds(rests, STOPS, cleared, next((step.anchor for step in reversed(steps) if step.hold), ""))


def _rests(step: Step, earlier: tuple[tuple[int, Asked], ...]) -> Iterator[int | str]:
    """Places of what was asked before; a step's name stands for the hold point after it."""
    assert step.hold
    for at, one in earlier:
        named = one.kind == CHECK and f"“{one.title}”" in step.hold.until
        link = one.kind == SIGNAL and one.device == step.unit and one.step == f"{LINK_CHECK}{step.unit}".lower()
        read = one.kind == CHECK and one.device == step.unit and one.title in BEFORE_BATTERY
        # Later in the day its supply is on again.
        dead = one.kind == STEP and one.step == ISOLATE and step.phase != "test"
        if step.hold.id == HOLES and (named or link) or step.hold.id == BATTERY and read or step.hold.id == DEAD and dead:
            yield at
        if step.hold.id == DEAD and dead:
            yield ISOLATE


def _room(title: str) -> str:
    return title.removeprefix(line_of(""))
