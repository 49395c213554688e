"""Does every zone, user and trouble send the event that outside tables know under its code, and is the day's list exact?"""
from dataclasses import replace

import pytest
from pysiaalarm import SIAAccount
from pysiaalarm.data.data import ADM_MAPPING, SIA_CODES
from pysiaalarm.event import SIAEvent

from generator.calc.slots.reasons import NoRoom
from generator.calc.slots.slots import slot_map
from generator.calc.station.dc09 import dc09_line
from generator.calc.station.event_message import is_whole
from generator.calc.station.events import ASK_OPEN_CLOSE, NO_OPEN_CLOSE, NOT_SETTLED, NOTHING_SENT, SentEvents, sent_events
from generator.calc.station.zone_events import zone_codes
from generator.intake.job_reader import read_job
from generator.model.job import Partition
from generator.model.papers import Papers
from generator.model.visibility import visible
from generator.tables.always_on import ALWAYS_ON
from generator.tables.events import DONE, EVENTS, OMITTED_ROLES
from generator.terms.audience import Audience
from tests.conftest import JOBS
from tests.test_event_message import TOKEN

DEMOS = ("curlew-house", "thrift-cottage", "plover-cabin", "dunlin-row", "heron-bungalow")

# The words by which pysiaalarm 3.2.2 describes what it maps our codes to, for a new event. Read: that library's own table.
LIBRARY = {
    "100": "Medical", "110": "Fire", "111": "Fire", "114": "Heat", "120": "Panic", "122": "Holdup", "130": "Burglary", "131": "Burglary",
    "132": "Burglary", "133": "Burglary", "134": "Burglary", "136": "Burglary", "137": "Tamper", "144": "Tamper", "150": "Untyped Zone",
    "158": "Heat", "159": "Freeze", "162": "Gas", "301": "AC", "302": "System Battery", "344": "Communications", "350": "Communications",
    "374": "Exit", "381": "Communications", "401": "Opening", "406": "Cancel", "441": "Close", "570": "Bypass", "601": "Manual Test",
    "602": "Automatic Test",
}
# The event table of SpanDSP, an open-source library for telephone signals, where the one above has a gap: what the code means, in
# plain words, and what its number is. Read second-hand: public repositories carry that table.
OTHER = {"123": ("audible", "zone"), "154": ("water leak", "zone"), "377": ("repeated-trip limit", "zone"), "384": ("low battery", "zone")}
# Words of ours for a word of theirs.
SAME = {"low battery": "cell"}
# The column "zone or user" of the same table, for every code that we send with a number.
NUMBER = {**dict.fromkeys(("100 110 111 114 120 122 123 130 131 132 133 134 136 144 150 154 158 159 162 374 377 381 384 570").split(), "zone"),
          **dict.fromkeys(("401", "406", "441"), "user")}


def papers_of(name: str) -> Papers:
    return read_job(JOBS / name / "job.yaml").papers


def sent(papers: Papers, **more) -> SentEvents:
    return sent_events(papers, slot_map(papers), **more)


def test_every_code_is_known_to_one_of_two_outside_tables_and_to_no_other() -> None:
    assert set(LIBRARY) | set(OTHER) == set(EVENTS)
    assert set(LIBRARY) <= set(ADM_MAPPING)
    # A gap that the library fills one day belongs into the table above.
    assert not set(OTHER) & set(ADM_MAPPING)


@pytest.mark.parametrize("code", sorted(LIBRARY))
def test_a_code_means_what_the_library_says(code: str) -> None:
    assert LIBRARY[code] in SIA_CODES[ADM_MAPPING[code]["1"]].type


@pytest.mark.parametrize("code", sorted(OTHER))
def test_a_code_that_the_library_lacks_means_what_the_other_table_says(code: str) -> None:
    means, about = OTHER[code]
    assert SAME.get(means, means) in EVENTS[code].means
    assert about == EVENTS[code].about


def test_a_number_is_a_zone_or_a_user_as_the_other_table_says() -> None:
    assert {code: one.about for code, one in EVENTS.items() if one.about != "system"} == NUMBER


