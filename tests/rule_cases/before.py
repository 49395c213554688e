"""False calls, and what the survey took for granted.

A warning at 2 false calls in 12 months, response withdrawn at 3, at 2 for hold-up: national police policy, 2013 (read second-hand).
"""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, lacking, put
from tests.rule_cases.times import not_monitored

AT = ("job.history.false_calls",)


def calls(*on: str, kind: str = "intruder"):
    """The false calls before this job, which is dated 14 September 2026."""

    def change(files: Files) -> None:
        files["job"].setdefault("history", {"false_calls": []})["false_calls"] += [{"on": day, "kind": kind} for day in on]

    return change


def takeover(files: Files) -> None:
    files["job"] |= {"kind": "takeover", "existing": [{"list": "zones", "number": "1", "device": "D1"}]}


def found(value: str | None, **more):
    return put("job", "survey", "assumptions", value={"pets": {"assumed": "an old dog", **({"found": value} if value else {}), **more}})


CASES = {
    "false-calls-reached": Cases(
        # A call of 14 September 2025 does not count on 14 September 2026 any more; one of the 15th does.
        speaks=(Said(calls("2025-09-15", "2026-01-10", "2026-09-14"), AT,
                     ("3 false intruder calls within 12 months (15 Sep 2025, 10 Jan 2026 and 14 Sep 2026); at 3 response is withdrawn.",),
                     ("alarms intruder, false calls 3, withdrawn at 3, counted over 12 months",), "Find and mend the cause"),
                Said(calls("2026-03-01", "2026-04-01", kind="hold-up"), AT,
                     ("2 false hold-up calls within 12 months (1 Mar 2026 and 1 Apr 2026); at 2 response is withdrawn.",),
                     ("alarms hold-up, false calls 2, withdrawn at 2, counted over 12 months",))),
        clear=(calls("2025-09-14", "2026-01-10", "2026-09-14"), calls("2026-01-10", "2026-03-01", "2026-09-15"),
               both(calls("2026-01-10", "2026-03-01"), calls("2026-04-01", kind="hold-up")),
               both(not_monitored, calls("2026-01-10", "2026-03-01", "2026-04-01")), calls()),
        unchecked=((takeover, "the job file holds no history"),
                   *lacking("false_calls_withdrawn", "holdup_calls_withdrawn", "false_call_window_months"))),
    "false-calls-near": Cases(
        # 3 - 1 = 2, and a warning is due at 2; the older call counts until 10 January 2027.
        speaks=(Said(calls("2026-01-10", "2026-09-14"), AT,
                     ("2 false intruder calls within 12 months (10 Jan 2026 and 14 Sep 2026); at 3 response is withdrawn, and a warning is written "
                      "at 2. From 10 Jan 2027 on one less counts.",),
                     ("alarms intruder, false calls 2, withdrawn at 3, counted over 12 months",), "before the system is set again"),
                Said(calls("2026-08-31", kind="hold-up"), AT,
                     ("1 false hold-up call within 12 months (31 Aug 2026); at 2 response is withdrawn. From 31 Aug 2027 on one less counts.",),
                     ("alarms hold-up, false calls 1, withdrawn at 2, counted over 12 months",))),
        # Of a system that was taken over the history is known; a new one needs none.
        clear=(both(takeover, calls("2026-01-10")), calls("2026-01-10"), calls("2025-09-14", "2026-01-10"),
               calls("2025-12-01", "2026-01-10", "2026-09-14")),
        unchecked=((takeover, "the job file holds no history"),
                   *lacking("false_calls_withdrawn", "holdup_calls_withdrawn", "false_call_window_months"))),
    "assumption-changed": Cases(
        speaks=(Said(found("two cats", on="2026-09-10"), ("job.survey.assumptions.pets.found",),
                     ("Pets: the plan was made on “an old dog”; “two cats” was found on 10 Sep 2026.",),
                     ("assumed an old dog, found two cats",), "Go through the plan"),),
        clear=(found(None), found("an  old dog")),
        unchecked=((put("job", "survey", value=None), "the job file holds no survey"),)),
}
