"""What counts of all that was written down on site? Entries are joined by their ids; of the same thing the later of a phone counts."""
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.model.found import FoundEntry, counter_of, phone_of

Same = tuple[str, str, str]


@dataclass(frozen=True)
class Thing:
    """One thing that was written down: what counts of each phone, and what each phone wrote of it before.

    `now` is what is shown first; `others` is what other phones have that says something else: a conflict, which nobody but people can end. `agreed`
    is what other phones have that says the same as `now`: with a name, a time and a note of its own.
    """

    now: FoundEntry
    others: tuple[FoundEntry, ...] = ()
    earlier: tuple[FoundEntry, ...] = ()
    agreed: tuple[FoundEntry, ...] = ()

    @property
    def counts(self) -> tuple[FoundEntry, ...]:
        """Everything that some phone holds to be so."""
        return (self.now, *self.others)

    @property
    def last(self) -> tuple[FoundEntry, ...]:
        """The last word of each phone."""
        return (self.now, *self.agreed, *self.others)

    def claiming(self, one: FoundEntry) -> tuple[FoundEntry, ...]:
        """The last words that claim what an entry claims, its own first."""
        return (one, *(other for other in self.last if other is not one and says(other) == says(one)))


def contradicted(held: Iterable[FoundEntry], coming: Iterable[FoundEntry]) -> tuple[str, ...]:
    """The ids of coming entries that are held with other content."""
    known = {one.id: one for one in held}
    return tuple(dict.fromkeys(one.id for one in coming if known.get(one.id, one) != one))


class TwoContents(Exception):
    """One id with other content at two places; the argument is the id."""


def joined(*parts: Iterable[FoundEntry]) -> tuple[FoundEntry, ...]:
    """The union of entries by their ids, in one order whatever the order of the parts. Raises TwoContents."""
    found: dict[str, FoundEntry] = {}
    for one in (one for part in parts for one in part):
        if found.setdefault(one.id, one) != one:
            raise TwoContents(one.id)
    return tuple(sorted(found.values(), key=_order))


def fresh(held: Iterable[FoundEntry], coming: Iterable[FoundEntry]) -> tuple[FoundEntry, ...]:
    """Those of the coming entries that are not held yet. Raises TwoContents."""
    known = {one.id: one for one in held}
    return tuple(one for one in joined(known.values(), coming) if one.id not in known)


def by_phone(entries: Iterable[FoundEntry]) -> Mapping[str, tuple[FoundEntry, ...]]:
    """Entries by the phone that wrote them, in the phone's own order."""
    found: dict[str, list[FoundEntry]] = {}
    for one in joined(entries):
        found.setdefault(phone_of(one), []).append(one)
    return {phone: tuple(own) for phone, own in found.items()}


def _order(one: FoundEntry) -> tuple[str, int, str]:
    """By phone, then by the phone's own counter; never by the clock, which can be wrong."""
    return phone_of(one), counter_of(one), one.id


def things(entries: Iterable[FoundEntry]) -> Mapping[Same, Thing]:
    """Everything that was written down, by unit, step and thing."""
    written: dict[Same, list[FoundEntry]] = {}
    for one in joined(entries):
        written.setdefault((one.device, one.step, one.what), []).append(one)
    return {same: _thing(every) for same, every in written.items()}


def _thing(every: list[FoundEntry]) -> Thing:
    last = {phone_of(one): one for one in every}
    first = next(iter(last.values()))
    others = tuple(one for one in last.values() if says(one) != says(first))
    agreed = tuple(one for one in last.values() if one is not first and says(one) == says(first))
    return Thing(first, others, tuple(one for one in every if last[phone_of(one)] is not one), agreed)


def says(one: FoundEntry) -> tuple[str, str, str]:
    """What an entry claims, so that two phones can agree: letters and blanks of a value do not count as other."""
    return " ".join(one.value.split()).casefold(), one.unit, one.result
