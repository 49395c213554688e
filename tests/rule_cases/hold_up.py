"""Hold-up units: two actions, a place that was agreed. Montgomery County (Maryland) police, installation standards: two actions (read);
the rest: common practice, no source."""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, lacking, put


def button(**keys):
    """A hold-up unit in the bedroom; `two` is what its sheet says of two actions."""

    def change(files: Files) -> None:
        two = keys.get("two", "true")
        files["equipment"]["tern-hu"] = files["equipment"]["tern-dc"] | {"kind": "hold-up"} | ({"two_action": two} if two else {})
        device = {"sheet": "tern-hu", "room": "bedroom", "role": "hold-up", "text": "BED HOLD-UP", "serial": "00A500",
                  "position": keys.get("position", "beside the bed"), "height_m": keys.get("height_m", "0.7")}
        files["job"]["devices"]["H1"] = {key: value for key, value in device.items() if value is not None}
        if files["job"].get("monitoring"):
            files["job"]["monitoring"]["permits"] = {"police": {"covers": "all", "by": "police", "since": "2026-09-07"}}

    return change


def fob_key(files: Files) -> None:
    """The fob's own key calls for help."""
    files["equipment"]["tern-fob"] |= {"inputs": [{"name": "hold-up key"}], "two_action": "true"}
    files["job"]["devices"]["F1"] |= {"role": "hold-up", "text": "FOB HOLD-UP"}
    files["job"]["monitoring"]["permits"] = {"police": {"covers": "all", "by": "police", "since": "2026-09-07"}}


CHILDREN = put("job", "premises", "children", value="true")

CASES = {
    "hold-up-one-action": Cases(
        # One action where two are wanted.
        speaks=(Said(button(two="false"), ("job.devices.H1.sheet",), ("H1 asks for 1 action; 2 separate ones are wanted.",),
                     ("actions 1, at least 2",), "two at once"),),
        clear=(button(),),
        unchecked=((button(two=None), "the sheet tern-hu does not say whether two actions are needed"),
                   *((both(button(), change), reason) for change, reason in lacking("holdup_actions")))),
    "hold-up-place": Cases(
        speaks=(Said(button(position=None), ("job.devices.H1.position",), ("No place is given for H1.",), ("place none, children false",),
                     "reached unseen"),
                Said(both(CHILDREN, button(height_m=None)), ("job.devices.H1.height_m",),
                     ("No height is given for H1; children live here or visit often.",), ("height none, children true",), "out of children's reach"),
                Said(both(CHILDREN, button(position=None, height_m=None)), ("job.devices.H1.position",),
                     ("No place and no height is given for H1; children live here or visit often.",),
                     ("place none, height none, children true",))),
        clear=(button(height_m=None), both(CHILDREN, button()), both(CHILDREN, fob_key))),
}
