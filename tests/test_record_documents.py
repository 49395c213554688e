"""Do the documents of the record hold what published lists ask for, name what is blank, and count it from themselves?

The lists beside each check are published ones, named with how they are known; the rest is common practice, no source.
"""
import copy
from collections.abc import Callable

import pytest
from bs4 import BeautifulSoup

from generator.pages.record.document import DocumentView
from generator.publish.render import environment, render, translations
from generator.terms.audience import Audience
from tests.conftest import JOBS, Files, packs_of, read_files, write_files

PATHS = ("survey.html", "proposal.html", "plan.html", "schedule.html", "completion.html", "log-book.html", "maintenance.html", "corrective.html",
         "keyholders.html", "monitoring.html", "data.html")
FACTS = {
    "agreement": {"decided_by": "the aunt of the house", "tenure": "tenant", "insurer": "stated", "insurer_condition": "an alarm kept up by contract",
                  "signed_on": "2026-08-17", "signed_at": "home", "work_on": "2026-09-14", "in_use_on": "2026-09-15", "term_months": "18",
                  "left_out": [{"what": "hatch of the loft", "why": "painted shut", "by": "landlord", "on": "2026-08-19"}]},
    "survey": {"on": "2026-08-05", "by": "second surveyor", "contents": ["violins"], "influences": ["a fan heater"],
               "assumptions": {"pets": {"assumed": "one old dog", "found": "two dogs", "on": "2026-09-01"}}},
    "history": {"false_calls": [{"on": "2026-02-03", "kind": "intruder", "cause": "user"}]},
    "handover": {"authority_changed": "true", "changed_on": "2026-09-14", "changed_by": "fitter"},
    "service": {"every_months": "6", "visits": [{"on": "2027-03-09", "remote": "true"}]},
}


def every_job() -> list[str]:
    return sorted(path.parent.name for path in JOBS.glob("*/job.yaml"))


@pytest.fixture
def files() -> Files:
    """The cottage with order, survey, history, handover and service."""
    out = read_files()
    out["job"] |= copy.deepcopy(FACTS)
    return out


@pytest.fixture
def record(files, tmp_path) -> Callable[..., dict[str, str]]:
    """The text of every page of the record, of the job with a change."""

    def read(*changes: Callable[[Files], object]) -> dict[str, str]:
        for change in changes:
            change(files)
        return {path: text(soup) for path, soup in pages(write_files(files, tmp_path / "job")).items()}

    return read


def record_pack(path):
    return next(one for one in packs_of(path) if one.audience is Audience.RECORD)


def pages(path) -> dict[str, BeautifulSoup]:
    env = environment(translations())
    return {page.path: BeautifulSoup(render(page, env).html, "html5lib") for page in record_pack(path).pages}


def text(soup: BeautifulSoup) -> str:
    return " ".join(soup.body.get_text(" ").split())


def lacking(page: str, words: tuple[str, ...]) -> list[str]:
    return [one for one in words if one not in page]


# --- every document -----------------------------------------------------------------------------------------

@pytest.mark.parametrize("job", every_job())
def test_each_document_is_a_page_of_its_own_that_says_whose_it_is(job: str) -> None:
    pack = record_pack(JOBS / job / "job.yaml")
    documents = {page.path: page for page in pack.pages if isinstance(page.view, DocumentView)}
    assert tuple(documents) == PATHS
    for page in documents.values():
        head = {one.name: one.value for one in page.view.head}
        assert pack.stamp.reference in head["Job"] and head["Fingerprint of this record"] == pack.stamp.fingerprint
        assert head["Revision"] == "Not issued" and head["Company"]
        ids = [one.id for one in page.view.sections]
        assert len(ids) == len(set(ids)), page.path


@pytest.mark.parametrize("job", every_job())
def test_what_is_unsigned_is_not_accepted(job: str) -> None:
    found = pages(JOBS / job / "job.yaml")
    for path in PATHS:
        if path not in ("plan.html", "log-book.html", "data.html"):
            assert "Acceptance not accepted: nobody has signed" in text(found[path]), path


