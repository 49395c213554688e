"""On which visits can somebody change cells?

A service is counted with the day agreed for it, or with the last day of its due month where none is agreed: it may be that
late. A visit from afar changes no cell, and a service that is done from afar brings nobody.
"""
import math
from dataclasses import dataclass
from datetime import date

from generator.calc.days.calendar import WINDOW
from generator.calc.days.service import Due, on_time, services
from generator.calc.givens import tried
from generator.calc.unknown import Unknown
from generator.model.agreement import Service
from generator.model.papers import Papers
from generator.tables.cells import LONGEST_YEARS

MONTHS_A_YEAR = 12


@dataclass(frozen=True)
class ServiceVisit:
    """A visit and the last day on which it takes place; `agreed` if that is a day agreed and not only a month."""

    on: date
    agreed: bool


def fitted_on(papers: Papers) -> date | Unknown:
    """The day from which new cells count."""
    order = papers.job.agreement
    if order is None or order.in_use_on is None:
        return Unknown("no day on which the system comes into use is given; write in_use_on under agreement")
    return order.in_use_on


def service_visits(papers: Papers) -> tuple[ServiceVisit, ...] | Unknown:
    """The visits after the system came into use, for as long as any cell is counted on; the earliest first."""
    fitted, agreed = fitted_on(papers), papers.job.service
    if isinstance(fitted, Unknown):
        return fitted
    if agreed is None:
        return Unknown("no services are agreed; write service with every_months")
    limit = papers.profile.limits.get(WINDOW)
    window = int(limit.value) if limit else 0
    count = math.ceil(LONGEST_YEARS * MONTHS_A_YEAR / agreed.every_months) + 1
    due = tried(lambda: services(fitted, every_months=agreed.every_months, window_months=window, count=count))
    return due if isinstance(due, Unknown) else _on_site(agreed, fitted, due)


def _on_site(agreed: Service, fitted: date, due: tuple[Due, ...]) -> tuple[ServiceVisit, ...]:
    days = {one.on for one in agreed.visits if not one.remote and one.on > fitted}
    open_months = {one.month.last for one in due if not any(on_time(visit.on, one) for visit in agreed.visits)}
    return tuple(sorted((*(ServiceVisit(on, True) for on in days), *(ServiceVisit(on, False) for on in open_months - days)),
                        key=lambda one: one.on))
