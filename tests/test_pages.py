"""Do the pages say what they must, to the reader who may read it?"""
from collections.abc import Callable
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from generator.publish.render import environment, render, translations
from generator.terms.audience import Audience
from tests.conftest import packs_of

WIRING = ("isolate", "dead", "keep out of fixed wiring", "local", "wiring code", "licensed electrician")


@pytest.fixture
def text(job_file) -> Callable[..., dict[str, dict[str, str]]]:
    """The visible text of every page, by reader and path, of the demo job with changes."""

    def read(*changes) -> dict[str, dict[str, str]]:
        return {pack.audience.value: {page.path: _text(page) for page in pack.pages} for pack in packs_of(job_file(*changes))}

    return read


def _text(page) -> str:
    soup = BeautifulSoup(render(page, environment(translations())).html, "html5lib")
    return " ".join(soup.body.get_text(" ").split())


def short(packs_text: dict[str, str], name: str) -> str:
    """The path of a unit's page in the installer's pack."""
    return next(path for path, text in packs_text.items() if path.startswith("d/") and text.startswith(f"{name} "))


@pytest.mark.parametrize("unit, wired", [("CU", True), ("D3", True), ("S1", True), ("D1", False), ("F1", False)])
def test_a_unit_with_terminals_or_mains_carries_the_wiring_caution(text, unit: str, wired: bool) -> None:
    pages = text()["installer"]
    page = pages[short(pages, unit)].lower()
    assert all(words in page for words in WIRING) == wired


def test_the_safety_page_carries_the_wiring_caution_whatever_the_job(text) -> None:
    def no_wires(files) -> None:
        for sheet in files["equipment"].values():
            sheet.pop("terminals", None)
            sheet["power"]["kind"] = "cell"
    for changes in ((), (no_wires,)):
        page = text(*changes)["installer"]["safety.html"].lower()
        assert all(words in page for words in WIRING)


def test_every_step_at_a_wired_unit_with_an_open_lid_has_the_caution_before_it(text) -> None:
    page = text()["installer"]["steps/test.html"]
    step = page[page.index("Test CU"):page.index("Test K1")]
    assert step.index("DANGER") < step.index("Open the lid of CU")


def test_the_start_page_tells_job_place_hazards_and_next_step_first(text) -> None:
    page = text()["installer"]["index.html"]
    # The next step stays at the bottom of the screen, under the thumb, whatever is read above it.
    order = [page.index(words) for words in ("Thrift Cottage", "Draft: not issued", "DANGER Live mains", "Next hold point H1", "Textured ceiling",
                                             "Nothing was done yet", "steps left", "Detached cottage", "3 Samphire Lane", "Next step", "The day")]
    assert order == sorted(order)


def test_every_page_says_the_same_number_for_a_unit(text) -> None:
    packs = text()
    pages = packs["installer"]
    assert "1 HALL FRONT DR D1" in pages["slots.html"]
    assert "Zone 1 HALL FRONT DR" in pages[short(pages, "D1")] and "Zone 1 HALL FRONT DR" in pages["steps/enrol.html"]
    assert "shows zone 1 HALL FRONT DR" in pages["tests.html"] and "Zone 1" in pages["labels.html"]
    assert "1 HALL FRONT DR door or window opened perimeter" in packs["station"]["index.html"]
    assert "zones 1 HALL FRONT DR".replace("zones", "zone") in packs["record"]["schedule.html"]


def test_a_check_stands_with_its_limit_and_the_unit_of_what_is_measured(text) -> None:
    page = text()["installer"]["tests.html"]
    assert ("Link margin. At the final place, lid on, doors in their worst state: 15 dB or more. "
            "Write the dB. Only bars to be read: “could not test”, with the bars beside it (4 of 9 or better is good by its papers, and no margin). "
            "To write: dB. From: Habit of the trade, no document (common practice)") in page
    assert "Each line ends as pass, fail, could not test or not applicable. A blank is never a pass" in page


def test_the_kit_counts_what_all_units_take(text) -> None:
    page = text()["installer"]["kit.html"]
    assert "3 CR123A for D2 and K1" in page and "2 CR2 for D1 and D3" in page and "8 3 x 20 mm screw for D1 and D3" in page


@pytest.mark.parametrize("change, field, says", [
    (lambda f: f["job"]["times"].update(entry_s="46"), "Entry time", "STOP: 46 s programmed, 45 s is the longest entry time."),
    (lambda f: f["job"]["devices"]["D1"].update(text="HALL FRONT DOOR LEFT"), "Zone 1",
     'STOP: "HALL FRONT DOOR LEFT" has 20 characters, 16 are shown.'),
    (lambda f: f["job"]["devices"]["D2"].update(serial="00A4F3"), "Serial", "STOP: Serial 00A4F3 stands at D1 and at D2."),
])
def test_a_stopped_value_is_never_shown_as_one_to_use(text, change, field: str, says: str) -> None:
    pages = text(change)["installer"]
    assert any(f"{field} {says}" in page for path, page in pages.items() if path in ("steps/enrol.html", "steps/programme.html"))
    assert f"{field} {says}" in pages["settings.html"] or field == "Serial" or f"{field} Planned {says}" in pages["settings.html"]
    assert says.removeprefix("STOP: ") in pages["steps/leave.html"] and "Cannot be signed while this stands" in pages["steps/leave.html"]
    assert says.removeprefix("STOP: ") in pages["index.html"]


