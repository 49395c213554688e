"""What the page of radio says of a short link: what would mend it, in the order of what it costs; and where a repeater would hang."""
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.radio.link import Link, Term
from generator.calc.radio.mend import Mend, Mends, Move, NewRepeater
from generator.calc.radio.place_words import NOT_LOOKED_AT, SEEN
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.pages.parts import Fact
from generator.terms.show import amount, capital, count, figure, moved_by, sentence_list

LOOK_FIRST = ("No plan says which rooms are wet, who sleeps where, or where a fixed supply that nobody can switch off can be had: look first. "
                 "A repeater's supply is work for a competent person. What it carries fails with it, so only what is short goes over it.")


@dataclass(frozen=True)
class RepeaterView:
    """A place for a repeater."""

    anchor: str
    title: str
    facts: tuple[Fact, ...]


@dataclass(frozen=True)
class RepeatersView:
    """All that are proposed, below a `title` that says whether they are needed; `none` says why there is none, `first` what stands before
    them, `notes` what must be known of them."""

    title: str
    first: str
    rows: tuple[RepeaterView, ...]
    none: str
    notes: tuple[str, ...]


def margin(link: Link) -> str:
    """The margin of a link on its worse day, as it is written."""
    return amount(link.margin_db(link.worse), "dB").replace("-", "−")


def thing(one: Term, link: Link) -> str:
    """What stands in the way of a link, and what it takes on the worse day."""
    angle = f" at {figure(one.angle_deg, '°', 2)}" if one.angle_deg >= 1 else ""
    built = f" ({one.construction})" if one.construction else ""
    return f"{one.kind} {one.name}{built}{angle}: {amount(one.loss_db(link.worse), 'dB')}"


def mend_facts(mends: Mends, mend: Mend) -> Iterator[tuple[str, str]]:
    """What takes most, and each mend with the margin after it."""
    if mend.no_link:
        yield "No link", f"not even on a typical day would {mend.link.receiver} hear it"
    if mend.killer:
        yield "Takes most", f"{thing(mend.killer, mend.link)}; without it {amount(mend.without_db, 'dB').replace('-', '−')} would be left"
    if mend.other:
        yield "Better through", f"{mend.other.receiver}, with {margin(mend.other)}, as far as it can carry more"
    if isinstance(mend.move, Move):
        yield "Nearest move", f"by {moved_by(mend.move.distance_m)}: {mend.move.place.says}; {margin(mend.move.link)} there. {capital(NOT_LOOKED_AT)}"
    else:
        yield "Nearest move", f"none: {mend.move.reason}"
    for one in mends.repeaters if isinstance(mends.repeaters, tuple) else ():
        if mend.link.unit in one.takes:
            yield "A new repeater" if mend.link.unit in mends.left else "Second choice, a new repeater", f"{one.label}, with {margin(one.takes[mend.link.unit])}; its place stands below"


def repeaters_view(papers: Papers, mends: Mends) -> RepeatersView | None:
    """The places for repeaters; None where no link is short."""
    if not mends.units:
        return None
    if isinstance(mends.repeaters, Unknown):
        return RepeatersView("A place for a repeater", "", (), f"None is proposed, because {mends.repeaters.reason}.", ())
    title, first = (("A place for a repeater", f"Without one {sentence_list(list(mends.left))} would stay short.") if mends.left else
                    ("Second choice: one more repeater", "None is needed: each short link can be mended without one, as its own lines say. This is for where that "
                                                         "will not do on site."))
    return RepeatersView(title, first, tuple(_row(papers, one) for one in mends.repeaters), "", (LOOK_FIRST, SEEN))


def _row(papers: Papers, one: NewRepeater) -> RepeaterView:
    takes = sentence_list([f"{name} with {margin(link)}, {amount(link.required.value, 'dB')} wanted" for name, link in one.takes.items()])
    how = "no other of these places is better; round it to the centimetre" if one.proved else "the best until the search was ended, not of all"
    return RepeaterView(f"repeater-{one.label}", f"{one.label}, a repeater that is not there yet", (
        Fact("Where", capital(one.place.says)),
        Fact("Its own link", f"to {one.own.receiver}, {margin(one.own)}, {amount(one.own.required.value, 'dB')} wanted"),
        Fact("Would carry", takes), Fact("By the sheet", one.sheet),
        Fact("Looked for", f"along every wall of {count(one.rooms, 'room')} whose climate its sheet allows, at the lowest and the highest height that the "
                           f"sheet allows, every {figure(one.step_m, 'm', 2)}, clear of openings, furniture and metal: {how}")))
