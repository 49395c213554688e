"""Is a hostile text in any field shown as the characters it is, to everybody who may see it, and does it do nothing?"""
import copy
import csv
import html
import json
import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from generator.model.visibility import LETTERS
from generator.publish.tables import FORMULA_STARTS
from generator.terms.audience import Audience
from tests.browser.checker import faults
from tests.browser.jobs import build, fill
from tests.browser.pages import AUDIENCES, RESULT, Contexts, notice, outside, pages_of, search, search_again
from tests.conftest import HOSTILE, read_files

# An element that would act as soon as it is made, beside the script that would not when it is put in later.
PROBE = f"{HOSTILE} <img src=x onerror=alert(2)>"
# In the words of a sheet, braces stand for a unit's own values; others are refused when the sheet is read.
WITHOUT_BRACES = PROBE.replace("{{ 7*7 }} ", "")
MARK = re.compile(r"m\d+m")
ZONE_TEXTS = {"text": "A<b>{{1}}", "text_2": "=1+1"}

# Where each field is shown at least; more is allowed only where the table of audiences allows it.
SHOWN = {
    "job.title": "IHSR",
    "job.note": "I",
    "job.control_unit.position": "IR",
    "job.premises.place": "IR",
    "job.premises.hazards.*": "I",
    "job.premises.storeys.*.rooms.*.name": "IHSR",
    "job.premises.storeys.*.rooms.*.untested_ceiling": "IR",
    "job.premises.storeys.*.rooms.*.untested_walls": "IR",
    "job.premises.storeys.*.openings.*.name": "IHSR",
    "job.devices.*.number_why": "I",
    "job.devices.*.position": "IR",
    "job.devices.*.called": "H",
    "job.devices.*.note": "I",
    "job.users.*.who": "IS",
    "job.monitoring.station": "IHS",
    "sheet.name": "IR",
    "sheet.inputs.*.name": "I",
    "sheet.power.cell": "IR",
    "sheet.serial.alphabet": "I",
    "sheet.control_unit.link_scale.unit": "I",
    "sheet.terminals.*.name": "I",
    "sheet.terminals.*.wire": "I",
    "sheet.parts.*.item": "I",
    "sheet.handling.enrol": "I",
    "sheet.handling.fix": "I",
    "sheet.handling.test": "I",
    "sheet.handling.change_cell": "I",
    "sheet.control_unit.power_order_reason": "I",
    "sheet.everyday": "H",
    "company.name": "HSR",
    "company.data_contact": "H",
    "company.limits.*.because": "IR",
    "company.limits.*.by": "IR",
    "company.licences.*.name": "R",
    "company.licences.*.number": "R",
    "people.customer.name": "ISR",
    "people.customer.address.*": "ISR",
    "people.keyholders.*.name": "SR",
    "company.false_alarms": "R",
    "company.keeps.*.how_long": "HR",
    "company.keeps.*.what": "HR",
    "company.spares.*.item": "I",
    "job.agreement.decided_by": "R",
    "job.handover.changed_by": "IR",
    "job.monitoring.may_change": "SR",
    "job.premises.storeys.*.name": "SR",
    "people.customer.grid_reference": "SR",
    "people.keyholders.*.away": "SR",
    "people.keyholders.*.relation": "SR",
    "sheet.signals.*.light": "H",
    "sheet.signals.*.sound": "H",
}


class Hostile:
    """The demo job with every free text hostile: its packs, and for each mark the field and the text that end in it."""

    def __init__(self, folder: Path):
        self.fields: dict[str, str] = {}
        self.texts: dict[str, str] = {}
        files = copy.deepcopy(read_files())
        fill(files, self._text)
        # What people call a thing hides the room it is in; one thing is left without, so that both are seen.
        del files["job"]["devices"]["K1"]["called"]
        self.packs = build(files, folder)

    def _text(self, field: str) -> str:
        mark = f"m{len(self.fields)}m"
        self.fields[mark] = field
        self.texts[mark] = f"{WITHOUT_BRACES if '.handling.' in field else PROBE} {mark}"
        return self.texts[mark]


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Hostile:
    """The packs of the hostile job."""
    return Hostile(tmp_path_factory.mktemp("hostile"))