@pytest.mark.parametrize("job", every_job())
def test_a_field_is_given_or_blank_and_never_both_or_neither(job: str) -> None:
    for page in record_pack(JOBS / job / "job.yaml").pages:
        for section in getattr(page.view, "sections", ()):
            assert [one.name for one in section.entries if bool(one.value) == bool(one.blank)] == [], f"{page.path} {section.title}"


def test_what_is_filled_is_counted_from_the_documents(files, tmp_path) -> None:
    def insurer(read) -> tuple[str, bool]:
        page = next(one for one in read.pages if one.path == "documents.html")
        survey = page.view.documents[0]
        return survey.far, "Parties: Its condition" in survey.filled.given
    before = insurer(record_pack(write_files(files, tmp_path / "job")))
    del files["job"]["agreement"]["insurer_condition"]
    after = insurer(record_pack(write_files(files, tmp_path / "job")))
    assert before[1] and not after[1] and before[0] != after[0]


def test_the_page_of_documents_leads_to_each(demo_packs) -> None:
    pack = next(one for one in demo_packs if one.audience is Audience.RECORD)
    view = next(one.view for one in pack.pages if one.path == "documents.html")
    assert tuple(one.link.href for one in view.documents) == PATHS


def test_no_secret_has_room_on_a_document(record) -> None:
    for path, page in record().items():
        assert lacking(page.lower(), ("keyword:", "password:", "pin:")) == ["keyword:", "password:", "pin:"], path


# --- one by one ---------------------------------------------------------------------------------------------

def test_a_survey_has_the_topics_that_public_texts_ask_for(record) -> None:
    # A consumer explanation of location and technical survey and of grades (read second-hand): contents, building, influences inside and outside, result as a grade.
    # A security trade association's code of practice, Hong Kong (read second-hand): premises, contents, signalling. Marks and sums: common practice, no source.
    page = record()["survey.html"]
    assert lacking(page, ("Things worth taking violins", "Earlier losses", "Cash, firearms or medicines", "Kind of house Detached cottage",
                          "asbestos",
                          "Locks", "Rooms where somebody sleeps bedroom", "The slowest user", "a fan heater", "Background of the band", "Fuse board",
                          "Ways to the monitoring station broadband through a router and mobile network", "Grade, where the insurer",
                          "Response expected",
                          "Surveyed by second surveyor", "Surveyed on 5 Aug 2026", "pets one old dog two dogs 1 Sep 2026",
                          "Textured ceiling in the hall",
                          "Who decides the aunt of the house", "What that person is to the house tenant", "an alarm kept up by contract",
                          "3 Feb 2026 intruder user", "licensed electrician")) == []


def test_a_proposal_has_the_items_of_public_example_proposals(record) -> None:
    # Public example system design proposals after inspectorate templates (read second-hand): standard and edition, grade, environmental class, notification, response,
    # premises, orientation, schedule by position, setting, timers, partitions, confirmation and where it is not, sounders, standby, transmission,
    # interconnections, what is not covered, customer's duties, cost and length of the contract, reservation for positions, acceptance.
    page = record(unwatched, lambda files: files["job"]["monitoring"].update(confirmation="sequential", category_asked="SP4"))["proposal.html"]
    assert lacking(page, ("Checked against European grade 2, edition 2026-11", "Standard and edition that the company claims not given yet",
                          "Grade that the company claims not given yet", "Way of telling an alarm (notification) not given yet",
                          "Who answers an alarm",
                          "Survey in this record, made on 5 Aug 2026", "Ask the insurer before you accept", "No unit of this system tells of smoke",
                          "as seen by somebody who stands outside and faces the front", "Places and environmental classes", "Schedule of positions",
                          "D1 Tern door and window contact", "starts the entry time", "Entry time 30 s", "Exit time 45 s",
                          "Partition 1 Thrift Cottage",
                          "Places without it hall and kitchen", "gable above the front room", "Outside sounders run 15 min",
                          "Least standby time 12 h",
                          "Worked out 7 Ah fitted", "Category asked for SP4 by EN 50136-1", "By radio",
                          "hatch of the loft painted shut landlord 19 Aug 2026",
                          "Openings that no unit watches itself", "Kitchen window", "What the customer takes on", "2 keyholders or more",
                          "Cost of the work not given yet",
                          "The contract binds the customer for 18 months", "If the company gives up its business", "Positions are as planned",
                          "This proposal is open until not given yet", "Ordered on 17 Aug 2026")) == []


