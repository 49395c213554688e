"""Can the control unit show the texts, can nobody mistake one for another, and do they name nobody?"""
import re
from collections.abc import Iterator

from generator.calc.results import Results
from generator.calc.slots.short_text import beginning
from generator.calc.slots.texts import UNIQUE, ZoneText
from generator.model.papers import Papers
from generator.rules.asked import PEOPLE
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import rule
from generator.tables.sources import PRACTICE, SHEET
from generator.tables.zone_words import CHILD_WORDS, NO_NAMES, SHORTEST_NAME, ordinary_words
from generator.terms.show import amount, count, sentence_list

NAMELESS = "Name the place instead: its storey, its side, its number (BED 2)."


def _proposed(text: ZoneText, papers: Papers) -> str:
    if not text.proposed:
        return "No short form of the trade fits: write another text, what tells the place first, and use it everywhere."
    limit = papers.profile.limits.get(UNIQUE)
    first = f", and no other zone begins with its first {amount(limit.value, '')}" if limit else ""
    return (f'Proposed: "{text.proposed}", {count(len(text.proposed), "character")}{first}. Write it or another that fits, and agree '
            "it: keypad, station and labels show the same text.")


@rule("text-too-long", Severity.STOP, source=SHEET,
      compares="the characters of each zone's text with those that the control unit shows",
      mends="Write the text that is proposed, or another that fits, and use it everywhere.",
      firm="the control unit cannot show more")
def text_too_long(papers: Papers, results: Results) -> Iterator[Hit]:
    """A zone's text has more characters than the control unit shows.

    What is cut off cannot be read aloud to the station.
    """
    unit = papers.job.control_unit
    most = papers.sheet_of[unit.id].control_unit.zone_text.length
    for one in results.texts:
        if one.too_long:
            yield Hit(one.field, f'"{one.text}" has {len(one.text)} characters, {most} are shown.', _proposed(one, papers),
                      (Value("characters", str(len(one.text)), "", one.field),
                       Value("shown", str(most), "", f"sheet {unit.sheet}: control_unit.zone_text.length")))


@rule("text-not-in-alphabet", Severity.STOP, source=SHEET,
      compares="the characters of each zone's text with the alphabet of the control unit",
      mends="Write the text with the characters of the sheet; one is proposed.",
      firm="the control unit cannot show the character")
def text_not_in_alphabet(papers: Papers, results: Results) -> Iterator[Hit]:
    """A zone's text uses a character that the control unit cannot show.

    It would be shown as a blank or as another character.
    """
    unit = papers.job.control_unit
    alphabet = papers.sheet_of[unit.id].control_unit.zone_text.alphabet
    for one in results.texts:
        if one.strange:
            yield Hit(one.field, f'"{one.text}" holds {sentence_list([f"“{letter}”" for letter in one.strange])}, which cannot be shown.',
                      _proposed(one, papers),
                      (Value("text", one.text, "", one.field),
                       Value("alphabet", alphabet or "", "", f"sheet {unit.sheet}: control_unit.zone_text.alphabet")))


@rule("text-not-unique", Severity.ASK, limits=(UNIQUE,),
      compares="the first characters of each zone's text with those of every text before it",
      mends="Put what tells the two apart first, or shorten what stands before it.")
def text_not_unique(papers: Papers, results: Results) -> Iterator[Hit]:
    """Two zones' texts begin alike.

    A narrow display shows the beginning only, and at night that is all anybody reads out.
    """
    limit = papers.profile.limits[UNIQUE]
    first = amount(limit.value, "")
    text_of = {one.field: one.text for one in results.texts}
    for one in results.texts:
        if one.like:
            yield Hit(one.field, f'"{one.text}" begins like "{text_of[one.like]}": of the first {first} characters none differs.',
                      _proposed(one, papers),
                      (Value("text", one.text, "", one.field), Value("the other", text_of[one.like], "", one.like),
                       Value("alike", beginning(one.text, int(limit.value)).upper(), "", "both texts"),
                       Value("must differ within", first, "characters", papers.profile.source_of(UNIQUE).cited())))


@rule("text-names-person", Severity.ASK, source=PRACTICE, needs=(PEOPLE,),
      reads=("people.customer.name", "people.keyholders.*.name"),
      compares="the words of each zone's text with those of the names in people.yaml",
      mends=NAMELESS)
def text_names_person(papers: Papers, results: Results) -> Iterator[Hit]:
    """A zone's text names a person.

    It is read out by strangers and stands on keypads, labels and the station's sheet: who sleeps where is nobody's business.
    """
    # Whoever is called Hall does not make the hall a person's room.
    names = _names(papers) - ordinary_words()
    for one in results.texts:
        said = [word for word in _words(one.text) if {word, word.removesuffix("S")} & names]
        if said:
            yield Hit(one.field, f'"{one.text}" holds {sentence_list([f"“{word}”" for word in said])}, part of a name in people.yaml.',
                      NAMELESS, (Value("text", one.text, "", one.field),))


@rule("text-names-child", Severity.ASK, source=PRACTICE,
      compares="the words of each zone's text with words for a child",
      mends=NAMELESS)
def text_names_child(papers: Papers, results: Results) -> Iterator[Hit]:
    """A zone's text tells where a child sleeps.

    Everybody who sees keypad, label or sheet learns it, and the texts outlive the child's stay in that room.
    """
    for one in results.texts:
        said = [word for word in _words(one.text) if word in CHILD_WORDS]
        if said:
            yield Hit(one.field, f'"{one.text}" says {sentence_list([f"“{word}”" for word in said])}.', NAMELESS,
                      (Value("text", one.text, "", one.field),))


def _words(text: str) -> list[str]:
    return re.findall(r"[^\W\d_]+", text.replace("'", "").replace("’", "").upper())


def _names(papers: Papers) -> set[str]:
    people = papers.people
    whole = (people.customer.name, *(one.name for one in people.keyholders.values()))
    return {word for name in whole for word in _words(name) if len(word) >= SHORTEST_NAME and word not in NO_NAMES}

