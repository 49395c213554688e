"""Do the batteries behind mains carry what hangs on them, are they filled again in time, and do they fit?"""
from collections.abc import Iterator

from generator.calc.power.need import Need
from generator.calc.power.power_of_job import ALARM, FACTOR, RECHARGE, SHARE, STANDBY, OwnBattery
from generator.calc.power.standby import Standby
from generator.calc.radio.repeaters import ways
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.calc.working import Given, Working
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import NotChecked, rule
from generator.tables.sources import PRACTICE, SHEET
from generator.terms.show import count, digits, rough, sentence_list, told_apart

FIELD = "job.control_unit.battery_ah"
PAGE = "worked out on the page of power"


def _standby(results: Results) -> Standby:
    """The battery of the control unit. Raises NotChecked where it is not known."""
    found = results.power.standby
    if isinstance(found, Unknown):
        raise NotChecked(found.reason)
    if found.fitted is None:
        raise NotChecked("neither the job file nor the control unit's sheet says which battery is fitted; write control_unit.battery_ah")
    return found


def _at(papers: Papers) -> str:
    return FIELD if papers.job.control_unit.battery_ah is not None else "job.control_unit.sheet"


@rule("standby-short", Severity.STOP, limits=(STANDBY, ALARM, FACTOR), source=SHEET,
      compares="the battery fitted with the charge that the control unit and all that it feeds take, for age and cold",
      mends="Fit the next size that the box and the charger take, or take loads off the battery.")
def standby_short(papers: Papers, results: Results) -> Iterator[Hit]:
    """The standby battery is too small for what hangs on it.

    When the mains fail the system falls silent before its time, and a burglar who knows that waits for it.
    """
    found = _standby(results)
    plain = results.power.plain
    if found.enough.holds() or (plain and plain.ah <= found.fitted.value):
        return
    yield _short(papers, results, found, "")


@rule("fire-standby-short", Severity.STOP, limits=(STANDBY, ALARM, FACTOR), source=SHEET,
      compares="the battery fitted with what it needs for the longer standby of fire duties, where the market asks for one",
      mends="Fit the next size that the box and the charger take, or let the fire units report to a system of their own.")
def fire_standby_short(papers: Papers, results: Results) -> Iterator[Hit]:
    """The standby battery is enough against burglars and not for fire duties.

    A unit that warns of fire makes the whole system one that must stand by as long as a fire alarm.
    """
    found = _standby(results)
    plain = results.power.plain
    if plain and not found.enough.holds() and plain.ah <= found.fitted.value:
        units = results.power.fire_units
        yield _short(papers, results, found, f"{sentence_list(list(units))} {'brings' if len(units) == 1 else 'bring'} "
                     f"fire duties; without them {rough(plain.ah, 'Ah')} would be enough. ")


def _short(papers: Papers, results: Results, found: Standby, first: str) -> Hit:
    hours, governs = results.power.hours, found.need.governs
    have, want = told_apart(found.fitted.value, found.need.ah)
    return Hit(_at(papers), f"{first}{have} Ah fitted, {want} Ah needed for {hours.rest_h.shown()} at rest and {hours.alarm_min.shown()} in alarm.",
               f"{_mend(found)}.",
               (Value("fitted", have, "Ah", found.fitted.origin), Value("needed", want, "Ah", f"{PAGE}: {governs.symbols}"),
                *(Value(name, rough(one.value, ""), "Ah", f"{PAGE}: {one.symbols}") for name, one in _both_lines(found.need)),
                *(Value(one.name.partition(",")[0], digits(one.value), one.unit, f"{PAGE}: {sentence_list([load.rest_from for load in found.loads])}"
                        if "rest" in one.name else f"{PAGE}: {sentence_list([load.alarm_from for load in found.loads])}")
                  for one in governs.inputs if one.symbol in ("I_q", "I_a")),
                Value("at rest for", digits(hours.rest_h.value), "h", hours.rest_h.origin),
                Value("in alarm for", digits(hours.alarm_min.value), "min", hours.alarm_min.origin)))


