"""Does the station still hear the system when something fails, and is the transmission the one that was asked for?"""
from collections.abc import Iterator

from generator.calc.power.power_of_job import STANDBY
from generator.calc.results import Results
from generator.calc.station.categories import reaches
from generator.calc.station.transmission import MAINS, ROUTER, Outlook
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.rules.asked import MONITORED
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import Need, NotChecked, Where, rule
from generator.tables.sources import PRACTICE
from generator.tables.transmission import CARRIED_BY, CATEGORIES, PATHS_OF
from generator.terms.show import count, digits, sentence_list

AT = "job.monitoring.paths"
ASKED, GIVEN = "job.monitoring.category_asked", "job.monitoring.category_given"
SUPPLY = "Give the router a standby supply, or add a path that passes no router and that the control unit feeds; write it into the proposal."
SOME_PATH = Need("a path to the station", lambda papers, results: "" if papers.job.monitoring.paths else
                 "the job file names no path to the station; write paths under monitoring")
WANTED = Where("a category of transmission is asked for or given", lambda papers: papers.job.monitoring is not None and bool(
    papers.job.monitoring.category_asked or papers.job.monitoring.category_given))
BOTH = Where("a category of transmission is asked for",
             lambda papers: papers.job.monitoring is not None and papers.job.monitoring.category_asked is not None)
SEVERAL = Where("the system reports over several paths", lambda papers: papers.job.monitoring is not None and len(papers.job.monitoring.paths) > 1)


@rule("path-dies-with-mains", Severity.FIX, where=MONITORED, needs=(SOME_PATH,), limits=(STANDBY,), source=PRACTICE,
      compares="how long the path that lasts longest carries on without mains with how long the control unit must", mends=SUPPLY)
def path_dies_with_mains(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """No path to the station lasts as long without mains as the control unit must.

    The system stands by for hours and nobody hears it: a router without a battery is gone within minutes, and whoever cuts the
    mains cuts the alarm.
    """
    found = results.transmission
    if isinstance(found.asked_h, Unknown):
        raise NotChecked(found.asked_h.reason)
    paths, hours = found.failure(MAINS).paths, found.asked_h.value
    lasting = [one for one in paths if not isinstance(one.hours, Unknown)]
    if any(one.hours is None or one.hours >= hours for one in lasting):
        return
    for one in paths:
        if isinstance(one.hours, Unknown):
            yield Unchecked(one.hours.reason)
            return
    best = max(lasting, key=lambda one: one.hours)
    asked = found.asked_h.shown()
    yield Hit(_field(best), f"{_lasts(best)}; the control unit must carry on for {asked}.",
              f"Give the {'router' if papers.job.monitoring.paths[best.path].router else 'modem'} of path {best.path} a standby supply for {asked} or "
              "more, or add a path that passes no router and that the control unit feeds; write it into the proposal.",
              (*(Value(f"path {one.path}", digits(one.hours), "h", _field(one)) for one in lasting),
               Value("control unit, at least", digits(hours), "h", found.asked_h.origin)))


def _field(one: Outlook) -> str:
    return f"{AT}.{one.path}.standby_h"


def _lasts(one: Outlook) -> str:
    if one.dies:
        return f"Without mains path {one.path} is gone at once, and no other is left"
    return f"Without mains path {one.path} carries on for {digits(one.hours)} h, and no other for longer"


@rule("category-below", Severity.STOP, where=BOTH, source=f"{CATEGORIES.cited()}; reporting times as the profile holds them",
      needs=(Need("the category given", lambda papers, results: "" if papers.job.monitoring.category_given else
                  "the job file does not say which category is given; write category_given under monitoring"),),
      compares="the category of the transmission that is given with the one that is asked for",
      mends="Install a transmission of the category asked for, or have whoever asks agree to another in writing.")
def category_below(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """The transmission given does not reach the category that is asked for.

    The insurer can refuse the claim and the police the response: the customer pays for a system that does not count.
    """
    one = results.transmission.category
    if isinstance(one.reached, Unknown):
        yield Unchecked(one.reached.reason)
    elif not one.reached:
        enough = sentence_list([name for name in PATHS_OF if reaches(papers.profile, name, one.asked) is True], "or")
        yield Hit(GIVEN, f"{one.asked} is asked for, and {one.given} is given.",
                  f"Install {enough}, or have whoever asks for {one.asked} agree to {one.given} in writing.",
                  (Value("asked", one.asked, "", ASKED), Value("given", one.given, "", GIVEN)))


@rule("paths-fewer-than-asked", Severity.STOP, where=WANTED, source=CATEGORIES.cited(),
      compares="the paths to the station with how many the category asked for, or given, is made of",
      mends="Add a path of another kind, or correct the category.")
def paths_fewer_than_asked(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """There are fewer paths to the station than the category is made of.

    With one path there is no other to report that it failed: one cut cable, and nobody knows.
    """
    paths = papers.job.monitoring.paths
    kinds = [CARRIED_BY[one.kind] for one in paths.values()]
    others = [words for words in CARRIED_BY.values() if words not in kinds]
    for field, category in ((ASKED, results.transmission.category.asked), (GIVEN, results.transmission.category.given)):
        wanted = PATHS_OF.get(category, 0)
        if category and not wanted:
            yield Unchecked("what a custom category demands stands in its own papers")
            return
        if len(paths) < wanted:
            yield Hit(AT, f"{category} is made of {count(wanted, 'path')}; {count(len(paths), 'path')} {'is' if len(paths) == 1 else 'are'} planned"
                      f"{f': {sentence_list(kinds)}' if kinds else ''}.",
                      f"Add one of another kind ({sentence_list(others, 'or')}), or correct the category.",
                      (Value("paths", str(len(paths)), "", AT), Value("wanted", str(wanted), "", f"{field}: {category}, {CATEGORIES.cited()}")))
            return


@rule("paths-share-router", Severity.FIX, where=SEVERAL, source=PRACTICE,
      compares="the paths that pass a router of the house with all paths",
      mends="Take one path past the router, or add one that needs none.")
def paths_share_router(papers: Papers, results: Results) -> Iterator[Hit]:
    """Every path to the station passes a router of the house.

    Two paths that end at one box are one path: when it hangs or is unplugged, the station hears nothing.
    """
    failed = results.transmission.failure(ROUTER)
    if failed and failed.silent:
        yield Hit(AT, f"Paths {sentence_list([one.path for one in failed.paths])} all pass a router of the house: without it no path is left.",
                  "Take one path past the router, or add one that needs none.",
                  (Value("paths past the router", str(len([one for one in failed.paths if not one.dies])), "", AT),
                   Value("paths", str(len(failed.paths)), "", AT)))
