"""How does SIA DC-09 carry a message over an internet path?

One line: four hex digits of checksum, four hex digits of length, then the body, over which both are taken: the token of
the data's format in quotes, a sequence number, receiver and line, the account, and the data in brackets. The layout was
read second-hand in an open-source receiver's patterns; the checksum is CRC-16/ARC (polynomial 8005 hex, reflected, from 0).
A line is built plain: no encryption, no extra data, no time.
"""
import re

# 8005 hex, read from its other end.
_REFLECTED = 0xA001
MOST_SEQUENCE = 9999


def crc16_arc(data: bytes) -> int:
    """The checksum CRC-16/ARC, 0 to 65535.

    >>> f"{crc16_arc(b'123456789'):04X}"
    'BB3D'
    """
    crc = 0
    for byte in data:
        crc ^= byte
        for _ in range(8):
            crc = crc >> 1 ^ (_REFLECTED if crc & 1 else 0)
    return crc


def dc09_line(token: str, data: str, *, account: str, sequence: int, receiver: int = 0, line: int = 0) -> str:
    """The line that carries `data`, without the line feed before and the carriage return after it.

    `token` is the standard's name for the format of the data. `account` is 3 to 16 digits or letters A to F and stands both
    before the data and in it. `sequence` is 1 to 9999. `receiver` and `line` are numbers that hex writes in six digits.
    ValueError names what does not fit.
    """
    if not re.fullmatch("[A-Z]+(-[A-Z]+)*", token):
        raise ValueError(f"token {token!r}: capital letters and hyphens are wanted")
    if not re.fullmatch("[0-9A-F]{3,16}", account):
        raise ValueError(f"account {account!r}: 3 to 16 digits or letters A to F are wanted")
    if not re.fullmatch(r"[\x20-\x7E]*", data) or set(data) & set("[]"):
        raise ValueError(f"data {data!r}: plain characters without brackets are wanted")
    if not 1 <= sequence <= MOST_SEQUENCE:
        raise ValueError(f"sequence {sequence!r}: 1 to {MOST_SEQUENCE} is wanted")
    for name, value in (("receiver", receiver), ("line", line)):
        if not 0 <= value <= 0xFFFFFF:
            raise ValueError(f"{name} {value!r}: six hex digits hold 0 to 16777215")
    body = f'"{token}"{sequence:04}R{receiver:X}L{line:X}#{account}[#{account}|{data}]'
    return f"{crc16_arc(body.encode('ascii')):04X}{len(body):04X}{body}"
