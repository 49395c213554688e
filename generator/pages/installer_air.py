"""What is on air: how long each kind of unit sends and how strong, beside what its band allows, with the working."""
from collections.abc import Iterator
from dataclasses import dataclass, replace

from generator.calc.air_time import BandUse, ByHand
from generator.calc.air_workings import air_working, power_working
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.calc.working import Working
from generator.model.papers import Papers
from generator.pages.page import Page
from generator.pages.parts import Fact
from generator.terms.show import amount, count, sentence_list

HELD = {True: "within it", False: "over it"}


@dataclass(frozen=True)
class FigureView:
    """One figure in a line, and below it how it was got."""

    line: str
    formula: str
    inputs: tuple[Fact, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True)
class KindView:
    """Units of one sheet that send alike. `band` is where they send; `unsaid` is what could not be worked out, each a sentence."""

    id: str
    title: str
    band: str
    figures: tuple[FigureView, ...]
    unsaid: tuple[str, ...]


@dataclass(frozen=True)
class AirView:
    """Every kind of unit that has a radio."""

    kinds: tuple[KindView, ...]


def air_page(papers: Papers, results: Results) -> Page:
    """The page of what is on air."""
    groups: dict[tuple, list[BandUse]] = {}
    for one in results.air:
        groups.setdefault((papers.sheet_of[one.unit].name, replace(one, unit="", air=_nameless(one))), []).append(one)
    return Page("on-air.html", "On air", "installer/air.html.j2",
                AirView(tuple(_kind(papers, index, uses) for index, uses in enumerate(groups.values(), 1))))


def _nameless(one: BandUse):
    """What is said of a unit's time on air, without its name: units alike in all else are one group."""
    return Unknown(one.air.reason.replace(one.unit, "")) if isinstance(one.air, Unknown) else one.air


def _kind(papers: Papers, index: int, uses: list[BandUse]) -> KindView:
    first, sheet = uses[0], papers.sheet_of[uses[0].unit]
    names = sentence_list([one.unit for one in uses])
    title = f"{sheet.name}: {names}" if len(uses) <= FEW else f"{sheet.name}: {count(len(uses), 'unit')}"
    band = f"{amount(first.frequency_mhz, 'MHz', 3)}, band {sentence_list(list(first.bands)) or 'unknown'}. {names}."
    workings = [one for one in (air_working(papers, first), power_working(papers, first)) if one]
    return KindView(f"kind-{index}", title, band, tuple(map(_figure, workings)), tuple(_unsaid(first)))


FEW = 3


def _unsaid(one: BandUse) -> Iterator[str]:
    if isinstance(one.air, ByHand):
        yield "Sends only when somebody uses it: there is no supervision to count."
    for part in dict.fromkeys((one.air, one.power)):
        if isinstance(part, Unknown):
            yield f"Not checked, because {part.reason}."


def _figure(one: Working) -> FigureView:
    line = f"{one.title}: {one.shown()}, at most {one.limit_shown()}: {HELD[one.holds()]}"
    limit = Fact(f"{one.limit.name} ({one.limit.symbol})", f"{one.limit_shown()}: {one.limit.origin}")
    return FigureView(line, f"{one.words}: {one.symbols}",
                      (*(Fact(f"{each.name} ({each.symbol})", f"{each.shown()}: {each.origin}") for each in one.inputs), limit), one.notes)
