"""A profile: limits, number blocks and words of one market, each limit with its source."""
from collections.abc import Mapping
from typing import Annotated

from generator.model.construction import Construction
from generator.model.entry import Entry
from generator.model.fields import Decimal, Key, Text, Whole, choice, within
from generator.model.formats import format_of
from generator.terms.show import amount, lower
from generator.terms.source import Known, Source

# A profile cites documents; only what a company sets in its own file is its own rule.
KNOWN = tuple(known.value for known in Known if known is not Known.OWN)
IN_PLACE = "In place of"
BLOCKS = ("entry", "route", "perimeter", "interior", "outbuildings", "all-hours", "hold-up", "fire")
# What steps and tests of every job are held against: a profile that lacks one of these cannot be used.
NEEDED_LIMITS = ("link_margin_db", "link_margin_main_db", "link_messages", "link_drift_db", "tamper_s", "background_min",
                 "mains_off_min", "current_off_percent", "slow_walk_steps", "ladder_from_m", "spare_percent")
# What steps and tests show besides, where a profile has it; it may lack any of these.
ASKED_LIMITS = ("animal_roam_min", "background_positions", "battery_age_months", "bedhead_dba", "bedroom_door_dba", "clock_off_min",
                "co_ceiling_mm", "co_far_m", "co_high_c", "co_low_c", "co_near_m", "co_wall_mm", "contact_gap_percent", "contact_opening_mm",
                "door_opening_mm", "fuse_a", "keypad_high_m", "keypad_low_m", "last_heard_percent", "link_margin_outbuilding_db", "link_move_m",
                "link_stable_s", "log_events", "metal_clear_m", "noise_test_m", "prevent_detector_yes", "repeater_margin_db", "report_reserve_min", "sounder_height_m",
                "sounder_inside_dba", "sounder_insurer_height_m", "sounder_outside_dba", "station_arrival_s", "steps_from_m", "stillness_min", "supervision_min",
                "time_reserve_factor", "walk_test_mps", "window_opening_mm", "wiring_zone_mm")


class Document(Entry):
    """A published document that limits are taken from."""

    title: Text
    """Number and title of the document."""
    edition: Text | None = None
    """Its edition."""


class Limit(Entry):
    """One number that something is compared with."""

    value: Decimal
    """The number."""
    unit: Text | None = None
    """Its unit; leave out for a count."""
    means: Text
    """What it limits, in words."""
    source: Key
    """The document it is from, by its key under `documents`."""
    known: choice(*KNOWN)
    """How the value is known."""
    through: Text | None = None
    """Where it was seen, if it was read second-hand."""
    because: Text | None = None
    """Why it replaces the limit of the profile that this one extends."""

    def shown(self) -> str:
        """The number with its unit, as people read it."""
        if self.unit == "yes or no":
            return "yes" if self.value else "no"
        return amount(self.value, self.unit or "", 6)


class Block(Entry):
    """A run of numbers in which one kind of zone stands together."""

    name: choice(*BLOCKS)
    """Its name."""
    means: Text
    """What stands in it, in words."""
    start: Annotated[Whole, within(1, 9999)] | None = None
    """The number it starts at, counted from the first."""
    start_from_end: Annotated[Whole, within(1, 9999)] | None = None
    """The number it starts at, counted back from the last."""
    spare: Whole = 0
    """Free numbers wanted at its end."""


class Words(Entry):
    """The market's own words for what the system does."""

    set: Text
    """To turn the whole alarm on."""
    unset: Text
    """To turn it off."""
    is_set: Text
    """The state after it was turned on."""
    is_unset: Text
    """The state after it was turned off."""
    part_set: Text
    """To turn part of the alarm on while somebody is at home."""
    is_part_set: Text
    """The state after part of it was turned on."""
    permit: Text
    """What police or council give to a system before they come."""
    emergency_number: Text
    """The number for emergencies."""


class ProfilePart(Entry):
    """A profile as its file says it: whole, or what is added to the one that it extends."""

    format: format_of("profile")
    """Number of the format that the file is written in."""
    extends: Key | None = None
    """The profile that this one adds to; its blocks and words are taken over unless given here."""
    name: Text
    """What it is called on pages."""
    edition: Text
    """Its own edition, so that a page can say what it was checked against."""
    documents: dict[Key, Document] = {}
    """The documents its limits are from."""
    limits: dict[Key, Limit] = {}
    """The limits, by name."""
    blocks: list[Block] = []
    """The blocks of zone numbers, in order."""
    words: Words | None = None
    """The market's words."""
    constructions: dict[Key, Construction] = {}
    """How walls, floors and doors are usually built there."""


class Profile(Entry):
    """One market's limits and habits, with those of the profiles it extends."""

    format: format_of("profile")
    """Number of the format that the file is written in."""
    name: Text
    """What it is called on pages."""
    edition: Text
    """Its own edition, so that a page can say what it was checked against."""
    documents: dict[Key, Document]
    """The documents its limits are from."""
    limits: dict[Key, Limit]
    """The limits, by name."""
    blocks: list[Block]
    """The blocks of zone numbers, in order."""
    words: Words
    """The market's words."""
    constructions: dict[Key, Construction] = {}
    """How walls, floors and doors are usually built there."""

    def source_of(self, limit: str) -> Source:
        """Where a limit comes from, ready to be cited."""
        entry = self.limits[limit]
        document = self.documents[entry.source]
        known = Known(entry.known)
        through = lower(entry.because or "") if known is Known.OWN else entry.through
        return Source(document.title, document.edition or "", known, through or "")

    def in_place_of(self, limit: str, reason: str) -> str:
        """The reason of another value for a limit, after what that value stands in place of."""
        return replacing(self.limits[limit], self.documents, reason)


def replacing(before: Limit, documents: Mapping[str, Document], reason: str) -> str:
    """What a limit stands in place of, with value and source, and then why; what it replaced itself is not forgotten."""
    document = documents[before.source]
    source = Source(document.title, document.edition or "", Known(before.known), before.through or "").cited()
    earlier = before.because or ""
    earlier = f" That stood {lower(earlier)}" if earlier.startswith(IN_PLACE) else ""
    return f"{IN_PLACE} {before.shown()} of {source}: {reason}{earlier}"
