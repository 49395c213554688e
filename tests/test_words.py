"""Does every word that a homeowner reads pass through translation?"""
import gettext
from pathlib import Path

from bs4 import BeautifulSoup

from generator.pipeline import compile_job, looked_for, pack_of
from generator.publish.places import own_wording
from generator.publish.render import environment, render
from generator.terms.audience import Audience
from tests.conftest import DEMO, job_file  # noqa: F401

FROM_THE_JOB = ("Thrift Cottage", "K-2041", "Saltmarsh Alarm Fitting", "Lantern Watch", "01632", "front door", "back door",
                "kitchen", "hall", "outside")


class Marked(gettext.NullTranslations):
    """A language in which every sentence is its own words with a mark at both ends."""

    def gettext(self, message: str) -> str:
        return f"⟦{message}⟧"

    def ngettext(self, one: str, many: str, n: int) -> str:
        return f"⟦{one if n == 1 else many}⟧"


def homeowner_pages(path: Path, words: gettext.NullTranslations):
    compiled = compile_job(path)
    pack = pack_of(compiled, Audience.HOMEOWNER, words.gettext, looked_for(compiled, own_wording()))
    env = environment(words)
    return {page.path: (page, BeautifulSoup(render(page, env).html, "html5lib")) for page in pack.pages}


def unmarked(soup: BeautifulSoup, allowed: tuple[str, ...]) -> list[str]:
    """Texts with letters that did not pass through translation and are not the job's own."""
    out = []
    for text in soup.body.stripped_strings:
        whole = text.strip()
        depth, left = 0, ""
        for letter in whole:
            depth += letter == "⟦"
            left += letter if depth == 0 else ""
            depth -= letter == "⟧"
        if any(letter.isalpha() for letter in left) and not any(left.strip(" .,:") == one for one in allowed):
            out.append(left)
    return out


def test_no_sentence_of_the_homeowner_escapes_translation() -> None:
    compiled = compile_job(DEMO / "job.yaml")
    own_words = {sheet.everyday for sheet in compiled.papers.sheet_of.values()} | set(compiled.results.references.values())
    own_words |= {device.called[:1].upper() + device.called[1:] for device in compiled.papers.job.devices.values() if device.called}
    allowed = tuple(one.strip(" .,:") for one in own_words)
    pages = homeowner_pages(DEMO / "job.yaml", Marked())
    assert len(pages) == 19
    assert {path: left for path, (_, soup) in pages.items() if (left := unmarked(soup, allowed))} == {}


def test_a_sentence_that_escapes_is_seen() -> None:
    assert unmarked(BeautifulSoup("<body><p>⟦Yes⟧</p><p>No, not I</p></body>", "html5lib"), ()) == ["No, not I"]


def test_titles_of_pages_are_translated_too() -> None:
    titles = [page.title for page, _ in homeowner_pages(DEMO / "job.yaml", Marked()).values()]
    assert [title for title in titles if "⟦" not in title and "kitchen window sensor" not in title] == []