def _both_lines(need: Need) -> tuple[tuple[str, Working], ...]:
    """Both lines of the need by their names; nothing where there is only one."""
    return (("by one factor", need.first), ("by age, cold and rate", need.second)) if need.second else ()


def _mend(found: Standby) -> str:
    """The nearest sizes and the single loads whose loss would do."""
    out = []
    if found.good_sizes:
        out.append(f"Fit {found.good_sizes[0].shown()}{_goes_in(found)}")
    elif found.next_size:
        out.append(f"{found.next_size.shown()} would be enough, but no box or charger here takes it: choose a control unit that does")
    else:
        largest = f"; the largest is {found.sizes[-1].shown()}" if found.sizes else ""
        out.append(f"No battery in stock is large enough{largest}: take loads off it")
    out += [f"take {one.load} off it: {rough(one.need.ah, 'Ah')} is needed then, and {one.battery.shown()} does" for one in found.mends]
    return ". Or: ".join(out)


def _goes_in(found: Standby) -> str:
    """What is known of the proposed size in this box and at this charger."""
    size = found.good_sizes[0]
    box = f"the box takes {found.fits.limit_shown()} at most" if found.fits else "whether it goes into the box is not known"
    charger = found.recharge
    if not charger:
        return f"; {box}; the time to recharge is not known"
    hours, share = charger.hours / found.fitted.value * size.value, _input(charger.working, "p").shown()
    return f"; {box}; the charger refills {share} of it in {rough(hours, 'h')}, {charger.working.limit_shown()} is the longest"


@rule("recharge-slow", Severity.FIX, limits=(RECHARGE, SHARE), source=SHEET,
      compares="the time in which the charger refills the battery fitted to the wanted share with the longest allowed",
      mends="Fit a smaller battery that is still enough, or a control unit with a stronger charger.")
def recharge_slow(papers: Papers, results: Results) -> Iterator[Hit]:
    """The charger takes too long to refill the battery.

    A second power cut soon after the first then finds a battery that is half empty.
    """
    found = _standby(results)
    if found.recharge is None:
        raise NotChecked(_why(results, "time to recharge: "))
    working = found.recharge.working
    share = _input(working, "p").shown()
    if not working.holds():
        good = f"Fit {found.good_sizes[0].shown()}, which is enough and refilled in time. Or: " if found.good_sizes else ""
        yield Hit(_at(papers), f"{found.fitted.shown()} is refilled to {share} in {working.shown()}, {working.limit_shown()} is the longest.",
                  f"{good}{'choose' if good else 'Choose'} a charger that gives more; this one refills "
                  f"{rough(found.recharge.most_ah, 'Ah')} in time.",
                  _compared(working, "takes", (_input(working, "I_c"),)))


@rule("battery-does-not-fit", Severity.FIX, source=SHEET,
      compares="the battery fitted with the largest that the box and the charger are made for",
      mends="Fit a battery that the box and the charger are made for.")
def battery_does_not_fit(papers: Papers, results: Results) -> Iterator[Hit]:
    """The battery is larger than the control unit is made for.

    A lid that is forced shut presses on the terminals, and a charger that is too weak never fills it.
    """
    found = _standby(results)
    if found.fits is None:
        raise NotChecked(_why(results, "room for the battery: "))
    if not found.fits.holds():
        size = f"Fit {found.good_sizes[0].shown()}, which is enough and goes in." if found.good_sizes else (
            "No size in stock both is enough and goes in: choose a control unit with a larger box.")
        yield Hit(_at(papers), f"{found.fits.shown()} fitted, {found.fits.limit_shown()} is the largest that the box and the charger "
                  "are made for.", size, _compared(found.fits, "fitted", ()))


