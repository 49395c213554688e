"""A file of results as a phone wrote it: text holding JSON. What is in it is hostile until it is read, and never more than text after that."""
import hashlib
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

from pydantic import ValidationError

from generator import __version__
from generator.intake.secret_words import gives_secret
from generator.intake.text_file import read_raw
from generator.intake.typed import WANTED
from generator.model import forms
from generator.model.fields import listed, nearest, shown
from generator.model.found import FORMAT, SIGNATURE, TAKEN_OUT, FoundEntry, FoundFile
from generator.terms.problem import Problem

LARGEST = 8_000_000
AGAIN = "Send it anew from the phone; what the phone holds is not lost."
# How many mistakes of one file are told: whoever damaged it did not stop at one.
MOST_TOLD = 10
HALVES = re.compile("[\ud800-\udfff]")


class _Bad(Exception):
    """Why a text is no file of results, and what to do."""


@dataclass(frozen=True)
class Incoming:
    """A file of results that can be taken in. `names` are typed names of those who signed, by their SHA-256; the entries hold only that.

    `emptied` are the entries in which a code seemed to stand, which has no place in any file.
    """

    shown_as: str
    file: FoundFile
    names: dict[str, str]
    emptied: tuple[str, ...]


def read_results(path: Path, shown_as: str) -> tuple[Incoming | None, list[Problem]]:
    """A file of results, or in an installer's words why it is none."""
    raw = read_raw(path, shown_as, LARGEST, "So much is found on no site. Export it anew from the phone.", "Check the name.")
    if raw.problem:
        return None, [raw.problem]
    return results_of(raw.raw, shown_as)


def results_of(raw: bytes, shown_as: str) -> tuple[Incoming | None, list[Problem]]:
    """The bytes of a file of results as one that can be taken in, or what is wrong with it."""
    try:
        data = _parsed(raw)
        file = FoundFile.model_validate(data)
        _sound(file)
        return _put_in_order(shown_as, file), []
    except _Bad as bad:
        return None, [Problem(shown_as, 0, 0, "", *bad.args)]
    except ValidationError as error:
        return None, list(_worded(shown_as, data, error))


def _parsed(raw: bytes) -> dict[str, Any]:
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise _Bad("this is no text in UTF-8: it was damaged on the way, or is another kind of file.", AGAIN) from None
    try:
        # Numbers stay as they are written: a number of a million digits is a long text and no work.
        data = json.loads(text, object_pairs_hook=_group, parse_int=str, parse_float=str, parse_constant=_no_number)
    except json.JSONDecodeError as error:
        raise _Bad(f"this is no file of results: it cannot be read on from line {error.lineno}, character {error.colno}; it may have been cut short.",
                   AGAIN) from None
    except RecursionError:
        raise _Bad("this is no file of results: groups stand in groups without an end.", AGAIN) from None
    if not isinstance(data, dict) or "entries" not in data or "format" not in data:
        raise _Bad("this is no file of results: it has no format and no entries.", "Name the file that the phone exported, REFERENCE-PHONE.txt.")
    _known_format(data["format"])
    return data


def _known_format(number: Any) -> None:
    if isinstance(number, str) and forms.WHOLE.fits(number) and number != str(FORMAT):
        raise _Bad(f"format {number} stands here; Doorpost {__version__} reads format {FORMAT} of a file of results.",
                   "Take it in with the Doorpost that built the pack, or a newer one.")


def _group(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for key, value in pairs:
        if key in found:
            raise _Bad(f"the key {shown(key)} stands twice in one group.", AGAIN)
        found[key] = HALVES.sub("\N{REPLACEMENT CHARACTER}", value) if isinstance(value, str) else value
    return found


def _no_number(word: str) -> NoReturn:
    raise _Bad(f"{word} stands where a number belongs.", AGAIN)


def _sound(file: FoundFile) -> None:
    """Each entry once, each drawing the one that its name says."""
    first: dict[str, FoundEntry] = {}
    for one in file.entries:
        if first.setdefault(one.id, one) != one:
            raise _Bad(f"the entry {one.id} stands twice with other content: one of them was changed by hand.", AGAIN)
    for print_, lines in file.signatures.items():
        if hashlib.sha256(lines.encode()).hexdigest() != print_:
            raise _Bad(f"the signature {print_[:12]} was changed since it was drawn.", AGAIN)


def _put_in_order(shown_as: str, file: FoundFile) -> Incoming:
    """Each entry once; typed names and what seems to be a code taken out, always in the same way, so that the same entry stays the same."""
    names: dict[str, str] = {}
    emptied: list[str] = []
    kept = [_kept(one, names, emptied) for one in dict.fromkeys(file.entries)]
    return Incoming(shown_as, file.model_copy(update={"entries": kept}), names, tuple(emptied))


def _kept(one: FoundEntry, names: dict[str, str], emptied: list[str]) -> FoundEntry:
    new: dict[str, str] = {}
    if one.what.startswith(SIGNATURE) and one.value and not forms.LONG_PRINT.fits(one.value):
        new["value"] = hashlib.sha256(one.value.encode()).hexdigest()
        names[new["value"]] = one.value
    new |= {key: TAKEN_OUT for key in ("value", "note") if key not in new and gives_secret(getattr(one, key))}
    if TAKEN_OUT in new.values():
        emptied.append(one.id)
    return one.model_copy(update=new) if new else one


def _worded(shown_as: str, data: dict[str, Any], error: ValidationError) -> Iterator[Problem]:
    """What is wrong with values, in words; of many the first."""
    every = error.errors(include_url=False)
    for one in every[:MOST_TOLD]:
        yield Problem(shown_as, 0, 0, _place(data, one["loc"]), *_says(one))
    if len(every) > MOST_TOLD:
        yield Problem(shown_as, 0, 0, "", f"{len(every) - MOST_TOLD} more values are wrong.", AGAIN)


def _place(data: Any, way: tuple[str | int, ...]) -> str:
    """Where a value stands; an entry by the id it gives itself, since nobody counts entries."""
    parts = [str(part) for part in way if part != "[key]"]
    if len(way) > 1 and way[0] == "entries" and isinstance(way[1], int):
        entry = data["entries"][way[1]]
        named = entry.get("id") if isinstance(entry, dict) else None
        parts[1] = f"{way[1] + 1}" + (f" ({named[:40]})" if isinstance(named, str) else "")
    return ".".join(parts)


def _says(error: Any) -> tuple[str, str]:
    kind, way = error["type"], error["loc"]
    if kind == "field":
        return error["ctx"]["says"], error["ctx"]["do"]
    if kind == "extra_forbidden":
        known = list((FoundEntry if way[0] == "entries" else FoundFile).model_fields)
        return f"the key {shown(str(way[-1]))} is not known here.", f"{nearest(str(way[-1]), known)}Known keys: {listed(known)}."
    if kind == "missing":
        return "this key is missing.", AGAIN
    return f"{shown(error['input'])} stands here.", f"{WANTED.get(kind, 'Another value')} belongs here.".capitalize() + f" {AGAIN}"
