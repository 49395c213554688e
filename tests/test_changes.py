"""Does a pack say exactly what changed since the last issue, what to send again, and nothing that its reader may not see?"""
import inspect
import json
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from generator.calc.changes import Changes, Sent, changes
from generator.model.readers import TABLE
from generator.pages.changes import PATH
from generator.pages.prints import OF_THE_BUILD, page_prints
from generator.pipeline import Compiled, compile_job, issued_on, looked_for, pack_of, verdicts_for
from generator.publish.pack import plan
from generator.publish.places import own_wording
from generator.publish.render import environment, render, translations
from generator.record.issue import ISSUED
from generator.record.issued_text import issued_text
from generator.rules.all_rules import RULES
from generator.terms.audience import Audience
from tests.conftest import Files, read_files, write_files
from tests.every_field import change_all, every_field_files, hidden_from
from tests.issues import changed
from tests.test_audiences import different

FIRST, SECOND = date(2026, 9, 14), date(2026, 10, 1)
INSTALLER, HOMEOWNER, STATION, RECORD = Audience


def put_issued(job: Compiled, folder: Path, on: date = FIRST) -> Compiled:
    """Writes what an issue writes into a job folder."""
    done = issued_on(job, on)
    (folder / ISSUED).write_text(issued_text(done), encoding="utf-8")
    return done


@pytest.fixture
def drafts(tmp_path) -> Callable[..., Compiled]:
    """The demo job, issued once, and then with other things in it."""
    def make(*others: Callable[[Files], object]) -> Compiled:
        put_issued(compile_job(write_files(read_files(), tmp_path / "job")), tmp_path / "job")
        return compile_job(changed(read_files(), tmp_path / "job", *others))
    return make


def device(name: str, **keys: str) -> Callable[[Files], object]:
    return lambda files: files["job"]["devices"].setdefault(name, {}).update(keys)


def without(name: str) -> Callable[[Files], object]:
    return lambda files: files["job"]["devices"].pop(name)


def since_last(job: Compiled) -> Changes:
    """What changed since the last issue, also where nothing did."""
    return changes(job.last, job.now)


def rows(job: Compiled) -> list[tuple]:
    return [(one.state, one.list, one.number, one.device, [(it.name, it.before, it.now) for it in one.differences])
            for one in since_last(job).numbers]


NEW_WINDOW = device("D9", sheet="tern-dc", protects="kitchen-window", role="immediate", text="SINK WINDOW")

CASES = {
    "nothing": ((), [], Sent(), Sent(), Sent()),
    "a comment": ((lambda files: files["job"].update(note="Mind the step."),), [], Sent(), Sent(), Sent()),
    "a text": ((device("D2", text="HALL PIR"),), [("changed", "zones", 5, "D2", [("text", "HALL MOVE", "HALL PIR")])],
               Sent(changed=("5",)), Sent(), Sent()),
    "a unit more": ((NEW_WINDOW,), [("added", "zones", 11, "D9", [])], Sent(added=("11",)), Sent(added=("D9",)), Sent(added=("D9",))),
    "a unit less": ((without("D2"),), [("removed", "zones", 5, "D2", [])], Sent(removed=("5",)), Sent(removed=("D2",)), Sent(removed=("D2",))),
    "another serial": ((device("D2", serial="00B999"),), [("changed", "zones", 5, "D2", [("serial", "00B117", "00B999")])],
                       Sent(), Sent(), Sent()),
    "a second input less": ((device("D3", use_input_2="false"), lambda files: [files["job"]["devices"]["D3"].pop(key) for key in ("text_2", "protects_2")]),
                            [("removed", "zones", 10, "D3", [])], Sent(removed=("10",)), Sent(changed=("D3",)), Sent()),
}


@pytest.mark.parametrize("given, numbers, zones, labels, cards", CASES.values(), ids=CASES.keys())
def test_the_lists_are_exactly_what_changed(drafts, given, numbers, zones, labels, cards) -> None:
    job = drafts(*given)
    made = since_last(job)
    assert rows(job) == numbers
    assert made.zones == zones and made.users == made.partitions == Sent() and made.links == ()
    for audience, wanted in ((INSTALLER, labels), (HOMEOWNER, cards)):
        short = {**job.last.other_references, **{row.device: row.reference for row in job.last.map}, **job.results.references}
        got = made.labels[audience]
        assert got == Sent(*(tuple(short[name] for name in names) for names in (wanted.added, wanted.changed, wanted.removed)))