def test_no_document_claims_what_nobody_has_claimed(record) -> None:
    for path, page in record().items():
        assert not any(words in page.lower() for words in ("compliant", "complies with", "conforms", "certified", "protected by")), path


def test_the_right_to_cancel_is_shown_with_its_last_day_and_source_where_the_market_has_it(record) -> None:
    page = record(lambda files: files["job"].update(profile="uk-grade-2"))["proposal.html"]
    # Consumer Contracts Regulations 2013: 14 days after the day of the contract (read second-hand in public guidance). 17 August and 14 days: 31 August.
    assert "Last day on which the contract can be cancelled 31 Aug 2026: Consumer Contracts" in page
    bare = record(lambda files: files["job"].update(profile="en-grade-2"))["proposal.html"]
    assert "Last day on which the contract can be cancelled not given yet: ask the company: end of the right to cancel" in bare


def test_a_fitted_schedule_has_planned_beside_fitted_and_asks_the_reason(record, files, tmp_path) -> None:
    # RISCAuthority, tiers of alarm information (read second-hand): insurers hold proposal and as-fitted document for the only dependable description.
    page = record()["schedule.html"]
    assert lacking(page, ("Planned Fitted Reason for any difference, who agreed, when", "Number and text zone 1 HALL FRONT DR", "Serial 00A4F3",
                          "Batch or date code", "Firmware", "Radio reading at fitting", "Date on the cell", "Environmental class",
                          "Position on the frame",
                          "Fitted by", "Photographs", "Partition 1 Thrift Cottage", "Lives on 1 cell CR2", "Entry time 30 s", "Drawing of positions",
                          "User 2 neighbour who waters the plants", "0.5 mm², stranded, S1 at 12 m",
                          "Called by the people of the house the back door")) == []
    assert "Serial not known yet: read it on the plate" in page
    soup = pages(write_files(files, tmp_path / "job"))["schedule.html"]
    rows = soup.select("section:not([aria-labelledby=signatures]) table.write tbody tr")
    assert rows and all(len(row.find_all("td")) == 3 and not row.find_all("td")[1].get_text() for row in rows)


def test_a_completion_certificate_declares_nothing_by_itself(record) -> None:
    # NSI regulations bulletin 4 (read second-hand): a certificate for every installation in scope, with a number where the inspectorate gives one.
    page = record()["completion.html"]
    assert lacking(page, ("Standard, edition and grade that are declared to be written by whoever signs", "Certificate number",
                          "In use from 15 Sep 2026",
                          "Soak period ends with 29 Sep 2026", "Police response goes live on 30 Sep 2026", "Maintenance every 6 months",
                          "Passed, failed, could not be done",
                          "hatch of the loft Left out, agreed by landlord on 19 Aug 2026: painted shut", "Handed over", "Shown and tried out",
                          "yes, on 14 Sep 2026, by fitter")) == []


def test_what_stops_the_signature_is_counted_on_the_certificate(record) -> None:
    assert "Findings that keep it from being signed none" in record()["completion.html"]
    stopped = record(lambda files: files["job"]["times"].update(entry_s="46"))["completion.html"]
    assert "Findings that keep it from being signed 1 finding stops it" in stopped


def test_a_log_book_has_its_columns_and_room(record, files, tmp_path) -> None:
    # BS 8473 in a published extract (read second-hand): each activation with time, cause and what was done is recorded. Columns: common practice, no source.
    page = record()["log-book.html"]
    assert lacking(page, ("Day and time What happened Cause What was done Who In order again at", "Company 01632 960310",
                          "Lantern Watch, 01632 960455")) == []
    rows = pages(write_files(files, tmp_path / "job"))["log-book.html"].select("table tbody tr")
    assert len(rows) >= 20 and all(not cell.get_text() for row in rows for cell in row.find_all("td"))


