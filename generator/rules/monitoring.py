"""Does the station hear often enough that the line lives, can it take the account, and does the way last?"""
import string
from collections.abc import Iterator

from generator.calc.days.dates import Month
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.asked import AS_OF, MONITORED, limit_text, limited
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import Need, NotChecked, Where, rule
from generator.tables.sources import JOB_FILE
from generator.terms.show import count, day, number, sentence_list

TEST = "test_interval_h"
DC05, DC09_LEAST, DC09_MOST = "account_dc05_characters", "account_dc09_least_characters", "account_dc09_most_characters"
SOAK_LEAST, SOAK_MOST = "soak_least_days", "soak_most_days"
LINE_YEAR, LINE_MONTH = "analogue_end_year", "analogue_end_month"
ANALOGUE = "phone-line"
FORMAT = Need("the format of the events", lambda papers, results: "" if papers.job.monitoring.format else
              "the job file does not say in which format events are sent")
OVER_ANALOGUE = Where("a path uses an analogue telephone line", lambda papers: papers.job.monitoring is not None and any(
    one.kind == ANALOGUE for one in papers.job.monitoring.paths.values()))
# The bounds of an account's length, by the format of the events.
LENGTH_OF = {"dc-05": (DC05, DC05), "dc-09": (DC09_LEAST, DC09_MOST)}
INTERVAL = "job.monitoring.test_interval_h"


@rule("test-interval-missing", Severity.STOP, where=MONITORED, limits=(TEST,),
      compares="the agreement with the station with the time between automatic tests",
      mends="Write test_interval_h: and test_at: under monitoring:, as the station agreed to watch them.",
      firm="a line that nobody tests can be dead for weeks before anybody knows")
def interval_missing(papers: Papers, results: Results) -> Iterator[Hit]:
    """A monitored system sends no automatic test.

    Nobody sees that it cannot report any more until it has to.
    """
    monitoring = papers.job.monitoring
    if monitoring.test_interval_h is None:
        longest = limit_text(papers, TEST)
        yield Hit(INTERVAL, f"{monitoring.station} is to be told of alarms, and no time between automatic tests is given; {longest} is the "
                  f"{papers.profile.limits[TEST].means}.",
                  "Write test_interval_h: and test_at: under monitoring:, and match the agreement.",
                  (Value("test interval", "none", "", INTERVAL), *_promised(papers), limited(papers, TEST, "at most")))


def _promised(papers: Papers) -> tuple[Value, ...]:
    """What the agreement promises, if the job file says it."""
    agreed = papers.job.monitoring.agreed_test_interval_h
    return () if agreed is None else (Value("promised", str(agreed), "h", "job.monitoring.agreed_test_interval_h"),)


@rule("test-interval-long", Severity.STOP, where=MONITORED, limits=(TEST,), source=JOB_FILE,
      compares="the time between automatic tests with what the agreement promises and with the profile's longest",
      mends="Set test_interval_h to the shorter of the two, and tell the station; or have the agreement changed.")