def test_of_two_units_with_one_serial_neither_serial_is_shown_as_one_to_use(text) -> None:
    pages = text(lambda f: f["job"]["devices"]["D2"].update(serial="00A4F3"))["installer"]
    for unit in ("D1", "D2"):
        assert "Serial STOP: Serial 00A4F3 stands at D1 and at D2." in pages[short(pages, unit)]
    assert "Serial 00A4F3 Room" not in pages["steps/enrol.html"]


def test_zones_that_do_not_fit_leave_the_other_lists_and_tell_the_station(text) -> None:
    def short_list(files) -> None:
        files["equipment"]["tern-cu32"]["control_unit"]["lists"]["zones"] = "3"
    packs = text(short_list)
    assert "4 numbers of the zones needed, 3 available" in packs["installer"]["slots.html"]
    assert "Keypads" in packs["installer"]["slots.html"] and "Zones 4 of" not in packs["installer"]["slots.html"]
    assert "not settled yet" in packs["station"]["index.html"]


def test_the_homeowner_reads_no_number_serial_account_position_or_word_of_the_trade(text) -> None:
    for path, page in text()["homeowner"].items():
        found = [words for words in ("zone", "Zone", "serial", "00A4F3", "4D27", "HALL FRONT", "dB", "margin", "top third", "slot",
                                     "tamper", "Tern", "entry-route", "CR2", "Penhallow", "Samphire") if words in page]
        assert found == [], path


def test_the_homeowner_reads_how_to_set_and_whom_to_call(text) -> None:
    pages = text()["homeowner"]
    assert "Leave the house by the front door. You have 45 seconds to get out." in pages["setting.html"]
    assert "Call Lantern Watch first." in pages["help.html"] and "Fire, or a carbon monoxide alarm, or a smell of gas: get out, then call 112." in pages["help.html"]
    assert "01632 960311" in pages["help.html"]


def test_a_home_without_a_station_is_not_told_to_call_one(text) -> None:
    pages = text(lambda f: f["job"].pop("monitoring"))["homeowner"]
    assert "monitoring station" not in pages["help.html"] and "Lantern" not in " ".join(pages.values())


def test_children_bring_the_warning_about_batteries(text) -> None:
    words = "Keep all batteries away from children."
    assert not any(words in page for page in text()["homeowner"].values())
    children = text(lambda f: f["job"]["premises"].update(children="true"))["homeowner"]
    # It stands with what children get hold of, and not with what hangs high: there it would frighten and mend nothing.
    assert [path for path, page in children.items() if words in page] == [short(text()["installer"], "F1")]


def test_the_record_says_what_was_checked_against_which_profile_as_of_when(text) -> None:
    record = text()["record"]
    assert ("Checked against profile European grade 2, edition 2026-11, with 1 limit of the company's own, as of 14 Sep 2026") in record["index.html"]
    assert "numbers-do-not-fit" in record["checked.html"] and "serial-not-captured" in record["checked.html"]
    assert "Tests: Passed, failed, could not be done" in record["documents.html"]


def test_no_page_claims_that_a_system_complies_or_is_safe(text) -> None:
    for pages in text().values():
        for path, page in pages.items():
            assert not any(words in page.lower() for words in ("compliant", "complies", "fully protected", "guarantee")), path


def test_a_note_is_plain_text_with_emphasis_and_no_more(text, job_file) -> None:
    from generator.publish.notes import note_html

    assert "<em>wall</em>" in note_html("Drill the *wall* only.")
    html = note_html("<script>x</script> [a](javascript:1) ![b](http://x) <http://y> http://z &amp; # no heading\n\n- one\n- two")
    soup = BeautifulSoup(html, "html5lib")
    assert not soup.find_all(["script", "a", "img", "h1"]) and [item.text for item in soup.find_all("li")] == ["one", "two"]
    assert "<script>x</script> [a](javascript:1) ![b](http://x) <http://y> http://z &amp; # no heading" in soup.text


def test_every_reader_gets_pages_without_people(text) -> None:
    packs = text(lambda f: f.update(people=None))
    assert set(packs) == {one.value for one in Audience} and "there was no people.yaml" in packs["record"]["index.html"]
    assert "the company sends them apart" in packs["station"]["index.html"]


def test_every_link_of_a_view_leads_to_a_page_of_the_same_pack(demo: Path) -> None:
    broken = []
    for site in ("installer", "homeowner", "record"):
        for path in (demo / site).rglob("*.html"):
            for link in BeautifulSoup(path.read_text(encoding="utf-8"), "html5lib").find_all("a", href=True):
                if link["href"].startswith("tel:"):
                    continue
                target, _, anchor = link["href"].partition("#")
                file = (path.parent / target).resolve() if target else path
                if not file.is_file() or (anchor and f'id="{anchor}"' not in file.read_text(encoding="utf-8")):
                    broken.append((path.relative_to(demo).as_posix(), link["href"]))
    assert broken == []
