"""How large must a standby battery be? Two lines, of which the larger governs.

The first is the trade's: charge at rest and in alarm, times one factor for age and cold. The second names what that factor
stands for: age, cold and the rate of discharge, each with its own. They say the same thing in two ways, so their product
would count age and cold twice.
"""
from collections.abc import Sequence
from dataclasses import dataclass

from generator.calc.bounds import not_negative, positive, within
from generator.calc.power.cold import Cold
from generator.calc.power.peukert import MOST_EXPONENT, capacity_for, rate_factor
from generator.calc.working import WORKED_OUT, Given, Working, of_source, worked_out
from generator.tables.lead_acid import PEUKERT, RATED, RATED_H
from generator.terms.show import figure

MIN_IN_H, MA_IN_A = 60, 1000


@dataclass(frozen=True)
class Load:
    """What one thing takes from the battery: at rest, and in all while there is an alarm.

    `rest_from` and `alarm_from` say where the currents are given. `may_go` is false for what cannot be left out: the
    control unit itself.
    """

    name: str
    rest_ma: float
    alarm_ma: float
    rest_from: str
    alarm_from: str
    may_go: bool = True

    def __post_init__(self) -> None:
        not_negative(f"current of {self.name} at rest", self.rest_ma)
        not_negative(f"current of {self.name} in alarm", self.alarm_ma)


@dataclass(frozen=True)
class Duty:
    """For how long the battery must carry its loads: hours at rest, then minutes in alarm, each with its limit."""

    rest_h: Given
    alarm_min: Given
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Allowance:
    """What is added to the plain charge: the one factor of the first line, and what the second names in its place.

    `cold` is None where it is not known how cold the battery gets: then there is no second line.
    """

    factor: Given
    ageing: Given
    exponent: Given
    cold: Cold | None


@dataclass(frozen=True)
class Need:
    """The capacity asked for in Ah at the 20 h rate, and both ways to it. `no_second` says why there is no second."""

    ah: float
    first: Working
    second: Working | None
    no_second: str

    @property
    def governs(self) -> Working:
        """The line that asks for more."""
        return max((one for one in (self.first, self.second) if one), key=lambda one: one.value)


def duty(rest_h: Given, alarm_min: Given, fire_rest_h: Given | None = None, fire_alarm_min: Given | None = None) -> Duty:
    """The times that govern: of an intruder's and a fire's the longer, at rest and in alarm each for itself.

    Pass the times of fire duties only for a job that has a fire unit.
    """
    rest, alarm = _longer(rest_h, fire_rest_h), _longer(alarm_min, fire_alarm_min)
    pairs = ((rest, rest_h, fire_rest_h), (alarm, alarm_min, fire_alarm_min))
    notes = tuple(f"The longer of {intruder.shown()} and, for fire duties, {fire.shown()}." for _, intruder, fire in pairs if fire)
    positive(rest.name, rest.value)
    not_negative(alarm.name, alarm.value)
    return Duty(rest, alarm, notes)


def need(loads: Sequence[Load], times: Duty, allowance: Allowance) -> Need:
    """What a battery must hold to carry the loads; more load never asks for less.

    Errors: ValueError if nothing takes any current, or with the name of a number that cannot be.
    """
    first = _first(loads, times, allowance)
    second = _second(loads, times, allowance)
    none = "" if second else "the second line is not worked out, because it is not known how cold the battery's place gets"
    return Need(max(one.value for one in (first, second) if one), first, second, none)


def currents_a(loads: Sequence[Load]) -> tuple[float, float]:
    """All currents together in A: at rest, and in alarm."""
    return sum(one.rest_ma for one in loads) / MA_IN_A, sum(one.alarm_ma for one in loads) / MA_IN_A


def together(loads: Sequence[Load]) -> tuple[Given, ...]:
    """Each load's currents and their sums, as numbers of a working."""
    rest, alarm = currents_a(loads)
    each = [one for load in loads for one in (
        Given(f"{load.name}, at rest", "", load.rest_ma, "mA", load.rest_from),
        Given(f"{load.name}, in alarm", "", load.alarm_ma, "mA", load.alarm_from))]
    return (*each, Given("current at rest, all together", "I_q", rest, "A", WORKED_OUT),
            Given("current in alarm, all together", "I_a", alarm, "A", WORKED_OUT))


def _longer(one: Given, other: Given | None) -> Given:
    return other if other and other.value > one.value else one


def _first(loads: Sequence[Load], times: Duty, allowance: Allowance) -> Working:
    rest, alarm = currents_a(loads)
    factor = within(allowance.factor.name, allowance.factor.value, 1, 10)
    charge = rest * times.rest_h.value + alarm * times.alarm_min.value / MIN_IN_H
    positive("charge that all loads take together", charge)
    return Working("Battery asked for, by one factor", "factor × (current at rest × hours + current in alarm × hours in alarm)",
                   "C₁ = F × (I_q × T + I_a × t_a / 60)", (*together(loads), times.rest_h, times.alarm_min, allowance.factor),
                   "C₁", factor * charge, "Ah", notes=times.notes)


def _second(loads: Sequence[Load], times: Duty, allowance: Allowance) -> Working | None:
    cold = allowance.cold
    if cold is None:
        return None
    rest, alarm = currents_a(loads)
    ageing = within(allowance.ageing.name, allowance.ageing.value, 1, 10)
    exponent = within(allowance.exponent.name, allowance.exponent.value, 1, MOST_EXPONENT)
    phases = ((rest, times.rest_h.value), (alarm, times.alarm_min.value / MIN_IN_H))
    held = capacity_for(phases, exponent=exponent, rated_h=RATED_H)
    rates = [rate_factor(capacity_ah=held, current_a=current, exponent=exponent, rated_h=RATED_H) for current in (rest, alarm)]
    inputs = (*together(loads), times.rest_h, times.alarm_min, allowance.exponent,
              of_source("hours of the battery's rating", "H", RATED_H, "h", RATED),
              of_source("rate at rest", "r_q", rates[0], "", PEUKERT), of_source("rate in alarm", "r_a", rates[1], "", PEUKERT),
              Given("held when old and cold", "C′", held, "Ah", WORKED_OUT), allowance.ageing, worked_out(cold.working))
    notes = (*times.notes, *cold.working.notes,
             f"The rate is that of a battery that still holds {figure(held, 'Ah')}; a rate below 1 is counted as 1.")
    return Working("Battery asked for, by age, cold and rate",
                   "age × cold × (current at rest × hours × its rate + current in alarm × hours in alarm × its rate)",
                   "C₂ = A × K × C′, C′ = I_q × T × r_q + I_a × t_a / 60 × r_a, r = (I × H / C′)^(k − 1)",
                   inputs, "C₂", ageing * cold.factor * held, "Ah", notes=notes)