def test_a_maintenance_record_says_when_it_is_due_and_what_was_done_from_afar(record) -> None:
    # NSI bulletin 68 (read second-hand): the month in which a service is due. BS 9263 (from memory): what was done from afar is said to be.
    page = record()["maintenance.html"]
    assert lacking(page, ("Agreed: every 6 months", "1 Mar 2027 to 31 Mar 2027 and 1 Sep 2027 to 30 Sep 2027", "9 Mar 2027 from afar",
                          "On site or from afar",
                          "D1, Hall, front door", "Tested, or could not because", "Cell changed", "each path on its own", "off test")) == []


def test_a_corrective_report_asks_cause_evidence_parts_and_their_test(record) -> None:
    # Inspectorate code NCP 120 (read second-hand, announcement): what was replaced is tested. BS 8473 in a published extract (read second-hand): causes of false alarms are told apart.
    page = record()["corrective.html"]
    assert lacking(page, ("user", "equipment", "installation", "environment", "communications", "unknown", "genuine", "Serial taken out",
                          "Serial put in",
                          "tested as if it were new", "3 Feb 2026 intruder", "last 12 months", "the technical manager", "User shown again")) == []


def test_the_list_of_keyholders_has_what_police_and_councils_ask_for(record) -> None:
    # NPCC policy 2015 in a monitoring company's summary (read second-hand): two or more, with transport, at all hours, about 20 minutes, know the system.
    def uk(files: Files) -> None:
        files["job"]["profile"] = "uk-grade-2"
        files["people"]["keyholders"]["first"] |= {"trained_on": "2026-08-28", "agreed_on": "2026-08-29", "arrives_min": "9"}
    page = record(uk)["keyholders.html"]
    assert lacking(page, ("1 Obadiah Penhallow 07700 900462", "9 min", "28 Aug 2026 29 Aug 2026", "Fewest keyholders of a monitored system 2:",
                          "20 min:",
                          "On this list 2", "Reached by telephone at all hours", "Not all away at once")) == []
    assert "Keyholders in the order of calling not in this build: there was no people.yaml" in record(lambda files: files.update(people=None))["keyholders.html"]


def test_personal_data_is_listed_with_who_sees_it_and_how_long_it_is_kept(record) -> None:
    # ICO, guidance on retention (read second-hand): a written schedule, an owner, a review, and what is done at the end.
    page = record(lambda files: files["job"].update(profile="uk-grade-2"))["data.html"]
    assert lacking(page, ("Customer: Name 1 installer, station and record", "Keyholder: Telephone number 2 station and record",
                          "Keyholder: When they were shown the system 0 record", "people.yaml there",
                          "Whom to ask about these data the office manager",
                          "6 years Limitation of claims from contracts, England (read second-hand", "The log of false alarms two years",
                          "Looked through on", "Erased on")) == []
    assert "Customer: Name 0" in record(lambda files: files.update(people=None))["data.html"]


def test_no_row_of_people_is_missing_from_the_page_of_personal_data(record) -> None:
    from generator.model.visibility import TABLE

    rows = [row for row in TABLE if row.startswith("people.") and row != "people.format"]
    page = record()["data.html"]
    assert page.count("Customer: ") + page.count("Keyholder: ") == len(rows)


def test_the_plan_leads_to_the_installers_pack_and_takes_the_releases_of_its_hold_points(record) -> None:
    page = record()["plan.html"]
    assert lacking(page, ("installer/ of this job's pack", "First day of work 14 Sep 2026", "H1: The pack's fingerprint, twelve characters, and its revision are those that the office reads out.",
                          "Released by",
                          "copy it from the foot of its pages", "yes, on 14 Sep 2026, by fitter", "written in no file")) == []


