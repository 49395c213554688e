"""Is a message in the event format of SIA DC-05 written as published ones are, and does its line pass an outside receiver?"""
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pysiaalarm import SIAAccount
from pysiaalarm.data.data import ADM_MAPPING
from pysiaalarm.event import SIAEvent

from generator.calc.station.dc09 import crc16_arc, dc09_line
from generator.calc.station.event_message import account_fits, check_digit, event_message, is_whole

# The token under which SIA DC-09 carries this format: a literal of that standard, as pysiaalarm 3.2.2 holds it.
TOKEN = "ADM-CID"

accounts = st.text("0123456789BCDEF", min_size=4, max_size=4)
messages = st.builds(event_message, accounts, qualifier=st.sampled_from((1, 3, 6)), event=st.integers(0, 999).map("{:03}".format),
                     partition=st.integers(0, 99), number=st.integers(0, 999))


# Source: three public repositories that quote SIA DC-05 and agree on the first two; the third message stands in one of them
# with the partition printed as A1. Read.
@pytest.mark.parametrize("account, qualifier, event, partition, number, check", [
    ("1234", 1, "131", 1, 15, "8"),
    ("1234", 3, "131", 1, 15, "6"),
    ("6556", 3, "402", 1, 15, "D"),
])
def test_published_check_digits(account: str, qualifier: int, event: str, partition: int, number: int, check: str) -> None:
    assert event_message(account, qualifier=qualifier, event=event, partition=partition, number=number).check == check


def test_a_partition_printed_as_a1_has_the_check_digit_of_01() -> None:
    assert check_digit("6556183402A1015") == check_digit("655618340201015") == "D"


# By hand: the digits of the first sum to 75, a multiple of 15; of the second to 80, ten short of 90.
@pytest.mark.parametrize("before, check", [("123418340103005", "F"), ("123418157001007", "0")])
def test_a_check_digit_of_fifteen_is_f_and_one_of_ten_is_nought(before: str, check: str) -> None:
    assert check_digit(before) == check


@given(messages)
def test_the_digits_of_a_message_sum_to_a_multiple_of_fifteen(message) -> None:
    value = {**{str(one): one or 10 for one in range(10)}, "B": 11, "C": 12, "D": 13, "E": 14, "F": 15}
    assert sum(value[one] for one in message.digits) % 15 == 0
    assert is_whole(message.digits)
    assert len(message.digits) == 16


@given(messages, st.integers(0, 15), st.sampled_from("0123456789BCDEF"))
def test_one_wrong_digit_never_passes(message, place: int, digit: str) -> None:
    changed = f"{message.digits[:place]}{digit}{message.digits[place + 1:]}"
    assert is_whole(changed) == (changed == message.digits)


def test_the_parts_stand_where_the_format_wants_them() -> None:
    message = event_message("4d27", qualifier=1, event="401", partition=2, number=7)
    assert message.spaced == f"4D27 18 1401 02 007 {message.check}"
    assert message.data == "1401 02 007"


@pytest.mark.parametrize("change, says", [
    ({"account": "123"}, "account '123'"), ({"account": "12345"}, "account '12345'"), ({"account": "12G4"}, "account '12G4'"),
    ({"account": "١٢٣٤"}, "account"), ({"account": "1234\n"}, "account"),
    ({"qualifier": 2}, "qualifier 2"), ({"event": "13"}, "event '13'"), ({"event": "1B1"}, "event '1B1'"),
    ({"partition": -1}, "partition -1"), ({"partition": 100}, "partition 100"), ({"number": -1}, "number -1"),
    ({"number": 1000}, "number 1000"),
])
def test_what_does_not_fit_is_named(change: dict, says: str) -> None:
    whole = {"account": "1234", "qualifier": 1, "event": "131", "partition": 1, "number": 15} | change
    with pytest.raises(ValueError, match=says):
        event_message(whole.pop("account"), **whole)


def test_an_account_of_another_form_does_not_fit() -> None:
    assert account_fits("4D27") and account_fits("abcd")
    assert not any(map(account_fits, ("", "4D2", "4D271", "4D2Z", "4D 7")))


def test_a_check_digit_is_asked_of_hex_digits_only() -> None:
    with pytest.raises(ValueError, match="'G' is no digit"):
        check_digit("G")


def test_the_checksum_of_the_published_check_string() -> None:
    # BB3D for "123456789": the check value by which catalogues of checksums name CRC-16/ARC; also pysiaalarm 3.2.2. Read there.
    assert f"{crc16_arc(b'123456789'):04X}" == "BB3D" == SIAEvent._crc_calc("123456789")


@given(st.text(st.characters(min_codepoint=1, max_codepoint=126), max_size=80))
def test_the_checksum_is_that_of_an_outside_library(text: str) -> None:
    assert f"{crc16_arc(text.encode()):04X}" == SIAEvent._crc_calc(text)


@given(messages, st.integers(1, 9999), st.integers(0, 0xFFFFFF), st.integers(0, 0xFFFFFF))
def test_an_outside_receiver_takes_every_line_and_reads_what_was_sent(message, sequence: int, receiver: int, line: int) -> None:
    sent = dc09_line(TOKEN, message.data, account=message.account, sequence=sequence, receiver=receiver, line=line)
    event = SIAEvent.from_line(sent, {message.account: SIAAccount(message.account)})
    assert event.valid_message
    # The library keeps the length as hex; its own comparison takes it as decimal, so it is made here.
    assert int(event.length, 16) == len(event.full_message)
    assert (event.account, event.event_qualifier, event.event_type, event.partition, event.ri) == (
        message.account, str(message.qualifier), message.event, f"{message.partition:02}", f"{message.number:03}")
    if message.qualifier != 6:
        assert event.code == ADM_MAPPING.get(message.event, {}).get(str(message.qualifier), "YN")


# Lines that pysiaalarm 3.2.2 accepts. Read: they were given to it.
@pytest.mark.parametrize("line, data, sequence", [
    ('0D1D0029"ADM-CID"0001R0L0#1234[#1234|1131 01 015]', "1131 01 015", 1),
    ('8DFF0027"ADM-CID"0002L0#1234[#1234|3401 01 003]', "3401 01 003", 2),
])
def test_known_lines(line: str, data: str, sequence: int) -> None:
    ours = dc09_line(TOKEN, data, account="1234", sequence=sequence)
    # The receiver may be left out; we always write it.
    assert ours[8:].replace("R0", "") == line[8:].replace("R0", "")
    if "R0" in line:
        assert ours == line


@pytest.mark.parametrize("change, says", [
    ({"token": "adm"}, "token"), ({"account": "12"}, "account"), ({"account": "12G4"}, "account"), ({"data": "[1"}, "data"),
    ({"data": "é"}, "data"), ({"sequence": 0}, "sequence 0"), ({"sequence": 10000}, "sequence 10000"), ({"receiver": -1}, "receiver -1"),
    ({"line": 1 << 24}, "line 16777216"),
])
def test_a_line_names_what_does_not_fit(change: dict, says: str) -> None:
    whole = {"token": TOKEN, "data": "1131 01 015", "account": "1234", "sequence": 1} | change
    with pytest.raises(ValueError, match=says):
        dc09_line(whole.pop("token"), whole.pop("data"), **whole)
