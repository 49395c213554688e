"""Does the monitoring sheet say what the station needs, name what is blank, and keep what it must not hold?

Field lists are held against published documents; what no document says is common practice, no source.
"""
import copy
import csv
import json
from collections.abc import Callable
from datetime import date

import pytest
from bs4 import BeautifulSoup

from generator.model.visibility import may_see
from generator.publish.render import environment, render, translations
from generator.publish.site import write_site
from generator.terms.audience import Audience
from tests.conftest import Files, packs_of, read_files, write_files
from tests.every_field import change, every_field_files, fields, put, row_of

KEYHOLDER = {"name": "Obadiah Penhallow", "telephone": "07700 900462", "other_telephone": "01632 960199", "relation": "neighbour",
             "lives_here": "false",
             "arrives_min": "12", "has_key": "true", "can_unset": "false", "away": "every August", "agreed_on": "2026-08-29",
             "trained_on": "2026-08-28"}
AGREED = {"category_asked": "DP1", "category_given": "DP2", "confirmation": "sequential", "open_close": "true",
          "responses": [{"to": "hold-up", "plan": "police at once"}, {"to": "fire", "plan": "ring, then the fire service"}],
          "verify": ["ring the house", "ring the first keyholder"], "shared": ["a deaf dog sleeps in the kitchen"],
          "proof_agreed_on": "2026-08-30", "proof_agreed_by": "householder", "may_change": "householder, in writing",
          "permits": {"one": {"covers": "hold-up", "by": "police of the county", "number": "GM-70118", "since": "2026-09-01",
                              "valid_to": "2027-08-31"}}}


@pytest.fixture
def files() -> Files:
    """The cottage with all that can be agreed with a station, and one keyholder of whom all is known."""
    out = read_files()
    out["job"]["monitoring"] |= copy.deepcopy(AGREED)
    out["job"]["household"] = {"language": "cy"}
    out["job"]["devices"]["D2"]["confirms"] = "true"
    out["people"]["customer"]["grid_reference"] = "ZZ 412 097"
    out["people"]["keyholders"]["first"] = dict(KEYHOLDER)
    return out


@pytest.fixture
def sheet(files, tmp_path) -> Callable[..., str]:
    """The sheet's text, of the job with a change."""

    def read(change_: Callable[[Files], object] = lambda files: None) -> str:
        change_(files)
        return text(page(files, tmp_path))

    return read


def page(files: Files, folder) -> BeautifulSoup:
    pack = next(one for one in packs_of(write_files(files, folder / "job")) if one.audience is Audience.STATION)
    return BeautifulSoup(render(pack.pages[0], environment(translations())).html, "html5lib")


def text(soup: BeautifulSoup) -> str:
    return " ".join(soup.main.get_text(" ").split())


def test_everything_agreed_with_the_station_stands_on_its_sheet(sheet) -> None:
    found = sheet()
    for words in ("Station Lantern Watch", "Telephone of the station 01632 960455", "Account 4D27", "Format event format of SIA DC-05",
                  "Automatic test every 24 h at 03:30", "Openings and closings watched yes", "Confirmation of alarms sequential: by a second zone",
                  "Category asked for DP1 by EN 50136-1", "Category installed DP2 by EN 50136-1", "Who may change these data householder, in writing",
                  "Address Thrift Cottage, 3 Samphire Lane, Great Marram, ZZ99 3WX", "Reference on the map ZZ 412 097",
                  "Telephone of the customer 07700 900461", "Reference that the customer will say K-2041",
                  "Language, short form cy", "Number for hold-up alarms GM-70118", "For hold-up alarms: given on 1 Sep 2026",
                  "For hold-up alarms: last day 31 Aug 2027",
                  "first broadband through a router of the house", "hold-up police at once", "Step 1 ring the house",
                  "a deaf dog sleeps in the kitchen",
                  "Out of hours 01632 960311"):
        assert words in found, words


def test_soak_period_and_go_live_are_counted_from_the_day_of_coming_into_use(sheet) -> None:
    # Regulation (EEC, Euratom) No 1182/71, article 3: the day of the event is not counted (from memory). 14 days after 14 September end with the 28th.
    assert date(2026, 9, 14).toordinal() + 14 == date(2026, 9, 28).toordinal()
    found = sheet()
    assert "Soak period ends with 28 Sep 2026" in found and "Police response goes live on 29 Sep 2026" in found


