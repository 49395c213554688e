"""Does the accessibility checker axe-core find nothing serious on a page of each kind, in either scheme and width?"""
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.pages import AUDIENCES, DESK, PHONE, SCHEMES, Contexts, one_of_each_kind, rooted

AXE = Path(__file__).resolve().parent / "node_modules" / "axe-core" / "axe.min.js"
GRAVE = ("serious", "critical")


def grave(page: Page, *tags: str) -> list[str]:
    """What axe-core finds on the page as it stands, of the upper grades; by all its rules, or by those of `tags`."""
    options = {"resultTypes": ["violations"]} | ({"runOnly": list(tags)} if tags else {})
    found = page.evaluate("async options => (await axe.run(document, options)).violations", options)
    return [f"{one['id']}: {node['target']}" for one in found if one["impact"] in GRAVE for node in one["nodes"]]


@pytest.mark.parametrize("audience", AUDIENCES)
def test_a_page_of_each_kind_has_no_grave_fault_in_light_and_dark_narrow_and_wide(
        demo: Path, context: Contexts, audience: str) -> None:
    out, script = [], AXE.read_text(encoding="utf-8")
    with rooted(demo / audience, "loopback") as root:
        page = context().new_page()
        for file in one_of_each_kind(demo / audience):
            page.goto(root + file.relative_to(demo / audience).as_posix())
            page.evaluate(script)
            for size in (PHONE, DESK):
                page.set_viewport_size(size)
                # The scheme changes colours and nothing else; the rules that look at no colour are asked once a width.
                for scheme, tags in zip(SCHEMES, ((), ("cat.color",))):
                    page.emulate_media(color_scheme=scheme)
                    out += [f"{file.name} at {size['width']}, {scheme}: {line}" for line in grave(page, *tags)]
    assert not out, "\n".join(out)


@pytest.mark.parametrize("scheme", SCHEMES)
def test_a_step_and_its_hold_point_alone_have_no_grave_fault_and_what_lies_over_a_message_bears_its_name(
        demo: Path, context: Contexts, scheme: str) -> None:
    """WCAG 2.2: 4.1.2, each of these has a role and a name; 2.5.3, the name holds the words that are seen to be tapped."""
    page, out = context(color_scheme=scheme).new_page(), []
    for address in ("fix.html#fix-d1", "fix.html#fix-d2", "fix.html#hold-fix-d1", "test.html#test-d1"):
        page.goto("about:blank")
        page.goto(f"{(demo / 'installer' / 'steps').as_uri()}/{address}")
        page.locator("section.step:visible").wait_for()
        page.evaluate(AXE.read_text(encoding="utf-8"))
        out += [f"{address}: {line}" for line in grave(page)]
        for role, over in (("link", "a.over"), ("checkbox", "label.over input")):
            for message in page.locator(f"section.step:visible .safety:has({over})").all():
                hazard = message.locator("strong:not(.word):visible").first.inner_text()
                assert message.get_by_role(role, name=f"In full: {hazard}", exact=True).count() == 1, hazard
    assert page.locator("section.step:visible").count() == 1 and not out, "\n".join(out)


def test_a_grave_fault_is_found(phone: Page, tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text('<!doctype html><html><title>x</title><img src="data:,"><button></button>'
                                         '<p style="color:#aaa;background:#fff">pale words', encoding="utf-8")
    phone.goto((tmp_path / "index.html").as_uri())
    phone.evaluate(AXE.read_text(encoding="utf-8"))
    found, of_colour = ({line.partition(":")[0] for line in grave(phone, *tags)} for tags in ((), ("cat.color",)))
    assert found >= {"image-alt", "button-name", "color-contrast", "html-has-lang"}
    assert of_colour == {"color-contrast"}
