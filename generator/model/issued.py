"""What was issued for a job, revision by revision: written by `doorpost issue`, read by every command, edited by nobody."""
import re
from typing import Annotated, Any

from pydantic import BeforeValidator, WithJsonSchema

from generator.model.entry import Entry
from generator.model.fields import Day, Key, Name, Note, Serial, Text, Whole, choice, refuse, shown, within
from generator.model.lists import LISTS


HASH, HASH_DO = "[0-9a-f]{16}(?:[0-9a-f]{48})?", "Write 16 or 64 of 0 to 9 and a to f."
PATH, PATH_DO = r"[a-z0-9][a-z0-9/_-]{0,99}\.html", "Write its path, for example d/k7cd.html."


def _print(value: Any) -> str:
    if not isinstance(value, str) or not re.fullmatch(HASH, value):
        raise refuse(f"{shown(value)} is no hash.", HASH_DO)
    return value


def _pack_path(value: Any) -> str:
    if not isinstance(value, str) or not re.fullmatch(PATH, value):
        raise refuse(f"{shown(value)} is no page of a pack.", PATH_DO)
    return value


def _schema(pattern: str, do: str, example: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "pattern": f"^{pattern}$", "patternErrorMessage": do, "examples": [example]})


Print = Annotated[str, BeforeValidator(_print), _schema(HASH, HASH_DO, "9f86d081884c7d65")]
PackPath = Annotated[str, BeforeValidator(_pack_path), _schema(PATH, PATH_DO, "d/k7cd.html")]
Number = Annotated[Whole, within(1, 9999)]
HELD = (*LISTS, "slots")


class HeldNumber(Entry):
    """One number that is taken."""

    list: choice(*HELD)
    """The list of the control unit; slots only where slot and zone are not one number."""
    number: Number
    """The number."""
    device: Name | None = None
    """The unit that has it."""
    input: Text | None = None
    """The input of the unit that reports to this zone."""
    text: Text | None = None
    """The text shown for it, or whose it is."""
    reference: Name | None = None
    """The unit's short reference."""
    sheet: Key | None = None
    """The unit's equipment sheet."""
    serial: Serial | None = None
    """The unit's serial, as far as it was known."""
    since: Number
    """The revision in which it was given."""
    why: Note
    """Why it was this number, when it was given."""
    hash: Print
    """Hash of this row without since, why and the hash itself."""


class RestingNumber(Entry):
    """A number that stays empty because its unit was removed."""

    list: choice(*HELD)
    """The list of the control unit."""
    number: Number
    """The number."""
    device: Name
    """The unit that had it, and gets it back if it returns in time."""
    since: Number
    """The revision in which the unit went."""
    until: Day | None = None
    """The first day on which it may be given again; left out where the profile says no time."""


class Fingerprints(Entry):
    """The fingerprint of what each reader may see."""

    installer: Print
    """The installer's."""
    homeowner: Print
    """The homeowner's."""
    station: Print
    """The monitoring station's."""
    record: Print
    """That of the company's record."""


class PagePrints(Entry):
    """The hash of what each page says, by reader and path; without revision, dates, fingerprint and people's data."""

    installer: dict[PackPath, Print]
    """The installer's pages."""
    homeowner: dict[PackPath, Print]
    """The homeowner's pages."""
    station: dict[PackPath, Print]
    """The station's page."""
    record: dict[PackPath, Print]
    """The pages of the company's record."""


class LabelPrints(Entry):
    """The hash of what each label says, by reader and short reference."""

    installer: dict[Name, Print]
    """Labels for inside the lids."""
    homeowner: dict[Name, Print]
    """Cards for the drawer."""


class LinkPrints(Entry):
    """The hash of the address that the codes on labels open, by reader."""

    installer: Print
    """On labels for inside the lids."""
    homeowner: Print
    """On cards for the drawer."""


class StationPrints(Entry):
    """The hash of each line of the station's sheet."""

    zones: dict[Number, Print]
    """By zone."""
    partitions: dict[Number, Print]
    """By partition."""
    users: dict[Number, Print]
    """By user."""


class Revision(Entry):
    """What was issued on one day."""

    revision: Number
    """Its number: 1, 2, 3 and so on."""
    date: Day
    """The day of issue."""
    dated: Day
    """What the job file said under dated."""
    fingerprint: Print
    """The fingerprint of all that the files say."""
    audience_fingerprints: Fingerprints
    """The fingerprint of what each reader may see."""
    map: list[HeldNumber]
    """Every number that is taken: frozen from then on."""
    resting: list[RestingNumber] = []
    """Numbers of removed units that stay empty for a time."""
    other_references: dict[Name, Name]
    """Short references of units that have no number: the control unit, and units that are gone."""
    pages: PagePrints
    """What each page says."""
    labels: LabelPrints
    """What each label says."""
    links: LinkPrints
    """Where the codes on labels lead."""
    station_lines: StationPrints
    """What each line of the station's sheet says."""


class Issued(Entry):
    """Everything that was issued for a job."""

    format: choice("1")
    """Version of this form; 1."""
    reference: Name
    """The job's reference."""
    revisions: list[Revision]
    """Every revision, the first first."""
    check: Print
    """SHA-256 of every line above this one, so that a change by hand is seen."""

    @property
    def last(self) -> Revision:
        """The revision that counts."""
        return self.revisions[-1]
