"""The tests of what watches openings, rooms, panes, water and temperature."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.procedure.check import LEAST, MOST, PRACTICE, Check, both, held, limit
from generator.procedure.handling import opening_name
from generator.terms.show import amount, sentence_list

OPENS = {"window": "window_opening_mm", "roof-window": "window_opening_mm", "hatch": "contact_opening_mm"}


def opening_limit(papers: Papers, name: str) -> str:
    """The name of the limit on the gap at which a contact acts, by what it watches; the tightest where that is not known."""
    protects = papers.job.devices[name].protects
    return OPENS.get(papers.openings()[protects][1].kind, "door_opening_mm") if protects else "contact_opening_mm"


def of_contact(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """It acts before anybody fits through, restores on the latch, and keeps still when rattled."""
    device = papers.job.devices[name]
    yield held(papers, name, "Opening", "Opened slowly, it acts before the gap is {limit} wide.", opening_limit(papers, name), "mm",
               "Opened slowly, it acts before a hand fits through.", end=MOST)
    yield Check(name, "Restore", "It restores when the latch has caught, not only while somebody pushes.", PRACTICE)
    yield Check(name, "Rattle", "Shut and rattled: no signal.", PRACTICE)
    yield held(papers, name, "Gap", "Contact and magnet stand no further apart than {limit} of the gap on its plate.", "contact_gap_percent", "mm")
    rows = [row for row in results.slots.of(name) if row.list == "zones"]
    if device.use_input_2 and len(rows) > 1:
        yield Check(name, "Second input", f"Opened by itself, {rows[1].input} shows zone {rows[1].zone} {rows[1].text} and no other.", PRACTICE)
        yield held(papers, name, "Opening of the second input", "Opened slowly, it acts before the gap is {limit} wide.", "contact_opening_mm", "mm", end=MOST)


def of_movement(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """It answers a walk anywhere in its view and keeps still for all else."""
    sheet = papers.sheet_of[name]
    speed, steps = limit(papers, "walk_test_mps"), limit(papers, "slow_walk_steps")
    pace = f"at {speed[0]}, a step a second," if speed else "at a step a second,"
    if steps:
        yield Check(name, "Walk test", f"Walking across {pace} it answers within {steps[0]} steps.", both(steps[1], *([speed[1]] if speed else [])),
                    "steps", most=float(papers.profile.limits["slow_walk_steps"].value))
    range_ = f" It reaches {amount(sheet.coverage.range_m, 'm')} by its plate." if sheet.coverage else ""
    yield Check(name, "Edges", f"The far corner, each edge of what it must see, past the furniture: it answers, slow and brisk.{range_}", PRACTICE)
    yield held(papers, name, "Stillness", "Nobody moves, heating and fans running: no signal in {limit}.", "stillness_min", "min", end=LEAST)
    panes = panes_of(papers, name)
    if panes:
        yield Check(name, "Outside the glass", f"Somebody walks outside {sentence_list(panes)}: no signal.", PRACTICE)
    yield from _animals(papers, name)
    yield Check(name, "Test mode off", "Its walk test is switched off again, its lid shut.", PRACTICE)


def panes_of(papers: Papers, name: str) -> list[str]:
    """The glazed openings of a detector's room to the open air."""
    room = papers.room_of(papers.job.devices[name])
    return [opening_name(papers, key) for key, (_, one) in papers.openings().items() if one.glazed and set(one.wall) == {room, OUTSIDE}]


def _animals(papers: Papers, name: str) -> Iterator[Check]:
    coverage = papers.sheet_of[name].coverage
    if coverage and coverage.animal_kg:
        yield held(papers, name, "Animal", f"An animal of the house of {amount(coverage.animal_kg, 'kg')} at most roams the room for {{limit}}: "
                                           "no signal. "
                   "No animal in the house: not applicable.", "animal_roam_min", "min", end=LEAST)


def of_glass(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """It hears the attack, and no everyday noise."""
    yield Check(name, "Furthest pane", "A tester made for it, or what its plate says, at the furthest pane: it answers. Glass is never "
                                       "struck.", PRACTICE)
    yield held(papers, name, "Everyday noise", "Keys and a clap at {limit}: no signal.", "noise_test_m", "m")
    yield Check(name, "Slam", "A door is slammed: no signal.", PRACTICE)


def of_shock(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """It feels an attack on the frame, and no everyday knock."""
    yield Check(name, "Knock", "Knocked on the frame beside what it watches, with the handle of a tool, at the far end of what it must feel: it "
                               "answers. Glass is never struck.", PRACTICE)
    yield Check(name, "Slam", "A door is slammed nearby: no signal.", PRACTICE)


def of_technical(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """Water and temperature: alarm, restore, and never an intruder."""
    yield Check(name, "Restore", "Dry, or back at its usual temperature, it restores by itself.", PRACTICE)
    yield Check(name, "At all hours", f"It reports {papers.profile.words.is_unset} too, as a technical event and not as an intruder.", PRACTICE)
