"""people.yaml: all personal data of a job, and the only place where it stands."""
from typing import Annotated

from generator.model.entry import Entry
from generator.model.fields import Day, Flag, Key, Phone, Text, Whole, within
from generator.model.formats import format_of


class Person(Entry):
    """The customer."""

    name: Text
    """Name."""
    telephone: Phone
    """Telephone number."""
    address: list[Text] = []
    """Address of the premises, a line each."""
    grid_reference: Text | None = None
    """Reference on the map, for a house that is hard to find."""


class Keyholder(Entry):
    """Somebody who can come when the alarm sounds."""

    name: Text
    """Name."""
    telephone: Phone
    """Telephone number."""
    other_telephone: Phone | None = None
    """A second telephone number."""
    relation: Text | None = None
    """What they are to the customer."""
    lives_here: Flag | None = None
    """true if they live in the house."""
    arrives_min: Annotated[Whole, within(0, 600)] | None = None
    """How long they need to get there."""
    has_key: Flag | None = None
    """true if they hold a key."""
    can_unset: Flag | None = None
    """true if they can turn the alarm on and off."""
    trained_on: Day | None = None
    """When they were shown the system."""
    agreed_on: Day | None = None
    """When they agreed to be listed."""
    away: Text | None = None
    """When they cannot come."""


class People(Entry):
    """Names, telephone numbers and the address. Every page builds without this file."""

    format: format_of("people")
    """Number of the format that the file is written in."""
    customer: Person
    """Who ordered the work."""
    keyholders: dict[Key, Keyholder] = {}
    """Who is called, in the order in which they are called."""
