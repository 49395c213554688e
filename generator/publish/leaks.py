"""The second net: no hidden value may be found in what a reader gets. The first is that its pages never had it."""
import csv
import html
import io
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.calc.hidden import Hidden, fold
from generator.terms.audience import Audience
from generator.terms.problem import Leak

# Tags inside a line of text; the others begin another line.
INLINE = re.compile(r"</?(?:a|abbr|b|bdi|bdo|cite|code|data|dfn|em|i|kbd|label|mark|q|s|samp|small|span|strong|sub|sup|time|"
                    r"tspan|u|var|wbr)\b[^>]*>", re.I)
TAG = re.compile(r"<[^>]*>")
END = ">"
ESCAPES = re.compile(r"(?:\\u[0-9a-fA-F]{4})+")
SHORT_ESCAPES = {"\\n": " ", "\\t": " ", '\\"': '"', "\\/": "/", "\\\\": "\\"}
SHORT = re.compile(r'\\[nt"/\\]')
MARKUP = (".html", ".svg", ".xml")
TEXT_FILES = (*MARKUP, ".json", ".js", ".csv", ".ics", ".txt", ".webmanifest", ".md", ".css")


@dataclass(frozen=True)
class Found:
    """A hidden value in a file of a pack. `beside` is true for a file that stands beside its reader's folder."""

    audience: Audience
    file: str
    text: str
    field: str
    beside: bool = False

    @property
    def place(self) -> str:
        """The file, counted from the job's folder."""
        return self.file if self.beside else f"{self.audience.value}/{self.file}"


def _unescaped(raw: str) -> str:
    """Text of a script or of data with its escapes read: pairs of \\u escapes are one character beyond the first plane."""
    if "\\" not in raw:
        return raw
    read = ESCAPES.sub(lambda match: bytes.fromhex(match[0].replace("\\u", "")).decode("utf-16-be", "replace"), raw)
    return SHORT.sub(lambda match: SHORT_ESCAPES[match[0]], read)


def file_text(raw: str, suffix: str) -> str:
    """Everything that can be read in a file: text with inline marks taken out, every attribute, every comment; folded."""
    if suffix == ".csv":
        return "\n".join(fold(cell) for row in csv.reader(io.StringIO(raw, newline="")) for cell in row)
    if suffix == ".ics":
        # Lines are cut at a width, and marks of its own stand before what it would take for its own.
        return fold(re.sub(r"\\([\\;,])", r"\1", re.sub(r"\r?\n[ \t]", "", raw).replace("\\n", "\n")))
    if suffix not in MARKUP:
        return _read(_unescaped(raw))
    lines, whole = _page(raw)
    return "\n".join([*(_read(line) for line in lines if line.strip()), _read(whole)])


def _page(raw: str) -> tuple[list[str], str]:
    """A page as the lines that it shows, and once more in one with all its marks; neither is folded yet."""
    # Blanks first, then tags as line ends: two words in two paragraphs are not one text.
    whole = " ".join(_unescaped(raw).split())
    return TAG.sub("\n", INLINE.sub("", whole)).split("\n"), whole


def _read(line: str) -> str:
    return fold(html.unescape(line))


def _each_once(texts: Iterable[str], files: Iterable[tuple[str, str]]) -> str:
    """Every line of some texts and files once. Pages say the same navigation, tag by tag: so each ends at a tag's end too, which no value spans
    but one that holds such an END."""
    found: dict[str, None] = {}
    unread: dict[str, None] = {}
    for raw, suffix in files:
        if suffix in MARKUP:
            lines, whole = _page(raw)
            unread |= dict.fromkeys(lines) | dict.fromkeys(whole.split(END))
        else:
            texts = (*texts, file_text(raw, suffix))
    for text in texts:
        found |= dict.fromkeys(text.replace(END, "\n").split("\n"))
    return "\n".join(found | dict.fromkeys(map(_read, unread)))


def _stands_in(value: str, text: str) -> bool:
    """Whether a value stands in a text: a value of letters only as words of its own, one with digits anywhere."""
    if value not in text:
        return False
    if any(letter.isdigit() for letter in value):
        return True
    return re.search(rf"(?<![^\W_]){re.escape(value)}(?![^\W_])", text) is not None


def search(audience: Audience, folder: Path, theme: Iterable[str], payloads: Iterable[str],
           hidden: tuple[Hidden, ...]) -> Iterator[Found]:
    """Every hidden value in a pack's files, their names and what its QR codes hold.

    Files named in `theme` are the theme's own, the same in every pack of every job, and are passed over.
    """
    texts = {"QR codes": "\n".join(map(fold, payloads)), "names of files": ""}
    files: dict[str, tuple[str, str]] = {}
    own = set(theme)
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        texts["names of files"] += f"{fold(name)}\n"
        if path.is_file() and name not in own and path.suffix in TEXT_FILES:
            files[name] = (path.read_text(encoding="utf-8"), path.suffix)
    everything = _each_once(texts.values(), files.values())
    found = [one for one in hidden if END in one.text or _stands_in(one.text, everything)]
    if found:
        texts |= {name: file_text(*file) for name, file in files.items()}
    for one in found:
        yield from (Found(audience, name, one.text, one.field) for name, text in texts.items() if _stands_in(one.text, text))


def search_file(audience: Audience, path: Path, hidden: tuple[Hidden, ...]) -> Iterator[Found]:
    """Every hidden value in a file that stands beside its reader's folder."""
    text = file_text(path.read_text(encoding="utf-8"), path.suffix)
    yield from (Found(audience, path.name, one.text, one.field, beside=True) for one in hidden if _stands_in(one.text, text))


def refuse(found: list[Found]) -> None:
    """Raises Leak, which names string, file and field, if anything was found."""
    if found:
        lines = [f'{one.place}: "{one.text}" of {one.field}' for one in found]
        raise Leak("a hidden value reached a reader who may not see it; the earlier pack stays:\n" + "\n".join(lines))
