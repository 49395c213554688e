"""Do the batteries of this job carry what hangs on them?

The control unit's battery carries the control unit and every wired unit; a unit with mains of its own stands by itself. A
path of the station without a supply of its own is fed by the control unit, in whose sheet its current is counted.
"""
from dataclasses import dataclass, replace

from generator.calc.givens import known, lacking, of_profile, of_sheet, tried
from generator.calc.power.cold import Cold, cold_factor, cold_points
from generator.calc.power.need import MA_IN_A, Allowance, Duty, Load, Need, currents_a, duty, need, together
from generator.calc.power.standby import Box, Standby, battery_sizes, standby
from generator.calc.radio.repeaters import ways
from generator.calc.unknown import Unknown
from generator.calc.working import Given, Working
from generator.model.papers import Papers
from generator.tables.lead_acid import COLD_AT_C
from generator.terms.show import figure, rough

STANDBY, ALARM, FIRE_STANDBY, FIRE_ALARM = "standby_h", "standby_alarm_min", "fire_standby_h", "fire_alarm_min"
FACTOR, AGEING, EXPONENT = "battery_factor", "battery_ageing_factor", "peukert_most_exponent"
RECHARGE, SHARE = "recharge_h", "recharge_percent"
# The limits that a battery is held against, those of fire and of cold among them, which not every job needs.
USED = (STANDBY, ALARM, FIRE_STANDBY, FIRE_ALARM, FACTOR, AGEING, EXPONENT, RECHARGE, SHARE, *COLD_AT_C)
FIRE_KINDS = ("smoke", "heat")


@dataclass(frozen=True)
class OwnBattery:
    """A unit with mains of its own: how long its battery carries it, against the hours asked for."""

    unit: str
    lasts: Working | Unknown


@dataclass(frozen=True)
class Power:
    """The batteries of a job.

    `hours` are the times asked for, `at_rest` the current that must be measured at rest. `plain` is what the battery would
    need without fire duties, None where these lengthen nothing. `fire_units` are those that bring the duties. `unasked` are
    parts of the answer that are missing, each with the reason; `notes` say what was taken for granted; `cold` is how the factor for
    cold was got, where it is known how cold the battery gets.
    """

    standby: Standby | Unknown
    hours: Duty | Unknown
    at_rest: Working | Unknown
    plain: Need | None
    fire_units: tuple[str, ...]
    own: tuple[OwnBattery, ...]
    unasked: tuple[Unknown, ...]
    notes: tuple[str, ...]
    cold: Working | None = None

    def rest_in_words(self) -> str:
        """The current that must be measured at rest, for the line of the checklist that asks for it; "" where it is not known."""
        return "" if isinstance(self.at_rest, Unknown) else self.at_rest.shown()

    def alarm_in_words(self) -> str:
        """The current that must be measured in alarm, likewise."""
        return "" if isinstance(self.standby, Unknown) else figure(currents_a(self.standby.loads)[1], "A")

    def rest_span_in_words(self, percent: float) -> str:
        """From where to where the current at rest may lie, in A, if it may lie `percent` from what was worked out; "" if that is not known."""
        return "" if isinstance(self.at_rest, Unknown) else _span(self.at_rest.value, percent)

    def alarm_span_in_words(self, percent: float) -> str:
        """The same of the current in alarm."""
        return "" if isinstance(self.standby, Unknown) else _span(currents_a(self.standby.loads)[1], percent)

    def runs_in_words(self) -> str:
        """How long the battery fitted lasts; "" where it is not known."""
        return "" if isinstance(self.standby, Unknown) or not self.standby.runs else self.standby.runs.shown()

    def recharge_in_words(self) -> str:
        """How long the charger takes; "" where it is not known."""
        return "" if isinstance(self.standby, Unknown) or not self.standby.recharge else self.standby.recharge.working.shown()


def _span(value_a: float, percent: float) -> str:
    share = percent / 100
    return f"{rough(value_a * (1 - share), '')} to {rough(value_a * (1 + share), 'A')}"


