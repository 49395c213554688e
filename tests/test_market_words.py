"""Does a pack for North America speak that market's words?

The list holds words that people there do not use, or use for something else: common practice, no source. What a key of a file is called
(`storeys`, `licences`) is a name and no word, and stands on pages as such only where the file is cited.
"""
import re

import pytest
from bs4 import BeautifulSoup

from generator.publish.render import environment, render, translations
from generator.terms.audience import Audience
from tests.conftest import JOBS, packs_of
from tests.homeowner_text import plain

# common practice, no source
BRITISH = ("cupboards?", "internet box", "storeys?", "ring (?:the|him|her|them)", "fire brigade", "letterbox", "post ?code", "ground floor",
           "upper floor", "sitting room", "unsetting", "sets and unsets", "fortnight", "engineers?", "hoover", "aerial",
           "alarm receiving centre", "police reference", "unset", "part-set", "999",
           "112", "EN 50136-1\\)")
# Spelling and words that the pages for house and station are free of; shared pages of the trade still hold some of them.
SPELLED = ("mains", "fire service", "neighbours?", "colours?", "licences?", "programmed?", "metres?", "centres?", "labelled",
           "plasterboard", "torch", "loft", "draughts?", "dust sheets?", "organis\\w+", "behaviour")

CITED = re.compile(r"\b\w+(?:\.[\w-]+)+\b|\b\w+_\w+\b")


def hits(words: tuple[str, ...], text: str) -> list[str]:
    """The words of a list that stand in a text, names of keys left out."""
    return [one for one in words if re.search(rf"(?i)(?<![\w-]){one}(?![\w-])", CITED.sub(" ", text))]


@pytest.fixture(scope="module")
def texts() -> dict[Audience, dict[str, str]]:
    env = environment(translations())
    return {pack.audience: {page.path: plain(BeautifulSoup(render(page, env).html, "html5lib").body) for page in pack.pages}
            for pack in packs_of(JOBS / "heron-bungalow" / "job.yaml")}


@pytest.mark.parametrize("audience", Audience)
def test_no_pack_for_north_america_holds_a_word_that_only_britain_uses(texts, audience: Audience) -> None:
    assert len(texts[audience]) >= 1
    assert {path: found for path, text in texts[audience].items() if (found := hits(BRITISH, text))} == {}


@pytest.mark.parametrize("audience", [Audience.HOMEOWNER, Audience.STATION])
def test_house_and_station_read_their_own_spelling_too(texts, audience: Audience) -> None:
    assert {path: found for path, text in texts[audience].items() if (found := hits(SPELLED, text))} == {}


def test_a_british_word_is_seen_and_a_key_is_none() -> None:
    assert hits(BRITISH, "Keep it in the cupboard and ring the house.") == ["cupboards?", "ring (?:the|him|her|them)"]
    assert hits(SPELLED, "The colour of the mains, in metres") == ["mains", "colours?", "metres?"]
    assert hits(BRITISH, "job.premises.storeys.ground") == [] == hits(SPELLED, "company.licences.0, mains_off_min, the color")


def test_permit_licence_and_address_of_the_invented_town_name_one_place() -> None:
    from generator.intake.job_reader import read_job

    papers = read_job(JOBS / "heron-bungalow" / "job.yaml").papers
    town = papers.people.customer.address[-1]
    assert town and all(one.by.endswith(town) for one in papers.job.monitoring.permits.values())
    assert any(one.name.startswith(town) for one in papers.company.licences)


def test_the_record_asks_for_a_category_only_in_a_market_that_has_them(texts) -> None:
    ours = next(pack for pack in packs_of(JOBS / "thrift-cottage" / "job.yaml") if pack.audience is Audience.RECORD)
    page = next(one for one in ours.pages if one.path == "proposal.html")
    assert "Category asked for" in render(page, environment(translations())).html
    assert not any("Category asked for" in texts[Audience.RECORD][path] for path in ("proposal.html", "schedule.html"))


def test_where_a_unit_looks_says_from_where_and_which_way_it_is_counted() -> None:
    """As the key's own sentence says: 0 away from the front, 90 to the right, so clockwise."""
    pack = next(one for one in packs_of(JOBS / "curlew-house" / "job.yaml") if one.audience is Audience.RECORD)
    page = next(one for one in pack.pages if one.path == "schedule.html")
    text = plain(BeautifulSoup(render(page, environment(translations())).html, "html5lib").body)
    assert "looking 210° clockwise from straight away from the front" in text
