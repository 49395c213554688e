"""A measured value beside the span that is asked for. What cannot be compared passes nothing: it is told, to be read again."""
from generator.model.forms import MEASURED
from generator.model.found import FoundEntry
from generator.procedure.asked import Asked
from generator.terms.show import amount


def number_in(text: str) -> float | None:
    """The number that a text is; None for any other text.

    >>> number_in(" 13,8 "), number_in("\\N{MINUS SIGN}65"), number_in("1o"), number_in("15 dB"), number_in("1234567890")
    (13.8, -65.0, None, None, None)
    """
    return float(text.strip().replace(",", ".").replace("\N{MINUS SIGN}", "-")) if MEASURED.fits(text.strip()) else None


def span(one: Asked) -> str:
    """What a value may be, in words: "10 dB or more"; "" where nothing is asked of it."""
    least, most = (None if end is None else amount(end, one.unit, 3) for end in (one.least, one.most))
    if least and most:
        return f"{least} to {most}"
    return f"{least} or more" if least else f"{most} at most" if most else ""


def amiss(one: Asked, entry: FoundEntry) -> str:
    """What is wrong with a measured value: it lies outside its span, or cannot be compared with it. "" if it lies within, or was not written."""
    if not span(one) or not entry.value.strip():
        return ""
    value = number_in(entry.value)
    if value is None or entry.unit not in ("", one.unit):
        return not_compared(entry, span(one))
    if one.least is not None and value < one.least or one.most is not None and value > one.most:
        return f"{entry.value.strip()} {one.unit}, and {span(one)} is asked for"
    return ""


def not_compared(entry: FoundEntry, asked: str) -> str:
    """That a value is no number, or one in another unit."""
    return f'"{" ".join(filter(None, (entry.value.strip(), entry.unit)))}" cannot be compared with {asked}: it is to be read again'
