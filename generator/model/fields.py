"""The kinds of value a file may hold. Each takes the text as written and answers in words an installer understands."""
import difflib
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, WithJsonSchema
from pydantic_core import PydanticCustomError, core_schema

from generator.model import forms
from generator.model.forms import Form
from generator.terms.terminal import safe

# How many known words a message lists, and among how many it seeks the one that was meant: more helps nobody.
MOST_LISTED, MOST_COMPARED = 30, 1000


def refuse(says: str, do: str) -> PydanticCustomError:
    """The one way a field says no: what stands there, and what to write instead."""
    return PydanticCustomError("field", "{says} {do}", {"says": says, "do": do})


def shown(value: Any) -> str:
    """The written value as a message quotes it: short, on one line."""
    if isinstance(value, dict):
        return "a group of keys"
    if isinstance(value, list):
        return "a list"
    if value is None:
        return "nothing"
    text = safe(" ".join(str(value).split()))
    return f'"{text[:40]}…"' if len(text) > 41 else f'"{text}"'


def _scalar(value: Any, wanted: str) -> str:
    if value is None:
        raise refuse("nothing stands here.", f"Write {wanted}, or leave the key out.")
    if not isinstance(value, str):
        raise refuse(f"{shown(value)} stands here.", f"Write {wanted}.")
    return value


def _written(form: Form, value: Any) -> str:
    """The text, if it is written in that form."""
    text = _scalar(value, form.wanted)
    if not form.fits(text):
        raise refuse(f"{shown(text)} {form.is_not}", form.do)
    return text


def _short_enough(form: Form, value: Any) -> str:
    text = _scalar(value, form.wanted)
    if form.longest and len(text) > form.longest:
        raise refuse(f"{len(text)} characters stand here.", f"Write at most {form.longest}.")
    return text


def _text(value: Any) -> str:
    text = _short_enough(forms.TEXT, value)
    if not text.strip():
        raise refuse("an empty text stands here.", "Write a text, or leave the key out.")
    if not forms.TEXT.fits(text):
        raise refuse("this text holds a character that cannot be shown.", "Write it on one line, without control marks.")
    return text


def _note(value: Any) -> str:
    text = _short_enough(forms.NOTE, value)
    if not forms.NOTE.fits(text):
        raise refuse("this text holds a character that cannot be shown.", "Take out control marks.")
    return text


def _whole(value: Any) -> int:
    return int(_written(forms.WHOLE, value))


def _decimal(value: Any) -> float:
    return float(_written(forms.DECIMAL, value))


def _flag(value: Any) -> bool:
    return _written(forms.FLAG, value).lower() in ("true", "yes")


def _day(value: Any) -> date:
    text = _written(forms.DAY, value)
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise refuse(f"{shown(text)} is no day of the calendar.", forms.DAY.do)


def is_key(value: Any) -> bool:
    """Whether a value can be the name of a sheet or profile: then it can also stand in the name of a file."""
    return isinstance(value, str) and forms.KEY.fits(value)


def listed(known: Iterable[str]) -> str:
    """Known words as a message lists them: in order, and no more of them than can be read."""
    words = sorted(known)
    return ", ".join(words[:MOST_LISTED]) + (f" and {len(words) - MOST_LISTED} more" if len(words) > MOST_LISTED else "") or "none"


def _nearness(word: str, other: str) -> float:
    return difflib.SequenceMatcher(None, other, word).ratio()


def _other_letters(word: str, other: str) -> int:
    """How many letters one of two words has that the other has not."""
    one, two = Counter(word), Counter(other)
    return (one - two).total() + (two - one).total()


def nearest(word: str, known: list[str]) -> str:
    """The known word that was most likely meant, as a hint: 'Did you mean "room"? '; "" if none is near."""
    if len(word) > forms.TEXT.longest or len(known) > MOST_COMPARED:
        return ""
    near = difflib.get_close_matches(word.lower(), [one.lower() for one in known], cutoff=0.6)
    if not near:
        return ""
    # Of those that are as near as the nearest, the one with the same letters: a turned pair is the commonest slip.
    nearest_one = min(near, key=lambda one: (-_nearness(word.lower(), one), _other_letters(word.lower(), one)))
    meant = next(one for one in known if one.lower() == nearest_one)
    return f'Did you mean "{meant}"? '


