"""The company that does the work."""
from generator.model.construction import Construction
from generator.model.entry import Entry
from generator.model.equipment import Part
from generator.model.fields import Day, Decimal, Key, Phone, Text
from generator.model.formats import format_of
from generator.model.label_sheet import LabelSheet


class Licence(Entry):
    """A licence or certificate of the company."""

    name: Text
    """What it is and who gave it."""
    number: Text
    """Its number."""
    valid_to: Day
    """The last day on which it is valid."""


class OwnLimit(Entry):
    """A limit of the profile that this company sets otherwise. Its unit and its meaning stay the profile's."""

    value: Decimal
    """The company's number, in the profile's unit."""
    because: Text
    """Why the company departs from the profile."""
    by: Text | None = None
    """Who decided it, as a role."""


class Kept(Entry):
    """Something that the company keeps about a customer."""

    what: Text
    """What is kept."""
    how_long: Text
    """For how long."""


class Company(Entry):
    """company.yaml: who does the work."""

    format: format_of("company")
    """Number of the format that the file is written in."""
    name: Text
    """Name of the company."""
    telephone: Phone
    """Number in working hours."""
    out_of_hours: Phone
    """Number at all other times."""
    data_contact: Text
    """Whom to ask about personal data, as a role."""
    false_alarms: Text | None = None
    """Who answers for false alarms, as a role."""
    keeps: list[Kept] = []
    """What is kept about customers, and for how long."""
    spares: list[Part] = []
    """What goes into every van besides the parts of the job."""
    licences: list[Licence] = []
    """Licences and certificates."""
    constructions: dict[Key, Construction] = {}
    """Walls, floors and doors as the company builds or measured them; they count before those of the profile."""
    limits: dict[Key, OwnLimit] = {}
    """Limits of the profile that the company sets otherwise, by their names there."""
    label_sheet: LabelSheet | None = None
    """The sheet of labels that the company prints on, if it is another than 24 on A4 or 30 on Letter."""
