"""What people of the house read: the sentences of their pages, out of the finished HTML."""
import re
from pathlib import Path

from bs4 import BeautifulSoup

from generator.publish.one_file import NAME

SENTENCE_END = re.compile(r"(?<=[.?!])\s+")
# A list item of one or two words, a telephone number, a name: nothing that is read as a sentence.
LEAST_WORDS = 4


def pages_of(pack: Path) -> dict[str, BeautifulSoup]:
    """Every page of the homeowner's folder by its path, and the file that stands beside it."""
    files = {path.relative_to(pack / "homeowner").as_posix(): path for path in sorted((pack / "homeowner").rglob("*.html"))}
    return {name: BeautifulSoup(path.read_text(encoding="utf-8"), "html5lib") for name, path in {**files, NAME: pack / NAME}.items()}


def content_of(page: BeautifulSoup):
    """The content of a page, without the navigation and the foot that every page of a pack has."""
    return page.find("article") or page.find("main")


def plain(node) -> str:
    """The text of a part of a page, blanks evened out."""
    return " ".join(node.get_text(" ").split())


def on_paper(page: BeautifulSoup) -> str:
    """The text of a page as it is printed: without what the print style leaves out."""
    copy = BeautifulSoup(str(content_of(page)), "html5lib")
    for left_out in copy.select(".unprinted, .contents"):
        left_out.decompose()
    return plain(copy.body)


def blocks(page: BeautifulSoup) -> list[str]:
    """Paragraphs and list items that hold sentences, each once and each with its full stop; links are titles of pages."""
    out = []
    for block in content_of(page).find_all(["p", "li"]):
        text = plain(block)
        if not block.find(["p", "li", "a"]) and len(text.split()) >= LEAST_WORDS:
            out.append(text if text[-1] in ".?!" else f"{text}.")
    return list(dict.fromkeys(out))


def sentences(page: BeautifulSoup) -> list[str]:
    """The sentences of a page."""
    return [one for block in blocks(page) for one in SENTENCE_END.split(block)]
