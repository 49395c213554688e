"""The manual's pages of keys: one for each kind of file, in the order of the model, under the key that stands at the left."""
from dataclasses import dataclass
from itertools import groupby

from generator.pages.keys import FILES, KeyRow, key_rows
from generator.pages.page import Page
from generator.terms.show import count

GROUP = "Keys"
# What each kind of file is for, and who writes it.
ABOUT = {
    "job": "One job: the house, its units, its users, what was agreed. The office writes it, one file a job.",
    "people": "All personal data of a job, and the only place where it stands. Every page builds without this file.",
    "company": "The company that does the work. It stands in the job's folder or in one above it, so that many jobs share it.",
    "sheet": "One kind of unit, written by the company from the unit's own papers. Many jobs share it; a job can hold sheets of its own under `equipment`.",
    "profile": "The limits and words of a market. Three come along; a profile of your own can extend one of them and give only what it adds.",
    "issued": "What was issued, revision by revision. `doorpost issue` writes it; it is read only as it was written, so nobody edits it. "
              "It stays with the company: packs show from it what their reader may see of the job.",
    "results": "What a phone wrote down in the pack on site, as text that holds JSON (`doorpost schema results`). `doorpost results` takes it in; nobody edits it. "
               "The same thing is `device`, `step` and `what`: a later entry of the same phone corrects an earlier one, of another phone it is a conflict; all are kept.",
}
TOP = "At the left margin"


@dataclass(frozen=True)
class KeyView:
    """One key, ready to print; `facts` are takes, bounds, default and example, those that there are."""

    id: str
    way: str
    means: str
    takes: str
    needed: str
    example: str
    seen: str


@dataclass(frozen=True)
class KeyGroup:
    """The keys below one key of the top."""

    id: str
    title: str
    keys: tuple[KeyView, ...]


@dataclass(frozen=True)
class KeysView:
    """The keys of one kind of file."""

    about: str
    counted: str
    groups: tuple[KeyGroup, ...]


def keys_pages() -> tuple[Page, ...]:
    """The pages."""
    return tuple(Page(keys_path(root), name, "manual/keys.html.j2", _view(root), GROUP) for root, name in FILES.items())


def keys_path(root: str) -> str:
    """The page of a kind of file."""
    return f"keys/{root}.html"


def _view(root: str) -> KeysView:
    rows = key_rows(root)
    deep = {row.way.partition(".")[0] for row in rows if "." in row.way}
    flat = [row for row in rows if row.way not in deep and "." not in row.way]
    groups = [KeyGroup("top", TOP, tuple(map(_key, flat)))]
    groups += [KeyGroup(f"in-{top}", top, tuple(map(_key, of))) for top, of in
               groupby((row for row in rows if row.way.partition(".")[0] in deep), key=lambda row: row.way.partition(".")[0])]
    return KeysView(ABOUT[root], count(len(rows), "key"), tuple(groups))


def _key(row: KeyRow) -> KeyView:
    unit = f" in {row.unit}" if row.unit else ""
    bounds = f"; {row.bounds}" if row.bounds else ""
    without = f"no; without it: {row.default}" if row.default else "no"
    return KeyView(row.way, row.way, row.means, f"{row.takes}{unit}{bounds}", "yes" if row.needed else without, row.example, row.seen)
