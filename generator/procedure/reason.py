"""What was written of a difference: is it a reason, and of what? Only what somebody wrote is one; what the phone notes by itself never is."""
import unicodedata
from collections.abc import Iterable, Mapping

from generator.calc.found import Same, Thing
from generator.model.found import COULD_NOT, FILLED, TAKEN_OUT, FoundEntry
from generator.procedure.asked import NOT_READ, STEP, WITHOUT_REASON

# How notes begin that no person wrote.
BY_ITSELF = tuple(one.strip() for one in (WITHOUT_REASON, NOT_READ, FILLED, TAKEN_OUT))
# Letters by their kind that nobody sees (Unicode Standard, Default_Ignorable_Code_Point; from memory).
BLANK_LETTERS = "\N{HANGUL CHOSEONG FILLER}\N{HANGUL JUNGSEONG FILLER}\N{HANGUL FILLER}\N{HALFWIDTH HANGUL FILLER}"
UNSEEN_KINDS = ("Cc", "Cf", "Cs", "Cn", "Co")


def seen(text: str) -> str:
    """A text less what nobody sees of it."""
    return "".join(one for one in text if one not in BLANK_LETTERS and (one in "\n\t" or unicodedata.category(one) not in UNSEEN_KINDS)).strip()


def legible(text: str) -> bool:
    """Whether something can be read in a text: a letter or a digit."""
    return any(map(str.isalnum, seen(text)))


def reason_in(entry: FoundEntry) -> str:
    """The reason that a person wrote at an entry; "" where nothing stands that can be read, or only what the phone or the office put there."""
    return entry.note.strip() if legible(entry.note) and not seen(entry.note).startswith(BY_ITSELF) else ""


def reasons(entries: Iterable[FoundEntry]) -> str:
    """Every reason once, in the order in which they stand."""
    return "; ".join(dict.fromkeys(filter(None, map(reason_in, entries))))


class Whys:
    """The reasons of everything that was written down."""

    def __init__(self, found: Mapping[Same, Thing]):
        self.found = found
        self.steps: dict[str, list[FoundEntry]] = {}
        for (_, step, what), thing in found.items():
            if what == STEP:
                self.steps.setdefault(step, []).extend(one for one in thing.last if one.result == COULD_NOT)

    def of(self, same: Same, entry: FoundEntry) -> str:
        """The reason of an entry: its own note, that of another phone which says the same, or why its step could not be done."""
        return reasons((*self.found[same].claiming(entry), *self.steps.get(same[1], ())))

    def of_all(self, device: str, step: str, starts: tuple[str, ...]) -> str:
        """The reasons at whatever begins in one of these ways of a unit's step, and why that step could not be done."""
        own = [thing for (unit, at, what), thing in self.found.items() if (unit, at) == (device, step) and what.startswith(starts)]
        return reasons((*(one for thing in own for one in thing.last), *self.steps.get(step, ())))
