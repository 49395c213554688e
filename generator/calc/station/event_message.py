"""How is an event written in the event format of SIA DC-05, and is such a message whole?

Source: SIA DC-05, 1999.09, read second-hand in public protocol notes and programs. Sixteen digits: account (4), message type
(2, the preferred 18), qualifier (1), event (3), partition (2), zone or user (3), check digit (1). The check digit makes
the sum of all sixteen a multiple of 15, where 0 counts as 10 and B to F as 11 to 15.
"""
import re
from dataclasses import dataclass

NEW, RESTORE, STATUS = 1, 3, 6
QUALIFIERS = (NEW, RESTORE, STATUS)
MESSAGE_TYPE = "18"
MODULUS = 15
# The largest number for which the format has digits.
MOST_PARTITION, MOST_NUMBER = 99, 999
_VALUES = {str(one): one for one in range(1, 10)} | {"0": 10, "A": 10, "B": 11, "C": 12, "D": 13, "E": 14, "F": 15}
_CHECK = {value: digit for digit, value in _VALUES.items() if digit != "A"}


@dataclass(frozen=True)
class EventMessage:
    """One message. `number` is a zone or a user, 0 where the event has neither; `check` is its check digit."""

    account: str
    qualifier: int
    event: str
    partition: int
    number: int
    check: str

    @property
    def data(self) -> str:
        """Qualifier and event, partition, zone or user, as people read them to each other: "1131 01 015"."""
        return f"{self.qualifier}{self.event} {self.partition:02} {self.number:03}"

    @property
    def spaced(self) -> str:
        """All sixteen digits, the parts apart: "1234 18 1131 01 015 8"."""
        return f"{self.account} {MESSAGE_TYPE} {self.data} {self.check}"

    @property
    def digits(self) -> str:
        """All sixteen digits as they are sent: "1234181131010158"."""
        return self.spaced.replace(" ", "")


def event_message(account: str, *, qualifier: int, event: str, partition: int, number: int) -> EventMessage:
    """The message of one event.

    `account` is four digits or letters A to F, small letters are taken as large; one of another length is neither filled up
    nor cut. `qualifier` is 1 for a new event or an opening, 3 for a restore or a closing, 6 for what is still so. `event` is
    three digits. `partition` is 0 to 99, `number` 0 to 999. ValueError names what does not fit.

    >>> event_message("1234", qualifier=1, event="131", partition=1, number=15).spaced
    '1234 18 1131 01 015 8'
    """
    if not account_fits(account):
        raise ValueError(f"account {account!r}: the format has four digits or letters A to F")
    if qualifier not in QUALIFIERS:
        raise ValueError(f"qualifier {qualifier!r}: 1 is new, 3 is restored, 6 is still so")
    if not re.fullmatch("[0-9]{3}", event):
        raise ValueError(f"event {event!r}: three digits are wanted")
    _within("partition", partition, MOST_PARTITION)
    _within("number", number, MOST_NUMBER)
    large = account.upper()
    before = f"{large}{MESSAGE_TYPE}{qualifier}{event}{partition:02}{number:03}"
    return EventMessage(large, qualifier, event, partition, number, check_digit(before))


def account_fits(account: str) -> bool:
    """Whether the format can hold an account: four digits or letters A to F."""
    return re.fullmatch("[0-9A-Fa-f]{4}", account) is not None


def check_digit(before: str) -> str:
    """The digit that brings the sum of a message to a multiple of 15; one that would be 15 is F, one that would be 10 is 0.

    ValueError if anything but digits and A to F stands in the message. An A is summed as 10, like the 0 that it stands for
    in some prints.

    >>> check_digit("655618340201015")
    'D'
    """
    return _CHECK[MODULUS - _sum(before) % MODULUS]


def is_whole(digits: str) -> bool:
    """Whether the check digit at the end of sixteen digits is right for those before it."""
    return len(digits) == 16 and _sum(digits) % MODULUS == 0


def _sum(digits: str) -> int:
    wrong = sorted(set(digits) - set(_VALUES))
    if wrong:
        raise ValueError(f"message {digits!r}: {wrong[0]!r} is no digit and no letter A to F")
    return sum(_VALUES[one] for one in digits)


def _within(name: str, value: int, most: int) -> None:
    if not 0 <= value <= most:
        raise ValueError(f"{name} {value!r}: the format holds 0 to {most}")
