"""Does the page of sources name every source in use, with how it is known, and own up to what has none?"""
from collections import Counter

import pytest
from bs4 import BeautifulSoup

from generator.pages.sources import MARKS, NO_DOCUMENT, USED, sources_page, used_by
from generator.pipeline import compile_job
from generator.publish.render import environment, render, translations
from generator.rules.all_rules import RULES
from generator.terms.source import Known
from tests.conftest import JOBS


@pytest.fixture(scope="module", params=["thrift-cottage", "curlew-house", "heron-bungalow"])
def papers(request):
    return compile_job(JOBS / request.param / "job.yaml").papers


def test_each_limit_in_use_stands_once_under_the_document_it_is_from(papers) -> None:
    view = sources_page(papers).view
    own = set(papers.company.limits)
    used = [key for key in papers.profile.limits if used_by(key) and key not in own]
    assert sum(len(group.rows) for group in view.used) == len(used) and len(view.own) == len(own)
    assert sum(len(group.rows) for group in view.others) == len(papers.profile.limits) - len(used) - len(own)
    titles = {group.title for group in view.used}
    for key in used:
        limit = papers.profile.limits[key]
        document = papers.profile.documents[limit.source]
        assert limit.known == Known.PRACTICE or any(title.startswith(document.title) for title in titles), key


def test_what_no_document_says_is_counted_and_listed_last(papers) -> None:
    view = sources_page(papers).view
    practice = [key for key, one in papers.profile.limits.items() if one.known == Known.PRACTICE and used_by(key)]
    last = view.used[-1]
    assert last.title == NO_DOCUMENT and len(last.rows) == len(practice) and last.counted == f"{len(practice)} limits: {len(practice)} common practice"
    assert all(row.known == "common practice" for row in last.rows)


def test_the_count_at_the_top_is_that_of_the_marks(papers) -> None:
    known = Counter(one.known for key, one in papers.profile.limits.items() if used_by(key) or key in papers.company.limits)
    view = sources_page(papers).view
    assert view.counted.startswith(f"{known.total()} limit")
    for mark, number in known.items():
        assert f"{number} {mark}" in view.counted


def test_every_mark_is_explained() -> None:
    assert set(MARKS) == set(Known)


def test_each_limit_of_a_rule_names_the_rule() -> None:
    for rule in RULES:
        for name in rule.limits:
            assert rule.id in used_by(name), rule.id
    assert all(used_by(name) for name in USED) and used_by("colour_of_the_lid") == ""


def test_a_rule_without_a_limit_stands_with_where_it_comes_from(papers) -> None:
    view = sources_page(papers).view
    assert {one.name for one in view.without} == {one.title for one in RULES if one.source and not one.limits}
    assert all(one.value for one in view.without)


def test_what_was_read_second_hand_says_in_which_text(papers) -> None:
    rows = [row for group in (*sources_page(papers).view.used, *sources_page(papers).view.others) for row in group.rows]
    assert all(" in: " in row.known for row in rows if row.known.startswith("read second-hand"))


def test_a_companys_own_limit_says_what_it_stands_in_place_of() -> None:
    papers = compile_job(JOBS / "thrift-cottage" / "job.yaml").papers
    page = BeautifulSoup(render(sources_page(papers), environment(translations())).html, "html5lib")
    row = page.select_one("#own ~ table tbody tr").get_text(" ")
    assert "48 months" in row and "in place of 60 months" in row and "damp lofts" in row
