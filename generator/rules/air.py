"""Does every unit keep what its band allows: time on air, and radiated power?"""
from collections.abc import Iterator

from generator.calc.givens import sheet_key
from generator.calc.radio.air_time import OnAir, Radiated, counted_units, least_interval_min, longest_message_ms
from generator.calc.radio.air_workings import cited
from generator.calc.radio.bands import PERIOD, SUPERVISION
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import rule
from generator.tables.sources import SHEET
from generator.terms.show import count, digits, number, sentence_list, told_apart

PAGE = "worked out on the page of what is on air"
FIRM = "no agreement allows what the band does not"


def _at(papers: Papers, unit: str) -> str:
    return "job.control_unit.sheet" if unit == papers.job.control_unit.id else f"job.devices.{unit}.sheet"


def _unknown(parts: Iterator[object]) -> Iterator[Unchecked]:
    """Each reason once, however many units it holds for."""
    yield from (Unchecked(reason) for reason in dict.fromkeys(one.reason for one in parts if isinstance(one, Unknown)))


@rule("air-time-long", Severity.STOP, also=(PERIOD, SUPERVISION), source=f"the band's limits in the profile, and {SHEET}", firm=FIRM,
      compares="the time that a unit's regular messages are on air in the worst period with the most that its band allows",
      mends="Choose a unit with shorter messages or rarer supervision messages, or let fewer units be heard over a repeater.")
def air_time_long(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A unit's regular messages are on air longer than its band allows.

    It is against the law of the band, and a band that one unit fills is one in which an alarm has to wait.
    """
    yield from _unknown(one.air for one in results.air)
    for one in results.air:
        if isinstance(one.air, OnAir) and not one.air.within:
            message = papers.sheet_of[one.unit].radio.message_ms
            have, most = told_apart(one.air.seconds, one.air.most_s)
            others = counted_units(papers, one.unit)[1:]
            passed = f", those that it passes on for {sentence_list(list(others))} counted" if others else ""
            yield Hit(_at(papers, one.unit), f"{one.unit} is on air for {have} s in the worst {digits(one.air.period_h)} h; {most} s is the most in its band: "
                      f"{count(one.air.messages, 'message')} of {number(message)} ms{passed}.", _mend(one.air, message, bool(others)),
                      (Value("on air", have, "s", PAGE), Value("at most", most, "s", cited(papers, one.air.limits)),
                       Value("message", number(message), "ms", f"sheet {sheet_key(papers, one.unit)}: radio.message_ms"),
                       Value("messages", str(one.air.messages), "", PAGE)))


def _mend(air: OnAir, message_ms: float, passes: bool) -> str:
    """The nearest changes, with their numbers."""
    longest = longest_message_ms(air)
    out = [f"Choose a unit whose message takes {number(longest)} ms or less" if longest else "Choose a unit that sends in another band"]
    interval = least_interval_min(air, message_ms)
    if passes:
        out.append("let fewer units be heard over it")
    elif interval is not None:
        out.append(f"one that checks in every {number(interval)} min or less often")
    return f"{', or '.join(out)}; if the sheet is wrong, correct it."


@rule("power-over-band", Severity.STOP, source=f"the band's limits in the profile, and {SHEET}", firm=FIRM,
      compares="the power that a unit radiates by its sheet with the most that its band allows",
      mends="Choose a unit that is weaker or sends in another band, or correct its sheet.")
def power_over_band(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A unit radiates more than its band allows.

    It is against the law of the band, and it drowns the weak units of this house and the next.
    """
    yield from _unknown(one.power for one in results.air)
    for one in results.air:
        if isinstance(one.power, Radiated) and not one.power.within:
            have, most = told_apart(one.power.power_dbm, one.power.most_dbm)
            yield Hit(_at(papers, one.unit), f"{one.unit} radiates {have} dBm; {most} dBm is the most at {digits(one.frequency_mhz)} MHz.",
                      f"Choose a unit that radiates {most} dBm or less there; if the sheet is wrong, correct tx_power_dbm.",
                      (Value("radiates", have, "dBm", f"sheet {sheet_key(papers, one.unit)}: radio.tx_power_dbm"),
                       Value("at most", most, "dBm", cited(papers, one.power.limits))))
