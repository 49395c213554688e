"""How long does somebody need from the moving door to the end of the entry time, and out again?

Entry: T = (t_d + s / v + s_st / v_st + t_u) × F; exit: T = (s / v + s_st / v_st + t_d) × F. The door, then the way on the flat and on stairs at
the slowest user's speed, then unsetting; all of it raised by the reserve that is kept on a worked out time. Source: common practice
(doors, unsetting, reserve, as the profile's limits say); published studies of walking for the speeds.
"""
from dataclasses import dataclass

from generator.calc.bounds import not_negative, positive, within
from generator.calc.givens import lacking, of_profile
from generator.calc.unknown import Unknown
from generator.calc.working import Given, Working
from generator.geometry.routes import Route
from generator.model.papers import Papers

SPEEDS = {"fit": "walk_fit_mps", "slow": "walk_slow_mps", "frail": "walk_frail_mps"}
DOOR, STAIRS, CODE, TAG, RESERVE = "entry_door_s", "stairs_mps", "code_entry_s", "tag_entry_s", "time_reserve_factor"
USUAL = "slow"
LIMITS = (DOOR, SPEEDS[USUAL], STAIRS, CODE, TAG, RESERVE)
MOST_RESERVE = 10
OPEN = "Doors between rooms are taken as open."
NOT_SAID = "Nothing says how the slowest user walks (household.slowest); taken as a slow one."


@dataclass(frozen=True)
class Pace:
    """How fast people of this job are: at a door, on the flat, on stairs, at a keypad, at a reader; and what is added in reserve."""

    door: Given
    speed: Given
    stairs: Given
    code: Given
    tag: Given
    reserve: Given
    notes: tuple[str, ...]

    @property
    def stairs_count(self) -> float:
        """How many metres on the flat take as long as one on stairs."""
        return self.speed.value / self.stairs.value

    def unset(self, means: str) -> Given:
        """The time to unset by a code or a tag."""
        return self.code if means == "code" else self.tag


@dataclass(frozen=True)
class Parts:
    """A time in seconds, part by part; without the reserve."""

    door_s: float
    flat_s: float
    stairs_s: float
    unset_s: float

    @property
    def whole_s(self) -> float:
        """All of it."""
        return self.door_s + self.flat_s + self.stairs_s + self.unset_s


def pace_of(papers: Papers) -> Pace | Unknown:
    """The pace of a job's slowest user. Errors: ValueError with the name of a limit that no calculation takes."""
    household = papers.job.household
    slowest = household.slowest if household else None
    door, speed, stairs, code, tag, reserve = found = [of_profile(papers, key, symbol) for key, symbol in (
        (DOOR, "t_d"), (SPEEDS[slowest or USUAL], "v"), (STAIRS, "v_st"), (CODE, "t_u"), (TAG, "t_u"), (RESERVE, "F"))]
    reason = lacking(*found)
    if reason:
        return reason
    positive(speed.name, speed.value)
    positive(stairs.name, stairs.value)
    for one in (door, code, tag):
        not_negative(one.name, one.value)
    within(reserve.name, reserve.value, 1, MOST_RESERVE)
    return Pace(door, speed, stairs, code, tag, reserve, (OPEN,) if slowest else (OPEN, NOT_SAID))


def parts_in(pace: Pace, route: Route, means: str) -> Parts:
    """The time from the moving door until the alarm is off."""
    return Parts(pace.door.value, route.flat_m / pace.speed.value, route.slope_m / pace.stairs.value, pace.unset(means).value)


def needed_s(pace: Pace, parts: Parts) -> float:
    """A time with its reserve."""
    return parts.whole_s * pace.reserve.value


def metres_left(pace: Pace, allowed_s: float, means: str, slope_m: float = 0.0) -> float:
    """How long a way on the flat may be so that so many seconds are enough, reserve included; below 0 if none is short enough."""
    return (allowed_s / pace.reserve.value - pace.door.value - slope_m / pace.stairs.value - pace.unset(means).value) * pace.speed.value


def entry_working(pace: Pace, door: str, unit: str, route: Route, means: str, programmed: Given, notes: tuple[str, ...] = ()) -> Working:
    """The entry time that a way needs, beside the one programmed."""
    words, symbols, inputs = _terms(pace, route)
    by = pace.unset(means)
    return Working(f"Entry time needed from {door} to {unit}", f"(door + {words} + unsetting by {means}) × reserve",
                   f"T = (t_d + {symbols} + t_u) × F", (pace.door, *inputs, by, pace.reserve), "T", needed_s(pace, parts_in(pace, route, means)), "s",
                   programmed, "most", (*pace.notes, *notes))


def exit_working(pace: Pace, door: str, unit: str, route: Route, programmed: Given, notes: tuple[str, ...] = ()) -> Working:
    """The exit time that the same way needs back, until the door is shut behind the last."""
    words, symbols, inputs = _terms(pace, route)
    parts = parts_in(pace, route, "code")
    return Working(f"Exit time needed from {unit} out by {door}", f"({words} + door) × reserve", f"T = ({symbols} + t_d) × F",
                   (*inputs, pace.door, pace.reserve), "T", (parts.whole_s - parts.unset_s) * pace.reserve.value, "s",
                   programmed, "most", (*pace.notes, *notes))


def _terms(pace: Pace, route: Route) -> tuple[str, str, tuple[Given, ...]]:
    """The way's part of a formula, in words and in symbols, with its numbers."""
    flat = (Given("way on the flat", "s", route.flat_m, "m", "the plan: the shortest way that a person can walk"), pace.speed)
    if not route.stairs:
        return "way ÷ speed", "s / v", flat
    slope = Given("way on stairs, along the slope", "s_st", route.slope_m, "m", "the plan: stairs and the heights of their floors")
    return "way ÷ speed + stairs ÷ speed on stairs", "s / v + s_st / v_st", (*flat, slope, pace.stairs)
