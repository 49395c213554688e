"""How long does a given standby battery carry its loads at rest, with the alarm still to come?

The two lines of `need` turned round. The shorter time governs, so that a battery runs for the hours asked for if and only
if it is large enough.
"""
from collections.abc import Sequence

from generator.calc.bounds import positive
from generator.calc.power.need import MIN_IN_H, Allowance, Duty, Load, currents_a, together
from generator.calc.power.peukert import rate_factor
from generator.calc.working import WORKED_OUT, Given, Working, of_source, worked_out
from generator.tables.lead_acid import PEUKERT, RATED, RATED_H


def runs(battery_ah: Given, loads: Sequence[Load], times: Duty, allowance: Allowance) -> Working | None:
    """The shorter of both times, held against the hours asked for; None if nothing is taken at rest."""
    positive(battery_ah.name, battery_ah.value)
    if not currents_a(loads)[0]:
        return None
    lines = (_first(battery_ah, loads, times, allowance), _second(battery_ah, loads, times, allowance))
    return min((one for one in lines if one), key=lambda one: one.value)


def _first(battery_ah: Given, loads: Sequence[Load], times: Duty, allowance: Allowance) -> Working:
    rest, alarm = currents_a(loads)
    left = battery_ah.value / positive(allowance.factor.name, allowance.factor.value) - alarm * times.alarm_min.value / MIN_IN_H
    return _lasts("(capacity / factor − current in alarm × hours in alarm) / current at rest", "T = (C / F − I_a × t_a / 60) / I_q",
                  (*together(loads), battery_ah, times.alarm_min, allowance.factor), left / rest, times)


def _second(battery_ah: Given, loads: Sequence[Load], times: Duty, allowance: Allowance) -> Working | None:
    cold = allowance.cold
    if cold is None:
        return None
    rest, alarm = currents_a(loads)
    held = battery_ah.value / positive(allowance.ageing.name, allowance.ageing.value) / cold.factor
    rates = [rate_factor(capacity_ah=held, current_a=current, exponent=allowance.exponent.value, rated_h=RATED_H)
             for current in (rest, alarm)]
    left = held - alarm * times.alarm_min.value / MIN_IN_H * rates[1]
    inputs = (*together(loads), battery_ah, times.alarm_min, allowance.ageing, worked_out(cold.working), allowance.exponent,
              of_source("hours of the battery's rating", "H", RATED_H, "h", RATED), Given("held when old and cold", "C′", held, "Ah", WORKED_OUT),
              of_source("rate at rest", "r_q", rates[0], "", PEUKERT), of_source("rate in alarm", "r_a", rates[1], "", PEUKERT))
    return _lasts("(capacity / (age × cold) − current in alarm × hours in alarm × its rate) / (current at rest × its rate)",
                  "T = (C′ − I_a × t_a / 60 × r_a) / (I_q × r_q), C′ = C / (A × K), r = (I × H / C′)^(k − 1)", inputs,
                  left / (rest * rates[0]), times)


def _lasts(words: str, symbols: str, inputs: tuple[Given, ...], hours: float, times: Duty) -> Working:
    return Working("How long the battery lasts", words, symbols, inputs, "T", max(0.0, hours), "h", times.rest_h, "least",
                   ("Kept back is the charge for the alarm.",), digits=3)