def power_of_job(papers: Papers) -> Power:
    """All batteries behind mains."""
    fire = fire_units(papers)
    loads, hours, unasked = _loads(papers), _hours(papers, bool(fire)), _unasked(papers)
    allowance = _allowance(papers)
    why_not = _no_mains(papers) or lacking(loads, hours, allowance)
    own = tuple(_own(papers, name, fire) for name in papers.job.devices if papers.sheet_of[name].power.kind == "mains")
    at_rest = loads if isinstance(loads, Unknown) else tried(lambda: _at_rest(loads))
    if why_not:
        return Power(why_not, hours, at_rest, None, fire, own, (), ())
    result = tried(lambda: standby(loads, hours, allowance, battery_sizes(papers.profile), _box(papers), _fitted(papers)))
    plain = tried(lambda: _plain(papers, loads, hours, allowance))
    return Power(result, hours, at_rest, None if isinstance(plain, Unknown) else plain, fire, own, unasked, _notes(papers),
                 allowance.cold.working if allowance.cold else None)


def fire_units(papers: Papers) -> tuple[str, ...]:
    """The units that give the system fire duties."""
    return tuple(name for name, device in papers.job.devices.items()
                 if device.role == "fire" or papers.sheet_of[name].kind in FIRE_KINDS)


def wired_units(papers: Papers) -> tuple[str, ...]:
    """The units that the control unit feeds by wire."""
    return tuple(name for name in papers.job.devices if papers.sheet_of[name].power.kind == "wired")


def _no_mains(papers: Papers) -> Unknown | None:
    unit = papers.job.control_unit
    kind = papers.sheet_of[unit.id].power.kind
    return None if kind == "mains" else Unknown(f"the sheet {unit.sheet} says power.kind: {kind}; a standby battery is asked for behind mains")


def _loads(papers: Papers) -> tuple[Load, ...] | Unknown:
    """The control unit and what it feeds. A wired unit with a battery of its own still charges it: its current counts."""
    names = (papers.job.control_unit.id, *wired_units(papers))
    pairs = {name: (of_sheet(papers, name, "power.quiescent_ma", "", "current at rest"),
                    of_sheet(papers, name, "power.alarm_ma", "", "current in alarm")) for name in names}
    return lacking(*(one for pair in pairs.values() for one in pair)) or tried(lambda: tuple(
        Load(name, rest.value, alarm.value, rest.origin, alarm.origin, may_go=name != names[0]) for name, (rest, alarm) in pairs.items()))


def _at_rest(loads: tuple[Load, ...]) -> Working:
    used = tuple(one for one in together(loads) if one.name.endswith(", at rest"))
    return Working("Current at rest", "currents at rest of the control unit and of all that it feeds, added up", "I_q = Σ I / 1000",
                   used, "I_q", currents_a(loads)[0], "A")


def _hours(papers: Papers, fire: bool) -> Duty | Unknown:
    """The times asked for; those of fire duties where the job has a fire unit and the market such times."""
    usual = of_profile(papers, STANDBY, "T"), of_profile(papers, ALARM, "t_a")
    duties = [of_profile(papers, key, symbol) if fire and key in papers.profile.limits else None
              for key, symbol in ((FIRE_STANDBY, "T"), (FIRE_ALARM, "t_a"))]
    return lacking(*usual) or tried(lambda: duty(*usual, *duties))


def _plain(papers: Papers, loads: tuple[Load, ...], hours: Duty, allowance: Allowance) -> Need | None:
    """The need without fire duties, where these lengthen it."""
    plain = _hours(papers, False)
    if isinstance(plain, Unknown) or (plain.rest_h, plain.alarm_min) == (hours.rest_h, hours.alarm_min):
        return None
    return need(loads, plain, allowance)


def _allowance(papers: Papers) -> Allowance | Unknown:
    found = of_profile(papers, FACTOR, "F"), of_profile(papers, AGEING, "A"), of_profile(papers, EXPONENT, "k")
    cold = _cold(papers)
    unsound = None if _no_coldest(papers) else cold
    return lacking(*found, unsound) or Allowance(*found, None if isinstance(cold, Unknown) else cold)


def _cold(papers: Papers) -> Cold | Unknown:
    room = papers.rooms().get(papers.job.control_unit.room)
    if _no_coldest(papers):
        return _no_coldest(papers)
    return tried(lambda: cold_factor(room[1].coldest_c, cold_points(papers.profile), f"job.premises.storeys.{room[0]}.rooms."
                                     f"{papers.job.control_unit.room}.coldest_c"))


