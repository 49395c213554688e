"""Permits, licences, the right to cancel, the insurer.

14 days from the day after a contract made in the home: Consumer Contracts Regulations 2013 (read second-hand); three business days, Sundays
and federal holidays not counted: 16 CFR 429 (from memory).
"""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, lacking, put, with_limit
from tests.rule_cases.hold_up import button
from tests.rule_cases.times import not_monitored

PERMITS = ("job.monitoring.permits",)
DO = "until it is given tell the customer that nobody is sent"


def agreed(**keys):
    return both(*(put("job", "agreement", key, value=value) for key, value in keys.items()))


def permit(**keys):
    one = {"covers": "intruder", "by": "police of the county", "since": "2026-09-07"} | keys
    return put("job", "monitoring", "permits", value={"police": {key: value for key, value in one.items() if value}})


def licence(valid_to: str):
    def change(files: Files) -> None:
        files["company"]["licences"] = [{"name": "Register", "number": "CR-1", "valid_to": valid_to}]

    return change


def no_licence(files: Files) -> None:
    files["company"].pop("licences")


def business_days(files: Files) -> None:
    with_limit("cancellation_days", "3")(files)
    files["profiles"]["own"]["limits"]["cancellation_days"]["unit"] = "business days"


def no_agreement(files: Files) -> None:
    del files["job"]["agreement"]


def begun(signed: str, until: str, work: str, early: str = "none", more: str = "") -> tuple:
    return (("job.agreement.work_on",), (f"Signed on {signed}, the contract can be cancelled up to {until}; work begins on {work}{more}.",),
            (f"signed {signed}, cancelled up to {until}, work begins {work}, early start asked {early}",))


def ended(key: str, says: str, last: str) -> tuple:
    return (key,), (says,), (f"last day {last}, then over",)


CASES = {
    "permit-missing": Cases(
        speaks=(Said(put("job", "monitoring", "permits", value={}), PERMITS,
                     ("The system reports intruders, and no police reference covers intruder alarms.",),
                     ("alarms intruder, given none, wanted yes",), DO),
                Said(permit(since=None), ("job.monitoring.permits.police.since",),
                     ("The system reports intruders, and of the police reference that covers intruder alarms no day is given on which it was "
                      "given.",),
                     ("alarms intruder, given not yet, wanted yes",), DO),
                Said(both(button(), permit()), PERMITS, ("H1 calls for help, and no police reference covers hold-up alarms.",),
                     ("alarms hold-up, given none, wanted yes",), DO),
                Said(both(button(), permit(covers="hold-up")), PERMITS,
                     ("The system reports intruders, and no police reference covers intruder alarms.",),
                     ("alarms intruder, given none, wanted yes",))),
        clear=(both(button(), permit(covers="all")), not_monitored,
               both(put("job", "monitoring", "permits", value={}), with_limit("permit_wanted_yes", "0"))),
        unchecked=lacking("permit_wanted_yes")),
    "permit-ended": Cases(
        # The job is dated 14 September and comes into use that day.
        speaks=(Said(permit(valid_to="2026-09-13"), *ended("job.monitoring.permits.police.valid_to",
                     "Permit police by police of the county ends on 13 Sep 2026; it is wanted on 14 Sep 2026.", "13 Sep 2026"), "renewed"),
                Said(both(permit(valid_to="2026-09-20"), agreed(in_use_on="2026-10-01")), *ended("job.monitoring.permits.police.valid_to",
                     "Permit police by police of the county ends on 20 Sep 2026; it is wanted on 1 Oct 2026.", "20 Sep 2026"))),
        clear=(permit(valid_to="2026-09-14"), permit(), both(no_agreement, permit(valid_to="2026-09-14")))),
    "licence-ended": Cases(
        speaks=(Said(licence("2026-09-13"), *ended("company.licences.0.valid_to",
                     "Register, CR-1, ends on 13 Sep 2026; it is wanted on 14 Sep 2026.", "13 Sep 2026"), "before the certificate is printed"),),
        clear=(licence("2026-09-14"), no_licence)),
    "work-before-cancellation-end": Cases(
        # 17 August and 14 days: 31 August is the last; work may begin on the next.
        speaks=(Said(agreed(work_on="2026-08-31"), *begun("17 Aug 2026", "31 Aug 2026", "31 Aug 2026"), "ask in writing to begin early"),
                # Asked for after work had begun, it comes too late.
                Said(agreed(work_on="2026-08-20", early_start_on="2026-08-21"),
                     *begun("17 Aug 2026", "31 Aug 2026", "20 Aug 2026", "21 Aug 2026", "; the early start was asked for on 21 Aug 2026 only")),
                Said(agreed(work_on="2026-08-31", signed_at="distance"), *begun("17 Aug 2026", "31 Aug 2026", "31 Aug 2026")),
                # Friday 4 September; Saturday counts, Sunday and Labor Day on Monday do not: Saturday, Tuesday, Wednesday 9.
                Said(both(business_days, agreed(signed_on="2026-09-04", work_on="2026-09-09")), *begun("4 Sep 2026", "9 Sep 2026", "9 Sep 2026"))),
        clear=(agreed(work_on="2026-09-01"), agreed(work_on="2026-08-20", early_start_on="2026-08-20"),
               agreed(work_on="2026-08-20", signed_at="premises-of-the-company"),
               both(with_limit("cancellation_distance_yes", "0"), agreed(work_on="2026-08-20", signed_at="distance")),
               both(business_days, agreed(signed_on="2026-09-04", work_on="2026-09-10"))),
        unchecked=((no_agreement, "the job file holds no agreement"),
                   (agreed(work_on=None), "the agreement does not give work_on"),
                   (agreed(signed_on=None, signed_at=None), "the agreement does not give signed_on and signed_at"),
                   (with_limit("cancellation_days", "1.5"),
                    "end of the right to cancel: the limit cancellation_days is 1.5, and only whole ones can be counted"),
                   *lacking("cancellation_days", "cancellation_distance_yes"))),
    "insurer-not-known": Cases(
        speaks=(Said(agreed(insurer="not-known"), ("job.agreement.insurer",),
                     ("Nobody has asked yet whether the insurer wants an alarm, and which.",), ("insurer not-known, condition none",),
                     "condition in writing"),
                Said(agreed(insurer="stated"), ("job.agreement.insurer_condition",),
                     ("The insurer's condition was stated, and the job file does not say what it is.",), ("insurer stated, condition none",))),
        clear=(agreed(insurer="stated", insurer_condition="an alarm that reports"), agreed(insurer="none"),
               both(not_monitored, agreed(insurer="not-known"))),
        unchecked=((no_agreement, "the job file holds no agreement"),)),
}
