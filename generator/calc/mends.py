"""What would mend the short links of a job?

For each unit: what takes most and the margin without it, a receiver that is there and would hear it, the nearest place where it is
heard. For the job: places for a repeater. Healthy units stay where the job has them: whatever hangs on a repeater
fails with it, so none is sent there without need.
"""
from dataclasses import replace

from generator.calc.assignment import assigned
from generator.calc.link import Link
from generator.calc.links import LinksOfJob
from generator.calc.mend import Mend, Mends
from generator.calc.receivers import carriers_of
from generator.calc.repeaters import ways
from generator.calc.unknown import Unknown
from generator.geometry.house import House
from generator.model.papers import Papers

NO_PLAN = Unknown("nothing was looked for")


def mends_of(papers: Papers, links: LinksOfJob, house: House) -> Mends:
    """The mends of every short link."""
    short = {name: one.link for name, one in links.units.items() if isinstance(one.link, Link) and one.link.reserve_db < 0}
    if not short:
        return Mends({}, ())
    others = _others(papers, links, short)
    return Mends({name: _mend(link, others.get(name)) for name, link in short.items()}, ())


def _mend(link: Link, other: Link | None) -> Mend:
    killer = link.killer
    without = replace(link, terms=tuple(one for one in link.terms if one is not killer))
    return Mend(link, link.margin_db("typical") < 0, killer, without.margin_db(without.worse) if killer else None, NO_PLAN, other)


def _others(papers: Papers, links: LinksOfJob, short: dict[str, Link]) -> dict[str, Link]:
    """For each short unit the link to another receiver that would hear it well enough, all healthy units staying where they are."""
    carriers = carriers_of(papers, links)
    if isinstance(carriers, Unknown):
        return {}
    heard = assigned(carriers.root, reserves_of(links, set(short)), carriers.carries, carriers.hops)
    own = {name: papers.job.devices[name].model_copy(update={"via": to if to != carriers.root else None}) for name, to in heard.through.items()}
    behind = ways(own)
    found = {}
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
