"""The events of SIA DC-05 that a system for a home sends: code, meaning, and whether its number is a zone or a user.

Codes and numbers as in DC-05 (1999.09), read second-hand in the event table of an open-source library for telephone signals;
the meanings are in our words. Which code a zone of some role and kind sends, what is set off on the day and in which order
is common practice, no source: the control unit's own papers decide.
"""
from dataclasses import dataclass

from generator.terms.source import Known, Source

DC_05 = Source("SIA DC-05, event format of communicators", "1999.09", Known.SECOND_HAND,
               "the event table of an open-source library for telephone signals")
USE = Source("Which code is sent for what", "", Known.PRACTICE, "")

ZONE, USER, SYSTEM = "zone", "user", "system"


@dataclass(frozen=True)
class Event:
    """One event.

    `about` says whose number the message holds. `begins` and `ends` are what the operator reads for the qualifiers 1 and 3;
    "" for one that is not sent.
    """

    code: str
    means: str
    about: str
    begins: str = "alarm"
    ends: str = "restored"


_ALL = (
    Event("100", "medical call", ZONE),
    Event("110", "fire", ZONE),
    Event("111", "smoke", ZONE),
    Event("114", "heat", ZONE),
    Event("120", "hold-up", ZONE),
    Event("122", "hold-up, silent", ZONE),
    Event("123", "hold-up, audible", ZONE),
    Event("130", "intruder", ZONE),
    Event("131", "intruder, perimeter", ZONE),
    Event("132", "intruder, interior", ZONE),
    Event("133", "intruder, watched at all hours", ZONE),
    Event("134", "intruder, entry or exit", ZONE),
    Event("136", "intruder, outdoors", ZONE),
    Event("137", "tamper of the control unit", SYSTEM, "opened"),
    Event("144", "tamper of a detector", ZONE, "opened"),
    Event("150", "technical, watched at all hours", ZONE),
    Event("154", "water leak", ZONE),
    Event("158", "temperature too high", ZONE),
    Event("159", "temperature too low", ZONE),
    Event("162", "carbon monoxide", ZONE),
    Event("301", "house power", SYSTEM, "lost"),
    Event("302", "standby battery", SYSTEM, "low"),
    Event("344", "radio interference", SYSTEM, "begun"),
    Event("350", "path to the station", SYSTEM, "failed"),
    Event("374", "exit error, entry left open", ZONE, "found", ""),
    Event("377", "repeated-trip limit", ZONE, "reached"),
    Event("381", "radio supervision of a unit", ZONE, "lost"),
    Event("384", "cell of a unit", ZONE, "low"),
    Event("401", "turned on or off by a user", USER, "off (opening)", "on (closing)"),
    Event("406", "alarm cancelled by a user", USER, "sent", ""),
    Event("441", "turned on in part by a user", USER, "", "on (closing)"),
    Event("570", "zone left out by a user", ZONE, "left out", "takes part again"),
    Event("601", "test sent by hand", SYSTEM, "sent", ""),
    Event("602", "automatic test", SYSTEM, "sent", ""),
)
EVENTS = {one.code: one for one in _ALL}

# What a zone sends, by the kind of its unit or circuit; for all other kinds its role decides.
BY_KIND = {"smoke": "111", "heat": "114", "carbon-monoxide": "162", "water": "154", "medical": "100"}
BY_ROLE = {"timed-entry": "134", "entry-route": "132", "all-hours": "133", "technical": "150", "hold-up": "120", "medical": "100",
           "fire": "110", "carbon-monoxide": "162"}
ENTRY_EXIT = BY_ROLE["timed-entry"]
# What an immediate zone sends, by where it is; the last also stands for a zone whose role is not given.
PERIMETER, INTERIOR, OUTDOORS, INTRUDER = "131", "132", "136", "130"
HOLD_UP = {"silent": "122", "audible": "123"}
TOO_HIGH, TOO_LOW = TEMPERATURES = "158", "159"
# Words in the name of a temperature circuit that say which end it watches.
HIGH_WORDS = frozenset(("HIGH", "HOT", "HEAT", "WARM", "OVER", "UPPER"))
LOW_WORDS = frozenset(("LOW", "COLD", "FROST", "FREEZE", "FREEZING", "UNDER", "LOWER"))

TAMPER, OMITTED, TRIPS, EXIT_ERROR, UNHEARD, LOW_CELL = "144", "570", "377", "374", "381", "384"
OPEN_CLOSE, CANCEL, PART_SET = "401", "406", "441"
# Roles whose zones a user may omit, and which are left out when they trip too often: never what is watched at all times.
OMITTED_ROLES = ("timed-entry", "entry-route", "immediate")
EXIT_ROLES = ("timed-entry",)
# What the system sends besides, with neither zone nor user, in the order of the day.
SYSTEM_EVENTS = ("137", "301", "302", "344", "350", "601", "602")

# The state of the system in which something is done: any; unset, for what begins with setting; set with the exit time over; set, and
# an entry begins with it.
ANY, UNSET_FIRST, IS_SET, ENTRY = "any", "unset", "set", "entry"
STATES = (ANY, UNSET_FIRST, IS_SET, ENTRY)
# Roles whose zones alarm only while the system is set. All others act in any state.
SET_ROLES = {"timed-entry": ENTRY, "entry-route": IS_SET, "immediate": IS_SET}
# Where a zone has no role, what it sends says whether it alarms only while the system is set.
SIGNALS_WHEN_SET = (INTRUDER, PERIMETER, INTERIOR, OUTDOORS)

# What is done to bring an event about, the market's words put in; one that is missing here is not brought about on the day.
DONE = {
    "144": "Open the unit's case, then shut it.",
    "137": "Open the control unit's case, then shut it.",
    "301": "Switch the mains off and note the time; when its loss was read back, switch it on again.",
    "350": "Take the path's lead off, then put it back.",
    "601": "Send the test by hand.",
    "602": "Wait for the automatic test.",
    "401": "{set}, then {unset}.",
    "441": "{part_set}, then {unset}.",
    "570": "Omit the zone, {set} and {unset}, and let it take part again.",
}
SET_OFF = "Make the unit signal as its test says."
DONE_SET, DONE_UNSET = "{set}, stay inside and still until the exit time is over.", "{unset}."
MAINS, CONTROL_TAMPER, PATH_LOST, TEST_BY_ITSELF = "301", "137", "350", "602"
# Why an event is not brought about on the day, and who answers for it.
UNTRIED = {
    "302": "nobody runs a battery flat on the day; the step that loads the battery shows its fault, and the company's services go on from there",
    "344": "nobody may disturb the band; the step on interference reads what the control unit says of it",
    "374": "the entry would have to stand open through the exit time; the company, at the first one that the station reports",
    "377": "the zone would be left out of all that follows; the company, at the first one that the station reports",
    "381": "it takes as long as a unit may be silent; the step on silence tries one unit, and whoever does it lets the station read it back then",
    "384": "no new cell is weak; the company, when the first one is reported",
}
