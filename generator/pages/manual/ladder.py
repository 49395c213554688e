"""The manual's pages of the ladder: small jobs, each with one idea more than the one before, beside what comes out of it."""
import difflib
from collections.abc import Sequence
from dataclasses import dataclass

from generator.pages.page import Link, Page

GROUP = "Step by step"
NEW, GONE, SAME = "+", "−", ""
# What HTML calls a line that is new, gone or as it was.
TAG = {NEW: "ins", GONE: "del", SAME: "span"}


@dataclass(frozen=True)
class Rung:
    """One job of the ladder, read and worked out.

    `text` is its job file. `numbers` is a line for each number that is taken, `answer` what `doorpost check` says, `page` a
    page of its pack, `page_name` which. The lines of the last two stand each with what it is compared by.
    """

    folder: str
    text: str
    others: tuple[tuple[str, str], ...]
    numbers: tuple[str, ...]
    answer: tuple[tuple[str, str], ...]
    page_name: str
    page: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Line:
    """A line of the rung, or of the rung before: `mark` is + for new, − for gone; `tag` is what HTML calls that."""

    mark: str
    tag: str
    text: str


@dataclass(frozen=True)
class RungView:
    """One rung."""

    folder: str
    first: bool
    shows: tuple[str, ...]
    file: tuple[Line, ...]
    others: tuple[tuple[str, tuple[str, ...]], ...]
    numbers: tuple[Line, ...]
    answer: tuple[Line, ...]
    page_name: str
    page: tuple[Line, ...]
    ways: tuple[Link, ...]


@dataclass(frozen=True)
class LadderView:
    """All rungs."""

    rungs: tuple[tuple[Link, str], ...]


def ladder_pages(rungs: Sequence[Rung], pages_before: Sequence[tuple[tuple[str, str], ...]]) -> tuple[Page, ...]:
    """The list of all rungs, and a page for each; `pages_before` is the page that a rung shows, as the rung before has it."""
    titles = [title_of(one) for one in rungs]
    links = [Link(f"ladder/{one.folder}.html", title) for one, title in zip(rungs, titles)]
    ladder = LadderView(tuple((link, _shows(one)[0]) for link, one in zip(links, rungs)))
    pages = [Page("ladder/index.html", "The ladder", "manual/ladder.html.j2", ladder, GROUP)]
    for index, one in enumerate(rungs):
        before = rungs[index - 1] if index else None
        ways = tuple(links[index + step] for step in (1, -1) if 0 <= index + step < len(links))
        pages.append(Page(links[index].href, titles[index], "manual/rung.html.j2", _view(one, before, pages_before[index], ways), GROUP))
    return tuple(pages)


def title_of(rung: Rung) -> str:
    """The first line of its file: what it shows in a few words."""
    return _head(rung.text)[0].rstrip(".")


def _head(text: str) -> list[str]:
    """The comment at the head of a file, a line each."""
    out = []
    for line in text.splitlines():
        if not line.startswith("#"):
            break
        out.append(line.removeprefix("#").strip())
    return out


def _shows(rung: Rung) -> tuple[str, ...]:
    """What the head of a file says below its title, as paragraphs; what it says to the program is left out."""
    text = "\n".join(line for line in _head(rung.text)[1:] if not line.startswith(LOOK_AT))
    return tuple(" ".join(one.split()) for one in text.split("\n\n") if one.strip())


LOOK_AT = "Look at: "


def look_at(text: str) -> str:
    """The page of the pack that the head of a file names."""
    return next((line.removeprefix(LOOK_AT) for line in _head(text) if line.startswith(LOOK_AT)), "")


def _view(rung: Rung, before: Rung | None, page_before: tuple[tuple[str, str], ...], ways: tuple[Link, ...]) -> RungView:
    file = compared([(line, line) for line in _body(before.text)] if before else [], [(line, line) for line in _body(rung.text)])
    numbers = compared([(one, one) for one in before.numbers] if before else [], [(one, one) for one in rung.numbers])
    answer = compared(before.answer if before else (), rung.answer)
    page = [one for one in compared(page_before, rung.page) if one.mark != SAME or not before]
    others = tuple((name, tuple(text.splitlines())) for name, text in rung.others)
    return RungView(rung.folder, before is None, _shows(rung), file, others, numbers, answer, rung.page_name, tuple(page), ways)


def _body(text: str) -> list[str]:
    """A file without the comment at its head."""
    return text.splitlines()[len(_head(text)):]


def compared(before: Sequence[tuple[str, str]], now: Sequence[tuple[str, str]]) -> tuple[Line, ...]:
    """The lines that stand now and those that are gone, in their order; each is a text and what it is compared by.

    Where there is nothing before, nothing is new.
    """
    if not before:
        return tuple(Line(SAME, TAG[SAME], text) for text, _ in now)
    out: list[Line] = []
    found = difflib.SequenceMatcher(None, [key for _, key in before], [key for _, key in now], autojunk=False)
    for what, old, old_end, new, new_end in found.get_opcodes():
        if what == "equal":
            out += [Line(SAME, TAG[SAME], text) for text, _ in now[new:new_end]]
        else:
            out += [Line(GONE, TAG[GONE], text) for text, _ in before[old:old_end]]
            out += [Line(NEW, TAG[NEW], text) for text, _ in now[new:new_end]]
    return tuple(out)
