"""A file of results as a phone wrote it: text holding JSON. What is in it is hostile until it is read, and never more than text after that."""
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
from generator.terms.signature import print_of

LARGEST = 8_000_000
AGAIN = "Send it anew from the phone; what the phone holds is not lost."
# How many mistakes of one file are told: whoever damaged it did not stop at one.
MOST_TOLD = 10
# What is written as a number; all else is text.
NUMBERS = ("format", "revision")
HALVES = re.compile("[\ud800-\udfff]")


class _Bad(Exception):
    """Why a text is no file of results, and what to do."""


class _Number(str):
    """A number as it is written in the file: a long one is a long text and no work."""


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
        problems = list(_kinds(shown_as, data))
        file = FoundFile.model_validate(data)
        problems += _sound(shown_as, file)
        return (None, problems) if problems else (_put_in_order(shown_as, file), [])
    except _Bad as bad:
        return None, [Problem(shown_as, 0, 0, "", *bad.args)]
    except ValidationError as error:
        return None, [*problems, *_worded(shown_as, data, error)]


def _parsed(raw: bytes) -> dict[str, Any]:
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise _Bad("this is no text in UTF-8: it was damaged on the way, or is another kind of file.", AGAIN) from None
    try:
        data = json.loads(text, object_pairs_hook=_group, parse_int=_Number, parse_float=_Number, parse_constant=_no_number)
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
        found[key] = HALVES.sub("\N{REPLACEMENT CHARACTER}", value) if type(value) is str else value
    return found


def _no_number(word: str) -> NoReturn:
    raise _Bad(f"{word} stands where a number belongs.", AGAIN)


def _kinds(shown_as: str, data: dict[str, Any]) -> Iterator[Problem]:
    """Where a text stands for a number, or a number for a text: phones take in neither."""
    for key in NUMBERS:
        if type(data.get(key)) is str:
            yield Problem(shown_as, 0, 0, key, f"{shown(data[key])} stands here as a text.", f"Digits without quotes belong here. {AGAIN}")
    every = data["entries"] if isinstance(data["entries"], list) else []
    found: list[tuple[tuple[str | int, ...], Any]] = [((key,), value) for key, value in data.items() if key not in NUMBERS]
    found += [(("entries", at, key), value) for at, one in enumerate(every) if isinstance(one, dict) for key, value in one.items()]
    found = [(way, value) for way, value in found if isinstance(value, _Number)]
    for way, value in found[:MOST_TOLD]:
        yield Problem(shown_as, 0, 0, _place(data, way), f"the number {shown(value)} stands here.", f"A text in quotes belongs here. {AGAIN}")
    if len(found) > MOST_TOLD:
        yield Problem(shown_as, 0, 0, "", f"{len(found) - MOST_TOLD} more numbers stand where a text belongs.", AGAIN)


def _sound(shown_as: str, file: FoundFile) -> Iterator[Problem]:
    """Whatever entry does not stand there once, whatever drawing is not the one that its name says."""
    first: dict[str, FoundEntry] = {}
    twice = dict.fromkeys(one.id for one in file.entries if first.setdefault(one.id, one) != one)
    says = [f"the entry {id} stands twice with other content: one of them was changed by hand." for id in twice]
    says += [f"the signature {print_[:12]} was changed since it was drawn." for print_, lines in file.signatures.items() if print_of(lines) != print_]
    for one in says[:MOST_TOLD]:
        yield Problem(shown_as, 0, 0, "", one, AGAIN)
    if len(says) > MOST_TOLD:
        yield Problem(shown_as, 0, 0, "", f"{len(says) - MOST_TOLD} more entries and signatures are not as they were.", AGAIN)


def _put_in_order(shown_as: str, file: FoundFile) -> Incoming:
    """Each entry once; typed names and what seems to be a code taken out, always in the same way, so that the same entry stays the same."""
    names: dict[str, str] = {}
    emptied: list[str] = []
    kept = [_kept(one, names, emptied) for one in dict.fromkeys(file.entries)]
    return Incoming(shown_as, file.model_copy(update={"entries": kept}), names, tuple(emptied))


def _kept(one: FoundEntry, names: dict[str, str], emptied: list[str]) -> FoundEntry:
    new: dict[str, str] = {}
    if one.what.startswith(SIGNATURE) and one.value and not forms.LONG_PRINT.fits(one.value):
        new["value"] = print_of(one.value)
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