@pytest.mark.parametrize("demo", DEMOS)
def test_an_outside_receiver_takes_every_message_of_a_job(demo: str) -> None:
    papers = papers_of(demo)
    events = sent(papers)
    if papers.job.monitoring is None:
        assert events == SentEvents((), (), (NOTHING_SENT,), ())
        return
    account = papers.job.monitoring.account
    messages = {one.message: row for row in events.rows for one in (row.begins, row.ends) if one}
    assert messages
    for message, row in messages.items():
        assert is_whole(message.replace(" ", ""))
        data = message[8:-2]
        event = SIAEvent.from_line(dc09_line(TOKEN, data, account=account, sequence=1), {account: SIAAccount(account)})
        assert event.valid_message
        assert (event.event_type, int(event.partition), int(event.ri)) == (row.code, row.partition, row.number)
        known = ADM_MAPPING.get(row.code)
        assert event.code == (known[message[8]] if known else "YN")


def test_set_is_a_closing_and_unset_an_opening() -> None:
    # Source: the mapping of pysiaalarm 3.2.2, read: 401 with 1 is OP, opening report, with 3 CL, closing report.
    papers = papers_of("thrift-cottage")
    row = next(one for one in sent(papers).rows if one.code == "401")
    assert (row.begins.means, row.begins.message[8:12]) == ("turned on or off by a user: off (opening)", "1401")
    assert (row.ends.means, row.ends.message[8:12]) == ("turned on or off by a user: on (closing)", "3401")


def test_the_demo_s_zones_send_what_their_roles_say() -> None:
    papers = papers_of("curlew-house")
    rows = [row for row in slot_map(papers).rows if row.list == "zones"]
    codes = {row.text: "/".join(zone_codes(papers, row.device, row.input)) for row in rows}
    assert {text: codes[text] for text in ("FRONT DOOR", "HALL MOVE", "SIT RM WINDOW", "SIT RM MOVE", "KIT WATER", "GARAGE FREEZER",
                                           "BED 1 HOLD-UP", "HALL SMOKE", "KIT HEAT", "KIT CO ALARM")} == {
        "FRONT DOOR": "134", "HALL MOVE": "132", "SIT RM WINDOW": "131", "SIT RM MOVE": "132", "KIT WATER": "154",
        "GARAGE FREEZER": "158/159", "BED 1 HOLD-UP": "120", "HALL SMOKE": "111", "KIT HEAT": "114", "KIT CO ALARM": "162"}


def test_a_hold_up_that_is_known_to_be_silent_or_audible_has_its_own_code() -> None:
    papers = papers_of("curlew-house")
    for kind, code in (("silent", "122"), ("audible", "123")):
        assert next(one for one in sent(papers, hold_up={"H1": kind}).rows if one.device == "H1").code == code
    with pytest.raises(ValueError, match="hold-up 'loud'"):
        zone_codes(papers, "H1", "both buttons together", "loud")


@pytest.mark.parametrize("circuit, code", [
    ("frost", ("159",)), ("too warm, high", ("158",)), ("HIGH and LOW", ("158", "159")), ("probe", ("158", "159"))])
def test_a_temperature_circuit_says_by_its_name_which_end_it_watches(circuit: str, code: tuple[str, ...]) -> None:
    assert zone_codes(papers_of("curlew-house"), "T1", circuit) == code


def test_a_temperature_zone_that_says_nothing_is_named_and_not_tried() -> None:
    events = sent(papers_of("curlew-house"))
    assert any(one.startswith("Zone 37, T1:") and "158" in one and "159" in one for one in events.unsaid)
    assert not any(one.device == "T1" and one.expects[0].message[9:12] in ("158", "159") for one in events.tests)


def test_a_second_circuit_named_like_a_kind_is_of_that_kind() -> None:
    papers = papers_of("curlew-house")
    assert zone_codes(papers, "SM1", "smoke") == ("111",)
    assert zone_codes(papers, "SM1", "carbon monoxide") == ("162",)


