"""What does a house's radio cost, and how does that grow? Run as `radio.py demo JOB`, `radio.py block OUT` or `radio.py growth OUT`: prints JSON.

All imports are done before a clock runs. Growth is told as an exponent: seconds go with size ^ exponent, by the least squares of their logarithms.
"""
import json
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from math import log
from pathlib import Path
from statistics import linear_regression, median

from block import FLATS, UNITS, write_block
from generator.calc.radio.assignment import assigned
from generator.calc.radio.link import Link
from generator.calc.radio.links import LinksOfJob, links_of_job
from generator.calc.radio.mends import mends_of
from generator.calc.radio.receivers import best_receivers
from generator.geometry.house import House, house_of
from generator.intake.job_reader import read_job
from generator.model.papers import Papers
from generator.pipeline import Compiled, compile_job, looked_for, pack_of
from generator.publish.places import own_wording
from generator.publish.render import translations
from generator.publish.site import write_site
from generator.rules.all_rules import FAMILIES
from generator.rules.registry import ask
from generator.terms.audience import Audience

JOBS = Path(__file__).resolve().parent.parent.parent / "jobs"
TURNS = 5
# What is searched for a job once its links are known. A search joins the bench by one line here: the function, given papers, links and house.
SEARCHES: tuple[Callable[[Papers, LinksOfJob, House], object], ...] = (
    lambda papers, links, house: best_receivers(papers, links),
    lambda papers, links, house: mends_of(papers, links, house),
)
RULES = [rule for family in FAMILIES if family.name == "radio" for rule in family.rules]


def timed(work: Callable[[], object]) -> float:
    """Seconds of this process's own work: other programs on the machine count less than on the clock of the wall."""
    begun = time.process_time()
    work()
    return time.process_time() - begun


def quickest(work: Callable[[], object], turns: int = 3) -> float:
    """The least of some turns: nothing but the work itself makes it no quicker."""
    return min(timed(work) for _ in range(turns))


# --- the large demo -------------------------------------------------------------------------------------------

def links_and_rules(compiled: Compiled) -> None:
    """The house, its links, and every rule about radio; raises ValueError if no link is known."""
    papers = compiled.read.papers
    links = links_of_job(papers)
    if not any(isinstance(one.link, Link) for one in links.units.values()):
        raise ValueError("no link of this job is known; nothing was measured")
    for rule in RULES:
        ask(rule, papers, compiled.results)


def searched(compiled: Compiled) -> None:
    """All that is searched when links are known."""
    papers = compiled.read.papers
    house = house_of(papers.job.premises)
    links = links_of_job(papers, house)
    for search in SEARCHES:
        search(papers, links, house)


def demo(job: Path) -> dict[str, float]:
    """Links and rules against ten of the installer's pages as they are written, and with what is searched against all of them."""
    compiled = compile_job(job / "job.yaml")
    pack = pack_of(compiled, Audience.INSTALLER, translations().gettext, looked_for(compiled, own_wording()))
    with tempfile.TemporaryDirectory() as work:
        # A turn before the clock runs: templates and the theme are there.
        turns = [tuple(map(timed, (lambda: write_site(pack, Path(work) / str(turn)), lambda: links_and_rules(compiled), lambda: searched(compiled))))
                 for turn in range(TURNS + 1)][1:]
    one = [pages / len(pack.pages) for pages, _, _ in turns]
    return {"pages": len(pack.pages), "page": median(one), "seconds": median(links for _, links, _ in turns),
            "links": median(links / (10 * page) for (_, links, _), page in zip(turns, one, strict=True)),
            "radio": median((links + search) / pages for pages, links, search in turns)}


# --- a block of flats -----------------------------------------------------------------------------------------

def block(folder: Path) -> dict[str, float]:
    """Forty flats from their files to the receivers of their units; what this process takes is measured by who starts it."""
    file = write_block(folder / "block", JOBS)
    read: list[Papers] = []
    intake = timed(lambda: read.append(read_job(file).papers))
    papers = read[0]
    house = house_of(papers.job.premises)
    found: list[LinksOfJob] = []
    links = timed(lambda: found.append(links_of_job(papers, house)))
    unknown = sum(not isinstance(link, Link) for unit in found[0].units.values() for link in unit.to.values())
    if unknown or len(papers.job.devices) < FLATS * UNITS or len(house.walls) < 3000:
        raise ValueError(f"{len(papers.job.devices)} units, {len(house.walls)} walls and {unknown} unknown links: that is not the block")
    receivers = timed(lambda: best_receivers(papers, found[0]))
    return {"units": len(papers.job.devices), "walls": len(house.walls), "receivers": len(found[0].receivers), "intake": intake, "links": links,
            "assigned": receivers}


