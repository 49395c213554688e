"""The manual's page of words: severities, signal words, the words of the trade, the words of each market."""
import ast
import inspect
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from generator.model.profile import Profile, Words
from generator.pages.page import Page
from generator.procedure.safety import Word
from generator.procedure.step import Fact
from generator.rules.finding import Severity
from generator.tables.glossary import GLOSSARY
from generator.tables.sources import SIGNAL_WORDS
from generator.terms.show import capital
from generator.terms.source import Known

# What happens to whoever does not heed the message: the sense of the document that is cited beside them.
SIGNALS = {Word.DANGER: "Death or serious injury will follow if it is ignored.",
           Word.WARNING: "Death or serious injury could follow if it is ignored.",
           Word.CAUTION: "Minor or moderate injury could follow if it is ignored.",
           Word.NOTICE: "Nobody is hurt; something may be damaged, or not work."}
MARKS = {Known.READ: "The document itself was read.",
         Known.SECOND_HAND: "Another text was read that quotes or sums up the document; where it matters, that text is named.",
         Known.MEMORY: "It was written down from memory of the document, and read nowhere while this was written.",
         Known.PRACTICE: "The habit of the trade; there is no document.",
         Known.OWN: "The company set it in its own file, and says why."}


@dataclass(frozen=True)
class TermView:
    """A word of the trade."""

    word: str
    means: str
    also: str


@dataclass(frozen=True)
class MarketView:
    """The words of one profile: what is said there for what is meant."""

    name: str
    words: tuple[Fact, ...]


@dataclass(frozen=True)
class WordsView:
    """Every word that has a meaning of its own here."""

    severities: tuple[Fact, ...]
    signals: tuple[Fact, ...]
    signals_from: str
    marks: tuple[Fact, ...]
    terms: tuple[TermView, ...]
    markets: tuple[MarketView, ...]


def words_page(profiles: Mapping[str, Profile]) -> Page:
    """The page."""
    severities = tuple(Fact(one.value, text) for one, text in said_under(Severity).items())
    return Page("words.html", "Words", "manual/words.html.j2", WordsView(
        severities, tuple(Fact(one.value, text) for one, text in SIGNALS.items()), f"{SIGNAL_WORDS.cited()}.",
        tuple(Fact(one.value, text) for one, text in MARKS.items()),
        tuple(TermView(one.word, f"{capital(one.means)}.", "; ".join(one.also)) for one in GLOSSARY),
        tuple(MarketView(profile.name, _market(profile.words)) for profile in profiles.values())))


def _market(words: Words) -> tuple[Fact, ...]:
    return tuple(Fact((field.description or "").rstrip("."), getattr(words, name)) for name, field in Words.model_fields.items())


def said_under(kind: type[StrEnum]) -> dict[StrEnum, str]:
    """What stands under each word of a list in the program's source."""
    body = ast.parse(inspect.getsource(kind)).body[0].body
    return {kind[one.targets[0].id]: " ".join(text.value.value.split()) for one, text in zip(body, body[1:])
            if isinstance(one, ast.Assign) and isinstance(text, ast.Expr)}