def test_what_was_agreed_with_the_station_stands_in_the_record_as_on_its_sheet(files, tmp_path) -> None:
    packs = {one.audience: one for one in packs_of(write_files(files, tmp_path / "job"))}
    sheet = packs[Audience.STATION].pages[0].view
    own = next(one.view for one in packs[Audience.RECORD].pages if one.path == "monitoring.html")
    # Which kinds of event have no plan is asked of what each reader may see: the record knows what may be omitted.
    apart = ("lines", "signatures", "responses")
    assert {one for one in own.sections if one.id not in apart} == {one for one in (*sheet.before, *sheet.after) if one.id not in apart}
    [mine], [theirs] = ([one for one in many if one.id == "responses"] for many in (own.sections, (*sheet.before, *sheet.after)))
    assert (mine.title, mine.note, mine.table, mine.lines) == (theirs.title, theirs.note, theirs.table, theirs.lines)
    assert [(one.name, one.value) for one in mine.entries] == [(one.name, one.value) for one in theirs.entries]
    kinds = [{kind for one in part.entries if one.blank for kind in one.blank.partition(": ask")[0].rpartition(": ")[2].split(", ")} for part in (mine, theirs)]
    assert kinds[0] and kinds[0] <= kinds[1], kinds


# --- what one part of the job says is heeded in the others ---------------------------------------------------

def rows_of(files: Files, folder, path: str, section: str) -> dict[str, list[str]]:
    soup = pages(write_files(files, folder / "job"))[path]
    return {row.th.get_text(): [one.get_text() for one in row.find_all("td")]
            for row in soup.select(f"section[aria-labelledby={section}] tbody tr")}


def unwatched(files: Files) -> None:
    """Nobody says what the second input of the back door's contact watches."""
    del files["job"]["devices"]["D3"]["protects_2"]


def test_a_window_on_a_second_input_is_watched_by_its_unit(files, tmp_path) -> None:
    assert rows_of(files, tmp_path, "survey.html", "openings")["Kitchen window"][4] == "D3"
    assert "Kitchen window" not in rows_of(files, tmp_path, "proposal.html", "unwatched")
    unwatched(files)
    assert rows_of(files, tmp_path, "survey.html", "openings")["Kitchen window"][4] == "none"
    assert "Kitchen window" in rows_of(files, tmp_path, "proposal.html", "unwatched")


def test_wires_and_cables_are_among_the_interconnections(record) -> None:
    page = record()["proposal.html"]
    assert lacking(page, ("On a cable S1 on ", "Wired circuits on the second input of a unit D3: kitchen window")) == []


def test_an_opening_that_is_left_out_shows_the_entry_that_names_it_or_that_none_does(files, tmp_path) -> None:
    unwatched(files)
    assert rows_of(files, tmp_path, "proposal.html", "unwatched")["Kitchen window"] == ["", "no entry of what is left out bears this name: see Not covered"]
    files["job"]["agreement"]["left_out"].append({"what": "the kitchen window", "why": "too small", "by": "landlord", "on": "2026-08-19"})
    assert rows_of(files, tmp_path, "proposal.html", "unwatched")["Kitchen window"] == ["", "“the kitchen window”, agreed by landlord, on 19 Aug 2026"]


def test_a_training_behind_the_day_of_the_job_file_is_planned(record) -> None:
    def shown(day: str) -> Callable[[Files], object]:
        return lambda files: files["people"]["keyholders"]["first"].update(trained_on=day)
    assert "planned for 15 Sep 2026" in record(shown("2026-09-15"))["keyholders.html"]
    page = record(shown("2026-09-14"))["keyholders.html"]
    assert "14 Sep 2026" in page and "planned for" not in page


def test_a_finding_that_is_open_and_stops_nothing_stands_on_the_certificate() -> None:
    found = text(pages(JOBS / "curlew-house" / "job.yaml")["completion.html"])
    assert "Findings that keep it from being signed none" in found and "ask, assumption-changed: Building-work" in found
    assert "Could not be checked 4 findings: see what was checked" in found


