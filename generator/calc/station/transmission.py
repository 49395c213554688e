"""What becomes of the way to the monitoring station when mains, router or a line fails?

A path lasts as long as the control unit does, and no longer than what else of the house it needs: a router, a modem. How long
the control unit lasts is handed in; a path of which nobody knows how long its router lasts is not guessed at.
"""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.power.need import Duty
from generator.calc.station.categories import Category, category_of
from generator.calc.unknown import Unknown
from generator.calc.working import Given
from generator.model.monitoring import TransmissionPath
from generator.model.papers import Papers
from generator.tables.transmission import FED_FROM_OUTSIDE

MAINS, ROUTER, LINE = "mains", "router", "line"
# Kinds of paths that may come in by one cable.
ONE_CABLE = {"broadband", "phone-line"}


@dataclass(frozen=True)
class Outlook:
    """A path while something has failed: for how long it carries on (h), 0 if it dies with it, and why.

    `hours` is None for a path that is not touched: it carries on until something else fails. `with_unit` is true where it lasts as
    long as the control unit: `hours` are then only what is asked of that.
    """

    path: str
    hours: float | None | Unknown
    why: str
    with_unit: bool = False

    @property
    def dies(self) -> bool:
        """Whether it is known to be gone at once."""
        return self.hours == 0


@dataclass(frozen=True)
class Failure:
    """Something that fails: mains, router, or the line of one path, whose name `of` is then."""

    what: str
    of: str
    paths: tuple[Outlook, ...]

    @property
    def silent(self) -> bool | None:
        """Whether no path is left; None where it cannot be told."""
        if any(not one.dies and not isinstance(one.hours, Unknown) for one in self.paths):
            return False
        return None if any(isinstance(one.hours, Unknown) for one in self.paths) else True


@dataclass(frozen=True)
class Transmission:
    """The ways to the station, their category, and what each failure leaves of them.

    `asked_h` is for how long the control unit must carry on without mains, at rest.
    """

    paths: tuple[str, ...]
    asked_h: Given | Unknown
    failures: tuple[Failure, ...]
    category: Category

    def failure(self, what: str) -> Failure | None:
        """What a failure of the mains or of the router leaves; None if it touches no path."""
        return next((one for one in self.failures if one.what == what), None)

    @property
    def single_points(self) -> tuple[Failure, ...]:
        """The failures, each alone, after which no path is left."""
        return tuple(one for one in self.failures if one.silent)


def transmission(papers: Papers, hours: Duty | Unknown) -> Transmission | None:
    """The transmission of a monitored job; None for a system that only sounds.

    `hours` are the times for which the control unit must carry on without mains.
    """
    agreed = papers.job.monitoring
    if agreed is None:
        return None
    asked_h = hours.rest_h if isinstance(hours, Duty) else hours
    failures = [Failure(MAINS, "", tuple(_without_mains(key, one, asked_h) for key, one in agreed.paths.items()))] if agreed.paths else []
    if any(one.router for one in agreed.paths.values()):
        failures.append(Failure(ROUTER, "", tuple(Outlook(key, 0 if one.router else None, "it passes the router" if one.router else
                                                          "it passes no router") for key, one in agreed.paths.items())))
    failures += [Failure(LINE, failed, tuple(_without_line(agreed.paths, failed, key) for key in agreed.paths)) for failed in agreed.paths]
    return Transmission(tuple(agreed.paths), asked_h, tuple(failures), category_of(papers.profile, agreed))


def _without_line(paths: Mapping[str, TransmissionPath], failed: str, key: str) -> Outlook:
    if key == failed:
        return Outlook(key, 0, "its line has failed")
    kinds = {paths[failed].kind, paths[key].kind}
    if len(kinds) == 1 or kinds == ONE_CABLE:
        shared = "cable" if kinds <= ONE_CABLE else "network"
        return Outlook(key, Unknown(f"the job file does not say whether paths {failed} and {key} share one {shared}"), "")
    return Outlook(key, None, "it is carried by something else")


def _without_mains(key: str, path: TransmissionPath, asked_h: Given | Unknown) -> Outlook:
    if path.standby_h == 0:
        return Outlook(key, 0, f"{'router' if path.router else 'modem'} without a standby supply")
    if path.standby_h is None and path.router:
        return Outlook(key, Unknown(f"the job file does not say how long the router of path {key} carries on without mains"), "")
    if isinstance(asked_h, Unknown):
        return Outlook(key, Unknown(f"how long the control unit must carry on without mains is not known: {asked_h.reason}"), "")
    if path.standby_h is not None and path.standby_h < asked_h.value:
        return Outlook(key, path.standby_h, f"as long as its {'router' if path.router else 'modem'} does")
    fed = "the line is fed from outside" if path.kind in FED_FROM_OUTSIDE and path.standby_h is None else (
        "the control unit feeds it" if path.standby_h is None else f"its {'router' if path.router else 'modem'} lasts as long")
    return Outlook(key, asked_h.value, f"as long as the control unit does; {fed}", path.standby_h is None)
