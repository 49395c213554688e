"""The manual's pages of limits: one for each profile that comes along, each limit with its source and mark."""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.model.profile import Block, Profile
from generator.pages.page import Page
from generator.procedure.step import Fact
from generator.terms.show import capital, count

GROUP = "Limits"


@dataclass(frozen=True)
class LimitView:
    """One limit: its name in files, what it limits, value, source and, where it replaces another, why."""

    name: str
    means: str
    value: str
    source: str


@dataclass(frozen=True)
class ProfileView:
    """One profile."""

    key: str
    edition: str
    counted: str
    limits: tuple[LimitView, ...]
    blocks: tuple[Fact, ...]
    documents: tuple[str, ...]


def limits_pages(profiles: Mapping[str, Profile]) -> tuple[Page, ...]:
    """The pages."""
    return tuple(Page(f"limits/{key}.html", profile.name, "manual/limits.html.j2", _view(key, profile), GROUP)
                 for key, profile in profiles.items())


def _view(key: str, profile: Profile) -> ProfileView:
    return ProfileView(key, profile.edition, count(len(profile.limits), "limit"),
                       tuple(_limit(profile, name) for name in profile.limits), tuple(map(_block, profile.blocks)),
                       tuple(sorted({", ".join(filter(None, (one.title, one.edition))) for one in profile.documents.values()})))


def _limit(profile: Profile, name: str) -> LimitView:
    entry = profile.limits[name]
    because = f" {entry.because}" if entry.because else ""
    return LimitView(name, capital(entry.means), entry.shown(), f"{profile.source_of(name).cited()}.{because}")


def _block(block: Block) -> Fact:
    starts = (f"starts at number {block.start}" if block.start else
              f"starts at number {block.start_from_end} counted back from the last" if block.start_from_end else "follows the one before")
    return Fact(block.name, f"{capital(block.means)}; {starts}; {block.spare} free wanted at its end.")
