"""What changed since the last issue, and what to send or print again; to each reader what concerns them."""
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.calc.changes import ADDED, CHANGED, Changes, Difference, NumberChange, Sent
from generator.calc.results import Results
from generator.model.issued import Revision
from generator.model.papers import Papers
from generator.pages.page import Link, Page
from generator.pages.parts import Fact
from generator.terms.audience import Audience
from generator.terms.show import capital, day

PATH = "changes.html"
NAMES = {"text": "text", "serial": "serial", "sheet": "equipment sheet", "input": "input", "device": "unit"}
NO_PEOPLE = "Names, telephone numbers and addresses are not compared: after a change in people.yaml send the pages that show them."


@dataclass(frozen=True)
class Compared:
    """What a pack is compared with: the revision before it, or the last one if it is not issued itself.

    `against` says it in words; `changes` is None where there is nothing to compare with. `draft` says what it means that the pack is not
    issued, "" for one that is: no page that is compared holds it, so an issue changes no page.
    """

    against: str
    changes: Changes | None
    draft: str = ""


@dataclass(frozen=True)
class Group:
    """Things of one kind: those to send again, and in words those that are gone."""

    title: str
    links: tuple[Link, ...]
    lines: tuple[str, ...]


@dataclass(frozen=True)
class ChangesView:
    """What changed. `nothing` says so where there is nothing to list; `found` is the system as it was found."""

    against: str
    nothing: str
    numbers: tuple[Fact, ...]
    groups: tuple[Group, ...]
    found: tuple[Fact, ...]
    note: str


def compared_in_words(last: Revision | None, before: Revision | None) -> str:
    """What is compared with what. `before` is the revision compared with: `last` itself if the pack is not issued."""
    if last is None:
        return "Nothing was issued yet; there is nothing to compare with."
    if before is None:
        return f"Revision {last.revision} of {day(last.date)} is the first; there is nothing to compare it with."
    if before is last:
        return f"Since revision {last.revision} of {day(last.date)}; this plan is not issued."
    return f"Revision {last.revision} of {day(last.date)}, compared with revision {before.revision} of {day(before.date)}."


def draft_in_words(last: Revision | None, same: bool) -> str:
    """What a pack that is not issued is good for; "" for the last issued revision."""
    if last is None:
        return "Read it, check it, ask the office. Fit nothing from it: numbers, texts and places can still move."
    return "" if same else (f"It is not what was issued as revision {last.revision} on {day(last.date)}. Fit nothing from it: work from that pack, "
                            "or ask the office to issue this one.")


def installer_changes(papers: Papers, results: Results, compared: Compared, pages: tuple[Page, ...]) -> Page:
    """The installer's page: units and numbers, pages to open again, labels to print again. Nothing of before is quoted."""
    made = compared.changes
    groups = (_pages("Pages that say something else", made.pages[Audience.INSTALLER], pages),
              _labels("Labels to print again", made, Audience.INSTALLER, _names(results))) if made else ()
    return _page(papers, compared, tuple(_numbers(made, quoted=False)) if made else (), groups)


def record_changes(papers: Papers, results: Results, compared: Compared, titles: Mapping[Audience, tuple[Page, ...]]) -> Page:
    """The record's page: every difference with what was before, and what to send to whom."""
    made = compared.changes
    groups: list[Group] = []
    if made:
        groups += [_plain(f"Pages to send again: {one.value}", made.pages[one], titles[one]) for one in Audience]
        # Whether the codes lead elsewhere is not for the record: it may not see the path names.
        groups += [_labels(f"Labels to print again: {one.value}", made, one, _names(results), links=False)
                   for one in (Audience.INSTALLER, Audience.HOMEOWNER)]
        groups.append(Group("Lines of the monitoring sheet to send again", (), station_lines(made)))
    return _page(papers, compared, tuple(_numbers(made, quoted=True)) if made else (), tuple(groups))


def station_lines(made: Changes) -> tuple[str, ...]:
    """What the station must enter anew: zones, partitions and users that were added, changed or taken out."""
    return (*_lines("Zone", made.zones), *_lines("Partition", made.partitions), *_lines("User", made.users))


def _page(papers: Papers, compared: Compared, numbers: tuple[Fact, ...], groups: tuple[Group, ...]) -> Page:
    groups = tuple(one for one in groups if one.links or one.lines)
    nothing = "Nothing changed." if compared.changes and not numbers and not groups else ""
    view = ChangesView(compared.against, nothing, numbers, groups, tuple(_found(papers)), NO_PEOPLE if compared.changes else "")
    return Page(PATH, "What changed", "shared/changes.html.j2", view)


def _names(results: Results) -> dict[str, str]:
    return {short: name for name, short in results.references.items()}


def _numbers(made: Changes, quoted: bool) -> Iterator[Fact]:
    for one in made.numbers:
        number = f"{capital(one.list.removesuffix('s'))} {one.number}"
        yield Fact(", ".join(filter(None, (number, one.device))), _what(one, quoted))


def _what(one: NumberChange, quoted: bool) -> str:
    if one.state == ADDED:
        return f"added: {one.text}" if one.text else "added"
    if one.state != CHANGED:
        return "removed; the number stays empty" if one.device else "removed"
    return "; ".join(_differs(it, quoted) for it in one.differences)


def _differs(one: Difference, quoted: bool) -> str:
    was = f" and was {one.before or 'not given'}" if quoted else ""
    return f"{NAMES[one.name]} is now {one.now or 'not given'}{was}"


def _pages(title: str, sent: Sent, pages: tuple[Page, ...]) -> Group:
    links = tuple(Link(page.path, page.title) for page in pages if page.path in sent.again)
    return Group(title, links, tuple(f"{path}: no more there" for path in sent.removed))


def _plain(title: str, sent: Sent, pages: tuple[Page, ...]) -> Group:
    again = tuple(f"{page.path}: {page.title}" for page in pages if page.path in sent.again)
    return Group(title, (), (*again, *(f"{path}: no more there" for path in sent.removed)))


def _labels(title: str, made: Changes, audience: Audience, names: Mapping[str, str], links: bool = True) -> Group:
    sent = made.labels[audience]
    if links and audience in made.links:
        return Group(title, (), ("All of them: their codes lead to another address now.",))
    again = tuple(f"{short}, {names[short]}" for short in sent.again)
    return Group(title, (), (*again, *(f"{short}: take it off, its unit is gone" for short in sent.removed)))


def _lines(what: str, sent: Sent) -> Iterator[str]:
    for state, keys in (("added", sent.added), ("changed", sent.changed), ("taken out", sent.removed)):
        yield from (f"{what} {key}: {state}" for key in keys)


def _found(papers: Papers) -> Iterator[Fact]:
    """The system as it was found, for a job that starts with one."""
    for one in papers.job.existing:
        whose = f"{one.device} of this job" if one.device else "no part of this job"
        told = [f"text {one.text}" if one.text else "", f"serial {one.serial}" if one.serial else "", one.note or ""]
        yield Fact(f"{capital(one.list.removesuffix('s'))} {one.number}", "; ".join(filter(None, (whose, *told))))