def _no_coldest(papers: Papers) -> Unknown | None:
    key = papers.job.control_unit.room
    room = papers.rooms().get(key)
    if room and room[1].coldest_c is not None:
        return None
    return Unknown(f"age, cold and rate by themselves: it is not known how cold {key} gets; write coldest_c for that room")


def _box(papers: Papers) -> Box:
    name = papers.job.control_unit.id
    found = (of_sheet(papers, name, "control_unit.battery_box.most_ah", "C_most", "largest battery that box and charger are made for"),
             of_sheet(papers, name, "control_unit.charger.current_ma", "I_c", "current left for the battery"),
             of_profile(papers, SHARE, "p"), of_profile(papers, RECHARGE, "t"))
    return Box(*(None if isinstance(one, Unknown) else one for one in found))


def _fitted(papers: Papers) -> Given | None:
    """The battery that the job names, else the one of the sheet; None if neither says one."""
    unit = papers.job.control_unit
    if unit.battery_ah is not None:
        return Given("capacity of the battery fitted", "C", unit.battery_ah, "Ah", "job.control_unit.battery_ah")
    of_its_sheet = of_sheet(papers, unit.id, "power.capacity_mah", "C", "capacity of the battery fitted")
    return None if isinstance(of_its_sheet, Unknown) else replace(of_its_sheet, value=of_its_sheet.value / MA_IN_A, unit="Ah")


def _unasked(papers: Papers) -> tuple[Unknown, ...]:
    """What cannot be asked of the battery, though what it needs is known."""
    name = papers.job.control_unit.id
    charger = of_sheet(papers, name, "control_unit.charger.current_ma", "", "")
    box = of_sheet(papers, name, "control_unit.battery_box.most_ah", "", "")
    refill = lacking(charger, of_profile(papers, SHARE, ""), of_profile(papers, RECHARGE, ""))
    fitted = None if _fitted(papers) else Unknown("battery fitted: neither the job file gives control_unit.battery_ah nor the sheet "
                                                  "power.capacity_mah; write the one that is fitted")
    parts = (fitted, _no_coldest(papers), isinstance(box, Unknown) and Unknown(f"room for the battery: {box.reason}"),
             refill and Unknown(f"time to recharge: {refill.reason}"))
    return tuple(one for one in parts if one)


def _notes(papers: Papers) -> tuple[str, ...]:
    paths = papers.job.monitoring.paths if papers.job.monitoring else {}
    fed = [name for name, one in paths.items() if one.standby_h is None and not one.router]
    routers = [name for name, one in paths.items() if one.router]
    return (*(f"The {name} path to the station has no supply of its own: its current is counted in the control unit's." for name in fed),
            *(f"The {name} path passes a router of the house, which this battery does not feed." for name in routers))


def _own(papers: Papers, name: str, fire: tuple[str, ...]) -> OwnBattery:
    """A unit's own battery: by the hours of its sheet, else by capacity and current. What it passes on may have fire duties."""
    carries = name in fire or any(name in way for unit, way in ways(papers.job.devices).items() if unit in fire)
    hours = _hours(papers, carries)
    printed = of_sheet(papers, name, "power.standby_h", "T", "hours that its own battery carries it")
    if not isinstance(printed, Unknown):
        return OwnBattery(name, lacking(hours) or _held(name, "hours that its papers give", "T", (printed,), printed.value, hours))
    parts = (of_sheet(papers, name, "power.capacity_mah", "C", "capacity of its own battery"),
             of_sheet(papers, name, "power.quiescent_ma", "I", "current at rest"))
    if len(known(parts)) < len(parts):
        return OwnBattery(name, Unknown(f"the sheet of {name} gives neither power.standby_h nor power.capacity_mah with "
                                        "power.quiescent_ma; write how long its own battery carries it"))
    capacity, current = (one.value for one in parts)
    if not current:
        return OwnBattery(name, Unknown(f"the sheet of {name} gives 0 mA at rest; write power.quiescent_ma as its papers say"))
    return OwnBattery(name, lacking(hours) or _held(name, "capacity / current at rest", "T = C / I", parts, capacity / current, hours))


def _held(name: str, words: str, symbols: str, used: tuple[Given, ...], value: float, hours: Duty) -> Working:
    return Working(f"How long the battery of {name} lasts", words, symbols, used, "T", value, "h", hours.rest_h, "least",
                   (*hours.notes, "By itself, at rest, without allowance for age and cold."), digits=3)
