"""Equipment sheets: what a device is, what it takes and how it is handled. Written by the company from its own papers."""
from typing import Annotated

from generator.model.entry import Entry
from generator.model.fields import Decimal, Flag, Note, Text, Whole, choice, within
from generator.model.formats import format_of
from generator.model.ratings import (BatteryBox, Charger, Coverage, Environment, LinkScale, Power, Radio, SerialForm, Sound)

CLASSES = ("control-unit", "contact", "movement", "glass-break", "shock", "smoke", "heat", "carbon-monoxide", "water",
           "temperature", "hold-up", "medical", "keypad", "reader", "sounder", "fob", "tag", "repeater")


class Input(Entry):
    """One sensing circuit of a device; each that is used takes a zone."""

    name: Text
    """What it senses, for example "reed" or "terminal for a wired contact"."""
    optional: Flag = False
    """true if the input is used only where the job says `use_input_2: true`."""


class Part(Entry):
    """Something that goes into the van with each unit."""

    item: Text
    """What it is, for example "4 x 30 mm screw, brown plug"."""
    count: Whole
    """How many for one unit."""


class Terminal(Entry):
    """A place where a wire is joined."""

    name: Text
    """As it is marked on the unit."""
    wire: Text
    """What is joined there."""


class Handling(Entry):
    """Texts for the day. They may hold {id}, {number}, {zone}, {text}, {serial} and {room}."""

    enrol: Note
    """How the unit is made known to the control unit."""
    fix: Note
    """How it is fastened, and what to look at before and after."""
    test: Note
    """How it is made to signal on purpose."""
    change_cell: Note | None = None
    """How its cell or battery is changed."""


class Signal(Entry):
    """How a unit shows or sounds one thing, for the people of the house."""

    when: choice("leaving", "entering", "set", "unset", "part-set", "alarm", "fire", "carbon-monoxide", "fault", "weak-cell",
                 "mains-off", "refused")
    """What it tells."""
    sound: Text | None = None
    """What is heard, as a rhythm in words; leave out if nothing is."""
    light: Text | None = None
    """What is seen; leave out if nothing is."""


class Minutes(Entry):
    """How long the work on one unit takes."""

    check_min: Annotated[Decimal, within(0, 480)] | None = None
    """Signal check before drilling."""
    fix_min: Annotated[Decimal, within(0, 480)] | None = None
    """Fixing it."""
    enrol_min: Annotated[Decimal, within(0, 480)] | None = None
    """Enrolling it."""
    test_min: Annotated[Decimal, within(0, 480)] | None = None
    """Its tests."""


# No list of a control unit for homes comes near it; what is worked out grows with it.
LONGEST_LIST = 1000
Capacity = Annotated[Whole, within(0, LONGEST_LIST)]


class Lists(Entry):
    """How many of each kind the control unit can hold."""

    zones: Capacity
    """Zones."""
    slots: Capacity
    """Radio devices that report to zones."""
    wired_inputs: Capacity = 0
    """Wired circuits that it can watch itself; each takes a zone and no slot."""
    keypads: Capacity = 0
    """Keypads and readers."""
    sounders: Capacity = 0
    """Sounders, inside and outside together."""
    fobs: Capacity = 0
    """Fobs."""
    tags: Capacity = 0
    """Tags."""
    repeaters: Capacity = 0
    """Repeaters."""
    users: Capacity = 0
    """Users."""
    partitions: Capacity = 1
    """Partitions."""


class ZoneText(Entry):
    """What the control unit can show for a zone."""

    length: Annotated[Whole, within(1, 64)]
    """Characters at most."""
    alphabet: Text | None = None
    """Every character it can show, in a row; leave out if it can show any."""


class ControlUnit(Entry):
    """What only a control unit has."""

    lists: Lists
    """Capacity of each list."""
    slot_is_zone: Flag
    """true if a device's slot and its zone are always one number."""
    zone_text: ZoneText
    """Length and characters of a zone's text."""
    power_order: list[choice("loads", "mains", "battery")]
    """The order in which its supplies are joined."""
    power_order_reason: Text
    """Why that order."""
    hops: Annotated[Whole, within(0, 8)] | None = None
    """Most repeaters that may stand one after the other between it and a unit."""
    event_log: Whole | None = None
    """Events that its log holds."""
    link_scale: LinkScale | None = None
    """How it shows the strength of a link."""
    battery_box: BatteryBox | None = None
    """Room for the standby battery."""
    charger: Charger | None = None
    """What fills the standby battery again."""


class Sheet(Entry):
    """One kind of equipment."""

    format: format_of("sheet")
    """Number of the format that the file is written in."""
    name: Text
    """What the company calls this kind of unit."""
    kind: choice(*CLASSES)
    """What it is, in the trade's word."""
    two_way: Flag
    """true if the unit also receives."""
    inputs: list[Input] = []
    """Its sensing circuits; for keypads, sounders, fobs and tags only keys or circuits that report to a zone of their own."""
    slots: Annotated[Whole, within(0, 8)] = 1
    """Slots that it takes; 0 for a unit wired to the control unit. Counts for what reports to zones and has no other list."""
    serial: SerialForm | None = None
    """What its serial looks like."""
    radio: Radio | None = None
    """How it sends and hears; leave out for a unit without radio."""
    power: Power
    """What it lives on."""
    environment: Environment | None = None
    """The climate it may stand in."""
    coverage: Coverage | None = None
    """What it takes in, for a detector that watches a space."""
    sound: Sound | None = None
    """How loud it is, for a sounder or a unit with one."""
    repeats: Annotated[Whole, within(1, 500)] | None = None
    """For a repeater: how many units it can carry."""
    life_years: Annotated[Whole, within(1, 50)] | None = None
    """Years after which the whole unit is replaced, counted from its making."""
    terminals: list[Terminal] = []
    """Where wires are joined. A sheet that lists any brings the wiring caution on its pages."""
    mounting_m: list[Annotated[Decimal, within(0, 12)]] = []
    """Lowest and highest height above the floor at which it may be fitted."""
    parts: list[Part] = []
    """What goes into the van with each unit."""
    tools: list[Text] = []
    """Tools that only this kind of unit asks for."""
    minutes: Minutes | None = None
    """How long the work on one unit takes; without it the usual times count."""
    two_action: Flag | None = None
    """For a hold-up unit: true if two actions at once are needed."""
    signals: list[Signal] = []
    """What it sounds and shows, for a unit that tells people something."""
    handling: Handling
    """How it is enrolled, fixed and tested."""
    control_unit: ControlUnit | None = None
    """For a control unit only: its lists, texts and power order."""
    everyday: Text
    """What it does, in a sentence for the people of the house."""
