"""Does a phone that runs no scripts show the same pages and open the navigation?"""
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.look import Looks
from tests.browser.pages import AUDIENCES, PHONE, WITH_DRAWER, Contexts, one_of_each_kind, pages_of, shown_text

ON_TOP = """links => links.findIndex(one => {
  const box = one.getBoundingClientRect();
  return one.contains(document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2));
})"""


# The page that names all findings stands with the pages of the rules that spoke; the documents of the record stand together, and so does what is printed.
LEADS_A_SECTION = ("findings.html", "checked.html", "documents.html", "survey.html", "proposal.html", "plan.html", "schedule.html", "completion.html",
                   "log-book.html", "maintenance.html", "corrective.html", "keyholders.html", "monitoring.html", "data.html", "site.html",
                   "paper.html", "labels.html", "labels-letter.html", "labels-own.html")

# The record's plan is a document among documents, the installer's a drawing; the homeowner's cards stand alone.
ELSEWHERE = (("installer", "plan.html"), ("homeowner", "labels.html"))


def link_on_top(drawer: Locator) -> Locator:
    """The first link of the drawer that nothing lies over."""
    links = drawer.locator("a.md-nav__link")
    index = links.evaluate_all(ON_TOP)
    assert index >= 0
    return links.nth(index)


def open_drawer(page: Page) -> Locator:
    """Opens the drawer as a thumb does."""
    drawer = page.locator(".md-sidebar--primary")
    expect(drawer).not_to_be_in_viewport()
    page.click("label.md-header__button[for=__drawer]")
    expect(drawer).to_be_in_viewport(ratio=0.9)
    box = drawer.bounding_box()
    assert box and box["x"] >= 0 and box["x"] + box["width"] <= PHONE["width"]
    return drawer


@pytest.mark.parametrize("audience", AUDIENCES)
def test_without_scripts_every_page_shows_the_same_text_and_opens_its_navigation(
        demo: Path, context: Contexts, looks: Looks, audience: str) -> None:
    page, texts = context(java_script_enabled=False).new_page(), {}
    for file in pages_of(demo / audience):
        page.goto(file.as_uri())
        texts[file.relative_to(demo / audience).as_posix()] = shown_text(page)
        if audience in WITH_DRAWER:
            link_on_top(open_drawer(page))
    assert texts == looks(audience).texts
    # A page that only a script fills has its title here.
    assert min(map(len, texts.values())) > 10


@pytest.mark.parametrize("audience", WITH_DRAWER)
def test_without_scripts_the_navigation_leads_to_every_page_of_the_pack(demo: Path, context: Contexts,
                                                                       audience: str) -> None:
    page, pack = context(java_script_enabled=False).new_page(), demo / audience
    named = set()
    for file in one_of_each_kind(pack):
        page.goto(file.as_uri())
        drawer = open_drawer(page)
        named |= set(drawer.locator("a.md-nav__link").evaluate_all("links => links.map(one => one.href.split('#')[0])"))
        # A page of a group opens the drawer at its group; one touch leads back to the whole list.
        back = drawer.locator("nav[data-md-level='1'] > label.md-nav__title:visible")
        leads = file.name in LEADS_A_SECTION and (audience, file.name) not in ELSEWHERE
        assert back.count() == (file.parent != pack or leads), file.name
        if back.count():
            back.click()
        link = link_on_top(drawer)
        target = link.evaluate("one => one.href")
        assert target == (pack / "index.html").as_uri() or file.name == "index.html"
        link.click()
        assert page.url == target, file.name
    assert named >= {file.as_uri() for file in pages_of(pack)}


def test_the_station_gets_one_page_which_needs_no_navigation(demo: Path) -> None:
    assert [page.name for page in pages_of(demo / "station")] == ["index.html"]
