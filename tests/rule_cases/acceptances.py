"""Acceptances that hold no more."""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, put, without_limit


def accepted(at: str = "times.entry_s", rule: str = "entry-time-long", on: str = "2026-09-01",
             values: str = "programmed 60 s, limit 45 s"):
    """The job with an acceptance; what it is for is left to other changes."""

    def change(files: Files) -> None:
        files["job"].setdefault("accepted", []).append({
            "rule": rule, "at": at, "values": values, "who": "surveyor", "on": on, "why": "A wheelchair takes that long."})

    return change


SIXTY = put("job", "times", "entry_s", value="60")

CASES = {
    "acceptance-unused": Cases(
        speaks=(Said(accepted(), ("job.accepted.0",),
                     ("entry-time-long was accepted at times.entry_s on 1 Sep 2026 and does not speak there.",),
                     ("accepted at times.entry_s, found at none",), "It finds nothing in this job."),
                Said(both(SIXTY, accepted("times.exit_s")), ("job.accepted.0",),
                     ("entry-time-long was accepted at times.exit_s on 1 Sep 2026 and does not speak there.",),
                     ("accepted at times.exit_s, found at times.entry_s",), "It speaks at times.entry_s.")),
        # One that lapsed is told at the finding; where the rule could not be asked, nobody knows.
        clear=(both(SIXTY, accepted()), both(SIXTY, accepted(values="programmed 50 s, limit 45 s")),
               both(without_limit("entry_max_s"), accepted()))),
}
