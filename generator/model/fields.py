"""The kinds of value a file may hold. Each takes the text as written and answers in words an installer understands."""
import difflib
import re
from datetime import date
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
# Marks that turn the direction of the text round them: a name that holds one can make a page read backwards.
TURNING = re.compile("[\u202a-\u202e\u2066-\u2069]")
LONGEST_NOTE = 4000
LONGEST_TEXT = 200


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
    text = " ".join(str(value).split())
    return f'"{text[:40]}…"' if len(text) > 41 else f'"{text}"'


def _scalar(value: Any, wanted: str) -> str:
    if value is None:
        raise refuse("nothing stands here.", f"Write {wanted}, or leave the key out.")
    if not isinstance(value, str):
        raise refuse(f"{shown(value)} stands here.", f"Write {wanted}.")
    return value


def _text(value: Any) -> str:
    text = _scalar(value, "a text")
    if not text.strip():
        raise refuse("an empty text stands here.", "Write a text, or leave the key out.")
    if len(text) > LONGEST_TEXT:
        raise refuse(f"{len(text)} characters stand here.", f"Write at most {LONGEST_TEXT}.")
    if CONTROL.search(text) or TURNING.search(text) or "\n" in text or "\t" in text:
        raise refuse("this text holds a character that cannot be shown.", "Write it on one line, without control marks.")
    return text


def _note(value: Any) -> str:
    text = _scalar(value, "a text")
    if len(text) > LONGEST_NOTE:
        raise refuse(f"{len(text)} characters stand here.", f"Write at most {LONGEST_NOTE}.")
    if CONTROL.search(text) or TURNING.search(text):
        raise refuse("this text holds a character that cannot be shown.", "Take out control marks.")
    return text


def _whole(value: Any) -> int:
    text = _scalar(value, "a whole number")
    if not re.fullmatch(r"0|[1-9][0-9]{0,8}", text):
        raise refuse(f"{shown(text)} is not a whole number.", "Write digits only, for example 12.")
    return int(text)


def _decimal(value: Any) -> float:
    text = _scalar(value, "a number")
    if not re.fullmatch(r"-?(0|[1-9][0-9]{0,8})(\.[0-9]{1,6})?", text):
        raise refuse(f"{shown(text)} is not a number.", "Write digits with a point for decimals, for example 2.4.")
    return float(text)


def _flag(value: Any) -> bool:
    text = _scalar(value, "true or false").lower()
    if text in ("true", "yes"):
        return True
    if text in ("false", "no"):
        return False
    raise refuse(f"{shown(value)} is neither true nor false.", "Write true or false.")


def _day(value: Any) -> date:
    text = _scalar(value, "a date")
    if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        try:
            return date.fromisoformat(text)
        except ValueError:
            raise refuse(f"{shown(text)} is no day of the calendar.", "Write year-month-day, for example 2026-09-14.")
    raise refuse(f"{shown(text)} is not a date.", "Write year-month-day, for example 2026-09-14.")


def _clock(value: Any) -> str:
    text = _scalar(value, "a time of day")
    if not re.fullmatch(r"([01][0-9]|2[0-3]):[0-5][0-9]", text):
        raise refuse(f"{shown(text)} is not a time of day.", "Write hours and minutes, for example 03:30.")
    return text


def _name(value: Any) -> str:
    text = _scalar(value, "a short name")
    if not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9-]{0,39}", text):
        raise refuse(f"{shown(text)} cannot be a name.", "Write 1 to 40 letters, digits or hyphens, a letter or digit first.")
    return text


def _key(value: Any) -> str:
    text = _scalar(value, "a short name")
    if not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9_-]{0,39}", text):
        raise refuse(f"{shown(text)} cannot be a name.",
                     "Write 1 to 40 letters, digits, hyphens or underscores, a letter or digit first.")
    return text


def _serial(value: Any) -> str:
    text = _scalar(value, "the serial as printed on the unit")
    if not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9 ./-]{0,39}", text):
        raise refuse(f"{shown(text)} cannot be a serial.", "Write the characters as printed on the unit, in quotes.")
    return text


