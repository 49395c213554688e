"""The unit a key's name ends in, and how it is written."""

SUFFIXES = {
    "_s": "s",
    "_min": "min",
    "_h": "h",
    "_months": "months",
    "_years": "years",
    "_ms": "ms",
    "_m": "m",
    "_mm": "mm",
    "_mm2": "mm²",
    "_kg": "kg",
    "_deg": "°",
    "_c": "°C",
    "_percent": "%",
    "_db": "dB",
    "_dbm": "dBm",
    "_mhz": "MHz",
    "_v": "V",
    "_ma": "mA",
    "_ua": "µA",
    "_mas": "mA·s",
    "_mah": "mAh",
    "_ah": "Ah",
}


def unit_of(key: str) -> str:
    """The unit that a key's suffix stands for: "entry_s" gives "s"; a plain count or a word gives "".

    The longest suffix wins, so "soak_months" is months.
    """
    fitting = [suffix for suffix in SUFFIXES if key.endswith(suffix)]
    return SUFFIXES[max(fitting, key=len)] if fitting else ""
