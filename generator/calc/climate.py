"""May each unit stand where it stands: coldest and warmest of its place, held against what its plate allows?"""
from dataclasses import dataclass

from generator.calc.unknown import Unknown
from generator.calc.working import Given, of_limit
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.model.ratings import ENVIRONMENTAL_CLASSES

# Classes for the open air: sheltered, and not.
OPEN_AIR = ("III", "IV")
# The limits of all classes.
CLASSES = ("class_1_low_c", "class_1_high_c", "class_2_low_c", "class_2_high_c", "class_3_low_c", "class_3_high_c", "class_4_low_c", "class_4_high_c")


@dataclass(frozen=True)
class Climate:
    """A unit and its place, in °C: what the room's year is and what the plate allows, with where each was given; `fits` are the classes
    whose temperatures hold the place's."""

    unit: str
    room: str
    coldest: Given | None
    warmest: Given | None
    least: Given | None
    most: Given | None
    of_class: str | None
    fits: tuple[str, ...]

    @property
    def too_cold(self) -> bool:
        """Whether the place gets colder than the plate allows."""
        return bool(self.coldest and self.least and self.coldest.value < self.least.value)

    @property
    def too_warm(self) -> bool:
        """Whether the place gets warmer than the plate allows."""
        return bool(self.warmest and self.most and self.warmest.value > self.most.value)

    @property
    def indoor_class_outside(self) -> bool:
        """Whether a unit for indoors hangs in the open air."""
        return self.room == OUTSIDE and self.of_class is not None and self.of_class not in OPEN_AIR


def limits_of_class(papers: Papers, name: str) -> tuple[Given | None, Given | None]:
    """Lowest and highest temperature of an environmental class, where the profile has them."""
    at = 2 * ENVIRONMENTAL_CLASSES.index(name)
    return of_limit(papers.profile, CLASSES[at], "T"), of_limit(papers.profile, CLASSES[at + 1], "T")


def climates(papers: Papers) -> dict[str, Climate | Unknown]:
    """Every unit that is fitted in a room or outside, the control unit first."""
    own = papers.job.control_unit
    places = {own.id: (own.room, own.sheet)} | {name: (papers.room_of(one), one.sheet)
              for name, one in papers.job.devices.items() if papers.room_of(one)}
    return {name: _climate(papers, name, room, sheet) for name, (room, sheet) in places.items()}


def _climate(papers: Papers, name: str, room: str, sheet: str) -> Climate | Unknown:
    plate = papers.sheet_of[name].environment
    if plate is None:
        return Unknown(f"the sheet of {name} gives no environment; write least_c and most_c under environment in the sheet {sheet}")
    by_class = limits_of_class(papers, plate.environmental_class) if plate.environmental_class else (None, None)
    own = [Given(f"{word} temperature by its plate", "T", value, "°C", f"sheet {sheet}: environment.{key}") if value is not None else None
           for word, key, value in (("lowest", "least_c", plate.least_c), ("highest", "most_c", plate.most_c))]
    least, most = (one or other for one, other in zip(own, by_class))
    found = papers.rooms().get(room)
    if found is None:
        return Climate(name, room, None, None, least, most, plate.environmental_class, OPEN_AIR)
    storey, here = found
    ends = [Given(f"{word} temperature of {room}", "T", value, "°C",
                  f"job.premises.storeys.{storey}.rooms.{room}.{key}") if value is not None else None
            for word, key, value in (("lowest", "coldest_c", here.coldest_c), ("highest", "warmest_c", here.warmest_c))]
    if None in ends:
        return Unknown(f"{room} gives no {' and no '.join(key for key, one in zip(('coldest_c', 'warmest_c'), ends) if one is None)}")
    fits = tuple(one for one in ENVIRONMENTAL_CLASSES if _holds(limits_of_class(papers, one), ends))
    return Climate(name, room, *ends, least, most, plate.environmental_class, fits)


def _holds(plate: tuple[Given | None, Given | None], place: list[Given]) -> bool:
    return None not in plate and plate[0].value <= place[0].value and place[1].value <= plate[1].value