def _account(value: Any) -> str:
    text = _scalar(value, "the account identifier that the station gave")
    if not re.fullmatch(r"[A-Za-z0-9]{1,16}", text):
        raise refuse(f"{shown(text)} cannot be an account identifier.", "Write 1 to 16 letters and digits, in quotes.")
    return text


def _phone(value: Any) -> str:
    text = _scalar(value, "a telephone number")
    if not re.fullmatch(r"\+?[0-9][0-9 ()-]{2,24}", text):
        raise refuse(f"{shown(text)} is not a telephone number.", "Write digits and spaces, for example 01632 960001.")
    return text


def _address(value: Any) -> str:
    text = _scalar(value, "a web address")
    if not re.fullmatch(r"https://[a-z0-9.-]+(:[0-9]+)?(/[A-Za-z0-9._~-]+)*/", text):
        raise refuse(f"{shown(text)} is not an address a pack can stand at.",
                     "Write https://, the host and a final /, for example https://packs.company.example/.")
    return text


def _path_name(value: Any) -> str:
    text = _scalar(value, "a path name")
    if not re.fullmatch(r"[a-z0-9]{26,64}", text):
        raise refuse(f"{shown(text)} can be guessed or cannot stand in a link.",
                     "Write 26 or more small letters and digits drawn at random, as `doorpost new` does.")
    return text


def nearest(word: str, known: list[str]) -> str:
    """The known word that was most likely meant, as a hint: 'Did you mean "room"? '; "" if none is near."""
    near = difflib.get_close_matches(word.lower(), [one.lower() for one in known], n=1, cutoff=0.6)
    if not near:
        return ""
    meant = next(one for one in known if one.lower() == near[0])
    return f'Did you mean "{meant}"? '


def choice(*options: str) -> Any:
    """A word out of a fixed list."""

    def pick(value: Any) -> str:
        listed = ", ".join(options)
        text = _scalar(value, f"one of: {listed}")
        if text not in options:
            raise refuse(f"{shown(text)} is not known here.", f"{nearest(text, list(options))}Write one of: {listed}.")
        return text

    return Annotated[Literal[options], BeforeValidator(pick)]  # type: ignore[valid-type]


def within(least: float, most: float) -> AfterValidator:
    """The bounds of a number, ends included; outside them no house of this world is meant."""

    def check(value: Any) -> Any:
        if not least <= value <= most:
            raise refuse(f"{value:g} is out of range.", f"Write a number from {least:g} to {most:g}.")
        return value

    return AfterValidator(check)


def of_length(least: int, most: int, wanted: str) -> AfterValidator:
    """How many entries a list must have; `wanted` says it to the writer."""

    def check(value: list[Any]) -> list[Any]:
        if not least <= len(value) <= most:
            stand = {0: "nothing stands here.", 1: "one entry stands here."}.get(len(value), f"{len(value)} entries stand here.")
            raise refuse(stand, f"Write {wanted}.")
        return value

    return AfterValidator(check)


def _kind(parse: Any, base: Any, pattern: str = "", note: str = "") -> Any:
    schema = {"type": "string"} if base is not int and base is not float else {"type": "number"}
    if base is int:
        schema = {"type": "integer"}
    if base is bool:
        schema = {"type": "boolean"}
    if pattern:
        schema["pattern"] = pattern
    if note:
        schema["description"] = note
    return Annotated[base, BeforeValidator(parse), WithJsonSchema(schema)]


Text = _kind(_text, str)
Note = _kind(_note, str)
Whole = _kind(_whole, int)
Decimal = _kind(_decimal, float)
Flag = _kind(_flag, bool)
Day = _kind(_day, date)
Clock = _kind(_clock, str)
Name = _kind(_name, str)
Key = _kind(_key, str)
Serial = _kind(_serial, str)
Account = _kind(_account, str)
Phone = _kind(_phone, str)
Address = _kind(_address, str)
PathName = _kind(_path_name, str)
Metres = Annotated[Decimal, within(-500, 500)]
Point = Annotated[list[Metres], of_length(2, 2, "two numbers in metres: to the right, and away from the front, for example [2.0, 5.0]")]
