"""How were a unit's time on air and its radiated power got?"""
from generator.calc.givens import sheet_key
from generator.calc.radio.air_time import BandUse, OnAir, Radiated, counted_units, most_messages
from generator.calc.radio.bands import PERIOD
from generator.calc.radio.power_levels import dbm
from generator.calc.working import WORKED_OUT, Given, Working
from generator.model.papers import Papers
from generator.tables.antennas import DIPOLE_DB, FIELD_AT_M
from generator.terms.show import amount, figure, sentence_list
from generator.terms.source import Known

LEFT_ASIDE = ("What is sent in an alarm or when a unit is used is left aside: nobody can say beforehand how often that is.",)


def air_working(papers: Papers, use: BandUse) -> Working | None:
    """The time on air in the worst period; None where there is none to show."""
    if not isinstance(use.air, OnAir):
        return None
    air, sheet, units = use.air, sheet_key(papers, use.unit), counted_units(papers, use.unit)
    intervals = [Given(f"time between two supervision messages of {one}", "i", papers.sheet_of[one].radio.supervision_min, "min",
                       f"sheet {sheet_key(papers, one)}: radio.supervision_min") for one in units]
    each = [f"{one.name.rpartition(' ')[2]} {most_messages(one.value, air.period_h)}" for one in intervals]
    inputs = (*intervals, Given("period that is looked at", "H", air.period_h, "h", cited(papers, _of_period(air))),
              Given("messages in the worst period", "n", air.messages, "", f"{WORKED_OUT}: {sentence_list(each)}"),
              Given("time on air of one message", "m", papers.sheet_of[use.unit].radio.message_ms, "ms", f"sheet {sheet}: radio.message_ms"))
    passed = (f"It passes on what {sentence_list(list(units[1:]))} send, each message as long as its own.",) if units[1:] else ()
    return Working(f"Time on air of {use.unit} in the worst {amount(air.period_h, 'h')}", "messages in the period × time on air of one",
                   "t = n × m / 1000, n = the sum of H × 60 / i, each rounded up", inputs, "t", air.seconds, "s",
                   Given("most time on air", "t_max", air.most_s, "s", cited(papers, air.limits), _known(papers, air.limits)), "most",
                   (*passed, *LEFT_ASIDE))


def _of_period(air: OnAir) -> tuple[str, ...]:
    """The limit that says over which time is counted: one of its own, or the hour of the limit itself."""
    return (PERIOD,) if PERIOD in air.limits else air.limits[:1]


def power_working(papers: Papers, use: BandUse) -> Working | None:
    """The radiated power beside what the band allows; None where there is none to show."""
    if not isinstance(use.power, Radiated):
        return None
    power, sheet = use.power, sheet_key(papers, use.unit)
    given = Given("radiated power (e.i.r.p.)", "P", power.power_dbm, "dBm", f"sheet {sheet}: radio.tx_power_dbm")
    return Working(f"Radiated power of {use.unit}", "as the sheet gives it", "P", (given,), "P", power.power_dbm, "dBm",
                   Given("most radiated power (e.i.r.p.)", "P_max", power.most_dbm, "dBm", cited(papers, power.limits), _known(papers, power.limits)),
                   "most", (_conversion(papers, power),))


def _conversion(papers: Papers, power: Radiated) -> str:
    """How the band's limit became a power in dBm e.i.r.p."""
    limit = papers.profile.limits[power.limits[0]]
    if limit.unit == "mW":
        return (f"The band allows {limit.shown()} against a half-wave dipole: 10 × log10({limit.value:g}) = {figure(dbm(limit.value), 'dBm')}, and "
                f"{amount(DIPOLE_DB, 'dB', 2)} more as e.i.r.p.")
    fields = sentence_list([papers.profile.limits[one].shown() for one in power.limits], "to")
    return f"The band allows a field of {fields} at {amount(FIELD_AT_M, 'm')}: P = (E d)² / 30 in free space."


def cited(papers: Papers, limits: tuple[str, ...]) -> str:
    """Each limit in words with its value, and its source."""
    each = [f"{papers.profile.limits[one].means}, {papers.profile.limits[one].shown()}: {papers.profile.source_of(one).cited()}" for one in limits]
    return "; ".join(each)


def _known(papers: Papers, limits: tuple[str, ...]) -> str:
    """The weakest mark of several limits."""
    order = [known.value for known in Known]
    return max((papers.profile.source_of(one).known.value for one in limits), key=order.index)
