"""How is each kind of value written? Readers of files and schemas for editors take pattern, bounds and words from here.

A pattern uses only what the regular expressions of Python and of ECMA-262 (which JSON Schema asks for) read alike; it is
held against the whole text. Blanks are therefore listed: the two have different ideas of `\\s`.
"""
import re
from dataclasses import dataclass, replace
from typing import Any

# Control marks, ends of lines that no editor shows, marks that turn the direction of the text round them, and what no page may
# hold: a terminal obeys them, a browser drops them, and a name with one can make a page read backwards.
_HIDDEN = r"\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufeff\ufff9-\uffff"
# What Python's str.strip takes off, less what is hidden.
_BLANK = r" \xa0\u1680\u2000-\u200a\u202f\u205f\u3000"
# Halves of characters; patterns do not hold them, since the two kinds of regular expressions count them otherwise.
_HALVES = re.compile("[\ud800-\udfff]")
# More digits than any house has of anything; a longer number is a slip.
_DIGITS = 9
_DECIMALS = 6
_WHOLE = rf"(?:0|[1-9][0-9]{{0,{_DIGITS - 1}}})"
_MOST = 10 ** _DIGITS - 1
_HIGHEST = float(f"{_MOST}.{'9' * _DECIMALS}")


@dataclass(frozen=True)
class Form:
    """One way in which a value is written, and what is said to who wrote it otherwise.

    `type`: what YAML 1.2 makes of the value (string, integer, number or boolean). `wanted`: what is asked for where nothing
    stands. `is_not` and `do`: the answer to another text. `pattern`: what the whole text must match. `longest`: characters.
    `least` and `most`: bounds of a number, ends included. `examples`: as YAML 1.2 sees them. `format`: a word of JSON Schema.
    """

    type: str
    wanted: str
    is_not: str
    do: str
    pattern: str
    examples: tuple[Any, ...]
    longest: int | None = None
    least: float | None = None
    most: float | None = None
    format: str = ""

    def fits(self, text: str) -> bool:
        """Whether a text is written in this way; its length and bounds are other questions."""
        return re.fullmatch(self.pattern, text) is not None and not _HALVES.search(text)

    def schema(self) -> dict[str, Any]:
        """The value as JSON Schema: a pattern for a text, bounds for a number, examples for all."""
        out: dict[str, Any] = {"type": self.type}
        if self.type == "string":
            # Editors show `patternErrorMessage` in place of the pattern; to validators it says nothing.
            out |= {"pattern": f"^{self.pattern}$", "patternErrorMessage": self.do}
        bounds = {"maxLength": self.longest, "minimum": self.least, "maximum": self.most, "format": self.format or None}
        return out | {name: bound for name, bound in bounds.items() if bound is not None} | {"examples": list(self.examples)}

    def as_name(self) -> "Form":
        """The same where it is the name of a group: there every value is a text."""
        return replace(self, type="string", least=None, most=None, examples=tuple(str(one) for one in self.examples))


def of_options(options: tuple[str, ...]) -> dict[str, Any]:
    """A word out of a fixed list as JSON Schema. A word of digits is a number to an editor."""
    seen = [int(one) if one.isdecimal() else one for one in options]
    return {"enum": seen, "examples": seen[:2]}


def _text(wanted: str, is_not: str, do: str, pattern: str, *examples: str) -> Form:
    return Form("string", wanted, is_not, do, pattern, examples)


TEXT = Form("string", "a text", "", "Write at most 200 characters on one line, without control marks.",
            rf"[{_BLANK}]*[^\t\n{_HIDDEN}{_BLANK}][^\t\n{_HIDDEN}]*", ("left of the door",), longest=200)
NOTE = Form("string", "a text", "", "Write at most 4000 characters, without control marks.",
            rf"[^{_HIDDEN}]*", ("Hold the lid while the *second* screw comes out.",), longest=4000)
WHOLE = Form("integer", "a whole number", "is not a whole number.", "Write digits only, for example 12.", _WHOLE,
             (12, 1), least=0, most=_MOST)
DECIMAL = Form("number", "a number", "is not a number.", "Write digits with a point for decimals, for example 2.4.",
               rf"-?{_WHOLE}(?:\.[0-9]{{1,{_DECIMALS}}})?", (2.4, 0.5, 12), least=-_HIGHEST, most=_HIGHEST)
# A number as it is measured and typed on a phone: with a comma too, and with the minus that a phone's keys give. A longer one is a slip.
MEASURED = Form("string", "a number", "is no number.", "Write digits with a point or a comma for decimals, for example 2.4.",
                rf"[-+\u2212]?[0-9]{{1,{_DIGITS}}}(?:[.,][0-9]{{1,{_DECIMALS}}})?", ("2.4", "-65", "13,8"))
FLAG = Form("boolean", "true or false", "is neither true nor false.", "Write true or false.", "(?i:true|false|yes|no)", (True, False))
DAY = Form("string", "a date", "is not a date.", "Write year-month-day, for example 2026-09-14.", "[0-9]{4}-[0-9]{2}-[0-9]{2}",
           ("2026-09-14",), format="date")
