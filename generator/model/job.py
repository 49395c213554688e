"""The job: one house, one system, one day."""
from typing import Annotated

from generator.model.accepted import Accepted
from generator.model.agreement import Agreement, Handover, History, Household, PartSet, Service, Survey
from generator.model.cable import Cable
from generator.model.entry import Entry
from generator.model.equipment import Sheet
from generator.model.fields import (Address, Day, Decimal, Flag, Key, Name, Note, PathName, Point, Serial, Text, Whole, choice,
                                    within)
from generator.model.formats import format_of
from generator.model.monitoring import Monitoring
from generator.model.premises import TRAFFIC, Premises

# The lists of a control unit in which numbers can be kept free.
KEEPABLE = ("zones", "slots", "keypads", "sounders", "fobs", "tags", "repeaters", "users")
EXISTING = tuple(name for name in KEEPABLE if name != "users")
ROLES = ("timed-entry", "entry-route", "immediate", "all-hours", "technical", "hold-up", "medical", "fire",
         "carbon-monoxide")


class RadioPath(Entry):
    """The straight way from a unit to the one that hears it, for a house without a plan."""

    distance_m: Annotated[Decimal, within(0.1, 500)]
    """How far."""
    walls: list[Key] = []
    """Constructions of the walls in between, one entry for each wall."""
    floors: list[Key] = []
    """Constructions of the floors in between, one entry for each floor."""


class ControlUnitPlace(Entry):
    """The control unit of this job and where it goes."""

    id: Name
    """Its name in this job, for example CU."""
    sheet: Key
    """Its equipment sheet."""
    room: Key
    """The room it stands in."""
    at_m: Point | None = None
    """Its place in the plan."""
    height_m: Annotated[Decimal, within(0, 12)] | None = None
    """Height of its middle above the floor."""
    position: Text | None = None
    """Where in the room, in words."""
    serial: Serial | None = None
    """Serial as printed on the unit; leave out until it is known."""
    battery_ah: Annotated[Decimal, within(0.1, 200)] | None = None
    """Capacity of the standby battery that is fitted; leave out for the one of its sheet."""
    battery_on: Day | None = None
    """Date on that battery."""


class Device(Entry):
    """One unit that is fitted or handed out."""

    sheet: Key
    """Its equipment sheet."""
    room: Key | None = None
    """The room it is fitted in, or `outside`."""
    protects: Key | None = None
    """The opening that it watches."""
    protects_2: Key | None = None
    """The opening that its second circuit watches; it may be the same."""
    role: choice(*ROLES) | None = None
    """What its zone does when it acts."""
    text: Text | None = None
    """The zone's text as keypad and monitoring station show it."""
    text_2: Text | None = None
    """The text of its second zone."""
    use_input_2: Flag = False
    """true if its optional input is used: a contact's second circuit, a fob's hold-up key."""
    number: Annotated[Whole, within(1, 9999)] | None = None
    """Its number in its list, if it must be this one and no other; with two numbers, the first."""
    number_why: Text | None = None
    """Who wants this number, and why."""
    partition: Annotated[Whole, within(1, 9999)] | None = None
    """The partition it belongs to, by its number; leave out for the first."""
    next_to: Name | None = None
    """The unit of the same list whose number must lie beside its own."""
    serial: Serial | None = None
    """Serial as printed on the unit; leave out until it is known."""
    at_m: Point | None = None
    """Its place in the plan."""
    height_m: Annotated[Decimal, within(0, 12)] | None = None
    """Height above the floor."""
    faces_deg: Annotated[Decimal, within(0, 360)] | None = None
    """Where it looks in the plan: 0 away from the front, 90 to the right."""
    path: RadioPath | None = None
    """The way of its radio, where no plan is given."""
    via: Name | None = None
    """The repeater through which it is heard; leave out if the control unit hears it directly."""
    from_socket: Flag = False
    """true for a unit with mains of its own that hangs on a socket, which anybody can switch off or unplug; else its supply is fixed."""
    position: Text | None = None
    """Where in the room, in words."""
    left_out_in: list[Key] = []
    """The part sets in which it does not act, by their names under part_sets."""
    omit: Flag = False
    """true if a user may leave it out for one setting."""
    chime: Flag = False
    """true if the keypad chimes when it acts while the system is unset."""
    confirms: Flag = False
    """true if its alarm may confirm that of another zone."""
    signal: choice("silent", "audible") | None = None
    """For a hold-up unit: whether anything is heard in the house when it is used."""
    traffic: choice(*TRAFFIC) | None = None
    """How often it acts, if otherwise than its room."""
    replace_by: Day | None = None
    """Date on the unit after which it must be replaced."""
    called: Text | None = None
    """What the people of the house call it; without it, the kind of unit and the room."""
    note: Note | None = None
    """Anything the installer must know about this unit; a few lines of plain text or Markdown."""


def watched(device: Device) -> list[str]:
    """The openings that a unit watches, that of its second circuit last."""
    return [key for key in (device.protects, device.protects_2) if key]


class Reserved(Entry):
    """Numbers of one list that stay free."""

    list: choice(*KEEPABLE)
    """The list of the control unit; slots only where slot and zone are not one number."""
    first: Annotated[Whole, within(1, 9999)]
    """The first number that stays free."""
    last: Annotated[Whole, within(1, 9999)] | None = None
    """The last number that stays free; leave out if it is only one."""
    why: Text
    """What they are kept for."""

    @property
    def end(self) -> int:
        """The last number, given or not."""
        return self.first if self.last is None else self.last


