"""Is there a way in that nothing detects, a detector that something else sets off, one that sleepers meet?"""
from collections.abc import Iterator

from generator.calc.house.disturbed import SUN_FROM, SUN_TO, Better, InView, Kind, better
from generator.calc.house.gaps import STEP, turned_to_see
from generator.calc.house.reach import GROUND, HEIGHT, SIDE, STAND, Reach
from generator.calc.house.views import HIGH, LOW, Seen
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import Where, rule
from generator.tables.sources import PRACTICE
from generator.terms.show import amount, count, digits, number, rough, sentence_list

PLAN = Where("the job gives a plan", lambda papers: any(room.corner_m or room.outline_m for storey in papers.job.premises.storeys.values()
                                                         for room in storey.rooms.values()))
ANIMALS = Where("animals are in the house while the alarm is set", lambda papers: bool(papers.job.household and papers.job.household.animals))
SLEEPERS = Where("the job gives a plan and part sets, and somebody sleeps in the house",
                 lambda papers: bool(papers.job.part_sets) and PLAN.holds(papers) and any(room.sleeping for _, room in papers.rooms().values()))


@rule("opening-undetected", Severity.FIX, limits=(HEIGHT, STAND, SIDE), also=(STEP, LOW, HIGH), source="heights within reach: the profile",
      compares="the openings to the open air that can be reached, from the ground or a roof, with the units that watch them and the detectors that see "
               "one step inside them",
      mends="Add a contact, let a movement detector see it, or accept this with the customer's signed exclusion.")
