"""What is on air: how long each kind of unit sends and how strong, beside what its band allows, with the working."""
from dataclasses import dataclass, replace

from generator.calc.radio.air_time import BandUse, ByHand
from generator.calc.radio.air_workings import air_working, power_working
from generator.calc.radio.bands import bands_at
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.pages.page import Page
from generator.pages.parts import FindingView
from generator.pages.workings import WorkingView, not_checked, working_view
from generator.terms.show import amount, count, number, sentence_list

# How many units stand by name in a title; of more, their count.
FEW = 3


@dataclass(frozen=True)
class KindView:
    """Units of one sheet that send alike. `band` is where they send; `unsaid` is what could not be worked out, each a sentence."""

    id: str
    title: str
    band: str
    workings: tuple[WorkingView, ...]
    unsaid: tuple[str, ...]


@dataclass(frozen=True)
class AirView:
    """What was found about them, and every kind of unit that has a radio."""

    found: tuple[FindingView, ...]
    kinds: tuple[KindView, ...]


def air_page(papers: Papers, results: Results, found: tuple[FindingView, ...]) -> Page:
    """The page of what is on air."""
    groups: dict[tuple, list[BandUse]] = {}
    for one in results.air:
        groups.setdefault((papers.sheet_of[one.unit].name, replace(one, unit="", air=_nameless(one))), []).append(one)
    return Page("on-air.html", "On air", "installer/air.html.j2",
                AirView(found, tuple(_kind(papers, index, uses) for index, uses in enumerate(groups.values(), 1))))


def _nameless(one: BandUse):
    """What is said of a unit's time on air, without its name: units alike in all else are one group."""
    return Unknown(one.air.reason.replace(one.unit, "")) if isinstance(one.air, Unknown) else one.air


def _kind(papers: Papers, index: int, uses: list[BandUse]) -> KindView:
    first, sheet = uses[0], papers.sheet_of[uses[0].unit]
    names = sentence_list([one.unit for one in uses])
    title = f"{sheet.name}: {names}" if len(uses) <= FEW else f"{sheet.name}: {count(len(uses), 'unit')}"
    edges = [f"{number(one.from_mhz, 3)} to {amount(one.to_mhz, 'MHz', 3)}" for one in bands_at(papers.profile, first.frequency_mhz)]
    bands = f", in the band {sentence_list(edges)}" if edges else ""
    alike = f" {names}: alike, worked out for {first.unit}." if len(uses) > 1 else ""
    band = f"Sends at {amount(first.frequency_mhz, 'MHz', 3)}{bands}.{alike}"
    workings = [one for one in (air_working(papers, first), power_working(papers, first)) if one]
    return KindView(f"kind-{index}", title, band, tuple(map(working_view, workings)), _unsaid(first))


def _unsaid(one: BandUse) -> tuple[str, ...]:
    by_hand = ("Sends only when somebody uses it: there is no supervision to count.",) if isinstance(one.air, ByHand) else ()
    return *by_hand, *not_checked(one.air, one.power)