def interval_long(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """Automatic tests come less often than was promised, or than the profile allows.

    Between two tests nobody knows whether the system can still report; the customer pays for the shorter time.
    """
    monitoring, longest = papers.job.monitoring, papers.profile.limits[TEST].value
    given, agreed = monitoring.test_interval_h, monitoring.agreed_test_interval_h
    if agreed is None:
        yield Unchecked("the job file does not say which test interval the agreement promises")
    if given is None:
        return
    over = ([f"the agreement promises one every {agreed} h"] if agreed is not None and given > agreed else []) + (
        [f"{limit_text(papers, TEST)} is the {papers.profile.limits[TEST].means}"] if given > longest else [])
    if over:
        shorter = longest if agreed is None else min(agreed, longest)
        yield Hit(INTERVAL, f"One test every {given} h; {sentence_list(over)}.",
                  f"Set test_interval_h to {number(shorter)} or less, and tell the station.",
                  (Value("test interval", str(given), "h", INTERVAL), *_promised(papers), limited(papers, TEST, "at most")))


@rule("account-form", Severity.STOP, where=MONITORED, needs=(FORMAT,), limits=(DC05, DC09_LEAST, DC09_MOST),
      compares="length and characters of the account with the format in which events are sent",
      mends="Ask the station for the account that it has in this format; never pad or cut one.",
      firm="an account that the format cannot hold reaches the station as another, or not at all")
def account_form(papers: Papers, results: Results) -> Iterator[Hit]:
    """The account cannot be sent in the agreed format.

    Padded or cut, it is somebody else's, and the police go to another house.
    """
    monitoring, at = papers.job.monitoring, "job.monitoring.account"
    least, most = LENGTH_OF[monitoring.format]
    odd = list(dict.fromkeys(one for one in monitoring.account if one not in string.hexdigits))
    length = len(monitoring.account)
    if odd or not papers.profile.limits[least].value <= length <= papers.profile.limits[most].value:
        wanted = limit_text(papers, least) + ("" if least == most else f" to {limit_text(papers, most)}")
        holds = f" and holds {sentence_list([f'“{one}”' for one in odd])}" if odd else ""
        bounds = (limited(papers, least, "takes"),) if least == most else (limited(papers, least, "at least"), limited(papers, most, "at most"))
        yield Hit(at, f'Account "{monitoring.account}" has {count(length, "character")}{holds}; {monitoring.format} takes {wanted}, digits and '
                  "letters A to F.", "Ask the station which account is meant; never pad or cut it.",
                  (Value("account", monitoring.account, "", at), Value("characters", str(length), "", at),
                   Value("format", monitoring.format, "", "job.monitoring.format"), *bounds))


@rule("phone-line-ends", Severity.FIX, where=OVER_ANALOGUE, limits=(LINE_YEAR, LINE_MONTH),
      compares="the paths over analogue telephone lines with the month in which such lines end",
      mends="Put another path in its place, and write to customer and insurer.")
def phone_line_ends(papers: Papers, results: Results) -> Iterator[Hit]:
    """A path uses an analogue telephone line, and such lines end.

    After that month the system reports nothing; a digital line from the same socket carries no power when the mains fails.
    """
    limits = papers.profile.limits
    try:
        month = Month(int(limits[LINE_YEAR].value), int(limits[LINE_MONTH].value))
    except ValueError as wrong:
        raise NotChecked(f"the profile's end of analogue lines is no month: {wrong}") from wrong
    over = results.as_of > month.last
    for key, path in papers.job.monitoring.paths.items():
        if path.kind == ANALOGUE:
            at = f"job.monitoring.paths.{key}.kind"
            yield Hit(at, f"Path {key} goes over an analogue line; such lines {'ended' if over else 'end'} by {day(month.last)}.",
                      "Replace the path, and write to customer and insurer.",
                      (Value("path", path.kind, "", at), Value("lines end", day(month.last), "", papers.profile.source_of(LINE_YEAR).cited()),
                       Value("lines", "ended" if over else "still there", "", AS_OF)))


@rule("soak-time-unusual", Severity.ASK, where=MONITORED, limits=(SOAK_LEAST,), also=(SOAK_MOST,),
      compares="the agreed soak period with the shortest and the longest that are usual",
      mends="Agree a usual soak period with the station, or accept this and say why.")
def soak_time_unusual(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """The soak period is shorter or longer than usual.

    Too short, first mistakes count as false calls; too long, nobody is sent for weeks while the customer believes otherwise.
    """
    days, at = papers.job.monitoring.soak_days, "job.monitoring.soak_days"
    if days is None:
        yield Unchecked("the job file does not say how long the soak period is")
        return
    for limit, name, outside in ((SOAK_LEAST, "at least", lambda wanted: days < wanted), (SOAK_MOST, "at most", lambda wanted: days > wanted)):
        if limit in papers.profile.limits and outside(papers.profile.limits[limit].value):
            yield Hit(at, f"{count(days, 'day')} agreed; {limit_text(papers, limit)} is the {papers.profile.limits[limit].means}.",
                      f"Agree {name} {limit_text(papers, limit)} with the station.",
                      (Value("soak period", str(days), "days", at), limited(papers, limit, name)))
