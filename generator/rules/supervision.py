"""Is the silence of a unit noticed in time, and is it known to be there when the alarm is set?"""
from collections.abc import Iterator

from generator.calc.givens import sheet_key
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.asked import limit_text, limited
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import rule
from generator.tables.cells import CARRIED
from generator.tables.sources import SHEET
from generator.terms.show import amount, number

LONGEST, OLDEST = "supervision_min", "last_heard_min"


@rule("supervision-long", Severity.FIX, limits=(LONGEST,), source=SHEET,
      compares="the time between two supervision messages of each unit that is not carried, and of the control unit where its sheet gives one, with "
               "the longest that the profile allows",
      mends="Choose a unit that sends supervision messages often enough, or set it so and correct its sheet.")
def supervision_long(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A unit sends supervision messages more rarely than its silence must be noticed.

    One that was taken, broken or drowned out is missed only when it should have spoken again; until then nobody knows.
    """
    for name, every in _intervals(papers):
        if every is None:
            yield Unchecked(f"the sheet of {name} gives no radio.supervision_min; write it in the sheet {sheet_key(papers, name)}")
        elif every > papers.profile.limits[LONGEST].value:
            own = papers.job.control_unit.id == name
            yield Hit(f"job.{'control_unit' if own else f'devices.{name}'}.sheet",
                      f"{name} gives a sign of life every {amount(every, 'min')}; {limit_text(papers, LONGEST)} is the longest allowed.",
                      f"Choose one that gives a sign of life every {limit_text(papers, LONGEST)} or oftener, or set it so and correct its sheet.",
                      (_own(papers, name, every), limited(papers, LONGEST, "at most")))


@rule("last-message-old", Severity.FIX, limits=(OLDEST,), source=SHEET,
      compares="the time between two supervision messages of each unit that only sends with the greatest age of its last message at setting",
      mends="Choose a unit that sends oftener, or one that answers when it is asked.")
def last_message_old(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A unit that only sends can be silent for longer than its last message may be old when the alarm is set.

    It cannot be asked. Either the alarm cannot be set until it happens to speak, or it is set without knowing that the unit is there.
    """
    for name, every in _intervals(papers):
        if papers.sheet_of[name].two_way:
            continue
        if every is None:
            yield Unchecked(f"the sheet of {name} gives no radio.supervision_min; write it in the sheet {sheet_key(papers, name)}")
        elif every > papers.profile.limits[OLDEST].value:
            yield Hit(f"job.devices.{name}.sheet",
                      f"{name} only sends, every {amount(every, 'min')}: at setting its last message can be as old; {limit_text(papers, OLDEST)} is "
                      "allowed.",
                      f"Choose one that sends every {limit_text(papers, OLDEST)} or oftener, or one that also receives and can be asked.",
                      (_own(papers, name, every), limited(papers, OLDEST, "at most")))


def _intervals(papers: Papers) -> Iterator[tuple[str, float | None]]:
    """Each fitted unit with a radio and its time between two supervision messages, None where its sheet gives none; the control unit where it gives one."""
    own = papers.job.control_unit.id
    if (radio := papers.sheet_of[own].radio) and radio.supervision_min is not None:
        yield own, radio.supervision_min
    for name in papers.job.devices:
        sheet = papers.sheet_of[name]
        if sheet.radio and sheet.kind not in CARRIED:
            yield name, sheet.radio.supervision_min


def _own(papers: Papers, name: str, every: float) -> Value:
    return Value("every", number(every), "min", f"sheet {sheet_key(papers, name)}: radio.supervision_min")
