"""What does the YAML parser's complaint mean in an installer's words, and at which place is the mend?

The parser speaks of tokens, nodes and streams. Each of its complaints, of the C and of the Python kind, is known here by a
few of its words and answered with ours; one that is not known gets an answer of ours too.
"""
import re
from collections.abc import Callable
from dataclasses import dataclass

Place = tuple[int, int]

# Before, within or after a key: blanks that are none, and a colon that is none. In a text they may be meant.
_OTHER = "([\u00a0\u1680\u2000-\u200b\u202f\u205f\u2060\u3000\uff1a])"
OTHER_BLANKS = re.compile(rf"^ *(?:- )?[\w.-]*{_OTHER}|^[^\"']*:{_OTHER}")


@dataclass(frozen=True)
class Complaint:
    """What the parser said: while doing what, where that began, what then was wrong, and where; with the file's lines."""

    context: str
    began: Place | None
    problem: str
    place: Place
    lines: list[str]

    @property
    def letter(self) -> str:
        """The character at the place; "" at the end of a line."""
        return self.line[self.place[1] - 1:self.place[1]]

    @property
    def line(self) -> str:
        """The line of the place."""
        return self.lines[self.place[0] - 1] if self.place[0] <= len(self.lines) else ""

    @property
    def begins_line(self) -> bool:
        """Whether nothing but blanks stands before the place."""
        return not self.line[:self.place[1] - 1].strip()


Answer = tuple[Place, str, str]
IN_QUOTES = 'Put the whole text in quotes, for example "Keypad: left of the door".'
DEEPEST = 40
TOO_DEEP = f"this is more than {DEEPEST} levels deep.", "Look at the indents and brackets."
# As many characters may stand before a key's colon (YAML 1.2, section 7.4.2, from memory).
LONGEST_KEY = 1024
NO_COLON = ("no colon with a blank after it follows the key here.",
            "Write the key, a colon, a blank and the value; put a text of several lines in quotes.")
PERCENT = 'a line may not start with "%".', "Put the text in quotes, or take the line out."
BELOW = "Begin it exactly below the first letter of the keys it belongs to, with blanks."


def answer(complaint: Complaint) -> Answer:
    """The place to look at, what stands there, and what to write instead."""
    words = f"{complaint.context} / {complaint.problem}"
    place, says, do = next((say(complaint) for known, say in KNOWN if re.search(known, words)), None) or _other(complaint)
    line, column = _within(place, complaint.lines)
    blank = OTHER_BLANKS.search(complaint.lines[line - 1]) if complaint.lines else None
    if blank:
        return (line, blank.end()), "what looks like a blank or a colon here is another character.", "Type it anew by hand."
    return (line, column), says, do


def _within(place: Place, lines: list[str]) -> Place:
    """The place itself; behind the last line that holds anything, the end of that line."""
    filled = max((number for number, line in enumerate(lines, 1) if line.strip()), default=1)
    return place if place[0] <= filled else (filled, len(lines[filled - 1]) + 1 if lines else 1)


def _at(says: str, do: str) -> Callable[[Complaint], Answer]:
    """An answer at the place of the complaint."""
    return lambda complaint: (complaint.place, says, do)


def _at_start(says: str, do: str) -> Callable[[Complaint], Answer]:
    """An answer where what was being read began."""
    return lambda complaint: (complaint.began or complaint.place, says, do)


def _other(complaint: Complaint) -> Answer:
    return complaint.place, "this line cannot be read.", "Look at indents, colons, brackets and quotes here and on the line above."


def _colon(complaint: Complaint) -> Answer:
    if re.search(r":(?:[ \t]|$)", complaint.line[:complaint.place[1] - 1]):
        return complaint.place, "a second colon stands in this line.", IN_QUOTES
    if complaint.place[1] > LONGEST_KEY:
        return complaint.place, "what stands before this colon is too long for a key.", IN_QUOTES
    above = next((number for number in range(complaint.place[0] - 1, 0, -1) if complaint.lines[number - 1].strip()), 0)
    if above and not re.search(r":(?:[ \t]|$)", complaint.lines[above - 1]):
        start = len(complaint.lines[above - 1]) - len(complaint.lines[above - 1].lstrip())
        return (above, start + 1), *NO_COLON
    return complaint.place, "this line stands further in than the line above allows.", BELOW


