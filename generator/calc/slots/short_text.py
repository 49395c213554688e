"""How would the trade write a zone's text so that the control unit can show it?

Shortened step by step, in the order in which the fewest readers notice: storeys, words that tell nothing, what is watched,
the thing that another word stands for, the place, the storey left out, vowels. The first step that fits is proposed. Digits
are never touched: they tell two places apart. What cannot be shortened so is left to a person.
"""
import unicodedata
from collections.abc import Iterable, Iterator
from functools import lru_cache

from generator.tables.zone_words import (FILLERS, JOINTS, KEPT_WHOLE, PLACES, PLAIN, ROOM_WORDS, SPEAKS_FOR, STOREYS, THINGS,
                                         VOWELS)

Words = tuple[str, ...]


def proposal(text: str, length: int, alphabet: str | None, others: Iterable[str], unique: int) -> str:
    """A text of at most `length` characters of `alphabet` (None: any) that begins like none of `others`; "" if none is found.

    `unique` is the number of first characters that no two texts may share. Common practice, no source.

    >>> proposal("GROUND FLOOR DINING ROOM PATIO DOOR", 16, None, [], 8)
    'GF DINING PATIO'
    """
    if _loses(text, alphabet):
        return ""
    others = tuple(others)
    begun = {beginning(other, unique) for other in others}
    # HALL and HLL are one place to whoever hears them read.
    spoken = {_consonants(other) for other in others}
    return next((short for short in _written(text, alphabet) if _fits(short, length, alphabet)
                 and beginning(short, unique) not in begun and _consonants(short) not in spoken), "")


def _loses(text: str, alphabet: str | None) -> bool:
    """Whether a letter or digit would be lost, and with it perhaps which of two rooms is meant."""
    return any(letter.isalnum() and not shown_with(letter, alphabet).strip() for letter in text)


def _fits(short: str, length: int, alphabet: str | None) -> bool:
    return 0 < len(short) <= length and (alphabet is None or set(short) <= set(alphabet))


def _written(text: str, alphabet: str | None) -> Iterator[str]:
    """The text after each step of shortening, in the characters of the alphabet."""
    joint = next(one for one in JOINTS if alphabet is None or set(one) <= set(alphabet))
    for words in _shorter(tuple(shown_with(text, alphabet).split())):
        yield joint.join(shown_with(word, alphabet) for word in words)


@lru_cache(maxsize=4096)
def beginning(text: str, unique: int) -> str:
    """What is compared of a text: its first characters, large and small letters alike."""
    return text[:unique].casefold().strip()


def shown_with(text: str, alphabet: str | None) -> str:
    """The text with each character that cannot be shown written as the nearest that can, or as a blank."""
    if alphabet is None:
        return text
    return "".join(_nearest(one, set(alphabet)) for one in unicodedata.normalize("NFC", text) if not unicodedata.combining(one))


def _nearest(letter: str, alphabet: set[str]) -> str:
    plain = "".join(one for one in unicodedata.normalize("NFKD", letter) if not unicodedata.combining(one))
    spelt = PLAIN.get(letter)
    for one in (letter, letter.upper(), letter.lower(), plain, plain.upper(), plain.lower(),
                *((spelt, spelt.upper(), spelt.lower()) if spelt is not None else ())):
        if set(one) - {" "} <= alphabet and (one or spelt == ""):
            return one
    return " "


@lru_cache(maxsize=4096)
def _consonants(text: str) -> str:
    return "".join(one for one in text.upper() if one.isalnum() and one not in VOWELS)


def _shorter(words: Words) -> Iterator[Words]:
    """Every step of shortening, the mildest first."""
    yield words
    with_storey = _steps(_storeys(words))
    storeys = {one for _, one in STOREYS}
    without = _steps(tuple(word for word in with_storey[0] if word not in storeys))
    yield from (*with_storey, *without)
    yield from _vowels(with_storey[-1])
    yield from _vowels(without[-1])


def _steps(words: Words) -> list[Words]:
    """The words, and the words after each further step."""
    steps = [words]
    for step in (_without_fillers, _things, _spoken_for, _places):
        steps.append(step(steps[-1]))
    return steps


def _storeys(words: Words) -> Words:
    for long, short in STOREYS:
        for start in range(len(words) - len(long) + 1):
            if _large(words[start:start + len(long)]) == long:
                return (*words[:start], short, *words[start + len(long):])
    return words


def _large(words: Words) -> Words:
    return tuple(word.upper() for word in words)


def _without_fillers(words: Words) -> Words:
    told = tuple(word for word in words if word.upper() not in FILLERS)
    return tuple(word for index, word in enumerate(told)
                 if not (word.upper() in ROOM_WORDS and index and not told[index - 1].isdigit())) or words


def _things(words: Words) -> Words:
    return tuple(THINGS.get(word.upper(), word) for word in words)


def _spoken_for(words: Words) -> Words:
    return tuple(word for index, word in enumerate(words)
                 if not (index and word in SPEAKS_FOR.get(words[index - 1].upper(), ())))


def _places(words: Words) -> Words:
    return tuple(PLACES.get(word.upper(), word) for word in words)


def _vowels(words: Words) -> Iterator[Words]:
    """The longest word loses its vowels first, one word a step; its first letter stays."""
    for index in sorted(range(len(words)), key=lambda one: -len(words[one])):
        if len(words[index]) > KEPT_WHOLE:
            kept = "".join(letter for place, letter in enumerate(words[index]) if not place or letter.upper() not in VOWELS)
            words = (*words[:index], kept, *words[index + 1:])
            yield words