CLOCK = _text("a time of day", "is not a time of day.", "Write hours and minutes, for example 03:30.",
              "(?:[01][0-9]|2[0-3]):[0-5][0-9]", "03:30", "22:05")
NAME = _text("a short name", "cannot be a name.", "Write 1 to 40 letters, digits or hyphens, a letter or digit first.",
             "[A-Za-z0-9][A-Za-z0-9-]{0,39}", "D1", "K-2041")
KEY = _text("a short name", "cannot be a name.",
            "Write 1 to 40 letters, digits, hyphens or underscores, a letter or digit first.",
            "[A-Za-z0-9][A-Za-z0-9_-]{0,39}", "hall", "front-door")
SERIAL = _text("the serial as printed on the unit", "cannot be a serial.",
               "Write the characters as printed on the unit, in quotes.", "[A-Za-z0-9][A-Za-z0-9 ./-]{0,39}", "00A4F3")
ACCOUNT = _text("the account identifier that the station gave", "cannot be an account identifier.",
                "Write 1 to 16 letters and digits, in quotes.", "[A-Za-z0-9]{1,16}", "4D27")
PHONE = _text("a telephone number", "is not a telephone number.", "Write digits and spaces, for example 01632 960001.",
              r"\+?[0-9][0-9 ()-]{2,24}", "01632 960001", "+44 1632 960001")
ADDRESS = _text("a web address", "is not an address a pack can stand at.",
                "Write https://, the host and a final /, for example https://packs.company.example/.",
                r"https://[a-z0-9.-]+(?::[0-9]+)?(?:/[A-Za-z0-9._~-]+)*/", "https://packs.company.example/")
PATH_NAME = _text("a path name", "can be guessed or cannot stand in a link.",
                  "Write 26 or more small letters and digits drawn at random, as `doorpost new` does.",
                  "[a-z0-9]{26,64}", "k3v9q0x7m2c8r4t6y1w5z0a7b3")
# What a phone wrote: its own names, and texts that nobody looked at before they came here. No mark in them is refused, for nothing that was found may
# be lost over it; pages show what cannot be seen as a mark, and hold what turns the direction of text within the text itself.
TOLD = Form("string", "a text", "", "Write at most 1000 characters.", r"[\s\S]*", ("moved 0.5 m to the left",), longest=1000)
TOLD_NOTE = replace(TOLD, do="Write at most 4000 characters.", longest=4000)
TOLD_SHORT = replace(TOLD, do="Write at most 40 characters.", examples=("dB",), longest=40)


def _as_phones(wanted: str, is_not: str, how: str, pattern: str, *examples: str) -> Form:
    """What a phone writes by itself; whoever reads the answer did not type it."""
    return _text(wanted, is_not, f"Write {how}; or take the file as the phone wrote it.", pattern, *examples)


PHONE_ID = _as_phones("the phone's own name", "is no name of a phone.", "8 of a to z and 2 to 9", "[a-z2-9]{8}", "k3v9q2x7")
ENTRY_ID = _as_phones("the entry's own name", "is no name of an entry.", "the phone's name, 6 of a to z and 2 to 9, and 6 to 9 digits, with hyphens between", "[a-z2-9]{8}-[a-z2-9]{6}-[0-9]{6,9}", "k3v9q2x7-m2c8r4-000017")
UNIT_OR_NONE = _as_phones("the unit, or nothing for the system", "cannot be a unit.", "the unit's name in the job file, or nothing for the system", "(?:[A-Za-z0-9][A-Za-z0-9-]{0,39})?", "D1", "")
STEP_NAME = _as_phones("the step", "cannot be a step.", "the step as its address on the page names it", "[a-z0-9][a-z0-9_-]{0,99}", "fix-d1")
THING = _as_phones("what was written down", "is nothing that is written down in a step.", "step, serial, note, or signal, check, called, hold, photo or signature with what of it after a slash",
              "(?:step|serial|note|signal/[1-3]/(?:moved|(?:from|to)-unit/(?:received|sent|level))|(?:photo|signature)/[a-z0-9-]{1,60}|called/(?:operator|at|until)|hold/H[0-9]{1,2}|check/[^\\x00-\\x20]{1,240})",
              "signal/2/to-unit/level", "check/link-margin", "serial")
_MONTH_DAY, _HOUR = "(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])", "(?:[01][0-9]|2[0-3]):[0-5][0-9]"
MOMENT = _as_phones("a time", "is not a time.", "day, time and offset from UTC, or nothing",
               rf"(?:[0-9]{{4}}-{_MONTH_DAY}T{_HOUR}(?::[0-5][0-9](?:[.][0-9]{{1,6}})?)?(?:Z|[+-]{_HOUR}))?", "2026-11-24T10:05:00+00:00")
SHORT_PRINT = _as_phones("the fingerprint as pages show it", "is no fingerprint.", "12 of 0 to 9 and a to f", "[0-9a-f]{12}", "9f86d081884c")
LONG_PRINT = _as_phones("a SHA-256", "is no SHA-256.", "64 of 0 to 9 and a to f", "[0-9a-f]{64}", "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08")
DRAWING = _as_phones("the lines of a drawing", "is no drawing.", "the path data of SVG, lines and curves alone", "[MmLlHhVvCcSsQqTtZz0-9., -]+", "M10 10 L24 18")
