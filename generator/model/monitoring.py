"""What was agreed with the monitoring station: account, paths, tests, response. No password, keyword or receiver address."""
from typing import Annotated

from generator.model.entry import Entry
from generator.model.fields import Account, Clock, Day, Decimal, Flag, Key, Phone, Text, Whole, choice, within

CATEGORIES = ("SP1", "SP2", "SP3", "SP4", "SP5", "SP6", "DP1", "DP2", "DP3", "DP4", "custom")


class TransmissionPath(Entry):
    """One way by which messages reach the station."""

    kind: choice("broadband", "mobile", "phone-line", "radio")
    """What carries it. `phone-line` is an analogue line."""
    router: Flag = False
    """true if it passes a router of the house."""
    standby_h: Annotated[Decimal, within(0, 1000)] | None = None
    """How long router or modem carries on when the mains fails; leave out for a path that the control unit itself feeds."""


class Permit(Entry):
    """What police, council or guard give to a system before they come: a police reference, a permit, a registration."""

    covers: choice("intruder", "hold-up", "all")
    """The alarms that it covers."""
    by: Text
    """Who gives it."""
    number: Text | None = None
    """Its number; leave out until it is given."""
    since: Day | None = None
    """The day on which it was given."""
    valid_to: Day | None = None
    """Its last day, if it has one."""


class Response(Entry):
    """What the station does when a kind of event arrives."""

    to: Text
    """The kind of event."""
    plan: Text
    """What is done, in order."""


class Monitoring(Entry):
    """What was agreed with the monitoring station."""

    station: Text
    """Name of the monitoring station."""
    telephone: Phone
    """The number that people of the house and installers call."""
    account: Account
    """Account identifier that the station gave for this job."""
    format: choice("dc-05", "dc-09") | None = None
    """Format in which events are sent: `dc-05` for the event format of SIA DC-05, `dc-09` for SIA DC-09 over IP."""
    test_interval_h: Annotated[Whole, within(1, 8784)] | None = None
    """Time between automatic tests."""
    test_at: Clock | None = None
    """Time of day of the automatic test."""
    agreed_test_interval_h: Annotated[Whole, within(1, 8784)] | None = None
    """Time between automatic tests that the monitoring agreement promises."""
    category_asked: choice(*CATEGORIES) | None = None
    """Category of the transmission that insurer, grade or police ask for (EN 50136-1)."""
    category_given: choice(*CATEGORIES) | None = None
    """Category of the transmission that is installed (EN 50136-1)."""
    paths: dict[Key, TransmissionPath] = {}
    """The ways by which messages reach the station, the first one first."""
    confirmation: choice("none", "sequential", "audible", "visual") | None = None
    """How an alarm is confirmed before the police are asked to come."""
    open_close: Flag | None = None
    """true if the station watches when the system is set and unset."""
    responses: list[Response] = []
    """What the station does, by kind of event."""
    verify: list[Text] = []
    """What the station does to verify an alarm, step by step."""
    shared: list[Text] = []
    """What the customer agreed to let the station know: a dog, a hearing loss, a difficult drive. No codes."""
    proof_agreed_on: Day | None = None
    """When customer and station agreed how a caller proves who they are. What was agreed stays with the two."""
    proof_agreed_by: Text | None = None
    """Who agreed it with the station, as a role."""
    may_change: Text | None = None
    """Who may change these data, as a role."""
    soak_days: Annotated[Whole, within(0, 90)] | None = None
    """Days after coming into use in which only keyholders are called."""
    permits: dict[Key, Permit] = {}
    """Police references, permits and registrations."""
