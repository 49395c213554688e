"""Reminders about fire alarms; the local fire code and a competent person decide."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.asked import limit_text, limited
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import rule

COOKING = "smoke_cooking_m"
FIRE_CODE = "the local fire code, which decides number, kind and place of fire alarms"


@rule("smoke-where-cooking", Severity.FIX, limits=(COOKING,), source=FIRE_CODE,
      compares="the rooms of smoke units with the rooms where food is cooked",
      mends="Put a heat unit there and the smoke unit elsewhere, as the local fire code asks; a competent person decides on fire cover.")
def smoke_where_cooking(papers: Papers, results: Results) -> Iterator[Hit]:
    """A smoke unit is planned where food is cooked.

    It goes off at every meal until somebody takes it down, and then there is none. This is a reminder, no judgement on fire cover.
    """
    rooms = papers.rooms()
    for name, device in papers.job.devices.items():
        room = papers.room_of(device)
        if papers.sheet_of[name].kind == "smoke" and room in rooms and rooms[room][1].cooking:
            storey, field = rooms[room][0], f"job.devices.{name}.{'room' if device.room else 'protects'}"
            yield Hit(field, f"{name} is a smoke unit in {room}, where food is cooked; {limit_text(papers, COOKING)} is the "
                      f"{papers.profile.limits[COOKING].means}.",
                      "Choose the heat unit and the place that the local fire code asks for; a competent person decides on fire cover.",
                      (Value("smoke unit in", room, "", field), Value("cooking", "true", "", f"job.premises.storeys.{storey}.rooms.{room}.cooking"),
                       limited(papers, COOKING, "wanted at least")))
