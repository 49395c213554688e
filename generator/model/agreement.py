"""What was found and agreed before the day: the customer's order, the survey, who lives there, what happened before, what comes after."""
from typing import Annotated

from generator.model.entry import Entry
from generator.model.fields import Day, Decimal, Flag, Key, Text, Whole, choice, within


class LeftOut(Entry):
    """Something that the customer agreed to leave without detection."""

    what: Text
    """What is left out, for example "window of the bathroom"."""
    why: Text
    """Why."""
    by: Text
    """Who agreed it, as a role."""
    on: Day
    """When it was agreed in writing."""


class Agreement(Entry):
    """The customer's order, in facts."""

    decided_by: Text
    """Who may order the work, as a role."""
    tenure: choice("owner", "tenant", "landlord", "agent")
    """What that person is to the house."""
    signed_on: Day | None = None
    """When the order was signed."""
    signed_at: choice("home", "premises-of-the-company", "distance") | None = None
    """Where it was signed: in the customer's home, at the company's, or by post, telephone or web."""
    early_start_on: Day | None = None
    """When the customer asked in writing to begin before the cancellation period ends."""
    work_on: Day | None = None
    """First day of work in the house."""
    in_use_on: Day | None = None
    """The day on which the system is to come into use."""
    insurer: choice("none", "stated", "not-known")
    """Whether the insurer asks for an alarm: `stated` if the condition was seen in writing, `not-known` while nobody has asked."""
    insurer_condition: Text | None = None
    """What the insurer asks for, in a line."""
    term_months: Annotated[Whole, within(0, 240)] | None = None
    """How long the contract for maintenance and monitoring binds the customer."""
    left_out: list[LeftOut] = []
    """What is left without detection, each agreed in writing."""


class Assumption(Entry):
    """Something that the plan was made on, and what was found instead."""

    assumed: Text
    """What the survey found or took for granted."""
    found: Text | None = None
    """What it is now, if it is something else."""
    on: Day | None = None
    """When that was found."""


class Survey(Entry):
    """The survey that the plan stands on."""

    on: Day
    """When the house was surveyed."""
    by: Text
    """Who surveyed it, as a role."""
    contents: list[Text] = []
    """Kinds of things worth taking, as classes; no sums and no places."""
    influences: list[Text] = []
    """What could disturb detectors or radio, inside and outside."""
    assumptions: dict[Key, Assumption] = {}
    """What the plan rests on, by a short name: pets, building work, broadband, who sleeps where."""


class Animal(Entry):
    """An animal, or several of a kind, that is in the house while the alarm is set."""

    mass_kg: Annotated[Decimal, within(0.01, 200)]
    """Mass of the heaviest of them."""


class Household(Entry):
    """The people of the house, without naming anybody."""

    slowest: choice("fit", "slow", "frail") | None = None
    """How the slowest of those who turn the alarm on and off walks, by the profile's three speeds; without it, `slow` counts."""
    language: Key | None = None
    """Language of the main user, by its short form: en, cy, de."""
    animals: dict[Key, Animal] = {}
    """Animals that are in the house while the alarm is set, by a short name such as dog."""


class PartSet(Entry):
    """A way of setting part of the system while somebody is at home."""

    name: Text
    """What people of the house call it."""
    when: Text
    """When they use it, in everyday words."""


class FalseCall(Entry):
    """A false call to the police or the guard in the last years."""

    on: Day
    """When it was."""
    kind: choice("intruder", "hold-up")
    """What the station reported."""
    cause: Text | None = None
    """What caused it, in classes: user, equipment, installation, environment, communications, unknown."""


class History(Entry):
    """What happened before this job."""

    false_calls: list[FalseCall] = []
    """Every false call that is known, in any order."""


class Handover(Entry):
    """Facts of the handover that the office knows."""

    authority_changed: Flag | None = None
    """true if the installer's own authority was changed from the state in which the unit was delivered."""
    changed_on: Day | None = None
    """When it was changed."""
    changed_by: Text | None = None
    """By whom, as a role."""


class Visit(Entry):
    """One service visit, planned or made."""

    on: Day
    """Its day."""
    remote: Flag = False
    """true if it is done from afar."""


class Service(Entry):
    """Maintenance as agreed."""

    every_months: Annotated[Whole, within(1, 60)]
    """Months from one service to the next."""
    visits: list[Visit] = []
    """Visits that have a day, planned or made."""