def test_nobody_rings_the_house_at_a_hold_up_because_of_the_steps_of_verification(sheet) -> None:
    # Common practice, no source: a burglar signal is verified by calls before anybody is sent, a hold-up is sent on at once.
    said = "Verification, intruder only Unconfirmed intruder alarms only, in this order. Never for hold-up or fire"
    assert said in sheet()
    assert said in sheet(lambda files: files["job"]["monitoring"].update(verify=[]))


def test_the_customers_number_is_not_taken_for_one_of_the_house(sheet) -> None:
    found = sheet()
    assert "Telephone of the premises" not in found and "No number of the house itself is given. The customer may answer elsewhere" in found


def test_the_soak_period_holds_back_the_police_and_no_fire_service(sheet) -> None:
    found = sheet()
    assert "The soak period holds back the police, and nothing else" in found and "carbon monoxide and medical calls are answered as under Response" in found
    assert "only the customer and the keyholders are called." not in found
    # Without a soak period nothing is held back.
    assert "The soak period holds back" not in sheet(lambda files: files["job"]["monitoring"].update(soak_days="0"))


def test_what_a_hold_up_gets_in_the_soak_period_is_asked_and_never_left_to_wait(sheet) -> None:
    asked = "Police to a hold-up in the soak period not given yet: ask the station; until it has said, a hold-up is answered as under Response"
    assert asked not in sheet()

    def holds_up(files: Files) -> None:
        files["equipment"]["tern-pir12"]["kind"] = "hold-up"
        files["job"]["devices"]["D2"].update(role="hold-up", signal="silent")
        for key in ("confirms", "left_out_in"):
            files["job"]["devices"]["D2"].pop(key, None)
    assert asked in sheet(holds_up)


def test_kinds_of_event_without_a_plan_are_named(sheet) -> None:
    found = sheet()
    blank = found[found.index("No plan given for"):found.index(": ask the station and the customer")]
    for kind in ("intruder", "tamper", "path failure", "missed test", "radio interference", "radio supervision", "power failure", "low cell of a unit",
                 "zone left out by a user", "alarm cancelled by a user", "opening and closing"):
        assert kind in blank, kind
    # No hold-up, smoke or gas is sent by this house, so none lacks a plan.
    assert not any(kind in blank for kind in ("hold-up", "fire", "carbon monoxide", "water"))
    planned = sheet(lambda files: files["job"]["monitoring"]["responses"].extend(
        [{"to": "Intruder", "plan": "ring"}, {"to": "faults", "plan": "ring the company"}, {"to": "missed test", "plan": "ring the company"}]))
    blank = planned[planned.index("No plan given for"):planned.index(": ask the station and the customer")]
    assert not any(kind in blank for kind in ("intruder", "path failure", "missed test", "power failure")) and "tamper" in blank


def test_a_station_that_cannot_answer_yet_reads_so_first(files, tmp_path) -> None:
    del files["job"]["monitoring"]["responses"], files["job"]["monitoring"]["verify"], files["job"]["monitoring"]["proof_agreed_on"]
    soup = page(files, tmp_path)
    assert [one.get_text() for one in soup.select("h2")][0] == "Not ready to answer"
    assert [one.get_text() for one in soup.select("section[aria-labelledby=ready] li")] == [
        "Response by kind of event", "Steps before anybody is sent", "Proof of identity"]


def test_a_missing_plan_for_an_intruder_keeps_a_sheet_from_being_ready_and_one_for_a_low_cell_does_not(files, tmp_path) -> None:
    assert [one.get_text() for one in page(files, tmp_path).select("section[aria-labelledby=ready] li")] == ["a plan for intruder"]
    files["job"]["monitoring"]["responses"].append({"to": "intruder", "plan": "ring the house"})
    assert not page(files, tmp_path).select("#ready")


def test_what_an_answer_needs_stands_before_the_zones_and_the_events_last_and_folded(files, tmp_path) -> None:
    soup = page(files, tmp_path)
    ids = [one["id"] for one in soup.find_all("h2")]
    order = ["account", "premises", "responses", "verification", "proof", "dates", "permits", "keyholders", "shared", "zones", "company", "reports",
             "events", "events-zone"]
    assert sorted(order, key=ids.index) == order
    folded = soup.select("details + .folded")
    assert len(folded) == 3 and not soup.select("details[open]")
    # Hidden on a screen alone: paper shows all of it.
    assert "@media screen{details:not([open])+.folded{display:none}}" in soup.style.string


