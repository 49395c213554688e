"""Keyholders. Row 23 of the trade's list of failures: one keyholder, who lives with the customer.

Two who do not live there and are there in 20 minutes: national police policy, 2015 (read second-hand).
"""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, lacking, put
from tests.rule_cases.texts import nobody
from tests.rule_cases.times import not_monitored

AT = ("people.keyholders",)


def holder(name: str, **keys):
    """What the people's file says of a keyholder; None takes a key out."""
    return both(*(put("people", "keyholders", name, key, value=value) for key, value in keys.items()))


def only_first(files: Files) -> None:
    del files["people"]["keyholders"]["second"]


def third(minutes: str | None):
    return put("people", "keyholders", "third", value={"name": "Leopold Quillfeather", "telephone": "07700 900464", "lives_here": "false",
                                                       **({"arrives_min": minutes} if minutes else {})})


INSIDE = both(only_first, holder("first", lives_here="true"))
FEW = (Said(INSIDE, AT, ("1 keyholder, of whom 1 lives in the house; 2 from outside are wanted.",),
            ("keyholders 1, live here 1, from outside 0, at least 2",), "another who lives elsewhere"),
       Said(only_first, AT, ("1 keyholder; 2 from outside are wanted.",), ("keyholders 1, live here 0, from outside 1, at least 2",)),
       # Even if the one of whom it is not known lived elsewhere they would be too few.
       Said(both(holder("first", lives_here=None), holder("second", lives_here="true")), AT,
            ("2 keyholders, of whom 1 lives in the house; 2 from outside are wanted.",),
            ("keyholders 2, live here 1, from outside 1, at least 2",)))
NOT_KNOWN = (holder("first", lives_here=None), "people.yaml does not say whether first lives in the house")
LATE = (Said(holder("second", arrives_min="45"), AT,
             ("Second needs 45 min; 20 min is the longest time until a keyholder is there, and 1 other keyholder can be there by then where 2 are "
              "wanted.",), ("second needs 45 min, at most 20 min, in time 1, at least 2",), "who lives nearer"),
        Said(both(holder("first", arrives_min="21"), holder("second", arrives_min="45")), AT,
             ("First needs 21 min and second needs 45 min; 20 min is the longest time until a keyholder is there, and 0 other keyholders can be "
              "there by then where 2 are wanted.",), ("first needs 21 min, second needs 45 min, at most 20 min, in time 0, at least 2",)),
        # Even if the one of whom it is not known were quick, they would be too few.
        Said(both(holder("first", arrives_min=None), holder("second", arrives_min="45")), AT,
             ("Second needs 45 min; 20 min is the longest time until a keyholder is there, and 1 other keyholder can be there by then where 2 are "
              "wanted.",), ("second needs 45 min, at most 20 min, in time 1, at least 2",)))
# Two are in time, whatever the third needs.
IN_TIME = (holder("first", arrives_min="20"), both(holder("second", arrives_min="45"), third("20")), third(None))
NO_TIME = (holder("first", arrives_min=None), "people.yaml does not say how long first needs to get there")
NOBODY = (nobody, "there is no people.yaml")


def audible(case):
    """The same case for a system that only sounds."""
    if isinstance(case, Said):
        return Said(both(not_monitored, case.change), case.at, case.says, case.values, case.do)
    return (both(not_monitored, case[0]), case[1]) if isinstance(case, tuple) else both(not_monitored, case)


CASES = {
    "keyholders-few": Cases(
        speaks=FEW, clear=(holder("second", relation="sister"), audible(INSIDE)),
        unchecked=(NOBODY, NOT_KNOWN, *lacking("keyholders_least"))),
    "keyholders-few-audible": Cases(
        speaks=tuple(map(audible, FEW)), clear=(not_monitored, INSIDE),
        unchecked=tuple(map(audible, (NOBODY, NOT_KNOWN, *lacking("keyholders_least"))))),
    "keyholders-late": Cases(
        speaks=LATE, clear=(*IN_TIME, audible(holder("second", arrives_min="45")), holder("first", lives_here="true", arrives_min="0")),
        unchecked=(NOBODY, NO_TIME, *lacking("keyholders_least", "keyholder_attend_min"))),
    "keyholders-late-audible": Cases(
        speaks=tuple(map(audible, LATE)), clear=(*map(audible, IN_TIME), holder("second", arrives_min="45")),
        unchecked=tuple(map(audible, (NOBODY, NO_TIME, *lacking("keyholders_least", "keyholder_attend_min"))))),
    "keyholder-cannot-act": Cases(
        speaks=(Said(holder("first", has_key="false", can_unset="false"), ("people.keyholders.first",),
                     ("Keyholder first has no key and cannot unset the system.",), ("has_key false, can_unset false",), "Give them a key"),
                Said(holder("second", can_unset="false"), ("people.keyholders.second",), ("Keyholder second cannot unset the system.",),
                     ("can_unset false",))),
        clear=(holder("first", has_key="true"), holder("first", lives_here="true", has_key="false")),
        unchecked=(NOBODY,)),
}
