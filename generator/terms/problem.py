"""What is wrong with a file, said so that an installer can mend it."""
from dataclasses import dataclass

from generator.terms.terminal import columns, safe, width


@dataclass(frozen=True, order=True)
class Problem:
    """One thing that keeps a job from being read.

    `line` and `column` count from 1; 0 means that the file as a whole is meant. `field` is the dotted way to the
    value. `says` tells what stands there, `do` what to write instead; `written` is the line as it is written.
    `unreadable` is true if the machine did not give the file out: what stands in it is not known. Whatever a terminal
    would obey instead of showing it is made visible.
    """

    file: str
    line: int
    column: int
    field: str
    says: str
    do: str
    written: str = ""
    unreadable: bool = False

    def __post_init__(self) -> None:
        for name in ("file", "field", "says", "do", "written"):
            object.__setattr__(self, name, safe(getattr(self, name)))

    def one_line(self) -> str:
        """The whole problem as one line of text, for a terminal."""
        place = f"{self.file}:{self.line}:{self.column}" if self.line else self.file
        field = f" {self.field}" if self.field else ""
        return f"{place}{field}: {self.says} {self.do}"

    def with_caret(self) -> str:
        """The problem in one line, and below it what `caret` gives."""
        return "\n".join((self.one_line(), *(f"    {line}" for line in self.caret())))

    def caret(self) -> tuple[str, ...]:
        """The line as it is written and a caret under the place, a long line cut round it; nothing for a whole file."""
        if not self.written or not self.line:
            return ()
        before, after = self.written[:self.column - 1], self.written[self.column - 1:]
        if width(self.written) > WIDEST:
            before = _last(before, BEFORE_CARET)
            after = _first(after, WIDEST - width(before))
        return before + after, " " * width(before) + "^"


# What a terminal of eighty columns shows of a line, and how much of that stands before the caret.
WIDEST, BEFORE_CARET = 74, 50


def _first(text: str, most: int) -> str:
    """As much of the start of a text as fits into so many columns."""
    taken = 0
    for index, letter in enumerate(text):
        taken += columns(letter)
        if taken > most:
            return text[:index]
    return text


def _last(text: str, most: int) -> str:
    """As much of the end of a text as fits into so many columns."""
    return _first(text[::-1], most)[::-1]


class JobInvalid(Exception):
    """The job cannot be read; holds every problem that was found, in the order of the files."""

    def __init__(self, problems: list[Problem]):
        self.problems = tuple(sorted(set(problems)))
        super().__init__("\n".join(problem.one_line() for problem in self.problems))


class CannotWrite(Exception):
    """A file or folder could not be read or written; the message says which and what to do."""


class Leak(CannotWrite):
    """A value reached a reader who may not see it; nothing was swapped in."""
