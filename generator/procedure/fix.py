"""Each unit into its place, and the cells that it lives on."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.cleared import stopped_by, untested
from generator.procedure.climb import at_height, cautioned, climb, to_climb, two_people
from generator.procedure.handling import filled
from generator.procedure.high_up import first_enrolled, fixed_after, high_up, visit_up
from generator.procedure.power import WIRES, powered, powered_apart, scanned
from generator.procedure.safety import has_wiring, is_outside, met
from generator.procedure.signing import lines_of, lines_of_each
from generator.procedure.step import Fact, Step
from generator.procedure.units import fitted, fix_minutes, limit_fact, unit_facts
from generator.tables import tools
from generator.tables.minutes import OF_STEP

OUTSIDE_SOUNDER = (
    ("as high as", "As high as can safely be reached."), ("", "Seen from the road, out of reach from any roof that somebody can stand on."),
    ("cable straight through", "Cable straight through the wall behind it."), ("", "Its tamper against the wall acts."))


def fix(papers: Papers, results: Results) -> Iterator[Step]:
    """A step for each unit that is fixed, then the cells."""
    for name in fitted(papers):
        sheet, device = papers.sheet_of[name], papers.job.devices[name]
        outside = sheet.kind == "sounder" and is_outside(papers, name)
        where = (Fact("Place", device.position),) if device.position else ()
        height = at_height(papers, name)
        least = (*limit_fact(papers, "sounder_height_m", "Height at least"),
                 *limit_fact(papers, "sounder_insurer_height_m", "Insurers ask for")) if outside else ()
        ready = (f"signal-{name}", powered(papers), "services")
        yield from two_people(papers, name, "fix", f"fix-{name}", (*ready, f"quiet-{name}"))
        yield Step(f"fix-{name}", "fix", f"Fix {name}",
                   (*stopped_by(papers, name), filled(sheet.handling.fix, papers, results, name), *_hole(papers, name), *(_unsaid(sheet.handling.fix) if outside else ()),
                    *_one_visit(papers, results, name)),
                   after=(*ready, climb(name, "fix"), *fixed_after(papers, results, name)), unit=name,
                   messages=met(papers, [name], *WIRES, messages.ASBESTOS, *cautioned(papers, name), messages.DRILLING, messages.DUST,
                                messages.LIFE_SAFETY, messages.GAS),
                   facts=(*untested(papers, name), *unit_facts(papers, results, name), *where, *height, *least), hold=scanned(papers, [name]),
                   minutes=fix_minutes(papers, name),
                   tools=(*tools.DRILL, *tools.SERVICES, *to_climb(papers, [name]), *sheet.tools), unsigned=lines_of(name, "Fixing"),
                   note=device.note or "", leaves=visit_up(papers, results, name))
        yield from powered_apart(papers, name)
    yield from _cells(papers, first_enrolled(papers, results))
    yield from high_up(papers, results)


def _hole(papers: Papers, name: str) -> tuple[str, ...]:
    """Where the hole of a wired unit outside is made: nowhere earlier, for that would be work from a ladder too."""
    if not (is_outside(papers, name) and has_wiring(papers.sheet_of[name])):
        return ()
    return (f"The hole of {name} is made now, in this visit, and falls outwards.",)


def _unsaid(text: str) -> tuple[str, ...]:
    """What holds for a sounder outside, but for what its sheet says already."""
    return tuple(line for words, line in OUTSIDE_SOUNDER if not words or words not in text.lower())


def _one_visit(papers: Papers, results: Results, name: str) -> tuple[str, ...]:
    """That a high sounder is ready before it goes up, and that the steps after it are done in the same visit."""
    if not fixed_after(papers, results, name):
        return ()
    return (f"{name} is enrolled, tried and silenced (the steps before). One visit up: the next steps, up to its lid, are done before the ladder goes.",
            "Nothing sounds while the ladder stands.",
            f"Could not: {name} comes down again, its hole shut against the weather. Then the next steps all the same, for what is off is put back in them.")


def _cells(papers: Papers, looked_at: list[str]) -> Iterator[Step]:
    """The primary cells: type and date before any unit is enrolled; those of `looked_at` are looked at when these are enrolled."""
    fed = [name for name in papers.job.devices if papers.sheet_of[name].power.kind == "cell" and name not in looked_at]
    if not fed:
        return
    kinds: dict[str, int] = {}
    for name in fed:
        power = papers.sheet_of[name].power
        kinds[power.cell or "type not on its sheet"] = kinds.get(power.cell or "type not on its sheet", 0) + (power.cells or 1)
    yield Step("cells", "fix", "Check every cell before it goes live",
               ("Fixed first, enrolled where it hangs: what is read and set off is then what is on that wall, and two alike cannot be swapped on the way. "
                "Enrolled on the table all the same: label it at once, and set it off once more where it hangs.",
                "Type as printed here, date well ahead; old and new never together in one unit.",
                "The strip stays in until the unit is enrolled; count the strips. Pulled for the trial of a link: its cell out again until then.",
                "Write the date inside each lid. Used cells: poles taped, into the lidded box at once."),
               after=tuple(f"fix-{name}" for name in fed), messages=met(papers, fed, messages.LITHIUM, messages.BUTTON_CELL),
               facts=tuple(Fact(kind, str(count)) for kind, count in sorted(kinds.items())),
               minutes=OF_STEP["cells"], tools=tools.CELLS,
               unsigned=lines_of_each([name for name in fed if name in fitted(papers)], "Cell"))