def _why(results: Results, part: str) -> str:
    """The reason why a part of the answer is missing."""
    return next(one.reason.removeprefix(part) for one in results.power.unasked if one.reason.startswith(part))


@rule("own-battery-short", Severity.FIX, limits=(STANDBY,), source=f"{SHEET}; that a repeater has a fixed supply is {PRACTICE}",
      compares="how long the battery of a repeater or another unit with mains carries it with the hours asked for, and what feeds a repeater with a "
               "fixed supply",
      mends="Choose a unit that lasts longer, or feed it from a supply with a battery that does; take a repeater off its socket.")
def own_battery_short(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A unit with mains of its own falls silent before the control unit does.

    With a repeater go all the units that are heard through it; one that hangs on a socket goes when somebody needs the socket.
    """
    for one in results.power.own:
        lost = [name for name, way in ways(papers.job.devices).items() if one.unit in way]
        pulled = papers.job.devices[one.unit].from_socket and papers.sheet_of[one.unit].kind == "repeater"
        if pulled and (lost or isinstance(one.lasts, Working)):
            yield _on_socket(one, lost)
        elif isinstance(one.lasts, Unknown):
            yield Unchecked(one.lasts.reason)
        elif not one.lasts.holds():
            yield Hit(f"job.devices.{one.unit}.sheet", f"{_lasts(one.unit, one.lasts)}, {one.lasts.limit_shown()} is asked for.{_behind(lost)}",
                      f"Choose one that lasts {one.lasts.limit_shown()} or longer, or feed it from a supply with a battery that does.",
                      (*_compared(one.lasts, "lasts", one.lasts.inputs), *_counted(lost)))


def _on_socket(one: OwnBattery, lost: list[str]) -> Hit:
    """A repeater that anybody can unplug, whatever its battery."""
    if isinstance(one.lasts, Unknown):
        said, more, battery = "how long its own battery carries it is not known", (), "Choose one with a battery of its own"
    else:
        said, more = _lasts("it", one.lasts), _compared(one.lasts, "lasts", one.lasts.inputs)
        battery = "" if one.lasts.holds() else f"Choose one that lasts {one.lasts.limit_shown()} or longer"
    return Hit(f"job.devices.{one.unit}.from_socket", f"{one.unit} hangs on a socket that anybody can switch off or unplug; {said}.{_behind(lost)}",
               f"Give it a fixed supply, by a competent person, and take from_socket out. {f'{battery}. ' if battery else ''}"
               "Have the loss of its supply reported.",
               (Value("supply", "socket", "", f"job.devices.{one.unit}.from_socket"), *more, *_counted(lost)))


def _lasts(name: str, lasts: Working) -> str:
    return f"{name} lasts {lasts.shown()} on its own battery" if lasts.value else f"{name} has no battery of its own"


def _behind(lost: list[str]) -> str:
    """Whom its loss takes along."""
    if not lost:
        return ""
    one = len(lost) == 1
    return f" With it {'goes' if one else 'go'} {count(len(lost), 'unit')} that {'is' if one else 'are'} heard through it: {sentence_list(lost)}."


def _counted(lost: list[str]) -> tuple[Value, ...]:
    return (Value("heard through it", str(len(lost)), "", "job.devices: via"),) if lost else ()


def _compared(working: Working, name: str, more: tuple[Given, ...]) -> tuple[Value, ...]:
    """A figure and its limit as the values compared."""
    own, limit = working.shown(), working.limit_shown()
    return (Value(name, own.removesuffix(f" {working.unit}"), working.unit, PAGE),
            Value(f"at {working.limit_is}", limit.removesuffix(f" {working.limit.unit}"), working.limit.unit, working.limit.origin),
            *(Value(one.name, digits(one.value), one.unit, one.origin) for one in more))


def _input(working: Working, symbol: str) -> Given:
    """One number of a working by its symbol."""
    return next(one for one in working.inputs if one.symbol == symbol)
