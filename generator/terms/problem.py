"""What is wrong with a file, said so that an installer can mend it."""
from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Problem:
    """One thing that keeps a job from being read.

    `line` and `column` count from 1; 0 means that the file as a whole is meant. `field` is the dotted way to the
    value. `says` tells what stands there, `do` what to write instead; `written` is the line as it is written.
    """

    file: str
    line: int
    column: int
    field: str
    says: str
    do: str
    written: str = ""

    def one_line(self) -> str:
        """The whole problem as one line of text, for a terminal."""
        place = f"{self.file}:{self.line}:{self.column}" if self.line else self.file
        field = f" {self.field}" if self.field else ""
        return f"{place}{field}: {self.says} {self.do}"

    def with_caret(self) -> str:
        """The problem with the line as it is written and a caret under the place; long lines are cut round the place."""
        if not self.written or not self.line:
            return self.one_line()
        start = max(0, self.column - 1 - BEFORE_CARET) if len(self.written) > WIDEST else 0
        line = self.written[start:start + WIDEST].replace("\t", " ")
        return f"{self.one_line()}\n    {line}\n    {' ' * (self.column - 1 - start)}^"


# What a terminal of eighty columns shows of a line, and how much of that stands before the caret.
WIDEST, BEFORE_CARET = 74, 50


class JobInvalid(Exception):
    """The job cannot be read; holds every problem that was found, in the order of the files."""

    def __init__(self, problems: list[Problem]):
        self.problems = tuple(sorted(set(problems)))
        super().__init__("\n".join(problem.one_line() for problem in self.problems))


class CannotWrite(Exception):
    """A file or folder could not be read or written; the message says which and what to do."""


class Leak(CannotWrite):
    """A value reached a reader who may not see it; nothing was swapped in."""
