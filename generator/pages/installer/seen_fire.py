"""Where smoke, heat and carbon monoxide units hang, each measure beside the published figure. It reminds and judges nothing."""
from generator.calc.house.fire_places import Beside, FirePlace, FromBedroom
from generator.calc.results import Results
from generator.calc.working import Given
from generator.model.papers import Papers
from generator.pages.installer.seen_part import Part
from generator.pages.parts import Fact
from generator.procedure.handling import room_name
from generator.terms.show import amount, capital, figure, sentence_list

FIRE = ("A reminder, no judgement on fire cover: the local fire code and a competent person decide number, kind and place. Each measure is the plan's; in brackets "
        "stands the published figure, and below all of them what each figure is and how it is known.")
NONE = "the profile has no figure for what the plan shows of it"


def fire_part(papers: Papers, results: Results) -> Part:
    """The last part of the page; without facts where the job has no such unit."""
    every, bedrooms = results.coverage.fire, results.coverage.bedrooms
    lost: dict[str, list[str]] = {}
    for one in every:
        if one.lacks:
            lost.setdefault(one.lacks, []).append(one.unit)
    facts = [Fact(f"{one.unit}, {room_name(papers, one.room)}", "; ".join(map(_beside, one.beside)) or NONE) for one in every if not one.lacks]
    facts += [Fact(capital(room_name(papers, one.bedroom)), _from(one)) for one in bedrooms]
    return Part("fire", "Smoke, heat and carbon monoxide", FIRE, (*facts, *_figures(every, bedrooms)),
                missing=tuple(f"{sentence_list(names)}: not measured, because {reason}." for reason, names in lost.items()))


def _beside(one: Beside) -> str:
    return f"{_measured(one)} {one.measured.name} ({_published(one)})"


def _measured(one: Beside) -> str:
    return amount(one.measured.value, one.measured.unit, 1 if one.measured.unit == "m" else 0)


def _published(one: Beside) -> str:
    """The figures of each mark: "1 m and 3 m, read second-hand"."""
    by_mark: dict[str, list[str]] = {}
    for each in one.published:
        by_mark.setdefault(each.known, []).append(each.shown() if each.unit else each.name)
    return "; ".join(f"{sentence_list(figures)}, {mark}" for mark, figures in by_mark.items())


def _from(one: FromBedroom) -> str:
    if one.inside:
        return f"{sentence_list(list(one.inside))} in the room"
    if one.way is None:
        return "no smoke unit inside, and the plan has no way from its door to one"
    return f"{_measured(one.way)} from its door to {one.nearest}, as one walks ({_published(one.way)})"


def _figures(every: tuple[FirePlace, ...], bedrooms: tuple[FromBedroom, ...]) -> list[Fact]:
    """Every published figure that stands on the page, once, with its document and its mark."""
    rows = [row for one in every for row in one.beside] + [one.way for one in bedrooms if one.way]
    shown = dict.fromkeys((_title(one), f"{capital(one.name)}. {one.origin}") for row in rows for one in row.published)
    return [Fact(f"Figure: {title}" if title else "Figure", text) for title, text in shown]


def _title(one: Given) -> str:
    return figure(one.value, one.unit) if one.unit else ""