@pytest.mark.parametrize("role, code", [("all-hours", "133"), ("technical", "150"), ("medical", "100"), ("fire", "110"), ("hold-up", "120"),
                                        ("carbon-monoxide", "162"), (None, "130"), ("immediate", "132")])
def test_a_movement_detector_s_event_follows_its_role(role: str | None, code: str) -> None:
    papers = papers_of("curlew-house")
    assert zone_codes(changed(papers, "M3", role=role), "M3", "movement") == (code,)


def test_a_detector_outside_is_outdoors_and_one_that_is_carried_is_an_intruder_s() -> None:
    papers = papers_of("curlew-house")
    assert zone_codes(changed(papers, "M3", room="outside"), "M3", "movement") == ("136",)
    assert zone_codes(changed(papers, "M3", room=None), "M3", "movement") == ("130",)


@pytest.mark.parametrize("device, circuit", [("G1", "glass"), ("V1", "shock"), ("D1", "reed")])
def test_what_watches_the_shell_is_perimeter_even_without_an_opening(device: str, circuit: str) -> None:
    papers = papers_of("curlew-house")
    assert zone_codes(changed(papers, device, role="immediate", protects=None, room="study"), device, circuit) == ("131",)


def changed(papers: Papers, device: str, **fields) -> Papers:
    devices = papers.job.devices | {device: papers.job.devices[device].model_copy(update=fields)}
    return replace(papers, job=papers.job.model_copy(update={"devices": devices}))


def agreed(papers: Papers, account: str | None) -> Papers:
    return replace(papers, job=papers.job.model_copy(update={"monitoring": papers.job.monitoring.model_copy(update={"account": account})}))


def test_the_list_of_the_small_demo_in_its_order() -> None:
    # Every case; then the system is set once: what acts at once, the entry, the unset that cancels; the other user, the system.
    # No zone may be omitted. By hand, but for the check digits, which the test of published ones covers.
    events = sent(papers_of("thrift-cottage"))
    assert [(one.device, one.setting, one.state, [seen.message[8:-2] for seen in one.expects]) for one in events.tests] == [
        ("D1", 0, "any", ["1144 01 001", "3144 01 001"]), ("D2", 0, "any", ["1144 01 005", "3144 01 005"]),
        ("D3", 0, "any", ["1144 01 009", "3144 01 009"]),
        ("", 1, "unset", ["3401 01 001"]), ("D2", 1, "set", ["1132 01 005", "3132 01 005"]),
        ("D3", 1, "set", ["1131 01 009", "3131 01 009"]), ("D3", 1, "set", ["1131 01 010", "3131 01 010"]),
        ("D1", 1, "entry", ["1134 01 001", "3134 01 001"]), ("", 1, "set", ["1401 01 001", "1406 01 001"]),
        ("", 0, "unset", ["3401 01 002", "1401 01 002"]), ("", 0, "unset", ["3441 01 001", "1401 01 001"]),
        ("", 0, "any", ["1137 00 000", "3137 00 000"]), ("", 0, "any", ["1301 00 000", "3301 00 000"]),
        ("", 0, "any", ["1350 00 000", "3350 00 000"]), ("", 0, "any", ["1601 00 000"]), ("", 0, "any", ["1602 00 000"]),
    ]


@pytest.mark.parametrize("reported, codes", [(True, {"401", "406", "441"}), (None, {"401", "406", "441"}), (False, {"406"})])
def test_sets_and_unsets_are_watched_only_where_they_are_reported(reported: bool | None, codes: set[str]) -> None:
    papers = papers_of("curlew-house")
    agreed = papers.job.monitoring.model_copy(update={"open_close": reported})
    events = sent(replace(papers, job=papers.job.model_copy(update={"monitoring": agreed})))
    assert {one.code for one in events.rows if one.about == "user"} == codes
    messages = [seen.message[9:12] for one in events.tests for seen in one.expects]
    assert set(messages) & {"401", "406", "441"} == codes and messages.count("406") == sum(one.state == "entry" for one in events.tests)
    assert (ASK_OPEN_CLOSE in events.unsaid, NO_OPEN_CLOSE in events.unsaid) == (reported is None, reported is False)