def test_a_hold_point_of_a_unit_names_it(record) -> None:
    page = record()["plan.html"]
    assert "H6 · D1 Hall, front door: 10 of 10 arrive" in page and "H6: 10" not in page


def test_the_survey_says_what_the_papers_say_of_router_and_users(record) -> None:
    said = record(lambda files: files["job"]["survey"]["assumptions"].update(line={"assumed": "a Router under the stairs"}))["survey.html"]
    assert lacking(said, ("Router a Router under the stairs", "neighbour who waters the plants", "Strength of the mobile network not given yet")) == []
    assert "Router not given yet: ask the surveyor" in record(lambda files: files["job"].pop("survey"))["survey.html"]


def test_without_a_sounder_outside_nothing_is_said_of_how_long_it_runs() -> None:
    found = pages(JOBS / "heron-bungalow" / "job.yaml")
    for path in ("proposal.html", "schedule.html"):
        assert "Outside sounders run does not apply: no sounder is planned outside" in text(found[path]), path


def test_what_is_shared_with_the_station_is_named_as_data_on_health_with_who_receives_it(record) -> None:
    # GDPR, article 4 number 15 and article 9: data concerning health are a special category (from memory).
    page = record(lambda files: files["job"]["monitoring"].update(shared=["a hearing loss"]))["data.html"]
    assert lacking(page, ("may be data on health", "Received by monitoring station Lantern Watch; the packs that show it are those of station and record",
                          "a hearing loss")) == []
    assert "Shared with a station nothing" in record(lambda files: files["job"]["monitoring"].pop("shared"))["data.html"]
    assert "Shared with a station none: this system only sounds" in record(lambda files: files["job"].pop("monitoring"))["data.html"]


def test_a_company_that_lists_nothing_it_keeps_reads_so() -> None:
    assert "the company's file lists nothing that it keeps: ask the company" in text(pages(JOBS / "heron-bungalow" / "job.yaml")["data.html"])


def test_the_schedule_says_where_to_write_for_whoever_reads_it_on_a_phone(record) -> None:
    assert "A phone shows no room to write: write on the printed sheet." in record()["schedule.html"]


@pytest.mark.parametrize("job", ("curlew-house", "heron-bungalow"))
def test_the_large_demos_are_ready_to_be_answered_but_for_what_their_station_must_say(job: str) -> None:
    found = text(pages(JOBS / job / "job.yaml")["monitoring.html"])
    assert "Not ready to answer" not in found and "No plan given for" not in found


CHANGES = {
    "survey.html": [("survey", "by", "third surveyor"), ("survey", "on", "2026-08-06"), ("agreement", "decided_by", "uncle"),
                    ("agreement", "tenure", "agent")],
    "proposal.html": [("agreement", "term_months", "24"), ("agreement", "signed_on", "2026-08-10"), ("times", "exit_s", "50"),
                      ("times", "mains_report_min", "45")],
    "completion.html": [("agreement", "in_use_on", "2026-09-20"), ("service", "every_months", "12")],
    "plan.html": [("handover", "changed_by", "second fitter"), ("agreement", "work_on", "2026-09-13")],
}


@pytest.mark.parametrize("path, change", [(path, one) for path, every in CHANGES.items() for one in every], ids=str)
def test_a_field_changed_is_seen_on_its_document_and_by_nobody_who_may_not(files, tmp_path, path: str, change: tuple[str, str, str]) -> None:
    def shown() -> tuple[str, str]:
        packs = {one.audience: one for one in packs_of(write_files(files, tmp_path / "job"))}
        env = environment(translations())
        page = next(one for one in packs[Audience.RECORD].pages if one.path == path)
        bare = render(page, env).html.replace(packs[Audience.RECORD].stamp.fingerprint, "")
        return bare, render(packs[Audience.STATION].pages[0], env).html
    before = shown()
    files["job"][change[0]][change[1]] = change[2]
    after = shown()
    assert before[0] != after[0]
    # The station may know the day of coming into use, and nothing else of these.
    assert (before[1] == after[1]) == (change[1] != "in_use_on")
