"""The installer's page of radio: what is left of each signal beside what must be left, the link with the least reserve first."""
from dataclasses import dataclass, replace

from generator.calc.radio.beside import beside, outside_both
from generator.calc.radio.link import Link as RadioLink
from generator.calc.radio.link import margin_working
from generator.calc.radio.obstacles import extrapolated
from generator.calc.radio.wanted_reading import wanted_reading
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.calc.working import Working
from generator.model.papers import Papers
from generator.pages.installer.mends import RepeatersView, mend_facts, repeaters_view, thing
from generator.pages.page import Link, Page, device_path
from generator.pages.parts import Fact, FindingView
from generator.pages.pictures import LossBar, LossPart, LossPicture, MarginBar, MarginPicture
from generator.pages.power import anchor, unit_link
from generator.pages.workings import WorkingView, working_view
from generator.terms.show import amount, count, figure, number, sentence_list

PATH = "radio.html"
# The parts of a loss in the order of the picture, each with its letter and its word.
PARTS = {"free": ("F", "free space"), "wall": ("W", "walls and doors"), "floor": ("L", "floors"), "metal": ("M", "large metal"),
         "people": ("P", "people"), "shadowing": ("S", "shadowing")}


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
    """All of them, and each that could not be worked out with its reason; `picture` and `losses` are None where none could.

    `notes` are for the whole house; `repeaters` is None where no link is short.
    """

    found: tuple[FindingView, ...]
    answer: str
    notes: tuple[str, ...]
    picture: MarginPicture | None
    losses: LossPicture | None
    letters: str
    repeaters: RepeatersView | None
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
                LinksView(found, _answer(known, sum(map(len, lost.values()))), _notes(papers, known), _picture(known), _losses(known),
                          ", ".join(f"{letter} {word}" for letter, word in PARTS.values()), repeaters_view(papers, results.mends),
                          tuple(_row(papers, results, one) for one in known), missing))


def _answer(known: list[RadioLink], missing: int) -> str:
    short = [one.unit for one in known if one.reserve_db < 0]
    if not known:
        return "No link could be worked out; the reasons stand below." if missing else "No unit of this job has a radio."
    rest = f" {count(missing, 'link')} could not be worked out; the reasons stand below." if missing else ""
    if short:
        return f"{count(len(short), 'link')} of {len(known)} would be short on a bad day: {sentence_list(short)}.{rest}"
    return f"{count(len(known), 'link')} worked out; none would be short on a bad day. The least reserve has {known[0].unit}.{rest}"


def _notes(papers: Papers, known: list[RadioLink]) -> tuple[str, ...]:
    """What must be known of the whole house: figures beyond their table, and links of which models that see no wall say something else."""
    beyond: dict[float, set[str]] = {}
    for link in known:
        beyond.setdefault(link.frequency.value, set()).update(material for one in link.terms for material in one.beyond)
    found = [extrapolated(materials, frequency) for frequency, materials in sorted(beyond.items())]
    for way, word in ((1, "more"), (-1, "less")):
        names = [link.unit for link in known if outside_both(papers, link) == way]
        if names:
            found.append(f"For {count(len(names), 'link')} of {len(known)} this estimate takes {word} than two models that see no wall of this house, one by "
                         f"distance (ITU-R P.1238) and one that counts walls (COST 231): {sentence_list(names)}. They judge nothing here, and leave timber floors out.")
    return tuple(filter(None, found))


def _losses(known: list[RadioLink]) -> LossPicture | None:
    bars = tuple(map(_loss_bar, known))
    words = [f"{bar.text}: " + ", ".join(f"{PARTS[part.kind][1]} {number(part.loss)}" for part in bar.parts) for bar in bars]
    return LossPicture(f"{'; '.join(words)}.", bars) if bars else None


def _loss_bar(link: RadioLink) -> LossBar:
    taken = {"free": max(0.0, link.free_db)}
    for one in link.terms:
        kind = "wall" if one.kind == "opening" else one.kind
        taken[kind] = taken.get(kind, 0.0) + one.loss_db(link.worse)
    most = link.weaker.power.value - link.weaker.sensitivity.value - link.required.value
    text = f"{link.unit}: {amount(link.loss_db(link.worse), 'dB')} lost, {number(most)} may be"
    return LossBar(text, tuple(LossPart(kind, letter, taken[kind]) for kind, (letter, _) in PARTS.items() if taken.get(kind)), most)


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
    workings += [wanted_reading(link, shut) for shut in (True, False)] if link.reserve_db < 0 else []
    workings[0] = _with_models(papers, link, workings[0])
    return LinkView(anchor(results, name), unit_link(results, name, device_path), papers.sheet_of[name].name, _text(link), _facts(results, link),
                    tuple(map(working_view, workings)))


def _facts(results: Results, link: RadioLink) -> tuple[Fact, ...]:
    weaker, mend = link.weaker, results.mends.units.get(link.unit)
    rows = [("Heard by", f"{link.receiver}, {figure(link.distance.value, 'm', 3)} away"),
            ("Arrives on a bad day", f"at {amount(link.received_dbm('bad', weaker), 'dBm')}, typically at {amount(link.received_dbm('typical', weaker), 'dBm')}, from "
                                     f"{weaker.sender} to {weaker.hearer}"),
            ("In the way", sentence_list([thing(one, link) for one in link.terms if one.construction or one.kind == "metal"]) or "nothing"),
            *(mend_facts(results.mends, mend) if mend else ())]
    return tuple(Fact(name, value.replace("-", "−") if name.startswith("Arrives") else value) for name, value in rows if value)


def _with_models(papers: Papers, link: RadioLink, working: Working) -> Working:
    """A working with a line of what models say that know nothing of this house."""
    mild, harsh, _, counted = beside(papers, link)
    by_distance = "" if isinstance(mild, Unknown) else f"{number(mild.value)} to {amount(harsh.value, 'dB')} by distance (ITU-R P.1238), "
    line = (f"The whole loss by models that see no wall of this house: {by_distance}{amount(counted.value, 'dB')} by counting walls (COST 231); here "
            f"{number(link.loss_db('typical'))} to {amount(link.loss_db('bad'), 'dB')}. Nothing is judged by them.")
    return replace(working, notes=(*working.notes, line))
