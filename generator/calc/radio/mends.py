"""What would mend the short links of a job?

For each unit: what takes most and the margin without it, a receiver that is there and would hear it, the nearest place where it is
heard. For the job: places for a repeater. Healthy units stay where the job has them: whatever hangs on a repeater
fails with it, so none is sent there without need.

margin without what takes most = margin + what it takes. Plain arithmetic on the links of `links.py`.
"""
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from generator.calc.givens import lacking
from generator.calc.radio.assignment import assigned
from generator.calc.radio.ground import Ground
from generator.calc.radio.link import Link
from generator.calc.radio.links import LinksOfJob
from generator.calc.radio.mend import Mend, Mends, Move, NewRepeater
from generator.calc.radio.nearest_move import ON_FRAME, nearest_move
from generator.calc.radio.new_repeater import MOST_UNITS, Search, spots_of_repeater
from generator.calc.radio.place_words import place_of
from generator.calc.radio.receivers import Carriers, carriers_of
from generator.calc.radio.repeater_sheet import repeater_sheet
from generator.calc.radio.repeaters import ways
from generator.calc.unknown import Unknown
from generator.geometry.house import House
from generator.model.papers import Papers

# Repeaters that are proposed at most; who needs more should think of another place for the control unit.
MOST_NEW = 3
# With more short units than that no nearest place is looked for: what is wrong there is not the place of a unit.
MOST_MOVED = 40


TOO_MANY = Unknown(f"more than {MOST_MOVED} links are short; think of repeaters or of another place for the control unit first")


def mends_of(papers: Papers, links: LinksOfJob, house: House) -> Mends:
    """The mends of every short link."""
    short = {name: one.link for name, one in links.units.items() if isinstance(one.link, Link) and one.link.reserve_db < 0}
    if not short:
        return Mends({}, ())
    ground, carriers = Ground(papers, house, links), carriers_of(papers, links)
    others = {} if isinstance(carriers, Unknown) else _others(papers, links, carriers, short)
    moved = len(short) <= MOST_MOVED
    return Mends({name: _mend(link, others.get(name), _move(ground, name) if moved else TOO_MANY) for name, link in short.items()},
                 _repeaters(ground, carriers, short))


def _mend(link: Link, other: Link | None, move: Move | Unknown) -> Mend:
    killer = link.killer
    without = replace(link, terms=tuple(one for one in link.terms if one is not killer))
    return Mend(link, link.hopeless, killer, without.margin_db(without.worse) if killer else None, move, other)


def _move(ground: Ground, name: str) -> Move | Unknown:
    found, papers = nearest_move(ground, name), ground.papers
    if isinstance(found, Unknown):
        return found
    device = papers.job.devices[name]
    opening = device.protects if papers.sheet_of[name].kind in ON_FRAME else None
    return Move(place_of(papers, ground.house, found.stretch.storey, found.stretch.room, found.spot, opening), found.distance_m, found.link)


def _others(papers: Papers, links: LinksOfJob, carriers: Carriers, short: Mapping[str, Link]) -> dict[str, Link]:
    """For each short unit the link to another receiver that would hear it well enough, all healthy units staying where they are."""
    heard = assigned(carriers.root, reserves_of(links, set(short)), carriers.carries, carriers.hops)
    own = {name: papers.job.devices[name].model_copy(update={"via": to if to != carriers.root else None}) for name, to in heard.through.items()}
    behind, found = ways(own), {}
    for name, before in short.items():
        to = heard.through.get(name)
        link = links.units[name].to.get(to) if to and to != before.receiver else None
        if isinstance(link, Link) and link.reserve_db >= 0 and not any(over in short for over in behind[name]):
            found[name] = link
    return found


def reserves_of(links: LinksOfJob, free: set[str]) -> dict[str, dict[str, float]]:
    """The reserves to all receivers of the units that are free to choose, and to its own of each that is not."""
    return {name: {to: link.reserve_db for to, link in one.to.items() if isinstance(link, Link) and (name in free or to == one.heard_by)}
            for name, one in links.units.items()}


def _repeaters(ground: Ground, carriers: Carriers | Unknown, short: Mapping[str, Link]) -> tuple[NewRepeater, ...] | Unknown:
    """Places for repeaters, one after the other for what those before it do not mend."""
    papers = ground.papers
    # A repeater that is short itself is mended by another place for it, and what is given by a path is nowhere.
    wanted = [name for name in short if papers.sheet_of[name].kind != "repeater" and not isinstance(ground.spots[name], Unknown)
              and papers.job.devices[name].path is None]
    if not wanted:
        return Unknown("no place in the plan is known for what is short")
    sheet = repeater_sheet(papers)
    if reason := lacking(sheet, carriers, ground.spots[ground.links.receivers[0]]):
        return reason
    key, kind = sheet
    room = papers.sheet_of[carriers.root].control_unit.lists.repeaters - len(ground.links.receivers) + 1
    if room < 1:
        return Unknown(f"the control unit can hold no repeater beside the {len(ground.links.receivers) - 1} of the job")
    reserves, found, labels = reserves_of(ground.links, set(short)), [], _labels(papers)
    while wanted and len(found) < min(MOST_NEW, room):
        # Those that lack least: where there are too many for one search, they are the ones that a repeater helps first.
        chosen = sorted(wanted, key=lambda name: -short[name].reserve_db)[:MOST_UNITS]
        nodes = spots_of_repeater(papers, ground.house, kind, [ground.spots[name] for name in (carriers.root, *chosen)])
        search = Search(ground, carriers, _of_search(ground.links, carriers, chosen), [name for name in wanted if name in chosen], next(labels), key, kind)
        best = search.found(nodes)
        if best is None:
            break
        one = search.proposal(nodes, best)
        found.append(one)
        wanted = [name for name in wanted if name not in one.takes and max(reserves[name].values(), default=-1.0) < 0]
    return tuple(found) or Unknown("no place was found from which a repeater would be heard and would hear any of them well enough")


def _of_search(links: LinksOfJob, carriers: Carriers, chosen: Sequence[str]) -> dict[str, dict[str, float]]:
    """The reserves that a search needs: a unit that stays at the control unit takes no room from any other."""
    return {name: one for name, one in reserves_of(links, set(chosen)).items()
            if name in chosen or name in carriers.carries or links.units[name].heard_by != carriers.root}


def _labels(papers: Papers) -> Iterator[str]:
    taken, number = {papers.job.control_unit.id, *papers.job.devices}, 0
    while True:
        number += 1
        if f"N{number}" not in taken:
            yield f"N{number}"