def printed(job: Compiled, audience: Audience) -> dict[str, str]:
    """Every page of a reader as HTML, without what pages say of the build and without the count of steps."""
    looked = looked_for(job, own_wording())
    pack = pack_of(job, audience, translations().gettext, looked)
    pages = {page.path: render(page, environment(translations())).html for page in pack.pages if page.path not in OF_THE_BUILD}
    for said in (pack.stamp.fingerprint, pack.stamp.issued, pack.stamp.as_of):
        pages = {path: text.replace(said, "…") for path, text in pages.items()}
    pages = {path: re.sub(r"Step \d+ of \d+", "Step …", text) for path, text in pages.items()}
    pages = {path: re.sub(r"<p class=\"state(?: brief)?\"><strong>Draft: not issued.</strong>.*?</p>\n", "", text) for path, text in pages.items()}
    return {path: re.sub(r'<h2 id="changes">.*?</ul>', "", text, flags=re.S) for path, text in pages.items()}


@pytest.fixture(scope="module")
def unchanged(tmp_path_factory) -> dict[Audience, dict[str, str]]:
    """Every reader's pages of the demo job as it was issued."""
    folder = tmp_path_factory.mktemp("unchanged") / "job"
    put_issued(compile_job(write_files(read_files(), folder)), folder)
    job = compile_job(folder / "job.yaml")
    return {audience: printed(job, audience) for audience in Audience}


@pytest.mark.parametrize("given", [one[0] for one in CASES.values()], ids=CASES.keys())
@pytest.mark.parametrize("audience", Audience)
def test_the_pages_to_send_again_are_those_that_are_printed_otherwise(drafts, unchanged, given, audience) -> None:
    before, after = unchanged[audience], printed(job := drafts(*given), audience)
    assert since_last(job).pages[audience] == Sent(
        tuple(path for path in after if path not in before), tuple(path for path in after if before.get(path, after[path]) != after[path]),
        tuple(path for path in before if path not in after))


def test_a_page_whose_steps_only_moved_in_the_count_is_not_to_be_opened_again(drafts) -> None:
    before = {page.path: page.view for page in pack_of(drafts(), INSTALLER, str, looked_for(drafts(), own_wording())).pages}
    job = drafts(NEW_WINDOW)
    after = {page.path: page.view for page in pack_of(job, INSTALLER, str, looked_for(job, own_wording())).pages}
    moved = {path for path, view in after.items() if path.startswith("steps/") and len(view.steps) == len(before[path].steps)
             and view != before[path] and [replace(one, number="") for one in view.steps] == [replace(one, number="") for one in before[path].steps]}
    more = {path for path, view in after.items() if path.startswith("steps/") and len(view.steps) > len(before[path].steps)}
    changed = set(since_last(job).pages[INSTALLER].changed)
    assert moved and more and more <= changed and not moved & changed
    text = told(job, INSTALLER)
    assert all(f'{view.title}' not in text for path, view in after.items() if path in moved)


@pytest.mark.parametrize("given", [(), (device("D2", text="OBADIAH BED"), lambda files: files["people"]["customer"].update(name="Obadiah Reed"))], ids=["clear", "found"])
@pytest.mark.parametrize("audience", Audience)
def test_every_page_that_is_kept_of_an_issue_stands_in_the_pack(tmp_path, audience, given) -> None:
    """Also where the pack has people's names and the pages that are compared have none."""
    path = changed(read_files(), tmp_path / "job", *given)
    done = put_issued(compile_job(path), tmp_path / "job")
    now = compile_job(path)
    there = {page.path for page in pack_of(now, audience, str, looked_for(done, own_wording())).pages} - {*OF_THE_BUILD}
    kept = set(getattr(done.last.pages, audience.value))
    assert kept <= there
    # What the pack has besides are pages of rules that look at people's data and did not answer "clear".
    of_people = {rule.id for rule in RULES if rule.of_people}
    spoke = {one.rule for one in verdicts_for(now, audience) if one.outcome != "clear"} if audience in (INSTALLER, RECORD) else set()
    assert there - kept == {f"rules/{name}.html" for name in of_people & spoke}
    assert not given or audience is not RECORD or of_people & spoke


def test_without_people_nothing_else_is_kept_of_an_issue(tmp_path) -> None:
    one, other = (put_issued(compile_job(changed(read_files(), tmp_path / name, *given)), tmp_path / name).last
                  for name, given in (("with", ()), ("without", (lambda files: files.update(people=None),))))
    assert one.pages == other.pages


def test_a_rule_that_looks_at_people_names_a_row_of_people_among_what_it_reads() -> None:
    source = {rule.id for rule in RULES if ".people" in inspect.getsource(rule.body) or any("people.yaml" in need.what for need in rule.needs)}
    assert source == {rule.id for rule in RULES if rule.of_people} != set()