def _no_start(complaint: Complaint) -> Answer:
    if complaint.letter == "\t":
        return _tab(complaint)
    return complaint.place, f'a value may not start with "{complaint.letter}".', f'Put it in quotes, for example "{complaint.letter}home".'


def _does_not_fit(complaint: Complaint) -> Answer:
    directive = next((number for number, line in enumerate(complaint.lines, 1) if line.startswith("%")), None)
    if directive and "document start" in complaint.problem:
        return (directive, 1), *PERCENT
    if complaint.letter and complaint.letter in "]}":
        return complaint.place, f'"{complaint.letter}" closes a bracket that was not opened.', "Take it out, or open the bracket before it."
    if complaint.begins_line:
        return complaint.place, "this line does not fit the lines above it.", BELOW
    return complaint.place, "the value ends before this, and more stands in the line.", IN_QUOTES


def _list_goes_on(complaint: Complaint) -> Answer:
    if complaint.begins_line:
        return (complaint.place, "a list stands above, and this line goes on without a hyphen.",
                "Begin each entry with a hyphen, all below one another; begin a key that is not in the list further left.")
    return _does_not_fit(complaint)


def _bracket(complaint: Complaint) -> Answer:
    if complaint.began and complaint.began[0] != complaint.place[0]:
        until = f"line {complaint.place[0]}" if complaint.line.strip() else "the file ends"
        return (complaint.began, f"the bracket that opens here is not closed before {until}, or a comma is missing.",
                "Write a comma between two entries and the closing bracket at the end.")
    return complaint.place, "a comma or a closing bracket is missing before this.", "Write it; put a text that holds a comma or bracket in quotes."


def _percent(complaint: Complaint) -> Answer:
    return complaint.began or complaint.place, *PERCENT


def _no_value(complaint: Complaint) -> Answer:
    if complaint.letter and complaint.letter in "]}" and "flow" not in complaint.context:
        return _does_not_fit(complaint)
    if not "".join((complaint.line[complaint.place[1] - 1:], *complaint.lines[complaint.place[0]:])).strip():
        return complaint.place, "the file ends here, within a bracket.", "Write what is missing, and the closing bracket."
    return complaint.place, "a value is missing here.", "Write it, or take out the comma, colon or bracket that asks for it."


def _tab(complaint: Complaint) -> Answer:
    return complaint.place, "a tab stands where blanks must stand.", "Write blanks instead of the tab."


def _mark(letter: str) -> Callable[[Complaint], Answer]:
    return _at_start(f'a value may not start with "{letter}".', f'Put it in quotes, for example "{letter}home".')


# The parser's own words, of the C and of the Python kind, most telling first; `context / problem` is searched.
KNOWN: tuple[tuple[str, Callable[[Complaint], Answer]], ...] = (
    (r"directive|^ / found incompatible YAML|duplicate tag handle", _percent),
    (r"scanning an anchor", _mark("&")),
    (r"scanning an alias", _mark("*")),
    (r"(scanning|parsing) a tag|undefined tag handle|tag URI|URI escape", _mark("!")),
    (r"mapping values are not allowed", _colon),
    (r"mapping keys are not allowed", _at('a value may not start with "? ".', "Put it in quotes.")),
    (r"sequence entries are not allowed", _at("a list may not start here.", "Write it on the lines below its key, each entry with a hyphen; "
                                              "put a text that starts with a hyphen in quotes.")),
    (r"found a tab character", _tab),
    (r"cannot start any token", _no_start),
    (r"could not find expected ':'", _at_start(*NO_COLON)),
    (r"quoted scalar / found unexpected (end of stream|document)", _at_start("the quote that opens here is not closed.",
                                                                             "Write the same quote at the end of the text.")),
    (r"escape character|expected escape sequence|hexdecimal|escape code", _at(
        "a backslash stands in a text in double quotes, and means nothing there.", "Write two backslashes, or put the text in single quotes.")),
    (r"scanning a block scalar", _at('only a line end may follow the "|" or ">" that begins a text of several lines.',
                                     "Write the text on the lines below, or put it in quotes.")),
    (r"unexpected ':'", _at("a colon stands here without a blank after it.", "Write a blank after it, or put the text in quotes.")),
    (r"flow (sequence|mapping) / (did not find expected|expected) ','", _bracket),
    (r"node content", _no_value),
    (r"block collection / ", _list_goes_on),
    (r"block mapping / |document start>", _does_not_fit),
    (r"nesting depth|flow level|block level", _at(*TOO_DEEP)),
)
