"""The tests of smoke, heat and carbon monoxide units: the local fire code first, and only what it leaves to the pack."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure.check import BY_STATION, PRACTICE, Check, both, limit
from generator.terms.show import count, day

CODE = "the local fire code decides"


def of_fire(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """Tested by its code, heard, told apart from an intruder, and dated."""
    sheet = papers.sheet_of[name]
    heard = limit(papers, "bedroom_door_dba") or limit(papers, "bedhead_dba")
    level = f" Figure of the profile: {heard[0]}." if heard else ""
    yield Check(name, "By the fire code", "Tested as the local fire code and the device's own listing ask; heard in every "
                f"bedroom with the doors shut.{level}", both(CODE, *([heard[1]] if heard else [])), "dB(A)")
    yield Check(name, "Place", _place(papers, sheet.kind), both(CODE, *_sources(papers, sheet.kind)), "m")
    yield Check(name, "Own sound", f"Its sound is another than that of an intruder, and it sounds {papers.profile.words.is_part_set} and "
                                   f"{papers.profile.words.is_unset} too.", PRACTICE)
    if papers.job.monitoring:
        event = "carbon monoxide" if sheet.kind == "carbon-monoxide" else "fire"
        yield Check(name, "Event at the station", f"The station reads {event}, not intruder.", PRACTICE, BY_STATION)
    yield Check(name, "Replace by", _replaced(papers, name), "the device's own plate", "date")


def _place(papers: Papers, kind: str) -> str:
    found = {name: limit(papers, name) for name in PLACES[kind]}
    if not all(found.values()):
        return "Where the local fire code and its own papers ask for it."
    return PLACE_WORDS[kind].format(**{name: text[0] for name, text in found.items() if text})


def _sources(papers: Papers, kind: str) -> list[str]:
    found = [limit(papers, name) for name in PLACES[kind]]
    return [one[1] for one in found if one] if all(found) else []


PLACES = {"smoke": ("smoke_cooking_m",), "heat": (), "carbon-monoxide": ("co_near_m", "co_far_m", "co_wall_mm", "co_ceiling_mm", "co_low_c",
                                                                         "co_high_c")}
PLACE_WORDS = {
    "smoke": "As the code asks; usually {smoke_cooking_m} or more from cooking, clear of vents, corners and lamps.",
    "heat": "As the code asks, in the room that it names.",
    "carbon-monoxide": "As its listing asks; usually in the room of the appliance, {co_near_m} to {co_far_m} along the floor from it; on the ceiling "
                       "{co_wall_mm} or more from the wall, on the wall {co_ceiling_mm} or more below the ceiling; never colder than {co_low_c} nor "
                       "warmer than {co_high_c}, not over a sink, not by a vent.",
}


def _replaced(papers: Papers, name: str) -> str:
    device, years = papers.job.devices[name], papers.sheet_of[name].life_years
    if device.replace_by:
        return f"The date on it is {day(device.replace_by)}."
    life = f", {count(years, 'year')} from its making by its sheet" if years else ""
    return f"Its date is not in the plan: read it from the unit and write it here{life}."
