"""Which zone texts can the control unit not show, which begin alike, and how might they be written?"""
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.slots.short_text import beginning, proposal
from generator.model.papers import Papers

UNIQUE = "text_unique_characters"


@dataclass(frozen=True)
class ZoneText:
    """A zone's text as it stands in the job file.

    `strange` are its characters that cannot be shown. `like` is the field of an earlier text that begins with the same
    characters, "" if there is none or the profile does not say how many count. `proposed` is a text of the trade's short
    forms that fits and begins like no other; "" where nothing is wrong or none was found.
    """

    field: str
    text: str
    too_long: bool
    strange: tuple[str, ...]
    like: str
    proposed: str


def zone_texts(papers: Papers) -> tuple[ZoneText, ...]:
    """Every zone text, in the order of the job file; the proposals begin differently from each other too."""
    shown = papers.sheet_of[papers.job.control_unit.id].control_unit.zone_text
    limit = papers.profile.limits.get(UNIQUE)
    # Without a limit of the profile the whole text counts.
    unique = int(limit.value) if limit else shown.length
    standing = dict(_texts(papers))
    out = []
    for field, text in list(standing.items()):
        strange = tuple(sorted(set(text) - set(shown.alphabet or text)))
        others = {one: other for one, other in standing.items() if one != field}
        like = _like(field, text, standing, unique) if limit else ""
        too_long = len(text) > shown.length
        short = proposal(text, shown.length, shown.alphabet, others.values(), unique) if too_long or strange or like else ""
        standing[field] = short or text
        out.append(ZoneText(field, text, too_long, strange, like, short))
    return tuple(out)


def _texts(papers: Papers) -> Iterator[tuple[str, str]]:
    for name, device in papers.job.devices.items():
        for key in ("text", "text_2"):
            if getattr(device, key):
                yield f"job.devices.{name}.{key}", getattr(device, key)


def _like(field: str, text: str, standing: dict[str, str], unique: int) -> str:
    for other, written in standing.items():
        if other == field:
            return ""
        if beginning(written, unique) == beginning(text, unique):
            return other
    return ""