def test_a_zone_of_an_outbuilding_says_so(files, tmp_path) -> None:
    files["job"]["premises"]["storeys"]["ground"] |= {"outbuilding": "true", "name": "boat shed"}
    assert {one.get_text() for one in page(files, tmp_path).select("table.zones .storey")} == {", boat shed (outbuilding)"}


def test_the_data_have_no_key_for_what_the_station_is_not_told_of_checks(files, tmp_path) -> None:
    pack = next(one for one in packs_of(write_files(files, tmp_path / "job")) if one.audience is Audience.STATION)
    write_site(pack, tmp_path / "station")
    stamp = json.loads((tmp_path / "station" / "station.json").read_text(encoding="utf-8"))["stamp"]
    assert "checked_against" not in stamp and stamp["fingerprint"]


def test_of_proof_of_identity_only_the_fact_is_told(sheet) -> None:
    assert "Proof of identity agreed on 30 Aug 2026 by householder; held at the station" in sheet()


def test_a_keyholder_is_told_with_what_the_police_ask_of_one(sheet) -> None:
    # NPCC policy on response to security systems, 2015, in a monitoring company's summary (read second-hand): keyholders can be reached by telephone at all
    # hours, have transport, come within 20 minutes, know the system. English councils ask for name, address and telephone of two (Medway, Basildon; read).
    found = sheet()
    assert "1 Obadiah Penhallow 07700 900462 01632 960199 neighbour no 12 min yes no every August" in found
    assert found.index("Obadiah Penhallow") < found.index("Marguerite Oyelaran")
    # When they agreed to be listed, and were shown the system, is for the record alone.
    assert "29 Aug 2026" not in found and "28 Aug 2026" not in found


def test_every_blank_says_whom_to_ask(sheet) -> None:
    def bare(files: Files) -> None:
        files["job"]["monitoring"] = {key: files["job"]["monitoring"][key] for key in ("station", "telephone", "account")}
        del files["job"]["household"], files["job"]["agreement"]
        files["people"]["keyholders"] = {}
        del files["people"]["customer"]["grid_reference"]
    found = sheet(bare)
    for words in ("Format not given yet: ask the station", "Automatic test not given yet: ask the company", "Paths not given yet: ask the company",
                  "Openings and closings watched not given yet: ask the customer",
                  "Police reference: number not given yet: ask police, council or guard",
                  "Police response goes live on not given yet: ask the company: day of coming into use and days of soak are needed",
                  "Response by kind of event not given yet: ask the station and the customer",
                  "Proof of identity not given yet: ask the customer, who agrees it with the station",
                  "Language, short form not given yet: ask the customer", "Keyholders in the order of calling not given yet: ask the customer",
                  "Reference on the map not given yet", "Who may change these data not given yet", "The format is not agreed yet"):
        assert words in found, words


def test_zones_say_where_they_are_and_what_confirms_them(sheet) -> None:
    found = sheet()
    assert "1 1 HALL FRONT DR door or window opened perimeter Hall, front door , ground cannot confirm, but can be confirmed" in found
    assert "HALL MOVE movement interior Hall , ground may confirm" in found
    assert "Zones that may confirm the alarm of another zone of their partition: 5. No other zone may." in found


def test_without_sequential_confirmation_no_column_speaks_of_it(files, tmp_path) -> None:
    files["job"]["monitoring"]["confirmation"] = "audible"
    heads = [one.get_text() for one in page(files, tmp_path).select("table.zones thead th")]
    assert heads == ["Zone", "Partition", "Text", "Reports", "Location", "Place", "Reference"]


def test_a_detector_outside_is_neither_interior_nor_perimeter(sheet) -> None:
    assert "HALL MOVE movement outdoors" in sheet(lambda files: files["job"]["devices"]["D2"].update(room="outside", role="immediate"))


def test_a_hold_up_unit_says_whether_it_is_heard_in_the_house(files, tmp_path) -> None:
    files["equipment"]["tern-dc"]["kind"] = "hold-up"
    unit = files["job"]["devices"]["D1"]
    unit.update(room="hall", role="hold-up", signal="silent")
    del unit["protects"]
    files["job"]["premises"]["storeys"]["ground"]["openings"]["front-door"].pop("entry")
    soup = page(files, tmp_path)
    assert "silent" in [one.get_text() for one in soup.select('td[data-name="Hold-up"]')]
    # SIA DC-05 (1999.09), code 122: hold-up, silent (read second-hand in the event table of an open-source library).
    assert any("hold-up, silent" in one.get_text() and "122" in one.get_text() for one in soup.select("details:has(#events-zone) + .folded tr"))


