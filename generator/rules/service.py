"""Do services come as often as they must, in their time, and does what must hold last until then?"""
from collections.abc import Iterator

from generator.calc.days.calendar import due_of, service_number
from generator.calc.days.job_dates import given_of
from generator.calc.days.service import AUDIBLE, MONITORED, WINDOW, Due, interval_name, on_time
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.rules.asked import AS_OF, limit_text, limited
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.permits import day_wanted
from generator.rules.registry import Need, NotChecked, Where, rule
from generator.tables.sources import PRACTICE, SHEET
from generator.terms.show import count, day, month

EVERY, VISITS, IN_USE = "job.service.every_months", "job.service.visits", "job.agreement.in_use_on"
SERVICED = Where("services are agreed", lambda papers: papers.job.service is not None)
VISITED = Where("a visit for a service has a day", lambda papers: papers.job.service is not None and bool(papers.job.service.visits))
USED = Where("it is known when the system comes into use", lambda papers: papers.job.agreement is not None and papers.job.agreement.in_use_on is not None)
DATED = Where("a unit bears a day by which it is replaced", lambda papers: any(one.replace_by for one in papers.job.devices.values()))
COMES_INTO_USE = Need("the day of coming into use", lambda papers, results: "" if USED.holds(papers) else
                      "no day on which the system comes into use is given; write in_use_on under agreement")
BULLETIN = "NSI bulletin 68, timing of maintenance (read): the month of coming into use stays the base of every due month"
LICENCES = ("company.licences.*.name", "company.licences.*.valid_to")


@rule("service-interval-long", Severity.FIX, where=SERVICED, also=(MONITORED, AUDIBLE), source="the profile's interval for a system that reports, or for one that only sounds",
      compares="the months between services that are agreed with the most that the profile allows",
      mends="Agree services as often as the profile asks, or take over its interval by the company's own rule.")
def service_interval_long(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """Services are agreed too far apart.

    Police and insurer count on the interval of the standard; what fails between two visits is found by a burglar first.
    """
    name, agreed = interval_name(papers.profile, papers.job.monitoring is not None), papers.job.service.every_months
    if name not in papers.profile.limits:
        yield Unchecked(f"the profile has no limit {name}")
    elif agreed > papers.profile.limits[name].value:
        yield Hit(EVERY, f"One service every {count(agreed, 'month')} is agreed; {limit_text(papers, name)} is the {papers.profile.limits[name].means}.",
                  f"Agree one every {limit_text(papers, name)} or sooner.",
                  (Value("agreed", str(agreed), "months", EVERY), limited(papers, name, "at most")))


@rule("service-out-of-month", Severity.ASK, where=VISITED, needs=(COMES_INTO_USE,), also=(MONITORED, AUDIBLE, WINDOW),
      source=BULLETIN,
      compares="the day of each visit with the time in which the nearest service is due",
      mends="Move the visit into the time of a service.")
def service_out_of_month(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A visit lies outside the time in which a service is due.

    It does not count as that service: the next one is due as if there had been none, and the certificate lapses.
    """
    given = given_of(papers, results.as_of)
    for index, visit in enumerate(papers.job.service.visits):
        due = due_of(papers.profile, given, visit.on)
        if isinstance(due, Unknown):
            yield Unchecked(due.reason)
            return
        if not on_time(visit.on, due):
            at = f"{VISITS}.{index}.on"
            yield Hit(at, f"The visit on {day(visit.on)} is on time for no service; the nearest, service {due.number}, is due in {month(due.month.first)}, "
                      f"from {day(due.earliest)} to {day(due.latest)}.", f"Move it to a day from {day(due.earliest)} to {day(due.latest)}.",
                      (Value("visit", day(visit.on), "", at), *_time(due), Value("in use from", day(given.in_use), "", IN_USE)))


def _time(due: Due) -> tuple[Value, ...]:
    origin = f"counted from {IN_USE}"
    return Value("not before", day(due.earliest), "", origin), Value("not after", day(due.latest), "", origin)


@rule("service-missed", Severity.ASK, where=SERVICED, needs=(COMES_INTO_USE,), also=(MONITORED, AUDIBLE, WINDOW), source=BULLETIN,
      compares="the services whose time is over with the visits that the job file names",
      mends="Write the visit down if it was made, or make it now and tell whoever counts on it.")
def service_missed(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """The time of a service is over, and no visit was on time for it.

    Nobody knows whether the system still works; police and insurer can refuse to count it.
    """
    given = given_of(papers, results.as_of)
    # The last whose time is over: who writes that one down has its due month in order again.
    due = service_number(papers.profile, given, given.first_service - 1)
    if isinstance(due, Unknown):
        raise NotChecked(due.reason)
    if due and not any(on_time(one.on, due) for one in papers.job.service.visits):
        last = max((one.on for one in papers.job.service.visits if one.on <= due.latest), default=None)
        yield Hit(VISITS, f"Service {due.number} was due in {month(due.month.first)}, up to {day(due.latest)}, and the job file names no visit in its time.",
                  "Write the visit down if it was made, or make it now and tell whoever counts on it.",
                  (Value("visit", day(last) if last else "none", "", VISITS), *_time(due)))


@rule("permit-ends-before-service", Severity.ASK, where=USED, source=PRACTICE,
      compares="the last day of each permit with the month of the next service", mends="Have it renewed in time, or look at it before the service.")
def permit_ends_before_service(papers: Papers, results: Results) -> Iterator[Hit]:
    """A permit ends before the next service.

    Nobody of the company looks at the system between now and then, and from that day on nobody is sent.
    """
    yield from _ends(papers, results, "permit")


@rule("licence-ends-before-service", Severity.ASK, where=USED, source=PRACTICE, reads=LICENCES,
      compares="the last day of each licence of the company with the month of the next service",
      mends="Have it renewed before the service.")
def licence_ends_before_service(papers: Papers, results: Results) -> Iterator[Hit]:
    """A licence of the company ends before the next service.

    Without it the company may not do that service, or not put its number under it.
    """
    yield from _ends(papers, results, "licence")


def _ends(papers: Papers, results: Results, kind: str) -> Iterator[Hit]:
    """What still holds when the system comes into use, and ends before the next service's month is over."""
    service = next((one for one in results.dates.entries if one.kind == "service"), None)
    for one in results.dates.entries:
        if one.kind == kind and service and day_wanted(papers, results) <= one.last < service.last:
            yield Hit(one.source, f"{one.about} ends on {day(one.last)}, before the month of the next service, {month(service.first)}, is over.",
                      "Have it renewed, and write the new last day.",
                      (Value("last day", day(one.last), "", one.source), Value("next service", month(service.first), "", f"counted from {IN_USE}")))


@rule("unit-past-date", Severity.FIX, where=DATED, source=SHEET,
      compares="the day printed on each unit with the day for which the job is worked out, or that of coming into use",
      mends="Fit a new unit, and write down the day printed on it.")
def unit_past_date(papers: Papers, results: Results) -> Iterator[Hit]:
    """A unit is past the day by which it must be replaced.

    Its sensor is spent: it may test well and miss the real thing.
    """
    wanted = day_wanted(papers, results)
    for name, device in papers.job.devices.items():
        if device.replace_by and device.replace_by < wanted:
            at = f"job.devices.{name}.replace_by"
            yield Hit(at, f"{name} was to be replaced by {day(device.replace_by)}.", f"Fit a new {papers.sheet_of[name].name}, and write the day printed on it.",
                      (Value("replace by", day(device.replace_by), "", at), Value("then", "over", "", AS_OF)))
