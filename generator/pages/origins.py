"""Where a value stands, in words that somebody without the file in front of them reads; keys are for whoever edits them."""
import re

from generator.rules.finding import NO_LIMIT
from generator.terms.show import capital
from generator.terms.units import SUFFIXES

FILES = {"job": "job file", "people": "people's file", "company": "company's file"}
PATH = re.compile(rf"\b({'|'.join(FILES)})((?:\.[A-Za-z0-9_-]+)+)")
# A key with its colon: of two words and more, or one that NAMES has; single words before a colon are mostly prose.
KEY = re.compile(r"\b((?:[a-z]+_)+[a-z0-9]+|via|confirms):( true\b)?")
LACKING = re.compile(rf"{NO_LIMIT} [a-z0-9_]+")
SHEET = re.compile(r"\bsheet (\S+): ([a-z0-9_.]+)")
# Groups whose members have a name or a number, and what one of them is called.
ONE_OF = {
    "devices": "device", "storeys": "floor", "rooms": "room", "openings": "opening", "users": "user", "partitions": "partition",
    "paths": "path", "part_sets": "part set", "keyholders": "keyholder", "permits": "permit", "assumptions": "assumption", "cables": "cable",
    "roofs": "roof", "stairs": "stairs", "furniture": "furniture", "constructions": "construction", "responses": "response",
    "licences": "licence", "own": "wall",
}
# Lists without names: their members are counted from one.
COUNTED = {"accepted": "acceptance", "left_out": "what is left out", "existing": "what is there", "freed": "freed number", "reserved": "kept number",
           "false_calls": "false call", "loads": "load", "between": "wall", "visits": "visit", "contacts": "contact"}
NAMES = {"premises": "", "at_m": "place", "via": "heard through", "protects": "what it watches", "protects_2": "what its second input watches",
         "use_input_2": "second input used", "text_2": "text of its second input", "omit": "may be left out for once", "confirms": "may confirm",
         "monitoring": "station", "every_months": "months between services", "left_out_in": "part sets that leave it out"}


def origin_in_words(origin: str) -> str:
    """An origin as pages show it: of a field the file, the thing and what of it, as in "job file, device G1, place"; else as it stands."""
    told = PATH.sub(lambda found: f"{FILES[found[1]]}, {_words(found[2])}".removesuffix(", "), origin)
    return SHEET.sub(lambda found: f"equipment sheet {found[1]}, {_words('.' + found[2])}", told)


def place_in_words(field: str) -> str:
    """The place of a finding: "In the job file: device G1, place"; what is no field as it stands, "" for none."""
    found = PATH.fullmatch(field)
    return f"In the {FILES[found[1]]}: {_words(found[2])}" if found else capital(field)


def keys_in_words(text: str) -> str:
    """What to write, as pages say it: "write via: R1" gives "write “heard through”: R1"; the commands name the key itself."""
    return KEY.sub(lambda found: f"“{NAMES.get(found[1], _plain(found[1]))}”:{' yes' if found[2] else ''}", text)


# What the office writes, and what whoever stands on site does instead of writing it.
ON_SITE = (
    (re.compile(r": write via: (?=\S)(\S+?)(?=[;.,]|$)"), r" (on site: check its link through \1 and tell the office, which plans it so)"),
    (re.compile(r"\b[Ww]rite confirms: true at (\S+?)(?=[;.,\s]|$)"), r"Ask the office whether \1 is to confirm"),
    (re.compile(r" with confirms: true\b"), " that may confirm"),
    (re.compile(r"write authority_changed: true with changed_on: and changed_by:"), "tell the office who did it and when"),
    (re.compile(r"write authority_changed: with what was found"), "tell the office what was found"),
    (re.compile(r"write position:, and height_m: where"), "tell the office where it hangs, and how high where"),
)


def on_site(text: str) -> str:
    """What to do, for whoever stands in the house: no key of a file; what only the office can write it is told."""
    for pattern, words in ON_SITE:
        text = pattern.sub(words, text)
    return keys_in_words(text)


def limits_in_words(says: str) -> str:
    """Why something was not checked, without the key of the limit that the profile lacks: the rule's own page names it."""
    return LACKING.sub("the profile sets no limit for that", says)


def _words(path: str) -> str:
    keys = path.removeprefix(".").split(".")
    out = []
    while keys:
        key = keys.pop(0)
        if keys and key in COUNTED and keys[0].isdecimal():
            out.append(f"{COUNTED[key]} {int(keys.pop(0)) + 1}")
        elif keys and key in ONE_OF and keys[0] != "-":
            out.append(f"{ONE_OF[key]} {keys.pop(0)}")
        elif key != "-":
            out.append(NAMES.get(key, _plain(key)))
    return ", ".join(filter(None, out))


def _plain(key: str) -> str:
    """A key in words, without its unit, which stands at the value: "entry_s" gives "entry"."""
    unit = max((one for one in SUFFIXES if key.endswith(one)), key=len, default="")
    return key.removesuffix(unit).replace("_", " ").replace("-", " ")