def opening_undetected(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """An opening that can be reached has no detection.

    Whoever comes in by it meets no alarm until they walk into the view of another room's detector, if they ever do.
    """
    for way in results.coverage.ways:
        if not way.bare:
            continue
        second = _second(papers, way.room)
        if second and (isinstance(way.reach, Unknown) or way.reach.reached):
            yield Unchecked(f"nothing is said to detect who comes in by {way.opening}, and {second} has a second circuit there of which it is not "
                            f"said what it watches; write protects_2 in job.devices.{second}")
        elif isinstance(way.reach, Unknown):
            yield Unchecked(f"nothing detects who comes in by {way.opening}, and {way.reach.reason}")
        elif way.reach.reached:
            storey, _ = papers.openings()[way.opening]
            yield _undetected(way.opening, way.room, storey, way.reach, turned_to_see(papers, results.coverage.views, way))


def _second(papers: Papers, room: str) -> str | None:
    """A contact of the room whose second circuit is used for something that the job does not name."""
    return next((name for name, one in papers.job.devices.items()
                 if papers.sheet_of[name].kind == "contact" and one.use_input_2 and not one.protects_2 and papers.room_of(one) == room), None)


def _undetected(opening: str, room: str, storey: str, reach: Reach, turned: tuple[str, float] | None) -> Hit:
    where = reach.origin if reach.origin == GROUND else f"the roof {reach.origin}"
    return Hit(f"job.premises.storeys.{storey}.openings.{opening}",
               f"{opening} is {rough(reach.above_m, 'm')} above {where}, within reach up to {reach.limit.shown()}, and nothing detects who "
               "comes in by it.",
               f"{f'Turn {turned[0]}, with faces_deg: {turned[1]:g} it sees one step inside, and look again at what else it sees; or a' if turned else 'A'}dd "
               f"a contact with protects: {opening}, or a movement detector in {room} that sees one step inside it; or accept this "
               "with the customer's signed exclusion, which the certificate then names.",
               (Value("above", digits(reach.above_m), "m", reach.height_from),
                Value("within reach", digits(reach.limit.value), "m", reach.limit.origin),
                Value("units that detect", "none", "", "job.devices")))


@rule("detector-disturbed", Severity.FIX, also=(SUN_FROM, SUN_TO, LOW, HIGH), source=PRACTICE, where=PLAN,
      compares="the windows and warm things in each movement detector's view with none",
      mends="Turn it to look along the windows, hang it in another corner, or take one with a second technology.")
def detector_disturbed(papers: Papers, results: Results) -> Iterator[Hit]:
    """A movement detector looks at a window or at something that gets warm.

    Sun that moves over a curtain and a radiator that comes on look like a person to it: false alarms, and in the end no response.
    """
    for name, found in results.coverage.disturbed.items():
        sources = [one for one in found if one.kind in ("window", "heat")]
        if sources:
            said = "; ".join(_source(one) for one in sources)
            yield Hit(f"job.devices.{name}.faces_deg", f"{name} has {count(len(sources), 'source')} of heat in view: {said}.",
                      _mend(papers, results, name, ("window", "heat"), "take a unit with a second technology"),
                      (*(Value(one.name, number(one.away_m), "m away", "the plan") for one in sources),
                       Value("wanted in view", "none", "", PRACTICE)))


def _source(one: InView) -> str:
    if one.kind == "heat":
        return f"{one.name}, which gets warm, {amount(one.away_m, 'm')} away"
    facing = "" if one.bearing_deg is None else f", facing {amount(one.bearing_deg, '°', 0)} by the compass{', so the sun comes in' if one.sun else ''}"
    return f"the window {one.name}, {amount(one.away_m, 'm')} away{facing}"


def _mend(papers: Papers, results: Results, name: str, wanted: tuple[Kind, ...], other: str) -> str:
    """The nearest heading or corner from which none of it is in view, and what else would do."""
    view = results.coverage.views[name]
    found = better(papers, name, view, wanted) if isinstance(view, Seen) else None
    return f"{_better(found)}Or {other}." if found else f"No heading and no corner of this room is free of it: {other}."


def _better(found: Better) -> str:
    share = f"it then sees {number(found.percent, 0)} % as much floor as now, and none of them"
    if found.at is None:
        return f"Turn it: faces_deg: {found.faces_deg:g}; {share}. "
    return f"Hang it at [{digits(found.at.x)}, {digits(found.at.y)}] with faces_deg: {found.faces_deg:g}; {share}. "


@rule("animal-heavy", Severity.FIX, source="the units' equipment sheets", where=ANIMALS,
      compares="the heaviest animal that is in the house while the alarm is set with what each movement detector lets pass",
      mends="Take a unit that lets it pass, keep the animal out of that room, or watch the room's openings instead.")
def animal_heavy(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """An animal is heavier than a movement detector lets pass.

    It sets off the alarm whenever it walks by, and the alarm is soon left unset.
    """
    animal, heaviest = max(papers.job.household.animals.items(), key=lambda one: one[1].mass_kg)
    at = f"job.household.animals.{animal}.mass_kg"
    for name, device in papers.job.devices.items():
        sheet = papers.sheet_of[name]
        if sheet.kind != "movement":
            continue
        most = sheet.coverage.animal_kg if sheet.coverage else None
        if most is None:
            yield Unchecked(f"the sheet of {name} gives no coverage.animal_kg; write in the sheet {device.sheet} the mass that it lets "
                            "pass, or 0 for none")
        elif heaviest.mass_kg > most:
            yield Hit(f"job.devices.{name}.sheet",
                      f"{name} lets animals up to {amount(most, 'kg')} pass; {animal} weighs {amount(heaviest.mass_kg, 'kg')}.",
                      f"Take a unit whose sheet gives animal_kg of {amount(heaviest.mass_kg, 'kg')} or more, keep {animal} out of its view while "
                      "the alarm is set, or watch the openings of the room instead.",
                      (Value("animal", number(heaviest.mass_kg), "kg", at),
                       Value("lets pass", number(most), "kg", f"sheet {device.sheet}: coverage.animal_kg")))


@rule("animal-climbs", Severity.FIX, source=PRACTICE, where=Where("there are animals and a plan",
                                                                  lambda papers: ANIMALS.holds(papers) and PLAN.holds(papers)),
      compares="the things in a movement detector's view that an animal can get onto with none",
      mends="Move the thing out of view, turn the detector, or hang it in another place.")
def animal_climbs(papers: Papers, results: Results) -> Iterator[Hit]:
    """An animal can climb into a movement detector's view.

    What a detector lets pass holds for animals on the floor. Up on a sofa one comes nearer, and looks larger than a person far off.
    """
    for name, found in results.coverage.disturbed.items():
        climbed = [one for one in found if one.kind == "climbed"]
        if climbed:
            said = sentence_list([f"{one.name} ({rough(one.top_m, 'm')} high, {amount(one.away_m, 'm')} away)" for one in climbed])
            yield Hit(f"job.devices.{name}.faces_deg", f"{name} sees what an animal can get onto: {said}.",
                      _mend(papers, results, name, ("climbed",), f"move {sentence_list([one.name for one in climbed])} out of its view"),
                      (*(Value(one.name, digits(one.top_m), "m high", "the plan") for one in climbed), Value("wanted in view", "none", "", PRACTICE)))


@rule("sleepers-way", Severity.FIX, also=(LOW, HIGH), source=PRACTICE, where=SLEEPERS,
      compares="the units that act in a part set with those that see or watch the way from a bedroom to the nearest bathroom",
      mends="Leave the unit out in that part set.")
def sleepers_way(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A part set leaves a detector active on the sleepers' way.

    Whoever gets up at night sets off the alarm; after the second time the house is never part-set again.
    """
    met: dict[tuple[str, str], list] = {}
    lost: dict[str, list[str]] = {}
    for one in results.coverage.sleepers:
        if isinstance(one.way, Unknown):
            lost.setdefault(one.way.reason, []).append(one.bedroom)
        for unit in one.met:
            met.setdefault((unit.unit, unit.part_set), []).append((one, unit))
    for reason, rooms in lost.items():
        yield Unchecked(f"the way from {sentence_list(rooms)} to a bathroom is not known: {reason}")
    for (name, part), ways in met.items():
        one, unit = ways[0]
        bedrooms = sentence_list([way.bedroom for way, _ in ways])
        # One part set is all there is to leave it out in, besides what is written.
        left = [*papers.job.devices[name].left_out_in, part]
        yield Hit(f"job.devices.{name}.left_out_in",
                  f"{name} acts in the part set {part} and meets whoever goes from {bedrooms} to {one.bathroom}, in {unit.room}.",
                  f"Write left_out_in: [{', '.join(left)}] at {name}.",
                  (Value("met after", number(unit.after_m), "m", "the plan"),
                   Value(f"way {' to '.join(one.way.rooms)}", number(one.way.length_m), "m", "the plan"),
                   Value("left out in", ", ".join(left[:-1]) or "none", "", f"job.devices.{name}.left_out_in"),
                   Value("part set", part, "", f"job.part_sets.{part}")))