@pytest.mark.parametrize("demo", DEMOS)
def test_no_zone_acts_twice_in_one_setting_and_no_setting_is_wasted(demo: str) -> None:
    tests = sent(papers_of(demo)).tests
    zones = [(one.setting, one.number) for one in tests if one.device and one.setting]
    assert len(zones) == len(set(zones))
    entries = [one for one in tests if one.state == "entry"]
    assert max((one.setting for one in tests), default=0) == len(entries)
    # What acts in any state is done while nothing is set, and comes before.
    states = [one.state for one in tests if one.device and one.state != "unset"]
    assert states == sorted(states, key=["any", "set", "entry"].index) or len(entries) > 1
    assert all(one.setting == 0 for one in tests if one.state == "any")


def test_each_zone_of_an_entry_has_a_setting_of_its_own_by_another_user() -> None:
    papers = changed(papers_of("thrift-cottage"), "D2", role="timed-entry")
    tests = [one for one in sent(papers).tests if one.setting]
    assert [(one.setting, one.number, one.state) for one in tests] == [
        (1, 1, "unset"), (1, 9, "set"), (1, 10, "set"), (1, 1, "entry"), (1, 1, "set"), (2, 2, "unset"), (2, 2, "entry"), (2, 2, "set")]
    assert not any(one.do == DONE["401"] for one in sent(papers).tests)


def test_only_a_zone_that_a_user_may_omit_is_omitted() -> None:
    papers = papers_of("curlew-house")
    allowed = [name for name, one in papers.job.devices.items() if one.omit]
    events = sent(papers)
    assert {one.device for one in events.rows if one.code == "570"} == set(allowed)
    assert [one.device in allowed for one in events.tests if one.code == "570"] == [True]
    for name in allowed:
        papers = changed(papers, name, omit=False)
    assert not any(one.code == "570" for one in (*sent(papers).rows, *sent(papers).tests))
    # Whoever may not see which may be omitted finds all that could be, and no call for one of them.
    seen = sent(visible(papers, Audience.STATION))
    assert not any(one.code == "570" for one in seen.tests)
    assert {papers.job.devices[one.device].role for one in seen.rows if one.code == "570"} == {"timed-entry", "entry-route", "immediate"}


def test_a_zone_that_is_watched_at_all_hours_is_never_omitted() -> None:
    assert not set(OMITTED_ROLES) & set(ALWAYS_ON)
    rows = sent(changed(papers_of("thrift-cottage"), "D3", role="all-hours", omit=True)).rows
    assert not any(one.device == "D3" and one.code in ("570", "377") for one in rows)


@pytest.mark.parametrize("demo", DEMOS)
def test_every_event_is_tried_or_said_not_to_be_with_the_reason(demo: str) -> None:
    events = sent(papers_of(demo))
    tried = {seen.message[9:12] for one in events.tests for seen in one.expects}
    said = {one[:3] for one in events.untried}
    left = {one.code for one in events.rows} - tried - said
    assert left == set() and all("because" in one and one.endswith(".") for one in events.untried)


def test_the_two_ends_of_a_temperature_are_said_not_to_be_tried() -> None:
    events = sent(papers_of("curlew-house"))
    assert [one[:3] for one in events.untried if "zone 37" in one] == ["158", "159"]


@pytest.mark.parametrize("demo", DEMOS)
def test_every_zone_has_a_signal_and_is_tried_in_the_order_of_the_zones(demo: str) -> None:
    papers = papers_of(demo)
    if papers.job.monitoring is None:
        assert sent(papers).tests == ()
        return
    events, zones = sent(papers), sorted(row.zone for row in slot_map(papers).rows if row.list == "zones")
    signals = [one for one in events.rows if one.about == "zone" and one.code < "200" and one.code != "144"]
    assert sorted({one.number for one in signals}) == zones
    # Each with its restore.
    assert all(one.begins and one.ends for one in signals)
    for state in ("any", "set", "entry"):
        tried = [one.number for one in events.tests if one.state == state and one.do.startswith("Make the unit")]
        assert tried == sorted(tried)
    known = [one.number for one in signals if sum(other.number == one.number for other in signals) == 1]
    assert sorted(one.number for one in events.tests if one.do.startswith("Make the unit")) == known


