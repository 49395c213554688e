"""Numbers of the job's papers as numbers of a working, each with the place where it was given; or why one is not there.

A reason names the key that is missing and where to write it. A company's own limit can be one that no calculation takes;
what the calculation then says of it is the reason too.
"""
from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from generator.calc.unknown import Unknown
from generator.calc.working import Given, of_limit
from generator.model.papers import Papers
from generator.terms.show import lower
from generator.terms.units import unit_of

T = TypeVar("T")


def of_profile(papers: Papers, key: str, symbol: str) -> Given | Unknown:
    """A limit of the profile."""
    return of_limit(papers.profile, key, symbol) or Unknown(f"the profile has no limit {key}")


def sheet_key(papers: Papers, name: str) -> str:
    """The name of a unit's equipment sheet."""
    own = papers.job.control_unit
    return own.sheet if name == own.id else papers.job.devices[name].sheet


def of_sheet(papers: Papers, name: str, way: str, symbol: str, means: str) -> Given | Unknown:
    """A number of a unit's sheet, by the way to its key: "power.alarm_ma"."""
    value: Any = papers.sheet_of[name]
    for key in way.split("."):
        value = getattr(value, key) if value is not None else None
    sheet = sheet_key(papers, name)
    if value is None:
        return Unknown(f"the sheet of {name} gives no {way}; write {way} in the sheet {sheet}")
    return Given(means, symbol, value, unit_of(way), f"sheet {sheet}: {way}")


def lacking(*found: Any) -> Unknown | None:
    """The reasons of all that is not known, as one; None if everything is."""
    reasons = dict.fromkeys(one.reason for one in found if isinstance(one, Unknown))
    return Unknown("; ".join(reasons)) if reasons else None


def tried(make: Callable[[], T]) -> T | Unknown:
    """What a calculation gives, or what it says of a number that cannot be."""
    try:
        return make()
    except ValueError as wrong:
        return Unknown(lower(str(wrong)).removesuffix("."))


def known(found: Sequence[Any]) -> list[Any]:
    """What is known of several things."""
    return [one for one in found if not isinstance(one, Unknown)]