def checksum_holds(message: str) -> bool:
    """SIA DC-05: the sum of all sixteen digits is a multiple of 15, a 0 counting as ten (read second-hand in public protocol notes)."""
    digits = message.replace(" ", "")
    return len(digits) == 16 and sum({"0": 10}.get(one, int(one, 16)) for one in digits) % 15 == 0


def test_every_message_on_page_in_csv_and_json_is_whole_and_the_same(files, tmp_path) -> None:
    pack = next(one for one in packs_of(write_files(files, tmp_path / "job")) if one.audience is Audience.STATION)
    write_site(pack, tmp_path / "station")
    with open(tmp_path / "station" / "events.csv", encoding="utf-8", newline="") as handle:
        rows = list(csv.DictReader(handle))
    data = json.loads((tmp_path / "station" / "station.json").read_text(encoding="utf-8"))
    messages = [row[key] for row in rows for key in ("new_message", "restore_message") if row[key]]
    soup = BeautifulSoup((tmp_path / "station" / "index.html").read_text(encoding="utf-8"), "html5lib")
    assert messages == [one.get_text() for one in soup.select(".message") if one.get_text()]
    assert messages == [row[key] for row in data["events"] for key in ("new_message", "restore_message") if row[key]]
    assert len(messages) > 40 and all(map(checksum_holds, messages))
    assert {"zone", "user", "system"} == {row["about"] for row in rows}
    front = next(row for row in rows if row["number"] == "1" and row["about"] == "zone")
    assert (front["code"], front["new_message"][:7], front["restore"]) == ("134", "4D27 18", "restored")


def test_an_account_that_the_format_cannot_hold_leaves_no_half_message(sheet) -> None:
    found = sheet(lambda files: files["job"]["monitoring"].update(account="4D27991"))
    assert "No message is written out: the account 4D27991 is not four digits" in found and "cannot be written, see below" in found


def test_a_unit_whose_silence_may_not_be_told_is_named(sheet) -> None:
    found = sheet(lambda files: files["equipment"]["tern-dc"]["radio"].pop("supervision_min"))
    assert "D1: whether the system reports that it hears them no longer is not known." in found and "supervision_min" not in found


def test_a_system_that_only_sounds_has_no_events_and_says_so(sheet) -> None:
    found = sheet(lambda files: files["job"].pop("monitoring"))
    assert "none: this system only sounds" in found and "Events:" not in found


def test_without_people_the_sheet_says_that_they_come_apart(sheet) -> None:
    found = sheet(lambda files: files.update(people=None))
    assert "Address the company sends it apart from this sheet" in found and "Penhallow" not in found


def test_every_part_is_reached_from_the_top_and_is_there_once(files, tmp_path) -> None:
    soup = page(files, tmp_path)
    links, ids = [one["href"][1:] for one in soup.nav.find_all("a")], [one["id"] for one in soup.find_all("h2")]
    assert links == ids and len(ids) == len(set(ids))


# Seen by the station in what follows from them, not in the word itself; in the foot of the page; or a name inside the file.
NOT_PRINTED = {"job.dated", "job.control_unit.id", "job.users.*.fob", "job.users.*.tag", "job.monitoring.permits.*", "job.publish.address",
               "job.publish.station",
               "people.keyholders.*"}
FOLLOWS = ("job.premises.", "job.reserved.", "job.existing.", "job.freed.", "sheet.", "profile.")


def test_each_field_that_the_station_is_told_changes_its_sheet(tmp_path) -> None:
    whole = every_field_files()
    first = {}
    for field in fields(whole):
        told = may_see(Audience.STATION, row_of(field)) and row_of(field) not in NOT_PRINTED and not row_of(field).startswith(FOLLOWS)
        if told and row_of(field) not in first and (changed := change(whole, field)):
            first[row_of(field)] = changed.files
    assert len(first) > 55
    before = stamped_off(whole, tmp_path)
    assert [row for row, changed in first.items() if stamped_off(changed, tmp_path) == before] == []


def stamped_off(files: Files, folder) -> str:
    """The sheet without its foot, which is another whenever anything is."""
    return text(page(files, folder))


def test_a_change_of_a_hidden_field_does_not_show(files, tmp_path) -> None:
    before = text(page(files, tmp_path))
    put(files, ("job", "devices", "D1", "serial"), "00A4F7")
    assert text(page(files, tmp_path)) == before
