"""Numbers and dates as people read them. The only place that rounds."""
import math
from datetime import date

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
LONG_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December")


def number(value: float, places: int = 1) -> str:
    """A number without needless zeros, at most `places` decimals: 2.0 is "2", 1.25 is "1.2" at one place."""
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def amount(value: float, unit: str, places: int = 1) -> str:
    """A number and its unit with the space that the SI asks for, before all but the degree of an angle: "10 dB", "90°"."""
    return f"{number(value, places)}{'' if unit in ('', '°') else ' '}{unit}"


def metres(value: float) -> str:
    """A length in metres to the centimetre, as somebody with a tape needs it: 1.85 m is not 1.9 m, and 0.05 m not 0.1 m."""
    return amount(value, "m", 2)


def tenths(value: float) -> str:
    """A length in metres to the tenth, for a place that is looked for with the unit in one's hand and read there before anything is drilled."""
    return amount(value, "m", 1)


def moved_by(value: float) -> str:
    """How far something is moved, in metres to the tenth, never less than was worked out: 1.98 m is 2 m, 0.51 m is 0.6 m."""
    return tenths(math.ceil(value * 10 - 1e-6) / 10)


def digits(value: float, most: int = 4) -> str:
    """A worked out number to so many significant digits, never fewer than its whole ones: 0.078368 is "0.07837", 14101.0 "14101"."""
    if not value:
        return "0"
    return number(value, max(0, most - 1 - math.floor(math.log10(abs(value)))))


def figure(value: float, unit: str, most: int = 4) -> str:
    """A worked out number and its unit: "0.07837 Ω/m"."""
    return f"{digits(value, most)}{'' if unit in ('', '°') else ' '}{unit}"


def rough(value: float, unit: str) -> str:
    """A worked out number and its unit to three digits, for a sentence: 2.7879 is "2.79 Ah"."""
    return figure(value, unit, 3)


def told_apart(one: float, other: float, least: int = 3) -> tuple[str, str]:
    """Two numbers that are compared, with as many digits as it takes to see which is the larger: 8.9996 and 9 never both read "9"."""
    for most in range(least, 16):
        if (shown := (digits(one, most), digits(other, most)))[0] != shown[1]:
            return shown
    return digits(one, least), digits(other, least)


def duration(minutes: float) -> str:
    """Minutes as people say them, to the whole minute: "45 min", "2 h 5 min", "3 h"."""
    hours, rest = divmod(round(minutes), 60)
    return " ".join(filter(None, (f"{hours} h" if hours else "", f"{rest} min" if rest or not hours else "")))


def count(value: int, one: str, many: str = "") -> str:
    """A counted thing: "1 zone", "3 zones"."""
    return f"{value} {one if value == 1 else many or one + 's'}"


def day(value: date) -> str:
    """A date that nobody can read the wrong way round: "14 Sep 2026"."""
    return f"{value.day} {MONTHS[value.month - 1]} {value.year}"


def month(value: date) -> str:
    """The month of a date: "Sep 2026"."""
    return f"{MONTHS[value.month - 1]} {value.year}"


def long_day(value: date) -> str:
    """A date as it is read aloud: "14 September 2026"."""
    return f"{value.day} {LONG_MONTHS[value.month - 1]} {value.year}"


def sentence_list(words: list[str], last: str = "and") -> str:
    """Words as a sentence lists them: "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def capital(text: str) -> str:
    """The text with its first letter large and the others as written."""
    return text[:1].upper() + text[1:]


def lower(text: str) -> str:
    """The text with its first letter small and the others as written."""
    return text[:1].lower() + text[1:]
