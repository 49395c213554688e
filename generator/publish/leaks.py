"""The second net: no hidden value may be found in what a reader gets. The first is that its pages never had it."""
import html
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.calc.hidden import Hidden, fold
from generator.terms.audience import Audience
from generator.terms.problem import Leak

# Tags inside a line of text; the others begin another line.
INLINE = re.compile(r"</?(?:a|abbr|b|code|em|i|kbd|small|span|strong|tspan|u)\b[^>]*>", re.I)
TAG = re.compile(r"<[^>]*>")
ESCAPES = re.compile(r"\\u([0-9a-fA-F]{4})")
TEXT_FILES = (".html", ".json", ".js", ".csv", ".svg", ".ics", ".txt", ".xml", ".webmanifest", ".md")


@dataclass(frozen=True)
class Found:
    """A hidden value in a file of a pack."""

    audience: Audience
    file: str
    text: str
    field: str


def file_text(raw: str, suffix: str) -> str:
    """Everything that can be read in a file: text with inline marks taken out, every attribute, every comment; folded."""
    raw = ESCAPES.sub(lambda match: chr(int(match[1], 16)), raw).replace("\\n", " ").replace('\\"', '"')
    if suffix not in (".html", ".svg", ".xml"):
        return fold(html.unescape(raw))
    # Blanks first, then tags as line ends: two words in two paragraphs are not one text.
    lines = TAG.sub("\n", INLINE.sub("", " ".join(raw.split()))).split("\n")
    return "\n".join([*(fold(html.unescape(line)) for line in lines if line.strip()), fold(html.unescape(raw))])


def search(audience: Audience, folder: Path, theme: Iterable[str], payloads: Iterable[str],
           hidden: tuple[Hidden, ...]) -> Iterator[Found]:
    """Every hidden value in a pack's files, their names and what its QR codes hold.

    Files named in `theme` are the theme's own, the same in every pack of every job, and are passed over.
    """
    texts = {"QR codes": fold("\n".join(payloads)), "names of files": ""}
    own = set(theme)
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        texts["names of files"] += f"{name.casefold()}\n"
        if path.is_file() and name not in own and path.suffix in TEXT_FILES:
            texts[name] = file_text(path.read_text(encoding="utf-8"), path.suffix)
    everything = "\n".join(texts.values())
    for one in hidden:
        if one.text in everything:
            yield from (Found(audience, name, one.text, one.field) for name, text in texts.items() if one.text in text)


def refuse(found: list[Found]) -> None:
    """Raises Leak, which names string, file and field, if anything was found."""
    if found:
        lines = [f'{one.audience.value}/{one.file}: "{one.text}" of {one.field}' for one in found]
        raise Leak("a hidden value reached a reader who may not see it; the earlier pack stays:\n" + "\n".join(lines))
