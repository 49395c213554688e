"""What takes from a link, thing by thing: from the straight way through the plan, or from a path that was written down?

shadowing = z(share) × standard deviation, z the quantile of the normal distribution; the deviation by Recommendation ITU-R P.1238, people
by common practice, no source. Walls as `obstacles.py` says.
"""
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

from generator.calc.radio.link import Term
from generator.calc.radio.obstacles import COATED, FOIL, SHEET, THING, Loss, loss_of, metal_loss
from generator.calc.unknown import Unknown
from generator.geometry.way import Crossing
from generator.model.construction import Construction
from generator.model.job import RadioPath
from generator.model.papers import Papers
from generator.terms.show import figure

BODY, SPREAD, SHARE = "body_loss_high_db", "shadowing_db", "bad_day_percent"
LIMITS = (BODY, SPREAD, SHARE)
# Walls that stand the same way are met at one angle, and a unit's links to several receivers meet the same floors: what was worked out
# is kept, so much of it that a large house needs no more.
MOST_KEPT = 20_000


@dataclass(frozen=True)
class Rates:
    """What is asked of a job again and again: its constructions, and what metal and a bad day take.

    `loss` gives what a construction takes by its key, the frequency in MHz and the angle to its normal in degrees.
    """

    constructions: Mapping[str, Construction]
    metal: Mapping[str, Loss | Unknown]
    day: tuple[Term, ...] | Unknown
    loss: Callable[[str, float, float], Loss | Unknown]


def rates_of(papers: Papers) -> Rates:
    """The rates of a job's profile."""
    constructions, metal = papers.constructions(), {kind: metal_loss(papers.profile, kind) for kind in (FOIL, COATED, SHEET, THING)}

    @lru_cache(maxsize=MOST_KEPT)
    def loss(key: str, frequency_mhz: float, angle_deg: float) -> Loss | Unknown:
        return loss_of(constructions[key], frequency_mhz, angle_deg, metal)

    return Rates(constructions, metal, _day(papers), loss)


def terms_of(crossings: Iterable[Crossing], frequency_mhz: float, rates: Rates) -> tuple[Term, ...] | Unknown:
    """What each thing in the way takes, then the bad day; or all that is missing to know it."""
    return _all([_crossed(one, frequency_mhz, rates) for one in crossings], rates)


def terms_of_path(path: RadioPath, frequency_mhz: float, rates: Rates) -> tuple[Term, ...] | Unknown:
    """The same from a path that was written down: everything in it is met squarely."""
    met = [Crossing("wall", f"number {index}", 0.0, 0.0, key) for index, key in enumerate(path.walls, 1)]
    met += [Crossing("floor", f"number {index}", 0.0, 0.0, key) for index, key in enumerate(path.floors, 1)]
    return terms_of(met, frequency_mhz, rates)


def _all(found: list[Term | Unknown], rates: Rates) -> tuple[Term, ...] | Unknown:
    reasons = dict.fromkeys(one.reason for one in (*found, rates.day) if isinstance(one, Unknown))
    return Unknown("; ".join(reasons)) if reasons else (*found, *rates.day)


def _crossed(met: Crossing, frequency_mhz: float, rates: Rates) -> Term | Unknown:
    if met.kind == "roof":
        return Unknown(f"the way passes the roof over {met.name}, of which the plan says nothing")
    if met.kind == "metal":
        loss, key = rates.metal[THING], ""
    elif met.kind == "opening":
        loss, key = _opening(met, frequency_mhz, rates), met.construction or met.around or ""
    elif met.construction is None:
        return Unknown(f"the plan does not say how the {met.kind} {'under ' if met.kind == 'floor' else 'between '}{met.name} is built")
    else:
        loss, key = rates.loss(met.construction, frequency_mhz, met.angle_deg), met.construction
    if isinstance(loss, Unknown):
        return loss
    return Term(met.kind, met.name, key, met.at_m, met.angle_deg, loss.typical_db, loss.bad_db, loss.notes, loss.beyond)


def _opening(met: Crossing, frequency_mhz: float, rates: Rates) -> Loss | Unknown:
    """An inside door stands open on a typical day and is shut on a bad one; a leaf of which nothing is said counts as wall."""
    key = met.construction or met.around
    if key is None:
        return Unknown(f"neither the leaf of {met.name} nor its wall is described")
    shut = rates.loss(key, frequency_mhz, met.angle_deg)
    if isinstance(shut, Unknown):
        return shut
    notes = shut.notes if met.construction else (*shut.notes, f"Nothing says what the leaf of {met.name} is made of: counted as wall.")
    return Loss(0.0 if met.inner else shut.typical_db, shut.bad_db, notes, shut.beyond)


def _day(papers: Papers) -> tuple[Term, ...] | Unknown:
    """What a bad day takes from every link: people in the way, and shadowing that the stated share of links stays within."""
    limits = papers.profile.limits
    lacking = [name for name in LIMITS if name not in limits]
    if lacking:
        return Unknown("; ".join(f"the profile has no limit {name}" for name in lacking))
    share = limits[SHARE].value
    if not 0 < share < 100:
        return Unknown(f"no loss is the one that {figure(share, '%')} of links stay within")
    quantile = max(0.0, NormalDist().inv_cdf(share / 100))
    said = f"{figure(share, '%')} of links stay within this shadowing: {figure(quantile, '')} times its standard deviation of {limits[SPREAD].shown()}."
    return (Term("people", "people in the way", "", 0.0, 0.0, 0.0, limits[BODY].value),
            Term("shadowing", "shadowing", "", 0.0, 0.0, 0.0, quantile * limits[SPREAD].value, (said,)))
