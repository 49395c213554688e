"""A calendar as a file that calendar programs read (RFC 5545)."""
import re
import uuid
from collections.abc import Iterable
from datetime import date, timedelta

from generator.calc.days.calendar import Calendar, Entry

WIDEST = 75
# The name space of the names of our entries; drawn once, and never changed.
_SPACE = uuid.UUID("5b0b5c3e-2d0f-4f0a-9a57-6f2d3c1e8b94")
# What no text may hold (RFC 5545, 3.1): control marks but the tab. Line ends are written as \n.
_HIDDEN = re.compile(r"[\x00-\x08\x0B\x0C\x0E-\x1F\x7F]")


def ical_text(calendar: Calendar, *, title: str, reference: str, as_of: date) -> str:
    """The calendar as text, lines ended by CR LF.

    Every entry takes whole days and leaves its reader free; a month runs from its first to its last day. An entry keeps its
    UID when its day moves: that is made of the job's `reference` and of what the entry is, and gives neither away. DTSTAMP is
    the day `as_of`, for no clock is read.
    """
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Doorpost//Dates of a job//EN", "CALSCALE:GREGORIAN", f"NAME:{escaped(title)}"]
    for one in calendar.entries:
        lines += _event(one, title, reference, as_of)
    return folded([*lines, "END:VCALENDAR"])


def escaped(text: str) -> str:
    """A text as a value: backslash, semicolon, comma and line end with a backslash, other control marks as blanks."""
    for mark, written in (("\\", "\\\\"), (";", "\\;"), (",", "\\,"), ("\r\n", "\\n"), ("\r", "\\n"), ("\n", "\\n")):
        text = text.replace(mark, written)
    return _HIDDEN.sub(" ", text)


def folded(lines: Iterable[str]) -> str:
    """Lines ended by CR LF, each cut to 75 octets of UTF-8; a piece that goes on begins with a blank, no character is cut."""
    return "".join(f"{piece}\r\n" for line in lines for piece in _pieces(line))


def _pieces(line: str) -> list[str]:
    pieces, width = [""], 0
    for letter in line:
        size = len(letter.encode("utf-8", "surrogatepass"))
        if width + size > WIDEST:
            pieces.append(" ")
            width = 1
        pieces[-1] += letter
        width += size
    return pieces


def _event(one: Entry, title: str, reference: str, as_of: date) -> list[str]:
    uid = uuid.uuid5(_SPACE, "\n".join((reference, one.kind, one.about)))
    return ["BEGIN:VEVENT", f"UID:{uid}", f"DTSTAMP:{_day(as_of)}T000000Z", f"DTSTART;VALUE=DATE:{_day(one.first)}",
            *_end(one.last), f"SUMMARY:{escaped(f'{one.what} ({title})')}",
            f"DESCRIPTION:{escaped(f'{one.why}. Source: {one.source}')}", "TRANSP:TRANSPARENT", "END:VEVENT"]


def _end(last: date) -> list[str]:
    """The day after the last; none where there is no such day, for then the entry takes the one day on which it starts."""
    return [f"DTEND;VALUE=DATE:{_day(last + timedelta(days=1))}"] if last < date.max else []


def _day(value: date) -> str:
    # Not strftime: it writes years before 1000 with fewer than four digits on some systems.
    return f"{value.year:04}{value.month:02}{value.day:02}"