# --- growth ---------------------------------------------------------------------------------------------------

def exponent(sizes: Sequence[float], seconds: Sequence[float]) -> float:
    """By which power of the size the seconds go."""
    return linear_regression([log(one) for one in sizes], [log(one) for one in seconds]).slope


def papers_of(folder: Path, flats: int, receivers: int, units: int) -> Papers:
    """A block of another size, read from its files."""
    return read_job(write_block(folder / f"{flats}-{receivers}-{units}", JOBS, flats, receivers, units)).papers


def of_links(folder: Path, sizes: Sequence[tuple[int, int, int]]) -> list[float]:
    """Seconds of all links of blocks of so many flats, receivers and units a flat; the house is worked out before."""
    found = []
    for size in sizes:
        papers = papers_of(folder, *size)
        house = house_of(papers.job.premises)
        found.append(quickest(lambda papers=papers, house=house: links_of_job(papers, house)))
    return found


def of_searches(folder: Path, sizes: Sequence[tuple[int, int, int]]) -> list[float]:
    """Seconds of all that is searched in blocks of so many flats, receivers and units a flat; house and links are worked out before."""
    found = []
    for size in sizes:
        papers = papers_of(folder, *size)
        house = house_of(papers.job.premises)
        links = links_of_job(papers, house)
        found.append(quickest(lambda papers=papers, links=links, house=house: [search(papers, links, house) for search in SEARCHES]))
    return found


def of_plan(folder: Path, sizes: Sequence[int]) -> list[float]:
    """Seconds of reading and checking blocks of so many flats and of working out their walls."""
    files = [write_block(folder / f"plan-{flats}", JOBS, flats) for flats in sizes]
    return [quickest(lambda file=file: house_of(read_job(file).papers.job.premises)) for file in files]


def of_assignment(sizes: Sequence[int], receivers: int = 4) -> list[float]:
    """Seconds of assigning so many units where the repeaters together have room for half of them."""
    repeaters = [f"R{index}" for index in range(1, receivers)]
    found = []
    for units in sizes:
        reserves = {f"D{unit:05}": {one: float((unit * (7 + 6 * place) + place * place) % 97 - 10) for place, one in enumerate(("CU", *repeaters))}
                    for unit in range(units)} | {one: {"CU": 30.0} for one in repeaters}
        room = dict.fromkeys(repeaters, units // (2 * len(repeaters)))
        found.append(quickest(lambda reserves=reserves, room=room: assigned("CU", reserves, room, 1)))
    return found


def growth(folder: Path) -> dict[str, float]:
    """The exponents. Of links: with each of devices, receivers and walls alone, and of all together against their product.

    Of searches too against that product: twelve flats have four times the units of three, and four times the walls.
    """
    sizes = [(5, 3), (10, 3), (20, 3), (40, 3)]
    whole = of_links(folder, [(*one, UNITS) for one in sizes])
    return {
        "product": exponent([flats * flats for flats, _ in sizes], whole),
        "devices": exponent([5, 10, 20], of_links(folder, [(20, 2, units) for units in (5, 10, 20)])),
        "receivers": exponent([2, 4, 8], of_links(folder, [(10, receivers, UNITS) for receivers in (2, 4, 8)])),
        "walls": exponent([5, 10, 20, 40], of_links(folder, [(flats, 2, 120 // flats) for flats in (5, 10, 20, 40)])),
        "searches": exponent([9, 36, 144], of_searches(folder, [(flats, 2, UNITS) for flats in (3, 6, 12)])),
        "plan": exponent([5, 10, 20, 40], of_plan(folder, [5, 10, 20, 40])),
        "assignment": exponent([125, 250, 500, 1000], of_assignment([125, 250, 500, 1000])),
    }


if __name__ == "__main__":
    what, where = sys.argv[1], Path(sys.argv[2])
    found = {"demo": demo, "block": block, "growth": growth}[what](where)
    if what == "block":
        (where / "block.json").write_text(json.dumps(found), encoding="utf-8")
    print(json.dumps(found))
