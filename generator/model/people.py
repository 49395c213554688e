"""people.yaml: all personal data of a job, and the only place where it stands."""
from generator.model.entry import Entry
from generator.model.fields import Key, Phone, Text
from generator.model.formats import format_of


class Person(Entry):
    """The customer."""

    name: Text
    """Name."""
    telephone: Phone
    """Telephone number."""
    address: list[Text] = []
    """Address of the premises, a line each."""


class Keyholder(Entry):
    """Somebody who can come when the alarm sounds."""

    name: Text
    """Name."""
    telephone: Phone
    """Telephone number."""


class People(Entry):
    """Names, telephone numbers and the address. Every page builds without this file."""

    format: format_of("people")
    """Number of the format that the file is written in."""
    customer: Person
    """Who ordered the work."""
    keyholders: dict[Key, Keyholder] = {}
    """Who is called, in the order in which they are called."""
