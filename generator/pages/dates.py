"""The calendar of a job as a page: each day or month, what is then, why, and whose word that is."""
from dataclasses import dataclass
from datetime import date

from generator.calc.days.calendar import Calendar, Entry
from generator.calc.days.dates import Month
from generator.calc.days.job_dates import job_dates, last_change
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.pages.origins import origin_in_words
from generator.pages.page import Link, Page
from generator.pages.parts import FindingView
from generator.terms.show import capital, day, month

CALENDAR = "calendar.ics"


@dataclass(frozen=True)
class DateRow:
    """One line of the calendar. `over` says of a day that has passed that it has, "" of all others."""

    when: str
    over: str
    what: str
    why: str
    source: str


@dataclass(frozen=True)
class DatesView:
    """What was found about the dates, the calendar, the month `until` which changes of cells are worked out ("" for none), what could not be counted, and the file of it where the pack holds one."""

    found: tuple[FindingView, ...]
    as_of: str
    until: str
    rows: tuple[DateRow, ...]
    missing: tuple[str, ...]
    file: tuple[Link, ...]


def dates_page(papers: Papers, results: Results, found: tuple[FindingView, ...] = (), file: bool = False) -> Page:
    """The page of dates, counted from what the reader of these papers may see; `file` where the pack holds the calendar as a file."""
    counted = dates_of(papers, results)
    return Page("dates.html", "Dates", "shared/dates.html.j2", DatesView(
        found, day(results.as_of), last_change(results.cells.campaigns), tuple(_row(one, results.as_of) for one in counted.entries), tuple(map(_missing, counted.missing)),
        (Link(CALENDAR, "The same as a file for a calendar program"),) if file else ()))


def dates_of(papers: Papers, results: Results) -> Calendar:
    """The calendar as far as the reader of these papers may know it."""
    return job_dates(papers, results.as_of, results.cells.campaigns)


def _row(one: Entry, as_of: date) -> DateRow:
    when = month(one.on.first) if isinstance(one.on, Month) else day(one.on)
    return DateRow(when, "over" if one.last < as_of else "", one.what, capital(one.why), capital(origin_in_words(one.source)))


def _missing(one: Unknown) -> str:
    """What could not be counted, as a sentence: "Services: not checked, because no day ... is given."."""
    what, colon, why = one.reason.partition(": ")
    return f"{capital(what)}: not checked, because {why}." if colon else f"Not checked, because {one.reason}."