@pytest.fixture(scope="module")
def hostile_zones(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The packs of a job whose zone texts are short and hostile; the rules stop it, its pages are built anyway."""
    files = copy.deepcopy(read_files())
    for device in files["job"]["devices"].values():
        device |= {key: text for key, text in ZONE_TEXTS.items() if key in device}
    return build(files, tmp_path_factory.mktemp("zones"))


def evened(text: str) -> str:
    """A text with every run of blanks as one."""
    return " ".join(text.split())


def strings(data: Any) -> list[str]:
    """Every text in JSON data."""
    if isinstance(data, (dict, list)):
        return [text for one in (data.values() if isinstance(data, dict) else data) for text in strings(one)]
    return [data] if isinstance(data, str) else []


def odd(page: Page) -> list[str]:
    """What the hostile text would have made of itself: elements, links. Our own <b> has an attribute, or says “In full” and no more."""
    return page.evaluate("""[
      ...[...document.querySelectorAll("script")].filter(one => /alert/.test(one.textContent)),
      ...document.querySelectorAll("img, a[href^='javascript']"),
      ...[...document.querySelectorAll("main b:not([data-in])")].filter(one => one.innerHTML !== "In full"),
      ...[...document.querySelectorAll("*")].filter(one => [...one.attributes].some(own => own.name.startsWith("on"))),
    ].map(one => one.outerHTML.slice(0, 80))""")


@pytest.mark.parametrize("audience", AUDIENCES)
def test_hostile_text_is_shown_as_its_characters_to_all_who_may_see_it(hostile: Hostile, context: Contexts,
                                                                      audience: str) -> None:
    window = context()
    seen, page, shown, faults = notice(window), window.new_page(), set(), {}
    for file in pages_of(hostile.packs / audience):
        page.goto(file.as_uri())
        faults |= {line: file.name for line in odd(page)}
        for place, text in {"text": page.inner_text("body"), "all text": page.evaluate("seen.text('body')"),
                            "title": page.title()}.items():
            text = evened(text)
            for match in MARK.finditer(text):
                if text[:match.end()].endswith(hostile.texts[match[0]]):
                    shown.add(hostile.fields[match[0]])
                else:
                    faults[f"{place}, {hostile.fields[match[0]]}: …{text[:match.end()][-60:]}"] = file.name
    assert not faults, "\n".join(f"{file}: {line}" for line, file in faults.items())
    assert seen.dialogs == []
    assert seen.faults == []
    assert outside(seen.requests, f"{(hostile.packs / audience).as_uri()}/") == []
    letter = LETTERS[Audience(audience)]
    assert {field for field, readers in SHOWN.items() if letter in readers} - shown == set()


def test_every_free_text_of_the_job_was_made_hostile_and_is_expected_somewhere(hostile: Hostile) -> None:
    tried = set(hostile.fields.values())
    assert set(SHOWN) <= tried
    # The demo's insurer asks for nothing, and the day on which the proof was agreed is not given: neither is printed then.
    assert tried - set(SHOWN) == {"job.agreement.insurer_condition", "job.monitoring.proof_agreed_by"}


def test_the_installers_search_shows_hostile_text_and_runs_none_of_it(hostile: Hostile,
                                                                     context: Contexts) -> None:
    window = context()
    seen, page = notice(window), window.new_page()
    page.goto((hostile.packs / "installer" / "index.html").as_uri())
    search(page, "hall")
    for words in ("hall", "onerror"):
        search_again(page, words)
        expect(page.locator(RESULT).first).to_be_visible()
        page.evaluate("document.querySelectorAll('.md-search-result details').forEach(one => one.open = true)")
        page.wait_for_timeout(200)
        assert odd(page) == []
        assert "<script>alert(1)</script>" in evened(page.inner_text(".md-search-result"))
    assert seen.dialogs == []


def test_the_stations_data_holds_hostile_text_and_no_cell_is_a_formula(hostile: Hostile, hostile_zones: Path) -> None:
    for packs, expected in ((hostile.packs, [PROBE]), (hostile_zones, list(ZONE_TEXTS.values()))):
        with open(packs / "station" / "zones.csv", encoding="utf-8", newline="") as handle:
            cells = [cell for row in csv.reader(handle) for cell in row]
        data = strings(json.loads((packs / "station" / "station.json").read_text(encoding="utf-8")))
        assert [cell for cell in cells if cell.startswith(FORMULA_STARTS)] == []
        for text in expected:
            assert any(text in cell for cell in cells), text
            assert any(text in one for one in data), text
    assert FORMULA_STARTS[:4] == ("=", "+", "-", "@")


@pytest.mark.parametrize("audience", ["installer", "station", "record"])
def test_a_hostile_zone_text_is_shown_as_its_characters(hostile_zones: Path, context: Contexts,
                                                       audience: str) -> None:
    window = context()
    seen, page, shown = notice(window), window.new_page(), ""
    for file in pages_of(hostile_zones / audience):
        source = html.unescape(file.read_text(encoding="utf-8"))
        if any(text in source for text in ZONE_TEXTS.values()):
            page.goto(file.as_uri())
            assert odd(page) == [], file.name
            shown += page.inner_text("main")
    for text in ZONE_TEXTS.values():
        assert text in shown
    assert seen.dialogs == seen.faults == []


def test_pages_stay_valid_around_hostile_text(hostile: Hostile) -> None:
    pages = [page for audience in AUDIENCES for page in pages_of(hostile.packs / audience)]
    assert not (out := faults(pages)), "\n".join(out)


def test_the_picture_of_the_zone_numbers_names_a_hostile_text(hostile_zones: Path, phone: Page) -> None:
    phone.goto((hostile_zones / "installer" / "slots.html").as_uri())
    titles = phone.locator("svg.strip title").all_text_contents()
    for text in ZONE_TEXTS.values():
        assert any(title.endswith(f": {text}") for title in titles), titles
    assert phone.locator("svg.strip b").count() == 0


def test_hostile_text_that_was_not_escaped_is_found(phone: Page, tmp_path: Path) -> None:
    file = tmp_path / "index.html"
    file.write_text(f"<!doctype html><main>{PROBE} {ZONE_TEXTS['text']}</main>", encoding="utf-8")
    seen = notice(phone.context)
    phone.goto(file.as_uri())
    assert len(odd(phone)) >= 3 and any(one.startswith("<b>") for one in odd(phone))
    assert "1" in seen.dialogs
