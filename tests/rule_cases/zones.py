"""Zones in part sets, omitted, in partitions, and those that confirm. Roles and part sets: common practice, no source; the confirming of
alarms: BS 8243 (from memory)."""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, lacking, put, with_limit

NIGHT = put("job", "part_sets", value={"night": {"name": "Night", "when": "everybody sleeps"}})


def device(name: str, key: str, value):
    return put("job", "devices", name, key, value=value)


def role(name: str, value: str):
    return device(name, "role", value)


def left_out(name: str):
    return both(NIGHT, device(name, "left_out_in", ["night"]))


def smoke(name: str):
    """The unit's sheet is that of a smoke unit."""

    def change(files: Files) -> None:
        files["equipment"]["tern-own"] = files["equipment"][files["job"]["devices"][name]["sheet"]] | {"kind": "smoke"}
        files["job"]["devices"][name]["sheet"] = "tern-own"

    return change


PARTITIONS = put("job", "partitions", value={"1": {"name": "House"}, "2": {"name": "Annexe"}})
MORE = put("equipment", "tern-cu32", "control_unit", "lists", "partitions", value="2")
TWO = both(PARTITIONS, MORE)


def annexe(files: Files) -> None:
    """The back door is the annexe's own way in, with a keypad there."""
    files["job"]["devices"]["D3"] |= {"role": "timed-entry", "partition": "2"}
    files["job"]["devices"]["K2"] = {"sheet": "tern-kp", "room": "kitchen", "serial": "00C021", "partition": "2"}


def confirmed(how: str, *units: str):
    return both(put("job", "monitoring", "confirmation", value=how), put("job", "times", "completes_by", value="final-door"),
                *(device(name, "confirms", "true") for name in units))


def by(what: str | None):
    return both(put("job", "monitoring", "confirmation", value="audible"), put("job", "times", "completes_by", value=what))


CASES = {
    "always-on-left-out": Cases(
        speaks=(Said(both(role("D2", "hold-up"), left_out("D2")), ("job.devices.D2.left_out_in",),
                     ("D2 is left out in night, and somebody who is threatened must reach help at any time.",),
                     ("role hold-up, left out in night",), "Take left_out_in: away"),
                Said(both(role("D2", "all-hours"), left_out("D2")), ("job.devices.D2.left_out_in",),
                     ("D2 is left out in night, and it is there to act whether the system is set or not.",),
                     ("role all-hours, left out in night",)),
                # A smoke unit with a role that hides it.
                Said(both(smoke("D2"), role("D2", "immediate"), left_out("D2")), ("job.devices.D2.left_out_in",),
                     ("D2 is left out in night, and fire does not wait until the house is empty.",), ("kind smoke, left out in night",))),
        clear=(left_out("D2"), role("D2", "fire"))),
    "always-on-omitted": Cases(
        speaks=(Said(both(role("D2", "carbon-monoxide"), device("D2", "omit", "true")), ("job.devices.D2.omit",),
                     ("A user may omit D2, and the gas takes those who are at home and asleep.",), ("role carbon-monoxide, omit true",),
                     "accept this with who agreed it"),),
        clear=(device("D2", "omit", "true"), role("D2", "carbon-monoxide"))),
    "entry-left-out": Cases(
        speaks=(Said(left_out("D1"), ("job.devices.D1.left_out_in",),
                     ("D1 watches a door by which people come in, and is left out in night.",), ("role timed-entry, left out in night",),
                     "Leave the door in the part set"),),
        clear=(left_out("D2"),)),
    "partition-without-entry": Cases(
        speaks=(Said(role("D1", "immediate"), ("job.devices",), ("The system has no zone with timed entry.",),
                     ("partition 1, timed entry none",), "role: timed-entry"),
                Said(both(TWO, annexe, role("D3", "immediate")), ("job.partitions.2",),
                     ("Partition 2, Annexe, has no zone with timed entry.",), ("partition 2, timed entry none",), "partition: 2")),
        clear=(both(TWO, annexe),)),
    "partition-without-keypad": Cases(
        speaks=(Said(put("job", "devices", "K1", value=None), ("job.devices",), ("The system has no keypad and no reader.",),
                     ("partition 1, keypads and readers none",), "say what it is unset with"),
                Said(both(TWO, annexe, device("K2", "partition", "1")), ("job.partitions.2",),
                     ("Partition 2, Annexe, has no keypad and no reader.",), ("partition 2, keypads and readers none",))),
        clear=(both(TWO, annexe), both(TWO, annexe, put("equipment", "tern-kp", "kind", value="reader")))),
    "cannot-confirm": Cases(
        speaks=(Said(confirmed("sequential"), ("job.monitoring.confirmation",), ("0 units may confirm; 2 are wanted.",),
                     ("confirmation sequential, may confirm none, off the entry route 0, at least 2",), "Write confirms: true"),
                Said(confirmed("sequential", "D3"), ("job.monitoring.confirmation",), ("1 unit may confirm (D3); 2 are wanted.",),
                     ("confirmation sequential, may confirm D3, off the entry route 1, at least 2",)),
                # The contact of the front door and the movement detector behind it.
                Said(confirmed("sequential", "D1", "D2"), ("job.monitoring.confirmation",),
                     ("2 units may confirm (D1 and D2); all of them stand on the entry route.",),
                     ("confirmation sequential, may confirm D1, D2, off the entry route 0, at least 2",))),
        clear=(confirmed("sequential", "D2", "D3"), confirmed("audible"), confirmed("none")),
        unchecked=tuple((both(confirmed("sequential", "D2", "D3"), change), reason) for change, reason in lacking("confirming_least"))),
    "setting-by-exit-time": Cases(
        speaks=(Said(by("exit-time"), ("job.times.completes_by",),
                     ("Setting is completed by the end of the exit time, and alarms are confirmed (audible).",),
                     ("completed by exit-time, confirmation audible, exit time allowed no",), "final door"),),
        clear=(by("final-door"), both(by("exit-time"), with_limit("confirmed_exit_time_yes", "1")),
               put("job", "times", "completes_by", value="exit-time")),
        unchecked=((by(None), "the job file does not say what completes setting"),
                   *((both(by("exit-time"), change), reason) for change, reason in lacking("confirmed_exit_time_yes")))),
}