def test_steps_in_another_order_are_another_page(drafts) -> None:
    page = next(page for page in pack_of(drafts(), INSTALLER, str, looked_for(drafts(), own_wording())).pages
                if page.path.startswith("steps/") and len(page.view.steps) > 1)
    turned = replace(page, view=replace(page.view, steps=page.view.steps[::-1]))
    assert dict(page_prints((page,))) != dict(page_prints((turned,)))


def test_a_users_and_a_partitions_line_are_told_by_their_numbers(drafts) -> None:
    def others(files: Files) -> None:
        files["job"]["title"] = "Thrift House"
        files["job"]["users"]["2"]["who"] = "carer"
        files["job"]["users"]["3"] = {"who": "cleaner"}

    job = drafts(others)
    made = job.changes(None)
    assert (made.zones, made.partitions, made.users) == (Sent(), Sent(changed=("1",)), Sent(added=("3",), changed=("2",)))
    assert told(job, STATION).endswith("not issued. Partition 1: changed User 3: added User 2: changed")


def test_a_person_or_a_path_name_is_no_change_of_a_page_but_makes_labels_old(drafts) -> None:
    def elsewhere(files: Files) -> None:
        files["people"]["customer"]["telephone"] = "07700 900499"
        files["job"]["publish"] = {"address": "https://packs.saltmarsh.example/", "installer": "k3v9q0x7m2c8r4t6y1w5z0a7b3"}

    made = drafts(elsewhere).changes(None)
    assert made.numbers == () and all(one == Sent() for one in (*made.pages.values(), *made.labels.values()))
    assert made.links == (INSTALLER,)


def test_after_the_issue_the_pack_shows_the_changes_against_the_revision_before(drafts, tmp_path) -> None:
    draft = drafts(device("D2", text="HALL PIR"))
    wanted = draft.changes(None)
    done = put_issued(draft, tmp_path / "job", SECOND)
    again = compile_job(tmp_path / "job" / "job.yaml")
    for job in (done, again):
        assert job.last.revision == 2 and job.same(None) and job.before(None).revision == 1
        assert job.changes(None) == wanted
    assert again.now == done.last
    assert [row.hash for row in again.now.map] == [row.hash for row in done.last.map]


def test_what_did_not_change_keeps_its_hash_over_revisions(drafts, tmp_path) -> None:
    first = drafts().last
    second = put_issued(compile_job(tmp_path / "job" / "job.yaml"), tmp_path / "job", SECOND).last
    assert (second.revision, second.date) == (2, SECOND)
    for part in ("map", "pages", "labels", "links", "station_lines", "other_references"):
        assert getattr(first, part) == getattr(second, part)


# --- what each reader is told -------------------------------------------------------------------------------

def told(job: Compiled, audience: Audience) -> str:
    """A reader's page of changes in plain text; the station's is part of its sheet."""
    pack = pack_of(job, audience, translations().gettext, looked_for(job, own_wording()))
    page = next(page for page in pack.pages if page.path == ("index.html" if audience is STATION else PATH))
    text = render(page, environment(translations())).html
    text = re.search(r'<h2 id="changes">.*?</ul>', text, re.S)[0] if audience is STATION else text
    return " ".join(re.sub(r"<[^>]+>", " ", text).split()).replace("&#39;", "'")


def test_the_installer_is_told_units_numbers_pages_and_labels(drafts) -> None:
    text = told(drafts(device("D2", text="HALL PIR", serial="00B999"), NEW_WINDOW, without("D1")), INSTALLER)
    assert text.startswith("What changed Since revision 1 of 14 Sep 2026; this plan is not issued. Units and numbers "
                           "Zone 5, D2 text is now HALL PIR; serial is now 00B999 Zone 11, D9 added: SINK WINDOW "
                           "Zone 1, D1 removed; the number stays empty Pages that say something else ")
    assert re.search(r"Labels to print again \w{4}, D9 \w{4}: take it off, its unit is gone", text)
    # What stood there before is the record's.
    assert "HALL MOVE" not in text and "00B117" not in text


def test_the_record_is_told_what_was_before_and_what_to_send_to_whom(drafts) -> None:
    text = told(drafts(device("D2", text="HALL PIR", serial="00B999")), RECORD)
    assert "Zone 5, D2 text is now HALL PIR and was HALL MOVE; serial is now 00B999 and was 00B117" in text
    assert "Pages to send again: installer slots.html: Slot map" in text
    assert "Pages to send again: station index.html: Monitoring sheet: Thrift Cottage" in text
    assert "Lines of the monitoring sheet to send again Zone 5: changed" in text and "homeowner" not in text


