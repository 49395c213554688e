"""What many rules share: the jobs that they are about, what they cannot do without, and how a limit stands among the values."""
from generator.model.limits import YES_NO
from generator.model.papers import Papers
from generator.rules.finding import Value
from generator.rules.registry import Need, Where

MONITORED = Where("the system reports to a station", lambda papers: papers.job.monitoring is not None)
AUDIBLE = Where("the system only sounds", lambda papers: papers.job.monitoring is None)
CONFIRMED = Where("alarms are confirmed before anybody is sent",
                  lambda papers: papers.job.monitoring is not None and papers.job.monitoring.confirmation not in (None, "none"))
SEQUENTIAL = Where("alarms are confirmed by a second zone",
                   lambda papers: papers.job.monitoring is not None and papers.job.monitoring.confirmation == "sequential")

PEOPLE = Need("people.yaml", lambda papers, results: "" if papers.people else "there is no people.yaml")
AGREEMENT = Need("the agreement", lambda papers, results: "" if papers.job.agreement else "the job file holds no agreement")

# Where the day comes from that a date was held against; the day itself is no value compared, else an acceptance would lapse
# with every day.
AS_OF = "the day for which this is worked out"


def limited(papers: Papers, limit: str, name: str = "limit") -> Value:
    """A limit of the profile as one of the values compared, with its source."""
    entry, cited = papers.profile.limits[limit], papers.profile.source_of(limit).cited()
    return Value(name, entry.shown(), "", cited) if entry.unit == YES_NO else Value(name, f"{entry.value:g}", entry.unit or "", cited)


def limit_text(papers: Papers, limit: str) -> str:
    """A limit as a sentence says it: "24 h"."""
    return papers.profile.limits[limit].shown()
