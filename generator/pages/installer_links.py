"""The installer's page of radio: what is left of each signal beside what must be left, the link with the least reserve first."""
from dataclasses import dataclass

from generator.calc.assignment import Heard
from generator.calc.beside import beside
from generator.calc.link import Link as RadioLink
from generator.calc.link import Term, margin_working
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.pages.page import Link, Page, device_path
from generator.pages.parts import Fact, FindingView
from generator.pages.pictures import MarginBar, MarginPicture
from generator.pages.power import anchor, unit_link
from generator.pages.workings import WorkingView, working_view
from generator.terms.show import amount, count, figure, number, sentence_list

PATH = "radio.html"


@dataclass(frozen=True)
class LinkView:
    """One unit's link."""

    anchor: str
    unit: Link
    kind: str
    answer: str
    facts: tuple[Fact, ...]
    workings: tuple[WorkingView, ...]


@dataclass(frozen=True)
class LinksView:
    """All of them, and each that could not be worked out with its reason; `picture` is None where none could."""

    found: tuple[FindingView, ...]
    answer: str
    picture: MarginPicture | None
    rows: tuple[LinkView, ...]
    missing: tuple[str, ...]


def links_page(papers: Papers, results: Results, found: tuple[FindingView, ...]) -> Page:
    """The page of radio."""
    every = {name: one.link for name, one in results.links.units.items()}
    known = sorted((one for one in every.values() if isinstance(one, RadioLink)), key=lambda one: one.reserve_db)
    lost: dict[str, list[str]] = {}
    for name, one in every.items():
        if isinstance(one, Unknown):
            lost.setdefault(one.reason, []).append(name)
    missing = tuple(f"{sentence_list(names)}: not checked, because {reason}." for reason, names in lost.items())
    return Page(PATH, "Radio", "installer/links.html.j2",
                LinksView(found, _answer(known, sum(map(len, lost.values()))), _picture(known), tuple(_row(papers, results, one) for one in known), missing))


def _answer(known: list[RadioLink], missing: int) -> str:
    short = [one.unit for one in known if one.reserve_db < 0]
    if not known:
        return "No link could be worked out; the reasons stand below." if missing else "No unit of this job has a radio."
    rest = f" {count(missing, 'link')} could not be worked out; the reasons stand below." if missing else ""
    if short:
        return f"{count(len(short), 'link')} of {len(known)} would be short on a bad day: {sentence_list(short)}.{rest}"
    return f"{count(len(known), 'link')} worked out; none would be short on a bad day. The least reserve has {known[0].unit}.{rest}"


def _text(link: RadioLink) -> str:
    margin, reserve = link.margin_db(link.worse), link.reserve_db
    word = f"{number(-reserve)} dB short" if reserve < 0 else f"{number(reserve)} dB to spare"
    return f"{link.unit}: {amount(margin, 'dB')}, {number(link.required.value)} wanted, {word}".replace("-", "−")


def _picture(known: list[RadioLink]) -> MarginPicture | None:
    if not known:
        return None
    return MarginPicture(f"{'; '.join(map(_text, known))}.",
                         tuple(MarginBar(_text(one), one.margin_db(one.worse), one.required.value, one.reserve_db < 0) for one in known))


def _row(papers: Papers, results: Results, link: RadioLink) -> LinkView:
    name = link.unit
    others = [one for one in link.directions if one is not link.weaker]
    workings = [margin_working(link, link.worse), *(margin_working(link, day) for day in ("typical", "bad") if day != link.worse),
                *(margin_working(link, link.worse, one) for one in others)]
    return LinkView(anchor(results, name), unit_link(results, name, device_path), papers.sheet_of[name].name, _text(link), _facts(papers, results, link),
                    tuple(map(working_view, workings)))


def _facts(papers: Papers, results: Results, link: RadioLink) -> tuple[Fact, ...]:
    weaker = link.weaker
    rows = [("Heard by", f"{link.receiver}, {figure(link.distance.value, 'm', 3)} away"),
            ("Arrives on a bad day", f"at {amount(link.received_dbm('bad', weaker), 'dBm')}, typically at {amount(link.received_dbm('typical', weaker), 'dBm')}, from "
                                     f"{weaker.sender} to {weaker.hearer}"),
            ("In the way", sentence_list([_thing(one, link) for one in link.terms if one.construction or one.kind == "metal"]) or "nothing"),
            ("Takes most", _thing(link.killer, link) if link.killer and link.reserve_db < 0 else ""), ("Better through", _better(results, link)),
            ("Models that see no wall", _beside(papers, link))]
    return tuple(Fact(name, value.replace("-", "−") if name.startswith("Arrives") else value) for name, value in rows if value)


def _thing(one: Term, link: RadioLink) -> str:
    angle = f" at {figure(one.angle_deg, '°', 2)}" if one.angle_deg >= 1 else ""
    built = f" ({one.construction})" if one.construction else ""
    return f"{one.kind} {one.name}{built}{angle}: {amount(one.loss_db(link.worse), 'dB')}"


def _better(results: Results, link: RadioLink) -> str:
    """For a short link: the receiver that would hear it better, if there is one."""
    if link.reserve_db >= 0 or not isinstance(results.receivers, Heard):
        return ""
    to = results.receivers.through.get(link.unit)
    other = results.links.units[link.unit].to.get(to) if to and to != link.receiver else None
    if not isinstance(other, RadioLink) or other.reserve_db <= link.reserve_db:
        return ""
    word = f"{amount(other.reserve_db, 'dB')} to spare" if other.reserve_db >= 0 else f"{amount(-other.reserve_db, 'dB')} short"
    return f"{to}: {word}, as far as its own link and what it can carry allow"


def _beside(papers: Papers, link: RadioLink) -> str:
    """What models say of the whole loss that know nothing of this house, beside the estimate."""
    mild, harsh, _, counted = beside(papers, link)
    by_distance = "" if isinstance(mild, Unknown) else f"{number(mild.value)} to {amount(harsh.value, 'dB')} by distance (ITU-R P.1238), "
    return (f"{by_distance}{amount(counted.value, 'dB')} by counting walls (COST 231); here {number(link.loss_db('typical'))} to "
            f"{amount(link.loss_db('bad'), 'dB')}")