class Partition(Entry):
    """A part of the house that is set and unset apart from the others."""

    name: Text
    """What people of the house call it."""


class ExistingNumber(Entry):
    """A number that was taken on the system before this job."""

    list: choice(*EXISTING)
    """The list of the control unit; slots only where slot and zone are not one number."""
    number: Annotated[Whole, within(1, 9999)]
    """The number; of a unit with two, the first."""
    device: Name | None = None
    """The unit under devices that has it; leave out if something has it that is no part of this job."""
    text: Text | None = None
    """The text as found on the keypad."""
    serial: Serial | None = None
    """The serial as found on the unit."""
    note: Text | None = None
    """What else was found, or could not be."""


class Freed(Entry):
    """The number of a removed unit that may be given again before its time."""

    list: choice(*EXISTING)
    """The list of the control unit."""
    number: Annotated[Whole, within(1, 9999)]
    """The number."""
    why: Text
    """Why it need not rest any longer, for example that the station has the new table."""


class User(Entry):
    """One authority to set and unset, by its number."""

    who: Text
    """Role or alias, never a person's name."""
    fob: Name | None = None
    """The fob that belongs to this user."""
    tag: Name | None = None
    """The tag that belongs to this user."""


class Times(Entry):
    """The times the system is to be programmed with."""

    entry_s: Annotated[Whole, within(0, 600)]
    """From opening the entry door until the alarm."""
    exit_s: Annotated[Whole, within(0, 600)]
    """From setting until the alarm is on."""
    sounder_min: Annotated[Whole, within(0, 600)]
    """How long the outside sounder runs."""
    inside_sounder_min: Annotated[Whole, within(0, 600)] | None = None
    """How long sounders inside run."""
    report_delay_s: Annotated[Whole, within(0, 600)] | None = None
    """How long the report of an alarm on entry is held after the sounders started."""
    abort_s: Annotated[Whole, within(0, 600)] | None = None
    """How long an alarm can be cancelled before it is reported, where the market has such a window."""
    trips: Annotated[Whole, within(1, 99)] | None = None
    """Repeated-trip limit: after so many alarms of one zone in one setting it is left out."""
    mains_report_min: Annotated[Whole, within(0, 1440)] | None = None
    """How long a mains failure lasts before it is reported."""
    completes_by: choice("exit-time", "final-door", "button", "tag", "lock") | None = None
    """What completes setting: the end of the exit time, the final door, a button outside, a tag or a lock."""


class Publish(Entry):
    """Where the packs are put for phones to open; without an address, QR codes hold the short reference."""

    address: Address | None = None
    """The web address under which the path names lie."""
    installer: PathName | None = None
    """Random path name of the installer's pack."""
    homeowner: PathName | None = None
    """Random path name of the homeowner's pack."""
    station: PathName | None = None
    """Random path name of the station's page."""
    record: PathName | None = None
    """Random path name of the company's record."""


class Job(Entry):
    """One job file."""

    format: format_of("job")
    """Number of the format that the file is written in."""
    reference: Name
    """The company's reference for this job."""
    title: Text
    """What the job is called on every page; an alias, not an address."""
    dated: Day
    """The day for which everything that depends on a date is worked out."""
    kind: choice("new", "takeover", "extension")
    """What kind of job it is: a takeover or an extension starts with the numbers under existing."""
    profile: Key
    """The set of limits and words it is checked against."""
    control_unit: ControlUnitPlace
    """The control unit and its place."""
    premises: Premises
    """The house."""
    devices: dict[Name, Device]
    """Every unit besides the control unit, by its name in this job."""
    reserved: list[Reserved] = []
    """Numbers that stay free."""
    partitions: dict[Annotated[Whole, within(1, 9999)], Partition] = {}
    """Parts that are set apart from one another, by number; leave out if the whole house is one."""
    existing: list[ExistingNumber] = []
    """For a takeover or an extension: every number that is taken on the system as found. They stay as they are."""
    freed: list[Freed] = []
    """Numbers of removed units that need not rest any longer."""
    users: dict[Annotated[Whole, within(1, 9999)], User]
    """Every authority, by its number."""
    times: Times
    """Times to be programmed."""
    part_sets: dict[Key, PartSet] = {}
    """Ways of setting part of the system while somebody is at home, by a short name."""
    cables: dict[Name, Cable] = {}
    """Runs of cable that feed units, by a short name."""
    agreement: Agreement | None = None
    """The customer's order."""
    survey: Survey | None = None
    """The survey that the plan stands on."""
    household: Household | None = None
    """The people of the house, without naming anybody."""
    history: History | None = None
    """What happened before this job."""
    handover: Handover | None = None
    """Facts of the handover that the office knows."""
    service: Service | None = None
    """Maintenance as agreed."""
    monitoring: Monitoring | None = None
    """Agreement with the monitoring station; leave out if the system only sounds."""
    publish: Publish | None = None
    """Where the packs are put."""
    accepted: list[Accepted] = []
    """Findings that are accepted, each with who, when and why."""
    equipment: dict[Key, Sheet] = {}
    """Sheets that only this job uses; the others stand in equipment/."""
    note: Note | None = None
    """Anything the installer must know about this job; a few lines of plain text or Markdown."""
