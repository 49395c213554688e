"""Every kind of page as a picture, narrow, wide and on paper, kept as build artefacts for whoever wants to look.

They go, by reader, to the folder that the environment variable DOORPOST_SCREENSHOTS names, else to build/screenshots, which is in no repository.
"""
import os
import re
import struct
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from generator.publish.pocket import NAME
from generator.terms.audience import Audience
from tests.browser.pages import DESK, PHONE, new_context, one_of_each_kind
from tests.browser.test_browser_manual import one_of_each_template
from tests.conftest import ROOT

VARIABLE = "DOORPOST_SCREENSHOTS"
SIZES = {"360x740": PHONE, "1280x800": DESK}
# Kinds that have no page of their own: a step and a hold point alone, places of the one file.
PLACES = ("steps/fix.html#fix-m1", "steps/fix.html#hold-fix-m1", f"../{NAME}#index-html", f"../{NAME}#fix-m1", f"../{NAME}#pages")
MANUAL = "manual"
PDF_PAGE = re.compile(rb"/Type\s*/Page\b(?!s)")


def folder() -> Path:
    return Path(os.environ.get(VARIABLE) or ROOT / "build" / "screenshots")


def named(address: str) -> str:
    """A file's name for a place.

    >>> named("steps/fix.html#fix-m1")
    'steps-fix-fix-m1'
    """
    return re.sub(r"\W+", "-", address.replace(".html", "")).strip("-")


def png_size(path: Path) -> tuple[int, int]:
    """Width and height of a picture, from its first chunk (PNG, third edition, 11.2.1; from memory)."""
    return struct.unpack(">II", path.read_bytes()[16:24])


def kinds(pack: Path, reader: str) -> list[str]:
    """One page of each kind of a reader's pack, by its way from there; steps have one page a phase. Of the manual the longest of each template."""
    if reader == MANUAL:
        return one_of_each_template()
    more = {Audience.INSTALLER: PLACES, Audience.HOMEOWNER: ("../homeowner.html",)}.get(Audience(reader), ())
    return [*(file.relative_to(pack).as_posix() for file in one_of_each_kind(pack)), *more]


@pytest.mark.parametrize("reader, at_least", [("installer", 30), ("homeowner", 12), ("station", 1), ("record", 20), (MANUAL, 12)])
def test_a_picture_of_every_kind_of_page_narrow_wide_and_on_paper(request: pytest.FixtureRequest, chromium: Browser, reader: str, at_least: int) -> None:
    pack = request.getfixturevalue("manual") if reader == MANUAL else request.getfixturevalue("every_demo") / "K-2050" / reader
    places, out = kinds(pack, reader), folder() / reader
    assert len(places) >= at_least and len(set(map(named, places))) == len(places)
    out.mkdir(parents=True, exist_ok=True)
    window = new_context(chromium)
    page = window.new_page()
    made = {}
    for place in places:
        page.goto(f"{pack.as_uri()}/{place}", wait_until="domcontentloaded")
        for size, viewport in SIZES.items():
            page.set_viewport_size(viewport)
            made[named(place), size] = out / f"{named(place)}-{size}.png"
            page.screenshot(path=made[named(place), size])
        if NAME not in place or place.endswith("#fix-m1"):
            made[named(place), "print"] = out / f"{named(place)}-print.pdf"
            page.pdf(path=made[named(place), "print"], format="A4")
    window.close()
    assert [name for name, path in made.items() if path.stat().st_size < 2000] == []
    assert {(size, png_size(path)) for (_, size), path in made.items() if size in SIZES} == {(size, tuple(one.values())) for size, one in SIZES.items()}
    assert all(PDF_PAGE.search(path.read_bytes()) for path in made.values() if path.suffix == ".pdf")


@pytest.mark.parametrize("value, ends", [("", "build/screenshots"), ("/tmp/elsewhere", "/tmp/elsewhere")])
def test_they_go_where_the_variable_says(monkeypatch: pytest.MonkeyPatch, value: str, ends: str) -> None:
    monkeypatch.setenv(VARIABLE, value)
    assert folder().as_posix().endswith(ends)