def test_partitions_stand_in_the_messages_of_their_zones_and_users() -> None:
    papers = changed(two_partitions(papers_of("thrift-cottage")), "D3", partition=2)
    events = sent(papers)
    for one in events.rows:
        assert one.begins is None or one.begins.message[13:15] == f"{one.partition:02}"
        if one.device:
            assert one.partition == papers.partition_of(papers.job.devices[one.device])
    assert {one.number: one.partition for one in events.rows if one.about == "zone"} == {1: 1, 5: 1, 9: 2, 10: 2}
    assert {one.partition for one in events.rows if one.about == "user"} == set(papers.partitions())
    assert {one.partition for one in events.rows if one.about == "system"} == {0}
    assert any("which partition" in one for one in events.unsaid)
    # Every user once, and the first in the other partition too.
    sets = [one.expects[0].message[13:] for one in events.tests if one.expects[0].message[8:12] == "3401"]
    assert [one[:-2] for one in sets] == ["01 001", "02 001", "01 002"]


def two_partitions(papers: Papers) -> Papers:
    return replace(papers, job=papers.job.model_copy(update={"partitions": {1: Partition(name="house"), 2: Partition(name="workshop")}}))


@pytest.mark.parametrize("account, says", [("4D2", "account 4D2"), ("4D271", "account 4D271"), ("ZZ99", "account ZZ99"), (None, "no account")])
def test_an_account_that_the_format_cannot_hold_leaves_the_messages_out_and_is_said(account: str | None, says: str) -> None:
    events = sent(agreed(papers_of("thrift-cottage"), account))
    assert {one.message for row in events.rows for one in (row.begins, row.ends) if one} == {""}
    assert says in events.unsaid[0]
    assert len(events.rows) == len(sent(papers_of("thrift-cottage")).rows)


def test_zones_and_users_above_999_have_no_message_and_are_named() -> None:
    papers = papers_of("thrift-cottage")
    slots = slot_map(papers)
    high = replace(slots, rows=tuple(replace(row, zone=1000) if row.zone == 10 else row for row in slots.rows))
    users = {999: papers.job.users[1], 1000: papers.job.users[2]}
    events = sent_events(replace(papers, job=papers.job.model_copy(update={"users": users})), high)
    assert "Zone 1000 has no message: the format ends at 999." in events.unsaid
    assert "User 1000 has no message: the format ends at 999." in events.unsaid
    for row in events.rows:
        assert all((one.message == "") == (row.number > 999) for one in (row.begins, row.ends) if one)


def test_zones_that_are_not_settled_are_said() -> None:
    papers = papers_of("thrift-cottage")
    slots = slot_map(papers)
    none = replace(slots, rows=tuple(row for row in slots.rows if row.list != "zones"), no_room=(NoRoom("zones", 40, 32),))
    events = sent_events(papers, none)
    assert NOT_SETTLED in events.unsaid
    assert {row.about for row in events.rows} == {"user", "system"}


def test_what_cannot_be_told_of_units_is_said() -> None:
    papers = papers_of("thrift-cottage")
    unsaid = sent(papers).unsaid
    assert any(one.startswith("K1, S1 and F1:") for one in unsaid)
    sheets = dict(papers.sheet_of)
    sheets["D1"] = sheets["D1"].model_copy(update={"radio": sheets["D1"].radio.model_copy(update={"supervision_min": None})})
    events = sent(replace(papers, sheet_of=sheets))
    assert any(one.startswith("D1: the sheet gives no supervision_min") for one in events.unsaid)
    assert not any(one.code == "381" and one.device == "D1" for one in events.rows)


def test_hold_up_fire_and_carbon_monoxide_are_never_left_out() -> None:
    papers = papers_of("curlew-house")
    for one in sent(papers).rows:
        if one.code in ("570", "377"):
            assert papers.job.devices[one.device].role in ("timed-entry", "entry-route", "immediate")