def choice(*options: str) -> Any:
    """A word out of a fixed list."""

    def pick(value: Any) -> str:
        listed = ", ".join(options)
        text = _scalar(value, f"one of: {listed}")
        if text not in options:
            raise refuse(f"{shown(text)} is not known here.", f"{nearest(text, list(options))}Write one of: {listed}.")
        return text

    schema = forms.of_options(options)
    return Annotated[Literal[options], BeforeValidator(pick), WithJsonSchema(schema)]  # type: ignore[valid-type]


@dataclass(frozen=True)
class Bounds:
    """The least and the most that a number may be, ends included: for who reads the file, and in the schema for editors."""

    least: float
    most: float

    def check(self, value: Any) -> Any:
        """The number, if it lies within."""
        if not self.least <= value <= self.most:
            raise refuse(f"{value:g} is out of range.", f"Write a number from {self.least:g} to {self.most:g}.")
        return value

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        return core_schema.no_info_after_validator_function(self.check, handler(source))

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        schema = handler(core)
        inside = [one for one in schema.get("examples", ()) if self.least <= one <= self.most] or [self.least]
        return schema | {"minimum": self.least, "maximum": self.most, "examples": inside}


def within(least: float, most: float) -> Bounds:
    """The bounds of a number, ends included; outside them no house of this world is meant."""
    return Bounds(least, most)


@dataclass(frozen=True)
class Length:
    """How many entries a list or a group must have; `wanted` says it to the writer."""

    least: int
    most: int
    wanted: str

    def check(self, value: Any) -> Any:
        """The list or group, if it is neither too short nor too long."""
        if not self.least <= len(value) <= self.most:
            stand = {0: "nothing stands here.", 1: "one entry stands here."}.get(len(value), f"{len(value)} entries stand here.")
            raise refuse(stand, f"Write {self.wanted}.")
        return value

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        return core_schema.no_info_after_validator_function(self.check, handler(source))

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        schema = handler(core)
        what = "Items" if schema["type"] == "array" else "Properties"
        return schema | {f"min{what}": self.least, f"max{what}": self.most}


def of_length(least: int, most: int, wanted: str) -> Length:
    """How many entries a list or a group must have; `wanted` says it to the writer."""
    return Length(least, most, wanted)


def _kind(form: Form, parse: Any = None, base: Any = str) -> Any:
    """A kind of value: the reader and the schema of one form."""
    return Annotated[base, BeforeValidator(parse or partial(_written, form)), WithJsonSchema(form.schema())]


Text = _kind(forms.TEXT, _text)
Note = _kind(forms.NOTE, _note)
Whole = _kind(forms.WHOLE, _whole, int)
Decimal = _kind(forms.DECIMAL, _decimal, float)
Flag = _kind(forms.FLAG, _flag, bool)
Day = _kind(forms.DAY, _day, date)
Clock = _kind(forms.CLOCK)
Name = _kind(forms.NAME)
Key = _kind(forms.KEY)
Serial = _kind(forms.SERIAL)
Account = _kind(forms.ACCOUNT)
Phone = _kind(forms.PHONE)
Address = _kind(forms.ADDRESS)
PathName = _kind(forms.PATH_NAME)
Metres = Annotated[Decimal, within(-500, 500)]
Point = Annotated[list[Metres], of_length(2, 2, "two numbers in metres: to the right, and away from the front, for example [2.0, 5.0]")]


def _told(form: Form, value: Any) -> str:
    text = _short_enough(form, value)
    if not form.fits(text):
        raise refuse("this text holds half of a character.", form.do)
    return text


Told = _kind(forms.TOLD, partial(_told, forms.TOLD))
ToldNote = _kind(forms.TOLD_NOTE, partial(_told, forms.TOLD_NOTE))
ToldShort = _kind(forms.TOLD_SHORT, partial(_told, forms.TOLD_SHORT))
PhoneId = _kind(forms.PHONE_ID)
EntryId = _kind(forms.ENTRY_ID)
UnitOrNone = _kind(forms.UNIT_OR_NONE)
StepName = _kind(forms.STEP_NAME)
Thing = _kind(forms.THING)
Moment = _kind(forms.MOMENT)
ShortPrint = _kind(forms.SHORT_PRINT)
LongPrint = _kind(forms.LONG_PRINT)
Drawing = _kind(forms.DRAWING)
