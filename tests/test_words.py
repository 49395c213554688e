"""Does every word that a homeowner reads pass through translation?"""
import gettext
from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from generator.model.issued import Revision
from generator.pages.page import issued_in_words
from generator.pipeline import compile_job, looked_for, pack_of
from generator.publish.one_file import one_file
from generator.publish.places import own_wording
from generator.publish.render import environment, render
from generator.terms.audience import Audience
from tests.conftest import DEMO, job_file  # noqa: F401

FROM_THE_JOB = ("Thrift Cottage", "K-2041", "Saltmarsh Alarm Fitting", "Lantern Watch", "01632", "front door", "back door",
                "kitchen", "hall", "outside")

REVISION = Revision.model_construct(revision=2, date=date(2026, 5, 3))


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


@pytest.mark.parametrize("last, same, says", [
    (None, False, "⟦Not issued⟧"), (REVISION, True, "⟦Issued: revision 2, ⟦3 ⟦May⟧ 2026⟧⟧"),
    (REVISION, False, "⟦Changed since revision 2, not issued⟧")])
def test_the_foot_of_the_homeowners_pages_passes_through_translation(last, same: bool, says: str) -> None:
    assert issued_in_words(last, same, Marked().gettext) == says
    compiled = compile_job(DEMO / "job.yaml")
    home, station = (pack_of(compiled, one, Marked().gettext, looked_for(compiled, own_wording())).foot for one in (Audience.HOMEOWNER, Audience.STATION))
    assert len(home) == 2 and all(line.startswith("⟦") and line.endswith("⟧") for line in home) and "⟦" not in " ".join(station)


def test_the_foot_of_the_file_that_is_sent_is_that_of_the_pages(tmp_path) -> None:
    compiled = compile_job(DEMO / "job.yaml")
    pack = pack_of(compiled, Audience.HOMEOWNER, Marked().gettext, looked_for(compiled, own_wording()))
    foot = BeautifulSoup(one_file(pack, Marked()), "html5lib").find("footer")
    assert tuple(line.get_text() for line in foot.find_all("p")) == pack.foot


def test_a_sentence_that_escapes_is_seen() -> None:
    assert unmarked(BeautifulSoup("<body><p>⟦Yes⟧</p><p>No, not I</p></body>", "html5lib"), ()) == ["No, not I"]


def test_titles_of_pages_are_translated_too() -> None:
    titles = [page.title for page, _ in homeowner_pages(DEMO / "job.yaml", Marked()).values()]
    assert [title for title in titles if "⟦" not in title and "kitchen window sensor" not in title] == []
