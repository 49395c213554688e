"""Services and what must last until the next one. The demo job comes into use on 14 September 2026, with a service every 6 months.

The months before and after a due month: NSI bulletin 68 (read). Every 6 months where a station listens: CLC/TS 50131-7 (from memory).
"""
from tests.rule_cases.case import Cases, Said, both, put, with_limit, without_limit
from tests.rule_cases.times import not_monitored


def service(every: str = "6", *visits: str, remote: str = "false"):
    return put("job", "service", value={"every_months": every, "visits": [{"on": one, "remote": remote} for one in visits]})


def dated(on: str):
    return put("job", "dated", value=on)


NO_DAY = put("job", "agreement", "in_use_on", value=None)
NOT_KNOWN = "no day on which the system comes into use is given; write in_use_on under agreement"
FIRST = "service 1, is due in Mar 2027, from 1 Feb 2027 to 30 Apr 2027"
MEANS = "longest time between two services of a monitored system, one of two may be from a distance"


def permit(to: str):
    return put("job", "monitoring", "permits", "police", "valid_to", value=to)


def licence(to: str):
    return put("company", "licences", value=[{"name": "Coastal Register", "number": "CR-1", "valid_to": to}])


CASES = {
    "service-interval-long": Cases(
        speaks=(Said(service("12"), ("job.service.every_months",), (f"One service every 12 months is agreed; 6 months is the {MEANS}.",),
                     ("agreed 12 months, at most 6 months",), "Agree one every 6 months or sooner."),
                Said(both(not_monitored, service("13")), ("job.service.every_months",),
                     ("One service every 13 months is agreed; 12 months is the longest time between two services of a system without monitoring.",),
                     ("agreed 13 months, at most 12 months",))),
        clear=(service("6"), service("3"), both(not_monitored, service("12"))),
        unchecked=((both(without_limit("service_months"), service("12")), "the profile has no limit service_months"),)),
    "service-out-of-month": Cases(
        speaks=(Said(service("6", "2027-06-05"), ("job.service.visits.0.on",), (f"The visit on 5 Jun 2027 is on time for no service; the nearest, {FIRST}.",),
                     ("visit 5 Jun 2027, not before 1 Feb 2027, not after 30 Apr 2027, in use from 14 Sep 2026",),
                     "Move it to a day from 1 Feb 2027 to 30 Apr 2027."),
                # One day too late, one too early; the visit between them is in time. Before the first service there is none.
                Said(service("6", "2027-05-01", "2027-03-09", "2027-07-31", "2026-10-01"),
                     tuple(f"job.service.visits.{index}.on" for index in (0, 2, 3)),
                     (f"The visit on 1 May 2027 is on time for no service; the nearest, {FIRST}.",
                      "The visit on 31 Jul 2027 is on time for no service; the nearest, service 2, is due in Sep 2027, from 1 Aug 2027 to 31 Oct 2027.",
                      f"The visit on 1 Oct 2026 is on time for no service; the nearest, {FIRST}."),
                     ("visit 1 May 2027, not before 1 Feb 2027, not after 30 Apr 2027, in use from 14 Sep 2026",
                      "visit 31 Jul 2027, not before 1 Aug 2027, not after 31 Oct 2027, in use from 14 Sep 2026",
                      "visit 1 Oct 2026, not before 1 Feb 2027, not after 30 Apr 2027, in use from 14 Sep 2026")),
                # An interval that was agreed shorter counts.
                Said(service("4", "2027-03-09"), ("job.service.visits.0.on",),
                     ("The visit on 9 Mar 2027 is on time for no service; the nearest, service 1, is due in Jan 2027, from 1 Dec 2026 to 28 Feb 2027.",),
                     ("visit 9 Mar 2027, not before 1 Dec 2026, not after 28 Feb 2027, in use from 14 Sep 2026",))),
        clear=(service("6", "2027-02-01", "2027-04-30", "2027-08-01"), service("6"), put("job", "service", value=None)),
        unchecked=((both(NO_DAY, service("6", "2027-03-09")), NOT_KNOWN),
                   (both(with_limit("service_window_months", "0.5"), service("6", "2027-03-09")),
                    "the limit service_window_months is 0.5, and only whole ones can be counted"),
                   (both(with_limit("service_window_months", "3"), service("6", "2027-03-09")),
                    "window_months 3: 0 or more, and less than half of 6, is wanted"))),
    "service-missed": Cases(
        speaks=(Said(both(dated("2027-05-01"), service()), ("job.service.visits",),
                     ("Service 1 was due in Mar 2027, up to 30 Apr 2027, and the job file names no visit in its time.",),
                     ("visit none, not before 1 Feb 2027, not after 30 Apr 2027",), "Write the visit down if it was made"),
                # The last one counts: what was missed before was followed by one that was not.
                Said(both(dated("2027-11-01"), service("6", "2027-03-02")), ("job.service.visits",),
                     ("Service 2 was due in Sep 2027, up to 31 Oct 2027, and the job file names no visit in its time.",),
                     ("visit 2 Mar 2027, not before 1 Aug 2027, not after 31 Oct 2027",))),
        clear=(both(dated("2027-04-30"), service()), both(dated("2027-05-01"), service("6", "2027-04-30")),
               both(dated("2027-11-01"), service("6", "2027-09-30")), both(dated("2027-05-01"), put("job", "service", value=None))),
        unchecked=((both(NO_DAY, service()), NOT_KNOWN),
                   (both(with_limit("service_window_months", "0.5"), service()),
                    "the limit service_window_months is 0.5, and only whole ones can be counted"))),
    "permit-ends-before-service": Cases(
        speaks=(Said(permit("2027-03-30"), ("job.monitoring.permits.police.valid_to",),
                     ("police reference “police” of police of the county ends on 30 Mar 2027, before the month of the next service, Mar 2027, is over.",),
                     ("last day 30 Mar 2027, next service Mar 2027",), "Have it renewed"),),
        # What has ended by the day of coming into use is another rule's.
        clear=(permit("2027-03-31"), permit("2026-09-13"), NO_DAY)),
    "licence-ends-before-service": Cases(
        speaks=(Said(licence("2027-03-30"), ("company.licences.0.valid_to",),
                     ("licence “Coastal Register” of the company ends on 30 Mar 2027, before the month of the next service, Mar 2027, is over.",),
                     ("last day 30 Mar 2027, next service Mar 2027",)),),
        clear=(licence("2027-03-31"), licence("2026-09-13"))),
    "unit-past-date": Cases(
        speaks=(Said(put("job", "devices", "D1", "replace_by", value="2026-09-13"), ("job.devices.D1.replace_by",),
                     ("D1 was to be replaced by 13 Sep 2026.",), ("replace by 13 Sep 2026, then over",), "Fit a new"),
                # It must last until the system comes into use.
                Said(both(put("job", "agreement", "in_use_on", value="2026-10-01"), put("job", "devices", "D1", "replace_by", value="2026-09-20")),
                     ("job.devices.D1.replace_by",), ("D1 was to be replaced by 20 Sep 2026.",), ("replace by 20 Sep 2026, then over",))),
        clear=(put("job", "devices", "D1", "replace_by", value="2026-09-14"),)),
}
