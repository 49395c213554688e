"""Pieces that several views are made of."""
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from generator.calc.slots.slots import Row
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.pages.origins import keys_in_words, limits_in_words, on_site, origin_in_words, place_in_words
from generator.pages.page import Link
from generator.procedure import messages
from generator.procedure.check import Check
from generator.procedure.handling import opening_name, room_name
from generator.procedure.message import Message, Word
from generator.procedure.step import Fact, Hold
from generator.rules.all_rules import RULE_OF
from generator.rules.finding import Finding
from generator.terms.show import capital, sentence_list


@dataclass(frozen=True)
class SafetyView:
    """A safety message, ready to print. `level` is its signal word in small letters, for the style; a DANGER is ticked before the step."""

    id: str
    level: str
    word: str
    hazard: str
    consequence: str
    avoid: str
    defers_to: str
    brief: str
    tick: bool

    @property
    def decides(self) -> str:
        """Whose word counts above it, without the sentence on local code."""
        return self.defers_to.removesuffix(messages.LOCAL).rstrip()

    @property
    def local(self) -> str:
        """The sentence on local code, "" where it stands elsewhere on the page."""
        return messages.LOCAL if self.defers_to.endswith(messages.LOCAL) else ""


@dataclass(frozen=True)
class HoldView:
    """A hold point, ready to print; `side` tells in a word where it stands, `before` whether that is before its step's work.

    `otherwise` is what to do where it does not hold, `shows` what is compared on its screen, "" for nothing.
    """

    id: str
    until: str
    why: str
    side: str
    before: bool
    otherwise: str
    shows: str = ""


@dataclass(frozen=True)
class FindingView:
    """A finding, ready to print. `level` is for the style, `word` what stands above it; `why` leads to the rule's page.

    `at` and the values' origins are in words; `fields` are the same as the files name them, for pages that look for what is about a unit.
    """

    level: str
    word: str
    at: str
    says: str
    do: str
    values: tuple[Fact, ...]
    acceptance: str
    why: Link
    fields: tuple[str, ...]


def safety_view(message: Message) -> SafetyView:
    """A message as pages show it."""
    return SafetyView(message.id, message.word.value.lower(), message.word.value, message.hazard, message.consequence, message.avoid,
                      message.defers_to, message.brief, message.word is Word.DANGER)


def safety_views(found: Iterable[Message]) -> tuple[SafetyView, ...]:
    """Messages that stand in full on one page: whose word counts above each stands with each, that it counts above this pack with the first."""
    views = tuple(map(safety_view, found))
    return (*views[:1], *map(without_local, views[1:]))


def without_local(view: SafetyView) -> SafetyView:
    """A message on a page on which the sentence on local code stands already."""
    return replace(view, defers_to=view.decides)


def hold_view(hold: Hold | None) -> HoldView | None:
    """A hold point as pages show it."""
    return HoldView(hold.id, hold.until, hold.why, hold.side, hold.before, hold.otherwise) if hold else None


def finding_view(finding: Finding, office: bool = False) -> FindingView:
    """A finding as pages show it: each value compared, with where it came from. For the `office`, what to do names what it writes."""
    hit = finding.hit
    word = finding.severity.value if finding.outcome == "found" else "not checked"
    if finding.accepted:
        word = f"accepted {word}"
    values = tuple(Fact(one.name, " ".join(filter(None, (one.value, one.unit, f"({origin_in_words(one.origin)})")))) for one in hit.values)
    return FindingView(word.replace(" ", "-"), f"{word}: {finding.rule}", place_in_words(hit.at), limits_in_words(hit.says), (keys_in_words if office else on_site)(hit.do),
                       values, finding.acceptance,
                       Link(rule_path(finding.rule), _why(finding.rule)), (hit.at, *(one.origin for one in hit.values)))


def _why(rule: str) -> str:
    """What leads to a rule's page: its title, for an id is no word of the trade."""
    title = RULE_OF[rule].title.rstrip(".") if rule in RULE_OF else ""
    return f"{title}: why, and where the limit comes from" if title else "Why, and where the limit comes from"


def rule_path(rule: str) -> str:
    """The page of a rule that spoke, by its id."""
    return f"rules/{rule}.html"


Stopped = Mapping[str, str]


def stopped_fields(found: tuple[Finding, ...]) -> Stopped:
    """The fields of the job that a finding stops, with what it says: pages show that instead of the value.

    Of two values that contradict each other nobody knows which is wrong: both are stopped.
    """
    return {field: one.hit.says for one in found if one.stops for field in (one.hit.at, *(value.origin for value in one.hit.values))}


def unless_stopped(value: str, field: str, stopped: Stopped) -> str:
    """The value of a field, or why it must not be used."""
    return f"STOP: {stopped[field]}" if field in stopped else value


def facts_view(facts: tuple[Fact, ...], stopped: Stopped) -> tuple[Fact, ...]:
    """Facts as pages show them: what is stopped is never shown as a value to use."""
    return tuple(Fact(one.name, unless_stopped(one.value, one.field, stopped)) for one in facts)


def unstopped(check: Check, stopped: Stopped) -> Check:
    """A line of the checklist; where it quotes a value that a finding stops, that finding instead."""
    says = next((stopped[field] for field in check.fields if field in stopped), None)
    return replace(check, accept=f"STOP: {says}") if says else check


def place_of(papers: Papers, name: str) -> str:
    """Where a unit is, in words: room, and the opening that it watches; "" for one that is carried."""
    if name == papers.job.control_unit.id:
        return capital(room_name(papers, papers.job.control_unit.room))
    device = papers.job.devices[name]
    room = papers.room_of(device)
    place = capital("outside" if room == OUTSIDE else room_name(papers, room))
    return f"{place}, {opening_name(papers, device.protects)}" if device.protects else place


def place_of_row(papers: Papers, row: Row) -> str:
    """Where a number's unit is, or who carries it; of a second input what the job tells of its place.

    That is the opening of its circuit; without one, the position of the unit, whose words may tell where the circuit goes.
    """
    if not row.device:
        return ""
    device = papers.job.devices[row.device]
    if row.text_field.endswith(".text_2"):
        room = capital(room_name(papers, papers.room_of(device)))
        return ", ".join(filter(None, (room, opening_name(papers, device.protects_2) if device.protects_2 else device.position)))
    return place_of(papers, row.device) or capital(sentence_list(carriers(papers, row.device)))


def carriers(papers: Papers, name: str) -> list[str]:
    """The users who have a fob or a tag, by what they are to the house; none for any other unit."""
    return [f"{one.who} (user {number})" for number, one in papers.job.users.items() if name in (one.fob, one.tag)]


def units_of(papers: Papers) -> list[str]:
    """Every unit by its name, the control unit first."""
    return [papers.job.control_unit.id, *papers.job.devices]