def test_the_station_is_told_its_lines_and_nothing_else(drafts) -> None:
    text = told(drafts(device("D2", text="HALL PIR", serial="00B999"), NEW_WINDOW, without("D1")), STATION)
    assert text == "Changed Since revision 1 of 14 Sep 2026; this plan is not issued. Zone 11: added Zone 5: changed Zone 1: taken out"


def test_a_change_that_is_none_for_the_station_is_not_told_to_it(drafts) -> None:
    serial = drafts(device("D2", serial="00B999"))
    assert "serial is now" in told(serial, INSTALLER)
    assert serial.changes(STATION) is None and serial.same(STATION) and not serial.same(None)


def test_nothing_changed_is_said_and_the_first_revision_has_nothing_before_it(drafts, tmp_path) -> None:
    assert told(drafts(), INSTALLER) == "What changed Revision 1 of 14 Sep 2026 is the first; there is nothing to compare it with."
    put_issued(compile_job(tmp_path / "job" / "job.yaml"), tmp_path / "job", SECOND)
    assert told(compile_job(tmp_path / "job" / "job.yaml"), INSTALLER).startswith(
        "What changed Revision 2 of 1 Oct 2026, compared with revision 1 of 14 Sep 2026. Nothing changed. Names, telephone numbers")


def test_an_address_of_the_pack_that_is_another_is_told_to_the_installer_and_not_to_the_record(drafts) -> None:
    job = drafts(lambda files: files["job"].update(publish={"address": "https://packs.saltmarsh.example/",
                                                            "installer": "k3v9q0x7m2c8r4t6y1w5z0a7b3"}))
    assert "Labels to print again All of them: their codes lead to another address now." in told(job, INSTALLER)
    assert "Labels to print again" not in told(job, RECORD)


def test_the_plan_as_data_holds_revision_state_and_changes(drafts) -> None:
    document = plan(drafts(device("D2", text="HALL PIR")))
    assert (document["revision"], document["issued"], document["state"]) == (1, "2026-09-14", "changed since")
    assert document["changes"]["since"] == 1
    assert document["changes"]["numbers"] == [{"state": "changed", "list": "zones", "number": 5, "device": "D2", "text": "HALL PIR",
                                               "differences": [{"name": "text", "was": "HALL MOVE", "is": "HALL PIR"}]}]
    assert document["changes"]["station_lines"]["zones"] == {"added": [], "changed": ["5"], "removed": []}
    json.dumps(document)
    assert plan(drafts())["state"] == "issued" and plan(drafts())["changes"] is None


# --- no influence -------------------------------------------------------------------------------------------

def test_what_the_record_may_not_see_is_no_part_of_what_is_compared() -> None:
    hidden = {row for row, letters in TABLE.items() if "R" not in letters}
    assert hidden == {"job.publish.installer", "job.publish.homeowner", "job.publish.station", "job.equipment.*"}


# What numbers follow from is frozen: another value is a contradiction, and answered before any page is made.
GIVES_NUMBERS = ("job.devices.*.number", "job.existing", "job.reserved", "job.devices.*.use_input_2", "job.devices.*.next_to",
                 "job.freed", "sheet.inputs", "sheet.slots", "sheet.control_unit.lists", "job.users", "sheet.control_unit.slot_is_zone")


@pytest.mark.parametrize("changed_too", [False, True], ids=["as issued", "changed since"])
@pytest.mark.parametrize("audience", Audience)
def test_what_a_reader_may_not_see_has_no_influence_on_what_that_reader_is_told_of_changes(tmp_path, audience, changed_too) -> None:
    files = every_field_files()
    folder = tmp_path / "job"
    put_issued(compile_job(write_files(files, folder)), folder)
    if changed_too:
        # Whoever sees zones has something to be told of.
        files["job"]["devices"]["D2"]["text"] = "HALL PIR"
    before = compile_job(changed(files, folder))
    assert [before.same(one) for one in (INSTALLER, STATION, None)] == [not changed_too] * 3
    hidden = hidden_from(audience)
    after = compile_job(changed(change_all(files, lambda touched: hidden(touched) and not any(
        row.startswith(GIVES_NUMBERS) for row in touched)), folder))
    assert after.fingerprint != before.fingerprint or audience is RECORD
    assert after.fingerprint_of[audience] == before.fingerprint_of[audience]
    one, other = (_pages_of(job, audience) for job in (before, after))
    assert one and different(one, other) == []


def _pages_of(job: Compiled, audience: Audience) -> dict[str, bytes]:
    """A reader's pages with their stamp. The page of the search counts what is hidden, which the other tests are for."""
    pack = pack_of(job, audience, translations().gettext, looked_for(job, own_wording()))
    pages = {page.path: render(page, environment(translations())).html.encode() for page in pack.pages if page.path != "search.html"}
    return {**pages, "stamp": repr(pack.stamp).encode()}
