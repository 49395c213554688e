"""Users, fobs and tags. Row 16 of the trade's list of failures: five fobs, three users."""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, put


def fobs(number: int, users: dict[str, dict[str, str]]):
    """The job with so many fobs, F1 and on, and these users."""

    def change(files: Files) -> None:
        files["job"]["devices"] |= {f"F{one}": {"sheet": "tern-fob", "serial": f"00E5A{one}"} for one in range(1, number + 1)}
        files["job"]["users"] = {key: {"who": f"person {key}", **user} for key, user in users.items()}
        files["equipment"]["tern-cu32"]["control_unit"]["lists"] |= {"users": "6", "fobs": "8"}

    return change


def tag(files: Files) -> None:
    files["equipment"]["tern-tag"] = files["equipment"]["tern-fob"] | {"name": "Tern tag", "kind": "tag"}
    files["job"]["devices"]["T1"] = {"sheet": "tern-tag", "serial": "00E7A1"}


def no_keypad(files: Files) -> None:
    del files["job"]["devices"]["K1"]


THREE = {"1": {"fob": "F1"}, "2": {"fob": "F2"}, "3": {"fob": "F3"}}

CASES = {
    "credential-unassigned": Cases(
        speaks=(Said(fobs(5, THREE), ("job.users",), ("2 credentials of 5 without a person: F4 and F5.",),
                     ("without a person F4, without a person F5, with a person 3, fobs 5 of 8, users 3 of 6",), "do not enrol it"),
                Said(tag, ("job.users",), ("1 credential of 2 without a person: T1.",),
                     ("without a person T1, with a person 1, fobs 1 of 8, tags 1 of 8, users 2 of 16",))),
        clear=(fobs(3, THREE), both(tag, put("job", "users", "2", "tag", value="T1")))),
    "credential-shared": Cases(
        speaks=(Said(fobs(2, {"1": {"fob": "F1"}, "2": {"fob": "F2"}, "3": {"fob": "F1"}}), ("job.users.3.fob",),
                     ("F1 stands at users 1 and 3.",), ("user 1 F1, user 3 F1",), "Leave it with one"),),
        clear=(fobs(3, THREE),)),
    "user-without-credential": Cases(
        speaks=(Said(no_keypad, ("job.users.2.who",), ("User 2 has no fob and no tag, and no keypad is in the job.",),
                     ("fobs and tags none, keypads none",), "keys of its own"),),
        # With a keypad a code alone may be enough, and no file holds it.
        clear=(put("job", "users", "2", "fob", value=None), both(no_keypad, fobs(3, THREE)))),
    "fob-number-differs": Cases(
        speaks=(Said(fobs(2, {"1": {"fob": "F1"}, "4": {"fob": "F2"}}), ("job.users",), ("F2 has number 2, its user 4.",),
                     ("user 4 fob 2",), "number: 4 at F2"),),
        clear=(both(fobs(2, {"1": {"fob": "F1"}, "4": {"fob": "F2"}}), put("job", "devices", "F2", "number", value="4")),
               # Where the list of fobs is too short, equal numbers cannot be.
               both(fobs(2, {"1": {"fob": "F1"}, "4": {"fob": "F2"}}),
                    put("equipment", "tern-cu32", "control_unit", "lists", "fobs", value="3")))),
}
