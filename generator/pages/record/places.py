"""Places and units as tables: the climate of each place, the schedule of positions, what no unit watches."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.pages.paper import Table, table
from generator.pages.parts import place_of, units_of
from generator.procedure.handling import opening_name, room_name
from generator.terms.show import amount, capital, sentence_list

COARSE = ("Kind", "Place", "Position", "Purpose", "Takes in", "Zone and text", "What its zone does", "Part sets")
PART_OF = {"timed-entry": "starts the entry time", "entry-route": "waits while the entry time runs", "immediate": "alarm at once",
           "all-hours": "alarm also while unset", "technical": "tells of a fault of the house", "hold-up": "call for help",
           "medical": "call for help",
           "fire": "fire, at all hours", "carbon-monoxide": "gas, at all hours"}
NO_PLACE = "carried"
APPLIES_NOT = "does not apply"
WATCHES_SPACE = ("movement", "glass-break", "shock")


def place_key(papers: Papers, name: str) -> str | None:
    """The room a unit is in, `outside`, or None for one that is carried."""
    own = name == papers.job.control_unit.id
    return papers.job.control_unit.room if own else papers.room_of(papers.job.devices[name])


def classes_table(papers: Papers) -> Table:
    """Each place with units in it: how cold and warm it gets, and for which environmental class its units are made."""
    units: dict[str, list[str]] = {}
    for name in units_of(papers):
        if place := place_key(papers, name):
            units.setdefault(place, []).append(name)
    rooms = papers.rooms()
    rows = []
    for place in (*rooms, OUTSIDE):
        if place in units:
            room = rooms[place][1] if place in rooms else None
            rows.append((capital(room_name(papers, place)), _degrees(room and room.coldest_c), _degrees(room and room.warmest_c),
                         sentence_list([_class_of(papers, name) for name in units[place]])))
    return table("Places and environmental classes", "Place", ("Coldest", "Warmest", "Units and the class each is made for"), rows,
                 "not given yet: ask the surveyor")


def _degrees(value: float | None) -> str:
    return "" if value is None else amount(value, "°C")


def _class_of(papers: Papers, name: str) -> str:
    climate = papers.sheet_of[name].environment
    return f"{name} {climate.environmental_class if climate and climate.environmental_class else 'class not given'}"


def positions_table(papers: Papers, results: Results) -> Table:
    """Every unit as it is to be fitted: the schedule of the proposal."""
    return table("Schedule of positions", "Unit", COARSE, ((name, *_position(papers, results, name)) for name in units_of(papers)))


def _position(papers: Papers, results: Results, name: str) -> Iterator[str]:
    own = name == papers.job.control_unit.id
    place = papers.job.control_unit if own else papers.job.devices[name]
    sheet = papers.sheet_of[name]
    yield f"{sheet.name} ({sheet.kind.replace('-', ' ')})"
    yield place_of(papers, name) or NO_PLACE
    yield place.position or ("" if place_key(papers, name) else APPLIES_NOT)
    yield sheet.everyday
    yield coverage(papers, name)
    yield numbers_of(results, name) or (APPLIES_NOT if own else "")
    yield APPLIES_NOT if own else attributes(papers, name)
    yield APPLIES_NOT if own else part_sets(papers, name)


def coverage(papers: Papers, name: str) -> str:
    """What a detector takes in, as its sheet says: never what it takes in here."""
    one = papers.sheet_of[name].coverage
    if one is None:
        return "" if papers.sheet_of[name].kind in WATCHES_SPACE else APPLIES_NOT
    wide = f", {amount(one.angle_deg, '°')} wide" if one.angle_deg is not None else ", all round"
    animal = f"; lets an animal of {amount(one.animal_kg, 'kg')} pass, fitted as its papers say" if one.animal_kg is not None else ""
    return f"{amount(one.range_m, 'm')}{wide}{animal}"


def numbers_of(results: Results, name: str) -> str:
    """A unit's numbers with the texts of its zones."""
    return sentence_list([" ".join(filter(None, (row.list.removesuffix("s"), str(row.zone or row.number),
                                                 row.text))) for row in results.slots.of(name)])


def attributes(papers: Papers, name: str) -> str:
    """What a unit's zone does, in words."""
    device = papers.job.devices[name]
    told = (PART_OF.get(device.role or "", ""), "may be left out by a user" if device.omit else "",
            "the keypad chimes when it acts" if device.chime else "",
            "may confirm the alarm of another zone" if device.confirms else "", f"{device.signal} in the house" if device.signal else "",
            "two actions at once" if papers.sheet_of[name].two_action else "")
    return "; ".join(filter(None, told)) or APPLIES_NOT


def part_sets(papers: Papers, name: str) -> str:
    """In which part sets a unit does not act."""
    names = [papers.job.part_sets[key].name for key in papers.job.devices[name].left_out_in]
    if names:
        return f"left out in {sentence_list(names)}"
    return "acts in each" if papers.job.devices[name].role and papers.job.part_sets else APPLIES_NOT


def watched(papers: Papers) -> dict[str, list[str]]:
    """Every opening that a unit watches itself, with the units; one that hangs on a second input is watched by that unit."""
    found: dict[str, list[str]] = {}
    for name, device in papers.job.devices.items():
        for key in dict.fromkeys((device.protects, device.protects_2 if device.use_input_2 else None)):
            if key:
                found.setdefault(key, []).append(name)
    return found


def unwatched(papers: Papers) -> list[str]:
    """The keys of the openings to the open air that no unit watches itself."""
    by = watched(papers)
    return [key for key, (_, one) in papers.openings().items() if OUTSIDE in one.wall and key not in by]


def sounders_run(papers: Papers) -> str:
    """How long sounders outside run, or that there is none."""
    outside = any(device.room == OUTSIDE and papers.sheet_of[name].kind == "sounder" for name, device in papers.job.devices.items())
    return amount(papers.job.times.sounder_min, "min") if outside else "does not apply: no sounder is planned outside"
