"""Words of the trade, what they mean here, and what others call the same. Meanings are common practice, no source.

The words of EN 50131 and of North America beside them are from memory of the documents.
"""
from dataclasses import dataclass


@dataclass(frozen=True)
class Term:
    """One word: what it means in this program, and what European standards and North America say instead."""

    word: str
    means: str
    also: tuple[str, ...] = ()


GLOSSARY: tuple[Term, ...] = (
    Term("abort, cancel", "to call an alarm off: before it was reported, or by a message after it", ("misoperation signal",)),
    Term("accepted finding", "a finding that the company decided to live with; who, when and why stand in the job file"),
    Term("access level", "what somebody may do at the system: 1 anybody, 2 users, 3 the installer with the user's leave, 4 the maker", ("authority",)),
    Term("account", "the identifier by which a monitoring station knows a system; it is no password"),
    Term("alarm system", "here always an intruder alarm; a fire system is another thing, with rules of its own",
         ("I&HAS", "IAS", "burglar alarm", "intrusion system")),
    Term("as-fitted document", "what says how a system was in fact built, place by place", ("as-built", "record drawing")),
    Term("communicator", "the part that sends messages to the station", ("supervised premises transceiver", "alarm transmission system")),
    Term("completion certificate", "the paper with which the company says that the work is done as agreed; this program leaves its blanks to people",
         ("certificate of compliance", "record of completion")),
    Term("confirmed alarm", "an alarm that a second one, a sound or a picture speaks for, so that police may be asked to come",
         ("verified alarm",)),
    Term("control unit", "the box that listens to all units, decides, and calls; the files name it `control_unit`",
         ("control panel", "control and indicating equipment", "panel")),
    Term("design proposal", "what the company offers before the order: what is protected, and what is not", ("scope", "contract drawing")),
    Term("detector, device", "a unit that notices something; every unit that is fitted or handed out is listed under `devices`", ("sensor",)),
    Term("duress", "setting or unsetting under threat, in a way that tells the station so silently", ("holdup code",)),
    Term("enrol", "to make a unit known to the control unit under its number", ("enroll", "learn")),
    Term("entry time", "from the opening of the entry door until the alarm, so that who belongs there can unset", ("entry delay",)),
    Term("entry route", "the way from the entry door to the keypad; what is fitted along it waits for the entry time once the door began it",
         ("follower",)),
    Term("environmental class", "the climate that a unit is made for, I to IV: indoors heated to outdoors", ("listed use",)),
    Term("exit time", "from the keypress until the alarm is on, so that who sets it can leave", ("exit delay",)),
    Term("false alarm", "an alarm without the danger that the system is there for", ("false dispatch",)),
    Term("fob", "a small transmitter that a user carries to set and unset", ("portable ACE", "remote control")),
    Term("grade", "how much resistance a system has to offer, 1 to 4; the profile says which is meant", ("security grade",)),
    Term("hold-up device", "a button or key by which a person under threat calls for help", ("panic button",)),
    Term("installer", "who fits the system; reads the installer's pack", ("engineer", "technician")),
    Term("interference indication", "the sign that radio is so disturbed that messages might not arrive", ("jamming", "RF jam")),
    Term("keyholder", "somebody with a key who comes when the station calls", ("contact", "responder")),
    Term("keypad, reader", "where users set and unset: by code, or by tag", ("ancillary control equipment", "arming station")),
    Term("log book", "the book of a system: every visit, alarm, fault and change", ("system record",)),
    Term("monitoring station", "where messages arrive day and night and people act on them",
         ("alarm receiving centre", "central station", "supervising station")),
    Term("notification option", "the set of sounders and transmission that a grade asks for; EN 50131-1 gives each a letter"),
    Term("omit", "to leave a zone out. Inhibited: for one setting. Isolated: until somebody takes it back in",
         ("inhibit, isolate", "bypass", "shunt")),
    Term("part-set", "to turn part of the alarm on while somebody is at home; each way of doing it stands under `part_sets`",
         ("arm stay", "arm home")),
    Term("partition", "a part of the house that is set and unset apart from the rest", ("sub-system", "area")),
    Term("path", "one way by which messages reach the station; two different ones are dual", ("transmission path", "SP, DP")),
    Term("permit", "what police or council give to a system before they come", ("unique reference number", "registration number")),
    Term("primary cell", "a battery that is used up and changed, as in wireless units", ("type C supply", "battery")),
    Term("repeated-trip limit", "after so many alarms of one zone in one setting it is left out, so that it cannot call all night"),
    Term("repeater", "a unit that passes on what units too far away say"),
    Term("service", "preventive work at fixed intervals; corrective work is what a fault calls for", ("maintenance", "inspection")),
    Term("set, unset", "to turn the alarm on, and off; the profile says which words a market uses", ("arm, disarm",)),
    Term("setting", "the way from the keypress to the alarm being on", ("final setting", "arming")),
    Term("signal margin", "by how much a radio signal is stronger than it would have to be", ("reserve of attenuation",)),
    Term("slot", "the number of a radio unit in the control unit's list of radio units", ("device number",)),
    Term("soak period", "the first days, or days after much trouble, in which only keyholders are called", ("soak test", "acclimation")),
    Term("sounder", "what makes the noise, outside or inside", ("warning device", "siren")),
    Term("standby battery", "the rechargeable battery that carries the control unit when the mains fails", ("storage device",)),
    Term("supervision", "the messages that units send at even intervals, so that silence is noticed", ("monitoring of interconnections", "check-in")),
    Term("tag", "a small thing without a battery that is held to a reader to set and unset", ("digital key", "proximity tag")),
    Term("tamper", "interference with a unit: a lid opened, a unit torn off its wall"),
    Term("user", "one authority to set and unset, by its number; a role, never a name", ("user code",)),
    Term("walk test", "walking through every detector's view and opening every contact, to see that each is noticed under its number"),
    Term("zone", "one number under which the control unit shows an input, with its text", ("circuit", "point")),
)
